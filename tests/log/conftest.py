"""Walks at Someday Flats, a campground that does not exist, kept in a real journal; a clock that a test sets."""

from __future__ import annotations

import io
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Mapping
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import NamedTuple

import pytest

from shorewalk import cli
from shorewalk.folders import demo_data
from shorewalk.journal import Journal, Keeper
from shorewalk.journal.where import Where
from shorewalk.recorded import read_recorded
from shorewalk.tree.library import shipped
from shorewalk.walk.answers import Read
from shorewalk.walk.walk import begin

SITE = Where("Someday Flats", "14", None, "2024-05-01")
BEFORE = Where("Someday Flats", "14", None, "2023-09-10")
SUPPER = "voltage-low-at-supper"
"""A recorded walk: 111.8 V at rest, 110.2 V with a heater, in the rig, the cord in the 30 A outlet."""
ARRIVAL = "arrival-30-good"

Keep = Callable[..., int]
Run = Callable[..., subprocess.CompletedProcess[str]]


class Clock:
    """Says what a test sets, in UTC."""

    def __init__(self) -> None:
        self.now = datetime(2024, 5, 1, 12, tzinfo=UTC)

    def __call__(self) -> str:
        return self.now.strftime("%Y-%m-%dT%H:%M:%SZ")

    def set(self, text: str) -> None:
        self.now = datetime.fromisoformat(text).replace(tzinfo=UTC)


@pytest.fixture(autouse=True)
def _utc(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Clocks here show UTC, so that what is shown is the same everywhere."""
    monkeypatch.setenv("TZ", "UTC")
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path / "home"


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def journal(home: Path, clock: Clock) -> Iterator[Journal]:
    opened = Journal.open(home, clock=clock)
    yield opened
    opened.close()


def keeping(journal: Journal, clock: Clock) -> Keep:
    """Return how to keep a recorded walk: when it began, where, with other readings at named questions, how much."""

    def keep_walk(
        name: str,
        when: str,
        where: Where | None = None,
        read: Mapping[str, str] | None = None,
        most: int | None = None,
    ) -> int:
        recorded = read_recorded(demo_data() / "walks" / f"{name}.yaml")
        clock.set(when)
        walk = begin(shipped(), recorded.walk, recorded.meter)
        keeper = Keeper(journal)
        if where:
            keeper.placing.say(where)
        for _, at, answer, _ in recorded.answers[:most]:
            given = Read(read[at]) if at and read and at in read else answer
            walk = walk.answer(given, time=clock())
            if keeper.number is None:
                keeper.keep(walk)
            clock.now += timedelta(seconds=20)
        keeper.keep(walk)
        assert keeper.number is not None
        assert journal.problem is None
        return keeper.number

    return keep_walk


@pytest.fixture
def keep(journal: Journal, clock: Clock) -> Keep:
    """How to keep a recorded walk in the journal of this test."""
    return keeping(journal, clock)


@pytest.fixture(scope="session")
def full_home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two stays at one site, and a walk of which nobody said where it was; walked once for all tests."""
    home, clock = tmp_path_factory.mktemp("full"), Clock()
    journal = Journal.open(home, clock=clock)
    keep = keeping(journal, clock)
    keep(ARRIVAL, "2023-09-10T15:00:00", BEFORE)
    keep(SUPPER, "2024-04-20T18:00:00")
    keep(ARRIVAL, "2024-05-01T14:00:00", SITE)
    keep(SUPPER, "2024-05-01T18:50:00", SITE)
    keep(SUPPER, "2024-05-02T18:58:00", SITE, {"idle.hot_neutral": "110.9", "load.loaded": "109.1"})
    journal.close()
    return home


@pytest.fixture
def full(full_home: Path, home: Path, clock: Clock) -> Iterator[Journal]:
    """A copy of that."""
    shutil.copytree(full_home, home)
    clock.set("2024-05-02T19:30:00")
    opened = Journal.open(home, clock=clock)
    yield opened
    opened.close()


@pytest.fixture
def run(home: Path, tmp_path: Path) -> Run:
    """Run the program on the journal; every output is text."""

    def run_program(*words: str, given: str = "", **env: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, "-m", "shorewalk", *words],
            input=given,
            capture_output=True,
            text=True,
            check=False,
            timeout=60,
            cwd=tmp_path,
            env={**os.environ, "SHOREWALK_HOME": str(home), "TZ": "UTC", "LANG": "C.UTF-8", **env},
        )

    return run_program


class Said(NamedTuple):
    """What a command came to."""

    returncode: int
    stdout: str
    stderr: str


Typed = Callable[..., Said]


@pytest.fixture
def typed(
    home: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Typed:
    """Run what is typed in this process, which is quicker: nobody is at the keyboard."""
    monkeypatch.setenv("SHOREWALK_HOME", str(home))
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("sys.stdin", io.StringIO())

    def run_here(*words: str, **env: str) -> Said:
        for name, value in ({"COLUMNS": "80", "SHOREWALK_ASCII": ""} | env).items():
            monkeypatch.setenv(name, value)
        monkeypatch.setattr("sys.__stdout__", io.TextIOWrapper(io.BytesIO(), "utf-8"))
        capsys.readouterr()
        code = cli.run(list(words))
        return Said(code, *capsys.readouterr())

    return run_here
