"""Placing: stitches and groups worked into their places of the row below."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..steps import ANY_GROUP, At, Chain, Join, Make, Step, Target, Together, Turn, Where, Work, group_name
from ..workings import Deed
from .corners import with_corners
from .fabric import Cursor, Fabric, Row, stitches_of
from .grouping import BEGUN, grouped
from .hook import FEWEST_AROUND, CannotWork
from .shape import chain_key, more_work, slips_on
from .spacing import Spacing
from .spots import SPACE, Segment, Spot, spot_of
from .starting import from_hook_of

NO_STITCH = 0
NOWHERE = spot_of("")
OVERLAID = "overlaid"  # the name of groups that go into an earlier round
PICOT = "picot"
MESHES = frozenset({"mesh", "block"})
SOLID = 3  # stitches of a solid square of filet, with the upright at its end
MOST_BEGUN = 3  # stretches; a beginning chain and the space after it are two


class Placing(Spacing):
    """Works stitches and groups into the places they name."""

    __slots__ = ()

    def _only_moves(self, where: Where, rest: Sequence[Step]) -> bool:
        """Tell whether slip stitches move or close the round; those into all of the row below are the round itself."""
        if where.at in (At.EACH, At.FROM_HOOK) or (self.worked and (self.looping or more_work(rest))):
            return False
        if where.target.space and self.row.has_stitches and self.base and more_work(rest):
            return False  # it ties down the chain that the round begins with
        if self.flat and self.worked and where.at is At.BEHIND:
            return False
        if self.flat and where.at is At.NEXT and not (where.target.space or where.target.group):
            number = self.number(where.number)
            if slips_on(rest) or (self.worked and number > 1 and self.cursor and self.cursor.left() == number):
                return False  # the row is in slip stitches, or ends in them down a slope
        alone = where.at is At.NEXT and not self.worked and not more_work(rest) and self.cursor is not None
        if not alone or self.cursor is None:
            return True
        number = self.number(where.number)
        return number < 2 or not (self.flat or number == self.cursor.left())

    def _move(self, where: Where, rest: Sequence[Step]) -> None:
        """Slip along, or tie a chain back to where it began."""
        self.in_space = self.in_space or (not self.worked and where.target.space)
        self.start = where.target if not self.worked and where.target.group else self.start
        if self.worked and where.at is At.SAME and where.target.space:
            self.mark_picot()
        self.travel(where, rest)

    def work(self, step: Work, rest: Sequence[Step], *, top: bool) -> None:
        """Work a stitch into its places, or squares of filet."""
        if step.make.kind in MESHES:
            self.squares(step, self.number(step.where.number), top=top)
        else:
            self.stitch(step, rest, top=top)

    def stitch(self, step: Work, rest: Sequence[Step], *, top: bool) -> None:
        """Work a stitch into its places."""
        where, make = step.where, self.of_now(step.make)
        if make is not step.make:
            step = replace(step, make=make)
        times = self.number(step.times)
        if make.kind == "slst" and self._only_moves(where, rest):
            self._move(where, rest)
            return
        if self.into_foundation(where):
            where, step = from_hook_of(step)
        self.worked = True
        self.in_one = times * make.makes if where.number is None or where.number.values == (1,) else make.makes
        if where.at is At.NEXT:
            self.next(step, rest, times, top=top)
            return
        if where.at is At.EACH:
            (self.each if step.corners is None else self.at_corners)(step, rest, times, top=top)
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
                taken = self.same(where, rest)
                self.lay_same(make, times, tied=make.kind == "slst" and where.target.space)
                self.note(Deed.WORK, step.span, taken, times * make.makes, top=top)
            case At.FROM_HOOK:
                self.from_hook(step, times, rest, top=top)
            case At.BETWEEN:
                self.between(step, times, top=top)
            case At.ROW_ENDS if self.along and (where.number is not None or times == 1):
                if where.number is None:
                    self.each(step, rest, times, top=top)
                else:
                    self.next(step, rest, times, top=top)
            case At.ROW_ENDS:
                if times < 2:
                    raise CannotWork("how many row ends there are is not known")
                self.left_alone = self.edged = True
                self.row.add(spot, times * make.makes)
                self.note(Deed.WORK, step.span, 0, times * make.makes, top=top)
            case At.BEHIND:
                self.into_behind(step, times, top=top)

    def squares(self, step: Work, number: int, *, top: bool) -> None:
        """Work squares of filet, each up to the next upright: two chains and a stitch over it, or three stitches."""
        if self.cursor is None or self.cursor.fabric.is_chain or self.cursor.fabric.ring:
            raise CannotWork("the squares below are not known")
        made = 0
        if self.base or not self.row.segments:
            # the first upright is the turning chain's
            self.worked, self.base = True, False
            made = not self.row.segments
            self.row.add(spot_of("dc"), int(made))
            self._take(1, spaces=False)
        open_ = step.make.kind == "mesh"
        for turn in range(number):
            ahead = next(self.cursor.ahead(), NOWHERE)
            self._take(1 if ahead.is_space else SOLID, spaces=False)
            begun = turn == 0 and bool(self.row.segments) and self.row.segments[-1].spots[-1].is_space
            if open_ and not begun:
                self.row.add(spot_of(SPACE, 2))
            self.row.add(spot_of("dc"), 1 if open_ else SOLID)
        made += number * (1 if open_ else SOLID)
        self.sought = True
        self.note(Deed.WORK, step.span, number, made, top=top)

    def into_behind(self, step: Work, times: int, *, top: bool) -> None:
        """Go into an earlier row, or stitches passed over before: nothing is taken of the row below."""
        made = self._behind(step.where, several=times > 1) * times * step.make.makes
        self.row.add(spot_of(step.make.kind), made)
        self.note(Deed.WORK, step.span, 0, made, top=top)

    def _behind(self, where: Where, *, several: bool = False) -> int:
        """Go to places of an earlier row and return how many; the stitches next in this one are found by their kind."""
        if where.number is None and not several:
            raise CannotWork("how many places of the earlier row are meant is not known")
        self.left_alone = self.left_alone or not self.used
        self.apart = self.loose = True
        self.kin = None
        if self.cursor is not None and next(self.cursor.ahead(), NOWHERE).group == OVERLAID:
            # it lies over a group that lies over the round below as well, and is passed
            for spot in list(self.cursor.ahead()):
                self.cursor.take_spots(1)
                if spot.closes:
                    break
        return self.number(where.number)

    def each(self, step: Work, rest: Sequence[Step], times: int, *, top: bool) -> None:
        """Go into every place up to the end, but for those that the draft or the following steps keep."""
        where, make = self.resolved(step.where), step.make
        if (where.target.space or where.target.group) and not where.target.also_spaces:
            number = self.all_groups(where.target) if where.target.group else self.all_spaces(where.target, rest)
            if number == 0 and not where.target.group:
                # no chain spaces: the gaps between the stitches are meant, as many as there are stitches
                number = self.left()
                self.take(number)
            self.lay(make, number * times, each=times)
            self.note(Deed.WORK, step.span, number, number * times * make.makes, top=top)
            return
        links = self.cursor.fabric.stitches if self.cursor is not None and self.cursor.fabric.ring else 0
        if 0 < links < FEWEST_AROUND and where.target.chain:
            # a short chain closed to a ring, and every link of it worked
            self.cursor = Cursor(Fabric(self.cursor.fabric.segments if self.cursor is not None else ()))
            self.base = self.row.has_stitches  # the counted beginning chain stands on the first of them
        between = 0  # spaces among the stitches up to the one where it stops
        if where.to_space and where.target.also_spaces:
            number, between = self.to_other_space(where.target)
        elif where.to_space or self.stops_at_space(where, rest):
            number = self.to_space() if self.left(spaces=True) > 0 else self.left() - self.kept(rest)
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
            extra = (
                between if where.to_space else sized if sized is not None else chains if where.target.chain else spaces
            )
            passed = passed if sized is not None else {}
        counted = chains >= 3 * spaces > 0 and where.target == Target() and self.choose("chains-count", False)
        if counted and self.choose("chains-worked", True):
            extra = chains
        self.passed = passed
        self.take(number * max(make.uses, 1))
        made = (number + extra) * times * make.makes
        self.lay(make, (number + extra) * times, each=times if times > 2 else 1)
        self.note(Deed.WORK, step.span, number * max(make.uses, 1), made, top=top)

    def lay_same(self, make: Make, times: int, *, tied: bool) -> None:
        """Make stitches in the same place; on a counted beginning chain alone they make a group with it.

        A slip stitch `tied` to a loop is no stitch of the row.
        """
        if tied:
            self.mark_picot()
            return
        begun = self.row.segments
        alone = bool(begun) and not begun[0].spaces and not begun[0].spots[0].group and begun[0].length == 1
        alone = alone and all(part.spots[0].is_space for part in begun[1:2]) and len(begun) < MOST_BEGUN
        if not alone or make.group or self.inside or make.makes > 1 or make.kind == "slst":
            self.lay(make, times, each=times if times > 1 else 1)
            return
        one = Row(list(begun))
        one.add(spot_of(make.kind), times)
        self.row = Row()
        self.lay_group(one.segments, 1, BEGUN)

    def mark_picot(self) -> None:
        """Let the chain made last, tied back to where it began, be a picot."""
        last = self.row.segments[-1] if self.row.segments else None
        if last is not None and last.times == 1 and len(last.spots) == 1 and last.spots[0].is_space:
            picot = Spot(SPACE, last.spots[0].size, PICOT, opens=True, closes=True)
            self.row.segments[-1] = Segment((picot,), 1)

    def at_corners(self, step: Work, rest: Sequence[Step], times: int, *, top: bool) -> None:
        """Work into each stitch, with more of them in each corner; a chain that counts stands on the first."""
        number = self.number(step.corners)
        if self.cursor is not None and self.cursor.fabric.spaces:
            # `3 sc in each corner` of a round whose corners are spaces
            self.each(replace(step, corners=None), rest, times, top=top)
            inside = Where(At.EACH, target=Target(space=True, corner=True))
            self.each(replace(step, where=inside, corners=None), rest, number, top=top)
            return
        if (
            times != 1
            or self.kept(rest)
            or self.cursor is None
            or step.make.uses != 1
            or self.cursor.left() != self.cursor.fabric.stitches
        ):
            raise CannotWork("where the corners are is not known")
        segments = with_corners(self.cursor.fabric, step.make.kind, number)
        begun = sum(part.stitches * part.times for part in self.row.segments)
        if begun and (begun > 1 or not self.base or segments[0].spots[0].group):
            raise CannotWork("where the corners are is not known")
        if begun:
            first = segments[0]
            segments = (Segment(first.spots[1:], 1), Segment(first.spots, first.times - 1), *segments[1:])
        self.take(self.left())
        self.row.segments.extend(part for part in segments if part.spots and part.times)
        made = sum(part.stitches * part.times for part in segments)
        self.note(Deed.WORK, step.span, self.cursor.fabric.stitches - begun, made, top=top)

    def between(self, step: Work, times: int, *, top: bool) -> None:
        """Go between stitches, or between groups of them: a gap lies after each."""
        where = step.where
        if self.cursor is None or self.cursor.fabric.ring:
            raise CannotWork("the row below is not known")
        if where.number is None:
            number = self.all_groups(where.target) if where.target.group else self.left()
            if not where.target.group:
                self.take(number)
        else:
            number = self.number(where.number)
            self._go(where.target, number)
        self.lay(step.make, number * times, each=times)
        self.note(Deed.WORK, step.span, 0 if where.target.group else number, number * times * step.make.makes, top=top)

    def lay(self, make: Make, number: int, *, each: int = 1) -> None:
        """Make so many of a stitch, or of a group that the draft defines as one; `each` of them lie in one place."""
        if make.kind == "slst" and each == NO_STITCH:
            return
        if make.group:
            inner = self.inner()
            inner.worked = inner.begun = True
            parts = make.group
            if isinstance(first := parts[0], Chain) and first.beginning:
                # a beginning shell: its chain stands for the first stitch
                parts = parts[1:]
                chains = self.number(first.n)
                if self.choose(chain_key(chains, None), chains >= 3):
                    inner.row.add(spot_of("ch"))
            for part in parts:
                inner.step(part, (), top=False)
            self.lay_group(inner.row.segments, number, group_name(make.kind))
            return
        if make.makes < 0:
            self.short += self.row.drop(-number * make.makes)
            return
        if each > 1 and not self.inside and make.kind != "slst":
            one = Row()
            one.add(spot_of(make.kind), each * make.makes)
            name = ANY_GROUP if make.makes == 1 else group_name(make.kind)
            self.lay_group(one.segments, number // each, name)
            return
        if make.makes > 2 and not self.inside:
            one = Row()
            one.add(spot_of(make.kind), make.makes)
            self.lay_group(one.segments, number, group_name(make.kind))
            return
        self.row.add(spot_of(make.kind), number * make.makes)

    def lay_group(self, segments: Sequence[Segment], number: int, name: str) -> None:
        """Add a group of stitches worked in one place, so many times; a beginning chain alone is part of the first."""
        self.row.extend(segments if self.inside else grouped(segments, name), number)

    def next(self, step: Work, rest: Sequence[Step], times: int, *, top: bool) -> None:
        """Go into the next places."""
        where, make = self.resolved(step.where), step.make
        number = self.number(where.number)
        if self._on_edge(where):
            self.lay(make, number * times, each=times if times > 2 else 1)
            self.note(Deed.WORK, step.span, 0, number * times * make.makes, top=top)
            return
        if where.first and number == times == 1 and self._closes_loop(make, rest):
            return
        if (
            step.bare
            and step.ambiguous
            and make.uses == 1
            and make.makes == 1
            and number in (2, 3)
            and self.choose("n-in-one", False)
        ):
            number, times = 1, number
        if where.target.group:
            self.into_groups(where.target, number)
        elif where.target.space:
            if self.cursor is not None and not self.cursor.fabric.spaces and not self.cursor.fabric.ring:
                raise CannotWork("the spaces it goes into were not found in the row below")
            self.take(number, spaces=True)
        elif where.turning:
            self.turning_chain()
        elif where.first and self.base and make.uses and number == 1 and self.choose("first-is-under-chain", True):
            self.same(where)
        elif make.uses:
            if where.nth is not None and not where.target.chain:
                self.from_beginning(where.nth)
            if where.first and self.used and self.cursor is not None and self.cursor.fabric.is_chain:
                self.cursor.take(self.cursor.left() - 1)  # the first chain made is the last one met
            behind = self.to_middle(number * make.uses) if where.target.nth == 0 else 0
            self.to_kind(where.target)
            if where.last and self.loose and self.cursor is not None:
                self.cursor.take(self.cursor.left() - number * make.uses - self.kept(rest))
            self.take(number * make.uses)
            if behind and self.cursor is not None:
                self.cursor.take(behind)
        if self.cursor is None and self.fresh:
            self.starts = True
        made = number * times * make.makes
        placed = where.target.space or bool(where.target.group)
        tied = make.kind == "slst" and placed  # a slip stitch into a loop ties it down and is no stitch of the row
        self.lay(make, number * times, each=NO_STITCH if tied else times if placed or times > 2 else 1)
        self.note(Deed.WORK, step.span, 0 if placed else number * make.uses, made, top=top)

    def _on_edge(self, where: Where) -> bool:
        """Tell whether a stitch goes into a corner of the piece or its foundation, after an edge: not into the row."""
        if not self.edged or self.cursor is None or self.cursor.fabric.spaces or self.cursor.fabric.is_chain:
            return False
        return where.target.corner or where.target.chain

    def _closes_loop(self, make: Make, rest: Sequence[Step]) -> bool:
        """Take `ch 3, tr in first sc` at a round's end for the join: the stitch is the second half of the last loop."""
        last = self.row.segments[-1] if self.row.segments else None
        if self.flat or make.height < 2 or not self.worked or more_work(rest) or last is None:
            return False
        if self.cursor is None or self.cursor.fabric.is_chain or any(isinstance(step, Turn) for step in rest):
            return False
        if last.times != 1 or len(last.spots) != 1 or not last.spots[0].is_space:
            return False
        self.row.segments[-1] = Segment((spot_of(SPACE, last.spots[0].size + make.height),), 1)
        return True

    def _go(self, target: Target, number: int) -> None:
        """Take the next places: groups, spaces or stitches."""
        if target.group:
            self.into_groups(target, number)
        else:
            self.take(number, spaces=target.space)

    def together(self, step: Together, rest: Sequence[Step], *, top: bool) -> None:
        """Work a group into one place, or into each of several."""
        where = self.resolved(step.where)
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
                    inner.row.add(spot_of(SPACE, first.and_space), int(first.and_space > 0))
        for part in parts:
            inner.step(part, (), top=False)
        segments = inner.row.segments
        taken = self._place_group(segments, where, rest, begun=inner.begun)
        times = 1 if where.at in (At.SAME, At.RING) else taken
        self.note(Deed.WORK, step.span, taken, stitches_of(segments) * times, top=top)

    def _place_group(self, segments: Sequence[Segment], where: Where, rest: Sequence[Step], *, begun: bool) -> int:
        """Lay a group into its place or places and return how many those are; `begun` where the round has begun."""
        taken = 0
        if where.at is At.EACH:
            if where.target.group:
                taken = self.all_groups(where.target)
            elif where.target.space:
                taken = self.all_spaces(where.target, rest)
            else:
                taken = max(0, self.left() - (self.number(where.leave) if where.leave else self.kept(rest)))
                self.take(taken)
            self.lay_group(segments, taken, ANY_GROUP)
        elif where.at is At.NEXT and where.first and self.base and self.choose("first-is-under-chain", True):
            taken = self.same(where)
            self.lay_group(segments, 1, BEGUN)
        elif where.at is At.NEXT:
            taken = self.number(where.number)
            self.to_kind(where.target)
            self._go(where.target, taken)
            self.lay_group(segments, taken, ANY_GROUP)
        elif where.at is At.BETWEEN:
            taken = self.number(where.number) if where.number else self.left()
            self._go(where.target, taken)
            self.lay_group(segments, taken, ANY_GROUP)
        elif where.at is At.RING:
            self.base = False
            self.lay_group(segments, 1, ANY_GROUP)
        elif where.at in (At.SAME, At.POST_SAME):
            taken = self.same(where, rest)
            self.lay_group(segments, 1, ANY_GROUP if begun else BEGUN)
        elif where.at is At.BEHIND:
            taken = self._behind(where)
            self.lay_group(segments, taken, OVERLAID)
        else:
            raise CannotWork("where this group goes is not clear")
        return taken
