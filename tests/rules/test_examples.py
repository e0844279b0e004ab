"""Every example in the rulebook is a test: a rule points at its marked places and at no others."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Span
from rowcall.lint.house import read_house
from rowcall.lint.proof import proof
from rowcall.lint.settings import Settings
from rowcall.lint.stet import read_stets
from rowcall.rules.book import all_rules
from rowcall.rules.rule import Flags, Passes, Rule

OPEN, CLOSE = "⟦", "⟧"
NAMES = [rule.name for rule in all_rules()]

EXAMPLES = [
    pytest.param(rule, example, id=f"{rule.name}-{number}")
    for rule in all_rules()
    for number, example in enumerate(rule.examples, 1)
]


def unmark(text: str) -> tuple[str, list[Span]]:
    """Take the marks out of an example; return the draft and the places that they enclosed."""
    plain, start = "", 0
    marked: list[Span] = []
    for character in text:
        if character == OPEN:
            start = len(plain)
        elif character == CLOSE:
            marked.append(Span(start, len(plain)))
        else:
            plain += character
    return plain, marked


def _settings(example: Flags | Passes) -> Settings:
    house = read_house(example.house, "rowcall.toml", NAMES)
    return Settings(house, read_stets(example.stets, "draft.stet.toml", NAMES))


def _rules_for(rule: Rule, example: Flags | Passes) -> list[Rule]:
    """Return the rule, and before a rule that comes last those that the example lets stand."""
    named = [other for other in all_rules() if rule.last and f'"{other.name}"' in example.stets]
    return [*named, rule]


@pytest.mark.parametrize(("rule", "example"), EXAMPLES)
def test_a_rule_flags_exactly_the_marked_places(rule: Rule, example: Flags | Passes) -> None:
    text, marked = unmark(example.text)

    findings = proof(text, _rules_for(rule, example), _settings(example)).findings
    found = [finding.span for finding in findings if finding.rule == rule.name]

    assert found == marked


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: rule.name)
def test_a_rule_has_an_example_that_trips_it_and_three_that_only_look_like_trouble(rule: Rule) -> None:
    flags = [example for example in rule.examples if isinstance(example, Flags)]
    passes = [example for example in rule.examples if isinstance(example, Passes)]

    assert (len(flags) >= 1, len(passes) >= 3) == (True, True)
    assert all(OPEN in example.text and CLOSE in example.text for example in flags)
    assert not any(OPEN in example.text or CLOSE in example.text for example in passes)


def test_rules_have_different_names() -> None:
    names = [rule.name for rule in all_rules()]

    assert sorted(set(names)) == sorted(names)
