"""Small drafts of crochet garments and shaped pieces, worked to and fro; counts worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.finding import Level
from rowcall.lint.proof import proof
from rowcall.lint.reading import read
from rowcall.lint.working import work

Counts = list[list[int | None]]

KINDS: dict[str, tuple[str, Counts]] = {
    "slip stitches that are the fabric, with short rows picked up again": (
        # 12; 12; 8 and 4 left; 8; 8 and the 4 left = 12; the four rows twice more; a chain for the next row at the end
        "Row 1: Ch 12, ch 1 more, sk ch just made, sl st in back bar of each ch across, turn.\n"
        "Row 2: Ch 1, sk ch just made, sl st in each back lp across, turn.\n"
        "Row 3: Ch 1, sk ch just made, sl st in back lp of each of first 8 sts, leaving rem sts unworked, turn.\n"
        "Row 4: Ch 1, sk ch just made, sl st in each back lp across, turn.\n"
        "Row 5: Ch 1, sk ch just made, sl st in back lp of each of first 8 sts, sk turning ch, drop down 2 rows to unworked "
        "sts, sl st in back lp of each of next unworked 4 sts, turn. (12 sts)\n"
        "Rows 6-13: [Rep rows 2-5 consecutively] 2 times.\n"
        "Row 14: Ch 1, sl st in back lp of next 9 sts, sl st in back lp of next 3 sts, ch 6, turn.\n",
        [[12], [12], [8], [8], [12], [12], [12]],
    ),
    "into the bumps at the back of the chain": (
        "Ch 11.\nRow 1: Sc in back bump of 2nd ch from hook and in back bump of each ch across, turn. (10 sc)\n"
        "Row 2: Ch 1, sc in each sc across, turn.\n",
        [[11], [10], [10]],
    ),
    "names before the chain, and a count before the turn": (
        "BACK (make 2): Waistband: Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, 10 sc. Ch 1, turn.\n"
        "Row 2: Sc in each sc across - 10 sc. Ch 1, turn.\nRow 3: 2 sc in first sc, sc in each sc across; 11 sc; ch 1, turn.\n",
        [[11], [10], [10], [11]],
    ),
    "a chain with the hook's size before it": (
        "With 4.5 mm hook and yarn A held double, ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn.\n",
        [[11], [10]],
    ),
    "a row worked as the last one and then a chain for more stitches": (
        # 10; 10; 10 and a chain of 5; 4 in it and the 10
        "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\nRow 2: Ch 1, sc in each sc across, turn.\n"
        "Row 3: Rep last row, ch 5, turn.\nRow 4: Sc in 2nd ch from hook and in next 3 ch, sc in each sc across, turn. (14 sc)\n",
        [[11], [10], [10], [10], [14]],
    ),
    "a line that only names the sizes, and rows with a number for each size behind a name": (
        "S (M, L)\n\nCh 11 (13, 15).\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. 10 (12, 14) sc\n"
        "Row 2 - (5, 7, 9): Ch 1, sc in each sc across, turn.\n"
        "Neck: Row (6, 8, 10): Ch 1, sc in first 6 (7, 8) sc, leave the rest unworked, turn.\n",
        [[11, 13, 15], [10, 12, 14], [10, 12, 14], [6, 7, 8]],
    ),
    "slip stitches down a slope at a row's end": (
        # 4 of each, and the slip stitches are the last of the row
        "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (12 sc)\nRow 2: Ch 1, 4 hdc, 4 sc, 4 sl sts.\n",
        [[13], [12], [12]],
    ),
}


@pytest.mark.parametrize("name", KINDS)
def test_pieces_come_to_the_counts_worked_by_hand(name: str) -> None:
    text, counts = KINDS[name]
    done = work(read(Draft.of(text)))
    assert [[size.count if size else None for size in one.sizes] for one in done.rounds] == counts


@pytest.mark.parametrize("name", KINDS)
def test_none_of_these_drafts_is_faulted(name: str) -> None:
    text, _ = KINDS[name]
    assert [one.message for one in proof(text).findings if one.level is Level.CORRECTION] == []
