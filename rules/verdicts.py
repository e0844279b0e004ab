"""The verdict on the arithmetic of a round: which one of the rules speaks, for which sizes, and how surely.

One slip is one finding. Several rules see the same slip (stitches left over, a repeat that doesn't fit, a
count that differs), so it is decided here, for the round as a whole, which of them tells most.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from ..lint.finding import Level
from ..lint.pattern import Round
from ..lint.plain import is_plain
from ..lint.steps import At, Chain, Count, Evenly, Join, Repeat, Step, Together, Work
from ..lint.workings import Deed, Item, SizeWorking
from .meeting import bad_meeting
from .rule import Case

ORDER = (
    "evenly-does-not-work",
    "foundation-differs",
    "repeat-does-not-fit",
    "remainder-differs",
    "repeat-count-differs",
    "stitches-run-out",
    "stitches-left-over",
    "count-differs",
)
_NEAR = 2  # stitches; a slip of so many is likely however few there are
_FAR = 2  # how many times another a count must be to be doubted
_FAR_AWAY = 100  # rounds beyond which a stated count says nothing of a round
_WELL_SUPPORTED = 2  # counts by which a convention must be ahead of its opposite to settle a round
_FEW = 5  # where a count agrees, the part of the row below that may be left over by a slip: a fifth, no more


@dataclass(frozen=True, slots=True)
class Trouble:
    """What is wrong with a round: the rule that speaks, the sizes it is about, and its level."""

    index: int
    rule: str
    sizes: tuple[int, ...]
    level: Level

    def said_sizes(self, case: Case) -> tuple[int, ...]:
        """Return the sizes for a finding: none where it is about all of them."""
        return all_or(case, self.sizes)

    def workings(self, case: Case) -> tuple[SizeWorking, ...]:
        """Return the workings of the round for the sizes it is about."""
        found = case.workings.rounds[self.index].sizes
        return tuple(own for size in self.sizes if (own := found[size]) is not None)


def all_or(case: Case, sizes: Sequence[int]) -> tuple[int, ...]:
    """Return the sizes, or nothing where they are all sizes of the draft."""
    return () if len(set(sizes)) == case.pattern.sizes.number else tuple(sizes)


def troubles(case: Case) -> Iterator[Trouble]:
    """Yield at most one trouble a round, in the draft's order."""
    told: dict[int, int] = {}  # by size: the round whose misfit explains a difference in the next stated count
    for index in range(len(case.pattern.rounds)):
        trouble = _trouble(case, index, told)
        if trouble is None or (trouble.rule == "repeat-does-not-fit" and bad_meeting(case, index)):
            continue  # where sizes meet again, that rule speaks
        yield trouble


def troubles_of(case: Case, rule: str) -> Iterator[Trouble]:
    """Yield the troubles that a rule is to speak of."""
    every = case.once("troubles", lambda: tuple(troubles(case)))
    return (trouble for trouble in every if trouble.rule == rule)


def _trouble(case: Case, index: int, told: dict[int, int]) -> Trouble | None:
    round_ = case.pattern.rounds[index]
    working = case.workings.rounds[index]
    if round_.loose:
        return None  # a mark is missing, and the mark's own rule speaks
    found: list[tuple[int, str, Level]] = []
    agreeing: list[tuple[int, str, Level]] = []
    for size, own in enumerate(working.sizes):
        if own is None or own.count is None:
            continue
        if own.agrees:
            told.pop(size, None)
            if (kind := _in_spite_of_count(case, index, size, own)) is not None:
                agreeing.append((size, kind, Level.QUERY))
            continue
        if own.agrees is None and size in told:
            continue  # what it is worked on is in doubt until a count agrees again
        if _explained(case, index, size, own, told):
            continue
        kind = _kind(case, index, own, size)
        level = _level(case, index, size, own, kind) if kind else None
        if kind and level is not None:
            found.append((size, kind, level))
    found = found or agreeing
    if not found:
        return None
    rule = min((kind for _, kind, _ in found), key=ORDER.index)
    level = max(level for _, kind, level in found if kind == rule)
    sizes = tuple(size for size, kind, own_level in found if kind == rule and own_level == level)
    for size in sizes:
        own = working.sizes[size]
        if own is not None and own.agrees is None:
            told[size] = index
    return Trouble(index, rule, sizes, level)


def _explained(case: Case, index: int, size: int, own: SizeWorking, told: dict[int, int]) -> bool:
    """Tell whether a difference follows from what was said of an earlier round."""
    if own.agrees is not False or own.left or own.short:
        return False
    return told.pop(size, None) is not None or _carried_on(case, index, size, own)


def _carried_on(case: Case, index: int, size: int, own: SizeWorking) -> bool:
    """Tell whether a difference is that of the counted round before, taken along unchanged."""
    for earlier in range(index - 1, max(-1, index - _FAR_AWAY), -1):
        working = case.workings.rounds[earlier]
        before = working.sizes[size]
        if before is not None and before.agrees is not None:
            same = before.count == own.before and _gap(before) == _gap(own)
            return before.agrees is False and not working.resumed and same
    return False


# ---------------------------------------------------------------- which rule speaks for a size


def _kind(case: Case, index: int, own: SizeWorking, size: int) -> str | None:
    """Return the rule that tells most about a size whose count differs or whose stitches don't come out."""
    round_ = case.pattern.rounds[index]
    differs = own.agrees is False
    if uneven(round_, own, size):
        return "evenly-does-not-work"
    misfit = (own.left or own.short) and own.before is not None and round_.directive is None
    if differs and _wrong_foundation(case, index, own):
        return "foundation-differs"
    if misfit and (fit := _misfit(round_, own, differs=differs)):
        return fit
    return "count-differs" if differs else None


def uneven(round_: Round, own: SizeWorking, size: int) -> bool:
    """Tell whether a round spreads increases or decreases evenly and its numbers disagree for a size."""
    step = next((step for step in round_.steps if isinstance(step, Evenly)), None)
    item = next((item for item in own.items if item.deed is Deed.EVENLY), None)
    if step is None or item is None:
        return False
    wanted = step.to.at(size) if step.to else None
    return own.agrees is False or (wanted is not None and wanted != item.makes)


def _misfit(round_: Round, own: SizeWorking, *, differs: bool) -> str | None:
    if any(item.left and item.times for item in own.items):
        return "repeat-does-not-fit"
    if keeper(round_) is not None:
        return "remainder-differs"
    if counted_repeat(round_, own) is not None:
        return "repeat-count-differs"
    if own.short:
        return "stitches-run-out"
    if round_.flat and not (differs and own.stated == (own.count or 0) + own.left):
        return None  # a row may stop short on purpose, and often doesn't say so
    return "stitches-left-over"


def _in_spite_of_count(case: Case, index: int, size: int, own: SizeWorking) -> str | None:
    """Return the rule that asks about stitches left or run out of though the stated count agrees; None for silence.

    Only where nothing else can be meant: a plain round on a plain row whose count agreed, and few stitches.
    """
    round_ = case.pattern.rounds[index]
    gap = own.left + own.short
    if not gap or not own.sure or own.before is None or gap * _FEW > own.before:
        return None
    if round_.directive is not None or foundation_of(case, index) is not None or not is_plain(round_.steps):
        return None
    below = _row_below(case, index, size)
    if below is None or below.spaces or below.count != own.before or not _agreed_before(case, index, size):
        return None
    return None if _open_convention(case, index, own) else _misfit(round_, own, differs=False)


def _row_below(case: Case, index: int, size: int) -> SizeWorking | None:
    """Return the working of the round before for a size, in the same section."""
    for earlier in range(index - 1, -1, -1):
        if case.pattern.rounds[earlier].section != case.pattern.rounds[index].section:
            return None
        own = case.workings.rounds[earlier].sizes[size]
        if own is not None:
            return own
    return None


def keeper(round_: Round) -> Repeat | Work | None:
    """Return the step that is worked up to the last n stitches, where the words after it go on from there."""
    steps = [step for step in round_.steps if isinstance(step, Work | Repeat | Together)]
    for step, after in pairwise(steps):
        if isinstance(after, Repeat) and after.times.count is Count.TO_END:
            continue
        if isinstance(step, Repeat) and step.times.count is Count.TO_END and step.times.leave is not None:
            return step
        if isinstance(step, Work) and step.where.at is At.EACH and step.where.leave is not None:
            return step
    return None


def counted_repeat(round_: Round, own: SizeWorking) -> Item | None:
    """Return the one repeat that would mend the round if it were worked another number of times."""
    spans = {
        step.span
        for step in round_.steps
        if isinstance(step, Repeat) and step.times.number is not None and step.times.count is not Count.TO_END
    }
    items = [item for item in own.items if item.deed is Deed.REPEAT and item.span in spans and item.uses]
    if len(items) != 1 or any(item.to_end for item in own.items):
        return None
    gap = own.left - own.short
    return items[0] if gap % items[0].uses == 0 and items[0].times + gap // items[0].uses > 0 else None


def _wrong_foundation(case: Case, index: int, own: SizeWorking) -> bool:
    """Tell whether a first row differs in a way that another foundation chain would mend."""
    chain = foundation_of(case, index)
    if chain is None or own.stated is None or not case.workings.rounds[index].resumed:
        return False
    below = case.workings.rounds[chain].sizes if chain != index else ()
    if chain != index and not any(size is not None and size.count == own.before for size in below):
        return False
    return _even_throughout(case.pattern.rounds[index].steps)


def foundation_of(case: Case, index: int) -> int | None:
    """Return the round that makes the chain for a first row: the one before it, or the row itself."""
    round_ = case.pattern.rounds[index]
    own_chain = any(isinstance(step, Chain) and step.beginning for step in round_.steps)
    starts = all(own is None or own.before is None for own in case.workings.rounds[index].sizes)
    if own_chain and starts and _from_hook(round_.steps):
        return index
    before = case.pattern.rounds[index - 1] if index else None
    if before is not None and before.foundation and before.section == round_.section:
        return index - 1
    return None


def _from_hook(steps: Sequence[Step]) -> bool:
    return any(isinstance(step, Work) and step.where.at is At.FROM_HOOK for step in steps)


def _even_throughout(steps: Sequence[Step]) -> bool:
    """Tell whether every stitch takes one place and leaves one, so that the row is as long as the chain."""
    works = [step for step in steps if isinstance(step, Work | Repeat | Together)]
    return bool(works) and all(
        isinstance(step, Work) and step.make.uses == step.make.makes == 1 and step.times.values == (1,)
        for step in works
    )


# ---------------------------------------------------------------- how surely


def _level(case: Case, index: int, size: int, own: SizeWorking, kind: str) -> Level | None:
    """Return the level of a size's trouble, None for silence."""
    if own.before is None and own.short:
        return None  # it is worked into something that was not understood
    if not own.sure or (own.before is not None and own.before < 1) or (own.count or 0) < 1:
        return None
    if own.agrees is False:
        # a longhand's sign says that this was reported of the draft it was made from
        known = case.pattern.rounds[index].known_to_differ
        doubtful = known or _far_off(own) or _open_convention(case, index, own)
        return Level.QUERY if doubtful else Level.CORRECTION
    if kind == "evenly-does-not-work":
        return Level.CORRECTION
    return _level_unstated(case, index, size, own, kind)


def _far_off(own: SizeWorking) -> bool:
    """Tell whether a count is so far from the stated one that a misreading is likelier than a slip."""
    made, stated = own.count or 0, own.stated or 0
    if abs(made - stated) <= _NEAR:
        return False
    return not made < _FAR * stated or not stated < _FAR * made


def _level_unstated(case: Case, index: int, size: int, own: SizeWorking, kind: str) -> Level | None:
    """Judge stitches that don't come out in a round without a count: the next stated count is the witness."""
    round_ = case.pattern.rounds[index]
    later = next_stated(case, index, size)
    if later is True or _open_convention(case, index, own) or foundation_of(case, index) is not None:
        return None
    if later is None and is_last(case, index, size):
        return None
    if kind == "stitches-left-over" and round_.flat:
        return None
    spiral = not any(isinstance(step, Join) for step in round_.steps) and not round_.flat
    if kind == "stitches-run-out" and spiral and later is None:
        return None
    if later is False:
        return Level.CORRECTION
    return Level.CORRECTION if kind == "repeat-does-not-fit" and _agreed_before(case, index, size) else Level.QUERY


def next_stated(case: Case, index: int, size: int) -> bool | None:
    """Tell whether the next count stated in the section agrees with the work; None without one."""
    for later in range(index + 1, min(index + 1 + _FAR_AWAY, len(case.pattern.rounds))):
        if case.pattern.rounds[later].section != case.pattern.rounds[index].section:
            return None
        own = case.workings.rounds[later].sizes[size]
        if own is not None and (own.agrees is not None or own.count is None):
            return own.agrees
    return None


def is_last(case: Case, index: int, size: int) -> bool:
    """Tell whether a round is the last of its section for a size."""
    for later in range(index + 1, len(case.pattern.rounds)):
        if case.pattern.rounds[later].section != case.pattern.rounds[index].section:
            return True
        if case.workings.rounds[later].sizes[size] is not None:
            return False
    return True


def _agreed_before(case: Case, index: int, size: int) -> bool:
    """Tell whether the last count stated before a round agreed, so that what it is worked on is certain."""
    for earlier in range(index - 1, max(-1, index - _FAR_AWAY), -1):
        if case.pattern.rounds[earlier].section != case.pattern.rounds[index].section:
            return False
        own = case.workings.rounds[earlier].sizes[size]
        if own is not None and own.agrees is not None:
            return own.agrees
    return False


def _open_convention(case: Case, index: int, own: SizeWorking) -> bool:
    """Tell whether a round would come out if an open convention were taken the other way."""
    gap = _gap(own)
    for key, holds in case.workings.rounds[index].readings:
        if own.agrees is False and not _mends(case, key, index):
            continue
        if _settles(own, key, holds=holds, gap=gap) and (not _supported(case, key) or _alike(case, key, index)):
            return True
    return False


def _mends(case: Case, key: str, index: int) -> bool:
    """Tell whether the round's stated count would agree under the other answer to a question."""
    return any(reading.key == key and index in reading.mends for reading in case.workings.readings)


def _gap(own: SizeWorking) -> int:
    """Return by how many stitches a round falls short of its stated count, or else of the row below."""
    if own.agrees is False and own.stated is not None:
        return own.stated - (own.count or 0)
    return own.left - own.short


def _settles(own: SizeWorking, key: str, *, holds: bool, gap: int) -> bool:
    """Tell whether the other answer to a question would close a gap."""
    if key.startswith(("ch-", "skipped-")) or key == "skip-is-base":
        return gap == (-1 if holds else 1) or (own.agrees is not False and abs(gap) == 1)
    if key == "times-more":
        counted = [item for item in own.items if item.deed is Deed.REPEAT and not item.to_end]
        return any(abs(gap) in (item.makes, item.uses) for item in counted)
    if key == "n-in-one":
        return own.agrees is not False or any(item.to_end for item in own.items)
    if key == "chains-count":
        return own.spaces > 0 and not own.agrees
    return True


def _supported(case: Case, key: str) -> bool:
    """Tell whether the draft's words or its other counts settle a convention, or nothing hangs on it."""
    found = [reading for reading in case.workings.readings if reading.key == key]
    return all(reading.said or reading.agree - reading.otherwise >= _WELL_SUPPORTED for reading in found)


def _alike(case: Case, key: str, index: int) -> bool:
    """Tell whether another round differs alike, so that the convention may hold for some rounds only."""
    for other, working in enumerate(case.workings.rounds):
        holds = dict(working.readings).get(key)
        if other == index or holds is None:
            continue
        for own in working.sizes:
            if own is not None and own.agrees is False and _settles(own, key, holds=holds, gap=_gap(own)):
                return True
    return False
