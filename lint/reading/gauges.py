"""Gauges: how many stitches and rows go into an inch or a centimetre, in every wording that drafts have for it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache

from ..draft import Span
from ..later import later
from ..materials import Gauge, Quantity
from ..trade.tables import Stitch

_HEADING = later(r"(?i)\b(?:gauge|tension)\b(?!\s+(?:swatch\s+is|of the yarn))")
_LOOSE = later(
    r"(?i)\bnot\s+(?:\w+\s+)?(?:critical|important|crucial|essential|vital)|n't\s+(?:\w+\s+)?(?:critical|important|crucial|matter)"
    r"|\bdoes\s+not\s+matter|\bunimportant|\bnone\s+needed|\bvaries\b|\bn/?a\b"
)
_ROWS = later(
    r"(?i)(\d+(?:\.\d+)?(?:\s?[\u00bd\u00bc\u00be]|\s1/2)?)\s*(?:of\s+)?[a-z.' ]{0,8}?\b(?:rows?|rnds?|rounds?|r)\b"
)
_FIRST_ROWS = later(r"(?i)\b(?:first|rnds?|rounds?|rows?)\s+\d+\s*(?:-|to|rounds?|rnds?|rows?)")
_NUMBER = r"(\d+(?:\.\d+)?(?:\s?[\u00bd\u00bc\u00be]|[ -]1/2)?)"
_AN_INCH = later(r"(?i)\b(?:to\s+|per\s+|=\s*)?(?:an|the|one|per|l)\s+(?:inch|in)\b")
_HALF = {"\u00bd": 0.5, "\u00bc": 0.25, "\u00be": 0.75}
_ENDS = later(r"\n[ \t]*\n|\n[^\n:]{0,40}:")
_LONGEST = 260


def gauges(
    text: str, areas: Sequence[Span], found: Sequence[Quantity], stitches: Mapping[str, Stitch]
) -> Iterator[Gauge]:
    """Find the gauges; `stitches` are the spellings of stitches in the draft's terms."""
    past = -1
    for area in areas:
        for heading in _HEADING.finditer(text, area.start, area.end):
            if heading.start() < past:
                continue
            end = _end(text, heading.end(), found)
            past = end
            small = text[heading.start() : end].lower()
            counted = _counted(tuple(word for word in stitches if len(word) <= 24 and word in small))
            yield _gauge(text, heading.start(), end, found, counted, stitches)


@lru_cache(maxsize=256)
def _counted(stitches: tuple[str, ...]) -> re.Pattern[str]:
    """Return what finds a number of stitches; `stitches` are the spellings that stand in the words looked at."""
    named = "".join(f"(?:{re.escape(word)})(?!\\w)|" for word in sorted(stitches, key=len, reverse=True))
    return re.compile(
        rf"(?i){_NUMBER}\s*(?P<what>(?:sts?|stitches)\b|{named}[vx]-?sts\b|mesh(?:es)?\b|pattern repeats?\b)"
    )


def _end(text: str, start: int, found: Sequence[Quantity]) -> int:
    """Return where a gauge ends: with its line, or a few lines on where that line has no length."""
    stop = min(len(text), start + _LONGEST)
    line = text.find("\n", start + 2, stop)
    if line < 0 or any(start <= one.span.start < line for one in found) or _AN_INCH.search(text, start, line):
        return stop if line < 0 else line
    if _LOOSE.search(text, start, line):
        return line
    return ending.start() if (ending := _ENDS.search(text, start + 2, stop)) else stop


def _gauge(
    text: str, start: int, end: int, found: Sequence[Quantity], counted: re.Pattern[str], stitches: Mapping[str, Stitch]
) -> Gauge:
    lengths = [one for one in found if start <= one.span.start < end and one.unit in ("in", "cm")]
    stitch = counted.search(text, start, end)
    rows = _ROWS.search(text, start, end)
    inch = _AN_INCH.search(text, start, end)
    motif = bool(_FIRST_ROWS.search(text, start, end))
    if stitch is None and rows is None:
        return Gauge(Span(start, end), loose=bool(_LOOSE.search(text, start, end)), motif=motif)
    over = [1.0, 1.0] if inch and not lengths else [_length(lengths, match) for match in (stitch, rows)]
    what = stitch["what"].lower() if stitch else ""
    return Gauge(
        Span(start, end),
        stitches=_value(stitch[1]) if stitch else None,
        width=over[0] if stitch else None,
        rows=_value(rows[1]) if rows and not motif else None,
        height=over[1] if rows and not motif else None,
        stitch=stitches[what].id if what in stitches else _named_after(text, stitch, end, stitches),
        unit=lengths[0].unit if lengths else "in",
        loose=bool(_LOOSE.search(text, start, end)),
        motif=motif,
    )


def _named_after(text: str, stitch: re.Match[str] | None, end: int, stitches: Mapping[str, Stitch]) -> str | None:
    """Return the stitch named behind `in`: `14 sts and 12 rows to 4 in in hdc`."""
    if stitch is None:
        return None
    for match in re.finditer(r"(?i)\b(?:in|of|over|using)\s+([a-z]+(?: [a-z]+){0,2})", text[stitch.end() : end]):
        words = match[1].lower().split()
        for length in range(len(words), 0, -1):
            if (named := " ".join(words[:length])) in stitches:
                return stitches[named].id
    return None


def _length(lengths: Sequence[Quantity], match: re.Match[str] | None) -> float | None:
    """Return the length that a number of stitches or rows belongs to, in inches: the next behind it, or the one before."""
    if match is None or not lengths:
        return None
    behind = [one for one in lengths if one.span.start >= match.end()]
    one = behind[0] if behind else lengths[-1]
    if len(set(one.values)) > 1:
        return None
    return one.values[0] / (2.5 if one.unit == "cm" else 1.0)


def _value(words: str) -> float:
    words = words.replace("-1/2", ".5").replace(" 1/2", ".5").strip()
    part = sum(_HALF.get(sign, 0.0) for sign in words)
    return part + float("".join(sign for sign in words if sign not in _HALF).strip() or 0)
