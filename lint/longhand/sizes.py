"""What a draft says of its other sizes and nothing else: words that go when it is written for one."""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence

from ..draft import Draft, Span
from ..figures import FigureList
from ..later import later
from ..pattern import Pattern, Round, SizeNote
from ..proof import Proof
from .edits import Edit
from .figures import heading_numbers, list_figure, prose_figures, ways

_ABOUT_LISTS = later(
    r"(?i)\b(?:figures?|instructions?|directions?|numbers?|changes|counts?|sizes?)\b.{0,40}?"
    r"\b(?:given|written|brackets?|parenthes[ei]s|as follows|order|always)\b"
)
_OF_SIZE = later(r"(?i)\s+size\b")
# behind the last of `size 8. Changes for sizes 10 and 12 are in parentheses`
_IN_BRACKETS = later(
    r"(?i)(?:\s+sizes?\b)?(?:\s*\([^()\d]{1,6}\))?(?:\s+(?:are|is))?(?:\s+(?:given|shown|written))?\s+(?:in|with\w*)\s+(?:the\s+)?"
    r"(?:\(\s*\)|\[\s*\]|brackets\b|parenthes[ie]s\b)"
)
_HEADED = later(r"(?i)\b(?:(?P<word>rnd|round|row)s?\b|(?P<short>r)(?=\d))")
_MOST = 600  # no heading covers more rounds
_JOINT = r"[\s,;:/()\[\]{}&|-]*(?:\b(?:and|or)\b)?[\s,;:/()\[\]{}&|-]*"


def size_edits(proof: Proof, size: int) -> Iterator[Edit]:
    """Give the edits that leave only one size's figures and lines; none for a draft in one size."""
    pattern, text = proof.pattern, proof.draft.text
    if pattern.sizes.number < 2:
        return
    own = rounds_for(pattern, size)
    yield from (Edit(span, "") for span in _other_lines(proof, size, own))
    yield from _gaps(proof, size, own)
    yield from _declaration(proof, size)
    counts = {claim.figure.span: claim.span for round_ in pattern.rounds for claim in round_.claims}
    read: list[Span] = []
    for found in pattern.lists:
        if (place := place_in(pattern, found, size)) is not None:
            read.append(found.span)
            yield list_figure(text, found, place, counts.get(found.span))
    yield from ways(text, pattern.sizes.number, size)
    for index in own:
        if numbers := heading_numbers(text, pattern.rounds[index], size):
            read.append(pattern.rounds[index].heading)
            yield numbers
    # the lists of instructions are known by now; what is left are measurements, yarn and the like
    read.sort()
    for edit in prose_figures(text, Span(0, len(text)), pattern.sizes.number, size):
        at = bisect_left(read, edit.span.end, key=lambda one: one.start) - 1
        if at < 0 or read[at].end <= edit.span.start:
            yield edit


def rounds_for(pattern: Pattern, size: int) -> frozenset[int]:
    """Return the indices of the rounds that a size works."""
    lists = sorted((one for one in pattern.lists if len(one.values) == pattern.sizes.number), key=lambda one: one.span)
    return frozenset(index for index, round_ in enumerate(pattern.rounds) if _is_for(lists, round_, size))


def _is_for(lists: Sequence[FigureList], round_: Round, size: int) -> bool:
    if round_.sizes is not None and size not in round_.sizes:
        return False
    if round_.first is not None and round_.first.at(size) is None:
        return False
    first, last = (
        bisect_left(lists, at, key=lambda one: one.span.start) for at in (round_.span.start, round_.span.end)
    )
    inside = lists[first:last]
    # `[k9[-, 11], k2tog] 4 times` is for both; dashes wherever there are lists leave a size out
    return not inside or any(one.values[size] is not None for one in inside)


def place_in(pattern: Pattern, found: FigureList, size: int) -> int | None:
    """Return which figure of a list is a size's; None where it has not one for each size it is for."""
    if len(found.values) == pattern.sizes.number:
        return size
    for round_ in pattern.rounds:
        if round_.sizes and round_.span.start <= found.span.start < round_.span.end:
            own = sorted(round_.sizes)
            return own.index(size) if len(own) == len(found.values) and size in own else None
    return None


def whole_lines(draft: Draft, span: Span) -> Span:
    """Return the lines that a span fills, with their ends, where nothing else stands on them; or else the span."""
    first = _line(draft, span.start)
    last = _line(draft, max(span.start, span.end - 1))
    start, end = draft.starts[first], draft.line_span(last).end
    if draft.text[start : span.start].strip(" \t*#_-•") or draft.text[span.end : end].strip(" \t*_.:"):
        return span
    after = draft.starts[last + 1] if last + 1 < len(draft.starts) else len(draft.text)
    return Span(start, after)


def _other_lines(proof: Proof, size: int, rounds: frozenset[int]) -> Iterator[Span]:
    """Give the stretches that are for other sizes, and the words that only say for which sizes the next are."""
    draft, pattern = proof.draft, proof.pattern
    for index, round_ in enumerate(pattern.rounds):
        if index not in rounds:
            yield _without_gap(draft, whole_lines(draft, _trimmed(draft, round_.span)))
    for note in pattern.size_notes:
        if led := _leading(draft, pattern, note):
            yield led
            continue
        own = note.sizes is None or size in note.sizes
        yield from _own_note(draft, pattern, note) if own else _foreign_note(draft, pattern, note, rounds)
    for section in pattern.sections:
        if section.sizes is not None and size not in section.sizes:
            yield whole_lines(draft, section.span)
    yield from _lines_about_lists(proof)
    yield from _listed_by_line(draft, pattern, size)


def _listed_by_line(draft: Draft, pattern: Pattern, size: int) -> Iterator[Span]:
    """Give the others of lines that follow each other and tell something of one size each: `- 4Y = 80 sts`."""
    names = [name.casefold() for name in pattern.sizes.names]
    some = "|".join(sorted(map(re.escape, names), key=len, reverse=True))
    told = re.compile(rf"(?i)[ \t]*[-*•–]?[ \t]*(?:sizes?[ \t]+)?(?P<name>{some})[ \t]*[=:][ \t]*\S")
    run: dict[int, Span] = {}
    for index in range(len(draft.starts) + 1):
        line = draft.line_span(index) if index < len(draft.starts) else None
        found = told.match(draft.text, line.start, line.end) if line is not None else None
        place = names.index(found["name"].casefold()) if found is not None else None
        if line is not None and place is not None and place not in run:
            run[place] = line
            continue
        if len(run) > 1 and size in run:
            yield from (whole_lines(draft, other) for own, other in run.items() if own != size)
        run = {place: line} if line is not None and place is not None else {}


def _gaps(proof: Proof, size: int, rounds: frozenset[int]) -> Iterator[Edit]:
    """Say which numbers a size does not have where rounds of other sizes leave a gap."""
    draft, pattern = proof.draft, proof.pattern
    if any(round_.elided for round_ in pattern.rounds) or pattern.elisions:
        return
    others: set[int] = set()
    before: tuple[int, int] | None = None
    for index, round_ in enumerate(pattern.rounds):
        first, last = _numbers(round_, size)
        if index not in rounds:
            first, last = _numbers(round_, round_.sizes[0] if round_.sizes else None)
            others.update(range(first or 1, min(last or 0, (first or 1) + _MOST) + 1))
        elif first is not None and last is not None:
            missing = range(before[1] + 1, first) if before and before[0] == round_.section else range(0)
            if missing and others.issuperset(missing):
                start = draft.starts[_line(draft, round_.heading.start)]
                newline = "\r\n" if "\r\n" in draft.text else "\n"
                words = _no_such(draft.words(round_.heading), missing)
                yield Edit(Span(start, start), f"(This size has no {words}.){newline}")
            before, others = (round_.section, last), set()


def _no_such(heading: str, missing: range) -> str:
    """Name missing numbers as a heading names its own: `Rnd 8`, `Rnds 8 to 10`, `R8`."""
    word = _HEADED.search(heading)
    if word is None:
        named = ""
    elif word["short"]:
        return f"{word['short']}{missing[0]}" + (f" to {missing[-1]}" if len(missing) > 1 else "")
    else:
        named = word["word"] + ("s" if len(missing) > 1 else "")
    between = " and " if len(missing) == 2 else " to "
    return f"{named or 'number'} {missing[0]}" + (f"{between}{missing[-1]}" if len(missing) > 1 else "")


def _numbers(round_: Round, size: int | None) -> tuple[int | None, int | None]:
    if round_.first is None or round_.last is None:
        return None, None
    if size is None:
        known = [value for value in round_.first.values if value is not None]
        ends = [value for value in round_.last.values if value is not None]
        return (min(known), max(ends)) if known and ends else (None, None)
    return round_.first.at(size), round_.last.at(size)


def _trimmed(draft: Draft, span: Span) -> Span:
    return Span(span.start, span.start + len(draft.words(span).rstrip()))


def _leading(draft: Draft, pattern: Pattern, note: SizeNote) -> Span | None:
    """Return a note with what parts it from the round after it, where that is on its line: `L only - Rnd 7: ...`."""
    if note.before_round >= len(pattern.rounds):
        return None
    start = pattern.rounds[note.before_round].span.start
    if note.span.end > start or re.search(r"[\w\r\n]", draft.text[note.span.end : start]):
        return None
    words = draft.words(note.span)
    return Span(note.span.start + len(words) - len(words.lstrip()), start)


def _own_note(draft: Draft, pattern: Pattern, note: SizeNote) -> Iterator[Span]:
    """Drop the words of a note for this size where they are a line, or open or name a round."""
    whole = whole_lines(draft, _trimmed(draft, note.span))
    if whole != _trimmed(draft, note.span):
        yield _without_gap(draft, whole)
        return
    for round_ in pattern.rounds:
        if round_.heading.start <= note.span.start and note.span.end <= round_.heading.end:
            before = draft.text[: note.span.start].rstrip(" ,")
            yield Span(len(before), note.span.end)
            return
        if round_.span.start <= note.span.start < round_.span.end:
            after = re.compile(r"\s*[:.,]?\s*").match(draft.text, note.span.end)
            yield Span(note.span.start, after.end() if after else note.span.end)
            return


def _foreign_note(draft: Draft, pattern: Pattern, note: SizeNote, rounds: frozenset[int]) -> Iterator[Span]:
    """Drop a note for other sizes, with the talk after it: up to the next note, or else to the next round."""
    index = _line(draft, note.span.start)
    start = draft.starts[index]
    if draft.text[start : note.span.start].strip(" \t*#_-•"):
        return
    notes = {_line(draft, one.span.start) for one in pattern.size_notes}
    stops = {_line(draft, one.span.start) for one in pattern.sections}
    stops |= {_line(draft, pattern.rounds[at].span.start) for at in rounds}
    others = {_line(draft, one.span.start) for at, one in enumerate(pattern.rounds) if at not in rounds}
    last, talk = index, True  # `talk` while no round has come yet
    end = index
    while last + 1 < len(draft.starts) and draft.words(draft.line_span(last + 1)).strip():
        last += 1
        if last in notes:
            end = last - 1
            break
        if last in stops:
            break
        talk = talk and last not in others
        end = last if talk else end
    yield _without_gap(draft, Span(start, draft.starts[end + 1] if end + 1 < len(draft.starts) else len(draft.text)))


def _line(draft: Draft, offset: int) -> int:
    return bisect_right(draft.starts, offset) - 1


def _without_gap(draft: Draft, span: Span) -> Span:
    """Take an empty line away with lines that go, where one stands on either side of them."""
    before, after = draft.text[: span.start], draft.text[span.end :]
    if re.search(r"(?:^|[\r\n])[ \t]*(?:\r\n|\n|\r)$", before[-80:]) and (
        empty := re.match(r"[ \t]*(?:\r\n|\n|\r)", after[:80])
    ):
        return Span(span.start, span.end + empty.end())
    return span


def _lines_about_lists(proof: Proof) -> Iterator[Span]:
    """Give what only tells how the figures are written: a line, or a sentence where the sizes are named."""
    draft, pattern = proof.draft, proof.pattern
    names = re.compile(_JOINT.join(re.escape(name) for name in pattern.sizes.names), re.IGNORECASE)
    first = min((round_.span.start for round_ in pattern.rounds), default=len(draft.text))
    declared = pattern.sizes.span or Span(0, 0)
    for index in range(len(draft.starts)):
        line = draft.line_span(index)
        if line.start >= first:
            return
        words = draft.words(line)
        naming = line.start <= declared.start < line.end or line.start < declared.end <= line.end
        if not naming and _ABOUT_LISTS.search(words) and names.search(words):
            yield whole_lines(draft, line)
        for sentence in re.finditer(r"(?<=\. )[^.]+\.", words) if naming else ():
            if _ABOUT_LISTS.search(sentence[0]) and names.search(sentence[0]):
                yield Span(line.start + sentence.start() - 1, line.start + sentence.end())


def _declaration(proof: Proof, size: int) -> Iterator[Edit]:
    """Name one size where the draft declares them all."""
    draft, sizes = proof.draft, proof.pattern.sizes
    if sizes.span is None:
        return
    first, last = (_line(draft, at) for at in (sizes.span.start, max(0, sizes.span.end - 1)))
    places = _places(draft.text, draft.line_span(first).cover(draft.line_span(last)), sizes.names)
    if places is None:
        return
    if changes := _IN_BRACKETS.match(draft.text, places[-1].end):
        own = _OF_SIZE.match(draft.text, places[0].end)
        yield Edit(places[0], draft.words(places[size]))
        yield Edit(Span(own.end() if own else places[0].end, changes.end()), "")
        return
    lines = {_line(draft, place.start) for place in places}
    before = draft.text[: places[0].start]
    if len(lines) == len(places):
        yield from (
            Edit(whole_lines(draft, draft.line_span(_line(draft, place.start))), "")
            for index, place in enumerate(places)
            if index != size
        )
    else:
        end = _list_end(draft.text, places[-1].end, draft.text[places[0].start : places[-1].end])
        yield Edit(
            Span(len(before.rstrip("([{")) if _all_inside(before, draft.text, end) else places[0].start, end),
            _segment(draft.text, places, size),
        )
    if plural := re.search(r"(?i)\bsize(s)\b[^\w]*(?:\w+[^\w]+)?$", before[-60:]):
        at = len(before) - len(before[-60:]) + plural.start(1)
        yield Edit(Span(at, at + 1), "")


def _all_inside(before: str, text: str, end: int) -> bool:
    return before.endswith(("(", "[", "{")) and text[end - 1 : end] in (")", "]", "}")


def _places(text: str, span: Span, names: tuple[str, ...]) -> list[Span] | None:
    """Return where the names of the sizes stand in their declaration, in order."""
    found: list[Span] = []
    at = span.start
    for name in names:
        match = re.compile(rf"(?i)(?<![\w'’]){re.escape(name)}(?!\w)").search(text, at, span.end)
        if match is None:
            return None
        found.append(Span(match.start(), match.end()))
        at = match.end()
    return found


def _list_end(text: str, end: int, words: str) -> int:
    """Return the end of a list of names: behind the bracket that is still open."""
    closing = re.compile(r"\s*(?:\([^()]*\))?\s*[)\]}]").match(text, end)
    opened = sum(words.count(one) for one in "([{") > sum(words.count(one) for one in ")]}")
    inside = text[: end - len(words)].endswith(("(", "[", "{"))
    return closing.end() if closing and (opened or inside) else end


def _segment(text: str, places: list[Span], size: int) -> str:
    """Return a size's name in its declaration, with what is said of it before the next name."""
    place = places[size]
    if size + 1 == len(places):
        return text[place.start : place.end]
    words = text[place.start : places[size + 1].start]
    words = re.sub(r"(?:[\s,;:/&|({\[-]|\b(?:and|or)\b)+$", "", words)
    opened, closed = words.count("("), words.count(")")
    return words if opened == closed else words.rstrip(")") if closed > opened else words + ")" * (opened - closed)
