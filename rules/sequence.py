"""Sequence: are rows and rounds numbered one after the other, and do elided rounds and sides keep in step."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from ..lint.draft import Span
from ..lint.finding import Aside, Level
from ..lint.pattern import Directive, RepeatRounds, Round, Side, Unread, WorkEven
from .numbering import (
    Link,
    Part,
    declared,
    elides,
    elision_unread,
    is_for,
    links,
    noun,
    numbers_of,
    parts,
    repeats_rows,
    speaks_of_alternate,
    starts_anew,
    worked_alike,
)
from .rule import Case, Flags, Passes, Rule, Said

_FAMILY = "sequence"
_SKIPPED, _TWICE, _ORDER, _ELISION = "number-skipped", "number-twice", "number-out-of-order", "elision-unstated"


@dataclass(frozen=True, slots=True)
class _Slip:
    """A slip in the numbers as one size meets it."""

    rule: str
    index: int
    message: str
    level: Level | None = None
    other: int | None = None  # the round that it clashes with


# ---------------------------------------------------------------- numbers


def _said(case: Case, rule: str) -> Iterator[Said]:
    """Gather the slips of all sizes: one finding a heading."""
    every = case.pattern.sizes.number
    for part in parts(case):
        found: dict[int, tuple[_Slip, list[int]]] = {}
        for size in range(every):
            for slip in _slips(part, size):
                if slip.rule == rule:
                    found.setdefault(slip.index, (slip, []))[1].append(size)
        for slip, sizes in found.values():
            round_ = part.round(slip.index)
            concerned = [size for size in range(every) if is_for(round_, size)]
            if rule == _TWICE and len(sizes) < len(concerned):
                continue
            asides = (Aside(part.round(slip.other).heading, "used here first"),) if slip.other is not None else ()
            shown = () if len(sizes) == every else tuple(sizes)
            yield Said(round_.heading, slip.message, sizes=shown, level=slip.level, asides=asides)


def _slips(part: Part, size: int) -> list[_Slip]:
    """Go through the numbers of a part for one size and note what is out of step."""
    chain = links(part, size)
    elided = _elision(part, chain, size)
    slips = [] if elided is None else [elided[0]]
    skipping = elided[1] if elided else frozenset[int]()
    seen: dict[int, int] = {}
    last = 0
    for at, link in enumerate(chain):
        after = chain[at + 1] if at + 1 < len(chain) else None
        if at and link.index not in skipping:
            slip, counted = _step(part, chain[at - 1], link, after, last, seen, size)
            slips.extend([slip] if slip else [])
        else:
            counted = link.last
        if len(link.numbers) > 1 and (gap := _inner_gap(part, link, size)) and link.index not in skipping:
            slips.append(gap)
        for number in link.numbers:
            seen.setdefault(number, link.index)
        last = counted
    return slips


def _step(
    part: Part, before: Link, link: Link, after: Link | None, last: int, seen: dict[int, int], size: int
) -> tuple[_Slip | None, int]:
    """Judge a heading after the one before it: what is wrong, and the number to count on from."""
    word = noun(part.round(link.index))
    allowed = None if link.unnumbered is None else {last + 1 + more for more in link.unnumbered}
    fresh = not any(number in seen for number in link.numbers)
    if allowed is None or link.first in allowed or (link.first <= last and fresh and _fills(part, link, size)):
        return None, max(link.last, last) if fresh and link.first <= last else link.last
    alone = len(link.numbers) == 1 and after is not None and after.first == last + 2 and not after.talk
    if link.first > last + 1:
        if alone and link.first > last + 2:
            message = f"{word} {link.first} stands between {word} {last} and {word} {last + 2}"
            return _Slip(_ORDER, link.index, message), last + 1
        return _gap(part, link, after, last, size), link.last
    if link.first == before.first - 1 and len(link.numbers) == 1 and before.first == before.last == last and fresh:
        message = f"{word} {link.first} follows {word} {last}"
        return _Slip(_ORDER, link.index, message), last
    if fresh:
        return (_Slip(_ORDER, link.index, f"{word} {link.first} follows {word} {last}"), last + 1) if alone else (None, link.last)
    return _back(part, link, last, seen, alone)


def _fills(part: Part, link: Link, size: int) -> bool:
    """Tell whether a lower number fills what `Rnds 5, 7, 9` before it left out."""
    earlier = [index for index in part.indices if index < link.index]
    return any(
        part.round(index).listed and min(numbers_of(part.round(index), size)) < link.first < part.round(index).listed[-1]
        for index in earlier
        if numbers_of(part.round(index), size)
    )


def _back(part: Part, link: Link, last: int, seen: dict[int, int], alone: bool) -> tuple[_Slip | None, int]:
    """Judge a heading whose number was used before."""
    word = noun(part.round(link.index))
    number = next(number for number in link.numbers if number in seen)
    first = seen[number]
    split = part.round(first).sizes != part.round(link.index).sizes
    if split:
        return None, max(last, link.last)
    if number == last or alone:
        message = f"{word} {number} is used twice"
        if alone and number != last:
            message += f"; {word} {last + 1} is missing"
        on = last + 1 if alone and len(link.numbers) == 1 else link.last
        return _Slip(_TWICE, link.index, message, other=first), on
    if starts_anew(part, link):
        return None, link.last
    message = f"{word} {number} comes again after {word} {last}"
    return _Slip(_TWICE, link.index, message, Level.QUERY, other=first), link.last


def _gap(part: Part, link: Link, after: Link | None, last: int, size: int) -> _Slip | None:
    """Judge a jump over numbers: None where something accounts for those left out."""
    missing = _unaccounted(part, range(last + 1, link.first), size)
    if after is not None and after.numbers == (last + 1,) and link.numbers == (last + 2,):
        return None  # two headings changed places; the second of them is the finding
    if not missing or (link.first == last + 2 and elision_unread(part)):
        return None
    word = noun(part.round(link.index))
    level = Level.QUERY if len(missing) > 1 and (link.talk or len(missing) > 4) else None
    message = f"{word} {link.first} follows {word} {last}; {_are_missing(word, missing)}"
    return _Slip(_SKIPPED, link.index, message, level)


def _inner_gap(part: Part, link: Link, size: int) -> _Slip | None:
    """Judge `Rnds 21 + 23`: what its list leaves out must stand somewhere."""
    missing = _unaccounted(part, [n for n in range(link.first, link.last) if n not in link.numbers], size)
    if not missing or elision_unread(part):
        return None
    word = noun(part.round(link.index))
    named = " and ".join(str(number) for number in link.numbers)
    return _Slip(_SKIPPED, link.index, f"{word}s {named} stand together; {_are_missing(word, missing)}")


def _unaccounted(part: Part, missing: Iterable[int], size: int) -> list[int]:
    """Return the numbers that are neither written for any size, nor declared, nor spoken of."""
    accounted = part.written | part.mentioned
    return [number for number in missing if number not in accounted and not declared(part, number, size)]


def _are_missing(word: str, missing: Sequence[int]) -> str:
    if len(missing) == 1:
        return f"{word} {missing[0]} is missing"
    if missing[-1] - missing[0] + 1 == len(missing) > 2:
        return f"{word}s {missing[0]}-{missing[-1]} are missing"
    return f"{word}s {', '.join(map(str, missing[:-1]))} and {missing[-1]} are missing"


# ---------------------------------------------------------------- elided rounds

def _elision(part: Part, chain: Sequence[Link], size: int) -> tuple[_Slip, frozenset[int]] | None:
    """Find a run of at least three headings of which every other number is left out, and nothing said of them.

    Return the slip and the headings that it accounts for.
    """
    headings = [(number, link) for link in chain for number in (link.numbers if _listed(link) else link.numbers[:1])]
    run: list[tuple[int, Link]] = []
    best: list[tuple[int, Link]] = []
    for number, link in headings:
        whole = len(link.numbers) == 1 or _listed(link)
        follows = run and whole and number == run[-1][0] + 2 and link.unnumbered == frozenset({0})
        run = [*run, (number, link)] if follows else [(number, link)]
        best = max(best, run, key=len)
    if len(best) < 3 or speaks_of_alternate(part):
        return None
    missing = [number + 1 for number, _ in best[:-1]]
    if len(_unaccounted(part, missing, size)) < len(missing):
        return None
    word = noun(part.round(best[0][1].index))
    parity = "odd" if best[0][0] % 2 else "even"
    message = f"from {word} {best[0][0]} to {word} {best[-1][0]} only {parity} {word}s are written; nothing says what the others are"
    slip = _Slip(_ELISION, best[1][1].index, message)
    return slip, frozenset(link.index for _, link in best)


def _listed(link: Link) -> bool:
    return len(link.numbers) > 1 and link.last - link.first + 1 != len(link.numbers)


def _elided_again(case: Case) -> Iterator[tuple[Round, Round, Part, bool]]:
    """Yield each round that declares others with a round that it covers and that is written too.

    The flag tells whether no round is left out from there to the end of the part.
    """
    for part in parts(case):
        for index in part.indices:
            round_ = part.round(index)
            if round_.elided is None or re.search(r"(?i)unless|except|otherwise", round_.label):
                continue
            size = next((size for size in range(case.pattern.sizes.number) if is_for(round_, size)), 0)
            later = [link for link in links(part, size) if link.index > index]
            for link in later:
                number = link.numbers[0]
                if len(link.numbers) == 1 and elides(round_.elided, round_, number, size, bounded=True):
                    rest = sorted(n for one in later for n in one.numbers if n >= number)
                    yield round_, part.round(link.index), part, rest == list(range(number, number + len(rest)))


def _is_read(round_: Round) -> bool:
    return bool(round_.steps) and round_.directive is None and not any(isinstance(step, Unread) for step in round_.steps)


def _check_overlap(case: Case) -> Iterator[Said]:
    for declaring, written, _, to_end in _elided_again(case):
        if to_end or not (_is_read(declaring) and _is_read(written)) or worked_alike(declaring.steps, written.steps):
            continue
        word = noun(written)
        number = numbers_of(written, (written.sizes or (0,))[0])[0]
        message = f"{word} {number} is written here and also declared with {case.words(declaring.heading)}, with other steps"
        yield Said(written.heading, message, asides=(Aside(declaring.heading, "declared here"),))


def _check_end(case: Case) -> Iterator[Said]:
    told: set[Span] = set()
    for declaring, written, _, to_end in _elided_again(case):
        if not to_end or declaring.heading in told or worked_alike(declaring.steps, written.steps):
            continue
        if declaring.elided is not None and declaring.elided.last is not None:
            continue
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
            covered, says = len(numbers_of(round_, size)), stated.at(size)
            if is_for(round_, size) and says is not None and covered > 1 and covered != says:
                differ.append((size, covered, says))
        if differ:
            size, covered, says = differ[0]
            whole = len(differ) == case.pattern.sizes.number
            message = f"{case.words(round_.heading)} covers {covered} {noun(round_)}s; {says} are stated"
            yield Said(stated.span, message, sizes=() if whole else tuple(one[0] for one in differ))


def _is_total(case: Case, span: Span) -> bool:
    """Tell whether a number counts the rounds of its heading: `(8 rounds)`, `for 8 rounds`, `these 2 rnds`."""
    text = case.draft.text
    after = re.match(r"(?i)\s*(?:rounds?|rnds?|rows?|rds?)\s*(?P<close>[)\]}])?", text[span.end : span.end + 12])
    before = text[max(0, span.start - 8) : span.start]
    if after is None:
        return False
    bracketed = bool(after["close"]) and bool(re.search(r"[(\[{]\s*$", before))
    return bracketed or bool(re.search(r"(?i)\b(?:for|these)\s+$", before))


_UNTURNED = re.compile(
    r"(?i)\b(?:do not turn|don't turn|without turning|not turn|slide|fasten off|finish off|cut|break|rejoin|re-join|join (?:new|yarn|with|in)|"
    r"attach|new yarn|return to|same side|facing)\b"
)


def _check_side(case: Case) -> Iterator[Said]:
    told: set[int] = set()
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
    for link in links(part, size):
        round_ = part.round(link.index)
        broken = last is None or link.unnumbered != frozenset({0}) or link.first <= last or link.talk
        if last is not None and any(n not in part.written and not declared(part, n, size) for n in range(last, link.first)):
            broken = True
        if broken:
            yield run
            run = []
        if round_.side is not None:
            run.append((link, round_.side))
        if _UNTURNED.search(part.case.draft.text[round_.heading.end : max(round_.heading.end, round_.span.end)]):
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
    message = f"{word} {link.first} is marked {side.value}, but {word} {other.first} is {its.value}: the sides don't alternate"
    return link.index, Said(part.round(link.index).heading, message, level=level)


_ENDING = re.compile(r"(?i)\b(?:end(?:ing|s)?|finish(?:ing)?|last)\b[^.\n]{0,40}\b(?:ws|rs|wrong|right|row|rnd|round|after|with|on)\b|\bmultiple\b")


def _check_loop(case: Case) -> Iterator[Said]:
    rounds = case.pattern.rounds
    for index, round_ in enumerate(rounds[:-1]):
        directive, after = round_.directive, rounds[index + 1]
        if directive is None or not directive.measured or _is_counted(directive) or after.section != round_.section or round_.first is not None:
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
        message = f"{word} {numbers[0]} comes after work to a measurement; a maker may not have reached {word} {numbers[0] - 1}"
        yield Said(after.heading, message)
    elif after.side is not None and (isinstance(directive, WorkEven) or repeats_rows(directive) % 2 == 1):
        message = f"{'an' if after.side is Side.RIGHT else 'a'} {after.side.value} row comes after work to a measurement; nothing says on which side that ends"
        yield Said(after.heading, message)


# ---------------------------------------------------------------- the rulebook


RULES = (
    Rule(
        name=_SKIPPED,
        family=_FAMILY,
        level=Level.CORRECTION,
        finds="A row or round number that is left out: round 7 follows round 5.",
        why="A maker can't tell whether a round is missing or only its number, and later references point wrongly.",
        limits="Silent where the number is declared (every alternate round), spoken of elsewhere in the part, written for "
        "another size, or where rounds without numbers, a repeat or a measurement may account for it. A part may begin at "
        "any number. A query where several numbers are missing and other words stand between.",
        source="Published corrections: labels and order of rounds are among the most common slips of the text.",
        examples=(
            Flags("Rnd 1: 6 sc in magic ring. (6)\nRnd 2: inc around. (12)\n⟦Rnd 4⟧: (sc, inc) x 6. (18)\n"),
            Flags("Rnd 1: 6 sc in magic ring. (6)\nRnd 2: inc around. (12)\n⟦Rnds 3 + 5⟧: sc around. (12)\nRnd 6: sc around. (12)\n"),
            Passes("Rnd 4: sc around. (24)\nRnd 5: sc around. (24)\nRep rnds 4 and 5 twice more.\nRnd 10: sc around. (24)\n"),
            Passes("Rnd 4: sc around. (24)\nRnd 5: sc around. (24)\nRep rnds 4 and 5 twice more.\nRnd 6: sc around. (24)\n"),
            Passes("Rnd 1: 6 sc in magic ring. (6)\n2nd and every alternate rnd: sc around.\n3rd rnd: inc around. (12)\n5th rnd: sc around. (12)\n"),
            Passes("Ch 4, join to form a ring.\nRnd 2: 12 sc in ring. (12)\nRnds 3, 5: sc around. (12)\nRnds 4, 6: sc around. (12)\nRnd 7: sc around. (12)\n"),
            Passes("Row 1: ch 11, sc in 2nd ch from hook and in each ch to end. (10)\nRow 2: sc in each st to end. (10)\nRep row 2 until piece measures 10 cm.\nRow 30: sc in each st to end. (10)\n"),
        ),
        check=lambda case: _said(case, _SKIPPED),
    ),
    Rule(
        name=_TWICE,
        family=_FAMILY,
        level=Level.CORRECTION,
        finds="A row or round number that is used for two rounds of one part.",
        why="A maker who keeps count by the numbers works one round too few, and `rep rnd 5` has two meanings.",
        limits="Silent where the two rounds are for different sizes, where numbering starts again at 1, and where words "
        "between may name another piece. A query where the numbers go back further than to the last one.",
        source="Published corrections: labels and order of rounds are among the most common slips of the text.",
        examples=(
            Flags("Rnd 1: 6 sc in magic ring. (6)\nRnd 2: inc around. (12)\n⟦Rnd 2⟧: (sc, inc) x 6. (18)\nRnd 3: sc around. (18)\n"),
            Flags("Rnd 1: 6 sc in magic ring. (6)\nRnds 2-5: sc around. (6)\n⟦Rnds 5-8⟧: sc around. (6)\nRnd 9: sc around. (6)\n"),
            Passes("Rnd 1: 6 sc in magic ring. (6)\nRnd 2: inc around. (12)\nRnd 1: 8 sc in magic ring. (8)\nRnd 2: inc around. (16)\n"),
            Passes("EAR\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: inc around. (12)\n\nTAIL\nRnd 2: 12 sc in magic ring. (12)\nRnd 3: sc around. (12)\n"),
            Passes("Sizes: Small, Large\n\nRnd 1: 6 sc in magic ring. (6)\nSmall only:\nRnd 2: sc around. (6)\nLarge only:\nRnd 2: inc around. (12)\n"),
        ),
        check=lambda case: _said(case, _TWICE),
    ),
    Rule(
        name=_ORDER,
        family=_FAMILY,
        level=Level.CORRECTION,
        finds="A row or round that stands out of its order: round 16 between rounds 5 and 7, or 6 after 7.",
        why="A maker works the rounds as they stand and can't tell whether the number or the place is wrong.",
        limits="Only where the headings before and after show which number is wrong; a longer run that goes back is left to "
        "number-twice.",
        source="Published corrections: labels and order of rounds are among the most common slips of the text.",
        examples=(
            Flags("Rnd 5: sc around. (12)\n⟦Rnd 16⟧: sc around. (12)\nRnd 7: sc around. (12)\nRnd 8: sc around. (12)\n"),
            Flags("Rnd 1: 6 sc in magic ring. (6)\nRnd 3: sc around. (6)\n⟦Rnd 2⟧: sc around. (6)\nRnd 4: sc around. (6)\n"),
            Passes("Rnds 5, 7, 9: sc around. (12)\nRnds 6, 8: sc around. (12)\nRnd 10: sc around. (12)\n"),
            Passes("Rnd 16: sc around. (12)\nRnd 17: sc around. (12)\n\nSLEEVE\nRnd 7: 12 sc in magic ring. (12)\nRnd 8: sc around. (12)\n"),
            Passes("Rnd 5: sc around. (12)\nRnds 6-16: sc around. (12)\nRnd 17: sc around. (12)\n"),
        ),
        check=lambda case: _said(case, _ORDER),
    ),
    Rule(
        name=_ELISION,
        family=_FAMILY,
        level=Level.CORRECTION,
        finds="Only odd (or only even) rounds are written, at least three of them, and nothing says what the others are.",
        why="A maker can't know whether the rounds between are plain, repeats or left out by mistake.",
        limits="Silent where the draft speaks anywhere of alternate, even, odd or wrong-side rounds, or of these numbers.",
        source="Usage of the trade: unwritten rounds are declared, as in `2nd and every alternate rnd`.",
        examples=(
            Flags("R1: 6 sc in magic ring. (6)\n⟦R3⟧: inc around. (12)\nR5: (sc, inc) x 6. (18)\nR7: (sc 2, inc) x 6. (24)\n"),
            Passes("Even rounds: sc around.\n\nR1: 6 sc in magic ring. (6)\nR3: inc around. (12)\nR5: (sc, inc) x 6. (18)\n"),
            Passes("R1: 6 sc in magic ring. (6)\nR2 (and all even rounds): sc around.\nR3: inc around. (12)\nR5: (sc, inc) x 6. (18)\nR7: sc around. (18)\n"),
            Passes("Rnd 1: 6 sc in magic ring. (6)\nRnd 2: sc around. Work rnds 4 and 6 like this.\nRnd 3: inc around. (12)\nRnd 5: (sc, inc) x 6. (18)\nRnd 7: sc around. (18)\n"),
        ),
        check=lambda case: _said(case, _ELISION),
    ),
    Rule(
        name="elision-end-unstated",
        family=_FAMILY,
        level=Level.QUERY,
        finds="Alternate rounds are declared, but from some round on every round is written and nothing says that it stops there.",
        why="A maker who goes by the declaration puts plain rounds between the written ones.",
        limits="Silent where the declaration names its end, allows for exceptions, or the round is written with the same steps.",
        source="Usage of the trade: a declaration of unwritten rounds says how far it reaches.",
        examples=(
            Flags(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2 and every alternate rnd: sc in each st around.\nRnd 3: inc around. (12)\n"
                "Rnd 5: (sc, inc) x 6. (18)\n⟦Rnd 6⟧: (sc 2, inc) x 6. (24)\nRnd 7: (sc 3, inc) x 6. (30)\n"
            ),
            Passes("Rnd 1: 6 sc in magic ring. (6)\nRnd 2 and every alternate rnd: sc in each st around.\nRnd 3: inc around. (12)\nRnd 5: (sc, inc) x 6. (18)\n"),
            Passes(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2 (and all even rnds to 4): sc in each st around.\nRnd 3: inc around. (12)\n"
                "Rnd 5: (sc, inc) x 6. (18)\nRnd 6: (sc 2, inc) x 6. (24)\nRnd 7: (sc 3, inc) x 6. (30)\n"
            ),
            Passes(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2 and every alternate rnd: sc in each st around.\nRnd 3: inc around. (12)\n"
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
        limits="Only where both were read whole. Silent where the declaration allows for exceptions; where every round is "
        "written from there on, it is elision-end-unstated.",
        source="Usage of the trade: a declaration holds for every round that it covers.",
        examples=(
            Flags(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2 and every alternate rnd: sc in each st around.\nRnd 3: inc around. (12)\n"
                "⟦Rnd 4⟧: (sc, inc) x 6. (18)\nRnd 5: (sc 2, inc) x 6. (24)\nRnd 7: (sc 3, inc) x 6. (30)\n"
            ),
            Passes(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2 and every alternate rnd: sc in each st around.\nRnd 3: inc around. (12)\n"
                "Rnd 4: sc in each st around. (12)\nRnd 5: (sc 2, inc) x 4. (16)\nRnd 7: (sc 3, inc) x 4. (20)\n"
            ),
            Passes(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2 (and all even rnds unless told otherwise): sc in each st around.\n"
                "Rnd 3: inc around. (12)\nRnd 4: (sc, inc) x 6. (18)\nRnd 5: (sc 2, inc) x 6. (24)\nRnd 7: (sc 3, inc) x 6. (30)\n"
            ),
            Passes("Rnd 1: 6 sc in magic ring. (6)\nRnd 2 and every alternate rnd: sc in each st around.\nRnd 3: inc around. (12)\nRnd 5: (sc, inc) x 6. (18)\n"),
        ),
        check=_check_overlap,
    ),
    Rule(
        name="rows-total-differs",
        family=_FAMILY,
        level=Level.CORRECTION,
        finds="A stated number of rounds is not the number that the heading covers: `Rnds 9-16 (7 rounds)`.",
        why="One of the two figures is wrong, and the piece comes out too long or too short.",
        limits="Only for headings that cover more than one round, and totals in brackets or after `for` or `these`.",
        source="Arithmetic: rounds a to b are b - a + 1 rounds.",
        examples=(
            Flags("Rnd 8: sc around. (24)\nRnds 9-16 (⟦7⟧ rounds): sc around. (24)\nRnd 17: sc around. (24)\n"),
            Passes("Rnd 8: sc around. (24)\nRnds 9-16 (8 rounds): sc around. (24)\n"),
            Passes("Rnd 8: sc around. (24)\nRnd 9: sc around for 8 rounds. (24)\n"),
            Passes("Rnd 8: sc around. (24)\nRnds 9-16: sc around, changing colour after row 12. (24)\n"),
        ),
        check=_check_total,
    ),
    Rule(
        name="side-out-of-step",
        family=_FAMILY,
        level=Level.CORRECTION,
        finds="A row is marked RS or WS though the rows counted from another mark put it on the other side.",
        why="Textured stitches end up on the wrong side of the fabric.",
        limits="Only where every row between is numbered or declared and the work is turned; a stretch ends where the yarn is "
        "cut or joined anew or the work isn't turned. A query where only two rows are marked; rounds need four marks.",
        source="Rows worked to and fro show the right and the wrong side by turns.",
        examples=(
            Flags(
                "Row 1 (RS): ch 11, sc in 2nd ch from hook and in each ch to end, turn. (10)\nRow 2 (WS): sc in each st to end, turn. (10)\n"
                "Row 3 (RS): sc in each st to end, turn. (10)\n⟦Row 4 (RS)⟧: sc in each st to end, turn. (10)\nRow 5 (RS): sc in each st to end, turn. (10)\n"
            ),
            Passes(
                "Row 1 (RS): ch 11, sc in 2nd ch from hook and in each ch to end, turn. (10)\nRows 2-4: sc in each st to end, turn. (10)\n"
                "Row 5 (RS): sc in each st to end, turn. (10)\nRow 6 (WS): sc in each st to end, turn. (10)\n"
            ),
            Passes(
                "Row 1 (RS): ch 11, sc in 2nd ch from hook and in each ch to end. Fasten off.\nRow 2 (RS): join yarn, sc in each st to end. (10)\n"
                "Row 3 (WS): sc in each st to end, turn. (10)\n"
            ),
            Passes("Rnd 1 (RS): 12 sc in magic ring, join. (12)\nRnd 2 (RS): sc around, join. (12)\nRnd 3 (RS): sc around, join. (12)\n"),
        ),
        check=_check_side,
    ),
    Rule(
        name="next-row-after-loop",
        family=_FAMILY,
        level=Level.QUERY,
        finds="Rows are worked until a measurement, and the row after that has a number or a side that may not be reached.",
        why="Makers stop at different rows, and the next instruction fits only some of them.",
        limits="Silent where the draft says on which row or side to end, where whole pairs of rows are repeated, and where the "
        "numbers simply go on.",
        source="Usage of the trade: `ending with a WS row` says where such work stops.",
        examples=(
            Flags(
                "Row 1: ch 11, sc in 2nd ch from hook and in each ch to end, turn. (10)\nRow 2: sc in each st to end, turn. (10)\n"
                "Rep row 2 until piece measures 10 cm.\n⟦Row 30⟧: sc in each st to end, turn. (10)\n"
            ),
            Passes(
                "Row 1: ch 11, sc in 2nd ch from hook and in each ch to end, turn. (10)\nRow 2: sc in each st to end, turn. (10)\n"
                "Rep row 2 until piece measures 10 cm, ending with row 29.\nRow 30: sc in each st to end, turn. (10)\n"
            ),
            Passes(
                "Row 1 (RS): ch 11, sc in 2nd ch from hook and in each ch to end, turn. (10)\nRow 2: sc in each st to end, turn. (10)\n"
                "Row 3: sc in each st to end, turn. (10)\nRep rows 2 and 3 until piece measures 10 cm.\nNext row (WS): sc in each st to end, turn. (10)\n"
            ),
            Passes(
                "Rnd 1: 12 sc in magic ring. (12)\nRep rnd 1 until piece measures 10 cm.\nRnd 2: sc around. (12)\n"
            ),
        ),
        check=_check_loop,
    ),
)
