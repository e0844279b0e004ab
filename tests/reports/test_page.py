"""The page as text: escaped, closed to the network, small; `tests/browser` tries it in a real browser."""

from __future__ import annotations

import base64
import hashlib
import re
from dataclasses import replace
from html.parser import HTMLParser
from importlib import import_module

import pytest
from by_hand import Entry, hat, proof_by_hand, wrong_count
from rowcall.lint.draft import Draft
from rowcall.lint.finding import Aside, Change, Finding, Level
from rowcall.lint.proof import proof
from rowcall.reports.page import page

NASTY = "</code><script>alert(1)</script>\"'&{{ 7 * 7 }}\u202e\x1b"
VOID = {"meta", "br", "input", "link", "circle", "path"}


class Reader(HTMLParser):
    """Gathers the tags of a page, and whether each that is opened is closed."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.seen: list[tuple[str, dict[str, str | None]]] = []
        self.wrong: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.wrong.append(tag)


def read(text: str) -> Reader:
    """Read a page."""
    reader = Reader()
    reader.feed(text)
    return reader


def test_the_page_is_well_formed_and_every_link_stays_in_it() -> None:
    reader = read(page([hat(), hat([replace(wrong_count(), asides=(Aside(wrong_count().span, "here"),))])]))

    ids = [attributes["id"] for _, attributes in reader.seen if "id" in attributes]
    links = {attributes["href"] for tag, attributes in reader.seen if tag == "a"}
    assert (reader.open, reader.wrong) == ([], [])
    assert len(ids) == len(set(ids))
    assert {f"#{one}" for one in ids} >= links
    assert not [tag for tag, _ in reader.seen if tag in {"script", "img", "link", "iframe", "base", "form", "object"}]
    assert not [
        name for _, attributes in reader.seen for name in attributes if name in {"style", "src"} or name[:2] == "on"
    ]


def test_the_policy_admits_the_style_sheet_of_the_page_and_nothing_else() -> None:
    text = page([hat()])

    style = re.findall(r"<style>(.*?)</style>", text, re.DOTALL)
    digest = base64.b64encode(hashlib.sha256(style[0].encode()).digest()).decode()
    policy = (
        "default-src &#39;none&#39;; style-src &#39;sha256-{}&#39;; base-uri &#39;none&#39;; form-action &#39;none&#39;"
    )
    assert len(style) == 1
    assert f'<meta http-equiv="Content-Security-Policy" content="{policy.format(digest)}">' in text
    assert text.index("Content-Security-Policy") < text.index("<style>")


def test_nothing_of_a_draft_is_markup() -> None:
    text = f"Rnd {NASTY}1: sc. (7)\n"
    finding = Finding(
        "a-rule",
        Level.QUERY,
        Draft.of(text).line_span(0),
        NASTY,
        (0,),
        (NASTY,),
        Change(Draft.of(text).line_span(0), NASTY),
    )
    entries = [Entry(f"Rnd {NASTY}1", (None,), unread=NASTY, unit=NASTY)]
    seen = proof_by_hand(text, entries, [finding], path=f"{NASTY}.txt", sizes=(NASTY, "M"), sections=(NASTY,))

    shown = page([seen])

    reader = read(shown)
    assert (reader.open, reader.wrong) == ([], [])
    assert "<script" not in shown
    assert "49" not in shown.split("</style>")[1]
    assert not {"\u202e", "\x1b"} & set(shown)
    assert "&lt;/code&gt;&lt;script&gt;alert(1)&lt;/script&gt;&#34;&#39;&amp;{{ 7 * 7 }}\ufffd\ufffd" in shown


def test_a_size_is_chosen_only_where_there_are_several() -> None:
    assert 'type="radio"' not in page([proof_by_hand("Rnd 1", [Entry("Rnd 1", (6,))])])
    assert page([hat()]).count('type="radio"') == 4


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("A poem.", "No rounds or rows were found, so there is nothing to count."),
        ("A poem.", "Nothing was worked, so nothing is drawn."),
        ("A poem.", "Nothing found in what was worked."),
    ],
)
def test_a_draft_without_rounds(text: str, said: str) -> None:
    assert said in page([proof_by_hand(text)])


def test_no_draft_at_all_gives_a_page_that_says_so() -> None:
    assert "<h1>Proof of 0 drafts</h1>" in page([])


def test_ten_kilobytes_of_draft_make_less_than_three_hundred_of_page() -> None:
    draft = import_module("bench.bench_cost").draft(10_000, 1)

    assert len(page([proof(draft)]).encode()) < 300_000
