"""Choices: findings by rule and level, and a proof narrowed to one size."""

from __future__ import annotations

import pytest
from by_hand import HAT, hat, span
from rowcall.lint.checked import nearest
from rowcall.lint.choice import ChoiceError, choice, for_size
from rowcall.lint.finding import Finding, Level
from rowcall.lint.proof import Tally

RULES = ("count-differs", "number-skipped", "wording-inconsistent")
AT = span(HAT, "16")
FOUND = (
    Finding("count-differs", Level.CORRECTION, AT, "a"),
    Finding("count-differs", Level.QUERY, AT, "b"),
    Finding("number-skipped", Level.CORRECTION, AT, "c"),
    Finding("wording-inconsistent", Level.STYLE, AT, "d"),
)


@pytest.mark.parametrize(
    ("only", "leave_out", "kept"),
    [
        ([], [], "abcd"),
        (["count-differs"], [], "ab"),
        (["correction"], [], "ac"),
        (["count-differs,style"], [], "abd"),
        (["count-differs", "style"], [], "abd"),
        ([" count-differs , "], [], "ab"),
        ([], ["query,style"], "ac"),
        ([], ["number-skipped"], "abd"),
        (["count-differs"], ["query"], "a"),
        (["style"], ["wording-inconsistent"], ""),
    ],
)
def test_findings_asked_for(only: list[str], leave_out: list[str], kept: str) -> None:
    shown = choice(only, leave_out, RULES).of(hat(FOUND))

    assert "".join(finding.message for finding in shown.findings) == kept


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("count-differ", 'there is no rule or level "count-differ", did you mean "count-differs"?'),
        ("corrections", 'there is no rule or level "corrections", did you mean "correction"?'),
        ("zzz", 'there is no rule or level "zzz"; rowcall rulebook lists all rules'),
    ],
)
def test_unknown_name_is_refused(name: str, message: str) -> None:
    messages: list[str] = []
    for only, leave_out in (([name], []), ([], [f"style,{name}"])):
        with pytest.raises(ChoiceError) as refusal:
            choice(only, leave_out, RULES)
        messages.append(str(refusal.value))

    assert messages == [message, message]


def test_nearest() -> None:
    assert [nearest("quary", ("query", "style")), nearest("zzz", ("query", "style"))] == ["query", None]


@pytest.mark.parametrize(
    ("size", "tally", "findings"),
    [
        ("Small", Tally(rounds=4, worked=3, agree=2, differ=0, unstated=1, unread=1), ["b"]),
        (" medium ", Tally(rounds=4, worked=3, agree=1, differ=1, unstated=1, unread=1), ["a", "b"]),
    ],
)
def test_one_size(size: str, tally: Tally, findings: list[str]) -> None:
    found = (
        Finding("count-differs", Level.CORRECTION, AT, "a", sizes=(1,)),
        Finding("number-skipped", Level.CORRECTION, AT, "b"),
    )

    shown = for_size(hat(found), size)

    assert shown.tally == tally
    assert shown.pattern.sizes.names == (size.strip().capitalize(),)
    assert [finding.message for finding in shown.findings] == findings
    assert {finding.sizes for finding in shown.findings} <= {(), (0,)}


def test_unknown_size_names_the_sizes() -> None:
    with pytest.raises(ChoiceError) as refusal:
        for_size(hat(), "XL")

    assert str(refusal.value) == 'hat.txt has no size "XL": its sizes are Small, Medium, Large'
