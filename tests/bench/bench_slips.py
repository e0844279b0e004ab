"""Change every figure of the clean drafts, one at a time, and tell what a proof says of each change.

Run by hand: `python tests/bench/bench_slips.py [--show] [DRAFT...]`. In every round that states a count, each figure of
the instructions and of the stated count (each value of a size list, and number words) becomes 2 or 1 less and 1 or 2
more. The number in a round's heading and in a stitch's name (sc2tog, ch-2) stays. The outcomes:

- reported: a correction or query on that round or one of the two after it that was not there before;
- elsewhere: a new correction or query, but only on another line;
- unread: a round that was worked is now said to be unread;
- right: every round has the counts, worked and stated, the stitches left over or run out of and the number of rounds
  that it had;
- length: the same, but the number of rounds worked is another, or it is one of the figures of a repeat of rounds under
  a heading that says how many these are;
- silent: worked or stated counts (of any kind, spaces as well) or the stitches left over are not what they were, and
  nothing is said. The bad case.

With `--show` each case of the last two is printed: the line before and after, the counts worked before and after. With
`--right` each change that is held to be without effect as well.
"""

from __future__ import annotations

import re
import sys
import tomllib
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from rowcall.lint.draft import Draft, Span
from rowcall.lint.finding import Level
from rowcall.lint.pattern import Round
from rowcall.lint.proof import Proof, proof
from rowcall.lint.workings import RoundWorking, Standing

CORPUS = Path(__file__).parent.parent.parent / "corpus"
OUTCOMES = ("reported", "elsewhere", "unread", "right", "length", "silent")
STEPS = (-2, -1, 1, 2)
NAMES = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]
OFTEN = ["once", "twice", "three times", "four times"]
ENDINGS = {1: "st", 2: "nd", 3: "rd"}

_FIGURE = re.compile(
    rf"(?<![A-Za-z\d])\d+(?:st|nd|rd|th)?(?!\d)|\b(?:{'|'.join([*NAMES, *OFTEN[:2]])})\b", re.IGNORECASE
)
_NAME_BEFORE = re.compile(r"[A-Za-z]-$")  # ch-2
_NAME_AFTER = re.compile(r"-(?:ch|sc|dc|tr|st)")  # 2-ch, 3-dc
_ROUND_WORD = re.compile(r"\b(?:r|rnds?|rounds?|rows?)\s*(?:[\d,-]+\s*(?:and|to|&|-|,)\s*)*$", re.IGNORECASE)
_KINDS_BEFORE = (
    ("rounds meant", _ROUND_WORD),
    ("skipped", re.compile(r"\b(?:sk|skip|miss)\s+(?:the\s+|next\s+|first\s+)*$", re.IGNORECASE)),
    ("first or last n", re.compile(r"\b(?:last|first)\s+$", re.IGNORECASE)),
    ("times", re.compile(r"\)\s*x\s+$|\bx\s+$", re.IGNORECASE)),
    ("chains", re.compile(r"\bch(?:ain of)?\s+$", re.IGNORECASE)),
)
_KINDS_AFTER = (("times", re.compile(r"\s*(?:times|x)\b", re.IGNORECASE)),)


@dataclass(frozen=True, slots=True)
class Place:
    """A figure that can be changed: which round it stands in, where, its number and what kind of figure it is."""

    round: int
    span: Span
    value: int
    kind: str


@dataclass(frozen=True, slots=True)
class Case:
    """One change and what became of it."""

    place: Place
    to: str
    outcome: str
    lines: tuple[str, str]
    counts: tuple[str, str]


@dataclass(frozen=True, slots=True)
class Counts:
    """What is worked and stated in a round, a figure a size, how many rounds that takes, and stitches left or short."""

    worked: tuple[int | None, ...]
    stated: tuple[int | None, ...]
    rounds: tuple[int | None, ...]
    left: tuple[int, ...]
    standing: Standing


def clean_names() -> list[str]:
    """Return the drafts in which nothing is to be corrected."""
    files = sorted(CORPUS.glob("*.toml"))
    return [file.stem for file in files if tomllib.loads(file.read_text("utf-8")).get("clean")]


def number(words: str) -> int:
    """Return the number that a figure, an ordinal or a number word stands for."""
    low = words.lower()
    if low in OFTEN:
        return OFTEN.index(low) + 1
    return NAMES.index(low) + 1 if low in NAMES else int(re.sub(r"\D", "", low))


def written(value: int, like: str) -> str:
    """Write a number as another one is written."""
    low = like.lower()
    if low in OFTEN:
        return OFTEN[value - 1]
    if low in NAMES:
        return NAMES[value - 1] if value <= len(NAMES) else str(value)
    if low[-1].isalpha():
        return f"{value}{'th' if value % 100 in (11, 12, 13) else ENDINGS.get(value % 10, 'th')}"
    return str(value)


def kind_of(seen: Proof, round_: Round, span: Span) -> str:
    """Tell what kind of figure stands at a span; the values of a list are what the list is."""
    if any(claim.span.start <= span.start < claim.span.end for claim in round_.claims):
        inside = (claim.figure.span for claim in round_.claims)
        return "stated count" if any(one.start <= span.start < one.end for one in inside) else "in the count's words"
    whole = next((one.span for one in seen.pattern.lists if one.span.start <= span.start < one.span.end), span)
    before = seen.draft.text[round_.span.start : whole.start].rstrip("([")
    after = seen.draft.text[whole.end : round_.span.end].lstrip(")]")
    low = seen.draft.words(span).lower()
    if low in OFTEN:
        return "times"
    for kind, form in _KINDS_AFTER:
        if form.match(after):
            return kind
    for kind, form in _KINDS_BEFORE:
        if form.search(before):
            return kind
    if low[0].isdigit() and low[-1].isalpha():
        return "nth"
    if re.match(r"\s*ch\b", after, re.IGNORECASE):
        return "chains"
    return "stitches"


def places(seen: Proof) -> Iterator[Place]:
    """Find each figure that can be changed in the rounds that state a count."""
    text = seen.draft.text
    for index, round_ in enumerate(seen.pattern.rounds):
        if not round_.claims:
            continue
        numbered = round_.first is not None or not _instructs(round_)
        start = round_.heading.end if numbered else round_.span.start
        end = max(round_.span.end, *(claim.span.end for claim in round_.claims))
        for match in _FIGURE.finditer(text, start, end):
            if _NAME_BEFORE.search(text[: match.start()]) or _NAME_AFTER.match(text[match.end() :]):
                continue
            span = Span(match.start(), match.end())
            yield Place(index, span, number(match[0]), kind_of(seen, round_, span))


def _instructs(round_: Round) -> bool:
    """Tell whether the words of the heading are the instruction itself (`Rep last rnd 4 times`)."""
    spans = [step.span for step in round_.steps] + ([round_.directive.span] if round_.directive else [])
    return any(span.start < round_.heading.end for span in spans)


def counts(working: RoundWorking) -> Counts:
    """Return what a round comes to."""
    return Counts(
        tuple(size.count if size else None for size in working.sizes),
        tuple(size.stated if size else None for size in working.sizes),
        tuple(size.rounds if size else None for size in working.sizes),
        tuple(size.left - size.short if size else 0 for size in working.sizes),
        working.standing,
    )


def outcome(before: Proof, after: Proof, place: Place, grown: int) -> str:
    """Sort what became of a change that made the text `grown` characters longer."""
    rounds = before.pattern.rounds
    start = rounds[place.round].span.start
    last = rounds[min(place.round + 2, len(rounds) - 1)]
    end = max(last.span.end, *(claim.span.end for claim in last.claims), 0) + grown
    known = Counter((one.rule, one.message) for one in before.findings if one.level > Level.STYLE)
    new = [one for one in after.findings if one.level > Level.STYLE and not known[one.rule, one.message]]
    if any(start <= one.span.start < end for one in new):
        return "reported"
    if new:
        return "elsewhere"
    was = [counts(one) for one in before.workings.rounds]
    now = [counts(one) for one in after.workings.rounds]
    if sum(one.standing is Standing.UNREAD for one in now) > sum(one.standing is Standing.UNREAD for one in was):
        return "unread"
    if now == was:
        return (
            "silent"
            if place.kind == "stated count"
            else "length"
            if _tells_length(rounds[place.round], place)
            else "right"
        )
    same = [replace(one, rounds=()) for one in was] == [replace(one, rounds=()) for one in now]
    return "length" if same else "silent"


def _tells_length(round_: Round, place: Place) -> bool:
    """Tell whether a figure of a repeat of rounds must go with the number of rounds in its heading."""
    several = bool(round_.first and round_.last and round_.first.values != round_.last.values)
    inside = (
        round_.directive is not None and round_.directive.span.start <= place.span.start < round_.directive.span.end
    )
    return several and inside


def told(seen: Proof, first: int) -> str:
    """Write the counts of a round and of the two after it: worked, stated, and rounds where more than one."""
    lines: list[str] = []
    for working in seen.workings.rounds[first : first + 3]:
        one = counts(working)
        label = seen.pattern.rounds[working.index].label
        lines.append(f"{label}: {_list(one.worked)} stated {_list(one.stated)} in {_list(one.rounds)}")
    return " | ".join(lines)


def _list(values: Sequence[int | None]) -> str:
    return "/".join("-" if value is None else str(value) for value in values)


def line_at(text: str, offset: int) -> str:
    """Return the line of an offset."""
    end = text.find("\n", offset)
    return text[text.rfind("\n", 0, offset) + 1 : end if end >= 0 else len(text)]


def cases(name: str) -> Iterator[Case]:
    """Change each figure of a draft in turn."""
    text = (CORPUS / f"{name}.txt").read_text("utf-8")
    before = proof(Draft.of(text, f"{name}.txt"))
    for place in places(before):
        like = text[place.span.start : place.span.end]
        for step in STEPS:
            value = place.value + step
            if value < 1 or (like.lower() in OFTEN and value > len(OFTEN)):
                continue
            to = written(value, like)
            changed = text[: place.span.start] + to + text[place.span.end :]
            after = proof(Draft.of(changed, f"{name}.txt"))
            yield Case(
                place,
                to,
                outcome(before, after, place, len(changed) - len(text)),
                (line_at(text, place.span.start), line_at(changed, place.span.start)),
                (told(before, place.round), told(after, place.round)),
            )


def table(title: str, found: Sequence[Case]) -> str:
    """Return a table of outcomes by kind of figure."""
    kinds = sorted({case.place.kind for case in found})
    tally = Counter((case.place.kind, case.outcome) for case in found)
    rows = [f"{title:<26}{'changes':>9}" + "".join(f"{one:>11}" for one in OUTCOMES)]
    for kind in [*kinds, "in all"]:
        each = [sum(tally[k, one] for k in (kinds if kind == "in all" else [kind])) for one in OUTCOMES]
        rows.append(f"  {kind:<24}{sum(each):>9}" + "".join(f"{n or '':>11}" for n in each))
    return "\n".join(rows) + "\n\n"


def shown(name: str, case: Case) -> str:
    """Write one case in full."""
    return (
        f"{case.outcome.upper()} {name}: {case.place.kind}, {case.place.value} becomes {case.to}\n"
        f"  - {case.lines[0]}\n  + {case.lines[1]}\n  was {case.counts[0]}\n  now {case.counts[1]}\n"
    )


def main() -> None:
    """Print a table a draft and one for all, and with `--show` each case that is silent."""
    named = [word for word in sys.argv[1:] if not word.startswith("--")]
    everything: list[Case] = []
    for name in named or clean_names():
        found = list(cases(name))
        everything += found
        sys.stdout.write(table(name, found))
        wanted = [
            *(["length", "silent"] if "--show" in sys.argv else []),
            *(["right"] if "--right" in sys.argv else []),
        ]
        sys.stdout.writelines(shown(name, case) for case in found if case.outcome in wanted)
        sys.stdout.flush()
    sys.stdout.write(table("all drafts", everything))


if __name__ == "__main__":
    main()
