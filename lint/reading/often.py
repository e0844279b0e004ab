"""Often: numbers of times that are said after a stitch in its place."""

from __future__ import annotations

from dataclasses import replace

from ..steps import Repeat, Skip, Times, Work
from .marks import kind
from .roles import Role, role
from .spreads import SpreadReader
from .times import read_times

_CLOSERS = ("", ".", ",", ";", "group", "=", "-", "join", "turn", "|")  # what a number of times ends before


class OftenReader(SpreadReader):
    """Reads how often stitches are worked."""

    __slots__ = ()

    def _times_in_place(self, times: Times) -> None:
        """Apply `dc 5 times in next ch`: so many in that one place."""
        step = self.steps[-1]
        if isinstance(step, Work) and times.number is not None:
            self.steps[-1] = replace(step, times=times.number)

    def _more_times(self) -> None:
        """Apply `sc2tog over next 2 sts 3 times` and `2 sc in next st, x 6`."""
        if self._times_after_sign():
            return
        if self._kind() in ("number", "times", "often", "group"):
            if self._kind() == "group" and role(self.items, self.at) is not Role.TIMES:
                return
            read = read_times(self.items, self.at)
            if read and read.times.number is not None and isinstance(self.steps[-1], Work):
                self._repeat_last(read.times)
                self.at = read.end

    def _times_after_sign(self) -> bool:
        """Apply `sc 1, inc 1, *6`, `1 sc, 2 sc in next: x6`, `...; 6 times` to all that was said, if it ends there."""
        if self._kind() not in (",", ";", ":", "-") or not self.top or self.open_star is not None:
            return False
        read = read_times(self.items, self.at + 1)
        if read is None or read.times.number is None or kind(self.items, read.end) not in _CLOSERS:
            return False
        if kind(self.items, read.end) == "group" and role(self.items, read.end) is not Role.COUNT:
            return False
        start = self._first_work()
        said = self.steps[start:]
        if all(isinstance(step, Work | Skip) for step in said) and kind(self.items, read.end) != ",":
            span = said[0].span.cover(read.times.span or self.items[self.at].span)
            self.steps[start:] = [Repeat(tuple(said), read.times, span, "")]
        else:
            self._repeat_last(read.times)
        self.at = read.end
        return True
