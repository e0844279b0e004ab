"""What a draft asks for and promises: yarn, tools, notions, gauge, measurements, colours. Reading makes these values.

Lengths are in inches unless a unit is named, tools in millimetres. Lists hold one value a size; a single value serves
all of them.
"""

from __future__ import annotations

from dataclasses import dataclass

from .draft import Span


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with a unit, or a list or a range of numbers with one: `100 (130, 160) yds`, `4-5 in`.

    `unit` is the id of the unit table ("in", "cm", "yd", "g" ...). `ranged` is True where the numbers are ends.
    """

    values: tuple[float, ...]
    unit: str
    span: Span
    ranged: bool = False


@dataclass(frozen=True, slots=True)
class Pairing:
    """One measure in two units: `8 in (20 cm)`. Both have as many numbers."""

    first: Quantity
    second: Quantity
    span: Span


@dataclass(frozen=True, slots=True)
class Tool:
    """A hook, a steel hook or needles; each of mm and label where the draft gives it.

    `kind` is "hook", "steel hook" or "needle". `label` is as the trade table writes it (`H-8`, `H`, `8`,
    `10.5`), `scale` "US" or "UK" where the draft says which.
    """

    kind: str
    span: Span
    mm: float | None = None
    label: str | None = None
    scale: str | None = None


@dataclass(frozen=True, slots=True)
class Yarn:
    """A yarn by its weight: the class number and the names that the draft gives in one breath, with their places."""

    span: Span
    number: int | None = None
    names: tuple[str, ...] = ()
    amounts: tuple[Quantity, ...] = ()


@dataclass(frozen=True, slots=True)
class Gauge:
    """A stated gauge: `stitches` of `stitch` over `width`, `rows` over `height`, both lengths in inches.

    `stitch` is the id of the stitch it is counted in, or None for stitches in general; `unit` what the lengths were
    written in ("in" or "cm"). `loose` is True where the draft says that it doesn't matter, `motif` where it gives the
    size of some rounds instead.
    """

    span: Span
    stitches: float | None = None
    width: float | None = None
    rows: float | None = None
    height: float | None = None
    stitch: str | None = None
    unit: str = "in"
    loose: bool = False
    motif: bool = False

    @property
    def per_inch(self) -> float | None:
        """Stitches to an inch."""
        return self.stitches / self.width if self.stitches and self.width else None

    @property
    def rows_per_inch(self) -> float | None:
        """Rows to an inch."""
        return self.rows / self.height if self.rows and self.height else None


@dataclass(frozen=True, slots=True)
class Measure:
    """A stated measurement: `what` is "around", "width", "length" or a part of the body ("chest", "head", "foot" ...).

    `body` is True where it is the body it should fit, False where it is the finished piece. `span` holds its words,
    `inches` one value a size.
    """

    what: str
    body: bool
    inches: tuple[float, ...]
    unit: str
    span: Span
    ranged: bool = False


@dataclass(frozen=True, slots=True)
class Notion:
    """Something to have at hand beside yarn and tool: `kind` as "button", "safety eye", "marker"; `number` of them."""

    kind: str
    span: Span
    number: int | None = None


@dataclass(frozen=True, slots=True)
class Colour:
    """A colour that the draft calls by a letter: `A`, `MC`; listed among the materials or used in the rounds."""

    letter: str
    span: Span


@dataclass(frozen=True, slots=True)
class Blend:
    """What a yarn is spun of: `75% wool, 25% nylon`; `parts` are the fibres by name with their shares in per cent."""

    span: Span
    parts: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True)
class Shoes:
    """Sizes of shoes that a piece is to fit: `ranges` hold least and most, one a size; `who` is for whom if said.

    `scale` is the country whose sizes they are, None where the draft doesn't say.
    """

    span: Span
    ranges: tuple[tuple[float, float], ...]
    who: str | None = None
    scale: str | None = None


@dataclass(frozen=True, slots=True)
class Edition:
    """Which state of the draft this is: its version as written, or its date as year, month and day.

    Month and day are 0 where the draft leaves them out.
    """

    span: Span
    version: str | None = None
    date: tuple[int, int, int] | None = None


@dataclass(frozen=True, slots=True)
class Materials:
    """All that a draft says of what it is made with, how large it becomes, and which state of it this is.

    `notions_used` and `colours_used` are mentions outside the list; `pairings` and `editions` are of the whole draft.
    """

    yarns: tuple[Yarn, ...] = ()
    tools: tuple[Tool, ...] = ()
    notions: tuple[Notion, ...] = ()
    notions_used: tuple[Notion, ...] = ()
    colours: tuple[Colour, ...] = ()
    colours_used: tuple[Colour, ...] = ()
    gauges: tuple[Gauge, ...] = ()
    measures: tuple[Measure, ...] = ()
    pairings: tuple[Pairing, ...] = ()
    cautions: tuple[Span, ...] = ()
    blends: tuple[Blend, ...] = ()
    shoes: tuple[Shoes, ...] = ()
    editions: tuple[Edition, ...] = ()


NOTHING = Materials()
