"""Small drafts of shawls, lace, mittens and other small knitted things; counts worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.proof import proof
from worked import Counts, corrections, counts

KINDS: dict[str, tuple[str, Counts]] = {
    "plain rows behind the cast-on, in one sentence with it": (
        "Cast on 30 sts and k 3 rows.\nRow 1: K28, k2tog.\n",
        [[30], [29]],
    ),
    "one plain row behind the cast-on": (
        "Cast on 10 stitches, and knit one plain row.\n1st row: K8, k2tog.\n",
        [[10], [9]],
    ),
    "wool forward in letters with full stops": (
        "Cast on 7 sts.\n1st row: K.1, w.f., k. to last st., w.f., k.1 (9 sts.).\n2nd row: K.1, p. to last st., k.1.\n"
        "3rd row: K.1, y.fwd., k.2 tog. t.b.l., wl.r.n., k.2 tog., k. to end.\n",
        # two forwards; then each of two made is taken away again
        [[7], [9], [9], [9]],
    ),
    "two together in a line by themselves": (
        "Cast on 12 sts.\n1st row: (K. 2 tog.) to end. (6 sts.)\n",
        [[12], [6]],
    ),
    "wool forward before a slipped stitch that is passed over": (
        "Cast on 10 sts.\n1st row: K.1, w.f., sl.1, k.2 tog., p.s.s.o., w.f., k. to end.\n2nd row: K.1, w.f., sl.1, k. to end.\n",
        # 1, one made, three to one, one made, 6; then the wool is only moved
        [[10], [10], [10]],
    ),
    "rows of a pattern by number, and one like an earlier one": (
        "Cast on 9 sts.\n1st patt. row: K1, yo, k to last st, yo, k1.\n2nd and every alternate row: P.\n"
        "3rd patt. row: K1, yo, k to last st, yo, k1. 13 sts\n4th patt. row: As 2nd.\n",
        [[9], [11], [11], [13], [13]],
    ),
    "a repeat up to the centre stitch, and another behind it": (
        "Cast on 21 sts.\nRow 1: K3, yo, k1, *yo, k2tog; rep from * to centre st, yo, k1, yo, *k2tog, yo; "
        "rep from * to last 4 sts, k1, yo, k3.\nRow 2: K to 1 st before centre st, cdd, k to end.\n"
        "Row 3: K to centre 3 sts, k3tog, k to end.\n",
        # 10 on each side of the middle: 4 and three pairs; one made at each end and each side of it
        [[21], [25], [23], [21]],
    ),
    "a tab: picked up along its side and its cast-on": (
        "Cast on 3 sts. Knit 6 rows. Do not turn; pick up 3 sts along the long edge, then 3 sts from the cast-on = 9 sts.\n"
        "Row 1: K3, p3, k3.\n",
        [[9], [9]],
    ),
    "a row that ends in a full stop before the next number": (
        "Cast on 6 sts.\n1st row.\u2014Inc. in first st., k. to end.\n2nd row.\u2014K.\n3rd row.\u2014Inc. in first st., k. to end.\n"
        "4th row.\u2014K.\n5th row.\u2014K. 2 tog., k. to end.\n",
        [[6], [7], [7], [8], [8], [7]],
    ),
    "a count behind the full stop of an abbreviation": (
        "Cast on 12 sts.\nRow 1: inc, k to last st, inc. 14 sts\nRow 2: Work 2 tog, work to last 2 sts, work 2 tog. 12 sts\n",
        [[12], [14], [12]],
    ),
    "a declared row without any mark behind its heading": (
        "Cast on 7 sts.\nRow 1: K2, k3tog, k2. (5)\nRow 2 (and every even row) k.\nRow 3: K1, k3tog, k1. (3)\n",
        [[7], [5], [5], [3]],
    ),
    "the last two rows, down to a count": (
        "Cast on 30 sts.\nRow 1: K1, ssk, k to last 3 sts, k2tog, k1.\nRow 2: P.\nRep last 2 rows to 22 sts.\n"
        "Rep these 2 rows down to 14 sts.\nWork these 2 rows twice more.\n",
        [[30], [28], [28], [22], [14], [10]],
    ),
    "stitches cast on over a gap": (
        "Cast on 48 sts.\nRow 1: K10, cast off 6 sts, k to end (42 sts).\n"
        "Next row: Cast on 6 sts over those cast off on previous row. 48 sts.\n",
        [[48], [42], [48]],
    ),
    "the last stitches put on hold and others cast on": (
        "Cast on 48 sts.\nNext round: Knit to last 9 sts, place these 9 sts on waste yarn, cast on 3. 42 sts\n"
        "Next round: K1, place next 9 sts on scrap yarn, using backward loop CO 1 st, k to end. 34 sts\n",
        # 39 and 3; then 42 less 9 and 1
        [[48], [42], [34]],
    ),
    "two slipped together and passed over, told in words": (
        "Cast on 31 sts.\nRow 1: K14, sl 2 tog, k1, pass 2 slipped sts over, k14 (29 sts).\n"
        "Row 2: K13, sl 2 tog knitwise, k1, p2sso, k13 (27 sts).\n",
        [[31], [29], [27]],
    ),
    "a cable told in words": (
        "Cast on 20 sts.\nRow 1: K4, slip next 2 sts onto cable needle and hold at back, knit 2, then knit 2 from cable needle, "
        "knit to last st, k1.\n",
        [[20], [20]],
    ),
    "several into one stitch, loosely": (
        "Cast on 9 sts.\nRow 1: K4, (k1, yo, k1) loosely into next st, k4. 11 sts\n",
        [[9], [11]],
    ),
    "an old book's over, and a row behind a repeat to a count": (
        "Cast on 7 sts.\nFirst Row.\u2014Slip 1, knit 2, over, knit 2 together, knit 2.\n"
        "2nd row.\u2014Knit 1, over, knit to the last stitch, over, knit 1.\n3rd row.\u2014Knit.\n"
        "Repeat 2nd and 3rd rows until there are 13 sts, then knit 1 row.\n",
        [[7], [7], [9], [9], [13]],
    ),
    "up to a marker whose place only the work shows": (
        "Cast on 31 sts, placing marker after 15th st.\nRow 1: Knit to 1 st before marker, sl 2, k1, p2sso, k to end.\n",
        [[31], [29]],
    ),
}


@pytest.mark.parametrize("kind", KINDS)
def test_each_round_comes_to_its_count(kind: str) -> None:
    text, expected = KINDS[kind]

    assert counts(text) == expected
    assert corrections(text) == []


def test_the_parts_of_a_tab_are_not_all_that_it_has() -> None:
    text = (
        "Knitted shawl\n\nCast on 3 sts. Knit 6 rows. Rotate work, pick up and knit 3 sts along the edge, rotate again and "
        "pick up and knit 3 sts from cast-on edge. 9 sts\nRow 1: K9.\n"
    )

    assert [finding.rule for finding in proof(text).findings if finding.rule == "parts-do-not-add-up"] == []


def test_a_declared_row_that_is_said_again_at_the_end_is_no_new_plan() -> None:
    text = (
        "Cast on 9 sts.\nRow 1: K1, yo, k to last st, yo, k1.\nRow 2 and every alternate row: P.\n"
        "Row 3: K1, yo, k to last st, yo, k1.\nRow 5: K1, yo, k to last st, yo, k1.\nRow 6: As Row 2.\n"
    )

    assert [finding.rule for finding in proof(text).findings if finding.rule == "elision-end-unstated"] == []


def test_the_stitch_that_binding_off_leaves_is_not_unaccounted() -> None:
    text = (
        "Knitted edging\n\nCast on 12 sts.\nRow 1: Sl 1, k9, (yo) twice, k2tog. 13 sts\nRow 2: K1, p1, k11.\n"
        "Row 3: BO 2, k6, yo, k2tog, k2. 11 sts\n"
    )

    # 2 bound off, one left by that, then 6, 2 and 2 are 13; the next number may leave the one out
    assert [finding.rule for finding in proof(text).findings if finding.rule == "stitches-unaccounted"] == []
