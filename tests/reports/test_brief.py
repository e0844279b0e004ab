"""The brief report: a line a finding, and how much was worked."""

from __future__ import annotations

from by_hand import HAT, hat, proof_by_hand, span
from rowcall.lint.finding import Finding, Level
from rowcall.reports.brief import brief


def test_hat_is_printed_exactly_so() -> None:
    assert brief(hat()) == (
        "hat.txt:6:59: correction: the round comes to 15 sts for Medium, but 16 are stated [count-differs]\n"
        "hat.txt: 3 of 4 rounds worked, 1 agrees, 1 differs, 1 states no count, 1 not read"
    )


def test_nothing_found_still_tells_how_much_was_worked() -> None:
    assert brief(proof_by_hand("A poem.")) == (
        "hat.txt: 0 of 0 rounds worked, 0 agree, 0 differ, 0 state no count, 0 not read"
    )


def test_each_finding_stays_on_one_harmless_line() -> None:
    finding = Finding("a-rule", Level.STYLE, span(HAT, "Crown"), "two\nlines\x1b[2J and\ta tab")

    assert brief(proof_by_hand(HAT, findings=[finding], path="a\nb.txt")).splitlines()[0] == (
        "a b.txt:4:1: style: two lines\ufffd[2J and a tab [a-rule]"
    )
