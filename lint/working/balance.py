"""Balance: by how many stitches a round changes the count, where a place in it isn't known."""

from __future__ import annotations

from collections.abc import Sequence

from ..steps import At, Evenly, FastenOff, Join, Marker, Remark, Repeat, Step, Together, Turn, Work
from .hook import Hook


def balance(steps: Sequence[Step], hook: Hook) -> int | None:
    """Return the stitches made less those used; None where that depends on how far a step goes.

    Plain stitches up to a marker or the end of a needle change nothing, wherever that is.
    """
    total = 0
    for step in steps:
        change = _change(step, hook)
        if change is None:
            return None
        total += change
    return total


def _change(step: Step, hook: Hook) -> int | None:
    match step:
        case Work():
            make, times = hook.of_now(step.make), hook.number(step.times)
            if step.where.at is At.EACH:
                return 0 if make.uses == times * make.makes else None
            number = hook.number(step.where.number)
            if step.where.at is At.NEXT:
                return number * (times * make.makes - make.uses)
            return times * make.makes if step.where.at is At.SAME else None
        case Repeat():
            one = balance(step.steps, hook)
            passes = hook.passes(step)
            if one is None:
                return None
            return (None if one else 0) if passes is None else passes * one
        case Together():
            inner = balance(step.steps, hook)
            return inner - hook.number(step.where.number) if inner is not None and step.where.at is At.NEXT else None
        case Evenly():
            return step.change * hook.number(step.number) if step.number is not None else None
        case Marker() | Remark() | Turn() | Join() | FastenOff():
            return 0
        case _:
            return None
