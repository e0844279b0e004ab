"""What a rule is: one declaration with its name, level, page, examples and check."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from typing import TypeVar

from ..lint.draft import Draft, Span
from ..lint.finding import Aside, Change, Finding, Level
from ..lint.pattern import Pattern
from ..lint.settings import Settings
from ..lint.workings import Workings

_Kept = TypeVar("_Kept")


@dataclass(frozen=True, slots=True)
class Flags:
    """A small draft that trips the rule; `⟦` and `⟧` enclose each place it points at.

    `house` is the house style under which it does, `stets` the file of what may stand, both in TOML.
    """

    text: str
    house: str = ""
    stets: str = ""


@dataclass(frozen=True, slots=True)
class Passes:
    """A small draft that looks like trouble and isn't: the rule stays silent. `house` and `stets` as in `Flags`."""

    text: str
    house: str = ""
    stets: str = ""


@dataclass(frozen=True, slots=True)
class Case:
    """What the checks of all rules look at: the draft, what was read, what was worked and what is settled.

    `found` is empty but for rules that come last: then it is what the others found.
    """

    draft: Draft
    pattern: Pattern
    workings: Workings
    settings: Settings = field(default_factory=Settings)
    found: tuple[Finding, ...] = ()
    _kept: dict[Hashable, object] = field(default_factory=dict[Hashable, object], repr=False, compare=False)

    def once(self, key: Hashable, make: Callable[[], _Kept]) -> _Kept:
        """Return what `make` gives, made the first time that a rule asks under this key."""
        if key not in self._kept:
            self._kept[key] = make()
        return self._kept[key]  # pyright: ignore[reportReturnType]

    def says(self, *words: str) -> bool:
        """Tell whether any of some words, in small letters, stands anywhere in the draft, whatever its letters."""
        small = self.once("text in small letters", self.draft.text.casefold)
        return any(word in small for word in words)

    def words(self, span: Span) -> str:
        """Return the draft's words of a span, on one line."""
        return " ".join(self.draft.words(span).split())


@dataclass(frozen=True, slots=True)
class Said:
    """What a check reports; the rule adds its name and, unless given here, its level."""

    span: Span
    message: str
    sizes: tuple[int, ...] = ()
    sum: tuple[str, ...] = ()
    change: Change | None = None
    asides: tuple[Aside, ...] = ()
    level: Level | None = None


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of the rulebook.

    `name` states the flaw. `finds`, `why`, `limits` and `source` are its page: what it finds, why it matters to a
    maker, where it stays silent, and where the fact comes from. `examples` run as tests. `last` is True where the
    check looks at what other rules found.
    """

    name: str
    family: str
    level: Level
    finds: str
    why: str
    limits: str
    source: str
    examples: tuple[Flags | Passes, ...]
    check: Callable[[Case], Iterable[Said]]
    last: bool = False

    def findings(self, case: Case) -> Iterator[Finding]:
        """Run the check and name the rule and level of each thing it says, but for what the house has silenced."""
        for said in self.check(case):
            finding = Finding(
                rule=self.name,
                level=said.level or self.level,
                span=said.span,
                message=said.message,
                sizes=said.sizes,
                sum=said.sum,
                change=said.change,
                asides=said.asides,
            )
            level = case.settings.house.weigh(finding, self.level)
            if level is not None:
                yield finding if level == finding.level else replace(finding, level=level)
