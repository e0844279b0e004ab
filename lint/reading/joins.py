"""Joins: how a round is closed, a chain made into a ring, and what a beginning chain stands for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..draft import Span
from ..figures import Figure
from ..steps import At, Chain, Join, Remark, Ring, Skip, Target, Turn, Work
from .groups import past_group
from .marks import Group, Item, flat, kind, text_at
from .places import read_place
from .reader import Reader
from .times import figure_at
from .words import Word

NOT_COUNTS = {
    *("does not count", "do not count", "doesn't count", "don't count", "dnc", "n . c .", "n.c."),
    *("not counted", "not a st", "not a stitch", "not as st", "not as a st"),
}


class JoinReader(Reader):
    """Reads how a round is closed or begun: joins, rings, what a chain counts as."""

    __slots__ = ()

    def _finish_join(self, start: int) -> None:
        """Take the rest of a join: `with sl st to top of beg ch-3`, `in first sc`, up to the end of the clause."""
        chain: bool | None = None
        ring = False
        while self.at < len(self.items):
            what = self._kind()
            if (
                what in (",", ";", ".", "group", "*", "turn", "fasten", "rep", "=", "spiral", "skip", ":", "|")
                or what in self.marks
            ):
                break
            if what == "between" and (past := _past_between(self.items, self.at + 1)) is not None:
                self.at = past
                continue
            if self.at > start + 1 and self._text(-1).endswith(".") and self._begins_sentence():
                break
            if self._kind(-1) in ("each", "next", "first", "noise") and (group := past_group(self.items, self.at)):
                self.at = group[1]
                continue
            if what == "-" and not self._names_chain():
                break
            item = self.items[self.at]
            if isinstance(item, Word) and item.stitch is not None:
                if item.stitch.kind == "chain":
                    if self._kind(-1) == "noise" and self._kind(1) == "number" and self._text(-1) == "and":
                        break
                    chain = True
                elif item.stitch.id != "slst" and chain is None:
                    chain = False
            if (what == "number" or figure_at(self.items, self.at) is not None) and self._kind(1) == "st":
                break  # `join with sl st. 36 sts`
            if what == "ring":
                ring = True
            if (
                what == "number"
                and self._kind(1) in ("stitch", "-")
                and self._kind(-1) not in ("-", "stitch", "between", "each")
            ):
                chain_at = self.at + (2 if self._kind(1) == "-" else 1)
                named = self.items[chain_at] if chain_at < len(self.items) else None
                if not (
                    isinstance(named, Word)
                    and named.stitch is not None
                    and named.stitch.kind == "chain"
                    and self._kind(-1) in ("noise", "into")
                ):
                    break
                self.at = chain_at
                chain = True
            if (what == "stitch" and self._kind(1) in ("each", "around")) or (
                what == "stitch"
                and self._kind(1) == "into"
                and self._kind(2) in ("each", "next")
                and self._text() not in ("sl st",)
            ):
                break
            self.at += 1
        span = self._span(start)
        if ring and not self._made_something():
            self._make_ring(span)
            return
        self._add(Join(span, chain, self._nth_link(start) if chain else None, self._begins_in(start)))

    def _names_chain(self) -> bool:
        """Tell whether a dash belongs to the name of a chain: `ch-3`, `ch3-dc`."""
        inside = (self._kind(-1), self._kind(1)) in (("stitch", "number"), ("number", "stitch"))
        return inside and not self.items[self.at].blank and not self.items[self.at + 1].blank

    def _begins_in(self, start: int) -> Target | None:
        """Return the space into which a round is joined before its first stitch: `join in any ch-2 sp`."""
        if self._made_something():
            return None
        for index in range(start, self.at):
            if kind(self.items, index) == "into" and (placed := read_place(self.items, index)) is not None:
                return placed.where.target if placed.where.target.space else None
        return None

    def _begins_sentence(self) -> bool:
        """Tell whether a stitch or chain begins after a word that ends with its full stop: `in any ch-1 sp. Ch 3`."""
        at = 1 if figure_at(self.items, self.at) is not None else 0
        return self._kind(at) == "stitch"

    def _nth_link(self, start: int) -> int | None:
        """Return the link of the beginning chain that a join goes into: `to 3rd ch of ch 4`."""
        for item in self.items[start : self.at]:
            if isinstance(item, Word) and item.kind == "ordinal" and item.value is not None and item.value > 1:
                return item.value
        return None

    def _make_ring(self, span: Span) -> None:
        """Turn the chain that was just made into a ring."""
        self._flush()
        index = len(self.steps) - 1
        while index >= 0 and isinstance(self.steps[index], Remark):
            index -= 1
        step = self.steps[index] if index >= 0 else None
        if isinstance(step, Chain):
            self.steps[index:] = [Ring(step.span.cover(span), step.n)]
        else:
            self.steps.append(Ring(span))

    def _is_join(self, index: int, number: Figure | None) -> bool:
        """Tell whether a slip stitch closes the round: it goes into the first stitch or chain, or stands last."""
        if number is not None and number.values != (1,):
            return False
        placed = read_place(self.items, index)
        over = placed.where.number if placed is not None and placed.where.at is At.NEXT else None
        if over is not None and over.values != (1,):
            return False  # `slip stitch across first 5 sts`
        stop = index
        words: list[str] = []
        while (
            stop < len(self.items)
            and kind(self.items, stop) not in (",", ";", ".", "group", "*", "=", ":")
            and len(words) < 12
        ):
            words.append(text_at(self.items, stop))
            stop += 1
        said = " ".join(words)
        labels = {kind(self.items, at) for at in range(index, stop)}
        if "each" in labels or ((not words and self._made_something()) and self._rest_is_quiet(stop)):
            return "each" not in labels
        if "join" in labels or "ring" in labels:
            return True
        if "first" in labels or any(
            word in said for word in ("top", "beginning", "1st", "beg", "starting", "close", "join")
        ):
            return self._made_something() or any(isinstance(step, Chain) for step in self.steps)
        if "ordinal" in labels and self._made_something() and "each" not in labels and "next" not in labels:
            return True
        chain_named = any(
            isinstance(item := self.items[at], Word) and item.stitch is not None and item.stitch.kind == "chain"
            for at in range(index, stop)
        )
        return chain_named and self._made_something() and self._rest_is_quiet(stop)

    def _rest_is_quiet(self, index: int) -> bool:
        return not any(
            item.kind in ("into", "next", "each", "skip", "rep", "*", "around", "over", "same")
            for item in self.items[index:]
        )

    def _apply_counts(self, items: Sequence[Item], *, says_not: bool) -> None:
        for index in range(len(self.steps) - 1, -1, -1):
            step = self.steps[index]
            if isinstance(step, Work) and step.where.at is At.FROM_HOOK:
                self.steps[index] = replace(step, skipped_count=not says_not)
                return
            if isinstance(step, Skip) and step.target.chain:
                self.skipped_count = not says_not  # `skip 3 ch (counts as dc)`
                return
            if isinstance(step, Chain):
                stitch = next((w.stitch for w in flat(items) if w.stitch and w.stitch.kind != "chain"), None)
                space = _space_counted(items)
                self.steps[index] = replace(
                    step,
                    counts=not says_not,
                    kind=stitch.id if stitch else None,
                    and_space=space if not says_not else 0,
                )
                return
            if not isinstance(step, Remark | Turn):
                return


def counts_not(group: Group) -> bool:
    """Tell whether a bracket says that a chain does not count."""
    return any(
        word.text in ("not", "doesn't", "don't", "never") or word.text in NOT_COUNTS for word in flat(group.items)
    )


def _space_counted(items: Sequence[Item]) -> int:
    """Return the chains of the space that a counted chain stands for besides its stitch: `counts as dc and ch 2`."""
    words = list(flat(items))
    for index, word in enumerate(words):
        if index and word.stitch is not None and word.stitch.kind == "chain":
            near = [*words[index + 1 : index + 3], words[index - 1]]  # `ch 2` and `2ch`
            number = next((w.value for w in near if w.kind == "number"), None)
            if number and any(w.stitch is not None and w.stitch.kind != "chain" for w in words[:index]):
                return number
    return 0


def _past_between(items: Sequence[Item], index: int) -> int | None:
    """Pass over what a join lies between: `any 2 dc`, `any 3-dc groups`; None where it isn't said so."""
    while kind(items, index) in ("each", "noise", "first", "next"):
        index += 1
    if kind(items, index) == "number" and kind(items, index + 1) == "number":
        index += 1  # `any two 4-dc groups`
    if (found := past_group(items, index)) is not None:
        return found[1]
    if kind(items, index) == "number" and kind(items, index + 1) in ("stitch", "st"):
        return index + 2
    return None
