"""The SARIF report: as the standard has it, and with fingerprints that edits elsewhere leave alone."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any, cast

import jsonschema
import pytest
from by_hand import HAT, Entry, hat, proof_by_hand, span, wrong_count
from rowcall.lint.draft import Draft, Span
from rowcall.lint.finding import Aside, Change, Finding, Level
from rowcall.lint.intake import read_file
from rowcall.lint.proof import Proof, proof
from rowcall.lint.stet import Stood
from rowcall.reports.sarif import FINGERPRINT, log, sarif
from rowcall.rules.book import all_rules

SCHEMA = json.loads((Path(__file__).parent / "sarif-2.1.0-part.schema.json").read_text("utf-8"))
CORPUS = sorted((Path(__file__).parents[2] / "corpus").glob("*.txt"))


def run_of(*proofs: Proof) -> dict[str, Any]:
    """Return the one run of a log that is as the standard has it."""
    document = json.loads(sarif(proofs))
    jsonschema.validate(document, SCHEMA, format_checker=jsonschema.FormatChecker())
    assert document["version"] == "2.1.0"
    (run,) = document["runs"]
    return cast("dict[str, Any]", run)


def fingerprints(proof: Proof) -> list[str]:
    """Return the fingerprints of a proof's findings, in order."""
    return [result["partialFingerprints"][FINGERPRINT] for result in run_of(proof)["results"]]


def told(text: str, *words: tuple[str, int]) -> Proof:
    """Return a proof of a text in two rounds with a finding at each of these words."""
    findings = [Finding("a-rule", Level.QUERY, span(text, word, nth), "look") for word, nth in words]
    return proof_by_hand(text, findings=findings)


def test_hat_gives_exactly_this_result() -> None:
    (result,) = run_of(hat())["results"]
    mark = result.pop("partialFingerprints")

    at_16 = {"startLine": 6, "startColumn": 59, "endLine": 6, "endColumn": 61}
    index = [rule.name for rule in all_rules()].index("count-differs")
    assert result == {
        "ruleId": "count-differs",
        "ruleIndex": index,
        "level": "error",
        "message": {
            "text": "the round comes to 15 sts for Medium, but 16 are stated\n10 sts before the round\n"
            "  each repeat uses 2 and makes 3: 5 times\n15 sts after it"
        },
        "locations": [
            {
                "physicalLocation": {
                    "artifactLocation": {"uri": "hat.txt"},
                    "region": {**at_16, "snippet": {"text": "16"}},
                }
            }
        ],
        "fixes": [
            {
                "description": {"text": "a change that makes it agree"},
                "artifactChanges": [
                    {
                        "artifactLocation": {"uri": "hat.txt"},
                        "replacements": [{"deletedRegion": at_16, "insertedContent": {"text": "15"}}],
                    }
                ],
            }
        ],
        "properties": {"sizes": ["Medium"]},
    }
    assert [(key, len(value)) for key, value in mark.items()] == [(FINGERPRINT, 32)]


def test_drafts_are_artifacts_that_tell_how_much_was_worked() -> None:
    run = run_of(hat(), proof_by_hand("A poem.", path="drafts/a poem ½.txt"))

    assert [one["location"]["uri"] for one in run["artifacts"]] == ["hat.txt", "drafts/a%20poem%20%C2%BD.txt"]
    assert run["artifacts"][0]["properties"] == {
        "tally": {"rounds": 4, "worked": 3, "agree": 1, "differ": 1, "unstated": 1, "unread": 1},
        "sizes": ["Small", "Medium", "Large"],
    }


def test_every_rule_is_described() -> None:
    rules = run_of()["tool"]["driver"]["rules"]

    assert [rule["id"] for rule in rules] == [rule.name for rule in all_rules()]


@pytest.mark.parametrize(
    ("level", "word"), [(Level.CORRECTION, "error"), (Level.QUERY, "warning"), (Level.STYLE, "note")]
)
def test_levels(level: Level, word: str) -> None:
    (result,) = run_of(hat([replace(wrong_count(), level=level)]))["results"]

    assert result["level"] == word


def test_a_rule_that_is_not_in_the_book_has_no_index() -> None:
    (result,) = run_of(hat([replace(wrong_count(), rule="no-such-rule", change=None)]))["results"]

    assert (result["ruleId"], "ruleIndex" in result, "fixes" in result) == ("no-such-rule", False, False)


def test_other_places_and_insertions() -> None:
    insertion = Change(Span(0, 0), "US terms ")
    finding = replace(wrong_count(), change=insertion, asides=(Aside(span(HAT, "Rnd 1"), "the first"),))

    (result,) = run_of(hat([finding]))["results"]

    (related,) = result["relatedLocations"]
    assert (related["message"]["text"], related["physicalLocation"]["region"]["snippet"]["text"]) == (
        "the first",
        "Rnd 1",
    )
    (replacement,) = result["fixes"][0]["artifactChanges"][0]["replacements"]
    assert replacement == {
        "deletedRegion": {"startLine": 1, "startColumn": 1, "endLine": 1, "endColumn": 1},
        "insertedContent": {"text": "US terms "},
    }


def test_what_may_stand_is_suppressed() -> None:
    stood = replace(hat(()), stood=(Stood(wrong_count(), "agreed with the designer"),))

    (result,) = run_of(stood)["results"]

    assert result["suppressions"] == [{"kind": "external", "justification": "agreed with the designer"}]


BEFORE = "Rnd 1: inc, sc, inc. (6)\nRnd 2: sc, inc. (7)\n"


@pytest.mark.parametrize(
    ("after", "same"),
    [
        ("US terms\n\n" + BEFORE, True),
        (BEFORE + "Rnd 3: sc around.\n", True),
        (BEFORE.replace("Rnd 2: sc", "Rnd 2: 2 sc"), True),
        (BEFORE.replace("Rnd 1: inc", "Rnd 1:  inc"), True),
        (BEFORE.replace("(6)", "(8)"), False),
        (BEFORE.replace("Rnd 1: inc", "Rnd 1: sc, inc"), False),
    ],
)
def test_a_fingerprint_changes_only_with_its_own_words(after: str, same: bool) -> None:
    before, now = fingerprints(told(BEFORE, ("inc", 0))), fingerprints(told(after, ("inc", 0)))

    assert (before == now) is same


def test_equal_findings_are_told_apart() -> None:
    marks = fingerprints(told(BEFORE, ("inc", 0), ("inc", 1), ("inc", 2)))

    assert len(set(marks)) == 3
    assert fingerprints(told(BEFORE, ("inc", 0), ("inc", 1))) == marks[:2]


def test_equal_lines_are_told_apart() -> None:
    text = "Join.\nRnd 1.\nJoin.\n"

    assert len(set(fingerprints(told(text, ("Join", 0), ("Join", 1))))) == 2


def test_hostile_words_stay_inside_plain_ascii() -> None:
    text = "Rnd \x1b[2J\u202e 1: 🧶 (7)"
    proof = proof_by_hand(
        text, [Entry("Rnd \x1b[2J\u202e 1", (6,))], [Finding("a", Level.STYLE, span(text, "🧶"), "x")]
    )

    assert sarif([proof]).isascii()
    (result,) = run_of(proof)["results"]
    region = result["locations"][0]["physicalLocation"]["region"]
    assert (region["startColumn"], region["endColumn"], region["snippet"]) == (14, 15, {"text": "🧶"})


@pytest.mark.parametrize("file", CORPUS, ids=lambda file: file.stem)
def test_every_draft_of_the_corpus_is_as_the_standard_has_it(file: Path) -> None:
    seen = proof(read_file(file))
    run = run_of(replace(seen, draft=Draft.of(seen.draft.text, file.name)))

    assert [result["ruleId"] for result in run["results"]] == [finding.rule for finding in seen.findings]
    assert len(set(map(json.dumps, run["results"]))) == len(seen.findings)
    assert log([])["runs"] != log([seen])["runs"]
