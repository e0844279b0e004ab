"""Pieced: what rows of garments say: yarn joined again to stitches that were left, where in a piece a row ends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..figures import Figure
from ..steps import (
    At,
    Evenly,
    Make,
    Rejoin,
    Remark,
    Repeat,
    Skip,
    Step,
    Target,
    Together,
    Turn,
    Unread,
    Where,
    Work,
)
from .makes import make_of
from .marks import Group, flat, kind, text_at
from .needles import NeedleReader
from .places import read_place
from .reader import Steps
from .roles import Role, role
from .times import figure_at
from .words import Word

_BY = {"inc": 1, "dec": -1}
_BEGINNINGS = {"beg", "beginning", "start", "beg."}
_MAKES = (Work, Repeat, Together, Evenly)
_GOES_OVER = ("into", "each", "next", "around", "until", "over")
_SEVERAL = {"every", "next", "foll", "following", "alt", "alternate", "rows", "rnds", "other"}
_ENDS = {"ending", "end", "ends", "finishing"}
_AGAIN = ("join", "rejoin", "re-join", "reattach", "attach", "re-attach")
_WAITING = {"free", "left", "held", "unworked"}
_STOPS = ("", ",", ";", ".", "group", "*", ":")
_ALONG = {"working", "work", "along", "through", "across", "over"}
_CHAINS = {"foundation", "thumb", "underarm", "beginning", "starting", "added"}


class PieceReader(NeedleReader):
    """Reads what only rows of crocheted pieces say."""

    __slots__ = ()

    def read(self) -> Steps:
        """Read the whole level; a first row that skips links goes into the next one from the hook."""
        found = super().read()
        if not self.top or self.knit:
            return found
        return replace(found, steps=_from_hook(found.steps, self.skipped_count))

    def _pieced(self) -> bool:
        """Read one such thing from here on."""
        return (
            self._rejoin()
            or self._starting_in()
            or self._more_or_fewer()
            or self._ends_at()
            or self._as_follows()
            or self._along_chain()
            or self._work_on()
        )

    def _edged(self) -> bool:
        """Read shaping at the edges: over several rows, or of a row whose other stitches are told as well."""
        if self._kind() == "noise" and self._shapes(self.at + 1):
            self.at += 1  # `then decrease ..`
            if self._edged():
                return True
            self.at -= 1
        if not (self._shapes(self.at) and self._at_edges()):
            return False
        told = any(isinstance(step, Work) and step.make.kind != "slst" for step in self.steps)
        later = any(
            kind(self.items, n) in ("stitch", "work") and kind(self.items, n + 1) in _GOES_OVER
            for n in range(self.at + 3, len(self.items))
        )
        if not (told or later):
            return self._shaping()
        number, stop = figure_at(self.items, self.at + 1), self._clause(self.at + 3)
        texts = {text_at(self.items, n) for n in range(self.at + 3, stop)}
        both = any(kind(self.items, n) == "each" for n in range(self.at + 3, stop)) or "both" in texts
        both = both or bool(texts & _BEGINNINGS and any(text.split()[:1] in (["end"], ["ends"]) for text in texts))
        if number is None or texts & _SEVERAL or any(kind(self.items, n) == "times" for n in range(self.at + 3, stop)):
            return self._shaping()
        more = text_at(self.items, self.at)[:3] == "inc"
        start, self.at = self.at, stop
        span = self._span(start)
        last = self.steps[-1] if self.steps else None
        if not both:
            # `dec 1 sc at neck edge`: a stitch like any other
            make = Make("inc", 1, 2) if more else Make("dec", 2, 1)
            self._add(Work(make, Figure((1,), span), Where(At.NEXT, number, span=span), span))
            return True
        if isinstance(last, Work) and last.where.at is At.EACH:
            self.steps.pop()
        if any(isinstance(step, _MAKES) for step in self.steps):
            self._add(Unread(span, "how its shaping and its stitches go together is not clear"))
            return True
        twice = tuple(2 * value if value is not None else None for value in number.values)
        self._add(Evenly(span, 1 if more else -1, Figure(twice, number.span)))
        self.edged = True
        return True

    def _clause(self, start: int) -> int:
        """Return the index after the last word of the clause that begins at an index."""
        stop = start
        while kind(self.items, stop) not in _STOPS:
            if kind(self.items, stop) == "-" and figure_at(self.items, stop + 1) is not None:
                break  # a count follows
            stop += 1
            if self._ends_sentence(stop - 1):
                break
        return stop

    def _rejoin(self) -> bool:
        """Read `join yarn in next st` after stitches skipped, `rejoin yarn to next unworked st`."""
        if self._kind() not in ("join", "remark") or self._text().split()[0] not in _AGAIN:
            return False
        stop = self._clause(self.at + 1)
        kinds = {kind(self.items, n) for n in range(self.at + 1, stop)}
        texts = {text_at(self.items, n) for n in range(self.at + 1, stop)}
        before = [step for step in self.steps if not isinstance(step, Remark)]
        passed = bool(before) and all(isinstance(step, Skip) for step in before)
        waits = bool(kinds & {"unworked", "rest", "remain"} or texts & _WAITING)
        if (before and not passed) or not (waits or (passed and kinds & {"next", "rest"})):
            return False
        stitch = next((n for n in range(self.at + 1, stop) if kind(self.items, n) == "stitch"), None)
        start, self.at = self.at, stop
        span = self._span(start)
        self._add(Rejoin(span))
        item = self.items[stitch] if stitch is not None else None
        make = make_of(item) if isinstance(item, Word) and text_at(self.items, (stitch or 1) - 1) == "with" else None
        if make is not None and make.kind not in ("slst", "ch"):
            one = Figure((1,), span)
            self._add(Work(make, one, Where(At.NEXT, one, span=span), span))
        return True

    def _more_or_fewer(self) -> bool:
        """Read `inc (0, dec) 1 st on last row`: more in one size, fewer in another; `dec 2 sts on last row`."""
        way = _BY.get(self._text()[:3])
        group = self.items[self.at + 1] if self.at + 1 < len(self.items) else None
        listed = isinstance(group, Group)
        at = self.at + 1 + listed
        number = figure_at(self.items, at)
        if way is None or number is None or self._kind(1 + listed + 1) != "st":
            return False
        by: list[int | None] = [way]
        if listed:
            words = [word.text for word in flat(group.items) if word.kind not in (",", "/", ";")]
            by += [_BY.get(word[:3], 0 if word in ("0", "-", "none") else None) for word in words]
            if len(by) < 2 or None in by or number.is_list:
                return False
        start, stop = self.at, at + 2
        while kind(self.items, stop) in ("into", "noise", "last", "round", "over", "around", "evenly"):
            stop += 1
        texts = [kind(self.items, n) for n in range(at + 2, stop)]
        if not listed and texts[-2:] != ["last", "round"]:
            return False  # `inc 1 st in last st`
        self.at = stop
        span = self._span(start)
        each = by if listed else [way] * len(number.values)
        many = [number.values[0]] * len(each) if listed else number.values
        values = tuple(
            one * value if one is not None and value is not None else None
            for one, value in zip(each, many, strict=True)
        )
        self._add(Evenly(span, 1, Figure(values, span)))
        return True

    def _ends_at(self) -> bool:
        """Read `ending at the cuff`, `ending at tip of mitten`: it only says where the row comes to an end."""
        if self._text().startswith(("end of", "the end of")) and self._kind(1) == "number" and self._kind(2) == ",":
            self.at += 2  # `at the end of row 5, ..`
            self._add(Remark(self._span(self.at - 2)))
            return True
        if self._text() not in _ENDS or self._text(1) not in ("at", "on"):
            return False
        stop = self._clause(self.at + 2)
        if any(kind(self.items, n) in ("stitch", "number", "*", "rep") for n in range(self.at, stop)):
            return False
        start, self.at = self.at, stop
        self._add(Remark(self._span(start)))
        return True

    def _as_follows(self) -> bool:
        """Read `as follows: pull up a loop in each of the next 2 sts ..;` after a decrease: how it is made."""
        last = self.steps[-1] if self.steps else None
        shapes = isinstance(last, Work) and last.make.uses != last.make.makes
        if self._text() != "follows" or self._kind(1) != ":" or not shapes:
            return False
        stop = self.at + 2
        while kind(self.items, stop) not in ("", ";", ".", "group"):
            stop += 1
        start, self.at = self.at, stop
        self._add(Remark(self._span(start)))
        return True

    def _along_chain(self) -> bool:
        """Read `(working through foundation chain of thumb)`: what comes next goes into that chain."""
        item = self.items[self.at]
        if isinstance(item, Group):
            words, stop = list(flat(item.items)), self.at + 1
            if role(self.items, self.at) is not Role.REMARK:
                return False
        else:
            stop = self._clause(self.at + 1) if self._kind() == "work" else self.at
            words = [word for word in self.items[self.at : stop] if isinstance(word, Word)]
        texts = {word.text for word in words}
        chain = any(word.stitch is not None and word.stitch.kind == "chain" for word in words)
        if not (chain and words[0].text in _ALONG and texts & _CHAINS) or texts & {"side", "opposite", "other"}:
            return False
        if any(word.kind in ("number", "otherside") for word in words):
            return False
        start, self.at = self.at, stop
        self._add(Remark(self._span(start)))
        self.beyond = True
        return True

    def _work_on(self) -> bool:
        """Read `work to end`, `work across 20 sts`, `work to last 4 sts`: in whatever stitch the piece is worked."""
        if self._kind() != "work" or self._text() not in ("work", "working"):
            return False
        if self._all_in_one():
            return True
        placed = read_place(self.items, self.at + 1)
        if placed is None or placed.where.target != Target() or placed.where.at not in (At.EACH, At.NEXT):
            return False
        if self._kind(1) not in ("around", "over", "until", "into") or kind(self.items, placed.end) == "stitch":
            return False
        if text_at(self.items, placed.end) in ("as", "in", "like", "same", "following"):
            return False  # `work across as before`
        if placed.where.at is At.NEXT and self._kind(1) == "into":
            return False  # `work in next st`: a stitch is named after it
        if placed.where.number is not None and kind(self.items, placed.end - 1) != "st":
            return False
        start, self.at = self.at, placed.end
        span = self._span(start)
        self._add(Work(Make("st"), Figure((1,), span), placed.where, span))
        return True

    def _all_in_one(self) -> bool:
        """Read `work in hdc, inc 1 st at each end`: a row of one plain stitch, before what is different in it."""
        item = self.items[self.at + 2] if self.at + 2 < len(self.items) else None
        plain = isinstance(item, Word) and item.stitch is not None and item.stitch.kind == "basic"
        make = make_of(item) if isinstance(item, Word) and plain else None
        stop = self.at + 4 if self._kind(3) == "around" else self.at + 3
        ends = kind(self.items, stop) in (",", ";")
        if make is None or self._kind(1) != "into" or not ends or self._made_something():
            return False
        while kind(self.items, stop) in (",", ";", "noise"):
            stop += 1
        if not self._shapes(stop):
            return False
        start, self.at = self.at, stop
        span = self._span(start)
        self._add(Work(make, Figure((1,), span), Where(At.EACH, span=span), span))
        return True

    def _add(self, step: Step) -> None:
        if self.edged and isinstance(step, Work):
            self.edged = False
            if step.where.at is At.EACH and step.where.leave is None and step.make.uses == step.make.makes:
                step = Remark(step.span)  # the row whose ends were told before
        if self.beyond and isinstance(step, Work):
            self.beyond = False
            if step.where.at is At.NEXT and step.where.number is not None:
                step = replace(step, where=replace(step.where, at=At.BEHIND))
        super()._add(step)


def _from_hook(steps: Sequence[Step], counted: bool | None) -> tuple[Step, ...]:
    """Take `skip 3 ch, dc in each ch` for what it is: a stitch in the 4th chain from the hook, and in each after it."""
    told = [n for n, step in enumerate(steps) if not isinstance(step, Remark | Turn)]
    if len(told) < 2:
        return tuple(steps)
    skip, work = steps[told[0]], steps[told[1]]
    if not (isinstance(skip, Skip) and skip.target.chain and isinstance(work, Work) and work.where.target.chain):
        return tuple(steps)
    where = work.where
    if where.at not in (At.NEXT, At.EACH) or skip.number.is_list or where.nth is not None or where.last:
        return tuple(steps)
    nth = Figure(((skip.number.values[0] or 0) + 1,), skip.span)
    first = replace(work, where=Where(At.FROM_HOOK, nth, span=where.span), skipped_count=counted, ambiguous=False)
    rest: tuple[Step, ...] = (replace(work, span=work.span),)
    if where.at is At.NEXT:
        values = where.number.values if where.number else (1,)
        fewer = tuple(value - 1 if value else value for value in values)
        number = replace(where.number, values=fewer) if where.number else None
        rest = (replace(work, where=replace(where, number=number)),) if any(fewer) and number else ()
    return (*steps[: told[0]], first, *rest, *steps[told[1] + 1 :])
