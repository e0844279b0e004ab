"""Makes random patterns that work: every repeat fits for every size, and the counts stay those of a small piece.

All choices are drawn from a `random.Random`, so that hypothesis can make them (and shrink them) as well as a seed can.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from random import Random

from hypothesis.strategies import SearchStrategy, builds, randoms

from .chains import begin
from .instructions import (
    Again,
    Alternate,
    ChainRing,
    ChainRound,
    Even,
    Figures,
    InEach,
    InRing,
    Line,
    MagicRing,
    OvalChain,
    Pattern,
    Round,
    Start,
    Step,
)
from .laying import DoesNotFit, Row, foundation, lay_line, spaces, stitches
from .shaping import Steps, oval, over_spaces, plain, shaped

FEWEST, MOST = 3, 400

_SIZES = (
    ("Small", "Medium"),
    ("Small", "Medium", "Large"),
    ("S", "M", "L"),
    ("Baby", "Toddler", "Child", "Adult"),
    ("1", "2", "3", "4", "5"),
)


@dataclass(frozen=True, slots=True)
class Laid:
    """A pattern and the rows that are there after each of its lines, one a size."""

    pattern: Pattern
    rows: tuple[tuple[Row, ...], ...]


def random_pattern(random: Random) -> Laid:
    """Make a pattern of three to eight lines and lay it."""
    sizes = random.choice(_SIZES) if random.randint(0, 2) == 2 else ()
    kind = random.choice(("sc", "sc", "sc", "hdc", "dc"))
    joined = random.randint(0, 2) == 2
    counts = joined and random.randint(0, 1) == 1
    return _Maker(random, Pattern(sizes, MagicRing(), (), kind, joined, counts)).made()


class _Maker:
    """Adds line after line to a pattern, laying each as it goes."""

    def __init__(self, random: Random, frame: Pattern) -> None:
        self.random = random
        self.frame = frame
        self.lines: list[Line] = []
        self.rows: list[tuple[Row, ...]] = []
        self.below: tuple[Row, ...] = ()

    def made(self) -> Laid:
        """Make the pattern."""
        start = self.begin()
        wanted = self.random.choice((3, 3, 3, 4, 4, 4, 5, 5, 6, 8))
        if not self.frame.joined and self.random.randint(0, 9) == 9:
            self.alternate(wanted)
        while len(self.lines) < wanted:
            self.another()
        return Laid(replace(self.frame, start=start, lines=tuple(self.lines)), tuple(self.rows))

    def all_of(self, number: int) -> Figures:
        """Return the same figure for every size."""
        return (number,) * self.frame.number

    def rising(self, least: int, step: int) -> Figures:
        """Return figures that rise from size to size by the same step."""
        by = self.random.randint(1, step)
        return tuple(least + by * size for size in range(self.frame.number))

    # ---------------------------------------------------------------- adding a line

    def add(self, line: Line) -> bool:
        """Lay a line in every size and keep it if it fits and leaves a count within bounds."""
        try:
            after = tuple(lay_line(line, self.lines, row, size) for size, row in enumerate(self.below))
        except DoesNotFit:
            return False
        if any(not stitches(row) >= FEWEST or len(row) > MOST for row in after):
            return False
        self.lines.append(line)
        self.rows.append(after)
        self.below = after
        return True

    def add_round(self, steps: Sequence[Step], rounds: Figures | None = None) -> bool:
        """Add a round with steps of its own, with a beginning chain where the pattern is joined."""
        if self.frame.joined:
            begun = begin(self.random, tuple(steps), counts=self.frame.counts)
            if begun is None:
                return False
            steps = begun
        return self.add(Round(tuple(steps), rounds or self.all_of(1)))

    def begin(self) -> Start:
        """Make the start and the first round."""
        random, kind = self.random, self.frame.kind
        starts = ("magic", "magic", "magic", "ring", "chain", "chain", "oval")
        match random.choice(starts[:-1] if self.frame.joined else starts):
            case "magic":
                start: Start = MagicRing()
                first: Steps = (InRing(kind, self.rising(random.randint(4, 12), 4)),)
            case "ring":
                start = ChainRing(random.randint(3, 6))
                first = (InRing(kind, self.rising(random.randint(6, 16), 4)),)
            case "chain":
                start = ChainRound(self.rising(random.randint(10, 60), 12))
                first = plain(kind)
            case _:
                start = OvalChain(self.rising(random.randint(6, 20), 6))
                first = oval(random, kind, start.chains)
        self.below = tuple(foundation(start, size) for size in range(self.frame.number))
        self.add_round(first)
        return start

    # ---------------------------------------------------------------- further lines

    def another(self) -> None:
        """Add a line of some sort; a plain round where nothing that was drawn fits."""
        random = self.random
        sort = random.choice(("shaped",) * 7 + ("plain", "plain", "range", "again", "again", "even"))
        for _ in range(3):
            if self.tried(sort):
                return
        self.add_round(plain(self.frame.kind))

    def tried(self, sort: str) -> bool:
        """Try to add a line of this sort and tell whether it fitted."""
        random, kind = self.random, self.frame.kind
        lace = any(spaces(row) for row in self.below)
        match sort:
            case "plain":
                return self.add_round(plain(random.choice((kind, kind, "sc"))))
            case "range":
                rounds = self.all_of(random.randint(2, 6))
                if random.randint(0, 1):
                    rounds = self.rising(random.randint(2, 6), 2)
                return self.add_round(plain(kind), rounds)
            case "again":
                return self.add_again()
            case "even":
                all_alike = {place.kind for row in self.below for place in row} == {kind}
                return all_alike and self.add(Even(kind, self.rising(random.randint(2, 6), 1)))
            case _:
                counts = tuple(stitches(row) for row in self.below)
                steps = over_spaces(random, kind, self.below) if lace else shaped(random, kind, counts)
                return steps is not None and self.add_round(steps)

    def add_again(self) -> bool:
        """Work one or two of the rounds written last once more, or several times more."""
        random = self.random
        back = random.randint(1, 2)
        last = len(self.lines) - random.randint(1, 2)
        first = last - back + 1
        if first < 1 or not all(self.is_single(line) for line in self.lines[first : last + 1]):
            return False
        times = self.all_of(random.randint(1, 4))
        if random.randint(0, 2) == 2:
            times = self.rising(random.randint(1, 3), 1)
        return self.add(Again(first, last, times))

    @staticmethod
    def is_single(line: Line) -> bool:
        """Tell whether a line is one round, written out."""
        return isinstance(line, Round) and set(line.rounds) == {1}

    def alternate(self, wanted: int) -> None:
        """Declare every second round plain and write only the others, to the end of the pattern."""
        kind = self.frame.kind
        if not self.add(Alternate(InEach(kind))):
            return
        while len(self.lines) < wanted:
            counts = tuple(stitches(row) for row in self.below)
            steps = None if any(spaces(row) for row in self.below) else shaped(self.random, kind, counts)
            if steps is None or not self.add_round(steps):
                self.add_round(plain(kind))


def laid_patterns() -> SearchStrategy[Laid]:
    """Return the strategy that makes patterns and lays them."""
    return builds(random_pattern, randoms(use_true_random=False))
