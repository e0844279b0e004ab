"""Groups: words that name several stitches in one place, for places and counts: shells, V-stitches, `3-dc group`."""

from __future__ import annotations

from collections.abc import Sequence

from ..steps import ANY_GROUP, group_name
from .marks import Item, kind, text_at
from .times import figure_at
from .words import Word

GROUP_WORDS = frozenset(
    {"group", "groups", "fan", "fans", "scallop", "scallops", "trio", "trios", "grp", "grps", "pair", "pairs"}
    | {"petals"}
)

MESHES = frozenset({"mesh", "block"})  # the squares of filet, that share their sides


def is_group(item: Item | None) -> bool:
    """Tell whether a word names several stitches in one place, by the draft's own words or by the trade's."""
    if not isinstance(item, Word) or item.stitch is None:
        return False
    if item.make is not None:
        return bool(item.make.group) or (item.make.uses == 1 and item.make.makes > 2)
    return item.stitch.kind == "group" and item.stitch.makes is None and item.stitch.id not in MESHES


def past_group(items: Sequence[Item], index: int) -> tuple[str, int] | None:
    """Read the name of a group, `shell`, `V-st`, `3-dc group`, `group of 3 dc`: the name and the index after it."""
    item = items[index] if 0 <= index < len(items) else None
    if isinstance(item, Word) and item.stitch is not None and (is_group(item) or item.stitch.id == "picot"):
        return group_name(item.stitch.id), index + 1
    at = index
    if figure_at(items, at) is not None and kind(items, at) == "number":
        at += 1
        at += kind(items, at) == "-"
        if kind(items, at) != "stitch":
            return None
    if kind(items, at) == "stitch" and (kind(items, at + 1) == "word" or kind(items, at + 1) == "-"):
        at += 1 + (kind(items, at + 1) == "-")
    if text_at(items, at) not in GROUP_WORDS:
        return None
    return ANY_GROUP, _past_contents(items, at + 1)


def _past_contents(items: Sequence[Item], index: int) -> int:
    """Pass over what a group is said to be made of: `group of 3 dc`."""
    if text_at(items, index) != "of":
        return index
    at = index + 1
    at += figure_at(items, at) is not None
    return at + 1 if kind(items, at) in ("stitch", "st") else index
