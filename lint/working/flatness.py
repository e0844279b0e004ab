"""Flatness: which rows are worked to and fro. Many a draft calls the rounds of a doily rows."""

from __future__ import annotations

import re

from ..later import later
from ..pattern import Pattern, Round
from ..steps import At, Join, Ring, Turn, Work
from .fabric import Fabric
from .shape import along_rows

# the pattern asked about last and its parts that are worked in the round; patterns are asked about one after the other
_last: list[tuple[tuple[Round, ...], frozenset[int]]] = []


def is_flat(pattern: Pattern, round_: Round) -> bool:
    """Tell whether a round is a row that is worked back over the row below, where it isn't said."""
    return round_.flat and round_.section not in _joined(pattern.rounds)


def goes_around(round_: Round, below: Fabric | None) -> bool:
    """Tell whether a round is worked around a flat piece, of whose sides no count is known."""
    return (
        below is not None
        and below.edge.turned
        and below.edge.open
        and says_round(round_)
        and not any(isinstance(step, Turn) for step in round_.steps)
        and not any(along_rows(round_.steps))
    )


def says_round(round_: Round) -> bool:
    """Tell whether a heading speaks of rounds and not of rows."""
    return _SAYS_ROUND.match(round_.label) is not None


_SAYS_ROUND = later(r"(?:[a-z]+\s+)?(?:rounds?|rnds?|rds?)\b", re.IGNORECASE)


def _joined(rounds: tuple[Round, ...]) -> frozenset[int]:
    if not (_last and _last[0][0] is rounds):
        found = frozenset(one.section for one in rounds if (one.flat or one.foundation) and _closes(one))
        _last[:] = [(rounds, found)]
    return _last[0][1]


def _closes(round_: Round) -> bool:
    """Tell whether a round is begun in a ring or closed with a join."""
    return any(
        isinstance(step, Join | Ring) or (isinstance(step, Work) and step.where.at is At.RING) for step in round_.steps
    )
