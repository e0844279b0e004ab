"""The drawing of a sheet's shape: outlines and plots in points of a picture, ready to be written as SVG."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from ..lint.proof import Proof
from .measured import Measured, measures, with_measures
from .outline import Outline, Point, View, outline
from .pieces import Course, Piece, pieces
from .scale import Scale, scale_of
from .words import listed, plural

_WIDEST, _TALLEST = 190.0, 230.0  # of an outline
_MARGIN = 14.0
_LABELS = 92.0  # columns of points kept for the labels on the right
_LINE = 15.0  # between labels
_BELOW = 34.0  # for the scale
_PLOT = (380.0, 220.0)
_AXES = (30.0, 12.0, 24.0, 40.0)  # left, right, top, bottom
_BARS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)
Placing = Callable[[float, float], tuple[float, float]]
VIEWS = {
    View.SIDE: "Seen from the side, as it stands open and round.",
    View.ABOVE: "Lies flat: seen from above, a ring for each entry of the draft.",
    View.LAID: "Laid flat, each row centred on the one below.",
}


@dataclass(frozen=True, slots=True)
class Label:
    """Words beside a drawing, and the line that leads from them to what they are about."""

    text: str
    x: float
    y: float
    lead: str
    said: bool = False


@dataclass(frozen=True, slots=True)
class Sketch:
    """An outline in points. `fill` is its surface, `worked` and `guessed` its edges, `crosses` where the draft differs.

    `bar` is the scale: its left end, its length and how many stitches it stands for.
    """

    width: float
    height: float
    fill: str
    worked: str
    guessed: str
    rings: tuple[float, ...]
    middle: tuple[float, float]
    crosses: tuple[tuple[float, float], ...]
    labels: tuple[Label, ...]
    bar: tuple[float, float, int]


@dataclass(frozen=True, slots=True)
class Figure:
    """A piece in sizes that are worked alike: its outline, None where none was worked, and what to say of it."""

    sizes: tuple[int, ...]
    sketch: Sketch | None
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Curve:
    """The stitches of sizes alike by round: the way of the worked counts, the places of the stated ones."""

    sizes: tuple[int, ...]
    worked: str
    stated: tuple[tuple[float, float], ...]
    crosses: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Plot:
    """Stitches by round for all sizes of a piece, with the marks along its axes."""

    width: float
    height: float
    curves: tuple[Curve, ...]
    across: tuple[tuple[float, str], ...]
    up: tuple[tuple[float, str], ...]
    corner: tuple[float, float]
    what: str


@dataclass(frozen=True, slots=True)
class Shape:
    """A piece with its outline in every size, from where it is seen, and the plot of its counts."""

    title: str
    view: str
    figures: tuple[Figure, ...]
    plot: Plot | None


def shapes(proof: Proof) -> tuple[Shape, ...]:
    """Return the shapes of a draft, one a piece; its sizes are drawn to one scale."""
    gathered: dict[tuple[tuple[str, ...], int], list[Piece]] = {}
    for size in pieces(proof):
        met: Counter[tuple[str, ...]] = Counter()
        for piece in size:
            gathered.setdefault((piece.titles, met[piece.titles]), []).append(piece)
            met[piece.titles] += 1
    scale = scale_of(proof)
    measured = partial(measures, proof) if len(gathered) == 1 else _nothing_measured
    return tuple(_shape(alike, scale, measured) for alike in gathered.values())


def _nothing_measured(piece: Piece) -> tuple[Measured, ...]:
    """Tell nothing of a piece where a draft has several: which of them it measures isn't known."""
    del piece
    return ()


def _shape(alike: Sequence[Piece], scale: Scale, measured: Callable[[Piece], tuple[Measured, ...]]) -> Shape:
    """Draw a piece; sizes in which it is worked alike are drawn once."""
    sizes: dict[tuple[Piece, tuple[Measured, ...]], list[int]] = {}
    for piece in alike:
        sizes.setdefault((replace(piece, size=0), measured(piece)), []).append(piece.size)
    drawn = [(piece, own, outline(piece)) for piece, own in sizes]
    drawn = [(piece, own, one and with_measures(one, own, scale)) for piece, own, one in drawn]
    known = [one for _, _, one in drawn if one is not None]
    points = min(
        (min(_WIDEST / max(2 * one.radius, 1.0), _TALLEST / max(_reach(one), 1.0)) for one in known),
        default=1.0,
    )
    room = (max((one.radius for one in known), default=0.0) * points, max(map(_reach, known), default=0.0) * points)
    figures = tuple(
        Figure(tuple(own), _sketch(one, points, room) if one else None, tuple(_words(piece, one, scale, stated)))
        for (piece, stated, one), own in zip(drawn, sizes.values(), strict=True)
    )
    view = " ".join(VIEWS[view] for view in View if any(one.view is view for one in known))
    return Shape(alike[0].title, view, figures, _plot({piece: own for (piece, _), own in sizes.items()}))


def _reach(one: Outline) -> float:
    return 2 * one.radius if one.view is View.ABOVE else one.height


# ---------------------------------------------------------------- words


def _words(piece: Piece, one: Outline | None, scale: Scale, measured: Sequence[Measured]) -> Iterator[str]:
    rounds = plural(piece.rows, "row" if piece.flat else "round")
    if one is None:
        yield f"{rounds}. Nothing of this piece was worked, so nothing is drawn."
        return
    first, last = one.points[0].stitches, one.points[-1].stitches
    start = "a ring" if first == 0 else plural(first, "st")
    widest = f", widest {plural(one.widest, 'st')}" if one.widest > max(first, last) else ""
    stated = ", as stated" if one.ends_as_stated else ""
    yield f"{rounds}, from {start} to {plural(last, 'st')}{stated}{widest}."
    if scale.wide is not None:
        across = "wide" if piece.flat else "around"
        at = " at its widest" if one.widest > min(point.stitches for point in one.points) else ""
        whole = one.view is not View.ABOVE and not one.undrawn and all(point.known for point in one.points)
        on = f", {scale.length(one.height)} from start to end" if whole else ""
        yield f"{scale.length(one.widest)} {across}{at}{on}."
    for stated in measured:
        yield f"The draft states {stated.words}."
    if one.stated:
        yield f"Crossed where the draft says otherwise: {listed([mark.words for mark in one.stated])}."
    if any(course.measured for course in piece.courses):
        yield "Where rounds go on until a measurement it is dashed, and may be longer or shorter."
    if any(course.width is None for course in piece.courses[: one.drawn]):
        yield "Where rounds were not worked it is dashed, and may be longer."
    if one.undrawn:
        yield f"{plural(one.undrawn, 'row' if piece.flat else 'round')} at the end not worked and not drawn."


# ---------------------------------------------------------------- outlines


def _sketch(one: Outline, scale: float, room: tuple[float, float]) -> Sketch:
    """Draw an outline; `room` is the greatest radius and height in its piece, so that all pictures are of one size."""
    radius = one.radius * scale
    middle = _MARGIN + radius
    tall = _reach(one) * scale
    top = _MARGIN + room[1] - tall
    bar = max((step for step in _BARS if step * scale <= 110), default=1)
    size = (_MARGIN + 2 * room[0] + _LABELS, _MARGIN + room[1] + _BELOW)
    if one.view is View.ABOVE:
        return _rings(one, scale, (middle, top + radius), size, bar)
    start_below = one.narrows or one.view is View.LAID or one.points[0].stitches == one.points[-1].stitches

    def down(y: float) -> float:
        return top + (tall - y * scale if start_below else y * scale)

    edge = [(point, point.x * scale, down(point.y)) for point in one.points]
    right = [(middle + x, y) for _, x, y in edge]
    left = [(middle - x, y) for _, x, y in edge]
    worked, guessed = [_way((left[0], right[0]))], list[str]()
    for side in (left, right):
        for (point, *_), before, after in zip(edge[1:], side, side[1:], strict=False):
            (worked if point.known else guessed).append(_way((before, after)))
    worked.append(_way((left[-1], right[-1])))
    crosses = [(middle + side * mark.x * scale, down(mark.y)) for mark in one.stated for side in (-1, 1)]
    return Sketch(
        width=_short(size[0]),
        height=_short(size[1]),
        fill=_way((*left, *reversed(right))) + "Z",
        worked="".join(worked),
        guessed="".join(guessed),
        rings=(),
        middle=(_short(middle), 0.0),
        crosses=tuple((_short(x), _short(y)) for x, y in crosses),
        labels=tuple(_labels(one, [*zip(one.points, right, strict=True)], middle + radius + 14, crosses)),
        bar=(_MARGIN, _short(bar * scale), bar),
    )


def _rings(one: Outline, scale: float, middle: tuple[float, float], size: tuple[float, float], bar: int) -> Sketch:
    """Draw a piece that lies flat: a ring at the end of each course."""
    x, y = middle
    edge = [(point, (x + point.x * scale, y)) for point in one.points]
    crosses = [(x + mark.x * scale, y) for mark in one.stated]
    return Sketch(
        width=_short(size[0]),
        height=_short(size[1]),
        fill="",
        worked="",
        guessed="",
        rings=tuple(
            sorted({_short(point.x * scale) for point in one.points if point.x and not point.within}, reverse=True)
        ),
        middle=(_short(x), _short(y)),
        crosses=tuple((_short(x), _short(y)) for x, y in crosses),
        labels=tuple(_labels(one, edge[-1:], x + one.radius * scale + 14, crosses)),
        bar=(_MARGIN, _short(bar * scale), bar),
    )


def _labels(
    one: Outline,
    edge: Sequence[tuple[Point, tuple[float, float]]],
    x: float,
    crosses: Sequence[tuple[float, float]],
) -> Iterator[Label]:
    """Give the labels down the right side, moved apart where they would touch."""
    lowest = -_LINE
    for text, place, said in sorted(_wanted(one, edge, crosses), key=lambda wanted: wanted[1][1]):
        lowest = max(place[1], lowest + _LINE)
        yield Label(text, _short(x + 4), _short(lowest), _way((place, (x, lowest))), said)


def _wanted(
    one: Outline, edge: Sequence[tuple[Point, tuple[float, float]]], crosses: Sequence[tuple[float, float]]
) -> Iterator[tuple[str, tuple[float, float], bool]]:
    """Give the words for each label, what it is about, and whether that is what the draft says."""
    (first, start), (last, end) = edge[0], edge[-1]
    if one.view is not View.ABOVE:
        yield f"start: {first.stitches or 'ring'}", start, False
    yield f"end: {last.stitches}{', as stated' if one.ends_as_stated else ''}", end, False
    if one.widest > max(first.stitches, last.stitches):
        yield next((f"{point.stitches}", place, False) for point, place in edge if point.stitches == one.widest)
    each = len(crosses) // max(len(one.stated), 1)
    for mark, place in zip(one.stated, crosses[each - 1 :: max(each, 1)], strict=False):
        yield mark.short, place, True


# ---------------------------------------------------------------- plots


def _plot(alike: Mapping[Piece, Sequence[int]]) -> Plot | None:
    courses = [course for piece in alike for course in piece.courses]
    most = max((count for course in courses for count in (course.makes, course.says) if count), default=0)
    rows = max(piece.rows for piece in alike)
    if not most or rows < 2:
        return None
    left, right, top, bottom = _AXES
    width, height = _PLOT
    step_up, step_across = _step(most, 5), _step(rows, 7)
    highest = -(-most // step_up) * step_up

    def place(row: float, count: float) -> tuple[float, float]:
        return (
            _short(left + (width - left - right) * (row - 1) / (rows - 1)),
            _short(height - bottom - (height - top - bottom) * count / highest),
        )

    marks = sorted({1, *range(step_across, rows + 1, step_across)})
    return Plot(
        width=width,
        height=height,
        curves=tuple(_curve(piece, sizes, place) for piece, sizes in alike.items()),
        across=tuple((place(row, 0)[0], str(row)) for row in marks),
        up=tuple((place(1, count)[1], str(count)) for count in range(0, highest + 1, step_up)),
        corner=(_short(left), _short(height - bottom)),
        what="row" if next(iter(alike)).flat else "round",
    )


def _step(most: int, marks: int) -> int:
    """Return the round number that parts an axis into at most so many steps."""
    size = 1
    while True:
        for step in (size, 2 * size, 5 * size):
            if step * marks >= most:
                return step
        size *= 10


def _curve(piece: Piece, sizes: Sequence[int], place: Placing) -> Curve:
    ways: list[str] = []
    run: list[tuple[float, float]] = []
    for course, first, last in _spans(piece.courses):
        if course.makes is None:
            ways.append(_way(run))
            run = []
        else:
            if course.rows > 1 and not run:
                run.append(place(first, course.makes))
            run.append(place(last, course.makes))
    ways.append(_way(run))
    said = [(course, place(last, course.says)) for course, _, last in _spans(piece.courses) if course.says is not None]
    return Curve(
        sizes=tuple(sizes),
        worked="".join(ways),
        stated=tuple(spot for course, spot in said if not course.differs),
        crosses=tuple(spot for course, spot in said if course.differs),
    )


def _spans(courses: Iterable[Course]) -> Iterator[tuple[Course, int, int]]:
    """Give each course with the rows it begins and ends on, counted from the start of the piece."""
    row = 0
    for course in courses:
        yield course, row + 1, row + course.rows
        row += course.rows


def _way(points: Iterable[tuple[float, float]]) -> str:
    """Return a path through points; a single one gives a dot."""
    listed_points = [f"{_short(x):g} {_short(y):g}" for x, y in points]
    if not listed_points:
        return ""
    return f"M{'L'.join(listed_points if len(listed_points) > 1 else listed_points * 2)}"


def _short(number: float) -> float:
    return round(number, 1)
