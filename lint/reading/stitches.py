"""Stitches: a stitch with its number and its place."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeGuard

from ..draft import Span
from ..figures import Figure
from ..steps import (
    At,
    Make,
    OtherSide,
    Target,
    Times,
    Together,
    Unread,
    Where,
    Work,
)
from .chains import ChainReader
from .claims import trailing_claim
from .joins import counts_not
from .makes import make_of, placed_steps
from .marks import Group, Item, kind, text_at
from .places import OF_PARTS, Placed, past_lead, past_rest, read_place
from .reader import COLOURS
from .roles import Role, role
from .spreads import every_nth
from .times import figure_at, read_times
from .together import gathered, has_come_to_space
from .words import Word

_HOW = {"loosely", "tightly", "firmly", "gently", "carefully", "neatly"}

_PLACES = ("into", "each", "next", "loops")  # what a further place begins with


class StitchReader(ChainReader):
    """Reads stitches."""

    __slots__ = ()

    def _stitch(self) -> bool:
        """Read a stitch with its number and place: `1 sc in each of next 9 sts`, `sc 7`, `2 dc in next st`, `inc`."""
        start = self.at
        index = self.at
        if self._every_nth() or self._one_in_each() or self._spread():
            return True
        if text_at(self.items, index) == "through" and kind(self.items, index + 1) == "loops":
            index += 1
        while kind(self.items, index) in ("loops", "work", "noise", ",") and (
            kind(self.items, index) != "," or kind(self.items, index - 1) == "loops"
        ):
            index += 1
        number = figure_at(self.items, index)
        if number is not None and not (
            kind(self.items, index) == "group" and role(self.items, index) is not Role.NUMBER
        ):
            index += 1
            while kind(self.items, index) in ("loops", "-") or (
                kind(self.items, index) == "times" and text_at(self.items, index) == "x"
            ):
                index += 1
            if kind(self.items, index) == "more":
                index += 1
        else:
            number = None
        if number is not None and kind(self.items, index) == "noise" and text_at(self.items, index) in ("x", "of"):
            index += 1
        if number is not None and text_at(self.items, index) in COLOURS and kind(self.items, index + 1) == "stitch":
            index += 1  # `2 red sc`
        word = self.items[index] if index < len(self.items) else None
        if not isinstance(word, Word) or word.stitch is None:
            return False
        if number is None and word.stitch.kind in ("increase", "decrease") and word.text.endswith("ases"):
            return False  # `between increases`
        group = self.items[index + 1] if index + 1 < len(self.items) else None
        if kind(self.items, index + 1) == "-":
            group = self.items[index + 2] if index + 2 < len(self.items) else None
        if number is not None and isinstance(group, Word) and group.stitch is not None and group.stitch.kind == "group":
            # `5-dc bobble`: one bobble, however many stitches it is made of
            index, word, number = index + (2 if kind(self.items, index + 1) == "-" else 1), group, None
            return self._work(start, index, word, number)
        if word.stitch.kind in ("increase", "decrease") and text_at(self.items, index - 1) in ("of", "no", "any"):
            return False  # `one more round of increases`, `no inc`
        if (
            number is None
            and kind(self.items, index - 1) == "into"
            and kind(self.items, index + 1) in ("", ".", ",", ";")
        ):
            return False  # `work each round in dc`
        if word.stitch.kind == "chain":
            return self._chain(start, index, number)
        return self._work(start, index, word, number)

    def _work(self, start: int, index: int, word: Word, number: Figure | None) -> bool:
        make = make_of(word)
        index += 1
        if kind(self.items, index) == "into" and (every := every_nth(self.items, index + 1)):
            self.at = every[1]
            self._add(Unread(self._span(start), "what is done with the stitches between isn't said"))
            return True
        following = self.items[index + 1] if index + 1 < len(self.items) else None
        if kind(self.items, index) == "next" and _two_together(following):
            # `sc next 2 sc tog`
            make, index = make_of(following), index + 2
        make, index = self._combined(make, word, index)
        if word.stitch is not None and word.stitch.kind in ("increase", "decrease") and self._names_its_stitch(index):
            index += 2
        before_times: Times | None = None
        after_number: Figure | None = None
        if number is None:
            index, after_number, before_times = self._number_after(index)
        else:
            index, make = self._together(index, make, number)
            if (
                make is not None
                and make.uses > 1
                and kind(self.items, index - 1) == "tog"
                and make.uses == number.values[0]
            ):
                number = None
        if make is None:
            return False
        if make.kind == "slst" and self._is_join(index, number or after_number):
            self.at = index
            self._finish_join(start)
            return True
        self._place(
            start,
            index,
            make,
            number if number is not None else after_number,
            trailing=number is None,
            times=before_times,
        )
        return True

    def _names_its_stitch(self, index: int) -> bool:
        """Tell whether `1 sc` after a decrease says what it is worked in, and is no step of its own: `dec 1 sc;`."""
        figure = figure_at(self.items, index)
        if figure is None or figure.values != (1,) or kind(self.items, index + 1) != "stitch":
            return False
        over = kind(self.items, index + 2) == "over"  # `dec 1 sc over next 2 sc`
        return over or kind(self.items, index + 2) in ("", ";", ".", ",", "*")

    def _combined(self, make: Make | None, word: Word, index: int) -> tuple[Make | None, int]:
        """Take `sc inc`, `sc dec`, `dec sc` as one; take `sc 2 tog` and `hdc 3 together` as a decrease."""
        nxt = self.items[index] if index < len(self.items) else None
        assert word.stitch is not None
        if (
            isinstance(nxt, Word)
            and nxt.stitch is not None
            and nxt.stitch.kind in ("increase", "decrease")
            and word.stitch.kind == "basic"
        ):
            inner = make_of(nxt)
            if inner is not None and make is not None:
                return Make(
                    f"{make.kind}_{'inc' if inner.makes > 1 else 'dec'}", inner.uses, inner.makes, make.height
                ), index + 1
        if (
            make is not None
            and (count := figure_at(self.items, index)) is not None
            and kind(self.items, index + 1) == "tog"
        ):
            uses = count.values[0] or 2
            return Make(f"{make.kind}{uses}tog", uses, 1, make.height), index + 2
        return make, index

    def _together(self, index: int, make: Make | None, number: Figure) -> tuple[int, Make | None]:
        """Take `2 sc tog`, `3 dc finished together` as a decrease."""
        stop = index
        while text_at(self.items, stop) in ("finished", "worked", "closed"):
            stop += 1
        if kind(self.items, stop) == "tog" and make is not None and number.values[0]:
            uses = number.values[0]
            return stop + 1, Make(f"{make.kind}{uses}tog", uses, 1, make.height)
        return index, make

    def _number_after(self, index: int) -> tuple[int, Figure | None, Times | None]:
        """Read a number after the stitch: `sc 7`, `sc x 4`, `dc 5 times in next ch`, `hdc2tog (twice)`."""
        at = index
        if kind(self.items, at) == "-" and not self.items[at].blank and not self.knit:
            if kind(self.items, at + 2) == "st" and self._made_something() and trailing_claim(self.items, at):
                return index, None, None  # `sc2tog--8 sts`
            at += 1
        at = past_lead(self.items, at) if self.knit else at
        if kind(self.items, at) == "loops":
            at += 1
        figure = figure_at(self.items, at)
        if figure is not None and self.knit and self._counts_behind_stop(at):
            return index, None, None
        if figure is not None and self._closes_with(index, at, figure):
            return index, None, None
        if figure is not None and (kind(self.items, at) != "group" or role(self.items, at) is Role.NUMBER):
            if kind(self.items, at + 1) == "times" and kind(self.items, at + 2) != "number":
                read = read_times(self.items, at)
                if read:
                    return read.end, None, read.times
            if kind(self.items, at + 1) == "more":
                return at + 2, figure, None
            if kind(self.items, at + 1) == "stitch" and self._is_new_step(at):
                return index, None, None
            named = at + 1 + (self.knit and text_at(self.items, at + 1) in OF_PARTS)
            if self.knit and kind(self.items, named) == "st":
                return named + 1, figure, None  # `k 9 steek sts`
            return at + 1, figure, None
        if kind(self.items, at) in ("times", "often"):
            read = read_times(self.items, at)
            if read and read.times.number is not None:
                return read.end, None, read.times
        return index, None, None

    def _counts_behind_stop(self, at: int) -> bool:
        """Tell whether a count ends the round behind a full stop that belongs to the word: `k 2 tog. 22 sts`."""
        stopped = text_at(self.items, at - 1).endswith(".") and self.items[at].blank and self.top
        return stopped and kind(self.items, at + 1) == "st" and kind(self.items, at + 2) in ("", ".")

    def _closes_with(self, index: int, at: int, figure: Figure) -> bool:
        """Tell whether a count ends the round behind the slip stitch that joins it: `sl st. (9, 11)`, `ss. 48 tr`."""
        before = self.items[index - 1]
        slip = isinstance(before, Word) and before.stitch is not None and before.stitch.id == "slst"
        if not slip or not self.top or not self._made_something():
            return False
        unit = kind(self.items, at + 1) in ("stitch", "st")
        named = unit and text_at(self.items, index - 1).endswith(".")
        return (figure.is_list or named) and kind(self.items, at + 1 + unit) in ("", ".", ";")

    def _is_new_step(self, at: int) -> bool:
        """Tell whether a number between two stitches belongs to the second: `sc 2 dc in next` is `sc, 2 dc in next`."""
        return kind(self.items, at + 2) in ("into", "around", "each")

    def _place(
        self,
        start: int,
        index: int,
        make: Make,
        number: Figure | None,
        *,
        trailing: bool,
        times: Times | None,
    ) -> None:
        """Read the place of a stitch and add the step."""
        at = index
        if kind(self.items, at) == "." and kind(self.items, at + 1) in ("into", "around", "each", "loops", "over"):
            at += 1
        while (
            text_at(self.items, at) in _HOW
            or kind(self.items, at) == "work"
            or (kind(self.items, at) == "noise" and kind(self.items, at + 1) in ("into", "evenly", "around"))
        ):
            at += 1
        if kind(self.items, at) == "evenly":
            at += 1
            around = "around" in text_at(self.items, at - 1) or "across" in text_at(self.items, at - 1)
            spread = self.items[at - 1].span
            if number is not None and (number.is_list or (number.values[0] or 0) > 3):
                self.at = read.end if (read := read_place(self.items, at)) else at
                self._add(Work(make, number, Where(At.ROW_ENDS, span=spread), self._span(start)))
                return
            if around:
                self.at = at
                self._add(Work(make, number or Figure((1,), spread), Where(At.EACH, span=spread), self._span(start)))
                return
        while kind(self.items, at) == "layers" and read_place(self.items, at + 1):
            self.layers = True
            at += 1
        if kind(self.items, at) == "group" and role(self.items, at) is Role.REMARK and read_place(self.items, at + 1):
            at += 1
        if kind(self.items, at) == "into" and kind(self.items, at + 1) == "otherside":
            # `sc in the other side of each ch`
            self._add(OtherSide(self.items[at + 1].span))
            at += 3 if kind(self.items, at + 2) == "noise" else 2
        placed = read_place(self.items, at)
        if placed is not None and kind(self.items, placed.end) == "tog" and (over := placed.where.number) is not None:
            # `sc next 2 sc tog`
            uses = over.values[0] or 2
            self.at = placed.end + 1
            self._add_bare(start, Make(f"{make.kind}{uses}tog", uses, 1, make.height), number, times)
            return
        if placed is None and number is None and times is None and (stop := past_rest(self.items, at)):
            span = Span(self.items[at].span.start, self.items[stop - 1].span.end)
            placed = Placed(Where(At.EACH, span=span), stop, each=True)
        if placed is None:
            self.at = index
            if kind(self.items, index) == "loops":
                self.at = index + 1
            self._add_bare(start, make, number, times)
            return
        self._add_placed(start, placed, make, number, trailing=trailing, times=times)
        if all(kind(self.items, n) != "next" for n in range(index, placed.end)):
            self._come_to()

    def _come_to(self) -> None:
        """Take `2 dc in corner sp` after `sl st to corner, ch 3` for the space that the round has come to."""
        last = self.steps[-1]
        if not isinstance(last, Work | Together) or last.where.at is not At.NEXT or not last.where.target.space:
            return
        if has_come_to_space(self.steps[:-1]):
            self.steps[-1] = replace(last, where=replace(last.where, at=At.SAME, number=None))

    def _add_placed(
        self, start: int, placed: Placed, make: Make, number: Figure | None, *, trailing: bool, times: Times | None
    ) -> None:
        """Add a stitch in its place, with those listed before it that go there too, and its further places."""
        self.at = placed.end
        if self.knit and make.kind == "inc" and placed.where.at is At.NEXT and placed.where.number is not None:
            make = replace(make, kind="kfb")  # `inc in next st` uses that stitch
        for step in placed_steps(make, number, placed, self._span(start), trailing=trailing):
            self._add(step)
        if (group := gathered(self.steps, self.open_star[0] if self.open_star else 0)) is not None:
            self.steps[-len(group.steps) :] = [group]
        if times is not None:
            self._times_in_place(times)
        self._more_times()
        self._and_places(make, number, start)
        self._more_in_corners(start)

    def _from_hook(self) -> bool:
        """Tell whether the last stitch went into the nth chain from the hook: `in 2nd ch from hook and across`."""
        last = self.steps[-1] if self.steps else None
        if not isinstance(last, Work):
            return False
        return last.where.at is At.FROM_HOOK or (last.where.target.chain and last.where.nth is not None)

    def _at_first(self) -> bool:
        """Tell whether the last stitch went into the first place of a row: `in 2nd ch and across`."""
        last = self.steps[-1] if self.steps else None
        named = isinstance(last, Work) and (
            last.where.first or (last.where.target.chain and last.where.nth is not None)
        )
        return named or self._from_hook()

    def _and_places(self, make: Make, number: Figure | None, start: int) -> None:
        """Read further places of the same stitch: `in 2nd ch from hook and in each ch across`."""
        while True:
            index = self._past_aside()
            while kind(self.items, index) in ("noise", ",", "&"):
                index += 1
            if (
                index == self.at
                or text_at(self.items, index - 1) not in ("and", "&")
                or kind(self.items, index) not in (*_PLACES, *(("around",) if self._at_first() else ()))
            ):
                return
            placed = read_place(self.items, index)
            if placed is None:
                return
            stop = placed.end
            while kind(self.items, stop) in (",", "noise", "work"):
                stop += 1
            if (
                kind(self.items, index) == "into"
                and kind(self.items, stop) in ("number", "stitch")
                and kind(self.items, placed.end) not in (",", ".", ";")
            ):
                return
            self.at = placed.end
            last = self.steps[-1]
            if (
                placed.where.at is At.EACH
                and isinstance(last, Work)
                and last.where.at is At.EACH
                and not last.where.target.also_spaces
            ):
                here, there = last.where.target, placed.where.target
                target = Target(
                    kinds=here.kinds or there.kinds,
                    space=here.space or there.space,
                    size=here.size or there.size,
                    chain=here.chain or there.chain,
                    also_spaces=True,
                )
                self.steps[-1] = replace(last, where=replace(placed.where, target=target), span=self._span(start))
                continue
            for step in placed_steps(make, number, placed, self._span(start), trailing=False):
                self._add(step)

    def _past_aside(self) -> int:
        """Pass over a bracket between two places: `in 3rd ch from hook (ch 2 counts as a dc) and in each ch`."""
        group = self.items[self.at] if self.at < len(self.items) else None
        if not isinstance(group, Group) or text_at(self.items, self.at + 1) not in ("and", "&"):
            return self.at
        what = role(self.items, self.at)
        if what is Role.COUNTS_AS:
            self._apply_counts(group.items, says_not=counts_not(group))
        return self.at + 1 if what in (Role.COUNTS_AS, Role.REMARK) else self.at

    def _add_bare(self, start: int, make: Make, number: Figure | None, times: Times | None) -> None:
        span = self._span(start)
        one = Figure((1,), span)
        if self.in_ring:
            self._add(Work(make, number or one, Where(At.RING), span))
            return
        where = Where(At.NEXT, number or one)
        first = self.items[start]
        self._add(Work(make, one, where, span, ambiguous=first.kind == "number", bare=True))
        if times is not None:
            self._repeat_last(times)
        elif self._times_after_sign():
            return
        elif self._kind() in ("times", "often") or (
            (self._kind() == "group" and role(self.items, self.at) is Role.TIMES)
            or (
                self._kind() == ","
                and self._kind(1) == "number"
                and self._kind(2) == "times"
                and self._kind(3) != "stitch"  # `2 sc, 2x dec`
            )
        ):
            read = read_times(self.items, self.at)
            if read and read.times.number is not None:
                self._repeat_last(read.times)
                self.at = read.end
        elif (
            self._kind() == "*"
            and self._kind(1) == "number"
            and self._kind(2) not in ("stitch", "st")
            and self.open_star is None
            and len(self.items) > 1
        ):
            read = read_times(self.items, self.at)
            if read:
                self._repeat_last(read.times)
                self.at = read.end


def _two_together(item: Item | None) -> TypeGuard[Word]:
    """Tell whether an item is a decrease written with its number first: `2 sc tog`."""
    decrease = isinstance(item, Word) and item.stitch is not None and item.stitch.kind == "decrease"
    return decrease and isinstance(item, Word) and item.text[0].isdigit()
