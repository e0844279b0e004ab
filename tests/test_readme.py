"""The proofs in the README are what the program prints; `python tests/test_readme.py` puts in fresh ones."""

from __future__ import annotations

import doctest
import re
from dataclasses import replace
from pathlib import Path

from rowcall.lint.intake import read_file
from rowcall.lint.proof import proof
from rowcall.reports.screen import screen

ROOT = Path(__file__).parent.parent
README = ROOT / "README.md"
_SHOWN = re.compile(r"(<!-- proof of (corpus/[a-z-]+\.txt) -->\n+```text\n).*?(\n```\n)", re.DOTALL)


def refreshed(readme: str) -> str:
    """Return the README with each proof in it made afresh."""
    return _SHOWN.sub(lambda shown: shown[1] + _printed(shown[2]) + shown[3], readme)


def _printed(path: str) -> str:
    draft = replace(read_file(ROOT / path), path=path)
    return screen(proof(draft))


def test_proofs_are_what_the_program_prints() -> None:
    readme = README.read_text(encoding="utf-8")

    assert _SHOWN.findall(readme)
    assert refreshed(readme) == readme


def test_python_prints_what_is_shown() -> None:
    done = doctest.testfile(str(README), module_relative=False, encoding="utf-8")

    assert done.attempted > 5
    assert done.failed == 0


def test_refreshing_replaces_what_is_out_of_date() -> None:
    before = "Before\n<!-- proof of corpus/breakwater-hat.txt -->\n\n```text\n"
    after = "\n```\nAfter ```text\nold\n```\n"

    fresh = refreshed(f"{before}old{after}")

    assert fresh.startswith(f"{before}corpus/breakwater-hat.txt\n")
    assert fresh.endswith(after)


if __name__ == "__main__":
    README.write_text(refreshed(README.read_text(encoding="utf-8")), encoding="utf-8")
