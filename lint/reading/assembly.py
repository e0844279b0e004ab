"""The pattern in the making: its sections and sizes so far, and the reading of one stretch of words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeAlias, cast

from ..draft import Draft, Span
from ..figures import FigureList, Sizes
from ..later import later
from ..pattern import Claim, Round, Section, SizeNote
from ..steps import Chain, Remark, Repeat, Step, Together, Unread, Work
from .alike import Alike
from .blocks import Block
from .claims import claims_in
from .directives import Directed, read_directive
from .figures import lift, lists_in
from .marks import Item, kind, text_at, tree
from .parts import Part, marked
from .sides import BOTH, of_side, on_one_side, one_side, said_of_both
from .sizes import size_note
from .steps import Steps, read_steps
from .times import figure_at
from .words import Word, Words

# parts that are begun apart from the one before, on stitches of their own
_NEW_PIECE = later(
    r"(?i)\b(?:sleeves?|fronts?|backs?|left|right|second|2nd|thumbs?|arms?|legs?|ears?|tail|body|head|collar|neck\w*|bands?|border|edging|straps?|"
    r"pockets?|hood|wings?|feet|foot|side|pieces?|squares?|flower|tie|cord|i-cord)\b"
)


_Parsed: TypeAlias = tuple[Steps, Directed | None, tuple[Claim, ...], tuple[FigureList, ...]]
_BEFORE = "before"  # `work across as before`: the words before them matter as well


@dataclass(slots=True)
class Assembly:
    """What is known so far while the blocks are gone through in order."""

    draft: Draft
    text: str
    words: Words
    sizes: Sizes
    rounds: list[Round] = field(default_factory=list[Round])
    sections: list[Section] = field(default_factory=list[Section])
    lists: list[FigureList] = field(default_factory=list[FigureList])
    notes: list[SizeNote] = field(default_factory=list[SizeNote])
    title: tuple[str, Span] | None = None
    fresh: bool = True
    only: tuple[int, ...] | None = None
    away: dict[int, int | None] = field(default_factory=dict[int, "int | None"])  # sizes sent on, to which round
    governed: bool = False  # a round has been taken under the present note on sizes
    leading: tuple[Step, ...] = ()  # steps told before the heading of the round that they are part of
    once: tuple[int, ...] | None = None  # sizes that only the next round is for
    habit: bool = False
    figures: bool = False  # bare figures stand for single crochet: `(1, inc) x 6`
    knit: bool = False
    unheaded: bool = False  # no round of the draft has a heading, so that its lines alone say what is done
    sides: bool = False  # both sides of a neck are worked at once, and one of them is counted
    last_number: int = 0
    first_spaces: dict[int, Chain] = field(default_factory=dict[int, Chain])  # by length: chains that hold a space
    referred: frozenset[Part] = frozenset()  # stretches of rows to which later rows refer
    parts: dict[Part, tuple[Step, ...]] = field(default_factory=dict[Part, tuple[Step, ...]])
    met: Alike = field(default_factory=Alike)
    first: int | None = None  # where the words parsed last stand for the first time; None where that isn't known

    # ------------------------------------------------------------ sections and sizes

    def open_section(self, at: int) -> int:
        """Return the index of the section that a round at this offset belongs to, opening one where it must."""
        if self.fresh or not self.sections:
            title, span = self.title or (None, Span(at, at))
            sizes = None
            if title is not None and self.sizes.names:
                note = size_note(title, span, self.sizes, title=True)
                sizes = note.sizes if note and not note.unknown else None
            goes_on = self.knit and not _NEW_PIECE.search(title or "")
            self.sections.append(Section(title, span, sizes, goes_on))
            self.fresh = False
            self.title = None
            self.last_number = 0
        return len(self.sections) - 1

    def take_title(self, block: Block) -> None:
        """Take a title: a new section, unless it only speaks of sizes."""
        words = self.draft.words(block.span)
        note = size_note(words, block.span, self.sizes, title=False)
        if note:
            self.take_note(note)
            return
        self.title = (" ".join(words.strip(" *_#-:;.").split()), block.span)
        self.fresh = True
        self.sides = self.sides and not _NEW_PIECE.search(self.title[0])
        self.only = None
        self.away = {}

    def send_on(self, note: SizeNote, to: int | None) -> None:
        """Let sizes pass over the rounds up to the one they are sent to, as `Newborn: skip to Round 9` says."""
        self.notes.append(replace(note, before_round=len(self.rounds)))
        self.away.update(dict.fromkeys(note.sizes or (), to))
        self.only = tuple(size for size in range(self.sizes.number) if size not in self.away) or None

    def come_back(self, number: int) -> None:
        """Take back the sizes that were sent on to this round."""
        back = [size for size, to in self.away.items() if to is not None and to <= number]
        if back:
            self.away = {size: to for size, to in self.away.items() if size not in back}
            self.only = tuple(size for size in range(self.sizes.number) if size not in self.away) if self.away else None

    def take_note(self, note: SizeNote) -> None:
        """Let a note on sizes govern the rounds that follow."""
        note = replace(note, before_round=len(self.rounds))
        self.notes.append(note)
        self.away = {}
        self.governed = False
        self.only = note.sizes if note.sizes is None or len(note.sizes) < self.sizes.number else None
        if note.unknown and not note.sizes:
            self.only = ()

    # ------------------------------------------------------------ words of a round

    def parse(
        self,
        span: Span,
        once: tuple[int, ...] | None = None,
        number: int | None = None,
        told: Directed | None = None,
    ) -> tuple[Steps, Directed | None, tuple[Claim, ...]]:
        """Read the words of a body: a directive, or steps; with the counts it states.

        `told` is a directive that was read before, of which these are the words that follow.
        """
        only = self.only if once is None else once
        own = self.words.within(span)
        self.first = None
        if told is not None or self.referred or _BEFORE in self.text[span.start : span.end].lower():
            return self._parsed(span, own, only, number, told)
        key = (self.text[span.start : span.end], only, bool(self.rounds))
        if (found := self.met.find(key, span, own)) is not None:
            self.first = found.first
            steps, directed, claims, lists = cast("_Parsed", found.result)
        else:
            already = len(self.lists)
            steps, directed, claims = self._parsed(span, own, only, number, told)
            lists = tuple(self.lists[already:])
            del self.lists[already:]
            self.met.keep(key, span, own, (steps, directed, claims, lists))
            self.first = span.start
        self.lists.extend(lists)
        return steps, directed, claims

    def _parsed(
        self,
        span: Span,
        own: Sequence[Word],
        only: tuple[int, ...] | None,
        number: int | None,
        told: Directed | None,
    ) -> tuple[Steps, Directed | None, tuple[Claim, ...]]:
        """Read words that stand for the first time; `own` are those of the span, `only` the sizes that they are for."""
        names = tuple(name.lower() for name in self.sizes.names)
        sign = doubted(self.text, span)
        own = _without_list(own, self.sizes.number) if sign == "!" else own
        words, lists = lift(own, self.sizes.number, only, names)
        if sign == "?":
            return self._unworked(span, words)
        self.lists.extend(lists)
        words = self._parts_taken(words, number)
        items, loose = tree(words)
        directed = told or (read_directive(items) if self.rounds else None)
        rest = items[directed.end :] if directed else items
        steps = read_steps(
            rest,
            loose,
            _marks(words),
            habit=self.habit,
            directed=directed is not None,
            figures=self.figures,
            knit=self.knit,
            before=self.rounds[-1].steps if self.rounds and not self.fresh else (),
            parts=self.parts,
        )
        claims = steps.claims
        if directed and not claims:
            claims = _after_directive(rest)
        if directed is None and text_at(items, 0) == "as" and kind(items, 1) == "round":
            steps = replace(steps, steps=(*steps.steps, Unread(items[1].span, "the rounds to repeat were not found")))
        if lost := _strangers_in(words, steps.steps, directed):
            steps = replace(steps, steps=(*steps.steps, *lost))
        return steps, directed, claims

    def take_sides(self, span: Span, steps: Steps, claims: tuple[Claim, ...]) -> tuple[Steps, tuple[Claim, ...]]:
        """Count one of two sides from the line on that says that both are worked at once."""
        said = said_of_both(self.text[span.start : span.end])
        if not said and not self.sides:
            return steps, claims
        told = steps.steps
        works = [step for step in told if isinstance(step, Work)]
        added = [not step.make.uses and not step.make.within for step in works]
        if any(added):
            # a new piece, or stitches added between the sides: they are one again
            self.sides = False
            return steps if added[0] else replace(steps, steps=(*told, Unread(span, BOTH))), claims
        if said:
            found = one_side(told, claims)
            if found is None and not self.sides and self.rounds and not self.fresh:
                before = one_side(self.rounds[-1].steps, self.rounds[-1].claims)
                found = (*before[:2], *told) if before is not None else None
            if found is None and not self.sides:
                return steps, claims
            told, self.sides = found or told, True
        return replace(steps, steps=on_one_side(told, self.text)), of_side(claims)

    def _parts_taken(self, words: Sequence[Word], number: int | None) -> Sequence[Word]:
        """Keep the stretches of a row to which later rows refer, and return its words without their marks."""
        for part in sorted(self.referred):
            if part[0] != number or (found := marked(words, part[1])) is None:
                continue
            first, second = found
            items, loose = tree(words[first + 1 : second])
            self.parts[part] = read_steps(items, loose, figures=self.figures).steps
            words = [*words[:first], *words[first + 1 : second], *words[second + 1 :]]
        return words

    def _unworked(self, span: Span, words: Sequence[Word]) -> tuple[Steps, Directed | None, tuple[Claim, ...]]:
        """Read of words that are marked as not worked out only the count that they state, if it is plain."""
        items, loose = tree(words)
        directed = read_directive(items) if self.rounds else None
        told = read_steps(items, loose, _marks(words), figures=self.figures, knit=self.knit)
        claims = told.claims or ((told.closing,) if told.closing is not None else ())
        strange = [one.span for one in lists_in(self.words.within(span)) if len(one.values) != self.sizes.number]
        plain = tuple(one for one in claims if not any(_meet(one.span, other) for other in strange))
        return Steps((Unread(span, "it is marked [?] as not worked out"),)), directed, plain


def _meet(one: Span, other: Span) -> bool:
    return one.start < other.end and other.start < one.end


_DOUBTED = later(r"[\s.:|\u2013\u2014-]*\[([?!])\]")
_DOUBTED_BEHIND = later(r"\[(\?)\]\s*$")


def doubted(text: str, span: Span) -> str:
    """Return the sign that a longhand gives doubtful words, in brackets before them or behind; empty for none.

    `?` says that they stand as they were written, `!` that the count beside them may be another.
    """
    if text.find("[", span.start, span.end) < 0:
        return ""
    found = _DOUBTED.match(text, span.start, span.end) or _DOUBTED_BEHIND.search(text[span.start : span.end])
    return found[1] if found else ""


_COUNT_WORDS = frozenset({"st", "stitch", ".", ")", "]", "}", "(", "[", "-", "=", "group"})


def _without_list(words: Sequence[Word], sizes: int) -> Sequence[Word]:
    """Leave out a count at the end of words whose list has not one figure a size."""
    found = lists_in(words)
    if not found or len(found[-1].values) == sizes:
        return words
    first = next(at for at, word in enumerate(words) if word.span.start >= found[-1].span.start)
    after = [word.kind for word in words if word.span.start >= found[-1].span.end]
    while first and words[first - 1].kind in ("(", "[", "{", "-", "="):
        first -= 1
    return words[:first] if all(kind in _COUNT_WORDS for kind in after) else words


def _strangers_in(words: Sequence[Word], steps: Sequence[Step], directed: Directed | None) -> list[Unread]:
    """Find the unknown words that stand in the words of a step or directive: what they were may matter."""
    strange = [word.span for word in words if word.kind == "strange"]
    if not strange:
        return []
    told = [step.span for step in _told(steps)]
    read = [step.span for step in steps if not isinstance(step, Remark | Unread)]
    if directed is not None:
        read.append(directed.directive.span)
    return [
        Unread(span, "these words were not understood")
        for span in strange
        if any(one.start <= span.start < one.end for one in read)
        and not any(one.start <= span.start < one.end for one in told)
    ]


def _told(steps: Sequence[Step]) -> Iterator[Remark | Unread]:
    """Yield what is talk or was not read already, at any depth."""
    for step in steps:
        if isinstance(step, Remark | Unread):
            yield step
        elif isinstance(step, Repeat | Together):
            yield from _told(step.steps)


_SIGNS = frozenset(
    {
        "+",
        "#",
        "'",
        '"',
        "~",
        "^",
        "\u2020",
        "\u2021",
        "\u00a7",
        "\u2022",
        "@",
        "%",
        "$",
        "!",
        "\u25ca",
        "&",
        "\u00b0",
    }
)


def _marks(words: Sequence[Word]) -> frozenset[str]:
    """Return the signs that serve as stars in a round: those that a `repeat from` names."""
    found = {"*"}
    for index, word in enumerate(words):
        if word.kind in ("from", "between") and index + 1 < len(words) and words[index + 1].kind in _SIGNS:
            found.add(words[index + 1].kind)
    return frozenset(found)


def _after_directive(items: Sequence[Item]) -> tuple[Claim, ...]:
    """Read a count that stands right after a directive without any mark: `Rep row 11-60 sc`."""
    index = 0
    while kind(items, index) in ("-", ".", ",", "=", ":"):
        index += 1
    if figure_at(items, index) is not None and kind(items, index + 1) in ("stitch", "st", "group", "", "."):
        return claims_in(items[index : index + 2])
    return ()
