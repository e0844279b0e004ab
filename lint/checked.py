"""Settings in TOML, read so that all their mistakes are told at once: file, line, what is allowed, the nearest."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import TypeGuard

from .later import later

Keys = tuple[str | int, ...]

_AT = later(r"\s*\(at line (\d+), column \d+\)|\s*\(at end of document\)")
_NAME = r"(?:[A-Za-z0-9_-]+|\"[^\"\n]*\"|'[^'\n]*')"
_HEADER = later(rf"\s*(\[\[?)\s*({_NAME}(?:\s*\.\s*{_NAME})*)\s*\]\]?\s*(?:#.*)?$")
_ENTRY = later(rf"\s*({_NAME}(?:\s*\.\s*{_NAME})*)\s*=")
_SAID = {
    "Invalid value": "there is no value, or a text without its quotation marks",
    "Cannot overwrite a value": "this is set twice",
    "Illegal character '\\n'": "a text in quotation marks is not closed",
    "Invalid statement": 'a setting reads name = "value"',
    "Expected ']' at the end of a table declaration": "a square bracket is not closed",
}
_NEAR = 60  # how alike a name must be, of 100, to be offered for a wrong one


class SettingsError(Exception):
    """Settings that can't be used; `troubles` are the sentences for the user, one a mistake."""

    def __init__(self, troubles: Sequence[str]) -> None:
        super().__init__("\n".join(troubles))
        self.troubles = tuple(troubles)


class CheckedFile:
    """A TOML file whose values are taken out one by one; each mistake is kept until `finish`.

    `table` are the keys below which the settings stand (`tool`, `rowcall`). Raises `SettingsError` for what is no TOML.
    """

    def __init__(self, text: str, path: str, table: Keys = ()) -> None:
        self._lines = text.splitlines()
        self._path = path
        self._table = table
        self._troubles: list[tuple[int, str]] = []
        try:
            values: object = tomllib.loads(text)
        except tomllib.TOMLDecodeError as error:
            raise SettingsError([self._no_toml(str(error))]) from None
        for key in table:
            values = values.get(str(key), {}) if is_table(values) else {}
        self.values: Mapping[str, object] = values if is_table(values) else {}

    def trouble(self, keys: Keys, message: str) -> None:
        """Keep a mistake in the value at some keys."""
        self._troubles.append((self._line(self._table + keys), message))

    def no_such(self, noun: str, keys: Keys, name: str, names: Collection[str]) -> None:
        """Complain of a name that is none of many, with the nearest one."""
        near = nearest(name, names)
        self.trouble(keys, f'there is no {noun} "{name}"' + (f', did you mean "{near}"?' if near else ""))

    def finish(self) -> None:
        """Raise `SettingsError` with all mistakes, if there were any."""
        if self._troubles:
            in_order = sorted(self._troubles, key=lambda trouble: trouble[0])
            raise SettingsError([f"{self._path}:{line}: {message}" for line, message in in_order])

    def known(self, keys: Keys, values: Mapping[str, object], names: Collection[str]) -> None:
        """Complain of keys that are not among those known."""
        for key in values:
            if key not in names:
                self.trouble((*keys, key), f'there is no setting "{key}"{self._allowed(key, names)}')

    def table(self, key: str) -> Mapping[str, object]:
        """Return the table below a key, an empty one where it isn't there."""
        value = self.values.get(key, {})
        if is_table(value):
            return value
        self.trouble((key,), f'"{key}" must be a table, headed [{key}]')
        return {}

    def word(self, keys: Keys, value: object, allowed: Collection[str] = ()) -> str | None:
        """Return a text, one of those allowed where some are given; None where it isn't set."""
        if value is None:
            return None
        name = keys[-1]
        if not isinstance(value, str) or not value.strip():
            self.trouble(keys, f'"{name}" must be a text in quotation marks{self._allowed("", allowed)}')
            return None
        if allowed and value not in allowed:
            self.trouble(keys, f'"{name}" can\'t be "{value}"{self._allowed(value, allowed)}')
            return None
        return value

    def words(self, keys: Keys, value: object, allowed: Collection[str] = ()) -> tuple[str, ...]:
        """Return a list of texts, none where it isn't set."""
        if value is None:
            return ()
        if not isinstance(value, list):
            self.trouble(keys, f'"{keys[-1]}" must be a list of texts in square brackets{self._allowed("", allowed)}')
            return ()
        items: list[object] = value  # pyright: ignore[reportUnknownVariableType]
        return tuple(word for item in items if (word := self.word(keys, item, allowed)) is not None)

    def number(self, keys: Keys, value: object, default: int) -> int:
        """Return a whole number from 1, the default where it isn't set."""
        if value is None:
            return default
        if isinstance(value, int) and not isinstance(value, bool) and value > 0:
            return value
        self.trouble(keys, f'"{keys[-1]}" must be a whole number from 1')
        return default

    def _allowed(self, wrong: str, names: Collection[str]) -> str:
        if not names:
            return ""
        near = nearest(wrong, names) if wrong else None
        if near is not None:
            return f', did you mean "{near}"? Allowed are {_listed(names)}'
        return f"; allowed are {_listed(names)}"

    def _no_toml(self, message: str) -> str:
        at = _AT.search(message)
        line = at[1] if at and at[1] else str(max(1, len(self._lines)))
        said = _AT.sub("", message)
        return f"{self._path}:{line}: {_SAID.get(said, f'this is no TOML: {said}')}"

    def _line(self, keys: Keys) -> int:
        """Return the line on which some keys stand, or else the table that they stand in."""
        places = dict(_places(self._lines))
        while keys and keys not in places:
            keys = keys[:-1]
        return places.get(keys, 1)


def is_table(value: object) -> TypeGuard[Mapping[str, object]]:
    """Tell whether a value of a TOML file is a table."""
    return isinstance(value, dict)


def nearest(name: str, names: Iterable[str]) -> str | None:
    """Return the name most like a wrong one, None where none is near."""
    from rapidfuzz import fuzz, process  # noqa: PLC0415 - needed only after a slip

    found = process.extractOne(name, sorted(names), scorer=fuzz.ratio, processor=str.lower, score_cutoff=_NEAR)
    return found[0] if found else None


def _listed(names: Iterable[str]) -> str:
    return ", ".join(f'"{name}"' for name in names)


def _places(lines: Sequence[str]) -> Iterator[tuple[Keys, int]]:
    """Give the keys that begin on each line; TOML's own reader doesn't tell where a value stood."""
    table: Keys = ()
    numbers: dict[Keys, int] = {}
    for number, line in enumerate(lines, start=1):
        if header := _HEADER.match(line):
            table = _keys(header[2])
            if header[1] == "[[":
                numbers[table] = numbers.get(table, -1) + 1
                table = (*table, numbers[table])
            yield table, number
        elif entry := _ENTRY.match(line):
            yield (*table, *_keys(entry[1])), number


def _keys(dotted: str) -> Keys:
    return tuple(name.strip("\"'") for name in re.findall(_NAME, dotted))
