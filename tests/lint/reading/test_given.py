"""Counts that a draft tells between its rounds."""

from __future__ import annotations

import pytest
from rowcall.lint.proof import proof


@pytest.mark.parametrize(
    ("line", "figures"),
    [
        ("60 sts.", [(60,)]),
        ("You have 12 sc.", [(12,)]),
        ("Join the parts. 98 sts.", [(98,)]),
        ("Left: 24 sts and 12 sts.", [(36,)]),
        # figures that tell something else
        ("Gauge: 14 sts = 4 in", []),
        ("Multiple of 6 sts.", []),
        ("Rep over 12 sts.", []),
        ("Place 16 sts on a holder.", []),
        ("Wool, 60 m.", []),
    ],
)
def test_given(line: str, figures: list[tuple[int, ...]]) -> None:
    found = proof(f"{line}\nRnd 4: Sc in each st around.\n", []).pattern.given
    assert [one.figure.values for one in found] == figures


def test_the_round_after_it_is_worked_from_it() -> None:
    found = proof("HEM\n12 sts.\nRnd 4: (Sc in next st, 2 sc in next st) around. (16)\n", [])
    # 12 / 2 = 6 times 3 = 18
    assert [size.count for size in found.workings.rounds[0].sizes if size] == [18]


def test_a_row_that_is_known_goes_before_it() -> None:
    text = "Rnd 1: 6 sc in magic ring. (6)\n12 sts.\nRnd 2: 2 sc in each st. (12)\n"
    assert [round_.sizes[0].count for round_ in proof(text, []).workings.rounds if round_.sizes[0]] == [6, 12]
