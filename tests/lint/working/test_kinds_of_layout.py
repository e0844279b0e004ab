"""Small drafts whose layout says what signs say elsewhere: blanks, bold type, letters for rounds; counts by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.proof import proof
from worked import Counts, corrections, counts

KINDS: dict[str, tuple[str, Counts]] = {
    "figures told apart by nothing but blanks, as where colours are lost; two rounds that go by letters": (
        # 10, 20; 30 for two sizes, 40 for one; a repeat of both rounds and the first once more
        "BEANIE\nSizes: Child 3-10 / Teen / Adult (colours: green / blue / black)\n"
        "R1: magic ring, ch 2 (does not count), 10 dc into the ring. Sl st to first dc. 10 10 10\n"
        "R2: ch 2, 2 dc in each st. 20 20 20\nTeen & Adult: R3: ch 2, *dc in 1, 2 dc in next* around. - 30 30\n"
        "Adult: R4: ch 2, *dc in 2, 2 dc in next* around. - - 40\nAll sizes, body:\n"
        "A: ch 2, *FPdc around 1, dc in next 4* around. 20 30 40\nB: ch 2, dc in each st around. 20 30 40\n"
        "Repeat A and B 4 / 5 / 6 times more, then work A once more.\n",
        [[10, 10, 10], [20, 20, 20], [None, 30, 30], [None, None, 40], [20, 30, 40], [20, 30, 40], [20, 30, 40]],
    ),
    "letters only, repeated as a pair": (
        "Ch 20, join.\nRnd A: Ch 1, sc in each ch around, join. (20)\nRnd B: Ch 1, 2 sc in first st, sc in each st around. (21)\n"
        "Rnd C: Ch 1, sc in each st around, join. (21)\nRep rnds B & C three times. (24)\n",
        [[20], [20], [21], [21], [24]],
    ),
    "bold type within lines, stars that Markdown shall show, short forms of what counts": (
        # 3 of 30 are gone before the last; of 27 less one none is left over: 8 times 3 and 2 more
        "# Cowl\n\n**Sizes** S {M}\n\nWith 6.0mm hook, **ch 30 {36}**; join w/ sl st to form a ring.\n\n"
        "**Round 1:** Ch 1 (n.c.), sc in same ch & in ea ch around; sl st to 1st sc. [30 {36} sts]\n\n"
        "**Round 2:** Ch 3 (c. as dc), dc in nxt st, \\*ch 1, sk 1 st, dc in nxt st\\*; rep betw \\*s around; join. "
        "[16 {19} dc, 14 {17} ch-1 sps]\n\n**Round 3:** Ch 1, sc in ea dc & ch-1 sp around; join. [30 {36} sts]\n",
        [[30, 36], [30, 36], [16, 19], [30, 36]],
    ),
    "a mesh whose last stitch stands beside the first": (
        # 12 with 5 chains between, which bridge one each: 7 stitches
        "Ch 12, join.\nRnd 1: Ch 1, sc in each ch around. (12)\n"
        "Rnd 2: Ch 3 (counts as dc), dc in next st, *ch 1, sk 1 st, dc in next st; rep from * around, join.\n"
        "Rnd 3: Ch 1, sc in each dc and ch-1 sp around, join.\n",
        [[12], [12], [7], [12]],
    ),
    "bold type before the foundation": (
        "**Foundation:** ch 12; join\n\nRnd 1: Ch 1, sc in each ch around. (12)\n",
        [[12], [12]],
    ),
    "a chain that is joined in the round whose stitches go into it": (
        "Rnd 1: Ch 4, join, ch 1, 8 sc in ring.\nRnd 2: Ch 1, 2 sc in each st around.\n",
        [[8], [16]],
    ),
    "the first link of a ring, and then each of them": (
        "Ch 12, join with sl st to form a ring.\nRnd 1: Ch 1, 2 sc in same ch, sc in each ch around.\n",
        [[12], [13]],
    ),
    "each link of a chain that nobody told": (
        "Rnd 1: Ch 1, sc in each ch around.\nRnd 2: Ch 1, sc in each st around.\n",
        [[None], [None]],
    ),
    "a count after the turn, where more stitches are left than it": (
        # 12, then only 6 of them; two together 3 times of 6
        "UK terms\nMake 12 ch, join with a ss into a ring.\n1st round - 1 ch, 1 dc into each ch, ss into first dc. (12 dc)\n"
        "2nd round - 3 ch, miss first dc, 1 tr into each dc to end, ss to top of 3 ch.\nHeel: work in rows on the first 6 sts only.\n"
        "1st row: 1 ch, 1 dc into each of next 6 sts, turn. 6 dc.\n2nd row: 1 ch, (dc2tog) 3 times, turn. 3 dc.\n",
        [[12], [12], [12], [6], [3]],
    ),
}


@pytest.mark.parametrize("name", KINDS)
def test_each_comes_to_the_counts_worked_by_hand(name: str) -> None:
    text, expected = KINDS[name]
    assert counts(text) == expected


@pytest.mark.parametrize("name", KINDS)
def test_none_is_corrected(name: str) -> None:
    assert corrections(KINDS[name][0]) == []


def test_figures_in_blanks_are_a_list_only_with_one_for_each_size() -> None:
    text = "Sizes: S (M, L)\nCh 10 (12, 14), join.\nRnd 1: Sc in each ch around. 10 12\nRnd 2: Sc in each st around. 10 (12, 14)\n"

    assert proof(text).workings.rounds[1].sizes[0].count is None  # pyright: ignore[reportOptionalMemberAccess]


@pytest.mark.parametrize(
    "lines",
    [
        "A: 2 balls of cream\nB: 1 ball of navy\n",
        "A: sc2tog\nB: bobble\n",
    ],
)
def test_colours_and_short_forms_by_letter_are_no_rounds(lines: str) -> None:
    assert counts(f"CAP\n{lines}\nRnd 1: 6 sc in a magic ring. (6)\n") == [[6]]


def test_strokes_between_figures_for_the_sizes_are_no_brackets() -> None:
    text = (
        "Sizes: S / M / L\nRnd 1: 6 sc in a magic ring. (6)\nRnd 2: Inc around. (12)\nRep rnd 2 1 / 1 / 2 times more.\n"
    )

    assert counts(text)[-1] == [24, 24, 48]


def test_two_sizes_with_a_dash_between_them_are_a_range() -> None:
    text = "Finished size: Small Preemie - Newborn\nRnd 1: 6 sc in a magic ring. (6)\n"

    assert counts(text) == [[6]]
