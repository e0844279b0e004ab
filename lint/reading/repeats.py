"""Repeats: groups worked several times, from brackets and from stars."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..draft import Span
from ..pattern import LooseMark, MarkTrouble
from ..steps import At, Chain, Count, Leave, Remark, Repeat, Skip, Step, Times, Together, Unread, Work
from .breaks import breaks_here, broken, ends_at_mark
from .marks import Group, flat, kind, text_at
from .moves import MoveReader
from .places import read_place
from .roles import Role, role
from .times import figure_at, is_in_all, read_remainder, read_times
from .together import in_one
from .words import Word

_SAY_HOW_OFTEN = ("number", "often", "times", "rep")


class RepeatReader(MoveReader):
    """Reads repeats."""

    __slots__ = ()

    def _inner(self, group: Group) -> tuple[Step, ...]:
        reader = type(self)(group.items, top=False, marks=self.marks, figures=self.figures, knit=self.knit)
        inner = reader.read()
        self.loose.extend(inner.loose)
        self.claims.extend(inner.claims)
        return inner.steps

    def _placement(self, group: Group) -> bool:
        placed = read_place(self.items, self.at + 1)
        if placed is None:
            return False
        start = self.at
        steps = self._inner(group)
        self.at = placed.end
        step: Step = Together(in_one(steps), placed.where, self._span(start))
        said = self.steps[-1] if self.steps else None
        if isinstance(said, Work) and said.bare and said.make.group and _alike(said.make.group, step.steps):
            self.steps.pop()  # `1 corner, (1 dc, ch 2, 1 dc) in next st`: one, said twice
        self._add(step)
        closes = self._kind() == "*" and self.open_star is not None  # `*sc, (sc, ch 1, sc) in next st* 6 times`
        if not closes and (times := read_times(self.items, self.at)) and times.times.number is not None:
            self._repeat_last(times.times)
            self.at = times.end
        return True

    def _bracket_repeat(self, group: Group) -> bool:
        start = self.at
        steps = self._inner(group)
        self.at += 1
        if steps and all(isinstance(step, Remark) for step in steps):
            self._add(Remark(group.span))
            return True
        if steps and all(isinstance(step, Remark | Leave) for step in steps):
            for step in steps:
                self._add(step)  # `turn (leave the last 15 sts unworked)`
            return True
        star = False
        if self._kind() == "*" and self._kind(1) == "rep":
            self.at += 1
        said = self.at
        if self._kind() in (",", ".") and self._kind(1) == "rep":
            self.at += 1
        if self._kind() == "rep" and not self._rep_names_mark(self.at):
            self.at += 1
            star = True
            while (self._kind() in ("noise", "each", "*") or self._empty_bracket()) and not read_times(
                self.items, self.at
            ):
                self.at += 1
        if self._kind() == "-" and (dashed := read_times(self.items, self.at + 1)) and dashed.times.number is not None:
            self.at += 1
        read = read_times(self.items, self.at)
        glued = figure_at(self.items, self.at) if self._kind() == "number" else None
        if read is None and glued is not None and self._kind(1) in ("", "group", ",", ".", ";", "=", "-"):
            # `(sc, inc)6`
            self.at += 1
            self._add(Repeat(steps, Times(Count.TOTAL, glued, span=glued.span), self._span(start), group.mark))
            return True
        if read is None:
            if star:
                self.at = said if self._kind() != "" else self.at
            self._add(Repeat(steps, Times(Count.TO_END, said=star), self._span(start), group.mark))
            return True
        times = read.times
        if star and times.count is Count.TOTAL and not is_in_all(self.items, self.at, read.end):
            times = replace(times, count=Count.EITHER)
        self.at = read.end
        self._add(Repeat(steps, times, self._span(start), group.mark))
        return True

    def _empty_bracket(self) -> bool:
        """Tell whether a bracket stands for the one before it: `(sc, inc) repeat ( ) 6 times`."""
        item = self.items[self.at] if self.at < len(self.items) else None
        return isinstance(item, Group) and all(inner.kind in (".", "-") for inner in item.items)

    def _number_before_group(self) -> bool:
        """Read `6 (sc, inc)`: six times. A 1 before a bracket that has its own times is a stray figure."""
        number = figure_at(self.items, self.at)
        times = 1 if self._kind(1) in ("times", "*") else 0
        group = self.items[self.at + 1 + times] if self.at + 1 + times < len(self.items) else None
        if not isinstance(group, Group):
            return False
        what = role(self.items, self.at + 1 + times)
        if what is Role.COUNT and times and any(word.stitch is not None for word in flat(group.items)):
            what = Role.STEPS  # `6 x (1 sc, 1 inc)`
        if what not in (Role.REPEAT, Role.STEPS) or number is None:
            return False
        if what is Role.REPEAT:
            if number.values != (1,):
                return False
            self.at += 1
            return True
        start = self.at
        self.at += 2 + times
        span = self._span(start)
        self._add(Repeat(self._inner(group), Times(Count.TOTAL, number, span=span), span, group.mark))
        return True

    def _times_group(self) -> bool:
        read = read_times(self.items, self.at)
        if read is None or not self.steps:
            self.at += 1
            return True
        self._flush()
        if isinstance(self.steps[-1], Work | Repeat | Together):
            self._repeat_last(read.times)
        self.at = read.end
        return True

    def _star(self) -> bool:
        item = self.items[self.at]
        self._flush()
        steps_before = self._kind(-1) == "group" and figure_at(self.items, self.at - 1) is None
        if self._kind(1) == "number" and steps_before and self._kind(2) not in ("stitch",):
            # a star as a multiplication sign
            read = read_times(self.items, self.at)
            if read and self.steps:
                self._repeat_last(read.times)
                self.at = read.end
                return True
        self.at += 1
        if self.open_star is None:
            if self._refers_back():
                return True
            self.open_star = (len(self.steps), item.span)
            self.cut = -1
            return True
        start, _ = self.open_star
        if start == len(self.steps):
            return True
        if self.cut < 0 and breaks_here(self.items, self.at - 1):
            self.cut = len(self.steps)
            return True
        self.body = tuple(self.steps[start:])
        self.open_star = None
        self._close(start, item.span)
        return True

    def _all_around(self) -> bool:
        """Read `2 sc, 1 dec, all around`: all that was said, to the end; `end of rnd 7` only says where."""
        if self._text().startswith("end of r") and self._kind(1) == "number":
            self._add(Remark(self._span(self.at, self.at + 2)))
            self.at += 2
            return True
        made = [step for step in self.steps if not isinstance(step, Remark)]
        bare = len(made) > (0 if self.knit else 1) and all(
            isinstance(step, Work) and step.where.at is At.NEXT for step in made
        )
        if not bare or self._kind(-1) != "," or self.open_star is not None:
            return False
        span = self.items[self.at].span
        self.at += 1
        leave = read_remainder(self.items, self.at + (self._kind() == ","))
        if leave is not None:
            self.at = leave[1]
        self._wrap(self._first_work(), Times(Count.TO_END, leave=leave[0] if leave else None, span=span), span)
        return True

    def _often_for_all(self) -> bool:
        """Read how often all stitches of a round are worked, before them or behind them."""
        return self._kind() in _SAY_HOW_OFTEN and (self._all_times() or self._times_before())

    def _all_times(self) -> bool:
        """Read `sc 7, inc 1; 3x`, `sc 7, inc 1 - 3 times` at the end: all that was said, so often."""
        made = [step for step in self.steps if not isinstance(step, Remark)]
        bare = len(made) > 1 and all(isinstance(step, Work) and step.where.at is At.NEXT for step in made)
        if not bare or self.knit or self.open_star is not None or self._kind(-1) not in (",", ";", "-"):
            return False
        read = read_times(self.items, self.at)
        if read is None or read.times.number is None or read.times.count is not Count.TOTAL:
            return False
        if kind(self.items, read.end) not in ("", ".", "=", "group", ">", "|") or not read.times.span:
            return False
        self.at = read.end
        self._wrap(self._first_work(), read.times, read.times.span)
        return True

    def _times_before(self) -> bool:
        """Read `6 times: 1 sc, inc`, `repeat six times: sc 1, inc 1` to the end."""
        if any(not isinstance(step, Remark | Chain) for step in self.steps) or self.knit:
            return False
        read = read_times(self.items, self.at + (self._kind() in ("rep", "work")))
        if read is None or read.times.number is None or kind(self.items, read.end) != ":":
            return False
        stop = read.end + 1
        while kind(self.items, stop) in ("stitch", "number", ",", "noise", "into", "next", "st", "loops", "each"):
            stop += 1
        inner = type(self)(self.items[read.end + 1 : stop], top=False, figures=self.figures).read()
        if not inner.steps or not all(isinstance(step, Work) for step in inner.steps):
            return False
        start, self.at = self.at, stop
        times = replace(read.times, count=Count.TOTAL)
        self._add(Repeat(inner.steps, times, self._span(start), mark=""))
        return True

    def _refers_back(self) -> bool:
        """Tell whether a star closes a repeat whose opening mark is missing: only `rep` or times may follow it."""
        if not self._made_something():
            return False
        index = self.at
        while kind(self.items, index) in (",", ".", ";"):
            index += 1
        if kind(self.items, index) != "rep" and not read_times(self.items, index):
            return False
        start = self._first_work()
        self.loose.append(LooseMark(MarkTrouble.STAR_UNOPENED, self.items[self.at - 1].span))
        self.body = tuple(self.steps[start:])
        self._close(start, self.items[self.at - 1].span)
        return True

    def _close(self, start: int, mark: Span) -> None:
        """End a group between two stars: give it its times, or keep it for a later reference."""
        index = self.at
        while kind(self.items, index) in (",", ".", ";", "noise"):
            index += 1
        if kind(self.items, index) == "rep" and self._rep_names_mark(index, adjacent=True):
            self.at = index
            self.body_end = len(self.steps)
            return
        dashed = self._kind() in ("-", ":") and figure_at(self.items, self.at + 1) is not None  # `*..* - 6 times`
        if read := read_times(self.items, self.at + dashed):
            self._wrap(start, read.times, mark)
            self.at = read.end
            return
        if self._later_reference(self.at):
            self.body_end = -1
            return
        self._wrap(start, Times(Count.TO_END, said=False), mark)

    def _wrap(self, start: int, times: Times, mark: Span) -> None:
        body = tuple(self.steps[start:])
        if not body:
            return
        span = body[0].span.cover(times.span or mark)
        cut, self.cut = self.cut - start, -1
        if self.cut_short and 0 < cut < len(body):
            self.steps[start:] = broken(body, cut, times, span)
        else:
            self.steps[start:] = [Repeat(body, times, span, "*")]
        self.cut_short = False

    def _later_reference(self, index: int) -> bool:
        return any(kind(self.items, at) == "rep" and self._rep_names_mark(at) for at in range(index, len(self.items)))

    def _rep_names_mark(self, index: int, *, adjacent: bool = False) -> bool:
        """Tell whether `rep` at an index names a mark (`rep from *`), or just follows a group that ended with one."""
        for step in range(1, 7):
            what = kind(self.items, index + step)
            if what in self.marks or what == "*":
                return True
            if what not in ("from", "noise", "between", "st", "first", "word", "work", '"', "'") and not (
                what == "into" and step == 1
            ):
                break
        if not adjacent:
            return False
        after = index + 1
        return read_times(self.items, after) is not None

    def _rep(self) -> bool:
        """Read `rep from * ...`, `repeat between * * 6 more times`, `repeat {..} to the end`, `rep 6 times`."""
        self._flush()
        start = self.at
        index = self.at + 1
        named = False
        while (
            kind(self.items, index) in ("from", "noise", "between", "into", "*", "st", "each", '"', "'", "first")
            or kind(self.items, index) in self.marks
            or text_at(self.items, index) in ("instructions", "s", "pattern", "sequence", "and")
            or (kind(self.items, index) == "-" and kind(self.items, index - 1) == kind(self.items, index + 1) == "*")
        ):
            if read_times(self.items, index) and kind(self.items, index) not in self.marks:
                break
            named = named or kind(self.items, index) == "*" or kind(self.items, index) in self.marks
            index += 1
        if kind(self.items, index) == "group" and not named and role(self.items, index) in (Role.REPEAT, Role.STEPS):
            self.at = index
            return self._bracket_repeat_after_rep()
        read = read_times(self.items, index)
        if read is None and text_at(self.items, index) in ("cont", "continuously", "throughout"):
            index += 1
        times = read.times if read else Times(Count.TO_END, said=False)
        stop = read.end if read else index
        ends = ends_at_mark(self.items, stop) if self.cut >= 0 else None
        while kind(self.items, stop) == ",":
            stop += 1
        if times.count is Count.TO_END and ends is None and text_at(self.items, stop) in ("ending", "end", "finishing"):
            leads = stop + 1
            while kind(self.items, leads) in ("noise", "last", "rep", "round"):
                leads += 1
            if kind(self.items, leads) in ("number", "stitch", "skip", "group"):
                times = replace(times, ending=True, said=True)
                self.at = leads
                return self._apply_rep(times, self._span(start), named=named)
        in_all = read is not None and is_in_all(self.items, index, read.end)
        if times.count is Count.TOTAL and not in_all:
            times = replace(times, count=Count.EITHER)
        self.at = ends[1] if ends else read.end if read else index
        self.cut_short = ends is not None
        span = self._span(start)
        return self._apply_rep(times, span, named=named)

    def _omitting(self) -> bool:
        """Read `omitting last corner`, `leaving out last sc` after a repeat: its last pass ends before that."""
        index = self.at
        if self._text() in ("leaving", "leave") and self._text(1) == "out":
            index += 1
        elif self._text() not in ("omitting", "omit"):
            return False
        index += 1
        while kind(self.items, index) == "noise":
            index += 1
        told = [n for n, step in enumerate(self.steps) if not isinstance(step, Remark)]
        repeat = self.steps[told[-1]] if told else None
        if kind(self.items, index) != "last" or not isinstance(repeat, Repeat):
            return False
        item = self.items[index + 1] if index + 1 < len(self.items) else None
        stitch = item.stitch if isinstance(item, Word) else None
        stop = index + 2
        while kind(self.items, stop) not in ("", ",", ";", ".", "group") and text_at(self.items, stop) != "and":
            stop += 1
        cut = _last_of(repeat.steps, stitch.id if stitch else "", text_at(self.items, index + 1))
        shorter = _one_fewer(repeat.times)
        if cut is None or shorter is None:
            return False
        self.steps[told[-1] :] = [replace(repeat, times=shorter), *repeat.steps[:cut]]
        self.at = stop
        return True

    def _bracket_repeat_after_rep(self) -> bool:
        group = self.items[self.at]
        assert isinstance(group, Group)
        return self._bracket_repeat(group)

    def _apply_rep(self, times: Times, span: Span, *, named: bool) -> bool:
        if self.open_star is not None:
            start, _ = self.open_star
            self.open_star = None
            if start == len(self.steps):
                self.steps.append(Unread(span, "there is nothing between the star and the repeat"))
                return True
            self.body = tuple(self.steps[start:])
            self._wrap(start, times, span)
            self.body_end = len(self.steps)
            return True
        if self.body is not None and self.body_end == len(self.steps):
            start = len(self.steps) - len(self.body)
            if tuple(self.steps[start:]) == self.body:
                self._wrap(start, times, span)
                self.body_end = -1
                return True
        if self.body is not None and named:
            later = replace(times, count=Count.TOTAL) if times.count in (Count.EITHER, Count.MORE) else times
            self.steps.append(Repeat(self.body, later, span, "*"))
            return True
        words = [word.text for word in flat(self.items) if span.start <= word.span.start < span.end]
        return self._rep_without_mark(times, span, named=named, from_beginning="beginning" in words)

    def _rep_without_mark(self, times: Times, span: Span, *, named: bool, from_beginning: bool) -> bool:
        last = self.steps[-1] if self.steps else None
        if isinstance(last, Repeat) and not last.times.said:
            self.steps[-1] = replace(last, times=times, span=last.span.cover(span))
            return True
        if named:
            self.loose.append(LooseMark(MarkTrouble.STAR_UNOPENED, span))
        start = self._first_work()
        if from_beginning:
            start = next((n for n, step in enumerate(self.steps) if isinstance(step, Chain)), start)
            self.steps[start:] = [
                replace(step, beginning=False) if isinstance(step, Chain) else step for step in self.steps[start:]
            ]
        if not self.steps[start:]:
            self.steps.append(Unread(span, "there is nothing to repeat"))
            return True
        self._wrap(start, times, span)
        return True


def _alike(one: Sequence[Step], other: Sequence[Step]) -> bool:
    """Tell whether two groups are made of the same stitches and chains."""
    return len(one) == len(other) and all(
        (isinstance(a, Chain) and isinstance(b, Chain) and a.n.values == b.n.values)
        or (
            isinstance(a, Work)
            and isinstance(b, Work)
            and (a.make.kind, a.times.values) == (b.make.kind, b.times.values)
        )
        for a, b in zip(one, other, strict=True)
    )


def _last_of(steps: Sequence[Step], stitch: str, word: str) -> int | None:
    """Return the index of the last step of a group that a word names: a stitch, a chain, or a corner."""
    for index in range(len(steps) - 1, -1, -1):
        step = steps[index]
        if isinstance(step, Together):
            return index if not stitch and word in ("corner", "shell", "group", "bracket", "v") else None
        if isinstance(step, Work):
            one = step.times.values == (1,) and step.where.number is not None and step.where.number.values == (1,)
            return index if one and (step.make.kind == stitch or word == "st") else None
        if isinstance(step, Skip | Repeat):
            return None
        if isinstance(step, Chain) and stitch == "ch":
            return index
    return None


def _one_fewer(times: Times) -> Times | None:
    """Return one time less; a repeat to the end stops by itself before what is kept."""
    if times.count is Count.TO_END or times.number is None:
        return replace(times, said=True) if times.count is Count.TO_END else None
    if any(value is not None and value < 1 for value in times.number.values):
        return None
    fewer = tuple(None if value is None else value - 1 for value in times.number.values)
    return replace(times, number=replace(times.number, values=fewer))
