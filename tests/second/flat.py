"""Makes random pieces in crochet rows: turning chains, meshes, V-stitches, shells in spaces, shaping at the ends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from random import Random

from hypothesis.strategies import SearchStrategy, builds, randoms

from .chains import begin
from .instructions import (
    HEIGHTS,
    Again,
    BeginningChain,
    ChainSpace,
    Decrease,
    Figures,
    FlatChain,
    FromHook,
    Group,
    InEach,
    InEachSpace,
    InSpace,
    Line,
    Part,
    Pattern,
    Repeat,
    Round,
    Skip,
    SkipSpace,
    Step,
    Stitches,
)
from .laying import DoesNotFit, Row, foundation, lay_line, spaces, stitches
from .random_patterns import FEWEST, MOST, Laid
from .shaping import Steps, repeating, shaped

_SIZES = (("Small", "Medium", "Large"), ("S", "M", "L", "XL"), ("1", "2", "3", "4", "5"))
_V = (Part("dc", 1), Part("ch", 1), Part("dc", 1))
_SHELL = (Part("dc", 2), Part("ch", 2), Part("dc", 2))


def random_flat_piece(random: Random) -> Laid:
    """Make a piece of four to eight rows and lay it."""
    sizes = random.choice(_SIZES) if random.randint(0, 3) == 3 else ()
    kind = random.choice(("sc", "sc", "dc", "dc", "hdc"))
    counts = kind == "dc"
    return _Maker(random, Pattern(sizes, FlatChain(()), (), kind, False, counts, flat=True)).made()


class _Maker:
    """Adds row after row to a piece, laying each as it goes."""

    def __init__(self, random: Random, frame: Pattern) -> None:
        self.random = random
        self.frame = frame
        self.lines: list[Line] = []
        self.rows: list[tuple[Row, ...]] = []
        self.below: tuple[Row, ...] = ()

    def made(self) -> Laid:
        """Make the piece."""
        kind = self.frame.kind
        nth = HEIGHTS[kind] + 1
        width = self.random.choice((1, 2, 3, 6))
        least = width * self.random.randint(12 // width, 48 // width) + self.random.choice((1, 1, 2))
        counted = self.frame.counts
        chains = tuple(least + 6 * size + nth - 1 - counted for size in range(self.frame.number))
        start = FlatChain(chains)
        self.below = tuple(foundation(start, size) for size in range(self.frame.number))
        self.add(Round((FromHook(kind, nth, counted=counted), InEach(kind)), self.all_of(1)))
        wanted = self.random.choice((4, 5, 5, 6, 7, 8))
        while len(self.lines) < wanted:
            self.another()
        return Laid(replace(self.frame, start=start, lines=tuple(self.lines)), tuple(self.rows))

    def all_of(self, number: int) -> Figures:
        """Return the same figure for every size."""
        return (number,) * self.frame.number

    def add(self, line: Line) -> bool:
        """Lay a line in every size and keep it if it fits and leaves a count within bounds."""
        try:
            after = tuple(lay_line(line, self.lines, row, size, flat=True) for size, row in enumerate(self.below))
        except DoesNotFit:
            return False
        if any(not stitches(row) >= FEWEST or len(row) > MOST for row in after):
            return False
        self.lines.append(line)
        self.rows.append(after)
        self.below = after
        return True

    def add_row(self, steps: Steps | None) -> bool:
        """Add a row with its turning chain; a row that was not drawn is none."""
        if steps is None:
            return False
        if self.frame.counts:
            begun = begin(self.random, steps, counts=True)
        else:
            kind = self.frame.kind
            begun = (BeginningChain(HEIGHTS[kind], counts=False, kind=kind), *steps)
        return begun is not None and self.add(Round(begun, self.all_of(1)))

    def another(self) -> None:
        """Add a row of some sort; a plain row where nothing that was drawn fits."""
        lace = any(spaces(row) for row in self.below)
        sorts = ("each", "in spaces", "in spaces", "by the row", "by the row", "plain", "again")
        if not lace:
            sorts = ("mesh", "mesh", "shells", "shells", "V", "V", "ends", "shaped", "plain", "again")
        sort = self.random.choice(sorts)
        for _ in range(3):
            if self.tried(sort):
                return
        self.add_row((InEach(self.frame.kind),))

    def tried(self, sort: str) -> bool:
        """Try to add a row of this sort and tell whether it fitted."""
        random, kind, below = self.random, self.frame.kind, self.below
        counts = tuple(stitches(row) for row in below)
        match sort:
            case "mesh":
                return self.add_row(_mesh(random, kind, counts))
            case "shells":
                return self.add_row(_shells(kind, counts))
            case "V":
                return self.add_row(_groups(random, kind, counts))
            case "ends":
                return self.add_row(_at_the_ends(random, kind, counts))
            case "shaped":
                return self.add_row(shaped(random, kind, counts))
            case "each" | "in spaces" | "by the row":
                return self.add_row(_on_spaces(random, kind, below, sort))
            case "again":
                return self.add_again()
            case _:
                return self.add_row((InEach(kind),))

    def add_again(self) -> bool:
        """Work the row written last, or the last two, several times more."""
        back = self.random.randint(1, 2)
        last = len(self.lines) - 1
        first = last - back + 1
        if first < 1 or any(isinstance(line, Again) for line in self.lines[first:]):
            return False
        return self.add(Again(first, last, self.all_of(self.random.randint(1, 4))))


def _same(value: int, counts: Figures) -> Figures:
    return (value,) * len(counts)


def _fits(counts: Figures, unit: int, plus: int) -> bool:
    return all(count > unit + plus and (count - plus) % unit == 0 for count in counts)


def _mesh(random: Random, kind: str, counts: Figures) -> Steps | None:
    """Make a stitch, and over again: chains over as many stitches, a stitch."""
    chains = random.choice((1, 1, 2, 3))
    if not _fits(counts, chains + 1, 1):
        return None
    one = Stitches(kind, _same(1, counts))
    return (one, Repeat((ChainSpace(chains), Skip(_same(chains, counts)), one)))


def _shells(kind: str, counts: Figures) -> Steps | None:
    """Make shells of five in a stitch, with a stitch between two of them."""
    if not _fits(counts, 6, 1):
        return None
    one, two = Stitches(kind, _same(1, counts)), Skip(_same(2, counts))
    return (one, Repeat((two, Stitches("dc", _same(1, counts), each=5), two, one)))


def _groups(random: Random, kind: str, counts: Figures) -> Steps | None:
    """Make a V-stitch or a shell with a space in every third stitch, between two edge stitches."""
    if not _fits(counts, 3, 2):
        return None
    one, skip = Stitches(kind, _same(1, counts)), Skip(_same(1, counts))
    last = Stitches(kind, _same(1, counts), last=True)
    return (one, Repeat((skip, Group(random.choice((_V, _V, _SHELL))), skip), leave=_same(1, counts)), last)


def _at_the_ends(random: Random, kind: str, counts: Figures) -> Steps | None:
    """Make a row that grows or shrinks at both its ends."""
    one = _same(1, counts)
    if min(counts) < 8:
        return None
    if random.randint(0, 1):
        return (Stitches(kind, one, each=2), InEach(kind, leave=one), Stitches(kind, one, each=2))
    edge = Stitches(kind, one)
    return (
        edge,
        Decrease(kind, 2, one),
        InEach(kind, leave=_same(3, counts)),
        Decrease(kind, 2, one),
        Stitches(kind, one, last=True),
    )


def _on_spaces(random: Random, kind: str, rows: Sequence[Row], sort: str) -> Steps | None:
    """Make a row on one with spaces that are all alike and stand between edge stitches."""
    sizes = {place.chains for row in rows for place in row if place.is_space}
    if len(sizes) != 1 or any(row[0].is_space or row[-1].is_space for row in rows):
        return None
    chains, one = sizes.pop(), _same(1, tuple(map(len, rows)))
    edge, last = Stitches(kind, one), Stitches(kind, one, last=True)
    if sort == "each":
        return (InEach(kind, in_space=random.choice((1, 1, 2)), chains=chains),)
    if sort == "in spaces":
        parts = random.choice((_V, _V, _SHELL, (Part("dc", 3),), (Part("dc", 5),)))
        return (edge, InEachSpace(parts, chains), last)
    found = [repeating(row[1:]) for row in rows]
    shapes = {tuple((place.is_space, place.chains, length) for place, length in bar) for bar, _ in found}
    if len(shapes) != 1 or min(often for _, often in found) < 2 or len(found[0][0]) > 5:
        return None
    body: list[Step] = []
    for place, length in found[0][0]:
        if place.is_space:
            parts = random.choice(((Part(kind, chains),), (Part(kind, 1),)))
            kept = random.randint(0, 1)
            body.extend((ChainSpace(chains), SkipSpace(chains)) if kept else (InSpace(parts, chains),))
        else:
            body.append(Stitches(kind, _same(length, one)))
    return (edge, Repeat(tuple(body)))


def flat_pieces() -> SearchStrategy[Laid]:
    """Return the strategy that makes pieces in rows and lays them."""
    return builds(random_flat_piece, randoms(use_true_random=False))
