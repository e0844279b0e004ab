"""Writes a knitted piece out as a draft, in one of very many hands: headings, rows, stated counts."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from random import Random

from .instructions import Figures
from .knit_wording import KnitHand
from .knitting import BoundOff, KnitLine, KnitRow, LinesAgain, Piece, PlainRows, Shaped, Spread
from .needles import Needle, loops
from .writing import Alteration, Written


def write_piece(
    piece: Piece, needles: Sequence[Sequence[Needle]], random: Random, altered: Alteration | None = None
) -> Written:
    """Write a piece as a draft.

    `needles` are what is on the needle after each line, one a size. Where a count is `altered` every line states one.
    """
    hand = KnitHand(random)
    hand.choose_list_style(piece.number)
    writer = _Writer(hand, piece, needles, altered)
    text = "\n".join((*_head(hand, piece), "", writer.cast_on(), ""))
    places: list[tuple[int, int]] = []
    for index, line in enumerate(piece.lines):
        words = writer.line(line, index)
        places.append((len(text), len(text) + len(words)))
        text = f"{text}{words}\n"
    rounds = tuple((1,) * piece.number for _ in piece.lines)
    return Written(text, tuple(places), rounds, tuple(writer.stated))


def _head(hand: KnitHand, piece: Piece) -> list[str]:
    lines = [piece.title, ""]
    if piece.sizes:
        first, *rest = piece.sizes
        lines.append(hand.way("sizes", (f"Sizes: {first} ({', '.join(rest)})", f"Sizes: {', '.join(piece.sizes)}")))
    return lines


class _Writer:
    """Writes the lines of a piece one after the other and keeps the number of the next row."""

    def __init__(
        self, hand: KnitHand, piece: Piece, needles: Sequence[Sequence[Needle]], altered: Alteration | None
    ) -> None:
        self.hand = hand
        self.piece = piece
        self.needles = needles
        self.altered = altered
        self.next = 1
        self.numbers: list[int | None] = []
        self.stated: list[Figures | None] = []
        self.counts = "always" if altered else hand.way("counts", ("always", "always", "mostly", "never"))
        self.numbered = hand.way("numbered", ("yes", "yes", "no")) == "yes"
        self.width = int(hand.way("width", ("0", "0", "70")))
        self.noun = hand.way("noun", ("rnd", "round") if piece.around else ("row", "row"))

    def cast_on(self) -> str:
        """Write the line that casts on."""
        hand = self.hand
        sts = hand.sts(self.piece.cast_on)
        said = hand.way("cast on", (f"Cast on {sts}", f"CO {sts}", f"Using 4 mm needles, cast on {sts}"))
        if not self.piece.around:
            return f"{said}."
        return hand.way("joined", (f"{said} and join in the round.", f"{said}. Join to work in the round."))

    def line(self, line: KnitLine, index: int) -> str:
        """Write a line of the piece with its heading and count."""
        heading, words = self.words(line)
        text = self.with_count(f"{heading} {words[0].upper()}{words[1:]}".strip(), index)
        return textwrap.fill(text, self.width, break_on_hyphens=False) if self.width else text

    def words(self, line: KnitLine) -> tuple[str, str]:
        """Return the heading and the words of a line, whichever way it is written."""
        hand = self.hand
        match line:
            case KnitRow(steps, rows):
                return self.heading(rows[0]), hand.say_row(steps)
            case Spread(change, number):
                verb = "inc" if change > 0 else "dec"
                return self.heading(1), hand.way(
                    "spread",
                    (
                        f"knit, {verb} {hand.sts(number)} evenly",
                        f"k, {verb}reasing {hand.sts(number)} evenly across",
                        f"{verb} {hand.sts(number)} evenly spaced",
                    ),
                )
            case _:
                self.numbers.append(None)
                # what is told without a number is as many rows as it says, which a draft need not count on from
                self.numbered = False
                return "", self.several(line)

    def several(self, line: KnitLine) -> str:
        """Write a line that tells of several rows."""
        hand = self.hand
        match line:
            case LinesAgain(first, last, times):
                return self.again(first, last, times)
            case PlainRows(rows):
                noun = self.noun if set(rows) == {1} else f"{self.noun}s"
                number = hand.figure(rows)
                ways = [f"knit {number} {noun}", f"k {number} {noun}", f"work {number} {noun} even"]
                ways += [f"work {number} {noun} in st st"]
                return hand.way("plain rows", ways)
            case Shaped(change, every, times):
                verb = "inc" if change > 0 else "dec"
                more = tuple(value - 1 for value in times)
                rows = "row" if set(more) == {1} else "rows"
                foll = f"foll {_ORDINALS[every]} {rows}" if every > 2 else f"foll alt {rows}"
                return f"{verb} 1 st at each end of next and {hand.figure(more)} {foll}"
            case BoundOff(number, rows):
                said = hand.way("bind off", ("BO", "bind off", "cast off"))
                return f"{said} {hand.sts(number)} at {hand.way('beg', ('beg', 'beginning'))} of next {rows} rows"
            case _:
                raise TypeError(line)

    def again(self, first: int, last: int, times: Figures) -> str:
        """Write earlier rows worked again."""
        hand = self.hand
        rep, noun = hand.way("rep", ("rep", "repeat")), self.noun
        a, b = self.numbers[first], self.numbers[last]
        if a is not None and b is not None and hand.way("again", ("number", "last")) == "number":
            which = f"{noun.title()} {a}" if a == b else f"{noun.title()}s {a} and {b}"
        else:
            which = f"last {noun}" if first == last else f"last {last - first + 1} {noun}s"
        return f"{rep} {which} {hand.more_times(times)}"

    def heading(self, rows: int) -> str:
        """Write the heading of one row, or of several that are worked alike."""
        hand, noun = self.hand, self.noun
        if not self.numbered:
            self.numbers.append(None)
            return f"Next {noun}:" if rows == 1 else f"Next {rows} {noun}s:"
        first, self.next = self.next, self.next + rows
        self.numbers.append(first if rows == 1 else None)
        if rows > 1:
            return f"{noun.title()}s {first}-{first + rows - 1}:"
        ordinal = f"{first}{_ENDINGS.get(first, 'th')} {noun}:"
        return hand.way("heading", (f"{noun.title()} {first}:", f"{noun.title()} {first}:", ordinal))

    def with_count(self, text: str, index: int) -> str:
        """Add the stated count to a line, or only a full stop where it states none."""
        hand = self.hand
        if self.counts == "never" or (self.counts == "mostly" and hand.chance(3)):
            self.stated.append(None)
            return f"{text}."
        counts = [loops(needle) for needle in self.needles[index]]
        if self.altered and self.altered.line == index:
            counts[self.altered.size] += self.altered.by
        self.stated.append(tuple(counts))
        sts = f"{hand.figure(tuple(counts))} sts"
        return hand.way(
            "count", (f"{text}. {sts}.", f"{text}. ({sts})", f"{text} ({sts})", f"{text} - {sts}", f"{text}. [{sts}]")
        )


_ENDINGS = {1: "st", 2: "nd", 3: "rd", 21: "st", 22: "nd", 23: "rd"}
_ORDINALS = {2: "2nd", 4: "4th", 6: "6th"}
