"""Makes: what a stitch uses and makes, and the step that it is in its place."""

from __future__ import annotations

from ..draft import Span
from ..figures import Figure
from ..steps import (
    At,
    Count,
    Make,
    Repeat,
    Step,
    Target,
    Times,
    Unread,
    Where,
    Work,
)
from .places import Placed
from .words import Word

_MUST_SAY = {
    "shell",
    "half_shell",
    "dbl_vst",
    "vst",
    "y_st",
    "star",
    "love_knot",
    "mesh",
    "block",
    "granny_cl",
    "post_cable",
}


def make_of(word: Word) -> Make | None:
    """Return what a stitch uses and makes; None where the pattern must say and doesn't."""
    stitch = word.stitch
    if word.make is not None or stitch is None:
        return word.make
    if stitch.uses is not None and stitch.makes is not None:
        within = stitch.uses == 0 and stitch.kind in ("increase", "pass-over")
        return Make(stitch.id, stitch.uses, stitch.makes, max(stitch.height, 0), within=within)
    if stitch.craft == "knitting" and stitch.kind == "increase":
        return Make(stitch.id, 1, 2)  # `inc` may also be made between stitches; the counts tell
    if stitch.kind == "decrease":
        return Make(stitch.id, 2, 1, max(stitch.height, 0))
    if stitch.kind in ("group", "texture", "loop", "extended", "linked", "post") and stitch.id not in _MUST_SAY:
        return Make(stitch.id, 1, 1, max(stitch.height, 0))
    return None


def placed_steps(make: Make, number: Figure | None, placed: Placed, span: Span, *, trailing: bool) -> list[Step]:
    """Turn a stitch, its number and its place into a step."""
    where = placed.where
    one = Figure((1,), span)
    count = number or one
    many = count.is_list or (count.values[0] or 0) > 1
    if make.uses > 1:
        return [_decrease(make, count, where, span)]
    if (
        where.at is At.EACH
        and where.target == Target()
        and many
        and not placed.each
        and (count.is_list or (count.values[0] or 0) > 3)
    ):
        # `24 sc around`: so many in all
        return [Work(make, one, Where(At.NEXT, count, span=where.span), span)]
    if (
        where.at is At.NEXT
        and many
        and where.number is not None
        and (where.number.is_list or where.number.values[0] != 1)
    ):
        same = where.number.values == count.values
        if same and not placed.each:
            return [Work(make, one, where, span, ambiguous=True)]
        return [Work(make, count, where, span, ambiguous=not placed.each)]
    if trailing and many and where.at is At.EACH and not placed.each:
        # `sc 24 around`
        return [Work(make, one, Where(At.NEXT, count, span=where.span), span)]
    return [Work(make, count, where, span, ambiguous=placed.around)]


def _decrease(make: Make, count: Figure, where: Where, span: Span) -> Step:
    """Turn a decrease with its place into a step.

    `sc2tog over next 2 sts` is one, over 4 two; `around` as often as it goes.
    """
    one = Figure((1,), span)
    if where.at is At.NEXT and where.number is not None:
        over = [value for value in where.number.values if value is not None]
        if where.number.values == (1,):
            return Work(make, one, Where(At.NEXT, count, where.target, last=where.last, span=where.span), span)
        if make.kind in ("dec", "invdec") and over and all(value > make.uses and value % make.uses for value in over):
            return Unread(span, "how many stitches each decrease takes is not clear")
        each = Figure(tuple(None if value is None else value // make.uses for value in where.number.values), span)
        return Work(make, one, Where(At.NEXT, each, where.target, last=where.last, span=where.span), span)
    if where.at is At.EACH:
        work = Work(make, one, Where(At.NEXT, one), span)
        return Repeat((work,), Times(Count.TO_END, leave=where.leave), span, mark="")
    return Work(make, count, where, span)
