"""Counts in knitting: rows that don't use all their stitches, and patterns that break where a round begins."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ..lint.finding import Level
from ..lint.later import later
from ..lint.steps import At, Chain, Count, Leave, Repeat, Step, Together, Turn, Unread, Work
from ..lint.workings import RoundWorking
from .rule import Case, Flags, Passes, Rule, Said
from .sums import for_sizes, number_of, pencil_sum, round_name
from .verdicts import all_or, troubles

# where the stated count agrees, only these words explain stitches left
_STOPS = later(
    r"(?i)\b(?:turn\w*|w&t|wrap\w*|short|leav\w+|left|rem(?:ain\w*)?|rest|unworked|until|only|each\s+side|m)\b"
)
_ON_PURPOSE = later(
    r"(?i)\b(?:turn|w&t|wrap|short|holders?|hold|held|leav\w+|rem(?:ain\w*)?|waste|scrap|bind|cast|needles?|until|markers?|unworked|"
    r"yarn\s+over|pattern|patt?|heel|m|sts?\s+before)\b"
)


def _unaccounted(case: Case) -> Iterator[Said]:
    knit = case.pattern.craft == "knitting"
    told = {trouble.index for trouble in troubles(case)}
    for index, (round_, working) in enumerate(zip(case.pattern.rounds, case.workings.rounds, strict=True)):
        if index in told or round_.directive or round_.loose or round_.foundation:
            continue
        if working.reason is not None or not (
            _plain(round_.steps) if knit else round_.flat and _only_next(round_.steps)
        ):
            continue
        words = case.draft.words(round_.span) if knit else ""
        left = _left_by_size(working, _bound_off(round_.steps)) if knit else {}
        mixed = 0 in left.values()  # what one size uses up, another leaves
        off = {
            size: (own, left.get(size, 0))
            for size, own in enumerate(working.sizes)
            if own is not None
            and own.sure
            and own.before is not None
            and own.count is not None
            and (own.short or (left.get(size) and not (_STOPS if own.agrees or mixed else _ON_PURPOSE).search(words)))
        }
        if not off:
            continue
        sizes = list(off)
        own, over = off[sizes[0]]
        before = own.before or 0
        if 2 * max(over, own.short) > before:
            continue
        name = round_name(round_)
        if over:
            what = f"{name} uses {before - over} of {number_of(before)}"
        else:
            what = f"{name} asks for {number_of(before + own.short)}, and {before} are there"
        yield Said(
            round_.heading,
            what + for_sizes(case, sizes),
            sizes=all_or(case, sizes),
            sum=pencil_sum(case, index, sizes),
        )


def _bound_off(steps: Sequence[Step]) -> int:
    """Return how often stitches are bound off in a row: the next number may leave out the stitch that each leaves."""
    return sum(isinstance(step, Work) and step.make.kind == "bo" for step in steps)


def _left_by_size(working: RoundWorking, bound: int) -> dict[int, int]:
    """Return the stitches that each size leaves: those left over, or not used where another size uses all."""
    whole = any(own is not None and own.used == own.before and not own.short for own in working.sizes)
    found: dict[int, int] = {}
    for size, own in enumerate(working.sizes):
        if own is not None and own.before is not None:
            unused = own.before - own.used if whole and own.used else 0
            found[size] = max(own.left, unused)
    # what each binding off leaves, it leaves in every size
    return found if any(not 0 < over <= bound for over in found.values()) else dict.fromkeys(found, 0)


def _only_next(steps: Sequence[Step]) -> bool:
    """Tell whether a row only works so many stitches into the next ones, each in one."""
    works = [step for step in steps if isinstance(step, Work)]
    others = [step for step in steps if not isinstance(step, Work | Chain | Turn)]
    single = all(step.where.at is At.NEXT and step.make.uses == step.make.makes == 1 for step in works)
    return len(works) > 1 and single and not others


def _plain(steps: Sequence[Step]) -> bool:
    """Tell whether a row is read in full and neither turns nor leaves anything on purpose."""
    for step in steps:
        if isinstance(step, Unread | Leave | Turn):
            return False
        if isinstance(step, Repeat | Together) and not _plain(step.steps):
            return False
    return bool(steps)


_JOINED = later(r"(?i)\bjoin(?:ed|ing)?\b|\bin\s+the\s+round\b|\bcircular(?:ly)?\b")


def _broken_at_join(case: Case) -> Iterator[Said]:
    if case.pattern.craft != "knitting":
        return
    told = {trouble.index for trouble in troubles(case)}
    for index, (round_, working) in enumerate(zip(case.pattern.rounds, case.workings.rounds, strict=True)):
        if index in told or round_.flat or round_.directive or len(round_.steps) != 1:
            continue
        repeat = round_.steps[0]
        if not isinstance(repeat, Repeat) or repeat.times.count is not Count.TO_END or repeat.times.ending:
            continue
        if not re.search(r"(?i)\br(?:ou)?nd", round_.label) or not _JOINED.search(case.draft.text[: round_.span.start]):
            continue
        unit = _unit(repeat.steps)
        off = [
            (size, own.before)
            for size, own in enumerate(working.sizes)
            if unit and own is not None and own.sure and own.before and own.before % unit
        ]
        if unit and off and off[0][1] > 2 * unit:
            size, before = off[0]
            below, above = before - before % unit, before - before % unit + unit
            message = (
                f"the repeat of {unit} sts in {round_name(round_)} breaks off where the round begins: "
                f"{before} = {before // unit} x {unit} + {before % unit}{for_sizes(case, [size])}"
            )
            yield Said(
                repeat.span,
                message,
                sum=(f"counts that fit: {below} or {above}",),
                sizes=all_or(case, [one for one, _ in off]),
            )


def _unit(steps: Sequence[Step]) -> int:
    """Return how many stitches a repeat of plain knits and purls takes, 0 for any other."""
    total = 0
    for step in steps:
        if not isinstance(step, Work) or step.make.kind not in ("k", "p") or step.where.number is None:
            return 0
        number, times = step.where.number.at(0), step.times.at(0)
        if step.where.number.is_list or number is None or times != 1:
            return 0
        total += number
    return total


_RIB = "Cast on 108 sts and join.\nRnd 1: *K2, p2; rep from * to end.\n"

STITCHES_UNACCOUNTED = Rule(
    name="stitches-unaccounted",
    family="counts",
    level=Level.QUERY,
    finds="A row that doesn't use all the stitches on the needle, or asks for more than there are, though no count "
    "that it states differs.",
    why="The maker reaches the end of the row with stitches over, or none left, and doesn't know where it went wrong.",
    limits="Only rows that were read in full on a row that is known; in crochet only rows that ask for "
    "more. Silent about stitches left where the words turn or leave; and, where no stated count agrees and no other "
    "size uses all of its stitches, where they hold, bind off, or speak of a pattern or a marker.",
    source="common practice of tech editing: stitches used are the stitches of the row before",
    examples=(
        Flags("Cast on 25 sts.\nRow 1: Knit.\n⟦Row 2⟧: K21, k2tog, yo, k1.\nRow 3: Knit. 25 sts.\n"),
        Flags("Cast on 40 sts.\nRow 1: Knit.\n⟦Row 2⟧: K19, pick up and k 6 along the edge, k19. 46 sts.\n"),
        Passes("Cast on 25 sts.\nRow 1: Knit.\nRow 2: K22, k2tog, yo, k1.\nRow 3: Knit. 25 sts.\n"),
        Passes("Cast on 25 sts.\nRow 1: Knit.\nRow 2: K21, turn.\nRow 3: Knit. 25 sts.\n"),
        Passes("Cast on 25 sts.\nRow 1: Knit.\nRow 2: K21 and leave the rest on a holder.\nRow 3: Knit.\n"),
    ),
    check=_unaccounted,
)

PATTERN_BROKEN = Rule(
    name="pattern-broken-at-join",
    family="counts",
    level=Level.QUERY,
    finds="A repeat of knits and purls worked in the round that doesn't divide the stitches.",
    why="The ribs don't meet where the round begins: flat, the row could end on half a repeat, in the round it can't.",
    limits="Only for a round that is nothing but the repeat, after words that join it.",
    source="common practice of tech editing: a pattern in the round needs a multiple",
    examples=(
        Flags("Cast on 106 sts and join.\nRnd 1: *⟦K2, p2; rep from * to end⟧.\n"),
        Passes(_RIB),
        Passes("Cast on 106 sts.\nRow 1: *K2, p2; rep from * to last 2 sts, k2.\n"),
        Passes("Cast on 106 sts and join.\nRnd 1: *K2, p2; rep from * to last 2 sts, k2.\n"),
    ),
    check=_broken_at_join,
)

RULES = (STITCHES_UNACCOUNTED, PATTERN_BROKEN)
