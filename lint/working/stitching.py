"""Stitching: one round worked for one size on the row below, step by step."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..pattern import (
    At,
    Chain,
    Evenly,
    Join,
    Leave,
    Make,
    OtherSide,
    Repeat,
    Ring,
    Skip,
    Step,
    Target,
    Together,
    Where,
    Work,
)
from ..workings import Deed, Item
from .fabric import LINK, SPACE, Cursor, Fabric, Row, plain, spot_of, stitches_of
from .hook import FEWEST_AROUND, CannotWork, Choose, Hook
from .shape import (
    along_rows,
    begins_piece,
    beyond_height,
    beyond_join,
    chain_key,
    into_chain,
    into_ring,
    is_bridge,
    makes_start,
    more_work,
    unread_in,
)

MOST_PASSES = 5_000
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


class Stitcher(Hook):
    """Works the steps of a round."""

    __slots__ = ()

    def run(self, steps: Sequence[Step]) -> Made:
        """Work a whole round."""
        if len(steps) > MOST_STEPS:
            raise CannotWork("the round has more steps than can be followed")
        unread = next(unread_in(steps), None)
        if unread is not None:
            raise CannotWork(unread.reason, unread.span)
        if begins_piece(steps) and not (self.below is not None and self.below.ring and not makes_start(steps)):
            self.below = None
            self.starts = True
        along = self.rows is not None and any(along_rows(steps))
        if along:
            self.below = plain(LINK, self.rows or 0)
        self.along = along
        self.cursor = Cursor(self.below) if self.below is not None else None
        if self.below is not None and self.below.is_chain and not self.below.ring:
            self.chain_links = self.below.stitches
        before = None if self.below is None or self.below.ring else self.below.stitches
        self.sequence(steps, top=True)
        if self.base:
            self.base = False
            self._take(1, spaces=False)
        left = 0
        if self.cursor is not None and not self.cursor.fabric.ring and not self.left_alone:
            left = max(0, self.cursor.left()) if self.row.segments else 0
        if self.flat_count is not None:
            fabric, left = plain("st", self.flat_count), 0
        elif self.row.segments:
            fabric = self.row.done()
        elif self.cursor is None:
            raise CannotWork("no stitches were found in these words")
        else:
            fabric = self._nothing_made(steps)
        return Made(
            fabric,
            before,
            self.used,
            left,
            self.short,
            tuple(self.items),
            self.starts,
            self.partial,
        )

    def _nothing_made(self, steps: Sequence[Step]) -> Fabric:
        """Return the chain or ring that a line only makes; anything else that makes nothing was not understood."""
        assert self.cursor is not None
        if self.starts and any(isinstance(step, Chain | Ring) for step in steps):
            return self.cursor.fabric
        raise CannotWork("no stitches were found in these words")

    def sequence(self, steps: Sequence[Step], *, top: bool) -> None:
        """Work steps in order."""
        for index, step in enumerate(steps):
            self.step(step, steps[index + 1 :], top=top)

    def step(self, step: Step, rest: Sequence[Step], *, top: bool) -> None:
        """Work one step; `rest` are those after it, for which places may have to be kept."""
        if isinstance(step, Work):
            self.work(step, rest, top=top)
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
            case Leave():
                self.left_alone = True
                if top and step.number is not None:
                    number = self.number(step.number)
                    self._take(number, spaces=False)
                    self.used -= number
                    self.left_alone = self.cursor is not None and self.cursor.left() == 0
                    self.items.append(Item(Deed.LEAVE, step.span, 1, number, 0))
            case OtherSide():
                self.other_side()
            case Evenly():
                self.evenly(step)
            case _:
                pass

    def other_side(self) -> None:
        """Go on along the other side of the foundation chain; a link turned around with several stitches is done."""
        if self.apart and self.cursor is None:
            return
        if self.chain_links < 1:
            raise CannotWork("which chain is worked along the other side is not known")
        self.cursor = Cursor(plain(LINK, self.chain_links - (self.in_one > 1)))

    def work(self, step: Work, rest: Sequence[Step], *, top: bool) -> None:
        """Work a stitch into its places."""
        where, make = step.where, step.make
        times = self.number(step.times)
        if make.kind == "slst" and where.at not in (At.EACH, At.FROM_HOOK) and (not self.worked or not more_work(rest)):
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

    def same(self, where: Where) -> int:
        """Go into the same place: the one under a counted chain, or the first of the round where none is taken yet."""
        if self.base:
            self.base = False
            if where.target.space and self.cursor is not None and self.cursor.fabric.spaces:
                self.in_space = True
            self._take(1, spaces=self.in_space)
            return 0 if self.in_space else 1
        if where.target.space and self.cursor is not None and self.cursor.fabric.spaces and not self.row.segments:
            self._take(1, spaces=True)
            return 0
        if (
            not self.used
            and not self.row.has_stitches
            and where.at is At.SAME
            and self.cursor is not None
            and not self.cursor.fabric.ring
        ):
            self._take(1, spaces=False)
            return 1
        return 0

    def from_hook(self, step: Work, times: int, *, top: bool) -> None:
        """Go into the nth link from the hook: the links before it are skipped, and may stand for a stitch."""
        nth = self.number(step.where.number, 2)
        if self.cursor is None or self.cursor.fabric.stitches < nth:
            if self.cursor is None:
                raise CannotWork("the chain it is worked into is not known")
            self.short += nth - self.cursor.fabric.stitches
        counted = step.skipped_count
        if counted is None:
            counted = nth > 2 and self.choose(f"skipped-{nth}-count", nth >= 4 or step.make.height >= 3)
        self.row = Row()
        if counted:
            self.row.add(spot_of(step.make.kind))
        self.cursor.take(nth)
        self.chain_links = max(0, self.cursor.fabric.stitches - nth + 1)
        self.used += 1
        self.row.add(spot_of(step.make.kind), times * step.make.makes)
        self.note(Deed.WORK, step.span, nth, times * step.make.makes + counted, top=top)

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
            number = self.left() - (self.number(where.leave) if where.leave else self.kept(rest))
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
            self.row.add(spot_of(make.kind), number * make.makes)
            return
        inner = Stitcher(self.size, None, self.choose)
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
        elif make.uses:
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
        inner = Stitcher(self.size, None, self.choose)
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

    def chain(self, step: Chain, rest: Sequence[Step], *, top: bool) -> None:
        """Make chains: a foundation, a beginning chain, or a space."""
        number = self.number(step.n)
        if self.cursor is None and self.fresh and into_ring(rest):
            # `ch 3, 11 dc in magic ring`: the ring is named only with the stitches
            self.cursor = Cursor(Fabric(ring=True))
            self.starts = True
        foundation = (
            step.beginning
            and ((self.cursor is None and self.fresh) or into_chain(rest))
            and not (self.cursor is not None and self.cursor.fabric.ring)
        )
        if foundation and not self.row.segments:
            self.cursor = Cursor(plain(LINK, number))
            self.chain_links = number
            self.starts = True
            return
        follows = self.begun and not (rest and isinstance(rest[0], Work))
        again = follows or self.worked or (self.looping and step.counts is None)
        if step.beginning and not again and not self.row.has_stitches and not is_bridge(number, self, rest):
            self.begun = True
            counts = step.counts
            if counts is None:
                joined = next((part.to_chain for part in rest if isinstance(part, Join)), None)
                counts = self.choose(chain_key(number, joined), number >= 3 or (joined is True and number == 2))
            if counts:
                hole = self.cursor is not None and self.cursor.fabric.ring
                hole = hole and self.cursor is not None and self.cursor.fabric.stitches < FEWEST_AROUND
                self.base = not hole and not self.along
                self.row.add(spot_of(step.kind or "ch"))
                self.counted_space = step.and_space or beyond_height(number, rest) or beyond_join(number, rest)
                if self.counted_space:
                    self.row.add(spot_of(SPACE, self.counted_space))
                self.items.append(Item(Deed.CHAIN, step.span, 1, 1 if self.base else 0, 1))
            return
        if step.counts:
            self.row.add(spot_of(step.kind or "ch"))
        elif not top or any(isinstance(part, Work | Together | Repeat | Skip | Join) for part in rest):
            if self.base and rest and isinstance(rest[0], Skip):
                self.take(0)  # the skip passes the stitch after the one that the beginning chain stands on
            self.row.add(spot_of(SPACE, number))

    def skip(self, step: Skip, *, top: bool) -> None:
        """Pass over places."""
        if step.behind:
            return
        number = self.number(step.number)
        if step.target.space:
            self.take(number, spaces=True)
            return
        if step.target.chain and self.cursor is not None and not self.cursor.fabric.is_chain:
            return
        if not self.worked and self.cursor is not None and self.cursor.fabric.is_chain:
            self.chain_links -= number  # links passed over for the height of the first stitch
        if self.base and self.choose("skip-is-base", number == self.counted_space + 1):
            self.base = False
        self.take(number)
        self.note(Deed.SKIP, step.span, number, 0, top=top)

    def repeat(self, step: Repeat, rest: Sequence[Step], *, top: bool) -> None:
        """Work a group as often as said, or as often as it fits."""
        passes = self.passes(step)
        to_end = passes is None
        keep = 0
        if to_end:
            keep = self.number(step.times.leave) if step.times.leave else self.kept(rest)
            limit = self.left() - keep
        else:
            limit = 0
        if passes == 0:
            return
        looping, self.looping = self.looping, self.looping or passes is None or passes > 1
        short = step.times.ending and to_end and keep == 0  # the last pass is given in words that take no stitch
        done, uses, makes = self._passes(step, passes, limit, last_differs=short)
        self.looping = looping
        left = 0
        if short:
            self.left_alone = True
        elif to_end:
            left = max(0, self.left() - keep)
            if left and done and self.partial_ok and self._partial(step, left):
                left = 0
                self.partial = True
        if top:
            self.items.append(Item(Deed.REPEAT, step.span, done, uses, makes, left if to_end else None, to_end))
        self.left_repeat += left

    def _passes(
        self, step: Repeat, passes: int | None, limit: int, *, last_differs: bool = False
    ) -> tuple[int, int, int]:
        """Work the passes, one less where the last differs; return how many, and what the first used and made."""
        done, uses, makes = 0, 0, 0
        outer = self.row
        while passes is None or done < passes:
            if passes is None and limit <= 0:
                break
            before = self.cursor.copy() if self.cursor is not None else None
            used, short, base = self.used, self.short, self.base
            self.row = Row()
            if done == 0 and outer.has_stitches and not self.worked:
                self.worked = True
            self.sequence(step.steps, top=False)
            took = self.used - used + (self.short - short)
            if base and not self.base:
                # the place under a counted beginning chain was passed on the way: it is none of the group's own
                took -= 0 if self.in_space else 1
            made = self.row.segments
            self.row = outer
            if passes is None and self.cursor is not None and (took > limit or self.short > short):
                # this pass didn't fit any more
                self.cursor = before
                self.used, self.short, self.base = used, short, base
                break
            outer.extend(made)
            if done == 0:
                uses, makes = took, stitches_of(made)
                limit -= took if last_differs and took and (limit % took == 0) else 0
            done += 1
            limit -= took
            ahead = self.cursor.passes_ahead(before) if self.cursor and before and base is self.base else None
            if ahead and took:
                moved, fit = ahead
                fit = min(fit, passes - done) if passes is not None else min(fit, limit // took)
                if fit > 0 and self.cursor is not None:
                    self.cursor.jump(moved * fit)
                    outer.extend(made, fit)
                    self.used += took * fit
                    limit -= took * fit
                    done += fit
            elif self.cursor is None and passes is not None:
                outer.extend(made, passes - done)
                self.used += took * (passes - done)
                done = passes
            if passes is None and took == 0 and self.cursor is not None and before is not None:
                limit = self.cursor.spaces_left() if self.cursor.spaces_left() < before.spaces_left() else 0
                if not limit:
                    self.cursor.take(self.cursor.left())
                    if self.cursor.spaces_left() < before.spaces_left():
                        break
            _check_pass(done, endless=passes is None and took == 0 and not limit)
        return done, uses, makes

    def _partial(self, step: Repeat, left: int) -> bool:
        """Work the beginning of one more pass where it uses up exactly what is left.

        Front and back posts by turns make ribs, which must close around the whole round.
        """
        kinds = {part.make.kind[:2] for part in step.steps if isinstance(part, Work)}
        if kinds == {"fp", "bp"}:
            return False
        need = 0
        for index, part in enumerate(step.steps):
            wanted = self.need(part)
            if wanted is None:
                return False
            need += wanted
            if need == left:
                self.sequence(step.steps[: index + 1], top=False)
                return True
            if need > left:
                return False
        return False

    def evenly(self, step: Evenly) -> None:
        """Spread increases or decreases over the round."""
        before = self.left()
        number = self.number(step.number, 0) if step.number else 0
        if step.number is None and step.to is not None:
            number = abs(self.number(step.to) - before)
        self.take(before)
        self.flat_count = before + step.change * number
        if step.number is not None and step.to is not None:
            # `decreasing 4 sts every rnd until 16 sts remain`
            to = self.number(step.to)
            self.flat_count = max(self.flat_count, to) if step.change < 0 else min(self.flat_count, to)
        self.items.append(Item(Deed.EVENLY, step.span, 1, before, self.flat_count))


def _check_pass(done: int, *, endless: bool) -> None:
    """Give up on a repeat that never ends. Raises CannotWork."""
    if endless:
        raise CannotWork("the repeat takes no stitches, so it never comes to an end")
    if done > MOST_PASSES:
        raise CannotWork("the repeat is worked too many times to follow")


def work_round(
    steps: Sequence[Step],
    below: Fabric | None,
    size: int,
    choose: Choose,
    *,
    partial_ok: bool = False,
    fresh: bool = True,
    rows: int | None = None,
) -> Made:
    """Work one round for one size. Raises CannotWork, whose message says why not."""
    return Stitcher(size, below, choose, partial_ok, fresh, rows).run(steps)
