"""Gaps: the numbers left out of a numbering, kept as runs so that a gap costs no more the wider it is."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from .numbering import Part, declared

_MOST_NAMED = 6


def missing_between(part: Part, low: int, high: int, size: int, named: Sequence[int] = ()) -> tuple[range, ...]:
    """Return the numbers from low to high that nothing accounts for, as runs in order.

    A number is accounted for where it is written for any size, declared, spoken of, or one of those `named`.
    """
    accounted = part.accounted(size)
    known = accounted[bisect_left(accounted, low) : bisect_right(accounted, high)]
    if named:
        known = sorted({*known, *(number for number in named if low <= number <= high)})
    found: list[range] = []
    start = low
    for number in (*known, high + 1):
        if start < number:
            found.extend(_undeclared(part, start, number, size))
        start = number + 1
    return tuple(found)


def unaccounted(part: Part, numbers: Iterable[int], size: int) -> list[int]:
    """Return those of a few numbers that nothing accounts for."""
    return [number for number in numbers if missing_between(part, number, number, size)]


def how_many(runs: Sequence[range]) -> int:
    """Count the numbers of all runs."""
    return sum(len(run) for run in runs)


def _undeclared(part: Part, start: int, end: int, size: int) -> Iterator[range]:
    """Yield what no declaration covers of the numbers from start up to end.

    A declaration goes by odd and even between its first number and its last, so that between two such bounds one
    number of each kind speaks for all.
    """
    cuts = sorted({start, end, *(cut for cut in _bounds(part, size) if start < cut < end)})
    for low, high in pairwise(cuts):
        open_ = [number for number in range(low, min(low + 2, high)) if not declared(part, number, size)]
        if len(open_) == min(2, high - low):
            yield range(low, high)
        else:
            yield from (range(number, high, 2) for number in open_)


def _bounds(part: Part, size: int) -> Iterator[int]:
    """Yield the numbers at which a declaration may begin or cease to hold."""
    own = [round_.first.at(size) for round_ in part.declaring if round_.first]
    notes = [*part.case.pattern.elisions, *(round_.elided for round_ in part.declaring if round_.elided)]
    for number in (*own, *(note.first for note in notes), *(note.last for note in notes)):
        if number is not None:
            yield from (number, number + 1)


def are_missing(word: str, runs: Sequence[range]) -> str:
    """Say which numbers are missing: one by one where they are few, else the first and last of each run or of all."""
    number = how_many(runs)
    first, last = runs[0][0], runs[-1][-1]
    if number == 1:
        return f"{word} {first} is missing"
    if last - first + 1 == number > 2:
        return f"{word}s {first}-{last} are missing"
    each = [str(one) for run in runs for one in run] if number <= _MOST_NAMED else [_span(run) for run in runs]
    if len(each) > _MOST_NAMED or any(run.step > 1 for run in runs if number > _MOST_NAMED):
        return f"{number} {word}s from {first} to {last} are missing"
    return f"{word}s {', '.join(each[:-1])} and {each[-1]} are missing"


def _span(run: range) -> str:
    return str(run[0]) if len(run) == 1 else f"{run[0]}-{run[-1]}"
