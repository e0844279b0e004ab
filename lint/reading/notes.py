"""Notes: what a draft's head and remarks settle once for all: beginning chains, elided rounds, multiples, terms."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from functools import lru_cache

from ..draft import Span
from ..later import later
from ..pattern import ChainNote, ChainRule, Elided, Multiple

_SENTENCE = later(r"[^.,;\n]+(?:,\s*which[^.,;\n]+)?(?:\n(?=[a-z])[^.,;\n]+)*")
_CHAIN = later(r"(?i)\b(?:ch(?:ain)?s?|tch|turning ch\w*|beg(?:inning)?\s+ch\w*)\b[\s-]*(?P<n>\d)?|\b(?P<uk>\d)\s*ch\b")
_COUNT_WORD = later(
    r"(?i)\b(?:counts?|counted|cts|considered|stands?\s+for)\b|\b(?:is|are)\s+(?:not|never)\s+(?:a\s+)?st(?:itch)?\b"
)
_NOT = later(r"(?i)\b(?:not|never|no|nothing)\b|n't")
_NOT_WRITTEN = later(
    r"(?i)(?:rounds?|rnds?|rows?)\s+(?:that\s+are\s+)?(?:not\s+(?:written|given|listed|mentioned|described|shown|stated)|in\s+between|between)[^.\n]{0,60}?"
    r"(?:\bas\s+(?:rnd|round|row)\s+(?P<as>\d+)|\b(?:even|plain|sc|dc|hdc|knit|purl|without|straight)\b)"
)
_EVERY_OTHER = later(
    r"(?i)(?:every\s+(?:other|second|alternate|2nd)\s+(?:round|rnd|row)|(?:all\s+)?(?P<parity>even|odd|ws|wrong[- ]side)(?:[- ]numbered)?\s+(?:rounds|rnds|rows))\b"
    r"(?:(?!\b(?:even|odd)[ -](?:rows|rnds|rounds|numbered))[^.;\n:]){0,40}?(?:\bas\s+(?:rnd|round|row)\s+(?P<as>\d+)|\b(?:even(?!-|\s+(?:rows|rnds|rounds|numbered))|plain|straight|purled?|knit|without\s+(?:increas|shap)\w*|not\s+(?:given|written|shown|listed)))"
)
_MULTIPLE = later(
    r"(?i)\bmultiples?\s+of\s+(?P<of>\d+)(?:\s*(?:sts?|stitches|ch|chains?))?(?:\s*(?:\+|plus)\s*(?P<plus>\d+))?"
    r"(?:[^.\n]{0,25}?(?:\+|plus|and)\s*(?:an?\s+)?(?P<base>\d+)\s+(?:more\s+)?(?:for|ch)\b)?"
)
_COLOURED = later(
    r"(?i)\bsizes?\b[^.\n]{0,60}\b(?:in|by)\s+(?:different\s+)?(?:colou?rs?|red|blue|green|pink|purple|orange|bold\s+colou?r)\b"
    r"|\b(?:red|blue|green|pink|purple|orange|black)\b\s*(?:=|is|for|figures?|numbers?)[^.\n]{0,30}\bsizes?\b"
    r"|\b(?:figures?|numbers?)\s+in\s+(?:red|blue|green|pink|purple|orange)\b"
)


def chain_notes(text: str, start: int) -> Iterator[ChainNote]:
    """Find sentences that say whether beginning chains count: `ch 2 does not count as a st`."""
    if not _COUNT_WORD.search(text):
        return
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


_COLOUR_WORDS = frozenset(
    {"red", "blue", "green", "pink", "purple", "orange", "black", "color", "colors", "colour", "colours"}
)
_FIGURE_WORDS = frozenset({"size", "sizes", "figure", "figures", "number", "numbers"})


def coloured_sizes(text: str) -> Span | None:
    """Find words that tell sizes apart by colour."""
    used = _words_used(text)
    if used.keys().isdisjoint(_COLOUR_WORDS) or used.keys().isdisjoint(_FIGURE_WORDS):
        return None
    match = _COLOURED.search(text)
    return Span(match.start(), match.end()) if match else None


def is_spiral(text: str) -> bool | None:
    """Tell whether the notes say that rounds are worked in a spiral; None where they don't say."""
    if re.search(r"(?i)\bspiral|continuous\s+rounds?|do\s+not\s+join", text):
        return True
    if re.search(r"(?i)\bjoin(?:ed)?\b[^.\n]{0,30}\b(?:each|every)\s+(?:round|rnd|row)", text):
        return False
    return None


_RUN = later(r"\w+")


@lru_cache(maxsize=1)
def _words_used(text: str) -> Counter[str]:
    """Count the words and figures of a text, in small letters: one search for all questions about single words."""
    return Counter(_RUN.findall(text.lower()))


_UK = later(r"(?i)\b(?:htr|dtr|trtr|miss|tension|half treble|double treble|d\.c\.|h\.tr)\b")
_US = later(r"(?i)\b(?:sc|hdc|single crochet|half double|gauge|skip|sc2tog|sk)\b")
_NAMED_TERMS = r"\s*(?:crochet\s+)?(?:terms?|terminology|stitch(?:es)?|format|names?|abbrev\w*|pattern)"
# in small letters; the first letter comes first and is looked at from behind, so that a search is quick
_SAYS_UK = later(
    rf"u(?<!\wu)k{_NAMED_TERMS}|u(?<!\wu)\.k\.{_NAMED_TERMS}|b(?<!\wb)ritish{_NAMED_TERMS}|e(?<!\we)nglish{_NAMED_TERMS}"
    r"|terms?\s+(?:are|is|:)\s*(?:uk|british)"
)
_SAYS_US = later(
    rf"u(?<!\wu)sa?{_NAMED_TERMS}|u(?<!\wu)\.s\.{_NAMED_TERMS}|a(?<!\wa)merican{_NAMED_TERMS}"
    r"|terms?\s+(?:are|is|:)\s*(?:us|american)"
)
_SC_SPELT = later(r"s(?<!\ws)(?:\.c\.|ingle crochet)")
_SC, _HTR, _TREBLE, _DC = (re.compile(rf"\d*(?:{names})") for names in ("sc|hdc", "htr", "tr|htr", "dc"))


def terms_of(text: str) -> tuple[str | None, str]:
    """Return the terms that the draft declares (None where it doesn't) and those its words show: "US" or "UK"."""
    small = text.lower()
    said = "UK" if _SAYS_UK.search(small) else "US" if _SAYS_US.search(small) else None
    if said:
        return said, said
    used = _words_used(text)
    sc = _often(used, _SC) + len(_SC_SPELT.findall(small))
    if _often(used, _HTR) or "half treble" in small:
        return None, "UK"
    if sc < 2 and (_often(used, _DC) or "double crochet" in small) and (not sc or _often(used, _TREBLE)):
        return None, "UK" if len(_UK.findall(text)) > len(_US.findall(text)) else "US"
    return None, "US"


def _often(used: Counter[str], name: re.Pattern[str]) -> int:
    """Count the words of a kind."""
    return sum(number for word, number in used.items() if name.fullmatch(word))


_KNIT = later(
    r"knit|purl|[kp]\d+|k2tog|ssk|co|stocking|stockinette|garter|needles?|yo|psso|m1[lr]?|kfb|pfb|skpo?|p2tog|s[l]?m"
)
_KNIT_PHRASE = later(r"c(?<!\wc)ast\s+o(?:n|ff)\b|b(?<!\wb)ind\s+off\b|e(?<!\we)ach\s+end\s+of\b")
_HOOK = later(r"\d*(?:sc|dc|hdc|tr|htr)|crochet|hook|ch\d+|slst|chain")
_HOOK_PHRASE = later(r"c(?<!\wc)h\s+\d+\b|s(?<!\ws)l\s+st\b|m(?<!\wm)agic\s+(?:ring|circle|loop)\b")


def craft_of(text: str) -> str | None:
    """Return "crochet" or "knitting" by the words of the draft, None where neither shows."""
    used, small = _words_used(text), text.lower()
    knit = _often(used, _KNIT) + len(_KNIT_PHRASE.findall(small))
    hook = _often(used, _HOOK) + len(_HOOK_PHRASE.findall(small))
    if not knit and not hook:
        return None
    return "knitting" if knit > hook else "crochet"
