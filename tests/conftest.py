"""What holds for all tests: none believes or leaves an answer in the user's own cache.

Where no browser is on the machine, the tests that need one are not collected, and the head of the report says so.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from in_browser import BROWSER

collect_ignore = [] if BROWSER else ["browser"]


def pytest_report_header() -> str:
    """Say which browser the page is tried in, or that it isn't."""
    if BROWSER:
        return f"the page is tried in {BROWSER}"
    return "NO BROWSER WAS FOUND: tests/browser is left out; install Chromium and run again to try the page in it"


@pytest.fixture(autouse=True)
def kept_answers(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Give each test a cache folder of its own."""
    folder = tmp_path_factory.mktemp("answers")
    monkeypatch.setenv("ROWCALL_CACHE", str(folder))
    return folder
