"""Counts: the stated count of a round against the stitches its instructions use and make."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from ..lint.draft import Span
from ..lint.finding import Aside, Change, Level
from ..lint.later import later
from ..lint.pattern import Claim
from ..lint.steps import Evenly
from ..lint.trade.tables import stitches
from ..lint.workings import Deed, SizeWorking
from .likely import likely_slips
from .rule import Case, Flags, Passes, Rule, Said
from .spaces import spaces_differ
from .sums import figures_by_size, for_sizes, join_words, number_of, pencil_sum, round_name
from .verdicts import Trouble, all_or, foundation_of, troubles_of

_FAMILY = "counts"
_TECH_EDITING = "common practice of tech editing: every round of every size is worked on paper"
_DIGITS = later(r"\d+")


# ---------------------------------------------------------------- the place of a stated count


def stated_span(case: Case, trouble: Trouble) -> Span:
    """Return the smallest span of the stated count that holds these sizes' figures, or the heading."""
    round_ = case.pattern.rounds[trouble.index]
    claim = _main_claim(round_.claims)
    if claim is None:
        counted = [claim.figure.span for claim in round_.claims if claim.kind not in ("space", "ch", "other")]
        return Span(counted[0].start, counted[-1].end) if counted else round_.heading
    places = figure_places(case, claim)
    if len(trouble.sizes) == 1 and claim.figure.is_list and places:
        return places.get(trouble.sizes[0], claim.figure.span)
    return claim.figure.span


def _main_claim(claims: tuple[Claim, ...]) -> Claim | None:
    """Return the claim that speaks for the whole round, None where several kinds add up to it."""
    counted = [claim for claim in claims if claim.kind not in ("space", "ch", "other")]
    whole = next((claim for claim in counted if claim.kind == "st"), None)
    return whole or (counted[0] if len(counted) == 1 else None)


def figure_places(case: Case, claim: Claim) -> dict[int, Span]:
    """Return where each size's figure stands in a list; nothing where the words don't show it plainly."""
    start = claim.figure.span.start
    found = list(_DIGITS.finditer(case.draft.words(claim.figure.span)))
    values = [(size, value) for size, value in enumerate(claim.figure.values) if value is not None]
    if [int(match.group()) for match in found] != [value for _, value in values]:
        return {}
    return {
        size: Span(start + match.start(), start + match.end()) for (size, _), match in zip(values, found, strict=True)
    }


def _corrected(case: Case, trouble: Trouble) -> Change | None:
    """Return the stated count with the worked figures for the wrong ones, in the draft's own style."""
    claim = _main_claim(case.pattern.rounds[trouble.index].claims)
    working = case.workings.rounds[trouble.index]
    if claim is None or claim.chain_apart or claim.each_round or working.resumed:
        return None
    if trouble.level is not Level.CORRECTION:
        return None
    right: dict[int, int] = {}
    for size in trouble.sizes:
        own = working.sizes[size]
        if own is None or own.count is None:
            return None
        right[size] = own.count
    places = figure_places(case, claim)
    if not claim.figure.is_list:
        if len(trouble.sizes) < case.pattern.sizes.number or len(set(right.values())) > 1 or not places:
            return None
        return Change(places[0], str(right[trouble.sizes[0]]))
    if any(size not in places for size in right):
        return None
    first, last = places[min(right)], places[max(right)]
    to = case.draft.words(Span(first.start, last.end))
    for size in sorted(right, reverse=True):
        at = places[size]
        to = to[: at.start - first.start] + str(right[size]) + to[at.end - first.start :]
    return Change(Span(first.start, last.end), to)


# ---------------------------------------------------------------- checks


def _count_differs(case: Case) -> Iterator[Said]:
    for trouble in troubles_of(case, "count-differs"):
        yield _differing(case, trouble, _against_count(case, trouble))


def _against_count(case: Case, trouble: Trouble) -> str:
    """Say both numbers: `rnd 5 makes 70 sts for Small, the draft says 72`."""
    round_ = case.pattern.rounds[trouble.index]
    working = case.workings.rounds[trouble.index]
    owns = trouble.workings(case)
    made = figures_by_size(case, trouble.sizes, [own.count or 0 for own in owns], working.unit)
    stated = [own.stated or 0 for own in owns]
    says = str(stated[0]) if len(set(stated)) == 1 else join_words([str(value) for value in stated])
    verb = "make" if round_.last != round_.first and round_.first is not None else "makes"
    return f"{round_name(round_)} {verb} {made}, the draft says {says}"


def _differing(case: Case, trouble: Trouble, message: str) -> Said:
    resumed = case.workings.rounds[trouble.index].resumed
    aside = _next_stated(case, trouble.index) if resumed else None
    asides = (Aside(aside, "the rounds after it go by the stated count"),) if aside else ()
    likely, change = likely_slips(case, trouble.index) if resumed else ((), None)
    return Said(
        span=stated_span(case, trouble),
        message=message,
        sizes=trouble.said_sizes(case),
        sum=(*pencil_sum(case, trouble.index, trouble.sizes), *likely),
        change=change or _corrected(case, trouble),
        asides=asides,
        level=trouble.level,
    )


def _next_stated(case: Case, index: int) -> Span | None:
    for following in range(index + 1, len(case.pattern.rounds)):
        if case.pattern.rounds[following].section != case.pattern.rounds[index].section:
            return None
        if any(own is not None and own.agrees for own in case.workings.rounds[following].sizes):
            return case.pattern.rounds[following].heading
    return None


def _left_over(case: Case) -> Iterator[Said]:
    for trouble in troubles_of(case, "stitches-left-over"):
        owns = trouble.workings(case)
        left = figures_by_size(case, trouble.sizes, [own.left for own in owns], "sts")
        name = round_name(case.pattern.rounds[trouble.index])
        yield _unfitting(case, trouble, f"{name} leaves {left} unworked, the row below has {_row_below(owns)}")


def _run_out(case: Case) -> Iterator[Said]:
    for trouble in troubles_of(case, "stitches-run-out"):
        owns = trouble.workings(case)
        wanted = figures_by_size(case, trouble.sizes, [(own.before or 0) + own.short for own in owns], "sts")
        name = round_name(case.pattern.rounds[trouble.index])
        yield _unfitting(case, trouble, f"{name} wants {wanted}, the row below has {_row_below(owns)}")


def _row_below(owns: tuple[SizeWorking, ...]) -> str:
    return join_words([str(own.before or 0) for own in owns])


def _unfitting(case: Case, trouble: Trouble, message: str) -> Said:
    items = trouble.workings(case)[0].items
    round_ = case.pattern.rounds[trouble.index]
    span = _stripped(case, Span(items[0].span.start, items[-1].span.end)) if items else round_.heading
    likely, change = likely_slips(case, trouble.index)
    return Said(
        span=span,
        message=message,
        sizes=trouble.said_sizes(case),
        sum=(*pencil_sum(case, trouble.index, trouble.sizes), *likely),
        change=change,
        level=trouble.level,
    )


def _stripped(case: Case, span: Span) -> Span:
    return Span(span.start, span.start + len(case.draft.words(span).rstrip(" .;,\r\n")))


def _foundation_differs(case: Case) -> Iterator[Said]:
    for trouble in troubles_of(case, "foundation-differs"):
        message = _against_count(case, trouble)
        index = foundation_of(case, trouble.index)
        chain = case.pattern.rounds[trouble.index if index is None else index]
        own = trouble.workings(case)[0]
        gap = (own.stated or 0) - (own.count or 0)
        need = f"{number_of(abs(gap), 'chains')} {'more' if gap > 0 else 'fewer'} would give it"
        said = _differing(case, trouble, message)
        asides = (Aside(chain.heading, need),) if len(trouble.sizes) == 1 else ()
        yield Said(said.span, message, said.sizes, said.sum, None, asides, trouble.level)


def _evenly(case: Case) -> Iterator[Said]:
    for trouble in troubles_of(case, "evenly-does-not-work"):
        round_ = case.pattern.rounds[trouble.index]
        step = next(step for step in round_.steps if isinstance(step, Evenly))
        size = trouble.sizes[0]
        own = trouble.workings(case)[0]
        item = next(item for item in own.items if item.deed is Deed.EVENLY)
        wanted = step.to.at(size) if step.to else None
        wanted = own.stated if wanted is None else wanted
        if wanted is None:
            continue
        number = abs(item.makes - item.uses)
        sign = "plus" if step.change > 0 else "less"
        message = (
            f"{number_of(item.uses)}{for_sizes(case, (size,))} {sign} {number} evenly are {item.makes}, "
            f"the draft says {wanted}"
        )
        span = step.number.span if step.number else step.span
        yield Said(
            span,
            message,
            trouble.said_sizes(case),
            pencil_sum(case, trouble.index, trouble.sizes),
            level=trouble.level,
        )


# ---------------------------------------------------------------- kinds


@cache
def _plain_kind(craft: str | None, kind: str) -> str | None:
    """Return the basic stitch that a stated count would name for a stitch, None for anything else."""
    table = {stitch.id: stitch for stitch in stitches(craft or "crochet")}
    stitch = table.get(kind)
    if stitch is not None and stitch.kind != "basic" and stitch.like is not None:
        stitch = table.get(stitch.like)
    return stitch.id if stitch is not None and stitch.kind == "basic" else None


def _kinds_differ(case: Case) -> Iterator[Said]:
    yield from spaces_differ(case)
    for index, (round_, working) in enumerate(zip(case.pattern.rounds, case.workings.rounds, strict=True)):
        claim = round_.claims[0] if len(round_.claims) == 1 else None
        stated = _plain_kind(case.pattern.craft, claim.kind) if claim else None
        if claim is None or stated is None or round_.loose:
            continue
        sizes = [size for size, own in enumerate(working.sizes) if own is not None and own.agrees and own.sure]
        made = {_made_kind(case, working.sizes[size]) for size in sizes}
        if len(made) != 1 or None in made or stated in made:
            continue
        own = working.sizes[sizes[0]]
        worked = next(kind for kind, _ in own.kinds if kind != "ch") if own else ""
        plain = made.pop() or ""
        names = _names(case)
        yield Said(
            span=claim.span,
            message=(
                f"{round_name(round_)} makes {names.get(plain, plain)}"
                f"{'' if worked == plain else f' ({names.get(worked, worked)})'}, "
                f"the draft counts {names.get(stated, stated)}"
            ),
            sizes=all_or(case, sizes),
            sum=pencil_sum(case, index, sizes[:1]),
        )


def _made_kind(case: Case, own: SizeWorking | None) -> str | None:
    """Return the one basic stitch that a round is made of, None where it is made of several or of others."""
    if own is None:
        return None
    kinds = {_plain_kind(case.pattern.craft, kind) for kind, _ in own.kinds if kind != "ch"}
    return kinds.pop() if len(kinds) == 1 else None


def _names(case: Case) -> dict[str, str]:
    """Return the usual abbreviation of each stitch in the draft's terms."""
    uk = case.pattern.terms == "UK"
    found: dict[str, str] = {}
    for stitch in stitches(case.pattern.craft or "crochet"):
        spelled = stitch.uk if uk else stitch.us
        found[stitch.id] = min(spelled[:2], key=len)
    return found


# ---------------------------------------------------------------- the rules

COUNT_DIFFERS = Rule(
    name="count-differs",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="The stated count of a round is not the number of stitches that its instructions make on the row below.",
    why="A maker who ends a round with another number than the draft's looks for a mistake of their own, "
    "and every round after it may be out.",
    limits="Silent where a word of the round was not read or the row below isn't known. A query where the "
    "round would agree under a convention that the draft leaves open, such as whether the beginning "
    "chain counts.",
    source=_TECH_EDITING,
    examples=(
        Flags("Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (⟦13⟧ sc)\n"),
        Flags(
            "Sizes: Small (Medium, Large)\n\n"
            "Rnd 1: 8 (9, 10) sc in magic ring. 8 (9, 10) sts\n"
            "Rnd 2: 2 sc in each st around. 16 (⟦19⟧, 20) sts\n"
        ),
        Passes("Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\n"),
        Passes("Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: Wrap each st with the thread twice. (13 sc)\n"),
        Passes(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
            "Rnd 3: Ch 3 (counts as dc), dc in next 11 sts, join with sl st. (12 dc)\n"
        ),
    ),
    check=_count_differs,
)

STITCHES_LEFT_OVER = Rule(
    name="stitches-left-over",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="A round ends before the row below does: stitches are left that no word of the round uses.",
    why="The maker stands at the end of the instructions with stitches in hand and doesn't know whether to go on.",
    limits="A query where the stated count of the round agrees all the same, and then only for a few stitches left "
    "of a plain round whose own count agreed. Silent where the next count stated agrees with the work, and in flat "
    "rows that stop short without a count, since short rows are often written so.",
    source=_TECH_EDITING,
    examples=(
        Flags(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
            "Rnd 3: ⟦Sc in next 5 sts, 2 sc in next st, sc in next 4 sts⟧. (13)\n"
        ),
        Flags("Rnd 1: 24 sc in magic ring. (24)\nRnd 2: ⟦[Sc in next 9 sts, ch 2, sk next 2 sts] twice⟧. (18 sc)\n"),
        Passes("Rnd 1: 24 sc in magic ring. (24)\nRnd 2: Fold in half and sc in next 12 sts. (12)\n"),
        Passes(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
            "Rnd 3: Sc in next 5 sts, 2 sc in next st, sc in next 6 sts. (13)\n"
        ),
        Passes(
            "Row 1: Ch 11, sc in 2nd ch from hook, sc in next 9 ch, turn. (10)\n"
            "Row 2: Ch 1, sc in next 8 sts, turn. (8)\n"
        ),
    ),
    check=_left_over,
)

STITCHES_RUN_OUT = Rule(
    name="stitches-run-out",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="A round asks for more stitches of the row below than there are.",
    why="The maker reaches the end of the row in the middle of the instructions.",
    limits="A query where the stated count of the round agrees all the same, and then only for a few stitches of a "
    "plain round on one whose count agreed. Silent where the next count stated agrees with the work. In a spiral "
    "without counts a round may run into the next on purpose.",
    source=_TECH_EDITING,
    examples=(
        Flags(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
            "Rnd 3: ⟦Sc in next 8 sts, 2 sc in next st, sc in next 5 sts⟧. (13)\n"
        ),
        Flags("Rnd 1: 24 sc in magic ring. (24)\nRnd 2: ⟦Sc in next 26 sts⟧. (26)\n"),
        Passes(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
            "Rnd 3: Sc in next 8 sts, 2 sc in next st, sc in next 3 sts. (13)\n"
        ),
        Passes("Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"),
        Passes("Rnd 1: 6 sc in magic ring.\nRnd 2: 2 sc in each st around.\nRnd 3: Sc in next 14 sts.\n"),
    ),
    check=_run_out,
)

KINDS_DIFFER = Rule(
    name="kinds-differ",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="The number of stitches fits, but the draft counts another stitch than the round is made of, or another "
    "number of chain spaces.",
    why="A maker can't tell whether the stitch in the instructions or the one in the count is meant, "
    "and the height of the fabric depends on it.",
    limits="Only where one basic stitch is stated and the whole round is made of another one. Increases, "
    "decreases and post stitches count as their plain stitch; a beginning chain counts as any. Spaces are a query, "
    "only where the stitches stated beside them agree, and silent in a round worked into a ring, behind or along "
    "an edge, or out by one after a beginning chain.",
    source=_TECH_EDITING,
    examples=(
        Flags("Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 hdc in each st around. (⟦12 dc⟧)\n"),
        Flags(
            "Rnd 1: 12 sc in magic ring. (12)\n"
            "Rnd 2: *Sc in next st, ch 1, sk next st; rep from * around. (6 sc and ⟦5 ch-1 sps⟧)\n"
        ),
        Passes("Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 hdc in each st around. (12 hdc)\n"),
        Passes(
            "Rnd 1: 12 sc in magic ring. (12)\n"
            "Rnd 2: *Sc in next st, ch 1, sk next st; rep from * around. (6 sc and 6 ch-1 sps)\n"
        ),
        Passes("Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 hdc in each st around. (12 sts)\n"),
    ),
    check=_kinds_differ,
)

FOUNDATION_DIFFERS = Rule(
    name="foundation-differs",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="The foundation chain doesn't give the first row as counted, and the rows after it go by that count.",
    why="The piece is begun with too few or too many chains, and there is no mending that later.",
    limits="Only for a first row with one stitch in each chain and a stated count that the next rows confirm.",
    source="common practice of tech editing: chains, less those skipped at the hook, are the stitches of row 1",
    examples=(
        Flags(
            "Ch 20.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (⟦20⟧ sc)\n"
            "Row 2: Ch 1, sc in next 20 sts, turn. (20 sc)\n"
        ),
        Passes(
            "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)\n"
            "Row 2: Ch 1, sc in next 20 sts, turn. (20 sc)\n"
        ),
        Passes("Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn.\n"),
        Passes(
            "Ch 22.\nRow 1: Dc in 4th ch from hook and in each ch across, turn. (20 dc)\n"
            "Row 2: Ch 1, sc in next 20 sts, turn. (20 sc)\n"
        ),
    ),
    check=_foundation_differs,
)

EVENLY_DOES_NOT_WORK = Rule(
    name="evenly-does-not-work",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="So many increases or decreases spread evenly don't lead from the stitches there are to the count stated.",
    why="One of the three numbers is wrong, and the maker can't know which.",
    limits="Silent where the row below isn't known. How far apart the increases fall is left to the maker.",
    source=_TECH_EDITING,
    examples=(
        Flags(
            "Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\n"
            "Rnd 3: Sc around, increasing ⟦5⟧ sts evenly. (18 sc)\n"
        ),
        Passes(
            "Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\n"
            "Rnd 3: Sc around, increasing 6 sts evenly. (18 sc)\n"
        ),
        Passes(
            "Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\n"
            "Rnd 3: Sc around, increasing a few sts evenly.\n"
        ),
        Passes(
            "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
            "Rnd 3: Sc around, decreasing 3 sts evenly. (9 sc)\n"
        ),
    ),
    check=_evenly,
)

RULES = (
    COUNT_DIFFERS,
    STITCHES_LEFT_OVER,
    STITCHES_RUN_OUT,
    KINDS_DIFFER,
    FOUNDATION_DIFFERS,
    EVENLY_DOES_NOT_WORK,
)
