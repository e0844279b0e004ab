"""Numbers as drafts write them: figures, number words, ordinals, `twice`, fractions.

Each function takes the whole text of a number, in any case, and returns None for anything else.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

from ..later import later

_UNITS = {
    "zero": 0,
    "one": 1,
    "two": 2,
    "three": 3,
    "four": 4,
    "five": 5,
    "six": 6,
    "seven": 7,
    "eight": 8,
    "nine": 9,
    "ten": 10,
    "eleven": 11,
    "twelve": 12,
    "thirteen": 13,
    "fourteen": 14,
    "fifteen": 15,
    "sixteen": 16,
    "seventeen": 17,
    "eighteen": 18,
    "nineteen": 19,
}
_TENS = {
    "twenty": 20,
    "thirty": 30,
    "forty": 40,
    "fifty": 50,
    "sixty": 60,
    "seventy": 70,
    "eighty": 80,
    "ninety": 90,
}
_IRREGULAR = {
    "first": "one",
    "second": "two",
    "third": "three",
    "fifth": "five",
    "eighth": "eight",
    "ninth": "nine",
    "twelfth": "twelve",
}
_TIMES = {"once": 1, "twice": 2, "thrice": 3}

_FIGURES = later(r"[0-9]+")
_ORDINAL_FIGURES = later(r"([0-9]+)(?:st|nd|rd|th|(?-i:(?<=[23])d))", re.IGNORECASE)
_BETWEEN = later(r"\s*-\s*|\s+")
_DECIMAL = later(r"[0-9]*\.[0-9]+|[0-9]+")
_DECIMAL_COMMA = later(r"([0-9]+),([0-9]{1,2}|[0-9]{4,})")
_VULGAR = later(r"(?:([0-9]+)(?:\s*-\s*|\s+))?([0-9]+)\s*[/\u2044]\s*([0-9]+)")
_ONE_SIGN = later(r"(?:([0-9]+)(?:\s*-\s*|\s*))?(\S)")


def cardinal(text: str) -> int | None:
    """Return a whole number from 0: `24`, `twelve`, `forty-two`, `forty two`, `one hundred and six`.

    Words go up to nine hundred and ninety-nine.
    """
    text = text.strip()
    if _FIGURES.fullmatch(text):
        return int(text)
    return _in_words(_BETWEEN.split(text.lower()))


def ordinal(text: str) -> int | None:
    """Return the number of an ordinal: `1st`, `22nd`, `3d`, `first`, `twenty-first`, `hundredth`.

    A slip in the ending (`2th`) is read as what it must mean. Zero has no ordinal.
    """
    text = text.strip()
    if figures := _ORDINAL_FIGURES.fullmatch(text):
        return int(figures[1]) or None
    words = _BETWEEN.split(text.lower())
    last = _without_ending(words[-1])
    return (_in_words([*words[:-1], last]) or None) if last else None


def times_word(text: str) -> int | None:
    """Return how often `once`, `twice` or `thrice` says."""
    return _TIMES.get(text.strip().lower())


def fraction(text: str) -> float | None:
    """Return a number that may have a part: `½`, `3½`, `1/2`, `2 1/2`, `2-1/2`, `2.5`, `2,5` or whole, `5`.

    A comma before exactly three figures (`2,500`) may set off thousands, and is no number here.
    """
    text = text.strip()
    if _DECIMAL.fullmatch(text):
        return float(text)
    if comma := _DECIMAL_COMMA.fullmatch(text):
        return float(f"{comma[1]}.{comma[2]}")
    if vulgar := _VULGAR.fullmatch(text):
        whole, over, under = (int(part or 0) for part in vulgar.groups())
        return whole + over / under if under else None
    if (sign := _ONE_SIGN.fullmatch(text)) and unicodedata.decomposition(sign[2]).startswith("<fraction>"):
        return int(sign[1] or 0) + unicodedata.numeric(sign[2])
    return None


def numbers_of_two_words() -> Iterator[str]:
    """Give the cardinals and ordinals of two words, with hyphen and without: `twenty-four`, `twenty four`."""
    ordinals = [word for word in _IRREGULAR if word not in ("twelfth",)] + ["fourth", "sixth", "seventh"]
    units = [word for word, value in _UNITS.items() if 1 <= value <= 9]
    return (f"{tens}{between}{unit}" for tens in _TENS for unit in (*units, *ordinals) for between in ("-", " "))


def _in_words(words: list[str]) -> int | None:
    """Add up the words of a cardinal below a thousand."""
    if "hundred" not in words:
        return _below_hundred(words)
    place = words.index("hundred")
    hundreds = 1 if words[:place] in ([], ["a"]) else _below_hundred(words[:place])
    rest = words[place + 1 :]
    if rest[:1] == ["and"] and len(rest) > 1:
        rest = rest[1:]
    more = _below_hundred(rest) if rest else 0
    if hundreds is None or more is None or not 1 <= hundreds <= 9 or (rest and not more):
        return None
    return hundreds * 100 + more


def _below_hundred(words: list[str]) -> int | None:
    match words:
        case [word]:
            return _UNITS.get(word, _TENS.get(word))
        case [tens, unit] if tens in _TENS and 1 <= _UNITS.get(unit, 0) <= 9:
            return _TENS[tens] + _UNITS[unit]
        case _:
            return None


def _without_ending(word: str) -> str | None:
    """Return the cardinal word inside an ordinal one (`twentieth`: `twenty`), None where there is none."""
    if word in _IRREGULAR:
        return _IRREGULAR[word]
    if word.endswith("ieth"):
        return f"{word[:-4]}y"
    return word[:-2] if word.endswith("th") else None
