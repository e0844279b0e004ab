"""What a maker is told to do, as plain values: the steps of a round, the rounds of a pattern.

Every figure is a tuple with one value a size. Stitch kinds are named in US terms ("sc", "hdc", "dc", "tr").
"""

from __future__ import annotations

from dataclasses import dataclass, field

Figures = tuple[int, ...]

HEIGHTS = {"sc": 1, "hdc": 2, "dc": 3, "tr": 4}
"""The chains that a stitch of each kind is tall."""


@dataclass(frozen=True, slots=True)
class Stitches:
    """`each` stitches in each of the next `number` stitches."""

    kind: str
    number: Figures
    each: int = 1
    last: bool = False  # they are said to be the last of the round


@dataclass(frozen=True, slots=True)
class InEach:
    """`each` stitches in every stitch that is left, but for the last `leave`.

    `in_space` are worked in every space met on the way, which has `chains` chains.
    """

    kind: str
    each: int = 1
    leave: Figures | None = None
    in_space: int = 0
    chains: int = 0


@dataclass(frozen=True, slots=True)
class InSame:
    """More stitches in the place used last; in the first place where none is used yet."""

    kind: str
    number: int = 1


@dataclass(frozen=True, slots=True)
class Decrease:
    """`over` stitches worked together, `number` times."""

    kind: str
    over: int
    number: Figures
    invisible: bool = False


@dataclass(frozen=True, slots=True)
class Skip:
    """Stitches passed over."""

    number: Figures


@dataclass(frozen=True, slots=True)
class SkipSpace:
    """The next chain space passed over."""

    chains: int


@dataclass(frozen=True, slots=True)
class ChainSpace:
    """Chains that leave a space."""

    chains: int


@dataclass(frozen=True, slots=True)
class Part:
    """Some stitches of one kind, or a space of `number` chains where the kind is "ch"."""

    kind: str
    number: int


@dataclass(frozen=True, slots=True)
class Group:
    """Several things in the next stitch: a shell or a corner."""

    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class InSpace:
    """Several things in the next space, which has `chains` chains."""

    parts: tuple[Part, ...]
    chains: int


@dataclass(frozen=True, slots=True)
class InEachSpace:
    """Several things in every space that is left; the stitches between are passed over."""

    parts: tuple[Part, ...]
    chains: int


@dataclass(frozen=True, slots=True)
class InRing:
    """Stitches in the ring."""

    kind: str
    number: Figures


@dataclass(frozen=True, slots=True)
class FromHook:
    """`each` stitches in the nth chain from the hook; the chains before it may count as one more."""

    kind: str
    nth: int
    each: int = 1
    counted: bool = False


@dataclass(frozen=True, slots=True)
class InLastChain:
    """`each` stitches in the last chain of this side of the foundation chain."""

    kind: str
    each: int


@dataclass(frozen=True, slots=True)
class OtherSide:
    """From here along the other side of the foundation chain."""


@dataclass(frozen=True, slots=True)
class BeginningChain:
    """The chains at the start of a round; where they count they stand on the first stitch as one of `kind`."""

    chains: int
    counts: bool
    kind: str


@dataclass(frozen=True, slots=True)
class Repeat:
    """Steps worked `times` times in all; where that is None, until `leave` stitches are left."""

    steps: tuple[Step, ...]
    times: Figures | None = None
    leave: Figures | None = None


Step = (
    Stitches
    | InEach
    | InSame
    | Decrease
    | Skip
    | SkipSpace
    | ChainSpace
    | Group
    | InSpace
    | InEachSpace
    | InRing
    | FromHook
    | InLastChain
    | OtherSide
    | BeginningChain
    | Repeat
)


# ---------------------------------------------------------------- starts


@dataclass(frozen=True, slots=True)
class MagicRing:
    """A ring of yarn."""


@dataclass(frozen=True, slots=True)
class ChainRing:
    """A few chains joined into a ring to work into."""

    chains: int


@dataclass(frozen=True, slots=True)
class ChainRound:
    """A chain joined into a round: each of its links is a place."""

    chains: Figures


@dataclass(frozen=True, slots=True)
class OvalChain:
    """A chain that is worked around both its sides."""

    chains: Figures


@dataclass(frozen=True, slots=True)
class FlatChain:
    """A chain that rows are worked back over."""

    chains: Figures


Start = MagicRing | ChainRing | ChainRound | OvalChain | FlatChain


# ---------------------------------------------------------------- rounds


@dataclass(frozen=True, slots=True)
class Round:
    """A round with steps of its own, worked `rounds` times."""

    steps: tuple[Step, ...]
    rounds: Figures


@dataclass(frozen=True, slots=True)
class Again:
    """Earlier rounds worked again: those at the indices `first` to `last`, each `times` times."""

    first: int
    last: int
    times: Figures


@dataclass(frozen=True, slots=True)
class Even:
    """Rounds of one stitch in each stitch, as the round before."""

    kind: str
    rounds: Figures


@dataclass(frozen=True, slots=True)
class Alternate:
    """A plain round which is also every second round after it, up to the end of the pattern, without being written."""

    step: InEach


Line = Round | Again | Even | Alternate


@dataclass(frozen=True, slots=True)
class Pattern:
    """A whole pattern: the sizes by name (none for one size), the start, the rounds or rows as written.

    `flat` tells whether it is worked in rows, turned after each. `kind` is the stitch that `inc` and `dec` are made
    of. `joined` tells whether rounds are closed; then `counts` tells whether their beginning chains count as a
    stitch.
    """

    sizes: tuple[str, ...]
    start: Start
    lines: tuple[Line, ...]
    kind: str
    joined: bool = False
    counts: bool = False
    title: str = field(default="HARBOUR PIECE")
    flat: bool = False

    @property
    def number(self) -> int:
        """How many sizes there are."""
        return max(1, len(self.sizes))
