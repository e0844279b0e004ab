"""Small drafts, one for each kind of toy and lace once misread; every count worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.finding import Level
from rowcall.lint.proof import proof

Counts = list[list[int | None]]

KINDS: dict[str, tuple[str, Counts]] = {
    "a dash lets a size pass over a round, and its row stays": (
        "Sizes: A (B, C)\n"
        "Rnd 1: 36 dc in ring. (36 dc)\n"
        "Rnd 2: Ch 2, *dc in each of next - (5, 2) dc, 2 dc in next dc; rep from * around, join. [- (42, 48) dc]\n"
        "Rnd 3: Ch 2, dc in each dc around, join. 36 (42, 48) dc.\n",
        [[36, 36, 36], [None, 42, 48], [36, 42, 48]],
    ),
    "a ring and a bare figure, without colons": (
        "R1 MR 6 (6)\nR2 inc, 5 (7)\nR3 sc around (7)\n",
        [[6], [7], [7]],
    ),
    "a ring and a bare figure after a colon": (
        "R1: MR 6 (6)\nR2: (1, inc) x3 (9)\nR3: sc around (9)\n",
        [[6], [9], [9]],
    ),
    "one bare figure beside an increase": (
        "R1: 6 sc in MR (6)\nR2: inc, 5 (7)\n",
        [[6], [7]],
    ),
    "a range without a colon and the stitch first": (
        "R1 6 sc in MR (6)\nR2-R5 sc around (6)\nR6 inc around (12)\n",
        [[6], [6], [12]],
    ),
    "a join into a space ends with its sentence, before the chain": (
        "Rnd 1: Ch 3 (counts as dc), (2 dc, ch 1) into ring, *3 dc into ring, ch 1; rep from * 4 more times, join. (18 dc)\n"
        "Rnd 2: Join A in any ch-1 sp. Ch 3 (counts as dc), 2 dc in same sp, 3 dc in each sp around, join. (18 dc)\n",
        [[18], [18]],
    ),
    "one more between the increases each round, until a count": (
        "R1: 6 sc in MR (6)\n"
        "R2: inc in each st (12)\n"
        "R3: *1 sc, inc; rep around (18)\n"
        "R4-R6: Continue in this manner, working one more sc between the increases each round, until you have 36 sts.\n"
        "R7: sc in each st (36)\n",
        [[6], [12], [18], [36], [36]],
    ),
    "as a round before, but with other stitches between the increases": (
        "Round 1: 8 hdc in ring. (8 hdc)\n"
        "Round 2: 2 hdc in each st. (16 hdc)\n"
        "Round 3: *2 hdc in first st, 1 hdc in next st; repeat from * around. (24 hdc)\n"
        "Round 4: Same as round 3 but with 2 hdc between the increases. (32 hdc)\n",
        [[8], [16], [24], [32]],
    ),
    "talk with an exclamation before a repeat of rounds": (
        "Round 1: 12 hdc in ring. (12 hdc)\n"
        "Round 2: hdc in each st. (12 hdc)\n"
        "Rounds 3 through 9: Just keep going! Repeat round 2.\n",
        [[12], [12], [12]],
    ),
    "ending with a slip stitch is the join": (
        "1st round.-12 tr. into ring. (12 tr.)\n"
        "2nd round.-1 ch., 1 d.c. into each tr. all round, ending with 1 s.s. into first d.c. (12 d.c.).\n"
        "3rd round.-2 d.c. into each d.c. (24 d.c.)\n",
        [[12], [12], [24]],
    ),
    "working in a loop only, without a comma": (
        "Round 1: 12 sc in ring. (12 sc)\nRound 2: Ch 1, working in BLO sc in each st around; join.\n",
        [[12], [12]],
    ),
    "declared sizes stay though one list has too few figures": (
        "Sizes: newborn/child/adult\n"
        "R1: ch1, 8hdc in magic circle (8)\n"
        "R2: ch1, 2hdc in each st (16)\n"
        "R3: hdc in each st around (16/16)\n"
        "R4: hdc in each st around (16/16/16)\n",
        [[8, 8, 8], [16, 16, 16], [16, 16, 16], [16, 16, 16]],
    ),
    "a size that stops increasing and goes on to a later round": (
        "Sizes: newborn/child/adult\n"
        "R1: ch1, 8hdc in magic circle (8)\n"
        "R2: ch1, 2hdc in each st (16)\n"
        "newborn: stop increasing here and go to R4\n"
        "R3: ch1, *hdc, 2hdc in next st* repeat around (24)\n"
        "R4 (all sizes): ch1, hdc in each st around (16/24/24)\n",
        [[8, 8, 8], [16, 16, 16], [None, 24, 24], [16, 24, 24]],
    ),
    "the last rounds as a heading": (
        "R1: 8 sc in ring (8)\n"
        "R2: ch1, sc in each st around (8)\n"
        "Keep repeating R2 until hat measures 6 inches\n"
        "Last 3 rounds: ch1, sc in each st around (8)\n",
        [[8], [8], [8], [8]],
    ),
    "free loops of a chain, and skipped stitches, are a number each": (
        "Rnd 1: Ch 26, join. Sc in each ch around. (26 sc)\n"
        "Rnd 2: Sc in next 3 sc, ch 13, skip next 13 sc for thumb, sc to end. (13 sc)\n"
        "Thumb\n"
        "Rnd 1: Join yarn in first skipped sc, sc in each of 13 skipped sc, sc in free lp of each of 13 ch. (26 sc)\n"
        "Rnd 2: sc in each sc. (26 sc)\n",
        [[26], [13], [26], [26]],
    ),
    "a count that closes with a chain, as a sentence": (
        "Rnd 1: 24 sc in ring. (24 sc)\n"
        "Rnd 2: Sc in next 8 sc, ch 2, skip next 8 sc for thumb, sc to end. 16 sc and ch-2\n"
        "Rnd 3: Sc in each sc and ch around. 18 sc.\n",
        [[24], [16], [18]],
    ),
    "a count that closes with a chain, in brackets": (
        "Rnd 1: 24 sc in ring. (24 sc)\n"
        "Rnd 2: Sc in next 8 sc, ch 2, skip next 8 sc for thumb, sc to end. (16 sc, ch 2)\n"
        "Rnd 3: Sc in each sc and ch around. 18 sc.\n",
        [[24], [16], [18]],
    ),
    "two pieces held together are worked as one": (
        "Rnd 1: 24 sc in ring. (24 sc)\n"
        "Rnd 2: Hold pieces wrong sides together, sc through both layers in each st around. (24 sc)\n",
        [[24], [24]],
    ),
    "one after the other by turns, and do this so many times": (
        "Round 1: 6 sc in magic ring. (6)\n"
        "Round 2: inc in each stitch. (12)\n"
        "Round 3: alternate 1 sc and 1 inc around. (18)\n"
        "Round 4: sc in next stitch, then decrease. Do this 6 times in total. (12)\n",
        [[6], [12], [18], [12]],
    ),
    "stitches and spaces in one count, the UK way": (
        "Rnd 1: 12tr in magic ring. [12tr]\nRnd 2: [1tr in next st, 1ch] 12 times. [12tr, 12 ch-sps]\n",
        [[12], [12]],
    ),
    "toys in single letters with a legend, one a line": (
        "x = sc\n"
        "v = inc\n"
        "a = dec\n"
        "Rnd 1: 6x in magic ring (6)\n"
        "Rnd 2: 6v (12)\n"
        "Rnd 3: (x, v) 6 times (18)\n"
        "Rnd 4: (x, a) 6 times (12)\n"
        "Rnd 5: 12x (12)\n",
        [[6], [12], [18], [12], [12]],
    ),
    "toys in single letters with a legend on one line": (
        "Legend: x = single crochet, v = increase, a = decrease.\n"
        "Rnd 1 [6]: 6x in magic ring\n"
        "Rnd 2 [12]: 6v\n"
        "Rnd 3 [18]: (x, v)*6\n"
        "Rnd 4 [12]: (x, a)*6\n",
        [[6], [12], [18], [12]],
    ),
    "toys in capital letters without a legend": (
        "Rnd 1: 6 X in magic ring (6)\nRnd 2: 6 V (12)\nRnd 3: (X, V)*6 (18)\nRnd 4: (X, A)*6 (12)\n",
        [[6], [12], [18], [12]],
    ),
    "toys in small letters without a legend": (
        "Rnd 1: 6x in magic ring (6)\nRnd 2: 6v (12)\nRnd 3: (2x, v)*4 (16)\nRnd 4: (2x, a)*4 (12)\n",
        [[6], [12], [16], [12]],
    ),
    "the number of rows after the count": (
        "1) 7 sc in ring (7)\n2) inc x 7 (14)\n3-11) 14 sc (14) - 9 rows\n12) dec x 7 (7)\n",
        [[7], [14], [14], [7]],
    ),
    "a loop only of each stitch": (
        "Round 1: 12 sc in ring. (12 sc)\n"
        "Round 2: Sc in back loop only of each st around.\n"
        "Round 3: 2 sc in front loop only of each st around.\n",
        [[12], [12], [24]],
    ),
    "same as a bare number": (
        "1. 6 sc in ring. (6)\n2. 2 sc in each st. (12)\n3. sc in each st. (12)\n4-6. same as 3.\n",
        [[6], [12], [12], [12]],
    ),
    "an established pattern with more between the increases, one count a round": (
        "Rnd 1: 12 dc in ring. (12 dc)\n"
        "Rnd 2: 2 dc in each st. (24 dc)\n"
        "Rnd 3: *dc in next st, 2 dc in next st; rep from * around. (36 dc)\n"
        "Rnds 4-5: continue in established pattern, adding one dc between increases every rnd [48 dc, 60 dc]\n",
        [[12], [24], [36], [60]],
    ),
    "a new colour joined in a space": (
        "Round 1: *3 dc into ring, ch 2; rep from * 7 more times, join. (24 dc)\n"
        "Round 2: Join color B in any ch-2 space, ch 1, 4 sc in same space, 4 sc in each remaining ch-2 space, sl st in first sc. 32 sc.\n",
        [[24], [32]],
    ),
    "a stitch explained above the rounds is no round": (
        "Special stitches:\n"
        "picot: ch 3, sl st in first ch\n"
        "\n"
        "Rnd 1: 8 sc in ring (8 sc)\n"
        "Rnd 2: *sc in next sc, picot; rep from * around. (8 sc)\n",
        [[8], [8]],
    ),
    "a table in which the slip stitch stands before the count": (
        "| R1 | 3ch (counts as tr), 11tr in magic ring, ss to top of 3ch | 12 tr |\n"
        "| R2 | 3ch, tr in same st, [2tr in next st] around, ss | 24 tr |\n"
        "| R3 | 3ch, tr in each st around, ss | 24 tr |\n",
        [[12], [24], [24]],
    ),
    "a table with stitches and spaces in the count": (
        "| R1 | 3ch (counts as tr), 11tr in magic ring, ss to top of 3ch | 12 tr |\n"
        "| R2 | 1ch, [1dc in next st, 1ch] around, ss | 12 dc, 12 1ch-sps |\n",
        [[12], [12]],
    ),
    "a named round repeated after a sentence about it": (
        "Rnd 1: 12 sc in ring (12)\n"
        "Rib rnd: *fpdc around next st, bpdc around next st; rep from * around. (12)\n"
        "Rib round forms rib. Rep rib round 4 times more.\n"
        "Next rnd: sc in each st. (12)\n",
        [[12], [12], [12], [12]],
    ),
    "a count after the ring": (
        "Rnd 1: 24 sc in ring. 24 sc\nRnd 2: sc in each st. 24 sc\n",
        [[24], [24]],
    ),
    "a beginning shell is as large as the others": (
        "Beg shell: (ch 3, dc, ch 2, 2 dc) in same space.\n"
        "Shell: (2 dc, ch 2, 2 dc) in same space.\n"
        "Rnd 1: Ch 1, (sc in ring, ch 5) 8 times, join. (8 ch-5 lps)\n"
        "Rnd 2: Sl st into first lp, beg shell in same lp, shell in next 7 lps; join. (32 dc)\n",
        [[8], [32]],
    ),
    "a beginning shell with its short name in brackets": (
        "Beginning shell (beg shell): (ch 3, dc, ch 2, 2 dc) in same space.\n"
        "Shell: (2 dc, ch 2, 2 dc) in same space.\n"
        "Rnd 1: Ch 1, (sc in ring, ch 5) 8 times, join. (8 ch-5 lps)\n"
        "Rnd 2: Sl st into first lp, beg shell in same lp, shell in next 7 lps; join. (32 dc)\n",
        [[8], [32]],
    ),
    "shells into the space of the next shell, with chains between them": (
        "Beg shell: (ch 3, dc, ch 2, 2 dc) in same space.\n"
        "Shell: (2 dc, ch 2, 2 dc) in same space.\n"
        "Rnd 1: Ch 1, (sc in ring, ch 5) 8 times, join. (8 ch-5 lps)\n"
        "Rnd 2: Sl st into first lp, beg shell in same lp, *ch 1, shell in next lp; rep from * around, ch 1; join. (8 shells)\n"
        "Rnd 3: Sl st to ch-2 sp of first shell, beg shell in same sp, *ch 2, shell in ch-2 sp of next shell; rep from * around, ch 2; join. (8 shells)\n"
        "Rnd 4: Ch 1, *7 dc in ch-2 sp of next shell, sc in next ch-2 sp; rep from * around, join. (8 sc, 56 dc)\n",
        [[8], [32], [32], [64]],
    ),
    "rounds between stitches and between groups": (
        "Rnd 1: Ch 3 (counts as dc), 11 dc into ring, join. (12 dc)\n"
        "Rnd 2: Join B between any 2 dc. Ch 3, dc in same space, 2 dc in each space between dc around, join. (24 dc)\n"
        "Rnd 3: Join C between any 2-dc groups. Ch 3, 2 dc in same space, 3 dc in each space between groups around, join. (36 dc)\n",
        [[12], [24], [36]],
    ),
    "the next space between stitches, and between groups": (
        "Rnd 1: 12 dc in ring. (12 dc)\n"
        "Rnd 2: *2 dc in next space between dc* around. (24 dc)\n"
        "Rnd 3: *3 dc in next sp between 2-dc groups; rep from * around. (36 dc)\n",
        [[12], [24], [36]],
    ),
    "groups and spaces in one count": (
        "Rnd 1: 12 dc in ring. (12 dc)\n"
        "Rnd 2: *3 dc in next dc, ch 1; rep from * around. (12 groups, 12 ch-1 spaces)\n"
        "Rnd 3: 3 dc in each ch-1 sp around. (36 dc / 12 groups)\n",
        [[12], [36], [36]],
    ),
    "v-stitches counted beside single crochet, and shells into them": (
        "V-st: (dc, ch 1, dc) in same st\n"
        "Rnd 1: 32 sc in ring (32 sc)\n"
        "Rnd 2: Ch 1, [sc in next sc, skip 1 sc, V-st in next sc, skip 1 sc] 8 times, join. 8 sc and 8 V-sts.\n"
        "Rnd 3: Ch 1, [sc in next sc, 5 dc in ch-1 space of next V-st] 8 times, join. (8 sc, 8 shells)\n",
        [[32], [24], [48]],
    ),
    "v-stitches with other chains beside them": (
        "V-st: (dc, ch 1, dc) in same st\n"
        "Rnd 1: 32 sc in ring (32 sc)\n"
        "Rnd 2: Ch 1, [sc in next sc, ch 1, skip 1 sc, V-st in next sc, ch 1, skip 1 sc] 8 times, join. 8 sc and 8 V-sts.\n"
        "Rnd 3: Ch 1, [sc in next sc, 5 dc in ch-1 space of next V-st] 8 times, join. (8 sc, 8 shells)\n",
        [[32], [24], [48]],
    ),
    "v-stitch in each v-stitch's space": (
        "V-st: (dc, ch 1, dc) in same st\n"
        "Rnd 1: 16 sc in ring (16 sc)\n"
        "Rnd 2: Ch 1, [sc in next sc, skip 1 sc, V-st in next sc, skip 1 sc] 4 times, join. (4 sc, 4 V-sts)\n"
        "Rnd 3: V-st in each V-st sp around, join. (4 V-sts)\n"
        "Rnd 4: Ch 1, sc in each dc around, skipping the ch sps; join. (8 sc)\n",
        [[16], [12], [8], [8]],
    ),
    "a granny square, its last corner omitted as it is made": (
        "Rnd 1: Ch 4, join with sl st to form ring. Ch 3 (counts as dc here and throughout), 2 dc in ring, (ch 2, 3 dc in ring) 3 times, ch 2, join to top of ch-3. [12 dc, 4 ch-2 sps]\n"
        "Rnd 2: Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, ch 1, *(3 dc, ch 2, 3 dc) in next sp, ch 1; rep from * 2 more times, join. [24 dc]\n"
        "Rnd 3: Sl st in next 2 dc and in ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, *ch 1, 3 dc in next ch-1 sp, ch 1, (3 dc, ch 2, 3 dc) in next corner; rep from * around, omitting last corner, join. [36 dc]\n"
        "Rnd 4: Ch 1, sc in same st and in each dc and ch-1 sp around, working 3 sc in each ch-2 corner sp, sl st to first sc. [56 sc]\n",
        [[12], [24], [36], [56]],
    ),
    "the last stitch left out, a repeat on a line of its own": (
        "Rnd 1: Ch 3, then 15 double crochet (dc) into ring. Join with a sl st into 3rd of first ch 3.\n"
        "Rnd 2: Ch 5. (1 dc into next dc, ch 2) 15 times. Join with a sl st into 3rd of first ch 5.\n"
        "Rnd 3: Sl st into first ch 2 space (sp), ch 3, 2 dc in same space, ch 1.\n"
        "*3 dc into next space (sp), ch 1.\n"
        "Repeat from * to the end. Join with a sl st into 3rd of first ch 3.\n"
        "Rnd 4: Sl st into first ch sp.\n"
        "*(Ch 3, sc 1 into next sp) 3 times. Ch 6, sc 1 into next sp.\n"
        "Repeat from * 3 more times, leaving out last sc, and join with a sl st to the sl st at beginning of this round.\n",
        [[16], [16], [48], [15]],
    ),
    "slip stitches that tie loops down, groups between loops": (
        "Rnd 1: Ch 3, 11 dc in ring, join. (12 dc)\n"
        "Rnd 2: Ch 11, tr in next dc, *ch 7, tr in next dc; rep from * 9 more times, ch 7, join in 4th st of ch. (12 tr)\n"
        "Rnd 3: Ch 3, 2 dc in same space with joining, *ch 4, sl st in center st of loop, ch 4, 3 dc in next tr; rep from * around, ch 4, sl st in center st of loop, ch 4, join. (36 dc)\n"
        "Rnd 4: Ch 3, dc in same space, 1 dc in next dc, 2 dc in next dc, *ch 7, 2 dc in 1st dc of next group, 1 dc in next dc, 2 dc in next dc; rep from * around, ch 7, join. (60 dc)\n"
        "Rnd 5: Ch 3, 1 dc in each dc, *ch 4, sl st in center st of loop, ch 4, sl st in same space, ch 4, 1 dc in each dc; rep from * around. (60 dc)\n",
        [[12], [12], [36], [60], [60]],
    ),
    "filet squares opened and filled": (
        "Ch 17.\n"
        "Row 1: Dc in 4th ch from hook and in each ch across. (15 dc)\n"
        "Row 2: Ch 3, turn, dc in next 2 dc, [ch 2, sk 2 dc, dc in next dc] 3 times, dc in next 2 dc, dc in top of ch. (9 dc)\n"
        "Row 3: Ch 3, turn, dc in next 2 dc, ch 2, dc in next dc, 2 dc in ch-2 sp, dc in next dc, ch 2, dc in next dc, dc in next 2 dc, dc in tch. (11 dc)\n"
        "Row 4: Ch 3, turn, dc in each dc and 2 dc in each ch-2 sp across. (15 dc)\n",
        [[17], [15], [9], [11], [15]],
    ),
    "shells over single crochet in rows, in UK terms": (
        "UK terms\n"
        "Shell: 5tr in same st.\n"
        "Ch 20.\n"
        "Row 1: 1dc in 2nd ch from hook, *miss 2ch, shell in next ch, miss 2ch, 1dc in next ch; rep from * to end. (3 shells)\n"
        "Row 2: 3ch, turn, 2tr in first dc, *miss 2tr, 1dc in next tr, miss 2tr, shell in next dc; rep from * to last shell, miss 2tr, 1dc in next tr, miss 2tr, 3tr in last dc. (2 shells)\n",
        [[20], [19], [19]],
    ),
}


@pytest.mark.parametrize("kind", KINDS)
def test_kinds(kind: str) -> None:
    text, wanted = KINDS[kind]
    result = proof(Draft.of(text))
    worked = [[size.count if size else None for size in one.sizes] for one in result.workings.rounds]
    assert worked == wanted
    assert [finding.rule for finding in result.findings if finding.level is Level.CORRECTION] == []
