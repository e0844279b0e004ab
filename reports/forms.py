"""The forms of a proof and the report that makes each; a report is imported only when it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from ..lint.outputs import Form

if TYPE_CHECKING:
    from ..lint.proof import Proof

# ruff: noqa: PLC0415

_WIDTH = 80  # of a proof in a file, as a screen would show it


def is_drafts_own(form: Form) -> bool:
    """Tell whether a form is made draft by draft; the others are one document for all of them."""
    return form in (Form.SCREEN, Form.LINES)


def is_of_pieces(form: Form) -> bool:
    """Tell whether a form can be put together of a text from each draft; the others need the proofs themselves."""
    return is_drafts_own(form) or form is Form.JSON


def piece_of(form: Form, width: int = _WIDTH, *, colour: bool = False) -> Callable[[Proof], str]:
    """Return what makes the text of one draft, for a form that is put together of such."""
    if form is Form.LINES:
        from .lines import lines

        return lines
    if form is Form.JSON:
        from .machine import machine_piece

        return machine_piece
    from .screen import screen

    return partial(screen, width=width, colour=colour)


def joined(form: Form, pieces: Sequence[str]) -> str:
    """Put a form together of the texts of all drafts."""
    if form is Form.JSON:
        from .machine import machine_of

        return machine_of(pieces)
    return ("\n\n" if form is Form.SCREEN else "\n").join(pieces)


def whole_of(form: Form) -> Callable[[Sequence[Proof]], str]:
    """Return what makes the report of all drafts, one after the other or as one document."""
    match form:
        case Form.SCREEN | Form.LINES | Form.JSON:
            each = piece_of(form)
            return lambda proofs: joined(form, [*map(each, proofs)])
        case Form.HTML:
            from .page import page as report
        case Form.MARKDOWN:
            from .letter import letter as report
        case Form.CSV:
            from .figures import figures as report
        case Form.SARIF:
            from .sarif import sarif as report
    return report
