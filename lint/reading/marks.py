"""Marks: brackets become a tree before any step is read; what doesn't pair is kept and said."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import ClassVar

from ..draft import Span
from ..pattern import LooseMark, MarkTrouble
from .words import Word

_OPEN = {"(": ")", "[": "]", "{": "}"}
MOST_NESTED = 12  # brackets in brackets; a pattern has three at most
_CLOSE = {close: open_ for open_, close in _OPEN.items()}


@dataclass(frozen=True, slots=True)
class Group:
    """A bracket and what stands in it. `mended` is True where one of its two signs had to be guessed."""

    items: tuple[Item, ...]
    span: Span
    mark: str
    mended: bool = False
    kind: ClassVar[str] = "group"  # its label among words
    blank: ClassVar[bool] = True  # it needs no white space before it to stand apart

    @property
    def inside(self) -> Span:
        """The span of the bracket's words, without its signs."""
        return Span(self.span.start + 1, max(self.span.start + 1, self.span.end - 1))


Item = Word | Group


def flat(items: Sequence[Item]) -> Iterator[Word]:
    """Yield the words of items and of the brackets among them, in order."""
    for item in items:
        if isinstance(item, Group):
            yield from flat(item.items)
        else:
            yield item


def kind(items: Sequence[Item], index: int) -> str:
    """Return the label of the item at an index, "" past either end."""
    return items[index].kind if 0 <= index < len(items) else ""


def text_at(items: Sequence[Item], index: int) -> str:
    """Return the word at an index, "" for a bracket or past either end."""
    item = items[index] if 0 <= index < len(items) else None
    return item.text if isinstance(item, Word) else ""


def span_of(items: Sequence[Item]) -> Span:
    """Return the span from the first item to the last; there must be one."""
    return Span(items[0].span.start, items[-1].span.end)


def tree(words: Sequence[Word]) -> tuple[tuple[Item, ...], tuple[LooseMark, ...]]:
    """Pair the brackets of a round.

    Two closing signs with no opening one are read as a pair whose first sign is the wrong way round; an opening
    sign without its fellow holds everything to the end. Both are reported as loose.
    """
    words = _bound(words)
    mended = _mend(words)
    stack: list[tuple[Word | None, list[Item]]] = [(None, [])]
    loose: list[LooseMark] = [LooseMark(MarkTrouble.BRACKET, words[index].span) for index in mended]
    for index, word in enumerate(words):
        if (word.kind in _OPEN or index in mended) and len(stack) > MOST_NESTED:
            loose.append(LooseMark(MarkTrouble.BRACKET, word.span))
        elif word.kind in _OPEN or index in mended:
            stack.append((word, []))
        elif word.kind in _CLOSE:
            if len(stack) == 1:
                loose.append(LooseMark(MarkTrouble.BRACKET, word.span))
                continue
            opened, items = stack.pop()
            assert opened is not None
            mark = opened.kind if opened.kind in _OPEN else "("
            fits = _OPEN.get(opened.kind) == word.kind
            stack[-1][1].append(Group(tuple(items), Span(opened.span.start, word.span.end), mark, mended=not fits))
            if not fits and opened.kind in _OPEN and not _plain_count(items):
                loose.append(LooseMark(MarkTrouble.BRACKET, word.span))
        else:
            stack[-1][1].append(word)
    while len(stack) > 1:
        opened, items = stack.pop()
        assert opened is not None
        loose.append(LooseMark(MarkTrouble.BRACKET, opened.span))
        stack[-1][1].append(
            Group(
                tuple(items),
                Span(opened.span.start, (items[-1] if items else opened).span.end),
                opened.kind,
                mended=True,
            )
        )
    return tuple(stack[0][1]), tuple(loose)


_CHANGES = ("increase", "decrease")


def _bound(words: Sequence[Word]) -> Sequence[Word]:
    """Put brackets around stitches that dashes bind together before a number of times: `1-inc x 6`, `(sc-inc) x 6`.

    The words of the added signs stand where the first and the last of the bound ones do.
    """
    if not any(word.kind == "-" and not word.blank for word in words):
        return words
    found: list[Word] = []
    at = 0
    while at < len(words):
        end = _bound_end(words, at)
        if not end:
            found.append(words[at])
            at += 1
            continue
        first, last = words[at].span, words[end - 1].span
        found.append(Word("(", "(", Span(first.start, first.start), blank=words[at].blank))
        found.extend(word._replace(text=",", kind=",") if word.kind == "-" else word for word in words[at:end])
        found.append(Word(")", ")", Span(last.end, last.end), blank=False))
        at = end
    return found


def _bound_end(words: Sequence[Word], at: int) -> int:
    """Return the index after stitches and figures bound by dashes, one of them a change; 0 where none begin."""
    if words[at].kind not in ("number", "stitch") or (at and words[at - 1].kind == "-" and not words[at].blank):
        return 0
    end, changes = at + 1, _is_change(words[at])
    while end + 1 < len(words) and words[end].kind == "-" and not words[end].blank and not words[end + 1].blank:
        if words[end + 1].kind not in ("number", "stitch"):
            return 0
        changes = changes or _is_change(words[end + 1])
        end += 2
    after = end
    while after < len(words) and words[after].kind in _CLOSE:
        after += 1
    signs = [word.kind for word in words[after : after + 3]]
    if signs[:1] == ["("]:
        signs = signs[1:]
    often = signs[:1] == ["often"] or signs[:2] in (["times", "number"], ["*", "number"], ["number", "times"])
    return end if changes and often and end > at + 1 else 0


def _is_change(word: Word) -> bool:
    return word.stitch is not None and word.stitch.kind in _CHANGES


def _plain_count(items: Sequence[Item]) -> bool:
    """Tell whether a bracket holds nothing but a count, which is plain enough whatever signs enclose it."""
    return (
        bool(items)
        and items[0].kind == "number"
        and all(item.kind in ("number", "st", "stitch", ",") for item in items)
    )


def _mend(words: Sequence[Word]) -> set[int]:
    """Find closing signs that must have been meant to open: unmatched, and followed by another unmatched one."""
    depth = 0
    unmatched: list[int] = []
    for index, word in enumerate(words):
        if word.kind in _OPEN:
            depth += 1
        elif word.kind in _CLOSE:
            if depth:
                depth -= 1
            else:
                unmatched.append(index)
    return {unmatched[0]} if len(unmatched) == 2 and not depth else set()
