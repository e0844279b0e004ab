"""Slips: the single small changes to the words of a round after which its count agrees for every size."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from ..figures import Figure
from ..steps import Repeat, Skip, Step, Work
from ..workings import Slip
from .fabric import Fabric
from .hook import CannotWork, Choose
from .stitching import work_round

BY = (-2, -1, 1, 2)

_Variant = tuple[Slip, Step]


def slips(
    index: int,
    steps: Sequence[Step],
    below: Sequence[Fabric | None],
    stated: Sequence[int | None],
    choose: Choose,
    flat: bool = False,
    *,
    knit: bool = False,
) -> tuple[Slip, ...]:
    """Try every figure of a round one or two higher or lower; keep what makes all stated counts come out.

    `below` and `stated` have an entry a size; a size without a stated count isn't looked at.
    """
    found: list[Slip] = []
    for slip, changed in _changed(index, tuple(steps)):
        if all(
            count is None or _comes_out(changed, below[size], size, count, choose, flat, knit=knit)
            for size, count in enumerate(stated)
        ):
            found.append(slip)
    return tuple(found)


def _comes_out(
    steps: Sequence[Step], below: Fabric | None, size: int, count: int, choose: Choose, flat: bool, *, knit: bool
) -> bool:
    try:
        made = work_round(steps, below, size, choose, fresh=below is None, flat=flat, knit=knit)
    except CannotWork:
        return False
    return made.fabric.stitches == count and not made.left and not made.short


def _changed(index: int, steps: tuple[Step, ...]) -> Iterator[tuple[Slip, tuple[Step, ...]]]:
    """Yield the steps with one figure changed, and the slip that it would be."""
    for at, step in enumerate(steps):
        for slip, other in _variants(index, step):
            yield slip, (*steps[:at], other, *steps[at + 1 :])


def _variants(index: int, step: Step) -> Iterator[_Variant]:
    if isinstance(step, Work):
        where = step.where
        yield from _figures(index, step.times, step, lambda figure: replace(step, times=figure))
        yield from _figures(index, where.number, step, lambda f: replace(step, where=replace(where, number=f)))
        yield from _figures(index, where.leave, step, lambda f: replace(step, where=replace(where, leave=f)))
    elif isinstance(step, Skip):
        yield from _figures(index, step.number, step, lambda figure: replace(step, number=figure))
    elif isinstance(step, Repeat):
        times = step.times
        yield from _figures(index, times.number, step, lambda f: replace(step, times=replace(times, number=f)))
        yield from _figures(index, times.leave, step, lambda f: replace(step, times=replace(times, leave=f)))
        for slip, inner in _changed(index, step.steps):
            yield slip, replace(step, steps=inner)


def _figures(index: int, figure: Figure | None, step: Step, put: Callable[[Figure], Step]) -> Iterator[_Variant]:
    """Yield a step with one value of a figure changed; a figure that isn't written has no span of its own."""
    if figure is None or figure.span == step.span or figure.span.end - figure.span.start < 1:
        return
    for size, value in enumerate(figure.values):
        for by in BY:
            if value is None or value + by < 1:
                continue
            values = (*figure.values[:size], value + by, *figure.values[size + 1 :])
            slip = Slip(index, figure.span, value, value + by, size if figure.is_list else None)
            yield slip, put(Figure(values, figure.span))
