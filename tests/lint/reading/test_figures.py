"""Figures: lists of numbers, one a size."""

from __future__ import annotations

import pytest
from in_words import told, words
from rowcall.lint.figures import FigureList, ListStyle
from rowcall.lint.reading.figures import lift, lists_in, number_of_sizes

ROUND, SQUARE, INSIDE = ListStyle.ROUND, ListStyle.SQUARE, ListStyle.INSIDE
SLASH, BARE, MIXED = ListStyle.SLASH, ListStyle.BARE, ListStyle.MIXED


def lists(text: str) -> list[tuple[tuple[int | None, ...], ListStyle, str, str | None]]:
    return [(one.values, one.style, one.inner, told(text, one.span)) for one in lists_in(words(text))]


@pytest.mark.parametrize(
    ("text", "values", "style", "inner", "span"),
    [
        ("72 (80, 88)", (72, 80, 88), ROUND, ",", "72 (80, 88)"),
        ("72 (80-88)", (72, 80, 88), ROUND, "-", "72 (80-88)"),
        ("72 (80: 88)", (72, 80, 88), ROUND, ":", "72 (80: 88)"),
        ("72[80,88]", (72, 80, 88), SQUARE, ",", "72[80,88]"),
        ("72 [80] sts", (72, 80), SQUARE, "", "72 [80]"),
        ("9,(10,11) dc", (9, 10, 11), ROUND, ",", "9,(10,11)"),
        ("20(25-25)sc", (20, 25, 25), ROUND, "-", "20(25-25)"),
        ("11 (13/15)", (11, 13, 15), ROUND, "/", "11 (13/15)"),
        ("72/80/88 hdc", (72, 80, 88), SLASH, "/", "72/80/88"),
        ("96 (104, 112) (120, 128)", (96, 104, 112, 120, 128), ROUND, ",", "96 (104, 112) (120, 128)"),
        ("96 (104, 112) [120, 128]", (96, 104, 112, 120, 128), ROUND, ",", "96 (104, 112) [120, 128]"),
        ("(39, 41, 43)", (39, 41, 43), INSIDE, ",", "39, 41, 43"),
        ("(20, 22, 24 dc)", (20, 22, 24), INSIDE, ",", "20, 22, 24"),
        ("42, 48, 54 sc", (42, 48, 54), BARE, ",", "42, 48, 54"),
        ("64 (64) 70 (70) 70", (64, 64, 70, 70, 70), MIXED, "", "64 (64) 70 (70) 70"),
        ("0 (3)", (0, 3), ROUND, "", "0 (3)"),
        ("k9[-, 11]", (9, None, 11), SQUARE, ",", "9[-, 11]"),
        ("- (24, 36)", (None, 24, 36), ROUND, ",", "- (24, 36)"),
        ("-/24/36", (None, 24, 36), SLASH, "/", "-/24/36"),
        ("-/-/24", (None, None, 24), SLASH, "/", "-/-/24"),
        ("six (seven, eight) times", (6, 7, 8), ROUND, ",", "six (seven, eight)"),
    ],
)
def test_a_list(text: str, values: tuple[int | None, ...], style: ListStyle, inner: str, span: str) -> None:
    assert lists(text) == [(values, style, inner, span)]


@pytest.mark.parametrize(
    "text", ["(8 rows)", "sc 7, inc", "10 cm (4 in)", "3½ mm (No. 9)", "(24)", "(2 sc, inc) x 6", "ch-3 (counts)"]
)
def test_no_list(text: str) -> None:
    assert lists(text) == []


@pytest.mark.parametrize(
    ("text", "sizes", "figures"),
    [
        ("sc 7 (8, 9), inc", 3, [(7, 8, 9)]),
        ("sc 7 (8, 9), inc 2", 3, [(7, 8, 9), (2,)]),
        ("sc 7 (8), inc", 1, [(7,), (8,)]),
        ("(66, 72 sc)", 2, [(66, 72)]),
        ("sc 5 (6, 7, 8)", 3, [(None, None, None)]),
        ("sc 7 (8)", 3, [(7,), (8,)]),
    ],
)
def test_lists_of_a_size_each_become_one_number(text: str, sizes: int, figures: list[tuple[int | None, ...]]) -> None:
    lifted, _ = lift(words(text), sizes)

    assert [word.figure.values for word in lifted if word.kind == "number"] == figures


def test_a_list_for_some_sizes_only_is_theirs() -> None:
    lifted, _ = lift(words("sc 8 (9)"), 3, only=(1, 2))

    assert [word.figure.values for word in lifted if word.kind == "number"] == [(None, 8, 9)]


def listed(*values: tuple[int, ...], style: ListStyle = ROUND) -> list[FigureList]:
    return [FigureList(one, lists_in(words("1 (2)"))[0].span, style, ",") for one in values]


@pytest.mark.parametrize(
    ("found", "number"),
    [
        ([], 1),
        (listed((7, 8, 9)), 3),
        (listed((7, 8)), 1),
        (listed((7, 8), (9, 10)), 2),
        (listed((7, 8, 9), (1, 2, 3), (1, 2)), 3),
        (listed((7, 8), (9, 10), style=SLASH), 1),
    ],
)
def test_most_lists_tell_the_number_of_sizes(found: list[FigureList], number: int) -> None:
    assert number_of_sizes(found) == number
