"""Let findings of a draft stand: look them up by line and rule, and write them into the file beside it."""

from __future__ import annotations

from ..rules.book import all_rules
from .beside import file_beside
from .checked import nearest
from .house import settings_text
from .intake import read_file
from .outputs import write_file
from .proof import proof
from .settings import settings_for
from .stet import Surroundings, written


class AgreementError(Exception):
    """An agreement that can't be kept; the message is one sentence for the user."""


def let_stand_at(path: str, line: int, rule: str, because: str) -> str:
    """Let the findings of a rule on a line of a draft stand, and return one sentence that says so.

    Raises `AgreementError` where there is no reason, no such rule or nothing found there, `IntakeError` for a draft
    that can't be read, `SettingsError` for settings that can't be used and `OutputError` where nothing can be written.
    """
    if not because.strip():
        raise AgreementError("say why it may stand, with --because: no reason, no stet")
    names = [known.name for known in all_rules()]
    if rule not in names:
        near = nearest(rule, names)
        hint = f', did you mean "{near}"?' if near else "; rowcall rulebook lists all rules"
        raise AgreementError(f'there is no rule "{rule}"{hint}')
    draft = read_file(path)
    settings = settings_for(path, names)
    found = proof(draft, settings=settings)
    here = [finding for finding in found.findings if draft.position(finding.span.start).line == line]
    chosen = [finding for finding in here if finding.rule == rule]
    file = file_beside(path)
    if not chosen:
        stands = [one.finding for one in found.stood if one.finding.rule == rule]
        if any(draft.position(finding.span.start).line == line for finding in stands):
            raise AgreementError(f"{rule} stands on line {line} already: {file}")
        others = ", ".join(dict.fromkeys(finding.rule for finding in here))
        what = f"what is found there is {others}" if others else "nothing is found there"
        raise AgreementError(f"{path}: {rule} finds nothing on line {line}; {what}")
    surroundings = Surroundings.of(draft, found.pattern)
    entries = tuple(dict.fromkeys(surroundings.stet(finding, " ".join(because.split())) for finding in chosen))
    before = settings_text(file) if file.is_file() else ""
    write_file(file, written(entries, before).rstrip(), replace=True)
    return f"{path}, line {line}: {rule} stands; kept in {file}"
