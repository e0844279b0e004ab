"""Several drafts in one call: each is proofed on its own, and one that fails doesn't spoil the others."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from .answers import Answer, Wanted, answer, guarded
from .progress import Progress

if TYPE_CHECKING:
    from .proof import Proof

CLEAN, FOUND, FAILED = 0, 1, 2  # exit statuses

_Result = TypeVar("_Result")


class Batch:
    """The drafts of one call, and what they come to for the exit status.

    `paths` are files, folders and `-` for standard input, as the user gave them. `complain` is given one sentence for
    each draft that fails. `processes` is how many work at once, None to go by the cores and the amount of text;
    with `fresh`, no answer kept from an earlier call is used.
    """

    def __init__(
        self,
        paths: Sequence[str],
        *,
        complain: Callable[[str], None],
        processes: int | None = None,
        fresh: bool = False,
    ) -> None:
        self._paths = paths
        self._complain = complain
        self._processes = processes
        self._fresh = fresh
        self._failed = False
        self._worst: dict[str, int] = {}  # by the level that fails in the house of the draft
        self._listed: list[str] | None = None

    def drafts(self) -> list[str]:
        """Return the drafts of the call, those of a folder in the order of their names."""
        if self._listed is None:
            self._listed = list(self._files())
        return self._listed

    def proofs(self) -> Iterator[Proof]:
        """Proof the drafts one by one and give their whole proofs."""
        for found in self.answers(Wanted(proof=True)):
            if found.proof is not None:
                yield found.proof

    def answers(self, wanted: Wanted) -> Iterator[Answer]:
        """Give what is wanted of each draft, in order, and say on a terminal how far it has come.

        A draft that fails is complained of and left out.
        """
        progress = Progress(len(self.drafts()))
        coming = self._answers(wanted)
        for path in self.drafts():
            progress.step(path)
            try:
                found = next(coming)
            finally:
                progress.wipe()
            if found.messages:
                self._say(found.messages)
                continue
            self._worst[found.limit] = max(self._worst.get(found.limit, 0), found.worst)
            yield found

    def report(self, path: str, make: Callable[[], _Result]) -> _Result | None:
        """Make a report of one draft or several; where that fails, say so and return None."""
        found, messages = guarded(path, make)
        self._say(messages)
        return found

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

    def _answers(self, wanted: Wanted) -> Iterator[Answer]:
        """Give the answer of every draft in order: one kept from before, or else a new one."""
        from .cache import Cache

        cache = Cache(wanted)
        keys = {path: cache.key(path) for path in self.drafts()} if not self._fresh else {}
        kept = {path: found for path, key in keys.items() if (found := cache.find(key, path)) is not None}
        left = [path for path in self.drafts() if path not in kept]
        new = self._new(left, wanted)
        for path in self.drafts():
            found = kept.get(path)
            if found is None:
                found = next(new)
                cache.keep(keys.get(path), found)
            yield found
        cache.trim()

    def _new(self, paths: Sequence[str], wanted: Wanted) -> Iterator[Answer]:
        """Work drafts, in several processes where that is worth it; standard input is for this one only."""
        if len(paths) > 1 and "-" not in paths:
            from .workers import in_parallel, processes_for

            if (number := processes_for(paths, self._processes)) > 1:
                yield from in_parallel(paths, wanted, number)
                return
        yield from (answer(path, wanted) for path in paths)

    def _files(self) -> Iterator[str]:
        from .intake import drafts_in

        for path in self._paths:
            if path != "-" and Path(path).is_dir():
                yield from map(str, self.report(path, partial(drafts_in, path)) or ())
            else:
                yield path

    def _say(self, messages: Sequence[str]) -> None:
        if not messages:
            return
        from ..reports.words import one_line

        self._failed = True
        for message in messages:
            self._complain(one_line(message))
