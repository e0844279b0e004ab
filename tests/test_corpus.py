"""The corpus: each draft gives the sizes, rounds and findings that were worked for it by hand, and no others."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TypedDict, cast

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.finding import Level
from rowcall.lint.proof import Proof, proof

CORPUS = Path(__file__).parent.parent / "corpus"
NAMES = sorted(file.stem for file in CORPUS.glob("*.toml"))

Counts = tuple[int | None, ...]


class RoundEntry(TypedDict, total=False):
    line: int
    label: str
    worked: list[int | str]
    stated: list[int | str]


class FindingEntry(TypedDict):
    rule: str
    line: int
    sizes: list[str]


class Expected(TypedDict, total=False):
    clean: bool
    craft: str
    terms: str
    sizes: list[str]
    flaws: list[str]
    round: list[RoundEntry]
    finding: list[FindingEntry]


@dataclass(frozen=True, slots=True, order=True)
class Told:
    """A correction or query, by rule, line and the names of its sizes."""

    line: int
    rule: str
    sizes: tuple[str, ...]


@cache
def expected(name: str) -> Expected:
    return cast("Expected", tomllib.loads((CORPUS / f"{name}.toml").read_text("utf-8")))


@cache
def proofed(name: str) -> Proof:
    return proof(Draft.of((CORPUS / f"{name}.txt").read_text("utf-8"), f"{name}.txt"))


def listed(figures: list[int | str]) -> Counts:
    """Return the figures of an entry; "-" stands for a size without one."""
    return tuple(figure if isinstance(figure, int) else None for figure in figures)


def told(name: str) -> list[Told]:
    """Return the corrections and queries of a draft."""
    seen = proofed(name)
    return sorted(
        Told(
            seen.draft.position(finding.span.start).line,
            finding.rule,
            tuple(seen.pattern.sizes.names[size] for size in finding.sizes),
        )
        for finding in seen.findings
        if finding.level > Level.STYLE
    )


def test_corpus_has_twenty_three_clean_and_nine_flawed_drafts() -> None:
    clean = [expected(name).get("clean") for name in NAMES]

    assert (clean.count(True), clean.count(False)) == (23, 9)
    assert sorted(file.stem for file in CORPUS.glob("*.txt")) == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_craft_terms_and_sizes(name: str) -> None:
    pattern, wanted = proofed(name).pattern, expected(name)

    assert (pattern.craft, pattern.terms, list(pattern.sizes.names)) == (
        wanted.get("craft"),
        wanted.get("terms"),
        wanted.get("sizes"),
    )


@pytest.mark.parametrize("name", NAMES)
def test_every_round_is_worked_as_by_hand(name: str) -> None:
    seen = proofed(name)
    nothing: Counts = (None,) * seen.pattern.sizes.number
    rounds = [
        (
            seen.draft.position(seen.pattern.rounds[working.index].heading.start).line,
            tuple(size.count if size else None for size in working.sizes),
            tuple(size.stated if size else None for size in working.sizes),
        )
        for working in seen.workings.rounds
    ]

    assert rounds == [
        (
            entry.get("line"),
            listed(entry.get("worked", [])),
            listed(entry["stated"]) if "stated" in entry else nothing,
        )
        for entry in expected(name).get("round", [])
    ]


@pytest.mark.parametrize("name", NAMES)
def test_exactly_the_corrections_and_queries_listed(name: str) -> None:
    wanted = sorted(
        Told(entry["line"], entry["rule"], tuple(entry["sizes"])) for entry in expected(name).get("finding", [])
    )

    assert told(name) == wanted


@pytest.mark.parametrize("name", [name for name in NAMES if expected(name).get("clean")])
def test_clean_draft_has_nothing_to_correct_or_ask(name: str) -> None:
    assert told(name) == []
