"""Longhands: equal to those written out by hand beforehand, and proofed to what their drafts came to."""

from __future__ import annotations

from collections import Counter
from functools import cache
from pathlib import Path

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.finding import Level
from rowcall.lint.longhand import longhand
from rowcall.lint.outputs import SheetForm
from rowcall.lint.proof import Proof, proof
from rowcall.lint.workings import Standing
from rowcall.reports.longhand import longhand_report
from rowcall.reports.ticks import ticks_report

HERE = Path(__file__).parent
CORPUS = HERE.parent.parent / "corpus"
BY_HAND = {
    "quayside-beanie-toddler": ("quayside-beanie", "Toddler"),
    "lamplighter-hat-small": ("lamplighter-hat", "Small"),
    "bollard-basket-large": ("bollard-basket", "Large"),
    "tideline-cowl-medium": ("tideline-cowl", "Medium"),
    "breakwater-hat-medium": ("breakwater-hat", "Medium"),
    "mooring-mittens-large": ("mooring-mittens", "Large"),
}


@cache
def proofed(name: str) -> Proof:
    return proof(Draft.of((CORPUS / f"{name}.txt").read_text("utf-8"), f"{name}.txt"))


def every_size() -> list[tuple[str, str | None, int]]:
    names = sorted(file.stem for file in CORPUS.glob("*.txt"))
    return [
        (name, size, index) for name in names for index, size in enumerate(proofed(name).pattern.sizes.names or (None,))
    ]


def corrections(found: Proof, size: int) -> Counter[str]:
    return Counter(
        one.rule for one in found.findings if one.level is Level.CORRECTION and (not one.sizes or size in one.sizes)
    )


@pytest.mark.parametrize("file", BY_HAND)
def test_a_longhand_is_what_was_written_by_hand(file: str) -> None:
    name, size = BY_HAND[file]

    text = longhand_report(longhand(proofed(name), size))

    assert text.splitlines() == (HERE / "longhand" / f"{file}.txt").read_text("utf-8").splitlines()


@pytest.mark.parametrize(("name", "size", "index"), every_size())
def test_a_longhand_is_corrected_no_more_than_its_draft(name: str, size: str | None, index: int) -> None:
    again = proof(Draft.of(longhand_report(longhand(proofed(name), size))))

    assert corrections(again, 0) <= corrections(proofed(name), index)


@pytest.mark.parametrize(("name", "size", "index"), every_size())
def test_a_longhand_comes_to_the_counts_of_its_draft(name: str, size: str | None, index: int) -> None:
    whole = proofed(name)
    written = longhand(whole, size)
    again = proof(Draft.of(longhand_report(written)))

    assert len(again.workings.rounds) == len(written.rounds)
    now: dict[int, int | None] = {}
    for one, working in zip(written.rounds, again.workings.rounds, strict=True):
        assert one.of is not None
        own = working.sizes[0]
        count = own.count if own and working.standing is not Standing.UNREAD else None
        # an elided round is one entry with the count of the first that it stands for, a repeat that of its last
        if whole.pattern.rounds[one.of].elided is None or one.of not in now:
            now[one.of] = count
    differ = {
        (name, size, whole.draft.position(whole.pattern.rounds[working.index].heading.start).line): now.get(
            working.index
        )
        for working in whole.workings.rounds
        if (own := working.sizes[index]) and own.count is not None and now.get(working.index) != own.count
    }
    assert differ == {}


def test_no_word_of_other_sizes_is_left() -> None:
    text = longhand_report(longhand(proofed("oilskin-hat"), "Small"))

    assert [word for word in ("Medium", "Large", "(63, 70, 77)", "(120, 150, 165)") if word in text] == []


HAT = """\
HARBOUR <HAT>
One size

Crown
Rnd 1: 6 sc in a magic ring. (6)
Rnd 2: Inc in each st around. (13)
Rnds 3-5: Sc in each st around. (12)
Next rnd: Sc in each st around. (12)
Rep last rnd twice more.
Rnd 9: Work as the tide allows.
Fasten off.
"""


def test_markdown_shows_the_draft_as_it_stands() -> None:
    assert longhand_report(longhand(proof(HAT)), SheetForm.MARKDOWN).splitlines()[4:] == [
        "## Crown",
        "",
        "- **Rnd 1**: 6 sc in a magic ring. (6)",
        r"- **Rnd 2**: \[!\] Inc in each st around. (13)",
        "  - the draft says 13, its words make 12",
        "- **Rnds 3-5**: Sc in each st around. (12)",
        "- **Next rnd**: Sc in each st around. (12)",
        "- **Next rnd (2 of 3)**: Sc in each st around. (12)",
        "- **Next rnd (3 of 3)**: Sc in each st around. (12)",
        r"- **Rnd 9**: \[?\] Work as the tide allows.",
        '  - these words were not understood: "tide allows"',
        "",
        "Fasten off.  ",
        "",
        r"\[!\] The words make another count than the one that stands there.",
        "",
        r"\[?\] This could not be worked and stands as it was written.",
    ]


def test_html_stands_alone_and_escapes_the_draft() -> None:
    for report in (longhand_report, ticks_report):
        text = report(longhand(proof(HAT)), SheetForm.HTML)

        assert text.startswith("<!DOCTYPE html>")
        assert "HARBOUR &lt;HAT&gt;" in text
        assert [word for word in ("<HAT>", "<script", "http", "src=") if word in text] == []


def test_ticks_give_a_box_and_the_count_for_each_round() -> None:
    text = ticks_report(longhand(proof(HAT))).splitlines()
    rounds = [line.split("  Notes")[0] for line in text if line.startswith(("[ ]", "Rnd", "    [ ]"))]

    assert rounds == [
        "[ ] Rnd 1  6 sts",
        "[ ] Rnd 2  13 sts",
        "Rnds 3-5  12 sts",
        "    [ ]3 [ ]4 [ ]5",
        "[ ] Next rnd  12 sts",
        "[ ] Next rnd (2 of 3)  12 sts",
        "[ ] Next rnd (3 of 3)  12 sts",
        "[ ] Rnd 9",
    ]
    assert "   Rnd 2: the draft says 13, its words make 12. You had:" in text
    assert max(map(len, text)) <= 80


def test_ticks_number_the_passes_of_a_repeat() -> None:
    text = ticks_report(longhand(proofed("breakwater-hat"), "Small"))

    assert [line.split("  ")[1] for line in text.splitlines() if line.startswith("[ ] Rnd") and "pass" in line] == [
        f"pass {turn} of 6" for turn in (2, 3, 4, 5, 6) for _ in range(2)
    ]


def test_nothing_in_a_draft_reaches_a_terminal_as_a_command() -> None:
    draft = HAT.replace("Fasten off.", "Fasten\x1b[31m off.")

    for form in SheetForm:
        for report in (longhand_report, ticks_report):
            assert "\x1b" not in report(longhand(proof(draft)), form)


UNHEADED = "CUFF\nCh 8, join with sl st to first ch.\nRnd 1: Ch 1, sc in each ch around, join. (8 sc)\n"


@pytest.mark.parametrize(
    ("form", "line"),
    [
        (SheetForm.TEXT, "Ch 8, join with sl st to first ch."),
        (SheetForm.SCREEN, "Ch 8, join with sl st to first ch."),
        (SheetForm.MARKDOWN, "- Ch 8, join with sl st to first ch."),
        (SheetForm.HTML, '<tr><td colspan="2">Ch 8, join with sl st to first ch.</td></tr>'),
    ],
)
def test_a_round_without_a_heading_gets_none(form: SheetForm, line: str) -> None:
    written = longhand(proof(UNHEADED))

    assert line in longhand_report(written, form).splitlines()
    assert "Rnd 1" in longhand_report(written, form)
