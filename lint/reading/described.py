"""Described: what the words of a place say of it, gathered one after the other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from ..figures import Figure
from ..steps import Target
from .claims import past_sized_space
from .groups import past_group
from .marks import Item, kind, text_at
from .times import figure_at
from .words import Word

_DETERMINERS = {"each", "next", "first", "last", "same", "rest", "noise", "ordinal"}
PIECES = {"leg", "legs", "arm", "arms", "wing", "wings", "foot", "feet", "paw", "petal"}  # made before, joined now
_ONE_OF_MANY = {"st", "stitch", "space", "number"}
_AFTER_ONE = {"around", "group", ",", ".", ";", ""}
_BEHIND = {"skipped", "missed", "unworked", "below", "behind", "unused"}


@dataclass(slots=True)
class Seen:
    """What the words of a place have said so far."""

    each: bool = False
    next: bool = False
    first: bool = False
    last: bool = False
    same: bool = False
    rest: bool = False
    number: Figure | None = None
    nth: int | None = None
    kinds: list[str] = field(default_factory=list[str])
    st: bool = False
    space: bool = False
    size: int | None = None
    chain: bool = False
    ring: bool = False
    row_ends: bool = False
    top: bool = False
    behind: bool = False
    center: bool = False
    corner: bool = False
    group: str = ""

    @property
    def target(self) -> Target:
        """Return the kind of place that was described."""
        generic = self.st and not self.kinds
        return Target(
            kinds=() if generic else tuple(self.kinds),
            space=self.space,
            size=self.size,
            also_spaces=(self.space or self.chain) and (self.st or bool(self.kinds)),
            chain=self.chain and not self.space,
            group=self.group,
            nth=self._nth_of_group(),
            corner=self.corner and self.space,
        )

    def _nth_of_group(self) -> int | None:
        """Return which stitch of the group, or of those between two spaces, is meant; None where that isn't said."""
        if self.center and self.kinds and not (self.group or self.space or self.same):
            return 0
        if not self.group or self.space or not (self.st or self.kinds):
            return None
        if self.center:
            return 0
        return self.nth or (1 if self.first else -1 if self.last else None)


def describe(items: Sequence[Item], at: int, seen: Seen) -> int:
    """Take in the words of a place, from after its preposition; return the index after them."""
    index = at
    named = False
    while index < len(items):
        what = kind(items, index)
        word = text_at(items, index)
        if word in ("and", "&") and named and _more_places(items, index + 1):
            pass
        elif word == "or" and named and kind(items, index + 1) in ("st", "space"):
            index += 1  # `in one st or sp`: the round says which
        elif (what in _DETERMINERS or _ends(items, index)) and not (named and what not in ("noise",)):
            if what == "noise" and not _noise_fits(items, index, named=named):
                break
            determine(items, index, seen)
        elif not named and (found := past_group(items, index)) is not None:
            seen.group, index = found
            named = True
            continue
        elif (not named or _after_and(items, index)) and (stop := past_sized_space(items, index)) is not None:
            seen.space = named = True
            seen.size = figure.values[0] if (figure := figure_at(items, index)) else None
            index = stop
            continue
        elif (
            not named
            and seen.number is None
            and (number := figure_at(items, index)) is not None
            and _number_fits(items, index, seen)
        ):
            seen.number = number
            index += _links(items, index + 1)
        elif what == "stitch" and _stitch_is_place(items, index, seen, named=named):
            index = _stitch_place(items, index, seen)
            named = True
            continue
        elif _each_one(items, index, seen) or _names_place(what, seen, named=named):
            seen.st = seen.st or what == "number"
            named = True
        elif named and what == "remain" and kind(items, index + 1) == "unworked":
            pass
        elif named and what == "unworked":
            seen.behind = True
        elif word in PIECES and not named and index > at:
            seen.behind = named = True
        elif word in _BEHIND:
            index = _behind(items, index, seen)
            named = True
        elif not _qualifies(items, index, seen, named=named):
            break
        index += 1
    while index > at and kind(items, index - 1) == "noise":
        index -= 1
    return index


def _ends(items: Sequence[Item], index: int) -> bool:
    """Tell whether `end` says which: `in the end ch`."""
    return text_at(items, index) == "end" and kind(items, index + 1) in ("st", "stitch")


def _each_one(items: Sequence[Item], index: int, seen: Seen) -> bool:
    """Tell whether `one` stands for a stitch: `in each one across`."""
    return text_at(items, index) == "one" and seen.each and kind(items, index + 1) in _AFTER_ONE


def _names_place(what: str, seen: Seen, *, named: bool) -> bool:
    """Take a word that names the kind of place: `st`, `sp`, `ring`, `row end`, `each back loop`."""
    loops = what == "loops" and not named and (seen.each or seen.next or seen.number is not None)
    if not loops and (what not in ("st", "space", "ring", "row_ends") or (named and what in ("ring", "row_ends"))):
        return False
    seen.st = seen.st or what == "st" or loops
    seen.space = seen.space or what == "space"
    seen.ring = seen.ring or what == "ring"
    seen.row_ends = seen.row_ends or what == "row_ends"
    return True


def _space_follows(items: Sequence[Item], index: int) -> bool:
    """Tell whether a space is named here: `sp`, `ch-1 sp`, `1ch sp`."""
    stop = index
    while kind(items, stop) in ("-", "number", "stitch") and stop < index + LONGEST_SPACE:
        stop += 1
    return kind(items, stop) == "space"


LONGEST_SPACE = 4  # words before `sp`: `ch - 1`, with one to spare


def _links(items: Sequence[Item], index: int) -> int:
    """Return 2 where `-chain sts` follows a number of links, `remaining 7-chain sts`; else 0."""
    item = items[index + 1] if index + 1 < len(items) else None
    chain = isinstance(item, Word) and item.stitch is not None and item.stitch.kind == "chain"
    return 2 if chain and kind(items, index) == "-" and kind(items, index + 2) not in ("space", "number") else 0


def _behind(items: Sequence[Item], index: int, seen: Seen) -> int:
    """Take stitches of an earlier row, `unworked 7 sts`; return the index of the last word."""
    seen.behind = True
    if seen.number is None and (number := figure_at(items, index + 1)) and kind(items, index + 2) == "st":
        seen.number, index = number, index + 1
    return index + (kind(items, index + 1) in ("st", "stitch"))


_QUALIFIERS = {"underside", "undersides", "corner", "center", "centre", "corresponding", "beginning"}


def _qualifies(items: Sequence[Item], index: int, seen: Seen, *, named: bool) -> bool:
    """Take a word that only says more of the place: `corner`, `top`, `side` before `sp`."""
    what, word = kind(items, index), text_at(items, index)
    if word in ("top", "tops"):
        seen.top = True
        return True
    if word == "place" and seen.same:
        return True
    if named:
        return False
    if word in _QUALIFIERS or (word == "side" and _space_follows(items, index + 1)):
        seen.center = seen.center or word in ("center", "centre")
        seen.corner = seen.corner or word == "corner"
        seen.next = seen.next or not seen.each
        return True
    return what == "post"


def _noise_fits(items: Sequence[Item], index: int, *, named: bool) -> bool:
    word = text_at(items, index)
    if named:
        return word == "of" and (
            kind(items, index + 1) in ("noise", "last", "next")
            or text_at(items, index + 1) in ("previous", "prev", "rnd")
        )
    return word in ("the", "of", "a", "an", "your", "this", "both")


def _number_fits(items: Sequence[Item], index: int, seen: Seen) -> bool:
    """Tell whether a number counts places: `next 9 sts`, not the times of the next stitch or a closing count."""
    figure = figure_at(items, index)
    if _each_one(items, index, seen):
        return False
    if kind(items, index) == "group" and (seen.each or seen.last) and figure is not None and not figure.is_list:
        return False
    one = figure is not None and not figure.is_list and kind(items, index - 1) == "next"
    if kind(items, index) == "group" and one and kind(items, index + 1) in ("", "."):
        return False  # `2 sc in next (18)`
    if kind(items, index) == "group" and text_at(items, index - 1) in _QUALIFIERS:
        return False  # `1 sc in corner {36 (40, 44)}`
    return not (kind(items, index + 1) == "times" and text_at(items, index + 1) != "x")


def determine(items: Sequence[Item], index: int, seen: Seen) -> None:
    """Take in a word that says which: `each`, `next`, `first`, `same`, `3rd`."""
    item = items[index]
    what = item.kind
    left = kind(items, index + 2) in ("remain", "rest") or text_at(items, index + 2) == "left"
    if what == "each" and text_at(items, index) == "any" and kind(items, index + 1) in _ONE_OF_MANY and not left:
        seen.next = True  # `join in any ch-2 sp`: one of them
    elif what == "each":
        seen.each = True
    elif what == "next":
        seen.next = True
    elif what == "first":
        seen.first = True
    elif what == "last" or _ends(items, index):
        seen.last = True
    elif what == "same":
        seen.same = True
    elif what == "rest":
        seen.rest = True
    elif what == "ordinal" and isinstance(item, Word):
        seen.nth = item.value


def _stitch_is_place(items: Sequence[Item], index: int, seen: Seen, *, named: bool) -> bool:
    if named:
        return _after_and(items, index)
    item = items[index]
    if not isinstance(item, Word) or item.stitch is None or item.stitch.kind in ("increase", "decrease"):
        return seen.number is not None and seen.next
    return True


def _after_and(items: Sequence[Item], index: int) -> bool:
    return text_at(items, index - 1) in ("and", "&")


def _more_places(items: Sequence[Item], index: int) -> bool:
    """Tell whether `and` joins two kinds of places: `each sc and ch-1 sp`."""
    if kind(items, index) == "each":
        return False
    if past_sized_space(items, index) is not None:
        return True
    if kind(items, index) == "stitch":
        step = index + 1
        while kind(items, step) in ("-", "number"):
            step += 1
        ends = ("around", ",", ";", ".", "", "=", "-", "group", ":")
        return kind(items, step) in ("space", "around") or kind(items, index + 1) in ends
    return kind(items, index) in ("space",)


def _stitch_place(items: Sequence[Item], index: int, seen: Seen) -> int:
    """Take in a stitch that names the place: `sc`, `ch`, `ch-2 sp`, `ch 3`; return the index after it."""
    item = items[index]
    assert isinstance(item, Word) and item.stitch is not None
    if item.stitch.id == "mesh":
        seen.space = True
        return index + 1
    if item.stitch.kind != "chain":
        seen.kinds.append(item.stitch.id)
        return index + 1
    if (sized := _by_its_chains(items, index, seen)) is not None:
        return sized
    stop = index + 1
    while kind(items, stop) == "-":
        stop += 1
    number = figure_at(items, stop)
    dash = stop > index + 1 and items[index + 1].blank
    bracketed = kind(items, stop) == "group" and number is not None and (seen.each or not number.is_list)
    if bracketed or (seen.each and dash):
        number = None  # `in each ch (16)`, `in each ch - 22 (29) sts`: a count
        stop = index + 1
    if number is None and kind(items, stop) == "space":
        seen.space = True
        return stop + 1
    if number is not None and kind(items, stop + 1) == "," and kind(items, stop + 2) == "space":
        seen.size, seen.space = number.values[0], True
        return stop + 3  # `ch 2, sp`: a stray comma
    if number is not None and (
        kind(items, stop + 1) == "space" or text_at(items, stop - 1) == "-" or seen.top or seen.same or not seen.next
    ):
        seen.size = number.values[0]
        stop += 1
        if kind(items, stop) == "-":
            stop += 1
    elif number is None:
        stop = index + 1
    if text_at(items, stop) == "corner" and seen.size is not None:
        stop += 1
    if kind(items, stop) == "space":
        seen.space = True
        return stop + 1
    if seen.size is not None and not (seen.top or seen.same):
        seen.space = True
    seen.chain = True
    if kind(items, stop) == "st":
        stop += 1
    return stop


def _by_its_chains(items: Sequence[Item], index: int, seen: Seen) -> int | None:
    """Take in a space that old prose names by its chains, `each 2 chain`, `every chain of 7`; None for others."""
    told = seen.number if text_at(items, index - 2) in ("each", "every") else None
    end = index + 1
    if told is None and text_at(items, end) == "of" and kind(items, end + 2) not in ("st", "stitch", "space"):
        told, end = figure_at(items, end + 1), end + 2
    if told is None or seen.next:
        return None
    seen.size, seen.number, seen.space = told.values[0], None, True
    return end + (kind(items, end) == "space")
