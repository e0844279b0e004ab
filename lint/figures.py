"""Figures: a number for every size or one a size, lists of them as a draft writes them, and the sizes themselves.

`None` among the values of a figure stands for "not for this size".
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from .draft import Span


@dataclass(frozen=True, slots=True)
class Figure:
    """A number or a list of numbers, one a size; a single value serves every size."""

    values: tuple[int | None, ...]
    span: Span

    def at(self, size: int) -> int | None:
        """Return the value for a size (an index from 0), None where it isn't for that size."""
        if len(self.values) == 1:
            return self.values[0]
        return self.values[size] if size < len(self.values) else None

    @property
    def is_list(self) -> bool:
        """Whether a value stands for each size."""
        return len(self.values) > 1


class ListStyle(Enum):
    """How a list of figures is written: `72 (80, 88)`, `72[80, 88]`, `(72, 80, 88)`, `72/80/88` or `72, 80, 88`."""

    ROUND = "72 (80, 88)"
    SQUARE = "72 [80, 88]"
    INSIDE = "(72, 80, 88)"
    SLASH = "72/80/88"
    BARE = "72, 80, 88"
    MIXED = "72 (80) 88"
    NAMED = "S: 72, M: 80, L: 88"


@dataclass(frozen=True, slots=True)
class FigureList:
    """A list of figures as it stands in the draft, whether or not it has one a size.

    `inner` is the separator between the bracketed figures ("," "-" ":" "/" or a blank).
    """

    values: tuple[int | None, ...]
    span: Span
    style: ListStyle
    inner: str


@dataclass(frozen=True, slots=True)
class Sizes:
    """The sizes of a draft in their order; no names for a draft in one size.

    `declared` is False where the number of sizes was learnt from the lists of figures alone.
    """

    names: tuple[str, ...]
    span: Span | None = None
    declared: bool = False

    @property
    def number(self) -> int:
        """How many figures a full list has; 1 for a draft in one size."""
        return max(1, len(self.names))
