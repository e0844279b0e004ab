"""Marks of repeats: stars from which nothing is repeated."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..lint.draft import Span
from ..lint.finding import Aside, Level
from ..lint.later import later
from ..lint.pattern import MarkTrouble
from .rule import Case, Flags, Passes, Rule, Said
from .sums import round_name

_NUMBER = r"(?:\d+|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_HOW_OFTEN = rf"(?:{_NUMBER}\s*(?:more\s+)?times\b|{_NUMBER}\s*x\b|x\s*{_NUMBER}\b|twice\b|around\b|across\b|to end\b)"
_NAMED = later(
    r"(?i)\b(?:from|to|between|after|at|until|till|ending|end|of|the)\s+(?:first\s+|second\s+|last\s+|\()?\*|\*\s*(?:to|-|and|&)\s*\*"
)
_BEFORE_BRACKET = later(rf"(?i)\*\s*[(\[][^()\[\]]*[)\]]\s*{_HOW_OFTEN}")
_BEHIND_BRACKET = later(r"(?i)[)\]]\s*\*\s*rep(?:eat)?\b(?!\s*(?:from|\*))")
_IN_BRACKET = later(rf"(?i)[(\[]\s*\*[^()\[\]*]*{_HOW_OFTEN}\s*[)\]]")


def _needless(case: Case) -> Iterator[Said]:
    if "*" not in case.draft.text:
        return
    for round_ in case.pattern.rounds:
        words = case.draft.text[round_.heading.end : round_.span.end]
        if "*" not in words or "from *" in words or not ("(" in words or "[" in words):
            continue
        places = [round_.heading.end + match.start() for match in re.finditer(r"\*", words)]
        if _NAMED.search(words):
            continue
        said_already = (MarkTrouble.STAR_UNCLOSED, MarkTrouble.STAR_UNOPENED)
        if any(mark.trouble in said_already for mark in round_.loose):
            continue
        again = re.search(r"(?i)\brep(?:eat)?\b", words) is not None
        alone = len(places) == 1
        before = not again and len(_BEFORE_BRACKET.findall(words)) == len(places)
        if before or (alone and (_BEHIND_BRACKET.search(words) or (not again and _IN_BRACKET.search(words)))):
            message = f"nothing in {round_name(round_)} is repeated from this star; the brackets hold the repeat"
            others = tuple(Aside(Span(place, place + 1), "nor from this one") for place in places[1:])
            yield Said(Span(places[0], places[0] + 1), message, asides=others)


_ROUNDS = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"

STAR_NEEDLESS = Rule(
    name="star-needless",
    family="repeats",
    level=Level.QUERY,
    finds="A star stands at a bracket that holds the whole repeat, and nothing is repeated from it.",
    why="The maker looks for the words that go back to the star, and wonders whether a repeat was lost.",
    limits="Silent where the words of the round name a star, where stars stand in pairs, and where a star is a sign of "
    "multiplication or a footnote's.",
    source="common practice: a mark is set only where something is repeated from it",
    examples=(
        Flags("Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in every st (⟦*⟧ inc six times) = 12 sts\n"),
        Flags(f"{_ROUNDS}Rnd 3: (1 sc in next st, 2 sc in next st)⟦*⟧repeat all across. (18)\n"),
        Flags(f"{_ROUNDS}Rnd 3: ⟦*⟧ (1 sc, inc) 3 times, * (1 sc, inc) 3 times. (18)\n"),
        Passes(f"{_ROUNDS}Rnd 3: (1 sc in next st, 2 sc in next st)*6. (18)\n"),
        Passes(f"{_ROUNDS}Rnd 3: *(1 sc, inc) twice, sc in next 2 sts; rep from * once more. (16)\n"),
        Passes(f"{_ROUNDS}Rnd 3: *1 sc, inc* 6 times. (18)\n"),
        Passes(f"{_ROUNDS}Rnd 3*: (1 sc, inc) 6 times. (18)\n\n* Wash the wool first.\n"),
    ),
    check=_needless,
)

RULES = (STAR_NEEDLESS,)
