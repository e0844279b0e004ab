"""The line report: a line a finding, in the form that editors and other programs know how to jump to."""

from __future__ import annotations

from ..lint.proof import Proof
from .words import one_line, place_of, stand_words, tally_words


def lines(proof: Proof) -> str:
    """Return `file:line.column-line.column: level: message [rule]` for each finding, and last how much was worked.

    Lines and columns count from 1 and both ends belong to the words, after the GNU coding standards' error lines.
    """
    path = one_line(proof.draft.path)
    told: list[str] = []
    for finding in proof.findings:
        place = place_of(proof.draft, finding.span)
        first = f"{place.line}.{place.column}"
        last = f"{place.end_line}.{max(place.end_column - 1, 1)}"
        if (place.line, place.column) == (place.end_line, place.end_column):
            last = first
        message = one_line(finding.message)
        told.append(f"{path}:{first}-{last}: {finding.level.word}: {message} [{finding.rule}]")
    stands = f", {stand_words(proof)}" if proof.stood else ""
    told.append(f"{path}: {tally_words(proof.tally)}{stands}")
    return "\n".join(told)
