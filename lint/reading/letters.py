"""Letters: look-alike characters of a draft replaced one for one, so that every offset stays what it was."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..draft import Span
from ..later import later
from ..spellings import Doubt, Mended

_LOOK_ALIKE = str.maketrans(
    {
        "\u2018": "'", "\u2019": "'", "\u201a": "'", "\u201b": "'", "\u2032": "'", "\u00b4": "'", "`": "'",
        "\u201c": '"', "\u201d": '"', "\u201e": '"', "\u201f": '"', "\u2033": '"', "\u00ab": '"', "\u00bb": "-",
        "\u2010": "-", "\u2011": "-", "\u2012": "-", "\u2013": "-", "\u2014": "-", "\u2015": "-", "\u2212": "-", "\u00ad": "-",
        "\u25b8": ">", "\u25b6": ">", "\u25ba": ">", "\u25b9": ">", "\u25b7": ">", "\u2023": ">", "\u276f": ">", "\u203a": ">", "\u27a4": ">",
        "\u2192": "=", "\u21d2": "=", "\u27a1": "=",
        "\u00d7": "x", "\u2715": "x", "\u2716": "x", "\u2a2f": "x",
        "\u00a0": " ", "\u2002": " ", "\u2003": " ", "\u2004": " ", "\u2005": " ", "\u2006": " ", "\u2007": " ", "\u2008": " ",
        "\u2009": " ", "\u200a": " ", "\u202f": " ", "\u3000": " ", "\ufeff": " ", "\u200b": " ", "\u200c": " ", "\u200d": " ",
        "\t": " ", "\r": "\n", "\x0b": " ", "\x0c": " ", "\u2028": "\n", "\u2029": "\n", "\x85": "\n",
        "\u2217": "*", "\u2731": "*", "\u204e": "*", "\uff0a": "*", "\u066d": "*", "\u2605": "*", "\u2606": "*", "\u274b": "*",
        "\uff08": "(", "\uff09": ")", "\u3010": "[", "\u3011": "]", "\u2026": ".",
        "\u0130": "I", "\u0131": "i", "\u0131".upper(): "I",
        # letters of other alphabets that look like ours; scans and other keyboards bring them in
        "\u0430": "a", "\u0435": "e", "\u043e": "o", "\u0440": "p", "\u0441": "c", "\u0445": "x", "\u0443": "y", "\u0456": "i", "\u0455": "s",
        "\u0410": "A", "\u0412": "B", "\u0415": "E", "\u041a": "K", "\u041c": "M", "\u041d": "H", "\u041e": "O", "\u0420": "P",
        "\u0421": "C", "\u0422": "T", "\u0425": "X", "\u03bf": "o", "\u0391": "A", "\u0392": "B", "\u0395": "E", "\u039f": "O",
    }
)  # fmt: skip


# letters that a scan put for figures; the letter comes first and is looked at from behind, so that a search is quick
_SCANNED = later(
    r"[lIO](?:(?<=\d[lI])(?<![mM]1l)(?![a-zA-Z])|(?<=[(\[{\s][lI])(?=\d)|(?<=\dO)(?![a-zA-Z])"
    r"|(?<=[(\[{]l)l(?=[)\]}])|(?<=[(\[{]I)I(?=[)\]}])|(?<![a-zA-Z]l)l(?=[ )]*[(\[]\d|\s+(?:sc|dc|st))"
    r"|(?<=[cC][hH][ -]l)(?![\w'])|(?<=[\s(*,;]l)(?= ?(?:sc|dc|hdc|h?tr|ch|st)\b))"
)
_ANGLED = later(r"<(?=\s*[\d-])([^<>\n]{1,60})>")  # brackets of another shape
_HOW_OFTEN = r"(?=\s*(?:[x*]\s?\d|\d{1,2}\s?(?:x\b|times\b)|(?:twice|thrice|rep(?:eat)?|around)\b))"
_ANGLED_REPEAT = later(rf"<([^<>\n]{{3,60}})>{_HOW_OFTEN}")
# not `4 / 5 / 6 times`, where strokes part figures
_STROKED_REPEAT = later(rf"(?<!\w)(?<!\d )/(?=[^/\n]*[a-z]{{2}})([^/\n]{{3,60}})/{_HOW_OFTEN}")
_ESCAPED = later(r"\\(?=[*_])")  # a star that Markdown shall show as one
# where lines begin in bold type, `**Round 1:** ..`, two stars on either side of words within a line are bold type too
_BOLD_LINES = later(r"(?m)^[ \t>-]*\*\*[A-Z][^*\n]*\*\*(?!\s*(?:rep|\d))")
_BOLD_WORDS = later(
    r"(?<=[^\s*\\] )\*\*(?=[^\s*])([^*\n]*[^\s*\\])\*\*(?![\w*]|\s*(?:rep\b|x ?\d|\d+ ?(?:x|times)\b|around\b|to\b))"
)
_ODD = later("[" + re.escape("".join(map(chr, _LOOK_ALIKE))) + "]")  # a table alone is slow on what isn't ASCII
# a word with letters of another alphabet: `sc` typed with a Cyrillic c, or with a letter glued behind
_FOREIGN = later(r"[\u0370-\u03ff\u0400-\u04ff]")
_WORD = later(r"[^\W\d_]+")


def clean(text: str) -> str:
    """Replace look-alike characters one for one; every offset stays what it was."""
    return cleaned(text)[0]


def cleaned(text: str) -> tuple[str, tuple[Mended, ...]]:
    """Replace look-alike characters one for one, and tell which letters were taken for figures or other letters."""
    plain = text.translate(_LOOK_ALIKE) if text.isascii() else _ODD.sub(_look_alike, text)
    if "\\*" in plain:
        plain = _ESCAPED.sub(" ", plain)
    if "**" in plain and len(_BOLD_LINES.findall(plain)) > 1:
        plain = _BOLD_WORDS.sub(r"  \1  ", plain)
    if "<" in plain:
        plain = _ANGLED_REPEAT.sub(r"{\1}", _ANGLED.sub(r"{\1}", plain))
    if "/" in plain:
        plain = _STROKED_REPEAT.sub(r"{\1}", plain).replace(" // ", " || ")
    doubts: list[Mended] = []

    def digits(match: re.Match[str]) -> str:
        doubts.append(Mended(Span(*match.span()), _digits(match), Doubt.FIGURE))
        return doubts[-1].to

    read = _SCANNED.sub(digits, plain)
    return read, (*doubts, *_foreign(text, read))


def _look_alike(match: re.Match[str]) -> str:
    return match[0].translate(_LOOK_ALIKE)


def _foreign(text: str, read: str) -> Iterator[Mended]:
    """Find words of Latin and other letters mixed, and words that only look Latin."""
    if text.isascii() or not _FOREIGN.search(text):
        return
    for match in _WORD.finditer(text):
        if match[0].isascii() or not _FOREIGN.search(match[0]):
            continue
        word = "".join(char for char in read[match.start() : match.end()] if char.isascii())
        if word and (any(char.isascii() for char in match[0]) or len(word) == len(match[0]) > 1):
            yield Mended(Span(*match.span()), word, Doubt.ALPHABET)


_HEADING = later(r"(?i:r|rnds?|rows?|rounds?)[. ]{0,2}(?P<number>[\dlIO]*[lIO][\dlIO]*)")
_ROMAN = later(r"I{1,3}")
# a quotation mark, bullet or letter where a scanned repeat begins, and no star in the round
_OPENING = later(
    r"[\s.:)-]{0,4}(?P<sign>['\"\u2018\u2019\u201c\u201d\u2022\u00b7\u00b0^\\]|[ft](?= [A-Z]))\s?(?:\d|[A-Z]?[a-z]+\b)"
)
_REPEATS = later(r"(?i)\brep(?:eat)?\b")


def doubtful_signs(text: str, heading: Span, end: int) -> Iterator[Mended]:
    """Find a letter for a figure in a heading (`Rl:`), and a sign for the mark of a repeat (`'sc 1, dec 1; rep`)."""
    if (match := _HEADING.fullmatch(text, heading.start, heading.end)) and not _ROMAN.fullmatch(match["number"]):
        number = match["number"].translate({ord("l"): "1", ord("I"): "1", ord("O"): "0"})
        yield Mended(Span(*match.span("number")), number, Doubt.FIGURE)
    opening = _OPENING.match(text, heading.end, end)
    if opening is None or text.find("*", heading.end, end) >= 0 or not _REPEATS.search(text, opening.end(), end):
        return
    sign = opening["sign"]
    signs = "'\u2018\u2019" if sign in "'\u2018\u2019" else '"\u201c\u201d' if sign in '"\u201c\u201d' else sign
    if not any(char in text[opening.end("sign") : end] for char in signs):
        yield Mended(Span(*opening.span("sign")), "*", Doubt.MARK)


_LETTERED = later(r"\n[ \t]*(?:R|Rnd|Row|Round)\.? ?(?P<number>(?<!R)[SZ]|[1-9][SZB]|[SZB]\d)[ \t]*[:.]")


def lettered_headings(text: str) -> Iterator[Mended]:
    """Find headings whose number is a letter that a scan put for a figure: `Rnd S:` is 5, `R1Z.` is 12."""
    for match in _LETTERED.finditer(text):
        number = match["number"].translate({ord("S"): "5", ord("Z"): "2", ord("B"): "8"})
        yield Mended(Span(*match.span("number")), number, Doubt.FIGURE)


def _digits(match: re.Match[str]) -> str:
    """Return the digits that letters of a scanned number stand for: `l2` is 12, `3O` is 30."""
    return match[0].translate({ord("l"): "1", ord("I"): "1", ord("O"): "0"})


_LONGEST_BLANK = " " * 60
_BLANKS = later(r" {61,}")
_DIGITS = later(r"\d\d{12,}")
_FILLER = "\x00"


def squeezed(text: str) -> str:
    """Cut what no draft has, hundreds of blanks or digits in a row, short one for one.

    The patterns that look for headings and sizes take time that grows with the square of such a run.
    """
    if _LONGEST_BLANK in text:
        text = _BLANKS.sub(_shortened, text)
    return _DIGITS.sub(_shortened, text)


def _shortened(match: re.Match[str]) -> str:
    return match[0][:12] + _FILLER * (len(match[0]) - 12)


_LINE = re.compile(r"(?m)^[^\w\n]*(?P<first>[^\W\d_])")
_BEGINS = re.compile(
    r"(?m)^(?P<lead>[ \t]*)(?P<word>(?:rows?|rnds?|rounds?|next|cast|knit|purl|work|rep(?:eat)?|bind|cont(?:inue)?|pick|place|break|change|inc|dec|"
    r"using|with|join|set-?up)\b(?! from\b))"
)
_FEWEST_LINES = 6
_SMALL = 0.7  # share of the lines that begin with a small letter


def capitalised(text: str) -> str:
    """Give the lines of a draft that is written in small letters throughout the capital that others begin with.

    Elsewhere a small letter shows that a line goes on with the one before.
    """
    firsts = [match["first"] for match in _LINE.finditer(text)]
    small = sum(first.islower() for first in firsts)
    begun = len(_BEGINS.findall(text))
    if len(firsts) < _FEWEST_LINES or small < _SMALL * len(firsts) or 2 * begun < small:
        return text
    return _BEGINS.sub(lambda match: match["lead"] + match["word"].capitalize(), text)
