"""The longhand report: a draft written out for one size, for a screen, as text, in Markdown or in HTML."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from html import escape

from ..lint.longhand import MEANINGS, SIGNS, Longhand, marked
from ..lint.outputs import SheetForm
from .entries import Entry, Talk, entries
from .words import folded, safe

_WIDTH = 80
_SPECIAL = str.maketrans({character: f"\\{character}" for character in "\\`*_[]<>~&$#|"})


def longhand_report(written: Longhand, form: SheetForm = SheetForm.TEXT, width: int = _WIDTH) -> str:
    """Return a longhand in a form; `width` is that of a screen."""
    match form:
        case SheetForm.TEXT:
            return "\n".join(_safe_line(line) for line in marked(written).splitlines())
        case SheetForm.SCREEN:
            return "\n".join(_screen(written, width))
        case SheetForm.MARKDOWN:
            return "\n".join(_markdown(written))
        case SheetForm.HTML:
            return page(title_of(written), _html(written))


def title_of(written: Longhand) -> str:
    """Return the title of a draft: its first line with words, without the marks around it."""
    lines = (safe(line).strip(" *#_=-") for line in written.text.splitlines())
    return next(filter(None, lines), "") or written.proof.draft.path


def _safe_line(line: str) -> str:
    return "\t".join(map(safe, line.split("\t")))


def _screen(written: Longhand, width: int) -> Iterator[str]:
    for one in entries(written):
        if isinstance(one, Talk):
            yield from folded(one.text, width)
            continue
        sign = f"{SIGNS[one.mark]} " if one.mark else ""
        heading = f"{one.heading}: " if one.heading else ""
        yield from folded(f"{heading}{sign}{' '.join(one.words)}", width, rest="    ")
        if one.doubt:
            yield from folded(f"{one.doubt[0].upper()}{one.doubt[1:]}.", width, first="    ")
    for mark in dict.fromkeys(one.mark for one in written.rounds if one.mark):
        yield ""
        yield from folded(f"{SIGNS[mark]} {MEANINGS[mark]}", width, rest="    ")


def _markdown(written: Longhand) -> Iterator[str]:
    title = title_of(written)
    yield f"# {plain(title)}"
    rounds = False
    for one in entries(written):
        if isinstance(one, Entry):
            if not rounds:
                yield ""
            rounds = True
            sign = f"{plain(SIGNS[one.mark])} " if one.mark else ""
            heading = f"**{plain(one.heading)}**: " if one.heading else ""
            yield f"- {heading}{sign}{plain(' '.join(one.words))}"
            if one.doubt:
                yield f"  - {plain(one.doubt)}"
            continue
        if one.text.strip(" *#_=-") == title and not rounds:
            continue
        if rounds:
            yield ""
            rounds = False
        yield "" if not one.text.strip() else f"\n## {plain(one.text.strip())}" if one.title else f"{plain(one.text)}  "
    for mark in dict.fromkeys(one.mark for one in written.rounds if one.mark):
        yield ""
        yield f"{plain(SIGNS[mark])} {MEANINGS[mark]}"


def plain(text: str) -> str:
    """Return text so that Markdown shows it as it stands."""
    return text.strip().translate(_SPECIAL)


STYLE = """\
body { font: 1rem/1.5 Georgia, serif; max-width: 46rem; margin: 2rem auto; padding: 0 1rem; color: #1b1b1b; }
h1 { font-size: 1.6rem; } h2 { font-size: 1.15rem; margin: 1.6rem 0 .4rem; }
pre { font: inherit; white-space: pre-wrap; margin: 0 0 .6rem; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: .25rem .6rem .25rem 0; border-bottom: 1px solid #ccc; }
th { font-weight: 600; white-space: nowrap; }
td.count { text-align: right; white-space: nowrap; font-weight: 600; }
.doubt { font-style: italic; }
.box { display: inline-block; width: .9em; height: .9em; border: 1.5px solid #1b1b1b; margin-right: .3em; }
.boxes span { white-space: nowrap; margin-right: .7em; }
.blank { display: inline-block; border-bottom: 1px solid #777; min-width: 12rem; }
td.note { min-width: 9rem; }
@media print { body { margin: 0; max-width: none; font-size: 10pt; } tr { break-inside: avoid; } }
"""


def page(title: str, body: Iterator[str]) -> str:
    """Return a whole HTML page that needs nothing else: no script, no font or picture from elsewhere."""
    head = f'<meta charset="utf-8">\n<title>{escape(title)}</title>\n<style>\n{STYLE}</style>'
    inner = "\n".join(body)
    return f'<!DOCTYPE html>\n<html lang="en">\n<head>\n{head}\n</head>\n<body>\n{inner}\n</body>\n</html>'


def _html(written: Longhand) -> Iterator[str]:
    title = title_of(written)
    yield f"<h1>{escape(title)}</h1>"
    yield from tabled(written, title, _row)
    for mark in dict.fromkeys(one.mark for one in written.rounds if one.mark):
        yield f"<p>{SIGNS[mark]} {escape(MEANINGS[mark])}</p>"


def _row(one: Entry) -> str:
    sign = f"{SIGNS[one.mark]} " if one.mark else ""
    doubt = f'<br><span class="doubt">{escape(one.doubt)}</span>' if one.doubt else ""
    passes = f"<br>{escape(one.turn)}" if one.turn else ""
    words = escape(" ".join(one.words))
    if not one.headed and not passes:
        return f'<tr><td colspan="2">{sign}{words}{doubt}</td></tr>'
    label = escape(one.label) if one.headed else ""
    return f'<tr><th scope="row">{label}{passes}</th><td>{sign}{words}{doubt}</td></tr>'


def tabled(written: Longhand, title: str, row: Callable[[Entry], str]) -> Iterator[str]:
    """Give the talk of a longhand as it stands, and its rounds as tables."""
    talk: list[str] = []
    rounds = False
    for one in (*entries(written), None):
        if isinstance(one, Talk) and not one.title:
            if rounds:
                yield "</table>"
                rounds = False
            if talk or one.text.strip(" *#_=-") not in ("", title):
                talk.append(one.text)
            continue
        if "".join(talk).strip():
            yield f"<pre>{escape(chr(10).join(talk).strip(chr(10)))}</pre>"
        talk = []
        if isinstance(one, Entry):
            if not rounds:
                yield "<table>"
                rounds = True
            yield row(one)
            continue
        if rounds:
            yield "</table>"
            rounds = False
        if one is not None:
            yield f"<h2>{escape(one.text.strip())}</h2>"
