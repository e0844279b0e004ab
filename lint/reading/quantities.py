"""Quantities: numbers, lists and ranges with a unit, one measure in two units, and what a measurement is of."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from ..draft import Span
from ..later import later
from ..materials import Measure, Pairing, Quantity
from ..trade.goods import units

_FRACTIONS = {
    "\u00bc": 0.25,
    "\u00bd": 0.5,
    "\u00be": 0.75,
    "\u2153": 1 / 3,
    "\u2154": 2 / 3,
    "\u215b": 0.125,
    "\u215c": 0.375,
    "\u215d": 0.625,
    "\u215e": 0.875,
}
_PART = "[" + "".join(_FRACTIONS) + "]"
_NUMBER = rf"(?:\d+[ -]\d/\d|\d/\d(?!\d)|\d{{1,4}}(?:,\d{{3}}(?!\d)|[.,]\d{{1,2}}(?!\d)|\.(?=[ \"]))?(?:\s?{_PART})?|\.\d+|{_PART})"
_UNIT = "|".join(sorted((re.escape(word) for word in units()), key=len, reverse=True))
_LIST = rf"{_NUMBER}(?:[ \t]{{0,4}}(?:[)\]][ \t]*[(\[]|[(\[,:/-]|to(?=[ \t]))[ \t]*(?:\n[ \t]*)?{_NUMBER}){{0,16}}(?:\s*[)\]](?!\s*[)\]])(?=\s*(?:{_UNIT})))?"
_OF_LISTS = later(rf"(?i)(?:[\d\s.,()\[\]:/{''.join(_FRACTIONS)}-]|to(?=[ \t]))+")
_THEN_UNIT = later(rf"(?i)(?:{_UNIT})(?![a-z\d])")
_NUMBERS = later(_NUMBER)
QUANTITY = later(rf"(?i)(?<![\w.,])(?<!\d/){_LIST}\s?-?(?:(?P<unit>{_UNIT})(?![a-z\d]))")
_BEGINS = later(rf"[\d.{''.join(_FRACTIONS)}](?<![\w.,].)")  # the sign first, so that a search is quick
_BETWEEN = later(r"[ \t]*\)?[ \t]*(?:[(\[/=,]|or\b|-)[ \t]*(?:approx(?:imately)?\.?|about|or)?[ \t]*")
_TIMES = later(r"\s*(?:x|by|\u00d7)\s*\.?\d|\s*(?:wide|long|tall|high|deep)?\s*(?:x|by|and)\s*\d")
_TIMES_BEFORE = later(r"(?:\bx|\bby|\*)\s*$")
_RANGE = later(r"^\s*[^\s(\[,:/-]+\s*(?:-|to\s)\s*[^\s(\[,:/-]+\s*$")
_IN_WORD = frozenset({"in", "in."})
_AFTER_IN = later(
    r"\s*(?:[)\],.;:/=]|\(|\[|$|\n|x\b|(?:wide|long|tall|high|deep|across|around|in|from|circumference|square|diameter|for|or|and|=|by)\b)"
)


def number_of(words: str) -> float:
    """Return the value of a number as drafts write it: `2 1/2`, `2\u00bd`, `1,200`, `2,5`."""
    words = words.strip().rstrip(".") if not words.strip().startswith(".") else words.strip()
    value = 0.0
    for sign, part in _FRACTIONS.items():
        if sign in words:
            value, words = part, words.replace(sign, "").strip()
    if re.fullmatch(r"\d+,\d{3}", words):
        words = words.replace(",", "")
    words = words.replace(",", ".")
    if fraction := re.fullmatch(r"(?:(\d+)[ -])?(\d)/(\d)", words):
        return int(fraction[1] or 0) + int(fraction[2]) / max(1, int(fraction[3]))
    return value + (float(words) if words else 0.0)


def _end_of_list(text: str, start: int, end: int) -> int:
    """Return where all that numbers and lists of them are made of ends: there alone a unit can stand."""
    signs = _OF_LISTS.match(text, start, end)
    return signs.end() if signs else start


def quantities(text: str, start: int, end: int) -> Iterator[Quantity]:
    """Find the quantities in a stretch of the text."""
    past = barren = start
    for begin in _BEGINS.finditer(text, start, end):
        if begin.start() < max(past, barren):
            continue
        if not _THEN_UNIT.match(text, stop := _end_of_list(text, begin.start(), end), end):
            barren = stop  # no number before that has a unit
            continue
        match = QUANTITY.match(text, begin.start(), end)
        if match is None:
            continue
        past = match.end()
        word = match["unit"].lower()
        if word in _IN_WORD and not _AFTER_IN.match(text, match.end()):
            continue  # `2 sc in next st`
        listed = match[0][: match.start("unit") - match.start()]
        values = tuple(number_of(one[0]) for one in _NUMBERS.finditer(listed))
        yield Quantity(values, units()[word], Span(*match.span()), len(values) == 2 and bool(_RANGE.match(listed)))


def pairings(text: str, found: Sequence[Quantity]) -> Iterator[Pairing]:
    """Find measures that are given in two units: `8 in (20 cm)`, `100 yds/91 m`."""
    for first, second in pairwise(found):
        between = _BETWEEN.fullmatch(text, first.span.end, second.span.start)
        if between is None or len(first.values) != len(second.values) or first.unit == second.unit:
            continue
        if _TIMES.match(text, second.span.end) or _TIMES_BEFORE.search(
            text[max(0, first.span.start - 4) : first.span.start]
        ):
            continue  # `9 x 12 in (23 x 30 cm)`
        yield Pairing(first, second, closed(text, first.span.cover(second.span)))


def closed(text: str, span: Span) -> Span:
    """Return a stretch with the bracket behind it where it opened that and left it open."""
    words = text[span.start : span.end]
    return (
        Span(span.start, span.end + 1)
        if words.count("(") > words.count(")") and text[span.end : span.end + 1] == ")"
        else span
    )


_WHAT = {
    "chest": "chest|bust",
    "head": "head",
    "foot": "foot|feet",
    "hand": "hand|palm",
    "around": r"circumference|around(?!\s+each)|round the",
    "width": "wide|width|across|diameter",
    "length": "long|length|tall|height|high|deep|depth",
}
_WORD = later("|".join(rf"(?P<{what}>\b(?:{words})\b)" for what, words in _WHAT.items()), re.IGNORECASE)
_FOOT = later(r"(?i)\b(?:foot|feet)\b\W*$")
_BODY = later(r"(?i)\b(?:to\s+fit|fits?)\b")
_FINISHED = later(r"(?i)\b(?:finished|actual|measures?|measurements?|dimensions?)\b")
_SENTENCE = later(r"[^;\n]+")
_INCHES = {"in": 1.0, "cm": 1 / 2.54, "mm": 1 / 25.4}
_CHANGE = later(
    r"(?i)\W*(?:cm\W*)?(?:smaller|larger|less|more|shorter|longer|wider|narrower|from|apart|below|above|before|tail)\b"
)
_NEAR = 24  # characters between a measurement and its word


def measures(text: str, start: int, end: int, found: Sequence[Quantity]) -> Iterator[Measure]:
    """Find finished measurements and those to fit in a stretch of the head; each in the first of its units."""
    for line in _SENTENCE.finditer(text, start, end):
        body = bool(_BODY.search(line[0])) and not _FINISHED.search(line[0])
        inside = [one for one in found if line.start() <= one.span.start < line.end() and one.unit in _INCHES]
        pairs = {pair.first.span: pair.second.span for pair in pairings(text, inside)}
        inside = [one for one in inside if one.span not in pairs.values()]
        for one in inside:
            end = pairs.get(one.span, one.span).end
            what = _what(text, Span(line.start(), line.end()), Span(one.span.start, end), inside)
            if what is None or _CHANGE.match(text, end):
                continue
            values = tuple(value * _INCHES[one.unit] for value in one.values)
            yield Measure(what, body, values, one.unit, one.span, one.ranged)


def _what(text: str, line: Span, one: Span, inside: Sequence[Quantity]) -> str | None:
    """Tell what a measurement is of by the nearest word behind it, or else before it, with no other between."""
    after = min((other.span.start for other in inside if other.span.start >= one.end), default=line.end)
    before = max((other.span.end for other in inside if other.span.end <= one.start), default=line.start)
    words = [*_WORD.finditer(text, one.end, min(after, one.end + _NEAR))]
    if words and "," not in text[one.end : words[0].start()]:
        kind = _named(words, body_first=False)
        foot = kind == "length" and _FOOT.search(text, max(before, one.start - _NEAR), one.start)
        return "foot" if foot else kind  # `Foot 9 in long`
    words = [*_WORD.finditer(text, max(before, one.start - 2 * _NEAR), one.start)]
    return _named(words, body_first=True) if words else None


def _named(words: Sequence[re.Match[str]], *, body_first: bool) -> str | None:
    """Choose among the words beside a measurement: `head circumference` is the head, `foot length` the foot."""
    kinds = [word.lastgroup or "" for word in words]
    parts = [kind for kind in kinds if kind in ("chest", "head", "foot", "hand")]
    if parts and body_first:
        return parts[-1]
    return parts[0] if parts else kinds[-1 if body_first else 0]
