"""Counts: stitches worked into stitches that the row below doesn't have."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..lint.finding import Aside, Level
from ..lint.pattern import Round
from ..lint.steps import At, Chain, Repeat, Step, Together, Unread, Work
from ..lint.trade.tables import stitches
from ..lint.workings import SizeWorking, Standing
from .rule import Case, Flags, Passes, Rule, Said
from .sums import join_words, round_name

_PLAIN = ("sc", "hdc", "dc", "tr", "dtr")


def _not_there(case: Case) -> Iterator[Said]:
    if case.pattern.craft != "crochet":
        return
    like = case.once("stitches by what a count would name", _likes)
    for index, round_ in enumerate(case.pattern.rounds[1:], 1):
        named = [work for work in _works(round_.steps) if work.where.target.kinds]
        below = _kinds_below(case, index, like) if named else None
        if below is None:
            continue
        for work in named:
            wanted = {like.get(kind, kind) for kind in work.where.target.kinds}
            named = wanted & set(_PLAIN)
            post = work.make.kind.startswith(("fp", "bp"))  # around a stitch of any row below
            if post or work.where.at not in (At.NEXT, At.EACH) or not named or named != wanted or wanted & below:
                continue
            before = case.pattern.rounds[index - 1]
            has = join_words(sorted(kind for kind in below if kind in _PLAIN))
            words = f'"{case.words(work.span)}" is worked into stitches that {round_name(before)} doesn\'t have'
            message = f"{words}: it is all {has}"
            yield Said(work.span, message, asides=(Aside(before.heading, "the row below"),))
            break


def _likes() -> dict[str, str]:
    return {stitch.id: stitch.like for stitch in stitches("crochet") if stitch.like}


def _kinds_below(case: Case, index: int, like: dict[str, str]) -> set[str] | None:
    """Return the plain kinds of the row below a round, None where it isn't known or holds others as well."""
    before, round_ = case.pattern.rounds[index - 1], case.pattern.rounds[index]
    working = case.workings.rounds[index - 1]
    if before.section != round_.section or round_.directive or before.directive:
        return None
    if working.standing is Standing.UNREAD:
        return _kind_stated(before, like)
    owns: Sequence[SizeWorking] = [own for own in working.sizes if own is not None]
    kinds = {like.get(kind, kind) for own in owns for kind, many in own.kinds if many}
    if not kinds or not kinds <= set(_PLAIN) or any(own.spaces or not own.sure for own in owns):
        return None
    if any(work.make.kind not in _own_kinds(owns) for work in _works(before.steps) if not work.make.group):
        return None
    return kinds


def _kind_stated(round_: Round, like: dict[str, str]) -> set[str] | None:
    """Return the one kind that a round states, and all its words name, though what it goes into isn't known."""
    stated = {like.get(claim.kind, claim.kind) for claim in round_.claims}
    if len(stated) != 1 or not stated <= set(_PLAIN) or any(isinstance(step, Unread) for step in round_.steps):
        return None
    chains = {chain.kind for chain in round_.steps if isinstance(chain, Chain) and chain.kind}
    named = {like.get(work.make.kind, work.make.kind) for work in _works(round_.steps)} | chains
    return stated if named == stated else None


def _own_kinds(owns: Sequence[SizeWorking]) -> set[str]:
    """Return the ids of all stitches that some workings of a round left."""
    return {kind for own in owns for kind, _ in own.kinds}


def _works(steps: Sequence[Step]) -> Iterator[Work]:
    for step in steps:
        if isinstance(step, Work):
            yield step
        elif isinstance(step, Repeat | Together):
            yield from _works(step.steps)


_START = "Rnd 1: 12 dc in magic ring. 12 dc.\nRnd 2: Sc in each dc around. 12 sc.\n"

STITCH_NOT_THERE = Rule(
    name="stitch-not-there",
    family="counts",
    level=Level.QUERY,
    finds="A round is worked into a kind of stitch that the row below doesn't have.",
    why="A row was left in from an earlier state of the draft, or the stitch is misnamed.",
    limits="Only where every stitch of the row below is known, and it has no spaces. Stitches that a count would name "
    "alike (a decrease, a post stitch) are alike here.",
    source="common practice of tech editing",
    examples=(
        Flags(f"{_START}Rnd 3: *⟦Hdc in next dc⟧, hdc in next dc; rep from * around. 12 hdc.\n"),
        Flags("Rnd 2: Dc in each st around. 24 dc.\nRnd 3: ⟦Sc in each hdc⟧. 24 sc.\n"),
        Passes("Rnd 2: Dc in next 12 sts, hdc in next 12 sts. 24 sts.\nRnd 3: Sc in each hdc. 12 sc.\n"),
        Passes(f"{_START}Rnd 3: Hdc in each sc around. 12 hdc.\n"),
        Passes(f"{_START}Rnd 3: Hdc in each st around. 12 hdc.\n"),
        Passes(f"{_START}Rnd 3: *Fpdc around next dc, hdc in next sc; rep from * around. 12 sts.\n"),
        Passes(
            "Rnd 1: 12 dc in magic ring. 12 dc.\nRnd 2: (Sc2tog, sc) 4 times. 8 sts.\nRnd 3: Sc in each sc. 8 sc.\n"
        ),
    ),
    check=_not_there,
)

RULES = (STITCH_NOT_THERE,)
