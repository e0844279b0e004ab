"""Stated measurements beside a drawing: what the draft says of a piece, and where its stitches and gauge differ."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import pi

from ..lint.materials import Measure
from ..lint.proof import Proof
from .outline import Outline, Stated, View
from .pieces import Piece
from .scale import Scale, length_words

_DIFFERS = ("width-does-not-follow", "length-does-not-follow")
_WORDS = {"around": "around", "width": "wide", "length": "long"}


@dataclass(frozen=True, slots=True)
class Measured:
    """A measurement of the finished piece for one size: `what` is "around", "width" or "length".

    `differs` is True where a finding says that it doesn't follow from the stitches.
    """

    what: str
    inches: float
    words: str
    differs: bool


def measures(proof: Proof, piece: Piece) -> tuple[Measured, ...]:
    """Return what a draft in one piece states of it in the size of the piece."""
    across = "width" if piece.flat else "around"
    found: list[Measured] = []
    for measure in proof.pattern.materials.measures:
        inches = _at(measure, piece.size, proof.pattern.sizes.number)
        if measure.body or inches is None or measure.what not in (across, "length"):
            continue
        differs = any(
            finding.rule in _DIFFERS
            and finding.span == measure.span
            and (not finding.sizes or piece.size in finding.sizes)
            for finding in proof.findings
        )
        length = length_words(inches * (2.54 if measure.unit == "cm" else 1.0), measure.unit)
        found.append(Measured(measure.what, inches, f"{length} {_WORDS[measure.what]}", differs))
    return tuple(found)


def with_measures(one: Outline, stated: tuple[Measured, ...], scale: Scale) -> Outline:
    """Return an outline with a mark at its widest for each width that it differs from."""
    marks: list[Stated] = []
    for own in stated:
        stitches = scale.stitches(own.inches)
        if own.differs and own.what != "length" and stitches is not None and one.view is not View.ABOVE:
            widest = next(point for point in one.points if point.stitches == one.widest)
            x = stitches / (2.0 if one.view is View.LAID else 2 * pi)
            short = f"stated {own.words.removesuffix(_WORDS[own.what]).rstrip()}"
            marks.append(Stated(x, widest.y, short, f"{own.words} stated, {scale.length(one.widest)} made"))
    return replace(one, stated=(*one.stated, *marks))


def _at(measure: Measure, size: int, sizes: int) -> float | None:
    if measure.ranged:
        return None
    if len(measure.inches) == 1:
        return measure.inches[0]
    return measure.inches[size] if len(measure.inches) == sizes else None
