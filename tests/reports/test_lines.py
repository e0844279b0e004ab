"""The line report: a line a finding, and how much was worked."""

from __future__ import annotations

import pytest
from by_hand import HAT, hat, proof_by_hand, span
from rowcall.lint.draft import Span
from rowcall.lint.finding import Finding, Level
from rowcall.reports.lines import lines


def test_hat_is_printed_exactly_so() -> None:
    assert lines(hat()) == (
        "hat.txt:6.59-6.60: correction: the round comes to 15 sts for Medium, but 16 are stated [count-differs]\n"
        "hat.txt: 3 of 4 rounds worked, 1 agrees, 1 differs, 1 states no count, 1 not read"
    )


def test_nothing_found_still_tells_how_much_was_worked() -> None:
    assert lines(proof_by_hand("A poem.")) == (
        "hat.txt: 0 of 0 rounds worked, 0 agree, 0 differ, 0 state no count, 0 not read"
    )


def test_each_finding_stays_on_one_harmless_line() -> None:
    finding = Finding("a-rule", Level.STYLE, span(HAT, "Crown"), "two\nlines\x1b[2J and\ta tab")

    assert lines(proof_by_hand(HAT, findings=[finding], path="a\nb.txt")).splitlines()[0] == (
        "a b.txt:4.1-4.5: style: two lines\ufffd[2J and a tab [a-rule]"
    )


@pytest.mark.parametrize(
    ("words", "place"),
    [
        (span("Rnd 1: sc,\ninc around", "1"), "1.5-1.5"),
        (span("Rnd 1: sc,\ninc around", "sc,\ninc"), "1.8-2.3"),
        (span("Rnd 1: sc,\ninc around", "sc,\n"), "1.8-1.10"),
        (Span(10, 10), "1.11-1.11"),
        (Span(0, 0), "1.1-1.1"),
    ],
)
def test_both_ends_belong_to_the_words(words: Span, place: str) -> None:
    finding = Finding("a-rule", Level.QUERY, words, "look")

    assert lines(proof_by_hand("Rnd 1: sc,\ninc around", findings=[finding])).splitlines()[0] == (
        f"hat.txt:{place}: query: look [a-rule]"
    )
