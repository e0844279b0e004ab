"""Figures of one size: lists of figures in prose, with halves and units, and the numbers in headings."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..draft import Span
from ..figures import FigureList, ListStyle
from ..later import later
from ..pattern import Round
from .edits import Edit

_UNIT = r"(?:\s?(?:\"|”|″|in(?:ch(?:es)?)?\b\.?|cm\b|mm\b|m\b|yds?\b|yards?\b|g\b|oz\b|sts?\b))"
_PARTS = "¼½¾⅓⅔⅛⅜⅝⅞"
_ONE = rf"(?:\d+(?:\.\d+)?(?:[ -]\d/(?:2|3|4|8|16)(?![\d/-]))?[{_PARTS}]?|[{_PARTS}])"
_FIGURE = later(rf"(?<![\w.])(?P<one>{_ONE}){_UNIT}?|(?<=[(\[{{,/:\s])(?:--?|–|—)(?=\s?[)\]}},/:({{\[])")
_RANGE = later(rf"(?<![\w.]){_ONE}\s?[-–]\s?{_ONE}{_UNIT}?|{_FIGURE.pattern}")
_GAP = later(r"\s*[,;:/()\[\]{}\-–]+[\s,;:/()\[\]{}]*")
_PAIRS = {")": "(", "]": "[", "}": "{"}
_NOTHING = later(r"--?|–|—")
_APART = later(r"[()\[\]{}:;]| - ")


@dataclass(frozen=True, slots=True)
class _Run:
    """Figures that follow each other with nothing but separators and brackets between."""

    span: Span
    figures: tuple[re.Match[str], ...]


def prose_figures(text: str, span: Span, sizes: int, size: int) -> Iterator[Edit]:
    """Find the lists of one figure a size in a stretch of prose: `46 (51.5, 57) cm`, `(7/8/8¾ in)`, `35/42 m`."""
    for pattern in (_FIGURE, _RANGE):
        for run in _runs(text, span, pattern):
            for found in _lists(text, run, sizes):
                yield Edit(found.span, _chosen(found, size))


_WAY = r"inc(?:rease)?|dec(?:rease)?"
# the ways of the sizes, then how many stitches: `inc (0, dec) 1 st`
_WAYS = later(
    rf"(?P<ways>\b(?:{_WAY})\s*(?:\((?P<round>[^()]*)\)|\[(?P<square>[^][]*)\]))(?P<gap>\s*)(?P<number>\d+)(?=\s+sts?\b)",
    re.I,
)
_ONE_WAY = later(rf"(?:{_WAY}|0|none|-)", re.I)


def ways(text: str, sizes: int, size: int) -> Iterator[Edit]:
    """Find where a size increases and another decreases, `inc (0, dec) 1 st`, and leave the way of one size."""
    for found in _WAYS.finditer(text):
        others = re.split(r"\s*[,;/]\s*", (found["round"] or found["square"] or "").strip())
        first = re.match(r"\w+", found["ways"])
        if first is None or 1 + len(others) != sizes or not all(map(_ONE_WAY.fullmatch, others)):
            continue
        own = (first[0], *others)[size]
        if own[0].isalpha() and own.lower() != "none":
            yield Edit(Span(found.start(), found.end("ways")), own)
        else:
            yield Edit(Span(found.start(), found.end()), f"{first[0]}{found['gap']}0")


def _runs(text: str, span: Span, pattern: re.Pattern[str]) -> Iterator[_Run]:
    group: list[re.Match[str]] = []
    for figure in pattern.finditer(text, span.start, span.end):
        if group and not _GAP.fullmatch(text, group[-1].end(), figure.start()):
            yield _Run(Span(group[0].start(), group[-1].end()), tuple(group))
            group = []
        group.append(figure)
    if group:
        yield _Run(Span(group[0].start(), group[-1].end()), tuple(group))


def _lists(text: str, run: _Run, sizes: int) -> Iterator[_Run]:
    """Give the full lists in a run, each set off from the figures beside it: `weight 3: (110, 130, 155) m`."""
    at = 0
    while at + sizes <= len(run.figures):
        some = run.figures[at : at + sizes]
        before = text[run.figures[at - 1].end() : some[0].start()] if at else "("
        after = text[some[-1].end() : run.figures[at + sizes].start()] if at + sizes < len(run.figures) else "("
        apart = _APART.search(before) and _APART.search(after)
        if apart and _alike(some) and (part := _whole(text, some)):
            yield part
            at += sizes
        else:
            at += 1


def _alike(figures: Sequence[re.Match[str]]) -> bool:
    """Tell whether figures measure the same: `2 1/2 inches, 9 sts` are not for two sizes."""
    units = {figure[0][len(figure["one"]) :].strip(" .").lower() for figure in figures if figure["one"] is not None}
    return len(units - {""}) < 2


def _whole(text: str, figures: Sequence[re.Match[str]]) -> _Run | None:
    """Return the list that some figures make, with its brackets; None where they are no list."""
    start, end = figures[0].start(), figures[-1].end()
    inner = text[start:end]
    left = _open_brackets(inner)
    if left is None:
        return None
    if left:
        closing = text[end : end + 2].lstrip()[:1]
        if len(left) > 1 or _PAIRS.get(closing) != left[0]:
            return None
        end = text.index(closing, end) + 1
    elif start and _PAIRS.get(text[end : end + 1]) == text[start - 1]:
        if "/" not in inner and not _has_unit(figures[-1]):
            start, end = start - 1, end + 1
    elif not _stands_alone(inner, len(figures)):
        return None
    return _Run(Span(start, end), tuple(figures))


def _open_brackets(words: str) -> list[str] | None:
    """Return the brackets left open, None where one is closed that was never opened."""
    left: list[str] = []
    for character in words:
        if character in _PAIRS.values():
            left.append(character)
        elif character in _PAIRS and (not left or left.pop() != _PAIRS[character]):
            return None
    return left


def _stands_alone(words: str, number: int) -> bool:
    """Tell whether figures without a bracket around them are a list: by slashes, by brackets, or three with commas."""
    if re.search(r"[(\[{]", words):
        return True
    if "/" in words:
        return number > 2 or not re.fullmatch(r"\d/[23458]|\d+/16", words)
    return number > 2 and "," in words and not re.search(r"[-–:;]", words)


def _chosen(run: _Run, size: int) -> str:
    """Return the figure of a size as it is written, with the unit where only the last figure has it."""
    own, last = run.figures[size], run.figures[-1]
    words = own[0]
    if _NOTHING.fullmatch(words):
        return "0"
    if own is not last and _has_unit(last) and not any(map(_has_unit, run.figures[:-1])):
        words += last[0][len(last["one"]) :] if last["one"] else ""
    return words


def _has_unit(figure: re.Match[str]) -> bool:
    return figure["one"] is not None and figure[0] != figure["one"]


def list_figure(text: str, found: FigureList, place: int, claim: Span | None) -> Edit:
    """Replace a list of figures in an instruction by one of them.

    Brackets that hold nothing but the list go too, but for those of a count: `claim` is the span of the count whose
    figure the list is.
    """
    value = found.values[place]
    start, end = found.span.start, found.span.end
    bracketed = start > 0 and _PAIRS.get(text[end : end + 1]) == text[start - 1]
    # `(63, 70) sc` has brackets for the list, `around (63, 70)` for the count
    own = claim is None or claim.end > end + 1
    if bracketed and own and found.style in (ListStyle.INSIDE, ListStyle.BARE, ListStyle.SLASH):
        start, end = start - 1, end + 1
    written = re.findall(r"[^\W_]+|--?|–|—", text[start:end])
    words = written[place] if len(written) == len(found.values) and value is not None else None
    # a number in words stays in words, where the list has nothing but its figures
    return Edit(Span(start, end), words if words and not words.isdigit() and words.isalpha() else str(value or 0))


_NUMBER = r"(?P<lead>[Rr])?(?P<digits>\d+)(?P<ordinal>st|nd|rd|th)?"
_PLAIN_NUMBER = r"[Rr]?\d+(?:st|nd|rd|th)?"
_NUMBERS = later(rf"{_PLAIN_NUMBER}(?:(?:\s*(?:\bto\b|-|–|[({{\[/,:])\s*)+{_PLAIN_NUMBER}[)\]}}]?)*", re.IGNORECASE)
_BETWEEN = later(rf"{_PLAIN_NUMBER}(?P<between>\s*(?:-|–|to)\s*)[({{\[]?{_PLAIN_NUMBER}", re.IGNORECASE)


def heading_numbers(text: str, round_: Round, size: int) -> Edit | None:
    """Give a heading the numbers of one size: `Rnds 7-16 (7-18)` becomes `Rnds 7-18`; None where all share them."""
    first, last = round_.first, round_.last
    if first is None or last is None or not (first.is_list or last.is_list):
        return None
    begin, finish = first.at(size), last.at(size)
    if begin is None or finish is None:
        return None
    found = _NUMBERS.search(text, round_.heading.start, round_.heading.end)
    if found is None or not re.search(r"[({\[/,]", found[0]):
        return None
    words = written_as(found[0], begin)
    if finish > begin:
        between = _BETWEEN.search(found[0])
        words += (between["between"] if between else "-") + written_as(found[0], finish)
    # `Row (22, 24, 26)`: the bracket holds nothing but the list
    before = text[found.start() - 1 : found.start()]
    whole = before in _PAIRS.values() and _open_brackets(found[0]) is None and _PAIRS.get(found[0][-1:]) == before
    return Edit(Span(found.start() - whole, found.end()), words)


def written_as(like: str, number: int) -> str:
    """Write a number in the manner of the first one in some words: `R7`, `7th`, `7`."""
    form = re.search(_NUMBER, like)
    if form is None:
        return str(number)
    return (form["lead"] or "") + str(number) + (ordinal_ending(number) if form["ordinal"] else "")


def ordinal_ending(number: int) -> str:
    """Return the letters after a number in order: 1st, 2nd, 3rd, 11th."""
    if number % 100 in (11, 12, 13):
        return "th"
    return {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")


# `and every alternate rnd` after a number; the word for a round belongs to the number as well
_AND_OTHERS = later(r"(?i)\s*(?:\(?and\b|&|,).*?(?:\b(rnds?|rounds?|rows?|r))?[:.)-]?\s*$")
_SINGULAR = later(r"(?i)\b(rnd|round|row)s\b")


def renumbered(heading: str, number: int) -> str | None:
    """Give a heading another number: `Rnds 2-4` becomes `Rnd 7`, `3rd rnd` `4th rnd`; None where it has no number."""
    found = _NUMBERS.search(heading)
    if found is None:
        return None
    before, after = heading[: found.start()], heading[found.end() :]
    if more := _AND_OTHERS.match(after):
        after = "" if re.search(r"[^\W\d_]", before) else f" {more[1]}" if more[1] else ""
    words = before + written_as(found[0], number) + after
    return _SINGULAR.sub(r"\1", words)
