"""Numerals: round numbers in words, in letters or behind a sign, put into figures for the headings to be found."""

from __future__ import annotations

import re

from ..later import later
from .numbers import cardinal, ordinal

_UNITS = "one|two|three|four|five|six|seven|eight|nine"
_TENS = "twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety"
_CARDINAL = (
    rf"(?:(?:{_TENS})(?:[- ](?:{_UNITS}))?|{_UNITS}|ten|eleven|twelve|(?:thir|four|fif|six|seven|eigh|nine)teen)"
)
_NTH = "first|second|third|fourth|fifth|sixth|seventh|eighth|ninth"
_LATER = (
    "tenth|eleventh|twelfth|thirteenth|fourteenth|fifteenth|sixteenth|seventeenth|eighteenth|nineteenth|"
    "twentieth|thirtieth|fortieth|fiftieth"
)
_ORDINALS = rf"(?:(?:(?:{_TENS})[- ])?(?:{_NTH})|{_LATER})"
_FULL = r"(?:rounds?|rnds?|rows?)"


def _apart(words: str) -> str:
    """Let words begin where no letter stands before; the first letter comes first, so that a search is quick."""
    return "|".join(rf"{word[0]}(?<!\w{word[0]}){word[1:]}" for word in words.split("|"))


_TENS_AND = "|".join(rf"{ten}[- ](?:{_NTH})" for ten in _apart(_TENS).split("|"))
# in small letters
_AFTER = later(rf"r(?<!\wr)(?<!(?:st|nd|rd|th) r)(?:ounds?|nds?|ows?)\.?\s+({_CARDINAL})\b")
_BEFORE = later(rf"({_TENS_AND}|{_apart(_NTH)}|{_apart(_LATER)})(?=(?:\s+(?:and|to|&)\s+{_ORDINALS})?\s+{_FULL}\b)")
_SIGN = later(
    r"^(?P<lead>[ \t]*)#(?P<from>\d{1,3})(?:(?P<to>\s*(?:to|-|and|&)\s*)#(?P<last>\d{1,3}))?[ \t]",
    re.IGNORECASE | re.MULTILINE,
)


# `Round IV`, `Rows II-VI`; a single I is left to the headings, which read it as a figure of a scan
_ROMAN_DIGITS = {"I": 1, "V": 5, "X": 10, "L": 50}
_ROMAN_NUMBER = r"(?:(?:XL|L?X{0,3})(?:IX|IV|V?I{0,3})(?<=[IVXL])\b)"
_ROMAN = later(
    rf"\b((?:[Rr]ounds?|[Rr]nds?|[Rr]ows?|ROUNDS?|RNDS?|ROWS?)\.?\s+)({_ROMAN_NUMBER})"
    rf"(?:(\s*(?:-|to|and|&|\u2013)\s*)({_ROMAN_NUMBER}))?"
)
# `1. rnd`, `2.-4. rnd`
_DOTTED = later(rf"^([ \t]*\d{{1,3}})(?:\.(\s*-\s*\d{{1,3}}))?\.(?=\s*{_FULL}\b)", re.IGNORECASE | re.MULTILINE)


_LETTER = later(r"\b((?:[Rr]ounds?|[Rr]nds?|[Rr]ds?|[Rr]ows?|ROUNDS?|RNDS?|RDS?|ROWS?)\.?[ \t]+)([A-I])\b")
_LETTERED = later(rf"^[ \t]*{_LETTER.pattern}(?=[ \t]*[):.\u2013-])", re.MULTILINE)

_FIGURED = later(rf"(?im)^[ \t*_#]*(?:{_FULL}|rds?|r)\.?[ \t]?\d")
_ALSO = later(rf"(?i:({_FULL}\.?[ \t]+\d[ \t]*(?:and|&|to|-|\u2013|,)[ \t]*))([A-I])\b")  # the C of `rnds B and C`


def lettered(text: str) -> str:
    """Write rounds that go by letters as numbers where a draft has them from A on: `Rd C)` is Rd 3. Offsets stay."""
    letters = [match[2] for match in _LETTERED.finditer(text)]
    following = zip(letters, [*letters[1:], "A"], strict=True)
    numbered = _FIGURED.search(text) is not None  # rounds with numbers as well: the letters stay their names
    if (
        numbered
        or letters[:2] != ["A", "B"]
        or any(after not in ("A", chr(ord(before) + 1)) for before, after in following)
    ):
        return text
    return _ALSO.sub(_in_figure, _LETTER.sub(_in_figure, text))


def _in_figure(match: re.Match[str]) -> str:
    return f"{match[1]}{ord(match[2]) - ord('A') + 1}"


def numerals(text: str) -> str:
    """Write round numbers that are words or stand after `#` as other headings do: `ROUND 2`, `2th round`, `#4 to 6)`.

    So are Roman numerals, and numbers with full stops before the word: `6.-12. rnd` is 6-12 rnd. Every offset stays
    what it was: what the figures don't fill becomes blanks.
    """
    text = _ROMAN.sub(_in_figures, text)
    text = _DOTTED.sub(_undotted, text)
    small = text.lower()
    for match in _AFTER.finditer(small):
        text = _put(text, match, str(cardinal(match[1])).rjust(len(match[1])))
    for match in _BEFORE.finditer(small):
        text = _put(text, match, f"{ordinal(match[1])}th".ljust(len(match[1])))
    return _SIGN.sub(_signed, text) if "#" in text else text


def _in_figures(match: re.Match[str]) -> str:
    first = _from_roman(match[2])
    last = match[3] + _from_roman(match[4]) if match[4] else ""
    return match[1] + first + last


def _from_roman(numeral: str) -> str:
    """Return a Roman numeral in figures, as wide as it was: a smaller digit before a larger one is taken from it."""
    digits = [_ROMAN_DIGITS[digit] for digit in numeral]
    number = sum(-one if one < after else one for one, after in zip(digits, (*digits[1:], 0), strict=True))
    return str(number).rjust(len(numeral))


def _undotted(match: re.Match[str]) -> str:
    return f"{match[1]} {match[2]} " if match[2] else f"{match[1]} "


def _put(text: str, match: re.Match[str], number: str) -> str:
    return text[: match.start(1)] + number + text[match.end(1) :]


def _signed(match: re.Match[str]) -> str:
    last = f"{match['to']} {match['last']}" if match["last"] else ""
    return f"{match['lead']}#{match['from']}{last})"
