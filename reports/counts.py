"""The count table: one row a round, for each size what the draft says beside what the instructions make.

Below it the same counts are drawn as bars, size by size.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..lint.proof import Proof
from ..lint.workings import Standing
from .profile import profile
from .words import cells, counts_of, folded, one_line, section_title, tally_words, window

_SAYS, _MAKES = 5, 5
_PAIR = _SAYS + 1 + _MAKES + 1  # and the mark
_LONGEST_NAME = 20
_SHORTEST_LABEL = 12
_GAP = "  "
_MARK = "!"
_STANDINGS = {
    Standing.AGREES: "agrees",
    Standing.DIFFERS: "differs",
    Standing.UNSTATED: "no count",
    Standing.UNREAD: "not read",
}
_STANDING = 8
_LEGEND = (
    "says: the draft's own count. makes: what the instructions come to. "
    f"{_MARK} the two differ. - not for this size, or not worked."
)


@dataclass(frozen=True, slots=True)
class _Row:
    section: int
    title: str
    line: str
    label: str
    cells: tuple[str, ...]
    standing: Standing


def counts(proof: Proof, width: int = 80) -> str:
    """Return the table of all rounds; sizes that don't fit side by side follow in blocks of their own."""
    path = one_line(proof.draft.path)
    rows = [*_rows(proof)]
    lines = [*folded(path, width)]
    if not rows:
        return "\n".join([*lines, "No rounds or rows were found, so there is nothing to count."])
    names = [one_line(name) for name in proof.pattern.sizes.names] or [""]
    names = [_cut(name, _LONGEST_NAME) for name in names]
    lead = max(len(row.line) for row in rows)
    column = max(_PAIR, *(cells(name) for name in names))
    room = width - lead - len(_GAP) - len(_GAP) - _STANDING
    label = _label_width(rows, room - len(names) * (len(_GAP) + column), width // 3)
    fits = max(1, (room - label) // (len(_GAP) + column))
    for start in range(0, len(names), fits):
        block = slice(start, min(start + fits, len(names)))
        lines.append("")
        lines += _block(rows, names, block, (lead, label, column), width)
    if bars := profile(proof, width):
        lines += ["", bars]
    lines.append("")
    lines += folded(_LEGEND, width)
    lines += folded(tally_words(proof.tally).capitalize() + ".", width)
    return "\n".join(lines)


def _label_width(rows: Sequence[_Row], beside_all: int, most: int) -> int:
    """Return the width for the rounds' names: what they need, or less so that all sizes fit side by side."""
    wanted = min(max(cells(row.label) for row in rows), most)
    return beside_all if _SHORTEST_LABEL <= beside_all < wanted else wanted


def _rows(proof: Proof) -> Iterator[_Row]:
    sizes = proof.pattern.sizes.number
    for working in proof.workings.rounds:
        round_ = proof.pattern.rounds[working.index]
        worked, stated = counts_of(working, sizes)
        label = one_line(round_.label)
        yield _Row(
            section=round_.section,
            title=one_line(section_title(proof, round_) or ""),
            line=str(proof.draft.position(round_.heading.start).line),
            label=label if working.unit == "sts" else f"{label}, {one_line(working.unit)}",
            cells=tuple(_pair(says, makes) for says, makes in zip(stated, worked, strict=True)),
            standing=working.standing,
        )


def _pair(says: int | None, makes: int | None) -> str:
    if makes is None:
        return f"{'' if says is None else says:>{_SAYS}} {'-':>{_MAKES}} "
    mark = _MARK if says is not None and says != makes else " "
    return f"{'' if says is None else says:>{_SAYS}} {makes:>{_MAKES}}{mark}"


def _block(
    rows: Sequence[_Row], names: Sequence[str], block: slice, widths: tuple[int, int, int], width: int
) -> Iterator[str]:
    """Give the table for some of the sizes: their names, the columns' heads, and the rows by section."""
    lead, label, column = widths
    margin = " " * (lead + len(_GAP) + label)
    if any(names):
        yield (margin + "".join(_GAP + _to(name, column) for name in names[block])).rstrip()
    heads = f"{'says':>{_SAYS}} {'makes':>{_MAKES}} "
    yield (margin + "".join(_GAP + _to(heads, column) for _ in names[block])).rstrip()
    section = -1
    for row in rows:
        if row.section != section and row.title:
            yield from folded(row.title, width)
        section = row.section
        body = "".join(_GAP + _to(cell, column) for cell in row.cells[block])
        differs = row.standing is Standing.DIFFERS
        shown = _to(_cut(row.label, label), label)
        # A round that differs for a size in another block agrees as far as this one goes.
        here = _STANDINGS[Standing.AGREES if differs and _MARK not in body else row.standing]
        yield f"{row.line:>{lead}}{_GAP}{shown}{body}{_GAP}{here}"


def _to(text: str, width: int) -> str:
    """Fill text up with blanks to a width in cells."""
    return text + " " * (width - cells(text))


def _cut(text: str, width: int) -> str:
    return window(text, 0, 0, width).text
