"""Feet, hands and steel hooks against what is published outside the table that we wrote.

Cells that no look-up confirmed keep their mark `from_memory` in the tables; what is checked of those is how they follow
each other: a shoe size is a third of an inch, and a steel hook grows thinner as its number rises.
"""

from __future__ import annotations

from itertools import pairwise

import pytest
from rowcall.lint.trade.goods import Body, bodies, tools_labelled

# Source: knittingmagic.biz (turn heel, handbook table): women's 6 1/2 and men's 6 1/2; a page that quotes the standard
# for a child's 12, ehow.co.uk/how_7726300 (sock sizes); all seen 2026. Inches of the foot.
FEET = [("woman", 6.5, 9.0), ("man", 6.5, 9.5), ("child", 12.0, 7.5)]

# Source: purlsandpixels.com/knitwear-size-guide, hands as designers give them after the standard, seen 2026: around the
# palm in inches and, beside it, in centimetres
HANDS = [
    ("baby to 3 months", (3.0, 4.0), (7.5, 10.0)),
    ("toddler 6 months-3 years", (4.0, 5.5), (10.0, 14.0)),
    ("child 3-14 years", (5.5, 6.0), (14.0, 15.0)),
    ("woman", (6.0, 7.5), (15.0, 19.0)),
    ("man", (7.5, 9.0), (19.0, 23.0)),
]

# Source: homequestionsanswered.com/what-are-the-different-crochet-hook-sizes.htm, seen 2026 (7 is sold in two
# diameters); 6 and 8 are the ends of the range of thread hooks in the Craft Yarn Council's table of yarn weights
STEEL = [("00", 3.5), ("6", 1.6), ("7", 1.65), ("7", 1.5), ("8", 1.4), ("14", 0.75)]
NUMBERS = ["00", "0", *(str(number) for number in range(1, 15)), "16"]

# Source: ISO/TS 19407, sizing of footwear: US sizes go by the barleycorn
SIZES_AN_INCH = 3
ROUNDED_TO = 0.5  # inches, to which the published lengths are given


def _feet(who: str) -> list[tuple[float, float, Body]]:
    """Return the rows of feet with the shoe sizes they hold; children's sizes begin again after 13."""
    found: list[tuple[float, float, Body]] = []
    for body in bodies():
        if body.measure == "foot" and body.who == who:
            first, last = (float(end) for end in body.names[0].removeprefix("US ").split("-"))
            found.append((first, last if last >= first else 13 + last, body))
    return found


@pytest.mark.parametrize(("who", "shoe", "inches"), FEET)
def test_feet_by_shoe_size(who: str, shoe: float, inches: float) -> None:
    rows = [body for first, last, body in _feet(who) if first <= shoe <= last]
    assert any(row.least <= inches <= row.most for row in rows)


@pytest.mark.parametrize("who", ["woman", "man"])
def test_feet_grow_by_a_third_of_an_inch_a_size(who: str) -> None:
    rows = _feet(who)
    assert len(rows) > 2
    for (first, last, body), (next_first, next_last, longer) in pairwise(rows):
        sizes = (next_first + next_last) / 2 - (first + last) / 2
        assert abs((longer.most - body.most) - sizes / SIZES_AN_INCH) <= ROUNDED_TO


@pytest.mark.parametrize(("name", "inches", "centimetres"), HANDS)
def test_hands(name: str, inches: tuple[float, float], centimetres: tuple[float, float]) -> None:
    (hand,) = [body for body in bodies() if body.measure == "hand" and name in body.names]
    assert (hand.least, hand.most) == inches
    for ours, printed in zip((hand.least, hand.most), centimetres, strict=True):
        assert abs(ours * 2.54 - printed) <= ROUNDED_TO


@pytest.mark.parametrize(("number", "mm"), STEEL)
def test_diameters_of_steel_hooks(number: str, mm: float) -> None:
    (hook,) = tools_labelled("steel hook", number, "US")
    assert mm in hook.mm


def test_steel_hooks_grow_thinner_as_their_number_rises() -> None:
    usual = [tools_labelled("steel hook", number, "US")[0].mm[0] for number in NUMBERS]
    assert usual == sorted(set(usual), reverse=True)
