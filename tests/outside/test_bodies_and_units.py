"""Body sizes against the published standard, and conversions against a library of units.

Source: Craft Yarn Council, Standards and Guidelines, sizing: women's bust and babies' and children's chest, as leaflets
and yarnfwd.com/childsiz.html repeat them, seen 2026. Cells of our table that rest on memory are left out.
"""

from __future__ import annotations

from typing import Any, cast

import pint
import pytest
from rowcall.lint.trade.goods import bodies
from rowcall.lint.trade.measuring import factor, pair_of, rounds_to

CHESTS = [
    ("woman", "xs", 28, 30),
    ("woman", "s", 32, 34),
    ("woman", "m", 36, 38),
    ("woman", "l", 40, 42),
    ("woman", "1x", 44, 46),
    ("woman", "2x", 48, 50),
    ("woman", "3x", 52, 54),
    ("woman", "4x", 56, 58),
    ("woman", "5x", 60, 62),
    ("baby", "6 months", 17, 17),
    ("baby", "12 months", 18, 18),
    ("baby", "18 months", 19, 19),
    ("baby", "24 months", 20, 20),
    ("child", "2", 21, 21),
    ("child", "4", 23, 23),
    ("child", "6", 25, 25),
    ("child", "8", 26.5, 26.5),
    ("child", "10", 28, 28),
]

# Source: the charts of heads that lint/trade/bodies.toml names, as designers give them after the standard, seen 2026.
# They disagree, so that each must lie within what the table holds for that size.
HEADS = [
    ("preemie", 10.5, 13),
    ("baby", 13, 16),
    ("toddler", 16, 18),
    ("child", 18, 21),
    ("adult", 21, 23),
]

# Customary pairs of print, which are no slips: a gauge over 4 in, bodies, balls and hanks, as ball bands give them
PRINTED = [
    ("in", "cm", 4, 10),
    ("in", "cm", 20, 51),
    ("in", "cm", 8, 20),
    ("in", "mm", 1, 25),
    ("oz", "g", 1.75, 50),
    ("oz", "g", 3.5, 100),
    ("yd", "m", 220, 200),
    ("yd", "m", 100, 91),
]
# and pairs that are, each a figure slipped or the wrong factor
SLIPPED = [
    ("in", "cm", 4, 12),
    ("in", "cm", 20, 55),
    ("oz", "g", 3.5, 50),
    ("yd", "m", 100, 110),
    ("yd", "m", 220, 240),
]


@pytest.mark.parametrize(("name", "least", "most"), HEADS)
def test_heads(name: str, least: float, most: float) -> None:
    found = [body for body in bodies() if body.measure == "head" and name in body.names]
    assert [(body.least <= least, body.most >= most) for body in found] == [(True, True)]


@pytest.mark.parametrize(("first", "second", "value", "printed"), PRINTED + SLIPPED)
def test_rounding_of_print(first: str, second: str, value: float, printed: float) -> None:
    pair = pair_of(first, second)
    assert pair is not None
    assert rounds_to(pair, value, printed) is ((first, second, value, printed) in PRINTED)


@pytest.mark.parametrize(("who", "name", "least", "most"), CHESTS)
def test_chests(who: str, name: str, least: float, most: float) -> None:
    found = [body for body in bodies() if body.measure == "chest" and body.who == who and name in body.names]
    assert [(body.least, body.most) for body in found] == [(least, most)]


@pytest.mark.parametrize(
    ("first", "second", "names"),
    [
        ("in", "cm", ("inch", "centimeter")),
        ("in", "mm", ("inch", "millimeter")),
        ("yd", "m", ("yard", "meter")),
        ("oz", "g", ("ounce", "gram")),
    ],
)
def test_factors(first: str, second: str, names: tuple[str, str]) -> None:
    units = cast("Any", pint.UnitRegistry())
    other = float(units.Quantity(1, names[0]).to(names[1]).magnitude)
    assert abs(factor(first, second) - other) < 1e-5
