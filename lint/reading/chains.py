"""Chains: how many, whether a round begins with them, and what they are said to stand for."""

from __future__ import annotations

from ..figures import Figure
from ..steps import Chain, Join, Rejoin, Remark, Ring, Turn
from .joins import NOT_COUNTS
from .marks import kind, text_at
from .often import OftenReader
from .times import figure_at
from .together import travels
from .words import Word

_MOST_BEFORE = 40  # steps; a beginning chain stands near the beginning


class ChainReader(OftenReader):
    """Reads chains."""

    __slots__ = ()

    def _chain(self, start: int, index: int, number: Figure | None) -> bool:
        """Read `ch 3`, `3ch`, `ch-1`, `chain 70 loosely`, with `(counts as dc)` or `, counts as dc` after it."""
        after = index + 1
        if number is None:
            while kind(self.items, after) in ("-", "noise") or (
                kind(self.items, after) == "." and kind(self.items, after + 2) in (",", ";", ".")
            ):
                after += 1
            number = figure_at(self.items, after)
            if number is None:
                return False
            after += 1
            if kind(self.items, after) == "space" and kind(self.items, after - 1) != "stitch":
                return False
        elif figure_at(self.items, after) is not None and kind(self.items, after + 1) not in (
            "stitch",
            "st",
            "times",
        ):
            after += 1
        if kind(self.items, after) == "st":
            after += 1
        self.at = after
        again = max((n + 1 for n, step in enumerate(self.steps) if isinstance(step, Rejoin)), default=0)
        beginning = len(self.steps) < _MOST_BEFORE and all(
            isinstance(step, Remark | Turn | Join | Ring | Chain) or travels(step) for step in self.steps[again:]
        )
        stands_for = self._stands_for(after) if beginning else None
        self.at += 2 if stands_for else 0
        self._add(Chain(number, self._span(start), beginning, True if stands_for else None, stands_for))
        index = self.at
        while kind(self.items, index) in (",", "-", "noise", ";") and kind(self.items, index + 1) in (
            "counts",
            "noise",
            "-",
        ):
            index += 1
        if kind(self.items, index) == "counts":
            stop = index + 1
            while stop < len(self.items) and kind(self.items, stop) not in (",", ";", ".", "group", "*"):
                if (
                    kind(self.items, stop) == "number"
                    and kind(self.items, stop + 1) == "stitch"
                    and kind(self.items, stop + 2) in ("into", "around")
                ):
                    break
                stop += 1
            says_not = text_at(self.items, index) in NOT_COUNTS or text_at(self.items, index + 1) == "not"
            self._apply_counts(self.items[index:stop], says_not=says_not)
            self.at = stop
        return True

    def _stands_for(self, index: int) -> str | None:
        """Return the stitch that a beginning chain is said to be by a word glued to it: `ch3-dc`."""
        word = self.items[index + 1] if index + 1 < len(self.items) else None
        if kind(self.items, index) != "-" or not isinstance(word, Word) or self.items[index].blank or word.blank:
            return None
        return word.stitch.id if word.stitch is not None and word.stitch.kind == "basic" else None
