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
    "two shoulders, the second on the stitches that were left": (
        # 20; the first 7 and 13 left; 6; of the 13: 6 passed, 7; 6
        "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)\n"
        "Row 2: Ch 1, sc in next 7 sts, leave rem sts unworked, turn.\nRow 3: Ch 1, sc2tog, sc in each st across. (6 sc)\n"
        "Second Shoulder\nRow 2: With RS facing, skip next 6 sts of Row 1, join yarn in next st, ch 1, sc in same st and in each "
        "st across, turn. (7 sc)\nRow 3: Ch 1, sc in each st to last 2 sts, sc2tog. (6 sc)\n",
        [[21], [20], [7], [6], [7], [6]],
    ),
    "yarn attached before the heading of the row": (
        "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)\n"
        "Left neck: Row 1: Sc in first 8 sc, turn; leave remaining sts unworked.\nRow 2: Ch 1, dec 1 sc at neck edge, sc in each sc.\n"
        "Right neck: Skip center 4 sc, attach yarn in next st. Row 1: Ch 1, sc in same st and in each sc across, turn - 8 sc.\n",
        [[21], [20], [8], [7], [8]],
    ),
    "rows under the name of a part, and a last row one more or one fewer": (
        # 10, 11, 12 made 11 each; 4 of them; of the other 7 two are passed
        "Sizes 2 (4, 6)\n\nCh 11 (12, 13).\nRow 1: Hdc in 2nd ch from hook and in each ch across; turn - 10 (11, 12) hdc.\n"
        "Row 2: Ch 2, hdc in each st across; turn.\nRow 3: Ch 2, hdc in each st across; turn.\n"
        'Rows 2 and 3 form pat. Rep Rows 2 and 3 until 2 (2 1/2, 3)" from beg, end Row 3, inc (0, dec) 1 st on last row - 11 sts.\n'
        'Right Back: Ch 2, hdc in first 4 sts; turn. Keeping continuity of pat, work even until 3 (3 1/2, 4)" from beg.\n'
        "Left Back: With wrong side facing, skip next 2 sts on last long row for underarm, attach thread in next st; ch 2, hdc in "
        "same st and in each st to end; turn - 5 hdc.\n",
        [[11, 12, 13], [10, 11, 12], [10, 11, 12], [10, 11, 12], [11, 11, 11], [4, 4, 4], [5, 5, 5]],
    ),
    "a last row one fewer in every size": (
        # 10 made 9
        "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\nRow 2: Ch 1, sc in each st across, turn.\n"
        "Rep Row 2 until piece measures 5 ins, dec 1 st on last row. (9 sc)\n",
        [[11], [10], [10], [9]],
    ),
    "a count behind a dash, and a sentence after it": (
        "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn – 10 sts. Mark the last st.\n"
        "Row 2: Ch 1, sc in each st across, turn. – 10 sts. Go on with the last row until you have 30 rows.\n",
        [[11], [10], [10]],
    ),
    "chains that count as stitches, but not the one at the beginning of the last row": (
        # 3 chains for one, 3 together, 4, 3 chains, 3; then 3, the 3 chains again, 2, and 4 on what is left
        "NECK (UK terms): 14 tr are on hand.\nRow 4: 3ch, tr3tog, 4tr, 3ch, miss 3 sts, 3tr, turn - 12 sts.\n"
        "Row 5: 1ch, 3dc, 3ch, miss 3ch-sp, 2dc, 1 dc in each st to end, turn - 12 sts.\n",
        [[12], [12]],
    ),
    "two rows repeated in turn, with a dash between their numbers": (
        # one fewer, one more, by turns
        "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\n"
        "Row 2: Ch 1, sc2tog, sc in each st across, turn. (9 sc)\nRow 3: Ch 1, 2 sc in first st, sc in each st across, turn. (10 sc)\n"
        "Row 4-8: Repeat\nRow 2 – 3 alternately.\n",
        [[11], [10], [9], [10], [9]],
    ),
    "a chain below the words for it, in a draft of one size": (
        # 6, of which 2 get a second one
        "The foundation chain\n- 4 years = 6 sts\n\nRow 1: Ch 2, hdc in first 2 sts, 2 hdc in next st, 2 hdc in next st, hdc in last 2 sts.\n",
        [[6], [8]],
    ),
    "a thumb on a chain in the middle of a row, and a back that begins as the palm": (
        # 12; 2 together, 5, 4 in the chain and 5; then 4 more on the other side of the chain; the back: 12, 12, 11
        "LEFT: Palm: Make a chain of 13 sts loosely. Row 1: Sc in 2nd chain from hook and in each of the remaining 11 chain sts, (12 sc). "
        "Ch 1, turn. Row 2: Sc in each st across. Ch 1, turn. Row 3: Make a decrease as follows: pull up a loop in each of the next 2 sts, "
        "yarn over and pull yarn through all 3 loops; 1 sc in next 5 sts; make a chain of 5 sts for thumb; turn; 1 sc in 2nd chain from "
        "hook; 1 sc in each of the remaining 3-chain sts; 1 sc in last 5 sts, ending at the cuff. Ch 1, turn. Row 4: 1 sc in next 9 sts; "
        "(working through foundation chain of thumb) make 1 sc in each of the next 4 sts; 1 sc in last 6 sts, ending at tip, (19 sc).\n"
        "   LEFT: Back of hand: Work the first 2 rows as on the palm. Row 3: Make a decrease at the beginning of row; 1 sc in each st to "
        "end of row.\n",
        [[13], [12], [12], [15], [19], [12], [11]],
    ),
    "a row that turns in its middle and goes back over its chain": (
        # 8 of 12 and a chain of 4; back: 3 in the chain and the 8
        "Ch 13. Row 1: Sc in 2nd ch from hook and in each ch across, 12 sc. Ch 1, turn. Row 2: Sc in first 8 sc, ch 4 for thumb, turn; "
        "sc in 2nd ch from hook and in each of next 2 ch, sc in each of the 8 sc, ch 1, turn. (11 sc)\n",
        [[13], [12], [11]],
    ),
    "a part worked as another up to a measure, rows without numbers shaped at each end": (
        "BACK: Ch 31. Row 1: Hdc in 2nd ch from hook, hdc in each ch across, ch 1, turn - 30 hdc. Row 2: Hdc in each hdc across, ch 1, "
        "turn. Repeat Row 2 until piece measures 13 inches. Next Row: Sl st across first 3 sts, ch 1, hdc in each st to within last 3 sts, "
        "ch 1, turn - 24 hdc. Dec 1 st at each end of every row 4 times - 16 sts. Work even until armholes measure 7 inches.\n",
        [[31], [30], [30], [24], [16]],
    ),
    "as the back up to a measure": (
        "Back: Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across - 10 sc. Ch 1, turn.\nRow 2: Sc in each sc across. Ch 1, turn.\n"
        'Rep Row 2 until piece measures 22" from beg.\n\nFront: Work same as Back until piece measures 19" from beg.\n'
        "Row 1: Sc in first 4 sc, turn; leave remaining sts unworked.\n",
        [[11], [10], [10], [10], [10], [4]],
    ),
    "a chain on a line of its own between two rows": (
        "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\nFoundation chain for the neck:\nCh\n5\n"
        "Row 2: Sc in 2nd ch from hook and in next 3 ch, sc in each sc across, turn.\n",
        [[11], [10], [5], [14]],
    ),
    "increases at both ends of a row whose other stitches are told": (
        "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\nRow 2: Ch 1, sc in each sc, inc 1 st at each end, turn.\n"
        "Row 3: Ch 1, dec 1 st at beg of row, sc in each sc across, turn. (11 sc)\n",
        [[11], [10], [12], [11]],
    ),
    "a count told over two lines before a row in the middle of a piece, where chains are stitches": (
        # 14: the chain, 3 together, 4, 3 passed, 3: 1 + 1 + 4 + 3 + 3; back: 3, 3, 2 and the other 4; 4 of each
        "S (M)\n\nRIGHT NECK, continued: 14 (17)\ntr are on hand.\n"
        "Row 4: 3ch, tr3tog, 4 (2) tr, [3ch, miss 3 sts, 2tr] zero (one) time(s), 3ch, miss 3 sts, 3tr, turn - 12 (15) sts.\n"
        "Row 5: 1ch, 3dc, [3ch, miss 3ch-sp, 2dc] one (two) time(s), 1 dc in each st to end, turn.\n"
        "Next Row: 2ch (does not count as htr), 4 (5)htr, 4 (5)dc, 4 (5) sl sts.\n",
        [[12, 15], [12, 15], [12, 15]],
    ),
    "in the same stitch after some that are skipped is in the next one": (
        # 9: 1, 1 passed, 3 in the next, 2 passed, 1, 2 passed, 1
        "Ch 10.\nRow 1: Sc in 2nd ch from hook and in each ch across. (9 sc)\n"
        "Row 2: Ch 1, turn, sc in first st, ch 1, sk 1 st, (sc, hdc, sc) in same st, ch 2, sk 2 sts, sc, ch 2, sk 2 sts, sc in last st.\n",
        [[10], [9], [6]],
    ),
    "links skipped before the first stitch": (
        # 3 skipped stand for a dc, and 9; or they don't; 1 skipped for sc never does
        "Ch 12, turn.\nRow 1: Sk 3 ch, dc in each ch to end. (10 dc)\n\n"
        "Band\nCh 12.\nRow 1: Skip 3 ch (does not count as dc), dc in next ch and in each ch across. (9 dc)\n\n"
        "Tie\nCh 12.\nRow 1: Skip first ch, sc in next 11 ch. (11 sc)\n",
        [[12], [10], [12], [9], [12], [11]],
    ),
    "what the skipped chains count as, told before the other stitches": (
        "Ch 12.\nRow 1: Dc in 4th ch from hook (skipped 3 ch count as dc) and in each ch across; turn. (10 dc)\n",
        [[12], [10]],
    ),
    "a chain for each size, a line each": (
        # 4: 3 for a dc, 1; a corner of 2; 3 or 4; a corner; the last: 11 or 12 links
        "Size: 2Y, 4Y\n- Inc C = increase corner (1 dc, ch 2, 1 dc)\nThe foundation chain\n- 2Y = 11 sts\n- 4Y = 12 sts\n\n"
        "Row 1 Ch 3, 1 dc in first 3 sts, 1 inc C, (1 dc, ch 2, 1 dc) in next st, 1 dc in last 6 (7) sts. Ch 3 and turn\n"
        "Row 2 [1 dc in each st until you get to the next corner (ch 2 space from the previous round), 1 inc in the ch 2 space]. "
        "Repeat to the end of the round. Ch 3 and turn\n"
        "Repeat round 2 until you have in total 5 rows. At the end of row 5, join with a sl st and go on in the round.\n",
        [[11, 12], [12, 13], [14, 15], [20, 21]],
    ),
    "a chain for each size, in one sentence": (
        "For size S ch 11, for size M ch 13, for size L ch 15.\nRow 1: Sc in 2nd ch from hook and in each ch across. 10 (12, 14) sc\n",
        [[11, 13, 15], [10, 12, 14]],
    ),
    "rows up to so many in all": (
        "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\nRow 2: Ch 1, 2 sc in first sc, sc in each sc across.\n"
        "Repeat row 2 until 12 rows are completed.\n",
        [[11], [10], [11], [21]],
    ),
    "shaped in prose": (
        # 20 less 5; 4 rows of one less; 3 passed; a row and 2 more with two more each
        "Left Front: Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across, ch 1, turn. 20 sc.\nRow 2: Sc in each sc, ch 1, turn.\n"
        "Shape armhole: Sl st across first 5 sts, ch 1, work to end. 15 sts. Dec 1 st at armhole edge every row 4 times. 11 sts. Work "
        "even until armhole measures 5 inches.\nShape neck: Sl st across 3 sts, ch 1, work to end of row. 8 sts.\n"
        "Inc 1 st each end of next row and every 6th row 2 times more. 14 sts.\n",
        [[21], [20], [20], [15], [11], [8], [14]],
    ),
    "decreases in the words of older leaflets": (
        # 12: 2 as one at each end; one at each end; 2 as one at the end
        "Ch 13.\n1st row: S c in 2nd ch from hook, s c in each ch across. Ch 1, turn. (12 s c)\n"
        "2nd row: Work off 2 s c as 1 s c, s c across, decreasing 1 s c at end. Ch 1, turn.\n"
        "3rd row: S c across, dec 1 s c at beg and end of row. Ch 1, turn.\n"
        "4th row: S c across to last 2 s c, work off last 2 s c as 1 s c.\n",
        [[13], [12], [10], [8], [7]],
    ),
    "a jacket in one piece, its fronts and back one after the other": (
        # 20: 6 and 14 wait; 2 passed, 7, and 5 wait; 2 passed, 3
        "Ch 22.\nRow 1: Dc in 4th ch from hook, dc in each ch across. (20 dc)\n"
        "Right Front\nRow 2: Ch 3 (counts as dc throughout), turn, dc in next 5 dc, leave rem sts unworked. 6 dc\n"
        "Back\nRow 2: Skip next 2 unworked sts of Row 1, join yarn in next st, ch 3, dc in next 6 sts, leave rem sts unworked. 7 dc\n"
        "Left Front\nRow 2: Skip next 2 unworked sts of Row 1, join yarn in next st, ch 3, dc in each st across. 3 dc\n",
        [[22], [20], [6], [7], [3]],
    ),
    "links that are called stitches of the chain": (
        "Ch 11 sts.\n1st row: 1 sc in 2nd st of ch, 1 sc in each st of ch, ch 1, turn. 10 sc\n"
        "2nd row: 1 sc in 1st st, 1 dc in next st, 1 sc in each st across row, ch 1, turn.\n",
        [[11], [10], [10]],
    ),
    "a word of the hook with a letter too many": (
        "Ch 11.\nRow 1: Sc in 2nd ch from hookk and in each ch across, turn. (10 sc)\n",
        [[11], [10]],
    ),
    "figures for the sizes with dashes between them": (
        "Small - medium - large\n\nCh 13 - 15 - 17.\nRow 1: 1 hdc in 3rd ch from hook, 1 hdc in each ch to end. 11 - 13 - 15 hdc.\n"
        "Row 2: Ch 2, 1 hdc in each st to end. 11 - 13 - 15 hdc.\n",
        [[13, 15, 17], [11, 13, 15], [11, 13, 15]],
    ),
    "the last stretch behind the last corner is worked as the others": (
        # 4 sides of 4, each with the 2 of a corner: 24; 4 more in each corner, and what lies behind the last: 40
        "Ch 20 and join with sl st into a ring.\n"
        "Rnd 1: Ch 3, dc in next 3 ch, (dc, ch 2, dc) in next ch, *dc in next 4 ch, (dc, ch 2, dc) in next ch; rep from * twice more, "
        "join. (24 dc)\n"
        "Rnd 2: Ch 3, dc in each dc to corner sp, (2 dc, ch 2, 2 dc) in corner sp, *dc in each dc to next corner sp, (2 dc, ch 2, 2 dc) "
        "in corner sp; rep from * around, join. (40 dc)\n",
        [[20], [24], [40]],
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
