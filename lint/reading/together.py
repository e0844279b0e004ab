"""Together: stitches listed without brackets that all go into one place.

`2 dc, ch 2, 3 dc in corner sp` says the place after the list, `in next sp make dc, ch 1 and dc` before it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..steps import At, Chain, Join, Remark, Repeat, Step, Together, Turn, Where, Work
from .marks import Item, kind, text_at
from .times import figure_at

_PLACE_FOLLOWS = frozenset(
    {"into", "over", "each", "next", "around", "post", "between", "loops", "same", "times", "tog"}
)
_AND = frozenset({"and", "&", "+"})


def in_one(steps: Sequence[Step]) -> tuple[Step, ...]:
    """Prepare the steps of a group that goes into one place: a bare `2 dc` is two in it."""
    found: list[Step] = []
    for step in steps:
        if isinstance(step, Work) and step.bare and step.where.number is not None:
            found.append(Work(step.make, step.where.number, Where(At.SAME), step.span))
        elif isinstance(step, Chain):
            found.append(replace(step, beginning=False))
        elif isinstance(step, Repeat):
            found.append(replace(step, steps=in_one(step.steps)))
        else:
            found.append(step)
    return tuple(found)


def gathered(steps: Sequence[Step], least: int) -> Together | None:
    """Return the list of stitches and chains that ends with a placed stitch as a group in that place; None for others.

    The list stands at the end of `steps`, from the index `least` on at the earliest.
    """
    last = steps[-1]
    if not isinstance(last, Work) or not _is_one_place(last.where) or last.make.kind == "slst":
        return None
    start = len(steps) - 1
    while start - 2 >= least and _is_space(steps[start - 1]) and _is_bare(steps[start - 2]):
        start -= 2
    if start == len(steps) - 1:
        return None
    if last.where.at is At.SAME and not _begins_in_place(steps[:start]):
        return None
    inside = (*steps[start:-1], replace(last, where=Where(At.SAME)))
    return Together(in_one(inside), last.where, steps[start].span.cover(last.span))


def _is_one_place(where: Where) -> bool:
    if where.at in (At.RING, At.SAME):
        return True
    one = where.number is not None and where.number.values == (1,)
    return where.at is At.NEXT and one and (where.target.space or bool(where.target.group))


def _is_space(step: Step) -> bool:
    return isinstance(step, Chain) and not step.beginning


def _is_bare(step: Step) -> bool:
    return isinstance(step, Work) and step.bare and step.make.uses == 1 and step.make.kind != "slst"


def _begins_in_place(steps: Sequence[Step]) -> bool:
    """Tell whether a round has only come to its place, with a chain on it."""
    told = [step for step in steps if not isinstance(step, Remark | Turn)]
    return bool(told) and isinstance(told[-1], Chain) and told[-1].beginning


def has_come_to_space(steps: Sequence[Step]) -> bool:
    """Tell whether a round has only come to a space, by slip stitches or a join, and made its beginning chain."""
    told = [step for step in steps if not isinstance(step, Remark)]
    if len(told) < 2 or not isinstance(told[-1], Chain) or not told[-1].beginning:
        return False
    moves = told[:-1]
    came = moves[-1]
    return all(isinstance(step, Join) or (isinstance(step, Work) and step.make.kind == "slst") for step in moves) and (
        isinstance(came, Work) and came.where.target.space
    )


def travels(step: Step) -> bool:
    """Tell whether a step only moves to where the round begins: `sl st in next ch-2 sp`."""
    return isinstance(step, Work) and step.make.kind == "slst" and step.where.at is not At.EACH


def list_end(items: Sequence[Item], index: int) -> int:
    """Return the index after a list of stitches and chains without places: `sc, ch 3 and sc`.

    An element with a place of its own (`..., sc in next 4 ch`) is no part of it.
    """
    end = at = index
    closes = False
    while True:
        at += figure_at(items, at) is not None
        if kind(items, at) != "stitch":
            return end
        at += 1
        dash = kind(items, at) == "-"
        if figure_at(items, at + dash) is not None and kind(items, at + dash + 1) != "stitch":
            at += dash + 1
        if kind(items, at) in _PLACE_FOLLOWS:
            return end
        end = at
        if closes:
            return end
        while kind(items, at) == "," or text_at(items, at) in _AND:
            closes = closes or text_at(items, at) in _AND
            at += 1
        if at == end:
            return end


def between_ends(steps: Sequence[Step]) -> tuple[Step, ...]:
    """Return what a round has between its ends: from its first stretch that runs on to the last; () without one."""
    runs = [
        index
        for index, step in enumerate(steps)
        if isinstance(step, Work) and step.where.at is At.EACH and step.times.values == (1,)
    ]
    if not runs:
        return ()
    inside = steps[runs[0] : runs[-1] + 1]
    kept = all(isinstance(step, Work | Together | Chain) for step in inside)
    return tuple(_to_the_end(step) for step in inside) if kept else ()


def _to_the_end(step: Step) -> Step:
    """Let a stretch run as far as the steps after it allow."""
    return replace(step, where=replace(step.where, leave=None)) if isinstance(step, Work) else step
