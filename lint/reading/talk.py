"""Talk: which of a draft's unknown words are common English, and which are strangers that may have been stitches."""

from __future__ import annotations

import tomllib
from collections import Counter
from collections.abc import Iterator, Sequence
from functools import cache
from importlib import resources

from ..later import later
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
    wrong. So may a letter glued to a figure (`Sc in e24 sc`), unless it names a colour, a hook or a size.
    """
    often = Counter(word.text for word in words if word.kind == "word")
    letters = [_glued(words, index) if word.kind in _MAY_BE_LETTERS else "" for index, word in enumerate(words)]
    glued = Counter(letters)
    found: list[Word] = []
    if 1 not in often.values() and not any(letters):
        return tuple(words)
    for index, word in enumerate(words):
        letter = letters[index] and glued[letters[index]] == 1 and not _names(words, index)
        if letter or (word.kind == "word" and often[word.text] == 1 and _is_strange(word.text, lex)):
            found.append(word._replace(kind="strange"))
        else:
            found.append(word)
    return tuple(found)


_NAMED = frozenset(
    {
        "col",
        "color",
        "colour",
        "colours",
        "colors",
        "hook",
        "size",
        "sizes",
        "yarn",
        "step",
        "part",
        "chart",
        "no",
        "cc",
        "mc",
    }
)


_MAY_BE_LETTERS = frozenset({"word", "noise", "round", "ring"})


def _glued(words: Sequence[Word], index: int) -> str:
    """Return a letter or two and the figure glued to them; nothing for other words."""
    word = words[index]
    after = words[index + 1] if index + 1 < len(words) else None
    most = 2 if word.kind == "word" else 1
    if len(word.text.split(" ")[-1]) > most or after is None or after.kind not in ("number", "ordinal") or after.blank:
        return ""
    if word.kind == "round" and not _counts_no_round(words, index):
        return ""
    return f"{word.text}{after.text}" if word.kind in _MAY_BE_LETTERS else ""


def _counts_no_round(words: Sequence[Word], index: int) -> bool:
    """Tell whether `r3` stands where no round can be named: `magic r3ch`, `inc; r24 sc`."""
    before = words[index - 1].kind if index else ""
    after = words[index + 2] if index + 2 < len(words) else None
    if after is None:
        return False
    glued = not after.blank and after.text.isalpha()
    return glued or (before in (";", ",", "stitch", "st", "number") and after.kind in ("stitch", "st", "/"))


def _names(words: Sequence[Word], index: int) -> bool:
    """Tell whether a letter and its figure are the name of something: `colour B2`, `H8 hook`."""
    near = words[max(0, index - 1) : index + 3]
    return any(word.text in _NAMED or word.kind == "hook" for word in near)


def _is_strange(text: str, lex: Lexicon) -> bool:
    if len(text) < 2 or text in lex.parts:
        return False
    if not any(char.isalpha() for char in text):
        return False
    return not any(form in _talk() for form in _base_forms(text))


_ENDINGS = ("'s", "s", "es", "ed", "ing", "er", "est", "ly", "y", "wise")
_LEAST_STEM = 3
_DOUBLING = ("ed", "ing", "er", "est")
_DOUBLED = later(r"[b-df-hj-np-tv-z][aeiou][b-df-hj-np-tvz]")  # stems like fit: `fitting`, and not `fiting`


def _base_forms(text: str) -> Iterator[str]:
    """Give a word and what it may be a form of: `larger` large, `pinched` pinch, `fitting` fit, `tidies` tidy."""
    yield text
    for ending in _ENDINGS:
        stem = text[: -len(ending)]
        if not text.endswith(ending) or len(stem) < _LEAST_STEM:
            continue
        if not (ending in _DOUBLING and _DOUBLED.fullmatch(stem)):
            yield stem
        yield f"{stem}e"
        if stem[-1] == stem[-2]:
            yield stem[:-1]
        if stem.endswith("i"):
            yield f"{stem[:-1]}y"
