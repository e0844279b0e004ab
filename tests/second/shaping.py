"""Rounds that fit a row: increases, decreases, shells, lace and plain rounds, for one or several sizes at once."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce
from itertools import groupby
from math import gcd
from random import Random

from .instructions import (
    ChainSpace,
    Decrease,
    Figures,
    FromHook,
    Group,
    InEach,
    InEachSpace,
    InLastChain,
    InSpace,
    OtherSide,
    Part,
    Repeat,
    Skip,
    SkipSpace,
    Step,
    Stitches,
)
from .laying import Place, Row

Steps = tuple[Step, ...]


def plain(kind: str) -> Steps:
    """One stitch in each stitch."""
    return (InEach(kind),)


def oval(random: Random, kind: str, chains: Figures) -> Steps:
    """Make the round around both sides of a chain, from the 2nd chain from the hook."""
    one = _same(1, chains)
    first, turn, last = random.choice(((1, 3, 2), (1, 4, 1), (2, 4, 1), (2, 3, 2), (1, 3, 1)))
    middle = Stitches(kind, tuple(value - 3 for value in chains))
    end = Stitches(kind, one, each=last) if last > 1 else Stitches(kind, one, last=True)
    return (FromHook(kind, 2, first), middle, InLastChain(kind, turn), OtherSide(), middle, end)


def shaped(random: Random, kind: str, counts: Figures) -> Steps | None:
    """Make a round on a row of stitches without spaces; None where what was drawn doesn't fit."""
    way = random.choice(("repeat", "repeat", "repeat", "remainder", "explicit", "explicit", "double", "ends", "nested"))
    match way:
        case "repeat":
            return _repeated(random, kind, counts)
        case "remainder":
            return _with_remainder(random, kind, counts)
        case "explicit":
            return _explicit(random, kind, counts)
        case "double":
            return (InEach(kind, each=random.choice((2, 2, 2, 3))),)
        case "ends":
            return _at_the_end(random, kind, counts)
        case _:
            return _nested(random, kind, counts)


def _same(value: int, counts: Figures) -> Figures:
    return (value,) * len(counts)


def _divisors(number: int, least: int) -> list[int]:
    return [value for value in range(least, number + 1) if number % value == 0]


def _shared(counts: Figures) -> int:
    return reduce(gcd, counts)


def _special(random: Random, kind: str, room: int, counts: Figures) -> tuple[Steps, int]:
    """Make something that isn't a plain stitch and takes no more than `room` stitches; and how many it takes."""
    one = _same(1, counts)
    made: list[tuple[Steps, int]] = [
        ((Stitches(kind, one, each=2),), 1),
        ((Stitches(kind, one, each=2),), 1),
        ((Stitches(kind, one, each=3),), 1),
        ((Group((Part("dc", 2), Part("ch", 2), Part("dc", 2))),), 1),
        ((Group((Part(kind, 1), Part("ch", 1), Part(kind, 1))),), 1),
    ]
    if room >= 2:
        # the invisible decrease is one of single crochet; in other stitches a draft would have to explain it
        made += [((Decrease(kind, 2, one),), 2)] * 3 + [((Decrease(kind, 2, one, invisible=kind == "sc"),), 2)]
        made += [((ChainSpace(1), Skip(one)), 1), ((Stitches(kind, _same(2, counts), each=2),), 2)]
    if room >= 3:
        made += [((Decrease(kind, 3, one),), 3), ((ChainSpace(2), Skip(_same(2, counts))), 2)]
    if room >= 4:
        made += [((Decrease(kind, 2, _same(2, counts)),), 4)]
    if room >= 5:
        made += [((Skip(_same(2, counts)), Stitches("dc", one, each=5), Skip(_same(2, counts))), 5)]
    return random.choice(made)


def _body(random: Random, kind: str, units: Figures) -> Steps | None:
    """Make the body of a repeat that takes so many stitches a size."""
    special, takes = _special(random, kind, min(units), units)
    rest = tuple(value - takes for value in units)
    if not any(rest):
        return special if not isinstance(special[0], ChainSpace) else None
    if not all(rest):
        return None
    order = random.choice(("after", "before", "around"))
    if order == "around" and min(rest) >= 2:
        first = random.randint(1, min(rest) - 1)
        last = tuple(value - first for value in rest)
        return (Stitches(kind, _same(first, units)), *special, Stitches(kind, last))
    plain_ones = Stitches(kind, rest)
    return (*special, plain_ones) if order == "before" else (plain_ones, *special)


def _repeated(random: Random, kind: str, counts: Figures) -> Steps | None:
    """Make one repeat that takes the whole row: as often in each size, or as wide."""
    shared = _divisors(_shared(counts), 2)
    if not shared:
        return None
    drawn = random.choice(shared)
    others = tuple(count // drawn for count in counts)
    units, times = (_same(drawn, counts), others) if random.randint(0, 1) else (others, _same(drawn, counts))
    if min(units) < 1 or max(units) > 60 or min(times) < 2:
        return None
    body = _body(random, kind, units)
    if body is None:
        return None
    return (Repeat(body, times if random.randint(0, 1) else None),)


def _with_remainder(random: Random, kind: str, counts: Figures) -> Steps | None:
    """Make a repeat to the last few stitches, and what is worked in those."""
    unit = random.randint(2, 8)
    if min(counts) < 2 * unit + 1:
        return None
    rest = tuple(count % unit or unit for count in counts)
    body = _body(random, kind, _same(unit, counts))
    if body is None:
        return None
    if set(rest) == {1} and random.randint(0, 1):
        end: Step = Stitches(kind, rest, each=2)
    else:
        end = Stitches(kind, rest, last=True)
    if random.randint(0, 2):
        return (Repeat(body, None, leave=rest), end)
    times = tuple((count - left) // unit for count, left in zip(counts, rest, strict=True))
    return (Repeat(body, times), end) if min(times) > 1 else None


def _explicit(random: Random, kind: str, counts: Figures) -> Steps | None:
    """Make a round in a few steps without a repeat, the last of which takes the rest."""
    steps: list[Step] = []
    left = counts
    for _ in range(random.randint(1, 3)):
        if min(left) > 2 and random.randint(0, 2):
            by = random.randint(0, 2)
            some = random.randint(1, max(1, min(left) // 2))
            number = tuple(min(some + by * size, rest - 1) for size, rest in enumerate(left))
            steps.append(Stitches(kind, number))
            left = tuple(a - b for a, b in zip(left, number, strict=True))
        special, takes = _special(random, kind, min(left), counts)
        if takes >= min(left) or (not steps and isinstance(special[0], ChainSpace)):
            continue
        steps.extend(special)
        left = tuple(value - takes for value in left)
    if not steps:
        return None
    if random.randint(0, 1):
        return (*_merged(steps), InEach(kind))
    return _merged((*steps, Stitches(kind, left, last=random.randint(0, 1) == 1)))


def _merged(steps: Sequence[Step]) -> Steps:
    """Make one run of stitches of two that follow each other."""
    merged: list[Step] = []
    for step in steps:
        before = merged[-1] if merged else None
        if isinstance(step, Stitches) and isinstance(before, Stitches) and step.each == before.each == 1:
            number = tuple(a + b for a, b in zip(before.number, step.number, strict=True))
            merged[-1] = Stitches(step.kind, number, last=step.last)
        else:
            merged.append(step)
    return tuple(merged)


def _at_the_end(random: Random, kind: str, counts: Figures) -> Steps | None:
    """Make a plain round with something in its last stitches: it fits again and again."""
    one = _same(1, counts)
    if min(counts) < 6:
        return None
    ends: tuple[tuple[Steps, int], ...] = (
        ((Decrease(kind, 2, one),), 2),
        ((Stitches(kind, one, each=2),), 1),
        ((Decrease(kind, 3, one),), 3),
        ((Stitches(kind, one), Decrease(kind, 2, one)), 3),
    )
    end, takes = random.choice(ends)
    return (InEach(kind, leave=_same(takes, counts)), *end)


def _nested(random: Random, kind: str, counts: Figures) -> Steps | None:
    """Make a repeat that holds another."""
    inner_times = random.randint(2, 3)
    inner_unit = random.randint(1, 3)
    inner = _body(random, kind, _same(inner_unit, counts))
    more = random.randint(1, 5)
    unit = inner_times * inner_unit + more
    if inner is None or _shared(counts) % unit or min(counts) < 2 * unit:
        return None
    repeat = Repeat(inner, _same(inner_times, counts))
    rest = Stitches(kind, _same(more, counts))
    body = (repeat, rest) if random.randint(0, 1) else (rest, repeat)
    return (Repeat(body, tuple(count // unit for count in counts) if random.randint(0, 1) else None),)


# ---------------------------------------------------------------- rows that have spaces


def over_spaces(random: Random, kind: str, rows: Sequence[Row]) -> Steps | None:
    """Make a round on rows that have chain spaces; None where what was drawn doesn't fit."""
    sizes = {place.chains for row in rows for place in row if place.is_space}
    if len(sizes) != 1:
        return _by_the_row(random, kind, rows) if random.randint(0, 1) else None
    chains = sizes.pop()
    match random.choice(("spaces", "each", "each", "row", "row", "row")):
        case "spaces":
            return (InEachSpace(_parts(random, kind, chains), chains),)
        case "each":
            return (InEach(kind, in_space=random.randint(1, 3), chains=chains),)
        case _:
            return _by_the_row(random, kind, rows)


def _parts(random: Random, kind: str, chains: int) -> tuple[Part, ...]:
    """Make what goes into one space."""
    groups = (
        (Part(kind, chains),),
        (Part(kind, random.randint(1, 5)),),
        (Part(kind, 3),),
        (Part("dc", 2), Part("ch", 2), Part("dc", 2)),
        (Part(kind, 1), Part("ch", chains), Part(kind, 1)),
    )
    return random.choice(groups)


def _by_the_row(random: Random, kind: str, rows: Sequence[Row]) -> Steps | None:
    """Go along the row as it is: so many stitches, what goes into the space, and over again."""
    bars = [repeating(row) for row in rows]
    shapes = {tuple((place.kind == "space", place.chains) for place, _ in bar) for bar, _ in bars}
    if len(shapes) != 1:
        return None
    body: list[Step] = []
    for column in zip(*(bar for bar, _ in bars), strict=True):
        place = column[0][0]
        number = tuple(length for _, length in column)
        if place.is_space:
            for _ in range(number[0]):
                body.extend(_in_one_space(random, kind, place.chains))
        else:
            body.append(Stitches(kind, number))
    times = tuple(often for _, often in bars)
    if len(body) > 7 or min(times) < 2:
        return None
    return (Repeat(tuple(body), times if random.randint(0, 1) else None),)


def _in_one_space(random: Random, kind: str, chains: int) -> Steps:
    if random.randint(0, 3) == 3:
        return (ChainSpace(chains), SkipSpace(chains))
    return (InSpace(_parts(random, kind, chains), chains),)


def repeating(row: Row) -> tuple[list[tuple[Place, int]], int]:
    """Return the shortest stretch that a row repeats, in runs of like places, and how often it stands there.

    Stitches are alike whatever their kind.
    """
    plain_row = [place if place.is_space else Place("st") for place in row]
    length = next(n for n in _divisors(len(row), 1) if plain_row == plain_row[:n] * (len(row) // n))
    runs = [(place, len(list(run))) for place, run in groupby(plain_row[:length])]
    return runs, len(row) // length
