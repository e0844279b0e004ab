"""Fit: measurements against stitches and rows, and sizes against the published tables of bodies."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from ..lint.draft import Span
from ..lint.finding import Aside, Level
from ..lint.later import later
from ..lint.materials import Gauge, Measure
from ..lint.trade.goods import Body, bodies
from ..lint.workings import RoundWorking, SizeWorking, Standing
from .feet import feet_off_standard
from .materials import number
from .rule import Case, Flags, Passes, Rule, Said
from .sums import size_name

_FAMILY = "fit"
_PRACTICE = (
    "common practice of tech editing: stitches divided by gauge give the width, rows divided by gauge the length"
)
_TABLES = "Craft Yarn Council, Standards and Guidelines, body measurements; charts of heads named in the table"
_SHARE = 0.12  # of a measurement that gauge and rounding may take or give
_LEAST = 0.75  # inches, likewise


# ---------------------------------------------------------------- width and length


def _gauge_of(case: Case) -> Gauge | None:
    """Return the gauge of the draft where it has just one that may be relied on."""
    sure = [one for one in case.pattern.materials.gauges if not one.loose]
    return sure[0] if len(sure) == 1 else None


def _at(measure: Measure, size: int) -> float | None:
    if measure.ranged:
        return None
    if len(measure.inches) == 1:
        return measure.inches[0]
    return measure.inches[size] if size < len(measure.inches) else None


def _plain(gauge: Gauge, own: SizeWorking) -> bool:
    """Tell whether a round is in the stitch that the gauge is counted in."""
    if gauge.stitch is None:
        return True
    top = max(own.kinds, key=lambda pair: pair[1], default=("", 0))
    return top[0] == gauge.stitch


def _widths(case: Case, gauge: Gauge, size: int) -> Counter[int]:
    """Return the counts of a size with the number of rounds worked on each, in the stitch of the gauge."""
    counts: Counter[int] = Counter()
    for working in case.workings.rounds:
        own = working.sizes[size]
        if own is not None and own.count and own.agrees is not False and _plain(gauge, own):
            counts[own.count] += own.rounds
    return counts


def _one_piece(case: Case) -> bool:
    return len({round_.section for round_ in case.pattern.rounds}) == 1


def _width_does_not_follow(case: Case) -> Iterator[Said]:
    gauge = _gauge_of(case)
    rounds = case.pattern.rounds
    if gauge is None or not gauge.per_inch or not rounds or not _one_piece(case):
        return
    flat = all(round_.flat for round_ in rounds if not round_.foundation)
    in_rounds = not any(round_.flat for round_ in rounds if not round_.foundation)
    for measure in _finished(case, ("around",) if in_rounds else ("width",) if flat else ()):
        off: list[tuple[int, int, float]] = []
        for size in range(case.pattern.sizes.number):
            stated, counts = _at(measure, size), _widths(case, gauge, size)
            if not counts or stated is None:
                return
            main = max(counts, key=lambda count: (counts[count], count))
            near = [count for count in counts if abs(count / gauge.per_inch - stated) <= max(_LEAST, _SHARE * stated)]
            # one row is enough where it is all there is, as in a swatch
            if (counts[main] >= 3 or len(counts) == 1 == len(rounds) - 1) and not near:
                off.append((size, main, stated))
        if off:
            yield _said_width(case, measure, gauge, off)
    yield from _width_told_later(case, gauge)


_ACROSS = later(
    r"(?i)\b(?:piece|work|back|front|body|sleeve|scarf|shawl|cowl|hat|panel|square|it)\s+(?:should\s+)?(?:now"
    r"\s+)?measures?\s+"
    r"(?:about\s+|approx\w*\.?\s+)?"
    r"(?P<n>\d+(?:\.\d+)?)[ -]?(?P<unit>in(?:ch(?:es)?)?|ins|cm)\b\.?\s+(?P<how>across|wide|around|in\s+width|in"
    r"\s+circumference)\b"
)
_ELASTIC = later(r"(?i)\b(?:rib\w*|cables?|unstretched|stretched|blocked|blocking|relaxed|lace)\b")


def _width_told_later(case: Case, gauge: Gauge) -> Iterator[Said]:
    """Compare a width that is told among the rounds with the stitches there are at that point."""
    text = case.draft.text
    if case.pattern.sizes.number != 1 or gauge.per_inch is None or _ELASTIC.search(text):
        return
    for match in _ACROSS.finditer(text):
        known = [
            own
            for round_, working in zip(case.pattern.rounds, case.workings.rounds, strict=True)
            if round_.heading.start < match.start() and (own := working.sizes[0]) is not None
        ]
        if not known or not known[-1].sure or not known[-1].count or not _plain(gauge, known[-1]):
            continue
        unit = "cm" if match["unit"] == "cm" else "in"
        stated = float(match["n"]) / (2.54 if unit == "cm" else 1.0)
        count = known[-1].count
        comes = count / gauge.per_inch
        if abs(comes - stated) <= max(_LEAST, _NEAR_SHARE * stated):
            continue
        sums = (f"{count} sts / {number(gauge.per_inch)} sts an inch = {_length(comes, unit)}",)
        message = f"{count} sts at this gauge are {_length(comes, unit)}, the draft says {_length(stated, unit)}"
        yield Said(
            Span(*match.span("n")), message, sum=sums, asides=(Aside(gauge.span, "the gauge"),), level=Level.QUERY
        )


_NEAR_SHARE = 0.08  # of a width that is told where it is reached, and not of the finished piece


def _finished(case: Case, what: Sequence[str]) -> Iterator[Measure]:
    """Yield the finished measurements of some kinds that have a value a size."""
    sizes = case.pattern.sizes.number
    for measure in case.pattern.materials.measures:
        if measure.what in what and not measure.body and len(measure.inches) == sizes and not measure.ranged:
            yield measure


def _length(inches: float, unit: str) -> str:
    return f"{number(round(inches * 2.54, 1))} cm" if unit == "cm" else f"{number(round(inches, 1))} in"


def _said_width(case: Case, measure: Measure, gauge: Gauge, off: Sequence[tuple[int, int, float]]) -> Said:
    per = gauge.per_inch or 1.0
    lines = tuple(
        f"{_lead(case, size)}{count} sts / {number(per)} sts an inch = {_length(count / per, measure.unit)}, "
        f"the draft says {_length(stated, measure.unit)}"
        for size, count, stated in off
    )
    size, count, stated = off[0]
    sizes = [one for one, _, _ in off]
    whose = "" if case.pattern.sizes.number == 1 else f" for {size_name(case, size)}"
    comes = _length(count / per, measure.unit)
    message = f"{count} sts at this gauge are {comes}{whose}, the draft says {_length(stated, measure.unit)}"
    every = len(sizes) == case.pattern.sizes.number
    return Said(
        measure.span, message, sizes=() if every else tuple(sizes), sum=lines, asides=(Aside(gauge.span, "the gauge"),)
    )


def _lead(case: Case, size: int) -> str:
    return "" if case.pattern.sizes.number == 1 else f"{size_name(case, size)}: "


def _length_does_not_follow(case: Case) -> Iterator[Said]:
    gauge = _gauge_of(case)
    if gauge is None or not gauge.rows_per_inch or not case.pattern.rounds or not _one_piece(case):
        return
    for measure in _finished(case, ("length",)):
        off: list[tuple[int, int, float]] = []
        for size in range(case.pattern.sizes.number):
            stated, rows = _at(measure, size), _rows(case, gauge, size)
            if rows is None or stated is None:
                return
            if abs(rows / gauge.rows_per_inch - stated) > max(1.0, 0.2 * stated):
                off.append((size, rows, stated))
        if off:
            per = gauge.rows_per_inch
            lines = tuple(
                f"{_lead(case, size)}{rows} rows / {number(per)} rows an inch = {_length(rows / per, measure.unit)}, "
                f"the draft says {_length(stated, measure.unit)}"
                for size, rows, stated in off
            )
            size, rows, stated = off[0]
            comes = _length(rows / per, measure.unit)
            message = f"{rows} rows at this gauge are {comes}, the draft says {_length(stated, measure.unit)}"
            every = len(off) == case.pattern.sizes.number
            sizes = () if every else tuple(one for one, _, _ in off)
            yield Said(measure.span, message, sizes=sizes, sum=lines, asides=(Aside(gauge.span, "the gauge"),))


def _rows(case: Case, gauge: Gauge, size: int) -> int | None:
    """Return the rows of a piece that is worked without shaping; None for any other, or where a row is not known."""
    total = 0
    counts: set[int] = set()
    for round_, working in zip(case.pattern.rounds, case.workings.rounds, strict=True):
        if round_.foundation:
            continue
        own = working.sizes[size]
        if not _is_known(working) or own is None or own.count is None or getattr(round_.directive, "measured", False):
            return None
        if not _plain(gauge, own):
            return None
        counts.add(own.count)
        total += own.rounds
    return total if len(counts) == 1 and total >= 6 else None


def _is_known(working: RoundWorking) -> bool:
    return working.standing in (Standing.AGREES, Standing.UNSTATED)


# ---------------------------------------------------------------- bodies

_HEADWEAR = later(r"(?i)\b(?:hats?|beanies?|caps?|bonnets?|slouch|berets?)\b")


def _size_off_standard(case: Case) -> Iterator[Said]:
    for measure in case.pattern.materials.measures:
        what = _body_part(case, measure)
        if what is None:
            continue
        for index, value in enumerate(measure.inches if not measure.ranged else measure.inches[:1]):
            name = _name_of(case, measure, index)
            known = [body for body in bodies() if body.measure == what and name.lower() in body.names]
            if name and known and (said := _off(measure, what, name, value, known)):
                yield said
    yield from feet_off_standard(case)


def _body_part(case: Case, measure: Measure) -> str | None:
    """Return the part of the body that a measurement is for: what it says, or the head for the opening of a hat."""
    if measure.what in ("chest", "head"):
        return measure.what
    title = case.draft.text[:200].split("\n\n")[0]
    return "head" if measure.what == "around" and _HEADWEAR.search(title) else None


def _name_of(case: Case, measure: Measure, index: int) -> str:
    """Return the name of the size that a value is for: by its place in the list, or the word before a single value."""
    names = case.pattern.sizes.names
    if len(measure.inches) == len(names) and len(names) > 1 and not measure.ranged:
        # sizes 1 to 9 are but counted: the 6th of them is not what shops call a 6
        return "" if names == tuple(str(number + 1) for number in range(len(names))) else names[index]
    if index or (len(measure.inches) > 1 and not measure.ranged):
        return ""
    before = case.draft.text[max(0, measure.span.start - 30) : measure.span.start].split("\n")[-1]
    match = re.search(r"([A-Za-z]+)\s*[(:=\u2013-]+\s*$", before)
    return match[1] if match else ""


def _off(measure: Measure, what: str, name: str, value: float, known: Sequence[Body]) -> Said | None:
    least, most = min(body.least for body in known), max(body.most for body in known)
    finished = measure.what == "around" or (what == "chest" and not measure.body)
    below, above = (5.0, 3.0) if what == "head" else (6.0, 16.0) if finished else (3.0, 3.0)
    if least - below <= value <= most + above:
        return None
    difference = value - (least if value < least else most)
    noun = {"head": "heads", "chest": "chests"}[what]
    unit = measure.unit
    span_words = _length(least, unit) if least == most else f"{_length(least, unit)} to {_length(most, unit)}"
    side = "less" if difference < 0 else "more"
    nearest = least if value < least else most
    sums = (
        f"{_length(value, unit)} - {_length(nearest, unit)} = {_length(abs(difference), unit)} {side}"
        + (", the ease of the finished piece" if finished else ""),
        "tables give averages, and no table tells whether a piece fits",
    )
    message = f'"{name}" is {_length(value, unit)} here, and the published {noun} of that size are {span_words}'
    return Said(measure.span, message, sum=sums)


# ---------------------------------------------------------------- the rules

_ROUNDS = "Rnd 1: Ch 2, 6 sc in 2nd ch from hook. (6)\nRnd 2: 2 sc in each sc. (12)\n"
_TUBE = "Ch 40, join.\nRnd 1: sc in each ch. (40)\nRnds 2-8: sc in each sc. (40)\n"
_SCARF = (
    "Ch 21.\nRow 1: sc in 2nd ch from hook and in each ch, turn. (20)\nRows 2-24: ch 1, sc in each sc, turn. (20)\n"
)

WIDTH_DOES_NOT_FOLLOW = Rule(
    name="width-does-not-follow",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="The stitches divided by the gauge are not the width, or the measure around, that the draft states.",
    why="The piece comes out in another size, however carefully the maker keeps to the gauge.",
    limits="Only for one piece that is all in rounds or all in rows, with one gauge in the stitch it is worked in. "
    "Silent where any count of the piece gives the measurement, within an eighth of it: brims and bodies differ. A "
    "body to be fitted is no measure of the piece.",
    source=_PRACTICE,
    examples=(
        Flags(f"Cowl\nGauge: 16 sc and 18 rows = 4 in\nFinished: ⟦14 in⟧ around\n\n{_TUBE}"),
        Flags(f"Scarf\nGauge: 16 sc and 18 rows = 10 cm\nFinished: ⟦20 cm⟧ wide\n\n{_SCARF}"),
        Flags("Gauge: 20 sts = 4 in\nBack: cast on 110 sts. Work in St st.\nThe back measures ⟦20⟧ inches across.\n"),
        Passes("Gauge: 20 sts = 4 in\nBack: cast on 110 sts. Work in St st.\nThe back measures 22 inches across.\n"),
        Passes(
            "Gauge: 20 sts = 4 in\nBack: cast on 110 sts. Work in St st.\nThe back measures 20 inches across, "
            "stretched.\n"
        ),
        Flags(
            "Gauge: 16 sc = 4 in\nFinished width: ⟦24 in⟧\nCh 81.\n"
            "Row 1: Sc in 2nd ch from hook and in each ch across. 80 sc.\n"
        ),
        Passes(f"Cowl\nGauge: 16 sc and 18 rows = 4 in\nFinished: 10 in around\n\n{_TUBE}"),
        Passes(f"Cowl\nGauge: 16 sc and 18 rows = 4 in\nTo fit 14 in around\n\n{_TUBE}"),
        Passes(f"Cowl\nGauge: 16 dc and 8 rows = 4 in\nFinished: 14 in around\n\n{_TUBE}"),
        Passes(f"Cowl\nGauge isn't critical: 16 sc = 4 in\nFinished: 14 in around\n\n{_TUBE}"),
    ),
    check=_width_does_not_follow,
)

LENGTH_DOES_NOT_FOLLOW = Rule(
    name="length-does-not-follow",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="The rows divided by the gauge are not the length that the draft states.",
    why="The piece comes out too short or too long, and the yarn with it.",
    limits="Only for one piece without shaping of which every row is worked, with one gauge that gives rows in its "
    "stitch. A fifth of the length, and an inch at least, is allowed for borders and blocking.",
    source=_PRACTICE,
    examples=(
        Flags(f"Scarf\nGauge: 16 sc and 18 rows = 4 in\nFinished: ⟦8 in⟧ long\n\n{_SCARF}"),
        Passes(f"Scarf\nGauge: 16 sc and 18 rows = 4 in\nFinished: 5¼ in long\n\n{_SCARF}"),
        Passes(f"Scarf\nGauge: 16 sc = 4 in\nFinished: 8 in long\n\n{_SCARF}"),
        Passes(
            f"Scarf\nGauge: 16 sc and 18 rows = 4 in\nFinished: 8 in long\n\n{_SCARF}Repeat row 2 until 8 in long.\n"
        ),
    ),
    check=_length_does_not_follow,
)

SIZE_OFF_STANDARD = Rule(
    name="size-off-standard",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A measurement far from what the published tables say for a size of that name.",
    why="A maker who chooses by the name of the size gets a piece for somebody else.",
    limits="Names that the tables don't have are passed over. Tables disagree, and give averages: only what is several "
    "inches off is asked about, with the ease shown. No table tells whether a piece fits, and nor does this rule.",
    source=_TABLES,
    examples=(
        Flags(f"Hat\nSizes: Newborn (Toddler)\nAround: ⟦22 (18) in⟧\n\n{_ROUNDS}Rnd 3: sc in each of 6 (12) sc.\n"),
        Flags(f"Hat\nNewborn: ⟦24 in⟧ around\n\n{_ROUNDS}"),
        Flags(f"Sock\nTo fit women's US shoe size 6-9\nFoot ⟦14 in⟧ long\n\n{_ROUNDS}"),
        Passes(f"Sock\nTo fit women's US shoe size 6-9\nFoot 9 in long\n\n{_ROUNDS}"),
        Passes(f"Hat\nNewborn: 13 in around\n\n{_ROUNDS}"),
        Passes(f"Basket\nNewborn: 24 in around\n\n{_ROUNDS}"),
        Passes(f"Hat\nSkipper: 30 in around\n\n{_ROUNDS}"),
        Passes(f"Jumper\nSizes: 1 (2, 3)\nChest: 92 (99, 115) cm\n\n{_ROUNDS}Rnd 3: sc in each of 12 (12, 12) sc.\n"),
    ),
    check=_size_off_standard,
)

RULES = (
    WIDTH_DOES_NOT_FOLLOW,
    LENGTH_DOES_NOT_FOLLOW,
    SIZE_OFF_STANDARD,
)
