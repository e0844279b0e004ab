"""What a rule has to say: findings, their levels and the change they propose."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum

from .draft import Span


class Level(IntEnum):
    """How sure and how grave a finding is; a higher level is graver."""

    STYLE = 1
    QUERY = 2
    CORRECTION = 3

    @property
    def word(self) -> str:
        """The level as it is written in reports and on the command line."""
        return self.name.lower()


@dataclass(frozen=True, slots=True)
class Change:
    """One small change that makes everything agree: the words of `span` become `to`."""

    span: Span
    to: str


@dataclass(frozen=True, slots=True)
class Aside:
    """Another place involved in a finding, with a label that says how."""

    span: Span
    label: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing to tell the designer.

    `message` is one sentence in the trade's words, lower case and without a full stop. `sum` holds the lines of
    the working as a maker would check them with a pencil. `sizes` are indices into the pattern's sizes; empty
    when it concerns all of them.
    """

    rule: str
    level: Level
    span: Span
    message: str
    sizes: tuple[int, ...] = ()
    sum: tuple[str, ...] = ()
    change: Change | None = None
    asides: tuple[Aside, ...] = ()
