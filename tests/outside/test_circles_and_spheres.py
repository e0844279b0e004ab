"""Circles, balls, ovals, squares, first rows, spread increases and crowns: published arithmetic against the working.

Each is written as a draft in words and worked. The drafts state no counts unless the test says so, so that nothing
leads the program to the figure.
"""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Draft
from rowcall.lint.reading import read
from rowcall.lint.working import work
from rowcall.lint.workings import Standing

ORDINALS = {2: "2nd", 3: "3rd", 4: "4th", 5: "5th"}


def counts(text: str) -> list[list[int | None]]:
    """Return the worked counts of a draft, a list a round with one figure a size."""
    workings = work(read(Draft.of(text)))
    return [[size.count if size else None for size in one.sizes] for one in workings.rounds]


def first_size(text: str) -> list[int | None]:
    """Return the worked counts of a draft in one size."""
    return [sizes[0] for sizes in counts(text)]


def sizes_of(text: str, names: str) -> list[list[int | None]]:
    """Return the worked counts of a draft that declares its sizes."""
    return counts(f"Sizes: {names}\n\n{text}")


def flat_circle(start: int, stitch: str, rounds: int) -> str:
    """Write a flat circle: `start` increases a round, one plain stitch more between them from round to round."""
    lines = [f"Rnd 1: {start} {stitch} in magic ring.", f"Rnd 2: 2 {stitch} in each st around."]
    for number in range(3, rounds + 1):
        plain = f"{stitch} in next {number - 2} sts" if number > 3 else f"{stitch} in next st"
        lines.append(f"Rnd {number}: *{plain}, 2 {stitch} in next st; rep from * around.")
    return "\n".join(lines) + "\n"


# ---------------------------------------------------------------- flat circles

# Source: craftymaria.blogspot.com/2009/06/getting-your-circles-flat.html;
# thecrochetbag.blogspot.com/2013/05/all-things-round.html, seen 2026.
# A start of s with s increases a round gives s x n after round n.
FLAT_CIRCLES = [
    ("US", "sc", 6, [6, 12, 18, 24, 30, 36, 42, 48]),
    ("US", "hdc", 8, [8, 16, 24, 32, 40]),
    ("US", "dc", 12, [12, 24, 36, 48]),
    ("UK", "dc", 6, [6, 12, 18, 24]),
    ("UK", "tr", 12, [12, 24, 36]),
]


@pytest.mark.parametrize(("terms", "stitch", "start", "table"), FLAT_CIRCLES)
def test_flat_circle_in_words(terms: str, stitch: str, start: int, table: list[int]) -> None:
    assert first_size(f"{terms} terms\n\n{flat_circle(start, stitch, len(table))}") == table


# Source: as above. Common practice: the start of 16 for treble in US terms.
def test_flat_circle_in_treble() -> None:
    assert first_size(f"US terms\n\n{flat_circle(16, 'tr', 4)}") == [16, 32, 48, 64]


# Source: as above, the table for sc; here in brackets and figures.
def test_flat_circle_in_brackets() -> None:
    draft = """\
R1: 6 sc in magic ring
R2: inc x 6
R3: (1 sc, inc) x 6
R4: (2 sc, inc) x 6
R5: (3 sc, inc) x 6
R6: (4 sc, inc) x 6
R7: (5 sc, inc) x 6
R8: (6 sc, inc) x 6
"""
    assert first_size(draft) == [6, 12, 18, 24, 30, 36, 42, 48]


# Source: as above, the table for dc; the beginning chain counted (dummies.com, how to crochet a turning chain).
@pytest.mark.parametrize(
    ("start", "into"),
    [("Ch 4, join with sl st to form a ring.\n", "in ring"), ("", "in magic ring"), ("", "into a magic ring")],
)
def test_flat_circle_with_beginning_chains_that_count(start: str, into: str) -> None:
    chain = "Ch 3 (counts as dc)"
    join = "join with sl st to top of ch-3"
    draft = f"""\
{start}Rnd 1: {chain}, 11 dc {into}, {join}.
Rnd 2: {chain}, dc in same st, 2 dc in each st around, {join}.
Rnd 3: {chain}, 2 dc in next st, *dc in next st, 2 dc in next st; rep from * around, {join}.
Rnd 4: {chain}, dc in next st, 2 dc in next st, *dc in next 2 sts, 2 dc in next st; rep from * around, {join}.
"""
    assert first_size(draft)[-4:] == [12, 24, 36, 48]


# ---------------------------------------------------------------- balls


# Source: 1000pointsofcreativity.blogspot.com/2012/07 (balls), seen 2026:
# as many even rounds as increase rounds.
@pytest.mark.parametrize(
    ("draft", "table"),
    [
        (
            """\
Rnd 1: 6 sc in magic ring.
Rnd 2: Inc in each st around.
Rnd 3: (Sc 1, inc) 6 times.
Rnd 4: (Sc 2, inc) 6 times.
Rnds 5-8: Sc in each st around.
Rnd 9: (Sc 2, dec) 6 times.
Rnd 10: (Sc 1, dec) 6 times.
Rnd 11: Dec 6 times.
""",
            [6, 12, 18, 24, 24, 18, 12, 6],
        ),
        (
            """\
Rnd 1: 6 sc in magic ring.
Rnd 2: *2 sc in next st; rep from * around.
Rnd 3: *Sc in next st, 2 sc in next st; rep from * around.
Rnd 4: *Sc in next 2 sts, 2 sc in next st; rep from * around.
Rnd 5: *Sc in next 3 sts, 2 sc in next st; rep from * around.
Rnd 6: Sc in each st around.
Rnds 7-10: Rep Rnd 6.
Rnd 11: *Sc in next 3 sts, sc2tog; rep from * around.
Rnd 12: *Sc in next 2 sts, sc2tog; rep from * around.
Rnd 13: *Sc in next st, sc2tog; rep from * around.
Rnd 14: *Sc2tog; rep from * around.
""",
            [6, 12, 18, 24, 30, 30, 30, 24, 18, 12, 6],
        ),
    ],
)
def test_ball_goes_up_even_and_down(draft: str, table: list[int]) -> None:
    assert first_size(draft) == table


# Source: "The Ideal Crochet Sphere" (article): round i of N has C x sin(180 x (i - 0.5) / N) stitches.
# N = 12, C = 36; the spread of the increases within a round is our own.
def test_ideal_ball() -> None:
    draft = """\
Rnd 1: 5 sc in magic ring.
Rnd 2: 2 sc in next st, 3 sc in each of next 4 sts.
Rnd 3: (Sc 1, inc) 6 times, inc twice.
Rnd 4: (Sc 2, inc) 7 times, sc 1.
Rnd 5: (Sc 6, inc) 4 times, sc 1.
Rnd 6: (Sc 10, inc) 3 times.
Rnd 7: Sc in each st around.
Rnd 8: (Sc 10, dec) 3 times.
Rnd 9: (Sc 6, dec) 4 times, sc 1.
Rnd 10: (Sc 2, dec) 7 times, sc 1.
Rnd 11: Dec twice, (sc 1, dec) 6 times.
Rnd 12: (Sc3tog) 4 times, sc2tog.
"""
    assert first_size(draft) == [5, 14, 22, 29, 33, 36, 36, 33, 29, 22, 14, 5]


# ---------------------------------------------------------------- ovals


# Source: offthehookcrochetdesign.com/post/crochet-an-oval, seen 2026: on a chain of c, sc from the 2nd link,
# 3 in the last link and 2 in the first on the way back make 2(c - 1) + 2; then 6 more a round.
def test_oval_grows_by_six() -> None:
    draft = """\
Ch 7.
Rnd 1: Sc in 2nd ch from hook, sc in next 4 ch, 3 sc in last ch, working along the other side of the chain \
sc in next 4 ch, 2 sc in last ch.
Rnd 2: 2 sc in next st, sc in next 4 sts, 2 sc in each of next 3 sts, sc in next 4 sts, 2 sc in each of next 2 sts.
Rnd 3: Sc 1, inc, sc 4, (sc 1, inc) 3 times, sc 4, (sc 1, inc) twice.
Rnd 4: Sc 2, inc, sc 4, (sc 2, inc) 3 times, sc 4, (sc 2, inc) twice.
"""
    assert first_size(draft) == [7, 14, 20, 26, 32]


# Source: as above; with 4 in each end link it is 2(c - 1) + 4.
@pytest.mark.parametrize(
    ("chain", "words", "after"),
    [
        (5, "Sc in 2nd ch from hook, sc in next 2 ch, 3 sc in last ch, on the other side sc in next 2 ch, 2 sc", 10),
        (6, "2 sc in 2nd ch from hook, sc in next 3 ch, 4 sc in last ch, on the other side sc in next 3 ch, 2 sc", 14),
    ],
)
def test_first_round_of_an_oval(chain: int, words: str, after: int) -> None:
    assert first_size(f"Ch {chain}.\nRnd 1: {words} in last ch.\n") == [chain, after]


# ---------------------------------------------------------------- squares


# Source: thecrochetbag.blogspot.com/2013/05/all-things-round.html, seen 2026: 3 in each corner, 8 more a round.
def test_square_in_sc() -> None:
    draft = """\
Rnd 1: 4 sc in magic ring.
Rnd 2: 3 sc in each st around.
Rnd 3: *Sc in next st, 3 sc in next st, sc in next st; rep from * around.
Rnd 4: *Sc in next 2 sts, 3 sc in next st, sc in next 2 sts; rep from * around.
"""
    assert first_size(draft) == [4, 12, 20, 28]


# Source: thecrochetbag.blogspot.com/2013/05/all-things-round.html, seen 2026: corners of (2 dc, ch 2, 2 dc) give sides
# of 3, 7, 11 and so 4(4n - 1) in all.
def test_solid_square_in_dc() -> None:
    chain = "Ch 3 (counts as dc)"
    corner = "(2 dc, ch 2, 2 dc) in next ch-2 sp"
    join = "join with sl st to top of ch-3"
    draft = f"""\
Ch 4, join with sl st to form a ring.
Rnd 1: {chain}, 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times, {join}.
Rnd 2: {chain}, dc in next 2 dc, {corner}, *dc in next 3 dc, {corner}; rep from * twice more, {join}.
Rnd 3: {chain}, dc in next 4 dc, {corner}, *dc in next 7 dc, {corner}; rep from * twice more, dc in next 2 dc, {join}.
"""
    assert first_size(draft)[1:] == [12, 28, 44]


# Common practice: groups of 3 dc, 12 more dc a round.
def test_square_of_groups() -> None:
    chain = "ch 3 (counts as dc)"
    join = "join with sl st to top of ch-3"
    draft = f"""\
Ch 4, join with sl st to form a ring.
Rnd 1: {chain}, 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times, {join}.
Rnd 2: Sl st in next 2 dc and in next ch-2 sp, {chain}, (2 dc, ch 2, 3 dc) in same sp, ch 1, \
*(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * twice more, {join}.
Rnd 3: Sl st in next 2 dc and in next ch-2 sp, {chain}, (2 dc, ch 2, 3 dc) in same sp, ch 1, 3 dc in next ch-1 sp, \
ch 1, *(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1, 3 dc in next ch-1 sp, ch 1; rep from * twice more, {join}.
"""
    assert first_size(draft)[1:] == [12, 24, 36]


# ---------------------------------------------------------------- first rows on a chain

# Source: dummies.com (how to crochet a turning chain); crochetcabanablog.wordpress.com/resources/turning-chains;
# crochetbug.com (ripple), seen 2026. Wanted: 10 stitches. Stitch, chain worked first into, links to chain when the
# skipped ones don't count and when they do (sc: never).
FIRST_ROWS = [
    ("sc", 2, 11, None),
    ("hdc", 3, 12, 11),
    ("dc", 4, 13, 12),
    ("tr", 5, 14, 13),
]
IN_BOTH_WAYS = [
    (stitch, nth, chain)
    for stitch, nth, apart, counted in FIRST_ROWS
    for chain in (apart, counted)
    if chain is not None
]


def first_row(chain: int, stitch: str, nth: int, stated: str = "") -> str:
    return f"Ch {chain}.\nRow 1: {stitch} in {ORDINALS[nth]} ch from hook and in each ch across.{stated}\n"


def standings(text: str) -> list[Standing]:
    return [one.standing for one in work(read(Draft.of(text))).rounds]


@pytest.mark.parametrize(("stitch", "nth", "chain"), IN_BOTH_WAYS)
def test_ten_stitches_agree_with_the_chain_of_either_way(stitch: str, nth: int, chain: int) -> None:
    draft = first_row(chain, stitch, nth, f" (10 {stitch})")

    assert standings(draft) == [Standing.UNSTATED, Standing.AGREES]
    assert first_size(draft) == [chain, 10]


@pytest.mark.parametrize(("stitch", "nth", "apart", "counted"), FIRST_ROWS)
def test_a_link_more_or_less_than_either_way_differs(stitch: str, nth: int, apart: int, counted: int | None) -> None:
    for chain in (apart + 1, (counted or apart) - 1):
        assert standings(first_row(chain, stitch, nth, f" (10 {stitch})")) == [Standing.UNSTATED, Standing.DIFFERS]


# Source: dummies.com (how to crochet a turning chain), seen 2026:
# the chain of sc doesn't count, that of dc and taller stitches does. 30 dc: ch 32.
@pytest.mark.parametrize(("stitch", "nth", "chain", "made"), [("sc", 2, 31, 30), ("dc", 4, 32, 30), ("tr", 5, 33, 30)])
def test_where_no_count_is_stated_the_usual_way_holds(stitch: str, nth: int, chain: int, made: int) -> None:
    assert first_size(first_row(chain, stitch, nth)) == [chain, made]


# Source: as above; the draft says itself whether the skipped links count, and states no number.
@pytest.mark.parametrize(("stitch", "nth", "chain"), [(stitch, nth, chain) for stitch, nth, _, chain in FIRST_ROWS[1:]])
def test_skipped_links_that_are_said_to_count(stitch: str, nth: int, chain: int) -> None:
    words = f"{stitch} in {ORDINALS[nth]} ch from hook (skipped ch count as {stitch}), {stitch} in each ch across."

    assert first_size(f"Ch {chain}.\nRow 1: {words}\n") == [chain, 10]


@pytest.mark.parametrize(("stitch", "nth", "chain"), [(stitch, nth, chain) for stitch, nth, chain, _ in FIRST_ROWS])
def test_skipped_links_that_are_said_not_to_count(stitch: str, nth: int, chain: int) -> None:
    draft = f"US terms. The skipped ch do not count as a st.\n\n{first_row(chain, stitch, nth)}"

    assert first_size(draft) == [chain, 10]


# Source: crochetcabanablog.wordpress.com/resources/turning-chains, seen 2026: 11 hdc on 12 links or on 13.
@pytest.mark.parametrize(
    ("chain", "standing"),
    [(11, Standing.DIFFERS), (12, Standing.AGREES), (13, Standing.AGREES), (14, Standing.DIFFERS)],
)
def test_hdc_is_disputed(chain: int, standing: Standing) -> None:
    assert standings(first_row(chain, "hdc", 3, " (11 hdc)"))[1] is standing


# Source: ravenscrochet.com/foundation-single-crochet, seen 2026: n of them are n stitches.
@pytest.mark.parametrize("number", [8, 20, 101])
def test_a_start_without_a_chain(number: int) -> None:
    assert first_size(f"Row 1: Fsc {number}, turn.\nRow 2: Sc in each st across.\n") == [number, number]


# ---------------------------------------------------------------- increases and decreases spread


# Source: knitabit.net/wisdom/increaseevenly.htm; 10rowsaday.com/evenly-increase-decrease; "Knitting and the Magic
# Formula" (article): into how many groups of how many stitches the row is cut. The words are our own: an increase
# goes into the last stitch of its group.
@pytest.mark.parametrize(
    ("before", "words", "after"),
    [
        (100, "(Sc 9, inc) 10 times", 110),
        (100, "(Sc 8, inc) 10 times, sc 9, inc", 111),
        (100, "(Sc 5, inc) 16 times, sc 4", 116),
        (140, "(Sc 5, inc, sc 6, inc) 10 times, sc 5, inc, sc 4", 161),
        (48, "Sc 1, inc, (sc 3, inc) 11 times, sc 2", 60),
        (48, "*Sc 7, inc; rep from * around", 54),
        (48, "*Sc 6, sc2tog; rep from * around", 42),
    ],
)
def test_increases_spread_by_groups(before: int, words: str, after: int) -> None:
    assert first_size(f"Rnd 1: Fsc {before}, join.\nRnd 2: {words}.\n") == [before, after]


# Source: as above; the draft leaves the groups to the maker.
@pytest.mark.parametrize(
    ("before", "words", "after"),
    [
        (48, "Sc around, increasing 6 sts evenly", 54),
        (100, "Sc around, increasing 11 sts evenly", 111),
        (80, "Sc around, decreasing 10 sts evenly", 70),
    ],
)
def test_increases_spread_evenly_without_groups(before: int, words: str, after: int) -> None:
    assert first_size(f"Rnd 1: Fsc {before}, join.\nRnd 2: {words}.\n") == [before, after]


# ---------------------------------------------------------------- crowns


# Source: knitty.com/ISSUEsummer06/PATTmaze.html, seen 2026: 9 [10] wedges of 14 stitches lose 9 [10] a round.
def test_crown_of_nine_and_ten_wedges() -> None:
    rounds = [f"Rnd {n}: (Sc {plain}, sc2tog) 9 [10] times." for n, plain in enumerate(range(12, 0, -1), 2)]
    draft = "\n".join(["Rnd 1: Fsc 126 [140], join.", *rounds, "Rnd 14: (Sc2tog) 9 [10] times."])

    assert sizes_of(draft, "Small [Large]") == [
        [126, 140],
        [117, 130],
        [108, 120],
        [99, 110],
        [90, 100],
        [81, 90],
        [72, 80],
        [63, 70],
        [54, 60],
        [45, 50],
        [36, 40],
        [27, 30],
        [18, 20],
        [9, 10],
    ]


# Source: interweave.com (hat crown decreases explained), seen 2026: 80 = 8 x 10; 84 and 88 likewise.
@pytest.mark.parametrize(
    ("start", "plain", "table"),
    [
        (80, 8, [80, 72, 64, 56, 48, 40, 32, 24, 16, 8]),
        (84, 10, [84, 77, 70, 63, 56, 49, 42, 35, 28, 21, 14, 7]),
        (88, 9, [88, 80, 72, 64, 56, 48, 40, 32, 24, 16, 8]),
    ],
)
def test_crown_by_wedges_to_the_end(start: int, plain: int, table: list[int]) -> None:
    lines = [f"Rnd 1: Fsc {start}, join."]
    lines += [f"Rnd {plain + 2 - n}: *Sc {n}, sc2tog; rep from * around." for n in range(plain, 0, -1)]
    lines.append(f"Rnd {plain + 2}: *Sc2tog; rep from * around.")

    assert first_size("\n".join(lines)) == table


# Source: interweave.com (hat crown decreases explained), seen 2026: three quarters, a half and a quarter of the start.
def test_fast_crown() -> None:
    draft = """\
Rnd 1: Fsc 96, join.
Rnd 2: (Sc 2, sc2tog) around.
Rnd 3: (Sc 1, sc2tog) around.
Rnd 4: (Sc2tog) around.
"""
    assert first_size(draft) == [96, 72, 48, 24]


# Source: jenjoycedesign.com/2012/08/16/percentage-systems, seen 2026: a quarter, then a third fewer.
# Common practice: the last round, two in five fewer.
def test_round_yoke_in_three_decrease_rounds() -> None:
    draft = """\
Rnd 1: Fsc 200, join.
Rnd 2: *Sc 2, sc2tog; rep from * around.
Rnd 3: *Sc 1, sc2tog; rep from * around.
Rnd 4: *Sc 1, sc2tog twice; rep from * around.
"""
    assert first_size(draft) == [200, 150, 100, 60]


# ---------------------------------------------------------------- how repeats are read


# Source: mooglyblog.com/crochet-pattern-symbols; craftymaria.blogspot.com/2009/06/getting-your-circles-flat.html, 2026.
@pytest.mark.parametrize(
    ("before", "words", "after"),
    [
        (24, "(3 sc, inc) x 6", 30),
        (30, "(3 sc, dec) x 6", 24),
        (24, "*inc, 3 sc; rep 5 times", 30),
        (16, "(inc, inc, 2 sc) x 4", 24),
    ],
)
def test_repeats_of_shaping(before: int, words: str, after: int) -> None:
    assert first_size(f"Rnd 1: Fsc {before}, join.\nRnd 2: {words}\n") == [before, after]


# Source: hookabee.com/tag/crochet-terms, seen 2026.
def test_a_row_with_a_figure_a_size() -> None:
    draft = "Row 1: Fsc 11 (12, 13), turn.\nRow 2: Sc 7 (8, 9), sc2tog, sc 2.\n"

    assert sizes_of(draft, "S (M, L)") == [[11, 12, 13], [10, 11, 12]]
