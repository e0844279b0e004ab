"""The pieces of a draft as they grow, one size at a time: courses of rounds, how wide and how tall each is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from ..lint.pattern import RepeatRounds, Round
from ..lint.proof import Proof
from ..lint.steps import OtherSide, Repeat, Ring, Step, Together, Work
from ..lint.working.shape import begins_piece
from ..lint.workings import RoundWorking, SizeWorking, Standing
from .scale import Scale, scale_of
from .words import one_line, section_title


@dataclass(frozen=True, slots=True)
class Course:
    """One entry of the draft for one size: `rows` rounds or rows that end on `width` stitches.

    `width` counts stitches and the chains between them; None where it was not worked. `makes` and `says` are the
    counts in `unit`, as the draft counts them. `height` is that of one row, in widths of a stitch. `number` is the
    draft's own number of the last row. `hidden` marks rounds that the draft declares and doesn't write out; `measured`
    those that go on until a measurement, so that how many they are isn't known.
    """

    label: str
    line: int
    rows: int
    width: int | None
    makes: int | None
    says: int | None
    height: float
    unit: str = "sts"
    number: int | None = None
    hidden: bool = False
    measured: bool = False

    @property
    def differs(self) -> bool:
        """Whether the draft says another count than its words make."""
        return self.makes is not None and self.says is not None and self.makes != self.says


@dataclass(frozen=True, slots=True)
class Piece:
    """What is worked in one go from a start to an end, for one size.

    `titles` are the sections it runs through. `base` is its first edge in stitches: 0 where it starts from a ring,
    None where that isn't known.
    """

    titles: tuple[str, ...]
    size: int
    flat: bool
    base: int | None
    courses: tuple[Course, ...]

    @property
    def rows(self) -> int:
        """How many rounds or rows it has."""
        return sum(course.rows for course in self.courses)

    @property
    def title(self) -> str:
        """Return the sections' titles in one."""
        return " + ".join(self.titles)


def pieces(proof: Proof) -> tuple[tuple[Piece, ...], ...]:
    """Return the pieces of each size, in the draft's order; what has no rows of its own is left out."""
    scale = scale_of(proof)
    return tuple(tuple(_pieces(proof, size, scale)) for size in range(proof.pattern.sizes.number))


@dataclass(slots=True)
class _Growing:
    """A piece while its rounds are gathered."""

    section: int
    titles: list[str]
    flat: bool = False
    base: int | None = None
    courses: list[Course] = field(default_factory=list[Course])


def _pieces(proof: Proof, size: int, scale: Scale) -> Iterator[Piece]:
    heights = _row_heights(proof, size, scale)
    now: _Growing | None = None
    for working in proof.workings.rounds:
        round_ = proof.pattern.rounds[working.index]
        own = working.sizes[size] if size < len(working.sizes) else None
        if own is None:
            continue
        if now is None or _starts(now, round_, working, own):
            if now is not None and now.courses:
                yield _done(now, size)
            now = _Growing(round_.section, [])
        now.section = round_.section
        title = one_line(section_title(proof, round_) or "")
        if title and title not in now.titles:
            now.titles.append(title)
        _add(now, proof, working, own, size, heights[working.index])
    if now is not None and now.courses:
        yield _done(now, size)


def _done(now: _Growing, size: int) -> Piece:
    return Piece(tuple(now.titles), size, now.flat, now.base, tuple(now.courses))


def _starts(now: _Growing, round_: Round, working: RoundWorking, own: SizeWorking) -> bool:
    """Tell whether a round is the first of a new piece."""
    begins = begins_piece(round_.steps) or (isinstance(round_.directive, RepeatRounds) and round_.directive.part)
    if round_.foundation or (begins and now.courses):
        return True
    if round_.section == now.section:
        return False
    first = round_.first.values[0] if round_.first else None
    return own.before is None or (working.standing is Standing.UNREAD and first == 1)


def _add(now: _Growing, proof: Proof, working: RoundWorking, own: SizeWorking, size: int, height: float) -> None:
    """Add a round to the piece, with the rounds before it that the draft doesn't write out."""
    round_ = proof.pattern.rounds[working.index]
    width = None if working.standing is Standing.UNREAD else _width(own)
    if round_.foundation:
        now.base = 0 if any(isinstance(step, Ring) for step in round_.steps) and width == 0 else width
        return
    courses = now.courses
    if not courses:
        now.flat = round_.flat
        if now.base is None:
            now.base = 0 if _from_the_middle(round_) else own.before
    first, last = (figure.at(size) if figure else None for figure in (round_.first, round_.last))
    courses += _unwritten(proof, courses, first)
    rows = own.rounds if round_.directive is not None or first is None or last is None else last - first + 1
    if round_.listed:
        rows = len(round_.listed)
    courses.append(
        Course(
            label=one_line(round_.label),
            line=proof.draft.position(round_.heading.start).line,
            rows=max(rows, 1),
            width=width,
            makes=None if working.standing is Standing.UNREAD else own.count,
            says=own.stated,
            height=height,
            unit=working.unit,
            number=last,
            measured=round_.directive is not None and round_.directive.measured,
        )
    )


def _unwritten(proof: Proof, courses: list[Course], first: int | None) -> Iterator[Course]:
    """Give the rounds between the last one and this, where the draft declares some that it doesn't write out."""
    before = courses[-1] if courses else None
    if before is None or before.number is None or first is None or not 0 < (gap := first - before.number - 1) < 3:
        return
    pattern = proof.pattern
    if pattern.elisions or any(round_.elided for round_ in pattern.rounds):
        label = f"{gap} not written out"
        yield replace(before, label=label, rows=gap, says=None, number=first - 1, hidden=True, measured=False)


def _from_the_middle(round_: Round) -> bool:
    """Tell whether a round is worked out from its middle: into a ring, or around a chain."""
    return not round_.flat and any(
        isinstance(step, Ring | OtherSide) or (isinstance(step, Work | Together) and step.where.at.value == "ring")
        for step in _all_steps(round_.steps)
    )


def _all_steps(steps: tuple[Step, ...]) -> Iterator[Step]:
    for step in steps:
        yield step
        if isinstance(step, Repeat):
            yield from _all_steps(step.steps)


def _width(own: SizeWorking) -> int | None:
    """Return how many stitches wide a row is, chains between them counted."""
    if not own.kinds:
        return own.count
    chains = sum(length * number for length, number in own.lengths)
    return sum(number for _, number in own.kinds) + chains


def _row_heights(proof: Proof, size: int, scale: Scale) -> dict[int, float]:
    """Return the height of one row of each round, in widths of a stitch: where it works others again, their mean."""
    heights: dict[int, float] = {}
    for working in proof.workings.rounds:
        own = working.sizes[size] if size < len(working.sizes) else None
        again = [heights[index] for index in working.covers if index in heights]
        heights[working.index] = sum(again) / len(again) if again else scale.row(own.kinds if own else ())
    return heights
