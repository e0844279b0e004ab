"""Plain text drafts: bytes in some encoding become a `Draft`, or one clear sentence says why not."""

from __future__ import annotations

import codecs
from pathlib import Path
from typing import BinaryIO

from ..draft import Draft
from ..later import later

MOST_BYTES = 5 * 1024 * 1024
MOST_LINES = 200_000
LONGEST_LINE = 100_000
ENDINGS = frozenset({".txt", ".text", ".md"})

_UTF16_MARKS = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
# What a document of another kind begins with, for a message that tells an editor what to do about it.
_OTHER_KINDS = (
    (b"%PDF-", "a PDF"),
    (b"PK\x03\x04", "a word processor file or another packed file"),
    (b"{\\rtf", "a rich text file"),
)
# A stray form feed or terminal code is left in; text that is riddled with them is no text.
_CONTROL = later(r"[\x00-\x08\x0e-\x1f\x7f]")
_MOST_CONTROLS = 4
_CONTROL_SHARE = 0.1


class IntakeError(Exception):
    """A draft that can't be read; the message is one sentence for the user and names the file."""


def read_file(path: str | Path) -> Draft:
    """Read the draft in a file.

    Raises `IntakeError` where there is no such file, or it can't be read as a draft in plain text.
    """
    name = str(path)
    try:
        with Path(path).open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise IntakeError(f"{name}: there is no such file") from None
    except (IsADirectoryError, PermissionError) as error:
        if Path(path).is_dir():
            raise IntakeError(f"{name} is a folder, not a draft") from None
        raise IntakeError(f"{name} can't be opened: {_reason(error)}") from None
    except OSError as error:
        raise IntakeError(f"{name} can't be read: {_reason(error)}") from None
    return read_bytes(data, name)


def read_stream(stream: BinaryIO) -> Draft:
    """Read the draft on standard input; its path is `-`. Raises `IntakeError` as `read_file` does."""
    return read_bytes(stream.read(MOST_BYTES + 1), "-")


def read_bytes(data: bytes, path: str) -> Draft:
    """Make a draft of a file's bytes; `path` is what messages and reports call it.

    UTF-8, UTF-16 with its mark, or else Windows-1252. Line ends, tabs and quotes stay as they are; a
    byte-order mark is no part of the text. Raises `IntakeError` for what is no plain text of a bearable size.
    """
    name = "standard input" if path == "-" else path
    if len(data) > MOST_BYTES:
        raise IntakeError(f"{name} is over {MOST_BYTES // 1024**2} MB, too long for a draft")
    for beginning, kind in _OTHER_KINDS:
        if data.startswith(beginning):
            raise IntakeError(f"{name} is {kind}, not plain text: save the draft as plain text first")
    text = _decoded(data, name)
    if not text.strip():
        raise IntakeError(f"{name} is empty: there is nothing to proof")
    if _is_binary(text):
        raise IntakeError(f"{name} is not a text file")
    draft = Draft.of(text, path)
    _check_lines(draft, name)
    return draft


def drafts_in(folder: str | Path) -> tuple[Path, ...]:
    """Return the drafts in a folder and the folders in it, sorted; hidden files and folders are left out.

    Raises `IntakeError` where the folder holds no draft.
    """
    root = Path(folder)
    found = sorted(
        path
        for path in root.rglob("*")
        if path.suffix.lower() in ENDINGS
        and path.stem.lower() != "readme"
        and not any(part.startswith(".") for part in path.relative_to(root).parts)
        and path.is_file()
    )
    if not found:
        raise IntakeError(f"{folder} holds no draft: no file in it ends in .txt, .text or .md")
    return tuple(found)


def _reason(error: OSError) -> str:
    return (error.strerror or type(error).__name__).lower()


def _decoded(data: bytes, name: str) -> str:
    if data.startswith(_UTF16_MARKS):
        try:
            return data.decode("utf-16")
        except UnicodeDecodeError:
            raise IntakeError(f"{name} begins as UTF-16 text but breaks off or is damaged") from None
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        pass
    try:
        return data.decode("cp1252")
    except UnicodeDecodeError:
        raise IntakeError(f"{name} is not text in UTF-8, UTF-16 or Windows-1252") from None


def _is_binary(text: str) -> bool:
    controls = len(_CONTROL.findall(text))
    return "\x00" in text or (controls > _MOST_CONTROLS and controls > len(text) * _CONTROL_SHARE)


def _check_lines(draft: Draft, name: str) -> None:
    if len(draft.starts) > MOST_LINES:
        raise IntakeError(f"{name} has over {MOST_LINES:,} lines, too many for a draft")
    ends = (*draft.starts[1:], len(draft.text))
    for number, (start, end) in enumerate(zip(draft.starts, ends, strict=True), start=1):
        if end - start > LONGEST_LINE:
            raise IntakeError(f"{name} has over {LONGEST_LINE:,} characters in line {number}, too many")
