"""The brief report: a line a finding, in the form that editors and other programs know how to jump to."""

from __future__ import annotations

from ..lint.proof import Proof
from .words import one_line, place_of, stand_words, tally_words


def brief(proof: Proof) -> str:
    """Return `file:line:column: level: message [rule]` for each finding, and last how much was worked."""
    path = one_line(proof.draft.path)
    lines: list[str] = []
    for finding in proof.findings:
        place = place_of(proof.draft, finding.span)
        message = one_line(finding.message)
        lines.append(f"{path}:{place.line}:{place.column}: {finding.level.word}: {message} [{finding.rule}]")
    stands = f", {stand_words(proof)}" if proof.stood else ""
    lines.append(f"{path}: {tally_words(proof.tally)}{stands}")
    return "\n".join(lines)
