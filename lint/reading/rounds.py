"""Rounds: blocks become the pattern's sections and rounds, each with its steps, directive and claims."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from ..draft import Draft, Span
from ..figures import Figure, Sizes
from ..later import later
from ..pattern import Claim, Elided, Round
from ..steps import At, Chain, Repeat, Step, Together, Where, Work
from .assembly import Assembly, doubted
from .blocks import Block, Kind
from .claims import claims_in, spread_over
from .figures import lift, lists_in
from .foundations import chain_by_size, chain_titled, chain_told, only_chain, wants_chain
from .headings import Heading
from .lines import take_line
from .parts import referred
from .shapings import bound
from .sizes import names_first, size_note
from .steps import Steps
from .words import Words


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


_ENDS = later(r"\D*(\d+)\s*(?:-|to)\s*(\d+)((?:\s*,\s*\d+)+)\W*")


def _one_a_size(assembly: Assembly, heading: Heading) -> Heading:
    """Read `Rows 3-40, 42, 44:` in a draft of three sizes: the same first row for all, and a last one for each."""
    sizes = assembly.sizes.number
    if sizes < 3 or not heading.listed:
        return heading
    ends = _ENDS.fullmatch(assembly.draft.words(heading.span))
    lasts = [int(ends[2]), *(int(number) for number in re.findall(r"\d+", ends[3]))] if ends else []
    if ends is None or len(lasts) != sizes or lasts != sorted(lasts):
        return heading
    return replace(heading, numbers=tuple((int(ends[1]), last) for last in lasts), listed=())


def take_round(assembly: Assembly, block: Block) -> None:
    """Add a round with a heading."""
    heading, body = block.heading, block.body
    assert heading is not None and body is not None
    heading = _one_a_size(assembly, heading)
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
    steps, directed, claims = read, _, stated = assembly.parse(body, once, first)
    stands = assembly.first
    if first is not None and any(map(_names_round, steps.steps)):
        steps = replace(steps, steps=tuple(_of_earlier(step, first) for step in steps.steps))
    if (spaced := _with_first_spaces(assembly, steps.steps)) is not steps.steps:
        steps = replace(steps, steps=spaced)
    if not assembly.knit and not _take_chain_by_size(assembly, block, section) and wants_chain(steps.steps):
        _take_chain_told(assembly, block, section)
    if assembly.leading:
        steps, assembly.leading = replace(steps, steps=(*assembly.leading, *steps.steps)), ()
    sizes = _sizes_for(assembly, section, once)
    number = assembly.sizes.number
    covers = len(heading.listed) or (heading.numbers[0][1] - heading.numbers[0][0] + 1 if heading.numbers else 1)
    if assembly.knit:
        steps, claims = assembly.take_sides(body, steps, claims)
    claims = _spread(claims or _heading_claims(assembly, heading), covers)
    many = _many(assembly, heading)
    if (told := bound(steps.steps, many or Figure((covers,), heading.span), claims)) is not steps.steps:
        steps = replace(steps, steps=told)
    again = directed is None and stands is not None and steps is read and claims is stated
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
            many=many,
            known_to_differ=doubted(assembly.text, body) == "!",
            alike=(stands, body.start) if again and stands is not None else None,
        )
    )


def _with_first_spaces(assembly: Assembly, steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """Let a beginning chain hold the space that one as long was said to hold before: `ch 4 (counts as dc and ch 1)`."""
    for step in steps:
        if isinstance(step, Chain) and step.and_space and (number := step.n.values[0]) is not None:
            assembly.first_spaces[number] = step
    if not assembly.first_spaces or not any(isinstance(step, Chain) for step in steps):
        return steps
    return tuple(_with_first_space(assembly, step) for step in steps)


def _with_first_space(assembly: Assembly, step: Step) -> Step:
    said = assembly.first_spaces.get(step.n.values[0] or 0) if isinstance(step, Chain) else None
    if not isinstance(step, Chain) or said is None or not step.beginning or step.counts is not None:
        return step
    return replace(step, and_space=said.and_space, kind=said.kind)


def _names_round(step: Step) -> bool:
    """Tell whether a step names the round that it goes into."""
    if isinstance(step, Repeat):
        return any(map(_names_round, step.steps))
    return isinstance(step, Work | Together) and step.where.of_round is not None


def _of_earlier(step: Step, number: int) -> Step:
    """Let a stitch go behind where the round it is said to go into is not the one right before."""
    if isinstance(step, Repeat):
        return replace(step, steps=tuple(_of_earlier(part, number) for part in step.steps))
    if not isinstance(step, Work | Together) or step.where.of_round is None or step.where.of_round >= number - 1:
        return step
    where = step.where
    return replace(step, where=Where(At.BEHIND, number=where.number, span=where.span, of_round=where.of_round))


def _take_chain_by_size(assembly: Assembly, block: Block, section: int) -> bool:
    """Add the chain from which a part starts, where lines of their own before its first row tell it, size by size."""
    before = assembly.rounds[-1] if assembly.rounds else None
    names = assembly.sizes.names
    if before is not None and before.section == section:
        return False
    start, stop = before.span.end if before else 0, block.span.start
    several = len(names) > 1
    figure = chain_by_size(assembly.text, start, stop, names) if several else chain_titled(assembly.text, start, stop)
    if figure is None:
        return False
    span = figure.span
    label = " ".join(assembly.draft.words(span).split())
    steps = (Chain(figure, span, beginning=True),)
    assembly.rounds.append(Round(label=label, heading=span, span=span, section=section, steps=steps, foundation=True))
    return True


def _take_chain_told(assembly: Assembly, block: Block, section: int) -> None:
    """Add the chain that a first row goes into, where prose before it tells one and no line of its own makes it."""
    before = assembly.rounds[-1] if assembly.rounds else None
    if before is not None and before.section == section:
        return
    span = chain_told(assembly.text, before.span.end if before else 0, block.span.start)
    if span is None:
        return
    steps, _, _ = assembly.parse(span)
    if only_chain(steps.steps, assembly.sizes.number):
        label = " ".join(assembly.draft.words(span).split())
        own = assembly.sections[section].sizes
        assembly.rounds.append(
            Round(label=label, heading=span, span=span, section=section, steps=steps.steps, sizes=own, foundation=True)
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


_SENTENCE_COUNT = later(r"[.;]\s*[(\[]?\d[\d\s,()\[\]/:-]*\s*[a-z]{2,6}\.?\s*$", re.IGNORECASE)


def _closes_with_sentence(text: str, found: Sequence[Block]) -> bool:
    """Tell whether most rounds of a draft close with a count that is a sentence of its own: `... around. 36 sc.`."""
    bodies = [text[block.body.start : block.body.end] for block in found if block.body is not None]
    closing = sum(bool(_SENTENCE_COUNT.search(body)) for body in bodies)
    return closing >= 3 and 2 * closing >= len(bodies)


_FIGURE_AND_SHAPING = r"\s*\d{1,2}\s*,\s*(?:inc|dec)\b"
_SHAPING_AND_FIGURE = r"\s*,\s*\d{1,2}\s*(?:[)\]},*]|[(\[]\d|$)"
# in small letters, each way with its first sign written out, so that a search is quick
_BARE_FIGURES = later(
    "|".join(re.escape(sign) + _FIGURE_AND_SHAPING for sign in "([,*{")
    + rf"|i(?<!\wi)nc{_SHAPING_AND_FIGURE}|d(?<!\wd)ec{_SHAPING_AND_FIGURE}",
    re.MULTILINE,
)


# letters for the changes: `(1, W)*6`, or words of the draft's own
_FIGURE_AND_LETTER = later(
    r"\(\d{1,2},\s?[A-Z]\)|(?i:\d-(?:inc|dec)\b)|\[\d{1,2},\s?[A-Z]\]|(?i:(?:numbers|figures)\s(?:alone|by\sthemselves|on\stheir\sown)[^.\n]{0,30}\bsingle\scrochet)"
)


def _bare_figures(text: str) -> bool:
    """Tell whether a draft leaves single crochet unsaid: `(1, inc)*6`, `3, inc, 3`."""
    return bool(_BARE_FIGURES.search(text.lower()) or _FIGURE_AND_LETTER.search(text))


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


def assemble(
    draft: Draft, text: str, words: Words, sizes: Sizes, found: Sequence[Block], start: int, *, knit: bool = False
) -> Assembly:
    """Go through the blocks from the index `start` on and build sections and rounds; `knit` for a knitted piece."""
    assembly = Assembly(
        draft, text, words, sizes, habit=_closes_with_sentence(text, found), figures=_bare_figures(text), knit=knit
    )
    assembly.referred = referred(text) if not knit else frozenset()
    assembly.unheaded = all(block.kind is not Kind.ROUND for block in found)
    for block in found[start:]:
        if block.kind is Kind.ROUND:
            for part in _by_size(assembly, block):
                take_round(assembly, part)
        elif block.kind is Kind.TITLE:
            assembly.take_title(block)
        else:
            take_line(assembly, block)
    return assembly
