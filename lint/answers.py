"""Answers: what a call wants of each draft, and what comes of one, as plain data that can be kept or sent."""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import partial
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from .choice import Choice
    from .house import House
    from .proof import Proof

LIVE = "live "  # before the name of a form for the screen that the call goes to, with its width and colours
COUNTS = "counts"  # the table of counts is given by a command of its own and is no form of a proof

_Result = TypeVar("_Result")


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is wanted of every draft of a call.

    `pieces` are the names of forms that are made draft by draft, those for the screen with `LIVE` before. `proof` is
    True where the whole proof is wanted besides. `size` narrows a proof to one size, `choice` to some findings.
    `house` is a house style in place of the one in a draft's folder.
    """

    pieces: tuple[str, ...] = ()
    proof: bool = False
    size: str | None = None
    choice: Choice | None = None
    house: House | None = None
    width: int = 80
    colour: bool = False


@dataclass(frozen=True, slots=True)
class Answer:
    """What comes of one draft: its piece of each form wanted, how grave its findings are, or why it failed.

    `limit` is the level that fails in the house of the draft. A draft that failed has `messages` and nothing else.
    """

    path: str
    pieces: Mapping[str, str] = field(default_factory=dict[str, str])
    worst: int = 0
    limit: str = "correction"
    messages: tuple[str, ...] = ()
    proof: Proof | None = None


def answer(path: str, wanted: Wanted) -> Answer:
    """Proof one draft and make all that is wanted of it. Raises nothing: what fails is told in the answer."""
    found, messages = guarded(path, partial(_answer, path, wanted))
    return found if found is not None else Answer(path, messages=messages)


def guarded(path: str, call: Callable[[], _Result]) -> tuple[_Result | None, tuple[str, ...]]:
    """Return what a call gives; where it fails, None and the sentences that say so."""
    try:
        return call(), ()
    except Exception as error:
        # Whatever trips the program over one draft, the others are still to be proofed.
        return None, _sentences(path, error)


def _sentences(path: str, error: Exception) -> tuple[str, ...]:
    from .checked import SettingsError
    from .choice import ChoiceError
    from .intake import IntakeError
    from .outputs import OutputError

    if isinstance(error, SettingsError):
        return error.troubles
    if isinstance(error, IntakeError | ChoiceError | OutputError):
        return (str(error),)
    return (mistake(path, f"{type(error).__name__}: {error}".rstrip(": ")),)


def mistake(path: str, reason: str) -> str:
    """Say that a draft failed through a fault that is not the draft's."""
    return f"{path} could not be proofed through a mistake in Rowcall itself ({reason})"


def _answer(path: str, wanted: Wanted) -> Answer:
    found = proof_of(path, wanted)
    pieces = {name: _report(name, wanted)(found) for name in wanted.pieces}
    limit = found.settings.house.fails_at or "correction"
    return Answer(path, pieces, int(found.worst() or 0), limit, proof=found if wanted.proof else None)


def proof_of(path: str, wanted: Wanted) -> Proof:
    """Proof the draft of a path, or of standard input for `-`, under the settings that hold for it."""
    from ..rules.book import all_rules
    from .choice import for_size
    from .intake import read_file, read_stream
    from .proof import proof
    from .settings import settings_for

    draft = read_stream(sys.stdin.buffer) if path == "-" else read_file(path)
    found = proof(draft, settings=settings_for(path, [rule.name for rule in all_rules()], wanted.house))
    if wanted.size is not None:
        found = for_size(found, wanted.size)
    return found if wanted.choice is None else wanted.choice.of(found)


def _report(name: str, wanted: Wanted) -> Callable[[Proof], str]:
    if name == COUNTS:
        from ..reports.counts import counts

        return partial(counts, width=wanted.width)
    from ..reports.forms import piece_of
    from .outputs import Form

    if name.startswith(LIVE):
        return piece_of(Form(name.removeprefix(LIVE)), wanted.width, colour=wanted.colour)
    return piece_of(Form(name))
