"""Small motifs, lace, blankets and scarves in crochet; counts worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.finding import Level
from rowcall.lint.proof import proof
from rowcall.lint.reading import read
from rowcall.lint.working import work

Counts = list[list[int | None]]

KINDS: dict[str, tuple[str, Counts]] = {
    "a foundation chain told in prose": (
        # the last chain told before the row is the one it goes into: 19 - 1
        "Net Mat\n\nA large mat takes ch 19. A cloth takes ch 31.\n(worked below for ch 19)\n"
        "Row 1: Sc in 2nd ch from hook and in each ch to end. Ch 1, turn.\nRow 2: Sc in each sc across.\n",
        [[19], [18], [18]],
    ),
    "a foundation chain on the line of the first heading": (
        "PAD ... Using two strands, ch 10. 1st row: Sc in 2nd ch from hook, sc in next 8 ch. Ch 1, turn.\n"
        "2nd row: 2 sc in 1st sc, sc in each sc across, 2 sc in last sc. Ch 1, turn.\n",
        # 9; 2 + 7 + 2
        [[10], [9], [11]],
    ),
    "the last repeat ends at a second mark": (
        # 2, five times 1 and 2, 1; six times 2 and 2 in the space, five times 1 between them, 1
        "Rnd 1: 12 sc in magic ring, join. (12)\n"
        "Rnd 2: Ch 1, *2 sc in next st, ch 2 **, sc in next st; repeat from * around ending last repeat at **, sc in last st, join.\n"
        "Rnd 3: Ch 1, *sc in next 2 sc, (sc, ch 1, sc) in next sp **, sc in next sc; rep from * 5 more times, ending last rep at **,"
        " sc in last sc, join.\n",
        [[12], [18], [30]],
    ),
    "a colour joined with a stitch, over the round below and over an overlay": (
        # 12; 24 and 12 spaces; 2 and a group of 2 twelve times; the same with the group below passed
        "Rnd 1: Ch 5, join with sl st to form ring, ch 3 (counts as dc), 11 dc in ring, join. (12)\n"
        "Rnd 2: Join B with sl st in any st, ch 3, dc in same st, (ch 2, 2 dc in next st) around, ch 2, join.\n"
        "Rnd 3: Join C with sc in first dc of any 2-dc pair, sc in next dc, * (tr, ch 2, tr) in next st on rnd 1 **, sc in next 2 dc;"
        " rep from * around ending last rep at **, join.\n"
        "Rnd 4: Join B with sl st in first sc of any 2-sc pair, ch 3, dc in next sc, * working between trs, (tr, ch 2, tr) in ch-2"
        " sp on rnd 2 **, dc in next 2 sts; rep from * around ending last rep at **, join.\n",
        [[12], [24], [48], [48]],
    ),
    "a round that begins in a space comes back to what lies before it": (
        # 8 and 4 spaces; in each space 4, and 2 between them; the same with 6 between
        "Rnd 1: Ch 4, join to form a ring, ch 3 (counts as dc), dc in ring, (ch 2, 2 dc in ring) 3 times, ch 2, join. (8)\n"
        "Rnd 2: Join B with sl st in any ch-2 sp, ch 3, (dc, ch 2, 2 dc) in same sp, *dc in each dc to next ch-2 sp **,"
        " (2 dc, ch 2, 2 dc) in sp; rep from * around, ending last rep at **, join.\n"
        "Rnd 3: Sl st to corner, ch 3, (dc, ch 2, 2 dc) in same sp, *dc in each dc to next ch-2 sp **,"
        " (2 dc, ch 2, 2 dc) in sp; rep from * around, ending last rep at **, join.\n",
        [[8], [24], [40]],
    ),
    "a list without brackets that goes into one space, and a corner that is come to": (
        # 3 in each of 4; 6 in each of 4 corners; those and 3 in each of the 4 spaces between; 36, 8 spaces, 5 in 4 corners
        "Cottage Square (UK)\n\nMake 6 ch, ss to form a ring.\n"
        "1. 3ch, 2tr in ring, 3ch, *3tr in ring, 3ch. Rep from * twice more. Ss to top of 3ch.\n"
        "2. Ss to 3ch corner. 3ch, 2tr, 3ch, 3tr into same corner, 1ch. *3tr, 3ch, 3tr into next corner, 1ch. Rep from * twice"
        " more. Ss to top of 3ch.\n"
        "3. Ss to corner. 3ch, 2tr, 3ch, 3tr into corner, 1ch, 3tr into 1ch sp, 1ch. *3tr, 3ch, 3tr into next corner, 1ch,"
        " 3tr into 1ch sp, 1ch. Rep from * twice more. Ss to top of 3ch.\n"
        "4. 1ch, 1dc into each tr and 1ch sp, 5dc into each corner. Ss to first dc.\n",
        [[6], [12], [24], [36], [64]],
    ),
    "a place said first, stitches worked off as one, and the rest as before": (
        # 4, 2 in one, 4; 2 more at each end and in the space: 14, 18; less 2 and 2 more in the space: 18; less 4, 2 more: 16
        "Ch 10.\n1st row: Sc in 2nd ch from hook, sc in next 3 ch; in next ch make sc, ch 3 and sc; sc in next 4 ch. Ch 1, turn.\n"
        "2nd and 3rd rows: 2 sc in 1st sc, sc in each sc across to ch-3 sp. In ch-3 sp make sc, ch 3 and sc; sc in each sc across,"
        " 2 sc in last sc. Ch 1, turn.\n"
        "4th row: Work off 2 sc as 1 sc (dec made); work across as before to last 2 sc, then make a dec. Ch 1, turn. "
        "5th row: (Work off 2 sc as 1 sc) twice; work across as before to last 4 sc, (work off 2 sc as 1 sc) twice.\n",
        [[10], [10], [18], [18], [16]],
    ),
    "V-stitches into the chain, over one another, and the top of the turning chain": (
        # the chains skipped, 4 of 2, one: 10; 10 and 4 spaces: 14
        "V-st: (dc, ch 1, dc) in same st or sp.\n\nCh 16.\n"
        "Row 1: V-st in 5th ch from hook, *sk 2 ch, V-st in next ch; rep from * to last 2 ch, sk 1 ch, dc in last ch. Turn. (4 V-sts)\n"
        "Row 2: Ch 3 (counts as dc), V-st in ch-1 sp of each V-st across, dc in top of turning ch. Turn.\n"
        "Row 3: Ch 3, *V-st in next V-st; rep from * to end, dc in top of ch-3. Turn.\n"
        "Row 4: Ch 1, sc in each dc and ch-1 sp across. (14 sc)\n",
        [[16], [10], [10], [10], [14]],
    ),
    "a group named where it is first worked, and its middle after a skip": (
        # 3 sc and 2 of 5; 3, 1 and 5, 1 and 3; back to 13
        "Ch 14.\n"
        "Row 1: Sc in 2nd ch from hook, *sk 2 ch, 5 dc in next ch (shell made), sk 2 ch, sc in next ch; rep from * across. Turn.\n"
        "Row 2: Ch 3 (counts as dc), 2 dc in first sc, *sk 2 dc, sc in next dc, sk 2 dc, 5 dc in next sc; rep from * across, ending"
        " with 3 dc in last sc. Turn.\n"
        "Row 3: Ch 1, sc in first dc, *sk 2 dc, shell in next sc, sk 2 dc, sc in center dc of next shell; rep from * across, ending"
        " with sc in top of ch-3. Turn.\n"
        "Rows 4-7: Rep Rows 2 and 3.\n",
        [[14], [13], [13], [13], [13]],
    ),
    "half a loop for a join, and shell over shell": (
        # 12; 6 loops, the last half a stitch; the same again; 6 times 3 and 3, with 6 spaces between; 6 more between those
        "Ch 5, join to form a ring.\n1st rnd: Ch 3, 11 dc in ring, join in top of ch-3.\n"
        "2nd rnd: Ch 1, sc in same place, * ch 5, skip 1 dc, sc in next dc. Repeat from * around, ending with ch 2, dc in first sc.\n"
        "3rd rnd: Ch 1, sc in loop just made, * ch 5, sc in next loop. Repeat from * around, ending with ch 5, join to first sc.\n"
        "4th rnd: Sl st to center of loop, ch 3, 2 dc, ch 3, 3 dc in same loop, * ch 3, 3 dc, ch 3, 3 dc in next loop (shell made)."
        " Repeat from * around, ch 3. Join.\n"
        "5th rnd: Sl st to ch-3 sp of shell, ch 3, 2 dc, ch 3, 3 dc in same sp, * ch 2, sc in ch-3 loop, ch 2, shell over shell."
        " Repeat from * around, ending with ch 2, sc in last ch-3 loop, ch 2. Join.\n",
        [[5], [12], [6], [6], [36], [42]],
    ),
    "a doily's middle stitches, loops tied in the middle, picots, and the loop back that isn't written": (
        # 12 with the chain; 12 groups of 3; sc in each gap; 12 groups of 5, then 3 of each, then 1 of each; 1 more in each picot
        "Ch 7, join to form a ring, ch 1, 11 s c into ring.\n"
        "2nd Row. Ch 5, d c in next s c, * ch 2, d c in next s c, repeat from * 9 times, ch 2, join in 3rd st of ch.\n"
        "3rd Row. Sl st to loop, ch 3, 2 d c over same loop and 3 d c over each remaining loop. Join. (Join each row.)\n"
        "4th Row. Ch 5, s c between groups of d c (over d c of 2nd row), repeat from beginning all around.\n"
        "5th Row. Sl st to center of loop, ch 3, 4 d c in same loop, * ch 7, 5 d c in next loop, repeat from * all around.\n"
        "6th Row. Sl st to next d c, ch 3, 1 d c in each of the next 2 d c, * ch 15, 1 d c in each of the 3 center d c, repeat from *"
        " all around.\n"
        "7th Row. Sl st to center d c, ch 11, sl st in center st of ch, ch 4, sl st in same space, ch 8, * d c in center d c, ch 8,"
        " sl st in center st of next ch, ch 4, sl st in same space, ch 8 and repeat from * all around, join in 4th st of ch.\n"
        "8th Row. Ch 13, * d c into picot, ch 9, d c in d c, ch 9 and repeat from * all around, join in 4th st of ch.\n",
        [[12], [12], [36], [12], [60], [36], [12], [24]],
    ),
    "parts of a row between marks, worked again in later rows": (
        # 6; first and last in twos: 7; 3 and 5 and 3; 3, 1 and 5 and 1, 3
        "Shawl: Beg. at center back, ch 17.\n"
        "Row 1: Dc in 5th ch from hook, (ch 2, sk next 2 ch, dc in next ch) 4 times. Ch 5, turn each row.\n"
        "Row 2: (Dc, ch 2, dc) in first ch-2 sp, * ch 2, dc in next ch-2 sp, repeat from * across, end ch 2, (dc, ch 2, dc) in last"
        " ch-2 sp. (6 dc)\n"
        "Row 3: * (Dc, ch 2, dc) in first ch-2 sp, ch 2, dc in next ch-2 sp, ch 2, * 5 dc in next ch 2, sp, ch 2, # dc in next ch-2 sp,"
        " ch 2, (dc, ch 2, dc) in last ch-2 sp #.\n"
        "Row 4: Work from first * to 2nd * on row 3, dc in next ch-2 sp, dc in each of next 5 dc, dc in next ch-2 sp, ch 2, work from"
        " first # to 2nd # on row 3.\n",
        [[17], [6], [6], [11], [13]],
    ),
    "repeats to a corner and to the middle of a shawl": (
        # 4; 1, 1, 2, 1, 1; 1, 2, 2, 2, 1; two more each row
        "Ch 4, join with sl st to form a ring.\n"
        "Row 1: Ch 4 (counts as dc and ch 1), dc in ring, ch 2, (dc, ch 1, dc) in ring. Turn. (4 dc)\n"
        "Row 2: Ch 4, dc in first ch-1 sp, *ch 1, dc in next ch-1 sp; rep from * to center sp, ch 1, (dc, ch 2, dc) in center ch-2 sp,"
        " **ch 1, dc in next ch-1 sp; rep from ** to end, ch 1, dc in 3rd ch of tch. Turn. (6 dc)\n"
        "Rows 3-6: Rep Row 2. (14 dc)\n",
        [[4], [4], [6], [14]],
    ),
    "groups in the spaces along a side, up to the corner": (
        # 12; 24; 36, a group more on each side
        "Rnd 1: Ch 4, join to form a ring. Ch 3 (counts as dc), 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times. Join. (12)\n"
        "Rnd 2: Sl st to corner, ch 3, (2 dc, ch 2, 3 dc) in same sp, *ch 1, (3 dc, ch 2, 3 dc) in next corner; rep from * around,"
        " ch 1, join.\n"
        "Rnd 3: Sl st to corner. Ch 3, 2 dc, ch 2, 3 dc in corner sp, *(ch 1, 3 dc in next ch-1 sp) to next corner, ch 1,"
        " (3 dc, ch 2, 3 dc) in corner sp; rep from * ending with ch 1, 3 dc in next ch-1 sp, ch 1, join.\n",
        [[12], [24], [36]],
    ),
    "filet: a first row that runs over lines, meshes said in words, rows told by their squares": (
        # 5 squares have 6 uprights, and a solid one 2 stitches more: 1 solid; 2; 3; none
        "Ch 20, d c in 8th st from hook, 1 d c in each of the next 3 sts of ch,\n"
        "* ch 2, skip 2 sts of ch, d c in next st, repeat from * once, ch 2, skip\n"
        "2 sts of ch, d c in last st, ch 5 to turn each row.\n\n"
        "2nd Row: D c in next d c, * ch 2, d c in next d c (an open mesh), repeat from * once, 1 d c in each of the next 3 d c (a solid"
        " mesh), ch 2, d c in 3rd st of ch.\n"
        "3rd Row: 1 open mesh, 1 solid mesh, 1 open mesh, 1 solid mesh, 1 open mesh.\n"
        "4th Row: 1 sp, 3 bls, 1 sp.\n"
        "5th Row: 5 sps.\n",
        [[8], [8], [10], [12], [6]],
    ),
    "squares with a count behind them": (
        # 4 squares have 5 uprights, each solid one 2 stitches more
        "Ch 14.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (13 sc)\n"
        "Row 2: 1 open mesh, 2 solid meshes, 1 open mesh. (9 dc)\nGo on to and fro from the diagram.\n",
        [[14], [13], [9]],
    ),
    "notes within a row, what skipped chains count as, repeats until there are so many groups": (
        # the chains skipped, 3 groups of 5, one in the first chain made
        "Ch 27.\n\nR1: Dc on 5th ch from hook and count this as 1 dc and 1 ch-1 sp. Dc on next 4 stitches. NOTE: 1 cluster made up of"
        " 5 dcs is made.\n* Ch3, skip 3 sts, dc next 5 stitches.* Repeat * * until there are 3 clusters of 5-dcs, end row with ch1, dc"
        " on first ch made. Note: There are 2 ch-3 spaces between clusters. Turn.\n",
        [[27], [17]],
    ),
    "numbers of rounds with a bracket, on lines of their own": (
        "Rnd 1)\nCh 4, join to form a ring, ch 1, 6 sc in ring, join.\nRnd 2)\nCh 1, 2 sc in each sc around, join.\n",
        [[6], [12]],
    ),
}


@pytest.mark.parametrize("name", KINDS)
def test_motifs_come_to_the_counts_worked_by_hand(name: str) -> None:
    text, counts = KINDS[name]
    done = work(read(Draft.of(text)))
    assert [[size.count if size else None for size in one.sizes] for one in done.rounds] == counts


@pytest.mark.parametrize("name", KINDS)
def test_none_of_these_motifs_is_faulted(name: str) -> None:
    text, _ = KINDS[name]
    assert [one.message for one in proof(text).findings if one.level is Level.CORRECTION] == []
