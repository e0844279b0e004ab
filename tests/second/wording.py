"""The steps of a round in the English of written patterns, in the many ways in which drafts put them."""

from __future__ import annotations

from collections.abc import Sequence

from .hand import Hand
from .instructions import (
    BeginningChain,
    ChainSpace,
    Decrease,
    Figures,
    FromHook,
    Group,
    InEach,
    InEachSpace,
    InLastChain,
    InRing,
    InSame,
    InSpace,
    MagicRing,
    OtherSide,
    Part,
    Repeat,
    Skip,
    SkipSpace,
    Step,
    Stitches,
)


def say_steps(hand: Hand, steps: Sequence[Step], on: str | None = None) -> str:
    """Write the steps of a round one after the other; `on` is the kind of all stitches below, if there is but one."""
    blank = hand.way("after a step", (", ", ", ", ", ", ", ", "; ", ","))
    said: list[str] = []
    begun = False
    for index, step in enumerate(steps):
        sole = all(isinstance(other, BeginningChain) for other in steps if other is not step)
        said.append(say(hand, step, begun=begun, sole=sole, on=on, after=steps[index - 1] if index else None))
        begun = begun or not isinstance(step, BeginningChain)
    return blank.join(said)


def say(
    hand: Hand,
    step: Step,
    *,
    begun: bool = True,
    sole: bool = False,
    on: str | None = None,
    after: Step | None = None,
    inner: bool = False,
) -> str:
    """Write one step.

    `begun` tells whether stitches of the round stand before it, `sole` whether it is the whole of the round, `on` is
    the kind of all stitches below, `after` the step before it, `inner` whether it stands inside a repeat.
    """
    match step:
        case Stitches(each=1):
            # after a chain that counts, the first stitch is the one under the chain
            return _stitches(hand, step, begun=begun or (isinstance(after, BeginningChain) and after.counts))
        case Stitches():
            return _increases(hand, step, sole=sole)
        case InEach():
            return _in_each(hand, step, begun=begun, on=on)
        case InSame(kind, number):
            return _in_same(hand, kind, number, after)
        case Decrease():
            return _decreases(hand, step, sole=sole)
        case Repeat():
            return _repeat(hand, step, inner=inner)
        case Skip(number):
            return _skip(hand, number)
        case BeginningChain():
            return _beginning_chain(hand, step)
        case ChainSpace(chains):
            return hand.chains(chains)
        case _:
            return _in_places(hand, step)


def _in_places(hand: Hand, step: Step) -> str:
    """Write what goes into a named place: a space, a ring, a chain."""
    match step:
        case SkipSpace(chains):
            return f"{hand.sk} {hand.way('next space', ('next ', ''))}{hand.space(chains)}"
        case Group(parts):
            return f"{say_parts(hand, parts)} in next {hand.st((1,))}"
        case InSpace(parts, chains):
            return f"{say_parts(hand, parts)} in {hand.way('in next space', ('next ', ''))}{hand.space(chains)}"
        case InEachSpace(parts, chains):
            space = hand.way("which spaces", (hand.space(chains), hand.space(chains), f"{hand.chain} sp"))
            return f"{say_parts(hand, parts)} in each {space}{hand.way('each space', (' around', ''))}"
        case InRing(kind, number):
            return _in_ring(hand, kind, number)
        case FromHook(kind, nth, each, _):
            return f"{_some(hand, kind, (each,))} in {_NTH[nth]} {hand.chain} from hook"
        case InLastChain(kind, each):
            return f"{_some(hand, kind, (each,))} in last {hand.chain}"
        case OtherSide():
            return hand.way(
                "other side",
                (
                    "working along other side of chain",
                    "working on the other side of the chain",
                    "working along the opposite side of the chain",
                    "continue along other side of foundation chain",
                ),
            )
        case _:
            raise TypeError(step)


_NTH = {2: "2nd", 3: "3rd", 4: "4th"}


def _some(hand: Hand, kind: str, number: Figures) -> str:
    """Write some stitches: `sc` or `1 sc` for one, `3 sc` for more."""
    if set(number) == {1}:
        return hand.way("one stitch", (hand.stitch(kind), f"1 {hand.stitch(kind)}"))
    return f"{hand.figure(number)} {hand.stitch(kind)}"


def say_parts(hand: Hand, parts: Sequence[Part]) -> str:
    """Write what goes into one place: `3 dc`, or `(2 dc, ch 2, 2 dc)`."""
    words = [
        hand.chains(part.number) if part.kind == "ch" else f"{part.number} {hand.stitch(part.kind)}" for part in parts
    ]
    work = hand.way("work a group", ("", "", "work "))
    if len(words) == 1:
        return f"{work}{words[0]}"
    inside = ", ".join(words)
    return work + hand.way("group", (f"({inside})", f"[{inside}]", f"({inside})"))


def _stitches(hand: Hand, step: Stitches, *, begun: bool) -> str:
    name, number = hand.stitch(step.kind), step.number
    figure, sts = hand.figure(number), hand.st(number)
    one, glue = set(number) == {1}, hand.glue
    if step.last:
        several = (
            f"{name} in last {figure} {sts}",
            f"{name} in each of last {figure} {sts}",
            f"1 {name} in each of last {figure} {sts}",
        )
        singly = (f"{name} in last {sts}", f"1 {name} in last {sts}", f"{name} in the last {sts}")
        return hand.way("last stitches", singly if one else several)
    if one and not begun and hand.way("first", ("no", "yes")) == "yes":
        return hand.way("in first", (f"{name} in first {sts}", f"1 {name} in first {sts}"))
    if one:
        return hand.way(
            "stitches",
            (
                f"{name} in next {sts}",
                name,
                f"1 {name}",
                f"1 {name} in next {sts}",
                f"{name} in next {sts}",
                f"{name} 1",
                f"1{glue}{name}",
                f"work 1 {name} in next {sts}",
                f"{name} in the next {sts}",
                f"{name}{glue}1",
            ),
        )
    figure_first = f"{name} {figure}" if hand.sure else f"{figure} {name}"
    figure_glued = f"{name} {figure}" if hand.sure else f"{figure}{glue}{name}"
    return hand.way(
        "stitches",
        (
            f"{name} in next {figure} {sts}",
            f"{name} {figure}",
            figure_first,
            f"1 {name} in each of next {figure} {sts}",
            f"{name} in each of next {figure} {sts}",
            f"{name} {figure}",
            figure_glued,
            f"work 1 {name} in each of next {figure} {sts}",
            f"{name} in the next {figure} {sts}",
            f"{name}{glue}{figure}",
        ),
    )


def _increases(hand: Hand, step: Stitches, *, sole: bool) -> str:
    name, number, each = hand.stitch(step.kind), step.number, step.each
    figure, sts = hand.figure(number), hand.st(number)
    if set(number) == {1}:
        plain = [
            f"{each} {name} in next {sts}",
            f"{each} {name} in the next {sts}",
            f"work {each} {name} in next {sts}",
            f"{each}{hand.glue}{name} in next {sts}",
        ]
        if each == 2 and step.kind == hand.pattern.kind:
            plain += ["inc", "inc in next st", f"{name} inc", "inc", "inc 1"]
        return hand.way(f"{each} in one", plain)
    plain = [
        f"{each} {name} in each of next {figure} {sts}",
        f"{each} {name} in each of the next {figure} {sts}",
        f"work {each} {name} in each of next {figure} {sts}",
        f"{each}{hand.glue}{name} in each of next {figure} {sts}",
    ]
    if each == 2 and step.kind == hand.pattern.kind:
        plain += [f"inc {figure}", f"inc in next {figure} {sts}", f"{figure} inc", f"(inc) {hand.times(number)}"]
        plain += [f"inc {hand.times(number)}" if sole else f"inc in each of next {figure} {sts}"]
    return hand.way(f"{each} in each", plain)


def _in_each(hand: Hand, step: InEach, *, begun: bool, on: str | None) -> str:
    name, st = hand.stitch(step.kind), hand.st((1,))
    if on == "link":
        return hand.way("each chain", (f"{name} in each {hand.chain} around", f"1 {name} in each {hand.chain}"))
    if step.in_space:
        space = hand.space(step.chains)
        if step.in_space > 1:
            return f"{name} in each {st} and {step.in_space} {name} in each {space} around"
        options = (f"{name} in each {st} and {space} around", f"{name} in each {st} and in each {space} around")
        return hand.way("each stitch and space", options)
    if step.leave is not None:
        sts, figure = hand.st(step.leave), hand.figure(step.leave)
        tail = f"to last {sts}" if set(step.leave) == {1} else f"to last {figure} {sts}"
        left = "remains" if set(step.leave) == {1} else "remain"
        return hand.way(
            "all but the last",
            (
                f"{name} in each {st} {tail}",
                f"{name} {tail}",
                f"{name} in each {st} around {tail}",
                f"1 {name} in each {st} {tail}",
                f"{name} in each {st} until {figure} {sts} {left}",
            ),
        )
    if step.each > 1:
        many = [f"{step.each} {name} in each {st} around", f"work {step.each} {name} in each {st} around"]
        many += [f"{step.each} {name} in every {st}", f"{step.each}{hand.glue}{name} in each {st} to end"]
        if step.each == 2 and step.kind == hand.pattern.kind:
            many += [f"inc in each {st} around", "inc around", f"inc in every {st}"]
        return hand.way(f"{step.each} in every", many)
    if begun:
        return hand.way(
            "the rest",
            (
                f"{name} in each {st} around",
                f"{name} in each {st} to end",
                f"{name} in each remaining {st}",
                f"{name} to end",
                f"1 {name} in each {st} to end",
                f"{name} in each rem {st} around",
            ),
        )
    every = hand.stitch(on) if on else st
    return hand.way(
        "the whole round",
        (
            f"{name} in each {st} around",
            f"{name} around",
            f"1 {name} in each {st} around",
            f"{name} in each {every} around",
            f"{name} in every {st}",
            f"work 1 {name} in each {st} around",
            f"{name} in each {st}",
            f"1 {name} in each {every} to end",
        ),
    )


def _in_same(hand: Hand, kind: str, number: int, after: Step | None) -> str:
    some = _some(hand, kind, (number,))
    if isinstance(after, BeginningChain) and not after.counts:
        options = (f"{some} in same {hand.st((1,))} as join", f"{some} in same {hand.st((1,))}")
        return hand.way("in the joined stitch", options)
    return f"{some} in {hand.way('same', ('same', 'the same'))} {hand.st((1,))}"


def _decreases(hand: Hand, step: Decrease, *, sole: bool) -> str:
    name, over = hand.stitch(step.kind), step.over
    if hand.in_full:
        once = [f"{name} {over} together", f"{name} next {over} stitches together"]
    else:
        once = [f"{name}{over}tog", f"{name}{over}tog", f"{name} {over} tog", f"{name}{over}tog over next {over} sts"]
        once += [f"{name} next {over} sts tog"]
    if over == 2 and step.kind == hand.pattern.kind:
        once += ["dec", "dec", f"{name} dec", "dec over next 2 sts"]
    if step.invisible:
        once = ["invdec", "inv dec", "invisible dec"]
    said = hand.way(f"{over} together", once)
    if set(step.number) == {1}:
        return said
    often = hand.times(step.number)
    several = [f"({said}) {often}", f"[{said}] {often}", f"[{said}] x {hand.figure(step.number)}"]
    return f"{said} {often}" if sole and hand.chance(2) else hand.way("several together", several)


def _skip(hand: Hand, number: Figures) -> str:
    figure, sts = hand.figure(number), hand.st(number)
    if set(number) == {1}:
        return hand.way("skipped", (f"{hand.sk} next {sts}", f"{hand.sk} 1", f"{hand.sk} 1 {sts}"))
    return hand.way("skipped", (f"{hand.sk} next {figure} {sts}", f"{hand.sk} {figure}", f"{hand.sk} {figure} {sts}"))


def _beginning_chain(hand: Hand, step: BeginningChain) -> str:
    said = hand.chains(step.chains)
    if hand.way("chains in the round", ("note", "in the round")) == "note":
        return said
    if step.counts:
        name = hand.stitch(step.kind)
        options = (f"{said} (counts as {name})", f"{said} (counts as first {name})", f"{said} (counts as a st)")
    else:
        options = (f"{said} (does not count as a st)", f"{said} (does not count as st)", f"{said} (not a stitch)")
    return hand.way("whether it counts", options)


def _in_ring(hand: Hand, kind: str, number: Figures) -> str:
    name, figure = hand.stitch(kind), hand.figure(number)
    if not isinstance(hand.pattern.start, MagicRing):
        return hand.way("ring", (f"{figure} {name} in ring", f"work {figure} {name} into ring"))
    if hand.pattern.joined:
        return f"{figure} {name} in ring"
    return hand.way(
        "ring",
        (
            f"{figure} {name} in a magic ring",
            f"{figure} {name} in magic ring",
            f"{name} {figure} in magic ring",
            f"{figure} {name} into magic circle",
            f"make a magic ring, {figure} {name} in ring",
            f"{figure} {name} in MR",
            f"magic ring, {figure} {name}",
        ),
    )


# ---------------------------------------------------------------- repeats


def _repeat(hand: Hand, step: Repeat, *, inner: bool) -> str:
    nested = any(_is_bracketed(part) for part in step.steps)
    inside = ", ".join(say(hand, part, inner=True) for part in step.steps)
    # a star within a star would be misread; brackets within brackets are told apart by their shape
    starred = not inner and hand.way("nested" if nested else "repeat", ("star", "bracket", "star", "bracket")) == "star"
    if step.times is None:
        return _starred_to_end(hand, inside, step.leave) if starred else _bracket_to_end(hand, inside, step.leave)
    if starred and min(step.times) > 1:
        return _starred_times(hand, inside, step.times)
    return _bracket_times(hand, inside, step.times, square=nested)


def _is_bracketed(step: Step) -> bool:
    """Tell whether a step may be written with brackets of its own."""
    match step:
        case Repeat() | Group():
            return True
        case InSpace(parts):
            return len(parts) > 1
        case Decrease(number=number) | Stitches(number=number):
            return set(number) != {1}
        case _:
            return False


def _starred_to_end(hand: Hand, inside: str, leave: Figures | None) -> str:
    if leave is not None:
        tail = f"{hand.figure(leave)} {hand.st(leave)}"
        last = hand.st(leave) if set(leave) == {1} else tail
        left = "remains" if set(leave) == {1} else "remain"
        return hand.way(
            "star to last",
            (
                f"*{inside}; rep from * to last {last}",
                f"*{inside}; rep from * around to last {last}",
                f"*{inside}; repeat from * until {tail} {left}",
                f"*{inside}, rep from * to last {last}",
                f"*{inside}* to last {last}",
            ),
        )
    return hand.way(
        "star to end",
        (
            f"*{inside}; rep from * around",
            f"*{inside}; repeat from * to end",
            f"*{inside}, rep from * around",
            f"*{inside}* around",
            f"*{inside}*; rep from * to * around",
            f"*{inside}* rep around",
            f"*{inside}; rep from * to end of rnd",
            f"* {inside} * repeat around",
        ),
    )


def _bracket_to_end(hand: Hand, inside: str, leave: Figures | None) -> str:
    if leave is not None:
        last = hand.st(leave) if set(leave) == {1} else f"{hand.figure(leave)} {hand.st(leave)}"
        options = (f"({inside}) to last {last}", f"[{inside}] to last {last}", f"[{inside}] around to last {last}")
        return hand.way("bracket to last", options)
    return hand.way(
        "bracket to end",
        (
            f"({inside}) around",
            f"[{inside}] around",
            f"({inside}) repeat around",
            f"[{inside}] to end",
            f"({inside}) rep around",
            f"[{inside}] rep to end",
        ),
    )


def _starred_times(hand: Hand, inside: str, times: Figures) -> str:
    more = hand.more_times(tuple(value - 1 for value in times))
    return hand.way(
        "star times",
        (
            f"*{inside}; rep from * {more}",
            f"*{inside}* {hand.times(times)}",
            f"*{inside}* x {hand.figure(times)}",
            f"*{inside}, repeat from * {more}",
            f"*{inside}*; rep from * to * {more}",
            f"*{inside}; work from * {hand.times(times)} in all",
            f"*{inside}* rep {more}",
        ),
    )


def _bracket_times(hand: Hand, inside: str, times: Figures, *, square: bool) -> str:
    often, figure = hand.times(times), hand.figure(times)
    if square:
        return hand.way("outer bracket", (f"[{inside}] {often}", f"[{inside}] x {figure}", f"[{inside}] x{figure}"))
    return hand.way(
        "bracket times",
        (
            f"({inside}) {often}",
            f"({inside}) x {figure}",
            f"[{inside}] {often}",
            f"({inside}) x{figure}",
            f"({inside})*{figure}",
            f"({inside}) {figure}x",
            f"{{{inside}}} {often}",
            f"[{inside}] x{figure}",
        ),
    )
