"""Steps: what a round tells the maker to do, where, and how often.

Reading makes these values and working works them. All are immutable.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from .draft import Span
from .figures import Figure

# ---------------------------------------------------------------- places


OF_NEEDLE = -1
CENTRE = -2


class At(Enum):
    """Where a stitch goes."""

    NEXT = "next"  # the next `number` places
    EACH = "each"  # every place to the end, but for the last `leave`
    SAME = "same"  # the place already used by the stitch before (or the one that the beginning chain stands on)
    FROM_HOOK = "from hook"  # the nth chain from the hook
    RING = "ring"
    POST_SAME = "post same"  # around the post of a stitch that is used already
    ROW_ENDS = "row ends"  # along an edge, or spread evenly: a number of stitches in all
    BETWEEN = "between"  # between stitches
    BEHIND = "behind"  # into an earlier row, a skipped stitch or a stitch behind: what it uses is not known


ANY_GROUP = "group"  # the name of a group of stitches that the draft gives no name


def group_name(term: str) -> str:
    """Return a group's name without blanks and signs, and without what marks it as the first of a round."""
    plain = "".join(char for char in term.lower() if char.isalnum() or char == " ")
    for lead in ("beginning ", "beg ", "first ", "starting "):
        plain = plain.removeprefix(lead)
    return plain.replace(" ", "")


@dataclass(frozen=True, slots=True)
class Target:
    """What kind of place a stitch goes into or a skip passes.

    `kinds` are stitch ids; empty for any stitch. `space` is True for a chain space; `size` is its number of
    chains where the draft says it. `also_spaces` is True for "each st and ch-1 sp". `group` names the group of stitches
    whose place is meant (a V-stitch's space, the gap between two shells), "group" for any; `nth` is the stitch of it:
    1 the first, -1 the last, 0 the one in the middle. `corner` is True for the space of a corner, the longest of a row.
    """

    kinds: tuple[str, ...] = ()
    space: bool = False
    size: int | None = None
    also_spaces: bool = False
    chain: bool = False  # a link of a chain
    group: str = ""
    nth: int | None = None
    corner: bool = False


@dataclass(frozen=True, slots=True)
class Where:
    """A place or places; see `At`. `number` counts them, `last` says that they are the last of the row.

    With `At.EACH`, `leave` are the places kept at the end, and `to_space` stops it before the next chain space,
    `to_marker` before the next marker, or the second or third one from here, OF_NEEDLE before the end of the needle,
    CENTRE before the stitch in the middle of the row.
    `turning` is True for the top of the row's turning chain, or with `At.EACH` for all up to it. `first` is True for
    the first place of the row, `nth` names a later one (`in 2nd st`) counted from the row's beginning. `of_round` is
    the number of the round whose places are meant, where the draft says it.
    """

    at: At
    number: Figure | None = None
    target: Target = Target()
    leave: Figure | None = None
    last: bool = False
    span: Span | None = None
    to_space: bool = False
    turning: bool = False
    first: bool = False
    nth: int | None = None
    to_marker: int = 0
    of_round: int | None = None


# ---------------------------------------------------------------- times


class Count(Enum):
    """How often something is done."""

    TOTAL = "total"  # `number` times in all
    MORE = "more"  # once, and `number` times more
    EITHER = "either"  # the draft doesn't say whether `number` is all or more
    TO_END = "to end"  # until `leave` places are left


@dataclass(frozen=True, slots=True)
class Times:
    """How often a repeat is worked. `said` is False where the draft leaves it to the reader (`*sc, inc*`).

    `ending` is True where the last time is given in other words after it (`rep from * around, ending with ch 5`).
    `to_marker` stops a repeat that runs to the end before that marker from here, `to_space` before the next space of
    that kind, as a corner.
    """

    count: Count
    number: Figure | None = None
    leave: Figure | None = None
    said: bool = True
    span: Span | None = None
    ending: bool = False
    to_marker: int = 0
    to_space: Target | None = None


# ---------------------------------------------------------------- steps


@dataclass(frozen=True, slots=True)
class Make:
    """A stitch as the working sees it: stitches of the row below it uses, stitches it leaves, its height in chains.

    `kind` is the stitch's id in US terms ("sc", "dc", "fpdc", ...). `group` are the steps of a group that the draft
    defines, all worked in one place: a V-stitch of 2 dc with a chain between them. `within` is True for a stitch that
    uses none and can only be made between others: a yarn over, a strand lifted. `makes` is negative where stitches
    made before are passed over and gone.
    """

    kind: str
    uses: int = 1
    makes: int = 1
    height: int = 1
    group: tuple[Step, ...] = ()
    within: bool = False


@dataclass(frozen=True, slots=True)
class Work:
    """`times` stitches in each of the places of `where`.

    `ambiguous` is True where the draft's words (`2 hdc in next 3`, `2 sc`) can also mean `times` stitches in all,
    one in each place, or the words `sc around` the steps before it as well; `bare` where no place is named, so that
    `2 sc` may mean two in one. `corners` is how many go into the middle stitch of each corner, where that is said.
    """

    make: Make
    times: Figure
    where: Where
    span: Span
    ambiguous: bool = False
    bare: bool = False
    corners: Figure | None = None
    skipped_count: bool | None = None  # into the nth chain from the hook: whether the chains before it count as one


@dataclass(frozen=True, slots=True)
class Chain:
    """`n` chains. `counts` tells whether it stands for a stitch: None where the draft doesn't say.

    `beginning` is True at the start of a round. `kind` is the stitch it stands for where the draft says so, and
    `and_space` the chains of the space besides (`counts as dc and ch 1`).
    """

    n: Figure
    span: Span
    beginning: bool = False
    counts: bool | None = None
    kind: str | None = None
    and_space: int = 0


@dataclass(frozen=True, slots=True)
class Skip:
    """Places passed over. `first` is True where the first ones of the row are meant."""

    number: Figure
    target: Target
    span: Span
    behind: bool = False  # the stitch behind a post stitch, which that stitch has used already
    first: bool = False


@dataclass(frozen=True, slots=True)
class Together:
    """Several stitches in one place, and that in each of the places of `where`."""

    steps: tuple[Step, ...]
    where: Where
    span: Span


@dataclass(frozen=True, slots=True)
class Repeat:
    """Steps worked several times.

    `mark` is how it is written: "*" (or another mark) for a repeat from a mark, "(" "[" "{" for brackets.
    """

    steps: tuple[Step, ...]
    times: Times
    span: Span
    mark: str = "("


@dataclass(frozen=True, slots=True)
class Join:
    """The round is closed. `to_chain` is True when it goes into the top of the beginning chain, None when unsaid.

    `nth` is the link of that chain it goes into: in the 3rd of 4, the last link belongs to a space. `space` is the
    space in which a round begins that is joined there before its first stitch.
    """

    span: Span
    to_chain: bool | None = None
    nth: int | None = None
    space: Target | None = None


@dataclass(frozen=True, slots=True)
class Turn:
    """The work is turned; `wraps` where the next stitch is wrapped first, which makes it a short row."""

    span: Span
    wraps: bool = False


@dataclass(frozen=True, slots=True)
class FastenOff:
    """The yarn is fastened off."""

    span: Span


@dataclass(frozen=True, slots=True)
class Ring:
    """A ring to start from; `chains` are its links, None for a magic ring."""

    span: Span
    chains: Figure | None = None


@dataclass(frozen=True, slots=True)
class Leave:
    """Places left unworked: `number` of them, or all that are left where it is None; or only the turning chain."""

    span: Span
    number: Figure | None = None
    turning: bool = False


@dataclass(frozen=True, slots=True)
class OtherSide:
    """From here on along the other side of the foundation chain."""

    span: Span


@dataclass(frozen=True, slots=True)
class Rejoin:
    """The yarn is joined again where stitches of an earlier row were left: the row goes on over those."""

    span: Span


@dataclass(frozen=True, slots=True)
class Evenly:
    """Increases (`change` +1) or decreases (-1) spread evenly: `number` of them, `to` the count after."""

    span: Span
    change: int
    number: Figure | None = None
    to: Figure | None = None


@dataclass(frozen=True, slots=True)
class Even:
    """Rows of their own on the same count, said within a line: `knit 1 row`, `work in rib for 5 cm`."""

    span: Span
    rounds: Figure | None = None


@dataclass(frozen=True, slots=True)
class Shaping:
    """Rows of their own, all shaped alike: `inc 1 st at each end of every 4th row 5 times`.

    In each of them the stitches become `number` more (`change` +1) or fewer (-1) in each of `places` places, 0 where
    they are those of rows before. There are `times` such rows, or as many as it takes to come `to` a count.
    """

    span: Span
    change: int
    number: Figure
    places: int = 1
    times: Figure | None = None
    to: Figure | None = None


@dataclass(frozen=True, slots=True)
class Marker:
    """A marker placed, or one that is met and slipped, or taken away."""

    span: Span
    stays: bool = True


@dataclass(frozen=True, slots=True)
class Remark:
    """Words that take nothing: colour, markers, stuffing, loops, sides."""

    span: Span


@dataclass(frozen=True, slots=True)
class Unread:
    """Words that could not be read and may matter. A round that holds one is silent about its count."""

    span: Span
    reason: str


Step = (
    Work
    | Chain
    | Skip
    | Together
    | Repeat
    | Join
    | Turn
    | FastenOff
    | Ring
    | Leave
    | OtherSide
    | Rejoin
    | Evenly
    | Even
    | Shaping
    | Marker
    | Remark
    | Unread
)
