"""Answers kept from one call to the next: an unchanged draft under unchanged settings need not be proofed again.

A kept answer is a small JSON file in the user's cache folder. Whatever it says is checked before it is believed, and
whatever fails is as if it weren't there; no call ever fails for its sake.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
from collections.abc import Iterator
from importlib import metadata
from pathlib import Path

from .answers import Answer, Wanted
from .beside import file_beside
from .checked import is_table
from .house import find_house
from .intake.plain import MOST_BYTES
from .later import later

FOLDER = "ROWCALL_CACHE"  # the name of a setting in the environment: another folder, or nothing for no cache
MOST_ENTRIES = 4_000
MOST_ENTRY = 2 * 1024 * 1024
_LIMITS = ("correction", "query", "style", "never")
_LEVELS = range(4)
_PAINT = later(r"\x1b\[[0-9;]*m")
_CONTROLS = later(r"[\x00-\x09\x0b-\x1f\x7f-\x9f]")


class Cache:
    """The kept answers of a call; `wanted` is what is wanted of every draft of it."""

    def __init__(self, wanted: Wanted) -> None:
        self._wanted = wanted
        self._folder = _folder()
        self._call = _digest(_program().encode(), repr(_without_place(wanted)).encode())
        self._settings: dict[Path, bytes] = {}
        self._kept = 0

    def key(self, path: str) -> str | None:
        """Return the key of a draft's answer, None where it has none: it can't be read, or isn't a file."""
        if self._folder is None or path == "-" or self._wanted.proof:
            return None
        try:
            with Path(path).open("rb") as file:
                data = file.read(MOST_BYTES + 1)
            beside = file_beside(path)
            stets = beside.read_bytes() if beside.is_file() else b"-"
            house = self._house(Path(path).absolute().parent)
        except Exception:
            # what can't be read is left to the proof itself, which says so
            return None
        shown = path.encode("utf-8", "replace")
        return _digest(self._call.encode(), shown, data, stets, house)

    def find(self, key: str | None, path: str) -> Answer | None:
        """Return the answer kept under a key, None where there is none or it is damaged; a damaged one is dropped."""
        if key is None or self._folder is None:
            return None
        file = self._folder / f"{key}.json"
        try:
            with file.open("rb") as kept:
                data = kept.read(MOST_ENTRY + 1)
        except OSError:
            return None
        found = _read(data, key, path, self._wanted)
        if found is None:
            with contextlib.suppress(OSError):
                file.unlink()
        return found

    def keep(self, key: str | None, found: Answer) -> None:
        """Keep an answer under a key; one that failed is not kept."""
        if key is None or self._folder is None or found.messages:
            return
        body = {"key": key, "pieces": dict(found.pieces), "worst": found.worst, "limit": found.limit}
        data = json.dumps(body).encode()
        if len(data) > MOST_ENTRY:
            return
        beside = self._folder / f".{key}.{os.getpid()}.new"
        try:
            self._folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            beside.write_bytes(hashlib.sha256(data).hexdigest().encode() + b"\n" + data)
            beside.replace(self._folder / f"{key}.json")
        except OSError:
            with contextlib.suppress(OSError):
                beside.unlink()
            self._folder = None
            return
        self._kept += 1

    def trim(self) -> None:
        """Drop the oldest answers where more than the most are kept."""
        if not self._kept or self._folder is None:
            return
        with contextlib.suppress(OSError):
            files = [(entry.stat().st_mtime, entry.path) for entry in os.scandir(self._folder) if entry.is_file()]
            for _, path in sorted(files)[: max(0, len(files) - MOST_ENTRIES)]:
                with contextlib.suppress(OSError):
                    Path(path).unlink()

    def _house(self, folder: Path) -> bytes:
        """Return what the house style of a folder says, as it stands."""
        if self._wanted.house is not None:
            return b"given"  # it is part of what is wanted
        if folder not in self._settings:
            found = find_house(folder)
            told = b"-" if found is None else str(found).encode() + found[0].read_bytes()
            self._settings[folder] = told
        return self._settings[folder]


def _read(data: bytes, key: str, path: str, wanted: Wanted) -> Answer | None:
    """Return the answer in a kept file, None for anything but what this program writes."""
    checksum, _, body = data.partition(b"\n")
    if len(data) > MOST_ENTRY or checksum != hashlib.sha256(body).hexdigest().encode():
        return None
    try:
        values: object = json.loads(body)
    except (ValueError, RecursionError):
        return None
    if not is_table(values) or set(values) != {"key", "pieces", "worst", "limit"} or values["key"] != key:
        return None
    pieces, worst, limit = values["pieces"], values["worst"], values["limit"]
    if not is_table(pieces) or set(pieces) != set(wanted.pieces) or type(worst) is not int or worst not in _LEVELS:
        return None
    texts = {name: text for name, text in pieces.items() if isinstance(text, str) and _harmless(text, wanted)}
    if len(texts) != len(pieces) or not isinstance(limit, str) or limit not in _LIMITS:
        return None
    return Answer(path, texts, worst, limit)


def _harmless(text: str, wanted: Wanted) -> bool:
    """Tell whether a kept text could do no more to a terminal than a fresh one."""
    return not _CONTROLS.search(_PAINT.sub("", text) if wanted.colour else text)


def _folder() -> Path | None:
    set_ = os.environ.get(FOLDER)
    if set_ is not None:
        return Path(set_) if set_.strip() else None
    from platformdirs import user_cache_path  # noqa: PLC0415 - not needed where a folder is set

    return user_cache_path("rowcall", appauthor=False) / "answers"


def _digest(*parts: bytes) -> str:
    whole = hashlib.sha256()
    for part in parts:
        whole.update(len(part).to_bytes(8, "big") + part)
    return whole.hexdigest()


def _without_place(wanted: Wanted) -> tuple[object, ...]:
    choice = wanted.choice and (sorted(wanted.choice.only), sorted(wanted.choice.leave_out))
    return (wanted.pieces, wanted.size, choice, wanted.house, wanted.width, wanted.colour)


def _program() -> str:
    """Return what tells this state of the program from every other: its version, its files, and the tokenizer's."""
    root = Path(__file__).parent.parent
    stamps = [f"{metadata.version('rowcall')} {metadata.version('spacy')}", *sorted(_stamps(root))]
    return "\n".join(stamps)


def _stamps(root: Path) -> Iterator[str]:
    for name in ("lint", "rules", "reports"):
        for folder, _, files in os.walk(root / name):
            for file in files:
                if file.endswith((".py", ".toml", ".json")):
                    place = Path(folder, file)
                    told = place.stat()
                    yield f"{place.relative_to(root)} {told.st_size} {told.st_mtime_ns}"
