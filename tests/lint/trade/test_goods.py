"""The tables of yarns, tools, bodies and units as their loader gives them."""

from __future__ import annotations

import pytest
from rowcall.lint.trade.goods import (
    bodies,
    eases,
    tool_sizes,
    tools_labelled,
    unit_pairs,
    units,
    weights,
    yarn_names,
)
from rowcall.lint.trade.measuring import pair_of, rounds_to, tolerance


@pytest.mark.parametrize(
    ("kind", "label", "scale", "mm"),
    [
        ("hook", "H-8", "US", {5.0}),
        ("hook", "H", "US", {5.0}),
        ("hook", "8", "US", {5.0}),
        ("hook", "8", "UK", {4.0}),
        ("hook", "8", None, {4.0, 5.0}),
        ("needle", "10.5", "US", {6.5}),
        ("needle", "8", "UK", {4.0}),
        ("steel hook", "7", "US", {1.65, 1.5}),
        ("hook", "Z", "US", set[float]()),
    ],
)
def test_what_a_label_may_mean(kind: str, label: str, scale: str | None, mm: set[float]) -> None:
    assert {one for size in tools_labelled(kind, label, scale) for one in size.mm} == mm


def test_every_row_of_the_tables_is_sound() -> None:
    assert len({(size.kind, size.scale, size.label) for size in tool_sizes()}) == len(tool_sizes())
    assert all(size.kind in ("hook", "steel hook", "needle") and size.scale in ("US", "UK") for size in tool_sizes())
    assert [weight.number for weight in weights()] == [0, 1, 2, 3, 4, 5, 6, 7]
    assert all(0 <= number <= 7 for classes in yarn_names().values() for number in classes)
    assert all(body.least <= body.most for body in bodies())
    assert [ease.most for ease in eases()] == sorted(ease.most for ease in eases())
    assert {pair for both in unit_pairs() for pair in both} <= set(units().values())


@pytest.mark.parametrize(
    ("first", "value", "second", "printed", "same"),
    [
        # customary: 4 in is 10 cm, an ounce is a ball of 25 g
        ("in", 4, "cm", 10, True),
        ("in", 36, "cm", 91.5, True),
        ("in", 36, "cm", 90, True),
        ("yd", 250, "m", 228, True),
        ("oz", 1.75, "g", 50, True),
        ("oz", 3.5, "g", 100, True),
        ("oz", 1, "g", 25, True),
        # slips met in print
        ("in", 15, "cm", 36, False),
        ("in", 38, "cm", 53.5, False),
        ("in", 48, "cm", 112, False),
        ("yd", 100, "m", 110, False),
        ("oz", 3.5, "g", 50, False),
    ],
)
def test_rounding(first: str, value: float, second: str, printed: float, same: bool) -> None:
    pair = pair_of(first, second)
    assert pair is not None
    assert rounds_to(pair, value, printed) is same


def test_the_tolerance_is_a_share_and_at_least_a_step() -> None:
    pair = pair_of("in", "cm")
    assert pair is not None
    assert tolerance(pair, 4) == 0.8
    assert round(tolerance(pair, 40), 3) == 2.032  # 40 x 2.54 x 0.02
