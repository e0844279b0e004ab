"""What of a proof to show: the findings asked for, and the figures of one size."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from .checked import nearest
from .figures import Figure, Sizes
from .finding import Finding, Level
from .pattern import Round
from .proof import Proof
from .workings import RoundWorking, SizeWorking, Standing

_LEVELS = {level.word: level for level in Level}


class ChoiceError(Exception):
    """A choice that can't be met; the message is one sentence for the user."""


@dataclass(frozen=True, slots=True)
class Choice:
    """Findings by rule name or level: those asked for (all where nothing is), but for those left out."""

    only: frozenset[str] = frozenset()
    leave_out: frozenset[str] = frozenset()

    def keeps(self, finding: Finding) -> bool:
        """Tell whether a finding is among those asked for."""
        names = {finding.rule, finding.level.word}
        return (not self.only or not names.isdisjoint(self.only)) and names.isdisjoint(self.leave_out)

    def of(self, proof: Proof) -> Proof:
        """Return the proof with only the findings asked for."""
        return replace(proof, findings=tuple(finding for finding in proof.findings if self.keeps(finding)))


def choice(only: Iterable[str], leave_out: Iterable[str], rules: Sequence[str]) -> Choice:
    """Make a choice of what the user wrote: rule names or levels, each word one or several with commas.

    `rules` are the names of all rules. Raises `ChoiceError` for a name that is neither, with the nearest one.
    """
    known = {*rules, *_LEVELS}
    return Choice(_known(only, known), _known(leave_out, known))


def size_named(proof: Proof, name: str) -> int:
    """Return the index of a size by its name.

    Raises `ChoiceError` where the draft has no such size, with the nearest one.
    """
    names = proof.pattern.sizes.names
    for index, size in enumerate(names):
        if size.strip().casefold() == name.strip().casefold():
            return index
    known = f"its sizes are {', '.join(names)}" if names else "it is written in one size, without a name"
    near = nearest(name, names) if len(name.strip()) > 2 else None  # "XL" is no slip for "Large"
    hint = f'did you mean "{near}"? ' if near else ""
    raise ChoiceError(f'{proof.draft.path} has no size "{name}": {hint}{known}')


def for_size(proof: Proof, name: str) -> Proof:
    """Return the proof as if the draft were written for one size only.

    Raises `ChoiceError` where the draft has no such size.
    """
    size = size_named(proof, name)
    names = proof.pattern.sizes.names
    pattern = replace(
        proof.pattern,
        sizes=Sizes((names[size],), proof.pattern.sizes.span, proof.pattern.sizes.declared),
        rounds=tuple(_round_for(round_, size) for round_ in proof.pattern.rounds),
    )
    rounds = tuple(
        _working_for(working, size)
        for working in proof.workings.rounds
        if working.standing is Standing.UNREAD or _at(working, size) is not None
    )
    findings = tuple(
        replace(finding, sizes=(0,) if finding.sizes else ())
        for finding in proof.findings
        if not finding.sizes or size in finding.sizes
    )
    stood = tuple(one for one in proof.stood if not one.finding.sizes or size in one.finding.sizes)
    return Proof(proof.draft, pattern, replace(proof.workings, rounds=rounds), findings, stood, proof.settings)


def _known(words: Iterable[str], known: set[str]) -> frozenset[str]:
    names = [name.strip() for word in words for name in word.split(",") if name.strip()]
    for name in names:
        if name not in known:
            near = nearest(name, known)
            hint = f', did you mean "{near}"?' if near else "; rowcall rulebook lists all rules"
            raise ChoiceError(f'there is no rule or level "{name}"{hint}')
    return frozenset(names)


def _at(working: RoundWorking, size: int) -> SizeWorking | None:
    return working.sizes[size] if size < len(working.sizes) else None


def _working_for(working: RoundWorking, size: int) -> RoundWorking:
    own = _at(working, size)
    standing = working.standing
    if own is not None and standing is not Standing.UNREAD:
        standing = {True: Standing.AGREES, False: Standing.DIFFERS, None: Standing.UNSTATED}[own.agrees]
    return replace(working, sizes=(own,), standing=standing)


def _round_for(round_: Round, size: int) -> Round:
    return replace(round_, first=_figure_for(round_.first, size), last=_figure_for(round_.last, size))


def _figure_for(figure: Figure | None, size: int) -> Figure | None:
    return figure and replace(figure, values=(figure.at(size),))
