"""The drawing of a shape: sizes alike drawn once, labels that don't touch, plots that tell the counts."""

from __future__ import annotations

from itertools import pairwise

from rowcall.lint.proof import proof
from rowcall.reports.drawing import Shape, shapes

HEAD = "US terms\nSizes: Small (Medium, Large)\n\n"
TUBE = HEAD + (
    "Ch 20 (20, 30), join with sl st to first ch.\n"
    "Rnd 1: Sc in each ch around. 20 (20, 30) sc\n"
    "Rnds 2-5: Sc in each st around. 20 (20, 30) sc\n"
)
BALL = (
    "US terms\n\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: Inc around. (13)\nRnd 3: Work as the tide allows.\n"
    "Rnd 4: 12 sc. (12)\n"
)


def only(text: str) -> Shape:
    """Return the shape of a draft in one piece."""
    (shape,) = shapes(proof(text))
    return shape


def test_sizes_worked_alike_are_drawn_once() -> None:
    shape = only(TUBE)

    assert [figure.sizes for figure in shape.figures] == [(0, 1), (2,)]
    assert shape.plot is not None
    assert [curve.sizes for curve in shape.plot.curves] == [(0, 1), (2,)]
    assert shape.figures[0].words == ("5 rounds, from 20 sts to 20 sts.",)


def test_sizes_are_drawn_to_one_scale_in_pictures_of_one_size() -> None:
    small, large = (figure.sketch for figure in only(TUBE).figures)

    assert small is not None
    assert large is not None
    assert (small.width, small.height, small.bar) == (large.width, large.height, large.bar)
    # 30 sts around fill 190 points, 14 points from the left: the middle is at 14 + 95; 20 sts are two thirds of that
    assert (large.middle[0], round(small.middle[0], 1)) == (109.0, 77.3)


def test_labels_do_not_touch() -> None:
    for text in (TUBE, BALL):
        for figure in only(text).figures:
            assert figure.sketch is not None
            heights = [label.y for label in figure.sketch.labels]
            assert all(below - above >= 15 for above, below in pairwise(heights))


def test_a_plot_tells_what_is_worked_and_what_is_stated() -> None:
    plot = only(TUBE).plot

    assert plot is not None
    # 5 rounds between 30 and 368 points, 0 to 30 stitches between 180 and 24
    assert [text for _, text in plot.across] == ["1", "2", "3", "4", "5"]
    assert [text for _, text in plot.up] == ["0", "10", "20", "30"]
    assert plot.curves[1].worked == "M30 24L368 24"
    assert plot.curves[1].stated == ((30.0, 24.0), (368.0, 24.0))
    assert plot.curves[0].stated == ((30.0, 76.0), (368.0, 76.0))


def test_counts_that_differ_are_crossed_and_gaps_stay_gaps() -> None:
    shape = only(BALL)

    assert shape.plot is not None
    (curve,) = shape.plot.curves
    assert (len(curve.stated), len(curve.crosses), curve.worked.count("M")) == (2, 1, 2)
    assert "Rnd 2 says 13, makes 12" in " ".join(shape.figures[0].words)


def test_nothing_worked_is_said() -> None:
    shape = only("US terms\n\nRnd 1: Work as the tide allows. (6)\n")

    assert [(figure.sketch, figure.words) for figure in shape.figures] == [
        (None, ("1 round. Nothing of this piece was worked, so nothing is drawn.",))
    ]
    assert shapes(proof("A poem.")) == ()
