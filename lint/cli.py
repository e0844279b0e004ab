"""The commands: read the command line, proof each draft, choose a report, tell the exit status."""

from __future__ import annotations

import dataclasses
import gc
import io
import os
import shutil
import signal
import sys
from collections.abc import Iterable, Sequence
from enum import StrEnum
from functools import partial
from importlib import metadata
from typing import TYPE_CHECKING, Annotated, Any, NoReturn

import typer
from typer.core import TyperCommand

from .answers import COUNTS, LIVE, Wanted
from .batch import FAILED, Batch
from .outputs import Asked, BookForm, Form, Output, OutputError, SheetForm, check_files, outputs_of, write_file

if TYPE_CHECKING:
    from types import FrameType

    from .choice import Choice
    from .house import House as HouseStyle
    from .proof import Proof

# Nothing heavy is imported at the top: help, the version and a wrong option must come at once.

_NARROWEST, _WIDEST, _USUAL = 40, 100, 80
BROKEN_OFF = 130  # the status by which a shell knows that a call was broken off
_WRITTEN = "rowcall.written"  # where a call keeps the names of its options in their order

app = typer.Typer(
    help="Proofread written crochet and knitting patterns: every round of every size is worked and checked.",
    epilog="Exit status: 0 nothing to correct was found, 1 something was, 2 a wrong call or unreadable file.",
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["--help", "-h"]},
)


class FailsAt(StrEnum):
    """The level from which a finding makes the exit status 1."""

    CORRECTION = "correction"
    QUERY = "query"
    STYLE = "style"
    NEVER = "never"


Drafts = Annotated[
    list[str],
    typer.Argument(
        metavar="DRAFT",
        help="Drafts in plain text, folders of them (*.txt, *.text, *.md), or - for standard input.",
        show_default=False,
    ),
]
House = Annotated[
    str | None,
    typer.Option(
        "--house",
        metavar="FILE",
        help="The house style; else rowcall.toml in the draft's folder, or the nearest one above it.",
    ),
]
Processes = Annotated[
    int | None,
    typer.Option(
        "--processes",
        metavar="N",
        min=1,
        help="Work on so many drafts at once; else by the cores and the amount of text.",
    ),
]
Fresh = Annotated[
    bool, typer.Option("--fresh", help="Proof every draft anew, also those that haven't changed since the last call.")
]
Size = Annotated[str | None, typer.Option("--size", metavar="NAME", help="Show only this size's findings and figures.")]


def main() -> None:
    """Run the command line."""
    # little of what is made lives in circles, and looking for them is a tenth of a cold start
    gc.set_threshold(100_000)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")
    signal.signal(signal.SIGINT, _break_off)
    try:
        app(prog_name="rowcall")
    except _BrokenOffError:
        _complain("broken off")
        sys.exit(BROKEN_OFF)


class _BrokenOffError(BaseException):
    """A person has broken the call off; nothing on the way takes it for a fault of a draft."""


def _break_off(number: int, frame: FrameType | None) -> NoReturn:
    del number, frame
    raise _BrokenOffError


@app.callback(invoke_without_command=True)
def rowcall(
    context: typer.Context,
    version: Annotated[bool, typer.Option("--version", help="Show the version and leave.")] = False,
) -> None:
    """Proofread written crochet and knitting patterns: every round of every size is worked and checked."""
    if version:
        _print(f"rowcall {metadata.version('rowcall')}")
        raise typer.Exit
    if context.invoked_subcommand is None:
        _complain(context.get_help())
        raise typer.Exit(FAILED)


class InOrder(TyperCommand):
    """A command that remembers in which order its options were written."""

    def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
        """Read the command line, and keep the names of its options in their order."""
        _, _, written = self.make_parser(ctx).parse_args(list(args))
        ctx.meta[_WRITTEN] = [parameter.name for parameter in written]
        return super().parse_args(ctx, args)


@app.command("proof", short_help="Work every round and say what doesn't add up.", cls=InOrder)
def proof_command(
    context: typer.Context,
    drafts: Drafts,
    form: Annotated[
        list[Form] | None,
        typer.Option(
            "--format",
            help="What to give: the proof to read, a line a finding, a page, a letter to the designer, a table of "
            "counts, or a document for other programs. May be given several times, each with a --to.",
        ),
    ] = None,
    to: Annotated[
        list[str] | None,
        typer.Option("--to", metavar="FILE", help="Write the form named just before to this file."),
    ] = None,
    replace: Annotated[bool, typer.Option("--replace", help="Write over files that exist, but for drafts.")] = False,
    brief: Annotated[bool, typer.Option("--brief", help="The same as --format lines.")] = False,
    fails_at: Annotated[
        FailsAt | None,
        typer.Option(
            "--fails-at",
            help="The lowest level of finding that makes the exit status 1; else the house style's, or correction.",
        ),
    ] = None,
    only: Annotated[
        list[str] | None,
        typer.Option("--only", metavar="NAMES", help="Show only these rules or levels, parted by commas."),
    ] = None,
    leave_out: Annotated[
        list[str] | None,
        typer.Option("--leave-out", metavar="NAMES", help="Leave out these rules or levels."),
    ] = None,
    size: Size = None,
    house: House = None,
    processes: Processes = None,
    fresh: Fresh = False,
) -> None:
    """Proof drafts: work every round and say what doesn't add up, and how much was worked."""
    level = fails_at.value if fails_at else None
    asked = _asked(context.meta[_WRITTEN], form or [], to or [], brief=brief)
    wanted = Wanted(
        size=size,
        choice=_choice(only or [], leave_out or []),
        house=_house(house),
        width=_width(),
        colour=_wants_colour(),
    )
    batch = Batch(drafts, complain=_complain, processes=processes, fresh=fresh)
    try:
        outputs = outputs_of(asked)
        check_files(outputs, batch.drafts(), replace=replace)
    except OutputError as error:
        _refuse(str(error))
    _give(batch, outputs, wanted, level, replace=replace)
    raise typer.Exit(batch.status(level))


@app.command("stet", short_help="Let a finding stand, and say why.")
def stet_command(
    draft: Annotated[str, typer.Argument(metavar="DRAFT", help="The draft, a file.", show_default=False)],
    line: Annotated[int, typer.Argument(metavar="LINE", help="The line that the proof names.", show_default=False)],
    rule: Annotated[str, typer.Argument(metavar="RULE", help="The rule's name.", show_default=False)],
    because: Annotated[str, typer.Option("--because", metavar="REASON", help="Why it may stand.")] = "",
) -> None:
    """Let a finding stand, in a file beside the draft: it holds as long as the words that it is about don't change."""
    from .agreeing import AgreementError, let_stand_at
    from .checked import SettingsError
    from .intake import IntakeError

    try:
        _print(let_stand_at(draft, line, rule, because))
    except (AgreementError, IntakeError, OutputError, SettingsError) as error:
        _refuse(str(error))


@app.command("counts", short_help="Show stated beside worked counts, a row a round.")
def counts_command(drafts: Drafts, size: Size = None, processes: Processes = None, fresh: Fresh = False) -> None:
    """Show the counts of every round and size: what the draft says beside what its instructions make."""
    batch = Batch(drafts, complain=_complain, processes=processes, fresh=fresh)
    for number, found in enumerate(batch.answers(Wanted(pieces=(COUNTS,), size=size, width=_width()))):
        text = found.pieces[COUNTS]
        _print(f"\n{text}" if number else text, batch.status(FailsAt.NEVER.value))
    raise typer.Exit(batch.status(FailsAt.NEVER.value))


@app.command("longhand", short_help="Write a draft out for one size, every round in its place.")
def longhand_command(
    draft: Annotated[str, typer.Argument(metavar="DRAFT", help="The draft, a file or -.", show_default=False)],
    size: Annotated[
        str | None, typer.Option("--size", metavar="NAME", help="The size; not needed for a draft in one size.")
    ] = None,
    form: Annotated[SheetForm, typer.Option("--format", help="What to give.")] = SheetForm.SCREEN,
    ticks: Annotated[
        bool, typer.Option("--ticks", help="Give a sheet to print, with a box for each round and room for notes.")
    ] = False,
    to: Annotated[str | None, typer.Option("--to", metavar="FILE", help="Write to this file.")] = None,
    replace: Annotated[bool, typer.Option("--replace", help="Write over a file that exists, but for drafts.")] = False,
) -> None:
    """Write a draft out for one size: only its figures, elided rounds in their places, repeats unrolled, all counts."""
    from pathlib import Path

    batch = Batch([draft], complain=_complain)
    output = Output(Form.SCREEN, Path(to) if to is not None else None)
    try:
        check_files([output], batch.drafts(), replace=replace)
    except OutputError as error:
        _refuse(str(error))
    for proof in batch.proofs():
        text = batch.report(proof.draft.path, partial(_longhand, proof, size, form, ticks=ticks))
        if text is not None and output.file is None:
            _print(text)
        elif text is not None and output.file is not None:
            batch.report(to or "", partial(write_file, output.file, text, replace=replace))
    raise typer.Exit(batch.status(FailsAt.NEVER.value))


def _longhand(proof: Proof, size: str | None, form: SheetForm, *, ticks: bool) -> str:
    from ..reports.longhand import longhand_report
    from ..reports.ticks import ticks_report
    from .longhand import longhand

    report = ticks_report if ticks else longhand_report
    return report(longhand(proof, size), form, _width())


@app.command("rulebook", short_help="List all rules, or explain one.")
def rulebook_command(
    rule: Annotated[str | None, typer.Argument(metavar="RULE", help="A rule's name.", show_default=False)] = None,
    form: Annotated[BookForm, typer.Option("--format", help="What to give.")] = BookForm.SCREEN,
) -> None:
    """List all rules, or show the page of one: what it finds, why, where it stays silent, and examples."""
    from ..reports.rulebook import rule_list, rule_page, rulebook_markdown
    from ..rules.book import all_rules, rule_named
    from .checked import nearest

    if rule is None:
        _print(rulebook_markdown(all_rules()) if form is BookForm.MARKDOWN else rule_list(all_rules(), _width()))
        return
    found = rule_named(rule)
    if found is None:
        near = nearest(rule, (known.name for known in all_rules()))
        hint = f', did you mean "{near}"?' if near else "; rowcall rulebook lists all rules"
        _refuse(f'there is no rule "{rule}"{hint}')
    _print(rulebook_markdown([found]) if form is BookForm.MARKDOWN else rule_page(found, _width()))


def _asked(written: Iterable[str | None], forms: list[Form], files: list[str], *, brief: bool) -> list[Asked]:
    """Return the forms and files of a call in the order in which they were written."""
    form, file = iter(forms), iter(files)
    asked: list[Asked] = []
    for name in written:
        if name == "form":
            asked.append(Asked(form=next(form)))
        elif name == "to":
            asked.append(Asked(file=next(file)))
        elif name == "brief" and brief:
            asked.append(Asked(form=Form.LINES))
    return asked


def _give(batch: Batch, outputs: Sequence[Output], wanted: Wanted, fails_at: str | None, *, replace: bool) -> None:
    """Proof the drafts and give each output; what comes draft by draft is on the screen as soon as it is there."""
    from ..reports.forms import is_drafts_own, is_of_pieces, joined, whole_of

    live = next((one for one in outputs if one.file is None and is_drafts_own(one.form)), None)
    later = [one for one in outputs if one is not live]
    of_pieces = [one.form for one in later if is_of_pieces(one.form)]
    between = "\n" if live is not None and live.form is Form.SCREEN else ""
    names = (*((LIVE + live.form,) if live else ()), *of_pieces)
    proofs: list[Proof] = []
    pieces: dict[str, list[str]] = {form: [] for form in of_pieces}
    shown = 0
    for found in batch.answers(dataclasses.replace(wanted, pieces=names, proof=len(of_pieces) < len(later))):
        if live is not None:
            text = found.pieces[LIVE + live.form]
            _print(between + text if shown else text, batch.status(fails_at))
            shown += 1
        for form, texts in pieces.items():
            texts.append(found.pieces[form])
        if found.proof is not None:
            proofs.append(found.proof)
    for output in later:
        name = str(output.file or f"the {output.form} report")
        own = pieces.get(output.form)
        make = partial(whole_of(output.form), proofs) if own is None else partial(joined, output.form, own)
        text = batch.report(name, make)
        if text is None:
            continue
        if output.file is None:
            _print(text, batch.status(fails_at))
        else:
            batch.report(name, partial(write_file, output.file, text, replace=replace))


def _choice(only: list[str], leave_out: list[str]) -> Choice | None:
    if not only and not leave_out:
        return None
    from ..rules.book import all_rules
    from .choice import ChoiceError, choice

    try:
        return choice(only, leave_out, [rule.name for rule in all_rules()])
    except ChoiceError as error:
        _refuse(str(error))


def _house(file: str | None) -> HouseStyle | None:
    if file is None:
        return None
    from pathlib import Path

    from ..rules.book import all_rules
    from .checked import SettingsError
    from .house import load_house

    try:
        return load_house(Path(file), [rule.name for rule in all_rules()])
    except SettingsError as error:
        _refuse(str(error))


def _width() -> int:
    if not sys.stdout.isatty():
        return _USUAL
    return min(max(shutil.get_terminal_size((_USUAL, 24)).columns, _NARROWEST), _WIDEST)


def _wants_colour() -> bool:
    if not sys.stdout.isatty() or os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb":
        return False
    # Older Windows consoles print colour codes as they stand.
    return os.name != "nt" or "WT_SESSION" in os.environ


def _print(text: str, status: int = 0) -> None:
    """Print to standard output; where its reader has gone, end quietly with the status reached so far."""
    try:
        sys.stdout.write(text + "\n")
        sys.stdout.flush()
    except BrokenPipeError:
        # What is still held back must not be tried again when the interpreter closes the stream.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        raise typer.Exit(status) from None


def _complain(text: str) -> None:
    sys.stderr.write(text + "\n")


def _refuse(message: str) -> NoReturn:
    _complain(message)
    raise typer.Exit(FAILED)
