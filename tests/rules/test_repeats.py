"""Repeats within rounds and of rounds: which rule speaks, where, for which sizes, and what it says."""

from __future__ import annotations

import pytest
from rowcall.lint.finding import Level
from rowcall.lint.proof import proof
from rowcall.rules import counts, counts_stated, repeats, repeats_of_rounds

RULES = (*counts.RULES, *counts_stated.RULES, *repeats.RULES, *repeats_of_rounds.RULES)

# 16, 18 and 20 sts
HAT = """\
Sizes: Small (Medium, Large)

Rnd 1: 8 (9, 10) sc in magic ring = 8 (9, 10) sc
Rnd 2: 2 sc in each st around = 16 (18, 20) sc
"""
# 72, 80 and 88 sts; a textured round 2 and a plain round 3 take turns
BODY = """\
Sizes: Small (Medium, Large)

Ch 72 (80, 88), join with sl st to form a ring.
Rnd 1: Ch 1, sc in each ch around, join = 72 (80, 88) sts
Rnd 2: Ch 1, *sc in next st, dc in next st; rep from * around, join = 72 (80, 88) sts
Rnd 3: Ch 1, sc in each st around, join = 72 (80, 88) sts
"""


def found(text: str) -> list[tuple[str, int, tuple[str, ...]]]:
    """Return rule, line and names of sizes of each finding."""
    whole = proof(text, rules=RULES)
    names = whole.pattern.sizes.names
    return [
        (finding.rule, whole.draft.position(finding.span.start).line, tuple(names[n] for n in finding.sizes))
        for finding in whole.findings
    ]


@pytest.mark.parametrize(
    ("round_", "expected"),
    [
        ("Rnd 3: *Sc in next st, inc; rep from * around = 24 (27, 30) sc", []),
        ("Rnd 3: Sc in next st, inc; rep from * around = 24 (27, 30) sc", [("star-unopened", 5, ())]),
        ("Rnd 3: (Sc in next st, inc) around = 24 (27, 30) sc", []),
        ("Rnd 3: Sc in next st, inc) around = 24 (27, 30) sc", [("bracket-unbalanced", 5, ())]),
        ("Rnd 3*: Sc in each st around = 16 (18, 20) sc\n\n* Wash the wool first.", []),
        (
            "Rnd 3: *Sc in next st, inc, sc in next 14 (16, 18) sts = 17 (19, 21) sc",
            [("star-unclosed", 5, ())],
        ),
    ],
)
def test_marks(round_: str, expected: list[tuple[str, int, tuple[str, ...]]]) -> None:
    assert found(f"{HAT}{round_}\n") == expected


def test_a_star_is_said_before_a_bracket_and_only_one_of_them() -> None:
    text = f"{HAT}Rnd 3: Sc in next st, (inc; rep from * around = 24 (27, 30) sc\n"

    assert found(text) == [("star-unopened", 5, ())]


def test_a_repeat_that_leaves_stitches_is_shown_with_the_counts_that_fit() -> None:
    text = f"{HAT}Rnd 3: *Sc in next 3 sts, sc2tog; rep from * around = 13 (14, 16) sc\n"
    (finding,) = proof(text, rules=RULES).findings

    assert finding.message == ("the repeat of 5 sts does not fit in Rnd 3: it leaves 1 st for Small and 3 for Medium")
    assert finding.sum == (
        "Small: 16 sts on the hook",
        "Sc in next 3 sts, sc2tog; rep from * around: uses 5, makes 4; 16 / 5 = 3 times, 1 st left over",
        "worked 12 sts, 1 st left over, the draft says 13",
        "Medium: 18 sts on the hook, worked 12 sts, 3 sts left over, the draft says 14",
        "it would fit 15 or 20 sts",
    )


@pytest.mark.parametrize(
    ("times", "expected"),
    [
        ("8 (9, 10) times", []),
        ("8 (8, 8) times", [("repeat-count-differs", 5, ("Medium", "Large"))]),
        ("9 (9, 10) times", [("repeat-count-differs", 5, ("Small",))]),
    ],
)
def test_number_of_repeats(times: str, expected: list[tuple[str, int, tuple[str, ...]]]) -> None:
    assert found(f"{HAT}Rnd 3: (Sc in next st, inc) {times} = 24 (27, 30) sc\n") == expected


def test_number_of_repeats_says_which_would_fit() -> None:
    (finding,) = proof(f"{HAT}Rnd 3: (Sc in next st, inc) 8 (9, 9) times = 24 (27, 30) sc\n", rules=RULES).findings

    assert finding.message == "9 times 2 sts in Rnd 3 leaves 2 of 20 sts for Large, 10 times would fit"


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        # 4-13 are ten rounds, 4-14 eleven: Small and Large end on plain round 3, Medium on round 2
        (
            "Rnds 4-13 (4-14, 4-15): Rep rnds 2 and 3 = 72 (80, 88) sts\n"
            "Rnd 14 (15, 16): Ch 1, sc in each st around, join = 72 (80, 88) sts\n",
            [("repeat-ends-on-wrong-round", 7, ("Small", "Large"))],
        ),
        (
            "Rep rnds 2 and 3 five (six, seven) times more = 72 (80, 88) sts\n"
            "Next rnd: Ch 1, sc in each st around, join = 72 (80, 88) sts\n",
            [("repeat-ends-on-wrong-round", 7, ())],
        ),
        (
            "Rep rnds 2 and 3 five (six, seven) times more = 72 (80, 88) sts\n"
            "Next rnd: Ch 1, *sc in next 6 sts, sc2tog; rep from * around, join = 63 (70, 77) sts\n",
            [],
        ),
        (
            "Rep rnd 3 five (six, seven) times more = 72 (80, 88) sts\n"
            "Next rnd: Ch 1, sc in each st around, join = 72 (80, 88) sts\n",
            [],
        ),
        ("Rep rnds 5 and 6 four times more = 72 (80, 88) sts\n", [("repeat-target-missing", 7, ())]),
        ("Rep rnds 2 and 3 four times more = 72 (80, 88) sts\n", []),
    ],
)
def test_repeats_of_rounds(lines: str, expected: list[tuple[str, int, tuple[str, ...]]]) -> None:
    assert found(BODY + lines) == expected


def test_the_seam_is_a_query_that_names_both_rounds() -> None:
    text = (
        f"{BODY}Rep rnds 2 and 3 five times more = 72 (80, 88) sts\n"
        "Rnd 14: Ch 1, sc in each st around, join = 72 (80, 88) sts\n"
    )
    (finding,) = proof(text, rules=RULES).findings

    assert (finding.level, finding.message) == (
        Level.QUERY,
        "the repeat ends on Rnd 3, and Rnd 14 comes next: two of the same kind meet",
    )


@pytest.mark.parametrize(
    ("heading", "expected"),
    [
        ("Rnds 5-10", []),
        ("Rnds 5-11", [("repeat-rows-not-whole", 8, ())]),
        ("Rnds 5-10 (5-12, 5-13)", [("repeat-rows-not-whole", 8, ("Medium",))]),
    ],
)
def test_whole_blocks(heading: str, expected: list[tuple[str, int, tuple[str, ...]]]) -> None:
    text = (
        f"{BODY}Rnd 4: Ch 1, hdc in each st around, join = 72 (80, 88) sts\n{heading}: Rep rnds 2-4 = 72 (80, 88) sts\n"
    )

    assert found(text) == expected


@pytest.mark.parametrize("rounds", ["Rnds 1-3", "Rnds 1-2"])
def test_rounds_worked_as_another_part_need_not_be_all_of_it(rounds: str) -> None:
    text = (
        "FRONT\nCh 5, join with sl st to form a ring.\nRnd 1: Ch 1, 8 sc in ring, join. (8 sc)\n"
        "Rnd 2: Ch 1, 2 sc in each sc around, join. (16 sc)\nRnd 3: Ch 1, sc in each sc around, join. (16 sc)\n\n"
        f"BACK\n{rounds}: Work as for front. (16 sc)\n"
    )

    assert found(text) == []


@pytest.mark.parametrize(
    ("count", "expected"),
    [
        ("", [("times-ambiguous", 3, ()), ("count-unstated", 3, ())]),
        (" (16)", []),  # 4 passes in all
        (" (15)", []),  # 3 passes in all
    ],
)
def test_three_times_more_or_in_all(count: str, expected: list[tuple[str, int, tuple[str, ...]]]) -> None:
    text = (
        "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
        f"Rnd 3: *Sc in next st, inc; rep from * 3 times, sc in each st to end.{count}\n"
    )

    assert [one for one in found(text) if one[0] != "count-unstated"] == [
        one for one in expected if one[0] != "count-unstated"
    ]
