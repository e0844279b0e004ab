"""Whole small drafts of toys: times, counts and places as toy designers write them; counts worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.finding import Level
from rowcall.lint.proof import proof
from worked import Counts, corrections, counts

KINDS: dict[str, tuple[str, Counts]] = {
    "times behind a star, an x, a colon and a semicolon, for all that was said": (
        "R1: 6 sc in MR (6)\nR2: sc 1, inc 1, *3 (9)\nR3: sc 2, inc 1, x3 (12)\n"
        "R4: sc in next st, inc in next st: x6 (18)\nR5: 2 sc, 2 sc into the next; 6 times (24)\n"
        "R6: 2 sc, skip 1 st, 1 sc; 6 times (18)\nR7: 1 sc, 1 sc in next 2 sts together: x6 (12)\n",
        # 6 + 3, 9 + 3, 12 + 6, 18 + 6; six fours lose one each, then six threes
        [[6], [9], [12], [18], [24], [18], [12]],
    ),
    "repeats that name the marks again": (
        "Rnd 1: 6 sc in MR \u2013 6\nRnd 2: *1 sc in next st, 2 sc in next st*, repeat *\u2013* 3 times \u2013 9\n"
        "Rnd 3: (2 sc, 1 increase) repeat ( ) 3 times \u2013 12\n",
        [[6], [9], [12]],
    ),
    "an x glued to its stitch": (
        "1 rnd: 6 sc in mr = 6\n2 rnd: inc\u00d76 = 12\n3 rnd: inc\u00d72, 10 sc = 14\n4 rnd: *5 sc, dec\u00d71*\u00d72 = 12\n"
        "5 rnd: incx12 = 24\n",
        # 4 + 10; two sevens become sixes; every one doubled
        [[6], [12], [14], [12], [24]],
    ),
    "the number of times first": (
        "Rnd 1: start 6 sc in a magic ring (6 sts)\nRnd 2: 6 \u00d7 2 sc in one stitch (12 sts)\n"
        "Rnd 3: 6 x (1 sc, 1 inc) (18 sts)\nRnd 4: 2 sc, 2x dec, 12 sc (16 sts)\nRnd 5: each stitch 1 sc (16 sts)\n",
        # 6 + 6, 12 + 6, 2 + 2 + 12 of 18
        [[6], [12], [18], [16], [16]],
    ),
    "a number in words behind a full stop": (
        "1st round. 6 single crochet in magic ring.\n2nd round. Two single crochet in each stitch.\n"
        "3rd round. Single crochet around. At end of rnd 3 change to pink.\n",
        [[6], [12], [12]],
    ),
    "counts before the words, and behind a dash": (
        "Rnd 1: (6) 6 sc in magic ring\nRnd 2: (12) inc 6\nRnd 3: (12) sc around\n"
        "Rnd 4: dec 1 sc over next 2 sc, sc to end\u201411 sc\nRnd 5: Sc to last 2 sts, sc2tog\u201410 sts.\n",
        # 12 less one, less one
        [[6], [12], [12], [11], [10]],
    ),
    "a count behind the last place of an oval": (
        "R1: ch 9, 1 sc in 2nd ch from hook, 6 sc, 3 sc in next ch, working on opposite side 6 sc, 2 sc in next (18)\n",
        # 1 + 6 + 3 and 6 + 2 on the other side
        [[18]],
    ),
    "a legend parted by dots": (
        "MR = magic ring \u00b7 inc = increase \u00b7 dec = decrease \u00b7 BS = bobble stitch (5 dc in one st, closed together)"
        "\n\nRnd 1: start 6 sc in a MR [6]\nRnd 2: inc in all 6 st [12]\n"
        "Rnd 3: sc in next 4 st, BS in next st, sc in next 7 st [12]\n",
        [[6], [12], [12]],
    ),
    "a stitch that isn't known": (
        "Rnd 1: 6 sc in MR [6]\nRnd 2: inc in all 6 st [12]\nRnd 3: sc in next 4 st, QS in next st, sc in next 7 st [12]\n"
        "Rnd 4: sc in all 12 st [12]\n",
        [[6], [12], [None], [12]],
    ),
    "rounds of which only the count is said": (
        "Rnd 1. 6 sc in MR. 6\nRnd 2. inc x 6. 12\nRnds 3 \u2013 5. 12\nRnd 6. 12 (12)\nRnd 7. sc 2, dec 1, x3 (9)\n",
        [[6], [12], [12], [12], [9]],
    ),
    "times that are meant for the last stitch alone": (
        "Rnd 1: 6 sc in MR (6)\nRnd 2: 3 sc, inc 1, x3 (9)\n",
        # three fours would want 12 stitches
        [[6], [9]],
    ),
    "so many in the round": (
        "Rnd 1: 4 sc in magic ring.\nRnd 2: Sc in each sc around, inc 2 sc in rnd (6 sc).\nRnd 3: Inc 3 sc in rnd (9 sc).\n"
        "Rnd 4: Inc 1 sc (10 sc).\nRnd 5: Dec 2 sc in round (8 sc).\n",
        [[4], [6], [9], [10], [8]],
    ),
    "the letter behind the number": (
        "1R: 6 sc in MR (6)\n2R: (1 sc, inc) * 3 (9)\n3R-5R: 9 sc (3 rows)\n6R: (1 sc, dec) * 3 (6)\n",
        [[6], [9], [9], [6]],
    ),
    "pieces with bare numbers beside one with letters": (
        "STRAWBERRY\nR1) MR, 4 sc (4)\nR2) sc, inc; rep 2x (6)\nR3) 6 sc (6)\nR4) sc, inc; rep 3x (9)\n\n"
        "LEMON\n1) 5 sc in MR (5)\n2) 5 inc (10)\nFill.\n3) 5 dec (5)\n\n"
        "CHERRY (x 2)\n1) 6 sc in MR (6)\n2) inc in every st (12)\n3)-5) 12 sc (12)\n",
        [[4], [6], [6], [9], [5], [10], [5], [6], [12], [12]],
    ),
    "rounds listed before a full stop, loops said first, times behind a dash": (
        "Rnd 1: 6 sc in MR\n2nd round. Through front loops, 2 sc in each stitch around (12).\n"
        "3rd, 4th and 5th rounds. Work even.\n6th round. 1 sc, 1 decrease \u2013 4 times (8)\n",
        [[6], [12], [12], [8]],
    ),
    "chains told behind the name of a piece": (
        "BODY: Beg at tail, ch 2. Rnd 1: 4 sc in 2nd ch from hook. Rnd 2: 2 sc in each.\n"
        "EYE STALKS (make 2): With A, ch 2. Rnd 1: 5 sc in 2nd ch from hook. Rnds 2-4: Sc in each sc around.\n",
        # the chains are entries of their own
        [[2], [4], [8], [2], [5], [5]],
    ),
}


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_is_read_and_worked(kind: str) -> None:
    text, wanted = KINDS[kind]

    assert counts(text) == wanted
    assert corrections(text) == []


WRONG: dict[str, tuple[str, list[str]]] = {
    "times behind a colon, and a wrong count": (
        "R1: 6 sc in MR (6)\nR2: sc 1, inc 1, *3 (9)\nR3: sc in next 2 st, inc in next st: x3 (11)\nR4: sc around (12)\n",
        ["count-differs"],
    ),
    "a figure alone that is wrong": (
        "Rnd 1. 6 sc in MR. 6\nRnd 2. inc x 6. 12\nRnds 3 \u2013 5. 13\nRnd 6. 12 sc. 12\n",
        ["count-differs"],
    ),
    "a wrong count in a piece with bare numbers": (
        "HEAD\nR1) MR, 6 sc (6)\nR2) 6 inc (12)\nR3) 12 sc (12)\nR4) 6 dec (6)\n\n"
        "EAR\n1) 5 sc in MR (5)\n2) 5 inc (10)\n3) 10 sc (11)\n4) 5 dec (5)\n",
        ["count-differs"],
    ),
    "a glued x and a wrong count": (
        "1 rnd: 6 sc in mr = 6\n2 rnd: inc\u00d76 = 12\n3 rnd: inc\u00d72, 10 sc = 15\n4 rnd: 14 sc = 14\n",
        ["count-differs"],
    ),
}


@pytest.mark.parametrize("kind", WRONG)
def test_what_is_wrong_is_corrected(kind: str) -> None:
    text, wanted = WRONG[kind]

    assert [finding.rule for finding in proof(text).findings if finding.level is Level.CORRECTION] == wanted
