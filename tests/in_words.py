"""Words and brackets of a small text, as the layers of reading above them get to see it."""

from __future__ import annotations

from collections.abc import Sequence

from rowcall.lint.draft import Span
from rowcall.lint.reading.figures import lift
from rowcall.lint.reading.letters import clean
from rowcall.lint.reading.marks import Group, Item, tree
from rowcall.lint.reading.words import Word, lexicon, words_of


def words(text: str, terms: str = "US", craft: str = "crochet") -> tuple[Word, ...]:
    """Return the labelled words of a text."""
    return words_of(clean(text), lexicon(craft, terms))


def items(text: str, sizes: int = 1, terms: str = "US") -> tuple[Item, ...]:
    """Return the words of a text with lists of figures lifted and brackets paired."""
    return tree(lift(words(text, terms), sizes)[0])[0]


def group_at(found: Sequence[Item]) -> int:
    """Return the index of the first bracket."""
    return next(index for index, item in enumerate(found) if isinstance(item, Group))


def told(text: str, span: Span | None) -> str | None:
    """Return the words of a span, None where there is none."""
    return None if span is None else text[span.start : span.end]


def after(text: str, found: Sequence[Item], end: int) -> str:
    """Return the words from the item at an index on."""
    return text[found[end].span.start :] if end < len(found) else ""
