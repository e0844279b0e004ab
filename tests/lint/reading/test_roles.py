"""Roles: what a bracket is, decided by what stands in it, before and after."""

from __future__ import annotations

import pytest
from in_words import group_at, items
from rowcall.lint.reading.roles import Role, role


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("(sc, inc) x 6", Role.REPEAT),
        ("(sc, inc) 6 times", Role.REPEAT),
        ("[sc 2, inc] twice", Role.REPEAT),
        ("(sc 2, inc) around", Role.REPEAT),
        ("(sc 2, inc) rep around", Role.REPEAT),
        ("{2 sc, dec} four times", Role.REPEAT),
        ("(2 dc, ch 2, 2 dc) in next sp", Role.PLACEMENT),
        ("(sc, hdc, dc) in same st", Role.PLACEMENT),
        ("(2 dc, ch 2, 2 dc) in each corner", Role.PLACEMENT),
        ("sc around (24)", Role.COUNT),
        ("sc around (24 sts)", Role.COUNT),
        ("sc around [24 sc]", Role.COUNT),
        ("inc x 6 (12)", Role.COUNT),
        ("rep from * around (24 dc, 12 ch-1 sps)", Role.COUNT),
        ("sc around (11 dc + ch 3)", Role.COUNT),
        ("hdc2tog (6 times)", Role.TIMES),
        ("inc (x 6)", Role.TIMES),
        ("inc (twice)", Role.TIMES),
        ("Ch 3 (counts as dc), 11 dc", Role.COUNTS_AS),
        ("ch 1 (does not count as a st), sc", Role.COUNTS_AS),
        ("sc around (4 rounds)", Role.ROUNDS),
        ("sc around (see picture)", Role.REMARK),
        ("sc around (blue)", Role.REMARK),
        ("join (do not turn)", Role.REMARK),
        ("(rep from * around)", Role.STAR),
        ("(sc 2, inc)", Role.STEPS),
    ],
)
def test_bracket_in_one_size(text: str, wanted: Role) -> None:
    found = items(text)

    assert role(found, group_at(found)) is wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("sc (5, 6, 7), inc", Role.NUMBER),
        ("sc in next (8, 9, 10) sts", Role.NUMBER),
        ("ch (60, 66, 72), join", Role.NUMBER),
        ("(36, 44, 48) fsc", Role.NUMBER),
        ("(sc, inc) (6, 7, 8) times", Role.REPEAT),
        ("sc around (60, 66, 72)", Role.COUNT),
        ("sc around, join. (60, 66, 72 sc)", Role.COUNT),
    ],
)
def test_bracket_in_three_sizes(text: str, wanted: Role) -> None:
    found = items(text, 3)

    assert role(found, group_at(found)) is wanted
