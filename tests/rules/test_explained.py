"""A round that stands as differing is always explained: something is said of it, or of a round before it."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rowcall.lint.finding import Level
from rowcall.lint.proof import Proof, proof
from rowcall.lint.workings import Standing

CORPUS = Path(__file__).parent.parent.parent / "corpus"
RING = "US terms\n\nRnd 1: 12 sc in a magic ring. (12)\n"


@cache
def drafts() -> tuple[str, ...]:
    return tuple(file.read_text("utf-8") for file in sorted(CORPUS.glob("*.txt")))


def unexplained(whole: Proof) -> list[str]:
    """Return the headings of rounds that differ though nothing is said up to their end."""
    said = [one.span.start for one in whole.findings if one.level > Level.STYLE]
    rounds = [(whole.pattern.rounds[one.index], one) for one in whole.workings.rounds]
    return [
        whole.draft.words(round_.heading)
        for round_, one in rounds
        if one.standing is Standing.DIFFERS and not any(start < round_.span.end for start in said)
    ]


@st.composite
def slips(draw: st.DrawFn) -> str:
    """Make a draft of the corpus with a figure changed, or a word garbled or left out."""
    text = draw(st.sampled_from(drafts()))
    kind = draw(st.sampled_from([r"\d+", r"[A-Za-z]{2,}"]))
    place = draw(st.sampled_from(list(re.finditer(kind, text))))
    if kind == r"\d+":
        by = str(max(0, int(place[0]) + draw(st.sampled_from((-10, -2, -1, 1, 2, 10)))))
    else:
        by = draw(st.sampled_from(["", "qzv", place[0][::-1]]))
    return text[: place.start()] + by + text[place.end() :]


@settings(max_examples=60, deadline=None)
@given(slips())
def test_a_difference_in_a_damaged_draft_is_explained(text: str) -> None:
    assert unexplained(proof(text)) == []


@pytest.mark.parametrize(
    ("words", "standing"),
    [
        # 12 - 1 - 1 ... = 6, which is what the words say themselves
        ("Rnd 2: Sc2tog, sc in each st around. (11)\nRep rnd 2 until 6 sts remain. (6)", Standing.AGREES),
        ("Rnd 2: Sc2tog, sc in each st around. (11)\nRep rnd 2 until 6 sts remain. (7)", Standing.DIFFERS),
        # 12, 8, 5 with one left over, ...: 6 is never come to
        ("Rnd 2: *Sc 1, sc2tog; rep from * around. (8)\nRep rnd 2 until 6 sts remain. (7)", Standing.UNREAD),
        # 12 are there, 26 are twice as many and more
        ("Rnd 2: Sc in each st around. (26)", Standing.DIFFERS),
        ("Rnd 2: Sc in each st around. (0)", Standing.DIFFERS),
        ("Rnd 2: *Sc in each st around. (13)", Standing.DIFFERS),
    ],
)
def test_what_differs_is_said(words: str, standing: Standing) -> None:
    whole = proof(f"{RING}{words}\n")

    assert (whole.workings.rounds[-1].standing, unexplained(whole)) == (standing, [])


def test_stitches_that_were_not_found_are_not_a_difference() -> None:
    whole = proof("US terms\n\nRnd 1: 6 qv in a magic ring. (6)\n")

    assert [one.standing for one in whole.workings.rounds] == [Standing.UNREAD]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        # 14 + 10 + 15 = 39 of 40, and 14 + 2 + 15 = 31
        ("40, Sc 14, ch 2, sk next 10 sts, sc 15. (32 sts, counting the 2 ch)", ["stitches-left-over"]),
        # 2 x (8 + 8 + 7) = 46 of 48
        ("48, [Sc 8, ch 8, sk 8 sts, sc 7] twice. (32)", ["stitches-left-over"]),
        # 16 + 10 + 15 = 41 of 40
        ("40, Sc 16, ch 2, sk next 10 sts, sc 15. (32 sts, counting the 2 ch)", ["stitches-run-out"]),
        # a group in one place may be meant in more ways: nothing is said, and the round is unread
        ("40, Sc 14, (dc, ch 2, dc) in next st, sc 20. (32)", []),
    ],
)
def test_a_round_with_chains_over_skipped_stitches_that_misses_is_corrected(words: str, expected: list[str]) -> None:
    number, rest = words.split(", ", 1)
    whole = proof(f"US terms\n\nRnd 1: {number} sc in a magic ring. ({number})\nRnd 2: {rest}\n")

    assert [(one.rule, one.level) for one in whole.findings if one.level > Level.STYLE] == [
        (rule, Level.CORRECTION) for rule in expected
    ]
