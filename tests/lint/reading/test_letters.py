"""Look-alike letters are replaced one for one."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from rowcall.lint.reading.letters import clean


@given(st.text())
@example("\u0130\u0131\u2026\ufeff\r\n\u2028")
def test_length_never_changes(text: str) -> None:
    assert len(clean(text)) == len(text)


@given(st.text())
def test_cleaning_twice_is_cleaning_once(text: str) -> None:
    assert clean(clean(text)) == clean(text)


# l, I and O are left out: beside figures they stand for the digits of a scanned number; `<12>` is a bracket
@given(st.text(alphabet=st.characters(min_codepoint=32, max_codepoint=126, exclude_characters="`lIO<")))
def test_keyboard_text_stays_as_it_is(text: str) -> None:
    assert clean(text) == text


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("Rnds 5–9", "Rnds 5-9"),
        ("Rnds 5—9", "Rnds 5-9"),
        ("5−9", "5-9"),
        ("(sc, inc) × 6", "(sc, inc) x 6"),
        ("“blo” of each st’s", '"blo" of each st\'s'),
        ("∗sc, inc∗", "*sc, inc*"),
        ("＊sc（2）", "*sc(2)"),
        ("sc\u00a07", "sc 7"),
        ("sc\t7", "sc 7"),
        ("\u0441h 3, d\u0441", "ch 3, dc"),
        ("\u0421h 3", "Ch 3"),
        ("\u0131nc", "inc"),
        ("st…", "st."),
        ("a\r\nb", "a\n\nb"),
        ("5½ in, 3¼", "5½ in, 3¼"),
    ],
)
def test_look_alikes(written: str, read: str) -> None:
    assert clean(written) == read
