"""Fitting: the words of one round worked on a row, in the way, of those they allow, that fits."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from ..pattern import Claim, Pattern, Round
from ..steps import Leave, Repeat, Step, Turn, Work
from .balance import balance
from .claims import stated_of
from .fabric import Fabric, plain
from .flatness import goes_around, is_flat
from .hook import CannotWork, PlaceUnknown
from .memo import Memo
from .otherwise import once_around, other_ways
from .shape import goes_on
from .stitching import Made, Stitcher, work_round

FEWEST_WAITING = 4  # stitches; fewer are hardly set aside without a word


@dataclass(slots=True, kw_only=True)
class Fitting(ABC):
    """Works the steps of a round under the answers to the open questions of its pattern."""

    pattern: Pattern
    memo: Memo = field(default_factory=Memo)
    rows: dict[int, int] = field(default_factory=dict[int, int])  # by size: rows worked flat before

    @abstractmethod
    def choose(self, key: str, usual: bool) -> bool:
        """Answer a question, and remember that it came up."""

    def _steps(self, round_: Round, size: int, below: Fabric | None, *, fresh: bool = False) -> Made:
        """Work a round on a row; a foundation is made of nothing."""
        if round_.foundation:
            below, fresh = None, True
        return self.memo.once(
            (id(round_), size, below, fresh, self.rows.get(size)),
            self.choose,
            lambda: self._fitting(round_, size, below, fresh=fresh),
            (CannotWork,),
        ).again()

    def _fitting(self, round_: Round, size: int, below: Fabric | None, *, fresh: bool) -> Made:
        """Work a round; where its words, taken the usual way, don't fit, take them in the other ways they allow."""
        flat = is_flat(self.pattern, round_)
        if round_.closing is not None:
            return self._closing(round_, round_.closing, size, below, fresh=fresh)
        try:
            made = self._round(round_.steps, size, below, fresh=fresh, flat=flat)
        except PlaceUnknown:
            return self._balanced(round_, size, below)
        if made.short and below is not None and below.behind:
            # the stitches that a turn left behind are worked again with the rest
            below = below.whole()
            made = self._round(round_.steps, size, below, fresh=fresh, flat=flat)
        stated = stated_of(round_.claims, size)
        if self.pattern.craft == "knitting":
            made = self._once_around(round_.steps, size, below, made, stated)
        waits = made.left >= FEWEST_WAITING or any(isinstance(step, Turn | Leave) for step in round_.steps)
        if stated and made.left and self.pattern.craft == "knitting" and made.fabric.stitches - made.left == stated:
            # only the stitches worked are counted: the rest wait
            return replace(made, fabric=plain("st", stated), left=0 if waits else made.left)
        if goes_around(round_, below) and not made.starts and stated != made.fabric.stitches:
            raise CannotWork("it goes around a flat piece, and how many stitches lie along the sides is not known")
        misfit = (made.left or made.short) and below is not None and below.spaces
        if misfit and below is not None and self.choose("chains-count", False):
            # where chains are counted as stitches they are also worked as such
            spelled = self._tried(round_.steps, size, below.spelled(), fresh=fresh, flat=flat)
            if spelled is not None and not spelled.left and not spelled.short:
                return spelled
        if made.short and flat and (two := self._turned(round_.steps, size, below)) is not None:
            return two
        if made.left or made.short:
            other = self._round(round_.steps, size, below, fresh=fresh, flat=flat, partial_ok=True)
            if other.partial and (stated is None or other.fabric.stitches == stated):
                return other
        if stated is not None and self._only_last_part(round_.steps, size, below, made) == stated:
            # `K8, cast off 2, k to end [8 sts]`: the stitches before those bound off wait
            return replace(made, fabric=plain("st", stated))
        if stated is not None and made.fabric.stitches != stated:
            for steps in other_ways(round_.steps):
                other = self._tried(steps, size, below, fresh=fresh, flat=flat)
                if other and other.fabric.stitches == stated and not other.left and not other.short:
                    return other
        return made

    def _once_around(
        self, steps: Sequence[Step], size: int, below: Fabric | None, made: Made, stated: int | None
    ) -> Made:
        """Take a round that picks up stitches as it comes to the count stated, or nearest to it.

        What the row below lacks is worked from stitches that waited; its last stitches may be the first once more.
        """
        if not any(isinstance(step, Work) and step.make.kind == "pu" for step in steps):
            return made
        made = replace(made, short=0)
        found = once_around(steps)
        other = self._tried(found[0], size, below, fresh=False, flat=False) if found is not None else None
        if found is None or other is None:
            return made
        counts = other.fabric.stitches, made.fabric.stitches
        nearer = found[2] if stated is None else abs(counts[0] - stated) < abs(counts[1] - stated)
        if not nearer:
            return made
        # the round begins that many stitches further on
        fabric, by = other.fabric, found[1].at(size) or 0
        marks = sorted((mark - by) % fabric.stitches for mark in fabric.marks) if fabric.stitches else ()
        return replace(other, short=0, fabric=Fabric(fabric.segments, marks=tuple(marks)))

    def _only_last_part(self, steps: Sequence[Step], size: int, below: Fabric | None, made: Made) -> int | None:
        """Return the stitches behind those bound off last in mid-row; None where there are none, or it doesn't fit."""
        bound = [n for n, step in enumerate(steps) if isinstance(step, Work) and step.make.kind == "bo"]
        if not bound or self.pattern.craft != "knitting" or made.left or made.short:
            return None
        try:
            before = self._round(steps[: bound[-1] + 1], size, below, fresh=False, flat=True)
        except CannotWork:
            return None
        waiting = before.fabric.stitches - before.left
        return made.fabric.stitches - waiting if waiting else None

    def _turned(self, steps: Sequence[Step], size: int, below: Fabric | None) -> Made | None:
        """Work a line that turns in its middle as two rows; None where it doesn't, or they don't come out."""
        at = next((n for n, step in enumerate(steps) if isinstance(step, Turn) and goes_on(steps[n + 1 :])), None)
        if at is None or self.pattern.craft == "knitting" or not goes_on(steps[:at]):
            return None
        first = self._tried(steps[: at + 1], size, below, fresh=False, flat=True)
        if first is None or first.short:
            return None
        second = self._tried(steps[at + 1 :], size, first.fabric, fresh=False, flat=True)
        if second is None or second.short or second.left or second.starts:
            return None
        return replace(second, before=first.before, used=first.used, items=(*first.items, *second.items))

    def _balanced(self, round_: Round, size: int, below: Fabric | None) -> Made:
        """Work a round by what it adds and takes away, where a place in it isn't known."""
        hook = Stitcher(size, below, self.choose, knit=True)
        change = balance(round_.steps, hook)
        if below is None or change is None or below.stitches + change < 1:
            raise CannotWork("a place up to which it is worked is not known")
        before = below.stitches
        after = below if _shapes_nothing(round_.steps) else plain("st", before + change)
        return Made(after, before, before, 0, 0, (), False)

    def _round(
        self,
        steps: Sequence[Step],
        size: int,
        below: Fabric | None,
        *,
        fresh: bool,
        flat: bool,
        partial_ok: bool = False,
    ) -> Made:
        return work_round(
            steps,
            below,
            size,
            self.choose,
            partial_ok=partial_ok,
            fresh=fresh,
            rows=self.rows.get(size),
            flat=flat,
            knit=self.pattern.craft == "knitting",
        )

    def _tried(self, steps: Sequence[Step], size: int, below: Fabric | None, *, fresh: bool, flat: bool) -> Made | None:
        try:
            return self._round(steps, size, below, fresh=fresh, flat=flat)
        except CannotWork:
            return None

    def _closing(self, round_: Round, claim: Claim, size: int, below: Fabric | None, *, fresh: bool) -> Made:
        """Work a round whose last sentence may be a count or the last instruction: whichever fits."""
        flat = is_flat(self.pattern, round_)
        short = self._round(_without_last(round_.steps), size, below, fresh=fresh, flat=flat)
        counts = short.fabric.stitches == claim.figure.at(size)
        fits = not (short.left or short.short)
        if counts and (fits or _after_turn(round_.steps)):
            return short
        whole = self._round(round_.steps, size, below, fresh=fresh, flat=flat)
        if not whole.left and not whole.short and below is not None and not below.ring and not whole.starts:
            return replace(whole, closing=True)
        if fits:
            return short
        if not counts and short.left + short.short < whole.left + whole.short:
            return short  # it falls short by less than so many stitches more would be too many: a count, and it differs
        # neither fits: a count that comes out all the same shows nothing
        return replace(short if counts else whole, closing=True)


def _shapes_nothing(steps: Sequence[Step]) -> bool:
    """Tell whether every stitch leaves one for each it takes, so that markers stay where they are as well."""
    return all(
        step.make.uses == step.make.makes if isinstance(step, Work) else _shapes_nothing(step.steps)
        for step in steps
        if isinstance(step, Work | Repeat)
    )


def _after_turn(steps: Sequence[Step]) -> bool:
    """Tell whether the last stitch comes right after a turn, where the row is over: `.. next 18 sts, turn. 18 sc.`."""
    told = [step for step in steps if isinstance(step, Work | Turn)]
    return len(told) > 1 and isinstance(told[-1], Work) and isinstance(told[-2], Turn)


def _without_last(steps: Sequence[Step]) -> tuple[Step, ...]:
    """Leave out the last stitch of a round."""
    for index in range(len(steps) - 1, -1, -1):
        if isinstance(steps[index], Work):
            return (*steps[:index], *steps[index + 1 :])
    return tuple(steps)
