"""The bars in the terminal: drawn to one scale, never wider than the screen, silent where nothing was worked."""

from __future__ import annotations

import pytest
from by_hand import Entry, hat, proof_by_hand
from rowcall.lint.proof import proof
from rowcall.reports.profile import profile


def test_several_rounds_in_one_are_said() -> None:
    text = "Crochet, US terms.\n\nRnd 1: 6 sc in magic ring. (6)\nRnds 2-9: Sc in each st around. (6)\n"

    # the names take 8 columns, which leaves 80 - 8 - 6 - 14 - 4 = 48
    assert profile(proof(text)).splitlines() == [
        "Stitches by round",
        f"Rnd 1        6  {'=' * 48}",
        f"Rnds 2-9     6  {'=' * 48} 8 rounds",
    ]


def test_nothing_worked_draws_nothing() -> None:
    assert profile(proof_by_hand("A poem.")) == ""
    assert profile(proof_by_hand("Rnd 1", [Entry("Rnd 1", (None,), (6,), unread="not understood")])) == ""


def test_bars_are_no_longer_than_sixty_however_wide_the_screen() -> None:
    assert max(line.count("=") for line in profile(hat(), 200).splitlines()) == 60


@pytest.mark.parametrize("width", [40, 60, 80, 100])
def test_no_line_is_wider_than_the_screen(width: int) -> None:
    label = "Rnds 7-16 (7-18, 7-20) of the whole crown up to the very top of it"
    proof = proof_by_hand(label, [Entry(label, (123456,), (999999,))], sizes=("a size with a very long name",))

    assert max(map(len, profile(proof, width).splitlines())) <= width


def test_no_control_character_of_a_draft_is_printed() -> None:
    text = "Rnd \x1b[2J1"

    assert "\x1b" not in profile(proof_by_hand(text, [Entry(text, (6,))], sizes=("\x1bS",)))
