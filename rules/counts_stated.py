"""Counts that are missing, and stated multiples against the cast-on."""

from __future__ import annotations

from collections.abc import Iterator

from ..lint.finding import Aside, Level
from ..lint.later import later
from ..lint.pattern import Multiple, RepeatRounds
from ..lint.workings import RoundWorking, SizeWorking, Standing
from .rule import Case, Flags, Passes, Rule, Said
from .sums import figures_by_size, number_of, round_name
from .verdicts import all_or

_FAMILY = "counts"
_USUAL_SHARE = 0.6  # of the rounds that change the count, those that state it, from which one without is a slip
_FEWEST_CHANGING = 4
_FEWEST_ROUNDS = 3


_PARTED = later(r"(?i)\b(?:needles?|holders?|held|hold|waste\s+yarn|these\s+sts|divide)\b")


def _changes(own: SizeWorking | None) -> bool:
    return own is not None and own.count is not None and own.before is not None and own.count != own.before


def _changing(case: Case) -> list[int]:
    """Return the rounds that were worked and change the count."""
    return [
        index
        for index, working in enumerate(case.workings.rounds)
        if working.standing is not Standing.UNREAD and any(_changes(own) for own in working.sizes)
    ]


def _count_unstated(case: Case) -> Iterator[Said]:
    changing = _changing(case)
    stating = [index for index in changing if case.pattern.rounds[index].claims]
    if len(changing) < _FEWEST_CHANGING or len(stating) < _USUAL_SHARE * len(changing):
        return
    for index in changing:
        round_, working = case.pattern.rounds[index], case.workings.rounds[index]
        if round_.claims or round_.foundation or not _plainly_worked(working) or not round_.steps:
            continue
        if round_.first is None and _PARTED.search(case.draft.words(round_.span)):
            continue  # `knit 20 sts onto one needle, hold the others`: the stitches are parted and not changed
        sizes = [size for size, own in enumerate(working.sizes) if _changes(own)]
        owns = [own for size in sizes if (own := working.sizes[size]) is not None]
        made = figures_by_size(case, sizes, [own.count or 0 for own in owns], "sts")
        yield Said(
            span=round_.heading,
            message=f"{round_name(round_)} changes the count and states none, other rounds do; it comes to {made}",
            sizes=all_or(case, sizes),
        )


def _plainly_worked(working: RoundWorking) -> bool:
    """Tell whether every stitch of the row below was used, so that the count is worth stating."""
    return all(own is None or (own.sure and not own.left and not own.short) for own in working.sizes)


def _count_never_stated(case: Case) -> Iterator[Said]:
    by_section: dict[int, list[int]] = {}
    for index, round_ in enumerate(case.pattern.rounds):
        if not round_.foundation:
            by_section.setdefault(round_.section, []).append(index)
    for number, section in enumerate(case.pattern.sections):
        indices = by_section.get(number, [])
        rounds = [case.pattern.rounds[index] for index in indices]
        worked = [index for index in indices if case.workings.rounds[index].standing is not Standing.UNREAD]
        if len(worked) < _FEWEST_ROUNDS or any(round_.claims for round_ in rounds):
            continue
        if any(isinstance(round_.directive, RepeatRounds) and round_.directive.until for round_ in rounds):
            continue
        last = rounds[-1]
        part = section.title.strip() if section.title else "the piece"
        own = next((own for own in case.workings.rounds[worked[-1]].sizes if own is not None), None)
        ends = f"; it ends on {number_of(own.count)}" if own and own.count and case.pattern.sizes.number == 1 else ""
        yield Said(span=last.heading, message=f"{part} states no count that a maker could check{ends}")


# ---------------------------------------------------------------- multiples


def _multiple_not_met(case: Case) -> Iterator[Said]:
    """Check each stated multiple against the foundation that follows it."""
    for multiple in case.pattern.multiples:
        if multiple.of < 2:
            continue
        index = next(
            (
                index
                for index, round_ in enumerate(case.pattern.rounds)
                if round_.foundation and round_.span.end > multiple.span.start
            ),
            None,
        )
        if index is None:
            continue
        told_with_it = case.pattern.rounds[index].span.start < multiple.span.start
        if case.pattern.craft == "knitting" and not told_with_it:
            continue  # the stitches at the edges are often left out of a multiple
        if (said := _against_multiple(case, multiple, index)) is not None:
            yield said


def _against_multiple(case: Case, multiple: Multiple, index: int) -> Said | None:
    round_, working = case.pattern.rounds[index], case.workings.rounds[index]
    between = case.draft.text[multiple.span.end : round_.span.start]
    if len(case.pattern.multiples) > 1 and between.count("\n\n") > 1:
        return None  # a multiple that belongs to another stitch pattern
    sizes = [
        size
        for size, own in enumerate(working.sizes)
        if own is not None and own.count and own.sure and not _met(case, multiple, index, size, own.count)
    ]
    if not sizes:
        return None
    chains = [own.count or 0 for size in sizes if (own := working.sizes[size]) is not None]
    wanted = f"a multiple of {multiple.of}"
    wanted += f" + {multiple.plus}" if multiple.plus else ""
    wanted += f", plus {multiple.base}" if multiple.base else ""
    made = figures_by_size(case, sizes, chains, "sts" if case.pattern.craft == "knitting" else "chains")
    return Said(
        span=round_.heading,
        message=f"the draft asks for {wanted}, and begins with {made}",
        sizes=all_or(case, sizes),
        sum=tuple(_remainder(multiple, count) for count in chains[:4]),
        asides=(Aside(multiple.span, "the stated multiple"),),
        level=Level.CORRECTION if multiple.base or not multiple.plus else Level.QUERY,
    )


def _remainder(multiple: Multiple, count: int) -> str:
    whole = count - multiple.plus - multiple.base
    less = "".join(f" - {n}" for n in (multiple.plus, multiple.base) if n)
    equals = f"{count}{less} = {whole}; " if less else ""
    return f"{equals}{whole} / {multiple.of} = {whole // multiple.of} times, {whole % multiple.of} left over"


def _met(case: Case, multiple: Multiple, index: int, size: int, count: int) -> bool:
    """Tell whether the cast-on, or the first row worked into it, is of the stated multiple."""
    if (count - multiple.plus - multiple.base) % multiple.of == 0:
        return True
    first = case.workings.rounds[index + 1].sizes[size] if index + 1 < len(case.workings.rounds) else None
    if first is None or first.count is None:
        return True
    return (first.count - multiple.plus) % multiple.of == 0 or (
        first.count - multiple.plus - multiple.base
    ) % multiple.of == 0


COUNT_UNSTATED = Rule(
    name="count-unstated",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A round changes the number of stitches and states no count, where most of the draft's "
    "rounds that do "
    "state theirs.",
    why="That is the round in which a maker most needs a number to check by.",
    limits="Only where at least 3 of 5 rounds that change the count state it, and the round was worked in full.",
    source="common practice of tech editing: a count wherever the number of stitches changes",
    examples=(
        Flags(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
            "Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)\n"
            "⟦Rnd 4⟧: (Sc in next 2 sts, 2 sc in next st) 6 times.\n"
            "Rnd 5: (Sc in next 3 sts, 2 sc in next st) 6 times. (30)\n"
        ),
        Passes(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
            "Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)\n"
            "Rnd 4: Sc in each st around.\n"
            "Rnd 5: (Sc in next 2 sts, 2 sc in next st) 6 times. (24)\n"
            "Rnd 6: (Sc in next 3 sts, 2 sc in next st) 6 times. (30)\n"
        ),
        Passes(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around.\n"
            "Rnd 3: (Sc in next st, 2 sc in next st) 6 times.\n"
            "Rnd 4: (Sc in next 2 sts, 2 sc in next st) 6 times.\n"
        ),
        Passes(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
            "Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)\n"
            "Rnd 4 (24 sts): (Sc in next 2 sts, 2 sc in next st) 6 times.\n"
            "Rnd 5: (Sc in next 3 sts, 2 sc in next st) 6 times. (30)\n"
        ),
    ),
    check=_count_unstated,
)

COUNT_NEVER_STATED = Rule(
    name="count-never-stated",
    family=_FAMILY,
    level=Level.STYLE,
    finds="A section of three rounds or more states no count from beginning to end.",
    why="Without a single number a maker has nothing to check by, and a slip shows only when the piece is done.",
    limits="Silent for sections of one or two rounds and where rounds are repeated until a number is reached.",
    source="common practice of tech editing: at least the count at the end of each part",
    examples=(
        Flags(
            "Rnd 1: 6 sc in magic ring.\nRnd 2: 2 sc in each st around.\n"
            "⟦Rnd 3⟧: (Sc in next st, 2 sc in next st) 6 times.\n"
        ),
        Passes(
            "Rnd 1: 6 sc in magic ring.\nRnd 2: 2 sc in each st around.\n"
            "Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)\n"
        ),
        Passes("Rnd 1: 6 sc in magic ring.\nRnd 2: 2 sc in each st around.\n"),
        Passes(
            "Rnd 1: 6 sc in magic ring.\nRnd 2: 2 sc in each st around.\nRnd 3: Sc in each st around.\n"
            "Rep rnds 2 and 3 until there are 48 sts.\n"
        ),
    ),
    check=_count_never_stated,
)

MULTIPLE_NOT_MET = Rule(
    name="multiple-not-met",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="The cast-on or foundation chain is not of the multiple that the draft states.",
    why="The stitch pattern doesn't come out at the end of the first row.",
    limits="Silent where the first row, without its turning chain, is of the multiple. A query where "
    "the draft "
    "doesn't say how many chains are for turning.",
    source="common practice of tech editing: chains less edge and turning chains, divided by the repeat",
    examples=(
        Flags(
            "Multiple of 6.\n\n⟦Ch 40, join with sl st to form a ring.⟧\n"
            "Rnd 1: Ch 1, sc in each ch around, join. (40 sc)\n"
        ),
        Passes(
            "Multiple of 6.\n\nCh 42, join with sl st to form a ring.\n"
            "Rnd 1: Ch 1, sc in each ch around, join. (42 sc)\n"
        ),
        Flags(
            "⟦Ch 39 (multiple of 6 + 2).⟧\n"
            "Row 1: Sc in 2nd ch from hook, *skip 2 ch, 5 dc in next ch, skip 2 ch, sc in next ch; rep from * across.\n"
        ),
        Flags("⟦Cast on 44 sts (a multiple of 6 + 3).⟧\nRow 1: Knit.\n"),
        Passes("Cast on 45 sts (a multiple of 6 + 3).\nRow 1: Knit.\n"),
        Passes("Multiple of 6.\n\nCh 43.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (42 sc)\n"),
        Passes("Multiple of 6 + 2.\n\nCh 45.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (44 sc)\n"),
    ),
    check=_multiple_not_met,
)

RULES = (COUNT_UNSTATED, COUNT_NEVER_STATED, MULTIPLE_NOT_MET)
