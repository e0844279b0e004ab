"""Try random patterns for as long as you like: `python tests/second/by_hand.py 200000`.

The examples are new in every run; a second number repeats those of an earlier one. Every draft that the program works
otherwise than it is laid is printed, cut down to as few rounds as still show it. Ends with 1 if there was one.
"""

from __future__ import annotations

import re
import sys
from collections import Counter
from dataclasses import replace
from pathlib import Path
from random import Random, SystemRandom
from time import monotonic

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))  # where pytest finds the package too

from second.comparing import disagreements, is_corrected, with_a_wrong_count
from second.random_patterns import Laid, random_pattern
from second.writing import Written, write

EVERY = 1000
KINDS = (
    "lines were written",
    "sizes worked",
    "stitches and spaces worked",
    "read as stated",
    "rounds worked",
    "these words were not understood",
    "no stitches were found in these words",
    "the row below is not known",
    "the rounds to repeat were not found",
    "a figure for this size is missing",
    "don't fit the row below",
)
SHOWN = 3
"""How many drafts of one kind of failure are printed."""


def main() -> int:
    """Run as many examples as the command line says and return the exit status."""
    number = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else SystemRandom().randrange(10**9)
    say(f"{number} patterns from {seed} on")
    kinds: Counter[str] = Counter()
    began = monotonic()
    for done in range(number):
        kind, text = example(seed + done)
        if kind is not None:
            kinds[kind] += 1
            if kinds[kind] <= SHOWN:
                say(f"\n---- pattern {seed + done}: {kind}\n{text}")
        if (done + 1) % EVERY == 0:
            say(f"{done + 1} done, {kinds.total()} failed, {monotonic() - began:.0f} s")
    say(f"{number} patterns, {kinds.total()} failed")
    for kind, often in kinds.most_common():
        say(f"{often:6} {kind}")
    return 1 if kinds else 0


def example(seed: int) -> tuple[str | None, str]:
    """Try one pattern, right and with a wrong count; return what kind of failure there was, and the draft."""
    laid, hand = random_pattern(Random(seed)), f"hand {seed}"
    if said := disagreements(laid, write(laid.pattern, laid.rows, Random(hand))):
        kind = kind_of(said[0])
        return kind, cut_down(laid, hand, kind)
    written, altered = with_a_wrong_count(laid, Random(hand))
    if not is_corrected(written, altered):
        return "a wrong count was not corrected", shown(written, [str(altered)])
    return None, ""


def cut_down(laid: Laid, hand: str, kind: str) -> str:
    """Return a draft with as few of a pattern's first lines as still fail in this way, and what is wrong there."""
    for lines in range(1, len(laid.rows) + 1):
        part = beginning(laid, lines)
        written = write(part.pattern, part.rows, Random(hand))
        said = disagreements(part, written)
        if said and kind_of(said[0]) == kind:
            return shown(written, said)
    raise AssertionError(f"the whole pattern failed before: {kind}")


def beginning(laid: Laid, lines: int) -> Laid:
    """Return the first lines of a pattern."""
    return Laid(replace(laid.pattern, lines=laid.pattern.lines[:lines]), laid.rows[:lines])


def kind_of(said: str) -> str:
    """Return what was said without its figures and without the words of the draft."""
    for words in KINDS:
        if words in said:
            return words
    return re.sub(r"\d+", "…", said)


def shown(written: Written, said: list[str]) -> str:
    """Return a draft with what is wrong below it."""
    return "\n".join((written.text, *(f">> {one}" for one in said)))


def say(text: str) -> None:
    """Print a line at once."""
    sys.stdout.write(f"{text}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main())
