"""Slips that the stated count of the stitches doesn't show: stitches left or wanting, spaces, rounds repeated."""

from __future__ import annotations

import pytest
from rowcall.lint.proof import proof

HEAD = "US terms\n\n"


def found(text: str) -> list[tuple[str, str, int, str]]:
    """Return level, rule, line (counted from the first round) and words of each correction and query."""
    whole = proof(HEAD + text)
    return [
        (
            finding.level.name.lower(),
            finding.rule,
            whole.draft.position(finding.span.start).line - 2,
            whole.draft.words(finding.span),
        )
        for finding in whole.findings
        if finding.level.name != "STYLE"
    ]


FITTING = {
    # 2 x (8 + 6 + 8) = 44 of 48
    "48, [Sc 8, ch 8, sk 6 sts, sc 8] twice. (32)": "stitches-left-over",
    # 2 x (8 + 8 + 8) = 48
    "48, [Sc 8, ch 8, sk 8 sts, sc 8] twice. (32)": "",
    # 2 x (8 + 10 + 8) = 52 of 48
    "48, [Sc 8, ch 8, sk 10 sts, sc 8] twice. (32)": "stitches-run-out",
    # 15 + 12 + 15 = 42 of 40
    "40, Sc 15, ch 2, sk next 12 sts, sc 15. (32 sts, counting the 2 ch)": "stitches-run-out",
    "40, Sc 15, ch 2, sk next 10 sts, sc 15. (32 sts, counting the 2 ch)": "",
    # 7 x 5 = 35 of 36; 7 x 6 = 42
    "36, *Sc 4, inc; rep from * around. (42)": "repeat-does-not-fit",
    # 3 x 9 = 27 of 28; 3 x 8 = 24
    "28, *Sc 7, sc2tog; rep from * around. (24)": "repeat-does-not-fit",
    # 6 x 7 = 42, and 6 of the 7 once more: the round breaks off in the middle, 6 x 8 + 6 = 54
    "48, *Sc 6, inc; rep from * around. (54)": "",
    "24, Sc 26. (26)": "stitches-run-out",
    # 5 x 2 = 10 of 12
    "12, (Sc 1, inc) 5 times. (15)": "repeat-count-differs",
    # half of the round is left: it is closed, divided or an opening
    "24, Sc 12. (12)": "",
    "24, Fold in half, sc 12. (12)": "",
    # the ch 3 may count or not: 1 + 35 of 36
    "36, Ch 3, dc in next 35 sts, join. (36)": "",
}


@pytest.mark.parametrize("text", FITTING)
def test_stitches_left_or_wanting_are_asked_about_though_the_count_agrees(text: str) -> None:
    number, words = text.split(", ", 1)
    rule = FITTING[text]

    seen = found(f"Rnd 1: {number} sc in a magic ring. ({number})\nRnd 2: {words}\n")

    assert [one[:3] for one in seen] == ([("query", rule, 2)] if rule else [])


def test_a_row_below_that_isnt_certain_is_not_asked_about() -> None:
    # what makes the 36 was not read; 7 x 5 = 35 of them
    text = "Rnd 1: 24 sc in a magic ring. (24)\nRnd 2: Wrap each st. (36)\nRnd 3: *Sc 4, inc; rep from * around. (42)\n"

    assert found(text) == []


def test_only_the_size_that_differs_is_corrected() -> None:
    # 36 = 7 x 5 + 1: 7 x 6 = 42 agrees; 41 = 8 x 5 + 1: 8 x 6 = 48, not 50
    text = "Sizes: S (L)\n\nRnd 1: 36 (41) sc in a magic ring. 36 (41)\nRnd 2: *Sc 4, inc; rep from * around. 42 (50)\n"
    whole = proof(HEAD + text)

    assert [(one.rule, one.level.name, one.sizes) for one in whole.findings if one.level.name != "STYLE"] == [
        ("repeat-does-not-fit", "CORRECTION", (1,))
    ]


SPACES = {
    # 96 / 2 = 48 times
    "96, *1 dc in next sc, ch 1, sk next sc; rep from * around. 48 dc, 48 ch-1 sps": "",
    "96, *1 dc in next sc, ch 1, sk next sc; rep from * around. 48 dc, 46 ch-1 sps": "46 ch-1 sps",
    "48, [Sc 8, ch 8, sk 8 sts, sc 8] twice. (32 sc and 2 ch-8 sps)": "",
    "48, [Sc 8, ch 8, sk 8 sts, sc 8] twice. (32 sc and 3 ch-8 sps)": "3 ch-8 sps",
    # another length than is counted
    "48, [Sc 8, ch 7, sk 8 sts, sc 8] twice. (32 sc and 2 ch-8 sps)": "2 ch-8 sps",
    # chains named apart: so many chains, or so many spaces
    "40, Sc 15, ch 2, sk next 10 sts, sc 15. (30 sc, 2 ch)": "",
    "40, Sc 15, ch 2, sk next 10 sts, sc 15. (30 sc, 3 ch)": "3 ch",
    # the beginning chain may be counted with the first stitch, or as a space
    "24, Ch 2, *sc in next st, ch 1, sk next st; rep from * around, join. (12 sc, 13 ch-1 sps)": "",
    "24, Ch 4 (counts as dc and ch 1), sk next st, *dc in next st, ch 1, sk next st; rep from * around, join. "
    "(12 dc, 13 ch-1 sps)": "13 ch-1 sps",
    # the stitches differ as well, and that is said
    "96, *1 dc in next sc, ch 1, sk next sc; rep from * around. 46 dc, 46 ch-1 sps": "46",
}


@pytest.mark.parametrize("text", SPACES)
def test_spaces_and_chains_stated_apart_are_compared(text: str) -> None:
    number, words = text.split(", ", 1)
    place = SPACES[text]

    seen = [one[3].strip(" .") for one in found(f"Rnd 1: {number} sc in a magic ring. ({number})\nRnd 2: {words}\n")]

    assert seen == ([place] if place else [])


def test_spaces_are_asked_about_for_the_sizes_they_are_wrong_for() -> None:
    text = (
        "Sizes: S (M, L)\n\nRnd 1: 40 (48, 56) sc in a magic ring. 40 (48, 56)\n"
        "Rnd 2: *Sc 1, ch 1, sk 1; rep from * around. 20 (24, 28) sc and 20 (25, 28) ch-1 sps\n"
    )
    whole = proof(HEAD + text)

    assert [(one.rule, one.sizes, one.message) for one in whole.findings if one.level.name == "QUERY"] == [
        ("kinds-differ", (1,), "Rnd 2 makes 24 ch-1 sps for M, the draft says 25")
    ]


ROUNDS = "Rnd 1: 12 sc in a magic ring. (12)\nRnd 2: Dc in each st around. (12)\nRnd 3: Sc in each st around. (12)\n"
REPEATS = {
    # 16 rounds: 8 times 2 more, or 9 times with the first
    "Rep rnds 2 and 3 eight times more": [],
    "Rep rnds 2 and 3 six times more": [("correction", "rows-total-differs", 4, "six times more")],
    "Rep rnds 2 and 3 nine times more": [("query", "rows-total-differs", 4, "nine times more")],
    "Rep rnds 2 and 3 nine times in all": [],
    "Rep rnds 2 and 3 8 times": [],
    "Rep rnds 2 and 3 9 times": [],
    "Rep rnds 2 and 3 10 times": [("correction", "rows-total-differs", 4, "10 times")],
    # the rounds are counted, not the repeats
    "Rep rnds 2 and 3 16 times": [("query", "rows-total-differs", 4, "16 times")],
    "Rep last 2 rnds 8 times": [],
    "Rep last 2 rnds 6 times": [("correction", "rows-total-differs", 4, "6 times")],
    "Rep rnds 2 and 3": [],
    "Rep 3rd and 3rd rnds": [("query", "repeat-target-missing", 4, "3rd and 3rd")],
}


@pytest.mark.parametrize("words", REPEATS)
def test_a_repeat_of_rounds_fills_its_heading(words: str) -> None:
    assert found(f"{ROUNDS}Rnds 4-19: {words}. (12)\n") == REPEATS[words]


def test_a_repeat_of_rounds_fills_its_heading_for_every_size() -> None:
    # 16, 18 and 20 rounds: 8, 9 and 10 times 2
    text = (
        f"Sizes: S (M, L)\n\n{ROUNDS}4th to (19th, 21st, 23rd) rnds: Rep 2nd and 3rd rnds (8, 8, 10) times more. (12)\n"
    )
    whole = proof(HEAD + text)

    assert [(one.rule, one.sizes) for one in whole.findings if one.level.name == "CORRECTION"] == [
        ("rows-total-differs", (1,))
    ]
