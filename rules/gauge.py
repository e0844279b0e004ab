"""Fit: whether a gauge says all that a swatch needs, and the same in both units."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from ..lint.finding import Level
from ..lint.later import later
from .materials import body_start, number
from .rule import Case, Flags, Passes, Rule, Said
from .sums import join_words

_FAMILY = "fit"


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
        if (
            _is_whole(case)
            and not case.pattern.materials.tools
            and not _TOOL.search(case.draft.text, 0, body_start(case))
        ):
            lacks.append("with which needles" if case.pattern.craft == "knitting" else "with which hook")
        if lacks:
            yield Said(gauge.span, f"the gauge doesn't say {join_words(lacks)}")


_TOOL = later(
    r"(?i)(?:\d\s*mm\b|\b(?:hooks?|needles?|dpns?|circulars?)\b\W*(?:\w+\W+){0,2}?(?:[A-Q]\b|\d)|\b(?:[A-Q]|\d{1,2})\s*(?:crochet\s+)?(?:hook|needles?)\b|"
    r"\b(?:hook|needles?)\b[^.\n]{0,30}\b(?:you|suit|needed|obtain|get|give)\w*)"
)


def _is_whole(case: Case) -> bool:
    """Tell whether there are more rounds than the one or two of a piece of a draft, whose head stands elsewhere."""
    return sum(not round_.foundation for round_ in case.pattern.rounds) > 1


_MEASURED = later(r"(?i)\b(?:measures?|desired|long\s+enough|length|inches|in\.|cm)\b")


def _length_by_rows(case: Case) -> bool:
    """Tell whether a length is promised and the rows alone bring it about: none is worked to a measurement."""
    lengths = [one for one in case.pattern.materials.measures if one.what == "length" and not one.body]
    rounds = [round_ for round_ in case.pattern.rounds if not round_.foundation]
    if not lengths or len(rounds) < _FEWEST_ROUNDS:
        return False
    return not any(_MEASURED.search(case.draft.words(round_.span)) for round_ in rounds)


_FEWEST_ROUNDS = 5


_PATTERNED = later(
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


_SECOND = later(
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


_ROUNDS = "Rnd 1: Ch 2, 6 sc in 2nd ch from hook. (6)\nRnd 2: 2 sc in each sc. (12)\n"

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

RULES = (GAUGE_INCOMPLETE, GAUGE_CONTRADICTS)
