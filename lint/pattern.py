"""What a pattern is: sections, rounds, what a draft claims of a round, and what its notes settle.

Reading makes these values, working and rules use them. All are immutable. A `Round` is a row or a round; `flat`
tells which. The steps of a round are in `steps`, its figures in `figures`.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from .draft import Span
from .figures import Figure, FigureList, Sizes
from .materials import NOTHING, Materials
from .said import UNSAID, Sayings
from .spellings import AbbreviationEntry, AbbreviationUsed, Mended
from .steps import Make, Step, Times

# ---------------------------------------------------------------- instructions that stand for whole rounds


@dataclass(frozen=True, slots=True)
class RepeatRounds:
    """`Rep rnds 4 and 5 twice more`: rounds `first` to `last` of the same section, worked again.

    `back` is how many rounds before this one are meant (`rep last 2 rnds`) where no numbers are given. `times` is
    None where the heading's own numbers or an end tell how long. `rounds` is the number of rounds to reach in all
    (`until you have 34 rows`), `until` the stitches to reach. `ending` is the number of the round it must end on;
    `growing` is by how many plain stitches between the increases each of the rounds has more than the one before,
    `between` how many it has, where only that is different. `then` are rounds worked after it; `first_again` is True
    where the first of them is worked once more. `part` names another part of the draft whose rounds are meant (`as for
    front`), `mark` the shaping up to which they are (`as for back to armholes`); with `through` that is worked as well,
    with `alone` it is all that is meant (`shape armholes as for back`).
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
    first_again: bool = False
    part: str | None = None
    growing: int = 0
    between: Figure | None = None
    mark: str = ""
    through: bool = False
    alone: bool = False


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


PARTS_COUNTED = ("sts between markers", "sts on each side")  # units of counts of a part of the row


@dataclass(frozen=True, slots=True)
class Claim:
    """A stated count. `kind` is the stitch id when it names one ("dc"), "st" for stitches in general or none named.

    `unit` keeps the draft's own word where it counts something else than stitches (clusters, ch-1 sps). With
    several kinds in one statement each is a claim of its own. `chain_apart` is True for "11 dc + ch 3".
    `with_chains` is True where chains between the stitches are counted too ("100 incl. chains"). `each_round`
    holds one figure a round for "rnds 5-7: 32, 40, 48 sc" (then `figure` is the last of them). `group` names the
    group of stitches counted where it isn't stitches, "group" for any.
    """

    figure: Figure
    kind: str
    span: Span
    unit: str = "sts"
    chain_apart: bool = False
    with_chains: bool = False
    each_round: tuple[int, ...] = ()
    group: str = ""


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
    how many rounds an unnumbered heading covers (`Next 6 rnds`). `known_to_differ` is True where the sign `[!]` of a
    longhand says that its words make another count than the one stated. `alike` is where the same words, with the same
    steps and claims, stand for the first time, and where they stand here; None where that isn't known.
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
    known_to_differ: bool = False
    alike: tuple[int, int] | None = field(default=None, repr=False, compare=False)


@dataclass(frozen=True, slots=True)
class SizeNote:
    """Words that name sizes: `Small and Medium only:`, `All sizes:`. `unknown` are names that aren't declared."""

    span: Span
    sizes: tuple[int, ...] | None
    unknown: tuple[str, ...] = ()
    before_round: int = 0  # index of the first round it governs


@dataclass(frozen=True, slots=True)
class Section:
    """A piece or part: a stretch of the draft with a title and a numbering of its own.

    `goes_on` is True where it can only be worked on the stitches that the part before it left on the needles.
    """

    title: str | None
    span: Span
    sizes: tuple[int, ...] | None = None
    goes_on: bool = False


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
class Given:
    """A count told between rounds: the round with the index `before_round` goes on from it if nothing else is known."""

    figure: Figure
    before_round: int


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
    materials: Materials = NOTHING
    given: tuple[Given, ...] = ()
    sayings: Sayings = UNSAID
