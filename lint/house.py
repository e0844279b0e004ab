"""The house style: what a publisher has settled about wording and layout, and how grave each rule is to them.

It is a TOML file, `rowcall.toml`, or the table `tool.rowcall` of a `pyproject.toml`, in the draft's folder or the
nearest one above it. What a style doesn't name is left to the draft.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from .checked import CheckedFile, Keys, SettingsError
from .finding import Finding, Level

FILE, SHARED_FILE, TABLE = "rowcall.toml", "pyproject.toml", ("tool", "rowcall")
LISTS = (
    "72 (80, 88)",
    "72 (80-88)",
    "72 (80:88)",
    "72 (80/88)",
    "72 [80, 88]",
    "72/80/88",
    "72, 80, 88",
    "(72, 80, 88)",
)
COUNTS = ("(72 sts)", "(72)", "[72 sts]", "[72]", "- 72 sts", "- 72", "= 72 sts", "= 72", "72 sts")
NUMERALS = ("figures", "words")
TERMS = ("US", "UK")
UNITS = ("in", "cm")
SILENT, NEVER = "silent", "never"

_SETTINGS = ("terms", "spellings", "sizes", "counts", "headings", "numerals", "units", "sections", "levels", "fails-at")
_LEVELS = {level.word: level for level in sorted(Level, reverse=True)}
_MOST_BYTES = 1024 * 1024


@dataclass(frozen=True, slots=True)
class House:
    """A house style; None or empty where it leaves a thing open.

    `lists`, `counts`, `numerals` and `units` (in their order) are written as in the constants of this module.
    `spellings` leads from each spelling that isn't wanted to the one that is; `sections` are titles in their order.
    `levels` are those that rules get instead of their own, None for a silent one. `fails_at` is the level that fails:
    a word of `Level`, or `never`.
    """

    path: str | None = None
    terms: str | None = None
    lists: str | None = None
    counts: str | None = None
    round_word: str | None = None
    row_word: str | None = None
    numerals: str | None = None
    units: tuple[str, ...] = ()
    sections: tuple[str, ...] = ()
    spellings: Mapping[str, str] = field(default_factory=dict[str, str])
    levels: Mapping[str, Level | None] = field(default_factory=dict[str, Level | None])
    fails_at: str | None = None

    def weigh(self, finding: Finding, usual: Level) -> Level | None:
        """Return the level of a finding in this house, None where it is silent.

        `usual` is the level of its rule. What fell back to less than that, as it isn't sure, is never raised again.
        """
        if finding.rule not in self.levels:
            return finding.level
        level = self.levels[finding.rule]
        return level if level is None or finding.level >= usual else min(level, finding.level)


def read_house(text: str, path: str, rules: Collection[str], table: Keys = ()) -> House:
    """Read a house style; `rules` are the names of all rules, `table` the keys below which it stands.

    Raises `SettingsError` with every mistake in it.
    """
    file = CheckedFile(text, path, table)
    file.known((), file.values, _SETTINGS)
    headings = file.table("headings")
    file.known(("headings",), headings, ("round", "row"))
    house = House(
        path=path,
        terms=file.word(("terms",), file.values.get("terms"), TERMS),
        lists=file.word(("sizes",), file.values.get("sizes"), LISTS),
        counts=file.word(("counts",), file.values.get("counts"), COUNTS),
        round_word=_heading(file, headings, "round"),
        row_word=_heading(file, headings, "row"),
        numerals=file.word(("numerals",), file.values.get("numerals"), NUMERALS),
        units=file.words(("units",), file.values.get("units"), UNITS),
        sections=file.words(("sections",), file.values.get("sections")),
        spellings=_spellings(file),
        levels=_levels(file, rules),
        fails_at=file.word(("fails-at",), file.values.get("fails-at"), (*_LEVELS, NEVER)),
    )
    file.finish()
    return house


def find_house(folder: Path) -> tuple[Path, Keys] | None:
    """Return the file of the house style that holds in a folder, and the keys below which it stands in the file."""
    for place in (folder, *folder.parents):
        if (place / FILE).is_file():
            return place / FILE, ()
        if _shares(place / SHARED_FILE):
            return place / SHARED_FILE, TABLE
    return None


def load_house(file: Path, rules: Collection[str], table: Keys = ()) -> House:
    """Read the house style in a file. Raises `SettingsError` where it can't be read, too."""
    return read_house(settings_text(file), str(file), rules, table)


def settings_text(file: Path) -> str:
    """Return the text of a settings file. Raises `SettingsError` where it can't be read."""
    try:
        data = file.read_bytes()
        if len(data) > _MOST_BYTES:
            raise SettingsError([f"{file} is over {_MOST_BYTES // 1024**2} MB, too long for settings"])
        return data.decode("utf-8-sig")
    except OSError as error:
        raise SettingsError([f"{file} can't be read: {error.strerror or error}"]) from None
    except UnicodeDecodeError:
        raise SettingsError([f"{file} is not in UTF-8"]) from None


def _shares(file: Path) -> bool:
    """Tell whether a project's common settings file holds a house style."""
    if not file.is_file():
        return False
    return re.search(r"^\s*\[{1,2}\s*tool\s*\.\s*rowcall\b", settings_text(file), re.MULTILINE) is not None


def _heading(file: CheckedFile, headings: Mapping[str, object], key: str) -> str | None:
    return file.word(("headings", key), headings.get(key))


def _spellings(file: CheckedFile) -> dict[str, str]:
    """Read `sk = ["skip", "miss"]`: the spelling that is wanted, and those that aren't."""
    wanted: dict[str, str] = {}
    for spelling, others in file.table("spellings").items():
        for other in file.words(("spellings", spelling), others):
            if other in wanted or other == spelling:
                file.trouble(("spellings", spelling), f'"{other}" can\'t be wanted as two spellings')
            wanted[other] = spelling
    return wanted


def _levels(file: CheckedFile, rules: Collection[str]) -> dict[str, Level | None]:
    levels: dict[str, Level | None] = {}
    for rule, value in file.table("levels").items():
        word = file.word(("levels", rule), value, (*_LEVELS, SILENT))
        if rule not in rules:
            file.no_such("rule", ("levels", rule), rule, rules)
        elif word is not None:
            levels[rule] = _LEVELS.get(word)
    return levels
