"""How a draft states its counts: where the words of a count stand, and the same words for another count."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ..draft import Draft, Span
from ..later import later
from ..pattern import Round
from ..steps import FastenOff, Remark, Step, Work

_LEAD = later(r"(?i)\s*(?:\b(?:in )?total\b)?[\s(\[{=–—:*-]*$")
_CLOSE = later(r"[)\]}]*")
_SLIP = "slst"
_NEW_SENTENCE = later(r"[\r\n]\s*[A-Z]")
_RUNS_ON = later(r"[^\r\n]*\w")
_WIDE = 3  # so many blanks before a count set it in a column


@dataclass(frozen=True, slots=True)
class Manner:
    """The words of a stated count around its figure: ` (`, `56`, ` sc)`, and a full stop after it if there is one.

    `kind` is the stitch it names and `unit` the word for it. `column` is where the count begins on its line where
    it is set apart by blanks. `stop` tells whether the instructions before it end in a full stop.
    """

    before: str
    after: str
    tail: str
    kind: str
    unit: str
    column: int | None
    stop: bool


@dataclass(frozen=True, slots=True)
class Parts:
    """A round in two: the words to work, and those of its count.

    `count` is None where it states none. `plain` is False where more follows the count on its line, so that the two
    can't be taken apart. `end` is the end of the last line of the two.
    """

    words: Span
    count: Span | None
    end: int
    plain: bool


def parts_of(draft: Draft, round_: Round) -> Parts:
    """Part a round into what is worked and what is stated; its heading belongs to neither."""
    text = draft.text
    start = round_.heading.start if headless(round_) else round_.heading.end
    limit = round_.span.end
    last = min(limit, max(_ends(draft, round_), default=round_.heading.end))
    claims = [claim.span for claim in round_.claims if claim.span.start >= start]
    if not claims or max(one.end for one in claims) < last or len(claims) < len(round_.claims):
        end = _line_end(text, max([last, *(one.end for one in claims)]), limit)
        return Parts(Span(start, end), None, end, not round_.claims)
    first, after = min(one.start for one in claims), max(one.end for one in claims)
    lead = _LEAD.search(text, start, first)
    close = _CLOSE.match(text, after, limit)
    count = Span(lead.start() if lead else first, close.end() if close else after)
    end = _line_end(text, count.end, limit)
    plain = not re.search(r"\w", text[count.end : end])
    return Parts(Span(start, count.start), count, end, plain)


_SEPARATORS = later(r"[\s.:|–—-]*")


def words_start(draft: Draft, round_: Round) -> int:
    """Return where the instructions of a round begin, behind its heading."""
    start = parts_of(draft, round_).words.start
    found = _SEPARATORS.match(draft.text, start, round_.span.end)
    return found.end() if found else start


def headless(round_: Round) -> bool:
    """Tell whether what passes for a round's heading is its instruction, as in `Ch 72, join`."""
    if round_.first is not None:
        return False
    own = round_.directive.span if round_.directive is not None else None
    inside = own is not None and own.start < round_.heading.end
    return inside or any(step.span.start < round_.heading.end for step in round_.steps)


def manner_of(draft: Draft, round_: Round) -> Manner | None:
    """Return the manner of a round's count, None where it has not exactly one that stands last."""
    parts = parts_of(draft, round_)
    if parts.count is None or not parts.plain or len(round_.claims) != 1 or round_.claims[0].each_round:
        return None
    claim = round_.claims[0]
    figure = claim.figure.span
    text = draft.text
    before = text[parts.count.start : figure.start]
    after = text[figure.end : parts.count.end]
    if _pairs(text, figure) and claim.span != Span(figure.start - 1, figure.end + 1):
        # the list has brackets of its own
        before, after = before[:-1], after[1:]
    if "\n" in before and _RUNS_ON.match(text, parts.end):
        before = " " + before.lstrip()  # the line broke there by chance
    line = text.rfind("\n", 0, parts.count.start) + 1
    lead = len(before) - len(before.lstrip(" "))
    return Manner(
        before,
        after,
        text[parts.count.end : parts.end].rstrip(),
        claim.kind,
        claim.unit,
        parts.count.start - line + lead if lead >= _WIDE and "\n" not in before else None,
        text[: parts.count.start].endswith("."),
    )


def counted(words: str, manner: Manner, count: int, kinds: Sequence[tuple[str, int]] | None, at: int = 0) -> str:
    """Return the words of a round with a count after them, in a given manner.

    A count that names a stitch names it only where the round is of that stitch alone (`kinds`, None for the round
    that the manner is of), or else says sts. `at` is the column in which the words begin.
    """
    if kinds is not None and manner.kind != "st" and tuple(kinds) != ((manner.kind, count),):
        manner = replace(
            manner, after=re.sub(re.escape(manner.unit), "sts", manner.after, count=1, flags=re.IGNORECASE)
        )
    words = words.rstrip()
    if manner.stop and not words.endswith("."):
        words += "."
    if not manner.stop and manner.tail.startswith(".") and words.endswith("."):
        words = words[:-1]
    before = manner.before
    if manner.column is not None:
        here = len(words) - (words.rfind("\n") + 1) + (0 if "\n" in words else at)
        before = " " * max(1, manner.column - here) + before.lstrip(" ")
    return f"{words}{before}{count}{manner.after}{manner.tail}"


PLAIN = Manner(" (", " sts)", "", "st", "sts", None, False)


def _pairs(text: str, span: Span) -> bool:
    return text[max(0, span.start - 1) : span.start] + text[span.end : span.end + 1] in ("()", "[]")


def _ends(draft: Draft, round_: Round) -> Iterator[int]:
    if round_.directive is not None:
        yield round_.directive.span.end
    at = round_.heading.end
    for step in round_.steps:
        if _closes(step) and _NEW_SENTENCE.search(draft.text, at, step.span.start + 1):
            return
        yield step.span.end
        at = max(at, step.span.end)


def _closes(step: Step) -> bool:
    """Tell whether a step may belong to what is said after a round: `Sl st in next st, fasten off.`."""
    slip = isinstance(step, Work) and step.make.kind == _SLIP
    return slip or isinstance(step, Remark | FastenOff)


def _line_end(text: str, at: int, limit: int) -> int:
    found = re.compile(r"[\r\n]").search(text, at, limit)
    end = found.start() if found else limit
    return at + len(text[at:end].rstrip())
