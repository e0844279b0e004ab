"""What several reports need: places, excerpts, harmless text and small turns of phrase."""

from __future__ import annotations

import unicodedata
from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ..lint.draft import Draft, Span
from ..lint.pattern import Round
from ..lint.workings import RoundWorking, Standing

if TYPE_CHECKING:
    from ..lint.proof import Proof, Tally

_JOINER = "\u200d"  # holds an emoji of several characters together
_HARMFUL = frozenset({"Cc", "Cf", "Cs", "Zl", "Zp"})
_CUT = "..."
_WORD_SEARCH = 15  # how far a cut may move to fall between two words

LONGEST_WORDS = 60


@dataclass(frozen=True, slots=True)
class Place:
    """Where a span stands, as a person counts: from 1, the end column one after the last character."""

    line: int
    column: int
    end_line: int
    end_column: int


@dataclass(frozen=True, slots=True)
class Excerpt:
    """A line of a draft, or a window of it, harmless to print; `start` and `end` enclose what is marked."""

    text: str
    start: int
    end: int


def place_of(draft: Draft, span: Span) -> Place:
    """Return where a span stands; line ends at its end are no part of it."""
    words = draft.words(span)
    length = len(words.rstrip("\r\n")) or min(len(words), 1)
    first = draft.position(span.start)
    if length == 0:
        return Place(first.line, first.column, first.line, first.column)
    last = draft.position(span.start + length - 1)
    return Place(first.line, first.column, last.line, last.column + 1)


def excerpt(draft: Draft, span: Span, width: int) -> Excerpt:
    """Return the line on which a span begins, cut to a window around it where it is wider than `width` cells.

    Of a span of several lines, the part on the first of them is marked.
    """
    line = draft.line_span(bisect_right(draft.starts, span.start) - 1)
    text = safe(draft.words(line)).rstrip()
    start = min(span.start - line.start, len(text))
    end = min(max(span.end - line.start, start + 1), max(len(text), start + 1))
    return window(text, start, end, width)


def window(text: str, start: int, end: int, width: int) -> Excerpt:
    """Cut a line to `width` cells around the characters from `start` to `end`, between words where it can."""
    if cells(text) <= width:
        return Excerpt(text, start, end)
    left, right, marked_end = _grown(text, start, end, width)
    if left > 0:
        gap = text.find(" ", left - 1, min(start, left + _WORD_SEARCH))
        left = gap + 1 if gap >= 0 else left
    if right < len(text):
        gap = text.rfind(" ", max(marked_end, right - _WORD_SEARCH), right + 1)
        right = gap if gap >= 0 else right
    before = f"{_CUT} " if left > 0 else ""
    after = f" {_CUT}" if right < len(text) else ""
    shift = len(before) - left
    return Excerpt(before + text[left:right] + after, start + shift, marked_end + shift)


def _grown(text: str, start: int, end: int, width: int) -> tuple[int, int, int]:
    """Grow a window around the marked characters to both sides; give its start, its end and theirs."""
    left, right, used = start, start, 0

    def fits(left: int, right: int, more: str) -> bool:
        cuts = (left > 0) + (right < len(text))
        return used + cells(more) + cuts * (len(_CUT) + 1) <= width

    while right < min(end, len(text)) and fits(left, right + 1, text[right]):
        used += cells(text[right])
        right += 1
    marked_end = right
    growing = True
    while growing:
        growing = False
        if left > 0 and fits(left - 1, right, text[left - 1]):
            left -= 1
            used += cells(text[left])
            growing = True
        if marked_end >= min(end, len(text)) and right < len(text) and fits(left, right + 1, text[right]):
            used += cells(text[right])
            right += 1
            growing = True
    return left, right, max(marked_end, min(end, start + 1))


def marks(shown: Excerpt, sign: str = "=") -> str:
    """Return the line of marks to be printed below an excerpt."""
    pad = " " * cells(shown.text[: shown.start])
    return pad + sign * max(1, cells(shown.text[shown.start : shown.end]))


def safe(text: str) -> str:
    """Make text harmless to a terminal, one character for one: no controls, no turns of writing direction."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(_harmless(character) for character in text)


def reason_of(proof: Proof, working: RoundWorking) -> str | None:
    """Return why a round was not worked, with the words that were not understood; None for one that was."""
    if working.reason is None or working.words is None:
        return working.reason
    words = one_line(proof.draft.words(working.words))
    if len(words) > LONGEST_WORDS:
        words = words[: LONGEST_WORDS - 4].rsplit(" ", 1)[0] + " ..."
    return f'{working.reason}: "{words}"'


def one_line(text: str) -> str:
    """Return text on one line, blanks narrowed, harmless to a terminal."""
    return " ".join(safe(" ".join(text.split())).split())


def _harmless(character: str) -> str:
    if character == "\t":
        return " "
    category = unicodedata.category(character)
    if category == "Zs":
        return " "
    return "\ufffd" if category in _HARMFUL and character != _JOINER else character


def cells(text: str) -> int:
    """Return how many columns of a terminal a text takes."""
    if text.isascii():
        return len(text)
    from rich.cells import cell_len  # noqa: PLC0415 - rich is imported only where something is printed

    return cell_len(text)


def plural(number: int, one: str, many: str = "") -> str:
    """Return a number with its noun: `1 round`, `3 rounds`."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def listed(words: Sequence[str]) -> str:
    """Return words as a list in a sentence: `Small, Medium and Large`."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}" if words else ""


def sentence(text: str) -> str:
    """Return words as a sentence: on one line, a capital first, a full stop last."""
    text = " ".join(text.split())
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "?", "!")) or not text else ".")


def size_names(proof: Proof, sizes: Iterable[int]) -> tuple[str, ...]:
    """Return the names of sizes by their indices; those that the draft does not name are left out."""
    names = proof.pattern.sizes.names
    return tuple(one_line(names[size]) for size in sizes if size < len(names))


def section_title(proof: Proof, round_: Round) -> str | None:
    """Return the title of the piece that a round belongs to, None where it has none."""
    sections = proof.pattern.sections
    return sections[round_.section].title if round_.section < len(sections) else None


def counts_of(working: RoundWorking, sizes: int) -> tuple[list[int | None], list[int | None]]:
    """Return the worked and the stated counts of a round, one a size; nothing is worked of one not read."""
    each = (*working.sizes, *(None,) * sizes)[:sizes]
    unread = working.standing is Standing.UNREAD
    worked = [None if one is None or unread else one.count for one in each]
    return worked, [None if one is None else one.stated for one in each]


def tally_words(tally: Tally) -> str:
    """Say in short how much was worked: `22 of 23 rounds worked, 21 agree, 1 differs, ...`."""
    return ", ".join(
        (
            f"{tally.worked} of {plural(tally.rounds, 'round')} worked",
            _verb(tally.agree, "agrees", "agree"),
            _verb(tally.differ, "differs", "differ"),
            _verb(tally.unstated, "states no count", "state no count"),
            f"{tally.unread} not read",
        )
    )


def stand_words(proof: Proof) -> str:
    """Say how many findings stand, as was agreed: `2 findings stand`."""
    number = len(proof.stood)
    return f"{plural(number, 'finding')} {'stands' if number == 1 else 'stand'}"


def _verb(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"


def folded(text: str, width: int, first: str = "", rest: str | None = None) -> Iterator[str]:
    """Break text into lines of at most `width` cells.

    `first` stands before the first of them and `rest` before the others, or else blanks. Blanks at the
    beginning are kept, and lines that follow are set in as far.
    """
    rest = " " * cells(first) if rest is None else rest
    body = text.lstrip(" ")
    inner = " " * min(len(text) - len(body), width // 2)
    line, empty = first + inner, True
    for word in body.split(" "):
        for piece in _fitting(word, width - cells(rest + inner)):
            if not empty and cells(line) + 1 + cells(piece) > width:
                yield line.rstrip()
                line, empty = rest + inner, True
            line += piece if empty else f" {piece}"
            empty = False
    yield line.rstrip()


def _fitting(word: str, width: int) -> Iterator[str]:
    """Part a word that is wider than a line."""
    while cells(word) > width:
        cut = 1
        while cells(word[: cut + 1]) <= width:
            cut += 1
        yield word[:cut]
        word = word[cut:]
    yield word
