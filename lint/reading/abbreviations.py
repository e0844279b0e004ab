"""Abbreviations: the list in which a draft explains its terms, and the abbreviations that its rounds use."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache, lru_cache

from ..draft import Span
from ..later import later
from ..pattern import Round
from ..spellings import AbbreviationEntry, AbbreviationUsed, Doubt, Mended
from ..trade.tables import TERMS, abbreviations, spellings, stitches
from .letters import doubtful_signs, lettered_headings
from .mending import misspelt_headings, nearest_term
from .words import Word, Words

_LEAST_ENTRIES, _LEAST_STITCHES = 3, 2  # fewer explain a term or two, and are no list
_LONGEST_LINE = 300
_LONGEST_GAP = 4  # lines between two entries that explain nothing known
_LONGEST_TERM = 12
_OFTEN_LISTED = frozenset({"st", "sts", "rnd", "rnds", "rep", "fo", "beg"})  # an editor leaves them in the list
_PLAIN = frozenset({"basic", "post", "chain", "extended"})
_OPPOSITES = (frozenset({"blo", "flo", "bl", "fl"}), frozenset({"rs", "ws"}), frozenset({"fp", "bp"}))
_STRONG = later(
    r"[\s*\u2022>|-]*(?P<term>[A-Za-z][\w'./() -]{0,26}?)\s*"
    r"(?:=|:|-{1,2}(?=\s)|(?<=\s)-{1,2}|\|)\s*(?P<words>[(\w][^\n]*)"
)
_WEAK = later(
    r"[\s*\u2022>|-]*(?P<term>[A-Za-z][\w'/-]*(?: [A-Za-z][\w'-]{0,9})?)\s*(?:\.\s+|\s{2,}|\s\()(?P<words>\w[^\n]*)"
)
_BARE = later(r"[\s*\u2022>|-]*(?P<term>[A-Za-z][\w'.()-]*(?: st\b\.?)?)\s+(?P<words>[A-Za-z\d][\w ()]{2,40})\.?$")
_RUN = later(
    r"(?P<term>[A-Za-z][\w.'()-]*(?: st)?)\s*=\s*"
    r"(?P<words>[A-Za-z][^=,;\n]*?)(?=\s+[A-Za-z][\w.'()-]*(?: st)?\s*=|[,;\n.]|$)"
)
_LEAD = later(
    r"\W*[A-Za-z ()/]{0,30}(?i:abbrev|stitch|terms|legend|key|convention|symbol|notation|glossary)"
    r"[A-Za-z ()/]{0,30}:\s*(?=\S)"
)
_PARTS = later(r"[^/]+(?:/(?![A-Za-z]{2})[^/]*)*")
_GLUED = later(r"[\s*\u2022>|-]*(?P<term>[A-Za-z][\w. ]{0,8})-(?P<words>[a-z][\w ()]+)")  # an em dash
_LETTERS = later(r"[A-Za-z]\w*")
_HEADED = later(r"(?i)\b(?:abbreviat|stitch(?:es)? used|legend|key\b|terms used|stitch guide|glossary)")
_PIECES = later(r"(?:[^,;|.]|\.(?!\s+[A-Z][\w. ]{0,8}[=:-]))+")
_OTHER_TERMS = later(r"\b(?:U\.?[KS]\.?A?|British|American|English|Australian)\b|(?i:\bterminology|\bconver)")
_FILLERS = frozenset(
    {"only", "the", "a", "an", "crochet", "of", "in", "into", "through", "stitch", "st", "or", "s", "es"}
)
_NUMBERS = {"stitches": "stitch", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "together": "tog"}


def key_of(term: str) -> str:
    """Return the letters and figures of a term, small and close together: `Sl-st.` is slst, `St(s)` sts."""
    return "".join(char for char in term.lower() if char.isalnum())


@lru_cache(maxsize=1024)
def name_of(words: str) -> str:
    """Return the words of a meaning that tell it from others: `Front loops only` is front loop."""
    found: list[str] = re.findall(r"[a-z]+|\d+", re.sub(r"\([^)]*\)?", " ", words.lower()))
    found = [_NUMBERS.get(word, word.removesuffix("s") if len(word) > 3 else word) for word in found]
    return " ".join(word for word in found if word not in _FILLERS) or " ".join(found)


@dataclass(frozen=True, slots=True)
class Lore:
    """What the trade tables say of abbreviations in one craft and set of terms.

    `terms` leads from the key of a term to its id, `names` from a meaning to its id, `full` from an id to its
    name in words, `kinds` from the id of a stitch to its kind. `words` are the words of names, `short`
    the short ones of abbreviations, in small and capital letters.
    """

    terms: Mapping[str, str]
    names: Mapping[str, str]
    full: Mapping[str, str]
    kinds: Mapping[str, str]
    words: frozenset[str]
    short: frozenset[str]

    def differ(self, one: str, other: str) -> bool:
        """Tell whether two ids are so alike in kind that one can't be meant by the other, and are not the same."""
        if one == other:
            return False
        if any(one in pair and other in pair for pair in _OPPOSITES):
            return True
        kinds = {self.kinds.get(one), self.kinds.get(other)}
        exact = one.endswith("tog") and other.endswith("tog")
        return kinds <= _PLAIN or (kinds == {"decrease"} and exact)

    def is_short(self, spelling: str) -> bool:
        """Tell whether a spelling abbreviates: it has a short word that is in no name."""
        return any(
            len(word) <= 6 and word not in self.words and word.removesuffix("s") not in self.words
            for word in re.findall(r"[a-z]+", spelling.lower())
        )


@cache
def lore(craft: str, terms: str) -> Lore:
    """Return the lore of a craft in "US" or "UK" terms."""
    rows = stitches(craft)
    words = {word for row in rows for name in (row.us[0], row.uk[0]) for word in name.split() if len(word) > 3}
    known: dict[str, str] = {}
    names: dict[str, str] = {}
    full: dict[str, str] = {}
    for spelling, stitch in spellings(craft, terms).items():
        known.setdefault(key_of(spelling), stitch.id)
        full.setdefault(stitch.id, (stitch.us if terms == "US" else stitch.uk)[0])
    for row in rows:
        for name in (row.us if terms == "US" else row.uk)[:1]:
            names.setdefault(name_of(name), row.id)
    for entry in abbreviations(craft):
        if entry.terms not in (None, terms):
            continue
        for spelling in (entry.term, *entry.variants):
            known.setdefault(key_of(spelling), entry.term.lower())
        names.setdefault(name_of(entry.meaning), entry.term.lower())
        full.setdefault(entry.term.lower(), entry.meaning)
        words |= {word for word in entry.meaning.lower().split() if len(word) > 3 and word.isalpha()}
    spelled = {word for term in (*spellings(craft, terms), *known) for word in term.split() if len(word) > 1}
    short = {word for word in spelled if word not in words}
    return Lore(known, names, full, {row.id: row.kind for row in rows}, frozenset(words), _in_any_case(short))


def _in_any_case(words: Iterable[str]) -> frozenset[str]:
    """Return words small, in capitals and with a first capital."""
    return frozenset(form for word in words for form in (word, word.upper(), word.capitalize()))


# ---------------------------------------------------------------- the list


def abbreviation_list(
    text: str, groups: Iterable[Sequence[Span]], words: Words, craft: str, terms: str
) -> tuple[AbbreviationEntry, ...]:
    """Find the abbreviation list among the lines that are no rounds; empty where fewer than three terms are listed.

    Each of the `groups` holds lines that follow each other; after the first one, a list must have a heading.
    """
    table = lore(craft, terms)
    lists = (
        run
        for number, lines in enumerate(groups)
        if not number or any(_HEADED.search(text, line.start, line.end) for line in lines)
        for run in _runs(text, lines, table)
    )
    none: tuple[list[AbbreviationEntry], list[AbbreviationEntry]] = ([], [])
    found, known = max(lists, key=lambda run: len(run[1]), default=none)
    of_stitches = {entry.stands_for for entry in known} & table.kinds.keys()
    if len(known) < _LEAST_ENTRIES or len(of_stitches) < _LEAST_STITCHES:
        return ()
    keys = _keys_outside(words, found)
    sure = {entry.term for entry in known}
    judged = [
        replace(
            entry,
            used=entry.term not in sure or entry.key in _OFTEN_LISTED or _is_used(text, entry, keys),
            contradicts=_contradiction(text, entry, craft),
        )
        for entry in found
    ]
    shifted = [entry for entry in judged if entry.contradicts and table.kinds.get(entry.stands_for or "") == "basic"]
    if len(shifted) > 1:  # a table that turns US terms into UK terms
        judged = [replace(entry, contradicts=None) for entry in judged]
    return tuple(judged)


def _runs(
    text: str, lines: Sequence[Span], table: Lore
) -> Iterator[tuple[list[AbbreviationEntry], list[AbbreviationEntry]]]:
    """Yield the lists among lines: all entries from the first to the last sure one, and the sure ones."""
    found: list[AbbreviationEntry] = []
    known: list[AbbreviationEntry] = []
    waiting: list[AbbreviationEntry] = []  # since the last sure one
    gap = 0
    for line in lines:
        here: list[AbbreviationEntry] = []
        if line.end - line.start <= _LONGEST_LINE and not table.short.isdisjoint(
            _LETTERS.findall(text, line.start, line.end)
        ):
            here = list(_entries(text, line, table))
        sure = [entry for entry in here if _is_sure(text, entry, table)]
        gap = 0 if sure else gap + 1
        if gap > _LONGEST_GAP and known:
            yield found, known
            found, known, waiting = [], [], []
        if sure:
            found += [*waiting, *here]
            known += sure
            waiting = []
        elif known:
            waiting += here
    if known:
        yield found, known


def _is_sure(text: str, entry: AbbreviationEntry, table: Lore) -> bool:
    """Tell whether an entry explains an abbreviation of the trade in words of the trade."""
    if entry.stands_for is None or not table.is_short(text[entry.term.start : entry.term.end]):
        return False
    if entry.meaning is not None:
        return True
    said = re.findall(r"[a-z]+", text[entry.words.start : entry.words.end].lower())
    return any(word in table.words or word in table.terms or nearest_term(word) for word in said)


def _entries(text: str, line: Span, table: Lore) -> Iterator[AbbreviationEntry]:
    """Yield the entries of a line: one, or several one after the other."""
    lead = _LEAD.match(text, line.start, line.end)
    start = lead.end() if lead else line.start
    words = text[start : line.end]
    if words.count("=") > 1 and len(run := list(_RUN.finditer(words))) > 1:
        for match in run:
            yield from _entry(text, start, match, table)
        return
    if any(sign in words for sign in (",", ";", "|", ". ")):
        pieces = [
            (start + piece.start(), match) for piece in _PIECES.finditer(words) if (match := _match(piece[0], table))
        ]
        parts = [entry for at, match in pieces for entry in _entry(text, at, match, table)]
        if sum(entry.stands_for is not None and entry.meaning is not None for entry in parts) > 1:
            yield from parts
            return
    match = _match(words, table)
    if match and (match.re.pattern != _BARE.pattern or name_of(match["words"]) in table.names):
        yield from _entry(text, start, match, table)


def _match(words: str, table: Lore) -> re.Match[str] | None:
    """Match an entry: a sign between term and words if there is one, else a full stop or blanks."""
    if (match := _STRONG.match(words)) and len(match["term"].split()) <= 4:
        return match
    if (match := _WEAK.match(words)) and key_of(match["term"]) in table.terms:
        return match
    if (match := _BARE.match(words)) and key_of(match["term"]) in table.terms:
        return match
    if (
        (match := _GLUED.match(words))
        and key_of(match["term"]) in table.terms
        and name_of(match["words"]) in table.names
    ):
        return match
    return None


def _entry(text: str, start: int, match: re.Match[str], table: Lore) -> Iterator[AbbreviationEntry]:
    """Make entries of a match; `Slip stitch = sl st` has its term behind, `fpdc/bpdc = ..` has two."""
    term = Span(start + match.start("term"), start + match.end("term"))
    words = Span(start + match.start("words"), start + match.end("words"))
    if text[words.end - 1] == ")" and "(" not in match["words"]:  # `ch (chain)`
        words = Span(words.start, words.end - 1)
    behind = match["words"].rstrip(" .;,)")
    whole = len(behind) <= _LONGEST_TERM and not table.is_short(match["term"])
    if whole and table.is_short(behind) and key_of(behind) in table.terms:
        term, words = Span(words.start, words.start + len(behind)), term
    meaning = table.names.get(name_of(text[words.start : words.end]))
    for part in _PARTS.finditer(text, term.start, term.end):
        key = key_of(part[0])
        alone = part.span() == (term.start, term.end)
        stands_for = table.terms.get(key)
        explained = len(key) > 1 or (stands_for is not None and stands_for == meaning)  # `k = knit`, and no colour K
        yield AbbreviationEntry(
            term=Span(*part.span()),
            words=words,
            key=key,
            stands_for=stands_for if explained else None,
            meaning=meaning if alone else None,
        )


def _keys_outside(words: Words, entries: Sequence[AbbreviationEntry]) -> frozenset[str]:
    """Return every single word that stands anywhere but as a term of the list."""
    texts = Counter(word.text for word in words.all)
    texts.subtract(word.text for entry in entries for word in words.within(entry.term))
    return frozenset(part for text, number in texts.items() if number > 0 for part in text.split())


def _is_used(text: str, entry: AbbreviationEntry, keys: frozenset[str]) -> bool:
    """Tell whether a term stands outside the list; where in doubt, it does."""
    parts = re.findall(r"[a-z]+|\d+", text[entry.term.start : entry.term.end].lower().replace("(s)", ""))
    return all({part, f"{part}s", part.removesuffix("s")} & keys for part in parts)


def _contradiction(text: str, entry: AbbreviationEntry, craft: str) -> str | None:
    """Return what a term usually means where the list gives it another known meaning, under US and UK terms alike."""
    said = name_of(text[entry.words.start : entry.words.end])
    line = text[text.rfind("\n", 0, entry.term.start) + 1 : entry.words.end + 12]
    if entry.stands_for is None or _OTHER_TERMS.search(line):
        return None
    usual = None
    for terms in TERMS:
        table = lore(craft, terms)
        stands_for, meaning = table.terms.get(entry.key), table.names.get(said)
        if meaning is None or stands_for is None:
            continue
        if not table.differ(stands_for, meaning) or name_of(table.full[stands_for]) in said:
            return None
        usual = usual or table.full[stands_for]
    return usual


def doubts(
    text: str, mended: Iterable[Mended], rounds: Sequence[Round], entries: Sequence[AbbreviationEntry]
) -> tuple[Mended, ...]:
    """Return, in order, what was mended in the rounds and in the abbreviation list of a draft; its text is unchanged.

    A letter of another alphabet counts wherever it stands.
    """
    spans = sorted(round_.span for round_ in rounds)
    starts = [span.start for span in spans]
    found = {*misspelt_in_list(text, entries), *lettered_headings(text), *misspelt_headings(text)}
    for one in mended:
        index = bisect_right(starts, one.span.start) - 1
        if one.doubt is Doubt.ALPHABET or (index >= 0 and one.span.end <= spans[index].end):
            found.add(one)
    for round_ in rounds:
        for one in doubtful_signs(text, round_.heading, round_.span.end):
            found -= {other for other in found if one.span.start <= other.span.start < one.span.end}
            found.add(one)
    return tuple(sorted(found, key=lambda one: (one.span, one.to)))


def misspelt_in_list(text: str, entries: Iterable[AbbreviationEntry]) -> Iterator[Mended]:
    """Find words of the list that are one letter off a term: `double crocket`."""
    for entry in entries:
        for match in re.finditer(r"[A-Za-z]+", text[entry.words.start : entry.words.end]):
            if meant := nearest_term(match[0].lower()):
                start = entry.words.start + match.start()
                yield Mended(Span(start, start + len(match[0])), meant, Doubt.WORD)


# ---------------------------------------------------------------- use


def abbreviations_used(bodies: Iterable[Span], words: Words, craft: str, terms: str) -> tuple[AbbreviationUsed, ...]:
    """Find the stitches that rounds call by an abbreviation, each where it first stands."""
    table = lore(craft, terms)
    first: dict[str, AbbreviationUsed] = {}
    short: dict[str, bool] = {}
    for body in bodies:
        for word in words.within(body):
            if word.stitch is None and word.kind != "loops":
                continue
            if word.stitch is not None and word.stitch.kind == "edge" and " " in word.text:
                continue  # `cast on` is said in full
            stands_for = _stands_for(word)
            if stands_for is None or stands_for in first:
                continue
            if word.text not in short:
                short[word.text] = table.is_short(word.text)
            if short[word.text]:
                first[stands_for] = AbbreviationUsed(word.span, key_of(word.text), stands_for)
    return tuple(first.values())


def _stands_for(word: Word) -> str | None:
    if word.stitch is not None:
        return word.stitch.id
    if word.kind == "loops" and word.text.split()[-1] in ("blo", "flo"):
        return word.text.split()[-1]
    return None
