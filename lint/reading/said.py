"""Sentences that stand for several rows, and statements about a stitch or a pattern."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ..draft import Span
from ..figures import Figure
from ..later import later
from ..pattern import Round
from ..said import BindOffs, Mirror, Motif, Resumed, Sayings, Schedule, Sum, number_in
from .stitches_told import cables, described

_LIST = r"\d{1,4}(?:[ \t]*(?:[)\]][ \t]*[(\[]|[(\[,:/-])[ \t]*\d{1,4}){0,16}[ \t]*[)\]]?"
_DIGITS = later(r"\d+")
_SHAPING = later(
    r"(?i)\b(?P<kind>dec|inc)[a-z]*\b[^.\n]{0,40}?\b(?P<n>\d)\s*sts?\s+(?:at\s+)?(?:each|both)\s+(?:end|side|edge)s?\b(?P<rest>[^.]{0,200}\btimes\b[^.]{0,40})\."
    rf"\s*(?P<after>{_LIST})[ \t]*sts\b"
)
_TIMES = later(rf"(?P<list>{_LIST})[ \t]*times\b")
_UNTIMED = later(r"(?i)\bnext\b[^,.]*\brows?\b\s*(?:,|and\b|then\b)")  # `next 5 rows, then ...`
_STS = later(rf"(?<![\w.])(?P<list>{_LIST})[ \t]*sts\b")
_REMAIN = later(
    rf"(?i)(?<![\w.])(?P<list>{_LIST})[ \t]*sts\s+(?:rem\w*|left)\s+(?:for|on)\s+(?:the\s+|each\s+)?shoulders?\b"
)
_BIND_OFF = later(
    rf"(?i)\s*(?:bind|cast)\s+off\s+(?P<list>{_LIST})[ \t]*sts\s+at\s+(?:the\s+)?beg\w*\s+of\s+(?:the\s+)?next\s+(?:(?P<rows>\d)\s+)?(?:RS|WS)\s+rows?\s*\."
)
_MOTIF = later(
    r"(?i)\b(?P<n>\d{1,3})[\s-]st(?:itch)?\s+(?:motif|panel|chart|pattern|lace|cable)\b[^.;\n]{0,20}\bonce\b"
)
_STOPPED = later(
    r"(?i)\bend(?:ing|ed)?\s+(?:with|after|on)\s+(?:row|rnd|round)\s+(?P<row>\d{1,3})\s+of\s+(?:the\s+)?(?P<rows>\d{1,3})-(?:row|rnd|round)\s+(?P<what>[a-z]+)"
)
_GOES_ON = r"(?i)\b(?:beg\w*|start\w*|continu\w+|resum\w+)\s+with\s+(?P<words>(?:row|rnd|round)\s+(?P<row>\d{{1,3}}))\s+of\s+(?:the\s+)?(?:\d+-\w+\s+)?{what}\b"
_MIRROR = later(r"(?i)\bmirror\w*\s+(?:of|the|to)?\b")
_LEANS = later(r"(?i)\b(?P<right>k2tog)\b|\b(?P<left>ssk|skpo?|s2kp|sl\s?1,?\s*k1,?\s*psso)\b")
_SIDES = later(r"(?i)\b(left|right)\b")


def read_sayings(text: str, talk: Sequence[Span], rounds: Sequence[Round]) -> Sayings:
    """Read the sentences of a draft that stand for more than they show. `talk` are the stretches outside its rounds."""
    small = text.casefold()

    def says(*words: str) -> bool:
        """Tell whether one of some words stands anywhere: most drafts have none of these sentences."""
        return any(word in small for word in words)

    shaped = _schedules(text) if says("times") and says("each", "both") else ()
    left_out = _groups_left_out(text) if says("leaving", "omitting", "adding") else ()
    return Sayings(
        schedules=(*shaped, *left_out),
        bind_offs=tuple(_bind_offs(text)) if says("shoulder") else (),
        motifs=tuple(_motifs(text, rounds)) if says("once") and says("motif", *_PANELS) else (),
        resumed=tuple(_resumed(text)) if says("-row", "-rnd", "-round") else (),
        mirrors=tuple(_mirrors(text)) if says("mirror") else (),
        described=tuple(described(text, talk)) if says("dec", "'d", "\u2019d", "psso", "pass", "all", "2tog") else (),
        cables=tuple(cables(text)) if says("sl ", "sl\n", "slip") else (),
        sums=tuple(_sums(text)) if says("pick", "cast", "co") else (),
    )


_PANELS = ("panel", "chart", "pattern", "lace", "cable")


def _motifs(text: str, rounds: Sequence[Round]) -> Iterator[Motif]:
    for index, round_ in enumerate(rounds):
        for match in _MOTIF.finditer(text, round_.span.start, round_.span.end):
            yield Motif(Span(*match.span()), int(match["n"]), index)


def _figure(match: re.Match[str], group: str) -> Figure:
    return Figure(tuple(int(one) for one in _DIGITS.findall(match[group])), Span(*match.span(group)))


def _schedules(text: str) -> Iterator[Schedule]:
    for match in _SHAPING.finditer(text):
        begin = max(0, match.start() - 160)
        counts = [*_STS.finditer(text, begin, match.start())]
        times = tuple(_figure(one, "list") for one in _TIMES.finditer(text, *match.span("rest")))
        if not counts or not times or _UNTIMED.search(match["rest"]):
            continue
        before, after = _figure(counts[-1], "list"), _figure(match, "after")
        if number_in((before, after, *times)) is not None:
            sign = -1 if match["kind"].lower() == "dec" else 1
            yield Schedule(Span(*match.span()), 2 * int(match["n"]) * sign, times, before, after)


def _bind_offs(text: str) -> Iterator[BindOffs]:
    for match in _REMAIN.finditer(text):
        remaining = _figure(match, "list")
        at = text.find("\n", match.end())
        each: list[Figure] = []
        rows: list[int] = []
        last = match.end()
        while at >= 0 and (line := _BIND_OFF.match(text, at)):
            each.append(_figure(line, "list"))
            rows.append(int(line["rows"] or 1))
            at = last = line.end()
        if len(each) > 1 and number_in((remaining, *each)) is not None:
            yield BindOffs(Span(each[0].span.start, last), remaining, tuple(each), tuple(rows))


def _resumed(text: str) -> Iterator[Resumed]:
    for match in _STOPPED.finditer(text):
        goes_on = re.search(_GOES_ON.format(what=re.escape(match["what"])), text[match.end() : match.end() + 400])
        if goes_on is not None:
            start, end = (match.end() + place for place in goes_on.span("words"))
            yield Resumed(Span(start, end), int(match["row"]), int(goes_on["row"]), int(match["rows"]))


def _mirrors(text: str) -> Iterator[Mirror]:
    lines = [*re.finditer(r"[^\n]+", text)]
    for index, line in enumerate(lines):
        side = _SIDES.search(line[0])
        if not _MIRROR.search(line[0]) or side is None:
            continue
        for other in reversed(lines[:index]):
            opposite = _SIDES.search(other[0])
            if opposite is None or opposite[1].lower() == side[1].lower():
                continue
            here, there = [*_LEANS.finditer(line[0])], [*_LEANS.finditer(other[0])]
            if len(here) == len(there) == 1 and here[0].lastgroup == there[0].lastgroup:
                yield Mirror(
                    Span(line.start() + here[0].start(), line.start() + here[0].end()),
                    Span(other.start() + there[0].start(), other.start() + there[0].end()),
                )
            break


# ---------------------------------------------------------------- sums

_PICKED = later(
    rf"(?i)\bpick\s+up(?:\s+and\s+(?:knit|k|work))?\s+(?P<body>[^.=\n]{{10,300}}?)(?:\.|\s*=|\s-|(?<=[a-z])\s*\()\s*(?P<total>{_LIST})[ \t]*sts\b"
)
_CAST = later(rf"(?i)\b(?:cast\s+on|co)\s+(?P<total>{_LIST})[ \t]*sts\s*[:,-]\s*(?P<body>\d[^.\n]{{10,200}})")
_PART_OF_SUM = later(
    rf"(?i)(?<![\w.])(?:k\s?)?(?P<list>{_LIST})[ \t]*(?:sts?[ \t]+)?(?:more[ \t]+)?(?:down|up|along|across|from|at|around|round|for|over|on|in)\b"
)
_NOT_ONCE = later(r"(?i)\b(?:each|every|both|twice|times|evenly|either|per|about|approximately|all|then)\b")


# a tab is turned and goes on with the stitches that it has
_TAB = re.compile(r"(?i)\b(?:rotate|(?:do not|don't|without) turn(?:ing)?|clockwise|tab|cast[- ]?on|co)\b")


def _sums(text: str) -> Iterator[Sum]:
    """Find stitches that are told part by part with their total: picked up around a neck, cast on for several parts."""
    for pattern in (_PICKED, _CAST):
        for match in pattern.finditer(text):
            body = match["body"]
            start, end = match.span("body")
            parts = tuple(_figure(one, "list") for one in _PART_OF_SUM.finditer(text, start, end))
            told = [*re.finditer(_LIST, body)]
            if len(parts) < 2 or len(parts) != len(told) or _NOT_ONCE.search(body):
                continue
            if pattern is _PICKED and _TAB.search(text, text.rfind("\n", 0, start) + 1, end):
                continue
            total = _figure(match, "total")
            if number_in((total, *parts)) is not None:
                yield Sum(Span(match.start("body"), match.end()), parts, total)


_LEFT_OUT = later(
    rf"(?i)(?<![\w.])(?<!row\s)(?<!rnd\s)(?<!round\s)(?P<before>{_LIST})[ \t]*(?:\w+[ \t]+)?(?P<what>groups|shells|clusters|fans|repeats|patterns|V-sts|v-stitches)\b[^\n]*\n[^\n]*?"
    r"\b(?P<way>leaving\s+out|omitting|adding)\s+(?P<n>one|1|two|2)\s+(?:\w+\s+)?(?:groups?|shells?|clusters?|fans?|repeats?|patterns?|V-sts?|v-stitch(?:es)?)\s+"
    rf"(?:at|on)\s+(?:each|both)\s+(?:ends?|sides?)\b\W*(?P<after>{_LIST})[ \t]*(?:\w+[ \t]+)?(?P=what)"
)


def _groups_left_out(text: str) -> Iterator[Schedule]:
    """Find rows that leave out or add groups at each end, between two counts of such groups."""
    for match in _LEFT_OUT.finditer(text):
        before, after = _figure(match, "before"), _figure(match, "after")
        if number_in((before, after)) is None:
            continue
        number = 2 if match["n"].lower() in ("two", "2") else 1
        sign = 1 if match["way"].lower() == "adding" else -1
        once = Figure((1,), Span(*match.span("n")))
        yield Schedule(Span(match.start("way"), match.end()), sign * 2 * number, (once,), before, after)
