"""Landmarks: the shaping that parts of garments go by: `as for back to armholes`, `shape neck as for front`."""

from __future__ import annotations

import re
from dataclasses import replace

from ..draft import Span
from ..later import later
from ..pattern import RepeatRounds

_MARKS = r"armholes?|under\s?arms?|shoulders?|neck|raglans?|waist|top|crown|cap|sleeve\s?cap"
_PARTS = (
    r"(?:right |left |first |second )?(?:back|front|sleeves?|body|pocket|half|side|leg|sock|mitten|glove|piece|slipper)"
)
_AS_FOR = r"(?:the\s+)?(?:same\s+as|as\s+(?:given\s+)?(?:for|on)|as|like)\s+(?:the\s+|that\s+of\s+the\s+)?"
_UP_TO = later(
    rf"(?i)(?:^|\band\s+|[.;:,]\s*)(?:work|make|knit)\s+{_AS_FOR}(?P<part>{_PARTS})\s+"
    rf"(?:up\s+)?(?P<how>to|until|till|through)\s+(?:the\s+)?(?:beg(?:inning)?\s+of\s+|end\s+of\s+)?(?:the\s+)?"
    rf"(?P<mark>{_MARKS})(?P<rest>(?:(?!\s?[-\u2013\u2014]\s?\d)[^.;:=(\n])*)"
)
_ALONE = later(
    rf"(?i)^\W*(?:shape|work)\s+(?:the\s+)?(?P<mark>{_MARKS})(?:\s+shaping)?\s+{_AS_FOR}(?P<part>{_PARTS})\b[^.;(\n]*"
)
_COMPLETED = later(r"(?i)\b(?:complet\w*|finished|done|worked)\b")


def read_landmark(text: str, span: Span) -> tuple[RepeatRounds, int] | None:
    """Read such an instruction in a line of the draft; return what is meant and the offset after its words."""
    words = text[span.start : span.end]
    if (found := _UP_TO.search(words)) is not None:
        done = found["how"].lower() == "through" or bool(_COMPLETED.search(found["rest"]))
        done = done or "end of" in found[0].lower()
        meant = RepeatRounds(_span(span, found), part=found["part"].lower(), mark=_mark(found["mark"]), through=done)
        return meant, span.start + found.end()
    if (found := _ALONE.match(words)) is not None:
        meant = RepeatRounds(_span(span, found), part=found["part"].lower(), mark=_mark(found["mark"]), alone=True)
        return replace(meant, through=True), span.start + found.end()
    return None


def _span(span: Span, found: re.Match[str]) -> Span:
    return Span(span.start + found.start(), span.start + found.end())


def _mark(words: str) -> str:
    """Return the name of the shaping: an underarm is where an armhole begins."""
    plain = "".join(words.lower().split()).rstrip("s")
    return "armhole" if plain == "underarm" else plain
