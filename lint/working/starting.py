"""Starting: the chains of a round, what they stand for, and the places where a round begins."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from itertools import islice

from ..figures import Figure
from ..steps import ANY_GROUP, At, Chain, Join, Remark, Repeat, Skip, Step, Target, Together, Turn, Where, Work
from ..workings import Deed, Item
from .fabric import Cursor, Fabric, Match, Row, plain
from .grouping import BEGUN, groups_of
from .hook import FEWEST_AROUND, CannotWork
from .needles import Needles
from .shape import (
    beyond_height,
    beyond_join,
    chain_is_next,
    chain_key,
    first_loop,
    first_space,
    into_chain,
    into_ring,
    into_spaces,
    is_bridge,
    is_first_loop,
)
from .spots import LINK, SPACE, Segment, Spot, spot_of


class Starting(Needles):
    """Works chains, and stitches into the chain or the place that a round starts from."""

    __slots__ = ()

    def chain(self, step: Chain, rest: Sequence[Step], *, top: bool) -> None:
        """Make chains: a foundation, a beginning chain, or a space."""
        number = self.number(step.n)
        if self.cursor is None and self.fresh and into_ring(rest):
            # `ch 3, 11 dc in magic ring`: the ring is named only with the stitches
            self.cursor = Cursor(Fabric(ring=True))
            self.starts = True
            if _is_joined(rest):
                return  # `ch 4, join, ch 1, 8 sc in ring`: the chain is the ring
        foundation = (
            step.beginning
            and ((self.cursor is None and self.fresh and not _goes_on_a_row(number, rest)) or into_chain(rest))
            and not (self.cursor is not None and self.cursor.fabric.ring)
        )
        if foundation and not self.row.segments and self.cursor is None:
            self.cursor = Cursor(plain(LINK, number))
            self.chain_links = number
            self.starts = True
            return
        if self.cursor is not None and chain_is_next(rest) and not self.cursor.fabric.ring:
            # stitches added to the row: a chain at its edge, or for a thumb in its middle, that is worked back over
            links = plain(LINK, number).segments
            self.cursor = Cursor(Fabric((*links, *self.cursor.rest()), edge=self.cursor.fabric.edge))
            self.chain_links = number
            return
        follows = self.begun and not (rest and isinstance(rest[0], Work))
        again = follows or self.worked or (self.looping and step.counts is None)
        if step.beginning and not again and not self.row.has_stitches and not is_bridge(number, self, rest):
            self.begun = True
            counts = step.counts
            if counts is None and self.flat and is_first_loop(number, rest):
                self.counted = False
                self.row.add(spot_of(SPACE, number))
                return
            hole = self.cursor is not None and self.cursor.fabric.ring
            hole = hole and self.cursor is not None and self.cursor.fabric.stitches < FEWEST_AROUND
            if counts is None:
                joined = next((part.to_chain for part in rest if isinstance(part, Join)), None)
                key = f"{chain_key(number, joined)}-in-ring" if hole and number == 1 else chain_key(number, joined)
                counts = self.choose(key, number >= 3 or (joined is True and number == 2))
            self.counted = counts
            if counts:
                self.base = not hole and not self.along
                self.row.add(spot_of(step.kind or "ch"))
                self.counted_space = (
                    step.and_space
                    or beyond_height(number, rest)
                    or beyond_join(number, rest)
                    or self._over_space(number, rest)
                )
                if self.counted_space:
                    self.row.add(spot_of(SPACE, self.counted_space))
                self.items.append(Item(Deed.CHAIN, step.span, 1, 1 if self.base else 0, 1))
            return
        if top and not any(isinstance(part, Work | Together | Repeat | Skip | Join) for part in rest):
            self.hung = step
        elif step.counts:
            self.row.add(spot_of(step.kind or "ch"))
        else:
            if self.base and rest and isinstance(rest[0], Skip):
                self.take(0)  # the skip passes the stitch after the one that the beginning chain stands on
            self.row.add(spot_of(SPACE, number))

    def _over_space(self, number: int, rest: Sequence[Step]) -> int:
        """Return the chains by which a row's chain is longer than the stitch after the space that it goes over."""
        first = rest[0] if rest else None
        height = first.make.height if isinstance(first, Work) else 0
        places = list(islice(self.cursor.ahead(), 2)) if self.cursor is not None and self.flat else []
        if not isinstance(first, Work) or first.where.at is not At.NEXT or first.where.target.space or height < 3:
            return 0
        over = len(places) == 2 and not places[0].is_space and places[1].is_space
        return max(0, number - height) if over else 0

    def from_hook(self, step: Work, times: int, rest: Sequence[Step], *, top: bool) -> None:
        """Go into the nth link from the hook: the links before it are skipped, and may stand for a stitch."""
        nth = self.number(step.where.number, 2)
        if self.cursor is None or self.cursor.fabric.stitches < nth:
            if self.cursor is None:
                raise CannotWork("the chain it is worked into is not known")
            self.short += nth - self.cursor.fabric.stitches
        counted = step.skipped_count
        loop = first_loop(nth, step.make.height, rest) if not counted else 0
        if counted is None and loop:
            counted = False
        if counted is None:
            counted = nth > 2 and self.choose(f"skipped-{nth}-count", nth >= 4 or step.make.height >= 3)
        if not self.used:
            self.row = Row()
            self.counted = counted
        if counted:
            self.row.add(spot_of("dc" if step.make.group else step.make.kind))
        if (space := loop or first_space(nth, step.make.height, rest)) > 0:
            self.row.add(spot_of(SPACE, space))
        self.cursor.take(nth)
        self.chain_links = max(0, (self.chain_links or self.cursor.fabric.stitches) - nth + 1)
        self.used += 1
        self.lay(step.make, times, each=times if times > 2 else 1)
        self.note(Deed.WORK, step.span, nth, times * step.make.makes + counted, top=top)

    def same(self, where: Where, rest: Sequence[Step] = ()) -> int:
        """Go into the same place: the one under a counted chain, or the first of the round where none is taken yet."""
        self.in_first = True
        if self.skipped and where.at is At.SAME and not where.target.space and self.cursor is not None:
            # `sk 1 st, (sc, ch 2, sc) in same st`: the one after those that are passed over
            self._take(1, spaces=False)
            return 1
        if self.start is not None and self.cursor is not None and not self.row.has_stitches:
            # `sl st to ch-2 sp of first shell, ch 3, 6 dc in same sp`
            start, self.start, self.base = self.start, None, False
            self.into_groups(start, 1)
            return 0
        if self.base:
            self.base = False
            if self.start is not None:
                start, self.start = self.start, None
                self.into_groups(start, 1)
                return 0
            if where.target.space and self.cursor is not None and self.cursor.fabric.spaces:
                # without a move or a join to a space, and with nothing more in spaces, it is the stitch below the chain
                self.in_space = self.in_space or self.arrived or any(into_spaces(rest))
            self._begin(spaces=self.in_space)
            return 0 if self.in_space else 1
        if where.target.space and self.cursor is not None and self.cursor.fabric.spaces and not self.row.segments:
            self._begin(spaces=True)
            return 0
        if (
            not self.used
            and not self.row.has_stitches
            and where.at is At.SAME
            and self.cursor is not None
            and (not self.cursor.fabric.ring or _into_links(rest))
        ):
            self._take(1, spaces=False)
            return 1
        return 0

    def join_in_space(self, target: Target | None) -> None:
        """Begin a round in a space of the row below: what lies before it comes at the round's end."""
        cursor = self.cursor
        if target is None or self.begun or self.worked or self.flat or cursor is None:
            return
        if cursor.fabric.ring or not cursor.fabric.spaces:
            return
        sizes = cursor.fabric.space_sizes()
        size = max(sizes) if target.corner else target.size
        self.in_space = True
        self.cursor = cursor.from_space(size if size in sizes else None)

    def into_foundation(self, where: Where) -> bool:
        """Tell whether a stitch goes into the nth chain of the foundation with nothing worked yet: `in the 5th ch`."""
        if where.nth is None or not where.target.chain or self.used or self.worked or self.cursor is None:
            return False
        return self.cursor.fabric.is_chain and not self.cursor.fabric.ring

    def travel(self, where: Where, rest: Sequence[Step]) -> None:
        """Pass places by slip stitches at a row's beginning; a chain that then counts stands on the last of them."""
        if not self.flat or self.worked or self.row.segments or where.target.space or where.at is not At.NEXT:
            return
        number = self.number(where.number)
        self.begun = False
        chain = next((step for step in rest if not isinstance(step, Remark | Turn)), None)
        stands = isinstance(chain, Chain) and (
            self.choose(chain_key(self.number(chain.n), None), self.number(chain.n) >= 3)
            if chain.counts is None
            else chain.counts
        )
        self._take(number - stands, spaces=False)
        self.used -= number - stands

    def turning_chain(self) -> None:
        """Go into the top of the turning chain, which is the last place of the row below as it is met."""
        if self.flat and self.cursor is not None and self.cursor.fabric.edge.counted is False:
            raise CannotWork("it works into a turning chain that was not counted as a stitch")
        if self.flat and self.loose and self.cursor is not None:
            self.cursor.take(self.cursor.left() - 1)  # what is left of the group or space before it
        self.take(1)

    def from_beginning(self, nth: int) -> None:
        """Pass the places of the row before the nth."""
        passed = nth - 1 - self.used - self.base
        if passed < 0:
            raise CannotWork("the place it goes into was not found")
        self.take(passed)

    # ------------------------------------------------------------ places known by their group or kind

    def group_match(self, target: Target) -> Match:
        """Return what tells the first place of the groups that are meant. Raises CannotWork where there are none."""
        if self.cursor is None:
            raise CannotWork("the row below is not known")
        named = groups_of(self.cursor.fabric)
        for name in dict.fromkeys((target.group, ANY_GROUP)):
            if name in named:
                return partial(_opens, name)
        if target.group == ANY_GROUP and named:
            return _opens_any
        raise CannotWork("the groups of stitches it goes into were not found in the row below")

    def into_groups(self, target: Target, number: int) -> None:
        """Go into the next groups, each in the place that is meant: its space, one of its stitches, or its middle."""
        if target.group == ANY_GROUP and target.nth == 1 and self.cursor is not None and self._runs_only():
            # stitches between two spaces, as a doily has them
            for _ in range(number):
                self.short += self.cursor.seek(_is_space) is None
                self.take(1)
            return
        match = self.group_match(target)
        assert self.cursor is not None
        self.base = False
        self.sought = True
        for turn in range(number):
            # stitches skipped to the middle of a group are the first of it
            begun = [] if turn else self._skipped_of_group(match)
            if not begun:
                if (first := self.cursor.seek(match)) is None:
                    self.short += 1
                    return
                begun = [first]
            own = [*begun, *self._rest_of_group()]
            if (target.nth or 0) > len(own):
                self.short += 1  # half a shell at the end of the round has no such stitch
                return
            self.cursor.take_spots(_place_in(own, target) + 1 - len(begun))
        self.loose, self.kin = True, match

    def _rest_of_group(self) -> list[Spot]:
        """Return the places that are left of the group in which the last place passed stands."""
        own: list[Spot] = []
        for spot in self.cursor.ahead() if self.cursor is not None else ():
            if spot.opens or not spot.group:
                break
            own.append(spot)
        return own

    def _skipped_of_group(self, match: Match) -> list[Spot]:
        """Return the places of the group ahead that were skipped right before."""
        ahead = next(self.cursor.ahead(), None) if self.cursor is not None else None
        if self.cursor is None or not self.over or ahead is None or not ahead.group or ahead.opens:
            return []
        passed: list[Spot] = []
        for part in reversed(self.cursor.places_before()):
            for spot in reversed(part.spots * min(part.times, self.over)):
                passed.insert(0, spot)
                if match(spot):
                    return passed
                if len(passed) >= self.over:
                    return []
        return []

    def _runs_only(self) -> bool:
        """Tell whether the row below has stitches between spaces, and none of them in one place."""
        return self.cursor is not None and bool(self.cursor.fabric.spaces) and not groups_of(self.cursor.fabric)

    def all_groups(self, target: Target) -> int:
        """Go into every group up to the end and return how many they are."""
        match = self.group_match(target)
        assert self.cursor is not None
        number = self.cursor.count(match)
        if self.base:
            self.base = False
            beside = self.flat and not next(self.cursor.ahead(), spot_of("")).group
            number -= not beside and self.cursor.copy().seek(match) is not None
        if number:
            self.cursor.take_spots(_up_to_last_group(self.cursor.rest()))
        self.sought = self.loose = True
        self.kin = match
        return number

    def to_middle(self, number: int) -> int:
        """Pass to the middle stitches of those between two spaces, and return how many lie behind them."""
        cursor = self.cursor
        if cursor is None or not cursor.fabric.spaces:
            raise CannotWork("which stitches are in the middle is not known")
        self.take(0)
        if not cursor.begins_run():
            cursor.take_spaces(1)
        while (spot := next(cursor.ahead(), None)) is not None and spot.is_space:
            cursor.take_spots(1)
        run = next((n for n, spot in enumerate(cursor.ahead()) if spot.is_space), None)
        beside = (cursor.left() if run is None else run) - number
        if beside >= 0 and beside % 2:
            raise CannotWork("which stitches are in the middle is not known")
        self.sought = True
        cursor.take(max(0, beside // 2))
        return max(0, beside // 2)

    def to_kind(self, target: Target) -> None:
        """Pass over stitches of other kinds up to the one that is named, after a place in a space or a group."""
        cursor = self.cursor
        if not self.loose or cursor is None or not target.kinds or cursor.fabric.ring:
            return
        ahead = next((spot for spot in cursor.ahead() if not spot.is_space), None)
        match = partial(_is_one_of, target.kinds)
        if ahead is None or ahead.kind in (*target.kinds, "ch", "st") or not cursor.count(match):
            return
        self.sought = True
        while ahead is not None and ahead.kind not in target.kinds:
            cursor.take(1)
            ahead = next((spot for spot in cursor.ahead() if not spot.is_space), None)

    def other_side(self) -> None:
        """Go on along the other side of the foundation chain; a link turned around with several stitches is done."""
        if self.apart and self.cursor is None:
            return
        if self.chain_links < 1:
            raise CannotWork("which chain is worked along the other side is not known")
        self.cursor = Cursor(plain(LINK, self.chain_links - (self.in_one > 1)))

    def skip(self, step: Skip, *, top: bool) -> None:
        """Pass over places."""
        if step.behind:
            return
        number = self.number(step.number)
        if step.target.group:
            self.into_groups(replace(step.target, nth=-1), number)
            return
        if step.target.space:
            self.take(number, spaces=True)
            return
        if step.target.chain and self.cursor is not None and not self.cursor.fabric.is_chain:
            return
        if not self.worked and self.cursor is not None and self.cursor.fabric.is_chain:
            self.chain_links -= number  # links passed over for the height of the first stitch
        if self.base and self.choose("skip-is-base", step.first or number == self.counted_space + 1):
            self.base = False
        self.take(number)
        self.skipped = not self.cursor.fabric.is_chain if self.cursor is not None else False
        self.over = number
        self.note(Deed.SKIP, step.span, number, 0, top=top)


def _up_to_last_group(rest: Sequence[Segment]) -> int:
    """Return how many of the places that are left come before the end of the last group among them."""
    total = sum(part.length for part in rest)
    behind = 0
    for part in reversed(rest):
        last = next((n for n, spot in enumerate(reversed(part.spots)) if spot.group), None)
        if last is not None:
            return total - behind - last
        behind += part.length
    return total


_SHORTEST_FOUNDATION = 4  # chains that are worked into each, without a word on the hook
_LONGEST_TURN = 6  # chains; more of them don't turn a row


def _goes_on_a_row(number: int, rest: Sequence[Step]) -> bool:
    """Tell whether so few chains are worked on as no foundation is: `Ch 1, sc in each st across`."""
    first = next((step for step in rest if not isinstance(step, Remark | Turn)), None)
    if number > _LONGEST_TURN or into_ring(rest):
        return False
    if isinstance(first, Repeat):
        return True
    if not isinstance(first, Work):
        return False
    if first.where.target.chain:
        # `ch 1, sc in each ch around`: the links are those of a chain that isn't told
        return first.where.at in (At.EACH, At.SAME) and number < _SHORTEST_FOUNDATION
    return first.where.at in (At.EACH, At.SAME) or _plainly_used(rest) > number


def _plainly_used(rest: Sequence[Step]) -> int:
    """Return how many places the stitches of a round's own words take in turn, in the size that takes least."""
    total = 0
    for step in rest:
        if isinstance(step, Work) and step.where.at is At.NEXT and not step.where.target.chain:
            number = [value for value in step.where.number.values if value] if step.where.number else []
            total += min(number, default=1) * step.make.uses
    return total


def _opens(name: str, spot: Spot) -> bool:
    return spot.opens and spot.group in (name, BEGUN)


def _is_space(spot: Spot) -> bool:
    return spot.is_space


def _opens_any(spot: Spot) -> bool:
    return spot.opens


def _is_one_of(kinds: Sequence[str], spot: Spot) -> bool:
    return spot.kind in kinds


def _place_in(own: Sequence[Spot], target: Target) -> int:
    """Return how many places of a group after its first are passed when a stitch goes into it."""
    stitches = [n for n, spot in enumerate(own) if not spot.is_space]
    spaces = [n for n, spot in enumerate(own) if spot.is_space]
    if target.nth is None and spaces:
        sized = [n for n in spaces if own[n].size == target.size]
        return (sized or spaces)[len(sized or spaces) // 2]
    if target.nth is None or target.nth == 0:
        return stitches[(len(stitches) - 1) // 2] if target.nth == 0 or target.space else len(own) - 1
    if target.nth < 0:
        return stitches[-1]
    return stitches[min(target.nth, len(stitches)) - 1]


def from_hook_of(step: Work) -> tuple[Where, Work]:
    """Return a stitch in the nth chain of the foundation as what it is: in the nth chain from the hook."""
    assert step.where.nth is not None
    where = Where(At.FROM_HOOK, number=Figure((step.where.nth,), step.span), span=step.where.span)
    return where, replace(step, where=where)


def _is_joined(rest: Sequence[Step]) -> bool:
    """Tell whether the chain just made is joined before anything is worked."""
    told = next((step for step in rest if not isinstance(step, Remark)), None)
    return isinstance(told, Join)


def _into_links(rest: Sequence[Step]) -> bool:
    """Tell whether what follows goes into the links of a ring, one by one, and not into its middle."""
    return any(
        _into_links(step.steps) if isinstance(step, Repeat) else step.where.at in (At.EACH, At.NEXT)
        for step in rest
        if isinstance(step, Work | Repeat)
    )
