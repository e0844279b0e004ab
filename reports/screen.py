"""The proof on the screen: a numbered list as a tech editor hands it back, and how much was worked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from io import StringIO

from ..lint.finding import Finding, Level
from ..lint.proof import Proof
from ..lint.workings import Standing
from .said import change_words, found_words, kind_words, reading_words, share_words
from .words import excerpt, folded, listed, marks, one_line, place_of, reason_of, safe, size_names, stand_words

MOST_UNREAD = 12

_LABEL = 8  # columns of the words down the left side: draft, sizes, sum, change, see
_STYLES = {Level.CORRECTION: "bold red", Level.QUERY: "yellow", Level.STYLE: "cyan"}


@dataclass(frozen=True, slots=True)
class _Line:
    text: str
    style: str = ""


def screen(proof: Proof, width: int = 80, *, colour: bool = False) -> str:
    """Return the proof of one draft for a screen `width` columns wide; no line is wider."""
    lines = [*_head(proof, width)]
    for number, finding in enumerate(proof.findings, start=1):
        lines += [_Line(""), *_query(proof, finding, number, width)]
    lines += [_Line(""), *_worked(proof, width)]
    return _painted(lines) if colour else "\n".join(line.text for line in lines)


def _painted(lines: Sequence[_Line]) -> str:
    from rich.console import Console  # noqa: PLC0415 - rich is imported only where something is printed
    from rich.text import Text  # noqa: PLC0415

    console = Console(
        file=StringIO(), force_terminal=True, color_system="standard", no_color=False, legacy_windows=False
    )
    with console.capture() as captured:
        for line in lines:
            console.print(Text(line.text, style=line.style), soft_wrap=True)
    return captured.get().rstrip("\n")


def _head(proof: Proof, width: int) -> Iterator[_Line]:
    for text in folded(one_line(proof.draft.path), width):
        yield _Line(text, "bold")
    for text in folded(kind_words(proof), width):
        yield _Line(text)
    found = found_words(proof)
    if found:
        yield from map(_Line, folded(f"Found: {found}.", width))
    elif proof.tally.worked:
        yield _Line("Nothing found in what was worked.")
    else:
        yield _Line("Nothing found, and nothing was worked.")


def _query(proof: Proof, finding: Finding, number: int, width: int) -> Iterator[_Line]:
    place = place_of(proof.draft, finding.span)
    lines = f"Line {place.line}"
    if place.end_line != place.line:
        lines = f"Lines {place.line} to {place.end_line}"
    lead = f"{number}. "
    where = f"{lines}, column {place.column}: {finding.level.word}, {finding.rule}"
    for text in folded(where, width, lead):
        yield _Line(text, _STYLES[finding.level])
    margin = " " * len(lead)
    for text in folded(one_line(finding.message), width, margin):
        yield _Line(text, "bold")
    shown = excerpt(proof.draft, finding.span, width - len(margin) - _LABEL)
    yield _Line(f"{margin}{'draft':<{_LABEL}}{shown.text}")
    yield _Line(f"{margin}{'':<{_LABEL}}{marks(shown)}", _STYLES[finding.level])
    for label, text in _details(proof, finding):
        for folding in folded(text, width, f"{margin}{label:<{_LABEL}}", margin + " " * _LABEL):
            yield _Line(folding)


def _details(proof: Proof, finding: Finding) -> Iterator[tuple[str, str]]:
    """Give what stands below the words of the draft, each with the word that stands left of it."""
    names = size_names(proof, finding.sizes)
    if names:
        yield "sizes", listed(names)
    for index, line in enumerate(finding.sum):
        yield "" if index else "sum", safe(line)
    if finding.change:
        yield "change", change_words(proof, finding.change)
    for index, aside in enumerate(finding.asides):
        line = proof.draft.position(aside.span.start).line
        yield "" if index else "see", f"line {line}: {one_line(aside.label)}"


def _worked(proof: Proof, width: int) -> Iterator[_Line]:
    yield _Line("How much was worked", "bold")
    for text in folded(share_words(proof), width, "  "):
        yield _Line(text)
    unread = [working for working in proof.workings.rounds if working.standing is Standing.UNREAD]
    if unread:
        for text in folded("Not read, so nothing is said of their counts:", width, "  "):
            yield _Line(text)
        for working in unread[:MOST_UNREAD]:
            round_ = proof.pattern.rounds[working.index]
            line = proof.draft.position(round_.heading.start).line
            reason = one_line(reason_of(proof, working) or "no reason known")
            for text in folded(f"line {line}, {one_line(round_.label)}: {reason}", width, "    ", "      "):
                yield _Line(text)
        if len(unread) > MOST_UNREAD:
            yield _Line(f"    and {len(unread) - MOST_UNREAD} more")
    if proof.stood:
        yield _Line(f"  As was agreed, {stand_words(proof)}:")
        for one in proof.stood:
            line = proof.draft.position(one.finding.span.start).line
            words = f"line {line}, {one.finding.rule}: {one_line(one.because)}"
            yield from map(_Line, folded(words, width, "    ", "      "))
    readings = list(reading_words(proof.workings.readings))
    if readings:
        yield _Line("  Where the draft leaves it open:")
        for reading in readings:
            for text in folded(reading, width, "    ", "      "):
                yield _Line(text)
