"""Pieces that are shown from their middle, and decreases that come to nothing."""

from __future__ import annotations

import pytest
from rowcall.lint.proof import proof

PLAIN = "Rnd 4: Sc in each st around. (23)\n"


@pytest.mark.parametrize(
    ("text", "counts"),
    [
        # a plain round on a row that isn't known: as many before it as it states; 23 / 5 = 4 times 3, and 3 left
        (f"{PLAIN}Rnd 5: (2 invdec, 1 sc) around. (14)\n", [None, 12]),
        # 23 - 2 = 21
        (f"{PLAIN}Rnd 5: Sc in next 19 sts, (sc2tog) twice. (22)\n", [None, 21]),
        # not plain: what it states is no guide to the row below
        ("Rnd 4: (Sc, sc2tog) around. (23)\nRnd 5: (2 invdec, 1 sc) around. (14)\n", [None, None]),
        # 8 rounds of 10 sts: 5, then 2 and 1 left over, then 1; nothing is left to decrease
        ("Rnd 7: Sc in each st. (10)\nRnds 8-15: sc2tog around. (10)\n", [None, 1]),
    ],
)
def test_counts(text: str, counts: list[int | None]) -> None:
    found = [size.count if (size := round_.sizes[0]) else None for round_ in proof(text, []).workings.rounds]
    assert found == counts
