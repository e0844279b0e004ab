"""The tables of yarns, hooks and needles, body sizes and units, typed."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any, TypeVar, cast

from .tables import TableError

_Row = TypeVar("_Row")


@dataclass(frozen=True, slots=True)
class ToolSize:
    """A label of a hook or of needles, and the diameters in millimetres sold under it, the usual one first."""

    kind: str
    scale: str
    label: str
    mm: tuple[float, ...]

    @property
    def letter(self) -> str:
        """The letter of the label, "" where it is a number."""
        return self.label.split("-")[0] if self.label[:1].isalpha() else ""

    @property
    def number(self) -> str:
        """The number of the label, "" where it is a letter alone."""
        return self.label.rsplit("-", 1)[-1] if self.label[-1:].isdigit() else ""


@dataclass(frozen=True, slots=True)
class Weight:
    """A class of yarn; ends of the usual ranges, None where open. Stitches in 4 in, tools in mm, metres in 100 g."""

    number: int
    name: str
    knit_least: float | None = None
    knit_most: float | None = None
    crochet_least: float | None = None
    crochet_most: float | None = None
    needle_least: float | None = None
    needle_most: float | None = None
    hook_least: float | None = None
    hook_most: float | None = None
    metres_least: float | None = None
    metres_most: float | None = None


@dataclass(frozen=True, slots=True)
class YarnName:
    """A name by which yarn is sold, and the classes it may stand for."""

    name: str
    classes: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Fibre:
    """What yarn is spun of, and the words for it."""

    name: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Body:
    """A measure of the body in inches, for sizes called by any of `names`."""

    measure: str
    who: str
    names: tuple[str, ...]
    least: float
    most: float


@dataclass(frozen=True, slots=True)
class Ease:
    """How much larger than the body a garment of this fit is, in inches around the chest."""

    fit: str
    least: float
    most: float


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit with the words that drafts have for it."""

    id: str
    quantity: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class UnitPair:
    """Two units that drafts pair: ratios used beside the exact one, and what may be lost or gained in rounding."""

    first: str
    second: str
    also: tuple[float, ...]
    share: float
    least: float


@cache
def tool_sizes() -> tuple[ToolSize, ...]:
    """Return all labels of hooks and needles."""
    return _rows("tools", "tool", ToolSize)


@cache
def weights() -> tuple[Weight, ...]:
    """Return the classes of yarn, from 0."""
    return _rows("yarns", "weight", Weight)


@cache
def yarn_names() -> dict[str, tuple[int, ...]]:
    """Return the names of yarn by weight, in small letters, with the classes each may stand for."""
    named = {row.name: row.classes for row in _rows("yarns", "name", YarnName)}
    return named | {weight.name: (weight.number,) for weight in weights()}


@cache
def fibres() -> dict[str, str]:
    """Return each word for a fibre, in small letters, with the fibre's name."""
    return {word: fibre.name for fibre in _rows("yarns", "fibre", Fibre) for word in fibre.words}


@cache
def bodies() -> tuple[Body, ...]:
    """Return the published measures of bodies."""
    return _rows("bodies", "body", Body)


@cache
def eases() -> tuple[Ease, ...]:
    """Return the kinds of fit, from the closest."""
    return _rows("bodies", "ease", Ease)


@cache
def units() -> dict[str, str]:
    """Return each spelling of a unit, in small letters, with the unit's id."""
    return {word: unit.id for unit in _rows("units", "unit", Unit) for word in unit.words}


@cache
def unit_pairs() -> dict[tuple[str, str], UnitPair]:
    """Return the pairs of units by their ids."""
    return {(pair.first, pair.second): pair for pair in _rows("units", "pair", UnitPair)}


def tools_labelled(kind: str, label: str, scale: str | None = None) -> tuple[ToolSize, ...]:
    """Return the sizes that a label may mean: whole (`H-8`), or by its letter (`H`) or number (`8`) alone."""
    sizes = [size for size in tool_sizes() if size.kind == kind and scale in (None, size.scale)]
    whole = tuple(size for size in sizes if size.label == label)
    parts = tuple(size for size in sizes if label in (size.letter, size.number) or label in size.letter.split("/"))
    return whole + tuple(size for size in parts if size not in whole)


def _rows(table: str, key: str, row: type[_Row]) -> tuple[_Row, ...]:
    """Read the rows of a table into a dataclass. Raises TableError where a row doesn't fit it."""
    document: dict[str, Any] = tomllib.loads(
        resources.files(__package__ or "").joinpath(f"{table}.toml").read_text("utf-8")
    )
    found: list[_Row] = []
    for number, cells in enumerate(cast("list[dict[str, Any]]", document.get(key, [])), 1):
        try:
            found.append(
                row(
                    **{
                        _CELLS.get(cell, cell): _value(cell, value)
                        for cell, value in cells.items()
                        if cell != "from_memory"
                    }
                )
            )
        except TypeError as error:
            raise TableError(f"{table}, {key} {number}: {error}") from error
    if not found:
        raise TableError(f"{table}: no rows of {key}")
    return tuple(found)


_CELLS = {"from": "first", "to": "second"}
_WORDS = frozenset({"words", "names"})


def _value(cell: str, value: object) -> object:
    if isinstance(value, list):
        return tuple(cast("list[object]", value))
    return tuple(cast("str", value).split(" | ")) if cell in _WORDS else value
