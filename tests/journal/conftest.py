"""A small tree to walk, a journal with a clock of its own, and a disk without room."""

from __future__ import annotations

import resource
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

import pytest

from shorewalk.journal import Journal
from shorewalk.tree.library import Library
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import Walk, begin

TREE = """\
tree: small
symptom: Something small is wrong
starts: {cord: unplugged}
begin: begin
nodes:
  begin: {step: Read this., done: light, cannot: out}
  light:
    ask: Is there light?
    sign: light
    choices:
      enough: {says: Enough of it, goto: volts}
      too-dark: {says: Too dark, goto: out}
    unsure: out
  volts:
    measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
    next: out
    unable: out
  out: {end: stay-unplugged, because: It was small., safe_action: Stay out., call: park, say: Small.}
"""


@pytest.fixture
def trees(tmp_path: Path) -> Path:
    folder = tmp_path / "trees"
    folder.mkdir()
    (folder / "small.yaml").write_text(TREE)
    return folder


@pytest.fixture
def walk(trees: Path) -> Walk:
    return begin(Library(trees), "small", parse_meter("1.5%+2,tenths"))


@pytest.fixture
def journal(tmp_path: Path) -> Iterator[Journal]:
    ticks = iter(range(100))
    opened = Journal.open(tmp_path / "home", clock=lambda: f"2024-05-01T18:30:{next(ticks):02}Z")
    yield opened
    opened.close()


NoRoom = Callable[[], AbstractContextManager[None]]


@pytest.fixture
def no_room() -> NoRoom:
    """How to have a disk on which no file grows or changes: what a full one does, and one that fails."""

    @contextmanager
    def limited() -> Iterator[None]:
        soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
        resource.setrlimit(resource.RLIMIT_FSIZE, (0, hard))
        try:
            yield
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))

    return limited
