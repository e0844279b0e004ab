"""The hook for pre-commit: a flawed draft stops a commit, a clean one or an agreed one passes.

The hook is run by pre-commit itself, with the entry, the types and the patterns that are shipped. Only its language is
`system` here, so that it runs the Rowcall under test; `python` would have pre-commit fetch a Rowcall and all it needs.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from textwrap import indent

import pytest

HOOKS = Path(__file__).parent.parent / ".pre-commit-hooks.yaml"
WHO = ("AUTHOR_NAME", "AUTHOR_EMAIL", "COMMITTER_NAME", "COMMITTER_EMAIL")
CLEAN = "Rnd 1: 6 sc in a magic ring. (6)\nRnd 2: Inc in each st around. (12)\n"
FLAWED = CLEAN.replace("(12)", "(13)")
TOLD = "hat.txt:2.32-2.33: correction: Rnd 2 makes 12 sts, the draft says 13 [count-differs]"


class Scratch:
    """A repository with the hook installed."""

    def __init__(self, place: Path) -> None:
        self.place = place
        self._environment = {
            **os.environ,
            "PATH": os.pathsep.join([str(Path(sys.executable).parent), os.environ["PATH"]]),
            "PRE_COMMIT_HOME": str(place / ".git" / "pre-commit"),
            "GIT_CONFIG_GLOBAL": os.devnull,
            "GIT_CONFIG_NOSYSTEM": "1",
            **{
                f"GIT_{who}_{what}": "maker@example.org"
                for who in ("AUTHOR", "COMMITTER")
                for what in ("NAME", "EMAIL")
            },
        }

    def run(self, *words: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            words,
            cwd=self.place,
            env=self._environment,
            check=False,
            text=True,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
        )

    def commit(self, **files: str) -> tuple[bool, str]:
        """Try to commit files; tell whether it came about, and what was said."""
        for name, text in files.items():
            (self.place / name.replace("__", ".")).write_text(text, "utf-8")
        self.run("git", "add", "--all")
        done = self.run("git", "commit", "--message", "Drafts")
        return done.returncode == 0, done.stdout


@pytest.fixture
def scratch(tmp_path: Path) -> Scratch:
    repository = Scratch(tmp_path)
    shipped = HOOKS.read_text("utf-8").replace("language: python", "language: system")
    hooks = "repos:\n- repo: local\n  hooks:\n" + indent(shipped, "  ")
    (tmp_path / ".pre-commit-config.yaml").write_text(hooks, "utf-8")
    for words in (["git", "init", "--quiet"], [sys.executable, "-m", "pre_commit", "install"]):
        done = repository.run(*words)
        assert done.returncode == 0, done.stdout
    return repository


def test_the_shipped_file_is_a_manifest() -> None:
    done = subprocess.run([sys.executable, "-m", "pre_commit", "validate-manifest", str(HOOKS)], check=False)

    assert done.returncode == 0


def test_a_flawed_draft_stops_a_commit_until_it_is_mended(scratch: Scratch) -> None:
    came, said = scratch.commit(hat__txt=FLAWED)

    assert not came
    assert TOLD in said
    assert scratch.commit(hat__txt=CLEAN)[0]


def test_a_draft_with_an_agreed_stet_passes(scratch: Scratch) -> None:
    assert not scratch.commit(hat__txt=FLAWED)[0]
    agreed = scratch.run("rowcall", "stet", "hat.txt", "2", "count-differs", "--because", "the last st is undone")
    assert agreed.returncode == 0, agreed.stdout

    assert scratch.commit()[0]


def test_files_that_are_no_drafts_are_left_alone(scratch: Scratch) -> None:
    came, said = scratch.commit(README__md=FLAWED, notes__py=FLAWED)

    assert came
    assert "no files to check" in said
