"""Knits a piece loop by loop, from the left needle to the right one.

Slow and plain on purpose: a needle is a list of single loops and markers, nothing is counted but by knitting it. It
shares no code with the program that it is a second opinion on.
"""

from __future__ import annotations

from collections.abc import Sequence

from .knitting import (
    BindOff,
    BoundOff,
    Cable,
    CastOnMore,
    Change,
    Group,
    Knit,
    KnitLine,
    KnitRow,
    KnitStep,
    LinesAgain,
    Piece,
    PlaceMarker,
    PlainRows,
    Shaped,
    Slip,
    SlipMarker,
    Spread,
    ToEnd,
    ToMarker,
    Turn,
)
from .laying import DoesNotFit

LOOP, MARKER = "loop", "marker"
Needle = tuple[str, ...]

HANDLED: dict[str, tuple[int, int]] = {
    "k2tog": (2, 1),
    "p2tog": (2, 1),
    "ssk": (2, 1),
    "skp": (2, 1),
    "k3tog": (3, 1),
    "sk2p": (3, 1),
    "kfb": (1, 2),
    "yo": (0, 1),
    "m1": (0, 1),
    "m1l": (0, 1),
    "m1r": (0, 1),
}
"""The loops that each stitch takes from the left needle, and those it puts on the right one."""


def loops(needle: Sequence[str]) -> int:
    """Count the loops on a needle; a marker is none."""
    return sum(1 for thing in needle if thing == LOOP)


def cast_on(piece: Piece, size: int) -> Needle:
    """Cast a piece on."""
    return (LOOP,) * piece.cast_on[size]


def knit(piece: Piece, size: int) -> list[Needle]:
    """Knit a piece in one size: what is on the needle after each of its lines."""
    needles: list[Needle] = []
    needle = cast_on(piece, size)
    for line in piece.lines:
        needle = knit_line(line, piece.lines, needle, size, around=piece.around)
        needles.append(needle)
    return needles


def knit_line(line: KnitLine, lines: Sequence[KnitLine], needle: Needle, size: int, *, around: bool) -> Needle:
    """Knit one line, which may stand for several rows; `lines` are those it can refer to."""
    match line:
        case KnitRow(steps, rows):
            for _ in range(rows[size]):
                needle = knit_row(steps, needle, size, around=around)
        case LinesAgain(first, last, times):
            for _ in range(times[size]):
                for earlier in lines[first : last + 1]:
                    needle = knit_line(earlier, lines, needle, size, around=around)
        case PlainRows(rows):
            for _ in range(rows[size]):
                needle = knit_row((ToEnd("k"),), needle, size, around=around)
        case Shaped():
            needle = _shaped(line, needle, size, around=around)
        case BoundOff(number, rows):
            for _ in range(rows):
                needle = knit_row((BindOff(number), ToEnd("k")), needle, size, around=around)
        case Spread(change, number):
            needle = _spread(change * number[size], needle)
    return needle


def knit_row(steps: Sequence[KnitStep], needle: Needle, size: int, *, around: bool) -> Needle:
    """Knit one row, or one round. Raises DoesNotFit where loops run out, or are left on the left needle."""
    hands = _Hands(list(needle), size)
    hands.work(steps)
    if loops(hands.left):
        raise DoesNotFit(f"{loops(hands.left)} left over")
    whole = [*hands.right, *hands.left]
    return tuple(whole if around else reversed(whole))


def _shaped(line: Shaped, needle: Needle, size: int, *, around: bool) -> Needle:
    """Knit rows in which now and then a stitch is made or taken at each end."""
    one = (1,) * (size + 1)
    at_edge: KnitStep = Change("kfb" if line.change > 0 else "k2tog", one)
    takes = HANDLED["kfb" if line.change > 0 else "k2tog"][0]
    for nth in range(line.times[size]):
        for _ in range(line.every - 1 if nth else 0):
            needle = knit_row((ToEnd("k"),), needle, size, around=around)
        needle = knit_row((at_edge, ToEnd("k", (takes,) * (size + 1)), at_edge), needle, size, around=around)
    return needle


def _spread(change: int, needle: Needle) -> Needle:
    """Knit a row that gains or loses loops, one here and one there."""
    if loops(needle) + change < 1:
        raise DoesNotFit("fewer loops than are taken away")
    kept = [thing for thing in needle if thing == LOOP]
    for _ in range(abs(change)):
        if change > 0:
            kept.append(LOOP)
        else:
            kept.pop()
    return tuple(kept)


class _Hands:
    """A knitter in the middle of a row: what is still on the left needle, what is on the right one."""

    def __init__(self, left: list[str], size: int) -> None:
        self.left = left
        self.size = size
        self.right: list[str] = []

    def take(self, number: int) -> None:
        """Take loops off the left needle; a marker among them would have been named."""
        for _ in range(number):
            if not self.left:
                raise DoesNotFit("no loop left")
            if self.left.pop(0) == MARKER:
                raise DoesNotFit("a marker is in the way")

    def put(self, number: int) -> None:
        for _ in range(number):
            self.right.append(LOOP)

    def work(self, steps: Sequence[KnitStep]) -> None:
        for step in steps:
            self.work_one(step)

    def work_one(self, step: KnitStep) -> None:
        match step:
            case Knit(_, number) | Slip(number):
                for _ in range(number[self.size]):
                    self.take(1)
                    self.put(1)
            case Change(name, number):
                takes, puts = HANDLED[name]
                for _ in range(number[self.size]):
                    self.take(takes)
                    self.put(puts)
            case Cable(over):
                self.take(over)
                self.put(over)
            case ToEnd(_, leave):
                kept = leave[self.size] if leave else 0
                while loops(self.left) > kept:
                    self.take(1)
                    self.put(1)
            case ToMarker(_, before):
                while self.to_marker() > before:
                    self.take(1)
                    self.put(1)
            case BindOff(number):
                self.bind_off(number[self.size])
            case CastOnMore(number):
                self.put(number[self.size])
            case _:
                self.work_other(step)

    def work_other(self, step: KnitStep) -> None:
        match step:
            case PlaceMarker():
                self.right.append(MARKER)
            case SlipMarker():
                if not self.left or self.left.pop(0) != MARKER:
                    raise DoesNotFit("no marker here")
                self.right.append(MARKER)
            case Turn():
                self.left, self.right = self.right[::-1], self.left[::-1]
            case Group():
                self.work_group(step)
            case _:
                raise TypeError(step)

    def to_marker(self) -> int:
        """Count the loops up to the next marker."""
        if MARKER not in self.left:
            raise DoesNotFit("no marker ahead")
        return self.left.index(MARKER)

    def bind_off(self, number: int) -> None:
        """Take loops off; the one left over on the right needle is the first of those knitted after them."""
        for _ in range(number):
            self.take(1)

    def work_group(self, step: Group) -> None:
        if step.times is not None:
            for _ in range(step.times[self.size]):
                self.work(step.steps)
            return
        leave = step.leave[self.size] if step.leave else 0
        while loops(self.left) > leave:
            before = loops(self.left)
            self.work(step.steps)
            if loops(self.left) == before:
                raise DoesNotFit("the group takes no loop")
        if loops(self.left) != leave:
            raise DoesNotFit(f"{loops(self.left)} left where {leave} are said")
