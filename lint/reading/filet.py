"""Filet: a row told by its squares alone: `1 open mesh, 2 solid meshes`, `15 sps, 3 bls, 15 sps`."""

from __future__ import annotations

from collections.abc import Sequence

from ..figures import Figure
from ..pattern import Claim
from ..steps import At, Chain, Make, Step, Turn, Where, Work
from .claims import claim_of_group, sentence_claim, trailing_claim
from .groups import MESHES
from .marks import Group, Item, kind, span_of, text_at
from .times import figure_at
from .words import Word

_SOLID = frozenset({"bl", "bls", "blk", "blks", "block", "blocks"})
LONGEST_ALONE = 3  # words of a row that is one stretch of squares: `15 sps.`
_BETWEEN = frozenset({",", ".", ";", "noise", "+", ":"})


def read_filet(items: Sequence[Item]) -> tuple[tuple[Step, ...], tuple[Claim, ...]] | None:
    """Read a row that is nothing but so many open and solid squares, a turning chain and a turn; None for any other.

    A count may stand at its end.
    """
    claims: tuple[Claim, ...] = ()
    steps: list[Step] = []
    squares = 0
    index = 0
    while index < len(items):
        if (square := _square(items, index)) is not None:
            number, mesh = square
            span = span_of(items[index : index + 2])
            one = Figure((1,), span)
            steps.append(Work(Make(mesh, 1, 1, 3), one, Where(At.NEXT, number, span=span), span))
            squares += 1
            index += 2
        elif (chain := _chain(items, index)) is not None:
            steps.append(Chain(chain, span_of(items[index : index + 2]), beginning=not squares))
            index += 2
        elif kind(items, index) == "turn":
            steps.append(Turn(items[index].span))
            index += 1
        elif kind(items, index) in _BETWEEN:
            index += 1
        elif squares and (found := _count(items, index)) is not None:
            claims, index = found
        else:
            return None
    whole = squares > 1 or (squares and (len(steps) > 1 or index <= LONGEST_ALONE))
    return (tuple(steps), claims) if whole else None


def _count(items: Sequence[Item], index: int) -> tuple[tuple[Claim, ...], int] | None:
    """Read the count at the end of a row: `(76 sts)`, `- 76 sts`, `76 sts.`."""
    item = items[index]
    if isinstance(item, Group):
        claims = claim_of_group(item)
        return (claims, index + 1) if claims else None
    return trailing_claim(items, index) or sentence_claim(items, index)


def _square(items: Sequence[Item], index: int) -> tuple[Figure, str] | None:
    number = figure_at(items, index)
    word = items[index + 1] if index + 1 < len(items) else None
    if number is None or kind(items, index) != "number" or not isinstance(word, Word):
        return None
    if word.stitch is not None and word.stitch.id in MESHES:
        return number, word.stitch.id
    if word.kind == "space":
        return number, "mesh"
    return (number, "block") if word.text in _SOLID else None


def _chain(items: Sequence[Item], index: int) -> Figure | None:
    return figure_at(items, index + 1) if text_at(items, index) == "ch" else None
