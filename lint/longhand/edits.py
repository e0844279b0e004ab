"""Edits: stretches of a text replaced by other words, with a way to find every place again afterwards."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass

from ..draft import Span


@dataclass(frozen=True, slots=True)
class Edit:
    """One stretch of a text and the words that take its place."""

    span: Span
    to: str


@dataclass(frozen=True, slots=True)
class Edited:
    """A text after its edits. `edits` are those that were made, in order; `places` where their words stand now.

    `starts` are where the edits started in the text before.
    """

    text: str
    edits: tuple[Edit, ...]
    places: tuple[Span, ...]
    starts: tuple[int, ...]

    def now(self, offset: int) -> int:
        """Return where a place of the text before the edits stands now; the start of an edit that holds it."""
        at = bisect_right(self.starts, offset) - 1
        if at < 0:
            return offset
        edit, place = self.edits[at], self.places[at]
        return place.start if offset < edit.span.end else place.end + offset - edit.span.end


def edited(text: str, edits: Iterable[Edit]) -> Edited:
    """Make edits to a text. Of two that overlap, the one that starts first is made, of those the longer."""
    made: list[Edit] = []
    places: list[Span] = []
    parts: list[str] = []
    at = length = 0
    for edit in sorted(edits, key=lambda edit: (edit.span.start, -edit.span.end)):
        if edit.span.start < at or (made and edit == made[-1]):
            continue
        kept = text[at : edit.span.start]
        parts += [kept, edit.to]
        start = length + len(kept)
        length = start + len(edit.to)
        made.append(edit)
        places.append(Span(start, length))
        at = edit.span.end
    parts.append(text[at:])
    return Edited("".join(parts), tuple(made), tuple(places), tuple(edit.span.start for edit in made))


def within(text: str, span: Span, edits: Iterable[Edit]) -> str:
    """Return the words of a span with the edits that lie in it."""
    inside = [
        Edit(Span(edit.span.start - span.start, edit.span.end - span.start), edit.to)
        for edit in edits
        # what is put in between two stretches belongs to neither
        if span.start <= edit.span.start < edit.span.end <= span.end
    ]
    return edited(text[span.start : span.end], inside).text
