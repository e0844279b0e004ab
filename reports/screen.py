"""The proof on the screen: a numbered list as a tech editor hands it back, and how much was worked."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from io import StringIO

from ..lint.finding import Finding, Level
from ..lint.proof import Proof
from ..lint.workings import Reading, Standing
from .words import excerpt, folded, listed, marks, one_line, place_of, plural, reason_of, safe, size_names, stand_words

MOST_UNREAD = 12

_LABEL = 8  # columns of the words down the left side: draft, sizes, sum, change, see
_STYLES = {Level.CORRECTION: "bold red", Level.QUERY: "yellow", Level.STYLE: "cyan"}
_NOUNS = {
    Level.CORRECTION: ("correction", "corrections"),
    Level.QUERY: ("query", "queries"),
    Level.STYLE: ("matter of style", "matters of style"),
}
_CHAIN = re.compile(r"ch-(\d+)-counts(-joined-to-it)?")
_READINGS = {
    "times-more": (
        "'rep from * n times' is taken as n times more, after the first",
        "'rep from * n times' is taken as n times in all",
    ),
    "skip-is-base": (
        "a stitch skipped after a beginning chain that counts is the one under that chain",
        "a stitch skipped after a beginning chain that counts is the one after that chain",
    ),
    "chains-count": (
        "chains between stitches are counted in the stated counts",
        "chains between stitches are not counted in the stated counts",
    ),
    "n-in-one": (
        "a number before a stitch with no place said ('2 sc') means that many in one stitch",
        "a number before a stitch with no place said ('2 sc') means one in each of that many",
    ),
}
_SKIPPED = re.compile(r"skipped-(\d+)-count")


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
    for text in folded(_kind(proof), width):
        yield _Line(text)
    levels = [finding.level for finding in proof.findings]
    graver_first = sorted(set(levels), reverse=True)
    found = [plural(levels.count(level), *_NOUNS[level]) for level in graver_first]
    if found:
        yield from map(_Line, folded(f"Found: {listed(found)}.", width))
    elif proof.tally.worked:
        yield _Line("Nothing found in what was worked.")
    else:
        yield _Line("Nothing found, and nothing was worked.")


def _kind(proof: Proof) -> str:
    pattern = proof.pattern
    craft = (pattern.craft or "craft not recognised").capitalize()
    terms = f" in {pattern.terms} terms" if pattern.terms else ""
    names = size_names(proof, range(len(pattern.sizes.names)))
    sizes = f"{plural(len(names), 'size')}: {listed(names)}" if names else "one size"
    return f"{craft}{terms}, {sizes}."


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
        place = place_of(proof.draft, finding.change.span)
        old = one_line(proof.draft.words(finding.change.span))
        new = one_line(finding.change.to)
        if not new:
            yield "change", f'line {place.line}: leave out "{old}"'
        elif not old:
            yield "change", f'line {place.line}, column {place.column}: put in "{new}"'
        else:
            yield "change", f'line {place.line}: "{old}" to "{new}"'
    for index, aside in enumerate(finding.asides):
        line = proof.draft.position(aside.span.start).line
        yield "" if index else "see", f"line {line}: {one_line(aside.label)}"


def _worked(proof: Proof, width: int) -> Iterator[_Line]:
    yield _Line("How much was worked", "bold")
    for text in folded(_share(proof), width, "  "):
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
    readings = list(_readings(proof.workings.readings))
    if readings:
        yield _Line("  Where the draft leaves it open:")
        for reading in readings:
            for text in folded(reading, width, "    ", "      "):
                yield _Line(text)


def _share(proof: Proof) -> str:
    tally = proof.tally
    if not tally.rounds:
        return "No rounds or rows were found, so nothing was worked and nothing is said of any count."
    if not tally.worked:
        return f"None of {plural(tally.rounds, 'round')} could be worked."
    parts = (
        f"{tally.agree} {'agrees' if tally.agree == 1 else 'agree'} with the draft's own count",
        f"{tally.differ} {'differs' if tally.differ == 1 else 'differ'} from it",
        f"{tally.unstated} {'has' if tally.unstated == 1 else 'have'} none to compare",
    )
    return f"{tally.worked} of {plural(tally.rounds, 'round')} worked: {listed(parts)}. {tally.unread} not read."


def _readings(readings: Sequence[Reading]) -> Iterator[str]:
    """Say how open conventions were taken, one sentence for each way, with the counts that speak for it."""
    agree: dict[tuple[str, bool], int] = {}
    otherwise: dict[tuple[str, bool], int] = {}
    for reading in readings:
        if reading.agree > 0 and not reading.said:
            way = (reading.key, reading.holds)
            agree[way] = agree.get(way, 0) + reading.agree
            otherwise[way] = otherwise.get(way, 0) + reading.otherwise
    for way, number in agree.items():
        fits = f"{plural(number, 'stated count')} {'agrees' if number == 1 else 'agree'} with that"
        yield f"{_reading_words(*way)} ({fits}, {otherwise[way]} with the other way)"


def _reading_words(key: str, holds: bool) -> str:
    chain = _CHAIN.fullmatch(key)
    if chain:
        joined = " where the round is joined to it" if chain[2] else ""
        return f"a beginning chain of {chain[1]} {'counts' if holds else 'does not count'} as a stitch{joined}"
    skipped = _SKIPPED.fullmatch(key)
    if skipped:
        number = int(skipped[1]) - 1
        return f"the {number} chains skipped at the start {'count' if holds else 'do not count'} as a stitch"
    if key in _READINGS:
        return _READINGS[key][0 if holds else 1]
    return f"the reading '{key.replace('-', ' ')}' is {'taken' if holds else 'not taken'}"
