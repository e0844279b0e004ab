"""Small drafts whose parts and rounds go by names, and other kinds met in fresh drafts; every count worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.finding import Level
from rowcall.lint.proof import proof
from worked import Counts, corrections, counts

KINDS: dict[str, tuple[str, Counts]] = {
    "rounds that go by a name, and one of them repeated": (
        "HAT\nRnd 1: 28 sc in a magic ring. (28)\n"
        "Cuff: *FPdc around next st, BPdc around next st; rep from * around. 28 sts.\n"
        "Repeat cuff round twice.\nEdging: Sl st around.\n",
        [[28], [28], [28], [28]],
    ),
    "an opening over the rest of the stitches": (
        "SOCK\nRnd 1: 28 sc in a magic ring. (28)\n"
        "Heel opening: Sc in next 14 sc, ch 14, skip remaining 14 sc. 28 sts.\nNext rnd: Sc in each sc and ch around. 28 sc.\n",
        # 14 stitches and 14 chains
        [[28], [28], [28]],
    ),
    "a second part after a line of talk, worked as the first": (
        "HAT\nRnd 1: 40 sc in a magic ring. (40)\n\nFirst earflap\nRow 1. Ch 1, sc in next 9, turn. (9)\n"
        "Row 2. Ch 1, sc2tog, sc in each st to last 2, sc2tog, turn. (7)\nFasten off.\n\n"
        "Second earflap\nSkip 12 sts from the first earflap, join yarn in next st.\nRows 1-2. Work as for first earflap.\n",
        [[40], [9], [7], [7]],
    ),
    "a count behind a slip stitch that closes the round": (
        "1st rnd: 36 tr into a ring. 36 tr.\n"
        "2nd rnd: 3 ch, 1 tr in next tr, 2 tr in next tr, *1 tr in each of next 2 tr, 2 tr in next tr; rep from * to end, sl st. 48 tr.\n"
        "3rd rnd: 3 ch, miss first tr, 1 tr in each tr to end, sl st. 48 tr.\n",
        # 12 times 3 become 12 times 4
        [[36], [48], [48]],
    ),
    "what skipped chains count for, between two places": (
        "Ch 26.\nRow 1: Hdc in 3rd ch from hook (skipped ch 2 does not count) and in each ch across, turn. (24 hdc)\n"
        "Row 2: Ch 2, hdc in each st across. (24 hdc)\n",
        [[26], [24], [24]],
    ),
    "both sides of a chain that end where they began": (
        "Ch 7.\nRnd 1: 2 sc in second ch from hook, sc in next 4 ch, 4 sc in last ch; turn to work along the other side of the "
        "ch: sc in next 4 ch, 2 sc in same ch as first 2 sc. 16 sc.\nRnd 2: Sc around. 16 sc.\n",
        # 2 and 4 and 4 and 4 and 2
        [[7], [16], [16]],
    ),
    "rounds that go by letters, and are worked again by them": (
        "Rd A) in a magic ring: 8 sc, close with a sl st. [8 sc]\nRd B) ch1, *sc in next sc, 3 sc in next sc; rep from * 3x more, "
        "sl st. [16 sc]\nRd C) ch1, sc in each sc around, working 3 sc in the middle sc of each corner, sl st. [24 sc]\n"
        "Rd D) as Rd C. [32 sc]\n",
        # four corners, two more each
        [[8], [16], [24], [32]],
    ),
    "short forms told on the line before the first round": (
        "HEAD\nIn grey. MR = magic ring, inv dec = invisible decrease\nR1) 7 sc in MR. [7]\nR2) inc x 7 [14]\n",
        [[7], [14]],
    ),
}

TALK = {
    "a note with a colon": "Note: Sc in each st around is worked loosely.",
    "a stitch explained": "Shell: 5 dc in each st around makes a fan.",
    "a gauge": "Gauge: 16 sc = 10 cm in each direction.",
    "finishing": "Finishing: Sl st around the brim if you like.",
}


SQUARE = (
    "UK terms\nRnd 1. 12 tr into a ring, ss. (12 tr)\n"
    "Rnd 2. 1 ch, *1 dc in each of next 2 tr, 3 dc in next tr; rep from * 3 times more, ss. (20 dc)\n"
)
CORNERS = [
    "working 3 dc in the middle dc of each corner",
    "working 3 dc in each corner",
    "making 3 dc in each corner st",
    "3 dc in centre dc of each corner",
    "and 3 dc in each corner",
    "placing 3 dc in each corner dc",
]


@pytest.mark.parametrize("said", CORNERS)
def test_more_in_the_middle_stitch_of_each_corner(said: str) -> None:
    # twice four corners: 20, 28, 36
    text = f"{SQUARE}Rnd 3. 1 ch, 1 dc in each dc to end, {said}, ss. (28 dc)\nRnd 4. 1 ch, 1 dc in each dc to end, {said}, ss. (36 dc)\n"

    assert counts(text) == [[12], [20], [28], [36]]
    assert [one.rule for one in proof(text).findings if one.rule == "count-differs"] == []


def test_a_wrong_count_of_a_square_is_corrected() -> None:
    text = f"{SQUARE}Rnd 3. 1 ch, 1 dc in each dc to end, working 3 dc in each corner, ss. (26 dc)\n"

    assert [one.rule for one in corrections(text)] == ["count-differs"]


@pytest.mark.parametrize(
    "below",
    [
        "Rnd 1. 20 dc into a ring, ss. (20 dc)\n",  # no corners at all
        "Rnd 1. 16 dc into a ring, ss. (16 dc)\nRnd 2. 1 ch, 3 dc in next dc, 1 dc in each of next 3 dc, 3 dc in next dc, "
        "1 dc in each of next 11 dc, ss. (20 dc)\n",  # two only
    ],
)
@pytest.mark.parametrize("said", ["working 3 dc in each corner", "working (1 dc, 2 ch, 1 dc) in each corner"])
def test_corners_that_nobody_can_see_leave_a_round_unread(below: str, said: str) -> None:
    found = proof(f"UK terms\n{below}Next rnd. 1 ch, 1 dc in each dc to end, {said}, ss. (28 dc)\n")

    assert found.workings.rounds[-1].sizes[0] is None or found.workings.rounds[-1].sizes[0].count is None
    assert [one.rule for one in found.findings if one.level is Level.CORRECTION] == []


@pytest.mark.parametrize("kind", KINDS)
def test_counts_by_hand(kind: str) -> None:
    text, wanted = KINDS[kind]

    assert counts(text) == wanted


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_is_corrected_or_asked_of_a_count(kind: str) -> None:
    text, _ = KINDS[kind]
    found = [one for one in proof(text).findings if one.level is Level.CORRECTION or one.rule == "count-differs"]

    assert [finding.message for finding in found] == []


@pytest.mark.parametrize("kind", TALK)
def test_talk_with_a_colon_is_no_round(kind: str) -> None:
    text = f"HAT\nRnd 1: 12 sc in a magic ring. (12)\n{TALK[kind]}\nRnd 2: 2 sc in each st around. (24)\n"

    assert counts(text) == [[12], [24]]


def test_a_round_as_one_that_nobody_can_name_is_unread() -> None:
    text = (
        "UK terms\nSizes: S [M, L]\nRnd 1: 34[38, 42] dc into a ring. 34[38, 42] dc\n"
        "Rnd 2: 1ch, 1 dc in each dc to end, ss. 34[38, 42] dc\nRnds 3-12: As r34[38, 42] dc\n"
    )

    assert counts(text)[-1] == [None, None, None]


def test_first_lines_that_look_like_rounds_are_not_passed_over() -> None:
    text = "POT HOLDER\nRound alpha: 6 sc in a magic ring. (6)\nRound beta: 2 sc in each st. (12)\nFasten off.\n"

    assert counts(text) == [[None], [None]]


@pytest.mark.parametrize("line", ["Row gauge: 4 dc = 5 cm", "Rows are worked flat: turn after each."])
def test_talk_of_rows_before_the_first_is_no_round(line: str) -> None:
    assert counts(f"HAT\n{line}\n\nRnd 1: 6 sc in a magic ring. (6)\n") == [[6]]
