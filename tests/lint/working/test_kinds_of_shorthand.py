"""Whole small drafts in shorthand, in translated words, and of pieces joined in a round; counts worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.finding import Level
from rowcall.lint.proof import proof
from worked import Counts, corrections, counts

LEGS = "Legs (make 2)\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: inc x 6. (12)\nFasten off the first leg only.\n\nBody\n"

KINDS: dict[str, tuple[str, Counts]] = {
    "every so many stitches doubled, or worked together": (
        "Rnd 1: 6 sc in magic ring.\nRnd 2: double every st.\nRnd 3: double every 2nd st.\n"
        "Rnd 4: double every third stitch.\nRnd 5: without decreases.\nRnd 6: sc every 3rd and 4th st together.\n"
        "Rnd 7: crochet together every 2nd and 3rd st.\nRnd 8: always sc 2 sts together.\n",
        # 18: every 2nd of 12; 24: every 3rd of 18; 24 in fours of 3; 18 in threes of 2; 12 in twos
        [[6], [12], [18], [24], [24], [18], [12], [6]],
    ),
    "two together all round, and twice in each": (
        "Rnd 1: 8 sc in magic ring.\nRnd 2: work twice in each st.\nRnd 3: crochet two stitches together all round.\n",
        [[8], [16], [8]],
    ),
    "the rest of a round": (
        "Rnd 1: 12 sc in magic ring.\nRnd 2: dec, sc rest.\nRnd 3: inc, sc the rest of the round.\n",
        [[12], [11], [12]],
    ),
    "letters of the draft's own, and figures alone": (
        "Numbers by themselves are single crochets. W = two sc in one stitch, M = two sc worked together.\n\n"
        "r1: 6 in magic ring {6}\nr2: 6W {12}\nr3: (1,W)*6 {18}\nr4: 18 {18}\nr5: 4, (M,1)*4, 2 {14}\n",
        # 4 + 4 pairs of three made two + 2 = 14 of 4 + 12 + 2
        [[6], [12], [18], [18], [14]],
    ),
    "a table whose last column is the count": (
        "Round | Stitches | Total\n1 | MR 6 | 6\n2 | inc x6 | 12\n3 | sc 1, inc 1 x6 | 18\n4 | sc 4, dec 1 x3 | 15\n"
        "5 | sc 15 | 15\n",
        [[6], [12], [18], [15], [15]],
    ),
    "a pointer behind the heading and an arrow before the count": (
        "Rd1 \u25b8 magic loop, 6 sc \u2192 6\nRd2 \u25b8 inc all around \u2192 12\nRd3, Rd4 \u25b8 sc around \u2192 12\n",
        [[6], [12], [12]],
    ),
    "groups found from a space of the first": (
        "V-st: (dc, ch 1, dc) in stitch or space given.\n\nRnd 1: 12 sc in magic ring, join.\n"
        "Rnd 2: Ch 4 (counts as dc, ch 1), dc in same st, sk next 2 sc, *V-st in next sc, sk next 2 sc; rep from * around, "
        "join with sl st in 3rd ch of beg ch-4.\n"
        "Rnd 3: Sl st in first ch-1 sp, ch 4, dc in same sp, *V-st in ch-1 sp of next V-st; rep from * around, "
        "join in 3rd ch of beg ch-4.\nRnd 4: Ch 1, sc in first dc, sc in each dc and in each ch-1 sp around, join.\n",
        # 12 in threes: the first V and three more; each is two and a space
        [[12], [8], [8], [12]],
    ),
    "a chain between two legs": (
        LEGS + "Rnd 3: ch 3, join to leg one with a sc, sc in next 11, sc 3 along the chain, sc in 12 of leg two, "
        "sc 3 along the other side of the chain.\nRnd 4: sc around.\n",
        # 1 + 11 + 3 + 12 + 3
        [[6], [12], [30], [30]],
    ),
    "legs and chain named in brackets": (
        LEGS + "Rnd 3: ch 3, 12 sc (first leg), 3 sc (chain), 12 sc (second leg), 3 sc (chain).\nRnd 4: sc around.\n",
        [[6], [12], [30], [30]],
    ),
    "a chain between two legs is as many stitches": (
        LEGS + "Rnd 3: 12 sc on second leg, ch 2, 12 sc on first leg, 2 sc along ch.\nRnd 4: sc around.\n",
        # 12 + 2 links + 12 + 2 on their other side
        [[6], [12], [28], [28]],
    ),
    "legs worked around": (
        LEGS
        + "Rnd 3: ch 3, sc around first leg (12), sc across ch (3), sc around second leg (12), sc in other side of "
        "ch (3). (30)\nRnd 4: sc around.\n",
        [[6], [12], [30], [30]],
    ),
    "arms taken in take no more stitches": (
        "Rnd 1: 20 sc in magic ring.\nRnd 2: 3 sc, 5 sc through arm and body together, 4 sc, attach the second arm with 5 sc, "
        "3 sc.\nRnd 3: 3 sc, sc 5 together with arm, 4 sc, 5 sc with other arm, 3 sc.\n"
        "Rnd 4: 3 sc, hold arm against body and sc through both for 5 sts, 12 sc.\n",
        # 3 + 5 + 4 + 5 + 3 each time; 3 + 5 + 12
        [[20], [20], [20], [20]],
    ),
    "stitches bound by dashes, in brackets of other shapes, and times before or behind all": (
        "Rnd 1: 6 sc in magic ring.\nRnd 2: inc x 6.\nRnd 3: 1-inc x 6. (18)\nRnd 4: (1-inc-1) x 6. (24)\nRnd 5: 2-dec x6.\n"
        "Rnd 6: <2 sc, inc> 6 times.\nRnd 7: /3 sc, inc/ x 6.\nRnd 8: 6 x (3 sc, 1 dec).\nRnd 9: 6 times: 3 sc, inc.\n"
        "Rnd 10: repeat six times: sc 3, dec 1.\nRnd 11: sc 3, inc 1; 6x.\nRnd 12: sc 4, inc 1 - 6 times.\n",
        [[6], [12], [18], [24], [18], [24], [30], [24], [30], [24], [30], [36]],
    ),
    "changes on the way round": (
        "Rnd 1: 18 sc in magic ring.\nRnd 2: sc around increasing 6 times.\n"
        "Rnd 3: 1 sc around, at the same time increase 6 sts evenly.\n",
        [[18], [24], [30]],
    ),
    "two sizes with a stroke between them, and the last chain as the end chain": (
        "R1. Ch 10/12; 2 sc in 2nd ch from hook, 7/9 sc, 4 sc in end ch, on the other side 7/9 sc, 2 sc in the last - 22/26\n"
        "R2. 2 inc, 7/9 sc, 4 inc, 7/9 sc, 2 inc - 30/34\nR3. sc around - 30/34\n",
        # 2 + 7/9 + 4 + 7/9 + 2; then 4 + 7/9 + 8 + 7/9 + 4
        [[22, 26], [30, 34], [30, 34]],
    ),
    "a length for each size": (
        "Sizes S (M, L)\n\nRnd 1: 10 (12, 14) sc in magic ring.\n"
        "Rnd 2: Sc in each sc. Repeat Rnd 2 until piece measures 5 (5\u00bd, 6) inches.\nRnd 3: Work even for 3 (3\u00bd, 4) inches.\n"
        "Rnd 4: inc around.\n",
        [[10, 12, 14], [10, 12, 14], [10, 12, 14], [20, 24, 28]],
    ),
    "short forms with a full stop in an instruction that grows": (
        "1st Round: Work 8 d.c. into ring.\n2nd Round: 2 d.c. into each st.\n"
        "3rd Round: * 1 d.c. into next st., 2 d.c. into next st.; rep. from * to end.\n"
        "Continue thus, working 1 st. more between the incs. on every round, until there are 48 sts. in the round.\n",
        [[8], [16], [24], [48]],
    ),
    "shells over shells, with half a shell at either end": (
        "Rnd 1: 24 dc in magic ring, join.\n"
        "Rnd 2: Ch 1, sc in same st, *sk 2 sts, 5 dc in next st (shell made), sk 2 sts, sc in next st; rep from * to end, leaving "
        "out the last sc, sl st in first sc. You now have 4 shells.\n"
        "Rnd 3: Ch 3 (counts as dc), 2 dc in same place, *sc in 3rd dc of next shell, 5 dc in next sc; rep from * to last shell, "
        "sc in 3rd dc of last shell, 2 dc in base of ch 3, sl st to top of ch 3.\n"
        "Rnd 4: Ch 1, sc in same place, *5 dc in next sc, sc in 3rd dc of next shell; rep from * to last sc, 5 dc in last sc, "
        "sl st to first sc.\n",
        # four times sc and 5 dc; 3 dc, three times sc and 5 dc, sc, 2 dc; then as before
        [[24], [24], [24], [24]],
    ),
    "rounds named with a letter, and a part's name before a dash": (
        "TOE - Rnd 1: 10 sc in magic ring.\nStripe rnd A: With B, ch 1, sc around; join.\n"
        "Stripe rnd B: With A, ch 1, 2 sc in each st around; join.\n",
        [[10], [10], [20]],
    ),
    "a number of times for each size, and what is left after none": (
        "Sizes S / M / L\n\nRnd 1: 12 / 16 / 20 sc in magic ring.\nRnd 2: [sc 2, sc2tog] 3 / 4 / 5 times.\n"
        "Rnd 3: [sc 2, inc] 0 / 4 / 5 times, sc in any sts left.\n",
        # no repeat for the first size, whose nine stitches are all left
        [[12, 16, 20], [9, 12, 15], [9, 16, 20]],
    ),
    "two strokes before the count, and a loop to work into": (
        "rnd 1: 5 sc into a loop // 5\nrnd 2: 2 sc in each st // 10\n",
        [[5], [10]],
    ),
    "a note on the chain at each start begins nothing": (
        "ch 2 at the start of a rnd is not a st.\n\nRnd 1: 9 dc in magic ring; join.\nRnd 2: Ch 2, 2 dc in each st; join.\n",
        [[9], [18]],
    ),
}


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_is_read_and_worked(kind: str) -> None:
    text, wanted = KINDS[kind]

    assert counts(text) == wanted
    assert corrections(text) == []


WRONG: dict[str, tuple[str, list[str]]] = {
    "a round missing from a table": (
        "1 | MR 6 | 6\n2 | inc x6 | 12\n3 | sc 1, inc 1 x6 | 18\n5 | sc 18 | 18\n6 | sc 18 | 18\n",
        ["number-skipped"],
    ),
    "figures alone with a wrong count": (
        "Numbers alone are single crochets. W = 2 sc in one st, M = 2 sc together.\n\n"
        "r1: 6 in magic ring {6}\nr2: 6W {12}\nr3: (1,W)*6 {16}\nr4: 18 {18}\n",
        ["count-differs"],
    ),
    "an arm joined and a wrong count": (
        "Rnd 1: 20 sc in magic ring. (20)\nRnd 2: 3 sc, 5 sc through arm and body, 12 sc. (18)\nRnd 3: sc around. (20)\n",
        ["count-differs"],
    ),
}


@pytest.mark.parametrize("kind", WRONG)
def test_what_is_wrong_is_corrected(kind: str) -> None:
    text, wanted = WRONG[kind]

    assert [finding.rule for finding in proof(text).findings if finding.level is Level.CORRECTION] == wanted
