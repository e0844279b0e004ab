"""The fabric: a row of places kept run-length encoded, a cursor that takes places from it, a row being made.

A place is a stitch of a kind, a chain space, or a link of a chain. A row is a sequence of segments, each a short
pattern of places repeated, so that a round costs what its instructions cost and not what its stitches number.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from ..steps import Chain
from .spots import LINK, Segment, Spot, links, no_longer_opening, spot_of, turned


@dataclass(frozen=True, slots=True)
class Edge:
    """How a row of a flat piece begins and ends.

    `counted` tells whether the chain that it begins with stands for a stitch, None where it has none. `hung` is the
    chain made at its end for the next row, `turned` is True where the next row is worked back over it, `open` where
    its ends are not joined. `held` are stitches of an earlier row that wait, as they are met from where it stopped.
    """

    counted: bool | None = None
    hung: Chain | None = None
    turned: bool = False
    open: bool = False
    held: Fabric | None = None


PLAIN_EDGE = Edge()


class Fabric:
    """A finished row. `ring` is True for a ring, which holds any number of stitches.

    `stitches` are all places but spaces (stitches or links), `spaces` the chain spaces; a row is never changed.
    `behind` are stitches besides, left unworked at a turn: the next row goes away from them. `marks` are the markers,
    each by the number of stitches before it; less than nought among those left behind.
    """

    __slots__ = ("_hash", "behind", "edge", "marks", "ring", "segments", "spaces", "stitches")

    def __init__(
        self,
        segments: tuple[Segment, ...] = (),
        ring: bool = False,
        edge: Edge = PLAIN_EDGE,
        behind: int = 0,
        marks: tuple[int, ...] = (),
    ) -> None:
        self.segments = segments
        self.ring = ring
        self.edge = edge
        self.behind = behind
        self.marks = marks
        stitches, spaces = behind, 0
        for part in segments:
            stitches += part.times * part.stitches
            spaces += part.times * part.spaces
        self.stitches = stitches
        self.spaces = spaces
        self._hash: int | None = None

    def __eq__(self, other: object) -> bool:
        return (
            isinstance(other, Fabric)
            and self.ring is other.ring
            and self.segments == other.segments
            and self.edge == other.edge
            and self.behind == other.behind
            and self.marks == other.marks
        )

    def __hash__(self) -> int:
        if self._hash is None:
            self._hash = hash((self.segments, self.ring, self.edge, self.behind, self.marks))
        return self._hash

    def __repr__(self) -> str:
        return f"Fabric(segments={self.segments!r}, ring={self.ring!r})"

    def back(self) -> Fabric:
        """Return the row as it is met when it is worked back over."""
        segments = tuple(
            Segment(tuple(map(turned, reversed(part.spots))), part.times) for part in reversed(self.segments)
        )
        return Fabric(segments, self.ring, replace(self.edge, turned=False))

    def whole(self) -> Fabric:
        """Return the row with the stitches that a turn left behind in reach again."""
        if not self.behind:
            return self
        before = self.stitches - self.behind
        marks = tuple(sorted(mark if mark >= 0 else before - mark for mark in self.marks))
        return Fabric((*self.segments, Segment((spot_of("st"),), self.behind)), self.ring, marks=marks)

    def spelled(self) -> Fabric:
        """Return the row with every chain of its spaces a place by itself."""
        spots = [
            (tuple(one for spot in part.spots for one in links(spot)), part.times)
            for part in self.segments
            if part.spots
        ]
        return Fabric(tuple(Segment(every, times) for every, times in spots), self.ring, self.edge)

    def space_sizes(self) -> set[int]:
        """Return the lengths in chains of the spaces it has."""
        return {spot.size for part in self.segments if part.spaces for spot in part.spots if spot.is_space}

    @property
    def chains(self) -> int:
        """The chains of all spaces together."""
        return sum(
            part.times * sum(spot.size for spot in part.spots if spot.is_space) for part in self.segments if part.spaces
        )

    def count(self, match: Match) -> int:
        """Count the places of a kind."""
        return sum(part.times * sum(map(match, part.spots)) for part in self.segments)

    @property
    def is_chain(self) -> bool:
        """Whether it is a foundation chain, into whose links stitches go."""
        return any(spot.kind == LINK for part in self.segments for spot in part.spots)

    def kinds(self, *, outside: bool = False) -> tuple[tuple[str, int], ...]:
        """Count the stitches by kind, in order of first use; only those outside groups where that is asked."""
        found: dict[str, int] = {}
        for part in self.segments:
            for spot in part.spots:
                if not spot.is_space and not (outside and spot.group):
                    found[spot.kind] = found.get(spot.kind, 0) + part.times
        return tuple(found.items())


Match = Callable[[Spot], bool]


def plain(kind: str, number: int) -> Fabric:
    """Return a row of one kind of stitch."""
    return Fabric((Segment((spot_of(kind),), number),) if number else ())


@dataclass(slots=True)
class Cursor:
    """A place in a row: everything before it has been taken or passed."""

    fabric: Fabric
    index: int = 0  # of the segment
    done: int = 0  # places passed in that segment

    def left(self) -> int:
        """Count the stitches that are left."""
        return self._left(spaces=False)

    def spaces_left(self) -> int:
        """Count the spaces that are left."""
        return self._left(spaces=True)

    def _left(self, *, spaces: bool) -> int:
        total = 0
        done = self.done
        for part in self.fabric.segments[self.index :]:
            each = part.spaces if spaces else part.stitches
            total += part.times * each
            if done:
                whole, rest = divmod(done, len(part.spots))
                total -= whole * each + sum(spot.is_space is spaces for spot in part.spots[:rest])
                done = 0
        return total

    def spaces_ahead(self) -> dict[int, int]:
        """Count the spaces that are left, by their length in chains."""
        found: dict[int, int] = {}
        done = self.done
        for part in self.fabric.segments[self.index :]:
            if part.spaces:
                whole, rest = divmod(done, len(part.spots))
                for at, spot in enumerate(part.spots):
                    if spot.is_space:
                        found[spot.size] = found.get(spot.size, 0) + part.times - whole - (at < rest)
            done = 0
        return {size: number for size, number in found.items() if number}

    def take(self, number: int) -> int:
        """Pass `number` stitches and the spaces among them; return how many were wanting."""
        segments = self.fabric.segments
        if self.index < len(segments):
            part = segments[self.index]
            if part.stitches == 1 and not part.spaces and self.done + number < part.times:
                # within a plain stretch, as nearly always
                self.done += number
                return 0
        return self._take(number, spaces=False)

    def take_spaces(self, number: int) -> int:
        """Pass `number` spaces and the stitches among them; return how many were wanting."""
        return self._take(number, spaces=True)

    def take_spots(self, number: int) -> int:
        """Pass `number` places of whatever kind; return how many were wanting."""
        while number > 0 and self.index < len(self.fabric.segments):
            part = self.fabric.segments[self.index]
            step = min(number, part.length - self.done)
            self._move(part, step)
            number -= step
        return number

    def _move(self, part: Segment, step: int) -> None:
        self.done += step
        if self.done >= part.times * len(part.spots):
            self.index += 1
            self.done = 0

    def _take(self, number: int, *, spaces: bool) -> int:
        segments = self.fabric.segments
        while number > 0 and self.index < len(segments):
            part = segments[self.index]
            width = len(part.spots)
            each = part.spaces if spaces else part.stitches
            if width == 1 and each:
                step = min(number, part.times - self.done)
                number -= step
                self._move(part, step)
                continue
            offset = self.done % width
            if offset == 0:
                whole = part.times - self.done // width
                # the last place wanted is taken one by one, so that nothing behind it is passed as well
                passes = whole if each == 0 else min(whole, (number - 1) // each if width > 1 else number)
                if passes:
                    number -= passes * each
                    self._move(part, passes * width)
                    continue
            spot = part.spots[offset]
            number -= spot.is_space is spaces
            self._move(part, 1)
        return number

    def rest(self) -> tuple[Segment, ...]:
        """Return the places that are left."""
        segments = self.fabric.segments[self.index :]
        if not segments or not self.done:
            return segments
        first = segments[0]
        whole, within = divmod(self.done, len(first.spots))
        begun = (Segment(first.spots[within:], 1),) if within else ()
        full = first.times - whole - bool(within)
        return (*begun, *((Segment(first.spots, full),) if full else ()), *segments[1:])

    def begins_run(self) -> bool:
        """Tell whether a stretch of stitches between two spaces begins here."""
        if not self.index and not self.done:
            return True
        if self.done:
            part = self.fabric.segments[self.index]
            return part.spots[(self.done - 1) % len(part.spots)].is_space
        return self.fabric.segments[self.index - 1].spots[-1].is_space

    def from_space(self, size: int | None = None) -> Cursor:
        """Return a cursor before the next space of a closed round, of a size where one is asked for.

        What is passed so lies at the round's end.
        """
        ahead = self.copy()
        for spot in self.ahead():
            if spot.is_space and size in (None, spot.size):
                break
            ahead.take_spots(1)
        passed = ahead.places_before()
        rest = ahead.rest()
        if not rest or not passed:
            return ahead
        if rest[0].spots[0].group and not rest[0].spots[0].opens:
            passed = no_longer_opening(passed)  # the group that it lies in begins with the space from now on
        return Cursor(Fabric((*rest, *passed), self.fabric.ring, self.fabric.edge, marks=self.fabric.marks))

    def places_before(self) -> tuple[Segment, ...]:
        """Return the places that have been taken or passed."""
        segments = self.fabric.segments
        if not self.done:
            return segments[: self.index]
        part = segments[self.index]
        whole, within = divmod(self.done, len(part.spots))
        full = (Segment(part.spots, whole),) if whole else ()
        return (*segments[: self.index], *full, *((Segment(part.spots[:within], 1),) if within else ()))

    def links_ahead(self) -> int:
        """Count the links of a chain that come next, before any stitch."""
        total = 0
        for part in self.rest():
            if any(spot.kind != LINK for spot in part.spots):
                break
            total += part.length
        return total

    def count(self, match: Match) -> int:
        """Count the places of a kind that are left."""
        total, done = 0, self.done
        for part in self.fabric.segments[self.index :]:
            each = sum(map(match, part.spots))
            total += part.times * each
            if done:
                whole, rest = divmod(done, len(part.spots))
                total -= whole * each + sum(map(match, part.spots[:rest]))
                done = 0
        return total

    def seek(self, match: Match) -> Spot | None:
        """Pass places up to and with the next of a kind, and return it; stand at the end where there is none."""
        segments = self.fabric.segments
        while self.index < len(segments):
            part = segments[self.index]
            width = len(part.spots)
            offset = self.done % width
            at = next((n for n in range(width) if match(part.spots[(offset + n) % width])), None)
            if at is None or self.done + at >= part.length:
                self.index, self.done = self.index + 1, 0
                continue
            found = part.spots[(offset + at) % width]
            self._move(part, at + 1)
            return found
        return None

    def ahead(self) -> Iterator[Spot]:
        """Yield the places that are left, one by one."""
        done = self.done
        for part in self.fabric.segments[self.index :]:
            for place in range(done, part.length):
                yield part.spots[place % len(part.spots)]
            done = 0

    def copy(self) -> Cursor:
        """Return another cursor at the same place."""
        return Cursor(self.fabric, self.index, self.done)

    def passes_ahead(self, before: Cursor, *, sought: bool = False) -> tuple[int, int] | None:
        """Tell how a pass that began at `before` may be continued at once.

        Returns the number of places a pass moves and how many whole passes more are alike, None where that can't be
        told. In a row without spaces one place is as good as another; in a row with spaces a pass must have come to
        the same point of the pattern of its segment, and those in that segment are alike; so must a pass that `sought`
        places by their kind or group.
        """
        if before.fabric is self.fabric and not self.fabric.spaces and not sought:
            left = self.left()
            moved = before.left() - left
            return (moved, left // moved) if moved > 0 else None
        if before.index != self.index or not self.fabric.segments[self.index :]:
            return None
        part = self.fabric.segments[self.index]
        moved = self.done - before.done
        if moved <= 0 or moved % len(part.spots):
            return None
        return moved, (part.length - self.done) // moved


@dataclass(slots=True)
class Row:
    """A row being made."""

    segments: list[Segment] = field(default_factory=list[Segment])

    def add(self, spot: Spot, number: int = 1) -> None:
        """Add places of one kind."""
        if number <= 0:
            return
        if self.segments:
            last = self.segments[-1]
            if len(last.spots) == 1 and (last.spots[0] is spot or last.spots[0] == spot):
                self.segments[-1] = Segment(last.spots, last.times + number)
                return
        self.segments.append(Segment((spot,), number))

    def drop(self, number: int) -> int:
        """Take away the last places made, as stitches passed over are; return how many were wanting."""
        while number > 0 and self.segments:
            last = self.segments.pop()
            kept = max(0, last.length - number)
            number -= last.length - kept
            whole, rest = divmod(kept, len(last.spots))
            if whole:
                self.segments.append(Segment(last.spots, whole))
            for spot in last.spots[:rest]:
                self.add(spot)
        return number

    @property
    def has_stitches(self) -> bool:
        """Whether any stitch has been made."""
        return any(part.stitches for part in self.segments)

    def extend(self, segments: Iterable[Segment], times: int = 1) -> None:
        """Add a stretch of segments, `times` over."""
        stretch = tuple(segments)
        if not stretch or times <= 0:
            return
        if times == 1 or (len(stretch) == 1 and len(stretch[0].spots) == 1):
            for part in stretch:
                if len(part.spots) == 1:
                    self.add(part.spots[0], part.times * times)
                else:
                    self.segments.extend([part] * times)
            return
        if sum(part.length for part in stretch) <= 400:
            spots = tuple(spot for part in stretch for _ in range(part.times) for spot in part.spots)
            if len(set(spots)) == 1:
                self.add(spots[0], len(spots) * times)
            else:
                self.segments.append(Segment(spots, times))
            return
        for _ in range(min(times, 2000)):
            self.extend(stretch)

    def done(self) -> Fabric:
        """Return the finished row."""
        return Fabric(tuple(self.segments))


def stitches_of(segments: Sequence[Segment]) -> int:
    """Count the stitches of a stretch of segments."""
    return sum(part.times * part.stitches for part in segments)
