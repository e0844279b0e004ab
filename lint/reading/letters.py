"""Letters: look-alike characters of a draft replaced one for one, so that every offset stays what it was."""

from __future__ import annotations

import re

_LOOK_ALIKE = str.maketrans(
    {
        "\u2018": "'", "\u2019": "'", "\u201a": "'", "\u201b": "'", "\u2032": "'", "\u00b4": "'", "`": "'",
        "\u201c": '"', "\u201d": '"', "\u201e": '"', "\u201f": '"', "\u2033": '"', "\u00ab": '"', "\u00bb": "-",
        "\u2010": "-", "\u2011": "-", "\u2012": "-", "\u2013": "-", "\u2014": "-", "\u2015": "-", "\u2212": "-", "\u00ad": "-",
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


_SCANNED = re.compile(
    r"(?<=\d)[lI](?![a-z])|(?<=[(\[{\s])[lI](?=\d)|(?<=\d)O(?![a-zA-Z])|(?<=[(\[{])(?:ll|II)(?=[)\]}])|(?<![a-zA-Z])ll(?=[ )]*[(\[]\d|\s+(?:sc|dc|st))"
)


def clean(text: str) -> str:
    """Replace look-alike characters one for one; every offset stays what it was."""
    return _SCANNED.sub(_digits, text.translate(_LOOK_ALIKE))


def _digits(match: re.Match[str]) -> str:
    """Return the digits that letters of a scanned number stand for: `l2` is 12, `3O` is 30."""
    return match[0].translate({ord("l"): "1", ord("I"): "1", ord("O"): "0"})
