"""Places said first: `In magic ring, 6 sc`, `in each loop work (sc, 3 dc, sc)`, `along the other side: 7 sc`."""

from __future__ import annotations

from dataclasses import replace

from ..figures import Figure
from ..steps import At, Chain, Count, OtherSide, Repeat, Ring, Step, Together, Where, Work
from .marks import Group, kind
from .places import Placed, read_place
from .roles import Role, role
from .stitches import StitchReader
from .times import read_times
from .together import in_one, list_end
from .words import Word

_STARTING = frozenset({"starting", "start", "beginning", "begin", "beg"})
_STARTING_HOW = frozenset({"in", "into", "in the", "into the", "from", "with", "at"})
_FAR = 12  # words
LEAST_LISTED = 3  # words of a list: two stitches and what stands between


class PlaceFirstReader(StitchReader):
    """Reads places that are said before what goes into them."""

    __slots__ = ()

    def _other_side(self) -> bool:
        index = self.at
        stop = index
        while stop < len(self.items) and stop - index < 7:
            if kind(self.items, stop) == "otherside":
                start = self.at
                self.at = stop + 1
                while (
                    self._kind() in ("noise",)
                    or self._text() in ("chain", "foundation", "ch")
                    or (
                        self._kind() == "stitch" and self._kind(-1) == "noise" and self._kind(1) in (",", ".", ":", ";")
                    )
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
        if placed is None or (self._unknown_before() and placed.where.at in (At.NEXT, At.EACH)):
            return False  # `BS in next st`: what is worked there stands before it, and isn't known
        index = placed.end
        while kind(self.items, index) in (",", ":", "work", "noise"):
            index += 1
        if placed.where.at is At.RING:
            self.at = index
            if not any(isinstance(step, Chain | Ring) for step in self.steps):
                self._add(Ring(self._span(start, placed.end)))
            self.in_ring = True
            return True
        if self._list_in_place(start, index, placed):
            return True
        if kind(self.items, index) == "group" and self._group_in_place(start, index, placed):
            return True
        if kind(self.items, index) == "group" or kind(self.items, index) in ("number", "stitch"):
            return self._placed_first(start, index, placed)
        return False

    def _unknown_before(self) -> bool:
        return bool(self.unknown) and self.unknown[-1].kind == "word"

    def _each_first(self) -> bool:
        """Read `each stitch 1 sc`: so many in every one."""
        placed = None if self.unknown else read_place(self.items, self.at)
        if placed is None or placed.where.at is not At.EACH or kind(self.items, placed.end) != "number":
            return False
        return self._placed_first(self.at, placed.end, placed)

    def _group_in_place(self, start: int, index: int, placed: Placed) -> bool:
        """Read `in each loop work (sc, 3 dc, sc)`, `in next sp: (dc, ch 1) 4 times`: the bracket goes there."""
        group = self.items[index]
        if not isinstance(group, Group) or role(self.items, index) not in (Role.STEPS, Role.REPEAT):
            return False
        if placed.where.at not in (At.NEXT, At.EACH, At.SAME):
            return False
        read = read_times(self.items, index + 1)
        if read is not None and (read.times.number is None or read.times.count is not Count.TOTAL):
            return False
        inner = type(self)(group.items, top=False, figures=self.figures).read().steps
        if not inner or not all(isinstance(step, Work | Chain) for step in inner):
            return False
        steps: tuple[Step, ...] = in_one(inner)
        self.at = index + 1
        if read is not None:
            steps = (Repeat(steps, read.times, self._span(start), group.mark),)
            self.at = read.end
        self._add(Together(steps, placed.where, self._span(start)))
        return True

    def _list_in_place(self, start: int, index: int, placed: Placed) -> bool:
        """Read `in next sc make dc, ch 1 and dc`: all in that one place."""
        stop = list_end(self.items, index)
        if stop - index < LEAST_LISTED or placed.where.at not in (At.NEXT, At.EACH, At.SAME):
            return False
        inner = type(self)(self.items[index:stop], top=False, figures=self.figures).read().steps
        if len(inner) < 2 or not all(isinstance(step, Work | Chain) for step in inner):
            return False
        self.at = stop
        self._add(Together(in_one(inner), placed.where, self._span(start)))
        return True

    def _starting_in(self) -> bool:
        """Read `starting in 2nd ch from hook, sc in each ch across`, `beginning with 3rd ch from hook, hdc 10`."""
        how = self.items[self.at + 1] if self.at + 1 < len(self.items) else None
        if self._text() not in _STARTING or not isinstance(how, Word) or how.text not in _STARTING_HOW:
            return False
        placed = read_place([how._replace(text="in", kind="into"), *self.items[self.at + 2 : self.at + _FAR]], 0)
        link = placed is not None and placed.where.target.chain and placed.where.nth is not None
        if placed is None or not (placed.where.at is At.FROM_HOOK or link):
            return False
        number = placed.where.number if placed.where.at is At.FROM_HOOK else Figure((placed.where.nth,), how.span)
        begun = replace(placed, where=Where(At.FROM_HOOK, number, span=placed.where.span))
        start = self.at
        self.at += 1 + placed.end
        while self._kind() in (",", ":", "work", "noise"):
            self.at += 1
        self._flush()
        before = len(self.steps)
        if not self._stitch():
            self.at = start
            return False
        step = self.steps[before] if before < len(self.steps) else None
        if isinstance(step, Work):
            self.steps[before : before + 1] = _begun_in(step, begun)
        return True

    def _placed_first(self, start: int, index: int, placed: Placed) -> bool:
        self._flush()
        self.at = index
        before = len(self.steps)
        if not self._stitch():
            self.at = start
            return False
        step = self.steps[before] if before < len(self.steps) else None
        if isinstance(step, Work) and placed.where.at is At.FROM_HOOK and not step.bare:
            self.steps[before : before + 1] = _begun_in(step, placed)
            return True
        if isinstance(step, Work) and step.bare and len(self.steps) == before + 1:
            times = step.where.number or Figure((1,), step.span)
            self.steps[before] = Work(step.make, times, placed.where, self._span(start))
            return True
        return True


def _begun_in(step: Work, placed: Placed) -> list[Step]:
    """Return `starting in 2nd ch from hook, sc in each ch` as a stitch in that chain, and those after it."""
    first = replace(step, where=placed.where, bare=False, ambiguous=False)
    where = step.where
    if where.at is At.EACH:
        return [first, step]
    if where.at is not At.NEXT or where.number is None or where.last or where.nth is not None:
        return [step]
    fewer = tuple(value - 1 if value else value for value in where.number.values)
    rest = replace(where, number=replace(where.number, values=fewer))
    return [first, replace(step, where=rest, bare=False)] if any(fewer) else [first]
