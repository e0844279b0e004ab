"""Round trip: what a longhand says is read again as it was meant; every count worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.finding import Level
from rowcall.lint.longhand import longhand, marked
from rowcall.lint.proof import Proof, proof


def counts(found: Proof) -> list[int | None]:
    return [one.sizes[0].count if one.sizes[0] else None for one in found.workings.rounds]


def corrections(found: Proof) -> list[str]:
    return [one.rule for one in found.findings if one.level is Level.CORRECTION]


def written(text: str, size: str | None = None) -> str:
    return marked(longhand(proof(text), size))


LISTS = (
    "STRIP\nSizes: S (M, L)\nCh 11 (13, 15).\n"
    "Row 1: Sc in 2nd ch from hook and in each ch across, turn. 10 (12, 14) sc.\n"
    "Rows 2-20 (22, 24): Ch 1, sc in each sc across, turn. 10 (12, 14) sc.\n"
    "Row (21, 23, 25): Ch 1, sc in each sc across. 10 (12, 14) sc.\n"
)


@pytest.mark.parametrize(("size", "number"), [("S", 21), ("M", 23), ("L", 25)])
def test_numbers_of_a_heading_in_brackets_lose_their_brackets(size: str, number: int) -> None:
    assert f"\nRow {number}: Ch 1" in written(LISTS, size)


def test_listed_rounds_part_where_elided_ones_stand_between_them() -> None:
    text = (
        "LEG\nCast on 6 sts.\nRow 1: k6.\nRow 2 and all even rows: purl.\nRows 3, 5: knit.\n"
        "Row 7: k2tog 3 times. (3 sts)\n"
    )

    assert [line for line in written(text).splitlines() if line.startswith("Row")] == [
        "Row 1: k6. (6 sts)",
        "Row 2: purl. (6 sts)",
        "Row 3: knit. (6 sts)",
        "Row 4: purl. (6 sts)",
        "Row 5: knit. (6 sts)",
        "Row 6: purl. (6 sts)",
        "Row 7: k2tog 3 times. (3 sts)",
    ]


# heading of the rounds of others, what is said of them
MISSING = [
    (["Rnd 3"], "Rnd 4", "(This size has no Rnd 3.)"),
    (["R3"], "R4", "(This size has no R3.)"),
    (["R3", "R4"], "R5", "(This size has no R3 to 4.)"),
    (["R3", "R4", "R5"], "R6", "(This size has no R3 to 5.)"),
    (["Round 3", "Round 4", "Round 5"], "Round 6", "(This size has no Rounds 3 to 5.)"),
]


@pytest.mark.parametrize(("others", "own", "said"), MISSING)
def test_a_gap_that_was_said_is_no_gap(others: list[str], own: str, said: str) -> None:
    word = "R" if own.startswith("R") and own[1].isdigit() else own.split(maxsplit=1)[0] + " "
    middle = "".join(f"{heading}: sc in each st around. (12)\n" for heading in others)
    text = (
        f"CAP\nSizes: Small (Large)\n{word}1: 6 sc in a magic ring. (6)\n"
        f"{word}2: Inc in each st around. (12)\nLarge only:\n"
        f"{middle}All sizes:\n{own}: *Sc 1, inc; rep from * around. 18 (18) sc\n"
    )
    small = written(text, "Small")

    assert said in small
    assert corrections(proof(small)) == []


def test_notes_on_sizes_before_a_round_of_their_line_go() -> None:
    text = (
        "CAP\nSizes: Baby (Child)\nRnd 1: 6 sc in a magic ring. (6 sc) Rnd 2: Inc in each st around. (12 sc) "
        "Child size only - Rnd 3: *Sc 1, inc; rep from * around. (18 sc) "
        "Both sizes - Rnd 3 (4): Sc in each st around. (12 (18) sc)\n"
    )

    assert written(text, "Baby").splitlines()[2] == (
        "Rnd 1: 6 sc in a magic ring. (6 sc) Rnd 2: Inc in each st around. (12 sc)  "
        "Rnd 3: Sc in each st around. (12 sc)"
    )
    assert written(text, "Child").splitlines()[2] == (
        "Rnd 1: 6 sc in a magic ring. (6 sc) Rnd 2: Inc in each st around. (12 sc) "
        "Rnd 3: *Sc 1, inc; rep from * around. (18 sc) Rnd 4: Sc in each st around. (18 sc)"
    )


@pytest.mark.parametrize(
    ("said", "second"),
    [
        ("Baby size with Child size in ( ). One skein.", "Child size. One skein."),
        (
            "Directions are for size 8. Changes for sizes 10 and 12 are in parentheses. One skein.",
            "Directions are for size 10. One skein.",
        ),
        ("Small with Medium and Large in brackets.", "Medium."),
    ],
)
def test_a_sentence_that_names_the_sizes_names_one(said: str, second: str) -> None:
    number = 3 if " and " in said else 2
    figures = {2: "12 (14)", 3: "12 (14, 16)"}[number]
    text = f"CAP\n{said}\n\nRnd 1: {figures} sc in a magic ring. {figures} sc\n"
    names = proof(text).pattern.sizes.names

    assert written(text, names[1]).splitlines()[1:] == [second, "", "Rnd 1: 14 sc in a magic ring. 14 sc"]


WRONG_LISTS = {
    "a count with a figure too few": (
        "HAT\nSizes: S (M, L)\nRnd 1: 8 (9, 10) sc in a magic ring. 8 (9, 10) sc\n"
        "Rnd 2: Inc in each st around. 16 (18) sc\n"
        "Rnd 3: Sc in each st around. 16 (18, 20) sc\n",
        [8, 16, 16],
    ),
    "a count in slashes with a figure too few": (
        "HAT\nSizes: S/M/L/XL\nR1: 8/8/9/9 sc in a magic ring (8/8/9/9)\nR2: inc in each st (16/16/18/18)\n"
        "R3: sc in each st around (16/18/18)\nR4: sc in each st around (16/16/18/18)\n",
        [8, 16, 16, 16],
    ),
    "a list in the words with a figure too few": (
        "HAT\nSizes: S (M, L)\nRnd 1: 8 (9, 10) sc in a magic ring. 8 (9, 10) sc\n"
        "Rnd 2: Inc in each st around. 16 (18, 20) sc\n"
        "Rnd 3: Sc in next 14 (16) sts, sc2tog. 15 (17, 19) sc\nRnd 4: Sc in each st around. 15 (17, 19) sc\n",
        [8, 16, None, 15],
    ),
}


@pytest.mark.parametrize("kind", WRONG_LISTS)
def test_a_list_that_nobody_can_take_apart_is_reported_once(kind: str) -> None:
    text, wanted = WRONG_LISTS[kind]
    whole = proof(text)
    again = proof(written(text, "S"))

    assert corrections(whole) != []
    assert counts(again) == wanted
    assert again.pattern.sizes.number == 1
    assert set(corrections(again)) <= set(corrections(whole))


def test_a_round_marked_as_not_worked_stays_unread_and_states_its_count() -> None:
    text = (
        "HAT\nRnd 1: 8 sc in a magic ring. (8)\nRnd 2: [?] Inc in each st around. (16)\n"
        "Rnd 3: Sc in each st around. (16)\n"
    )

    found = proof(text)

    assert counts(found) == [8, None, 16]
    assert found.workings.rounds[1].reason == "it is marked [?] as not worked out"


def test_a_count_known_to_differ_leaves_no_doubt_of_the_row_below() -> None:
    # 4 repeats of 6 make 20 where 22 is said, and the next round wants 22
    body = (
        "Rnd 1: 24 sc in a magic ring. (24)\nFor the rim work as the tide allows, turn 3 times.\n"
        "Rnd 2: {}*Sc 4, sc2tog; rep from * around. (22)\nRnd 3: Sc in each st around. (22)\n"
    )

    assert counts(proof("HAT\n" + body.format("[!] ")))[-2] == 20


def test_the_last_word_of_a_line_that_names_rows_is_no_heading() -> None:
    text = (
        "NECK\nCast on 27 sts.\n\u2022 Work 4 rows in st st.\n\u2022 Dec one st at each end of next 6\nrows. 15 sts\n"
        "\u2022 Work one row.\n"
    )

    found = proof(text)

    assert counts(found) == [27, 27, 15, 15]
    assert corrections(found) == []


def test_a_beginning_chain_before_stitches_in_each_stitch_is_no_foundation() -> None:
    text = "HAT\nRnd 1: 12 sc in a magic ring, join. (12 sc)\nBand: Ch 1, sc in BLO of each st around, join. (12 sc)\n"

    found = proof(text)

    assert counts(found) == [12, 12]
    assert [one.rule for one in found.findings if one.rule == "count-differs"] == []


@pytest.mark.parametrize("note", ["All even rounds are worked plain.", "Rounds that are not written are worked even."])
def test_rounds_that_only_a_note_declares_are_written_out(note: str) -> None:
    text = (
        f"BALL\n{note}\n\nRound 1: 6 sc in a magic ring. (6)\nRound 3: 2 sc in each st around. (12)\n"
        "Round 5: *Sc 1, inc; rep from * around. (18)\n"
    )

    assert written(text).splitlines()[3:] == [
        "Round 1: 6 sc in a magic ring. (6)",
        "Round 2: Work even. (6)",
        "Round 3: 2 sc in each st around. (12)",
        "Round 4: Work even. (12)",
        "Round 5: *Sc 1, inc; rep from * around. (18)",
    ]


def test_rows_that_only_a_note_declares_are_knitted_or_purled() -> None:
    text = "STRIP\nAll even rows are purled.\nCast on 6 sts.\nRow 1: k6.\nRow 3: k2tog 3 times. (3 sts)\n"

    assert written(text).splitlines()[3:] == [
        "Row 1: k6. (6 sts)",
        "Row 2: Purl. (6 sts)",
        "Row 3: k2tog 3 times. (3 sts)",
    ]


def test_rounds_declared_as_another_have_its_words() -> None:
    text = (
        "BALL\nRounds not given are worked as Round 2.\n\nRound 1: 6 sc in a magic ring. (6)\n"
        "Round 2: Sc in each st around. (6)\nRound 3: 2 sc in each st around. (12)\n"
        "Round 5: *Sc 1, inc; rep from * around. (18)\n"
    )

    assert written(text).splitlines()[6] == "Round 4: Sc in each st around. (12)"


@pytest.mark.parametrize(("sign", "level"), [("", Level.CORRECTION), ("[!] ", Level.QUERY)])
def test_a_count_that_was_reported_of_the_draft_is_only_asked_about(sign: str, level: Level) -> None:
    # 8 doubled are 16
    text = f"HAT\nRnd 1: 8 sc in a magic ring. (8)\nRnd 2: {sign}Inc in each st around. (15)\n"

    assert [(one.rule, one.level) for one in proof(text).findings] == [("count-differs", level)]
