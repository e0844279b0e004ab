"""Grouping: stitches worked in one place, which later rows name as one: a shell, a cluster, the two of a V."""

from __future__ import annotations

from collections.abc import Sequence

from .fabric import Fabric
from .spots import Segment, Spot

BEGUN = "begun"  # the name of the first group of a round, which its beginning chain is part of
LONGEST_GROUP = 60  # places; a longer stretch in one place is not known group by group


def groups_of(fabric: Fabric) -> dict[str, int]:
    """Count the groups of stitches in one place by name."""
    found: dict[str, int] = {}
    for part in fabric.segments:
        for spot in part.spots:
            if spot.opens:
                found[spot.group] = found.get(spot.group, 0) + part.times
    return found


def grouped(segments: Sequence[Segment], name: str) -> tuple[Segment, ...]:
    """Return a stretch worked in one place as a group; chains at its ends lie between groups and stay outside.

    A stretch that holds a named group, or only one stitch, stays as it is.
    """
    spots = [spot for part in segments for _ in range(part.times) for spot in part.spots] if segments else []
    start, stop = 0, len(spots)
    while start < stop and spots[start].is_space:
        start += 1
    while stop > start and spots[stop - 1].is_space:
        stop -= 1
    if stop - start < 2 or len(spots) > LONGEST_GROUP or any(spot.group for spot in spots):
        return tuple(segments)
    last = stop - start - 1
    inside = [Spot(spot.kind, spot.size, name, n == 0, n == last) for n, spot in enumerate(spots[start:stop])]
    return tuple(Segment((spot,), 1) for spot in (*spots[:start], *inside, *spots[stop:]))
