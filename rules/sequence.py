"""Sequence: are rows and rounds numbered one after the other, and do elided rounds and sides keep in step."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from ..lint.finding import Aside, Level
from .gaps import are_missing, how_many, missing_between, unaccounted
from .numbering import (
    Link,
    Part,
    elision_unread,
    is_for,
    noun,
    parts,
    speaks_of_alternate,
    starts_anew,
)
from .rule import Case, Flags, Passes, Rule, Said

_FAMILY = "sequence"
_SKIPPED, _TWICE, _ORDER, _ELISION = (
    "number-skipped",
    "number-twice",
    "number-out-of-order",
    "elision-unstated",
)


@dataclass(frozen=True, slots=True)
class _Slip:
    """A slip in the numbers as one size meets it."""

    rule: str
    index: int
    message: str
    level: Level | None = None
    other: int | None = None  # the round that it clashes with
    missing: int = 0  # how many numbers are left out


# ---------------------------------------------------------------- numbers


def _said(case: Case, rule: str) -> Iterator[Said]:
    """Gather the slips of all sizes: one finding a heading."""
    every = case.pattern.sizes.number
    for part in parts(case):
        found: dict[int, tuple[_Slip, list[int]]] = {}
        for size in range(every):
            own = 0 if part.alike else size
            for slip in case.once(("numbers", id(part), own), lambda part=part, own=own: _slips(part, own)):
                if slip.rule == rule:
                    found.setdefault(slip.index, (slip, []))[1].append(size)
        for slip, sizes in found.values():
            round_ = part.round(slip.index)
            concerned = [size for size in range(every) if is_for(round_, size)]
            if rule == _TWICE and len(sizes) < len(concerned):
                continue
            earlier = [] if slip.other is None else [part.round(slip.other)]
            asides = tuple(Aside(one.heading, "used here first") for one in earlier)
            shown = () if len(sizes) == every else tuple(sizes)
            yield Said(round_.heading, slip.message, sizes=shown, level=slip.level, asides=asides)


@dataclass(slots=True)
class _Walk:
    """A walk through the numbers of a part for one size; `last` is the number to count on from."""

    part: Part
    size: int
    last: int = 0
    twice: bool = False  # whether the heading before was a number used twice
    seen: dict[int, int] = field(default_factory=dict[int, int])  # by number: the round that first had it

    def step(self, before: Link, link: Link, after: Link | None) -> _Slip | None:
        """Judge a heading after the one before it, and count on."""
        last, twice, self.twice = self.last, self.twice, False
        fresh = not any(number in self.seen for number in link.numbers)
        fills = link.first <= last and fresh and _fills(self.part, link, self.size)
        if fills or link.unnumbered is None or link.first - last - 1 in link.unnumbered:
            self.last = max(link.last, last) if fills else link.last
            return None
        alone = len(link.numbers) == 1 and after is not None and after.first == last + 2 and not after.talk
        if link.first > last + 1 and not (alone and link.first > last + 2):
            self.last = link.last
            slip = _gap(self.part, link, after, last, self.size)
            return None if twice and slip is not None and slip.missing == 1 else slip
        if not fresh:
            return self._back(link, alone)
        word = noun(self.part.round(link.index))
        if link.first > last:
            self.last = last + 1
            message = f"{word} {link.first} stands between {word} {last} and {word} {last + 2}"
            return _Slip(_ORDER, link.index, message)
        swapped = link.numbers == (last - 1,) and before.numbers == (last,)
        self.last = last if swapped else last + 1 if alone else link.last
        message = f"{word} {link.first} follows {word} {last}"
        return _Slip(_ORDER, link.index, message) if swapped or alone else None

    def _back(self, link: Link, alone: bool) -> _Slip | None:
        """Judge a heading whose number was used before."""
        last = self.last
        word = noun(self.part.round(link.index))
        number = next(number for number in link.numbers if number in self.seen)
        first = self.seen[number]
        if self.part.round(first).sizes != self.part.round(link.index).sizes:
            self.last = max(last, link.last)
            return None
        self.last = last + 1 if alone else link.last
        if number == last or alone:
            self.twice = True
            message = f"{word} {number} is used twice"
            if alone:
                message += f"; {word} {last + 1} is missing"
            return _Slip(_TWICE, link.index, message, other=first)
        if starts_anew(self.part, link):
            return None
        message = f"{word} {number} comes again after {word} {last}"
        return _Slip(_TWICE, link.index, message, Level.QUERY, other=first)


def _slips(part: Part, size: int) -> list[_Slip]:
    """Go through the numbers of a part for one size and note what is out of step."""
    chain = part.links(size)
    elided = _elision(part, chain, size)
    slips = [] if elided is None else [elided[0]]
    skipping = elided[1] if elided else frozenset[int]()
    walk = _Walk(part, size)
    for at, link in enumerate(chain):
        after = chain[at + 1] if at + 1 < len(chain) else None
        if backwards := _backwards(part, link, size):
            slips.append(backwards)
            walk.last = link.first
        elif at == 0 or link.index in skipping:
            walk.last = link.last
        elif slip := walk.step(chain[at - 1], link, after):
            slips.append(slip)
        if link.index not in skipping and (gap := _inner_gap(part, link, size)):
            slips.append(gap)
        for number in link.numbers:
            walk.seen.setdefault(number, link.index)
    return slips


def _backwards(part: Part, link: Link, size: int) -> _Slip | None:
    """Judge a heading whose last number is lower than its first."""
    round_ = part.round(link.index)
    first, last = (figure.at(size) if figure else None for figure in (round_.first, round_.last))
    if round_.listed or first is None or last is None or last >= first:
        return None
    word = noun(round_)
    return _Slip(_ORDER, link.index, f"{word}s {first} to {last} run backwards")


def _fills(part: Part, link: Link, size: int) -> bool:
    """Tell whether a lower number fills what `Rnds 5, 7, 9` before it left out."""
    here = part.round(link.index).span
    earlier = [one for one in part.listing if one.span.start < here.start]
    return any(is_for(one, size) and one.listed[0] < link.first < one.listed[-1] for one in earlier)


def _gap(part: Part, link: Link, after: Link | None, last: int, size: int) -> _Slip | None:
    """Judge a jump over numbers: None where something accounts for those left out."""
    missing = missing_between(part, last + 1, link.first - 1, size)
    number = how_many(missing)
    if after is not None and after.numbers == (last + 1,) and link.numbers == (last + 2,):
        return None  # two headings changed places; the second of them is the finding
    if not missing or (link.first == last + 2 and elision_unread(part)):
        return None
    word = noun(part.round(link.index))
    level = Level.QUERY if number > 1 and (link.talk or number > 4) else None
    message = f"{word} {link.first} follows {word} {last}; {are_missing(word, missing)}"
    return _Slip(_SKIPPED, link.index, message, level, missing=number)


def _inner_gap(part: Part, link: Link, size: int) -> _Slip | None:
    """Judge `Rnds 21 + 23`: what its list leaves out must stand somewhere."""
    whole = link.last - link.first + 1 == len(link.numbers)
    missing = () if whole else missing_between(part, link.first, link.last, size, link.numbers)
    if not missing or elision_unread(part):
        return None
    word = noun(part.round(link.index))
    named = " and ".join(str(number) for number in link.numbers)
    return _Slip(_SKIPPED, link.index, f"{word}s {named} stand together; {are_missing(word, missing)}")


# ---------------------------------------------------------------- elided rounds


def _elision(part: Part, chain: Sequence[Link], size: int) -> tuple[_Slip, frozenset[int]] | None:
    """Find a run of at least three headings where every other number is left out and nothing said of it.

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
    if len(unaccounted(part, missing, size)) < len(missing):
        return None
    word = noun(part.round(best[0][1].index))
    parity = "odd" if best[0][0] % 2 else "even"
    message = (
        f"from {word} {best[0][0]} to {word} {best[-1][0]} only {parity} {word}s are written; "
        "nothing says what the others are"
    )
    slip = _Slip(_ELISION, best[1][1].index, message)
    return slip, frozenset(link.index for _, link in best)


def _listed(link: Link) -> bool:
    return len(link.numbers) > 1 and link.last - link.first + 1 != len(link.numbers)


# ---------------------------------------------------------------- the rulebook


RULES = (
    Rule(
        name=_SKIPPED,
        family=_FAMILY,
        level=Level.CORRECTION,
        finds="A row or round number that is left out: round 7 follows round 5.",
        why=("A maker can't tell whether a round is missing or only its number, and later references point wrongly."),
        limits=(
            "Silent where the number is declared (every alternate round), spoken of elsewhere in the "
            "part, written for "
            "another size, or where rounds without numbers, a repeat or a measurement may account "
            "for it. A part may begin at "
            "any number. A query where several numbers are missing and other words stand between."
        ),
        source=("Published corrections: labels and order of rounds are among the most common slips of the text."),
        examples=(
            Flags("Rnd 1: 6 sc in magic ring. (6)\nRnd 2: inc around. (12)\n⟦Rnd 4⟧: (sc, inc) x 6. (18)\n"),
            Flags(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: inc around. (12)\n"
                "⟦Rnds 3 + 5⟧: sc around. (12)\nRnd 6: sc around. (12)\n"
            ),
            Passes(
                "Rnd 4: sc around. (24)\nRnd 5: sc around. (24)\n"
                "Rep rnds 4 and 5 twice more.\nRnd 10: sc around. (24)\n"
            ),
            Passes(
                "Rnd 4: sc around. (24)\nRnd 5: sc around. (24)\nRep rnds 4 and 5 twice more.\nRnd 6: sc around. (24)\n"
            ),
            Passes(
                "Rnd 1: 6 sc in magic ring. (6)\n2nd and every alternate rnd: sc around.\n"
                "3rd rnd: inc around. (12)\n5th rnd: sc around. (12)\n"
            ),
            Passes(
                "Ch 4, join to form a ring.\nRnd 2: 12 sc in ring. (12)\n"
                "Rnds 3, 5: sc around. (12)\nRnds 4, 6: sc around. (12)\n"
                "Rnd 7: sc around. (12)\n"
            ),
            Passes(
                "Row 1: ch 11, sc in 2nd ch from hook and in each ch to end. (10)\n"
                "Row 2: sc in each st to end. (10)\nRep row 2 until piece measures 10 cm.\n"
                "Row 30: sc in each st to end. (10)\n"
            ),
        ),
        check=lambda case: _said(case, _SKIPPED),
    ),
    Rule(
        name=_TWICE,
        family=_FAMILY,
        level=Level.CORRECTION,
        finds="A row or round number that is used for two rounds of one part.",
        why=("A maker who keeps count by the numbers works one round too few, and `rep rnd 5` has two meanings."),
        limits=(
            "Silent where the two rounds are for different sizes, where numbering starts again at 1, "
            "and where words "
            "between may name another piece. A query where the numbers go back further than to the last one."
        ),
        source=("Published corrections: labels and order of rounds are among the most common slips of the text."),
        examples=(
            Flags(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: inc around. (12)\n"
                "⟦Rnd 2⟧: (sc, inc) x 6. (18)\nRnd 3: sc around. (18)\n"
            ),
            Flags(
                "Rnd 1: 6 sc in magic ring. (6)\nRnds 2-5: sc around. (6)\n"
                "⟦Rnds 5-8⟧: sc around. (6)\nRnd 9: sc around. (6)\n"
            ),
            Passes(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: inc around. (12)\n"
                "Rnd 1: 8 sc in magic ring. (8)\nRnd 2: inc around. (16)\n"
            ),
            Passes(
                "EAR\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: inc around. (12)\n"
                "\nTAIL\nRnd 2: 12 sc in magic ring. (12)\nRnd 3: sc around. (12)\n"
            ),
            Passes(
                "Sizes: Small, Large\n\nRnd 1: 6 sc in magic ring. (6)\n"
                "Small only:\nRnd 2: sc around. (6)\nLarge only:\n"
                "Rnd 2: inc around. (12)\n"
            ),
        ),
        check=lambda case: _said(case, _TWICE),
    ),
    Rule(
        name=_ORDER,
        family=_FAMILY,
        level=Level.CORRECTION,
        finds=(
            "A row or round that stands out of its order: round 16 between rounds 5 and 7, or 6 after 7; or a heading "
            "whose range runs backwards."
        ),
        why="A maker works the rounds as they stand and can't tell whether the number or the place is wrong.",
        limits=(
            "Only where the headings before and after show which number is wrong; a longer run that "
            "goes back is left to "
            "number-twice."
        ),
        source=("Published corrections: labels and order of rounds are among the most common slips of the text."),
        examples=(
            Flags(
                "Rnd 5: sc around. (12)\n⟦Rnd 16⟧: sc around. (12)\nRnd 7: sc around. (12)\nRnd 8: sc around. (12)\n"
            ),
            Flags(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 3: sc around. (6)\n"
                "⟦Rnd 2⟧: sc around. (6)\nRnd 4: sc around. (6)\n"
            ),
            Flags("Rnd 6: sc around. (12)\n⟦Rnds 9-7⟧: sc around. (12)\nRnd 10: sc around. (12)\n"),
            Passes("Rnds 5, 7, 9: sc around. (12)\nRnds 6, 8: sc around. (12)\nRnd 10: sc around. (12)\n"),
            Passes(
                "Rnd 16: sc around. (12)\nRnd 17: sc around. (12)\n"
                "\nSLEEVE\nRnd 7: 12 sc in magic ring. (12)\nRnd 8: sc around. (12)\n"
            ),
            Passes("Rnd 5: sc around. (12)\nRnds 6-16: sc around. (12)\nRnd 17: sc around. (12)\n"),
        ),
        check=lambda case: _said(case, _ORDER),
    ),
    Rule(
        name=_ELISION,
        family=_FAMILY,
        level=Level.CORRECTION,
        finds=(
            "Only odd (or only even) rounds are written, at least three of them, and nothing says what the others are."
        ),
        why="A maker can't know whether the rounds between are plain, repeats or left out by mistake.",
        limits=(
            "Silent where the draft speaks anywhere of alternate, even, odd or wrong-side rounds, or of these numbers."
        ),
        source="Usage of the trade: unwritten rounds are declared, as in `2nd and every alternate rnd`.",
        examples=(
            Flags(
                "R1: 6 sc in magic ring. (6)\n⟦R3⟧: inc around. (12)\n"
                "R5: (sc, inc) x 6. (18)\nR7: (sc 2, inc) x 6. (24)\n"
            ),
            Passes(
                "Even rounds: sc around.\n\nR1: 6 sc in magic ring. (6)\n"
                "R3: inc around. (12)\nR5: (sc, inc) x 6. (18)\n"
            ),
            Passes(
                "R1: 6 sc in magic ring. (6)\nR2 (and all even rounds): sc around.\n"
                "R3: inc around. (12)\nR5: (sc, inc) x 6. (18)\n"
                "R7: sc around. (18)\n"
            ),
            Passes(
                "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: sc around. Work rnds 4 and 6 like this.\n"
                "Rnd 3: inc around. (12)\nRnd 5: (sc, inc) x 6. (18)\n"
                "Rnd 7: sc around. (18)\n"
            ),
        ),
        check=lambda case: _said(case, _ELISION),
    ),
)
