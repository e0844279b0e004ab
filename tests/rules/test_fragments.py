"""Fragments of drafts that start in the middle, as corrections of print show them: wrong ones and their mended selves.

Each entry gives the wrong fragment, the line to be spoken of and the rule that does, and the mended fragment, of which
nothing but style may be said. The sums are in the comments.
"""

from __future__ import annotations

import pytest
from rowcall.lint.finding import Level
from rowcall.lint.proof import proof


def told(text: str) -> list[tuple[int, str]]:
    """Return line and rule of each correction and query."""
    seen = proof(text)
    return [
        (seen.draft.position(finding.span.start).line, finding.rule)
        for finding in seen.findings
        if finding.level > Level.STYLE
    ]


FRAGMENTS = [
    # a name before the number of a row: 13 + 1 = 14 on the one side; ssk and k12 are 13 on the other
    (
        "30 sts.\nLeft neck, row 1: K13, k2tog, turn, leave rem 15 sts on holder. 14 sts.\n"
        "Right neck, row 1: from holder ssk, k{}. 14 sts.\n",
        ("12", "13"),
        (3, "count-differs"),
    ),
    # every st of 48 gives 96, each end 50
    ("48 sts.\nFrill, next row (WS): Inc 1 st {}. 96 sts.\n", ("each end", "in every st"), (2, "count-differs")),
    # every other st of 40 gives 60
    ("Tern Collar\n40 sts.\nNext row (RS): Inc in every {}st across. 80 sts.\n", ("other ", ""), (3, "count-differs")),
    ("Tern Collar\n40 sts.\nFrill row: Kfb in every {}st. 80 sts.\n", ("other ", ""), (3, "count-differs")),
    # 18 + 14 + 30 + 14 = 76
    (
        "Tern Sock\n18 heel sts and 30 instep sts.\n"
        "Gusset: k18 heel sts, pick up and knit 14, k30 instep sts, pick up and knit 14. {} sts.\n",
        ("78", "76"),
        (3, "count-differs"),
    ),
    # 48 sts: 9 + 30 + 9 use them all, 9 + 28 + 9 leave two
    (
        "Tern Sock\n18 heel sts and 30 instep sts.\n"
        "Rnd 1: K9, pick up and k 14 along flap, k{} instep sts, pick up and k 14 along flap, k9. 76 sts.\n",
        ("28", "30"),
        (3, "stitches-unaccounted"),
    ),
    # Large has 288: 44 + 56 + 88 + 56 + 44; 58 asks for two more
    (
        "Tern Yoke\nSizes S (M, L). 240 (264, 288) sts.\n"
        "Divide: K36 (40, 44), slip next 48 (52, {}) sts to holder, cast on 8, k72 (80, 88), "
        "slip next 48 (52, 56) sts to holder, cast on 8, k36 (40, 44). 160 (176, 192) sts.\n",
        ("58", "56"),
        (3, "stitches-unaccounted"),
    ),
    # size 2: 11 + 13 + 11 are the 35 there are, 11 + 12 + 11 leave one
    (
        "Tern Strap\nSizes 1 (2). 29 (35) sts: the outer 9 (11) wait on threads, the inner 11 (13) worked 6 rows.\n"
        "Next row: K9 (11), pick up 7 (8), k11 ({0}), pick up 7 (8), k9 (11). 43 ({1}) sts.\n",
        ("12|50", "13|51"),
        (3, "stitches-unaccounted"),
    ),
    # 5 x (3 + 14 + 3) = 100, two fewer than there are
    (
        "Tern Cowl\nJoin in the round. {} sts.\nKnit 2 rounds.\n"
        "Round 3: *K3, pm, work row 1 of cable over 14 sts, pm, k3; rep from * 4 more times.\n",
        ("102", "100"),
        (4, "stitches-unaccounted"),
    ),
    # 24 + 24 + 24 = 72 of 71
    (
        "Tern Back\n71 sts.\nNext row: K24, bind off centre {} sts, k24. 24 sts rem each side.\n",
        ("24", "23"),
        (3, "stitches-unaccounted"),
    ),
    # 1 + 2 + 1 = 4 between the markers
    (
        "Cast on 40 sts.\nRnd 1: K19, pm, k2, pm, k19.\n"
        "Rnd 2: K to marker, slm, m1, k2, m1, slm, k to end. {} sts between markers.\n",
        ("5", "4"),
        (3, "part-count-differs"),
    ),
    # 72 / 9 = 8 holes
    ("Eyelet rnd over 72 sts: *K7, yo, k2tog; rep from * to end ({} eyelets).\n", ("9", "8"), (1, "eyelets-differ")),
    # 72 / 8 = 9 fewer
    ("Tern Hat\n72 sts.\nRnd 5: *K6, k2tog; rep from * to end. {} sts decreased.\n", ("8", "9"), (3, "change-differs")),
    # 40 - 2 = 38 fans in size 2
    (
        "Tern Skirt\nRow 1: 30 (40) fans.\nRow 2 (dec): work as set leaving out one fan at each end. (28 ({}) fans)\n",
        ("37", "38"),
        (3, "shaping-does-not-come-out"),
    ),
    # 20 sts wait on the holder: ssk takes 2, k20 makes 22
    (
        "Tern Back\n44 sts.\nRight neck, row 1: K22, k2tog, turn, leave rem 20 sts on holder. 23 sts.\n"
        "Left neck, row 1: from holder ssk, k{}.\n",
        ("20", "18"),
        (4, "held-stitches-differ"),
    ),
    # 18 + 1 + 18 + 30 = 67
    (
        "Tern Collar\nBand: pick up and knit 18 sts down left neck, 1 st from centre, 18 sts up right neck and 30 sts "
        "at back. {} sts.\n",
        ("68", "67"),
        (2, "count-differs"),
    ),
    # the first row of a fragment goes on from its own count: 45 less two
    (
        "Tern Top\nRow 3: Ch 1, sc in each st across. 45 sc.\n"
        "Row 4: Ch 1, sc2tog, sc in each st to last 2 sts, sc2tog. {} sc.\n",
        ("44", "43"),
        (3, "count-differs"),
    ),
    # size 2: 180 and five in each half are 190
    (
        "Tern Hat\nSizes 1 (2). Body 160 (180) sts in two halves.\n"
        "Next rnd: (K to marker, inc 4 ({}) sts evenly, slm) twice. 168 (190) sts.\n",
        ("4", "5"),
        (3, "evenly-does-not-work"),
    ),
    # 80 - 18 = 62, 31 on each side
    (
        "Tern Front\n{} sts.\nNeck: K32, place next 18 sts on holder, join 2nd ball, k to end. 32 sts each side.\n",
        ("80", "82"),
        (3, "part-count-differs"),
    ),
    # 40 + 32 + 40 = 112, 42 + 34 + 42 = 118
    (
        "Tern Band\nSizes 1 (2).\nPick up and k 40 (42) sts along right front, 32 (34) sts across back neck and "
        "40 (42) sts along left front. 112 ({}) sts.\n",
        ("116", "118"),
        (3, "parts-do-not-add-up"),
    ),
    # rows 13 to 20 are eight; rows 2 to 12 are twelve with row 1
    (
        "Cast on 20 sts.\nRow 1: Knit. 20 sts.\nRows 2-12: Rep row 1. (12 rows)\nRows 13-20: Purl. ({} rows)\n",
        ("7", "8"),
        (4, "rows-total-differs"),
    ),
    # three sizes, and figures for two
    ("Tern Front\nSizes 1 (2, 3).\nCast on 60 (66{}) sts.\n", ("", ", 72"), (3, "figures-miscounted")),
    # size 2: 42 - 2 x 4 = 34
    (
        "Tern Sleeve\nSizes 1 (2). 38 (42) sts.\nBind off 4 sts at beg of next 2 rows. 30 ({}) sts.\n",
        ("36", "34"),
        (3, "count-differs"),
    ),
    # size 2: 26 + 23 + 26 = 75, with 25 one is left
    (
        "Tern Back\nSizes 1 (2). 71 (75) sts.\nNext row: K24 (26), bind off center 23 sts, k24 ({}).\n",
        ("25", "26"),
        (3, "stitches-unaccounted"),
    ),
    # only odd rows are written, and the even ones are declared: row 4 is out of its place, row 5 isn't written
    (
        "Odd-numbered rows are RS rows; all even rows are purled and not given.\nRow 1: K1, yo, k to last st, yo, k1.\n"
        "Row 3: K1, yo, k to last st, yo, k1.\nRow {}: K1, yo, k to last st, yo, k1.\n"
        "Row 7: K1, yo, k to last st, yo, k1.\n",
        ("4", "5"),
        (5, "number-skipped"),
    ),
    # 80 + 30 + 80 + 30 = 220
    (
        "Tern Yoke\nJoin: k80 body sts, k30 sleeve sts, k80 body sts, k30 sleeve sts. {} sts.\n",
        ("210", "220"),
        (2, "count-differs"),
    ),
    # by twos from 41 never to 60
    (
        "Tern Sleeve\n{} sts.\nInc 1 st at each end of next and every foll 6th row until there are 60 sts.\n",
        ("41", "42"),
        (3, "count-differs"),
    ),
    # size 2: 42 - 4 x 4 - 2 x 2 = 22
    (
        "Tern Sleeve\nSizes 1 (2). 38 (42) sts.\n"
        "Bind off 3 (4) sts at beg of next 4 rows, then 2 sts at beg of next 2 rows. 22 ({}) sts rem.\n",
        ("20", "22"),
        (3, "count-differs"),
    ),
    # size 2: 78 - 2 x (5 + 12) = 44
    (
        "Tern Sleeve\nSizes 1 (2). 70 (78) sts.\n"
        "Dec 1 st each end of next 5 (5) rows, then every RS row 10 ({}) times. 40 (44) sts.\n",
        ("13", "12"),
        (3, "count-differs"),
    ),
]


def filled(template: str, words: str) -> str:
    """Put the words in the places that are open, parted by a stroke where there are several."""
    return template.format(*words.split("|"))


WRONG = [(filled(template, words[0]), spoken) for template, words, spoken in FRAGMENTS]
MENDED = [filled(template, words[1]) for template, words, _ in FRAGMENTS]


@pytest.mark.parametrize(("fragment", "spoken"), WRONG)
def test_a_wrong_fragment_is_spoken_of(fragment: str, spoken: tuple[int, str]) -> None:
    assert told(fragment) == [spoken]


@pytest.mark.parametrize("fragment", MENDED)
def test_nothing_is_said_of_a_mended_fragment(fragment: str) -> None:
    assert told(fragment) == []
