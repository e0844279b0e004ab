"""The forms of a proof and the report that makes each; a report is imported only when it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from ..lint.outputs import Form
from ..lint.proof import Proof

# ruff: noqa: PLC0415

_WIDTH = 80  # of a proof in a file, as a screen would show it


def is_drafts_own(form: Form) -> bool:
    """Tell whether a form is made draft by draft; the others are one document for all of them."""
    return form in (Form.SCREEN, Form.LINES)


def each_of(form: Form, width: int = _WIDTH, *, colour: bool = False) -> Callable[[Proof], str]:
    """Return what makes the report of one draft, for a form that is made draft by draft."""
    if form is Form.LINES:
        from .lines import lines

        return lines
    from .screen import screen

    return partial(screen, width=width, colour=colour)


def whole_of(form: Form) -> Callable[[Sequence[Proof]], str]:
    """Return what makes the report of all drafts, one after the other or as one document."""
    match form:
        case Form.SCREEN | Form.LINES:
            each, between = each_of(form), "\n\n" if form is Form.SCREEN else "\n"
            return lambda proofs: between.join(map(each, proofs))
        case Form.MARKDOWN:
            from .letter import letter as report
        case Form.CSV:
            from .figures import figures as report
        case Form.JSON:
            from .machine import machine as report
        case Form.SARIF:
            from .sarif import sarif as report
    return report
