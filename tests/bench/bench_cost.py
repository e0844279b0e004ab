"""Print what a proof costs: a draft of 10 KB, the same with 100 times the stitches, and twice the text.

Run by hand: `python tests/bench/bench_cost.py`. Time should grow with the text and not with the stitches.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Sequence

from rowcall.lint.draft import Draft
from rowcall.lint.proof import proof
from rowcall.lint.reading import read
from rowcall.lint.working import work

BYTES = 10_000
PASSES = 5


def draft(size: int, scale: int) -> str:
    """Write a draft of about `size` bytes in three sizes, with `scale` times the usual stitches."""
    small, medium, large = (number * scale for number in (72, 84, 96))
    lines = [
        "HARBOUR WALL COWL",
        "US terms",
        "Sizes: Small (Medium, Large)",
        "",
        f"Rnd 1: Fsc {small} ({medium}, {large}), join. {small} ({medium}, {large}) sc",
    ]
    length = sum(map(len, lines))
    number = 1
    while length < size:
        sts = f"{small} ({medium}, {large})"
        more = f"{small * 7 // 6} ({medium * 7 // 6}, {large * 7 // 6})"
        block = [
            f"Rnd {number + 1}: *Sc in next 2 sts, ch 1, sk next st; rep from * around, join.",
            f"Rnd {number + 2}: Sc in each sc and in each ch-1 sp around, join. {sts} sc",
            f"Rnd {number + 3}: *Sc in next 5 sts, 2 sc in next st; rep from * around, join. {more} sc",
            f"Rnd {number + 4}: *Sc in next 5 sts, sc2tog; rep from * around, join. {sts} sc",
            f"Rnds {number + 5}-{number + 8}: Sc in each st around, join. {sts} sc",
        ]
        number += 8
        length += sum(map(len, block)) + len(block)
        lines += block
    return "\n".join(lines) + "\n"


def timed(run: Callable[[], object]) -> float:
    """Return how long a run takes, in milliseconds."""
    start = time.perf_counter()
    run()
    return 1000 * (time.perf_counter() - start)


def measured(text: str) -> tuple[float, float, float]:
    """Return how long reading, working and the whole proof of a draft take."""
    source = Draft.of(text)
    pattern = read(source)
    return timed(lambda: read(source)), timed(lambda: work(pattern)), timed(lambda: proof(source))


def line(name: str, text: str, passes: Sequence[tuple[float, float, float]]) -> str:
    """Return a line of the table with the shortest of several runs."""
    tally = proof(text).tally
    times = "".join(f"{min(one):>10.1f}" for one in zip(*passes, strict=True))
    return f"{name:<22}{len(text):>8}{tally.rounds:>8}{tally.unread:>8}{times}"


def main() -> None:
    """Print the table; the drafts take turns, so that a busy moment of the machine slows all of them alike."""
    drafts = {
        "usual": draft(BYTES, 1),
        "100 times the stitches": draft(BYTES, 100),
        "twice the text": draft(2 * BYTES, 1),
    }
    passes = [{name: measured(text) for name, text in drafts.items()} for _ in range(PASSES)]
    header = f"{'milliseconds':<22}{'bytes':>8}{'rounds':>8}{'unread':>8}{'read':>10}{'work':>10}{'proof':>10}"
    sys.stdout.write(header + "\n")
    for name, text in drafts.items():
        sys.stdout.write(line(name, text, [one[name] for one in passes]) + "\n")


if __name__ == "__main__":
    main()
