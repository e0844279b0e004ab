"""Print what the page of a proof costs: its size, and the time that it takes beside the proof itself.

Run by hand: `python tests/bench/bench_page.py`. A page of a draft of 10 KB should stay below 300 KB and 0.3 s.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

from bench_cost import draft
from rowcall.lint.draft import Draft
from rowcall.lint.proof import proof
from rowcall.reports.page import page

BYTES = 10_000
PASSES = 5
CORPUS = Path(__file__).parents[2] / "corpus"


def drafts() -> dict[str, str]:
    """Return the drafts: one of 10 KB in three sizes, all flawed ones of the corpus in one, and a small hat."""
    hat = (CORPUS / "breakwater-hat.txt").read_text("utf-8")
    pieces = [file.read_text("utf-8") for file in sorted(CORPUS.glob("*.txt"))]
    return {"10 KB, 3 sizes": draft(BYTES, 1), "many pieces": "\n\n".join(pieces)[:BYTES], "a hat": hat}


def timed(text: str) -> tuple[float, float, int]:
    """Return what the proof and then its page take of the processor, in milliseconds, and how large the page is."""
    start = time.process_time()
    done = proof(Draft.of(text))
    between = time.process_time()
    size = len(page([done]).encode())
    return 1000 * (between - start), 1000 * (time.process_time() - between), size


def main() -> None:
    """Print the table; the first page, which reads its template, has a line of its own."""
    texts = drafts()
    proof(Draft.of(texts["a hat"]))
    first = timed(texts["a hat"])
    sys.stdout.write(f"{'milliseconds':<22}{'bytes':>8}{'proof':>10}{'page':>10}{'bytes of page':>16}\n")
    sys.stdout.write(
        f"{'a hat, first time':<22}{len(texts['a hat']):>8}{first[0]:>10.1f}{first[1]:>10.1f}{first[2]:>16}\n"
    )
    for name, text in texts.items():
        passes = [timed(text) for _ in range(PASSES)]
        proofed, paged, size = (min(one) for one in zip(*passes, strict=True))
        sys.stdout.write(f"{name:<22}{len(text):>8}{proofed:>10.1f}{paged:>10.1f}{size:>16.0f}\n")


if __name__ == "__main__":
    main()
