"""Starts: the lines of a draft, and which of the headings found by their shape begin a round there."""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass

from ..draft import Draft, Span
from ..later import later
from .by_letter import letter_heading
from .headings import BARE_NUMBERS, Form, Heading, bare_heading, heading_at, lead, middle_headings, with_counts
from .ordinals import bare_ordinals


@dataclass(frozen=True, slots=True)
class Line:
    """A line: its words without blanks around them, where they begin, and how wide it is printed."""

    span: Span  # without lead and trailing blanks
    start: int  # where its words begin
    width: int  # as printed

    @property
    def blank(self) -> bool:
        """Whether it has no words."""
        return self.span.start == self.span.end


STITCHY = later(
    r"(?i)\b(?:\d*(?:sc|dc|hdc|tr|htr|dtr|inc|dec|ch|st|sts|sl|ss|bpdc|fpdc|sc2tog|invdec|mr)(?:\d*tog|\d*)|(?-i:\d*[XVA])|chains?|single|double|treble|increases?|decreases?|stitch(?:es)?|"
    r"repeats?|rep|bobble|[kp]\d+|knit|purl|k2tog|magic|ring|crochet)\b"
)


COMPLETE = later(
    r"(?:[.;:!?)\]}\"|]|\s[-=|]\s*\d+|\.\s+\d+|\b\d+[\])]*\s*(?:sts?|sc|dc|hdc|tr|htr))\**\s*$", re.IGNORECASE
)


AGAIN = later(
    r"Work (?:even|as|[\d\[(][^.\n]{0,30}?(?:rnds?|rounds?|rows?) (?:even|without))\b|(?:Keep\s+repeating|Rep(?:eat)?|REP(?:EAT)?)\b(?!\s*(?:from|between|\*|to\s*\*|instr|[(\[{]|around|across|\d+\s*(?:times|x)))"
)


_NOT_TITLE = later(
    r"(?i)^(?:rep(?:eat)?|fasten|finish|stuff|weave|sew|join|turn|work|cut|leave|with|using|continue|cont|change|switch|note|and|then|ch|chain|make|place|begin|"
    r"start|repeats?|next|knit|cast|bind|do not|gauge|hook|yarn|size|sizes?|us|uk|rs|ws|st|sts)\b"
)


PART = later(
    r"(?i)^(?:(?:left|right|upper|lower|small|medium|large|first|second|1st|2nd|main|top|bottom|front|back|outer|inner|side)\s+)*(?:head|body|arms?|legs?|ears?|tail|"
    r"crown|brim|band|base|sole|foot|feet|cuff|thumb|hand|palm|nose|snout|muzzle|wings?|hat|cap|body of hat|sides?|handles?|strap|flap|bottom|top|rim|edging|border|"
    r"neck|sleeves?|yoke|pattern|instructions?|directions?|steps?|beak|horns?|hair|mane|scarf|skirt|spikes?|stem|leaf|leaves|petals?|lid|bag body|toe|heel|gusset|shell|fins?|peak|visor|"
    r"ribbing|part \d+|piece \d+|motif|mitt(?:en)?s?|cowl|basket|ball|sphere|coaster)\b[^.,;]{0,30}[:;]?$"
)


def lines_of(draft: Draft, text: str) -> list[Line]:
    """Return the lines of a draft in its cleaned text."""
    lines: list[Line] = []
    for index in range(len(draft.starts)):
        span = draft.line_span(index)
        words = text[span.start : span.end]
        start = span.start + len(words) - len(words.lstrip())
        end = span.start + len(words.rstrip())
        begins = lead(text, start, end) if end > start else start
        rule = begins >= end
        stripped = Span(start, start) if rule else Span(start, max(start, end))
        lines.append(Line(stripped, begins, end - span.start))
    return lines


_GLOSS = later(r"\s*\([^()]*\)\s*$")


_CHAINS = later(r"(?i)\bch(?:ain)?[\s-]*\d|\d\s*ch\b")


_NAME_WORDS = later(
    r"(?:(?i:first|second|third|1st|2nd)\b|[A-Z])[A-Za-z'/-]*(?:\s+[A-Za-z'/&-]+){1,3}\s*(?:\([^()]*\))?:?"
)


def may_be_name(words: str) -> bool:
    """Tell whether a line may be the name of a part: two to four words, none of them of an instruction."""
    return bool(_NAME_WORDS.fullmatch(words)) and not _NOT_TITLE.match(words) and not STITCHY.search(words)


def is_title(text: str, line: Line) -> bool:
    """Tell whether a line is the title of a part."""
    words = text[line.start : line.span.end].strip(" *_#:;")
    words = _GLOSS.sub("", words)
    if not words or len(words) > 60 or not words[0].isalpha():
        return False
    if "ch" in words.lower() and _CHAINS.search(words):
        return False
    if PART.match(words) and (words[0].isupper() or not STITCHY.search(words)):
        return True
    if text[line.span.start : line.span.end].rstrip().endswith((".", ",", ";", "=")) or _NOT_TITLE.match(words):
        return False
    letters = [char for char in words if char.isalpha()]
    if len(letters) > 2 and all(char.isupper() for char in letters) and not re.search(r"\d", words):
        return True
    if STITCHY.search(words):
        return False
    if text[line.span.end - 1] == ":" and len(words.split()) <= 7:
        return True
    capital = [word for word in words.split() if word[0].isupper() or not word[0].isalpha()]
    return len(words.split()) <= 5 and len(capital) == len(words.split())


_LEAST_ROUNDS = 3


def _numbered_pieces(text: str, lines: list[Line], found: dict[int, Heading]) -> dict[int, Heading]:
    """Find pieces whose rounds have bare numbers in a draft of other headings: from a ring on, one after the other."""
    pieces: dict[int, Heading] = {}
    run: dict[int, Heading] = {}
    for line in (*(line for line in lines if not line.blank), None):
        heading = bare_heading(text, line.start, line.span.end) if line and line.start not in found else None
        worked = heading is not None and line is not None and bool(STITCHY.search(text, heading.body, line.span.end))
        if heading is not None and line is not None and worked and run and _comes_next(heading, run):
            run[line.start] = heading
        elif run and line is not None and line.start not in found and not is_title(text, line):
            continue  # what is said between two rounds
        else:
            pieces |= run if len(run) >= _LEAST_ROUNDS else {}
            run = {}
        if heading is not None and line is not None and worked and not run and heading.numbers[0] == (1, 1):
            run = {line.start: heading} if _begins(text, heading) else {}
    return pieces


def _bare_numbers(text: str, lines: list[Line], found: dict[int, Heading]) -> dict[int, Heading]:
    """Find bare numbers that serve as headings, where the draft has no others: they must count up."""
    worded = [h for h in found.values() if h.form in (Form.WORD, Form.ORDINAL) and h.sure]
    if len(worded) >= 3:
        return _numbered_pieces(text, lines, found)
    starts: dict[int, Heading] = {}
    before: Line | None = None
    for number, line in enumerate(lines):
        broken = (
            before is not None
            and not before.blank
            and not COMPLETE.search(text[before.span.start : before.span.end])
            and not AGAIN.match(text[before.span.start : before.span.end])
            and not is_title(text, before)
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
        if STITCHY.search(text, heading.body, below) or _PLAIN.match(text, heading.body, below):
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


_FIRST_STITCHES = later(r"(?i)\b(?:ring|circle|loop|mr|(?:from|of) (?:the )?hook|each ch(?:ain)?)\b")


def _begins(text: str, heading: Heading) -> bool:
    """Tell whether the first stitches of a piece are worked in the line of a bare number."""
    return bool(_FIRST_STITCHES.search(text[heading.body :].split("\n", 1)[0]))


_PLAIN = later(
    r"(?i)work\b[^.\n]*\b(?:even|without shaping|rounds?|rnds?|rows?)\b|(?:same\s+)?as\s+(?:rounds?|rnds?|rows?)\b"
)


MOST_REPEATED = 99  # rounds that a line without a number may stand for


def _repeats_between(text: str, before: Heading, after: Heading) -> bool:
    """Tell whether a line without a number (`Rep last rnd 5 times more`) stands for rounds between two headings."""
    lines = text[before.body : after.span.start].split("\n")[1:]
    return any(AGAIN.match(line.strip()) for line in lines)


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


def real_headings(text: str, lines: list[Line]) -> dict[int, Heading]:
    """Find every heading of the draft, by where it starts."""
    found: dict[int, Heading] = {}
    for number, line in enumerate(lines):
        if line.blank:
            continue
        heading = (
            letter_heading(text, line.start, line.span.end)
            or heading_at(text, line.start, line.span.end)
            or _after_name(text, line)
        )
        if heading and _is_real(text, heading, line) and not _named_before(text, lines, number, heading):
            found[heading.span.start] = heading
        end = line.span.end
        if text[end - 1] in _CUT_ENDS and number + 1 < len(lines) and _CUT.search(text, line.start, end):
            end = lines[number + 1].span.end  # `... join. Rnd` at the end of a line, `3:` on the next
        for inner in middle_headings(text, heading.body if heading else line.start, end):
            found.setdefault(inner.span.start, inner)
    found |= bare_ordinals(text, ((line.start, line.span.end) for line in lines), found)
    return with_counts(found | _bare_numbers(text, lines, found))


# `Left front row 1:`, `Right side of neck, row 1 (RS):`; before a comma any name may stand: `Ruffle, next row:`
_SIDES = r"left|right|upper|lower|top|bottom|first|second|centre|center|main|outer|inner"
_PIECES = r"front|back|side|sleeve|neck|shoulder|band|collar|cuff|border|edging|panel|strap|flap|gusset|heel|toe|body|yoke|thumb|half|cap|hood|brim"
PART_NAME = later(
    rf"(?:(?i:{_SIDES})\s+)*(?i:{_PIECES})(?:\s+(?i:of\s+(?:the\s+)?)?(?i:{_PIECES}))?|(?i:{_SIDES})\s+side(?:\s+of\s+(?:the\s+)?\w+)?"
)
_NAME = later(
    rf"(?:(?:{PART_NAME.pattern}),?|[A-Z][a-z]+(?:\s[a-z]+){{0,2}},|[A-Z][A-Za-z']+(?:\s[A-Za-z']+){{0,3}}\s?-)\s*"
    r"(?=(?i:(?:rounds?|rnds?|rows?)\b\.?\s*\d|(?:next|last|first|foundation|set-up|setup|inc|dec)\s+(?:rounds?|rnds?|rows?)\b))"
)


_BARE_WORD = later(r"(?P<word>(?i:round|rnd|row)(?:\s[A-Z])?)\s*:\s*")


def _after_name(text: str, line: Line) -> Heading | None:
    """Find the heading behind the name of a part on the same line, with a colon of its own, or a bare `Rnd:`."""
    if bare := _BARE_WORD.match(text, line.start, line.span.end):
        row = bare["word"].lower().startswith("row")
        return Heading(Span(bare.start(), bare.end("word")), bare.end(), Form.NAMED, flat=row, prefix="")
    name = _NAME.match(text, line.start, line.span.end)
    if name is None or _NOT_TITLE.match(name[0]):
        return None
    heading = heading_at(text, name.end(), line.span.end)
    return heading if heading and ":" in text[heading.span.end : heading.body] else None


_NAMES_ROUNDS = later(
    r"(?i)\b(?:rep(?:eat)?|(?:same\s+)?as|like|work|next|foll(?:owing)?|alt(?:ernate)?|(?:even\s+)?for"
    r"|(?:end|beg|beginning|start)\s+of(?:\s+the)?)\b\s*(?:-?[\d(\[][\d\s,/:()\[\]-]*|-\s*[(\[][\d\s,/:-]*[)\]]\s*)?$"
)


def _named_before(text: str, lines: list[Line], number: int, heading: Heading) -> bool:
    """Tell whether the line before ends in words that speak of the rounds named here: `Repeat` / `Rnd 3.`."""
    if not number or lines[number - 1].blank:
        return False
    if ":" in text[heading.span.end : heading.body] and not is_count(text[heading.body : lines[number].span.end]):
        return False
    return speaks_on(text, lines[number - 1], lines[number])


def speaks_on(text: str, before: Line, line: Line) -> bool:
    """Tell whether a line ends in words that want the name of a round, and the next begins with one."""
    said = _NAMES_ROUNDS.search(text, before.start, before.span.end)
    begins = _ROUNDS.match(text, line.start, line.span.end)
    return said is not None and begins is not None and (bool(begins["many"]) or not said[0].strip()[-1].isdigit())


_CUT_ENDS = frozenset("dDsSwW.")


_CUT = later(r"(?i)[.)\]]\s*(?:rounds?|rnds?|rows?)\.?$")


_DIRECTIVE = later(
    r"(?i)\s*(?:\(|\[|\*|rep|as\b|same|work|k\b|p\b|knit|purl|ch|chain|sc|dc|hdc|tr|\d|[A-Z]|in\b|inc|dec|using|with|join|sl|\{|st\b|sk)"
)


def _is_real(text: str, heading: Heading, line: Line) -> bool:
    """Tell whether a heading without a colon or dash is one: what follows must look like an instruction."""
    rest = text[heading.body : line.span.end]
    if heading.form is Form.NAMED:
        usual = (heading.prefix or "").lower().startswith(("next", "last", "inc", "dec", "foundation"))
        return heading.alternate or usual or not rest.strip() or bool(STITCHY.search(rest))
    if heading.sure or not rest.strip():
        return not (heading.sure and "=" in rest[:12] and re.search(r"\d\s*(?:\"|in\b|inch|cm)", rest[:30]))
    return bool(_DIRECTIVE.match(rest)) and (heading.alternate or bool(STITCHY.search(rest) or _PLAIN.match(rest)))


def is_count(words: str) -> bool:
    """Tell whether words are but a stated count: `(24 sts)`, `= 36 dc.`, `(24 sts and 12 ch-1 sps)`."""
    return len(words) <= LONGEST_COUNT and bool(_COUNT.fullmatch(words))


LONGEST_COUNT = 200  # characters


_FIGURES = r"\d[\d\s,/:()\[\]-]*"


_UNIT = (
    r"(?:sts?|sc|dc|hdc|tr|htr|dtr|stitch(?:es)?|(?:half\s+)?(?:single|double|treble)\s+crochets?|trebles?|doubles?)"
)


# `rows. 15 sts`: a sentence ends in the word, and a count follows
_ROUNDS = later(
    r"(?P<many>(?:(?:alt|alternate|other)\s+)?(?:rnds|rounds|rows)\b"
    rf"(?:(?!\.?\s*\d)|(?=\.\s+{_FIGURES}{_UNIT}\.?\s*$)))|(?:rnds?|rounds?|rows?|r)(?![a-z])",
    re.IGNORECASE | re.MULTILINE,
)


_SPACES = rf"\s*(?:,|and|&|\+)?\s*{_FIGURES}(?:ch(?:ain)?s?\b[\s-]*\d*[\s-]*)?(?:sp|space)s?"


_COUNT = later(rf"[-=:\u2013\s]*[(\[{{]?\s*[(\[{{]?\s*{_FIGURES}{_UNIT}?(?:{_SPACES})?\.?\s*[)\]}}]?\.?", re.IGNORECASE)
