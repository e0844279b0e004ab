"""Times: how often something is done, read in one place for brackets, stars and single stitches alike."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..draft import Span
from ..figures import Figure
from ..steps import CENTRE, OF_NEEDLE, Count, Target, Times, group_name
from .marks import Group, Item, flat, kind, span_of
from .words import Word


@dataclass(frozen=True, slots=True)
class Read:
    """Times and the index after their last word."""

    times: Times
    end: int


def _word(items: Sequence[Item], index: int) -> Word | None:
    item = items[index] if 0 <= index < len(items) else None
    return item if isinstance(item, Word) else None


def figure_at(items: Sequence[Item], index: int) -> Figure | None:
    """Return the number at an index; a bracket that holds nothing but one number serves as that number."""
    item = items[index] if 0 <= index < len(items) else None
    if isinstance(item, Word) and item.kind == "number":
        return item.figure
    if isinstance(item, Group) and len(item.items) == 1 and kind(item.items, 0) == "number":
        return figure_at(item.items, 0)
    return None


def read_remainder(items: Sequence[Item], at: int) -> tuple[Figure, int] | None:
    """Read `to last 3 sts`, `until 2 sts remain`, `to within 3 sts of end`: the places kept, and the index after."""
    index = at
    if kind(items, index) == "around" and kind(items, index + 1) in ("until", "into"):
        index += 1
    if kind(items, index) not in ("until", "into", "over"):
        return None
    index += 1
    while kind(items, index) in ("noise", "rest") or _text(items, index) in (
        "within",
        "there",
        "only",
        "you",
    ):
        index += 1
    if kind(items, index) == "last" or _text(items, index) in ("final",):
        index += 1
        number = figure_at(items, index)
        if number is None:
            if kind(items, index) in ("st", "stitch"):
                return Figure((1,), items[index].span), index + 1
            return None
        return number, _past_target(items, index + 1)
    number = figure_at(items, index)
    if number is None:
        return None
    index = _past_target(items, index + 1)
    if kind(items, index) in ("remain", "rest", "more"):
        return number, index + 1
    if _text(items, index) in ("before", "of") or kind(items, index) == "from":
        stop = index + 1
        while kind(items, stop) in ("noise", "around", "round") or _text(items, stop) == "end":
            stop += 1
        return number, stop
    return None


def read_to_marker(items: Sequence[Item], at: int) -> tuple[Figure | None, int, int] | None:
    """Read `to marker`, `to 3 sts before next marker`, `until 1 st before m`, `to last 3 sts before marker`.

    Returns the stitches kept before it, which marker from here it is, and the index after its last word.
    """
    index = at + 1 if kind(items, at) == "around" else at
    if kind(items, index) not in ("until", "into"):
        return None
    told = _text(items, index)
    index += 1
    while kind(items, index) in ("noise", "last") or _text(items, index) == "within":
        index += 1
    leave = figure_at(items, index)
    if leave is not None or kind(items, index) == "st":
        leave = leave or Figure((1,), items[index].span)
        index += 1 if figure_at(items, index) is not None else 0
        if kind(items, index) != "st":
            return None
        index += 1
        if _text(items, index) not in ("before", "of") and kind(items, index) != "from":
            return None
        index += 1
    if centre := _centre(items, index, told):
        width, end = centre
        kept = (leave.values[0] or 0 if leave else 0) + width // 2
        return Figure((kept,), items[index].span) if kept else None, CENTRE, end
    nth = 1
    while kind(items, index) in ("next", "first", "noise", "ordinal", "last", "each"):
        word = _word(items, index)
        if word and word.kind == "ordinal" and word.value is not None:
            nth = word.value
        index += 1
    if kind(items, index) == "landmark":
        return leave, CENTRE if _text(items, index).split()[0] in _MIDDLE else OF_NEEDLE, index + 1
    if kind(items, index) != "marker":
        return None
    end = index + 1
    word = _word(items, end)
    if word and word.kind == "number" and not word.blank:
        end += 1
    return leave, nth, end


_UP_TO = frozenset({"to", "until", "till", "up to"})
_MIDDLE = frozenset({"center", "centre", "central", "middle"})


def _centre(items: Sequence[Item], at: int, told: str) -> tuple[int, int] | None:
    """Read `centre st`, `centre 3 sts` after `to`: how many they are, and the index after them."""
    index = at + (kind(items, at) == "noise")
    if told not in _UP_TO or _text(items, index) not in _MIDDLE:
        return None
    index += 1
    figure = figure_at(items, index)
    width = figure.values[0] if figure is not None and not figure.is_list else 1
    index += figure is not None
    return (width, index + 1) if kind(items, index) == "st" and width else None


def _text(items: Sequence[Item], index: int) -> str:
    word = _word(items, index)
    return word.text if word else ""


def _past_target(items: Sequence[Item], index: int) -> int:
    if kind(items, index) in ("st", "stitch", "space"):
        index += 1
    return index


def read_times(items: Sequence[Item], at: int) -> Read | None:
    """Read how often: `5 times`, `x 6`, `twice more`, `around`, `to last 3 sts`, `a total of 4 times`; None if nothing.

    A bare number is `Count.TOTAL` here; where a star makes it ambiguous the caller says so.
    """
    index = at
    while kind(items, index) in (",", "noise", "even") and _leads_to_times(items, index):
        index += 1
    start = index
    item = items[index] if index < len(items) else None
    if isinstance(item, Group):
        inner = read_times(item.items, 0)
        if inner and inner.end >= len(item.items) and inner.times.count is not Count.TO_END:
            return _more_after(items, index + 1, replace(inner.times, span=item.span))
        more = kind(items, index + 1) == "more" and "times" in (_text(items, index + 1)[-5:], kind(items, index + 2))
        if figure_at(items, index) and (more or kind(items, index + 1) == "times"):
            return _counted(items, index, start)
        return None
    if marked := read_to_marker(items, index):
        leave, nth, end = marked
        return Read(Times(Count.TO_END, leave=leave, to_marker=nth, span=span_of(items[start:end])), end)
    if (end := _to_groups(items, index)) is not None:
        return Read(Times(Count.TO_END, span=span_of(items[start:end])), end)
    if groups := _to_last_groups(items, index):
        target, end = groups
        return Read(Times(Count.TO_END, span=span_of(items[start:end]), to_space=target), end)
    if (end := _to_last_space(items, index)) is not None:
        return Read(Times(Count.TO_END, span=span_of(items[start:end])), end)
    if remainder := read_remainder(items, index):
        number, end = remainder
        return Read(Times(Count.TO_END, leave=number, span=span_of(items[start:end])), end)
    if space := _to_space(items, index):
        target, end = space
        return Read(Times(Count.TO_END, span=span_of(items[start:end]), to_space=target), end)
    if (end := _past_other_needle(items, index)) is not None:
        span = span_of(items[start:end])
        return Read(Times(Count.MORE, Figure((1,), span), span=span), end)
    if kind(items, index) == "around":
        end = index + 1
        if remainder := read_remainder(items, end):
            number, end = remainder
            return Read(Times(Count.TO_END, leave=number, span=span_of(items[start:end])), end)
        while kind(items, end) == "around":
            end += 1
        return Read(Times(Count.TO_END, span=span_of(items[start:end])), end)
    return _counted(items, index, start)


def _past_other_needle(items: Sequence[Item], at: int) -> int | None:
    """Pass over `on second needle`, `across needle 2`: the same once more there; None where it is no such words."""
    if _text(items, at) not in ("on", "across", "for", "over", "along"):
        return None
    index = at + 1
    while kind(items, index) == "noise":
        index += 1
    other = kind(items, index) == "ordinal" or _text(items, index) in ("other", "back", "second", "2nd", "opposite")
    index += other
    if _text(items, index) not in ("needle", "ndl", "n"):
        return None
    if other:
        return index + 1
    number = figure_at(items, index + 1)
    return index + 2 if number is not None and number.values == (2,) else None


def _to_last_space(items: Sequence[Item], at: int) -> int | None:
    """Pass over `to last lp`, `until last sp`: the steps after it say what goes there; None for other words."""
    if _text(items, at) not in ("to", "until", "till", "up to"):
        return None
    index = at + 1
    while kind(items, index) == "noise":
        index += 1
    if kind(items, index) != "last":
        return None
    return index + 2 if kind(items, index + 1) == "space" else None


_SPACE_WORDS = frozenset({"corner", "center", "centre"})


def _to_space(items: Sequence[Item], at: int) -> tuple[Target, int] | None:
    """Read `to next corner`, `until center ch-2 sp`: the space before which a repeat stops, and the index after it."""
    index = at + 1 if kind(items, at) == "around" else at
    if kind(items, index) not in ("until", "into") or _text(items, index) not in ("to", "until", "till", "up to"):
        return None
    index += 1
    while kind(items, index) in ("noise", "next", "first"):
        index += 1
    size: int | None = None
    named = False
    while index < len(items):
        word = _word(items, index)
        chain = word is not None and word.stitch is not None and word.stitch.kind == "chain"
        if word is not None and word.kind == "number" and size is None:
            size = word.value
        elif word is None or not (chain or word.kind in ("space", "-") or word.text in _SPACE_WORDS):
            break
        named = named or (word.kind == "space" or word.text == "corner")
        index += 1
    return (Target(space=True, size=size, corner=True), index) if named else None


def _to_last_groups(items: Sequence[Item], at: int) -> tuple[Target, int] | None:
    """Read `to last shell`, `around to last 2 V-sts`: the groups before which a repeat stops, and the index after."""
    index = at + 1 if kind(items, at) == "around" else at
    if kind(items, index) not in ("until", "into"):
        return None
    index += 1
    while kind(items, index) == "noise":
        index += 1
    if kind(items, index) != "last":
        return None
    number = figure_at(items, index + 1)
    index += 1 + (number is not None)
    word = _word(items, index)
    if word is None or word.stitch is None or (number is not None and number.is_list):
        return None
    several = word.make is not None and word.make.uses == 1 and word.make.makes > 2
    if not several and word.stitch.kind != "group":
        return None
    left = (number.values[0] or 1) if number is not None else 1
    return Target(group=group_name(word.stitch.id), nth=-left), index + 1


def _to_groups(items: Sequence[Item], at: int) -> int | None:
    """Pass over `until there are 5 clusters of 5 dc`: as often as it goes, up to the end of the clause."""
    if kind(items, at) != "until" or _text(items, at + 1) != "there":
        return None
    index = at + 2
    while kind(items, index) in ("noise", "total"):
        index += 1
    word = _word(items, index + 1)
    named = word is not None and ((word.stitch is not None and word.stitch.kind == "group") or word.text in _GROUPS)
    if figure_at(items, index) is None or not named:
        return None
    while index < len(items) and kind(items, index) not in (",", ".", ";", "group") and _text(items, index) != "and":
        index += 1
    return index


_GROUPS = frozenset({"groups", "group", "clusters", "sets", "repeats", "shells", "fans", "scallops"})


def _leads_to_times(items: Sequence[Item], index: int) -> bool:
    after = index + 1
    while kind(items, after) in ("noise", "even"):
        after += 1
    if kind(items, index) == "," and kind(items, after) not in ("times", "often", "total", "around"):
        return figure_at(items, after) is not None and kind(items, after + 1) in ("times", "more")
    return (
        kind(items, after) in ("times", "often", "total", "around", "until", "more")
        or figure_at(items, after) is not None
    )


def _counted(items: Sequence[Item], index: int, start: int) -> Read | None:
    """Read a number of times."""
    word = _word(items, index)
    count = Count.TOTAL
    if word and word.kind == "total":
        index += 1
    elif (word and word.kind == "more") or _text(items, index) == "another":
        count = Count.MORE
        index += 1
    word = _word(items, index)
    if word and word.kind == "often":
        times = Times(count, Figure((word.value,), word.span), span=word.span)
        return _more_after(items, index + 1, times)
    if word and ((word.kind == "times" and word.text == "x") or word.kind == "*"):
        number = figure_at(items, index + 1)
        if number is None:
            return None
        end = index + 2
        if kind(items, end) == "times":
            end += 1
        return _more_after(items, end, Times(count, number, span=span_of(items[start:end])))
    number = figure_at(items, index)
    if number is None:
        return None
    end = index + 1
    if kind(items, end) == "more" and kind(items, end + 1) == "times":
        return Read(Times(Count.MORE, number, span=span_of(items[start : end + 2])), end + 2)
    if kind(items, end) == "more" and _text(items, end) != "extra":
        return Read(Times(Count.MORE, number, span=span_of(items[start : end + 1])), end + 1)
    if kind(items, end) != "times":
        return None
    return _more_after(items, end + 1, Times(count, number, span=span_of(items[start : end + 1])))


def _more_after(items: Sequence[Item], index: int, times: Times) -> Read:
    """Take in `more` or `in total` after a number of times."""
    if kind(items, index) == "more":
        end = index + 1
        span = Span(times.span.start, items[index].span.end) if times.span else items[index].span
        return Read(replace(times, count=Count.MORE, span=span), end)
    if kind(items, index) == "total":
        span = Span(times.span.start, items[index].span.end) if times.span else items[index].span
        return Read(replace(times, count=Count.TOTAL, said=True, span=span), index + 1)
    if isinstance(group := items[index] if index < len(items) else None, Group):
        words = list(flat(group.items))
        if words and any(word.kind == "total" for word in words) and len(words) <= 6:
            return Read(times, index + 1)
    return Read(times, index)


def is_in_all(items: Sequence[Item], at: int, end: int) -> bool:
    """Tell whether the words of a number of times say that it is all of them."""
    return any(kind(items, index) == "total" for index in range(at, min(end, len(items))))
