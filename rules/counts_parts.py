"""Counts of a part: stitches between markers or on each side, increases and decreases told, eyelets made."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ..lint.draft import Span
from ..lint.finding import Level
from ..lint.later import later
from ..lint.pattern import PARTS_COUNTED, Claim, Round
from ..lint.steps import At, Join, Marker, Remark, Step, Work
from ..lint.workings import SizeWorking
from .rule import Case, Flags, Passes, Rule, Said
from .sums import figures_by_size, join_words, number_of, pencil_sum, round_name
from .verdicts import all_or, troubles

_FAMILY = "counts"
_PRACTICE = "common practice of tech editing: every number told of a round is worked out from its words"

# ---------------------------------------------------------------- parts of the row


def _part_differs(case: Case) -> Iterator[Said]:
    told = {trouble.index for trouble in troubles(case)}
    for index, round_ in enumerate(case.pattern.rounds):
        for claim in round_.claims:
            if claim.unit not in PARTS_COUNTED or index in told:
                continue
            off = {
                size: (made, stated)
                for size in range(case.pattern.sizes.number)
                if (stated := claim.figure.at(size)) is not None
                and (made := _part(case, index, claim, size)) is not None
                and made != stated
            }
            if off:
                yield _said_part(case, index, claim, off)


def _said_part(case: Case, index: int, claim: Claim, off: dict[int, tuple[int, int]]) -> Said:
    made = figures_by_size(case, list(off), [one for one, _ in off.values()], claim.unit)
    says = join_words(list(dict.fromkeys(str(stated) for _, stated in off.values())))
    name = round_name(case.pattern.rounds[index])
    return Said(
        claim.span,
        f"{name} makes {made}, the draft says {says}",
        sizes=all_or(case, list(off)),
        sum=pencil_sum(case, index, list(off)[:1]),
    )


def _part(case: Case, index: int, claim: Claim, size: int) -> int | None:
    """Return how many stitches a round makes in the part that is counted, None where that isn't sure."""
    round_ = case.pattern.rounds[index]
    if claim.unit == PARTS_COUNTED[0]:
        return _between_markers(round_.steps, size)
    own = case.workings.rounds[index].sizes[size]
    if own is None or not own.sure or own.count is None or not _parted(round_):
        return None
    return own.count // 2 if own.count % 2 == 0 else _longer_half(own.count, claim.figure.at(size))


def _longer_half(count: int, stated: int | None) -> int:
    """Return the half of an odd count that is not what is stated, so that it is told."""
    return count // 2 + (stated == count // 2)


def _parted(round_: Round) -> bool:
    """Tell whether stitches are bound off or held once in the middle of a row, so that it falls into two sides."""
    works = [step for step in round_.steps if not isinstance(step, Remark | Join)]
    bound = [n for n, step in enumerate(works) if isinstance(step, Work) and _parts(step)]
    return len(bound) == 1 and 0 < bound[0] < len(works) - 1 and all(isinstance(step, Work) for step in works)


def _parts(step: Work) -> bool:
    return step.make.kind.startswith("bo") or (step.make.kind == "held" and not step.make.makes)


def _between_markers(steps: Sequence[Step], size: int) -> int | None:
    """Return the stitches made between the only two markers of a round."""
    marks = [n for n, step in enumerate(steps) if isinstance(step, Marker) and step.stays]
    if len(marks) != 2:
        return None
    made = 0
    for step in steps[marks[0] + 1 : marks[1]]:
        if isinstance(step, Remark):
            continue
        if not isinstance(step, Work) or step.where.at is not At.NEXT or step.where.number is None:
            return None
        number, times = step.where.number.at(size), step.times.at(size)
        if number is None or times is None:
            return None
        made += number * times * step.make.makes
    return made or None


# ---------------------------------------------------------------- increases and decreases told

_LIST = r"\d{1,3}(?:[ \t]*(?:[)\]][ \t]*[(\[]|[(\[,:/-])[ \t]*\d{1,3}){0,16}[ \t]*[)\]]?"
_TOLD = later(
    rf"(?i)(?<![\w.])(?P<list>{_LIST})[ \t]*(?:sts?|stitches|sc|hdc|dc|tr)?[ \t]*(?:were[ \t]+|have[ \t]+been[ \t]+)?"
    r"(?P<kind>dec|inc)(?:reased|['\u2019]?d)\b"
)
_DIGITS = later(r"\d+")


_TELLS_CHANGE = tuple(f"{kind}{ending}" for kind in ("dec", "inc") for ending in ("reased", "'d", "\u2019d", "d"))


def _change_differs(case: Case) -> Iterator[Said]:
    if not case.says(*_TELLS_CHANGE):
        return
    sizes = case.pattern.sizes.number
    for index, (round_, working) in enumerate(zip(case.pattern.rounds, case.workings.rounds, strict=True)):
        match = _TOLD.search(case.draft.text, round_.span.start, round_.span.end)
        if match is None or any(own is not None and own.agrees is False for own in working.sizes):
            continue
        told = [int(one) for one in _DIGITS.findall(match["list"])]
        if len(told) not in (1, sizes):
            continue
        sign = -1 if match["kind"].lower() == "dec" else 1
        off = {
            size: (sign * change, told[min(size, len(told) - 1)])
            for size, own in enumerate(working.sizes)
            if (change := _change(own)) is not None and sign * change != told[min(size, len(told) - 1)]
        }
        if off:
            span = Span(match.start(), match.end())
            verb = "takes away" if sign < 0 else "adds"
            made = figures_by_size(case, list(off), [change for change, _ in off.values()], "sts")
            says = join_words(list(dict.fromkeys(str(one) for _, one in off.values())))
            yield Said(
                span,
                f"{round_name(round_)} {verb} {made}, the draft says {says}",
                sizes=all_or(case, list(off)),
                sum=pencil_sum(case, index, list(off)[:1]),
            )


def _change(own: SizeWorking | None) -> int | None:
    """Return by how much a single round surely changes the count, None where it doesn't or isn't sure to."""
    if own is None or not own.sure or own.count is None or own.before is None or own.rounds != 1:
        return None
    return own.count - own.before if own.count != own.before and not own.left and not own.short else None


# ---------------------------------------------------------------- eyelets and buttonholes

_HOLES = later(rf"(?i)(?<![\w.])(?P<list>{_LIST})[ \t]+(?P<what>eyelets|buttonholes)\b")
_CORD = later(
    r"(?i)\b(?:cord|ribbon|drawstring|tie|lace)\b[^.\n]{0,40}\b(?:in\s+and\s+out|through)\b[^.\n]{0,30}\b(?:eyelets|holes)\b"
    r"[^.\n]{0,40}\bboth\s+ends\b[^.\n]{0,30}\b(?:RS|right\s+side|front|outside|same\s+side)\b"
)


def _holes(own: SizeWorking | None) -> int | None:
    """Return how many yarn overs a round makes, None where it wasn't worked."""
    if own is None or own.count is None:
        return None
    return dict(own.kinds).get("yo")


def _holes_differ(case: Case) -> Iterator[Said]:
    if not case.says("eyelets", "buttonholes"):
        return
    sizes = case.pattern.sizes.number
    for index, (round_, working) in enumerate(zip(case.pattern.rounds, case.workings.rounds, strict=True)):
        match = _HOLES.search(case.draft.text, round_.heading.end, round_.span.end)
        if match is None or round_.directive is not None:
            continue
        told = [int(one) for one in _DIGITS.findall(match["list"])]
        made = [_holes(own) for own in working.sizes]
        if len(told) not in (1, sizes) or None in made or not all(own and own.sure for own in working.sizes):
            continue
        numbers = [one or 0 for one in made]
        wanted = [told[min(size, len(told) - 1)] for size in range(sizes)]
        off = [size for size in range(sizes) if numbers[size] not in (wanted[size], 2 * wanted[size])]
        if off:
            what = match["what"].lower()
            words = figures_by_size(case, off, [numbers[size] for size in off], "yarn overs")
            says = join_words(list(dict.fromkeys(str(wanted[size]) for size in off)))
            yield Said(
                Span(*match.span()),
                f"{round_name(round_)} makes {words}, the draft says {says} {what}",
                sizes=all_or(case, off),
                sum=pencil_sum(case, index, off[:1]),
            )


def _cord_ends(case: Case) -> Iterator[Said]:
    text = case.draft.text
    for match in _CORD.finditer(text) if case.says("eyelets", "holes") else ():
        rows = [
            (round_, number)
            for round_, working in zip(case.pattern.rounds, case.workings.rounds, strict=True)
            if round_.span.start < match.start()
            and re.search(r"(?i)\beyelets?\b", case.draft.words(round_.span))
            and (number := _holes(working.sizes[0]))
        ]
        if len(rows) == 1 and rows[0][1] % 2:
            round_, number = rows[0]
            message = (
                f"{round_name(round_)} makes {number_of(number, 'eyelets')}, and a cord that goes in and out of an odd "
                "number ends on both sides"
            )
            yield Said(round_.heading, message)


# ---------------------------------------------------------------- the rules

_BAND = "Cast on 40 sts and join.\nRnd 1: K19, pm, k2, pm, k19. 40 sts.\n"
_HAT = "Cast on 72 sts and join.\nRnd 1: Knit. 72 sts.\n"

PART_COUNT_DIFFERS = Rule(
    name="part-count-differs",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="The number of stitches told between the markers, or on each side, is not the number that the words give.",
    why="It is the number that the maker checks a gusset or a neck by.",
    limits="Only where two markers stand in the round and every stitch between them is given by a number, or where the "
    "row binds off once in its middle.",
    source=_PRACTICE,
    examples=(
        Flags(f"{_BAND}Rnd 2: K19, slm, m1, k2, m1, slm, k19. ⟦5 sts between markers⟧.\n"),
        Flags("Cast on 54 sts.\nRow 1: Knit. 54 sts.\nRow 2: K20, bind off 12 sts, k to end. ⟦20 sts each side⟧.\n"),
        Passes(f"{_BAND}Rnd 2: K19, slm, m1, k2, m1, slm, k19. 4 sts between markers.\n"),
        Passes(f"{_BAND}Rnd 2: K to marker, slm, k to marker, slm, k to end. 5 sts between markers.\n"),
        Passes("Cast on 54 sts.\nRow 1: Knit. 54 sts.\nRow 2: K21, bind off 12 sts, k to end. 21 sts each side.\n"),
    ),
    check=_part_differs,
)

CHANGE_DIFFERS = Rule(
    name="change-differs",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="The number of stitches that a round is said to have increased or decreased is not what its words give.",
    why="A maker who checks by it looks for a slip of their own that isn't there.",
    limits="Only for a single round that was worked in full on a row that is known, and that changes the count. Silent "
    "where the stated count differs, of which count-differs speaks.",
    source=_PRACTICE,
    examples=(
        Flags(f"{_HAT}Rnd 2: *K6, k2tog; rep from * to end. 63 sts, ⟦8 sts dec'd⟧.\n"),
        Flags(f"{_HAT}Rnd 2: *K6, m1; rep from * to end. (⟦8 sts increased⟧)\n"),
        Passes(f"{_HAT}Rnd 2: *K6, k2tog; rep from * to end. 63 sts, 9 sts dec'd.\n"),
        Passes(f"{_HAT}Rnd 2: *K6, m1; rep from * to end. (12 sts increased)\n"),
        Passes(f"{_HAT}Rnds 2-3: *K2tog, k7; rep from * to end. (8 sts decreased)\n"),
    ),
    check=_change_differs,
)

HOLES_DIFFER = Rule(
    name="eyelets-differ",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="The number of eyelets or buttonholes told of a round is not the number of yarn overs that it makes.",
    why="Cords, buttons and picots are counted by it.",
    limits="Only where the round was worked on a row that is known. Two yarn overs to a hole are accepted.",
    source=_PRACTICE,
    examples=(
        Flags(f"{_HAT}Rnd 2: *K7, yo, k2tog; rep from * to end (⟦9 eyelets⟧).\n"),
        Passes(f"{_HAT}Rnd 2: *K7, yo, k2tog; rep from * to end (8 eyelets).\n"),
        Passes(f"{_HAT}Rnd 2: *K6, yo, yo, k2tog; rep from * to end (9 eyelets).\n"),
        Passes("Rnd 2: *K7, yo, k2tog; rep from * to end (9 eyelets).\n"),
    ),
    check=_holes_differ,
)

CORD_ENDS = Rule(
    name="cord-ends-apart",
    family="making",
    level=Level.QUERY,
    finds="A cord goes in and out of an odd number of eyelets, and both its ends are to come out on one side.",
    why="It changes sides at every eyelet, so that after an odd number its ends lie on opposite sides.",
    limits="Only where one round makes the eyelets and its yarn overs are known.",
    source="arithmetic: a thread that changes sides at each hole is back after an even number of them",
    examples=(
        Flags(
            "Cast on 63 sts and join.\n⟦Eyelet rnd⟧: *K7, yo, k2tog; rep from * to end.\n"
            "Thread the cord in and out of the eyelets so that both ends are on the RS.\n"
        ),
        Passes(
            "Cast on 72 sts and join.\nEyelet rnd: *K7, yo, k2tog; rep from * to end.\n"
            "Thread the cord in and out of the eyelets so that both ends are on the RS.\n"
        ),
        Passes(
            "Cast on 63 sts and join.\nEyelet rnd: *K7, yo, k2tog; rep from * to end.\n"
            "Thread the cord in and out of the eyelets and tie it.\n"
        ),
        Passes(
            "Eyelet rnd: *K7, yo, k2tog; rep from * to end.\n"
            "Thread the cord in and out of the eyelets so that both ends are on the RS.\n"
        ),
    ),
    check=_cord_ends,
)

RULES = (PART_COUNT_DIFFERS, CHANGE_DIFFERS, HOLES_DIFFER, CORD_ENDS)
