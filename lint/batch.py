"""Several drafts in one call: each is proofed on its own, and one that fails doesn't spoil the others."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from .progress import Progress

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
        self._listed: list[str] | None = None

    def drafts(self) -> list[str]:
        """Return the drafts of the call, those of a folder in the order of their names."""
        if self._listed is None:
            self._listed = list(self._files())
        return self._listed

    def proofs(self) -> Iterator[Proof]:
        """Proof the drafts one by one, and say on a terminal how far it has come."""
        from ..reports.words import one_line

        progress = Progress(len(self.drafts()))
        for path in self.drafts():
            progress.step(one_line(path))
            found = self._guarded(path, partial(self._proof, path), progress)
            progress.wipe()
            if found is not None:
                house = found.settings.house.fails_at or "correction"
                self._worst[house] = max(self._worst.get(house, 0), found.worst() or 0)
                yield found

    def reports(self, report: Callable[[Proof], str]) -> Iterator[str]:
        """Proof the drafts one by one and give the report of each."""
        for found in self.proofs():
            text = self.report(found.draft.path, partial(report, found))
            if text is not None:
                yield text

    def report(self, path: str, make: Callable[[], _Result]) -> _Result | None:
        """Make a report of one draft or several; where that fails, say so and return None."""
        return self._guarded(path, make)

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

    def _guarded(self, path: str, call: Callable[[], _Result], progress: Progress | None = None) -> _Result | None:
        """Return what the call gives; where it fails, say so in one sentence and return None."""
        from ..reports.words import one_line
        from .checked import SettingsError
        from .choice import ChoiceError
        from .intake import IntakeError
        from .outputs import OutputError

        try:
            return call()
        except SettingsError as error:
            messages = list(error.troubles)
        except (IntakeError, ChoiceError, OutputError) as error:
            messages = [str(error)]
        except Exception as error:
            # Whatever trips the program over one draft, the others are still to be proofed.
            reason = f"{type(error).__name__}: {error}".rstrip(": ")
            messages = [f"{path} could not be proofed through a mistake in Rowcall itself ({reason})"]
        self._failed = True
        if progress is not None:
            progress.wipe()
        for message in messages:
            self._complain(one_line(message))
        return None
