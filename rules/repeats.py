"""Repeats within a round: whether they fit what is there, and whether their marks pair."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ..lint.draft import Span
from ..lint.finding import Level
from ..lint.later import later
from ..lint.pattern import LooseMark, MarkTrouble, Round
from ..lint.steps import At, Count, Repeat, Step, Together, Work
from ..lint.workings import Item, SizeWorking, Standing
from .likely import likely_slips
from .rule import Case, Flags, Passes, Rule, Said
from .sums import figures_by_size, for_sizes, join_words, number_of, pencil_sum, round_name
from .verdicts import Trouble, counted_repeat, keeper, next_stated, troubles_of

_FAMILY = "repeats"
_TECH_EDITING = "common practice of tech editing: the stitches there are, divided by those of one repeat"
_MARKS = "common practice: a mark is said where the repeat begins, and once where it ends"


# ---------------------------------------------------------------- fitting


def _does_not_fit(case: Case) -> Iterator[Said]:
    for trouble in troubles_of(case, "repeat-does-not-fit"):
        pairs = [(own, item) for own in trouble.workings(case) if (item := _left_item(own)) is not None]
        if not pairs:
            continue
        left = figures_by_size(case, trouble.sizes, [item.left or 0 for _, item in pairs], "sts")
        uses = join_words(list(dict.fromkeys(str(item.uses) for _, item in pairs)), "or")
        name = round_name(case.pattern.rounds[trouble.index])
        own, item = pairs[0]
        message = f"the repeat of {uses} sts does not fit in {name}: it leaves {left}"
        yield _said(case, trouble, item.span, message, _nearest(own, item))


def _left_item(own: SizeWorking) -> Item | None:
    return next((item for item in own.items if item.left and item.times), None)


def _nearest(own: SizeWorking, item: Item) -> tuple[str, ...]:
    """Say on which counts the repeat would come out: `it would fit 77 or 88 sts`."""
    if own.before is None or not item.left or not item.uses:
        return ()
    low = own.before - item.left
    return (f"it would fit {low} or {low + item.uses} sts",)


def _remainder_differs(case: Case) -> Iterator[Said]:
    for trouble in troubles_of(case, "remainder-differs"):
        step = keeper(case.pattern.rounds[trouble.index])
        leave = None
        if step is not None:
            leave = step.times.leave if isinstance(step, Repeat) else step.where.leave
        if step is None or leave is None:
            continue
        kept = [leave.at(size) or 0 for size in trouble.sizes]
        used = [number - own.left + own.short for number, own in zip(kept, trouble.workings(case), strict=True)]
        keeps = figures_by_size(case, trouble.sizes, kept, "sts")
        uses = join_words([str(number) for number in dict.fromkeys(used)])
        name = round_name(case.pattern.rounds[trouble.index])
        message = f"{name} keeps the last {keeps}, what follows uses {uses}"
        yield _said(case, trouble, leave.span, message)


def _repeat_count_differs(case: Case) -> Iterator[Said]:
    for trouble in troubles_of(case, "repeat-count-differs"):
        round_ = case.pattern.rounds[trouble.index]
        owns = trouble.workings(case)
        item = counted_repeat(round_, owns[0])
        step = next(
            (step for step in round_.steps if isinstance(step, Repeat) and item and step.span == item.span),
            None,
        )
        if item is None or step is None:
            continue
        own = owns[0]
        before = own.before or 0
        times = "once" if item.times == 1 else f"{item.times} times"
        fate = (
            f"leaves {own.left} of {before} sts"
            if own.left
            else f"wants {own.short} sts more than the {before} there are"
        )
        needed = item.times + (own.left - own.short) // item.uses
        which = for_sizes(case, trouble.sizes[:1])
        message = f"{times} {number_of(item.uses)} in {round_name(round_)} {fate}{which}, {needed} times would fit"
        span = step.times.span or (step.times.number.span if step.times.number else step.span)
        yield _said(case, trouble, span, message)


def _said(case: Case, trouble: Trouble, span: Span, message: str, more: tuple[str, ...] = ()) -> Said:
    likely, change = likely_slips(case, trouble.index)
    more = (*more, *likely)
    return Said(
        span=span,
        message=message,
        sizes=trouble.said_sizes(case),
        sum=(*pencil_sum(case, trouble.index, trouble.sizes)[: 8 - len(more)], *more),
        change=change,
        level=trouble.level,
    )


# ---------------------------------------------------------------- marks


def _loose(case: Case, *troubles: MarkTrouble) -> Iterator[tuple[Round, LooseMark]]:
    """Yield the loose mark of each round that is to be spoken of: one a round, a star before a bracket."""
    for index, round_ in enumerate(case.pattern.rounds):
        marks = [mark for mark in round_.loose if not _is_remark(case, index, mark)]
        marks.sort(key=lambda mark: (mark.trouble is MarkTrouble.BRACKET, mark.span.start))
        if marks and marks[0].trouble in troubles:
            yield round_, marks[0]


def _is_remark(case: Case, index: int, mark: LooseMark) -> bool:
    """Tell whether a mark is a footnote's, a remark's, or belongs to words that go on elsewhere."""
    round_, text = case.pattern.rounds[index], case.draft.text
    if mark.trouble is MarkTrouble.BRACKET:
        return not round_.steps or _closed_below(text, mark, round_)
    if mark.trouble is MarkTrouble.STAR_UNOPENED:
        return "**" in case.draft.words(round_.span)  # a second mark, to which a repeat may end
    if _goes_on(case, index, mark):
        return True
    if mark.span.start < round_.heading.end:
        return True
    after = text[mark.span.end : mark.span.end + 1]
    before = text[mark.span.start - 1 : mark.span.start]
    glued_behind = bool(before) and not before.isspace() and (not after or after.isspace() or after in ".,;:)")
    return glued_behind or not text[mark.span.end : round_.span.end].strip(" *.")


def _goes_on(case: Case, index: int, mark: LooseMark) -> bool:
    """Tell whether a star is spoken of again before the next round begins."""
    rounds = case.pattern.rounds
    end = rounds[index + 1].span.start if index + 1 < len(rounds) else len(case.draft.text)
    return "*" in case.draft.text[mark.span.end : max(end, mark.span.end)]


def _closed_below(text: str, mark: LooseMark, round_: Round) -> bool:
    """Tell whether a bracket opened in a round is closed on the next line, before anything opens another."""
    if text[mark.span.start] not in "([{":
        return False
    following = re.split(r"\n\s*\n", text[round_.span.end :], maxsplit=1)[0].split("\n")[:2]
    rest = "\n".join(following)
    close = rest.find({"(": ")", "[": "]", "{": "}"}[text[mark.span.start]])
    opened = rest.find(text[mark.span.start])
    return close >= 0 and (opened < 0 or close < opened)


def _star_unopened(case: Case) -> Iterator[Said]:
    for round_, mark in _loose(case, MarkTrouble.STAR_UNOPENED):
        sign = case.words(mark.span)
        what = f'"{sign}"' if len(sign) <= 24 else "the star"
        yield Said(mark.span, f"{what} in {round_name(round_)} refers to a star that stands nowhere before it")
    yield from _star_left_out(case)


_FROM_NOWHERE = later(r"(?i)\brep(?:eat)?\s+from(?=\s*(?:[,;.]|\b(?:to|around|across|until|end)\b))")


def _star_left_out(case: Case) -> Iterator[Said]:
    """Find repeats that don't say from where: `rep from to end`."""
    for round_ in case.pattern.rounds:
        for match in _FROM_NOWHERE.finditer(case.draft.text, round_.span.start, round_.span.end):
            words = case.words(Span(*match.span()))
            yield Said(
                Span(*match.span()), f'"{words}" in {round_name(round_)} doesn\'t say from where: a star is missing'
            )


def _star_unclosed(case: Case) -> Iterator[Said]:
    for round_, mark in _loose(case, MarkTrouble.STAR_UNCLOSED):
        yield Said(mark.span, f"nothing in {round_name(round_)} repeats from this star")


def _bracket_unbalanced(case: Case) -> Iterator[Said]:
    for round_, mark in _loose(case, MarkTrouble.BRACKET):
        sign = case.words(mark.span)
        lack = "is never closed" if sign[:1] in "([{" else "closes nothing that was opened"
        yield Said(mark.span, f'the bracket "{sign}" in {round_name(round_)} {lack}')


# ---------------------------------------------------------------- how often


def _times_ambiguous(case: Case) -> Iterator[Said]:
    if any(reading.key == "times-more" for reading in case.workings.readings):
        return  # the draft's words or its counts show which is meant
    for index, (round_, working) in enumerate(zip(case.pattern.rounds, case.workings.rounds, strict=True)):
        step = _either(round_.steps)
        if step is None or step.times.number is None or working.standing is not Standing.UNSTATED:
            continue
        sizes = [size for size, own in enumerate(working.sizes) if own is not None and own.before is not None]
        if not sizes or any(_settled(case, index, size) for size in sizes):
            continue
        number = step.times.number.at(sizes[0])
        if number is None:
            continue
        span = step.times.span or step.times.number.span
        yield Said(
            span,
            f'"{case.words(span)}" may be {number} times in all or {number} more after the first, '
            f"and no count in the draft shows which",
        )


def _either(steps: Sequence[Step]) -> Repeat | None:
    for step in steps:
        if isinstance(step, Repeat) and step.times.count is Count.EITHER:
            return step
        if isinstance(step, Repeat | Together) and (inner := _either(step.steps)) is not None:
            return inner
    return None


def _settled(case: Case, index: int, size: int) -> bool:
    """Tell whether the stitches there are, or a later count, leave only one way to read a number of times."""
    own = case.workings.rounds[index].sizes[size]
    if own is None or next_stated(case, index, size) is not None:
        return True
    return not own.left and not own.short and not _takes_the_rest(case.pattern.rounds[index].steps)


def _takes_the_rest(steps: Sequence[Step]) -> bool:
    """Tell whether a round has a step that takes whatever a repeat leaves."""
    return any(
        (isinstance(step, Work | Together) and step.where.at is At.EACH)
        or (isinstance(step, Repeat) and step.times.count is Count.TO_END)
        for step in steps
    )


# ---------------------------------------------------------------- the rules

_TWELVE = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"

REPEAT_DOES_NOT_FIT = Rule(
    name="repeat-does-not-fit",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="A repeat that runs to the end of the round doesn't divide the stitches there are.",
    why="The maker is in the middle of a repeat when the round ends.",
    limits="Silent where the stated count agrees with a repeat that stops half-way, and where the row below "
    "isn't known. A query where the stated count agrees with the whole repeats alone and leaves the rest of a plain "
    "round. Without a stated count it is a correction only on a row whose own count agreed.",
    source=_TECH_EDITING,
    examples=(
        Flags(f"{_TWELVE}Rnd 3: *⟦Sc in next 4 sts, 2 sc in next st; rep from * around⟧. (15)\n"),
        Flags(
            "Sizes: Small (Medium, Large)\n\nRnd 1: 8 (9, 10) sc in magic ring. 8 (9, 10) sts\n"
            "Rnd 2: *⟦Sc in next st, 2 sc in next st; rep from * around⟧. 12 (14, 15) sts\n"
        ),
        Flags(f"{_TWELVE}Rnd 3: *⟦Sc in next 9 sts, 2 sc in next st; rep from * around⟧. (11)\n"),
        Passes(f"{_TWELVE}Rnd 3: *Sc in next 3 sts, 2 sc in next st; rep from * around. (15)\n"),
        Passes(f"{_TWELVE}Rnd 3: *Sc in next 2 sts, inc, sc in next 2 sts; rep from * around. (14)\n"),
        Passes(
            f"{_TWELVE}Rnd 3: *Sc in next 4 sts, 2 sc in next st; rep from * to last 2 sts, sc in last 2 sts. (14)\n"
        ),
    ),
    check=_does_not_fit,
)

REMAINDER_DIFFERS = Rule(
    name="remainder-differs",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="A round is worked to the last so many stitches, and what follows uses another number of them.",
    why="The maker has stitches left at the end of the round, or not enough for the words that remain.",
    limits="A query where the stated count of a plain round agrees with the work all the same.",
    source=_TECH_EDITING,
    examples=(
        Flags(
            f"{_TWELVE}Rnd 3: *Sc in next 2 sts, 2 sc in next st; rep from * to last ⟦3⟧ sts, sc in next 2 sts. (15)\n"
        ),
        Passes(
            f"{_TWELVE}Rnd 3: *Sc in next 2 sts, 2 sc in next st; rep from * to last 3 sts, sc in next 3 sts. (15)\n"
        ),
        Passes(
            f"{_TWELVE}Rnd 3: *Sc in next st, 2 sc in next st; rep from * to last 2 sts, sc in each st to end. (17)\n"
        ),
        Passes(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
            "Rnd 3: *Sc in next 2 sts, 2 sc in next st; rep from * to last 3 sts, sc in next st, sc2tog. (14)\n"
        ),
    ),
    check=_remainder_differs,
)

REPEAT_COUNT_DIFFERS = Rule(
    name="repeat-count-differs",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="A group is worked so many times, and another number of times would use exactly the stitches there are.",
    why="The maker has whole repeats left at the end of the round, or no stitches left for them.",
    limits="A query where the stated count of a plain round agrees with the work all the same. Where no whole number "
    "of repeats would fit, the stitches left over or wanting are reported instead.",
    source=_TECH_EDITING,
    examples=(
        Flags(f"{_TWELVE}Rnd 3: (Sc in next st, 2 sc in next st) ⟦5 times⟧. (18)\n"),
        Passes(f"{_TWELVE}Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)\n"),
        Passes(f"{_TWELVE}Rnd 3: (Sc in next st, 2 sc in next st) 5 times, sc in next 2 sts. (17)\n"),
        Passes(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
            "Rnd 3: (Sc in next st, 2 sc in next st) 5 times, leave the last 2 sts unworked. (15)\n"
        ),
    ),
    check=_repeat_count_differs,
)

STAR_UNOPENED = Rule(
    name="star-unopened",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="A round says to repeat from a star, or closes one, and no star stands before it.",
    why="The maker doesn't know where the repeat begins.",
    limits="Silent about rounds whose words were not read as instructions.",
    source=_MARKS,
    examples=(
        Flags(f"{_TWELVE}Rnd 3: Sc in next st, 2 sc in next st; ⟦rep from * around⟧. (18)\n"),
        Flags(f"{_TWELVE}Rnd 3: *Sc in next st, 2 sc in next st; ⟦rep from⟧ to end. (18)\n"),
        Passes(f"{_TWELVE}Rnd 3: *Sc in next st, 2 sc in next st; rep from * around. (18)\n"),
        Passes(f"{_TWELVE}Rnd 3: *Sc in next st, 2 sc in next st* around. (18)\n"),
        Passes(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
            "Rnd 3: Sc in next st, *2 sc in next st, sc in next st; rep from * to last st, 2 sc in last st. (18)\n"
        ),
    ),
    check=_star_unopened,
)

STAR_UNCLOSED = Rule(
    name="star-unclosed",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="A star stands in a round and nothing is repeated from it.",
    why="The maker looks for the words that say how often, and they are missing.",
    limits="A star glued to the end of a word, before a heading or after the last word is taken for a "
    "footnote's and left alone.",
    source=_MARKS,
    examples=(
        Flags(f"{_TWELVE}Rnd 3: ⟦*⟧Sc in next st, 2 sc in next st, sc in next 10 sts. (13)\n"),
        Passes(f"{_TWELVE}Rnd 3: *Sc in next st, 2 sc in next st; rep from * around. (18)\n"),
        Passes(f"{_TWELVE}Rnd 3*: Sc in each st around. (12)\n"),
        Passes(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
            "Rnd 3: *Sc in next st, 2 sc in next st* 6 times. (18)\n"
        ),
    ),
    check=_star_unclosed,
)

BRACKET_UNBALANCED = Rule(
    name="bracket-unbalanced",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="A bracket in a round is opened and never closed, or closed and never opened.",
    why="The maker can't tell which stitches belong to the repeat.",
    limits="Silent where a remark in brackets goes on in the next line. A star that doesn't pair in the "
    "same round is reported instead.",
    source="common practice: brackets come in pairs",
    examples=(
        Flags(f"{_TWELVE}Rnd 3: ⟦(⟧Sc in next st, 2 sc in next st 6 times. (18)\n"),
        Passes(f"{_TWELVE}Rnd 3: (Sc in next st, 2 sc in next st) 6 times. (18)\n"),
        Passes(f"{_TWELVE}Rnd 3: [(Sc in next st, 2 sc in next st) twice, sc in next 2 sts] twice. (16)\n"),
        Passes(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
            "Rnd 3: Sc in each st around (this is the first\nof the brim). (12)\n"
        ),
    ),
    check=_bracket_unbalanced,
)

TIMES_AMBIGUOUS = Rule(
    name="times-ambiguous",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A repeat from a star is worked so many times, and the draft doesn't show whether the "
    "first pass is among them.",
    why="Makers read it both ways, and the two ways give different counts.",
    limits="Silent where a count in the draft, or the number of stitches there are, agrees with only one of the ways.",
    source="common practice of tech editing: more, or in all, is said",
    examples=(
        Flags(f"{_TWELVE}Rnd 3: *Sc in next st, 2 sc in next st; rep from * ⟦3 times⟧, sc in each st to end.\n"),
        Passes(f"{_TWELVE}Rnd 3: *Sc in next st, 2 sc in next st; rep from * 3 times more, sc in each st to end.\n"),
        Passes(f"{_TWELVE}Rnd 3: *Sc in next st, 2 sc in next st; rep from * 3 times, sc in each st to end. (16)\n"),
        Passes(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
            "Rnd 3: (Sc in next st, 2 sc in next st) 3 times, sc in each st to end.\n"
        ),
    ),
    check=_times_ambiguous,
)

RULES = (
    REPEAT_DOES_NOT_FIT,
    REMAINDER_DIFFERS,
    REPEAT_COUNT_DIFFERS,
    STAR_UNOPENED,
    STAR_UNCLOSED,
    BRACKET_UNBALANCED,
    TIMES_AMBIGUOUS,
)
