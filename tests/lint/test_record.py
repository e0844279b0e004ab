"""A record is a dataclass: alike where its values are, and to be changed only by making another."""

from __future__ import annotations

from dataclasses import dataclass, field, fields, replace


@dataclass(frozen=True, slots=True)
class Place:
    """A place with a note that doesn't count."""

    row: int
    stitch: int = 1
    note: str = field(default="", compare=False)


@dataclass(frozen=True, slots=True)
class Row:
    """A row."""

    number: int


def test_alike_where_the_values_are() -> None:
    assert Place(3, 4) == Place(3, 4, "seen")
    assert Place(3, 4) != Place(3, 5)
    assert Row(3) != Place(3)
    assert Row(3) == Row(3) != Row(4)


def test_one_key_for_what_is_alike() -> None:
    assert {Place(3, 4): "a", Place(3, 4, "seen"): "b", Row(3): "c"} == {Place(3, 4): "b", Row(3): "c"}


def test_shows_its_values() -> None:
    assert repr(Place(3)) == "Place(row=3, stitch=1, note='')"
    assert repr(Row(5)) == "Row(number=5)"


def test_another_with_one_value_changed() -> None:
    assert replace(Place(3, 4), stitch=9) == Place(3, 9)
    assert [one.name for one in fields(Place)] == ["row", "stitch", "note"]
