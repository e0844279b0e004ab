"""Meeting: where sizes that went apart come together again, and whether the round they meet on fits them all."""

from __future__ import annotations

from ..lint.draft import Span
from ..lint.pattern import Pattern, Round
from ..lint.workings import RoundWorking
from .rule import Case


def rejoins(pattern: Pattern, index: int) -> bool:
    """Tell whether a round is the first for all sizes of its part after rounds for some of them only."""
    here = pattern.rounds[index]
    earlier = _round_before(pattern, index)
    if earlier is None or here.sizes == () or not earlier.sizes:
        return False
    before = set(earlier.sizes)
    own = set(range(pattern.sizes.number)) if here.sizes is None else set(here.sizes)
    return before < own


def _round_before(pattern: Pattern, index: int) -> Round | None:
    """Return the round before in the same part, passing over foundations."""
    for at in range(index - 1, -1, -1):
        if pattern.rounds[at].section != pattern.rounds[index].section:
            return None
        if not pattern.rounds[at].foundation:
            return pattern.rounds[at]
    return None


def bad_meeting(case: Case, index: int) -> tuple[list[int], dict[int, tuple[Span, int]]] | None:
    """Return the sizes that a round of meeting fits and, by size, the repeat that doesn't fit and what it leaves.

    None where the round isn't such a meeting, fits all sizes or none, or isn't sure for each of them.
    """
    round_ = case.pattern.rounds[index]
    if not rejoins(case.pattern, index) or round_.loose or round_.directive is not None:
        return None
    working = case.workings.rounds[index]
    misfits = _misfits(working)
    fits = [
        size
        for size, one in enumerate(working.sizes)
        if one and one.sure and one.count is not None and size not in misfits
    ]
    if not misfits or not fits or any(one and not one.sure for one in working.sizes):
        return None
    return fits, misfits


def _misfits(working: RoundWorking) -> dict[int, tuple[Span, int]]:
    """Return, by size, the repeat that doesn't come out even and what it leaves."""
    found: dict[int, tuple[Span, int]] = {}
    for size, one in enumerate(working.sizes):
        for item in one.items if one and one.sure and one.before is not None else ():
            if item.left and item.to_end:
                found.setdefault(size, (item.span, item.left))
    return found
