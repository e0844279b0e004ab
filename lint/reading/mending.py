"""Mending: words with a letter wrong, where only one word of the trade can stand in that place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from rapidfuzz.distance import OSA

from .words import Word

_PLACE_WORDS = {
    "next": "next",
    "each": "each",
    "same": "same",
    "first": "first",
    "last": "last",
    "every": "each",
}
_AROUND_STITCH = {"number", "next", "each", "stitch", "first", "last", "same"}


def mended(words: Sequence[Word]) -> tuple[Word, ...]:
    """Return the words with slips of a single letter mended: `in nexl sc`, `2 sc n next sc`, `next 7 s)`, `1 so in`."""
    found = list(words)
    for index, word in enumerate(found):
        if word.kind not in ("word", "noise") or len(word.text) > 6:
            continue
        before = found[index - 1] if index else None
        after = found[index + 1] if index + 1 < len(found) else None
        if label := _mended(word, before, after):
            found[index] = replace(word, kind=label)
    return tuple(found)


def _mended(word: Word, before: Word | None, after: Word | None) -> str | None:
    if before is None or after is None:
        return None
    follows_place = before.kind == "into" or (before.kind == "noise" and before.text == "the")
    if len(word.text) >= 4 and follows_place and after.kind in ("st", "stitch", "number", "space"):
        return next((label for text, label in _PLACE_WORDS.items() if OSA.distance(word.text, text) == 1), None)
    if (
        word.text in ("n", "iin", "inn", "im", "ni", "i", "int")
        and before.kind in ("stitch", "st")
        and after.kind in _AROUND_STITCH
    ):
        return "into"
    if (
        word.text in ("s", "sr", "sy", "ts")
        and before.kind == "number"
        and after.kind in (")", "]", ",", ";", ".", "around")
    ):
        return "st"
    return None
