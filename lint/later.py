"""Later: patterns that are compiled when they are first used, as a call needs few of the hundreds that there are."""

from __future__ import annotations

import re
from typing import cast

_WHAT_IT_HAS = ("search", "match", "fullmatch", "split", "findall", "finditer", "sub", "subn", "flags", "groupindex")


class _Later:
    """A pattern to be. It takes on all that a compiled one has when it is first asked for any of it."""

    def __init__(self, pattern: str, flags: int) -> None:
        self.pattern = pattern
        self._flags = flags

    def __getattr__(self, name: str) -> object:
        compiled = re.compile(self.pattern, self._flags)
        self.__dict__.update((own, getattr(compiled, own)) for own in _WHAT_IT_HAS)
        return getattr(compiled, name)


def later(pattern: str, flags: int = 0) -> re.Pattern[str]:
    """Return what can be used as the compiled pattern, and is compiled when it is."""
    return cast("re.Pattern[str]", _Later(pattern, flags))
