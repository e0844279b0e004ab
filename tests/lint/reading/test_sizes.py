"""Sizes: which a draft is for, and words that speak of some of them only."""

from __future__ import annotations

import pytest
from in_words import told
from rowcall.lint.draft import Span
from rowcall.lint.figures import Sizes
from rowcall.lint.reading.sizes import find_sizes, leading_note, match_size, size_note, titled_sizes

SML = Sizes(("Small", "Medium", "Large"), declared=True)
AGES = Sizes(("0-3 months", "6 months", "12 months"), declared=True)


@pytest.mark.parametrize(
    ("head", "listed", "names"),
    [
        ("Sizes: Small (Medium, Large)", 3, ("Small", "Medium", "Large")),
        ("Sizes: S[M, L], to fit a head of 51[55, 59] cm", 3, ("S", "M", "L")),
        ("SIZES: Baby/Child/Teen/Adult", 4, ("Baby", "Child", "Teen", "Adult")),
        ("Terms: US.  Sizes: (Small, Medium, Large)", 3, ("Small", "Medium", "Large")),
        ("Sizes\nSmall: 18 in\nMedium: 20 in\nLarge: 22 in", 3, ("Small", "Medium", "Large")),
        ("Sizes: 2 (4, 6, 8)", 4, ("2", "4", "6", "8")),
        ("Baby size with Child size in ( ). One skein each.", 2, ("Baby", "Child")),
        ("Directions are for size 8. Changes for sizes 10, 12 are in parentheses.", 3, ("8", "10", "12")),
        (
            "Directions are for Small (S). Changes for Medium (M) and Large (L) are in brackets.",
            3,
            ("Small", "Medium", "Large"),
        ),
        ("Pattern is for infants; changes for\ntoddlers are in ( ).", 2, ("infants", "toddlers")),
        ("Hook 5 and 6 in (mm).", 2, ("size 1", "size 2")),
        ("Row counts are in brackets.", 2, ("size 1", "size 2")),
        ("Size: one size", 1, ()),
        ("A hat.", 1, ()),
        ("A hat.", 3, ("size 1", "size 2", "size 3")),
        ("", 1, ()),
    ],
)
def test_sizes_declared(head: str, listed: int, names: tuple[str, ...]) -> None:
    assert find_sizes(head, listed).names == names


@pytest.mark.parametrize(("head", "declared"), [("Sizes: S (M, L)", True), ("A hat.", False)])
def test_numbers_stand_for_names_that_are_not_declared(head: str, declared: bool) -> None:
    assert find_sizes(head, 3).declared is declared


@pytest.mark.parametrize(
    ("titles", "names"),
    [
        (["Small", "Crown", "Large"], ("Small", "Large")),
        (["NEWBORN:", "0-3 months"], ("NEWBORN", "0-3 months")),
        (["Small", "Crown"], ()),
        (["Head", "Body"], ()),
    ],
)
def test_sizes_with_a_section_each(titles: list[str], names: tuple[str, ...]) -> None:
    assert titled_sizes([(title, Span(0, len(title))) for title in titles]).names == names


@pytest.mark.parametrize(
    ("text", "sizes", "unknown"),
    [
        ("All sizes:", None, ()),
        ("Both sizes:", None, ()),
        ("Small only:", (0,), ()),
        ("Medium and Large only:", (1, 2), ()),
        ("Sizes M and L only:", (1, 2), ()),
        ("For size Large only", (2,), ()),
        ("Small version only:", (0,), ()),
        ("Small, Medium and Large only:", (0, 1, 2), ()),
        ("XL only:", (), ("XL",)),
        ("Large and XL only:", (2,), ("XL",)),
    ],
)
def test_words_for_some_sizes(text: str, sizes: tuple[int, ...] | None, unknown: tuple[str, ...]) -> None:
    note = size_note(text, Span(0, len(text)), SML, title=False)

    assert note is not None
    assert (note.sizes, note.unknown) == (sizes, unknown)


@pytest.mark.parametrize("text", ["Fasten off.", "Crown", "Rnd 3: sc around", "For the brim only work in blo:", ""])
def test_no_words_for_some_sizes(text: str) -> None:
    assert size_note(text, Span(0, len(text)), SML, title=False) is None


def test_no_size_is_named_where_none_is_declared() -> None:
    assert size_note("Small only:", Span(0, 11), Sizes(()), title=False) is None


@pytest.mark.parametrize(
    ("name", "sizes", "index"),
    [
        ("Small", SML, 0),
        ("small", SML, 0),
        ("S", SML, 0),
        ("M", SML, 1),
        ("size Large", SML, 2),
        ("XL", SML, None),
        ("", SML, None),
        ("6 months", AGES, 1),
        ("12 Months", AGES, 2),
        ("0-3 months", AGES, 0),
    ],
)
def test_size_by_its_name(name: str, sizes: Sizes, index: int | None) -> None:
    assert match_size(name, sizes) == index


@pytest.mark.parametrize(
    ("text", "sizes", "rest"),
    [
        ("Small only: ch 60", (0,), "ch 60"),
        ("Sizes M and L only: ch 60", (1, 2), "ch 60"),
        ("For large hat do one more round", (2,), "do one more round"),
    ],
)
def test_sizes_named_before_an_instruction(text: str, sizes: tuple[int, ...], rest: str) -> None:
    read = leading_note(text, 0, SML)

    assert read is not None
    assert (read[0].sizes, text[read[1] :]) == (sizes, rest)
    assert told(text, read[0].span) is not None


@pytest.mark.parametrize("text", ["Rnd 3: sc", "Note: keep the marker", "ch 60", ""])
def test_no_sizes_named_before_an_instruction(text: str) -> None:
    assert leading_note(text, 0, SML) is None
