"""Rounds that stand for others, written out: repeats of rounds unrolled, elided rounds in their places."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from ..draft import Span
from ..later import later
from ..pattern import Elided, RepeatRounds, Round, WorkEven
from ..proof import Proof
from ..steps import FastenOff, Join, Remark, Turn
from ..working.references import covered, find_round
from ..workings import RoundWorking, SizeWorking, Standing
from .edits import Edit, within
from .figures import renumbered
from .sizes import rounds_for
from .stated import headless, parts_of

MOST_COPIES = 600
_LONGEST_LABEL = 40
_WORD = later(r"(?i)\b(rnd|round|row)s?\b")
_PLAIN_WORK = later(r"(?i)\b(knit|purl)(?:ed)?\b")
_SIDE_FIRST = later(r"[\s.:|–—-]*[(\[]?(?:RS|WS)\b")  # `Row 2: (WS) purl.`
_SIDES = {"RS": "WS", "WS": "RS"}


@dataclass(frozen=True, slots=True)
class Copy:
    """A round written out in the words of another.

    `source` is the index of the round whose words it has. `words` are its heading and what is worked, `own` the words
    of a count that belong to it alone. It is pass `turn` of `turns` of a repeat; `turns` is 0 where it is of none.
    `of` is the index of the round that it is where that is another than the one written out.
    """

    source: int
    words: str
    own: str = ""
    turn: int = 0
    turns: int = 0
    of: int | None = None


@dataclass(frozen=True, slots=True)
class Unrolled:
    """Rounds to be written out at a span of the draft, in place of the round with the index `round` or after it.

    `count` is what must be there at their end, where the draft itself was worked that far. `plain` is True where
    that is the count before them too.
    """

    round: int
    span: Span
    copies: tuple[Copy, ...]
    count: int | None
    plain: bool = False


@dataclass(frozen=True, slots=True)
class Unrolling:
    """What is needed to write rounds out: the proof of the draft, the size, and the edits that leave only that size."""

    proof: Proof
    size: int
    edits: Sequence[Edit]
    worked: Mapping[int, RoundWorking]
    own: frozenset[int]  # the rounds that the size works

    @classmethod
    def of(cls, proof: Proof, size: int, edits: Sequence[Edit]) -> Unrolling:
        """Make ready to write out the rounds of a proof for a size."""
        worked = {one.index: one for one in proof.workings.rounds}
        return cls(proof, size, edits, worked, rounds_for(proof.pattern, size))

    def working(self, index: int) -> SizeWorking | None:
        """Return how a round was worked, None where it wasn't."""
        one = self.worked.get(index)
        own = one.sizes[self.size] if one is not None and self.size < len(one.sizes) else None
        return own if own is not None and own.count is not None else None

    def round(self, index: int) -> Round:
        """Return a round by its index."""
        return self.proof.pattern.rounds[index]

    def text(self, span: Span) -> str:
        """Return the words of a span as they are for the size."""
        return within(self.proof.draft.text, span, self.edits)

    # ------------------------------------------------------------ repeats of rounds

    def repeats(self) -> Iterator[Unrolled]:
        """Unroll every repeat of rounds that was worked."""
        for one in self.proof.workings.rounds:
            round_ = self.round(one.index)
            working = self.working(one.index)
            if not isinstance(round_.directive, RepeatRounds) or working is None or one.standing is Standing.UNREAD:
                continue
            what = round_.directive
            if (what.measured and what.times is None) or _differs(round_):
                continue
            copies = self._part(one.covers) if what.part else self._again(one.index, what, one.covers, working)
            if copies:
                parts = parts_of(self.proof.draft, round_)
                copies = (*copies[:-1], self._with_count(copies[-1], round_))
                yield Unrolled(
                    one.index,
                    Span(round_.span.start, parts.end),
                    copies,
                    working.count,
                    working.before == working.count,
                )

    def _with_count(self, copy: Copy, round_: Round) -> Copy:
        """Give the last round of a repeat the count that the draft states for the repeat."""
        parts = parts_of(self.proof.draft, round_)
        if parts.count is None or not parts.plain:
            return copy
        own = self.text(parts.count) + self.text(Span(parts.count.end, parts.end)).rstrip()
        return Copy(copy.source, copy.words, own, copy.turn, copy.turns)

    def _again(
        self, index: int, what: RepeatRounds, covers: Sequence[int], working: SizeWorking
    ) -> tuple[Copy, ...] | None:
        targets = self._plain_targets(covers)
        number = self._how_many(index, what, targets, working)
        if not targets or not number or number > MOST_COPIES:
            return None
        sources = [targets[turn % len(targets)] for turn in range(number)]
        for then in what.then:
            found = find_round(self.proof.pattern, index, then)
            if found is None:
                return None
            sources.append(found)
        # the rounds as they stand are the first pass, where the repeat follows right after them
        before = 1 if what.times is not None and self._follows(index, targets) else 0
        turns = before + -(-number // len(targets))
        numbers = self._numbers(index, len(sources))
        return tuple(
            Copy(
                source,
                self._heading(source, index, numbers[at] if numbers else None, before + at // len(targets) + 1, turns)
                + self._body(source, numbers[at] if numbers else None),
                turn=before + at // len(targets) + 1 if turns > 1 and at < number else 0,
                turns=turns if turns > 1 and at < number else 0,
            )
            for at, source in enumerate(sources)
        )

    def _plain_targets(self, covers: Sequence[int]) -> tuple[int, ...]:
        """Return the rounds whose own words are worked again; none where one stands for others itself."""
        found: list[int] = []
        for index in covers:
            own = index
            while isinstance(directive := self.round(own).directive, RepeatRounds):
                inner = self.worked[own].covers if own in self.worked else ()
                if len(inner) != 1 or inner[0] >= own or directive.part is not None:
                    return ()
                own = inner[0]
            if isinstance(self.round(own).directive, WorkEven):
                return ()
            found.append(own)
        return tuple(found)

    def _how_many(self, index: int, what: RepeatRounds, targets: Sequence[int], working: SizeWorking) -> int:
        """Return how many rounds a repeat comes to; where it goes on to a count, by what one pass changes."""
        if what.until is None or not targets:
            return working.rounds
        round_ = self.round(index)
        if round_.first is not None and covered(round_, self.size) > 1:
            return working.rounds
        first, last = self.working(targets[0]), self.working(targets[-1])
        goal = what.until.at(self.size)
        if goal is None or working.before is None or first is None or last is None or first.before is None:
            return 0
        change = (last.count or 0) - first.before
        passes, rest = divmod(goal - working.before, change) if change else (0, 1)
        return 0 if rest or passes < 1 else passes * len(targets)

    def _follows(self, index: int, targets: Sequence[int]) -> bool:
        between = [at for at in range(targets[-1] + 1, index) if at in self.own]
        return not between

    def _numbers(self, index: int, number: int) -> list[int] | None:
        """Return the numbers of the rounds of a repeat: its own, or those that go on from the round before."""
        round_ = self.round(index)
        first = round_.first.at(self.size) if round_.first else None
        if first is not None:
            if round_.listed:
                return list(round_.listed) if len(round_.listed) == number else None
            last = round_.last.at(self.size) if round_.last else first
            return [*range(first, first + number)] if last is not None and last - first + 1 == number else None
        before = self._numbered(range(index - 1, -1, -1), round_.section, last=True, near=True)
        if before is None:
            return None
        after = self._numbered(range(index + 1, len(self.proof.pattern.rounds)), round_.section, last=False, near=False)
        if after not in (None, before + number + 1):
            return None
        return [*range(before + 1, before + number + 1)]

    def _numbered(self, indices: range, section: int, *, last: bool, near: bool) -> int | None:
        """Return the number of the next round with one in some direction; `near`: with none unnumbered before it."""
        for at in indices:
            round_ = self.round(at)
            if round_.section != section:
                return None
            if at not in self.own:
                continue
            figure = round_.last if last else round_.first
            if figure is not None:
                return figure.at(self.size)
            if near:
                return None
        return None

    def _heading(self, source: int, index: int, number: int | None, turn: int, turns: int) -> str:
        round_, own = self.round(source), self.round(index)
        words = "" if headless(round_) else self.text(round_.heading)
        if number is not None:
            named = renumbered(words, number) if round_.first is not None else None
            if named is not None and self._turned(source, number):
                named = _other_side(named)
            if named is None and own.first is not None and not headless(own):
                named = renumbered(self.text(own.heading), number)
            if named is not None:
                return named if words else f"{named}: "
        word = _WORD.search(words or self.proof.draft.text)
        label = f"Next {word[1].lower() if word else 'round'}"
        if words and round_.first is None and len(words) <= _LONGEST_LABEL:
            label = words
        passes = f" ({turn} of {turns})" if turns > 1 else ""
        return f"{label}{passes}" + ("" if words else ": ")

    def _body(self, source: int, number: int | None = None) -> str:
        """Return the words of a round, to be worked again as the round of this number."""
        parts = parts_of(self.proof.draft, self.round(source))
        span = parts.words if parts.plain else Span(parts.words.start, parts.end)
        words = self.text(span).rstrip()
        if number is not None and self._turned(source, number) and (side := _SIDE_FIRST.match(words)):
            words = _other_side(side[0]) + words[side.end() :]
        return words

    def _turned(self, source: int, number: int) -> bool:
        """Tell whether a row worked again under another number shows the other side."""
        first = self.round(source).first
        own = first.at(self.size) if first is not None else None
        return own is not None and (number - own) % 2 == 1

    def _part(self, covers: Sequence[int]) -> tuple[Copy, ...] | None:
        """Write out the rounds of another part, with their own headings."""
        copies: list[Copy] = []
        for index in covers:
            round_ = self.round(index)
            if index not in self.own:
                continue
            if round_.directive is not None or round_.elided is not None:
                return None
            heading = "" if headless(round_) else self.text(round_.heading)
            copies.append(Copy(index, heading + self._body(index)))
        return tuple(copies) or None

    # ------------------------------------------------------------ elided rounds

    def elided(self) -> Iterator[Unrolled | Edit]:
        """Write every elided round out between its neighbours, and give the declaring round a heading like theirs."""
        for index, round_ in enumerate(self.proof.pattern.rounds):
            note = round_.elided
            own = round_.first.at(self.size) if round_.first else None
            if note is None or own is None or index not in self.own or self.working(index) is None:
                continue
            reach = self._reach(round_.section)
            sibling = self._sibling(reach, own)
            heading = renumbered(sibling or self.text(round_.heading), own)
            if heading is None:
                continue
            yield Edit(round_.heading, heading)
            apart: dict[int, dict[int, Copy]] = {}
            for number in _missing(note, round_, own, reach):
                like = self._sibling(reach, number) or heading
                copy = Copy(index, (renumbered(like, number) or f"Round {number}") + self._body(index), of=index)
                before = reach[number - 1]
                if self.round(before).listed:
                    apart.setdefault(before, {})[number - 1] = copy
                    continue
                end = parts_of(self.proof.draft, self.round(before)).end
                yield Unrolled(index, Span(end, end), (copy,), None)
            for before, copies in apart.items():
                yield from self._apart(before, copies)

    def _reach(self, section: int) -> dict[int, int]:
        """Return which round of a section has each number."""
        return {
            number: at
            for at, one in enumerate(self.proof.pattern.rounds)
            if one.section == section and at in self.own
            for number in self._covered(one)
        }

    def noted(self) -> Iterator[Unrolled]:
        """Write out the rounds that only a note declares: `Rounds not written are worked even`."""
        for note, section in product(self.proof.pattern.elisions, range(len(self.proof.pattern.sections))):
            reach = self._reach(section)
            like = reach.get(note.as_round) if note.as_round is not None else None
            if note.as_round is not None and like is None:
                continue
            told = _PLAIN_WORK.search(self.proof.draft.words(note.span))
            words = f": {told[1].capitalize() if told else 'Work even'}." if like is None else self._body(like)
            for number in range(min(reach, default=0) + 1, max(reach, default=0)):
                if number in reach or number - 1 not in reach or note.parity not in (None, number % 2):
                    continue
                before = reach[number - 1]
                end = parts_of(self.proof.draft, self.round(before)).end
                heading = renumbered(self._sibling(reach, number) or "", number) or f"Round {number}"
                yield Unrolled(before, Span(end, end), (Copy(before if like is None else like, heading + words),), None)

    def _apart(self, index: int, after: Mapping[int, Copy]) -> Iterator[Unrolled]:
        """Write the rounds of a list (`Rows 9, 11, 13: knit.`) one by one, each with the elided one after it."""
        round_ = self.round(index)
        if any(claim.each_round for claim in round_.claims):
            return
        parts = parts_of(self.proof.draft, round_)
        words = self.text(Span(parts.words.start, parts.end)).rstrip()
        copies: list[Copy] = []
        for number in round_.listed:
            heading = renumbered(self.text(round_.heading), number)
            if heading is None:
                return
            copies.append(Copy(index, heading + words, of=index))
            copies += [after[number]] if number in after else []
        yield Unrolled(index, Span(round_.span.start, parts.end), tuple(copies), None)

    def _covered(self, round_: Round) -> Sequence[int]:
        if round_.listed:
            return round_.listed
        first = round_.first.at(self.size) if round_.first else None
        last = round_.last.at(self.size) if round_.last else first
        return range(first, min(last, first + MOST_COPIES) + 1) if first is not None and last is not None else ()

    def _sibling(self, reach: dict[int, int], number: int) -> str | None:
        """Return the heading of the round before a number, or after it, where it is a plain one; sides change over."""
        for near in (number - 1, number + 1):
            if (at := reach.get(near)) is None:
                continue
            round_ = self.round(at)
            plain = len(self._covered(round_)) == 1 and round_.elided is None and not headless(round_)
            words = self.text(round_.heading)
            if plain and "\n" not in words:
                return _other_side(words)
        return None


def _other_side(heading: str) -> str:
    """Turn the side that a heading names over: `Row 3 (RS)` becomes `Row 3 (WS)`."""
    return re.sub(r"\b(?:RS|WS)\b", lambda side: _SIDES[side[0]], heading)


def _missing(note: Elided, round_: Round, own: int, reach: dict[int, int]) -> Iterator[int]:
    """Give the numbers that an elision covers and nobody wrote, each after one that somebody did."""
    several = round_.first is not None and round_.first.is_list
    last = max(reach) if note.last is None or several else note.last
    for number in range(own + 2, last + 1, 2):
        if number not in reach and number - 1 in reach:
            yield number


def _differs(round_: Round) -> bool:
    """Tell whether a repeat of rounds has steps of its own that make it differ from the rounds it refers to."""
    return any(not isinstance(step, Remark | Join | Turn | FastenOff) for step in round_.steps)
