"""Working: from a pattern to its counts."""

from __future__ import annotations

from ..pattern import Pattern
from ..workings import Workings


def work(pattern: Pattern) -> Workings:
    """Work a pattern."""
    return Workings(())
