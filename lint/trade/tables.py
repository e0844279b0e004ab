"""The trade tables, typed: stitches, their names and spellings in US and UK terms, and abbreviations."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Any, cast

CRAFTS = ("crochet", "knitting")
TERMS = ("US", "UK")

_NAMES = ("name", "us_name", "uk_name")
_SPELLINGS = ("us", "uk", "both", "us_drafts", "uk_drafts", "drafts")
_COUNTS = ("uses", "makes", "height")
_STITCH_KEYS = frozenset({"id", "kind", "like", "from_memory", *_NAMES, *_SPELLINGS, *_COUNTS})
_ABBREVIATION_KEYS = frozenset({"term", "meaning", "class", "craft", "terms", "variants", "from_memory"})


class TableError(ValueError):
    """A trade table that can't be used; the message names the table, the row and the fault."""


@dataclass(frozen=True, slots=True)
class Stitch:
    """A row of the stitch table.

    `us` and `uk` hold every name, abbreviation and spelling in those terms, lower case. `uses` are stitches
    of the row below that it consumes, `makes` stitches it leaves; None where the pattern must say. `height`
    is in turning chains. `kind` is the row's group (basic, increase, decrease, post, loop, group, chain ...).
    `like` is the id of the plain stitch that a stated count would name for it ("sc" for sc2tog), or None.
    """

    id: str
    craft: str
    us: tuple[str, ...]
    uk: tuple[str, ...]
    uses: int | None
    makes: int | None
    height: int
    kind: str
    like: str | None = None


@dataclass(frozen=True, slots=True)
class Abbreviation:
    """A general abbreviation: the term as usually written, its meaning, its class (order, place, unit ...).

    `terms` is "US" or "UK" where only those use it, None otherwise. `variants` are other spellings.
    """

    term: str
    meaning: str
    kind: str
    terms: str | None
    variants: tuple[str, ...]


@cache
def stitches(craft: str) -> tuple[Stitch, ...]:
    """Return the stitch table of a craft ("crochet" or "knitting"), in the table's order.

    Raises ValueError for another craft, TableError where the table is at fault.
    """
    _check_choice("craft", craft, CRAFTS)
    return parse_stitches(_read(f"stitches-{craft}.toml"), craft)


@cache
def spellings(craft: str, terms: str) -> Mapping[str, Stitch]:
    """Return each lower-case spelling in "US" or "UK" terms with its stitch.

    Where two stitches share a spelling, the one that has it nearer to the front of its list wins (the name,
    then the usual abbreviation, then the rest); between equals, the one earlier in the table.
    """
    _check_choice("terms", terms, TERMS)
    best: dict[str, tuple[int, Stitch]] = {}
    for stitch in stitches(craft):
        for place, spelling in enumerate(stitch.us if terms == "US" else stitch.uk):
            if spelling not in best or place < best[spelling][0]:
                best[spelling] = (place, stitch)
    return MappingProxyType({spelling: stitch for spelling, (_, stitch) in best.items()})


@cache
def abbreviations(craft: str) -> tuple[Abbreviation, ...]:
    """Return the general abbreviations of a craft; a term that stands for two things has two rows."""
    _check_choice("craft", craft, CRAFTS)
    return parse_abbreviations(_read("abbreviations.toml"), craft)


def parse_stitches(text: str, craft: str) -> tuple[Stitch, ...]:
    """Read and check a stitch table. Raises TableError at its first fault."""
    table = f"stitches-{craft}"
    document = _parse(text, table)
    if document.get("craft") != craft:
        raise TableError(f'{table}: craft must be "{craft}"')
    found: dict[str, Stitch] = {}
    for number, row in enumerate(_rows(document, "stitch", table), 1):
        stitch = _stitch(row, craft, f"{table}, row {number} ({row.get('id', 'no id')})")
        if stitch.id in found:
            raise TableError(f"{table}: two rows have the id {stitch.id}")
        found[stitch.id] = stitch
    for stitch in found.values():
        if stitch.like is not None and stitch.like not in found:
            raise TableError(f"{table}, {stitch.id}: like names {stitch.like}, which has no row")
    return tuple(found.values())


def parse_abbreviations(text: str, craft: str) -> tuple[Abbreviation, ...]:
    """Read and check the abbreviations, keeping those of a craft. Raises TableError at the first fault."""
    table = "abbreviations"
    found: list[Abbreviation] = []
    for number, row in enumerate(_rows(_parse(text, table), "abbreviation", table), 1):
        place = f"{table}, row {number} ({row.get('term', 'no term')})"
        _check_keys(row, _ABBREVIATION_KEYS, place)
        abbreviation = Abbreviation(
            term=_word(row, "term", place),
            meaning=_word(row, "meaning", place),
            kind=_word(row, "class", place),
            terms=_word(row, "terms", place) if "terms" in row else None,
            variants=_list(row, "variants", place),
        )
        its_craft = _word(row, "craft", place)
        if its_craft not in (*CRAFTS, "both"):
            raise TableError(f"{place}: craft is crochet, knitting or both, not {its_craft}")
        if abbreviation.terms not in (None, *TERMS):
            raise TableError(f"{place}: terms is US or UK, not {abbreviation.terms}")
        if its_craft in (craft, "both"):
            found.append(abbreviation)
    return tuple(found)


def _stitch(row: dict[str, Any], craft: str, place: str) -> Stitch:
    _check_keys(row, _STITCH_KEYS, place)
    if ("name" in row) == ("us_name" in row or "uk_name" in row):
        raise TableError(f"{place}: either name, or us_name and uk_name")
    names = {"us": "name", "uk": "name"} if "name" in row else {"us": "us_name", "uk": "uk_name"}
    lists = {key: _list(row, key, place) for key in _SPELLINGS}
    us, uk = (
        _distinct(
            (_word(row, names[t], place), *lists[t], *lists["both"], *lists[f"{t}_drafts"], *lists["drafts"]),
            place,
        )
        for t in ("us", "uk")
    )
    uses, makes, height = (_count(row, key, place) for key in _COUNTS)
    if height is None or height < 0:
        raise TableError(f"{place}: height must be a whole number from 0")
    if uses is not None and uses < 0:
        raise TableError(f"{place}: uses can't be negative")
    return Stitch(
        id=_word(row, "id", place),
        craft=craft,
        us=us,
        uk=uk,
        uses=uses,
        makes=makes,
        height=height,
        kind=_word(row, "kind", place),
        like=_word(row, "like", place) if "like" in row else None,
    )


def _distinct(spelled: tuple[str, ...], place: str) -> tuple[str, ...]:
    seen: set[str] = set()
    for spelling in spelled:
        if spelling != spelling.lower():
            raise TableError(f"{place}: {spelling!r} must be lower case")
        if spelling in seen:
            raise TableError(f"{place}: {spelling!r} stands twice in the same terms")
        seen.add(spelling)
    return spelled


def _check_choice(what: str, value: str, known: tuple[str, ...]) -> None:
    if value not in known:
        raise ValueError(f"{what} is {' or '.join(known)}, not {value!r}")


def _check_keys(row: dict[str, Any], known: frozenset[str], place: str) -> None:
    if unknown := sorted(row.keys() - known):
        raise TableError(f"{place}: unknown {', '.join(unknown)}")
    marked: object = row.get("from_memory", [])
    if marked is True:
        return
    if not isinstance(marked, list):
        raise TableError(f"{place}: from_memory is true for the whole row, or a list of its cells")
    for cell in cast("list[object]", marked):
        if cell not in row:
            raise TableError(f"{place}: from_memory names {cell}, which the row doesn't have")


def _word(row: dict[str, Any], key: str, place: str) -> str:
    value: object = row.get(key)
    if not isinstance(value, str) or not value or value != value.strip():
        raise TableError(f"{place}: {key} must be a word or words")
    return value


def _list(row: dict[str, Any], key: str, place: str) -> tuple[str, ...]:
    if key not in row:
        return ()
    parts = tuple(_word(row, key, place).split(" | "))
    if any(not part or part != part.strip() or "|" in part for part in parts):
        raise TableError(f'{place}: {key} must be spellings separated by " | "')
    return parts


def _count(row: dict[str, Any], key: str, place: str) -> int | None:
    value: object = row.get(key)
    if value is None or (isinstance(value, int) and not isinstance(value, bool)):
        return value
    raise TableError(f"{place}: {key} must be a whole number")


def _rows(document: dict[str, Any], key: str, table: str) -> list[dict[str, Any]]:
    rows: object = document.get(key)
    if not isinstance(rows, list) or not rows:
        raise TableError(f"{table}: no [[{key}]] rows")
    return cast("list[dict[str, Any]]", rows)


def _parse(text: str, table: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise TableError(f"{table}: {error}") from error


def _read(name: str) -> str:
    return resources.files(__package__ or "").joinpath(name).read_text("utf-8")
