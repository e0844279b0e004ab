"""How far a call with several drafts has come, said on one line of a terminal and wiped away again."""

from __future__ import annotations

import shutil
import sys

_WIPE = "\r\x1b[K"


class Progress:
    """A line on standard error, and only where that is a terminal; `total` drafts are to come.

    One draft needs no line.
    """

    def __init__(self, total: int) -> None:
        self._total = total
        self._done = 0
        self._shown = False
        self._wanted = total > 1 and sys.stderr.isatty()

    def step(self, path: str) -> None:
        """Say that the next draft is being proofed."""
        self._done += 1
        if self._wanted:
            from ..reports.words import one_line  # noqa: PLC0415 - not needed where nobody watches

            words = f"Proofing {self._done} of {self._total}: {one_line(path)}"
            width = shutil.get_terminal_size((80, 24)).columns - 1
            sys.stderr.write(_WIPE + (words if len(words) <= width else words[: max(width - 4, 0)] + " ..."))
            sys.stderr.flush()
            self._shown = True

    def wipe(self) -> None:
        """Wipe the line away, so that something can be printed in its place."""
        if self._shown:
            sys.stderr.write(_WIPE)
            sys.stderr.flush()
            self._shown = False
