"""Repeats of whole rounds: which rounds they name, how many are worked, and on which they end."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise

from ..lint.draft import Span
from ..lint.finding import Aside, Level
from ..lint.later import later
from ..lint.pattern import RepeatRounds, Round, WorkEven
from ..lint.steps import Chain, Count, Evenly, Repeat, Skip, Step, Together, Work
from ..lint.working import covered, targets_of
from ..lint.working.references import MOST_ROUNDS
from .rule import Case, Flags, Passes, Rule, Said
from .sums import for_sizes, join_words, round_name
from .verdicts import all_or

_FAMILY = "repeats"
# `rep row 3 times`, and rows of a chart, name no row of the text
_OTHERWISE = later(r"(?i)\bchart|\b(?:row|rnd|round)s?\s+\d+\s*(?:times|x\b)")
_LONGEST_RANGE = 600
_FEWEST_IN_BLOCK = 3  # two rounds are often repeated so that they end on the first


def _repeats(case: Case) -> Iterator[tuple[int, Round, RepeatRounds]]:
    for index, round_ in enumerate(case.pattern.rounds):
        if isinstance(round_.directive, RepeatRounds):
            yield index, round_, round_.directive


# ---------------------------------------------------------------- targets


@dataclass(slots=True)
class _Numbers:
    """The numbers of the rounds passed so far: all of them, the highest of the section, whether none is unnumbered."""

    section: int = -1
    passed: set[int] = field(default_factory=set[int])
    highest: int = 0
    throughout: bool = True

    def enter(self, round_: Round) -> None:
        """Come to a round; a new section counts afresh."""
        if round_.section != self.section:
            self.section, self.highest, self.throughout = round_.section, 0, True

    def leave(self, round_: Round) -> None:
        """Pass a round."""
        numbers = _numbers_of(round_)
        self.passed |= numbers
        self.highest = max(self.highest, max(numbers, default=0))
        if not numbers and not round_.foundation and round_.directive is None:
            self.throughout = False


def _numbers_of(round_: Round) -> set[int]:
    """Return the numbers that a heading covers for any size."""
    if round_.first is None:
        return set()
    last = round_.last or round_.first
    pairs = zip(round_.first.values, last.values, strict=False)
    return {
        number
        for low, high in pairs
        if low is not None and high is not None
        for number in range(low, min(high, low + _LONGEST_RANGE) + 1)
    }


_NTH = r"(\d+)(?:st|nd|rd|th)?"
_TWICE_NAMED = later(rf"(?i)\b{_NTH}\s*(?:and|&|,|\+)\s*(?:(?:rnd|round|row)s?\s*)?{_NTH}\b")


def _named_twice(case: Case) -> Iterator[Said]:
    """Yield the repeats that name one round twice: `rep 3rd and 3rd rnds`."""
    for _, round_, what in _repeats(case):
        span = _twice_named(case, what)
        if span is not None:
            noun = "row" if round_.flat else "round"
            yield Said(span, f"{noun} {what.first} is named twice; another {noun} may be meant", level=Level.QUERY)


def _twice_named(case: Case, what: RepeatRounds) -> Span | None:
    """Return where the one round of a repeat is named a second time, None where it isn't."""
    match = _TWICE_NAMED.search(case.draft.words(what.span))
    if what.first is None or match is None or not int(match[1]) == int(match[2]) == what.first == what.last:
        return None
    return Span(what.span.start + match.start(), what.span.start + match.end())


def _target_missing(case: Case) -> Iterator[Said]:
    yield from _named_twice(case)
    if _some_not_written(case) or not any(_repeats(case)):
        return
    numbers = _Numbers()
    written = {number for round_ in case.pattern.rounds for number in _numbers_of(round_)}
    for round_ in case.pattern.rounds:
        numbers.enter(round_)
        if isinstance(round_.directive, RepeatRounds):
            missing = _missing(round_.directive, numbers)
            if missing and not _OTHERWISE.search(case.words(round_.span)):
                noun = "row" if round_.flat else "round"
                name = join_words([str(number) for number in missing[:3]], "or")
                fate = "comes no earlier than this" if written.issuperset(missing) else "does not exist"
                yield Said(_words(round_, round_.directive), f"{noun} {name} is to be repeated, but {fate}")
        numbers.leave(round_)


def _missing(what: RepeatRounds, numbers: _Numbers) -> list[int]:
    """Return the numbers to be repeated that no round before has; none where that may have another reason."""
    if what.first is None or what.named is not None or not numbers.throughout or not numbers.highest:
        return []
    last = what.first if what.last is None else what.last
    wanted = range(what.first, min(last, what.first + _LONGEST_RANGE) + 1)
    missing = [number for number in wanted if number not in numbers.passed]
    # a gap in the numbering is reported where it stands
    return missing if missing and max(missing) > numbers.highest else []


def _words(round_: Round, what: RepeatRounds) -> Span:
    return what.span if what.span.end > what.span.start else round_.heading


def _some_not_written(case: Case) -> bool:
    """Tell whether the draft declares rounds without writing them, so that a number may stand for one of those."""
    return bool(case.pattern.elisions or any(round_.elided for round_ in case.pattern.rounds))


# ---------------------------------------------------------------- whole blocks


def _rows_not_whole(case: Case) -> Iterator[Said]:
    for index, round_, what in _repeats(case):
        block = len(targets_of(case.pattern, index, what)) if what.part is None else 0
        if block < _FEWEST_IN_BLOCK or round_.first is None or what.ending is not None or what.then or what.until:
            continue
        wrong = [
            (size, rounds)
            for size in range(case.pattern.sizes.number)
            if (round_.sizes is None or size in round_.sizes)
            and (rounds := covered(round_, size)) > 1
            and rounds % block
        ]
        if not wrong:
            continue
        sizes = [size for size, _ in wrong]
        noun = "rows" if round_.flat else "rounds"
        rounds = join_words([str(number) for number in dict.fromkeys(number for _, number in wrong)])
        yield Said(
            round_.heading,
            f"{round_name(round_)} are {rounds} {noun}{for_sizes(case, sizes)}, not a whole number of "
            f"repeats of {block}",
            sizes=all_or(case, sizes),
        )


# ---------------------------------------------------------------- totals


def repeated_totals(case: Case) -> Iterator[Said]:
    """Yield the headings that cover another number of rounds than the repeat under them works.

    `Rnds 4-19: rep rnds 2 and 3 six times more` covers 16 rounds, and 6 times 2 are 12.
    """
    for index, round_, what in _repeats(case):
        times, block = what.times, _block(case, index, what)
        if times is None or times.number is None or times.count is Count.TO_END or not block or round_.first is None:
            continue
        if what.until or what.rounds or what.measured or what.then or what.ending is not None:
            continue
        wrong: list[tuple[int, int, int, Level]] = []
        for size in range(case.pattern.sizes.number):
            rounds, number = covered(round_, size), times.number.at(size)
            if not _works(round_, size) or number is None or not 1 < rounds < MOST_ROUNDS:
                continue
            if (level := _total_level(times.count, rounds, number, block)) is not None:
                wrong.append((size, rounds, number, level))
        if wrong:
            yield _total_said(case, round_, what, block, wrong)


def _block(case: Case, index: int, what: RepeatRounds) -> int:
    """Return how many rounds are repeated at a time; 0 where that isn't certain."""
    if what.part is not None or what.named is not None or _twice_named(case, what):
        return 0
    if what.first is not None:
        return (what.last or what.first) - what.first + 1
    meant = [case.pattern.rounds[one] for one in targets_of(case.pattern, index, what)]
    single = all(covered(one, size) == 1 for one in meant for size in range(case.pattern.sizes.number))
    return len(meant) if single else 0


def _total_level(count: Count, rounds: int, number: int, block: int) -> Level | None:
    """Return how surely a heading's rounds aren't those worked; None where they fit, as all or as more."""
    if rounds == number * block or (count is not Count.MORE and rounds == (number - 1) * block):
        return None
    # the first time counted too, or the rounds counted and not the repeats
    return Level.QUERY if rounds in ((number - 1) * block, number) else Level.CORRECTION


def _total_said(
    case: Case, round_: Round, what: RepeatRounds, block: int, wrong: list[tuple[int, int, int, Level]]
) -> Said:
    sizes = [size for size, *_ in wrong]
    size, rounds, number, _ = wrong[0]
    noun = "rows" if round_.flat else "rounds"
    which = for_sizes(case, [size]) if len({one[1:3] for one in wrong}) > 1 else for_sizes(case, sizes)
    times = "once" if number == 1 else f"{number} times"
    span = what.times.span if what.times is not None and what.times.span is not None else _words(round_, what)
    return Said(
        span,
        f"{round_name(round_)} cover {rounds} {noun}{which}, {times} {block} are {number * block}",
        sizes=all_or(case, sizes),
        level=max(level for *_, level in wrong),
    )


# ---------------------------------------------------------------- the seam


Kind = tuple[object, ...]


def _kind_of(steps: tuple[Step, ...]) -> Kind:
    """Return what makes a round like another: its stitches in order, without how many of them."""
    found: list[object] = []
    for step in steps:
        match step:
            case Work():
                one: object = (step.make.kind, step.times.values[0] if step.times.values[0] != 1 else 1)
            case Together():
                one = ("together", _kind_of(step.steps))
            case Repeat():
                inner = _kind_of(step.steps)
                one = inner[0] if len(inner) == 1 else ("repeat", inner)
            case Chain():
                if step.beginning:
                    continue
                one = "chain"
            case Skip():
                one = "skip"
            case Evenly():
                one = ("evenly", step.change)
            case _:
                continue
        if not found or found[-1] != one:
            found.append(one)
    return tuple(found)


def _round_kind(case: Case, index: int) -> Kind:
    round_ = case.pattern.rounds[index]
    return _kind_of(round_.steps) if round_.directive is None else ()


def _ends_wrong(case: Case) -> Iterator[Said]:
    for index, round_, what in _repeats(case):
        block = targets_of(case.pattern, index, what)
        kinds = [_round_kind(case, one) for one in block]
        if len(block) < 2 or not all(kinds) or what.ending is not None or what.then or what.until or what.measured:
            continue
        if any(one == other for one, other in pairwise([*kinds, kinds[0]])):
            continue
        follower = _next_written(case, index)
        if follower is None:
            continue
        following = _round_kind(case, follower)
        wrong = [
            (size, block[at])
            for size in range(case.pattern.sizes.number)
            if (at := _last_worked(round_, what, size, len(block))) is not None
            and _works(case.pattern.rounds[follower], size)
            and kinds[at] == following
        ]
        if wrong:
            yield _met_its_like(case, index, follower, wrong)


def _works(round_: Round, size: int) -> bool:
    return round_.sizes is None or size in round_.sizes


def _next_written(case: Case, index: int) -> int | None:
    """Return the next round of the section, None where an instruction that stands for rounds comes first."""
    if index + 1 >= len(case.pattern.rounds):
        return None
    after = case.pattern.rounds[index + 1]
    if after.section != case.pattern.rounds[index].section or isinstance(after.directive, RepeatRounds | WorkEven):
        return None
    return index + 1


def _last_worked(round_: Round, what: RepeatRounds, size: int, block: int) -> int | None:
    """Return which round of the block is worked last for a size, None where it isn't known."""
    if not _works(round_, size):
        return None
    rounds = covered(round_, size)
    if round_.first is not None and rounds > 1:
        return (rounds - 1) % block
    times = what.times
    if times is None or times.number is None or times.count is Count.TO_END or not times.number.at(size):
        return None
    return block - 1


def _met_its_like(case: Case, index: int, follower: int, wrong: list[tuple[int, int]]) -> Said:
    round_, after = case.pattern.rounds[index], case.pattern.rounds[follower]
    sizes = [size for size, _ in wrong]
    last = case.pattern.rounds[wrong[0][1]]
    directive = round_.directive
    span = directive.span if isinstance(directive, RepeatRounds) else round_.heading
    return Said(
        span,
        f"the repeat ends on {round_name(last)}{for_sizes(case, sizes)}, and {round_name(after)} comes next: "
        f"two of the same kind meet",
        sizes=all_or(case, sizes),
        asides=(Aside(after.heading, f"worked like {round_name(last)}"),),
    )


# ---------------------------------------------------------------- the rules

_STRIPES = (
    "Ch 20, join with sl st to form a ring.\n"
    "Rnd 1: Ch 1, sc in each ch around, join. (20)\n"
    "Rnd 2: Ch 1, *sc in next st, dc in next st; rep from * around, join. (20)\n"
    "Rnd 3: Ch 1, sc in each st around, join. (20)\n"
)

REPEAT_ENDS_ON_WRONG_ROUND = Rule(
    name="repeat-ends-on-wrong-round",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A block of alternating rounds is repeated so that its last round is of the same kind as the round after it.",
    why="Two plain or two textured rounds lie next to each other, and that shows as a line in the fabric.",
    limits="Silent for blocks whose rounds are alike, where the draft says on which round to end, "
    "and across sections. "
    "It may be meant, so it is a query.",
    source="common practice of tech editing: the last round worked of a repeat is looked up for every size",
    examples=(
        Flags(f"{_STRIPES}⟦Rep rnds 2 and 3 four times more⟧.\nRnd 12: Ch 1, sc in each st around, join. (20)\n"),
        Passes(
            f"{_STRIPES}Rep rnds 2 and 3 four times more.\n"
            "Rnd 12: Ch 1, *sc in next st, dc in next st; rep from * around, join. (20)\n"
        ),
        Passes(f"{_STRIPES}Rep rnd 3 four times more.\nRnd 8: Ch 1, sc in each st around, join. (20)\n"),
        Passes(
            "Ch 20, join with sl st to form a ring.\nRnd 1: Ch 1, sc in each ch around, join. (20)\n"
            "Rnd 2: Ch 1, *sc in next st, dc in next st; rep from * around, join. (20)\n"
            "Rnd 3: Ch 1, sc in each st around, join. (20)\n"
            "Rep rnds 2 and 3 three times more, then rnd 2 once more.\n"
            "Rnd 11: Ch 1, sc in each st around, join. (20)\n"
        ),
    ),
    check=_ends_wrong,
)

REPEAT_TARGET_MISSING = Rule(
    name="repeat-target-missing",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="A round is to be repeated that doesn't exist, or that comes only later; or one round is named twice.",
    why="The maker looks for a round that isn't there.",
    limits="A query where a round is named twice. Silent where rounds before it have no numbers or are declared "
    "without being written, and where the number falls into a gap of the numbering.",
    source="common practice of tech editing: every reference is looked up",
    examples=(
        Flags(f"{_STRIPES}⟦Rep rnd 8 four times more⟧.\n"),
        Flags(f"{_STRIPES}Rep rnds ⟦3 and 3⟧ four times more.\n"),
        Passes(f"{_STRIPES}Rep rnd 3 four times more.\n"),
        Passes(f"{_STRIPES}Rep last rnd four times more.\n"),
        Passes(
            "Ch 20, join with sl st to form a ring.\nRnd 1: Ch 1, sc in each ch around, join. (20)\n"
            "Rnd 2: Ch 1, *sc in next st, dc in next st; rep from * around, join. (20)\n"
            "Rnd 3: Ch 1, sc in each st around, join. (20)\n"
            "Rep rnds 2 and 3 four times more.\n"
        ),
    ),
    check=_target_missing,
)

REPEAT_ROWS_NOT_WHOLE = Rule(
    name="repeat-rows-not-whole",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="A heading covers so many rounds, and the block that they repeat doesn't divide that number.",
    why="Either the numbers of the heading or the rounds to repeat are wrong; the rounds after it are out of step.",
    limits="Silent for blocks of two rounds, which are often ended on the first, and where the draft "
    "says on which "
    "round to end.",
    source="common practice of tech editing: rounds covered, divided by rounds repeated",
    examples=(
        Flags(f"{_STRIPES}Rnd 4: Ch 1, dc in each st around, join. (20)\n⟦Rnds 5-12⟧: Rep rnds 2-4.\n"),
        Passes(f"{_STRIPES}Rnd 4: Ch 1, dc in each st around, join. (20)\nRnds 5-13: Rep rnds 2-4.\n"),
        Passes(f"{_STRIPES}Rnds 4-8: Rep rnds 2 and 3.\n"),
        Passes(
            "Ch 20, join with sl st to form a ring.\nRnd 1: Ch 1, sc in each ch around, join. (20)\n"
            "Rnd 2: Ch 1, *sc in next st, dc in next st; rep from * around, join. (20)\n"
            "Rnd 3: Ch 1, sc in each st around, join. (20)\n"
            "Rnd 4: Ch 1, dc in each st around, join. (20)\nRnds 5-12: Rep rnds 2-4, ending with rnd 3.\n"
        ),
    ),
    check=_rows_not_whole,
)

RULES = (REPEAT_ENDS_ON_WRONG_ROUND, REPEAT_TARGET_MISSING, REPEAT_ROWS_NOT_WHOLE)
