"""Journals as two machines have them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from shorewalk.journal import Journal

from ..bench.handed.walks import SOON

Machine = Callable[..., Journal]


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
