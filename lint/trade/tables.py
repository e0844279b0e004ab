"""The trade tables, typed: stitches, their names and spellings in US and UK terms."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any


@dataclass(frozen=True, slots=True)
class Stitch:
    """A row of the stitch table.

    `us` and `uk` hold every name, abbreviation and spelling in those terms, lower case. `uses` are stitches of the row
    below that it consumes, `makes` stitches it leaves; None where the pattern must say. `height` is in
    turning chains. `kind` is the row's group (basic, increase, decrease, post, cluster, group, chain, join, start ...).
    """

    id: str
    craft: str
    us: tuple[str, ...]
    uk: tuple[str, ...]
    uses: int | None
    makes: int | None
    height: int
    kind: str
