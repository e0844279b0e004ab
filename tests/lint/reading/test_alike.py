"""Words that stand in a draft again are read as they were the first time, where they stand."""

from __future__ import annotations

from rowcall.lint.draft import Draft
from rowcall.lint.pattern import Pattern, Round
from rowcall.lint.reading import read
from rowcall.lint.steps import Remark, Repeat, Unread, Work


def rounds(text: str) -> tuple[Pattern, tuple[Round, ...]]:
    pattern = read(Draft.of(text))
    return pattern, pattern.rounds


START = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
AGAIN = "*Sc in next 2 sts, sc2tog; rep from * around. (9)"


def test_the_same_words_have_the_same_steps_where_they_stand() -> None:
    text = f"{START}Rnd 3: {AGAIN}\nRnd 4: 12 sc.\nRnd 5: {AGAIN}\n"
    _, (_, _, third, fourth, fifth) = rounds(text)
    first, second = text.index(AGAIN), text.rindex(AGAIN)
    assert third.alike == (first, first)
    assert fifth.alike == (first, second)
    assert fourth.alike != third.alike
    (repeat,) = fifth.steps
    assert isinstance(repeat, Repeat)
    words = [text[step.span.start : step.span.end] for step in repeat.steps]
    assert words == ["Sc in next 2 sts", "sc2tog"]
    assert text[repeat.span.start : repeat.span.end] == "Sc in next 2 sts, sc2tog; rep from * around"
    assert repeat.span.start == second + 1  # behind the star
    (claim,) = fifth.claims
    assert text[claim.span.start : claim.span.end] == "(9)"
    assert claim.span.start == text.rindex("(9)")
    assert claim.figure.values == (9,)


def test_other_words_in_between_make_no_difference() -> None:
    text = f"{START}Rnd 3: Sc around.\n\nSEA\n\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: Sc around.\n"
    _, found = rounds(text)
    # the very first round stands alone, as nothing can be repeated there
    assert [one.alike is not None and one.alike[0] for one in found] == [7, 38, 74, 98, 74]


def test_a_directive_is_taken_for_what_it_is_each_time() -> None:
    text = f"{START}Rnd 3: Rep rnd 2. (24)\nRnd 4: Sc around. (24)\nRnd 5: Rep rnd 2. (48)\n"
    _, found = rounds(text)
    assert [one.directive is not None for one in found] == [False, False, True, False, True]
    assert found[4].alike is None
    assert found[4].directive is not None
    assert found[4].directive.span.start == text.rindex("Rep")


def test_a_word_that_stands_once_may_be_a_stranger_there_alone() -> None:
    text = f"{START}Rnd 3: Sc in each st, xqz around. (12)\nRnd 4: Sc in each st around. (12)\n"
    _, found = rounds(text)
    assert any(isinstance(step, Unread) for step in found[2].steps)
    assert [type(step) for step in found[3].steps if not isinstance(step, Remark)] == [Work]
