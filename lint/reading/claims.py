"""Claims: the counts that a draft states, lifted out of a round before or while its steps are read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..draft import Span
from ..figures import Figure
from ..pattern import Claim
from ..steps import ANY_GROUP, group_name
from .groups import GROUP_WORDS, is_group
from .marks import Group, Item, flat, kind, span_of, text_at
from .times import figure_at
from .words import Word


def _stitch_kind(items: Sequence[Item], index: int) -> tuple[str, bool] | None:
    """Return the id of a stitch named at an index and whether it is a chain."""
    item = items[index] if 0 <= index < len(items) else None
    if isinstance(item, Word) and item.stitch is not None:
        return item.stitch.id, item.stitch.kind == "chain"
    return None


def claims_in(items: Sequence[Item]) -> tuple[Claim, ...]:
    """Read figures with units: `24`, `24 sts`, `24 dc, 12 ch-1 sps`, `8 clusters`, `11 dc + ch 3`, `72, 80 sc`."""
    found: list[Claim] = []
    index = 0
    apart = False
    while index < len(items):
        stitch = _stitch_kind(items, index)
        if found and stitch and stitch[1] and kind(items, index - 1) in ("+", "noise", ","):
            # `11 dc + ch 3`: the chain is named apart from the stitches; `16 sc and ch-2`: a space
            index, turning = _past_chain(items, index)
            apart = apart or turning
            continue
        figure = figure_at(items, index)
        if figure is None:
            index += 1
            continue
        start = index
        index += 1
        claim, index = _with_unit(items, start, index, figure)
        found.append(claim)
    if apart and found:
        found[0] = replace(found[0], chain_apart=True)
    return tuple(found)


def _past_chain(items: Sequence[Item], index: int) -> tuple[int, bool]:
    """Pass over a chain counted beside stitches; tell whether it may be a beginning chain that stands for one."""
    dash = kind(items, index + 1) == "-"
    figure = figure_at(items, index + 1 + dash)
    if figure is None:
        return index + 1, False
    stop = index + 2 + dash
    space = kind(items, stop) == "space"
    return stop + space, not dash and not space and (figure.values[0] or 0) >= MOST_SPACE


MOST_SPACE = 3  # chains; a shorter one named beside stitches is no beginning chain that stands for one


def _with_unit(items: Sequence[Item], start: int, index: int, figure: Figure) -> tuple[Claim, int]:
    stitch = _stitch_kind(items, index)
    end = index
    if (stop := past_sized_space(items, index)) is not None:
        words = " ".join(_plain(items[index:stop]))
        return Claim(figure, "space", span_of(items[start:stop]), unit=words), stop
    if stitch and stitch[1]:
        # `12 ch-1 sps`: a count of spaces
        stop = index + 1
        while kind(items, stop) in ("-", "number"):
            stop += 1
        # `6 ch-2` are spaces too, by their size
        spaces = kind(items, stop) == "space" or (kind(items, index + 1) == "-" and stop == index + 3)
        named = kind(items, stop) == "space" or text_at(items, stop) in ("corner", "corners")
        end = stop + named if spaces else index + 1
        words = " ".join(_plain(items[index:end]))
        return Claim(figure, "ch" if not spaces else "space", span_of(items[start:end]), unit=words or "ch"), end
    item = items[index] if index < len(items) else None
    if isinstance(item, Word) and item.stitch is not None and (item.stitch.kind == "group" or is_group(item)):
        # shells, clusters, V-stitches: a count of groups, each of several stitches or made in more than one way
        group = group_name(item.stitch.id)
        return Claim(figure, "other", span_of(items[start : index + 1]), unit=item.text, group=group), index + 1
    if stitch:
        unit = text_at(items, index)
        kind_ = stitch[0]
        end = index + 1
        while kind(items, end) == "loops":  # `10 hdc BLO`
            end += 1
        return Claim(figure, kind_, span_of(items[start:end]), unit=unit), end
    if kind(items, index) == "st":
        return Claim(figure, "st", span_of(items[start : index + 1])), index + 1
    if kind(items, index) in ("space",):
        return Claim(figure, "space", span_of(items[start : index + 1]), unit=text_at(items, index)), index + 1
    word = text_at(items, index)
    if kind(items, index) == "word" and word not in (
        "made",
        "now",
        "around",
        "plus",
        "each",
        "inc",
        "size",
        "sizes",
        "per",
        "remaining",
        "count",
        "and",
    ):
        group = ANY_GROUP if word in GROUP_WORDS else ""
        return Claim(figure, "other", span_of(items[start : index + 1]), unit=word, group=group), index + 1
    return Claim(figure, "st", span_of(items[start:end])), end


def past_sized_space(items: Sequence[Item], index: int) -> int | None:
    """Return the index after a space named by its chains, number first: `1-ch sps`, `3ch-sp`; None for others."""
    if kind(items, index) != "number":
        return None
    stop = index + 1
    if kind(items, stop) == "-":
        stop += 1
    if kind(items, stop) == "space" and text_at(items, stop).startswith("ch"):
        return stop + 1  # `chain space` is one word
    stitch = _stitch_kind(items, stop)
    if not stitch or not stitch[1]:
        return None
    stop += 1
    if kind(items, stop) == "-":
        stop += 1
    if text_at(items, stop) == "corner":
        return stop + 1 + (kind(items, stop + 1) == "space")
    return stop + 1 if kind(items, stop) == "space" else None


def _plain(items: Sequence[Item]) -> list[str]:
    return [item.text for item in items if isinstance(item, Word)]


def claim_of_group(group: Group) -> tuple[Claim, ...]:
    """Read the claims of a bracket; they point at the figures inside it.

    What a count is said to include (`100 incl. chains`, `44 sts, each ch-1 counts as a st`) is no count of its own.
    """
    if kind(group.items, 0) == "+":
        return ()  # `(+2 sts)` is how many more there are
    claims = claims_in(group.items)
    words = list(flat(group.items))
    at = next((n for n, word in enumerate(words) if word.kind == "counts" or word.text in INCLUDED), None)
    if at is None or not claims:
        return claims
    chains = any(word.stitch is not None and word.stitch.kind == "chain" for word in words[at:])
    plural = any(word.text in ("chains", "chs", "sps", "spaces") for word in words[at:])
    return (replace(claims[0], with_chains=chains and plural),)


_BESIDE = (",", "+", "noise", "/", "=")  # between two counts of one row
INCLUDED = {"included", "including", "includes", "counting", "counted", "incl"}
_SAID_AFTER = {"now", "made", "total", "around", "on", "needle", "needles", "the", "left", "all"}
_YOU_HAVE = {
    "you",
    "should",
    "have",
    "now",
    "will",
    "total",
    "there",
    "are",
    "is",
    "makes",
    "making",
    "giving",
    "leaving",
    "gives",
    "equals",
    "count",
    "end",
    "with",
}


EDGES = frozenset({"edge", "end", "ends", "side", "sides", "edges"})  # of a row, where it is shaped


def trailing_claim(items: Sequence[Item], index: int) -> tuple[tuple[Claim, ...], int] | None:
    """Read a count without brackets that begins at an index: `= 24 sts`, `- 24 sc`, `you should have 24 sts`.

    Returns the claims and the index after them.
    """
    what = kind(items, index)
    at = index
    if what == ":" and kind(items, index - 1) in ("word", "noise", "remark") and text_at(items, index - 1) not in EDGES:
        return None  # `with brown: 12 dc`; but `dec 1 st at each end: 58 sc`
    if what in ("=", "-", ":", "|", ">"):
        while kind(items, at) in ("=", "-", ":", "|", ">", "total", "noise") or text_at(items, at) in _YOU_HAVE:
            at += 1
    elif text_at(items, index) in _YOU_HAVE or what == "total" or _at_the_end(items, index):
        spoken, named = 0, _at_the_end(items, index)
        while text_at(items, at) in _YOU_HAVE or kind(items, at) in ("total", "noise", ":", "=", "-"):
            spoken += 1
            at += 1
            if kind(items, at) in ("round", "row_ends") and named:
                at += 1 + (kind(items, at + 1) == "number")  # `at the end of row 10 you have 62 sts`
                at += kind(items, at) == ","
        if not spoken or spoken > 8:
            return None
    else:
        return None
    figure = figure_at(items, at)
    if figure is None or at == index or kind(items, at + 1) in ("rep", "round"):
        return None
    claim, end = _with_unit(items, at, at + 1, figure)
    found = [claim]
    while (
        kind(items, end) in _BESIDE
        and figure_at(items, end + 1) is not None
        and (_named(items, end + 2) or past_sized_space(items, end + 2) is not None or _counts_things(items, end + 2))
    ):
        more, stop = _with_unit(items, end + 1, end + 2, figure_at(items, end + 1) or figure)
        found.append(more)
        end = stop
    if what in ("-", "=") and (bare := _bare_counts(items, end)) is not None:
        more, end = bare
        found.extend(more)
    while kind(items, end) in ("total", "remain", "rest") or text_at(items, end) in _SAID_AFTER:
        end += 1
    if text_at(items, end) in ("1", "2", "3", "4"):
        return None  # `25 sts on needle 1`
    if what in ("-", ":", "|", ">") and (not _closes(items, end) or _works_on(items, end)):
        return None
    if what not in ("=", "-", ":", "|", ">") and claim.kind == "other" and not claim.group:
        return None
    return tuple(found), end


def _at_the_end(items: Sequence[Item], index: int) -> bool:
    """Tell whether `at the end of row 10`, `at end of this row` stands here."""
    near = range(index + 1, index + 3)
    return text_at(items, index) == "at" and any(
        text_at(items, at) == "end" or (kind(items, at) == "row_ends" and text_at(items, at).startswith("end"))
        for at in near
    )


def _bare_counts(items: Sequence[Item], index: int) -> tuple[list[Claim], int] | None:
    """Read the rest of counts one a round, `- 32, 40, 48`, that go on to the end."""
    found: list[Claim] = []
    while kind(items, index) == "," and (figure := figure_at(items, index + 1)) is not None:
        found.append(Claim(figure, "st", items[index + 1].span))
        index += 2
    return (found, index) if found and kind(items, index) in ("", ".") else None


def _works_on(items: Sequence[Item], index: int) -> bool:
    """Tell whether stitches are worked after an index, so that what stood before it is no closing count."""
    rest = past_turn(items, index)
    return any(word.kind in ("stitch", "next", "each", "rep", "skip", "*") for word in flat(items[rest:]))


def past_turn(items: Sequence[Item], index: int) -> int:
    """Pass over what ends a row behind its count: `. Ch 3 (counts as dc), turn.`, `ch 2 to turn each row`."""
    stop = index
    while stop < len(items):
        item = items[stop]
        if isinstance(item, Group):
            if not any(word.kind == "counts" for word in flat(item.items)):
                break
        elif item.kind == "stitch" and item.stitch is not None and item.stitch.kind == "chain":
            number = stop + 1 + (kind(items, stop + 1) == "-")
            to = kind(items, number + 1) == "into" and kind(items, number + 2) == "turn"  # `ch 2 to turn`
            after = kind(items, number + 1)
            if kind(items, number) != "number" or not (to or after in ("", ",", ".", ";", "turn", "group")):
                break
            stop = number + to
        elif item.kind == "each" and kind(items, stop - 1) == "turn" and kind(items, stop + 1) == "round":
            stop += 1  # `turn each row`
        elif item.kind not in (".", ";", ",", "turn", "fasten", "noise"):
            break
        stop += 1
    return stop


def _counts_things(items: Sequence[Item], index: int) -> bool:
    """Tell whether a count of something else ends here: `46 sc and 5 buttonholes`."""
    return kind(items, index) == "word" and kind(items, index - 2) == "noise" and kind(items, index + 1) in ("", ".")


def _named(items: Sequence[Item], index: int) -> bool:
    return kind(items, index) in ("stitch", "st", "space")


def _closes(items: Sequence[Item], index: int) -> bool:
    if kind(items, index) in ("", ".", ";", "group", ",", "|", "-") or index >= len(items):
        return True
    return text_at(items, index - 1).endswith(".")  # `sts.` is one word with its full stop


def sentence_claim(items: Sequence[Item], index: int) -> tuple[tuple[Claim, ...], int] | None:
    """Read a count that is a sentence of its own at the end: `. 24 sts.`; the unit must be named."""
    figure = figure_at(items, index)
    if figure is None or not (_named(items, index + 1) or not _goes_on(items, index + 1)):
        return None
    claim, end = _with_unit(items, index, index + 1, figure)
    found = [claim]
    while kind(items, end) in _BESIDE and (more := figure_at(items, end + 1)) is not None:
        told_again = kind(items, end) == "=" and kind(items, end + 2) == "word"  # `34 dc = 11 squares`
        if not told_again and not _named(items, end + 2) and past_sized_space(items, end + 2) is None:
            break
        claim, end = _with_unit(items, end + 1, end + 2, more)
        found.append(claim)
    while kind(items, end) in ("total", "around", "remain", "rest") or text_at(items, end) in _SAID_AFTER:
        end += 1
    chain = _stitch_kind(items, end + 1)
    if kind(items, end) in (",", "+", "noise") and chain is not None and chain[1]:
        end, turning = _past_chain(items, end + 1)
        found[0] = replace(found[0], chain_apart=turning)
    rest = end
    if text_at(items, rest) in INCLUDED:
        words = list(flat(items[rest:]))
        chains = any(word.stitch is not None and word.stitch.kind == "chain" for word in words)
        found[0] = replace(found[0], with_chains=chains)
        rest = end = len(items)
    if kind(items, rest) == "," and any(text_at(items, n) in INCLUDED for n in range(rest, min(rest + 8, len(items)))):
        rest = end = len(items)
    rest = past_turn(items, rest)
    talk = rest > end and not any(
        word.kind in ("stitch", "each", "next", "skip", "rep", "*", "number") for word in flat(items[rest:])
    )
    return (tuple(found), end) if rest >= len(items) or talk else None


def _goes_on(items: Sequence[Item], index: int) -> bool:
    return any(item.kind not in (".", ";", "|") for item in items[index:])


def spread_over(claim: Claim, figures: Sequence[int], span: Span) -> Claim:
    """Turn a list of counts, one a round, into the claim for the last of them."""
    return replace(claim, figure=Figure((figures[-1],), span), each_round=tuple(figures))
