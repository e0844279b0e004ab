"""Headings in all the ways in which drafts write them."""

from __future__ import annotations

import pytest
from in_words import told
from rowcall.lint.pattern import Side
from rowcall.lint.reading.headings import Form, bare_heading, heading_at, lead, middle_headings


@pytest.mark.parametrize(
    ("text", "words", "numbers", "body"),
    [
        ("Rnd 3: sc around", "Rnd 3", ((3, 3),), "sc around"),
        ("Rnd. 3: sc around", "Rnd. 3", ((3, 3),), "sc around"),
        ("Rnd3; sc around", "Rnd3", ((3, 3),), "sc around"),
        ("Round 3. Sc around", "Round 3", ((3, 3),), "Sc around"),
        ("R3 2SC in each st", "R3", ((3, 3),), "2SC in each st"),
        ("R 3 : sc around", "R 3", ((3, 3),), "sc around"),
        ("ROUND 3: sc around", "ROUND 3", ((3, 3),), "sc around"),
        ("Row 3 - sc across", "Row 3", ((3, 3),), "sc across"),
        ("Rnd l: 6 sc", "Rnd l", ((1, 1),), "6 sc"),
        ("Rnd l2: sc around", "Rnd l2", ((12, 12),), "sc around"),
        ("Rnds 5-9: sc around", "Rnds 5-9", ((5, 9),), "sc around"),
        ("R7 - R11: sc around", "R7 - R11", ((7, 11),), "sc around"),
        ("Rnds 12 + 13: sc around", "Rnds 12 + 13", ((12, 13),), "sc around"),
        ("Row 2-28: sc across", "Row 2-28", ((2, 28),), "sc across"),
        ("Rounds 3 to 6: sc around", "Rounds 3 to 6", ((3, 6),), "sc around"),
        ("Rnds 3 and 4: sc around", "Rnds 3 and 4", ((3, 4),), "sc around"),
        ("Rnd 13(15): sc around", "Rnd 13(15)", ((13, 13), (15, 15)), "sc around"),
        ("Rnd 13 (15, 17): sc around", "Rnd 13 (15, 17)", ((13, 13), (15, 15), (17, 17)), "sc around"),
        ("Rnds 5-9 (10, 11): sc around", "Rnds 5-9 (10, 11)", ((5, 9), (5, 10), (5, 11)), "sc around"),
        ("R7-R9 (R7-R10/R7-R12): sc", "R7-R9 (R7-R10/R7-R12)", ((7, 9), (7, 10), (7, 12)), "sc"),
        ("Rnds 3-30/32/34: sc", "Rnds 3-30/32/34", ((3, 30), (3, 32), (3, 34)), "sc"),
        ("Rnd 13/15/17: sc", "Rnd 13/15/17", ((13, 13), (15, 15), (17, 17)), "sc"),
    ],
)
def test_word_and_number(text: str, words: str, numbers: tuple[tuple[int, int], ...], body: str) -> None:
    heading = heading_at(text, 0, len(text))

    assert heading is not None
    assert (told(text, heading.span), heading.form, heading.numbers, text[heading.body :]) == (
        words,
        Form.WORD,
        numbers,
        body,
    )


@pytest.mark.parametrize(
    ("text", "words", "numbers", "body"),
    [
        ("3rd rnd: sc around", "3rd rnd", ((3, 3),), "sc around"),
        ("1st row.- Ch 1, sc", "1st row.", ((1, 1),), "Ch 1, sc"),
        ("3 row: sc across", "3 row", ((3, 3),), "sc across"),
        ("4th to 6th rnds: sc around", "4th to 6th rnds", ((4, 6),), "sc around"),
        ("4th - 6th rnds: sc around", "4th - 6th rnds", ((4, 6),), "sc around"),
    ],
)
def test_ordinal_and_word(text: str, words: str, numbers: tuple[tuple[int, int], ...], body: str) -> None:
    heading = heading_at(text, 0, len(text))

    assert heading is not None
    assert (told(text, heading.span), heading.form, heading.numbers, text[heading.body :]) == (
        words,
        Form.ORDINAL,
        numbers,
        body,
    )


def test_ordinals_to_a_list_of_ordinals() -> None:
    text = "4th to (19th, 21st, 23rd) rnds: Rep 2nd and 3rd rnds"
    heading = heading_at(text, 0, len(text))

    assert heading is not None
    assert (heading.numbers, text[heading.body :]) == (((4, 19), (4, 21), (4, 23)), "Rep 2nd and 3rd rnds")


@pytest.mark.parametrize(
    ("text", "listed"),
    [
        ("Rnds 5, 7, 9: sc", (5, 7, 9)),
        ("Rnds 6, 8: sc", (6, 8)),
        ("Rnds 3-4, 8-9: sc", (3, 4, 8, 9)),
        ("Rnds 5, 6, 7: sc", ()),
        ("Rnds 5-7: sc", ()),
    ],
)
def test_numbers_covered_one_by_one(text: str, listed: tuple[int, ...]) -> None:
    heading = heading_at(text, 0, len(text))

    assert heading is not None
    assert heading.listed == listed


@pytest.mark.parametrize(
    ("text", "prefix", "flat"),
    [
        ("Next rnd: sc around", "Next", False),
        ("Inc round: sc, inc", "Inc", False),
        ("Foundation row: sc in 2nd ch", "Foundation", True),
        ("Set-up row: sc across", "Set-up", True),
        ("LAST ROUND. Sc2tog around", "LAST", False),
        ("Next R: sc", "Next", False),
    ],
)
def test_without_a_number(text: str, prefix: str, flat: bool) -> None:
    heading = heading_at(text, 0, len(text))

    assert heading is not None
    assert (heading.form, heading.prefix, heading.numbers, heading.flat) == (Form.NAMED, prefix, (), flat)


@pytest.mark.parametrize(
    ("text", "prefix", "numbers"),
    [("Band Row 1: sc", "Band", ((1, 1),)), ("Hat Round 2: sc", "Hat", ((2, 2),))],
)
def test_name_before_the_number(text: str, prefix: str, numbers: tuple[tuple[int, int], ...]) -> None:
    heading = heading_at(text, 0, len(text))

    assert heading is not None
    assert (heading.prefix, heading.numbers) == (prefix, numbers)


@pytest.mark.parametrize(
    ("text", "numbers", "parity", "reach"),
    [
        ("2nd and every alternate rnd: sc around", ((2, 2),), None, None),
        ("Rnd 4 (and all even rnds): sc around", ((4, 4),), 0, None),
        ("Rnd 19 (21, 23) and every alternate rnd: sc", ((19, 19), (21, 21), (23, 23)), None, None),
        ("Row 2 and all WS rows: sc", ((2, 2),), None, None),
        ("Even-numbered rnds 2-20: sc", (), 0, (2, 20)),
        ("All odd rnds: sc", (), 1, None),
    ],
)
def test_rounds_declared_once(
    text: str, numbers: tuple[tuple[int, int], ...], parity: int | None, reach: tuple[int, int] | None
) -> None:
    heading = heading_at(text, 0, len(text))

    assert heading is not None
    assert (heading.alternate, heading.numbers, heading.parity, heading.reach) == (True, numbers, parity, reach)


@pytest.mark.parametrize(
    ("text", "side", "flat"),
    [
        ("Row 3 (RS) - sc", Side.RIGHT, True),
        ("Row 4 (WS): sc", Side.WRONG, True),
        ("RS Row 3: sc", Side.RIGHT, True),
        ("Rnd 3: sc", None, False),
        ("Row 3: sc", None, True),
    ],
)
def test_side_and_flatness(text: str, side: Side | None, flat: bool) -> None:
    heading = heading_at(text, 0, len(text))

    assert heading is not None
    assert (heading.side, heading.flat) == (side, flat)


@pytest.mark.parametrize(
    ("text", "notes"),
    [
        ("Rnd 5 (pebble): sc", ["(pebble)"]),
        ("Rnds 5-9 (5 rounds): sc", ["(5 rounds)"]),
        ("Row 19 (28 sts): sc", ["(28 sts)"]),
        ("Rnd 5: sc", []),
    ],
)
def test_notes_in_the_heading(text: str, notes: list[str]) -> None:
    heading = heading_at(text, 0, len(text))

    assert heading is not None
    assert [told(text, note) for note in heading.notes] == notes


@pytest.mark.parametrize(
    "text",
    [
        "sc in next 3 sts",
        "Rows 5 = 10 cm",
        "20 rows measure 10 cm",
        "Repeat rounds until it fits",
        "Gauge: 14 sts and 16 rnds",
        "",
        "until the next round:",
    ],
)
def test_no_heading(text: str) -> None:
    assert heading_at(text, 0, len(text)) is None


@pytest.mark.parametrize(
    ("text", "numbers"),
    [("3. sc", ((3, 3),)), ("11-23. sc", ((11, 23),)), ("4) sc", ((4, 4),)), ("5: sc", ((5, 5),))],
)
def test_bare_number(text: str, numbers: tuple[tuple[int, int], ...]) -> None:
    heading = bare_heading(text, 0, len(text))

    assert heading is not None
    assert (heading.form, heading.numbers) == (Form.BARE, numbers)


@pytest.mark.parametrize("text", ["3 sc", "3.5 mm hook", "sc 3.", ""])
def test_no_bare_number(text: str) -> None:
    assert bare_heading(text, 0, len(text)) is None


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("* Rnd 3: sc", "Rnd 3: sc"),
        ("- Rnd 3: sc", "Rnd 3: sc"),
        ("| R3 | sc |", "R3 | sc |"),
        ("**Rnd 3:** sc", "Rnd 3:** sc"),
        ("> sc", "sc"),
    ],
)
def test_lead_of_a_line_is_passed(text: str, words: str) -> None:
    assert text[lead(text, 0, len(text)) :] == words


def test_headings_in_mid_line() -> None:
    text = "6 sc in ring. (6) Rnd 2: inc around. (12) Rnd 3: (sc, inc) x 6. (18)"

    assert [told(text, heading.span) for heading in middle_headings(text, 0, len(text))] == ["Rnd 2", "Rnd 3"]
