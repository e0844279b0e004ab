"""Reading and working of drafts.

`from rowcall.lint import proof` is the way in for other programs; nothing is imported before it is asked for, so
that a command line that needs no proof comes at once.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .checked import SettingsError
    from .draft import Draft
    from .finding import Finding, Level
    from .intake import IntakeError
    from .proof import Proof, Tally

    # isort: split
    from .face import proof  # after the module of that name, which it takes the place of

__all__ = ["Draft", "Finding", "IntakeError", "Level", "Proof", "SettingsError", "Tally", "proof"]

_HOMES = {
    "Draft": "draft",
    "Finding": "finding",
    "IntakeError": "intake",
    "Level": "finding",
    "Proof": "proof",
    "SettingsError": "checked",
    "Tally": "proof",
}


def __getattr__(name: str) -> object:
    """Import a name of the face when it is first asked for."""
    if name == "proof":
        # the module of that name, which can be called: see there
        return import_module(f"{__name__}.proof")
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
