"""Alike: words that a draft says again are read once, and what was read of them is moved to where they stand.

A draft says `Sc in each st around` on every other line. The same words, labelled alike, have the same steps, but for
where these stand.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass

from ..draft import Span
from ..moves import Move
from .words import Word


@dataclass(frozen=True, slots=True)
class _Read:
    """What was read of some words, and the words themselves."""

    span: Span
    words: Sequence[Word]
    result: object


@dataclass(frozen=True, slots=True)
class Found:
    """What was read before of the same words, moved to where they stand now, and where they stood first."""

    result: object
    first: int


class Alike:
    """Keeps what was read of the words of a draft."""

    def __init__(self) -> None:
        self._kept: dict[Hashable, list[_Read]] = {}

    def find(self, key: Hashable, span: Span, words: Sequence[Word]) -> Found | None:
        """Return what was read under a key of the same words, None where they stand for the first time."""
        for one in self._kept.get(key, ()):
            by = span.start - one.span.start
            if _alike(one.words, words, by):
                return Found(Move(one.span, by).of(one.result), one.span.start)
        return None

    def keep(self, key: Hashable, span: Span, words: Sequence[Word], result: object) -> None:
        """Keep what was read of words."""
        self._kept.setdefault(key, []).append(_Read(span, words, result))


def _alike(one: Sequence[Word], other: Sequence[Word], by: int) -> bool:
    """Tell whether words are labelled alike, and stand alike but for a distance."""
    return len(one) == len(other) and all(
        a.text == b.text and a.kind == b.kind and a.span.start + by == b.span.start and a[3:] == b[3:]
        for a, b in zip(one, other, strict=True)
    )
