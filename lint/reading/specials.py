"""Specials: the abbreviation list and special stitches; a stitch that a draft defines becomes one that reading knows."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from ..draft import Span
from ..pattern import Definition
from ..steps import At, Chain, Make, Step, Together, Work
from ..trade.tables import Stitch
from .marks import tree
from .steps import read_steps
from .words import Word, Words

_ENTRY = re.compile(
    r"(?m)^[ \t*\u2022>-]*(?P<term>[A-Za-z][\w'./ -]{0,28}?)[ \t]*(?:\((?P<short>[\w' .-]{1,14})\))?[ \t]*(?:[:=]|\s-\s?|-\s|--+|\.\s{1,6}(?=[A-Z]))[ \t]*(?P<words>[^\n]+(?:\n(?![\n])[ \t]+[a-z][^\n]*)*)"
)
_TOGETHER = re.compile(r"(?i)\b(?:tog(?:ether)?|(?:into|as) (?:one|1)(?!\s+(?:st|sc|dc|hdc|tr|sp))|decreas\w*)\b")
_CLOSED = re.compile(
    r"(?i)\b(?:in|into)\s+(?:the\s+)?(?:same|one|a|1|next|indicated)\s+(?:st|sc|dc|hdc|tr|stitch|sp|space)"
)
_INCREASE = re.compile(
    r"(?i)\bincreas\w*|\b(?:2|two)\s+(?:\w+\s+){1,3}?(?:in|into)\s+(?:the\s+)?(?:same|one|1|next|a)\b"
)
_NUMBERS = {"two": 2, "2": 2, "three": 3, "3": 3, "four": 4, "4": 4, "five": 5, "5": 5}


def definitions(text: str, head: Span, words: Words) -> Iterator[Definition]:
    """Find the entries of the abbreviation list and the special stitches in the head of a draft."""
    for match in _ENTRY.finditer(text, head.start, head.end):
        term = (match["short"] or match["term"]).strip()
        span = Span(
            match.start("short" if match["short"] else "term"),
            match.end("short" if match["short"] else "term"),
        )
        said = Span(match.start("words"), match.end("words"))
        if len(term) > 24 or re.match(
            r"(?i)(?:ch|chain|make|magic)\b\W*[\d(]|\d+\s*ch\b|(?:row|rnd|round)\s*\d|join\b",
            text[said.start : said.end],
        ):
            continue
        if re.search(
            r"(?i)^(?:rnd|round|row|size|foundation|set-?up|begin|start|base|crown|body|head|gauge|hook|yarn|note|materials?|tension|finished)",
            term,
        ):
            continue
        yield Definition(term, span, said, _make(term, text[said.start : said.end], words.within(said)))


_SHORT_ENTRY = re.compile(
    r"(?P<term>[A-Za-z][\w.]{0,9}(?: [A-Za-z]\w{0,5})?)\s*(?:=|:|-)\s*(?P<words>[A-Za-z][^,;=:\n]{2,60})(?=[,;\n]|$)"
)


def run_on_definitions(text: str, head: Span, words: Words) -> Iterator[Definition]:
    """Find abbreviations listed on one line: `X - single crochet, V - increase, A - decrease`."""
    for line in re.finditer(r"[^\n]+", text[head.start : head.end]):
        found = list(_SHORT_ENTRY.finditer(line[0]))
        if len(found) < 3:
            continue
        for match in found:
            start = head.start + line.start()
            term = Span(start + match.start("term"), start + match.end("term"))
            said = Span(start + match.start("words"), start + match.end("words"))
            make = _make(match["term"], text[said.start : said.end], words.within(said))
            yield Definition(match["term"], term, said, make)


def _make(term: str, said: str, words: Sequence[Word]) -> Make | None:
    """Work out what a described stitch uses and makes; None where its words don't tell."""
    name = re.sub(r"\s+", " ", term.lower())
    if (
        _TOGETHER.search(said)
        and not re.search(r"(?i)\bincreas", said)
        and not (_CLOSED.search(said) and re.search(r"(?i)closed|loops? (?:left )?on", said))
    ):
        number = next((_NUMBERS[word] for word in re.findall(r"\w+", said.lower()) if word in _NUMBERS), 2)
        return Make(name, number, 1, 1)
    if re.search(r"(?i)\bclosed? together\b|\bbobble|\bpuff|\bpopcorn|\bcluster|\byarn over|\byo\b", said):
        return Make(name, 1, 1, 2)
    items, loose = tree(words)
    read = read_steps(items, loose)
    made = [step for step in read.steps if isinstance(step, Work | Together)]
    if len(made) == 1 and not read.loose and (make := _of_step(name, made[0])):
        return make
    if _INCREASE.search(said):
        return Make(name, 1, 2, 1)
    if re.fullmatch(r"(?i)\s*(?:single crochet|column without (?:a )?crochet|simple column)\s*", said):
        return Make("sc", 1, 1, 1)
    named = [word.stitch for word in words if word.stitch is not None and word.stitch.kind in ("basic", "post")]
    if len(named) == 1 and named[0].uses is not None and named[0].makes is not None and len(words) <= 8:
        return Make(named[0].id, named[0].uses, named[0].makes, named[0].height)
    return None


def _of_step(name: str, step: Step) -> Make | None:
    if isinstance(step, Work) and step.where.at in (At.NEXT, At.SAME) and not step.bare:
        times = step.times.values[0]
        number = step.where.number.values[0] if step.where.number else 1
        if times and number == 1:
            return Make(name, step.make.uses, step.make.makes * times, step.make.height)
    if isinstance(step, Together) and step.where.at in (At.NEXT, At.SAME):
        total = 0
        for inner in step.steps:
            if isinstance(inner, Work) and inner.times.values[0]:
                total += inner.make.makes * inner.times.values[0]
        if total and all(isinstance(inner, Work) for inner in step.steps):
            return Make(name, 1, total, 1)
        if total and all(isinstance(inner, Work | Chain) for inner in step.steps):
            return Make(name, 1, total, 3, group=step.steps)
    return None


def with_defined(text: str, words: Words, defined: Sequence[Definition], known: frozenset[str]) -> Words:
    """Label the words of defined terms as stitches, wherever they stand.

    `known` are ids and spellings that the trade tables already hold; those keep their own meaning.
    """
    terms: dict[tuple[str, ...], Stitch] = {}
    makes: dict[str, Make] = {}
    letters = {d.term: d.make for d in defined if len(d.term) == 1 and d.term.isupper() and d.make is not None}
    for definition in defined:
        parts = tuple(re.findall(r"\d+|[^\W\d_]+", definition.term.lower()))
        if (
            definition.make is None
            or not parts
            or definition.term.lower() in known
            or " ".join(parts) in known
            or parts[0].isdigit()
        ):
            continue
        make = definition.make
        kind = "increase" if make.makes > make.uses else "decrease" if make.uses > make.makes else "basic"
        terms[parts] = Stitch(" ".join(parts), "crochet", (), (), make.uses, make.makes, make.height, kind)
        makes[" ".join(parts)] = replace(make, kind=" ".join(parts))
    if letters:
        words = Words.made_of(tuple(_lettered(word, text, letters) for word in words.all))
    if not terms:
        return words
    longest = 1 + max(len(parts) for parts in terms)
    found: list[Word] = []
    index = 0
    everything = words.all
    while index < len(everything):
        for length in range(min(longest, len(everything) - index), 0, -1):
            piece = everything[index : index + length]
            dashed = piece[0].kind == "-" or piece[-1].kind == "-"
            stitch = terms.get(tuple(part for word in piece for part in word.text.split() if part != "-"))
            if stitch is not None and not dashed and not any(word.kind == "*" for word in piece):
                span = Span(piece[0].span.start, piece[-1].span.end)
                make = makes[stitch.id]
                found.append(
                    replace(piece[0], text=stitch.id, kind="stitch", span=span, stitch=stitch, value=None, make=make)
                )
                index += length
                break
        else:
            found.append(everything[index])
            index += 1
    return Words.made_of(tuple(found))


def _lettered(word: Word, text: str, letters: Mapping[str, Make]) -> Word:
    """Label a capital letter that the draft defines as a stitch: `6X` where X is single crochet."""
    make = letters.get(text[word.span.start : word.span.end])
    if make is None:
        return word
    kind = "increase" if make.makes > make.uses else "decrease" if make.uses > make.makes else "basic"
    stitch = Stitch(make.kind, "crochet", (), (), make.uses, make.makes, make.height, kind)
    return replace(word, kind="stitch", stitch=stitch, value=None)
