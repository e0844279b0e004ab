"""Steps: the grammar of a round, a recursive descent over its words and brackets.

It reads what it knows; what it doesn't know and may matter becomes an `Unread` step with its span, and never spoils
its neighbours. Brackets are judged by `roles`, places by `places`, numbers of times by `times`, counts by `claims`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from ..draft import Span
from ..pattern import (
    At,
    Chain,
    Claim,
    Count,
    Evenly,
    FastenOff,
    Figure,
    Join,
    Leave,
    LooseMark,
    Make,
    MarkTrouble,
    OtherSide,
    Remark,
    Repeat,
    Ring,
    Skip,
    Step,
    Target,
    Times,
    Together,
    Turn,
    Unread,
    Where,
    Work,
)
from .claims import claim_of_group, sentence_claim, trailing_claim
from .marks import Group, Item, flat, kind, span_of, text_at
from .places import Placed, read_place
from .roles import Role, role
from .times import figure_at, is_in_all, read_times
from .words import Word

_SOFT = {"|", ",", ";", ".", ":", "+", "-", "noise", "work", "round", "side", "loops", "even", "spiral", "total", "remain", "around", "=", "/", "&", '"', "'", "evenly"}


@dataclass(frozen=True, slots=True)
class Steps:
    """What a round's words say: its steps, the counts it states, marks that don't pair, rounds it says it covers."""

    steps: tuple[Step, ...]
    claims: tuple[Claim, ...] = ()
    loose: tuple[LooseMark, ...] = ()
    rounds: Figure | None = None
    spiral: bool = False


def make_of(word: Word) -> Make | None:
    """Return what a stitch uses and makes; None where the pattern must say and doesn't."""
    stitch = word.stitch
    if stitch is None:
        return None
    if stitch.uses is not None and stitch.makes is not None:
        return Make(stitch.id, stitch.uses, stitch.makes, max(stitch.height, 0))
    if stitch.kind == "decrease":
        return Make(stitch.id, 2, 1, max(stitch.height, 0))
    if stitch.kind in ("group", "texture", "loop", "extended", "linked", "post") and stitch.id not in _MUST_SAY:
        return Make(stitch.id, 1, 1, max(stitch.height, 0))
    return None


_MUST_SAY = {"shell", "half_shell", "dbl_vst", "vst", "y_st", "star", "love_knot", "mesh", "block", "granny_cl", "post_cable"}


@dataclass(slots=True)
class _Reader:
    """One level of a round: the words outside any bracket, or inside one."""

    items: Sequence[Item]
    top: bool
    habit: bool = False  # the draft's rounds close with a count that is a sentence of its own
    directed: bool = False  # the words follow an instruction that stands for whole rounds
    in_ring: bool = False  # `in a magic ring work 3ch, 11 tr`: what follows goes into the ring
    marks: frozenset[str] = frozenset({"*"})
    at: int = 0
    steps: list[Step] = field(default_factory=list[Step])
    claims: list[Claim] = field(default_factory=list[Claim])
    loose: list[LooseMark] = field(default_factory=list[LooseMark])
    rounds: Figure | None = None
    spiral: bool = False
    open_star: tuple[int, Span] | None = None
    body: tuple[Step, ...] | None = None  # the last group closed by a second star
    body_end: int = -1  # how many steps there were when it closed
    unknown: list[Item] = field(default_factory=list[Item])

    # ------------------------------------------------------------ driving

    def read(self) -> Steps:
        while self.at < len(self.items):
            before = self.at
            if not self._one():
                self._take_unknown()
            assert self.at > before
        self._flush()
        self._close_star_at_end()
        return Steps(tuple(self.steps), tuple(self.claims), tuple(self.loose), self.rounds, self.spiral)

    def _add(self, step: Step) -> None:
        self._flush()
        self.steps.append(step)

    def _kind(self, offset: int = 0) -> str:
        return kind(self.items, self.at + offset)

    def _text(self, offset: int = 0) -> str:
        return text_at(self.items, self.at + offset)

    def _span(self, start: int, end: int | None = None) -> Span:
        stop = self.at if end is None else end
        return span_of(self.items[start : max(stop, start + 1)])

    # ------------------------------------------------------------ words that could not be read

    def _take_unknown(self) -> None:
        item = self.items[self.at]
        self.at += 1
        if item.kind in _SOFT and not self.unknown:
            if item.kind == "spiral":
                self.spiral = True
            return
        if item.kind in (".", ";") and self.unknown:
            self._flush()
            return
        self.unknown.append(item)

    def _flush(self) -> None:
        """Judge the words that no rule read: talk takes nothing, anything that names stitches may matter."""
        unknown, self.unknown = self.unknown, []
        while unknown and unknown[-1].kind in _SOFT:
            unknown.pop()
        if not unknown:
            return
        span = span_of(unknown)
        if _harmless(unknown):
            self.steps.append(Remark(span))
        else:
            self.steps.append(Unread(span, "these words were not understood"))

    # ------------------------------------------------------------ one thing at a time

    def _one(self) -> bool:
        what = self._kind()
        if self.top and self._claim():
            return True
        if what == "group":
            return self._group()
        if what in self.marks or (what == "*"):
            return self._star()
        if what == "rep":
            return self._rep()
        if what == "remark" or (what == "work" and self._text() == "working" and self._kind(1) not in ("number", "stitch", "group")):
            if what == "work" and (placed := self._other_side()):
                return placed
            return self._remark()
        if what == "number" and self._kind(1) == "group" and self._number_before_group():
            return True
        simple = {
            "skip": self._skip,
            "turn": self._turn,
            "fasten": self._fasten,
            "join": self._join,
            "ring": self._ring,
            "otherside": self._other_side,
            "into": self._into,
            "evenly": self._evenly_word,
            "last": self._leave,
        }.get(what)
        if simple and simple():
            return True
        if what in ("stitch", "number", "often", "word", "noise", "loops", "over", "post"):
            return self._stitch() or self._leave() or self._double()
        return False

    def _turn(self) -> bool:
        self._add(Turn(self.items[self.at].span))
        self.at += 1
        return True

    def _fasten(self) -> bool:
        self._add(FastenOff(self.items[self.at].span))
        self.at += 1
        return True

    def _remark(self) -> bool:
        """Take words that only tell how or with what, to the end of the clause or the next instruction."""
        start = self.at
        self.at += 1
        while self.at < len(self.items):
            what = self._kind()
            if what in (",", ";", ".", "group", "*", "rep", "fasten", "turn") or what in self.marks:
                break
            if what == "work" and self.at > start + 1 and self._kind(1) not in (".", ",", ""):
                break
            if self._begins_chain() or self._begins_stitch(start):
                break
            self.at += 1
        self._add(Remark(self._span(start)))
        return True

    def _begins_chain(self) -> bool:
        item = self.items[self.at]
        chain = isinstance(item, Word) and item.stitch is not None and item.stitch.kind == "chain"
        after = self.at + (2 if self._kind(1) == "-" else 1)
        return chain and figure_at(self.items, after) is not None and self._kind(-1) not in ("into", "noise", "last", "first", "same", "next")

    def _begins_stitch(self, start: int) -> bool:
        """Tell whether a stitch with a number begins here, and not as the place that a remark speaks of."""
        if self.at <= start + 1:
            return False
        before = self._kind(-1)
        if before in ("into", "next", "first", "last", "same", "each", "over", "from", "between", "noise", "round"):
            return False
        if self._kind() == "number" and self._kind(1) == "stitch":
            return self._text(-1) not in ("col", "colour", "color", "colors", "hook", "size")
        return self._kind() == "stitch" and (self._kind(1) in ("number", "into", "around", "each") and before in (",", "word", ":"))

    # ------------------------------------------------------------ claims

    def _claim(self) -> bool:
        if not self.steps and not self.directed:
            return False
        found = trailing_claim(self.items, self.at)
        if found:
            claims, end = found
            if self._text() in ("end", "with") or (self._kind() in ("-", ":") and not self._made_something()):
                return False
            self._flush()
            self.claims.extend(claims)
            self.at = end
            return True
        last = all(item.kind in (".", ";", "|") for item in self.items[self.at + 1 :]) and self._kind(-1) not in ("round", "from", "noise")
        stitches = (self._kind(1) == "st" or last) and self._made_something()
        figure = figure_at(self.items, self.at)
        closing = self._kind(-1) in (".", ";", "turn", "fasten", "") and (self._complete() or self.habit)
        if figure is not None and self._made_something() and (stitches or closing):
            one = sentence_claim(self.items, self.at)
            if one:
                claims, end = one
                self._flush()
                self.claims.extend(claims)
                self.at = end
                return True
        return False

    def _made_something(self) -> bool:
        return self.directed or any(isinstance(step, Work | Repeat | Together | Evenly) for step in self.steps)

    def _complete(self) -> bool:
        """Tell whether the round has come to its end: what follows can only be a count."""
        for step in reversed(self.steps):
            if isinstance(step, Remark | Turn | FastenOff):
                continue
            if isinstance(step, Join):
                return self._made_something()
            if isinstance(step, Repeat):
                return step.times.count is Count.TO_END or not step.times.said
            if isinstance(step, Work):
                return step.where.at is At.EACH or step.where.last
            return isinstance(step, Evenly)
        return self.directed

    # ------------------------------------------------------------ brackets

    def _group(self) -> bool:
        group = self.items[self.at]
        assert isinstance(group, Group)
        match role(self.items, self.at):
            case Role.NUMBER:
                return self._stitch()
            case Role.COUNT:
                return self._count(group)
            case Role.COUNTS_AS:
                return self._counts_as(group)
            case Role.TIMES:
                return self._times_group()
            case Role.ROUNDS:
                self.rounds = next((word.figure for word in flat(group.items) if word.kind == "number"), None)
                self.at += 1
                return True
            case Role.STAR:
                inner = _Reader(group.items, top=False, marks=self.marks)
                inner.steps, inner.open_star, inner.body = self.steps, self.open_star, self.body
                inner.body_end = self.body_end
                inner.read()
                self.open_star, self.body, self.body_end = inner.open_star, inner.body, inner.body_end
                self.loose.extend(inner.loose)
                self.at += 1
                return True
            case Role.REMARK:
                self._add(Remark(group.span))
                self.at += 1
                return True
            case Role.PLACEMENT:
                return self._placement(group)
            case Role.STEPS if self._complete():
                # what is said again in brackets after a whole round takes nothing
                self._add(Remark(group.span))
                self.at += 1
                return True
            case Role.REPEAT | Role.STEPS:
                return self._bracket_repeat(group)

    def _count(self, group: Group) -> bool:
        self._flush()
        claims = claim_of_group(group)
        if any(word.kind == "counts" or word.text in ("counting", "including", "included") for word in flat(group.items)):
            claims = claims[:1]
        if self._later_work(self.at + 1) and not self.top:
            self.steps.append(Remark(group.span))
        else:
            self.claims.extend(claims)
        self.at += 1
        return True

    def _later_work(self, index: int) -> bool:
        return any(word.kind == "stitch" for word in flat(self.items[index:]))

    def _counts_as(self, group: Group) -> bool:
        """Apply `(counts as 1st dc)` to the chain before it."""
        self._flush()
        says_not = any(
            word.text in ("not", "doesn't", "don't", "never") or word.text in _NOT_COUNTS for word in flat(group.items)
        )
        self._apply_counts(group.items, says_not=says_not)
        self.at += 1
        return True

    def _apply_counts(self, items: Sequence[Item], *, says_not: bool) -> None:
        for index in range(len(self.steps) - 1, -1, -1):
            step = self.steps[index]
            if isinstance(step, Chain):
                stitch = next((w.stitch for w in flat(items) if w.stitch and w.stitch.kind != "chain"), None)
                space = _space_counted(items)
                self.steps[index] = replace(
                    step, counts=not says_not, kind=stitch.id if stitch else None, and_space=space if not says_not else 0
                )
                return
            if not isinstance(step, Remark | Turn):
                return

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

    def _repeat_last(self, times: Times) -> None:
        last = self.steps[-1]
        if isinstance(last, Repeat) and not last.times.said:
            self.steps[-1] = replace(last, times=times, span=last.span.cover(times.span) if times.span else last.span)
            return
        span = last.span.cover(times.span) if times.span else last.span
        self.steps[-1] = Repeat((last,), times, span, mark="")

    def _number_before_group(self) -> bool:
        """Read `6 (sc, inc)`: six times. A 1 before a bracket that has its own times is a stray figure."""
        number = figure_at(self.items, self.at)
        what = role(self.items, self.at + 1)
        if what not in (Role.REPEAT, Role.STEPS) or number is None:
            return False
        if what is Role.REPEAT:
            if number.values != (1,):
                return False
            self.at += 1
            return True
        start = self.at
        self.at += 2
        group = self.items[start + 1]
        assert isinstance(group, Group)
        span = self._span(start)
        self._add(Repeat(self._inner(group), Times(Count.TOTAL, number, span=span), span, group.mark))
        return True

    def _inner(self, group: Group) -> tuple[Step, ...]:
        reader = _Reader(group.items, top=False, marks=self.marks)
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
        step: Step = Together(_in_one(steps), placed.where, self._span(start))
        self._add(step)
        if times := read_times(self.items, self.at):
            if times.times.number is not None:
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
        star = False
        if self._kind() == "*" and self._kind(1) == "rep":
            self.at += 1
        said = self.at
        if self._kind() in (",", ".") and self._kind(1) == "rep":
            self.at += 1
        if self._kind() == "rep" and not self._rep_names_mark(self.at):
            self.at += 1
            star = True
            while self._kind() in ("noise", "each", "*") and not read_times(self.items, self.at):
                self.at += 1
        read = read_times(self.items, self.at)
        if read is None:
            if star:
                self.at = said if not self._kind() == "" else self.at
            self._add(Repeat(steps, Times(Count.TO_END, said=star), self._span(start), group.mark))
            return True
        times = read.times
        if star and times.count is Count.TOTAL and not is_in_all(self.items, self.at, read.end):
            times = replace(times, count=Count.EITHER)
        self.at = read.end
        self._add(Repeat(steps, times, self._span(start), group.mark))
        return True

    # ------------------------------------------------------------ stars

    def _star(self) -> bool:
        item = self.items[self.at]
        self._flush()
        if self._kind(1) == "number" and self._kind(-1) == "group" and self._kind(2) not in ("stitch",):
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
            return True
        start, _ = self.open_star
        if start == len(self.steps):
            return True
        self.body = tuple(self.steps[start:])
        self.open_star = None
        self._close(start, item.span)
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

    def _first_work(self) -> int:
        for index, step in enumerate(self.steps):
            if not isinstance(step, Chain | Remark | Turn | Join):
                return index
        return 0

    def _close(self, start: int, mark: Span) -> None:
        """A group between two stars has ended: give it its times, or keep it for a later reference."""
        index = self.at
        while kind(self.items, index) in (",", ".", ";", "noise"):
            index += 1
        if kind(self.items, index) == "rep" and self._rep_names_mark(index, adjacent=True):
            self.at = index
            self.body_end = len(self.steps)
            return
        if read := read_times(self.items, self.at):
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
        self.steps[start:] = [Repeat(body, times, span, "*")]

    def _later_reference(self, index: int) -> bool:
        return any(
            kind(self.items, at) == "rep" and self._rep_names_mark(at) for at in range(index, len(self.items))
        )

    def _rep_names_mark(self, index: int, *, adjacent: bool = False) -> bool:
        """Tell whether `rep` at an index names a mark (`rep from *`), or just follows a group that ended with one."""
        for step in range(1, 7):
            what = kind(self.items, index + step)
            if what in self.marks or what == "*":
                return True
            if what not in ("from", "noise", "between", "st", "first", "word", "work", '"', "'") and not (what == "into" and step == 1):
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
        while kind(self.items, index) in ("from", "noise", "between", "into", "*", "st", "each", '"', "'", "first") or kind(self.items, index) in self.marks or text_at(self.items, index) in ("instructions", "s", "pattern", "sequence", "and"):
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
        in_all = read is not None and is_in_all(self.items, index, read.end)
        if times.count is Count.TOTAL and not in_all:
            times = replace(times, count=Count.EITHER)
        self.at = read.end if read else index
        span = self._span(start)
        return self._apply_rep(times, span, named=named)

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
        return self._rep_without_mark(times, span, named=named)

    def _rep_without_mark(self, times: Times, span: Span, *, named: bool) -> bool:
        last = self.steps[-1] if self.steps else None
        if isinstance(last, Repeat) and not last.times.said:
            self.steps[-1] = replace(last, times=times, span=last.span.cover(span))
            return True
        if named:
            self.loose.append(LooseMark(MarkTrouble.STAR_UNOPENED, span))
        start = self._first_work()
        if not self.steps[start:]:
            self.steps.append(Unread(span, "there is nothing to repeat"))
            return True
        self._wrap(start, times, span)
        return True

    def _close_star_at_end(self) -> None:
        if self.open_star is None:
            return
        start, mark = self.open_star
        self.open_star = None
        if start < len(self.steps) and self._made_something():
            self.loose.append(LooseMark(MarkTrouble.STAR_UNCLOSED, mark))

    # ------------------------------------------------------------ steps

    def _skip(self) -> bool:
        start = self.at
        index = self.at + 1
        while kind(self.items, index) in ("-", "noise", "next", "first", "over"):
            index += 1
        number = figure_at(self.items, index)
        if number is not None:
            index += 1
        elif kind(self.items, index) == "each":
            return False
        if kind(self.items, index) == "next":
            index += 1
        if kind(self.items, index) == "-":
            index += 1
        target, index = _skip_target(self.items, index)
        behind = text_at(self.items, index) == "behind"
        if behind:
            index += 1
            if kind(self.items, index) in ("stitch", "noise"):
                index += 1
                if kind(self.items, index) == "stitch":
                    index += 1
        self.at = index
        span = self._span(start)
        self._add(Skip(number or Figure((1,), span), target, span, behind))
        return True

    def _join(self) -> bool:
        start = self.at
        self.at += 1
        if self._joins_yarn():
            self.at = start
            return self._remark()
        self._finish_join(start)
        return True

    def _joins_yarn(self) -> bool:
        return self._text() in ("yarn", "new", "color", "colour", "cc", "mc", "contrast") or (
            self._kind() == "noise" and self._text(1) in ("yarn", "new", "color", "colour", "cc", "mc", "contrast")
        )

    def _finish_join(self, start: int) -> None:
        """Take the rest of a join: `with sl st to top of beg ch-3`, `in first sc`, up to the end of the clause."""
        chain: bool | None = None
        ring = False
        while self.at < len(self.items):
            what = self._kind()
            if what in (",", ";", ".", "group", "*", "turn", "fasten", "rep", "=", "spiral", "skip", ":") or what in self.marks:
                break
            if what == "-" and not (self._kind(-1) == "stitch" and self._kind(1) == "number" and not self.items[self.at].blank):
                break
            item = self.items[self.at]
            if isinstance(item, Word) and item.stitch is not None:
                if item.stitch.kind == "chain":
                    if self._kind(-1) == "noise" and self._kind(1) == "number" and self._text(-1) == "and":
                        break
                    chain = True
                elif item.stitch.id != "slst" and chain is None:
                    chain = False
            if what == "ring":
                ring = True
            if what == "number" and self._kind(1) in ("stitch", "-") and self._kind(-1) not in ("-", "stitch"):
                chain_at = self.at + (2 if self._kind(1) == "-" else 1)
                named = self.items[chain_at] if chain_at < len(self.items) else None
                if not (isinstance(named, Word) and named.stitch is not None and named.stitch.kind == "chain" and self._kind(-1) in ("noise", "into")):
                    break
                self.at = chain_at
                chain = True
            if what == "stitch" and self._kind(1) in ("each", "around") or (what == "stitch" and self._kind(1) == "into" and self._kind(2) in ("each", "next") and self._text() not in ("sl st",)):
                break
            self.at += 1
        span = self._span(start)
        if ring:
            self._make_ring(span)
            return
        self._add(Join(span, chain))

    def _make_ring(self, span: Span) -> None:
        """Turn the chain that was just made into a ring."""
        self._flush()
        index = len(self.steps) - 1
        while index >= 0 and isinstance(self.steps[index], Remark):
            index -= 1
        step = self.steps[index] if index >= 0 else None
        if isinstance(step, Chain):
            self.steps[index:] = [Ring(step.span.cover(span), step.n)]
        else:
            self.steps.append(Ring(span))

    def _ring(self) -> bool:
        start = self.at
        self.at += 1
        before = [step for step in self.steps if not isinstance(step, Remark)]
        if before and isinstance(before[-1], Work) and len(before) == 1 and before[-1].bare:
            # `6 sc magic ring`
            work = before[-1]
            number = work.where.number or Figure((1,), work.span)
            index = self.steps.index(work)
            self.steps[index] = Work(work.make, number, Where(At.RING), work.span.cover(self._span(start)))
            return True
        self._make_ring(self._span(start))
        return True

    def _other_side(self) -> bool:
        index = self.at
        stop = index
        while stop < len(self.items) and stop - index < 7:
            if kind(self.items, stop) == "otherside":
                start = self.at
                self.at = stop + 1
                while self._kind() in ("noise",) or self._text() in ("chain", "foundation", "ch") or (
                    self._kind() == "stitch" and self._kind(-1) == "noise" and self._kind(1) in (",", ".", ":", ";")
                ):
                    self.at += 1
                self._add(OtherSide(self._span(start)))
                return True
            if kind(self.items, stop) in (",", ".", ";", "number", "group"):
                return False
            stop += 1
        return False

    def _into(self) -> bool:
        """Read a place said first: `In magic ring, 6 sc`, `Into the ring work 12 dc`, `in each st, 2 sc`."""
        start = self.at
        if self._other_side():
            return True
        placed = read_place(self.items, self.at)
        if placed is None:
            return False
        index = placed.end
        while kind(self.items, index) in (",", ":", "work", "noise"):
            index += 1
        if placed.where.at is At.RING:
            self.at = index
            if not any(isinstance(step, Chain | Ring) for step in self.steps):
                self._add(Ring(self._span(start, placed.end)))
            self.in_ring = True
            return True
        if kind(self.items, index) == "group" or kind(self.items, index) in ("number", "stitch"):
            return self._placed_first(start, index, placed)
        return False

    def _placed_first(self, start: int, index: int, placed: Placed) -> bool:
        self.at = index
        before = len(self.steps)
        if not self._stitch():
            self.at = start
            return False
        step = self.steps[before] if before < len(self.steps) else None
        if isinstance(step, Work) and step.bare and len(self.steps) == before + 1:
            times = step.where.number or Figure((1,), step.span)
            self.steps[before] = Work(step.make, times, placed.where, self._span(start))
            return True
        return True

    def _evenly_word(self) -> bool:
        self.at += 1
        return True

    def _leave(self) -> bool:
        """Read `leave last 2 sts unworked`, `leaving rem sts unworked`."""
        words = self.items[self.at : self.at + 9]
        stop = next((n for n, item in enumerate(words) if item.kind == "unworked"), None)
        if stop is None or any(item.kind in (".", ";", "*") for item in words[:stop]):
            return False
        if not any(text_at(words, n) in ("leave", "leaving") for n in range(stop)) and self._kind() != "last":
            return False
        number = next((figure_at(words, n) for n in range(stop) if figure_at(words, n) is not None), None)
        start = self.at
        self.at += stop + 1
        if number is None and any(item.kind == "last" for item in words[:stop]):
            number = Figure((1,), self._span(start))
        self._add(Leave(self._span(start), number))
        return True

    def _every_nth(self) -> bool:
        """Read `increasing in every 11th st`, `dec every 6th stitch`: as often as it goes round."""
        item = self.items[self.at]
        stem = text_at(self.items, self.at)[:3]
        if stem not in ("inc", "dec") or not isinstance(item, Word):
            return False
        index = self.at + 1
        while kind(self.items, index) in ("into", "noise", "st"):
            index += 1
        nth = self.items[index + 1] if index + 1 < len(self.items) else None
        if kind(self.items, index) != "each" or not isinstance(nth, Word) or nth.kind != "ordinal" or (nth.value or 0) < 2:
            return False
        start = self.at
        self.at = index + 2
        if self._kind() in ("st", "stitch"):
            self.at += 1
        while self._kind() == "around":
            self.at += 1
        span = self._span(start)
        one = Figure((1,), span)
        change = Make("inc", 1, 2) if stem == "inc" else Make("dec", 2, 1)
        before = (nth.value or 0) - change.uses
        body: list[Step] = [Work(Make("st"), one, Where(At.NEXT, Figure((before,), span)), span)] if before else []
        body.append(Work(change, one, Where(At.NEXT, one), span))
        self._add(Repeat(tuple(body), Times(Count.TO_END, span=span), span, mark=""))
        return True

    def _spread(self) -> bool:
        """Read `increasing 9 sts evenly`, `inc 6 evenly around`, `dec evenly to 60 sts`: spread over the whole round."""
        stem = text_at(self.items, self.at)[:3]
        if stem not in ("inc", "dec"):
            return False
        window = range(self.at + 1, min(self.at + 8, len(self.items)))
        if not any(kind(self.items, index) == "evenly" for index in window):
            return False
        start = self.at
        number: Figure | None = None
        to: Figure | None = None
        self.at += 1
        while self.at < len(self.items) and self._kind() not in (".", ";", ",", "*", "rep", "join"):
            figure = figure_at(self.items, self.at)
            if figure is not None and self._kind(-1) == "into":
                to = figure
            elif figure is not None and number is None and self._kind() != "group" or (figure is not None and figure.is_list and number is None):
                number = figure
            elif self._kind() == "group":
                break
            elif self._kind() not in ("evenly", "st", "around", "noise", "into", "stitch", "over", "round"):
                break
            self.at += 1
        if number is None and to is None:
            self.at = start
            return False
        self._flush()
        span = self._span(start)
        last = self.steps[-1] if self.steps else None
        if isinstance(last, Work) and last.where.at is At.EACH:
            span = last.span.cover(span)
            self.steps.pop()
        self.steps.append(Evenly(span, 1 if stem == "inc" else -1, number, to))
        return True

    def _double(self) -> bool:
        """Read `double every st`: two in each."""
        if self._every_nth() or self._spread():
            return True
        if self._text() not in ("double", "doubling") or self._kind(1) != "each" or self._kind(2) != "st":
            return False
        start = self.at
        self.at += 3
        while self._kind() == "around":
            self.at += 1
        span = self._span(start)
        self._add(Work(Make("st"), Figure((2,), span), Where(At.EACH, span=span), span))
        return True

    # ------------------------------------------------------------ stitches

    def _stitch(self) -> bool:
        """Read a stitch with its number and place: `1 sc in each of next 9 sts`, `sc 7`, `2 dc in next st`, `inc`."""
        start = self.at
        index = self.at
        if self._every_nth() or self._spread():
            return True
        while kind(self.items, index) in ("loops", "work", "noise"):
            index += 1
        number = figure_at(self.items, index)
        if number is not None and not (kind(self.items, index) == "group" and role(self.items, index) is not Role.NUMBER):
            index += 1
            while kind(self.items, index) in ("loops", "-") or (kind(self.items, index) == "times" and text_at(self.items, index) == "x"):
                index += 1
            if kind(self.items, index) == "more":
                index += 1
        else:
            number = None
        if number is not None and kind(self.items, index) == "noise" and text_at(self.items, index) in ("x", "of"):
            index += 1
        word = self.items[index] if index < len(self.items) else None
        if not isinstance(word, Word) or word.stitch is None:
            return False
        if word.stitch.kind in ("increase", "decrease") and text_at(self.items, index - 1) == "of":
            return False  # `one more round of increases`
        if number is None and kind(self.items, index - 1) == "into" and kind(self.items, index + 1) in ("", ".", ",", ";"):
            return False  # `work each round in dc`
        if word.stitch.kind == "chain":
            return self._chain(start, index, number)
        return self._work(start, index, word, number)

    def _chain(self, start: int, index: int, number: Figure | None) -> bool:
        """Read `ch 3`, `3ch`, `ch-1`, `chain 70 loosely`, with `(counts as dc)` or `, counts as dc` after it."""
        after = index + 1
        if number is None:
            while kind(self.items, after) in ("-", "noise"):
                after += 1
            number = figure_at(self.items, after)
            if number is None:
                return False
            after += 1
            if kind(self.items, after) == "space" and kind(self.items, after - 1) != "stitch":
                return False
        elif figure_at(self.items, after) is not None and kind(self.items, after + 1) not in ("stitch", "st", "times"):
            after += 1
        if kind(self.items, after) == "st":
            after += 1
        self.at = after
        beginning = all(isinstance(step, Remark | Turn | Join | Ring | Chain) or _travels(step) for step in self.steps)
        self._add(Chain(number, self._span(start), beginning=beginning))
        index = after
        while kind(self.items, index) in (",", "-", "noise", ";") and kind(self.items, index + 1) in ("counts", "noise", "-"):
            index += 1
        if kind(self.items, index) == "counts":
            stop = index + 1
            while stop < len(self.items) and kind(self.items, stop) not in (",", ";", ".", "group", "*"):
                if kind(self.items, stop) == "number" and kind(self.items, stop + 1) == "stitch" and kind(self.items, stop + 2) in ("into", "around"):
                    break
                stop += 1
            says_not = text_at(self.items, index) in _NOT_COUNTS or text_at(self.items, index + 1) == "not"
            self._apply_counts(self.items[index:stop], says_not=says_not)
            self.at = stop
        return True

    def _work(self, start: int, index: int, word: Word, number: Figure | None) -> bool:
        make = make_of(word)
        index += 1
        make, index = self._combined(make, word, index)
        before_times: Times | None = None
        after_number: Figure | None = None
        if number is None:
            index, after_number, before_times = self._number_after(index)
        else:
            index, make = self._together(index, make, number)
            if make is not None and make.uses > 1 and kind(self.items, index - 1) == "tog" and make.uses == number.values[0]:
                number = None
        if make is None:
            return False
        if make.kind == "slst" and self._is_join(index, number or after_number):
            self.at = index
            self._finish_join(start)
            return True
        self._place(start, index, make, number if number is not None else after_number, trailing=number is None, times=before_times)
        return True

    def _combined(self, make: Make | None, word: Word, index: int) -> tuple[Make | None, int]:
        """Take `sc inc`, `sc dec`, `dec sc` as one; take `sc 2 tog` and `hdc 3 together` as a decrease."""
        nxt = self.items[index] if index < len(self.items) else None
        assert word.stitch is not None
        if isinstance(nxt, Word) and nxt.stitch is not None and nxt.stitch.kind in ("increase", "decrease") and word.stitch.kind == "basic":
            inner = make_of(nxt)
            if inner is not None and make is not None:
                return Make(f"{make.kind}_{'inc' if inner.makes > 1 else 'dec'}", inner.uses, inner.makes, make.height), index + 1
        if make is not None and (count := figure_at(self.items, index)) is not None and kind(self.items, index + 1) == "tog":
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
        if kind(self.items, at) == "-":
            at += 1
        if kind(self.items, at) == "loops":
            at += 1
        figure = figure_at(self.items, at)
        if figure is not None and (kind(self.items, at) != "group" or role(self.items, at) is Role.NUMBER):
            if kind(self.items, at + 1) == "times":
                read = read_times(self.items, at)
                if read:
                    return read.end, None, read.times
            if kind(self.items, at + 1) == "more":
                return at + 2, figure, None
            if kind(self.items, at + 1) == "stitch" and self._is_new_step(at):
                return index, None, None
            return at + 1, figure, None
        if kind(self.items, at) in ("times", "often"):
            read = read_times(self.items, at)
            if read and read.times.number is not None:
                return read.end, None, read.times
        return index, None, None

    def _is_new_step(self, at: int) -> bool:
        """Tell whether a number between two stitches belongs to the second: `sc 2 dc in next` is `sc, 2 dc in next`."""
        return kind(self.items, at + 2) in ("into", "around", "each")

    def _is_join(self, index: int, number: Figure | None) -> bool:
        """Tell whether a slip stitch closes the round: it goes into the first stitch or the beginning chain, or stands last."""
        if number is not None and number.values != (1,):
            return False
        stop = index
        words: list[str] = []
        while stop < len(self.items) and kind(self.items, stop) not in (",", ";", ".", "group", "*", "=", ":") and len(words) < 12:
            words.append(text_at(self.items, stop))
            stop += 1
        said = " ".join(words)
        labels = {kind(self.items, at) for at in range(index, stop)}
        if "each" in labels or (not words and self._made_something()) and self._rest_is_quiet(stop):
            return "each" not in labels
        if "join" in labels or "ring" in labels:
            return True
        if "first" in labels or any(word in said for word in ("top", "beginning", "1st", "beg", "starting", "close", "join")):
            return self._made_something() or any(isinstance(step, Chain) for step in self.steps)
        if "ordinal" in labels and self._made_something() and "each" not in labels and "next" not in labels:
            return True
        chain_named = any(
            isinstance(item := self.items[at], Word) and item.stitch is not None and item.stitch.kind == "chain"
            for at in range(index, stop)
        )
        return chain_named and self._made_something() and self._rest_is_quiet(stop)

    def _rest_is_quiet(self, index: int) -> bool:
        return not any(item.kind in ("into", "next", "each", "skip", "rep", "*", "around", "over", "same") for item in self.items[index:])

    def _place(self, start: int, index: int, make: Make, number: Figure | None, *, trailing: bool, times: Times | None) -> None:
        """Read the place of a stitch and add the step."""
        at = index
        if kind(self.items, at) == "." and kind(self.items, at + 1) in ("into", "around", "each", "loops"):
            at += 1
        while kind(self.items, at) == "work" or (kind(self.items, at) == "noise" and kind(self.items, at + 1) in ("into", "evenly", "around")):
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
        if kind(self.items, at) == "group" and role(self.items, at) is Role.REMARK and read_place(self.items, at + 1):
            at += 1
        placed = read_place(self.items, at)
        if placed is None:
            self.at = index
            if kind(self.items, index) == "loops":
                self.at = index + 1
            self._add_bare(start, make, number, times)
            return
        self.at = placed.end
        for step in _placed_steps(make, number, placed, self._span(start), trailing=trailing):
            self._add(step)
        if times is not None:
            self._times_in_place(times)
        self._more_times()
        self._and_places(make, number, start)

    def _times_in_place(self, times: Times) -> None:
        """Apply `dc 5 times in next ch`: so many in that one place."""
        step = self.steps[-1]
        if isinstance(step, Work) and times.number is not None and step.where.at is not At.EACH:
            self.steps[-1] = replace(step, times=times.number)

    def _more_times(self) -> None:
        """Apply `sc2tog over next 2 sts 3 times` and `2 sc in next st, x 6`."""
        if self._kind() in ("number", "times", "often", "group"):
            if self._kind() == "group" and role(self.items, self.at) is not Role.TIMES:
                return
            read = read_times(self.items, self.at)
            if read and read.times.number is not None and isinstance(self.steps[-1], Work):
                self._repeat_last(read.times)
                self.at = read.end

    def _and_places(self, make: Make, number: Figure | None, start: int) -> None:
        """Read further places of the same stitch: `in 2nd ch from hook and in each ch across`."""
        while True:
            index = self.at
            while kind(self.items, index) in ("noise", ","):
                index += 1
            if index == self.at or text_at(self.items, index - 1) != "and" or kind(self.items, index) not in ("into", "each", "next"):
                return
            placed = read_place(self.items, index)
            if placed is None:
                return
            stop = placed.end
            while kind(self.items, stop) in (",", "noise", "work"):
                stop += 1
            if kind(self.items, index) == "into" and kind(self.items, stop) in ("number", "stitch") and kind(self.items, placed.end) not in (",", ".", ";"):
                return
            self.at = placed.end
            last = self.steps[-1]
            if placed.where.at is At.EACH and isinstance(last, Work) and last.where.at is At.EACH and not last.where.target.also_spaces:
                target = replace(placed.where.target, also_spaces=True)
                self.steps[-1] = replace(last, where=replace(placed.where, target=target), span=self._span(start))
                continue
            for step in _placed_steps(make, number, placed, self._span(start), trailing=False):
                self._add(step)

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
        elif self._kind() in ("times", "often") or (self._kind() == "group" and role(self.items, self.at) is Role.TIMES):
            read = read_times(self.items, self.at)
            if read and read.times.number is not None:
                self._repeat_last(read.times)
                self.at = read.end
        elif self._kind() == "*" and self._kind(1) == "number" and self._kind(2) not in ("stitch", "st") and self.open_star is None and len(self.items) > 1:
            read = read_times(self.items, self.at)
            if read:
                self._repeat_last(read.times)
                self.at = read.end


_NOT_COUNTS = {"does not count", "do not count", "doesn't count", "don't count"}


def _travels(step: Step) -> bool:
    """Tell whether a step only moves to where the round begins: `sl st in next ch-2 sp`."""
    return isinstance(step, Work) and step.make.kind == "slst" and step.where.at is not At.EACH


def _space_counted(items: Sequence[Item]) -> int:
    """Return the chains of the space that a counted chain stands for besides its stitch: `counts as dc and ch 2`."""
    words = list(flat(items))
    for index, word in enumerate(words):
        if index and word.stitch is not None and word.stitch.kind == "chain":
            number = next((w.value for w in words[index + 1 : index + 3] if w.kind == "number"), None)
            if number and any(w.stitch is not None and w.stitch.kind != "chain" for w in words[:index]):
                return number
    return 0


def _skip_target(items: Sequence[Item], index: int) -> tuple[Target, int]:
    item = items[index] if index < len(items) else None
    if isinstance(item, Word) and item.stitch is not None:
        if item.stitch.kind == "chain":
            stop = index + 1
            while kind(items, stop) in ("-", "number"):
                stop += 1
            if kind(items, stop) == "space":
                return Target(space=True), stop + 1
            if kind(items, stop) == "st":
                stop += 1
            return Target(chain=True), index + 1 if kind(items, index + 1) != "st" else stop
        return Target(kinds=(item.stitch.id,)), index + 1
    if kind(items, index) == "st":
        return Target(), index + 1
    if kind(items, index) == "space":
        return Target(space=True), index + 1
    return Target(), index


def _placed_steps(make: Make, number: Figure | None, placed: Placed, span: Span, *, trailing: bool) -> list[Step]:
    """Turn a stitch, its number and its place into a step."""
    where = placed.where
    one = Figure((1,), span)
    count = number or one
    many = count.is_list or (count.values[0] or 0) > 1
    if make.uses > 1:
        return [_decrease(make, count, where, span)]
    if where.at is At.EACH and where.target == Target() and many and not placed.each and (count.is_list or (count.values[0] or 0) > 3):
        # `24 sc around`: so many in all
        return [Work(make, one, Where(At.NEXT, count, span=where.span), span)]
    if where.at is At.NEXT and many and where.number is not None and (where.number.is_list or where.number.values[0] != 1):
        same = where.number.values == count.values
        if same and not placed.each:
            return [Work(make, one, where, span)]
        return [Work(make, count, where, span, ambiguous=not placed.each)]
    if trailing and many and where.at is At.EACH:
        # `sc 24 around`
        return [Work(make, one, Where(At.NEXT, count, span=where.span), span)]
    return [Work(make, count, where, span)]


def _decrease(make: Make, count: Figure, where: Where, span: Span) -> Step:
    """Turn a decrease with its place into a step: `sc2tog over next 2 sts` is one, over 4 two; `around` as often as it goes."""
    one = Figure((1,), span)
    if where.at is At.NEXT and where.number is not None:
        over = [value for value in where.number.values if value is not None]
        if where.number.values == (1,):
            return Work(make, one, Where(At.NEXT, count, where.target, last=where.last, span=where.span), span)
        if make.kind in ("dec", "invdec") and over and all(value > make.uses and value % make.uses for value in over):
            return Unread(span, "how many stitches each decrease takes is not clear")
        each = Figure(tuple(None if value is None else value // make.uses for value in where.number.values), span)
        return Work(make, one, Where(At.NEXT, each, where.target, last=where.last, span=where.span), span)
    if where.at is At.EACH:
        work = Work(make, one, Where(At.NEXT, one), span)
        return Repeat((work,), Times(Count.TO_END, leave=where.leave), span, mark="")
    return Work(make, count, where, span)


def _in_one(steps: Sequence[Step]) -> tuple[Step, ...]:
    """Prepare the steps of a group that goes into one place: a bare `2 dc` is two in it."""
    found: list[Step] = []
    for step in steps:
        if isinstance(step, Work) and step.bare and step.where.number is not None:
            found.append(Work(step.make, step.where.number, Where(At.SAME), step.span))
        elif isinstance(step, Chain):
            found.append(replace(step, beginning=False))
        else:
            found.append(step)
    return tuple(found)


_ABBREVIATED = ("sc", "dc", "hdc", "htr", "dtr", "inc", "dec", "sc2tog", "dc2tog", "hdc2tog", "invdec", "bpdc", "fpdc")


def _nearly_stitch(text: str) -> bool:
    """Tell whether an unknown word is a stitch with a letter too many."""
    return any(text in (f"{name}{text[-1]}", f"{text[0]}{name}") for name in _ABBREVIATED) and text not in _ENGLISH


_CHANGES = {"omit", "omitting", "except", "ending", "instead", "replacing", "miss", "alternating", "alternate"}
_ENGLISH = {"once", "deck", "since", "dec", "inc", "disc", "inch"}


def _harmless(items: Sequence[Item]) -> bool:
    """Tell whether words that were not read take nothing: they name no stitch and no number of stitches."""
    words = list(flat(items))
    for index, word in enumerate(words):
        before = words[index - 1] if index else None
        if word.kind in ("skip", "rep", "*", "unworked") or word.text in _CHANGES:
            return False
        if word.kind == "stitch":
            if before is None or before.kind not in ("first", "last", "same", "into", "noise", "each", "next", "from"):
                return False
        if word.kind == "word" and len(word.text) > 1 and _nearly_stitch(word.text):
            return False
        if word.kind == "number" and not (before and (before.kind in ("round", "-") or before.text in ("col", "color", "colour", "size", "step", "part", "hook", "no", "approx", "about", "chart", "yarn", "page", "r", "rd"))):
            after = words[index + 1] if index + 1 < len(words) else None
            if after is not None and after.kind == "more" and index + 2 < len(words) and words[index + 2].kind == "round":
                continue
            if after is None or after.kind in ("stitch", "st", "space", ",", "more", "times", "each"):
                return False
    return True


def read_steps(
    items: Sequence[Item],
    loose: Sequence[LooseMark] = (),
    marks: frozenset[str] = frozenset({"*"}),
    *,
    habit: bool = False,
    directed: bool = False,
) -> Steps:
    """Read the steps of a round from its words and brackets.

    `marks` are the signs that serve as stars in it; `habit` is True where the draft closes its rounds with a count that
    is a sentence of its own (`... 5 times. 36 sc.`), `directed` where they follow a `rep rnd 2` that does all the work.
    """
    read = _Reader(items, top=True, habit=habit, directed=directed, marks=marks).read()
    return replace(read, loose=(*loose, *read.loose))
