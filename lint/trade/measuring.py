"""Measures in one unit and another: exact conversion, and whether a printed pair is customary rounding."""

from __future__ import annotations

from functools import cache

from .goods import UnitPair, unit_pairs


@cache
def factor(first: str, second: str) -> float:
    """Return what one of the first unit is in the second: 2.54 for inches in centimetres."""
    # imported only where a draft gives a measure in two units
    from quantiphy import Quantity, UnitConversion  # noqa: PLC0415

    UnitConversion("m", "yd", 0.9144)
    scaled: float = Quantity(1, first).scale(second)  # pyright: ignore[reportUnknownMemberType]
    return float(scaled)


def pair_of(first: str, second: str) -> UnitPair | None:
    """Return what is known of a pair of units in this order, None for units that aren't paired."""
    return unit_pairs().get((first, second))


def tolerance(pair: UnitPair, value: float) -> float:
    """Return by how much a printed pair may be off, in the second unit."""
    return max(pair.least, pair.share * value * factor(pair.first, pair.second))


def rounds_to(pair: UnitPair, value: float, printed: float) -> bool:
    """Tell whether `printed` of the second unit is `value` of the first, by any ratio that print uses."""
    exact = [value * ratio for ratio in (factor(pair.first, pair.second), *pair.also)]
    slack = tolerance(pair, value)
    return min(exact) - slack <= printed <= max(exact) + slack
