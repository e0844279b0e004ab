"""Claims: the counts that a draft states."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from in_words import after, items, told
from rowcall.lint.pattern import Claim
from rowcall.lint.reading.claims import claims_in, sentence_claim, trailing_claim

Entry = tuple[tuple[int | None, ...], str, str]


def entries(claims: Sequence[Claim]) -> list[Entry]:
    return [(claim.figure.values, claim.kind, claim.unit) for claim in claims]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("24", [((24,), "st", "sts")]),
        ("24 sts", [((24,), "st", "sts")]),
        ("24 sc", [((24,), "sc", "sc")]),
        ("24 dc, 12 ch-1 sps", [((24,), "dc", "dc"), ((12,), "space", "ch - 1 sps")]),
        ("24 dc, 12 1-ch sps", [((24,), "dc", "dc"), ((12,), "space", "1 - ch sps")]),
        ("27 fpdc, 27 bpdc", [((27,), "fpdc", "fpdc"), ((27,), "bpdc", "bpdc")]),
        ("8 clusters, 40 sts", [((8,), "other", "clusters"), ((40,), "st", "sts")]),
        ("12 scallops", [((12,), "other", "scallops")]),
        ("12 spaces", [((12,), "space", "spaces")]),
        ("", []),
        ("sts", []),
    ],
)
def test_figures_with_units(text: str, wanted: list[Entry]) -> None:
    assert entries(claims_in(items(text))) == wanted


@pytest.mark.parametrize(("text", "apart"), [("11 dc + ch 3", True), ("12 dc", False)])
def test_chain_named_apart(text: str, apart: bool) -> None:
    claims = claims_in(items(text))

    assert [(claim.figure.values, claim.chain_apart) for claim in claims] == [((int(text[:2]),), apart)]


def test_claim_a_size_points_at_its_figures() -> None:
    text = "60 (66, 72) sc"
    claims = claims_in(items(text, 3))

    assert [(claim.figure.values, told(text, claim.figure.span), told(text, claim.span)) for claim in claims] == [
        ((60, 66, 72), "60 (66, 72)", "60 (66, 72) sc")
    ]


@pytest.mark.parametrize(
    ("text", "wanted", "rest"),
    [
        ("= 24 sts", [((24,), "st", "sts")], ""),
        ("= 24 sc.", [((24,), "sc", "sc")], "."),
        ("- 24 sc.", [((24,), "sc", "sc")], "."),
        ("-- 24 sc", [((24,), "sc", "sc")], ""),
        (": 24 dc", [((24,), "dc", "dc")], ""),
        ("you should have 12 sc", [((12,), "sc", "sc")], ""),
        ("You should now have a total of 12 sts", [((12,), "st", "sts")], ""),
        ("= 32 sc and 2 ch-8 sps", [((32,), "sc", "sc"), ((2,), "space", "ch - 8 sps")], ""),
        ("- 24", [((24,), "st", "sts")], ""),
    ],
)
def test_count_without_brackets(text: str, wanted: list[Entry], rest: str) -> None:
    found = items(text)
    read = trailing_claim(found, 0)

    assert read is not None
    assert (entries(read[0]), after(text, found, read[1])) == (wanted, rest)


@pytest.mark.parametrize("text", ["", "24 sts", "sc 7", "- 3 sc in next st", "= sc", ", 24 sc"])
def test_no_count_without_brackets(text: str) -> None:
    assert trailing_claim(items(text), 0) is None


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("24 sts.", [((24,), "st", "sts")]),
        ("24 sc", [((24,), "sc", "sc")]),
        ("24 dc, 12 ch-1 sps", [((24,), "dc", "dc"), ((12,), "space", "ch - 1 sps")]),
        ("36 sts total", [((36,), "st", "sts")]),
    ],
)
def test_count_as_a_sentence(text: str, wanted: list[Entry]) -> None:
    read = sentence_claim(items(text), 0)

    assert read is not None
    assert entries(read[0]) == wanted


@pytest.mark.parametrize("text", ["", "24 sc in next st", "sc", "3 sc, inc"])
def test_no_count_as_a_sentence(text: str) -> None:
    assert sentence_claim(items(text), 0) is None
