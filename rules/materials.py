"""Materials: hooks and needles, yarn, colours, notions, and measures given in two units."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..lint.draft import Span
from ..lint.finding import Aside, Level
from ..lint.later import later
from ..lint.materials import Pairing, Quantity, Tool, Yarn
from ..lint.trade.goods import ToolSize, UnitPair, tools_labelled, weights, yarn_names
from ..lint.trade.measuring import factor, pair_of, rounds_to, tolerance
from ..lint.trade.tables import stitches
from ..lint.workings import Standing
from .rule import Case, Flags, Passes, Rule, Said
from .sums import join_words, size_name

_FAMILY = "materials"
_TOOLS = "Craft Yarn Council, Standards and Guidelines, hooks and needles; hook and needle charts named in the table"
_YARNS = "Craft Yarn Council, Standard Yarn Weight System; UK and Australian names by a retail chart"
_LISTS = "common practice of tech editing: every thing used is listed, every thing listed is used"
_ABOUT = 0.26  # mm by which a marked size may be off: makers round quarters


def number(value: float) -> str:
    """Write a number without needless decimals: `5`, `5.5`, `3.25`."""
    return f"{value:.2f}".rstrip("0").rstrip(".")


def body_start(case: Case) -> int:
    """Return where the first round begins: what stands before it is the head of the draft."""
    return case.pattern.rounds[0].span.start if case.pattern.rounds else len(case.draft.text)


# ---------------------------------------------------------------- hooks and needles


def _sizes_of(tool: Tool) -> tuple[ToolSize, ...]:
    """Return all sizes that a label may mean for such a tool; a bare number may be of any kind and country."""
    if tool.label is None:
        return ()
    letter = tool.label[0].isalpha()
    kinds = (tool.kind,) if tool.kind != "hook" or letter else ("hook", "steel hook", "needle")
    scale = None if letter else tool.scale
    found = [size for kind in kinds for size in tools_labelled(kind, tool.label, scale)]
    return tuple(found)


def _hook_contradicts(case: Case) -> Iterator[Said]:
    seen: set[str] = set()
    for tool in case.pattern.materials.tools:
        words = case.words(tool.span)
        if words in seen or tool.label is None:
            continue
        seen.add(words)
        noun = "needles" if tool.kind == "needle" else tool.kind
        sizes = _sizes_of(tool)
        if not sizes and "-" in tool.label:
            yield from _mixed_label(tool, words, noun)
        elif sizes and tool.mm is not None:
            known = sorted({mm for size in sizes for mm in size.mm})
            if min(abs(mm - tool.mm) for mm in known) > _ABOUT:
                sold = join_words([number(mm) for mm in known], "or")
                which = f"{noun} {tool.label} are" if tool.kind == "needle" else f"a {noun} {tool.label} is"
                yield Said(tool.span, f'"{words}": {which} {sold} mm and not {number(tool.mm)}')


def _mixed_label(tool: Tool, words: str, noun: str) -> Iterator[Said]:
    """Report a letter and a number that don't belong together: `I-8`."""
    letter, figure = (tool.label or "").split("-", 1)
    by_letter, by_number = tools_labelled("hook", letter, "US"), tools_labelled("hook", figure, "US")
    if tool.kind != "hook" or not by_letter or not by_number:
        return
    usual = [size for size in by_letter if size.number] or by_letter  # a bare letter also stands for rare sizes
    near = [one for size in usual for one in size.mm]
    other = [one for size in by_number for one in size.mm]
    if min(abs(a - b) for a in near for b in other) > _ABOUT:
        first, second = sorted(set(near))[0], sorted(set(other))[0]
        message = f'"{words}": {noun} {letter} is {number(first)} mm and {noun} {figure} is {number(second)} mm'
        yield Said(tool.span, message)


def _diameters(tool: Tool) -> tuple[float, ...]:
    return (tool.mm,) if tool.mm is not None else tuple({mm for size in _sizes_of(tool) for mm in size.mm})


def _hook_unlisted(case: Case) -> Iterator[Said]:
    start = body_start(case)
    tools = case.pattern.materials.tools
    listed = [tool for tool in tools if tool.span.start < start and _diameters(tool)]
    if not listed:
        return
    told: set[tuple[float, ...]] = set()
    for tool in tools:
        own = _diameters(tool)
        like = [other for other in listed if (other.kind == "needle") == (tool.kind == "needle")]
        if tool.span.start < start or not own or not like or own in told:
            continue
        if all(abs(mm - other) > _ABOUT for mm in own for one in like for other in _diameters(one)):
            told.add(own)
            asides = tuple(Aside(one.span, "listed here") for one in like[:3])
            yield Said(tool.span, f'"{case.words(tool.span)}" is not among the hooks or needles listed', asides=asides)


# ---------------------------------------------------------------- yarn


_ALTERNATIVES = later(r"(?i)\bor\b|\bany\b|\bto\b|/")
_DOUBLED = later(r"(?i)\b(?:double[ds]?|strands?|held|together|two|2)\b")


def _classes(yarn: Yarn) -> set[int]:
    named = yarn_names()
    return {one for name in yarn.names for one in named.get(name, ())}


def _yarn_contradicts(case: Case) -> Iterator[Said]:
    seen: set[str] = set()
    for yarn in case.pattern.materials.yarns:
        words = case.words(yarn.span)
        classes = _classes(yarn)
        if yarn.number is not None and classes and yarn.number not in classes and not _ALTERNATIVES.search(words):
            if words.lower() not in seen:
                names = join_words(list(yarn.names))
                said = join_words([str(number) for number in sorted(classes)], "or")
                yield Said(yarn.span, f'"{words}": {names} is class {said}, {_named(yarn.number)} is {yarn.number}')
            seen.add(words.lower())
    yield from _gauge_and_yarn(case)


def _named(number_: int) -> str:
    return next(weight.name for weight in weights() if weight.number == number_)


def _gauge_and_yarn(case: Case) -> Iterator[Said]:
    """Report a gauge in plain stitches that is far from what the yarn's class gives."""
    materials = case.pattern.materials
    yarns = [yarn for yarn in materials.yarns if yarn.number is not None or yarn.names]
    knit = case.pattern.craft == "knitting"
    if len(yarns) != 1 or len(materials.gauges) != 1 or _DOUBLED.search(line_of(case, yarns[0].span)):
        return
    yarn, gauge = yarns[0], materials.gauges[0]
    classes = _classes(yarn) | {number_ for number_ in (yarn.number,) if number_ is not None}
    if gauge.per_inch is None or gauge.stitch != (None if knit else "sc") or 0 in classes:
        return
    own = [weight for weight in weights() if weight.number in classes]
    if not own:
        return
    least = min((weight.knit_least if knit else weight.crochet_least) or 0 for weight in own)
    most = max((weight.knit_most if knit else weight.crochet_most) or 99 for weight in own)
    found = 4 * gauge.per_inch
    if not 0.6 * least <= found <= (1.5 if knit else 1.8) * most:
        stitch = "stitches" if knit else "sc"
        usual = f"{number(least)} to {number(most)}"
        yield Said(
            gauge.span,
            f'{number(found)} {stitch} in 4 in is far from what is usual for "{case.words(yarn.span)}", {usual}',
            asides=(Aside(yarn.span, "the yarn"),),
        )


def line_of(case: Case, span: Span) -> str:
    """Return the line of the draft that a stretch begins in."""
    text = case.draft.text
    end = text.find("\n", span.end)
    return text[text.rfind("\n", 0, span.start) + 1 : end if end >= 0 else len(text)]


def _yarn_out_of_proportion(case: Case) -> Iterator[Said]:
    sizes = case.pattern.sizes.number
    if sizes < 2:
        return
    amounts = [
        one
        for yarn in case.pattern.materials.yarns
        for one in yarn.amounts
        if len(one.values) == sizes and min(one.values) > 0 and not one.ranged
    ]
    if not amounts or amounts[0].unit == "oz":
        return  # whole ounces and balls are too coarse
    work = _work_by_size(case)
    if work is None:
        return
    from statistics import median  # noqa: PLC0415 - few drafts come so far, and each first proof would wait for it

    amount = amounts[0]
    shares = [value / done for value, done in zip(amount.values, work, strict=True)]
    usual = median(shares)
    odd = [size for size, share in enumerate(shares) if not 0.65 * usual <= share <= 1.5 * usual]
    if odd and len(odd) < sizes:
        unit = amount.unit
        lines = tuple(
            f"{size_name(case, size)}: {number(value)} {unit} for {done:.0f} stitches by height, "
            f"{100 * value / done:.1f} {unit} for a hundred"
            for size, (value, done) in enumerate(zip(amount.values, work, strict=True))
        )
        names = join_words([size_name(case, size) for size in odd])
        message = f"the yarn stated for {names} doesn't follow the stitches worked as it does for the other sizes"
        yield Said(amount.span, message, sizes=tuple(odd), sum=lines)


def _work_by_size(case: Case) -> list[float] | None:
    """Return the stitches worked a size, each by its height; None where a round isn't worked or is measured."""
    heights = {stitch.id: max(1, stitch.height) for stitch in stitches(case.pattern.craft or "crochet")}
    done = [0.0] * case.pattern.sizes.number
    for round_, working in zip(case.pattern.rounds, case.workings.rounds, strict=True):
        if working.standing is Standing.UNREAD or getattr(round_.directive, "measured", False):
            return None
        for size, own in enumerate(working.sizes):
            if own is not None and own.count is not None:
                kinds = [(heights.get(kind, 1), many) for kind, many in own.kinds if many > 0]
                total = sum(many for _, many in kinds)
                height = sum(tall * many for tall, many in kinds) / total if total else 1.0
                done[size] += own.count * own.rounds * height
    return done if done and min(done) > 0 else None


# ---------------------------------------------------------------- two units


def _conversion_differs(case: Case) -> Iterator[Said]:
    for pairing in case.pattern.materials.pairings:
        pair, large, small = _in_order(pairing)
        if pair is None:
            continue
        off = [
            (first, second)
            for first, second in zip(large.values, small.values, strict=True)
            if first > 0 and second > 0 and not rounds_to(pair, first, second)
        ]
        if not off or (len(off) > 1 and any(_shifted(pair, large.values, small.values))):
            continue
        first, second = off[0]
        exact = first * factor(pair.first, pair.second)
        sums = tuple(_conversion(pair, a, b) for a, b in off[:4])
        more = f" and {len(off) - 1} more" if len(off) > 1 else ""
        message = (
            f"{number(first)} {pair.first} is {number(round(exact, 1))} {pair.second} and not {number(second)}{more}, "
            f"which is more than rounding ({number(round(tolerance(pair, first), 1))} {pair.second})"
        )
        yield Said(pairing.span, message, sum=sums)


def _conversion(pair: UnitPair, value: float, printed: float) -> str:
    """Write a conversion as a maker would check it."""
    ratio = factor(pair.first, pair.second)
    exact = number(round(value * ratio, 1))
    return f"{number(value)} {pair.first} x {ratio:.4g} = {exact} {pair.second}, the draft says {number(printed)}"


def _in_order(pairing: Pairing) -> tuple[UnitPair | None, Quantity, Quantity]:
    first, second = pairing.first, pairing.second
    if (pair := pair_of(first.unit, second.unit)) is not None:
        return pair, first, second
    return pair_of(second.unit, first.unit), second, first


def _shifted(pair: UnitPair, first: Sequence[float], second: Sequence[float]) -> Iterator[bool]:
    """Tell for each number whether it fits another of the other list: then the lists are of different things."""
    yield not any(rounds_to(pair, a, b) for a, b in zip(first, second, strict=True)) and len(first) > 2


# ---------------------------------------------------------------- the rules

_HEAD = "Cap\nMaterials: DK wool, 4 mm hook\n"
_ROUNDS = "Rnd 1: Ch 2, 6 sc in 2nd ch from hook. (6)\nRnd 2: 2 sc in each sc. (12)\n"
_TWO = "Cap, sizes S (M)\n"
_TWO_ROUNDS = (
    "Rnd 1: 6 (12) sc in magic ring. 6 (12) sc.\nRnd 2: 2 sc in each sc. 12 (24) sc.\n"
    "Rnd 3: sc in each sc. 12 (24) sc.\n"
)

HOOK_SIZE_CONTRADICTS = Rule(
    name="hook-size-contradicts",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="A hook or needles with a letter, a number and millimetres that don't belong together.",
    why="A maker buys by the label or by the millimetres, and one of them gives another fabric.",
    limits="All diameters sold under a label are accepted, within a quarter of a millimetre. A number without a "
    "country may be US or old UK, and a hook may be of steel. Silent for labels that the table doesn't have.",
    source=_TOOLS,
    examples=(
        Flags(f"Cap\n⟦I-9 (5 mm)⟧ hook\n\n{_ROUNDS}"),
        Flags(f"Cap\n⟦4.0 mm (J)⟧ crochet hook\n\n{_ROUNDS}"),
        Flags("Scarf\n⟦US 8 (4 mm)⟧ needles\n\nCast on 20 sts.\nRow 1: Knit. 20 sts.\n"),
        Flags(f"Cap\nHook ⟦I-8 (5.5 mm)⟧\n\n{_ROUNDS}"),
        Passes(f"Cap\nG-6 (4.25 mm) hook\n\n{_ROUNDS}"),
        Passes(f"Cap\n4 mm (No. 8) hook\n\n{_ROUNDS}"),
        Passes(f"Cap\nN (10 mm) hook, 6 mm safety eyes\n\n{_ROUNDS}"),
        Passes("Scarf\n4 mm (UK 8) needles\n\nCast on 20 sts.\nRow 1: Knit. 20 sts.\n"),
    ),
    check=_hook_contradicts,
)

HOOK_UNLISTED = Rule(
    name="hook-unlisted",
    family=_FAMILY,
    level=Level.QUERY,
    finds="The rounds ask for a hook or needles of a size that the materials don't list.",
    why="A maker finds out in the middle of the work that a tool is missing.",
    limits="Silent where the materials list none, and where the sizes differ by no more than makers round.",
    source=_LISTS,
    examples=(
        Flags(f"{_HEAD}\n{_ROUNDS}Change to the ⟦5 mm⟧ hook.\nRnd 3: sc in each sc. (12)\n"),
        Flags(f"Cap\nG hook\n\n{_ROUNDS}Change to ⟦J⟧ hook.\nRnd 3: sc in each sc. (12)\n"),
        Passes(f"Cap\n4 mm and 5 mm hooks\n\n{_ROUNDS}Change to the 5 mm hook.\nRnd 3: sc in each sc. (12)\n"),
        Passes(f"Cap\nH-8 hook\n\n{_ROUNDS}Change back to the 5 mm hook.\nRnd 3: sc in each sc. (12)\n"),
        Passes(f"Cap\nDK wool\n\n{_ROUNDS}Change to the 5 mm hook.\nRnd 3: sc in each sc. (12)\n"),
    ),
    check=_hook_unlisted,
)

YARN_WEIGHT_CONTRADICTS = Rule(
    name="yarn-weight-contradicts",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A yarn with a class number and a name that don't belong together, or a gauge far from both.",
    why="A maker who goes by the number buys another yarn than one who goes by the name.",
    limits="A name that charts put into several classes may be any of them; alternatives joined by or are passed over. "
    "A gauge is compared only in single crochet and in plain knitting, with one yarn that is not held double, and "
    "speaks only where it is far off: the ranges are guidelines, and firm fabric for toys is usual.",
    source=_YARNS,
    examples=(
        Flags(f"Cap\n⟦Worsted weight (3)⟧ yarn\n\n{_ROUNDS}"),
        Flags(f"Cap\n⟦Category 5 sport⟧ yarn\n\n{_ROUNDS}"),
        Flags(f"Cap\nDK yarn\n⟦Gauge: 5 sc = 4 in⟧\n\n{_ROUNDS}"),
        Passes(f"Cap\nLight worsted weight (3) yarn\n\n{_ROUNDS}"),
        Passes(f"Cap\n4 ply yarn (2)\n\n{_ROUNDS}"),
        Passes(f"Cap\nAran or bulky yarn (5)\n\n{_ROUNDS}"),
        Passes(f"Bear\nWorsted (4) yarn\nGauge: 20 sc = 4 in\n\n{_ROUNDS}"),
    ),
    check=_yarn_contradicts,
)

YARN_OUT_OF_PROPORTION = Rule(
    name="yarn-out-of-proportion",
    family=_FAMILY,
    level=Level.QUERY,
    finds="The yarn stated for a size doesn't follow the stitches worked for it as it does for the other sizes.",
    why="A maker runs out of yarn, or buys far too much.",
    limits="Compared only where every round is worked for every size and none goes by a measurement. Stitches are "
    "weighed by their height. Silent for differences below a third, for ounces and for balls.",
    source="common practice of tech editing: yarn rises with the stitches",
    examples=(
        Flags(f"{_TWO}Wool, ⟦20 (90) m⟧\n\n{_TWO_ROUNDS}"),
        Passes(f"{_TWO}Wool, 20 (40) m\n\n{_TWO_ROUNDS}"),
        Passes(f"{_TWO}Wool, 25 (40) m\n\n{_TWO_ROUNDS}"),
        Passes(f"{_TWO}Wool, 20 (90) m\n\n{_TWO_ROUNDS}Rnd 4: Twirl. (24)\n"),
        Passes(f"{_TWO}Wool, 1 (4) oz\n\n{_TWO_ROUNDS}"),
    ),
    check=_yarn_out_of_proportion,
)

CONVERSION_DIFFERS = Rule(
    name="conversion-differs",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="A measure in two units that are not the same: inches and centimetres, yards and metres, ounces and grams.",
    why="A maker who goes by the one makes another size, or buys too little, than one who goes by the other.",
    limits="Customary rounding is accepted, and both ratios for inches, 2.5 and 2.54; how much is accepted is said. "
    "Silent where whole lists have nothing in common, which are then of different things.",
    source="16 CFR 500.19 (conversion factors); rounding as usual in print",
    examples=(
        Flags(f"Cap\nHead: ⟦15 in (36 cm)⟧\n\n{_ROUNDS}"),
        Flags(f"Cap\nAround: ⟦17 (19, 21) in / 43 (48, 55) cm⟧\n\n{_ROUNDS}"),
        Flags(f"Cap\nWool, ⟦100 yds (110 m)⟧\n\n{_ROUNDS}"),
        Flags(f"Cap\nWool, ⟦3.5 oz (50 g)⟧\n\n{_ROUNDS}"),
        Passes(f"Cap\nGauge: 14 sc = 4 in / 10 cm\n\n{_ROUNDS}"),
        Passes(f"Cap\nWool, 1.75 oz/50 g, 250 yds (228 m)\n\n{_ROUNDS}"),
        Passes(f"Mat\nAbout 9 x 12 in (23 x 30 cm). Head 20 in = 51 cm\n\n{_ROUNDS}"),
        Passes(f"Cap\nWool, 1 oz (25 g) balls\n\n{_ROUNDS}"),
    ),
    check=_conversion_differs,
)

RULES = (
    HOOK_SIZE_CONTRADICTS,
    HOOK_UNLISTED,
    YARN_WEIGHT_CONTRADICTS,
    YARN_OUT_OF_PROPORTION,
    CONVERSION_DIFFERS,
)
