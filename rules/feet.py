"""Feet: a foot's length against the published lengths for the shoe sizes that the draft names."""

from __future__ import annotations

from collections.abc import Iterator

from ..lint.materials import Measure, Shoes
from ..lint.trade.goods import Body, bodies
from .materials import number
from .rule import Case, Said

_BELOW, _ABOVE = 2.0, 1.5  # inches: a sock is knitted shorter than the foot, and tables differ


def feet_off_standard(case: Case) -> Iterator[Said]:
    """Yield the lengths of feet that are far from what is published for their shoe sizes."""
    for shoes in case.pattern.materials.shoes:
        if shoes.scale != "US":
            continue
        for measure in case.pattern.materials.measures:
            if measure.what == "foot" and len(measure.inches) == len(shoes.ranges) and not measure.ranged:
                yield from _off(measure, shoes)


def _off(measure: Measure, shoes: Shoes) -> Iterator[Said]:
    for value, (first, last) in zip(measure.inches, shoes.ranges, strict=True):
        known = [body for body in bodies() if body.measure == "foot" and _is_for(body, shoes.who, first, last)]
        if not known:
            continue
        least, most = min(body.least for body in known), max(body.most for body in known)
        if not least - _BELOW <= value <= most + _ABOVE:
            size = number(first) if first == last else f"{number(first)}-{number(last)}"
            usual = f"{number(least)} in" if least == most else f"{number(least)} to {number(most)} in"
            length = number(round(value, 1))
            yield Said(
                measure.span,
                f"the foot is {length} in for US shoe size {size}, and published feet of that size are {usual}",
                sum=("tables give averages, and no table tells whether a piece fits",),
            )


def _is_for(body: Body, who: str | None, first: float, last: float) -> bool:
    """Tell whether a row of the table holds some of these shoe sizes."""
    if who is not None and body.who != who:
        return False
    least, most = (float(end) for end in body.names[0].removeprefix("US ").split("-"))
    rising = most if most >= least else 13 + most  # children's sizes begin again after 13
    return least <= last and first <= rising
