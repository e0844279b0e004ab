"""The sheet of a draft: all that a page shows of it, as data: marked lines, margin notes, counts, what was worked."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from ..lint.draft import Draft, Span
from ..lint.figures import FigureList
from ..lint.finding import Finding, Level
from ..lint.proof import Proof
from ..lint.workings import RoundWorking, SizeWorking, Standing
from .said import change_words, found_words, kind_words, reading_words, share_words
from .words import counts_of, listed, one_line, place_of, reason_of, safe, section_title, size_names

_ELEMENT = re.compile(r"[^\s()\[\]{},:;/]+")
_STANDINGS = {
    Standing.AGREES: "agrees",
    Standing.UNSTATED: "no count stated",
    Standing.UNREAD: "not read",
}


@dataclass(frozen=True, slots=True)
class Stretch:
    """Words of a line that are marked alike.

    `notes` are the numbers of the notes about them and `level` the gravest of these; `begins` are the notes whose
    words begin here and `ends` those whose words end here. `sizes` are the sizes that they are for, None for all.
    """

    text: str
    notes: tuple[int, ...] = ()
    level: Level | None = None
    begins: tuple[int, ...] = ()
    ends: tuple[int, ...] = ()
    sizes: tuple[int, ...] | None = None
    figure: bool = False


@dataclass(frozen=True, slots=True)
class DraftLine:
    """A line of the draft with the number that it has there."""

    number: int
    stretches: tuple[Stretch, ...]


@dataclass(frozen=True, slots=True)
class Note:
    """A finding as it stands in the margin. `see` are other places: a line and what is there."""

    number: int
    level: Level
    rule: str
    line: int
    sizes: tuple[int, ...]
    size_words: str
    message: str
    sum: tuple[str, ...]
    change: str | None
    see: tuple[tuple[int, str], ...]


@dataclass(frozen=True, slots=True)
class Strip:
    """Lines of the draft, and the notes that belong to the first of them."""

    lines: tuple[DraftLine, ...]
    notes: tuple[Note, ...]


@dataclass(frozen=True, slots=True)
class Cell:
    """The counts of a round for one size; both None where the round isn't for it."""

    size: int
    makes: int | None
    says: int | None

    @property
    def differs(self) -> bool:
        """Whether the draft says another count than its words make."""
        return self.makes is not None and self.says is not None and self.makes != self.says


@dataclass(frozen=True, slots=True)
class Row:
    """A round in the table of counts. `title` is set on the first round of a section that has one."""

    title: str | None
    line: int
    label: str
    unit: str
    cells: tuple[Cell, ...]
    standing: str
    differs: bool


@dataclass(frozen=True, slots=True)
class Sheet:
    """All that a page shows of a draft, but for its shape. `unread` and `stood` pair a line with words about it."""

    path: str
    kind: str
    found: str
    share: str
    sizes: tuple[str, ...]
    strips: tuple[Strip, ...]
    rows: tuple[Row, ...]
    unread: tuple[tuple[int, str], ...]
    stood: tuple[tuple[int, str], ...]
    readings: tuple[str, ...]


def sheet(proof: Proof) -> Sheet:
    """Return the sheet of a proof."""
    line_of = proof.draft.position
    unread = [one for one in proof.workings.rounds if one.standing is Standing.UNREAD]
    return Sheet(
        path=one_line(proof.draft.path),
        kind=kind_words(proof),
        found=found_words(proof),
        share=share_words(proof),
        sizes=size_names(proof, range(len(proof.pattern.sizes.names))),
        strips=tuple(_strips(proof)),
        rows=tuple(_rows(proof)),
        unread=tuple(_unread(proof, working) for working in unread),
        stood=tuple(
            (line_of(one.finding.span.start).line, f"{one.finding.rule}: {one_line(one.because)}")
            for one in proof.stood
        ),
        readings=tuple(reading_words(proof.workings.readings)),
    )


def _unread(proof: Proof, working: RoundWorking) -> tuple[int, str]:
    round_ = proof.pattern.rounds[working.index]
    reason = one_line(reason_of(proof, working) or "no reason known")
    return proof.draft.position(round_.heading.start).line, f"{one_line(round_.label)}: {reason}"


# ---------------------------------------------------------------- the draft and its margin


def _strips(proof: Proof) -> Iterator[Strip]:
    """Part the draft before each line that has notes."""
    notes: dict[int, list[Note]] = defaultdict(list)
    for number, finding in enumerate(proof.findings, start=1):
        notes[_index(proof.draft, finding.span.start)].append(_note(proof, finding, number))
    lines = [*_lines(proof)]
    starts = sorted({0, *notes})
    for start, end in pairwise((*starts, len(lines))):
        yield Strip(tuple(lines[start:end]), tuple(notes.get(start, ())))


def _note(proof: Proof, finding: Finding, number: int) -> Note:
    return Note(
        number=number,
        level=finding.level,
        rule=finding.rule,
        line=place_of(proof.draft, finding.span).line,
        sizes=finding.sizes,
        size_words=listed(size_names(proof, finding.sizes)),
        message=one_line(finding.message),
        sum=tuple(safe(line) for line in finding.sum),
        change=change_words(proof, finding.change) if finding.change else None,
        see=tuple((proof.draft.position(one.span.start).line, one_line(one.label)) for one in finding.asides),
    )


@dataclass(frozen=True, slots=True)
class _Marked:
    """A stretch of the draft about which something is known: a note's number, or the sizes it is for."""

    span: Span
    note: int = 0
    sizes: tuple[int, ...] | None = None
    figure: bool = False


def _lines(proof: Proof) -> Iterator[DraftLine]:
    draft = proof.draft
    here: dict[int, list[_Marked]] = defaultdict(list)
    for marked in _all_marked(proof):
        for index in range(_index(draft, marked.span.start), _index(draft, _last(marked.span)) + 1):
            here[index].append(marked)
    levels = [finding.level for finding in proof.findings]
    for index, origin in enumerate(draft.origins):
        yield DraftLine(origin.line, tuple(_stretches(draft, draft.line_span(index), here[index], levels)))


def _last(span: Span) -> int:
    return max(span.start, span.end - 1)


def _index(draft: Draft, offset: int) -> int:
    return bisect_right(draft.starts, offset) - 1


def _all_marked(proof: Proof) -> Iterator[_Marked]:
    """Give what is marked: the words of findings, and what is for some sizes only, the wider before the narrower."""
    for number, finding in enumerate(proof.findings, start=1):
        yield _Marked(finding.span, note=number)
    sizes = proof.pattern.sizes
    if sizes.number == 1:
        return
    for round_ in proof.pattern.rounds:
        if round_.sizes is not None and len(round_.sizes) < sizes.number:
            yield _Marked(round_.span, sizes=round_.sizes)
    for figures in proof.pattern.lists:
        for size, span in enumerate(elements(proof.draft, figures, sizes.number)):
            yield _Marked(span, sizes=(size,), figure=True)
    if sizes.span is not None:
        yield from _names(proof.draft, sizes.span, sizes.names)


def elements(draft: Draft, figures: FigureList, sizes: int) -> tuple[Span, ...]:
    """Return where each figure of a list stands; none where it hasn't one for each size."""
    found = [*_ELEMENT.finditer(draft.words(figures.span))]
    if len(figures.values) != sizes or len(found) != sizes:
        return ()
    start = figures.span.start
    return tuple(Span(start + one.start(), start + one.end()) for one in found)


def _names(draft: Draft, span: Span, names: Sequence[str]) -> Iterator[_Marked]:
    """Give the names of the sizes where the draft lists them, to the end of the line."""
    line = draft.line_span(_index(draft, span.end))
    text, start = draft.words(Span(span.start, max(span.end, line.end))), 0
    for size, name in enumerate(names):
        found = text.find(name, start)
        if found >= 0:
            start = found + len(name)
            yield _Marked(Span(span.start + found, span.start + start), sizes=(size,), figure=True)


def _stretches(draft: Draft, line: Span, marked: Sequence[_Marked], levels: Sequence[Level]) -> Iterator[Stretch]:
    """Cut a line wherever something begins or ends."""
    edges = {line.start, line.end}
    ends: dict[int, list[int]] = defaultdict(list)
    for one in marked:
        edges |= {min(max(edge, line.start), line.end) for edge in (one.span.start, one.span.end)}
        if (
            one.note
            and (end := _end(draft, one.span)) >= line.start
            and _index(draft, end) == _index(draft, line.start)
        ):
            ends[min(end, line.end)].append(one.note)
    cuts = sorted(edges)
    if line.start in ends or len(cuts) == 1:
        cuts.insert(0, line.start)
    for start, end in pairwise(cuts):
        over = [one for one in marked if one.span.start <= start and end <= one.span.end and start < end]
        notes = tuple(one.note for one in over if one.note)
        for_sizes = [one for one in over if one.sizes is not None]
        yield Stretch(
            text=_shown(draft.words(Span(start, end))),
            notes=notes,
            level=max((levels[note - 1] for note in notes), default=None),
            begins=tuple(one.note for one in over if one.note and one.span.start == start),
            ends=tuple(ends[end]) if end in ends else (),
            sizes=for_sizes[-1].sizes if for_sizes else None,
            figure=bool(for_sizes) and for_sizes[-1].figure,
        )


def _end(draft: Draft, span: Span) -> int:
    """Return where the words of a finding end; a line end after them is no part of them."""
    return span.start + len(draft.words(span).rstrip("\r\n"))


def _shown(text: str) -> str:
    """Return words of the draft harmless to a reader, with their tabs."""
    return "\t".join(safe(part) for part in text.split("\t"))


# ---------------------------------------------------------------- counts


def _rows(proof: Proof) -> Iterator[Row]:
    section = -1
    number = proof.pattern.sizes.number
    for working in proof.workings.rounds:
        round_ = proof.pattern.rounds[working.index]
        title = one_line(section_title(proof, round_) or "") if round_.section != section else ""
        section = round_.section
        worked, stated = counts_of(working, number)
        cells = tuple(Cell(size, worked[size], stated[size]) for size in range(number))
        yield Row(
            title=title or None,
            line=proof.draft.position(round_.heading.start).line,
            label=one_line(round_.label),
            unit="" if working.unit == "sts" else one_line(working.unit),
            cells=cells,
            standing=_standing(proof, working),
            differs=working.standing is Standing.DIFFERS,
        )


def _standing(proof: Proof, working: RoundWorking) -> str:
    if working.standing is not Standing.DIFFERS:
        return _STANDINGS[working.standing]
    names = size_names(proof, _differing(working.sizes))
    return f"differs for {listed(names)}" if names else "differs"


def _differing(sizes: Iterable[SizeWorking | None]) -> Iterator[int]:
    return (size for size, own in enumerate(sizes) if own is not None and own.agrees is False)
