"""Writes a pattern out as a draft, in one of very many hands: headings, rounds, stated counts, notes."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from .hand import Hand
from .instructions import (
    HEIGHTS,
    Again,
    Alternate,
    BeginningChain,
    ChainRing,
    ChainRound,
    Even,
    Figures,
    FlatChain,
    Line,
    MagicRing,
    OvalChain,
    Pattern,
    Round,
    Step,
)
from .laying import Row, spaces, stitches
from .wording import say_steps


@dataclass(frozen=True, slots=True)
class Written:
    """A draft, and for each line of the pattern where it stands, how many rounds it covers and the counts it states.

    `places` are offsets of the text; `stated` is None where a line states no count.
    """

    text: str
    places: tuple[tuple[int, int], ...]
    rounds: tuple[Figures, ...]
    stated: tuple[Figures | None, ...]


@dataclass(frozen=True, slots=True)
class Alteration:
    """A stated count made wrong: that of a line (an index), for a size, by so many stitches."""

    line: int
    size: int
    by: int


def write(
    pattern: Pattern, rows: Sequence[Sequence[Row]], random: Random, altered: Alteration | None = None
) -> Written:
    """Write a pattern as a draft.

    `rows` are the rows laid, for each line of the pattern one a size. Where a count is `altered` every line states one.
    """
    hand = Hand(random, pattern, sure=altered is not None)
    writer = _Writer(hand, pattern, rows, altered)
    text = "\n".join((*_head(hand, pattern), "", *_start(hand, pattern), ""))
    places: list[tuple[int, int]] = []
    for index, line in enumerate(pattern.lines):
        words = writer.line(line, index)
        places.append((len(text), len(text) + len(words)))
        text = f"{text}{words}\n"
    rounds = tuple(writer.rounds(line) for line in pattern.lines)
    return Written(text, tuple(places), rounds, tuple(writer.stated))


# ---------------------------------------------------------------- what stands before the rounds


def _head(hand: Hand, pattern: Pattern) -> list[str]:
    lines = [pattern.title, ""]
    if pattern.sizes:
        lines.append(_sizes(hand, pattern.sizes))
    if hand.uk:
        lines.append(hand.way("terms", ("UK terms.", "Written in UK terms.", "UK crochet terms are used throughout.")))
    elif hand.chance(2):
        lines.append("US terms.")
    name = hand.stitch(pattern.kind)
    if pattern.kind != "sc" or hand.chance(2):
        lines.append(f"inc = 2 {name} in next st")
        lines.append(f"dec = {name}2tog" if not hand.in_full else f"dec = {name} 2 together")
    if hand.chance(3):
        lines.append("invdec = invisible decrease")
    lines.extend(_note(hand, pattern))
    return lines


def _sizes(hand: Hand, names: Sequence[str]) -> str:
    first, *rest = names
    bracketed = f"{first} ({', '.join(rest)})"
    return hand.way(
        "sizes",
        (
            f"Sizes: {bracketed}",
            f"Sizes: {', '.join(names)}",
            f"Sizes: {hand.list_of(names)}",
            f"Sizes {bracketed}",
            f"Sizes: {bracketed}.",
        ),
    )


def _note(hand: Hand, pattern: Pattern) -> list[str]:
    """Write whether beginning chains count, for every length the pattern has."""
    if not pattern.joined and not pattern.flat:
        return [hand.way("spiral", ("Worked in a spiral.", "Worked in continuous rounds; do not join."))] * hand.chance(
            2
        )
    if pattern.counts:
        used = sorted(
            {step.kind for line in pattern.lines for step in _steps(line) if isinstance(step, BeginningChain)}
        )
        return [
            hand.way(
                "counting note",
                (
                    f"Ch {HEIGHTS[kind]} at beg of rnd counts as {hand.stitch(kind)}.",
                    f"The beginning ch {HEIGHTS[kind]} counts as a st throughout.",
                    f"Beginning ch-{HEIGHTS[kind]} counts as first {hand.stitch(kind)}.",
                ),
            )
            for kind in used
        ]
    return [
        hand.way(
            "chains note",
            (
                "The beginning ch does not count as a stitch.",
                "Beginning chains do not count as a st.",
                "The ch at the beginning of a round never counts as a stitch.",
            ),
        )
    ]


def _steps(line: Line) -> Sequence[Step]:
    return line.steps if isinstance(line, Round) else ()


def _start(hand: Hand, pattern: Pattern) -> list[str]:
    match pattern.start:
        case MagicRing():
            return [hand.way("make a ring", ("Make a magic ring.", "Start with a magic ring."))] * pattern.joined
        case ChainRing(chains):
            return [f"{hand.chains(chains).capitalize()}, {hand.way('close', _CLOSINGS)} to form a ring."]
        case ChainRound(chains):
            figure = hand.figure(chains)
            return [
                hand.way(
                    "chain round",
                    (
                        f"Ch {figure}, join with sl st to form a ring.",
                        f"Ch {figure}, sl st in first ch to form a ring.",
                        f"Chain {figure} and join with a sl st to first ch.",
                    ),
                )
            ]
        case OvalChain(chains) | FlatChain(chains):
            return [hand.way("oval", (f"Ch {hand.figure(chains)}.", f"Chain {hand.figure(chains)}."))]


_CLOSINGS = ("join with sl st", "sl st in first ch", "join with a sl st")


# ---------------------------------------------------------------- the rounds


class _Writer:
    """Writes the lines of a pattern one after the other and keeps the number of the next round, a figure a size."""

    def __init__(
        self,
        hand: Hand,
        pattern: Pattern,
        rows: Sequence[Sequence[Row]],
        altered: Alteration | None,
    ) -> None:
        self.hand = hand
        self.pattern = pattern
        self.rows = rows
        self.altered = altered
        self.next = (1,) * pattern.number
        self.firsts: list[Figures] = []
        self.stated: list[Figures | None] = []
        # how often counts are stated: always, mostly, or never
        self.counts = "always" if altered else hand.way("counts", ("always", "always", "mostly", "never"))
        self.capital = hand.way("capital", ("yes", "yes", "no")) == "yes"
        # where a heading is but a number, a line broken before a number would be read as the next round
        self.head = hand.way("heading", _HEADINGS)
        if self.head in _BARE and not self.numbers_are_plain():
            self.head = "Rnd |:"
        self.width = 0 if self.head in _BARE else int(hand.way("width", ("0", "0", "60", "38")))

    def line(self, line: Line, index: int) -> str:
        """Write a line of the pattern with its heading and count."""
        rounds = self.rounds(line)
        first = self.next
        last = tuple(a + b - 1 for a, b in zip(first, rounds, strict=True))
        heading, words = self.words(line, index, first, last)
        self.firsts.append(first)
        self.next = tuple(value + 1 for value in last)
        if isinstance(line, Round | Alternate) and index and self.alternate_before(index):
            self.next = tuple(value + 1 for value in self.next)
        if self.capital or not heading:
            words = words[0].upper() + words[1:]
        if self.pattern.flat:
            heading, words = _in_rows(heading), _in_rows(words)
        text = self.with_count(f"{heading} {words}".strip(), index)
        return textwrap.fill(text, self.width, break_on_hyphens=False) if self.width else text

    def numbers_are_plain(self) -> bool:
        """Tell whether the number of each round is one figure: lists and rounds not written want the word as well."""
        lines = self.pattern.lines
        alternate = any(isinstance(line, Alternate) for line in lines)
        return not alternate and all(len(set(self.rounds(line))) == 1 for line in lines)

    def alternate_before(self, index: int) -> bool:
        """Tell whether a round follows here which the draft doesn't write."""
        return any(isinstance(line, Alternate) for line in self.pattern.lines[:index])

    def rounds(self, line: Line) -> Figures:
        """Return how many rounds a line stands for."""
        match line:
            case Round(rounds=rounds) | Even(rounds=rounds):
                return rounds
            case Again(first, last, times):
                return tuple(value * (last - first + 1) for value in times)
            case Alternate():
                return (1,) * self.pattern.number

    def words(self, line: Line, index: int, first: Figures, last: Figures) -> tuple[str, str]:
        """Return the heading and the words of a line, whichever way it is written."""
        hand = self.hand
        match line:
            case Round(steps):
                return self.heading(first, last), self.steps(steps, index)
            case Alternate(step):
                all_such = " and all even rnds" if first[0] % 2 == 0 else " and all odd rnds"
                every = hand.way("alternate", (" and every alternate rnd", " and every other rnd", all_such))
                return self.heading(first, first, every), self.steps((step,), index)
            case Even(_, rounds):
                return self.even(rounds, first, last)
            case Again():
                return self.again(line, index, first, last)

    def steps(self, steps: Sequence[Step], index: int) -> str:
        """Write the steps of a round and its join."""
        said = say_steps(self.hand, steps, self.one_kind(index - 1))
        if self.pattern.flat:
            return self.turned(said)
        return f"{said}, {self.join(steps)}" if self.pattern.joined else said

    def turned(self, said: str) -> str:
        """Add where the work is turned: at the end of each row, or behind the chain at the beginning of the next."""
        if self.hand.way("turn", ("end", "end", "nowhere")) == "end":
            return f"{said}, turn"
        return said

    def one_kind(self, index: int) -> str | None:
        """Return the kind of stitch that all rows after a line are made of, None where there are several."""
        if index < 0:
            return "link" if isinstance(self.pattern.start, ChainRound | FlatChain) else None
        kinds = {place.kind for row in self.rows[index] for place in row}
        return kinds.pop() if len(kinds) == 1 else None

    def join(self, steps: Sequence[Step]) -> str:
        """Write how the round is closed."""
        hand = self.hand
        slip = "slip stitch" if hand.in_full else hand.way("slip stitch", ("ss", "sl st")) if hand.uk else "sl st"
        chain = steps[0] if steps else None
        if isinstance(chain, BeginningChain) and chain.counts:
            top = f"top of {hand.chain}-{chain.chains}"
            options = (f"join with {slip} to {top}", f"{slip} to {top}", f"join with {slip} in {top}")
            return hand.way("join to chain", options)
        first = f"first {self.hand.st((1,))}"
        return hand.way(
            "join",
            (
                "join",
                f"join with {slip} to {first}",
                f"{slip} in {first}",
                f"{slip} to {first} to join",
                f"join with {slip}",
                f"join with a {slip} in {first}",
            ),
        )

    # ---------------------------------------------------------------- headings

    def heading(self, first: Figures, last: Figures, and_others: str = "") -> str:
        """Write the heading of a round, or of several that are worked alike; `and_others` are those it declares."""
        rnd, mark = self.head.split("|")
        lists = len(set(first)) > 1 or len(set(last)) > 1
        mark = and_others + mark
        ordinal = rnd.startswith("th ")
        if lists and (first != last or self.hand.list_style == "dash"):
            # commas part the sizes, as a dash stands for a range: `Rnd 5 (6-7)` could be either
            return f"{self.list_of_ranges('Rnd ' if ordinal else rnd, first, last)}{mark}"
        if first == last:
            if ordinal:
                return f"{_ordinal(self.hand, first)} {rnd[3:]}{mark}"
            return f"{rnd}{self.hand.list_of(first) if lists else first[0]}{mark}"
        if ordinal:
            return f"{_ordinal(self.hand, first)} to {_ordinal(self.hand, last)} {rnd[3:]}s{mark}"
        plural = _PLURALS.get(rnd, rnd)
        a, b = first[0], last[0]
        again = rnd if rnd == "R" else ""
        ways = [f"{a}-{again}{b}", f"{a}-{b}", f"{a} to {again}{b}", f"{a}–{b}"]
        if b == a + 1:
            ways = [f"{a} and {again}{b}", f"{a}-{b}", f"{a} & {again}{b}", f"{a} and {again}{b}"]
        return f"{plural}{self.hand.way('range', ways)}{mark}"

    @staticmethod
    def list_of_ranges(rnd: str, first: Figures, last: Figures) -> str:
        """Write the numbers of one or several rounds that differ from size to size: `Rnds 5-8 (5-9, 5-10)`."""
        one, *others = (str(a) if a == b else f"{a}-{b}" for a, b in zip(first, last, strict=True))
        return f"{rnd if first == last else _PLURALS.get(rnd, rnd)}{one} ({', '.join(others)})"

    def even(self, rounds: Figures, first: Figures, last: Figures) -> tuple[str, str]:
        """Write plain rounds on the same count, with a heading or as a sentence."""
        hand = self.hand
        number = hand.figure(rounds)
        rnds = "rnd" if set(rounds) == {1} else "rnds"
        words = hand.way(
            "work even",
            (f"work even for {number} {rnds}", f"work {number} {rnds} even", f"work {number} {rnds} without shaping"),
        )
        return "" if hand.way("even", ("heading", "sentence")) == "sentence" else self.heading(first, last), words

    def again(self, line: Again, index: int, first: Figures, last: Figures) -> tuple[str, str]:
        """Write earlier rounds worked again."""
        hand = self.hand
        a, b = self.firsts[line.first][0], self.firsts[line.last][0]
        rnds = "Rnd" if line.first == line.last else "Rnds"
        which = f"{rnds} {a}" if line.first == line.last else hand.way("which", (f"{rnds} {a} and {b}",) * 2)
        if b - a > 1:
            which = f"{rnds} {a}-{b}"
        rep = hand.way("rep rnds", ("rep", "repeat"))
        manner = hand.way("again", ("heading", "more", "heading", "last"))
        if manner == "last" and line.last == index - 1:
            back = line.last - line.first + 1
            last_rounds = "last rnd" if back == 1 else f"last {back} rnds"
            return "", f"{rep} {last_rounds} {hand.more_times(line.times)}"
        if manner == "more" and line.last == index - 1:
            return "", f"{rep} {which} {hand.more_times(line.times)}"
        if first == last:
            as_round = hand.way("as round", (f"{rep} {which}", f"as {which}", f"same as {which}"))
            return self.heading(first, last), as_round
        return self.heading(first, last), f"{rep} {which}"

    # ---------------------------------------------------------------- counts

    def with_count(self, text: str, index: int) -> str:
        """Add the stated count to a line, or only a full stop where it states none."""
        hand = self.hand
        if self.counts == "never" or (self.counts == "mostly" and hand.chance(3)):
            self.stated.append(None)
            return text + hand.way("full stop", (".", ".", ""))
        rows = self.rows[index]
        counts = [stitches(row) for row in rows]
        if self.altered and self.altered.line == index:
            counts[self.altered.size] += self.altered.by
        self.stated.append(tuple(counts))
        figure = hand.list_of(counts) if len(set(counts)) > 1 or hand.chance(2) else str(counts[0])
        plain = spaces(rows[0]) == 0
        kind = self.one_kind(index) if plain else None
        name = hand.stitch(kind) if kind else hand.st((2,))
        units = (f"{figure} {hand.st((2,))}", f"{figure} {name}")
        unit = hand.way("unit", units)
        if not plain and (sizes := {place.chains for row in rows for place in row if place.is_space}):
            unit += self.spaces(rows, sizes)
            return f"{text}. ({unit})"
        return hand.way(
            "count",
            (
                f"{text}. ({figure})",
                f"{text} ({figure})",
                f"{text}. ({unit})",
                f"{text} [{unit}]",
                f"{text} - {unit}",
                f"{text} = {unit}",
                f"{text}. {unit}.",
                f"{text}. ({unit})",
                f"{text}. [{figure}]",
                f"{text} – {unit}.",
                f"{text}. {{{figure}}}",
                f"{text} -- {unit}",
                f"{text}: {unit}",
            ),
        )

    def spaces(self, rows: Sequence[Row], sizes: set[int]) -> str:
        """Write the spaces of a row beside its stitches; nothing where the draft counts stitches alone."""
        if len(sizes) > 1 or self.hand.way("count spaces", ("yes", "no")) == "no":
            return ""
        number = self.hand.figure(tuple(spaces(row) for row in rows))
        space = self.hand.space(sizes.pop()) + ("" if number == "1" else "s")
        return f"{self.hand.way('and spaces', (', ', ' and '))}{number} {space}"


def _in_rows(words: str) -> str:
    """Say of rows what is said of rounds."""
    words = re.sub(r"(?i)\b(?:rounds?|rnds?)\b", _row, words)
    return words.replace(" around", " across").replace("without shaping", "even")


def _row(match: re.Match[str]) -> str:
    word = "rows" if match[0].lower().endswith("s") else "row"
    return word.upper() if match[0].isupper() else word.title() if match[0][0].isupper() else word


def _ordinal(hand: Hand, values: Figures) -> str:
    said = [f"{value}{_ENDINGS.get(value, 'th')}" for value in values]
    return said[0] if len(set(values)) == 1 else hand.list_of(said)


_ENDINGS = {1: "st", 2: "nd", 3: "rd", 21: "st", 22: "nd", 23: "rd"}
_PLURALS = {"Rnd ": "Rnds ", "Round ": "Rounds ", "Rnd. ": "Rnds. ", "RND ": "RNDS "}
_BARE = ("|:", "|.", "|)")
_HEADINGS = (
    "Rnd |:",
    "Round |:",
    "R|:",
    "|:",
    "Rnd |:",
    "Round |.",
    "R| -",
    "|.",
    "Rnd. |:",
    "th rnd|:",
    "RND |:",
    "Rnd | -",
    "|)",
    "th round|:",
    "R |:",
)
