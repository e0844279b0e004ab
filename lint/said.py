"""What a draft says in sentences that stand for several rows: shaping to a schedule, bind-offs, motifs, mirrors."""

from __future__ import annotations

from dataclasses import dataclass

from .draft import Span
from .figures import Figure


def number_in(figures: tuple[Figure, ...]) -> int | None:
    """Return how many values the lists among some figures have, 1 where none is a list; None where lists differ."""
    lengths = {len(figure.values) for figure in figures if figure.is_list}
    return None if len(lengths) > 1 else max(lengths, default=1)


@dataclass(frozen=True, slots=True)
class Schedule:
    """Shaping to a schedule: `dec 1 st each end every row 4 (5) times, then every other row 8 (7) times: 20 (22) sts`.

    `change` is what one shaping row adds or takes (2 for one st at each end), `times` the numbers of shaping rows,
    `before` and `after` the counts told on both sides of it.
    """

    span: Span
    change: int
    times: tuple[Figure, ...]
    before: Figure
    after: Figure


@dataclass(frozen=True, slots=True)
class BindOffs:
    """Stitches that remain, and the bind-offs at one edge that should use them up; `rows` times each."""

    span: Span
    remaining: Figure
    each: tuple[Figure, ...]
    rows: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Motif:
    """`Work the 24-st motif once`, in the round with an index."""

    span: Span
    stitches: int
    round: int


@dataclass(frozen=True, slots=True)
class Resumed:
    """A pattern of rows that stopped after one row and goes on with another; `rows` is its length."""

    span: Span
    stopped: int
    goes_on: int
    rows: int


@dataclass(frozen=True, slots=True)
class Mirror:
    """Two lines of which one mirrors the other, and the decrease that both name."""

    span: Span
    other: Span


@dataclass(frozen=True, slots=True)
class Described:
    """A stitch that is said to decrease by `said` stitches, and whose description takes away `taken`.

    With `together` they are the stitches that its name draws together, and how often its words begin one.
    """

    span: Span
    said: int
    taken: int
    together: bool = False


@dataclass(frozen=True, slots=True)
class Cable:
    """A cable called by its number of stitches: `sts` by its name, `worked` and what is `slipped` and taken `back`.

    `held` is "front" or "back" where its stitches wait there although the name tells of the other side.
    """

    span: Span
    sts: int
    worked: int
    slipped: int
    back: int
    held: str = ""


@dataclass(frozen=True, slots=True)
class Sum:
    """Stitches told part by part, and the number that they are said to be in all."""

    span: Span
    parts: tuple[Figure, ...]
    total: Figure


@dataclass(frozen=True, slots=True)
class Sayings:
    """All of them, in the draft's order."""

    schedules: tuple[Schedule, ...] = ()
    bind_offs: tuple[BindOffs, ...] = ()
    motifs: tuple[Motif, ...] = ()
    resumed: tuple[Resumed, ...] = ()
    mirrors: tuple[Mirror, ...] = ()
    described: tuple[Described, ...] = ()
    cables: tuple[Cable, ...] = ()
    sums: tuple[Sum, ...] = ()


UNSAID = Sayings()
