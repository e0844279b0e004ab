"""Sides: the two sides of a neck worked at once, each with its own yarn, of which drafts count one."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import takewhile

from ..figures import Figure
from ..pattern import PARTS_COUNTED, Claim
from ..steps import At, Join, Leave, Marker, Rejoin, Remark, Shaping, Step, Unread, Work

BOTH = "both sides are worked at once"  # why the words that say so stand unread
_SAID = re.compile(r"(?i)\bboth\s+sides\b")
_EACH_EDGE = re.compile(
    r"(?i)\b(?:each|both)\s+(?:(?:neck|armhole|front|centre|center|inner|inside)\s+edges?|sides?\s+of\s+neck)\b"
)
_TALK = (Remark, Marker, Join, Rejoin)


def said_of_both(text: str) -> bool:
    """Tell whether words say that both sides are worked at once."""
    return _SAID.search(text) is not None


def one_side(steps: Sequence[Step], claims: Sequence[Claim]) -> tuple[Step, ...] | None:
    """Return the steps of the first side of a row that falls into two alike; None where it doesn't.

    `k46, join a 2nd ball, k to end`, `work 32 sts, place 14 on a holder, work remaining 32`: the other side waits.
    What is shaped after it stays. Where the other side is all that is left, a count of each side must tell so.
    """
    told = [step for step in steps if not isinstance(step, _TALK) and not _is_both(step)]
    works = [step for step in takewhile(lambda step: isinstance(step, Work | Leave), told) if isinstance(step, Work)]
    after = [step for step in told if not isinstance(step, Work | Leave)]
    plain = [n for n, work in enumerate(works) if work.make.makes]
    if plain != [0, len(works) - 1] or not all(isinstance(step, Shaping) for step in after):
        return None
    first, last = works[0], works[-1]
    if first.where.at is not At.NEXT or first.where.number is None or not all(map(_is_plain, (first, last))):
        return None
    whole = (
        any(claim.unit == PARTS_COUNTED[1] for claim in claims)
        and last.where.at is At.EACH
        and last.where.leave is None
        and not last.where.to_marker
    )
    if not whole and not _same(first.where.number, last.where.number):
        return None
    return (first, Leave(last.span), *after)


def on_one_side(steps: Sequence[Step], text: str) -> tuple[Step, ...]:
    """Let what is shaped at each neck edge be shaped once on the side that is counted."""
    return tuple(
        replace(step, places=1)
        if isinstance(step, Shaping) and step.places == 2 and _EACH_EDGE.search(text, step.span.start, step.span.end)
        else step
        for step in steps
        if not _is_both(step)
    )


def of_side(claims: Sequence[Claim]) -> tuple[Claim, ...]:
    """Take a count of the stitches on each side for the count of the side that is worked."""
    return tuple(replace(claim, kind="st", unit="") if claim.unit == PARTS_COUNTED[1] else claim for claim in claims)


def _is_both(step: Step) -> bool:
    return isinstance(step, Unread) and step.reason == BOTH


def _is_plain(work: Work) -> bool:
    return work.make.uses == work.make.makes == 1 and work.times.values == (1,)


def _same(one: Figure, other: Figure | None) -> bool:
    return other is not None and one.values == other.values
