"""Lines without a heading: notes on sizes, foundations, instructions that stand for rounds, talk."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from ..draft import Span
from ..later import later
from ..pattern import Claim, RepeatRounds, Round
from ..steps import (
    At,
    Chain,
    Even,
    FastenOff,
    Join,
    Marker,
    Rejoin,
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
from .assembly import Assembly, doubted
from .blocks import Block
from .described import PIECES
from .directives import Directed, read_directive
from .figures import lift
from .landmarks import read_landmark
from .marks import tree
from .reader import Steps
from .shapings import bound
from .sizes import leading_note, names_first, size_note
from .words import Word

_SENT_ON = later(
    r"(?:now\s+)?(?:stop\s[^.\n]{0,40}?\b(?=(?:go|skip|move|proceed|jump)\b))?(?:skip|go|proceed|move|continue|jump)\b[^.\n]{0,30}?(?:\bto\b(?:\s+(?:the\s+)?(?:rnd|round|row|r)\.?\s*(?P<to>\d+))?|\b(?:with|from|at)\s+(?:rnd|round|row|r)\.?\s*(?P<at>\d+))",
    re.IGNORECASE,
)
_STARTS = later(
    r"(?i)^[\s*_]*(?:[\w ]{1,20}(?:[-:.][*_]{0,3}|[*_]{1,3}[-:.]?)\s*){0,2}(?:(?:beg|start)\w*\s+at\b[^.,;:\n]{1,30}?(?:,\s*|\s+(?=with|using)))?(?:(?:with|using)\b(?:[^.]|\.(?=\d)){0,80}?\b)?(?:to (?:begin|start)[,:]?\s*)?(?:(?:begin|start|commenc)\w*\s+(?:with|by)\s+)?(?:make|create|work|form)?\s*(?:a\s+|the\s+)?(?:slip[\s-]?knot(?:,?\s+(?:and|then))?\s+)?(?:foundation\s+)?"
    r"(?:ch(?:ain)?\b[\s.-]*(?:of\s+)?[\d(]|\d[\d\s,\[\]()/:-]*ch(?:ains?)?\b|(?:\d[\d\s,\[\]()/:-]*)?f(?:sc|dc|hdc)\b|magic|mr\b|adjustable|sliding loop|ring|cast\s+on|co\b)"
)


_AT_EACH_START = later(
    r"(?i)^[^.;\n]{0,30}\b(?:at|to)\s+(?:the\s+)?(?:start|beg(?:inning)?\.?)\s+(?:of\s+)?(?:an?|each|every|all|the|any)?\s*(?:rounds?|rnds?|rows?)\b"
)
_LABEL = later(
    r"\s*(?!(?i:ch|chain|work|rep\w*|with|using|sizes?|for|note|cont\w*|next|join|then|all|rs|ws|all)\b)"
    r"(?:[A-Z][\w'/&-]*(?:[ \t]+[\w'/&-]+){0,4}\s*(?:\([^()\n]{0,30}\)\s*)?:\s+|[A-Z]{3,}(?:[ \t]+[A-Z]{2,}){0,3}\s+-+\s+)"
)
_NO_PART = later(r"(?i)\b(?:foundation|start|starting|begin\w*|base|first|set-?up|step|colou?r|follows)\b")
_BRIDGE = later(
    rf"(?i)\bch(?:ain)?\b[^.\n]{{0,60}}\b(?:join|attach|connect)\w*\b[^.\n]{{0,40}}\b(?:{'|'.join(sorted(PIECES))})\b"
)


def take_line(assembly: Assembly, block: Block) -> None:
    """Take a line without a heading: a note on sizes, a foundation, an instruction for rounds, or talk."""
    words = assembly.draft.words(block.span)
    note = size_note(words, block.span, assembly.sizes, title=block.leads)
    if note and not assembly.rounds and not block.leads and not re.search(r"(?i)\bonly\b", words):
        return  # the line that declares the sizes
    if note and block.leads and note.sizes and not note.unknown:
        assembly.notes.append(replace(note, before_round=len(assembly.rounds)))
        assembly.once = note.sizes
        return
    if note:
        assembly.take_note(note)
        return
    span = block.span
    sent = names_first(assembly.text[span.start : span.end], span.start, assembly.sizes) if assembly.rounds else None
    if sent and (on := _SENT_ON.match(assembly.text, span.start + sent[1], span.end)):
        assembly.send_on(sent[0], int(on["to"] or on["at"]) if on["to"] or on["at"] else None)
        return
    only = assembly.only
    if assembly.sizes.names and (led := leading_note(assembly.text[span.start : span.end], span.start, assembly.sizes)):
        lead, skip = led
        assembly.notes.append(replace(lead, before_round=len(assembly.rounds)))
        only = lead.sizes
        span = Span(span.start + skip, span.end)
    _take_instruction(assembly, block, span, only)


_CHANGES = later(
    r"(?i)\b(?:inc|dec)(?:reas\w*)?\b|\b(?:cast|bind|casting|binding)\s+o(?:n|ff)\b|\b(?:co|bo|m1\w?|kfb|ssk|holder|holders|waste yarn|scrap yarn)\b"
    r"|\b(?:pick up|divide|shap(?:e|ing))\b|\d+\s?tog|\btog(?:ether)?\b"
)
_REFERS = later(
    r"(?i)\b(?:same as|as for|as given|as on|to match|to correspond|revers(?:e|ing) (?:all )?shap\w*|complete as)\b"
)
_INSTRUCTS = later(
    r"(?i)(?:^|[.;]\s+)\W*(?:[\w' ]{1,24}:\s*)?(?:(?:with|using|on|change|switch|from|then|and|now|beg\w*|starting|rejoin|join|return|rs|ws)\b[^;\n]{0,90}?\b)?"
    r"(?:cast|co|bind|bo|k|p|knit|purl|work(?:ing)?|cont|continue|inc|dec|increase|decrease|pick|place|put|slip|sl|transfer|divide|shape|keep|rep|repeat|turn|[kp]\.?\s?\d+(?:\s?tog)?)\b"
)


_HIGHEST_TURNING = 5  # chains, for a double treble

_LATEST_HEADING = 8  # words before the word round


# `Cast on 72 sts. T4L: sl 2 to cable needle ...`
_DEFINED = later(r"\.\s+(?=[A-Z][A-Za-z]{0,2}\d{1,2}[A-Za-z]{0,3}\s*(?:\([^)\n]{0,40}\)\s*)?:\s*(?i:sl(?:ip)?)\s)")


def _take_knitted(assembly: Assembly, block: Block, span: Span, only: tuple[int, ...] | None) -> None:
    """Take a line of a knitted piece that says what is done: rows without a heading, shaping, a cast-on."""
    if defined := _DEFINED.search(assembly.text, span.start, span.end):
        span = Span(span.start, defined.start() + 1)  # the rest tells how a stitch is made
    text = assembly.text[span.start : span.end]
    if assembly.rounds and (landmark := read_landmark(assembly.text, span)) is not None:
        meant, end = landmark
        told = Directed(meant, 0)
        steps, _, claims = assembly.parse(Span(end, span.end), only, told=told)
        if not meant.alone and not assembly.fresh:
            _begin_part(assembly, span)
        _append(assembly, block, span, only, steps, told, claims, foundation=False)
        return
    steps, directed, claims = assembly.parse(span, only)
    steps, claims = assembly.take_sides(span, steps, claims)
    steps = replace(steps, steps=bound(steps.steps, None, claims))
    if directed is None and _REFERS.search(text) and not _tells_rows(steps.steps):
        steps = replace(steps, steps=(*steps.steps, Unread(span, "what it refers to was not found")))
    if _PICKED_UP_BESIDE.search(text) and _only_picks_up(steps.steps, text):
        steps = replace(steps, steps=(*steps.steps, Unread(span, "how many stitches waited is not said here")))
    headed = directed is None and _is_headed(assembly.words.within(span), first=not assembly.rounds)
    if headed:
        steps = _unread(steps, span)
    told = [step for step in steps.steps if not isinstance(step, Remark | Turn | FastenOff | Join | Marker)]
    lost = any(isinstance(step, Unread) for step in told)
    begun = bool(told) and isinstance(told[0], Work) and told[0].make.uses == 0 and not told[0].make.within
    if directed is None:
        if not told and claims:
            steps = replace(steps, steps=(*steps.steps, Unread(span, "what is worked here is not spelled out")))
            lost = True
        elif not told or (
            lost
            and not headed
            and not claims
            and not (_INSTRUCTS.search(text) and (_CHANGES.search(text) or _REFERS.search(text)))
        ):
            return
        if all(isinstance(step, Work) and step.make.kind.startswith("bo") for step in told) and not claims:
            return  # `Bind off in rib.`: the piece is done
        if not begun and not lost and not _INSTRUCTS.search(text):
            return
    if begun and (not assembly.rounds or (not assembly.fresh and not assembly.rounds[-1].foundation)):
        _begin_part(assembly, span)
    if not assembly.rounds and not begun and (lost or not claims or not assembly.unheaded):
        return
    _append(assembly, block, span, only, steps, directed, claims, foundation=begun and directed is None)


_PART_LABEL = later(r"\W*((?:the )?[A-Z][A-Za-z]*(?: [A-Za-z]+){0,2})\s*[:.\u2014-]\s")


# `return held sts to needles, pick up and k 3`, `pick up and knit 24 sts along each of 5 squares`
_PICKED_UP_BESIDE = re.compile(
    r"(?i)\b(?:return|place|put|slip|transfer)\b[^.;\d]{0,40}\b(?:held|live|thumb|reserved|waiting)\b[^.;\d]{0,12}\bst(?:s|itches)\b"
    r"|\b(?:along|from|on|across|in)\s+each\s+(?:of\b|square|side|edge|motif|piece)|\brejoin\b[^.]*\brem(?:ain\w*)?\b"
)


def _only_picks_up(steps: Sequence[Step], text: str) -> bool:
    """Tell whether a line picks up stitches, and what is on the needle besides isn't told by their numbers."""
    picks = [step.make.kind == "pu" for step in steps if isinstance(step, Work)]
    return any(picks) and (all(picks) or re.search(r"(?i)\brejoin", text) is not None)


def _begin_part(assembly: Assembly, span: Span) -> None:
    """Begin a part of its own at a line, under the name that the line gives it: `FRONT: Cast on 100 sts`."""
    assembly.fresh, assembly.sides = True, False
    named = _PART_LABEL.match(assembly.text, span.start, span.end)
    if assembly.title is None and named is not None:
        assembly.title = (named[1], Span(named.start(1), named.end(1)))


def _take_instruction(assembly: Assembly, block: Block, span: Span, only: tuple[int, ...] | None) -> None:
    if assembly.knit:
        _take_knitted(assembly, block, span, only)
        return
    text = assembly.text[span.start : span.end]
    if forms := _FORMS.match(text):
        span = Span(span.start + forms.end(), span.end)
        text = text[forms.end() :]
    label = _LABEL.match(text)
    words, _ = lift(assembly.words.within(span), assembly.sizes.number)
    directed = read_directive(tree(words)[0]) if assembly.rounds else None
    if directed is None and label is not None and assembly.rounds:
        directed = _as_other_part(assembly, text, span)
        if directed is not None:
            span = _past_labels(assembly, text, span)
    if _BRIDGE.search(text):
        return  # `ch 3 and join to the first leg`: the next round says what is worked along it
    if _defines(words) or _of_one_size(text, assembly.sizes.names):
        return
    starts = bool(_STARTS.match(text) or (label and _STARTS.match(text[label.end() :])))
    starts = starts and not any(word.kind == "counts" for word in words) and not _AT_EACH_START.search(text)
    shaping = re.search(r"(?i)\bone more (?:round|rnd)\b", text)
    headed = directed is None and _is_headed(words, first=not assembly.rounds)
    named = span.start + (label.end() if label is not None else 0)
    told = [word for word in words if word.span.start >= named]
    lost = headed or (_lost_instruction(told, starts=starts) and not assembly.fresh)
    if directed is None and _take_prose_row(assembly, block, span):
        return
    unled = directed is None and not (starts or headed) and bool(assembly.rounds)
    if unled and _take_labelled(assembly, block, span, only):
        return
    if directed is None and not starts and not shaping and not lost:
        return
    if starts:
        span = _past_labels(assembly, text, span)
    steps, directed, claims = assembly.parse(span)
    if directed is None and not _starts_piece(steps.steps) and not shaping and not lost:
        return
    if headed:
        steps = _unread(steps, span)
    elif lost and not any(isinstance(step, Unread) for step in steps.steps):
        steps = replace(steps, steps=(*steps.steps, Unread(span, "these words were not understood")))
    if directed is not None and not assembly.rounds:
        return
    if (
        starts
        and directed is None
        and assembly.rounds
        and not assembly.fresh
        and not assembly.rounds[-1].foundation
        and block.after_gap
    ):
        assembly.fresh = True
    foundation = directed is None and not shaping and not lost and not _goes_around(steps.steps)
    _append(assembly, block, span, only, steps, directed, claims, foundation=foundation)


_CALLED = later(r"\s*(?P<name>[A-Z][A-Za-z'/-]*(?:\s+[a-z][A-Za-z'/-]*){0,2}):\s+")
_NO_CALL = later(
    r"(?i)^(?:notes?|tips?|hints?|gauge|tension|size|sizes|materials?|yarn|hook|finish(?:ing)?|assembly|making up|to make up|to finish|special|"
    r"abbreviations?|stitch(?:es)?|pattern|repeat|multiple|colou?rs?|optional|option|for|if|when|here|remember|important|reminder|example)\b"
)
_WHOLE = frozenset({"around", "each"})


def _take_labelled(assembly: Assembly, block: Block, span: Span, only: tuple[int, ...] | None) -> bool:
    """Take `Heel opening: sc in next 14 sts, ch 14, ...` for a round with a name, where it tells of a whole round."""
    called = _CALLED.match(assembly.text, span.start, span.end)
    if called is None or _NO_CALL.match(called["name"]):
        return False
    body = Span(called.end(), span.end)
    words = assembly.words.within(body)
    kinds = {word.kind for word in words}
    if "=" in kinds or "stitch" not in kinds or assembly.words.within(Span(span.start, called.end()))[0].stitch:
        return False
    steps, directed, claims = assembly.parse(body, only)
    told = [step for step in steps.steps if not isinstance(step, Remark | Join | Turn | FastenOff | Marker)]
    whole = bool(claims) or bool(kinds & _WHOLE) or {"rep", "from"} <= kinds
    if directed is not None or not told or not whole or not isinstance(told[0], Work | Together | Repeat | Chain):
        return False
    if any(isinstance(step, Unread) for step in told) and not claims:
        return False
    _append(assembly, block, span, only, steps, None, claims, foundation=False, name=called["name"])
    return True


_FORMS = later(r"(?i)\s*(?:rows?|rnds?)\s+\d+[\d\s,&-]*(?:and\s+\d+\s+)?(?:form|make|establish|set|are)\b[^.\n]*\.\s+")
_WORKS = later(
    r"(?i)\s*(?:(?:then|now|next),?\s+)?(?:(?:after|when|once)\b[^,.;\n]{0,60},\s*)?(?:(?:with|from)\s+(?:the\s+)?(?:rs|ws|right|wrong)\b[^,.;\n]*,\s*)?(?:working\s+(?:along|across|into|in|over)\b[^,.;\n]*,\s*)?(?:(?:re-?)?(?:join|attach)\b|ch(?:ain)?\s*-?\d|\d+\s*ch\b|"
    r"sk(?:ip)?\b|miss\b|sl(?:ip)?\s*st|\d*\s*(?:sc|hdc|dc|h?tr|dtr)\b|(?:dec|inc)(?:rease)?\s+\d"
    r"|(?:work|patt?)\s+(?:to\s+(?:within\s+)?(?:the\s+)?last|sl(?:ip)?\s*st|(?:across\s+|over\s+|in\s+)?(?:the\s+)?(?:first|next)|\d[^.\n]{0,20}?\b(?:sc|hdc|dc|h?tr|dtr|sts?)\b))"
)
_SENTENCES = later(r"(?i)(?<=[.;])\s+(?=(?:keep|work|cont|fasten|rep|dec|inc)\w*\s)")
_MEASURED_ON = later(r"(?i)(?:keep\w*|work\w*\s+(?:even|straight|in\s+pat\w*)|cont\w*|fasten|repeat|rep)\b")
_EDGED = later(r"(?i)\b(?:edgings?|borders?|trims?|finishing|seams?|around)\b")
_REJOINS = later(r"(?i)\b(?:join|attach)\w*\b|\brejoin|\breattach")


def _take_prose_row(assembly: Assembly, block: Block, span: Span) -> bool:
    """Take a row that has no heading, in a piece worked in rows: `Right Back Strap: Skip next 8 sts, attach thread ..`.

    Where it only tells where the yarn is joined, and a row follows on the same line, it is the beginning of that row.
    """
    text = assembly.text[span.start : span.end]
    at = 0
    while label := _LABEL.match(text, at):
        at = label.end()
    if not _WORKS.match(text, at) or not (assembly.rounds and any(one.flat for one in assembly.rounds[-4:])):
        return False
    if doubted(assembly.text, span) == "?":
        steps, _, claims = assembly.parse(span)
        _append(assembly, block, span, None, _unread(steps, span), None, claims, foundation=False, flat=True)
        return True
    parts = [at, *(match.end() for match in _SENTENCES.finditer(text, at)), len(text)]
    taken = False
    for start, end in pairwise(parts):
        if _MEASURED_ON.match(text, start):
            continue
        body = Span(span.start + start, span.start + len(text[:end].rstrip()))
        if body.end > body.start and not (taken and not _WORKS.match(text, start)):
            named = Span(span.start, span.start + at) if at and not taken else None
            if not _take_part_of_prose(assembly, block, body, named):
                return taken
            taken = True
    return taken


def _take_part_of_prose(assembly: Assembly, block: Block, body: Span, named: Span | None) -> bool:
    """Take one row, or rows shaped alike, of a line without a heading; `named` are the words before it that name it."""
    steps, _, claims = assembly.parse(body)
    told = [step for step in steps.steps if not isinstance(step, Remark)]
    if told and all(isinstance(step, Skip | Rejoin) for step in told):
        assembly.leading = steps.steps if block.leads and _REJOINS.search(assembly.draft.words(body)) else ()
        return bool(assembly.leading)
    works = [step for step in told if isinstance(step, Work) and step.make.kind != "slst" and not step.bare]
    shapes = bool(told) and all(isinstance(step, Shaping | Turn | FastenOff) for step in told)
    if shapes:
        steps = replace(steps, steps=bound(steps.steps, None, claims))
    elif not works or any(isinstance(step, Unread | Ring) for step in told):
        return False
    elif works[0].where.at not in (At.NEXT, At.EACH, At.SAME) or _EDGED.search(assembly.draft.words(block.span)):
        return False  # a piece of its own, or the edge of one
    _append(assembly, block, body, None, steps, None, claims, foundation=False, flat=True)
    if named is not None:
        name = Span(named.start, named.start + len(assembly.draft.words(named).rstrip(" :-\n")))
        label = " ".join(assembly.draft.words(name).split())
        assembly.rounds[-1] = replace(assembly.rounds[-1], label=label, heading=name)
    return True


def _as_other_part(assembly: Assembly, text: str, span: Span) -> Directed | None:
    """Read `FRONT: Work as for Back to row 20`: the name of a part, and the other part whose rows are worked."""
    at = 0
    while label := _LABEL.match(text, at):
        at = label.end()
    words, _ = lift(assembly.words.within(Span(span.start + at, span.end)), assembly.sizes.number)
    found = read_directive(tree(words)[0])
    part = found is not None and isinstance(found.directive, RepeatRounds) and found.directive.part is not None
    return found if part else None


def _past_labels(assembly: Assembly, text: str, span: Span) -> Span:
    """Return the words of a line after the names before it, `BACK: Ch 81`; they are the title of a new part."""
    at = 0
    while label := _LABEL.match(text, at):
        at = label.end()
    name = " ".join(text[:at].strip(" :-\n").split())
    if name and not _NO_PART.search(name) and not (assembly.title and assembly.fresh):
        assembly.title, assembly.fresh = (name, Span(span.start, span.start + at)), True
    return Span(span.start + at, span.end)


def _append(
    assembly: Assembly,
    block: Block,
    span: Span,
    only: tuple[int, ...] | None,
    steps: Steps,
    directed: Directed | None,
    claims: tuple[Claim, ...],
    *,
    foundation: bool,
    flat: bool = False,
    name: str = "",
) -> None:
    """Take a line without a number for a round of the piece in hand."""
    section = assembly.open_section(block.span.start)
    own = assembly.sections[section].sizes
    assembly.rounds.append(
        Round(
            label=name or _first_words(assembly, span),
            heading=Span(span.start, span.start + len(name) if name else min(span.end, span.start + 40)),
            span=block.span,
            section=section,
            steps=steps.steps,
            directive=directed.directive if directed else None,
            claims=claims,
            sizes=own if only is None else only,
            foundation=foundation,
            flat=flat,
            loose=steps.loose,
            rounds_stated=steps.rounds,
            known_to_differ=doubted(assembly.text, span) == "!",
        )
    )


def _tells_rows(steps: Sequence[Step]) -> bool:
    """Tell whether a line says how many plain rows it is, so that it only refers to their look: `18 rows as for back`."""
    told = [step for step in steps if not isinstance(step, Remark)]
    return bool(told) and all(isinstance(step, Even) and step.rounds is not None for step in told)


def _defines(words: Sequence[Word]) -> bool:
    """Tell whether a line explains a stitch or a short form: `picot: ch 3, sl st in first ch`, `MR = magic ring`."""
    equals = [at for at, word in enumerate(words) if word.kind == "=" and at + 1 < len(words)]
    if equals and all(words[at + 1].kind not in ("number", "(", "[") for at in equals):
        return True
    if len(words) < 3 or words[1].kind not in (":", "="):
        return False
    return words[0].stitch is not None and words[0].stitch.kind != "chain"


_CHAIN_OF = later(
    r"\W*(?:sizes?\s+)?(?P<name>[\w' /-]{1,24}?)\s*[:=)-]\s*(?:ch(?:ain)?\s*)?\d{1,3}\s*(?:ch(?:ains?)?|sts?|stitches)?\W*",
    re.I,
)


def _of_one_size(text: str, names: Sequence[str]) -> bool:
    """Tell whether a line gives the chain of one size alone; the first row takes those of all sizes together."""
    match = _CHAIN_OF.fullmatch(text.strip())
    return match is not None and len(names) > 1 and match["name"].strip() in names


def _lost_instruction(words: Sequence[Word], *, starts: bool) -> bool:
    """Tell whether a line among rounds must be an instruction of which a word was destroyed: `Rep qvx rnd 3 times more`."""
    kinds = {word.kind for word in words}
    if "strange" not in kinds or len(words) > 25:
        return False
    figures = "number" in kinds or "often" in kinds
    return figures and (starts or ("times" in kinds and bool(kinds & {"round", "rep", "last"})))


def _unread(steps: Steps, span: Span) -> Steps:
    """Let a line be unread as a whole, with the counts it states; nothing is said of its marks either."""
    return replace(steps, steps=(Unread(span, "it is not known for which round these words are"),), loose=())


def _is_headed(words: Sequence[Word], *, first: bool) -> bool:
    """Tell whether a line has the look of a round in a notation that isn't known: `Left front, row one (RS): k2, ...`.

    Before the `first` round of a draft much else names rows: there a line must begin with the word.
    """
    if first and (not words or words[0].kind != "round" or any(word.kind == "=" for word in words)):
        return False
    at = next((n for n, word in enumerate(words[:_LATEST_HEADING]) if word.kind == "round"), None)
    if at is None:
        return False
    end = next((n for n in range(at + 1, len(words[: at + 9])) if words[n].kind in (":", "-")), None)
    if end is None or not any(word.kind == "stitch" for word in words[end + 1 : end + 5]):
        return False
    return any(word.kind in ("number", "each", "around") for word in words[end + 1 :])


def _first_words(assembly: Assembly, span: Span) -> str:
    words = assembly.draft.words(span).split()
    return " ".join(words[:5]).rstrip(".,;:")


def _goes_around(steps: Sequence[Step]) -> bool:
    """Tell whether a beginning chain is followed by stitches in each stitch: `Band: ch 1, sc in each st around`."""
    told = [step for step in steps if not isinstance(step, Remark)]
    if len(told) < 2 or not isinstance(told[0], Chain) or not isinstance(told[1], Work):
        return False
    short = all(one is not None and one <= _HIGHEST_TURNING for one in told[0].n.values)
    return short and told[1].where.at is At.EACH and not told[1].where.target.chain


def _starts_piece(steps: Sequence[Step]) -> bool:
    """Tell whether steps make the chain or ring from which a piece starts, all of them read."""
    told = [step for step in steps if not isinstance(step, Remark)]
    if not told or not isinstance(told[0], Chain | Ring | Work):
        return False
    if any(isinstance(step, Unread) for step in told):
        return False
    return any(isinstance(step, Chain | Ring) for step in told) or (
        isinstance(told[0], Work) and (told[0].where.at.value == "ring" or told[0].make.uses == 0)
    )
