"""Mending: words with a letter wrong, where only one word of the trade can stand in that place."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Sequence
from functools import lru_cache
from importlib import resources
from itertools import compress, count
from operator import eq
from typing import Any

from rapidfuzz import process
from rapidfuzz.distance import OSA

from ..draft import Span
from ..later import later
from ..spellings import Doubt, Mended
from .words import Lexicon, Word

_PLACE_WORDS = {
    "next": "next",
    "each": "each",
    "same": "same",
    "first": "first",
    "last": "last",
    "every": "each",
}
_AROUND_STITCH = frozenset({"number", "next", "each", "stitch", "first", "last", "same"})
_INTO = frozenset({"n", "iin", "inn", "im", "ni", "i", "int"})
_SCRAPS = frozenset({"s", "sr", "sy", "ts"})  # what is left of sc or st
_SCRAPS_AND_INTO = _SCRAPS | _INTO
_STITCH_SLIPS = {
    "so": "sc",
    "se": "sc",
    "sx": "sc",
    "cs": "sc",
    "do": "dc",
    "de": "dc",
    "cd": "dc",
    "hcd": "hdc",
    "hd": "hdc",
}
_CHAIN_SLIPS = {"hc": "ch", "cj": "ch", "cg": "ch"}

_TABLE: dict[str, Any] = tomllib.loads(
    resources.files(__package__ or "").joinpath("../trade/spelling.toml").read_text("utf-8")
)
_TERMS: tuple[str, ...] = tuple(_TABLE["terms"])
_KNOWN = frozenset(_TERMS)
_OWN_WORDS: frozenset[str] = frozenset(_TABLE["own_words"])
_PLACE_OWN: frozenset[str] = frozenset(_TABLE["place_words"])
_HEADING_OWN: frozenset[str] = frozenset(_TABLE["heading_words"])
_KNOWN_SLIPS: dict[str, str] = dict(_TABLE["known_slips"])
_PARTS = frozenset({"crochet", "single", "double", "half", "front", "magic"})  # half a term: alone they are nothing
_NUMBER_SLIPS = {"tow": (2, "two"), "twp": (2, "two"), "thre": (3, "three"), "fuor": (4, "four"), "fiv": (5, "five")}
_VOWELS = frozenset("aeiouy")
_PLACES = frozenset({"next", "last", "first", "each", "into"})
_RUN_TOGETHER = {
    first + second: (first, second)
    for first in ("each", "next", "sc", "hdc", "dc", "tr", "st", "sts", "in")
    for second in ("st", "sts", "in", "each", "next", "around", "sc", "dc")
    if first != second and first + second not in ("stin", "instead", "trin")
}
_UNSURE = frozenset({"word", "noise"})
_SAID_ONCE = frozenset(
    {
        "into",
        "next",
        "each",
        "same",
        "first",
        "last",
        "rest",
        "from",
        "rep",
        "noise",
        "word",
        "until",
        "skip",
        "turn",
        "st",
    }
)
_LEAST = 5  # letters


def mend(words: Sequence[Word], lex: Lexicon) -> tuple[tuple[Word, ...], tuple[Mended, ...]]:
    """Mend slips of a letter: `in nexl sc`, `2 sc n next sc`, `1 so in`, `arround`, `nextst`; and tell which."""
    found = list(words)
    kinds = [word.kind for word in words]
    mends = list(_doubts(words, kinds))
    parted: list[tuple[int, tuple[Word, Word]]] = []
    for index in compress(count(), map(_UNSURE.__contains__, kinds)):
        word = words[index]
        if word.kind == "noise" and word.text not in _SCRAPS_AND_INTO:
            continue
        before = found[index - 1] if index else None
        after = words[index + 1] if index + 1 < len(words) else None
        if (two := _parted(word, lex)) is not None:
            parted.append((index, two))
            mends.append(Mended(word.span, " ".join(part.text for part in two), Doubt.WORD))
        elif mended := _mended(word, before, after, lex):
            found[index] = mended[0]
            mends.append(Mended(word.span, mended[1], Doubt.WORD))
        elif word.kind == "word" and _unknown(word, words, index):
            mends.append(Mended(word.span, "", Doubt.UNKNOWN))
    for index, two in reversed(parted):
        found[index : index + 1] = two
    return tuple(found), tuple(mends)


def _doubts(words: Sequence[Word], kinds: Sequence[str]) -> Iterator[Mended]:
    """Find known words that stand twice running, or in the wrong place, or in a spelling known to be wrong."""
    texts = [word.text for word in words]
    for index in compress(count(1), map(eq, texts, texts[1:])):
        if len(texts[index]) > 1 and kinds[index] in _SAID_ONCE:
            st_st = kinds[index] == "st" and (index < 2 or kinds[index - 2] not in ("each", "next"))
            if not st_st:  # `work in st st` names a fabric
                yield Mended(words[index].span, "", Doubt.TWICE)
    for index in compress(count(), map("join".__eq__, kinds)):
        word = words[index]
        before, after = words[max(0, index - 1)], words[min(index + 1, len(words) - 1)]
        if after.text == "st" and _slips(words, index + 1):
            yield Mended(after.span, "sl st", Doubt.WORD)
        elif word.text.endswith("with") and after.kind == "into":  # `Join with to first sc`
            yield Mended(word.span.cover(after.span), "", Doubt.MISSING)
        elif before.text == "to" and word.text == "join" and after.kind == "." and _ends(words, index - 2):
            yield Mended(before.span.cover(word.span), "", Doubt.MISSING)  # `3 sc in corner. To join.`
    if not _KNOWN_SLIPS.keys().isdisjoint(texts):
        for word in words:
            if word.text in _KNOWN_SLIPS:
                yield Mended(word.span, _KNOWN_SLIPS[word.text], Doubt.WORD)


def _ends(words: Sequence[Word], index: int) -> bool:
    """Tell whether a sentence ends at an index."""
    return index >= 0 and words[index].text.endswith((".", ";", ":"))


def _slips(words: Sequence[Word], index: int) -> bool:
    """Tell whether a round is joined with a mere stitch: `Join with st to first sc`."""
    before = words[index - 1] if index else None
    after = words[index + 1].kind if index + 1 < len(words) else "."
    joins = before is not None and before.kind == "join" and before.text.endswith("with")
    return joins and after in ("into", ".", ",", ";")


def _mended(word: Word, before: Word | None, after: Word | None, lex: Lexicon) -> tuple[Word, str] | None:
    text = word.text
    if before is not None and after is not None and len(text) <= 6:
        if (place := _place(text, before, after)) is not None:
            return word._replace(kind=_PLACE_WORDS[place]), place
        if text in _INTO and before.kind in ("stitch", "st") and after.kind in _AROUND_STITCH and after.blank:
            return word._replace(kind="into"), "in"
        if before.kind == "from" and len(text) > 2 and OSA.distance(text, "hook", score_cutoff=1) <= 1:
            return word._replace(text="hook", kind="hook"), "hook"
        if text in _SCRAPS and before.kind == "number" and after.kind in (")", "]", ",", ";", ".", "around"):
            return word._replace(kind="st"), "st"
        if (value := _NUMBER_SLIPS.get(text)) and before.kind in _PLACES and after.kind in ("st", "stitch"):
            return word._replace(kind="number", value=value[0]), value[1]
        if (meant := _stitch_meant(text, before, after)) and (stitch := lex.stitches.get(meant)) is not None:
            return word._replace(text=meant, kind="stitch", stitch=stitch), meant
        if text in ("s", "si", "ls") and before.kind == "join" and after.text == "st":
            return word._replace(kind="noise"), "sl"
        if (small := _small(text, before, after)) is not None:
            return word._replace(text=small, kind=lex.labels.get(small, "noise")), small
    if word.kind == "word" and (meant := _swapped(text, lex)):
        return word._replace(text=meant, kind="stitch", stitch=lex.stitches[meant]), meant
    if word.kind == "word" and (meant := nearest_term(text)):
        if meant in _PARTS:
            return word, meant
        if (stitch := lex.stitches.get(meant)) is not None:
            return word._replace(text=meant, kind="stitch", stitch=stitch), meant
        return word._replace(text=meant, kind=lex.labels.get(meant, "word")), meant
    return None


def _swapped(text: str, lex: Lexicon) -> str | None:
    """Return the abbreviation of a stitch of which two letters changed places: `FPcd`, `hcd`, `dce`."""
    return next((to for to in _swaps(text) if to in lex.stitches), None)


@lru_cache(maxsize=4096)
def _swaps(text: str) -> tuple[str, ...]:
    """Return what a text may be an abbreviation of, with two letters in each other's place."""
    if not 3 <= len(text) <= 6:
        return ()
    swaps = (text[:n] + text[n + 1] + text[n] + text[n + 2 :] for n in range(len(text) - 1))
    return tuple(to for to in swaps if to in ("inc", "dec") or _VOWELS.isdisjoint(to))


def _place(text: str, before: Word, after: Word) -> str | None:
    """Return the word of place meant between `in` and a stitch: `in nexl sc`, `in ech st`."""
    follows = before.kind in ("into", "skip", "post", "over") or (before.kind == "noise" and before.text == "the")
    if not follows or len(text) < 3 or after.kind not in ("st", "stitch", "number", "space"):
        return None
    return next((to for to in _PLACE_WORDS if text not in _PLACE_OWN and OSA.distance(text, to) == 1), None)


def _small(text: str, before: Word, after: Word) -> str | None:
    """Return the small word meant where only one can stand: `rep form *`, `6 tiems`, `, trun.`, `jion with`."""
    if before.kind == "rep" and after.kind == "*":
        meant = "from"
    elif before.kind == "number" and len(text) > 3:
        meant = "times"
    elif before.kind in (",", ";", ".", "around") and after.kind in (",", ";", ".", ")"):
        meant = "turn"
    elif after.text.startswith("with") and before.kind in (",", ";", ".", ")", "around"):
        meant = "join"
    elif before.kind == "join":
        meant = "with"
    elif before.kind in ("each", "next") and text in ("os", "fo", "ot", "oof", "pf"):
        return "of"
    else:
        return "the" if text in ("teh", "hte") else None
    return (
        meant
        if OSA.distance(text, meant) == 1 and text not in ("tune", "torn", "tern", "burn", "coin", "loin")
        else None
    )


def _parted(word: Word, lex: Lexicon) -> tuple[Word, Word] | None:
    """Part two words that were written as one: `eachst`, `scin`."""
    if word.text not in _RUN_TOGETHER:
        return None
    first, second = _RUN_TOGETHER[word.text]
    place = word.span.start + len(first)
    spans = (Span(word.span.start, place), Span(place, word.span.end))
    parts: list[Word] = []
    for text, span in zip((first, second), spans, strict=True):
        stitch = lex.stitches.get(text)
        kind = "stitch" if stitch is not None else lex.labels.get(text, "word")
        parts.append(Word(text, kind, span, stitch=stitch))
    return parts[0], parts[1]


def _stitch_meant(text: str, before: Word, after: Word) -> str | None:
    """Return the stitch meant by a slip between a figure and a place (`1 so in`), or by `hc 3` at a beginning."""
    if before.kind == "number" and after.kind == "into":
        return _STITCH_SLIPS.get(text)
    if after.kind == "number" and before.kind in (":", ".", ",", ";", "*", "("):
        return _CHAIN_SLIPS.get(text)
    return None


@lru_cache(maxsize=4096)
def nearest_term(text: str) -> str | None:
    """Return the term of which this is a misspelling, None where it is a word of its own or near to nothing."""
    if (
        len(text) < _LEAST
        or text in _OWN_WORDS
        or {f"{text}s", text.removesuffix("s")} & _KNOWN
        or not text.isalpha()
        or not text.isascii()
    ):
        return None
    best = process.extractOne(text, _TERMS, scorer=OSA.distance, score_cutoff=1)
    return best[0] if best is not None and best[1] else None


_HEADING = later(r"\n[ \t]*(?P<word>R[a-z]{2,5}) ?\d{1,3}[ \t]*[:.-]")
_HEADING_WORDS = ("Rnd", "Rnds", "Row", "Rows", "Round", "Rounds")


def misspelt_headings(text: str) -> Iterator[Mended]:
    """Find headings with a letter wrong: `Rmd 3:`, `Ruond 4:`."""
    for match in _HEADING.finditer(text):
        word = match["word"]
        if word in _HEADING_WORDS or word.lower() in _HEADING_OWN:
            continue
        meant = next((to for to in _HEADING_WORDS if OSA.distance(word, to) == 1), None)
        if meant is not None:
            yield Mended(Span(*match.span("word")), meant, Doubt.WORD)


def _unknown(word: Word, words: Sequence[Word], index: int) -> bool:
    """Tell whether an unknown word stands where only a stitch can: `yf, sip, k2tog`, `2 xq in next st`."""
    if not 1 <= index < len(words) - 2:
        return False
    before, after, beyond = words[index - 1].kind, words[index + 1].kind, words[index + 2].kind
    if before == "number" and after == "into" and beyond in ("next", "each", "same"):
        return 2 <= len(word.text) <= 3
    between = before == after == "," and beyond == "stitch" and words[index - 2].kind in ("stitch", "number")
    return between and index > 1 and 3 <= len(word.text) <= 5
