"""Counts in rows of knits and purls: rows that nearly mirror themselves, and stitches that come back from a holder."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from ..lint.draft import Span
from ..lint.finding import Aside, Level
from ..lint.later import later
from ..lint.pattern import Round
from ..lint.steps import At, Remark, Step, Turn, Work
from .rule import Case, Flags, Passes, Rule, Said
from .sums import number_of, round_name

_FEWEST_GROUPS = 7
_FEWEST_PAIRS = 3  # that are alike, beside the one that isn't


def _not_mirrored(case: Case) -> Iterator[Said]:
    if case.pattern.craft != "knitting":
        return
    for round_ in case.pattern.rounds:
        groups = _groups(round_.steps)
        if groups is None or len(groups) < _FEWEST_GROUPS or round_.directive is not None:
            continue
        kinds = [kind for kind, _, _ in groups]
        pairs = [(groups[n], groups[-n - 1]) for n in range(len(groups) // 2)]
        off = [(one, other) for one, other in pairs if one[1] != other[1]]
        if kinds != kinds[::-1] or len(off) != 1 or len(pairs) - 1 < _FEWEST_PAIRS:
            continue
        kind = off[0][0][0]
        usual, often = Counter(number for own, number, _ in groups if own == kind).most_common(1)[0]
        odd = [one for one in off[0] if one[1] != usual]
        if len(odd) == 1 and often >= _FEWEST_PAIRS:
            words = case.words(odd[0][2].span)
            message = f'"{words}" stands where all else in {round_name(round_)} mirrors itself about "{kind}{usual}"'
            yield Said(odd[0][2].span, message)


def _groups(steps: Sequence[Step]) -> list[tuple[str, int, Work]] | None:
    """Return the groups of knits and purls of a row with their numbers, None where it has anything else."""
    found: list[tuple[str, int, Work]] = []
    for step in steps:
        if isinstance(step, Turn | Remark):
            continue
        if not isinstance(step, Work) or step.where.at is not At.NEXT or step.where.number is None:
            return None
        number = step.where.number.values[0]
        if step.make.kind not in ("k", "p") or step.where.number.is_list or number is None or step.times.values != (1,):
            return None
        found.append((step.make.kind, number, step))
    return found


_HELD = later(
    r"(?i)(?P<n>\d{1,3})\s*(?:sts|stitches)\s+(?:\w+\s+){0,2}?(?:on|to|onto)\s+(?:a\s+|the\s+|one\s+)?(?:stitch\s+|spare\s+|waste\s+)?(?:holders?|thread|yarn|needle)\b"
)
_FROM = later(r"(?i)^[^,;.\n]{0,40}?:\s*from\s+(?:the\s+)?holder\b|^\W*from\s+(?:the\s+)?holder\b")
_TAKEN = later(r"(?i)\b[kp]\s?(?P<n>\d{1,3})\s+(?:sts\s+)?(?:from|on)\s+(?:the\s+)?holder\b")


def _held_differ(case: Case) -> Iterator[Said]:
    text = case.draft.text
    held = [*_HELD.finditer(text)]
    if len(held) != 1 or case.pattern.sizes.number > 1:
        return
    number = int(held[0]["n"])
    for round_, working in zip(case.pattern.rounds, case.workings.rounds, strict=True):
        own = working.sizes[0]
        if round_.span.start < held[0].end() or (own is not None and own.agrees is False):
            continue
        taken = _TAKEN.search(text, round_.span.start, round_.span.end)
        used = int(taken["n"]) if taken else _used(case, round_)
        if used is None:
            continue
        if used != number:
            message = f"{number_of(number)} wait on the holder, and {round_name(round_)} takes {used} from it"
            place = Span(*taken.span()) if taken else round_.heading
            yield Said(place, message, asides=(Aside(Span(*held[0].span()), "held here"),))
        return


def _used(case: Case, round_: Round) -> int | None:
    """Return the stitches that a row begun from the holder takes, None for other rows and where it isn't sure."""
    if not _FROM.match(case.draft.words(Span(round_.heading.end, round_.span.end))):
        return None
    used = 0
    for step in round_.steps:
        if isinstance(step, Turn | Remark):
            continue
        if not isinstance(step, Work) or step.where.at is not At.NEXT or step.where.number is None:
            return None
        number, times = step.where.number.values[0], step.times.values[0]
        if number is None or times is None or step.where.number.is_list:
            return None
        used += number * times * (step.make.uses or (step.make.kind in ("k", "p")))
    return used or None


_ROW = "Cast on 38 sts.\nRow 1: K3, p2, k8, p2, k8, {}, k8, p2, k3.\n"
_NECK = "Cast on 30 sts.\nLeft neck, row 1: K13, k2tog, turn, leave rem 15 sts on a holder. 14 sts.\n"

ROW_NOT_MIRRORED = Rule(
    name="row-not-mirrored",
    family="counts",
    level=Level.QUERY,
    finds="A row of knits and purls that is its own mirror image but for one group.",
    why="A panel that isn't centred, or a rib of another width, shows in the whole piece.",
    limits="Only rows of seven groups or more without repeats, in which that group alone breaks the mirror, and has "
    "another number than the other groups of its kind.",
    source="common practice of tech editing: panels and ribs are centred",
    examples=(
        Flags(_ROW.format("⟦p1⟧")),
        Passes(_ROW.format("p2")),
        Passes("Cast on 20 sts.\nRow 1: K2, p3, k6, p3, k1, p3, k2.\n"),
        Passes("Cast on 36 sts.\nRow 1: K2, p1, k6, p2, k6, p3, k6, p4, k6.\n"),
    ),
    check=_not_mirrored,
)

HELD_DIFFER = Rule(
    name="held-stitches-differ",
    family="counts",
    level=Level.QUERY,
    finds="More or fewer stitches are worked from a holder than were left on it.",
    why="A stitch stays on the holder and runs down, or the maker looks for one that isn't there.",
    limits="Only for one size, where stitches are left on a holder once, and a row says how many it works from it.",
    source="common practice of tech editing: stitches that wait are all taken up again",
    examples=(
        Flags(f"{_NECK}Right neck, ⟦row 1⟧: from holder ssk, k12.\n"),
        Flags(
            "Cast on 48 sts.\nRow 1: K24, place rem 24 sts on holder.\nRow 2: Purl.\n"
            "Row 3: K24, then ⟦k22 from holder⟧. 46 sts.\n"
        ),
        Passes(f"{_NECK}Right neck, row 1: from holder ssk, k13. 14 sts.\n"),
        Passes(f"{_NECK}Right neck, row 1: from holder ssk, k to end. 14 sts.\n"),
        Passes(
            "Cast on 48 sts.\nRow 1: K24, place rem 24 sts on holder.\nRow 2: Purl.\n"
            "Row 3: K24, then k24 from holder. 48 sts.\n"
        ),
    ),
    check=_held_differ,
)

RULES = (ROW_NOT_MIRRORED, HELD_DIFFER)
