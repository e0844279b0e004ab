"""Blocks: rounds with their bodies, titles and plain lines."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.reading.blocks import Kind, blocks
from rowcall.lint.reading.letters import clean


def cut(text: str) -> list[tuple[str, str]]:
    """Return each block's kind and words on one line; of a round the words of its body."""
    found = blocks(Draft.of(text), clean(text))
    return [
        (block.kind.value, " ".join(text[span.start : span.end].split()))
        for block in found
        for span in [block.body or block.span]
    ]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("", []),
        ("\n\n  \n", []),
        ("CROWN\nRnd 1: 6 sc in ring\n", [("title", "CROWN"), ("round", "6 sc in ring")]),
        ("Left ear\nRnd 1: 6 sc in ring\n", [("title", "Left ear"), ("round", "6 sc in ring")]),
        ("Fasten off.\n", [("line", "Fasten off.")]),
        ("Rnd 1: 6 sc in ring\nRnd 2: inc x 6\n", [("round", "6 sc in ring"), ("round", "inc x 6")]),
        # broken over several lines
        (
            "Rnd 1: *sc in next 2 sts,\ninc; rep from *\naround. (24)\nRnd 2: sc around\n",
            [("round", "*sc in next 2 sts, inc; rep from * around. (24)"), ("round", "sc around")],
        ),
        ("Rnd 1:\n6 sc in magic ring\nRnd 2:\ninc x 6\n", [("round", "6 sc in magic ring"), ("round", "inc x 6")]),
        # the count on a line of its own, with a gap before it
        ("Rnd 1: 6 sc in ring.\n(6 sc)\nRnd 2: inc\n", [("round", "6 sc in ring. (6 sc)"), ("round", "inc")]),
        ("Rnd 1: 6 sc in ring.\n\n(6 sc)\n", [("round", "6 sc in ring. (6 sc)")]),
        # a bracket still open goes on over a gap
        ("Rnd 1: (sc 2,\n\ninc) x 6\n", [("round", "(sc 2, inc) x 6")]),
        # glued headings
        (
            "Rnd 1: 6 sc in ring. (6) Rnd 2: inc around. (12)\n",
            [("round", "6 sc in ring. (6)"), ("round", "inc around. (12)")],
        ),
        (
            "1. 6 sc in ring (6) 2. inc x 6 (12) 3. (sc 1, inc) x 6 (18)\n",
            [("round", "6 sc in ring (6)"), ("round", "inc x 6 (12)"), ("round", "(sc 1, inc) x 6 (18)")],
        ),
        # numbers alone
        (
            "1. 6 sc in ring\n2. inc x 6\n3. sc around\n",
            [("round", "6 sc in ring"), ("round", "inc x 6"), ("round", "sc around")],
        ),
        # talk after a round
        ("Rnd 1: 6 sc in ring.\nFasten off.\n", [("round", "6 sc in ring."), ("line", "Fasten off.")]),
        ("Rnd 1: 6 sc in ring.\nRep Rnd 1 twice.\n", [("round", "6 sc in ring."), ("line", "Rep Rnd 1 twice.")]),
        (
            "Rnd 1: 6 sc in ring.\nMedium only:\nRnd 2: inc\n",
            [("round", "6 sc in ring."), ("title", "Medium only:"), ("round", "inc")],
        ),
        # line ends of other systems
        ("Rnd 1: 6 sc in ring\r\nRnd 2: inc x 6\r\n", [("round", "6 sc in ring"), ("round", "inc x 6")]),
    ],
)
def test_blocks(text: str, wanted: list[tuple[str, str]]) -> None:
    assert cut(text) == wanted


def test_gauge_is_no_round() -> None:
    text = "Gauge: 14 sts and 16 rnds = 10 cm\n16 rows measure 10 cm\n"

    assert [kind for kind, _ in cut(text) if kind == Kind.ROUND.value] == []


def test_gap_before_a_block_is_known() -> None:
    text = "Rnd 1: 6 sc in ring.\nFasten off.\n\nSew on.\n"

    assert [block.after_gap for block in blocks(Draft.of(text), clean(text))] == [False, False, True]
