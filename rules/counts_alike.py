"""Counts: what was done twice by a slip: a stitch named twice running, a shaping round that stands twice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from ..lint.draft import Span
from ..lint.finding import Aside, Level
from ..lint.later import later
from ..lint.steps import At, Repeat, Step, Work
from .numbering import worked_alike
from .rule import Case, Flags, Passes, Rule, Said
from .sums import number_of, pencil_sum, round_name

_FAMILY = "counts"
_PRACTICE = "common practice of tech editing: words that say the same thing twice are looked at"

# ---------------------------------------------------------------- knits beside knits

_BETWEEN = later(r"\s*,\s*")


def _same_twice(case: Case) -> Iterator[Said]:
    """Find `k3, k4` within one list of stitches: one of them was to be purled, or something between them is lost."""
    if case.pattern.craft != "knitting":
        return
    found = [
        (index, pair) for index, round_ in enumerate(case.pattern.rounds) for pair in _neighbours(case, round_.steps)
    ]
    if len(found) != 1:
        return  # a draft that does so often has its reasons: markers of a chart, stitches set apart
    index, (first, second) = found[0]
    words = case.words(Span(first.span.start, second.span.end))
    yield Said(
        Span(first.span.start, second.span.end),
        f'"{words}" in {round_name(case.pattern.rounds[index])} names the same stitch twice running',
    )


def _neighbours(case: Case, steps: Sequence[Step]) -> Iterator[tuple[Work, Work]]:
    for step in steps:
        if isinstance(step, Repeat):
            yield from _neighbours(case, step.steps)
    for first, second in pairwise(steps):
        if not isinstance(first, Work) or not isinstance(second, Work):
            continue
        alike = first.make.kind == second.make.kind and first.make.kind in ("k", "p")
        plain = first.where.at is second.where.at is At.NEXT and not first.where.last and not second.where.last
        if alike and plain and _bare(case, first) and _bare(case, second):
            between = case.draft.text[first.span.end : second.span.start]
            if _BETWEEN.fullmatch(between):
                yield first, second


_BARE = later(r"(?i)[kp]\s?\d{1,2}")


def _bare(case: Case, step: Work) -> bool:
    return _BARE.fullmatch(case.words(step.span)) is not None


# ---------------------------------------------------------------- a shaping round twice


def _round_twice(case: Case) -> Iterator[Said]:
    """Find a round with the words of the one before it that claims the count which that one has made already."""
    for index in range(1, len(case.pattern.rounds)):
        before, round_ = case.pattern.rounds[index - 1], case.pattern.rounds[index]
        if before.section != round_.section or before.directive or round_.directive or not round_.claims:
            continue
        owns = case.workings.rounds[index].sizes
        earlier = case.workings.rounds[index - 1].sizes
        twice = [
            own.left
            for own, one in zip(owns, earlier, strict=True)
            if own is not None
            and one is not None
            and one.count is not None
            and own.left
            and own.agrees
            and own.stated == one.count == own.before
            and one.count not in (one.before, one.used)
        ]
        if twice and worked_alike(before.steps, round_.steps):
            yield Said(
                round_.heading,
                f"{round_name(round_)} says again what {round_name(before)} says, uses {number_of(twice[0])} fewer "
                "than there are, and comes to the same count",
                sum=pencil_sum(case, index, (0,)),
                asides=(Aside(before.heading, "the round before"),),
            )


# ---------------------------------------------------------------- the rules

_TWELVE = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"

SAME_TWICE = Rule(
    name="stitch-named-twice",
    family=_FAMILY,
    level=Level.QUERY,
    finds="Knits beside knits, or purls beside purls, in one list of stitches: `k3, k4`.",
    why="One of the two was to be the other stitch, or a yarn over or a decrease between them is lost.",
    limits="Only where it happens once in a draft, with nothing but a comma between.",
    source=_PRACTICE,
    examples=(
        Flags("Cast on 60 sts and join.\nRnd 1: *K4, p2; rep from * to end.\nRnd 2: *⟦K4, k2⟧; rep from * to end.\n"),
        Passes("Cast on 60 sts and join.\nRnd 1: *K4, p2; rep from * to end.\nRnd 2: *K4, p2; rep from * to end.\n"),
        Passes("Cast on 60 sts.\nRow 1: K4, pm, k56.\nRow 2: Knit.\n"),
        Passes("Cast on 60 sts.\nRow 1: K4, k56.\nRow 2: K4, k56.\n"),
        Passes("Cast on 60 sts.\nRow 1: K58, k2tog.\nRow 2: Knit.\n"),
    ),
    check=_same_twice,
)

ROUND_TWICE = Rule(
    name="round-stands-twice",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A shaping round that stands twice: the second time it leaves stitches over and claims the count that "
    "it began with.",
    why="A line was copied with a new number, and the round that belongs there is missing.",
    limits="Only where both rounds are worked with the same steps, and the first one came out.",
    source=_PRACTICE,
    examples=(
        Flags(f"{_TWELVE}Rnd 3: (Sc, inc) x 6. (18)\n⟦Rnd 4⟧: (Sc, inc) x 6. (18)\n"),
        Passes(f"{_TWELVE}Rnd 3: (Sc, inc) x 6. (18)\nRnd 4: (2 sc, inc) x 6. (24)\n"),
        Passes(f"{_TWELVE}Rnd 3: Sc in each st. (12)\nRnd 4: Sc in each st. (12)\n"),
        Passes(f"{_TWELVE}Rnd 3: (Sc, inc) x 6. (18)\nRnd 4: (Sc, inc) x 9. (27)\n"),
    ),
    check=_round_twice,
)

RULES = (SAME_TWICE, ROUND_TWICE)
