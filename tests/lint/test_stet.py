"""What may stand: it is tied to words, lapses with them, and nothing stands without a reason."""

from __future__ import annotations

from pathlib import Path

import pytest
from rowcall.lint.cli import app
from rowcall.lint.proof import Proof, proof
from rowcall.lint.settings import settings_for
from rowcall.rules.book import all_rules
from typer.testing import CliRunner

NAMES = [rule.name for rule in all_rules()]
HAT = """\
HARBOUR HAT

Rnd 1: 6 sc in ring. (6)
Rnd 2: 2 sc in each st around. (13)
"""
TWICE = HAT + "\nSECOND HAT\n\n" + HAT.partition("\n\n")[2]


def stet(folder: Path, *arguments: str) -> tuple[int, str, str]:
    """Call `rowcall stet` on the hat of a folder; return status, output and complaint."""
    result = CliRunner().invoke(app, ["stet", str(folder / "hat.txt"), *arguments])
    return result.exit_code, result.stdout, result.stderr


def reproof(folder: Path, text: str) -> Proof:
    """Proof a new text of the hat of a folder with what stands there."""
    (folder / "hat.txt").write_text(text)
    return proof(text, settings=settings_for(str(folder / "hat.txt"), NAMES))


def told(found: Proof) -> list[tuple[int, str]]:
    """Return line and rule of what is told."""
    return [(found.draft.position(one.span.start).line, one.rule) for one in found.findings]


@pytest.fixture
def agreed(tmp_path: Path) -> Path:
    """Return a folder with a hat in which the count of Rnd 2 stands."""
    (tmp_path / "hat.txt").write_text(HAT)
    assert stet(tmp_path, "4", "count-differs", "--because", "as the designer wants it")[0] == 0
    return tmp_path


@pytest.mark.parametrize(
    ("text", "left", "stood"),
    [
        (HAT, [], 1),
        ("A new line.\n\n" + HAT, [], 1),
        (HAT.replace("around. (13)", "around.\n(13)"), [], 1),
        (HAT.replace("(13)", "(14)"), [(4, "stet-lapsed"), (4, "count-differs")], 0),
        (HAT.replace("2 sc in", "3 sc in"), [(4, "stet-lapsed"), (4, "count-differs")], 0),
        (HAT.replace("6 sc in ring. (6)", "13 sc in ring. (13)").replace("2 sc in", "sc in"), [(4, "stet-lapsed")], 0),
        (TWICE, [(9, "count-differs")], 1),
    ],
)
def test_it_holds_as_long_as_the_words_do(agreed: Path, text: str, left: list[tuple[int, str]], stood: int) -> None:
    found = reproof(agreed, text)

    assert (told(found), len(found.stood)) == (left, stood)


def test_one_that_finds_nothing_is_said(tmp_path: Path) -> None:
    plain = HAT.replace("2 sc in each", "sc in each")
    (tmp_path / "hat.txt").write_text(plain)
    assert stet(tmp_path, "4", "count-differs", "--because", "x")[0] == 0

    found = reproof(tmp_path, plain.replace("6 sc in ring. (6)", "13 sc in ring. (13)"))

    assert (told(found), found.stood) == ([(4, "stet-idle")], ())


def test_the_second_of_two_rounds_alike_can_stand(tmp_path: Path) -> None:
    (tmp_path / "hat.txt").write_text(TWICE)

    assert stet(tmp_path, "9", "count-differs", "--because", "x")[0] == 0

    assert told(reproof(tmp_path, TWICE)) == [(4, "count-differs")]


def test_the_file_keeps_what_stood_in_it(agreed: Path) -> None:
    file = agreed / "hat.stet.toml"
    file.write_text("# a remark of the editor\n" + file.read_text())
    (agreed / "hat.txt").write_text(TWICE)

    assert stet(agreed, "9", "count-differs", "--because", 'a "second" reason')[0] == 0

    assert file.read_text().startswith("# a remark of the editor\n")
    assert [one.because for one in settings_for(str(agreed / "hat.txt"), NAMES).stets] == [
        "as the designer wants it",
        'a "second" reason',
    ]
    assert (agreed / "hat.txt").read_text() == TWICE


@pytest.mark.parametrize(
    ("arguments", "complaint"),
    [
        (("4", "count-differs"), "say why it may stand, with --because: no reason, no stet"),
        (("4", "count-differs", "--because", "  "), "say why it may stand, with --because: no reason, no stet"),
        (("4", "count-difers", "--because", "x"), 'there is no rule "count-difers", did you mean "count-differs"?'),
        (("3", "count-differs", "--because", "x"), "finds nothing on line 3; nothing is found there"),
        (("4", "star-unclosed", "--because", "x"), "finds nothing on line 4; what is found there is count-differs"),
    ],
)
def test_what_can_not_stand(tmp_path: Path, arguments: tuple[str, ...], complaint: str) -> None:
    (tmp_path / "hat.txt").write_text(HAT)

    status, out, error = stet(tmp_path, *arguments)

    assert (status, out, error.strip().endswith(complaint)) == (2, "", True)
    assert not (tmp_path / "hat.stet.toml").exists()


def test_a_finding_that_stands_already_is_said(agreed: Path) -> None:
    status, _, error = stet(agreed, "4", "count-differs", "--because", "again")

    assert (status, "stands on line 4 already" in error) == (2, True)


def test_every_mistake_of_the_file_is_told_at_once(agreed: Path) -> None:
    (agreed / "hat.stet.toml").write_text(
        '[[stet]]\nrule = "count-difers"\nwords = "13"\nwithin = "x"\nbecause = "y"\n\n'
        '[[stet]]\nrule = "count-differs"\nwords = "13"\nwithin = "x"\nline = 4\n'
    )

    result = CliRunner().invoke(app, ["proof", "--brief", str(agreed / "hat.txt")])

    file = agreed / "hat.stet.toml"
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.splitlines() == [
        f'{file}:2: there is no rule "count-difers", did you mean "count-differs"?',
        f'{file}:7: this entry has no "because"; no reason, no stet',
        f'{file}:11: there is no setting "line"; allowed are "rule", "words", "within", "because", "nth"',
    ]


def test_a_proof_says_how_many_stand_and_why(agreed: Path) -> None:
    screen = CliRunner().invoke(app, ["proof", str(agreed / "hat.txt")])
    brief = CliRunner().invoke(app, ["proof", "--brief", str(agreed / "hat.txt")])

    assert (screen.exit_code, brief.exit_code) == (0, 0)
    assert "  As was agreed, 1 finding stands:\n    line 4, count-differs: as the designer wants it\n" in screen.stdout
    assert brief.stdout.rstrip().endswith("0 not read, 1 finding stands")
