"""Claims against the work: does a stated count agree with what was made, and in which unit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..pattern import Claim
from ..steps import ANY_GROUP
from .fabric import Fabric
from .grouping import BEGUN, groups_of


@dataclass(frozen=True, slots=True)
class Compared:
    """A stated count beside the worked one, in the same unit; `agrees` is None where they can't be compared."""

    stated: int | None
    worked: int
    unit: str = "sts"
    agrees: bool | None = None


def compare(claims: Sequence[Claim], fabric: Fabric, size: int, choose_spaces: bool) -> Compared:
    """Compare what a draft states after a round with the row that its words make, for one size.

    `choose_spaces` is True where chains are counted as stitches in this draft's counts.
    """
    count = fabric.stitches
    if choose_spaces or any(claim.with_chains for claim in claims):
        count += fabric.chains
    known = [claim for claim in claims if claim.figure.at(size) is not None]
    if not known:
        return Compared(None, count)
    spaces = [claim for claim in known if claim.kind in ("space", "ch")]
    stitches = [claim for claim in known if claim.kind not in ("space", "ch", "other")]
    groups = [claim for claim in known if claim.group]
    apart = groups and not any(claim.kind == "st" for claim in stitches)
    if apart and (by_kind := _by_kind(groups, stitches, fabric, size, count)) is not None:
        return by_kind
    if not stitches:
        return _of_spaces(spaces, fabric, size, count)
    whole = next((claim for claim in stitches if claim.kind == "st"), None)
    if whole is not None:
        stated = _value(whole, size)
        return Compared(stated, count, agrees=stated == count)
    stated = sum(_value(claim, size) for claim in stitches)
    if stated == count:
        return Compared(stated, count, agrees=True)
    if len(stitches) == 1:
        return _of_kind(stitches[0], fabric, size, count)
    return Compared(stated, count, agrees=False)


def _by_kind(
    groups: Sequence[Claim], stitches: Sequence[Claim], fabric: Fabric, size: int, count: int
) -> Compared | None:
    """Compare a count of groups, with stitches beside them: `8 sc and 8 V-sts`, `36 dc / 12 groups`, `16 shells`.

    None where the groups counted are not those that the row is known to hold.
    """
    named = groups_of(fabric)
    claimed = groups[0]
    begun = named.pop(BEGUN, 0)
    made = named.get(claimed.group, named.get(ANY_GROUP, 0) if len(named) == 1 else 0) + begun
    if len(groups) > 1 or not made:
        return None
    stated = _value(claimed, size)
    sure = claimed.group in named and claimed.group != ANY_GROUP
    if stated != made:
        return Compared(stated, made, unit=claimed.unit, agrees=False) if sure else Compared(None, count)
    if not stitches:
        return Compared(None, count, agrees=True)
    outside = dict(fabric.kinds(outside=True))
    every = dict(fabric.kinds())
    for claim in stitches:
        own = outside if len(stitches) > 1 or claim.kind in outside else every
        if _value(claim, size) not in (own.get(claim.kind, 0), every.get(claim.kind, 0) + every.get("ch", 0)):
            return Compared(_value(claim, size), own.get(claim.kind, 0), claim.unit, agrees=False)
    return Compared(None, count, agrees=True)


def _value(claim: Claim, size: int) -> int:
    value = claim.figure.at(size) or 0
    return value + 1 if claim.chain_apart else value


def _of_spaces(spaces: Sequence[Claim], fabric: Fabric, size: int, count: int) -> Compared:
    """Compare a count of chain spaces; a count in another unit can't be compared."""
    if not spaces:
        return Compared(None, count)
    stated = _value(spaces[0], size)
    made = fabric.spaces
    if made == stated:
        return Compared(stated, made, unit=spaces[0].unit, agrees=True)
    return Compared(None, count)


def _of_kind(claim: Claim, fabric: Fabric, size: int, count: int) -> Compared:
    """Compare a count of one kind of stitch, in a row that may hold others."""
    stated = _value(claim, size)
    kinds = dict(fabric.kinds())
    made = sum(number for kind, number in kinds.items() if _belongs(kind, claim.kind))
    if made and len(kinds) > 1 and stated == made + kinds.get("ch", 0):
        return Compared(stated, stated, unit=claim.unit, agrees=True)
    return Compared(stated, count, unit="sts", agrees=stated == count)


_SHAPING = frozenset({"inc", "inc3", "invinc", "dec", "invdec"})


def _belongs(kind: str, named: str) -> bool:
    """Tell whether a stitch is one of those named: an sc2tog and an increase in sc leave sc as well."""
    together = kind.startswith(named) and kind.endswith("tog")
    return together or kind in (named, f"{named}_inc", f"{named}_dec") or kind in _SHAPING


def stated_of(claims: Sequence[Claim], size: int) -> int | None:
    """Return the stitches stated, None where the claim is of something else."""
    found = [claim for claim in claims if claim.kind not in ("space", "ch", "other")]
    if not found:
        return None
    whole = next((claim for claim in found if claim.kind == "st"), None)
    values = [claim.figure.at(size) for claim in ([whole] if whole else found)]
    if any(value is None for value in values):
        return None
    return sum(value or 0 for value in values) + (1 if found[0].chain_apart else 0)
