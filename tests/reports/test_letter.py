"""The letter to the designer: its whole text, and nothing in it that a draft could turn into markup."""

from __future__ import annotations

import pytest
from by_hand import HAT, hat, proof_by_hand, span, wrong_count
from rowcall.lint.draft import Span
from rowcall.lint.finding import Aside, Finding, Level
from rowcall.reports.letter import letter

BLANK = "Answer: " + "." * 60
HAT_LETTER = f"""\
# Proof of hat.txt

Crochet in US terms, 3 sizes: Small, Medium and Large.

Every round that could be read was worked for every size. That gave 1 correction and 1 query, each listed below with \
the words of the draft, the sum behind it, and room for your answer. Line numbers are those of the file.

## Corrections

Here the words and the figures can't both stand. Please say which is meant.

1. **Line 6** (Medium): the round comes to 15 sts for Medium, but 16 are stated (count-differs)

   ```text
   Rnd 2: *Sc in next st, inc; rep from * around, join. (15, 16, 15)
                                                             ==
   ```

   The sum:

   ```text
   10 sts before the round
     each repeat uses 2 and makes 3: 5 times
   15 sts after it
   ```

   A change that makes it agree: line 6, "16" to "15".

   {BLANK}

## Queries

Here the draft can be read in two ways, or something looks doubtful. Please decide.

2. **Line 8**: is this round meant? (a-rule)

   ```text
   Rnd 4: Sc around.
   =====
   ```

   See also line 5: the first.

   {BLANK}

## How much was worked

3 of 4 rounds worked: 1 agrees with the draft's own count, 1 differs from it and 1 has none to compare. 1 not read.

These were not read, so nothing is said of their counts:

- line 7, Rnd 3: "as the tide allows" was not understood

A proof is no promise of fit, and what was not read has not been checked."""


def query(text: str, words: str, message: str, *asides: Aside) -> Finding:
    """Return a query at some words of a text."""
    return Finding("a-rule", Level.QUERY, span(text, words), message, asides=asides)


def test_hat_gets_exactly_this_letter() -> None:
    asked = query(HAT, "Rnd 4", "is this round meant?", Aside(span(HAT, "Rnd 1"), "the first"))

    assert letter([hat([asked, wrong_count()])]) == HAT_LETTER


def test_nothing_found_says_how_much_was_worked_and_promises_nothing() -> None:
    assert letter([proof_by_hand("A poem.", craft=None, terms=None)]) == (
        "# Proof of hat.txt\n"
        "\n"
        "Craft not recognised, one size.\n"
        "\n"
        "Nothing was found in what was worked. No rounds or rows were found, so nothing was worked and nothing is said "
        "of any count.\n"
        "\n"
        "## How much was worked\n"
        "\n"
        "A proof is no promise of fit, and what was not read has not been checked."
    )


def test_several_drafts_get_a_letter_each() -> None:
    text = letter([proof_by_hand("A poem.", path=f"{name}.txt") for name in "ab"])

    assert [line for line in text.splitlines() if line.startswith(("# ", "---"))] == [
        "# Proof of a.txt",
        "---",
        "# Proof of b.txt",
    ]


@pytest.mark.parametrize(
    ("message", "written"),
    [
        ("*sc, inc* and _more_", r"\*sc, inc\* and \_more\_"),
        ("see [here](http://example.org)", r"see \[here\](http://example.org)"),
        ("<b>bold</b> &amp; `code`", r"\<b\>bold\</b\> \&amp; \`code\`"),
        ("two\nlines\x1b\u202e", "two lines\ufffd\ufffd"),
    ],
)
def test_words_are_never_markup(message: str, written: str) -> None:
    lines = letter([hat([query(HAT, "Rnd 4", message)])]).splitlines()

    assert [line for line in lines if line.startswith("1. ")] == [f"1. **Line 8**: {written} (a-rule)"]


def test_a_quotation_with_backticks_stays_inside_its_fence() -> None:
    text = "Rnd 1: ```` <script>"

    lines = letter([proof_by_hand(text, findings=[Finding("a-rule", Level.STYLE, Span(0, 5), "look")])]).splitlines()

    first = lines.index("   `````text")
    assert lines[first : first + 4] == ["   `````text", "   Rnd 1: ```` <script>", "   =====", "   `````"]
