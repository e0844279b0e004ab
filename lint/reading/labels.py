"""Labels: what yarn is spun of, shoe sizes, and which edition of a draft this is."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cache

from ..draft import Span
from ..later import later
from ..materials import Blend, Edition, Shoes
from ..trade.goods import fibres

# ---------------------------------------------------------------- fibres

_PERCENT = r"(?P<{0}>\d{{1,3}}(?:[.,]\d)?)\s?(?:%|per\s?cent\b)"
_BETWEEN = later(r"\s*(?:,|/|\+|&|\band\b|-|\u2013|\u00b7)?\s*(?:\band\b)?\s*")
_AT_LEAST = later(r"(?i)\b(?:at\s+least|or\s+more|about|up\s+to|mostly|minimum|maximum)\s*$")


@cache
def _part() -> re.Pattern[str]:
    """Return what finds a share and its fibre, in either order."""
    named = "|".join(sorted((re.escape(word).replace(r"\ ", r"\s+") for word in fibres()), key=len, reverse=True))
    lead = r"(?:(?:of|fine|extra|pure|recycled|organic|superfine|soft)\s+){0,2}"
    return re.compile(
        rf"(?i)(?<![\w.,]){_PERCENT.format('before')}\s*{lead}(?P<fibre>{named})(?![\w-])"
        rf"|(?<![\w-])(?P<first>{named})\s*:?\s*{_PERCENT.format('after')}"
    )


def blends(text: str) -> Iterator[Blend]:
    """Find what yarns are spun of: runs of shares with their fibres."""
    if "%" not in text and "cent" not in text:
        return
    run: list[re.Match[str]] = []
    for match in _part().finditer(text):
        whole = sum(_share(one) for one in run) >= _WHOLE
        if run and (whole or not _BETWEEN.fullmatch(text, run[-1].end(), match.start())):
            yield from _blend(text, run)
            run = []
        run.append(match)
    yield from _blend(text, run)


_WHOLE = 99.5  # per cent, from which another share is another yarn's


def _share(match: re.Match[str]) -> float:
    return float((match["before"] or match["after"]).replace(",", "."))


def _blend(text: str, run: Sequence[re.Match[str]]) -> Iterator[Blend]:
    if not run or _AT_LEAST.search(text[max(0, run[0].start() - 16) : run[0].start()]):
        return
    parts = tuple(
        (
            fibres()[" ".join((match["fibre"] or match["first"]).lower().split())],
            _share(match),
        )
        for match in run
    )
    yield Blend(Span(run[0].start(), run[-1].end()), parts)


# ---------------------------------------------------------------- shoes

_WHO = {
    "woman": r"wom[ae]n'?s?|lad(?:y|ies)'?s?",
    "man": r"m[ae]n'?s?|gentlemen'?s?",
    "child": r"child(?:ren)?'?s?|kids?'?|youths?'?|toddlers?'?",
}
_WHOSE = "|".join(rf"(?P<{who}>\b(?:{words})(?!\w))" for who, words in _WHO.items())
_ONE = r"\d{1,2}(?:\.5|\s?\u00bd|\s1/2)?"
_RANGE = rf"{_ONE}(?:\s*(?:-|\u2013|to)\s*{_ONE})?"
_SHOES = later(
    r"(?i)(?P<lead>[^.;\n]{0,30}?)\bshoes?\s+sizes?\s*(?:are\s+|is\s+)?[:=]?\s*(?P<scale>US|UK|EU)?\s*(?P<who>[a-z']{3,9}\s+)?"
    rf"(?P<list>{_RANGE}(?:\s*[(\[,:/;]\s*{_RANGE}){{0,16}})"
)
_SCALE = later(r"\b(US|UK|EU)\b")
_RANGES = later(rf"({_ONE})(?:\s*(?:-|\u2013|to)\s*({_ONE}))?")


def shoes(text: str, areas: Sequence[Span]) -> Iterator[Shoes]:
    """Find the shoe sizes that the head of a draft names."""
    for area in areas:
        if "shoe" not in text[area.start : area.end].casefold():
            continue
        for match in _SHOES.finditer(text, area.start, area.end):
            words = f"{match['lead']} {match['who'] or ''}"
            whose = re.search(_WHOSE, words, re.IGNORECASE)
            scale = match["scale"] or (said[1] if (said := _SCALE.search(match["lead"])) else None)
            ranges = tuple(
                (_half(one[1]), _half(one[2] or one[1])) for one in _RANGES.finditer(match["list"]) if one[1]
            )
            yield Shoes(
                Span(match.start("list"), match.end()),
                ranges,
                whose.lastgroup if whose else None,
                scale.upper() if scale else None,
            )


def _half(words: str) -> float:
    number = re.match(r"\d+", words)
    return float(number[0] if number else 0) + (0.5 if re.search(r"\.5|\u00bd|1/2", words) else 0.0)


# ---------------------------------------------------------------- editions

_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_MONTH = r"(?P<{0}>(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]{{0,6}})\.?"
_VERSION = later(
    r"(?i)\b(?:(?:version|ver\.|revision|rev\.|edition)\s*(?:no\.?\s*)?|v\.?\s?(?=\d+\.\d))(?P<version>\d{1,2}(?:\.\d{1,2}){0,2})\b(?!\s*(?:mm|cm|in\b|sts?\b|%))"
)
_DATE = later(
    r"(?i)(?<![\w.,/-])(?:(?P<y1>(?:19|20)\d\d)-(?P<m1>\d\d)-(?P<d1>\d\d)"
    rf"|(?P<d2>\d{{1,2}})(?:st|nd|rd|th)?\s+{_MONTH.format('m2')}\s+(?P<y2>(?:19|20)\d\d)"
    rf"|{_MONTH.format('m3')}\s+(?:(?P<d3>\d{{1,2}})(?:st|nd|rd|th)?,?\s+)?(?P<y3>(?:19|20)\d\d))(?![\w/-])"
)
_DATED = later(r"(?:19|20)\d\d|[vV]\.?\s?\d")
_VERSIONS = ("version", "ver.", "rev", "edition")
_MOST_WORDS = 8  # a line that says which edition this is says little else


def editions(text: str) -> Iterator[Edition]:
    """Find versions and dates in lines that say little else; a list of what was changed when is none."""
    if not any(word in text.casefold() for word in _VERSIONS) and not _DATED.search(text):
        return
    for line in re.finditer(r"[^\n]+", text):
        words = line[0]
        if len(words.split()) > _MOST_WORDS or not re.search(r"\d", words):
            continue
        for match in _VERSION.finditer(text, *line.span()):
            if not re.match(r"\s*[:\u2013\u2014-]\s*\w{3}", text[match.end() : line.end()]):
                yield Edition(Span(*match.span()), version=match["version"])
        for match in _DATE.finditer(text, *line.span()):
            yield Edition(Span(*match.span()), date=_date(match))


def _date(match: re.Match[str]) -> tuple[int, int, int]:
    """Return a date as year, month and day."""
    if match["y1"]:
        return int(match["y1"]), int(match["m1"]), int(match["d1"])
    month = (match["m2"] or match["m3"])[:3].lower()
    return int(match["y2"] or match["y3"]), _MONTHS.index(month) + 1, int(match["d2"] or match["d3"] or 0)
