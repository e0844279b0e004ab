"""Small drafts, one for each kind of writing on which a brute-force worker once disagreed; every count worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.finding import Level
from rowcall.lint.proof import proof

Counts = list[list[int | None]]

KINDS: dict[str, tuple[str, Counts]] = {
    "a repeat that names its round on the next line": (
        "Rnd 1: 6 sc in ring (6)\nRnd 2: inc in each st (12)\nRnds 3-4: Repeat\nRnd 2 (48)\nRnd 5: sc in each st (48)\n",
        [[6], [12], [48], [48]],
    ),
    "a repeat without a heading that names its round on the next line": (
        "Rnd 1: 6 sc in ring (6)\nRnd 2: inc in each st (12)\nRepeat\nRnd 2 twice more. (48)\n",
        [[6], [12], [48]],
    ),
    "a repeat that names its round with a count after a colon": (
        "Round 1. 6 sc in ring: 6 sc\n"
        "Round 2. Inc in every st: 12 sc\n"
        "Round 3. Sc in every st: 12 sc\n"
        "Rounds 4-5. Repeat\n"
        "Rnd 2: 48 sc\n",
        [[6], [12], [12], [48]],
    ),
    "plain rounds whose number ends a line": (
        "Sizes: S, M, L\n\nRnd 1: 9 (13, 17) sc in ring\nRnds 2-3 (2-4, 2-5): Work 2 (3, 4)\nrnds even\n",
        [[9, 13, 17], [9, 13, 17]],
    ),
    "a count after a join that ends in an abbreviation": (
        "Ch 28 and join with a sl st to first ch.\n"
        "Rnd 1: Ch 2 (not a st), hdc in each ch around, join with sl st. 28 hdc.\n"
        "Rnd 2: Ch 2 (not a st), [hdc 13, 2 hdc in next st] twice, join with sl st. 30 hdc.\n",
        [[28], [28], [30]],
    ),
    "a last step that happens to be the stitches before it": (
        "Rnd 1: 9 sc in magic ring.\nRnd 2: 3sc; dec; 4sc.\n",
        [[9], [8]],
    ),
    "a line that goes on after a semicolon with words of no stitch": (
        "Ch 8.\n"
        "Rnd 1: 2 sc in 2nd ch from hook; sc in next 5 sts; 3 sc in last ch;\n"
        "continue along other side of\n"
        "foundation chain; sc in next 5 sts; 2 sc in last st. {17}\n",
        [[8], [17]],
    ),
    "together on a line of its own": (
        "Rnd 1: 21 hdc in ring (21)\n"
        "Rnd 2: hdc in each st around to last 2 sts, hdc next 2 sts\n"
        "tog.\n"
        "Rnd 3: hdc in each st (20)\n",
        [[21], [20], [20]],
    ),
    "a starred repeat that begins a line and skips": (
        "Rnd 1: 14 sc in ring (14)\nRnd 2: sc 2,\n* sc 1, skip 2 sts, 5 dc in next st, skip 2 sts *\nrepeat around. (14)\n",
        [[14], [14]],
    ),
    "a figure before a bracketed count": (
        "Sizes: S, M, L, XL\n"
        "\n"
        "Chain 44/53/62/71 and join with a sl st to first ch.\n"
        "R1 - Dc in each ch (44/53/62/71)\n"
        "R2 - Dc in each st around to last st, inc 1 (45/54/63/72)\n",
        [[44, 53, 62, 71], [44, 53, 62, 71], [45, 54, 63, 72]],
    ),
    "a list of figures after the number of a round": (
        "Sizes: S, M, L\n"
        "\n"
        "Rnd 1: (11, 15, 19) hdc in magic ring: (11, 15, 19) sts\n"
        "Rnd 2: Hdc around: (11, 15, 19) sts\n"
        "Rnd 3: 1 hdc in each st to last st, inc: (12, 16, 20) sts\n"
        "Repeat Rnds 2 and 3 (4, 4, 4) times more: (16, 20, 24) sts\n",
        [[11, 15, 19], [11, 15, 19], [12, 16, 20], [16, 20, 24]],
    ),
    "a list of figures before a closing star": (
        "Sizes S (M, L)\n\nRnd 1: 12 (16, 20) sc in ring\nRnd 2: *2 sc in next st, sc(2, 3, 4)* 4 times\n",
        [[12, 16, 20], [16, 20, 24]],
    ),
    "a line in small letters that begins with the name of a part": (
        "Chain 13.\n"
        "Rnd 1 - Sc in 2nd ch from hook, sc in next 10 ch, 3 sc in last ch; on the other\n"
        "side of the ch sc in next 10 ch, 2 sc in the last ch\n"
        "(26 sc)\n",
        [[13], [26]],
    ),
    "a count of stitches and spaces below a repeat of rounds": (
        "Rnd 1: 17 sc in ring (17)\n"
        "Rnd 2: [2 dc, ch 2, 2 dc] in next st, sc in each st around. (20 sts, 1 2-ch\n"
        "space)\n"
        "Rep Rnd 2 once more.\n"
        "(23 sts, 1 2-ch\n"
        "space)\n",
        [[17], [20], [23]],
    ),
}


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_is_worked_and_nothing_is_corrected(kind: str) -> None:
    text, wanted = KINDS[kind]

    found = proof(Draft.of(text))

    assert [[size.count if size else None for size in one.sizes] for one in found.workings.rounds] == wanted
    assert [one.rule for one in found.findings if one.level is Level.CORRECTION] == []


@pytest.mark.parametrize(
    ("text", "rounds"),
    [
        ("Rnd 1: 6 sc in ring\nRnd 2: inc in each st\nRnd 3: sc in each st\nRnds 4-6: Repeat\nRnd 3.\n", [1, 1, 1, 3]),
        ("Rnd 1: 6 sc in ring\nRnd 2: inc in each st\nWork even for 2\nrnds\n", [1, 1, 2]),
        ("Rnd 1: 6 sc in ring\nRnd 2: inc in each st\nRep\nrnd 2 twice more.\n", [1, 1, 2]),
        ("Rnd 1: 6 sc in ring\nRnd 2: inc in each st\nRnd 3: sc in each st\nRnds 4-7: Rep\nRnds 2-3.\n", [1, 1, 1, 4]),
    ],
)
def test_rounds_named_on_the_next_line_are_counted(text: str, rounds: list[int]) -> None:
    found = proof(Draft.of(text))

    assert [one.sizes[0].rounds if one.sizes[0] else None for one in found.workings.rounds] == rounds


@pytest.mark.parametrize(
    ("text", "line"),
    [
        # 18 stitches: the increase is one, so that there are 19 and not 21
        ("Rnd 1: 18 dc in ring. 18 dc.\nRnd 2: Dc in next 4 sts; inc; dc in each st to end. 21 dc.\n", 2),
        # 14 stitches in two groups of a shell and a single crochet each make 14 and not 13
        (
            "Rnd 1: 14 sc in ring (14)\n"
            "Rnd 2: sc 1, skip 2 sts, 5 dc in next st, skip 2 sts, sc 1,\n"
            "* skip 2 sts, 5 dc in next st, skip 2 sts, sc 2 *\n"
            "repeat around. (13)\n",
            4,
        ),
        ("Rnd 1: 28 sc in ring (28)\nRnd 2: [sc 13, inc] to end, join with sl st. 31 sc.\n", 2),
    ],
)
def test_a_wrong_count_is_corrected(text: str, line: int) -> None:
    found = proof(Draft.of(text))
    corrections = [one for one in found.findings if one.level is Level.CORRECTION]

    assert [(one.rule, text.count("\n", 0, one.span.start) + 1) for one in corrections] == [("count-differs", line)]


@pytest.mark.parametrize(
    "words",
    [
        "Sc in e24 sc",  # letters glued to a figure are what is left of a word
        "Sc i24 sc",
        "Sc in ne24 sc",
        "*Sc 2, inc; r24 sc",
        "Sc in each st a24",
        "Sc in each sund",  # no form of sun
    ],
)
def test_what_is_left_of_a_word_is_not_worked(words: str) -> None:
    found = proof(Draft.of(f"Rnd 1: 24 sc in ring (24)\nRnd 2: {words}.\n"))

    assert [one.sizes[0].count if one.sizes[0] else None for one in found.workings.rounds] == [24, None]


@pytest.mark.parametrize(
    "words", ["With CC2, sc in each st", "With colour B2, sc in each st", "Sc in each st (see R3)"]
)
def test_names_of_colours_and_rounds_are_no_destroyed_words(words: str) -> None:
    found = proof(Draft.of(f"Rnd 1: 24 sc in ring (24)\nRnd 2: {words}.\n"))

    assert [one.sizes[0].count if one.sizes[0] else None for one in found.workings.rounds] == [24, 24]
