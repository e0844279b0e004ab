"""Repeating: groups worked several times, and shaping spread over a round."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import takewhile

from ..steps import At, Chain, Evenly, FastenOff, Join, Remark, Repeat, Skip, Step, Target, Together, Work
from ..workings import Deed, Item
from .balance import balance
from .fabric import Cursor, Row, stitches_of
from .grouping import groups_of
from .hook import CannotWork
from .placing import Placing
from .shape import into_spaces, more_work
from .spots import SPACE, spot_of

MOST_PASSES = 5_000


@dataclass(frozen=True, slots=True)
class _Kept:
    """What the steps after a repeat need: stitches, and spaces."""

    stitches: int
    spaces: int


class Repeating(Placing):
    """Works repeats."""

    __slots__ = ()

    def repeat(self, step: Repeat, rest: Sequence[Step], *, top: bool) -> None:
        """Work a group as often as said, or as often as it fits."""
        passes = self.passes(step)
        if passes is None and step.times.leave is None:
            passes = self._groups_in_front(step)
        to_end = passes is None
        keep = 0
        if to_end:
            keep = self.number(step.times.leave) if step.times.leave else self.kept(rest)
            if step.times.to_marker:
                keep = self.number(step.times.leave) if step.times.leave else 0
                keep += self.left() - self.before_marker(step.times.to_marker)
        if passes == 0:
            return
        looping, self.looping = self.looping, self.looping or passes is None or passes > 1
        outer, self.loop = self.loop, step.steps
        short = step.times.ending and to_end and keep == 0  # the last pass is given in words that take no stitch
        made_before = self.made_before
        done, uses, makes = self._passes(step, passes, _Kept(keep, self.kept_spaces(rest)), last_differs=short)
        self.looping, self.made_before, self.loop = looping, made_before, outer
        spaceless = self.cursor is not None and not self.cursor.fabric.spaces
        if to_end and not done and spaceless and any(into_spaces(step.steps, each=False)):
            raise CannotWork("the spaces it goes into were not found in the row below")
        if to_end and done and self._one_group_left(step.steps[0], keep):
            self.step(step.steps[0], step.steps[1:], top=False)  # the round closes before the rest of the group
        left = 0
        if short:
            self.left_alone = True
        elif to_end:
            if done and not keep and not more_work(rest) and self._goes_on_to_end(step):
                first = step.steps[0]
                assert isinstance(first, Work)
                self.work(first, (), top=False)
            left = 0 if self.at_end() or step.times.to_space is not None else max(0, self.left() - keep)
            if left and done and self.partial_ok and self._partial(step, left):
                left = 0
                self.partial = True
            if top and not left:
                self._close_with_loop(step, rest)
        if top:
            self.items.append(Item(Deed.REPEAT, step.span, done, uses, makes, left if to_end else None, to_end))
        self.left_repeat += left

    def _groups_in_front(self, step: Repeat) -> int | None:
        """Return how many groups there are, where each pass makes a loop behind one.

        None where the group goes anywhere but into one stitch of an earlier round.
        """
        works = [part for part in step.steps if not isinstance(part, Chain | Remark)]
        only = works[0] if len(works) == 1 else None
        if not isinstance(only, Work) or only.where.at is not At.BEHIND or self.cursor is None:
            return None
        found = groups_of(self.cursor.fabric)
        one = only.where.number is not None and only.where.number.values == (1,)
        return next(iter(found.values())) if one and len(found) == 1 else None

    def _one_group_left(self, first: Step, keep: int) -> bool:
        """Tell whether only the group of stitches or picot is left into which the first step of a repeat goes."""
        if not isinstance(first, Work) or not first.where.target.group or self.cursor is None or self.left() != keep:
            return False
        return first.where.number is not None and self.cursor.count(self.group_match(first.where.target)) == 1

    def _close_with_loop(self, step: Repeat, rest: Sequence[Step]) -> None:
        """Make the loop back to the beginning where it isn't written: `*ch 5, sc in next dc; rep around, join`."""
        chains = list(takewhile(_makes_loop, step.steps))
        ends = bool(step.steps) and isinstance(step.steps[-1], Work | Together)
        closes = all(isinstance(part, Join | Remark | FastenOff) for part in rest)
        # the chains of a mesh bridge stitches, and none are left for another
        closes = closes and not any(isinstance(part, Skip) for part in step.steps)
        begun = self.row.segments[0].spots[0] if self.row.segments else None
        if self.flat or not (chains and ends and closes) or begun is None or begun.is_space:
            return
        for part in chains:
            if isinstance(part, Chain):
                self.row.add(spot_of(SPACE, self.number(part.n)))

    def _passes(
        self, step: Repeat, passes: int | None, kept: _Kept, *, last_differs: bool = False
    ) -> tuple[int, int, int]:
        """Work the passes, one less where the last differs; return how many, and what the first used and made."""
        done, uses, makes = 0, 0, 0
        outer = self.row
        start = self.made_before
        room = 0
        goes = list(into_spaces(step.steps, each=False))
        spaces_only = bool(goes) and all(goes)
        while passes is None or done < passes:
            if passes is None:
                room = self.left() - kept.stitches
                done_with_spaces = self.left(spaces=True) <= kept.spaces
                if step.times.to_space is not None:
                    if self._stops_before(step.times.to_space, stitches=not any(goes)):
                        break
                elif room < 0 or (done_with_spaces and (room == 0 or (kept.spaces and spaces_only))):
                    break
            before = self.cursor.copy() if self.cursor is not None else None
            used, short, base = self.used, self.short, self.base
            marks = (len(self.marks), self.mark_at)
            self.made_before, self.row, self.sought = start + stitches_of(outer.segments), Row(), False
            if done == 0 and outer.has_stitches and not self.worked:
                self.worked = True
            self.sequence(step.steps, top=False)
            took = self.used - used + (self.short - short)
            if base and not self.base:
                # the place under a counted beginning chain was passed on the way: it is none of the group's own
                took -= 0 if self.in_space else 1
            made = self.row.segments
            self.row = outer
            if passes is None and self.cursor is not None and (took > room or self.short > short):
                # this pass didn't fit any more
                self.cursor = before
                self.used, self.short, self.base = used, short, base
                self.forget_marks(marks)
                break
            outer.extend(made)
            if done == 0:
                uses, makes = took, stitches_of(made)
                if last_differs and took and room % took == 0:
                    kept = _Kept(kept.stitches + took, kept.spaces)
            done += 1
            if self.cursor is None and passes is not None:
                outer.extend(made, passes - done)
                self.used += took * (passes - done)
                done = passes
            elif step.times.to_space is None and before is not None and base is self.base and not self.has_marks(marks):
                fit = self._alike(before, kept, None if passes is None else passes - done)
                outer.extend(made, fit)
                self.used += took * fit
                done += fit
            _check_pass(done, endless=passes is None and took == 0 and self.cursor == before)
        return done, uses, makes

    def _stops_before(self, target: Target, *, stitches: bool) -> bool:
        """Tell whether the space is next before which a repeat stops, or no more groups are left than are kept."""
        if not target.group or self.cursor is None:
            return self.at_space(target, stitches=stitches)
        return self.cursor.count(self.group_match(target)) <= -(target.nth or -1)

    def _alike(self, before: Cursor, kept: _Kept, wanted: int | None) -> int:
        """Pass at once over what further passes like the last take; return how many, no more than are wanted."""
        cursor = self.cursor
        ahead = cursor.passes_ahead(before, sought=self.sought) if cursor is not None else None
        if ahead is None or cursor is None:
            return 0
        moved, fit = ahead
        if wanted is not None:
            fit = min(fit, wanted)
        else:
            stitches, spaces = before.left() - cursor.left(), before.spaces_left() - cursor.spaces_left()
            if stitches:
                fit = min(fit, (self.left() - kept.stitches) // stitches)
            if spaces:
                fit = min(fit, (self.left(spaces=True) - kept.spaces) // spaces)
        cursor.take_spots(moved * max(0, fit))
        return max(0, fit)

    def _goes_on_to_end(self, step: Repeat) -> bool:
        """Tell whether a group goes stitch by stitch to each space, and only the stitches after the last are left."""
        first = step.steps[0]
        plain = isinstance(first, Work) and first.where.at is At.EACH and first.times.values == (1,)
        return plain and any(into_spaces(step.steps[1:])) and not self.left(spaces=True) and self.left() > 0

    def _partial(self, step: Repeat, left: int) -> bool:
        """Work the beginning of one more pass where it uses up exactly what is left.

        Front and back posts by turns make ribs, which must close around the whole round.
        """
        kinds = {part.make.kind[:2] for part in step.steps if isinstance(part, Work)}
        if kinds == {"fp", "bp"} or (self.knit and balance(step.steps, self)):
            return False  # a group that shapes the row must close
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


def _makes_loop(step: Step) -> bool:
    tied = isinstance(step, Work) and step.make.kind == "slst" and step.where.target.space
    return tied or (isinstance(step, Chain) and not step.beginning and step.counts is None)


def _check_pass(done: int, *, endless: bool) -> None:
    """Give up on a repeat that never ends. Raises CannotWork."""
    if endless:
        raise CannotWork("the repeat takes no stitches, so it never comes to an end")
    if done > MOST_PASSES:
        raise CannotWork("the repeat is worked too many times to follow")
