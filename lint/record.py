"""Record: a dataclass for values that are made by the thousand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeVar, dataclass_transform

_Made = TypeVar("_Made")


@dataclass_transform(frozen_default=True)
def record(made: type[_Made]) -> type[_Made]:
    """Make a class a dataclass with slots, whose values nobody may change.

    The type checker sees to that: a frozen dataclass would see to it each time a value is made, which takes three
    times as long, and most of the cost of reading a draft is in making values.
    """
    return dataclass(slots=True, unsafe_hash=True)(made)
