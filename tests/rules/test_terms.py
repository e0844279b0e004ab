"""Terms: what is said of the abbreviation list and of misspelt words, and where nothing is said."""

from __future__ import annotations

import pytest
from rowcall.lint.finding import Level
from rowcall.lint.proof import proof
from rowcall.rules import terms

LIST = "Abbreviations\nch - chain\nsc - single crochet\ninc - 2 sc in one st\nst - stitch\n"
ROUNDS = "\nRnd 1: Ch 2, 6 sc in 2nd ch from hook. (6)\nRnd 2: inc 6 times. (12)\n"


def said(text: str) -> list[tuple[str, int, str]]:
    """Return rule, line and words of each finding."""
    whole = proof(text, rules=terms.RULES)
    return [
        (found.rule, whole.draft.position(found.span.start).line, whole.draft.words(found.span))
        for found in whole.findings
    ]


@pytest.mark.parametrize(
    ("more", "round_", "expected"),
    [
        ("", "sc2tog 6 times. (6)", [("abbreviation-undefined", 9, "sc2tog")]),
        ("", "sc2tog 6 times. Sc2tog again. (6)", [("abbreviation-undefined", 9, "sc2tog")]),
        ("", "Dec 6 times. (6)", [("abbreviation-undefined", 9, "Dec")]),
        ("sc2tog - see special stitches\n", "sc2tog 6 times. (6)", []),
        ("dec - decrease (sc2tog)\n", "sc2tog 6 times, dec. (6)", []),
        ("tog - together\n", "sc2tog 6 times. (6)", []),
        ("", "work a decrease (dec) 6 times. (6)", []),
        ("", "single crochet 2 together 6 times. (6)", []),
        ("", "sc in next st, rep from * to end of rnd.", []),
        ("sc dec - decrease in sc\n", "dec 6 times, then sc dec. (6)", []),
    ],
)
def test_undefined(more: str, round_: str, expected: list[tuple[str, int, str]]) -> None:
    lines = more.count("\n")

    found = [one for one in said(f"{LIST}{more}{ROUNDS}Rnd 3: {round_}\n") if one[0] == "abbreviation-undefined"]

    assert found == [(rule, line + lines, words) for rule, line, words in expected]


def test_nothing_is_undefined_without_a_list_or_with_one_of_special_stitches_alone() -> None:
    special = "fpdc - front post double crochet\nbpdc - back post double crochet\nblo - back loop only\n"

    assert said(ROUNDS) == []
    assert said(f"{special}{ROUNDS}Rnd 3: dc, hdc2tog, fpdc, bpdc in blo.\n") == []


def test_unused_is_said_once_with_all_terms() -> None:
    whole = proof(f"{LIST}hdc - half double crochet\ndc - double crochet\n{ROUNDS}", rules=terms.RULES)

    assert [(found.rule, found.level, found.message) for found in whole.findings] == [
        (
            "abbreviation-unused",
            Level.STYLE,
            '"hdc" and "dc" are explained in the abbreviation list and not used',
        )
    ]


@pytest.mark.parametrize(
    "more",
    [
        "dc2tog - dc 2 together\ndc - double crochet\n",  # dc explains dc2tog
        "rnd - round\n",
        "rep - repeat\n",
    ],
)
def test_what_counts_as_used(more: str) -> None:
    found = said(f"{LIST}{more}{ROUNDS}Rnd 3: dc2tog 6 times. (6)\n")

    assert [one for one in found if one[0] == "abbreviation-unused"] == []


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ("ss - slip stitch\nsl st - slip stitch\n", "sl st"),
        ("sc - single crochet\n", "sc"),
        ("sts - stitches\n", None),
        ("invdec - invisible decrease\ndec - decrease\n", None),
        ("ss - slip stitch\n", None),
    ],
)
def test_doubled(more: str, expected: str | None) -> None:
    found = [words for rule, _, words in said(f"{LIST}{more}{ROUNDS}") if rule == "abbreviation-doubled"]

    assert found == ([expected] if expected else [])


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ("BLO - front loops only\n", "front loops only"),
        ("WS - right side\n", "right side"),
        ("BLO - back loops only\n", None),
        ("dec - invisible decrease\n", None),
        ("dc (UK tr) - double crochet\n", None),
    ],
)
def test_contradicts(more: str, expected: str | None) -> None:
    found = [words for rule, _, words in said(f"{LIST}{more}{ROUNDS}") if rule == "definition-contradicts"]

    assert found == ([expected] if expected else [])


@pytest.mark.parametrize(
    ("round_", "expected"),
    [
        ("sc in nexl sc, inc 11 times. (23)", "nexl"),
        ("Chian 1, sc in each st. (12)", "Chian"),
        ("sc in each st. Join with st to first sc. (12)", "st"),
        ("sc in eachst. (12)", "eachst"),
        ("sc in each st. Join with ch st to first sc. (12)", None),
        ("switch to blue, sc in each st; a change of form. (12)", None),
        ("sc in each st around. Make a chair of it. (12)", None),
    ],
)
def test_misspelt(round_: str, expected: str | None) -> None:
    found = [words for rule, _, words in said(f"{ROUNDS}Rnd 3: {round_}\n") if rule == "stitch-misspelt"]

    assert found == ([expected] if expected else [])


def test_a_misspelling_is_said_once_and_mended_in_its_own_letters() -> None:
    whole = proof(f"{ROUNDS}Rnd 3: Chian 1, sc 12. (12)\nRnd 4: Chian 1, sc 12. (12)\n", rules=terms.RULES)

    assert [(found.message, found.change and found.change.to) for found in whole.findings] == [
        ('"Chian" stands where "chain" is expected', "Chain")
    ]


@pytest.mark.parametrize(
    ("round_", "expected"),
    [
        ("sc in each st. Join with to first sc. (12)", ["Join with to"]),
        ("sc in each st, 3 sc in corner sp. To join. (12)", ["To join"]),
        ("sc in each st. Join with sl st to first sc. (12)", []),
        ("sc in each st, sl st to join. (12)", []),
        ("sc in each st. Sl st in first sc to join. (12)", []),
        ("sc in each st. Join to first sc. (12)", []),
        ("sc in each st. To join, sl st in first sc. (12)", []),
    ],
)
def test_words_missing(round_: str, expected: list[str]) -> None:
    assert [words for rule, _, words in said(f"{ROUNDS}Rnd 3: {round_}\n") if rule == "word-missing"] == expected


@pytest.mark.parametrize(
    ("heading", "expected"),
    [("Rmd 3:", ["Rmd"]), ("Ruond 3:", ["Ruond"]), ("Red 3:", []), ("Row 3:", []), ("Rnds 3:", []), ("Rope 3:", [])],
)
def test_misspelt_headings(heading: str, expected: list[str]) -> None:
    assert [
        words for rule, _, words in said(f"{ROUNDS}{heading} sc 12. (12)\n") if rule == "stitch-misspelt"
    ] == expected


def test_words_outside_the_rounds_are_left_alone() -> None:
    assert said(f"The chian of events, and a stich in time.\n{ROUNDS}") == []


@pytest.mark.parametrize(
    ("round_", "expected"),
    [
        ("sc in in each st. (12)", ["in"]),
        ("sc, sc, inc, inc. (6)", []),
        ("work in st st. (12)", []),
        ("ch 2, 2 sc.", []),
    ],
)
def test_doubled_words(round_: str, expected: list[str]) -> None:
    assert [words for rule, _, words in said(f"{ROUNDS}Rnd 3: {round_}\n") if rule == "word-doubled"] == expected
