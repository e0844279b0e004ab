"""Terms: US and UK names, stitches that are used and not described, and wording that changes on the way."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from ..lint.draft import Span
from ..lint.finding import Aside, Level
from ..lint.later import later
from ..lint.steps import Repeat, Step, Together, Work
from ..lint.trade.tables import stitches
from .rule import Case, Flags, Passes, Rule, Said
from .sums import join_words

_FAMILY = "terms"
_NAMES = "Craft Yarn Council, US and UK terms; funcrochetdesigns.com (crochet terms by country)"
_ONLY_US = later(
    r"(?i)(?<![\w-])\d*(?:sc|s c|s\.c\.|hdc|sc2tog|sc3tog|hdc2tog|fpsc|bpsc|fphdc|bphdc|half double)(?![\w-])"
)
_ONLY_UK = later(r"(?i)(?<![\w-])\d*(?:htr|h\.tr|htr2tog|half treble|tr2tog)(?![\w-])")
_IN_ONLY_UK = ("htr", "h.tr", "half treble", "tr2tog")  # one of them is in each name
_SIGNS_US = later(
    # a dc is as high as three chains in US terms only
    r"(?i)(?<![\w-])(?:skip|sk|gauge|single crochet)(?![\w-])|"
    r"\bch(?:ain)?[\s-]*3\s*\([^)\n]{0,12}\bcounts?\s+as\s+(?:\w+\s+){0,2}dc\b|"
    r"\bdc\s+in\s+(?:the\s+)?4th\s+ch"
)
_SIGNS_UK = later(
    r"(?i)(?<![\w-])(?:miss|tension|ss)(?![\w-])|"
    r"\bch(?:ain)?[\s-]*3\s*\([^)\n]{0,12}\bcounts?\s+as\s+(?:\w+\s+){0,2}tr\b|"
    r"\btr\s+in(?:to)?\s+(?:the\s+)?4th\s+ch"
)
_OPEN = later(r"(?i)(?<![\w-])\d*(?:dc|tr|dtr)(?![\w-])")
_SAID = later(
    r"(?i)\b(?:us|u\.s\.|usa|american|uk|u\.k\.|british|english|australian)\b\s*(?:crochet\s+)?(?:terms?|terminology|stitch|names?|abbrev|pattern)?"
)
_EXPLAINED = later(r"(?i)(?:\b(?:uk|us|american|british)\b[^\n]{0,30}(?:htr|hdc|sc|dc|treble))|(?:=\s*(?:uk|us)\b)")


def _in_rounds(case: Case, pattern: re.Pattern[str]) -> list[Span]:
    return case.once(("words in rounds", pattern), lambda: _found_in_rounds(case, pattern))


def _found_in_rounds(case: Case, pattern: re.Pattern[str]) -> list[Span]:
    return [
        Span(*match.span())
        for round_ in case.pattern.rounds
        for match in pattern.finditer(case.draft.text, round_.span.start, round_.span.end)
    ]


def _counted(case: Case, spans: list[Span]) -> str:
    """Return the words that were found with how often each stands: `sc 14, hdc 2`."""
    found = Counter(case.words(span).lower().lstrip("0123456789") for span in spans)
    return join_words([f"{word} {many}" for word, many in found.most_common(3)])


_US_DECLARED = later(r"(?i)\b(?:us|american)\s+(?:crochet\s+)?(?:terms|terminology|stitch\s+names|abbreviations)\b")


def _mixed(case: Case) -> Iterator[Said]:
    if case.pattern.craft != "crochet" or not case.says(*_IN_ONLY_UK) or _EXPLAINED.search(case.draft.text):
        return
    us, uk = _in_rounds(case, _ONLY_US), _in_rounds(case, _ONLY_UK)
    if uk and not us and len(uk) < _FEWEST_ROUNDS and (declared := _US_DECLARED.search(case.draft.text)):
        message = f'"{case.words(uk[0])}" is a UK name, and the draft says that it is in US terms'
        yield Said(uk[0], message, asides=(Aside(Span(*declared.span()), "said here"),))
    if not us or not uk:
        return
    few, many = (us, uk) if len(us) < len(uk) else (uk, us)
    other = "US" if few is us else "UK"
    main = "UK" if few is us else "US"
    message = f'"{case.words(few[0])}" is a {other} name, and the draft is written in {main} terms'
    evidence = (f"{main}: {_counted(case, many)}", f"{other}: {_counted(case, few)}")
    yield Said(few[0], message, sum=evidence, asides=(Aside(many[0], f"{main} here"),))


def _undeclared(case: Case) -> Iterator[Said]:
    if case.pattern.craft != "crochet" or _SAID.search(case.draft.text) or not case.pattern.rounds:
        return
    if _in_rounds(case, _ONLY_US) or _in_rounds(case, _ONLY_UK):
        return
    text = case.draft.text
    us, uk = len(_SIGNS_US.findall(text)), len(_SIGNS_UK.findall(text))
    names = _in_rounds(case, _OPEN)
    if (
        len(names) < 3
        or us
        or uk
        or not _is_whole(case)
        or re.search(r"(?i)single crochet|half\s|double crochet|treble crochet", text)
    ):
        return
    message = f"nothing tells whether the draft is in US or in UK terms: {_counted(case, names)} may be either"
    yield Said(names[0], message)


def _is_whole(case: Case) -> bool:
    """Tell whether the rounds are more than a few lines taken out of a draft that may say its terms elsewhere."""
    return len(case.pattern.rounds) >= _FEWEST_ROUNDS


_FEWEST_ROUNDS = 3

# ---------------------------------------------------------------- stitches that need a description

_DESCRIBED = ("shell", "cluster", "bobble", "popcorn", "puff", "v-stitch", "v-st", "picot", "fan")


def _undescribed(case: Case) -> Iterator[Said]:
    text = case.draft.text
    told: set[str] = set()
    vague = case.once("stitches without a number", _vague)
    for round_ in case.pattern.rounds:
        for work in _works(round_.steps):
            if work.make.kind not in vague or work.make.group or work.make.kind in told:
                continue
            told.add(work.make.kind)
            words = re.search(
                r"(?i)\b(?:beg(?:inning)?\s+)?(?:" + "|".join(_DESCRIBED) + r")\w*", case.draft.words(work.span)
            )
            if words is None or re.search(
                r"\d[\s-]*(?:sc|hdc|dc|tr)\b", case.draft.text[max(0, work.span.start - 6) : work.span.end]
            ):
                continue
            name = re.escape(words[0].rstrip("s").lower())
            explained = (
                rf"(?i)\b{name}(?:\s*(?:st|stitch))?s?\b\W{{0,4}}(?:\([^)]{{0,20}}\)\s*)?"
                r"(?:=|:|-|\u2013|\u2014|\(|is\b|made\b|as\s+follows|means)"
            )
            if not re.search(explained, text) and len(re.findall(rf"(?i)\b{name}", text)) > 1:
                start = work.span.start + words.start()
                yield Said(
                    Span(start, start + len(words[0])), f'"{words[0]}" is used, and the draft never says how it is made'
                )


def _vague() -> frozenset[str]:
    return frozenset(stitch.id for stitch in stitches("crochet") if stitch.kind == "group")


def _works(steps: tuple[Step, ...]) -> Iterator[Work]:
    for step in steps:
        if isinstance(step, Work):
            yield step
        elif isinstance(step, Repeat | Together):
            yield from _works(step.steps)


# ---------------------------------------------------------------- wording

_PAIRS: tuple[tuple[str, str, str], ...] = (
    ("skip", "sk", r"(?i)(?<![\w-]){}(?![\w-])"),
    ("miss", "skip", r"(?i)(?<![\w-]){}(?![\w-])"),
    ("color", "colour", r"(?i)(?<![\w-]){}s?(?![\w-])"),
    ("magic ring", "magic circle", r"(?i)(?<![\w-]){}(?![\w-])"),
    ("repeat", "rep", r"(?i)(?<![\w-]){}\.?\s+(?=from\b)"),
    ("single crochet", "sc", r"(?i)(?<![\w-]){}(?![\w-])"),
    ("stitch", "st", r"(?i)(?<![\w-])(?<!slip\s)(?<!slip-)(?<!sl\s)(?<!sl-)(?<!shell\s){}(?![\w-])"),
    ("slip stitch", "sl st", r"(?i)(?<![\w-]){}(?![\w-])"),
)
_TO_END = later(
    r"(?i)\brep(?:eat)?\.?\s+from\s+\*+\s+(?P<words>to\s+(?:the\s+)?end|around|across|all\s+(?:the\s+)?way\s+(?:around|across))(?:\s+(?:of\s+)?(?:the\s+)?(?:row|rnd|round))?\b"
)
_HEADED = later(r"(?i)\W*(?P<word>rounds?|rnds?|rows?|r)(?![a-z])")
_FEW = 3  # from how many times on the one wording is the draft's own


def _inconsistent(case: Case) -> Iterator[Said]:
    for first, second, shape in _PAIRS:
        if not (case.says(first) and case.says(second)):
            continue
        yield from _rarer(case, *(_in_rounds(case, re.compile(shape.format(word))) for word in (first, second)))
    yield from _headings(case)
    yield from _to_the_end(case)


def _rarer(case: Case, *found: list[Span]) -> Iterator[Said]:
    """Report the rarer of two wordings at its first place, where the other is the draft's own."""
    few, many = sorted(found, key=len)
    if few and len(many) >= _FEW:
        one, other = case.words(few[0]).strip(), case.words(many[0]).strip()
        times = "once" if len(few) == 1 else f"{len(few)} times"
        message = f'"{one}" {times}, "{other}" {len(many)} times for the same thing'
        yield Said(few[0], message, asides=(Aside(many[0], f'"{other}" here'),))


def _headings(case: Case) -> Iterator[Said]:
    """Report headings of rounds that begin with another word than most: `Round 7:` among `Rnd`."""
    found: dict[str, list[Span]] = {}
    for round_ in case.pattern.rounds:
        match = _HEADED.match(case.draft.text, round_.heading.start, round_.heading.end)
        if match and not round_.flat and round_.first is not None:
            word = match["word"].lower()
            found.setdefault(word.removesuffix("s"), []).append(Span(match.start("word"), match.end("word")))
    ways = sorted((spans for word, spans in found.items() if not word.startswith("row")), key=len)
    if len(ways) == 2:
        yield from _rarer(case, *ways)


def _to_the_end(case: Case) -> Iterator[Said]:
    """Report `rep from * around` among `rep from * to end`, of rounds and of rows apart."""
    for flat in (False, True):
        found: dict[str, list[Span]] = {}
        for round_ in case.pattern.rounds:
            if round_.flat is flat:
                for match in _TO_END.finditer(case.draft.text, round_.span.start, round_.span.end):
                    way = "end" if "end" in match["words"].lower() else match["words"].lower().split()[-1]
                    found.setdefault(way, []).append(Span(*match.span("words")))
        ways = sorted(found.values(), key=len)
        if len(ways) == 2:
            yield from _rarer(case, *ways)


# ---------------------------------------------------------------- the rules

_START = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each sc. (12)\n"

TERMS_MIXED = Rule(
    name="terms-mixed",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="Stitches that only US terms have beside stitches that only UK terms have.",
    why="Half of the names mean another stitch in the other terms, and a maker can't tell which are which.",
    limits="Words such as skip, miss, gauge and tension are no proof: many drafts in UK terms write skip. Silent where "
    "the draft explains one set of terms in the other. The sum shows what stands for which.",
    source=_NAMES,
    examples=(
        Flags(f"{_START}Rnd 3: hdc in each sc. (12)\nRnd 4: ⟦htr⟧ in each st. (12)\n"),
        Flags("US terms\n\nRow 1: Ch 3, dc in next 18 dc, ⟦htr⟧ in last st. (20)\nRow 2: Ch 3, dc in each st. (20)\n"),
        Passes(f"{_START}Rnd 3: hdc in each sc. (12)\nRnd 4: fptr around each hdc. (12)\n"),
        Passes(
            "UK terms\n\nRnd 1: 6 dc in magic ring. (6)\nRnd 2: 2 htr in each dc. (12)\n"
            "Rnd 3: skip 1 st, dc in each st. (11)\n"
        ),
        Passes(f"hdc = UK htr\n\n{_START}Rnd 3: hdc in each sc. (12)\n"),
    ),
    check=_mixed,
)

TERMS_UNDECLARED = Rule(
    name="terms-undeclared",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A draft whose stitches are in both US and UK terms, as dc and tr, and that doesn't say which it means.",
    why="The same letters make a fabric of another height in the other terms.",
    limits="Silent where the draft names its terms, where a stitch or a word that only one of them has tells, or a "
    "chain of 3 that counts as one of these stitches; and for fewer than three rounds.",
    source=_NAMES,
    examples=(
        Flags("Rnd 1: 6 ⟦dc⟧ in magic ring. (6)\nRnd 2: 2 dc in each dc. (12)\nRnd 3: tr in each st. (12)\n"),
        Passes(
            "UK terms\n\nRnd 1: 6 dc in magic ring. (6)\nRnd 2: 2 dc in each dc. (12)\nRnd 3: tr in each st. (12)\n"
        ),
        Passes("Rnd 1: 6 dc in magic ring. (6)\nRnd 2: 2 dc in each dc. (12)\nRnd 3: skip 1 st, tr in each st. (11)\n"),
        Passes(
            "Rnd 1: 12 dc in magic ring. (12)\nRnd 2: Ch 3 (counts as dc), dc in same st, 2 dc in each st. (24)\n"
            "Rnd 3: Ch 3, dc in each st. (24)\n"
        ),
        Passes("Rnd 4: 2 dc in each dc. (12)\nRnd 5: dc in each dc, tr in last st. (12)\n"),
        Passes(_START),
    ),
    check=_undeclared,
)

STITCH_UNDESCRIBED = Rule(
    name="stitch-undescribed",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A shell, cluster, bobble, popcorn, puff or the like is used, and the draft never says how it is made.",
    why="These names stand for different numbers of stitches in every draft.",
    limits="Any description in the draft is enough, in a list or where the stitch is first used. A stitch that stands "
    "only once is passed over.",
    source="common practice of tech editing: special stitches are described",
    examples=(
        Flags(f"{_START}Rnd 3: (⟦bobble⟧, sc) 6 times. (12)\nRnd 4: (sc, bobble) 6 times. (12)\n"),
        Passes(
            f"Bobble: 5 dc closed together\n\n{_START}Rnd 3: (bobble, sc) 6 times. (12)\n"
            "Rnd 4: (bobble, sc) 6 times. (12)\n"
        ),
        Passes(f"{_START}Rnd 3: (5-dc bobble, sc) 6 times. (12)\nRnd 4: (5-dc bobble, sc) 6 times. (12)\n"),
        Passes(f"{_START}Rnd 3: (hdc, sc) 6 times. (12)\n"),
    ),
    check=_undescribed,
)

WORDING_INCONSISTENT = Rule(
    name="wording-inconsistent",
    family=_FAMILY,
    level=Level.STYLE,
    finds="Two wordings for one thing in the rounds: skip and sk, rnd and round, color and colour, rep from * to end "
    "and around.",
    why="Two words look like two things.",
    limits="Said once for a pair, where one of them stands three times or more. Which is right is a matter of house "
    "style.",
    source="common practice of copy editing",
    examples=(
        Flags(f"{_START}Rnd 3: sk 1, sc 2, sk 1, sc 2, sk 1, sc 2, ⟦skip⟧ 1, sc 2. (8)\n"),
        Flags(f"{_START}Rnd 3: sc in each st. (12)\n⟦Round⟧ 4: sc in each st. (12)\n"),
        Flags(
            f"{_START}"
            + "".join(f"Rnd {n}: *sc 5, sc in next st; rep from * to end. (12)\n" for n in range(3, 6))
            + "Rnd 6: *sc 5, sc in next st; rep from * ⟦around⟧. (12)\n"
        ),
        Passes(
            f"{_START}Rnd 3: *sc 5, sc in next st; rep from * around. (12)\n"
            "Rnd 4: *sc 2, sc in next st; rep from * to end. (12)\nWork the next round in blue.\n"
        ),
        Passes(f"{_START}Rnd 3: (sk 1, 2 sc in next st) twice, sk 1, sc 2, sk 1, sc in next 4 sts. (10)\n"),
        Passes(f"{_START}Rnd 3: sk 1, sc in next 11 sts. (11)\nRnd 4: skip 1, sc in next 10 sts. (10)\n"),
        Passes(f"sk - skip\n\n{_START}Rnd 3: (sk 1, 2 sc in next st) 6 times. (12)\n"),
    ),
    check=_inconsistent,
)

RULES = (TERMS_MIXED, TERMS_UNDECLARED, STITCH_UNDESCRIBED, WORDING_INCONSISTENT)
