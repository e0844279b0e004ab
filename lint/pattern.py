"""What a pattern is: sizes, sections, rounds, the steps of a round and what a draft claims of it.

Reading makes these values, working and rules use them. All are immutable. A `Round` is a row or a round; `flat`
tells which. Figures hold one value a size; `None` stands for "not for this size".
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from .draft import Span
from .spellings import AbbreviationEntry, AbbreviationUsed, Mended


@dataclass(frozen=True, slots=True)
class Figure:
    """A number or a list of numbers, one a size; a single value serves every size."""

    values: tuple[int | None, ...]
    span: Span

    def at(self, size: int) -> int | None:
        """Return the value for a size (an index from 0), None where it isn't for that size."""
        if len(self.values) == 1:
            return self.values[0]
        return self.values[size] if size < len(self.values) else None

    @property
    def is_list(self) -> bool:
        """Whether a value stands for each size."""
        return len(self.values) > 1


class ListStyle(Enum):
    """How a list of figures is written: `72 (80, 88)`, `72[80, 88]`, `(72, 80, 88)`, `72/80/88` or `72, 80, 88`."""

    ROUND = "72 (80, 88)"
    SQUARE = "72 [80, 88]"
    INSIDE = "(72, 80, 88)"
    SLASH = "72/80/88"
    BARE = "72, 80, 88"
    MIXED = "72 (80) 88"
    NAMED = "S: 72, M: 80, L: 88"


@dataclass(frozen=True, slots=True)
class FigureList:
    """A list of figures as it stands in the draft, whether or not it has one a size.

    `inner` is the separator between the bracketed figures ("," "-" ":" "/" or a blank).
    """

    values: tuple[int | None, ...]
    span: Span
    style: ListStyle
    inner: str


@dataclass(frozen=True, slots=True)
class Sizes:
    """The sizes of a draft in their order; no names for a draft in one size.

    `declared` is False where the number of sizes was learnt from the lists of figures alone.
    """

    names: tuple[str, ...]
    span: Span | None = None
    declared: bool = False

    @property
    def number(self) -> int:
        """How many figures a full list has; 1 for a draft in one size."""
        return max(1, len(self.names))


# ---------------------------------------------------------------- places


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


@dataclass(frozen=True, slots=True)
class Target:
    """What kind of place a stitch goes into or a skip passes.

    `kinds` are stitch ids; empty for any stitch. `space` is True for a chain space; `size` is its number of
    chains where the draft says it. `also_spaces` is True for "each st and ch-1 sp".
    """

    kinds: tuple[str, ...] = ()
    space: bool = False
    size: int | None = None
    also_spaces: bool = False
    chain: bool = False  # a link of a chain


@dataclass(frozen=True, slots=True)
class Where:
    """A place or places; see `At`. `number` counts them, `last` says that they are the last of the row.

    With `At.EACH`, `leave` are the places kept at the end, and `to_space` stops it before the next chain space.
    """

    at: At
    number: Figure | None = None
    target: Target = Target()
    leave: Figure | None = None
    last: bool = False
    span: Span | None = None
    to_space: bool = False


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
    """

    count: Count
    number: Figure | None = None
    leave: Figure | None = None
    said: bool = True
    span: Span | None = None
    ending: bool = False


# ---------------------------------------------------------------- steps


@dataclass(frozen=True, slots=True)
class Make:
    """A stitch as the working sees it: stitches of the row below it uses, stitches it leaves, its height in chains.

    `kind` is the stitch's id in US terms ("sc", "dc", "fpdc", ...). `group` are the steps of a group that the draft
    defines, all worked in one place: a V-stitch of 2 dc with a chain between them.
    """

    kind: str
    uses: int = 1
    makes: int = 1
    height: int = 1
    group: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True)
class Work:
    """`times` stitches in each of the places of `where`.

    `ambiguous` is True where the draft's words (`2 hdc in next 3`, `2 sc`) can also mean `times` stitches in all,
    one in each place; `bare` where no place is named, so that `2 sc` may mean two in one.
    """

    make: Make
    times: Figure
    where: Where
    span: Span
    ambiguous: bool = False
    bare: bool = False
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
    """Places passed over."""

    number: Figure
    target: Target
    span: Span
    behind: bool = False  # the stitch behind a post stitch, which that stitch has used already


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

    `nth` is the link of that chain it goes into: in the 3rd of 4, the last link belongs to a space.
    """

    span: Span
    to_chain: bool | None = None
    nth: int | None = None


@dataclass(frozen=True, slots=True)
class Turn:
    """The work is turned."""

    span: Span


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
    """Places left unworked: `number` of them, or all that are left where it is None."""

    span: Span
    number: Figure | None = None


@dataclass(frozen=True, slots=True)
class OtherSide:
    """From here on along the other side of the foundation chain."""

    span: Span


@dataclass(frozen=True, slots=True)
class Evenly:
    """Increases (`change` +1) or decreases (-1) spread evenly: `number` of them, `to` the count after."""

    span: Span
    change: int
    number: Figure | None = None
    to: Figure | None = None


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
    | Evenly
    | Remark
    | Unread
)

# ---------------------------------------------------------------- instructions that stand for whole rounds


@dataclass(frozen=True, slots=True)
class RepeatRounds:
    """`Rep rnds 4 and 5 twice more`: rounds `first` to `last` of the same section, worked again.

    `back` is how many rounds before this one are meant (`rep last 2 rnds`) where no numbers are given. `times` is
    None where the heading's own numbers or an end tell how long. `rounds` is the number of rounds to reach in all
    (`until you have 34 rows`), `until` the stitches to reach. `ending` is the number of the round it must end on;
    `then` are rounds worked after it. `part` names another part of the draft whose rounds are meant (`as for front`).
    """

    span: Span
    first: int | None = None
    last: int | None = None
    back: int | None = None
    times: Times | None = None
    rounds: Figure | None = None
    until: Figure | None = None
    measured: bool = False
    ending: int | None = None
    then: tuple[int, ...] = ()
    named: str | None = None
    part: str | None = None


@dataclass(frozen=True, slots=True)
class WorkEven:
    """Plain rounds on the same count: `rounds` of them, None where a measurement or nothing says how many."""

    span: Span
    rounds: Figure | None = None
    measured: bool = False


@dataclass(frozen=True, slots=True)
class Elided:
    """Rounds that are declared once and then not written: every `step`th from `first` (to `last`).

    `first` is None for "all even rounds" (then `parity` is 0, or 1 for odd). `as_round` is the round they are
    worked as, where the draft says it so and not in steps.
    """

    span: Span
    parity: int | None = None
    first: int | None = None
    last: int | None = None
    as_round: int | None = None


Directive = RepeatRounds | WorkEven

# ---------------------------------------------------------------- claims


@dataclass(frozen=True, slots=True)
class Claim:
    """A stated count. `kind` is the stitch id when it names one ("dc"), "st" for stitches in general or none named.

    `unit` keeps the draft's own word where it counts something else than stitches (clusters, ch-1 sps). With
    several kinds in one statement each is a claim of its own. `chain_apart` is True for "11 dc + ch 3".
    `with_chains` is True where chains between the stitches are counted too ("100 incl. chains"). `each_round`
    holds one figure a round for "rnds 5-7: 32, 40, 48 sc" (then `figure` is the last of them).
    """

    figure: Figure
    kind: str
    span: Span
    unit: str = "sts"
    chain_apart: bool = False
    with_chains: bool = False
    each_round: tuple[int, ...] = ()


class Side(Enum):
    """The side of the fabric that faces the maker."""

    RIGHT = "RS"
    WRONG = "WS"


class MarkTrouble(Enum):
    """What doesn't pair in the marks of a round."""

    STAR_UNOPENED = "star unopened"
    STAR_UNCLOSED = "star unclosed"
    BRACKET = "bracket unbalanced"


@dataclass(frozen=True, slots=True)
class LooseMark:
    """A star or bracket without its fellow."""

    trouble: MarkTrouble
    span: Span


@dataclass(frozen=True, slots=True)
class Round:
    """A row or a round, or an instruction that stands for several.

    `label` is the heading as written (or the instruction's first words), `heading` its span, `span` the whole.
    `first` and `last` are the numbers covered, a figure a size; None where unnumbered. `sizes` are the indices of
    the sizes it is for, None for all. `listed` are the numbers covered where they leave gaps (`Rnds 5, 7, 9`).
    `steps` is empty where a directive stands for the work. `elided` is set on
    the round that declares others. `section` is an index into the pattern's sections. `foundation` is True for
    an unnumbered line that makes the chain or ring from which the piece starts. `closing` is set where the last
    sentence (`24 sc.`) may be a stated count or the last instruction; it is the last of the steps as well. `many` is
    how many rounds an unnumbered heading covers (`Next 6 rnds`).
    """

    label: str
    heading: Span
    span: Span
    section: int
    first: Figure | None = None
    last: Figure | None = None
    listed: tuple[int, ...] = ()
    steps: tuple[Step, ...] = ()
    directive: Directive | None = None
    claims: tuple[Claim, ...] = ()
    sizes: tuple[int, ...] | None = None
    side: Side | None = None
    flat: bool = False
    elided: Elided | None = None
    foundation: bool = False
    rounds_stated: Figure | None = None
    loose: tuple[LooseMark, ...] = ()
    closing: Claim | None = None
    many: Figure | None = None


@dataclass(frozen=True, slots=True)
class SizeNote:
    """Words that name sizes: `Small and Medium only:`, `All sizes:`. `unknown` are names that aren't declared."""

    span: Span
    sizes: tuple[int, ...] | None
    unknown: tuple[str, ...] = ()
    before_round: int = 0  # index of the first round it governs


@dataclass(frozen=True, slots=True)
class Section:
    """A piece or part: a stretch of the draft with a title and a numbering of its own."""

    title: str | None
    span: Span
    sizes: tuple[int, ...] | None = None


@dataclass(frozen=True, slots=True)
class Multiple:
    """A stated multiple: `multiple of 8 + 3, plus 2 for the base chain`."""

    span: Span
    of: int
    plus: int = 0
    base: int = 0


class ChainRule(Enum):
    """What a note says of beginning chains."""

    COUNTS = "counts"
    COUNTS_NOT = "counts not"


@dataclass(frozen=True, slots=True)
class ChainNote:
    """A note on beginning chains; `n` is the chain length it speaks of, None for all.

    `skipped` is True where it speaks of the chains skipped at the start of the first row.
    """

    rule: ChainRule
    span: Span
    n: int | None = None
    skipped: bool = False


@dataclass(frozen=True, slots=True)
class Conventions:
    """What the draft's notes settle once for all."""

    chains: tuple[ChainNote, ...] = ()
    spiral: bool | None = None


@dataclass(frozen=True, slots=True)
class Definition:
    """An entry of the abbreviation list or a special stitch: a term, its words, and the stitch it makes if known."""

    term: str
    span: Span
    words: Span
    make: Make | None = None


@dataclass(frozen=True, slots=True)
class Pattern:
    """A draft as understood: everything that working and rules may ask about, in the draft's order.

    `craft` is "crochet", "knitting" or None; `terms` "US", "UK" or None. `lists` are all lists of figures found
    in instructions, whether or not their length fits the sizes.
    """

    craft: str | None
    terms: str | None
    sizes: Sizes
    sections: tuple[Section, ...]
    rounds: tuple[Round, ...]
    conventions: Conventions = Conventions()
    definitions: tuple[Definition, ...] = ()
    lists: tuple[FigureList, ...] = ()
    size_notes: tuple[SizeNote, ...] = ()
    multiples: tuple[Multiple, ...] = ()
    elisions: tuple[Elided, ...] = ()
    coloured_sizes: Span | None = None  # words that tell sizes apart by colour
    mended: tuple[Mended, ...] = ()
    abbreviations: tuple[AbbreviationEntry, ...] = ()
    abbreviations_used: tuple[AbbreviationUsed, ...] = ()
