"""Rounds that go by letters: `A: ch 2, dc around.`, `B: ...`, and `repeat A and B 4 (5, 6) times more, then A once`."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from ..draft import Span
from ..later import later
from .headings import Form, Heading
from .marks import Item, kind, text_at

_WORD = r"(?:[Rr]ounds?|[Rr]nds?|[Rr]ds?|[Rr]ows?|ROUNDS?|RNDS?|RDS?|ROWS?)\.?[ \t]+"
_LINE = later(
    rf"[ \t*_#•-]*(?P<name>(?:{_WORD})?(?P<letter>[A-I]))(?:[ \t]*\([^()\n]{{1,24}}\))?"
    r"(?P<sep>[*_]*[ \t]*[:.)][*_]*[ \t]+)"
)
# what tells a round from a colour (`A: 2 balls of cream`) and from a short form that is explained (`A: sc2tog`)
_WORKED = later(
    r"(?i)(?=[^\n]*\b(?:each|ea|next|nxt|nx|around|every|rep|repeat|across|times|to end|to last|knit|purl)\b)"
    r"(?:with\s+\w+,\s+)?[*(\[]?(?:\d+\s?)?(?:ch|sc|hdc|dc|h?tr|dtr|inc|dec|sl|ss|[fb]p\w+|knit|purl|k\d*|p\d*|work|join|skip|sk|miss)\b"
)
_LETTERS = "abcdefghi"
_TO = frozenset({"and", "&", "-", "to", "through", "thru", ","})


@lru_cache(maxsize=4)
def letters_of(text: str) -> frozenset[str]:
    """Return the letters by which rounds of a draft go; none where they don't begin with A and B."""
    found = {
        match["letter"]
        for line in re.finditer(r"[^\n]+", text)
        if (match := _LINE.match(text, line.start(), line.end())) and _WORKED.match(text, match.end(), line.end())
    }
    return frozenset(found) if {"A", "B"} <= found else frozenset()


def letter_heading(text: str, at: int, end: int) -> Heading | None:
    """Read the letter of a round as its heading: `A:`, `Rnd B (RS):`."""
    match = _LINE.match(text, at, end)
    if match is None or match["letter"] not in letters_of(text):
        return None
    name = Span(match.start("name"), match.end("name"))
    row = "row" in match["name"].lower()
    return Heading(name, match.end(), Form.NAMED, flat=row, prefix="")


def letters_named(items: Sequence[Item], at: int) -> tuple[str, int] | None:
    """Read `A and B`, `rnds A-C`, `round A`: the letters as `a-b`, and the index after them.

    A single letter must have the word for a round before it.
    """
    index = at
    found: list[str] = []
    said = False
    while True:
        if kind(items, index) == "round":
            said, index = True, index + 1
        letter = text_at(items, index)
        if len(letter) != 1 or letter not in _LETTERS:
            break
        found.append(letter)
        index += 1
        stop = index
        while text_at(items, stop) in _TO or kind(items, stop) in ("-", ","):
            stop += 1
        if stop == index:
            break
        index = stop
    ordered = len(found) > 1 and found == sorted(found)
    return (f"{found[0]}-{found[-1]}", index) if ordered or (said and len(found) == 1) else None
