"""Numbers as drafts write them."""

from __future__ import annotations

import pytest
from rowcall.lint.reading.numbers import cardinal, fraction, ordinal, times_word


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("0", 0),
        ("7", 7),
        ("007", 7),
        (" 24 ", 24),
        ("zero", 0),
        ("one", 1),
        ("Four", 4),
        ("TWELVE", 12),
        ("nineteen", 19),
        ("thirty", 30),
        ("forty-two", 42),
        ("Forty two", 42),
        ("forty - two", 42),
        ("hundred", 100),
        ("a hundred", 100),
        ("one hundred", 100),
        ("one hundred six", 106),
        ("one hundred and six", 106),
        ("two-hundred-and-forty-four", 244),
        ("nine hundred ninety-nine", 999),
    ],
)
def test_a_cardinal(text: str, value: int) -> None:
    assert cardinal(text) == value


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "a",
        "and",
        "ones",
        "first",
        "1st",
        "-3",
        "2.5",
        "1,024",
        "½",
        "²",
        "sc",
        "three four",
        "twenty ten",
        "twenty zero",
        "twelve-one",
        "forty-",
        "ten hundred",
        "zero hundred",
        "hundred hundred",
        "one hundred and",
        "one hundred zero",
        "and one hundred",
    ],
)
def test_no_cardinal(text: str) -> None:
    assert cardinal(text) is None


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("1st", 1),
        ("2nd", 2),
        ("3RD", 3),
        ("11th", 11),
        ("22nd", 22),
        ("2th", 2),
        ("100th", 100),
        ("first", 1),
        ("Second", 2),
        ("third", 3),
        ("fourth", 4),
        ("fifth", 5),
        ("eighth", 8),
        ("ninth", 9),
        ("twelfth", 12),
        ("twentieth", 20),
        ("twenty-first", 21),
        ("Forty Fifth", 45),
        ("hundredth", 100),
        ("one hundred and third", 103),
    ],
)
def test_an_ordinal(text: str, value: int) -> None:
    assert ordinal(text) == value


@pytest.mark.parametrize(
    "text",
    [
        "",
        "1",
        "0th",
        "zeroth",
        "one",
        "twenty",
        "1 st",
        "st",
        "th",
        "firsts",
        "with",
        "stth",
        "tieth",
        "twenty-twenty",
    ],
)
def test_no_ordinal(text: str) -> None:
    assert ordinal(text) is None


@pytest.mark.parametrize(
    ("text", "value"),
    [("once", 1), ("Twice", 2), (" thrice ", 3), ("one", None), ("two times", None), ("", None)],
)
def test_times_words(text: str, value: int | None) -> None:
    assert times_word(text) == value


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("½", 0.5),
        ("¾", 0.75),
        ("3½", 3.5),
        ("3 ½", 3.5),
        ("3-½", 3.5),
        ("1/2", 0.5),
        ("3\u20444", 0.75),
        ("2 1/2", 2.5),
        ("2-1/2", 2.5),
        ("5/4", 1.25),
        ("2.5", 2.5),
        (".5", 0.5),
        ("2,5", 2.5),
        ("10,25", 10.25),
        ("5", 5.0),
        (" 12 ", 12.0),
    ],
)
def test_a_fraction(text: str, value: float) -> None:
    assert fraction(text) == value


@pytest.mark.parametrize("text", ["", "half", "1/0", "1/2/3", "2,500", "2.", "-1/2", "½½", "2²", "x", "5x", "1 2"])
def test_no_fraction(text: str) -> None:
    assert fraction(text) is None
