"""Small drafts of garments in rows whose shaping is told in a sentence; every count worked by hand."""

from __future__ import annotations

import pytest
from worked import Counts, corrections, counts

KINDS: dict[str, tuple[str, Counts]] = {
    "a whole row, and what is done at its ends": (
        "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across: 20 sc. Ch 1, turn.\n"
        "Row 2: Sc in each sc across, dec 1 sc at each end: 18 sc. Ch 1, turn.\n"
        "Row 3: Work in sc, inc 1 st at each end: 20 sc.\n"
        "Row 4: Inc 1 sc at each end, sc in each sc across. Ch 1, turn.\n"
        "Row 5: Sc across, dec 1 st at each side - 20 sc\n"
        "Row 6: Dec 1 st at beg and end of row, 18 sc. Ch 1, turn.\n"
        "Row 7: Sc in each sc, dec 1 st at armhole edge, 17 sc. Ch 1, turn.\n"
        "Row 8: Dec 1 st at neck edge, work to end: 16 sc.\n"
        "Row 9: Work 10 sc, dec 1 st at neck edge: 11 sc.\n",
        [[21], [20], [18], [20], [22], [20], [18], [17], [16], [11]],
    ),
    "rows shaped until a number of named stitches is there": (
        "Ch 15.\nRow 1: Sc in 2nd ch from hook and in each ch across: 14 sc. Ch 1, turn.\n"
        "Inc 1 sc at each end of next row and every 6th row thereafter until there are 24 sc on row.\n"
        "Row 2: Sc in each sc. 24 sc.\n",
        [[15], [14], [24], [24]],
    ),
    "counts behind a comma or a dash, before the chain that turns": (
        "Ch 11. Row 1: Sc in 2nd ch from hook and in each rem ch -10 sc. Ch 1, turn each row.\n"
        "2nd row: 2 sc in first sc, sc in each sc across to last sc, 2 sc in last sc, 12 sc. Ch 1, turn.\n"
        "3rd row: Sc in each sc; 12 sc. Chain 1 to turn.\n",
        [[11], [10], [12], [12]],
    ),
    "ordinals of older leaflets": (
        "Make a chain of 13, turn.\n1st row: 1 s. c. in 2d st. of ch., 1 s. c. in each ch. (12 s. c.) Ch. 1, turn.\n"
        "2d row: 2 s. c. in 1st st., 1 s. c. in each s. c. (13 s. c.)\n3d row: 1 s. c. in each s. c. (13 s. c.)\n"
        "22d and 23d rows: Like 3d row.\n",
        [[13], [12], [13], [13], [13]],
    ),
    "a first row that begins in a stitch of the chain": (
        # 15 less the 2 passed over
        "Ch 15.\nRow 1: Hdc in 3d st of chain, hdc in each remaining st of chain; 13 hdc. Ch 2, turn.\nRow 2: Hdc in each hdc. 13 hdc.\n",
        [[15], [13], [13]],
    ),
}


@pytest.mark.parametrize("name", KINDS)
def test_pieces_come_to_the_counts_worked_by_hand(name: str) -> None:
    text, wanted = KINDS[name]
    assert counts(text) == wanted
    assert corrections(text) == []


FAULTS = {
    "at each end": (
        "Row 2: Sc in each sc across, dec 1 sc at each end: 19 sc. Ch 1, turn.",
        "20 sts less 2 evenly are 18, the draft says 19",
    ),
    "behind a comma": (
        "Row 2: Sc in each sc across to last sc, 2 sc in last sc, 22 sc. Ch 1, turn.",
        "Row 2 makes 21 sts, the draft says 22",
    ),
}


@pytest.mark.parametrize("name", FAULTS)
def test_a_wrong_count_behind_such_a_sentence_is_reported(name: str) -> None:
    line, message = FAULTS[name]
    text = f"Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n{line}\nRow 3: Sc in each sc.\n"
    assert [finding.message for finding in corrections(text)] == [message]


def test_a_figure_glued_to_a_letter_is_an_ordinal_only_behind_2_and_3() -> None:
    text = "Rnd 1: 6 sc in a magic ring. (6)\nRnd 2: 2 sc in each st. (12)\nRnd 3: 4d in the next st.\n"
    assert counts(text) == [[6], [12], [None]]
