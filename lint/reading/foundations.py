"""Foundations: the chain from which a first row starts, where it is told in the prose before it.

`A large mat takes ch 19.`, `Starting at the neck, ch 58 (62, 66).`: the row that goes into the chain shows that there
must be one, so that prose needs no more than its number.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..draft import Span
from ..figures import Figure
from ..later import later
from ..steps import At, Chain, Remark, Repeat, Ring, Step, Together, Work

MOST_LINES = 8  # with words, between the chain and the row that goes into it
LEAST_LINKS = 4

_LIST = r"\d{1,3}(?:\s*(?:[)\]][ ]*[(\[]?|[(\[,:/-])\s*\d{1,3}){0,16}\s*[)\]]?"
_CHAIN = later(
    rf"(?i)(?<![\w-])(?:(?:chain|ch)\b\.?\s*(?:of\s+)?{_LIST}|{_LIST}\s*(?:chains?|ch)\b)"
    r"(?!\s*-?\s*(?:sps?|spaces?|lps?|loops?|arch(?:es)?|sts?\b\s*=)\b)(?!\s*(?:counts?|to\s+turn))"
)
_OTHER = later(r"(?i)\b(?:gauge|tension|swatch|counts?|turning|picots?|shells?|abbreviations?)\b|=")


def wants_chain(steps: Sequence[Step]) -> bool:
    """Tell whether the first stitches go into a chain that the row doesn't make itself."""
    for step in steps:
        if isinstance(step, Work):
            return step.where.at is At.FROM_HOOK
        if isinstance(step, Chain | Ring | Repeat | Together):
            return False
    return False


def chain_told(text: str, start: int, stop: int) -> Span | None:
    """Find the last chain that is told between two places, in the lines right before the second; None without one."""
    lines = list(re.finditer(r"[^\n]+", text[start:stop]))
    told = [line for line in lines if line[0].strip()]
    for line in reversed(told[-MOST_LINES:]):
        found = [match for match in _CHAIN.finditer(line[0]) if not _OTHER.search(_sentence(line[0], match))]
        if found:
            words = found[-1][0]
            begin = start + line.start() + found[-1].start()
            closed = words.count("(") + words.count("[") >= words.count(")") + words.count("]")
            return Span(begin, begin + len(words if closed else words.rstrip(" )]")))
    return None


_SPEAKS_OF_CHAIN = later(r"(?i)\bch(?:ain)?s?\b|\bfoundation\b")


def chain_by_size(text: str, start: int, stop: int, names: Sequence[str]) -> Figure | None:
    """Read a chain told with a line for each size, `2 years: 72 ch` / `4 years: 80 ch`; None where one is missing."""
    values: list[int] = []
    first = at = start
    for name in names:
        entry = re.compile(
            rf"(?im)(?:^|(?<=[,;.:]\s)|(?<=\band\s))[^\w\n]*(?:for\s+)?(?:the\s+)?(?:sizes?\s+)?{re.escape(name)}(?:\s+size)?"
            r"\s*(?:[:=),-]|\s)\s*(?:make\s+|work\s+)?(?P<ch>ch(?:ain)?\s*)?(?P<number>\d{1,3})\s*"
            r"(?P<unit>ch(?:ains?)?|sts?|stitches)?\W*?(?:$|(?=[,;.]))"
        )
        match = entry.search(text, at, stop)
        if match is None or (values and text[at : match.start()].strip(" ,;.\n-").lower() not in ("", "and")):
            return None
        told = match["ch"] or (match["unit"] or "").lower().startswith("ch")
        before = text[max(start, text.rfind("\n", start, max(start, match.start() - 1))) : match.start()]
        if not values:
            if not told and not (match["unit"] and _SPEAKS_OF_CHAIN.search(before)):
                return None
            first = match.start("number")
        values.append(int(match["number"]))
        at = match.end()
    return Figure(tuple(values), Span(first, at)) if len(values) > 1 else None


# `The foundation chain` and on the next line `- 4 years = 80 sts`
_UNDER_TITLE = later(
    r"(?im)\b(?:foundation|starting|base|beginning)\s+ch(?:ain)?[ \t]*[:.]?[ \t]*\n[^\w\n]*(?:[\w /]{1,16}[=:][ \t]*)?"
    r"(?P<number>\d{1,3})[ \t]*(?:sts?|stitches|chains?|ch)\b[^\w\n]*$"
)


def chain_titled(text: str, start: int, stop: int) -> Figure | None:
    """Read the chain of a draft in one size that stands below the words for it; None without one."""
    match = next(_UNDER_TITLE.finditer(text, start, stop), None)
    return Figure((int(match["number"]),), Span(*match.span("number"))) if match is not None else None


def _sentence(line: str, match: re.Match[str]) -> str:
    """Return the sentence of a line that a match stands in."""
    begin = max(line.rfind(sign, 0, match.start()) for sign in ".;")
    ends = [at for sign in ".;" if (at := line.find(sign, match.end())) >= 0]
    return line[begin + 1 : min(ends, default=len(line))]


def only_chain(steps: Sequence[Step], sizes: int) -> bool:
    """Tell whether steps are one chain, long enough to be worked into in every size."""
    told = [step for step in steps if not isinstance(step, Remark)]
    if len(told) != 1 or not isinstance(told[0], Chain):
        return False
    return all((told[0].n.at(size) or LEAST_LINKS) >= LEAST_LINKS for size in range(sizes))
