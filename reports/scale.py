"""The scale of a drawing: how wide a stitch and how tall a row is, by the draft's gauge or by what is assumed."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ..lint.materials import Gauge
from ..lint.proof import Proof
from ..lint.trade.tables import stitches
from .words import one_line

_HEIGHTS = {1: 1.0, 2: 1.5, 3: 2.0, 4: 3.0, 5: 4.0, 6: 5.0}  # of a crochet stitch, by its turning chains
_KNITTED = 0.75
_CM = 2.5  # to an inch, as gauges go: 10 cm are 4 in
_LONGEST_GAUGE = 90
_PROPORTION = (
    "half double is taken to be one and a half times, double twice and treble three times as tall as single crochet "
    "(US terms)"
)
_NO_ROWS = {
    "crochet": f"a row of single crochet is taken to be as tall as a stitch is wide; {_PROPORTION}",
    "knitting": "a knitted row is taken to be three quarters as tall as a stitch is wide",
}
_YOUR_OWN = "Your own gauge may make a piece squatter or slimmer."


@dataclass(frozen=True, slots=True)
class Scale:
    """How large stitches are.

    `wide` is the width of one in `unit` ("cm" or "in"), None where no gauge was read. `tall` is the height of a row
    in widths of a stitch: of a row in single crochet, or of every row where `alike`. `words` say where this is from.
    """

    wide: float | None
    unit: str
    tall: float
    alike: bool
    words: str

    def row(self, kinds: tuple[tuple[str, int], ...]) -> float:
        """Return the height of a row of these stitches, in widths of a stitch."""
        return self.tall if self.alike else self.tall * _mean_height(kinds)

    def length(self, stitches: float) -> str:
        """Say how long so many widths of a stitch are: `51 cm`, `20.5 in`; empty where no gauge was read."""
        if self.wide is None:
            return ""
        return length_words(stitches * self.wide, self.unit)

    def stitches(self, inches: float) -> float | None:
        """Return how many widths of a stitch a length is, None where no gauge was read."""
        return None if self.wide is None else inches * (2.54 if self.unit == "cm" else 1.0) / self.wide


def length_words(length: float, unit: str) -> str:
    """Say a length to the nearest half: `51 cm`, `20.5 in`."""
    return f"{round(2 * length) / 2:g} {unit}"


def scale_of(proof: Proof) -> Scale:
    """Return the scale by the draft's gauge where it has one that may be relied on."""
    knitted = proof.pattern.craft == "knitting"
    assumed = _NO_ROWS["knitting" if knitted else "crochet"]
    usual = _KNITTED if knitted else 1.0
    gauge = _gauge(proof)
    if gauge is None or not gauge.stitches or not gauge.width:
        return Scale(None, "", usual, knitted, f"No gauge was read, so {assumed}. {_YOUR_OWN}")
    wide = gauge.width * (_CM if gauge.unit == "cm" else 1.0) / gauge.stitches
    words = one_line(proof.draft.words(gauge.span))
    if len(words) > _LONGEST_GAUGE:
        words = words[:_LONGEST_GAUGE].rsplit(" ", 1)[0] + " ..."
    stated = f'Drawn to the gauge that the draft states, "{words}"'
    if not gauge.rows or not gauge.height:
        return Scale(wide, gauge.unit, usual, knitted, f"{stated}, which gives no rows: {assumed}. {_YOUR_OWN}")
    tall = gauge.height / gauge.rows * gauge.stitches / gauge.width
    own = None if knitted else _heights().get(gauge.stitch or "")
    if own is None:
        return Scale(wide, gauge.unit, tall, True, f"{stated}, every row alike. {_YOUR_OWN}")
    return Scale(wide, gauge.unit, tall / own, False, f"{stated}; rows of other stitches in proportion: {_PROPORTION}.")


def _gauge(proof: Proof) -> Gauge | None:
    """Return the gauge of the draft where it has just one that may be relied on."""
    sure = [one for one in proof.pattern.materials.gauges if not one.loose and not one.motif]
    return sure[0] if len(sure) == 1 else None


@cache
def _heights() -> dict[str, float]:
    return {stitch.id: _HEIGHTS.get(stitch.height, 1.0) for stitch in stitches("crochet") if stitch.height}


def _mean_height(kinds: tuple[tuple[str, int], ...]) -> float:
    known = _heights()
    tall = [(known[kind], number) for kind, number in kinds if kind in known]
    total = sum(number for _, number in tall)
    return sum(height * number for height, number in tall) / total if total else 1.0
