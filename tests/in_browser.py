"""The browser in which the page is tried, and a page opened in it."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING, Any, Protocol

if TYPE_CHECKING:
    from playwright.sync_api import Page

_NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "msedge")
BROWSER = next((found for name in _NAMES if (found := shutil.which(name))), None)
FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


class Opened:
    """A page in the browser, with all that it asked for and complained of."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.asked: list[str] = []
        self.complaints: list[str] = []

    def style(self, selector: str, name: str) -> str:
        """Return a computed style of the first element that a selector finds."""
        return self.page.locator(selector).first.evaluate(f"(element) => getComputedStyle(element).{name}")

    def box(self, selector: str) -> tuple[float, float, float, float]:
        """Return where an element is: left, top, right, bottom."""
        found = self.page.locator(selector).first.bounding_box()
        assert found is not None
        return found["x"], found["y"], found["x"] + found["width"], found["y"] + found["height"]


class Opener(Protocol):
    """Opens the page of some drafts in a window so many points wide; options are those of a browser context."""

    def __call__(self, *texts: str, width: int = 1200, **options: Any) -> Opened: ...
