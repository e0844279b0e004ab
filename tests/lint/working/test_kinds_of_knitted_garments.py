"""Small drafts of knitted garments in parts: held, joined, shaped; counts worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.proof import proof
from worked import Counts, corrections, counts

KINDS: dict[str, tuple[str, Counts]] = {
    "c/o is cast on in a draft that begins with it": (
        # 13 and 2 and 13
        "Mitts of the co-operative\nC/O 26 sts on 4 mm.\nRow 1: k.\nRow 2: k13, c/o 2 sts, k to end. 28 sts\n",
        [[26], [26], [28]],
    ),
    "c/o is cast off where cast on is said otherwise": (
        "Cast on 26 sts.\nRow 1: k.\nRow 2: c/o 2 sts, k to end. 24 sts\n",
        [[26], [26], [24]],
    ),
    "which rows those are, and then their count": (
        "Cast on 30 sts and join in the round.\nRow 1: Knit.\nKnit 4 more rows in the round. Rows 2 to 5 (30 sts)\n",
        [[30], [30], [30]],
    ),
    "the last six rounds, five of them in one line": (
        "Cast on 32 sts and join in the round.\nNext rnd: K1, M1, knit to last st, M1, k1. 34 sts.\nKnit 5 rnds.\n"
        "Rep the last 6 rnds 5 more times. 44 sts.\n",
        # two more in each of five
        [[32], [34], [34], [44]],
    ),
    "rows 3 and 4 of which row 4 is declared at row 2": (
        "Cast on 7 sts.\nRow 1: K1, yo, k to last st, yo, k1. 9 sts\nRow 2 and all WS rows: Purl.\n"
        "Row 3: K1, yo, k to last st, yo, k1. 11 sts\nRep Rows 3 and 4 six times more. 23 sts\n",
        # 11 and six times 2
        [[7], [9], [9], [11], [23]],
    ),
    "the first stitches bound off": (
        "Cast on 44 sts and join.\nNext rnd: BO first 8 sts, knit to end. 36 sts.\n",
        [[44], [36]],
    ),
    "raglan lines up to the marker that begins the round, after short rows": (
        "Cast on 84 sts. Join in the rnd, pm for beg of rnd.\nSet-up rnd: K14, pm, k28, pm, k14, pm, k28.\n"
        "Short row 1 (RS): K to m, sm, k6, w&t.\nShort row 2 (WS): P to beg-of-rnd m, sm, p to next m, sm, p6, w&t.\n"
        "Next rnd: K to end of rnd, picking up wraps.\n"
        "Inc rnd: *K1, m1r, k to 1 st before m, m1l, k1, sm; rep from * to end. 92 sts.\n",
        # four times two more; the short rows keep the count
        [[84], [84], [84], [84], [84], [92]],
    ),
    "stitches put back on the needle, and others picked up beside them": (
        "Cast on 40 sts.\n\nThumb\nReturn 13 held sts to dpns. Pick up and knit 3 sts at the gap. 16 sts.\n"
        "\nSleeve\nPlace 50 sts from waste yarn onto dpns. Join yarn, pick up and knit 4 sts, k50, "
        "pick up and knit 4 sts. 58 sts.\n",
        [[40], [16], [58]],
    ),
    "the same on the second needle": (
        "Cast on 24 sts: 12 on each of 2 needles.\n"
        "Rnd 1: *K1, m1, k to last st on needle, m1, k1; rep from * on second needle. 28 sts.\n",
        # two on each needle
        [[24], [28]],
    ),
    "divided at the armholes, and each part worked by itself": (
        "Cast on 177 sts.\nNext row: K40, cast off 8, k until there are 81 sts on right-hand needle after cast off, "
        "cast off 8, k to end.\nWorking on last set of 40 sts only, purl 1 row.\n"
        "Dec 1 st at armhole edge on next 5 rows, then on foll 3 alt rows. 32 sts.\n"
        "\nBack\nWith WS facing, rejoin yarn to next 81 sts and p to end.\nWork 18 rows in rib as for body.\n",
        # 177 less twice 8; 40 less 5 less 3
        [[177], [161], [40], [32], [81], [81]],
    ),
    "two rates of shaping, each to its count": (
        "Cast on 63 sts.\nDec 1 st at each end of next and every foll alt row to 35 sts, ending with a WS row, "
        "then at each end of every row to 23 sts.\n",
        [[63], [23]],
    ),
    "two together at each end": (
        "Cast on 74 sts.\nK 2 tog at each end of every alt row until 38 sts rem.\n"
        "Next row: K2tog at beg and end of row. 36 sts.\n",
        [[74], [38], [36]],
    ),
    "a decrease row every so many rounds, another number a size": (
        "Sizes: S (M, L)\nCast on 44 (48, 52) sts and join.\n"
        "Dec rnd: K1, k2tog, k to last 3 sts, ssk, k1. 42 (46, 50) sts.\n"
        "Rep Dec rnd every 8th (8th, 7th) rnd 5 (5, 6) more times. 32 (36, 38) sts.\n",
        # ten, ten and twelve fewer
        [[44, 48, 52], [42, 46, 50], [32, 36, 38]],
    ),
    "larger needles and every round knitted": (
        "Cast on 40 sts and join.\nChange to larger needle and knit every round until piece measures 9 in.\n",
        [[40], [40]],
    ),
    "stitches that wait for the instep": (
        "Cast on 56 sts and join.\nNext row: Sl 1, p27, turn. Heel flap is worked back and forth on these 28 sts; "
        "rem 28 sts wait for instep.\nRow 1: *Sl 1, k1; rep from * to end.\n",
        [[56], [28], [28]],
    ),
    "parts joined, each with its own number": (
        "Cast on 128 sts.\n\nYoke\nJoining round: Knit across 76 sts of back, 52 sts of left sleeve, 76 sts of front "
        "and 52 sts of right sleeve.\nDec round: *K6, k2tog; rep from * to end. 224 sts.\n",
        # 76 + 52 + 76 + 52, and 32 fewer
        [[128], [256], [224]],
    ),
    "rows repeated to a length, ending with a second row": (
        "Cast on 10 sts.\n1st row: K.\n2nd row: P.\n"
        "Rep these 2 rows until work measures 7 ins., ending with a 2nd row.\n",
        [[10], [10], [10], [10]],
    ),
}

WRONG: dict[str, str] = {
    "a count that the repeats pass over": (
        "Cast on 24 sts and join.\nRnd 1: *K1, m1, k10, m1, k1; rep from * once more. 28 sts.\nRnd 2: Knit.\n"
        "Next rnd: K1, m1, k to last st, m1, k1. 30 sts.\nRep last rnd until there are 41 sts.\n"
    ),
    "an increase in the next stitch": (
        "Cast on 18 sts.\nNext row: *K7, inc in next st; rep from * to last 2 sts, k2. 21 sts.\n"
    ),
    "the last decrease": "Cast on 3 sts.\nNext row: Sl 1, k2tog, psso. 3 sts.\n",
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


def test_rows_told_without_numbers_count_between_numbers() -> None:
    text = (
        "Cast on 42 sts.\nRow 1: *K5, k2tog; rep from * to end. 36 sts\nWork 5 rows.\n"
        "Row 7: *K4, k2tog; rep from * to end. 30 sts\n"
    )

    assert [finding.rule for finding in proof(text).findings if finding.rule.startswith("number")] == []
