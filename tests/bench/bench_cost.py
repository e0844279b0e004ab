"""Print what a proof costs: a draft of 10 KB, the same with 100 times the stitches, twice the text, and a cold start.

Run by hand: `python tests/bench/bench_cost.py`. Time should grow with the text and not with the stitches: 100 times the
stitches take at most 1.2 times as long, twice the text at most 2.2 times. All times are processor time of one core.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from rowcall.lint.draft import Draft
from rowcall.lint.proof import proof
from rowcall.lint.reading import read
from rowcall.lint.working import work

BYTES = 10_000
PASSES = 5
MOST = {"100 times the stitches": 1.2, "twice the text": 2.2}  # times as long as the usual draft
CALL = "import sys; sys.argv = ['rowcall', *sys.argv[1:]]; from rowcall.lint.cli import main; main()"


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
    start = time.process_time()
    run()
    return 1000 * (time.process_time() - start)


def measured(text: str) -> tuple[float, float, float]:
    """Return how long reading, working and the whole proof of a draft take."""
    source = Draft.of(text)
    pattern = read(source)
    return timed(lambda: read(source)), timed(lambda: work(pattern)), timed(lambda: proof(source))


def line(name: str, text: str, times: Sequence[float]) -> str:
    """Return a line of the table."""
    tally = proof(text).tally
    shown = "".join(f"{one:>10.1f}" for one in times)
    return f"{name:<22}{len(text):>8}{tally.rounds:>8}{tally.unread:>8}{shown}{len(text) / times[-1]:>10.0f}"


def called(arguments: Sequence[str], settings: Mapping[str, str]) -> float:
    """Return the processor time that a call of Python takes, in seconds."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(
        [sys.executable, *arguments], env=settings, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False
    )
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def cold(text: str) -> tuple[float, float]:
    """Return how long importing spaCy takes and how long a first proof takes, as installed: with its modules compiled.

    No answer kept from an earlier call is used.
    """
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "draft.txt"
        file.write_text(text, encoding="utf-8")
        settings = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
        settings |= {"ROWCALL_CACHE": "", "PYTHONPYCACHEPREFIX": str(Path(folder) / "compiled")}
        ways = (["-c", "import spacy"], ["-c", CALL, "proof", str(file)])
        for way in ways:
            called(way, settings)  # compiles what isn't yet
        passes = [[called(way, settings) for way in ways] for _ in range(PASSES)]
    spacy, whole = (min(one) for one in zip(*passes, strict=True))
    return spacy, whole


def main() -> None:
    """Print the tables; the drafts take turns, so that a busy moment of the machine slows all of them alike."""
    drafts = {
        "usual": draft(BYTES, 1),
        "100 times the stitches": draft(BYTES, 100),
        "twice the text": draft(2 * BYTES, 1),
    }
    passes = [{name: measured(text) for name, text in drafts.items()} for _ in range(PASSES)]
    least = {name: [min(one) for one in zip(*(each[name] for each in passes), strict=True)] for name in drafts}
    header = (
        f"{'milliseconds':<22}{'bytes':>8}{'rounds':>8}{'unread':>8}{'read':>10}{'work':>10}{'proof':>10}{'KB/s':>10}"
    )
    sys.stdout.write(header + "\n")
    for name, text in drafts.items():
        sys.stdout.write(line(name, text, least[name]) + "\n")
    for name, most in MOST.items():
        sys.stdout.write(f"{name}: {least[name][-1] / least['usual'][-1]:.2f} times as long (at most {most})\n")
    spacy, whole = cold(drafts["usual"])
    sys.stdout.write(
        f"cold: {whole:.2f} s for the first proof, {spacy:.2f} s of it spaCy's import, {whole - spacy:.2f} s more\n"
    )


if __name__ == "__main__":
    main()
