"""The profile in the terminal: a bar a round, as long as the round has stitches, piece by piece and size by size."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..lint.proof import Proof
from .pieces import Course, Piece, pieces
from .words import cells, folded, one_line, plural, window

_BAR = "="
_LONGEST_LABEL = 24
_FIGURE = 6  # columns of a count
_NOTE = 14  # columns kept free after the bars: until a length
_LEAST_BAR = 10
_WIDEST_BAR = 60


def profile(proof: Proof, width: int = 80) -> str:
    """Return the bars of all sizes, drawn to one scale; empty where nothing was worked."""
    sizes = pieces(proof)
    courses = [course for size in sizes for piece in size for course in _written(piece)]
    most = max((course.makes or 0 for course in courses), default=0)
    if not most:
        return ""
    label = min(max(cells(_name(course)) for course in courses), _LONGEST_LABEL, width // 3)
    room = min(max(width - label - _FIGURE - _NOTE - 4, _LEAST_BAR), _WIDEST_BAR)
    names = [one_line(name) for name in proof.pattern.sizes.names] or [""]
    lines: list[str] = []
    for name, size in zip(names, sizes, strict=True):
        for piece in size:
            title = ", ".join(part for part in (name, piece.title) if part)
            lines += ["", *folded(f"Stitches by round{f', {title}' if title else ''}", width)]
            lines += (_line(course, label, room / most, width, flat=piece.flat) for course in _written(piece))
    return "\n".join(lines[1:])


def _written(piece: Piece) -> Sequence[Course]:
    return [course for course in piece.courses if not course.hidden]


def _name(course: Course) -> str:
    return course.label if course.unit == "sts" else f"{course.label}, {one_line(course.unit)}"


def _line(course: Course, label: int, scale: float, width: int, *, flat: bool) -> str:
    """Return a line: the round, its count, the bar, and what the draft says where that is something else."""
    name = window(_name(course), 0, 0, label).text
    count = "-" if course.makes is None else str(course.makes)
    bar = _BAR * max(1, round(course.makes * scale)) if course.makes else ""
    parts = [bar, *_notes(course, flat=flat)]
    line = f"{name}{' ' * (label - cells(name))}{count:>{_FIGURE}}  {' '.join(part for part in parts if part)}".rstrip()
    return line if cells(line) <= width else line[:width].rstrip()


def _notes(course: Course, *, flat: bool) -> Iterator[str]:
    if course.makes is None:
        yield "not read" if course.says is None else f"not read, says {course.says}"
    elif course.differs:
        yield f"! says {course.says}"
    elif course.measured:
        yield "until a length"
    elif course.rows > 1:
        yield plural(course.rows, "row" if flat else "round")
