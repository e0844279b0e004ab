"""Words: nothing of the text is lost, and every word has its label."""

from __future__ import annotations

import itertools
import re

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from in_words import words
from rowcall.lint.draft import Span
from rowcall.lint.reading.letters import clean
from rowcall.lint.reading.words import Words

# a measurement glued to a letter is written by nobody: fractions and decimals are followed by a blank
BITS = st.sampled_from(
    [
        "sc",
        "2",
        "2nd",
        "st's",
        "(",
        ")",
        "*",
        "**",
        " ",
        "\n",
        ",",
        ". ",
        "inc",
        "sc2tog",
        "ch-3",
        "½ ",
        "4.0 mm ",
        "x",
        "’",
    ]
)
NOT_DECIMAL = st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"], exclude_characters="¼½¾.…")
ANY_TEXT = st.one_of(st.text(alphabet=NOT_DECIMAL, max_size=60), st.lists(BITS, max_size=30).map("".join))


def squeezed(text: str) -> str:
    """Return a text without white space and without the difference of capitals."""
    return re.sub(r"\s+", "", text).casefold()


@given(ANY_TEXT)
@settings(max_examples=150, deadline=None)
@example("1dcineachofnext3sc")
@example("Rnd 3:*sc 1,inc;rep from*around(18)")
def test_words_are_the_characters_at_their_place(text: str) -> None:
    cleaned = clean(text)

    for word in words(text):
        assert squeezed(word.text) == squeezed(cleaned[word.span.start : word.span.end])


@given(ANY_TEXT)
@settings(max_examples=150, deadline=None)
def test_words_rise_never_overlap_and_leave_out_only_blanks(text: str) -> None:
    cleaned = clean(text)
    found = words(text)
    edges = [0, *itertools.chain.from_iterable((word.span.start, word.span.end) for word in found), len(text)]
    between = [cleaned[edges[n] : edges[n + 1]] for n in range(0, len(edges), 2)]

    assert edges == sorted(edges)
    assert all(word.span.start < word.span.end for word in found)
    assert [part for part in between if part.strip()] == []


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("sc in next 7 sts", ["stitch", "into", "next", "number", "st"]),
        ("sc7", ["stitch", "number"]),
        ("2sc", ["number", "stitch"]),
        ("3ch", ["number", "stitch"]),
        ("ch-3", ["stitch", "-", "number"]),
        ("sc2tog", ["stitch"]),
        ("sc 2 tog", ["stitch"]),
        ("inv dec", ["stitch"]),
        ("single crochet", ["stitch"]),
        ("*inc, 2 sc; rep from * around", ["*", "stitch", ",", "number", "stitch", ";", "rep", "from", "*", "around"]),
        ("** inc", ["*", "stitch"]),
        ("(sc, inc) x 6", ["(", "stitch", ",", "stitch", ")", "times", "number"]),
        ("six times", ["number", "times"]),
        ("twice", ["often"]),
        ("2nd", ["ordinal"]),
        ("1st", ["first"]),
        ("sk 1 st", ["skip", "number", "st"]),
        ("miss 1", ["skip", "number"]),
        ("ch-2 sp", ["stitch", "-", "number", "space"]),
        ("do not join", ["spiral"]),
        ("through back loops", ["loops"]),
        ("fasten off", ["fasten"]),
        ("4.0 mm", ["measure"]),
        ("10 cm", ["measure"]),
        ('2½"', ["measure"]),
        ("zebra", ["word"]),
        ("", []),
        (" \n ", []),
    ],
)
def test_labels(text: str, kinds: list[str]) -> None:
    assert [word.kind for word in words(text)] == kinds


@pytest.mark.parametrize(
    ("terms", "text", "kind"),
    [
        ("US", "dc", "dc"),
        ("UK", "dc", "sc"),
        ("UK", "tr", "dc"),
        ("UK", "htr", "hdc"),
        ("US", "treble crochet", "tr"),
        ("UK", "d.c.", "sc"),
        ("US", "DC", "dc"),
    ],
)
def test_stitches_of_the_terms(terms: str, text: str, kind: str) -> None:
    assert [word.stitch.id for word in words(text, terms) if word.stitch] == [kind]


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("sc 7", [7]),
        ("twelve sc", [12]),
        ("twice", [2]),
        ("3rd ch", [3]),
        ("first st", [1]),
    ],
)
def test_values(text: str, values: list[int]) -> None:
    assert [word.value for word in words(text) if word.value is not None] == values


def test_blank_before() -> None:
    assert [(word.text, word.blank) for word in words("sc 2,inc (3)")] == [
        ("sc", True),
        ("2", True),
        (",", False),
        ("inc", False),
        ("(", True),
        ("3", False),
        (")", False),
    ]


def test_words_of_a_span_are_those_that_begin_in_it() -> None:
    found = Words.made_of(words("sc 2, inc, sc 4"))

    assert [word.text for word in found.within(Span(3, 10))] == ["2", ",", "inc", ","]
    assert found.within(Span(4, 4)) == ()
    assert [word.text for word in found.within(Span(11, 99))] == ["sc", "4"]
