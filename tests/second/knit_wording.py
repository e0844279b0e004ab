"""The rows of a knitted piece in the English of written patterns, in the many ways in which drafts put them."""

from __future__ import annotations

from collections.abc import Sequence

from .hand import Ways
from .instructions import Figures
from .knitting import (
    BindOff,
    Cable,
    CastOnMore,
    Change,
    Group,
    Knit,
    KnitStep,
    PlaceMarker,
    Slip,
    SlipMarker,
    ToEnd,
    ToMarker,
    Turn,
)

_SAID: dict[str, tuple[str, ...]] = {
    "k2tog": ("k2tog", "k2tog", "k2 tog", "k 2 tog", "knit 2 together"),
    "p2tog": ("p2tog", "p2tog", "p2 tog", "purl 2 together"),
    "ssk": ("ssk", "SSK", "ssk"),
    "skp": ("skp", "sl 1, k1, psso", "sl1, k1, psso", "skpo"),
    "k3tog": ("k3tog", "k3 tog", "knit 3 together"),
    "sk2p": ("sk2p", "sl 1, k2tog, psso", "sl1, k2tog, psso"),
    "kfb": ("kfb", "kfb", "kf&b", "inc in next st"),
    "yo": ("yo", "YO", "yo", "yfwd", "yarn over"),
    "m1": ("m1", "M1", "make 1", "m1"),
    "m1l": ("m1l", "M1L", "m1l"),
    "m1r": ("m1r", "M1R", "m1r"),
}
_STITCH = {"k": "knit", "p": "purl"}


class KnitHand(Ways):
    """A designer's hand in knitting."""

    def say_row(self, steps: Sequence[KnitStep]) -> str:
        """Write the steps of a row."""
        blank = self.way("after a step", (", ", ", ", ", ", "; "))
        sole = len(steps) == 1
        return blank.join(self.say(step, sole=sole) for step in steps)

    def say(self, step: KnitStep, *, sole: bool = False) -> str:
        """Write one step; `sole` where it is the whole row."""
        match step:
            case Knit(kind, number):
                return self.plain(kind, number)
            case Change(name, number):
                return self.change(name, number)
            case Cable(over, front):
                side = "F" if front else "B"
                return self.way("cable", (f"C{over}{side}", f"c{over}{side.lower()}"))
            case Slip(number):
                return self.way("slip", (f"sl {number[0]}", f"sl{number[0]}"))
            case ToEnd(kind, leave):
                return self.to_end(kind, leave, sole=sole)
            case ToMarker(kind, before):
                return self.to_marker(kind, before)
            case Group():
                return self.group(step)
            case _:
                return self.say_other(step)

    def say_other(self, step: KnitStep) -> str:
        """Write what makes no stitch of its own kind."""
        match step:
            case PlaceMarker():
                return self.way("place a marker", ("pm", "PM", "place marker"))
            case SlipMarker():
                return self.way("slip a marker", ("sm", "sl m", "slip marker"))
            case BindOff(number):
                said = self.way("bind off", ("BO", "bind off", "cast off"))
                return f"{said} {self.sts(number)}"
            case CastOnMore(number):
                return f"{self.way('cast on more', ('CO', 'cast on'))} {self.sts(number)}"
            case Turn():
                return self.way("wrap and turn", ("w&t", "wrap next st and turn", "w&t"))
            case _:
                raise TypeError(step)

    # ---------------------------------------------------------------- stitches

    def plain(self, kind: str, number: Figures) -> str:
        """Write some stitches: `k5`, `knit 5`, `k 5 sts`."""
        figure, word = self.figure(number), _STITCH[kind]
        glued = f"{kind}{figure}" if figure[0].isdigit() else f"{kind} {figure}"
        return self.way("plain", (glued, glued, f"{kind} {figure}", f"{word} {figure}", f"{kind} {self.sts(number)}"))

    def change(self, name: str, number: Figures) -> str:
        """Write a stitch that changes the count, once or several times."""
        once = self.way(name, _SAID[name])
        if set(number) == {1}:
            return once
        return self.way("several", (f"({once}) {self.times(number)}", f"[{once}] {self.times(number)}"))

    def to_end(self, kind: str, leave: Figures | None, *, sole: bool) -> str:
        """Write `k to end`, `purl to last 3 sts`; a whole row is just `Knit`."""
        word = self.way("in full", (kind, _STITCH[kind]))
        if leave is not None:
            last = "st" if set(leave) == {1} else self.sts(leave)
            return self.way("to last", (f"{word} to last {last}", f"{word} until {self.sts(leave)} remain"))
        if sole:
            return self.way("whole row", (_STITCH[kind], _STITCH[kind], f"{kind} to end", f"{kind} all sts"))
        return self.way("the rest", (f"{word} to end", f"{word} to end", f"{word} to end of row"))

    def to_marker(self, kind: str, before: int) -> str:
        """Write `k to 1 st before m`."""
        word, marker = self.way("in full", (kind, _STITCH[kind])), self.way("marker", ("m", "marker", "next marker"))
        if not before:
            return f"{word} to {marker}"
        return f"{word} to {before} {'st' if before == 1 else 'sts'} before {marker}"

    def sts(self, number: Figures) -> str:
        """Write `1 st`, `5 sts`, `5 (6, 7) sts`."""
        return f"{self.figure(number)} {'st' if set(number) == {1} else 'sts'}"

    # ---------------------------------------------------------------- repeats

    def group(self, step: Group) -> str:
        """Write a repeat: with a star, or in brackets."""
        inside = ", ".join(self.say(part) for part in step.steps)
        nested = any(isinstance(part, Group) for part in step.steps)
        star = self.way("repeat", ("star", "star", "bracket")) == "star"
        if step.times is not None:
            if nested or (star and min(step.times) > 1 and not self.is_inner(step)):
                more = self.more_times(tuple(value - 1 for value in step.times))
                return self.way("star times", (f"*{inside}; rep from * {more}", f"*{inside}, rep from * {more}"))
            return self.way("bracket times", (f"({inside}) {self.times(step.times)}",) * 2)
        if nested or star:
            return self.starred(inside, step.leave)
        tail = "to end" if step.leave is None else f"to last {self.last(step.leave)}"
        return self.way("bracket", (f"[{inside}] {tail}", f"({inside}) {tail}"))

    @staticmethod
    def is_inner(step: Group) -> bool:
        """Tell whether a group may stand in another: only short ones of one or two steps do."""
        return len(step.steps) < 3 and not any(isinstance(part, ToMarker) for part in step.steps)

    def last(self, leave: Figures) -> str:
        """Write `st`, `3 sts` after `last`."""
        return "st" if set(leave) == {1} else self.sts(leave)

    def starred(self, inside: str, leave: Figures | None) -> str:
        """Write a repeat from a star to the end or to the last stitches."""
        if leave is None:
            return self.way(
                "star to end",
                (f"*{inside}; rep from * to end", f"*{inside}, rep from * to end", f"*{inside}* to end"),
            )
        last = self.last(leave)
        return self.way(
            "star to last",
            (f"*{inside}; rep from * to last {last}", f"*{inside}, rep from * to last {last}"),
        )
