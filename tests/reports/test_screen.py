"""The proof on the screen: wording and layout as a person sees them, and nothing harmful in it."""

from __future__ import annotations

import re
import unicodedata
from typing import Any

import pytest
from by_hand import HAT, Entry, hat, proof_by_hand, span
from rowcall.lint.draft import Span
from rowcall.lint.finding import Aside, Change, Finding, Level
from rowcall.lint.workings import Reading
from rowcall.reports.screen import screen

HAT_ON_SCREEN = """\
hat.txt
Crochet in US terms, 3 sizes: Small, Medium and Large.
Found: 1 correction.

1. Line 6, column 59: correction, count-differs
   the round comes to 15 sts for Medium, but 16 are stated
   draft   Rnd 2: *Sc in next st, inc; rep from * around, join. (15, 16, 15)
                                                                     ==
   sizes   Medium
   sum     10 sts before the round
             each repeat uses 2 and makes 3: 5 times
           15 sts after it
   change  line 6: "16" to "15"

How much was worked
  3 of 4 rounds worked: 1 agrees with the draft's own count, 1 differs from it
  and 1 has none to compare. 1 not read.
  Not read, so nothing is said of their counts:
    line 7, Rnd 3: "as the tide allows" was not understood"""

LONG = "Rnd 2: " + "sc in next st, " * 20 + "inc in last st. (15)"


def finding(text: str, words: str, **more: Any) -> Finding:
    """Return a query at some words of a text."""
    return Finding("some-rule", Level.QUERY, span(text, words), "look here", **more)


def draft_lines(printed: str) -> list[str]:
    """Return the line of the draft and the line of marks below it, without their margin."""
    lines = printed.splitlines()
    index = next(number for number, line in enumerate(lines) if line.startswith("   draft   "))
    return [line[11:] for line in lines[index : index + 2]]


def test_hat_is_printed_exactly_so() -> None:
    assert screen(hat()) == HAT_ON_SCREEN


def test_nothing_found_is_no_approval() -> None:
    assert screen(hat(findings=())).splitlines()[2:5] == [
        "Nothing found in what was worked.",
        "",
        "How much was worked",
    ]


def test_nothing_read_is_said() -> None:
    assert screen(proof_by_hand("A poem.", craft=None, terms=None)) == (
        "hat.txt\n"
        "Craft not recognised, one size.\n"
        "Nothing found, and nothing was worked.\n"
        "\n"
        "How much was worked\n"
        "  No rounds or rows were found, so nothing was worked and nothing is said of any\n"
        "  count."
    )


@pytest.mark.parametrize(
    ("text", "words", "shown"),
    [
        ("Rnd 1: 6 sc. (7)", "7", ["Rnd 1: 6 sc. (7)", "              ="]),
        ("\tRnd 1:\t(7)", "7", [" Rnd 1: (7)", "         ="]),
        ("Rnd 1: (7)\r\nRnd 2", "(7)", ["Rnd 1: (7)", "       ==="]),
        ("🧶🧶 inc (7)", "inc", ["🧶🧶 inc (7)", "     ==="]),
        ("cafe\u0301 inc", "inc", ["cafe\u0301 inc", "     ==="]),
        ("\x1b[31minc\x1b[0m", "inc", ["\ufffd[31minc\ufffd[0m", "     ==="]),
        ("inc \u202e6\u200b", "6", ["inc \ufffd6\ufffd", "     ="]),
        ("*sc,\ninc around", "sc,\ninc", ["*sc,", " ==="]),
        (
            LONG,
            "inc",
            ["... sc in next st, sc in next st, sc in next st, inc in last st. (15)", " " * 49 + "==="],
        ),
        (LONG, "Rnd 2", ["Rnd 2: sc in next st, sc in next st, sc in next st, sc in next ...", "====="]),
    ],
)
def test_words_are_marked_below_not_by_colour(text: str, words: str, shown: list[str]) -> None:
    printed = screen(proof_by_hand(text, findings=[finding(text, words)]))

    assert draft_lines(printed) == shown


def test_words_longer_than_a_line_are_cut() -> None:
    printed = screen(proof_by_hand(LONG, findings=[finding(LONG, LONG[30:250])]))
    text, marked = draft_lines(printed)

    assert (text[:4], text[-4:], len(text) <= 69) == ("... ", " ...", True)
    assert marked == "    " + "=" * (len(text) - 8)


def test_a_place_after_the_last_character_is_marked() -> None:
    at_end = Finding("some-rule", Level.QUERY, Span(9, 9), "nothing closes this")

    assert draft_lines(screen(proof_by_hand("Rnd 1: sc", findings=[at_end]))) == ["Rnd 1: sc", " " * 9 + "="]


def test_several_lines_are_named() -> None:
    text = "Rnd 1: sc\naround"

    assert "1. Lines 1 to 2, column 8: query, some-rule" in screen(
        proof_by_hand(text, findings=[finding(text, "sc\naround")])
    )


@pytest.mark.parametrize(
    ("more", "line"),
    [
        ({"change": Change(span(HAT, "16"), "")}, '   change  line 6: leave out "16"'),
        ({"change": Change(Span(0, 0), "US terms")}, '   change  line 1, column 1: put in "US terms"'),
        ({"asides": (Aside(span(HAT, "Rnd 1"), "the round below"),)}, "   see     line 5: the round below"),
    ],
)
def test_changes_and_other_places(more: dict[str, object], line: str) -> None:
    proof = hat([finding(HAT, "16", **more)])

    assert line in screen(proof).splitlines()


def test_levels_are_counted_gravest_first() -> None:
    found = [
        Finding("a", level, Span(0, 3), "look")
        for level in (Level.STYLE, Level.QUERY, Level.CORRECTION, Level.STYLE, Level.QUERY)
    ]

    assert screen(hat(found)).splitlines()[2] == "Found: 1 correction, 2 queries and 2 matters of style."


@pytest.mark.parametrize(("number", "tail"), [(12, []), (13, ["    and 1 more"]), (20, ["    and 8 more"])])
def test_unread_rounds_are_listed_up_to_twelve(number: int, tail: list[str]) -> None:
    text = "".join(f"Rnd {n}.\n" for n in range(101, 101 + number))
    entries = [Entry(f"Rnd {n}.", (None,), unread="not understood") for n in range(101, 101 + number)]

    lines = screen(proof_by_hand(text, entries)).splitlines()

    first = lines.index("  Not read, so nothing is said of their counts:") + 1
    assert lines[first:] == [
        *(f"    line {n}, Rnd {n + 100}.: not understood" for n in range(1, min(number, 12) + 1)),
        *tail,
    ]
    assert f"  None of {number} rounds could be worked." in lines


@pytest.mark.parametrize(
    ("reading", "sentence"),
    [
        (
            Reading("ch-3-counts", True, 0, 5, 0),
            "a beginning chain of 3 counts as a stitch (5 stated counts agree with that, 0 with the other way)",
        ),
        (
            Reading("ch-1-counts", False, 0, 1, 2),
            "a beginning chain of 1 does not count as a stitch (1 stated count agrees with that, 2 with the other way)",
        ),
        (
            Reading("times-more", True, 0, 2, 0),
            "'rep from * n times' is taken as n times more, after the first"
            " (2 stated counts agree with that, 0 with the other way)",
        ),
        (
            Reading("times-more", False, 0, 2, 1),
            "'rep from * n times' is taken as n times in all (2 stated counts agree with that, 1 with the other way)",
        ),
        (
            Reading("each-of-next", True, 0, 3, 1),
            "the reading 'each of next' is taken (3 stated counts agree with that, 1 with the other way)",
        ),
        (
            Reading("each-of-next", False, 0, 3, 1),
            "the reading 'each of next' is not taken (3 stated counts agree with that, 1 with the other way)",
        ),
    ],
)
def test_open_conventions_are_said(reading: Reading, sentence: str) -> None:
    lines = screen(proof_by_hand(HAT, readings=(reading,)), width=200).splitlines()

    assert lines[-2:] == ["  Where the draft leaves it open:", f"    {sentence}"]


def test_readings_that_do_not_matter_or_are_said_are_left_out() -> None:
    readings = (Reading("ch-3-counts", True, 0, 0, 0), Reading("times-more", True, 0, 4, 0, said=True))

    assert "open" not in screen(proof_by_hand(HAT, readings=readings))


def test_the_same_reading_in_several_pieces_is_said_once() -> None:
    readings = (Reading("ch-3-counts", True, 0, 2, 1), Reading("ch-3-counts", True, 1, 3, 0))

    assert screen(proof_by_hand(HAT, readings=readings), width=200).splitlines()[-1] == (
        "    a beginning chain of 3 counts as a stitch (5 stated counts agree with that, 1 with the other way)"
    )


@pytest.mark.parametrize("width", [40, 60, 80, 100])
def test_no_line_is_wider_than_the_screen(width: int) -> None:
    proof = hat([finding(HAT, "16", sum=("a" * 150, "b " * 80), sizes=(0, 1, 2)), finding(HAT, "inc;")])

    assert max(len(line) for line in screen(proof, width).splitlines()) <= width


def test_no_control_character_reaches_the_screen() -> None:
    nasty = "\x1b[2J\x07\x9b\x00\u2028\u202e"
    text = f"Rnd {nasty} 1: {nasty} (7)"
    found = Finding("a", Level.QUERY, span(text, "(7)"), nasty, (0,), (nasty,), Change(Span(4, 6), nasty))
    proof = proof_by_hand(
        text,
        [Entry(f"Rnd {nasty} 1", (None,), unread=nasty)],
        [found],
        path=f"a{nasty}.txt",
        sizes=(nasty,),
    )

    printed = screen(proof)

    assert {c for c in printed if unicodedata.category(c) in {"Cc", "Cf", "Zl"}} == {"\n"}


def test_colour_is_added_to_the_same_words() -> None:
    coloured = screen(hat(), colour=True)

    assert "\x1b[" in coloured
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == HAT_ON_SCREEN
