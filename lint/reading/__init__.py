"""Reading: from a draft to a pattern."""

from __future__ import annotations

from ..draft import Draft
from ..pattern import Pattern, Sizes


def read(draft: Draft) -> Pattern:
    """Read a draft."""
    return Pattern(None, None, Sizes(()), (), ())
