"""Rounds: blocks become the pattern's sections and rounds, each with its steps, directive and claims."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from ..draft import Draft, Span
from ..pattern import (
    Chain,
    Claim,
    Elided,
    Figure,
    FigureList,
    Remark,
    Repeat,
    Ring,
    Round,
    Section,
    SizeNote,
    Sizes,
    Step,
    Together,
    Unread,
    Work,
)
from .blocks import Block, Kind
from .claims import claims_in, spread_over
from .directives import Directed, read_directive
from .figures import lift, lists_in
from .headings import Heading
from .marks import Item, kind, tree
from .places import PIECES
from .sizes import leading_note, names_first, size_note
from .steps import Steps, read_steps
from .times import figure_at
from .words import Word, Words


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
    once: tuple[int, ...] | None = None  # sizes that only the next round is for
    habit: bool = False
    figures: bool = False  # bare figures stand for single crochet: `(1, inc) x 6`
    last_number: int = 0

    # ------------------------------------------------------------ sections and sizes

    def open_section(self, at: int) -> int:
        """Return the index of the section that a round at this offset belongs to, opening one where it must."""
        if self.fresh or not self.sections:
            title, span = self.title or (None, Span(at, at))
            sizes = None
            if title is not None and self.sizes.names:
                note = size_note(title, span, self.sizes, title=True)
                sizes = note.sizes if note and not note.unknown else None
            self.sections.append(Section(title, span, sizes))
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
        self, span: Span, once: tuple[int, ...] | None = None
    ) -> tuple[Steps, Directed | None, tuple[Claim, ...]]:
        """Read the words of a body: a directive, or steps; with the counts it states."""
        only = self.only if once is None else once
        names = tuple(name.lower() for name in self.sizes.names)
        words, lists = lift(self.words.within(span), self.sizes.number, only, names)
        self.lists.extend(lists)
        items, loose = tree(words)
        directed = read_directive(items) if self.rounds else None
        rest = items[directed.end :] if directed else items
        steps = read_steps(
            rest, loose, _marks(words), habit=self.habit, directed=directed is not None, figures=self.figures
        )
        claims = steps.claims
        if directed and not claims:
            claims = _after_directive(rest)
        if lost := _strangers_in(words, steps.steps, directed):
            steps = replace(steps, steps=(*steps.steps, *lost))
        return steps, directed, claims


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


def _figure(pairs: Sequence[tuple[int, int]], which: int, sizes: int, span: Span) -> Figure | None:
    """Turn the numbers of a heading into a figure: one for all, or one a size."""
    if not pairs:
        return None
    values = tuple(pair[which] for pair in pairs)
    if len(values) > 1 and len(values) < sizes:
        values = (*values, *([values[-1]] * (sizes - len(values))))
    if len(values) > sizes:
        values = values[:1]
    return Figure(values, span)


def _spread(claims: tuple[Claim, ...], rounds: int) -> tuple[Claim, ...]:
    """Read `rnds 5-7: 32, 40, 48 sc` as one count a round."""
    plain = all(not claim.figure.is_list and claim.kind not in ("space", "ch") for claim in claims)
    if rounds > 1 and len(claims) == rounds and plain:
        figures = [claim.figure.values[0] or 0 for claim in claims]
        return (spread_over(claims[-1], figures, claims[-1].figure.span),)
    return claims


def _heading_claims(assembly: Assembly, heading: Heading) -> tuple[Claim, ...]:
    """Read a count that stands in the heading's own bracket: `R3 (18 sts):`, `Rnd 2 [12]:`."""
    if heading.count is not None:
        words, _ = lift(assembly.words.within(heading.count), assembly.sizes.number)
        return claims_in([word for word in words if word.kind not in ("(", ")", "[", "]", "{", "}")])
    for note in heading.notes:
        words = [word for word in assembly.words.within(note) if word.kind not in ("(", ")", "[", "]", "{", "}")]
        if words and words[0].kind == "number" and len(words) == 2 and words[1].kind in ("st", "stitch"):
            return claims_in(words)
    return ()


def _many(assembly: Assembly, heading: Heading) -> Figure | None:
    """Return how many rounds an unnumbered heading covers: `Next 6 (7, 8) rnds`."""
    if heading.many is None:
        return None
    words, _ = lift(assembly.words.within(heading.many), assembly.sizes.number)
    return next((word.figure for word in words if word.kind == "number"), None)


def _elided(heading: Heading) -> Elided | None:
    if not heading.alternate:
        return None
    first = (
        heading.numbers[0][0] if heading.numbers else (heading.reach[0] if heading.reach and heading.reach[0] else None)
    )
    last = heading.reach[1] if heading.reach else None
    parity = heading.parity if heading.parity is not None else (first % 2 if first is not None else None)
    return Elided(heading.span, parity=parity, first=first, last=last)


def _rounds_stated(assembly: Assembly, heading: Heading, steps: Steps) -> Figure | None:
    for note in heading.notes:
        words = assembly.words.within(note)
        for word, after in pairwise(words):
            if word.kind == "number" and after.kind == "round":
                return word.figure
    return steps.rounds


def take_round(assembly: Assembly, block: Block) -> None:
    """Add a round with a heading."""
    heading, body = block.heading, block.body
    assert heading is not None and body is not None
    first = heading.numbers[0][0] if heading.numbers else None
    if first is not None:
        if first == 1 and assembly.last_number >= 1 and not assembly.fresh:
            assembly.fresh = True
        assembly.last_number = heading.numbers[0][1]
        assembly.come_back(first)
    section = assembly.open_section(block.span.start)
    if assembly.only and assembly.governed and _for_all(assembly, body):
        assembly.only, assembly.away = None, {}
    assembly.governed = assembly.only is not None
    once, body = _sizes_named(assembly, heading, body)
    steps, directed, claims = assembly.parse(body, once)
    sizes = _sizes_for(assembly, section, once)
    number = assembly.sizes.number
    covers = len(heading.listed) or (heading.numbers[0][1] - heading.numbers[0][0] + 1 if heading.numbers else 1)
    claims = _spread(claims or _heading_claims(assembly, heading), covers)
    assembly.rounds.append(
        Round(
            label=_label(assembly, heading),
            heading=heading.span,
            span=block.span,
            section=section,
            first=_figure(heading.numbers, 0, number, heading.span),
            last=_figure(heading.numbers, 1, number, heading.span),
            listed=heading.listed,
            steps=steps.steps,
            directive=directed.directive if directed else None,
            claims=claims,
            sizes=sizes,
            side=heading.side,
            flat=heading.flat,
            elided=_elided(heading),
            rounds_stated=_rounds_stated(assembly, heading, steps),
            loose=steps.loose,
            closing=steps.closing,
            many=_many(assembly, heading),
        )
    )


def _label(assembly: Assembly, heading: Heading) -> str:
    """Return a round's heading as the draft has it."""
    spans = (heading.above, heading.span) if heading.above else (heading.span,)
    return " ".join(word for span in spans for word in assembly.draft.words(span).split())


def _sizes_for(assembly: Assembly, section: int, once: tuple[int, ...] | None) -> tuple[int, ...] | None:
    own = assembly.sections[section].sizes
    only = assembly.only if once is None else once
    if only is None:
        return own
    return tuple(size for size in only if own is None or size in own)


def _for_all(assembly: Assembly, body: Span) -> bool:
    """Tell whether a round gives figures for the sizes too that a note before it left out: they have come back."""
    left_out = [size for size in range(assembly.sizes.number) if size not in (assembly.only or ())]
    full = [one.values for one in lists_in(assembly.words.within(body)) if len(one.values) == assembly.sizes.number]
    return any(all(values[size] for size in left_out) for values in full)


def _sizes_named(assembly: Assembly, heading: Heading, body: Span) -> tuple[tuple[int, ...] | None, Span]:
    """Return the sizes that a round is for by words of its own (None where it has none), and where its steps begin."""
    once, assembly.once = assembly.once, None
    if not assembly.sizes.names:
        return None, body
    for note in heading.notes:
        words = assembly.text[note.start : note.end].strip("()[]{}")
        named = (
            size_note(words, note, assembly.sizes, title=True) if re.search(r"[a-z]", words, re.IGNORECASE) else None
        )
        if named and named.sizes:
            assembly.notes.append(replace(named, before_round=len(assembly.rounds)))
            return named.sizes, body
    found = names_first(assembly.text[body.start : body.end], body.start, assembly.sizes)
    if found is None:
        return once, body
    note, length = found
    assembly.notes.append(replace(note, before_round=len(assembly.rounds)))
    return note.sizes, Span(body.start + length, body.end)


_SENT_ON = re.compile(
    r"(?:now\s+)?(?:skip|go|proceed|move|continue|jump)\b[^.\n]{0,30}?(?:\bto\b(?:\s+(?:the\s+)?(?:rnd|round|row|r)\.?\s*(?P<to>\d+))?|\b(?:with|from|at)\s+(?:rnd|round|row|r)\.?\s*(?P<at>\d+))",
    re.IGNORECASE,
)
_STARTS = re.compile(
    r"(?i)^\s*(?:[\w ]{1,20}[-:.]\s*)?(?:(?:with|using)\b[^.]{0,60}?\b)?(?:to (?:begin|start)[,:]?\s*)?(?:(?:begin|start|commenc)\w*\s+(?:with|by)\s+)?(?:make|create|work|form)?\s*(?:a\s+|the\s+)?(?:foundation\s+)?"
    r"(?:ch(?:ain)?\b[\s.-]*(?:of\s+)?[\d(]|\d[\d\s,\[\]()/:-]*ch(?:ains?)?\b|(?:\d[\d\s,\[\]()/:-]*)?f(?:sc|dc|hdc)\b|magic|mr\b|adjustable|sliding loop|ring|cast\s+on|co\b)"
)


_BRIDGE = re.compile(
    rf"(?i)\bch(?:ain)?\b[^.\n]{{0,60}}\b(?:join|attach|connect)\w*\b[^.\n]{{0,40}}\b(?:{'|'.join(sorted(PIECES))})\b"
)


def take_line(assembly: Assembly, block: Block) -> None:
    """Take a line without a heading: a note on sizes, a foundation, an instruction for rounds, or talk."""
    words = assembly.draft.words(block.span)
    note = size_note(words, block.span, assembly.sizes, title=block.leads)
    if note and not assembly.rounds and not block.leads and not re.search(r"(?i)\bonly\b", words):
        return  # the line that declares the sizes
    if note and block.leads and note.sizes and not note.unknown:
        assembly.notes.append(replace(note, before_round=len(assembly.rounds)))
        assembly.once = note.sizes
        return
    if note:
        assembly.take_note(note)
        return
    span = block.span
    sent = names_first(assembly.text[span.start : span.end], span.start, assembly.sizes) if assembly.rounds else None
    if sent and (on := _SENT_ON.match(assembly.text, span.start + sent[1], span.end)):
        assembly.send_on(sent[0], int(on["to"] or on["at"]) if on["to"] or on["at"] else None)
        return
    only = assembly.only
    if assembly.sizes.names and (led := leading_note(assembly.text[span.start : span.end], span.start, assembly.sizes)):
        lead, skip = led
        assembly.notes.append(replace(lead, before_round=len(assembly.rounds)))
        only = lead.sizes
        span = Span(span.start + skip, span.end)
    _take_instruction(assembly, block, span, only)


def _take_instruction(assembly: Assembly, block: Block, span: Span, only: tuple[int, ...] | None) -> None:
    text = assembly.text[span.start : span.end]
    words, _ = lift(assembly.words.within(span), assembly.sizes.number)
    items, _ = tree(words)
    directed = read_directive(items) if assembly.rounds else None
    if _BRIDGE.search(text):
        return  # `ch 3 and join to the first leg`: the next round says what is worked along it
    starts = bool(_STARTS.match(text)) and not any(word.kind == "counts" for word in words)
    shaping = re.search(r"(?i)\bone more (?:round|rnd)\b", text)
    lost = _lost_instruction(words, starts=starts) and not assembly.fresh
    if directed is None and not starts and not shaping and not lost:
        return
    steps, directed, claims = assembly.parse(span)
    if directed is None and not _starts_piece(steps.steps) and not shaping and not lost:
        return
    if lost and not any(isinstance(step, Unread) for step in steps.steps):
        steps = replace(steps, steps=(*steps.steps, Unread(span, "these words were not understood")))
    if directed is not None and not assembly.rounds:
        return
    if (
        starts
        and directed is None
        and assembly.rounds
        and not assembly.fresh
        and not assembly.rounds[-1].foundation
        and block.after_gap
    ):
        assembly.fresh = True
    section = assembly.open_section(block.span.start)
    own = assembly.sections[section].sizes
    head = Span(span.start, min(span.end, span.start + 40))
    assembly.rounds.append(
        Round(
            label=_first_words(assembly, span),
            heading=head,
            span=block.span,
            section=section,
            steps=steps.steps,
            directive=directed.directive if directed else None,
            claims=claims,
            sizes=own if only is None else only,
            foundation=directed is None and not shaping and not lost,
            loose=steps.loose,
            rounds_stated=steps.rounds,
        )
    )


def _lost_instruction(words: Sequence[Word], *, starts: bool) -> bool:
    """Tell whether a line among rounds must be an instruction of which a word was destroyed: `Rep qvx rnd 3 times more`."""
    kinds = {word.kind for word in words}
    if "strange" not in kinds or len(words) > 25:
        return False
    figures = "number" in kinds or "often" in kinds
    return figures and (starts or ("times" in kinds and bool(kinds & {"round", "rep", "last"})))


def _first_words(assembly: Assembly, span: Span) -> str:
    words = assembly.draft.words(span).split()
    return " ".join(words[:5]).rstrip(".,;:")


def _starts_piece(steps: Sequence[Step]) -> bool:
    """Tell whether steps make the chain or ring from which a piece starts, all of them read."""
    told = [step for step in steps if not isinstance(step, Remark)]
    if not told or not isinstance(told[0], Chain | Ring | Work):
        return False
    if any(isinstance(step, Unread) for step in told):
        return False
    return any(isinstance(step, Chain | Ring) for step in told) or (
        isinstance(told[0], Work) and (told[0].where.at.value == "ring" or told[0].make.uses == 0)
    )


_SENTENCE_COUNT = re.compile(r"[.;]\s*[(\[]?\d[\d\s,()\[\]/:-]*\s*[a-z]{2,6}\.?\s*$", re.IGNORECASE)


def _closes_with_sentence(text: str, found: Sequence[Block]) -> bool:
    """Tell whether most rounds of a draft close with a count that is a sentence of its own: `... around. 36 sc.`."""
    bodies = [text[block.body.start : block.body.end] for block in found if block.body is not None]
    closing = sum(bool(_SENTENCE_COUNT.search(body)) for body in bodies)
    return closing >= 3 and 2 * closing >= len(bodies)


_BARE_FIGURES = re.compile(r"(?i)(?:[(\[,*{]\s*\d{1,2}\s*,\s*(?:inc|dec)\b|\b(?:inc|dec)\s*,\s*\d{1,2}\s*[)\]},*])")


def _bare_figures(text: str) -> bool:
    """Tell whether a draft leaves single crochet unsaid: `(1, inc)*6`, `3, inc, 3`."""
    return len(_BARE_FIGURES.findall(text)) >= 2


def _by_size(assembly: Assembly, block: Block) -> tuple[Block, ...]:
    """Part a round that has a line of its own for each of several sizes below its heading (`S: ...`, `M: ...`)."""
    heading, body = block.heading, block.body
    if heading is None or body is None or len(assembly.sizes.names) < 2:
        return (block,)
    starts: list[int] = []
    for line in re.finditer(r"[^\n]+", assembly.text[body.start : body.end]):
        at = body.start + line.start()
        if names_first(line[0], at, assembly.sizes):
            starts.append(at + len(line[0]) - len(line[0].lstrip()))
        elif not starts and line[0].strip():
            return (block,)  # words that are for all sizes stand first
    if len(starts) < 2:
        return (block,)
    parts: list[Block] = []
    for start, stop in pairwise([*starts, body.end]):
        end = len(assembly.text[:stop].rstrip())
        first_word = re.match(r"\W*[\w'-]+", assembly.text[start:end])
        name = Span(start, start + (first_word.end() if first_word else 1))
        own = replace(heading, span=name, above=heading.span)
        parts.append(replace(block, span=Span(start, end), heading=own, body=Span(start, end)))
    return tuple(parts)


def assemble(draft: Draft, text: str, words: Words, sizes: Sizes, found: Sequence[Block], start: int) -> Assembly:
    """Go through the blocks from the index `start` on and build sections and rounds."""
    assembly = Assembly(
        draft, text, words, sizes, habit=_closes_with_sentence(text, found), figures=_bare_figures(text)
    )
    for block in found[start:]:
        if block.kind is Kind.ROUND:
            for part in _by_size(assembly, block):
                take_round(assembly, part)
        elif block.kind is Kind.TITLE:
            assembly.take_title(block)
        else:
            take_line(assembly, block)
    return assembly
