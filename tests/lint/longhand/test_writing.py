"""Longhand by small drafts: what is written out, what stays, what is marked; counts worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.choice import ChoiceError
from rowcall.lint.longhand import longhand, marked
from rowcall.lint.proof import proof


def written(text: str, size: str | None = None) -> list[str]:
    return marked(longhand(proof(text), size)).splitlines()


def test_a_repeat_to_a_count_ends_there() -> None:
    draft = (
        "CONE\nRnd 1: 6 sc in a magic ring. (6)\nRnd 2: *Sc 1, inc; rep from * around. (9)\n"
        "Rnd 3: Sc in each st around. (9)\nRnd 4: Inc, sc in each st around. (10)\n"
        "Rnd 5: Sc in each st around. (10)\nRnds 6-11: Rep rnds 4 and 5. (13)\nRnd 12: Sc in each st around. (13)\n"
    )

    assert written(draft)[6:12] == [
        "Rnd 6: Inc, sc in each st around. (11)",
        "Rnd 7: Sc in each st around. (11)",
        "Rnd 8: Inc, sc in each st around. (12)",
        "Rnd 9: Sc in each st around. (12)",
        "Rnd 10: Inc, sc in each st around. (13)",
        "Rnd 11: Sc in each st around. (13)",
    ]


def test_an_elided_round_stands_after_each_that_is_written() -> None:
    draft = (
        "CROWN\nRnd 1: 6 sc in a magic ring. (6)\nRnd 2 and all even rnds: Sc in each st around.\n"
        "Rnd 3: Inc in each st around. (12)\nRnd 5: *Sc 1, inc; rep from * around. (18)\n"
    )

    assert written(draft)[2:] == [
        "Rnd 2: Sc in each st around. (6)",
        "Rnd 3: Inc in each st around. (12)",
        "Rnd 4: Sc in each st around. (12)",
        "Rnd 5: *Sc 1, inc; rep from * around. (18)",
    ]


def test_a_repeat_that_could_not_be_worked_is_left_and_marked() -> None:
    draft = (
        "TUBE\nRnd 1: 6 sc in a magic ring. (6)\nRnd 2: Inc in each st around. (12)\n"
        "Rep rnd 9 three times more.\nFasten off.\n"
    )

    assert written(draft)[3:] == [
        "Rep rnd 9 three times more. [?]",
        "Fasten off.",
        "",
        "[?] This could not be worked and stands as it was written.",
    ]


SIZED = (
    "CAP\nSizes: Small (Large)\n\nRnd 1: 6 sc in a magic ring. (6)\nRnd 2: Inc in each st around. (12)\n"
    "Large only:\nRnd 3: *Sc 1, inc; rep from * around. (18)\nDo not stuff yet.\nAll sizes:\n"
    "Rnd 4: Sc in each st around. 12 (18) sc\nRnd 5: Sc in each st around. 12 (18) sc\n"
)


def test_lines_of_other_sizes_go_and_a_gap_in_the_numbers_is_said() -> None:
    assert written(SIZED, "small")[1:] == [
        "Size: Small",
        "",
        "Rnd 1: 6 sc in a magic ring. (6)",
        "Rnd 2: Inc in each st around. (12)",
        "(This size has no Rnd 3.)",
        "Rnd 4: Sc in each st around. 12 sc",
        "Rnd 5: Sc in each st around. 12 sc",
    ]


def test_lines_of_its_own_size_stay() -> None:
    assert written(SIZED, "Large")[4:8] == [
        "Rnd 2: Inc in each st around. (12)",
        "Rnd 3: *Sc 1, inc; rep from * around. (18)",
        "Do not stuff yet.",
        "Rnd 4: Sc in each st around. 18 sc",
    ]


def test_line_ends_stay_as_they_are() -> None:
    text = marked(longhand(proof(SIZED.replace("\n", "\r\n")), "Small"))

    assert text.count("\r\n") == text.count("\n") == 8


@pytest.mark.parametrize(
    ("size", "message"),
    [
        (None, "- is written in several sizes, say which with --size: Small, Large"),
        ("Smal", '- has no size "Smal": did you mean "Small"? its sizes are Small, Large'),
    ],
)
def test_a_size_must_be_one_of_the_draft(size: str | None, message: str) -> None:
    with pytest.raises(ChoiceError) as told:
        longhand(proof(SIZED), size)

    assert str(told.value) == message
