"""Record: a dataclass for values, quick to make."""

from __future__ import annotations

from dataclasses import dataclass, field, fields
from operator import attrgetter
from typing import Any, TypeVar, dataclass_transform

_Made = TypeVar("_Made")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(made: type[_Made]) -> type[_Made]:
    """Make a class a dataclass with slots, whose values nobody may change.

    The type checker sees to that: a frozen dataclass would see to it each time a value is made, which takes three
    times as long, and much of the cost of reading a draft is in making values. Equality, hash and representation are
    those of a dataclass, but are not written out and compiled for each class, which would slow every start.
    """
    whole: Any = dataclass(slots=True, eq=False, repr=False)(made)
    shown = tuple(one.name for one in fields(whole) if one.repr)
    compared = [one.name for one in fields(whole) if one.compare]
    values: Any = attrgetter(*compared) if compared else type(None)

    def equal(self: object, other: object) -> bool:
        return values(self) == values(other) if other.__class__ is self.__class__ else NotImplemented

    def hashed(self: object) -> int:
        return hash(values(self))

    def represented(self: object) -> str:
        return f"{whole.__qualname__}({', '.join(f'{name}={getattr(self, name)!r}' for name in shown)})"

    whole.__eq__, whole.__hash__, whole.__repr__ = equal, hashed, represented
    return whole
