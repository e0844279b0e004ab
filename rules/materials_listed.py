"""Materials: colours and notions, listed and used."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..lint.finding import Aside, Level
from ..lint.later import later
from ..lint.materials import Notion
from .materials import body_start, line_of
from .rule import Case, Flags, Passes, Rule, Said
from .sums import join_words

_FAMILY = "materials"
_LISTS = "common practice of tech editing: every thing used is listed, every thing listed is used"

# ---------------------------------------------------------------- colours


def _colour_unlisted(case: Case) -> Iterator[Said]:
    materials = case.pattern.materials
    listed = [colour.letter for colour in materials.colours]
    if len(listed) < 2:
        return
    told: set[str] = set()
    for colour in materials.colours_used:
        if colour.letter in listed or colour.letter in told or _is_named_between(case, colour.letter):
            continue
        told.add(colour.letter)
        said = join_words([f'"{letter}"' for letter in listed])
        yield Said(colour.span, f'colour "{colour.letter}" is not listed, the materials have {said}')


def _is_named_between(case: Case, letter: str) -> bool:
    """Tell whether words between the rounds introduce a letter: `Colour D: the scraps`."""
    explained = rf"\b{letter}\s*(?:=|:|\()|\({letter}\)|(?i:colou?r|yarn)\s+{letter}\s+(?:is|=|:)"
    return re.search(explained, case.draft.text) is not None


def _colour_unused(case: Case) -> Iterator[Said]:
    materials = case.pattern.materials
    if not case.pattern.rounds or len(materials.colours) < 3:
        return
    rest = case.draft.text[max(colour.span.end for colour in materials.colours) :]
    idle = [colour for colour in materials.colours if not re.search(rf"(?<![\w'-]){colour.letter}(?![\w'-])", rest)]
    if len(idle) == 1 and len(materials.colours_used) >= 2:
        yield Said(idle[0].span, f'colour "{idle[0].letter}" is listed and not used')


# ---------------------------------------------------------------- notions


_ATTACHED = later(
    r"(?i)\b(?:sew|sewing|attach|insert|add|fix|stitch)\b(?:\s+(?:on|in|the|a|an|your|both|two|three|four|five|six|\d+|large|small|round|"
    r"matching|safety|eyes|and))*\s*$"
)
_LISTING = later(r"(?im)^[\W_]*(?:materials?|supplies|(?:what\s+)?you(?:'ll|\s+will)?\s+need|notions|requirements)\b")
_ASKED_FOR = frozenset({"button", "safety eye", "bell", "snap", "zip"})
_IF_LIKED = later(r"(?i)\b(?:optional|if\s+(?:you\s+)?(?:like|wish|want|desired)|may|could|or)\b")
_NUMBERED = {"button": "button", "safety eye": "eye", "bell": "bell", "snap": "snap", "bead": "bead"}


def _sewn_on(case: Case, notion: Notion) -> bool:
    before = case.draft.text[max(0, notion.span.start - 60) : notion.span.start]
    return bool(_ATTACHED.search(before)) and not _IF_LIKED.search(line_of(case, notion.span))


def _notion_unlisted(case: Case) -> Iterator[Said]:
    materials = case.pattern.materials
    head = case.draft.text[: body_start(case)]
    listing = _LISTING.search(head)
    listed = {notion.kind for notion in materials.notions}
    told: set[str] = set()
    for notion in materials.notions_used:
        if notion.kind not in _ASKED_FOR or notion.kind in listed | told or listing is None:
            continue
        if _sewn_on(case, notion) and not _is_made(case, notion.kind):
            told.add(notion.kind)
            message = f'"{case.words(notion.span)}" is sewn on or put in, and the list of materials has none'
            yield Said(notion.span, message)
    yield from _number_of_notions(case)


def _is_made(case: Case, kind: str) -> bool:
    """Tell whether the thing is worked in the draft itself: a section called `Button`."""
    return any(kind.rsplit(maxsplit=1)[-1] in (section.title or "").lower() for section in case.pattern.sections)


def _number_of_notions(case: Case) -> Iterator[Said]:
    """Report a listed number of buttons that is not the number sewn on."""
    materials = case.pattern.materials
    for kind, noun in _NUMBERED.items():
        listed = [one for one in materials.notions if one.kind == kind and one.number]
        sewn = [one for one in materials.notions_used if one.kind == kind and one.number and _sewn_number(case, one)]
        if len(listed) == 1 and len(sewn) == 1 and listed[0].number != sewn[0].number:
            have, want = listed[0].number, sewn[0].number
            message = f"{want} {noun}{'s' if want != 1 else ''} sewn on, {have} listed"
            yield Said(sewn[0].span, message, asides=(Aside(listed[0].span, "listed here"),))


def _sewn_number(case: Case, notion: Notion) -> bool:
    before = case.draft.text[max(0, notion.span.start - 60) : notion.span.start]
    return re.search(r"(?i)\b(?:sew|attach|insert)\b(?:\s+on)?(?:\s+the)?\s+(?:\w+\s+){1,3}$", before) is not None


def _notion_unused(case: Case) -> Iterator[Said]:
    materials = case.pattern.materials
    start = body_start(case)
    rest = case.draft.text[start:].lower()
    if not rest.strip():
        return
    for notion in materials.notions:
        word = notion.kind.split()[-1]
        if notion.kind not in _ASKED_FOR or notion.span.start >= start or _IF_LIKED.search(line_of(case, notion.span)):
            continue
        if (
            word not in rest
            and case.draft.text.lower().count(word) == 1
            and re.search(r"\b(?:sew|fasten|finish)", rest)
        ):
            yield Said(notion.span, f'"{case.words(notion.span)}" stands in the list and is not used')


# ---------------------------------------------------------------- the rules

_HEAD = "Cap\nMaterials: DK wool, 4 mm hook\n"
_ROUNDS = "Rnd 1: Ch 2, 6 sc in 2nd ch from hook. (6)\nRnd 2: 2 sc in each sc. (12)\n"

COLOUR_UNLISTED = Rule(
    name="colour-unlisted",
    family=_FAMILY,
    level=Level.CORRECTION,
    finds="The rounds use a colour by a letter that the materials don't list.",
    why="A maker can't tell which yarn is meant, and may lack it.",
    limits="Silent where fewer than two colours are listed by letters, and where the letter is explained elsewhere.",
    source=_LISTS,
    examples=(
        Flags(f"Cap\nWool in colours A, B and C\n\n{_ROUNDS}Rnd 3: With ⟦D⟧, sc in each sc. (12)\n"),
        Passes(f"Cap\nWool in colours A, B and C\n\n{_ROUNDS}Rnd 3: With C, sc in each sc. (12)\n"),
        Passes(f"Cap\nWool\n\n{_ROUNDS}Rnd 3: With D, sc in each sc. (12)\n"),
        Passes(f"Cap\nWool in colours A and B, D hook\n\n{_ROUNDS}Rnd 3: With D hook, sc in each sc. (12)\n"),
    ),
    check=_colour_unlisted,
)

COLOUR_UNUSED = Rule(
    name="colour-unused",
    family=_FAMILY,
    level=Level.QUERY,
    finds="A colour is listed by a letter and never used, though others are.",
    why="A maker buys yarn for nothing, or a change of colour has been lost from the draft.",
    limits="Only with three or more listed letters, of which all but one are used.",
    source=_LISTS,
    examples=(
        Flags(
            f"Cap\nWool in colours A, B and ⟦C⟧\n\nWith A:\n{_ROUNDS}Rnd 3: With B, sc in each sc. (12)\n"
            "Rnd 4: With A, sc in each sc. (12)\n"
        ),
        Passes(
            f"Cap\nWool in colours A, B and C\n\nWith A:\n{_ROUNDS}Rnd 3: With B, sc in each sc. (12)\n"
            "Rnd 4: With C, sc in each sc. (12)\n"
        ),
        Passes(f"Cap\nWool in colours A and B\n\n{_ROUNDS}Rnd 3: With A, sc in each sc. (12)\n"),
        Passes(f"Cap\nWool in colours A, B and C, changed as you like\n\n{_ROUNDS}"),
    ),
    check=_colour_unused,
)

NOTION_UNLISTED = Rule(
    name="notion-unlisted",
    family=_FAMILY,
    level=Level.QUERY,
    finds="Buttons, safety eyes, bells, snaps or a zip are sewn on that the materials don't list in that number.",
    why="A maker has to buy them before the piece can be finished.",
    limits="Silent without a list of materials, for what is optional, and for what the draft makes itself. Markers and "
    "needles for sewing are not asked for.",
    source=_LISTS,
    examples=(
        Flags(f"{_HEAD}\n{_ROUNDS}Sew on the ⟦button⟧.\n"),
        Flags(f"Cap\nMaterials: wool, three buttons\n\n{_ROUNDS}Sew on four ⟦buttons⟧.\n"),
        Passes(f"Cap\nMaterials: wool, a button\n\n{_ROUNDS}Sew on the button.\n"),
        Passes(f"{_HEAD}\n{_ROUNDS}Sew on a button if you like.\n"),
        Passes(f"{_HEAD}\n{_ROUNDS}\nBUTTON\nRnd 1: 6 sc in magic ring. (6)\nSew on the button.\n"),
    ),
    check=_notion_unlisted,
)

NOTION_UNUSED = Rule(
    name="notion-unused",
    family=_FAMILY,
    level=Level.STYLE,
    finds="Buttons, safety eyes, bells, snaps or a zip are listed, and the draft never says where they go.",
    why="A maker buys them for nothing, or a step has been lost.",
    limits="Silent for what is optional, and in drafts that say nothing of finishing.",
    source=_LISTS,
    examples=(
        Flags(f"Cap\nMaterials: wool, a ⟦button⟧\n\n{_ROUNDS}Fasten off.\n"),
        Passes(f"Cap\nMaterials: wool, a button\n\n{_ROUNDS}Fasten off. Sew on the button.\n"),
        Passes(f"Cap\nMaterials: wool, a button (optional)\n\n{_ROUNDS}Fasten off.\n"),
        Passes(f"Cap\nMaterials: wool, a marker\n\n{_ROUNDS}Fasten off.\n"),
    ),
    check=_notion_unused,
)

RULES = (COLOUR_UNLISTED, COLOUR_UNUSED, NOTION_UNLISTED, NOTION_UNUSED)
