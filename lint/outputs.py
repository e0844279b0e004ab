"""What a call is to give and where it goes: forms of a proof, each to the screen or to a file of its own."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path


class Form(StrEnum):
    """What a proof is given as."""

    SCREEN = "screen"
    LINES = "lines"
    HTML = "html"
    MARKDOWN = "markdown"
    CSV = "csv"
    JSON = "json"
    SARIF = "sarif"


class SheetForm(StrEnum):
    """What a longhand is given as."""

    SCREEN = "screen"
    TEXT = "text"
    MARKDOWN = "markdown"
    HTML = "html"


class BookForm(StrEnum):
    """What the rulebook is given as."""

    SCREEN = "screen"
    MARKDOWN = "markdown"


class OutputError(Exception):
    """An output that can't be given; the message is one sentence for the user."""


@dataclass(frozen=True, slots=True)
class Output:
    """A form and the file it goes to, None for the screen."""

    form: Form
    file: Path | None = None


@dataclass(frozen=True, slots=True)
class Asked:
    """One word of the call, in its order: a form that was asked for, or a file to write."""

    form: Form | None = None
    file: str = ""


def outputs_of(asked: Sequence[Asked]) -> tuple[Output, ...]:
    """Pair forms and files in the order in which they were asked for.

    A file belongs to the form before it, or to the proof as the screen shows it where none stands before. A form
    without a file goes to the screen. Raises `OutputError` where two would go to the same place.
    """
    outputs: list[Output] = []
    for one in asked:
        if one.form is not None:
            outputs.append(Output(one.form))
        elif outputs and outputs[-1].file is not None:
            raise OutputError(f"--to {one.file} has no --format of its own: write one before each --to")
        elif outputs:
            outputs[-1] = Output(outputs[-1].form, Path(one.file))
        else:
            outputs.append(Output(Form.SCREEN, Path(one.file)))
    on_screen = [output.form for output in outputs if output.file is None]
    if len(on_screen) > 1:
        names = " and ".join(on_screen)
        raise OutputError(f"only one form can go to the screen, not {names}: write --to FILE after the others")
    files = [output.file.resolve() for output in outputs if output.file is not None]
    for output, file in zip((one for one in outputs if one.file is not None), files, strict=True):
        if files.count(file) > 1:
            raise OutputError(f"two forms would go to {output.file}: give each a file of its own")
    return tuple(outputs) or (Output(Form.SCREEN),)


def check_files(outputs: Iterable[Output], drafts: Iterable[str], *, replace: bool) -> None:
    """Make sure, before any work, that each file can be written; a draft never is, nor what exists unless asked.

    Raises `OutputError`.
    """
    files = [output.file for output in outputs if output.file is not None]
    if not files:
        return
    read = [Path(draft) for draft in drafts if draft != "-"]
    for file in files:
        if any(_same(file, draft) for draft in read):
            raise OutputError(f"{file} is a draft of this call, and a draft is never written over")
        _check_place(file, replace=replace)


def write_file(file: Path, text: str, *, replace: bool) -> None:
    """Write a file whole or not at all: beside its place first, then moved there.

    Raises `OutputError`.
    """
    place = file.resolve()
    beside = place.with_name(f".{place.name}.{os.getpid()}.new")
    try:
        with beside.open("x", encoding="utf-8", errors="replace", newline="\n") as new:
            new.write(text + "\n")
        if place.exists():
            _check_place(file, replace=replace)
            shutil.copymode(place, beside)
        beside.replace(place)
    except OSError as error:
        raise OutputError(f"{file} could not be written: {error.strerror or error}") from error
    finally:
        beside.unlink(missing_ok=True)


def _check_place(file: Path, *, replace: bool) -> None:
    if not file.exists():
        if not file.resolve().parent.is_dir():
            raise OutputError(f"{file} can't be written: there is no folder {file.parent}")
    elif file.is_dir():
        raise OutputError(f"{file} is a folder: --to needs the name of a file")
    elif not file.is_file():
        raise OutputError(f"{file} is not an ordinary file, so nothing is written to it")
    elif not replace:
        raise OutputError(f"{file} exists already: say --replace to write over it")


def _same(file: Path, draft: Path) -> bool:
    try:
        return file.samefile(draft)
    except OSError:
        return file.resolve() == draft.resolve()
