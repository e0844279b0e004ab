"""Numbers, elided rounds and sides in whole drafts: exact lists of what the rules of sequence say."""

from __future__ import annotations

import pytest
from rowcall.lint.finding import Level
from rowcall.lint.proof import Proof, proof
from rowcall.rules.book import all_rules

FAMILY = [rule for rule in all_rules() if rule.family == "sequence"]

THREE = "Sizes: Small (Medium, Large)\n\nCh 48 (56, 64), join.\nRnd 1: sc in each ch around. 48 (56, 64) sc\n"


def proofed(text: str) -> Proof:
    return proof(text, rules=FAMILY)


def found(text: str) -> list[tuple[str, int, tuple[int, ...]]]:
    """Return rule, line and sizes of each finding."""
    done = proofed(text)
    return [(one.rule, done.draft.position(one.span.start).line, one.sizes) for one in done.findings]


def rounds(*headings: str) -> str:
    """Make a draft of plain rounds with these headings."""
    return "".join(f"{heading}: sc in each st around. (24)\n" for heading in headings)


@pytest.mark.parametrize(
    ("headings", "expected"),
    [
        (("Rnd 5", "Rnd 6", "Rnd 7"), []),
        (("Rnd 5", "Rnds 6-9", "Rnd 10"), []),
        (("Rnd 5", "Rnds 6-9", "Rnd 11", "Rnd 12"), [("number-skipped", 3, ())]),
        (("Rnd 5", "Rnd 8", "Rnd 9", "Rnd 10"), [("number-skipped", 2, ())]),
        (("Rnds 5, 7, 9", "Rnds 6, 8", "Rnd 10"), []),
        (("Rnds 5 + 7", "Rnd 8"), [("number-skipped", 1, ())]),
        (("Rnd 5", "Rnd 5", "Rnd 6", "Rnd 7"), [("number-twice", 2, ())]),
        (("Rnd 5", "Rnd 5", "Rnd 5", "Rnd 6"), [("number-twice", 2, ()), ("number-twice", 3, ())]),
        (("Rnd 15", "Rnd 15", "Rnd 17"), [("number-twice", 2, ())]),
        (("Rnd 5", "Rnd 16", "Rnd 7", "Rnd 8"), [("number-out-of-order", 2, ())]),
        (("Rnd 15", "Rnd 6", "Rnd 17", "Rnd 18"), [("number-out-of-order", 2, ())]),
        (("Rnd 5", "Rnd 7", "Rnd 6", "Rnd 8"), [("number-out-of-order", 3, ())]),
        (("Rnd 1", "Rnd 3", "Rnd 5", "Rnd 7"), [("elision-unstated", 2, ())]),
        (("Rnd 2", "Rnd 4", "Rnd 6", "Rnd 7"), [("elision-unstated", 2, ())]),
        (("Rnd 1", "Rnd 2", "Rnd 1", "Rnd 2"), []),
    ],
)
def test_headings_in_a_row(headings: tuple[str, ...], expected: list[tuple[str, int, tuple[int, ...]]]) -> None:
    assert found(rounds(*headings)) == expected


@pytest.mark.parametrize("after", ["Rnd 6", "Rnd 10"])
def test_a_repeat_of_rounds_may_be_counted_or_not(after: str) -> None:
    text = rounds("Rnd 4", "Rnd 5") + "Rep rnds 4 and 5 twice more.\n" + rounds(after)

    assert found(text) == []


def test_a_repeat_of_rounds_accounts_only_for_its_own_rounds() -> None:
    text = rounds("Rnd 4", "Rnd 5") + "Rnd 6: sc around. (24)\n" + rounds("Rnd 8", "Rnd 9")

    assert found(text) == [("number-skipped", 4, ())]


def test_a_new_piece_numbers_as_it_likes() -> None:
    text = "HEAD\n" + rounds("Rnd 1", "Rnd 2", "Rnd 3") + "\nTAIL\n" + rounds("Rnd 2", "Rnd 3")

    assert found(text) == []


@pytest.mark.parametrize(
    ("last", "expected"),
    [
        ("Rnd 6 (8, 10)", []),
        ("Rnd 6 (9, 10)", [("number-skipped", 6, (1,))]),
        ("Rnd 7 (9, 11)", [("number-skipped", 6, ())]),
    ],
)
def test_each_size_has_its_own_numbers(last: str, expected: list[tuple[str, int, tuple[int, ...]]]) -> None:
    text = (
        f"{THREE}Rnds 2-5 (2-7, 2-9): sc in each st around. 48 (56, 64) sc\n"
        f"{last}: sc in each st around. 48 (56, 64) sc\n"
    )

    assert found(text) == expected


def test_rounds_for_some_sizes_leave_no_gap_for_the_others() -> None:
    text = (
        f"{THREE}Medium and Large only:\nRnd 2: sc in each st around.\n"
        "Large only:\nRnd 3: sc in each st around.\nAll sizes:\nRnd 4: sc in each st around.\n"
    )

    assert found(text) == []


def test_one_number_for_other_sizes_is_not_used_twice() -> None:
    text = (
        f"{THREE}Small only:\nRnd 2: sc in each st around.\nMedium and Large only:\nRnd 2: inc around.\n"
        "All sizes:\nRnd 3: sc in each st around.\n"
    )

    assert found(text) == []


def test_declared_rounds_are_not_missed() -> None:
    text = (
        f"{THREE}Rnd 2 and every alternate rnd: sc in each st around.\n"
        "Rnd 3: sc in each st around.\nRnd 5: sc in each st around.\nRnd 7: sc in each st around.\n"
    )

    assert found(text) == []


def test_a_gap_in_declared_rounds_is_seen() -> None:
    text = (
        f"{THREE}Rnd 2 and every alternate rnd: sc in each st around.\n"
        "Rnd 3: sc in each st around.\nRnd 5: sc in each st around.\nRnd 9: sc in each st around.\n"
    )

    assert found(text) == [("number-skipped", 8, ())]


def test_the_message_has_both_numbers_and_those_missing() -> None:
    messages = [one.message for one in proofed(rounds("Rnd 5", "Rnd 7", "Rnd 10", "Rnd 15")).findings]

    assert messages == [
        "round 7 follows round 5; round 6 is missing",
        "round 10 follows round 7; rounds 8 and 9 are missing",
        "round 15 follows round 10; rounds 11-14 are missing",
    ]


def test_many_missing_numbers_after_other_words_are_a_query() -> None:
    text = rounds("Rnd 5") + "Stuff the head firmly.\n" + rounds("Rnd 9", "Rnd 10")

    assert [(one.rule, one.level) for one in proofed(text).findings] == [("number-skipped", Level.QUERY)]


def test_the_first_use_of_a_number_stands_beside_the_second() -> None:
    done = proofed(rounds("Rnd 5", "Rnd 5", "Rnd 6"))

    asides = [(done.draft.position(one.span.start).line, one.label) for one in done.findings[0].asides]
    assert asides == [(1, "used here first")]


@pytest.mark.parametrize(
    ("sides", "expected"),
    [
        (("RS", "WS", "RS", "WS"), []),
        (("RS", "WS", "WS", "WS", "RS"), [("side-out-of-step", 3, ())]),
        (("RS", "WS", "RS", "RS", "WS", "RS"), [("side-out-of-step", 4, ())]),
        (("WS", "WS", "RS", "WS"), [("side-out-of-step", 1, ())]),
    ],
)
def test_sides_of_rows(sides: tuple[str, ...], expected: list[tuple[str, int, tuple[int, ...]]]) -> None:
    rows = [f"Row {number} ({side}): sc in each st across, turn.\n" for number, side in enumerate(sides, 1)]

    assert found("".join(rows)) == expected


def test_sides_are_counted_over_ranges() -> None:
    text = (
        "Row 1 (RS): sc in each st across, turn.\nRows 2-5: sc in each st across, turn.\n"
        "Row 6 (WS): sc in each st across, turn.\nRow 7 (WS): sc in each st across, turn.\n"
        "Row 8 (WS): sc in each st across, turn.\n"
    )

    assert found(text) == [("side-out-of-step", 4, ())]


@pytest.mark.parametrize(
    ("headings", "message"),
    [
        # a gap is said by its first and last number, however wide it is, with the numbers written inside it taken out
        (("R1", "R999999"), "round 999999 follows round 1; rounds 2-999998 are missing"),
        (("R1", "R999999", "R15"), "round 999999 follows round 1; rounds 2-14 and 16-999998 are missing"),
        (("R1", "R9", "R4", "R10"), "round 9 follows round 1; rounds 2, 3, 5, 6, 7 and 8 are missing"),
        (("R2", "R3, 999999"), "rounds 3 and 999999 stand together; rounds 4-999998 are missing"),
    ],
)
def test_a_gap_is_said_by_its_edges(headings: tuple[str, ...], message: str) -> None:
    said = [one.message for one in proofed(rounds(*headings)).findings if one.rule == "number-skipped"]

    assert said[:1] == [message]


def test_a_gap_that_a_declaration_fills_to_every_other_number() -> None:
    # the even rounds to 999998 are declared; of 4 to 999998 the odd ones 5, 7, ... 999997 are missing: 499,997
    text = rounds("R1", "R2 and all even rnds", "R3", "R999999")

    assert [one.message for one in proofed(text).findings if one.rule == "number-skipped"] == [
        "round 999999 follows round 3; 499997 rounds from 5 to 999997 are missing"
    ]


@pytest.mark.parametrize(
    ("headings", "expected"),
    [
        (("Rnd 6", "Rnds 9-7", "Rnd 10"), [("number-out-of-order", 2, ())]),
        (("R1", "R99999 - R14"), [("number-out-of-order", 2, ())]),
        (("Rnd 6", "Rnds 7-9", "Rnd 10"), []),
    ],
)
def test_a_range_that_runs_backwards(
    headings: tuple[str, ...], expected: list[tuple[str, int, tuple[int, ...]]]
) -> None:
    assert found(rounds(*headings)) == expected
