"""Damaged drafts: a proof never fails, and no round is reported as worked whose words were destroyed.

What counts as destroyed stands in `damage.py`. The drafts are the openings of those of the corpus.
"""

from __future__ import annotations

from functools import cache
from random import Random

import pytest
from damage import (
    DAMAGES,
    GARBLED,
    Damage,
    Fate,
    destroyed,
    fate,
    garbled,
    instruction_cut,
    instruction_garbled,
    instruction_words,
    is_non_word,
    known_words,
    names,
    opening,
    proofed,
    replaced,
    worked_words,
)
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from rowcall.lint.draft import Span
from rowcall.lint.proof import Proof

ROUNDS = 4
RING = "US terms\n\nRnd 1: 6 sc in a magic ring. (6)\nRnd 2: *Sc 1, inc; rep from * around. (9)\n"

a_draft = st.sampled_from(names())
chance = st.integers(0, 2**32).map(Random)

# a seed that is smaller makes no smaller damage: the first that fails is told
UNSHRUNK = (Phase.generate,)


@cache
def opened(name: str) -> Proof:
    return proofed(opening(name, ROUNDS))


def on(text: str, words: str, how: str, by: str) -> Damage:
    start = text.index(words)
    return replaced(text, how, Span(start, start + len(words)), by)


@pytest.mark.parametrize("name", names())
def test_openings_are_worked(name: str) -> None:
    assert len(worked_words(opened(name))) > 5


@settings(max_examples=80, deadline=None, derandomize=True, phases=UNSHRUNK)
@given(name=a_draft, ways=st.lists(st.sampled_from(DAMAGES), min_size=1, max_size=4), rng=chance)
def test_no_damage_makes_a_proof_fail(name: str, ways: list[object], rng: Random) -> None:
    text = opened(name).draft.text
    for way in DAMAGES:
        if way in ways and len(text) > 1:
            text = way(text, rng).text

    assert proofed(text).draft.text == text


@settings(max_examples=200, deadline=None, derandomize=True, phases=UNSHRUNK)
@given(name=a_draft, rng=chance)
def test_no_garbled_round_is_worked(name: str, rng: Random) -> None:
    before = opened(name)
    damage = instruction_garbled(before, rng)
    lost = destroyed(before, damage)

    assert lost is not None
    verdict = fate(before, proofed(damage.text), lost).verdict
    assert verdict != "worked", (lost, damage.lines)


@settings(max_examples=60, deadline=None, derandomize=True, phases=UNSHRUNK)
@given(name=a_draft, rng=chance)
def test_no_round_cut_in_the_middle_of_a_word_is_worked(name: str, rng: Random) -> None:
    before = opened(name)
    cuts = (instruction_cut(before, rng) for _ in range(1000))  # most leave a word, or a letter too few
    damage, lost = next((cut, lost) for cut in cuts if (lost := destroyed(before, cut)))

    verdict = fate(before, proofed(damage.text), lost).verdict
    assert verdict != "worked", (lost, damage.lines)


@settings(max_examples=50, deadline=None, derandomize=True, phases=UNSHRUNK)
@given(word=st.sampled_from(("sc", "dc", "each", "around", "sc2tog", "2sc", "st", "ch")), rng=chance)
def test_a_garbled_word_is_none_that_could_be_mended(word: str, rng: Random) -> None:
    now = garbled(word, Span(0, len(word)), rng)

    assert (now.how, len(now.text), now.lines) == (GARBLED, len(word), (1,))
    assert now.text != word
    assert is_non_word(now.text, known_words(RING))


@pytest.mark.parametrize(
    ("word", "expected"),
    [
        ("qvzkw", True),
        ("2qvz", True),
        ("eaound", False),  # ea, and round without its r
        ("around", False),
        ("aroun", False),  # a letter is missing
        ("arounds", False),  # a letter too many
        ("aruond", False),  # two letters swapped
        ("sc2tog", False),
        ("froaround", False),  # a letter and a blank are missing
        ("firs16", False),
        ("arod", True),
        ("joiith", True),
        ("sceach", False),  # two words run together
        ("twelve", False),
        ("magic", False),  # it stands in the draft
        ("12", False),
    ],
)
def test_non_words(word: str, expected: bool) -> None:
    assert is_non_word(word, known_words(RING)) is expected


def test_words_of_instruction_leave_out_heading_and_count() -> None:
    before = proofed(RING)
    words = [before.draft.words(span) for span in instruction_words(before, 1)]

    assert words == ["Sc", "inc", "rep", "from", "around"]


@pytest.mark.parametrize(
    ("damage", "expected"),
    [
        (on(RING, "around", GARBLED, "qvzkwb"), ("around", "qvzkwb")),
        (on(RING, "c; rep fr", "cut", ""), ("inc|from", "inom")),
        (on(RING, "Sc 1, ", "cut", ""), None),  # whole words
        (on(RING, "round", "cut", ""), None),  # "a" may be any short word with a letter wrong
        (on(RING, "nd 2: *S", "cut", ""), None),  # the heading is hit
        (on(RING, "und. (9", "cut", ""), None),  # the stated count is hit
        (on(RING, "terms", GARBLED, "qvzkw"), None),  # no round
    ],
)
def test_what_counts_as_destroyed(damage: Damage, expected: tuple[str, str] | None) -> None:
    lost = destroyed(proofed(RING), damage)

    assert (None if lost is None else (lost.word, lost.now)) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (RING, Fate("worked", said=False, same=True)),
        (RING.replace("(9)", "(8)"), Fate("worked", said=True, same=True)),
        (RING.replace("Sc 1, inc", "inc"), Fate("worked", said=True, same=False)),
        (RING.replace("Sc 1, inc", "as the tide allows"), Fate("unread", said=True)),
        (RING.replace("Rnd 2:", ""), Fate("vanished")),
    ],
)
def test_fates(text: str, expected: Fate) -> None:
    before = proofed(RING)
    lost = destroyed(before, on(RING, "around", GARBLED, "qvzkwb"))

    assert lost is not None
    assert fate(before, proofed(text), lost) == expected
