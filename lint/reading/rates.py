"""Rates: a row called by its name is worked again every so many rows: `work Dec Row every RS row 4 more times`."""

from __future__ import annotations

from collections.abc import Sequence

from ..figures import Figure
from ..pattern import RepeatRounds
from ..steps import Count, Times
from .extents import until_of
from .marks import Group, Item, kind, span_of, text_at
from .times import figure_at, read_times

_LONGEST_NAME = 3  # words
_BETWEEN = {"alt", "alternate", "other", "second", "on", "then", "and", "foll", "following", "also", "rs", "ws", "of"}
_KINDS = {"each", "next", "ordinal", "side", "noise", "into", "number", ",", "rest", "round", "last"}


def read_rate(items: Sequence[Item], at: int) -> tuple[RepeatRounds, int] | None:
    """Read such an instruction: what is repeated, and the index after it."""
    index = at
    if kind(items, index) not in ("rep", "work"):
        return None
    index += 1
    while kind(items, index) == "noise":
        index += 1
    first = index
    while index - first < _LONGEST_NAME and kind(items, index) in ("word", "stitch", "between"):
        index += 1
    if index == first or kind(items, index) != "round" or text_at(items, first) == "that":
        return None
    if kind(items, index + 1) == "number" and _often(items, index + 1) is None:
        return None  # `work inc row 3`
    name = " ".join(text_at(items, n) for n in range(first, index))
    index += 1
    total: Times | None = None
    while True:
        stop, once_more = _when(items, index)
        often = _often(items, stop)
        if often is None and total is None and (rows := _rows_named(items, index, stop)) is not None:
            return RepeatRounds(span=span_of(items[at:stop]), named=name, times=rows), stop
        if often is None:
            index = stop if total is None else index
            break
        times, index = often
        total = _added(total, times, plus=once_more)
        if not (kind(items, index) == "," or text_at(items, index) in ("then", "and")):
            break
    if total is not None:
        return RepeatRounds(span=span_of(items[at:index]), named=name, times=total), index
    if kind(items, index) == "until":
        rounds, until, measured, stop = until_of(items, index + 1)
        if until is not None and rounds is None and not measured:
            return RepeatRounds(span=span_of(items[at:stop]), named=name, until=until), stop
    return None


def is_of_ordinals(items: Sequence[Item], index: int) -> bool:
    """Tell whether the rest of a list of ordinals stands here: `[8th, 7th, 7th]` after `every 8th`."""
    group = items[index] if index < len(items) else None
    before = kind(items, index - 1) if index else ""
    if not isinstance(group, Group) or before != "ordinal":
        return False
    kinds = {item.kind for item in group.items}
    return "ordinal" in kinds and kinds <= {"ordinal", "first", ",", ":", "-", "/", ";"}


def _when(items: Sequence[Item], index: int) -> tuple[int, bool]:
    """Pass over `on next RS row, then every 4th row`; tell whether one row is named apart from the rate."""
    once, every = False, False
    while (
        kind(items, index) in _KINDS or text_at(items, index) in _BETWEEN or is_of_ordinals(items, index)
    ) and _often(items, index) is None:
        every = every or kind(items, index) == "each"
        once = once or (kind(items, index) == "next" and not every)
        index += 1
        if kind(items, index - 1) == "round" and text_at(items, index - 1).endswith("."):
            break  # the end of the sentence; a count follows
    return index, once and every


def _rows_named(items: Sequence[Item], index: int, stop: int) -> Times | None:
    """Read `on foll 7 alt rnds`, `on next 5 RS rows`: once in each of them."""
    numbers = [figure for n in range(index, stop) if (figure := figure_at(items, n)) is not None]
    if (
        len(numbers) != 1
        or kind(items, stop - 1) != "round"
        or not any(kind(items, n) == "next" for n in range(index, stop))
    ):
        return None
    return Times(Count.MORE, numbers[0], span=span_of(items[index:stop]))


def _added(total: Times | None, times: Times, *, plus: bool) -> Times:
    """Add further times to those so far, a size at a time."""
    number, before = times.number, total.number if total else None
    if number is None or not (plus or before):
        return times
    size = max(len(number.values), len(before.values) if before else 1)
    values = ((number.at(n), before.at(n) if before else 0) for n in range(size))
    added = tuple(None if one is None or other is None else one + other + plus for one, other in values)
    return Times(Count.MORE, Figure(added, number.span), span=times.span)


def _often(items: Sequence[Item], index: int) -> tuple[Times, int] | None:
    """Read `4 more times`, `twice more`, `4 times`: the row was worked once where it was written."""
    if kind(items, index) not in ("number", "often"):
        return None
    read = read_times(items, index)
    if read is None or read.times.number is None or read.times.count is Count.TO_END:
        return None
    return Times(Count.MORE, read.times.number, span=read.times.span), read.end
