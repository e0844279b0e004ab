"""Spreads: increases and decreases over a whole round: every 11th stitch, 6 evenly, double every stitch."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..figures import Figure
from ..steps import At, Count, Evenly, Make, Remark, Repeat, Step, Target, Times, Where, Work
from .joins import JoinReader
from .makes import make_of
from .marks import Item, kind, text_at
from .places import read_place
from .reader import is_lone
from .times import figure_at, read_remainder
from .words import Word

_OTHER = frozenset({"other", "alternate", "alt"})
_DOUBLE = frozenset({"double", "doubling"})


def every_nth(items: Sequence[Item], index: int) -> tuple[int, int] | None:
    """Read `every 3rd`, `every other`: every how many stitches, and the index after it; None for anything else."""
    nth = items[index + 1] if index + 1 < len(items) else None
    if kind(items, index) != "each" or not isinstance(nth, Word):
        return None
    last = 2 if nth.text in _OTHER else (nth.value or 0) if nth.kind == "ordinal" else 0
    return (last, index + 2) if last > 1 else None


_BESIDES = frozenset({",", ";", "and", "but", "with", "making", "placing", "putting", "working"})
_CORNER_WORDS = frozenset({"noise", "each", "st", "stitch", "next"})
_MIDDLE = frozenset({"middle", "centre", "center", "of", "all", "the", "every", "4", "four"})
_FAR = 10  # words within which the corner is named


class SpreadReader(JoinReader):
    """Reads changes spread over a round."""

    __slots__ = ()

    def _every_nth(self) -> bool:
        """Read `increasing in every 11th st`, `dec every 6th st`, `double every 3rd st`: as often as it goes."""
        item = self.items[self.at]
        stem = text_at(self.items, self.at)[:3]
        if not isinstance(item, Word):
            return False
        doubles = item.stitch is not None and item.stitch.id in ("kfb", "pfb")
        if stem not in ("inc", "dec") and not doubles and item.text not in _DOUBLE:
            return self._nth_together()
        index = self.at + 1
        if kind(self.items, index) == "number" and kind(self.items, index + 1) == "st" and _is_one(self.items[index]):
            index += 1  # `inc 1 st in every 3rd st`
        while kind(self.items, index) in ("into", "noise", "st"):
            index += 1
        if (every := every_nth(self.items, index)) is None:
            return False
        start = self.at
        last, self.at = every
        following = self.items[self.at + 1] if self.at + 1 < len(self.items) else None
        if (
            self._text() == "and"
            and isinstance(following, Word)
            and following.kind == "ordinal"
            and following.value == last + 1
        ):
            last += 1  # `dec every 4th and 5th st`
            self.at += 2
        if self._kind() in ("st", "stitch"):
            self.at += 1
        while self._kind() == "around":
            self.at += 1
        change = Make("dec", 2, 1) if stem == "dec" else Make("kfb" if doubles else "inc", 1, 2)
        self._change_last_of(last, change, start)
        return True

    def _change_last_of(self, every: int, change: Make, start: int) -> None:
        """Add a change at the end of every so many stitches, to the end of the round."""
        span = self._span(start)
        one = Figure((1,), span)
        before = every - change.uses
        body: list[Step] = [Work(Make("st"), one, Where(At.NEXT, Figure((before,), span)), span)] if before else []
        body.append(Work(change, one, Where(At.NEXT, one), span))
        self._add(Repeat(tuple(body), Times(Count.TO_END, span=span), span, mark=""))

    def _nth_together(self) -> bool:
        """Read `sc every 3rd and 4th st together`, `crochet together every 4th and 5th st`: as often as it goes."""
        index = self.at + (self._kind() in ("work", "stitch"))
        before = kind(self.items, index) == "tog"
        index += before
        while kind(self.items, index) == "noise":
            index += 1
        every = every_nth(self.items, index) if index > self.at else None
        if every is None:
            return False
        nth, index = every
        second = self.items[index + 1] if index + 1 < len(self.items) else None
        joined = text_at(self.items, index) in ("and", "&", "+") and isinstance(second, Word)
        if not joined or not isinstance(second, Word) or second.kind != "ordinal" or second.value != nth + 1:
            return False
        index += 2
        while kind(self.items, index) in ("st", "stitch", "noise"):
            index += 1
        if not before and kind(self.items, index) != "tog":
            return False
        start, self.at = self.at, index + (not before)
        while self._kind() == "around":
            self.at += 1
        self._change_last_of(nth + 1, Make("dec", 2, 1), start)
        return True

    def _in_twos(self) -> bool:
        """Read stitches worked together all round behind a word for working: `crochet every 2nd and 3rd st tog`."""
        return self._nth_together() or self._all_together()

    def _all_together(self) -> bool:
        """Read `always sc 2 sts together`, `crochet two stitches together all round`: a decrease, to the end."""
        always = self._text() == "always"
        index = self.at + always
        index += kind(self.items, index) in ("work", "stitch")
        number = figure_at(self.items, index)
        if number is None or number.is_list or index == self.at or (number.values[0] or 0) < 2:
            return False
        if kind(self.items, index + 1) != "st" or kind(self.items, index + 2) != "tog":
            return False
        index += 3
        around = kind(self.items, index) == "around"
        if not (always or around):
            return False
        while kind(self.items, index) == "around":
            index += 1
        start, self.at = self.at, index
        span = self._span(start)
        one = Figure((1,), span)
        change = Work(Make("dec", number.values[0] or 2, 1), one, Where(At.NEXT, one), span)
        self._add(Repeat((change,), Times(Count.TO_END, span=span), span, mark=""))
        return True

    def _spread(self) -> bool:
        """Read `increasing 9 sts evenly`, `inc 6 evenly around`, `dec evenly to 60 sts`: spread over the round."""
        stem = text_at(self.items, self.at)[:3]
        if stem not in ("inc", "dec"):
            return False
        window = range(self.at + 1, min(self.at + 8, len(self.items)))
        each_round = any(
            text_at(self.items, index) in ("per", "each", "every") and kind(self.items, index + 1) == "round"
            for index in window
        )
        spread = any(kind(self.items, index) == "evenly" for index in window) or self._changes_on_the_way()
        if not each_round and not spread and not self._in_the_round():
            return False
        start = self.at
        number: Figure | None = None
        to: Figure | None = None
        self.at += 1
        while self.at < len(self.items) and self._kind() not in (".", ";", ",", "*", "rep", "join"):
            figure = figure_at(self.items, self.at)
            if each_round and self._kind() == "until" and (remainder := read_remainder(self.items, self.at)):
                to, self.at = remainder
                continue
            if figure is not None and self._kind(-1) == "into":
                to = figure
            elif (figure is not None and number is None and self._kind() != "group") or (
                figure is not None and figure.is_list and number is None
            ):
                number = figure
            elif each_round and (
                self._kind() == "each" or self._text() in ("per", "way", "manner", "same", "as", "set")
            ):
                pass
            elif self._kind() == "group" or self._kind() not in (
                "evenly",
                "st",
                "around",
                "noise",
                "into",
                "stitch",
                "over",
                "round",
                "times",
            ):
                break
            self.at += 1
        if number is None and to is None:
            self.at = start
            return False
        self._flush()
        span = self._span(start)
        at = self._last_told()
        last = self.steps[at] if at >= 0 else None
        if isinstance(last, Work) and (last.where.at is At.EACH or (self.knit and is_lone(last))):
            span = last.span.cover(span)
            del self.steps[at:]
        self.steps.append(Evenly(span, 1 if stem == "inc" else -1, number, to))
        return True

    def _last_told(self) -> int:
        """Return the index of the last step that is more than a remark, -1 where there is none."""
        return next((n for n in range(len(self.steps) - 1, -1, -1) if not isinstance(self.steps[n], Remark)), -1)

    def _changes_on_the_way(self) -> bool:
        """Tell whether `increasing 6 times`, `decreasing 4 sts` follows stitches all round: where is left open."""
        last = self.steps[self._last_told()] if self._last_told() >= 0 else None
        around = isinstance(last, Work) and last.where.at is At.EACH and last.times.values == (1,)
        counted = (
            self._kind(1) == "number" and self._kind(2) in ("times", "st") and self._kind(3) in ("", ".", "group", "=")
        )
        return around and counted and self._text() in ("increasing", "decreasing")

    def _in_the_round(self) -> bool:
        """Tell whether `inc 3 sc in rnd`, or `inc 1 sc` with nothing else in the round, says no places."""
        if self.knit or figure_at(self.items, self.at + 1) is None or self._kind(2) not in ("st", "stitch"):
            return False
        if self._kind(3) == "into" and kind(self.items, self.at + 4 + (self._kind(4) == "noise")) == "round":
            return True
        return self.top and not self._made_something() and self._kind(3) in ("", ".", "group") and self._kind(2) != "st"

    def _double(self) -> bool:
        """Read `double every st`, `twice in each dc`: two in each."""
        if self._every_nth() or self._one_in_each() or self._spread() or self._all_together():
            return True
        doubled = self._text() in _DOUBLE and self._kind(1) == "each" and self._kind(2) == "st"
        twice = _is_twice(self.items[self.at]) and self._kind(1) == "into" and self._kind(2) == "each"
        twice = twice and self._kind(3) in ("st", "stitch")
        if not doubled and not twice:
            return False
        start = self.at
        self.at += 4 if twice else 3
        while self._kind() == "around":
            self.at += 1
        span = self._span(start)
        self._add(Work(Make("st"), Figure((2,), span), Where(At.EACH, span=span), span))
        return True

    def _one_in_each(self) -> bool:
        """Read `inc 1 st in each st across`: one more in every place that follows."""
        stem = text_at(self.items, self.at)[:3]
        if (
            stem not in ("inc", "dec")
            or kind(self.items, self.at + 1) != "number"
            or kind(self.items, self.at + 2) != "st"
        ):
            return False
        placed = read_place(self.items, self.at + 3)
        if not _is_one(self.items[self.at + 1]) or placed is None or not placed.each:
            return False
        start = self.at
        self.at = placed.end
        while self._kind() == "around":
            self.at += 1
        span = self._span(start)
        make = Make("inc", 1, 2) if stem == "inc" else Make("dec", 2, 1)
        self._add(Work(make, Figure((1,), span), placed.where, span))
        return True

    def _worked_off(self) -> bool:
        """Read `work off 2 sc as 1 sc`, `working off last 2 sc as 1`: a decrease."""
        at = 2
        while self._kind(at) in ("next", "last", "first", "noise"):
            at += 1
        number = figure_at(self.items, self.at + at)
        word = self.items[self.at + at + 1] if self.at + at + 1 < len(self.items) else None
        make = make_of(word) if isinstance(word, Word) else None
        if self._text(1) != "off" or number is None or number.is_list or make is None or make.uses != 1:
            return False
        one = figure_at(self.items, self.at + at + 3)
        if self._text(at + 2) not in ("as", "into", "in", "to") or one is None or one.values != (1,):
            return False
        start, uses = self.at, number.values[0] or 2
        self.at += at + 4 + (self._kind(at + 4) in ("st", "stitch"))
        span = self._span(start)
        last = Figure((1,), span)
        self._add(
            Work(Make(f"{make.kind}{uses}tog", uses, 1, make.height), last, Where(At.NEXT, last), span, bare=True)
        )
        return True

    def _more_in_corners(self, start: int) -> None:
        """Read `, working 3 sc in each corner` behind `sc in each st around`, unless the corners are spaces."""
        last = self.steps[-1]
        if not self.top or not isinstance(last, Work) or last.where.at is not At.EACH:
            return
        if last.where.target != Target(last.where.target.kinds):
            return
        index = self.at
        while text_at(self.items, index) in _BESIDES or kind(self.items, index) in ("work", "noise"):
            index += 1
        number = figure_at(self.items, index)
        item = self.items[index + 1] if index + 1 < len(self.items) else None
        same = isinstance(item, Word) and item.stitch is not None and item.stitch.id == last.make.kind
        if index == self.at or number is None or not same or kind(self.items, index + 2) != "into":
            return
        stop = index + 3
        while stop < index + _FAR and (kind(self.items, stop) in _CORNER_WORDS or text_at(self.items, stop) in _MIDDLE):
            stop += 1
        if text_at(self.items, stop) not in ("corner", "corners") or kind(self.items, stop + 1) == "space":
            return
        if kind(self.items, stop + 1) == "stitch" and kind(self.items, stop + 2) == "space":
            return  # `in each corner ch sp`
        self.at = stop + 1 + (kind(self.items, stop + 1) in ("st", "stitch"))
        self.steps[-1] = replace(last, corners=number, span=self._span(start))


def _is_twice(item: Item) -> bool:
    return isinstance(item, Word) and item.kind == "often" and item.value == 2


def _is_one(item: Item) -> bool:
    return isinstance(item, Word) and item.value == 1 and not item.values
