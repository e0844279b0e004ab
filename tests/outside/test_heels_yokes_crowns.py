"""Heels, raglan yokes and crowns in knitting: published arithmetic against the working.

Each is written as a draft in words and worked. The drafts state no counts, so that nothing leads the program to the
figure.
"""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.reading import read
from rowcall.lint.working import work


def counts(text: str) -> list[list[int | None]]:
    """Return the worked counts of a draft, a list a row with one figure a size."""
    workings = work(read(Draft.of(text)))
    return [[size.count if size else None for size in one.sizes] for one in workings.rounds]


def heel(stitches: int) -> str:
    """Write a round heel: two past the middle, a decrease, one more; back five, and from then on one more each row."""
    half = stitches // 2
    lines = [f"Cast on {stitches} sts.", f"Row 1: K{half + 2}, ssk, k1, turn.", "Row 2: Sl 1, p5, p2tog, p1, turn."]
    left = half - 5  # stitches not reached yet, on either side
    plain = 6
    while left > 0:
        last = "" if left == 1 else ", {}1"
        number = len(lines)
        lines.append(f"Row {number}: Sl 1, k{plain}, ssk{last.format('k')}, turn.")
        # where nothing follows the decrease, the way back is no longer than the way there
        back = plain if left == 1 else plain + 1
        lines.append(f"Row {number + 1}: Sl 1, p{back}, p2tog{last.format('p')}, turn.")
        left, plain = left - 2, plain + 2
    return "\n".join(lines) + "\n"


# Source: knitty.com/ISSUEwinter07/PATTslippery.html (32 sts, 18 left), seen 2026; the others by the same rule: half the
# stitches and two more where the half is even, and three more where it is odd.
@pytest.mark.parametrize(("stitches", "left"), [(20, 12), (24, 14), (26, 16), (28, 16), (30, 18), (32, 18), (36, 20)])
def test_stitches_left_after_a_heel_is_turned(stitches: int, left: int) -> None:
    assert counts(heel(stitches))[-1] == [left]


# Source: jenjoycedesign.com/2012/08/16/percentage-systems and interweave.com (crowns, yokes), seen 2026: two increases
# at each of four lines are eight more in every increase row.
def test_a_raglan_grows_by_eight() -> None:
    text = (
        "Sizes: S (M, L)\n\nCast on 33 (36, 39) sts.\n"
        "Set-up row: K10 (11, 12), pm, k2, pm, k9 (10, 11), pm, k2, pm, k to end.\n"
        "Next row: *K to 1 st before marker, kfb, sm, kfb; rep from * 3 times more, k to end.\n"
        "Next row: Purl.\nRep last 2 rows twice more.\n"
    )

    assert counts(text) == [[33, 36, 39], [33, 36, 39], [41, 44, 47], [41, 44, 47], [57, 60, 63]]


# Source: knitty.com/ISSUEsummer06/PATTmaze.html, seen 2026: nine or ten wedges, one fewer in each of them every round.
def test_a_crown_of_wedges() -> None:
    lines = ["Sizes: S [M]", "", "Cast on 126 [140] sts and join in the round."]
    lines += [f"Rnd {15 - wedge}: *K{wedge - 2}, k2tog; rep from * around." for wedge in range(14, 2, -1)]
    lines.append("Rnd 13: K2tog around.")

    crown = counts("\n".join(lines) + "\n")

    assert crown == [
        [126, 140], [117, 130], [108, 120], [99, 110], [90, 100], [81, 90], [72, 80], [63, 70],
        [54, 60], [45, 50], [36, 40], [27, 30], [18, 20], [9, 10],
    ]  # fmt: skip
