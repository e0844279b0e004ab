"""Times: how often something is done."""

from __future__ import annotations

import pytest
from in_words import after, items
from rowcall.lint.reading.times import figure_at, read_remainder, read_times
from rowcall.lint.steps import Count


@pytest.mark.parametrize(
    ("text", "count", "number"),
    [
        ("5 times", Count.TOTAL, 5),
        ("five times", Count.TOTAL, 5),
        ("x 6", Count.TOTAL, 6),
        ("6x", Count.TOTAL, 6),
        ("*6", Count.TOTAL, 6),
        ("twice", Count.TOTAL, 2),
        ("once", Count.TOTAL, 1),
        ("(6 times)", Count.TOTAL, 6),
        ("a total of 4 times", Count.TOTAL, 4),
        ("4 times in all", Count.TOTAL, 4),
        ("twice more", Count.MORE, 2),
        ("once more", Count.MORE, 1),
        ("3 more times", Count.MORE, 3),
        ("3 times more", Count.MORE, 3),
        ("another 3 times", Count.MORE, 3),
    ],
)
def test_a_number_of_times(text: str, count: Count, number: int) -> None:
    read = read_times(items(text), 0)

    assert read is not None
    assert read.times.number is not None
    assert (read.times.count, read.times.number.values) == (count, (number,))
    assert after(text, items(text), read.end) == ""


def test_times_a_size() -> None:
    read = read_times(items("8 (9, 10) times", 3), 0)

    assert read is not None
    assert read.times.number is not None
    assert read.times.number.values == (8, 9, 10)


@pytest.mark.parametrize(
    ("text", "leave", "rest"),
    [
        ("around", None, ""),
        ("around, join", None, ", join"),
        ("across", None, ""),
        ("to end", None, ""),
        ("to last 3 sts, sc", 3, ", sc"),
        ("to last st", 1, ""),
        ("until 2 sts remain, sc 2", 2, ", sc 2"),
        ("to within last 3 sts", 3, ""),
        ("around to last 2 sts", 2, ""),
        ("across until 4 sts remain", 4, ""),
    ],
)
def test_to_the_end(text: str, leave: int | None, rest: str) -> None:
    found = items(text)
    read = read_times(found, 0)

    assert read is not None
    assert read.times.count is Count.TO_END
    assert (read.times.leave.values[0] if read.times.leave else None, after(text, found, read.end)) == (leave, rest)


@pytest.mark.parametrize("text", ["", "sc 7", "in next st", "6 sc", "(sc, inc)", "join", "5"])
def test_no_times(text: str) -> None:
    assert read_times(items(text), 0) is None


@pytest.mark.parametrize(
    ("text", "leave"),
    [
        ("to last 3 sts", (3,)),
        ("until 2 sts remain", (2,)),
        ("to last 3 (4, 5) sts", (3, 4, 5)),
        ("to within last 3 sts", (3,)),
    ],
)
def test_places_kept(text: str, leave: tuple[int, ...]) -> None:
    read = read_remainder(items(text, 3), 0)

    assert read is not None
    assert read[0].values == leave


@pytest.mark.parametrize("text", ["", "around", "in next 3 sts", "to end"])
def test_no_places_kept(text: str) -> None:
    assert read_remainder(items(text), 0) is None


@pytest.mark.parametrize(("text", "values"), [("7", (7,)), ("(7)", (7,)), ("seven", (7,)), ("7 (8, 9)", (7, 8, 9))])
def test_figure(text: str, values: tuple[int, ...]) -> None:
    figure = figure_at(items(text, 3), 0)

    assert figure is not None
    assert figure.values == values


@pytest.mark.parametrize("text", ["", "sc", "(7 sts)", "(sc)"])
def test_no_figure(text: str) -> None:
    assert figure_at(items(text), 0) is None
