"""Evens: rounds that are told as so many plain ones, with no word of their stitches."""

from __future__ import annotations

from collections.abc import Sequence

from ..figures import Figure
from ..pattern import WorkEven
from .extents import MEASURES
from .marks import Item, kind, span_of, text_at
from .times import figure_at
from .words import Word


def read_even(items: Sequence[Item], at: int) -> tuple[WorkEven, int] | None:
    """Read `work even for 5 rounds`, `work 9 (10-12) rows even`, `continue in sc without increasing for 8 rnds`.

    Returns it and the index after its last word; None where no such words begin at the index.
    """
    stop = at
    even = False
    rounds: Figure | None = None
    measured = False
    while stop < len(items) and kind(items, stop) not in (".", ";", "=", "*"):
        what = kind(items, stop)
        if what == "group" and (figure_at(items, stop) is None or kind(items, stop + 1) != "round"):
            break
        if (even or rounds is not None) and _count_follows(items, stop):
            break
        if what == "even":
            even = True
        elif (figure := figure_at(items, stop)) is not None:
            if kind(items, stop + 1) == "round" or (
                kind(items, stop + 1) == "more" and kind(items, stop + 2) == "round"
            ):
                rounds = figure
            elif not measured and text_at(items, stop + 1) not in MEASURES:
                return None
        elif text_at(items, stop) in MEASURES or what == "until":
            measured = True
        elif what in ("each", "next", "rep", "skip") and not even:
            return None
        stop += 1
    leads = kind(items, at) in ("work", "even", "remark") or text_at(items, at) in (
        "continue",
        "cont",
        "keep",
    )
    if not leads or not (even or (rounds is not None and _in_plain(items, at, stop))):
        return None
    return WorkEven(span_of(items[at:stop]), rounds, measured and rounds is None), stop


def _count_follows(items: Sequence[Item], index: int) -> bool:
    """Tell whether a stated count begins here: `... even - 8 sts`, `for 4 rnds: 8`, or after `for 4 rnds.`."""
    if kind(items, index) in (":", "-"):
        return figure_at(items, index + 1) is not None and kind(items, index + 2) != "round"
    return text_at(items, index - 1).endswith(".") and figure_at(items, index) is not None


def _in_plain(items: Sequence[Item], at: int, stop: int) -> bool:
    """Tell whether the words name one plain stitch only: `work in sc for 5 rounds`."""
    named = [item for item in items[at:stop] if isinstance(item, Word) and item.stitch is not None]
    return len(named) == 1 and named[0].stitch is not None and named[0].stitch.kind == "basic"
