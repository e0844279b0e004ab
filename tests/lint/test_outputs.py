"""Forms and files of a call: which belongs to which, what is refused, and that nothing is lost or half written."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from rowcall.lint.outputs import Asked, Form, Output, OutputError, check_files, outputs_of, write_file

TABLE, JSON = Asked(Form.CSV), Asked(Form.JSON)
A, B = Asked(file="a"), Asked(file="b")


@pytest.mark.parametrize(
    ("asked", "outputs"),
    [
        ([], [Output(Form.SCREEN)]),
        ([TABLE], [Output(Form.CSV)]),
        ([A], [Output(Form.SCREEN, Path("a"))]),
        ([TABLE, A], [Output(Form.CSV, Path("a"))]),
        ([TABLE, A, JSON], [Output(Form.CSV, Path("a")), Output(Form.JSON)]),
        ([JSON, TABLE, A], [Output(Form.JSON), Output(Form.CSV, Path("a"))]),
        ([TABLE, A, JSON, B], [Output(Form.CSV, Path("a")), Output(Form.JSON, Path("b"))]),
        ([A, JSON, B], [Output(Form.SCREEN, Path("a")), Output(Form.JSON, Path("b"))]),
        ([TABLE, A, TABLE, B], [Output(Form.CSV, Path("a")), Output(Form.CSV, Path("b"))]),
    ],
)
def test_a_file_belongs_to_the_form_before_it(asked: list[Asked], outputs: list[Output]) -> None:
    assert list(outputs_of(asked)) == outputs


@pytest.mark.parametrize(
    ("asked", "complaint"),
    [
        ([TABLE, A, B], "--to b has no --format of its own: write one before each --to"),
        ([A, B], "--to b has no --format of its own: write one before each --to"),
        (
            [TABLE, JSON],
            "only one form can go to the screen, not csv and json: write --to FILE after the others",
        ),
        ([TABLE, A, JSON, A], "two forms would go to a: give each a file of its own"),
        ([TABLE, A, JSON, Asked(file="./x/../a")], "two forms would go to a: give each a file of its own"),
    ],
)
def test_what_can_not_be_paired_is_refused(asked: list[Asked], complaint: str) -> None:
    with pytest.raises(OutputError) as raised:
        outputs_of(asked)

    assert str(raised.value) == complaint


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder to work in, with a draft, a report and a folder in it."""
    monkeypatch.chdir(tmp_path)
    Path("hat.txt").write_text("draft")
    Path("old.html").write_text("old")
    Path("sub").mkdir()
    Path("pipe").symlink_to("/dev/null")
    Path("link.txt").symlink_to("hat.txt")
    os.link("hat.txt", "twin.txt")
    return tmp_path


@pytest.mark.parametrize(
    ("file", "replace", "complaint"),
    [
        ("new.html", False, None),
        ("sub/new.html", False, None),
        ("new.html", True, None),
        ("old.html", True, None),
        ("old.html", False, "old.html exists already: say --replace to write over it"),
        ("hat.txt", True, "hat.txt is a draft of this call, and a draft is never written over"),
        ("sub/../hat.txt", True, "sub/../hat.txt is a draft of this call, and a draft is never written over"),
        ("link.txt", True, "link.txt is a draft of this call, and a draft is never written over"),
        ("twin.txt", True, "twin.txt is a draft of this call, and a draft is never written over"),
        ("none.txt", True, "none.txt is a draft of this call, and a draft is never written over"),
        ("sub", True, "sub is a folder: --to needs the name of a file"),
        ("pipe", True, "pipe is not an ordinary file, so nothing is written to it"),
        ("none/new.html", True, "none/new.html can't be written: there is no folder none"),
    ],
)
@pytest.mark.usefixtures("folder")
def test_files_are_checked_before_any_work(file: str, replace: bool, complaint: str | None) -> None:
    said = None
    try:
        check_files([Output(Form.JSON), Output(Form.CSV, Path(file))], ["-", "hat.txt", "none.txt"], replace=replace)
    except OutputError as error:
        said = str(error)

    assert said == complaint


@pytest.mark.usefixtures("folder")
def test_a_file_is_written_whole_and_keeps_its_rights() -> None:
    old = Path("old.html")
    old.chmod(0o640)

    write_file(old, "½ new", replace=True)
    write_file(Path("sub/new.html"), "new", replace=False)

    assert (old.read_bytes(), old.stat().st_mode & 0o777) == ("½ new\n".encode(), 0o640)
    assert Path("sub/new.html").read_text() == "new\n"
    assert list(Path("sub").iterdir()) == [Path("sub/new.html")]


@pytest.mark.usefixtures("folder")
def test_a_link_keeps_pointing_where_it_did() -> None:
    Path("link.html").symlink_to("old.html")

    write_file(Path("link.html"), "new", replace=True)

    assert (Path("link.html").is_symlink(), Path("old.html").read_text()) == (True, "new\n")


@pytest.mark.usefixtures("folder")
def test_nothing_half_written_is_left_where_writing_fails() -> None:
    with pytest.raises(OutputError, match=r"old\.html exists already"):
        write_file(Path("old.html"), "new", replace=False)
    with pytest.raises(OutputError, match=r"none/x could not be written: No such file or directory"):
        write_file(Path("none/x"), "new", replace=False)

    assert (Path("old.html").read_text(), list(Path().glob(".*"))) == ("old", [])


@pytest.mark.usefixtures("folder")
def test_names_that_no_encoding_has_are_written_with_a_sign_in_their_place() -> None:
    write_file(Path("new.html"), "hat\udcff.txt", replace=False)

    assert Path("new.html").read_text() == "hat?.txt\n"
