"""Rounds in the notations that drafts use: each worked on a known row, the count after it worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.reading import read
from rowcall.lint.working import work
from worked import counts

# Each row of the table: stitches of the row below, the round as written, stitches it leaves.
ONE_ROUND = [
    # brackets and how often
    (18, "(2 sc, inc) x 6", 24),
    (18, "(2 sc, inc)*6", 24),
    (18, "(2 sc, inc) 6x", 24),
    (18, "[2 sc, inc] 6 times", 24),
    (18, "{2 sc, inc} six times", 24),
    (18, "(sc in next 2 sts, 2 sc in next st) around", 24),
    (18, "(2 sc, inc)", 24),
    (18, "[sc 2, inc] repeat around", 24),
    (24, "(2 sc, dec) x 6", 18),
    (24, "[sc2tog, sc in next 2 sts] 6 times", 18),
    (12, "hdc2tog (6 times)", 6),
    (12, "dec x 6", 6),
    (12, "6 dec", 6),
    (12, "dec 6 times", 6),
    (12, "sc2tog around", 6),
    (12, "8 sc, dec twice", 10),
    # stars
    (18, "*sc in next 2 sts, 2 sc in next st; rep from * around", 24),
    (18, "*2 sc, inc* repeat from * to end", 24),
    (18, "*2 sc, inc* x 6", 24),
    (18, "*2 sc, inc*", 24),
    (18, "*2 sc, inc; rep from * 5 times more", 24),
    (18, "*2 sc, inc; rep from * five more times", 24),
    (18, "sc 2, inc, *sc 2, inc; rep from * 4 times more", 24),
    (20, "*sc 2, inc; rep from * to last 2 sts, sc in last 2 sts", 26),
    (20, "*sc 2, inc; rep from * until 2 sts remain, sc 2", 26),
    (20, "*sc in each of next 2 sts, 2 sc in next st; repeat from * across to last 2 sts, sc in last 2 sts", 26),
    (18, "+ 2 sc, inc + rep from + to + around", 24),
    (18, "** 2 sc, inc ** rep around", 24),
    (18, "*inc, 2 sc; rep from * to end of rnd", 24),
    (24, "1 sc, inc, (3 sc, inc) x 5, 2 sc", 30),
    # the whole round
    (18, "sc around", 18),
    (18, "Sc in each st around.", 18),
    (18, "1 sc in each sc to end", 18),
    (18, "SC (18)", 18),
    (18, "Sc 18.", 18),
    (18, "18 sc", 18),
    (18, "sc in every stitch around", 18),
    (18, "sc evenly around", 18),
    (18, "hdc all the way round", 18),
    (18, "dc in each st all around, join with sl st to first dc", 18),
    (6, "2 sc in each st around", 12),
    (6, "inc in each st around", 12),
    (6, "inc around", 12),
    (6, "6 inc", 12),
    (6, "inc 6", 12),
    (6, "inc x 6", 12),
    (6, "2sc in each", 12),
    (6, "double every st", 12),
    (18, "sc in BLO of each st around", 18),
    (18, "in blo, sc around", 18),
    (18, "BLO sc in each st around", 18),
    (18, "working in back loops only, sc in each st around", 18),
    # places and numbers
    (10, "sc 7, 3 sc in last 3", 10),
    (10, "sc7, sc 3", 10),
    (10, "sc in next 7, 2 hdc in next 3", 13),
    (10, "1 sc in each of next 7 sts, 2 sc in next st, 1 sc in last 2 sts", 11),
    (10, "SC x four, sc in next 6 sts", 10),
    (10, "sc in the next 4 stitches, sc2tog, sc in remaining 4 sts", 9),
    (10, "sk 1, sc 9", 9),
    (10, "sc in first st, skip next st, sc in each st to end", 9),
    (12, "dec over next 2 sts, sc in each st around", 11),
    (12, "Decrease across the next 2sc then 4sc, dec, 4 sc", 10),
    (12, "sc 2 tog, 10 sc", 11),
    (12, "3 dc tog, 9 dc", 10),
    (12, "[sk 1, sc 1] 6 times", 6),
    (10, "leave last 2 sts unworked, sc 8", 8),
    (22, "increasing in every 11th stitch", 24),
    # what stands between the steps and takes nothing
    (18, "with color B, *2 sc, inc; rep from * around, join with sl st to first sc, turn", 24),
    (18, "change to MC. (2 sc, inc) x 6. Fasten off.", 24),
    (18, "PM, sc in each st to end", 18),
    (18, "place marker in first st, (2 sc, inc) 6 times", 24),
    (18, "1sc in each of next 2sts,2sc in next st,1sc in each st around;join", 19),
    (18, "sc 2. 2 sc in next sc. sc 15.", 19),
    (18, "sc in each st around. Place marker. Do not join.", 18),
    # slips of a letter, letters of another alphabet
    (18, "1 sc in nexl st, sc in each st around", 18),
    (18, "(2 sc, ınc) x 6", 24),
    (18, "sc n next sc, 17 sc", 18),
]  # fmt: skip


@pytest.mark.parametrize(("before", "words", "after"), ONE_ROUND)
def test_one_round(before: int, words: str, after: int) -> None:
    draft = f"Rnd 1: {before} sc in magic ring.\nRnd 2: {words}\n"

    assert counts(draft) == [[before], [after]]


@pytest.mark.parametrize(("before", "words", "after"), ONE_ROUND)
@pytest.mark.parametrize("count", [" ({0})", " [{0}]", " = {0} sts", " - {0} sts", ". {0} sts.", "\n({0} sts)"])
def test_a_stated_count_changes_nothing(before: int, words: str, after: int, count: str) -> None:
    draft = f"Rnd 1: {before} sc in magic ring.\nRnd 2: {words.rstrip('.')}{count.format(after)}\n"
    workings = work(read(Draft.of(draft)))

    sizes = [one.sizes[0] for one in workings.rounds]

    assert [(size.count, size.stated) for size in sizes if size] == [(before, None), (after, after)]
