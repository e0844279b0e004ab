"""The scale of a drawing: by the draft's gauge, worked by hand, or by what is said to be assumed."""

from __future__ import annotations

import pytest
from rowcall.lint.proof import proof
from rowcall.reports.drawing import shapes
from rowcall.reports.scale import Scale, length_words, scale_of

SC, DC = (("sc", 10),), (("dc", 10),)


def scaled(gauge: str, craft: str = "Crochet, US terms.") -> Scale:
    """Return the scale of a draft with a gauge."""
    return scale_of(proof(f"{craft}\n{gauge}\n\nRnd 1: 6 sc in magic ring. (6)\n"))


@pytest.mark.parametrize(
    ("gauge", "wide", "unit", "sc", "dc"),
    [
        # 10 cm / 20 sts; a row of sc is 10 / 25 = 0.4 cm, 0.8 of a stitch, and dc is twice as tall
        ("Gauge: 20 sts and 25 rows in sc = 10 cm", 0.5, "cm", 0.8, 1.6),
        # 4 in / 16 sts; a row of dc is 4 / 8 = 0.5 in, two stitches, and sc half as tall
        ("Gauge: 16 sts and 8 rows in dc = 4 in", 0.25, "in", 1.0, 2.0),
        # no rows: a row of sc is as tall as a stitch is wide
        ("Gauge: 16 sts in sc = 4 in", 0.25, "in", 1.0, 2.0),
        ("", None, "", 1.0, 2.0),
        # two gauges: which of them holds isn't known
        ("Gauge: 16 sts in sc = 4 in\nGauge: 20 sts in dc = 4 in", None, "", 1.0, 2.0),
    ],
)
def test_stitches_and_rows(gauge: str, wide: float | None, unit: str, sc: float, dc: float) -> None:
    scale = scaled(gauge)

    assert (scale.wide, scale.unit) == (wide, unit)
    assert (round(scale.row(SC), 9), round(scale.row(DC), 9)) == (sc, dc)


def test_where_the_scale_is_from_is_said() -> None:
    assert scaled("Gauge: 20 sts and 25 rows in sc = 10 cm").words.startswith(
        'Drawn to the gauge that the draft states, "Gauge: 20 sts and 25 rows in sc = 10 cm"; rows of other stitches'
    )
    assert "which gives no rows: a row of single crochet is taken" in scaled("Gauge: 16 sts in sc = 4 in").words
    assert scaled("").words.startswith("No gauge was read, so a row of single crochet is taken to be as tall")


def test_knitted_rows_are_three_quarters_as_tall() -> None:
    scale = scale_of(proof("Knitting.\n\nCast on 20 sts.\nRow 1: Knit.\nRow 2: Purl.\n"))

    assert (scale.wide, scale.row((("k", 20),))) == (None, 0.75)


@pytest.mark.parametrize(
    ("length", "unit", "words"), [(51.43, "cm", "51.5 cm"), (51.2, "cm", "51 cm"), (20.0, "in", "20 in")]
)
def test_lengths_are_said_to_the_nearest_half(length: float, unit: str, words: str) -> None:
    assert length_words(length, unit) == words


COWL = """\
Crochet, US terms.
Finished circumference: {around} cm
Gauge: 20 sts and 25 rows in sc = 10 cm

Ch 100, join with sl st to first ch.
Rnds 1-50: Ch 1, sc in each st around, join. 100 sc
"""


def test_a_measurement_is_said_and_marked_only_where_it_differs() -> None:
    # 100 sts of 0.5 cm are 50 cm around; 50 rounds of 0.4 cm are 20 cm tall
    (fits,), (differs,) = shapes(proof(COWL.format(around=50))), shapes(proof(COWL.format(around=70)))

    assert fits.figures[0].words == (
        "50 rounds, from 100 sts to 100 sts.",
        "50 cm around, 20 cm from start to end.",
        "The draft states 50 cm around.",
    )
    assert differs.figures[0].words[2:] == (
        "The draft states 70 cm around.",
        "Crossed where the draft says otherwise: 70 cm around stated, 50 cm made.",
    )
    drawn, marked = fits.figures[0].sketch, differs.figures[0].sketch
    assert drawn is not None
    assert marked is not None
    assert (drawn.crosses, len(marked.crosses)) == ((), 2)
    assert [label.text for label in marked.labels if label.said] == ["stated 70 cm"]
    # the crosses are 70 cm around apart where the piece is 50: 1.4 times as far
    left, right = marked.fill.split("L")[0][1:], marked.fill.split("L")[2]
    piece = float(right.split()[0]) - float(left.split()[0])
    assert round((marked.crosses[1][0] - marked.crosses[0][0]) / piece, 2) == 1.4
    assert "50 sts" not in {label.text for label in marked.labels}
