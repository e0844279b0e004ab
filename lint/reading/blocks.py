"""Blocks: every stretch of a draft is a round with its heading and body, a title, a plain line, or a gap.

Broken lines are joined and glued headings parted, by evidence from the whole draft: how wide its lines run, how its
other rounds begin, whether a line has come to an end.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import Enum

from ..draft import Draft, Span
from ..later import later
from .headings import Heading
from .numerals import numerals
from .starts import (
    AGAIN,
    COMPLETE,
    PART,
    PART_NAME,
    STITCHY,
    Line,
    is_count,
    is_title,
    lines_of,
    may_be_name,
    real_headings,
    speaks_on,
)


class Kind(Enum):
    """What a block is."""

    ROUND = "round"
    TITLE = "title"
    LINE = "line"


@dataclass(frozen=True, slots=True)
class Block:
    """A stretch of the draft. `span` is its words; for a round `body` is what follows the heading."""

    kind: Kind
    span: Span
    heading: Heading | None = None
    body: Span | None = None
    after_gap: bool = False
    leads: bool = False  # words on the same line right before a heading


_ENDED = later(r"[.:!?)\]}\"|*]\s*$")


_FOOTNOTE = later(r"\*+\s*[^\w\s(\[*]*\s*[A-Z][a-z]+\s+(?!in\b|\d)|\*+\s*(?:NOTE|Note)")


_SIZES_ONLY = later(r"(?i)\bonly\s*[:.]?\s*$|^\W*all\s+sizes\b.{0,12}$")


_SIZE_LINE = later(r"(?i)(?:for\s+)?(?:the\s+)?sizes?\s+[\w/,& ]{1,30}\s*:")


_SENT_ON = later(
    r"(?:for\s+)?[\w/,&' -]{1,40}:\s*(?:now\s+)?(?:stop|skip|go|move|proceed|jump)\b[^.\n]*\b(?:to|with)\b",
    re.IGNORECASE,
)


_FROM_STAR = later(r"rep(?:eat)?\.?\s+(?:from|between)\s+(?:the\s+)?\*", re.IGNORECASE)


_STARRED = later(r"\*+\s*[a-z][^*\n]*\b(?:go|stop|skip|continue|proceed|move|end)\b[^*\n]*\*+\s*$", re.IGNORECASE)


_GOES_ON = later(r"[a-z\d(\[{*,;=&+-]")


def _wide(lines: list[Line]) -> int:
    """Return the width from which a line is taken to run on into the next, 10,000 where lines aren't broken."""
    widths = sorted(line.width for line in lines if not line.blank)
    if len(widths) < 8:
        return 10_000
    best = 10_000
    for width in widths[-max(4, len(widths) // 5) :]:
        near = bisect_right(widths, width) - bisect_left(widths, width - 12)
        if near >= max(5, len(widths) // 5) and 28 <= width <= 130:
            best = width - 14
    over = len(widths) - bisect_right(widths, best + 20)
    return best if over <= len(widths) // 20 else 10_000


# `Child size only - ` at the end of a round into which the next one's heading is glued
_FOR_SIZES = later(r"(?<=[.)\]}])\s*(?:[A-Z\d][\w', &/-]{0,40}?\bonly|(?:both|all) sizes)\s*[:-]?\s*$", re.IGNORECASE)


# rows of their own behind a row: `... 68 sts. Dec 1 st at each end of every row 4 times - 60 sts.`
_SHAPED_AFTER = later(
    r"(?<=[.)]\s)(?:Dec|Inc)(?:rease)?\s+\d+\s+(?:sts?|sc|hdc|dc|h?tr|stitch(?:es)?)\b[^.]*\b(?:rows?|times)\b.*$",
    re.DOTALL,
)


def _tail(text: str, body: Span, *, glued: bool, rows: bool) -> re.Match[str] | None:
    """Return the end of a round's words that is none of the round: a note on sizes, or `rows` that are shaped after it."""
    sizes = _FOR_SIZES.search(text, body.start, body.end) if glued else None
    return sizes or (_SHAPED_AFTER.search(text, body.start, body.end) if rows else None)


def _round(text: str, heading: Heading, body: Span, tail: re.Match[str] | None, gap: bool) -> Iterator[Block]:
    """Yield a round and, where it has a tail, that as a line of its own."""
    stop = len(text[: tail.start() if tail else body.end].rstrip()) if body.end > body.start else body.end
    body = Span(min(body.start, max(stop, heading.span.end)), max(stop, heading.span.end))
    yield Block(Kind.ROUND, Span(heading.span.start, body.end), heading, body, gap)
    if tail:
        words = Span(tail.start(), len(text[: tail.end()].rstrip()))
        yield Block(Kind.LINE, words, leads=tail.re.pattern == _FOR_SIZES.pattern)


def blocks(draft: Draft, text: str, *, knit: bool = False) -> tuple[Block, ...]:
    """Cut a draft (its cleaned text given) into blocks, in order; `knit` where lines of prose are instructions too."""
    lines = lines_of(draft, text)
    headings = real_headings(numerals(text), lines)
    wide = _wide(lines)
    starts = sorted(headings)
    found: list[Block] = []
    gap = False
    index = 0
    while index < len(lines):
        line = lines[index]
        if line.blank:
            gap = True
            index += 1
            continue
        here = _within(starts, line.span)
        if not here or here[0] > line.start:
            stop = here[0] if here else line.span.end
            kind = _kind_of(text, line, headings[here[0]] if here else None)
            if kind is Kind.LINE and not here and gap and _begins_part(text, lines, index, headings):
                kind = Kind.TITLE
            words = Span(line.start, len(text[:stop].rstrip()))
            if words.end > words.start:
                found.append(Block(kind, words, after_gap=gap, leads=bool(here)))
            if not here:
                if knit and kind is Kind.LINE:
                    stop_line = _last_of_prose(text, lines, index, starts, wide)
                else:
                    stop_line = _last_of_line(text, lines, index, starts)
                if stop_line > index:
                    found[-1] = Block(Kind.LINE, Span(line.start, lines[stop_line].span.end), after_gap=gap)
                gap = False
                index = stop_line + 1
                continue
        end_line = index
        for number, start in enumerate(here):
            heading = headings[start]
            if number + 1 < len(here):
                body = Span(heading.body, max(heading.body, here[number + 1]))
            else:
                end_line = _last_line(text, lines, index, heading, starts, wide)
                body = Span(heading.body, max(heading.body, _body_end(lines[end_line], starts, heading.body)))
            glued = number + 1 < len(here) or body.end in headings
            found.extend(
                _round(text, heading, body, _tail(text, body, glued=glued, rows=heading.flat and not knit), gap)
            )
            gap = False
        if end_line > index:
            later = _within(starts, lines[end_line].span)
            if later:
                lines[end_line] = Line(Span(later[0], lines[end_line].span.end), later[0], lines[end_line].width)
                end_line -= 1
        index = end_line + 1
    return tuple(found)


def _kind_of(text: str, line: Line, heading: Heading | None) -> Kind:
    """Return what a line is, or its words before a heading: a title, or anything else."""
    if heading is None:
        return Kind.TITLE if is_title(text, line) else Kind.LINE
    names = heading.numbers and PART_NAME.fullmatch(text[line.start : heading.span.start].rstrip(" ,"))
    return Kind.TITLE if names else Kind.LINE


_MOST_TALK = 2  # lines between the name of the next of several parts and its first round
_ORDERED = later(r"(?i)(?:first|second|third|1st|2nd|3rd|other|left|right)\b")


def _begins_part(text: str, lines: list[Line], index: int, headings: Mapping[int, Heading]) -> bool:
    """Tell whether a line stands alone as a name and a first round follows: `Second earflap`, `Top of head`."""
    words = text[lines[index].start : lines[index].span.end]
    if not may_be_name(words):
        return False
    most = _MOST_TALK if _ORDERED.match(words) else 0
    near = [line for line in lines[index + 1 : index + 3 + most] if not line.blank][: 1 + most]
    first = next((headings[line.start] for line in near if line.start in headings), None)
    return first is not None and bool(first.numbers) and first.numbers[0][0] == 1


def _last_of_line(text: str, lines: list[Line], index: int, starts: list[int]) -> int:
    """Return the index of the line on which an instruction for whole rounds (`Rep last rnd twice more`) ends."""
    if not AGAIN.match(text[lines[index].start : lines[index].span.end]):
        return max(_last_of_chain(text, lines, index, starts), _last_of_first_row(text, lines, index, starts))
    last = index
    while last + 1 < len(lines):
        line = lines[last + 1]
        words = text[line.span.start : line.span.end]
        whole = text[lines[index].start : lines[last].span.end]
        broken = not COMPLETE.search(whole) or _open(text, lines[index].start, lines[last].span.end)
        goes_on = _counts_on(text, lines, last + 1) or (broken and _GOES_ON.match(words) and not is_title(text, line))
        goes_on = goes_on or speaks_on(text, lines[last], line)
        if line.blank or _within(starts, line.span) or not goes_on:
            return last
        last += 1
    return last


_BEGINS_CHAIN = later(r"(?i)(?:make|work|ch(?:ain)?|with|using)\b[^.:;\n]*(?:\d\.\d[^.:;\n]*)*$")


_MAKES_CHAIN = later(r"(?i)\bch(?:ain)?s?\b[\s.-]*(?:of\s+)?[(\[]?\d|\d[)\]]?\s*ch(?:ain)?s?\b")


def _last_of_chain(text: str, lines: list[Line], index: int, starts: list[int]) -> int:
    """Return the index of the line on which the making of a chain ends, where it is broken: `With hook 4 make` / `72 ch`."""
    begin = lines[index].start
    if not _BEGINS_CHAIN.match(text, begin, lines[index].span.end):
        return index
    for last in range(index + 1, min(index + 4, len(lines))):
        line = lines[last]
        if line.blank or _within(starts, line.span) or not re.match(r"[a-z\d(\[]", text[line.start : line.span.end]):
            return index
        if _MAKES_CHAIN.search(text, begin, line.span.end):
            return last if not _MAKES_CHAIN.search(text, begin, lines[index].span.end) else index
    return index


_FIRST_ROW = later(r"(?i)\W*ch(?:ain)?\s*\d+\s*[,;.]\s*(?=[^.\n]*\bfrom\s+(?:the\s+)?(?:hook|hk)\b)")


def _last_of_first_row(text: str, lines: list[Line], index: int, starts: list[int]) -> int:
    """Return the index of the line on which a first row ends that goes into its own chain: `Ch 200, dc in 8th ch ...`."""
    if not _FIRST_ROW.match(text, lines[index].start, lines[index].span.end):
        return index
    last = index
    while last + 1 < len(lines) and not lines[last + 1].blank and not _within(starts, lines[last + 1].span):
        ended = COMPLETE.search(text[lines[last].start : lines[last].span.end])
        if ended and not _GOES_ON.match(text[lines[last + 1].start : lines[last + 1].span.end]):
            break
        last += 1
    return last


def _counts_on(text: str, lines: list[Line], index: int) -> bool:
    """Tell whether a line holds a stated count, or begins one that the next line ends."""
    line = lines[index]
    if index + 1 < len(lines) and _open(text, line.span.start, line.span.end):
        return is_count(text[line.span.start : lines[index + 1].span.end])
    return _only_count(text, line)


def _last_of_prose(text: str, lines: list[Line], index: int, starts: list[int], wide: int) -> int:
    """Return the index of the line on which a sentence broken over lines ends."""
    last = index
    while last + 1 < len(lines):
        line = lines[last + 1]
        begins = _within(starts, line.span)
        if line.blank or begins[:1] == [line.start] or (_bulleted(text, line) and not _only_count(text, line)):
            return last
        if _SIZES_ONLY.search(text, line.start, line.span.end) or _SIZE_LINE.match(text, line.start, line.span.end):
            return last
        before, words = text[: lines[last].span.end].rstrip(), text[line.span.start : line.span.end]
        if _only_count(text, line):
            last += 1
            continue
        if before.endswith((".", ":", ";", "*")) and not before.endswith(("sts.", "st.")):
            return last
        runs_on = (
            lines[last].width >= wide
            and not before.endswith(".")
            and not _NEW_LINE.match(words)
            and not _OWN_ROWS.match(words)
            and not (words[:1].isupper() and _COUNTED.search(before))
            and not is_title(text, line)
        )
        if not re.match(r"[a-z\d(\[]", words) and not before.endswith((",", "-")) and not runs_on:
            return last
        last += 1
        if begins:
            return last - 1
    return last


def _within(starts: list[int], span: Span) -> list[int]:
    """Return the places, in order, that stand in a span."""
    return starts[bisect_left(starts, span.start) : bisect_left(starts, span.end)]


def _body_end(line: Line, starts: list[int], after: int) -> int:
    """Return where the body's last line ends: at the next heading glued into it, if there is one."""
    inner = [start for start in _within(starts, line.span) if start > after]
    return inner[0] if inner else line.span.end


def _last_line(text: str, lines: list[Line], index: int, heading: Heading, starts: list[int], wide: int) -> int:
    """Return the index of the line on which a round that begins on line `index` ends."""
    alone = not text[heading.body : lines[index].span.end].strip()
    last = index
    current = index + 1
    while current < len(lines):
        line = lines[current]
        if line.blank:
            follows = current + 1 < len(lines) and _only_count(text, lines[current + 1]) and last == current - 1
            waits = alone and last == index
            if waits or follows or _open(text, heading.body, lines[last].span.end):
                if current - last > 2:
                    return last
                current += 1
                continue
            return last
        begins = _within(starts, line.span)
        if begins and (begins[0] == line.start or _NAMED.fullmatch(text, line.start, begins[0])):
            return last
        if not _continues(text, lines, last, current, heading, wide, alone=alone):
            return last
        last = current
        if begins:
            return last
        current += 1
    return last


_NAMED = later(r"[A-Z\d][\w', &/+]{0,40}:\s*")  # `Teen & Adult: R6: ..`


def _only_count(text: str, line: Line) -> bool:
    return is_count(text[line.span.start : line.span.end].lstrip("-\u2013= "))


def _open(text: str, start: int, end: int) -> bool:
    """Tell whether a bracket is still open at the end of a stretch."""
    words = text[start:end]
    return any(words.count(a) > words.count(b) for a, b in ("()", "[]", "{}")) and not re.search(r"\)\s*\)", words)


def _continues(
    text: str, lines: list[Line], last: int, current: int, heading: Heading, wide: int, *, alone: bool
) -> bool:
    """Tell whether the line `current` goes on with the round whose last line so far is `last`."""
    before = text[lines[last].span.start : lines[last].span.end]
    words = text[lines[current].span.start : lines[current].span.end]
    empty = not text[heading.body : lines[last].span.end].strip()
    if empty or _only_count(text, lines[current]) or speaks_on(text, lines[last], lines[current]):
        return True
    stop = before.rstrip()[-1:]
    if AGAIN.match(words) and (stop != "," or _NUMBERED.match(words)):
        return False
    ended = lines[last].width < wide or _COUNTED.search(before)
    if (stop == "." or _COUNTED.search(before)) and _OWN_ROWS.match(words):
        return False
    if ended and _NEW_LINE.match(words) and stop not in (",", "(", "[", "-"):
        return False
    if _STARRED.match(words) and stop not in (",", ";"):
        return False
    if _FOOTNOTE.match(words) or _SIZES_ONLY.search(words) or _SIZE_LINE.match(words):
        return False
    if _FROM_STAR.match(words) and "*" in text[heading.body : lines[last].span.end]:
        return True
    if _SENT_ON.match(words):
        return False
    if _open(text, heading.body, lines[last].span.end) and not is_title(text, lines[current]):
        return True
    if alone and not _strong_title(text, lines[current]):
        return not (before.rstrip().endswith(".") and _NAMES_START.match(words))
    if _bulleted(text, lines[current]):
        return False
    complete = bool(COMPLETE.search(before)) or before.endswith("*")
    talk = not STITCHY.search(words) and not re.search(r"\d|\b(?:join|turn|around|end|times)\b", words)
    ended = bool(_ENDED.search(before))
    if complete and talk and (ended or not words[0].islower()):
        return False
    if stop == ";" and not is_title(text, lines[current]):
        return True
    if lines[last].width >= wide and not is_title(text, lines[current]):
        return True
    if not complete:
        return not (
            is_title(text, lines[current]) or (re.match(r"[A-Z][a-z]+,? ", words) and _prose(words))
        ) or before.endswith(",")
    return bool(_GOES_ON.match(words)) and not _prose(words) and not is_title(text, lines[current])


# a sentence of its own, that says what is done next
_NEW_LINE = later(
    r"(?:Work|Knit|Purl|Cont|Continue|End|Bind|Cast|Change|Switch|Transfer|Divide|From|Break|Cut)"
    r"\s+(?!in\s+(?:next|each)\b)[a-z\d]|(?:Dec|Inc)(?:rease)?\s+\d+\s+(?:sts?|sc|hdc|dc|tr|stitch(?:es)?)\b"
)
# rows of their own, shaped or plain: `BO 3 sts at beg of next 2 rows`, `K 6 (7, 8) rows`
_OWN_ROWS = later(
    r"(?:BO|Bind off|Cast off|Inc|Dec|Increase|Decrease)\b[^.\n]{0,40}?\bat\s+(?:each|both|the beg|beg|neck|armhole)"
    r"|(?:K|P|Knit|Purl|Work)\s+(?:\d+\s*)?(?:[(\[/][\d\s,:/-]*[)\]]?\s*)?(?:more\s+)?(?:rows?|rnds?|rounds?)\b"
)


_NAMES_START = later(r"(?i)(?:foundation|base|starting)\s+ch(?:ain)?\b[^.\n]*:\s*$")


_COUNTED = later(r"(?:\bsts?\.?[)\]]*|\d[)\]])\.?\s*$")


_NUMBERED = later(r"(?i)rep(?:eat)?\s+(?:rows?|rnds?|rounds?)\s+\d+\s*(?:-|to|through|and)")


def _bulleted(text: str, line: Line) -> bool:
    """Tell whether a line is an entry of a list."""
    return (
        text[line.span.start] in "-\u2022\u25cf\u25cb\u25a0\u25a1\u2610\u2611\u2713\u2714"
        and line.start > line.span.start + 1
    )


def _strong_title(text: str, line: Line) -> bool:
    """Tell whether a line is surely a title: the name of a part, or capitals throughout."""
    words = text[line.start : line.span.end].strip(" *_#:;")
    letters = [char for char in words if char.isalpha()]
    return is_title(text, line) and (bool(PART.match(words)) or all(char.isupper() for char in letters))


def _prose(words: str) -> bool:
    """Tell whether a line is talk rather than instruction: a capital, and no word of the trade."""
    return bool(re.match(r"[A-Z]", words)) and not STITCHY.search(words)
