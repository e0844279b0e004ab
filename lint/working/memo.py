"""Memo: what was worked once isn't worked again.

A pattern is worked several times over: under each answer to its open questions, in repeats of rounds, and ahead of a
difference to see what the following rounds support. The same words on the same row under the same answers make the
same, so each result is kept with the questions that it asked and the answers it was given.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Any, TypeVar

_Result = TypeVar("_Result")
Answer = Callable[[str, bool], bool]  # a question's key and its usual answer, to the answer that holds
Asked = dict[str, tuple[bool, bool]]  # a question's key, to its usual answer and the one given


@dataclass(frozen=True, slots=True)
class Kept:
    """A result, or the error that came instead, and what was asked on the way."""

    asked: Asked
    result: Any
    error: Exception | None

    def again(self) -> Any:
        """Return the result, or raise the error, as it came the first time."""
        if self.error is not None:
            raise self.error
        return self.result


@dataclass(slots=True)
class Memo:
    """Results by what they depend on besides answers. `under` are the questions asked in each call now open."""

    kept: dict[Hashable, list[Kept]] = field(default_factory=dict[Hashable, list[Kept]])
    open: list[Asked] = field(default_factory=list[Asked])

    def asked(self, key: str, usual: bool, answer: bool) -> None:
        """Note a question that came up in the calls now open."""
        if self.open:
            self.open[-1][key] = (usual, answer)

    def find(self, key: Hashable, answer: Answer) -> Kept | None:
        """Return what is kept under a key and came under the same answers, None where nothing is.

        `answer` gives the present answer to a question and notes that it came up.
        """
        for one in self.kept.get(key, ()):
            if all(answer(question, usual) is given for question, (usual, given) in one.asked.items()):
                return one
        return None

    def once(
        self, key: Hashable, answer: Answer, run: Callable[[], _Result], errors: tuple[type[Exception], ...]
    ) -> Kept:
        """Return what is kept under a key and the same answers; what `run` returns or raises where nothing is yet."""
        found = self.find(key, answer)
        if found is not None:
            return found
        self.open.append({})
        result: Any = None
        error: Exception | None = None
        try:
            result = run()
        except errors as raised:
            error = raised
        asked = self.open.pop()
        if self.open:
            self.open[-1].update(asked)
        one = Kept(asked, result, error)
        self.keep(key, one)
        return one

    def keep(self, key: Hashable, one: Kept) -> None:
        """Keep a result under a key, or under another one as well."""
        self.kept.setdefault(key, []).append(one)
