"""The last sentence of a round, a count or one more instruction; and parts that are worked as others were."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.finding import Level
from rowcall.lint.proof import proof
from rowcall.lint.reading import read
from rowcall.lint.working import work

Round = tuple[int | None, int | None]

TWELVE = "Rnd 1: 6 sc in magic ring.\nRnd 2: 2 sc in each st.\n"


def rounds(text: str) -> list[list[Round | None]]:
    """Return the count worked and the count stated of every round and size."""
    workings = work(read(Draft.of(text)))
    return [[(size.count, size.stated) if size else None for size in one.sizes] for one in workings.rounds]


def last(text: str) -> Round | None:
    """Return those of the last round, for the first size."""
    return rounds(text)[-1][0]


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        ("(Sc 1, inc) 6 times. 18 sc.", (18, 18)),  # 6 times 3: a count
        ("(Inc, sc 1) 4 times. 4 sc.", (16, None)),  # 4 times 3 of 8 stitches, and the 4 that are left
        ("(Sc 1, inc) 6 times. 17 sc.", (18, 17)),  # all are used: a count that differs
        ("(Sc 1, inc) 5 times. 18 sc.", (15, 18)),  # two are left, and eighteen more would run out by sixteen
    ],
)
def test_a_closing_sentence_is_what_fits(words: str, wanted: Round) -> None:
    assert last(f"{TWELVE}Rnd 3: {words}\n") == wanted


@pytest.mark.parametrize("words", ["(Sc 1, inc) 6 times. 17 sc.", "(Sc 1, inc) 5 times. 18 sc."])
def test_a_closing_count_that_differs_is_corrected(words: str) -> None:
    found = proof(f"{TWELVE}Rnd 3: {words}\nRnd 4: Sc in each st. (18)\n").findings

    assert len([finding for finding in found if finding.level is Level.CORRECTION]) == 1


SLEEVE = (
    "Sleeve\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\n"
    "Row 2: Ch 1, sc2tog, sc to end, turn. (9 sc)\n\n"
)


def test_a_part_is_worked_again_from_nothing() -> None:
    text = f"{SLEEVE}Second sleeve\nWork as for sleeve.\nRow 3: Ch 1, sc in each st, turn.\n"

    assert [one[0] for one in rounds(text)] == [(11, None), (10, 10), (9, 9), (9, None), (9, None)]


def test_each_size_works_its_own_rounds_of_the_part() -> None:
    text = (
        "Sizes: S (M)\n\nSleeve\nCh 11 (13).\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 (12) sc)\n"
        "M only:\nRow 2: Ch 1, sc2tog, sc to end, turn. (11 sc)\n\nSecond sleeve\nWork as for sleeve.\n"
    )

    # 12 less the one of row 2 for M
    assert rounds(text)[-1] == [(10, None), (11, None)]


def test_a_part_that_begins_on_stitches_makes_as_many_as_it_did_before() -> None:
    text = "Rnd 1: 6 sc in magic ring.\n\nArm\nRnd 1: Sc in next 4 sts.\n\nSecond arm\nWork as for arm.\n"

    assert last(text) == (4, None)


BACK = (
    "BACK\nCast on 98 sts.\nWork 24 rows in k1, p1 rib.\nCont in st st until work measures 12 ins.\n"
    "Shape armholes by casting off 6 sts at beg of next 2 rows, then dec 1 st at each end of every row "
    "until 80 sts rem.\n"
    "Work straight until armholes measure 7 ins.\nCast off 8 sts at beg of next 6 rows. 32 sts.\n\nFRONT\n"
)


@pytest.mark.parametrize(
    ("words", "after"),
    [
        ("Work as for back to armholes.", 98),
        ("Work as for back to armholes. 98 sts.", 98),
        ("Work as for back until armhole shaping has been completed. (80 sts.)", 80),
        ("Using 3 mm needles, cast on 98 sts and work same as back to underarm.", 98),
        ("Cast on 98 sts.\nShape armholes same as back.", 80),
        ("Work as for back.", 32),
    ],
)
def test_a_garment_goes_by_the_shaping_of_another_part(words: str, after: int) -> None:
    assert (last(f"{BACK}{words}\n") or (None, None))[0] == after


def test_shaping_in_this_way_does_not_pass_over_its_count() -> None:
    text = (
        "Knitted bear\n\nCast on 30 sts.\nRow 1: K2tog, knit to last 2 sts, k2tog.\nRows 2-3: Knit.\n"
        "Continue to dec in this way on every third row until {} sts rem.\n"
    )

    # 28, and two fewer each time
    assert last(text.format(8)) == (8, 8)
    assert last(text.format(9)) == (10, 9)


def test_stitches_before_those_bound_off_may_wait() -> None:
    text = "Knitted legs\n\nCast on 18 sts.\nRow 1: K8, cast off 2, knit to end. 8 sts.\n"

    assert last(text) == (8, 8)


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        # 18 + 15 + 30 + 15; the nine are knitted a second time, to the middle of the heel
        ("Knit across 18 heel sts, pick up and k 15 sts, k30 instep sts, pick up and k 15 sts, k9. 78 sts.", (78, 78)),
        ("K18, pick up and k 15 sts, k30 from holder, pick up and k 15 sts, k9.", (78, None)),
        ("K18, pick up and k 15 sts, k30, pick up and k 15 sts, k9. 77 sts.", (78, 77)),
        # 9 + 15 + 30 + 15 + 9
        ("K9, pick up and k 15 sts, k30 instep sts, pick up and k 15 sts, k9. 78 sts.", (78, 78)),
    ],
)
def test_a_gusset_is_counted_once_around(words: str, wanted: Round) -> None:
    assert last(f"Knitted sock\n\nHEEL\nCast on 18 sts.\nRow 1: Knit.\n\nGUSSET\nNext rnd: {words}\n") == wanted
