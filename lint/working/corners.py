"""Corners: a round worked into each stitch, with more in the middle stitch of each corner.

A corner of the row below is an odd number of stitches in one place; the places of a round are found by them where they
stand as evenly apart as the corners of a square, an oblong or another even shape.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..steps import ANY_GROUP
from .fabric import Fabric
from .hook import CannotWork
from .spots import Segment, Spot, spot_of

_FEWEST, _MOST = 3, 8  # corners that a shape may have
_SMALLEST = 3  # stitches in one place that make a corner
_OFF = 1  # stitches that a joined beginning may put a side out


def with_corners(below: Fabric, kind: str, number: int) -> tuple[Segment, ...]:
    """Return a row of one stitch in each place below, but `number` in the middle stitch of each corner.

    Raises `CannotWork` where the row below has no corners that are plain to see.
    """
    if below.ring or below.spaces or below.behind:
        raise CannotWork("where the corners are is not known")
    parts = [*_parted(below)]
    middles = {*_middles(parts)}
    places: list[int] = []
    made: list[Segment] = []
    at = 0
    for index, part in enumerate(parts):
        if index in middles:
            places.append(at)
            made.append(Segment(_corner(kind, number), 1))
        else:
            made.append(Segment((spot_of(kind),), part.length))
        at += part.length
    if not _FEWEST <= len(places) <= _MOST or not _even(places, at):
        raise CannotWork("where the corners are is not known")
    return tuple(made)


def _corner(kind: str, number: int) -> tuple[Spot, ...]:
    if number == 1:
        return (spot_of(kind),)
    last = number - 1
    return tuple(Spot(kind, 1, ANY_GROUP, opens=at == 0, closes=at == last) for at in range(number))


def _parted(below: Fabric) -> Iterator[Segment]:
    """Give the parts of a row, those with groups of stitches in one place stitch by stitch."""
    for part in below.segments:
        if not any(spot.group for spot in part.spots):
            yield part
        elif part.times > _MOST:
            raise CannotWork("where the corners are is not known")
        else:
            yield from (Segment((spot,), 1) for _ in range(part.times) for spot in part.spots)


def _middles(parts: Sequence[Segment]) -> Iterator[int]:
    """Give which part is the middle stitch of each group of an odd number."""
    start: int | None = None
    for at, part in enumerate(parts):
        spot = part.spots[0]
        start = at if spot.opens else start if spot.group else None
        if spot.closes and start is not None:
            size = at - start + 1
            if size >= _SMALLEST and size % 2:
                yield start + size // 2
            start = None


def _even(places: list[int], length: int) -> bool:
    """Tell whether corners stand evenly around a round: all sides alike, or every other one."""
    following = [*places[1:], places[0]]
    sides = [(after - before) % length or length for before, after in zip(places, following, strict=True)]
    groups = (sides[::2], sides[1::2]) if len(sides) % 2 == 0 else (sides,)
    return all(max(group) - min(group) <= _OFF for group in groups)
