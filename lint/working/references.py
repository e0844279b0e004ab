"""References: which rounds a repeat of rounds means, and how many a heading covers."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Sequence

from ..later import later
from ..pattern import Elided, Pattern, RepeatRounds, Round, WorkEven
from ..steps import Even, Marker, Remark, Shaping, Step, Turn, Work

MOST_ROUNDS = 600
_Numbers = dict[int, list[int]]
# the numbers of the pattern asked about last; patterns are asked about one after the other
_last: list[tuple[tuple[Round, ...], _Numbers]] = []


def covered(round_: Round, size: int) -> int:
    """Return how many rounds a heading covers for a size."""
    if round_.listed:
        return len(round_.listed)
    first = round_.first.at(size) if round_.first else None
    last = round_.last.at(size) if round_.last else None
    if first is None and round_.many is not None:
        return min(round_.many.at(size) or 1, MOST_ROUNDS)
    if first is None or last is None or last < first:
        return 1
    return min(last - first + 1, MOST_ROUNDS)


def _numbers(rounds: tuple[Round, ...]) -> _Numbers:
    """Return, by number, the indices of the rounds that cover it for any size, in order."""
    if _last and _last[0][0] is rounds:
        return _last[0][1]
    found: _Numbers = {}
    for index, round_ in enumerate(rounds):
        if round_.first is None:
            continue
        own: set[int] = set()
        for first, last in zip(round_.first.values, (round_.last or round_.first).values, strict=False):
            if first is not None and last is not None:
                own.update(range(first, min(last, first + MOST_ROUNDS) + 1))
        for number in own:
            found.setdefault(number, []).append(index)
    _last[:] = [(rounds, found)]
    return found


def find_round(pattern: Pattern, before: int, number: int, section: int | None = None) -> int | None:
    """Return the index of the nearest earlier round with a number, in the same section if it is there."""
    own = pattern.rounds[before].section if section is None else section
    indices = _numbers(pattern.rounds).get(number, [])
    earlier = indices[: bisect_left(indices, before)]
    # sections follow one another, so a round of the same section can only be the nearest
    same = [index for index in earlier[-40:] if pattern.rounds[index].section == own]
    if same:
        return same[-1]
    declared = _declared(pattern.rounds, before, number, own)
    return declared if declared is not None else earlier[-1] if earlier else None


def _declared(rounds: tuple[Round, ...], before: int, number: int, section: int) -> int | None:
    """Return the index of the round of a section that declares one that isn't written: `Row 2 and all WS rows`."""
    for index in range(before - 1, -1, -1):
        round_ = rounds[index]
        if round_.section != section:
            return None
        if round_.elided is not None and not round_.directive and _covers(round_.elided, round_, number):
            return index
    return None


def _covers(note: Elided, round_: Round, number: int) -> bool:
    first = round_.first.values[0] if round_.first else note.first
    parity = note.parity if first is None else first % 2
    return parity == number % 2 and number >= (first or 0) and (note.last is None or number <= note.last)


def _of_part(pattern: Pattern, index: int, what: RepeatRounds) -> tuple[int, ...]:
    """Return the rounds of the nearest earlier part with that title; those that are named, or the heading covers."""
    wanted = _plain(what.part or "")
    here = pattern.rounds[index]
    for section in range(here.section - 1, -1, -1):
        title = _plain(pattern.sections[section].title or "")
        if not title or not wanted or (title != wanted and wanted not in title.split() and title not in wanted.split()):
            continue
        rounds = [n for n, one in enumerate(pattern.rounds) if one.section == section]
        if pattern.craft == "knitting":
            rounds = _with_what_goes_on(pattern, section)
        if what.mark:
            return _up_to_mark(pattern, rounds, what)
        first = here.first.values[0] if here.first else what.first
        last = here.last.values[0] if here.last else what.last
        if first is None or last is None:
            return tuple(rounds)
        after = pattern.rounds[index + 1] if index + 1 < len(pattern.rounds) else None
        goes_on = after.first.values[0] if after is not None and after.first and after.section == here.section else None
        if what.first is not None and goes_on is not None and first < goes_on <= last:
            last = goes_on - 1  # `as for back to row 20`, and then row 20 is written
        begins = [n for n in rounds if pattern.rounds[n].first is None and n == rounds[0]] if first == 1 else []
        inside = [n for n in rounds if _lies_in(pattern.rounds[n], first, last)]
        reached = pattern.rounds[inside[-1]].last if inside else None
        return (*begins, *inside) if reached is not None and reached.values[0] == last else ()
    return ()


def _with_what_goes_on(pattern: Pattern, section: int) -> list[int]:
    """Return the rounds of a section and of those after it that are worked on its stitches."""
    last = section
    while last + 1 < len(pattern.sections) and pattern.sections[last + 1].goes_on:
        last += 1
    return [n for n, one in enumerate(pattern.rounds) if section <= one.section <= last]


def _up_to_mark(pattern: Pattern, rounds: Sequence[int], what: RepeatRounds) -> tuple[int, ...]:
    """Return the rounds up to a shaping, through it, or those of it alone; empty where it isn't found among them."""
    marked = [n for n in rounds if what.mark in _called(pattern, n)]
    if what.mark == "armhole":
        # a draft that names no armhole: it begins where stitches are bound off
        binds = [n for n in rounds if any(_takes_away(step) for step in pattern.rounds[n].steps)]
        marked = [n for n in marked if n in binds] or binds
    at = rounds.index(marked[0]) if marked else 0
    if not marked or (at == 0 and not what.alone):
        return ()
    end = at
    if what.through:
        while end < len(rounds) and not _is_even(pattern.rounds[rounds[end]]):
            end += 1
    return tuple(rounds[at if what.alone else 0 : end])


def _called(pattern: Pattern, index: int) -> str:
    """Return what a round is called in the draft: its first words, and the title of its section."""
    round_ = pattern.rounds[index]
    return f"{round_.label} {pattern.sections[round_.section].title or ''}".lower()


def _takes_away(step: Step) -> bool:
    bound = isinstance(step, Work) and step.make.kind == "bo"
    return bound or (isinstance(step, Shaping) and step.change < 0 and step.number.values != (1,))


def _is_even(round_: Round) -> bool:
    told = [step for step in round_.steps if not isinstance(step, Remark | Turn | Marker)]
    return isinstance(round_.directive, WorkEven) or (bool(told) and all(isinstance(step, Even) for step in told))


def _lies_in(round_: Round, first: int, last: int) -> bool:
    own, end = (figure.values[0] if figure else None for figure in (round_.first, round_.last))
    return own is not None and end is not None and first <= own and end <= last


def _plain(name: str) -> str:
    """Return the words of a part's name without what any part may be called by."""
    words = re.findall(r"[a-z\d]+", name.lower())
    return " ".join(
        word.rstrip("s") for word in words if word not in ("the", "a", "make", "of", "for", "size", "piece")
    )


_ROUND_WORD = later(r"\b(?:rows?|rounds?|rnds?)\b")
_SHORTER = {"decrease": "dec", "decreasing": "dec", "increase": "inc", "increasing": "inc"}


def _shortened(name: str) -> str:
    words: list[str] = re.findall(r"[\w-]+", name.lower())
    return " ".join(_SHORTER.get(word, word) for word in words)


_NOTE = later(r"\(([^()]*)\)")


def _of_name(pattern: Pattern, index: int, name: str) -> tuple[int, ...]:
    """Return the nearest earlier round whose heading has that name: `Rib rnd: ...` for `rep rib round`."""
    if _LETTERS.fullmatch(name):
        return _of_letters(pattern, index, name)
    wanted = _shortened(name)
    for at in range(index - 1, -1, -1):
        label = pattern.rounds[at].label.lower()
        called, *rest = _ROUND_WORD.split(label, maxsplit=1)
        noted = [_ROUND_WORD.split(note, maxsplit=1)[0] for note in _NOTE.findall(label)]  # `Next row (dec row):`
        if rest and any(f" {_shortened(one)}".endswith(f" {wanted}") for one in (called, *noted)):
            return (at,)
        if label == wanted or label.startswith(f"{name} "):
            return (at,)
    return ()


_LETTERS = later(r"[a-z]-[a-z]")


def _of_letters(pattern: Pattern, index: int, name: str) -> tuple[int, ...]:
    """Return the nearest earlier rounds that go by the letters from the first to the last: `a-b`."""
    found: list[int] = []
    for letter in map(chr, range(ord(name[0]), ord(name[-1]) + 1)):
        labels = ((at, pattern.rounds[at].label.lower().split()) for at in range(index - 1, -1, -1))
        one = next((at for at, words in labels if words[-1:] == [letter]), None)
        if one is None:
            return ()
        found.append(one)
    return tuple(found)


def targets_of(pattern: Pattern, index: int, what: RepeatRounds) -> tuple[int, ...]:
    """Return the indices of the rounds that a repeat of rounds means, in order; empty where one is missing."""
    if what.part is not None:
        return _of_part(pattern, index, what)
    if what.first is not None:
        last = what.last if what.last is not None else what.first
        found: list[int] = []
        for number in range(what.first, min(last, what.first + 100) + 1):
            one = find_round(pattern, index, number)
            if one is None:
                return ()
            found.append(one)
        return tuple(found)
    if what.named is not None and what.back is None:
        return _of_name(pattern, index, what.named)
    if what.back is None:
        return ()
    before = pattern.rounds[index - 1] if index else None
    if before is not None and isinstance(before.directive, RepeatRounds) and before.directive.back == what.back > 1:
        return targets_of(pattern, index - 1, before.directive)  # the last rows worked are those repeated before
    if (numbered := _by_number(pattern, index, what.back)) is not None:
        return numbered
    if (rows := _by_rows(pattern, index, what.back)) is not None:
        return rows
    earlier: list[int] = []
    for at in range(index - 1, -1, -1):
        round_ = pattern.rounds[at]
        if round_.section != pattern.rounds[index].section or len(earlier) == what.back:
            break
        if not round_.foundation:
            earlier.append(at)
    return tuple(reversed(earlier)) if len(earlier) == what.back else ()


def _by_number(pattern: Pattern, index: int, back: int) -> tuple[int, ...] | None:
    """Return rounds 1 to `back` where that is the number of the last one: some of them are written once for all."""
    last = pattern.rounds[index - 1] if index else None
    if last is None or last.last is None or last.last.values not in ((back,), (back - 1,)) or back < 3:
        return None
    found = [find_round(pattern, index, number, last.section) for number in range(1, back + 1)]
    known = tuple(one for one in found if one is not None and pattern.rounds[one].section == last.section)
    return known if len(known) == back and len(set(known)) < back else None


def _by_rows(pattern: Pattern, index: int, back: int) -> tuple[int, ...] | None:
    """Return the lines that hold exactly the last `back` rows, each as often as it has rows; None where none do.

    `Next rnd: K1, m1, k to end. Knit 5 rnds. Rep the last 6 rnds`: two lines, and six rounds.
    """
    earlier: list[int] = []
    for at in range(index - 1, -1, -1):
        round_ = pattern.rounds[at]
        rows = _rows_in(round_)
        if round_.section != pattern.rounds[index].section or round_.foundation or rows is None:
            return None
        earlier.extend([at] * rows)
        if len(earlier) >= back:
            break
    several = len(set(earlier)) < len(earlier)
    return tuple(reversed(earlier)) if several and len(earlier) == back else None


def _rows_in(round_: Round) -> int | None:
    """Return how many rows a line is, where that is the same for all sizes and no measurement."""
    if isinstance(round_.directive, RepeatRounds):
        return None
    if round_.first is not None:
        same = not round_.first.is_list and (round_.last is None or not round_.last.is_list)
        return covered(round_, 0) if same else None
    if isinstance(round_.directive, WorkEven):
        told = [round_.directive.rounds]
    else:
        told = [step.rounds for step in round_.steps if isinstance(step, Even)]
        if not told or not all(isinstance(step, Even | Remark | Turn | Marker) for step in round_.steps):
            return 1
    if any(figure is None or figure.is_list or not figure.values[0] for figure in told):
        return None
    return sum(figure.values[0] or 0 for figure in told if figure is not None)
