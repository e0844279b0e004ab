"""Worker: the rounds of a pattern worked in order, for every size, under given answers to its open questions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from ..draft import Span
from ..pattern import (
    Chain,
    Claim,
    Pattern,
    RepeatRounds,
    Round,
    Step,
    Work,
    WorkEven,
)
from ..workings import RoundWorking, SizeWorking, Standing
from .claims import Compared, compare
from .doubts import check_fit
from .fabric import SPACE, Cursor, Fabric, Segment, plain, spot_of
from .hook import CannotWork
from .memo import Memo
from .otherwise import other_ways
from .references import MOST_ROUNDS, covered, find_round, targets_of
from .shape import begins_piece, unread_in
from .stitching import Made, work_round

AHEAD = 3


@dataclass(frozen=True, slots=True)
class Answers:
    """What is taken to hold for the questions of a draft: `said` by its notes, `chosen` by its counts."""

    said: Mapping[str, bool] = field(default_factory=dict[str, bool])
    chosen: Mapping[str, bool] = field(default_factory=dict[str, bool])


class _Doubt(Exception):
    """A difference on a row below that isn't known for sure: the draft's own count is the better guide."""


@dataclass(slots=True)
class Asked:
    """The questions that came up, with the usual answer to each."""

    usual: dict[str, bool] = field(default_factory=dict[str, bool])


@dataclass(frozen=True, slots=True)
class State:
    """Where a size stands between two rounds: the row on the hook, and whether it is known for sure."""

    fabric: Fabric | None = None
    sure: bool = True
    fresh: bool = True  # nothing of this piece has been worked yet


@dataclass(slots=True)
class Worker:
    """Works the rounds of a pattern in order under given answers."""

    pattern: Pattern
    answers: Answers
    asked: Asked
    states: list[State]
    done: list[RoundWorking] = field(default_factory=list[RoundWorking])
    inline: dict[int, bool] = field(default_factory=dict[int, bool])
    section: int = -1
    here: set[str] = field(default_factory=set[str])
    rows: dict[int, int] = field(default_factory=dict[int, int])  # by size: rows worked flat before
    below: dict[int, list[Fabric | None]] = field(default_factory=dict[int, list["Fabric | None"]])
    memo: Memo = field(default_factory=Memo)

    def choose(self, key: str, usual: bool) -> bool:
        """Answer a question, and remember that it came up."""
        self.here.add(key)
        self.asked.usual.setdefault(key, usual)
        answer = self._answer(key, usual)
        self.memo.asked(key, usual, answer)
        return answer

    def _answer(self, key: str, usual: bool) -> bool:
        if key in self.answers.chosen:
            return self.answers.chosen[key]
        if key in self.answers.said:
            return self.answers.said[key]
        if key.startswith("ch-") and (said := self.inline.get(int(key.split("-")[1]))) is not None:
            return said
        return usual

    # ------------------------------------------------------------ one round after the other

    def run(self) -> list[RoundWorking]:
        """Work all rounds."""
        for index in range(len(self.pattern.rounds)):
            self.one(index)
        return self.done

    def one(self, index: int) -> None:
        """Work one round, or the rounds it stands for, for every size."""
        round_ = self.pattern.rounds[index]
        self.here = set()
        self._enter(round_)
        self.below[index] = [state.fabric for state in self.states]
        sizes: list[SizeWorking | None] = []
        reason: str | None = None
        words: Span | None = None
        unit = "sts"
        resumed = False
        covers: tuple[int, ...] = ()
        doubtful: list[int] = []
        for size in range(self.pattern.sizes.number):
            sizes.append(None)
            if round_.sizes is not None and size not in round_.sizes:
                continue
            if round_.first is not None and round_.first.at(size) is None:
                continue
            try:
                sizes[size], compared, took, covers = self._size(index, round_, size)
            except _Doubt:
                doubtful.append(size)
                continue
            except CannotWork as cannot:
                words = words or (cannot.span if reason is None else None)
                reason = reason or str(cannot)
                sizes[size] = self._not_worked(round_, size)
                continue
            unit = compared.unit if compared.unit != "sts" else unit
            resumed = resumed or took
        # where the other sizes agree, the row below was the right one for these as well
        trust = any(size is not None and size.agrees for size in sizes)
        for size in doubtful:
            if trust:
                sizes[size], _, took, covers = self._size(index, round_, size, trust=True)
                resumed = resumed or took
            else:
                reason = reason or "it isn't sure which stitches this round is worked on"
                sizes[size] = self._not_worked(round_, size)
        self._count_rows(round_)
        standing = _standing(sizes)
        if standing is Standing.UNREAD and reason is None:
            reason = "the row below is not known"
        self.done.append(
            RoundWorking(
                index=index,
                sizes=tuple(sizes),
                standing=standing,
                unit=unit,
                reason=reason if standing is Standing.UNREAD else None,
                words=words if standing is Standing.UNREAD else None,
                readings=tuple((key, self.choose(key, self.asked.usual[key])) for key in sorted(self.here)),
                resumed=resumed,
                covers=covers,
            )
        )

    def _count_rows(self, round_: Round) -> None:
        """Keep how many rows have been worked flat, for a round worked along their ends."""
        total = round_.directive.rounds if isinstance(round_.directive, RepeatRounds) else None
        figure = total or (round_.last if round_.flat else None)
        for size in range(self.pattern.sizes.number):
            if figure is not None and (number := figure.at(size)) is not None:
                self.rows[size] = number

    def _enter(self, round_: Round) -> None:
        """Come to a round: a new section that doesn't start from nothing goes on from a row that is less than sure."""
        for step in _chains(round_.steps):
            if step.counts is not None and (number := step.n.values[0]) is not None and step.beginning:
                self.inline[number] = step.counts
        if round_.section == self.section:
            return
        first = self.section < 0
        self.section = round_.section
        if first or begins_piece(round_.steps) or round_.foundation:
            return
        number = round_.first.values[0] if round_.first else None
        if number != 1:
            return
        sizes = self.pattern.sections[round_.section].sizes
        for size, state in enumerate(self.states):
            if sizes is None or size in sizes:
                self.states[size] = State(state.fabric, sure=False, fresh=state.fresh)

    def _not_worked(self, round_: Round, size: int) -> SizeWorking:
        """Go on after a round that was not worked from what the draft states of it, if anything."""
        stated = stated_of(round_.claims, size)
        before = self.states[size].fabric
        spaces = next((claim for claim in round_.claims if claim.kind == "space"), None)
        if stated:
            after: Fabric | None = plain("st", stated)
        elif spaces is not None and (number := spaces.figure.at(size)):
            after = Fabric((Segment((spot_of("st"), spot_of(SPACE, 2)), number),))
        else:
            # rounds that were not found to be repeated leave the count, for all that is known
            after = before if isinstance(round_.directive, RepeatRounds) else None
        self.states[size] = State(after, sure=False, fresh=False)
        return SizeWorking(
            before=before.stitches if before is not None and not before.ring else None,
            used=None,
            count=None,
            stated=stated,
            sure=False,
        )

    # ------------------------------------------------------------ one round for one size

    def _size(
        self, index: int, round_: Round, size: int, *, trust: bool = False
    ) -> tuple[SizeWorking, Compared, bool, tuple[int, ...]]:
        """Work a round for a size and go on to the row it leaves."""
        state = self.states[size]
        key = (index, size, state, self.rows.get(size), trust)
        working, compared, resumed, covers, self.states[size] = self.memo.once(
            key,
            self.choose,
            lambda: self._worked(index, round_, size, state, trust=trust),
            (CannotWork, _Doubt),
        )
        return working, compared, resumed, covers

    def _worked(
        self, index: int, round_: Round, size: int, state: State, *, trust: bool
    ) -> tuple[SizeWorking, Compared, bool, tuple[int, ...], State]:
        made, rounds, covers = self._work(index, round_, size, state)
        spaces = made.fabric.spaces > 0 and bool(round_.claims) and self.choose("chains-count", False)
        claims = round_.claims
        if round_.closing is not None and not claims and not made.closing:
            claims = (round_.closing,)
        compared = compare(claims, made.fabric, size, spaces)
        check_fit(round_, made, compared, size, state.fabric, sure=state.sure)
        sure = (state.sure or made.starts or trust) and not round_.loose
        working = SizeWorking(
            before=made.before,
            used=made.used,
            count=compared.worked,
            stated=compared.stated,
            left=made.left,
            short=made.short,
            kinds=made.fabric.kinds(),
            spaces=made.fabric.spaces,
            lengths=tuple(Cursor(made.fabric).spaces_ahead().items()) if made.fabric.spaces else (),
            items=made.items,
            rounds=rounds,
            sure=sure,
            agrees=compared.agrees,
        )
        fabric, resumed = made.fabric, False
        if compared.agrees is False and compared.stated is not None:
            if not sure and not state.sure and not trust:
                raise _Doubt
            fabric, resumed = self._after_difference(index, size, made.fabric, compared.stated)
        after = State(fabric, sure=True if compared.agrees else sure, fresh=False)
        return working, compared, resumed, covers, after

    def _work(self, index: int, round_: Round, size: int, state: State) -> tuple[Made, int, tuple[int, ...]]:
        if round_.directive is not None and any(unread_in(round_.steps)):
            raise CannotWork("what is different from the rounds it refers to was not understood")
        if isinstance(round_.directive, RepeatRounds):
            return self._repeated(index, round_, round_.directive, size, state)
        if isinstance(round_.directive, WorkEven):
            return self._even(state, _rounds_even(round_, round_.directive, size))
        number = covered(round_, size)
        made = self._steps(round_, size, state.fabric, fresh=state.fresh)
        starts = made.starts
        for _ in range(number - 1):
            if _settled(made):
                break
            made = self._steps(round_, size, made.fabric)
        if starts and not made.starts:
            made = replace(made, starts=True)
        return made, number, ()

    def _steps(self, round_: Round, size: int, below: Fabric | None, *, fresh: bool = False) -> Made:
        """Work a round on a row; a foundation is made of nothing."""
        if round_.foundation:
            below, fresh = None, True
        return self.memo.once(
            (id(round_), size, below, fresh, self.rows.get(size)),
            self.choose,
            lambda: self._fitting(round_, size, below, fresh=fresh),
            (CannotWork,),
        )

    def _fitting(self, round_: Round, size: int, below: Fabric | None, *, fresh: bool) -> Made:
        """Work a round; where its words, taken the usual way, don't fit, take them in the other ways they allow."""
        if round_.closing is not None:
            return self._closing(round_, round_.closing, size, below, fresh=fresh)
        made = self._round(round_.steps, size, below, fresh=fresh)
        stated = stated_of(round_.claims, size)
        if made.left or made.short:
            other = self._round(round_.steps, size, below, fresh=fresh, partial_ok=True)
            if other.partial and (stated is None or other.fabric.stitches == stated):
                return other
        if stated is not None and made.fabric.stitches != stated:
            for steps in other_ways(round_.steps):
                other = self._tried(steps, size, below, fresh=fresh)
                if other and other.fabric.stitches == stated and not other.left and not other.short:
                    return other
        return made

    def _round(
        self, steps: Sequence[Step], size: int, below: Fabric | None, *, fresh: bool, partial_ok: bool = False
    ) -> Made:
        rows = self.rows.get(size)
        return work_round(steps, below, size, self.choose, partial_ok=partial_ok, fresh=fresh, rows=rows)

    def _tried(self, steps: Sequence[Step], size: int, below: Fabric | None, *, fresh: bool) -> Made | None:
        try:
            return self._round(steps, size, below, fresh=fresh)
        except CannotWork:
            return None

    def _closing(self, round_: Round, claim: Claim, size: int, below: Fabric | None, *, fresh: bool) -> Made:
        """Work a round whose last sentence may be a count or the last instruction: whichever fits."""
        short = self._round(_without_last(round_.steps), size, below, fresh=fresh)
        if short.fabric.stitches == claim.figure.at(size) and not (short.left or short.short):
            return short
        whole = self._round(round_.steps, size, below, fresh=fresh)
        if not whole.left and not whole.short and below is not None and not below.ring and not whole.starts:
            return replace(whole, closing=True)
        if short.fabric.stitches == claim.figure.at(size) or not (short.left or short.short):
            return short
        return replace(whole, closing=True)

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
        if what.part is not None:
            return self._part_again(targets, size), 1, targets
        number = self._how_many(round_, what, size, len(targets))
        made: Made | None = None
        fabric = state.fabric
        wanted = what.until.at(size) if what.until else None
        before = fabric.stitches if fabric is not None and not fabric.ring else None
        for turn in range(min(number, MOST_ROUNDS)):
            target = self.pattern.rounds[targets[turn % len(targets)]]
            made = self._target(targets[turn % len(targets)], target, size, fabric)
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
        if what.measured and what.times is None and before is not None and made.fabric.stitches != before:
            raise CannotWork("how often these rounds are repeated depends on a measurement")
        return (
            replace(made, before=before, starts=False),
            number,
            targets,
        )

    def _part_again(self, targets: Sequence[int], size: int) -> Made:
        """Work rounds of another part from where that part starts."""
        made: Made | None = None
        first = self.pattern.rounds[targets[0]]
        again = isinstance(first.directive, RepeatRounds) and first.directive.part is not None
        state = State()
        if targets[0] and not again and not begins_piece(first.steps):
            raise CannotWork("the part it refers to doesn't start from nothing")
        for index in targets:
            round_ = self.pattern.rounds[index]
            if round_.sizes is not None and size not in round_.sizes:
                size = round_.sizes[0]
            made, _, _ = self._work(index, round_, size, state)
            state = State(made.fabric, fresh=False)
        assert made is not None
        return replace(made, before=None, starts=True)

    def _target(self, index: int, target: Round, size: int, fabric: Fabric | None) -> Made:
        if isinstance(target.directive, RepeatRounds):
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

    def _how_many(self, round_: Round, what: RepeatRounds, size: int, length: int) -> int:
        """Return how many rounds a repeat of rounds covers."""
        span = covered(round_, size)
        if round_.first is not None and span > 1:
            return span
        if what.times is not None and what.times.number is not None:
            number = what.times.number.at(size)
            if number is None:
                raise CannotWork("a figure for this size is missing")
            return number * length
        if what.until is not None:
            return MOST_ROUNDS
        return length

    # ------------------------------------------------------------ after a difference

    def _after_difference(self, index: int, size: int, made: Fabric, stated: int) -> tuple[Fabric, bool]:
        """Go on from the count that the following rounds support: the one worked, or the one the draft states."""
        other = plain(made.kinds()[0][0] if made.kinds() else "st", stated)
        if self._support(index, size, other) > self._support(index, size, made):
            return other, True
        return made, False

    def _support(self, index: int, size: int, fabric: Fabric) -> int:
        """Count the agreements of the next rounds when they are worked from a row."""
        score = 0
        looked = 0
        section = self.pattern.rounds[index].section
        for later in range(index + 1, len(self.pattern.rounds)):
            round_ = self.pattern.rounds[later]
            restarts = round_.section != section and round_.first is not None and round_.first.at(size) == 1
            if restarts or looked >= AHEAD or begins_piece(round_.steps):
                break
            if round_.sizes is not None and size not in round_.sizes:
                continue
            looked += 1
            try:
                made, _, _ = self._work(later, round_, size, State(fabric))
            except CannotWork:
                break
            agrees = compare(round_.claims, made.fabric, size, False).agrees
            score += 2 if agrees else 0
            score -= 1 if made.left or made.short else 0
            if agrees is False:
                break
            fabric = made.fabric
        return score


def _chains(steps: Sequence[Step]) -> list[Chain]:
    return [step for step in steps if isinstance(step, Chain)]


def stated_of(claims: Sequence[Claim], size: int) -> int | None:
    """Return the stitches stated, None where the claim is of something else."""
    found = [claim for claim in claims if claim.kind not in ("space", "ch", "other")]
    if not found:
        return None
    whole = next((claim for claim in found if claim.kind == "st"), None)
    values = [claim.figure.at(size) for claim in ([whole] if whole else found)]
    if any(value is None for value in values):
        return None
    return sum(value or 0 for value in values) + (1 if found[0].chain_apart else 0)


def _rounds_even(round_: Round, what: WorkEven, size: int) -> int:
    """Return how many plain rounds are worked: as many as the heading covers, or else as the words say."""
    span = covered(round_, size)
    said = what.rounds.at(size) if what.rounds is not None else None
    return said if span == 1 and said is not None else span


def _settled(made: Made) -> bool:
    """Tell whether working the same words again would change nothing."""
    return (
        made.before is not None
        and made.fabric.stitches == made.before
        and not made.fabric.spaces
        and not made.left
        and not made.short
    )


def _without_last(steps: Sequence[Step]) -> tuple[Step, ...]:
    """Leave out the last stitch of a round."""
    for index in range(len(steps) - 1, -1, -1):
        if isinstance(steps[index], Work):
            return (*steps[:index], *steps[index + 1 :])
    return tuple(steps)


def _standing(sizes: Sequence[SizeWorking | None]) -> Standing:
    worked = [size for size in sizes if size is not None]
    if not worked or any(size.count is None for size in worked):
        return Standing.UNREAD
    if any(size.agrees is False for size in worked):
        return Standing.DIFFERS
    return Standing.AGREES if any(size.agrees for size in worked) else Standing.UNSTATED
