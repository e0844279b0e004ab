"""Hooks, needles and yarn by weight against the published standard of the trade.

Source: Craft Yarn Council, Standard Yarn Weight System, as reproduced at
crochetonatrain.com/standard-yarn-weight-system, seen 2026; Standards and Guidelines, hooks and needles, and the charts
at matifs.com/crochet-hooks-size-chart and pattern-duchess.com/knitting-needle-sizes, seen 2026.
"""

from __future__ import annotations

import pytest
from rowcall.lint.trade.goods import tools_labelled, weights, yarn_names

HOOKS = [
    ("B-1", 2.25),
    ("C-2", 2.75),
    ("D-3", 3.25),
    ("E-4", 3.5),
    ("F-5", 3.75),
    ("G-6", 4.0),
    ("7", 4.5),
    ("H-8", 5.0),
    ("I-9", 5.5),
    ("J-10", 6.0),
    ("K-10.5", 6.5),
    ("L-11", 8.0),
    ("M/N-13", 9.0),
    ("N/P-15", 10.0),
]
NEEDLES = [
    ("0", "14", 2.0),
    ("2", "12", 2.75),
    ("3", "10", 3.25),
    ("5", "9", 3.75),
    ("6", "8", 4.0),
    ("7", "7", 4.5),
    ("8", "6", 5.0),
    ("9", "5", 5.5),
    ("10", "4", 6.0),
    ("10.5", "3", 6.5),
    ("11", "0", 8.0),
    ("13", "00", 9.0),
    ("15", "000", 10.0),
]

# number, name, stitches in 4 in of stockinette, of single crochet (double for 0); class 6 in its widest edition
WEIGHTS = [
    (0, "lace", (33, 40), (32, 42)),
    (1, "super fine", (27, 32), (21, 32)),
    (2, "fine", (23, 26), (16, 20)),
    (3, "light", (21, 24), (12, 17)),
    (4, "medium", (16, 20), (11, 14)),
    (5, "bulky", (12, 15), (8, 11)),
    (6, "super bulky", (6, 11), (5, 9)),
    (7, "jumbo", (None, 6), (None, 6)),
]

NAMES = [
    ("lace", 0),
    ("sock", 1),
    ("fingering", 1),
    ("sport", 2),
    ("dk", 3),
    ("light worsted", 3),
    ("worsted", 4),
    ("aran", 4),
    ("chunky", 5),
    ("bulky", 5),
    ("super bulky", 6),
    ("jumbo", 7),
]

# Source: peapod-soup.blogspot.com/2013/01/yarn-weight-conversion-chart.html, seen 2026
PLY = [("3 ply", 1), ("5 ply", 2), ("8 ply", 3), ("10 ply", 4), ("12 ply", 5)]


@pytest.mark.parametrize(("label", "mm"), HOOKS)
def test_the_usual_diameter_of_a_hook(label: str, mm: float) -> None:
    assert tools_labelled("hook", label, "US")[0].mm[0] == mm


@pytest.mark.parametrize(("us", "uk", "mm"), NEEDLES)
def test_needles_in_both_countries(us: str, uk: str, mm: float) -> None:
    assert tools_labelled("needle", us, "US")[0].mm[0] == mm
    assert tools_labelled("needle", uk, "UK")[0].mm[0] == mm


@pytest.mark.parametrize(("number", "name", "knit", "crochet"), WEIGHTS)
def test_weights(number: int, name: str, knit: tuple[float | None, float], crochet: tuple[float | None, float]) -> None:
    weight = weights()[number]
    assert (weight.number, weight.name) == (number, name)
    assert (weight.knit_least, weight.knit_most) == knit
    assert (weight.crochet_least, weight.crochet_most) == crochet


@pytest.mark.parametrize(("name", "number"), NAMES + PLY)
def test_names_of_yarn(name: str, number: int) -> None:
    assert yarn_names()[name][0] == number
