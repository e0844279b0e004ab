"""The numbers of rows and rounds, part by part and size by size, and what stands between two of them."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, fields, is_dataclass
from itertools import pairwise, zip_longest

from ..lint.draft import Span
from ..lint.later import later
from ..lint.pattern import Directive, Elided, RepeatRounds, Round, WorkEven
from ..lint.steps import Count, Even, FastenOff, Join, Remark, Shaping, Step, Turn
from .rule import Case

_WORD = r"(?:rounds?|rnds?|rds?|rows?|rws?)"
_NUMBER = r"\d{1,3}(?:st|nd|rd|th)?"
_RUN = rf"{_NUMBER}(?:\s*(?:,\s*and|,\s*&|,|&|\+|and|or|to|through|-|\u2013|/)\s*[(\[]?{_NUMBER}[)\]]?)*"
_MENTION = later(rf"(?i)(?:\b{_WORD}|\br(?=\s?\d))\.?\s*(?P<after>{_RUN})|(?P<ahead>{_RUN})\s+{_WORD}\b")
_ENTRIES = later(r"^\s*:\s*(\d{1,3}(?:\s*,\s*\d{1,3})+)\s*:")
_LOOP = later(
    rf"(?i)\b(?:rep|repeat|work|cont|continue|knit|purl|keep|do)\b[^.;*\n]{{0,40}}?"
    rf"(?:\d+|last|these|this|same|one|two|three|four|five|six|more)[^.;*\n]{{0,20}}"
    rf"(?<!\bon )(?<!\bof )(?<!\bin )(?<!\bas )\b{_WORD}\b"
)
_WORK = later(rf"(?i)\b(?:{_WORD}|cont|continue|chart|rep(?:eat)?(?!\s+from))\b")
# in small letters: what may name a round, with its first letter first, so that a search is quick
_NAMES_ROUND = later(r"r(?<!\wr)(?:ound|n?d|o?w|\s?\d)")
_LETTERS = later(r"[A-Za-z]{3}")
_DASHED = later(r"\d\s+[-\u2013]+\s+\d")
_TITLE = later(r"(?:^|\n)\s*[^\n:]{2,40}:")


@dataclass(frozen=True, slots=True)
class Link:
    """A numbered heading as one size meets it.

    `unnumbered` tells how many rounds without numbers may stand between the heading before and this one: each
    amount that the words allow, None where it may be any. `talk` is True where other words stand between.
    """

    index: int
    numbers: tuple[int, ...]
    unnumbered: frozenset[int] | None = frozenset({0})
    talk: bool = False

    @property
    def first(self) -> int:
        """The lowest number covered."""
        return min(self.numbers)

    @property
    def last(self) -> int:
        """The highest number covered."""
        return max(self.numbers)


@dataclass(slots=True)
class Part:
    """The rounds of one section, with what the draft says of their numbers; what is asked often is kept."""

    case: Case
    section: int
    indices: tuple[int, ...]
    mentioned: frozenset[int] = frozenset()
    declaring: tuple[Round, ...] = ()  # rounds of this section and those before it that declare others
    listing: tuple[Round, ...] = ()  # rounds whose headings list single numbers
    alike: bool = False  # whether all sizes meet the same numbers
    _written: dict[int, frozenset[int]] = field(default_factory=dict[int, frozenset[int]])
    _accounted: dict[int, list[int]] = field(default_factory=dict[int, list[int]])
    _links: dict[int, list[Link]] = field(default_factory=dict[int, list["Link"]])
    _between: dict[tuple[int, int], tuple[bool, bool]] = field(default_factory=dict[tuple[int, int], tuple[bool, bool]])

    def round(self, index: int) -> Round:
        """Return a round of the pattern."""
        return self.case.pattern.rounds[index]

    def written(self, size: int) -> frozenset[int]:
        """Return the numbers that are written for a size, or in rounds for some other sizes only."""
        if size in self._written:
            return self._written[size]
        found: set[int] = set()
        for index in self.indices:
            round_ = self.round(index)
            if is_for(round_, size):
                found.update(numbers_of(round_, size))
            else:
                found.update(number for other in round_.sizes or (size,) for number in numbers_of(round_, other))
        self._written[size] = frozenset(found)
        return self._written[size]

    def accounted(self, size: int) -> list[int]:
        """Return the numbers that are written or spoken of, in order."""
        if size not in self._accounted:
            self._accounted[size] = sorted(self.written(size) | self.mentioned)
        return self._accounted[size]

    def between(self, before: int, index: int) -> tuple[bool, bool]:
        """Tell whether words stand between two headings, and whether rounds may be worked again there."""
        if (before, index) not in self._between:
            body, spoken = _between(self, before, index)
            loops = _NAMES_ROUND.search((body + " " + spoken).lower()) and _LOOP.search(body + " " + spoken)
            works = spoken.strip() and _WORK.search(spoken)
            self._between[before, index] = bool(_LETTERS.search(spoken)), bool(loops or works)
        return self._between[before, index]

    def links(self, size: int) -> list[Link]:
        """Return the numbered headings for a size, in order."""
        if size not in self._links:
            self._links[size] = _links(self, size)
        return self._links[size]


def noun(round_: Round) -> str:
    """Return what the draft calls a round: "row" or "round"."""
    return "row" if round_.flat else "round"


def numbers_of(round_: Round, size: int) -> tuple[int, ...]:
    """Return the numbers that a heading covers for a size; empty where it has none."""
    if round_.listed:
        return round_.listed
    first = round_.first.at(size) if round_.first else None
    last = round_.last.at(size) if round_.last else first
    if first is None:
        return ()
    if last is None or last < first:
        return (first,)
    return tuple(range(first, min(last, first + 600) + 1))


def is_for(round_: Round, size: int) -> bool:
    """Tell whether a size works a round."""
    return round_.sizes is None or size in round_.sizes


def parts(case: Case) -> tuple[Part, ...]:
    """Return the parts of a draft that number their rounds."""
    return case.once("parts", lambda: tuple(_parts(case)))


def _parts(case: Case) -> Iterator[Part]:
    rounds = case.pattern.rounds
    by_section: dict[int, list[int]] = {}
    for index, round_ in enumerate(rounds):
        by_section.setdefault(round_.section, []).append(index)
    declaring = [one for one in rounds if one.elided is not None]
    for section in sorted(by_section):
        whole = tuple(by_section[section])
        for indices in _series(rounds, whole):
            part = Part(case, section, indices)
            part.listing = tuple(rounds[index] for index in indices if rounds[index].listed)
            part.mentioned = frozenset(_mentioned(case, indices))
            part.declaring = tuple(one for one in declaring if one.section <= section)
            part.alike = all(map(_is_alike, (*(rounds[index] for index in indices), *part.declaring)))
            yield part


def _is_alike(round_: Round) -> bool:
    """Tell whether a round is the same to all sizes, as far as its numbers go."""
    figures = (round_.first, round_.last, round_.many)
    same = round_.sizes is None and round_.directive is None
    return same and not any(one is not None and one.is_list for one in figures) and not _holds_rows(round_)


def _holds_rows(round_: Round) -> bool:
    return round_.first is None and any(isinstance(step, Even) for step in round_.steps)


def _series(rounds: Sequence[Round], indices: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """Yield the stretches that count on: rows and rounds of one part may each have a numbering of their own."""
    numbered = [index for index in indices if rounds[index].first is not None]
    for before, index in pairwise(numbered):
        last, first = numbers_of(rounds[before], 0)[-1:], numbers_of(rounds[index], 0)[:1]
        if rounds[before].flat is not rounds[index].flat and last and first and first[0] != last[0] + 1:
            yield tuple(index for index in indices if rounds[index].flat)
            yield tuple(index for index in indices if not rounds[index].flat)
            return
    yield indices


def _mentioned(case: Case, indices: tuple[int, ...]) -> Iterable[int]:
    """Yield the numbers of rounds that are spoken of between the first heading of a part and its last."""
    rounds = case.pattern.rounds
    numbered = [index for index in indices if rounds[index].first is not None]
    if not numbered:
        return
    for before, index in pairwise(numbered):
        text = case.draft.text[rounds[before].heading.end : rounds[index].heading.start]
        if entries := _ENTRIES.match(text):
            yield from (int(number) for number in re.findall(r"\d+", entries[1]))
        if not _NAMES_ROUND.search(text.lower()):
            continue
        for match in _MENTION.finditer(text):
            yield from _run(match["after"] or match["ahead"])


def _run(words: str) -> Iterable[int]:
    """Read the numbers of `8, 10 & 12` and `2 to 5`."""
    found = list(re.finditer(r"\d+", words))
    for here, after in zip_longest(found, found[1:]):
        yield int(here[0])
        if after is not None and re.search(r"(?i)to|through|-|\u2013", words[here.end() : after.start()]):
            yield from range(int(here[0]) + 1, min(int(after[0]), int(here[0]) + 300))


def _links(part: Part, size: int) -> list[Link]:
    found: list[Link] = []
    before: int | None = None
    loose: frozenset[int] | None = frozenset({0})
    for index in part.indices:
        round_ = part.round(index)
        if not is_for(round_, size):
            continue
        numbers = numbers_of(round_, size)
        if not numbers:
            loose = _sum(loose, _unnumbered(round_, size))
            continue
        if _sizes_in_heading_unread(part, round_):
            loose, before = None, index
            continue
        talk = False
        if before is not None:
            talk, loops = part.between(before, index)
            loose = None if loops else loose
        found.append(Link(index, numbers, loose, talk))
        loose, before = _hidden(round_, size, len(numbers)), index
    return [_single(part, link, after) for link, after in zip_longest(found, found[1:])]


def _single(part: Part, link: Link, after: Link | None) -> Link:
    """Take `Rnd 3 - 6 sc around` followed by `Rnd 4` for round 3 alone."""
    run = link.numbers[-1] - link.numbers[0] + 1 == len(link.numbers) > 1
    if run and _DASHED.search(part.round(link.index).label) and after is not None and after.first == link.first + 1:
        return Link(link.index, link.numbers[:1], link.unnumbered, link.talk)
    return link


def _sizes_in_heading_unread(part: Part, round_: Round) -> bool:
    return bool(round_.listed) and "/" in round_.label and part.case.pattern.sizes.number > 1


def _between(part: Part, before: int, index: int) -> tuple[str, str]:
    """Return the words of the round before, unless a directive was read there, and what stands after it."""
    text = part.case.draft.text
    rounds = part.case.pattern.rounds
    here = rounds[index]
    inside: list[str] = []
    outside: list[str] = []
    at = rounds[before].heading.end
    for one in rounds[before:index]:
        if one.span.start > at:
            outside.append(text[at : one.span.start])
        at = max(at, one.span.end)
        if one.directive is None:
            inside.append(text[one.heading.end : max(one.heading.end, one.span.end)])
    if here.span.start > at:
        outside.append(text[at : here.span.start])
    notes = [note.span for note in part.case.pattern.size_notes]
    spoken = " ".join(outside)
    for note in notes:
        spoken = spoken.replace(text[note.start : note.end], " ")
    return " ".join(inside), spoken


def _sum(loose: frozenset[int] | None, more: frozenset[int] | None) -> frozenset[int] | None:
    if loose is None or more is None or len(loose) * len(more) > 400:
        return None
    return frozenset(a + b for a in loose for b in more)


def _unnumbered(round_: Round, size: int) -> frozenset[int] | None:
    """Return how many rounds a line without a number may add to the numbering."""
    if round_.foundation:
        return frozenset({0, 1})
    if round_.directive is None:
        own = _own_rows(round_, size)
        return None if own is None else frozenset({0, 1, own})
    worked = _worked(round_.directive, size)
    return None if worked is None else worked | {0}


def _own_rows(round_: Round, size: int) -> int | None:
    """Return how many rows a line without a number holds: `Work 5 rows.`; None where that depends."""
    if round_.many:
        return round_.many.at(size) or 1
    if any(isinstance(step, Shaping) for step in round_.steps):
        return None
    rows = [step.rounds.at(size) if step.rounds else None for step in round_.steps if isinstance(step, Even)]
    return None if None in rows else sum(row or 0 for row in rows) or 1


def _hidden(round_: Round, size: int, covered: int) -> frozenset[int] | None:
    """Return how many rounds more than its heading covers a directive may have worked."""
    if round_.directive is None:
        return frozenset({0})
    worked = _worked(round_.directive, size)
    if worked is None:
        measured = round_.directive.measured
        return None if measured or covered == 1 else frozenset({0})
    return (
        frozenset({0, *(number - covered for number in worked if number > covered)}) if covered == 1 else frozenset({0})
    )


def _worked(directive: Directive, size: int) -> frozenset[int] | None:
    """Return how many rounds a directive works, all that its words allow; None where that depends."""
    if directive.measured:
        return None
    if isinstance(directive, WorkEven):
        number = directive.rounds.at(size) if directive.rounds else None
        return None if number is None else frozenset({number})
    if directive.until or directive.rounds or directive.ending or directive.then:
        return None
    if directive.first is not None:
        unit = (directive.last or directive.first) - directive.first + 1
    elif directive.back is not None:
        unit = directive.back
    else:
        return None
    if directive.times is None or directive.times.number is None:
        return frozenset({unit})
    times = directive.times.number.at(size)
    if times is None:
        return None
    if directive.times.count is Count.EITHER:
        return frozenset({unit * (times - 1), unit * times, unit * (times + 1)})
    return frozenset({unit * times})


# ---------------------------------------------------------------- rounds that are declared and not written


_ROWS = r"(?:rounds?|rnds?|rows?)"
_ALTERNATE = later(
    rf"(?i)\b(?:(?:alternate|alt\.?|every\s+(?:other|second|2nd)|other|"
    rf"(?:even|odd)(?:[- ]?numbered)?|unwritten)\s+{_ROWS}|"
    rf"all\s+(?:the\s+)?(?:(?:ws|rs|even|odd)\b|(?:wrong|right)[- ]side|other\s+{_ROWS})|"
    rf"(?:ws|rs|wrong[- ]side)\s+(?:rounds|rnds|rows)|"
    rf"{_ROWS}\s+(?:not|in\s*between|between(?!\s+\d)))\b"
)


def speaks_of_alternate(part: Part) -> bool:
    """Tell whether the draft speaks anywhere of alternate, even, odd or wrong-side rounds."""
    case = part.case
    return case.once("speaks of alternate", lambda: bool(_ALTERNATE.search(case.draft.text)))


def elision_unread(part: Part) -> bool:
    """Tell whether the draft speaks of alternate rounds in words of which no declaration could be read."""
    pattern = part.case.pattern
    read = pattern.elisions or any(round_.elided is not None for round_ in pattern.rounds)
    return not read and speaks_of_alternate(part)


def declared(part: Part, number: int, size: int) -> bool:
    """Tell whether a round is declared elsewhere: `2nd and every alternate rnd`, `even rounds: sc around`."""
    pattern = part.case.pattern
    for round_ in part.declaring:
        here = round_.section == part.section
        if round_.elided and is_for(round_, size) and elides(round_.elided, round_, number, size, bounded=here):
            return True
    notes = [*pattern.elisions]
    return any(elides(note, None, number, size, bounded=True) for note in notes)


def elides(note: Elided, round_: Round | None, number: int, size: int, *, bounded: bool) -> bool:
    """Tell whether a declaration covers a number for a size; without `bounded` only odd and even matter."""
    own = round_.first.at(size) if round_ is not None and round_.first is not None else None
    parity = own % 2 if own is not None and note.first is not None else note.parity
    if parity is not None and number % 2 != parity:
        return False
    if not bounded:
        return True
    first = own if own is not None else note.first
    several = round_ is not None and round_.first is not None and round_.first.is_list
    within = note.last is None or several or number <= note.last
    return within and (first is None or number >= first)


def starts_anew(part: Part, link: Link) -> bool:
    """Tell whether words before a heading may name another piece, so that its numbers start again."""
    at = bisect_left(part.indices, link.index)
    if link.talk or not at:
        return True
    body, between = _between(part, part.indices[at - 1], link.index)
    return bool(_TITLE.search("\n" + between) or re.search(r"\n\s*[A-Z][A-Z ]{3,}\b", body))


_IDLE = (Remark, Join, Turn, FastenOff)


def shape(value: object) -> object:
    """Return what words say, without where they stand: two steps with the same shape are worked alike."""
    if isinstance(value, Span):
        return None
    if isinstance(value, tuple):
        items: tuple[object, ...] = value  # pyright: ignore[reportUnknownVariableType]
        return tuple(shape(one) for one in items if not isinstance(one, _IDLE))
    if is_dataclass(value) and not isinstance(value, type):
        inner = tuple(shape(getattr(value, one.name)) for one in fields(value) if one.name != "span")
        return (type(value).__name__, *inner)
    return value


def worked_alike(one: tuple[Step, ...], other: tuple[Step, ...]) -> bool:
    """Tell whether two rounds are worked with the same steps."""
    return shape(one) == shape(other)


def repeats_rows(directive: Directive | None) -> int:
    """Return how many rows a repeat of rows takes at a time, 0 where it is none or doesn't say."""
    if not isinstance(directive, RepeatRounds):
        return 0
    if directive.first is not None:
        return (directive.last or directive.first) - directive.first + 1
    return directive.back or 0
