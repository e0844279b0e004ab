"""Sentences that stand for several rows."""

from __future__ import annotations

from rowcall.lint.draft import Span
from rowcall.lint.reading.said import read_sayings
from rowcall.lint.said import Sayings


def _said(text: str) -> Sayings:
    return read_sayings(text, [Span(0, len(text))], ())


def test_shaping_to_a_schedule() -> None:
    (one,) = _said(
        "Cap: 42 (46) sts.\nDec 1 st each end every row 4 (5) times, then every other row 8 (7) times. 20 (22) sts.\n"
    ).schedules
    assert (one.change, one.before.values, one.after.values) == (-2, (42, 46), (20, 22))
    assert [figure.values for figure in one.times] == [(4, 5), (8, 7)]


def test_shaping_without_a_count_before_or_times_is_passed_over() -> None:
    assert _said("Dec 1 st each end every row 4 times. 20 sts.\n").schedules == ()
    assert _said("42 sts.\nDec 1 st each end every row to 20 sts.\n").schedules == ()


def test_bind_offs_of_a_shoulder() -> None:
    text = (
        "20 (23) sts rem for the shoulder.\nBind off 6 (7) sts at beg of next RS row.\n"
        "Bind off 7 (8) sts at beg of next 2 RS rows.\n"
    )
    (one,) = _said(text).bind_offs
    assert (one.remaining.values, [figure.values for figure in one.each], one.rows) == (
        (20, 23),
        [(6, 7), (7, 8)],
        (1, 2),
    )


def test_a_pattern_that_goes_on() -> None:
    (one,) = _said("Leg, ending with row 7 of the 12-row lace.\nFoot: beg with row 4 of the lace.\n").resumed
    assert (one.stopped, one.goes_on, one.rows) == (7, 4, 12)


def test_a_stitch_that_is_said_to_decrease() -> None:
    found = _said("br (2 sts decreased): sl 1, k3tog, psso.\nbl (1 st dec): k2tog.\n").described
    assert [(one.said, one.taken) for one in found] == [(2, 3)]


def test_mirrors() -> None:
    assert len(_said("Left: k to last 4, k2tog, k2.\nRight (mirror of left): k2, k2tog, k.\n").mirrors) == 1
    assert _said("Left: k to last 4, k2tog, k2.\nRight (mirror of left): k2, ssk, k.\n").mirrors == ()
    assert _said("Left: k to last 4, k2tog, k2.\nRight: k2, k2tog, k.\n").mirrors == ()


def test_cables_by_their_names() -> None:
    found = _said(
        "C5F: sl 2 to cn, hold in front, k2, k2 from cn.\n2/2 LC: sl 2 to cn, hold in back, k2, k2 from cn.\n"
    ).cables
    assert [(one.sts, one.worked, one.slipped, one.back) for one in found] == [(5, 4, 2, 2), (4, 4, 2, 2)]
    assert _said("C5F: sl 2 to cn, k2tog, k2 from cn.\n").cables == ()


def test_sums() -> None:
    text = "Pick up and k 20 (22) sts down left neck, 1 st at centre and 20 (22) sts up right neck. 41 (44) sts.\n"
    (one,) = _said(text).sums
    assert ([part.values for part in one.parts], one.total.values) == ([(20, 22), (1,), (20, 22)], (41, 44))
    assert _said("Pick up and k 20 sts down each front and 30 sts across back. 70 sts.\n").sums == ()


def test_groups_left_out() -> None:
    (one,) = _said("Row 1: 20 (24) fans.\nRow 2: as set omitting one fan at each end. (18 (22) fans)\n").schedules
    assert (one.change, one.before.values, one.after.values) == (-2, (20, 24), (18, 22))
