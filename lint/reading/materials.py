"""Materials: yarn, tools, notions and colours of a draft, with its gauges and measurements."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from ..draft import Span
from ..later import later
from ..materials import Colour, Materials, Notion, Quantity, Tool, Yarn
from ..trade.goods import yarn_names
from ..trade.tables import Stitch
from .gauges import gauges
from .labels import blends, editions, shoes
from .numbers import cardinal
from .quantities import closed, measures, number_of, pairings, quantities

_CLAUSE = later(r"(?:[^.;\n]|\.(?=\d)|(?<=\bNo)\.|(?<=\bmm)\.|(?<=\boz)\.)+")
_HOOK = later(r"(?i)\bhooks?\b|\bhk\b")
_NEEDLE = later(r"(?i)\b(?:needles?|dpns?|circulars?)\b")
_SEWING = later(
    r"(?i)\b(?:tapestry|yarn|darning|sewing|wool|cable|embroidery|blunt|bent|large[- ]eye\w*)[\s-]+needles?\b"
)
_STEEL = later(r"(?i)\bsteel\b")
_SCALE = later(r"\b(US|UK)\b")
_MM = later(r"(?i)(?<![\w.])(\d{1,2}(?:[.,]\d{1,2})?(?:\s?[\u00bd\u00bc\u00be])?)\s*mm\b")
_LABEL = r"(?:(?P<letter{0}>[A-U](?:/[A-Z])?)(?:\s?[-/]?\s?(?P<number{0}>\d{{1,2}}(?:\.5|[ -]?1/2|\s?\u00bd)?(?!\.?\d|\s*mm)))?|(?:(?:No|no)\.?|#|[Ss]ize)\s*(?P<plain{0}>\d{{1,2}}(?:\.5|[ -]?1/2|\s?\u00bd)?))"
_US = r"(?:(?P<scale{0}>US|UK)\s*)?(?:(?:size|Size|no\.?|No\.?)\s*)?"
_LABEL_MM = later(
    r"(?<![\w/])"
    + _US.format(1)
    + _LABEL.format(1)
    + r"(?![\w])[\"']?\s*(?:hook)?\s*[,/=-]?\s*[(\[]?\s*(?P<mm1>\d{1,2}(?:[.,]\d{1,2})?)\s*mm\b"
)
_MM_LABEL = later(
    r"(?<![\w.,])(?P<mm2>\d{1,2}(?:[.,]\d{1,2})?)\s*mm\s*[,/=-]?\s*[(\[]?\s*"
    + _US.format(2)
    + _LABEL.format(2)
    + r"(?!\w|\s+(?:is|am|used)\b)"
)
_NUMBERED = later(
    r"(?<![\w/])(?P<scale3>US|UK)\s*(?:size|no\.?|#)?\s*(?P<number3>\d{1,2}(?:\.5)?)\s*[(\[/,]\s*(?P<mm3>\d{1,2}(?:[.,]\d{1,2})?)\s*mm\b"
)
_MM_NUMBERED = later(
    r"(?<![\w.,])(?P<mm4>\d{1,2}(?:[.,]\d{1,2})?)\s*mm\s*[(\[/,]?\s*(?P<scale4>US|UK)\s*(?:size|no\.?|#)?\s*(?P<number4>\d{1,2}(?:\.5)?)(?![\d.]|\s*mm)"
)
_ALONE = later(
    r"(?:(?<=[Ss]ize\s)|(?<=[Hh]ook\s)|(?<=[Hh]ook:\s)|(?<=US\s))([A-Q])(?:[-/](\d{1,2}(?:\.5)?))?(?![\w/-])|(?<![\w/'-])\"?([A-Q])\"?(?:[-/](\d{1,2}(?:\.5)?))?(?=\s+(?:crochet\s+)?hook\b)"
)

_YARN_WORD = later(r"(?i)\b(?:yarn|wool|weight|wt|cotton|acrylic|balls?|skeins?|hanks?|alpaca|ply)\b|\byarn:")
_NAME = later(
    r"(?i)(?<![\w-])(?:(?P<ply>\d{1,2})[- ]?ply|(?P<name>"
    + "|".join(
        sorted(
            (re.escape(name).replace(r"\ ", r"[\s-]?") for name in yarn_names() if "ply" not in name),
            key=len,
            reverse=True,
        )
    )
    + r"))(?![\w-])(?P<weight>[\s-]*(?:weight|wt)\b)?"
)
_CLASS = later(
    r"(?i)(?:#\s?|\b(?:category|class|cyc|weight)\s+#?)[(\[]?(?P<number>[0-7])(?![\d.])[)\]]?(?!\s*(?:mm|sts?|in|cm|\())"
    r"|(?:\bsize\s+|(?<=yarn )|(?<=weight )|(?<=worsted )|(?<=bulky )|(?<=dk )|(?<=aran ))(?P<plain>[0-7])(?=\s*(?:yarn|weight|[(,;]|$))"
    r"|\(\s*#?(?P<bracket>[0-7])\s*\)"
)
_WEAK = frozenset(
    {
        "light",
        "fine",
        "medium",
        "craft",
        "rug",
        "baby",
        "sock",
        "lace",
        "afghan",
        "roving",
        "jumbo",
        "bulky",
        "chunky",
        "sport",
    }
)

_NOTIONS = {
    "button": r"buttons?(?!hole)",
    "bead": "beads?",
    "safety eye": r"safety\s+(?:eyes?|noses?)|(?:plastic|doll|toy|animal)\s+eyes?",
    "bell": "bells?",
    "snap": "snaps?|press[- ]studs?",
    "cord": "cords?|ribbon|elastic",
    "zip": "zip(?:per)?s?",
    "marker": r"(?:(?:stitch|split|st|locking)[\s-]+)?markers?",
    "stitch holder": r"stitch[\s-]holders?|holders?",
    "cable needle": r"cable\s+needle|cn",
}
_NOTION = later(
    "|".join(rf"(?P<{kind.replace(' ', '_')}>\b(?:{words})\b)" for kind, words in _NOTIONS.items()), re.IGNORECASE
)
# one of them is in every notion, so that a round without any need not be searched
_NOTION_STEMS = (
    "button",
    "bead",
    "eye",
    "nose",
    "bell",
    "snap",
    "press",
    "cord",
    "ribbon",
    "elastic",
    "zip",
    "marker",
    "holder",
    "cable",
    "cn",
)
_HOW_MANY = later(
    r"(?i)(?<![\w./-])(\d{1,2}|one|two|three|four|five|six|seven|eight|nine|ten|twelve)(?!\s*(?:mm|cm|in|ins|inch|\"|m|yds?|oz|g)\b)[ \t]+(?:x[ \t]+)?"
    r"(?:pairs?\s+of\s+)?(?:(?!and\b|or\b|m\b|mm\b|hook\b)[a-z-]+[ \t]+|\(?\d+(?:\.\d)?(?:/\d)?[ \t]*(?:mm|cm|in|\"|inch)\.?\)?[ \t]+){0,4}$"
)
_CAUTION = later(
    r"(?i)\bchok(?:e|ing)\b|\bsmall\s+parts\b|\b(?:not\s+(?:suitable|safe|for)|unsuitable|unsafe|under\s+(?:3|three|36)|safety\s+(?:note|warning|regulations?)|never\s+leave|strangl\w+|swallow\w*|"
    r"embroider(?:ed)?\s+(?:the\s+)?(?:eyes|features)|instead\s+of\s+(?:safety\s+eyes|buttons|beads)|supervis\w+|securely|firmly\s+(?:sewn|attached)|hazard)\b"
)
# one of them is in every caution
_CAUTION_STEMS = (
    *("chok", "small", "not ", "not\n", "unsui", "unsafe", "under", "safety", "never", "strangl", "swallow"),
    *("embroider", "instead", "supervis", "securely", "firmly", "hazard"),
)
_LETTERED = later(
    r"\b(?i:colou?rs?|cols?|yarns?)\.?[ \t]+((?:[A-H]|MC|CC\d?)(?:(?:[ \t]*,[ \t]*|[ \t]*(?:and|&)[ \t]*)(?:[A-H]|MC|CC\d?)(?![ \t]+hook))*)(?![\w'-]|[ \t]+hook)"
)
_LETTER = later(r"(?<![A-Za-z])([A-H]|MC|CC\d?)(?![A-Za-z'])")
_LETTER_LISTED = later(
    r"(?m)(?:^\s*[-*\u2022]?\s*|[,;]\s+)([A-H]|MC|CC\d?)\s*(?::|=|-[ \t])[ \t]*(?!(?:[a-z]+ )?(?:increase|decrease|crochet|chain|stitch|dec|inc|knit|purl)\b)[a-z]|(?<!mm )(?<!mm)(?<!hook )\(([A-H]|MC|CC\d?)\)(?![ \t]*(?:hook|mm))"
)
_CAPITAL = later(r"\s(?:[A-H]|MC|CC\d?)(?=[\s,.;:)]|$)")
_LETTER_USED = later(
    r"(?:\b[Ww]ith|\b[Uu]sing|\b(?:[Cc]hange|[Ss]witch|[Cc]hanging)\s+(?:back\s+)?to|\b[Jj]oin)\s+(?:(?:colou?r|yarn|col\.?)\s+)?([A-H]|MC|CC\d?)(?=[\s,.;:)]|$)(?!\s+(?:hook|strand|needle|row|rnd|round)|\s?-\s?\d|\s+\()"
)


def read_materials(
    text: str, talk: Sequence[Span], rounds: Sequence[Span], head: Span, stitches: Mapping[str, Stitch]
) -> Materials:
    """Read what a draft is made with. `talk` are the stretches outside its rounds, `stitches` the spellings it may use."""
    found = [*quantities(text, 0, len(text))]
    areas = _lines(talk)
    clauses = [Span(*clause.span()) for area in areas for clause in _CLAUSE.finditer(text, area.start, area.end)]
    listed = [*_notions(text, [area for area in areas if area.start < head.end])]
    used = [*_notions(text, [*(area for area in areas if area.start >= head.end), *rounds])]
    return Materials(
        yarns=tuple(yarn for clause in clauses if (yarn := _yarn(text, clause, found))),
        tools=tuple(tool for clause in clauses for tool in _tools(text, clause)),
        notions=tuple(listed),
        notions_used=tuple(used),
        colours=tuple(_colours_listed(text, [area for area in areas if area.start < head.end])),
        colours_used=tuple(
            Colour(match[1], Span(*match.span(1)))
            for span in rounds
            if _CAPITAL.search(text, span.start, span.end)
            for match in _LETTER_USED.finditer(text, span.start, span.end)
        ),
        gauges=tuple(gauges(text, areas, found, stitches)),
        measures=tuple(
            one for area in areas if area.start < head.end for one in measures(text, area.start, area.end, found)
        ),
        pairings=tuple(pairings(text, found)),
        cautions=tuple(_cautions(text)),
        blends=tuple(blends(text)),
        shoes=tuple(shoes(text, [area for area in areas if area.start < head.end])),
        editions=tuple(editions(text)),
    )


def _cautions(text: str) -> Iterator[Span]:
    small = text.casefold()
    if any(word in small for word in _CAUTION_STEMS):
        for match in _CAUTION.finditer(text):
            yield Span(*match.span())


def _lines(spans: Sequence[Span]) -> list[Span]:
    """Join stretches that follow each other, so that what is said over several lines is read in one."""
    joined: list[Span] = []
    for span in sorted(spans):
        if joined and span.start <= joined[-1].end + 2:
            joined[-1] = joined[-1].cover(span)
        else:
            joined.append(span)
    return joined


# ---------------------------------------------------------------- tools


def _tools(text: str, clause: Span) -> Iterator[Tool]:
    """Find the hooks and needles of one clause: a label with its millimetres, or either alone."""
    words = _SEWING.sub(lambda match: " " * len(match[0]), text[clause.start : clause.end])
    hook, needle = _HOOK.search(words), _NEEDLE.search(words)
    if hook is None and needle is None:
        return
    kind = "needle" if hook is None else "steel hook" if _STEEL.search(words) else "hook"
    past = 0
    paired = sorted(
        (match for pattern in (_LABEL_MM, _MM_LABEL, _NUMBERED, _MM_NUMBERED) for match in pattern.finditer(words)),
        key=lambda match: (match.start(), -match.end()),
    )
    for match in paired:
        if match.start() >= past:
            past = match.end()
            yield _tool(kind, match, closed(text, _at(match, clause.start)))
    for match in _MM.finditer(words):
        if not any(pair.start() <= match.start() < pair.end() for pair in paired) and not re.match(
            r"\s*(?:safety|plastic|eyes?|beads?|buttons?|tall|wide|long)", words[match.end() :]
        ):
            yield Tool(kind, _at(match, clause.start), mm=number_of(match[1]))
    if kind != "needle" and not _MM.search(words) and not past:
        for match in _ALONE.finditer(words):
            label = "-".join(part for part in (match[1] or match[3], match[2] or match[4]) if part)
            yield Tool(kind, _at(match, clause.start), label=label, scale="US")


def _tool(kind: str, match: re.Match[str], span: Span) -> Tool:
    cells = {name[:-1]: value for name, value in match.groupdict().items() if value}
    number = cells.get("number") or cells.get("plain")
    number = re.sub(r"[ -]?1/2|\s?\u00bd", ".5", number) if number else None
    label = "-".join(part for part in (cells.get("letter"), number) if part)
    return Tool(
        kind,
        span,
        mm=number_of(cells["mm"]),
        label=label,
        scale=cells.get("scale") or ("US" if "letter" in cells else None),
    )


def _at(match: re.Match[str], start: int) -> Span:
    return Span(start + match.start(), start + match.end())


# ---------------------------------------------------------------- yarn


def _yarn(text: str, clause: Span, found: Sequence[Quantity]) -> Yarn | None:
    """Read the weight and the amounts of yarn that one clause gives, None where it gives neither."""
    words = text[clause.start : clause.end]
    if not _YARN_WORD.search(words):
        return None
    names = [match for match in _NAME.finditer(words) if _is_weight(match, words)]
    number = _CLASS.search(words) if names or re.search(r"(?i)\byarn|weight\b", words) else None
    amounts = tuple(
        _without(one, clause.start + number.start(number.lastgroup or 0) if number else -1)
        for one in found
        if clause.start <= one.span.start < clause.end and one.unit in ("g", "oz", "yd", "m")
    )
    if not names and number is None and not amounts:
        return None
    first = min((match.start() for match in (*names, number) if match), default=0)
    last = max((match.end() for match in (*names, number) if match), default=len(words))
    return Yarn(
        Span(clause.start + first, clause.start + last),
        number=int(number["number"] or number["plain"] or number["bracket"]) if number else None,
        names=tuple(_name(match) for match in names),
        amounts=amounts,
    )


def _without(amount: Quantity, number: int) -> Quantity:
    """Drop the class number that a list of amounts seems to begin with: `weight 3, 65/90/120 m`."""
    same = amount.span.start == number and len(amount.values) > 1
    return replace(amount, values=amount.values[1:]) if same else amount


def _is_weight(match: re.Match[str], words: str) -> bool:
    """Tell whether a word that may be a weight of yarn is one here: `light` alone is none, `bulky yarn` is."""
    if match["ply"] or match["weight"] or match["name"].lower() not in _WEAK:
        return True
    return bool(
        re.match(r"(?i)[)\]]?\s*(?:[(#]|yarn\b|weight\b)", words[match.end() :])
        and match["name"].lower() not in ("light", "fine", "medium")
    )


def _name(match: re.Match[str]) -> str:
    return f"{int(match['ply'])} ply" if match["ply"] else re.sub(r"[\s-]+", " ", match["name"].lower())


# ---------------------------------------------------------------- notions and colours


def _notions(text: str, areas: Sequence[Span]) -> Iterator[Notion]:
    small = text.lower()
    for area in areas:
        if not any(small.find(stem, area.start, area.end) >= 0 for stem in _NOTION_STEMS):
            continue
        for match in _NOTION.finditer(text, area.start, area.end):
            many = _HOW_MANY.search(text, max(area.start, match.start() - 40), match.start())
            number = None if many is None else cardinal(many[1])
            yield Notion((match.lastgroup or "").replace("_", " "), Span(*match.span()), number)


def _colours_listed(text: str, areas: Sequence[Span]) -> Iterator[Colour]:
    seen: set[str] = set()
    for area in areas:
        lettered = [
            (letter[1].upper(), Span(*letter.span(1)))
            for match in _LETTERED.finditer(text, area.start, area.end)
            for letter in _LETTER.finditer(text, *match.span(1))
        ]
        lettered += [
            ((match[1] or match[2]).upper(), Span(*match.span(1 if match[1] else 2)))
            for match in _LETTER_LISTED.finditer(text, area.start, area.end)
        ]
        for letter, span in sorted(lettered, key=lambda one: one[1]):
            if letter not in seen:
                seen.add(letter)
                yield Colour(letter, span)
