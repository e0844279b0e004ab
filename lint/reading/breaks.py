"""Breaks: a second mark inside a repeat, at which its last pass ends: `*dc, ch 2 **, sc; rep from *, ending at **`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..draft import Span
from ..figures import Figure
from ..steps import Count, Repeat, Step, Times
from .marks import Item, kind, text_at

_ENDS = frozenset({"ending", "end", "ends", "finishing", "finish", "stopping", "stop", "omitting", "omit"})
_LEADS = frozenset({"noise", "last", "rep", "round", "from", "into", "times", "work"})
_MOST_WORDS = 8


def ends_at_mark(items: Sequence[Item], index: int) -> tuple[str, int] | None:
    """Read `ending last rep at **`, `end at ** on last repeat`: the mark and the index after the words; else None."""
    at = index
    while kind(items, at) in (",", ";", ".", "noise"):
        at += 1
    if text_at(items, at) == "last" or kind(items, at) == "last" or text_at(items, at) == "on":
        # `on last repeat, end at **`
        while kind(items, at) in (*_LEADS, ","):
            at += 1
    if text_at(items, at) not in _ENDS:
        return None
    stop = at + 1
    while kind(items, stop) in _LEADS or text_at(items, stop) in ("after", "when", "reaching"):
        stop += 1
    if kind(items, stop) != "*" or stop - at > _MOST_WORDS:
        return None
    end = stop + 1
    while kind(items, end) in ("into", "noise", "last", "rep", "times"):
        end += 1
    return text_at(items, stop), end


def breaks_here(items: Sequence[Item], index: int) -> bool:
    """Tell whether the mark at an index is one at which a later `ending at **` lets the last pass end."""
    mark = text_at(items, index)
    return any(
        found[0] == mark
        for at in range(index + 1, len(items))
        if text_at(items, at) in _ENDS and (found := ends_at_mark(items, at)) is not None
    )


def broken(body: Sequence[Step], cut: int, times: Times, span: Span) -> tuple[Step, ...]:
    """Return a repeat whose last pass ends after `cut` of its steps, with that part said first: a pass fewer."""
    first, second = tuple(body[:cut]), tuple(body[cut:])
    if times.count is Count.TO_END or times.number is None:
        fewer = times
    elif times.count is Count.MORE:
        fewer = replace(times, count=Count.TOTAL)
    else:
        values = tuple(None if value is None else max(0, value - 1) for value in times.number.values)
        fewer = replace(times, number=Figure(values, times.number.span))
    return (*first, Repeat((*second, *first), replace(fewer, said=True), span, "*"))
