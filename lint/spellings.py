"""How a draft spells its terms: what the reader had to mend, the abbreviation list, the abbreviations in use."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from .draft import Span


class Doubt(Enum):
    """What was wrong with the words that were mended."""

    WORD = "word"  # a word with a letter wrong, or one left out
    UNKNOWN = "unknown"  # a word among stitches that is nothing known; it was not mended
    FIGURE = "figure"  # a letter where a figure stands
    ALPHABET = "alphabet"  # a letter of another alphabet
    MARK = "mark"  # a sign where a mark of repeat stands
    TWICE = "twice"  # a word that stands twice running
    MISSING = "missing"  # words between which one is missing


@dataclass(frozen=True, slots=True)
class Mended:
    """A place where the draft's words were read as others: `to` is what they were taken for, "" where unknown."""

    span: Span
    to: str
    doubt: Doubt


@dataclass(frozen=True, slots=True)
class AbbreviationEntry:
    """An entry of the abbreviation list: `Sl st - slip stitch`.

    `stands_for` is what the term usually means and `meaning` what the entry's words name, both as ids of the trade
    tables; None where that isn't known. `contradicts` is the usual meaning in words where the two can't be
    the same under any terms. `used` tells whether the term stands anywhere outside the list.
    """

    term: Span
    words: Span
    key: str
    stands_for: str | None = None
    meaning: str | None = None
    contradicts: str | None = None
    used: bool = True


@dataclass(frozen=True, slots=True)
class AbbreviationUsed:
    """An abbreviation in the rounds, where it first stands; `stands_for` is its id in the trade tables."""

    span: Span
    key: str
    stands_for: str
