"""A designer's hand: the ways of writing that one person keeps to through a pattern, and how figures look in it."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from .instructions import Figures, Pattern

_US = {"sc": "single crochet", "hdc": "half double crochet", "dc": "double crochet", "tr": "treble crochet"}
_UK = {"sc": "double crochet", "hdc": "half treble crochet", "dc": "treble crochet", "tr": "double treble crochet"}
_UK_SHORT = {"sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr"}
_WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_ADVERBS = {1: "once", 2: "twice"}

LIST_STYLES = ("round", "round", "square", "glued", "colon", "dash", "slash", "inside")


class Ways:
    """Chooses how a thing is written, and writes it the same way again, but for now and then where `mixes`."""

    def __init__(self, random: Random) -> None:
        self.random = random
        self.mixes = random.randint(0, 2) == 2
        self.list_style = LIST_STYLES[0]
        self._held: dict[str, int] = {}

    def choose_list_style(self, sizes: int) -> None:
        """Choose how lists of one figure a size are written, for so many sizes."""
        self.list_style = self.random.choice([style for style in LIST_STYLES if style not in _needs_three or sizes > 2])

    def way(self, name: str, options: Sequence[str]) -> str:
        """Return one of the ways to write a thing: the one held for things of this name."""
        if self.mixes and self.random.randint(0, 5) == 5:
            return self.random.choice(options)
        if name not in self._held:
            self._held[name] = self.random.randint(0, 10_079)
        return options[self._held[name] % len(options)]

    def chance(self, one_in: int) -> bool:
        """Return True once in so many times."""
        return self.random.randint(1, one_in) == one_in

    # ---------------------------------------------------------------- figures

    def figure(self, values: Figures) -> str:
        """Write one figure a size as the draft's lists are written; one figure where it serves all."""
        if len(set(values)) == 1 and not (len(values) > 1 and self.chance(8)):
            return str(max(values))
        return self.list_of(values)

    def list_of(self, values: Sequence[object]) -> str:
        """Write a list of one thing a size."""
        if len(values) == 1:
            return str(values[0])
        first, *rest = (str(value) for value in values)
        match self.list_style:
            case "round":
                return f"{first} ({', '.join(rest)})"
            case "square":
                return f"{first} [{', '.join(rest)}]"
            case "glued":
                return f"{first}[{':'.join(rest)}]"
            case "colon":
                return f"{first} ({': '.join(rest)})"
            case "dash":
                return f"{first} ({'-'.join(rest)})"
            case "slash":
                return "/".join((first, *rest))
            case _:
                return f"({', '.join((first, *rest))})"

    def times(self, number: Figures) -> str:
        """Write how often: `6 times`, `six times`, `twice`, `6 (8, 10) times`."""
        if len(set(number)) == 1:
            value = number[0]
            if value in _ADVERBS and self.way("adverb", ("yes", "no")) == "yes":
                return _ADVERBS[value]
            if value < len(_WORDS) and self.way("times in words", ("no", "no", "yes")) == "yes":
                return f"{_WORDS[value]} {'time' if value == 1 else 'times'}"
        return f"{self.figure(number)} {'time' if set(number) == {1} else 'times'}"

    def more_times(self, number: Figures) -> str:
        """Write how often more: `5 more times`, `5 times more`, `once more`."""
        if set(number) == {1}:
            return "once more"
        if set(number) == {2}:
            return self.way("two more", ("twice more", "2 more times", "two more times"))
        return self.way("more", (f"{self.figure(number)} more times", f"{self.figure(number)} times more"))


class Hand(Ways):
    """The hand of a designer in crochet.

    Where it is `sure`, it writes nothing that only the stated counts make clear: `2 sc` can be two in one stitch.
    """

    def __init__(self, random: Random, pattern: Pattern, *, sure: bool = False) -> None:
        super().__init__(random)
        self.pattern = pattern
        self.sure = sure
        self.uk = random.randint(0, 3) == 3
        self.in_full = random.randint(0, 7) == 7
        self.choose_list_style(pattern.number)

    # ---------------------------------------------------------------- words

    def stitch(self, kind: str) -> str:
        """Return the name of a stitch in the draft's terms."""
        if self.in_full:
            return (_UK if self.uk else _US)[kind]
        return _UK_SHORT[kind] if self.uk else kind

    def st(self, number: Figures) -> str:
        """Return `st` or `sts`, in the draft's way."""
        words = ("stitch", "stitches") if self.in_full else ("st", "sts")
        return words[0] if set(number) == {1} else words[1]

    @property
    def chain(self) -> str:
        """The word for a chain."""
        return "chain" if self.in_full else "ch"

    @property
    def sk(self) -> str:
        """The word for passing over a stitch."""
        if self.uk:
            return "miss"
        return "skip" if self.in_full else self.way("skip", ("sk", "skip"))

    @property
    def glue(self) -> str:
        """What stands between a figure and a stitch where drafts leave no blank: whole words keep theirs."""
        return " " if self.in_full else ""

    def chains(self, number: int) -> str:
        """Return `ch 2`, or `2 ch` as UK drafts have it."""
        if self.uk and not self.in_full:
            return self.way("chains", (f"{number} ch", f"ch {number}", f"{number}ch"))
        return f"{self.chain} {number}"

    def space(self, chains: int) -> str:
        """Return the name of a space of so many chains."""
        if self.in_full:
            return self.way("space", (f"chain-{chains} space", f"{chains}-chain space"))
        if self.uk:
            return self.way("space", (f"{chains}-ch sp", f"ch-{chains} sp", f"{chains}ch sp"))
        return self.way("space", (f"ch-{chains} sp", f"ch-{chains} space", f"ch{chains} sp", f"ch {chains} sp"))


# `2/3` reads as a fraction and `2 (3)` has nothing between its figures: with two sizes these tell nothing.
_needs_three = ("slash", "dash", "colon", "glued")
