"""Notes: what a draft's head and remarks settle once for all: beginning chains, elided rounds, multiples, terms."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..draft import Span
from ..pattern import ChainNote, ChainRule, Elided, Multiple

_SENTENCE = re.compile(r"[^.,;\n]+(?:,\s*which[^.,;\n]+)?(?:\n(?=[a-z])[^.,;\n]+)*")
_CHAIN = re.compile(
    r"(?i)\b(?:ch(?:ain)?s?|tch|turning ch\w*|beg(?:inning)?\s+ch\w*)\b[\s-]*(?P<n>\d)?|\b(?P<uk>\d)\s*ch\b"
)
_COUNT_WORD = re.compile(
    r"(?i)\b(?:counts?|counted|cts|considered|stands?\s+for)\b|\b(?:is|are)\s+(?:not|never)\s+(?:a\s+)?st(?:itch)?\b"
)
_NOT = re.compile(r"(?i)\b(?:not|never|no|nothing)\b|n't")
_NOT_WRITTEN = re.compile(
    r"(?i)(?:rounds?|rnds?|rows?)\s+(?:that\s+are\s+)?(?:not\s+(?:written|given|listed|mentioned|described|shown|stated)|in\s+between|between)[^.\n]{0,60}?"
    r"(?:\bas\s+(?:rnd|round|row)\s+(?P<as>\d+)|\b(?:even|plain|sc|dc|hdc|knit|purl|without|straight)\b)"
)
_EVERY_OTHER = re.compile(
    r"(?i)(?:every\s+(?:other|second|alternate|2nd)\s+(?:round|rnd|row)|(?:all\s+)?(?P<parity>even|odd)(?:[- ]numbered)?\s+(?:rounds|rnds|rows))\b"
    r"[^.\n:]{0,40}?(?:\bas\s+(?:rnd|round|row)\s+(?P<as>\d+)|\b(?:even(?!-)|plain|straight|purled?|knit|without\s+(?:increas|shap)\w*|not\s+given))"
)
_MULTIPLE = re.compile(
    r"(?i)\bmultiples?\s+of\s+(?P<of>\d+)(?:\s*(?:sts?|stitches|ch|chains?))?(?:\s*(?:\+|plus)\s*(?P<plus>\d+))?"
    r"(?:[^.\n]{0,25}?(?:\+|plus|and)\s*(?:an?\s+)?(?P<base>\d+)\s+(?:more\s+)?(?:for|ch)\b)?"
)
_COLOURED = re.compile(
    r"(?i)\bsizes?\b[^.\n]{0,60}\b(?:in|by)\s+(?:different\s+)?(?:colou?rs?|red|blue|green|pink|purple|orange|bold\s+colou?r)\b"
    r"|\b(?:red|blue|green|pink|purple|orange|black)\b\s*(?:=|is|for|figures?|numbers?)[^.\n]{0,30}\bsizes?\b"
    r"|\b(?:figures?|numbers?)\s+in\s+(?:red|blue|green|pink|purple|orange)\b"
)


def chain_notes(text: str, start: int) -> Iterator[ChainNote]:
    """Find sentences that say whether beginning chains count: `ch 2 does not count as a st`."""
    for sentence in _SENTENCE.finditer(text):
        words = sentence[0]
        if not _COUNT_WORD.search(words):
            continue
        chain = _CHAIN.search(words)
        if chain is None or re.search(r"(?i)\bsp(?:ace)?s?\b", words):
            continue
        number = chain["n"] or chain["uk"]
        rule = ChainRule.COUNTS_NOT if _NOT.search(words) else ChainRule.COUNTS
        span = Span(start + sentence.start(), start + sentence.end())
        skipped = bool(re.search(r"(?i)\b(?:skip(?:ped)?|missed)\b", words))
        yield ChainNote(rule, span, int(number) if number and not skipped else None, skipped)


def elisions(text: str, start: int) -> Iterator[Elided]:
    """Find notes that declare rounds which are then not written."""
    for match in _NOT_WRITTEN.finditer(text):
        yield Elided(
            Span(start + match.start(), start + match.end()),
            as_round=int(match["as"]) if match["as"] else None,
        )
    for match in _EVERY_OTHER.finditer(text):
        parity = {"even": 0, "odd": 1}.get((match["parity"] or "").lower())
        as_round = int(match["as"]) if match["as"] else None
        yield Elided(Span(start + match.start(), start + match.end()), parity=parity, as_round=as_round)


def multiples(text: str) -> Iterator[Multiple]:
    """Find stated multiples."""
    for match in _MULTIPLE.finditer(text):
        yield Multiple(
            Span(match.start(), match.end()),
            int(match["of"]),
            int(match["plus"] or 0),
            int(match["base"] or 0),
        )


def coloured_sizes(text: str) -> Span | None:
    """Find words that tell sizes apart by colour."""
    match = _COLOURED.search(text)
    return Span(match.start(), match.end()) if match else None


def is_spiral(text: str) -> bool | None:
    """Tell whether the notes say that rounds are worked in a spiral; None where they don't say."""
    if re.search(r"(?i)\bspiral|continuous\s+rounds?|do\s+not\s+join", text):
        return True
    if re.search(r"(?i)\bjoin(?:ed)?\b[^.\n]{0,30}\b(?:each|every)\s+(?:round|rnd|row)", text):
        return False
    return None


_UK = re.compile(r"(?i)\b(?:htr|dtr|trtr|miss|tension|half treble|double treble|d\.c\.|h\.tr)\b")
_US = re.compile(r"(?i)\b(?:sc|hdc|single crochet|half double|gauge|skip|sc2tog|sk)\b")
_SAYS_UK = re.compile(
    r"(?i)\b(?:uk|u\.k\.|british|english)\s*(?:crochet\s+)?(?:terms?|terminology|stitch(?:es)?|format|names?|abbrev\w*|pattern)|terms?\s+(?:are|is|:)\s*(?:uk|british)"
)
_SAYS_US = re.compile(
    r"(?i)\b(?:us|u\.s\.|usa|american)\s*(?:crochet\s+)?(?:terms?|terminology|stitch(?:es)?|format|names?|abbrev\w*|pattern)|terms?\s+(?:are|is|:)\s*(?:us|american)"
)


def terms_of(text: str) -> tuple[str | None, str]:
    """Return the terms that the draft declares (None where it doesn't) and those its words show: "US" or "UK"."""
    said = "UK" if _SAYS_UK.search(text) else "US" if _SAYS_US.search(text) else None
    uk, us = len(_UK.findall(text)), len(_US.findall(text))
    has_sc = len(re.findall(r"(?i)\b\d*(?:sc|hdc)\b|\bs\.c\.|\bsingle crochet", text))
    treble_not_dc = len(re.findall(r"(?i)\b\d*(?:tr|htr)\b", text))
    if said:
        return said, said
    if has_sc >= 2 and not re.search(r"(?i)\b\d*htr\b|half treble", text):
        return None, "US"
    if re.search(r"(?i)\b\d*htr\b|half treble", text) or (
        uk > us and (treble_not_dc or has_sc == 0) and re.search(r"(?i)\b\d*dc\b|double crochet", text)
    ):
        return None, "UK"
    return None, "US"


_KNIT = re.compile(
    r"(?i)\b(?:knit|purl|k\d+|p\d+|k2tog|ssk|cast\s+on|co|cast\s+off|bind\s+off|stocking|stockinette|garter|needles?|yo|psso|m1)\b"
)
_HOOK = re.compile(
    r"(?i)\b(?:\d*(?:sc|dc|hdc|tr|htr)|crochet|hook|ch\s*\d+|sl\s*st|magic\s+(?:ring|circle|loop)|chain)\b"
)


def craft_of(text: str) -> str | None:
    """Return "crochet" or "knitting" by the words of the draft, None where neither shows."""
    knit, hook = len(_KNIT.findall(text)), len(_HOOK.findall(text))
    if not knit and not hook:
        return None
    return "knitting" if knit > hook else "crochet"
