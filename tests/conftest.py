"""What holds for all tests: none believes or leaves an answer in the user's own cache."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture(autouse=True)
def kept_answers(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Give each test a cache folder of its own."""
    folder = tmp_path_factory.mktemp("answers")
    monkeypatch.setenv("ROWCALL_CACHE", str(folder))
    return folder
