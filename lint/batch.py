"""Several drafts in one call: each is proofed on its own, and one that fails doesn't spoil the others."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from .choice import Choice
    from .finding import Level
    from .proof import Proof

CLEAN, FOUND, FAILED = 0, 1, 2  # exit statuses

_Result = TypeVar("_Result")


class Batch:
    """The drafts of one call, and what they come to for the exit status.

    `paths` are files, folders and `-` for standard input, as the user gave them. `size` narrows every proof
    to one size, `choice` to some findings. `complain` is given one sentence for each draft that fails.
    """

    def __init__(
        self,
        paths: Sequence[str],
        size: str | None = None,
        choice: Choice | None = None,
        *,
        complain: Callable[[str], None],
    ) -> None:
        self._paths = paths
        self._size = size
        self._choice = choice
        self._complain = complain
        self._failed = False
        self._worst = 0

    def proofs(self) -> Iterator[Proof]:
        """Proof the drafts one by one, those of a folder in the order of their names."""
        for path in self._files():
            found = self._guarded(path, partial(self._proof, path))
            if found is not None:
                self._worst = max(self._worst, found.worst() or 0)
                yield found

    def reports(self, report: Callable[[Proof], str]) -> Iterator[str]:
        """Proof the drafts one by one and give the report of each."""
        for found in self.proofs():
            text = self._guarded(found.draft.path, partial(report, found))
            if text is not None:
                yield text

    def status(self, fails_at: Level | None) -> int:
        """Return the exit status for what was seen so far; no finding is grave enough for None."""
        if self._failed:
            return FAILED
        return FOUND if fails_at is not None and self._worst >= fails_at else CLEAN

    def _files(self) -> Iterator[str]:
        from .intake import drafts_in

        for path in self._paths:
            if path != "-" and Path(path).is_dir():
                yield from map(str, self._guarded(path, partial(drafts_in, path)) or ())
            else:
                yield path

    def _proof(self, path: str) -> Proof:
        from .choice import for_size
        from .intake import read_file, read_stream
        from .proof import proof

        found = proof(read_stream(sys.stdin.buffer) if path == "-" else read_file(path))
        if self._size is not None:
            found = for_size(found, self._size)
        return found if self._choice is None else self._choice.of(found)

    def _guarded(self, path: str, call: Callable[[], _Result]) -> _Result | None:
        """Return what the call gives; where it fails, say so in one sentence and return None."""
        from ..reports.words import one_line
        from .choice import ChoiceError
        from .intake import IntakeError

        try:
            return call()
        except (IntakeError, ChoiceError) as error:
            message = str(error)
        except Exception as error:
            # Whatever trips the program over one draft, the others are still to be proofed.
            reason = f"{type(error).__name__}: {error}".rstrip(": ")
            message = f"{path} could not be proofed through a mistake in Rowcall itself ({reason})"
        self._failed = True
        self._complain(one_line(message))
        return None
