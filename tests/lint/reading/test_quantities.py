"""Quantities: numbers, lists and ranges with a unit, pairs of units, and what a measurement is of."""

from __future__ import annotations

import pytest
from rowcall.lint.reading.letters import clean
from rowcall.lint.reading.quantities import measures, number_of, pairings, quantities


@pytest.mark.parametrize(
    ("words", "value"),
    [
        ("3", 3.0),
        ("2.5", 2.5),
        ("2,5", 2.5),
        ("1,200", 1200.0),
        ("2 1/2", 2.5),
        ("2-1/2", 2.5),
        ("3/4", 0.75),
        ("2½", 2.5),
        ("3 ¾", 3.75),
        ("½", 0.5),
        (".5", 0.5),
        ("12.", 12.0),
    ],
)
def test_numbers(words: str, value: float) -> None:
    assert number_of(words) == value


def _found(text: str) -> list[tuple[tuple[float, ...], str]]:
    return [(one.values, one.unit) for one in quantities(clean(text), 0, len(text))]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("about 100 yds", [((100.0,), "yd")]),
        ("1,200 yards (1097 m)", [((1200.0,), "yd"), ((1097.0,), "m")]),
        ("17 (19, 21) in around", [((17.0, 19.0, 21.0), "in")]),
        ("17/18/20” head", [((17.0, 18.0, 20.0), "in")]),
        ("6½ (7, 7½) (8, 9) inches", [((6.5, 7.0, 7.5, 8.0, 9.0), "in")]),
        ('9 [9 3/4, 10 1/2]" long', [((9.0, 9.75, 10.5), "in")]),
        ("(45, 50, 55) cm", [((45.0, 50.0, 55.0), "cm")]),
        ("4-5 inches", [((4.0, 5.0), "in")]),
        ("3.5 oz/100 g", [((3.5,), "oz"), ((100.0,), "g")]),
        ('16 sts/4"', [((4.0,), "in")]),
        ("6.5mm hook", [((6.5,), "mm")]),
        ("(4), 95 (120, 145) m", [((95.0, 120.0, 145.0), "m")]),
        # figures that have no unit
        ("2 sc in next st", []),
        ("sc in 2 sts", []),
        ("K2, m1, k2", []),
        ("row 3 in each round", []),
    ],
)
def test_quantities(text: str, found: list[tuple[tuple[float, ...], str]]) -> None:
    assert _found(text) == found


def _pairs(text: str) -> list[str]:
    plain = clean(text)
    found = [*quantities(plain, 0, len(plain))]
    return [plain[pair.span.start : pair.span.end] for pair in pairings(plain, found)]


@pytest.mark.parametrize(
    ("text", "pairs"),
    [
        ("8 in (20 cm)", ["8 in (20 cm)"]),
        ("100 yds/91 m", ["100 yds/91 m"]),
        ("4 in = 10 cm", ["4 in = 10 cm"]),
        ("12 in or 30 cm", ["12 in or 30 cm"]),
        ("17 (19, 21) in / 43 (48, 53) cm", ["17 (19, 21) in / 43 (48, 53) cm"]),
        # two measures, or lists of two lengths
        ("9 x 12 in (23 x 30 cm)", []),
        ("8 in wide, 20 cm of ribbon", []),
        ("17 (19) in / 43 (48, 53) cm", []),
        ("20 m\n4 mm hook", []),
    ],
)
def test_pairings(text: str, pairs: list[str]) -> None:
    assert _pairs(text) == pairs


def _measures(text: str) -> list[tuple[str, bool, tuple[float, ...]]]:
    plain = clean(text)
    found = [*quantities(plain, 0, len(plain))]
    inches = [*measures(plain, 0, len(plain), found)]
    return [(one.what, one.body, tuple(round(value, 2) for value in one.inches)) for one in inches]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Finished circumference: 17 (19) inches", [("around", False, (17.0, 19.0))]),
        ("17 (19, 21) in (43 (48, 53) cm) around", [("around", False, (17.0, 19.0, 21.0))]),
        ('To fit head 20 (22)"', [("head", True, (20.0, 22.0))]),
        ("to fit foot length 9 in", [("foot", True, (9.0,))]),
        ('Small: 8" long and 18" flat circumference', [("length", False, (8.0,)), ("around", False, (18.0,))]),
        ('14" wide x 15" tall', [("width", False, (14.0,)), ("length", False, (15.0,))]),
        ("Head circumference: 51 cm", [("head", False, (20.08,))]),
        ("Chest: 36 in", [("chest", False, (36.0,))]),
        # no measurement of the piece
        ("2 in smaller than the head", []),
        ("leave a tail 10 in long from the hook", [("length", False, (10.0,))]),
        ("50 g", []),
    ],
)
def test_measures(text: str, found: list[tuple[str, bool, tuple[float, ...]]]) -> None:
    assert _measures(text) == found
