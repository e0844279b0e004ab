"""Directives: instructions that stand for whole rounds: rounds repeated, rounds worked even."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..figures import Figure
from ..pattern import Directive, RepeatRounds
from ..steps import Count, Times
from .by_letter import letters_named
from .evens import read_even
from .extents import Extent, until_of
from .marks import Group, Item, kind, span_of, text_at
from .rates import read_rate
from .times import figure_at
from .words import Word


@dataclass(frozen=True, slots=True)
class Directed:
    """A directive and the index after its last word."""

    directive: Directive
    end: int


_AS = {"as", "same", "like", "identical", "following"}
_LAST = {"last", "previous", "prev", "these", "above", "preceding", "those", "foregoing"}
_STEP_ROUNDS = {"to", "through", "thru", "-", "and", "&", "+", ",", "alternately", "into"}


def read_directive(items: Sequence[Item], at: int = 0) -> Directed | None:
    """Read `Rep rnds 4 and 5 twice more, then rnd 4 once`, `as rnd 2`, `work even for 5 rounds` from an index on."""
    index = at
    while kind(items, index) in (",", "noise", ":", "-", ".", "remark") and text_at(items, index) not in _AS:
        if kind(items, index) == "remark" and kind(items, index + 1) != "rep":
            break
        index += 1
    group = items[index] if index < len(items) else None
    if isinstance(group, Group) and kind(group.items, 0) == "rep" and kind(group.items, 1) == "round":
        # `[Rep rows 2-5] 30 times`
        inside = (*group.items, *items[index + 1 :])
        found = _repeat(inside, 0)
        beyond = found.end - len(group.items) if found else -1
        return Directed(found.directive, index + 1 + beyond) if found and beyond >= 0 else None
    return (
        _growing(items, at)
        or _more_repeats(items, index)
        or _rows_of_part(items, index)
        or _at_a_rate(items, index)
        or _by_letter(items, index)
        or _with_between(items, _repeat(items, index))
        or _later_repeat(items, index)
        or _even(items, index)
        or _other_part(items, index)
    )


def _at_a_rate(items: Sequence[Item], index: int) -> Directed | None:
    found = read_rate(items, index)
    return Directed(*found) if found else None


def _even(items: Sequence[Item], index: int) -> Directed | None:
    found = read_even(items, index)
    return Directed(*found) if found else None


_FURTHER = {"more", "additional", "extra", "another", "adding", "add", "increasing"}


def _growing(items: Sequence[Item], at: int) -> Directed | None:
    """Read `Continue in this manner, working one more sc between the increases each round, until you have 36 sts`."""
    if text_at(items, at) not in ("continue", "cont", "cont in", "continuing", "keep", "carry"):
        return None
    stop = at + 1
    while stop < len(items) and (kind(items, stop) not in (".", ";", "=", "group", "until") or _is_short(items, stop)):
        stop += 1
    named = next((n for n in range(at, stop) if kind(items, n) == "between"), None)
    if named is None or not any(text_at(items, n) in _FURTHER for n in range(at, named)):
        return None
    if not any(text_at(items, n)[:3] in ("inc", "dec") for n in range(named, min(named + 4, stop))):
        return None
    figures = [figure for n in range(at, named) if (figure := figure_at(items, n)) is not None]
    by = figures[0].values[0] if len(figures) == 1 and not figures[0].is_list else None if figures else 1
    if not by:
        return None
    until: Figure | None = None
    if kind(items, stop) == "until":
        _, until, measured, stop = until_of(items, stop + 1)
        if measured or until is None:
            return None
    return Directed(RepeatRounds(span=span_of(items[at:stop]), back=1, until=until, growing=by), stop)


def _is_short(items: Sequence[Item], index: int) -> bool:
    """Tell whether a full stop only ends a short form: `between incs. on every round`."""
    after = items[index + 1] if index + 1 < len(items) else None
    goes_on = isinstance(after, Word) and after.kind in ("into", "each", "noise", "until", ",", "round")
    return kind(items, index) == "." and text_at(items, index - 1)[:3] in ("inc", "dec") and goes_on


def _with_between(items: Sequence[Item], found: Directed | None) -> Directed | None:
    """Read `same as round 3 but with 2 hdc between the increases` to its end."""
    if found is None or not isinstance(found.directive, RepeatRounds):
        return found
    index = found.end
    while kind(items, index) in (",", "noise", "work") or text_at(items, index) in ("but", "except", "only", "having"):
        index += 1
    number = figure_at(items, index)
    stop = index + 1 + (kind(items, index + 1) in ("st", "stitch"))
    if number is None or kind(items, stop) != "between" or index == found.end:
        return found
    stop += 1
    while kind(items, stop) in ("noise", "each"):
        stop += 1
    if text_at(items, stop)[:3] not in ("inc", "dec"):
        return found
    end = stop + 1
    span = span_of(items[found.end : end])
    return Directed(replace(found.directive, between=number, span=found.directive.span.cover(span)), end)


_LEAD_TO_PART = {
    "for",
    "the",
    "as",
    "same",
    "like",
    "identical",
    "work",
    "make",
    "exactly",
    "way",
    "to",
    "in",
    "of",
    "a",
}


_NO_PARTS = frozenset(
    {
        "shown",
        "above",
        "before",
        "established",
        "set",
        "follows",
        "below",
        "usual",
        "normal",
        "instructed",
        "now",
        "you",
        "desired",
    }
    | {"pattern", "chart", "picture", "photo", "manner", "way", "described", "directed", "stated", "needed", "possible"}
)


def _other_part(items: Sequence[Item], at: int) -> Directed | None:
    """Read `work as for front`, `same as Preemie`, `as for the first leg`: the rounds of another part."""
    index = at
    said = False
    while text_at(items, index) in _LEAD_TO_PART or (
        kind(items, index) in ("noise", "work", *(("into",) if said else ())) and index < at + 6
    ):
        said = said or text_at(items, index) in _AS
        index += 1
    stop = index
    while kind(items, stop) in ("word", "first", "noise", "last", "side", "number", "ordinal") and stop < index + 4:
        stop += 1
    name = " ".join(text_at(items, n) for n in range(index, stop))
    up_to, end = _up_to_row(items, stop)
    if said and up_to is not None and name and _NO_PARTS.isdisjoint(name.split()):
        return Directed(replace(up_to, span=span_of(items[at:end]), part=name), end)
    if (
        not said
        or not name
        or not _NO_PARTS.isdisjoint(name.split())
        or kind(items, stop) not in ("", ".", ";", "group", "-", "=", ",", "|")
    ):
        return None
    if kind(items, stop) == "," and stop + 1 < len(items):
        return None  # something is different
    return Directed(RepeatRounds(span=span_of(items[at:stop]), part=name), stop)


def _up_to_row(items: Sequence[Item], index: int) -> tuple[RepeatRounds | None, int]:
    """Read `to end of Row 8 of Yoke`, `through row 20`, `until it measures 19"` after the name of a part."""
    if kind(items, index) not in ("until", "into") and text_at(items, index) not in ("through", "thru", "up to"):
        return None, index
    span = items[index].span
    stop = index + 1
    while kind(items, stop) in ("noise", "around", "word", "last", "until", "into", "from") and stop < index + 6:
        stop += 1
    number = figure_at(items, stop + 1)
    if kind(items, stop) == "round" and number is not None and not number.is_list and number.values[0]:
        end = stop + 2
        while kind(items, end) in ("noise", "word"):
            end += 1
        return RepeatRounds(span, first=1, last=number.values[0]), end
    rounds, until, measured, end = until_of(items, index + 1)
    if measured and rounds is None and until is None:
        return RepeatRounds(span, measured=True), end
    return None, index


def _rows_of_part(items: Sequence[Item], at: int) -> Directed | None:
    """Read `work the first 6 rows as on the palm`, `work rows 1-6 same as back`."""
    index = at + (kind(items, at) in ("work", "rep"))
    while kind(items, index) == "noise" and text_at(items, index) not in _AS:
        index += 1
    number = figure_at(items, index + 1)
    if kind(items, index) == "first" and number is not None and kind(items, index + 2) == "round":
        first, last, index = 1, number.values[0], index + 3
    elif kind(items, index) == "round" and number is not None:
        first, last, index = _numbers(items, index + 1)
    else:
        return None
    if text_at(items, index) not in _AS and text_at(items, index) != "exactly":
        return None
    found = _other_part(items, index)
    if found is None or not isinstance(found.directive, RepeatRounds) or first is None or last is None:
        return None
    span = span_of(items[at : found.end])
    return Directed(replace(found.directive, span=span, first=first, last=last), found.end)


def _more_repeats(items: Sequence[Item], at: int) -> Directed | None:
    """Read `work 3 more repeats of the fan stitch (rnds 2-5)`."""
    number = figure_at(items, at + 1)
    index = at + 2
    if kind(items, at) != "work" or number is None:
        return None
    more = kind(items, index) == "more"
    index += more
    if kind(items, index) != "rep":
        return None
    for stop in range(index + 1, min(index + 8, len(items))):
        item = items[stop]
        inside = item.items if isinstance(item, Group) else items[stop:]
        if kind(inside, 0) == "round" and figure_at(inside, 1) is not None:
            first, last, end = _numbers(inside, 1)
            end = stop + 1 if isinstance(item, Group) else stop + end
            times = Times(Count.MORE if more else Count.TOTAL, number, span=span_of(items[at:index]))
            return Directed(RepeatRounds(span_of(items[at:end]), first, last, times=times), end)
    return None


def _later_repeat(items: Sequence[Item], at: int) -> Directed | None:
    """Read `For the sides rep round 4 ten times more`: a repeat of rounds after a few words of talk."""
    for index in range(at, min(at + 9, len(items))):
        if kind(items, index) == "rep":
            return _repeat(items, index)
        told = kind(items, index) in ("word", "strange", "noise", "remark", "into", "!", ".")
        if not told and not (kind(items, index) == "round" and kind(items, index + 1) == "word"):
            return None
    return None


def _by_letter(items: Sequence[Item], at: int) -> Directed | None:
    """Read `rep rnds A and B 4 times more, then work A once more`."""
    found = letters_named(items, at + 1) if kind(items, at) == "rep" else None
    return _finish(items, at, found[1], None, None, None, found[0]) if found else None


def _repeat(items: Sequence[Item], at: int) -> Directed | None:
    if kind(items, at) == "rep" or (
        kind(items, at) == "work" and (_round_follows(items, at + 1) or _these_rows(items, at + 1))
    ):
        index = at + 1
    elif text_at(items, at) in _AS or (kind(items, at) == "work" and text_at(items, at + 1) in _AS):
        index = at + 1
        while text_at(items, index) in (*_AS, "for", "in", "to", "the", "way", "instructions"):
            index += 1
    else:
        return None
    this = text_at(items, index) in ("this", "that") and kind(items, index + 1) == "round"
    while kind(items, index) == "noise" or text_at(items, index) in (
        "that",
        "instructions",
        "from",
        "all",
        "of",
        '"',
        "'",
    ):
        index += 1
    relative = this and figure_at(items, index + 1) is None
    back: int | None = 1 if relative else None
    if text_at(items, index) in _LAST or kind(items, index) == "last":
        relative = True
        back = 1
        index += 1
        number = figure_at(items, index)
        if number is not None and not number.is_list:
            back = number.values[0] or 1
            index += 1
    elif (
        figure_at(items, index) is not None
        and kind(items, index + 1) == "round"
        and figure_at(items, index + 2) is None
    ):
        return None
    named = _name_of_round(items, index)
    index += named is not None
    if kind(items, index) != "round":
        if not relative and (bare := _bare_number(items, at, index)):
            return bare
        if relative or kind(items, index) not in ("ordinal", "first"):
            return None
        return _ordinal_reference(items, at, index)
    if text_at(items, index) in ("rows", "rounds", "rnds", "rds") and back == 1 and relative:
        back = 2
    index += 1
    if named is not None:
        index = _past_pace(items, index)
    often = figure_at(items, index) is not None and kind(items, index + 1) in ("times", "more")
    if named is not None and not relative and (often or kind(items, index) in ("", ".", "often", "until")):
        return _finish(items, at, index, None, None, None, named)
    if not relative and often:
        relative, back = True, 1  # `rep row 3 times`: the number says how often
    first, last, index = _numbers(items, index) if not relative else (None, None, index)
    if not relative and (first is None or _of_chart(items, index)):
        return None
    return _finish(items, at, index, first, last, back, named)


def _bare_number(items: Sequence[Item], at: int, index: int) -> Directed | None:
    """Read `same as 2.`: a bare number is a round."""
    if text_at(items, index - 1) != "as" or kind(items, index) != "number":
        return None
    first, last, stop = _numbers(items, index)
    if first is None or kind(items, stop) not in ("", ".", ";", ",", "group", "-", "="):
        return None
    return _finish(items, at, stop, first, last, None, None)


def _name_of_round(items: Sequence[Item], index: int) -> str | None:
    """Read the name before `row` or `rnd`: `rib` of `rep rib rnd`, `dec` of `rep decrease row`; None without one."""
    if kind(items, index + 1) != "round":
        return None
    text = text_at(items, index)
    if text[:3] in ("inc", "dec"):
        return text[:3]
    return text if kind(items, index) == "word" else None


def _past_pace(items: Sequence[Item], index: int) -> int:
    """Pass over `every 4th rnd`, `on every RS row`: rows between that change nothing."""
    stop = index
    while kind(items, stop) in ("each", "ordinal", "next", "side", "noise", "into", "rest") or (
        text_at(items, stop) in ("alt", "alternate", "other") and stop > index
    ):
        stop += 1
    return stop + 1 if stop > index and kind(items, stop) == "round" else index


def _of_chart(items: Sequence[Item], index: int) -> bool:
    """Tell whether the rounds named are those of a chart, which the words don't hold."""
    return any(text_at(items, at) in ("chart", "diagram", "graph") for at in range(index, min(index + 4, len(items))))


def _ordinal_reference(items: Sequence[Item], at: int, index: int) -> Directed | None:
    """Read `rep 2nd rnd`, `as 2nd and 3rd rows`."""
    numbers: list[int] = []
    while kind(items, index) in ("ordinal", "first", "noise", "-", "into", ",", "&"):
        item = items[index]
        if isinstance(item, Word) and item.kind in ("ordinal", "first") and item.value is not None:
            numbers.append(item.value)
        index += 1
    if not numbers:
        return None
    if kind(items, index) in ("", ".") and len(numbers) == 1 and _says_as(items, at):
        return _finish(items, at, index, numbers[0], numbers[0], None, None)  # `as 2nd.`
    if kind(items, index) != "round":
        return None
    return _finish(items, at, index + 1, numbers[0], numbers[-1], None, None)


def _says_as(items: Sequence[Item], at: int) -> bool:
    """Tell whether a reference begins with `as` or `work as`, and with no other word."""
    return "as" in (text_at(items, at), text_at(items, at + 1) if kind(items, at) == "work" else "")


def _these_rows(items: Sequence[Item], index: int) -> bool:
    """Tell whether `these 2 rows` follows, and then how often or how far they are worked."""
    if text_at(items, index) not in _LAST and kind(items, index) != "last":
        return False
    if figure_at(items, index + 1) is None or kind(items, index + 2) != "round":
        return False
    often = figure_at(items, index + 3) is not None and kind(items, index + 4) in ("times", "more")
    return often or kind(items, index + 3) in ("often", "until")


def _round_follows(items: Sequence[Item], index: int) -> bool:
    while kind(items, index) == "noise":
        index += 1
    return kind(items, index) == "round" and figure_at(items, index + 1) is not None


def _numbers(items: Sequence[Item], index: int) -> tuple[int | None, int | None, int]:
    numbers: list[int] = []
    single = text_at(items, index - 1) in ("row", "rnd", "round", "rd")
    while True:
        if kind(items, index) == "round":
            index += 1
            continue
        figure = figure_at(items, index) if kind(items, index) == "number" else None
        if figure is None or figure.values[0] is None:
            break
        if kind(items, index + 1) in ("stitch", "st", "times", "more") and (numbers or figure.is_list):
            break
        if figure.is_list:
            # `Rep Rnd 7 (8)`: one round, with a number for each size
            return (figure.values[0], figure.values[0], index + 1) if not numbers else (numbers[0], numbers[-1], index)
        numbers.append(figure.values[0])
        index += 1
        stop = index
        while text_at(items, stop) in _STEP_ROUNDS:
            stop += 1
        apart = single and stop > index and kind(items, index) == "-" and items[index].blank
        if apart and not text_at(items, stop + 1).startswith("alternat"):
            break  # `rep row 2 - 8, 6, 4`: counts; but `rep row 2 - 3 alternately`
        if (
            stop > index
            and figure_at(items, stop if kind(items, stop) != "round" else stop + 1) is not None
            and kind(items, stop) != "group"
        ):
            if kind(items, stop + 1) in ("stitch", "st", "times", "more"):
                break
            index = stop
    if not numbers:
        return None, None, index
    return numbers[0], numbers[-1], index


def _finish(
    items: Sequence[Item],
    at: int,
    index: int,
    first: int | None,
    last: int | None,
    back: int | None,
    named: str | None,
) -> Directed:
    """Read how often and how far the rounds are repeated."""
    extent = Extent(items, index, letter=named[0] if named and named[1:2] == "-" else "")
    extent.read()
    directive = RepeatRounds(
        span=span_of(items[at : max(extent.index, at + 1)]),
        first=first,
        last=last,
        back=back,
        times=extent.times,
        rounds=extent.rounds,
        until=extent.until,
        measured=extent.measured,
        ending=extent.ending,
        then=extent.then,
        first_again=extent.first_again,
        named=named,
    )
    return Directed(directive, extent.index)
