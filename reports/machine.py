"""The machine report: one JSON document; `machine-output.schema.json` beside this module is its contract."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict
from importlib import metadata, resources
from typing import TYPE_CHECKING

from ..lint.draft import Draft
from ..lint.figures import Figure
from ..lint.finding import Change, Finding
from ..lint.workings import RoundWorking
from .words import counts_of, place_of, reason_of, section_title

if TYPE_CHECKING:
    from ..lint.proof import Proof

Json = dict[str, object]


def machine(proofs: Sequence[Proof]) -> str:
    """Return the JSON document of all proofs; plain ASCII, so that no terminal or encoding can spoil it."""
    return json.dumps(document(proofs), indent=2)


def document(proofs: Sequence[Proof]) -> Json:
    """Return the document as plain dicts and lists."""
    return _document([_draft(proof) for proof in proofs])


def machine_piece(proof: Proof) -> str:
    """Return what the document says of one draft, to be joined with others by `machine_of`."""
    return json.dumps(_draft(proof))


def machine_of(pieces: Sequence[str]) -> str:
    """Return the JSON document of the pieces of all drafts."""
    return json.dumps(_document([json.loads(piece) for piece in pieces]), indent=2)


def _document(drafts: list[Json]) -> Json:
    return {"tool": {"name": "rowcall", "version": metadata.version("rowcall")}, "drafts": drafts}


def schema() -> Json:
    """Return the JSON Schema of the document."""
    file = resources.files(__package__ or "rowcall.reports") / "machine-output.schema.json"
    return json.loads(file.read_text(encoding="utf-8"))


def _draft(proof: Proof) -> Json:
    pattern = proof.pattern
    return {
        "path": proof.draft.path,
        "craft": pattern.craft,
        "terms": pattern.terms,
        "sizes": list(pattern.sizes.names),
        "rounds": [_round(proof, working) for working in proof.workings.rounds],
        "findings": [_finding(proof, finding) for finding in proof.findings],
        "tally": asdict(proof.tally),
    }


def _round(proof: Proof, working: RoundWorking) -> Json:
    pattern = proof.pattern
    round_ = pattern.rounds[working.index]
    worked, stated = counts_of(working, pattern.sizes.number)
    return {
        "line": proof.draft.position(round_.heading.start).line,
        "section": section_title(proof, round_),
        "label": round_.label,
        "first": _bound(round_.first, least=True),
        "last": _bound(round_.last, least=False),
        "worked": worked,
        "stated": None if all(count is None for count in stated) else stated,
        "unit": working.unit,
        "standing": working.standing.value,
        "reason": reason_of(proof, working),
    }


def _bound(figure: Figure | None, *, least: bool) -> int | None:
    """Return the lowest or highest number; a heading may cover more rounds in one size than in another."""
    numbers = [value for value in figure.values if value is not None] if figure else []
    if not numbers:
        return None
    return min(numbers) if least else max(numbers)


def _finding(proof: Proof, finding: Finding) -> Json:
    place = place_of(proof.draft, finding.span)
    names = proof.pattern.sizes.names
    return {
        "rule": finding.rule,
        "level": finding.level.word,
        "line": place.line,
        "column": place.column,
        "end_line": place.end_line,
        "end_column": place.end_column,
        "sizes": [names[size] for size in finding.sizes if size < len(names)],
        "message": finding.message,
        "sum": list(finding.sum),
        "change": _change(proof.draft, finding.change) if finding.change else None,
    }


def _change(draft: Draft, change: Change) -> Json | None:
    """Return a change within one line; the contract has no room for one that runs over a line end."""
    place = place_of(draft, change.span)
    if place.end_line != place.line:
        return None
    return {"line": place.line, "column": place.column, "end_column": place.end_column, "to": change.to}
