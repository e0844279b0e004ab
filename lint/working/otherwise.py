"""Otherwise: the other ways in which the words of a round can be taken, tried where the usual one doesn't agree."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ..figures import Figure
from ..steps import At, Chain, Count, Join, Remark, Repeat, Step, Times, Turn, Work


def other_ways(steps: Sequence[Step]) -> Iterator[tuple[Step, ...]]:
    """Yield the steps of a round as they may also be meant.

    `2 sc, inc x 6` and `sc 2, inc around`: the number of times, or the word around, may be meant for all that stands
    before it and not only for the last stitch; not so a plain `sc in each st around`. `2 sc in next 2 sts` may be two
    in each. `1 sc, 2 sc in next` with nothing after it may go on to the end. `rep 6 times` may be six in all or six
    more.
    """
    for count in (Count.TOTAL, Count.MORE):
        if (settled := _settled(steps, count)) != tuple(steps):
            yield settled
    if (last := _last_alone(steps)) is not None:
        yield last
    if any(_twofold(step) for step in steps):
        yield tuple(_in_each(step) for step in steps)
    for index, step in enumerate(steps):
        start = next((n for n, part in enumerate(steps) if not isinstance(part, Chain | Join | Remark)), index)
        body = steps[start:index]
        if not body or not all(isinstance(part, Work) and part.where.at is At.NEXT for part in body):
            continue
        if (whole := _with_all(step, body)) is not None:
            yield (*steps[:start], whole, *steps[index + 1 :])
    worked = [step for step in steps if not isinstance(step, Chain | Join | Remark)]
    if len(worked) > 1 and all(isinstance(part, Work) and part.where.at is At.NEXT for part in worked):
        yield (Repeat(tuple(worked), Times(Count.TO_END), worked[0].span.cover(worked[-1].span), mark=""),)


def _last_alone(steps: Sequence[Step]) -> tuple[Step, ...] | None:
    """Return `5 sc, inc, x6` with the times meant for its last stitch only; None where it is no such round."""
    at = next((n for n, step in enumerate(steps) if isinstance(step, Repeat)), None)
    repeat = steps[at] if at is not None else None
    if at is None or not isinstance(repeat, Repeat) or repeat.mark or repeat.times.count is not Count.TOTAL:
        return None
    if len(repeat.steps) < 2 or not all(isinstance(step, Work) for step in repeat.steps):
        return None
    return (*steps[:at], *repeat.steps[:-1], replace(repeat, steps=repeat.steps[-1:]), *steps[at + 1 :])


def once_around(steps: Sequence[Step]) -> tuple[tuple[Step, ...], Figure, bool] | None:
    """Return a round that picks up stitches without the last of its steps, if those may be worked a second time.

    `K18 heel sts, pick up 15, k30, pick up 15, k9`: the nine bring the yarn to the middle of the heel. Told with it is
    how many they are, and whether that is half of the first. None where it is no such round.
    """
    works = [(n, step) for n, step in enumerate(steps) if isinstance(step, Work)]
    if len(works) < 3 or not any(step.make.kind == "pu" for _, step in works):
        return None
    (_, first), (at, last) = works[0], works[-1]
    numbers = [step.where.number if step.where.at is At.NEXT else None for step in (first, last)]
    plain = all(step.make.uses == step.make.makes == 1 and step.make.kind in ("k", "p", "st") for step in (first, last))
    if not plain or numbers[0] is None or numbers[1] is None:
        return None
    pairs = list(zip(numbers[0].values, numbers[1].values, strict=False))
    if not all(a is not None and b is not None and b < a for a, b in pairs):
        return None
    return (*steps[:at], *steps[at + 1 :]), numbers[1], all(a == 2 * (b or 0) for a, b in pairs)


def _settled(steps: Sequence[Step], count: Count) -> tuple[Step, ...]:
    """Take every number of times that may be all or more in one of the two ways."""
    return tuple(
        replace(step, times=replace(step.times, count=count))
        if isinstance(step, Repeat) and step.times.count is Count.EITHER
        else step
        for step in steps
    )


def _twofold(step: Step) -> bool:
    return (
        isinstance(step, Work)
        and step.ambiguous
        and not step.bare
        and step.times.values == (1,)
        and step.where.number is not None
    )


def _in_each(step: Step) -> Step:
    if isinstance(step, Work) and _twofold(step) and step.where.number is not None:
        return replace(step, times=step.where.number)
    if isinstance(step, Repeat):
        return replace(step, steps=tuple(_in_each(part) for part in step.steps))
    return step


def _with_all(step: Step, body: Sequence[Step]) -> Repeat | None:
    """Return the repeat of the body and a last step, where that step is said several times or around; else None."""
    if isinstance(step, Repeat) and step.mark == "":
        return replace(step, steps=(*body, *step.steps), span=body[0].span.cover(step.span))
    if isinstance(step, Work) and step.where.at is At.EACH and step.where.leave is None:
        plain = step.times.values == (1,) and step.make.makes == step.make.uses == 1
        if plain and not step.ambiguous:
            return None
        one = Figure((1,), step.span)
        last = replace(step, where=replace(step.where, at=At.NEXT, number=one))
        return Repeat((*body, last), Times(Count.TO_END), body[0].span.cover(step.span), mark="")
    return None


def between_changes(steps: Sequence[Step], more: int, exact: int | None) -> tuple[Step, ...] | None:
    """Return a round with so many more (or exactly so many) plain stitches between its increases or decreases.

    None where it isn't one repeat of plain stitches and one change, whose first group may be spelled out before it.
    """
    at = next((n for n, step in enumerate(steps) if isinstance(step, Repeat)), None)
    if at is None or any(not isinstance(step, Chain | Join | Remark | Turn) for step in steps[at + 1 :]):
        return None
    repeat = steps[at]
    assert isinstance(repeat, Repeat)
    inside = _longer(repeat.steps, more, exact)
    first = [step for step in steps[:at] if not isinstance(step, Chain | Join | Remark | Turn)]
    if inside is None or len(inside) != len(repeat.steps):
        return None
    whole = replace(repeat, steps=inside)
    if not first:
        return (*steps[:at], whole, *steps[at + 1 :])
    # the beginning chain may stand for the first plain stitch, or be all of them
    lead = _longer(first, more, None) if exact is None else None
    if lead is None or steps[at - len(first) : at] != tuple(first):
        return None
    return (*steps[: at - len(first)], *lead, whole, *steps[at + 1 :])


def _longer(steps: Sequence[Step], more: int, exact: int | None) -> tuple[Step, ...] | None:
    """Return one change with more plain stitches before or after it; None where the steps are anything else."""
    works = [step for step in steps if isinstance(step, Work) and step.where.at is At.NEXT]
    plain = [step for step in works if step.times.values == (1,) and step.make.uses == step.make.makes == 1]
    if len(works) != len(steps) or len(works) - len(plain) != 1 or len(plain) > 1:
        return None
    if not plain:
        change = works[0]
        one = Figure((1,), change.span)
        made = (
            replace(change.make, kind="st", uses=1, makes=1) if change.make.uses != change.make.makes else change.make
        )
        figure = Figure((more if exact is None else exact,), change.span)
        return (replace(change, make=made, times=one, where=replace(change.where, number=figure)), change)
    number = plain[0].where.number
    if number is None or None in number.values:
        return None
    figure = Figure(tuple((value or 0) + more if exact is None else exact for value in number.values), number.span)
    longer = replace(plain[0], where=replace(plain[0].where, number=figure))
    return tuple(longer if step is plain[0] else step for step in works)
