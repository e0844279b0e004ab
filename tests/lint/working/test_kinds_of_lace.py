"""Layered flowers, shells, meshes, filet and borders in crochet; counts worked by hand."""

from __future__ import annotations

import pytest
from worked import Counts, corrections, counts

KINDS: dict[str, tuple[str, Counts]] = {
    "petals in each loop, and loops behind them around an earlier round": (
        # 6; 7 in each of 6; 6 stitches with a loop after each; 9 in each of 6; 6 again
        "Round 1. 4ch, join into a ring, 6ch (1tr, 3ch), [1tr, 3ch] five times in the ring, ss in 3rd of 6ch. (6tr, 6 loops)\n"
        "Round 2. In each loop: (1dc, 1htr, 3tr, 1htr, 1dc). (6 petals)\n"
        "Round 3. Keeping the petals to the front, *4ch, 1dc round the stem of the next tr of Round 1, from behind; rep from *"
        " to end. (6 loops)\n"
        "Round 4. In each loop work (1dc, 1htr, 5tr, 1htr, 1dc). (6 petals)\n"
        "Round 5. *5ch, 1dc round the next dc of Round 3, from behind; rep from * to end. (6 loops)\n",
        [[6], [42], [6], [54], [6]],
    ),
    "times behind a dash, and stitches between two petals": (
        # 6; 6 loops; 7 in each of 6; 6; 9 in each of 6
        "Rnd 1: Ch 5, join to form ring. Ch 1, 12 sc in ring, join. (12)\n"
        "Rnd 2: *ch 3, skip 1 sc, 1 sl st in next sc* - 6 times. (6 loops)\n"
        "Rnd 3: In each loop work: 1 sc, 1 hdc, 3 dc, 1 hdc, 1 sc. (6 petals, 42 sts)\n"
        "Rnd 4: Behind the petals: *4 ch, 1 sc from the back between next two petals* - 6 times. (6 loops)\n"
        "Rnd 5: In each loop work: 1 sc, 1 hdc, 5 dc, 1 hdc, 1 sc. (6 petals, 54 sts)\n",
        [[12], [6], [42], [6], [54]],
    ),
    "counts with spaces by their size, and the same told in squares": (
        # 2 and 5 times 2; in each of 6 spaces 4
        "1 rnd - ch 6, join, ch 3 (= 1 dc), 1 dc in ring, ch 2, [2 dc in ring, ch 2] x 5, sl st in top of ch 3. = 12 dc / 6 ch-2\n"
        "2 rnd - sl st to ch-2 sp, ch 3, 1 dc, ch 3, 2 dc in same sp, [2 dc, ch 3, 2 dc in next ch-2 sp] x 5, sl st in top of"
        " ch 3. = 24 dc / 6 ch-3\n",
        [[12], [24]],
    ),
    "a count and what it is in squares": (
        # 36 - 3 and the chains skipped
        "Ch 36.\nRow 1: Dc in 4th ch from hook and in each ch across. 34 dc = 11 bl\nRow 2: Ch 1, turn, sc across. 34 sc = 17 pairs\n",
        [[36], [34], [34]],
    ),
    "a bracket with its own times in one place": (
        # 6; 4 in each of 6; 5 and 1 in spaces by turns, 12 of each
        "Rnd 1: Ch 4, join to form ring. Ch 1, 6 sc in ring, join in first sc. 6 sc.\n"
        "Rnd 2: Ch 1, (sc in next sc, ch 3) 6 times. Join. 6 sc, 6 ch-3 loops\n"
        "Rnd 3: In each loop, (dc, ch 1) 4 times. 24 dc\n"
        "Rnd 4: *((dc, ch 1) 4 times, dc) in next ch-1 sp, sc in next sp; rep from * around. (72 sts)\n",
        [[6], [6], [24], [72]],
    ),
}


@pytest.mark.parametrize("name", KINDS)
def test_lace_comes_to_the_counts_worked_by_hand(name: str) -> None:
    text, expected = KINDS[name]
    assert counts(text) == expected


@pytest.mark.parametrize("name", KINDS)
def test_none_of_this_lace_is_faulted(name: str) -> None:
    text, _ = KINDS[name]
    assert [one.message for one in corrections(text)] == []


def test_a_wrong_count_of_petals_and_stitches_is_reported_once() -> None:
    text, _ = KINDS["times behind a dash, and stitches between two petals"]
    found = corrections(text.replace("54 sts", "56 sts"))
    assert [one.message for one in found] == ["Rnd 5 makes 54 sts, the draft says 56"]
