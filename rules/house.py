"""House style: where a draft departs from what its publisher has settled."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import fields, is_dataclass

from ..lint.draft import Span
from ..lint.figures import Figure
from ..lint.finding import Aside, Level
from ..lint.house import UNITS, House
from ..lint.later import later
from ..lint.pattern import Claim, Round
from .rule import Case, Flags, Passes, Rule, Said
from .sizes_figures import list_style

_MOST_ASIDES = 5
_HEADING_WORDS = frozenset({"rnd", "round", "r", "row"})
_WORD = later(r"[A-Za-z]+")
_TITLE = later(r"[^\w\n]*([A-Za-z][A-Za-z ,&/'-]{1,40}?)(?:\s*:|\s{2,}|\s*$)")
_OPENING = {"(": ")", "[": "]", "-": "", "\u2013": "", "\u2014": "", "=": ""}


def _check(case: Case) -> Iterator[Said]:
    house = case.settings.house
    for entry, wanted, places in (
        ("sizes", house.lists, _lists),
        ("counts", house.counts, _counts),
        ("headings", house.round_word, _round_headings),
        ("headings", house.row_word, _row_headings),
        ("numerals", house.numerals, _numerals),
    ):
        if wanted is not None:
            yield from _told(case, entry, wanted, list(places(case, wanted)))
    if house.units:
        first, *others = house.units
        wanted = " ".join((first, *(f"({unit})" for unit in others)))
        yield from _told(case, "units", wanted, list(_units(case, house.units)))
    yield from _terms(case, house)
    yield from _spellings(case, house)
    yield from _sections(case, house)


def _told(case: Case, entry: str, wanted: str, places: Sequence[Span]) -> Iterator[Said]:
    """Say once what is written otherwise, with the places where it is."""
    if not places:
        return
    more = f" and in {len(places) - 1} more places" if len(places) > 2 else " and in one more place"
    others = "" if len(places) == 1 else more
    message = f'house style, {entry}: "{case.words(places[0])}" here{others}, and the house writes "{wanted}"'
    asides = tuple(Aside(place, "likewise") for place in places[1 : _MOST_ASIDES + 1])
    yield Said(places[0], message, asides=asides)


def _terms(case: Case, house: House) -> Iterator[Said]:
    terms = case.pattern.terms
    if house.terms is not None and terms is not None and terms != house.terms and case.pattern.rounds:
        place = case.pattern.rounds[0].heading
        yield Said(place, f"house style, terms: the draft is in {terms} terms, and the house writes {house.terms}")


def _lists(case: Case, wanted: str) -> Iterator[Span]:
    number = case.pattern.sizes.number
    for one in case.pattern.lists:
        if number > 1 and len(one.values) == number and one.style.value not in ("72 (80) 88", "S: 72, M: 80, L: 88"):
            style, inner = list_style(case, one)
            if style.replace(", ", inner + " " if inner == "," else inner) != wanted:
                yield one.span


def _counts(case: Case, wanted: str) -> Iterator[Span]:
    for round_ in case.pattern.rounds:
        if round_.claims and not round_.claims[0].each_round and _count_style(case, round_.claims[0]) != wanted:
            yield round_.claims[0].span


def _count_style(case: Case, claim: Claim) -> str:
    """Return how a stated count is written, as if it were 72."""
    before = case.draft.text[max(0, claim.span.start - 3) : claim.span.start].rstrip(" ")[-1:]
    words = "72 sts" if _WORD.search(case.draft.words(claim.span)) else "72"
    if before not in _OPENING:
        return words
    closing = _OPENING[before]
    return f"{before}{words}{closing}" if closing else f"{'=' if before == '=' else '-'} {words}"


def _round_headings(case: Case, wanted: str) -> Iterator[Span]:
    return (place for round_, place, word in _headings(case) if not round_.flat and word != wanted)


def _row_headings(case: Case, wanted: str) -> Iterator[Span]:
    return (place for round_, place, word in _headings(case) if round_.flat and word != wanted)


def _headings(case: Case) -> Iterator[tuple[Round, Span, str]]:
    """Give the numbered rounds with the place and the word of their heading, "" for a bare number."""
    for round_ in case.pattern.rounds:
        if round_.first is None:
            continue
        words = [match[0] for match in _WORD.finditer(round_.label)]
        known = [word for word in words if word.lower().removesuffix("s") in _HEADING_WORDS]
        if known or not words:
            yield round_, round_.heading, known[0].removesuffix("s") if known else ""


def _numerals(case: Case, wanted: str) -> Iterator[Span]:
    for round_ in case.pattern.rounds:
        for figure in _figures(round_.steps):
            words = case.draft.words(figure.span)
            small = not figure.is_list and (figure.at(0) or 0) in range(1, 11)
            if small and (words.isalpha() if wanted == "figures" else words.isdecimal()):
                yield figure.span


def _units(case: Case, wanted: Sequence[str]) -> Iterator[Span]:
    """Give the lengths that are in another unit than those wanted, and those in two units in the wrong order."""
    places: set[Span] = set()
    for pairing in case.pattern.materials.pairings:
        units = [pairing.first.unit, pairing.second.unit]
        if set(units) <= set(UNITS) and units != list(wanted):
            places.add(pairing.span)
    for measure in case.pattern.materials.measures:
        if measure.unit in UNITS and measure.unit not in wanted:
            places.add(measure.span)
    yield from sorted(places)


def _figures(node: object) -> Iterator[Figure]:
    """Give all figures in some steps, in their order."""
    if isinstance(node, Figure):
        yield node
    elif isinstance(node, tuple):
        items: tuple[object, ...] = node  # pyright: ignore[reportUnknownVariableType]
        for item in items:
            yield from _figures(item)
    elif is_dataclass(node):
        for part in fields(node):
            yield from _figures(getattr(node, part.name))


def _spellings(case: Case, house: House) -> Iterator[Said]:
    for spelling, wanted in house.spellings.items():
        word = re.compile(rf"(?<![\w-]){re.escape(spelling)}(?![\w-])", re.IGNORECASE)
        places = [
            Span(*match.span())
            for round_ in case.pattern.rounds
            for match in word.finditer(case.draft.text, round_.span.start, round_.span.end)
        ]
        yield from _told(case, "spellings", wanted, places)


def _sections(case: Case, house: House) -> Iterator[Said]:
    if not house.sections:
        return
    titles: dict[str, Span] = {}
    for index in range(len(case.draft.starts)):
        line = case.draft.line_span(index)
        if match := _TITLE.match(case.draft.words(line)):
            start, end = match.span(1)
            titles.setdefault(match[1].lower(), Span(line.start + start, line.start + end))
    before: tuple[str, Span] | None = None
    for section in house.sections:
        place = titles.get(section.lower())
        if place is None:
            yield Said(case.draft.line_span(0), f'house style, sections: the draft has no section "{section}"')
        elif before is not None and place < before[1]:
            message = f'house style, sections: "{section}" comes before "{before[0]}", and the house has it after'
            yield Said(place, message, asides=(Aside(before[1], f'"{before[0]}"'),))
        else:
            before = (section, place)


_ROUNDS = "Rnd 1: 6 sc in ring. (6 sts)\nRnd 2: 2 sc in each of next 6 sts. (12 sts)\n"
_SIZED = "Sizes: S (M, L)\nRnd 1: 6 ({}) sc in ring. (6 ({}) sts)\n"

HOUSE_STYLE = Rule(
    name="house-style",
    family="house style",
    level=Level.STYLE,
    finds="The draft departs from an entry of the house style; the message names the entry.",
    why="A maker who knows the house reads its patterns without stopping at the wording.",
    limits="Silent without a house style, and on what it leaves open. Each entry is told once, at its first place.",
    source="the house style file of the publisher",
    examples=(
        Flags(
            "Rnd 1: 6 sc in ring. (6 sts)\n⟦Round 2⟧: 2 sc in each st. (12 sts)\n", house='headings = {round = "Rnd"}'
        ),
        Flags("Rnd 1: 6 sc in ring. (6 sts)\nRnd 2: 2 sc in each st. [⟦12 sts⟧]\n", house='counts = "(72 sts)"'),
        Flags(_SIZED.format("8, 10", "8, 10").replace("6 (8, 10) sc", "⟦6 (8, 10)⟧ sc"), house='sizes = "72 [80, 88]"'),
        Flags("Rnd 1: ⟦six⟧ sc in ring. (6 sts)\n", house='numerals = "figures"'),
        Flags(
            "Rnd 1: 6 sc in ring. (6)\nRnd 2: *⟦Skip⟧ 1 st, 3 sc in next st; rep from * around. (9)\n",
            house='[spellings]\nsk = ["skip", "miss"]',
        ),
        Flags("⟦Harbour mat⟧\nGauge: 16 sts\n\nRnd 1: 6 sc in ring.\n", house='sections = ["Materials", "Gauge"]'),
        Flags("Gauge: 16 sts and 20 rnds in sc = ⟦10 cm (4 in)⟧\n" + _ROUNDS, house='units = ["in", "cm"]'),
        Passes("Gauge: 16 sts and 20 rnds in sc = 4 in (10 cm)\n" + _ROUNDS, house='units = ["in", "cm"]'),
        Passes(_ROUNDS),
        Passes(_ROUNDS, house='headings = {round = "Rnd"}\ncounts = "(72 sts)"\nnumerals = "figures"\nterms = "US"'),
        Passes(_SIZED.format("8, 10", "8, 10"), house='sizes = "72 (80, 88)"'),
        Passes(_ROUNDS.replace("Rnd 2", "Rnds 2-3"), house='headings = {round = "Rnd"}'),
    ),
    check=_check,
)

RULES = (HOUSE_STYLE,)
