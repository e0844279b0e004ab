"""The page in a real browser: it fetches and runs nothing, its chooser, links and print work, anybody can use it."""

from __future__ import annotations

from importlib import resources
from itertools import pairwise
from pathlib import Path

import pytest
from in_browser import Opened, Opener

AXE = (resources.files("axe_playwright_python") / "axe.min.js").read_text("utf-8")
HAT = (Path(__file__).parents[2] / "corpus" / "breakwater-hat.txt").read_text("utf-8")
CAP = (Path(__file__).parents[2] / "corpus" / "capstan-cap.txt").read_text("utf-8")
HOSTILE = (
    "</code></pre><script>document.title = 'taken'; window.taken = 1</script>\n"
    '<img src="http://example.org/x.png" onerror="window.taken = 1"> "quotes" \'and\' &amp;\n'
    "Rnd 1: 6 sc in magic ring. \u202e(6)\u202c\n"
    "Sizes: <b onclick=alert(1)>Small</b> (Medium\x1b, Large)\n"
    "Rnd 2: inc around. (13)\n"
    '"><style>*{display:none}</style><a href="javascript:alert(1)">x</a> {{ 7 * 7 }} {% raw %}\n'
)
SMALL, MEDIUM = 'input[value="0"]', 'input[value="1"]'
FIGURES = "#d1-line-43 .f:not(.g)"  # 4 (5, 6) and 40 (46, 56)


def overflow(opened: Opened) -> float:
    """Return by how much the page is wider than its window."""
    return opened.page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")


def weights(opened: Opened, selector: str) -> list[str]:
    """Return the weights of the letters of all elements that a selector finds."""
    return opened.page.locator(selector).evaluate_all("(all) => all.map((one) => getComputedStyle(one).fontWeight)")


def violations(opened: Opened) -> list[str]:
    """Return what the accessibility checker axe-core finds wrong."""
    opened.page.evaluate(AXE)
    found = opened.page.evaluate("axe.run()")
    assert len(found["passes"]) > 10
    return [f"{one['id']}: {node['html']}" for one in found["violations"] for node in one["nodes"]]


def test_the_page_is_one_file_that_asks_for_nothing_and_complains_of_nothing(show: Opener) -> None:
    opened = show(HAT)

    assert (len(opened.asked), opened.complaints) == (1, [])
    assert opened.page.title() == "Proof of hat.txt"


def test_hostile_words_are_shown_and_do_nothing(show: Opener) -> None:
    opened = show(HOSTILE)

    lines = opened.page.locator(".words").evaluate_all("(all) => all.map((one) => one.textContent)")
    assert lines[0] == HOSTILE.splitlines()[0]
    assert lines[1] == HOSTILE.splitlines()[1]
    assert lines[2] == "Rnd 1: 6 sc in magic ring. \ufffd(6)\ufffd"
    assert lines[5] == HOSTILE.splitlines()[5]
    assert (len(opened.asked), opened.complaints) == (1, [])
    assert opened.page.title() == "Proof of hat.txt"
    assert opened.page.evaluate("window.taken") is None
    assert opened.page.locator("script, img, .words b, .words style, .words a[href^=javascript]").count() == 0
    assert opened.page.locator("h1").is_visible()


def test_even_a_script_in_the_page_would_not_run(show: Opener) -> None:
    opened = show(HAT)

    opened.page.evaluate(
        "() => { const one = document.createElement('script'); one.textContent = 'window.taken = 1';"
        " document.body.append(one); const image = new Image(); image.src = 'http://example.org/x.png'; }"
    )

    assert opened.page.evaluate("window.taken") is None
    assert len(opened.complaints) == 2
    assert all("Content Security Policy" in complaint for complaint in opened.complaints)


def test_the_chooser_shows_one_size_and_dims_the_others_without_a_script(show: Opener) -> None:
    opened = show(HAT, java_script_enabled=False)
    page = opened.page

    assert page.locator(FIGURES).all_inner_texts() == ["4", "5", "6", "40", "46", "56"]
    assert weights(opened, FIGURES) == ["400"] * 6
    assert page.locator("figure.only:visible").count() == 3

    page.check(MEDIUM)

    assert weights(opened, FIGURES) == ["400", "700", "400", "400", "700", "400"]
    assert opened.style(f"{FIGURES}.s1", "outlineStyle") == "solid"
    assert opened.style(f"{FIGURES}.s0", "outlineStyle") == "none"
    assert opened.style(f"{FIGURES}.s0", "color") != opened.style(f"{FIGURES}.s1", "color")
    assert weights(opened, "#d1-counts ~ .wide td.s1") == ["700"] * 15
    assert weights(opened, "#d1-counts ~ .wide td.s2") == ["400"] * 15
    assert page.locator("figure.only:visible strong").all_inner_texts() == ["Medium."]
    assert opened.style(".curve.s1", "strokeWidth") > opened.style(".curve.s0", "strokeWidth")

    page.check('input[value="all"]')

    assert weights(opened, FIGURES) == ["400"] * 6
    assert page.locator("figure.only:visible").count() == 3


def test_rounds_for_other_sizes_are_dimmed_whole(show: Opener) -> None:
    opened = show(CAP)
    own, other = "#d1-line-36 .g", "#d1-line-38 .words"
    colour = opened.style(own, "color")

    opened.page.check(SMALL)

    assert opened.style(own, "color") != colour
    assert opened.style(other, "color") == colour


def test_each_draft_of_a_page_has_a_chooser_of_its_own(show: Opener) -> None:
    opened = show(HAT, CAP)

    opened.page.check(f"#d2 {SMALL}")

    assert weights(opened, f"#d1 {FIGURES}") == ["400"] * 6
    assert "700" in weights(opened, "#d2 .f")
    assert [one.inner_text() for one in opened.page.locator("h2").all() if ".txt" in one.inner_text()] == [
        "hat.txt",
        "hat1.txt",
    ]


def test_it_works_by_keyboard_alone(show: Opener) -> None:
    opened = show(HAT)
    page = opened.page

    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "Skip to the proof"
    assert opened.box(".skip")[0] >= 0
    page.keyboard.press("Tab")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    assert page.is_checked(MEDIUM)
    ways: list[str] = []
    for _ in range(4):
        page.keyboard.press("Tab")
        assert opened.style(":focus", "outlineStyle") == "solid"
        ways.append(page.evaluate("document.activeElement.getAttribute('href')"))
    assert ways == ["#d1-draft", "#d1-counts", "#d1-shape", "#d1-note-1"]
    page.keyboard.press("Enter")
    assert page.url.endswith("#d1-note-1")


def test_notes_and_words_lead_to_each_other(show: Opener) -> None:
    opened = show(HAT)
    page = opened.page

    page.click("#d1-line-43 a.ref")
    assert page.url.endswith("#d1-note-2")
    assert 0 <= opened.box("#d1-note-2")[1] < 900
    page.click("#d1-note-2 .head a")
    assert page.url.endswith("#d1-line-43")
    assert opened.box("#d1-line-43")[1] >= opened.box(".choose")[3]
    targets = page.locator("a[href^='#']").evaluate_all("(all) => all.map((one) => one.getAttribute('href'))")
    assert [target for target in set(targets) if page.locator(target).count() != 1] == []


def test_a_note_stands_beside_its_words_and_none_touch(show: Opener) -> None:
    opened = show(HAT + "\n".join(f"Rnd {number}: sc around, rep from *. (1)" for number in range(40, 52)))

    boxes = [
        (box["x"], box["y"], box["y"] + box["height"])
        for note in opened.page.locator(".note").all()
        if (box := note.bounding_box())
    ]
    assert len(boxes) > 12
    assert all(below[1] >= above[2] for above, below in pairwise(boxes))
    for note in ("d1-note-1", "d1-note-2"):
        line = opened.page.locator(f"#{note} .head a").get_attribute("href")
        assert abs(opened.box(f"#{note}")[1] - opened.box(f"{line}")[1]) < 10
        assert opened.box(f"#{note}")[0] > opened.box(f"{line}")[2]


@pytest.mark.parametrize("width", [320, 400])
def test_on_a_phone_nothing_is_cut_and_notes_follow_their_words(show: Opener, width: int) -> None:
    opened = show(HAT, width=width)

    assert overflow(opened) == 0
    assert opened.box("#d1-line-43")[3] <= opened.box("#d1-note-2")[1] < opened.box("#d1-line-44")[1]
    assert opened.box(".plot")[2] <= width
    assert float(opened.style(".note", "fontSize")[:-2]) >= 13


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_it_prints(show: Opener, paper: str) -> None:
    opened = show(HAT, width=680, color_scheme="dark")
    opened.page.check(MEDIUM)
    opened.page.emulate_media(media="print")

    assert overflow(opened) == 0
    assert opened.style("body", "backgroundColor") == "rgb(255, 255, 255)"
    assert opened.page.locator("nav:visible").count() == 0
    assert opened.page.locator(".choose label:visible").all_inner_texts() == ["Medium"]
    assert opened.box("#d1-note-2")[0] > opened.box("#d1-line-43")[2]
    pdf = opened.page.pdf(format=paper)
    assert (pdf[:5], 2 <= pdf.count(b"/Type /Page\n") + pdf.count(b"/Type /Page ") <= 6) == (b"%PDF-", True)


def test_dark_where_the_reader_wants_it_dark(show: Opener) -> None:
    light, dark = show(HAT, color_scheme="light"), show(HAT, color_scheme="dark")

    assert light.style("body", "backgroundColor") == "rgb(251, 249, 244)"
    assert dark.style("body", "backgroundColor") == "rgb(28, 29, 32)"


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [400, 1200])
def test_an_accessibility_checker_finds_nothing(show: Opener, scheme: str, width: int) -> None:
    opened = show(HAT, width=width, color_scheme=scheme)

    assert violations(opened) == []
    opened.page.check(MEDIUM)
    assert violations(opened) == []


@pytest.mark.parametrize("texts", [[HAT, CAP], [HOSTILE], ["A poem."], [CAP]])
def test_an_accessibility_checker_finds_nothing_in_other_drafts(show: Opener, texts: list[str]) -> None:
    assert violations(show(*texts)) == []
