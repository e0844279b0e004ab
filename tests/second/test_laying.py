"""The laying itself, against counts worked by hand."""

from __future__ import annotations

import pytest

from second.instructions import (
    BeginningChain,
    ChainSpace,
    Decrease,
    FromHook,
    Group,
    InEach,
    InEachSpace,
    InLastChain,
    InRing,
    InSame,
    InSpace,
    Line,
    MagicRing,
    OtherSide,
    Part,
    Pattern,
    Repeat,
    Round,
    Skip,
    SkipSpace,
    Step,
    Stitches,
)
from second.laying import DoesNotFit, Place, Row, lay, lay_round, spaces, stitches

ONE = (1,)
INC = Stitches("sc", ONE, each=2)


def sc(number: int) -> Stitches:
    return Stitches("sc", (number,))


def row(number: int) -> Row:
    """Return a row of single crochet."""
    return (Place("sc"),) * number


def counts(steps: tuple[Step, ...], below: Row) -> tuple[int, int]:
    """Lay a round and count its stitches and spaces."""
    after = lay_round(steps, below, 0)
    return stitches(after), spaces(after)


# A crown of six wedges: 6, 12, 18, 24, 30.
def test_a_crown_grows_by_six() -> None:
    wedges = [Round((Repeat((sc(n), INC), (6,)),), ONE) for n in (1, 2, 3)]
    lines: tuple[Line, ...] = (Round((InRing("sc", (6,)),), ONE), Round((InEach("sc", each=2),), ONE), *wedges)

    assert [stitches(after) for after in lay(Pattern((), MagicRing(), lines, "sc"), 0)] == [6, 12, 18, 24, 30]


# Twelve chains: one is skipped, ten are worked up to the last, which holds three; back over nine, and two in the end:
# 1 + 9 + 3 + 9 + 2 = 24.
def test_an_oval_goes_around_both_sides_of_its_chain() -> None:
    steps = (FromHook("sc", 2), sc(9), InLastChain("sc", 3), OtherSide(), sc(9), INC)

    assert counts(steps, (Place("link"),) * 12) == (24, 0)


# Six stitches hold one shell of five and the stitch between two shells.
def test_shells_keep_the_count() -> None:
    shell = (sc(1), Skip((2,)), Stitches("dc", ONE, each=5), Skip((2,)))

    assert counts((Repeat(shell),), row(36)) == (36, 0)


# A square of 12 with four corners: each corner makes 4 of 1 and a space, the 2 stitches beside it stay: 4 * (4 + 2).
# In the next round each side has 6 stitches and each corner space takes 4 more: 4 * (6 + 4).
def test_a_square_grows_at_its_corners() -> None:
    corner = (Part("dc", 2), Part("ch", 2), Part("dc", 2))
    first = lay_round((Repeat((Group(corner), Stitches("dc", (2,))), (4,)),), row(12), 0)
    second = (Repeat((Stitches("dc", (2,)), InSpace(corner, 2), Stitches("dc", (4,))), (4,)),)

    assert (stitches(first), spaces(first)) == (24, 4)
    assert counts(second, first) == (40, 4)


LACE = lay_round((Repeat((sc(2), ChainSpace(1), Skip(ONE))),), row(12), 0)  # 4 times 2 stitches and a space


@pytest.mark.parametrize(
    ("steps", "wanted"),
    [
        ((InEach("sc"),), (8, 0)),  # the spaces are passed over
        ((InEach("sc", in_space=1),), (12, 0)),  # 8 and 4
        ((InEach("sc", in_space=2),), (16, 0)),  # 8 and 2 * 4
        ((InEachSpace((Part("dc", 3),), 1),), (12, 0)),  # 3 * 4
        ((Repeat((sc(2), ChainSpace(2), SkipSpace(1))),), (8, 4)),  # space over space
    ],
)
def test_what_is_worked_on_lace(steps: tuple[Step, ...], wanted: tuple[int, int]) -> None:
    assert counts(steps, LACE) == wanted


@pytest.mark.parametrize(
    ("below", "steps", "after"),
    [
        (10, (InEach("sc"),), 10),
        (10, (InEach("sc", leave=(2,)), Decrease("sc", 2, ONE)), 9),
        (20, (Repeat((sc(2), INC), leave=(2,)), Stitches("sc", (2,), last=True)), 26),  # 6 times 3 makes 24, and 2
        (12, (Decrease("sc", 3, (4,)),), 4),
        (20, (Repeat((Repeat((sc(1), INC), (2,)), sc(1))),), 28),  # 4 times 5 makes 4 times 7
        (12, (BeginningChain(3, counts=True, kind="dc"), InSame("dc"), InEach("dc", each=2)), 24),
        (12, (BeginningChain(3, counts=True, kind="dc"), InEach("dc")), 12),
        (12, (BeginningChain(1, counts=False, kind="sc"), InSame("sc"), sc(11)), 12),
    ],
)
def test_a_round_on_plain_stitches(below: int, steps: tuple[Step, ...], after: int) -> None:
    assert counts(steps, row(below)) == (after, 0)


@pytest.mark.parametrize(
    "steps",
    [
        (sc(9),),  # one left over
        (sc(11),),  # one short
        (Repeat((sc(2), INC)),),  # three doesn't go into ten
        (Repeat((sc(2), INC), leave=(2,)), sc(2)),  # nor into eight
        (InSpace((Part("sc", 1),), 1), sc(10)),  # no space there
    ],
)
def test_what_does_not_fit_is_not_laid(steps: tuple[Step, ...]) -> None:
    with pytest.raises(DoesNotFit):
        lay_round(steps, row(10), 0)
