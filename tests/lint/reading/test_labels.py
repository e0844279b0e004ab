"""Labels: fibres with their shares, shoe sizes, versions and dates."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft, Span
from rowcall.lint.reading.labels import blends, editions, shoes


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("75% superwash merino, 25% nylon", [[("wool", 75), ("polyamide", 25)]]),
        ("55 % acrylic / 45 % cotton", [[("acrylic", 55), ("cotton", 45)]]),
        ("wool 60%, silk 40 per cent", [[("wool", 60), ("silk", 40)]]),
        ("100% cotton, 60% linen and 40% bamboo", [[("cotton", 100)], [("linen", 60), ("bamboo", 40)]]),
        ("33.5% extra fine merino + 66.5% alpaca", [[("wool", 33.5), ("alpaca", 66.5)]]),
        ("at least 50% wool", []),
        ("shrinks by 5% in the wash", []),
    ],
)
def test_blends(text: str, parts: list[list[tuple[str, float]]]) -> None:
    assert [list(blend.parts) for blend in blends(text)] == parts


@pytest.mark.parametrize(
    ("text", "ranges", "who", "scale"),
    [
        ("To fit women's US shoe sizes 5-6 (7-8, 9-10)", [(5, 6), (7, 8), (9, 10)], "woman", "US"),
        ("US men's shoe size 9.5", [(9.5, 9.5)], "man", "US"),
        ("Shoe size: UK 4 to 6", [(4, 6)], None, "UK"),
        ("children's shoe sizes 10-12 / 13", [(10, 12), (13, 13)], "child", None),
    ],
)
def test_shoes(text: str, ranges: list[tuple[float, float]], who: str | None, scale: str | None) -> None:
    found = [*shoes(text, [Span(0, len(text))])]

    assert [(list(one.ranges), one.who, one.scale) for one in found] == [(ranges, who, scale)]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Version 2.1, 3 May 2025", [("2.1", None), (None, (2025, 5, 3))]),
        ("v1.3", [("1.3", None)]),
        ("Revised 2024-02-09", [(None, (2024, 2, 9))]),
        ("Published March 2023", [(None, (2023, 3, 0))]),
        ("Version 1.1: the count of rnd 5 was mended", []),
        ("Rnd 3: 3 sc in next st, work the first version of the shell over the next 3 sts on 4 May 2020", []),
        ("Row 1: v 2, k2", []),
    ],
)
def test_editions(text: str, told: list[tuple[str | None, tuple[int, int, int] | None]]) -> None:
    assert [(one.version, one.date) for one in editions(text)] == told


def test_spans_hold_the_words() -> None:
    draft = Draft.of("Sock\n75% wool, 25% nylon\nRev. 3\n")

    assert [draft.words(one.span) for one in (*blends(draft.text), *editions(draft.text))] == [
        "75% wool, 25% nylon",
        "Rev. 3",
    ]
