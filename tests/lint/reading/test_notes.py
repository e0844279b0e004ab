"""Notes: what a draft settles once for all."""

from __future__ import annotations

import pytest
from in_words import told
from rowcall.lint.pattern import ChainRule
from rowcall.lint.reading.notes import (
    chain_notes,
    coloured_sizes,
    craft_of,
    elisions,
    is_spiral,
    multiples,
    terms_of,
)


@pytest.mark.parametrize(
    ("text", "rules"),
    [
        ("Ch 2 does not count as a st.", [(ChainRule.COUNTS_NOT, 2)]),
        ("The ch 1 at the beginning of a rnd does not count as a st.", [(ChainRule.COUNTS_NOT, 1)]),
        ("Ch 3 at beg counts as dc.", [(ChainRule.COUNTS, 3)]),
        ("The beginning ch-3 counts as the first dc throughout.", [(ChainRule.COUNTS, 3)]),
        ("Turning ch counts as a st.", [(ChainRule.COUNTS, None)]),
        ("Beginning chains never count as stitches.", [(ChainRule.COUNTS_NOT, None)]),
        ("3 ch counts as 1 tr.", [(ChainRule.COUNTS, 3)]),
        ("Ch 3 counts as dc. Ch 1 does not count as st.", [(ChainRule.COUNTS, 3), (ChainRule.COUNTS_NOT, 1)]),
        ("Every rnd begins with ch 1, which does not count, and is joined.", [(ChainRule.COUNTS_NOT, 1)]),
        ("Count your stitches.", []),
        ("Ch 3, turn.", []),
        ("Each ch-1 sp counts as a st.", []),
    ],
)
def test_chains_that_count(text: str, rules: list[tuple[ChainRule, int | None]]) -> None:
    assert [(note.rule, note.n) for note in chain_notes(text, 0)] == rules


def test_a_note_points_at_its_sentence() -> None:
    text = "Work loosely. Ch 2 does not count. Join each rnd."
    (note,) = chain_notes(text, 100)

    assert (note.span.start - 100, note.span.end - 100) == (13, 33)
    assert (told(text, None), text[13:33]) == (None, " Ch 2 does not count")


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Rounds not written are worked even.", [(None, None)]),
        ("Rnds not given are worked as rnd 2.", [(None, 2)]),
        ("All even rounds are worked plain.", [(0, None)]),
        ("Odd-numbered rows are knit without shaping.", [(1, None)]),
        ("Work even until it fits.", []),
    ],
)
def test_rounds_not_written(text: str, wanted: list[tuple[int | None, int | None]]) -> None:
    assert [(one.parity, one.as_round) for one in elisions(text, 0)] == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Multiple of 6.", [(6, 0, 0)]),
        ("Worked over a multiple of 8 sts + 3.", [(8, 3, 0)]),
        ("Multiple of 8 + 3, plus 2 for the base chain.", [(8, 3, 2)]),
        ("multiple of 14 plus 3", [(14, 3, 0)]),
        ("Multiples of 4 or multiples of 6 + 1", [(4, 0, 0), (6, 1, 0)]),
        ("Multiple colours", []),
    ],
)
def test_multiples(text: str, wanted: list[tuple[int, int, int]]) -> None:
    assert [(one.of, one.plus, one.base) for one in multiples(text)] == wanted


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("The sizes are given in different colours.", "sizes are given in different colours"),
        ("Small is black, figures in red are for Large.", "figures in red"),
        ("With red yarn: 6 sc", None),
        ("Sizes: S, M, L", None),
    ],
)
def test_sizes_told_apart_by_colour(text: str, words: str | None) -> None:
    assert told(text, coloured_sizes(text)) == words


@pytest.mark.parametrize(
    ("text", "spiral"),
    [
        ("Worked in a spiral.", True),
        ("Work in continuous rounds.", True),
        ("Do not join rounds.", True),
        ("Join each rnd with a sl st.", False),
        ("Join every round.", False),
        ("A hat.", None),
    ],
)
def test_spiral(text: str, spiral: bool | None) -> None:
    assert is_spiral(text) is spiral


@pytest.mark.parametrize(
    ("text", "terms"),
    [
        ("US terms.", ("US", "US")),
        ("UK terms are used.", ("UK", "UK")),
        ("Written in British terminology", ("UK", "UK")),
        ("UK terms. Skip 1, 2 sc", ("UK", "UK")),
        ("6 sc in ring, sc around", (None, "US")),
        ("htr in next st, 2 dc", (None, "UK")),
        ("Tension: 14 dc. Miss 1 dc, 1 tr", (None, "UK")),
        ("dc in each dc", (None, "US")),
        ("", (None, "US")),
    ],
)
def test_terms(text: str, terms: tuple[str | None, str]) -> None:
    assert terms_of(text) == terms


@pytest.mark.parametrize(
    ("text", "craft"),
    [
        ("6 sc in magic ring", "crochet"),
        ("Cast on 40 sts, k2, p2", "knitting"),
        ("Ch 20, dc in 4th ch from hook", "crochet"),
        ("Flour, butter, sugar", None),
        ("", None),
    ],
)
def test_craft(text: str, craft: str | None) -> None:
    assert craft_of(text) == craft
