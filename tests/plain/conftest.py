"""Plain text as somebody hears it: lines typed at the start, and all that is said."""

from __future__ import annotations

import io
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from shorewalk.exits import Exit
from shorewalk.folders import demo_data
from shorewalk.journal import Journal, Keeper
from shorewalk.plain.moving import Place, converse
from shorewalk.plain.session import Session
from shorewalk.plain.start import Start
from shorewalk.plain.voice import Voice
from shorewalk.recorded import read_recorded
from shorewalk.tree.library import shipped
from shorewalk.walk.walk import begin

NOW = "2024-05-02T18:30:00Z"
EVENING, NIGHT = "voltage-low-at-supper", "arrival-30-good"
"""Recorded walks: volts in the rig at supper; a whole arrival at a sound outlet."""


class Heard(NamedTuple):
    """What was said, in lines as they came, what the program exits with, and what the run had in common."""

    said: str
    code: Exit
    session: Session

    @property
    def words(self) -> str:
        """What was said, as running text."""
        return " ".join(self.said.split())


Hear = Callable[..., Heard]
Keep = Callable[..., int]


@pytest.fixture(autouse=True)
def _utc(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Iterator[None]:
    """Clocks show UTC; walks, files and what was practised are the test's own."""
    monkeypatch.setenv("TZ", "UTC")
    monkeypatch.setenv("SHOREWALK_HOME", str(tmp_path / "home"))
    time.tzset()
    folder = tmp_path / "here"
    folder.mkdir()
    monkeypatch.chdir(folder)
    yield
    monkeypatch.undo()
    time.tzset()


@pytest.fixture
def journal(tmp_path: Path) -> Journal:
    """Where walks are kept."""
    return Journal.open(tmp_path / "home", clock=lambda: NOW)


@pytest.fixture
def hear(journal: Journal) -> Hear:
    """Type lines, by default at the start; return what was heard."""

    def listen(*lines: str, room: int = 400, at: Callable[[Session], Place] | None = None) -> Heard:
        out = io.StringIO()
        given = io.StringIO("".join(f"{line}\n" for line in lines))
        session = Session(Voice(given, out, room), journal)
        place = at(session) if at else Start(session).run
        code = converse(place, session)
        return Heard(out.getvalue(), code, session)

    return listen


@pytest.fixture
def keep(journal: Journal) -> Keep:
    """Keep a recorded walk, or its first answers, with its site; return its number."""

    def put(name: str, when: str, site: str = "", answers: int | None = None) -> int:
        journal.clock = lambda: when
        recorded = read_recorded(demo_data() / "walks" / f"{name}.yaml")
        walk, keeper = begin(shipped(), recorded.walk, recorded.meter), Keeper(journal)
        if site:
            keeper.placing.typed(site)
        for _, _, answer, _ in recorded.answers[:answers]:
            walk = walk.answer(answer, time=when)
            keeper.keep(walk)
        journal.let_go()
        journal.clock = lambda: NOW
        assert keeper.number is not None
        return keeper.number

    return put
