"""Processes that somebody else has started, as the system tells of them in `/proc`."""

from __future__ import annotations

import os
import select
from collections.abc import Container
from contextlib import suppress
from pathlib import Path


def marked(mark: str) -> list[int]:
    """Return the processes that have `mark`, as `NAME=value`, in the environment they began with; the oldest first."""
    found = []
    for place in Path("/proc").glob("[0-9]*"):
        with suppress(OSError):
            if mark.encode() in (place / "environ").read_bytes().split(b"\0"):
                found.append(int(place.name))
    return sorted(found)


def ancestor_of(process: int, names: Container[str]) -> int:
    """Return the nearest process with one of these names that a process descends from, or is; raise `OSError`."""
    while _name(process) not in names:
        process = _parent(process)
    return process


def wait_for_end(process: int, patience: float) -> None:
    """Wait until a process has ended, at most so many seconds."""
    try:
        ended = os.pidfd_open(process)
    except OSError:
        return
    try:
        waiting = select.poll()
        waiting.register(ended, select.POLLIN)
        waiting.poll(patience * 1000)
    finally:
        os.close(ended)


def _name(process: int) -> str:
    return Path(f"/proc/{process}/comm").read_text().strip()


def _parent(process: int) -> int:
    return int(Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[1])
