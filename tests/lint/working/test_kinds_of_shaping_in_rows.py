"""Small drafts of garments in rows whose shaping is told in a sentence; every count worked by hand."""

from __future__ import annotations

import pytest
from worked import Counts, corrections, counts

KINDS: dict[str, tuple[str, Counts]] = {
    "a whole row, and what is done at its ends": (
        "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across: 20 sc. Ch 1, turn.\n"
        "Row 2: Sc in each sc across, dec 1 sc at each end: 18 sc. Ch 1, turn.\n"
        "Row 3: Work in sc, inc 1 st at each end: 20 sc.\n"
        "Row 4: Inc 1 sc at each end, sc in each sc across. Ch 1, turn.\n"
        "Row 5: Sc across, dec 1 st at each side - 20 sc\n"
        "Row 6: Dec 1 st at beg and end of row, 18 sc. Ch 1, turn.\n"
        "Row 7: Sc in each sc, dec 1 st at armhole edge, 17 sc. Ch 1, turn.\n"
        "Row 8: Dec 1 st at neck edge, work to end: 16 sc.\n"
        "Row 9: Work 10 sc, dec 1 st at neck edge: 11 sc.\n",
        [[21], [20], [18], [20], [22], [20], [18], [17], [16], [11]],
    ),
    "rows shaped until a number of named stitches is there": (
        "Ch 15.\nRow 1: Sc in 2nd ch from hook and in each ch across: 14 sc. Ch 1, turn.\n"
        "Inc 1 sc at each end of next row and every 6th row thereafter until there are 24 sc on row.\n"
        "Row 2: Sc in each sc. 24 sc.\n",
        [[15], [14], [24], [24]],
    ),
    "counts behind a comma or a dash, before the chain that turns": (
        "Ch 11. Row 1: Sc in 2nd ch from hook and in each rem ch -10 sc. Ch 1, turn each row.\n"
        "2nd row: 2 sc in first sc, sc in each sc across to last sc, 2 sc in last sc, 12 sc. Ch 1, turn.\n"
        "3rd row: Sc in each sc; 12 sc. Chain 1 to turn.\n",
        [[11], [10], [12], [12]],
    ),
    "ordinals of older leaflets": (
        "Make a chain of 13, turn.\n1st row: 1 s. c. in 2d st. of ch., 1 s. c. in each ch. (12 s. c.) Ch. 1, turn.\n"
        "2d row: 2 s. c. in 1st st., 1 s. c. in each s. c. (13 s. c.)\n3d row: 1 s. c. in each s. c. (13 s. c.)\n"
        "22d and 23d rows: Like 3d row.\n",
        [[13], [12], [13], [13], [13]],
    ),
    "a first row that begins in a stitch of the chain": (
        # 15 less the 2 passed over
        "Ch 15.\nRow 1: Hdc in 3d st of chain, hdc in each remaining st of chain; 13 hdc. Ch 2, turn.\nRow 2: Hdc in each hdc. 13 hdc.\n",
        [[15], [13], [13]],
    ),
    "a first row whose place is said first": (
        "Ch 13.\nRow 1: Starting in 2nd ch from hook, sc in each ch across. (12 sc)\nRow 2: Ch 1, sc in each sc across. (12 sc)\n\n"
        "STRAP\nCh 7.\nRow 1: Beginning with 3rd ch from hook, hdc in next 5 ch. (5 hdc)\n\n"
        # 11, 3 in the last, 11 along the other side
        "CUP\nCh 13.\nRow 1: Starting in the second chain from hook, sc in each ch to last ch, 3 sc in last ch. Work along the other "
        "side of the chain: sc in each ch to end, turn. (25 sc)\n",
        [[13], [12], [12], [7], [5], [13], [25]],
    ),
    "a first stitch, and across": (
        "ch 12\nrow 1: hdc in the 2nd ch and across (11)\nrow 2: ch 1, turn. hdc in the first st and each one across (11)\n",
        [[12], [11], [11]],
    ),
    "figures with dashes and no blanks between them": (
        # 13 less 3, and the 3 for one: 11; less 1 or 2 at each side: 9, 9, 11; 2, 2 and 4 fewer: 7
        "Size: S - M - L\n\nWork 13-15-17 chain stitches.\n"
        "ROW 1: Work 1 dc in 4th ch from hook (= 2 dc), 1 dc in each of the next 9-11-13 ch = 11-13-15 dc. Turn.\n"
        "ROW 2: 3 ch, 1 dc in each dc to end of row = 11-13-15 dc.\n"
        "ARMHOLES: Work sl sts over the first 1-2-2 dc, 3 ch, skip first dc, 1 dc in each dc until 1-2-2 dc remain, turn = 9-9-11 dc.\n"
        "Then decrease 1 dc in each side on every row 1-1-2 times = 7-7-7 dc.\n"
        "SHOULDER: Work 1 dc in each of the first 3-3-4 dc, turn = 3-3-4 dc.\n",
        [[13, 15, 17], [11, 13, 15], [11, 13, 15], [9, 9, 11], [7, 7, 7], [3, 3, 4]],
    ),
    "figures with dashes, the older sizes in brackets": (
        "Size: XS-S-M-L-XL\n\nCh 13-15-17 (19-21).\nROW 1: 1 hdc in 3rd ch from hook, 1 hdc in each ch = 11-13-15 (17-19) hdc. Turn.\n",
        [[13, 15, 17, 19, 21], [11, 13, 15, 17, 19]],
    ),
    "a bracket for each figure": (
        "(1 year) (2 years) (3 years)\n\nCh (13) (15) (17)\nRow 1: 1 sc in 2nd ch from hook and in each ch to end, turn [(12) (14) (16) sc]\n"
        "Row 2: ch 1, 1 sc in next (5) (6) (7) sts, turn [(5) (6) (7) sc]\n",
        [[13, 15, 17], [12, 14, 16], [5, 6, 7]],
    ),
    "sizes of which the first is named apart": (
        "This pattern is written for size S. Sizes (M, L) follow in parentheses.\n\nChain 13 (15, 17).\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. <12 (14, 16) sc>\n",
        [[13, 15, 17], [12, 14, 16]],
    ),
    "a heading with a last row for each size": (
        "sizes S, M, L\n\nch 11, 13, 15\nrow 1: sc in the 2nd ch from hook and in each ch across (10, 12, 14)\n"
        "row 2: ch 1, turn. sc in each sc across (10, 12, 14)\nrows 3-10, 12, 14: repeat row 2\n",
        [[11, 13, 15], [10, 12, 14], [10, 12, 14], [10, 12, 14]],
    ),
    "rows without a heading, behind the name of what is shaped": (
        "Ch 43. Row 1: Sc in 2nd ch from hook and in each rem ch -42 sc.\n"
        "Row 2: Sc in each sc. Rep Row 2 to 10 ins.\n"
        "NECK - Work to last 8 sts, ch 1, turn -34 sts.\nDec 1 st at neck edge every row 5 times -29 sts. Work even to same length as back.\n",
        [[43], [42], [42], [34], [29]],
    ),
    "rows repeated as often as a dash says, and one by its name": (
        # 6; 8; 8; twice more 2: 12; two fewer: 10; twice more: 6
        "Ch 7.\nRow 1: Sc in 2nd ch from hook and in each ch across. (6 sc)\nRow 2: Ch 1, 2 sc in first st, sc in each st to last st, 2 sc in last "
        "st. (8 sc)\nRow 3: Ch 1, sc in each st across.\nRepeat Rows 2 and 3 - 2 more times. (12 sc)\n"
        "Next Row (decrease row): Ch 1, sc2tog, sc in each st to last 2 sts, sc2tog. (10 sc)\nRepeat decrease row 2 more times. (6 sc)\n",
        [[7], [6], [8], [8], [12], [10], [6]],
    ),
    "stitches left for later, in brackets, and buttonholes counted": (
        # 8 and 5 links of which 4 are worked: 12; 2, twice 2 missed and 3, 2 missed and 2
        "Ch 20.\nRow 1: Sc in 2nd ch from hook and in each ch across. (19 sc)\n"
        "Row 2: Ch 1, sc in first 8 sts, ch 5, turn (leave the last 11 sts of Row 1 unworked)\n"
        "Row 3: Sc in 2nd ch from hook, sc in next 3 ch, sc in next 8 sts, turn = 12 sts\n\n"
        "BAND\nCh 15.\nRow 1: Sc in 2nd ch from hook and in each ch across - 14 sc\n"
        "Row 2: Ch 1, sc in first 2 sc, (ch 2, skip next 2 sc, sc in next 3 sc) 2 times, sc in last 2 sc - 10 sc and 2 buttonholes\n",
        [[20], [19], [8], [12], [15], [14], [10]],
    ),
}


@pytest.mark.parametrize("name", KINDS)
def test_pieces_come_to_the_counts_worked_by_hand(name: str) -> None:
    text, wanted = KINDS[name]
    assert counts(text) == wanted
    assert corrections(text) == []


def test_round_numbers_with_dashes_are_no_sizes() -> None:
    text = "Rnd 1: 6 sc in a magic ring. (6)\nRnd 2: Sc in each st. (6)\nRnds 3-4-5: Sc in each st. (6)\n"
    assert counts(text) == [[6], [6], [6]]


FAULTS = {
    "at each end": (
        "Row 2: Sc in each sc across, dec 1 sc at each end: 19 sc. Ch 1, turn.",
        "20 sts less 2 evenly are 18, the draft says 19",
    ),
    "behind a comma": (
        "Row 2: Sc in each sc across to last sc, 2 sc in last sc, 22 sc. Ch 1, turn.",
        "Row 2 makes 21 sts, the draft says 22",
    ),
}


@pytest.mark.parametrize("name", FAULTS)
def test_a_wrong_count_behind_such_a_sentence_is_reported(name: str) -> None:
    line, message = FAULTS[name]
    text = f"Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n{line}\nRow 3: Sc in each sc.\n"
    assert [finding.message for finding in corrections(text)] == [message]


def test_a_figure_glued_to_a_letter_is_an_ordinal_only_behind_2_and_3() -> None:
    text = "Rnd 1: 6 sc in a magic ring. (6)\nRnd 2: 2 sc in each st. (12)\nRnd 3: 4d in the next st.\n"
    assert counts(text) == [[6], [12], [None]]
