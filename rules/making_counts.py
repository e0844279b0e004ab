"""Making: buttons against buttonholes, and work that goes on after the yarn was fastened off."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from ..lint.draft import Span
from ..lint.finding import Aside, Level
from ..lint.later import later
from ..lint.pattern import Round
from ..lint.steps import Chain, Count, FastenOff, Repeat, Skip, Step, Work
from .numbering import numbers_of
from .rule import Case, Flags, Passes, Rule, Said
from .sums import number_of, round_name

_FAMILY = "making"
_PRACTICE = "common practice of tech editing"

# ---------------------------------------------------------------- buttons

_SEWN = later(
    r"(?i)\b(?:sew|attach|stitch)(?:ing)?\s+(?:on\s+)?(?:the\s+)?"
    r"(?P<n>\d{1,2}|two|three|four|five|six|seven|eight|nine|ten)\s+(?:small\s+|large\s+)?buttons?\b"
)
_NUMBERS: tuple[str, ...] = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_HOLE_ROW = later(r"(?i)\bbutton\s?holes?\b")


def _buttons_differ(case: Case) -> Iterator[Said]:
    if case.pattern.sizes.number > 1 or not case.says("button"):
        return
    sewn = [*_SEWN.finditer(case.draft.text)]
    rounds = [
        round_
        for round_ in case.pattern.rounds
        if _HOLE_ROW.search(case.draft.words(round_.heading)) or _HOLE_ROW.search(round_.label)
    ]
    if len(sewn) != 1 or len(rounds) != 1 or len(_HOLE_ROW.findall(case.draft.text)) > _MENTIONS:
        return
    holes = _holes(rounds[0].steps)
    said = sewn[0]["n"].lower()
    buttons = int(said) if said.isdigit() else _NUMBERS.index(said)
    if holes and holes != buttons:
        yield Said(
            Span(*sewn[0].span("n")),
            f"{number_of(buttons, 'buttons')} are sewn on, and {round_name(rounds[0])} makes {holes} buttonholes",
            asides=(Aside(rounds[0].heading, "the buttonholes"),),
        )


_MENTIONS = 5  # of buttonholes in a draft; in more of them some are worked elsewhere


def _holes(steps: Sequence[Step]) -> int:
    """Return how many holes a row makes: chains over skipped stitches, yarn overs by a decrease, stitches bound off."""
    total = 0
    for at, step in enumerate(steps):
        if isinstance(step, Repeat):
            inner = _holes(step.steps)
            times = step.times.number.at(0) if step.times.number is not None else None
            if inner and (times is None or step.times.count not in (Count.TOTAL, Count.MORE)):
                return 0
            total += inner * ((times or 0) + (step.times.count is Count.MORE))
        elif isinstance(step, Chain):
            total += _is_skip(steps, at)
        elif isinstance(step, Work):
            total += step.make.kind.startswith("bo") or step.make.kind == "yo"
    return total


def _is_skip(steps: Sequence[Step], at: int) -> bool:
    return any(isinstance(step, Skip) for step in steps[max(0, at - 1) : at + 2])


# ---------------------------------------------------------------- fastened off, and gone on

_NEW_YARN = later(
    r"(?i)\b(?:join|rejoin|attach|reattach|with|using|colou?rs?|yarn|new|change|draw|standing|[A-H]|MC|CC)\b"
)
_OFF = later(r"(?i)\b(?:fasten|finish)\s+off\b|\bFO\b|\bbreak\s+(?:off\s+)?yarn\b|\bcut\s+yarn\b")


def _goes_on(case: Case) -> Iterator[Said]:
    rounds = case.pattern.rounds
    for before, after in pairwise(rounds):
        if before.section != after.section or not before.steps or not isinstance(before.steps[-1], FastenOff):
            continue
        last, first = numbers_of(before, 0)[-1:], numbers_of(after, 0)[:1]
        if not last or not first or first[0] != last[0] + 1 or case.pattern.craft != "crochet":
            continue
        words = case.draft.text[before.steps[-1].span.start : after.span.end]
        said = _OFF.sub(" ", words.replace(case.draft.words(after.heading), " "))
        lead = case.draft.text[: before.steps[-1].span.start][-8:].lower()
        if re.search(r"\bnot\s*$", lead) or _NEW_YARN.search(said) or _fastened_often(case, before):
            continue
        message = f"{round_name(before)} ends with the yarn fastened off, and {round_name(after)} goes on with no yarn"
        yield Said(before.steps[-1].span, message, asides=(Aside(after.heading, "it goes on here"),))


def _fastened_often(case: Case, round_: Round) -> bool:
    """Tell whether other rounds end so too and are gone on from: then a note tells how yarn is joined."""
    others = [
        index
        for index, one in enumerate(case.pattern.rounds[:-1])
        if one is not round_
        and one.steps
        and isinstance(one.steps[-1], FastenOff)
        and case.pattern.rounds[index + 1].section == one.section
    ]
    return bool(others)


# ---------------------------------------------------------------- the rules

BUTTONS_DIFFER = Rule(
    name="buttons-differ",
    family=_FAMILY,
    level=Level.QUERY,
    finds="More or fewer buttons sewn on than one row makes buttonholes.",
    why="The maker buys the wrong number of buttons, or looks for the buttonhole that was left out.",
    limits="Only in one size, where one row is called the buttonhole row and a number of buttons is sewn on.",
    source=_PRACTICE,
    examples=(
        Flags(
            "Buttonhole row: Ch 1, sc in next 4 sts, (ch 2, sk 2, sc in next 8 sts) 5 times, sc in last 2 sts.\n"
            "Sew on ⟦6⟧ buttons opposite the buttonholes.\n"
        ),
        Flags("Cast on 30 sts.\nButtonhole row: (K4, yo, k2tog) 5 times.\nSew on ⟦four⟧ buttons.\n"),
        Passes("Cast on 30 sts.\nButtonhole row: (K4, yo, k2tog) 5 times.\nSew on five buttons.\n"),
        Passes("Cast on 30 sts.\nButtonhole row: (K4, yo, k2tog) 5 times.\nSew on the buttons.\n"),
        Passes("Cast on 30 sts.\nEyelet row: (K4, yo, k2tog) 5 times.\nSew on four buttons.\n"),
    ),
    check=_buttons_differ,
)

GOES_ON = Rule(
    name="goes-on-after-fastening",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A round that fastens off, and the next one goes on with no word of yarn joined again.",
    why="The maker has cut the yarn and finds that the piece isn't done.",
    limits="Only once in a draft, in crochet, for rounds that count on: where several rounds end so, colours change.",
    source=_PRACTICE,
    examples=(
        Flags("Rnd 1: 6 sc in magic ring. 6 sc. ⟦Fasten off⟧.\nRnd 2: 2 sc in each st around. 12 sc.\n"),
        Passes("Rnd 1: 6 sc in magic ring. 6 sc. Fasten off.\nRnd 2: Join B, 2 sc in each st around. 12 sc.\n"),
        Passes("Rnd 1: 6 sc in magic ring. 6 sc.\nRnd 2: 2 sc in each st around. 12 sc. Fasten off.\n"),
        Passes("Rnd 1: 6 sc in magic ring. 6 sc. Fasten off.\nRejoin yarn.\nRnd 2: 2 sc in each st around. 12 sc.\n"),
    ),
    check=_goes_on,
)

RULES = (BUTTONS_DIFFER, GOES_ON)
