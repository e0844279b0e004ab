"""The figures report: a row for each round and size, and nothing in it that a spreadsheet would run."""

from __future__ import annotations

import csv

from by_hand import Entry, hat, proof_by_hand
from rowcall.reports.figures import figures

HEAD = "draft,line,section,round,size,says,makes,unit,standing,reason"


def test_hat_is_written_exactly_so() -> None:
    unread = '20,,sts,unread,"""as the tide allows"" was not understood"'

    assert figures([hat()]).splitlines() == [
        HEAD,
        "hat.txt,5,Crown,Rnd 1,Small,10,10,sts,agrees,",
        "hat.txt,5,Crown,Rnd 1,Medium,10,10,sts,agrees,",
        "hat.txt,5,Crown,Rnd 1,Large,10,10,sts,agrees,",
        "hat.txt,6,Crown,Rnd 2,Small,15,15,sts,agrees,",
        "hat.txt,6,Crown,Rnd 2,Medium,16,15,sts,differs,",
        "hat.txt,6,Crown,Rnd 2,Large,15,15,sts,agrees,",
        f"hat.txt,7,Crown,Rnd 3,Small,{unread}",
        f"hat.txt,7,Crown,Rnd 3,Medium,{unread}",
        f"hat.txt,7,Crown,Rnd 3,Large,{unread}",
        "hat.txt,8,Crown,Rnd 4,Small,,20,sts,unstated,",
        "hat.txt,8,Crown,Rnd 4,Medium,,20,sts,unstated,",
        "hat.txt,8,Crown,Rnd 4,Large,,20,sts,unstated,",
    ]


def test_a_size_that_does_not_work_the_round_has_no_row() -> None:
    proof = proof_by_hand("Rnd 1", [Entry("Rnd 1", (6, None), (6, None))], sizes=("S", "M"))

    assert figures([proof]).splitlines() == [HEAD, "hat.txt,1,,Rnd 1,S,6,6,sts,agrees,"]


def test_several_drafts_share_one_head_and_none_has_only_that() -> None:
    one, two = (proof_by_hand("Rnd 1", [Entry("Rnd 1", (6,))], path=f"{name}.txt") for name in "ab")

    assert figures([one, two]).splitlines() == [
        HEAD,
        "a.txt,1,,Rnd 1,,,6,sts,unstated,",
        "b.txt,1,,Rnd 1,,,6,sts,unstated,",
    ]
    assert figures([]) == HEAD


def test_words_of_a_draft_are_no_formula_and_stay_in_their_cell() -> None:
    label = '=HYPERLINK("x"),\x1b 1'
    proof = proof_by_hand(label, [Entry(label, (6,))], sizes=("-M",), sections=("@home\n",))

    rows = list(csv.reader(figures([proof]).splitlines()))

    assert rows[1] == ["hat.txt", "1", "'@home", '\'=HYPERLINK("x"),\ufffd 1', "'-M", "", "6", "sts", "unstated", ""]
