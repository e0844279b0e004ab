"""The longhand report: a draft written out for one size, as text to make from or to read on a screen."""

from __future__ import annotations

from ..lint.draft import Span
from ..lint.longhand import Longhand, Mark
from ..lint.longhand.edits import Edit, edited

SIGNS = {Mark.UNREAD: "[?]", Mark.DIFFERS: "[!]"}
KEYS = {
    Mark.UNREAD: "[?] This could not be worked and stands as it was written.",
    Mark.DIFFERS: "[!] The words make another count than the one that stands there.",
}


def longhand_text(written: Longhand) -> str:
    """Return the longhand as plain text: the draft's own lines, with what is doubtful marked and explained below."""
    text = written.text
    newline = "\r\n" if "\r\n" in text else "\n"
    marks = [round_.mark for round_ in written.rounds]
    if marks and all(mark is Mark.UNREAD for mark in marks):
        return text.rstrip() + newline * 2 + "[?] None of it could be worked: all stands as it was written." + newline
    edits = [
        Edit(Span(round_.words, round_.words), f"{SIGNS[round_.mark]} ") for round_ in written.rounds if round_.mark
    ]
    keys = [KEYS[mark] for mark in Mark if mark in marks]
    marked = edited(text, edits).text
    return marked.rstrip() + newline * 2 + newline.join(keys) + newline if keys else marked
