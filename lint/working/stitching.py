"""Stitching: one round worked for one size on the row below, step by step."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..steps import (
    Chain,
    Even,
    Evenly,
    Join,
    Leave,
    OtherSide,
    Rejoin,
    Remark,
    Repeat,
    Ring,
    Shaping,
    Skip,
    Step,
    Together,
    Turn,
    Work,
)
from ..workings import Deed, Item
from .fabric import Cursor, Edge, Fabric, Row, plain
from .hook import CannotWork, Choose
from .repeating import Repeating
from .shape import (
    along_rows,
    begins_piece,
    extends_row,
    makes_start,
    own_chain,
    turns_first,
    turns_last,
    unread_in,
    uses_row,
)
from .spots import LINK

MOST_STEPS = 500


@dataclass(frozen=True, slots=True)
class Made:
    """What a round makes for one size: the row, what it used, what did not fit, and the lines of its sum."""

    fabric: Fabric
    before: int | None
    used: int | None
    left: int
    short: int
    items: tuple[Item, ...]
    starts: bool
    partial: bool = False
    closing: bool = False  # the closing sentence was taken as an instruction
    missed: bool = False  # rounds repeated up to a count pass over it
    left_repeat: int = 0  # places left over by repeats that run to the end


class Stitcher(Repeating):
    """Works the steps of a round."""

    __slots__ = ()

    def run(self, steps: Sequence[Step]) -> Made:
        """Work a whole round."""
        if len(steps) > MOST_STEPS:
            raise CannotWork("the round has more steps than can be followed")
        unread = next(unread_in(steps), None)
        if unread is not None:
            raise CannotWork(unread.reason, unread.span)
        again = any(isinstance(step, Rejoin) for step in steps)
        held = self.below.edge.held if self.below is not None else None
        if again:
            if held is None:
                raise CannotWork("the stitches that were left for this piece are not known")
            self.below, self.flat, held = Fabric(held.segments), True, None
        row = self.flat
        steps = self._met(steps)
        returned = self._returned(steps) if self.knit else None
        before = self._stand(steps, returned)
        steps = steps[1:] if returned is not None else steps
        self.sequence(steps, top=True)
        if self.base:
            self.base = False
            self._take(1, spaces=False)
        fabric, left = self._laid(steps)
        unjoined = not any(isinstance(step, Join) for step in steps)
        turned = turns_last(steps) or (self.flat and unjoined)
        if turned and not self.knit:
            edge = Edge(self.counted, self.hung, True, unjoined and row, self._held(held))
            fabric = Fabric(fabric.segments, fabric.ring, edge)
        return Made(
            fabric,
            before - self.passed_by if before is not None else None,
            self.used,
            left,
            self.short,
            tuple(self.items),
            self.starts,
            self.partial,
            left_repeat=self.left_repeat,
        )

    def _stand(self, steps: Sequence[Step], returned: Fabric | None) -> int | None:
        """Stand at the beginning of the row below, and return its count; None where it isn't known or there is none."""
        if self.flat and not self.fresh and self.below is None and extends_row(steps, self.size):
            raise CannotWork("the row below is not known")
        added = self.flat and not self.fresh and self.below is not None and extends_row(steps, self.size)
        if returned is not None:
            self.below, self.starts = returned, True
        elif self.knit and not self.fresh and self.below is not None and uses_row(steps):
            added = True  # stitches cast on at the beginning of a row
        if (
            begins_piece(steps)
            and not added
            and returned is None
            and not (self.below and self.below.ring and not makes_start(steps))
        ):
            self.below = None
            self.starts = True
        along = self.rows is not None and any(along_rows(steps))
        if along:
            self.below = plain(LINK, self.rows or 0)
        self.along = along
        self.meet(self.below)
        self.behind = self.below.behind if self.below is not None else 0
        if self.below is not None and self.below.is_chain and not self.below.ring:
            self.chain_links = self.below.stitches
        return None if self.below is None or self.below.ring else self.below.stitches

    def _laid(self, steps: Sequence[Step]) -> tuple[Fabric, int]:
        """Return the row that was made and how many places of the row below are left."""
        left = 0
        if self.cursor is not None and not self.cursor.fabric.ring and not self.left_alone:
            left = max(0, self.cursor.left()) if self.row.segments else 0
            left = 0 if self.at_end() else left
        if self.flat_count is not None:
            fabric, left = plain("st", self.flat_count), 0
        elif (self.knit and self.row.segments) or (self.closed and not self.row.segments):
            turn = _last_turn(steps)
            fabric, left = self.end_row(turned=turn is not None, wraps=turn is not None and turn.wraps)
        elif self.row.segments:
            fabric = self._row_made(steps)
        elif self.cursor is None:
            raise CannotWork("no stitches were found in these words")
        else:
            fabric = self._nothing_made(steps)
        return fabric, left

    def _returned(self, steps: Sequence[Step]) -> Fabric | None:
        """Return the stitches that a line puts back on the needle before it works them; None where it doesn't."""
        first = steps[0] if steps else None
        if not isinstance(first, Work) or first.make.kind != "held" or first.make.uses or not _goes_over(steps[1:]):
            return None
        return plain("st", self.number(first.where.number))

    def _met(self, steps: Sequence[Step]) -> Sequence[Step]:
        """Turn the row below where the work is turned, and take over the chain that hangs at its end."""
        below = self.below
        if below is None or not (below.edge.turned or turns_first(steps)):
            return steps
        self.flat = True
        self.below = below.back()
        if below.edge.hung is not None and not own_chain(steps):
            return (replace(below.edge.hung, beginning=True), *steps)
        return steps

    def _row_made(self, steps: Sequence[Step]) -> Fabric:
        """Return the row that was made, where it is nothing but its stitches."""
        if self.closed and any(isinstance(step, Shaping) for step in steps):
            raise CannotWork("how its shaping and its stitches go together is not clear")
        return self.row.done()

    def _held(self, before: Fabric | None) -> Fabric | None:
        """Return the stitches that wait after this row: the larger of those it left and those that were left before."""
        waiting = self.waiting
        if waiting is None and self.cursor is not None and not self.cursor.fabric.ring:
            waiting = Fabric(self.cursor.rest())
        if waiting is None or not waiting.stitches:
            return before
        return before if before is not None and before.stitches >= waiting.stitches else waiting

    def _nothing_made(self, steps: Sequence[Step]) -> Fabric:
        """Return the chain or ring that a line only makes; anything else that makes nothing was not understood."""
        assert self.cursor is not None
        shaped = self.closed and any(isinstance(step, Shaping) for step in steps)
        if shaped or (self.starts and any(isinstance(step, Chain | Ring) for step in steps)):
            return self.cursor.fabric
        raise CannotWork("no stitches were found in these words")

    def inner(self) -> Stitcher:
        """Return a hook for a group that is worked in one place, with nothing below it."""
        return Stitcher(self.size, None, self.choose, inside=True)

    def sequence(self, steps: Sequence[Step], *, top: bool) -> None:
        """Work steps in order."""
        for index, step in enumerate(steps):
            self.step(step, steps[index + 1 :], top=top)

    def step(self, step: Step, rest: Sequence[Step], *, top: bool) -> None:
        """Work one step; `rest` are those after it, for which places may have to be kept."""
        if isinstance(step, Work):
            self.work(step, rest, top=top)
            self.over = 0
            return
        match step:
            case Repeat():
                self.repeat(step, rest, top=top)
            case Chain():
                self.chain(step, rest, top=top)
            case Skip():
                self.skip(step, top=top)
            case Together():
                self.together(step, rest, top=top)
            case Ring():
                self.cursor = Cursor(Fabric(plain(LINK, self.number(step.chains, 0)).segments, ring=True))
                self.starts = True
                self.row = Row()
            case Leave(turning=True):
                if self.ends_in_chain:
                    self._take(1, spaces=False)
                    self.used -= 1
            case Leave():
                self.left_alone = True
                if top and self.cursor is not None:
                    self.waiting = Fabric(self.cursor.rest())
                if top and step.number is not None:
                    number = self.number(step.number)
                    self._take(number, spaces=False)
                    self.used -= number
                    self.left_alone = self.cursor is not None and self.cursor.left() == 0
                    self.items.append(Item(Deed.LEAVE, step.span, 1, number, 0))
            case OtherSide():
                self.other_side()
            case Rejoin():
                self.passed_by, self.used, self.worked = self.used, 0, False
            case Join() | Remark():
                self.join_in_space(step.space if isinstance(step, Join) else None)
                self.arrived = self.arrived or not (self.begun or self.worked)
            case Evenly():
                self.evenly(step)
            case _:
                self.on_needles(step, rest)


def work_round(
    steps: Sequence[Step],
    below: Fabric | None,
    size: int,
    choose: Choose,
    *,
    partial_ok: bool = False,
    fresh: bool = True,
    rows: int | None = None,
    knit: bool = False,
    flat: bool = False,
) -> Made:
    """Work one round for one size. Raises CannotWork, whose message says why not."""
    return Stitcher(size, below, choose, partial_ok, fresh, rows, knit=knit, flat=flat).run(steps)


def _goes_over(rest: Sequence[Step]) -> bool:
    """Tell whether stitches put back on the needle are worked in the same line."""
    return uses_row(rest) or any(isinstance(step, Even | Shaping | Evenly) for step in rest)


def _last_turn(steps: Sequence[Step]) -> Turn | None:
    """Return the turn after the last stitch of a round, if there is one."""
    last = next((step for step in reversed(steps) if not isinstance(step, Remark)), None)
    return last if isinstance(last, Turn) else None
