"""Gauges in the wordings that drafts have for them."""

from __future__ import annotations

import pytest
from rowcall.lint.draft import Span
from rowcall.lint.materials import Gauge
from rowcall.lint.reading.gauges import gauges
from rowcall.lint.reading.letters import clean
from rowcall.lint.reading.quantities import quantities
from rowcall.lint.trade.tables import spellings


def _gauges(text: str) -> list[Gauge]:
    plain = clean(text)
    whole = Span(0, len(plain))
    return [*gauges(plain, [whole], [*quantities(plain, 0, len(plain))], spellings("crochet", "US"))]


@pytest.mark.parametrize(
    ("text", "stitches", "stitch", "width", "rows", "height"),
    [
        ("Gauge: 14 sc and 16 rows = 4 in", 14, "sc", 4, 16, 4),
        ("Gauge: 14 sc and 16 rows = 10 cm (4 in)", 14, "sc", 4, 16, 4),
        ("Gauge: 10 x 10 cm = 21 dc x 10 rows", 21, "dc", 4, 10, 4),
        ('Gauge: 14 sts and 12 rows to 4" in hdc', 14, "hdc", 4, 12, 4),
        ("Gauge: 6.5 rows x 6 sc = 2” x 2”", 6, "sc", 2, 6.5, 2),
        ('Gauge: 4 sts=1", 4 rows=1"', 4, None, 1, 4, 1),
        ('Gauge: 20 sts/4"', 20, None, 4, None, None),
        ("Gauge: 4.5 sc per inch", 4.5, "sc", 1, None, None),
        ("TENSION.—6 d.c. to the inch", 6, "sc", 1, None, None),
        ("GAUGE - 4dc and 2 rows of dc's measures approx 1 Inch", 4, "dc", 1, 2, 1),
        ("Gauge\n13 sts and 10 rnds in hdc on the 5.0 mm hook = 10 cm", 13, "hdc", 4, 10, 4),
        ('Gauge: first 4 rounds = 4 inches; 13 dc & 7 rows = 4"', 13, "dc", 4, None, None),
    ],
)
def test_gauge(
    text: str, stitches: float, stitch: str | None, width: float, rows: float | None, height: float | None
) -> None:
    terms = "UK" if "TENSION" in text else "US"
    plain = clean(text)
    found = [*quantities(plain, 0, len(plain))]
    one = next(gauges(plain, [Span(0, len(plain))], found, spellings("crochet", terms)))

    assert (one.stitches, one.stitch, one.width, one.rows, one.height) == (stitches, stitch, width, rows, height)


@pytest.mark.parametrize(
    "text",
    ["Gauge isn't critical.", "Gauge is not important", "Tension not critical, just keep it tight", "Gauge: n/a"],
)
def test_a_gauge_that_does_not_matter(text: str) -> None:
    assert [(one.loose, one.stitches) for one in _gauges(text)] == [(True, None)]


def test_the_size_of_the_first_rounds_is_no_gauge_in_stitches() -> None:
    assert [(one.motif, one.stitches, one.rows) for one in _gauges("Gauge: Rnds 1-2 = 2 3/4 in")] == [
        (True, None, None)
    ]


def test_stitches_and_rows_to_an_inch() -> None:
    (one,) = _gauges("Gauge: 14 sc and 18 rows = 4 in")
    assert (one.per_inch, one.rows_per_inch) == (3.5, 4.5)
