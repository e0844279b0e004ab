"""The whole pipeline on any text: no text raises, and what comes out keeps its shape."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import jsonschema
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from rowcall.lint.draft import Draft, Span
from rowcall.lint.finding import Level
from rowcall.lint.proof import Proof, Tally, proof
from rowcall.reports.machine import machine, schema

CORPUS = Path(__file__).parents[2] / "corpus"
SCHEMA = schema()
DRAFTS = [file.read_text("utf-8") for file in sorted(CORPUS.glob("*.txt"))]

# words and signs of the trade in any order: the likeliest to lead reading astray
BITS = st.sampled_from(
    [
        "Rnd 1: ",
        "Rnds 2-5: ",
        "Row 3 (5, 7): ",
        "Next rnd: ",
        "4. ",
        "Sizes: S (M, L)\n",
        "Large only:\n",
        "All sizes:\n",
        "CROWN\n",
        "6 sc in magic ring",
        "Ch 20",
        "sc in 2nd ch from hook",
        "sc ",
        "2 dc in next ch-2 sp",
        "inc ",
        "sc2tog ",
        "skip 2 sts",
        "*",
        "rep from * around",
        "rep rnds 2 and 3 ",
        "Rep last rnd ",
        "until 9 sts remain",
        "(",
        ")",
        "[",
        "]",
        " x 6",
        " twice more",
        "around",
        " evenly",
        ", ",
        ". ",
        "; ",
        "\n",
        "\n\n",
        "24 (30, 36) sc",
        "0",
        "99999999999",
        " (24)",
        " = 18 sts",
        "join",
        "turn",
        "and every alternate rnd",
        "counts as dc",
        "½",
        "\u2028",
        "\r",
        "ß",
    ]
)
JUMBLE = st.lists(BITS, max_size=40).map("".join)
# surrogates stand in no text that was decoded
UNICODE = st.text(alphabet=st.characters(exclude_categories=["Cs"]), max_size=200)


@st.composite
def damaged(draw: st.DrawFn) -> str:
    """Draw a stretch of a corpus draft with characters cut, doubled or swapped."""
    whole = draw(st.sampled_from(DRAFTS))
    start = draw(st.integers(0, max(0, len(whole) - 700)))
    text = whole[start : start + 700]
    for _ in range(draw(st.integers(1, 12))):
        at = draw(st.integers(0, max(0, len(text) - 2)))
        match draw(st.sampled_from(["cut", "double", "swap", "line"])):
            case "cut":
                text = text[:at] + text[at + 1 :]
            case "double":
                text = text[:at] + text[at : at + 1] + text[at:]
            case "swap":
                text = text[:at] + text[at + 1 : at + 2] + text[at : at + 1] + text[at + 2 :]
            case _:
                text = text[:at] + "\n" + text[at:]
    return text


def spans(seen: Proof) -> Iterator[Span]:
    """Yield every span that a proof points at."""
    for round_ in seen.pattern.rounds:
        yield from (round_.heading, round_.span)
        yield from (step.span for step in round_.steps)
        yield from (claim.span for claim in round_.claims)
    yield from (section.span for section in seen.pattern.sections)
    yield from (one.span for one in seen.pattern.lists)
    yield from (note.span for note in seen.pattern.size_notes)
    yield from (item.span for one in seen.workings.rounds for size in one.sizes if size for item in size.items)
    for finding in seen.findings:
        yield finding.span
        yield from (aside.span for aside in finding.asides)
        if finding.change is not None:
            yield finding.change.span


def checked(text: str) -> Proof:
    """Proof a text and check all that must hold of any proof."""
    seen = proof(text)
    assert seen.draft.text == text
    outside = [span for span in spans(seen) if not 0 <= span.start <= span.end <= len(text)]
    assert outside == []
    places = [finding.span.start for finding in seen.findings]
    assert places == sorted(places)
    assert len(seen.workings.rounds) == len(seen.pattern.rounds)
    assert all(size < seen.pattern.sizes.number for finding in seen.findings for size in finding.sizes)
    jsonschema.validate(json.loads(machine([seen])), SCHEMA)
    return seen


QUICK = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@given(UNICODE)
@QUICK
@example("")
@example("\ufeff")
@example("\r\n\r\n")
@example("İI\u0307 \U0001f9f6")
def test_any_text_gives_a_proof(text: str) -> None:
    checked(text)


@given(JUMBLE)
@QUICK
@example("Rnd 1: ((((((((((sc")
@example("Rnd 1: " + "*(" * 200)
@example("Rnd 1: " + "[" * 60 + "sc" + "] twice" * 60)
@example("Rnd 1: 99999999999999999999 sc in ring. Rep last rnd 99999999999 times")
@example("Rnds 1-99999999999: sc around")
@example("Rnd 1: 6 sc in ring\nRep rnd 1 until 99999999 sts\nRep last rnd\nRep last 2 rnds")
def test_any_words_of_the_trade_give_a_proof(text: str) -> None:
    checked(text)


@given(damaged())
@QUICK
# breaks off in the middle of a list, where one of three sizes is in doubt
@example((CORPUS / "lamplighter-hat.txt").read_text("utf-8").split(", 70, 77)", 1)[0])
@example(
    "Ch 32.\nRow 1: 1 tr in 4th ch from hook, 1 tr in each ch to end, turn. ((28 dc)\nRow 2: Rep Row 1. (2 dc)\n"
)  # empty brackets
def test_a_damaged_draft_gives_a_proof(text: str) -> None:
    checked(text)


@pytest.mark.parametrize("text", DRAFTS, ids=lambda text: text.split("\n", 1)[0].strip())
def test_corpus_draft_gives_the_same_proof_twice(text: str) -> None:
    assert checked(text) == proof(Draft.of(text))


def test_a_text_without_rounds() -> None:
    seen = proof("A hat for the harbour.\n")

    assert (seen.pattern.rounds, seen.findings, seen.worst()) == ((), (), None)
    assert seen.tally == Tally(rounds=0, worked=0, agree=0, differ=0, unstated=0, unread=0)


def test_tally_and_worst_of_a_small_draft() -> None:
    seen = proof(
        """\
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: Inc in each st around. (12)
Rnd 3: *Sc 1, inc; rep from * around. (19)
Rnd 4: *Sc 2, inc; rep from * around. (24)
Rnd 5: Sc around.
Rnd 6: Dc in the loops of chart B, sk the shaded ones. (48)
"""
    )

    assert seen.tally == Tally(rounds=6, worked=5, agree=3, differ=1, unstated=1, unread=1)
    assert seen.worst() is Level.CORRECTION
    assert [(one.rule, seen.draft.position(one.span.start).line) for one in seen.findings] == [("count-differs", 3)]


def test_only_the_rules_given_are_asked() -> None:
    text = "Rnd 1: 6 sc in magic ring. (6)\nRnd 3: Inc in each st around. (13)\n"

    assert {one.rule for one in proof(text).findings} == {"count-differs", "number-skipped"}
    assert proof(text, rules=()).findings == ()


@pytest.mark.parametrize(
    "text",
    ["Rnd 1: " + "(" * 3000 + "sc" + ")" * 3000, "Rnd 1: " + "9" * 20000, "(" * 5000, "Rnd 1: " + "*sc " * 800],
    ids=["nested brackets", "a number without end", "brackets never closed", "stars"],
)
def test_hostile_words_are_read_to_the_end(text: str) -> None:
    assert proof(text).tally.worked == 0
