"""What is settled outside a draft: the house style, and the findings that may stand."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field
from pathlib import Path

from .beside import file_beside
from .house import House, find_house, load_house, settings_text
from .stet import Stet, read_stets


@dataclass(frozen=True, slots=True)
class Settings:
    """The house style and the findings that may stand; without them, nothing is settled."""

    house: House = field(default_factory=House)
    stets: tuple[Stet, ...] = ()


def settings_for(path: str, rules: Collection[str], house: House | None = None) -> Settings:
    """Return the settings that hold for a draft: its house style, unless one is given, and what stands in it.

    `path` is the draft's file, or `-` for standard input, which has the house style of the folder that one is in.
    Raises `SettingsError` with every mistake in the file that is read first.
    """
    if house is None:
        found = find_house(Path.cwd() if path == "-" else Path(path).absolute().parent)
        house = load_house(found[0], rules, found[1]) if found else House()
    stets: tuple[Stet, ...] = ()
    if path != "-" and (file := file_beside(path)).is_file():
        stets = read_stets(settings_text(file), str(file), rules)
    return Settings(house, stets)
