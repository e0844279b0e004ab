"""Damage done to drafts at random, and what counts as a round whose words were destroyed.

Each damage replaces one stretch of the text by another, so it can be told which lines were touched and how.

A round's words of instruction are the runs of letters and digits with two letters or more that stand in the spans of
its steps or of the directive that stands for them, but for its heading, its stated counts and its remarks in prose. A
word is destroyed where it was garbled (all its letters replaced), or where a cut inside the round began or ended in the
middle of words of instruction, and what now stands there is a non-word: in no trade table, nowhere in the undamaged
draft, not made of such words run together, and more than one letter (added, dropped, changed, or two swapped) away
from each of them, so that no mending of it is evident. (`arod` is destroyed; `aroun`, `firs16`, `froaround` are not.)
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources
from pathlib import Path
from random import Random

from rapidfuzz.distance import OSA
from rowcall.lint.draft import Draft, Span
from rowcall.lint.finding import Level
from rowcall.lint.pattern import Round
from rowcall.lint.proof import Proof, proof
from rowcall.lint.reading.numbers import cardinal, ordinal, times_word
from rowcall.lint.steps import Remark, Repeat, Step, Together
from rowcall.lint.trade.tables import CRAFTS, TERMS, abbreviations, spellings
from rowcall.lint.workings import RoundWorking, Standing

CORPUS = Path(__file__).parent.parent / "corpus"
GARBLED = "garbled word"
CUT = "cut"
BRACKETS = "()[]{}"
# letters that make no word among themselves and stand for no digit
LETTERS = "bcdfghjkmnpqrvwz"
ODD = (
    "\x00\x07\x08\x1b\x7f\x85\xad\u200b\u200e\u202e\u2028\ufeff\ufffd"
    "\u0301\u00df\u0130\u0660\u00bd\u2460\u4e00\U0001f9f6\U0010ffff"
)

_RUN = re.compile(r"[^\W_]+")


@dataclass(frozen=True, slots=True)
class Damage:
    """A damaged text: the stretch `was` of the undamaged one became `now`, both in offsets of their own text."""

    text: str
    how: str
    was: Span
    now: Span

    @property
    def lines(self) -> tuple[int, ...]:
        """The lines touched, from 1, as they stand in the damaged text."""
        first = self.text.count("\n", 0, self.now.start) + 1
        return tuple(range(first, first + self.text.count("\n", self.now.start, self.now.end) + 1))


@dataclass(frozen=True, slots=True)
class Destroyed:
    """A word of instruction that was destroyed: its round in the undamaged draft, its step, what stands there now."""

    round: int
    step: str
    word: str
    now: str


@dataclass(frozen=True, slots=True)
class Fate:
    """What a proof makes of a round whose words were destroyed.

    `verdict` is "unread", "vanished" (no such round any more) or "worked"; `said` tells whether a correction or query
    points at the round, `same` whether its counts are those of the undamaged draft.
    """

    verdict: str
    said: bool = False
    same: bool = False


def replaced(text: str, how: str, was: Span, by: str) -> Damage:
    """Put other words in the place of a stretch."""
    return Damage(text[: was.start] + by + text[was.end :], how, was, Span(was.start, was.start + len(by)))


def _stretch(text: str, rng: Random, longest: int) -> Span:
    start = rng.randrange(len(text))
    return Span(start, min(len(text), start + rng.randint(1, longest)))


def cut(text: str, rng: Random) -> Damage:
    """Cut a stretch out, mostly a short one."""
    return replaced(text, CUT, _stretch(text, rng, rng.choice((3, 8, 30, 300))), "")


def doubled(text: str, rng: Random) -> Damage:
    """Write a stretch twice."""
    span = _stretch(text, rng, rng.choice((3, 8, 30, 300)))
    return replaced(text, "doubled", span, text[span.start : span.end] * 2)


def swapped(text: str, rng: Random) -> Damage:
    """Swap two characters that stand side by side."""
    start = rng.randrange(len(text) - 1)
    return replaced(text, "swapped", Span(start, start + 2), text[start + 1] + text[start])


def _line(text: str, rng: Random) -> Span:
    """Return a line with its line end."""
    at = rng.randrange(len(text))
    end = text.find("\n", at)
    return Span(text.rfind("\n", 0, at) + 1, end + 1 if end >= 0 else len(text))


def line_dropped(text: str, rng: Random) -> Damage:
    """Drop a line."""
    return replaced(text, "line dropped", _line(text, rng), "")


def line_doubled(text: str, rng: Random) -> Damage:
    """Write a line twice."""
    span = _line(text, rng)
    return replaced(text, "line doubled", span, text[span.start : span.end] * 2)


def lines_swapped(text: str, rng: Random) -> Damage:
    """Swap a line and the one after it."""
    one = _line(text, rng)
    end = text.find("\n", one.end)
    both = Span(one.start, end + 1 if end >= 0 else len(text))
    return replaced(text, "lines swapped", both, text[one.end : both.end] + text[one.start : one.end])


def _one_of(text: str, signs: str, rng: Random) -> int | None:
    places = [index for index, char in enumerate(text) if char in signs]
    return rng.choice(places) if places else None


def bracket_dropped(text: str, rng: Random) -> Damage:
    """Drop a bracket."""
    at = _one_of(text, BRACKETS, rng)
    span = Span(0, 0) if at is None else Span(at, at + 1)
    return replaced(text, "bracket dropped", span, "")


def bracket_added(text: str, rng: Random) -> Damage:
    """Put brackets where none were, one or many."""
    at = rng.randrange(len(text))
    return replaced(text, "bracket added", Span(at, at), rng.choice(BRACKETS) * rng.choice((1, 1, 1, 2, 40)))


def bracket_turned(text: str, rng: Random) -> Damage:
    """Turn a bracket round, or make another kind of it."""
    at = _one_of(text, BRACKETS, rng)
    if at is None:
        return bracket_added(text, rng)
    return replaced(text, "bracket turned", Span(at, at + 1), rng.choice(BRACKETS.replace(text[at], "")))


def digits_changed(text: str, rng: Random) -> Damage:
    """Change a number, now and then to a huge one."""
    runs = [match.span() for match in re.finditer(r"\d+", text)]
    if not runs:
        return cut(text, rng)
    to = rng.choice((str(rng.randrange(10)), str(rng.randrange(1000)), "9" * rng.randint(1, 30)))
    return replaced(text, "digits changed", Span(*rng.choice(runs)), to)


def star_dropped(text: str, rng: Random) -> Damage:
    """Drop a star."""
    at = _one_of(text, "*", rng)
    return cut(text, rng) if at is None else replaced(text, "star dropped", Span(at, at + 1), "")


def odd_put_in(text: str, rng: Random) -> Damage:
    """Put in control characters, marks, letters and figures of other scripts."""
    at = rng.randrange(len(text))
    many = rng.choice((1, 1, 3, 50))
    by = "".join(rng.choice((rng.choice(ODD), chr(rng.randrange(0xD800)))) for _ in range(many))
    return replaced(text, "odd characters", Span(at, at), by)


def word_garbled(text: str, rng: Random) -> Damage:
    """Garble any word of the text."""
    spans = [span for span in runs(text) if _letters(text[span.start : span.end]) > 1]
    return garbled(text, rng.choice(spans), rng) if spans else cut(text, rng)


def garbled(text: str, word: Span, rng: Random) -> Damage:
    """Replace the letters of a word by others that make a non-word."""
    old = text[word.start : word.end]
    known = known_words(text)
    new = old
    while new == old or not is_non_word(new, known):
        new = "".join(rng.choice(LETTERS) if char.isalpha() else char for char in old)
    return replaced(text, GARBLED, word, new)


def instruction_garbled(seen: Proof, rng: Random) -> Damage:
    """Garble a word of instruction of a round that was worked."""
    return garbled(seen.draft.text, rng.choice(worked_words(seen)), rng)


def instruction_cut(seen: Proof, rng: Random) -> Damage:
    """Cut from the middle of a word of instruction on, a few characters or to the middle of a later word."""
    word = rng.choice(worked_words(seen))
    start = rng.randrange(word.start + 1, word.end)
    return replaced(seen.draft.text, CUT, Span(start, start + rng.randint(1, rng.choice((3, 20)))), "")


DAMAGES: tuple[Callable[[str, Random], Damage], ...] = (
    cut,
    doubled,
    swapped,
    line_dropped,
    line_doubled,
    lines_swapped,
    bracket_dropped,
    bracket_added,
    bracket_turned,
    digits_changed,
    star_dropped,
    odd_put_in,
    word_garbled,
)


# ---------------------------------------------------------------- words known and destroyed


def runs(text: str, within: Span | None = None) -> Iterator[Span]:
    """Find the runs of letters and digits, of the whole text or of a stretch."""
    start, end = (0, len(text)) if within is None else (within.start, within.end)
    return (Span(*match.span()) for match in _RUN.finditer(text, start, end))


def _letters(word: str) -> int:
    return sum(char.isalpha() for char in word)


def _bare(word: str) -> str:
    """Return a word in small letters, without a number before it (`2sc`)."""
    return word.lower().lstrip("0123456789")


@cache
def _trade_words() -> frozenset[str]:
    table = tomllib.loads(resources.files("rowcall.lint.trade").joinpath("words.toml").read_text("utf-8"))
    phrases: list[str] = [phrase for label in table.values() for phrase in label]
    for craft in CRAFTS:
        for terms in TERMS:
            phrases += spellings(craft, terms)
        for one in abbreviations(craft):
            phrases += (one.term, *one.variants)
    return frozenset(_bare(match[0]) for phrase in phrases for match in _RUN.finditer(phrase)) - {""}


@cache
def known_words(text: str) -> frozenset[str]:
    """Return the words of the trade and those of a draft, of two letters or more."""
    own = (_bare(text[span.start : span.end]) for span in runs(text))
    return frozenset(word for word in (*_trade_words(), *own) if len(word) > 1)


def _is_number(word: str) -> bool:
    return any(value is not None for value in (cardinal(word), ordinal(word), times_word(word)))


def _is_run_together(word: str, known: frozenset[str]) -> bool:
    """Tell whether a word is made of known words and numbers without blanks."""
    reached = {0}
    for start in range(len(word)):
        if start in reached:
            reached |= {
                end for end in range(start + 1, len(word) + 1) if word[start:end] in known or word[start:end].isdigit()
            }
    return len(word) in reached


def is_non_word(word: str, known: frozenset[str]) -> bool:
    """Tell whether a run of letters and digits is no word, and none in which a letter is missing or wrong."""
    bare = _bare(word)
    if not _letters(bare) or _is_number(bare) or _is_run_together(bare, known) or _is_near(bare, known):
        return False
    long = frozenset(one for one in known if len(one) > 3)
    parts = (
        bare[start:end]
        for start in range(len(bare))
        for end in range(start + 3, len(bare) + 1)
        if _is_run_together(bare[:start], known) and _is_run_together(bare[end:], known)
    )
    return not any(_is_near(part, long) for part in parts)


def _is_near(word: str, known: frozenset[str]) -> bool:
    """Tell whether one letter makes a word of it."""
    return any(OSA.distance(word, other, score_cutoff=1) < 2 for other in known)


def _leaves(steps: Sequence[Step]) -> Iterator[Step]:
    for step in steps:
        yield step
        if isinstance(step, (Repeat, Together)):
            yield from _leaves(step.steps)


def instruction_words(seen: Proof, index: int) -> dict[Span, str]:
    """Return the words of instruction of a round, each with the kind of the innermost step it stands in."""
    round_ = seen.pattern.rounds[index]
    parts = [(step.span, type(step).__name__) for step in _leaves(round_.steps)]
    if round_.directive is not None:
        parts.append((round_.directive.span, type(round_.directive).__name__))
    apart = [claim.span for claim in round_.claims]
    apart += [step.span for step in _leaves(round_.steps) if isinstance(step, Remark)]
    if all(part.start >= round_.heading.end for part, _ in parts):
        apart.append(round_.heading)
    words: dict[Span, str] = {}
    for run in runs(seen.draft.text, whole(round_)):
        if _letters(seen.draft.words(run)) < 2 or any(_meet(run, one) for one in apart):
            continue
        around = [(part.end - part.start, name) for part, name in parts if part.start <= run.start < part.end]
        if around:
            words[run] = min(around)[1]
    return words


def worked_words(seen: Proof) -> tuple[Span, ...]:
    """Return the words of instruction of all rounds that were worked."""
    worked = (one.index for one in seen.workings.rounds if one.standing is not Standing.UNREAD)
    return tuple(word for index in worked for word in instruction_words(seen, index))


def _meet(one: Span, other: Span) -> bool:
    return one.start < other.end and other.start < one.end


def whole(round_: Round) -> Span:
    """Return the span of a round with its stated counts."""
    span = round_.span
    for claim in round_.claims:
        span = span.cover(claim.span)
    return span


def destroyed(seen: Proof, damage: Damage) -> Destroyed | None:
    """Return the word of instruction that a damage has destroyed, in a round that was worked before; see above."""
    if damage.how not in (CUT, GARBLED):
        return None
    for working in seen.workings.rounds:
        span = whole(seen.pattern.rounds[working.index])
        if span.start <= damage.was.start and damage.was.end <= span.end and working.standing is not Standing.UNREAD:
            return _destroyed_in(seen, damage, working.index)
    return None


def _destroyed_in(seen: Proof, damage: Damage, index: int) -> Destroyed | None:
    words = instruction_words(seen, index)
    if damage.how == GARBLED:
        broken = [word for word in words if word == damage.was]
    else:
        round_ = seen.pattern.rounds[index]
        if any(_meet(damage.was, claim.span) for claim in round_.claims) or "\n" in seen.draft.words(damage.was):
            return None
        broken = [
            run
            for run in runs(seen.draft.text, whole(round_))
            if run.start < damage.was.start < run.end or run.start < damage.was.end < run.end
        ]
        if not broken or not all(word in words for word in broken):
            return None
    now = next((run for run in runs(damage.text) if run.start <= damage.now.start <= run.end), None)
    if not broken or now is None:
        return None
    new = damage.text[now.start : now.end]
    if not is_non_word(new, known_words(seen.draft.text)):
        return None
    return Destroyed(index, words[broken[0]], "|".join(seen.draft.words(word) for word in broken), new)


# ---------------------------------------------------------------- what becomes of it


def _counts(working: RoundWorking) -> tuple[int | None, ...]:
    return tuple(size.count if size else None for size in working.sizes)


def fate(before: Proof, after: Proof, lost: Destroyed) -> Fate:
    """Tell what became of the round whose word was destroyed; its heading stands where it stood."""
    start = before.pattern.rounds[lost.round].heading.start
    working = next(
        (one for one in after.workings.rounds if after.pattern.rounds[one.index].heading.start == start), None
    )
    if working is None:
        return Fate("vanished")
    if working.standing is Standing.UNREAD:
        return Fate("unread", said=True)
    span = whole(after.pattern.rounds[working.index])
    said = any(_meet(one.span, span) for one in after.findings if one.level > Level.STYLE)
    return Fate("worked", said, _counts(working) == _counts(before.workings.rounds[lost.round]))


def proofed(text: str) -> Proof:
    """Proof a text."""
    return proof(Draft.of(text))


@cache
def undamaged(name: str) -> Proof:
    """Return the proof of a draft of the corpus."""
    return proof(Draft.of((CORPUS / f"{name}.txt").read_text("utf-8"), f"{name}.txt"))


def names() -> list[str]:
    """Return the names of all drafts of the corpus."""
    return sorted(file.stem for file in CORPUS.glob("*.txt"))


def opening(name: str, rounds: int) -> str:
    """Return a draft up to the end of its first few rounds."""
    seen = undamaged(name)
    end = whole(seen.pattern.rounds[min(rounds, len(seen.pattern.rounds)) - 1]).end
    line_end = seen.draft.text.find("\n", end)
    return seen.draft.text[: line_end + 1] if line_end >= 0 else seen.draft.text
