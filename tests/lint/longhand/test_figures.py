"""Figures of one size: lists in prose, numbers of headings."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Span
from rowcall.lint.longhand import longhand, marked
from rowcall.lint.longhand.edits import edited
from rowcall.lint.longhand.figures import ordinal_ending, prose_figures, renumbered
from rowcall.lint.proof import proof


def chosen(text: str, sizes: int, size: int) -> str:
    return edited(text, prose_figures(text, Span(0, len(text)), sizes, size)).text


@pytest.mark.parametrize(
    ("text", "second"),
    [
        ("46 (51.5, 57) cm / 18 (20¼, 22½) in", "51.5 cm / 20¼ in"),
        ("DK wool, weight 3: (110, 130, 155) m.", "DK wool, weight 3: 130 m."),
        ("Around the hand: 18/20/22 cm (7/8/8¾ in)", "Around the hand: 20 cm (8 in)"),
        ("Worsted yarn (4): 150[180, 205] m", "Worsted yarn (4): 180 m"),
        ("5.0 mm (H-8) hook", "5.0 mm (H-8) hook"),
        ("16 sts and 18 rnds = 10 cm (4 in)", "16 sts and 18 rnds = 10 cm (4 in)"),
        ("to fit 3-6 (6-9, 9-12) months", "to fit 6-9 months"),
        ("40 (50, 60 cm) around", "50 cm around"),
        ("Buttons: - (2, 3)", "Buttons: 2"),
        ("100, 120, 140 g", "120 g"),
        ("96 (104) (112) cm", "104 cm"),
        ("20 (25) cm", "20 (25) cm"),
        ("Rnds 2-4/2-5/2-6", "Rnds 2-5"),
        ("3 1/2 (3 3/4, 4) inches", "3 3/4 inches"),
        ("24 {26, 28} sts", "26 sts"),
        ("1, 2, 3, 4 and 5", "1, 2, 3, 4 and 5"),
    ],
)
def test_lists_in_prose(text: str, second: str) -> None:
    assert chosen(text, 3, 1) == second


def test_a_dash_leaves_a_size_out() -> None:
    assert chosen("Buttons: - (2, 3)", 3, 0) == "Buttons: 0"


@pytest.mark.parametrize(
    ("heading", "number", "expected"),
    [
        ("Rnd 5 (pebble)", 7, "Rnd 7 (pebble)"),
        ("Rnds 2-4", 8, "Rnd 8"),
        ("2nd and every alternate rnd", 3, "3rd rnd"),
        ("1st rnd", 22, "22nd rnd"),
        ("Rnd 19 and every alternate rnd", 21, "Rnd 21"),
        ("R7", 8, "R8"),
        ("Next rnd", 8, None),
    ],
)
def test_headings_with_another_number(heading: str, number: int, expected: str | None) -> None:
    assert renumbered(heading, number) == expected


def test_ordinals() -> None:
    assert [f"{n}{ordinal_ending(n)}" for n in (1, 2, 3, 4, 11, 12, 13, 21, 112)] == (
        ["1st", "2nd", "3rd", "4th", "11th", "12th", "13th", "21st", "112th"]
    )


def test_figures_of_other_kinds_are_no_list_for_two_sizes() -> None:
    text = (
        "CAP\nSizes: S (M)\nGauge: Rnds 1-3 = 2 1/2 inches, 9 sts = 2 inches\n"
        "Rnd 1: 6 (8) sc in a magic ring. 6 (8) sc\nRnd 2: Inc around. 12 (16) sc\n"
    )

    assert "Gauge: Rnds 1-3 = 2 1/2 inches, 9 sts = 2 inches" in marked(longhand(proof(text), "S")).splitlines()
