"""Making: chains at the start, joins and turns, loops, and what closes a piece."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ..lint.draft import Span
from ..lint.finding import Aside, Level
from ..lint.later import later
from ..lint.pattern import ChainRule
from ..lint.steps import Chain, FastenOff, Join, Step, Turn, Unread
from ..lint.workings import Standing
from .rule import Case, Flags, Passes, Rule, Said
from .sums import round_name

_FAMILY = "making"
_PRACTICE = "common practice of tech editing"

# ---------------------------------------------------------------- chains at the start


def _chain_contradicts(case: Case) -> Iterator[Said]:
    for reading in case.workings.readings:
        match = _COUNTS.fullmatch(reading.key)
        if match is None or not reading.said or reading.agree < reading.otherwise + 3:
            continue
        other = ChainRule.COUNTS_NOT if reading.holds else ChainRule.COUNTS
        notes = [note for note in case.pattern.conventions.chains if note.n in (None, int(match[1]))]
        if notes and all(note.rule is other and not note.skipped for note in notes):
            says = "doesn't count" if reading.holds else "counts"
            counts = f"{reading.agree - reading.otherwise} stated counts come out only the other way"
            yield Said(notes[0].span, f"the note has it that ch {match[1]} {says}, and {counts}")

    yield from _note_against_rounds(case)


_OTHERWISE = later(r"(?i)\b(?:unless|except|otherwise|where\s+(?:noted|stated|said))\b")


def _note_against_rounds(case: Case) -> Iterator[Said]:
    """Find notes that a chain doesn't count, where rounds say in so many words that it does."""
    notes = [note for note in case.pattern.conventions.chains if note.n is not None and not note.skipped]
    for note in notes:
        against = [
            step
            for round_ in case.pattern.rounds
            for step in round_.steps[:2]
            if isinstance(step, Chain) and step.beginning and step.n.values == (note.n,) and step.counts is not None
        ]
        start, end = (case.draft.text.rfind("\n", 0, note.span.start), case.draft.text.find("\n", note.span.end))
        line = case.draft.text[start + 1 : end]
        one_way = {step.counts for step in against}
        if one_way == {note.rule is ChainRule.COUNTS_NOT} and not _OTHERWISE.search(line):
            says = "doesn't count" if note.rule is ChainRule.COUNTS_NOT else "counts"
            message = f"the note has it that ch {note.n} {says}, and the rounds say otherwise"
            yield Said(note.span, message, asides=(Aside(against[0].span, "here"),), level=Level.QUERY)


_COUNTS = later(r"ch-(\d)-counts")


def _chain_unstated(case: Case) -> Iterator[Said]:
    if case.pattern.conventions.chains or case.pattern.craft != "crochet":
        return
    settled = {one.key for one in case.workings.readings if one.said or one.agree != one.otherwise}
    told: set[str] = set()
    stated = any(round_.claims for round_ in case.pattern.rounds[2:])
    for round_, working in zip(case.pattern.rounds, case.workings.rounds, strict=True):
        if working.standing is not Standing.UNSTATED or stated or round_.flat:
            continue
        start = next((step for step in round_.steps[:1] if isinstance(step, Chain) and step.beginning), None)
        for key, _ in working.readings:
            match = _COUNTS.fullmatch(key)
            if match is None or key in settled or key in told or start is None or start.counts is not None:
                continue
            if int(match[1]) >= 2 and start.n.at(0) == int(match[1]):
                told.add(key)
                words = f"nothing says whether ch {match[1]} at the start counts as a stitch, and no stated count tells"
                yield Said(start.span, words)


# ---------------------------------------------------------------- joins and turns


def _read(steps: Sequence[Step]) -> bool:
    return bool(steps) and not any(isinstance(step, Unread) for step in steps)


def _lacking(case: Case, kind: type[Join] | type[Turn]) -> Iterator[int]:
    """Yield the rounds that lack what the three before and the two after them in their section have."""
    rounds = case.pattern.rounds
    has = [any(isinstance(step, kind) for step in round_.steps) for round_ in rounds]
    for index in range(3, len(rounds) - 2):
        around = [*range(index - 3, index), index + 1, index + 2]
        if rounds[index].first is None or has[index] or not all(has[one] for one in around):
            continue
        same = all(rounds[one].section == rounds[index].section for one in around)
        plain = not any(isinstance(step, FastenOff) for step in rounds[index].steps)
        whole = all(_read(rounds[one].steps) and rounds[one].directive is None for one in (*around, index))
        if same and plain and whole:
            yield index


def _join_missing(case: Case) -> Iterator[Said]:
    for index in _lacking(case, Join):
        round_ = case.pattern.rounds[index]
        starts = next((step for step in case.pattern.rounds[index + 1].steps[:1] if isinstance(step, Chain)), None)
        if starts is not None:
            yield Said(round_.heading, f"{round_name(round_)} is not joined, the rounds before and after it are")


def _turn_missing(case: Case) -> Iterator[Said]:
    for index in _lacking(case, Turn):
        round_ = case.pattern.rounds[index]
        after = case.pattern.rounds[index + 1].steps[:1]
        if not any(isinstance(step, Turn) for step in after):
            yield Said(round_.heading, f"{round_name(round_)} doesn't say to turn, the rows before and after it do")


_LOOP_ONLY = later(
    r"(?i)(?:now\s+)?(?:work(?:ing)?\s+)?(?:in|through)\s+(?:the\s+)?(?P<loop>back|front)\s+loops?(?:\s+only)?\s*(?:\((?:blo|flo)\))?\s*[:.]?"
)


def _loop_unstated(case: Case) -> Iterator[Said]:
    spans = [round_.span for round_ in case.pattern.rounds]
    if not spans or not case.says("loop"):
        return
    for index in range(len(case.draft.starts)):
        line = case.draft.line_span(index)
        words = case.words(line)
        if "loop" not in words.casefold():
            continue
        if line.start <= spans[0].start or any(span.start <= line.start < span.end for span in spans):
            continue
        match = _LOOP_ONLY.fullmatch(words)
        if match is not None:
            start = line.start + case.draft.words(line).find(words[:4])
            yield Said(
                Span(start, start + len(words.rstrip(" .:"))),
                f"it isn't said for how long the {match['loop']} loops are used",
            )


# ---------------------------------------------------------------- closing and sewing


_CLOSES = later(
    r"(?i)\b(?:fasten|close|closed|closing|gather\w*|draw\w*|pull\w*|cut|break|finish\w*|bind|cast\s+off|sew\w*|weave|fo\b|f/o|off|"
    r"tie|thread\w*|drawstring|end\s+off|join\w*|continue|repeat|rep|until|invisible)\b"
)


def _closing_unstated(case: Case) -> Iterator[Said]:
    rounds = case.pattern.rounds
    text = case.draft.text
    if not re.search(r"(?i)\b(?:fasten|finish)\s+off\b|\bFO\b|\bcut\s+(?:the\s+)?yarn", text):
        return
    for index, round_ in enumerate(rounds):
        last = index + 1 == len(rounds) or rounds[index + 1].section != round_.section
        own = case.workings.rounds[index].sizes[0]
        if not last or own is None or own.count is None or own.before is None or round_.flat:
            continue
        end = rounds[index + 1].span.start if index + 1 < len(rounds) else len(text)
        if own.count <= 6 and 2 * own.count <= own.before and not _CLOSES.search(text[round_.span.start : end]):
            message = f"{round_name(round_)} leaves {own.count} sts open, and nothing closes them or fastens off"
            yield Said(round_.heading, message)


_CLOSED = later(
    r"(?i)\b(?:close(?:d)?\s+(?:the\s+)?(?:hole|opening|top|gap|ring)|(?:hole|opening|gap)\s+(?:is\s+)?(?:closed|shut)|draw(?:n)?\s+(?:the\s+)?(?:hole|opening|top)\s+(?:closed|shut|tight)|"
    r"sew\s+(?:the\s+)?(?:hole|opening)\s+(?:closed|shut))\b"
)
_STUFF = later(r"(?i)(?:^|[.;\n]\s*)(?P<stuff>stuff)\b(?!ing)[^.\n]{0,40}")


def _stuffed_too_late(case: Case) -> Iterator[Said]:
    text = case.draft.text
    for match in _CLOSED.finditer(text) if case.says("stuff") else ():
        end = next((one.start() for one in re.finditer(r"\n[ \t]*\n", text[match.end() : match.end() + 400])), 400)
        after = text[match.end() : match.end() + end]
        stuff = _STUFF.search(after)
        section = text[text.rfind("\n\n", 0, match.start()) + 1 : match.start()]
        if stuff is None or re.search(r"(?i)\bstuff\b|\bstuffing\b|\bfill", section):
            continue
        if re.search(r"(?im)^\W*(?:rnd|round|row|r)\.?\s*\d", after[: stuff.start()]):
            continue  # another part begins
        start = match.end() + stuff.start("stuff")
        message = "it is to be stuffed after the opening was closed"
        yield Said(
            Span(start, start + len(stuff["stuff"])), message, asides=(Aside(Span(*match.span()), "closed here"),)
        )


# ---------------------------------------------------------------- the rules

_ROUNDS = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each sc. (12)\n"
_JOINED = "".join(f"Rnd {n}: Ch 1, sc in each st, join. (12)\n" for n in range(3, 6))
_TURNED = "Ch 11.\nRow 1: sc in 2nd ch from hook and in each ch, turn. (10)\n" + "".join(
    f"Row {n}: Ch 1, sc in each sc, turn. (10)\n" for n in range(2, 5)
)
_BODY = f"BODY\n{_ROUNDS}Fasten off.\n\n"

TURNING_CHAIN_UNSTATED = Rule(
    name="turning-chain-unstated",
    family=_FAMILY,
    level=Level.QUERY,
    finds="Rounds begin with chains, and neither a note nor any stated count tells whether they count as a stitch.",
    why="A maker who takes it the other way has a stitch more or less in every round.",
    limits="Silent where rounds after the second state a count, where a note speaks of chains, in rows, and for one "
    "chain.",
    source="Craft Yarn Council, Standards and Guidelines, turning chains; " + _PRACTICE,
    examples=(
        Flags(f"{_ROUNDS}Rnd 3: ⟦Ch 3⟧, 2 dc in each st around, join.\n"),
        Passes(f"{_ROUNDS}Rnd 3: Ch 3, 2 dc in each st around, join. (24)\n"),
        Passes(f"{_ROUNDS}Rnd 3: Ch 1, 2 sc in each st around, join.\n"),
        Passes(f"Ch 3 doesn't count as a st.\n\n{_ROUNDS}Rnd 3: Ch 3, 2 dc in each st around, join.\n"),
    ),
    check=_chain_unstated,
)

TURNING_CHAIN_CONTRADICTS = Rule(
    name="turning-chain-contradicts",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="The note says that chains at the start count, or that they don't, and the stated counts, or the words of "
    "the rounds, say the opposite.",
    why="A maker trusts the note and never comes to the counts.",
    limits="Only where three counts or more come out the other way and none as the note has it. A query where rounds "
    "say it in words; a note that leaves room for them (unless stated) is passed over.",
    source=_PRACTICE,
    examples=(
        Flags(
            f"⟦Ch 3 does not count as a st⟧.\n\n{_ROUNDS}"
            + "".join(f"Rnd {n}: Ch 3, dc in next 11 sts, join. (12)\n" for n in range(3, 7))
        ),
        Flags(
            "⟦The turning ch-3 does not count as a st⟧.\n\nRow 2: Ch 3 (counts as dc), dc in each st, turn. 18 dc.\n"
        ),
        Passes("The turning ch-3 counts as a st.\n\nRow 2: Ch 3 (counts as dc), dc in each st, turn. 18 dc.\n"),
        Passes(
            "The turning ch-3 does not count as a st unless stated.\n\n"
            "Row 2: Ch 3 (counts as dc), dc in each st, turn. 18 dc.\n"
        ),
        Passes(
            f"Ch 3 counts as a st.\n\n{_ROUNDS}"
            + "".join(f"Rnd {n}: Ch 3, dc in next 11 sts, join. (12)\n" for n in range(3, 7))
        ),
        Passes(f"Ch 2 doesn't count as a st.\n\n{_ROUNDS}Rnd 3: Ch 2, hdc in each st, join. (12)\n"),
        Passes(f"Ch 2 counts as a st.\n\n{_ROUNDS}Rnd 3: Ch 2, hdc in each of 12 sts, join. (12)\n"),
    ),
    check=_chain_contradicts,
)

JOIN_MISSING = Rule(
    name="join-missing",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A round isn't joined, though the three before it and the two after it are.",
    why="The maker doesn't know whether to go on in a spiral from here.",
    limits="Only among rounds that were read in full, in one section, where the next begins with a chain.",
    source=_PRACTICE,
    examples=(
        Flags(
            f"{_ROUNDS}{_JOINED}⟦Rnd 6⟧: Ch 1, sc in each st. (12)\n"
            + _JOINED.replace("Rnd 3", "Rnd 7").replace("Rnd 4", "Rnd 8").replace("Rnd 5", "Rnd 9")
        ),
        Passes(f"{_ROUNDS}{_JOINED}Rnd 6: Ch 1, sc in each st, sl st to first sc. (12)\n"),
        Passes(f"{_ROUNDS}{_JOINED}Rnd 6: Ch 1, sc in each st. (12)\nFasten off.\n"),
        Passes(f"{_ROUNDS}Rnd 3: sc in each st. (12)\nRnd 4: sc in each st. (12)\nRnd 5: sc in each st, join. (12)\n"),
    ),
    check=_join_missing,
)

TURN_MISSING = Rule(
    name="turn-missing",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A row doesn't say to turn, though the three before it and the two after it do.",
    why="The maker doesn't know on which side the next row is worked.",
    limits="Only among rows that were read in full, in one section. A turn at the start of the next row is enough.",
    source=_PRACTICE,
    examples=(
        Flags(
            f"{_TURNED}⟦Row 5⟧: Ch 1, sc in each sc. (10)\n"
            "Row 6: Ch 1, sc in each sc, turn. (10)\n"
            "Row 7: Ch 1, sc in each sc, turn. (10)\n"
        ),
        Passes(f"{_TURNED}Row 5: Ch 1, sc in each sc. (10)\nFasten off.\n"),
        Passes(
            f"{_TURNED}Row 5: Ch 1, sc in each sc. (10)\n"
            "Row 6: Turn, ch 1, sc in each sc, turn. (10)\n"
            "Row 7: Ch 1, sc in each sc, turn. (10)\n"
        ),
        Passes(f"{_TURNED}"),
    ),
    check=_turn_missing,
)

LOOP_UNSTATED = Rule(
    name="loop-unstated",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A line between the rounds says to work in one loop, and not for how long.",
    why="The fabric of one loop is another than that of both, and the maker can't tell where it ends.",
    limits="Silent where the line or the round itself says which round is meant, and before the first round.",
    source=_PRACTICE,
    examples=(
        Flags(f"{_ROUNDS}⟦Work in back loops only⟧.\nRnd 3: sc in each st. (12)\nRnd 4: sc in each st. (12)\n"),
        Passes(f"{_ROUNDS}Work the next round in back loops only.\nRnd 3: sc in each st. (12)\n"),
        Passes(f"{_ROUNDS}Rnd 3: Working in back loops only, sc in each st. (12)\n"),
        Passes(f"Work in back loops only.\n\n{_ROUNDS}"),
    ),
    check=_loop_unstated,
)

CLOSING_UNSTATED = Rule(
    name="closing-unstated",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A piece ends with a few stitches, half of those before, and nothing closes them or fastens off.",
    why="The end comes undone, and an opening is left.",
    limits="Only in drafts that fasten off elsewhere, and where no word of closing, sewing or going on follows.",
    source=_PRACTICE,
    examples=(
        Flags(f"{_BODY}HEAD\n{_ROUNDS}⟦Rnd 3⟧: sc2tog around. (6)\n"),
        Passes(f"{_BODY}HEAD\n{_ROUNDS}Rnd 3: sc2tog around. (6)\nFasten off.\n"),
        Passes(f"{_BODY}HEAD\n{_ROUNDS}Rnd 3: sc2tog around. (6)\nGather the last sts.\n"),
        Passes(f"{_BODY}HEAD\n{_ROUNDS}Rnd 3: sc in each st. (12)\n"),
    ),
    check=_closing_unstated,
)

STUFFED_TOO_LATE = Rule(
    name="stuffed-too-late",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A piece is to be stuffed after its opening was closed.",
    why="By then nothing can be put in.",
    limits="Silent where stuffing was spoken of before the piece was closed, and where another part begins in between.",
    source=_PRACTICE,
    examples=(
        Flags(f"{_ROUNDS}Rnd 3: sc2tog around. (6)\nFasten off and draw the hole closed.\n⟦Stuff⟧ the head firmly.\n"),
        Passes(f"{_ROUNDS}Stuff the head.\nRnd 3: sc2tog around. (6)\nFasten off and close the hole.\n"),
        Passes(f"{_ROUNDS}Rnd 3: sc2tog around. (6)\nClose the hole.\n\nARM\n{_ROUNDS}Stuff lightly.\n"),
        Passes(f"{_ROUNDS}Begin stuffing.\nRnd 3: sc2tog around. (6)\nClose the hole. Stuff more if needed.\n"),
    ),
    check=_stuffed_too_late,
)

RULES = (
    TURNING_CHAIN_UNSTATED,
    TURNING_CHAIN_CONTRADICTS,
    JOIN_MISSING,
    TURN_MISSING,
    LOOP_UNSTATED,
    CLOSING_UNSTATED,
    STUFFED_TOO_LATE,
)
