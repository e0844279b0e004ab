"""The rulebook: the page of a rule, and all rules, a line each, by family."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from ..rules.rule import Flags, Passes, Rule
from .words import Excerpt, folded, marks, safe, sentence

OPENING, CLOSING = "⟦", "⟧"

_SILENT = "Says nothing here"
_INDENT = "  "
_SET_IN = " " * 6
_LEAST = 20  # columns that the words of a rule need beside its name


def rule_list(rules: Sequence[Rule], width: int = 80) -> str:
    """Return all rules by family: name, level and what each finds."""
    name = max((len(rule.name) for rule in rules), default=0)
    lines: list[str] = []
    for family, members in groupby(rules, key=lambda rule: rule.family):
        lines += ["", family.capitalize()]
        for rule in members:
            lead = f"{_INDENT}{rule.name:<{name}}  {rule.level.word:<10}  "
            if len(lead) > width - _LEAST:
                lines.append(lead.rstrip())
                lead = _SET_IN
            lines += folded(sentence(rule.finds), width, lead, _SET_IN)
    lines += ["", *folded("rowcall rulebook RULE shows the page of a rule, with examples.", width)]
    return "\n".join(lines[1:])


def rule_page(rule: Rule, width: int = 80) -> str:
    """Return the page of a rule; what it points at in the examples is underlined with =."""
    lines = [f"{rule.name}: {rule.level.word}, of the family {rule.family}"]
    for heading, body in _page(rule):
        lines += ["", heading, *folded(sentence(body), width, _INDENT)]
    lines += _examples("Points at the words underlined", rule, Flags, width)
    lines += _examples(_SILENT, rule, Passes, width)
    return "\n".join(lines)


def rulebook_markdown(rules: Sequence[Rule]) -> str:
    """Return the pages of rules as one Markdown document; the words that an example is about are in double brackets."""
    lines = ["# Rulebook"]
    for family, members in groupby(rules, key=lambda rule: rule.family):
        lines += ["", f"## {family.capitalize()}"]
        for rule in members:
            lines += _markdown_page(rule)
    return "\n".join(lines)


def _markdown_page(rule: Rule) -> Iterator[str]:
    yield from ("", f"### {rule.name}", "", f"Level: {rule.level.word}")
    for heading, body in _page(rule):
        yield from ("", f"**{heading}.** {sentence(body)}")
    kinds: tuple[tuple[str, type[Flags | Passes]], ...] = (
        ("Points at the words in double brackets", Flags),
        (_SILENT, Passes),
    )
    for heading, kind in kinds:
        examples = [example for example in rule.examples if type(example) is kind]
        for number, example in enumerate(examples):
            if number == 0:
                yield from ("", f"{heading}:")
            text = example.text.strip("\n").replace(OPENING, "[[").replace(CLOSING, "]]")
            yield from ("", "```", *(safe(line) for line in text.split("\n")), "```")


def _page(rule: Rule) -> tuple[tuple[str, str], ...]:
    """Return the headings of a rule's page and what stands below them."""
    return (
        ("What it finds", rule.finds),
        ("Why it matters", rule.why),
        ("Where it stays silent", rule.limits),
        ("Where this comes from", rule.source),
    )


def _examples(heading: str, rule: Rule, kind: type[Flags | Passes], width: int) -> Iterator[str]:
    examples = [example for example in rule.examples if isinstance(example, kind)]
    for number, example in enumerate(examples):
        if number == 0:
            yield from ("", heading)
        else:
            yield ""
        running = False
        for line in example.text.strip("\n").splitlines():
            parts = folded(safe(line), width - len(_INDENT) + line.count(OPENING) + line.count(CLOSING))
            for part in parts:
                text, spots, running = _marked(part, running)
                yield (_INDENT + text).rstrip()
                if spots:
                    yield _INDENT + spots


def _marked(line: str, running: bool) -> tuple[str, str, bool]:
    """Return a line without its signs, the line of marks below it, and whether one is still open after it."""
    text, spots, start = "", "", 0
    for character in line:
        if character == OPENING:
            running, start = True, len(text)
        elif character == CLOSING:
            spots += marks(Excerpt(text, start, len(text)))[len(spots) :]
            running = False
        else:
            text += character
    if running and text:
        spots += marks(Excerpt(text, start, len(text)))[len(spots) :]
    return text, spots, running
