"""Random knitting in random hands: lace, cables, raglans, shaping; and the knitting itself, against counts by hand."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import Phase, given, settings
from hypothesis.strategies import randoms

from second.comparing import disagreements_in_knitting, is_corrected, knitted_with_a_wrong_count
from second.knit_writing import write_piece
from second.knitted import Knitted, knitted_pieces
from second.knitting import (
    BindOff,
    BoundOff,
    Cable,
    CastOnMore,
    Change,
    Group,
    Knit,
    KnitLine,
    KnitRow,
    KnitStep,
    LinesAgain,
    Piece,
    PlaceMarker,
    PlainRows,
    Shaped,
    Slip,
    SlipMarker,
    Spread,
    ToEnd,
    ToMarker,
    Turn,
)
from second.laying import DoesNotFit
from second.needles import LOOP, knit, knit_row, loops
from second.test_second import FIXED

# a failing draft is shown as it is: making it smaller takes minutes, and a piece is short
WHOLE = settings(FIXED, phases=(Phase.generate,))
ONE = (1,)


@settings(WHOLE, max_examples=400)
@given(knitted_pieces(), randoms(use_true_random=False))
def test_every_row_is_worked_as_it_is_knitted(knitted: Knitted, hand: Random) -> None:
    written = write_piece(knitted.piece, knitted.needles, hand)

    assert disagreements_in_knitting(knitted, written) == [], written.text


@settings(WHOLE, max_examples=150)
@given(knitted_pieces(), randoms(use_true_random=False))
def test_a_wrong_count_in_knitting_is_corrected(knitted: Knitted, hand: Random) -> None:
    written, altered = knitted_with_a_wrong_count(knitted, hand)

    assert is_corrected(written, altered), f"{altered}\n{written.text}"


def k(number: int) -> Knit:
    return Knit("k", (number,))


def one(name: str) -> Change:
    return Change(name, ONE)


RAGLAN = (ToMarker("k", 1), one("kfb"), SlipMarker(), one("kfb"))
FAN = (
    Group((one("k2tog"),), (3,)),
    Group((one("yo"), k(1)), (6,)),
    Group((one("k2tog"),), (3,)),
)


@pytest.mark.parametrize(
    ("on", "steps", "after"),
    [
        (10, (k(2), one("k2tog"), ToEnd("k")), 9),
        (10, (one("kfb"), ToEnd("k", ONE), one("kfb")), 12),
        (21, (k(1), Group((one("yo"), k(3), one("sk2p"), k(3), one("yo"), k(1)))), 21),  # two times ten and one
        (18, FAN, 18),  # 3 of 6, 12 of 6, 3 of 6
        (12, (Group((k(2), one("m1"))),), 18),
        (20, (Group((k(2), one("yo"), one("ssk")), leave=(4,)), k(4)), 20),
        (12, (k(2), Cable(4, front=True), Cable(6, front=False)), 12),
        (30, (BindOff((5,)), ToEnd("k")), 25),
        (30, (k(10), BindOff((6,)), CastOnMore((2,)), ToEnd("k")), 26),
        (10, (Slip(ONE), ToEnd("p")), 10),
        (20, (k(15), Turn(), Knit("p", (10,)), Turn(), ToEnd("k")), 20),
    ],
)
def test_a_row_is_knitted(on: int, steps: tuple[KnitStep, ...], after: int) -> None:
    assert loops(knit_row(steps, (LOOP,) * on, 0, around=False)) == after


@pytest.mark.parametrize(
    "steps",
    [
        (k(9),),  # one left over
        (k(11),),  # one short
        (Group((k(2), one("yo"), one("k2tog"))),),  # four doesn't go into ten
        (ToMarker("k"), ToEnd("k")),  # no marker there
        (Group((one("yo"),)),),  # never comes to an end
    ],
)
def test_what_does_not_fit_is_not_knitted(steps: tuple[KnitStep, ...]) -> None:
    with pytest.raises(DoesNotFit):
        knit_row(steps, (LOOP,) * 10, 0, around=False)


# 30 loops in three parts; each of two markers adds two a row, wherever the row turns.
@pytest.mark.parametrize("around", [True, False])
def test_a_raglan_grows_at_its_markers(*, around: bool) -> None:
    row = KnitRow((Group(RAGLAN, (2,)), ToEnd("k")), ONE)
    back = KnitRow((Group((ToMarker("p"), SlipMarker()), (2,)), ToEnd("p")), ONE)
    set_up = KnitRow((k(10), PlaceMarker(), k(10), PlaceMarker(), k(10)), ONE)
    lines: tuple[KnitLine, ...] = (set_up, row, back, LinesAgain(1, 2, (3,)))

    assert [loops(needle) for needle in knit(Piece((), (30,), lines, around), 0)] == [30, 34, 34, 46]


# 40; five rows of two fewer; four bound off in each of two rows; 6 more and 2 fewer somewhere; plain rows.
def test_rows_told_together() -> None:
    lines = (Shaped(-1, 4, (5,)), BoundOff((4,), 2), Spread(1, (6,)), Spread(-1, (2,)), PlainRows((3,)))

    assert [loops(needle) for needle in knit(Piece((), (40,), lines), 0)] == [30, 22, 28, 26, 26]
