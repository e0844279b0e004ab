"""Places: where a stitch goes."""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from in_words import after, items
from rowcall.lint.reading.places import read_place
from rowcall.lint.steps import At, Target

ANY = Target()
CHAIN = Target(chain=True)


@dataclass(frozen=True, slots=True)
class P:
    """A place as a test states it."""

    at: At
    number: int | None = None
    target: Target = ANY
    leave: int | None = None
    last: bool = False
    rest: str = ""


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("in next st", P(At.NEXT, 1)),
        ("in next 9 sts", P(At.NEXT, 9)),
        ("in each of next 9 sts", P(At.NEXT, 9)),
        ("in the next seven stitches", P(At.NEXT, 7)),
        ("in last 3 sts", P(At.NEXT, 3, last=True)),
        ("in last st", P(At.NEXT, 1, last=True)),
        ("in first st", P(At.NEXT, 1)),
        ("in next 3 sc, inc", P(At.NEXT, 3, Target(("sc",)), rest=", inc")),
        ("in next sp", P(At.NEXT, 1, Target(space=True))),
        ("in next ch-2 sp", P(At.NEXT, 1, Target(space=True, size=2))),
        ("in next 1-ch sp", P(At.NEXT, 1, Target(space=True, size=1))),
        ("in each st", P(At.EACH)),
        ("in each st around", P(At.EACH)),
        ("in every st around, join", P(At.EACH, rest=", join")),
        ("in each sc", P(At.EACH, target=Target(("sc",)))),
        ("in each ch-1 sp", P(At.EACH, target=Target(space=True, size=1))),
        ("in each ch across", P(At.EACH, target=CHAIN)),
        ("in each st to last 2 sts", P(At.EACH, leave=2)),
        ("around", P(At.EACH)),
        ("across to last 3 sts", P(At.EACH, leave=3)),
        ("in same st", P(At.SAME)),
        ("in same st as joining", P(At.SAME)),
        ("in 2nd ch from hook", P(At.FROM_HOOK, 2)),
        ("in fourth ch from hook", P(At.FROM_HOOK, 4)),
        ("in magic ring", P(At.RING)),
        ("into ring", P(At.RING)),
    ],
)
def test_place(text: str, wanted: P) -> None:
    found = items(text)
    placed = read_place(found, 0)

    assert placed is not None
    where = placed.where
    assert (
        P(
            where.at,
            where.number.values[0] if where.number else None,
            where.target,
            where.leave.values[0] if where.leave else None,
            where.last,
            after(text, found, placed.end),
        )
        == wanted
    )


def test_places_a_size() -> None:
    placed = read_place(items("in next 7 (8, 9) sts", 3), 0)

    assert placed is not None
    assert placed.where.number is not None
    assert placed.where.number.values == (7, 8, 9)


@pytest.mark.parametrize(("text", "each"), [("in each of next 3 sts", True), ("in next 3 sts", False)])
def test_each_is_kept(text: str, each: bool) -> None:
    placed = read_place(items(text), 0)

    assert placed is not None
    assert placed.each is each


@pytest.mark.parametrize("text", ["", "sc 7", ", inc", "6 times", "join", "(sc, inc)"])
def test_no_place(text: str) -> None:
    assert read_place(items(text), 0) is None
