"""Needles: what is peculiar to stitches held on needles: markers among them, rows turned before their end."""

from __future__ import annotations

from collections.abc import Sequence

from ..steps import CENTRE, Even, Marker, Shaping, Step, Turn, Where
from ..workings import Deed, Item
from .fabric import Cursor, Fabric, Row, plain, stitches_of
from .hook import CannotWork, Hook, PlaceUnknown
from .shape import goes_on
from .spots import Segment, spot_of


class Needles(Hook):
    """Works markers, turns, and rows that a line holds besides its own."""

    __slots__ = ()

    def on_needles(self, step: Step, rest: Sequence[Step]) -> None:
        """Work a step that only knitting has; others take nothing."""
        match step:
            case Turn() if self.knit and goes_on(rest):
                self.turn_back()
            case Marker() if self.knit:
                self.marker(stays=step.stays)
            case Even():
                self.even(step)
            case Shaping():
                self.shape(step)
            case _:
                pass

    def place(self) -> int:
        """Return how many stitches of the row below are passed."""
        if self.cursor is None:
            return 0
        fabric = self.cursor.fabric
        return fabric.stitches - fabric.behind - self.cursor.left()

    def made_so_far(self) -> int:
        """Return how many stitches the row being made has."""
        return self.made_before + stitches_of(self.row.segments)

    def carry_marks(self, number: int) -> None:
        """Let the markers among the next stitches pass from the row below to the row being made."""
        marks = self.cursor.fabric.marks if self.cursor is not None else ()
        if self.mark_at >= len(marks):
            return
        place, made = self.place(), self.made_so_far()
        while self.mark_at < len(marks) and marks[self.mark_at] < place + number:
            self.marks.append(made + max(0, marks[self.mark_at] - place))
            self.mark_at += 1

    def marker(self, *, stays: bool) -> None:
        """Come to a marker: one that is here in the row below, or a new one."""
        marks = self.cursor.fabric.marks if self.cursor is not None else ()
        if self.mark_at < len(marks) and marks[self.mark_at] <= self.place():
            self.mark_at += 1
        if stays:
            self.marks.append(self.made_so_far())

    def has_marks(self, before: tuple[int, int]) -> bool:
        """Tell whether there are markers in the row below, or any were placed since a state."""
        return len(self.marks) > before[0] or (self.cursor is not None and bool(self.cursor.fabric.marks))

    def forget_marks(self, before: tuple[int, int]) -> None:
        """Go back to a state of the markers."""
        del self.marks[before[0] :]
        self.mark_at = before[1]

    def before_marker(self, nth: int) -> int:
        """Return how many stitches stand before the nth marker from here. Raises PlaceUnknown where there is none."""
        place = self.place()
        marks = self.cursor.fabric.marks if self.cursor is not None else ()
        if nth == CENTRE:
            return self._before_centre()
        ahead = [mark for mark in marks if mark > place]
        end = place + self.left()
        if marks and not self.flat and end > place and end not in ahead:
            # a round ends at the marker of its beginning, whether or not a draft speaks of it
            ahead.append(end)
        if nth < 1 or len(ahead) < nth:
            raise PlaceUnknown("the marker up to which it is worked was not found in the row below")
        return ahead[nth - 1] - place

    def _before_centre(self) -> int:
        """Return how many stitches stand before the one in the middle of the row. Raises PlaceUnknown past it."""
        fabric = self.cursor.fabric if self.cursor is not None else None
        middle = fabric.stitches // 2 - self.place() if fabric is not None and fabric.stitches % 2 else -1
        if middle < 0:
            raise PlaceUnknown("the middle of the row was not found in the row below")
        return middle

    def limit(self, where: Where) -> int:
        """Return the stitches up to the end, or up to the marker that stops it."""
        left = self.left()
        return self.before_marker(where.to_marker) if where.to_marker else left

    def turn_back(self) -> None:
        """Turn before the end of the row: back over what was just made, and over what an earlier turn left behind."""
        behind = self.cursor.left() if self.cursor is not None else 0
        ahead = self._finished(behind, turned=True)
        self.row, self.behind, self.made_before = Row(), behind, 0
        self.meet(ahead)

    def meet(self, below: Fabric | None) -> None:
        """Begin on a row; markers that a turn left behind stay there, at places less than nought."""
        self.cursor = Cursor(below) if below is not None else None
        self.marks = [mark for mark in below.marks if mark < 0] if below is not None else []
        self.mark_at = len(self.marks)

    def _finished(self, behind: int, *, turned: bool) -> Fabric:
        """Return the row made so far as the next one meets it, with the stitches that a turn leaves behind."""
        segments = self.row.done().segments
        made = sum(part.times * part.stitches for part in segments)
        if self.behind:
            segments = (*segments, Segment((spot_of("st"),), self.behind))
        total = made + self.behind
        if self.cursor is not None:
            self.carry_marks(self.cursor.left() + 1)
        if self.flat or turned:
            marks = {made - mark for mark in self.marks}
        else:
            marks = {mark if mark >= 0 else total + mark for mark in self.marks}
        kept = {max(-behind, min(mark, total)) for mark in marks}
        return Fabric(segments, behind=behind, marks=tuple(sorted(kept)))

    def close_row(self) -> None:
        """End the row being made, where a line goes on with rows of their own."""
        if self.row.segments:
            self.short_or_left()
            ahead = self._finished(0, turned=False)
            self.row, self.behind, self.made_before = Row(), 0, 0
            self.meet(ahead)
        if self.cursor is None:
            raise CannotWork("the row below is not known")
        self.cursor = Cursor(self.cursor.fabric.whole())
        self.closed = True

    def short_or_left(self) -> None:
        """Note the stitches that a row in mid-line doesn't come to."""
        if self.cursor is not None and not self.left_alone:
            self.left_before += self.cursor.left()

    def even(self, step: Even) -> None:
        """Work plain rows."""
        self.close_row()
        assert self.cursor is not None
        count = self.cursor.fabric.stitches
        self.items.append(Item(Deed.WORK, step.span, 1, count, count))

    def shape(self, step: Shaping) -> None:
        """Work rows that are shaped alike."""
        self.close_row()
        assert self.cursor is not None
        before = self.cursor.fabric.stitches
        each = self.number(step.number) * step.places
        if step.times is not None:
            after = before + step.change * each * self.number(step.times)
        else:
            to = self.number(step.to)
            if (to - before) * step.change < 0 or (step.places and not each):
                raise CannotWork("this shaping doesn't come to the count up to which it is worked", step.span)
            # where the count is not met, the last one before it
            after = before + step.change * each * (abs(to - before) // each) if step.places else to
        if after < 0:
            raise CannotWork("there are fewer stitches than this shaping takes away", step.span)
        self.items.append(Item(Deed.EVENLY, step.span, 1, before, after))
        marks = self.cursor.fabric.marks
        # markers are kept only where they stand at the ends
        kept = tuple(0 if mark == 0 else after for mark in marks if mark in (0, before))
        self.cursor = Cursor(Fabric(plain("st", after).segments, marks=kept))

    def end_row(self, *, turned: bool, wraps: bool) -> tuple[Fabric, int]:
        """End the round: the row it leaves, and the stitches left over though nothing says so."""
        over = 0
        if self.cursor is not None and not self.cursor.fabric.ring and not self.left_alone:
            over = self.cursor.left()
        if not self.row.segments and self.closed and self.cursor is not None:
            return self.cursor.fabric, self.left_before
        if wraps and over and self.below is not None and self.below.marks and self.made_so_far() == self.used:
            # a short row leaves every stitch and every marker where it was; in the round it may go back past its start
            return self.below, self.left_before
        if turned or not over:
            return self._finished(over, turned=turned), self.left_before
        # stitches that nothing is said of stay on the needle
        self.behind += over
        return self._finished(0, turned=False), self.left_before + over
