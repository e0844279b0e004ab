"""Sizes: which sizes a draft is for, and words that speak of some of them only."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from ..draft import Span
from ..figures import Sizes
from ..later import later
from ..pattern import SizeNote
from .numbers import ordinal

_NAME = (
    r"(?:(?:extra|x|xx|2x|3x)[- ]?(?:small|large)|x{0,3}[sl]|m|[2-6]x(?:l)?|small(?:er)?|medium|large(?:r)?|one size|new ?born|nb|preemie|premature|baby|babies|infant|"
    r"toddler|child(?:ren)?|kids?|youth|teen(?:ager)?|tween|adult|wom[ae]n'?s?|m[ae]n'?s?|lad(?:y|ies)'?|petite|"
    r"\d+(?:\s*[-/]\s*\d+)?\s*(?:months?|mos?\.?|m|years?|yrs?\.?|y|t)|\d+[xt])"
)
_FULL_NAME = later(rf"(?i)(?:size\s+)?{_NAME}(?:(?:\s|/|-)+(?:size\s+)?(?:{_NAME}|preemie|size))*(?:\s+size)?")
_NAME_FIRST = later(rf"(?i)(?:[\s.*_:\"'/,;()\[\]{{}}|&-]|and\b|or\b)*(?:size\s+)?{_NAME}")
_LINE = later(r"(?i)\b(?:sizes?|to fit|fits)\b[^:\n(\d]{0,30}?[:\-]\s*(?P<list>[^\n]+)")
_RUN = later(
    r"(?i)\b(?:sizes?|order|given as|written for|instructions for|figures? for|directions for)\b[^.\n]{0,60}?(?P<list>\(?[^.\n]+)"
)
_FOR = r"(?:(?:changes|figures|numbers|instructions|directions|those)\s+(?:given\s+)?for\s+(?:the\s+)?)?"
_ONE = rf"(?:{_NAME}(?:'s|s'|s)?|\d{{1,2}})(?![\w/])(?:\s+sizes?)?(?:\s*\([^()\d]{{1,6}}\))?"
_AND = r"\s*(?:,\s*and\s|,|/|\band\b|\bor\b|&|\s-\s)\s*"
# `Directions are for size 8. Changes for sizes 10 and 12 are in parentheses`, `Baby size with Child size in ( )`
_CHANGES = later(
    rf"(?i)\b(?:(?:for|sizes?)\s+(?:the\s+)?)*(?P<first>{_ONE})\s*[.,;:]?\s*(?:\bwith\s+|\band\s+)?(?:the\s+)?{_FOR}(?:sizes?\s+)?"
    rf"\(?(?P<rest>{_ONE}(?:{_AND}{_ONE})*)\)?\s*(?:(?:are|is|follow|appear)\s+)?(?:given\s+|shown\s+|written\s+)?(?:in|with\w*)\s+"
    r"(?:the\s+)?(?:\(\s*\)|\[\s*\]|brackets|parenthes[ie]s)"
)
_HEADER = later(r"(?i)^[\s*#_-]*(?:[a-z]+\s+)?sizes?(?:\s+available)?[\s*_]*:?\s*$")
_ENTRY = later(r"^[\s*\u2022-]*(?P<name>[A-Za-z0-9][\w'/. -]{0,24}?)\s*(?::|-\s|=|\(|\s-)")
_LONGEST_LINE = 600  # no longer line is a list of sizes
_SPLIT = later(r"\s*(?:[/,;:()\[\]{}|]|\band\b|\bor\b|&)+\s*", re.IGNORECASE)
_SPLIT_BY_DASH = later(r"\s*-\s*")
_SPLIT_BY_COMMA = later(r"\s*(?:[,;:()\[\]{}|]|\band\b)+\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class _Candidate:
    names: tuple[str, ...]
    span: Span
    known: int  # how many of the names are usual names of sizes


_AROUND = " .*_-:\"'"  # signs that may stand around a name
_MAY_BE_MEASURED = later(r"[-(:=\d]")
_MEASURE = later(r"\s*(?:\(|\s-\s|:|=|\d+(?:\.\d+)?\s*(?:\"|inch|in\b|cm|mm)|\d+\s*$(?<=\s\d{2}))")


_SAID_OF_SIZES = later(
    r"(?i)^(?:(?:changes?|figures?|those|numbers?)\s+)?(?:for\s+)?(?:sizes?\s+)?(?=\S)|\s+(?:are|is)(?:\s+(?:given|shown))?(?:\s+in\s+\w+)?$|\s+in\s+(?:parenthes[ie]s|brackets)$|\s+ch(?:ain)?\b.*$"
)


def _name(part: str) -> str:
    """Cut a measurement off a size's name: "women's 22 inches" is "women's"."""
    part = _SAID_OF_SIZES.sub("", part.strip())
    cut = _MEASURE.split(part)[0] if _MAY_BE_MEASURED.search(part) else part
    return cut.strip(_AROUND) or part.strip(_AROUND)


_OF_COLOURS = later(r"(?i)\s*(?:in\s+)?colou?rs?\b")
_GLOSS = later(r"([^()]+)\(([^()]+)\)")


def _candidate(text: str, start: int, split: re.Pattern[str] = _SPLIT) -> _Candidate | None:
    if gloss := _GLOSS.fullmatch(text.rstrip(" .")):
        # `S, M, L (child, woman, man)`: the bracket says what the names mean
        plain, said = (len(split.split(part.strip())) for part in gloss.groups())
        text = gloss[1] if plain == said > 1 or _OF_COLOURS.match(gloss[2]) else text
    parts = [part for part in split.split(text) if part.strip(_AROUND)]
    names = tuple(_name(part) for part in parts)
    usual = [_FULL_NAME.fullmatch(name) is not None for name in names]
    run = usual.index(False) if False in usual else len(names)
    if 2 <= run < len(names):
        names, usual = names[:run], usual[:run]
    if len(names) < 2 or len(set(names)) != len(names):
        return None
    return _Candidate(names, Span(start, start + len(text.rstrip())), sum(usual))


@lru_cache(maxsize=1)
def _candidates(text: str) -> tuple[_Candidate, ...]:
    """Return every stretch that may list the sizes, in the draft's order."""
    return tuple(_stretches(text))


_DASHED_LIST = later(r"(?i)\W*(?:sizes?\W+)?(?P<list>[a-z\d]{1,8}\s*[(\[][a-z\d]{1,8}(?:-[a-z\d]{1,8})+[)\]])\W*")


_FIRST_OF_LIST = later(r"(?i)(?<![\w,/-])(?<!, )(?:x{0,3}s|m|(?:extra[- ])?small|medium)\s*$")


def _dashed(text: str, start: int) -> Iterable[_Candidate]:
    """Read `S - M - L` and `S-M-L`; two with a dash between them are all from the one to the other."""
    found = _candidate(text, start, _SPLIT_BY_DASH)
    if found and found.known == len(found.names) > 2:
        yield found


def _stretches(text: str) -> Iterable[_Candidate]:
    if _IN_BRACKETS.search(text):
        yield from _with_changes(text)
    lines = [line for line in re.finditer(r"[^\n]+", text) if len(line[0]) <= _LONGEST_LINE]
    for index, line in enumerate(lines):
        if _HEADER.match(line[0]):
            yield from _below_header(line, lines[index + 1 : index + 14])
        for pattern in (_LINE, _RUN):
            match = pattern.search(line[0])
            if match is None:
                continue
            bare = _candidate(re.sub(r"\([^()]*\d[^()]*\)", "", match["list"]), line.start(), _SPLIT_BY_COMMA)
            if bare and bare.known == len(bare.names):
                yield bare
            for split in (_SPLIT_BY_COMMA, _SPLIT):
                if found := _candidate(_first_list(match["list"]), line.start() + match.start("list"), split):
                    yield found
            yield from _dashed(match["list"], line.start() + match.start("list"))
        for bracket in re.finditer(r"\(([^()\n]{3,80})\)", line[0]):
            if _FIRST_OF_LIST.search(line[0][: bracket.start()]):
                continue  # the first size stands before it
            for split in (_SPLIT_BY_COMMA, _SPLIT):
                found = _candidate(bracket[1], line.start() + bracket.start(1), split)
                if found and found.known == len(found.names):
                    yield found
        if dashed := _DASHED_LIST.fullmatch(line[0]):
            found = _candidate(line[0].replace("-", ","), line.start() + dashed.start("list"))
            if found and found.known == len(found.names):
                yield found
        if _NAME_FIRST.match(line[0]):
            found = _candidate(line[0], line.start())
            if found and found.known == len(found.names):
                yield found
    yield from _fits_lines(lines)


_IN_BRACKETS = later(r"(?i)\b(?:in|with\w*)\s+(?:the\s+)?(?:\(\s*\)|\[\s*\]|brackets|parenthes[ie]s)")


def _with_changes(text: str) -> Iterable[_Candidate]:
    """Read a sentence that names the first size and says that the figures of the others are in brackets."""
    for found in _CHANGES.finditer(text):
        parts = [found["first"], *re.split(_AND, found["rest"])]
        names = tuple(" ".join(re.sub(r"(?i)\bsizes?\b|\([^()]*\)", "", part).split()).strip(_AROUND) for part in parts)
        if len(set(names)) == len(names):
            yield _Candidate(names, Span(found.start(), found.end("rest")), len(names))


def _below_header(header: re.Match[str], lines: Sequence[re.Match[str]]) -> Iterable[_Candidate]:
    """Read the sizes in the lines below a heading `Sizes:`: all in the first one, or one a line."""
    if lines:
        below = lines[0]
        bare = re.sub(r"\([^()]*\)", "", below[0])
        found = _candidate(bare, below.start(), _SPLIT_BY_COMMA)
        if found and found.known == len(found.names):
            yield _Candidate(found.names, Span(below.start(), below.end()), found.known)
    names: list[str] = []
    end = header.end()
    for entry in lines:
        match = _ENTRY.match(entry[0])
        if not match or not (_FULL_NAME.fullmatch(match["name"].strip()) or len(match["name"].strip()) <= 2):
            break
        names.append(match["name"].strip())
        end = entry.end()
    if len(names) > 1:
        yield _Candidate(tuple(names), Span(header.start(), end), len(names))


def _first_list(text: str) -> str:
    """Return the part of a line that lists sizes: up to a full stop, or a bracketed list with its lead."""
    return re.split(r"\.\s|\bin (?:brackets|parenthes[ie]s)\b", text)[0]


_FITS = later(rf"(?i)\s*[-*\u2022]?\s*({_NAME}(?:\s+{_NAME})?)\s+(?:fits|size|is|measures|=)")


def _fits_lines(lines: Sequence[re.Match[str]]) -> Iterable[_Candidate]:
    """Read sizes told one a line: "Small fits US shoe sizes 4-7.", "Size 10 mm hook: Large"."""
    names: list[str] = []
    first = last = 0
    for line in lines:
        match = _FITS.match(line[0])
        if match:
            if not names:
                first = line.start()
            names.append(match[1])
            last = line.end()
    if len(set(names)) > 1:
        yield _Candidate(tuple(dict.fromkeys(names)), Span(first, last), len(names))


def titled_sizes(titles: Sequence[tuple[str, Span]]) -> Sizes:
    """Find sizes that have a section each: titles that are usual names of sizes, at least two of them."""
    names: dict[str, Span] = {}
    for title, span in titles:
        name = re.sub(r"\s*\([^)]*\)|\s*\bsizes?\b|[*_#:]", "", title, flags=re.IGNORECASE).strip(" .-")
        if _FULL_NAME.fullmatch(name):
            names.setdefault(name, span)
    if len(names) < 2:
        return Sizes(())
    return Sizes(tuple(names), next(iter(names.values())), declared=True)


def find_sizes(head: str, listed: int) -> Sizes:
    """Find the sizes that a draft declares before its first round.

    `listed` is how many figures its lists have (1 where it has none). Declared names are taken where their number
    fits the lists; lists without names get numbers. A draft without lists is in one size unless usual names are
    declared (then they matter only where an instruction speaks of them).
    """
    found = _candidates(head)
    strict = [one for one in found if one.known == len(one.names)]
    if listed > 1:
        for one in (*strict, *found):
            if len(one.names) == listed:
                return Sizes(one.names, one.span, declared=True)
        return Sizes(tuple(f"size {number + 1}" for number in range(listed)))
    return Sizes(strict[0].names, strict[0].span, declared=True) if strict else Sizes(())


def declared_number(head: str) -> int:
    """Return how many usual size names the draft declares, 0 where it declares none."""
    strict = [one for one in _candidates(head) if one.known == len(one.names)]
    return len(strict[0].names) if strict else 0


_COUNTED = later(r"(?i)\bsizes?\s+(?P<list>1\s*[(\[]\s*2(?:\s*[,:/-]\s*\d{1,2}){0,16}\s*[)\]])")


def counted_sizes(head: str) -> Sizes:
    """Return sizes that are declared by nothing but their numbers, `Sizes 1 (2, 3)`; none where they aren't."""
    match = _COUNTED.search(head)
    numbers = re.findall(r"\d+", match["list"]) if match else []
    if match is None or [int(number) for number in numbers] != list(range(1, len(numbers) + 1)):
        return Sizes(())
    return Sizes(tuple(numbers), Span(*match.span("list")), declared=True)


_ALL = later(
    r"(?i)\s*(?:for\s+)?(?:all|both)\s+(?:the\s+)?sizes?\b(?:\s+(?:only|again|continue|meet|together|rejoin))?"
)
_ONLY = later(
    r"(?i)^\s*(?:for\s+)?(?:the\s+)?(?:sizes?\s+)?(?P<names>[\w'/ .,&+()-]+?)\s*(?:sizes?|version|hat|only)?\s*(?P<only>only)?\s*(?:\([^)]*\))?\s*[:.\-]*\s*$"
)


_LONGEST_NOTE = 160  # no longer line only says for which sizes the next are


def size_note(text: str, span: Span, sizes: Sizes, *, title: bool) -> SizeNote | None:
    """Read a line that says for which sizes the following is: `Sizes L and XL only:`, `All sizes:`, `NEWBORN:`.

    None where the words are something else. A name that looks like a size and isn't declared is kept as unknown.
    """
    words = text.strip(" *_#-:.")
    if len(words) > _LONGEST_NOTE:
        return None
    if _ALL.fullmatch(words):
        return SizeNote(span, None)
    if not sizes.names or _names_every(words, sizes):
        return None
    match = _ONLY.match(re.sub(r"\s*\([^)]*\)", "", text).strip(" *_#"))
    if match is None:
        return None
    only = bool(match["only"]) or bool(re.search(r"(?i)\bonly\b", text))
    marked = only or bool(re.match(r"(?i)\s*(?:for\s+)?(?:the\s+)?sizes?\b", text.strip(" *_#"))) or title
    if not marked:
        return None
    parts = [
        part
        for part in re.split(r"\s*(?:,|/|&|\+|\band\b|\bor\b)\s*", match["names"], flags=re.IGNORECASE)
        if part.strip()
    ]
    found: list[int] = []
    unknown: list[str] = []
    for part in parts:
        name = re.sub(r"(?i)^(?:for|the|sizes?)\s+|\s+(?:sizes?|version|hat|only)$", "", part.strip(" .:"))
        if indices := match_sizes(name, sizes):
            found.extend(indices)
        elif (only and _FULL_NAME.fullmatch(name)) or (only and len(name) <= 3):
            unknown.append(name)
        else:
            return None
    if not found and not unknown:
        return None
    if title and not only and len(found) == sizes.number:
        return None
    return SizeNote(span, tuple(sorted(set(found))), tuple(unknown))


def _names_every(words: str, sizes: Sizes) -> bool:
    """Tell whether words only name all sizes once more: `S (M, L)`."""
    outer, bracket, inner = words.partition("(")
    parts = [outer, *re.split(r"[,/;:()&-]", inner)]
    found = [index for part in parts if part.strip() for index in match_sizes(part.strip(), sizes)]
    return bool(bracket) and found == list(range(sizes.number)) and len(found) > 1


def match_sizes(name: str, sizes: Sizes) -> tuple[int, ...]:
    """Return the indices of the sizes that a name stands for: `Adult` is both `Adult S/M` and `Adult L/XL`."""
    index = match_size(name, sizes)
    if index is not None:
        return (index,)
    words = name.lower().removesuffix("s").split()
    return tuple(
        place
        for place, known in enumerate(sizes.names)
        if words and [part.removesuffix("s") for part in known.lower().split()][: len(words)] == words
    )


def match_size(name: str, sizes: Sizes) -> int | None:
    """Return the index of a size by its name, without regard to case, plurals or the word size."""

    def plain(text: str) -> str:
        short = re.sub(r"(?i)\bsizes?\b|[^a-z0-9]", "", text.lower())
        return {
            "s": "small",
            "m": "medium",
            "l": "large",
            "xl": "xlarge",
            "extralarge": "xlarge",
            "xs": "xsmall",
            "extrasmall": "xsmall",
        }.get(short, short)

    wanted = plain(name)
    if not wanted:
        return None
    place = {"smallest": 1, "largest": sizes.number}.get(wanted) or ordinal(wanted)
    if place is not None and place <= sizes.number:
        return place - 1  # `2nd and 3rd sizes only`
    for index, known in enumerate(sizes.names):
        if plain(known) == wanted or plain(known).rstrip("s") == wanted.rstrip("s"):
            return index
    return None


_NAMES_FIRST = later(
    r"\s*[,(\[]?\s*(?:for\s+)?(?P<names>[A-Za-z\d][\w'/&+ -]{0,24}?(?:,\s*[\w'/&+ -]{1,24}?){0,8})\s*(?:sizes?)?\s*(?P<only>only)?\s*"
    r"(?:[)\]]\s*:?|:|-(?=\s))\s*",
    re.IGNORECASE,
)


_MAY_BE_NAMES = later(r"\s*[,(\[]?[\w\s'/&+,-]*")
_DASHED = later(r"-\s")


def names_first(text: str, start: int, sizes: Sizes) -> tuple[SizeNote, int] | None:
    """Read names of sizes that open a round's own words: `(newborn and 3 months) Ch 3 ...`, `, M and L only: ...`.

    Returns the note and the length of its words; None where they are no names of sizes.
    """
    if not sizes.names:
        return None
    text = text[:_LONGEST_NOTE]
    head = _MAY_BE_NAMES.match(text)
    if head is None or (text[head.end() : head.end() + 1] not in ")]:" and not _DASHED.search(head[0])):
        return None  # most rounds: told before all that may be names is tried
    match = _NAMES_FIRST.match(text)
    if match is None:
        return None
    note = size_note(
        match["names"] + (" only" if match["only"] else ""), Span(start, start + match.end()), sizes, title=True
    )
    return (note, match.end()) if note and note.sizes and not note.unknown else None


def leading_note(text: str, start: int, sizes: Sizes) -> tuple[SizeNote, int] | None:
    """Read a note that stands before an instruction on the same line: `Small only: 4th rnd ...`, `For large hat do ...`."""
    match = re.match(
        r"(?i)\s*(?P<note>(?:for\s+|sizes?\s+|all\s+sizes?|[\w'/-]+\s+)[\w'/ ,&-]{0,60}?(?:\bonly|\bsizes?)?)\s*[:,]\s*(?=\S)",
        text[:_LONGEST_NOTE],
    )
    if match and re.search(r"(?i)\bonly\b|\bsizes?\b", match["note"]):
        note = size_note(
            match["note"], Span(start + match.start("note"), start + match.end("note")), sizes, title=False
        )
        if note:
            return note, match.end()
    match = re.match(
        r"(?i)\s*for\s+(?:the\s+)?(?P<name>[\w' -]{1,30}?)\s*(?:size|hat|version|only)?\s*,?\s+(?=(?:do|work|make|repeat|rep|add)\b)",
        text[:_LONGEST_NOTE],
    )
    if match and (index := match_size(match["name"], sizes)) is not None:
        return SizeNote(Span(start + match.start(), start + match.end()), (index,)), match.end()
    return None
