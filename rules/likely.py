"""Likely: the single figures of a round that would mend it, as lines for the sum and as a change."""

from __future__ import annotations

from ..lint.draft import Span
from ..lint.finding import Change
from ..lint.later import later
from ..lint.workings import Slip
from .rule import Case
from .sums import join_words

MOST_SLIPS = 3
_DIGITS = later(r"\d+")


def likely_slips(case: Case, index: int) -> tuple[tuple[str, ...], Change | None]:
    """Name the single figures in the words of a round that would mend it: at most three, and the change if only one."""
    found: list[Change] = []
    for slip in case.workings.slips:
        if slip.round == index and (change := _as_change(case, slip)):
            found.append(change)
    if not 1 <= len(found) <= MOST_SLIPS:
        return (), None
    words = [f'"{case.words(change.span)}" for "{change.to}"' for change in found]
    lead = "likely slip" if len(found) == 1 else "one of these slips is likely"
    return (f"{lead}: {join_words(words, 'or')}",), found[0] if len(found) == 1 else None


def _as_change(case: Case, slip: Slip) -> Change | None:
    """Return a slip as a change of the draft's words, None where its figure is not written in digits."""
    if slip.size is None:
        return Change(slip.span, str(slip.to)) if case.words(slip.span) == str(slip.value) else None
    digits = list(_DIGITS.finditer(case.draft.words(slip.span)))
    if slip.size >= len(digits) or int(digits[slip.size].group()) != slip.value:
        return None
    start = slip.span.start
    return Change(Span(start + digits[slip.size].start(), start + digits[slip.size].end()), str(slip.to))
