"""What a draft says of its own stitches: how many they decrease, take together or cross, and to which side."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ..draft import Span
from ..later import later
from ..said import Cable, Described

_LESS = r"\(\s*(?P<{n}>[1-4])\s+sts?\s+(?:are\s+)?dec(?:reased|reases?|['\u2019]?d)?\s*\)"
_SAID_BEFORE = later(rf"(?i){_LESS.format(n='n')}\s*[:=-]\s*(?P<words>[^.\n]{{8,200}})")
_SAID_BEHIND = later(
    rf"(?im)^[\s*\u2022-]*(?P<name>[A-Za-z0-9]{{2,10}})\s*[:=-]\s*(?P<words>[^.\n(]{{8,160}})\s*{_LESS.format(n='n')}"
)
# stitches that take away the same number wherever they are named
_KNOWN = {"sk2p": 2, "s2kp": 2, "s2kp2": 2, "k3tog": 2, "p3tog": 2, "sssk": 2, "cdd": 2, "ssk": 1, "skp": 1, "skpo": 1}
_ENTRY = later(rf"(?im)^[\s*\u2022-]*(?P<name>{'|'.join(_KNOWN)})\s*[:=-]\s*(?P<words>[^.\n(]{{8,160}})(?=[.\n(])")
_TAKES = later(
    r"(?i)\bpass(?:ed)?\b[^,;.]{0,40}\bover\b|\bpsso\b|\b(?:k|p|knit|purl)\s?2\s?tog(?:ether)?\b|\bssk\b|\bskpo?\b|"
    r"\b(?P<two>(?:k|p|knit|purl)\s?3\s?tog(?:ether)?|sssk|s2kp|cdd|sk2p)\b"
)
_UNCLEAR = later(r"(?i)\b(?:see|chart|slipped\s+sts|both|2\s+sl\w*|two\s+sl\w*|them|these|together)\b")


def described(text: str, talk: Sequence[Span]) -> Iterator[Described]:
    """Find stitches that are said to decrease so many, or whose name says it, with what their words take away."""
    for span in talk:
        seen: set[int] = set()
        for pattern in (_SAID_BEFORE, _SAID_BEHIND, _ENTRY):
            for match in pattern.finditer(text, span.start, span.end):
                words = match["words"].rstrip()
                taken = sum(2 if one["two"] else 1 for one in _TAKES.finditer(words))
                start = match.start("words")
                if not taken or start in seen:
                    continue
                said = _KNOWN[match["name"].lower()] if pattern is _ENTRY else int(match["n"])
                if pattern is not _SAID_BEFORE and _UNCLEAR.search(words):
                    continue
                seen.add(start)
                yield Described(Span(start, start + len(words)), said, taken)
        yield from _drawn_together(text, span)


_TOGETHER = later(
    r"(?im)(?:\b(?:sc|hdc|dc|tr|dtr|htr)(?P<tog>[2-5])tog\b|\b(?P<cl>[2-7])[- ]?(?:sc|hdc|dc|tr|dtr|htr)[- ](?:cl"
    r"(?:uster)?|bobble|popcorn|puff)\b)"
    r"(?P<gap>[^\n.:=]{0,30})[:=]\s*(?P<words>[^\n]{0,30}[(\[](?P<unit>[^()\[\]\n]{12,160})[)\]]\s*"
    r"(?P<often>twice|thrice|[2-9]\s+times|two\s+times|three\s+times|four\s+times|five\s+times)"
    r"[^\n.]{0,60}?\b(?:through|off)\s+all\b)"
)
_NUMBERS = {"twice": 2, "thrice": 3, "two": 2, "three": 3, "four": 4, "five": 5}
_LEADS = later(r"(?i)\bch(?:ain)?\s*-?\s*\d|\bbeg\w*|\bfirst\b")


def _drawn_together(text: str, span: Span) -> Iterator[Described]:
    """Find stitches drawn together whose number stands in the name, and how often their words begin one."""
    for match in _TOGETHER.finditer(text, span.start, span.end):
        before = text[max(span.start, match.start() - 16) : match.start()]
        lead = match["words"].split(match["unit"])[0]
        if _LEADS.search(before) or _LEADS.search(lead) or re.search(r"(?i)\byo\b.*\bins", lead):
            continue
        often = match["often"].split()[0].lower()
        number = int(often) if often.isdigit() else _NUMBERS[often]
        words = Span(*match.span("words"))
        yield Described(words, int(match["tog"] or match["cl"]), number, together=True)


# ---------------------------------------------------------------- cables

_CABLE = later(
    r"(?<![\w/])(?P<name>(?:C|T|Cr|Tw)(?P<n>\d{1,2})(?P<side>[A-Z]{1,2})?|(?P<a>\d)/(?P<b>\d)[ -]?"
    r"(?P<lean>[LR][CTP]|[LR]PC))\b"
    r"(?:\s*\([^)\n]{0,40}\))?\s*[:=]\s*(?P<words>(?i:sl(?:ip)?)\s[^.\n]{10,160})"
)
_TO_CABLE = later(
    r"(?i)\bsl(?:ip)?\s+(?:the\s+)?(?:(?:next\s+)?(?P<n>\d|two|three|four)\b|(?P<one>next|1|one)\s+st\b)[^,;]{0,30}?"
    r"\b(?:cn|c\.?n\.?|cable\s+needle|spare\s+needle)"
)
_WORKED = later(
    r"(?i)\b(?:k(?:nit)?|p(?:url)?)\s?(?P<n>\d)\b(?P<back>(?:\s+sts?)?\s+from\s+(?:the\s+)?(?:cn|cable|spare))?"
)
_NO_CABLE = later(
    r"(?i)\btog\b|\d\s?tog|\bm1|\byo\b|\bpsso\b|\bsecond\b|\b2nd\b|\bback\s+to\b|\bwrap|\btbl\b|\bslipped\b|\bthen\s+"
    r"(?:the\s+)?(?:st|sts)\b"
)
_HELD = later(r"(?i)\b(?:in|at|to)\s+(?:the\s+)?(?P<where>front|back)\b")


def cables(text: str) -> Iterator[Cable]:
    """Find cables whose words tell each of their stitches."""
    for match in _CABLE.finditer(text):
        words = match["words"]
        slipped = [*_TO_CABLE.finditer(words)]
        worked = [*_WORKED.finditer(words)]
        if len(slipped) != 1 or not any(one["back"] for one in worked) or _NO_CABLE.search(words):
            continue
        sts = int(match["n"]) if match["n"] else int(match["a"]) + int(match["b"])
        back = sum(int(one["n"]) for one in worked if one["back"])
        number = slipped[0]["n"]
        slips = 1 if number is None else int(number) if number.isdigit() else _NUMBERS.get(number.lower(), 4)
        yield Cable(
            Span(*match.span("words")),
            sts,
            sum(int(one["n"]) for one in worked),
            slips,
            back,
            _other_side(match, words),
        )


def _other_side(match: re.Match[str], words: str) -> str:
    """Return where the stitches wait, where the name tells of the other side: `C6F` held in back; else nothing."""
    last = (match["side"] or match["lean"] or "")[:1]
    held = {one["where"].lower() for one in _HELD.finditer(words)}
    wanted = {"F": "front", "L": "front", "B": "back", "R": "back"}.get(last)
    return held.pop() if wanted is not None and len(held) == 1 and wanted not in held else ""
