"""Holding: stitches put on hold and taken up again, parts worked by themselves while the rest waits."""

from __future__ import annotations

from dataclasses import replace

from ..figures import Figure
from ..pattern import Claim
from ..steps import At, Even, Leave, Make, Marker, Remark, Turn, Where, Work
from .charts import ChartReader
from .marks import flat, kind, text_at
from .places import NEEDLES
from .times import figure_at

_MOVES = {"place", "put", "slip", "sl", "slide", "leave", "leaving", "transfer", "move", "return", "set", "placing"}
_HOLDERS = {"holder", "holders", "waste", "scrap", "hold", "spare", "thread", "safety", "pin", "stitchholder"}
_BACK = {"held", "back", "return", "from"}
_JOINS = {"rejoin", "join", "attach", "reattach", "rejoining"}
_ONLY = {"only", "first", "alone"}
_WHEREABOUTS = {"down", "up", "along", "across", "from", "at", "around", "round", "for", "over", "on", "in", "of"}
_NOT_ONCE = {"each", "every", "both", "all", "either"}
_TALK = frozenset(
    {"word", "noise", "into", "side", "ordinal", "first", "last", "next", "around", "over", "rest", "remain", ","}
    | {"post", "remark", "marker", "from", "turn", "row_ends", "otherside", "loops", "held", "evenly", "space"}
)
_MOST_TALK = 4  # words between the verb and the number of stitches that are moved


class HoldingReader(ChartReader):
    """Reads what is said of stitches that wait."""

    __slots__ = ()

    def _until_on_needle(self) -> bool:
        """Read `k until there are 81 sts on right-hand needle after cast off`: so many, with the one left by it."""
        index = self.at + 1
        last = self.steps[-1] if self.steps and not self.unknown else None
        if self._kind() != "until" or not isinstance(last, Work) or not last.bare or last.make.uses != 1:
            return False
        before = next((step for step in reversed(self.steps[:-1]) if not isinstance(step, Remark)), None)
        if before is not None and not (isinstance(before, Work) and before.make.kind == "bo"):
            return False
        while kind(self.items, index) in ("noise", "word", "remark") and index < self.at + 4:
            index += 1
        number = figure_at(self.items, index)
        end = index + 1
        while end < len(self.items) and kind(self.items, end) != "," and not self._ends_sentence(end):
            end += 1
        said = {word.text.removesuffix("-hand") for word in flat(self.items[index:end])}
        if number is None or not said & NEEDLES or not any(text.startswith("right") for text in said):
            return False
        start, self.at = self.at, end
        self.steps[-1] = replace(
            last, where=Where(At.NEXT, number), bare=False, span=last.span.cover(self._span(start))
        )
        return True

    def _these(self) -> bool:
        """Read `work back and forth over these 32 sts`: so many are there, and the rest waits."""
        if self._text() not in ("these", "those") or self._kind(1) == "" or not self.top:
            return False
        number = figure_at(self.items, self.at + 1)
        if number is None or self._kind(2) != "st":
            return False
        span = self._span(self.at, self.at + 3)
        self.at += 3
        if self._text() == "only":
            self.at += 1
        self._add(Leave(span))
        self.claims.append(Claim(number, "st", span))
        return True

    def _set_apart(self) -> bool:
        """Read `working on last set of 40 sts only`, `rejoin yarn to next 81 sts and`: the row begins on so many."""
        joins = self._text() in _JOINS or (self._kind() == "join" and not self.steps)
        if not joins and self._text() not in ("work", "working", "cont", "continue", "on"):
            return False
        index = self.at
        told: set[str] = set()
        while figure_at(self.items, index) is None and index < self.at + 10:
            if (
                index >= len(self.items)
                or kind(self.items, index) in (",", ";", "stitch")
                or self._ends_sentence(index)
            ):
                return False
            told.add(text_at(self.items, index))
            index += 1
        number = figure_at(self.items, index)
        stop = index + 1
        while kind(self.items, stop) in ("word", "rest", "remain") and stop < index + 4:
            told.add(text_at(self.items, stop))
            stop += 1
        if (
            number is None
            or kind(self.items, stop) != "st"
            or not told & ({"set", "group"} | (_JOINS if joins else set()))
        ):
            return False
        stop += 1
        while text_at(self.items, stop) in _ONLY or kind(self.items, stop) in ("noise", "first"):
            stop += 1
        if (
            not joins
            and kind(self.items, stop) not in (",", ".", ":", "")
            and text_at(self.items, stop - 1) not in _ONLY
        ):
            return False
        start, self.at = self.at, stop
        if any(not isinstance(step, Remark | Leave) for step in self.steps):
            return self._add(Remark(self._span(start))) is None
        span = self._span(start)
        self._add(Work(Make("held", 0, 1), Figure((1,), span), Where(At.NEXT, number), span))
        return True

    def _more_of_parts(self) -> bool:
        """Read `52 sts of left sleeve` after `knit across 76 sts of back,`: as many more of the same."""
        last = next((step for step in reversed(self.steps) if not isinstance(step, Remark | Marker)), None)
        plain = isinstance(last, Work) and last.where.at is At.NEXT and last.make.uses == last.make.makes == 1
        number = figure_at(self.items, self.at)
        before = self._kind(-1) == "," or self._text(-1) in ("and", "then")
        if not plain or not before or number is None or self._kind(1) != "st" or self._text(2) not in ("of", "from"):
            return False
        assert isinstance(last, Work)
        start = self.at
        self.at += 3
        while self._kind() in ("noise", "word", "first", "last", "ordinal") and self._text() not in ("and", "then"):
            self.at += 1
        self._add(replace(last, where=Where(At.NEXT, number), span=self._span(start)))
        return True

    def _more_picked_up(self) -> bool:
        """Read `10 sts from holder and 12 sts up right front` behind stitches picked up: as many more of them."""
        last = next((step for step in reversed(self.steps) if not isinstance(step, Remark | Marker | Turn)), None)
        number = figure_at(self.items, self.at)
        if not isinstance(last, Work) or last.make.kind != "pu" or number is None or self._kind(1) != "st":
            return False
        before = self._kind(-1) == "," or self._text(-1) in ("and", "then", "&", "plus")
        if not before or self._text(2) not in _WHEREABOUTS or any(item.kind not in _TALK for item in self.unknown):
            return False
        start = self.at
        end = self.at + 3
        while end < len(self.items) and kind(self.items, end) in _TALK and kind(self.items, end) != ",":
            if text_at(self.items, end) in _NOT_ONCE:
                return False
            if text_at(self.items, end) in ("and", "then", "&", "plus"):
                break
            end += 1
        self.at += 2
        self._add(replace(last, where=Where(At.NEXT, number), span=self._span(start)))
        return True

    def _over_gap(self) -> bool:
        """Read `over those cast off on previous row` behind stitches cast on; with no more said the row is worked."""
        made = [step for step in self.steps if not isinstance(step, Remark)]
        last = made[-1] if made else None
        if not isinstance(last, Work) or last.make.kind != "co" or self._text() not in ("over", "above"):
            return False
        if self._text(1) not in ("those", "the", "gap", "previous") or self.unknown:
            return False
        start = self.at
        while self.at < len(self.items) and self._kind() not in (",", ";", ".", "group", "=", "-"):
            self.at += 1
        span = self._span(start)
        self._add(Remark(span))
        if len(made) == 1 and self._kind() in ("", ".", "group", "=", "-"):
            self._add(Work(Make("st"), Figure((1,), span), Where(At.EACH, span=span), span))
        return True

    def _rest_waits(self) -> bool:
        """Read `remaining sts are held for instep`: they aren't worked."""
        index = self.at + (self._text() in ("leave", "leaving", "place", "placing", "keep"))
        while kind(self.items, index) == "noise":
            index += 1
        if kind(self.items, index) not in ("rest", "remain"):
            return False
        after = index + 1 + (figure_at(self.items, index + 1) is not None)
        if kind(self.items, after) != "st":
            return False
        end = index
        while end < len(self.items) and not self._ends_sentence(end):
            end += 1
        said = {word.text for word in flat(self.items[index:end])}
        waits = {"held", "wait", "waits", "waiting"}
        if not said & (waits if after > index + 1 else waits | _HOLDERS) or not self._made_something():
            return False
        start, self.at = self.at, end
        self._add(Leave(self._span(start)))
        return True

    def _from_holder(self) -> bool:
        """Read `k 17 sts on front holder`: what was on hold is worked, and nothing of the row below is used."""
        last = self.steps[-1] if self.steps and not self.unknown else None
        leads = self._kind() in ("into", "from") or self._text().startswith("from ")
        if not leads or not isinstance(last, Work) or last.where.at is not At.NEXT:
            return False
        end = self.at + (self._kind() == "loops")  # `from back neck holder`
        while end < len(self.items) and kind(self.items, end) in (
            "into",
            "from",
            "noise",
            "word",
            "first",
            "last",
            "ordinal",
        ):
            end += 1
        said = {text_at(self.items, n) for n in range(self.at, end)}
        if not said & (_HOLDERS | {"held", "leg"}):
            return False
        self.at = end
        if last.make.uses == last.make.makes == 1:
            self.steps[-1] = replace(last, make=replace(last.make, uses=0))
        return True

    def _will_be(self) -> bool:
        """Read `the heel flap will be worked back and forth over these 32 sts`: only the count is told now."""
        if self._kind() == "stitch" or not (self.at == 0 or self._ends_sentence(self.at - 1)):
            return False
        if not any(text_at(self.items, n) == "will" for n in range(self.at, min(self.at + 8, len(self.items)))):
            return False
        if self._text() in ("you", "there"):
            return False
        start = self.at
        while self.at < len(self.items) and not self._ends_sentence(self.at) and self._text() != "these":
            self.at += 1
        self._add(Remark(self._span(start)))
        return True

    # ------------------------------------------------------------ stitches put on hold, and back on the needle

    def _held(self) -> bool:
        """Read `place next 52 sts on a holder`, `transfer 52 held sts to needle`, `slip 7 sts from needle 2`."""
        if self._text() not in _MOVES:
            return False
        index = self.at + 1
        while kind(self.items, index) in ("noise", "next", "first", "last", "rest", "remain", "word", "each"):
            if index > self.at + _MOST_TALK:
                return False
            index += 1
        number = figure_at(self.items, index)
        stop = index + 1
        while kind(self.items, stop) in ("word", "rest", "remain") and stop < index + 4:
            stop += 1
        if number is None or kind(self.items, stop) != "st":
            return False
        end = stop
        while end < len(self.items) and kind(self.items, end) not in (",", ".", ";", "-", "=", "group"):
            if text_at(self.items, end) in ("and", "then") and kind(self.items, end + 1) in ("stitch", "work"):
                break
            end += 1
        said = {word.text for word in flat(self.items[self.at : end])}
        on_hold = bool(said & _HOLDERS)
        to_needle = any(word.startswith(("needle", "dpn", "ndl")) for word in said)
        if "spare" in said and not said & _BACK:
            to_needle = False  # `leave rem 55 sts on a spare needle`
        if not on_hold and not to_needle:
            return False
        start, lead = self.at, {kind(self.items, n) for n in range(self.at + 1, index)}
        words = {text_at(self.items, n) for n in range(self.at + 1, index)}
        self.at = end
        span = self._span(start)
        if (
            to_needle
            and (on_hold or said & _BACK)
            and "first" not in lead
            and "next" not in lead
            and "last" not in lead
        ):
            self._add(Work(Make("held", 0, 1), Figure((1,), span), Where(At.NEXT, number), span))
        elif not on_hold:
            self._add(Remark(span))
        elif lead & {"rest", "remain"} or (words & {"these", "all", "those"} and not self._kept(number)):
            self._rest_held(number, whole=not lead & {"rest", "remain"})
        else:
            self._add(Work(Make("held", 1, 0), Figure((1,), span), Where(At.NEXT, number), span))
        return True

    def _kept(self, number: Figure) -> bool:
        """Tell whether so many stitches were just kept: `k to last 9 sts, place these 9 sts on a holder`."""
        last = next((step for step in reversed(self.steps) if not isinstance(step, Turn | Remark | Marker)), None)
        kept = last.where.leave if isinstance(last, Work) else None
        return kept is not None and kept.values == number.values

    def _rest_held(self, number: Figure, *, whole: bool) -> None:
        """Take `place remaining 26 sts on a holder`: a count of all that is left, or stitches that aren't worked."""
        self._flush()
        last = next((step for step in reversed(self.steps) if not isinstance(step, Turn | Remark)), None)
        if isinstance(last, Work) and not whole and last.where.at is At.NEXT and last.make.makes:
            self._add(Leave(number.span, number))
            return
        self._add(Even(number.span) if not self._made_something() else Remark(number.span))
        self.claims.append(Claim(number, "st", number.span))
