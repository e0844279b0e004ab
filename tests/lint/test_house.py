"""The house style: where it is found, what it changes, and how its mistakes are told."""

from __future__ import annotations

from pathlib import Path

import pytest
from rowcall.lint.checked import SettingsError
from rowcall.lint.cli import app
from rowcall.lint.finding import Level
from rowcall.lint.house import find_house, load_house, read_house
from rowcall.lint.proof import proof
from rowcall.lint.settings import Settings
from rowcall.rules.book import all_rules
from typer.testing import CliRunner

RULES = ("count-differs", "star-unclosed")
CORPUS = Path(__file__).parents[2] / "corpus"
ALL_RULES = [rule.name for rule in all_rules()]
WRONG = "Rnd 1: 6 sc in ring. (7)\n"


def test_a_style_in_full() -> None:
    house = read_house(
        """\
terms = "UK"
sizes = "72 [80, 88]"
counts = "- 72 sts"
numerals = "words"
units = ["cm", "in"]
sections = ["Materials", "Tension"]
fails-at = "query"

[headings]
round = "Round"
row = "Row"

[spellings]
miss = ["sk", "skip"]

[levels]
count-differs = "query"
star-unclosed = "silent"
""",
        "rowcall.toml",
        RULES,
    )

    assert (house.terms, house.lists, house.counts, house.numerals) == ("UK", "72 [80, 88]", "- 72 sts", "words")
    assert (house.units, house.sections, house.fails_at) == (("cm", "in"), ("Materials", "Tension"), "query")
    assert (house.round_word, house.row_word) == ("Round", "Row")
    assert house.spellings == {"sk": "miss", "skip": "miss"}
    assert house.levels == {"count-differs": Level.QUERY, "star-unclosed": None}


def test_all_mistakes_are_told_at_once_each_with_its_line() -> None:
    with pytest.raises(SettingsError) as caught:
        read_house(
            '# our style\nterm = "US"\ncounts = 72\nunits = "cm"\n\n[levels]\ncount-difers = "query"\n'
            'star-unclosed = "loud"\n\n[spellings]\nsk = ["skip", 3]\n\n[headings]\nrnd = "Rnd"\n',
            "rowcall.toml",
            RULES,
        )

    assert [trouble.partition(";")[0].partition("? Allowed")[0] for trouble in caught.value.troubles] == [
        'rowcall.toml:2: there is no setting "term", did you mean "terms"',
        'rowcall.toml:3: "counts" must be a text in quotation marks',
        'rowcall.toml:4: "units" must be a list of texts in square brackets',
        'rowcall.toml:7: there is no rule "count-difers", did you mean "count-differs"?',
        'rowcall.toml:8: "star-unclosed" can\'t be "loud"',
        'rowcall.toml:11: "sk" must be a text in quotation marks',
        'rowcall.toml:14: there is no setting "rnd", did you mean "round"',
    ]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('terms = "US"\ncounts = \n', "rowcall.toml:2: there is no value, or a text without its quotation marks"),
        ("numerals = figures\n", "rowcall.toml:1: there is no value, or a text without its quotation marks"),
        ('terms = "US"\nterms = "UK"\n', "rowcall.toml:2: this is set twice"),
        ('terms = "US\n', "rowcall.toml:1: a text in quotation marks is not closed"),
        ('= "US"\n', 'rowcall.toml:1: a setting reads name = "value"'),
        ("[headings\n", "rowcall.toml:1: a square bracket is not closed"),
    ],
)
def test_what_is_no_toml_is_told_with_its_line(text: str, told: str) -> None:
    with pytest.raises(SettingsError) as caught:
        read_house(text, "rowcall.toml", RULES)

    assert str(caught.value) == told


@pytest.mark.parametrize(
    ("wrong", "meant"),
    [("us", "US"), ("uk", "UK")],
)
def test_a_word_in_other_letters_is_offered(wrong: str, meant: str) -> None:
    with pytest.raises(SettingsError, match=f'did you mean "{meant}"'):
        read_house(f'terms = "{wrong}"\n', "rowcall.toml", RULES)


def test_the_nearest_rule_is_offered() -> None:
    with pytest.raises(SettingsError, match='did you mean "count-differs"'):
        read_house('[levels]\ncount-diff = "query"\n', "rowcall.toml", [*RULES, "part-count-differs"])


@pytest.mark.parametrize(
    ("level", "usual", "told"),
    [
        ("style", Level.CORRECTION, Level.STYLE),
        ("correction", Level.CORRECTION, Level.CORRECTION),
        ("silent", Level.CORRECTION, None),
    ],
)
def test_levels_are_the_houses(level: str, usual: Level, told: Level | None) -> None:
    plain = proof(WRONG).findings
    house = read_house(f'[levels]\ncount-differs = "{level}"\n', "rowcall.toml", RULES)

    found = proof(WRONG, settings=Settings(house)).findings

    assert [one.level for one in plain] == [usual]
    assert [one.level for one in found] == ([] if told is None else [told])


def test_what_is_unsure_is_never_raised() -> None:
    house = read_house('[levels]\ncount-differs = "correction"\n', "rowcall.toml", RULES)
    finding = proof(WRONG).findings[0]
    unsure = type(finding)(finding.rule, Level.QUERY, finding.span, finding.message)

    assert house.weigh(unsure, Level.CORRECTION) is Level.QUERY


def test_the_nearest_file_above_the_draft_holds(tmp_path: Path) -> None:
    deep = tmp_path / "hats" / "winter"
    deep.mkdir(parents=True)
    (tmp_path / "pyproject.toml").write_text('[tool.rowcall]\nterms = "UK"\n')
    assert find_house(deep) == (tmp_path / "pyproject.toml", ("tool", "rowcall"))

    (tmp_path / "hats" / "pyproject.toml").write_text('[project]\nname = "hats"\n')
    assert find_house(deep) == (tmp_path / "pyproject.toml", ("tool", "rowcall"))

    (tmp_path / "hats" / "rowcall.toml").write_text('terms = "US"\n')
    assert find_house(deep) == (tmp_path / "hats" / "rowcall.toml", ())


@pytest.mark.parametrize(
    ("style", "arguments", "status"),
    [
        ("", (), 1),
        ('fails-at = "never"', (), 0),
        ('fails-at = "never"', ("--fails-at", "correction"), 1),
        ('[levels]\ncount-differs = "query"', (), 0),
        ('fails-at = "query"\n[levels]\ncount-differs = "query"', (), 1),
        ('[levels]\ncount-differs = "silent"', ("--fails-at", "style"), 0),
        ('fails-at = "alway"', (), 2),
    ],
)
def test_what_fails_is_the_houses_unless_the_call_says(
    tmp_path: Path, style: str, arguments: tuple[str, ...], status: int
) -> None:
    (tmp_path / "hat.txt").write_text(WRONG)
    (tmp_path / "rowcall.toml").write_text(style)

    result = CliRunner().invoke(app, ["proof", "--brief", str(tmp_path / "hat.txt"), *arguments])

    assert result.exit_code == status


def test_a_named_style_is_taken_instead(tmp_path: Path) -> None:
    (tmp_path / "hat.txt").write_text(WRONG)
    (tmp_path / "rowcall.toml").write_text('fails-at = "correction"')
    (tmp_path / "mild.toml").write_text('fails-at = "never"')
    call = ["proof", "--brief", str(tmp_path / "hat.txt"), "--house"]

    assert CliRunner().invoke(app, [*call, str(tmp_path / "mild.toml")]).exit_code == 0
    missing = CliRunner().invoke(app, [*call, str(tmp_path / "none.toml")])
    assert (missing.exit_code, "can't be read" in missing.stderr) == (2, True)


@pytest.mark.parametrize(
    ("style", "draft", "told"),
    [
        (
            "harbour-press",
            "breakwater-hat",
            [
                'house style, sections: the draft has no section "Materials"',
                'house style, sections: the draft has no section "Abbreviations"',
                'house style, units: "46 (51.5, 57) cm / 18 (20¼, 22½) in" here and in one more place, and the house '
                'writes "in (cm)"',
                'house style, counts: "64 (72, 80) sc" here and in 12 more places, and the house writes "(72 sts)"',
            ],
        ),
        (
            "slipway-quarterly",
            "tideline-cowl",
            [
                'house style, sections: the draft has no section "Materials"',
                'house style, headings: "Rnd 1" here and in 7 more places, and the house writes "Round"',
                'house style, counts: "96[108, 120] dc" here and in 7 more places, and the house writes "[72 sts]"',
                'house style, spellings: "rep" here and in 2 more places, and the house writes "repeat"',
            ],
        ),
    ],
)
def test_the_styles_of_the_corpus(style: str, draft: str, told: list[str]) -> None:
    house = load_house(CORPUS / "houses" / f"{style}.toml", ALL_RULES)
    text = (CORPUS / f"{draft}.txt").read_text("utf-8")

    found = proof(text, settings=Settings(house)).findings

    assert [one.message for one in found if one.rule == "house-style"] == told
