"""The working of a whole pattern: every round of every size, in order, under the reading that agrees with most.

Conventions that a draft leaves open are questions with two answers. The pattern is worked with the usual answers
first; each question that came up is then turned over, and the other answer is kept where more stated counts agree
under it, for the whole draft alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..pattern import ChainRule, Pattern
from ..workings import Reading, RoundWorking, Slip, Standing, Workings
from .again import State
from .flatness import is_flat
from .memo import Memo
from .references import covered
from .slips import slips
from .worker import Answers, Asked, Other, Worker


def _said(pattern: Pattern) -> dict[str, bool]:
    """Return what the draft's notes settle of beginning chains."""
    said: dict[str, bool] = {}
    for note in pattern.conventions.chains:
        if note.skipped:
            said.update({f"skipped-{nth}-count": note.rule is ChainRule.COUNTS for nth in range(2, 7)})
            continue
        lengths = (note.n,) if note.n is not None else (1, 2, 3, 4, 5)
        counts = note.rule is ChainRule.COUNTS
        for length in lengths:
            if note.n is None and counts and length == 1:
                continue
            for ending in ("", "-joined-to-it", "-in-ring", "-joined-to-it-in-ring"):
                said[f"ch-{length}-counts{ending}"] = counts
    return said


def _score(done: Sequence[RoundWorking]) -> tuple[int, int]:
    """Return how well a reading serves: stated counts that agree, less those that differ; then what doesn't fit."""
    agree = sum(size.agrees is True for one in done for size in one.sizes if size)
    differ = sum(size.agrees is False for one in done for size in one.sizes if size)
    misfit = sum(bool(size.left or size.short) for one in done for size in one.sizes if size)
    unread = sum(size.count is None for one in done for size in one.sizes if size)
    return agree - differ, -misfit - unread


def _agreeing(done: Sequence[RoundWorking]) -> set[int]:
    """Return the rounds whose stated count agrees for every size."""
    return {one.index for one in done if one.standing is Standing.AGREES}


def _worked(pattern: Pattern, answers: Answers, asked: Asked, memo: Memo, other: Other | None = None) -> Worker:
    """Return a worker that has worked the whole pattern under the answers; `other` is one that did under others."""
    worker = Worker(
        pattern=pattern,
        answers=answers,
        asked=asked,
        states=[State() for _ in range(pattern.sizes.number)],
        memo=memo,
        other=other,
    )
    worker.run()
    return worker


@dataclass(frozen=True, slots=True)
class _Served:
    """A pattern worked under some answers, and how well they serve."""

    answers: Answers
    worker: Worker
    score: tuple[int, int]


def work(pattern: Pattern) -> Workings:
    """Work every round of every size of a pattern."""
    asked, memo = Asked(), Memo()
    answers = Answers(_said(pattern))
    worker = _worked(pattern, answers, asked, memo)
    best = _Served(answers, worker, _score(worker.done))
    readings: dict[str, Reading | None] = {}
    for key in sorted(asked.usual):
        best, readings[key] = _turned_over(pattern, best, key, asked, memo)
    # an answer may only have served as long as another was wrong
    turned = sorted(best.answers.chosen)
    for key in turned if len(turned) > 1 else ():
        best, readings[key] = _turned_over(pattern, best, key, asked, memo)
    told = tuple(reading for reading in readings.values() if reading is not None)
    return Workings(tuple(best.worker.done), told, _slips(best.worker))


def _turned_over(pattern: Pattern, best: _Served, key: str, asked: Asked, memo: Memo) -> tuple[_Served, Reading | None]:
    """Work a pattern with the other answer to a question, and return what serves better, and why if counts tell."""
    answers = best.answers
    now = answers.chosen.get(key, answers.said.get(key, asked.usual[key]))
    trial = Answers(answers.said, {**answers.chosen, key: not now})
    worker = _worked(pattern, trial, asked, memo, Other(best.worker, key))
    other = _Served(trial, worker, _score(worker.done))
    gain = 3 if key in answers.said else 1  # a single round that differs from what is said is worth 2
    # what only fits better, and agrees with no more, makes no stitches of a row's chain of one or of spaces
    doubtful = key.startswith(("ch-1-", "chains-count")) and not key.endswith("-in-ring")
    fits = other.score[0] == best.score[0] and other.score[1] > best.score[1] and not doubtful
    if other.score[0] >= best.score[0] + gain or (fits and key not in answers.said):
        best, other, now = other, best, not now
    agree, otherwise = _agreeing(best.worker.done), _agreeing(other.worker.done)
    if agree == otherwise:
        return best, None
    mends = frozenset(otherwise - agree)
    return best, Reading(key, now, 0, len(agree), len(otherwise), key in answers.said, mends)


def _slips(worker: Worker) -> tuple[Slip, ...]:
    """Look for likely slips in the rounds that differ, under the answers found."""
    found: list[Slip] = []
    for one in worker.done:
        round_ = worker.pattern.rounds[one.index]
        if one.standing is Standing.DIFFERS and round_.directive is None and covered(round_, 0) == 1:
            stated = [size.stated if size else None for size in one.sizes]
            flat, knit = is_flat(worker.pattern, round_), worker.pattern.craft == "knitting"
            found.extend(
                slips(one.index, round_.steps, worker.below(one.index), stated, worker.choose, flat, knit=knit)
            )
    return tuple(found)
