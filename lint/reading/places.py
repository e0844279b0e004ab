"""Places: where a stitch goes, read in one place for every stitch, group and skip."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..draft import Span
from ..figures import Figure
from ..steps import ANY_GROUP, At, Target, Where
from .claims import past_sized_space
from .described import PIECES, Seen, describe, determine
from .groups import past_group
from .marks import Item, kind, text_at
from .times import figure_at, read_remainder, read_to_marker
from .turning import past_turning_chain, to_turning_chain
from .words import Word

OF_PARTS = frozenset(
    {"steek", "heel", "instep", "sole", "sleeve", "body", "thumb", "gusset", "yoke", "held", "neck", "underarm"}
)


NEEDLES = {"needle", "needles", "ndl", "ndls", "needle's", "dpn", "dpns"}
_LEADS = {"center", "centre", "central", "middle", "across", "the", "next", "these", "following", "foll"}


@dataclass(frozen=True, slots=True)
class Placed:
    """A place, the index after its last word, and whether the draft says "each" or only "around"."""

    where: Where
    end: int
    each: bool = False
    around: bool = False


def _goes_into_last(items: Sequence[Item], index: int) -> bool:
    """Tell whether `in last 2 sts` names the place and not where to stop."""
    return text_at(items, index) not in ("to", "until", "till", "til")


def read_place(items: Sequence[Item], at: int) -> Placed | None:
    """Read a place from its preposition on: `in each of next 9 sts`, `into ring`, `around`, `in 2nd ch from hook`.

    None where no place stands there.
    """
    index = at
    post = False
    between = False
    if text_at(items, at) == "in all" and (kind(items, at + 1) in ("st", "stitch") or figure_at(items, at + 1)):
        every = Seen(each=True)
        return _finish(items, at, describe(items, at + 1, every), every, post=False, between=False)
    if kind(items, index) == "loops":
        index += 1
        index += kind(items, index) == "," and kind(items, index + 1) == "between"
        if text_at(items, index) == "of" and _place_starts(items, index + 1):
            index += 1
    if (whole := _as_a_whole(items, at, index)) is not None:
        return whole
    across = text_at(items, index) == "across"
    if across:
        index += 1  # `dc across 28 sts`
    elif (
        kind(items, index) in ("post", "around")
        or (kind(items, index) == "noise" and kind(items, index + 1) == "post")
        or (text_at(items, index) == "round" and _post_follows(items, index + 1))
    ):
        index += 1 if kind(items, index) != "noise" else 2
        post = True
    elif kind(items, index) in ("into", "over"):
        index += 1
        if kind(items, index) == "loops":
            index += 1
        if kind(items, index) == "post":
            post = True
            index += 1
    elif kind(items, index) == "between":
        if (pair := _between_pair(items, index + 1)) is not None:
            span = _span(items, at, pair)
            gap = Where(At.BETWEEN, Figure((1,), span), Target(group=ANY_GROUP), span=span)
            return Placed(gap, _past_reference(items, pair))
        between = True
        index += 1
    elif kind(items, at) == "loops":
        if not _place_starts(items, index):
            return None
    elif kind(items, index) not in ("each", "next", "last", "same") or not _place_starts(items, index):
        return None
    seen = Seen()
    stop = describe(items, index, seen)
    if (stop == index and not post) or (seen.number is not None and text_at(items, stop) in NEEDLES):
        return None  # `cast on 48 sts on 3 needles`
    return _finish(items, at, stop, seen, post=post, between=between)


def _as_a_whole(items: Sequence[Item], at: int, index: int) -> Placed | None:
    """Read a place that needs no further words: up to the last ones, around, the top of the turning chain."""
    if marked := read_to_marker(items, index):
        leave, nth, end = marked
        return Placed(Where(At.EACH, leave=leave, to_marker=nth, span=_span(items, at, end)), end)
    if (remainder := read_remainder(items, index)) and not _goes_into_last(items, index):
        leave, end = remainder
        return Placed(Where(At.EACH, leave=leave, span=_span(items, at, end)), end)
    if kind(items, index) == "around" and (stop := _around_piece(items, index + 1)) is not None:
        return Placed(Where(At.BEHIND, span=_span(items, at, stop)), stop)
    if text_at(items, index) == "across" and _counts_places(items, index + 1):
        return None
    if (stop := _under_chain(items, index)) is not None:
        return Placed(Where(At.RING, span=_span(items, at, stop)), stop)
    if kind(items, index) == "around" and not (_post_follows(items, index + 1) or _around_posts(items, index)):
        return _whole_round(items, index)
    if kind(items, index) == "into" and (stop := past_turning_chain(items, index + 1)) is not None:
        span = _span(items, at, stop)
        where = Where(At.NEXT, number=Figure((1,), span), last=True, span=span, turning=True)
        return Placed(where, _past_reference(items, stop))
    return None


def _between_pair(items: Sequence[Item], index: int) -> int | None:
    """Pass over `the two dc` after `between`: the last of a group and the first of the next; None for others."""
    two = figure_at(items, index + 1)
    if text_at(items, index) != "the" or two is None or two.values != (2,) or kind(items, index + 2) != "stitch":
        return None
    return index + 3


def _under_chain(items: Sequence[Item], index: int) -> int | None:
    """Pass over `under the foundation chain`: the ring made of it; None where it is no such words."""
    if text_at(items, index) != "under":
        return None
    stop = index + 1
    while kind(items, stop) == "noise" or text_at(items, stop) in _FIRST_CHAIN:
        stop += 1
    return stop + 1 if _is_link(items, stop) and stop > index + 1 else None


_FIRST_CHAIN = frozenset({"foundation", "first", "centre", "center", "circle", "round"})


def _counts_places(items: Sequence[Item], index: int) -> bool:
    """Tell whether so many stitches follow: `across 28 sts`, `across first 5 sc`."""
    while kind(items, index) in ("noise", "first", "next", "last"):
        index += 1
    if figure_at(items, index) is None:
        return False
    index += 1
    while kind(items, index) == "word" and text_at(items, index) in OF_PARTS:
        index += 1  # `across 18 heel sts`
    return kind(items, index) in ("st", "stitch")


def past_lead(items: Sequence[Item], at: int) -> int:
    """Pass over `across the next` before `32 sts`; return the index itself where no number of stitches follows."""
    stop = at
    while kind(items, stop) in ("first", "rest", "remain", "over") or text_at(items, stop) in _LEADS:
        stop += 1
    return stop if _counts_places(items, stop) and kind(items, stop) not in ("noise", "next", "last") else at


def past_rest(items: Sequence[Item], at: int) -> int:
    """Pass over `the rest`, `rest of the round`, `remaining sts` to their end; 0 where something else stands there."""
    stop = at
    while kind(items, stop) == "noise":
        stop += 1
    if kind(items, stop) != "rest":
        return 0
    stop += 1
    while kind(items, stop) in ("noise", "round", "st", "stitch", "around"):
        stop += 1
    return stop if kind(items, stop) in ("", ".", ",", ";", "group", "=", "-", "join") else 0


def _around_piece(items: Sequence[Item], index: int) -> int | None:
    """Pass over `first leg` after `around`: a piece made before; None where it is no such words."""
    while kind(items, index) in ("first", "next", "last", "ordinal", "noise", "rest"):
        index += 1
    return index + 1 if text_at(items, index) in PIECES else None


def _place_starts(items: Sequence[Item], index: int) -> bool:
    return kind(items, index) in ("each", "next", "last", "first", "same") or _nth_link_named(items, index)


def _nth_link_named(items: Sequence[Item], index: int) -> bool:
    """Tell whether `2nd ch from hook` stands here, without a preposition of its own: `in back bump of 2nd ch`."""
    return kind(items, index) == "ordinal" and kind(items, index + 1) == "stitch" and kind(items, index + 2) == "hook"


def _around_posts(items: Sequence[Item], index: int) -> bool:
    """Tell whether a raised stitch goes around what follows: `FPdc around 1, dc in next 4`, `BPdc around st`."""
    raised = items[index - 1] if index else None
    if not (isinstance(raised, Word) and raised.stitch is not None and raised.stitch.id.startswith(("fp", "bp"))):
        return False
    counted = figure_at(items, index + 1) is not None
    return (counted or kind(items, index + 1) in ("st", "stitch")) and kind(items, index + 1 + counted) != "times"


def _post_follows(items: Sequence[Item], index: int) -> bool:
    return kind(items, index) in ("each", "next", "same", "stitch") or text_at(items, index) == "the"


def _whole_round(items: Sequence[Item], index: int) -> Placed:
    end = index
    while kind(items, end) == "around":
        end += 1
    leave = None
    if remainder := read_remainder(items, end):
        leave, end = remainder
    span = Span(items[index].span.start, items[end - 1].span.end)
    to_end = text_at(items, index).startswith(("to ", "until ", "till "))
    return Placed(Where(At.EACH, leave=leave, span=span), end, around=not to_end)


_WHICH = {"each", "next", "first", "last", "same", "noise"}


def _of_each(items: Sequence[Item], stop: int, seen: Seen) -> int:
    """Pass over `of each V-st`, `of next shell`, `of next 5-ch loop`: what the place is a part of."""
    if seen.group or text_at(items, stop) not in ("of", "in", "on"):
        return stop
    at = stop + 1
    while kind(items, at) in _WHICH:
        at += 1
    if (found := past_group(items, at)) is not None:
        for index in range(stop + 1, at):
            if kind(items, index) in ("each", "next"):
                determine(items, index, seen)
        seen.group, at = found
        return at
    if not seen.space and (seen.center or seen.nth) and (loop := _loop(items, at)) is not None:
        seen.space, seen.st, seen.chain, seen.nth = True, False, False, None
        seen.kinds.clear()
        return loop
    if not seen.space or kind(items, stop + 1) not in _WHICH or kind(items, stop + 2) not in ("stitch", "st", "word"):
        return stop
    determine(items, stop + 1, seen)
    return stop + 3


def _loop(items: Sequence[Item], at: int) -> int | None:
    """Pass over a loop or space: `loop`, `ch-5 lp`, `5-ch sp`; None where none is named."""
    if (sized := past_sized_space(items, at)) is not None:
        return sized
    stop = at
    if kind(items, stop) == "stitch" and kind(items, stop + 1) in ("-", "number", "space"):
        stop += 1
        while kind(items, stop) in ("-", "number"):
            stop += 1
    if kind(items, stop) == "space":
        return stop + 1
    return at + 1 if _is_link(items, at) else None


def _is_link(items: Sequence[Item], at: int) -> bool:
    """Tell whether a chain is named without a number: `in next 3 sts of ch`."""
    link = items[at] if at < len(items) else None
    bare = isinstance(link, Word) and link.stitch is not None and link.stitch.kind == "chain"
    return bare and kind(items, at + 1) not in ("-", "number", "space")


def _of_chain(items: Sequence[Item], at: int) -> int | None:
    """Pass over `of ch`, `of the foundation chain` after a stitch: a link of the chain; None where not said."""
    if text_at(items, at) != "of":
        return None
    stop = at + 1
    while kind(items, stop) == "noise" or text_at(items, stop) in ("foundation", "starting", "beginning"):
        stop += 1
    item = items[stop] if stop < len(items) else None
    chain = isinstance(item, Word) and item.stitch is not None and item.stitch.kind == "chain"
    return stop + 1 if chain and kind(items, stop + 1) not in ("-", "number", "space", "group") else None


def _gap(items: Sequence[Item], at: int, seen: Seen) -> tuple[Target, int] | None:
    """Read `between dc`, `between groups`, `between any 2 shells` after a space: between what it lies."""
    if not seen.space or kind(items, at) != "between":
        return None
    index = at + 1
    while kind(items, index) in _WHICH:
        index += 1
    if (found := past_group(items, index)) is not None:
        return Target(group=found[0]), found[1]
    index += kind(items, index) == "number"
    if (found := past_group(items, index)) is not None:
        return Target(group=found[0]), found[1]
    if kind(items, index) not in ("st", "stitch"):
        return None
    return Target(), index + 1


_FIRST_PLACE = 2  # words before it: `1 hdc in 3rd st of ch`
_FIRST_LINKS = range(2, 7)  # from the hook, where a first row begins


def _finish(items: Sequence[Item], at: int, stop: int, seen: Seen, *, post: bool, between: bool) -> Placed | None:
    begins = at <= _FIRST_PLACE and seen.nth in _FIRST_LINKS
    link = seen.st and not (seen.kinds or seen.center) and (seen.nth in (None, 2) or begins)
    if link and (end := _of_chain(items, stop)) is not None:
        # where a row begins; a later one is the middle of a loop
        seen.st, seen.chain, stop = False, True, end
    stop = _of_each(items, stop, seen)
    if (gap := _gap(items, stop, seen)) is not None and not seen.same:
        target, end = gap
        while kind(items, end) == "around":
            seen.each = True
            end += 1
        span = _span(items, at, end)
        number = None if seen.each else seen.number or Figure((1,), span)
        return Placed(Where(At.BETWEEN, number=number, target=target, span=span), end, each=seen.each)
    if seen.same and text_at(items, stop) in ("as", "with", "of") and text_at(items, stop + 1).startswith("join"):
        seen.space = False  # `in same space with joining`: the stitch into which the round was joined
        stop += 2
    start = stop
    end = _past_reference(items, _past_as(items, stop) if seen.same else stop)
    if seen.chain and kind(items, end) == "group" and kind(items, end + 1) == "hook":
        end += 1
    if kind(items, end) == "from" and kind(items, end + 1) == "hook":
        end += 1
    if kind(items, end) == "hook":
        end += 1
        return Placed(Where(At.FROM_HOOK, number=_nth(seen), span=_span(items, at, end)), end)
    leave: Figure | None = None
    whole = False
    while kind(items, end) == "around" and not _post_follows(items, end + 1):
        whole = True
        end += 1
    if remainder := read_remainder(items, end):
        leave, end = remainder
        whole = True
    stitches = not seen.space or seen.target.also_spaces
    stop = _to_space(items, end) if leave is None and (seen.each or whole) and stitches else end
    to_space, end = stop > end, stop
    stop = to_turning_chain(items, end) if leave is None and (seen.each or whole) else end
    turning, end = stop > end, stop
    end = _past_reference(items, end)
    span = _span(items, at, end)
    where = _where(seen, span, post=post, between=between, whole=whole or leave is not None)
    if where is None:
        return None
    named = _round_named(items, start, end)
    return Placed(replace(where, leave=leave, to_space=to_space, turning=turning, of_round=named), end, each=seen.each)


_COME_TO = {"you", "get", "reach", "come", "to", "reaching", "arrive", "at", "the"}


def _to_space(items: Sequence[Item], index: int) -> int:
    """Pass over `to next ch-2 sp`, `up to the corner sp` after `in each st`; the index itself where it isn't said."""
    at = index + 1 if text_at(items, index) in ("up", "across", "along") else index
    if text_at(items, at) not in ("to", "until", "till", "up to"):
        return index
    while text_at(items, at + 1) in _COME_TO:
        at += 1
    seen = Seen()
    stop = describe(items, at + 1, seen)
    if seen.space and not seen.each and seen.number is None:
        return stop
    return stop if text_at(items, stop - 1) == "corner" else index


def _nth(seen: Seen) -> Figure | None:
    if seen.nth is not None:
        return Figure((seen.nth,), Span(0, 0))
    return seen.number


def _span(items: Sequence[Item], at: int, end: int) -> Span:
    return Span(items[at].span.start, items[max(at, end - 1)].span.end)


def _where(seen: Seen, span: Span, *, post: bool, between: bool, whole: bool) -> Where | None:
    if seen.ring:
        return Where(At.RING, span=span)
    if seen.corner and not (seen.st or seen.kinds or seen.chain or seen.group or seen.center or seen.top):
        seen.space = True
    if seen.row_ends:
        single = (seen.next or seen.first or seen.last) and not seen.each
        return Where(At.ROW_ENDS, number=seen.number or (Figure((1,), span) if single else None), span=span)
    if seen.behind:
        single = None if seen.each or whole else Figure((1,), span)
        return Where(At.BEHIND, number=seen.number or single, span=span)
    if seen.same:
        return Where(At.POST_SAME if post else At.SAME, target=seen.target, span=span)
    one = Figure((1,), span)
    if between:
        # `between next 2 dc`: one gap
        number = None if seen.each or whole else one
        return Where(At.BETWEEN, number=number, target=Target(group=seen.group), span=span)
    if seen.group:
        every = seen.each or seen.rest or whole
        number = seen.number or (None if every else one)
        return Where(At.NEXT if number else At.EACH, number=number, target=seen.target, span=span)
    if seen.number is not None:
        last = seen.last
        return Where(At.NEXT, number=seen.number, target=seen.target, last=last, span=span)
    if seen.nth is not None and seen.nth > 1 and not (seen.chain or seen.space or seen.each or seen.last or whole):
        return Where(At.NEXT, number=one, target=seen.target, span=span, nth=seen.nth)
    if seen.each or seen.rest or whole:
        if seen.last:
            return Where(At.NEXT, number=one, target=seen.target, last=True, span=span)
        return Where(At.EACH, target=seen.target, span=span)
    if seen.nth is not None and seen.nth > 1:
        return Where(At.NEXT, number=one, target=Target(chain=True), span=span, nth=seen.nth) if seen.chain else None
    if seen.next or seen.first or seen.last or seen.top or seen.nth == 1:
        target = Target() if seen.top else seen.target
        first = (seen.first or seen.nth == 1) and not (seen.last or target.space)
        return Where(At.NEXT, number=one, target=target, last=seen.last, span=span, first=first)
    if seen.st or seen.space or seen.kinds or seen.chain:
        return Where(At.NEXT, number=one, target=seen.target, span=span)
    return None


def _round_named(items: Sequence[Item], start: int, end: int) -> int | None:
    """Return the number of the round named between two indices, `on rnd 2`, `of 3rd row`; None without one."""
    for index in range(start, end):
        if kind(items, index) != "round":
            continue
        for near in (index + 1, index - 1):
            item = items[near] if start <= near < end else None
            if isinstance(item, Word) and item.kind in ("number", "ordinal"):
                return item.value
    return None


_AS_WHAT = {"noise", "same", "first", "ordinal", "last", "join", "stitch", "st", "-"}


def _past_as(items: Sequence[Item], index: int) -> int:
    """Pass over `as joining`, `as ch 2`, `as beg ch-3`, `as last sc` after `in same st`."""
    if text_at(items, index) != "as":
        return index
    stop = index + 1
    while kind(items, stop) in _AS_WHAT or text_at(items, stop) in ("beg", "join", "turning", "starting", "previous"):
        if kind(items, stop) in ("first", "last") and kind(items, stop + 1) == "number":
            stop += 1  # `in same ch as first 2 sc`
        chain = kind(items, stop) == "stitch"
        stop += 1
        if chain and kind(items, stop) == "-":
            stop += 1
        if chain and kind(items, stop) == "number" and kind(items, stop + 1) not in ("stitch",):
            return stop + 1
        if chain:
            return stop
    return stop


_REFERENCE = {
    "previous",
    "prev",
    "prior",
    "below",
    "row",
    "rnd",
    "round",
    "rows",
    "rounds",
    "rnds",
    "last",
    "made",
    "underneath",
    "crochet",
}


def _past_reference(items: Sequence[Item], index: int) -> int:
    """Pass over words that only say which row the places are in: `of last round`, `from previous rnd`, `made`."""
    start = index
    if text_at(items, index) == "of" and _is_link(items, index + 1):
        return index + 2
    if text_at(items, index) in ("of", "from", "on", "in", "made") or kind(items, index) == "from":
        stop = index + 1
        said = text_at(items, index) == "made"
        while (
            (named := text_at(items, stop) in _REFERENCE or kind(items, stop) == "round")
            or text_at(items, stop) in ("the", "your")
            or kind(items, stop) == "ordinal"
        ):
            said = said or named
            stop += 1
            if stop - start > 5:
                break
        if said and kind(items, stop) == "number" and kind(items, stop - 1) == "round":
            stop += 1
        if said:
            return stop
    return start
