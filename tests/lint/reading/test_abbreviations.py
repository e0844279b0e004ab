"""Abbreviations: lists in all their ways of writing, what is no list, and what the rounds use."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.reading import read
from rowcall.lint.reading.abbreviations import key_of, name_of

ROUNDS = "\n\nRnd 1: Ch 2, 6 sc in 2nd ch from hook. (6)\nRnd 2: 2 sc in each st around. (12)\n"


def listed(text: str) -> list[tuple[str, str]]:
    """Return the terms of the abbreviation list and their words."""
    draft = Draft.of(text + ROUNDS)
    return [(draft.words(entry.term), draft.words(entry.words)) for entry in read(draft).abbreviations]


THREE = [("ch", "chain"), ("sc", "single crochet"), ("sl st", "slip stitch")]


@pytest.mark.parametrize(
    "text",
    [
        "Abbreviations\nch - chain\nsc - single crochet\nsl st - slip stitch",
        "Stitches used:\nch = chain\nsc = single crochet\nsl st = slip stitch",
        "ch: chain\nsc: single crochet\nsl st: slip stitch",
        "Key\nch\tchain\nsc\tsingle crochet\nsl st\tslip stitch",
        "ch. chain\nsc. single crochet\nsl st  slip stitch",
        "ch chain\nsc single crochet\nsl st slip stitch",
        "\u2022 ch \u2013 chain\n\u2022 sc \u2013 single crochet\n\u2022 sl st \u2013 slip stitch",
        "| ch | chain\n| sc | single crochet\n| sl st | slip stitch",
        "Abbreviations: ch - chain, sc - single crochet, sl st - slip stitch",
        "Abbreviations: ch (chain), sc (single crochet), sl st (slip stitch)",
        "US terms: ch chain; sc single crochet; sl st slip stitch",
        "ch = chain sc = single crochet sl st = slip stitch",
        "ch\u2014chain; sc\u2014single crochet; sl st\u2014slip stitch",
        "Ch - chain. Sc - single crochet. Sl st - slip stitch",
    ],
)
def test_ways_of_writing_a_list(text: str) -> None:
    assert [(term.lower(), words) for term, words in listed(text)] == THREE


def test_a_term_may_stand_behind_its_words() -> None:
    text = "Chain = ch.;\nSingle Crochet = sc.;\nSlip Stitch = sl st."

    assert listed(text) == [("ch", "Chain"), ("sc", "Single Crochet"), ("sl st", "Slip Stitch")]


def test_two_terms_may_share_their_words() -> None:
    text = "ch = chain\nsc = single crochet\nfpdc/bpdc = front post / back post double crochet"

    assert [term for term, _ in listed(text)] == ["ch", "sc", "fpdc", "bpdc"]


@pytest.mark.parametrize(
    "text",
    [
        "Materials: wool, hook, needle\nGauge: 14 sc = 4 in\nSize: small",
        "ch - chain\nsc - single crochet",  # two entries are no list
        "US sc = UK dc\nUS dc = UK tr\nUS hdc = UK htr",
        "MC: blue\nCC: white\nA: red",
        "Abbreviations: sc, dc, ch, sl st",
        "X - single crochet, V - increase, A - decrease",
    ],
)
def test_what_is_no_list(text: str) -> None:
    assert listed(text) == []


@pytest.mark.parametrize(
    ("entry", "usual"),
    [
        ("BLO = front loops only", "back loop only"),
        ("RS = wrong side", "right side"),
        ("fpdc = back post double crochet", "front post double crochet"),
        ("dc3tog = double crochet 2 together", "double crochet three together"),
        ("dc = treble crochet", "double crochet"),
        ("dc = double crochet", None),
        ("BLO = back loops only", None),
        ("dec = invisible decrease", None),
        ("dec = single crochet two together", None),
        ("dc = treble crochet (UK)", None),
        ("tr = triple crochet", None),
    ],
)
def test_what_contradicts(entry: str, usual: str | None) -> None:
    text = f"ch = chain\nsc = single crochet\nsl st = slip stitch\n{entry}{ROUNDS}"

    assert [one.contradicts for one in read(Draft.of(text)).abbreviations][3:] == [usual]


def test_a_table_of_us_and_uk_terms_contradicts_nothing() -> None:
    text = f"ch = chain\nsl st = slip stitch\nsc = double crochet\ndc = treble crochet{ROUNDS}"

    assert [one.contradicts for one in read(Draft.of(text)).abbreviations] == [None] * 4


def test_what_the_rounds_use_and_where_first() -> None:
    draft = Draft.of("ch - chain\nsc - single crochet\nst - stitch" + ROUNDS + "Rnd 3: hdc2tog, chain 3, sc.\n")
    used = read(draft).abbreviations_used

    assert [(draft.words(one.span), one.stands_for, draft.position(one.span.start).line) for one in used] == [
        ("Ch", "ch", 5),
        ("sc", "sc", 5),
        ("hdc2tog", "hdc2tog", 7),
    ]


@pytest.mark.parametrize(("term", "key"), [("Sl-st.", "slst"), ("St(s)", "sts"), ("Hdc2tog", "hdc2tog")])
def test_key(term: str, key: str) -> None:
    assert key_of(term) == key


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("Front loops only", "front loop"),
        ("single crochet 2 stitches together (decrease)", "single 2 tog"),
        ("Half Double Crochet", "half double"),
        ("stitch", "stitch"),
    ],
)
def test_name(words: str, name: str) -> None:
    assert name_of(words) == name
