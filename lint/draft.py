"""A draft as it was read: its text, its lines, and stretches of it."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from typing import NamedTuple

from .later import later

_LINE_END = later(r"\r\n|\n|\r")


class Span(NamedTuple):
    """A half-open stretch of a draft's text, in code points: start included, end not.

    A tuple with names and not a dataclass: nothing is made as often, or compared as often.
    """

    start: int
    end: int

    def cover(self, other: Span) -> Span:
        """Return the smallest span that holds both."""
        return Span(min(self.start, other.start), max(self.end, other.end))


@dataclass(frozen=True, slots=True)
class Position:
    """A place as a person counts it: line and column, both from 1, columns in Unicode characters."""

    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a line of the text stood in the source document; page and paragraph where it has them."""

    line: int
    page: int | None = None
    paragraph: int | None = None


@dataclass(frozen=True, slots=True)
class Draft:
    """The text of a draft, unchanged but for its encoding, and where each of its lines came from.

    `starts` holds the offset of each line's first character. An empty text has one empty line.
    """

    path: str
    text: str
    starts: tuple[int, ...]
    origins: tuple[Origin, ...]

    @classmethod
    def of(cls, text: str, path: str = "-", origins: tuple[Origin, ...] = ()) -> Draft:
        """Make a draft of plain text; without `origins` each line is its own origin."""
        starts = (0, *(match.end() for match in _LINE_END.finditer(text)))
        if len(starts) > 1 and starts[-1] == len(text):
            starts = starts[:-1]
        return cls(path, text, starts, origins or tuple(Origin(n + 1) for n in range(len(starts))))

    def position(self, offset: int) -> Position:
        """Return the line and column of an offset, as they stand in the source document."""
        index = bisect_right(self.starts, offset) - 1
        return Position(self.origins[index].line, offset - self.starts[index] + 1)

    def words(self, span: Span) -> str:
        """Return the text of a span."""
        return self.text[span.start : span.end]

    def line_span(self, index: int) -> Span:
        """Return the stretch of the line with this index (from 0), without its line end."""
        start = self.starts[index]
        end = self.starts[index + 1] if index + 1 < len(self.starts) else len(self.text)
        return Span(start, start + len(self.text[start:end].rstrip("\r\n")))
