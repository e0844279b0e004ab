"""The fabric: a cursor over a run-length row agrees with a plain list of places."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from hypothesis import given, settings
from hypothesis import strategies as st
from rowcall.lint.working.fabric import Cursor, Fabric, Row, plain, stitches_of
from rowcall.lint.working.spots import LINK, SPACE, Segment, Spot

SPOTS = st.sampled_from([Spot("sc"), Spot("dc"), Spot(LINK), Spot(SPACE, 1), Spot(SPACE, 2)])
SEGMENTS = st.builds(Segment, st.lists(SPOTS, min_size=1, max_size=4).map(tuple), st.integers(min_value=1, max_value=5))
ROWS = st.lists(SEGMENTS, max_size=5).map(tuple)
MOVES = st.lists(st.tuples(st.sampled_from(["stitches", "spaces", "places"]), st.integers(0, 12)), max_size=8)


def places(segments: tuple[Segment, ...]) -> list[Spot]:
    """Write a row out, place by place."""
    return [spot for part in segments for _ in range(part.times) for spot in part.spots]


@dataclass(slots=True)
class PlainCursor:
    """A cursor over a list of places, one step at a time."""

    row: list[Spot]
    at: int = 0

    def take(self, number: int, *, spaces: bool) -> int:
        while number and self.at < len(self.row):
            number -= self.row[self.at].is_space is spaces
            self.at += 1
        return number

    def take_spots(self, number: int) -> int:
        step = min(number, len(self.row) - self.at)
        self.at += step
        return number - step

    def left(self, *, spaces: bool) -> int:
        return sum(spot.is_space is spaces for spot in self.row[self.at :])


def left_of(cursor: Cursor) -> list[Spot]:
    """Return the places that a cursor has not passed yet."""
    row = list(cursor.fabric.segments[cursor.index :])
    return places(tuple(row))[cursor.done :]


@given(ROWS, MOVES)
@settings(deadline=None)
def test_cursor_agrees_with_a_list_of_places(segments: tuple[Segment, ...], moves: list[tuple[str, int]]) -> None:
    cursor, listed = Cursor(Fabric(segments)), PlainCursor(places(segments))

    for kind, number in moves:
        if kind == "places":
            assert cursor.take_spots(number) == listed.take_spots(number)
        elif kind == "spaces":
            assert cursor.take_spaces(number) == listed.take(number, spaces=True)
        else:
            assert cursor.take(number) == listed.take(number, spaces=False)
        assert (cursor.left(), cursor.spaces_left()) == (listed.left(spaces=False), listed.left(spaces=True))
        assert left_of(cursor) == listed.row[listed.at :]


@given(ROWS, st.integers(0, 30), st.integers(0, 12))
def test_a_copy_goes_its_own_way(segments: tuple[Segment, ...], before: int, number: int) -> None:
    cursor = Cursor(Fabric(segments))
    cursor.take_spots(before)
    here = left_of(cursor)

    other = cursor.copy()
    other.take(number)

    assert left_of(cursor) == here


@given(
    st.lists(SPOTS, max_size=3).map(lambda spots: (Spot(SPACE), *spots)),
    st.integers(1, 40),
    st.integers(0, 12),
    st.integers(1, 9),
)
def test_jumping_whole_passes_is_taking_them_one_by_one(
    spots: tuple[Spot, ...], times: int, before: int, number: int
) -> None:
    """In a row with spaces, whole passes that end at the same point of the pattern may be passed at once."""
    cursor = Cursor(Fabric((Segment(spots, times),)))
    cursor.take_spots(before)
    start = cursor.copy()
    cursor.take_spots(number)
    ahead = cursor.passes_ahead(start)
    if ahead is None:
        fits = cursor.index == start.index and bool(left_of(cursor)) and number % len(spots) == 0
        assert not fits
        return
    moved, more = ahead
    assert moved == number
    assert more == len(left_of(cursor)) // number
    assert cursor.take_spots(moved * more) == 0
    assert left_of(cursor) == left_of(start)[number * (more + 1) :]


@given(
    st.lists(
        st.builds(
            Segment,
            st.lists(st.sampled_from([Spot("sc"), Spot("dc")]), min_size=1, max_size=4).map(tuple),
            st.integers(min_value=1, max_value=5),
        ),
        max_size=5,
    ).map(tuple),
    st.integers(0, 12),
    st.integers(0, 9),
)
def test_without_spaces_passes_are_alike_across_the_whole_row(
    segments: tuple[Segment, ...], before: int, number: int
) -> None:
    cursor = Cursor(Fabric(segments))
    cursor.take(before)
    start = cursor.copy()
    taken = number - cursor.take(number)
    ahead = cursor.passes_ahead(start)
    if ahead is None:
        assert taken == 0
        return
    moved, more = ahead
    assert moved == taken
    assert more == len(left_of(cursor)) // taken
    assert cursor.take_spots(moved * more) == 0
    assert left_of(cursor) == left_of(start)[taken * (more + 1) :]


@given(ROWS)
def test_counts_of_a_row(segments: tuple[Segment, ...]) -> None:
    fabric, listed = Fabric(segments), places(segments)
    stitches = [spot for spot in listed if not spot.is_space]

    assert fabric.stitches == len(stitches) == stitches_of(segments)
    assert fabric.spaces == len(listed) - len(stitches)
    assert fabric.chains == sum(spot.size for spot in listed if spot.is_space)
    assert dict(fabric.kinds()) == Counter(spot.kind for spot in stitches)


@given(ROWS, ROWS, st.integers(0, 6))
@settings(deadline=None)
def test_extending_a_row_keeps_every_place(
    first: tuple[Segment, ...], stretch: tuple[Segment, ...], times: int
) -> None:
    row = Row()
    row.extend(first)
    row.extend(stretch, times)

    assert places(row.done().segments) == [*places(first), *(places(stretch) * times)]


@given(st.lists(st.tuples(SPOTS, st.integers(-1, 5)), max_size=10))
def test_adding_places_one_kind_after_the_other(added: list[tuple[Spot, int]]) -> None:
    row = Row()
    for spot, number in added:
        row.add(spot, number)

    assert places(row.done().segments) == [spot for spot, number in added for _ in range(number)]


def test_a_long_row_costs_one_segment() -> None:
    row = Row()
    row.add(Spot("sc"), 500_000)
    row.add(Spot("sc"), 500_000)

    assert row.done() == plain("sc", 1_000_000) == Fabric((Segment((Spot("sc"),), 1_000_000),))
    assert plain("sc", 0) == Fabric()


def test_a_long_repeat_is_one_segment() -> None:
    row = Row()
    row.extend((Segment((Spot("sc"),), 3), Segment((Spot("dc"),), 1)), 100_000)

    assert row.done().segments == (Segment((Spot("sc"), Spot("sc"), Spot("sc"), Spot("dc")), 100_000),)
    assert row.done().kinds() == (("sc", 300_000), ("dc", 100_000))


def test_the_space_behind_the_last_stitch_taken_is_not_passed() -> None:
    cursor = Cursor(Fabric((Segment((Spot("dc"), Spot(SPACE, 2)), 3),)))

    assert cursor.take(2) == 0
    assert left_of(cursor) == [Spot(SPACE, 2), Spot("dc"), Spot(SPACE, 2)]
