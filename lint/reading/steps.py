"""Steps: the grammar of a round, a recursive descent over its words and brackets.

It reads what it knows; what it doesn't know and may matter becomes an `Unread` step with its span, and never spoils
its neighbours. Each layer of the grammar builds on the one before: `reader`, `stitches`, `moves`, `repeats`. Brackets
are judged by `roles`, places by `places`, numbers of times by `times`, counts by `claims`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from ..draft import Span
from ..figures import Figure
from ..pattern import Claim, LooseMark
from ..steps import At, Count, Make, Remark, Repeat, Step, Target, Times, Where, Work
from .claims import claim_of_group
from .filet import read_filet
from .joined import JoinedReader
from .joins import NOT_COUNTS, counts_not
from .makes import make_of
from .marks import Group, Item, flat, kind, span_of, text_at
from .parts import Part, part_at
from .places import Placed, read_place
from .reader import Steps
from .roles import Role, role
from .times import figure_at, read_remainder, read_times
from .together import between_ends
from .words import Word

_EDGES = frozenset({"ends", "edges", "sides", "halves", "pieces"})
_BEGINS = frozenset({"start", "begin", "starting", "beginning"})  # `start 6 sc in a magic ring`
_TOGETHER = frozenset({"together", "tog", "closed"})
_SEAMS = frozenset({"seam", "seams"})


class StepReader(JoinedReader):
    """Reads all steps of a level."""

    __slots__ = ()

    def _counted(self) -> bool:
        """Read a measure, a count, or the number of rows."""
        if not self.at and (self._only_figure() or self._count_first()):
            return True
        return self._counts_said() or self._measured() or self._part_count() or self._names_rows() or self._claim()

    def _first_of_all(self) -> bool:
        """Read what is looked for before anything else: counts, how often all is worked, pieces taken in."""
        return self._counted() or self._often_for_all() or self._joined()

    def _one(self) -> bool:
        what = self._kind()
        if (self.knit and (self._more_of_parts() or self._more_picked_up())) or (self.top and self._first_of_all()):
            return True
        if what == "group":
            return (self.top and self._along_chain()) or self._group()
        if self._knitted() if self.knit else (self.top and self._pieced()) or self._edged():
            return True
        if what == "work" and (self._part_of_row() or self._worked_off() or self._as_before() or self._in_twos()):
            return True
        if what in self.marks or (what == "*"):
            return self._star()
        if what == "rep" or (what == "work" and self._kind(1) == "from" and self._kind(2) in self.marks):
            return self._rep()
        if (
            (what == "around" and self._all_around())
            or (what == "layers" and self._through_layers())
            or (what == "remark" and self._begins())
            or (what == "noise" and self._group_as_before())
        ):
            return True
        if self._omitting() or self._ends_with_join() or self._rows_stated() or self._by_turns() or self._do_this():
            return True
        if self._text() in ("keep", "cont", "continue", "continuing", "keeping") and self._text(1)[:3] in (
            "inc",
            "dec",
        ):
            self.at += 1
            if self._spread():
                return True
            self.at -= 1
        if what == "remark" or (
            what == "work" and self._text() == "working" and self._kind(1) not in ("number", "stitch", "group")
        ):
            goes_on = what == "work" or self._text().startswith("cont")
            if goes_on and (placed := self._other_side()):
                return placed
            return self._remark()
        if what == "number" and self._kind(1) in ("group", "times", "*") and self._number_first():
            return True
        if what == "stitch" and self._seam():
            return True
        if what == "number" and ((self.figures and self._bare_figure()) or self._in_each()):
            return True
        if what in ("stitch", "number", "often", "word", "noise", "loops", "over", "post"):
            return self._stitch() or self._leave() or self._double()
        return self._named_by(what)

    def _only_figure(self) -> bool:
        """Read a round of which only the count is said, `Rnds 16-19. 24`: one in each."""
        figure = figure_at(self.items, 0) if self._kind() == "number" and not self.knit else None
        rest = self.items[1:]
        counts = [item for item in rest if isinstance(item, Group) and figure_at(rest, rest.index(item)) is not None]
        if figure is None or len(counts) > 1 or any(item.kind != "." for item in rest if item not in counts):
            return False
        span = self.items[0].span
        self.claims.append(Claim(figure, "st", span))
        self._add(Work(Make("sc"), Figure((1,), span), Where(At.EACH, span=span), span))
        self.at = len(self.items)
        return True

    def _begins(self) -> bool:
        """Pass over the first word of `start 6 sc in a magic ring`."""
        begins = self._text() in _BEGINS and self._kind(1) == "number" and self._kind(2) == "stitch"
        self.at += begins
        return begins

    def _count_first(self) -> bool:
        """Read a count that stands before the words of a round, `(12) inc 6`, where the stitch has its own number."""
        group = self.items[0]
        figure = figure_at(self.items, 0)
        if not isinstance(group, Group) or figure is None or self._kind(1) != "stitch":
            return False
        if figure_at(self.items, 2) is None and self._kind(2) not in ("around", "each"):
            return False
        self.claims.extend(claim_of_group(group))
        self.at = 1
        return True

    def _number_first(self) -> bool:
        return self._number_before_group() or (self._kind(1) == "times" and self._times_before_stitch())

    def _times_before_stitch(self) -> bool:
        """Read `6 x 2 sc in one stitch`: so often two in the next one."""
        often, number = figure_at(self.items, self.at), figure_at(self.items, self.at + 2)
        item = self.items[self.at + 3] if self.at + 3 < len(self.items) else None
        make = make_of(item) if isinstance(item, Word) and item.stitch is not None else None
        if often is None or number is None or make is None or self._kind(4) != "into":
            return False
        one = self.at + 5 + (self._kind(5) == "noise")
        if kind(self.items, one - 1) != "noise" and figure_at(self.items, one) is not None:
            alone = figure_at(self.items, one)
            one += 1 if alone is not None and alone.values == (1,) else 0
        elif kind(self.items, one) in ("same", "next"):
            one += 1
        if kind(self.items, one) != "st" or one == self.at + 5:
            return False
        start, self.at = self.at, one + 1
        self._add(Work(make, number, Where(At.NEXT, often), self._span(start)))
        return True

    def _part_of_row(self) -> bool:
        """Read `work from first * to 2nd * on row 10`: that stretch of the row."""
        found = part_at(self.items, self.at)
        if found is None or found[0] not in self.parts:
            return False
        self.at = found[1]
        for step in self.parts[found[0]]:
            self._add(step)
        return True

    def _as_before(self) -> bool:
        """Read `work across as before`: what the round before has between its ends."""
        at = self.at + 1
        while kind(self.items, at) in ("around", "even"):
            at += 1
        if text_at(self.items, at) != "as" or text_at(self.items, at + 1) != "before" or not self.before:
            return False
        at += 2
        if remainder := read_remainder(self.items, at):
            at = remainder[1]
        self.at = at
        for step in self.before:
            self._add(step)
        return True

    def _group_as_before(self) -> bool:
        """Pass over `as before`, `as before made` behind a group of stitches: how it is made was said."""
        last = self.steps[-1] if self.steps else None
        if self._text() != "as" or self._text(1) != "before" or not isinstance(last, Work) or not last.make.group:
            return False
        self._add(Remark(self._span(self.at, self.at + 2)))
        self.at += 2
        return True

    def _through_layers(self) -> bool:
        self.layers = True
        self._add(Remark(self.items[self.at].span))
        self.at += 1
        return True

    def _named_by(self, what: str) -> bool:
        """Read what its first word names."""
        match what:
            case "skip":
                return self._skip()
            case "turn":
                return self._turn()
            case "fasten":
                return self._fasten()
            case "join":
                return self._join()
            case "ring":
                return self._ring()
            case "otherside":
                return self._other_side()
            case "into":
                return self._into()
            case "evenly":
                return self._evenly_word()
            case "each":
                return self._each_first()
            case "last":
                return self._leave()
            case _:
                return False

    def _counts_said(self) -> bool:
        """Read `and count this as 1 dc` after the first stitch into the chain: what the chains skipped stand for."""
        last = self.steps[-1] if self.steps else None
        if self._kind() != "counts" or not isinstance(last, Work) or last.where.at is not At.FROM_HOOK:
            return False
        start = self.at
        while self.at < len(self.items) and self._kind() not in (".", ";", "*", "group"):
            self.at += 1
            if self._text(-1).endswith("."):
                break  # `1 ch-1 sp.`: the full stop is part of the word
        self._apply_counts(self.items[start : self.at], says_not=self._words_deny(start))
        return True

    def _words_deny(self, start: int) -> bool:
        return any(text_at(self.items, index) in (*NOT_COUNTS, "not") for index in range(start, self.at))

    def _ends_with_join(self) -> bool:
        """Read `ending with 1 sl st into first st`: the round is joined."""
        if self._text() not in ("ending", "end", "finishing", "finish", "ends") or self._kind(1) != "noise":
            return False
        at = 3 if figure_at(self.items, self.at + 2) is not None else 2
        item = self.items[self.at + at] if self.at + at < len(self.items) else None
        if not isinstance(item, Word) or item.stitch is None or item.stitch.id != "slst":
            return False
        start = self.at
        self.at += at + 1
        self._finish_join(start)
        return True

    def _rows_stated(self) -> bool:
        """Read `(14) - 9 rows`: how many rounds the heading covers."""
        figure = figure_at(self.items, self.at + 1)
        if not self.top or not self.claims or self._kind() not in ("-", ",", "x") or figure is None:
            return False
        if self._kind(1) != "number" or self._kind(2) != "round" or self._kind(3) not in ("", ".", ";"):
            return False
        self.rounds = figure
        self.at += 3
        return True

    def _by_turns(self) -> bool:
        """Read `alternate 1 sc and 1 inc around`: one after the other, to the end."""
        if self._text() not in ("alternate", "alternating") or self._kind(1) not in ("number", "stitch"):
            return False
        stop = self.at + 1
        while kind(self.items, stop) not in ("", ".", ";", "group", "around", "=", "join", "*", "rep"):
            stop += 1
        inner = type(self)(self.items[self.at + 1 : stop], top=False, marks=self.marks, figures=self.figures)
        body = inner.read().steps
        if len(body) < 2 or not all(isinstance(step, Work) and step.where.at is At.NEXT for step in body):
            return False
        while kind(self.items, stop) == "around":
            stop += 1
        start, self.at = self.at, stop
        self._add(Repeat(body, Times(Count.TO_END, span=self._span(start)), self._span(start), mark=""))
        return True

    def _do_this(self) -> bool:
        """Read `Do this 6 times in total` after the steps that are meant."""
        if self._kind() != "work" or self._text(1) not in ("this", "that", "these"):
            return False
        at = self.at + 2 + (self._kind(2) in ("st", "round"))
        read = read_times(self.items, at)
        if read is None or not self._made_something() or self.open_star is not None:
            return False
        self._flush()
        start = self._first_work()
        said = replace(read.times, count=Count.TOTAL) if read.times.count is Count.EITHER else read.times
        self.at = read.end
        self._wrap(start, said, self.items[at].span)
        return True

    def _bare_figure(self) -> bool:
        """Read a figure alone between commas as so many single crochet."""
        figure = figure_at(self.items, self.at)
        if self._kind(1) == "-" and not self.items[self.at + 1].blank and self._kind(2) == "stitch":
            return False  # `5-dc bobble`
        alone = {"", ",", ";", "*", "-"}
        in_ring = self._kind(1) == "into" and self._kind(2) == "ring"
        if (
            figure is None
            or self._kind(-1) not in alone
            or not (in_ring or self._kind(1) in (alone | {"group", "inc"}))
        ):
            return False
        span = self.items[self.at].span
        self.at += 3 if in_ring else 1
        where = Where(At.RING, span=span) if in_ring else Where(At.NEXT, figure, span=span)
        self._add(Work(Make("sc"), figure if in_ring else Figure((1,), span), where, span))
        return True

    def _in_each(self) -> bool:
        """Read `two in every stitch`, `then 2 in the next`: so many of the stitch in hand in each, or in the next."""
        figure = figure_at(self.items, self.at)
        if figure is None or self._kind(1) != "into":
            return False
        placed = self._the_one_after() or (
            read_place(self.items, self.at + 1) if self._kind(2) in ("each", "next") else None
        )
        if placed is None or placed.where.at not in (At.EACH, At.NEXT):
            return False
        if placed.where.at is At.NEXT and (placed.where.target != Target() or not self._in_hand()):
            return False
        start, make = self.at, self._in_hand()
        self.at = placed.end
        self._add(Work(make or Make("st"), figure, placed.where, self._span(start)))
        return True

    def _in_hand(self) -> Make | None:
        """Return the plain stitch worked last, None where it was no such stitch."""
        last = self.steps[-1] if self.steps else None
        if not isinstance(last, Work) or last.make.kind == "slst":
            return None
        return last.make if last.make.uses == last.make.makes == 1 else None

    def _the_one_after(self) -> Placed | None:
        """Read `in the one after that`: the next stitch."""
        if self._text(2) != "one" or self._text(3) != "after":
            return None
        stop = self.at + (5 if self._text(4) in ("that", "it") else 4)
        span = Span(self.items[self.at + 1].span.start, self.items[stop - 1].span.end)
        return Placed(Where(At.NEXT, Figure((1,), span), span=span), stop)

    def _seam(self) -> bool:
        """Pass over `sl st the short ends together`, `sc the side seams`: pieces are joined, nothing is worked on."""
        stop = self.at + 1
        while kind(self.items, stop) not in ("", ".", ";", "group", "number", "*", "rep"):
            stop += 1
        words = {text_at(self.items, index) for index in range(self.at + 1, stop)}
        together = words & _EDGES and words & _TOGETHER
        if not (together or words & _SEAMS) or kind(self.items, stop) not in ("", ".", ";"):
            return False
        start, self.at = self.at, stop
        self._add(Remark(self._span(start)))
        return True

    def _group(self) -> bool:
        group = self.items[self.at]
        assert isinstance(group, Group)
        match role(self.items, self.at):
            case Role.NUMBER:
                return self._count(group) if self.knit and self.top and self._complete() else self._stitch()
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
                inner = StepReader(group.items, top=False, marks=self.marks, figures=self.figures, knit=self.knit)
                inner.steps, inner.open_star, inner.body = self.steps, self.open_star, self.body
                inner.body_end, inner.cut = self.body_end, self.cut
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
        last = self.steps[-1] if self.steps else None
        along = isinstance(last, Work) and last.where == Where(At.ROW_ENDS, span=last.where.span)
        one = isinstance(last, Work) and len(claims) == 1 and last.times.values == (1,)
        if isinstance(last, Work) and along and one and self._later_work(self.at + 1):
            self.steps[-1] = replace(last, times=claims[0].figure)  # `sc in the end of each row (29 sc); ..`
            self.at += 1
            return True
        if self._later_work(self.at + 1) and not self.top:
            self.steps.append(Remark(group.span))
        else:
            self.claims.extend(claims)
        self.at += 1
        if self.top and self._made_something() and self._kind() in ("word", "noise") and not self._marks_follow():
            # what is said after the count is talk, whatever stitches it names
            if talk := self.items[self.at :]:
                self.steps.append(Remark(span_of(talk)))
            self.at = len(self.items)
        return True

    def _marks_follow(self) -> bool:
        return any(item.kind in ("*", "rep", "group", "join", "turn", "fasten") for item in self.items[self.at :])

    def _later_work(self, index: int) -> bool:
        return any(word.kind == "stitch" for word in flat(self.items[index:]))

    def _counts_as(self, group: Group) -> bool:
        """Apply `(counts as 1st dc)` to the chain before it."""
        self._flush()
        self._apply_counts(group.items, says_not=counts_not(group))
        self.at += 1
        last = self.steps[-1] if self.steps else None
        if isinstance(last, Work) and last.where.at is At.FROM_HOOK:
            self._and_places(last.make, None, self.at - 1)  # `(counts as dc) and in each ch across`
        return True


def read_steps(
    items: Sequence[Item],
    loose: Sequence[LooseMark] = (),
    marks: frozenset[str] = frozenset({"*"}),
    *,
    habit: bool = False,
    directed: bool = False,
    figures: bool = False,
    knit: bool = False,
    before: Sequence[Step] = (),
    parts: Mapping[Part, tuple[Step, ...]] | None = None,
) -> Steps:
    """Read the steps of a round from its words and brackets.

    `marks` are the signs that serve as stars in it; `habit` is True where the draft closes its rounds with a count that
    is a sentence of its own (`... 5 times. 36 sc.`), `directed` where they follow a `rep rnd 2` that does all the work,
    `figures` where bare figures stand for single crochet, `knit` where the piece is knitted. `before` are the steps of
    the round before it, `parts` those of stretches of earlier rounds that it may refer to.
    """
    if not knit and (filet := read_filet(items)) is not None:
        squares, claims = filet
        return Steps(squares, claims, loose=tuple(loose))
    reader = StepReader(items, top=True, habit=habit, directed=directed, marks=marks, figures=figures, knit=knit)
    reader.before, reader.parts = between_ends(before), parts or {}
    read = reader.read()
    return replace(read, loose=(*loose, *read.loose))
