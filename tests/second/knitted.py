"""Makes random knitted pieces that work: lace, cables, ribs, shaping, raglan lines, short rows."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import reduce
from math import gcd
from random import Random

from hypothesis.strategies import SearchStrategy, builds, randoms

from .instructions import Figures
from .knitting import (
    BindOff,
    BoundOff,
    Cable,
    CastOnMore,
    Change,
    Group,
    Knit,
    KnitLine,
    KnitRow,
    KnitStep,
    LinesAgain,
    Piece,
    PlaceMarker,
    PlainRows,
    Shaped,
    Slip,
    SlipMarker,
    Spread,
    ToEnd,
    ToMarker,
    Turn,
)
from .laying import DoesNotFit
from .needles import MARKER, Needle, cast_on, knit_line, loops

FEWEST, MOST = 8, 400
Steps = tuple[KnitStep, ...]

_SIZES = (
    ("Small", "Medium", "Large"),
    ("S", "M", "L", "XL"),
    ("XS", "S", "M", "L", "XL", "2XL", "3XL", "4XL", "5XL"),
    ("1", "2", "3", "4", "5"),
)


@dataclass(frozen=True, slots=True)
class Knitted:
    """A piece and what is on the needle after each of its lines, one needle a size."""

    piece: Piece
    needles: tuple[tuple[Needle, ...], ...] = field(repr=False)


def random_piece(random: Random) -> Knitted:
    """Make a piece of four to ten lines and knit it."""
    sizes = random.choice(_SIZES) if random.randint(0, 2) == 2 else ()
    around = random.randint(0, 2) == 2
    least, by = random.randint(12, 90), random.randint(1, 6) * random.choice((1, 2, 4))
    start = tuple(least + by * size for size in range(max(1, len(sizes))))
    return _Maker(random, Piece(sizes, start, (), around)).made()


class _Maker:
    """Adds line after line to a piece, knitting each as it goes."""

    def __init__(self, random: Random, frame: Piece) -> None:
        self.random = random
        self.frame = frame
        self.lines: list[KnitLine] = []
        self.needles: list[tuple[Needle, ...]] = []
        self.now = tuple(cast_on(frame, size) for size in range(frame.number))

    def made(self) -> Knitted:
        """Make the piece."""
        wanted = self.random.choice((4, 5, 5, 6, 6, 7, 8, 10))
        while len(self.lines) < wanted:
            self.another()
        return Knitted(replace(self.frame, lines=tuple(self.lines)), tuple(self.needles))

    @property
    def counts(self) -> Figures:
        """The loops on the needle, a figure a size."""
        return tuple(loops(needle) for needle in self.now)

    def all_of(self, number: int) -> Figures:
        """Return the same figure for every size."""
        return (number,) * self.frame.number

    def rising(self, least: int, step: int) -> Figures:
        """Return figures that rise from size to size by the same step."""
        by = self.random.randint(0, step)
        return tuple(least + by * size for size in range(self.frame.number))

    def add(self, line: KnitLine) -> bool:
        """Knit a line in every size and keep it if it fits and leaves a count within bounds."""
        around = self.frame.around
        try:
            after = tuple(
                knit_line(line, self.lines, needle, size, around=around) for size, needle in enumerate(self.now)
            )
        except DoesNotFit:
            return False
        if any(not FEWEST <= loops(needle) <= MOST for needle in after):
            return False
        self.lines.append(line)
        self.needles.append(after)
        self.now = after
        return True

    def add_row(self, steps: Steps | None, rows: Figures | None = None) -> bool:
        """Add a row with steps of its own; a row that was not drawn is none."""
        return steps is not None and self.add(KnitRow(steps, rows or self.all_of(1)))

    def another(self) -> None:
        """Add a line of some sort; a plain row where nothing that was drawn fits."""
        random = self.random
        marked = any(MARKER in needle for needle in self.now)
        sorts = ("raglan", "raglan", "markers", "again", "plain") if marked else _UNMARKED
        sort = random.choice(sorts)
        for _ in range(3):
            if self.tried(sort):
                return
        self.add_row(self.over_markers(self.plain_kind()) if marked else (ToEnd(self.plain_kind()),))

    def plain_kind(self) -> str:
        """Return what a plain row is worked in: knit or purl."""
        return self.random.choice(("k", "p"))

    def tried(self, sort: str) -> bool:
        """Try to add a line of this sort and tell whether it fitted."""
        random, counts = self.random, self.counts
        match sort:
            case "lace":
                return self.add_row(lace(random, counts))
            case "rib":
                return self.add_row(rib(random, counts), self.all_of(random.choice((1, 1, 4))))
            case "shaped":
                return self.add_row(shaped(random, counts))
            case "ends":
                return self.add_row(at_the_ends(random, counts))
            case "short":
                return self.add_row(short_rows(random, counts))
            case "edges":
                return not self.frame.around and self.add(BoundOff(self.rising(random.randint(2, 6), 1), 2))
            case "middle":
                return self.add_row(bound_off(random, counts, around=self.frame.around))
            case "rows":
                return self.add_rows()
            case "set up":
                return self.add_row(set_up(random, counts))
            case "raglan":
                return self.add_row(self.raglan())
            case "markers":
                return self.add_row(self.over_markers(self.plain_kind()))
            case "again":
                return self.add_again()
            case _:
                return self.add(PlainRows(self.rising(random.randint(1, 6), 1)))

    def add_rows(self) -> bool:
        """Add a line that tells of several rows without their steps, or spreads a change over one."""
        random = self.random
        change = random.choice((1, -1))
        if random.randint(0, 1):
            return self.add(Spread(change, self.rising(random.randint(1, 6), 2)))
        times = self.rising(random.randint(2, 6), 2)
        return not self.frame.around and self.add(Shaped(change, random.choice((2, 2, 4, 6)), times))

    def add_again(self) -> bool:
        """Work one or two of the lines written last several times more."""
        back = self.random.randint(1, 2)
        last = len(self.lines) - 1
        first = last - back + 1
        if first < 0 or not all(self.is_single(line) for line in self.lines[first : last + 1]):
            return False
        return self.add(LinesAgain(first, last, self.rising(self.random.randint(1, 5), 2)))

    @staticmethod
    def is_single(line: KnitLine) -> bool:
        """Tell whether a line is one row, written out, in which no marker is placed or stitches bound off."""
        if not isinstance(line, KnitRow) or set(line.rows) != {1}:
            return False
        return not any(isinstance(step, PlaceMarker | BindOff) for step in line.steps)

    # ---------------------------------------------------------------- between markers

    def raglan(self) -> Steps:
        """Make a row that grows or shrinks at every marker."""
        marks = sum(thing == MARKER for thing in self.now[0])
        one = self.all_of(1)
        way = self.random.choice(("kfb", "m1", "yo", "dec"))
        if way == "kfb":
            side: Steps = (ToMarker("k", 1), Change("kfb", one), SlipMarker(), Change("kfb", one))
        elif way == "dec":
            side = (ToMarker("k", 3), Change("k2tog", one), Knit("k", one), SlipMarker())
            side = (*side, Knit("k", one), Change("ssk", one))
        else:
            made = ("m1r", "m1l") if way == "m1" else ("yo", "yo")
            side = (ToMarker("k", 1), Change(made[0], one), Knit("k", one), SlipMarker(), Knit("k", one))
            side = (*side, Change(made[1], one))
        if marks == 1:
            return (*side, ToEnd("k"))
        return (Group(side, self.all_of(marks)), ToEnd("k"))

    def over_markers(self, kind: str) -> Steps:
        """Make a plain row that names each marker."""
        marks = sum(thing == MARKER for thing in self.now[0])
        return (Group((ToMarker(kind), SlipMarker()), self.all_of(marks)), ToEnd(kind)) if marks > 1 else (ToEnd(kind),)


_UNMARKED = (
    *("lace", "lace", "lace", "rib", "shaped", "shaped", "ends", "ends", "short", "edges", "middle", "rows"),
    *("set up", "again", "again", "plain"),
)


# ---------------------------------------------------------------- rows


def _same(value: int, counts: Figures) -> Figures:
    return (value,) * len(counts)


def _body(random: Random, counts: Figures) -> tuple[Steps, int]:
    """Make a stitch pattern's repeat, and how many stitches it takes."""
    one = _same(1, counts)

    def plain(number: int, kind: str = "k") -> Knit:
        return Knit(kind, _same(number, counts))

    def change(name: str) -> Change:
        return Change(name, one)

    n = random.randint(1, 5)
    bodies: tuple[tuple[Steps, int], ...] = (
        ((change("yo"), change("k2tog")), 2),
        ((plain(n), change("yo"), change("ssk")), n + 2),
        ((change("k2tog"), plain(n), change("yo"), plain(1), change("yo"), plain(n), change("ssk")), 2 * n + 5),
        ((change("yo"), plain(n), change("sk2p"), plain(n), change("yo"), plain(1)), 2 * n + 4),
        ((plain(1), change("yo"), plain(n), change("k3tog"), plain(n), change("yo")), 2 * n + 4),
        ((plain(n), change("yo"), plain(2), change("yo")), n + 2),
        ((plain(n), change("skp"), plain(n), change("k2tog")), 2 * n + 4),
        ((Group((change("k2tog"),), _same(2, counts)), Group((change("yo"), plain(1)), _same(4, counts))), 8),
        ((plain(n), plain(2, "p"), Cable(4, front=True), plain(2, "p")), n + 8),
        ((plain(2, "p"), Cable(6, front=False), plain(2, "p")), 10),
        ((Slip(one), plain(n)), n + 1),
    )
    return random.choice(bodies)


def lace(random: Random, counts: Figures) -> Steps | None:
    """Make a stitch pattern between edges that may be of no stitches; None where it doesn't fit every size."""
    body, takes = _body(random, counts)
    if min(counts) < 2 * takes:
        return None
    first = random.randint(0, 3)
    rest = tuple((count - first) % takes for count in counts)
    if random.randint(0, 1):
        rest = tuple(value + takes for value in rest)
    if min(count - first - left for count, left in zip(counts, rest, strict=True)) < takes:
        return None
    lead: Steps = (Knit("k", _same(first, counts)),) if first else ()
    if not any(rest):
        return (*lead, Group(body))
    if not all(rest):
        return None
    return (*lead, Group(body, leave=rest), Knit("k", rest))


def rib(random: Random, counts: Figures) -> Steps | None:
    """Make a row of knit and purl stitches by turns."""
    knit, purl = random.choice(((1, 1), (2, 2), (3, 1), (3, 3), (6, 2)))
    body = (Knit("k", _same(knit, counts)), Knit("p", _same(purl, counts)))
    rest = {count % (knit + purl) for count in counts}
    if len(rest) > 1:
        return None
    left = rest.pop()
    if not left:
        return (Group(body),)
    return (Group(body, leave=_same(left, counts)), Knit("k", _same(left, counts)))


def shaped(random: Random, counts: Figures) -> Steps | None:
    """Make a row of one repeat with a change in it, as a crown or a yoke has: as often in each size, or as wide."""
    shared = [value for value in range(3, 31) if not reduce(gcd, counts) % value]
    if not shared:
        return None
    drawn = random.choice(shared)
    others = tuple(count // drawn for count in counts)
    units, times = (_same(drawn, counts), others) if random.randint(0, 1) else (others, _same(drawn, counts))
    name, takes = random.choice((("k2tog", 2), ("ssk", 2), ("kfb", 1), ("m1", 0), ("yo", 0), ("p2tog", 2)))
    plain = tuple(unit - takes for unit in units)
    if min(plain) < 1 or max(plain) > 60 or min(times) < 2:
        return None
    body = (Knit("p" if name == "p2tog" else "k", plain), Change(name, _same(1, counts)))
    return (Group(body, times if random.randint(0, 1) else None),)


def at_the_ends(random: Random, counts: Figures) -> Steps | None:
    """Make a row that grows or shrinks near both its ends."""
    one, edge = _same(1, counts), random.randint(1, 4)
    at_edge = Knit("k", _same(edge, counts))
    if min(counts) < 2 * edge + 6:
        return None
    way = random.choice(("dec", "m1", "yo", "kfb", "plain"))
    if way == "dec":
        last = _same(edge + 2, counts)
        return (at_edge, Change("ssk", one), ToEnd("k", last), Change("k2tog", one), at_edge)
    if way == "kfb":
        return (Change("kfb", one), ToEnd("k", _same(1, counts)), Change("kfb", one))
    if way == "plain":
        return (at_edge, ToEnd("p", _same(edge, counts)), at_edge)
    made = "m1" if way == "m1" else "yo"
    return (at_edge, Change(made, one), ToEnd("k", _same(edge, counts)), Change(made, one), at_edge)


def short_rows(random: Random, counts: Figures) -> Steps | None:
    """Make short rows within a line: so far, back, and to the end."""
    far = tuple(count - random.randint(2, 5) for count in counts)
    if min(far) < 5:
        return None
    back = tuple(value - 2 for value in far)
    return (Knit("k", far), Turn(), Knit("p", back), Turn(), ToEnd("k"))


def bound_off(random: Random, counts: Figures, *, around: bool) -> Steps | None:
    """Make a row that binds off stitches at its beginning, or casts others on over those bound off in its middle."""
    number = _same(random.randint(2, 6), counts)
    if min(counts) < 20:
        return None
    way = random.choice(("beginning", "replaced"))
    if way == "beginning" and not around:
        return (BindOff(number), ToEnd(random.choice(("k", "p"))))
    before = tuple(count // 2 - number[0] for count in counts)
    more = _same(random.randint(1, 8), counts)
    return (Knit("k", before), BindOff(number), CastOnMore(more), ToEnd("k"))


def set_up(random: Random, counts: Figures) -> Steps | None:
    """Make a row that places markers, far enough from each other and from the ends."""
    marks = random.choice((1, 2, 4, 4))
    if min(counts) < 6 * (marks + 1):
        return None
    each = tuple(count // (marks + 1) for count in counts)
    return (*(step for _ in range(marks) for step in (Knit("k", each), PlaceMarker())), ToEnd("k"))


def knitted_pieces() -> SearchStrategy[Knitted]:
    """Return the strategy that makes pieces and knits them."""
    return builds(random_piece, randoms(use_true_random=False))
