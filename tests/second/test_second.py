"""Random patterns in random hands: every round of every size worked as it is laid, and every wrong count found."""

from __future__ import annotations

from random import Random

from hypothesis import HealthCheck, given, settings
from hypothesis.strategies import randoms

from second.comparing import disagreements, is_corrected, with_a_wrong_count
from second.laying import lay
from second.random_patterns import Laid, laid_patterns
from second.writing import write

# The same examples in every run, so that a change of the program and not chance makes a test fail;
# `by_hand.py` tries new ones.
FIXED = settings(
    derandomize=True,
    database=None,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.large_base_example],
)


@settings(FIXED, max_examples=2000)
@given(laid_patterns(), randoms(use_true_random=False))
def test_every_round_is_worked_as_it_is_laid(laid: Laid, hand: Random) -> None:
    written = write(laid.pattern, laid.rows, hand)

    assert disagreements(laid, written) == [], written.text


@settings(FIXED, max_examples=800)
@given(laid_patterns(), randoms(use_true_random=False))
def test_a_wrong_count_is_corrected(laid: Laid, hand: Random) -> None:
    written, altered = with_a_wrong_count(laid, hand)

    assert is_corrected(written, altered), f"{altered}\n{written.text}"


@settings(FIXED, max_examples=200)
@given(laid_patterns())
def test_rows_added_one_by_one_are_those_of_the_whole(laid: Laid) -> None:
    pattern = laid.pattern

    assert list(zip(*(lay(pattern, size) for size in range(pattern.number)), strict=True)) == list(laid.rows)
