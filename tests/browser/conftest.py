"""A headless browser for the page, offline: whatever the page would fetch is noted down and refused."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from in_browser import BROWSER, FLAGS, Opened, Opener
from playwright.sync_api import Browser, BrowserContext, Route, sync_playwright
from rowcall.lint.draft import Draft
from rowcall.lint.proof import proof
from rowcall.reports.page import page as page_of


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Return the browser; each start has a fresh profile of its own."""
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=BROWSER, args=FLAGS)
        yield running
        running.close()


@pytest.fixture
def show(browser: Browser, tmp_path: Path) -> Iterator[Opener]:
    """Return what opens the page of some drafts; options are those of a browser context."""
    contexts: list[BrowserContext] = []

    def show_page(*texts: str, width: int = 1200, **options: Any) -> Opened:
        file = tmp_path / "proof.html"
        drafts = [Draft.of(text, f"hat{number or ''}.txt") for number, text in enumerate(texts)]
        file.write_text(page_of([proof(draft) for draft in drafts]), encoding="utf-8")
        context = browser.new_context(viewport={"width": width, "height": 900}, **options)
        context.set_default_timeout(5_000)
        contexts.append(context)
        opened = Opened(context.new_page())

        def met(route: Route) -> None:
            opened.asked.append(route.request.url)
            if route.request.url == file.as_uri():
                route.continue_()
            else:
                route.abort()

        opened.page.route("**/*", met)
        opened.page.on("console", lambda message: opened.complaints.append(message.text))
        opened.page.on("pageerror", lambda error: opened.complaints.append(str(error)))
        opened.page.on("dialog", lambda dialog: opened.complaints.append(dialog.message))
        opened.page.goto(file.as_uri())
        return opened

    yield show_page
    for context in contexts:
        context.close()
