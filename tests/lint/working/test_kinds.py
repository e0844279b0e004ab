"""Whole small drafts, one for each kind of writing that was once misread; every count worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.reading import read
from rowcall.lint.working import work

Counts = list[list[int | None]]

KINDS: dict[str, tuple[str, Counts]] = {
    "arrows after headings and dots before counts": (
        "Rnd 1 » 6 sc into a magic loop ..... 6\nRnd 2 » 2 sc into every st ..... 12\nRnd 3 » sc all round ..... 12\n",
        [[6], [12], [12]],
    ),
    "a table with bars": (
        "| 1 | MR, 6 sc | 6 |\n| 2 | inc in each st | 12 |\n| 3 | *1 sc, inc* x 6 | 18 |\n| 4-5 | sc around | 18 |\n",
        [[6], [12], [18], [18]],
    ),
    "numbers alone on their lines": (
        "1\nmagic ring with 8 sc\n2\ninc in each st (16)\n3\n*inc in first st, sc in next st* (24)\n",
        [[8], [16], [24]],
    ),
    "a short word after the number": ("1 r: 6 sc in ring\n2 r: inc x 6 (12)\n3-4 r: 12 sc\n", [[6], [12], [12]]),
    "counts between dashes": ("Rnd 1. 6 sc into MR -6-\nRnd 2. inc x 6 -12-\nRnd 3. sc -12-\n", [[6], [12], [12]]),
    "letters that the draft defines": (
        "X - single crochet, V - increase, A - decrease, CH - chain\n\nR1 6X in MR (6)\nR2 6V (12)\nR3 (X,V)*6 (18)\n"
        "R4 (X,A)*6 (12)\n",
        [[6], [12], [18], [12]],
    ),
    "brackets right after a heading without a colon": (
        "Rnd 1 6 sc in mr (6)\nRnd 2 inc x 6 (12)\nRnd 3 (sc, inc) x 6 (18)\nRnd 4 [sc, sc2tog] 6 times (12)\n",
        [[6], [12], [18], [12]],
    ),
    "rounds glued into running text": (
        "1. ch 3, join with sl st to form ring. Ch 1, 6 sc in ring.2. 2 sc in each sc. (12 sc)3. (1 sc in\n"
        "next sc, 2 sc in next sc) around. (18 sc)4. 1 sc in each sc around.\n",
        [[6], [12], [18], [18]],
    ),
    "a closing sentence is the count": (
        "Rnd 1: 6 sc in a magic ring. 6 sc.\nRnd 2: Inc in each st around. 12 sc.\nRnd 3: (Sc 1, inc) 6 times. 18 sc.\n",
        [[6], [12], [18]],
    ),
    "a closing sentence is the last instruction": (
        "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st. (12)\nRnd 3: sc 2. 2 sc in next sc. 9 sc.\n",
        [[6], [12], [13]],
    ),
    "the ring is named with its stitches": (
        "Rnd 1: Ch 3 (counts as dc), 11 dc in magic ring, join with sl st to top of ch-3.\n"
        "Rnd 2: Ch 3, dc in same st, 2 dc in each st around, join.\n",
        [[12], [24]],
    ),
    "a chain counted on a ring of many links": (
        "Ch 90, join with sl st to first ch to form a ring.\n"
        "Rnd 1: Ch 3 (counts as dc), dc in next ch and in each ch around; join with sl st to top of ch-3. (90 dc)\n",
        [[90], [90]],
    ),
    "chains over skipped stitches are worked in the next round": (
        "Rnd 1: 32 sc in ring (32)\nRnd 2: sc 6, ch 4, sk 4, sc 12, ch 4, sk 4, sc 6 (32)\nRnd 3: sc around (32)\n",
        [[32], [32], [32]],
    ),
    "stitches and chains of the round below": (
        "Rnd 1: 20 sc in ring.\nRnd 2: *sc in next st, ch 1, sk next st; rep from * around.\n"
        "Rnd 3: sc in each st and ch-1 sp around. (20)\n",
        [[20], [10], [20]],
    ),
    "groups in corners": (
        "Rnd 1: Ch 4, sl st to form ring. Ch 3 (counts as dc), 2 dc in ring, (ch 2, 3 dc in ring) 3 times, ch 2, join. (12 dc)\n"
        "Rnd 2: Ch 3, dc in next 2 dc, *(2 dc, ch 2, 2 dc) in corner sp, dc in next 3 dc; rep from * 2 more times, "
        "(2 dc, ch 2, 2 dc) in last corner sp, join. (28 dc)\n",
        [[12], [28]],
    ),
    "the first space is worked before each other": (
        "Rnd 1: 12 sc in ring (12)\nRnd 2: *sc in next st, ch 2; rep from * around, join. (12 sc, 12 ch-2 sps)\n"
        "Rnd 3: Join C in any ch-2 sp; ch 1, 4 sc in same sp, 4 sc in each ch-2 sp around; join. (48 sc)\n",
        [[12], [12], [48]],
    ),
    "along the ends of the rows of a band": (
        "Band: Ch 11\nRow 1: sc in 2nd ch from hook and in each ch across, turn. (10)\nRow 2: ch 1, sc in each st, turn. (10)\n"
        "Rows 3-40: rep row 2\nRnd 1: ch 1, sc in end of each row around, join. (40)\n",
        [[11], [10], [10], [10], [40]],
    ),
    "two in each of two": (
        "Rnd 1: 22 sc in ring. (22)\n"
        "Rnd 2: 2 sc in next 2 sts, sc in next 7 sts, 2 sc in next 4 sts, sc in next 9 sts. (28)\n",
        [[22], [28]],
    ),
    "six in all though others are six more": (
        "R1: 12 sc in MR (12)\nR2: *sc 1, inc; rep from * 5 times (18)\nR3: 18 sc (18)\nR4: *sc 2, inc* rep 6 times (24)\n",
        [[12], [18], [18], [24]],
    ),
    "what is said of the last stitch holds for all": (
        "Rnd 1: 12 sc in ring (12)\nRnd 2: sc 1, inc around (18)\nRnd 3: 2 sc, inc x 6 (24)\n",
        [[12], [18], [24]],
    ),
    "increases spread evenly": (
        "Rnd 1: 24 sc in ring (24)\nRnd 2: Sc around, increasing 6 sts evenly (30)\nRnd 3: Dec 5 sts evenly around (25)\n",
        [[24], [30], [25]],
    ),
    "booklet decreases": (
        "Rnd 1: 12 sc in ring (12)\nRnd 2: *Sc in next 2 sc, sc next 2 sc tog; rep from * around. (9 sc)\n",
        [[12], [9]],
    ),
    "colours between the figure and the stitch": (
        "Rnd 1: 36 sc in ring. (36)\nRnd 2: *1 white sc, 2 red sc* 12 times (36)\nRnd 3: With brown: 18 sc, with cream: 18 sc. 36 sts\n",
        [[36], [36], [36]],
    ),
    "sizes named in the heading": (
        "Sizes: S (M, L)\n\nRnd 1: 12 dc in ring (12)\nRnd 2: 2 dc in each st around (24)\n"
        "Rnd 3 (M and L only): *2 dc in next st, dc in next st* around (36)\n"
        "L only: Rnd 4: *2 dc in next st, dc in next 2 sts* around (48)\nNext rnd: dc in each st around. 24 (36, 48)\n",
        [[12, 12, 12], [24, 24, 24], [None, 36, 36], [None, None, 48], [24, 36, 48]],
    ),
    "sizes sent on to a later round": (
        "Sizes: Newborn (Toddler, Child)\n\nRound 1: Magic ring, 50 hdc in ring, join. (50)\nNewborn: skip to Round 4.\n"
        "Round 2: Ch 2, *2 hdc in next st, hdc in next 4 sts* repeat around, join. (60)\nToddler: skip to Round 4.\n"
        "Round 3: Ch 2, *2 hdc in next st, hdc in next 5 sts* repeat around, join. (70)\n"
        "Round 4: Ch 2, hdc in each st around, join. 50 (60, 70)\n",
        [[50, 50, 50], [None, 60, 60], [None, None, 70], [50, 60, 70]],
    ),
    "sizes with measures in brackets below their heading": (
        'SIZES\nNewborn (13-14" around), Baby (15-16"), Child (19-20")\n\nRnd 1: 10 sc in magic ring. (10)\n'
        "Rnd 2: 2 sc in each st around. (20)\nBaby and Child only:\nRnd 3: *sc in next 3 sts, 2 sc in next st* around. (25)\n"
        "Next 2 rnds: sc in each st around. 20 (25, 25) sc\n",
        [[10, 10, 10], [20, 20, 20], [None, 25, 25], [20, 25, 25]],
    ),
    "digits that a scan took for letters": (
        "Rnd 1: l2 sc in ring (l2 sc)\nRnd 2: *sc in next sc, 2 sc in next sc; rep from * around. {18 sc)\n",
        [[12], [18]],
    ),
}


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_is_read_and_worked(kind: str) -> None:
    text, wanted = KINDS[kind]

    workings = work(read(Draft.of(text)))

    assert [[size.count if size else None for size in one.sizes] for one in workings.rounds] == wanted


@pytest.mark.parametrize(
    "words",
    [
        "Continue as set, with one more sc between the increases on each round.",
        "same as before with 5 sc before each inc",
        "Fold flat and sc through both layers to close.",
        "*2 dc in next st, sk 2 sts; rep from * around, omitting last dc",
    ],
)
def test_words_that_change_other_words_leave_a_round_unread(words: str) -> None:
    workings = work(read(Draft.of(f"Rnd 1: 18 sc in magic ring.\nRnd 2: {words} (24)\n")))

    assert [one.sizes[0].count if one.sizes[0] else None for one in workings.rounds] == [18, None]
