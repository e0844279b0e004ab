"""Whole small drafts in notations that were once misread; counts, stated counts and rounds worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.finding import Level
from rowcall.lint.proof import proof
from rowcall.lint.reading import read
from rowcall.lint.working import work

Counts = list[list[int | None]]

KINDS: dict[str, tuple[str, Counts]] = {
    "two headings that are only a number": (
        "1) 7 sc in magic ring (7)\n2) sc around (7)\nRep last rnd 3 times more (7)\n",
        [[7], [7], [7]],
    ),
    "a number with a colon and lines without a full stop": (
        "1: 5 sc in magic ring\n2: sc in each st around\n3: inc around\n",
        [[5], [5], [10]],
    ),
    "ranges of bare numbers": (
        "1. 10 sc in magic ring.\n2 to 6. Sc in each st.\n7. Inc around.\n8 & 9. Sc around.\n",
        [[10], [10], [20], [20]],
    ),
    "a number alone before the first stitches": (
        "Ch 38, join with sl st to form a ring.\n1. 1 sc in each ch.\nWork 3 rnds even.\n5. Sc2tog around.\n",
        [[38], [38], [38], [19]],
    ),
    "a repeat that starts with chains makes spaces": (
        "Rnd 1: 12 sc in magic ring. (12)\nRnd 2: *ch 1, sk 1, sc 2; rep from * around. (8)\n"
        "Rnd 3: sc in each st and ch-1 sp around.\nRnd 4: (ch 2, sk 2, sc 4) twice.\nRnd 5: sc in each st and ch-2 sp.\n",
        [[12], [8], [12], [8], [10]],
    ),
    "a beginning chain that counts and a space after it": (
        "Ch 1 at beg of rnd counts as sc.\n\nMake a magic ring.\nRnd 1: Ch 1, 6 sc in ring, join with sl st to top of ch-1.\n"
        "Rnd 2: Ch 1, ch 1, sk 1 st, sc, *sc, ch 1, sk 1 st; work from * once more, join with sl st to top of ch-1.\n",
        # the chain on the first of 7, a space over the second, an sc, and twice an sc and a space over the next
        [[0], [7], [4]],
    ),
    "a beginning chain in the first place of a group is none of its spaces": (
        "Rnd 1: 6 sc in magic ring, join. (6)\nRnd 2: (Ch 3, dc) in same st, 2 dc in each st around, join. (12)\n",
        [[6], [12]],
    ),
    "a dash after the heading and what is worked": (
        "Make a magic ring.\nR1 - 2 ch, 8 htr in ring, join.\nR2 - 2 ch, htr in each st, join. {8}\n"
        "R3 - 2 ch, 2 htr in each st, join.\nRnds 4 to 6 - 1 htr in each st.\n",
        [[0], [8], [8], [16], [16]],
    ),
    "a dash after the heading and a list": (
        "Sizes: S, M, L\n\nR1 - 9/10/11 sc in magic ring. (9/10/11 sts)\nR2 - 1 single crochet in each st.\n",
        [[9, 10, 11], [9, 10, 11]],
    ),
    "ordinals and letters with a number a size": (
        "Sizes: Small (Medium)\n\n1st rnd: 4 (6) hdc in magic ring.\nRnds 2-7 (2-9): Work 6 (8) rnds without shaping\n"
        "8th (10th) rnd: 2 hdc in every st.\nR (9, 11): hdc around.\n",
        [[4, 6], [4, 6], [8, 12], [8, 12]],
    ),
    "alternate rounds with a full stop": (
        "Rnd 1 - 10 sc in a magic ring. {10}\nRnd 2 and all even rnds. Sc in each st. {10}\nRnd 3 - inc around. {20}\n",
        [[10], [10], [20]],
    ),
    "spaces named with the figure first": (
        "UK terms.\nRnd 1: 12 dc in magic ring. (12)\nRnd 2: *dc 2, 1 ch, miss 1; rep from * around. (8 dc, 4 1-ch sps)\n"
        "Rnd 3: Dc in each st and 1-ch sp around.\n",
        [[12], [8], [12]],
    ),
    "chain spaces in full": (
        "Rnd 1: 5 sc in magic ring (5)\nRnd 2: (2 dc, chain 2, 2 dc) in each st around. (20 stitches and 5 2-chain spaces)\n"
        "Rnd 3: 3 sc in each 2-chain space.\n",
        [[5], [20], [15]],
    ),
    "a count as a sentence after stitches to the last": (
        "Rnd 1: 11 sc in magic ring. 11 sc.\nRnd 2: Sc in each st to last st, 2 sc in next st. 12 sc.\n"
        "Rnd 3: Sc in each st around. 12 sc.\n",
        [[11], [12], [12]],
    ),
    "a count as a sentence after a ring of chains": (
        "Sizes: S (M, L)\n\nChain 5, join with sl st to form a ring.\nRnd 1: Work (7, 11, 15) sc into ring. (7, 11, 15) sc.\n",
        [[5, 5, 5], [7, 11, 15]],
    ),
    "every link of a short ring with a chain that counts": (
        "Ch 10, join with sl st to form a ring.\nRnd 1: Ch 2 (counts as hdc), hdc in each ch around, sl st to top of ch-2.\n"
        "Rnd 2: Ch 2 (counts as hdc), hdc in each st around, sl st to top of ch-2.\n",
        [[10], [10], [10]],
    ),
    "times for two sizes after a sign": (
        "Sizes: Small (Medium)\n\nRnd 1: 11 (17) sc in magic ring. 11 (17) sc.\n"
        "Rnd 2: [sc, 3sc in next st] x5 [8]; inc. 22 [34] sts.\nRnd 3: *dec; rep from * 10 (16) more times.\n",
        [[11, 17], [22, 34], [11, 17]],
    ),
    "a repeat from star to star with a list": (
        "Sizes: S, M, L\n\nRnd 1. (4, 8, 12) sc in magic ring - (4, 8, 12) sc\n"
        "Rnd 2. *3 sc in next st, sc in next st*; rep from * to * (1, 3, 5) more times - (8, 16, 24) sc\n",
        [[4, 8, 12], [8, 16, 24]],
    ),
    "times after a star that closes a group in one place": (
        "Rnd 1: 12 sc in magic ring.\nRnd 2: *sc in the next st, (sc, ch 1, sc) in next st* 6 times.\n",
        [[12], [18]],
    ),
    "a space passed over": (
        "Rnd 1: 4 dc in magic ring.\nRnd 2: (dc, ch 2, dc) in each st around.\n"
        "Rnd 3: [dc, ch 2, skip next 2-chain space, dc] around.\n",
        [[4], [8], [8]],
    ),
}

# a draft, and for each of its rounds the counts stated, a figure a size
STATED: dict[str, tuple[str, Counts]] = {
    "after plain rounds in a sentence": (
        "Rnd 1: 8 sc in magic ring - 8 sts\nWork 5 rnds even - 8 sts\nRnd 7: work even for 4 rnds. 8 sc.\n"
        "Work even for 2 rnds: 8 sts\n",
        [[8], [8], [8], [8]],
    ),
    "after the links of a chain": (
        "Ch 37, join with sl st to form a ring.\nRnd 1: 1 sc in each ch (37)\nRnd 2: sc in each ch - 37 sts\n",
        [[None], [37], [37]],
    ),
    "a list in brackets after a dash": (
        "Sizes: Baby, Toddler, Child, Adult\n\nRnd 1: (6, 7, 8, 9) hdc in magic ring – (6, 7, 8, 9) hdc.\n"
        "Rnd 2: 3 hdc in each st around – (18, 21, 24, 27) hdc.\n",
        [[6, 7, 8, 9], [18, 21, 24, 27]],
    ),
    "a list after the chain that a join goes into": (
        "Sizes: Baby, Toddler, Child, Adult\n\nCh 35/38/41/44, sl st in first ch to form a ring.\n"
        "R1 - Ch 1 (counts as sc); 1 sc in each ch, join with sl st to top of ch-1 (35/38/41/44)\n",
        [[None, None, None, None], [35, 38, 41, 44]],
    ),
    "a line broken within a list": (
        "Sizes: S (M, L)\n\nR1: 5 [8, 11] sc into magic\ncircle: 5 [8, 11] sts\nR2: Sc in each st around: 5 [8,\n11] sts\n"
        "Rep R 2 3 [4, 5] more times: 5\n[8, 11] sts\n",
        [[5, 8, 11], [5, 8, 11], [5, 8, 11]],
    ),
    "a line of its own after rounds repeated": (
        "Sizes 1 (2, 3)\n\nRnd 1: 10 (11, 12) sc in magic ring.\nRnd 2: sc around. 10 (11, 12) sc.\n"
        "Rep Rnd 2 2 (3, 4) more times.\n{10 (11, 12)}\nWork 3 (4, 5) rnds even.\n((10, 11, 12) sts)\n",
        [[None, None, None], [10, 11, 12], [10, 11, 12], [10, 11, 12]],
    ),
    "a line that begins with the top of a chain": (
        "Ch 1 at beg of rnd counts as sc.\n\nMake a magic ring.\nRound 1. Ch 1, 8 sc in ring, sl st to\ntop of ch-1 -- 9 sts\n",
        [[None], [9]],
    ),
    "a line of its own with the stitch in full": (
        "Round 1. 7 double crochet in magic ring\n-- 7 double crochet\nRound 2. Double crochet in each stitch\n[7 double\ncrochet]\n",
        [[7], [7]],
    ),
    "stitches and spaces of several rounds": (
        "Rnd 1: 10 sc in magic ring. 10 sc.\nRnd 2: Sc 9, (sc, ch 1, sc) in next st. (11 sts, 1 1-ch sp)\n"
        "Rnds 3 and 4: Sc in each st around. (11 sts, 0 1-ch sps)\n",
        [[10], [11], [11]],
    ),
}

# a draft, and for each of its lines how many rounds they are, a figure a size
ROUNDS: dict[str, tuple[str, Counts]] = {
    "plain rounds": (
        "Rnd 1: 6 sc in magic ring. (6)\nRnds 2 and 3: Work even for 2 rnds. (6)\nWork 5 rnds even\n",
        [[1], [2], [5]],
    ),
    "plain rounds with a list in brackets": (
        "Sizes S (M, L)\n\nRnd 1: (6, 7, 8) sc in magic ring.\nWork (6, 7, 8) rnds even.\nRep last rnd (1, 2, 3) more times.\n",
        [[1, 1, 1], [6, 7, 8], [1, 2, 3]],
    ),
}

WRONG: dict[str, str] = {
    "decreases are stitches of their kind": (
        "Rnd 1: 10 sc in magic ring. (10 sc)\nRnd 2: Sc 2, (sc2tog) 2 times, sc in each st around. (6 sc)\nRnd 3: sc around. (8)\n"
    ),
    "increases are stitches of their kind": (
        "Rnd 1: 5 sc in magic ring - 5 sc\n"
        "Rnd 2: 2 sc in each of next 2 sts, sc in next st, inc, sc in next st - 6 sc\nRnd 3: sc around - 8 sc\n"
    ),
    "stitches beside spaces in full": (
        "Rnd 1: 4 sc in magic ring. (4)\nRnd 2: (sc, chain 1, sc) in next stitch, chain 1, skip 1 stitch, sc in next 2 stitches. "
        "(5 stitches and 2 1-chain spaces)\n"
    ),
    "a note says that the chain counts": (
        "Ch 3 at beg of rnd counts as dc.\n\nMake a magic ring.\nRnd 1: Ch 3 (counts as dc), 9 dc in ring, join with sl st to top of ch-3 (10)\n"
        "Rnd 2: Ch 3, dc in next 9 sts, join with sl st to top of ch-3. (9 dc)\n"
    ),
}


def _worked(text: str) -> Counts:
    workings = work(read(Draft.of(text)))
    return [[size.count if size else None for size in one.sizes] for one in workings.rounds]


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_is_read_and_worked(kind: str) -> None:
    text, wanted = KINDS[kind]

    assert _worked(text) == wanted


@pytest.mark.parametrize("kind", STATED)
def test_each_stated_count_is_read(kind: str) -> None:
    text, wanted = STATED[kind]

    workings = work(read(Draft.of(text)))

    assert [[size.stated if size else None for size in one.sizes] for one in workings.rounds] == wanted


@pytest.mark.parametrize("kind", ROUNDS)
def test_each_line_is_worked_as_often_as_it_says(kind: str) -> None:
    text, wanted = ROUNDS[kind]

    workings = work(read(Draft.of(text)))

    assert [[size.rounds if size else None for size in one.sizes] for one in workings.rounds] == wanted


@pytest.mark.parametrize("kind", WRONG)
def test_a_wrong_count_is_corrected(kind: str) -> None:
    found = [finding.rule for finding in proof(WRONG[kind]).findings if finding.level is Level.CORRECTION]

    assert found == ["count-differs"]


def test_spaces_of_a_repeat_that_starts_with_chains() -> None:
    text, _ = KINDS["a repeat that starts with chains makes spaces"]

    workings = work(read(Draft.of(text)))

    assert [size.spaces for one in workings.rounds for size in one.sizes if size] == [0, 4, 0, 2, 0]
