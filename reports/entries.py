"""A longhand taken apart for printing: its talk, its titles, and its rounds with their counts and boxes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..lint.longhand import Longhand, Mark, Written
from ..lint.longhand.stated import headless
from ..lint.pattern import Round, WorkEven
from ..lint.working.references import covered
from ..lint.workings import RoundWorking, Standing
from .words import one_line, reason_of, safe


@dataclass(frozen=True, slots=True)
class Talk:
    """A line of the draft that is no round; empty for an empty line. `title` is True for the name of a piece."""

    text: str
    title: bool = False


@dataclass(frozen=True, slots=True)
class Entry:
    """A round: its label, its words as the draft has them, and what a maker ticks.

    `count` is the count to reach in words (`56 sts`), empty where none is known. `boxes` has a name for each round
    that it covers, one empty name for a single round. `turn` is its pass of a repeat in words. `doubt` says what is
    doubtful about it. `headed` is False where its label is but the beginning of its words: `Ch 72, join with sl st`.
    """

    label: str
    words: tuple[str, ...]
    count: str
    boxes: tuple[str, ...]
    turn: str = ""
    mark: Mark | None = None
    doubt: str = ""
    headed: bool = True

    @property
    def heading(self) -> str:
        """Return what stands before its words: its label and pass, or only the pass where it has no heading."""
        passes = f"({self.turn})" if self.turn else ""
        return " ".join(filter(None, (self.label if self.headed else "", passes)))


def entries(written: Longhand) -> Iterator[Talk | Entry]:
    """Give the lines and rounds of a longhand in order."""
    draft, pattern = written.proof.draft, written.proof.pattern
    titles = {draft.position(section.span.start).line for section in pattern.sections if section.title}
    at = 0
    for one, working in zip(written.rounds, written.proof.workings.rounds, strict=True):
        round_ = pattern.rounds[working.index]
        yield from _talk(written, at, round_.heading.start, titles)
        yield _entry(written, one, working, round_)
        at = max(at, one.end)
    yield from _talk(written, at, len(draft.text), titles)


def _talk(written: Longhand, start: int, end: int, titles: set[int]) -> Iterator[Talk]:
    draft = written.proof.draft
    words = draft.text[start:end]
    lines = words.splitlines()
    first = draft.position(start).line
    for number, line in enumerate(lines, start=first):
        own = safe(line).rstrip()
        # what is left of a round's own line, or of the bullet before the next
        if own.strip(" *#_-.|") or (not own.strip() and number > first):
            yield Talk(own, title=number in titles)


def _entry(written: Longhand, one: Written, working: RoundWorking, round_: Round) -> Entry:
    draft = written.proof.draft
    own = working.sizes[0] if working.sizes else None
    worked = own.count if own is not None and working.standing is not Standing.UNREAD else None
    stated = own.stated if own is not None else None
    count = worked if stated is None else stated
    doubt = ""
    if one.mark is Mark.DIFFERS and worked is not None and stated is not None:
        doubt = f"the draft says {stated}, its words make {worked}"
    elif one.mark is not None:
        doubt = reason_of(written.proof, working) or "it could not be worked"
    return Entry(
        label=one_line(round_.label),
        words=tuple(safe(line).strip() for line in draft.text[one.words : one.end].splitlines()),
        count="" if count is None else f"{count} {one_line(working.unit)}",
        boxes=_boxes(round_),
        turn=f"pass {one.turn} of {one.turns}" if one.turns and "(" + _passes(one) not in round_.label else "",
        mark=one.mark,
        doubt=doubt,
        headed=not headless(round_),
    )


def _passes(one: Written) -> str:
    return f"{one.turn} of {one.turns})"


def _boxes(round_: Round) -> tuple[str, ...]:
    """Return a name for each round covered: its number, or 1, 2, 3 where the rounds have none."""
    number = covered(round_, 0)
    directive = round_.directive
    if number == 1 and isinstance(directive, WorkEven) and directive.rounds is not None:
        number = directive.rounds.at(0) or 1
    if number < 2:
        return ("",)
    if round_.listed:
        return tuple(map(str, round_.listed))
    first = (round_.first.at(0) if round_.first else None) or 1
    return tuple(str(first + more) for more in range(number))
