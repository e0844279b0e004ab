"""The trade tables: what they hold, which stitch wins a shared spelling, and what a faulty table is told."""

from __future__ import annotations

import pytest
from rowcall.lint.trade.tables import (
    Abbreviation,
    Stitch,
    TableError,
    abbreviations,
    parse_abbreviations,
    parse_stitches,
    spellings,
    stitches,
)

CRAFT_TERMS = [(craft, terms) for craft in ("crochet", "knitting") for terms in ("US", "UK")]


@pytest.mark.parametrize(
    ("spelling", "us", "uk"),
    [
        ("dc", "dc", "sc"),
        ("d.c.", "dc", "sc"),
        ("d c", "dc", "sc"),
        ("tr", "tr", "dc"),
        ("treble crochet", "tr", "dc"),
        ("dtr", "dtr", "tr"),
        ("trtr", "trtr", "dtr"),
        ("tr c", "tr", "dc"),
        ("tc", "tr", None),
        ("sc", "sc", None),
        ("s.c.", "sc", None),
        ("s c", "sc", None),
        ("hdc", "hdc", None),
        ("htr", None, "hdc"),
        ("h.tr.", None, "hdc"),
        ("half treble", None, "hdc"),
        ("ss", "slst", "slst"),
        ("sl st", "slst", "slst"),
        ("sl. st.", "slst", "slst"),
        ("slst", "slst", "slst"),
        ("sl-st", "slst", "slst"),
        ("ch", "ch", "ch"),
        ("dc2tog", "dc2tog", "sc2tog"),
        ("sc 2 tog", "sc2tog", None),
        ("sc dec", "sc2tog", None),
        ("tr3tog", "tr3tog", "dc3tog"),
        ("htr2tog", None, "hdc2tog"),
        ("hdc2tog", "hdc2tog", None),
        ("inv dec", "invdec", "invdec"),
        ("invdec", "invdec", "invdec"),
        ("inc", "inc", "inc"),
        ("incr", "inc", "inc"),
        ("increase", "inc", "inc"),
        ("dec", "dec", "dec"),
        ("decrease", "dec", "dec"),
        ("fpdc", "fpdc", "fpsc"),
        ("bptr", "bptr", "bpdc"),
        ("fpsc", "fpsc", None),
        ("bphdc", "bphdc", None),
        ("rtrf", None, "fpdc"),
        ("fdc", "fdc", "fsc"),
        ("fhdc", "fhdc", None),
        ("standing dc", "standing_dc", "standing_sc"),
        ("standing sc", "standing_sc", None),
        ("exsc", "esc", None),
        ("edc", "edc", "esc"),
        ("crab st", "rsc", "rsc"),
        ("rev sc", "rsc", None),
        ("bobble", "bobble", "bobble"),
        ("popcorn", "popcorn", "popcorn"),
        ("puff", "puff", "puff"),
        ("cluster", "cl", "cl"),
        ("shell", "shell", "shell"),
        ("v-st", "vst", "vst"),
        ("picot", "picot", "picot"),
    ],
)
def test_crochet_spellings(spelling: str, us: str | None, uk: str | None) -> None:
    assert (_id("crochet", "US", spelling), _id("crochet", "UK", spelling)) == (us, uk)


@pytest.mark.parametrize(
    ("spelling", "us", "uk"),
    [
        ("k", "k", "k"),
        ("p", "p", "p"),
        ("k2tog", "k2tog", "k2tog"),
        ("k2tg", "k2tog", "k2tog"),
        ("ssk", "ssk", "ssk"),
        ("skp", "skp", "skp"),
        ("sl 1, k1, psso", "skp", "skp"),
        ("kfb", "kfb", "kfb"),
        ("inc", "inc", "inc"),
        ("m1", "m1", "m1"),
        ("yo", "yo", "yo"),
        ("o", "yo", "yo"),
        ("yfwd", "yfwd", "yfwd"),
        ("yrn", "yrn", "yrn"),
        ("yo twice", "yo2", "yo2"),
        ("bind off", "bo", "bo"),
        ("cast off", "bo", "bo"),
        ("c4f", "c4f", "c4f"),
        ("2/2 rc", "cross_2_2", "cross_2_2"),
        ("sc", None, None),
    ],
)
def test_knitting_spellings(spelling: str, us: str | None, uk: str | None) -> None:
    assert (_id("knitting", "US", spelling), _id("knitting", "UK", spelling)) == (us, uk)


@pytest.mark.parametrize(
    ("spelling", "winner", "loser"),
    [("x-st", "x_st", "crossed_dc"), ("pc", "popcorn", "picot"), ("ldc", "ldc", "long_dc")],
)
def test_a_shared_spelling_goes_to_the_stitch_that_names_it_nearer_to_the_front(
    spelling: str, winner: str, loser: str
) -> None:
    holders = [stitch.id for stitch in stitches("crochet") if spelling in stitch.us]
    assert sorted(holders) == sorted([winner, loser])
    assert spellings("crochet", "US")[spelling].id == winner


@pytest.mark.parametrize(("craft", "terms"), CRAFT_TERMS)
def test_every_spelling_is_lower_case_with_single_blanks(craft: str, terms: str) -> None:
    found = spellings(craft, terms)
    assert [text for text in found if text != " ".join(text.lower().split())] == []
    assert len(found) > 600


@pytest.mark.parametrize(("craft", "terms"), CRAFT_TERMS)
def test_every_stitch_can_be_written_in_either_terms(craft: str, terms: str) -> None:
    written = {stitch.id for stitch in spellings(craft, terms).values()}
    assert [stitch.id for stitch in stitches(craft) if stitch.id not in written] == []


@pytest.mark.parametrize(
    ("craft", "opens"),
    [
        (
            "crochet",
            "cl beg_cl shell half_shell vst dbl_vst x_st y_st star love_knot post_cable mesh block",
        ),
        ("knitting", "yf inc nupp"),
    ],
)
def test_what_the_pattern_must_say_is_left_open(craft: str, opens: str) -> None:
    found = [stitch.id for stitch in stitches(craft) if stitch.uses is None or stitch.makes is None]
    assert sorted(found) == sorted(opens.split())


@pytest.mark.parametrize(
    ("stitch", "like"),
    [
        ("sc2tog", "sc"),
        ("fpdc", "dc"),
        ("hdc_inc", "hdc"),
        ("standing_dc", "dc"),
        ("fsc", "sc"),
        ("esc", "sc"),
        ("tr3tog", "tr"),
        ("sc_blo", "sc"),
        ("dc", None),
        ("dec", None),
        ("shell", None),
    ],
)
def test_the_plain_stitch_of_a_count(stitch: str, like: str | None) -> None:
    assert {row.id: row.like for row in stitches("crochet")}[stitch] == like


def test_a_stitch_that_has_only_a_little_in_its_row() -> None:
    text = (
        'craft = "knitting"\n[[stitch]]\nid = "k"\nname = "knit"\nboth = "k | kn"\nuses = 1\nmakes = 1\n'
        'height = 0\nkind = "basic"\n[[stitch]]\nid = "bo"\nus_name = "bind off"\nuk_name = "cast off"\n'
        'us = "bo"\ndrafts = "b/o"\nuk_drafts = "c/o"\nheight = 0\nkind = "edge"\nlike = "k"\n'
        'from_memory = ["us"]'
    )
    assert parse_stitches(text, "knitting") == (
        Stitch("k", "knitting", ("knit", "k", "kn"), ("knit", "k", "kn"), 1, 1, 0, "basic"),
        Stitch(
            "bo",
            "knitting",
            ("bind off", "bo", "b/o"),
            ("cast off", "c/o", "b/o"),
            None,
            None,
            0,
            "edge",
            "k",
        ),
    )


ROW = {"id": '"sc"', "name": '"single"', "height": "1", "kind": '"basic"'}


@pytest.mark.parametrize(
    ("cells", "message"),
    [
        ({"colour": '"red"'}, "stitches-crochet, row 1 (sc): unknown colour"),
        ({"id": "3"}, "stitches-crochet, row 1 (3): id must be a word or words"),
        ({"kind": '""'}, "stitches-crochet, row 1 (sc): kind must be a word or words"),
        ({"us_name": '"x"'}, "stitches-crochet, row 1 (sc): either name, or us_name and uk_name"),
        ({"us": '"SC"'}, "stitches-crochet, row 1 (sc): 'SC' must be lower case"),
        (
            {"us": '"sc"', "drafts": '"sc"'},
            "stitches-crochet, row 1 (sc): 'sc' stands twice in the same terms",
        ),
        ({"us": '"sc |  s.c."'}, 'stitches-crochet, row 1 (sc): us must be spellings separated by " | "'),
        ({"us": '"sc|s.c."'}, 'stitches-crochet, row 1 (sc): us must be spellings separated by " | "'),
        ({"uses": '"1"'}, "stitches-crochet, row 1 (sc): uses must be a whole number"),
        ({"makes": "true"}, "stitches-crochet, row 1 (sc): makes must be a whole number"),
        ({"uses": "-1"}, "stitches-crochet, row 1 (sc): uses can't be negative"),
        ({"height": "-1"}, "stitches-crochet, row 1 (sc): height must be a whole number from 0"),
        ({"like": '"dc"'}, "stitches-crochet, sc: like names dc, which has no row"),
        (
            {"from_memory": '["uk"]'},
            "stitches-crochet, row 1 (sc): from_memory names uk, which the row doesn't have",
        ),
        (
            {"from_memory": '"us"'},
            "stitches-crochet, row 1 (sc): from_memory is true for the whole row, or a list of its cells",
        ),
    ],
)
def test_a_faulty_stitch_row(cells: dict[str, str], message: str) -> None:
    row = "\n".join(f"{key} = {value}" for key, value in (ROW | cells).items())
    with pytest.raises(TableError) as raised:
        parse_stitches(f'craft = "crochet"\n[[stitch]]\n{row}', "crochet")
    assert str(raised.value) == message


def test_a_row_without_a_height() -> None:
    with pytest.raises(TableError) as raised:
        parse_stitches('craft = "crochet"\n[[stitch]]\nid = "sc"\nname = "single"\nkind = "basic"', "crochet")
    assert str(raised.value) == "stitches-crochet, row 1 (sc): height must be a whole number from 0"


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ('craft = "knitting"', 'stitches-crochet: craft must be "crochet"'),
        ('craft = "crochet"', "stitches-crochet: no [[stitch]] rows"),
        (
            'craft = "crochet"\n' + '[[stitch]]\nid = "sc"\nname = "single"\nheight = 1\nkind = "basic"\n' * 2,
            "stitches-crochet: two rows have the id sc",
        ),
    ],
)
def test_a_faulty_stitch_table(text: str, message: str) -> None:
    with pytest.raises(TableError) as raised:
        parse_stitches(text, "crochet")
    assert str(raised.value) == message


def test_text_that_is_no_table() -> None:
    with pytest.raises(TableError, match=r"^stitches-crochet: .*line 2"):
        parse_stitches('craft = "crochet"\nstitch = sc\n', "crochet")


@pytest.mark.parametrize(
    ("term", "meaning", "kind", "terms", "crafts"),
    [
        ("beg", "beginning", "order", None, "crochet knitting"),
        ("rnd", "round", "unit", None, "crochet knitting"),
        ("sk", "skip", "action", "US", "crochet"),
        ("miss", "skip", "action", "UK", "crochet"),
        ("cn", "cable needle", "tool", None, "knitting"),
        ("MC", "main colour", "colour", None, "crochet knitting"),
    ],
)
def test_an_abbreviation(term: str, meaning: str, kind: str, terms: str | None, crafts: str) -> None:
    for craft in ("crochet", "knitting"):
        found = [(row.meaning, row.kind, row.terms) for row in abbreviations(craft) if row.term == term]
        assert found == ([(meaning, kind, terms)] if craft in crafts.split() else [])


def test_one_term_with_two_meanings_has_two_rows() -> None:
    assert [row.meaning for row in abbreviations("knitting") if row.term == "m"] == ["marker", "metre"]


@pytest.mark.parametrize(
    ("cells", "message"),
    [
        ('meaning = "x"', "abbreviations, row 1 (ea): class must be a word or words"),
        (
            'meaning = "x"\nclass = "order"\ncraft = "lace"',
            "abbreviations, row 1 (ea): craft is crochet, knitting or both, not lace",
        ),
        (
            'meaning = "x"\nclass = "order"\ncraft = "both"\nterms = "AU"',
            "abbreviations, row 1 (ea): terms is US or UK, not AU",
        ),
        ("note = 1", "abbreviations, row 1 (ea): unknown note"),
    ],
)
def test_a_faulty_abbreviation(cells: str, message: str) -> None:
    with pytest.raises(TableError) as raised:
        parse_abbreviations(f'[[abbreviation]]\nterm = "ea"\n{cells}', "crochet")
    assert str(raised.value) == message


def test_an_abbreviation_row() -> None:
    text = '[[abbreviation]]\nterm = "ea"\nmeaning = "each"\nclass = "order"\ncraft = "both"\nvariants = "e.a. | each"'
    assert parse_abbreviations(text, "knitting") == (Abbreviation("ea", "each", "order", None, ("e.a.", "each")),)


@pytest.mark.parametrize(("craft", "terms"), [("tatting", "US"), ("crochet", "AU"), ("crochet", "us")])
def test_an_unknown_craft_or_terms(craft: str, terms: str) -> None:
    with pytest.raises(ValueError, match=f"not '{craft if craft == 'tatting' else terms}'$"):
        spellings(craft, terms)


def test_the_tables_are_read_once() -> None:
    assert stitches("crochet") is stitches("crochet")
    assert spellings("crochet", "UK") is spellings("crochet", "UK")


def _id(craft: str, terms: str, spelling: str) -> str | None:
    stitch = spellings(craft, terms).get(spelling)
    return stitch.id if stitch else None
