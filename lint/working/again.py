"""Again: rounds that stand for others: repeated, worked even, or worked as another part was."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..pattern import RepeatRounds, Round, WorkEven
from ..plain import is_plain
from ..steps import At, Chain, Count, Evenly, Repeat, Shaping, Step, Together, Work
from .fabric import Fabric, plain
from .fitting import Fitting
from .flatness import is_flat
from .hook import CannotWork
from .otherwise import between_changes
from .references import MOST_ROUNDS, covered, find_round, targets_of
from .shape import begins_piece, holds_rows, unread_in
from .stitching import Made


@dataclass(frozen=True, slots=True)
class State:
    """Where a size stands between two rounds: the row on the hook, and whether it is known for sure."""

    fabric: Fabric | None = None
    sure: bool = True
    fresh: bool = True  # nothing of this piece has been worked yet


@dataclass(slots=True, kw_only=True)
class Again(Fitting):
    """Works a round, or the rounds it stands for."""

    @abstractmethod
    def stood(self, index: int, size: int) -> State | None:
        """Return where a size stood before a round that was worked; None where it wasn't."""

    def _work(self, index: int, round_: Round, size: int, state: State) -> tuple[Made, int, tuple[int, ...]]:
        if round_.directive is not None and any(unread_in(round_.steps)):
            raise CannotWork("what is different from the rounds it refers to was not understood")
        if isinstance(round_.directive, RepeatRounds):
            told = self.pattern.craft != "knitting" and all(claim.kind == "other" for claim in round_.claims)
            if told and any(_is_other(step) for step in round_.steps):
                raise CannotWork("what is different from the rounds it refers to was not understood")
            return self._repeated(index, round_, round_.directive, size, state)
        if isinstance(round_.directive, WorkEven):
            return self._even(state, _rounds_even(round_, round_.directive, size))
        number = 1 if holds_rows(round_.steps) else covered(round_, size)
        made = self._steps(round_, size, state.fabric, fresh=state.fresh)
        starts = made.starts
        for _ in range(number - 1):
            if _settled(made):
                break
            try:
                made = self._steps(round_, size, made.fabric)
            except CannotWork:
                if made.before is None or made.fabric.stitches >= made.before:
                    raise
                break  # decreased until there is nothing left to work on
        if starts and not made.starts:
            made = replace(made, starts=True)
        return made, number, ()

    def _even(self, state: State, rounds: int = 1) -> tuple[Made, int, tuple[int, ...]]:
        if state.fabric is None:
            raise CannotWork("the row below is not known")
        count = state.fabric.stitches
        return Made(state.fabric, count, count, 0, 0, (), False), rounds, ()

    def _repeated(
        self, index: int, round_: Round, what: RepeatRounds, size: int, state: State
    ) -> tuple[Made, int, tuple[int, ...]]:
        """Work rounds again: as many as the heading covers, as the times say, or until the count is reached."""
        targets = targets_of(self.pattern, index, what)
        if not targets:
            raise CannotWork("the rounds to repeat were not found")
        if what.part is not None and not what.alone:
            return self._part_again(targets, size, even=what.measured), 1, targets
        if what.growing or what.between is not None:
            return *self._grown(round_, what, self.pattern.rounds[targets[-1]], size, state), targets
        number = self._how_many(index, round_, what, size, targets)
        made: Made | None = None
        fabric = state.fabric
        wanted = what.until.at(size) if what.until else None
        before = fabric.stitches if fabric is not None and not fabric.ring else None
        for turn in range(min(number, MOST_ROUNDS)):
            target = self.pattern.rounds[targets[turn % len(targets)]]
            earlier, made = made, self._target(targets[turn % len(targets)], target, size, fabric)
            if made.left_repeat and wanted is None:
                raise CannotWork("a round that it repeats doesn't fit the row below")
            if wanted is not None and fabric is not None and _passes(fabric, made.fabric, wanted):
                made = replace(earlier or self._even(state)[0], missed=all(map(self._is_certain, targets)))
                break
            fabric = made.fabric
            if wanted is not None and made.fabric.stitches == wanted:
                break
            if (
                turn >= 2 * len(targets)
                and made.before == made.fabric.stitches
                and wanted is None
                and turn % len(targets) == len(targets) - 1
                and fabric.stitches == before
            ):
                break
        if made is None:
            return self._even(state)[0], 0, targets
        for then in what.then:
            found = find_round(self.pattern, index, then)
            if found is not None:
                made = self._target(found, self.pattern.rounds[found], size, made.fabric)
        if what.first_again:
            made = self._target(targets[0], self.pattern.rounds[targets[0]], size, made.fabric)
        if what.measured and what.times is None and before is not None and made.fabric.stitches != before:
            raise CannotWork("how often these rounds are repeated depends on a measurement")
        if self.pattern.craft == "knitting" and any(map(_alters, round_.steps)):
            raise CannotWork("what is different from the rounds it refers to was not understood")
        fabric = with_chain(_shaped_last(made.fabric, round_.steps, size), round_.steps)
        made = replace(made, before=before, starts=False, fabric=fabric)
        return made, number, targets

    def _is_certain(self, index: int) -> bool:
        """Tell whether all that a round does is told in plain steps."""
        round_ = self.pattern.rounds[index]
        return self.pattern.craft == "knitting" and round_.directive is None and is_plain(round_.steps)

    def _grown(self, round_: Round, what: RepeatRounds, target: Round, size: int, state: State) -> tuple[Made, int]:
        """Work rounds that differ from one before them in the plain stitches between its increases."""
        if target.directive is not None or begins_piece(target.steps):
            raise CannotWork("the round it goes on from is not written out")
        wanted = what.until.at(size) if what.until else None
        rounds = covered(round_, size)
        number = MOST_ROUNDS if wanted is not None and rounds == 1 else rounds
        made, done = None, 0
        fabric = state.fabric
        exact = what.between.at(size) if what.between is not None else None
        while done < number:
            steps = between_changes(target.steps, what.growing * (done + 1), exact)
            if steps is None:
                raise CannotWork("which stitches stand between its increases is not clear")
            made = self._round(steps, size, fabric, fresh=False, flat=is_flat(self.pattern, target))
            fabric = made.fabric
            done += 1
            if made.left or made.short or (wanted is not None and fabric.stitches == wanted):
                break
        assert made is not None
        return replace(made, before=state.fabric.stitches if state.fabric is not None else None), done

    def _part_again(self, targets: Sequence[int], size: int, *, even: bool) -> Made:
        """Work rounds of another part from where that part starts: from nothing, or from as many stitches.

        With `even` they are worked up to a measure, which tells a count only where it is the same all along. Where none
        of them is for this size, as in `same as for Newborn`, they are worked as for the size they are for.
        """
        sizes = (size, *range(self.pattern.sizes.number))
        own = next((one for one in sizes if any(self._is_for(index, one) for index in targets)), size)
        made: Made | None = None
        state = State()
        for index in targets:
            if not self._is_for(index, own):
                continue
            round_ = self.pattern.rounds[index]
            again = isinstance(round_.directive, RepeatRounds) and round_.directive.part is not None
            if made is None and index and not again and not begins_piece(round_.steps):
                # a part worked on stitches of another, an earflap, say: on as many as there were the first time
                first = self.stood(index, own)
                if first is None or first.fabric is None or first.fabric.ring or first.fabric.is_chain:
                    raise CannotWork("the part it refers to doesn't start from nothing")
                state = State(first.fabric, first.sure, fresh=False)
            before = made.fabric.stitches if made is not None and not made.fabric.is_chain else None
            made, _, _ = self._work(index, round_, own, state)
            if even and before not in (None, made.fabric.stitches):
                raise CannotWork("how far the other part is worked depends on a measurement")
            state = State(made.fabric, fresh=False)
        if made is None:
            raise CannotWork("the rounds to repeat were not found")
        return replace(made, before=None, starts=True)

    def _is_for(self, index: int, size: int) -> bool:
        """Tell whether a round is worked for a size."""
        sizes = self.pattern.rounds[index].sizes
        return sizes is None or size in sizes

    def _target(self, index: int, target: Round, size: int, fabric: Fabric | None) -> Made:
        if isinstance(target.directive, RepeatRounds):
            if target.directive.growing or target.directive.between is not None:
                raise CannotWork("the round it refers to is not written out")
            inner = targets_of(self.pattern, index, target.directive)
            if not inner or inner[0] >= index:
                raise CannotWork("the rounds to repeat were not found")
            made: Made | None = None
            for one in inner:
                made = self._target(one, self.pattern.rounds[one], size, fabric if made is None else made.fabric)
            assert made is not None
            return made
        if isinstance(target.directive, WorkEven):
            return self._even(State(fabric))[0]
        if begins_piece(target.steps):
            raise CannotWork("the round to repeat begins a piece")
        return self._steps(target, size, fabric)

    def _up_to(self, index: int, size: int, total: int) -> int:
        """Return how many rounds are wanting to so many in all, counted by the number of the one before."""
        before = self.pattern.rounds[index - 1]
        last = (
            before.last.at(size)
            if before.last is not None and before.section == self.pattern.rounds[index].section
            else None
        )
        if last is None or total <= last:
            raise CannotWork("how many rounds there are before these is not known")
        return total - last

    def _how_many(self, index: int, round_: Round, what: RepeatRounds, size: int, targets: Sequence[int]) -> int:
        """Return how many rounds a repeat of rounds covers."""
        length = len(targets)
        span = covered(round_, size)
        if round_.first is not None and span > 1:
            return span
        if what.rounds is not None and what.times is None and (total := what.rounds.at(size)) is not None:
            return self._up_to(index, size, total)
        if what.times is not None and what.times.number is not None:
            number = what.times.number.at(size)
            if number is None:
                raise CannotWork("a figure for this size is missing")
            just_worked = index - 1 in targets
            if what.times.count is Count.TOTAL and just_worked and self.choose("rounds-in-all", True):
                number -= 1  # the first time is behind
            return number * length
        if what.until is not None:
            return MOST_ROUNDS
        return length


def _is_other(step: Step) -> bool:
    """Tell whether a step beside a reference to rounds works stitches that those don't have."""
    return isinstance(step, Work) and step.make.kind != "slst" and step.where.at is At.NEXT


def _alters(step: Step) -> bool:
    """Tell whether a step behind a repeat of rounds makes more or fewer stitches in a way that isn't told in full."""
    if isinstance(step, Repeat):
        return any(map(_alters, step.steps))
    if isinstance(step, Work):
        return step.make.uses != step.make.makes and not step.make.kind.startswith("bo")
    return isinstance(step, Shaping) and (step.times is None or not step.places)


def _shaped_last(fabric: Fabric, steps: Sequence[Step], size: int) -> Fabric:
    """Return a row with the shaping said of the last repeat, or that follows it: `inc 1 st at end of last row`."""
    by = sum(_change(step, size) for step in steps)
    return Fabric(plain("st", fabric.stitches + by).segments, fabric.ring, fabric.edge) if by else fabric


def _change(step: Step, size: int) -> int:
    """Return by how many stitches a step shapes a row; 0 for what shapes none."""
    if isinstance(step, Evenly) and step.number is not None:
        return step.change * (step.number.at(size) or 0)
    if isinstance(step, Shaping) and step.times is not None:
        return step.change * step.places * (step.number.at(size) or 0) * (step.times.at(size) or 0)
    return 0


def with_chain(fabric: Fabric, steps: Sequence[Step]) -> Fabric:
    """Return a row with the chain that is made after it for the next: `Rep Row 2, ch 16, turn`."""
    chain = next((step for step in reversed(steps) if isinstance(step, Chain)), None)
    if chain is None or any(isinstance(step, Work | Together | Repeat) for step in steps):
        return fabric
    edge = replace(fabric.edge, hung=chain, turned=True)
    return Fabric(fabric.segments, fabric.ring, edge, fabric.behind, fabric.marks)


def _rounds_even(round_: Round, what: WorkEven, size: int) -> int:
    """Return how many plain rounds are worked: as many as the heading covers, or else as the words say."""
    span = covered(round_, size)
    said = what.rounds.at(size) if what.rounds is not None else None
    return said if span == 1 and said is not None else span


def _passes(before: Fabric, after: Fabric, wanted: int) -> bool:
    """Tell whether a round steps over a count without coming to it."""
    return (before.stitches - wanted) * (after.stitches - wanted) < 0 and not before.ring


def _settled(made: Made) -> bool:
    """Tell whether working the same words again would change nothing."""
    return (
        made.before is not None
        and made.fabric.stitches == made.before
        and not made.fabric.spaces
        and not made.left
        and not made.short
    )
