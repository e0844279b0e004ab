"""Counts in sentences that stand for several rows: shaping to a schedule, bind-offs, motifs, patterns that go on."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from ..lint.draft import Span
from ..lint.figures import Figure
from ..lint.finding import Aside, Level
from ..lint.said import BindOffs, Schedule, Sum, number_in
from .rule import Case, Flags, Passes, Rule, Said
from .sums import for_sizes, join_words, size_name
from .verdicts import all_or

_PRACTICE = "common practice of tech editing: shaping rows times change is the total change"


def _schedule(case: Case) -> Iterator[Said]:
    for one in case.pattern.sayings.schedules:
        if _worked(case, one.span):
            continue  # its rows were worked, and their count was compared

        def off(size: int, one: Schedule = one) -> str | None:
            before, after = one.before.at(size), one.after.at(size)
            if before is None or after is None:
                return None
            times = [figure.at(size) or 0 for figure in one.times]
            comes = before + one.change * sum(times)
            sign = "-" if one.change < 0 else "+"
            rows = " + ".join(str(time) for time in times)
            words = f"{before} {sign} {abs(one.change)} x ({rows}) = {comes}, the draft says {after}"
            return words if comes != after else None

        figures = (one.before, one.after, *one.times)
        yield from _each_size(case, one.span, figures, off, "the shaping doesn't come to the stated count")


def _worked(case: Case, span: Span) -> bool:
    """Tell whether a sentence stands in a round that was worked and states its count."""
    return any(
        round_.span.start <= span.start < round_.span.end
        and any(own is not None and own.agrees is not None for own in working.sizes)
        for round_, working in zip(case.pattern.rounds, case.workings.rounds, strict=True)
    )


def _bind_offs(case: Case) -> Iterator[Said]:
    for one in case.pattern.sayings.bind_offs:

        def off(size: int, one: BindOffs = one) -> str | None:
            remaining = one.remaining.at(size)
            if remaining is None:
                return None
            groups = [(figure.at(size) or 0, rows) for figure, rows in zip(one.each, one.rows, strict=True)]
            total = sum(number * rows for number, rows in groups)
            parts = " + ".join(f"{number} x {rows}" if rows > 1 else str(number) for number, rows in groups)
            return f"{parts} = {total} of {remaining}" if total != remaining else None

        figures = (one.remaining, *one.each)
        yield from _each_size(case, one.span, figures, off, "the bind-offs don't use up the stitches of the shoulder")


def _each_size(
    case: Case, span: Span, figures: tuple[Figure, ...], off: Callable[[int], str | None], message: str
) -> Iterator[Said]:
    """Say for which sizes something doesn't come out; `off` gives the sum of such a size, None for the others."""
    number = number_in(figures) or 1
    sums = {size: words for size in range(number) if (words := off(size)) is not None}
    if not sums:
        return
    whose = "" if len(sums) == number else f" for {join_words([size_name(case, size) for size in sums])}"
    lines = tuple(words if number == 1 else f"{size_name(case, size)}: {words}" for size, words in sums.items())
    # the lists of a fragment may have more figures than the draft has sizes that are known
    sizes = all_or(case, list(sums)) if number == case.pattern.sizes.number else ()
    yield Said(span, f"{message}{whose}", sizes=sizes, sum=lines)


def _motif(case: Case) -> Iterator[Said]:
    for one in case.pattern.sayings.motifs:
        for size, own in enumerate(case.workings.rounds[one.round].sizes):
            if own is not None and own.before is not None and own.before < one.stitches:
                message = f"{one.stitches} sts are wanted, and {own.before} are there{for_sizes(case, [size])}"
                yield Said(one.span, message)
                break


def _resumed(case: Case) -> Iterator[Said]:
    for one in case.pattern.sayings.resumed:
        wanted = one.stopped % one.rows + 1
        if one.goes_on != wanted:
            yield Said(
                one.span, f"the pattern stopped after row {one.stopped}, so row {wanted} follows and not {one.goes_on}"
            )


def _mirrored(case: Case) -> Iterator[Said]:
    for one in case.pattern.sayings.mirrors:
        message = f'"{case.words(one.span)}" leans as the decrease that it is to mirror'
        yield Said(one.span, message, asides=(Aside(one.other, "this one"),))


def _described(case: Case) -> Iterator[Said]:
    for one in case.pattern.sayings.described:
        if one.said != one.taken and one.together:
            message = f"the name tells of {one.said} stitches worked together, and the words begin {one.taken}"
            yield Said(one.span, message)
        elif one.said != one.taken:
            verb = "is" if one.said == 1 else "are"
            yield Said(one.span, f"{one.said} {verb} said to be decreased, and the words take away {one.taken}")


def _cables(case: Case) -> Iterator[Said]:
    for one in case.pattern.sayings.cables:
        if one.worked != one.sts:
            yield Said(one.span, f"the name tells of {one.sts} sts, and the words work {one.worked}")
        elif one.slipped != one.back:
            yield Said(
                one.span, f"{one.slipped} sts are slipped to the cable needle, and {one.back} are worked from it"
            )
        elif one.held:
            other = "front" if one.held == "back" else "back"
            yield Said(one.span, f"the name tells of stitches held in {other}, and the words hold them in {one.held}")


def _sums(case: Case) -> Iterator[Said]:
    for one in case.pattern.sayings.sums:
        if _worked(case, one.span):
            continue

        def off(size: int, one: Sum = one) -> str | None:
            parts = [figure.at(size) or 0 for figure in one.parts]
            total = one.total.at(size)
            words = f"{' + '.join(str(part) for part in parts)} = {sum(parts)}, the draft says {total}"
            return words if sum(parts) != total else None

        yield from _each_size(case, one.span, (one.total, *one.parts), off, "the parts don't add up to the total")


SHAPING = Rule(
    name="shaping-does-not-come-out",
    family="counts",
    level=Level.CORRECTION,
    finds="Shaping at each end, so many times at this rate and that, that doesn't come to the count stated after it.",
    why="The maker follows the schedule and has another number of stitches than the next step needs.",
    limits="Only in one sentence with all its times, between two stated counts.",
    source=_PRACTICE,
    examples=(
        Flags("Cap: 42 sts.\n⟦Decrease 1 st each end every row 4 times, then every other row 8 times. 20 sts⟧.\n"),
        Passes("Cap: 42 sts.\nDecrease 1 st each end every row 4 times, then every other row 7 times. 20 sts.\n"),
        Passes("Cap: 42 sts.\nDecrease 1 st each end every row until 20 sts remain.\n"),
        Passes("Decrease 1 st each end every row 4 times. 20 sts.\n"),
    ),
    check=_schedule,
)

BIND_OFFS = Rule(
    name="bind-off-does-not-come-out",
    family="counts",
    level=Level.CORRECTION,
    finds="Bind-offs of a shoulder that are fewer or more than the stitches that remain for it.",
    why="A stitch is left on the needle, or there is none for the last bind-off.",
    limits="Only lines that follow the stitches which remain for a shoulder, for rows of one side.",
    source="common practice of tech editing: groups that are bound off add up",
    examples=(
        Flags(
            "20 sts rem for the shoulder.\nBind off ⟦7 sts at beg of next RS row.\n"
            "Bind off 7 sts at beg of next 2 RS rows.⟧\n"
        ),
        Passes(
            "20 sts rem for the shoulder.\nBind off 6 sts at beg of next RS row.\n"
            "Bind off 7 sts at beg of next 2 RS rows.\n"
        ),
        Passes("20 sts rem for the shoulder.\nBind off 6 sts at beg of next RS row.\n"),
        Passes("20 sts rem.\nBind off 7 sts at beg of next RS row.\nBind off 7 sts at beg of next 2 RS rows.\n"),
    ),
    check=_bind_offs,
)

MOTIF = Rule(
    name="motif-does-not-fit",
    family="counts",
    level=Level.QUERY,
    finds="A motif or panel of so many stitches, to be worked once on fewer.",
    why="The motif can't be begun.",
    limits="Only where the number of stitches stands before the motif, and the row below is known.",
    source=_PRACTICE,
    examples=(
        Flags("Cast on 22 sts.\nRow 1: Work the ⟦24-st motif once⟧.\n"),
        Passes("Cast on 24 sts.\nRow 1: Work the 24-st motif once.\n"),
        Passes("Cast on 30 sts.\nRow 1: K3, work the 24-st motif once, k3.\n"),
        Passes("Row 1: Work the 24-st motif once.\n"),
    ),
    check=_motif,
)

RESUMED = Rule(
    name="pattern-row-jumps",
    family="sequence",
    level=Level.QUERY,
    finds="A pattern of rows that stopped after one row and goes on with a row that doesn't follow it.",
    why="A step shows in the pattern where the work was divided.",
    limits="Only where the draft says after which row of how many it stopped.",
    source="common practice of tech editing",
    examples=(
        Flags("Work leg, ending with row 7 of the 12-row lace. Foot: beg with ⟦row 4⟧ of the lace.\n"),
        Passes("Work leg, ending with row 7 of the 12-row lace. Foot: beg with row 8 of the lace.\n"),
        Passes("Work leg, ending with row 12 of the 12-row lace. Foot: beg with row 1 of the lace.\n"),
        Passes("Work leg, ending with row 7 of the 12-row lace. Heel: beg with row 1 of the heel pattern.\n"),
    ),
    check=_resumed,
)

MIRRORED = Rule(
    name="mirror-leans-alike",
    family="making",
    level=Level.QUERY,
    finds="A decrease that is to mirror another and leans to the same side.",
    why="The two edges don't match.",
    limits="Only where the words say that one mirrors the other, and each names a single decrease.",
    source="rachelgibbs.co.uk/right-and-left-leaning-decreases",
    examples=(
        Flags("Left front: k to last 4 sts, k2tog, k2.\nRight front (mirror of left): k2, ⟦k2tog⟧, k to end.\n"),
        Passes("Left front: k to last 4 sts, k2tog, k2.\nRight front (mirror of left): k2, ssk, k to end.\n"),
        Passes("Left front: k to last 4 sts, k2tog, k2.\nRight front: k2, k2tog, k to end.\n"),
        Passes("Left front: k to last 4 sts, k2tog, k2.\nRight front: mirror the left.\n"),
    ),
    check=_mirrored,
)

DESCRIBED = Rule(
    name="definition-miscounts",
    family="terms",
    level=Level.QUERY,
    finds="A stitch that is said to decrease so many stitches, or whose name says how many it draws together, and that "
    "is described with more or fewer.",
    why="The maker who works it as described never comes to the counts.",
    limits="Only where the number stands in brackets with the words, or in a name that always means the same, and "
    "the words pass stitches over, work them together, or begin them in a bracket that is worked so many times.",
    source="common practice of tech editing: special stitches say what they use and leave",
    examples=(
        Flags("brLdec (2 sts decreased): ⟦sl 1 knitwise, knit next st, pass slipped st over⟧.\n"),
        Flags("sk2p: ⟦slip 1, k1, pass slipped st over⟧ (2 sts decreased)\nRow 1: K4, sk2p, k4.\n"),
        Flags(
            "dc2tog: ⟦(yo, insert hook in next st, pull up a loop, yo, draw through 2 loops) three times, yo, draw "
            "through all⟧ loops.\nRow 1: Ch 3, dc2tog, dc in next 10 sts.\n"
        ),
        Passes("dec2 (2 sts decreased): sl 1, k2tog, psso.\n"),
        Passes("sk2p: slip 1, k2tog, pass slipped st over (2 sts decreased)\nRow 1: K4, sk2p, k4.\n"),
        Passes(
            "dc2tog: (yo, insert hook in next st, pull up a loop, yo, draw through 2 loops) twice, yo, draw through "
            "all loops.\nRow 1: Ch 3, dc2tog, dc in next 10 sts.\n"
        ),
        Passes(
            "Beg 3-dc cluster: ch 3, (yo, insert hook in st, pull up a loop, yo, draw through 2 loops) twice, yo, draw "
            "through all loops.\nRow 1: Ch 3, dc2tog, dc in next 10 sts.\n"
        ),
        Passes("dec (1 st decreased): sl 1, k1, pass slipped st over.\n"),
        Passes("brk (2 sts decreased): see the chart on the next page.\n"),
    ),
    check=_described,
)

CABLES = Rule(
    name="cable-miscounts",
    family="terms",
    level=Level.QUERY,
    finds="A cable whose words work more or fewer stitches than its name tells, take back others than were slipped, or "
    "hold them on the other side.",
    why="Every row with that cable comes out wrong, and the maker can't tell whether name or words are meant.",
    limits="Only cables named by their number of stitches, with one cable needle, and neither increases nor decreases.",
    source="common practice of tech editing: special stitches say what they use and leave",
    examples=(
        Flags("C5F: ⟦sl 2 sts to cable needle and hold in front, k2, k2 from cable needle⟧.\nRow 1: K2, C5F, k2.\n"),
        Flags("2/2 RC: ⟦sl 2 to cn and hold in back, k2, k1 from cn⟧.\nRow 1: K2, 2/2 RC, k2.\n"),
        Flags("C5F: ⟦sl 2 sts to cn and hold in front, k2, k3 from cn⟧.\nRow 1: K2, C5F, k2.\n"),
        Flags("C6F: ⟦sl next 3 sts to cn and hold in back, k3, k3 from cn⟧.\nRow 1: K2, C6F, k2.\n"),
        Flags("T3B = ⟦slip next st to cn, hold at back, k3, then p1 from cn⟧.\nRow 1: K2, T3B, k2.\n"),
        Passes("T3B = slip next st to cn, hold at back, k2, then p1 from cn.\nRow 1: K2, T3B, k2.\n"),
        Passes("C5F: sl 3 sts to cable needle and hold in front, k2, k3 from cable needle.\nRow 1: K2, C5F, k2.\n"),
        Passes("T4L: sl 2 to cn and hold in front, p2, k2 from cn.\nRow 1: K2, T4L, k2.\n"),
        Passes("C5F: sl 2 sts to cn, hold in front, k2tog, k2 from cn.\nRow 1: K2, C5F, k2.\n"),
    ),
    check=_cables,
)

SUMS = Rule(
    name="parts-do-not-add-up",
    family="counts",
    level=Level.CORRECTION,
    finds="Stitches picked up or cast on part by part that don't come to the total told with them.",
    why="The maker doesn't know which of the numbers is wrong.",
    limits="Only where every number of the sentence is such a part, each told once, and the total stands with them.",
    source="common practice of tech editing: parts add up to their total",
    examples=(
        Flags("Neck: pick up and knit ⟦22 sts down left front, 1 from centre and 34 sts across back. 58 sts⟧.\n"),
        Flags("Cast on 98 sts: ⟦24 for left front, 50 for back and 25 for right front⟧.\nRow 1: Knit.\n"),
        Passes("Neck: pick up and knit 22 sts down left front, 1 from centre and 34 sts across back. 57 sts.\n"),
        Passes("Neck: pick up and knit 22 sts down each front and 34 sts across back. 78 sts.\n"),
        Passes("Cast on 98 sts: 24 for left front, 50 for back and 24 for right front.\nRow 1: Knit.\n"),
    ),
    check=_sums,
)

RULES = (SHAPING, BIND_OFFS, MOTIF, SUMS, RESUMED, MIRRORED, DESCRIBED, CABLES)
