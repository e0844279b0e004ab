"""Spaces: a stated number of chain spaces, or of chains named apart, against those that the round makes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..lint.draft import Span
from ..lint.finding import Level
from ..lint.later import later
from ..lint.pattern import Claim
from ..lint.steps import At, Chain, Repeat, Ring, Step, Together, Work
from ..lint.workings import SizeWorking
from .rule import Case, Said
from .sums import figures_by_size, join_words, number_of, pencil_sum, round_name
from .verdicts import all_or

_LENGTH = later(r"(?i)\b(?:ch|chain)s?[\s-]*(\d+)\b|\b(\d+)[\s-]*(?:ch|chain)s?\b")
_UNKNOWN = (At.RING, At.BEHIND, At.ROW_ENDS, At.BETWEEN, At.FROM_HOOK)


def spaces_differ(case: Case) -> Iterator[Said]:
    """Yield the stated numbers of spaces that a round surely doesn't make though its stitches agree."""
    for index, round_ in enumerate(case.pattern.rounds):
        apart = [claim for claim in round_.claims if claim.kind in ("space", "ch")]
        if not apart or len(apart) == len(round_.claims) or round_.loose or round_.directive or _unknown(round_.steps):
            continue
        for claim in apart:
            alone = len(apart) == 1
            if wrong := _wrong(case, index, claim, alone=alone):
                makes = figures_by_size(case, tuple(wrong), list(wrong.values()), _unit(case, claim))
                says = join_words(list(dict.fromkeys(str(claim.figure.at(size)) for size in wrong)))
                yield _said(case, index, claim, tuple(wrong), f"{makes}, the draft says {says}")
            elif alone and (length := _other_length(case, index, claim)):
                sizes = tuple(size for size, own in enumerate(case.workings.rounds[index].sizes) if own is not None)
                words = f"spaces of {number_of(length, 'chains')}, the draft counts {_unit(case, claim)}"
                yield _said(case, index, claim, sizes, words)


def _wrong(case: Case, index: int, claim: Claim, *, alone: bool) -> dict[int, int]:
    """Return, by size, how many are made where the draft states another number; nothing unless sure of every size."""
    found: dict[int, int] = {}
    right = False
    for size, own in enumerate(case.workings.rounds[index].sizes):
        stated = claim.figure.at(size)
        if own is None or stated is None:
            continue
        made = _made(case, own, claim, alone=alone)
        if not own.agrees or not own.sure or own.left or own.short or made is None:
            return {}
        if stated in made:
            right = True
        else:
            found[size] = made[0]
    by_one = all(abs(number - (claim.figure.at(size) or 0)) == 1 for size, number in found.items())
    if by_one and not right and _begun(case.pattern.rounds[index].steps):
        return {}  # the beginning chain may be counted as one, and no size shows that it isn't
    return found


def _made(case: Case, own: SizeWorking, claim: Claim, *, alone: bool) -> tuple[int, ...] | None:
    """Return the numbers that a round may be said to make of what a claim names, the likeliest first."""
    if claim.kind == "ch":
        if not alone:
            return None
        return sum(length * number for length, number in own.lengths), own.spaces
    length = _length(case, claim)
    lengths = dict(own.lengths)
    if length is not None and length in lengths:
        return (lengths[length], own.spaces) if alone else (lengths[length],)
    return (own.spaces,) if alone else None


def _length(case: Case, claim: Claim) -> int | None:
    """Return the length of the spaces that a claim names: 2 for `4 ch-2 sps` and `4 2-ch sps`."""
    match = _LENGTH.search(case.words(Span(claim.figure.span.end, claim.span.end)))
    return int(match[1] or match[2]) if match else None


def _begun(steps: Sequence[Step]) -> bool:
    """Tell whether a round begins with a chain that may stand for a space besides, though the draft doesn't say so."""
    begun = next((step for step in steps if isinstance(step, Chain) and step.beginning), None)
    return begun is not None and not begun.and_space and any(length != 1 for length in begun.n.values)


def _unknown(steps: Sequence[Step]) -> bool:
    """Tell whether steps go elsewhere than into the row below, where the spaces that they leave are less certain."""
    for step in steps:
        if isinstance(step, Ring) or (isinstance(step, Work | Together) and step.where.at in _UNKNOWN):
            return True
        if isinstance(step, Repeat | Together) and _unknown(step.steps):
            return True
    return False


def _other_length(case: Case, index: int, claim: Claim) -> int | None:
    """Return the length of all spaces that a round surely makes, where the claim names another length."""
    owns = [own for own in case.workings.rounds[index].sizes if own is not None]
    made = {length for own in owns for length, _ in own.lengths}
    named = _length(case, claim)
    sure = all(own.agrees and own.sure and not own.left and not own.short for own in owns)
    return made.pop() if named is not None and sure and len(made) == 1 and named not in made else None


def _unit(case: Case, claim: Claim) -> str:
    """Return the draft's own words for what it counts: `ch-1 sps`."""
    return case.words(Span(claim.figure.span.end, claim.span.end)).strip(" .,;:)]}") or "spaces"


def _said(case: Case, index: int, claim: Claim, sizes: tuple[int, ...], makes: str) -> Said:
    return Said(
        span=claim.span,
        message=f"{round_name(case.pattern.rounds[index])} makes {makes}",
        sizes=all_or(case, sizes),
        sum=pencil_sum(case, index, sizes[:1]),
        level=Level.QUERY,
    )
