"""Talk: which of a draft's unknown words are common English, and which are strangers that may have been stitches."""

from __future__ import annotations

import tomllib
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache
from importlib import resources

from .words import Lexicon, Word


@cache
def _talk() -> frozenset[str]:
    """Return the common words: those of our own table, and spaCy's list of words that English is held together by."""
    from spacy.lang.en.stop_words import STOP_WORDS  # noqa: PLC0415

    table = tomllib.loads(resources.files(__package__ or "").joinpath("../trade/talk.toml").read_text("utf-8"))
    return frozenset(word for words in table.values() for word in words.split()) | frozenset(STOP_WORDS)


def strangers(words: Sequence[Word], lex: Lexicon) -> tuple[Word, ...]:
    """Label as "strange" the unknown words that are no common English and stand only once in the draft.

    What a draft says twice it means; a word that stands once, among instructions, may be one of them with its letters
    wrong.
    """
    often = Counter(word.text for word in words if word.kind == "word")
    found: list[Word] = []
    for word in words:
        if word.kind == "word" and often[word.text] == 1 and _is_strange(word.text, lex):
            found.append(replace(word, kind="strange"))
        else:
            found.append(word)
    return tuple(found)


def _is_strange(text: str, lex: Lexicon) -> bool:
    if len(text) < 2 or text in lex.parts:
        return False
    if not any(char.isalpha() for char in text):
        return False
    return not any(form in _talk() for form in _base_forms(text))


_ENDINGS = ("'s", "s", "es", "ed", "d", "ing", "er", "r", "est", "st", "ly", "y", "wise")
_LEAST_STEM = 3


def _base_forms(text: str) -> Iterator[str]:
    """Give a word and what it may be a form of: `larger` large, `pinched` pinch, `fitting` fit, `tidies` tidy."""
    yield text
    for ending in _ENDINGS:
        stem = text[: -len(ending)]
        if not text.endswith(ending) or len(stem) < _LEAST_STEM:
            continue
        yield stem
        yield f"{stem}e"
        if stem[-1] == stem[-2]:
            yield stem[:-1]
        if stem.endswith("i"):
            yield f"{stem[:-1]}y"
