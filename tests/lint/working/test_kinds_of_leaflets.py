"""Small knitted drafts as leaflets and designers write them, one for each kind; every count worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.finding import Level
from rowcall.lint.proof import proof

Counts = list[list[int | None]]

KINDS: dict[str, tuple[str, Counts]] = {
    "full stops behind the abbreviations": (
        "Knitted muffler\n\nCast on 22 sts. loosely.\n"
        "1st row. - Sl. 1, k. to end.\n"
        "2nd row. - Sl. 1, k. 3, p. to last 4 sts., k. 4.\n"
        "3rd row. - Sl. 1, k. 3, * k. 2 tog., wl. fwd., k. 1, wl. fwd., sl. 1, k. 1, p.s.s.o., k. 2; rep. from * to last 4 sts., k. 4.\n"
        "4th row. - K. 1, k. 2 tog., k. to end. (21 sts.)\n",
        [[22], [22], [22], [22], [21]],
    ),
    "stitches that remain, cut short": (
        "Knitted vest\n\nSizes S (M)\nCO 40 (46) sts.\n"
        "BO 5 (6) sts at beg of next 2 rows. 30 (34) sts rem.\n"
        "BO 3 sts at beg of next 2 rows (24 (28) sts rem).\n",
        [[40, 46], [30, 34], [24, 28]],
    ),
    "the cast-on edge is a place": (
        "Knitted hat\n\nCO 20 sts.\nKnit every row until piece measures 6 in from cast on edge.\nRow 1: K2tog, k to end. (19 sts)\n",
        [[20], [20], [19]],
    ),
    "stitches increased, and the count after a dash": (
        "Knitted yoke\n\nCO 20 sts.\nRow 1: K1, m1, k to last st, m1, k1. 2 sts increased - 22 sts.\nRow 2: Knit.\n",
        [[20], [22], [22]],
    ),
    "a row called by its name, at rates": (
        "Knitted sleeve\n\nCO 60 sts.\nDec Row (RS): K1, ssk, k to last 3 sts, k2tog, k1. 58 sts\nPurl 1 row.\n"
        "Rep Dec Row on next RS row, then every RS row 3 more times. 50 sts rem.\n"
        "Rep dec row every 6 rows twice, then every 4 rows twice more. 42 sts\n"
        "Work decrease row every other row until 30 sts rem.\n",
        [[60], [58], [58], [50], [42], [30]],
    ),
    "on in this manner, up to a count": (
        "Knitted thumb gusset\n\nCO 40 sts.\nRnd 1: K1, M1L, k1, M1R, knit to end of rnd. 42 sts\n"
        "Continue in this manner, increasing 2 sts every 3rd rnd, until there are 52 sts.\n",
        [[40], [42], [52]],
    ),
    "the stitches as they face": (
        "Knitted band\n\nCO 12 sts.\nRow 1 (RS): K2, p2, k2, p2, k2, p2.\n"
        "Row 2 and all WS rows: Knit the knits and purl the purls.\nRow 3: K2tog, k to end. (11 sts)\n",
        [[12], [12], [12], [11]],
    ),
    "stitches left for later, and the count of the others": (
        "Knitted front\n\nCO 39 sts.\nRow 1: Knit. (39 sts)\n"
        "Row 2: K2, p2, skpo, k13, turn; leave rem 20 sts on a holder. 18 sts.\n",
        [[39], [39], [18]],
    ),
    "needles of as many stitches each are no sizes": (
        "Knitted sock\n\nCast on 60 stitches and divide over 3 needles (20-20-20). Join in the round.\nRnd 1: Knit. (60)\n",
        [[60], [60]],
    ),
}


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_is_worked_and_nothing_is_corrected(kind: str) -> None:
    text, wanted = KINDS[kind]

    found = proof(Draft.of(text))

    assert [[size.count if size else None for size in one.sizes] for one in found.workings.rounds] == wanted
    assert [one.rule for one in found.findings if one.level is Level.CORRECTION] == []
