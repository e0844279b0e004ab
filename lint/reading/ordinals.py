"""Ordinals: numbers that serve as headings without the word, `2nd.-`, after a first that has it, `1st Round.-`."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace

from ..draft import Span
from .headings import Form, Heading

_ORDINAL = r"(\d{1,3})(?:st|nd|rd|th|(?<=[23])d)\b"
_BARE = re.compile(rf"(?i){_ORDINAL}(?:\s*(?:-|to|and|&)\s*{_ORDINAL})?(?P<sep>\s*\.\s*-+|\s*-+(?=\s)|\s*:)\s*")


def bare_ordinals(text: str, starts: Iterable[tuple[int, int]], found: Mapping[int, Heading]) -> dict[int, Heading]:
    """Find the ordinals at which lines begin, each the next after the heading before it.

    `starts` are where the lines begin and end, `found` the headings known so far, one of which must be an ordinal.
    """
    if not any(heading.form is Form.ORDINAL for heading in found.values()):
        return {}
    bare: dict[int, Heading] = {}
    before: Heading | None = None
    for start, end in starts:
        if (known := found.get(start)) is not None:
            before = known if known.form is Form.ORDINAL and known.numbers else None
            continue
        match = _BARE.match(text, start, end)
        if match is None or before is None:
            continue
        first = int(match[1])
        last = int(match[2] or first)
        if first != before.numbers[-1][1] + 1 or last < first:
            continue
        span = Span(match.start(), match.start("sep"))
        before = replace(
            before, span=span, body=match.end(), numbers=((first, last),), listed=(), side=None, notes=(), sure=True
        )
        bare[start] = before
    return bare
