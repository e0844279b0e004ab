"""The tick sheet: a longhand to print and make from, with a box and the count for each round and room for notes."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from ..lint.longhand import Longhand
from ..lint.outputs import SheetForm
from .entries import Entry, Talk, entries
from .longhand import page, plain, tabled, title_of
from .words import cells, folded, safe

_WIDTH = 80
_HOLD = "\u00a0"
_BLANKS = (
    ("Made by", "Begun", "Done"),
    ("Yarn and colours", "Hook or needles"),
    ("Gauge got (sts and rounds to 10 cm or 4 in)",),
)
_REPORT = (
    "Rounds in which your count was another one (which, and what you had)",
    "Words that you had to read twice, or that say two things",
    "Gauge before washing, and after",
    "The finished piece, measured where the pattern gives its measurements",
    "Yarn used, by weight or length, a colour",
    "Hours",
    "Where it didn't fit, hold or look as it should; anything that could be unsafe for whom it is meant",
)


def ticks_report(written: Longhand, form: SheetForm = SheetForm.TEXT, width: int = _WIDTH) -> str:
    """Return the tick sheet of a longhand in a form; `width` is that of a screen or page of text."""
    match form:
        case SheetForm.TEXT | SheetForm.SCREEN:
            return "\n".join(_text(written, width))
        case SheetForm.MARKDOWN:
            return "\n".join(_markdown(written))
        case SheetForm.HTML:
            return page(_title(written), _html(written))


def _title(written: Longhand) -> str:
    size = f", size {safe(written.size)}" if written.size else ""
    return f"{title_of(written)}: tick sheet{size}"


def _doubts(written: Longhand) -> list[Entry]:
    return [one for one in entries(written) if isinstance(one, Entry) and one.doubt]


def _text(written: Longhand, width: int) -> Iterator[str]:
    yield from folded(_title(written), width)
    yield ""
    for blanks in _BLANKS:
        yield _blank_line(blanks, width)
    yield ""
    title = title_of(written)
    for one in entries(written):
        if isinstance(one, Talk):
            if one.text.strip(" *#_=-") != title:
                yield from folded(one.text, width)
            continue
        lead = f"[ ] {one.label}" if one.boxes == ("",) else one.label
        told = "  ".join(filter(None, (lead, one.turn, one.count)))
        room = width - cells(told) - len("  Notes: ")
        yield f"{told}  Notes: {'.' * room}" if room >= 10 else told
        if one.boxes != ("",):
            # a box is not broken over two lines
            boxes = folded(" ".join(f"[{_HOLD}]{name}" for name in one.boxes), width, first="    ")
            yield from (line.replace(_HOLD, " ") for line in boxes)
        yield from folded(" ".join(one.words), width, first="    ")
        if one.doubt:
            yield from folded(f"Doubtful: {one.doubt}.", width, first="    ")
    yield ""
    yield "To report back"
    for number, what in enumerate(_REPORT, start=1):
        yield from folded(f"{what}:", width, first=f"{number}. ")
        yield "   " + "." * (width - 3)
    for one in _doubts(written):
        yield from folded(f"{one.label}: {one.doubt}. You had:", width, first="   ")
        yield "   " + "." * (width - 3)


def _blank_line(names: tuple[str, ...], width: int) -> str:
    room = (width - sum(len(name) + 2 for name in names) - 2 * (len(names) - 1)) // len(names)
    return "  ".join(f"{name}: {'.' * max(room, 6)}" for name in names)


def _markdown(written: Longhand) -> Iterator[str]:
    yield f"# {plain(_title(written))}"
    yield ""
    for blanks in _BLANKS:
        yield from (f"- {name}: {'.' * 30}" for name in blanks)
    yield ""
    title = title_of(written)
    for one in entries(written):
        if isinstance(one, Talk):
            if one.text.strip(" *#_=-") == title:
                continue
            yield f"\n## {plain(one.text)}\n" if one.title else f"{plain(one.text)}  " if one.text.strip() else ""
            continue
        passes = f" ({one.turn})" if one.turn else ""
        count = f", {plain(one.count)}" if one.count else ""
        for name in one.boxes:
            label = f"{plain(one.label)}{f', {name}' if name else ''}"
            yield f"- [ ] **{label}**{passes}{count}: {plain(' '.join(one.words))}"
        if one.doubt:
            yield f"  - doubtful: {plain(one.doubt)}"
    yield ""
    yield "## To report back"
    yield ""
    yield from (f"{number}. {what}: {'.' * 30}" for number, what in enumerate(_REPORT, start=1))
    for one in _doubts(written):
        yield f"- {plain(one.label)}: {plain(one.doubt)}. You had: {'.' * 30}"


def _html(written: Longhand) -> Iterator[str]:
    yield f"<h1>{escape(_title(written))}</h1>"
    for blanks in _BLANKS:
        yield "<p>" + " ".join(f'{escape(name)}: <span class="blank"></span>' for name in blanks) + "</p>"
    yield from tabled(written, title_of(written), _row)
    yield "<h2>To report back</h2>"
    yield "<ol>"
    yield from (f'<li>{escape(what)}: <span class="blank"></span></li>' for what in _REPORT)
    yield "</ol>"
    for one in _doubts(written):
        yield f'<p>{escape(one.label)}: {escape(one.doubt)}. You had: <span class="blank"></span></p>'


def _row(one: Entry) -> str:
    boxes = "".join(f'<span><span class="box"></span>{escape(name)}</span>' for name in one.boxes)
    passes = f"<br>{escape(one.turn)}" if one.turn else ""
    doubt = f'<br><span class="doubt">{escape(one.doubt)}</span>' if one.doubt else ""
    lone = one.boxes == ("",)
    label = f"{boxes if lone else ''}{escape(one.label)}{passes}"
    words = ("" if lone else f'<div class="boxes">{boxes}</div>') + escape(" ".join(one.words)) + doubt
    return (
        f'<tr><th scope="row">{label}</th><td class="count">{escape(one.count)}</td>'
        f'<td>{words}</td><td class="note"></td></tr>'
    )
