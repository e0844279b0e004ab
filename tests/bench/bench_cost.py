"""Print what a proof costs: a draft of 10 KB, the same with 100 times the stitches, and twice the text.

Run by hand: `python tests/bench/bench_cost.py`. Time should grow with the text and not with the stitches.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable

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


def quickest(run: Callable[[], object]) -> float:
    """Return the shortest of several runs, in milliseconds."""
    found: list[float] = []
    for _ in range(PASSES):
        start = time.perf_counter()
        run()
        found.append(time.perf_counter() - start)
    return 1000 * min(found)


def line(name: str, text: str) -> str:
    """Measure one draft and return its line of the table."""
    source = Draft.of(text)
    pattern = read(source)
    reading, working = quickest(lambda: read(source)), quickest(lambda: work(pattern))
    whole = quickest(lambda: proof(source))
    unread = proof(source).tally.unread
    return f"{name:<22}{len(text):>8}{len(pattern.rounds):>8}{unread:>8}{reading:>10.1f}{working:>10.1f}{whole:>10.1f}"


def main() -> None:
    """Print the table."""
    usual = draft(BYTES, 1)
    drafts = {
        "usual": usual,
        "100 times the stitches": draft(BYTES, 100),
        "twice the text": draft(2 * BYTES, 1),
    }
    header = f"{'milliseconds':<22}{'bytes':>8}{'rounds':>8}{'unread':>8}{'read':>10}{'work':>10}{'proof':>10}"
    sys.stdout.write(header + "\n")
    for name, text in drafts.items():
        sys.stdout.write(line(name, text) + "\n")


if __name__ == "__main__":
    main()
