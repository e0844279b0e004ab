"""Needles: what only knitting says: markers, stitches on hold, named fabrics, rows of their own within a line."""

from __future__ import annotations

from dataclasses import replace

from ..figures import Figure
from ..steps import (
    OF_NEEDLE,
    At,
    Count,
    Even,
    Evenly,
    Make,
    Marker,
    Remark,
    Repeat,
    Step,
    Times,
    Turn,
    Unread,
    Where,
    Work,
)
from .holding import HoldingReader
from .marks import Group, flat, kind, text_at
from .places import NEEDLES, read_place
from .sides import BOTH
from .times import figure_at
from .words import Word

_FACES = {"front", "back", "and", "again", "of", "the", "same", "then", "&"}
_GOES_ON = {"work", "cont", "continue", "continuing", "keep", "keeping", "working", "knit", "k", "purl", "p", "beg"}
_AND = {"and", "then", "&"}
_AS_BEFORE = {"set", "established", "before", "est", "patt", "pattern"}


_DISTRIBUTES = {"divide", "dividing", "divided", "distribute", "distributing", "distributed", "arrange", "arranging"}
_APART = {"leave", "leaving", "holder", "holders", "thread", "remaining", "rem"}


class NeedleReader(HoldingReader):
    """Reads what only knitting says."""

    __slots__ = ()

    def _knitted(self) -> bool:
        """Read one such thing from here on."""
        return (
            self._marker()
            or self._short_row()
            or self._needle()
            or self._until_on_needle()
            or self._distributed()
            or self._these()
            or self._set_apart()
            or self._over_gap()
            or self._rest_waits()
            or self._from_holder()
            or self._will_be()
            or self._both_sides()
            or self._begins_with()
            or self._front_and_back()
            or self._first_and_last()
            or self._held()
            or self._shaping()
            or self._and_rows()
            or self._plain_rows()
            or self._in_pattern()
            or self._yarn_moved()
        )

    def _marker(self) -> bool:
        what = self._kind()
        if what not in ("place_marker", "slip_marker", "remove_marker"):
            return False
        start = self.at
        self.at += 1
        if self._kind() == "number" and not self.items[self.at].blank:
            self.at += 1  # `pm1`
        if self._text() in ("after", "before"):
            self._add(Remark(self._span(start)))  # `placing marker after 15th st`: where that is only the work shows
            return True
        self._add(Marker(self._span(start), stays=what != "remove_marker"))
        return True

    def _short_row(self) -> bool:
        """Read `w&t`: the next stitch is wrapped, which takes nothing, and the work is turned."""
        item = self.items[self.at]
        if not isinstance(item, Word) or item.stitch is None or item.stitch.kind != "short row":
            return False
        self.at += 1
        self._add(Turn(item.span, wraps=True))
        return True

    def _needle(self) -> bool:
        """Read `Needle 1:`, `on 2nd needle,`: from here to the end of that needle; `from needles 1 and 4` is talk."""
        index = self.at
        leads = ("noise", "into", "from", "ordinal", "first", "last", "next", "remark", "rest", "over")
        while kind(self.items, index) in leads and index < self.at + 4:
            index += 1
        if text_at(self.items, index) not in NEEDLES:
            return False
        labelled = index == self.at or kind(self.items, self.at) in (
            "ordinal",
            "first",
            "last",
            "next",
            "noise",
            "into",
        )
        ordinal = any(kind(self.items, n) in ("ordinal", "first", "last") for n in range(self.at, index))
        index += 1
        numbers = 0
        while kind(self.items, index) in ("number", "&", ",") or text_at(self.items, index) in ("and", "to"):
            if kind(self.items, index) == "," and kind(self.items, index + 1) != "number":
                break
            numbers += kind(self.items, index) == "number"
            index += 1
        start = self.at
        self.at = index
        if self._kind() in (":", ",", "-") and labelled and (numbers or ordinal):
            self.at += 1
            self._flush()
            self._end_needle()
            self.needle = (len(self.steps), max(1, numbers))
            self.steps.append(Remark(self._span(start)))
        elif self.unknown:
            self.unknown.extend(item for item in self.items[start:index] if item.kind != "number")
        else:
            if self.steps and self.needle is None:
                self.steps[-1] = of_needle(self.steps[-1])  # `k to last st on needle`
            self._add(Remark(self._span(start)))
        return True

    def _distributed(self) -> bool:
        """Pass over `and distribute evenly over 4 needles: 14 (15, 16) sts on each`: the count stays."""
        if self._text() not in _DISTRIBUTES or not self._made_something():
            return False
        end = self.at
        while end < len(self.items) and not self._ends_sentence(end) and kind(self.items, end) != "stitch":
            end += 1
        said = {word.text for word in flat(self.items[self.at : end + 1])}
        if not said & NEEDLES or said & _APART:
            return False
        start, self.at = self.at, min(end + 1, len(self.items))
        self._add(Remark(self._span(start)))
        return True

    def _end_needle(self) -> None:
        """Let what was said for several needles count for each of them."""
        if self.needle is None:
            return
        start, often = self.needle
        self.needle = None
        inside = tuple(of_needle(step) for step in self.steps[start:])
        if often > 1 and inside:
            span = inside[0].span.cover(inside[-1].span)
            inside = (Repeat(inside, Times(Count.TOTAL, Figure((often,), span)), span, mark=""),)
        self.steps[start:] = inside

    def _both_sides(self) -> bool:
        """Read `working both sides at the same time`, of which one is counted, or both."""
        on = self._text(1) == "on"
        if self._text() not in ("working", "work") or self._text(1 + on) != "both":
            return False
        span = self._span(self.at, self.at + 2 + on)
        self.at += 2 + on
        self._add(Unread(span, BOTH))
        return True

    def _begins_with(self) -> bool:
        """Read `beg with a k (RS) row`, `ending with a WS row`: which row comes first or last takes nothing."""
        if self._kind() != "row_named" and not (self._text() in ("beg", "ending") and self._text(1) == "with"):
            return False
        start = self.at
        self.at += 1
        while self.at < len(self.items) and not self._ends_sentence(self.at) and self._kind() not in (",", "-", "="):
            self.at += 1
            if self._kind(-1) == "round":
                break
        self._add(Remark(self._span(start)))
        return True

    def _front_and_back(self) -> bool:
        """Read `k into front and back of next st`, `purl into front, back and front`, `knit twice into each st`."""
        item = self.items[self.at]
        if not isinstance(item, Word) or item.stitch is None or item.stitch.id not in ("k", "p"):
            return False
        index, makes = self.at + 1, 0
        if kind(self.items, index) == "often" and kind(self.items, index + 1) == "into":
            word = self.items[index]
            makes = (word.value or 0) if isinstance(word, Word) else 0
            index += 1
        else:
            if kind(self.items, index) == "number" and kind(self.items, index + 1) == "into":
                index += 1
            if kind(self.items, index) not in ("into", "noise", "loops"):
                return False
            while text_at(self.items, index) in _FACES or kind(self.items, index) in ("into", "noise", ",", "loops"):
                makes += text_at(self.items, index).split()[-1:] in (["front"], ["back"])
                index += 1
            index -= kind(self.items, index - 1) in (",", "into")
        if makes < 2:
            return False
        placed = read_place(self.items, index) if kind(self.items, index) in ("into", "next", "each") else None
        double = text_at(self.items, index) == "double" or text_at(self.items, index + 1) == "yo2"
        start = self.at
        self.at = placed.end if placed else index
        while self._text() in ("double", "yarnover", "of", "yo") or self._text().startswith("double"):
            double = double or self._text().startswith("double")
            self.at += 1
        span = self._span(start)
        where = placed.where if placed else Where(At.NEXT, Figure((1,), span))
        self._add(Work(Make("kfb", 2 if double else 1, makes), Figure((1,), span), where, span))
        return True

    def _first_and_last(self) -> bool:
        """Read `knit 1st and last stitch together`, where a round is joined."""
        kinds = [kind(self.items, self.at + n) for n in range(1, 6)]
        if (
            self._kind() != "stitch"
            or kinds[0] not in ("first", "ordinal")
            or kinds[1:] != ["noise", "last", "st", "tog"]
        ):
            return False
        start = self.at
        self.at += 6
        span = self._span(start)
        self._add(Evenly(span, -1, Figure((1,), span)))
        return True

    # ------------------------------------------------------------ rows of their own, and work in pattern

    def _and_rows(self) -> bool:
        """Read `and knit 6 rows` behind a cast-on."""
        if self._text() not in _AND or self._text(1) not in _GOES_ON or not self._rows_follow(self.at + 2):
            return False
        self.at += 1
        if not self._plain_rows():
            self.at -= 1
            return False
        return True

    def _plain_rows(self) -> bool:
        """Read `k 1 row`, `work 15 rows even`, `cont in st st`, `work as set`, `garter st`: the count stays."""
        begins = self._text() in _GOES_ON or self._kind() in ("fabric", "even", "work")
        begins = begins or (self._kind() == "remark" and self._text().startswith(("cont", "keep")))
        if self._kind() == "into" and self._kind(1) in ("fabric", "even"):
            begins = True
        if not begins or not self._at_clause():
            return False
        index, rows, plain = self.at, None, self._kind() in ("fabric", "even")
        while index < len(self.items) and not self._ends_sentence(index):
            what, text = kind(self.items, index), text_at(self.items, index)
            if index > self.at and (self._shapes(index) or what in ("*", "rep") or text == "then"):
                break
            if (plain or rows is not None) and (what == "group" or self._counts_from(index)):
                break  # a count, or a remark
            figure = figure_at(self.items, index)
            if figure is not None:
                after = index + 1
                while (
                    kind(self.items, after) in ("more", "noise", "even", "side") or text_at(self.items, after) in _PLAIN
                ):
                    after += 1
                if kind(self.items, after) == "round" and rows is None:
                    rows, index = figure, after
                elif kind(self.items, index + 1) in ("st", "stitch", "tog", ",") and not plain:
                    return False
            elif what == "round" and kind(self.items, index - 1) in ("each", "next", "noise") and index == self.at + 2:
                rows = Figure((1,), self.items[index].span)
            elif what in ("fabric", "even") or (text in _AS_BEFORE and text_at(self.items, index - 1) in ("as", "in")):
                plain = True
            elif what == "stitch" and index > self.at and not plain and rows is None:
                return False
            elif (what in ("place_marker", "group", "around") or read_remainder_here(self, index)) and rows is None:
                if plain and what in ("group",):
                    break
                return False
            index += 1
        if rows is None and not plain:
            return False
        if self._kind() in ("fabric", "work") and rows is None and self._takes_stitches(self.at + 1):
            return False
        start = self.at
        self.at = max(index, self.at + 1)
        self._add(Even(self._span(start), rows))
        return True

    def _rows_follow(self, index: int) -> bool:
        """Tell whether a number of rows stands at an index: `3 rows`, `one plain row`."""
        if figure_at(self.items, index) is None:
            return False
        index += 1
        while kind(self.items, index) in ("more", "noise", "even", "side") or text_at(self.items, index) in _PLAIN:
            index += 1
        return kind(self.items, index) == "round"

    def _counts_from(self, index: int) -> bool:
        """Tell whether a count begins with a mark: `- 54 sts`, `= 54 sts`, `: 54 sts`."""
        marked = kind(self.items, index) in ("-", "=", ":")
        return marked and figure_at(self.items, index + 1) is not None and kind(self.items, index + 2) == "st"

    def _takes_stitches(self, index: int) -> bool:
        """Tell whether a number of stitches or a place to stop follows: `rib 5`, `patt to end`."""
        figure = figure_at(self.items, index)
        if figure is not None:
            return kind(self.items, index + 1) not in ("round", "more", "measure")
        placed = read_place(self.items, index) if kind(self.items, index) in ("into", "until", "around") else None
        return placed is not None and placed.where.at is At.EACH

    def _at_clause(self) -> bool:
        """Tell whether a clause begins here."""
        if (self._text(-1) in _AND or self._kind(-1) == "st") and self._rows_follow(self.at + 1):
            return True
        index = self.at - 1
        while kind(self.items, index) == "noise":
            index -= 1
        return kind(self.items, index) in (
            "",
            ".",
            ";",
            ",",
            "remark",
            "word",
            ":",
            "group",
            "side",
            "-",
            "measure",
        ) or (self._ends_sentence(index))

    def _in_pattern(self) -> bool:
        """Read `patt 24`, `rib to end`, `work 6 sts in patt`, `work across 32 sts`, `work to last 3 sts`."""
        start = self.at
        if self._kind() != "fabric" and (self._text() not in ("work", "working", "wrk") or not self._at_clause()):
            return False
        if self._kind() != "fabric" and self._chart_over():
            return True
        index = self.at + 1
        while kind(self.items, index) == "fabric" or (
            kind(self.items, index) in ("into", "noise") and kind(self.items, index + 1) == "fabric"
        ):
            index += 1
        span = self.items[start].span
        one = Figure((1,), span)
        make = Make("st")
        ahead = index
        while kind(self.items, ahead) in ("next", "first", "rest", "remain", "noise", "over") or (
            text_at(self.items, ahead) == "across" and ahead < index + 4
        ):
            ahead += 1
        if figure_at(self.items, ahead) is not None and kind(self.items, ahead + 1) == "st":
            index = ahead
        number = figure_at(self.items, index)
        if number is not None and not isinstance(self.items[index], Group):
            if kind(self.items, index + 1) in ("round", "tog", "times", "more"):
                return False
            if self._kind() != "fabric" and kind(self.items, index + 1) not in ("st",):
                return False
            self.at = index + (2 if kind(self.items, index + 1) == "st" else 1)
            self._past_pattern()
            self._add(Work(make, one, Where(At.NEXT, number), self._span(start)))
            return True
        placed = read_place(self.items, index) if index < len(self.items) else None
        if placed is None or placed.where.at is not At.EACH:
            return False
        self.at = placed.end
        self._past_pattern()
        self._add(Work(make, one, placed.where, self._span(start)))
        return True

    def _past_pattern(self) -> None:
        """Pass over `in patt`, `in rib as set`, after a number of stitches."""
        index = self.at
        while kind(self.items, index) in ("into", "noise", "fabric") or text_at(self.items, index) in _AS_BEFORE:
            index += 1
        if kind(self.items, index - 1) == "fabric" or text_at(self.items, index - 1) in _AS_BEFORE:
            self.at = index

    def _passes_over(self, index: int) -> bool:
        """Tell whether the slipped stitch ahead is part of a decrease, and the yarn before it makes a stitch."""
        slipped = 0
        for item in self.items[index : index + _PASSED_OVER]:
            stitch = item.stitch if isinstance(item, Word) else None
            if stitch is not None and stitch.id in ("psso", "p2sso"):
                return True
            slipped += stitch is not None and stitch.id.startswith("sl")
            if item.kind in (".", ";", "group") or slipped > 1:
                return False
        return False

    def _yarn_moved(self) -> bool:
        """Read `yf` before a slipped stitch, which moves the yarn; elsewhere it makes a stitch."""
        item = self.items[self.at]
        if not isinstance(item, Word) or item.stitch is None or item.stitch.id != "yf":
            return False
        following = self.items[self.at + 1] if self.at + 1 < len(self.items) else None
        if kind(self.items, self.at + 1) == ",":
            following = self.items[self.at + 2] if self.at + 2 < len(self.items) else None
        self.at += 1
        slips = isinstance(following, Word) and following.stitch is not None and following.stitch.id.startswith("sl")
        if slips and not self._passes_over(self.at):
            self._add(Remark(item.span))
        else:
            one = Figure((1,), item.span)
            self._add(Work(Make("yo", 0, 1, within=True), one, Where(At.NEXT, one), item.span))
        return True


_PASSED_OVER = 12  # items from a slipped stitch to the `psso` that makes a decrease of it


def of_needle(step: Step) -> Step:
    """Let what goes to the end go to the end of the needle."""
    if isinstance(step, Work) and step.where.at is At.EACH and not step.where.to_marker:
        return replace(step, where=replace(step.where, to_marker=OF_NEEDLE))
    if isinstance(step, Repeat):
        times = step.times
        if times.count is Count.TO_END and not times.to_marker:
            times = replace(times, to_marker=OF_NEEDLE)
        return replace(step, steps=tuple(of_needle(part) for part in step.steps), times=times)
    return step


_PLAIN = {"garter", "plain", "purl", "knit", "stocking", "of", "these", "further"}


def read_remainder_here(reader: NeedleReader, index: int) -> bool:
    """Tell whether `to last 3 sts` or `to end` stands at an index."""
    placed = read_place(reader.items, index) if kind(reader.items, index) in ("into", "around") else None
    return placed is not None and placed.where.at is At.EACH
