"""The beginning chains of joined rounds: a round in steps becomes one that starts with a chain."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from .instructions import HEIGHTS, BeginningChain, Figures, InEach, InRing, InSame, Repeat, Step, Stitches


def begin(random: Random, steps: tuple[Step, ...], *, counts: bool) -> tuple[Step, ...] | None:
    """Start a round with a chain; None where the chain can't stand for the first stitch of these steps."""
    if counts:
        return _for_first(steps)
    kind = _kind(steps[0])
    if kind is None:
        return None
    chain = BeginningChain(HEIGHTS[kind], counts=False, kind=kind)
    first = steps[0]
    if isinstance(first, Stitches) and first.each == 1 and random.randint(0, 2) == 2:
        rest = _one_less(first.number)
        if rest is not None:
            others = (replace(first, number=rest),) if rest else ()
            return (chain, InSame(kind), *others, *steps[1:])
    return (chain, *steps)


def _kind(step: Step) -> str | None:
    match step:
        case Stitches(kind) | InEach(kind) | InRing(kind):
            return kind
        case Repeat(steps):
            return _kind(steps[0])
        case _:
            return None


def _one_less(number: Figures) -> Figures | None:
    """Return the figures less one; nothing where one was all, None where it was all for some sizes only."""
    less = tuple(value - 1 for value in number)
    if not any(less):
        return ()
    return less if all(less) else None


def _for_first(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """Put a chain that counts in the place of the first stitch."""
    first, rest = steps[0], steps[1:]
    kind = _kind(first)
    if kind is None:
        return None
    chain = BeginningChain(HEIGHTS[kind], counts=True, kind=kind)
    match first:
        case InRing(_, number):
            less = _one_less(number)
            return (chain, InRing(kind, less), *rest) if less else None
        case InEach(_, each, leave, in_space):
            if leave is not None and not in_space:
                return None
            same = (InSame(kind, each - 1),) if each > 1 else ()
            return (chain, *same, first, *rest)
        case Stitches(_, number, each):
            less = _one_less(number)
            if less is None:
                return None
            same = (InSame(kind, each - 1),) if each > 1 else ()
            others = (replace(first, number=less),) if less else ()
            return (chain, *same, *others, *rest)
        case Repeat(body, times):
            begun = _for_first(body)
            less = None if times is None else _one_less(times)
            if begun is None or (times is not None and not less):
                return None
            return (*begun, replace(first, times=less), *rest)
        case _:
            return None
