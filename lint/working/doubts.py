"""Doubts: where what doesn't fit more likely shows that a round was misread than that it is wrong."""

from __future__ import annotations

from collections.abc import Sequence

from ..pattern import MarkTrouble, RepeatRounds, Round
from ..plain import is_plain
from ..steps import At, Chain, Repeat, Step, Together, Work
from .claims import Compared
from .fabric import Fabric
from .hook import CannotWork
from .stitching import Made


def check_fit(round_: Round, made: Made, compared: Compared, size: int, below: Fabric | None, *, sure: bool) -> None:
    """Raise CannotWork where a round that doesn't fit or agree was likely misread; `sure` tells of the row below."""
    what = round_.directive
    if made.missed and sure:
        return
    if isinstance(what, RepeatRounds) and what.until is not None and what.until.at(size) != made.fabric.stitches:
        raise CannotWork("the repeats don't come to the count up to which they are worked")
    if compared.agrees:
        return
    if (made.left or made.short) and _is_lace(round_.steps, below):
        certain = sure and below is not None and not below.ring and not below.spaces and not below.is_chain
        if compared.agrees is None or not certain or not is_plain(round_.steps, numbered=True):
            # spaces, groups and earlier rows can be meant in more ways
            raise CannotWork("its stitches don't fit the row below in the way in which it was read")
    if compared.agrees is None:
        return
    if any(mark.trouble is MarkTrouble.BRACKET for mark in round_.loose):
        raise CannotWork("a bracket is missing, so how its words belong together isn't sure")
    if made.fabric.stitches < 1:
        raise CannotWork("no stitches were found in these words")
    if made.short and made.before is None:
        raise CannotWork("what its stitches go into was not understood")


def _is_lace(steps: Sequence[Step], below: Fabric | None) -> bool:
    """Tell whether a round works with more than stitches into stitches."""
    if below is not None and below.spaces:
        return True
    for step in steps:
        if isinstance(step, Together) or (isinstance(step, Chain) and not step.beginning):
            return True
        if isinstance(step, Work) and (
            step.where.at in (At.BEHIND, At.ROW_ENDS) or step.where.target.space or step.make.kind == "slst"
        ):
            return True
        if isinstance(step, Repeat) and _is_lace(step.steps, None):
            return True
    return False
