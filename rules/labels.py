"""Labels: what a yarn is spun of, and which edition of the draft this is."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Iterator

from ..lint.finding import Aside, Level
from .materials import number
from .rule import Case, Flags, Passes, Rule, Said

_ROUNDING = 1.0  # per cent by which three rounded thirds may miss the whole


def _blend_differs(case: Case) -> Iterator[Said]:
    for blend in case.pattern.materials.blends:
        total = sum(share for _, share in blend.parts)
        if len(blend.parts) > 1 and abs(total - 100) > _ROUNDING:
            shares = " + ".join(number(share) for _, share in blend.parts)
            yield Said(
                blend.span,
                f"the shares of the fibres come to {number(total)}% and not to 100%",
                sum=(f"{shares} = {number(total)}",),
            )


def _editions_differ(case: Case) -> Iterator[Said]:
    editions = case.pattern.materials.editions
    first = next((one for one in editions if one.version is not None), None)
    for one in editions:
        if first is not None and one.version is not None and one.version != first.version:
            aside = Aside(first.span, "the other version")
            yield Said(one.span, f"version {one.version} here, version {first.version} before", asides=(aside,))
            break
    for one in editions:
        if one.date is not None and not _exists(*one.date):
            yield Said(one.span, f'there is no such day as "{case.words(one.span)}"')


def _exists(year: int, month: int, day: int) -> bool:
    return 1 <= month <= 12 and day <= monthrange(year, month)[1]


_ROUNDS = "Rnd 1: Ch 2, 6 sc in 2nd ch from hook. (6)\nRnd 2: 2 sc in each sc. (12)\n"

BLEND_DIFFERS = Rule(
    name="fibres-do-not-add-up",
    family="materials",
    level=Level.QUERY,
    finds="A yarn whose fibres, by their shares in per cent, come to more or less than the whole.",
    why="A maker who looks for another yarn, or can't wear one of the fibres, goes by these figures.",
    limits="Only where two fibres or more are named with their shares in one breath. One per cent is rounding.",
    source="arithmetic: the shares of a label come to a hundred",
    examples=(
        Flags(f"Cap\nYarn: ⟦75% wool, 20% nylon⟧\n\n{_ROUNDS}"),
        Passes(f"Cap\nYarn: 75% wool, 25% nylon\n\n{_ROUNDS}"),
        Passes(f"Cap\nYarn: 33% wool, 33% silk, 33% alpaca\n\n{_ROUNDS}"),
        Passes(f"Cap\nYarn: at least 50% wool; 100% cotton for the trim\n\n{_ROUNDS}"),
    ),
    check=_blend_differs,
)

EDITIONS_DIFFER = Rule(
    name="editions-differ",
    family="materials",
    level=Level.QUERY,
    finds="Two versions named in one draft, or a date that doesn't exist.",
    why="Makers and testers say by it which corrections they have.",
    limits="Only lines that say little else. A list of what was changed in which version is none.",
    source="common practice of tech editing: every page names the same version",
    examples=(
        Flags(f"Cap\nVersion 2.1\n\n{_ROUNDS}\n⟦Version 2.0⟧\n"),
        Flags(f"Cap\nRevised ⟦31 June 2025⟧\n\n{_ROUNDS}"),
        Passes(f"Cap\nVersion 2.1, 3 May 2025\n\n{_ROUNDS}\nVersion 2.1\n"),
        Passes(f"Cap\nVersion 2.1\n\n{_ROUNDS}\nVersion 2.0: the brim was longer\n"),
        Passes(f"Cap\nRevised 29 February 2024\n\n{_ROUNDS}"),
    ),
    check=_editions_differ,
)

RULES = (BLEND_DIFFERS, EDITIONS_DIFFER)
