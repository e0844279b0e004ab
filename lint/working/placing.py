"""Placing: stitches and groups worked into their places of the row below."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..steps import At, Chain, Join, Make, Step, Target, Together, Where, Work
from ..workings import Deed
from .fabric import Cursor, Fabric, spot_of, stitches_of
from .hook import FEWEST_AROUND, CannotWork
from .shape import chain_key, more_work
from .starting import Starting


class Placing(Starting):
    """Works stitches and groups into the places they name."""

    __slots__ = ()

    def _only_moves(self, where: Where, rest: Sequence[Step]) -> bool:
        """Tell whether slip stitches move or close the round; those into all of the row below are the round itself."""
        if where.at in (At.EACH, At.FROM_HOOK) or (self.worked and more_work(rest)):
            return False
        alone = where.at is At.NEXT and not self.worked and not more_work(rest) and self.cursor is not None
        return not (alone and self.cursor is not None and self.number(where.number) == self.cursor.left() > 1)

    def work(self, step: Work, rest: Sequence[Step], *, top: bool) -> None:
        """Work a stitch into its places."""
        where, make = step.where, self.of_now(step.make)
        if make is not step.make:
            step = replace(step, make=make)
        times = self.number(step.times)
        if make.kind == "slst" and self._only_moves(where, rest):
            self.in_space = self.in_space or (not self.worked and where.target.space)
            return
        self.worked = True
        self.in_one = times * make.makes if where.number is None or where.number.values == (1,) else make.makes
        if where.at is At.NEXT:
            self.next(step, times, top=top)
            return
        if where.at is At.EACH:
            self.each(step, rest, times, top=top)
            return
        spot = spot_of(make.kind)
        match where.at:
            case At.RING:
                self.base = False
                self.row.add(spot, times * make.makes)
                self.note(Deed.WORK, step.span, 0, times * make.makes, top=top)
                if self.cursor is None:
                    self.starts = True
                    self.cursor = Cursor(Fabric(ring=True))
            case At.SAME | At.POST_SAME:
                taken = self.same(where)
                self.lay(make, times)
                self.note(Deed.WORK, step.span, taken, times * make.makes, top=top)
            case At.FROM_HOOK:
                self.from_hook(step, times, top=top)
            case At.BETWEEN:
                raise CannotWork("stitches between stitches are not counted yet")
            case At.ROW_ENDS if self.along and (where.number is not None or times == 1):
                if where.number is None:
                    self.each(step, rest, times, top=top)
                else:
                    self.next(step, times, top=top)
            case At.ROW_ENDS:
                if times < 2:
                    raise CannotWork("how many row ends there are is not known")
                self.left_alone = True
                self.row.add(spot, times * make.makes)
                self.note(Deed.WORK, step.span, 0, times * make.makes, top=top)
            case At.BEHIND:
                # an earlier row, or stitches passed over before: nothing is taken of the row below
                number = self.number(where.number)
                if not self.used:
                    self.left_alone = True
                self.apart = True
                self.row.add(spot, number * times * make.makes)
                self.note(Deed.WORK, step.span, 0, number * times * make.makes, top=top)

    def each(self, step: Work, rest: Sequence[Step], times: int, *, top: bool) -> None:
        """Go into every place up to the end, but for those that the draft or the following steps keep."""
        where, make = step.where, step.make
        if where.target.space and not where.target.also_spaces:
            number = self.all_spaces(where.target.size)
            if number == 0:
                # no chain spaces: the gaps between the stitches are meant, as many as there are stitches
                number = self.left()
                self.take(number)
            self.lay(make, number * times)
            self.note(Deed.WORK, step.span, number, number * times * make.makes, top=top)
            return
        links = self.cursor.fabric.stitches if self.cursor is not None and self.cursor.fabric.ring else 0
        if 0 < links < FEWEST_AROUND and where.target.chain:
            # a short chain closed to a ring, and every link of it worked
            self.cursor = Cursor(Fabric(self.cursor.fabric.segments if self.cursor is not None else ()))
            self.base = self.row.has_stitches  # the counted beginning chain stands on the first of them
        if where.to_space:
            number = self.to_space()
        else:
            keep = 0 if where.to_marker else self.kept(rest)
            number = self.limit(where) - (self.number(where.leave) if where.leave else keep)
            if where.turning and self.ends_in_chain and not self.kept(rest):
                number -= 1
                self.left_alone = True
            if where.target.chain and self.cursor is not None and (links := self.cursor.links_ahead()):
                number = min(number, links)
        if number < 0:
            self.short -= number
            number = 0
        if make.uses > 1:
            number //= make.uses
        spaces, chains = (self.left(spaces=True), self.chains_left()) if self.cursor is not None else (0, 0)
        passed = self.cursor.spaces_ahead() if spaces and self.cursor is not None and not where.to_space else {}
        extra = 0
        if where.target.also_spaces:
            sized = passed.pop(where.target.size, None) if where.target.size and len(passed) > 1 else None
            extra = sized if sized is not None else chains if where.target.chain else spaces
            passed = passed if sized is not None else {}
        counted = chains >= 3 * spaces > 0 and where.target == Target() and self.choose("chains-count", False)
        if counted and self.choose("chains-worked", True):
            extra = chains
        self.passed = passed
        self.take(number * max(make.uses, 1))
        made = (number + extra) * times * make.makes
        self.lay(make, (number + extra) * times)
        self.note(Deed.WORK, step.span, number * max(make.uses, 1), made, top=top)

    def all_spaces(self, size: int | None) -> int:
        """Go into every space up to the end and return how many they are.

        `sc in each sc and 8 sc in each ch-8 sp`: the stitches said first have passed the spaces, which are meant all
        the same; those of another length are left for another step where the row has several.
        """
        left = self.left(spaces=True)
        if self.passed:
            number = self.passed.pop(size, None) if size is not None else None
            if number is None:
                number, self.passed = sum(self.passed.values()), {}
        else:
            number = left
        self.take(left, spaces=True)
        if number and self.cursor is not None:
            self.cursor.take(self.cursor.left())
        return number

    def to_space(self) -> int:
        """Return how many stitches stand before the next space. Raises CannotWork where none is left."""
        if self.cursor is None or not self.left(spaces=True):
            raise CannotWork("the space up to which it is worked was not found in the row below")
        ahead = self.cursor.copy()
        before = ahead.left()
        ahead.take_spaces(1)
        return before - ahead.left() - (1 if self.base and not self.in_space else 0)

    def lay(self, make: Make, number: int) -> None:
        """Make so many of a stitch, or of a group that the draft defines as one."""
        if not make.group:
            if make.makes < 0:
                self.short += self.row.drop(-number * make.makes)
                return
            self.row.add(spot_of(make.kind), number * make.makes)
            return
        inner = self.inner()
        inner.worked = inner.begun = True
        for part in make.group:
            inner.step(part, (), top=False)
        self.row.extend(inner.row.segments, number)

    def next(self, step: Work, times: int, *, top: bool) -> None:
        """Go into the next places."""
        where, make = step.where, step.make
        number = self.number(where.number)
        if (
            step.bare
            and step.ambiguous
            and make.uses == 1
            and make.makes == 1
            and number in (2, 3)
            and self.choose("n-in-one", False)
        ):
            number, times = 1, number
        if where.target.space:
            if self.cursor is not None and not self.cursor.fabric.spaces and not self.cursor.fabric.ring:
                raise CannotWork("the spaces it goes into were not found in the row below")
            self.take(number, spaces=True)
        elif where.turning:
            self.turning_chain()
        elif where.first and self.base and make.uses and number == 1 and self.choose("first-is-under-chain", True):
            self.same(where)
        elif make.uses:
            if where.nth is not None:
                self.from_beginning(where.nth)
            self.take(number * make.uses)
        if self.cursor is None and self.fresh:
            self.starts = True
        made = number * times * make.makes
        self.lay(make, number * times)
        self.note(Deed.WORK, step.span, 0 if where.target.space else number * make.uses, made, top=top)

    def together(self, step: Together, rest: Sequence[Step], *, top: bool) -> None:
        """Work a group into one place, or into each of several."""
        where = step.where
        self.worked = True
        inner = self.inner()
        inner.worked = True
        parts = step.steps
        inner.begun = self.begun or self.base or self.looping or self.row.has_stitches
        if isinstance(first := parts[0] if parts else None, Chain) and not inner.begun:
            # `(ch 3, 2 dc, ch 3, 3 dc) in same sp` begins the round: its first chain is the beginning chain
            number = self.number(first.n)
            joined = next((part.to_chain for part in rest if isinstance(part, Join)), None)
            if number > 1:
                parts = parts[1:]
                if self.choose(chain_key(number, joined), number >= 3):
                    inner.row.add(spot_of("ch"))
        for part in parts:
            inner.step(part, (), top=False)
        segments = inner.row.segments
        taken = 0
        if where.at is At.EACH:
            if where.target.space:
                taken = self.all_spaces(where.target.size)
            else:
                taken = max(0, self.left() - (self.number(where.leave) if where.leave else self.kept(rest)))
                self.take(taken)
            self.row.extend(segments, taken)
        elif where.at is At.NEXT and where.first and self.base and self.choose("first-is-under-chain", True):
            taken = self.same(where)
            self.row.extend(segments)
        elif where.at is At.NEXT:
            taken = self.number(where.number)
            self.take(taken, spaces=where.target.space)
            self.row.extend(segments, taken)
        elif where.at is At.RING:
            self.base = False
            self.row.extend(segments)
        elif where.at in (At.SAME, At.POST_SAME):
            taken = self.same(where)
            self.row.extend(segments)
        else:
            raise CannotWork("where this group goes is not clear")
        times = 1 if where.at in (At.SAME, At.RING) else taken
        self.note(Deed.WORK, step.span, taken, stitches_of(segments) * times, top=top)
