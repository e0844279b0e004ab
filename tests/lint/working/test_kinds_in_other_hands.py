"""Whole small drafts, one for each kind of writing met in other hands and once misread; every count worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.finding import Level
from rowcall.lint.proof import proof

Counts = list[list[int | None]]

KINDS: dict[str, tuple[str, Counts]] = {
    "rounds in Roman numerals, and a list that counts behind the slip stitch": (
        "Sizes: child [adult]\n"
        "Round I - 9 [11] hdc in the ring; sl st. <9 [11]>\n"
        "Round II - 2 hdc in ea st; sl st. (18 [22])\n"
        "Rounds III-V - hdc in ea st; ss (18, 22)\n"
        "Round VI - *1 hdc, hdc2tog* 6 [-] times; sl st. <12 [-]>\n",
        [[9, 11], [18, 22], [18, 22], [12, None]],
    ),
    "two in the next, and in the one after that": (
        "Round 1: Work 12 double crochets into the ring. (12)\n"
        "Round 2: *One double crochet in the next stitch, two in the next.* Repeat around and join. (18)\n"
        "Round 3: *Double crochet in the next 2 stitches, then 2 in the one after that.* Repeat around. (24)\n"
        "Round 4: *Single crochet in the next 5 stitches, then 2 in the next.* Repeat around. (28)\n",
        [[12], [18], [24], [28]],
    ),
    "a range of rounds with full stops": (
        "1. rnd: 6 sc in magic ring (6)\n2.-4. rnd: 1 sc in every sc (6)\n5. rnd: 2 sc in every sc (12)\n",
        [[6], [6], [12]],
    ),
    "a seam in crochet words": (
        "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (12 sc)\n"
        "Row 2: Ch 1, sc in each sc across, turn. (12 sc)\n"
        "Rep Row 2 until you have 72 rows. Sl st the short ends together.\n",
        [[13], [12], [12], [12]],
    ),
    "counts in angled brackets, and one name for two of three sizes": (
        "SIZES: Child (Adult S/M, Adult L/XL)\n"
        "Round 1: Ch 2 (does not count), 9 (10, 11) hdc in ring. Join. <9, 10, 11 hdc>\n"
        "Round 2: Ch 2, 2 hdc in each st around. Join. <18, 20, 22>\n"
        "Adult sizes only:\n"
        "Round 3: Ch 2, *hdc in next st, 2 hdc in next; repeat from * around. Join. <-, 30, 33>\n"
        "All sizes:\n"
        "Rounds 3-5 (4-6, 4-6): Ch 2, hdc in each st around. Join. <18, 30, 33>\n",
        [[9, 10, 11], [18, 20, 22], [None, 30, 33], [18, 30, 33]],
    ),
    "2nd chain from hook and across": ("Ch 6, sc in 2nd ch from hook and across. (5 st)\n", [[5]]),
    "a round of slip stitches": (
        "R1: 12 sc in magic ring [12]\nR2: FLO 12 slst [12]\nR3: 12 sc [12]\n",
        [[12], [12], [12]],
    ),
    "2tog alone": (
        "round 1: 6sc in ring =6\n"
        "round 2: 2sc in each =12\n"
        "round 3: 1sc, 2sc in next, rpt around =18\n"
        "round 4: 1sc, 2tog, rpt around =12\n"
        "round 5: 2tog around =6\n",
        [[6], [12], [18], [12], [6]],
    ),
    "words of common English, in any form": (
        "With larger hook, ch 9. Join, taking care that the chain is not twisted. (9)\n"
        "Rnd 1: Ch 1, hdc in each ch, join snugly to top of first hdc. (9)\n",
        [[9], [9]],
    ),
    "numbers of two words, with hyphen, without and broken": (
        "Rnd 1: 24 sc in ring. (24)\n"
        "Rnd 2: sc in each of the next twenty-four sts. (24)\n"
        "Rnds 3-46: Rep Rnd 2 forty-four times. (24)\n"
        "Rnd 47: sc in next twenty\nthree sts, 2 sc in last st. (25)\n",
        [[24], [24], [24], [25]],
    ),
    "from and hook cut short": (
        "Ch 7.\nRow 1: Sc in 2nd ch fr hk and in each ch across. (6)\nRow 2: *Sc in next 2 sc, 2 sc in next sc; rep fr * across. (8)\n",
        [[7], [6], [8]],
    ),
    "a count in the heading's bracket": (
        "Rnd 1 [6]: 6 sc in magic circle\n"
        "Rnd 2 [12]: inc in each st\n"
        "Rnd 3 [18]: *sc 1, inc* repeat 6x\n"
        "Rnds 4-5 [18]: sc in each st\n",
        [[6], [12], [18], [18]],
    ),
    "a count in the heading's round bracket": (
        "Rnd 1 (6): 6 sc in magic circle\n"
        "Rnd 2 (12): inc in each st\n"
        "Rnd 3 (18): *sc 1, inc* repeat 6x\n"
        "Rnd 4 (18): sc in each st\n",
        [[6], [12], [18], [18]],
    ),
    "sizes with a gloss in brackets": (
        "HAT\n"
        "Sizes S, M, L (child, woman, man).\n"
        "\n"
        "Rnd 1: 48 (56, 64) hdc in ring.\n"
        "Rnd 2: hdc in each st around. (48, 56, 64)\n",
        [[48, 56, 64], [48, 56, 64]],
    ),
    "sizes named in a count after a dash": (
        "Sizes S, M, L\n"
        "\n"
        "Rnd 1: 48 (56, 64) hdc in ring, join - S: 48, M: 56, L: 64 hdc\n"
        "Rnd 2: hdc in each st around (S: 48, M: 56, L: 64)\n",
        [[48, 56, 64], [48, 56, 64]],
    ),
    "a dash after the heading and then a list": (
        "Sizes S (M, L)\n\nRnd 1 - 48 (56, 64) hdc in ring\nRnd 2 - hdc in each st. 48 (56, 64) hdc\n",
        [[48, 56, 64], [48, 56, 64]],
    ),
    "into the first space and then each space": (
        "Rnd 1: 16 dc in ring. (16 dc)\n"
        "Rnd 2: Ch 4 (counts as dc, ch 1), *dc in next dc, ch 1; rep from * around, join to 3rd ch of ch 4. (16 dc, 16 ch-1 sps)\n"
        "Rnd 3: sl st in first sp, ch 3, dc in same sp, 2 dc in each sp around, join. (32 dc)\n",
        [[16], [16], [32]],
    ),
    "uk into the first space": (
        "UK terms\n"
        "1st rnd: 16tr in ring. (16 tr)\n"
        "2nd rnd: 4ch, *1tr in next tr, 1ch; rep from * to end, ss to 3rd of 4ch. (16 tr)\n"
        "3rd rnd: ss into first sp, 3ch, 1tr in same sp, 2tr in each sp to end, ss to top of 3ch. (32 tr)\n",
        [[16], [16], [32]],
    ),
    "in the same place as the slip stitch": (
        "UK terms\n"
        "1st rnd: 3ch, 11tr in ring, ss to top of 3ch. (12 tr)\n"
        "2nd rnd: 3ch, 1tr in same place as ss, *2tr in next tr; rep from * to end, ss to top of 3ch. (24 tr)\n",
        [[12], [24]],
    ),
    "rounds without a number, a number a size": (
        "Sizes S, M, L\n"
        "\n"
        "Rnd 1: 24/28/32 hdc in ring\n"
        "Rnd 2: hdc in each st (24/28/32)\n"
        "Next 6/7/8 rnds: sc in each st\n"
        "Next rnd: *hdc 2, hdc2tog; rep from * around. (18/21/24)\n",
        [[24, 28, 32], [24, 28, 32], [24, 28, 32], [18, 21, 24]],
    ),
    "next rounds with a list": (
        "Sizes S, M, L\n"
        "\n"
        "Rnd 1: 24 (28, 32) hdc in ring\n"
        "Rnd 2: hdc in each st (24, 28, 32)\n"
        "Next 6 (7, 8) rnds: sc in each st\n"
        "Next rnd: *hdc 2, hdc2tog; rep from * around. (18, 21, 24)\n",
        [[24, 28, 32], [24, 28, 32], [24, 28, 32], [18, 21, 24]],
    ),
    "a fin closed through both layers": (
        "R1: 4 sc in MR [4]\nR2: inc x4 [8]\nR3: sc around [8]\nR4: fold flat and sc through both layers, 4 sc [4]\n",
        [[4], [8], [8], [4]],
    ),
    "commence with a chain": (
        "Commence with 2 chain.\n"
        "1st round.- Work 6 double crochet into the 2nd chain from hook.\n"
        "2nd round.- Work 2 double crochet into each stitch (12 sts.).\n",
        [[2], [6], [12]],
    ),
    "a list with what it counts": (
        "Sizes S, M, L\n"
        "\n"
        "Rnd 1: 24 (28, 30) sc in ring (24/28/30)\n"
        "Rnd 2: ch 5, skip 5, sc in next 19 (23, 25) (24/28/30 counting the chs)\n",
        [[24, 28, 30], [24, 28, 30]],
    ),
    "a line broken inside a stitch's name": (
        "UK terms\n"
        "Rnd 1: Work 12 double crochet into ring (12 sts.).\n"
        "Rnd 2: 2 double crochet into each stitch to the last 6 stitches, work 1 double\n"
        "crochet into each of the last 6 stitches (18 sts.).\n",
        [[12], [18]],
    ),
    "stitches and spaces each their own": (
        "Rnd 1: 20 dc in ring, join (20 dc)\n"
        "Rnd 2: *5 dc, ch 2; rep from * around, join (20 dc)\n"
        "Rnd 3: dc in each dc and 3 dc in each ch-2 sp around (32 dc)\n",
        [[20], [20], [32]],
    ),
    "stitches and a corner in each space": (
        "Rnd 1: 20 dc in ring, join (20 dc)\n"
        "Rnd 2: *5 dc, ch 2; rep from * around, join (20 dc)\n"
        "Rnd 3: dc in each dc and (2 dc, ch 2, 2 dc) in each ch-2 sp around (36 dc)\n",
        [[20], [20], [36]],
    ),
    "working a corner in each space": (
        "Rnd 1: 20 dc in ring, join (20 dc)\n"
        "Rnd 2: *5 dc, ch 2; rep from * around, join (20 dc)\n"
        "Rnd 3: dc in each dc around, working (2 dc, ch 2, 2 dc) in each ch-2 sp (36 dc)\n",
        [[20], [20], [36]],
    ),
    "to the next space": (
        "Rnd 1: 20 dc in ring, join (20 dc)\n"
        "Rnd 2: *5 dc, ch 2; rep from * around, join (20 dc)\n"
        "Rnd 3: *dc in each dc to next ch-2 sp, (2 dc, ch 2, 2 dc) in ch-2 sp; rep from * around (36 dc)\n",
        [[20], [20], [36]],
    ),
    "a counted chain and a space on counted stitches": (
        "Rnd 1: 12 dc in ring (12 dc)\n"
        "Rnd 2: ch 4 (counts as dc and ch 1), *dc in next dc, ch 1; rep from * around, join. (12 dc, 12 ch-1 sps)\n"
        "Rnd 3: ch 1, sc in each dc and in each ch-1 sp around. (24 sc)\n",
        [[12], [12], [24]],
    ),
    "a filet round counted in spaces": (
        "Rnd 1: Ch 1, 72 sc in ring, join. 72 sc.\n"
        "Rnd 2: Ch 4 (dc + ch 1), sk next sc, *dc in next sc, ch 1, sk next sc; rep from * around, join in 3rd ch. 36 ch-1 sps.\n",
        [[72], [36]],
    ),
    "a count in mid-round": (
        "Ch 9.\n"
        "Rnd 1: Sc in 2nd ch from hook and in each ch across (8), rotate, sc in the other side of each ch (16).\n",
        [[9], [16]],
    ),
    "then along the opposite side": (
        "Ch 9.\n"
        "Rnd 1: Sc in 2nd ch from hook and in each ch across, then working along the opposite side of the chain sc in each ch (16)\n",
        [[9], [16]],
    ),
    "number dash text": (
        "1 - Ch 2, 10 hdc in 2nd ch from hook, join with sl st (10)\n"
        "2 - Ch 2 (doesn't count as a stitch), 2 hdc in each st, join (20)\n"
        "3 - Ch 2, [2 hdc in first st, 1 hdc in next] around, join (30)\n"
        "4-6 - Ch 2, hdc in each st, join (30)\n",
        [[10], [20], [30], [30]],
    ),
    "counted with the chains": (
        "R1: 78 sc in ring [78]\n"
        "R2: sc 14, ch 22, skip 11, sc 28, ch 22, skip 11, sc 14. [100 incl. chains]\n"
        "R3: sc in each st and each ch around [100]\n",
        [[78], [100], [100]],
    ),
    "sizes after a comma in the heading": (
        "Sizes S, M, L\n"
        "\n"
        "Rnd 1: 16 (16, 18) sc in ring (16, 16, 18)\n"
        "Rnd 2, M and L only: *Inc, sc 7/8, rep from * once (18/20).\n"
        "Rnd 3: sc in each st (16/18/20)\n",
        [[16, 16, 18], [None, 18, 20], [16, 18, 20]],
    ),
    "the other stitches left for later": (
        "Rnd 1: 32 sc in ring (32)\n"
        "Row 2: Sc 16, turn, leave the other 16 sts for later.\n"
        "Row 3: ch 1, sc 16, turn. (16)\n",
        [[32], [16], [16]],
    ),
    "legs joined by a chain on its own line": (
        "LEGS\n"
        "R1. 6sc in MR (6)\n"
        "R2. inc x6 (12)\n"
        "R3. [sc 5, inc] x2 (14)\n"
        "Ch 3 and join to the first leg.\n"
        "R4. 14sc on first leg, 3sc on chain, 14sc on second leg, 3sc on other side of chain (34)\n"
        "R5. sc around (34)\n",
        [[6], [12], [14], [34], [34]],
    ),
    "a heading broken at the line's end": (
        "Rnd 1: Ch 3, 11 dc in ring, join (12 dc). Rnd 2: Ch 3, dc in same st, 2 dc in next dc around, join (24 dc). Rnd\n"
        "3: Ch 3, 2 dc in next dc, *dc in next dc, 2 dc in next dc; rep from * around, join (36 dc).\n",
        [[12], [24], [36]],
    ),
    "a last line of talk": (
        "Rnd 1: 12 sc in ring (12)\nRnd 2: 2 sc in each st (24)\nblock well!\n",
        [[12], [24]],
    ),
    "every alternate to with a dash": (
        "Round 1 - Ch 3, 15 dc in ring (16)\n"
        "Round 2 - *dc in next dc, 2 dc in next dc; rep from * around (24)\n"
        "Round 3 and every alternate round to Round 7 \u2013 dc in each dc\n"
        "Round 4 - *dc in next 2 dc, 2 dc in next dc; rep from * around (32)\n"
        "Round 6 - *dc in next 3 dc, 2 dc in next dc; rep from * around (40)\n"
        "Round 8 - *dc in next 4 dc, 2 dc in next dc; rep from * around (48)\n",
        [[16], [24], [24], [32], [40], [48]],
    ),
    "a v-stitch the draft defines": (
        "Special stitch\n"
        "V-st: (dc, ch 1, dc) in same st or sp.\n"
        "\n"
        "Rnd 1: 24 sc in ring (24)\n"
        "Rnd 2: *V-st in next st, sk next 2 sts; rep from * around (8 V-sts)\n"
        "Rnd 3: 3 dc in ch-1 sp of each V-st around (24)\n",
        [[24], [16], [24]],
    ),
    "a shell the draft defines": (
        "Special stitches:\n"
        "Shell = 5 dc in same st\n"
        "\n"
        "Rnd 1: 24 sc in ring (24)\n"
        "Rnd 2: *shell in next st, sk next 2 sts, sc in next st, sk 2 sts; rep from * around (4 shells)\n",
        [[24], [24]],
    ),
    "one count a round going on in the same way": (
        "Rnd 1: 8 sc in ring - 8\n"
        "Rnd 2: 2 sc in each st - 16\n"
        "Rnd 3: *sc 1, inc* around - 24\n"
        "Rnds 4-5: keep increasing 8 sts per round in the same way - 32, 40\n"
        "Rnd 6: sc in each st - 40\n",
        [[8], [16], [24], [40], [40]],
    ),
    "five counts in a row are no sizes": (
        "Rnd 1: 8 sc in ring - 8\n"
        "Rnd 2: 2 sc in each st - 16\n"
        "Rnd 3: *sc 1, inc* around - 24\n"
        "Rnds 4-8: keep increasing 8 sts per round in the same way - 32, 40, 48, 56, 64\n"
        "Rnd 9: sc in each st - 64\n",
        [[8], [16], [24], [64], [64]],
    ),
    "rounds as for another piece": (
        "FRONT\n"
        "Rnd 1: 6 sc in ring (6)\n"
        "Rnd 2: inc in each st (12)\n"
        "Rnd 3: *sc 1, inc* around (18)\n"
        "\n"
        "BACK\n"
        "Rnds 1-3: Work as for front. (18)\n"
        "Rnd 4: sc in each st (18)\n",
        [[6], [12], [18], [18], [18]],
    ),
    "rounds the same as for a size": (
        "PREEMIE\n"
        "Rnd 1: 6 sc in ring (6)\n"
        "Rnd 2: inc in each st (12)\n"
        "\n"
        "NEWBORN\n"
        "Rounds 1 - 2: Work the same as for Preemie.\n"
        "Round 3: *sc 1, inc* around (18)\n",
        [[6, None], [12, None], [None, 12], [None, 18]],
    ),
    "a chainless foundation, stitch first": (
        "Sizes S (M, L)\n"
        "\n"
        "Rnd 1: Fsc 56 (64, 72), join with sl st to form a ring.\n"
        "Rnd 2: sc in each st. (56, 64, 72)\n",
        [[56, 64, 72], [56, 64, 72]],
    ),
    "a chain that makes the first space": (
        "UK terms\n"
        "1st rnd: 25 dc into ring. (25 dc)\n"
        "2nd rnd: 4 ch, * miss 1 dc, 1 tr into next dc, 1 ch; repeat from * to end, join with a ss to 3rd of 4 ch (13 spaces)\n"
        "3rd rnd: 2 dc into each space to end (26 dc)\n",
        [[25], [13], [26]],
    ),
    "an old sole": (
        "UK terms\n"
        "Commence with 13 ch.\n"
        "1st round.-Miss 1 ch., 1 d.c. into each of next 11 ch., 3 d.c. into last ch.; along the other side of the foundation work 1 d.c. into each of next 10 ch., 2 d.c. into last ch. (26 d.c.).\n",
        [[13], [26]],
    ),
    "skip the others": (
        "Rd 1: 18 sc in ring = 18\nRd 2: 9 sc, skip the other 9 sts = 9\nRd 3: 9 sc = 9\n",
        [[18], [9], [9]],
    ),
    "talk below a count after a dash": (
        "Row 1: 30 sc in ring - 30\nRow 2: ch 1, sc in each st - 30\nLeave 14 sts free at the front.\n",
        [[30], [30]],
    ),
    "to stand for": (
        "UK terms\n"
        "1st rnd: 3ch (to stand for first tr), 23tr into ring, ss to 3rd of 3ch (24 tr)\n"
        "2nd rnd: 3 ch. (stands for 1 tr), 1tr in each tr, ss to top. (24 tr)\n",
        [[24], [24]],
    ),
    "equals one": (
        "UK terms\n1st rnd: 3ch (=1tr), 23tr into ring, ss to 3rd of 3ch (24 tr)\n",
        [[24]],
    ),
    "the granny square": (
        "Ch 3 counts as first dc.\n"
        "Rnd 1: ch 3, 2 dc in ring, ch 3, (3 dc in ring, ch 3) 3 times, join. (12 dc)\n"
        "Rnd 2: sl st to ch-3 sp, (ch 3, 2 dc, ch 3, 3 dc) in same sp, ch 1, *(3 dc, ch 3, 3 dc) in next ch-3 sp, ch 1; rep from * twice more, join. (24 dc)\n"
        "Rnd 3: sl st in next 2 dc and in ch-3 sp, (ch 3, 2 dc, ch 3, 3 dc) in same sp, ch 1, 3 dc in next ch-1 sp, ch 1, *(3 dc, ch 3, 3 dc) in next ch-3 sp, ch 1, 3 dc in next ch-1 sp, ch 1; rep from * around, join. (36 dc)\n",
        [[12], [24], [36]],
    ),
    "sizes on lines of their own below a heading": (
        "Sizes S / M / L\n"
        "\n"
        "Round 5: 40 sc in ring (40)\n"
        "Round 6:\n"
        "   S: hdc in each st around (40)\n"
        "   M: *hdc in next 9 sts, 2 hdc in next st* around (44)\n"
        "   L: *hdc in next 4 sts, 2 hdc in next st* around (48)\n"
        "Round 7: hdc in each st (40 / 44 / 48)\n",
        [[40, 40, 40], [40, None, None], [None, 44, None], [None, None, 48], [40, 44, 48]],
    ),
    "increase rounds with a number": (
        "Set-up rnd: 6 sc in ring. 6 sts.\n"
        "Inc rnd 1: 2 sc in each st. 12 sts.\n"
        "Plain rnd: Sc around. 12 sts.\n"
        "2nd inc rnd: *sc 1, 2 sc in next st* around. 18 sts.\n"
        "Increase round 3: *sc 2, 2 sc in next st* around. 24 sts.\n",
        [[6], [12], [12], [18], [24]],
    ),
    "bare figures are single crochet": (
        "1) 6 sc in magic ring [6]\n"
        "2) 6 inc [12]\n"
        "3) (1, inc)*6 [18]\n"
        "4) (2, inc)*6 [24]\n"
        "5-6) 24\n"
        "7) 3, inc, 20 [25]\n",
        [[6], [12], [18], [24], [24], [25]],
    ),
    "ending with a chain": (
        "UK terms\n"
        "1st rnd: 72 d.c. into ring (72 d.c.)\n"
        "2nd rnd: * 5 ch., miss 2 d.c., 1 d.c. into next d.c.; repeat from * ending with 5 ch., 1 s.s. into first d.c. (24 loops).\n",
        [[72], [24]],
    ),
    "skip the last": (
        "Rnd 1: 30 sc in ring (30)\n"
        "Row 2: ch 1, sc in next 25 sts, skip last 5 sts, turn (25)\n"
        "Row 3: ch 1, sc in each st (25)\n",
        [[30], [25], [25]],
    ),
    "leave for the nape": (
        "Rnd 1: 30 sc in ring (30)\n"
        "Row 2: sc 20, turn, leave last 10 sts for the nape\n"
        "Row 3: ch 1, sc in each st (20)\n",
        [[30], [20], [20]],
    ),
    "both counts said": (
        "Rnd 1: 38 sc in ring (38)\n"
        "Rnd 2: *sc in next st, ch 2, sk 1 st; rep from * to last 2 sts, sc in last 2 sts. 20 sc, 18 ch-2 sps.\n",
        [[38], [20]],
    ),
    "plain rounds by their number": (
        "Rnd 1: 48 sc in ring. 48 sts.\nWork 3 plain rnds.\nRnd 5: sc around. 48 sts.\n",
        [[48], [48], [48]],
    ),
    "a count of stitches and chains": (
        "Rnd 1: 38 sc in ring (38)\nRnd 2: sc 10, ch 20, sk 18, sc 10 (20 sc, 20 ch)\n",
        [[38], [20]],
    ),
    "mistyped post stitch": (
        "Rnd 1: 12 dc in ring (12)\n"
        "Rnd 2: *FPdc around next st, dc in next st; rep from * around (12)\n"
        "Rnd 3: *FPcd around next st, dc in next st; rep from * around (12)\n",
        [[12], [12], [12]],
    ),
    "rounds as for a part of two words": (
        "Small Basket\n"
        "R1: 6 sc in MR (6)\n"
        "R2: inc x6 (12)\n"
        "R3: sc around (12)\n"
        "\n"
        "Medium Basket\n"
        "R1 - R2: as for Small Basket (12)\n"
        "R3: (1 sc, inc) x6 (18)\n",
        [[6], [12], [12], [12], [18]],
    ),
    "a repeated round with a number a size": (
        "Sizes Small (Large)\n"
        "\n"
        "Rnd 1: 48 (56) sc in ring. (48 (56) sc)\n"
        "Large only:\n"
        "Rnd 2: sc around. (56)\n"
        "Both sizes:\n"
        "Rnd 2 (3): Ch 1, sc in each sc around, join. (48 (56) sc)\n"
        "Rnds 3-8 (4-9): Rep Rnd 2 (3).\n",
        [[48, 56], [None, 56], [48, 56], [48, 56]],
    ),
    "decreases over the next stitches": (
        "UK terms\n"
        "1st rnd: 34 d.c. in ring. 34 d.c.\n"
        "2nd rnd: 1 d.c. in each of first 11 sts., (dec. over next 2 sts.) 6 times, 1 d.c. in each st. to end, sl.st. to first d.c. 28 d.c.\n",
        [[34], [28]],
    ),
    "a corner in the same space and in each space": (
        "Rnd 1: Ch 3 (counts as first dc), dc in ring, (ch 2, 2 dc in ring) 5 times, ch 2, join with sl st in top of beg ch-3: 12 dc and 6 ch-2 sps.\n"
        "Rnd 2: Sl st in next dc and in ch-2 sp, (ch 3, dc, ch 2, 2 dc) in same sp, (2 dc, ch 2, 2 dc) in each ch-2 sp around, join: 24 dc and 6 ch-2 sps.\n",
        [[12], [24]],
    ),
    "a count that says each chain is one": (
        "Rnd 1: 36 sc in ring. 36 sc\n"
        "Rnd 2: hdc in first 15 sts, ch 2, skip the next 6 sts, hdc in each st to end, join. 32 sts counting each ch as a st\n"
        "Rnd 3: hdc in each st and ch around, join. 32 hdc\n",
        [[36], [32], [32]],
    ),
    "decreasing so many every round until so many are left": (
        "Rnd 1: 28 sc in ring (28)\n"
        "Rnds 2-4: continue decreasing 4 sts every rnd in this way until 16 sts remain.\n"
        "Rnd 5: sc around (16)\n",
        [[28], [16], [16]],
    ),
    "the underside of chains": (
        "Rnd 1: 24 sc in ring (24)\n"
        "Rnd 2: ch 5, sk next 4 sts, sc in next 20 sts (20 sc + 5 ch)\n"
        "\n"
        "THUMB\n"
        "Rnd 1: sc in each of the 4 skipped sts, 1 sc in the gap, sc in the underside of each of the 5 ch (10)\n",
        [[24], [20], [10]],
    ),
    "legs joined in the round itself": (
        "R1: 10 sc in MR (10)\n"
        "R2: sc around (10)\n"
        "R3: ch 3, join to first leg with a sc, 9 sc around first leg, 3 sc along the ch, 10 sc around second leg, 3 sc on other side of ch [26]\n"
        "R4: sc around [26]\n",
        [[10], [10], [26], [26]],
    ),
    "a whole round in the back loops": (
        "Rnd 1: 12 sc in ring (12)\nRnd 2. [white] BLO sc -12-\nRnd 3: sc through the back loops only (12)\n",
        [[12], [12], [12]],
    ),
    "rounds inclusive": (
        "1st rnd: 12 sc in ring-12 sc. 2nd to 5th rnds incl: Sc in each sc around. 6th rnd: Inc 6 sc evenly around-18 sc.\n",
        [[12], [12], [18]],
    ),
    "no increases": (
        "Rnd 1: 12 sc in ring (12)\nRnd 2: Sc around, no increases.\nRnd 3: sl st loosely in every st around.\n",
        [[12], [12], [12]],
    ),
    "so many rows said again": (
        "Rnd 1: 12 sc in ring (12)\nRows 2-8: sc around for 7 rows (12)\n",
        [[12], [12]],
    ),
    "a new piece from a chain without a title": (
        "Rnd 1: 12 sc in ring. 12 sts\n"
        "Rnd 2: sc around. 12 sts\n"
        "Make 7ch.\n"
        "Row 1: 1sc in 2nd ch from hook, 1sc in each ch to end. 6 sts\n",
        [[12], [12], [7], [6]],
    ),
    "round numbers in words": (
        "UK terms\n"
        "ROUND ONE .... 3 ch, 11 tr into ring, ss into top of 3 ch. {12 tr}\n"
        "ROUND TWO .... 3 ch, 1 tr at base of ch, [2 tr in next tr] to end, ss. {24 tr}\n"
        "ROUND THREE .... 1 ch, 1 dc in each tr, ss. {24 dc}\n",
        [[12], [24], [24]],
    ),
    "ordinal words before the round": (
        "FIRST ROUND: 6 sc in ring. (6)\n"
        "Second round: 2 sc in each st. (12)\n"
        "Third and fourth rounds: sc in each st. (12)\n"
        "Twenty-first round: sc in each st. (12)\n",
        [[6], [12], [12], [12]],
    ),
    "number signs as headings": (
        "worked in a spiral, do not join\n"
        "\n"
        "BODY\n"
        "#1 magic loop, 6 single crochets. 6\n"
        "#2 two single crochets in every stitch. 12\n"
        "#3 [single crochet, increase] six times. 18\n"
        "#4 to #6 single crochet in every stitch. 18\n"
        "#7 [single crochet x1, decrease] six times. 12\n"
        "FIN\n"
        "#1 magic loop, 4 single crochets. 4\n"
        "#2 two in every stitch. 8\n",
        [[6], [12], [18], [18], [12], [4], [8]],
    ),
    "sizes by their place": (
        "UK terms\n"
        "To fit head 50 (54, 58) cm\n"
        "\n"
        "Round 1: 36 tr in ring. {36 tr}\n"
        "2nd and 3rd sizes only\n"
        "Round 2: [1 tr in next 2 tr, 2 tr in next tr] to end, ss. {- (48, 48) tr}\n"
        "3rd size only\n"
        "Round 3: [1 tr in next 3 tr, 2 tr in next tr] to end, ss. {- (-, 60) tr}\n"
        "All sizes\n"
        "Next 4 rounds: 1 tr in each tr, ss. {36 (48, 60) tr}\n",
        [[36, 36, 36], [None, 48, 48], [None, None, 60], [36, 48, 60]],
    ),
}


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_is_worked_and_nothing_is_corrected(kind: str) -> None:
    text, wanted = KINDS[kind]

    found = proof(Draft.of(text))

    assert [[size.count if size else None for size in one.sizes] for one in found.workings.rounds] == wanted
    assert [one.rule for one in found.findings if one.level is Level.CORRECTION] == []


def test_posts_by_turns_must_close_around_the_round() -> None:
    text = (
        "Rnd 1: 21 hdc in ring (21)\n"
        "Rnd 2: ch 1 (does not count), *fphdc around next st, bphdc around next st* around, join (21)\n"
    )

    found = proof(Draft.of(text))

    assert [one.rule for one in found.findings if one.level is Level.CORRECTION] == ["repeat-does-not-fit"]


def test_a_misspelt_decrease_is_not_worked_as_one_stitch() -> None:
    text = "Rnd 1: 36 sc in ring. (36)\nRnd 2: Ch 1, *sc in next 7 sts, sc2tgo; rep from * around, join = 32 sc\n"

    found = proof(Draft.of(text))

    assert [one.sizes[0].count if one.sizes[0] else None for one in found.workings.rounds] == [36, None]
    assert [one.rule for one in found.findings if one.level is Level.CORRECTION] == []


@pytest.mark.parametrize(
    ("line", "tally"),
    [
        ("Rnd umpteen: *sc in next 2 sts, 2 sc in next st; rep from * around. (16)", (2, 1, 1)),
        ("Left side, rnd the second (RS): sc in next 12 sts. (12)", (2, 1, 1)),
        ("Work in rnds throughout: a marker helps.", (1, 1, 0)),
        ("Rounds 1 to 3 of the chart - see page 2.", (1, 1, 0)),
    ],
)
def test_a_line_that_looks_like_a_round_and_is_none_known_is_said(line: str, tally: tuple[int, int, int]) -> None:
    found = proof(Draft.of(f"Rnd 1: 12 sc in ring. (12)\n{line}\n"))

    assert (found.tally.rounds, found.tally.worked, found.tally.unread) == tally
    assert found.findings == ()
