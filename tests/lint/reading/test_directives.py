"""Directives: instructions that stand for whole rounds."""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from in_words import items
from rowcall.lint.pattern import RepeatRounds, WorkEven
from rowcall.lint.reading.directives import read_directive
from rowcall.lint.steps import Count


@dataclass(frozen=True, slots=True)
class R:
    """A repeat of rounds as a test states it."""

    first: int | None = None
    last: int | None = None
    back: int | None = None
    count: Count | None = None
    number: int | None = None
    rounds: int | None = None
    until: int | None = None
    measured: bool = False
    ending: int | None = None
    then: tuple[int, ...] = ()


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Rep rnd 4", R(4, 4)),
        ("Repeat round 4.", R(4, 4)),
        ("Rep rnds 4 and 5 twice more", R(4, 5, count=Count.MORE, number=2)),
        ("Rep rnds 4 and 5 twice more, then rnd 4 once", R(4, 5, count=Count.MORE, number=2, then=(4,))),
        ("rep rows 2 and 3 three times more", R(2, 3, count=Count.MORE, number=3)),
        ("work rows 2-5 six times", R(2, 5, count=Count.EITHER, number=6)),
        ("rep rows 3-4", R(3, 4)),
        ("Rep rnds 2 to 5 a total of 3 times", R(2, 5, count=Count.TOTAL, number=3)),
        ("Rep last rnd", R(back=1)),
        ("Rep last rnd 5 times more", R(back=1, count=Count.MORE, number=5)),
        ("rep last 2 rnds", R(back=2)),
        ("Rep last two rnds 3 more times", R(back=2, count=Count.MORE, number=3)),
        ("Rep last 2 rows until 9 sts remain", R(back=2, until=9)),
        ("Rep rnds 4 & 5 until 72 sts", R(4, 5, until=72)),
        ("Rep rows 2 and 3 until you have 34 rows", R(2, 3, rounds=34)),
        ("rep rnds 4 and 5 until piece measures 20 cm", R(4, 5, measured=True)),
        ("Rep rnds 4 and 5, ending with rnd 4", R(4, 5, ending=4)),
        ("Rep 2nd rnd", R(2, 2)),
        ("Rep 2nd and 3rd rnds 8 times more", R(2, 3, count=Count.MORE, number=8)),
        ("As rnd 2", R(2, 2)),
        ("as row 6", R(6, 6)),
        ("same as round 3", R(3, 3)),
        ("Work as for rnd 3", R(3, 3)),
        ("For the sides rep Round 14 ten times more", R(14, 14, count=Count.MORE, number=10)),
    ],
)
def test_rounds_repeated(text: str, wanted: R) -> None:
    read = read_directive(items(text))

    assert read is not None
    what = read.directive
    assert isinstance(what, RepeatRounds)
    times = what.times
    assert (
        R(
            what.first,
            what.last,
            what.back,
            times.count if times else None,
            times.number.values[0] if times and times.number else None,
            what.rounds.values[0] if what.rounds else None,
            what.until.values[0] if what.until else None,
            what.measured,
            what.ending,
            what.then,
        )
        == wanted
    )


def test_times_a_size() -> None:
    read = read_directive(items("Rep Rnds 5 and 6 five (six, seven) times more", 3))

    assert read is not None
    assert isinstance(read.directive, RepeatRounds)
    assert read.directive.times is not None
    assert read.directive.times.number is not None
    assert (read.directive.times.count, read.directive.times.number.values) == (Count.MORE, (5, 6, 7))


@pytest.mark.parametrize(
    ("text", "rounds", "measured"),
    [
        ("Work even for 5 rounds", 5, False),
        ("work 9 rows even", 9, False),
        ("Work even until piece measures 20 cm", None, True),
        ("work in sc for 5 rounds", 5, False),
    ],
)
def test_rounds_worked_even(text: str, rounds: int | None, measured: bool) -> None:
    read = read_directive(items(text))

    assert read is not None
    what = read.directive
    assert isinstance(what, WorkEven)
    assert (what.rounds.values[0] if what.rounds else None, what.measured) == (rounds, measured)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "sc around",
        "rep from * around",
        "(sc, inc) x 6",
        "*sc 2, inc; rep from * 5 times more",
        "Rep rows 3-4 of chart A",
        "work 6 sc in ring",
        "as shown",
    ],
)
def test_no_directive(text: str) -> None:
    assert read_directive(items(text)) is None
