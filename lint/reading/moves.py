"""Moves: what passes over places, leads to them or ends a round: skips, joins, rings, turns, remarks, stated counts."""

from __future__ import annotations

from collections.abc import Sequence

from ..figures import Figure
from ..steps import (
    At,
    Chain,
    FastenOff,
    Leave,
    Make,
    Remark,
    Skip,
    Target,
    Turn,
    Unread,
    Where,
    Work,
)
from .claims import past_sized_space, past_turn, sentence_claim, trailing_claim
from .extents import is_of_measures
from .groups import past_group
from .marks import Item, flat, kind, text_at
from .placefirst import PlaceFirstReader
from .times import figure_at
from .turning import past_turning_chain
from .words import Word

_MIDDLE = {"center", "centre", "central", "middle"}
_AS_BEFORE = {"set", "established", "manner", "way", "before", "increasing", "decreasing", "shaping"}
MOST_BEFORE_WITH = 7  # words, from `join` to the stitch it is done with
_MEASURES = frozenset({"inches", "inch", "ins", "cm", "measures", "measure", "wide", "long", "length", "desired"})
_ENDS_FIGURE = frozenset({"", "group", ".", ",", "=", "|", "-"})
_JOINING = frozenset({"attach", "rejoin", "reattach"})


class MoveReader(PlaceFirstReader):
    """Reads moves."""

    __slots__ = ()

    def _turn(self) -> bool:
        self._add(Turn(self.items[self.at].span))
        self.at += 1
        return True

    def _fasten(self) -> bool:
        self._add(FastenOff(self.items[self.at].span))
        self.at += 1
        return True

    def _skip(self) -> bool:
        start = self.at
        index = self.at + 1
        rest = first = False
        while kind(self.items, index) in ("-", "noise", "next", "first", "over", "last", "rest") or (
            text_at(self.items, index) in _MIDDLE
        ):
            first = first or kind(self.items, index) == "first"
            rest = rest or kind(self.items, index) in ("last", "rest")
            index += 1
        number = figure_at(self.items, index)
        if (sized := past_sized_space(self.items, index)) is not None:
            # `miss next 2-ch sp`
            self.at = sized
            self._add(Skip(Figure((1,), self._span(start)), Target(space=True), self._span(start)))
            return True
        if number is not None:
            index += 1
            index += kind(self.items, index) == "unworked"
        elif kind(self.items, index) == "each":
            return False
        if kind(self.items, index) == "next":
            index += 1
        if kind(self.items, index) == "-":
            index += 1
        if kind(self.items, index) == "tch" and number is None:
            self.at = index + 1
            self._add(Leave(self._span(start), turning=True))
            return True
        target, index = _skip_target(self.items, index)
        if target.chain and text_at(self.items, index) in ("just", "made"):
            # `sk ch just made`: the beginning chain is no stitch
            self._apply_counts((), says_not=True)
            self.at = index + 1 + (text_at(self.items, index) == "just")
            self._add(Remark(self._span(start)))
            return True
        if target.chain and text_at(self.items, index) == "of" and (stop := past_turning_chain(self.items, index + 1)):
            index = stop  # `skip 2 ch of turning ch`
        behind = text_at(self.items, index) == "behind"
        if behind:
            index += 1
            if kind(self.items, index) in ("stitch", "noise"):
                index += 1
                if kind(self.items, index) == "stitch":
                    index += 1
        self.at = index
        span = self._span(start)
        if target == Target() and not rest and self.top:
            self.at = self._past_where_left(index)
        bridged = self.steps and isinstance(self.steps[-1], Chain) and not self.steps[-1].beginning
        if rest and not (bridged and number is not None):
            # `skip the other 9 sts`: nothing is worked into them, while `ch 14, skip last 14 sts` bridges them
            self._add(Leave(span, number))
            return True
        self._add(Skip(number or Figure((1,), span), target, span, behind, first))
        return True

    def _past_where_left(self, index: int) -> int:
        """Pass over `of Row 46`, `on last long row for underarm` after stitches that are skipped."""
        stop = index
        while kind(self.items, stop) not in ("", ",", ";", ".", "group", "*", "join", "remark"):
            what, text = kind(self.items, stop), text_at(self.items, stop)
            named = what == "number" and kind(self.items, stop - 1) == "round"
            if not (named or what in ("noise", "into", "from", "last", "first", "round", "word", "over")) or (
                stop == index and text not in ("of", "on", "from", "for")
            ):
                return index
            stop += 1
        return stop

    def _join(self) -> bool:
        start = self.at
        if self._joins_with_stitch():
            return True
        self.at += 1
        if self._joins_yarn():
            self.at = start
            return self._remark()
        self._finish_join(start)
        return True

    def _joins_with_stitch(self) -> bool:
        """Take `Join B with` for a remark before `sc in any ch-2 sp`: the round begins with that stitch."""
        if self._made_something():
            return False
        for index in range(self.at, min(self.at + MOST_BEFORE_WITH, len(self.items))):
            item = self.items[index]
            if isinstance(item, Word) and item.stitch is not None:
                told = item.stitch.kind in ("basic", "start") and item.stitch.id != "slst"
                joined = text_at(self.items, index - 1).endswith("with") or (
                    text_at(self.items, index - 2).endswith("with") and kind(self.items, index - 1) == "noise"
                )
                if not told or not joined or kind(self.items, index + 1) not in ("into", "between", "around", "loops"):
                    return False
                start, self.at = self.at, index
                self._add(Remark(self._span(start)))
                return True
            if item.kind in (",", ";", ".", "group", "number", "into"):
                return False
        return False

    def _joins_yarn(self) -> bool:
        return self._text() in ("yarn", "new", "color", "colour", "cc", "mc", "contrast") or (
            self._kind() == "noise" and self._text(1) in ("yarn", "new", "color", "colour", "cc", "mc", "contrast")
        )

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
        self._figure_in_ring()
        return True

    def _figure_in_ring(self) -> None:
        """Read `MR 6`: so many single crochet into the ring, as toys have it."""
        at = 1 if self._kind() in (",", "-", ":", "*") else 0
        figure = figure_at(self.items, self.at + at)
        if self._kind(at) != "number" or figure is None or self._kind(at + 1) not in _ENDS_FIGURE:
            return
        span = self.items[self.at + at].span
        self.at += at + 1
        self._add(Work(Make("sc"), figure, Where(At.RING, span=span), span))

    def _evenly_word(self) -> bool:
        self.at += 1
        return True

    def _leave(self) -> bool:
        """Read `leave last 2 sts unworked`, `leaving rem sts unworked`."""
        if self._leave_for_later():
            return True
        if self._leave_turning_chain() or self._work_not():
            return True
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

    def _leave_turning_chain(self) -> bool:
        """Read `leaving tch unworked`, `do not work in turning ch`."""
        index = self.at
        while kind(self.items, index) in ("noise", "work", "into", "word", "skip") and index < self.at + 6:
            index += 1
        words = {text_at(self.items, at) for at in range(self.at, index)}
        if kind(self.items, index) != "tch" or not words & {"not", "leave", "leaving", "don't", "without"}:
            return False
        start = self.at
        self.at = index + (2 if kind(self.items, index + 1) == "unworked" else 1)
        self._add(Leave(self._span(start), turning=True))
        return True

    def _work_not(self) -> bool:
        """Read `do not work across the last 4 sts`."""
        index = self.at
        while kind(self.items, index) in ("noise", "work", "into", "over", "around", "word") and index < self.at + 6:
            index += 1
        words = {text_at(self.items, at) for at in range(self.at, index)}
        number = figure_at(self.items, index + 1)
        if kind(self.items, index) != "last" or number is None or not words & {"not", "don't", "without"}:
            return False
        start = self.at
        self.at = index + 3 if kind(self.items, index + 2) in ("st", "stitch") else index + 2
        self._add(Leave(self._span(start), number))
        return True

    def _measured(self) -> bool:
        """Take a sentence after a whole row that only says how far it is worked, or that it is the pattern."""
        if self._kind(-1) not in (".", "turn", ";") or not self._complete():
            return False
        stop = self.at
        while stop < len(self.items) and kind(self.items, stop) not in (".", ";"):
            stop += 1
        words = self.items[self.at : stop]
        texts = {text_at(words, index) for index in range(len(words))}
        group = any(item.kind == "group" and not is_of_measures(words, n) for n, item in enumerate(words))
        told = group or any(item.kind in ("stitch", "*", "st") for item in words)
        measure = any(item.kind == "measure" for item in words) or texts & _MEASURES
        pattern = self._kind() == "rep" and texts & {"pattern", "pat", "patt"} and "round" in {w.kind for w in words}
        if told or not words or not (measure or pattern):
            return False
        self._add(Remark(self._span(self.at, stop)))
        self.at = stop
        return True

    def _leave_for_later(self) -> bool:
        """Read `leave last 10 sts for the nape`, `leaving the other 16 sts`."""
        if self._text() not in ("leave", "leaving"):
            return False
        index = self.at + 1
        rest = False
        while kind(self.items, index) in ("noise", "last", "rest", "next"):
            rest = rest or kind(self.items, index) in ("last", "rest")
            index += 1
        number = figure_at(self.items, index)
        if number is None or not rest or kind(self.items, index + 1) not in ("st", "stitch"):
            return False
        start = self.at
        self.at = index + 2
        self._add(Leave(self._span(start), number))
        index += 2
        while index < len(self.items) and kind(self.items, index) not in (".", ",", ";", "group", "*", "="):
            index += 1
        if index > self.at:
            told, self.at = self.at, index
            self._add(Remark(self._span(told)))
        return True

    def _remark(self) -> bool:
        """Take words that only tell how or with what, to the end of the clause or the next instruction."""
        start = self.at
        if self._text() in _JOINING and self._joins_with_stitch():
            return True
        if self._text() in ("note", "notes", "nb"):
            return self._note()
        self.at += 1
        while self.at < len(self.items):
            what = self._kind()
            if what in (",", ";", ".", "group", "*", "rep", "fasten", "turn") or what in self.marks:
                break
            if what == "work" and self.at > start + 1 and self._kind(1) not in (".", ",", ""):
                break
            if what == "ring" and not self.steps and text_at(self.items, start) in ("begin", "start"):
                break  # `begin with a magic ring`
            if self._begins_chain() or self._begins_stitch(start) or (self.knit and self._begins_knitting()):
                break
            self.at += 1
        words = {text_at(self.items, index) for index in range(start, self.at)}
        if text_at(self.items, start).startswith(("cont", "keep", "work")) and words & _AS_BEFORE:
            self._add(Unread(self._span(start), "what goes on as before is not worked out"))
        else:
            self._add(Remark(self._span(start)))
        return True

    def _begins_knitting(self) -> bool:
        """Tell whether `and knit every rnd` begins here, after needles or yarn were changed."""
        item = self.items[self.at]
        edge = isinstance(item, Word) and item.stitch is not None and item.stitch.id in ("co", "bo")
        if edge and self._kind(1) == "number" and self._kind(2) == "st":
            return True  # `using the backward loop method CO 1 st`
        plain = isinstance(item, Word) and item.stitch is not None and item.stitch.id in ("k", "p")
        return plain and self._text(-1) in ("and", "then") and self._kind(1) in ("each", "around", "until")

    def _note(self) -> bool:
        """Take a note within a round, to the end of its sentence: it says again what was worked."""
        start = self.at
        while self.at < len(self.items) and self._kind() != "." and not self._ends_sentence(self.at):
            self.at += 1
        self._add(Remark(self._span(start, max(self.at, start + 1))))
        self.at = max(self.at, start + 1)
        return True

    def _begins_chain(self) -> bool:
        item = self.items[self.at]
        chain = isinstance(item, Word) and item.stitch is not None and item.stitch.kind == "chain"
        after = self.at + (2 if self._kind(1) == "-" else 1)
        return (
            chain
            and figure_at(self.items, after) is not None
            and self._kind(-1) not in ("into", "noise", "last", "first", "same", "next", "each")
        )

    def _begins_stitch(self, start: int) -> bool:
        """Tell whether a stitch with a number begins here, and not as the place that a remark speaks of."""
        if self.at <= start + 1:
            return False
        before = self._kind(-1)
        if before in (
            "into",
            "next",
            "first",
            "last",
            "same",
            "each",
            "over",
            "from",
            "between",
            "noise",
            "round",
        ):
            return False
        if self._kind() == "number" and self._kind(1) == "stitch":
            return self._text(-1) not in ("col", "colour", "color", "colors", "hook", "size")
        return self._kind() == "stitch" and (
            self._kind(1) in ("number", "into", "around", "each") and before in (",", "word", ":", "loops")
        )

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
        # what is not spelled out, as the rows of a chart, may still be counted
        told = self.knit and self._kind(1) == "st" and self._ends_sentence(self.at - 1)
        if figure_at(self.items, self.at) is None or not (told or self._made_something()):
            return False
        if told and self._made_something() and (self._ends_sentence(self.at + 1) or self._kind(2) == "."):
            # a count in the middle of a line that goes on
            worked = any(word.kind in ("stitch", "work", "fabric") for word in flat(self.items[self.at + 2 :]))
            if worked:
                self._add(Remark(self._span(self.at, self.at + 2)))
                self.at += 2
                return True
        last = all(item.kind in (".", ";", "|") for item in self.items[self.at + 1 :]) and self._kind(-1) not in (
            "round",
            "from",
            "noise",
        )
        if self.knit and self._kind(-1) in ("word", "round"):
            last = False  # `from leg 1`
        stitches = self._kind(1) == "st" or last
        if self._kind(-1) in (",", "-") and self._whole_row() and self._kind(1) in ("stitch", "st"):
            # `in each ch across, 24 sc. Ch 1, turn.`
            stitches = stitches or past_turn(self.items, self.at + 2) == len(self.items)
        # `sts.` is one word with its full stop
        sentence = self._kind(-1) in (".", ";", "turn", "fasten") or self._text(-1).endswith(".")
        closing = (sentence or self._kind(-1) == "") and (self._complete() or self.habit)
        if stitches or sentence:
            one = sentence_claim(self.items, self.at)
            spaces_too = one is not None and any(claim.kind in ("space", "other") for claim in one[0][1:])
            if one and not (stitches or closing or spaces_too):
                # `... 5 times. 36 sc.`: a count, or one more instruction; the working sees which one fits
                self.closing = one[0][0]
                return False
            if one:
                claims, end = one
                self._flush()
                self.claims.extend(claims)
                self.at = end
                return True
        return False


def _skip_target(items: Sequence[Item], index: int) -> tuple[Target, int]:
    item = items[index] if index < len(items) else None
    if (found := past_group(items, index)) is not None:
        return Target(group=found[0], nth=-1), found[1]
    if isinstance(item, Word) and item.stitch is not None:
        if item.stitch.kind == "chain":
            stop = index + 1
            while kind(items, stop) in ("-", "number"):
                stop += 1
            if kind(items, stop) == "space":
                return Target(space=True), stop + 1
            if kind(items, index + 1) == "-" and stop == index + 3 and not items[index + 1].blank:
                return Target(space=True), stop  # `skip next ch-3`
            if kind(items, stop) == "st":
                stop += 1
            return Target(chain=True), index + 1 if kind(items, index + 1) != "st" else stop
        return Target(kinds=(item.stitch.id,)), index + 1
    if kind(items, index) == "st":
        link = items[index + 2] if index + 2 < len(items) else None
        of_chain = text_at(items, index + 1) == "of" and isinstance(link, Word) and link.stitch is not None
        return Target(), index + (3 if of_chain and link is not None and text_at(items, index + 2) == "ch" else 1)
    if kind(items, index) == "space":
        return Target(space=True), index + 1
    return Target(), index
