"""Moves: values with all their spans moved: the same words have the same steps further on in a draft."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import fields, make_dataclass
from functools import cache
from operator import attrgetter
from typing import Any, TypeVar, cast

from .draft import Span

_Value = TypeVar("_Value")
# what the annotation of a field says where no span can be within
_WITHOUT_PLACE = frozenset(
    {"int", "bool", "str", "int | None", "bool | None", "str | None", "tuple[int, ...]", "tuple[int | None, ...]"}
    | {"tuple[tuple[str, int], ...]", "tuple[tuple[int, int], ...]", "Deed"}
    | {"At", "Count", "Target", "Target | None", "MarkTrouble", "ListStyle", "tuple[str, ...]"}
)


class Move:
    """A way by which spans within a stretch are moved; those outside of it stay."""

    __slots__ = ("_by", "_end", "_start")

    def __init__(self, stretch: Span, by: int) -> None:
        self._start = stretch.start
        self._end = stretch.end
        self._by = by

    def of(self, value: _Value) -> _Value:
        """Return a value with all its spans moved; the value itself where it has none."""
        if value is None:
            return value
        kind = type(value)
        if kind is Span:
            span = cast("Span", value)
            inside = self._start <= span.start and span.end <= self._end
            return cast("_Value", Span(span.start + self._by, span.end + self._by)) if inside else value
        if kind is tuple:
            return cast("_Value", tuple(map(self.of, cast("tuple[object, ...]", value)))) if value else value
        placed = _placed(kind)
        return placed(value, self.of) if placed is not None else value


@cache
def _placed(kind: type) -> Callable[[Any, Callable[[Any], Any]], Any] | None:
    """Return a function that makes a value of a class with its parts moved; None where none of them has a place."""
    if not hasattr(kind, "__dataclass_fields__"):
        return None
    every = fields(kind)
    moves = [part.name for part in every if str(part.type) not in _WITHOUT_PLACE]
    if not moves:
        return None
    names = [part.name for part in every]
    placed = [names.index(name) for name in moves]
    values = _getter(names)
    # a class with the same slots, whose values may be changed: they are made in a third of the time
    own = {"__doc__": kind.__doc__}
    twin: Any = make_dataclass(kind.__name__, names, slots=True, eq=False, repr=False, namespace=own)

    def made(value: Any, move: Callable[[Any], Any]) -> Any:
        parts = list(values(value))
        same = True
        for index in placed:
            old = parts[index]
            if old is not None:
                part = parts[index] = move(old)
                same = same and part is old
        if same:
            return value
        new = twin(*parts)
        new.__class__ = kind
        return new

    return made


def _getter(names: Sequence[str]) -> Callable[[Any], tuple[object, ...]]:
    whole = attrgetter(*names)
    return whole if len(names) > 1 else lambda value: (whole(value),)
