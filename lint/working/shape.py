"""Shape: what the steps of a round tell before any stitch is worked: where it starts, what a chain is for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..steps import (
    At,
    Chain,
    Even,
    Evenly,
    Join,
    Remark,
    Repeat,
    Ring,
    Shaping,
    Skip,
    Step,
    Together,
    Turn,
    Unread,
    Work,
)
from .hook import Hook


def unread_in(steps: Sequence[Step]) -> Iterator[Unread]:
    """Yield the steps that could not be read, at any depth."""
    for step in steps:
        if isinstance(step, Unread):
            yield step
        elif isinstance(step, Repeat | Together):
            yield from unread_in(step.steps)


def begins_piece(steps: Sequence[Step]) -> bool:
    """Tell whether a round starts from nothing: a ring, a chain worked into, stitches that need no row below."""
    chain = False
    for step in steps:
        if isinstance(step, Ring):
            return True
        if isinstance(step, Chain):
            chain = True
        if isinstance(step, Work):
            if step.where.at in (At.RING, At.BEHIND):
                return True
            if step.where.at is At.FROM_HOOK:
                return chain
            return step.make.uses == 0 and step.make.makes > 0 and not step.make.within
        if isinstance(step, Together | Repeat):
            return isinstance(step, Together) and step.where.at is At.RING
    return False


def chain_key(number: int, joined: bool | None) -> str:
    """Return the name of the question whether a beginning chain of this length counts."""
    return f"ch-{number}-counts" + ("-joined-to-it" if joined else "")


def is_bridge(number: int, hook: Hook, rest: Sequence[Step]) -> bool:
    """Tell whether a chain at the start of a round bridges skipped stitches: `ch 17, sk 17 sts`."""
    first = rest[0] if rest else None
    return isinstance(first, Skip) and number > 4 and first.number.at(hook.size) not in (None, 1, 2)


def beyond_height(number: int, rest: Sequence[Step]) -> int:
    """Return the chains by which a beginning chain is longer than the stitch after the skip.

    `ch 3, sk 1, hdc` is an hdc and a space of one chain.
    """
    first = next((step for step in rest if not isinstance(step, Turn)), None)
    if not isinstance(first, Skip):
        return 0
    for step in rest:
        works = (
            [step]
            if isinstance(step, Work)
            else [part for part in step.steps if isinstance(part, Work)]
            if isinstance(step, Repeat)
            else []
        )
        if works:
            return max(0, number - works[0].make.height) if works[0].make.height > 1 else 0
    return 0


def beyond_join(number: int, rest: Sequence[Step]) -> int:
    """Return the chains beyond the link that the join goes into: `join to 3rd of ch 4` leaves one."""
    nth = next((step.nth for step in rest if isinstance(step, Join)), None)
    return number - nth if nth is not None and number > nth else 0


def along_rows(steps: Sequence[Step]) -> Iterator[Work]:
    """Yield the stitches that go into the ends of rows one by one, at any depth."""
    for step in steps:
        if isinstance(step, Work) and step.where.at is At.ROW_ENDS:
            if step.where.number is not None or step.times.values == (1,):
                yield step
        elif isinstance(step, Repeat):
            yield from along_rows(step.steps)


def first_space(nth: int, height: int, rest: Sequence[Step]) -> int:
    """Return the chains of the space before a stitch in the nth chain from the hook, 0 where there is none.

    `dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch`: three of those skipped are as high as the stitch, two lie
    below a first mesh like the others, two go over it.
    """
    over = nth - 1 - height
    if height < MESH_HEIGHT or over < MESH_HEIGHT - 1:
        return 0
    steps: Sequence[Step] = rest
    while steps and isinstance(steps[0], Repeat):
        steps = steps[0].steps
    told = [step for step in steps if not isinstance(step, Work)] if steps else []
    if len(steps) < MESH_HEIGHT or not isinstance(steps[0], Chain) or not isinstance(steps[1], Skip) or not told:
        return 0
    below = steps[1].number.values[0] or 0
    return max(over - below, 1)


def first_loop(nth: int, height: int, rest: Sequence[Step]) -> int:
    """Return the chains of the loop before a short stitch in the nth chain from the hook, 0 where there is none.

    `sc in 9th ch from hook, *ch 5, sk 3 ch, sc in next ch`: the chains skipped are a loop like the others, no stitch.
    """
    if height >= MESH_HEIGHT or nth < LEAST_LOOP:
        return 0
    steps: Sequence[Step] = rest
    while steps and isinstance(steps[0], Repeat):
        steps = steps[0].steps
    loop, bridge = steps[:2] if len(steps) >= MESH_HEIGHT else (None, None)
    if not isinstance(loop, Chain) or not isinstance(bridge, Skip):
        return 0
    chains = loop.n.values[0] or 0
    return chains if chains >= MESH_HEIGHT else 0


def is_first_loop(number: int, rest: Sequence[Step]) -> bool:
    """Tell whether a row's chain is its first loop: long, before a short stitch into a space, `ch 5, sc in next lp`."""
    if number <= MESH_HEIGHT:
        return False
    steps = [step for step in rest if not isinstance(step, Turn | Remark)]
    while steps and isinstance(steps[0], Repeat):
        steps = [*steps[0].steps]
    first = steps[0] if steps else None
    return isinstance(first, Work) and first.make.height == 1 and first.where.at is At.NEXT and first.where.target.space


LEAST_LOOP = 6  # the nth chain from the hook; those before a nearer one only lift the first stitch
MESH_HEIGHT = 3  # chains; a shorter stitch than a dc makes no mesh


def into_ring(rest: Sequence[Step]) -> bool:
    """Tell whether the first stitches to come go into a ring that is named only there."""
    for step in rest:
        if isinstance(step, Work | Together):
            return step.where.at is At.RING
        if isinstance(step, Ring | Repeat):
            return False
    return False


def into_chain(rest: Sequence[Step]) -> bool:
    """Tell whether the chain just made is worked into, or closed to a ring."""
    return any(isinstance(part, Work) and part.where.at is At.FROM_HOOK for part in rest) or any(
        isinstance(part, Ring) for part in rest
    )


def chain_is_next(rest: Sequence[Step]) -> bool:
    """Tell whether the next stitch goes into the chain just made."""
    for step in rest:
        if isinstance(step, Work):
            return step.where.at is At.FROM_HOOK
        if isinstance(step, Chain | Skip | Together | Repeat | Ring):
            return False
    return False


def extends_row(steps: Sequence[Step], size: int) -> bool:
    """Tell whether a row that begins with a chain worked into goes on over the row below.

    It does where the stitches that go into the chain use it up and more follow: `ch 12, sc in 2nd ch from hook and next
    10 ch, sc in each sc across`.
    """
    links = 0
    told = iter(steps)
    for step in told:
        if isinstance(step, Chain):
            links = step.n.at(size) or 0
        elif isinstance(step, Work):
            if step.where.at is not At.FROM_HOOK or not links:
                return False
            links -= (step.where.number.at(size) if step.where.number else None) or 2
            break
    for step in told:
        if isinstance(step, Work):
            if step.where.at is At.EACH:
                later = [part for part in told if isinstance(part, Work | Repeat)]
                kept = step.where.leave is not None or any(isinstance(part, Work) and part.where.last for part in later)
                return links <= 0 or (step.where.target.chain and bool(later) and not kept)
            if step.where.at is not At.NEXT or step.where.number is None:
                return False
            links -= (step.where.number.at(size) or 0) * max(step.make.uses, 0)
            if links < 0:
                return True
        elif isinstance(step, Repeat | Skip | Together):
            return links <= 0
    return False


def turns_first(steps: Sequence[Step]) -> bool:
    """Tell whether the work is turned before the first stitch of a row."""
    for step in steps:
        if isinstance(step, Turn):
            return True
        if isinstance(step, Work | Together | Repeat):
            return False
    return False


def turns_last(steps: Sequence[Step]) -> bool:
    """Tell whether the work is turned after the last stitch of a row."""
    return turns_first(steps[::-1])


def own_chain(steps: Sequence[Step]) -> bool:
    """Tell whether a row makes its own beginning chain, and doesn't begin on that of the row below."""
    for step in steps:
        if isinstance(step, Chain):
            return True
        if isinstance(step, Work | Together | Repeat | Skip):
            return False
    return False


def makes_start(steps: Sequence[Step]) -> bool:
    """Tell whether a round makes the ring or chain it starts from."""
    return any(isinstance(step, Ring) for step in steps) or into_chain(steps)


def more_work(rest: Sequence[Step]) -> bool:
    """Tell whether stitches are still to come."""
    return any(isinstance(part, Work | Together | Repeat) for part in rest)


def slips_on(rest: Sequence[Step]) -> bool:
    """Tell whether only slip stitches follow that are stitches of the row: several, or into all that is left."""
    works = [step for step in rest if isinstance(step, Work | Together | Repeat | Chain)]
    while works and isinstance(works[-1], Chain):
        works.pop()  # made for the next row
    return bool(works) and all(
        isinstance(step, Work)
        and step.make.kind == "slst"
        and not (step.where.target.space or step.where.target.group)
        and (
            step.where.at in (At.EACH, At.BEHIND)
            or (step.where.number is not None and step.where.number.values != (1,))
        )
        for step in works
    )


def uses_row(steps: Sequence[Step]) -> bool:
    """Tell whether stitches of the row below are worked: by number, or all that are left."""
    for step in steps:
        if isinstance(step, Work) and step.make.uses and step.where.at in (At.NEXT, At.EACH):
            return True
        if isinstance(step, Repeat | Together) and uses_row(step.steps):
            return True
    return False


def goes_on(rest: Sequence[Step]) -> bool:
    """Tell whether more is worked after a turn, in the same line."""
    return any(isinstance(part, Work | Together | Repeat | Evenly | Even | Shaping) for part in rest)


def holds_rows(steps: Sequence[Step]) -> bool:
    """Tell whether a line holds rows of their own, so that it is not itself worked as often as its heading says."""
    return any(isinstance(step, Even | Shaping) for step in steps)


def into_spaces(steps: Sequence[Step], *, each: bool = True) -> Iterator[bool]:
    """Yield, for the stitches to come in order and at any depth, whether each goes into the next space.

    With `each`, those that go into every space do as well.
    """
    for step in steps:
        if isinstance(step, Repeat):
            yield from into_spaces(step.steps, each=each)
        elif isinstance(step, Work | Together):
            where = step.where
            if where.at is At.EACH:
                yield each and where.target.space
            elif where.at is At.NEXT and not where.target.also_spaces:
                yield where.target.space and not where.target.group
