"""Reader: the state of a round while its words are read, and what every part of the grammar shares."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from ..draft import Span
from ..figures import Figure
from ..pattern import Claim, LooseMark, MarkTrouble
from ..steps import (
    At,
    Chain,
    Count,
    Even,
    Evenly,
    FastenOff,
    Join,
    Remark,
    Repeat,
    Shaping,
    Step,
    Times,
    Together,
    Turn,
    Unread,
    Where,
    Work,
)
from .marks import Item, flat, span_of, text_at
from .words import Word

_SOFT = {
    "|",
    ",",
    ";",
    ".",
    ":",
    "+",
    "-",
    "noise",
    "work",
    "round",
    "side",
    "loops",
    "even",
    "spiral",
    "total",
    "remain",
    "around",
    "=",
    "/",
    "&",
    '"',
    "'",
    "evenly",
}
_ABBREVIATED = (
    "sc",
    "dc",
    "hdc",
    "htr",
    "dtr",
    "inc",
    "dec",
    "sc2tog",
    "dc2tog",
    "hdc2tog",
    "invdec",
    "bpdc",
    "fpdc",
)
COLOURS = frozenset(
    {"white", "black", "red", "blue", "green", "yellow", "pink", "purple", "orange", "brown", "grey", "gray"}
    | {"cream", "beige", "navy", "teal", "gold", "silver", "tan", "mc", "cc"}
)
_CHANGES = {
    "through",
    "before",
    "layers",
    "walls",
    "thicknesses",
    "omit",
    "omitting",
    "except",
    "ending",
    "instead",
    "replacing",
    "miss",
    "alternating",
    "alternate",
}
_TWO_PIECES = {"hold", "holding", "pieces", "panels", "squares", "halves", "held"}
_MAKES = (Work, Repeat, Together, Evenly, Even, Shaping)
_ENGLISH = {"once", "deck", "since", "dec", "inc", "disc", "inch"}


@dataclass(frozen=True, slots=True)
class Steps:
    """What a round's words say: its steps, the counts it states, marks that don't pair, rounds it says it covers."""

    steps: tuple[Step, ...]
    claims: tuple[Claim, ...] = ()
    loose: tuple[LooseMark, ...] = ()
    rounds: Figure | None = None
    spiral: bool = False
    closing: Claim | None = None


@dataclass(slots=True)
class Reader(ABC):
    """One level of a round: the words outside any bracket, or inside one."""

    items: Sequence[Item]
    top: bool
    habit: bool = False  # the draft's rounds close with a count that is a sentence of its own
    directed: bool = False  # the words follow an instruction that stands for whole rounds
    figures: bool = False  # bare figures stand for single crochet
    knit: bool = False
    layers: bool = False  # each stitch is worked through two layers of a folded piece
    in_ring: bool = False  # `in a magic ring work 3ch, 11 tr`: what follows goes into the ring
    marks: frozenset[str] = frozenset({"*"})
    parts: Mapping[tuple[int, str], tuple[Step, ...]] = field(default_factory=dict[tuple[int, str], tuple[Step, ...]])
    before: tuple[Step, ...] = ()  # what the round before has between its ends
    at: int = 0
    steps: list[Step] = field(default_factory=list[Step])
    claims: list[Claim] = field(default_factory=list[Claim])
    loose: list[LooseMark] = field(default_factory=list[LooseMark])
    rounds: Figure | None = None
    spiral: bool = False
    closing: Claim | None = None
    skipped_count: bool | None = None  # whether links skipped at the beginning are said to count as a stitch
    takes_in: bool = False  # the round speaks of pieces made before
    bridge: Figure | None = None  # the chain between two of them
    beyond: bool = False  # what comes next goes into a chain that the row below doesn't hold
    edged: bool = False  # what is done at the ends of the row was told; what follows may be the row itself
    needle: tuple[int, int] | None = None  # where the words for a needle begin, and for how many needles they are
    open_star: tuple[int, Span] | None = None
    body: tuple[Step, ...] | None = None  # the last group closed by a second star
    body_end: int = -1  # how many steps there were when it closed
    cut: int = -1  # how many steps there were at a second mark within the star
    cut_short: bool = False  # the last pass ends there
    unknown: list[Item] = field(default_factory=list[Item])

    def read(self) -> Steps:
        """Read the whole level."""
        while self.at < len(self.items):
            before = self.at
            if not self._one():
                self._take_unknown()
            assert self.at > before
        self._flush()
        self._close_star_at_end()
        self._end_needle()
        if self.top:
            if self.layers:
                self._work_through_layers()
            self._doubt_lone_stitch()
        return Steps(tuple(self.steps), tuple(self.claims), tuple(self.loose), self.rounds, self.spiral, self.closing)

    @abstractmethod
    def _one(self) -> bool:
        """Read one thing from here on; False, with nothing taken, where none is known."""

    @abstractmethod
    def _end_needle(self) -> None:
        """Let what was said for several needles count for each of them."""

    def _add(self, step: Step) -> None:
        self._flush()
        self.steps.append(step)

    def _kind(self, offset: int = 0) -> str:
        index = self.at + offset
        return self.items[index].kind if 0 <= index < len(self.items) else ""

    def _text(self, offset: int = 0) -> str:
        return text_at(self.items, self.at + offset)

    def _span(self, start: int, end: int | None = None) -> Span:
        stop = self.at if end is None else end
        return span_of(self.items[start : max(stop, start + 1)])

    def _ends_sentence(self, index: int) -> bool:
        """Tell whether a sentence ends with the word at an index."""
        what, text = self._kind(index - self.at), text_at(self.items, index)
        dotted = text.endswith(".") and len(text) > 1
        return what in (".", ";", "|") or (dotted and what in ("st", "round", "word"))

    def _take_unknown(self) -> None:
        item = self.items[self.at]
        self.at += 1
        if item.kind in _SOFT and not self.unknown:
            if item.kind == "spiral":
                self.spiral = True
            return
        if item.kind in (".", ";") and self.unknown:
            self._flush()
            return
        self.unknown.append(item)

    def _flush(self) -> None:
        """Judge the words that no rule read: talk takes nothing, anything that names stitches may matter."""
        every, self.unknown = self.unknown, []
        unknown = list(every)
        while unknown and unknown[-1].kind in _SOFT:
            unknown.pop()
        if not unknown:
            return
        span = span_of(unknown)
        if _harmless(every):
            self.steps.append(Remark(span))
        else:
            self.steps.append(Unread(span, "these words were not understood"))

    def _made_something(self) -> bool:
        return self.directed or any(isinstance(step, _MAKES) for step in self.steps)

    def _complete(self) -> bool:
        """Tell whether the round has come to its end: what follows can only be a count."""
        turned = False
        for step in reversed(self.steps):
            if isinstance(step, Turn):
                turned = True
            if isinstance(step, Remark | Turn | FastenOff) or (turned and isinstance(step, Chain)):
                continue
            if isinstance(step, Join):
                return self._made_something()
            if isinstance(step, Repeat):
                return step.times.count is Count.TO_END or not step.times.said
            if isinstance(step, Work):
                return step.where.at is At.EACH or step.where.last
            return isinstance(step, Evenly | Even | Shaping)
        return self.directed

    def _whole_row(self) -> bool:
        """Tell whether the last stitches went to the very end of the row."""
        told = [step for step in self.steps if not isinstance(step, Remark)]
        last, before = (told[-1] if told else None), (told[-2] if len(told) > 1 else None)
        if isinstance(last, Work):
            single = last.where.number is not None and last.where.number.values == (1,)
            shaped = last.make.uses != last.make.makes and _to_end(before)  # `sc across, dec 1 st at neck edge`
            return _to_end(last) or (last.where.last and single) or shaped
        if isinstance(last, Evenly | Shaping):
            return True
        return isinstance(last, Repeat) and last.times.count is Count.TO_END and last.times.leave is None

    def _first_work(self) -> int:
        for index, step in enumerate(self.steps):
            if not isinstance(step, Chain | Remark | Turn | Join):
                return index
        return 0

    def _repeat_last(self, times: Times) -> None:
        last = self.steps[-1]
        if isinstance(last, Repeat) and not last.times.said:
            self.steps[-1] = replace(last, times=times, span=last.span.cover(times.span) if times.span else last.span)
            return
        span = last.span.cover(times.span) if times.span else last.span
        self.steps[-1] = Repeat((last,), times, span, mark="")

    def _work_through_layers(self) -> None:
        """Let each stitch with a number take one of each layer: `fold flat and sc through both layers, 4 sc`."""
        told = [step for step in self.steps if isinstance(step, Work) and not is_lone(step)]
        said = {word.text for word in flat(self.items)}
        if said & _TWO_PIECES and not any(text.startswith("fold") for text in said):
            return  # the pieces have as many stitches each: one of both at a time
        if len(told) != 1:
            self.steps += [Unread(step.span, "which stitches go through both layers is not clear") for step in told[:1]]
            return
        self.steps = [
            replace(step, make=replace(step.make, uses=2 * step.make.uses)) if isinstance(step, Work) else step
            for step in self.steps
            if not (isinstance(step, Work) and is_lone(step))
        ]

    def _doubt_lone_stitch(self) -> None:
        """Doubt a round whose only stitch has neither number nor place: how many are meant is not said."""
        made = [n for n, step in enumerate(self.steps) if isinstance(step, Work | Repeat | Together | Evenly)]
        if len(made) != 1:
            return
        step = self.steps[made[0]]
        if isinstance(step, Work) and is_lone(step):
            if not self.knit and any(self._says_more(other) for other in self.steps):
                self.steps[made[0]] = Unread(step.span, "how many stitches are meant is not said")
            else:
                # `Rnds 3-5: sc`, `sc in BLO`: the whole round
                self.steps[made[0]] = replace(step, where=Where(At.EACH, span=step.span))

    def _says_more(self, step: Step) -> bool:
        """Tell whether words beside a lone stitch may say how many are meant: more than loops, sides and colours."""
        if isinstance(step, Unread):
            return True
        if not isinstance(step, Remark):
            return False
        words = [word for word in flat(self.items) if step.span.start <= word.span.start < step.span.end]
        plain = ("loops", "noise", "into", "side", "spiral", "work", "even", "around", "(", ")", "[", "]")
        return any(word.kind not in plain and word.text not in COLOURS and word.text != "only" for word in words)

    def _close_star_at_end(self) -> None:
        if self.open_star is None:
            return
        start, mark = self.open_star
        self.open_star = None
        inside = self.steps[start:]
        if len(inside) == 1 and isinstance(inside[0], Repeat) and inside[0].times.said:
            return  # `*(sc, inc) 6 times`: the bracket does it all
        if start < len(self.steps) and self._made_something():
            self.loose.append(LooseMark(MarkTrouble.STAR_UNCLOSED, mark))


def is_lone(step: Work) -> bool:
    """Tell whether a stitch has neither number nor place."""
    return step.bare and step.where.number is not None and step.where.number.span == step.span


def _to_end(step: Step | None) -> bool:
    """Tell whether a stitch goes into every place to the end of the row."""
    return isinstance(step, Work) and step.where.at is At.EACH and step.where.leave is None


def _nearly_stitch(text: str) -> bool:
    """Tell whether an unknown word is a stitch with a letter too many."""
    return any(text in (f"{name}{text[-1]}", f"{text[0]}{name}") for name in _ABBREVIATED) and text not in _ENGLISH


def _goes_somewhere(words: Sequence[Word], index: int) -> bool:
    """Tell whether a place to work into follows, as after a stitch: `in next st`, `around each dc`."""
    if index + 2 >= len(words) or words[index].kind not in ("into", "around", "post", "over"):
        return False
    return words[index + 1].kind in ("next", "each") and words[index + 2].kind in ("st", "stitch", "space", "number")


def _harmless(items: Sequence[Item]) -> bool:
    """Tell whether words that were not read take nothing: they name no stitch and no number of stitches."""
    words = list(flat(items))
    strange = sum(word.kind == "strange" for word in words)
    talk = sum(word.kind in ("word", "noise", "remark") for word in words)
    if strange and (talk < 3 * strange or talk + strange < len(words)):
        return False  # not a sentence with one word in it that we don't know
    for index, word in enumerate(words):
        before = words[index - 1] if index else None
        if word.kind in ("skip", "rep", "*", "unworked") or word.text in _CHANGES:
            return False
        if len(words) == 1 and word.text in ("corner", "corners"):
            return False  # `dc in each dc to corner, corner`: it is worked as the draft has said somewhere
        if word.kind == "stitch" and (
            before is None
            or before.kind
            not in (
                "first",
                "last",
                "same",
                "into",
                "noise",
                "each",
                "next",
                "from",
            )
        ):
            return False
        if word.kind == "word" and len(word.text) > 1 and _nearly_stitch(word.text):
            return False
        if word.kind == "word" and any(char.isdigit() for char in word.text):
            return False  # `sc2tgo`
        if word.kind == "word" and _goes_somewhere(words, index + 1):
            return False  # `FPcd around next st`
        if word.kind == "number" and not _is_name(words, index):
            after = words[index + 1] if index + 1 < len(words) else None
            if after is not None and after.kind == "round":
                continue  # `for 7 rows`
            if (
                after is not None
                and after.kind == "more"
                and index + 2 < len(words)
                and words[index + 2].kind == "round"
            ):
                continue
            if after is None or after.kind in ("stitch", "st", "space", ",", "more", "times", "each"):
                return False
    return True


_NAMED_BY_NUMBER = frozenset(
    {
        "col",
        "color",
        "colour",
        "size",
        "step",
        "part",
        "hook",
        "no",
        "approx",
        "about",
        "chart",
        "yarn",
        "page",
        "r",
        "rd",
        "needle",
        "needles",
        "us",
        "uk",
    }
)


def _is_name(words: Sequence[Word], index: int) -> bool:
    """Tell whether a number names something and counts nothing: `colour 2`, `colour B2`, `CC2`, `round 3`."""
    if not index:
        return False
    before = words[index - 1]
    if len(before.text) == 1 and not words[index].blank and index > 1 and words[index - 2].text in _NAMED_BY_NUMBER:
        return True
    return before.kind in ("round", "-") or before.text in _NAMED_BY_NUMBER or before.text in COLOURS
