"""Number words against a general-purpose library that spells numbers.

Source: num2words, English, cardinal, ordinal and figure-ordinal forms of 0 to 999.
"""

from __future__ import annotations

import importlib
from collections.abc import Callable
from typing import cast

from rowcall.lint.reading.numbers import cardinal, ordinal

# The library has no types; this is the part of it that is used here.
_spell = cast("Callable[..., str]", importlib.import_module("num2words").num2words)

NUMBERS = range(1000)


def test_cardinals() -> None:
    """Read back every cardinal, as the library writes it: `two hundred and forty-four`."""
    assert [n for n in NUMBERS if cardinal(_spell(n)) != n] == []


def test_cardinals_without_and_or_hyphens() -> None:
    """Read back the plainer spelling that drafts use as well: `two hundred forty four`."""
    plain = {n: _spell(n).replace(" and ", " ").replace("-", " ") for n in NUMBERS}
    assert [n for n, words in plain.items() if cardinal(words) != n] == []


def test_ordinals() -> None:
    """Read back every ordinal from the first: `two hundred and forty-fourth`."""
    assert [n for n in NUMBERS[1:] if ordinal(_spell(n, to="ordinal")) != n] == []


def test_ordinals_in_figures() -> None:
    """Read back every ordinal in figures: `244th`."""
    assert [n for n in NUMBERS[1:] if ordinal(_spell(n, to="ordinal_num")) != n] == []


def test_cardinals_and_ordinals_are_kept_apart() -> None:
    """Take no cardinal for an ordinal, nor the other way round."""
    assert [n for n in NUMBERS if ordinal(_spell(n)) is not None] == []
    assert [n for n in NUMBERS if cardinal(_spell(n, to="ordinal")) is not None] == []
