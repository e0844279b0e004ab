"""Roles: the one place that decides what a bracket is, from what stands inside, before and after."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum

from ..steps import Count
from .claims import INCLUDED, past_sized_space
from .groups import GROUP_WORDS
from .marks import Group, Item, flat, kind, text_at
from .places import read_place
from .times import figure_at, read_remainder, read_times
from .words import Word


class Role(Enum):
    """What a bracket is."""

    NUMBER = "number"  # a list of figures that stands for a number
    COUNT = "count"  # a stated count
    TIMES = "times"  # how often the step before it is worked
    REPEAT = "repeat"  # steps, worked as often as said after it
    PLACEMENT = "placement"  # steps, all in one place
    STEPS = "steps"  # steps with nothing after
    COUNTS_AS = "counts as"  # what a chain stands for
    ROUNDS = "rounds"  # a number of rounds
    STAR = "star"  # holds a whole `rep from *`
    REMARK = "remark"


_TALK = {"remark", "side", "loops", "spiral"}
_TALKING = {
    "see",
    "note",
    "optional",
    "or",
    "i.e.",
    "if",
    "when",
    "not",
    "shell",
    "corner",
    "first",
    "but",
    "you",
    "for",
    "don't",
    "this",
    "these",
    "it",
}


def _is_count(group: Group, *, closes: bool = False) -> bool:
    """Tell whether a bracket holds nothing but figures with units: `24 sts`, `11 dc + ch 3`, `8 clusters, 40 sts`."""
    items = group.items
    named = [word.stitch.id for word in flat(items) if word.stitch is not None and word.stitch.kind != "chain"]
    chains = any(word.stitch is not None and word.stitch.kind == "chain" for word in flat(items))
    if len(named) != len(set(named)) and not (closes and len(set(named)) == 1 and not chains):
        return False  # `2 dc, ch 2, 2 dc` is worked; `48 dc, 60 dc` may be one count a round
    figures = 0
    index = 0
    while index < len(items):
        if figure_at(items, index) is not None:
            figures += 1
            index += 1
            if (stop := past_sized_space(items, index)) is not None:
                index = stop
                continue
            things = closes and (text_at(items, index) in GROUP_WORDS or _names_things(items, index))
            if kind(items, index) in ("st", "stitch", "space") or things:
                index += 1
            if kind(items, index) in ("st", "space", "loops", "around", "stitch") and _unit_goes_on(items, index):
                index += 1
            if kind(items, index) in ("total", "noise", "remain", "rest", "around") or text_at(items, index) in (
                "made",
                "now",
                "inc",
                "st's",
            ):
                index += 1
            continue
        what = kind(items, index)
        if what in (",", "+", ";", "=", "-", ".", "/", "total", "noise", ":") or text_at(items, index) in (
            "plus",
            "st",
            "sts",
            "stitches",
            "count",
        ):
            index += 1
        elif what == "stitch" and figures and _is_chain(items, index) and _beside(items, index - 1, closes=closes):
            index += 1
            if kind(items, index) == "-":
                index += 1
        else:
            return False
    return figures > 0


def _names_things(items: Sequence[Item], index: int) -> bool:
    """Tell whether an unknown word is what a count beside one of stitches counts: `6 points, 54 sts`."""
    word = text_at(items, index)
    stitches = any(
        kind(items, at) in ("st", "stitch") and figure_at(items, at - 1) is not None for at in range(len(items))
    )
    return kind(items, index) == "word" and len(word) > LEAST_OF_MANY and word.endswith("s") and stitches


LEAST_OF_MANY = 3  # letters; a shorter word with an s is no plural of things


def _beside(items: Sequence[Item], index: int, *, closes: bool) -> bool:
    """Tell whether a chain after this sign is counted beside the stitches: `11 dc + ch 3`, `16 sc, ch 2` at the end."""
    return kind(items, index) in ("+", "noise") or (closes and kind(items, index) == ",")


def _unit_goes_on(items: Sequence[Item], index: int) -> bool:
    return kind(items, index - 1) == "stitch" and kind(items, index) != "stitch"


def _is_chain(items: Sequence[Item], index: int) -> bool:
    item = items[index]
    return isinstance(item, Word) and item.stitch is not None and item.stitch.kind == "chain"


def _count_with_remark(group: Group) -> bool:
    """Tell whether a bracket holds a count and then says what it counts: `44 sts, each ch-1 counts as a st`."""
    items = group.items
    if figure_at(items, 0) is None:
        return False
    index = 1
    while kind(items, index) in ("st", "stitch", "total", ","):
        index += 1
    said = (word.kind == "counts" or word.text in (*INCLUDED, "with") for word in flat(items[index:]))
    return text_at(items, index) in INCLUDED or (kind(items, 1) == "st" and kind(items, 2) == "," and any(said))


def _says_again(items: Sequence[Item], index: int) -> bool:
    """Tell whether a bracket only gives the short name of the stitch before it: `15 double crochet (dc) into ring`."""
    group, before = items[index], items[index - 1] if index else None
    word = group.items[0] if isinstance(group, Group) and len(group.items) == 1 else None
    if not isinstance(word, Word) or not isinstance(before, Word) or word.stitch is None or before.stitch is None:
        return False
    return word.stitch.id == before.stitch.id and before.text != word.text


def _names_group(group: Group) -> bool:
    """Tell whether a bracket only gives the name of what was worked: `(an open mesh)`, `(a shell)`."""
    words = list(flat(group.items))
    return len(words) == 2 and words[0].text in ("a", "an") and words[1].stitch is not None


def _only_place(group: Group) -> bool:
    """Tell whether a bracket only says more of a place: `(over dc of 2nd row)`."""
    placed = read_place(group.items, 0) if kind(group.items, 0) in ("over", "between") else None
    return placed is not None and placed.end >= len(group.items)


def _counts_as(group: Group) -> bool:
    """Tell whether a bracket says what a chain counts as; not one that holds stitches and a bracket that says so."""
    words = [word for word in flat(group.items) if word.kind != "."]
    if len(words) > 2 and (words[0].text, words[1].text) == ("c", "as"):
        return True  # `(c. as dc)`
    if not any(word.kind == "counts" for word in words):
        return False
    own = [item for item in group.items if not (isinstance(item, Group) and _counts_as(item))]
    worked = any(word.stitch is not None and word.stitch.kind != "chain" for word in flat(own))
    return not worked or any(word.kind == "counts" for word in own)


def _stands_for(items: Sequence[Item], index: int) -> bool:
    """Tell whether a bracket only names what the chain before it stands for: `Ch 4 (dc + ch 1)`, `ch 3 (first dc)`.

    For a stitch and a space the chain must be as long as the two together.
    """
    group = items[index]
    every = list(flat(group.items)) if isinstance(group, Group) else []
    words = [word for word in every if word.kind not in _STAND_IN]
    if every[:1] and every[0].kind == "=" and kind(items, index - 1) == "hook":
        return len(words) == 2 and words[0].value == 2 and words[1].stitch is not None  # `1 dc in 4th ch (= 2 dc)`
    if words and words[0].value == 1:
        words = words[1:]
    number = figure_at(items, index - 1)
    at = index - 2 if number is not None else index - 1
    if at < 0 or not _is_chain(items, at) or not words or any(_is_made(word) for word in flat(items[:at])):
        return False
    if number is None:
        number = figure_at(items, at - 1)
    stitch = words[0].stitch
    if number is None or stitch is None or stitch.kind == "chain" or not stitch.height:
        return False
    if len(words) == 1:
        return number.values[0] in (stitch.height, stitch.height + 1) and stitch.height > 1
    if len(words) != 3:
        return False
    chains, link = sorted(words[1:], key=lambda word: word.kind != "number")  # `dc, ch 3` and `tr, 3ch`
    space = chains.value if chains.kind == "number" else None
    chain = link.stitch is not None and link.stitch.kind == "chain"
    return chain and space is not None and number.values[0] == stitch.height + space


def _is_made(word: Word) -> bool:
    """Tell whether a word names a stitch of the round: more than a chain or a slip stitch that leads to its start."""
    return word.stitch is not None and word.stitch.kind != "chain" and word.stitch.id != "slst"


_STAND_IN = {"first", "noise", "=", "+", ",", "-", "&"}


def _has_steps(group: Group) -> bool:
    return any(word.kind in ("stitch", "skip") for word in flat(group.items)) or (
        any(word.kind == "number" for word in flat(group.items))
        and any(word.kind == "st" for word in flat(group.items))
    )


def _talk(group: Group) -> bool:
    words = list(flat(group.items))
    if not words:
        return True
    if words[0].kind in _TALK or words[0].text in _TALKING:
        return True
    if words[0].text == "working" and not any(word.kind == "number" for word in words):
        return True
    return any(word.text in ("made", "formed", "see", "twist", "not") for word in words) or not _has_steps(group)


def _closes_round(items: Sequence[Item], index: int) -> bool:
    """Tell whether no stitch is worked after the bracket at an index."""
    return not any(word.kind in ("stitch", "rep", "*") for word in flat(items[index + 1 :]))


def _plain_stitch(items: Sequence[Item], index: int) -> bool:
    item = items[index]
    return isinstance(item, Word) and item.stitch is not None and item.stitch.kind not in ("increase", "decrease")


def _only_stitch(items: Sequence[Item], index: int) -> bool:
    """Tell whether the stitch before a bracket is all there is to the round: `SC (18)`."""
    return not any(item.kind in ("stitch", "group", "number", "rep") for item in items[: index - 1])


def _takes_number(items: Sequence[Item], index: int) -> bool:
    """Tell whether a number is wanted here: `sc (5, 6, 6)`, `next (8, 9, 9)`, `(36, 44) fsc`, `ch (11, 12)`."""
    before = kind(items, index - 1)
    after = kind(items, index + 1)
    if after == "times" or (after == "more" and kind(items, index + 2) == "times"):
        return True
    if after in ("stitch", "st", "space", "round") and before not in ("around",):
        return True
    if text_at(items, index - 1) == "x" and figure_at(items, index - 2) is not None:
        return False
    if before == "each" and _closes_round(items, index):
        figure = figure_at(items, index)
        return figure is not None and figure.is_list
    if before in ("next", "last", "each", "over", "skip", "first") or text_at(items, index - 1) in (
        "of",
        "x",
    ):
        return True
    if before == "stitch":
        if _closes_round(items, index):
            figure = figure_at(items, index)
            listed = figure is not None and figure.is_list
            return _plain_stitch(items, index - 1) if listed else _only_stitch(items, index)
        item = items[index - 1]
        two = kind(items, index - 2)
        named_place = (
            two in ("next", "each", "last", "same", "into", "first", "noise") or figure_at(items, index - 2) is not None
        )
        chain = isinstance(item, Word) and item.stitch is not None and item.stitch.kind == "chain"
        return chain or not named_place
    return before == "-" and kind(items, index - 2) == "stitch"


def role(items: Sequence[Item], index: int) -> Role:
    """Decide what the bracket at an index is."""
    group = items[index]
    assert isinstance(group, Group)
    after = index + 1
    if any(word.text in ("made", "formed") for word in flat(group.items)) and any(
        word.kind == "stitch" for word in flat(group.items)
    ):
        return Role.REMARK
    if _count_with_remark(group) and _closes_round(items, index):
        return Role.COUNT
    if _says_again(items, index) or _only_place(group) or _names_group(group):
        return Role.REMARK
    if _counts_as(group) or _stands_for(items, index):
        return Role.COUNTS_AS
    words = list(flat(group.items))
    if _tells_repeats(words):
        return Role.REMARK
    if words and words[0].kind == "rep" and any(word.kind == "*" for word in words):
        return Role.STAR
    inner = read_times(group.items, 0)
    alone = len(words) == 1 and words[0].kind == "number"
    if (
        inner
        and inner.end >= len(group.items)
        and not alone
        and (inner.times.number is not None or kind(items, index - 1) in ("stitch", "group", "*"))
    ):
        return Role.TIMES
    if figure_at(items, index) is not None:
        return Role.NUMBER if _takes_number(items, index) else Role.COUNT
    if (
        any(word.kind == "round" for word in words)
        and any(word.kind == "number" for word in words)
        and not any(word.kind in ("stitch", "rep", "st") for word in words)
    ):
        return Role.ROUNDS
    follows_times = read_times(items, after)
    follows_place = (
        read_place(items, after) if kind(items, after) in ("into", "loops", "over", "between", "post") else None
    )
    stops = read_remainder(items, after) or (follows_times is not None and follows_times.times.count is Count.TO_END)
    if stops and text_at(items, after) in ("to", "until", "till"):
        follows_place = None  # `(sc 2, inc) to last 3 sts`, `(ch 1, 3 dc in next sp) to corner`
    if (
        _is_count(group, closes=_closes_round(items, index))
        and (not follows_times or any(word.kind == "st" for word in words))
        and not follows_place
        and not _single_before_rep(items, after)
        and not _counted_before(items, index)
    ):
        return Role.COUNT
    if _talk(group) and not (follows_times and _has_steps(group)):
        return Role.REMARK
    if not _has_steps(group):
        return Role.REMARK
    if follows_place and not (follows_times and follows_times.times.number is not None):
        return Role.PLACEMENT
    if follows_times or kind(items, after) in ("rep", "*") or kind(items, index - 1) == "rep":
        return Role.REPEAT
    return Role.STEPS


def _counted_before(items: Sequence[Item], index: int) -> bool:
    """Tell whether a bracket with a change in it has its number of times before it: `6 x (1 sc, 1 inc)`."""
    before = index - 1 - (kind(items, index - 1) in ("times", "*"))
    group = items[index]
    changes = (word.stitch is not None and word.stitch.kind in ("increase", "decrease") for word in flat([group]))
    return kind(items, before) == "number" and any(changes)


def _tells_repeats(words: Sequence[Word]) -> bool:
    """Tell whether words say how many repeats of a pattern there are: `= 15 repetitions of 8 sts`."""
    return any(
        words[at].kind == "number"
        and (words[at + 1].kind == "rep" or words[at + 1].text in ("repetitions", "reps"))
        and words[at + 2].text == "of"
        and words[at + 3].kind == "number"
        for at in range(len(words) - 3)
    )


def _single_before_rep(items: Sequence[Item], after: int) -> bool:
    return kind(items, after) == "rep"
