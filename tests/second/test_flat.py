"""Random pieces in crochet rows in random hands: turning chains, meshes, V-stitches, shells, spaces."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import Phase, given, settings
from hypothesis.strategies import randoms

from second.comparing import disagreements, is_corrected, with_a_wrong_count
from second.flat import flat_pieces
from second.instructions import (
    BeginningChain,
    ChainSpace,
    FlatChain,
    FromHook,
    Group,
    InEach,
    InEachSpace,
    Line,
    Part,
    Pattern,
    Repeat,
    Round,
    Skip,
    Step,
    Stitches,
)
from second.laying import lay, spaces, stitches
from second.random_patterns import Laid
from second.test_second import FIXED
from second.writing import write

# a failing draft is shown as it is: making it smaller takes minutes, and a piece is short
WHOLE = settings(FIXED, phases=(Phase.generate,))
ONE = (1,)
TURNED = BeginningChain(3, counts=True, kind="dc")
LAST = Stitches("dc", ONE, last=True)
V = (Part("dc", 1), Part("ch", 1), Part("dc", 1))


@settings(WHOLE, max_examples=300)
@given(flat_pieces(), randoms(use_true_random=False))
def test_every_row_is_worked_as_it_is_laid(laid: Laid, hand: Random) -> None:
    written = write(laid.pattern, laid.rows, hand)

    assert disagreements(laid, written) == [], written.text


@settings(WHOLE, max_examples=100)
@given(flat_pieces(), randoms(use_true_random=False))
def test_a_wrong_count_in_rows_is_corrected(laid: Laid, hand: Random) -> None:
    written, altered = with_a_wrong_count(laid, hand)

    assert is_corrected(written, altered), f"{altered}\n{written.text}"


def counts(*rows: tuple[Step, ...]) -> list[tuple[int, int]]:
    """Lay rows on 16 chains, the first of them 14 dc, and count their stitches and spaces."""
    first = (FromHook("dc", 4, counted=True), InEach("dc"))
    lines: tuple[Line, ...] = tuple(Round(steps, ONE) for steps in (first, *rows))
    pattern = Pattern((), FlatChain((16,)), lines, "dc", flat=True)
    return [(stitches(row), spaces(row)) for row in lay(pattern, 0)]


V_ROW = (TURNED, Repeat((Skip(ONE), Group(V), Skip(ONE)), leave=ONE), LAST)


@pytest.mark.parametrize(
    ("rows", "wanted"),
    [
        (((TURNED, InEach("dc")),), [(14, 0), (14, 0)]),
        # four V-stitches of two in 12 stitches, and the edges; then over them: five in each space, or two and a space
        ((V_ROW, (TURNED, InEachSpace((Part("dc", 5),), 1), LAST)), [(14, 0), (10, 4), (22, 0)]),
        ((V_ROW, (TURNED, InEachSpace(V, 1), LAST)), [(14, 0), (10, 4), (10, 4)]),
        # after four stitches every second one is skipped: 4 and 5 stay, with 5 spaces; the next row fills them
        (
            (
                (TURNED, Stitches("dc", (3,)), Repeat((ChainSpace(1), Skip(ONE), Stitches("dc", ONE)))),
                (TURNED, InEach("dc", in_space=1, chains=1)),
            ),
            [(14, 0), (9, 5), (14, 0)],
        ),
    ],
)
def test_rows_are_laid_back_and_forth(rows: tuple[tuple[Step, ...], ...], wanted: list[tuple[int, int]]) -> None:
    assert counts(*rows) == wanted
