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


WAYS = (
    "BACK\nSizes 2 (4, 6)\nCh 11 (12, 13).\n"
    "Row 1: Hdc in 2nd ch from hook and in each ch across; turn - 10 (11, 12) hdc.\n"
    "Row 2: Ch 2, hdc in each st across; turn. 10 (11, 12) hdc.\n"
    'Rep Row 2 until 3 (4, 5)" from beg, inc (0, dec) 1 st on last row - 11 sts.\n'
)


@pytest.mark.parametrize(("size", "measure", "way"), [("2", 3, "inc 1 st"), ("4", 4, "inc 0 st"), ("6", 5, "dec 1 st")])
def test_a_size_that_increases_where_another_decreases_has_its_own_way(size: str, measure: int, way: str) -> None:
    text = marked(longhand(proof(WAYS), size))

    assert text.splitlines()[-1] == f'Rep Row 2 until {measure}" from beg, {way} on last row - 11 sts.'
    assert [finding.rule for finding in proof(text).findings] == []


def test_rows_worked_again_on_the_other_side_say_so() -> None:
    draft = (
        "STRIP\nCh 11.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\n"
        "Row 2 (WS): Ch 1, sc in each st across, turn. (10 sc)\nRows 3-4: Rep Row 2.\n"
    )
    behind = draft.replace("Row 2 (WS): Ch", "Row 2: (WS) Ch")

    assert [line[:10] for line in written(draft)[4:]] == ["Row 3 (RS)", "Row 4 (WS)"]
    assert [line[:11] for line in written(behind)[4:]] == ["Row 3: (RS)", "Row 4: (WS)"]


def test_lines_that_tell_one_size_each_leave_the_line_of_the_size() -> None:
    draft = (
        "YOKE\nSizes: 2Y, 4Y, 6Y\n\nThe foundation chain\n- 2Y = 6 sts\n- 4Y = 8 sts\n- 6Y = 10 sts\n\n"
        "Row 1: Ch 3, 1 dc in first 3 (4, 5) sts, 2 dc in next st, 1 dc in last 2 (3, 4) sts. 7 (9, 11) dc\n"
    )

    assert written(draft, "4Y") == [
        "YOKE",
        "Size: 4Y",
        "",
        "The foundation chain",
        "- 4Y = 8 sts",
        "",
        "Row 1: Ch 3, 1 dc in first 4 sts, 2 dc in next st, 1 dc in last 3 sts. 9 dc",
    ]
    assert [one.of for one in longhand(proof(draft), "4Y").rounds] == [0, 1]


def test_a_count_that_began_a_line_by_chance_is_put_behind_the_words_of_other_rows() -> None:
    draft = (
        "Ch 11. Row 1: Sc in 2nd ch from hook and in each ch across, ch 1, turn.\n"
        "(10 sc). Row 2: Sc in each st across, ch 1, turn. Row 3: Sc in each st across.\n(10 sc).\n"
    )

    assert written(draft)[1] == (
        "(10 sc). Row 2: Sc in each st across, ch 1, turn. (10 sc). Row 3: Sc in each st across."
    )


def test_a_row_of_prose_marked_as_unread_keeps_its_place() -> None:
    draft = (
        "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\n"
        "Row 2: Ch 1, sc in next 4 sts, turn. (4 sc)\nOther strap: Skip next 2 sts of Row 1, join yarn in next st; "
        "ch 1, sc in same st and in each st to end; turn. [?]\n"
    )

    assert [one.standing.name for one in proof(draft).workings.rounds] == ["UNSTATED", "AGREES", "AGREES", "UNREAD"]
