"""The JSON document: exact values, the schema's strictness, and texts of every kind."""

from __future__ import annotations

import json
from typing import Any

import jsonschema
import pytest
from by_hand import HAT, Entry, hat, proof_by_hand, span
from rowcall.lint.draft import Span
from rowcall.lint.figures import Figure, Sizes
from rowcall.lint.finding import Change, Finding, Level
from rowcall.lint.pattern import Pattern, Round, Section
from rowcall.lint.proof import Proof
from rowcall.lint.workings import RoundWorking, SizeWorking, Standing, Workings
from rowcall.reports.machine import document, machine, schema


def checked(*proofs: Proof) -> list[dict[str, Any]]:
    """Return the drafts of the document after checking it against the schema."""
    parsed = json.loads(machine(proofs))
    jsonschema.validate(parsed, schema())
    return parsed["drafts"]


def query(text: str, words: str, to: str | None = None) -> Proof:
    """Return the proof of a text with one query at some words."""
    at = span(text, words)
    change = None if to is None else Change(at, to)
    return proof_by_hand(text, findings=[Finding("some-rule", Level.QUERY, at, "look here", change=change)])


def test_schema_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(schema())


def test_hat_gives_exactly_this() -> None:
    assert checked(hat()) == [
        {
            "path": "hat.txt",
            "craft": "crochet",
            "terms": "US",
            "sizes": ["Small", "Medium", "Large"],
            "rounds": [
                _round(1, [10, 10, 10], [10, 10, 10], "agrees"),
                _round(2, [15, 15, 15], [15, 16, 15], "differs"),
                _round(
                    3,
                    [None, None, None],
                    [20, 20, 20],
                    "unread",
                    '"as the tide allows" was not understood',
                ),
                _round(4, [20, 20, 20], None, "unstated"),
            ],
            "findings": [
                {
                    "rule": "count-differs",
                    "level": "correction",
                    "line": 6,
                    "column": 59,
                    "end_line": 6,
                    "end_column": 61,
                    "sizes": ["Medium"],
                    "message": "the round comes to 15 sts for Medium, but 16 are stated",
                    "sum": [
                        "10 sts before the round",
                        "  each repeat uses 2 and makes 3: 5 times",
                        "15 sts after it",
                    ],
                    "change": {"line": 6, "column": 59, "end_column": 61, "to": "15"},
                }
            ],
            "tally": {"rounds": 4, "worked": 3, "agree": 1, "differ": 1, "unstated": 1, "unread": 1},
        }
    ]


def _round(
    number: int,
    worked: list[int | None],
    stated: list[int] | None,
    standing: str,
    reason: str | None = None,
) -> dict[str, object]:
    return {
        "line": number + 4,
        "section": "Crown",
        "label": f"Rnd {number}",
        "first": number,
        "last": number,
        "worked": worked,
        "stated": stated,
        "unit": "sts",
        "standing": standing,
        "reason": reason,
    }


def test_one_size_gives_lists_of_one_and_nothing_known_gives_nulls() -> None:
    text = "Ch 12.\nRow 1: sc across.\n"
    entries = (Entry("Ch 12", (12,)), Entry("Row 1", (None,), unread="no row below", unit="shells"))

    (draft,) = checked(proof_by_hand(text, entries, craft=None, terms=None))

    assert (draft["craft"], draft["terms"], draft["sizes"]) == (None, None, [])
    assert [(r["section"], r["first"], r["worked"], r["stated"], r["unit"], r["reason"]) for r in draft["rounds"]] == [
        (None, None, [12], None, "sts", None),
        (None, None, [None], None, "shells", "no row below"),
    ]


def test_a_size_that_does_not_work_a_round_is_null() -> None:
    entries = (Entry("Rnd 1", (10, None, 12), (10, None, 12)),)

    (draft,) = checked(proof_by_hand(HAT, entries, sizes=("S", "M", "L")))

    assert [(r["worked"], r["stated"], r["standing"]) for r in draft["rounds"]] == [
        ([10, None, 12], [10, None, 12], "agrees")
    ]


def test_a_heading_with_numbers_for_each_size_covers_them_all() -> None:
    text = "Rnds 7-9 (7-10, -): sc around."
    heading = span(text, "Rnds 7-9 (7-10, -)")
    round_ = Round(
        "Rnds 7-9 (7-10, -)",
        heading,
        Span(0, len(text)),
        0,
        Figure((7, 7, None), heading),
        Figure((9, 10, None), heading),
    )
    pattern = Pattern("crochet", "US", Sizes(("S", "M", "L")), (Section(None, heading),), (round_,))
    each = SizeWorking(24, 24, 24, rounds=3)
    workings = Workings((RoundWorking(0, (each, each, None), Standing.UNSTATED),))

    (draft,) = checked(Proof(proof_by_hand(text).draft, pattern, workings, ()))

    assert [(r["first"], r["last"], r["worked"]) for r in draft["rounds"]] == [(7, 10, [24, 24, None])]


@pytest.mark.parametrize(
    ("text", "words", "place"),
    [
        ("Rnd 1: (72)", "72", (1, 9, 1, 11)),
        ("Hat\r\nRnd 1: (72)\r\n", "72", (2, 9, 2, 11)),
        ("Hat\rRnd 1: (72)", "72)", (2, 9, 2, 12)),
        ("\tRnd 1:\t(72)", "(72)", (1, 9, 1, 13)),
        ("🧶🧶 (72)", "72", (1, 5, 1, 7)),
        ("cafe\u0301 (72)", "72", (1, 8, 1, 10)),
        ("\x1b[31m(72)\x1b[0m", "72", (1, 7, 1, 9)),
        ("*sc,\ninc around", "*sc,\ninc", (1, 1, 2, 4)),
        ("sc around\r\ninc", "around\r\n", (1, 4, 1, 10)),
        ("sc around\n\ninc", "around\n\n", (1, 4, 1, 10)),
    ],
)
def test_places_count_characters_and_end_after_the_last(
    text: str, words: str, place: tuple[int, int, int, int]
) -> None:
    (draft,) = checked(query(text, words))

    assert [(f["line"], f["column"], f["end_line"], f["end_column"]) for f in draft["findings"]] == [place]


def test_a_finding_on_no_character_has_a_place_too() -> None:
    finding = Finding("some-rule", Level.STYLE, Span(9, 9), "nothing closes the last round")

    (draft,) = checked(proof_by_hand("Rnd 1: sc", findings=[finding]))

    assert [
        (f["line"], f["column"], f["end_line"], f["end_column"], f["sizes"], f["sum"], f["change"])
        for f in draft["findings"]
    ] == [(1, 10, 1, 10, [], [], None)]


def test_a_change_over_a_line_end_is_not_offered() -> None:
    (draft,) = checked(query("sc 2,\nsc 3", "2,\nsc", to="5"))

    assert [f["change"] for f in draft["findings"]] == [None]


def test_no_control_character_and_no_letter_is_lost() -> None:
    text = "Rnd\x1b[2J 1é: \x9b"
    entries = (Entry("Rnd\x1b[2J 1é", (6,)),)
    proof = proof_by_hand(text, entries, path="a\x07b.txt")

    printed = machine([proof])

    assert printed.replace("\n", "").isascii()
    assert printed.replace("\n", "").isprintable()
    assert [(d["path"], d["rounds"][0]["label"]) for d in checked(proof)] == [("a\x07b.txt", "Rnd\x1b[2J 1é")]


@pytest.mark.parametrize(
    ("place", "key", "value"),
    [
        ((), "more", 1),
        (("drafts", 0), "more", 1),
        (("drafts", 0), "craft", "weaving"),
        (("drafts", 0, "tally"), "worked", None),
        (("drafts", 0, "rounds", 0), "worked", []),
        (("drafts", 0, "rounds", 0), "standing", "right"),
        (("drafts", 0, "rounds", 0), "more", 1),
        (("drafts", 0, "findings", 0), "column", 0),
        (("drafts", 0, "findings", 0), "level", "error"),
        (("drafts", 0, "findings", 0, "change"), "end_line", 6),
    ],
)
def test_schema_is_strict(place: tuple[str | int, ...], key: str, value: object) -> None:
    parsed = json.loads(machine([hat()]))
    part = parsed
    for step in place:
        part = part[step]
    part[key] = value

    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(parsed, schema())


@pytest.mark.parametrize("part", ["tool", "drafts"])
def test_schema_wants_every_part(part: str) -> None:
    parsed = json.loads(machine([hat()]))
    del parsed[part]

    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(parsed, schema())


def test_no_drafts_give_a_document_all_the_same() -> None:
    assert checked() == []
    assert document([])["drafts"] == []
