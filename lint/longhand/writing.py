"""The writing of a longhand: the draft's own text with one size's figures, its rounds written out, its counts added.

The text is made by edits to the draft, so that the designer's words stay. It is then proofed itself: what is written
out must come to the counts that the draft came to, or else it stays as the draft has it.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum

from ..choice import ChoiceError, size_named
from ..draft import Draft, Span
from ..pattern import RepeatRounds, Round
from ..proof import Proof, proof
from ..steps import Remark
from ..working.claims import stated_of
from ..workings import RoundWorking, SizeWorking, Standing
from .edits import Edit, Edited, edited
from .sizes import place_in, size_edits
from .stated import PLAIN, Manner, Parts, counted, manner_of, parts_of, words_start
from .unrolled import Copy, Unrolled, Unrolling

_Placed = tuple[Span, Copy, Unrolled]
_MOST_TRIES = 6


class Mark(Enum):
    """What a maker must know of a round before working it."""

    UNREAD = "unread"  # it could not be worked and stands as written
    DIFFERS = "differs"  # its words make another count than the one stated


@dataclass(frozen=True, slots=True)
class Written:
    """A round of a longhand: pass `turn` of `turns` of a repeat where `turns` is not 0, and its mark if any.

    `of` is the index, in the pattern of the whole draft, of the round that it is, or that stands for it there. `words`
    is where, in the text written out, its instructions begin, and `end` where their last line ends.
    """

    of: int | None
    words: int
    end: int
    turn: int = 0
    turns: int = 0
    mark: Mark | None = None


@dataclass(frozen=True, slots=True)
class Longhand:
    """A draft written out for one size.

    `proof` is that of the text written out, without findings; `rounds` has one entry for each of its rounds, in
    order. `size` is the size's name, None for a draft in one size.
    """

    proof: Proof
    size: str | None
    rounds: tuple[Written, ...]

    @property
    def text(self) -> str:
        """Return the text written out, without marks."""
        return self.proof.draft.text


@dataclass(frozen=True, slots=True)
class _Try:
    """A text written out, its proof, and what it was made by.

    `places` are where the copies stand, in order. `kept` leads from where a round of the draft's own begins to its
    index in the draft, `heads` from where any round begins to its working.
    """

    made: Edited
    proof: Proof
    unrolled: tuple[Unrolled, ...]
    places: tuple[_Placed, ...]
    kept: Mapping[int, int]
    heads: Mapping[int, RoundWorking]
    before: _Try | None = None

    @classmethod
    def of(
        cls,
        unrolling: Unrolling,
        made: Edited,
        unrolled: Sequence[Unrolled],
        places: Iterable[_Placed],
        before: _Try | None = None,
    ) -> _Try:
        """Proof a text that was made by edits, and find its rounds again."""
        found = proof(Draft.of(made.text, unrolling.proof.draft.path), ())
        heads = {found.pattern.rounds[one.index].heading.start: one for one in found.workings.rounds}
        starts = [*heads]
        kept: dict[int, int] = {}
        for index in sorted(unrolling.own):
            span = unrolling.round(index).heading
            start, end = (made.now(at if before is None else before.now(at)) for at in (span.start, span.end))
            # where a heading is a list of lines, one a size, it begins with a line that may have gone
            at = bisect_left(starts, start)
            kept.setdefault(starts[at] if at < len(starts) and starts[at] < end else start, index)
        in_order = tuple(sorted(places, key=lambda placed: placed[0]))
        return cls(made, found, tuple(unrolled), in_order, kept, heads, before)

    def copied(self, round_: Round) -> tuple[Span, Copy, Unrolled] | None:
        """Return the copy that a round of this text is, None for one of the draft's own."""
        start = round_.heading.start
        at = bisect_right(self.places, start, key=lambda placed: placed[0].start) - 1
        return self.places[at] if at >= 0 and start < self.places[at][0].end else None

    def own(self, round_: Round) -> int | None:
        """Return the index that a round has in the whole draft, None where it was written out."""
        return self.kept.get(round_.heading.start)

    def count_at(self, place: Span) -> int | None:
        """Return what the round comes to that begins within a stretch of this text."""
        starts = [*self.heads]
        at = bisect_left(starts, place.start)
        if at == len(starts) or starts[at] >= place.end:
            return None
        sizes = self.heads[starts[at]].sizes
        return sizes[0].count if sizes and sizes[0] is not None else None

    def now(self, offset: int) -> int:
        """Return where a place of the whole draft stands in this text."""
        return self.made.now(offset if self.before is None else self.before.now(offset))


def size_asked(found: Proof, name: str | None) -> int:
    """Return the index of the size asked for, 0 for a draft in one size.

    Raises `ChoiceError` where the draft has no such size, or has several and none was asked for.
    """
    names = found.pattern.sizes.names
    if name is not None:
        return size_named(found, name)
    if len(names) > 1:
        raise ChoiceError(f"{found.draft.path} is written in several sizes, say which with --size: {', '.join(names)}")
    return 0


def longhand(found: Proof, size: str | None = None) -> Longhand:
    """Write a draft out for one size.

    `found` is the proof of the whole draft. `size` may be left out where the draft has one size. Raises `ChoiceError`
    where the draft has no such size, or has several and none is named.
    """
    index = size_asked(found, size)
    edits = [*size_edits(found, index)]
    unrolling = Unrolling.of(found, index, edits)
    written = _counts_added(unrolling, _tried(unrolling, edits))
    names = found.pattern.sizes.names
    rounds = tuple(_written(one, unrolling, written) for one in written.proof.workings.rounds)
    return Longhand(written.proof, names[index] if names else None, rounds)


# ---------------------------------------------------------------- writing out


def _tried(unrolling: Unrolling, edits: Sequence[Edit]) -> _Try:
    """Write out all that can be; what then comes to other counts than in the draft is left as the draft has it."""
    elided = [*unrolling.elided()]
    edits = [*edits, *(one for one in elided if isinstance(one, Edit))]
    wanted = [*unrolling.repeats(), *(one for one in elided if isinstance(one, Unrolled)), *unrolling.noted()]
    best = _attempt(unrolling, edits, wanted)
    for _ in range(_MOST_TRIES):
        wrong = _wrong(unrolling, best)
        if not wrong:
            break
        wanted = [one for one in wanted if one not in wrong]
        best = _attempt(unrolling, edits, wanted)
    return best


def _attempt(unrolling: Unrolling, edits: Sequence[Edit], wanted: Sequence[Unrolled]) -> _Try:
    text = unrolling.proof.draft.text
    newline = "\r\n" if "\r\n" in text else "\n"
    whole = [Edit(one.span, _block(one, newline)) for one in wanted]
    replaced = [one.span for one in wanted if one.span.start < one.span.end]
    free = [
        edit for edit in edits if not any(edit.span.start < one.end and one.start < edit.span.end for one in replaced)
    ]
    made = edited(text, [*free, *whole])
    by_edit = dict(zip(made.edits, made.places, strict=True))
    places: list[_Placed] = []
    for one, edit in zip(wanted, whole, strict=True):
        if edit not in by_edit:
            continue
        at = by_edit[edit].start + (0 if one.span.start < one.span.end else len(newline))
        for copy in one.copies:
            words = copy.words + copy.own
            places.append((Span(at, at + len(words)), copy, one))
            at += len(words) + len(newline)
    return _Try.of(unrolling, made, wanted, places)


def _block(one: Unrolled, newline: str) -> str:
    lines = newline.join(copy.words + copy.own for copy in one.copies)
    return lines if one.span.start < one.span.end else newline + lines


def _wrong(unrolling: Unrolling, tried: _Try) -> list[Unrolled]:
    """Return what was written out and comes to another count than the draft, or makes a later round do so."""
    ends = {id(one): tried.count_at(place) for place, _, one in tried.places}
    wrong = [one for one in tried.unrolled if one.count is not None and ends.get(id(one)) != one.count]
    if wrong:
        return wrong
    replaced = {one.round for one in tried.unrolled if one.span.start < one.span.end}
    for one in unrolling.proof.workings.rounds:
        round_ = unrolling.round(one.index)
        own = unrolling.working(one.index)
        if own is None or one.index in replaced or one.index not in unrolling.own:
            continue
        now = tried.made.now(round_.heading.start)
        if tried.count_at(Span(now, now + 1)) != own.count:
            before = [each for each in tried.unrolled if each.span.start <= round_.span.start]
            return before[-1:] and [max(before, key=lambda each: each.span.start)]
    return []


# ---------------------------------------------------------------- counts


def _counts_added(unrolling: Unrolling, tried: _Try) -> _Try:
    """State the count of every round that was worked for sure and doesn't state it yet."""
    edits: list[Edit] = []
    near: Manner | None = None
    draft = tried.proof.draft
    first = next(filter(None, (manner_of(draft, one) for one in tried.proof.pattern.rounds)), PLAIN)
    for one in tried.proof.workings.rounds:
        round_ = tried.proof.pattern.rounds[one.index]
        near = manner_of(draft, round_) or near
        index = tried.own(round_)
        if round_.claims or round_.closing or not _needs_count(round_) or (index and _miscounted(unrolling, index)):
            continue
        copied = tried.copied(round_)
        source = _words_of(unrolling.proof, tried, copied[1]) if copied is not None else None
        own = _count_of(unrolling, tried, one)
        parts = parts_of(draft, round_)
        if copied is not None:
            parts = replace(parts, words=Span(parts.words.start, copied[0].end), end=copied[0].end)
        edits += _with_count(draft, parts, own, source, near or first)
    return _stated(unrolling, tried, edits)


def _stated(unrolling: Unrolling, tried: _Try, edits: Sequence[Edit]) -> _Try:
    """Put counts into a text; those that make it read otherwise are left out again."""
    made = edited(tried.made.text, edits)
    places = ((Span(made.now(place.start), made.now(place.end)), copy, one) for place, copy, one in tried.places)
    written = _Try.of(unrolling, made, tried.unrolled, places, tried)
    differ = [
        written.proof.pattern.rounds[one.index].span
        for one in written.proof.workings.rounds
        if one.sizes and one.sizes[0] is not None and one.sizes[0].agrees is False
    ]
    wrong = {
        edit
        for edit, place in zip(made.edits, made.places, strict=True)
        if any(span.start <= place.start < span.end for span in differ)
    }
    if wrong:
        return _stated(unrolling, tried, [edit for edit in edits if edit not in wrong])
    as_many = len(written.proof.pattern.rounds) == len(tried.proof.pattern.rounds)
    return written if as_many or not edits else _stated(unrolling, tried, [])


def _count_of(unrolling: Unrolling, tried: _Try, one: RoundWorking) -> SizeWorking | None:
    """Return the working of a round that counts for sure: that of the text written out, or else of the draft."""
    own = one.sizes[0] if one.sizes else None
    if own is not None and own.count is not None and own.sure and one.standing is Standing.UNSTATED:
        return own
    round_ = tried.proof.pattern.rounds[one.index]
    copied = tried.copied(round_)
    if copied is not None:
        return unrolling.working(copied[2].round) if copied[2].plain else None
    return unrolling.working(index) if (index := tried.own(round_)) is not None else None


def _needs_count(round_: Round) -> bool:
    measured = isinstance(round_.directive, RepeatRounds) and round_.directive.measured
    return not round_.foundation and not measured


def _words_of(found: Proof, tried: _Try, copy: Copy) -> Round | None:
    """Return the round of the new text whose words a copy has."""
    working = tried.heads.get(tried.now(found.pattern.rounds[copy.source].heading.start))
    return tried.proof.pattern.rounds[working.index] if working is not None else None


def _with_count(
    draft: Draft, parts: Parts, own: SizeWorking | None, source: Round | None, near: Manner
) -> Iterator[Edit]:
    """State the count of a round as the round does whose words it has, or else as the rounds near it do."""
    if own is None or own.count is None or not own.sure or not parts.plain:
        return
    place = Span(parts.words.start, parts.end)
    at = place.start - (draft.text.rfind("\n", 0, place.start) + 1)
    words = draft.words(place)
    if not re.search(r"\w", words):
        return
    like = parts_of(draft, source) if source is not None else None
    if source is not None and like is not None and like.count is not None and like.plain:
        manner, same = manner_of(draft, source), stated_of(source.claims, 0) == own.count
        if same and manner is None:
            # `48 tr, 48 1-ch sps`: the same again
            yield Edit(place, words.rstrip() + draft.words(Span(like.count.start, like.end)))
            return
        if same and manner is not None:
            yield Edit(place, counted(words, manner, own.count, None, at))
            return
        near = manner or near
    yield Edit(place, counted(words, near, own.count, own.kinds, at))


def _written(one: RoundWorking, unrolling: Unrolling, written: _Try) -> Written:
    round_ = written.proof.pattern.rounds[one.index]
    mark = {Standing.UNREAD: Mark.UNREAD, Standing.DIFFERS: Mark.DIFFERS}.get(one.standing)
    words = words_start(written.proof.draft, round_)
    copied = written.copied(round_)
    if copied is not None:
        place, copy, unrolled = copied
        known = mark is Mark.UNREAD and unrolled.count is not None
        own = unrolled.round if copy.of is None else copy.of
        return Written(own, words, place.end, copy.turn, copy.turns, None if known else mark)
    index = written.own(round_)
    before = unrolling.working(index) if index is not None else None
    if before is not None and index is not None:
        # the whole draft tells more than a single size does
        mark = Mark.DIFFERS if before.agrees is False else None
        now = one.sizes[0].count if one.sizes and one.sizes[0] is not None else None
        if now not in (None, before.count) and unrolling.round(index).elided is None:
            mark = Mark.UNREAD  # what it depends on can't be written for one size
    if index is not None and (strange := _miscounted(unrolling, index)):
        counts = [claim.span for claim in unrolling.round(index).claims]
        only_counts = all(any(one.start <= each.start < one.end for one in counts) for each in strange)
        mark = Mark.DIFFERS if only_counts and before is not None else Mark.UNREAD
    return Written(index, words, parts_of(written.proof.draft, round_).end, mark=mark)


def _miscounted(unrolling: Unrolling, index: int) -> list[Span]:
    """Return the lists of a round that have not one figure a size: nobody knows whose they are."""
    pattern = unrolling.proof.pattern
    span = pattern.rounds[index].span
    if pattern.sizes.number < 2:
        return []
    round_ = pattern.rounds[index]
    told = [step.span for step in round_.steps if not isinstance(step, Remark)]
    told += [round_.directive.span] if round_.directive is not None else []
    told += [claim.span for claim in round_.claims]
    return [
        one.span
        for one in pattern.lists
        if span.start <= one.span.start < span.end
        and any(each.start <= one.span.start < each.end for each in told)
        and place_in(pattern, one, unrolling.size) is None
    ]
