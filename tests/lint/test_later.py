"""A pattern that is compiled later does what a compiled one does."""

from __future__ import annotations

import re

import pytest
from rowcall.lint.later import later


def test_finds_what_a_compiled_pattern_finds() -> None:
    pattern = later(r"(?P<number>\d+) sc", re.IGNORECASE)
    found = pattern.search("ch 1, 12 SC in ring")
    assert found is not None
    assert found["number"] == "12"
    assert [match.span() for match in pattern.finditer("2 sc, 3 sc")] == [(0, 4), (6, 10)]
    assert pattern.sub("-", "2 sc, 3 sc") == "-, -"
    assert pattern.fullmatch("2 sc,") is None


def test_can_be_part_of_another_before_it_is_compiled() -> None:
    number = later(r"\d+")
    assert number.pattern == r"\d+"
    assert later(rf"{number.pattern} dc").match("6 dc") is not None


def test_is_compiled_when_it_is_first_used() -> None:
    wrong = later("(")
    with pytest.raises(re.error):
        wrong.search("sc")
