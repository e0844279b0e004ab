"""Whole small drafts of toys: times, counts and places as toy designers write them; counts worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.finding import Level
from rowcall.lint.proof import proof

Counts = list[list[int | None]]

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
}


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_is_read_and_worked(kind: str) -> None:
    text, wanted = KINDS[kind]
    found = proof(Draft.of(text))

    assert [[size.count if size else None for size in one.sizes] for one in found.workings.rounds] == wanted
    assert [finding.rule for finding in found.findings if finding.level is Level.CORRECTION] == []


WRONG: dict[str, tuple[str, list[str]]] = {
    "times behind a colon, and a wrong count": (
        "R1: 6 sc in MR (6)\nR2: sc 1, inc 1, *3 (9)\nR3: sc in next 2 st, inc in next st: x3 (11)\nR4: sc around (12)\n",
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
