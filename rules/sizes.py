"""Sizes: are they named as declared, has each the rounds that it needs, do they fit where they meet."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from rapidfuzz import fuzz, process

from ..lint.draft import Span
from ..lint.finding import Level
from ..lint.pattern import Pattern
from .meeting import bad_meeting
from .numbering import is_for, numbers_of
from .rule import Case, Flags, Passes, Rule, Said

_FAMILY = "sizes"


def named(case: Case, sizes: Sequence[int]) -> str:
    """Return the names of some sizes: "Small and Large"."""
    names = [case.pattern.sizes.names[size] for size in sizes]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


# ---------------------------------------------------------------- sizes by name


def _check_unknown(case: Case) -> Iterator[Said]:
    sizes = case.pattern.sizes
    if not sizes.declared:
        return
    for note in case.pattern.size_notes:
        for name in note.unknown:
            match = process.extractOne(name, sizes.names, scorer=fuzz.WRatio, processor=str.lower, score_cutoff=60)
            message = f"{name} is not one of the sizes {', '.join(sizes.names)}"
            if match is not None:
                message += f"; the nearest is {match[0]}"
            yield Said(_within(case, note.span, name), message)


def _within(case: Case, span: Span, name: str) -> Span:
    """Return where a name stands in a note."""
    at = re.search(rf"(?<!\w){re.escape(name)}(?!\w)", case.draft.words(span))
    return Span(span.start + at.start(), span.start + at.end()) if at else span


def _check_meeting(case: Case) -> Iterator[Said]:
    for index in range(len(case.pattern.rounds)):
        meeting = bad_meeting(case, index)
        if meeting is None:
            continue
        fits, misfits = meeting
        size, (span, left) = next(iter(misfits.items()))
        one = case.workings.rounds[index].sizes[size]
        item = next(item for item in (one.items if one else ()) if item.span == span)
        message = (
            f"the repeat fits {named(case, fits)} but not {named(case, list(misfits))}: "
            f"{one.before if one else None} sts leave {left} over after whole repeats of {item.uses}"
        )
        yield Said(span, message, sizes=tuple(misfits))


# ---------------------------------------------------------------- sizes without a round


def _check_left_out(case: Case) -> Iterator[Said]:
    pattern = case.pattern
    told: set[tuple[int, int]] = set()
    for index, round_ in enumerate(pattern.rounds):
        if not round_.sizes or round_.first is None:
            continue
        for number in numbers_of(round_, round_.sizes[0]):
            if (round_.section, number) in told:
                continue
            told.add((round_.section, number))
            have = _having(pattern, round_.section, number)
            for size in _left_out(case, index, have):
                needs = _needs_one(case, index, size)
                label = case.words(round_.heading)
                message = f"{label} is written for {named(case, sorted(have))}; {named(case, (size,))} has none"
                yield Said(round_.heading, message, sizes=(size,), level=None if needs else Level.QUERY)


def _having(pattern: Pattern, section: int, number: int) -> set[int]:
    """Return the sizes that have a round of this number in a section."""
    every = range(pattern.sizes.number)
    return {
        size
        for size in every
        for one in pattern.rounds
        if one.section == section and is_for(one, size) and number in numbers_of(one, size)
    }


def _left_out(case: Case, index: int, have: set[int]) -> list[int]:
    """Return the sizes between two that have a round, where no words up to the rejoining name them."""
    pattern = case.pattern
    spoken: set[int] = set()
    for note in pattern.size_notes:
        if note.unknown:
            return []
        if note.before_round > index - 2:
            spoken.update(note.sizes or ())
    end = next((one.heading.start for one in pattern.rounds[index + 1 :] if one.sizes is None), len(case.draft.text))
    start = next((one.span.end for one in reversed(pattern.rounds[:index]) if one.sizes is None), 0)
    words = case.draft.text[start:end].lower()
    section = pattern.sections[pattern.rounds[index].section].sizes
    together = [note.sizes for note in pattern.size_notes if note.sizes]  # `Small and Large only` is meant so
    return [
        size
        for size in range(min(have, default=0) + 1, max(have, default=0))
        if size not in have
        and size not in spoken
        and (section is None or size in section)
        and not any(min(sizes) < size < max(sizes) for sizes in together)
        and not re.search(rf"(?<!\w){re.escape(pattern.sizes.names[size].lower())}(?!\w)", words)
    ]


def _needs_one(case: Case, index: int, size: int) -> bool:
    """Tell whether the next stated count agrees for the other sizes and not for this one."""
    for working in case.workings.rounds[index + 1 :]:
        one = working.sizes[size]
        if one is None or one.agrees is None:
            continue
        others = [other for at, other in enumerate(working.sizes) if at != size and other is not None]
        return one.agrees is False and all(other.agrees for other in others)
    return False


def _check_colour(case: Case) -> Iterator[Said]:
    span = case.pattern.coloured_sizes
    if span is not None and case.pattern.sizes.number > 1:
        yield Said(
            span,
            f"{case.words(span)} tells sizes apart by colour, which is lost in plain text and grey print",
        )


# ---------------------------------------------------------------- the rulebook

_THREE = "Sizes: Small (Medium, Large)\n\nCh 48 (56, 64), join.\n"

RULES = (
    Rule(
        name="size-unknown",
        family=_FAMILY,
        level=Level.CORRECTION,
        finds="An instruction for a size that the draft doesn't have.",
        why="A maker of any size can't tell whether the instruction is meant for it.",
        limits="Only where the draft declares its sizes by name and the words are clearly a size's.",
        source="Arithmetic of names: an instruction can only be for a declared size.",
        examples=(
            Flags(
                _THREE
                + ("Rnd 1: sc in each ch around. 48 (56, 64) sc\n⟦Extra Large⟧ only:\nRnd 2: sc in each st around.\n")
            ),
            Flags(
                _THREE
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64) sc\nSizes Medium and ⟦XL⟧ only:\n"
                    "Rnd 2: sc in each st around.\n"
                )
            ),
            Passes(_THREE + "Rnd 1: sc in each ch around. 48 (56, 64) sc\nLarge only:\nRnd 2: sc in each st around.\n"),
            Passes(
                _THREE + "Rnd 1: sc in each ch around. 48 (56, 64) sc\nSize M only:\nRnd 2: sc in each st around.\n"
            ),
            Passes(
                "Ch 48 (56, 64), join.\nRnd 1: sc in each ch around. 48 (56, 64) sc\n"
                "Large only:\nRnd 2: sc in each st around.\n"
            ),
        ),
        check=_check_unknown,
    ),
    Rule(
        name="size-left-out",
        family=_FAMILY,
        level=Level.CORRECTION,
        finds="A round that is written for smaller and for larger sizes, but not for one between them.",
        why="The maker of that size goes on with too few stitches or rows.",
        limits=(
            "Silent where any words there name the size, and for the smallest and largest sizes. A "
            "query unless the next "
            "stated count fails for that size alone."
        ),
        source="Practice: sizes are graded, so a size between two others is worked like one of them.",
        examples=(
            Flags(
                _THREE
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64) sc\nSmall only:\n"
                    "⟦Rnd 2⟧: *sc 7, inc; rep from * around. 54 sc\n"
                    "Large only:\nRnd 2: *sc 7, inc; rep from * around. 72 sc\n"
                    "All sizes:\nRnd 3: sc in each st around. 54 (63, 72) sc\n"
                )
            ),
            Passes(
                _THREE
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64) sc\nMedium and Large only:\n"
                    "Rnd 2: *sc 7, inc; rep from * around.\n"
                    "Large only:\nRnd 3: sc in each st around. 72 sc\n"
                )
            ),
            Passes(
                _THREE
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64) sc\nSmall only:\n"
                    "Rnd 2: *sc 7, inc; rep from * around. 54 sc\n"
                    "Medium goes on with rnd 3.\nLarge only:\nRnd 2: *sc 7, inc; rep from * around. 72 sc\n"
                )
            ),
            Passes(
                _THREE
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64) sc\nSmall and Medium only:\n"
                    "Rnd 2: sc in each st around.\n"
                    "Large only:\nRnd 2: *sc 7, inc; rep from * around. 72 sc\n"
                )
            ),
        ),
        check=_check_left_out,
    ),
    Rule(
        name="sizes-do-not-meet",
        family=_FAMILY,
        level=Level.CORRECTION,
        finds=(
            "The first round for all sizes after rounds for some of them: its repeat fits some sizes "
            "and leaves stitches in others."
        ),
        why="One instruction is given to sizes that don't have counts on which it can be worked.",
        limits=("Only where every size is known for sure, and only in the first round after the sizes come together."),
        source="Arithmetic: a repeat to the end needs a multiple of the stitches that it uses.",
        examples=(
            Flags(
                _THREE
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64) sc\nMedium only:\n"
                    "Rnd 2: sc in next 55, inc. (57 sc)\nAll sizes:\n"
                    "Rnd 3: *⟦sc 6, sc2tog; rep from * around⟧.\n"
                )
            ),
            Passes(
                _THREE
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64) sc\nMedium only:\n"
                    "Rnd 2: *sc 6, inc; rep from * around. 64 sc\nAll sizes:\n"
                    "Rnd 3: *sc 6, sc2tog; rep from * around.\n"
                )
            ),
            Passes(
                _THREE
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64) sc\nMedium only:\n"
                    "Rnd 2: sc in next 55, inc. (57 sc)\nAll sizes:\n"
                    "Rnd 3: sc in each st around.\n"
                )
            ),
            Passes(
                _THREE
                + (
                    "Rnd 1: sc in each ch around. 48 (56, 64) sc\nMedium only:\n"
                    "Rnd 2: sc in next 55, inc. (57 sc)\n"
                    "Rnd 3: *sc 6, inc; rep from * around.\n"
                )
            ),
        ),
        check=_check_meeting,
    ),
    Rule(
        name="sizes-told-by-colour",
        family=_FAMILY,
        level=Level.QUERY,
        finds="Words that say that sizes are told apart by the colour of their figures.",
        why=("Colour is lost in plain text and grey print, for screen readers, and for readers who don't see it."),
        limits="Only where the draft says so in words, and has more than one size.",
        source="Accessibility practice: colour is never the only mark of a meaning.",
        examples=(
            Flags("Sizes: Small (Medium, Large)\n⟦Sizes are told by different colours⟧.\n\nCh 48 (56, 64), join.\n"),
            Passes(
                "Sizes: Small (Medium, Large)\nColours: red for the body, blue for the brim.\n\nCh 48 (56, 64), join.\n"
            ),
            Passes(
                "Sizes: Small (Medium, Large)\nFigures for larger sizes are in brackets.\n\nCh 48 (56, 64), join.\n"
            ),
            Passes("One size. Colour A: red; colour B: blue.\n\nCh 48, join.\nRnd 1: sc in each ch around. (48)\n"),
        ),
        check=_check_colour,
    ),
)
