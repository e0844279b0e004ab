"""What may stand: entries of the file beside the draft that no longer do anything."""

from __future__ import annotations

from collections.abc import Iterator

from ..lint.finding import Level
from ..lint.stet import Stet, Surroundings
from .rule import Case, Flags, Passes, Rule, Said

_FAMILY = "stet"
_LONGEST = 60
_SOURCE = "common practice: what was agreed of some words is agreed of those words"


def _surroundings(case: Case) -> Surroundings:
    return case.once("surroundings of stets", lambda: Surroundings.of(case.draft, case.pattern))


def _short(words: str) -> str:
    return words if len(words) <= _LONGEST else words[: _LONGEST - 4].rsplit(" ", 1)[0] + " ..."


def _lapsed(case: Case) -> Iterator[Said]:
    surroundings = _surroundings(case)
    for stet in case.settings.stets:
        if surroundings.place(stet) is None:
            span = surroundings.most_like(stet) or case.draft.line_span(0)
            message = f'{stet.rule} was to stand at "{_short(stet.words)}", and the words around it have changed'
            sum_ = (f"it stood in: {_short(stet.within)}", f"the reason was: {stet.because}")
            yield Said(span, message, sum=sum_)


def _idle(case: Case) -> Iterator[Said]:
    surroundings = _surroundings(case)
    found = {_key(surroundings.stet(finding, "")) for finding in case.found}
    for stet in case.settings.stets:
        place = surroundings.place(stet)
        if place is not None and _key(stet) not in found:
            yield Said(place, f'{stet.rule} is to stand at "{_short(stet.words)}", and finds nothing there')


def _key(stet: Stet) -> tuple[str, str, str, int]:
    return stet.rule, stet.words, stet.within, stet.nth


_DRAFT = "Rnd 1: 6 sc in ring. (6)\nRnd 2: 2 sc in each st around. ({})\n"


def _entry(count: str, words: str = "") -> str:
    return (
        f'[[stet]]\nrule = "count-differs"\nwords = "{words or count}"\n'
        f'within = "Rnd 2: 2 sc in each st around. ({count})"\nbecause = "the designer counts the picots"\n'
    )


STET_LAPSED = Rule(
    name="stet-lapsed",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A finding was to stand, but the words that it was about have changed.",
    why="What was agreed of the old words may be wrong of the new ones: they are to be looked at again.",
    limits="Words that moved to another place, or were broken into other lines, hold as before.",
    source=_SOURCE,
    examples=(
        Flags("Rnd 1: 6 sc in ring. (6)\n⟦Rnd 2: 2 sc in each st around. (14)⟧\n", stets=_entry("13")),
        Passes(_DRAFT.format(13), stets=_entry("13")),
        Passes("A new line on top.\n\n" + _DRAFT.format(13).replace("around.", "\naround."), stets=_entry("13")),
        Passes(_DRAFT.format(12), stets=_entry("12")),
    ),
    check=_lapsed,
    last=True,
)

STET_IDLE = Rule(
    name="stet-idle",
    family=_FAMILY,
    level=Level.STYLE,
    finds="A finding is to stand, and the rule finds nothing at those words any more.",
    why="An entry that does nothing hides the next real finding at those words.",
    limits="Silent where the words themselves have changed, of which stet-lapsed speaks.",
    source=_SOURCE,
    examples=(
        Flags("Rnd 1: 6 sc in ring. (6)\n⟦Rnd 2: 2 sc in each st around. (12)⟧\n", stets=_entry("12")),
        Passes(_DRAFT.format(13), stets=_entry("13")),
        Passes(_DRAFT.format(14), stets=_entry("13")),
        Passes(_DRAFT.format(13) + _DRAFT.format(13), stets=_entry("13")),
    ),
    check=_idle,
    last=True,
)

RULES = (STET_LAPSED, STET_IDLE)
