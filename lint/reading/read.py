"""The reading of a draft, layer by layer: letters, blocks, words, sizes, notes, rounds."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import groupby

from ..draft import Draft, Span
from ..figures import FigureList, ListStyle, Sizes
from ..later import later
from ..pattern import Conventions, Definition, Pattern
from ..trade.tables import spellings
from .abbreviations import abbreviation_list, abbreviations_used, doubts
from .assembly import doubted
from .blocks import Block, Kind, blocks
from .figures import lists_in, number_of_sizes
from .given import given_counts
from .knitted import knitted, respelled, undotted
from .letters import capitalised, cleaned, squeezed
from .materials import read_materials
from .mending import mend
from .notes import chain_notes, coloured_sizes, craft_of, elisions, is_spiral, multiples, terms_of
from .numerals import lettered
from .rounds import assemble
from .said import read_sayings
from .sizes import counted_sizes, declared_number, find_sizes, titled_sizes
from .specials import definitions, made_definitions, run_on_definitions, with_defined
from .talk import strangers
from .words import Words, lexicon, words_of


def read(draft: Draft) -> Pattern:
    """Read a draft into a pattern.

    Raises nothing for any text: words that can't be read become `Unread` steps, a text without rounds an empty pattern.
    """
    text, letters = cleaned(draft.text)
    text = lettered(squeezed(text))
    craft = craft_of(text)
    told = text = undotted(text) if craft == "knitting" else text
    if craft == "knitting":
        text = capitalised(respelled(text))
    found = blocks(draft, text, knit=craft == "knitting")
    said, terms = terms_of(text)
    lex = lexicon("knitting" if craft == "knitting" else "crochet", terms)
    plain, mends = mend(words_of(text, lex), lex)
    if craft == "knitting":
        plain = knitted(text, plain)
    words = Words.made_of(strangers(plain, lex))
    head = _head(text, found, knit=craft == "knitting")
    defined = _defined(text, head, words)
    words = with_defined(text, words, defined, lex.own)
    sizes = _sizes(text, found, words, head)
    start = next((n for n, block in enumerate(found) if block.span.start >= head.end), len(found))
    assembly = assemble(draft, text, words, sizes, found, max(0, start - 3) if start else 0, knit=craft == "knitting")
    listed = any(len(one.values) == sizes.number for one in assembly.lists) or _numbered_apart(found)
    listed = listed or (sizes.declared and _lack_one(assembly.lists, sizes.number))
    sizes = _trim(sizes, [round_.sizes for round_ in assembly.rounds], listed=listed)
    talk = [
        head,
        *(block.span for block in found if block.kind is not Kind.ROUND and block.span.start >= head.end),
    ]
    outside = [block.span for block in found if block.kind is not Kind.ROUND]
    entries = abbreviation_list(text, _lines(found), words, craft or "crochet", terms)
    return Pattern(
        craft=craft,
        terms=terms if craft == "crochet" else said,
        sizes=sizes,
        sections=tuple(assembly.sections),
        rounds=tuple(assembly.rounds),
        conventions=Conventions(
            chains=tuple(note for span in talk for note in chain_notes(text[span.start : span.end], span.start)),
            spiral=is_spiral(text[head.start : head.end]),
        ),
        definitions=defined,
        lists=tuple(assembly.lists),
        size_notes=tuple(assembly.notes),
        multiples=tuple(multiples(text)),
        elisions=tuple(note for span in talk for note in elisions(text[span.start : span.end], span.start)),
        coloured_sizes=coloured_sizes(text),
        mended=doubts(draft.text, (*letters, *mends), assembly.rounds, entries),
        abbreviations=entries,
        abbreviations_used=abbreviations_used(
            [round_.span for round_ in assembly.rounds], words, craft or "crochet", terms
        )
        if entries
        else (),
        materials=read_materials(
            text,
            outside,
            [block.span for block in found if block.kind is Kind.ROUND],
            head,
            spellings(craft or "crochet", terms),
        ),
        sayings=read_sayings(told, outside, assembly.rounds),
        given=tuple(given_counts(text, outside, assembly.rounds, sizes.number)),
    )


_INSTRUCTS = later(
    r"(?i)(?:[a-z][\w' ]{1,24}:\s*)?(?:(?:bind|cast)\s+off|pick\s+up(?:\s+and\s+knit)?|inc|dec|work|knit|purl|k|p)\s*"
    r"\d"
)


def _defined(text: str, head: Span, words: Words) -> tuple[Definition, ...]:
    """Return the terms that a draft defines: in its head, or where they are first worked."""
    listed = (*definitions(text, head, words), *run_on_definitions(text, head, words))
    said = {definition.term.lower() for definition in listed if definition.make is not None}
    return (*listed, *(made for made in made_definitions(text, words) if made.term not in said))


def _lines(found: tuple[Block, ...]) -> list[list[Span]]:
    """Return the lines that are no rounds, those that follow each other together."""
    groups = groupby(found, lambda block: block.kind is Kind.ROUND)
    return [[block.span for block in group] for rounds, group in groups if not rounds]


_CAST_ON = later(r"(?i)\b(?:cast\s+on|co)\b(?!\s*[=:])[^.;:\n]{0,40}\d")


def _head(text: str, found: tuple[Block, ...], *, knit: bool) -> Span:
    """Return the head of the draft: all before its first round or cast-on, or else its first instruction."""
    for block in found:
        line = text[block.span.start : block.span.end]
        if block.kind is Kind.ROUND or (knit and block.kind is Kind.LINE and _CAST_ON.search(line)):
            return Span(0, block.span.start)
    first = next((block for block in found if knit and _INSTRUCTS.match(text, block.span.start, block.span.end)), None)
    return Span(0, first.span.start if first else len(text))


def _sizes(text: str, found: tuple[Block, ...], words: Words, head: Span) -> Sizes:
    """Find the sizes from the lists of figures in the rounds and from what the head declares."""
    lists: list[FigureList] = []
    headings = 0
    for block in found:
        if doubted(text, block.body or block.span):
            continue
        if block.kind is Kind.ROUND and block.body is not None and block.heading is not None:
            inside = words.within(block.body)
            headings += len(block.heading.numbers) > 1
            for one in lists_in(inside):
                closing = not inside or one.span.end >= inside[-1].span.end - 1
                alike = len(set(one.values)) == 1
                if closing and one.style is ListStyle.BARE and _covers(block) == len(one.values):
                    continue  # `Rnds 4-8: ... - 32, 40, 48, 56, 64`: one count a round
                bracketed = one.style in (ListStyle.ROUND, ListStyle.SQUARE)
                if len(one.values) == 2 and bracketed and (closing or alike):
                    continue
                lists.append(one)
        elif block.span.start >= head.end or re.match(
            r"(?i)\s*(?:ch|chain|cast on|with|using)\b", text[block.span.start : block.span.start + 12]
        ):
            lists.extend(lists_in(words.within(block.span)))
    listed = number_of_sizes(lists)
    declared = declared_number(text[head.start : head.end])
    if declared > 1 and any(len(one.values) == declared for one in lists):
        listed = declared  # one list that disagrees is a fault of that list
    rounds = sum(block.kind is Kind.ROUND for block in found)
    if rounds <= _FEW_ROUNDS and len(lists) <= _FEW_LISTS and _lack_one(lists, declared):
        listed = declared  # in a few lines of a draft the names of the sizes tell more than a list that lacks one
    if listed == 1 and (counted := counted_sizes(text[head.start : head.end])).names:
        return counted
    if listed == 1 and headings >= 2:
        listed = 2
    if re.search(r"(?i)\bone size\b", text[head.start : head.end]) and not declared_number(text[head.start : head.end]):
        return Sizes(())
    if listed == 1:
        titles = [
            (text[block.span.start : block.span.end], block.span) for block in found if block.kind is not Kind.ROUND
        ]
        if (titled := titled_sizes(titles)).names:
            return titled
    return find_sizes(text[head.start : head.end], listed)


_FEW_LISTS = 2
_FEW_ROUNDS = 5


def _lack_one(lists: Sequence[FigureList], sizes: int) -> bool:
    """Tell whether all lists have one figure less than there are sizes."""
    return sizes > 2 and bool(lists) and all(len(one.values) == sizes - 1 for one in lists)


def _covers(block: Block) -> int:
    """Return how many rounds a heading covers."""
    numbers = block.heading.numbers if block.heading else ()
    return numbers[0][1] - numbers[0][0] + 1 if len(numbers) == 1 else 1


def _trim(sizes: Sizes, used: list[tuple[int, ...] | None], *, listed: bool) -> Sizes:
    """Drop declared sizes of which nothing in the rounds makes a difference: the draft is then worked as one size."""
    return sizes if listed or any(one is not None for one in used) else Sizes(())


def _numbered_apart(found: tuple[Block, ...]) -> bool:
    """Tell whether headings give other round numbers for other sizes."""
    return any(block.heading is not None and len(block.heading.numbers) > 1 for block in found)
