"""Print what a folder of drafts costs: with one process and with two, and again when nothing in it has changed.

Run by hand: `python tests/bench/bench_folder.py [DRAFTS]`. Wall-clock time says little while others use the machine, so
the time that the processors spent on the call is printed beside it. `at best` is what two idle cores would need: the
processor time of the busier process and of the one that was called.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from bench_cost import draft

BYTES = 10_000
HOOK = 50
CALL = "from rowcall.lint.cli import main; main()"


def folder(place: Path, number: int) -> Path:
    """Write so many drafts of 10 KB, each with a title of its own."""
    place.mkdir()
    text = draft(BYTES, 1)
    for one in range(number):
        (place / f"draft-{one:04}.txt").write_text(f"DRAFT {one}\n{text}", "utf-8")
    return place


def timed(place: Path, cache: str, *options: str) -> tuple[float, float, bytes]:
    """Return the wall-clock and the processor time of a call, in seconds, and what it printed."""
    before, begun = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-c", CALL, "proof", "--brief", "--fails-at", "never", *options, str(place)],
        capture_output=True,
        check=True,
        env={**os.environ, "ROWCALL_CACHE": cache},
    )
    wall, after = time.perf_counter() - begun, resource.getrusage(resource.RUSAGE_CHILDREN)
    spent = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return wall, spent, done.stdout


def main() -> None:
    """Print the figures."""
    number = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    with tempfile.TemporaryDirectory() as base:
        drafts = folder(Path(base, "drafts"), number)
        one = timed(drafts, "", "--processes", "1")
        two = timed(drafts, "", "--processes", "2")
        start = timed(folder(Path(base, "small"), 1), "", "--processes", "1")
        print(f"{number} drafts of 10 KB          wall    processor")  # noqa: T201
        print(f"  one process          {one[0]:10.2f} {one[1]:10.2f}")  # noqa: T201
        print(f"  two processes        {two[0]:10.2f} {two[1]:10.2f}")  # noqa: T201
        print(f"  same output in the same order: {one[2] == two[2]}")  # noqa: T201
        print(f"  times as fast: {one[0] / two[0]:.2f} by the clock")  # noqa: T201
        # both workers share the work evenly; the call itself only hands out and prints
        print(f"  times as fast: {one[1] / ((two[1] + start[1]) / 2):.2f} at best, by processor time")  # noqa: T201

        hook, cache = folder(Path(base, "hook"), HOOK), str(Path(base, "cache"))
        new = timed(hook, cache)
        runs = [timed(hook, cache) for _ in range(10)]
        again = min(runs, key=lambda run: run[1])
        print(f"{HOOK} drafts, nothing kept  {new[0]:10.2f} {new[1]:10.2f}")  # noqa: T201
        print(f"{HOOK} drafts, unchanged     {min(run[0] for run in runs):10.2f} {again[1]:10.2f}")  # noqa: T201
        print(f"  same output: {again[2] == new[2]}")  # noqa: T201


if __name__ == "__main__":
    main()
