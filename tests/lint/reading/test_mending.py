"""Mending: which slips of a letter are mended where, and which words stay as they are."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Span
from rowcall.lint.reading.letters import clean, cleaned, doubtful_signs
from rowcall.lint.reading.mending import mend, nearest_term
from rowcall.lint.reading.words import lexicon, words_of
from rowcall.lint.spellings import Doubt


def mended(text: str) -> list[tuple[str, str, Doubt]]:
    """Return the words mended, what they were taken for, and why."""
    lex = lexicon("crochet", "US")
    _, mends = mend(words_of(clean(text), lex), lex)
    return [(text[one.span.start : one.span.end], one.to, one.doubt) for one in mends]


@pytest.mark.parametrize(
    ("text", "slip", "to"),
    [
        ("2 sc in nexl sc", "nexl", "next"),
        ("sc in eahc st", "eahc", "each"),
        ("sc in ech st", "ech", "each"),
        ("skip nexl 2 sts", "nexl", "next"),
        ("2 sc n next sc", "n", "in"),
        ("2 sc iin next sc", "iin", "in"),
        ("sc in next 7 s)", "s", "st"),
        ("1 so in each st", "so", "sc"),
        ("2 hcd in each st", "hcd", "hdc"),
        ("FPcd around next st", "FPcd", "fpdc"),
        ("dce over next 2 sts", "dce", "dec"),
        ("chian 3, turn", "chian", "chain"),
        ("sc arround", "arround", "around"),
        ("repaet from *", "repaet", "repeat"),
        ("rep form * to end", "form", "from"),
        ("(sc, inc) 6 tiems.", "tiems", "times"),
        ("sc around, trun.", "trun", "turn"),
        ("sc around. Jion with sl st.", "Jion", "join"),
        ("sc in next tow sts", "tow", "two"),
        ("sc in eachst around", "eachst", "each st"),
        ("join with st to first sc", "st", "sl st"),
        ("sc in each stich around", "stich", "stitch"),
    ],
)
def test_a_slip_is_mended(text: str, slip: str, to: str) -> None:
    assert mended(text) == [(slip, to, Doubt.WORD)]


@pytest.mark.parametrize(
    "text",
    [
        "sc in each st around, join with sl st to first sc",
        "a pattern in the form of a star",
        "sc in last st, sc in next 2 sts",
        "sit on a chair and switch to the smaller hook",
        "the ground round, found on the mound",
        "work in st st for 4 rows",
        "sc, sc, inc, inc",
        "2 mm in, 6 hours",
        "a tsar, a nice dry try",
    ],
)
def test_a_word_of_its_own_stays(text: str) -> None:
    assert mended(text) == []


@pytest.mark.parametrize(
    ("text", "twice"),
    [("sc in in each st", "in"), ("sc in each st st around", "st"), ("sc in each each st", "each")],
)
def test_a_word_twice_running_is_told(text: str, twice: str) -> None:
    assert mended(text) == [(twice, "", Doubt.TWICE)]


def test_a_word_that_is_no_stitch_is_told_where_only_a_stitch_can_stand() -> None:
    assert mended("yo, sc, sip, dc, sc in next st") == [("sip", "", Doubt.UNKNOWN)]
    assert mended("2 xq in next st, sc") == [("xq", "", Doubt.UNKNOWN)]
    assert mended("sc, with blue, dc in next st") == []


@pytest.mark.parametrize(
    ("word", "term"),
    [("crocket", "crochet"), ("stitc", "stitch"), ("decreas", "decrease"), ("crochet", None), ("crochets", None),
     ("switch", None), ("chair", None), ("space", None), ("rond", None), ("swatches", None)],
)  # fmt: skip
def test_nearest_term(word: str, term: str | None) -> None:
    assert nearest_term(word) == term


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("R5: sc 1O (l2)", [("O", "0"), ("l", "1")]),
        ("ch l, l sc in next st", [("l", "1"), ("l", "1")]),
        ("6 sc\u0432 in ring", [("sc\u0432", "sc")]),
        ("6 s\u0441 in ring", [("s\u0441", "sc")]),
        ("\u0131nc in each st", []),
        ("caf\u00e9 \u00d7 3", []),
        ("a \u0432\u0433\u0434 c", []),
        ("still a ball of wool, 5 lots", []),
    ],
)
def test_letters_for_figures_and_of_other_alphabets(text: str, told: list[tuple[str, str]]) -> None:
    _, doubts = cleaned(text)

    assert [(text[one.span.start : one.span.end], one.to) for one in doubts] == told


@pytest.mark.parametrize(
    ("heading", "body", "told"),
    [
        ("Rl", ": Ch 2.", [("l", "1")]),
        ("Rnd 1O", ": sc 6.", [("1O", "10")]),
        ("Row II", ": sc 6.", []),
        ("Rnd 10", ": sc 6.", []),
        ("R3", ": 'Sc 1, dec 1 \\ rep 6 times.", [("'", "*")]),
        ("R3", ": f Sc 1, dec 1, rep 6 times.", [("f", "*")]),
        ("R3", ": 'Sc 1, dec 1' rep 6 times.", []),
        ("R3", ": 'Sc 1, dec 1* rep 6 times.", []),
        ("R3", ": 'Blue' sc 6.", []),
    ],
)
def test_signs_that_stand_for_others(heading: str, body: str, told: list[tuple[str, str]]) -> None:
    text = heading + body
    found = doubtful_signs(text, Span(0, len(heading)), len(text))

    assert [(text[one.span.start : one.span.end], one.to) for one in found] == told
