"""Forms and files on the command line: what each call writes, and what it leaves alone."""

from __future__ import annotations

import json
import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest
from rowcall.lint.cli import app
from typer.testing import CliRunner

DRAFT = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: inc around. (13)\n"
FOUND = "correction: Rnd 2 makes 12 sts, the draft says 13 [count-differs]"
CALL = [sys.executable, "-c", "from rowcall.lint.cli import main; main()"]


@pytest.fixture
def hat(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a draft with one thing to correct, in a folder to work in."""
    monkeypatch.chdir(tmp_path)
    draft = tmp_path / "hat.txt"
    draft.write_text(DRAFT)
    return draft


def call(*arguments: str) -> tuple[int, list[str], list[str]]:
    """Return the exit status of a call, what it prints and what it complains of."""
    result = CliRunner().invoke(app, ["proof", *arguments])
    return result.exit_code, result.stdout.splitlines(), result.stderr.splitlines()


@pytest.mark.parametrize(
    ("form", "first"),
    [
        ("screen", "hat.txt"),
        ("lines", f"hat.txt:2.21-2.22: {FOUND}"),
        ("html", "<!DOCTYPE html>"),
        ("markdown", "# Proof of hat.txt"),
        ("csv", "draft,line,section,round,size,says,makes,unit,standing,reason"),
        ("json", "{"),
        ("sarif", "{"),
    ],
)
@pytest.mark.usefixtures("hat")
def test_each_form_is_the_same_on_the_screen_and_in_a_file(form: str, first: str) -> None:
    status, out, errors = call("hat.txt", "--format", form)

    assert (status, out[0], errors) == (1, first, [])
    assert call("hat.txt", "--format", form, "--to", "file") == (1, [], [])
    assert Path("file").read_text("utf-8").splitlines() == out


@pytest.mark.usefixtures("hat")
def test_brief_is_the_form_lines() -> None:
    assert call("hat.txt", "--brief") == call("hat.txt", "--format", "lines")


@pytest.mark.parametrize(
    "arguments",
    [
        ["--format", "json", "--format", "csv", "--to", "t.csv", "--brief", "--to", "b.txt"],
        ["--format=csv", "--to=t.csv", "--format=json", "--format=lines", "--to=b.txt"],
        ["--brief", "--to", "b.txt", "--fails-at", "query", "--format", "csv", "--to", "t.csv", "--format", "json"],
    ],
)
@pytest.mark.usefixtures("hat")
def test_several_forms_in_one_call(arguments: list[str]) -> None:
    status, out, errors = call("hat.txt", *arguments)

    assert (status, errors) == (1, [])
    assert json.loads("\n".join(out))["drafts"][0]["tally"]["differ"] == 1
    assert Path("t.csv").read_text().splitlines()[2] == "hat.txt,2,,Rnd 2,,13,12,sts,differs,"
    assert Path("b.txt").read_text().splitlines()[0] == f"hat.txt:2.21-2.22: {FOUND}"


@pytest.mark.usefixtures("hat")
def test_a_file_alone_takes_the_proof_as_the_screen_shows_it() -> None:
    _, out, _ = call("hat.txt")

    assert call("hat.txt", "hat.txt", "--to", "proof.txt") == (1, [], [])
    assert Path("proof.txt").read_text().splitlines() == [*out, "", *out]


@pytest.mark.parametrize(
    ("arguments", "complaint"),
    [
        (["--to", "old"], "old exists already: say --replace to write over it"),
        (
            ["--format", "csv", "--to", "new", "--format", "json", "--to", "old"],
            "old exists already: say --replace to write over it",
        ),
        (["--to", "hat.txt"], "hat.txt is a draft of this call, and a draft is never written over"),
        (["--replace", "--to", "hat.txt"], "hat.txt is a draft of this call, and a draft is never written over"),
        (["--replace", "--to", "./hat.txt", "."], "hat.txt is a draft of this call, and a draft is never written over"),
        (["--to", "a", "--to", "b"], "--to b has no --format of its own: write one before each --to"),
    ],
)
def test_a_call_that_would_write_over_something_does_nothing(hat: Path, arguments: list[str], complaint: str) -> None:
    Path("old").write_text("old")

    assert call("hat.txt", *arguments) == (2, [], [complaint])
    assert (hat.read_text(), Path("old").read_text(), Path("new").exists()) == (DRAFT, "old", False)


@pytest.mark.usefixtures("hat")
def test_a_file_is_replaced_where_that_is_said() -> None:
    Path("old").write_text("old")

    assert call("hat.txt", "--brief", "--to", "old", "--replace") == (1, [], [])
    assert Path("old").read_text().startswith("hat.txt:2.21")


@pytest.mark.usefixtures("hat")
def test_drafts_that_fail_do_not_spoil_the_file() -> None:
    status, out, errors = call("none.txt", "hat.txt", "--brief", "--to", "lines.txt")

    assert (status, out, errors) == (2, [], ["none.txt: there is no such file"])
    assert Path("lines.txt").read_text().startswith("hat.txt:2.21")


def on_a_terminal(folder: Path, *arguments: str) -> str:
    """Return what a call says on standard error where that is a terminal."""
    ours, theirs = pty.openpty()
    done = subprocess.run([*CALL, *arguments], cwd=folder, stdout=subprocess.DEVNULL, stderr=theirs, check=False)
    os.close(theirs)
    said = b""
    while True:
        try:
            part = os.read(ours, 4096)
        except OSError:
            break
        if not part:
            break
        said += part
    os.close(ours)
    assert done.returncode in (0, 1)
    return said.decode()


def test_how_far_a_folder_has_come_is_said_on_a_terminal_and_wiped_away(hat: Path) -> None:
    (hat.parent / "cap.txt").write_text(DRAFT)

    assert on_a_terminal(hat.parent, "proof", ".") == (
        "\r\x1b[KProofing 1 of 2: cap.txt\r\x1b[K\r\x1b[KProofing 2 of 2: hat.txt\r\x1b[K"
    )
    assert on_a_terminal(hat.parent, "proof", "hat.txt") == ""
