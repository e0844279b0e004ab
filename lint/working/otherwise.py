"""Otherwise: the other ways in which the words of a round can be taken, tried where the usual one doesn't agree."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ..pattern import Chain, Join, Repeat, Step, Work


def other_ways(steps: Sequence[Step]) -> Iterator[tuple[Step, ...]]:
    """Yield the steps of a round as they may also be meant.

    `2 sc, inc x 6`: the number may be meant for all that stands before it. `*2 sc, inc* x 6` and the like are not
    ambiguous and yield nothing.
    """
    yield from _number_for_all(steps)


def _number_for_all(steps: Sequence[Step]) -> Iterator[tuple[Step, ...]]:
    for index, step in enumerate(steps):
        if isinstance(step, Repeat) and step.mark == "" and step.times.number is not None:
            start = next((n for n, part in enumerate(steps) if not isinstance(part, Chain | Join)), index)
            body = steps[start:index]
            if body and all(isinstance(part, Work) for part in body):
                whole = replace(step, steps=(*body, *step.steps), span=body[0].span.cover(step.span))
                yield (*steps[:start], whole, *steps[index + 1 :])
