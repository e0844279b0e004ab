"""The commands: read the command line, proof each draft, choose a report, tell the exit status."""

from __future__ import annotations

import gc
import io
import os
import shutil
import sys
from collections.abc import Callable
from enum import StrEnum
from importlib import metadata
from typing import TYPE_CHECKING, Annotated, NoReturn

import typer

from .batch import FAILED, Batch

if TYPE_CHECKING:
    from .choice import Choice
    from .house import House as HouseStyle
    from .proof import Proof

# Nothing heavy is imported at the top: help, the version and a wrong option must come at once.

_NARROWEST, _WIDEST, _USUAL = 40, 100, 80

app = typer.Typer(
    help="Proofread written crochet and knitting patterns: every round of every size is worked and checked.",
    epilog="Exit status: 0 nothing to correct was found, 1 something was, 2 a wrong call or unreadable file.",
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["--help", "-h"]},
)


class Format(StrEnum):
    """What a proof is printed as."""

    SCREEN = "screen"
    JSON = "json"


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
Size = Annotated[str | None, typer.Option("--size", metavar="NAME", help="Show only this size's findings and figures.")]


def main() -> None:
    """Run the command line."""
    # little of what is made lives in circles, and looking for them is a tenth of a cold start
    gc.set_threshold(100_000)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")
    app(prog_name="rowcall")


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


@app.command("proof", short_help="Work every round and say what doesn't add up.")
def proof_command(
    drafts: Drafts,
    form: Annotated[
        Format, typer.Option("--format", help="A proof to read, or one JSON document for other programs.")
    ] = Format.SCREEN,
    brief: Annotated[bool, typer.Option("--brief", help="Print one line a finding.")] = False,
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
) -> None:
    """Proof drafts: work every round and say what doesn't add up, and how much was worked."""
    if brief and form is Format.JSON:
        _refuse("--brief and --format json don't go together")
    level = fails_at.value if fails_at else None
    batch = Batch(drafts, size, _choice(only or [], leave_out or []), _house(house), complain=_complain)
    if form is Format.JSON:
        from ..reports.machine import machine

        proofs = list(batch.proofs())
        _print(machine(proofs), batch.status(level))
    elif brief:
        from ..reports.brief import brief as lines

        _show(batch, lines, level, between="")
    else:
        from ..reports.screen import screen

        width, colour = _width(), _wants_colour()
        _show(batch, lambda proof: screen(proof, width, colour=colour), level)
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
    except (AgreementError, IntakeError, SettingsError) as error:
        _refuse(str(error))


@app.command("counts", short_help="Show stated beside worked counts, a row a round.")
def counts_command(drafts: Drafts, size: Size = None) -> None:
    """Show the counts of every round and size: what the draft says beside what its instructions make."""
    from ..reports.counts import counts

    width = _width()
    batch = Batch(drafts, size, complain=_complain)
    _show(batch, lambda proof: counts(proof, width), FailsAt.NEVER.value)
    raise typer.Exit(batch.status(FailsAt.NEVER.value))


@app.command("rulebook", short_help="List all rules, or explain one.")
def rulebook_command(
    rule: Annotated[str | None, typer.Argument(metavar="RULE", help="A rule's name.", show_default=False)] = None,
) -> None:
    """List all rules, or show the page of one: what it finds, why, where it stays silent, and examples."""
    from ..reports.rulebook import rule_list, rule_page
    from ..rules.book import all_rules, rule_named
    from .checked import nearest

    if rule is None:
        _print(rule_list(all_rules(), _width()))
        return
    found = rule_named(rule)
    if found is None:
        near = nearest(rule, (known.name for known in all_rules()))
        hint = f', did you mean "{near}"?' if near else "; rowcall rulebook lists all rules"
        _refuse(f'there is no rule "{rule}"{hint}')
    _print(rule_page(found, _width()))


def _show(batch: Batch, report: Callable[[Proof], str], fails_at: str | None, between: str = "\n") -> None:
    """Print the report of each draft as soon as it is there."""
    for number, text in enumerate(batch.reports(report)):
        _print(between + text if number else text, batch.status(fails_at))


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
