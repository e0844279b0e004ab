"""Figures: lists of numbers, one a size, in all the ways in which drafts write them, lifted out of the words.

A list stands for one number: where its length is the number of sizes the words that make it become a single word
with all its values. Lists of another length are kept for the rules and left as they are.
"""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..draft import Span
from ..figures import FigureList, ListStyle
from .words import Word

_OPENS = {"(": ")", "[": "]", "{": "}"}
_BEGIN_LISTS = frozenset({*_OPENS, "number", "-"})
_SEPARATORS = {",", "/", ":", "-", ";"}


@dataclass(frozen=True, slots=True)
class _Found:
    values: tuple[int | None, ...]
    end: int  # index after the last word
    style: ListStyle
    inner: str
    before: int = 0  # words of the list that stay as they are (an opening bracket that holds a count)


def _value(word: Word) -> int | None:
    return word.value if word.kind == "number" else None


def _inside(words: Sequence[Word], at: int) -> tuple[list[int | None], str, int] | None:
    """Read `80, 88` up to the closing bracket: the values, the separator, and the index of the closing bracket."""
    values: list[int | None] = []
    separator = ""
    index = at
    while index < len(words):
        word = words[index]
        if word.kind == "number":
            values.append(word.value)
            index += 1
        elif word.kind == "-" and (
            _ends_element(words, index + 1) or kind_at(words, index - 1) in {*_OPENS, ",", "/", ":"}
        ):
            values.append(None)
            index += 1
            while kind_at(words, index) == "-":
                index += 1
        else:
            return None
        if kind_at(words, index) in _OPENS.values():
            return values, separator, index
        if kind_at(words, index) in _SEPARATORS:
            separator = separator or words[index].kind
            index += 1
            if kind_at(words, index) in _OPENS.values():
                return values, separator, index
        elif kind_at(words, index) not in ("number", "-"):
            return None
    return None


def kind_at(words: Sequence[Word], index: int) -> str:
    """Return the label of a word, "" past either end."""
    return words[index].kind if 0 <= index < len(words) else ""


def _ends_element(words: Sequence[Word], index: int) -> bool:
    return kind_at(words, index) in {*_OPENS.values(), ",", "/", ":", ";", "-"}


def _leading(words: Sequence[Word], at: int) -> _Found | None:
    """Read `72 (80, 88)`, `72[80, 88]`, `9,(10, 11)`, `96 (104, 112) (120, 128)` and `64 (64) 70 (70) 70`."""
    first = words[at]
    index = at + 1
    if kind_at(words, index) == "," and kind_at(words, index + 1) in _OPENS and not words[index + 1].blank:
        index += 1
    opened = kind_at(words, index)
    if opened not in _OPENS:
        return None
    inside = _inside(words, index + 1)
    if inside is None or not inside[0]:
        return None
    values, separator, close = inside
    found: list[int | None] = [first.value if first.kind == "number" else None, *values]
    index = close + 1
    style = ListStyle.SQUARE if opened == "[" else ListStyle.ROUND
    while True:
        if kind_at(words, index) in _OPENS and (more := _inside(words, index + 1)) and more[0]:
            found.extend(more[0])
            separator = separator or more[1]
            index = more[2] + 1
        elif (
            kind_at(words, index) == "number"
            and len(values) == 1
            and kind_at(words, index + 1) in _OPENS
            and (more := _inside(words, index + 2))
            and len(more[0]) == 1
        ):
            found.extend([words[index].value, *more[0]])
            style = ListStyle.MIXED
            index = more[2] + 1
        else:
            break
    if style is ListStyle.MIXED and kind_at(words, index) == "number":
        found.append(words[index].value)
        index += 1
    return _Found(tuple(found), index, style, separator)


def _bracketed(words: Sequence[Word], at: int) -> _Found | None:
    """Read `(36, 44, 48)` and `(66, 72 sc)`, `[20, 22, 24 dc total]`: the bracket stays, its figures become one."""
    inside: list[int | None] = []
    separator = ""
    index = at + 1
    while index < len(words):
        word = words[index]
        if word.kind == "number":
            inside.append(word.value)
        elif word.kind == "-" and _ends_element(words, index + 1):
            inside.append(None)
        else:
            return None
        index += 1
        if kind_at(words, index) in (",", "/", ":", ";", "|") and kind_at(words, index + 1) in ("number", "-"):
            separator = separator or words[index].kind
            index += 1
        elif kind_at(words, index) == "-" and kind_at(words, index + 1) == "number" and separator in ("", "-"):
            separator = "-"
            index += 1
        else:
            break
    if len(inside) < 2 or not separator:
        return None
    return _Found(tuple(inside), index, ListStyle.INSIDE, separator, before=1)


def _slashed(words: Sequence[Word], at: int) -> _Found | None:
    """Read `72/80/88`."""
    values: list[int | None] = [_value(words[at])]
    index = at + 1
    while kind_at(words, index) == "/" and kind_at(words, index + 1) in ("number", "-"):
        values.append(_value(words[index + 1]))
        index += 2
    if all(value is None for value in values):
        return None
    return _Found(tuple(values), index, ListStyle.SLASH, "/") if len(values) > 1 else None


def _bare(words: Sequence[Word], at: int) -> _Found | None:
    """Read `42, 48, 54, 60` without brackets, `93 - 101 - 109`, `91:97:103`, `72 | 80 | 88` and `56-60-64`."""
    sign = kind_at(words, at + 1)
    if sign not in (",", "-", ":", "|"):
        return None
    values: list[int | None] = [_value(words[at])]
    index = at + 1
    apart = words[index].blank
    while kind_at(words, index) == sign and (sign in (",", ":", "|") or words[index].blank == apart):
        what = kind_at(words, index + 1)
        if what != "number" and (what != "-" or sign not in (":", "|") or kind_at(words, index + 2) != sign):
            break
        if sign == "," and not words[index + 1].blank:
            break
        values.append(_value(words[index + 1]))
        index += 2
    if len(values) < 3 or (sign == "-" and (not _rises(values) if apart else _numbers_round(words, at))):
        return None
    return _Found(tuple(values), index, ListStyle.BARE, sign)


def _spaced(words: Sequence[Word], at: int, sizes: int) -> _Found | None:
    """Read `50 60 70`, `- 60 70`: figures told apart by nothing but blanks, or by colours that are lost; one a size.

    Only the smallest sizes may have a dash.
    """
    end = at
    while kind_at(words, end) == "-" and (end == at or words[end].blank):
        end += 1
    while kind_at(words, end) == "number" and (end == at or words[end].blank):
        end += 1
    values = tuple(_value(word) for word in words[at:end])
    if len(values) != sizes or values[-1] is None:
        return None
    beside = kind_at(words, at - 1) in ("number", "/", ",", "-") or kind_at(words, end) in (
        "number",
        ",",
        "/",
        "-",
        *_OPENS,
    )
    known = [value for value in values if value is not None]
    return _Found(values, end, ListStyle.BARE, " ") if known == sorted(known) and not beside else None


def _dashed(words: Sequence[Word], at: int, sizes: int) -> _Found | None:
    """Read `89-97-105-113` and `60-64-68 (72-76-80)`: three or more figures, no blanks between them."""
    values = [words[at].value]
    index = at + 1
    while kind_at(words, index) == "-" and kind_at(words, index + 1) == "number":
        if words[index].blank or words[index + 1].blank:
            return None
        values.append(words[index + 1].value)
        index += 2
    while len(values) > 1 and kind_at(words, index) in _OPENS and (more := _inside(words, index + 1)):
        if more[1] != "-":
            break
        values.extend(more[0])
        index = more[2] + 1
    if kind_at(words, at - 1) == "round" and kind_at(words, index) not in ("times", "more"):
        return None  # `rows 5-6-7`
    fits = len(values) == sizes or _rises(values)
    return _Found(tuple(values), index, ListStyle.BARE, "-") if len(values) > 2 and fits else None


def _one_a_bracket(words: Sequence[Word], at: int) -> _Found | None:
    """Read `(56) (60) (64)`: three or more figures, each in brackets of its own."""
    values: list[int | None] = []
    index = at
    while kind_at(words, index) == words[at].kind and kind_at(words, index + 1) in ("number", "-"):
        if kind_at(words, index + 2) != _OPENS[words[at].kind]:
            break
        values.append(_value(words[index + 1]))
        index += 3
    known = any(value is not None for value in values)
    return _Found(tuple(values), index, ListStyle.MIXED, "") if len(values) > 2 and known else None


def _list_at(words: Sequence[Word], at: int, sizes: int = 0) -> _Found | None:
    word = words[at]
    if sizes > 2 and word.kind in ("number", "-") and (spaced := _spaced(words, at, sizes)) is not None:
        return spaced
    if word.kind in _OPENS:
        return _bracketed(words, at) or _one_a_bracket(words, at)
    if word.kind == "number" and kind_at(words, at - 1) in ("*", "times"):
        listed = _leading(words, at)
        if listed is not None:
            # `(sc, inc)*6 [18]` is no list
            return listed if len(listed.values) > 2 or (sizes == 2 and _two_times(words, listed)) else None
        return _slashed(words, at)
    if word.kind == "-" and kind_at(words, at + 1) == "/":
        return _slashed(words, at)
    if word.kind == "number" or (word.kind == "-" and kind_at(words, at + 1) in _OPENS):
        if word.kind == "-":
            return _leading(words, at)
        dashed = _dashed(words, at, sizes) if kind_at(words, at + 1) == "-" else None
        return dashed or _leading(words, at) or _slashed(words, at) or _bare(words, at)
    return None


def _two_times(words: Sequence[Word], found: _Found) -> bool:
    """Tell whether two figures after a times sign are how often for two sizes, and not how often and a count."""
    after = kind_at(words, found.end)
    if after in ("times", "more", ",", ";", "stitch", "st"):
        return True
    first, second = found.values
    near = first is not None and second is not None and first <= second <= 1.5 * first
    counts = (
        kind_at(words, at) == "number" and kind_at(words, at + 1) in _OPENS for at in range(found.end, len(words))
    )
    return near or (after not in ("", "number") and any(counts))


def _measures(words: Sequence[Word], at: int) -> int:
    """Return the index after a list of measures, one a size, `5 (5\u00bd, 6)`; 0 where no such list begins."""
    if words[at].kind not in ("number", "measure"):
        return 0
    measured, end = words[at].kind == "measure", at + 2
    while kind_at(words, end) in ("number", "measure") or (end > at + 2 and kind_at(words, end) in _SEPARATORS):
        measured = measured or words[end].kind == "measure"
        end += 1
    return end + 1 if measured and kind_at(words, end) in _OPENS.values() else 0


def _record(words: Sequence[Word], at: int, found: _Found) -> FigureList:
    start = words[at + found.before].span.start
    return FigureList(found.values, Span(start, words[found.end - 1].span.end), found.style, found.inner)


def lists_in(words: Sequence[Word]) -> list[FigureList]:
    """Find all that looks like a list of figures, whatever its length."""
    found: list[FigureList] = []
    at = 0
    while at < len(words):
        one = _list_at(words, at) if words[at].kind in _BEGIN_LISTS and not _of_stitch(words, at) else None
        if one is None:
            at += 1
            continue
        if at and words[at].kind == "-" and one.style is not ListStyle.SLASH and len(one.values) > 2:
            # not for the smallest size, or before a count: the other lists tell
            at = one.end
            continue
        found.append(_record(words, at, one))
        at = one.end
    return found


def number_of_sizes(lists: Sequence[FigureList]) -> int:
    """Return the length that most lists share: 1 where there are too few lists to tell."""
    # counts of a sock's needles go up and down again: `(14, 28, 14)`; some figure of every size grows with it
    growing = {len(one.values) for one in lists if _rises(one.values)}
    pairs = sum(one.style is ListStyle.SLASH and _may_be_two_sizes(one.values) for one in lists)
    lengths = Counter(
        len(one.values)
        for one in lists
        if len(one.values) in growing
        and not (one.style is ListStyle.SLASH and len(one.values) == 2 and pairs < _MANY_PAIRS)
        and not (one.style is ListStyle.BARE and len(one.values) == 2)
        and not (one.style is ListStyle.INSIDE and one.inner == "-" and len(set(one.values)) == 1)
    )
    if not lengths:
        return 1
    length, often = lengths.most_common(1)[0]
    sure = 1 if length >= 3 else 2
    return length if often >= sure else 1


_MANY_PAIRS = 5  # from this many on, figures with a stroke between them are no fractions


def _may_be_two_sizes(values: Sequence[int | None]) -> bool:
    """Tell whether two figures with a stroke between them may be for two sizes: `22/26`, and not `1/2`."""
    if len(values) != 2 or values[0] is None or values[1] is None:
        return False
    return _LEAST_OF_SIZE < values[0] < values[1] <= 2 * values[0]


_LEAST_OF_SIZE = 4  # stitches; below it a fraction is likelier


def _is_list_of_sizes(words: Sequence[Word], found: _Found, sizes: int) -> bool:
    """Tell whether a list of the wrong length must be one of sizes all the same."""
    if found.style is ListStyle.SLASH and len(found.values) == 2 and sizes > 2:
        # `16/18 sts` for three sizes
        return kind_at(words, found.end) in ("st", "stitch") and _may_be_two_sizes(found.values)
    if found.style in (ListStyle.BARE, ListStyle.SLASH):
        return len(found.values) > 2 and sizes > 2 and _rises(found.values)
    if len(found.values) > 2:
        return True
    return sizes > 2 and kind_at(words, found.end) in ("st", "stitch") and len(set(found.values)) > 1


def _rises(values: Sequence[int | None]) -> bool:
    known = [value for value in values if value is not None]
    return all(a <= b for a, b in itertools.pairwise(known)) or all(a >= b for a, b in itertools.pairwise(known))


def _named(words: Sequence[Word], at: int, names: tuple[str, ...]) -> _Found | None:
    """Read `S: 48, M: 56, L: 64`, a figure after the name of every size, in order."""
    values: list[int | None] = []
    index = at
    for name in names:
        if values and kind_at(words, index) in (",", ";", "/"):
            index += 1
        if index >= len(words) or words[index].text != name:
            return None
        index += 1
        if kind_at(words, index) in (":", "=", "-"):
            index += 1
        if kind_at(words, index) not in ("number", "-"):
            return None
        values.append(_value(words[index]))
        index += 1
    return _Found(tuple(values), index, ListStyle.NAMED, ",")


def _begins_early(words: Sequence[Word], at: int, found: _Found) -> bool:
    """Tell whether the first figure may be none of the list: `- (8, 11) sts`, `ch 1,(8, 11) sc`, `ch-1 (8, 11)`."""
    apart = words[at].kind == "-" or kind_at(words, at + 1) == "," or _of_stitch(words, at)
    return apart or (kind_at(words, at + 1) in _OPENS and _out_of_step(found.values))


def _numbers_round(words: Sequence[Word], at: int) -> bool:
    """Tell whether a number is that of a round: `Rep Row 2 (6/8/10)`, `Repeat Rnds 2 and 3 (4, 4, 4) times`."""
    while kind_at(words, at - 1) in ("-", "&", "noise", "into") and kind_at(words, at - 2) == "number":
        at -= 2
    return kind_at(words, at - 1) == "round"


def _out_of_step(values: Sequence[int | None]) -> bool:
    """Tell whether the first figure is far from the others, which lie close together: `inc 1 (45, 54, 63, 72)`."""
    first, *others = values
    if first is None or any(value is None for value in others):
        return False
    known = [value for value in others if value is not None]
    steps = [abs(b - a) for a, b in itertools.pairwise(known)]
    return bool(steps) and abs(known[0] - first) > 2 * max(steps) + 2


def _of_stitch(words: Sequence[Word], at: int) -> bool:
    """Tell whether a number belongs to the stitch before it by a hyphen: `top of ch-1`."""
    return kind_at(words, at - 1) == "-" and kind_at(words, at - 2) == "stitch" and not words[at].blank


def lift(
    words: Sequence[Word], sizes: int, only: tuple[int, ...] | None = None, names: tuple[str, ...] = ()
) -> tuple[tuple[Word, ...], tuple[FigureList, ...]]:
    """Replace each list of as many figures as there are sizes by one word; return all lists found.

    Where the words are for some sizes `only`, a list of as many figures as those is one of theirs. `names` are the
    sizes' names in lower case, for lists that name each size.
    """
    lifted: list[Word] = []
    lists: list[FigureList] = []
    at = 0
    while at < len(words):
        found = _list_at(words, at, sizes) if sizes > 1 and words[at].kind in _BEGIN_LISTS else None
        if found is not None and len(found.values) == sizes + 1 and _numbers_round(words, at):
            found = None  # `Rep Row 2 (6/8/10)`: the number is the row's
        if found is not None and len(found.values) == sizes + 1 and _begins_early(words, at, found):
            found = None  # `sc around - (8, 11) sts`: the dash stands before the count; `ch 1,(8, 11) sc`
        if found is None and len(names) > 1 and words[at].text == names[0]:
            found = _named(words, at, names)
        if found is None:
            end = _measures(words, at) if sizes > 1 and kind_at(words, at + 1) in _OPENS else 0
            span = Span(words[at].span.start, words[(end or at + 1) - 1].span.end)
            lifted.append(Word("", "measure", span, blank=words[at].blank) if end else words[at])
            at = end or at + 1
            continue
        record = _record(words, at, found)
        if only and 1 < len(only) < sizes and len(found.values) == len(only):
            own = dict(zip(only, found.values, strict=True))
            found = replace(found, values=tuple(own.get(size) for size in range(sizes)))
        if len(found.values) == sizes:
            lists.append(record)
            lifted.extend(words[at : at + found.before])
            lifted.append(
                Word(
                    "",
                    "number",
                    record.span,
                    value=next((v for v in found.values if v is not None), None),
                    blank=words[at].blank,
                    values=found.values,
                )
            )
        elif _is_list_of_sizes(words, found, sizes):
            # which size's figure is wanting or too many can't be told: the word stands for no number
            lists.append(record)
            lifted.extend(words[at : at + found.before])
            lifted.append(Word("", "number", record.span, blank=words[at].blank, values=(None,) * sizes))
        else:
            lifted.extend(words[at : found.end])
        at = found.end
    return tuple(lifted), tuple(lists)
