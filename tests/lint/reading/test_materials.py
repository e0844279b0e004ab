"""Materials: hooks and needles, yarn, colours and notions as a draft lists them."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.materials import Materials
from rowcall.lint.reading import read

FoundYarn = tuple[int | None, tuple[str, ...], list[tuple[tuple[float, ...], str]]]

ROUNDS = "Rnd 1: Ch 2, 6 sc in 2nd ch from hook. (6)\nRnd 2: 2 sc in each sc. (12)\n"


def _materials(head: str, after: str = "") -> Materials:
    return read(Draft.of(f"Cap\n{head}\n\n{ROUNDS}{after}")).materials


@pytest.mark.parametrize(
    ("head", "tools"),
    [
        ("Hook: US G/6 (4 mm)", [("hook", "US", "G-6", 4.0)]),
        ("5.0mm (H/8) hook and 5.5mm (I/9) hook", [("hook", "US", "H-8", 5.0), ("hook", "US", "I-9", 5.5)]),
        (
            "Hooks: 5.5 mm (I-9) for the hat, 4.5 mm for the band",
            [("hook", "US", "I-9", 5.5), ("hook", None, None, 4.5)],
        ),
        ("4 mm (No. 8) hook", [("hook", None, "8", 4.0)]),
        ("Crochet hook 4,0mm (UK 8)", [("hook", "UK", "8", 4.0)]),
        ("Size K (6.50mm) Crochet Hook", [("hook", "US", "K", 6.5)]),
        ("K-10½ (6.5 mm) hook", [("hook", "US", "K-10.5", 6.5)]),
        ("Size G hook", [("hook", "US", "G", None)]),
        ("Hook: H/8", [("hook", "US", "H-8", None)]),
        ("1.5 mm steel hook", [("steel hook", None, None, 1.5)]),
        ("US 7 (4.5 mm) circular needle", [("needle", "US", "7", 4.5)]),
        ("4 mm needles", [("needle", None, None, 4.0)]),
        # neither hook nor needles
        ("6 mm safety eyes, yarn needle", []),
        ("A tapestry needle", []),
    ],
)
def test_tools(head: str, tools: list[tuple[str, str | None, str | None, float | None]]) -> None:
    assert [(one.kind, one.scale, one.label, one.mm) for one in _materials(head).tools] == tools


YARNS: list[tuple[str, list[FoundYarn]]] = [
    ("Worsted weight yarn (4), 95 (120, 145) m", [(4, ("worsted",), [((95.0, 120.0, 145.0), "m")])]),
    ("DK wool, weight 3, 65/90/120 m", [(3, ("dk",), [((65.0, 90.0, 120.0), "m")])]),
    ("Category 5 bulky yarn, 3.5 oz/109 yds", [(5, ("bulky",), [((3.5,), "oz"), ((109.0,), "yd")])]),
    ("200 yds worsted weight #4 yarn", [(4, ("worsted",), [((200.0,), "yd")])]),
    ("1 oz 3-ply wool", [(None, ("3 ply",), [((1.0,), "oz")])]),
    ("Medium weight yarn", [(None, ("medium",), [])]),
    # words that are no weight of yarn here
    ("Light brown and medium grey yarn", []),
    ("A fine hook and a medium tension", []),
]


@pytest.mark.parametrize(("head", "yarns"), YARNS)
def test_yarns(head: str, yarns: list[FoundYarn]) -> None:
    found = [
        (yarn.number, yarn.names, [(one.values, one.unit) for one in yarn.amounts]) for yarn in _materials(head).yarns
    ]
    assert found == yarns


@pytest.mark.parametrize(
    ("head", "notions"),
    [
        ("Yarn needle, four buttons", [("button", 4)]),
        ("10 mm safety eyes", [("safety eye", None)]),
        ("2 x 8 mm safety eyes, one small bell", [("safety eye", 2), ("bell", 1)]),
        ("Stitch marker, 2 wooden buttons", [("marker", None), ("button", 2)]),
        ("Wool, 60 m\nStitch marker", [("marker", None)]),
        ("Buttonhole thread", []),
    ],
)
def test_notions(head: str, notions: list[tuple[str, int | None]]) -> None:
    assert [(one.kind, one.number) for one in _materials(head).notions] == notions


@pytest.mark.parametrize(
    ("head", "letters"),
    [
        ("Wool in colours A, B and C", ["A", "B", "C"]),
        ("Colors: Yellow (A), White (B). Hook: H/8.", ["A", "B"]),
        ("MC: main color\nCC: contrasting color", ["MC", "CC"]),
        ("Colors A and B, F hook", ["A", "B"]),
        ("3.5mm (E) hook", []),
        ("X - single crochet, V - increase, A - decrease", []),
    ],
)
def test_colours_listed(head: str, letters: list[str]) -> None:
    assert [one.letter for one in _materials(head).colours] == letters


@pytest.mark.parametrize(
    ("words", "letters"),
    [
        ("Rnd 3: With B, sc in each sc. (12)\n", ["B"]),
        ("Rnd 3: Sc in each sc, change to C in last sc. (12)\n", ["C"]),
        ("Rnd 3: Join MC, sc in each sc. (12)\n", ["MC"]),
        ("Rnd 3: With E hook, sc in each sc. (12)\n", []),
        ("Rnd 3: With A needle behind, sc in each sc. (12)\n", []),
    ],
)
def test_colours_used(words: str, letters: list[str]) -> None:
    assert [one.letter for one in _materials("Wool", words).colours_used] == letters


def test_a_caution_is_found_where_it_stands() -> None:
    text = f"Cap\n\n{ROUNDS}Small parts are a choking hazard.\n"
    found = read(Draft.of(text)).materials.cautions
    assert [text[one.start : one.end] for one in found] == ["Small parts", "choking", "hazard"]
