"""Sequence: declared rounds that are written too, totals of rows, sides, and work to a measurement."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import zip_longest

from ..lint.draft import Span
from ..lint.finding import Aside, Level
from ..lint.later import later
from ..lint.pattern import Directive, RepeatRounds, Round, Side, WorkEven
from ..lint.steps import Unread
from .numbering import (
    Link,
    Part,
    declared,
    elides,
    is_for,
    noun,
    numbers_of,
    parts,
    repeats_rows,
    worked_alike,
)
from .repeats_of_rounds import repeated_totals
from .rule import Case, Flags, Passes, Rule, Said

_FAMILY = "sequence"

# ---------------------------------------------------------------- declared and written too


def _elided_again(case: Case) -> Iterator[tuple[Round, Round, bool]]:
    """Yield each round that declares others with a round that it covers and that is written too.

    Only up to the next declaration. The flag tells whether no round is left out from there to the end of the part.
    """
    for part in parts(case):
        declaring = [index for index in part.indices if part.round(index).elided is not None]
        chains = [part.links(size) for size in range(case.pattern.sizes.number)] if declaring else []
        for index, end in zip_longest(declaring, declaring[1:], fillvalue=len(case.pattern.rounds)):
            round_ = part.round(index)
            if round_.elided is None or re.search(r"(?i)unless|except|otherwise", round_.label):
                continue
            size = next((size for size in range(case.pattern.sizes.number) if is_for(round_, size)), 0)
            later = [link for link in chains[size] if index < link.index < end]
            whole = _whole_from({number for link in later for number in link.numbers})
            for link in later:
                number = link.numbers[0]
                if len(link.numbers) == 1 and elides(round_.elided, round_, number, size, bounded=True):
                    yield round_, part.round(link.index), number >= whole


def _whole_from(numbers: set[int]) -> int:
    """Return the lowest number from which none is left out up to the highest."""
    low = max(numbers, default=0)
    while low - 1 in numbers:
        low -= 1
    return low


def _is_read(round_: Round) -> bool:
    return (
        bool(round_.steps) and round_.directive is None and not any(isinstance(step, Unread) for step in round_.steps)
    )


def _check_overlap(case: Case) -> Iterator[Said]:
    for declaring, written, to_end in _elided_again(case):
        if to_end or not (_is_read(declaring) and _is_read(written)) or worked_alike(declaring.steps, written.steps):
            continue
        word = noun(written)
        number = numbers_of(written, (written.sizes or (0,))[0])[0]
        message = (
            f"{word} {number} is written here and also declared with {case.words(declaring.heading)}, with other steps"
        )
        yield Said(written.heading, message, asides=(Aside(declaring.heading, "declared here"),))


def _check_end(case: Case) -> Iterator[Said]:
    told: set[Span] = set()
    for declaring, written, to_end in _elided_again(case):
        if not to_end or declaring.heading in told or worked_alike(declaring.steps, written.steps):
            continue
        if declaring.elided is not None and declaring.elided.last is not None:
            continue
        if isinstance(written.directive, RepeatRounds) and written.directive.first in numbers_of(declaring, 0):
            continue  # `Row 8: As Row 2.`
        told.add(declaring.heading)
        word = noun(written)
        number = numbers_of(written, (written.sizes or (0,))[0])[0]
        message = (
            f"every {word} is written from {word} {number} on; nothing says where {case.words(declaring.heading)} stops"
        )
        yield Said(written.heading, message, asides=(Aside(declaring.heading, "declared here"),))


# ---------------------------------------------------------------- totals, sides, loops


def _check_total(case: Case) -> Iterator[Said]:
    for round_ in case.pattern.rounds:
        stated = round_.rounds_stated
        if stated is None or not _is_total(case, stated.span):
            continue
        differ: list[tuple[int, int, int]] = []
        for size in range(case.pattern.sizes.number):
            numbers, says = numbers_of(round_, size), stated.at(size)
            covered = len(numbers)
            if numbers[:1] == (2,) and says == covered + 1 and isinstance(round_.directive, RepeatRounds):
                continue  # `Rows 2-12: Rep row 1. (12 rows)`: with the one that is repeated
            if is_for(round_, size) and says is not None and covered > 1 and covered != says:
                differ.append((size, covered, says))
        if differ:
            size, covered, says = differ[0]
            whole = len(differ) == case.pattern.sizes.number
            message = f"{case.words(round_.heading)} covers {covered} {noun(round_)}s; {says} are stated"
            yield Said(stated.span, message, sizes=() if whole else tuple(one[0] for one in differ))


def _is_total(case: Case, span: Span) -> bool:
    """Tell whether a number counts the rounds of its heading: `(8 rounds)`, `for 8 rounds`, `these 2`."""
    text = case.draft.text
    after = re.match(r"(?i)\s*(?:rounds?|rnds?|rows?|rds?)\s*(?P<close>[)\]}])?", text[span.end : span.end + 12])
    before = text[max(0, span.start - 8) : span.start]
    if after is None:
        return False
    bracketed = bool(after["close"]) and bool(re.search(r"[(\[{]\s*$", before))
    return bracketed or bool(re.search(r"(?i)\b(?:for|these)\s+$", before))


_UNTURNED = later(
    r"(?i)\b(?:do not turn|don't turn|without turning|not turn|slide|fasten off|finish off|cut|break|rejoin|"
    r"re-join|join (?:new|yarn|with|in)|attach|new yarn|return to|same side|facing)\b"
)


def _check_side(case: Case) -> Iterator[Said]:
    told: set[int] = set()
    if all(round_.side is None for round_ in case.pattern.rounds):
        return
    for part in parts(case):
        for size in range(case.pattern.sizes.number):
            for stretch in _stretches(part, size):
                found = _odd_side(part, stretch)
                if found is None or found[0] in told:
                    continue
                told.add(found[0])
                yield found[1]


def _stretches(part: Part, size: int) -> Iterator[list[tuple[Link, Side]]]:
    """Yield runs of marked headings between which every row has a number and is turned."""
    run: list[tuple[Link, Side]] = []
    last: int | None = None
    for link in part.links(size):
        round_ = part.round(link.index)
        broken = last is None or link.unnumbered != frozenset({0}) or link.first <= last or link.talk
        if last is not None and any(
            n not in part.written(size) and not declared(part, n, size) for n in range(last, link.first)
        ):
            broken = True
        if broken:
            yield run
            run = []
        if round_.side is not None:
            run.append((link, round_.side))
        if run and _UNTURNED.search(
            part.case.draft.text[round_.heading.end : max(round_.heading.end, round_.span.end)]
        ):
            yield run
            run = []
        last = link.last
    yield run


def _odd_side(part: Part, run: Sequence[tuple[Link, Side]]) -> tuple[int, Said] | None:
    """Find the one mark of a run that is out of step, or the first after which all are."""
    phases = [(link.first + (side is Side.WRONG)) % 2 for link, side in run]
    flat = all(part.round(link.index).flat for link, _ in run)
    if len(set(phases)) < 2 or (not flat and (len(run) < 4 or len({side for _, side in run}) < 2)):
        return None
    changes = [at for at in range(1, len(phases)) if phases[at] != phases[at - 1]]
    if len(changes) == 1:
        at = 0 if changes[0] == 1 and len(phases) > 2 else changes[0]
    elif len(changes) == 2 and changes[1] == changes[0] + 1 and len(phases) > 3:
        at = changes[0]
    else:
        return None
    link, side = run[at]
    other, its = run[at - 1] if at else run[1]
    word = noun(part.round(link.index))
    level = None if len(run) > 2 else Level.QUERY
    message = (
        f"{word} {link.first} is marked {side.value}, but {word} {other.first} is {its.value}: "
        "the sides don't alternate"
    )
    return link.index, Said(part.round(link.index).heading, message, level=level)


_ENDING = later(
    r"(?i)\b(?:end(?:ing|s)?|finish(?:ing)?|last)\b[^.\n]{0,40}\b(?:ws|rs|wrong|right|row|rnd|round|after|with|on)\b|\bmultiple\b"
)


def _check_loop(case: Case) -> Iterator[Said]:
    rounds = case.pattern.rounds
    for index, round_ in enumerate(rounds[:-1]):
        directive, after = round_.directive, rounds[index + 1]
        if (
            directive is None
            or not directive.measured
            or _is_counted(directive)
            or after.section != round_.section
            or round_.first is not None
        ):
            continue
        if isinstance(directive, RepeatRounds) and (directive.ending is not None or directive.then):
            continue
        between = case.draft.text[round_.span.start : after.heading.start]
        if _ENDING.search(between):
            continue
        yield from _unreached(case, index, round_, after)


def _is_counted(directive: Directive) -> bool:
    return isinstance(directive, WorkEven) and directive.rounds is not None


def _unreached(case: Case, index: int, round_: Round, after: Round) -> Iterator[Said]:
    """Judge the row after work to a measurement: may a maker not have come to its number or side."""
    directive = round_.directive
    word = noun(after)
    size = (after.sizes or (0,))[0]
    earlier = [n for one in case.pattern.rounds[:index] if one.section == round_.section for n in numbers_of(one, size)]
    numbers = numbers_of(after, size)
    if numbers and earlier and numbers[0] > max(earlier) + 1:
        message = (
            f"{word} {numbers[0]} comes after work to a measurement; a maker may not have reached "
            f"{word} {numbers[0] - 1}"
        )
        yield Said(after.heading, message)
    elif after.side is not None and (isinstance(directive, WorkEven) or repeats_rows(directive) % 2 == 1):
        message = (
            f"{'an' if after.side is Side.RIGHT else 'a'} {after.side.value} row comes after work to "
            "a measurement; nothing says on which side that ends"
        )
        yield Said(after.heading, message)


# ---------------------------------------------------------------- the rulebook

RULES = (
    Rule(
        name="elision-end-unstated",
        family=_FAMILY,
        level=Level.QUERY,
        finds=(
            "Alternate rounds are declared, but from some round on every round is written and "
            "nothing says that it stops there."
        ),
        why="A maker who goes by the declaration puts plain rounds between the written ones.",
        limits=(
            "Silent where the declaration names its end, allows for exceptions, or the round is "
            "written with the same steps."
        ),
        source="Usage of the trade: a declaration of unwritten rounds says how far it reaches.",
        examples=(
            Flags(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2 and every alternate rnd: sc in each st around.\n"
                "Rnd 3: inc around. (12)\n"
                "Rnd 5: (sc, inc) x 6. (18)\n⟦Rnd 6⟧: (sc 2, inc) x 6. (24)\nRnd 7: (sc 3, inc) x 6. (30)\n"
            ),
            Passes(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2 and every alternate rnd: sc in each st around.\n"
                "Rnd 3: inc around. (12)\nRnd 5: (sc, inc) x 6. (18)\n"
            ),
            Passes(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2 (and all even rnds to 4): sc in each st around.\n"
                "Rnd 3: inc around. (12)\n"
                "Rnd 5: (sc, inc) x 6. (18)\nRnd 6: (sc 2, inc) x 6. (24)\nRnd 7: (sc 3, inc) x 6. (30)\n"
            ),
            Passes(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2 and every alternate rnd: sc in each st around.\n"
                "Rnd 3: inc around. (12)\n"
                "Rnd 4: sc in each st around. (12)\nRnd 5: (sc, inc) x 6. (18)\n"
            ),
        ),
        check=_check_end,
    ),
    Rule(
        name="elision-overlaps",
        family=_FAMILY,
        level=Level.CORRECTION,
        finds="A round is declared with the alternate ones and also written out, with other steps.",
        why="The draft gives two instructions for one round.",
        limits=(
            "Only where both were read whole. Silent where the declaration allows for exceptions; "
            "where every round is "
            "written from there on, it is elision-end-unstated."
        ),
        source="Usage of the trade: a declaration holds for every round that it covers.",
        examples=(
            Flags(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2 and every alternate rnd: sc in each st around.\n"
                "Rnd 3: inc around. (12)\n"
                "⟦Rnd 4⟧: (sc, inc) x 6. (18)\nRnd 5: (sc 2, inc) x 6. (24)\nRnd 7: (sc 3, inc) x 6. (30)\n"
            ),
            Passes(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2 and every alternate rnd: sc in each st around.\n"
                "Rnd 3: inc around. (12)\n"
                "Rnd 4: sc in each st around. (12)\nRnd 5: (sc 2, inc) x 4. (16)\n"
                "Rnd 7: (sc 3, inc) x 4. (20)\n"
            ),
            Passes(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2 (and all even rnds unless told otherwise): sc in "
                "each st around.\n"
                "Rnd 3: inc around. (12)\nRnd 4: (sc, inc) x 6. (18)\n"
                "Rnd 5: (sc 2, inc) x 6. (24)\nRnd 7: (sc 3, inc) x 6. (30)\n"
            ),
            Passes(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2 and every alternate rnd: sc in each st around.\n"
                "Rnd 3: inc around. (12)\nRnd 5: (sc, inc) x 6. (18)\n"
            ),
        ),
        check=_check_overlap,
    ),
    Rule(
        name="rows-total-differs",
        family=_FAMILY,
        level=Level.CORRECTION,
        finds=(
            "A stated number of rounds, or those that a repeat works, are not as many as the heading covers: "
            "`Rnds 9-16 (7 rounds)`, `Rnds 4-19: rep rnds 2 and 3 six times more`."
        ),
        why="One of the two figures is wrong, and the piece comes out too long or too short.",
        limits=(
            "Only for headings that cover more than one round, and totals in brackets or after `for` or `these`. "
            "A number of times may count the first time or not, unless the draft says `more`; a query where it would "
            "fit then."
        ),
        source="Arithmetic: rounds a to b are b - a + 1 rounds.",
        examples=(
            Flags("Rnd 8: sc around. (24)\nRnds 9-16 (⟦7⟧ rounds): sc around. (24)\nRnd 17: sc around. (24)\n"),
            Flags(
                "Rnd 1: 12 sc in magic ring. (12)\nRnd 2: dc around. (12)\nRnd 3: sc around. (12)\n"
                "Rnds 4-19: Rep rnds 2 and 3 ⟦six times more⟧. (12)\n"
            ),
            Passes(
                "Rnd 1: 12 sc in magic ring. (12)\nRnd 2: dc around. (12)\nRnd 3: sc around. (12)\n"
                "Rnds 4-19: Rep rnds 2 and 3 eight times more. (12)\n"
            ),
            Passes(
                "Rnd 1: 12 sc in magic ring. (12)\nRnd 2: dc around. (12)\nRnd 3: sc around. (12)\n"
                "Rnds 4-19: Rep rnds 2 and 3 nine times in all. (12)\n"
            ),
            Passes("Rnd 8: sc around. (24)\nRnds 9-16 (8 rounds): sc around. (24)\n"),
            Passes("Rnd 8: sc around. (24)\nRnd 9: sc around for 8 rounds. (24)\n"),
            Passes("Rnd 8: sc around. (24)\nRnds 9-16: sc around, changing colour after row 12. (24)\n"),
        ),
        check=lambda case: (*_check_total(case), *repeated_totals(case)),
    ),
    Rule(
        name="side-out-of-step",
        family=_FAMILY,
        level=Level.CORRECTION,
        finds="A row is marked RS or WS though the rows counted from another mark put it on the other side.",
        why="Textured stitches end up on the wrong side of the fabric.",
        limits=(
            "Only where every row between is numbered or declared and the work is turned; a stretch "
            "ends where the yarn is "
            "cut or joined anew or the work isn't turned. A query where only two rows are marked; "
            "rounds need four marks."
        ),
        source="Rows worked to and fro show the right and the wrong side by turns.",
        examples=(
            Flags(
                "Row 1 (RS): ch 11, sc in 2nd ch from hook and in each ch to end, turn. (10)\n"
                "Row 2 (WS): sc in each st to end, turn. (10)\n"
                "Row 3 (RS): sc in each st to end, turn. (10)\n"
                "⟦Row 4 (RS)⟧: sc in each st to end, turn. (10)\n"
                "Row 5 (RS): sc in each st to end, turn. (10)\n"
            ),
            Passes(
                "Row 1 (RS): ch 11, sc in 2nd ch from hook and in each ch to end, turn. (10)\n"
                "Rows 2-4: sc in each st to end, turn. (10)\n"
                "Row 5 (RS): sc in each st to end, turn. (10)\nRow 6 (WS): sc in each st to end, turn. (10)\n"
            ),
            Passes(
                "Row 1 (RS): ch 11, sc in 2nd ch from hook and in each ch to end. Fasten off.\n"
                "Row 2 (RS): join yarn, sc in each st to end. (10)\n"
                "Row 3 (WS): sc in each st to end, turn. (10)\n"
            ),
            Passes(
                "Rnd 1 (RS): 12 sc in magic ring, join. (12)\nRnd 2 (RS): sc around, join. (12)\n"
                "Rnd 3 (RS): sc around, join. (12)\n"
            ),
        ),
        check=_check_side,
    ),
    Rule(
        name="next-row-after-loop",
        family=_FAMILY,
        level=Level.QUERY,
        finds=(
            "Rows are worked until a measurement, and the row after that has a number or a side that "
            "may not be reached."
        ),
        why="Makers stop at different rows, and the next instruction fits only some of them.",
        limits=(
            "Silent where the draft says on which row or side to end, where whole pairs of rows are "
            "repeated, and where the "
            "numbers simply go on."
        ),
        source="Usage of the trade: `ending with a WS row` says where such work stops.",
        examples=(
            Flags(
                "Row 1: ch 11, sc in 2nd ch from hook and in each ch to end, turn. (10)\n"
                "Row 2: sc in each st to end, turn. (10)\n"
                "Rep row 2 until piece measures 10 cm.\n⟦Row 30⟧: sc in each st to end, turn. (10)\n"
            ),
            Passes(
                "Row 1: ch 11, sc in 2nd ch from hook and in each ch to end, turn. (10)\n"
                "Row 2: sc in each st to end, turn. (10)\n"
                "Rep row 2 until piece measures 10 cm, ending with row 29.\n"
                "Row 30: sc in each st to end, turn. (10)\n"
            ),
            Passes(
                "Row 1 (RS): ch 11, sc in 2nd ch from hook and in each ch to end, turn. (10)\n"
                "Row 2: sc in each st to end, turn. (10)\n"
                "Row 3: sc in each st to end, turn. (10)\nRep rows 2 and 3 until piece measures 10 cm.\n"
                "Next row (WS): sc in each st to end, turn. (10)\n"
            ),
            Passes("Rnd 1: 12 sc in magic ring. (12)\nRep rnd 1 until piece measures 10 cm.\nRnd 2: sc around. (12)\n"),
        ),
        check=_check_loop,
    ),
)
