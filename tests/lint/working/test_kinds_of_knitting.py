"""Whole small drafts of knitting, one for each kind of instruction; counts worked by hand."""

from __future__ import annotations

import pytest
from worked import Counts, corrections, counts

KINDS: dict[str, tuple[str, Counts]] = {
    "a cast-on in prose, joined, with plain rows on the same line": (
        "Using 4 mm needles, cast on 60 (66, 72) sts. K 1 row, then join to work in the round.\n"
        "Rnd 1: *K1, p1; rep from * around. 60 (66, 72) sts.\nK 5 rounds.\n",
        [[60, 66, 72], [60, 66, 72], [60, 66, 72]],
    ),
    "casting off at the beginning of rows": (
        "Cast on 50 sts.\nWork 10 rows in st st.\nCast off 4 sts at beg of next 2 rows, then 2 sts at beg of next 4 rows.\n"
        "Next row: K to end. 34 sts.\n",
        # 50, twice 4 fewer 42, four times 2 fewer 34
        [[50], [50], [34], [34]],
    ),
    "increases at each end up to a count": (
        "CO 40 (44) sts.\nInc 1 st at each end of 5th and every foll 6th row to 52 (58) sts.\nWork even until sleeve measures 40 cm.\n",
        # 12 and 14 more, two at a time
        [[40, 44], [52, 58], [52, 58]],
    ),
    "a row named and so many after it": (
        "Cast on 30 sts.\nDec 1 st at each end of next and 3 foll alt rows.\nRow 9: Knit. (22)\n",
        # four rows of two
        [[30], [22], [22]],
    ),
    "shaping within so many rows": (
        "Cast on 40 sts.\nWork 9 rows dec 1 st at each end of next and every foll alt row. 30 sts.\n",
        # rows 1, 3, 5, 7 and 9
        [[40], [30]],
    ),
    "shaping in the rows of a heading": (
        "Cast on 40 sts.\nNext 4 rows: Bind off 5 sts at beg of each row. 20 sts\nRows 5-8: Inc 1 st at each end of rows 5 and 7. 24 sts\n",
        [[40], [20], [24]],
    ),
    "shaping at one edge, then at another pace": (
        "Cast on 30 sts.\nDec 1 st at neck edge every row 4 times, then every other row 3 times. 23 sts.\n",
        [[30], [23]],
    ),
    "increases evenly": (
        "Cast on 48 sts.\nNext row: Knit, inc 6 sts evenly across. 54 sts.\nNext row: Purl, dec 4 sts evenly across row. (50 sts)\n",
        [[48], [54], [50]],
    ),
    "short rows in one line": (
        "Cast on 20 sts.\nRow 1: K14, w&t, p8, w&t, k to end.\nRow 2: Purl. (20)\n",
        [[20], [20], [20]],
    ),
    "short rows turned without a wrap": (
        "Cast on 30 sts.\nRow 1: K20, turn.\nRow 2: P10, turn.\nRow 3: K12, turn.\nRow 4: P14, turn.\nRow 5: K to end.\nRow 6: Purl. (30)\n",
        [[30], [30], [30], [30], [30], [30], [30]],
    ),
    "a heel turned": (
        "Cast on 16 sts.\nRow 1: K10, ssk, k1, turn.\nRow 2: Sl 1, p5, p2tog, p1, turn.\nRow 3: Sl 1, k6, ssk, k1, turn.\n"
        "Row 4: Sl 1, p7, p2tog, p1, turn.\nRow 5: Sl 1, k8, ssk, turn.\nRow 6: Sl 1, p8, p2tog. (10)\n",
        # one fewer in each of six rows
        [[16], [15], [14], [13], [12], [11], [10]],
    ),
    "a raglan by markers": (
        "CO 40 sts.\nSet-up row (WS): P6, pm, p8, pm, p12, pm, p8, pm, p6.\n"
        "Row 1 (RS): *K to 1 st before marker, kfb, sm, kfb; rep from * 3 times more, k to end. (48)\nRow 2: Purl.\n"
        "Rep last 2 rows 3 times more. 72 sts.\n",
        [[40], [40], [48], [48], [72]],
    ),
    "markers that were placed elsewhere": (
        "CO 40 sts.\nRnd 1: K to 3 sts before marker, k2tog, k1, sm, k1, ssk, k to end. (38)\n",
        [[40], [38]],
    ),
    "a toe by needles": (
        "CO 48 sts.\nRnd 1: Needle 1: k to last 3 sts, k2tog, k1. Needle 2: k1, ssk, k to last 3 sts, k2tog, k1. "
        "Needle 3: k1, ssk, k to end. (44)\nRnd 2: Knit.\nRep last 2 rnds until 20 sts rem.\n",
        # four fewer: 44, 40 ... 20
        [[48], [44], [44], [20]],
    ),
    "stitches put on hold and cast on over them": (
        "CO 40 sts.\nRnd 1: K18, place next 6 sts on waste yarn, cast on 6, k to end. (40)\nRnd 2: K34, place last 6 sts on a holder. (34)\n",
        [[40], [40], [34]],
    ),
    "bound off within a row": (
        "CO 30 sts.\nRow 1: K10, bind off 10 sts, k to end. (20)\n",
        [[30], [20]],
    ),
    "lace whose rows change the count": (
        "CO 21 sts.\nRow 1: K1, *yo, k3, yo, k1; rep from * to end. (31)\nRow 2: Purl.\nRow 3: K1, *sl 1, k2tog, psso, k2; rep from * to end. (19)\n",
        # five groups of 4 become 6; six groups of 5 become 3
        [[21], [31], [31], [19]],
    ),
    "a slipped stitch passed over": (
        "CO 12 sts.\nRow 1: *S1, k1, psso, k1; rep from * to end. (8)\n",
        [[12], [8]],
    ),
    "yarn over twice, and into both of its loops": (
        "CO 14 sts.\nRow 1: K1, *k2tog, yo twice, ssk; rep from * to last st, k1. (14)\nRow 2: Purl.\n",
        [[14], [14], [14]],
    ),
    "cables keep their stitches": (
        "CO 26 sts.\nRow 1: P2, *c6f, p2; rep from * to end. (26)\nRow 2: K2, *p6, k2; rep from * to end.\nRow 3: P2, *T4B, p4; rep from * to end.\n",
        [[26], [26], [26], [26]],
    ),
    "an increase that takes no stitch": (
        "CO 20 sts.\nRow 1: K1, inc 1, k18, inc 1, k1. (22)\n",
        [[20], [22]],
    ),
    "front and back in words": (
        "CO 6 sts.\nRow 1: K into front and back of each st. (12)\nRow 2: K1, (k into front and back of next st) 5 times, k to end. (17)\n",
        [[6], [12], [17]],
    ),
    "several in one stitch": (
        "CO 9 sts.\nRow 1: P1, *(k1, yo, k1) in next st, p3; rep from * to end. (13)\n",
        # two groups of 4 become 6
        [[9], [13]],
    ),
    "named fabrics": (
        "CO 40 sts.\nRows 1-4: Garter st.\nWork in k2, p2 rib for 5 cm.\nWork 6 rows in st st.\nRow 11: Work in patt to end.\nRow 12: Rib 5, k2tog, rib to end. (39)\n",
        [[40], [40], [40], [40], [40], [39]],
    ),
    "rib that ends half way": (
        "CO 42 sts.\nRow 1: *K2, p2; rep from * to end.\nRow 2: K2tog, k to end. (41)\n",
        [[42], [42], [41]],
    ),
    "a decrease round repeated at a pace": (
        "CO 60 sts.\nDec rnd: K1, k2tog, k to last 3 sts, ssk, k1. (58)\nRep dec rnd every 4th rnd 3 times more. 52 sts.\n",
        [[60], [58], [52]],
    ),
    "a crown with every other round plain": (
        "CO 64 sts, join in the round.\nRnd 1: *K6, k2tog; rep from * around. (56)\nRnd 2 and all even rnds: Knit.\n"
        "Rnd 3: *K5, k2tog; rep from * around. (48)\nRnd 5: *K4, k2tog; rep from * around. (40)\n",
        [[64], [56], [56], [48], [40]],
    ),
    "picked up along an edge and worked from holders": (
        "With RS facing, pick up and k 20 sts down left front, k 12 sts from holder, pick up and k 20 sts up right front. 52 sts.\nRow 1: Purl.\n",
        [[52], [52]],
    ),
    "a total that holds the first time": (
        "CO 20 sts.\nRow 1: K2, m1r, k to last 2 sts, m1l, k2. 22 sts.\nRow 2: Purl.\nRep rows 1-2 a total of 5 times. 30 sts.\n",
        # 22 after the first time, and four times two more
        [[20], [22], [22], [30]],
    ),
    "a crown that goes on in the same manner": (
        "CO 96 sts.\nRnd 1: [K10, k2tog] 8 times. 88 sts.\nRnd 2: K.\nContinue in this manner, decreasing 8 sts every other rnd until 16 sts remain.\n",
        [[96], [88], [88], [16]],
    ),
    "the middle bound off": (
        "CO 48 sts.\nNext row: K14, BO center 20 sts, k to end. 28 sts.\n",
        [[48], [28]],
    ),
    "some of the stitches worked on": (
        "CO 40 sts.\nDivide for neck: K15, turn and work on these 15 sts only.\nDec 1 st at neck edge on next 3 rows. 12 sts.\n",
        [[40], [15], [12]],
    ),
    "lines that are talk": (
        "CO 20 sts.\nThe hat is knit in one piece.\nRow 1: Knit.\nBind off in rib.\n",
        [[20], [20]],
    ),
}

WRONG: dict[str, str] = {
    "increases that miss their count": "CO 40 sts.\nInc 1 st at each end of every 4th row until there are 53 sts.\n",
    "a stated count after casting off": "CO 40 sts.\nCast off 4 sts at beg of next 2 rows. 33 sts.\n",
    "a heel": "CO 16 sts.\nRow 1: K10, ssk, k1, turn.\nRow 2: Sl 1, p5, p2tog, p1. (13)\n",
}

UNREAD: dict[str, str] = {
    "rows of a chart": "CO 40 sts.\nWork rows 1-12 of chart 2.\n52 sts.\n",
    "two schedules at once": "CO 40 sts.\nNext row: K20, place next 10 sts on a holder, working both sides at once, k to end.\n",
}


@pytest.mark.parametrize("kind", KINDS)
def test_counts_by_hand(kind: str) -> None:
    text, wanted = KINDS[kind]

    assert counts(text) == wanted


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_is_corrected(kind: str) -> None:
    text, _ = KINDS[kind]

    assert [finding.message for finding in corrections(text)] == []


@pytest.mark.parametrize("kind", WRONG)
def test_a_wrong_count_is_corrected(kind: str) -> None:
    found = [finding.rule for finding in corrections(WRONG[kind])]

    assert found == ["count-differs"]


@pytest.mark.parametrize("kind", UNREAD)
def test_what_hangs_on_more_than_words_stays_unread(kind: str) -> None:
    assert counts(UNREAD[kind])[-1] == [None]
