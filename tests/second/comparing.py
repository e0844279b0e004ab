"""Holds what the program works against what was laid."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from random import Random

from rowcall.lint.finding import Finding, Level
from rowcall.lint.pattern import Round
from rowcall.lint.proof import Proof, proof
from rowcall.lint.workings import RoundWorking, SizeWorking

from .instructions import ChainRound, FlatChain, OvalChain
from .knit_writing import write_piece
from .knitted import Knitted
from .laying import Row, spaces, stitches
from .needles import loops
from .random_patterns import Laid
from .writing import Alteration, Written, write


def disagreements(laid: Laid, written: Written) -> list[str]:
    """Proof a draft in which all is right and tell what the program says otherwise."""
    found = proof(written.text)
    wanted = [[(stitches(row), spaces(row)) for row in rows] for rows in laid.rows]
    return [*_foundations(laid, found), *_rounds(wanted, written, found), *map(_told, corrections(found))]


def disagreements_in_knitting(knitted: Knitted, written: Written) -> list[str]:
    """Proof a knitted draft in which all is right and tell what the program says otherwise."""
    found = proof(written.text)
    piece = knitted.piece
    wanted = [[(loops(needle), 0) for needle in needles] for needles in (knitted.needles)]
    on = [_counts(working) for round_, working in _pairs(found) if round_.foundation]
    said = [] if on == [piece.cast_on] else [f"foundation: {on} worked, {piece.cast_on} cast on"]
    return [*said, *_rounds(wanted, written, found, rows=False), *map(_told, corrections(found))]


def knitted_with_a_wrong_count(knitted: Knitted, random: Random) -> tuple[Written, Alteration]:
    """Write a piece with one of its stated counts wrong by one or two."""
    line = random.randint(0, len(knitted.needles) - 1)
    size = random.randint(0, knitted.piece.number - 1)
    altered = Alteration(line, size, random.choice((1, -1, 2, -2)))
    return write_piece(knitted.piece, knitted.needles, random, altered), altered


def with_a_wrong_count(laid: Laid, random: Random) -> tuple[Written, Alteration]:
    """Write a pattern with one of its stated counts wrong by one or two."""
    # whether the chains skipped at the start of a first row count as a stitch is open until its count tells
    line = random.randint(int(laid.pattern.flat), len(laid.rows) - 1)
    size = random.randint(0, laid.pattern.number - 1)
    row = laid.rows[line][size]
    # a count that holds the chains, or the spaces, as stitches is another way of counting and no slip; one of twice
    # or half the stitches may count something else
    made = stitches(row)
    wrong = [by for by in (1, -1, 2, -2) if made + by not in _ways_to_count(row) and made < 2 * (made + by) < 4 * made]
    altered = Alteration(line, size, random.choice(wrong))
    return write(laid.pattern, laid.rows, random, altered), altered


def is_corrected(written: Written, altered: Alteration) -> bool:
    """Tell whether a proof has a correction in the line with the wrong count or in the one after it."""
    start, end = written.places[altered.line]
    if altered.line + 1 < len(written.places):
        end = written.places[altered.line + 1][1]
    return any(start <= finding.span.start < end for finding in corrections(proof(written.text)))


def _ways_to_count(row: Row) -> set[int]:
    chains = sum(place.chains for place in row)
    return {stitches(row), stitches(row) + chains, stitches(row) + spaces(row)}


def corrections(found: Proof) -> list[Finding]:
    """Return the findings that are corrections."""
    return [finding for finding in found.findings if finding.level is Level.CORRECTION]


def _told(finding: Finding) -> str:
    return f"{finding.rule}: {finding.message}"


def _foundations(laid: Laid, found: Proof) -> Iterator[str]:
    """Compare the foundation chain, where there is one."""
    start = laid.pattern.start
    if isinstance(start, ChainRound | OvalChain | FlatChain):
        worked = [_counts(working) for round_, working in _pairs(found) if round_.foundation]
        if worked != [start.chains]:
            yield f"foundation: {worked} worked, {start.chains} chained"


def _rounds(
    wanted: Sequence[Sequence[tuple[int, int]]], written: Written, found: Proof, *, rows: bool = True
) -> Iterator[str]:
    """Compare every line and size: stitches, spaces, the count stated, and with `rows` how many rounds there were."""
    pairs = [(round_, working) for round_, working in _pairs(found) if not round_.foundation]
    if len(pairs) != len(wanted):
        yield f"{len(wanted)} lines were written, {len(pairs)} read: {[round_.label for round_, _ in pairs]}"
        return
    for (round_, working), laid, stated, rounds in zip(pairs, wanted, written.stated, written.rounds, strict=True):
        if working.reason is not None:
            yield f"{round_.label}: {working.reason}"
            continue
        sizes = [size for size in working.sizes if size is not None]
        if len(working.sizes) != len(laid) or len(sizes) != len(laid):
            yield f"{round_.label}: {len(sizes)} of {len(laid)} sizes worked"
            continue
        if (came := [_worked(size) for size in sizes]) != laid:
            yield f"{round_.label}: {came} stitches and spaces worked, {laid} laid"
        if (read := tuple(size.stated for size in sizes)) != (stated or (None,) * len(sizes)):
            yield f"{round_.label}: {read} read as stated, {stated} written"
        if rows and (often := tuple(size.rounds for size in sizes)) != rounds:
            yield f"{round_.label}: {often} rounds worked, {rounds} laid"


def _worked(size: SizeWorking) -> tuple[int | None, int]:
    return size.count, size.spaces


def _counts(working: RoundWorking) -> tuple[int | None, ...]:
    return tuple(size.count if size else None for size in working.sizes)


def _pairs(found: Proof) -> list[tuple[Round, RoundWorking]]:
    return [(found.pattern.rounds[working.index], working) for working in found.workings.rounds]
