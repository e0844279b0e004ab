"""Blocks: every stretch of a draft is a round with its heading and body, a title, a plain line, or a gap.

Broken lines are joined and glued headings parted, by evidence from the whole draft: how wide its lines run, how its
other rounds begin, whether a line has come to an end.
"""

from __future__ import annotations

import itertools
import re
from bisect import bisect_left
from enum import Enum

from ..draft import Draft, Span
from ..record import record
from .headings import BARE_NUMBERS, Form, Heading, bare_heading, heading_at, lead, middle_headings, with_counts
from .numerals import numerals


class Kind(Enum):
    """What a block is."""

    ROUND = "round"
    TITLE = "title"
    LINE = "line"


@record
class Block:
    """A stretch of the draft. `span` is its words; for a round `body` is what follows the heading."""

    kind: Kind
    span: Span
    heading: Heading | None = None
    body: Span | None = None
    after_gap: bool = False
    leads: bool = False  # words on the same line right before a heading


@record
class _Line:
    span: Span  # without lead and trailing blanks
    start: int  # where its words begin
    width: int  # as printed

    @property
    def blank(self) -> bool:
        return self.span.start == self.span.end


_STITCHY = re.compile(
    r"(?i)\b(?:\d*(?:sc|dc|hdc|tr|htr|dtr|inc|dec|ch|st|sts|sl|ss|bpdc|fpdc|sc2tog|invdec|mr)(?:\d*tog|\d*)|(?-i:\d*[XVA])|chains?|single|double|treble|increases?|decreases?|stitch(?:es)?|"
    r"repeats?|rep|bobble|[kp]\d+|knit|purl|k2tog|magic|ring|crochet)\b"
)
_COMPLETE = re.compile(
    r"(?:[.;:!?)\]}\"|]|\s[-=]\s*\d+|\.\s+\d+|\b\d+[\])]*\s*(?:sts?|sc|dc|hdc|tr|htr))\**\s*$", re.IGNORECASE
)
_ENDED = re.compile(r"[.:!?)\]}\"|*]\s*$")
_FOOTNOTE = re.compile(r"\*+\s*[^\w\s(\[*]*\s*[A-Z][a-z]+\s+(?!in\b|\d)|\*+\s*(?:NOTE|Note)")
_SIZES_ONLY = re.compile(r"(?i)\bonly\s*[:.]?\s*$|^\W*all\s+sizes\b.{0,12}$")
_SIZE_LINE = re.compile(r"(?i)(?:for\s+)?(?:the\s+)?sizes?\s+[\w/,& ]{1,30}\s*:")
_SENT_ON = re.compile(
    r"(?:for\s+)?[\w/,&' -]{1,40}:\s*(?:now\s+)?(?:stop|skip|go|move|proceed|jump)\b[^.\n]*\b(?:to|with)\b",
    re.IGNORECASE,
)
_FROM_STAR = re.compile(r"rep(?:eat)?\.?\s+(?:from|between)\s+(?:the\s+)?\*", re.IGNORECASE)
_AGAIN = re.compile(
    r"Work (?:even|as|[\d\[(][^.\n]{0,30}?(?:rnds?|rounds?|rows?) (?:even|without))\b|(?:Keep\s+repeating|Rep(?:eat)?|REP(?:EAT)?)\b(?!\s*(?:from|between|\*|to\s*\*|instr|[(\[{]|around|across|\d+\s*(?:times|x)))"
)
_STARRED = re.compile(r"\*+\s*[a-z][^*\n]*\b(?:go|stop|skip|continue|proceed|move|end)\b[^*\n]*\*+\s*$", re.IGNORECASE)
_GOES_ON = re.compile(r"[a-z\d(\[{*,;=&+-]")
_NOT_TITLE = re.compile(
    r"(?i)^(?:rep(?:eat)?|fasten|finish|stuff|weave|sew|join|turn|work|cut|leave|with|using|continue|cont|change|switch|note|and|then|ch|chain|make|place|begin|"
    r"start|repeats?|next|knit|cast|bind|do not|gauge|hook|yarn|size|sizes?|us|uk|rs|ws|st|sts)\b"
)
_PART = re.compile(
    r"(?i)^(?:(?:left|right|upper|lower|small|medium|large|first|second|1st|2nd|main|top|bottom|front|back|outer|inner|side)\s+)*(?:head|body|arms?|legs?|ears?|tail|"
    r"crown|brim|band|base|sole|foot|feet|cuff|thumb|hand|palm|nose|snout|muzzle|wings?|hat|cap|body of hat|sides?|handles?|strap|flap|bottom|top|rim|edging|border|"
    r"neck|sleeves?|yoke|pattern|instructions?|directions?|steps?|beak|horns?|hair|mane|scarf|skirt|spikes?|stem|leaf|leaves|petals?|lid|bag body|toe|heel|gusset|shell|fins?|peak|visor|"
    r"ribbing|part \d+|piece \d+|motif|mitt(?:en)?s?|cowl|basket|ball|sphere|coaster)\b[^.,;]{0,30}[:;]?$"
)


def _lines(draft: Draft, text: str) -> list[_Line]:
    lines: list[_Line] = []
    for index in range(len(draft.starts)):
        span = draft.line_span(index)
        words = text[span.start : span.end]
        start = span.start + len(words) - len(words.lstrip())
        end = span.start + len(words.rstrip())
        begins = lead(text, start, end) if end > start else start
        rule = begins >= end
        stripped = Span(start, start) if rule else Span(start, max(start, end))
        lines.append(_Line(stripped, begins, end - span.start))
    return lines


_GLOSS = re.compile(r"\s*\([^()]*\)\s*$")


_CHAINS = re.compile(r"(?i)\bch(?:ain)?[\s-]*\d|\d\s*ch\b")


def _is_title(text: str, line: _Line) -> bool:
    words = text[line.start : line.span.end].strip(" *_#:;")
    words = _GLOSS.sub("", words)
    if not words or len(words) > 60 or not words[0].isalpha():
        return False
    if "ch" in words.lower() and _CHAINS.search(words):
        return False
    if _PART.match(words) and (words[0].isupper() or not _STITCHY.search(words)):
        return True
    if text[line.span.start : line.span.end].rstrip().endswith((".", ",", ";", "=")) or _NOT_TITLE.match(words):
        return False
    letters = [char for char in words if char.isalpha()]
    if len(letters) > 2 and all(char.isupper() for char in letters) and not re.search(r"\d", words):
        return True
    if _STITCHY.search(words):
        return False
    if text[line.span.end - 1] == ":" and len(words.split()) <= 7:
        return True
    capital = [word for word in words.split() if word[0].isupper() or not word[0].isalpha()]
    return len(words.split()) <= 5 and len(capital) == len(words.split())


def _wide(lines: list[_Line]) -> int:
    """Return the width from which a line is taken to run on into the next, 10,000 where lines aren't broken."""
    widths = sorted(line.width for line in lines if not line.blank)
    if len(widths) < 8:
        return 10_000
    best = 10_000
    for width in widths[-max(4, len(widths) // 5) :]:
        near = sum(width - 12 <= other <= width for other in widths)
        if near >= max(5, len(widths) // 5) and 28 <= width <= 130:
            best = width - 14
    over = sum(width > best + 20 for width in widths)
    return best if over <= len(widths) // 20 else 10_000


def _bare_numbers(text: str, lines: list[_Line], found: dict[int, Heading]) -> dict[int, Heading]:
    """Find bare numbers that serve as headings, where the draft has no others: they must count up."""
    worded = [h for h in found.values() if h.form in (Form.WORD, Form.ORDINAL) and h.sure]
    if len(worded) >= 3:
        return {}
    starts: dict[int, Heading] = {}
    before: _Line | None = None
    for number, line in enumerate(lines):
        broken = (
            before is not None
            and not before.blank
            and not _COMPLETE.search(text[before.span.start : before.span.end])
            and not _AGAIN.match(text[before.span.start : before.span.end])
            and not _is_title(text, before)
        )
        before = line
        alone = text[line.span.start : line.span.end].strip().isdigit()
        if line.blank:
            continue
        heading = bare_heading(text, line.start, line.span.end)
        if heading is None or (broken and starts and not alone and not _comes_next(heading, starts)):
            continue
        below = (
            lines[number + 1].span.end if number + 1 < len(lines) and heading.body >= line.span.end else line.span.end
        )
        if _STITCHY.search(text, heading.body, below) or _PLAIN.match(text, heading.body, below):
            starts[line.start] = heading
    if not starts:
        return {}
    numbers = [h.numbers[0] for h in starts.values()]
    climbing = sum(
        0 <= b.numbers[0][0] - a.numbers[0][1] <= (MOST_REPEATED if _repeats_between(text, a, b) else 2)
        for a, b in itertools.pairwise(starts.values())
    )
    glued = _glued_numbers(text, next(iter(starts)), starts)
    # one or two are enough where they are the first and nothing else in the draft is a heading
    first = numbers[0][0] == 1 and climbing == len(numbers) - 1 and not worded
    if climbing + len(glued) >= 2 or (first and (climbing or _begins(text, next(iter(starts.values()))))):
        return starts | glued
    return {}


_FIRST_STITCHES = re.compile(r"(?i)\b(?:ring|circle|loop|mr|(?:from|of) (?:the )?hook|each ch(?:ain)?)\b")


def _begins(text: str, heading: Heading) -> bool:
    """Tell whether the first stitches of a piece are worked in the line of a bare number."""
    return bool(_FIRST_STITCHES.search(text[heading.body :].split("\n", 1)[0]))


_PLAIN = re.compile(
    r"(?i)work\b[^.\n]*\b(?:even|without shaping|rounds?|rnds?|rows?)\b|(?:same\s+)?as\s+(?:rounds?|rnds?|rows?)\b"
)


MOST_REPEATED = 99  # rounds that a line without a number may stand for


def _repeats_between(text: str, before: Heading, after: Heading) -> bool:
    """Tell whether a line without a number (`Rep last rnd 5 times more`) stands for rounds between two headings."""
    lines = text[before.body : after.span.start].split("\n")[1:]
    return any(_AGAIN.match(line.strip()) for line in lines)


def _comes_next(heading: Heading, before: dict[int, Heading]) -> bool:
    """Tell whether a bare number is the one after the last that was found."""
    return heading.numbers[0][0] == next(reversed(before.values())).numbers[0][1] + 1


def _glued_numbers(text: str, first: int, starts: dict[int, Heading]) -> dict[int, Heading]:
    """Find bare numbers glued into running text: each the next one, after the end of a sentence or bracket."""
    glued: dict[int, Heading] = {}
    last = 0
    for match in re.finditer(rf"(?<!\d){BARE_NUMBERS}(?=[.)](?!\d))", text[first:]):
        at = first + match.start()
        heading = starts.get(at) or bare_heading(text, at, len(text))
        if heading is None:
            continue
        low, high = heading.numbers[0]
        before = text[max(0, at - 3) : at].rstrip(" ")
        if at in starts:
            last = high
        elif last and low in (last + 1, last) and before.endswith((".", ")", "]", ";", "\n")) and high >= last:
            if (low == last and low == high) or (re.search(r"\d\.$", text[max(0, at - 2) : at]) and low != last + 1):
                continue
            glued[at] = heading
            last = high
    return glued


def _headings(text: str, lines: list[_Line]) -> dict[int, Heading]:
    """Find every heading of the draft, by where it starts."""
    found: dict[int, Heading] = {}
    for number, line in enumerate(lines):
        if line.blank:
            continue
        heading = heading_at(text, line.start, line.span.end)
        if heading and _is_real(text, heading, line) and not _named_before(text, lines, number, heading):
            found[heading.span.start] = heading
        end = line.span.end
        if text[end - 1] in _CUT_ENDS and number + 1 < len(lines) and _CUT.search(text, line.start, end):
            end = lines[number + 1].span.end  # `... join. Rnd` at the end of a line, `3:` on the next
        for inner in middle_headings(text, heading.body if heading else line.start, end):
            found.setdefault(inner.span.start, inner)
    return with_counts(found | _bare_numbers(text, lines, found))


_NAMES_ROUNDS = re.compile(
    r"(?i)\b(?:rep(?:eat)?|(?:same\s+)?as|like|work|next|foll(?:owing)?|alt(?:ernate)?|(?:even\s+)?for)\b\s*(?:-?[\d(\[][\d\s,/:()\[\]-]*|-\s*[(\[][\d\s,/:-]*[)\]]\s*)?$"
)


def _named_before(text: str, lines: list[_Line], number: int, heading: Heading) -> bool:
    """Tell whether the line before ends in words that speak of the rounds named here: `Repeat` / `Rnd 3.`."""
    if not number or lines[number - 1].blank:
        return False
    if ":" in text[heading.span.end : heading.body] and not _is_count(text[heading.body : lines[number].span.end]):
        return False
    return _speaks_on(text, lines[number - 1], lines[number])


def _speaks_on(text: str, before: _Line, line: _Line) -> bool:
    """Tell whether a line ends in words that want the name of a round, and the next begins with one."""
    said = _NAMES_ROUNDS.search(text, before.start, before.span.end)
    begins = _ROUNDS.match(text, line.start, line.span.end)
    return said is not None and begins is not None and (bool(begins["many"]) or not said[0].strip()[-1].isdigit())


_ROUNDS = re.compile(r"(?P<many>(?:rnds|rounds|rows)\b(?!\.?\s*\d))|(?:rnds?|rounds?|rows?|r)(?![a-z])", re.IGNORECASE)
_CUT_ENDS = frozenset("dDsSwW.")
_CUT = re.compile(r"(?i)[.)\]]\s*(?:rounds?|rnds?|rows?)\.?$")
_DIRECTIVE = re.compile(
    r"(?i)\s*(?:\(|\[|\*|rep|as\b|same|work|k\b|p\b|knit|purl|ch|chain|sc|dc|hdc|tr|\d|[A-Z]|in\b|inc|dec|using|with|join|sl|\{|st\b|sk)"
)


def _is_real(text: str, heading: Heading, line: _Line) -> bool:
    """Tell whether a heading without a colon or dash is one: what follows must look like an instruction."""
    rest = text[heading.body : line.span.end]
    if heading.form is Form.NAMED:
        usual = (heading.prefix or "").lower().startswith(("next", "last", "inc", "dec", "foundation"))
        return heading.alternate or usual or not rest.strip() or bool(_STITCHY.search(rest))
    if heading.sure or not rest.strip():
        return not (heading.sure and "=" in rest[:12] and re.search(r"\d\s*(?:\"|in\b|inch|cm)", rest[:30]))
    return bool(_DIRECTIVE.match(rest)) and bool(_STITCHY.search(rest))


# `Child size only - ` at the end of a round into which the next one's heading is glued
_FOR_SIZES = re.compile(
    r"(?<=[.)\]}])\s*(?:[A-Z\d][\w', &/-]{0,40}?\bonly|(?:both|all) sizes)\s*[:-]?\s*$", re.IGNORECASE
)


def blocks(draft: Draft, text: str, *, knit: bool = False) -> tuple[Block, ...]:
    """Cut a draft (its cleaned text given) into blocks, in order; `knit` where lines of prose are instructions too."""
    lines = _lines(draft, text)
    headings = _headings(numerals(text), lines)
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
            kind = Kind.TITLE if not here and _is_title(text, line) else Kind.LINE
            words = Span(line.start, len(text[:stop].rstrip()))
            if words.end > words.start:
                found.append(Block(kind, words, after_gap=gap, leads=bool(here)))
            if not here:
                prose = knit and kind is Kind.LINE
                stop_line = (
                    _last_of_prose(text, lines, index, starts, wide)
                    if prose
                    else _last_of_line(text, lines, index, starts)
                )
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
            tail = _FOR_SIZES.search(text, body.start, body.end) if glued else None
            stop = len(text[: tail.start() if tail else body.end].rstrip()) if body.end > body.start else body.end
            body = Span(min(body.start, max(stop, heading.span.end)), max(stop, heading.span.end))
            found.append(Block(Kind.ROUND, Span(heading.span.start, body.end), heading, body, gap))
            if tail:
                found.append(Block(Kind.LINE, Span(tail.start(), len(text[: tail.end()].rstrip())), leads=True))
            gap = False
        if end_line > index:
            later = _within(starts, lines[end_line].span)
            if later:
                lines[end_line] = _Line(Span(later[0], lines[end_line].span.end), later[0], lines[end_line].width)
                end_line -= 1
        index = end_line + 1
    return tuple(found)


def _last_of_line(text: str, lines: list[_Line], index: int, starts: list[int]) -> int:
    """Return the index of the line on which an instruction for whole rounds (`Rep last rnd twice more`) ends."""
    if not _AGAIN.match(text[lines[index].start : lines[index].span.end]):
        return index
    last = index
    while last + 1 < len(lines):
        line = lines[last + 1]
        words = text[line.span.start : line.span.end]
        whole = text[lines[index].start : lines[last].span.end]
        broken = not _COMPLETE.search(whole) or _open(text, lines[index].start, lines[last].span.end)
        goes_on = _counts_on(text, lines, last + 1) or (broken and _GOES_ON.match(words) and not _is_title(text, line))
        goes_on = goes_on or _speaks_on(text, lines[last], line)
        if line.blank or _within(starts, line.span) or not goes_on:
            return last
        last += 1
    return last


def _counts_on(text: str, lines: list[_Line], index: int) -> bool:
    """Tell whether a line holds a stated count, or begins one that the next line ends."""
    line = lines[index]
    if index + 1 < len(lines) and _open(text, line.span.start, line.span.end):
        return _is_count(text[line.span.start : lines[index + 1].span.end])
    return _only_count(text, line)


def _last_of_prose(text: str, lines: list[_Line], index: int, starts: list[int], wide: int) -> int:
    """Return the index of the line on which a sentence broken over lines ends."""
    last = index
    while last + 1 < len(lines):
        line = lines[last + 1]
        begins = _within(starts, line.span)
        if line.blank or _bulleted(text, line) or begins[:1] == [line.start]:
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
            and not _is_title(text, line)
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


def _body_end(line: _Line, starts: list[int], after: int) -> int:
    """Return where the body's last line ends: at the next heading glued into it, if there is one."""
    inner = [start for start in _within(starts, line.span) if start > after]
    return inner[0] if inner else line.span.end


def _last_line(text: str, lines: list[_Line], index: int, heading: Heading, starts: list[int], wide: int) -> int:
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
        if begins and begins[0] == line.start:
            return last
        if not _continues(text, lines, last, current, heading, wide, alone=alone):
            return last
        last = current
        if begins:
            return last
        current += 1
    return last


def _only_count(text: str, line: _Line) -> bool:
    return _is_count(text[line.span.start : line.span.end])


def _is_count(words: str) -> bool:
    """Tell whether words are but a stated count: `(24 sts)`, `= 36 dc.`, `(24 sts and 12 ch-1 sps)`."""
    return len(words) <= LONGEST_COUNT and bool(_COUNT.fullmatch(words))


LONGEST_COUNT = 200  # characters


_FIGURES = r"\d[\d\s,/:()\[\]-]*"
_UNIT = (
    r"(?:sts?|sc|dc|hdc|tr|htr|dtr|stitch(?:es)?|(?:half\s+)?(?:single|double|treble)\s+crochets?|trebles?|doubles?)"
)
_SPACES = rf"\s*(?:,|and|&|\+)?\s*{_FIGURES}(?:ch(?:ain)?s?\b[\s-]*\d*[\s-]*)?(?:sp|space)s?"
_COUNT = re.compile(
    rf"[-=:\u2013\s]*[(\[{{]?\s*[(\[{{]?\s*{_FIGURES}{_UNIT}?(?:{_SPACES})?\.?\s*[)\]}}]?\.?", re.IGNORECASE
)


def _open(text: str, start: int, end: int) -> bool:
    """Tell whether a bracket is still open at the end of a stretch."""
    words = text[start:end]
    return any(words.count(a) > words.count(b) for a, b in ("()", "[]", "{}")) and not re.search(r"\)\s*\)", words)


def _continues(
    text: str, lines: list[_Line], last: int, current: int, heading: Heading, wide: int, *, alone: bool
) -> bool:
    """Tell whether the line `current` goes on with the round whose last line so far is `last`."""
    before = text[lines[last].span.start : lines[last].span.end]
    words = text[lines[current].span.start : lines[current].span.end]
    empty = not text[heading.body : lines[last].span.end].strip()
    if empty or _only_count(text, lines[current]) or _speaks_on(text, lines[last], lines[current]):
        return True
    stop = before.rstrip()[-1:]
    if _AGAIN.match(words) and (stop != "," or _NUMBERED.match(words)):
        return False
    ended = lines[last].width < wide or _COUNTED.search(before)
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
    if _open(text, heading.body, lines[last].span.end) and not _is_title(text, lines[current]):
        return True
    if alone and not _strong_title(text, lines[current]):
        return True
    if _bulleted(text, lines[current]):
        return False
    complete = bool(_COMPLETE.search(before)) or before.endswith("*")
    talk = not _STITCHY.search(words) and not re.search(r"\d|\b(?:join|turn|around|end|times)\b", words)
    ended = bool(_ENDED.search(before))
    if complete and talk and (ended or not words[0].islower()):
        return False
    if lines[last].width >= wide and not _is_title(text, lines[current]):
        return True
    if not complete:
        return not (
            _is_title(text, lines[current]) or (re.match(r"[A-Z][a-z]+,? ", words) and _prose(words))
        ) or before.endswith(",")
    return bool(_GOES_ON.match(words)) and not _prose(words) and not _is_title(text, lines[current])


# a sentence of its own, that says what is done next
_NEW_LINE = re.compile(
    r"(?:Work|Knit|Purl|Cont|Continue|End|Bind|Cast|Change|Switch|Transfer|Divide|From|Break|Cut)\s+(?!in\s+(?:next|each)\b)[a-z\d]"
)
_COUNTED = re.compile(r"(?:\bsts?\.?[)\]]*|\d[)\]])\.?\s*$")
_NUMBERED = re.compile(r"(?i)rep(?:eat)?\s+(?:rows?|rnds?|rounds?)\s+\d+\s*(?:-|to|through|and)")


def _bulleted(text: str, line: _Line) -> bool:
    """Tell whether a line is an entry of a list."""
    return text[line.span.start] in "-\u2022" and line.start > line.span.start + 1


def _strong_title(text: str, line: _Line) -> bool:
    """Tell whether a line is surely a title: the name of a part, or capitals throughout."""
    words = text[line.start : line.span.end].strip(" *_#:;")
    letters = [char for char in words if char.isalpha()]
    return _is_title(text, line) and (bool(_PART.match(words)) or all(char.isupper() for char in letters))


def _prose(words: str) -> bool:
    """Tell whether a line is talk rather than instruction: a capital, and no word of the trade."""
    return bool(re.match(r"[A-Z]", words)) and not _STITCHY.search(words)
