"""The face of Rowcall for other programs: a text or a file in, its proof out."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from .draft import Draft

if TYPE_CHECKING:
    from .proof import Proof

# ruff: noqa: PLC0415 - this is what the module of the proof itself calls


def proof(source: str | Path | Draft) -> Proof:
    """Proof the text of a draft, or the draft in a file.

    A `str` is the text itself, a `Path` a file. For a file the house style of its folder holds and what was agreed to
    stand in it, as on the command line; a text is judged without. Raises nothing for any text; `IntakeError` for a
    file that can't be read as a draft, `SettingsError` for settings that are wrong.
    """
    from ..rules.book import all_rules
    from .intake import read_file
    from .proof import proof as whole
    from .settings import settings_for

    if not isinstance(source, Path):
        return whole(source)
    return whole(read_file(source), settings=settings_for(str(source), [rule.name for rule in all_rules()]))
