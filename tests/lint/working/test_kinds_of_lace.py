"""Layered flowers, shells, meshes, filet and borders in crochet; counts worked by hand."""

from __future__ import annotations

import pytest
from worked import Counts, corrections, counts

KINDS: dict[str, tuple[str, Counts]] = {
    "petals in each loop, and loops behind them around an earlier round": (
        # 6; 7 in each of 6; 6 stitches with a loop after each; 9 in each of 6; 6 again
        "Round 1. 4ch, join into a ring, 6ch (1tr, 3ch), [1tr, 3ch] five times in the ring, ss in 3rd of 6ch. (6tr, 6 loops)\n"
        "Round 2. In each loop: (1dc, 1htr, 3tr, 1htr, 1dc). (6 petals)\n"
        "Round 3. Keeping the petals to the front, *4ch, 1dc round the stem of the next tr of Round 1, from behind; rep from *"
        " to end. (6 loops)\n"
        "Round 4. In each loop work (1dc, 1htr, 5tr, 1htr, 1dc). (6 petals)\n"
        "Round 5. *5ch, 1dc round the next dc of Round 3, from behind; rep from * to end. (6 loops)\n",
        [[6], [42], [6], [54], [6]],
    ),
    "times behind a dash, and stitches between two petals": (
        # 6; 6 loops; 7 in each of 6; 6; 9 in each of 6
        "Rnd 1: Ch 5, join to form ring. Ch 1, 12 sc in ring, join. (12)\n"
        "Rnd 2: *ch 3, skip 1 sc, 1 sl st in next sc* - 6 times. (6 loops)\n"
        "Rnd 3: In each loop work: 1 sc, 1 hdc, 3 dc, 1 hdc, 1 sc. (6 petals, 42 sts)\n"
        "Rnd 4: Behind the petals: *4 ch, 1 sc from the back between next two petals* - 6 times. (6 loops)\n"
        "Rnd 5: In each loop work: 1 sc, 1 hdc, 5 dc, 1 hdc, 1 sc. (6 petals, 54 sts)\n",
        [[12], [6], [42], [6], [54]],
    ),
    "counts with spaces by their size, and the same told in squares": (
        # 2 and 5 times 2; in each of 6 spaces 4
        "1 rnd - ch 6, join, ch 3 (= 1 dc), 1 dc in ring, ch 2, [2 dc in ring, ch 2] x 5, sl st in top of ch 3. = 12 dc / 6 ch-2\n"
        "2 rnd - sl st to ch-2 sp, ch 3, 1 dc, ch 3, 2 dc in same sp, [2 dc, ch 3, 2 dc in next ch-2 sp] x 5, sl st in top of"
        " ch 3. = 24 dc / 6 ch-3\n",
        [[12], [24]],
    ),
    "a count and what it is in squares": (
        # 36 - 3 and the chains skipped
        "Ch 36.\nRow 1: Dc in 4th ch from hook and in each ch across. 34 dc = 11 bl\nRow 2: Ch 1, turn, sc across. 34 sc = 17 pairs\n",
        [[36], [34], [34]],
    ),
    "a bracket with its own times in one place": (
        # 6; 4 in each of 6; 5 and 1 in spaces by turns, 12 of each
        "Rnd 1: Ch 4, join to form ring. Ch 1, 6 sc in ring, join in first sc. 6 sc.\n"
        "Rnd 2: Ch 1, (sc in next sc, ch 3) 6 times. Join. 6 sc, 6 ch-3 loops\n"
        "Rnd 3: In each loop, (dc, ch 1) 4 times. 24 dc\n"
        "Rnd 4: *((dc, ch 1) 4 times, dc) in next ch-1 sp, sc in next sp; rep from * around. (72 sts)\n",
        [[6], [6], [24], [72]],
    ),
    "a chain that is named for the stitch it stands for": (
        # 1 and 11; twice that; 2 in every other
        "Rnd 1: Magic ring, ch3-dc, 11 dc in ring, join to ch3-dc. 12\n"
        "Rnd 2: Ch3-dc, dc in same st, 2 dc in each dc around, join to top of ch3-dc. 24\n"
        "Rnd 3: Ch3-dc, 2 dc in next dc, *dc in next dc, 2 dc in next dc* repeat around. Join. 36\n",
        [[12], [24], [36]],
    ),
    "a bracket in a bracket says what the chain counts as, and a round is joined in a space": (
        # 1 and 7; 8; 4 in each of 8; 5 eight times; 3 in each of 8 spaces and 40
        "Rd 1: {Ch 4 (counts as dc + ch 1), [dc, ch 1] 7x} in ring; sl st to 3rd ch. -- 8 dc, 8 ch-1 sp\n"
        "Rd 2: join in any ch-1 sp; [dc2tog, ch 3] in each ch-1 sp around; sl st to first st. -- 8 clusters, 8 ch-3 sp\n"
        "Rd 3: join in any ch-3 sp; 4 dc in each ch-3 sp around; sl st. -- 32 dc\n"
        "Rd 4: join in gap between any two 4-dc groups; [sc in gap, sc in next 2 dc, ch 2, sc in next 2 dc] 8x; sl st."
        " -- 40 sc, 8 ch-2 sp\n"
        "Rd 5: join in any ch-2 sp; [3 hdc in ch-2 sp, hdc in next 5 sc] around; sl st. -- 64 hdc\n",
        [[8], [8], [32], [40], [64]],
    ),
    "counts told at the end of a row, and a mesh up to the space in the middle": (
        # 1 + 3 + 4; 6 more a row: 8 + 8 * 6; the ends twice, every other one of 29, the middle twice
        "Set-up: Magic ring. Ch 3, 3 dc, ch 2, 4 dc in ring. Turn. [8 dc]\n"
        "Row 2: Ch 3, dc in same st, dc in each st to ch-2 sp, (2 dc, ch 2, 2 dc) in ch-2 sp, dc in each st to last st, 2 dc in"
        " last st. Turn. [14 dc]\n"
        "Rows 3 - 10: Rep Row 2. At the end of Row 10 you have 62 dc.\n"
        "Row 11: Ch 4 (dc + ch 1), dc in same st, *ch 1, sk 1 st, dc in next st*; rep to ch-2 sp, ch 1, (dc, ch 2, dc) in ch-2"
        " sp, ch 1, dc in next st, *ch 1, sk 1 st, dc in next st*; rep to end, ch 1, dc in same st as last dc. Turn."
        " [36 dc, 34 ch-1 sps, 1 ch-2 sp]\n"
        # 36 and 34 spaces, 6 more
        "Row 12: Ch 3, dc in same st, dc in each dc and ch-1 sp to ch-2 sp, (2 dc, ch 2, 2 dc) in ch-2 sp, dc in each dc and"
        " ch-1 sp to last st, 2 dc in last st. Turn. [76 dc]\n",
        [[8], [14], [62], [36], [76]],
    ),
    "a turning chain that holds a space, told before the first stitch that is skipped": (
        # 4 uprights; the same; one space filled with 2; back over those
        "Ch 14.\n1st row: Dc in 8th ch from hook, (ch 2, skip 2 ch, dc in next ch) twice. Ch 5, turn.\n"
        "2nd row: Skip first dc, dc in next dc, ch 2, dc in next dc, ch 2, skip 2 ch of turning ch, dc in next ch, ch 5, turn.\n"
        "3rd row: Skip first dc, dc in next dc, ch 2, dc in next dc, 2 dc in next sp, dc in 3rd ch of turning ch, ch 3, turn.\n"
        "4th row: Skip first dc, dc in next 3 dc, ch 2, dc in next dc, ch 2, dc in 3rd ch of turning ch.\n",
        [[14], [4], [4], [6], [6]],
    ),
    "sides told as spaces, corners that are spaces, and counts behind bars": (
        # 3 four times; 3 and twice 2 in each corner; 28 and 16; 44 and 3 in each corner
        "ROUND 1 | ch 4, ring, ch 3 (counts as 1 dc), 2 dc, ch 2, (3 dc, ch 2) three times, join | 12 dc, 4 ch-2 corners\n"
        "ROUND 2 | ch 3, 1 dc in each of next 2 sts, (2 dc, ch 2, 2 dc) in corner, *1 dc in each of next 3 sts,"
        " (2 dc, ch 2, 2 dc) in corner*, repeat between ** twice more, join | 28 dc, 4 ch-2 corners\n"
        "ROUND 3 | ch 3, dc in each dc to corner, (2 dc, ch 2, 2 dc) in corner, [dc in each dc to next corner, (2 dc, ch 2, 2 dc)"
        " in corner] 3 times, dc in each remaining dc, join | 44 dc\n"
        "ROUND 4 | ch 1, sc in same st and in every dc, 3 sc in every corner, ss to first sc | 56 sc\n",
        [[12], [28], [44], [56]],
    ),
    "fans tied down by slip stitches": (
        # 36 stitches hold 6 fans of 6 and as many slip stitches
        "Rnd 1: 12 dc in magic ring; join. (12)\nRnd 2: Ch 3, 2 dc in next st, (dc in next st, 2 dc in next st) around; join. (18)\n"
        "Rnd 3: Ch 3, dc in same st, 2 dc in each st around; join. (36)\n"
        "Rnd 4: *Sk 2, 6 dc in next st (fan made), sk 2, sl st in next st; rep from * around. (6 fans)\n",
        [[12], [18], [36], [42]],
    ),
    "the chains before a short stitch are the first loop of a net, and so is a row's long chain": (
        # 33 of 41 links are left from the 9th on: 1 and 8 times 4; one stitch in each of 9 loops
        "Ch 41.\nRow 1. Sc in 9th ch from hook, *ch 5, skip 3 ch, sc in next ch*, rep to end. (9 loops)\n"
        "Row 2. Ch 6, turn, *sc in 3rd ch of next ch-5 loop, ch 5*, rep across, end sc in last loop.\nRow 3. Same as Row 2.\n",
        [[41], [9], [9], [9]],
    ),
    "prose of the century before last, numbers without the word": (
        # 20; every other one; 5 in each of 10; 10; 7 in each of 10; 10; 9 in each of 10
        "STAR MAT\n\nCommence in the centre with 10 chain; unite the last to the first.\n"
        "1st Round.\u2014Work 20 D. C. under the foundation chain; unite.\n"
        "2nd.\u20145 chain (the first 3 in place of a treble), miss 1, 1 treble on the next; * 2 chain, miss 1, 1 treble on the"
        " next; repeat from * all round; end with 2 chain, and unite to the 3rd of the 5 chain.\n"
        "3rd.\u2014Under each 2 chain work 1 D. C., 3 treble, and 1 D. C.\n"
        "4th.\u2014* 5 chain, 1 D. C. at the back, between the two D. C. of the last round; repeat from * all round.\n"
        "5th.\u2014Under each 5 chain work 1 D. C., 5 treble, and 1 D. C.\n"
        "6th.\u2014* 7 chain, 1 D. C. at the back, between the scallops; repeat from * 9 times more; unite.\n"
        "7th.\u2014In every chain of 7 work 1 D. C., 1 treble, 5 long treble, 1 treble, 1 D. C. Fasten off.\n",
        [[20], [10], [50], [10], [70], [10], [90]],
    ),
    "a space that is passed by its name": (
        # 8 loops; in every other one 3
        "Rnd 1: Ch 5, join to form ring. Ch 1, 8 sc in ring, join. (8)\n"
        "Rnd 2: Ch 1, (sc in next sc, ch 3) 8 times, join. (8 sc, 8 ch-3 loops)\n"
        "Rnd 3: *Skip next ch-3, 3 dc in next ch-3 loop; rep from * around, join. (12 dc)\n",
        [[8], [8], [12]],
    ),
    "a border down the ends of rows, along the foundation and back": (
        # 29 and 28 twice and 3 in each of 4 corners; 21 fans of 5, each with a slip stitch
        "Ch 31\nRow 1: sc in second ch from hook and in each ch across (30 sc)\n"
        "Rows 2 to 29: ch 1, turn, sc across (30 sc)\n"
        "EDGING, round 1: do not turn; working down the side, sc in the end of each row (29 sc); 3 sc in corner, sc in next 28 ch,"
        " 3 sc in corner; sc in the end of each row (29 sc); 3 sc in corner, sc in next 28 sc, 3 sc in last st, join (126 sc)\n"
        "EDGING, round 2: sl st in next st, *skip 2, 5 dc in next st, skip 2, sl st in next st; rep from * around (21 scallops)\n",
        [[31], [30], [30], [126], [126]],
    ),
    "a border across the last row first": (
        # 3, 19 and 3 across; 16 down; the same below and up
        "Ch 22.\nRow 1: Sc in 2nd ch from hook and in each ch across: 21 sc.\nRows 2-16: Ch 1, turn, sc across. 21 sc\nBorder\n"
        "Rnd 1: Ch 1, 3 sc in first st, sc in next 19 sts, 3 sc in last st; 16 sc evenly along row ends; 3 sc in corner, sc in"
        " next 19 ch of foundation, 3 sc in corner; 16 sc evenly along row ends, join: 82 sc.\n",
        [[22], [21], [21], [82]],
    ),
    "a ring told in a sentence of its own": (
        # the ring; 1 and 2 and 3 three times; 3 and twice 2 in each corner
        "Begin with a magic ring.\n"
        "ROUND 1 | ch 3 (counts as 1 dc), 2 dc, ch 2, (3 dc, ch 2) three times, join | 12 dc, 4 ch-2 corners\n"
        "ROUND 2 | ch 3, 1 dc in each of next 2 sts, (2 dc, ch 2, 2 dc) in corner, *1 dc in each of next 3 sts,"
        " (2 dc, ch 2, 2 dc) in corner*, repeat between ** twice more, join | 28 dc\n",
        [[0], [12], [28]],
    ),
    "a stitch defined by the row below that it goes into": (
        # 21; 1, three times 6, 2
        "mdc = mosaic dc: dc into the front loop of the st two rows below.\n\nCh 22.\n"
        "Row 1: Sc in 2nd ch from hook, sc across. - 21\n"
        "Row 2: Sc 1, *blo sc 3, mdc 1, blo sc 1, mdc 1*, repeat from * to * to last 2 sts, blo sc 1, sc 1. - 21\n",
        [[22], [21], [21]],
    ),
    "a bobble is one stitch, of however many it is made, and so is a popcorn": (
        # 4, four times 4, 1 and 4
        "BOBBLE = 5 dc worked together in one stitch.\n\nCh 26.\n"
        "Row 1: 1 sc in 2nd ch from hook, 1 sc in each ch to end (25 sts)\n"
        "Row 2: ch 1, 1 sc in each of first 4 sts, *bobble in next st, 1 sc in each of next 3 sts*, rep to last 5 sts, bobble in"
        " next st, 1 sc in each of last 4 sts (25 sts: 5 bobbles, 20 sc)\n",
        [[26], [25], [25]],
    ),
    "a bracket worked up to the last loop": (
        # 61 links: 1 and 12; 2 at the ends and one in each of 12 loops
        "Ch 62.\nR1. Sc in 2nd ch from hook, (ch 5, sk 4 ch, sc in next ch) across, turn. [12 ch-5 lps, 13 sc]\n"
        "R2. Ch 5 (dc + ch 2), (sc in next ch-5 lp, ch 5) to last lp, sc in last lp, ch 2, dc in last sc, turn.\n",
        [[62], [13], [14]],
    ),
}


@pytest.mark.parametrize("name", KINDS)
def test_lace_comes_to_the_counts_worked_by_hand(name: str) -> None:
    text, expected = KINDS[name]
    assert counts(text) == expected


@pytest.mark.parametrize("name", KINDS)
def test_none_of_this_lace_is_faulted(name: str) -> None:
    text, _ = KINDS[name]
    assert [one.message for one in corrections(text)] == []


def test_a_wrong_count_of_petals_and_stitches_is_reported_once() -> None:
    text, _ = KINDS["times behind a dash, and stitches between two petals"]
    found = corrections(text.replace("54 sts", "56 sts"))
    assert [one.message for one in found] == ["Rnd 5 makes 54 sts, the draft says 56"]


def test_a_wrong_count_in_a_granny_is_reported_where_its_sides_are_spaces() -> None:
    square = (
        "R1: Make a magic ring. Ch 3 (counts as dc), 2 dc, ch 2, *3 dc, ch 2* x 3 all into the ring. Sl st to top. (12 dc)\n"
        "R2: Join B in any corner space. Ch 3, 2 dc, ch 2, 3 dc in same space. [Ch 1, (3 dc, ch 2, 3 dc) in next corner"
        " space] x 3, ch 1, sl st to top of ch-3. (24 dc)\n"
        "R3: Join A in a corner. (Ch 3, 2 dc, ch 2, 3 dc) in corner, *ch 1, 3 dc in side space, ch 1, (3 dc, ch 2, 3 dc) in"
        " corner; repeat from * twice more, ch 1, 3 dc in last side space, ch 1, join. (34 dc)\n"
    )
    # 6 in each of 4 corners and 3 on each of 4 sides
    assert [one.message for one in corrections(square)] == ["R3 makes 36 sts, the draft says 34"]


def test_a_row_that_goes_into_spaces_of_a_chain_alone_is_not_worked() -> None:
    # the second tile hangs on the first, which a chain of its own knows nothing of
    tiles = (
        "Row 1: Ch 6, dc in 4th ch from hook, dc in next 2 ch.\n"
        "Row 2: Ch 6, turn. Dc in 4th ch from hook, dc in next 2 ch. *Sl st in next ch-3 space, ch 3, 3 dc in same space; repeat"
        " from * to the end of the row.\n"
    )
    assert counts(tiles)[1:] == [[None]]


def test_a_round_that_repeats_one_that_does_not_fit_is_not_worked() -> None:
    # 21 - 1 - 3 are no whole number of fives, and the row after it wants 3 and a whole number of threes
    scarf = (
        "Ch 22.\nRow 1: Sc in 2nd ch from hook, sc across. 21 sc\n"
        "Row 2: Sc in first st, *sc in next 4 sts, dc in next st; rep from * to last 3 sts, sc in last 3 sts. 21 sts\n"
        "Row 3: Sc in first 3 sts, *dc in next st, sc in next 2 sts; rep from * to end. 21 sts\n"
        "Rows 4-9: Rep Rows 2 and 3. 21 sts\n"
    )
    assert counts(scarf)[4] == [None]
    assert [one.rule for one in corrections(scarf)] == ["repeat-does-not-fit"]


def test_a_corner_named_alone_leaves_a_round_unread() -> None:
    # what a corner is was said in words that are not read: the round must not be worked without them
    square = (
        "Rnd 1: Ch 4, join to form ring. Ch 3 (counts as dc), 2 dc, ch 2, (3 dc, ch 2) 3 times in ring, join. 12 dc\n"
        "Rnd 2: Ch 3, dc in each dc to corner, corner, [dc in each dc to next corner, corner] 3 times, join. 28 dc\n"
    )
    assert counts(square) == [[12], [None]]
    assert corrections(square) == []
