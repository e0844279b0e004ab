"""References: which rounds a repeat of rounds means, and how many a heading covers."""

from __future__ import annotations

from ..pattern import Pattern, RepeatRounds, Round

MOST_ROUNDS = 600


def covered(round_: Round, size: int) -> int:
    """Return how many rounds a heading covers for a size."""
    if round_.listed:
        return len(round_.listed)
    first = round_.first.at(size) if round_.first else None
    last = round_.last.at(size) if round_.last else None
    if first is None or last is None or last < first:
        return 1
    return min(last - first + 1, MOST_ROUNDS)


def find_round(pattern: Pattern, before: int, number: int, section: int | None = None) -> int | None:
    """Return the index of the nearest earlier round with a number, in the same section if it is there."""
    own = pattern.rounds[before].section if section is None else section
    best: int | None = None
    for index in range(before - 1, -1, -1):
        round_ = pattern.rounds[index]
        if round_.first is None:
            continue
        for size in range(len(round_.first.values)):
            first, last = round_.first.values[size], (round_.last or round_.first).values[size]
            if first is not None and last is not None and first <= number <= last:
                if round_.section == own:
                    return index
                if best is None:
                    best = index
    return best


def targets_of(pattern: Pattern, index: int, what: RepeatRounds) -> tuple[int, ...]:
    """Return the indices of the rounds that a repeat of rounds means, in order; empty where one is missing."""
    if what.first is not None:
        last = what.last if what.last is not None else what.first
        found: list[int] = []
        for number in range(what.first, min(last, what.first + 100) + 1):
            one = find_round(pattern, index, number)
            if one is None:
                return ()
            found.append(one)
        return tuple(found)
    if what.back is None:
        return ()
    earlier = [
        n
        for n in range(index)
        if pattern.rounds[n].section == pattern.rounds[index].section and not pattern.rounds[n].foundation
    ]
    return tuple(earlier[-what.back :]) if len(earlier) >= what.back else ()
