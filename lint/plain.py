"""Plain steps: stitches into stitches, skips, and chains over what is skipped; there is one way to work them."""

from __future__ import annotations

from collections.abc import Sequence

from .steps import At, Chain, Count, FastenOff, Join, Marker, Remark, Repeat, Skip, Step, Turn, Work


def is_plain(steps: Sequence[Step], *, numbered: bool = False) -> bool:
    """Tell whether steps are plain; with `numbered` each must say its number, and none runs to the end of the row."""
    return all(_is_plain(steps, at, step, numbered=numbered) for at, step in enumerate(steps))


def _is_plain(steps: Sequence[Step], at: int, step: Step, *, numbered: bool) -> bool:
    match step:
        case Work():
            to_end = step.where.at is At.EACH
            placed = not (numbered and to_end) and (to_end or step.where.at is At.NEXT)
            said = not numbered or step.where.number is not None
            return placed and said and not (step.where.target.space or step.make.kind == "slst" or step.make.group)
        case Skip():
            return not step.target.space and not step.behind
        case Chain():
            return step.beginning or any(isinstance(one, Skip) for one in steps[max(0, at - 1) : at + 2])
        case Repeat():
            told = not numbered or step.times.count in (Count.TOTAL, Count.MORE)
            return told and is_plain(step.steps, numbered=numbered)
        case Join() | Turn() | FastenOff() | Marker() | Remark():
            return True
        case _:
            return False
