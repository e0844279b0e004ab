"""Values moved: every span within the stretch goes the same way, all else stays."""

from __future__ import annotations

from dataclasses import FrozenInstanceError

import pytest
from rowcall.lint.draft import Span
from rowcall.lint.figures import Figure
from rowcall.lint.moves import Move
from rowcall.lint.pattern import Claim
from rowcall.lint.steps import At, Join, Make, Repeat, Times, Turn, Where, Work
from rowcall.lint.steps import Count as How

LINE = Span(10, 40)  # the words as they stood first
FURTHER = Move(LINE, 100)


def test_spans_within_the_words_move_and_others_stay() -> None:
    assert FURTHER.of(Span(10, 12)) == Span(110, 112)
    assert FURTHER.of(Span(38, 40)) == Span(138, 140)
    assert FURTHER.of(Span(5, 12)) == Span(5, 12)
    assert FURTHER.of(Span(38, 41)) == Span(38, 41)


def test_a_repeat_moves_with_all_that_is_in_it() -> None:
    sc = Make("sc")

    def repeat(at: int) -> Repeat:
        one = Figure((1,), Span(at, at + 2))
        work = Work(sc, one, Where(At.NEXT, one, span=Span(at + 3, at + 9)), Span(at, at + 9))
        return Repeat((work, Turn(Span(at + 10, at + 14))), Times(How.TO_END, span=Span(at + 15, at + 20)), LINE, "*")

    moved = FURTHER.of(repeat(10))
    first, turn = moved.steps
    assert isinstance(first, Work)
    assert first.span == Span(110, 119)
    assert first.where.span == Span(113, 119)
    assert first.times == Figure((1,), Span(110, 112))
    assert first.make is sc
    assert turn == Turn(Span(120, 124))
    assert moved.times.span == Span(125, 130)
    assert moved.span == Span(110, 140)


def test_what_has_no_place_in_the_words_is_the_same_value() -> None:
    claim = Claim(Figure((6,), Span(50, 51)), "sc", Span(50, 54))
    assert FURTHER.of(claim) is claim
    assert FURTHER.of((claim,)) == (claim,)
    assert FURTHER.of(At.RING) is At.RING


def test_a_moved_value_is_as_good_as_any() -> None:
    moved = FURTHER.of(Join(Span(12, 16), to_chain=True))
    assert moved == Join(Span(112, 116), to_chain=True)
    assert hash(moved) == hash(Join(Span(112, 116), to_chain=True))
    assert repr(moved) == "Join(span=Span(start=112, end=116), to_chain=True, nth=None, space=None)"
    with pytest.raises(FrozenInstanceError):
        moved.to_chain = None  # type: ignore[misc]  # pyright: ignore[reportAttributeAccessIssue]
