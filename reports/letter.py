"""The letter to the designer, in Markdown: what to correct, what to decide, matters of style, each with a blank."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ..lint.finding import Finding, Level
from ..lint.proof import Proof
from ..lint.workings import Standing
from .said import change_words, found_words, kind_words, reading_words, share_words
from .words import excerpt, listed, marks, one_line, place_of, reason_of, safe, size_names

_WIDTH = 76
_SPECIAL = re.compile(r"([\\`*_\[\]<>~&$])")
_BLANK = "Answer: " + "." * 60
_PARTS = {
    Level.CORRECTION: ("Corrections", "Here the words and the figures can't both stand. Please say which is meant."),
    Level.QUERY: ("Queries", "Here the draft can be read in two ways, or something looks doubtful. Please decide."),
    Level.STYLE: ("Style", "Nobody's stitches come out wrong by these. Please say what you prefer."),
}


def letter(proofs: Sequence[Proof]) -> str:
    """Return a letter for each draft, one after the other."""
    return "\n\n---\n\n".join("\n".join(_letter(proof)) for proof in proofs)


def _letter(proof: Proof) -> Iterator[str]:
    yield f"# Proof of {_plain(proof.draft.path)}"
    yield ""
    yield _plain(kind_words(proof))
    found = found_words(proof)
    if not found:
        yield ""
        yield f"Nothing was found in what was worked. {_plain(share_words(proof))}"
    else:
        yield ""
        yield (
            f"Every round that could be read was worked for every size. That gave {found}, each listed below with the "
            "words of the draft, the sum behind it, and room for your answer. Line numbers are those of the file."
        )
    number = 0
    for level, (title, please) in _PARTS.items():
        own = [finding for finding in proof.findings if finding.level is level]
        if own:
            yield from ("", f"## {title}", "", please)
        for finding in own:
            number += 1
            yield from ("", *_item(proof, finding, number))
    yield from ("", *_worked(proof, said=not found))


def _item(proof: Proof, finding: Finding, number: int) -> Iterator[str]:
    """Give one numbered entry; what belongs to it is set in below its number."""
    place = place_of(proof.draft, finding.span)
    names = size_names(proof, finding.sizes)
    where = f"Line {place.line}"
    if place.end_line != place.line:
        where = f"Lines {place.line} to {place.end_line}"
    sizes = f" ({_plain(listed(names))})" if names else ""
    lead = f"{number}. "
    margin = " " * len(lead)
    yield f"{lead}**{where}**{sizes}: {_plain(finding.message)} ({finding.rule})"
    shown = excerpt(proof.draft, finding.span, _WIDTH - len(margin))
    quotation = [shown.text, marks(shown)]
    yield from ("", *(margin + line for line in _verbatim(quotation)))
    if finding.sum:
        yield from ("", f"{margin}The sum:", "", *(margin + line for line in _verbatim(finding.sum)))
    if finding.asides:
        yield ""
        for aside in finding.asides:
            line = proof.draft.position(aside.span.start).line
            yield f"{margin}See also line {line}: {_plain(aside.label)}."
    if finding.change:
        change = change_words(proof, finding.change).replace(": ", ", ", 1)
        yield from ("", f"{margin}A change that makes it agree: {_plain(change)}.")
    yield from ("", margin + _BLANK)


def _worked(proof: Proof, *, said: bool) -> Iterator[str]:
    """Give what was and what wasn't worked; its share only where the letter hasn't said it before."""
    unread = [working for working in proof.workings.rounds if working.standing is Standing.UNREAD]
    readings = list(reading_words(proof.workings.readings))
    yield "## How much was worked"
    if not said:
        yield from ("", _plain(share_words(proof)))
    if unread:
        yield from ("", "These were not read, so nothing is said of their counts:", "")
        for working in unread:
            round_ = proof.pattern.rounds[working.index]
            line = proof.draft.position(round_.heading.start).line
            reason = reason_of(proof, working) or "no reason known"
            yield f"- line {line}, {_plain(round_.label)}: {_plain(reason)}"
    if readings:
        yield from ("", "Where the draft leaves it open:", "")
        yield from (f"- {_plain(reading)}" for reading in readings)
    yield ""
    yield "A proof is no promise of fit, and what was not read has not been checked."


def _verbatim(text: Sequence[str]) -> Iterator[str]:
    """Fence lines so that nothing in them is taken for markup."""
    longest = max((len(run) for line in text for run in re.findall("`+", line)), default=0)
    fence = "`" * max(3, longest + 1)
    yield f"{fence}text"
    yield from (safe(line) for line in text)
    yield fence


def _plain(text: str) -> str:
    """Return words on one line, with all that Markdown would take for markup escaped."""
    return _SPECIAL.sub(r"\\\1", one_line(text))
