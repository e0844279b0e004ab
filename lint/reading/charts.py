"""Charts: stitches worked from a chart or panel, and counts of a part of the row: between markers, on each side."""

from __future__ import annotations

from itertools import takewhile

from ..figures import Figure
from ..pattern import PARTS_COUNTED, Claim
from ..steps import At, Make, Remark, Unread, Where, Work
from .marks import Group, flat, kind, text_at
from .shapings import ShapingReader
from .times import figure_at

_THROUGH = ("to", "through", "thru", "-")
_MOST_NAMED = 8  # words that name a chart or panel and its row
_NAMES = ("word", "round", "number", "noise", "fabric", "ordinal", "row_named", "remark", "first", "last", "next")


class ChartReader(ShapingReader):
    """Reads what is worked from a chart, and what is counted of a part."""

    __slots__ = ()

    def _chart_over(self) -> bool:
        """Read `work row 1 of lace over next 8 sts`, `work Cable Panel over 24 sts`: so many stitches in pattern."""
        index = self.at + 1
        while kind(self.items, index) in _NAMES and text_at(self.items, index) not in ("over", "across"):
            index += 1
        named = index - self.at - 1
        if self._names_row_of(index):
            start, self.at = self.at, index
            self._add(Unread(self._span(start), "how many stitches this panel takes is not said here"))
            return True
        if not 0 < named <= _MOST_NAMED or text_at(self.items, index) not in ("over", "across"):
            return False
        index += 1
        while kind(self.items, index) in ("noise", "next", "first", "last"):
            index += 1
        number = figure_at(self.items, index)
        if number is None or kind(self.items, index + 1) != "st":
            return False
        start, self.at = self.at, index + 2
        span = self._span(start)
        self._add(Work(Make("st"), Figure((1,), span), Where(At.NEXT, number), span))
        return True

    def _names_row_of(self, end: int) -> bool:
        """Tell whether `work row 2 of Cable Panel` stands here up to an index, with no number of stitches."""
        what = [kind(self.items, n) for n in range(self.at + 1, end)]
        numbered = "round" in what and "number" in what and what[-1] == "word"
        closed = kind(self.items, end) in (",", ";", "") or self._ends_sentence(end)
        return numbered and closed and any(text_at(self.items, n) == "of" for n in range(self.at + 1, end))

    def _names_rows(self) -> bool:
        """Pass over `Rows 2 to 5` at the end: which rows those were that the words before it are about."""
        if self._kind() != "round" or self._kind(1) != "number" or text_at(self.items, self.at + 2) not in _THROUGH:
            return False
        counted = self._kind(4) == "group" and self._kind(5) in ("", ".")
        if self._kind(3) != "number" or not (counted or self._kind(4) in ("", ".")) or not self.steps:
            return False
        start = self.at
        self.at += 4
        self._add(Remark(self._span(start)))
        return True

    def _part_count(self) -> bool:
        """Read `(10 sts between markers)`, `. 20 sts each side`: counts of a part of the row."""
        item = self.items[self.at]
        inside = item.items if isinstance(item, Group) else self.items[self.at : self.at + _MOST_NAMED]
        number = figure_at(inside, 0)
        if number is None or kind(inside, 1) != "st":
            return False
        end = 2
        while kind(inside, end) in ("rest", "remain", "noise", "into") and end < _MOST_NAMED:
            end += 1
        near = takewhile(lambda one: one.kind not in (",", ";", "number"), inside[2 : end + 4])
        words = [word.text for word in flat(tuple(near))]
        which = next((part for part, lead, last in _PARTS if _follows(words, lead, last)), None)
        if which is None:
            return False
        start = self.at
        self.at += 1
        if not isinstance(item, Group):
            while self.at < len(self.items) and not self._ends_sentence(self.at) and self._kind() != ",":
                self.at += 1
        span = self._span(start)
        self._flush()
        self.claims.append(Claim(number, "other", span, unit=which))
        self.steps.append(Remark(span))
        return True


_PARTS = (
    (PARTS_COUNTED[0], {"between"}, ("marker", "m", "ms")),
    (PARTS_COUNTED[1], {"each", "either", "both"}, ("side", "shoulder", "half")),
)


def _follows(words: list[str], lead: set[str], last: tuple[str, ...]) -> bool:
    """Tell whether one of the words is a lead and a word soon after it is, or begins, one of the last."""
    at = next((index for index, word in enumerate(words) if word in lead or word.split(" ")[0] in lead), None)
    if at is None:
        return False
    near = " ".join(words[at : at + 3]).split(" ")[1:]
    return any(word.rstrip("s") in last or word in last for word in near)
