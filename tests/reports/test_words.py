"""Helpers of the reports: folding, windows, lists in a sentence, harmless text."""

from __future__ import annotations

import pytest
from rowcall.reports.words import cells, folded, listed, marks, one_line, plural, safe, window


@pytest.mark.parametrize(
    ("text", "harmless"),
    [
        ("Rnd 1: 6 sc", "Rnd 1: 6 sc"),
        ("a\tb", "a b"),
        ("a\u00a0b\u3000c", "a b c"),
        ("\x1b[31m\x07\x7f\x9b", "\ufffd[31m\ufffd\ufffd\ufffd"),
        ("\u202e\u2066\u200f\u2028\ufeff\u00ad", "\ufffd" * 6),
        ("½ “é” e\u0301 🧶 👩\u200d🎤", "½ “é” e\u0301 🧶 👩\u200d🎤"),
        ("a\udcffb", "a\ufffdb"),
    ],
)
def test_safe_keeps_each_character_in_its_place(text: str, harmless: str) -> None:
    assert safe(text) == harmless


def test_one_line_narrows_blanks() -> None:
    assert one_line("  a \r\n\t b\x0bc ") == "a b c"


@pytest.mark.parametrize(
    ("text", "width", "lines"),
    [
        ("one two three", 7, ["one two", "three"]),
        ("one", 7, ["one"]),
        ("", 7, [""]),
        ("  set in here", 8, ["  set in", "  here"]),
        ("abcdefghij", 4, ["abcd", "efgh", "ij"]),
        ("🧶🧶🧶 🧶", 4, ["🧶🧶", "🧶", "🧶"]),
    ],
)
def test_folded(text: str, width: int, lines: list[str]) -> None:
    assert list(folded(text, width)) == lines


def test_folded_with_a_lead() -> None:
    assert list(folded("one two three", 9, "1. ")) == ["1. one", "   two", "   three"]
    assert list(folded("one two", 6, "- ", "+ ")) == ["- one", "+ two"]


@pytest.mark.parametrize(
    ("start", "end", "shown"),
    [
        (0, 3, ("one two ...", 0, 3)),
        (8, 13, ("... three ...", 4, 9)),
        (19, 23, ("... four five", 9, 13)),
    ],
)
def test_window(start: int, end: int, shown: tuple[str, int, int]) -> None:
    excerpt = window("one two three four five", start, end, 16)

    assert (excerpt.text, excerpt.start, excerpt.end) == shown


def test_marks_stand_below_wide_characters() -> None:
    assert marks(window("🧶🧶 a", 0, 1, 40)) == "=="
    assert marks(window("🧶🧶 a", 3, 4, 40)) == "     ="


@pytest.mark.parametrize(
    ("words", "text"), [((), ""), (("S",), "S"), (("S", "M"), "S and M"), (("S", "M", "L"), "S, M and L")]
)
def test_listed(words: tuple[str, ...], text: str) -> None:
    assert listed(words) == text


def test_plural() -> None:
    assert [plural(0, "round"), plural(1, "round"), plural(2, "query", "queries")] == [
        "0 rounds",
        "1 round",
        "2 queries",
    ]


def test_cells() -> None:
    assert [cells(""), cells("abc"), cells("e\u0301"), cells("🧶")] == [0, 3, 1, 2]
