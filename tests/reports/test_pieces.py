"""The pieces of a draft: where one begins and ends, how many rounds it has, how wide and tall they are."""

from __future__ import annotations

import pytest
from rowcall.lint.proof import proof
from rowcall.reports.pieces import Piece, pieces

HEAD = "Crochet, US terms.\n\n"
HAT = HEAD + (
    "Sizes: Small (Large)\n\n"
    "Band\n"
    "Ch 20 (24), join with sl st to first ch.\n"
    "Rnd 1: Ch 1, sc in each ch around, join. 20 (24) sc\n"
    "Rnds 2-4 (2-5): Ch 1, dc in each st around, join. 20 (24) dc\n"
    "Crown\n"
    "Rnd 5 (6): Ch 1, *sc in next 2 sts, sc2tog; rep from * around, join. 15 (17) sc\n"
)


Shown = tuple[str, bool, int | None, list[tuple[int, int | None]]]


def drawn(text: str) -> list[list[Shown]]:
    """Return the pieces of each size: title, whether flat, base, and each course's rows and width."""
    return [[shown(piece) for piece in size] for size in pieces(proof(text))]


def shown(piece: Piece) -> Shown:
    return piece.title, piece.flat, piece.base, [(course.rows, course.width) for course in piece.courses]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # sections that go on from one another are one piece; a range has more rounds in one size
        (
            HAT,
            [
                [("Band + Crown", False, 20, [(1, 20), (3, 20), (1, 15)])],
                [("Band + Crown", False, 24, [(1, 24), (4, 24), (1, 18)])],
            ],
        ),
        # a ring begins a piece of its own
        (
            HEAD + "Ear\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: inc around. (12)\n"
            "Tail\nRnd 1: 4 sc in magic ring. (4)\nRnds 2-6: Sc in each st around. (4)\n",
            [[("Ear", False, 0, [(1, 6), (1, 12)]), ("Tail", False, 0, [(1, 4), (5, 4)])]],
        ),
        # rounds that are declared and not written have their height: 12, 12, 8, 8 and 4 in 5 rounds
        (
            HEAD + "Rnd 1: 12 sc in magic ring. (12)\nRnd 2 and all even rnds: Sc in each st around.\n"
            "Rnd 3: *Sc, sc2tog; rep from * around. (8)\nRnd 5: Sc2tog around. (4)\n",
            [[("", False, 0, [(1, 12), (1, 12), (1, 8), (1, 8), (1, 4)])]],
        ),
        # rows are flat, and chains between stitches have their width: 4 sc and 3 chains
        (
            HEAD + "Ch 8.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. 7 sc\n"
            "Row 2: Ch 1, sc in first st, *ch 1, sk next st, sc in next st; rep from * across, turn. 4 sc\n",
            [[("", True, 8, [(1, 7), (1, 7)])]],
        ),
    ],
)
def test_pieces(text: str, expected: list[list[Shown]]) -> None:
    assert drawn(text) == expected


def test_a_draft_without_rounds_has_no_pieces() -> None:
    assert drawn("A poem.\n") == [[]]


def test_a_round_is_as_tall_as_its_stitches() -> None:
    ((small,), _) = pieces(proof(HAT))

    assert [course.height for course in small.courses] == [1.0, 2.0, 1.0]


def test_a_round_that_repeats_others_is_as_tall_as_they_are() -> None:
    text = HEAD + (
        "Rnd 1: 12 sc in magic ring. (12)\nRnd 2: Dc in each st around. (12)\nRnd 3: Sc in each st around. (12)\n"
        "Rnds 4-7: Rep Rnds 2 and 3 twice.\n"
    )
    ((ball,),) = pieces(proof(text))

    assert [(course.rows, course.height) for course in ball.courses] == [(1, 1.0), (1, 2.0), (1, 1.0), (4, 1.5)]
    assert ball.rows == 7


def test_what_the_draft_says_is_kept_beside_what_is_worked() -> None:
    (_, (large,)) = pieces(proof(HAT))

    assert [(course.makes, course.says, course.differs) for course in large.courses] == [
        (24, 24, False),
        (24, 24, False),
        (18, 17, True),
    ]


def test_a_round_that_was_not_read_has_no_width() -> None:
    text = HEAD + "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: Work as the tide allows. (12)\nRnd 3: Sc in each st around.\n"
    ((one,),) = pieces(proof(text))

    assert [(course.width, course.says) for course in one.courses][:2] == [(6, 6), (None, 12)]


def test_rounds_until_a_measurement_are_marked() -> None:
    text = (
        HEAD
        + "Rnd 1: 12 sc in magic ring. (12)\nRnd 2: Sc in each st around. (12)\nRep Rnd 2 until piece measures 5 in.\n"
    )
    ((tube,),) = pieces(proof(text))

    assert [(course.width, course.measured) for course in tube.courses] == [(12, False), (12, False), (12, True)]
