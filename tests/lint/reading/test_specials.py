"""Specials: what a draft defines, and the stitches that become known by it."""

from __future__ import annotations

import pytest
from in_words import told, words
from rowcall.lint.draft import Span
from rowcall.lint.reading.specials import definitions, with_defined
from rowcall.lint.reading.words import Words
from rowcall.lint.steps import Make


def defined(text: str) -> list[tuple[str, tuple[int, int] | None]]:
    """Return the terms that a head defines with the stitches each uses and makes."""
    found = definitions(text, Span(0, len(text)), Words.made_of(words(text)))
    return [(one.term, (one.make.uses, one.make.makes) if one.make else None) for one in found]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("inc: 2 sc in the next st", [("inc", (1, 2))]),
        ("inc = 2 sc in next st", [("inc", (1, 2))]),
        ("dec - sc the next 2 sts together", [("dec", (2, 1))]),
        ("sc3tog: work three sts together", [("sc3tog", (3, 1))]),
        ("tri: 3 dc in next st", [("tri", (1, 3))]),
        ("Big wave (bw): 5 dc in next st", [("bw", (1, 5))]),
        ("pebble: yarn over and draw up a loop three times in the same st", [("pebble", (1, 1))]),
        ("fan: (2 dc, 2 dc) in next st", [("fan", (1, 4))]),
        ("ch: chain\nsc: single crochet", [("ch", None), ("sc", (1, 1))]),
        ("Gauge: 14 sts = 10 cm", []),
        ("Hook: 5 mm", []),
        ("Sizes: S (M, L)", []),
        ("Work loosely.", []),
    ],
)
def test_definitions(text: str, wanted: list[tuple[str, tuple[int, int] | None]]) -> None:
    assert defined(text) == wanted


def test_a_definition_points_at_its_term_and_words() -> None:
    text = "A hat\ntri: 3 dc in next st\n"
    (one,) = definitions(text, Span(0, len(text)), Words.made_of(words(text)))

    assert (told(text, one.span), told(text, one.words)) == ("tri", "3 dc in next st")


def test_defined_terms_become_stitches_wherever_they_stand() -> None:
    text = "big wave: 5 dc in next st\n*sc 1, Big Wave, zebra"
    all_words = Words.made_of(words(text))
    known = with_defined(text, all_words, tuple(definitions(text, Span(0, 25), all_words)), frozenset())

    assert [
        (told(text, word.span), (word.stitch.uses, word.stitch.makes))
        for word in known.all
        if word.stitch and word.span.start > 25
    ] == [("sc", (1, 1)), ("Big Wave", (1, 5))]


def test_terms_of_the_trade_keep_their_own_meaning() -> None:
    text = "sc: 3 dc in next st\n"
    all_words = Words.made_of(words(text))
    known = with_defined(text, all_words, tuple(definitions(text, Span(0, len(text)), all_words)), frozenset({"sc"}))

    assert known.all == all_words.all


def test_what_a_new_stitch_uses_and_makes() -> None:
    text = "wave: 5 dc in next st\n"
    (one,) = definitions(text, Span(0, len(text)), Words.made_of(words(text)))

    assert one.make == Make("wave", 1, 5, 3)
