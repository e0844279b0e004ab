"""Damage the drafts of the corpus at random and look for crashes, slow proofs and rounds worked though destroyed.

Run by hand: `python tests/bench/bench_damage.py [NUMBER [SEED]]`, NUMBER (1000) damages. A third garble a word of
instruction, a third cut in the middle of one, the rest are of any kind. Printed are

- crashes, of which none is allowed;
- the ten slowest proofs, in seconds of the processor; none may take more than two;
- worked though destroyed: a round one of whose own words of instruction was garbled into a non-word or cut in two
  (what that means exactly stands in `tests/damage.py`), which is worked, has no correction or query on it, and has
  another count than the round of the undamaged draft;
- the rounds so destroyed that are worked at all, and those that are no rounds any more, though nothing new is said
  anywhere: by the damage, the kind of step and the word destroyed, with the shortest line as an example.
"""

from __future__ import annotations

import signal
import sys
import time
import traceback
from collections import Counter, defaultdict
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from random import Random, SystemRandom
from types import FrameType

from rowcall.lint.finding import Level
from rowcall.lint.proof import Proof

sys.path.insert(0, str(Path(__file__).parent.parent))  # for the tests' own helpers
from damage import (
    DAMAGES,
    Damage,
    Destroyed,
    Fate,
    destroyed,
    fate,
    instruction_cut,
    instruction_garbled,
    names,
    proofed,
    undamaged,
)

SLOWEST = 10
LIMIT = 2.0
GIVEN_UP = 60  # seconds after which a proof is stopped


@dataclass(frozen=True, slots=True)
class Case:
    """One damage: the draft, how long its proof took, a crash, and what became of a word destroyed."""

    name: str
    damage: Damage
    seconds: float
    crash: str | None = None
    lost: Destroyed | None = None
    fate: Fate | None = None
    silent: bool = False  # nothing is said that wasn't said before

    @property
    def kind(self) -> tuple[str, str, str]:
        """The damage, the step and the word, by which cases are told together."""
        assert self.lost is not None
        return self.damage.how, self.lost.step, self.lost.word.lower()

    def shown(self) -> str:
        """Return where it happened and the lines as they were and are, on one line each."""
        text = self.damage.text
        start = text.rfind("\n", 0, self.damage.now.start) + 1
        end = text.find("\n", self.damage.now.end)
        line = text[start : end if end >= 0 else len(text)]
        place = f"{self.name}:{self.damage.lines[0]}, {self.damage.how}"
        return f"{place}: {line[:300]!r}"


def damaged(seen: Proof, rng: Random) -> Damage:
    """Damage a draft in one way or other."""
    way: Callable[[], Damage] = rng.choice(
        (
            lambda: instruction_garbled(seen, rng),
            lambda: instruction_cut(seen, rng),
            lambda: rng.choice(DAMAGES)(seen.draft.text, rng),
        )
    )
    return way()


def case(name: str, rng: Random) -> Case:
    """Damage a draft, proof it and tell what became of it."""
    before = undamaged(name)
    damage = damaged(before, rng)
    start = time.process_time()
    signal.alarm(GIVEN_UP)
    try:
        after = proofed(damage.text)
    except TimeoutError:
        return Case(name, damage, time.process_time() - start)
    except Exception:  # whatever it is, it is what we look for
        return Case(name, damage, time.process_time() - start, traceback.format_exc(limit=-4))
    finally:
        signal.alarm(0)
    seconds = time.process_time() - start
    lost = destroyed(before, damage)
    if lost is None:
        return Case(name, damage, seconds)
    return Case(name, damage, seconds, None, lost, fate(before, after, lost), not new_findings(before, after))


def _stop(number: int, frame: FrameType | None) -> None:
    raise TimeoutError(f"signal {number} at {frame}")


def new_findings(before: Proof, after: Proof) -> bool:
    """Tell whether there is a correction or query that was not there before."""
    told = [
        Counter((finding.rule, finding.message) for finding in one.findings if finding.level > Level.STYLE)
        for one in (before, after)
    ]
    return bool(told[1] - told[0])


def by_kind(title: str, cases: Sequence[Case]) -> str:
    """Return a table of cases by the damage, the step and the word destroyed, each with its shortest line."""
    groups: defaultdict[tuple[str, str, str], list[Case]] = defaultdict(list)
    for one in cases:
        groups[one.kind].append(one)
    lines = [f"{title}: {len(cases)}"]
    for kind, found in sorted(groups.items(), key=lambda group: (-len(group[1]), group[0])):
        example = min(found, key=lambda one: len(one.shown()))
        lines.append(f"  {len(found):>5}  {', '.join(kind)}\n           {example.shown()}")
    return "\n".join(lines) + "\n\n"


def report(cases: Sequence[Case]) -> str:
    """Return all that is to be told of the cases."""
    crashes = [one for one in cases if one.crash]
    slow = sum(one.seconds > LIMIT for one in cases)
    slowest = sorted(cases, key=lambda one: -one.seconds)[:SLOWEST]
    hit = [one for one in cases if one.fate is not None]
    worked = [one for one in hit if one.fate and one.fate.verdict == "worked"]
    vanished = [one for one in hit if one.fate and one.fate.verdict == "vanished" and one.silent]
    silent = [one for one in worked if one.fate and not one.fate.said]
    worst = [one for one in silent if one.fate and not one.fate.same]
    tally = Counter((one.damage.how, one.fate.verdict) for one in hit if one.fate)
    lines = [
        f"crashes: {len(crashes)}",
        *(f"  {one.shown()}\n{one.crash}" for one in crashes[:SLOWEST]),
        f"slower than {LIMIT:g} s: {slow}; the slowest:",
        *(f"  {one.seconds:6.2f} s  {one.shown()[:160]}" for one in slowest),
        f"rounds destroyed: {len(hit)}",
        *(f"  {how:<14}{verdict:<10}{number:>6}" for (how, verdict), number in sorted(tally.items())),
        f"worked and nothing said: {len(silent)}, of these with another count: {len(worst)}",
        "",
    ]
    return (
        "\n".join(lines)
        + "\n"
        + by_kind("WORKED THOUGH DESTROYED, another count and nothing said", worst)
        + by_kind("worked at all", worked)
        + by_kind("no round any more, and nothing new is said", vanished)
    )


def main() -> None:
    """Damage as many drafts as asked for and print the report; when interrupted, that of the cases done so far."""
    number = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else SystemRandom().randrange(1_000_000)
    sys.stdout.write(f"{number} damages, seed {seed}\n")
    signal.signal(signal.SIGALRM, _stop)
    rng = Random(seed)
    drafts = names()
    cases: list[Case] = []
    with suppress(KeyboardInterrupt):
        while len(cases) < number:
            cases.append(case(rng.choice(drafts), rng))
    sys.stdout.write(f"{len(cases)} done\n")
    sys.stdout.write(report(cases))


if __name__ == "__main__":
    main()
