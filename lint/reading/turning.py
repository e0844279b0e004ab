"""Turning: the words for the chain with which a row begins, where stitches go into its top or stop short of it."""

from __future__ import annotations

from collections.abc import Sequence

from .marks import Item, kind, text_at
from .times import figure_at
from .words import Word

_BEGINS = {"beg", "beginning", "starting", "turning", "start", "previous", "prev", "counted"}
_FIRST_PLACE = 3  # words before the first place of a row: `1 hdc in`


def past_turning_chain(items: Sequence[Item], at: int) -> int | None:
    """Return the index after the top of a turning chain (`tch`, `top of ch-3`, `3rd ch of ch-5`), None for others."""
    index = at
    while kind(items, index) == "noise":
        index += 1
    named = text_at(items, index) in ("top", "tops", "upper") or kind(items, index) == "ordinal"
    link = False
    if named:
        index += 1
        link = (_is_second(items, index - 1) or at <= _FIRST_PLACE) and kind(items, index) == "st"
        while kind(items, index) == "st" or (_is_chain(items, index) and text_at(items, index + 1) == "of"):
            index += 1
        if text_at(items, index) != "of" and kind(items, index) != "tch":
            return None
    begins = False
    while kind(items, index) in ("noise", "first", "last", "side") or text_at(items, index) in _BEGINS:
        begins = begins or text_at(items, index) in _BEGINS
        index += 1
    if kind(items, index) == "tch":
        index += 1
        if kind(items, index) == "-":
            index += 1
        return index + 1 if kind(items, index) == "number" and kind(items, index - 1) == "-" else index
    if not named:
        return None
    if figure_at(items, index) is not None and _is_chain(items, index + 1):
        index += 2
    elif _is_chain(items, index):
        index += 1
        number = index + (kind(items, index) == "-" and not items[index].blank)
        if kind(items, number) == "number":
            index = number + 1
        elif link and not begins:
            return None  # `1 dc in 4th st of ch`: where a first row begins in the foundation
    else:
        return None
    return None if kind(items, index) == "space" else index


def _is_second(items: Sequence[Item], index: int) -> bool:
    item = items[index] if index < len(items) else None
    return isinstance(item, Word) and item.kind == "ordinal" and item.value == 2


def _is_chain(items: Sequence[Item], index: int) -> bool:
    item = items[index] if index < len(items) else None
    return isinstance(item, Word) and item.stitch is not None and item.stitch.kind == "chain"


def to_turning_chain(items: Sequence[Item], index: int) -> int:
    """Pass over `to tch`, `up to the turning ch` after `in each st`; the index itself where it isn't said."""
    at = index + 1 if text_at(items, index) in ("up", "across", "along") else index
    if text_at(items, at) not in ("to", "until", "till", "up to", "except", "excluding"):
        return index
    stop = past_turning_chain(items, at + 1)
    return index if stop is None else stop
