"""Joined: pieces made before that a round takes in: legs joined by a chain, arms crocheted to the body."""

from __future__ import annotations

from collections.abc import Sequence

from ..figures import Figure
from ..steps import At, Chain, Make, Remark, Where, Work
from .described import PIECES
from .makes import make_of
from .marks import Group, flat, kind, span_of
from .pieced import PieceReader
from .reader import Steps
from .times import figure_at
from .words import Word

_PIECES = PIECES | {"ear", "ears", "fin", "fins", "flipper", "flippers", "tentacle", "tentacles", "hoof", "tail"}
_TO_BOTH = frozenset({"through", "thru", "joining", "attaching", "connecting", "both", "with", "together", "tog"})
_JOINS = frozenset({"join", "joins", "attach", "connect", "joining", "attaching", "connecting", "rejoin"})
_ENDS = frozenset({"", ",", ";", ".", ":", "=", ">", "|", "*", "rep"})
_MOST_PIECES = 4  # `leg 2` is a name, `around the leg (12)` a number of stitches
_CHANGES = ("increase", "decrease")
_SPOKEN = frozenset({"ch", "chain", "chains", "chs"})


class JoinedReader(PieceReader):
    """Reads rounds that take in pieces made before."""

    __slots__ = ()

    def read(self) -> Steps:
        """Read the whole level; whether it speaks of pieces made before is looked up once."""
        self.takes_in = self.top and not self.knit and any(word.text in _PIECES for word in flat(self.items))
        return super().read()

    def _joined(self) -> bool:
        """Read one clause about pieces, at its first word: `ch 3, join to leg one`, `5 sc through arm and body`."""
        if not self.takes_in or self._kind(-1) not in _ENDS:
            return False
        stop = self._end_of_clause()
        words = list(flat(self.items[self.at : stop]))
        texts = {part for word in words for part in word.text.split()}
        named = bool(texts & _PIECES)
        if any(word.kind in ("layers", "skip", "rep", "*") for word in words):
            return False
        return (
            self._bridging(words, texts, named=named, stop=stop)
            or self._into_pieces(words, texts, named=named, stop=stop)
            or self._only_joins(texts, words, named=named, stop=stop)
        )

    def _end_of_clause(self) -> int:
        """Return the index after the clause that begins here; a bracket that names a piece belongs to it."""
        stop = self.at
        while kind(self.items, stop) not in _ENDS:
            item = self.items[stop]
            if isinstance(item, Group) and stop > self.at and not _belongs(item, last=stop + 1 >= len(self.items)):
                break
            if item.kind == "-" and item.blank and kind(self.items, stop + 1) == "number":
                break
            stop += 1
        return stop

    def _bridging(self, words: Sequence[Word], texts: set[str], *, named: bool, stop: int) -> bool:
        """Read `ch 3` between two pieces: worked along later; in mid-round its links are the first of them."""
        if not words or words[0].stitch is None or words[0].stitch.kind != "chain":
            return False
        number = figure_at(self.items, self.at + 1 + (self._kind(1) == "-"))
        begun = any(isinstance(step, Work) for step in self.steps)
        if number is None or not (named or begun or self._piece_follows(stop)):
            return False
        start, self.at = self.at, stop
        span = self._span(start)
        self.bridge = number
        if begun:
            self._add(Work(Make("sc"), Figure((1,), span), Where(At.BEHIND, number=number, span=span), span))
            return True
        self._add(Remark(span))
        if named and texts & _JOINS and any(word.stitch and word.stitch.kind == "basic" for word in words[1:]):
            one = Figure((1,), span)
            self._add(Work(Make("sc"), one, Where(At.BEHIND, number=one, span=span), span))
        return True

    def _piece_follows(self, stop: int) -> bool:
        """Tell whether the next clause names a piece."""
        end = stop + 1
        while kind(self.items, end) not in _ENDS:
            end += 1
        return any(word.text in _PIECES for word in flat(self.items[stop:end]))

    def _into_pieces(self, words: Sequence[Word], texts: set[str], *, named: bool, stop: int) -> bool:
        """Read so many stitches into a piece, along the chain between two, or through a piece and the round below."""
        stitches = [word for word in words if word.stitch is not None and word.stitch.kind != "chain"]
        works = [word for word in stitches if word.stitch is not None and word.stitch.id != "slst"]
        chain = not named and bool(texts & _SPOKEN)
        if not works:
            return False
        make, number = _worked_with(works[0]) if named else None, None
        if make is not None:
            make, number = Make("sc"), Figure((make.uses,), works[0].span)
        elif any(word.stitch is not None and word.stitch.kind in _CHANGES for word in works):
            return False
        else:
            make, number = make_of(works[0]), _number(words, self.bridge if chain else None)
        if make is None or number is None or len({word.text for word in works}) > 1 or not (named or chain):
            return False
        begun = any(isinstance(step, Work) for step in self.steps)
        both = named and bool(texts & (_TO_BOTH | _JOINS)) and not (self.bridge and not begun)
        if chain and self.bridge is None and not begun:
            return False
        start, self.at = self.at, stop
        span = self._span(start)
        where = Where(At.NEXT if both else At.BEHIND, number=number, span=span)
        self._add(Work(make, Figure((1,), span), where, span))
        return True

    def _only_joins(self, texts: set[str], words: Sequence[Word], *, named: bool, stop: int) -> bool:
        """Pass over `join to the first leg with sl st` behind a chain."""
        last = self.steps[-1] if self.steps else None
        works = any(word.stitch is not None and word.stitch.id != "slst" for word in words)
        if not named or works or not texts & _JOINS or self.bridge is None or isinstance(last, Chain):
            return False
        start, self.at = self.at, stop
        self._add(Remark(self._span(start)))
        return True


def _worked_with(word: Word) -> Make | None:
    """Return what `sc 5 together` looks like by itself; beside `with arm` it is five stitches through both."""
    together = word.stitch is not None and word.stitch.kind == "decrease" and " " in word.text
    return make_of(word) if together and word.text.endswith(("tog", "together")) else None


def _belongs(group: Group, *, last: bool) -> bool:
    """Tell whether a bracket says more of a clause: `12 sc (first leg)`, `sc around first leg (12)`."""
    words = list(flat(group.items))
    if len(words) == 1 and words[0].kind == "number":
        return not last
    named = any(word.text in _PIECES or word.text in _SPOKEN for word in words)
    return named and not any(word.kind == "number" for word in words)


def _number(words: Sequence[Word], chain: Figure | None) -> Figure | None:
    """Return how many stitches a clause tells of; a number that names a piece or measures the chain is none."""
    found: list[Figure] = []
    for index, word in enumerate(words):
        before = words[index - 1].text if index else ""
        if index > 1 and before == "-":
            before = words[index - 2].text
        name = before in _PIECES and (word.value or 0) <= _MOST_PIECES
        if word.kind == "number" and not name and before not in _SPOKEN:
            found.append(word.figure)
    if len(found) == 2 and found[0].values == (1,):
        found.pop(0)
    if len(found) == 1:
        return found[0]
    if found:
        return None
    every = any(word.kind in ("each", "around") for word in words)
    if chain is not None and every:
        return chain
    return None if every else Figure((1,), span_of(words))
