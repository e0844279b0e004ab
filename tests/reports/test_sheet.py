"""The sheet of a draft: what is marked in each line, what stands beside it, and the table of counts."""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_hand import HAT, hat, proof_by_hand, span, wrong_count
from rowcall.lint.draft import Span
from rowcall.lint.figures import FigureList, ListStyle
from rowcall.lint.finding import Aside, Finding, Level
from rowcall.lint.proof import Proof, proof
from rowcall.lint.stet import Stood
from rowcall.reports.sheet import Cell, DraftLine, Note, elements, sheet


def marked(line: DraftLine) -> str:
    """Write a line with its marks: `[words]` of a note, `^1` for its number, `{2|word}` for what is for a size."""
    parts: list[str] = []
    for part in line.stretches:
        text = part.text
        if part.sizes is not None:
            text = f"{{{','.join(map(str, part.sizes))}|{text}}}"
        if part.notes:
            text = f"[{text}]"
        parts.append(text + "".join(f"^{note}" for note in part.ends))
    return "".join(parts)


def lines(seen: Proof) -> list[str]:
    """Return all lines of a sheet with their marks."""
    return [marked(line) for strip in sheet(seen).strips for line in strip.lines]


def at(text: str, *spans: Span) -> Proof:
    """Return a proof of a text with a query at each of these stretches."""
    return proof_by_hand(text, findings=[Finding("a-rule", Level.QUERY, one, "look") for one in spans])


@pytest.mark.parametrize(
    ("text", "spans", "shown"),
    [
        ("Rnd 1: sc.\nRnd 2.\n", [Span(7, 9)], ["Rnd 1: [sc]^1.", "Rnd 2."]),
        ("Rnd 1: sc.", [Span(0, 10)], ["[Rnd 1: sc.]^1"]),
        # over a line end: both lines are marked, the number stands at the end
        ("*sc,\ninc around", [Span(1, 8)], ["*[sc,]", "[inc]^1 around"]),
        # a line end after the words is no part of them
        ("*sc,\ninc", [Span(1, 5)], ["*[sc,]^1", "inc"]),
        # one within another, and two that overlap
        ("a b c d", [Span(0, 7), Span(2, 3)], ["[a ][b]^2[ c d]^1"]),
        ("a b c d", [Span(0, 3), Span(2, 5)], ["[a ][b]^1[ c]^2 d"]),
        # places between two characters: in the line, at its start, at its end, in an empty line, after the text
        ("a b", [Span(1, 1)], ["a^1 b"]),
        ("a b", [Span(0, 0)], ["^1a b"]),
        ("a b", [Span(3, 3)], ["a b^1"]),
        ("a\n\nb", [Span(2, 2)], ["a", "^1", "b"]),
        ("a\n", [Span(2, 2)], ["a^1"]),
        ("", [Span(0, 0)], ["^1"]),
        # nothing harmful, and tabs as they are
        ("a\tb\x1b\u202e", [Span(0, 1)], ["[a]^1\tb\ufffd\ufffd"]),
    ],
)
def test_words_are_marked_where_they_stand(text: str, spans: list[Span], shown: list[str]) -> None:
    assert lines(at(text, *spans)) == shown


def test_figures_and_rounds_are_marked_by_size() -> None:
    text = (
        "US terms\nSizes: Small (Medium, Large)\n\n"
        "Ch 12 (16, 20), join with sl st to first ch.\n"
        "Rnd 1: Sc in each ch around. 12 (16, 20) sc\n"
        "Medium and Large only:\n"
        "Rnd 2: *Sc 2, sc2tog; rep from * around. - (12, 15) sc\n"
    )

    shown = lines(replace(proof(text), findings=()))

    assert shown[1] == "Sizes: {0|Small} ({1|Medium}, {2|Large})"
    assert shown[4] == "Rnd 1: Sc in each ch around. {0|12} ({1|16}, {2|20}) sc"
    assert shown[6].startswith("{1,2|Rnd 2: *Sc 2, sc2tog; rep from * around. ")
    assert "{1|12}" in shown[6]


@pytest.mark.parametrize(
    ("words", "values", "found"),
    [
        ("72 (80, 88)", (72, 80, 88), ["72", "80", "88"]),
        ("-/80/88", (None, 80, 88), ["-", "80", "88"]),
        ("five (six, seven)", (5, 6, 7), ["five", "six", "seven"]),
        ("72[80,88]", (72, 80, 88), ["72", "80", "88"]),
        ("72 (80)", (72, 80), []),
        ("S: 72, M: 80, L: 88", (72, 80, 88), []),
    ],
)
def test_each_figure_of_a_list_is_found(words: str, values: tuple[int | None, ...], found: list[str]) -> None:
    seen = proof_by_hand(f"Ch {words}, turn.").draft
    spans = elements(seen, FigureList(values, Span(3, 3 + len(words)), ListStyle.ROUND, ","), 3)

    assert [seen.words(one) for one in spans] == found


def test_a_note_stands_beside_the_line_of_its_words() -> None:
    finding = replace(wrong_count(), asides=(Aside(span(HAT, "Rnd 1"), "the round before"),))
    strips = sheet(hat([Finding("a-rule", Level.STYLE, span(HAT, "Crown"), "look"), finding])).strips

    assert [(strip.lines[0].number, len(strip.lines), [note.number for note in strip.notes]) for strip in strips] == [
        (1, 3, []),
        (4, 2, [1]),
        (6, 3, [2]),
    ]
    assert strips[2].notes == (
        Note(
            number=2,
            level=Level.CORRECTION,
            rule="count-differs",
            line=6,
            sizes=(1,),
            size_words="Medium",
            message="the round comes to 15 sts for Medium, but 16 are stated",
            sum=("10 sts before the round", "  each repeat uses 2 and makes 3: 5 times", "15 sts after it"),
            change='line 6: "16" to "15"',
            see=((5, "the round before"),),
        ),
    )


def test_counts_stand_a_row_a_round() -> None:
    rows = sheet(hat()).rows

    assert [(row.title, row.line, row.label, row.standing) for row in rows] == [
        ("Crown", 5, "Rnd 1", "agrees"),
        (None, 6, "Rnd 2", "differs for Medium"),
        (None, 7, "Rnd 3", "not read"),
        (None, 8, "Rnd 4", "no count stated"),
    ]
    assert rows[1].cells == (Cell(0, 15, 15), Cell(1, 15, 16), Cell(2, 15, 15))
    assert rows[2].cells[0] == Cell(0, None, 20)


def test_what_was_not_read_and_what_stands_is_said() -> None:
    seen = sheet(replace(hat(()), stood=(Stood(wrong_count(), "agreed\nwith the designer"),)))

    assert seen.unread == ((7, 'Rnd 3: "as the tide allows" was not understood'),)
    assert seen.stood == ((6, "count-differs: agreed with the designer"),)
    assert seen.found == ""
