"""Numerals: round numbers in words or behind a sign, put into figures for the headings to be found."""

from __future__ import annotations

import re

from .numbers import cardinal, ordinal

_UNITS = "one|two|three|four|five|six|seven|eight|nine"
_TENS = "twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety"
_CARDINAL = (
    rf"(?:(?:{_TENS})(?:[- ](?:{_UNITS}))?|{_UNITS}|ten|eleven|twelve|(?:thir|four|fif|six|seven|eigh|nine)teen)"
)
_ORDINALS = (
    rf"(?:(?:(?:{_TENS})[- ])?(?:first|second|third|fourth|fifth|sixth|seventh|eighth|ninth)|tenth|eleventh|twelfth|"
    r"(?:thir|four|fif|six|seven|eigh|nine)teenth|(?:twent|thirt|fort|fift)ieth)"
)
_FULL = r"(?:rounds?|rnds?|rows?)"
_IN_WORDS = re.compile(
    rf"(?P<word>\b{_FULL}\.?\s+)(?P<number>{_CARDINAL})\b|\b(?P<nth>{_ORDINALS})(?=(?:\s+(?:and|to|&)\s+{_ORDINALS})?\s+{_FULL}\b)|"
    r"^(?P<lead>[ \t]*)#(?P<from>\d{1,3})(?:(?P<to>\s*(?:to|-|and|&)\s*)#(?P<last>\d{1,3}))?[ \t]",
    re.IGNORECASE | re.MULTILINE,
)


def numerals(text: str) -> str:
    """Write round numbers that are words or stand after `#` as other headings do: `ROUND 2`, `2th round`, `#4 to 6)`.

    Every offset stays what it was: what the figures don't fill becomes blanks.
    """
    return _IN_WORDS.sub(_in_figures, text)


def _in_figures(match: re.Match[str]) -> str:
    if match["number"]:
        return match["word"] + str(cardinal(match["number"])).rjust(len(match["number"]))
    if match["nth"]:
        return f"{ordinal(match['nth'])}th".ljust(len(match["nth"]))
    last = f"{match['to']} {match['last']}" if match["last"] else ""
    return f"{match['lead']}#{match['from']}{last})"
