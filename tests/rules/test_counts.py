"""The arithmetic of rounds in drafts of several sizes: which rule speaks, where, and for which sizes."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Span
from rowcall.lint.finding import Change, Finding, Level
from rowcall.lint.proof import proof
from rowcall.rules import counts, counts_stated, repeats, repeats_of_rounds

RULES = (*counts.RULES, *counts_stated.RULES, *repeats.RULES, *repeats_of_rounds.RULES)

HEAD = """\
Sizes: Small (Medium, Large)

Rnd 1: 8 (9, 10) sc in magic ring = 8 (9, 10) sc
"""
# 16, 18 and 20 sts
HAT = f"{HEAD}Rnd 2: 2 sc in each st around = 16 (18, 20) sc\n"


def findings(text: str) -> tuple[Finding, ...]:
    """Return what the rules for counts and repeats find in a draft."""
    return proof(text, rules=RULES).findings


def found(text: str) -> list[tuple[str, int, tuple[str, ...]]]:
    """Return rule, line and names of sizes of each finding."""
    whole = proof(text, rules=RULES)
    names = whole.pattern.sizes.names
    return [
        (finding.rule, whole.draft.position(finding.span.start).line, tuple(names[n] for n in finding.sizes))
        for finding in whole.findings
    ]


@pytest.mark.parametrize(
    ("rounds", "expected"),
    [
        ("", []),
        # one figure, two figures, and all of a stated list wrong
        ("Rnd 3: Sc in each st around = 16 (19, 20) sc\n", [("count-differs", 5, ("Medium",))]),
        ("Rnd 3: Sc in each st around = 17 (19, 20) sc\n", [("count-differs", 5, ("Small", "Medium"))]),
        ("Rnd 3: Sc in each st around = 15 (17, 19) sc\n", [("count-differs", 5, ())]),
        # (sc, inc): 2 sts become 3, so 24 (27, 30)
        ("Rnd 3: *Sc in next st, 2 sc in next st; rep from * around = 24 (27, 30) sc\n", []),
        # (sc 2, inc): 3 divides the 18 of Medium; 16 leaves 1 and 20 leaves 2
        (
            "Rnd 3: *Sc in next 2 sts, 2 sc in next st; rep from * around = 21 (24, 28) sc\n",
            [("repeat-does-not-fit", 5, ("Small", "Large"))],
        ),
        # 8 x 2 = 16, 8 x 2 of 18, 10 x 2 = 20
        (
            "Rnd 3: (Sc in next st, 2 sc in next st) 8 (8, 10) times = 24 (27, 30) sc\n",
            [("repeat-count-differs", 5, ("Medium",))],
        ),
        # 1 + 15, 1 + 17, 1 + 21 of 20
        (
            "Rnd 3: 2 sc in next st, sc in next 15 (17, 21) sts = 17 (19, 22) sc\n",
            [("stitches-run-out", 5, ("Large",))],
        ),
        # 12 + 2 of 16, 16 + 2, 18 + 2
        (
            "Rnd 3: Sc in next 12 (16, 18) sts, sc2tog = 15 (17, 19) sc\n",
            [("stitches-left-over", 5, ("Small",))],
        ),
        # the last 2 are kept, 1 is used of Medium's
        (
            "Rnd 3: *Sc in next st, inc; rep from * to last 2 sts, sc in next 2 (1, 2) sts = 23 (26, 29) sc\n",
            [("remainder-differs", 5, ("Medium",))],
        ),
        # a draft that counts the stitches of the wrong kind, and one that counts stitches
        ("Rnd 3: Hdc in each st around. 16 (18, 20) dc\n", [("kinds-differ", 5, ())]),
        ("Rnd 3: Hdc in each st around = 16 (18, 20) sts\n", []),
        # 16 + 4, 18 + 4, 20 + 4
        ("Rnd 3: Sc around, increasing 4 sts evenly = 20 (22, 24) sc\n", []),
        (
            "Rnd 3: Sc around, increasing 4 sts evenly = 20 (22, 25) sc\n",
            [("evenly-does-not-work", 5, ("Large",))],
        ),
    ],
)
def test_one_round_after_sixteen_eighteen_and_twenty_stitches(
    rounds: str, expected: list[tuple[str, int, tuple[str, ...]]]
) -> None:
    assert found(HAT + rounds) == expected


def test_one_slip_is_one_finding_though_later_counts_take_it_along() -> None:
    text = (
        f"{HAT}Rnd 3: Sc in each st around = 16 (19, 20) sc\n"
        "Rnd 4: Sc in each st around = 16 (18, 20) sc\n"
        "Rnd 5: *Sc2tog; rep from * around = 8 (9, 10) sc\n"
    )

    assert found(text) == [("count-differs", 5, ("Medium",))]


def test_two_slips_are_two_findings() -> None:
    text = (
        f"{HAT}Rnd 3: Sc in each st around = 16 (19, 20) sc\n"
        "Rnd 4: Sc in each st around = 16 (18, 20) sc\n"
        "Rnd 5: *Sc2tog; rep from * around = 9 (9, 10) sc\n"
    )

    assert found(text) == [("count-differs", 5, ("Medium",)), ("count-differs", 7, ("Small",))]


def test_a_round_that_does_not_fit_is_said_where_it_stands_and_not_at_the_next_count() -> None:
    # 5 divides the 20 of Large; 18 ends after "sc in next 3 sts" (15); 16 leaves 1
    text = (
        f"{HAT}Rnd 3: *Sc in next 3 sts, sc2tog; rep from * around, sl st in first st to join.\n"
        "Rnd 4: Sc in each st around = 13 (15, 16) sc\n"
    )

    assert found(text) == [("repeat-does-not-fit", 5, ("Small",))]


@pytest.mark.parametrize(
    "rounds",
    [
        "Rnd 3: Sc in next 10 sts, leave the rest unworked. 10 sc\n",
        "Rnd 3: Wave at the ferry around = 17 (19, 21) sc\n",
        "Rnd 3: Wave at the ferry around.\nRnd 4: Sc in each st around = 17 (19, 21) sc\n",
    ],
)
def test_silent_where_words_were_not_read_or_say_so(rounds: str) -> None:
    assert found(HAT + rounds) == []


def test_a_count_that_another_convention_would_mend_is_only_asked_about() -> None:
    # the ch 3 counts in round 1 (1 + 11 = 12) and cannot count in round 2 (24, the chain apart)
    levels = {
        finding.level
        for finding in findings(
            "Rnd 1: Ch 3, 11 dc in magic ring, join with sl st to top of ch 3. (12)\n"
            "Rnd 2: Ch 3, 2 dc in next st, dc in next 10 sts, join with sl st to top of ch 3. (12)\n"
        )
    }

    assert Level.CORRECTION not in levels


def test_message_sum_and_change() -> None:
    (finding,) = findings(f"{HAT}Rnd 3: *Sc in next st, 2 sc in next st; rep from * around = 24 (28, 30) sc\n")

    assert finding.level is Level.CORRECTION
    assert finding.message == "Rnd 3 makes 27 sts for Medium, the draft says 28"
    assert finding.sum == (
        "Medium: 18 sts on the hook",
        "Sc in next st, 2 sc in next st; rep ...: uses 2, makes 3; 18 / 2 = 9 times",
        "worked 27 sts, the draft says 28",
    )
    assert finding.change is not None
    assert finding.change.to == "27"
    assert finding.change.span == finding.span


def test_several_wrong_figures_are_mended_together_in_the_style_of_the_list() -> None:
    (finding,) = findings(f"{HAT}Rnd 3: Sc in each st around = 16 (19, 21) sc\n")

    assert finding.message == "Rnd 3 makes 18 sts for Medium and 20 for Large, the draft says 19 and 21"
    assert finding.sum == (
        "Medium: 18 sts on the hook",
        "Sc in each st around: uses 18, makes 18",
        "worked 18 sts, the draft says 19",
        "Large: 20 sts on the hook, worked 20 sts, the draft says 21",
    )
    assert finding.change is not None
    assert finding.change.to == "18, 20"


def test_the_words_are_to_change_where_the_next_rounds_go_by_the_stated_count() -> None:
    # 15 + 2 = 17; of all single figures only 3 sc for 2 makes 18 of 16 sts, and 20 of 18, and 22 of 20
    text = (
        f"{HAT}Rnd 3: Sc in next 15 (17, 19) sts, 2 sc in next st = 18 (20, 22) sc\n"
        "Rnd 4: *Sc2tog; rep from * around = 9 (10, 11) sc\n"
    )
    (finding,) = findings(text)

    assert (finding.rule, finding.sizes) == ("count-differs", ())
    assert finding.change == Change(Span(text.index("2 sc in next st ="), text.index(" sc in next st =")), "3")
    assert finding.sum[-1] == 'likely slip: "2" for "3"'
    assert [aside.label for aside in finding.asides] == ["the rounds after it go by the stated count"]


def test_long_sums_are_cut() -> None:
    words = ", ".join(["sc in next st", "sc in next st"] * 8)
    (finding,) = findings(f"{HEAD}Rnd 2: Inc in each st around = 16 (18, 20) sc\nRnd 3: {words} = 17 (18, 20) sc\n")

    assert len(finding.sum) <= 8


def test_foundation_chain_of_one_size() -> None:
    # ch 21 (25, 31) gives 20 (24, 30); the rows go by 20 (25, 30)
    text = (
        "Sizes: Small (Medium, Large)\n\nCh 21 (25, 31).\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn = 20 (25, 30) sc\n"
        "Row 2: Ch 1, sc in next 20 (25, 30) sts, turn = 20 (25, 30) sc\n"
    )

    assert found(text) == [("foundation-differs", 4, ("Medium",))]


def test_stated_multiple_of_one_size() -> None:
    # 48 and 60 are multiples of 6, 56 is not
    text = (
        "Sizes: Small (Medium, Large)\nMultiple of 6.\n\n"
        "Ch 48 (56, 60), join with sl st to form a ring.\n"
        "Rnd 1: Ch 1, sc in each ch around, join = 48 (56, 60) sc\n"
    )

    assert found(text) == [("multiple-not-met", 4, ("Medium",))]


def test_a_count_missing_among_counts_is_asked_for_and_none_at_all_is_style() -> None:
    rounds = [f"Rnd {n}: (Sc in next {n - 2} sts, 2 sc in next st) 8 times." for n in range(3, 7)]
    rounds[0] = "Rnd 3: (Sc in next st, 2 sc in next st) 8 times."
    stated = [f"{words} ({8 * n})" for n, words in enumerate(rounds, 3)]
    start = "Rnd 1: 8 sc in magic ring.", "Rnd 2: 2 sc in each st around."

    assert found("\n".join([f"{start[0]} (8)", f"{start[1]} (16)", *stated[:2], rounds[2], stated[3]])) == [
        ("count-unstated", 5, ())
    ]
    assert found("\n".join([*start, *rounds])) == [("count-never-stated", 6, ())]


@pytest.mark.parametrize(
    ("text", "held"),
    [
        ("Cast on 20 sts.\nRow 1: Knit. 20 sts\nRow 2: K2tog, k to end. 18 sts\n", "20 sts on the needle"),
        (
            "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch. 20 sc\nRow 2: Sc2tog, sc in each st. 18 sc\n",
            "20 sts on the hook",
        ),
    ],
)
def test_a_sum_begins_with_what_is_on_the_tool_of_the_craft(text: str, held: str) -> None:
    (found,) = proof(text).findings
    assert found.sum[0] == held
