"""Characters: letters and signs that stand for others, signs set twice, and figures that belong to nothing."""

from __future__ import annotations

from collections.abc import Iterator

from ..lint.draft import Span
from ..lint.finding import Change, Level
from ..lint.later import later
from ..lint.spellings import Doubt
from .rule import Case, Flags, Passes, Rule, Said
from .sums import round_name

_FAMILY = "characters"
_SOURCE = "common practice of proofreading"
_DOUBLED = later(r"(?:(?<=[A-Za-z)\]*])\s?|(?<=\d)(?=[,;]{2}\s*[A-Za-z(*]))([,;]\s?[,;])")
_PAIRS = tuple(f"{first}{blank}{second}" for first in ",;" for blank in ("", " ") for second in ",;")
_BACKSLASH = later(r"\s(\\)(?=\s)")
_TIMES = r"(?:around|across|to end|to the end|\*|x\s?\d|\d+\s?(?:times|x\b)|twice|\w+ times)"
_STRAY = later(rf"[\s.:)\u2013-]{{0,5}}(?P<figure>\d{{1,2}})\([^()]*\)\s*{_TIMES}")
_FOOTNOTE = later(r"\n[ \t]*(\*[ \t]*[\u2022\u00b7.])[ \t]*[A-Z]")


def _doubtful(case: Case) -> Iterator[Said]:
    seen: set[str] = set()
    for one in case.pattern.mended:
        words = case.words(one.span)
        if one.doubt is Doubt.FIGURE:
            yield Said(
                one.span,
                f'"{words}" is a letter where the figure {one.to} is expected',
                change=Change(one.span, one.to),
            )
        elif one.doubt is Doubt.ALPHABET and words.lower() not in seen:
            seen.add(words.lower())
            letter = next(char for char in words if not char.isascii())
            yield Said(one.span, f'"{letter}" in "{words}" is a letter of another alphabet')
        elif one.doubt is Doubt.MARK:
            yield Said(one.span, f'"{words}" stands where a repeat begins, and no star does')
    marked = {one.span.start for one in case.pattern.mended if one.doubt is Doubt.MARK}
    if "\\" in case.draft.text:
        for round_ in case.pattern.rounds:
            match = _BACKSLASH.search(case.draft.text, round_.heading.end, round_.span.end)
            if match and not any(round_.span.start <= start < round_.span.end for start in marked):
                yield Said(Span(*match.span(1)), 'a "\\" stands among the stitches')
    for match in _FOOTNOTE.finditer(case.draft.text) if "\n*" in case.draft.text else ():
        yield Said(Span(*match.span(1)), f'"{match[1]}" is not the mark of any round')


def _sign_doubled(case: Case) -> Iterator[Said]:
    if not any(pair in case.draft.text for pair in _PAIRS):
        return
    for round_ in case.pattern.rounds:
        for match in _DOUBLED.finditer(case.draft.text, round_.heading.end, round_.span.end):
            span = Span(*match.span(1))
            yield Said(span, f'"{case.words(span)}" stands in {round_name(round_)}, and one of the two would do')


def _figure_stray(case: Case) -> Iterator[Said]:
    for round_ in case.pattern.rounds:
        if match := _STRAY.match(case.draft.text, round_.heading.end, round_.span.end):
            span = Span(*match.span("figure"))
            yield Said(span, f"the {match['figure']} before the bracket in {round_name(round_)} belongs to nothing")


_ROUNDS = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"

CHARACTER_DOUBTFUL = Rule(
    name="character-doubtful",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A letter stands for a figure, a letter of another alphabet for one of ours, or another sign for the mark of "
    "a repeat.",
    why="It looks right and isn't: a search misses it, a screen reader says something else, and a scan has more of "
    "its kind.",
    limits="Silent for Roman numerals, for quotation marks in pairs, and for letters that only carry an accent.",
    source="what scans and other keyboards leave in drafts",
    examples=(
        Flags("R⟦l⟧: Ch 2, 6 sc in second ch from hook.\nR2: 2 sc in each sc around. (12 sts)\n"),
        Flags("Rnd 1: 6 ⟦scв⟧ in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"),
        Flags(f"{_ROUNDS}Rnd 3: ⟦'⟧Sc 1, 2 sc in next sc \\ rep 6 times. (18)\n"),
        Flags(f"{_ROUNDS}Rnd 3: Ch ⟦l⟧, sc in each st around. (12)\n"),
        Passes(f'{_ROUNDS}Rnd 3: "Sc 1, 2 sc in next sc" rep 6 times. (18)\n'),
        Passes("Row I: Ch 7, sc in 2nd ch from hook and in each ch. (6)\nRow II: Ch 1, turn, sc in each st. (6)\n"),
        Passes("Rnd 1: 6 sc in magic ring. (6)\nRnd 2: ınc 6 times. (12)\n"),
    ),
    check=_doubtful,
)

SIGN_DOUBLED = Rule(
    name="sign-doubled",
    family=_FAMILY,
    level=Level.STYLE,
    finds="Two commas or semicolons stand together between the words of a round.",
    why="A maker wonders what was left out between them.",
    limits="Silent in lists of figures, where a blank may stand for a size without one.",
    source=_SOURCE,
    examples=(
        Flags(f"{_ROUNDS}Rnd 3: *Sc in next st⟦,,⟧ 2 sc in next st; rep from * around. (18)\n"),
        Passes(f"{_ROUNDS}Rnd 3: *Sc in next st, 2 sc in next st; rep from * around. (18)\n"),
        Passes("Rnd 1: 6 sc. in magic ring. (6)\nRnd 2: 6 inc., = 12 sc.\n"),
        Passes(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
            "Rnd 3: *Sc in next st, 2 sc in next st; rep from * around ... (18)\n"
        ),
    ),
    check=_sign_doubled,
)

FIGURE_STRAY = Rule(
    name="figure-stray",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A figure is glued to the front of a bracket that says behind it how often it is worked.",
    why="The maker can't tell whether it counts the brackets, or stitches whose name was lost.",
    limits="Silent where nothing behind the bracket says how often: the figure may then say so.",
    source=_SOURCE,
    examples=(
        Flags(f"{_ROUNDS}Rnd 3: ⟦1⟧(1 sc in next sc, 2 sc in next sc) around. (18)\n"),
        Passes(f"{_ROUNDS}Rnd 3: (1 sc in next sc, 2 sc in next sc) around. (18)\n"),
        Passes(f"{_ROUNDS}Rnd 3: 6(1 sc in next sc, 2 sc in next sc). (18)\n"),
        Passes(f"{_ROUNDS}Rnd 3: Sc in next 2 sts, (sc in next st, inc) 5 times. (17)\n"),
    ),
    check=_figure_stray,
)

RULES = (CHARACTER_DOUBTFUL, SIGN_DOUBLED, FIGURE_STRAY)
