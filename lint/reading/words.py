"""Words: the tokens of a draft, labelled with what they are in pattern English.

spaCy's tokenizer cuts the text by our own rules (letters, digits and signs apart; `2nd` and `st's` whole) and its
phrase matcher finds the terms of the trade tables, longest first. Offsets are those of the draft's text: look-alike
characters are replaced one for one before, so nothing moves.
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_left
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import TYPE_CHECKING, Any, cast

from ..draft import Span
from ..pattern import Figure
from ..trade.tables import Stitch, spellings
from .numbers import cardinal, ordinal, times_word

if TYPE_CHECKING:
    from spacy.tokens import Doc


LONGEST_NUMBER = 8  # digits; no pattern counts further


@dataclass(frozen=True, slots=True)
class Word:
    """A labelled word or sign.

    `kind` is a label of the word table, or "number", "ordinal", "often" (once, twice), "stitch", "word" (not known),
    or for signs the sign itself. `value` is the number meant, `stitch` the row of the stitch table.
    `blank` tells whether white space stands before it. `values` are the figures of a list, one a size.
    """

    text: str
    kind: str
    span: Span
    value: int | None = None
    stitch: Stitch | None = None
    blank: bool = True
    values: tuple[int | None, ...] = ()

    @property
    def figure(self) -> Figure:
        """Return the number or list of numbers that the word stands for."""
        return Figure(self.values or (self.value,), self.span)


_SCAN = re.compile(r"\d+(?:st|nd|rd|th)(?![a-z])|\d+|[^\W\d_]+(?:'[^\W\d_]+)?|\*+|[^\w\s]|_|\s+", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class _Cut:
    """A place where spaCy's tokenizer shall cut; it asks for start and end like a regex match."""

    place: int

    def start(self) -> int:
        return self.place

    def end(self) -> int:
        return self.place


def _cuts(text: str) -> Iterator[_Cut]:
    for match in _SCAN.finditer(text):
        if match.start():
            yield _Cut(match.start())


@dataclass(frozen=True, slots=True)
class Lexicon:
    """The phrases known in one craft and set of terms, ready to be matched."""

    tokenizer: Any
    matcher: Any
    labels: Mapping[str, str]
    stitches: Mapping[str, Stitch]


@cache
def _word_table() -> Mapping[str, str]:
    """Return phrase to label; where a phrase stands under two labels the earlier one holds."""
    table = tomllib.loads(resources.files(__package__ or "").joinpath("../trade/words.toml").read_text("utf-8"))
    labels: dict[str, str] = {}
    for label, phrases in table.items():
        for phrase in phrases:
            labels.setdefault(phrase, label)
    return labels


def _key(tokens: list[str]) -> str:
    return " ".join(tokens)


@cache
def lexicon(craft: str, terms: str) -> Lexicon:
    """Return the lexicon of a craft ("crochet", "knitting") in "US" or "UK" terms."""
    # spaCy is most of a cold start: it is imported only when a draft must be read
    from spacy.attrs import LOWER  # noqa: PLC0415  # pyright: ignore[reportUnknownVariableType]
    from spacy.matcher import PhraseMatcher  # noqa: PLC0415
    from spacy.tokenizer import Tokenizer  # noqa: PLC0415  # pyright: ignore[reportUnknownVariableType]
    from spacy.vocab import Vocab  # noqa: PLC0415

    vocab = Vocab(lex_attr_getters={LOWER: str.lower})
    tokenizer = cast("Any", Tokenizer)(vocab, infix_finditer=_cuts)
    matcher: Any = PhraseMatcher(vocab, attr="LOWER")
    labels: dict[str, str] = {}
    stitches: dict[str, Stitch] = {}
    phrases: list[Doc] = []

    def learn(phrase: str) -> str | None:
        doc: Any = tokenizer(phrase)
        tokens: list[str] = [token.text.lower() for token in doc if token.text.strip()]
        if not tokens:
            return None
        if len(tokens) > 1:
            phrases.append(doc)
        return _key(tokens)

    for phrase, label in _word_table().items():
        if key := learn(phrase):
            labels.setdefault(key, label)
    for spelling, stitch in spellings(craft, terms).items():
        if (key := learn(spelling)) and stitch.kind not in ("join",):
            stitches.setdefault(key, stitch)
    matcher.add("term", phrases)
    return Lexicon(tokenizer, matcher, labels, stitches)


def _label(text: str) -> tuple[str, int | None]:
    """Label a single token that is in no table."""
    if len(text) > LONGEST_NUMBER and text[0].isdigit():
        return "word", None
    if (value := times_word(text)) is not None:
        return "often", value
    if (value := cardinal(text)) is not None:
        return "number", value
    if (value := ordinal(text)) is not None:
        return "ordinal", value
    if text[0].isalpha():
        return "word", None
    return text, None


_MEASURE = re.compile(
    r"(?<![\w.,])\d{1,6}(?:[.,]\d{1,4})?(?:\s?[\u00bc\u00bd\u00be]|\s\d/\d)?\s?-?(?:mm\b|cms?\b|inch(?:es)?\b|\"|''|in\.(?=\W)|oz\b|ounces?\b|g\b|grams?\b|yds?\b|yards?\b|met(?:er|re)s?\b)"
    r"|(?<!\d)\d{0,4}[\u00bc\u00bd\u00be](?:\s?(?:\"|in\b|inch(?:es)?|cm|mm))?|(?<!\d)\d{1,6}\.\d{1,4}(?:\s?(?:mm|cm|in))?",
    re.IGNORECASE,
)


def words_of(text: str, lex: Lexicon) -> tuple[Word, ...]:
    """Label the words of a cleaned text; a measurement is one word of kind "measure". White space yields no word."""
    doc = lex.tokenizer(text)
    ends: dict[int, int] = {}
    for _, start, end in lex.matcher(doc):
        ends[start] = max(end, ends.get(start, 0))
    measured = {match.start(): match.end() for match in _MEASURE.finditer(text)}
    words: list[Word] = []
    index, reach = 0, 0
    while index < len(doc):
        token = doc[index]
        if not token.text.strip():
            index += 1
            continue
        if (after := measured.get(token.idx)) is not None:
            words.append(
                Word(
                    text[token.idx : after].lower(),
                    "measure",
                    Span(token.idx, after),
                    blank=token.idx > reach or not reach,
                )
            )
            while index < len(doc) and doc[index].idx < after:
                index += 1
            reach = after
            continue
        end = ends.get(index, index + 1)
        piece = doc[index:end]
        key = _key([part.text.lower() for part in piece if part.text.strip()])
        start, stop = token.idx, piece[-1].idx + len(piece[-1].text)
        words.append(_word(key, Span(start, stop), lex, blank=start > reach or start == 0))
        reach = stop
        index = end
    return tuple(words)


def _word(key: str, span: Span, lex: Lexicon, *, blank: bool) -> Word:
    if key.strip("*") == "":
        return Word(key, "*", span, blank=blank)
    if (stitch := lex.stitches.get(key)) is not None:
        return Word(key, "stitch", span, stitch=stitch, blank=blank)
    if (label := lex.labels.get(key)) is not None:
        value = ordinal(key) if label == "first" else None
        return Word(key, label, span, value=value, blank=blank)
    kind, value = _label(key)
    if kind == "word" and not key.isascii() and (stitch := lex.stitches.get(_ascii(key))) is not None:
        return Word(key, "stitch", span, stitch=stitch, blank=blank)
    return Word(key, kind, span, value=value, blank=blank)


def _ascii(text: str) -> str:
    """Drop letters of other alphabets that a keyboard or a scan left in a word."""
    return "".join(char for char in text if char.isascii())


@dataclass(frozen=True, slots=True)
class Words:
    """All words of a draft, to be asked for the words of a span."""

    all: tuple[Word, ...]
    starts: tuple[int, ...]

    @classmethod
    def made_of(cls, words: tuple[Word, ...]) -> Words:
        """Index words by where they begin."""
        return cls(words, tuple(word.span.start for word in words))

    def within(self, span: Span) -> tuple[Word, ...]:
        """Return the words that begin inside the span."""
        return self.all[bisect_left(self.starts, span.start) : bisect_left(self.starts, span.end)]
