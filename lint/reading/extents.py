"""Extents: how often and how far rounds are repeated, from the words after their numbers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..figures import Figure
from ..steps import Count, Times
from .marks import Group, Item, kind, span_of, text_at
from .times import figure_at, is_in_all, read_times
from .words import Word

_MAY_SAY_HOW_OFTEN = {"number", "often", "times", "total", "more", "group", ",", "noise", "word"}
_PACE = {"into", "each", "next", "number", "ordinal", "noise", "side"}
_ALTERNATE = {"alt", "alternate", "other", "second"}
_IN_TURN = {"together", "alternately", "alternating", "throughout", "only", "consecutively"}
_GOES_ON = {"end", "ending", "inc", "dec", "increasing", "decreasing", "then"}  # what else is said after how far
MEASURES = {
    "inch",
    "inches",
    "ins",
    "cm",
    "measures",
    "measure",
    "long",
    "length",
    "desired",
    "piece",
    "work",
    "reaches",
    "tall",
    "wide",
    "deep",
    '"',
    "mm",
}


@dataclass(slots=True)
class Extent:
    """How often and how far rounds are repeated, gathered from the words after their numbers.

    `letter` is that of the first of them, where they go by letters.
    """

    items: Sequence[Item]
    index: int
    letter: str = ""
    times: Times | None = None
    rounds: Figure | None = None
    until: Figure | None = None
    measured: bool = False
    ending: int | None = None
    then: tuple[int, ...] = ()
    first_again: bool = False

    def read(self) -> None:
        """Read on as long as the words speak of it."""
        while self.index < len(self.items):
            if not (
                self._often()
                or self._until()
                or self._to_count()
                or self._ending()
                or self._further()
                or self._first_again()
                or self._then()
                or self._passed_over()
            ):
                break

    def _often(self) -> bool:
        if self.times is not None or kind(self.items, self.index) not in _MAY_SAY_HOW_OFTEN:
            return False
        read = read_times(self.items, self.index)
        if read is None or read.times.number is None:
            return False
        self.times = read.times
        if self.times.count is Count.TOTAL and not is_in_all(self.items, self.index, read.end):
            self.times = Times(Count.EITHER, self.times.number, span=self.times.span)
        self.index = read.end
        return True

    def _until(self) -> bool:
        if kind(self.items, self.index) != "until":
            return False
        if (repeats := until_repeats(self.items, self.index + 1)) is not None:
            self.times, self.index = repeats
            return True
        self.rounds, self.until, self.measured, self.index = until_of(self.items, self.index + 1)
        return True

    def _to_count(self) -> bool:
        """Read `to 10 sts`, `down to 20 sts`: the stitches to reach, at the end of the clause."""
        index = self.index + (text_at(self.items, self.index) in ("down", "up"))
        figure = figure_at(self.items, index + 1)
        if self.times is not None or text_at(self.items, index) not in ("to", "down to", "up to") or figure is None:
            return False
        if kind(self.items, index + 2) != "st" or kind(self.items, index + 3) not in ("", ".", ";", ",", "group"):
            return False
        self.until, self.index = figure, index + 3
        return True

    def _ending(self) -> bool:
        found = round_named(self.items, self.index + 1)
        if text_at(self.items, self.index) not in ("ending", "end") or found is None:
            return False
        self.ending, self.index = found
        return True

    def _further(self) -> bool:
        """Read `then dec on foll 6 alt rnds`, `then every 4th row twice`: so many times more, at another pace."""
        index = self.index + (kind(self.items, self.index) == ",")
        if self.times is None or self.times.number is None or text_at(self.items, index) != "then":
            return False
        index += 1
        if text_at(self.items, index)[:3] in ("inc", "dec"):
            index += 1
        number: Figure | None = None
        start = index
        while kind(self.items, index) in _PACE or text_at(self.items, index) in _ALTERNATE:
            number = figure_at(self.items, index) or number
            index += 1
        if index == start or kind(self.items, index) != "round" or kind(self.items, start) not in ("into", "each"):
            return False
        index += 1
        if number is None:
            read = read_times(self.items, index)
            if read is None or read.times.number is None:
                return False
            number, index = read.times.number, read.end
        before, sizes = self.times.number, max(len(number.values), len(self.times.number.values))
        pairs = [(before.at(size), number.at(size)) for size in range(sizes)]
        values = tuple(None if one is None or more is None else one + more for one, more in pairs)
        self.times = replace(self.times, number=Figure(values, before.span.cover(number.span)))
        self.index = index
        return True

    def _first_again(self) -> bool:
        """Read `then work RS row only once more`: the first of the rounds repeated."""
        index = self.index + (kind(self.items, self.index) == ",")
        if text_at(self.items, index) != "then" or kind(self.items, index + 1) not in ("work", "rep"):
            return False
        index += 2
        if self.letter:
            index += kind(self.items, index) == "round"
            if text_at(self.items, index) != self.letter:
                return False
        else:
            while kind(self.items, index) == "noise":
                index += 1
            if text_at(self.items, index) not in ("rs", "first", "1st", "inc", "dec"):
                return False
            index += 1
            if kind(self.items, index) != "round":
                return False
        index += 1
        while kind(self.items, index) in ("often", "more", "noise") or text_at(self.items, index) == "only":
            index += 1
        self.first_again, self.index = True, index
        return True

    def _then(self) -> bool:
        found = round_named(self.items, self.index + 1)
        if text_at(self.items, self.index) != "then" or found is None:
            return False
        number, self.index = found
        self.then = (*self.then, number)
        for said in ("often", "more"):
            if kind(self.items, self.index) == said:
                self.index += 1
        return True

    def _passed_over(self) -> bool:
        what, text = kind(self.items, self.index), text_at(self.items, self.index)
        often = what == "-" and kind(self.items, self.index + 2) in ("times", "more")  # `rows 3-6 - 5 more times`
        leads = what == "," and text_at(self.items, self.index + 1) in ("then", "ending", "end", "until", "and")
        if not (leads or often or what in ("noise", "even") or text in _IN_TURN):
            return False
        self.index += 1
        return True


def round_named(items: Sequence[Item], index: int) -> tuple[int, int] | None:
    """Read `with a rnd 4`, `on row 2`, `rep rnd 4`: the number and the index after it."""
    stop = index
    while kind(items, stop) in ("noise", "into", "rep", "work", "each", "last") or text_at(items, stop) in (
        "another",
        "one",
        "more",
    ):
        stop += 1
        if stop - index > 5:
            return None
    word = items[stop] if stop < len(items) else None
    if isinstance(word, Word) and word.kind in ("ordinal", "first") and kind(items, stop + 1) == "round" and word.value:
        return word.value, stop + 2  # `ending with a 2nd row`
    if kind(items, stop) != "round":
        return None
    figure = figure_at(items, stop + 1)
    if figure is None or figure.is_list or figure.values[0] is None:
        return None
    return figure.values[0], stop + 2


def until_repeats(items: Sequence[Item], index: int) -> tuple[Times, int] | None:
    """Read `there is a total of 4 repeats` after `until`."""
    while kind(items, index) in ("noise", "total") or text_at(items, index) in ("there", "have", "worked", "you"):
        index += 1
    figure = figure_at(items, index)
    if figure is None or kind(items, index + 1) != "rep":
        return None
    return Times(Count.TOTAL, figure, span=span_of(items[index : index + 2])), index + 2


def is_of_measures(items: Sequence[Item], index: int) -> bool:
    """Tell whether a list of measures goes on in a bracket: `7 [7½] ins`."""
    group = items[index]
    return isinstance(group, Group) and {item.kind for item in group.items} <= {"measure", "number", ",", ":", "-", "/"}


def until_of(items: Sequence[Item], index: int) -> tuple[Figure | None, Figure | None, bool, int]:
    """Read what an `until` waits for: rows in all, stitches, or a measurement; up to the end of the sentence."""
    rounds: Figure | None = None
    until: Figure | None = None
    measured = False
    while index < len(items) and (kind(items, index) not in (".", ";", "=", "group") or is_of_measures(items, index)):
        if kind(items, index) == "," and text_at(items, index + 1) in _GOES_ON:
            break
        figure = figure_at(items, index)
        if figure is not None and kind(items, index + 1) == "round":
            rounds = figure
        elif figure is not None and kind(items, index + 1) in ("st", "stitch"):
            until = figure
        elif text_at(items, index) in MEASURES:
            measured = True
        index += 1
    return rounds, until, measured or (rounds is None and until is None), index
