"""Several drafts in one call: each is proofed on its own, and one that fails doesn't spoil the others."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from .choice import Choice
    from .house import House
    from .proof import Proof

CLEAN, FOUND, FAILED = 0, 1, 2  # exit statuses

_Result = TypeVar("_Result")


class Batch:
    """The drafts of one call, and what they come to for the exit status.

    `paths` are files, folders and `-` for standard input, as the user gave them. `size` narrows every proof
    to one size, `choice` to some findings; `house` is a house style for all of them, in place of the one in their
    folders. `complain` is given one sentence for each draft that fails.
    """

    def __init__(
        self,
        paths: Sequence[str],
        size: str | None = None,
        choice: Choice | None = None,
        house: House | None = None,
        *,
        complain: Callable[[str], None],
    ) -> None:
        self._paths = paths
        self._size = size
        self._choice = choice
        self._complain = complain
        self._failed = False
        self._house = house
        self._worst: dict[str, int] = {}  # by the level that fails in the house of the draft

    def proofs(self) -> Iterator[Proof]:
        """Proof the drafts one by one, those of a folder in the order of their names."""
        for path in self._files():
            found = self._guarded(path, partial(self._proof, path))
            if found is not None:
                house = found.settings.house.fails_at or "correction"
                self._worst[house] = max(self._worst.get(house, 0), found.worst() or 0)
                yield found

    def reports(self, report: Callable[[Proof], str]) -> Iterator[str]:
        """Proof the drafts one by one and give the report of each."""
        for found in self.proofs():
            text = self._guarded(found.draft.path, partial(report, found))
            if text is not None:
                yield text

    def status(self, fails_at: str | None) -> int:
        """Return the exit status for what was seen so far.

        `fails_at` is a level's word or `never`, None for what each draft's house style says.
        """
        from .finding import Level

        if self._failed:
            return FAILED
        limits = ((worst, fails_at or house) for house, worst in self._worst.items())
        fails = any(limit != "never" and worst >= Level[limit.upper()] for worst, limit in limits)
        return FOUND if fails else CLEAN

    def _files(self) -> Iterator[str]:
        from .intake import drafts_in

        for path in self._paths:
            if path != "-" and Path(path).is_dir():
                yield from map(str, self._guarded(path, partial(drafts_in, path)) or ())
            else:
                yield path

    def _proof(self, path: str) -> Proof:
        from ..rules.book import all_rules
        from .choice import for_size
        from .intake import read_file, read_stream
        from .proof import proof
        from .settings import settings_for

        draft = read_stream(sys.stdin.buffer) if path == "-" else read_file(path)
        found = proof(draft, settings=settings_for(path, [rule.name for rule in all_rules()], self._house))
        if self._size is not None:
            found = for_size(found, self._size)
        return found if self._choice is None else self._choice.of(found)

    def _guarded(self, path: str, call: Callable[[], _Result]) -> _Result | None:
        """Return what the call gives; where it fails, say so in one sentence and return None."""
        from ..reports.words import one_line
        from .checked import SettingsError
        from .choice import ChoiceError
        from .intake import IntakeError

        try:
            return call()
        except SettingsError as error:
            self._failed = True
            for trouble in error.troubles:
                self._complain(one_line(trouble))
            return None
        except (IntakeError, ChoiceError) as error:
            message = str(error)
        except Exception as error:
            # Whatever trips the program over one draft, the others are still to be proofed.
            reason = f"{type(error).__name__}: {error}".rstrip(": ")
            message = f"{path} could not be proofed through a mistake in Rowcall itself ({reason})"
        self._failed = True
        self._complain(one_line(message))
        return None
