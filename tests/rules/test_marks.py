"""Marks: stars from which nothing is repeated, and stars that only look so."""

from __future__ import annotations

import pytest
from rowcall.lint.proof import proof
from rowcall.rules import marks

ROUNDS = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"


def places(round_: str) -> list[int]:
    """Return the columns of the stars that are needless."""
    whole = proof(f"{ROUNDS}{round_}\n", rules=marks.RULES)
    return [whole.draft.position(found.span.start).column for found in whole.findings]


@pytest.mark.parametrize(
    ("round_", "expected"),
    [
        ("Rnd 3: double every st (* inc 12 times) = 24 sts", [25]),
        ("Rnd 3: (1 sc in next st, inc)*repeat all across. (18)", [30]),
        ("Rnd 3: * (1 sc, inc) 3 times, * (1 sc, inc) 3 times. (18)", [8]),
        ("Rnd 3: ch 1, * [1 sc, inc] six times. (18)", [14]),
    ],
)
def test_needless(round_: str, expected: list[int]) -> None:
    assert places(round_) == expected


@pytest.mark.parametrize(
    "round_",
    [
        "Rnd 3: (1 sc, inc)*6. (18)",
        "Rnd 3: (1 sc, inc) * 6. (18)",
        "Rnd 3: *(1 sc, inc) twice, sc 2; rep from * once more. (16)",
        "Rnd 3: *(1 sc, inc) twice, sc 2; repeat from first * once more. (16)",
        "Rnd 3: *(1 sc, inc) twice, sc 2* twice. (16)",
        "Rnd 3: *(1 sc, inc) 3 times* repeat once. (18)",
        "Rnd 3: *1 sc, inc* repeat *to* around. (18)",
        "Rnd 3*: (1 sc, inc) 6 times. (18)\n\n* Wash the wool first.",
        "Rnd 3: *using blue* (1 sc, inc) 6 times. (18)",
        "Rnd 3: * sc in next st, inc, repeat 6 times. (18)",
    ],
)
def test_stars_in_use(round_: str) -> None:
    assert places(round_) == []


def test_the_other_stars_are_named_too() -> None:
    whole = proof(f"{ROUNDS}Rnd 3: * (1 sc, inc) 3 times, * (1 sc, inc) 3 times. (18)\n", rules=marks.RULES)

    assert [(len(found.asides), found.message) for found in whole.findings] == [
        (1, "nothing in Rnd 3 is repeated from this star; the brackets hold the repeat")
    ]
