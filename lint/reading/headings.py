"""Headings: where a row or round begins, in all the ways in which drafts write that.

A heading is found in cleaned text by its shape alone; `blocks` decides which of the shapes are real by evidence from
the whole draft.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from enum import Enum

from ..draft import Span
from ..later import later
from ..pattern import Side


class Form(Enum):
    """How a heading is written."""

    WORD = "Rnd 3:"
    ORDINAL = "3rd rnd:"
    BARE = "3."
    NAMED = "Next rnd:"


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading as found. `numbers` are (first, last) a size (one pair for all), empty where unnumbered.

    `listed` are numbers covered one by one ("Rnds 5, 7, 9"), `elides` the parity or step of declared rounds,
    `notes` are brackets (or words before the colon) that say something else than numbers, `prefix` a name before the
    word, `many` the words that tell how many rounds are meant (`Next 6 (7, 8) rnds`), `count` a bracket with a count.
    """

    span: Span
    body: int
    form: Form
    numbers: tuple[tuple[int, int], ...] = ()
    listed: tuple[int, ...] = ()
    side: Side | None = None
    flat: bool = False
    alternate: bool = False
    parity: int | None = None
    reach: tuple[int, int] | None = None
    notes: tuple[Span, ...] = ()
    prefix: str | None = None
    sure: bool = True
    many: Span | None = None
    count: Span | None = None
    above: Span | None = None  # the heading above a line of its own for each size


_ROUND = r"(?:rounds?|rnds?|rds?|rows?|rws?|rn)(?![a-z])\.?"
_SHORT = r"(?:r)\b\.?(?=\s?[\dlI])"
_NUM = r"(?-i:[lI])?\d{1,6}(?:(?-i:[lI])(?![a-z]))?|(?-i:[lI])(?![a-zA-Z])"
_MORE = r"\d{1,6}"
_ORD = r"\d{1,6}(?:\s?(?:st|nd|rd|th)|(?<=[23])d)\b"
_WHAT = r"(?:(?:patt(?:ern)?|lace|edging|border|rib|chart|panel)\.?\s+)?"  # `1st patt. row`
_AND = r"\s*(?:-+|to|through|thru|\+|&|,|and|/|, and|, &)\s*"
_AGAIN_R = r"(?:rounds?|rnds?|rds?|rows?|rws?|r)\.?\s*"
_R = rf"(?:{_AGAIN_R})?"
# bullets, boxes to tick and rules of tables
_LEAD = r"[\s>|#\u2022\u25cf\u25e6\u25cb\u00b7\u25aa\u25a0\u25a1\u25ab\u25fb\u25c6\u25c7\u25ba\u27a4\u2192\u2610-\u2612\u2705\u2713\u2714*_+~-]*"
_SIDE = r"(?P<side>[(\[]?\s*(?:RS|WS|right side|wrong side)\s*(?:facing)?\s*[)\]]?\s*[:,-]?\s*)?"
_SEP = r"\s*(?:\*\*)?\s*(?P<sep>[:;|]|-*>|\.\s*-|\.{2,}|\.(?!\d)|-+|=(?=\s*[a-z])|\)(?=\s|$))?\s*(?:\*\*)?[ \t]*"

# what is worked follows the number, so that it is none of a round's: `R1 - 9 (12) sc`, `R2 - 2 ch`, `R1 - 9/10/11 sc`
_WORK = (
    r"(?:\s*/\s*\d+)*\s*(?:sc|dc|hdc|sts?|tr|htr|dtr|inc|dec|ch|chains?|single|half|double|treble|trebles|triple|increases?|decreases?|"
    r"stitch(?:es)?)\b"
)
_NO_LIST = r"(?![a-z\d]|\s*[(\[][\d\s,/:-]+[)\]]\s*[a-z])"
_WORD = later(
    rf"{_SIDE}(?P<word>{_ROUND}|(?<![a-z])r\.?(?=\s?(?:\d|[lI]\b)|\s?[(\[]\d+\s*[,/:]))(?P<many>(?<=s)|(?<=s\.))?\s*(?:\#|no\.?\s*)?"
    rf"(?P<nums>(?:{_NUM})(?:{_AND}(?:{_AGAIN_R}(?:{_MORE}){_NO_LIST}|(?:{_MORE}){_NO_LIST}(?(many)|(?!{_WORK}))))?(?:{_AND}{_R}(?:{_MORE}){_NO_LIST}(?!{_WORK}))*(?::\s*\d+(?:\s*(?:,|and|&)\s*\d+)+(?=\s*:))?|(?=[(\[]\s*\d+\s*[,/:]))",
    re.IGNORECASE,
)
_ORDINAL = later(
    rf"{_SIDE}(?P<nums>(?:{_ORD}|\d+(?=\s*(?:-|to)\s*\d+\s*(?:st|nd|rd|th|r))|\d+(?=r\s?-\s?\d+r\b)|\d+(?=\s*(?:(?:rnd|round|row)s?\b|r\s*(?:[:.)]|-\s))))"
    rf"(?:r?{_AND}(?:{_ORD}|\d+))*)\s*\.?\s*(?P<tail>(?:and|&)\s+(?:every|all)\s+[a-z. ]*?)?\s*{_WHAT}(?P<word>{_ROUND}|r(?=\s*(?:[:.)]|-\s)))",
    re.IGNORECASE,
)
BARE_NUMBERS = r"\d{1,3}(?:\)?\s*(?:-|\bto\b|\band\b|&)\s*\d{1,3})?"
_BARE = later(rf"(?P<nums>{BARE_NUMBERS})\s*(?P<sep>[.):|](?!\d)|-(?=\s+[A-Za-z(\[*]))\s*")
_ALONE = later(r"(?P<nums>\d{1,3}(?:\s*-\s*\d{1,3})?)(?P<sep>)$")
_NAMED = later(
    rf"(?P<prefix>(?:next|following|last|final)\s+\d+(?:\s*[/,:-]\s*\d+|\s*[(\[][\d\s,/:-]+[)\]])*\s+|(?:\d{{1,3}}(?:st|nd|rd|th)\s+)?(?:[a-z][\w'/-]*\.?\s+){{1,3}}?)(?P<word>{_ROUND}|r(?=\s*:))\s*(?P<nth>\d{{1,3}}|(?-i:[A-Z])(?=\s*:))?\s*(?P<note>[(\[][^)\]]*[)\]]|(?:worked\s+)?over\s+\d{{1,4}}\s+st(?:s|itches)(?=\s*:))?\s*(?P<sep>:|\.\s*-|\.{{2,}}|-(?=\s|(?-i:[A-Z][a-z]))|\.(?=\s))\s*",
    re.IGNORECASE,
)
_PARITY = later(
    rf"(?P<prefix>(?:all\s+)?(?P<parity>even|odd|ws|rs)[ -]?(?:numbered\s+)?{_ROUND}|every\s+(?:other|alternate)\s+{_ROUND})"
    rf"(?:\s*(?P<from>\d+)\s*(?:-|to)\s*(?P<to>\d+))?\s*(?P<sep>[:.-])\s*",
    re.IGNORECASE,
)
_BRACKET = later(r"\s*(?P<open>[(\[{])(?P<inside>[^()\[\]{}]{0,60})[)\]}]")
_WORKED = later(
    r"(?i)(?:^|[\s,;\d])(?:sc|hdc|dc|tr|htr|dtr|inc|dec|bobble|sc2tog|[xva])\b.*[,;]|[,;]\s*\d*\s*(?:sc|hdc|dc|tr|inc|dec|bobble|[xva])\b"
)
_INCLUSIVE = later(r"\s*,?\s*\(?incl(?:usive\b|\.|\b)\)?", re.IGNORECASE)
_ONLY = later(r"\s*(?:,|-|for)?\s*(?P<note>(?:for\s+)?(?:sizes?\s+)?[\w/&+, ]{1,40}?\s+only)\s*(?=[:.])", re.IGNORECASE)
_AGAIN = later(r"\s*(?:\d+\s*(?:times|x)\b|x\s*\d|\*\s*\d|(?:around|rep|repeat|twice)\b)", re.IGNORECASE)
_EVERY = later(
    r"\s*,?\s*[(\[]?\s*(?:and|&|\+)\s+(?:(?:every|all|each)\s+|(?=alt|foll\w*\s+alt))(?P<what>(?:(?:foll(?:owing)?\.?|other|alternate|alt\.?|even|odd|ws|rs|next)[ -]?"
    rf"(?:numbered\s+)?)*)(?:{_ROUND}(?:(?<!\.)|(?=\s+(?:to|from|until|up|through)\b)))?(?P<more>(?:[^)\]:.-]|-(?!\s)){{0,30}})[)\]]?",
    re.IGNORECASE,
)
_MEASURE = later(
    r"\s*(?:=|measures?\b|are\b|is\b|may\b|can\b|should\b|form\b|will\b|forms\b|of\b|from\b|only\b|again\b|on\b)",
    re.IGNORECASE,
)
_RANGE = later(rf"({_NUM})\s*(?:(?:-+|to|through|thru)\s*{_R}\s*({_MORE}))?", re.IGNORECASE)


def _int(text: str) -> int:
    return int(text.replace("l", "1").replace("I", "1"))


def _side(text: str | None) -> Side | None:
    if not text:
        return None
    if re.search(r"(?i)\bws\b|\bwrong\b", text):
        return Side.WRONG
    return Side.RIGHT if re.search(r"(?i)\brs\b|\bright\b", text) else None


_ORDINAL_ENDING = later(r"(?i)(\d)(?:\s?(?:st|nd|rd|th|r(?=\s?-))|(?<=[23])d)\b")
_NAMED_ROUND = later(r"(?i)\b(?:rounds?|rnds?|rds?|rows?|rws?)\.?|\br(?=\s?\d)\.?")


def _pairs(text: str) -> list[tuple[int, int]]:
    """Read numbers and ranges: "5-9" one pair, "5, 7, 9" three."""
    if text.isdecimal() and len(text) <= 6:
        return [(int(text), int(text))]
    found: list[tuple[int, int]] = []
    bare = _NAMED_ROUND.sub(" ", _ORDINAL_ENDING.sub(r"\1", text))
    for match in _RANGE.finditer(bare):
        first = _int(match[1])
        found.append((first, _int(match[2]) if match[2] else first))
    return found


_BY_SIZE = later(r"\s*(?:(\d+)\s*-\s*)?(\d+)((?:\s*/\s*\d+)+)\s*")


def _slashed(text: str) -> tuple[list[tuple[int, int]], list[tuple[int, int]]]:
    """Read the numbers of a heading; `3-30/32/34` and `13/15/17` have one a size, the first size's come apart."""
    match = _BY_SIZE.fullmatch(text) if "/" in text else None
    if match is None:
        return _pairs(text), []
    lasts = [int(match[2]), *(int(number) for number in re.findall(r"\d+", match[3]))]
    pairs = [(int(match[1]) if match[1] else last, last) for last in lasts]
    return pairs[:1], pairs[1:]


def _covered(pairs: list[tuple[int, int]]) -> tuple[tuple[tuple[int, int], ...], tuple[int, ...]]:
    """Reduce a list of numbers and ranges to the span covered and, where it has gaps, the numbers one by one."""
    if not pairs:
        return (), ()
    each = [n for first, last in pairs for n in range(first, min(last, first + 500) + 1)]
    first, last = pairs[0][0], pairs[-1][1]
    if len(pairs) > 1 and each != list(range(first, last + 1)):
        return ((first, last),), tuple(each)
    return ((first, last),), ()


@dataclass(slots=True)
class _Tail:
    """What follows the number in a heading, up to the separator."""

    end: int
    numbers: list[tuple[int, int]]
    notes: list[Span]
    side: Side | None = None
    alternate: bool = False
    parity: int | None = None
    reach: tuple[int, int] | None = None


def _tail(text: str, at: int, own: list[tuple[int, int]]) -> _Tail:
    tail = _Tail(at, [], [])
    if inclusive := _INCLUSIVE.match(text, at):
        tail.end = inclusive.end()
    while True:
        if every := _EVERY.match(text, tail.end):
            what = every["what"].lower()
            tail.alternate = True
            tail.parity = 0 if "even" in what else 1 if "odd" in what else None
            if more := re.search(r"(?i)(\d+)\s*(?:-|to)\s*(\d+)|to\s+(?:rnd|row|round)?\s*(\d+)", every["more"]):
                tail.reach = (int(more[1] or 0), int(more[2] or more[3]))
            tail.end = every.end()
            continue
        if named := _ONLY.match(text, tail.end):
            tail.notes.append(Span(named.start("note"), named.end("note")))
            tail.end = named.end("note")
            continue
        bracket = _BRACKET.match(text, tail.end)
        if bracket is None:
            return tail
        inside = bracket["inside"].strip()
        repeated = _AGAIN.match(text, bracket.end()) is not None and not inside[:1].isdigit()
        if (repeated or _WORKED.search(inside)) and not re.match(
            r"\s*[:;|]|\s*-\s", text[bracket.end() : bracket.end() + 4]
        ):
            return tail  # `Rnd 3 (sc, inc) x 6`: the bracket is the round's own
        span = Span(bracket.start("open"), bracket.end())
        if side := _side(inside if len(inside) < 20 else None):
            tail.side = side
        elif re.fullmatch(r"(?i)[\s\dlr.,/:&+-]*(?:to\s*\d+)?", inside) and re.search(r"\d", inside):
            tail.numbers.extend(_size_numbers(inside, own))
            tail.notes.append(span)
        elif len(inside.split()) > 4 and not re.search(r"(?i)\b(?:row|rnd|round|size|make|dec|inc)", inside):
            return tail
        else:
            tail.notes.append(span)
        tail.end = bracket.end()


def _size_numbers(inside: str, own: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Read the numbers of the other sizes in a heading: "14" after 5-12, "8-9" after 7-8, "R7-R10/R7-R12"."""
    found: list[tuple[int, int]] = []
    for part in re.split(r"[,/:]", inside):
        pairs = _pairs(part)
        if not pairs:
            continue
        first, last = pairs[0]
        if first == last and own and own[0][0] != own[-1][1]:
            first = own[0][0]
        found.append((first, last))
    return found


_SEPARATOR = later(_SEP)


def word_heading(text: str, at: int, end: int) -> Heading | None:
    """Read a heading of the kinds `Rnd 3:`, `R3 -`, `Rounds 5-9 (to 12 for L):` at this place, before `end`."""
    if found := _ranged_heading(text, at, end) or _ordinals_heading(text, at, end):
        return found
    match = _WORD.match(text, at, end)
    form = Form.WORD
    if match is None:
        match = _ORDINAL.match(text, at, end)
        form = Form.ORDINAL
    if match is None or not match["word"]:
        return None
    own, slashed = _slashed(match["nums"])
    word = match["word"].lower()
    tail = _tail(text, match.end(), own)
    alternate = tail.alternate
    if form is Form.ORDINAL and match["tail"]:
        alternate = True
    separator = _SEPARATOR.match(text, tail.end, end)
    body = separator.end() if separator else tail.end
    said = bool(separator and separator["sep"])
    if not said and _MEASURE.match(text, tail.end, end):
        return None
    if said and separator and separator["sep"] == "=":
        return None
    sizes = [*slashed, *tail.numbers]
    if not own and sizes:
        own, sizes = [sizes[0]], sizes[1:]
    covered, listed = _covered(own)
    return Heading(
        span=Span(match.start(), tail.end),
        body=body,
        form=form,
        numbers=(*covered, *sizes),
        listed=listed,
        side=_side(match["side"]) or tail.side,
        flat=word.startswith(("row", "rw")),
        alternate=alternate,
        parity=tail.parity,
        reach=tail.reach,
        notes=tuple(tail.notes),
        sure=said,
    )


_RANGED = later(
    rf"(?:(?P<word>{_ROUND})\s*)?(?P<first>\d+)(?:st|nd|rd|th)?\s*(?:-|to)\s*[(\[](?P<lasts>\s*\d+(?:st|nd|rd|th)?(?:\s*[,/:]\s*\d+(?:st|nd|rd|th)?)+)\s*[)\]]"
    rf"\s*(?P<after>{_ROUND})?\s*[:.]\s*",
    re.IGNORECASE,
)


def _ranged_heading(text: str, at: int, end: int) -> Heading | None:
    """Read `4th to (19th, 21st, 23rd) rnds:` and `Row 4 - (21, 23, 25):`."""
    match = _RANGED.match(text, at, end)
    if match is None or not (match["word"] or match["after"]):
        return None
    first = int(match["first"])
    lasts = [int(number) for number in re.findall(r"\d+", match["lasts"])]
    word = (match["word"] or match["after"]).lower()
    return Heading(
        Span(match.start(), len(text[: match.end()].rstrip(" :."))),
        match.end(),
        Form.WORD,
        tuple((first, last) for last in lasts),
        flat=word.startswith("row"),
    )


_ORDINALS = later(
    rf"(?P<nums>{_ORD}\s*(?P<open>[(\[])\s*{_ORD}(?:\s*[,/:-]\s*{_ORD})*\s*[)\]]|[(\[]\s*{_ORD}(?:\s*[,/:]\s*{_ORD})+\s*[)\]]|{_ORD}(?:\s*/\s*{_ORD})+)"
    rf"\s*(?P<word>{_ROUND})\s*(?:\([RW]S\)\s*)?[:.-]\s*",
    re.IGNORECASE,
)


def _ordinals_heading(text: str, at: int, end: int) -> Heading | None:
    """Read the number of a round that differs from size to size: `8th (10th, 12th) rnd:`, `8th/10th rnd -`."""
    match = _ORDINALS.match(text, at, end)
    if match is None:
        return None
    numbers = [int(number) for number in re.findall(r"\d+", match["nums"])]
    return Heading(
        Span(match.start(), match.end("word")),
        match.end(),
        Form.ORDINAL,
        tuple((number, number) for number in numbers),
        flat=match["word"].lower().startswith(("row", "rw")),
    )


def parity_heading(text: str, at: int, end: int) -> Heading | None:
    """Read `All even rnds:` and `Even-numbered rnds 2-20:`."""
    match = _PARITY.match(text, at, end)
    if match is None:
        return None
    what = (match["parity"] or "").lower()
    return Heading(
        span=Span(match.start(), match.start("sep")),
        body=match.end(),
        form=Form.NAMED,
        alternate=True,
        parity={"even": 0, "odd": 1}.get(what),
        side={"ws": Side.WRONG, "rs": Side.RIGHT}.get(what),
        reach=(int(match["from"]), int(match["to"])) if match["from"] else None,
        flat="row" in match["prefix"].lower(),
    )


_USUAL_NAMES = {
    "last",
    "next",
    "foundation",
    "set-up",
    "setup",
    "final",
    "increase",
    "decrease",
    "inc",
    "dec",
    "base",
    "joining",
    "first",
    "edging",
    "closing",
}
_NOT_NAMES = {
    "rep", "repeat", "work", "for", "of", "in", "on", "until", "each", "every", "this", "these", "the", "continue", "after", "before", "at", "as",
    "and", "all", "rest", "knit", "purl", "crochet", "from", "to", "pattern", "by", "with", "same", "stitch", "st", "gauge", "is", "are", "one", "two",
    "begin", "beg", "beginning", "three", "four", "five", "six", "make", "join", "turn", "weave", "then", "note", "joined", "written", "a", "finished", "stuff", "or", "if", "when",
}  # fmt: skip


def named_heading(text: str, at: int, end: int) -> Heading | None:
    """Read an unnumbered heading: `Next rnd:`, `Foundation row (RS):`, `Inc round -`."""
    match = _NAMED.match(text, at, end)
    if match is None:
        return None
    names = match["prefix"].split()
    if any(name.lower().strip(".") in _NOT_NAMES for name in names[:-1]) or (
        names[-1].lower() in _NOT_NAMES and not names[-1].isdigit()
    ):
        return None
    if match["sep"] == "." and names[0].lower() not in _USUAL_NAMES:
        return None
    numbered = match["nth"] is not None and match["nth"].isdigit()
    if (numbered or (names[0][0].isdigit() and names[0].isalnum() and not names[0].isdigit())) and not any(
        name.lower().startswith(("inc", "dec", "plain", "set", "next")) for name in names
    ):
        return None
    return Heading(
        span=Span(match.start(), match.start("sep")),
        body=match.end(),
        form=Form.NAMED,
        side=_side(match["note"]),
        flat=match["word"].lower().startswith("row"),
        prefix=match["prefix"].strip(),
        many=Span(match.start("prefix"), match.end("prefix")) if _says_many(names) else None,
    )


def _says_many(names: list[str]) -> bool:
    """Tell whether a name says how many rounds are meant: `Next 6`, `Last 3`."""
    return names[-1][0].isdigit() or names[0].lower() in ("next", "following")


def with_counts(found: dict[int, Heading]) -> dict[int, Heading]:
    """Tell counts in the brackets of headings (`Rnd 2 [12]:`) from the numbers of another size's rounds.

    Counts stand in most headings of a draft, and are not near the rounds' own numbers.
    """
    numbered = [heading for heading in found.values() if heading.numbers]
    bracketed = [heading for heading in numbered if len(heading.numbers) == 2 and len(heading.notes) == 1]
    far = [one for one in bracketed if abs(one.numbers[1][1] - one.numbers[0][1]) >= _FAR]
    if len(far) < 2 or 2 * len(far) < len(numbered) or len(far) < len(bracketed) * 2 / 3:
        return found
    return {
        at: replace(heading, numbers=heading.numbers[:1], count=heading.notes[0]) if heading in bracketed else heading
        for at, heading in found.items()
    }


_FAR = 4  # from this distance on the figure in a heading's bracket is hardly another size's round


_PREFIXED = later(r"((?:[A-Z][\w'-]*\s+){1,2}?)(?=(?:[Rr]ounds?|[Rr]nds?|[Rr]ows?|R)\b\.?\s*\d)")


def prefixed_heading(text: str, at: int, end: int) -> Heading | None:
    """Read a numbered heading with a name before it: `Band Row 1:`, `Hat Round 2:`."""
    match = _PREFIXED.match(text, at, end)
    if match is None or any(name.lower() in _NOT_NAMES for name in match[1].split()):
        return None
    inner = word_heading(text, match.end(), end)
    if inner is None or not inner.sure:
        return None
    return Heading(
        span=Span(match.start(), inner.span.end),
        body=inner.body,
        form=inner.form,
        numbers=inner.numbers,
        listed=inner.listed,
        side=inner.side,
        flat=inner.flat,
        alternate=inner.alternate,
        parity=inner.parity,
        reach=inner.reach,
        notes=inner.notes,
        prefix=match[1].strip(),
    )


def bare_heading(text: str, at: int, end: int) -> Heading | None:
    """Read a number standing for a heading: `3.`, `11-23.`, `4)`."""
    match = _BARE.match(text, at, end) or _ALONE.match(text, at, end)
    if match is None:
        return None
    pairs = _pairs(match["nums"].replace(")", " "))
    covered, listed = _covered(pairs)
    return Heading(Span(match.start(), match.end("sep")), match.end(), Form.BARE, covered, listed)


_BEFORE_WORDS = later(_LEAD)


def lead(text: str, at: int, end: int) -> int:
    """Return where a line's words begin, past bullets, table rules, footnote stars and marks of emphasis."""
    match = _BEFORE_WORDS.match(text, at, end)
    return match.end() if match else at


def heading_at(text: str, at: int, end: int) -> Heading | None:
    """Read any kind of heading but a bare number at this place."""
    return (
        word_heading(text, at, end)
        or parity_heading(text, at, end)
        or prefixed_heading(text, at, end)
        or named_heading(text, at, end)
    )


# the first letter or figure comes first, in either case, and is looked at from behind, so that a search is quick
_MIDDLE = later(
    r"[rRnN\d](?:(?<=[.)\];:}].)|(?<=[:-]\s.)|(?<=[.)\];:}]\s.)|(?<=[.)\];:}]\s\s.)|(?<=[a-z],\s.)(?<!\d(?:st|nd|rd|th),\s.)|(?<=\n.))"
    r"(?=(?i:(?<=r)(?:ounds?|nds?|ds?|ows?|)\.?\s?(?:\d|[(\[]\d+,)|(?<=\d)\d*(?:st|nd|rd|th|(?<=[23])d)\b[^:\n]{0,40}\b(?:rounds?|rnds?|rows?)\b|(?<=n)ext\s+(?:rounds?|rnds?|rows?)\b))"
)


def middle_headings(text: str, start: int, end: int) -> list[Heading]:
    """Find headings in mid-line: after the end of a sentence, with a colon of their own."""
    found: list[Heading] = []
    for match in _MIDDLE.finditer(text, start, end):
        heading = heading_at(text, match.start(), end)
        if heading and ":" in text[heading.span.end : heading.body]:
            found.append(heading)
    return found
