"""Stitches worked from a chart, counts of a part of the row, and words that only name rows."""

from __future__ import annotations

import pytest
from rowcall.lint.proof import proof

KNIT = "Knitted strip\n\nCast on 40 sts and join.\nRnd 1: Knit. 40 sts.\n"


def last(words: str) -> tuple[int | None, list[tuple[str, tuple[int | None, ...]]]]:
    """Return the count after the last round and the counts it states, by their units."""
    whole = proof(f"{KNIT}{words}\n")
    own = whole.workings.rounds[-1].sizes[0]
    claims = whole.pattern.rounds[-1].claims
    return (own.count if own else None), [(claim.unit, claim.figure.values) for claim in claims]


@pytest.mark.parametrize(
    ("words", "count"),
    [
        ("Rnd 2: K8, work row 1 of cable over 24 sts, k8.", 40),
        ("Rnd 2: K8, work next row of chart over next 24 sts, k8.", 40),
        ("Rnd 2: *K2, work row 3 of lace over 6 sts; rep from * 4 more times.", 40),
        ("Rnd 2: Inc in every other st around.", 60),
        ("Rnd 2: Kfb in every other st around.", 60),
        ("Rnd 2: Kfb in every 4th st around.", 50),
        ("Knit 4 more rounds. Rounds 2 to 5", 40),
    ],
)
def test_counts(words: str, count: int) -> None:
    assert last(words) == (count, [])


@pytest.mark.parametrize(
    ("words", "claims"),
    [
        ("Rnd 2: K19, pm, k2, pm, k19. 2 sts between markers.", [("sts between markers", (2,))]),
        (
            "Rnd 2: K19, pm, k2, pm, k19 (2 sts between the markers). 40 sts.",
            [("sts between markers", (2,)), ("sts", (40,))],
        ),
        ("Rnd 2: K15, bind off 10 sts, k to end. 15 sts rem on each side.", [("sts on each side", (15,))]),
        ("Rnd 2: K15, bind off 10 sts, k to end. 15 sts at each shoulder.", [("sts on each side", (15,))]),
    ],
)
def test_counts_of_a_part(words: str, claims: list[tuple[str, tuple[int]]]) -> None:
    assert last(words)[1] == claims
