"""Marks in the text of a longhand: what is doubtful is shown where it stands and explained at the end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..draft import Draft, Span
from ..proof import Proof, proof
from .edits import Edit, edited
from .stated import headless
from .writing import Longhand, Mark, Written

SIGNS = {Mark.UNREAD: "[?]", Mark.DIFFERS: "[!]"}
MEANINGS = {
    Mark.UNREAD: "This could not be worked and stands as it was written.",
    Mark.DIFFERS: "The words make another count than the one that stands there.",
}
_NONE_WORKED = "[?] None of it could be worked: all stands as it was written."


def marked(written: Longhand) -> str:
    """Return the text of a longhand with its marks.

    A mark must not change what the text says to whoever reads it next, this program among them: where one before
    the words or behind them would, the lines are listed below instead.
    """
    marks = [round_.mark for round_ in written.rounds]
    if not any(marks):
        return written.text
    if all(mark is Mark.UNREAD for mark in marks):
        return _with_notes(written.text, [_NONE_WORKED])
    wanted, several = _counts(written.proof, marks), written.proof.pattern.sizes.number
    notes = [f"{SIGNS[mark]} {MEANINGS[mark]}" for mark in Mark if mark in marks]
    for behind in (False, True):
        text = _with_notes(edited(written.text, _signs(written, behind=behind)).text, notes)
        again = proof(Draft.of(text), ())
        if len(again.workings.rounds) != len(marks):
            continue
        # the marks may tell more: a list that nobody could take apart makes the text without them look like one in
        # several sizes, and a count that differs needs no other explanation; what hangs on a doubtful round may go
        both = zip(wanted, _counts(again, marks), strict=True)
        same = all(was == now or _UNKNOWN in (was, now) for was, now in both)
        if same or again.pattern.sizes.number < several:
            return text
    return _with_notes(written.text, [_listed(written, mark) for mark in Mark if mark in marks])


def _signs(written: Longhand, *, behind: bool) -> Iterator[Edit]:
    """Give the marks: before a round's words, or `behind` those of a round without a heading of its own."""
    for one, working in zip(written.rounds, written.proof.workings.rounds, strict=True):
        if one.mark is None:
            continue
        if behind and headless(written.proof.pattern.rounds[working.index]):
            yield Edit(Span(one.end, one.end), f" {SIGNS[one.mark]}")
        else:
            yield Edit(Span(one.words, one.words), f"{SIGNS[one.mark]} ")


def _listed(written: Longhand, mark: Mark) -> str:
    lines = (str(_line(written, one)) for one in written.rounds if one.mark is mark)
    return f"{SIGNS[mark]} {MEANINGS[mark]} Lines: {', '.join(lines)}."


def _line(written: Longhand, one: Written) -> int:
    return written.proof.draft.position(one.words).line


def _with_notes(text: str, notes: list[str]) -> str:
    newline = "\r\n" if "\r\n" in text else "\n"
    return text.rstrip() + newline * 2 + newline.join(notes) + newline


_UNKNOWN = (None, None)


def _counts(found: Proof, marks: Sequence[Mark | None]) -> list[tuple[int | None, bool | None]]:
    """Return what the rounds of a text come to, and whether that agrees, but for those marked as not worked."""
    rounds = found.workings.rounds
    return [
        (own.count, own.agrees) if (own := one.sizes[0] if one.sizes else None) is not None else _UNKNOWN
        for one, mark in zip(rounds, marks, strict=True)
        if mark is not Mark.UNREAD
    ]
