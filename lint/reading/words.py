"""Words: the tokens of a draft, labelled with what they are in pattern English.

spaCy's tokenizer cuts the text by our own rules (letters, digits and signs apart; `2nd` and `st's` whole), and the
terms of the trade tables are found among its tokens, longest first. Offsets are those of the draft's text: look-alike
characters are replaced one for one before, so nothing moves.
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from importlib import resources
from itertools import accumulate
from operator import add
from typing import Any, NamedTuple, TypeAlias, cast

from ..draft import Span
from ..figures import Figure
from ..later import later
from ..steps import Make
from ..trade.tables import Stitch, spellings
from .numbers import cardinal, numbers_of_two_words, ordinal, times_word

LONGEST_NUMBER = 8  # digits; no pattern counts further


class Word(NamedTuple):
    """A labelled word or sign; a tuple with names, as every draft is made of thousands.

    `kind` is a label of the word table, or "number", "ordinal", "often" (once, twice), "stitch", "word" (not known),
    or for signs the sign itself. `value` is the number meant, `stitch` the row of the stitch table.
    `blank` tells whether white space stands before it. `values` are the figures of a list, one a size. `make` is what
    a stitch uses and makes where the draft defines it.
    """

    text: str
    kind: str
    span: Span
    value: int | None = None
    stitch: Stitch | None = None
    blank: bool = True
    values: tuple[int | None, ...] = ()
    make: Make | None = None

    @property
    def figure(self) -> Figure:
        """Return the number or list of numbers that the word stands for."""
        return Figure(self.values or (self.value,), self.span)


_SCAN = later(
    r"\d+(?:st|nd|rd|th|(?-i:(?<=[23])d))(?![a-z])|\d+"
    r"|(?:inc|dec|invdec|h?dc|sc|sts?|tr)(?=x\s?\d)"  # `incx6`: the x says how often
    r"|[^\W\d_]+(?:'[^\W\d_]+)?|\*+|[^\w\s]|_|\s+",
    re.IGNORECASE,
)


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
class _Token:
    """What is known of a token wherever it stands; one that is only white space is `empty`."""

    text: str
    length: int
    empty: bool
    kind: str
    value: int | None
    stitch: Stitch | None


Phrases: TypeAlias = "dict[str, Phrases]"  # token by token; the empty one ends a phrase


@dataclass(frozen=True, slots=True)
class Lexicon:
    """The phrases known in one craft and set of terms, ready to be matched.

    `phrases` are the terms of several tokens, `parts` the single words of all phrases, `own` the terms that keep their
    meaning whatever a draft says of them, `met` the tokens met so far, by spaCy's number for their text: each is looked
    up once.
    """

    tokenizer: Any
    phrases: Phrases
    labels: Mapping[str, str]
    stitches: Mapping[str, Stitch]
    parts: frozenset[str]
    own: frozenset[str]
    met: dict[int, _Token] = field(default_factory=dict[int, "_Token"])


@cache
def _word_table(craft: str) -> Mapping[str, str]:
    """Return phrase to label; where a phrase stands under two labels the craft's own holds, or the earlier one."""
    whole: dict[str, Any] = tomllib.loads(
        resources.files(__package__ or "").joinpath("../trade/words.toml").read_text("utf-8")
    )
    labels: dict[str, str] = {}
    own = cast("dict[str, list[str]]", whole.get(craft, {}))
    common = cast("dict[str, list[str]]", {label: found for label, found in whole.items() if isinstance(found, list)})
    for table in (own, common):
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
    from spacy.tokenizer import Tokenizer  # noqa: PLC0415  # pyright: ignore[reportUnknownVariableType]
    from spacy.vocab import Vocab  # noqa: PLC0415

    tokenizer = cast("Any", Tokenizer)(Vocab(), infix_finditer=_cuts)
    labels: dict[str, str] = {}
    stitches: dict[str, Stitch] = {}
    phrases: dict[str, list[str]] = {}

    def learn(phrase: str) -> str | None:
        # cut as the tokenizer cuts, which for so many short phrases would take longer than the rest of a cold start
        tokens: list[str] = [token for token in _SCAN.findall(phrase.lower()) if not token.isspace()]
        if not tokens:
            return None
        key = _key(tokens)
        if len(tokens) > 1:
            phrases[key] = tokens
        return key

    for phrase, label in _word_table(craft).items():
        if key := learn(phrase):
            labels.setdefault(key, label)
    for spelling, stitch in spellings(craft, terms).items():
        if (key := learn(spelling)) and stitch.kind not in ("join",):
            stitches.setdefault(key, stitch)
    for number in numbers_of_two_words():
        learn(number)
    tree: Phrases = {}
    for tokens in phrases.values():
        inner = tree
        for token in (*tokens, ""):
            inner = inner.setdefault(token, {})
    parts = frozenset(part for phrase in (*labels, *stitches) for part in phrase.split())
    own = frozenset(term for term, stitch in stitches.items() if stitch.kind != "group") | frozenset(labels)
    return Lexicon(tokenizer, tree, labels, stitches, parts, own)


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


# a figure or the sign of a fraction comes first and is looked at from behind, so that a search is quick
_PART = r"[\u00bc\u00bd\u00be]"
_UNIT_AFTER_PART = r"(?:\s?(?:\"|in\b|inch(?:es)?|cm|mm))?"
_MEASURE = later(
    r"[\d\u00bc\u00bd\u00be](?:(?<=\d)(?<![\w.,]\d)\d{0,5}(?:[.,]\d{1,4})?"
    rf"(?:\s?{_PART}|\s\d/\d)?\s?-?(?:mm\b|cms?\b|inch(?:es)?\b|ins\b\.?|\"|''|in\.(?=\W)|oz\b|ounces?\b|g\b|grams?\b|yds?\b|yards?\b|met(?:er|re)s?\b)"
    rf"|(?<=\d)(?<!\d\d)\d{{0,3}}{_PART}{_UNIT_AFTER_PART}|(?<={_PART})(?<!\d{_PART}){_UNIT_AFTER_PART}"
    r"|(?<=\d)(?<!\d\d)\d{0,5}\.\d{1,4}(?:\s?(?:mm|cm|in))?)",
    re.IGNORECASE,
)


_BREAK = later(r"(?<=\S)\n(?=[a-z])")


def words_of(text: str, lex: Lexicon) -> tuple[Word, ...]:
    """Label the words of a cleaned text; a measurement is one word of kind "measure". White space yields no word."""
    # a term broken at the end of a line is still one
    tokens, places = _tokens(lex.tokenizer(_BREAK.sub(" ", text)), lex)
    texts = [token.text for token in tokens]
    measured = {match.start(): match.end() for match in _MEASURE.finditer(text)}
    words: list[Word] = []
    new = cast("Any", tuple).__new__  # what the classes' own making of tuples comes to in the end
    reach = 0
    for index, (token, start) in enumerate(zip(tokens, places, strict=True)):
        if token.empty or start < reach:
            continue
        blank = start > reach or not start
        if (after := measured.get(start)) is not None:
            words.append(Word(text[start:after].lower(), "measure", Span(start, after), None, None, blank or not reach))
            reach = after
            continue
        if token.text in lex.phrases and (end := _phrase_end(texts, index, lex.phrases)):
            key = _key(texts[index:end])
            reach = places[end - 1] + tokens[end - 1].length
            kind, value, stitch = _kind(key, lex)
            words.append(Word(key, kind, Span(start, reach), value, stitch, blank))
            continue
        reach = start + token.length
        if not blank and token.kind in ("word", "tog") and _put_together(words, token, text, reach, lex):
            continue
        span = new(Span, (start, reach))
        words.append(new(Word, (token.text, token.kind, span, token.value, token.stitch, blank, (), None)))
    return tuple(words)


def _phrase_end(texts: list[str], index: int, phrases: Phrases) -> int:
    """Return the index after the longest term of several tokens that begins at an index, 0 where none does."""
    end = 0
    inner = phrases.get(texts[index])
    while inner is not None:
        index += 1
        if "" in inner:
            end = index
        inner = inner.get(texts[index]) if index < len(texts) else None
    return end


def _put_together(words: list[Word], token: _Token, text: str, end: int, lex: Lexicon) -> bool:
    """Make one word of a token and what it is glued to, where they are one; tell whether they are."""
    if token.kind == "tog":
        if (two := _two_alone(words, lex)) is None:
            return False
        span = Span(words[-1].span.start, end)
        words[-1] = words[-1]._replace(text="2tog", kind="stitch", value=None, stitch=two, span=span)
        return True
    if not (glued := _glued(words)):
        return False
    # `sc2tgo` is one unknown word, and neither a stitch nor a number
    whole = Span(words[-glued].span.start, end)
    key = text[whole.start : whole.end].lower()
    words[-glued:] = [Word(key, "word", whole, blank=words[-glued].blank)]
    return True


_BEFORE_A_STITCH = frozenset({",", ";", ":", ".", "(", "[", "{", "*", "noise", "rep"})


def _two_alone(words: Sequence[Word], lex: Lexicon) -> Stitch | None:
    """Return the plain decrease where `tog` is glued to a 2 that belongs to no stitch before it: `3sc, 2tog`."""
    if not words or words[-1].value != 2 or (len(words) > 1 and words[-2].kind not in _BEFORE_A_STITCH):
        return None
    return lex.stitches.get("dec") or lex.stitches.get("k2tog")


def _glued(words: Sequence[Word]) -> int:
    """Return how many words an unknown one glued to them belongs with: a number glued to letters, as in `sc2tgo`."""
    if len(words) < 2 or words[-1].kind != "number" or words[-1].blank:
        return 0
    return 2 if words[-2].kind in ("stitch", "word") and words[-2].text[-1:].isalpha() else 0


def _tokens(doc: Any, lex: Lexicon) -> tuple[list[_Token], list[int]]:
    """Return the tokens of a text, and where each begins."""
    from spacy.attrs import ORTH, SPACY  # noqa: PLC0415  # pyright: ignore[reportUnknownVariableType]

    # one array for all tokens: asking spaCy for each by itself costs more than everything else that is done with it
    numbers, spaced = doc.to_array([ORTH, SPACY]).T.tolist()
    strings = doc.vocab.strings
    for number in set(numbers) - lex.met.keys():
        lex.met[number] = _token(strings[number], lex)
    tokens = [lex.met[number] for number in numbers]
    lengths = [token.length for token in tokens]
    places = [0, *accumulate(map(add, lengths, spaced))][: len(tokens)]
    return tokens, places


def _token(text: str, lex: Lexicon) -> _Token:
    key = text.lower()
    if not text.strip():
        return _Token(key, len(text), empty=True, kind=key, value=None, stitch=None)
    return _Token(key, len(text), False, *_kind(key, lex))


def _kind(key: str, lex: Lexicon) -> tuple[str, int | None, Stitch | None]:
    """Return the label of a token or phrase, the number it stands for, its row of the stitch table."""
    if key.strip("*") == "":
        return "*", None, None
    if (stitch := lex.stitches.get(key)) is not None:
        return "stitch", None, stitch
    if (label := lex.labels.get(key)) is not None:
        return label, ordinal(key) if label == "first" else None, None
    kind, value = _label(key)
    if kind == "word" and not key.isascii() and (stitch := lex.stitches.get(_ascii(key))) is not None:
        return "stitch", None, stitch
    return kind, value, None


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
