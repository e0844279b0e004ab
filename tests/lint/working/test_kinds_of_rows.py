"""Whole small drafts worked to and fro in crochet rows; counts worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.finding import Level
from rowcall.lint.proof import proof
from rowcall.lint.reading import read
from rowcall.lint.working import work

Counts = list[list[int | None]]

KINDS: dict[str, tuple[str, Counts]] = {
    "a foundation chain, and the chain hung at a row's end counts in the next": (
        # 21 - 4 and the chains skipped: 18 dc and one; then the chain, 17 and the top of the chain below
        "Ch 21.\nRow 1: Dc in 4th ch from hook and in each ch across. Ch 3, turn. (19 dc)\n"
        "Row 2: Sk first dc, dc in next and each dc across, dc in top of ch-3. Ch 3, turn.\nRow 3: Rep Row 2.\n",
        [[21], [19], [19], [19]],
    ),
    "a first stitch under a chain that counts is an increase": (
        # 3; chain, 1 under it, 1, 2 in the chain's top; chain, 1 under it, 3, 2 in the last
        "Ch 4.\nRow 1: 2 dc in 4th ch from hook, turn. (3 dc)\n"
        "Row 2: Ch 3, dc in same st, dc in next st, 2 dc in top of ch-3, turn. (5 dc)\n"
        "Row 3: Ch 3, dc in first st, dc in each st to last st, 2 dc in last st, turn. (7 dc)\n"
        "Rows 4-6: Rep Row 3.\n",
        [[4], [3], [5], [7], [13]],
    ),
    "up to the turning chain and into it": (
        "Ch 13.\nRow 1: Dc in 4th ch from hook and in each ch across, turn. (11 dc)\n"
        "Row 2: Ch 3, dc in next st and in each st to tch, dc in top of turning ch, turn. (11 dc)\n"
        "Row 3: Ch 1, sc in each st across, leaving tch unworked, turn.\n",
        # the chain that counts is one of the 11 and is left
        [[13], [11], [11], [10]],
    ),
    "in the nth chain and in the nth stitch": (
        # 20 - 5 and the chains skipped: 16 dc and one; the chain stands on the first, 1 in the 2nd, 15 more
        "Ch 20.\nRow 1: 1 dc in the 5th ch, 1 dc in each remaining ch.\n"
        "Row 2: Ch 3, turn, 1 dc in the 2nd dc, 1 dc in each remaining dc.\n",
        [[20], [17], [17]],
    ),
    "slip stitches across the first stitches and a rest not worked across": (
        # 20: 4 slipped, the chain on the 5th, 9, and 6 left
        "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)\n"
        "Row 2: Slip stitch across the first 5 sc, ch 3, dc in each of next 9 sc, do not work across the last 6 sc, turn.\n"
        "Row 3: Ch 1, sc in each dc across.\n",
        [[21], [20], [10], [10]],
    ),
    "slip stitches that are the fabric, and a rest left for later": (
        "Ch 13.\nRow 1: Sl st in 2nd ch from hook and in each ch across, turn. (12 sl sts)\n"
        "Row 2: Ch 1, sl st in back lp of each of first 8 sts, leaving rem sts unworked, turn.\n",
        [[13], [12], [8]],
    ),
    "rows whose numbers go far back are of a piece that isn't known": (
        "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\nRows 2-9: Ch 1, sc across, turn.\n"
        "Work the other piece to here.\nRow 4: Ch 1, sc2tog, sc in each st across, turn.\n",
        [[11], [10], [10], [None]],
    ),
    "so many stitches across": (
        # the chain of the row below on the first, 7 across; the rest wait
        "Ch 17.\nRow 1: Dc in 4th ch from hook and in each ch across. Ch 3, turn. (15 dc)\n"
        "Row 2: Sk first dc, dc across 7 sts, turn. (8 dc)\n",
        [[17], [15], [8]],
    ),
    "stitches added by a chain at a row's end": (
        # 10; then 5 in a chain of 6 and the 10; the other end the same: 5 and 15
        "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, ch 6, turn. (10 sc)\n"
        "Row 2: Sc in 2nd ch from hook and in next 4 ch, sc in each sc across, ch 6, turn. (15 sc)\n"
        "Row 3: Sc in 2nd ch from hook and in next 4 ch, sc in each sc across, turn.\n",
        [[11], [10], [15], [20]],
    ),
    "a lace row is met from its other end": (
        # 2 sc, then three loops and an sc after each; back: 1 sc, three times 2 sc in a loop and 1 in an sc, 1 sc
        "Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (8 sc)\n"
        "Row 2: Ch 1, sc in first 2 sts, *ch 2, sk 1 st, sc in next st; rep from * across, turn. (5 sc, 3 ch-2 sps)\n"
        "Row 3: Ch 1, sc in first st, *2 sc in ch-2 sp, sc in next sc; rep from * to last st, sc in last st, turn.\n",
        [[9], [8], [5], [11]],
    ),
    "a round around a flat piece isn't counted where nothing is said of its sides": (
        "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\nRows 2-10: Ch 1, sc across, turn.\n\n"
        "Border\nRnd 1: Ch 1, sc evenly around, working 3 sc in each corner, join.\n",
        [[11], [10], [10], [None]],
    ),
    "rows up to a count that they never come to aren't counted": (
        "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\n"
        "Row 2: Ch 1, sc2tog, sc in each st to last 2 sts, sc2tog, turn. (8 sc)\nRep last row until 3 sts remain.\n",
        [[11], [10], [8], [None]],
    ),
    "a sentence that tells how wide it is": (
        "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. It is now 3 inches wide. (10 sc)\n"
        "Row 2: Ch 1, sc in each sc across, turn.\n",
        [[11], [10], [10]],
    ),
    "two kinds counted, one through the back loops": (
        "Ch 13.\nRow 1: Hdc in 3rd ch from hook and in next 2 ch, dc in next 8 ch, ch 2, turn.\n"
        "Row 2: Dc in 8 sts, hdc in next 3 sts, ch 2, turn. Total 8 dc, 3 hdc.\n"
        "Row 3: Hdc BLO in 3 sts, dc in next 8 sts, ch 2, turn. Total 3 hdc BLO, 8 dc.\n",
        [[13], [11], [11], [11]],
    ),
    "twelve sizes": (
        "Sizes: 1 (2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12)\n\n"
        "Ch 11 (13, 15, 17, 19, 21, 23, 25, 27, 29, 31, 33).\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn. [10 (12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32)]\n"
        "Row 2: Ch 1, sc2tog, sc in each st to last 2 sts, sc2tog, turn.\n",
        [list(range(11, 34, 2)), list(range(10, 33, 2)), list(range(8, 31, 2))],
    ),
}


@pytest.mark.parametrize("name", KINDS)
def test_rows_come_to_the_counts_worked_by_hand(name: str) -> None:
    text, counts = KINDS[name]
    done = work(read(Draft.of(text)))
    assert [[size.count if size else None for size in one.sizes] for one in done.rounds] == counts


@pytest.mark.parametrize("name", KINDS)
def test_none_of_these_drafts_is_faulted(name: str) -> None:
    text, _ = KINDS[name]
    assert [one.message for one in proof(text).findings if one.level is Level.CORRECTION] == []
