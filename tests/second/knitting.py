"""What a knitter is told to do, as plain values: the steps of a row, the lines of a piece.

Every figure is a tuple with one value a size.
"""

from __future__ import annotations

from dataclasses import dataclass

from .instructions import Figures

# ---------------------------------------------------------------- steps


@dataclass(frozen=True, slots=True)
class Knit:
    """`number` stitches knitted ("k") or purled ("p"), one after the other."""

    kind: str
    number: Figures


@dataclass(frozen=True, slots=True)
class Change:
    """A stitch of `name` that makes more or fewer stitches than it takes, `number` of them one after the other."""

    name: str
    number: Figures


@dataclass(frozen=True, slots=True)
class Cable:
    """Stitches crossed: `over` of them, in front or behind."""

    over: int
    front: bool


@dataclass(frozen=True, slots=True)
class Slip:
    """Stitches slipped from needle to needle."""

    number: Figures


@dataclass(frozen=True, slots=True)
class ToEnd:
    """Every stitch that is left knitted or purled, but for the last `leave`."""

    kind: str
    leave: Figures | None = None


@dataclass(frozen=True, slots=True)
class ToMarker:
    """Every stitch up to the next marker, but for the last `before`."""

    kind: str
    before: int = 0


@dataclass(frozen=True, slots=True)
class PlaceMarker:
    """A marker hung on the needle."""


@dataclass(frozen=True, slots=True)
class SlipMarker:
    """The marker that comes next passed on."""


@dataclass(frozen=True, slots=True)
class BindOff:
    """Stitches bound off, at the beginning of a row or in its middle."""

    number: Figures


@dataclass(frozen=True, slots=True)
class CastOnMore:
    """Stitches cast on within a row."""

    number: Figures


@dataclass(frozen=True, slots=True)
class Turn:
    """The next stitch wrapped and the work turned, with the rest of the row left."""


@dataclass(frozen=True, slots=True)
class Group:
    """Steps worked `times` times in all; where that is None, until `leave` stitches are left."""

    steps: tuple[KnitStep, ...]
    times: Figures | None = None
    leave: Figures | None = None


KnitStep = (
    Knit | Change | Cable | Slip | ToEnd | ToMarker | PlaceMarker | SlipMarker | BindOff | CastOnMore | Turn | Group
)

# ---------------------------------------------------------------- lines


@dataclass(frozen=True, slots=True)
class KnitRow:
    """A row with steps of its own, worked `rows` times."""

    steps: tuple[KnitStep, ...]
    rows: Figures


@dataclass(frozen=True, slots=True)
class LinesAgain:
    """Earlier lines worked again: those at the indices `first` to `last`, each `times` times."""

    first: int
    last: int
    times: Figures


@dataclass(frozen=True, slots=True)
class PlainRows:
    """Rows of one stitch in each stitch."""

    rows: Figures


@dataclass(frozen=True, slots=True)
class Shaped:
    """`times` rows with a stitch more (`change` +1) or fewer (-1) at each end: the next row, and every `every`th."""

    change: int
    every: int
    times: Figures


@dataclass(frozen=True, slots=True)
class BoundOff:
    """`number` stitches bound off at the beginning of each of the next `rows` rows."""

    number: Figures
    rows: int


@dataclass(frozen=True, slots=True)
class Spread:
    """A row with so many stitches more (`change` +1) or fewer (-1), spread over it as the knitter likes."""

    change: int
    number: Figures


KnitLine = KnitRow | LinesAgain | PlainRows | Shaped | BoundOff | Spread


@dataclass(frozen=True, slots=True)
class Piece:
    """A knitted piece: the sizes by name (none for one size), what is cast on, the lines as written.

    `around` is True where it is joined and worked in the round.
    """

    sizes: tuple[str, ...]
    cast_on: Figures
    lines: tuple[KnitLine, ...]
    around: bool = False
    title: str = "KNITTED HARBOUR PIECE"

    @property
    def number(self) -> int:
        """How many sizes there are."""
        return max(1, len(self.sizes))
