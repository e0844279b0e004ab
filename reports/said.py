"""What every report to read says of a proof: what the draft is, what was found, how much of it was worked."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ..lint.finding import Change, Level
from ..lint.proof import Proof
from ..lint.workings import Reading
from .words import listed, one_line, place_of, plural, size_names

NOUNS = {
    Level.CORRECTION: ("correction", "corrections"),
    Level.QUERY: ("query", "queries"),
    Level.STYLE: ("matter of style", "matters of style"),
}
_CHAIN = re.compile(r"ch-(\d+)-counts(-joined-to-it)?(-in-ring)?")
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


def found_words(proof: Proof) -> str:
    """Say how many corrections, queries and matters of style were found, gravest first; empty where none were."""
    levels = [finding.level for finding in proof.findings]
    return listed([plural(levels.count(level), *NOUNS[level]) for level in sorted(set(levels), reverse=True)])


def change_words(proof: Proof, change: Change) -> str:
    """Say a change with its line: `line 43: "46" to "48"`."""
    place = place_of(proof.draft, change.span)
    old = one_line(proof.draft.words(change.span))
    new = one_line(change.to)
    if not new:
        return f'line {place.line}: leave out "{old}"'
    if not old:
        return f'line {place.line}, column {place.column}: put in "{new}"'
    return f'line {place.line}: "{old}" to "{new}"'


def kind_words(proof: Proof) -> str:
    """Say the craft, terms and sizes of a draft in a sentence."""
    pattern = proof.pattern
    craft = (pattern.craft or "craft not recognised").capitalize()
    terms = f" in {pattern.terms} terms" if pattern.terms else ""
    names = size_names(proof, range(len(pattern.sizes.names)))
    sizes = f"{plural(len(names), 'size')}: {listed(names)}" if names else "one size"
    return f"{craft}{terms}, {sizes}."


def share_words(proof: Proof) -> str:
    """Say how much was worked and how it stands, in a sentence or two."""
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


def reading_words(readings: Sequence[Reading]) -> Iterator[str]:
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
        yield f"{_words_of(*way)} ({fits}, {otherwise[way]} with the other way)"


def _words_of(key: str, holds: bool) -> str:
    chain = _CHAIN.fullmatch(key)
    if chain:
        joined = " where the round is joined to it" if chain[2] else ""
        ring = " in a ring" if chain[3] else ""
        return f"a beginning chain of {chain[1]}{ring} {'counts' if holds else 'does not count'} as a stitch{joined}"
    skipped = _SKIPPED.fullmatch(key)
    if skipped:
        number = int(skipped[1]) - 1
        return f"the {number} chains skipped at the start {'count' if holds else 'do not count'} as a stitch"
    if key in _READINGS:
        return _READINGS[key][0 if holds else 1]
    return f"the reading '{key.replace('-', ' ')}' is {'taken' if holds else 'not taken'}"
