"""Outlines, worked by hand: how far out the edge is, how far a piece rises, from where it is seen."""

from __future__ import annotations

from dataclasses import replace
from math import pi, sqrt

import pytest
from rowcall.reports.outline import Outline, Stated, View, outline
from rowcall.reports.pieces import Course, Piece


def course(rows: int, width: int | None, *, says: int | None = None, height: float = 1.0, unit: str = "sts") -> Course:
    """Return rounds that end on some stitches."""
    return Course("Rnd", 1, rows, width, width, says, height, unit)


def piece(base: int | None, *courses: Course, flat: bool = False) -> Piece:
    """Return a piece in one size."""
    return Piece((), 0, flat, base, courses)


def drawn(one: Piece) -> Outline:
    """Return the outline of a piece that has one."""
    found = outline(one)
    assert found is not None
    return found


def edge(one: Piece) -> list[tuple[float, float]]:
    """Return the points of an outline: how far out, in stitches around or across, and how far on."""
    out = 2.0 if one.flat else 2 * pi
    return [(round(point.x * out, 3), round(point.y, 3)) for point in drawn(one).points]


def test_a_tube_rises_by_the_height_of_its_rounds() -> None:
    # 64 around: the radius is 64 / 2 pi; 3 rounds of 1 and 4 of 2 rise 3 and 8
    assert edge(piece(64, course(3, 64), course(4, 64, height=2.0))) == [(64, 0), (64, 3), (64, 11)]


def test_rows_are_as_wide_as_their_stitches_and_centred() -> None:
    tube = drawn(piece(20, course(10, 20), course(5, 10), flat=True))

    assert tube.view is View.LAID
    assert [(point.x, point.y) for point in tube.points] == [(10, 0), (10, 10), (5, 15)]


def test_a_cone_rises_less_than_its_rounds_are_tall() -> None:
    # from 60 to 48 in 4 rounds: 3 stitches a round, 3 / 2 pi = 0.4775 further in; sqrt(1 - 0.228) = 0.8787 up
    # eased over its neighbours, an even slope stays as it is
    rise = sqrt(1 - (3 / (2 * pi)) ** 2)

    assert round(rise, 4) == 0.8787
    assert edge(piece(60, course(1, 57), course(1, 54), course(2, 48))) == [
        (60, 0),
        (57, round(rise, 3)),
        (54, round(2 * rise, 3)),
        (48, round(4 * rise, 3)),
    ]


def test_rounds_that_take_turns_make_an_even_slope() -> None:
    # every other round takes 8 away: eased, each takes 4; (4 / 2 pi) = 0.6366, sqrt(1 - 0.4053) = 0.7712 up
    # the first and the last point stay: the first round goes in by 6, which is 0.955 of its height and so lies flat,
    # the last by 2: 0.3183 in, sqrt(1 - 0.1013) = 0.9480 up
    points = edge(piece(32, course(1, 24), course(1, 24), course(1, 16), course(1, 16)))

    assert [x for x, _ in points] == [32, 26, 22, 18, 16]
    assert [y for _, y in points] == [0.0, 0.0, 0.771, 1.542, 2.49]


def test_a_circle_lies_flat_and_is_seen_from_above() -> None:
    # 6 more each round is 0.955 of its height further out: it lies flat
    circle = drawn(piece(0, *(course(1, 6 * number) for number in range(1, 6))))

    assert (circle.view, circle.height) == (View.ABOVE, 0.0)
    assert [point.stitches for point in circle.points] == [0, 6, 12, 18, 24, 30]


def test_a_basket_has_a_flat_base_and_sides_that_stand() -> None:
    basket = drawn(piece(0, *(course(1, 6 * number) for number in range(1, 6)), course(10, 30)))

    assert basket.view is View.SIDE
    # the corner is eased to (24 + 60 + 30) / 4 = 28.5: 4.5 stitches from 24, 0.7162 out, sqrt(1 - 0.5129) = 0.6979 up,
    # then 1.5 to 30, 0.2387 out, sqrt(1 - 0.057) = 0.9711 up; the 9 rounds after that rise 1 each
    assert round(basket.height, 3) == 10.669
    assert (basket.widest, basket.narrows) == (30, False)


@pytest.mark.parametrize(
    ("courses", "points", "undrawn"),
    [
        # what the draft states of an unread round serves for its width
        ([course(1, 20), course(1, None, says=30), course(1, 40)], [(20, True), (30, False), (40, True)], 0),
        # where it states nothing, the width goes evenly to the next one known
        (
            [course(1, 20), course(1, None), course(1, None), course(1, 50)],
            [(20, True), (30, False), (40, False), (50, True)],
            0,
        ),
        # a count of shells is no width
        (
            [course(1, 20), course(1, None, says=5, unit="shells"), course(1, 20)],
            [(20, True), (20, False), (20, True)],
            0,
        ),
        # after the last width known nothing is drawn
        ([course(1, 20), course(3, None)], [(20, True)], 3),
    ],
)
def test_rounds_that_were_not_worked(courses: list[Course], points: list[tuple[int, bool]], undrawn: int) -> None:
    found = drawn(piece(20, *courses, flat=True))

    assert [(point.stitches, point.known) for point in found.points[1:]] == points
    assert found.undrawn == undrawn


def test_what_the_draft_says_otherwise_is_marked() -> None:
    marked = drawn(piece(20, course(2, 20, says=20), course(1, 18, says=16), flat=True))

    assert marked.stated == (Stated(8.0, 3.0, "says 16", "Rnd says 16, makes 18"),)


def test_nothing_worked_gives_no_outline() -> None:
    assert outline(piece(None, course(4, None, says=20))) is None
    assert outline(piece(None)) is None


def test_a_piece_of_a_million_rounds_costs_no_more_than_one_of_a_few() -> None:
    tall = drawn(piece(20, course(1_000_000, 20)))

    assert (len(tall.points), tall.height) == (2, 1_000_000.0)


def test_rounds_until_a_measurement_are_drawn_in_a_length_that_is_not_known() -> None:
    tube = drawn(piece(20, course(2, 20), replace(course(1, 20), measured=True), course(1, 20), flat=True))

    assert [(point.y, point.known) for point in tube.points] == [(0, True), (2, True), (10, False), (11, True)]


def test_a_long_course_bends_only_at_its_ends() -> None:
    # 10 rounds on 20, then 0.6 away in each of 10: the corner is eased to (20 + 40 + 19.4) / 4 = 19.85
    points = drawn(piece(20, course(10, 20), course(10, 14))).points

    assert [(round(point.x * 2 * pi, 3), point.within) for point in points] == [
        (20, False),
        (20, True),
        (19.85, False),
        (19.4, True),
        (14, False),
    ]
