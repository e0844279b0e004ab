"""Counts told in sentences: stitches divided among parts or needles, repeats of so many stitches, rows of a chart."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ..lint.draft import Span
from ..lint.finding import Level
from ..lint.later import later
from ..lint.pattern import Round
from ..lint.steps import At, Remark, Work
from .rule import Case, Flags, Passes, Rule, Said
from .sums import for_sizes

_FAMILY = "counts"
_PRACTICE = "common practice of tech editing: parts add up to the whole, and repeats multiply to it"
_LIST = r"\d{1,4}(?:[ \t]*(?:[)\]][ \t]*[(\[]|[(\[,:/-])[ \t]*\d{1,4}){0,16}(?:[ \t]*[)\]])?"
_DIGITS = later(r"\d+")
_SMALL_NUMBERS = {"two": 2, "three": 3, "four": 4, "five": 5, "once": 1, "twice": 2, "thrice": 3}


def _values(words: str) -> list[int]:
    return [int(one) for one in _DIGITS.findall(words)]


def _at(values: Sequence[int], size: int) -> int:
    return values[size] if size < len(values) else values[-1]


def _number(words: str) -> int:
    return int(words) if words.isdigit() else _SMALL_NUMBERS[words.lower()]


def _sizes_of(lists: Sequence[Sequence[int]]) -> int:
    """Return how many figures the lists have, 0 where they differ."""
    lengths = {len(values) for values in lists if len(values) > 1}
    return 0 if len(lengths) > 1 else max(lengths, default=1)


# ---------------------------------------------------------------- divided among parts

_SENTENCE = later(r"[^\n.]+")
_PART_NAMES = (
    r"(?:(?:left|right|first|second|center|centre|upper|lower|front|back|each)\s+){0,2}"
    r"(?:fronts?|backs?|sleeves?|necks?|neckline|body|heel|instep|thumb|hand|palm|legs?|sides?|shoulders?|yoke|collar|flap|sole)"
)
_SHARE = later(
    rf"(?i)(?<![\w.-])(?:k|p|knit|sc|work|next|first|last|rem(?:aining)?)?\s?(?P<list>{_LIST})[ \t]*(?:sts?\b|sc\b|dc"
    rf"\b|hdc\b)?[^.,;:\d\n]{{0,70}}?"
    rf"\bfor\s+(?:the\s+)?(?P<part>{_PART_NAMES})\b"
)
_NO_DIVISION = later(
    r"(?i)\b(?:cast|co|chain|ch|pick|each|both|twice|times|evenly|dec\w*|inc\w*|size|sizes|bind|rep(?:eat)?|bo)\b"
)
_TOLD_BEFORE = later(rf"(?<![\w.])(?P<list>{_LIST})[ \t]*(?:sts|stitches|sc|dc|hdc)\b[^\n]{{0,24}}\n?[^\n]{{0,12}}$")


def _division(case: Case) -> Iterator[Said]:
    if not case.says(" for "):
        return
    for sentence in _SENTENCE.finditer(case.draft.text):
        shares = [*_SHARE.finditer(case.draft.text, *sentence.span())]
        told = [*re.finditer(_LIST, sentence[0])]
        if len(shares) < 3 or len(shares) != len(told) or _NO_DIVISION.search(sentence[0]):
            continue
        parts = [_values(share["list"]) for share in shares]
        wholes = [*_wholes(case, sentence.start(), _sizes_of(parts))]
        sums = [sum(_at(part, size) for part in parts) for size in range(_sizes_of(parts))]
        if not wholes or not sums or any(sums == whole for whole in wholes):
            continue
        size = next(n for n, total in enumerate(sums) if total != wholes[-1][n])
        line = f"{' + '.join(str(_at(part, size)) for part in parts)} = {sums[size]}, there are {wholes[-1][size]}"
        span = Span(shares[0].start("list"), shares[-1].end())
        whose = for_sizes(case, [size]) if len(sums) == case.pattern.sizes.number else ""
        yield Said(span, f"the parts come to {sums[size]} sts{whose}, and {wholes[-1][size]} are there", sum=(line,))


def _wholes(case: Case, start: int, sizes: int) -> Iterator[list[int]]:
    """Yield what is known of the stitches there are before a sentence: the count told last, the row worked last."""
    rounds = case.pattern.rounds
    before = [index for index, round_ in enumerate(rounds) if round_.heading.start <= start]
    inside = bool(before) and start < rounds[before[-1]].span.end and rounds[before[-1]].heading.end >= start - 4
    told = _TOLD_BEFORE.search(
        case.draft.text, max(0, start - 90), rounds[before[-1]].heading.start if inside else start
    )
    if told is not None and len(values := _values(told["list"])) in (1, sizes):
        yield [_at(values, size) for size in range(sizes)]
    if not before or sizes not in (1, case.pattern.sizes.number):
        return
    owns = case.workings.rounds[before[-1]].sizes
    counts = [None if own is None else own.before if inside else own.count if own.sure else None for own in owns]
    known = [count for count in counts if count is not None]
    if len(known) == len(counts) == sizes:
        yield known


# ---------------------------------------------------------------- needles, repeats, rows of a chart

_ON_NEEDLES = later(
    rf"(?i)(?<![\w.])(?P<n>{_LIST})[ \t]*sts\b[^.\n]{{0,50}}?\b(?:over|on|onto|among|across|between)\s+(?:the\s+)?"
    rf"(?P<k>\d|two|three|four|five)"
    rf"\s+(?:\w+[- ]){{0,2}}(?:needles|dpns?)\W{{1,4}}(?P<m>{_LIST})[ \t]*(?:sts?\s+)?(?:on\s+|per\s+)?each\b"
)
_EACH_NEEDLE = later(
    r"(?i)\bcast\s+on\s+(?P<n>\d{1,3})[ \t]*sts\s*[(,-]\s*(?P<m>\d{1,3})\s*(?:sts?\s+)?(?:on|per)\s+each\s+"
    r"(?:needle|dpn)\b"
)
_PRODUCT = later(
    rf"(?i)(?<![\w.])(?P<n>{_LIST})[ \t]*(?:sts|stitches|ch|chains)\b\W{{1,4}}(?:that\s+is\s+|i\.e\.\s+|=\s*)?"
    rf"(?P<k>{_LIST})[ \t]*"
    r"(?:(?:pattern\s+)?(?:repeats|reps)|times)\s+(?:of\s+)?(?:the\s+)?(?P<m>\d{1,3})[ \t-]*(?:sts?|stitch(?:es)?)(?:"
    r"\s+each)?\s*[.;:)\n]"
)


def _products(case: Case) -> Iterator[Said]:
    if not case.says("needles", "dpn", "repeats of", "reps of", "times ", "each needle"):
        return
    for pattern, noun in ((_ON_NEEDLES, "needles"), (_PRODUCT, "repeats")):
        for match in pattern.finditer(case.draft.text):
            lists = [_values(match["n"]), [_number(match["k"])] if match["k"].isalpha() else _values(match["k"])]
            lists.append(_values(match["m"]))
            for size in range(_sizes_of(lists)):
                total, often, unit = (_at(values, size) for values in lists)
                if total != often * unit:
                    line = f"{often} x {unit} = {often * unit}, the draft says {total}"
                    message = f"{often} {noun} of {unit} sts are {often * unit} sts, the draft says {total}"
                    yield Said(Span(*match.span("n")), message, sum=(line,))
                    break
    for match in _EACH_NEEDLE.finditer(case.draft.text):
        total, each = int(match["n"]), int(match["m"])
        if each and total % each:
            line = f"{total} / {each} = {total // each}, {total % each} left over"
            yield Said(Span(*match.span("n")), f"{total} sts can't be {each} on each needle", sum=(line,))


_ROWS_TIMES = later(
    r"(?i)\b(?:rows?|rnds?|rounds?)\s+(?P<a>\d{1,3})\s*(?:-|\u2013|to|through)\s*(?P<b>\d{1,3})\b"
    r"(?P<of>[^.,;\n\d]{0,30}?)\b(?P<often>once|twice|thrice|\d{1,2}\s+times)\b(?P<more>\s+more)?"
)
_ROWS_ALL = later(
    r"(?i)(?<![\w.-])(?P<n>\d{1,3})\s+(?:rows|rnds|rounds)\s+(?:in\s+(?:all|total)|altogether|total)\b|\btotal\s+of"
    r"\s+(?P<t>\d{1,3})\s+(?:rows|rnds|rounds)\b"
)


def _rows_of_chart(case: Case) -> Iterator[Said]:
    if not case.says("in all", "total", "altogether"):
        return
    for sentence in _SENTENCE.finditer(case.draft.text):
        groups = [*_ROWS_TIMES.finditer(sentence[0])]
        total = _ROWS_ALL.search(sentence[0])
        if len(groups) < 2 or total is None or len(_DIGITS.findall(sentence[0])) > 3 * len(groups) + 1:
            continue
        if groups[0]["more"]:
            continue
        parts = [(int(one["b"]) - int(one["a"]) + 1, _often(one["often"])) for one in groups]
        rows = sum(length * often for length, often in parts)
        said = int(total["n"] or total["t"])
        if rows != said and all(length > 0 for length, _ in parts):
            line = " + ".join(f"{length} x {often}" for length, often in parts) + f" = {rows}"
            start = sentence.start() + total.start("n" if total["n"] else "t")
            message = f"these rows are {rows} in all, the draft says {said}"
            yield Said(Span(start, start + len(str(said))), message, sum=(line,))


def _often(words: str) -> int:
    return _number(words.split(maxsplit=1)[0])


# ---------------------------------------------------------------- held, and left on each side

_HELD = later(
    r"(?i)(?<![\w.])(?<!last )(?<!first )(?<!these )(?P<before>\d{1,3})[ \t]*sts[.,;:][^\n\d]{0,40}?(?P<held>\d{1,3})"
    r"\s+sts\b[^.\n\d]{0,30}?\b(?:holder|waste\s+yarn|hold|stitch\s+holder)\b"
    r"[^.\n\d]{0,40}\.\s*\(?(?P<after>\d{1,3})[ \t]*sts\b"
)
_LAST_HELD = later(
    r"(?i)(?<![\w.])(?P<before>\d{1,3})[ \t]*sts[.,;:][^\n\d]{0,30}?\bto\s+(?:the\s+)?last\s+(?P<held>\d{1,3})\s+sts"
    r"\b[^.\n\d]{0,20}?\bplace\s+(?:these\s+)?(?P=held)?[^.\n\d]{0,20}?"
    r"\b(?:holder|waste\s+yarn|hold)\b[^.\n\d]{0,40}\.\s*\(?(?P<after>\d{1,3})[ \t]*sts\b"
)


def _held_differs(case: Case) -> Iterator[Said]:
    if not case.says("hold", "waste yarn"):
        return
    seen: set[int] = set()
    for pattern in (_LAST_HELD, _HELD):
        for match in pattern.finditer(case.draft.text):
            before, held, after = (int(match[name]) for name in ("before", "held", "after"))
            if match.start() in seen or _worked_there(case, match.start("held")):
                continue
            seen.add(match.start())
            if before - held != after:
                line = f"{before} - {held} = {before - held}, the draft says {after}"
                yield Said(Span(*match.span("held")), f"{before} sts less {held} are {before - held}", sum=(line,))


def _worked_there(case: Case, at: int) -> bool:
    return any(
        round_.span.start <= at < round_.span.end
        and any(own is not None and own.agrees is not None for own in working.sizes)
        for round_, working in zip(case.pattern.rounds, case.workings.rounds, strict=True)
    )


_EACH_SIDE = later(
    rf"(?i)\b(?:each|both)\s+(?:shoulder|side|front)s?\s+(?:now\s+)?(?:has|have)\s+(?P<list>{_LIST})[ \t]*sts\b|"
    rf"(?<![\w.])(?P<rem>{_LIST})[ \t]*sts\s+(?:rem(?:ain(?:ing)?)?\s+)?(?:(?:on|at|for)\s+)?each\s+"
    rf"(?:shoulder|side|front)\b"
)


def _each_side(case: Case) -> Iterator[Said]:
    """Compare what is told of each side with the row before it, which bound off or held its middle stitches."""
    if not case.says("each ", "both "):
        return
    for match in _EACH_SIDE.finditer(case.draft.text):
        before = [index for index, round_ in enumerate(case.pattern.rounds) if round_.span.start < match.start()]
        told = _values(match["list"] or match["rem"])
        if not before or len(told) not in (1, case.pattern.sizes.number):
            continue
        round_, working = case.pattern.rounds[before[-1]], case.workings.rounds[before[-1]]
        text = case.draft.text[round_.span.start : match.start()]
        if round_.claims or len(_MIDDLE.findall(text)) != 1 or text.count("\n") > 1:
            continue
        for size, own in enumerate(working.sizes):
            said = _at(told, size)
            if own is None or not own.sure or own.count is None:
                continue
            first = _before_middle(round_, size)
            sides = (first, own.count - first) if first is not None else (said, own.count - said)
            if sides == (said, said):
                continue
            message = (
                f"the sides have {sides[0]} and {sides[1]} sts{for_sizes(case, [size])}, the draft says {said} each"
            )
            line = f"{own.count} sts are left: {sides[0]} + {sides[1]}"
            yield Said(Span(*match.span("list" if match["list"] else "rem")), message, sum=(line,))
            break


def _before_middle(round_: Round, size: int) -> int | None:
    """Return the stitches worked before those that are bound off, None where they aren't told one by one."""
    total = 0
    for step in round_.steps:
        if isinstance(step, Remark):
            continue
        if not isinstance(step, Work) or step.where.at is not At.NEXT or step.where.number is None:
            return None
        if step.make.kind.startswith("bo") or not step.make.makes:
            return total or None
        number = step.where.number.at(size)
        if number is None:
            return None
        total += number * step.make.makes
    return None


_MIDDLE = later(r"(?i)\b(?:bind(?:ing)?\s+off|cast(?:ing)?\s+off|bo|holder)\b")


# ---------------------------------------------------------------- the rules

DIVISION = Rule(
    name="division-differs",
    family=_FAMILY,
    level=Level.QUERY,
    finds="Stitches divided among three parts or more that don't come to the stitches there are.",
    why="A stitch is left on the needle, or one part gets fewer than its instructions need.",
    limits="Only where every number of the sentence is such a part, and the stitches before it are told or worked.",
    source=_PRACTICE,
    examples=(
        Flags("98 sts.\nDivide: ⟦28 sts for left front, 40 sts for back, 28 sts for right front⟧.\n"),
        Flags(
            "Yoke: 140 sts.\nDivide: work ⟦38 sts for right front, place next 62 sts on holder for back, "
            "place rem 38 sts on another holder for left front⟧.\n"
        ),
        Passes("98 sts.\nDivide: 28 sts for left front, 42 sts for back, 28 sts for right front.\n"),
        Passes("98 sts.\nCast on 28 sts for left front, 40 sts for back, 28 sts for right front.\n"),
        Passes("Divide: 28 sts for left front, 40 sts for back, 28 sts for right front.\n"),
        Passes("98 sts.\nDivide: 28 sts for each front, 42 sts for back, 14 sts for sleeve.\n"),
    ),
    check=_division,
)

PRODUCT = Rule(
    name="shares-do-not-multiply",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="So many stitches told with so many repeats, or needles, of so many each, and the one isn't the product of "
    "the others.",
    why="One of the three numbers is wrong, and a maker can't tell which.",
    limits="Only where all of them stand together, and nothing is added at the edges.",
    source=_PRACTICE,
    examples=(
        Flags("⟦126⟧ sts, 16 repeats of 8 sts.\nRnd 1: *K5, p3; rep from * to end.\n"),
        Flags("Toe: cast on ⟦22⟧ sts (12 on each needle).\nRnd 1: Knit.\n"),
        Flags("CO ⟦64⟧ sts, divide over 4 needles (15 sts on each).\nRnd 1: Knit.\n"),
        Passes("128 sts, 16 repeats of 8 sts.\nRnd 1: *K5, p3; rep from * to end.\n"),
        Passes("Toe: cast on 24 sts (12 on each needle).\nRnd 1: Knit.\n"),
        Passes("129 sts, 16 repeats of 8 sts plus 1.\nRow 1: *K5, p3; rep from * to last st, k1.\n"),
        Passes("CO 64 sts, divide over 4 needles (16 sts on each).\nRnd 1: Knit.\n"),
    ),
    check=_products,
)

ROWS_OF_CHART = Rule(
    name="rows-told-differ",
    family="sequence",
    level=Level.CORRECTION,
    finds="Rows of a chart or pattern worked so many times, with a number of rows in all that they don't come to.",
    why="The maker stops at another row than was meant.",
    limits="Only where one sentence tells each group of rows with its times, and their number in all.",
    source=_PRACTICE,
    examples=(
        Flags("Work rows 1-16 of chart A twice, then rows 1-10 once more, ⟦40⟧ rows in all.\n"),
        Passes("Work rows 1-16 of chart A twice, then rows 1-10 once more, 42 rows in all.\n"),
        Passes("Work rows 1-16 of chart A twice, then rows 1-10 once more.\n"),
        Passes("Work rows 1-16 of chart A, 40 rows in all.\n"),
    ),
    check=_rows_of_chart,
)

HELD = Rule(
    name="held-stitches-miscounted",
    family=_FAMILY,
    level=Level.QUERY,
    finds="Stitches put on a holder that, taken from those before, don't leave the number told after them.",
    why="The part that waits and the part that goes on no longer fit together.",
    limits="Only within one line that tells all three numbers.",
    source=_PRACTICE,
    examples=(
        Flags("Right front: 42 sts. Work ⟦6⟧ sts and place on a holder, work to end. 34 sts.\n"),
        Flags("Left front: 42 sts. Work to last ⟦6⟧ sts, place these 6 sts on a holder. 34 sts.\n"),
        Passes("Right front: 42 sts. Work 8 sts and place on a holder, work to end. 34 sts.\n"),
        Passes("Left front: 42 sts. Work to last 8 sts, place these 8 sts on a holder. 34 sts.\n"),
        Passes("Right front: 42 sts. Work 6 sts and place on a holder, work to end.\n"),
    ),
    check=_held_differs,
)

EACH_SIDE = Rule(
    name="sides-do-not-halve",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A number of stitches told for each side or shoulder that is not half of what the row before it leaves.",
    why="One side gets more stitches than the other, or the neck is a stitch too wide.",
    limits="Only behind a row that was worked, states no count of its own, and binds off or holds stitches once.",
    source=_PRACTICE,
    examples=(
        Flags(
            "Cast on 96 sts.\nRow 1: Knit.\nNeck row: K34, bind off 30 sts, k to end.\nEach shoulder has ⟦32⟧ sts.\n"
        ),
        Passes("Cast on 96 sts.\nRow 1: Knit.\nNeck row: K33, bind off 30 sts, k to end.\nEach shoulder has 33 sts.\n"),
        Flags(
            "Cast on 96 sts.\nRow 1: Knit.\nNeck row: K34, bind off 30 sts, k to end.\nEach shoulder has ⟦33⟧ sts.\n"
        ),
        Passes("Cast on 96 sts.\nRow 1: Knit.\nEach shoulder has 32 sts.\n"),
        Passes("Neck row: K34, bind off 30 sts, k to end.\nEach shoulder has 32 sts.\n"),
    ),
    check=_each_side,
)

RULES = (DIVISION, PRODUCT, ROWS_OF_CHART, HELD, EACH_SIDE)
