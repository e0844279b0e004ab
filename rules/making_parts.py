"""Making: which parts are made and sewn on, and care for small children."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..lint.draft import Span
from ..lint.finding import Aside, Level
from ..lint.later import later
from .rule import Case, Flags, Passes, Rule, Said
from .sums import join_words

_FAMILY = "making"
_PRACTICE = "common practice of tech editing"

# ---------------------------------------------------------------- parts

_PARTS = tuple(
    "ear arm leg wing fin tail horn hoof foot paw beak nose snout muzzle trunk mane tusk antler spike petal leaf "  # noqa: SIM905
    "flower stem pocket strap handle collar hood sleeve flap sole pompom".split()
)
_IRREGULAR = {"foot": "feet", "hoof": "hooves", "leaf": "leaves"}
_NUMBERS = {"one": 1, "both": 2, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "eight": 8}
_MAKE = later(r"(?i)\b(?:make|work)\s+(?P<number>\d|one|two|three|four|five|six|eight)\b|[x\u00d7]\s*(?P<times>\d)\b")
_SEW = later(r"(?i)\b(?:sew|attach|stitch|pin)(?:ing)?\s+(?:on\s+)?(?P<rest>[^.\n;]{0,80})")


def _word_of(part: str) -> str:
    many = _IRREGULAR.get(part, part + "s")
    return rf"(?:{part}|{many})"


def _titles(case: Case) -> list[tuple[str, str, int | None]]:
    """Return the part that each section makes, its title, and how many of it where the draft says so."""
    return case.once("parts by their titles", lambda: _parts_titled(case))


def _parts_titled(case: Case) -> list[tuple[str, str, int | None]]:
    found: list[tuple[str, str, int | None]] = []
    for section in case.pattern.sections:
        title = section.title or ""
        start = section.span.start
        line = case.draft.text[start : start + 120].split("\n")
        words = f"{title} {' '.join(line[:2])}"
        for part in _PARTS:
            if re.search(rf"(?i)\b{_word_of(part)}\b", title):
                match = _MAKE.search(words)
                number = (match["number"] or match["times"]).lower() if match else ""
                found.append((part, title, int(number) if number.isdigit() else _NUMBERS.get(number)))
    return found


def _part_not_made(case: Case) -> Iterator[Said]:
    titles = _titles(case)
    if len(case.pattern.sections) < 3 or not titles:
        return
    text = case.draft.text
    made = {part for part, _, _ in titles}
    for match in _SEW.finditer(text):
        for part in _PARTS:
            word = re.search(rf"(?i)^(?:the\s+|both\s+|two\s+|four\s+)?(?P<part>{_word_of(part)})\b", match["rest"])
            if word is None or part in made:
                continue
            named = re.findall(rf"(?i)\b{_word_of(part)}\b", text)
            start = match.start("rest") + word.start("part")
            if len(named) == 1:
                made.add(part)
                yield Said(
                    Span(start, start + len(word["part"])),
                    f'"{word["part"]}" is sewn on, and no part of the draft makes it',
                )


_ALL_PARTS = later(
    r"(?i)\b(?:all|every\w*|parts|pieces|assembl\w+|limbs|rest|features|as\s+(?:shown|pictured|in\s+the))\b"
)


def _part_not_used(case: Case) -> Iterator[Said]:
    titles = _titles(case)
    if len(titles) < 3:
        return
    text = case.draft.text
    joined = list(_SEW.finditer(text))
    if len(joined) < 2 or _ALL_PARTS.search(text):
        return
    for part, title, _ in titles:
        named = re.findall(rf"(?i)\b{_word_of(part)}\b", text)
        here = _title_span(case, title)
        own = text[here.start :].split("\n\n", 1)[0]
        if len(named) == 1 and not re.search(r"(?i)\bsew|attach|join", own):
            yield Said(here, f'"{title.strip(" :")}" is made, and nothing says where it goes')


def _title_span(case: Case, title: str) -> Span:
    start = case.draft.text.find(title)
    return Span(max(0, start), max(0, start) + len(title))


def _pieces_differ(case: Case) -> Iterator[Said]:
    titles = _titles(case)
    for part in {one for one, _, _ in titles}:
        numbers = [number for one, _, number in titles if one == part]
        if None in numbers:
            continue
        made = sum(number or 0 for number in numbers)
        sewn = re.search(
            rf"(?i)\b(?:sew|attach|pin)\s+(?:on\s+)?(?:the\s+)?(?P<many>both|two|three|four|five|six|eight|\d)\s+(?P<part>{_word_of(part)})\b",
            case.draft.text,
        )
        if sewn is None:
            continue
        many = int(sewn["many"]) if sewn["many"].isdigit() else _NUMBERS[sewn["many"].lower()]
        if made != many:
            what = sewn["part"].lower()
            verb = "is" if made == 1 else "are"
            yield Said(Span(*sewn.span("many")), f"{many} {what} are sewn on, and {made} {verb} made")


_FASTENS = later(r"(?i)\b(?:fasten|finish|end)(?:ed)?\s+off\b|\bbind\s+off\b|\bcast\s+off\b|\bFO\b")
_TAIL_SAID = later(
    r"(?i)\b(?:leav\w+|long|yarn|cut\w*)\b[^.\n]{0,30}\btails?\b|\btails?\s+(?:for|to)\b|\bends?\s+(?:for|to)\s+sew|\blong\s+ends?\b|"
    r"\b(?:length|yarn)\s+(?:of\s+yarn\s+)?(?:for|to)\s+sew|\benough\s+yarn\b"
)
_EVERYWHERE = later(r"(?i)\b(?:all|each|every|always|pieces|parts)\b")


def _tail_unstated(case: Case) -> Iterator[Said]:
    """Report the parts that are fastened off and sewn on later, with no word of a tail to sew them on with."""
    titles = _titles(case)
    if not titles:
        return
    text = case.draft.text
    sewn = " ".join(match["rest"] for match in _SEW.finditer(text))
    starts = [section.span.start for section in case.pattern.sections] + [len(text)]
    lacking: list[tuple[str, Span]] = []
    for part, title, _ in titles:
        here = _title_span(case, title)
        end = next((start for start in sorted(starts) if start > here.start), len(text))
        own = text[here.start : end].split("\n\n")
        words = "\n\n".join(own[:2]) if len(own[0]) <= len(title) + 20 else own[0]
        off = _FASTENS.search(words)
        if off is None or not re.search(rf"(?i)\b{_word_of(part)}\b", sewn):
            continue
        if _TAIL_SAID.search(words) or any(_EVERYWHERE.search(line) for line in _lines_of_tails(text)):
            continue
        lacking.append((title.strip(" :"), Span(here.start + off.start(), here.start + off.end())))
    if lacking:
        names = join_words([f'"{name}"' for name, _ in lacking])
        verb, them = ("is", "it") if len(lacking) == 1 else ("are", "them")
        asides = tuple(Aside(span, "nor here") for _, span in lacking[1:])
        yield Said(lacking[0][1], f"{names} {verb} sewn on, and nothing says to leave a tail for {them}", asides=asides)


def _lines_of_tails(text: str) -> Iterator[str]:
    """Give the sentences that speak of tails of yarn."""
    for match in _TAIL_SAID.finditer(text):
        start = max(text.rfind(sign, 0, match.start()) for sign in ".\n") + 1
        end = min((at for sign in ".\n" if (at := text.find(sign, match.end())) >= 0), default=len(text))
        yield text[start:end]


# ---------------------------------------------------------------- children

_CHILD = later(
    r"(?i)\b(?:bab(?:y|ies)|newborns?|new\s+born|preemies?|toddlers?|infants?|children|child(?:'s)?|kids?|nursery|\d+\s*(?:-\s*\d+\s*)?(?:months?|mths?|mos?))\b"
)
_FOR_CHILD = later(r"(?i)\b(?:baby|sport)\s+(?:weight|yarn|wool|wt)\b")
_RISKY = ("button", "bead", "safety eye", "bell", "snap", "cord")


def _care(case: Case) -> Iterator[Said]:
    materials = case.pattern.materials
    if materials.cautions:
        return
    head = case.draft.text[: case.pattern.rounds[0].span.start] if case.pattern.rounds else case.draft.text
    names = " ".join(case.pattern.sizes.names)
    titles = " ".join(section.title or "" for section in case.pattern.sections)
    small = _CHILD.search(_FOR_CHILD.sub("", head)) or _CHILD.search(names) or _CHILD.search(titles)
    risky = [
        one for one in (*materials.notions, *materials.notions_used) if one.kind in _RISKY and _is_thing(case, one.span)
    ]
    if small is None or not risky:
        return
    things = join_words(sorted({_MANY[one.kind] for one in risky}))
    yield Said(
        risky[0].span,
        f"{things} on a piece for a baby or small child, and no word of caution: small parts and cords are a hazard, "
        "and the rules of the place of sale go before any pattern",
        sum=("the usual caution: sew parts on firmly, keep cords short, never leave a child alone with it",),
    )


_MANY = {
    "button": "buttons",
    "bead": "beads",
    "safety eye": "safety eyes",
    "bell": "bells",
    "snap": "snaps",
    "cord": "cords or ribbons",
}


def _is_thing(case: Case, span: Span) -> bool:
    """Tell whether a word is the thing itself and not a name: `BUTTON BOOTS`, `the buoy bell`."""
    line = case.draft.text[: span.start].count("\n")
    return line > 2 and not re.match(
        r"(?i)[\s-]*(?:boots?|holes?|band|stitch|st\b|loop)", case.draft.text[span.end : span.end + 10]
    )


# ---------------------------------------------------------------- the rules

_ROUNDS = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each sc. (12)\n"
_BODY = f"BODY\n{_ROUNDS}Fasten off.\n\n"
_EARS = f"EARS (make 2)\n{_ROUNDS}Fasten off.\n\n"
_TAIL = f"TAIL\n{_ROUNDS}Fasten off.\n\n"
_CAP = "Cap\n\nBaby size\nMaterials: wool\n"

PART_NOT_MADE = Rule(
    name="part-not-made",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A part is sewn on that no section of the draft makes.",
    why="The maker looks for a pattern that isn't there.",
    limits="Only in drafts of three sections or more with titles, for parts such as ears, arms and "
    "handles, and where the word stands nowhere else.",
    source=_PRACTICE,
    examples=(
        Flags(f"{_BODY}{_EARS}{_TAIL}FINISHING\nSew the ⟦wings⟧ to the back. Sew on the ears and the tail.\n"),
        Passes(f"{_BODY}{_EARS}{_TAIL}FINISHING\nSew the ears to the top. Sew on the tail.\n"),
        Passes(f"{_BODY}Sew the wings to the back.\n"),
        Passes(f"{_BODY}{_EARS}{_TAIL}Cut the wings from felt.\nSew the wings to the back, and the ears and tail.\n"),
    ),
    check=_part_not_made,
)

PART_NOT_USED = Rule(
    name="part-not-used",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A part is made, others are sewn on, and this one is never spoken of again.",
    why="The maker is left with a part and no place for it.",
    limits="Only among three titled parts or more of which at least two are sewn on.",
    source=_PRACTICE,
    examples=(
        Flags(
            f"{_BODY}{_EARS}{_TAIL}⟦NOSE⟧\n{_ROUNDS}Fasten off.\n\nFINISHING\n"
            "Sew the ears to the head.\nSew the tail to the back.\n"
        ),
        Passes(f"{_BODY}{_EARS}{_TAIL}FINISHING\nSew the ears to the head.\nSew the tail to the back.\n"),
        Passes(
            f"{_BODY}{_EARS}{_TAIL}NOSE\n{_ROUNDS}Sew to the head.\n\n"
            "FINISHING\nSew the ears and the tail on.\nSew all up.\n"
        ),
        Passes(f"{_BODY}{_EARS}"),
    ),
    check=_part_not_used,
)

PIECES_DIFFER = Rule(
    name="pieces-to-make-differ",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="The number of pieces to make is not the number that is sewn on.",
    why="The maker has a piece too few or too many.",
    limits="Only where both numbers are said. Pieces with a title in common (front legs, back legs) are added up.",
    source=_PRACTICE,
    examples=(
        Flags(f"{_BODY}{_EARS}FINISHING\nSew the ⟦four⟧ ears to the head.\n"),
        Passes(f"{_BODY}{_EARS}FINISHING\nSew both ears to the head.\n"),
        Passes(
            f"{_BODY}FRONT LEGS (make 2)\n{_ROUNDS}\nBACK LEGS (make 2)\n{_ROUNDS}\nSew the four legs to the body.\n"
        ),
        Passes(f"{_BODY}{_EARS}FINISHING\nSew the ears to the head.\n"),
    ),
    check=_pieces_differ,
)

TAIL_UNSTATED = Rule(
    name="tail-unstated",
    family=_FAMILY,
    level=Level.STYLE,
    finds="Parts that are fastened off and sewn on later, with no word of a tail to sew them on with.",
    why="A maker who has cut the yarn short must join a new one to sew the part on.",
    limits="Said once for all such parts, and only for parts with titles, such as ears, arms and handles. A word of "
    "tails for all pieces is enough.",
    source=_PRACTICE,
    examples=(
        Flags(f"{_BODY}EARS (make 2)\n{_ROUNDS}⟦Fasten off⟧.\n\nFINISHING\nSew the ears to the head.\n"),
        Flags(
            f"{_BODY}EARS (make 2)\n{_ROUNDS}Fasten off and leave a tail.\n\nTAIL\n{_ROUNDS}⟦Fasten off⟧.\n\n"
            "FINISHING\nSew on the ears and the tail.\n".replace("TAIL", "NOSE").replace("the tail", "the nose")
        ),
        Passes(f"{_BODY}EARS (make 2)\n{_ROUNDS}Fasten off and leave a long tail.\n\nSew the ears to the head.\n"),
        Passes(f"Leave a tail on all pieces.\n\n{_BODY}{_EARS}FINISHING\nSew the ears to the head.\n"),
        Passes(f"{_BODY}{_EARS}FINISHING\nWeave in all ends.\n"),
    ),
    check=_tail_unstated,
)

CARE = Rule(
    name="care-for-small-children",
    family=_FAMILY,
    level=Level.QUERY,
    finds="Buttons, beads, bells, cords or safety eyes on a piece for a baby or small child, with no word of caution.",
    why="Small parts can be swallowed, and cords can strangle. Makers who sell the piece have rules to keep.",
    limits="Any word of caution in the draft is enough. What is allowed differs from place to place: this rule "
    "only asks, and the rules of the place where the piece is sold or given go before it.",
    source="the caution usual in the trade; local rules on toys and children's clothing",
    examples=(
        Flags(f"{_CAP}a ⟦button⟧\n\n{_ROUNDS}Fasten off.\n"),
        Passes(f"{_CAP}a button\n\n{_ROUNDS}Sew the button on. Small parts are a choking hazard.\n"),
        Passes(f"Cap\n\nAdult size\nMaterials: wool\na button\n\n{_ROUNDS}Fasten off.\n"),
        Passes(f"{_CAP}\n{_ROUNDS}Fasten off.\n"),
        Passes(f"Cap\n\nBaby weight yarn\nMaterials: wool\na button\n\n{_ROUNDS}Fasten off.\n"),
    ),
    check=_care,
)

RULES = (PART_NOT_MADE, PART_NOT_USED, PIECES_DIFFER, TAIL_UNSTATED, CARE)
