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
class _Kept:
    """A result, or the error that came instead, and what was asked on the way."""

    asked: Asked
    result: object
    error: Exception | None


@dataclass(slots=True)
class Memo:
    """Results by what they depend on besides answers. `under` are the questions asked in each call now open."""

    kept: dict[Hashable, list[_Kept]] = field(default_factory=dict[Hashable, list[_Kept]])
    open: list[Asked] = field(default_factory=list[Asked])

    def asked(self, key: str, usual: bool, answer: bool) -> None:
        """Note a question that came up in the calls now open."""
        if self.open:
            self.open[-1][key] = (usual, answer)

    def once(
        self, key: Hashable, answer: Answer, run: Callable[[], _Result], errors: tuple[type[Exception], ...]
    ) -> _Result:
        """Return what `run` returned or raised before for this key under the same answers; run it if it never did.

        `answer` gives the present answer to a question and notes that it came up.
        """
        entries = self.kept.get(key)
        if entries is None:
            entries = self.kept[key] = []
        for one in entries:
            if all(answer(question, usual) is given for question, (usual, given) in one.asked.items()):
                return self._again(one)
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
        one = _Kept(asked, result, error)
        entries.append(one)
        return self._again(one)

    @staticmethod
    def _again(one: _Kept) -> Any:
        if one.error is not None:
            raise one.error
        return one.result
