"""The longhand command: its status, what it prints and writes, and what it complains of."""

from __future__ import annotations

from pathlib import Path

import pytest
from rowcall.lint.cli import app
from typer.testing import CliRunner

DRAFT = (
    "CAP\nSizes: Small (Large)\n\nRnd 1: 6 (8) sc in a magic ring. 6 (8) sc\nRnd 2: Inc in each st around. 12 (16) sc\n"
)
SMALL = "CAP\nSize: Small\n\nRnd 1: 6 sc in a magic ring. 6 sc\nRnd 2: Inc in each st around. 12 sc\n"


@pytest.fixture
def draft(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    file = tmp_path / "cap.txt"
    file.write_text(DRAFT, "utf-8")
    return file


def call(*arguments: str) -> tuple[int, str, str]:
    result = CliRunner().invoke(app, ["longhand", *arguments])
    return result.exit_code, result.stdout, result.stderr


def test_one_size_is_printed(draft: Path) -> None:
    assert call(draft.name, "--size", "small", "--format", "text") == (0, SMALL, "")


@pytest.mark.parametrize(
    ("size", "message"),
    [
        ((), "cap.txt is written in several sizes, say which with --size: Small, Large"),
        (("--size", "Lage"), 'cap.txt has no size "Lage": did you mean "Large"? its sizes are Small, Large'),
    ],
)
def test_a_size_must_be_named(draft: Path, size: tuple[str, ...], message: str) -> None:
    assert call(draft.name, *size) == (2, "", f"{message}\n")


def test_a_file_is_written_once_and_replaced_only_when_asked(draft: Path) -> None:
    wanted = (draft.name, "--size", "Small", "--format", "text", "--to", "small.txt")

    assert call(*wanted) == (0, "", "")
    assert (draft.parent / "small.txt").read_text("utf-8") == SMALL
    assert call(*wanted) == (2, "", "small.txt exists already: say --replace to write over it\n")
    assert call(*wanted, "--replace") == (0, "", "")


def test_the_draft_is_never_written_over(draft: Path) -> None:
    status, _, errors = call(draft.name, "--size", "Small", "--to", draft.name, "--replace")

    assert (status, errors) == (2, "cap.txt is a draft of this call, and a draft is never written over\n")
    assert draft.read_text("utf-8") == DRAFT


@pytest.mark.parametrize("form", ["screen", "text", "markdown", "html"])
@pytest.mark.parametrize("ticks", [(), ("--ticks",)])
def test_every_form_is_given(draft: Path, form: str, ticks: tuple[str, ...]) -> None:
    status, out, _ = call(draft.name, "--size", "Small", "--format", form, *ticks)

    assert status == 0
    assert "Inc in each st around. 12 sc" in out


def test_a_missing_draft_is_said(draft: Path) -> None:
    assert call(f"{draft.stem}.doc") == (2, "", "cap.doc: there is no such file\n")
