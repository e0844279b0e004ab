"""The count table: exact for one size and three, folded into blocks for nine."""

from __future__ import annotations

from by_hand import Entry, hat, proof_by_hand
from rowcall.reports.counts import counts

LEGEND = """\
says: the draft's own count. makes: what the instructions come to. ! the two
differ. - not for this size, or not worked."""


def test_hat_is_printed_exactly_so() -> None:
    # 80 columns less 5 for the names, 6 for the counts, 14 for what is said and 4 between leave 51 for 20 stitches
    assert (
        counts(hat())
        == f"""\
hat.txt

          Small         Medium        Large
           says makes    says makes    says makes
Crown
5  Rnd 1     10    10      10    10      10    10   agrees
6  Rnd 2     15    15      16    15!     15    15   differs
7  Rnd 3     20     -      20     -      20     -   not read
8  Rnd 4           20            20            20   no count

Stitches by round, Small, Crown
Rnd 1    10  {"=" * 26}
Rnd 2    15  {"=" * 38}
Rnd 3     -  not read, says 20
Rnd 4    20  {"=" * 51}

Stitches by round, Medium, Crown
Rnd 1    10  {"=" * 26}
Rnd 2    15  {"=" * 38} ! says 16
Rnd 3     -  not read, says 20
Rnd 4    20  {"=" * 51}

Stitches by round, Large, Crown
Rnd 1    10  {"=" * 26}
Rnd 2    15  {"=" * 38}
Rnd 3     -  not read, says 20
Rnd 4    20  {"=" * 51}

{LEGEND}
3 of 4 rounds worked, 1 agrees, 1 differs, 1 states no count, 1 not read."""
    )


def test_one_size_pieces_and_units() -> None:
    text = "Ear\nRnd 1\nTail\nRnd 2\n"
    entries = (
        Entry("Rnd 1", (6,), (6,)),
        Entry("Rnd 2", (12,), (14,), unit="shells", section=1),
    )

    assert (
        counts(proof_by_hand(text, entries, sections=("Ear", "Tail")))
        == f"""\
hat.txt

                   says makes
Ear
2  Rnd 1              6     6   agrees
Tail
4  Rnd 2, shells     14    12!  differs

Stitches by round, Ear
Rnd 1             6  {"=" * 22}

Stitches by round, Tail
Rnd 2, shells    12  {"=" * 43} ! says 14

{LEGEND}
2 of 2 rounds worked, 1 agrees, 1 differs, 0 state no count, 0 not read."""
    )


def test_nine_sizes_fold_into_blocks_of_80_columns() -> None:
    names = tuple(f"Size {number}" for number in range(1, 10))
    worked = tuple(range(100, 190, 10))
    stated = (*worked[:8], 999)

    lines = counts(proof_by_hand("Rnd 1", [Entry("Rnd 1", worked, stated)], sizes=names)).splitlines()

    assert lines[:13] == [
        "hat.txt",
        "",
        "          Size 1        Size 2        Size 3        Size 4",
        "           says makes    says makes    says makes    says makes",
        "1  Rnd 1    100   100     110   110     120   120     130   130   agrees",
        "",
        "          Size 5        Size 6        Size 7        Size 8",
        "           says makes    says makes    says makes    says makes",
        "1  Rnd 1    140   140     150   150     160   160     170   170   agrees",
        "",
        "          Size 9",
        "           says makes",
        "1  Rnd 1    999   180!  differs",
    ]
    assert max(map(len, lines)) <= 80


def test_a_round_that_differs_says_so_only_beside_the_size() -> None:
    names = tuple(f"Size {number}" for number in range(1, 6))
    entries = [Entry("Rnd 1", (10, 12, 14, 16, 18), (10, 12, 14, 16, 20))]

    lines = counts(proof_by_hand("Rnd 1", entries, sizes=names)).splitlines()

    assert [line for line in lines if line.startswith("1  Rnd 1")] == [
        "1  Rnd 1     10    10      12    12      14    14      16    16   agrees",
        "1  Rnd 1     20    18!  differs",
    ]


def test_long_names_and_labels_are_cut() -> None:
    label = "Rnds 7-16 (7-18, 7-20) of the whole crown up to the very top of it"
    entries = [Entry(label, (10, 12), (10, 12))]
    sizes = ("3 to 6 months and a little more", "adult")

    lines = counts(proof_by_hand(label, entries, sizes=sizes)).splitlines()

    assert lines[2:5] == [
        " " * 31 + "3 to 6 months ...  adult",
        " " * 31 + " says makes         says makes",
        "1  Rnds 7-16 (7-18, 7-20) ..." + "     10    10      " + "     12    12      " + "  agrees",
    ]


def test_no_rounds_are_said() -> None:
    assert counts(proof_by_hand("A poem.")) == ("hat.txt\nNo rounds or rows were found, so there is nothing to count.")


def test_no_control_character_of_a_draft_is_printed() -> None:
    text = "Rnd \x1b[2J1"

    assert "\x1b" not in counts(proof_by_hand(text, [Entry(text, (6,))], sizes=("\x1bS",)))
