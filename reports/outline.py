"""The shape that the words make: an outline of each piece, to scale, from its counts, its rounds and their heights.

A piece worked in rounds is drawn from the side as it would stand, open and round: a round's stitches are its
circumference. Where it comes out flat it is drawn from above. Rows are laid flat, each centred on the one below,
since counts don't tell at which edge stitches are added.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import accumulate, pairwise
from math import pi, sqrt

from .pieces import Course, Piece

_FLAT = 0.6  # a piece that is lower than this part of its radius lies flat
_LYING = 0.9  # a round whose edge runs out by more than this part of its height lies flat
_MEASURED = 8  # rounds, in which those that go on until a measurement are drawn: their number isn't known
_MOST_STEPS = 200  # in which a course is drawn
_STRAIGHT = 1e-9
_BEGINNING = 3  # a piece in rounds that begins on fewer stitches than this begins on a point


class View(Enum):
    """From where a piece is drawn."""

    SIDE = "side"
    ABOVE = "above"
    LAID = "laid"


@dataclass(frozen=True, slots=True)
class Point:
    """The edge at the end of a course: `x` out from the middle and `y` on from the start, in widths of a stitch.

    `within` marks a point within a course, where its edge bends.

    `stitches` is the width there, `known` whether the way to here from the point before was worked, in a number of
    rounds that is known.
    """

    x: float
    y: float
    stitches: int
    known: bool = True
    within: bool = False


@dataclass(frozen=True, slots=True)
class Stated:
    """Where the draft states another width than its words make: its edge, and what it says, in short and at length."""

    x: float
    y: float
    short: str
    words: str


@dataclass(frozen=True, slots=True)
class Outline:
    """The edge of a piece from its start to its end, in widths of a stitch.

    `drawn` is how many courses it shows, `undrawn` how many rounds at the end were not worked and have no width. Seen
    from above, `y` is how tall the piece stands all the same.
    """

    piece: Piece
    view: View
    points: tuple[Point, ...]
    stated: tuple[Stated, ...]
    drawn: int
    undrawn: int

    @property
    def radius(self) -> float:
        """How far the outline reaches out from its middle."""
        return max((max(point.x for point in self.points), *(one.x for one in self.stated)))

    @property
    def height(self) -> float:
        """How far the outline reaches from its start to its end."""
        return self.points[-1].y

    @property
    def widest(self) -> int:
        """The greatest width, in stitches."""
        return max(point.stitches for point in self.points)

    @property
    def ends_as_stated(self) -> bool:
        """Whether the width at its end is what the draft states, and was not worked."""
        return self.piece.courses[self.drawn - 1].width is None

    @property
    def narrows(self) -> bool:
        """Whether it ends on fewer stitches than it starts on."""
        return self.points[-1].stitches < self.points[0].stitches


def outline(piece: Piece) -> Outline | None:
    """Return the outline of a piece, None where nothing of it was worked."""
    courses = [*_drawn(piece.courses)]
    if not any(course.width is not None for course in courses):
        return None
    base = piece.base if piece.base is not None else next(filter(None, map(_wide, courses)), 0)
    out = 2.0 if piece.flat else 2 * pi  # stitches for each stitch that the edge lies further out
    widths = [*_widths(courses, base)]
    edge = [base / out]
    rises: list[float] = []
    for course, width in zip(courses, widths, strict=True):
        steps = _steps(course)
        run = (width / out - edge[-1]) / steps
        edge += [edge[-1] + run * step for step in range(1, steps + 1)]
        rises += [course.height * _rows(course) / steps] * steps
    if not piece.flat:
        edge = _eased(edge)
        rises = [_rise(before, after, height) for (before, after), height in zip(pairwise(edge), rises, strict=True)]
    return _seen(piece, courses, widths, out, (base, edge, [*accumulate(rises, initial=0.0)]))


def _seen(
    piece: Piece,
    courses: Sequence[Course],
    widths: Sequence[int],
    out: float,
    way: tuple[int, Sequence[float], Sequence[float]],
) -> Outline:
    """Put the outline together from the way that its edge takes, row by row: how far out and how far on."""
    base, edge, on = way
    points = [Point(edge[0], 0.0, base)]
    stated: list[Stated] = []
    step = 0
    for course, width in zip(courses, widths, strict=True):
        first, step = step, step + _steps(course)
        known = course.width is not None and not course.measured
        points += (Point(edge[at], on[at], width, known, within=True) for at in _bends(edge, first, step))
        points.append(Point(edge[step], on[step], width, known))
        if course.differs and course.makes == width and course.says is not None:
            words = f"{course.label} says {course.says}, makes {width}"
            stated.append(Stated(course.says / out, on[step], f"says {course.says}", words))
    view = View.LAID if piece.flat else View.SIDE
    starts_on_a_point = piece.base is not None and piece.base < _BEGINNING
    if view is View.SIDE and starts_on_a_point and on[-1] < _FLAT * max(edge):
        view = View.ABOVE
    undrawn = piece.rows - sum(course.rows for course in courses)
    return Outline(piece, view, tuple(points), tuple(stated), len(courses), undrawn)


def _bends(edge: Sequence[float], first: int, last: int) -> Iterator[int]:
    """Give the steps between two at which an edge, straight but for its eased ends, changes its slope."""
    for at in sorted({first + 1, last - 1}):
        if first < at < last and abs(edge[at + 1] - 2 * edge[at] + edge[at - 1]) > _STRAIGHT:
            yield at


def _rows(course: Course) -> int:
    """Return how many rows tall a course is drawn."""
    return _MEASURED if course.measured else course.rows


def _steps(course: Course) -> int:
    return min(_rows(course), _MOST_STEPS)


def _eased(edge: Sequence[float]) -> list[float]:
    """Ease the way of an edge over each row and its two neighbours, as the fabric does where rounds take turns."""
    between = [(before + 2 * here + after) / 4 for before, here, after in zip(edge, edge[1:], edge[2:], strict=False)]
    return [edge[0], *between, edge[-1]]


def _rise(before: float, after: float, height: float) -> float:
    """Return how much a piece rises in a round `height` tall whose edge runs out or in; none where it lies flat."""
    run = abs(after - before)
    return 0.0 if run > _LYING * height else sqrt(height**2 - run**2)


def _drawn(courses: Sequence[Course]) -> Iterator[Course]:
    """Give the courses up to the last one whose width is known."""
    last = max((index for index, course in enumerate(courses) if _wide(course) is not None), default=-1)
    yield from courses[: last + 1]


def _wide(course: Course) -> int | None:
    """Return a course's width, as worked or else as the draft states it."""
    if course.width is not None:
        return course.width
    return course.says if course.unit == "sts" else None


def _widths(courses: Sequence[Course], base: int) -> Iterator[int]:
    """Give the width of each course; those in a gap change evenly from the last known one to the next."""
    before, waiting = base, 0
    for course in courses:
        width = _wide(course)
        if width is None:
            waiting += 1
            continue
        for step in range(1, waiting + 1):
            yield round(before + (width - before) * step / (waiting + 1))
        yield width
        before, waiting = width, 0
