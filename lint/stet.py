"""Findings that may stand: what an editor and a designer have agreed to leave, kept in a file beside the draft.

An entry is tied to words, not to a line number: to the words that a finding points at and to the round, or else the
line, in which they stand. Edits elsewhere leave it in force; when those words change it has lapsed.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from .checked import CheckedFile, is_table
from .draft import Draft, Span
from .finding import Finding
from .pattern import Pattern

_HEAD = """\
# Findings that were looked at and may stand, as they were agreed with the designer.
# Written by `rowcall stet`; an entry holds as long as the words in it stand in the draft.
"""


@dataclass(frozen=True, slots=True)
class Stet:
    """One finding that may stand.

    `words` are those that the finding points at, `within` the whole round or line, both on one line. `nth`
    tells which one is meant where several rounds or lines read alike.
    """

    rule: str
    words: str
    within: str
    because: str
    nth: int = 1


@dataclass(frozen=True, slots=True)
class Stood:
    """A finding that stands, and why."""

    finding: Finding
    because: str


@dataclass(frozen=True, slots=True)
class Surroundings:
    """The rounds and lines of a draft by their words, each with where those words stand."""

    places: Mapping[str, tuple[Span, ...]]
    draft: Draft
    pattern: Pattern

    @classmethod
    def of(cls, draft: Draft, pattern: Pattern) -> Surroundings:
        """Look over a draft."""
        places: dict[str, list[Span]] = {}
        lines = (draft.line_span(index) for index in range(len(draft.starts)))
        for span in sorted({*lines, *(round_.span for round_ in pattern.rounds)}):
            if words := _words(draft, span):
                places.setdefault(words, []).append(span)
        return cls({words: tuple(spans) for words, spans in places.items()}, draft, pattern)

    def around(self, span: Span) -> Span:
        """Return the round in which a stretch stands, or else its line."""
        for round_ in self.pattern.rounds:
            if round_.span.start <= span.start and span.end <= round_.span.end:
                return round_.span
        line = self.draft.line_span(bisect_right(self.draft.starts, span.start) - 1)
        return line if _words(self.draft, line) else span

    def stet(self, finding: Finding, because: str) -> Stet:
        """Return the entry that lets a finding stand."""
        within = self.around(finding.span)
        words = _words(self.draft, within)
        alike = self.places.get(words, ())
        nth = alike.index(within) + 1 if within in alike else 1
        return Stet(finding.rule, _words(self.draft, finding.span) or words, words, because, nth)

    def place(self, stet: Stet) -> Span | None:
        """Return where the words of an entry stand, None where they stand nowhere any more."""
        alike = self.places.get(stet.within, ())
        return alike[stet.nth - 1] if stet.nth <= len(alike) else None

    def most_like(self, stet: Stet) -> Span | None:
        """Return the round or line that reads most like an entry whose words have changed."""
        from rapidfuzz import fuzz, process  # noqa: PLC0415 - needed only for an entry that has lapsed

        found = process.extractOne(stet.within, list(self.places), scorer=fuzz.ratio, score_cutoff=60)
        return self.places[found[0]][0] if found else None


def let_stand(
    findings: Sequence[Finding], stets: Sequence[Stet], surroundings: Surroundings
) -> tuple[list[Finding], list[Stood]]:
    """Part findings into those to be told and those that stand."""
    reasons = {(one.rule, one.words, one.within, one.nth): one.because for one in stets}
    told: list[Finding] = []
    stood: list[Stood] = []
    for finding in findings:
        own = surroundings.stet(finding, "")
        because = reasons.get((own.rule, own.words, own.within, own.nth))
        if because is None:
            told.append(finding)
        else:
            stood.append(Stood(finding, because))
    return told, stood


def read_stets(text: str, path: str, rules: Collection[str]) -> tuple[Stet, ...]:
    """Read the entries of a file; `rules` are the names of all rules.

    Raises `SettingsError` with every mistake in it: an unknown key or rule, an entry without words or reason.
    """
    file = CheckedFile(text, path)
    file.known((), file.values, ("stet",))
    entries = tuple(_entries(file, rules))
    file.finish()
    return entries


def _entries(file: CheckedFile, rules: Collection[str]) -> Iterator[Stet]:
    listed = file.values.get("stet", [])
    if not isinstance(listed, list):
        file.trouble(("stet",), 'entries are headed "[[stet]]"')
        return
    entries: list[object] = listed  # pyright: ignore[reportUnknownVariableType]
    for index, entry in enumerate(entries):
        keys = ("stet", index)
        if not is_table(entry):
            file.trouble(keys, 'entries are headed "[[stet]]"')
            continue
        file.known(keys, entry, ("rule", "words", "within", "because", "nth"))
        rule = file.word((*keys, "rule"), entry.get("rule"))
        if rule and rule not in rules:
            file.no_such("rule", (*keys, "rule"), rule, rules)
        words = file.word((*keys, "words"), entry.get("words"))
        within = file.word((*keys, "within"), entry.get("within"))
        because = file.word((*keys, "because"), entry.get("because"))
        nth = file.number((*keys, "nth"), entry.get("nth"), 1)
        missing = [key for key in ("rule", "words", "within", "because") if key not in entry]
        for key in missing:
            reason = "; no reason, no stet" if key == "because" else ""
            file.trouble(keys, f'this entry has no "{key}"{reason}')
        if rule and words and within and because:
            yield Stet(rule, words, within, because, nth)


def written(stets: Sequence[Stet], before: str) -> str:
    """Return the text of a file with some entries added after what stands in it."""
    import tomli_w  # noqa: PLC0415 - needed only where an entry is written

    entries = [
        {
            "rule": one.rule,
            "words": one.words,
            "within": one.within,
            **({"nth": one.nth} if one.nth > 1 else {}),
            "because": one.because,
        }
        for one in stets
    ]
    added = "\n".join("[[stet]]\n" + tomli_w.dumps(entry) for entry in entries)
    return f"{before.rstrip() or _HEAD.rstrip()}\n\n{added}"


def _words(draft: Draft, span: Span) -> str:
    return " ".join(draft.words(span).split())
