"""The hook: what is on it while one round is worked for one size, and what the steps still to come need."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from ..draft import Span
from ..figures import Figure
from ..steps import At, Chain, Count, Leave, Make, OtherSide, Repeat, Skip, Step, Target, Together, Work
from ..workings import Deed, Item
from .fabric import Cursor, Fabric, Match, Row

FEWEST_AROUND = 12  # links from which a chain closed to a ring is worked link by link, not as a hole
Choose = Callable[[str, bool], bool]


class CannotWork(Exception):
    """A round that can't be worked; the message says why in one sentence for a maker.

    `span` are the words at fault, where it is some words.
    """

    def __init__(self, reason: str, span: Span | None = None) -> None:
        super().__init__(reason)
        self.span = span


class PlaceUnknown(CannotWork):
    """A place in the row, a marker or the end of a needle, that isn't known."""


@dataclass(slots=True)
class Hook(ABC):
    """The state of one round while it is worked: what is on the hook, what was taken of the row below."""

    size: int
    below: Fabric | None
    choose: Choose
    partial_ok: bool = False
    fresh: bool = True  # nothing of this piece has been made before
    rows: int | None = None  # rows of the band before, along whose ends a round may be worked
    cursor: Cursor | None = None
    row: Row = field(default_factory=Row)
    along: bool = False  # the round is worked along the ends of rows
    edged: bool = False  # an edge of the piece has been worked along: corners and the foundation come after it
    items: list[Item] = field(default_factory=list[Item])
    used: int = 0
    short: int = 0
    left_repeat: int = 0
    # by length: spaces passed by a stitch in each stitch, for a step that goes into each space
    passed: dict[int, int] = field(default_factory=dict[int, int])
    counted_space: int = 0  # chains of the space that the counted beginning chain stands for besides its stitch
    in_space: bool = False  # the round begins in a space, after slip stitches into it
    in_first: bool = False  # the place where the round begins was worked into
    base: bool = False  # a counted beginning chain stands on a place not yet taken
    worked: bool = False
    starts: bool = False
    left_alone: bool = False
    chain_links: int = 0  # links of a foundation chain that stitches can go into
    looping: bool = False  # within a group that is worked several times
    begun: bool = False  # the beginning chain is made, or stitches are: a further chain makes a space
    in_one: int = 1  # stitches made last in one place
    apart: bool = False  # stitches were worked along pieces made before
    arrived: bool = False  # the round began with a join or a move to its place
    loop: Sequence[Step] = ()  # the steps of the repeat that is being worked
    inside: bool = False  # works a group in one place
    loose: bool = False  # the place taken last was a space or a group's: what comes next is found by its kind
    kin: Match | None = None  # what tells the groups of which one was taken last
    over: int = 0  # stitches skipped right before
    sought: bool = False  # a place was looked for by its kind or group
    start: Target | None = None  # the group's place to which slip stitches lead
    flat_count: int | None = None
    partial: bool = False
    flat: bool = False  # a row, worked back over the one below
    counted: bool | None = None  # whether the chain at the row's beginning stands for a stitch
    hung: Chain | None = None  # the chain at the row's end, made for the next row
    skipped: bool = False  # stitches were passed over, and none worked since
    waiting: Fabric | None = None  # stitches of the row below that are left for later
    passed_by: int = 0  # stitches passed before the place where the yarn is joined again
    knit: bool = False
    behind: int = 0  # stitches that an earlier turn left behind, met again by the row after this
    marks: list[int] = field(default_factory=list[int])  # markers in the row being made
    mark_at: int = 0  # the next marker of the row below
    made_before: int = 0  # stitches of the row being made that are not in `row`
    closed: bool = False  # rows of their own were worked within the line
    left_before: int = 0  # stitches left over by the rows before them

    @abstractmethod
    def step(self, step: Step, rest: Sequence[Step], *, top: bool) -> None:
        """Work one step; `rest` are those after it, for which places may have to be kept."""

    @abstractmethod
    def sequence(self, steps: Sequence[Step], *, top: bool) -> None:
        """Work steps in order."""

    @abstractmethod
    def lay(self, make: Make, number: int, *, each: int = 1) -> None:
        """Make so many of a stitch, or of a group that the draft defines as one; `each` of them lie in one place."""

    @abstractmethod
    def inner(self) -> Hook:
        """Return a hook for a group that is worked in one place, with nothing below it."""

    def number(self, figure: Figure | None, otherwise: int = 1) -> int:
        """Return a figure's value for this size. Raises CannotWork where the size has none."""
        if figure is None:
            return otherwise
        values = figure.values
        value = values[0] if len(values) == 1 else figure.at(self.size)
        if value is None:
            raise CannotWork("a figure for this size is missing")
        return value

    @abstractmethod
    def carry_marks(self, number: int) -> None:
        """Let the markers among the next stitches pass from the row below to the row being made."""

    def _take(self, number: int, *, spaces: bool) -> None:
        cursor, self.skipped = self.cursor, False
        if cursor is not None and cursor.fabric.marks:
            self.carry_marks(number)
        if cursor is None or (cursor.fabric.ring and cursor.fabric.stitches < FEWEST_AROUND):
            self.used += number
            return
        if number:
            self.loose, self.kin = spaces, None
        wanting = cursor.take_spaces(number) if spaces else cursor.take(number)
        self.short += wanting
        self.used += 0 if spaces else number - wanting

    def _begin(self, *, spaces: bool) -> None:
        """Take the place where the round begins; in a round what lies before a space comes at its end."""
        if spaces and not self.flat and self.cursor is not None and not self.cursor.fabric.ring:
            self.cursor = self.cursor.from_space()
        self._take(1, spaces=spaces)

    def take(self, number: int, *, spaces: bool = False) -> None:
        """Take places of the row below."""
        if self.base:
            self.base = False
            if self.in_space or not spaces:
                self._begin(spaces=self.in_space)
        self._take(number, spaces=spaces)

    def left(self, *, spaces: bool = False) -> int:
        """Return the places that are left. Raises CannotWork where the row below isn't known."""
        if self.cursor is None:
            raise CannotWork("the row below is not known")
        if self.cursor.fabric.ring and self.cursor.fabric.stitches < FEWEST_AROUND:
            raise CannotWork("how many stitches go into the ring is not said")
        left = self.cursor.spaces_left() if spaces else self.cursor.left()
        return left - (1 if self.base and spaces is self.in_space else 0)

    def chains_left(self) -> int:
        """Return the chains of the spaces that are left."""
        return self.cursor.fabric.chains if self.cursor is not None else 0

    @property
    def ends_in_chain(self) -> bool:
        """Whether the row below ends, as it is met, in a turning chain that stands for a stitch."""
        return self.cursor is not None and self.cursor.fabric.edge.counted is True

    def note(self, deed: Deed, span: Span, uses: int, makes: int, *, top: bool, times: int = 1) -> None:
        """Add a line to the sum; only whole steps of the round have one."""
        if top:
            self.items.append(Item(deed, span, times, uses, makes))

    def of_now(self, make: Make) -> Make:
        """Return what an increase of unsaid kind uses here: a stitch, or none where it is made between two."""
        if make.kind == "inc" and self.knit and not self.choose("inc-uses-stitch", True):
            return replace(make, uses=0, makes=1)
        return make

    def kept(self, rest: Sequence[Step]) -> int:
        """Return how many stitches the following steps need, up to the next that takes all that is left."""
        total = 0
        before: Step | None = None
        for step in rest:
            if isinstance(step, OtherSide):
                break
            if isinstance(step, Work) and step.where.first and isinstance(before, Chain) and self.worked:
                break  # `ch 2, dc in first sc` joins the round
            before = step
            need = self.need(step)
            if need is None:
                break
            total += need
        return total

    def at_end(self) -> bool:
        """Tell whether the last space or group has been worked: what lies after it is passed over like all between."""
        if not self.loose or self.cursor is None:
            return False
        if self.kin is not None:
            return not self.cursor.count(self.kin)
        # slip stitches led into the first space, and nothing was worked in it: the round closes there
        return self.cursor.spaces_left() <= (self.in_space and not self.in_first)

    def at_space(self, target: Target, *, stitches: bool) -> bool:
        """Tell whether the next space is one of a size, or as long as the longest of the row; or there is none.

        With `stitches` those before it must be used up as well.
        """
        if self.cursor is None:
            return True
        size = target.size or max(self.cursor.fabric.space_sizes(), default=0)
        before = -int(self.base and not self.in_space)
        for spot in self.cursor.ahead():
            if spot.is_space and (spot.size >= size or not stitches):
                return spot.size >= size and (before <= 0 or not stitches)
            before += not spot.is_space
        return True

    def kept_spaces(self, rest: Sequence[Step]) -> int:
        """Return how many spaces the following steps need, up to the next that takes all that is left."""
        total = 0
        for step in rest:
            if isinstance(step, Work | Together) and step.where.at is At.NEXT and step.where.target.space:
                if not (isinstance(step, Work) and step.make.kind == "slst"):
                    total += 0 if step.where.target.group else self.number(step.where.number)
            elif isinstance(step, Repeat | Work | Together) and self.need(step) is None:
                break
        return total

    def need(self, step: Step) -> int | None:
        """Return the stitches a step takes, None where it takes whatever is left."""
        if isinstance(step, Work):
            if step.where.at is At.NEXT and not step.where.target.space and not step.where.target.group:
                if step.make.kind == "slst" and not step.where.last:
                    return 0
                return self.number(step.where.number) * max(self.of_now(step.make).uses, 0)
            return None if step.where.at is At.EACH else 0
        if isinstance(step, Skip):
            return 0 if step.target.space or step.target.group or step.behind else self.number(step.number)
        if isinstance(step, Together):
            if step.where.at is At.NEXT and not step.where.target.space and not step.where.target.group:
                return self.number(step.where.number)
            return None if step.where.at is At.EACH else 0
        if isinstance(step, Leave):
            return int(self.ends_in_chain) if step.turning else self.number(step.number, 0)
        if isinstance(step, Repeat):
            passes = self.passes(step)
            if passes is None:
                return None
            one = 0
            for inner in step.steps:
                need = self.need(inner)
                if need is None:
                    return None
                one += need
            return one * passes
        return 0

    def passes(self, step: Repeat) -> int | None:
        """Return how often a group is worked, None for as often as it goes."""
        times = step.times
        if times.count is Count.TO_END or times.number is None:
            return None
        number = self.number(times.number)
        if times.count is Count.MORE:
            return number + 1
        if times.count is Count.EITHER:
            return number + 1 if self.choose("times-more", step.mark not in ("(", "[", "{")) else number
        return number
