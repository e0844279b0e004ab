"""Small knitted drafts in notations and words of their own; counts worked by hand."""

from __future__ import annotations

import pytest
from worked import Counts, corrections, counts

KINDS: dict[str, tuple[str, Counts]] = {
    "sizes parted by colons alone": (
        "Sizes 8:10:12\nUsing 4mm needles, cast on 91:97:103 sts.\nCast off 4:4:5 sts at beg of next 2 rows. 83:89:93 sts.\n",
        # 91 less twice 4, 97 less twice 4, 103 less twice 5
        [[91, 97, 103], [83, 89, 93]],
    ),
    "sizes parted by hyphens without blanks": (
        "Size: S - M - L - XL\nCast on 100-104-112-116 sts.\nK 1 round, inc 20-16-24-20 sts evenly = 120-120-136-136 sts.\n"
        "Next round: * K 4, M1 *, work from *-* the whole round = 150-150-170-170 sts.\n",
        # 30 and 34 groups of 4 become 5
        [[100, 104, 112, 116], [120, 120, 136, 136], [150, 150, 170, 170]],
    ),
    "sizes parted by bars": (
        "Sizes: Baby | Child | Adult\nCast on 72 | 80 | 88 sts.\nRnd 1: *P2tog, k6; rep from *. (63 | 70 | 77 sts)\n",
        # 9, 10 and 11 groups of 8 become 7
        [[72, 80, 88], [63, 70, 77]],
    ),
    "stitches a needle, which are no sizes": (
        "Cast on 60 sts.\nRound 1: K1, k2tog, k to last 3 sts, ssk, k1. 58 sts.\nRound 2: K.\n"
        "Repeat Rounds 1 and 2 until 56 sts remain (14, 28, 14).\n",
        [[60], [58], [58], [56]],
    ),
    "boxes to tick": (
        "\u2610 Cast on 32 [40] stitches.\n\u2610 Next round: knit, increasing 2 [4] sts evenly. (34 [44] sts)\n"
        "\u2610 Round 1: *K1, ssk, k12 [17], k2tog; repeat from * once more. (30 [40] sts)\n",
        # 17 and 22 sts a half, two fewer in each
        [[32, 40], [34, 44], [30, 40]],
    ),
    "stitches on three needles": ("Cast on 48 sts loosely on three needles.\nK 4 rnds.\n", [[48], [48]]),
    "the first and the last stitch": ("CO 44 sts.\nRow 1: K, inc in first and last st. (46 sts)\n", [[44], [46]]),
    "a number with a plus is how many more": (
        "CO 40 sts.\nRnd 1: K1, m1, k to last st, m1, k1. (+2 sts)\nRnd 2: K.\n",
        [[40], [42], [42]],
    ),
    "the rest waits on a spare needle": (
        "CO 88 sts.\nNext row: K33, turn. Leave rem 55 sts on a spare needle.\nDec 1 st at neck edge on next 3 rows. 30 sts.\n",
        [[88], [33], [30]],
    ),
    "the last of the rows repeated is shaped": (
        "CO 29 (31) sts.\nRow 1: K1, *p1, k1; rep from * to end.\nRow 2: P1, *k1, p1; rep from * to end.\n"
        "Rep last 2 rows 4 (5) times more, inc 1 (2) sts in centre of last row. 30 (33) sts.\n",
        [[29, 31], [29, 31], [29, 31], [30, 33]],
    ),
    "decreased further at another pace": (
        "CO 240 sts.\nRnd 1: K2tog, k116, k2tog, k to end. 238 sts.\nRep last rnd 5 times, then dec on foll 6 alt rnds. 216 sts.\n"
        "Rep last rnd 5 times then every foll 4th rnd twice. 202 sts.\n",
        # eleven times 2, and seven times 2
        [[240], [238], [216], [202]],
    ),
    "a row named, in as many rows as are named": (
        "CO 256 sts.\nDec rnd: *K9 steek sts, k2tog, k to 2 sts before next steek, ssk; rep from * once more. 252 sts.\n"
        "Rep Dec rnd on foll 7 alt rnds. 224 sts.\n",
        # twice two fewer, and seven times 4
        [[256], [252], [224]],
    ),
    "up to the centre stitch": (
        "CO 49 sts.\nRow 1 (WS): K24, p1, k24.\nRow 2 (RS): K to 1 st before centre st, s2kp, k to end. 47 sts\n"
        "Row 3: K to centre st, p1, k to end.\nRep rows 2-3 until 3 sts rem.\n",
        [[49], [49], [47], [47], [3]],
    ),
    "stitches together in more words": (
        "CO 45 sts.\nRow 1: K 20, sl 1, k 2 sts tog, p s s o, k 22. 43 sts.\n"
        "Row 2: K 20, sl next 2 sts tog as if to k, k 1, p2sso, k 20. 41 sts.\nRow 3: K next 2 sts tog, k to end. 40 sts.\n",
        # two fewer, two fewer, one fewer
        [[45], [43], [41], [40]],
    ),
    "in this manner, twice over": (
        "CO 48 sts.\nRow 1: K2, m1, k3, m1, k to end. 50 sts.\nContinue increasing in this way every 3rd row until there are 68 sts.\n"
        "Cont inc thus on every 4th row to 80 sts.\n",
        [[48], [50], [68], [80]],
    ),
    "a holder at the back": (
        "CO 200 sts.\nK 1 row.\n\nNECKBAND\nWith RS facing, k65 sts from back neck holder, pick up and k36 sts down left side of neck, "
        "k39 sts from front holder, pick up and k36 sts up right side of neck. 176 sts.\n",
        # 65, 36, 39 and 36
        [[200], [200], [176]],
    ),
    "as another part to the armholes, and the count after it": (
        "FRONT: Cast on 100 (106-112) sts.\nBACK: Cast on 100 (106-112) sts.\n"
        "SIDE: Work as for front until armhole shaping is completed: 92 (96-100) sts.\nWork even.\n",
        [[100, 106, 112], [100, 106, 112], [None, None, None], [92, 96, 100]],
    ),
    "small letters throughout": (
        "cast on 4 stitches.\nrow 1: knit\nrow 2: k2, yo, k to end (5 sts on needle)\n"
        "repeat row 2 till you have 45 stitches on your needle\nnext row: k1, k2tog, yo, k2tog, k to the end - 44 sts\n"
        "repeat that row until 5 sts are left\nknit 2 rows\n",
        [[4], [4], [5], [45], [44], [5], [5]],
    ),
    "how many repeats a cast-on holds, in brackets": (
        "Cast on 42 sts (that's 2 repeats of 18 plus 3 edge sts each side).\n"
        "Row 1: K3, *(k2tog) x 3, (yo, k1) x 6, (k2tog) x 3* twice, k3 - 42 sts\n",
        # 18 become 3, 12 and 3
        [[42], [42]],
    ),
    "so many on each needle": (
        "Cast on 56 (60: 64) sts and distribute evenly over 4 needles: 14 (15: 16) sts on each.\n"
        "Rnd 1: K to last 3 sts, k2tog, k1. 55 (59: 63) sts.\n",
        [[56, 60, 64], [55, 59, 63]],
    ),
    "the last of three paces": (
        "Cast on 63 sts.\nDec 1 st at each end of next 5 rows, then on foll 3 alt rows, then on 4 foll 4th rows. 39 sts.\n"
        "Dec 1 st at each end of next and every foll alt row until 29 sts rem, then on foll 5 rows, ending with a WS row. 19 sts.\n",
        # twelve times 2; ten more in five rows
        [[63], [39], [19]],
    ),
    "every knit row": (
        "Cast on 100 sts.\nCast off 6 sts at beg of next 2 rows, then dec 1 st at each end of every k row until 78 sts remain.\n",
        [[100], [78]],
    ),
    "picked up beside stitches whose number isn't told": (
        "Cast on 58 sts.\nReturn held sts to needles, pick up and knit 3 sts over the gap. 14 sts.\nKnit 10 rounds.\n"
        "With RS facing, rejoin yarn at base of thumb, pick up and knit 2 sts, k rem 22 sts. 46 sts.\nKnit 7 rows.\n"
        "With RS facing, pick up and knit 24 sts along each of 5 squares. 120 sts.\nKnit 5 rows.\n",
        # none of the three is known, and each is taken from its count
        [[58], [None], [14], [None], [46], [None], [120]],
    ),
    "a panel without its width": (
        "Cast on 50 sts.\nRow 2: K5, *work Row 2 of Mooring Cable, k4; rep from * once more, k5.\n",
        [[50], [None]],
    ),
    "both sides at once, of which one is counted": (
        "CO 92 sts.\nNext row: K 46, join a 2nd ball of yarn, k to end. Working on both sides at once, dec 1 st at each neck edge "
        "every 4th row 14 times: 32 sts each side.\nWork even until armhole measures 8 inches.\n",
        # 46 less 14
        [[92], [32], [32]],
    ),
    "both sides at once from the next line on, until a new piece": (
        "CO 78 sts.\nNext row: K28, BO center 22 sts, join second ball, k to end. 28 sts each side.\n"
        "Working both sides at the same time, dec 1 st at each neck edge every row 5 times. 23 sts rem each side.\n"
        "BO 11 sts at each armhole edge once. 12 sts.\n\nSLEEVES: On No. 3 needles cast on 52 sts.\n"
        "Inc 1 st each side every 4th row 10 times. 72 sts.\n",
        # 28 less 5, less 11; 52 and ten times 2
        [[78], [56], [23], [12], [52], [72]],
    ),
}


@pytest.mark.parametrize("kind", KINDS)
def test_counts_by_hand(kind: str) -> None:
    text, wanted = KINDS[kind]

    assert counts(f"Knitted piece\n\n{text}") == wanted
    assert [finding.message for finding in corrections(f"Knitted piece\n\n{text}")] == []


WRONG: dict[str, str] = {
    "one of five sizes": (
        "Sizes 8:10:12:14:16\nCast on 91:97:103:109:115 sts.\nCast off 4:4:5:5:6 sts at beg of next 2 rows. 83:89:93:99:104 sts.\n"
    ),
    "one side of two": (
        "CO 92 sts.\nNext row: K 46, join a 2nd ball of yarn, k to end. Working on both sides at once, dec 1 st at each neck edge "
        "every 4th row 14 times: 33 sts each side.\n"
    ),
    "the last row shaped": (
        "CO 29 sts.\nRow 1: K.\nRow 2: P.\nRep last 2 rows 4 times more, inc 1 st at end of last row. 31 sts.\n"
    ),
}


@pytest.mark.parametrize("kind", WRONG)
def test_a_wrong_count_is_corrected(kind: str) -> None:
    found = [finding.rule for finding in corrections(f"Knitted piece\n\n{WRONG[kind]}")]

    assert found == ["count-differs"]
