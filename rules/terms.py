"""Terms: the abbreviation list against the rounds, and words with a letter wrong."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..lint.draft import Span
from ..lint.finding import Aside, Change, Level
from ..lint.later import later
from ..lint.spellings import AbbreviationEntry, AbbreviationUsed, Doubt, Mended
from .rule import Case, Flags, Passes, Rule, Said
from .sums import join_words

_FAMILY = "terms"
_LISTS = "common practice of tech editing: the list explains what the rounds use, each term once, and no other"
_EXPLAINS = later(r"\s*(?:=|:|-\s|\u2013|\u2014|\((?=[a-z]{3})|\bis\b|\bmeans\b)")
_PREPOSITIONS = frozenset({"in", "into", "through", "the"})
_WHOLE_WORD = 6  # letters; `together` explains itself


# ---------------------------------------------------------------- the list


def _undefined(case: Case) -> Iterator[Said]:
    entries = case.pattern.abbreviations
    used = case.pattern.abbreviations_used
    headings = [round_.heading for round_ in case.pattern.rounds]
    lacking = [
        one
        for one in used
        if not _is_explained(case, one, entries)
        # `Dec rnd: ssk, k to last 2 sts, k2tog` explains itself
        and not any(span.start <= one.span.start and one.span.end < span.end for span in headings)
    ]
    if 2 * len(lacking) > len(used):
        return  # the list explains only what is special
    for one in lacking:
        yield Said(one.span, f'"{case.words(one.span)}" is not in the abbreviation list')


def _is_explained(case: Case, one: AbbreviationUsed, entries: tuple[AbbreviationEntry, ...]) -> bool:
    """Tell whether the list or other words of the draft explain an abbreviation, whole or in its parts."""
    keys = {entry.key for entry in entries}
    if one.key in keys or any(one.stands_for in (entry.stands_for, entry.meaning) for entry in entries):
        return True
    written = case.words(one.span).lower()
    parts = [part for part in re.findall(r"[a-z]+", written) if part not in _PREPOSITIONS]
    if all(part in keys or len(part) > _WHOLE_WORD for part in parts):
        return True
    shaping = written in ("inc", "dec") and any(key.endswith(written) for key in keys)
    if shaping or (written[:2] in ("fp", "bp") and written[:2] in keys):
        return True  # `sc inc` explains inc, `fp` with `dc` explains fpdc
    whole = Span(min(entry.term.start for entry in entries), max(entry.words.end for entry in entries))
    listed = case.once("abbreviation list in small letters", lambda: case.draft.words(whole).lower())
    if re.search(rf"(?<![\w-]){re.escape(written)}(?!\w)", listed):
        return True
    return _is_told_apart(case, written)


def _is_told_apart(case: Case, term: str) -> bool:
    """Tell whether words outside the list explain a term: `single crochet 2 together (sc2tog)`, `sc2tog: ...`."""
    text = case.once("text in small letters", case.draft.text.lower)
    place = text.find(term)
    while place >= 0:
        end = place + len(term)
        before = text[place - 1 : place]
        in_brackets = before == "(" and text[end : end + 1] == ")" and text[place - 3 : place - 2].isalpha()
        if in_brackets or (not (before.isalnum() or before == "-") and _EXPLAINS.match(text, end)):
            return True
        place = text.find(term, end)
    return False


def _unused(case: Case) -> Iterator[Said]:
    idle = [entry for entry in case.pattern.abbreviations if not entry.used]
    if not idle or not case.pattern.rounds:
        return
    names = join_words([f'"{case.words(entry.term)}"' for entry in idle])
    verb = "is" if len(idle) == 1 else "are"
    asides = tuple(Aside(entry.term, "not used either") for entry in idle[1:])
    yield Said(idle[0].term, f"{names} {verb} explained in the abbreviation list and not used", asides=asides)


def _doubled(case: Case) -> Iterator[Said]:
    seen: dict[str, AbbreviationEntry] = {}
    for entry in case.pattern.abbreviations:
        first = seen.setdefault(entry.key, entry)
        if first is entry and entry.stands_for is not None and entry.meaning == entry.stands_for:
            first = seen.setdefault(f"={entry.stands_for}", entry)
        if first is entry:
            continue
        aside = (Aside(first.term, "here already"),)
        term, before = case.words(entry.term), case.words(first.term)
        if first.key == entry.key:
            yield Said(entry.term, f'"{term}" stands twice in the abbreviation list', asides=aside)
        elif entry.key.rstrip("s") != first.key.rstrip("s"):
            yield Said(entry.term, f'"{term}" and "{before}" are listed for the same thing', asides=aside)


def _contradicts(case: Case) -> Iterator[Said]:
    for entry in case.pattern.abbreviations:
        if entry.contradicts:
            term, words = case.words(entry.term), case.words(entry.words)
            yield Said(entry.words, f'"{term}" usually means {entry.contradicts}, the list says {words}')


# ---------------------------------------------------------------- spelling


def _of(case: Case, *doubts: Doubt) -> Iterator[tuple[Mended, str]]:
    """Yield what was mended for one of these doubts with its words, the same words once."""
    seen: set[str] = set()
    for one in case.pattern.mended:
        if one.doubt not in doubts:
            continue
        words = case.words(one.span)
        if words.lower() not in seen or one.doubt is Doubt.TWICE:
            seen.add(words.lower())
            yield one, words


def _misspelt(case: Case) -> Iterator[Said]:
    for one, words in _of(case, Doubt.WORD, Doubt.UNKNOWN):
        if not one.to:
            if _stands_alone(case, one.span):
                yield Said(one.span, f'"{words}" is no stitch and no abbreviation known')
            continue
        to = one.to.capitalize() if words[:1].isupper() else one.to
        yield Said(one.span, f'"{words}" stands where "{one.to}" is expected', change=Change(one.span, to))


def _stands_alone(case: Case, span: Span) -> bool:
    """Tell whether a word is written small and stands nowhere else in the draft."""
    words = case.draft.words(span)
    return words.islower() and case.draft.text.lower().count(words) == 1


def _twice(case: Case) -> Iterator[Said]:
    for one, words in _of(case, Doubt.TWICE):
        yield Said(one.span, f'"{words}" stands twice running')


def _missing(case: Case) -> Iterator[Said]:
    for one, words in _of(case, Doubt.MISSING):
        yield Said(one.span, f'"{words}" doesn\'t say which stitch joins')


# ---------------------------------------------------------------- the rules

_KNIT_LIST = "Scarf\n\nAbbreviations: k = knit, p = purl, k2tog = knit 2 together, st = stitch, rep = repeat\n\n"
_LIST = "Abbreviations\nch - chain\nsc - single crochet\ninc - 2 sc in one st\n"
_ROUNDS = "Rnd 1: Ch 2, 6 sc in 2nd ch from hook. (6)\nRnd 2: inc 6 times. (12)\n"

ABBREVIATION_UNDEFINED = Rule(
    name="abbreviation-undefined",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A round uses an abbreviation for a stitch that the abbreviation list of the draft leaves out.",
    why="A maker looks there for what they don't know, and doesn't find it.",
    limits="Silent without a list of at least three terms, where words elsewhere in the draft explain the "
    "abbreviation, where the list explains its parts, and where the list leaves out most of what is used. Said once "
    "for each abbreviation. Words such as st, rnd and rep are not asked for.",
    source=_LISTS,
    examples=(
        Flags(f"{_LIST}\n{_ROUNDS}Rnd 3: ⟦sc2tog⟧ 6 times. (6)\n"),
        Flags(
            "sc = single crochet, dc = double crochet, st = stitch\n\nRnd 1: ⟦Ch⟧ 2, 6 sc in 2nd ch from hook. (6)\n"
            "Rnd 2: 2 dc in each sc. (12)\n"
        ),
        Flags(
            f"{_KNIT_LIST}Cast on 40 sts.\nRow 1: *K2, p2; rep from * to end.\n"
            "Row 2: K1, ⟦ssk⟧, k to last 3 sts, k2tog, k1.\n"
        ),
        Passes(f"{_KNIT_LIST}Cast on 40 sts.\nRow 1: *K2, p2; rep from * to end.\nDec row: K1, k2tog, k to end.\n"),
        Passes(f"{_LIST}sc2tog - single crochet 2 together\n\n{_ROUNDS}Rnd 3: sc2tog 6 times. (6)\n"),
        Passes(f"{_LIST}dec - decrease (sc2tog)\n\n{_ROUNDS}Rnd 3: sc2tog 6 times. (6)\n"),
        Passes(f"{_ROUNDS}Rnd 3: sc2tog 6 times. (6)\n"),
        Passes(f"{_LIST}\n{_ROUNDS}Rnd 3: single crochet 2 together (sc2tog) 6 times. (6)\n"),
    ),
    check=_undefined,
)

ABBREVIATION_UNUSED = Rule(
    name="abbreviation-unused",
    family=_FAMILY,
    level=Level.STYLE,
    finds="The abbreviation list explains terms that the draft doesn't use.",
    why="A list copied from another pattern makes a maker look for stitches that never come.",
    limits="Said once for the whole list. Silent where the letters of the term stand anywhere else in the draft.",
    source=_LISTS,
    examples=(
        Flags(f"{_LIST}⟦hdc⟧ - half double crochet\n\n{_ROUNDS}"),
        Passes(f"{_LIST}\n{_ROUNDS}"),
        Passes(f"{_LIST}hdc - half double crochet\n\n{_ROUNDS}Finish with a row of hdc along the edge.\n"),
        Passes(f"{_LIST}hdc - half double crochet\n\n{_ROUNDS}Rnd 3: hdc in each st. (12)\n"),
    ),
    check=_unused,
)

ABBREVIATION_DOUBLED = Rule(
    name="abbreviation-doubled",
    family=_FAMILY,
    level=Level.STYLE,
    finds="The abbreviation list holds a term twice, or two terms for one stitch.",
    why="Two terms for one thing look like two things.",
    limits="Silent for one and many (st and sts), and for stitches that only resemble each other.",
    source=_LISTS,
    examples=(
        Flags(f"{_LIST}ss - slip stitch\n⟦sl st⟧ - slip stitch\n\n{_ROUNDS}Join with ss. Next join with sl st.\n"),
        Flags(f"{_LIST}⟦sc⟧ - single crochet\n\n{_ROUNDS}"),
        Passes(f"{_LIST}st - stitch\nsts - stitches\n\n{_ROUNDS}"),
        Passes(f"{_LIST}dec - decrease\nsc2tog - single crochet 2 together\n\n{_ROUNDS}"),
        Passes(f"{_LIST}fpsc - front post single crochet\nbpsc - back post single crochet\n\n{_ROUNDS}"),
    ),
    check=_doubled,
)

DEFINITION_CONTRADICTS = Rule(
    name="definition-contradicts",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="The abbreviation list gives a term the meaning of another.",
    why="A maker who trusts the list works another fabric than the one in the pictures.",
    limits="Silent where the meaning holds in US or in UK terms, where US or UK is named beside it, and where more "
    "than one plain stitch disagrees, which is a table of US and UK terms.",
    source="Craft Yarn Council, list of crochet abbreviations; the names of stitches in US and UK terms",
    examples=(
        Flags(f"{_LIST}BLO - ⟦front loops only⟧\n\n{_ROUNDS}Rnd 3: BLO sc in each st. (12)\n"),
        Flags("ch - chain\nsl st - slip stitch\nsc - ⟦double crochet⟧\n\nRnd 1: Ch 2, 6 sc in 2nd ch from hook. (6)\n"),
        Passes(f"{_LIST}BLO - back loops only\n\n{_ROUNDS}Rnd 3: BLO sc in each st. (12)\n"),
        Passes(
            "UK terms\nch - chain\nss - slip stitch\ndc - double crochet\ntr - treble\n\n"
            "Rnd 1: 2ch, 6dc in 2nd ch from hook. (6)\n"
        ),
        Passes(f"{_LIST}dc - treble crochet in UK terms\n\n{_ROUNDS}"),
    ),
    check=_contradicts,
)

STITCH_MISSPELT = Rule(
    name="stitch-misspelt",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A word of the trade is misspelt in a round or in the abbreviation list, or a round is joined with a st.",
    why="A maker who doesn't know the word can't guess it, and a search for it finds nothing.",
    limits="Only words one letter away from a term, in places where only a term can stand; a word of its own "
    "(switch, chair) is none. Said once for each word.",
    source="common practice of tech editing; the stitch and word tables",
    examples=(
        Flags(f"{_ROUNDS}Rnd 3: sc in ⟦nexl⟧ sc, inc 11 times. (23)\n"),
        Flags(f"Abbreviations\nch - chain\nsc - single ⟦crocket⟧\nst - stitch\n\n{_ROUNDS}"),
        Flags(f"{_ROUNDS}Rnd 3: sc in each st. Join with ⟦st⟧ to first sc. (12)\n"),
        Flags(f"{_ROUNDS}Rnd 3: ⟦Chian⟧ 1, sc in each st. (12)\n"),
        Passes(f"{_ROUNDS}Rnd 3: sc in each st. Join with sl st to first sc. (12)\n"),
        Passes(f"{_ROUNDS}Sit on a chair and switch to the smaller hook.\nRnd 3: sc in each st. (12)\n"),
        Passes(f"{_ROUNDS}Rnd 3: Switch to blue, sc in each st. Then hasten on. (12)\n"),
    ),
    check=_misspelt,
)

WORD_DOUBLED = Rule(
    name="word-doubled",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A small word stands twice running in a round.",
    why="Something else may have been meant: a stitch, or another place.",
    limits="Silent for stitches and figures, which may well stand twice running.",
    source="common practice of proofreading",
    examples=(
        Flags(f"{_ROUNDS}Rnd 3: sc in ⟦in⟧ each st. (12)\n"),
        Passes(f"{_ROUNDS}Rnd 3: sc in each st. (12)\n"),
        Passes(f"{_ROUNDS}Rnd 3: sc, sc, inc, inc, sc 8. (14)\n"),
        Passes(f"{_ROUNDS}Rnd 3: sc in next st, sc in next st, sc in next 10 sts. (12)\n"),
    ),
    check=_twice,
)

WORD_MISSING = Rule(
    name="word-missing",
    family=_FAMILY,
    level=Level.QUERY,
    finds="The words that join a round have lost the stitch that joins it.",
    why="The maker can't tell whether a slip stitch is meant, or a stitch that makes half of the last corner.",
    limits="Only where a round is joined with nothing, or a sentence says no more than to join.",
    source="common practice of proofreading",
    examples=(
        Flags(f"{_ROUNDS}Rnd 3: sc in each st. ⟦Join with to⟧ first sc. (12)\n"),
        Flags(f"{_ROUNDS}Rnd 3: sc in each st. ⟦To join⟧. (12)\n"),
        Passes(f"{_ROUNDS}Rnd 3: sc in each st. Join with sl st to first sc. (12)\n"),
        Passes(f"{_ROUNDS}Rnd 3: sc in each st, sl st to join. (12)\n"),
        Passes(f"{_ROUNDS}Rnd 3: sc in each st. Join. (12)\n"),
    ),
    check=_missing,
)

RULES = (
    ABBREVIATION_UNDEFINED,
    ABBREVIATION_UNUSED,
    ABBREVIATION_DOUBLED,
    DEFINITION_CONTRADICTS,
    STITCH_MISSPELT,
    WORD_DOUBLED,
    WORD_MISSING,
)
