"""Shapings: rows that are all shaped alike: `inc 1 st at each end of next and every foll 4th row to 68 sts`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..figures import Figure
from ..pattern import Claim
from ..steps import At, Count, Even, Evenly, Marker, Remark, Repeat, Shaping, Step, Unread, Work
from .claims import EDGES
from .marks import kind, text_at
from .rates import is_of_ordinals
from .reader import is_lone
from .repeats import RepeatReader
from .times import figure_at, read_times
from .words import Word

_BOTH_ENDS = (["end"], ["ends"], ["last"])  # `at beg and end of row`, `in first and last st`
_MIDDLE = {"centre", "center", "middle"}
_STARTS = {"beg", "beginning", "start", "beg.", "begin"}
_AS_BEFORE = {"way", "manner", "likewise", "established", "before", "set", "same", "est", "thus", "so"}
_SPREAD = {"evenly", "marker", "place_marker", "slip_marker"}
_WHICH = ("next", "last", "each", "ordinal", "number", "noise", "side", "rest", "more", "word")
_ON_NEEDLE = {"on", "needle", "needles", "in", "total", "remain", "work", "each", "side"}


@dataclass(slots=True)
class _Rows:
    """What the words say of the rows that are shaped."""

    places: int = 0
    rows: Figure | None = None  # shaped one after the other
    first: bool = False  # `next and ...`: the first of them is named apart
    more: Figure | None = None  # so many besides the first
    every: int | None = None  # every how many rows
    times: Figure | None = None
    to: Figure | None = None
    named: int = 0  # rows named by their numbers
    single: bool = False
    as_before: bool = False  # `in this way`
    varied: bool = False  # which row it is differs from size to size


class ShapingReader(RepeatReader):
    """Reads shaping over several rows."""

    __slots__ = ()

    def _shapes(self, index: int) -> bool:
        """Tell whether a word that shapes stands at an index: increases, decreases, binds off, casts on."""
        item = self.items[index] if index < len(self.items) else None
        if not isinstance(item, Word):
            return False
        if item.stitch is not None and item.stitch.id in ("inc", "dec", "bo", "co"):
            return True
        if item.stitch is not None and item.stitch.kind in ("increase", "decrease") and self._edge_follows(index + 1):
            # `k 2 tog at each end of every alt row`
            return abs((item.stitch.makes or 0) - (item.stitch.uses or 0)) == 1
        return item.text.startswith(("increas", "decreas")) or item.text in ("inc", "dec", "casting", "binding")

    def _at_edges(self) -> bool:
        """Tell whether a number of stitches is shaped at the ends of a row: `inc 1 st at each end`."""
        if figure_at(self.items, self.at + 1) is None or kind(self.items, self.at + 2) not in ("st", "stitch"):
            return False
        ahead = range(self.at + 3, min(self.at + 7, len(self.items)))
        return any(text_at(self.items, n).split(" ")[0] in EDGES | _STARTS for n in ahead)

    def _edge_follows(self, index: int) -> bool:
        """Tell whether `at each end`, `at neck edge`, `at beg of next 2 rows` follows."""
        if text_at(self.items, index) != "at" and kind(self.items, index) != "each":
            return False
        said = [text_at(self.items, n).split()[:1] for n in range(index, index + 4)]
        words = [first[0] if first else "" for first in said]
        both = any(word in ("each", "both", "either") for word in words)
        return any(word in _STARTS or word == "edge" or (both and word in EDGES) for word in words)

    def _shaping(self) -> bool:
        """Read such an instruction; what isn't one is left to others."""
        start = self.at
        last = next((step for step in reversed(self.steps) if not isinstance(step, Remark)), None)
        again = last if isinstance(last, Shaping) else None
        as_before = False
        index = start
        if kind(self.items, index) == "remark" and text_at(self.items, index).startswith(("cont", "keep")):
            index += 1
            before = index
            while kind(self.items, index) in ("noise", "into", ",", "fabric", "even") or (
                text_at(self.items, index) in _AS_BEFORE and index < start + 8
            ):
                index += 1
            if not self._shapes(index):
                return False
            as_before = any(text_at(self.items, n) in _AS_BEFORE for n in range(before, index))
        while kind(self.items, index) == "noise" and index < start + 3:
            index += 1
        if again is None and index > start and not self._shapes(index):
            return False
        change, number = 0, None
        if self._shapes(index):
            item = self.items[index]
            stitch = item.stitch if isinstance(item, Word) else None
            up = text_at(self.items, index).startswith("inc") or (stitch is not None and stitch.id in ("co", "inc"))
            change = 1 if up or (stitch is not None and (stitch.makes or 0) > (stitch.uses or 0)) else -1
            number = figure_at(self.items, index + 1)
            index += 2 if number is not None else 1
        elif again is not None and figure_at(self.items, index) is not None and kind(self.items, index + 1) == "st":
            change, number = again.change, figure_at(self.items, index)
            index += 1
        elif again is not None and (kind(self.items, index) in ("each", "next") or self._rows_counted(index)):
            change, number = again.change, again.number
        else:
            return False
        if kind(self.items, index) == "st" or (not self.knit and kind(self.items, index) == "stitch"):
            index += 1
        found = _Rows(as_before=as_before)
        end = self._read_rows(index, found)
        if end is None or (end == index and not found.places):
            return False
        if not found.places and again is not None:
            found.places = again.places
        if not found.places and not (found.to is not None and (found.as_before or (number and found.every))):
            return False
        if not found.places and number is not None and found.every and number.values != (1,):
            found.places = 1  # `decreasing 8 sts every other rnd until 16 sts remain`
        self.at = end
        span = self._span(start)
        self._within_rows(found)
        work = Shaping(span, change, number or Figure((1,), span), found.places)
        self._add(_settled(work, found))
        if again is not None and again.to is not None:
            # `to 35 sts, then every row to 23 sts`: the last count is that of the line
            self.claims = [claim for claim in self.claims if claim.figure is not again.to]
        if found.to is not None:
            self.claims.append(Claim(found.to, "st", found.to.span))
        return True

    def _within_rows(self, found: _Rows) -> None:
        """Take `work 35 rows dec 1 st at each end of next and foll alt row`: as often as those rows allow."""
        last = self.steps[-1] if self.steps else None
        told = found.every and not found.varied and found.times is None
        if not isinstance(last, Even) or last.rounds is None or not found.every or not told:
            return
        every, start = found.every, 1 if found.first else found.every
        rows = last.rounds.values
        found.times = Figure(
            tuple(None if row is None else max(0, (row - start) // every + 1) for row in rows), last.rounds.span
        )
        self.steps.pop()

    def _read_rows(self, index: int, found: _Rows) -> int | None:
        """Read where in the row and in which rows; return the index after it, None where it is something else."""
        seen = index
        while index < len(self.items) and not (self._ends_sentence(index) and index > seen):
            what, text = kind(self.items, index), text_at(self.items, index)
            if what in _SPREAD or (what == "first" and figure_at(self.items, index + 1) is not None):
                return None
            found.as_before = found.as_before or text in _AS_BEFORE
            step = self._edge(index, found) or self._when(index, found) or self._how_long(index, found)
            if step is None:
                ahead = index + 1
                talk = what in (
                    "noise",
                    "into",
                    "st",
                    "remark",
                    "fabric",
                    "side",
                    "measure",
                    "same",
                    "each",
                ) or text in (
                    "at",
                    "on",
                    "same",
                    "neck",
                )
                if (
                    what == ","
                    and text_at(self.items, ahead) != "then"
                    and (self._when(ahead, _Rows()) or self._how_long(ahead, _Rows()))
                ):
                    talk = True
                if not talk and not (what == "word" and text not in ("then", "work")):
                    break
                step = 1
                index += step
                continue
            index += step
            seen = index
        return seen

    def _edge(self, index: int, found: _Rows) -> int | None:
        """Take `at each end`, `at beg`, `at neck edge`: in how many places of the row; return the words taken."""
        text, what = text_at(self.items, index), kind(self.items, index)
        if text.split()[:1] and text.split()[0] in EDGES and not found.places:
            before = {text_at(self.items, n) for n in range(max(0, index - 3), index)}
            each = {"each", "both", "either"} & before or text in ("ends", "sides")
            found.places = 2 if each else 1
            if what in ("row_ends", "around") and "each" not in text and "every" not in text:
                found.single = True
            return 1
        if text in _MIDDLE and not found.places and self._of_whole_row(index):
            found.places, found.single = 1, True  # `inc 1 st in centre of last row`
            return 1
        if (text in _STARTS or what == "first") and not found.places:
            both = text_at(self.items, index + 1) == "and" and text_at(self.items, index + 2).split()[:1] in _BOTH_ENDS
            found.places = 2 if both else 1
            return 3 if both else 1
        return None

    def _of_whole_row(self, index: int) -> bool:
        """Tell whether a row is shaped at its centre in a word, and not stitch by stitch: `bind off centre 22 sts`."""
        told = (step for step in self.steps if isinstance(step, Work))
        return figure_at(self.items, index + 1) is None and all(
            step.where.at is At.EACH or is_lone(step) for step in told
        )

    def _when(self, index: int, found: _Rows) -> int | None:
        """Take `of next 14 rows`, `next and every foll 4th row`, `every RS row`, `rows 3, 5 and 7`."""
        what = kind(self.items, index)
        if what == "around" and text_at(self.items, index) == "across row":
            return 1
        if what == "round":
            return self._named_rows(index, found)
        this = text_at(self.items, index) == "this"
        counted = self._rows_counted(index)
        if what not in ("next", "last", "each", "ordinal", "rest") and not (this or counted):
            return None
        at = index
        next_, each, ordinal, alternate = False, False, None, False
        number: Figure | None = None
        while (
            kind(self.items, at) in _WHICH
            or is_of_ordinals(self.items, at)
            or (kind(self.items, at) == "group" and figure_at(self.items, at) is not None)
        ):
            item, text = self.items[at], text_at(self.items, at)
            kind_ = kind(self.items, at)
            if kind_ == "word" and text not in ("alt", "alternate", "other", "second"):
                break
            if kind_ == "noise" and text in ("and", "then") and next_ and not found.first:
                found.first = True
            alternate = alternate or text in ("alt", "alternate", "other", "second")
            next_ = next_ or kind_ in ("next", "last")
            each = each or kind_ == "each"
            if kind_ == "ordinal" and isinstance(item, Word):
                if kind(self.items, at + 1) == "noise":
                    found.first = True
                else:
                    ordinal = item.value
            if kind_ in ("number", "group"):
                number = figure_at(self.items, at) or number
            found.varied = found.varied or is_of_ordinals(self.items, at)
            at += 1
        if each and text_at(self.items, at) in ("k", "p", "knit", "purl"):
            at += 1  # `every k row`
        if kind(self.items, at) != "round" or not (next_ or each or ordinal or this):
            return None
        # `next row and every 6th row`
        found.first = found.first or (each and found.rows is not None and found.rows.values == (1,))
        found.every = 2 if alternate else ordinal or (1 if each else found.every)
        if found.first:
            found.more = number or (None if each else Figure((1,), self.items[at].span))
        elif number is not None:
            found.rows = number
        elif (next_ or this) and not each and ordinal is None:
            found.rows = Figure((1,), self.items[at].span)
        return at + 1 - index

    def _rows_counted(self, index: int) -> bool:
        """Tell whether `4 foll 4th rows` stands at an index."""
        return kind(self.items, index) == "number" and kind(self.items, index + 1) == "next"

    def _named_rows(self, index: int, found: _Rows) -> int | None:
        """Take `rows 3, 5 and 7`: one shaping in each."""
        stop, numbers = index + 1, 0
        while kind(self.items, stop) in ("number", ",", "noise", "&"):
            numbers += kind(self.items, stop) == "number"
            stop += 1
        found.named += numbers
        while stop > index and kind(self.items, stop - 1) != "number":
            stop -= 1
        return stop - index if numbers else None

    def _how_long(self, index: int, found: _Rows) -> int | None:
        """Take `5 times`, `until 38 sts rem`, `to 68 (72, 80) sts`."""
        what = kind(self.items, index)
        if what in ("number", "often", "more") and (read := read_times(self.items, index)) is not None:
            if read.times.number is None or read.times.count is Count.TO_END:
                return None
            found.times = read.times.number
            if found.first and read.times.count is Count.MORE:
                # `next row and every 6th row 5 times more`
                found.times = replace(
                    found.times, values=tuple(None if value is None else value + 1 for value in found.times.values)
                )
            return read.end - index
        if what not in ("until", "into"):
            return None
        at = index + 1
        while kind(self.items, at) in ("noise", "remain") or text_at(self.items, at) in ("there", "you", "only"):
            at += 1
        number = figure_at(self.items, at)
        if number is None or kind(self.items, at + 1) not in ("st", *(("stitch",) if not self.knit else ())):
            return None
        found.to = number
        at += 2
        while kind(self.items, at) in ("remain", "noise") or text_at(self.items, at) in _ON_NEEDLE:
            at += 1
        return at - index


def _settled(step: Shaping, found: _Rows) -> Shaping:
    """Work out in how many rows the shaping comes."""
    if found.times is not None:
        return replace(step, times=found.times)
    if found.to is not None:
        return replace(step, to=found.to)
    if found.first and found.more is not None:
        plus = tuple(None if value is None else value + 1 for value in found.more.values)
        return replace(step, times=Figure(plus, found.more.span))
    if found.named:
        return replace(step, times=Figure((found.named,), step.span))
    if found.rows is not None:
        return replace(step, times=found.rows)
    if found.single:
        return replace(step, times=Figure((1,), step.span))
    return step


def bound(steps: tuple[Step, ...], rows: Figure | None, claims: Sequence[Claim]) -> tuple[Step, ...]:
    """Say how often shaping comes that names neither rows nor a count: in each row of the heading, or to a count."""
    first = next((step for step in steps if isinstance(step, Shaping)), None)
    if first is None and not any(isinstance(step, Repeat) and any(map(_is_spread, step.steps)) for step in steps):
        return steps
    whole = next((claim.figure for claim in claims if claim.kind == "st"), None)
    return tuple(_bound(_gathered(step), rows if step is first else None, whole) for step in steps)


def _is_spread(step: Step) -> bool:
    return isinstance(step, Evenly)


def _gathered(step: Step) -> Step:
    """Take `(k to marker, dec 2 (2, 0) sts evenly, slm) twice` for what it comes to in the whole row."""
    if not isinstance(step, Repeat) or step.times.count is not Count.TOTAL or step.times.number is None:
        return step
    spread = [part for part in step.steps if isinstance(part, Evenly)]
    plain = [part for part in step.steps if isinstance(part, Work)]
    others = [part for part in step.steps if not isinstance(part, Evenly | Work | Marker | Remark)]
    if len(spread) != 1 or len(plain) > 1 or others or spread[0].number is None or spread[0].to is not None:
        return step
    if any(part.where.at is not At.EACH or part.make.uses != part.make.makes for part in plain):
        return step
    times, number = step.times.number, spread[0].number
    if times.is_list or times.values[0] is None:
        return step
    values = tuple(None if value is None else value * times.values[0] for value in number.values)
    return Evenly(step.span, spread[0].change, Figure(values, number.span))


def _bound(step: Step, rows: Figure | None, whole: Figure | None) -> Step:
    if not isinstance(step, Shaping) or step.times is not None or step.to is not None:
        return step
    if rows is not None:
        return replace(step, times=rows)
    if whole is not None:
        return replace(step, to=whole)
    return Unread(step.span, "how often this shaping is worked is not said")
