"""The working of whole drafts: conventions, differences, sizes of their own, rounds repeated, elided and unread."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.reading import read
from rowcall.lint.working import work
from rowcall.lint.workings import RoundWorking, Standing, Workings

AGREES, DIFFERS, UNSTATED, UNREAD = Standing.AGREES, Standing.DIFFERS, Standing.UNSTATED, Standing.UNREAD
RING = "Ch 4, join with sl st to form a ring.\n"


def worked(text: str) -> Workings:
    return work(read(Draft.of(text)))


def counts(text: str) -> list[int | None]:
    """Return the counts of a draft in one size."""
    return [size.count if size else None for one in worked(text).rounds for size in one.sizes[:1]]


def by_size(text: str) -> list[list[int | None]]:
    return [[size.count if size else None for size in one.sizes] for one in worked(text).rounds]


def standings(text: str) -> list[Standing]:
    return [one.standing for one in worked(text).rounds]


def numbers(one: RoundWorking) -> list[int]:
    """Return how many rounds each size works under one heading."""
    return [size.rounds for size in one.sizes if size]


# ---------------------------------------------------------------- conventions


@pytest.mark.parametrize(
    ("rounds", "wanted", "key", "holds"),
    [
        # the chain counts by the stated counts
        (
            """\
Rnd 1: Ch 3, 11 dc in ring, join. (12)
Rnd 2: Ch 3, dc in same st, 2 dc in each st around, join. (24)
""",
            [12, 24],
            "ch-3-counts",
            True,
        ),
        # it doesn't
        (
            """\
Rnd 1: Ch 3, 12 dc in ring, join. (12)
Rnd 2: Ch 3, 2 dc in each st around, join. (24)
""",
            [12, 24],
            "ch-3-counts",
            False,
        ),
        (
            """\
Rnd 1: Ch 2, 12 hdc in ring, join. (12)
Rnd 2: Ch 2, 2 hdc in each st around, join. (24)
""",
            [12, 24],
            "ch-2-counts",
            False,
        ),
        (
            """\
Rnd 1: Ch 2, 11 hdc in ring, join. (12)
Rnd 2: Ch 2, hdc in same st, 2 hdc in each st around, join. (24)
""",
            [12, 24],
            "ch-2-counts",
            True,
        ),
    ],
)
def test_stated_counts_settle_whether_chains_count(rounds: str, wanted: list[int], key: str, holds: bool) -> None:
    found = worked(RING + rounds)

    assert [size.count for one in found.rounds[1:] for size in one.sizes if size] == wanted
    assert [(one.key, one.holds, one.agree, one.otherwise) for one in found.readings] == [(key, holds, 2, 0)]


# The join goes into the chain, so the chain is a stitch; no count is stated.
@pytest.mark.parametrize(
    ("chain", "stitch", "others", "after"),
    [("ch 3", "dc", 11, [12, 24]), ("ch 2", "hdc", 9, [10, 20]), ("ch 4", "tr", 15, [16, 32])],
)
def test_a_chain_that_is_joined_to_counts(chain: str, stitch: str, others: int, after: list[int]) -> None:
    join = f"join with sl st to top of {chain}"
    draft = (
        f"{RING}Rnd 1: {chain}, {others} {stitch} in ring, {join}.\n"
        f"Rnd 2: {chain}, {stitch} in same st, 2 {stitch} in each st around, {join}.\n"
    )

    assert counts(draft)[1:] == after


@pytest.mark.parametrize(
    ("note", "rounds", "after"),
    [
        (
            "Ch 1 counts as a st.",
            "Rnd 1: Ch 1, 5 sc in ring, join.\nRnd 2: Ch 1, sc in same st, 2 sc in each st around, join.\n",
            [6, 12],
        ),
        (
            "Ch 3 does not count as a st.",
            "Rnd 1: Ch 3, 12 dc in ring, join.\nRnd 2: Ch 3, 2 dc in each st around, join.\n",
            [12, 24],
        ),
        (
            "Ch 2 counts as hdc.",
            "Rnd 1: Ch 2, 9 hdc in ring, join.\nRnd 2: Ch 2, hdc in same st, 2 hdc in each st around, join.\n",
            [10, 20],
        ),
    ],
)
def test_what_a_note_says_of_chains_holds(note: str, rounds: str, after: list[int]) -> None:
    assert counts(f"{note}\n\n{RING}{rounds}")[1:] == after


@pytest.mark.parametrize(
    ("chain", "after"),
    [
        ("Ch 3 (counts as dc)", 13),
        ("Ch 3 (does not count as a st)", 12),
        ("Ch 1 (counts as sc)", 13),
        ("Ch 1", 12),
    ],
)
def test_what_is_said_in_the_round_holds(chain: str, after: int) -> None:
    assert counts(f"{RING}Rnd 1: {chain}, 12 dc in ring, join.\n") == [4, after]


# ---------------------------------------------------------------- going on after a wrong count


@pytest.mark.parametrize(
    ("rounds", "wanted", "resumed"),
    [
        # the count is wrong, the words are right: 13 is a slip for 12
        (
            """\
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: inc x 6. (13)
Rnd 3: (sc 1, inc) x 6. (18)
Rnd 4: sc around. (18)
""",
            [(6, AGREES), (12, DIFFERS), (18, AGREES), (18, AGREES)],
            [False, False, False, False],
        ),
        # the words are wrong, the count is right: the round after it needs 12
        (
            """\
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: inc x 5, sc 1. (12)
Rnd 3: (sc 1, inc) x 6. (18)
Rnd 4: sc around. (18)
""",
            [(6, AGREES), (11, DIFFERS), (18, AGREES), (18, AGREES)],
            [False, True, False, False],
        ),
        # a wrong count at the very end: nothing after it to go by
        (
            """\
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: inc x 6. (13)
""",
            [(6, AGREES), (12, DIFFERS)],
            [False, False],
        ),
        # two wrong counts are two differences, not a chain of them
        (
            """\
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: inc x 6. (13)
Rnd 3: (sc 1, inc) x 6. (18)
Rnd 4: (sc 2, inc) x 6. (25)
Rnd 5: (sc 3, inc) x 6. (30)
""",
            [(6, AGREES), (12, DIFFERS), (18, AGREES), (24, DIFFERS), (30, AGREES)],
            [False, False, False, False, False],
        ),
    ],
)
def test_one_wrong_count_spoils_no_other(rounds: str, wanted: list[tuple[int, Standing]], resumed: list[bool]) -> None:
    found = worked(rounds).rounds

    assert [(size.count, one.standing) for one in found for size in one.sizes if size] == wanted
    assert [one.resumed for one in found] == resumed


# ---------------------------------------------------------------- sizes on their own


def test_rounds_for_some_sizes_and_rejoining() -> None:
    draft = """\
Sizes: Small (Medium, Large)

Rnd 1: Fsc 60 (66, 72), join. 60 (66, 72) sc
Large only:
Rnd 2: (Sc 11, inc) 6 times. 78 sc
All sizes:
Rnd 2 (2, 3): Sc around. 60 (66, 78) sc
Rnd 3 (3, 4): *Sc 4, sc2tog; rep from * around. 50 (55, 65) sc
"""
    assert by_size(draft) == [[60, 66, 72], [None, None, 78], [60, 66, 78], [50, 55, 65]]
    assert standings(draft) == [AGREES, AGREES, AGREES, AGREES]


def test_rounds_for_some_sizes_without_counts() -> None:
    draft = """\
Sizes: Small (Medium, Large)

Rnd 1: Fsc 60 (66, 72), join.
Medium and Large only:
Rnd 2: *Sc 4, sc2tog; rep from * around.
Large only:
Rnd 3: *Sc 3, sc2tog; rep from * around.
All sizes:
Next rnd: Sc around.
"""
    assert by_size(draft) == [[60, 66, 72], [None, 55, 60], [None, None, 48], [60, 55, 48]]


def test_a_dash_is_a_size_that_does_not_work_the_repeat() -> None:
    draft = """\
Sizes: Small (Medium, Large)

Rnd 1: Fsc 24 (30, 36), join. 24 (30, 36) sc
Rnd 2: *Sc 4, sc2tog; rep from * around. 20 (25, 30) sc
Medium and Large only:
Rnd 3: *Sc 3, sc2tog; rep from * around. - (20, 24) sc
"""
    assert by_size(draft) == [[24, 30, 36], [20, 25, 30], [None, 20, 24]]


# ---------------------------------------------------------------- rounds repeated

TAPER = """\
Rnd 1: Fsc 60, join.
Rnd 2: Sc around.
Rnd 3: Sc to last 2 sts, sc2tog.
Rnd 4: Sc around.
"""


@pytest.mark.parametrize(
    ("words", "after", "rounds"),
    [
        ("Rep rnds 3 and 4 twice more.", 57, 4),
        ("Rep rnds 3 and 4 three times more. (56)", 56, 6),
        # they stand worked once: four times more
        ("Rep rnds 3 and 4 a total of 5 times.", 55, 8),
        ("Rep rnds 3 and 4 once.", 58, 2),
        ("Rep last 2 rnds.", 58, 2),
        ("Rep last 2 rnds 3 more times.", 56, 6),
        ("Rep last rnd 3 more times.", 59, 3),
        ("Rep rnd 3.", 58, 1),
        ("Rep rnd 3 four times more.", 55, 4),
        ("Rnd 5: As rnd 3.", 58, 1),
        ("Rnd 5: Rep rnd 4.", 59, 1),
        ("Rnds 5-12: Rep rnds 3 and 4.", 55, 8),
        ("Rnds 5-11: Rep rnds 3 and 4.", 55, 7),
        ("Rnds 5-8: Rep rnd 3.", 55, 4),
    ],
)
def test_rounds_worked_again(words: str, after: int, rounds: int) -> None:
    found = worked(f"{TAPER}{words}\n").rounds

    assert counts(f"{TAPER}{words}\n") == [60, 60, 59, 59, after]
    assert numbers(found[-1]) == [rounds]


@pytest.mark.parametrize(
    ("words", "after"),
    [
        ("Rep rnds 3 and 4 twice more, then rnd 3 once.", 56),
        ("Rep rnds 3 and 4 until 50 sts remain.", 50),
        ("Rep rnds 3 and 4 until 12 sts remain.", 12),
        ("Rep last 2 rnds until 40 sts remain.", 40),
    ],
)
def test_rounds_worked_again_to_an_end(words: str, after: int) -> None:
    draft = f"{TAPER}{words}\nNext rnd: Sc around. ({after})\n"

    assert counts(draft) == [60, 60, 59, 59, after, after]
    assert standings(draft)[-1] is AGREES


def test_rounds_worked_again_a_size() -> None:
    draft = """\
Sizes: Small (Medium, Large)

Rnd 1: Fsc 60 (66, 72), join.
Rnd 2: Sc to last 2 sts, sc2tog.
Rep rnd 2 two (three, four) times more. 57 (62, 67) sc
"""
    found = worked(draft).rounds

    assert by_size(draft) == [[60, 66, 72], [59, 65, 71], [57, 62, 67]]
    assert (found[-1].standing, found[-1].covers, numbers(found[-1])) == (AGREES, (1,), [2, 3, 4])


def test_a_repeat_of_rounds_that_do_not_exist_leaves_the_count() -> None:
    draft = f"{TAPER}Rep rnds 8 and 9 twice more.\nNext rnd: Sc around. (59)\n"

    assert counts(draft) == [60, 60, 59, 59, None, 59]
    assert standings(draft)[-2:] == [UNREAD, AGREES]


def test_rounds_worked_even_keep_the_count() -> None:
    draft = "Rnd 1: Fsc 60, join.\nWork even for 5 rounds.\nRnd 7: (Sc 8, sc2tog) x 6. (54)\n"

    assert counts(draft) == [60, 60, 54]
    assert standings(draft) == [UNSTATED, UNSTATED, AGREES]


# ---------------------------------------------------------------- ranges and elided rounds


@pytest.mark.parametrize(
    ("heading", "words", "after", "rounds"),
    [
        ("Rnds 2-9", "Sc around.", 60, 8),
        ("Rnds 2 and 3", "Sc 2, sc2tog, sc around.", 58, 2),
        ("Rnds 2-4", "Sc to last 2 sts, sc2tog.", 57, 3),
        ("Rnds 2, 4, 6", "Sc to last 2 sts, sc2tog.", 57, 3),
        ("Rnds 2-4", "Sc in first st, inc, sc around.", 63, 3),
    ],
)
def test_a_range_works_its_round_as_often_as_it_says(heading: str, words: str, after: int, rounds: int) -> None:
    draft = f"Rnd 1: Fsc 60, join.\n{heading}: {words}\n"
    found = worked(draft).rounds

    assert counts(draft) == [60, after]
    assert numbers(found[-1]) == [rounds]


def test_a_range_that_doubles() -> None:
    assert counts("Rnd 1: 6 sc in magic ring.\nRnds 2-4: Inc in each st around.\n") == [6, 48]


def test_elided_plain_rounds_leave_the_count() -> None:
    draft = """\
Rnd 1: Fsc 60, join.
Rnd 2: (Sc 8, sc2tog) x 6. (54)
Rnd 3 and every alternate rnd: Sc around.
Rnd 4: (Sc 7, sc2tog) x 6. (48)
Rnd 6: (Sc 6, sc2tog) x 6. (42)
"""
    assert counts(draft) == [60, 54, 54, 48, 42]
    assert standings(draft) == [UNSTATED, AGREES, UNSTATED, AGREES, AGREES]


# ---------------------------------------------------------------- rounds that are not read

STRANGE = "Rnd 2: Dc in the loops of chart B, sk the shaded ones."


@pytest.mark.parametrize(
    ("after", "wanted"),
    [
        # the draft's own count is gone on from
        (f"{STRANGE} (48)\nRnd 3: (Sc 6, sc2tog) x 6. (42)\n", [UNSTATED, UNREAD, AGREES]),
        # a difference below which a round was not read says nothing
        (f"{STRANGE} (48)\nRnd 3: Sc around. (42)\n", [UNSTATED, UNREAD, UNREAD]),
        (f"{STRANGE}\nRnd 3: (Sc 5, sc2tog) x 6. (35)\n", [UNSTATED, UNREAD, UNREAD]),
        # figures in all are enough to go on
        (f"{STRANGE}\nRnd 3: (Sc 5, sc2tog) x 6. (36)\n", [UNSTATED, UNREAD, AGREES]),
        (f"{STRANGE}\nRnd 3: Sc around. (36)\n", [UNSTATED, UNREAD, UNREAD]),
    ],
)
def test_unread_rounds_are_silent(after: str, wanted: list[Standing]) -> None:
    assert standings(f"Rnd 1: Fsc 60, join.\n{after}") == wanted


def test_an_unread_round_has_no_count_and_a_reason() -> None:
    found = worked(f"Rnd 1: Fsc 60, join.\n{STRANGE} (48)\n").rounds[1]

    assert [(size.count, size.stated, size.agrees) for size in found.sizes if size] == [(None, 48, None)]
    assert found.reason


def test_a_new_piece_after_an_unread_round_is_worked() -> None:
    draft = f"Body\nRnd 1: Fsc 60, join.\n{STRANGE}\n\nEar\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: Inc x 6. (12)\n"

    assert counts(draft) == [60, None, 6, 12]
    assert standings(draft)[2:] == [AGREES, AGREES]


def test_knitting_is_worked_like_crochet() -> None:
    draft = "Cast on 40 sts.\nRow 1: K across. (40 sts)\nRow 2: P across. (41 sts)\n"

    assert standings(draft) == [UNSTATED, AGREES, DIFFERS]


def test_nothing_to_work() -> None:
    assert worked("") == Workings(())
