"""What a small draft comes to, as tests of whole drafts state it."""

from __future__ import annotations

from rowcall.lint.draft import Draft
from rowcall.lint.finding import Finding, Level
from rowcall.lint.proof import proof
from rowcall.lint.reading import read
from rowcall.lint.working import work

Counts = list[list[int | None]]


def counts(text: str) -> Counts:
    """Return the worked counts of every round of a draft, a list a round with one figure a size."""
    return [[size.count if size else None for size in one.sizes] for one in work(read(Draft.of(text))).rounds]


def corrections(text: str) -> list[Finding]:
    """Return what is to be corrected in a draft."""
    return [finding for finding in proof(text).findings if finding.level is Level.CORRECTION]
