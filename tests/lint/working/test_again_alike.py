"""Rounds in the same words: worked alike on the same row, each with its own place, and by itself where it differs."""

from __future__ import annotations

from rowcall.lint.draft import Draft
from rowcall.lint.reading import read
from rowcall.lint.working import work
from rowcall.lint.workings import RoundWorking, Standing

START = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
DECREASED = "*Sc in next 2 sts, sc2tog; rep from * around."
INCREASED = "*Sc in next 2 sts, 2 sc in next st; rep from * around."


def worked(text: str) -> tuple[RoundWorking, ...]:
    return work(read(Draft.of(text))).rounds


def counts(text: str) -> list[int | None]:
    return [size.count if size else None for one in worked(text) for size in one.sizes]


def test_on_the_same_row_they_come_to_the_same_and_show_their_own_words() -> None:
    text = f"{START}Rnd 3: {DECREASED} (9)\nRnd 4: {INCREASED} (12)\nRnd 5: {DECREASED} (9)\nRnd 6: {INCREASED} (12)\n"
    found = worked(text)
    assert counts(text) == [6, 12, 9, 12, 9, 12]
    for index, start in ((2, text.index("Sc in next")), (4, text.rindex("Sc in next 2 sts, sc2tog"))):
        size = found[index].sizes[0]
        assert size is not None
        (item,) = size.items
        assert (item.times, item.uses, item.makes) == (3, 4, 3)
        assert item.span.start == start


def test_on_another_row_they_come_to_another_count() -> None:
    text = f"{START}Rnd 3: {INCREASED}\nRnd 4: Sc around.\nRnd 5: *Sc, inc; rep from * around.\nRnd 6: {INCREASED}\n"
    assert counts(text) == [6, 12, 16, 16, 24, 32]


def test_one_that_covers_several_rounds_is_worked_as_often() -> None:
    text = f"{START}Rnd 3: 2 sc in each st around.\nRnd 4: Sc in each st around.\nRnds 5-6: 2 sc in each st around.\n"
    assert counts(text) == [6, 12, 24, 24, 96]


def test_a_wrong_count_is_wrong_each_time() -> None:
    wrong = "Sc in each st around. (11)"
    text = f"{START}Rnd 3: {wrong}\nRnd 4: Sc in next 12 sts. (12)\nRnd 5: {wrong}\nRnd 6: Sc in next 12 sts. (12)\n"
    found = worked(text)
    assert [one.standing for one in found[2:]] == [Standing.DIFFERS, Standing.AGREES, Standing.DIFFERS, Standing.AGREES]


def test_each_size_has_its_own_row() -> None:
    text = (
        "Sizes: Small (Large)\n\nRnd 1: Fsc 12 (16), join. 12 (16) sc\nRnd 2: *Sc, inc; rep from * around.\n"
        "Rnd 3: *Sc, sc2tog; rep from * around. 12 (16) sc\nRnd 4: *Sc, inc; rep from * around.\n"
    )
    assert counts(text) == [12, 16, 18, 24, 12, 16, 18, 24]
