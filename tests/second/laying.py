"""Lays a pattern stitch by stitch, one place after the other, as a maker would with a hook.

Slow and plain on purpose: a row is a list of single places, nothing is counted but by laying it. It shares no code
with the program that it is a second opinion on.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .instructions import (
    Again,
    Alternate,
    BeginningChain,
    ChainRing,
    ChainRound,
    ChainSpace,
    Decrease,
    Even,
    FlatChain,
    FromHook,
    Group,
    InEach,
    InEachSpace,
    InLastChain,
    InRing,
    InSame,
    InSpace,
    Line,
    MagicRing,
    OtherSide,
    OvalChain,
    Part,
    Pattern,
    Repeat,
    Round,
    Skip,
    SkipSpace,
    Start,
    Step,
    Stitches,
)

WIDEST = 1000
"""The most places a row may have; wider ones are not laid."""


class DoesNotFit(Exception):
    """The steps want places that aren't there, leave some over, or make a row too wide to lay by hand."""


@dataclass(frozen=True, slots=True)
class Place:
    """One thing a hook can go into: a stitch, a link of a chain ("link"), or a space of `chains` chains ("space")."""

    kind: str
    chains: int = 0

    @property
    def is_space(self) -> bool:
        """Whether it is a chain space and no stitch."""
        return self.kind == "space"


Row = tuple[Place, ...]


def stitches(row: Sequence[Place]) -> int:
    """Count the stitches of a row; a chain space is none."""
    return sum(1 for place in row if not place.is_space)


def spaces(row: Sequence[Place]) -> int:
    """Count the chain spaces of a row."""
    return sum(1 for place in row if place.is_space)


def foundation(start: Start, size: int) -> Row:
    """Lay what the first round is worked into; nothing for a ring."""
    match start:
        case MagicRing() | ChainRing():
            return ()
        case ChainRound(chains) | OvalChain(chains) | FlatChain(chains):
            return (Place("link"),) * chains[size]


def lay(pattern: Pattern, size: int) -> list[Row]:
    """Lay a pattern in one size: the row that is there after each of its lines."""
    rows: list[Row] = []
    row = foundation(pattern.start, size)
    alternate: Alternate | None = None
    for line in pattern.lines:
        if alternate is not None and rows and not isinstance(pattern.lines[len(rows) - 1], Alternate):
            row = lay_round((alternate.step,), row, size)
        row = lay_line(line, pattern.lines, row, size, flat=pattern.flat)
        if isinstance(line, Alternate):
            alternate = line
        rows.append(row)
    return rows


def lay_line(line: Line, lines: Sequence[Line], row: Row, size: int, *, flat: bool = False) -> Row:
    """Lay one line of a pattern, which may stand for several rounds; `lines` are those it can refer to.

    A row of a `flat` piece is given back as the next one meets it.
    """
    match line:
        case Round(steps, rounds):
            for _ in range(rounds[size]):
                row = lay_round(steps, row, size)
                row = row[::-1] if flat else row
        case Again(first, last, times):
            for _ in range(times[size]):
                for earlier in lines[first : last + 1]:
                    row = lay_line(earlier, lines, row, size, flat=flat)
        case Even(kind, rounds):
            for _ in range(rounds[size]):
                row = lay_round((InEach(kind),), row, size)
        case Alternate(step):
            row = lay_round((step,), row, size)
    return row


def lay_round(steps: Sequence[Step], below: Row, size: int) -> Row:
    """Lay one round on the row below it.

    Raises DoesNotFit where it runs out of places or leaves stitches unused; spaces may be passed over.
    """
    hand = _Hand(list(below), size)
    hand.work(steps)
    if hand.stitches_left and not hand.passes_stitches:
        raise DoesNotFit(f"{hand.stitches_left} left over")
    if len(hand.laid) > WIDEST:
        raise DoesNotFit(f"{len(hand.laid)} places in a row")
    return tuple(hand.laid)


class _Hand:
    """A maker in the middle of a round: the row below, the place the hook is at, what is laid so far."""

    def __init__(self, below: list[Place], size: int) -> None:
        self.below = below
        self.size = size
        self.at = 0
        self.stitches_left = stitches(below)
        self.any_used = False
        self.laid: list[Place] = []
        self.passes_stitches = False

    def face(self, below: list[Place]) -> None:
        """Turn to other places than those worked so far."""
        self.below = below
        self.at = 0
        self.stitches_left = stitches(below)

    def spaces_left(self) -> int:
        return len(self.below) - self.at - self.stitches_left

    def put(self, kind: str) -> None:
        self.laid.append(Place(kind))

    def put_parts(self, parts: Sequence[Part]) -> None:
        for part in parts:
            if part.kind == "ch":
                self.laid.append(Place("space", part.number))
            else:
                for _ in range(part.number):
                    self.put(part.kind)

    def take_stitch(self) -> None:
        while self.at < len(self.below) and self.below[self.at].is_space:
            self.at += 1
        if self.at == len(self.below):
            raise DoesNotFit("no stitch left")
        self.at += 1
        self.stitches_left -= 1
        self.any_used = True

    def take_space(self, chains: int) -> None:
        while self.at < len(self.below) and not self.below[self.at].is_space:
            self.at += 1
            self.stitches_left -= 1
        if self.at == len(self.below) or self.below[self.at].chains != chains:
            raise DoesNotFit(f"no space of {chains} chains here")
        self.at += 1
        self.any_used = True

    def work(self, steps: Sequence[Step]) -> None:
        for step in steps:
            self.work_one(step)

    def work_one(self, step: Step) -> None:
        match step:
            case Stitches(kind, number, each, last):
                while last and self.passes_stitches and self.stitches_left > number[self.size]:
                    self.take_stitch()  # those that lie between the spaces worked and the end
                for _ in range(number[self.size]):
                    self.take_stitch()
                    self.put_parts((Part(kind, each),))
            case InSame(kind, number):
                if not self.any_used:
                    self.take_stitch()
                self.put_parts((Part(kind, number),))
            case Decrease(kind, over, number):
                for _ in range(number[self.size]):
                    for _ in range(over):
                        self.take_stitch()
                    self.put(kind)
            case Skip(number):
                for _ in range(number[self.size]):
                    self.take_stitch()
            case SkipSpace(chains):
                self.take_space(chains)
            case ChainSpace(chains):
                self.laid.append(Place("space", chains))
            case Group(parts):
                self.take_stitch()
                self.put_parts(parts)
            case InSpace(parts, chains):
                self.take_space(chains)
                self.put_parts(parts)
            case _:
                self.work_many(step)

    def work_many(self, step: Step) -> None:
        """Do what goes by what is left of the row, or by how it starts."""
        match step:
            case InEach():
                self.work_in_each(step)
            case InEachSpace(parts, chains):
                self.passes_stitches = True
                while self.spaces_left():
                    self.take_space(chains)
                    self.put_parts(parts)
            case InRing(kind, number):
                self.put_parts((Part(kind, number[self.size]),))
            case BeginningChain(_, counts, kind):
                if counts:
                    self.put(kind)
                    if self.below:
                        self.take_stitch()
            case Repeat():
                self.repeat(step)
            case FromHook(kind, nth, each, counted):
                self.face(self.below[nth - 1 :])
                if counted:
                    self.put(kind)
                self.take_stitch()
                self.put_parts((Part(kind, each),))
            case InLastChain(kind, each):
                if self.stitches_left != 1:
                    raise DoesNotFit(f"{self.stitches_left} chains left where the last is meant")
                self.take_stitch()
                self.put_parts((Part(kind, each),))
            case OtherSide():
                self.face(self.below[-2::-1])
            case _:
                raise TypeError(step)

    def work_in_each(self, step: InEach) -> None:
        leave = step.leave[self.size] if step.leave else 0
        while self.stitches_left > leave or (leave == 0 and step.in_space and self.spaces_left()):
            if step.in_space and self.below[self.at].is_space:
                self.take_space(self.below[self.at].chains)
                self.put_parts((Part(step.kind, step.in_space),))
            else:
                self.take_stitch()
                self.put_parts((Part(step.kind, step.each),))

    def repeat(self, step: Repeat) -> None:
        if step.times is not None:
            for _ in range(step.times[self.size]):
                self.work(step.steps)
            return
        leave = step.leave[self.size] if step.leave else 0
        only_spaces = all(isinstance(part, InSpace | SkipSpace | ChainSpace) for part in step.steps)
        if only_spaces:
            self.passes_stitches = True
        while self.spaces_left() if only_spaces else self.stitches_left > leave:
            self.work(step.steps)
        if not only_spaces and self.stitches_left != leave:
            raise DoesNotFit(f"{self.stitches_left} left where {leave} are said")
