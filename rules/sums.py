"""The pencil sum: a round as a maker would check it, and the words for rounds, sizes and counts."""

from __future__ import annotations

from collections.abc import Sequence

from ..lint.later import later
from ..lint.pattern import Round
from ..lint.workings import Deed, Item, RoundWorking, SizeWorking
from .rule import Case

MOST_LINES = 8
LONGEST_WORDS = 44
LONGEST_LABEL = 32
_NUMBER_ALONE = later(r"\d{1,3}(st|nd|rd|th)?")


def number_of(number: int, unit: str = "sts") -> str:
    """Return a number with its unit, in the singular where it is one: `1 st`, `72 sts`."""
    if number == 1 and unit.endswith("s"):
        unit = unit[:-1]
    return f"{number} {unit}"


def join_words(words: Sequence[str], last: str = "and") -> str:
    """Return words as a list in a sentence: `Small, Medium and Large`."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def size_name(case: Case, size: int) -> str:
    """Return the draft's name for a size, or `size 2` where it has none."""
    names = case.pattern.sizes.names
    return names[size] if size < len(names) and names[size] else f"size {size + 1}"


def for_sizes(case: Case, sizes: Sequence[int]) -> str:
    """Return ` for Small and Medium`, with a blank before it; nothing where it is about all sizes."""
    if len(sizes) in (0, case.pattern.sizes.number):
        return ""
    return f" for {join_words([size_name(case, size) for size in sizes])}"


def round_name(round_: Round) -> str:
    """Return what to call a round in a sentence: its label as written, or what it is."""
    noun = "row" if round_.flat else "round"
    label = " ".join(round_.label.split()).strip(" .:;-*|")
    if _NUMBER_ALONE.fullmatch(label):
        return f"{noun} {label}"
    if not label or len(label) > LONGEST_LABEL:
        return f"this {noun}"
    return label


def figures_by_size(case: Case, sizes: Sequence[int], figures: Sequence[int], unit: str) -> str:
    """Return `70 sts`, or `70 sts for Small and 80 for Large` where sizes are told apart."""
    if case.pattern.sizes.number == 1 or len(set(figures)) == 1:
        return number_of(figures[0], unit) + for_sizes(case, sizes)
    first, *others = zip(sizes, figures, strict=True)
    said = [f"{number_of(first[1], unit)} for {size_name(case, first[0])}"]
    said += [f"{figure} for {size_name(case, size)}" for size, figure in others]
    return join_words(said)


def quoted(case: Case, item: Item) -> str:
    """Return the draft's words of a line of the sum, cut where they are long."""
    words = case.words(item.span).strip(" ,;.")
    if len(words) <= LONGEST_WORDS:
        return words
    return words[: LONGEST_WORDS - 4].rsplit(" ", 1)[0] + " ..."


def pencil_sum(case: Case, index: int, sizes: Sequence[int]) -> tuple[str, ...]:
    """Return the sum of a round: in full for the first of the sizes, in one line for each of the others."""
    working = case.workings.rounds[index]
    known = [(size, own) for size in sizes if (own := working.sizes[size]) is not None and own.count is not None]
    if not known:
        return ()
    size, own = known[0]
    others = [_short_sum(case, working, *other) for other in known[1:]]
    room = MOST_LINES - 2 - min(len(others), 3)
    return (
        _head(case, size, own),
        *_items(case, own, room),
        _outcome(own, working.unit),
        *others[: MOST_LINES - 2 - min(len(own.items), room)],
    )


def _head(case: Case, size: int, own: SizeWorking) -> str:
    held = "on the needle" if case.pattern.craft == "knitting" else "on the hook"
    begun = "the piece starts here" if own.before is None else f"{number_of(own.before)} {held}"
    return begun if case.pattern.sizes.number == 1 else f"{size_name(case, size)}: {begun}"


def _short_sum(case: Case, working: RoundWorking, size: int, own: SizeWorking) -> str:
    return f"{_head(case, size, own)}, {_outcome(own, working.unit)}"


def _outcome(own: SizeWorking, unit: str) -> str:
    said = f"worked {number_of(own.count or 0, unit)}"
    if own.left:
        said += f", {number_of(own.left)} left over"
    if own.short:
        said += f", {number_of(own.short)} wanting"
    if own.stated is not None and not own.agrees:
        said += f", the draft says {own.stated}"
    return said


def _items(case: Case, own: SizeWorking, room: int) -> list[str]:
    items = own.items
    if len(items) <= room:
        return [_line(case, item) for item in items]
    shown, rest = items[: room - 1], items[room - 1 :]
    uses = sum(item.uses * item.times for item in rest)
    makes = sum(item.makes * item.times for item in rest)
    return [*(_line(case, item) for item in shown), f"{len(rest)} steps more: uses {uses}, makes {makes}"]


def _line(case: Case, item: Item) -> str:
    words = quoted(case, item)
    match item.deed:
        case Deed.SKIP:
            return f"{words}: passes {item.uses}"
        case Deed.CHAIN:
            return f"{words}: counts as a stitch"
        case Deed.LEAVE:
            return f"{words}: leaves {item.uses}"
        case Deed.EVENLY:
            return f"{words}: {number_of(item.uses)} become {item.makes}"
        case Deed.REPEAT:
            return f"{words}: uses {item.uses}, makes {item.makes}; {_times(item)}"
        case Deed.WORK:
            return f"{words}: uses {item.uses}, makes {item.makes}"


def _times(item: Item) -> str:
    """Say how often a repeat is worked: `80 / 11 = 7 times, 3 sts left over`."""
    times = "once" if item.times == 1 else f"{item.times} times"
    if not item.to_end or not item.uses:
        return times
    left = item.left or 0
    said = f"{item.uses * item.times + left} / {item.uses} = {times}"
    return f"{said}, {number_of(left)} left over" if left else said
