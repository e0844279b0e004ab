"""The pipeline on one page: a draft is read, worked, and judged by the rules."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from types import ModuleType

from ..rules.book import all_rules
from ..rules.rule import Case, Rule
from .draft import Draft
from .finding import Finding, Level
from .pattern import Pattern
from .reading import read
from .settings import Settings
from .stet import Stood, Surroundings, let_stand
from .working import work
from .workings import Standing, Workings


@dataclass(frozen=True, slots=True)
class Tally:
    """How much of a draft was worked, in rounds as the draft lists them."""

    rounds: int
    worked: int
    agree: int
    differ: int
    unstated: int
    unread: int


@dataclass(frozen=True, slots=True)
class Proof:
    """All that is known of a draft: the draft, what was read, what was worked, what there is to say.

    `findings` come in the draft's order; `stood` are those that were found and may stand, as `settings` have it.
    """

    draft: Draft
    pattern: Pattern
    workings: Workings
    findings: tuple[Finding, ...]
    stood: tuple[Stood, ...] = ()
    settings: Settings = field(default_factory=Settings)

    @property
    def tally(self) -> Tally:
        """Return how much was worked."""
        standings = [round_.standing for round_ in self.workings.rounds]
        unread = standings.count(Standing.UNREAD)
        return Tally(
            rounds=len(standings),
            worked=len(standings) - unread,
            agree=standings.count(Standing.AGREES),
            differ=standings.count(Standing.DIFFERS),
            unstated=standings.count(Standing.UNSTATED),
            unread=unread,
        )

    def worst(self) -> Level | None:
        """Return the gravest level among the findings, None where there are none."""
        return max((finding.level for finding in self.findings), default=None)


_NOTHING_SETTLED = Settings()


def proof(source: Draft | str, rules: Sequence[Rule] | None = None, settings: Settings = _NOTHING_SETTLED) -> Proof:
    """Proof a draft, or the text of one, with all rules or those given, as a house style and its stets have it.

    Raises nothing for any text: what can't be read is reported as unread.
    """
    draft = source if isinstance(source, Draft) else Draft.of(source)
    pattern = read(draft)
    workings = work(pattern)
    case = Case(draft, pattern, workings, settings)
    chosen = all_rules() if rules is None else rules
    found = [finding for rule in chosen if not rule.last for finding in rule.findings(case)]
    stood: list[Stood] = []
    if settings.stets:
        case = replace(case, found=tuple(found))
        found, stood = let_stand(found, settings.stets, Surroundings.of(draft, pattern))
        found += [finding for rule in chosen if rule.last for finding in rule.findings(case)]
    found.sort(key=lambda finding: (finding.span.start, -finding.level, finding.rule))
    return Proof(draft, pattern, workings, tuple(found), tuple(stood), settings)


class _Called(ModuleType):
    """This module, which can be called like the function in it.

    `from rowcall.lint import proof` finds a module where one of that name was imported before, and what a program
    then does with it must not hang on that.
    """

    def __call__(self, source: str | Path | Draft) -> Proof:
        """Proof a text or a file."""
        from .face import proof as face  # noqa: PLC0415 - it calls this module

        return face(source)


sys.modules[__name__].__class__ = _Called
