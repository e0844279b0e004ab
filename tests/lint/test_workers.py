"""Several processes: the same answers in the same order, whatever one draft does to the process it is worked in."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from rowcall.lint import workers
from rowcall.lint.answers import Wanted, answer
from rowcall.lint.workers import WORTH, in_parallel, processes_for

GOOD = "Rnd 1: 6 sc in a magic ring. (6)\nRnd 2: Inc in each st around. (12)\n"
BAD = GOOD.replace("(12)", "(13)")
CALL = "from rowcall.lint.cli import main; main()"


@pytest.fixture
def drafts(tmp_path: Path) -> list[str]:
    for number in range(12):
        (tmp_path / f"{number:02}.txt").write_text((BAD if number % 3 else GOOD) + f"\nDraft {number}\n", "utf-8")
    return [str(path) for path in sorted(tmp_path.glob("*.txt"))]


def test_answers_come_in_order_and_are_the_same(drafts: list[str]) -> None:
    wanted = Wanted(pieces=("lines", "json", "counts"))
    asked = [*drafts[:5], "none.txt", *drafts[5:]]

    assert list(in_parallel(asked, wanted, 2)) == [answer(path, wanted) for path in asked]


def test_whole_proofs_come_back(drafts: list[str]) -> None:
    wanted = Wanted(proof=True)

    assert list(in_parallel(drafts[:3], wanted, 2)) == [answer(path, wanted) for path in drafts[:3]]


# A worker imports the module that was called; this one makes a draft named `deadly` end its process at once.
DEADLY = """\
import os, sys
from pathlib import Path
from rowcall.lint import answers, workers

real = answers.proof_of

def proof_of(path, wanted):
    if "deadly" in path:
        os._exit(9)
    return real(path, wanted)

answers.proof_of = proof_of
if __name__ == "__main__":
    for found in workers.in_parallel(sys.argv[1:], answers.Wanted(pieces=("lines",)), 2):
        print(Path(found.path).name, found.worst, *found.messages)
"""


def test_a_draft_that_ends_its_process_fails_alone(drafts: list[str], tmp_path: Path) -> None:
    script = tmp_path / "deadly.py"
    script.write_text(DEADLY, "utf-8")
    deadly = tmp_path / "deadly.txt"
    deadly.write_text(GOOD, "utf-8")

    done = subprocess.run(
        [sys.executable, str(script), drafts[0], drafts[1], str(deadly), drafts[2], drafts[3]],
        capture_output=True,
        check=True,
        text=True,
    )

    assert done.stdout.splitlines() == [
        "00.txt 0",
        "01.txt 3",
        f"deadly.txt 0 {deadly} could not be proofed through a mistake in Rowcall itself "
        "(the process that worked it ended)",
        "02.txt 3",
        "03.txt 0",
    ]


def test_breaking_off_ends_cleanly(tmp_path: Path) -> None:
    for number in range(40):
        (tmp_path / f"{number:02}.txt").write_text(f"Draft {number}\n" + GOOD * 100, "utf-8")
    running = subprocess.Popen(
        [sys.executable, "-c", CALL, "proof", "--brief", "--processes", "2", str(tmp_path)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        start_new_session=True,
    )
    assert running.stdout is not None
    running.stdout.readline()

    os.killpg(running.pid, signal.SIGINT)  # as a terminal does: to all processes of the call
    # this comes back only when every process has let go of the two pipes
    _, errors = running.communicate(timeout=60)

    assert (running.returncode, errors) == (130, b"broken off\n")


@pytest.mark.parametrize(
    ("cores", "sizes", "asked", "expected"),
    [
        (8, [WORTH // 10] * 8, None, 1),
        (8, [WORTH] * 8, None, 8),
        (2, [WORTH] * 8, None, 2),
        (8, [WORTH] * 3, None, 3),
        (8, [WORTH * 9], None, 1),
        (1, [WORTH] * 8, None, 1),
        (2, [10] * 8, 4, 4),
        (8, [WORTH] * 8, 1, 1),
        (8, [10, 10], 8, 2),
    ],
)
def test_processes_by_cores_and_text(
    monkeypatch: pytest.MonkeyPatch, cores: int, sizes: list[int], asked: int | None, expected: int
) -> None:
    monkeypatch.setattr(workers, "_cores", lambda: cores)
    monkeypatch.setattr(workers, "_bytes", dict(zip(map(str, range(len(sizes))), sizes, strict=True)).__getitem__)

    assert processes_for([str(number) for number in range(len(sizes))], asked) == expected
