"""Spots: the places of a row, and short patterns of them repeated."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache

SPACE = "space"
LINK = "link"


@dataclass(frozen=True, slots=True)
class Spot:
    """One place of a row: the id of a stitch, or a space of `size` chains, or a link of a chain.

    `group` names the group of stitches worked in one place that it belongs to ("" for a place by itself); `opens`
    and `closes` are True for the first and the last place of a group.
    """

    kind: str
    size: int = 1
    group: str = ""
    opens: bool = False
    closes: bool = False

    @property
    def is_space(self) -> bool:
        """Whether it is a chain space, over which a stitch passes."""
        return self.kind == SPACE


def turned(spot: Spot) -> Spot:
    """Return a place as it is met from the other side."""
    return replace(spot, opens=spot.closes, closes=spot.opens) if spot.opens is not spot.closes else spot


class Segment:
    """A pattern of places, `times` over. `stitches` and `spaces` are those of one pattern; a segment is never changed.

    Written out and not as a dataclass: one is made for nearly every step of every round.
    """

    __slots__ = ("spaces", "spots", "stitches", "times")

    def __init__(self, spots: tuple[Spot, ...], times: int) -> None:
        self.spots = spots
        self.times = times
        self.spaces = (spots[0].kind == SPACE) if len(spots) == 1 else sum(spot.kind == SPACE for spot in spots)
        self.stitches = len(spots) - self.spaces

    @property
    def length(self) -> int:
        """The number of places."""
        return len(self.spots) * self.times

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Segment) and self.times == other.times and self.spots == other.spots

    def __hash__(self) -> int:
        return hash((self.spots, self.times))

    def __repr__(self) -> str:
        return f"Segment(spots={self.spots!r}, times={self.times!r})"


def links(spot: Spot) -> tuple[Spot, ...]:
    """Return the links of a chain space, each a place; a stitch stays what it is."""
    return (spot_of("ch"),) * spot.size if spot.is_space else (spot,)


@cache
def spot_of(kind: str, size: int = 1) -> Spot:
    """Return the place of a kind and size; the same one each time, as a round asks for few of them very often."""
    return Spot(kind, size)


def no_longer_opening(segments: Sequence[Segment]) -> tuple[Segment, ...]:
    """Return places of which the last group is broken off, so that it isn't met as a group any more."""
    *before, last = segments
    at = next((n for n in range(len(last.spots) - 1, -1, -1) if last.spots[n].opens), None)
    if at is None:
        return (*no_longer_opening(before), last) if before else (last,)
    once = tuple(replace(spot, opens=spot.opens and n != at) for n, spot in enumerate(last.spots))
    whole = (Segment(last.spots, last.times - 1),) if last.times > 1 else ()
    return (*before, *whole, Segment(once, 1))
