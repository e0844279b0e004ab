"""Small drafts of shawls, lace, mittens and other small knitted things; counts worked by hand."""

from __future__ import annotations

import pytest
from rowcall.lint.proof import proof
from worked import Counts, corrections, counts

KINDS: dict[str, tuple[str, Counts]] = {
    "plain rows behind the cast-on, in one sentence with it": (
        "Cast on 30 sts and k 3 rows.\nRow 1: K28, k2tog.\n",
        [[30], [29]],
    ),
    "one plain row behind the cast-on": (
        "Cast on 10 stitches, and knit one plain row.\n1st row: K8, k2tog.\n",
        [[10], [9]],
    ),
    "wool forward in letters with full stops": (
        "Cast on 7 sts.\n1st row: K.1, w.f., k. to last st., w.f., k.1 (9 sts.).\n2nd row: K.1, p. to last st., k.1.\n"
        "3rd row: K.1, y.fwd., k.2 tog. t.b.l., wl.r.n., k.2 tog., k. to end.\n",
        # two forwards; then each of two made is taken away again
        [[7], [9], [9], [9]],
    ),
    "two together in a line by themselves": (
        "Cast on 12 sts.\n1st row: (K. 2 tog.) to end. (6 sts.)\n",
        [[12], [6]],
    ),
    "wool forward before a slipped stitch that is passed over": (
        "Cast on 10 sts.\n1st row: K.1, w.f., sl.1, k.2 tog., p.s.s.o., w.f., k. to end.\n2nd row: K.1, w.f., sl.1, k. to end.\n",
        # 1, one made, three to one, one made, 6; then the wool is only moved
        [[10], [10], [10]],
    ),
    "rows of a pattern by number, and one like an earlier one": (
        "Cast on 9 sts.\n1st patt. row: K1, yo, k to last st, yo, k1.\n2nd and every alternate row: P.\n"
        "3rd patt. row: K1, yo, k to last st, yo, k1. 13 sts\n4th patt. row: As 2nd.\n",
        [[9], [11], [11], [13], [13]],
    ),
    "a repeat up to the centre stitch, and another behind it": (
        "Cast on 21 sts.\nRow 1: K3, yo, k1, *yo, k2tog; rep from * to centre st, yo, k1, yo, *k2tog, yo; "
        "rep from * to last 4 sts, k1, yo, k3.\nRow 2: K to 1 st before centre st, cdd, k to end.\n"
        "Row 3: K to centre 3 sts, k3tog, k to end.\n",
        # 10 on each side of the middle: 4 and three pairs; one made at each end and each side of it
        [[21], [25], [23], [21]],
    ),
    "a tab: picked up along its side and its cast-on": (
        "Cast on 3 sts. Knit 6 rows. Do not turn; pick up 3 sts along the long edge, then 3 sts from the cast-on = 9 sts.\n"
        "Row 1: K3, p3, k3.\n",
        [[9], [9]],
    ),
}


@pytest.mark.parametrize("kind", KINDS)
def test_each_round_comes_to_its_count(kind: str) -> None:
    text, expected = KINDS[kind]

    assert counts(text) == expected
    assert corrections(text) == []


def test_the_parts_of_a_tab_are_not_all_that_it_has() -> None:
    text = (
        "Knitted shawl\n\nCast on 3 sts. Knit 6 rows. Rotate work, pick up and knit 3 sts along the edge, rotate again and "
        "pick up and knit 3 sts from cast-on edge. 9 sts\nRow 1: K9.\n"
    )

    assert [finding.rule for finding in proof(text).findings if finding.rule == "parts-do-not-add-up"] == []


def test_a_declared_row_that_is_said_again_at_the_end_is_no_new_plan() -> None:
    text = (
        "Cast on 9 sts.\nRow 1: K1, yo, k to last st, yo, k1.\nRow 2 and every alternate row: P.\n"
        "Row 3: K1, yo, k to last st, yo, k1.\nRow 5: K1, yo, k to last st, yo, k1.\nRow 6: As Row 2.\n"
    )

    assert [finding.rule for finding in proof(text).findings if finding.rule == "elision-end-unstated"] == []
