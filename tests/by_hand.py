"""Proofs built by hand from the types, for tests that must not depend on reading and working."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rowcall.lint.draft import Draft, Span
from rowcall.lint.figures import Figure, Sizes
from rowcall.lint.finding import Change, Finding, Level
from rowcall.lint.pattern import Pattern, Round, Section
from rowcall.lint.proof import Proof
from rowcall.lint.workings import Reading, RoundWorking, SizeWorking, Standing, Workings

HAT = """\
HARBOUR HAT
Sizes: Small (Medium, Large)

Crown
Rnd 1: 10 sc in ring. (10, 10, 10)
Rnd 2: *Sc in next st, inc; rep from * around, join. (15, 16, 15)
Rnd 3: work as the tide allows. (20, 20, 20)
Rnd 4: Sc around.
"""


@dataclass(frozen=True, slots=True)
class Entry:
    """A round as a test states it: its heading, what is worked and stated a size (None: not for it)."""

    label: str
    worked: tuple[int | None, ...]
    stated: tuple[int | None, ...] = ()
    unread: str | None = None
    unit: str = "sts"
    number: int | None = None
    section: int = 0


def span(text: str, words: str, nth: int = 0) -> Span:
    """Return where some words stand in a text, the `nth` time from 0."""
    start = -1
    for _ in range(nth + 1):
        start = text.index(words, start + 1)
    return Span(start, start + len(words))


def proof_by_hand(
    text: str,
    entries: Sequence[Entry] = (),
    findings: Sequence[Finding] = (),
    *,
    path: str = "hat.txt",
    sizes: tuple[str, ...] = (),
    sections: tuple[str | None, ...] = (None,),
    craft: str | None = "crochet",
    terms: str | None = "US",
    readings: tuple[Reading, ...] = (),
) -> Proof:
    """Make a proof of a text with these rounds and findings."""
    whole = Span(0, len(text))
    rounds = tuple(_round(text, entry) for entry in entries)
    pattern = Pattern(craft, terms, Sizes(sizes), tuple(Section(title, whole) for title in sections), rounds)
    workings = Workings(tuple(_working(index, entry) for index, entry in enumerate(entries)), readings)
    return Proof(Draft.of(text, path), pattern, workings, tuple(findings))


def _round(text: str, entry: Entry) -> Round:
    heading = span(text, entry.label)
    number = None if entry.number is None else Figure((entry.number,), heading)
    return Round(entry.label, heading, heading, entry.section, number, number)


def _working(index: int, entry: Entry) -> RoundWorking:
    stated = entry.stated or (None,) * len(entry.worked)
    sizes = tuple(
        None
        if count is None and says is None
        else SizeWorking(None, None, count, says, agrees=None if None in {count, says} else count == says)
        for count, says in zip(entry.worked, stated, strict=True)
    )
    verdicts = {size.agrees for size in sizes if size is not None}
    if entry.unread is not None:
        standing = Standing.UNREAD
    elif False in verdicts:
        standing = Standing.DIFFERS
    else:
        standing = Standing.AGREES if True in verdicts else Standing.UNSTATED
    return RoundWorking(index, sizes, standing, entry.unit, entry.unread)


def hat(findings: Sequence[Finding] | None = None) -> Proof:
    """Return the proof of `HAT`: one round differs for Medium, one is unread, one states no count."""
    entries = (
        Entry("Rnd 1", (10, 10, 10), (10, 10, 10), number=1),
        Entry("Rnd 2", (15, 15, 15), (15, 16, 15), number=2),
        Entry(
            "Rnd 3",
            (None, None, None),
            (20, 20, 20),
            unread='"as the tide allows" was not understood',
            number=3,
        ),
        Entry("Rnd 4", (20, 20, 20), number=4),
    )
    return proof_by_hand(
        HAT,
        entries,
        (wrong_count(),) if findings is None else findings,
        sizes=("Small", "Medium", "Large"),
        sections=("Crown",),
    )


def wrong_count() -> Finding:
    """Return the finding that `HAT` deserves: 16 is stated for Medium where 15 is worked."""
    figure = span(HAT, "16")
    return Finding(
        rule="count-differs",
        level=Level.CORRECTION,
        span=figure,
        message="the round comes to 15 sts for Medium, but 16 are stated",
        sizes=(1,),
        sum=("10 sts before the round", "  each repeat uses 2 and makes 3: 5 times", "15 sts after it"),
        change=Change(figure, "15"),
    )
