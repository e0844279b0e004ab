"""The rulebook: pages with marked examples, and the list by family."""

from __future__ import annotations

from collections.abc import Iterable

from rowcall.lint.finding import Level
from rowcall.reports.rulebook import rule_list, rule_page, rulebook_markdown
from rowcall.rules.rule import Case, Flags, Passes, Rule, Said


def _nothing(case: Case) -> Iterable[Said]:
    del case
    return ()


def _rule(name: str, family: str, level: Level = Level.QUERY) -> Rule:
    return Rule(
        name=name,
        family=family,
        level=level,
        finds="a knot that nothing ties",
        why="the maker is left with two ends",
        limits="loops are passed over",
        source="common practice.",
        examples=(
            Flags("Rnd 1: ⟦tie⟧ and ⟦bind⟧.\nRnd 2: fasten."),
            Flags("⟦tie\nand⟧ off"),
            Passes("Rnd 1: tie the knot."),
        ),
        check=_nothing,
    )


def test_page_is_printed_exactly_so() -> None:
    assert (
        rule_page(_rule("knot-open", "making"))
        == """\
knot-open: query, of the family making

What it finds
  A knot that nothing ties.

Why it matters
  The maker is left with two ends.

Where it stays silent
  Loops are passed over.

Where this comes from
  Common practice.

Points at the words underlined
  Rnd 1: tie and bind.
         ===     ====
  Rnd 2: fasten.

  tie
  ===
  and off
  ===

Says nothing here
  Rnd 1: tie the knot."""
    )


def test_list_is_by_family() -> None:
    rules = [
        _rule("knot-open", "making"),
        _rule("bead-lost", "making", Level.CORRECTION),
        _rule("ply", "yarn"),
    ]

    assert (
        rule_list(rules)
        == """\
Making
  knot-open  query       A knot that nothing ties.
  bead-lost  correction  A knot that nothing ties.

Yarn
  ply        query       A knot that nothing ties.

rowcall rulebook RULE shows the page of a rule, with examples."""
    )


def test_long_texts_fold_to_the_screen() -> None:
    rules = [_rule("knot-open-" + "x" * 20, "making")]

    lines = [*rule_list(rules, 40).splitlines(), *rule_page(_rule("a", "b"), 40).splitlines()]

    assert max(map(len, lines)) <= 40


def test_the_book_in_markdown() -> None:
    knot = Rule(
        name="knot-open",
        family="making",
        level=Level.QUERY,
        finds="a round that leaves a knot open",
        why="it comes undone",
        limits="none",
        source="practice",
        examples=(Flags("⟦Rnd 1⟧: tie 6 knots.\n"), Passes("Rnd 1: tie and close 6 knots.\n")),
        check=_nothing,
    )
    assert rulebook_markdown([knot]) == (
        "# Rulebook\n\n## Making\n\n### knot-open\n\nLevel: query\n\n"
        "**What it finds.** A round that leaves a knot open.\n\n**Why it matters.** It comes undone.\n\n"
        "**Where it stays silent.** None.\n\n**Where this comes from.** Practice.\n\n"
        "Points at the words in double brackets:\n\n```\n[[Rnd 1]]: tie 6 knots.\n```\n\n"
        "Says nothing here:\n\n```\nRnd 1: tie and close 6 knots.\n```"
    )
