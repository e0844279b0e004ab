"""Specials: the abbreviation list and special stitches; a stitch that a draft defines becomes one that reading knows."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from ..draft import Span
from ..figures import Figure
from ..later import later
from ..pattern import Definition
from ..steps import At, Chain, Make, Step, Together, Where, Work
from ..trade.tables import Stitch
from .makes import make_of
from .marks import Group, Item, tree
from .steps import read_steps
from .together import in_one
from .words import Word, Words

_ENTRY = later(
    r"(?m)^[ \t*\u2022>-]*(?P<term>[A-Za-z][\w'./ -]{0,28}?)[ \t]*(?:\((?P<short>[\w' .-]{1,14})\))?[ \t]*(?:[:=]|\s-\s?|-\s|--+|\.\s{1,6}(?=[A-Z]))[ \t]*(?P<words>[^\n]+(?:\n(?![\n])[ \t]+[a-z][^\n]*)*)"
)
# `5 dc together in one st`, `5 dc in st, drop loop, ..`: one stitch, however many it is made of
_OF_ONE = later(
    r"(?i)\btog(?:ether)?\s+(?:all\s+)?in(?:to)?\s+(?:the\s+)?(?:one|same|1)\b|\bdrop\w*\s+(?:the\s+)?(?:loop|lp)"
)
_BELOW = later(r"(?i)\b(?:rows?|rounds?|rnds?)\s+(?:below|down)\b")
_TOGETHER = later(r"(?i)\b(?:tog(?:ether)?|(?:into|as) (?:one|1)(?!\s+(?:st|sc|dc|hdc|tr|sp))|decreas\w*)\b")
_CLOSED = later(r"(?i)\b(?:in|into)\s+(?:the\s+)?(?:same|one|a|1|next|indicated)\s+(?:st|sc|dc|hdc|tr|stitch|sp|space)")
_INCREASE = later(r"(?i)\bincreas\w*|\b(?:2|two)\s+(?:\w+\s+){1,3}?(?:in|into)\s+(?:the\s+)?(?:same|one|1|next|a)\b")
_ONE_PLACE = {"place", "st", "stitch", "sp", "space", "corner", "ch"}
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
        if (
            len(term) > 24
            or "=" in match["words"]
            or re.match(
                r"(?i)(?:ch|chain|make|magic)\b\W*[\d(]|\d+\s*ch\b|(?:row|rnd|round)\s*\d|join\b",
                text[said.start : said.end],
            )
        ):
            continue
        if re.search(
            r"(?i)^(?:rnd|round|row|size|foundation|set-?up|begin|start|base|crown|body|head|gauge|hook|yarn|note|materials?|tension|finished)",
            term,
        ):
            continue
        yield Definition(term, span, said, _make(term, text[said.start : said.end], words.within(said)))


_SHORT_ENTRY = later(
    r"(?P<term>[A-Za-z][\w.]{0,9}(?:(?<!\w{4}\.) [A-Za-z]\w{0,5})?)\s*(?:=|:|-)\s*(?P<words>(?:[A-Za-z]|[234]\s?(?=(?:sc|hdc|dc|h?tr)\b))(?:[^,;=:.|\u00b7\u2022\n]|\.(?=\S)){1,60})(?=[,;.|\u00b7\u2022\n]|$)"
)


def run_on_definitions(text: str, head: Span, words: Words) -> Iterator[Definition]:
    """Find abbreviations listed on one line: `X - single crochet, V - increase, A - decrease`."""
    for line in re.finditer(r"[^\n]+", text[head.start : head.end]):
        if sum(map(line[0].count, "=:-")) < 2:
            continue
        found = list(_SHORT_ENTRY.finditer(line[0]))
        letters = sum(len(match["term"].split()[-1]) == 1 for match in found)
        if len(found) < 3 and letters < 2:
            continue
        for match in found:
            start = head.start + line.start()
            term = Span(start + match.start("term"), start + match.end("term"))
            said = Span(start + match.start("words"), start + match.end("words"))
            make = _make(match["term"], text[said.start : said.end], words.within(said))
            yield Definition(match["term"], term, said, make)


_MADE = later(
    r"(?i)\(\s*(?:(?:first|1st)\s+)?(?P<term>(?:half[ -])?(?:shell|fan|v-?\s?st(?:itch)?|cluster|scallop|corner|block|petal))\s+"
    r"(?:is\s+)?(?:now\s+)?(?:made|formed|completed)\b[^()]{0,20}\)"
)
_CLAUSE = later(r"[*.;:\n]")


def made_definitions(text: str, words: Words) -> Iterator[Definition]:
    """Find groups that are named where they are first worked: `5 dc in next ch (shell made)`."""
    told: set[str] = set()
    for match in _MADE.finditer(text) if "made" in text or "formed" in text or "completed" in text else ():
        term = " ".join(match["term"].lower().replace("-", " ").split())
        if term in told:
            continue
        before = [sign.end() for sign in _CLAUSE.finditer(text, max(0, match.start() - LONGEST_CLAUSE), match.start())]
        span = Span(before[-1] if before else max(0, match.start() - LONGEST_CLAUSE), match.start())
        items, loose = tree(words.within(span))
        read = read_steps(items, loose)
        make = _of_last(term, read.steps) if not read.loose else None
        if make is not None:
            told.add(term)
            yield Definition(term, Span(match.start("term"), match.end("term")), span, make)


LONGEST_CLAUSE = 120  # characters before the name of a group


def _of_last(term: str, steps: Sequence[Step]) -> Make | None:
    """Return the group that the last of some steps makes; a beginning chain in its place is its first stitch."""
    made = [step for step in steps if isinstance(step, Work | Together | Chain)]
    if not made or not isinstance(made[-1], Work | Together):
        return None
    last = made[-1]
    begun = len(made) > 1 and isinstance(made[-2], Chain) and made[-2].beginning
    if last.where.at is At.SAME and not begun:
        return None
    inside = last.steps if isinstance(last, Together) else (replace(last, where=Where(At.SAME)),)
    if last.where.at is At.SAME:
        first = next((step for step in inside if isinstance(step, Work)), None)
        if first is None or (made[-2].n.values[0] if isinstance(made[-2], Chain) else 0) != first.make.height:
            return None
        inside = (replace(first, times=replace(first.times, values=(1,))), *inside)
    where = Where(At.NEXT, Figure((1,), last.span))
    return _of_step(term, Together(inside, where, last.span))


def _make(term: str, said: str, words: Sequence[Word]) -> Make | None:
    """Work out what a described stitch uses and makes; None where its words don't tell."""
    name = re.sub(r"\s+", " ", term.lower())
    if re.search(r"(?i)\bwrap\b.*\bturn\b", said):
        return Make(name, 0, 0, 0)
    if _OF_ONE.search(said):
        return Make(name, 1, 1, 2)
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
    only = items[0] if len(items) == 1 else None
    if isinstance(only, Word) and only.stitch is not None and only.stitch.kind != "chain":
        return make_of(only)
    if (group := _in_one_place(name, items)) is not None:
        return group
    read = read_steps(items, loose)
    made = [step for step in read.steps if isinstance(step, Work | Together)]
    if len(made) == 1 and not read.loose and (make := _of_step(name, made[0])):
        return make
    if _INCREASE.search(said):
        return Make(name, 1, 2, 1)
    if re.fullmatch(r"(?i)\s*(?:single crochet|column without (?:a )?crochet|simple column)\s*", said):
        return Make("sc", 1, 1, 1)
    named = [word.stitch for word in words if word.stitch is not None and word.stitch.kind in ("basic", "post")]
    below = len({stitch.id for stitch in named}) == 1 and _BELOW.search(said) and "," not in said
    if not named or named[0].uses is None or named[0].makes is None:
        return None
    if below or (len(named) == 1 and len(words) <= 8):
        return Make(named[0].id, named[0].uses, named[0].makes, named[0].height)
    return None


def _in_one_place(name: str, items: Sequence[Item]) -> Make | None:
    """Read `increase corner (1 dc, ch 2, 1 dc)`, `2 dc, ch 2, 2 dc in one place`: several stitches with a space."""
    groups = [item for item in items if isinstance(item, Group)]
    outside = [item for item in items if isinstance(item, Word)]
    if len(groups) == 1 and all(word.stitch is None or word.stitch.kind == "increase" for word in outside):
        if any(word.kind in ("number", "rep", "times") for word in outside):
            return None
        inside = groups[0].items
    elif not groups and outside and outside[-1].text in _ONE_PLACE:
        at = max((n for n, word in enumerate(outside) if word.kind == "into"), default=0)
        inside = tuple(outside[:at])
    else:
        return None
    steps = in_one(read_steps(inside).steps)
    works = [step for step in steps if isinstance(step, Work)]
    spaced = any(isinstance(step, Chain) for step in steps)
    if len(works) < 2 or not spaced or not all(isinstance(step, Work | Chain) for step in steps):
        return None
    total = sum((step.times.values[0] or 0) * step.make.makes for step in works)
    if isinstance(steps[0], Chain) or any(step.where.at is not At.SAME for step in works):
        return None
    return Make(name, 1, total, 3, group=steps)


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
            first = step.steps[0]
            if re.match(r"(?:beg|beginning|first|starting)\b", name) and isinstance(first, Chain):
                # the first shell of a round: its chain stands for a stitch
                return Make(name, 1, total + 1, 3, group=(replace(first, beginning=True), *step.steps[1:]))
            return Make(name, 1, total, 3, group=step.steps)
    return None


def with_defined(text: str, words: Words, defined: Sequence[Definition], known: frozenset[str]) -> Words:
    """Label the words of defined terms as stitches, wherever they stand.

    `known` are ids and spellings that the trade tables already hold; those keep their own meaning.
    """
    terms: dict[tuple[str, ...], Stitch] = {}
    makes: dict[str, Make] = {}
    letters = _letters(text, defined)
    for definition in defined:
        parts = tuple(re.findall(r"\d+|[^\W\d_]+", definition.term.lower()))
        if (
            definition.make is None
            or not parts
            or definition.term.lower() in known
            or " ".join(parts) in known
            or parts[0].isdigit()
            or definition.term in letters
        ):
            continue
        make = definition.make
        kind = _kind_of(make)
        terms[parts] = Stitch(" ".join(parts), "crochet", (), (), make.uses, make.makes, make.height, kind)
        makes[" ".join(parts)] = replace(make, kind=" ".join(parts))
    if letters:
        words = Words.made_of(tuple(_lettered(words.all, n, text, letters) for n in range(len(words.all))))
    if not terms:
        return words
    longest = 1 + max(len(parts) for parts in terms)
    opening = {"-", *(parts[0] for parts in terms)}
    found: list[Word] = []
    index = 0
    everything = words.all
    while index < len(everything):
        if everything[index].text.partition(" ")[0] not in opening:
            found.append(everything[index])
            index += 1
            continue
        for length in range(min(longest, len(everything) - index), 0, -1):
            piece = everything[index : index + length]
            dashed = piece[0].kind == "-" or piece[-1].kind == "-"
            said = tuple(part for word in piece for part in word.text.split() if part != "-")
            stitch = terms.get(said) or (terms.get((*said[:-1], said[-1].removesuffix("s"))) if said else None)
            if stitch is not None and not dashed and not any(word.kind == "*" for word in piece):
                span = Span(piece[0].span.start, piece[-1].span.end)
                make = makes[stitch.id]
                found.append(
                    piece[0]._replace(text=stitch.id, kind="stitch", span=span, stitch=stitch, value=None, make=make)
                )
                index += length
                break
        else:
            found.append(everything[index])
            index += 1
    corners = [make for make in makes.values() if make.group and make.kind.startswith("inc ")]
    if len(corners) == 1:
        found = [_corner(found, index, corners[0]) for index in range(len(found))]
    return Words.made_of(tuple(found))


def _corner(words: Sequence[Word], index: int, corner: Make) -> Word:
    """Take `inc` into a chain space for the one increase with a space that the draft defines, `inc C`."""
    word = words[index]
    if word.stitch is None or word.stitch.id != "inc" or index + 1 >= len(words) or words[index + 1].kind != "into":
        return word
    place = words[index + 2 : index + 7]
    end = next((n for n, one in enumerate(place) if one.kind in (",", ".", ";", ")", "]")), len(place))
    if not any(one.kind == "space" for one in place[:end]):
        return word
    stitch = Stitch(corner.kind, "crochet", (), (), corner.uses, corner.makes, corner.height, _kind_of(corner))
    return word._replace(stitch=stitch, make=corner)


def _kind_of(make: Make) -> str:
    """Return the group of the stitch table that a defined stitch belongs to."""
    if not make.uses and not make.makes:
        return "short row"
    return "increase" if make.makes > make.uses else "decrease" if make.uses > make.makes else "basic"


_TOY_LETTERS = later(r"(?i)[(\[]\s*\d*\s?x\s*,\s*\d*\s?[va]\s*[)\]]")
_USUAL_LETTERS = {"x": Make("sc"), "v": Make("inc", 1, 2), "a": Make("dec", 2, 1)}


def _letters(text: str, defined: Sequence[Definition]) -> dict[str, Make]:
    """Return the single letters that stand for stitches: those a legend defines, or those that toys use without one.

    A legend of two or more letters means them in either case.
    """
    legend = {d.term: d.make for d in defined if len(d.term) == 1 and d.term.isalpha() and d.make is not None}
    if len(legend) > 1:
        return {case: make for term, make in legend.items() for case in (term.lower(), term.upper())}
    if len(_TOY_LETTERS.findall(text)) > 1:
        return {case: make for term, make in _USUAL_LETTERS.items() for case in (term, term.upper())}
    return {term: make for term, make in legend.items() if term.isupper()}


_BEFORE_LETTER = frozenset(
    {"number", ",", "(", "[", "{", "*", ":", ".", "-", ")", "]", "}", "=", "stitch", ";", "+", "|", "noise", "rep", ""}
)
_AFTER_LETTER = frozenset(
    {",", ")", "]", "}", "number", "*", "(", "[", "{", ".", "into", "around", "each", "times", ";", "+", "", "loops"}
    | {"word", "join", "|", "-", "=", "round", "often", "rep", "ring", "skip", "over", "turn", "fasten", "stitch"}
)


def _lettered(words: Sequence[Word], index: int, text: str, letters: Mapping[str, Make]) -> Word:
    """Label a letter that the draft defines as a stitch: `6X` where X is single crochet."""
    word = words[index]
    make = letters.get(text[word.span.start : word.span.end])
    if make is None:
        return word
    before = words[index - 1] if index else None
    after = words[index + 1] if index + 1 < len(words) else None
    new_line = before is None or "\n" in text[before.span.end : word.span.start]
    last = after is None or "\n" in text[word.span.end : after.span.start]
    if not new_line and before is not None and before.kind not in _BEFORE_LETTER:
        return word
    if not last and after is not None and after.kind not in _AFTER_LETTER:
        return word
    if word.text == "x" and _multiplies(words, index):
        return word
    counted = before is not None and before.kind == "number" and not new_line
    if word.text == "a" and not counted and after is not None and after.kind in ("word", "ring", "stitch", "round"):
        return word  # the article
    kind = _kind_of(make)
    stitch = Stitch(make.kind, "crochet", (), (), make.uses, make.makes, make.height, kind)
    return word._replace(kind="stitch", stitch=stitch, value=None)


def _multiplies(words: Sequence[Word], index: int) -> bool:
    """Tell whether an x says how often: `(x, v) x 6`, `inc x 6`, `(x, v) 6x`."""
    kinds = [words[at].kind if 0 <= at < len(words) else "" for at in range(index - 2, index + 2)]
    if kinds[1] in (")", "]", "}", "stitch") and kinds[3] == "number":
        return True
    return kinds[1] == "number" and kinds[0] in (")", "]", "}")
