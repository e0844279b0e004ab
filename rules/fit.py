"""Fit: the gauge, measurements against stitches and rows, and sizes against the published tables of bodies."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from ..lint.finding import Aside, Level
from ..lint.materials import Gauge, Measure
from ..lint.trade.goods import Body, bodies
from ..lint.workings import RoundWorking, SizeWorking, Standing
from .feet import feet_off_standard
from .materials import body_start, number
from .rule import Case, Flags, Passes, Rule, Said
from .sums import join_words, size_name

_FAMILY = "fit"
_PRACTICE = (
    "common practice of tech editing: stitches divided by gauge give the width, rows divided by gauge the length"
)
_TABLES = "Craft Yarn Council, Standards and Guidelines, body measurements; charts of heads named in the table"
_SHARE = 0.12  # of a measurement that gauge and rounding may take or give
_LEAST = 0.75  # inches, likewise


# ---------------------------------------------------------------- the gauge itself


def _gauge_incomplete(case: Case) -> Iterator[Said]:
    for gauge in case.pattern.materials.gauges:
        if gauge.loose or gauge.motif or (gauge.stitches is None and gauge.rows is None):
            continue
        lacks: list[str] = []
        if gauge.stitches is None:
            lacks.append("stitches")
        if (gauge.stitches and not gauge.width) or (gauge.rows and not gauge.height):
            lacks.append("over what length")
        if (
            gauge.stitches
            and gauge.stitch is None
            and not _PATTERNED.search(case.words(gauge.span))
            and _several_stitches(case)
        ):
            lacks.append("in which stitch")
        if gauge.rows is None and _length_by_rows(case):
            lacks.append("how many rows")
        if not case.pattern.materials.tools and not _TOOL.search(case.draft.text, 0, body_start(case)):
            lacks.append("with which needles" if case.pattern.craft == "knitting" else "with which hook")
        if lacks:
            yield Said(gauge.span, f"the gauge doesn't say {join_words(lacks)}")


_TOOL = re.compile(
    r"(?i)(?:\d\s*mm\b|\b(?:hooks?|needles?|dpns?|circulars?)\b\W*(?:\w+\W+){0,2}?(?:[A-Q]\b|\d)|\b(?:[A-Q]|\d{1,2})\s*(?:crochet\s+)?(?:hook|needles?)\b|"
    r"\b(?:hook|needles?)\b[^.\n]{0,30}\b(?:you|suit|needed|obtain|get|give)\w*)"
)
_MEASURED = re.compile(r"(?i)\b(?:measures?|desired|long\s+enough|length|inches|in\.|cm)\b")


def _length_by_rows(case: Case) -> bool:
    """Tell whether a length is promised and the rows alone bring it about: none is worked to a measurement."""
    lengths = [one for one in case.pattern.materials.measures if one.what == "length" and not one.body]
    rounds = [round_ for round_ in case.pattern.rounds if not round_.foundation]
    if not lengths or len(rounds) < _FEWEST_ROUNDS:
        return False
    return not any(_MEASURED.search(case.draft.words(round_.span)) for round_ in rounds)


_FEWEST_ROUNDS = 5


_PATTERNED = re.compile(
    r"(?i)\b(?:pat(?:t(?:ern)?)?|stock\w*|st\s*st|garter|rib\w*|moss|seed|lace|in\s+\w+|over\s+\w+|meshes|groups?|shells?|clusters?|repeats?|cable\w*)\b"
)


def _several_stitches(case: Case) -> bool:
    """Tell whether the rounds are in more than one stitch, so that a gauge in stitches alone may be of either."""
    kinds: Counter[str] = Counter()
    for working in case.workings.rounds:
        for own in working.sizes[:1]:
            if own is not None and own.kinds:
                kinds[max(own.kinds, key=lambda pair: pair[1])[0]] += own.rounds
    plain = [kind for kind, rounds in kinds.items() if kind in ("sc", "hdc", "dc", "tr") and rounds >= 3]
    return case.pattern.craft == "crochet" and len(plain) > 1


_SECOND = re.compile(
    r"(?i)(?P<first>\d+(?:\.\d+)?)\s*(?P<what>sts?|stitches|sc|hdc|dc|h?tr)\b[^.;\n(]{0,40}?"
    r"(?P<inches>\d+(?:\.\d+)?)\s*(?:in(?:ch(?:es)?)?\b|[\"\u201d\u2033])\s*[/(,=or ]+\s*"
    r"(?P<second>\d+(?:\.\d+)?)\s*(?P=what)\b[^.;\n)]{0,40}?(?P<cm>\d+(?:\.\d+)?)\s*cm\b"
)


def _gauge_contradicts(case: Case) -> Iterator[Said]:
    for gauge in case.pattern.materials.gauges:
        for match in _SECOND.finditer(case.draft.words(gauge.span)):
            inches, centimetres = float(match["inches"]), float(match["cm"])
            if not inches or not centimetres:
                continue
            by_inch, by_cm = float(match["first"]) / inches, float(match["second"]) / centimetres * 2.54
            if abs(by_inch - by_cm) > 0.06 * by_inch:
                what = match["what"]
                sums = (
                    f"{match['first']} {what} / {match['inches']} in = {number(by_inch)} an inch",
                    f"{match['second']} {what} / {match['cm']} cm x 2.54 = {number(by_cm)} an inch",
                )
                yield Said(
                    gauge.span,
                    f"the gauge in inches is {number(by_inch)} {what} an inch, the one in cm {number(by_cm)}",
                    sum=sums,
                )


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
            if counts[main] >= 3 and not near:
                off.append((size, main, stated))
        if off:
            yield _said_width(case, measure, gauge, off)


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

_HEADWEAR = re.compile(r"(?i)\b(?:hats?|beanies?|caps?|bonnets?|slouch|berets?)\b")


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

GAUGE_INCOMPLETE = Rule(
    name="gauge-incomplete",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A gauge that gives no stitches, or doesn't say over what length, in which stitch, how many rows, or with "
    "which hook or needles.",
    why="A maker can't check it with a swatch.",
    limits="Silent where the draft says that the gauge doesn't matter, where it gives the size of the first rounds "
    "instead. The stitch is asked for where the rounds are in more than one, rows where the draft promises a length "
    "and no round is worked to a measurement, the hook or needles where no size of them stands anywhere.",
    source="common practice of tech editing: a gauge states stitches, rows, pattern and tool",
    examples=(
        Flags(f"Cap, 4 mm hook\n⟦Gauge: 12 rows = 4 in⟧\n\n{_ROUNDS}"),
        Flags(f"Cap, 4 mm hook\n⟦Gauge: 14 sc and 12 rows⟧\n\n{_ROUNDS}"),
        Flags(
            f"Cap, 4 mm hook\n⟦Gauge: 14 sts = 4 in⟧\n\n{_ROUNDS}Rnd 3: sc in each st. (12)\n"
            "Rnd 4: sc in each st. (12)\nRnd 5: hdc in each st. (12)\nRnd 6: hdc in each st. (12)\n"
            "Rnd 7: hdc in each st. (12)\n"
        ),
        Flags(f"Cap\n⟦Gauge: 14 sc and 16 rows = 4 in⟧\n\n{_ROUNDS}"),
        Flags(
            f"Cuff, 4 mm hook\nFinished: 6 in long\n⟦Gauge: 14 sc = 4 in⟧\n\n{_ROUNDS}"
            "Rnd 3: sc in each st. (12)\nRnd 4: sc in each st. (12)\nRnd 5: sc in each st. (12)\n"
        ),
        Passes(f"Cap, 4 mm hook\nGauge: 14 sc and 16 rows = 4 in\n\n{_ROUNDS}"),
        Passes(f"Cap\nGauge isn't critical.\n\n{_ROUNDS}"),
        Passes(f"Cap\nGauge: rounds 1-3 = 2 in across\n\n{_ROUNDS}"),
        Passes(f"Cap\nGauge: 14 sts = 4 in, with the hook that gives it\n\n{_ROUNDS}"),
        Passes(f"Cap, hook H\nGauge: 14 sts = 4 in\n\n{_ROUNDS}"),
    ),
    check=_gauge_incomplete,
)

GAUGE_CONTRADICTS = Rule(
    name="gauge-contradicts",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="A gauge given twice, in inches and in centimetres, that is not the same.",
    why="Makers who use the one get another size than those who use the other.",
    limits="A difference of one stitch in sixteen is rounding. Two gauges for two hooks or two patterns are "
    "no contradiction.",
    source="16 CFR 500.19 (conversion factors); 4 in stands for 10 cm in the trade",
    examples=(
        Flags(f"Cap\n⟦Gauge: 16 sc = 4 in (20 sc = 10 cm)⟧\n\n{_ROUNDS}"),
        Passes(f"Cap\nGauge: 16 sc = 4 in (16 sc = 10 cm)\n\n{_ROUNDS}"),
        Passes(f"Cap\nGauge: 4 sc = 1 in (16 sc = 10 cm)\n\n{_ROUNDS}"),
        Passes(f"Cap\nGauge: 16 sc = 4 in / 10 cm; 20 sc = 10 cm with the small hook\n\n{_ROUNDS}"),
    ),
    check=_gauge_contradicts,
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
    GAUGE_INCOMPLETE,
    GAUGE_CONTRADICTS,
    WIDTH_DOES_NOT_FOLLOW,
    LENGTH_DOES_NOT_FOLLOW,
    SIZE_OFF_STANDARD,
)
