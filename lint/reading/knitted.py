"""Knitted: words of knitting that are one thing together: ribs named by their stitches, cables of any width."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence

from ..draft import Span
from ..later import later
from ..trade.tables import Stitch
from .words import Word

_KP = r"(?:knit|purl|[kp])\s?\d(?:\s?tbl)?"
_PAIR = rf"{_KP}\s*[,x/&-]?\s*(?:and\s+)?{_KP}"
_RIB = later(
    rf"(?i)[(\[]?\*?(?<![a-z\d]){_PAIR}\s*[)\]]?[\s-]*(?:twisted\s+)?rib(?:bing|bed)?\b(?:\s*(?:pattern|patt|st(?:itch)?)\b)?"
    rf"|(?<![\d.])\d\s?[x\u00d7/]\s?\d\s+(?:twisted\s+)?rib(?:bing)?\b|\brib(?:bing)?\s*(?:of|in|:)?\s*[(\[]?{_PAIR}[)\]]?"
    rf"|{_PAIR}\s+(?:in|for)\s+(?:a\s+)?rib(?:bing)?\b"
    rf"|(?<=\bin\s){_PAIR}(?=\s+(?:for|until)\b)"
)
_FACE = r"(?:\s+as\s+they\s+(?:face(?:\s+you)?|appear|come|present(?:\s+themselves)?))"
_AS_THEY_FACE = later(
    rf"(?i)\b(?:k(?:nit)?\s+(?:the\s+|all\s+)?k(?:nit)?s?(?:\s+st(?:itche)?s)?\s*(?:and|,|&)\s*p(?:url)?\s+(?:the\s+|all\s+)?p(?:url)?s?\b"
    rf"(?:\s+st(?:itche)?s)?{_FACE}?|(?:work|knit)\s+(?:all\s+|the\s+)?(?:sts|stitches){_FACE})"
)
_CABLE = later(
    r"(?i)(?<![a-z\d])(?:c|t|tw|cr)\s?(?P<n>\d{1,2})\s?(?:fp|bp|lp|rp|f|b|l|r|front|back|left|right)\b"
    r"|(?<![a-z\d/])(?P<a>\d)/(?P<b>\d)\s?(?:[lr][pkt]?c|cable\s+(?:left|right|front|back))\b"
)


_EDGE = later(
    r"(?i)\b(?:cast[- ]?on|co|bound[- ]?off|bind[- ]?off|cast[- ]?off|bo)\s+(?:edges?|rows?|tail)\b"
    r"|(?<=\bthe\s)cast[- ]?on\b(?!\s*(?:of\s*)?[\d(\[])"
    r"|(?<=\bunderarm\s)(?:co|bo|cast[- ]?on|cast[- ]?off)\b(?!\s*(?:of\s*)?[\d(\[])"
    r"|(?<![\d(])\b\d{1,3}\s+(?:sts?|stitches)\s+(?:increased|decreased|inc'd|dec'd)(?![\w(])(?!\s+(?:to|by))"
    r"|\bfigure[- ](?:of[- ])?(?:8|eight)\s+(?:cast[- ]?on|co)\b"
    r"|\bsl(?:ip)?\s+(?:them\s+|these\s+(?:sts\s+)?)?(?:to|on|onto)\s+(?:a\s+|the\s+)?(?:st(?:itch)?\s+)?holder\b"
)
# how many gaps there are isn't told: `casting on 2 sts over each buttonhole`
_OVER_GAPS = later(
    r"(?i)\bcast(?:ing)?[- ]on\s+\d{1,2}\s+(?:sts|stitches)\s+(?:over|above|in\s+place\s+of|at)\s+"
    r"(?:each|every|all|(?<=ing on \d sts over )(?:the|those))\b[^.,;\n]{0,40}"
)


# a place known by looking at the work: `to 1 st before centre st`, `to 2 sts before next steek`
_BEFORE = "|".join(
    f"(?<=\\b{words})" for words in ("to ", "to the ", "before ", "before the ", "next ", "st of ", "sts of ")
)
_LANDMARK = later(
    rf"(?i)(?:{_BEFORE})(?:(?:centre|center|central|middle|marked|spine)\s+st(?:itch)?\b(?!\s+of\b)"
    r"|(?:next\s+)?(?:steek|gusset|underarm|seam|corner)\b(?:\s+st(?:itch)?\b)?)"
)


# old leaflets write a full stop behind each abbreviation: `Sl. 1, k. 2 tog., p.s.s.o.`
_DOTTED = later(
    r"(?i)(?<![a-z.])(?:[kp]\.\s?\d+\s?tog\b\.?(?:\s?t\.\s?b\.\s?l\b\.?)?"
    r"|(?:k|p|sl|m)\.[ \t]?\d+(?![\d.]|(?:st|nd|rd|th)\b)"
    r"|(?:p\.\s?s\.\s?s\.\s?o|(?:wl?|y)\.\s?fwd|(?:wl?|y)\.\s?r\.\s?n|[wy]\.\s?o\.\s?n|[wy]\.\s?f|t\.\s?b\.\s?l"
    r"|k|p|sl|tog|yf|yfd|yfwd|fwd|yrn|wrn|yon|sts?|rep|rem|alt|patt|inc|dec|psso"
    r"|foll|beg|cont|tbl|m|skpo)\.(?=[ \t]*\n?[ \t]*[\da-z,;*)]))"
)
_LEAFLET = later(r"(?i)\b(?:k|p|sl|m)\. ?\d")
_TOGETHER = later(r"(?i)\b[kp]\. ?\d ?tog\b")  # says by itself how the draft is written
_FEWEST = 3  # such places; fewer may be ends of sentences


def undotted(text: str) -> str:
    """Take the full stops from the abbreviations of an old leaflet; every offset stays what it was."""
    if len(_LEAFLET.findall(text)) < _FEWEST and not _TOGETHER.search(text):
        return text
    return _DOTTED.sub(lambda match: re.sub(r"[.\s]", "", match[0]).ljust(len(match[0])), text)


# stitches told in more words, or parted letters, than they usually are
_SPOKEN = later(
    r"(?i)\b(?:(?P<psso>p s s o)"
    r"|(?P<tog>k|p|knit|purl) ?(?:the )?(?:next )?(?P<n>2|3|two|three) (?:sts?|stitches) tog(?:ether)?"
    r"|as (?:if|though) to (?P<wise>k|knit|p|purl)(?! ?\d)"
    r"|(?P<one>k|knit) (?:the )?next (?:st|stitch)(?=,? (?:and )?p(?:ass|2?sso)\b)"
    r"|(?P<middle>sl(?:ip)? ?(?:2|two)(?: sts| stitches)? tog(?:ether)?(?: k(?:nit)?wise)?,? k(?:nit)? ?1,?"
    r" (?:p2?sso|pass (?:the )?(?:2|two|both) slipped (?:sts|stitches) over"
    r"(?: (?:it|the (?:k|knit|knitted) st(?:itch)?))?))"
    r"|sl(?:ip)? (?:the )?next (?P<first>\d) (?:sts|stitches) (?:on)?to (?:a |the )?(?:cn|cable needle)"
    r"[^;.*\d]{0,50}?[,;] [kp](?:nit|url)? ?(?P<then>\d),?(?: and| then)? [kp](?:nit|url)? ?(?P<cable>\d)(?: sts)?"
    r" from (?:the )?(?:cn|cable needle)"
    r"|pass (?:the )?(?P<both>2|two|both) slipped (?:sts|stitches) over(?! (?:it|them|the))"
    r"|pass (?:the )?(?P<over>slipped st(?:itch)?|(?:2|two|both) slipped (?:sts|stitches)) over"
    r" (?:it|them|the (?:k|knit|knitted) st(?:itch)?)"
    r"|through (?:the )?(?P<tbl>backs?) of (?:the )?(?:sts|stitches|loops|lps))\b"
)


_ON_OR_OFF = later(r"(?i)\bc/o\b")
_CAST_ON = later(r"(?i)\b(?:cast(?:ing)?[ -]on|co(?!-))\b")
_SAID_ON = later(r"(?i)\s*[-:=(]*\s*cast(?:ing)? on\b")
_NUMBERED = later(r"\s*\d")


def _cast_on(text: str) -> str:
    """Write `c/o` as cast on where the draft explains it so, or begins with it; elsewhere it is cast off."""
    first = _ON_OR_OFF.search(text)
    if first is None:
        return text
    begins = _NUMBERED.match(text, first.end()) and not _CAST_ON.search(text, 0, first.start())
    return _ON_OR_OFF.sub("CO ", text) if begins or _SAID_ON.match(text, first.end()) else text


def respelled(text: str) -> str:
    """Write `p s s o`, `k 2 sts tog` and `as if to knit` in their usual short form; every offset stays what it was."""
    text = _cast_on(text)
    return _SPOKEN.sub(lambda match: _short(match).ljust(len(match[0])), text)


def _short(match: re.Match[str]) -> str:
    if match["psso"]:
        return "psso"
    if match["tog"]:
        return f"{match['tog'][0]}{3 if match['n'].lower() in ('3', 'three') else 2}tog"
    if match["one"]:
        return "k1"
    if match["middle"]:
        return "s2kp"
    if match["cable"]:
        return f"c{int(match['then']) + int(match['cable'])}f" if match["first"] == match["cable"] else match[0]
    if match["both"]:
        return "p2sso"
    if match["over"]:
        return "psso" if match["over"].startswith("slipped") else "p2sso"
    if match["tbl"]:
        return "tbl"
    return f"{match['wise'][0]}wise"


def knitted(text: str, words: Sequence[Word]) -> tuple[Word, ...]:
    """Make one word of those that are one thing together: `k2, p2 rib`, `C6F`, `inc.1`, `cast-on edge`."""
    merged = _merged(words, _RIB.finditer(text), _fabric)
    merged = _merged(merged, _AS_THEY_FACE.finditer(text), _fabric)
    merged = _merged(merged, _CABLE.finditer(text), _cable)
    merged = _merged(merged, _EDGE.finditer(text), _named)
    merged = _merged(merged, _LANDMARK.finditer(text), _landmark)
    merged = _merged(merged, _OVER_GAPS.finditer(text), _unknown)
    found: list[Word] = []
    for index, word in enumerate(merged):
        before = found[-1] if found else None
        shaping = before is not None and before.stitch is not None and before.stitch.id in ("inc", "dec", "co", "bo")
        numbered = word.kind == "." and shaping and index + 1 < len(merged) and merged[index + 1].kind == "number"
        if numbered and not _ends_line(text, merged, index + 2):
            continue  # `inc.1`; but `inc. 14 sts` at the end of a line counts
        if word.text == "over" and _is_made(merged, index):
            found.append(word._replace(kind="stitch", stitch=_OVER))  # `knit 1, over, knit 2 together`
            continue
        if word.text in _HOW and index + 1 < len(merged) and merged[index + 1].kind == "into":
            continue  # `(k1, yo, k1) loosely into next st`
        if word.kind == "work" and [one.kind for one in merged[index + 1 : index + 3]] == ["from", "*"]:
            found.append(word._replace(kind="rep"))  # `work from * to end`
            continue
        if word.text == "1st" and shaping:
            found.append(word._replace(kind="number", value=1))
            continue
        found.append(word)
    return tuple(found)


_OVER = Stitch("yo", "knitting", (), (), 0, 1, 0, "increase")  # old books leave out the yarn


def _is_made(words: Sequence[Word], index: int) -> bool:
    """Tell whether a word stands by itself between commas."""
    return 0 < index < len(words) - 1 and words[index - 1].kind == "," and words[index + 1].kind == ","


_HOW = {"loosely", "all", "firmly"}


def _ends_line(text: str, words: Sequence[Word], index: int) -> bool:
    """Tell whether the word for stitches stands at an index, and ends its line."""
    if index >= len(words) or words[index].kind != "st":
        return False
    return not text[words[index].span.end :].split("\n", 1)[0].strip(" .")


def _fabric(_: re.Match[str], first: Word) -> Word:
    return first._replace(kind="fabric", stitch=None, value=None)


def _named(_: re.Match[str], first: Word) -> Word:
    """Make one word that takes nothing of `cast-on edge`, `8 sts increased`."""
    return first._replace(kind="noise", stitch=None, value=None)


def _landmark(_: re.Match[str], first: Word) -> Word:
    return first._replace(kind="landmark", stitch=None, value=None)


def _unknown(_: re.Match[str], first: Word) -> Word:
    return first._replace(kind="word", stitch=None, value=None)


def _cable(match: re.Match[str], first: Word) -> Word:
    width = int(match["n"]) if match["n"] else int(match["a"]) + int(match["b"])
    if first.stitch is not None and first.stitch.uses:
        return first
    stitch = Stitch("cable", "knitting", (), (), width, width, 0, "cable")
    return first._replace(kind="stitch", stitch=stitch, value=None)


def _merged(
    words: Sequence[Word], matches: Iterable[re.Match[str]], make: Callable[[re.Match[str], Word], Word]
) -> tuple[Word, ...]:
    """Let one word stand for all the words of each match."""
    found: list[Word] = []
    index = 0
    for match in matches:
        while index < len(words) and words[index].span.start < match.start():
            found.append(words[index])
            index += 1
        first = index
        while index < len(words) and words[index].span.start < match.end():
            index += 1
        if index > first:
            span = Span(words[first].span.start, words[index - 1].span.end)
            whole = words[first]._replace(text=" ".join(word.text for word in words[first:index]), span=span)
            found.append(make(match, whole))
    found.extend(words[index:])
    return tuple(found)
