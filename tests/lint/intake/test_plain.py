"""Plain text drafts: encodings, what is refused and with which words, and what a folder holds."""

from __future__ import annotations

import codecs
from pathlib import Path

import pytest
from rowcall.lint.draft import Position
from rowcall.lint.intake import IntakeError, drafts_in, read_bytes, read_file

TEXT = "Rnd 1: 6 sc (6)\r\n\tInc 6 “times” – 3½ mm\n"


@pytest.mark.parametrize(
    ("data", "text"),
    [
        (TEXT.encode(), TEXT),
        (codecs.BOM_UTF8 + TEXT.encode(), TEXT),
        (codecs.BOM_UTF16_LE + TEXT.encode("utf-16-le"), TEXT),
        (codecs.BOM_UTF16_BE + TEXT.encode("utf-16-be"), TEXT),
        (TEXT.encode("cp1252"), TEXT),
        (b"no last newline", "no last newline"),
        (b"old\rline\rends", "old\rline\rends"),
        ("e\u0301 🧶 ½".encode(), "e\u0301 🧶 ½"),
        (b"Rnd 1: \x1b[31mred\x1b[0m\x07", "Rnd 1: \x1b[31mred\x1b[0m\x07"),
        (b"a page\x0cbreak", "a page\x0cbreak"),
    ],
)
def test_text_is_kept_as_it_is(data: bytes, text: str) -> None:
    draft = read_bytes(data, "hat.txt")

    assert (draft.path, draft.text) == ("hat.txt", text)


@pytest.mark.parametrize(
    ("data", "words", "place"),
    [
        (codecs.BOM_UTF8 + b"Rnd 1: (6)", "Rnd", (1, 1)),
        (codecs.BOM_UTF16_LE + "Rnd 1: (6)".encode("utf-16-le"), "(6)", (1, 8)),
        (b"Hat\r\nRnd 1: (6)\r\n", "(6)", (2, 8)),
        (b"Hat\n\n\tRnd 1", "Rnd", (3, 2)),
        ("🧶🧶 Rnd 1".encode(), "Rnd", (1, 4)),
        ("cafe\u0301 Rnd 1".encode(), "Rnd", (1, 7)),
    ],
)
def test_places_are_those_of_the_file_as_a_person_sees_it(data: bytes, words: str, place: tuple[int, int]) -> None:
    draft = read_bytes(data, "hat.txt")

    assert draft.position(draft.text.index(words)) == Position(*place)


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"", "hat.txt is empty: there is nothing to proof"),
        (b" \n\t\r\n", "hat.txt is empty: there is nothing to proof"),
        (codecs.BOM_UTF8, "hat.txt is empty: there is nothing to proof"),
        (codecs.BOM_UTF16_LE, "hat.txt is empty: there is nothing to proof"),
        (b"Rnd 1\x00", "hat.txt is not a text file"),
        (bytes(range(1, 32)), "hat.txt is not a text file"),
        (codecs.BOM_UTF32_LE + "Rnd 1".encode("utf-32-le"), "hat.txt is not a text file"),
        (b"caf\xe9 \x81", "hat.txt is not text in UTF-8, UTF-16 or Windows-1252"),
        (codecs.BOM_UTF16_LE + b"R", "hat.txt begins as UTF-16 text but breaks off or is damaged"),
        (b"%PDF-1.7 ...", "hat.txt is a PDF, not plain text: save the draft as plain text first"),
        (
            b"PK\x03\x04...",
            "hat.txt is a word processor file or another packed file, not plain text: "
            "save the draft as plain text first",
        ),
        (b"{\\rtf1 ...", "hat.txt is a rich text file, not plain text: save the draft as plain text first"),
        (b"x" * 5_242_881, "hat.txt is over 5 MB, too long for a draft"),
        (b"x\n" * 200_001, "hat.txt has over 200,000 lines, too many for a draft"),
        (b"Hat\n" + b"x" * 100_001, "hat.txt has over 100,000 characters in line 2, too many"),
    ],
    ids=lambda value: "" if isinstance(value, bytes) else value[8:40],
)
def test_what_is_no_draft_is_refused(data: bytes, message: str) -> None:
    with pytest.raises(IntakeError) as refusal:
        read_bytes(data, "hat.txt")

    assert str(refusal.value) == message


@pytest.mark.parametrize("data", [b"x\n" * 200_000, b"Hat\n" + b"x" * 100_000, b"x\n" + b"y" * 99_999 + b"\n"], ids=len)
def test_what_just_fits_is_read(data: bytes) -> None:
    assert len(read_bytes(data, "hat.txt").text) == len(data)


def test_standard_input_is_called_so() -> None:
    with pytest.raises(IntakeError) as refusal:
        read_bytes(b"", "-")

    assert str(refusal.value) == "standard input is empty: there is nothing to proof"


def test_file_is_read_under_the_name_given(tmp_path: Path) -> None:
    file = tmp_path / "hat.txt"
    file.write_bytes(b"Rnd 1\r\n")

    draft = read_file(file)

    assert (draft.path, draft.text) == (str(file), "Rnd 1\r\n")


def test_missing_file_and_folder_are_refused(tmp_path: Path) -> None:
    messages: list[str] = []
    for path in (tmp_path / "none.txt", tmp_path):
        with pytest.raises(IntakeError) as refusal:
            read_file(path)
        messages.append(str(refusal.value))

    assert messages == [
        f"{tmp_path / 'none.txt'}: there is no such file",
        f"{tmp_path} is a folder, not a draft",
    ]


def test_folder_gives_its_drafts_in_order_without_hidden_ones(tmp_path: Path) -> None:
    for name in ("b.txt", "a.md", "c.TEXT", "d.toml", ".e.txt", "sub/f.txt", ".git/g.txt", "sub/h.pdf"):
        file = tmp_path / name
        file.parent.mkdir(exist_ok=True)
        file.write_text("Rnd 1")
    (tmp_path / "folder.txt").mkdir()

    found = [path.relative_to(tmp_path).as_posix() for path in drafts_in(tmp_path)]

    assert found == ["a.md", "b.txt", "c.TEXT", "sub/f.txt"]


def test_folder_without_drafts_is_refused(tmp_path: Path) -> None:
    with pytest.raises(IntakeError) as refusal:
        drafts_in(tmp_path)

    assert str(refusal.value) == f"{tmp_path} holds no draft: no file in it ends in .txt, .text or .md"
