"""Spacing: the spaces of the row below, gone into all along it, or up to which stitches are worked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..steps import ANY_GROUP, At, Step, Target, Where
from .grouping import groups_of
from .hook import CannotWork
from .shape import into_spaces
from .starting import Starting


class Spacing(Starting):
    """Finds the spaces that a step means."""

    __slots__ = ()

    def resolved(self, where: Where) -> Where:
        """Take a space, on a row that has none but has groups of stitches in one place, as the gap between groups."""
        target = where.target
        fabric = self.cursor.fabric if self.cursor is not None else None
        beside = target.group or target.also_spaces or target.corner
        if where.at not in (At.NEXT, At.EACH) or not target.space or beside:
            return where
        if fabric is None or fabric.ring or fabric.spaces or target.size is not None or not groups_of(fabric):
            return where
        return replace(where, target=Target(group=ANY_GROUP))

    def all_spaces(self, target: Target, rest: Sequence[Step]) -> int:
        """Go into every space up to the end, but for the stitches that `rest` needs; return how many they are.

        `sc in each sc and 8 sc in each ch-8 sp`: the stitches said first have passed the spaces, which are meant all
        the same; those of another length are left for another step where the row has several.
        """
        left = self.left(spaces=True)
        size = target.size
        if target.corner and self.cursor is not None:
            if not self.cursor.fabric.spaces:
                raise CannotWork("where the corners are is not known")
            size = size or max(self.passed or self.cursor.spaces_ahead(), default=None)
        if self.passed:
            number = self.passed.pop(size, None) if size is not None else None
            if number is None:
                number, self.passed = sum(self.passed.values()), {}
        else:
            number = left
            ahead = self.cursor.spaces_ahead() if self.cursor is not None and size is not None else {}
            if len(ahead) > 1 and size in ahead:
                number = ahead[size] - (left < sum(ahead.values()))
        self.take(left, spaces=True)
        if number and self.cursor is not None:
            self.cursor.take(max(0, self.cursor.left() - self.kept(rest)))
        return number

    def to_space(self) -> int:
        """Return how many stitches stand before the next space. Raises CannotWork where none is left."""
        if self.cursor is None or not self.left(spaces=True):
            raise CannotWork("the space up to which it is worked was not found in the row below")
        ahead = self.cursor.copy()
        before = ahead.left()
        ahead.take_spaces(1)
        return before - ahead.left() - (1 if self.base and not self.in_space else 0)

    def to_other_space(self, target: Target) -> tuple[int, int]:
        """Return how many stitches and spaces stand before the next space that is not of those meant, as a corner.

        Where their size isn't said it is the longest space. Raises CannotWork where none is left.
        """
        assert self.cursor is not None
        longest = max(self.cursor.fabric.space_sizes(), default=0)
        stitches, spaces = -int(self.base and not self.in_space), 0
        for spot in self.cursor.ahead():
            if spot.is_space and (spot.size == longest if target.size in (None, longest) else spot.size != target.size):
                return stitches, spaces
            stitches, spaces = stitches + (not spot.is_space), spaces + spot.is_space
        raise CannotWork("the space up to which it is worked was not found in the row below")

    def stops_at_space(self, where: Where, rest: Sequence[Step]) -> bool:
        """Tell whether `dc in each dc` ends at the next space, which the step after it goes into."""
        if self.cursor is None or not self.cursor.fabric.spaces or where.leave is not None or where.target.also_spaces:
            return False
        goes = next(into_spaces(rest, each=False), None)
        if goes is None and self.looping:
            goes = next(into_spaces(self.loop, each=False), None)
        return goes is True
