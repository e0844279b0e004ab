"""Drafts worked on by several processes at once, their answers given in the order of the drafts."""

from __future__ import annotations

import os
import signal
from collections import deque
from collections.abc import Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context
from pathlib import Path

from .answers import Answer, Wanted, answer, mistake

WORTH = 300_000  # bytes of drafts for which another process is worth its start
_AHEAD = 4  # drafts handed out beyond those that are being worked, a process


def processes_for(paths: Sequence[str], asked: int | None) -> int:
    """Return how many processes to use: as many as asked for, or by the cores and the amount of text."""
    if asked is not None:
        return max(1, min(asked, len(paths)))
    cores = _cores()
    if cores < 2 or len(paths) < 2:
        return 1
    amount = 0
    for path in paths:
        amount += _bytes(path)
        if amount >= cores * WORTH:
            break
    return max(1, min(cores, amount // WORTH, len(paths)))


def in_parallel(paths: Sequence[str], wanted: Wanted, processes: int) -> Iterator[Answer]:
    """Give the answers of drafts in their order, worked by some processes.

    A draft that ends the process it is worked in fails alone; the others go on in new ones.
    """
    left = deque(paths)
    while left:
        given = 0
        try:
            for found in _pooled(tuple(left), wanted, processes):
                given += 1
                yield found
        except BrokenProcessPool:
            for _ in range(given):
                left.popleft()
            yield _alone(left.popleft(), wanted)
            continue
        return


def _pooled(paths: Sequence[str], wanted: Wanted, processes: int) -> Iterator[Answer]:
    pool = _pool(min(processes, len(paths)))
    waiting: deque[Future[Answer]] = deque()
    coming = iter(paths)
    try:
        for path in coming:
            waiting.append(pool.submit(answer, path, wanted))
            if len(waiting) >= processes * _AHEAD:
                yield waiting.popleft().result()
        while waiting:
            yield waiting.popleft().result()
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _alone(path: str, wanted: Wanted) -> Answer:
    """Work a draft in a process of its own, after one in a crowd has ended."""
    pool = _pool(1)
    try:
        return pool.submit(answer, path, wanted).result()
    except BrokenProcessPool:
        return Answer(path, messages=(mistake(path, "the process that worked it ended"),))
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _pool(processes: int) -> ProcessPoolExecutor:
    return ProcessPoolExecutor(processes, mp_context=get_context("spawn"), initializer=_begin)


def _begin() -> None:
    """Leave it to the process that was called to end all others when a person breaks it off."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def _bytes(path: str) -> int:
    try:
        return Path(path).stat().st_size
    except OSError:
        return 0


def _cores() -> int:
    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:
        return os.cpu_count() or 1
