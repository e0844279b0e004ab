"""The figures report: comma-separated counts for a spreadsheet, a row for each round and size."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from io import StringIO

from ..lint.proof import Proof
from ..lint.workings import SizeWorking, Standing
from .words import counts_of, one_line, reason_of, section_title

HEAD = ("draft", "line", "section", "round", "size", "says", "makes", "unit", "standing", "reason")
_STANDINGS = {True: Standing.AGREES, False: Standing.DIFFERS, None: Standing.UNSTATED}
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def figures(proofs: Sequence[Proof]) -> str:
    """Return the table of all drafts; a count that is not stated or not worked is left empty."""
    table = StringIO()
    writer = csv.writer(table, lineterminator="\n")
    writer.writerow(HEAD)
    for proof in proofs:
        writer.writerows(map(_cell, row) for row in _rows(proof))
    return table.getvalue().rstrip("\n")


def _rows(proof: Proof) -> Iterator[tuple[str | int | None, ...]]:
    names = proof.pattern.sizes.names or ("",)
    for working in proof.workings.rounds:
        round_ = proof.pattern.rounds[working.index]
        worked, stated = counts_of(working, len(names))
        for name, own, makes, says in zip(names, working.sizes, worked, stated, strict=False):
            if own is not None:
                yield (
                    proof.draft.path,
                    proof.draft.position(round_.heading.start).line,
                    section_title(proof, round_),
                    round_.label,
                    name,
                    says,
                    makes,
                    working.unit,
                    _standing(working.standing, own).value,
                    reason_of(proof, working),
                )


def _standing(whole: Standing, own: SizeWorking) -> Standing:
    return whole if whole is Standing.UNREAD or own.count is None else _STANDINGS[own.agrees]


def _cell(value: str | int | None) -> str | int:
    """Return a value for a cell; words that a spreadsheet would take for a formula get an apostrophe before them."""
    if value is None or isinstance(value, int):
        return "" if value is None else value
    text = one_line(value)
    return f"'{text}" if text.startswith(_FORMULA) else text
