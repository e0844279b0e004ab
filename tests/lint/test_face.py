"""The way in for other programs: text or path in, proof out, whatever was imported before."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from rowcall.lint import Draft, IntakeError, Proof, proof

DRAFT = "Rnd 1: 6 sc in a magic ring. (6)\nRnd 2: Inc in each st around. (13)\n"


def rules(found: Proof) -> list[str]:
    return [finding.rule for finding in found.findings if finding.level.word == "correction"]


def test_a_text_a_draft_and_a_file_give_the_same(tmp_path: Path) -> None:
    file = tmp_path / "hat.txt"
    file.write_text(DRAFT, "utf-8")

    assert [rules(proof(source)) for source in (DRAFT, Draft.of(DRAFT), file)] == [["count-differs"]] * 3
    assert proof(file).draft.path == str(file)


def test_a_file_is_judged_as_on_the_command_line(tmp_path: Path) -> None:
    file = tmp_path / "hat.txt"
    file.write_text(DRAFT, "utf-8")
    (tmp_path / "rowcall.toml").write_text('[levels]\ncount-differs = "query"\n', "utf-8")

    assert [finding.level.word for finding in proof(file).findings if finding.rule == "count-differs"] == ["query"]


def test_a_file_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(IntakeError, match="there is no such file"):
        proof(tmp_path / "none.txt")


@pytest.mark.parametrize(
    "before",
    ["", "import rowcall.lint.proof", "from rowcall.lint.proof import proof as inner", "import rowcall.lint.cli"],
)
def test_it_can_be_called_whatever_was_imported_before(before: str) -> None:
    code = f"{before}\nfrom rowcall.lint import proof\nprint(proof('Rnd 1: 6 sc in a magic ring. (6)').tally.agree)"

    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)

    assert (done.stdout, done.stderr) == ("1\n", "")


def test_what_is_not_in_the_face_is_not_there() -> None:
    done = subprocess.run([sys.executable, "-c", "from rowcall.lint import purl"], capture_output=True, check=False)

    assert b"ImportError: cannot import name 'purl' from 'rowcall.lint'" in done.stderr
