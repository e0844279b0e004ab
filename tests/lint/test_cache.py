"""Kept answers: used only for the very same draft, settings, call and program, and never believed when damaged."""

from __future__ import annotations

import hashlib
import json
import os
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from rowcall.lint import cache as cache_module
from rowcall.lint.answers import Answer, Wanted, answer
from rowcall.lint.cache import Cache
from rowcall.lint.choice import Choice
from rowcall.lint.house import House

DRAFT = "Rnd 1: 6 sc in a magic ring. (6)\nRnd 2: Inc in each st around. (13)\n"
WANTED = Wanted(pieces=("lines",))


@pytest.fixture
def draft(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.chdir(tmp_path)
    Path("hat.txt").write_text(DRAFT, "utf-8")
    return "hat.txt"


def entry(folder: Path) -> Path:
    (only,) = folder.glob("*.json")
    return only


def kept(draft: str) -> tuple[Cache, str, Answer]:
    cache = Cache(WANTED)
    key = cache.key(draft)
    assert key is not None
    found = answer(draft, WANTED)
    cache.keep(key, found)
    return cache, key, found


def test_an_answer_comes_back_as_it_was(draft: str) -> None:
    _, _, found = kept(draft)
    again = Cache(WANTED)

    assert again.find(again.key(draft), draft) == found
    assert found.worst == 3


@pytest.mark.parametrize(
    "wanted",
    [
        replace(WANTED, pieces=("json",)),
        replace(WANTED, width=60),
        replace(WANTED, colour=True),
        replace(WANTED, size="Small"),
        replace(WANTED, choice=Choice(only=frozenset({"query"}))),
        replace(WANTED, house=House(terms="UK")),
    ],
)
def test_another_call_has_another_key(draft: str, wanted: Wanted) -> None:
    assert Cache(wanted).key(draft) != Cache(WANTED).key(draft)


def test_whatever_the_answer_rests_on_is_in_the_key(draft: str, monkeypatch: pytest.MonkeyPatch) -> None:
    keys = [Cache(WANTED).key(draft), Cache(WANTED).key(f"./{draft}")]
    Path("rowcall.toml").write_text('terms = "UK"\n', "utf-8")
    keys.append(Cache(WANTED).key(draft))
    Path("rowcall.toml").write_text('terms = "US"\n', "utf-8")
    keys.append(Cache(WANTED).key(draft))
    Path("hat.stet.toml").write_text("# nothing\n", "utf-8")
    keys.append(Cache(WANTED).key(draft))
    Path(draft).write_text(f"{DRAFT}\n", "utf-8")
    keys.append(Cache(WANTED).key(draft))
    monkeypatch.setattr(cache_module, "_program", lambda: "another version")
    keys.append(Cache(WANTED).key(draft))

    assert None not in keys
    assert len(set(keys)) == len(keys)


def test_what_is_no_file_or_wants_the_proof_has_no_key(draft: str) -> None:
    assert [Cache(WANTED).key(path) for path in ("-", "none.txt")] == [None, None]
    assert Cache(replace(WANTED, proof=True)).key(draft) is None


def forged(file: Path, **values: object) -> None:
    """Change a kept file and give it a right checksum."""
    body = {**json.loads(file.read_bytes().partition(b"\n")[2]), **values}
    data = json.dumps(body).encode()
    file.write_bytes(hashlib.sha256(data).hexdigest().encode() + b"\n" + data)


@pytest.mark.parametrize(
    "values",
    [
        {"key": "0" * 64},
        {"pieces": {"lines": "\x1b]0;title\x07"}},
        {"pieces": {"lines": "\x1b[31mred\x1b[0m"}},
        {"pieces": {"lines": 7}},
        {"pieces": {}},
        {"pieces": ["lines"]},
        {"worst": 9},
        {"worst": True},
        {"worst": "3"},
        {"limit": "whenever"},
        {"limit": None},
        {"more": 1},
    ],
)
def test_a_forged_answer_is_dropped(draft: str, kept_answers: Path, values: dict[str, object]) -> None:
    cache, key, _ = kept(draft)
    forged(entry(kept_answers), **values)

    assert cache.find(key, draft) is None
    assert list(kept_answers.iterdir()) == []


DEEP = b"[" * 9000


@pytest.mark.parametrize(
    ("was", "now"),
    [
        (rb"\}$", b""),
        (rb"13", b"12"),
        (rb"(?s)^.*$", b""),
        (rb"^", b"\x80\x04}."),
        (rb"(?s)^.*$", hashlib.sha256(DEEP).hexdigest().encode() + b"\n" + DEEP),
        (rb"(?s)^.*$", b"0" * (cache_module.MOST_ENTRY + 2)),
    ],
)
def test_a_damaged_answer_is_dropped(draft: str, kept_answers: Path, was: bytes, now: bytes) -> None:
    cache, key, _ = kept(draft)
    file = entry(kept_answers)
    file.write_bytes(re.sub(was, lambda _: now, file.read_bytes(), count=1))

    assert cache.find(key, draft) is None
    assert list(kept_answers.iterdir()) == []


def test_a_draft_that_fails_is_not_kept(draft: str, kept_answers: Path) -> None:
    cache = Cache(replace(WANTED, size="Small"))
    cache.keep(cache.key(draft), answer(draft, replace(WANTED, size="Small")))

    assert list(kept_answers.iterdir()) == []


def test_the_oldest_answers_go(draft: str, kept_answers: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(cache_module, "MOST_ENTRIES", 2)
    kept_answers.mkdir(exist_ok=True)
    for age in (300, 200, 100):
        file = kept_answers / f"{age}.json"
        file.write_text("old", "utf-8")
        os.utime(file, (1_000_000_000 - age, 1_000_000_000 - age))
    cache, key, _ = kept(draft)
    cache.trim()

    assert sorted(file.stem for file in kept_answers.iterdir()) == sorted(["100", key])


@pytest.mark.parametrize("place", ["", "hat.txt/answers"])
def test_without_a_folder_nothing_fails(draft: str, monkeypatch: pytest.MonkeyPatch, place: str) -> None:
    monkeypatch.setenv("ROWCALL_CACHE", place)
    cache = Cache(WANTED)
    key = cache.key(draft)
    cache.keep(key, answer(draft, WANTED))
    cache.trim()

    assert cache.find(key, draft) is None


WITNESS = (
    "import atexit, sys\n"
    "heavy = {'spacy', 'rich', 'rapidfuzz', 'rowcall.lint.reading', 'rowcall.lint.working', 'rowcall.rules'}\n"
    "atexit.register(lambda: print(sorted(heavy & set(sys.modules)), file=sys.stderr))\n"
    "from rowcall.lint.cli import main; main()"
)


@pytest.mark.parametrize("options", [[], ["--brief"], ["--format", "json"]])
def test_an_unchanged_draft_is_answered_without_reading_it(draft: str, options: list[str]) -> None:
    def call(*more: str) -> tuple[int, bytes, bytes]:
        done = subprocess.run(
            [sys.executable, "-c", WITNESS, "proof", draft, *options, *more], capture_output=True, check=False
        )
        return done.returncode, done.stdout, done.stderr.splitlines()[-1]

    first, second, third = call(), call(), call("--fresh")

    assert first[:2] == second[:2] == third[:2]
    assert first[0] == 1
    assert b"spacy" in first[2]
    assert b"spacy" in third[2]
    assert second[2] == b"[]"
