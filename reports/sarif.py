"""The SARIF report (version 2.1.0, an OASIS standard): findings for programs that gather those of many tools.

A fingerprint is made of the rule, the words pointed at and the round or line around them, so that edits elsewhere in
the draft leave it as it was.
"""

from __future__ import annotations

import hashlib
import json
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import asdict
from importlib import metadata
from pathlib import Path
from urllib.parse import quote

from ..lint.draft import Draft, Span
from ..lint.finding import Change, Finding, Level
from ..lint.proof import Proof
from ..lint.stet import Surroundings
from ..rules.book import all_rules
from ..rules.rule import Rule
from .words import one_line, place_of, safe, sentence

Json = dict[str, object]

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
FINGERPRINT = "rowcallWords/v1"
_LEVELS = {Level.CORRECTION: "error", Level.QUERY: "warning", Level.STYLE: "note"}


def sarif(proofs: Sequence[Proof]) -> str:
    """Return the log of all proofs; plain ASCII, so that no terminal or encoding can spoil it."""
    return json.dumps(log(proofs), indent=2)


def log(proofs: Sequence[Proof]) -> Json:
    """Return the log as plain dicts and lists: one run, an artifact a draft, a result a finding."""
    rules = all_rules()
    indices = {rule.name: index for index, rule in enumerate(rules)}
    run: Json = {
        "tool": {
            "driver": {
                "name": "Rowcall",
                "version": metadata.version("rowcall"),
                "rules": [_rule(rule) for rule in rules],
            }
        },
        "columnKind": "unicodeCodePoints",
        "artifacts": [_artifact(proof) for proof in proofs],
        "results": [result for proof in proofs for result in _results(proof, indices)],
    }
    return {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}


def _rule(rule: Rule) -> Json:
    finds, why, limits, source = map(sentence, (rule.finds, rule.why, rule.limits, rule.source))
    return {
        "id": rule.name,
        "shortDescription": {"text": finds},
        "fullDescription": {"text": f"{finds} {why}"},
        "help": {"text": f"Why it matters: {why}\nWhere it stays silent: {limits}\nSource: {source}"},
        "defaultConfiguration": {"level": _LEVELS[rule.level]},
        "properties": {"tags": [rule.family]},
    }


def _artifact(proof: Proof) -> Json:
    return {
        "location": _location(proof.draft),
        "properties": {"tally": asdict(proof.tally), "sizes": list(proof.pattern.sizes.names)},
    }


def _location(draft: Draft) -> Json:
    """Return where a draft is: relative to the folder of the call where it was given so, with `/` between folders."""
    path = Path(draft.path)
    return {"uri": path.as_uri() if path.is_absolute() else quote(path.as_posix())}


def _results(proof: Proof, indices: dict[str, int]) -> Iterator[Json]:
    """Give the findings, and after them those that may stand, which are suppressed."""
    marked = _fingerprints(proof, (*proof.findings, *(one.finding for one in proof.stood)))
    for finding in proof.findings:
        yield _result(proof, finding, indices, next(marked))
    for one in proof.stood:
        result = _result(proof, one.finding, indices, next(marked))
        yield {**result, "suppressions": [{"kind": "external", "justification": one.because}]}


def _result(proof: Proof, finding: Finding, indices: dict[str, int], fingerprint: str) -> Json:
    names = proof.pattern.sizes.names
    draft = proof.draft
    result: Json = {"ruleId": finding.rule}
    if finding.rule in indices:
        result["ruleIndex"] = indices[finding.rule]
    result |= {
        "level": _LEVELS[finding.level],
        "message": {"text": "\n".join((one_line(finding.message), *map(safe, finding.sum)))},
        "locations": [{"physicalLocation": _place(draft, finding.span)}],
        "partialFingerprints": {FINGERPRINT: fingerprint},
    }
    if finding.asides:
        result["relatedLocations"] = [
            {"id": number, "physicalLocation": _place(draft, aside.span), "message": {"text": one_line(aside.label)}}
            for number, aside in enumerate(finding.asides)
        ]
    if finding.change:
        result["fixes"] = [_fix(draft, finding.change)]
    if finding.sizes:
        result["properties"] = {"sizes": [names[size] for size in finding.sizes if size < len(names)]}
    return result


def _place(draft: Draft, span: Span) -> Json:
    return {
        "artifactLocation": _location(draft),
        "region": {**_region(draft, span), "snippet": {"text": draft.words(span)}},
    }


def _region(draft: Draft, span: Span) -> Json:
    """Return a stretch in lines and columns from 1; its end is the column after the last character."""
    place = place_of(draft, span)
    return {
        "startLine": place.line,
        "startColumn": place.column,
        "endLine": place.end_line,
        "endColumn": place.end_column,
    }


def _fix(draft: Draft, change: Change) -> Json:
    replacement = {"deletedRegion": _region(draft, change.span), "insertedContent": {"text": change.to}}
    return {
        "description": {"text": "a change that makes it agree"},
        "artifactChanges": [{"artifactLocation": _location(draft), "replacements": [replacement]}],
    }


def _fingerprints(proof: Proof, findings: Sequence[Finding]) -> Iterator[str]:
    """Give a mark for each finding that only its own words change; equal ones are told apart by their order."""
    surroundings = Surroundings.of(proof.draft, proof.pattern)
    seen: Counter[tuple[str, str, str, int]] = Counter()
    for finding in findings:
        own = surroundings.stet(finding, "")
        words = (own.rule, own.words, own.within, own.nth)
        seen[words] += 1
        yield hashlib.sha256(json.dumps((*words, seen[words])).encode()).hexdigest()[:32]
