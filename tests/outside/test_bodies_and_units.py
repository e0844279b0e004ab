"""Body sizes against the published standard, and conversions against a library of units.

Source: Craft Yarn Council, Standards and Guidelines, sizing: women's bust and babies' and children's chest, as leaflets
and yarnfwd.com/childsiz.html repeat them, seen 2026. Cells of our table that rest on memory are left out.
"""

from __future__ import annotations

from typing import Any, cast

import pint
import pytest
from rowcall.lint.trade.goods import bodies
from rowcall.lint.trade.measuring import factor

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
