"""Sizes in whole drafts: exact lists of what the rules of sizes say."""

from __future__ import annotations

import pytest
from rowcall.lint.proof import Proof, proof
from rowcall.rules.book import all_rules
from rowcall.rules.meeting import rejoins

FAMILY = [rule for rule in all_rules() if rule.family == "sizes"]

THREE = "Sizes: Small (Medium, Large)\n\nCh 48 (56, 64), join.\nRnd 1: sc in each ch around. 48 (56, 64) sc\n"
PLAIN = "Rnd 2: sc in each st around. 48 (56, 64) sc\n"


def proofed(text: str) -> Proof:
    return proof(text, rules=FAMILY)


def found(text: str) -> list[tuple[str, int, tuple[int, ...]]]:
    """Return rule, line and sizes of each finding."""
    done = proofed(text)
    return [(one.rule, done.draft.position(one.span.start).line, one.sizes) for one in done.findings]


@pytest.mark.parametrize(
    ("end", "expected"),
    [
        ("48 (56, 64) sc", []),
        ("48 (56, 64, 72) sc", [("figures-miscounted", 6, ())]),
        ("48 (56) sc", [("figures-miscounted", 6, ())]),
        ("(48, 56, 64)", [("figures-differ-in-style", 6, ())]),
        ("(48)", []),
        ("48/56/64 sc", [("figures-differ-in-style", 6, ())]),
    ],
)
def test_lists_at_the_end_of_a_round(end: str, expected: list[tuple[str, int, tuple[int, ...]]]) -> None:
    assert found(f"{THREE}{PLAIN}Rnd 3: sc in each st around. {end}\n") == expected


def test_the_message_counts_figures_and_sizes() -> None:
    messages = [one.message for one in proofed(f"{THREE}{PLAIN}Rnd 3: sc around. 48 (56, 64, 72) sc\n").findings]

    assert messages == ["48 (56, 64, 72) has 4 figures; there are 3 sizes"]


def test_a_round_for_two_sizes_has_two_figures() -> None:
    text = f"{THREE}{PLAIN}Medium and Large only:\nRnd 3: sc in each st around. 56 (64) sc\n"

    assert found(text) == []


@pytest.mark.parametrize(
    ("times", "expected"),
    [
        ("10 (12, 14)", []),
        ("14 (12, 10)", []),
        ("10 (12, 12)", []),
        ("5 (7, 6)", []),
        ("10 (14, 12)", [("figures-out-of-order", 6, ())]),
        ("12 (10, 14)", [("figures-out-of-order", 6, ())]),
    ],
)
def test_order_of_figures(times: str, expected: list[tuple[str, int, tuple[int, ...]]]) -> None:
    assert found(f"{THREE}{PLAIN}Rep rnd 2, {times} times more. 48 (56, 64) sc\n") == expected


@pytest.mark.parametrize(
    ("note", "expected"),
    [
        ("Large only:", []),
        ("Medium and Large only:", []),
        ("Sizes Small and Large only:", []),
        ("Extra Large only:", [("size-unknown", 5, ())]),
        ("Sizes Medium and XXL only:", [("size-unknown", 5, ())]),
    ],
)
def test_names_of_sizes(note: str, expected: list[tuple[str, int, tuple[int, ...]]]) -> None:
    assert found(f"{THREE}{note}\nRnd 2: sc in each st around.\n") == expected


def test_an_unknown_size_is_shown_with_the_nearest() -> None:
    done = proofed(f"{THREE}Extra Large only:\nRnd 2: sc in each st around.\n")

    assert [(done.draft.words(one.span), one.message) for one in done.findings] == [
        ("Extra Large", "Extra Large is not one of the sizes Small, Medium, Large; the nearest is Large")
    ]


def test_a_size_between_two_others_is_left_out() -> None:
    text = (
        f"{THREE}Small only:\nRnd 2: *sc 7, inc; rep from * around. (54)\n"
        "Large only:\nRnd 2: *sc 7, inc; rep from * around. (72)\n"
        "All sizes:\nRnd 3: sc in each st around. (54, 63, 72)\n"
    )

    assert ("size-left-out", 6, (1,)) in found(text)


def test_larger_sizes_may_have_more_rounds() -> None:
    text = (
        f"{THREE}Medium and Large only:\nRnd 2: sc in each st around.\n"
        "Large only:\nRnd 3: sc in each st around.\nAll sizes:\nRnd 4: sc in each st around.\n"
    )

    assert found(text) == []


def test_sizes_that_do_not_meet() -> None:
    """48 and 64 are whole repeats of 8; 57 leaves 1."""
    text = (
        f"{THREE}Medium only:\nRnd 2: sc in next 55, inc. (57 sc)\nAll sizes:\n"
        "Rnd 3: *sc 6, sc2tog; rep from * around.\nRnd 4: sc in each st around.\n"
    )
    done = proofed(text)

    assert [(one.rule, one.sizes, one.message) for one in done.findings] == [
        (
            "sizes-do-not-meet",
            (1,),
            "the repeat fits Small and Large but not Medium: 57 sts leave 1 over after whole repeats of 8",
        )
    ]
    assert [rejoins(done.pattern, index) for index in range(len(done.pattern.rounds))] == [
        False,
        False,
        False,
        True,
        False,
    ]
