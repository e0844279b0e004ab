"""The page: a proof to read in a browser or on paper, one file that fetches nothing and runs nothing.

The chooser of sizes is done in the style sheet alone. The page forbids itself scripts, pictures and connections by a
content security policy that admits only its own style sheet.
"""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Iterator, Sequence
from functools import cache
from importlib import metadata, resources

from jinja2 import Environment, FunctionLoader, StrictUndefined, Template
from markupsafe import Markup

from ..lint.proof import Proof
from .drawing import shapes
from .scale import scale_of
from .sheet import sheet
from .words import plural

_DASHES = 4  # ways to draw a line, in the style sheet


def page(proofs: Sequence[Proof]) -> str:
    """Return the page of all drafts, one after the other."""
    sheets = [sheet(proof) for proof in proofs]
    style = _file("page.css") + "".join(_choosing(max((len(one.sizes) for one in sheets), default=0)))
    return _template().render(
        title=f"Proof of {sheets[0].path}" if len(sheets) == 1 else f"Proof of {plural(len(sheets), 'draft')}",
        drafts=[
            {
                "key": f"d{number}",
                "sheet": one,
                "shapes": shapes(proof),
                "scale": scale_of(proof).words,
            }
            for number, (one, proof) in enumerate(zip(sheets, proofs, strict=True), start=1)
        ],
        style=Markup(style),
        policy=f"default-src 'none'; style-src '{_hash(style)}'; base-uri 'none'; form-action 'none'",
        version=metadata.version("rowcall"),
        dashes=_DASHES,
    )


def _choosing(sizes: int) -> Iterator[str]:
    """Give the rules that dim what is for other sizes when one is chosen, and hide the outlines of others."""
    for size in range(sizes if sizes > 1 else 0):
        here = f'.sheet:has(input[value="{size}"]:checked)'
        yield (
            f"{here} .f:not(.s{size}){{color:var(--dim);font-weight:400;text-decoration:none}}"
            f"{here} .f.s{size}:not(.g){{font-weight:700;outline:1.5px solid currentcolor;outline-offset:1px}}"
            f"{here} table .f.s{size}:not(.g){{outline:0;box-shadow:inset 2px 0,inset -2px 0}}"
            f"{here} .only:not(.s{size}){{display:none}}"
            f"{here} .curve:not(.s{size}){{opacity:.35;stroke-width:.8}}"
            f"{here} .curve.s{size}{{stroke-width:2.6}}\n"
        )


def _hash(style: str) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()


@cache
def _template() -> Template:
    environment = Environment(
        loader=FunctionLoader(_file),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    return environment.get_template("page.html.jinja")


def _file(name: str) -> str:
    return (resources.files(__package__ or "rowcall.reports") / name).read_text(encoding="utf-8")
