"""US and UK terms and standard abbreviations against the published lists of the trade.

The list of record is the Craft Yarn Council's Standards and Guidelines for Crochet and Knitting (booklet,
2015 and 2018 editions), read by way of the pages named beside each table. What is common practice alone
says so.
"""

from __future__ import annotations

import pytest
from rowcall.lint.trade.tables import abbreviations, spellings

# Source: Craft Yarn Council, Standards and Guidelines, US and UK terms; the same pairs at
# funcrochetdesigns.com (crochet terms by country) and niniecrochet.com/?p=841, seen 2026.
PAIRS = [
    ("chain", "ch", "chain", "ch"),
    ("slip stitch", "sl st", "slip stitch", "ss"),
    ("single crochet", "sc", "double crochet", "dc"),
    ("half double crochet", "hdc", "half treble crochet", "htr"),
    ("double crochet", "dc", "treble crochet", "tr"),
    ("treble crochet", "tr", "double treble crochet", "dtr"),
    ("double treble crochet", "dtr", "triple treble crochet", "trtr"),
]

# Common practice, no published source: the next one up, and names made by the same rule.
PRACTICE_PAIRS = [
    ("triple treble crochet", "trtr", "quadruple treble crochet", "qtr"),
    ("single crochet two together", "sc2tog", "double crochet two together", "dc2tog"),
    ("half double crochet two together", "hdc2tog", "half treble crochet two together", "htr2tog"),
    ("double crochet three together", "dc3tog", "treble crochet three together", "tr3tog"),
    ("front post double crochet", "fpdc", "front post treble crochet", "fptr"),
    ("foundation single crochet", "fsc", "foundation double crochet", "fdc"),
    ("extended single crochet", "esc", "extended double crochet", "exdc"),
]


@pytest.mark.parametrize(("us_name", "us_short", "uk_name", "uk_short"), PAIRS + PRACTICE_PAIRS)
def test_a_pair_of_terms_is_one_stitch(us_name: str, us_short: str, uk_name: str, uk_short: str) -> None:
    us, uk = spellings("crochet", "US"), spellings("crochet", "UK")
    assert len({us[us_name].id, us[us_short].id, uk[uk_name].id, uk[uk_short].id}) == 1


@pytest.mark.parametrize("word", ["dc", "tr", "dtr", "double crochet", "treble crochet"])
def test_the_words_that_both_use_mean_different_stitches(word: str) -> None:
    """Source: as PAIRS; a UK term is one step shorter than the same word in US terms."""
    us, uk = spellings("crochet", "US")[word], spellings("crochet", "UK")[word]
    assert (us.id == uk.id, us.height > uk.height) == (False, True)


# Source: Craft Yarn Council, Standards and Guidelines, crochet abbreviations; the same at
# stitch4ever.com/2012/01/30/abbreviations-in-crochet-patterns, seen 2026.
CROCHET_US = [
    ("ch", "chain"),
    ("sl st", "slip stitch"),
    ("sc", "single crochet"),
    ("hdc", "half double crochet"),
    ("dc", "double crochet"),
    ("tr", "treble crochet"),
    ("dtr", "double treble crochet"),
    ("sc2tog", "single crochet two together"),
    ("dc2tog", "double crochet two together"),
    ("fpdc", "front post double crochet"),
    ("bpdc", "back post double crochet"),
    ("fsc", "foundation single crochet"),
    ("puff", "puff stitch"),
    ("sh", "shell"),
    ("inc", "increase"),
    ("dec", "decrease"),
]

# Source: Craft Yarn Council, Standards and Guidelines, knitting abbreviations; the same at
# sweaterbabe.com/knitting-abbreviations and cvetulka.blogspot.com/p/abbreviations.html, seen 2026.
KNITTING = [
    ("k", "knit"),
    ("p", "purl"),
    ("kfb", "knit front and back"),
    ("m1", "make one"),
    ("m1l", "make one left"),
    ("m1r", "make one right"),
    ("k2tog", "knit two together"),
    ("p2tog", "purl two together"),
    ("ssk", "slip, slip, knit"),
    ("psso", "pass slipped stitch over"),
    ("yo", "yarn over"),
    ("co", "cast on"),
    ("bo", "bind off"),
    ("w&t", "wrap and turn"),
]


@pytest.mark.parametrize(
    ("craft", "short", "name"),
    [("crochet", *row) for row in CROCHET_US] + [("knitting", *row) for row in KNITTING],
)
def test_a_stitch_abbreviation(craft: str, short: str, name: str) -> None:
    found = spellings(craft, "US")
    assert found[short] == found[name]


# Source: as the two lists of stitches above.
GENERAL = [
    ("crochet", "beg", "beginning"),
    ("crochet", "bet", "between"),
    ("crochet", "ch-sp", "chain space"),
    ("crochet", "cont", "continue"),
    ("crochet", "foll", "following"),
    ("crochet", "lp", "loop"),
    ("crochet", "rem", "remaining"),
    ("crochet", "rep", "repeat"),
    ("crochet", "rnd", "round"),
    ("crochet", "RS", "right side"),
    ("crochet", "sk", "skip"),
    ("crochet", "sp", "space"),
    ("crochet", "tch", "turning chain"),
    ("crochet", "tog", "together"),
    ("crochet", "WS", "wrong side"),
    ("knitting", "cn", "cable needle"),
    ("knitting", "dpn", "double-pointed needle"),
    ("knitting", "kwise", "knitwise"),
    ("knitting", "pm", "place marker"),
    ("knitting", "pwise", "purlwise"),
    ("knitting", "sm", "slip marker"),
    ("knitting", "tbl", "through back loop"),
    ("knitting", "wyif", "with yarn in front"),
]


@pytest.mark.parametrize(("craft", "term", "meaning"), GENERAL)
def test_a_general_abbreviation(craft: str, term: str, meaning: str) -> None:
    assert [row.meaning for row in abbreviations(craft) if row.term == term] == [meaning]


# Source: yourfamily.co.za/tutorial/crochet-terminology (UK words), seen 2026.
@pytest.mark.parametrize(("term", "meaning", "terms"), [("miss", "skip", "UK"), ("yrh", "yarn round hook", "UK")])
def test_a_uk_word(term: str, meaning: str, terms: str) -> None:
    assert [(row.meaning, row.terms) for row in abbreviations("crochet") if row.term == term] == [(meaning, terms)]
