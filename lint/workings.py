"""What working a pattern gives: for each round and size what it uses, what it makes, the count and how sure that is.

Only numbers and spans; no words of the draft. Rules and reports read these values.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from .draft import Span


class Standing(Enum):
    """How a round stands after working."""

    AGREES = "agrees"
    DIFFERS = "differs"
    UNSTATED = "unstated"
    UNREAD = "unread"


class Deed(Enum):
    """What a line of the sum is about."""

    WORK = "work"
    SKIP = "skip"
    CHAIN = "chain"  # a chain that counts as a stitch
    REPEAT = "repeat"  # a group worked `times` times
    LEAVE = "leave"
    EVENLY = "evenly"


@dataclass(frozen=True, slots=True)
class Item:
    """One line of the sum for one size: the words of `span`, worked `times` times.

    `uses` and `makes` are for one time. `left` is set on a repeat that runs to the end and doesn't come out even:
    the stitches that are left over after the last whole one.
    """

    deed: Deed
    span: Span
    times: int
    uses: int
    makes: int
    left: int | None = None
    to_end: bool = False


@dataclass(frozen=True, slots=True)
class SizeWorking:
    """One round worked for one size.

    `before` is the count on the row below (None where the round starts a piece or the row below isn't known).
    `used` are the places taken of it, `count` what is there after the round; both None where it was not worked.
    `left` are places not used though nothing says so, `short` places wanted beyond the end. `stated` is the
    draft's own count. `kinds` are the stitches made by kind, in order of first use. `rounds` is how many rounds
    were worked (more than one for a range or a repeat of rounds). `lengths` are the spaces by their length in chains:
    pairs of length and number. `sure` is False where the row below was taken
    from a stated count or the words allow for more than one reading.
    """

    before: int | None
    used: int | None
    count: int | None
    stated: int | None = None
    left: int = 0
    short: int = 0
    kinds: tuple[tuple[str, int], ...] = ()
    spaces: int = 0
    items: tuple[Item, ...] = ()
    rounds: int = 1
    sure: bool = True
    lengths: tuple[tuple[int, int], ...] = ()
    agrees: bool | None = None  # None where nothing is stated or nothing was worked


@dataclass(frozen=True, slots=True)
class RoundWorking:
    """A round with all its sizes; None for a size that doesn't work it.

    `index` is the round's index in the pattern. `reason` says why it was not worked (standing unread). `readings`
    are the keys of the ways in which ambiguous words were taken here ("ch-3-counts", "times-more", ...), each with
    whether that reading holds. `resumed` is True where the count after it was taken from the draft, because the
    following rounds go by that.
    """

    index: int
    sizes: tuple[SizeWorking | None, ...]
    standing: Standing
    unit: str = "sts"
    reason: str | None = None
    readings: tuple[tuple[str, bool], ...] = ()
    resumed: bool = False
    words: Span | None = None  # the words that were not understood, where that is the reason
    covers: tuple[int, ...] = ()  # indices of the rounds that a directive worked again


@dataclass(frozen=True, slots=True)
class Reading:
    """How an ambiguous convention was taken over a stretch of rounds, and why.

    `agree` and `otherwise` are the stated counts that agree with the reading taken and with its opposite. `said`
    is True where the draft settles it in words. `mends` are the indices of the rounds whose stated counts would agree
    only under the opposite.
    """

    key: str
    holds: bool
    section: int
    agree: int
    otherwise: int
    said: bool = False
    mends: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Slip:
    """A single small change after which a round agrees for all sizes: the figure at `span` becomes `to`.

    `round` is the round's index in the pattern. Where the span holds a list, `size` tells whose figure changes.
    """

    round: int
    span: Span
    value: int
    to: int
    size: int | None = None


@dataclass(frozen=True, slots=True)
class Workings:
    """The whole pattern worked: one entry a round, in the pattern's order."""

    rounds: tuple[RoundWorking, ...]
    readings: tuple[Reading, ...] = ()
    slips: tuple[Slip, ...] = ()  # candidates for a likely slip, for the rounds that differ
