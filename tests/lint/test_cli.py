"""The commands as a user calls them: what each call prints, what it complains of, and its exit status."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path

import jsonschema
import pytest
from by_hand import HAT, hat
from rowcall.lint.cli import app
from rowcall.lint.draft import Draft
from rowcall.lint.finding import Level
from rowcall.lint.proof import Proof
from rowcall.lint.settings import Settings
from rowcall.reports.machine import schema
from rowcall.rules.rule import Case, Passes, Rule, Said
from typer.testing import CliRunner

LINE = ":6.59-6.60: correction: the round comes to 15 sts for Medium, but 16 are stated [count-differs]"
TALLY = ": 3 of 4 rounds worked, 1 agrees, 1 differs, 1 states no count, 1 not read"


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a call came to."""

    status: int
    out: list[str]
    errors: list[str]


def _nothing(case: Case) -> Iterable[Said]:
    del case
    return ()


RULE = Rule(
    "count-differs",
    "counts",
    Level.CORRECTION,
    "a stated count",
    "why",
    "limits",
    "source",
    (Passes("x"),),
    _nothing,
)


def _proof(draft: Draft, settings: Settings) -> Proof:
    """Proof any draft as if it were the hat; `CLEAN` in it finds nothing, `BOOM` breaks the program."""
    if "BOOM" in draft.text:
        raise RuntimeError("the needle\nbroke")
    return replace(hat(() if "CLEAN" in draft.text else None), draft=Draft.of(HAT, draft.path), settings=settings)


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Run:
    """Return a caller of the commands in a folder of its own, with a program whose proofs are known."""
    monkeypatch.setattr("rowcall.lint.proof.proof", _proof)
    monkeypatch.setattr("rowcall.rules.book.all_rules", lambda: (RULE,))
    monkeypatch.chdir(tmp_path)
    return Run(tmp_path)


class Run:
    """Call a command in a folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def __call__(self, *arguments: str, given: bytes | None = None, **files: bytes) -> Outcome:
        for name, data in files.items():
            (self.folder / f"{name}.txt").write_bytes(data)
        result = CliRunner().invoke(app, list(arguments), input=given)
        return Outcome(result.exit_code, result.stdout.splitlines(), result.stderr.splitlines())


@pytest.mark.parametrize(
    ("arguments", "status"),
    [
        (["a.txt"], 1),
        (["clean.txt"], 0),
        (["clean.txt", "a.txt"], 1),
        (["a.txt", "--fails-at", "style"], 1),
        (["a.txt", "--fails-at", "never"], 0),
        (["clean.txt", "--fails-at", "style"], 0),
        (["a.txt", "--only", "query"], 0),
        (["a.txt", "--leave-out", "count-differs"], 0),
        (["a.txt", "--size", "Small"], 0),
        (["a.txt", "--size", "medium"], 1),
        (["none.txt", "a.txt"], 2),
        (["a.txt", "none.txt", "--fails-at", "never"], 2),
        (["a.txt", "--fails-at", "always"], 2),
        (["a.txt", "--format", "sarong"], 2),
        (["a.txt", "--wrong"], 2),
        ([], 2),
    ],
)
def test_exit_status_is_the_same_in_every_form(run: Run, arguments: list[str], status: int) -> None:
    for form in ([], ["--brief"], ["--format", "json"]):
        if not ("--format" in arguments and form):
            assert run("proof", *arguments, *form, a=b"hat", clean=b"CLEAN").status == status


def test_brief_prints_a_line_a_finding(run: Run) -> None:
    assert run("proof", "--brief", "a.txt", "b.txt", a=b"hat", b=b"CLEAN") == Outcome(
        1, [f"a.txt{LINE}", f"a.txt{TALLY}", f"b.txt{TALLY}"], []
    )


def test_screen_prints_one_draft_after_another(run: Run) -> None:
    outcome = run("proof", "a.txt", "b.txt", a=b"hat", b=b"CLEAN")

    assert [line for line in outcome.out if line.endswith(".txt")] == ["a.txt", "b.txt"]
    assert outcome.out[outcome.out.index("b.txt") - 1] == ""
    assert outcome.out.count("How much was worked") == 2


def test_json_is_one_document_and_nothing_else(run: Run) -> None:
    outcome = run("proof", "--format", "json", "a.txt", "none.txt", "b.txt", a=b"hat", b=b"CLEAN")

    document = json.loads("\n".join(outcome.out))
    jsonschema.validate(document, schema())
    assert [(draft["path"], len(draft["findings"])) for draft in document["drafts"]] == [
        ("a.txt", 1),
        ("b.txt", 0),
    ]
    assert (outcome.status, outcome.errors) == (2, ["none.txt: there is no such file"])


def test_standard_input_is_called_dash(run: Run) -> None:
    assert run("proof", "--brief", "-", given=b"hat") == Outcome(1, [f"-{LINE}", f"-{TALLY}"], [])


def test_a_folder_gives_its_drafts_in_order(run: Run) -> None:
    (run.folder / "drafts" / "deep").mkdir(parents=True)
    for name in ("b.md", "a.txt", "deep/c.text", ".hidden.txt", "d.toml"):
        (run.folder / "drafts" / name).write_text("CLEAN")

    assert run("proof", "--brief", "drafts").out == [
        str(Path(f"drafts/{name}")) + TALLY for name in ("a.txt", "b.md", "deep/c.text")
    ]


@pytest.mark.parametrize(
    ("name", "data", "complaint"),
    [
        ("none.txt", None, "none.txt: there is no such file"),
        ("x.txt", b"", "x.txt is empty: there is nothing to proof"),
        ("x.txt", b"a\x00b", "x.txt is not a text file"),
        (
            "x.txt",
            b"BOOM",
            "x.txt could not be proofed through a mistake in Rowcall itself (RuntimeError: the needle broke)",
        ),
    ],
)
def test_a_draft_that_fails_is_said_in_one_line_and_the_others_go_on(
    run: Run, name: str, data: bytes | None, complaint: str
) -> None:
    if data is not None:
        (run.folder / name).write_bytes(data)

    for command in (("proof", "--brief"), ("counts",)):
        outcome = run(*command, name, "a.txt", a=b"hat")

        assert (outcome.status, outcome.errors) == (2, [complaint])
        assert outcome.out[0].startswith("a.txt")


def test_an_empty_folder_is_said(run: Run) -> None:
    (run.folder / "drafts").mkdir()

    assert run("proof", "drafts") == Outcome(2, [], ["drafts holds no draft: no file in it ends in .txt, .text or .md"])


@pytest.mark.parametrize(
    ("arguments", "complaint"),
    [
        (
            ["--only", "count-difers"],
            'there is no rule or level "count-difers", did you mean "count-differs"?',
        ),
        (["--leave-out", "zzz"], 'there is no rule or level "zzz"; rowcall rulebook lists all rules'),
        (["--size", "XL"], 'a.txt has no size "XL": its sizes are Small, Medium, Large'),
        (
            ["--brief", "--format", "json"],
            "only one form can go to the screen, not lines and json: write --to FILE after the others",
        ),
    ],
)
def test_a_wrong_call_is_said_in_one_line(run: Run, arguments: list[str], complaint: str) -> None:
    assert run("proof", "a.txt", *arguments, a=b"hat") == Outcome(2, [], [complaint])


def test_counts_of_one_size(run: Run) -> None:
    outcome = run("counts", "a.txt", "--size", "Medium", a=b"hat")

    assert (outcome.status, outcome.errors) == (0, [])
    assert outcome.out[2:9] == [
        "          Medium",
        "           says makes",
        "Crown",
        "5  Rnd 1     10    10   agrees",
        "6  Rnd 2     16    15!  differs",
        "7  Rnd 3     20     -   not read",
        "8  Rnd 4           20   no count",
    ]


def test_rulebook(run: Run) -> None:
    assert run("rulebook").out[:2] == ["Counts", "  count-differs  correction  A stated count."]
    assert run("rulebook", "count-differs").out[0] == "count-differs: correction, of the family counts"
    assert run("rulebook", "count-difers") == Outcome(
        2, [], ['there is no rule "count-difers", did you mean "count-differs"?']
    )


def test_version_and_no_command(run: Run) -> None:
    assert run("--version") == Outcome(0, ["rowcall 0.1.0"], [])
    assert (run().status, run().out) == (2, [])


# ---------------------------------------------------------------- in a process of its own

CALL = "import sys; from rowcall.lint.cli import main; sys.argv[0] = 'rowcall'; main()"
WITNESS = (
    "import atexit, sys\n"
    "heavy = {'jinja2', 'spacy', 'rich', 'rapidfuzz'}\n"
    "atexit.register(lambda: print(sorted(heavy & set(sys.modules)), file=sys.stderr))\n"
) + CALL


def process(code: str, *arguments: str, **environment: str) -> subprocess.CompletedProcess[bytes]:
    """Run the program in a process of its own."""
    return subprocess.run(
        [sys.executable, "-c", code, *arguments],
        capture_output=True,
        check=False,
        env={**os.environ, **environment},
    )


@pytest.mark.parametrize(
    ("arguments", "status"),
    [
        (["--help"], 0),
        (["-h"], 0),
        (["--version"], 0),
        (["proof", "--help"], 0),
        (["counts", "--help"], 0),
        (["rulebook", "--help"], 0),
        ([], 2),
        (["proof"], 2),
        (["proof", "--wrong"], 2),
        (["proof", "a.txt", "--format", "sarong"], 2),
        (["wrong"], 2),
    ],
)
def test_help_and_wrong_calls_import_nothing_heavy(arguments: list[str], status: int) -> None:
    done = process(WITNESS, *arguments)

    assert (done.returncode, done.stderr.splitlines()[-1]) == (status, b"[]")
    assert b"Traceback" not in done.stderr


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "utf-8", "utf-16"])
def test_any_encoding_of_the_output_will_do(tmp_path: Path, encoding: str) -> None:
    draft = tmp_path / "hat 🧶 ½.txt"
    draft.write_text("Rnd 1: 6 sc in ring. (6) 🧶 ½\n", encoding="utf-8")

    done = process(CALL, "proof", str(draft), PYTHONIOENCODING=encoding)

    assert (done.returncode, done.stderr) == (0, b"")
    assert "How much was worked" in done.stdout.decode(encoding)


def test_no_colour_codes_in_a_file_and_none_of_the_drafts(tmp_path: Path) -> None:
    draft = tmp_path / "hat.txt"
    draft.write_bytes(b"Rnd 1: \x1b[31m6 sc in ring\x1b[0m. (7)\n")

    done = process(CALL, "proof", str(draft), FORCE_COLOR="1")

    assert b"\x1b" not in done.stdout


@pytest.mark.parametrize(
    ("environment", "coloured"),
    [
        ({"NO_COLOR": "", "TERM": "xterm"}, True),
        ({"NO_COLOR": "1", "TERM": "xterm"}, False),
        ({"NO_COLOR": "", "TERM": "dumb"}, False),
    ],
)
def test_colour_on_a_terminal_unless_it_is_not_wanted(
    tmp_path: Path, environment: dict[str, str], coloured: bool
) -> None:
    draft = tmp_path / "hat.txt"
    draft.write_text("Rnd 1: 6 sc in ring. (6)\n")
    on_a_terminal = "import sys; sys.stdout.isatty = lambda: True; " + CALL

    done = process(on_a_terminal, "proof", str(draft), **{"WT_SESSION": "1", **environment})

    assert (b"\x1b[" in done.stdout, done.stderr) == (coloured, b"")


def test_a_closed_pipe_ends_quietly(tmp_path: Path) -> None:
    for number in range(200):
        (tmp_path / f"{number}.txt").write_text("Rnd 1: 6 sc in ring. (6)\n" * 200)
    running = subprocess.Popen(
        [sys.executable, "-c", CALL, "counts", str(tmp_path)], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    )
    assert running.stdout is not None
    assert running.stderr is not None

    first = running.stdout.readline()
    running.stdout.close()
    errors = running.stderr.read()
    running.stderr.close()

    assert first.decode().strip() == str(tmp_path / "0.txt")
    assert (errors, running.wait(timeout=60)) == (b"", 0)
