"""Characters: letters and signs in the place of others, doubled signs, stray figures, and what only looks so."""

from __future__ import annotations

import pytest
from rowcall.lint.proof import proof
from rowcall.rules import characters

ROUNDS = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"


def said(text: str) -> list[tuple[str, str]]:
    """Return rule and words of each finding."""
    whole = proof(text, rules=characters.RULES)
    return [(found.rule, whole.draft.words(found.span)) for found in whole.findings]


@pytest.mark.parametrize(
    ("round_", "expected"),
    [
        ("Rnd 3: Ch l, sc in each st around. (12)", [("character-doubtful", "l")]),
        ("Rnd 3: sc 1O, inc twice. (14)", [("character-doubtful", "O")]),
        ("Rnd 3: 12 s\u0441 around. (12)", [("character-doubtful", "s\u0441")]),
        ("Rnd 3: 'Sc 1, dec 1 \\ rep 4 times. (8)", [("character-doubtful", "'")]),
        ("Rnd 3: (Sc 1, dec 1) \\ 4 times. (8)", [("character-doubtful", "\\")]),
        ("Rnd 3: sc 12. (12)\n* \u2022 For a skirt, work the back loops.", [("character-doubtful", "* \u2022")]),
        ("Rnd 3: 'Sc 1, dec 1' rep 4 times. (8)", []),
        ("Rnd 3: sc in back loop (BL) of all 12 sts, I think. (12)", []),
        ("Rnd 3: sc 12 \u00d7 1. (12)", []),
        ("Rnd 3: sc 12. (12)\n* For a skirt, work the back loops.", []),
        ("Rnd 3: sc in next st,, inc, sc 10. (13)", [("sign-doubled", ",,")]),
        ("Rnd 3: sc in next st,; inc, sc 10. (13)", [("sign-doubled", ",;")]),
        ("Rnd 3: 2 sc., 10 sc. (12)", []),
        ("Rnd 3: sc (12, , 14). (12)", []),
        ("Rnd 3: sc in next st; inc, sc 10. (13)", []),
        ("Rnd 3: 1(1 sc in next st, 2 sc in next st) around. (18)", [("figure-stray", "1")]),
        ("Rnd 3: 6(1 sc in next st, 2 sc in next st). (18)", []),
        ("Rnd 3: sc 2 (inc, sc 4) twice. (14)", []),
        ("Rnd 3: ch 1 (counts as sc), sc 11. (12)", []),
    ],
)
def test_characters(round_: str, expected: list[tuple[str, str]]) -> None:
    assert said(f"{ROUNDS}{round_}\n") == expected


def test_a_letter_in_a_heading_is_said_once() -> None:
    text = "Rl: Ch 2, 6 sc in second ch from hook.\nR2: 2 sc in each sc around. (12)\nRow II: sc 12.\n"

    assert said(text) == [("character-doubtful", "l")]


@pytest.mark.parametrize(
    ("heading", "expected"),
    [("Rnd S:", ["S"]), ("R1Z.", ["1Z"]), ("Rnd Z:", ["Z"]), ("Row B:", []), ("Rnd 5:", []), ("Rnds A:", [])],
)
def test_other_letters_in_headings(heading: str, expected: list[str]) -> None:
    assert [words for _, words in said(f"{ROUNDS}{heading} sc in each st. (12)\nRnd 6: sc 12. (12)\n")] == expected


def test_a_word_of_another_alphabet_is_said_once_and_words_of_other_languages_never() -> None:
    text = "Rnd 1: 6 s\u0441 in magic ring. (6)\nRnd 2: 6 s\u0441. (6)\n\n\u0432\u044f\u0437\u0430\u0442\u044c\n"

    assert said(text) == [("character-doubtful", "s\u0441")]


def test_the_change_for_a_letter_is_the_figure() -> None:
    whole = proof(f"{ROUNDS}Rnd 3: Ch l, sc in each st around. (12)\n", rules=characters.RULES)

    assert [found.change and found.change.to for found in whole.findings] == ["1"]
