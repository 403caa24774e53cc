"""Journals as two machines have them, and what is on their disks."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from shorewalk.handing import (
    Handed,
    handed_text,
    read_handed,
)
from shorewalk.journal import Journal, Keeper
from shorewalk.journal.store import FILE
from shorewalk.walk.walk import Walk

from ..bench.handed.walks import SOON

Machine = Callable[..., Journal]

HOLDS = """
import sys
from pathlib import Path
from shorewalk.journal import Journal
print(Journal.open(Path(sys.argv[1])).hold(int(sys.argv[2])), flush=True)
sys.stdin.read()
"""

OWN = """\
tree: small
symptom: Something small is wrong
starts: {cord: unplugged}
begin: begin
nodes:
  begin: {step: Read this., done: look, cannot: out}
  look: {step: Look there., done: out, cannot: out}
  out: {end: stay-unplugged, because: It was small., safe_action: Stay out., call: park, say: Small.}
"""


@pytest.fixture
def machine(tmp_path: Path) -> Iterator[Machine]:
    """Return how to open the journal of a machine, by the name of the machine; its clock stands."""
    opened: list[Journal] = []

    def opening(name: str, now: str = SOON) -> Journal:
        journal = Journal.open(tmp_path / name, clock=lambda: now)
        opened.append(journal)
        return journal

    yield opening
    for journal in opened:
        journal.close()


def kept(journal: Journal, walk: Walk) -> Keeper:
    keeper = Keeper(journal)
    keeper.keep(walk)
    return keeper


def sent(walk: Walk, keeper: Keeper) -> Handed:
    """Hand a walk over, as the other machine reads it."""
    return read_handed(handed_text(walk, keeper).encode())


def bare(walk: Walk) -> list[object]:
    return [answered.answer for answered in walk.answers]


def rows(home: Path) -> list[str]:
    """All that is on a disk."""
    with sqlite3.connect(home / FILE) as other:
        found = [line for line in other.iterdump() if line.startswith("INSERT")]
    other.close()
    return found
