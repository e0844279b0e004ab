"""Figures of sizes: has every list one for each size, in order, and written one way."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from ..lint.draft import Span
from ..lint.figures import Figure, FigureList, ListStyle
from ..lint.finding import Level
from ..lint.pattern import Round
from ..lint.workings import Standing
from .numbering import numbers_of
from .rule import Case, Flags, Passes, Rule, Said
from .sizes import named

_FAMILY = "sizes"
_SMALL = 8  # multipliers and remainders up to this may vary with size as they like
_OPENS, _CLOSES = "([{", ")]}"


def _round_at(case: Case, span: Span) -> tuple[int, Round] | None:
    """Return the round in whose words a list stands."""
    for index, round_ in enumerate(case.pattern.rounds):
        if round_.span.start <= span.start < round_.span.end:
            return index, round_
    return None


# ---------------------------------------------------------------- lists of the wrong length


def _check_miscounted(case: Case) -> Iterator[Said]:
    number = case.pattern.sizes.number
    right = [one for one in case.pattern.lists if len(one.values) == number]
    declared = any(one.span == case.pattern.sizes.span for one in right)  # `Sizes 1 (2, 3)` shows how lists look
    lists = case.pattern.lists
    none_right = case.pattern.sizes.declared and bool(lists) and all(len(one.values) == number - 1 for one in lists)
    if none_right and number > 2:
        right = list(lists)  # the names of the sizes tell how many figures there should be
    elif number < 2 or (len(right) < 2 and not declared):
        return
    styles = {(one.style in (ListStyle.SLASH, ListStyle.INSIDE), one.inner) for one in right}
    marks = {one.style for one in right}
    for one in case.pattern.lists:
        length = len(one.values)
        kin = one.style in marks and (
            (one.style in (ListStyle.SLASH, ListStyle.INSIDE), one.inner) in styles or not one.inner
        )
        if length == number or not kin or one.style in (ListStyle.BARE, ListStyle.MIXED) or not _is_of_sizes(case, one):
            continue
        figures = "figure" if length == 1 else "figures"
        message = f"{case.words(one.span)} has {length} {figures}; there are {number} sizes"
        yield Said(one.span, message)


def _is_of_sizes(case: Case, one: FigureList) -> bool:
    """Tell whether a list of the wrong length is meant for the sizes: no range, rounds or counts a round."""
    text = case.draft.text
    before, after = text[max(0, one.span.start - 24) : one.span.start], text[one.span.end : one.span.end + 12]
    cut_short = re.search(r"(?:[-\d]\s*[,/:-]|\d\s*[(\[]|[-\d])\s*$", before) or re.match(
        r"\s*(?:[,/:-]\s*[-\d]|[(\[]\s*[-\d])", after
    )
    if cut_short or re.search(r"(?i)\b(?:rounds?|rnds?|rows?|sizes?|ages?|col\w*|r)\.?\s*[(\[]?$", before):
        return False
    known = [value for value in one.values if value is not None]
    if len(known) < 2 or sorted(known) not in (known, known[::-1]):
        return False
    place = _round_at(case, one.span)
    if place is not None:
        round_ = place[1]
        one_a_round = len(numbers_of(round_, (round_.sizes or (0,))[0]))
        own = None if round_.sizes is None else len(round_.sizes)
        if own == 0 or len(one.values) in {one_a_round, own}:
            return False
    if len(one.values) == 2:
        return _is_pair_of_sizes(known, after)
    return max(known) <= 3 * max(1, min(known)) + _SMALL


def _is_pair_of_sizes(known: Sequence[int], after: str) -> bool:
    """Tell whether `40 (45) sts` gives figures for two sizes; `sc 40 (45)` gives a count in brackets."""
    low, high = known
    return low < high <= low + max(4, low // 2) and bool(re.match(r"\s*[A-Za-z]", after))


# ---------------------------------------------------------------- figures out of order or alike


def _rising(values: Sequence[int | None]) -> int:
    """Return 1 for values that rise with size, -1 for values that fall, 0 for neither; equals fit both."""
    known = [value for value in values if value is not None]
    if sorted(known) == known:
        return 1
    return -1 if sorted(known, reverse=True) == known else 0


def _agrees(case: Case, span: Span, *, steps_too: bool = False) -> bool:
    """Tell whether a list is borne out (or already contradicted) by the working of its round."""
    place = _round_at(case, span)
    if place is None:
        return False
    index, round_ = place
    working = case.workings.rounds[index]
    settled = working.standing in (Standing.AGREES, Standing.DIFFERS)
    is_claim = any(_holds(claim.figure, span) for claim in round_.claims)
    if round_.directive is not None and not is_claim:
        return False
    return settled and (is_claim or steps_too)


def _holds(figure: Figure, span: Span) -> bool:
    return (figure.span.start <= span.start and span.end <= figure.span.end) or figure.span == span


def _check_order(case: Case) -> Iterator[Said]:
    number = case.pattern.sizes.number
    lists = [one for one in case.pattern.lists if len(one.values) == number]
    ordered = sum(_rising(one.values) != 0 for one in lists)
    if number < 3 or ordered < 3 or ordered < 0.8 * len(lists):
        return
    for one in lists:
        known = [value for value in one.values if value is not None]
        if _rising(one.values) or max(known) <= _SMALL or _agrees(case, one.span, steps_too=True):
            continue
        lone = _out_of_line(known)
        if lone is None:
            continue
        message = (
            f"{case.words(one.span)} neither rises nor falls with the sizes, as the other lists do; "
            f"{lone} is out of line"
        )
        yield Said(one.span, message)


def _out_of_line(known: Sequence[int]) -> int | None:
    """Return the one figure without which the others rise; None where no single figure does."""
    spots = [at for at in range(len(known)) if _rising([*known[:at], *known[at + 1 :]]) == 1]
    return known[spots[0]] if spots else None


def _check_alike(case: Case) -> Iterator[Said]:
    number = case.pattern.sizes.number
    if number < 3:
        return
    figures = [_main_count(case, index) for index in range(len(case.pattern.rounds))]
    for at in range(1, len(figures) - 1):
        before, here, after = figures[at - 1 : at + 2]
        if before is None or here is None or after is None:
            continue
        values = [here.at(size) or 0 for size in range(number)]
        pairs = [size for size in range(number - 1) if values[size] == values[size + 1]]
        steady = all(_all_differ(one, number) for one in (before, after))
        settled = case.workings.rounds[at].standing in (Standing.AGREES, Standing.DIFFERS)
        if len(pairs) != 1 or max(values) <= _SMALL or not steady or settled:
            continue
        low = pairs[0]
        message = (
            f"{case.words(here.span)} gives {values[low]} for both {named(case, (low, low + 1))}; the "
            "rounds beside it differ there"
        )
        yield Said(here.span, message, sizes=(low, low + 1))


def _main_count(case: Case, index: int) -> Figure | None:
    """Return the stated count of a round where it is the only one and has a figure for every size."""
    claims = case.pattern.rounds[index].claims
    figure = claims[0].figure if len(claims) == 1 else None
    return figure if figure is not None and figure.is_list and None not in figure.values else None


def _all_differ(figure: Figure, number: int) -> bool:
    return len({figure.at(size) for size in range(number)}) == number


# ---------------------------------------------------------------- ways of writing


def list_style(case: Case, one: FigureList) -> tuple[str, str]:
    """Return how a list is written, the same whether or not it shares its bracket with words."""
    if one.inner == "/":
        return ListStyle.SLASH.value, "/"
    style = ListStyle.BARE if one.style is ListStyle.INSIDE else one.style
    if one.style is ListStyle.INSIDE and case.draft.text[one.span.end : one.span.end + 3].strip()[:1] in _CLOSES:
        style = ListStyle.INSIDE
    return style.value, one.inner


def _check_styles(case: Case) -> Iterator[Said]:
    number = case.pattern.sizes.number
    lists = [one for one in case.pattern.lists if number > 1 and len(one.values) == number]
    ways: Counter[tuple[str, str]] = Counter()
    first: dict[tuple[str, str], FigureList] = {}
    for one in lists:
        way = list_style(case, one)
        if _is_nested(case, one) or way[0] in (ListStyle.BARE.value, ListStyle.MIXED.value):
            continue
        ways[way] += 1
        first.setdefault(way, one)
    if len(ways) < 2:
        return
    main, often = ways.most_common(1)[0]
    for way, times in ways.most_common()[1:]:
        one = first[way]
        message = (
            f"{case.words(one.span)} is written one way ({_times(times)}), "
            f"{case.words(first[main].span)} another ({_times(often)})"
        )
        yield Said(one.span, message)


def _times(number: int) -> str:
    return "once" if number == 1 else f"{number} times"


def _is_nested(case: Case, one: FigureList) -> bool:
    """Tell whether a list stands in another bracket, where other brackets may be used for clarity."""
    line = case.draft.text.rfind("\n", 0, one.span.start) + 1
    before = case.draft.text[line : one.span.start]
    if one.style is ListStyle.INSIDE:
        before = before.rstrip().removesuffix("(").removesuffix("[").removesuffix("{")
    return sum(before.count(mark) for mark in _OPENS) > sum(before.count(mark) for mark in _CLOSES)


# ---------------------------------------------------------------- the rulebook

_THREE = "Sizes: Small (Medium, Large)\n\nCh 48 (56, 64), join.\n"
_FOUR = "Sizes: Small (Medium, Large, Extra Large)\n\nCh 48 (56, 64, 72), join.\n"

RULES = (
    Rule(
        name="figures-miscounted",
        family=_FAMILY,
        level=Level.CORRECTION,
        finds="A list of figures that has more or fewer of them than there are sizes.",
        why="From the missing figure on, every size is given the number of another.",
        limits=(
            "Only for lists written like others of the draft that have the right number; silent for "
            "ranges, lists of "
            "rounds, one count a round, counts in brackets, and lists for the sizes that a round is for."
        ),
        source="Arithmetic: a list gives one figure a size.",
        examples=(
            Flags(
                _FOUR
                + ("Rnd 1: sc in each ch around. ⟦48 (56, 64)⟧ sc\nRnd 2: sc in each st around. 48 (56, 64, 72) sc\n")
            ),
            Flags(
                "Sizes: S/M/L\nCast on ⟦40/44⟧ sts.\nRow 1: Knit. 40/44/48 sts.\n"
                "Row 2: K1, k2tog, k to end. 39/43/47 sts\nRow 3: Knit. 39/43/47 sts.\n"
            ),
            Flags("Sizes XS (S, M, L)\nCast on ⟦90 (98, 106)⟧ sts.\nRow 1: *P2, k2; rep from * to last 2 sts, p2.\n"),
            Passes(
                "Sizes XS (S, M, L)\nCast on 90 (98, 106, 114) sts.\nRow 1: *P2, k2; rep from * to last 2 sts, p2.\n"
            ),
            Flags(
                _THREE + "Rnd 1: sc in each ch around. 48 (56, 64) sc\n"
                "Rnd 2: sc in each st around. ⟦48 (56, 64, 72)⟧ sc\n"
                "Rnd 3: sc in each st around. 48 (56, 64) sc\n"
            ),
            Passes(
                _FOUR
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64, 72) sc\n"
                    "Rnd 2: sc in next 40 (48, 56, 64), leave 8 unworked. (8 sts)\n"
                )
            ),
            Passes(
                _FOUR + "Rnd 1: sc in each ch around. 48 (56, 64, 72) sc\nMedium, Large and Extra Large only:\n"
                "Rnd 2: sc in each st around. 56 (64, 72) sc\n"
            ),
            Passes(
                _FOUR + ("Rnd 1: sc in each ch around. 48 (56, 64, 72) sc\nRnds 2-4: inc 8 in each rnd. (56, 64, 72)\n")
            ),
        ),
        check=_check_miscounted,
    ),
    Rule(
        name="figures-out-of-order",
        family=_FAMILY,
        level=Level.QUERY,
        finds=("A list whose figures neither rise nor fall with the sizes where the other lists of the draft do."),
        why="Two figures that changed places, or a digit that slipped, give one size another's number.",
        limits=(
            f"For three sizes or more. Silent for figures up to {_SMALL}, equal neighbours, counts "
            "and steps that the working "
            "bears out, and lists in which no single figure is out of line."
        ),
        source="Published corrections: a number that is wrong in one size only is among the most common.",
        examples=(
            Flags(
                _THREE
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64) sc\nRnd 2: sc in each st around. 48 (56, 64) sc"
                    "\nRep rnd 2, ⟦10 (14, 12)⟧ times more. 48 (56, 64) sc\n"
                )
            ),
            Passes(
                _THREE
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64) sc\nRnd 2: sc in each st around. 48 (56, 64) sc"
                    "\nRep rnd 2, 10 (12, 12) times more. 48 (56, 64) sc\n"
                )
            ),
            Passes(
                _THREE
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64) sc\nRnd 2: sc in each st around. 48 (56, 64) sc"
                    "\nRep rnd 2, 5 (7, 6) times more. 48 (56, 64) sc\n"
                )
            ),
            Passes(
                _THREE + "Rnd 1: sc in each ch around. 48 (56, 64) sc\nRnd 2: sc in each st around. 48 (56, 64) sc\n"
                "Rnd 3: *sc 6, sc2tog; rep from * 2 (7, 2) times more, sc in each st to end. 45 (48, 61) sc\n"
            ),
        ),
        check=_check_order,
    ),
    Rule(
        name="figures-differ-in-style",
        family=_FAMILY,
        level=Level.STYLE,
        finds="Lists of figures that are written in more than one way: `48 (56, 64)` and `48/56/64`.",
        why="A maker who has marked a size's place in one kind of list loses it in another.",
        limits=(
            "Silent for lists inside another bracket, where a second kind of bracket helps, and for "
            "bare lists in a count."
        ),
        source="House styles of the trade: one way for all lists.",
        examples=(
            Flags(_THREE + "Rnd 1: sc in each ch around. 48 (56, 64) sc\nRnd 2: sc in each st around. ⟦48/56/64⟧ sc\n"),
            Passes(
                _THREE
                + ("Rnd 1: sc in each ch around. 48 (56, 64) sc\nRnd 2: sc in each st around. (48 [56, 64] sc)\n")
            ),
            Passes(
                "Sizes: S/M/L\n\nCh 48/56/64, join.\nRnd 1: sc in each ch around. (48/56/64)\n"
                "Rnd 2: sc in each st around. (48/56/64 sc)\n"
            ),
            Passes(
                _THREE + "Rnd 1: sc in each ch around. 48 (56, 64) sc\nRnd 2: sc in each st around. 48 (56, 64) sc\n"
            ),
        ),
        check=_check_styles,
    ),
    Rule(
        name="size-figures-alike",
        family=_FAMILY,
        level=Level.QUERY,
        finds="A stated count that is the same for two neighbouring sizes where all counts beside it differ.",
        why="A figure copied from the neighbour is hard to see and easy to make.",
        limits=(
            "For three sizes or more; only counts of rounds that could not be worked (else the "
            "working tells), whose other "
            "neighbours differ, between rounds in which all sizes differ."
        ),
        source="Published corrections: a number that is wrong in one size only is among the most common.",
        examples=(
            Flags(
                _THREE
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64) sc\nRnd 2: work as the tide allows. (⟦54, 54, "
                    "72⟧ sc)\n"
                    "Rnd 3: sc in each st around. 54 (63, 72) sc\n"
                )
            ),
            Passes(
                _THREE
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64) sc\nRnd 2: work as the tide allows. (54, 54, "
                    "54 sc)\nRnd 3: sc in each st around. 54 (63, 72) sc\n"
                )
            ),
            Passes(
                _THREE
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64) sc\nRnd 2: work as the tide allows. (54, 54, "
                    "72 sc)\nRnd 3: sc in each st around. 54 (54, 72) sc\n"
                )
            ),
            Passes(
                _THREE
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64) sc\nRnd 2: work as the tide allows. (54, 63, "
                    "72 sc)\nRnd 3: sc in each st around. 54 (63, 72) sc\n"
                )
            ),
        ),
        check=_check_alike,
    ),
)
