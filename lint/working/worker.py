"""Worker: the rounds of a pattern worked in order, for every size, under given answers to its open questions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from ..draft import Span
from ..moves import Move
from ..pattern import RepeatRounds, Round
from ..plain import is_plain
from ..steps import At, Chain, Join, Rejoin, Shaping, Step, Turn, Work
from ..workings import RoundWorking, SizeWorking, Standing
from .again import Again, State, with_chain
from .claims import Compared, compare, stated_of
from .doubts import check_fit
from .fabric import Cursor, Edge, Fabric, plain
from .flatness import is_flat, says_round
from .hook import CannotWork
from .memo import Kept
from .references import covered
from .shape import begins_piece, chain_is_next
from .spots import SPACE, Segment, spot_of
from .stitching import Made

AHEAD = 3
FAR_BACK = 3  # numbers; a number used twice or two rows in the wrong order go back by less


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
class Passed:
    """A round that was worked: the questions it asked, and where the sizes stood before and after it."""

    asked: frozenset[str]
    before: tuple[State, ...]
    after: tuple[State, ...]


@dataclass(frozen=True, slots=True)
class Other:
    """A worker that has worked the same pattern, and the one question to which its answer was another."""

    worker: Worker
    question: str


@dataclass(slots=True, kw_only=True)
class Worker(Again):
    """Works the rounds of a pattern in order under given answers.

    What the `other` worker worked without asking about what differs, from where this one stands as well, is taken over.
    """

    answers: Answers
    asked: Asked
    states: list[State]
    done: list[RoundWorking] = field(default_factory=list[RoundWorking])
    inline: dict[int, bool] = field(default_factory=dict[int, bool])
    section: int = -1
    number: int = 0  # of the last round that has one
    here: set[str] = field(default_factory=set[str])
    passed: list[Passed] = field(default_factory=list[Passed])
    other: Other | None = None

    def stood(self, index: int, size: int) -> State | None:
        """Return where a size stood before a round that was worked."""
        return self.passed[index].before[size] if index < len(self.passed) else None

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

    def run(self) -> None:
        """Work all rounds."""
        for index, round_ in enumerate(self.pattern.rounds):
            self._enter(round_)
            self._take_given(index)
            before = tuple(self.states)
            if not self._taken_over(index, before):
                self.here = set()
                self.done.append(self._one(index, round_))
                self.passed.append(Passed(frozenset(self.here), before, tuple(self.states)))
            self._count_rows(round_)

    def below(self, index: int) -> list[Fabric | None]:
        """Return the row on which each size works a round."""
        return [state.fabric for state in self.passed[index].before]

    def _taken_over(self, index: int, before: tuple[State, ...]) -> bool:
        """Take a round over from the other worker, where it can't come out otherwise."""
        if self.other is None:
            return False
        passed = self.other.worker.passed[index]
        if self.other.question in passed.asked or passed.before != before:
            return False
        self.done.append(self.other.worker.done[index])
        self.passed.append(passed)
        self.states = list(passed.after)
        return True

    def _one(self, index: int, round_: Round) -> RoundWorking:
        """Work one round, or the rounds it stands for, for every size."""
        sizes: list[SizeWorking | None] = []
        reason: str | None = None
        words: Span | None = None
        unit = "sts"
        resumed = False
        covers: tuple[int, ...] = ()
        doubtful: list[int] = []
        took_over: dict[int, bool] = {}
        for size in range(self.pattern.sizes.number):
            sizes.append(None)
            if round_.sizes is not None and size not in round_.sizes:
                continue
            if (round_.first is not None and round_.first.at(size) is None) or _passes_over(round_, size):
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
            if compared.agrees is False:
                took_over[size] = took
        self._resume_alike(sizes, took_over)
        # where the other sizes agree, the row below was the right one for these as well
        trust = round_.known_to_differ or any(size is not None and size.agrees for size in sizes)
        for size in doubtful:
            if trust:
                sizes[size], _, took, covers = self._size(index, round_, size, trust=True)
                resumed = resumed or took
            else:
                reason = reason or "it isn't sure which stitches this round is worked on"
                sizes[size] = self._not_worked(round_, size)
        standing = _standing(sizes)
        if standing is Standing.UNREAD and reason is None:
            reason = "the row below is not known"
        return RoundWorking(
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

    def _resume_alike(self, sizes: Sequence[SizeWorking | None], took_over: Mapping[int, bool]) -> None:
        """Let all sizes that differ go on from the stated count where most of them do."""
        if 2 * sum(took_over.values()) <= len(took_over):
            return
        for size, took in took_over.items():
            one = sizes[size]
            if not took and one is not None and one.stated is not None:
                self.states[size] = State(plain("st", one.stated), sure=True, fresh=False)

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
        back = self._numbers_go_back(round_)
        if round_.section == self.section:
            if back:
                # `Row 7` after `Row 12`: another piece, told in words that were not read
                self.states = [State(sure=False, fresh=False) for _ in self.states]
            return
        first = self.section < 0
        self.section = round_.section
        if round_.first is None:
            self.number = 0
        if first or begins_piece(round_.steps) or round_.foundation or self.pattern.sections[self.section].goes_on:
            return
        number = round_.first.values[0] if round_.first else None
        if number != 1:
            return
        sizes = self.pattern.sections[round_.section].sizes
        for size, state in enumerate(self.states):
            if sizes is None or size in sizes:
                self.states[size] = State(state.fabric, sure=False, fresh=state.fresh)

    def _numbers_go_back(self, round_: Round) -> bool:
        """Tell whether the numbers of rows go far back without beginning anew."""
        number = round_.first.values[0] if round_.first and not round_.first.is_list else None
        if number is None or round_.sizes is not None or round_.elided is not None:
            return False
        end = round_.last.values[0] if round_.last else None
        last, self.number = self.number, end or number
        begins = round_.foundation or begins_piece(round_.steps)
        return round_.flat and 1 < number <= last - FAR_BACK and not begins

    def _take_given(self, index: int) -> None:
        """Go on from the count that the draft tells between its rounds, where the row on the hook isn't known."""
        for given in self.pattern.given:
            if given.before_round == index and not begins_piece(self.pattern.rounds[index].steps):
                for size, state in enumerate(self.states):
                    number = given.figure.at(size)
                    if state.fabric is None and number:
                        self.states[size] = State(plain("st", number), sure=index == 0, fresh=False)

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
        sure = (
            before is None and bool(stated) and (self._goes_on(round_, size, stated or 0) or _fills_chain(round_.steps))
        )
        self.states[size] = State(after, sure=sure, fresh=False)
        return SizeWorking(
            before=before.stitches if before is not None and not before.ring else None,
            used=None,
            count=None,
            stated=stated,
            sure=False,
        )

    def _goes_on(self, round_: Round, size: int, stated: int) -> bool:
        """Tell whether a plain round on a row that isn't known states its count: then so many were there before it."""
        if round_.directive is not None or round_.loose:
            return False
        try:
            made = self._steps(round_, size, plain("st", stated))
        except CannotWork:
            return False
        return made.fabric.stitches == stated and not made.left and not made.short

    def _size(
        self, index: int, round_: Round, size: int, *, trust: bool = False
    ) -> tuple[SizeWorking, Compared, bool, tuple[int, ...]]:
        """Work a round for a size and go on to the row it leaves."""
        state = self.states[size]
        like = self._like(round_, size, state, trust=trust)
        if like is not None and (found := self.memo.find(like, self.choose)) is not None:
            (working, *others, after), first = found.result
            working = _moved(working, first, round_)
            self.states[size] = after
            return working, *others
        kept = self.memo.once(
            (index, size, state, self.rows.get(size), trust),
            self.choose,
            lambda: self._worked(index, round_, size, state, trust=trust),
            (CannotWork, _Doubt),
        )
        working, compared, resumed, covers, self.states[size] = kept.again()
        if like is not None and compared.agrees is not False:
            self.memo.keep(like, Kept(kept.asked, (kept.result, round_), None))
        return working, compared, resumed, covers

    def _like(self, round_: Round, size: int, state: State, *, trust: bool) -> tuple[object, ...] | None:
        """Return all that the working of a round hangs on where it is one of several with the same words.

        None where more than that may matter: rounds of the draft beside it.
        """
        if round_.alike is None or any(isinstance(step, Shaping) for step in round_.steps):
            return None
        flat, around, rows = is_flat(self.pattern, round_), says_round(round_), self.rows.get(size)
        return (round_.alike[0], size, state, rows, trust, covered(round_, size), flat, around, round_.known_to_differ)

    def _worked(
        self, index: int, round_: Round, size: int, state: State, *, trust: bool
    ) -> tuple[SizeWorking, Compared, bool, tuple[int, ...], State]:
        made, rounds, covers = self._work(index, round_, size, state)
        spaces = made.fabric.spaces > 0 and self.choose("chains-count", False)
        claims = round_.claims
        if round_.closing is not None and not claims and not made.closing:
            claims = (round_.closing,)
        compared = compare(claims, made.fabric, size, spaces)
        if compared.agrees and (missed := self._missed(round_, size, made)) is not None:
            compared = missed
        if made.missed and isinstance(round_.directive, RepeatRounds) and round_.directive.until is not None:
            wanted = round_.directive.until.at(size)
            compared = Compared(wanted, made.fabric.stitches, agrees=False)
        check_fit(round_, made, compared, size, state.fabric, sure=state.sure)
        exact = self.pattern.craft == "knitting" and made.before == made.used and is_plain(round_.steps, numbered=True)
        exact = exact and not made.left and not made.short
        sure = (state.sure or made.starts or trust or exact) and not round_.loose
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
            held = state.fabric.edge.held if state.fabric is not None else None
            if held is not None and any(isinstance(step, Rejoin) for step in round_.steps):
                # the yarn was joined somewhere else: what was left still waits
                edge = Edge(turned=True, open=True, held=held)
                fabric, resumed = Fabric(plain("st", compared.stated).segments, edge=edge), True
        if round_.foundation and state.fabric is not None and self._adds_to_row(index, size):
            # stitches added to the row: the next one begins in this chain and goes on over the row before
            fabric, sure = with_chain(state.fabric, round_.steps), state.sure
        after = State(fabric, sure=True if compared.agrees else sure, fresh=False)
        return working, compared, resumed, covers, after

    def _adds_to_row(self, index: int, size: int) -> bool:
        """Tell whether a chain on a line of its own stands between two rows that follow each other by number."""
        if not 0 < index < len(self.pattern.rounds) - 1:
            return False
        before, after = self.pattern.rounds[index - 1], self.pattern.rounds[index + 1]
        last = before.last.at(size) if before.last is not None and before.flat else None
        first = after.first.at(size) if after.first is not None and after.flat else None
        return last is not None and first == last + 1 and chain_is_next(after.steps)

    def _missed(self, round_: Round, size: int, made: Made) -> Compared | None:
        """Return how far shaping `in this way until 8 sts rem` comes where its steps pass over that count."""
        step = next((one for one in round_.steps if isinstance(one, Shaping)), None)
        to = step.to.at(size) if step is not None and step.to is not None and not step.places else None
        stride = self._last_change(round_.section, size)
        if to is None or stride is None or made.before is None or len(made.items) > 1:
            return None
        wanted = to - made.before
        if wanted * stride <= 0 or wanted % stride == 0:
            return None
        return Compared(to, made.before + stride * (abs(wanted) // abs(stride)), agrees=False)

    def _last_change(self, section: int, size: int) -> int | None:
        """Return by how many stitches the last row of a section changed the count that changed it."""
        for one in reversed(self.done):
            own = one.sizes[size]
            if self.pattern.rounds[one.index].section != section:
                return None
            if own is not None and own.before is not None and own.count is not None and own.count != own.before:
                if any(isinstance(step, Shaping) for step in self.pattern.rounds[one.index].steps):
                    return None  # many rows in one line
                return own.count - own.before if own.rounds == 1 else None
        return None

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


def _moved(working: SizeWorking, first: Round, here: Round) -> SizeWorking:
    """Return the working of a round as that of a later one with the same words."""
    if not working.items or first.alike is None or here.alike is None:
        return working
    return Move(first.span, here.alike[1] - first.alike[1]).of(working)


def _fills_chain(steps: Sequence[Step]) -> bool:
    """Tell whether a first row has a stitch in each link of a chain, so that its count is that of the row."""
    works = [step for step in steps if isinstance(step, Work)]
    plain = all(step.make.uses == step.make.makes == 1 and step.times.values == (1,) for step in works)
    others = all(isinstance(step, Work | Chain | Turn | Join) for step in steps)
    return others and plain and [step.where.at for step in works] == [At.FROM_HOOK, At.EACH]


def _passes_over(round_: Round, size: int) -> bool:
    """Tell whether every list of counts of a round has a dash for a size, which then goes on from the row below."""
    lists = [claim.figure.values for claim in round_.claims if claim.figure.is_list]
    known = [values for values in lists if any(value is not None for value in values)]
    return bool(known) and all(size < len(values) and values[size] is None for values in known)


def _chains(steps: Sequence[Step]) -> list[Chain]:
    return [step for step in steps if isinstance(step, Chain)]


def _standing(sizes: Sequence[SizeWorking | None]) -> Standing:
    worked = [size for size in sizes if size is not None]
    if not worked or any(size.count is None for size in worked):
        return Standing.UNREAD
    if any(size.agrees is False for size in worked):
        return Standing.DIFFERS
    return Standing.AGREES if any(size.agrees for size in worked) else Standing.UNSTATED
