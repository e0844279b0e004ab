"""What stitches use and leave, and how tall they are, against published definitions."""

from __future__ import annotations

import pytest
from rowcall.lint.trade.tables import spellings


# Source: dummies.com (how to crochet a turning chain);
# crochetcabanablog.wordpress.com/resources/turning-chains, seen 2026.
@pytest.mark.parametrize(
    ("us", "uk", "chains"),
    [
        ("sl st", "ss", 0),
        ("sc", "dc", 1),
        ("hdc", "htr", 2),
        ("dc", "tr", 3),
        ("tr", "dtr", 4),
        ("dtr", "trtr", 5),
    ],
)
def test_turning_chain_of_each_height(us: str, uk: str, chains: int) -> None:
    assert (spellings("crochet", "US")[us].height, spellings("crochet", "UK")[uk].height) == (chains, chains)


# Source: Craft Yarn Council, Standards and Guidelines for Crochet and Knitting (booklet, 2015 and 2018
# editions), abbreviations: n stitches are worked together into one. The invisible decrease:
# 53stitches.com/invisible-decrease, seen 2026.
# Common practice: hdc3tog, and the same rule beyond three together.
@pytest.mark.parametrize(
    ("written", "uses"),
    [
        ("sc2tog", 2),
        ("sc3tog", 3),
        ("hdc2tog", 2),
        ("hdc3tog", 3),
        ("dc2tog", 2),
        ("dc3tog", 3),
        ("dc4tog", 4),
        ("tr2tog", 2),
        ("tr3tog", 3),
        ("dec", 2),
        ("inv dec", 2),
    ],
)
def test_crochet_decreases_leave_one(written: str, uses: int) -> None:
    stitch = spellings("crochet", "US")[written]
    assert (stitch.uses, stitch.makes) == (uses, 1)


# Source: craftymaria.blogspot.com/2009/06/getting-your-circles-flat.html, seen 2026:
# an increase puts two in one stitch. Common practice for hdc.
@pytest.mark.parametrize("written", ["inc", "sc inc", "hdc inc", "dc inc"])
def test_crochet_increases_put_two_in_one(written: str) -> None:
    stitch = spellings("crochet", "US")[written]
    assert (stitch.uses, stitch.makes) == (1, 2)


# Source: ravenscrochet.com/foundation-single-crochet, seen 2026:
# n of them are n stitches, made without a chain.
# The taller ones: common practice, made the same way.
@pytest.mark.parametrize(("written", "height"), [("fsc", 1), ("fhdc", 2), ("fdc", 3)])
def test_foundation_stitches_use_nothing(written: str, height: int) -> None:
    stitch = spellings("crochet", "US")[written]
    assert (stitch.uses, stitch.makes, stitch.height) == (0, 1, height)


# Source: sweetpotato3.com (what's the difference); daisyfarmcrafts.com/puff-stitch, seen 2026:
# gathered into one, in one stitch.
@pytest.mark.parametrize("written", ["bobble", "popcorn", "puff"])
def test_gathered_groups_count_as_one(written: str) -> None:
    stitch = spellings("crochet", "US")[written]
    assert (stitch.uses, stitch.makes) == (1, 1)


# Source: rachelgibbs.co.uk/right-and-left-leaning-decreases;
# sweaterbabe.com/knitting-abbreviations, seen 2026.
@pytest.mark.parametrize(
    ("written", "uses"),
    [
        ("k2tog", 2),
        ("p2tog", 2),
        ("ssk", 2),
        ("ssp", 2),
        ("skp", 2),
        ("k3tog", 3),
        ("p3tog", 3),
        ("sk2p", 3),
        ("cdd", 3),
    ],
)
def test_knitting_decreases_leave_one(written: str, uses: int) -> None:
    stitch = spellings("knitting", "US")[written]
    assert (stitch.uses, stitch.makes) == (uses, 1)


# Source: chezlizzie.blogspot.com/2015/02/tutorial-yarn-overs-getting-over.html;
# sweaterbabe.com/knitting-abbreviations, seen 2026.
@pytest.mark.parametrize(
    ("written", "uses", "makes"),
    [
        ("yo", 0, 1),
        ("yfwd", 0, 1),
        ("yrn", 0, 1),
        ("m1", 0, 1),
        ("m1l", 0, 1),
        ("m1r", 0, 1),
        ("kfb", 1, 2),
        ("pfb", 1, 2),
    ],
)
def test_knitting_increases(written: str, uses: int, makes: int) -> None:
    stitch = spellings("knitting", "UK")[written]
    assert (stitch.uses, stitch.makes) == (uses, makes)


# Source: sweaterbabe.com/knitting-abbreviations, seen 2026: skp and sk2p are short for these words.
@pytest.mark.parametrize(
    ("spelled", "short"),
    [
        (["sl1", "k", "psso"], "skp"),
        (["sl1", "k2tog", "psso"], "sk2p"),
        (["sl1", "sl1", "k", "p2sso"], "s2kp"),
    ],
)
def test_a_decrease_spelled_out_adds_up(spelled: list[str], short: str) -> None:
    found = spellings("knitting", "US")
    parts = [found[word] for word in spelled]
    assert sum(part.uses or 0 for part in parts) == found[short].uses
    assert sum(part.makes or 0 for part in parts) == found[short].makes
