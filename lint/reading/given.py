"""Given counts: how many stitches are on the needle or hook, where a draft tells it between its rounds.

`60 sts.`, `Cuff: 40 sts in k2, p2 rib.`, `25 heel sts and 23 instep sts.`: a piece that is shown from its middle goes
on from there.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from ..draft import Span
from ..figures import Figure
from ..later import later
from ..pattern import Given, Round

_LIST = r"\d{1,4}(?:[ \t]*(?:[)\]][ \t]*[(\[]|[(\[,:/-])[ \t]*\d{1,4}){0,16}[ \t]*[)\]]?"
_UNIT = r"(?:sts?|stitches|sc|hdc|dc|h?tr|dtr)\b(?!\s*(?:each|from|at|before|to\s|in\s+(?:next|each|the\s+next)|=|/))"
_COUNT = later(
    rf"(?i)(?<![\w.,+x=-])(?<!\bover )(?<!\bnext )(?<!\blast )(?<!\bfirst )(?P<list>{_LIST})\s*"
    rf"(?:[a-z]+[ \t]+)?{_UNIT}"
)
_SENTENCE = later(r"[^.;\n]+(?:(?:\.(?=\d)|\n(?=[a-z]))[^.;\n]*)*")
_AND = later(r"(?i)\s*(?:,|and|\+|&|,\s*and)\s*$")
_OTHER = later(
    r"(?i)\b(?:gauge|tension|multiples?|inch(?:es)?|cm|hooks?|if|rep(?:eat)?|work|pick|decrease|increase|dec|inc|bind|cast|chain|ch|"
    r"pattern|panels?|lace|motif|st\s+pattern|every|skip|miss|place|slip|leave|holders?|leaving|means?|until|worked\s+over|counts?|"
    r"total(?:s|led)?|repeat|first|last|next|between)\b|=|\"|\*"
)
_DIGITS = later(r"\d+")
_FIGURED = later(r"[\d\n]")
_EVEN = later(
    r"(?i)\W*(?:(?:then|now)\s+)?(?:knit|purl|work|rib|k|p)\s+(?:even\s+(?:for\s+)?)?(?:\d{1,3}|one|two|three|four|five|six|eight|ten)\s+"
    r"(?:more\s+)?(?:rounds?|rnds?|rows?)(?:\s+(?:even|plain|in\s+\w+(?:\s+\w+)?))?\W*"
)
_LEADS = later(rf"\s*(?P<count>{_LIST}[ \t]*{_UNIT})\s*:")
_OVER = later(r"(?i)\bover\s+(?P<count>\d{1,4})\s+st(?:s|itches)")


def given_counts(text: str, talk: Sequence[Span], rounds: Sequence[Round], sizes: int) -> Iterator[Given]:
    """Find the counts that are told right before a round; `talk` are the stretches outside the rounds, in order."""
    for index, round_ in enumerate(rounds):
        after = rounds[index - 1].span.end if index else 0
        before = [span for span in talk if after <= span.start and span.end <= round_.span.start]
        if before and not _FIGURED.search(text, before[-1].start, round_.span.start):
            before.pop()  # the name of the part on the round's own line
        while before and _EVEN.fullmatch(text, before[-1].start, before[-1].end):
            before.pop()
        if over := _OVER.search(text, round_.heading.start, round_.heading.end):
            yield Given(Figure((int(over["count"]),), Span(*over.span("count"))), index)
        elif before and (found := _given(text, _sentence(text, before), sizes)):
            yield Given(found, index)


def _sentence(text: str, before: Sequence[Span]) -> Span:
    """Return the last stretch, with the line before it where a sentence is broken: `14 (17)` / `tr are on hand.`."""
    last = before[-1]
    if len(before) > 1 and text[last.start].islower() and "\n\n" not in text[before[-2].end : last.start]:
        return before[-2].cover(last)
    return last


def _given(text: str, span: Span, sizes: int) -> Figure | None:
    """Return the count that the last sentence of a line gives, None where it speaks of something else."""
    sentences = [match for match in _SENTENCE.finditer(text, span.start, span.end) if match[0].strip(" )]")]
    if not sentences:
        return None
    start, end = sentences[-1].span()
    if leads := _LEADS.match(text, start, end):
        end = leads.end("count")  # `33 (37) sts: first and last 11 sts on holders`
    if _OTHER.search(text, start, end):
        return None
    counts = [*_COUNT.finditer(text, start, end)]
    if not counts:
        return None
    lists = [tuple(int(one) for one in _DIGITS.findall(match["list"])) for match in counts]
    joined = all(_AND.search(text[a.end() : b.start("list")]) for a, b in pairwise(counts))
    if any(len(values) not in (1, sizes) for values in lists) or not joined:
        return None
    values = tuple(sum(one[min(n, len(one) - 1)] for one in lists) for n in range(max(map(len, lists))))
    return Figure(values, Span(counts[0].start(), counts[-1].end()))
