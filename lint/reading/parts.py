"""Parts: a stretch of one row between two marks that later rows refer to: `work from first * to 2nd * on row 10`."""

from __future__ import annotations

from collections.abc import Sequence

from ..later import later
from .marks import Item, kind, text_at
from .times import figure_at
from .words import Word

_REFERENCE = later(
    r"(?i)\bfrom\s+(?:the\s+)?(?:first|1st)?\s*(?P<mark>[*#+\u2020\u2021\u00a7])\s*to\s+(?:the\s+)?(?:second|2nd|next|last)?\s*(?P=mark)\s*"
    r"(?:on|of|in|as\s+(?:on|in|for))\s+(?:the\s+)?(?:row|rnd|round)\s*(?P<row>\d{1,3})"
)
_PASSED = frozenset({"noise", "first", "ordinal", "into", "next", "last"})
_MOST_WORDS = 12

Part = tuple[int, str]  # the number of the row, and the mark


def referred(text: str) -> frozenset[Part]:
    """Find the stretches that a draft refers to, by the number of their row and their mark."""
    return frozenset((int(match["row"]), match["mark"]) for match in _REFERENCE.finditer(text))


def marked(words: Sequence[Word], mark: str) -> tuple[int, int] | None:
    """Return the indices of the two marks in the words of a row; None where they aren't two."""
    found = [index for index, word in enumerate(words) if word.text == mark]
    return (found[0], found[1]) if len(found) == 2 else None


def part_at(items: Sequence[Item], at: int) -> tuple[Part, int] | None:
    """Read `from first # to 2nd # on row 10` from an index on: the part, and the index after it."""
    index = at + (kind(items, at) == "work")
    if kind(items, index) != "from":
        return None
    marks: list[str] = []
    while index < min(at + _MOST_WORDS, len(items)):
        index += 1
        if kind(items, index) == "round" and len(marks) == 2:
            row = figure_at(items, index + 1)
            same = marks[0] == marks[1] and row is not None and row.values[0] is not None
            return ((row.values[0] or 0, marks[0]), index + 2) if same and row is not None else None
        if kind(items, index) in _PASSED or text_at(items, index) in ("as", "second"):
            continue
        if len(text_at(items, index)) != 1 or len(marks) == 2:
            return None
        marks.append(text_at(items, index))
    return None
