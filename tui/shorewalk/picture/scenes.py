"""The app at a moment: walks followed to one of their questions, a log of two stays, a bench, a preview."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import AbstractContextManager, contextmanager
from datetime import datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from shorewalk.app import ShorewalkApp
from shorewalk.folders import demo_data
from shorewalk.journal import Journal, Keeper
from shorewalk.journal.store import connect_in_memory
from shorewalk.journal.where import Where
from shorewalk.recorded import read_recorded
from shorewalk.tree.library import shipped
from shorewalk.walk.answers import Read
from shorewalk.walk.walk import Walk, begin

if TYPE_CHECKING:
    from collections.abc import Iterator

NOW = "2024-05-02T19:30:00Z"
SITE, PARK = "14", "Someday Flats"
STAYS: tuple[tuple[str, str, str, Mapping[str, str]], ...] = (
    ("arrival-30-good", "2023-09-10T15:00:00+00:00", "2023-09-10", {}),
    ("arrival-30-good", "2024-05-01T14:00:00+00:00", "2024-05-01", {}),
    ("voltage-low-at-supper", "2024-05-01T18:50:00+00:00", "2024-05-01", {}),
    (
        "voltage-low-at-supper",
        "2024-05-02T18:58:00+00:00",
        "2024-05-01",
        {"idle.hot_neutral": "110.9", "load.loaded": "109.1"},
    ),
)
"""Walks at one site of a campground that does not exist: which, when, the day the stay began, other readings."""
SLIPS = (
    ("Say here what is wrong in a person's words", "The lights go dim at supper"),
    ("sign: burn-marks", "sign: burnt-marks"),
)

Scene = Callable[[str], AbstractContextManager[ShorewalkApp]]
"""From a look to the app that is to be pictured."""


def at_start(look: str) -> AbstractContextManager[ShorewalkApp]:
    """Return the app at its start."""
    return _with(ShorewalkApp(journal=_journal(), ascii_only=False, look=look))


def at_question(name: str, node: str) -> Scene:
    """Return a recorded walk at one of its questions."""
    return lambda look: _with(
        ShorewalkApp(walk_to(name, node), journal=_journal(), ascii_only=False, look=look)
    )


def at_end(name: str) -> Scene:
    """Return a recorded walk at its end."""
    return lambda look: _with(ShorewalkApp(walk_to(name), journal=_journal(), ascii_only=False, look=look))


def with_log(look: str) -> AbstractContextManager[ShorewalkApp]:
    """Return the app with walks of two stays at one site."""
    now = NOW
    journal = Journal(connect_in_memory(), clock=lambda: now)
    for name, when, stay, read in STAYS:
        began = datetime.fromisoformat(when)
        keeper = Keeper(journal)
        keeper.placing.say(Where(PARK, SITE, None, stay))
        for walk in _steps(name, began, read):
            now = walk.answers[-1].time or NOW if walk.answers else NOW
            keeper.keep(walk)
    now = NOW
    return _with(ShorewalkApp(journal=journal, ascii_only=False, look=look))


def at_bench(site: str, seed: int, node: str) -> Scene:
    """Return a practice walk where a reading is to be taken, its meter in the hands."""

    def scene(look: str) -> AbstractContextManager[ShorewalkApp]:
        from shorewalk.practice_app import PracticeApp
        from shorewalk.practice_site import begin_at

        at = begin_at(site, seed)
        bench, walk = at.hands.bench, at.walk
        bench.follow(walk)
        while walk.now.node.name != node:
            answer = bench.person.answer(walk)
            before, walk = walk, walk.answer(answer, time=NOW)
            bench.answered(before, answer)
            bench.follow(walk)
        return _with(PracticeApp(walk, Keeper(_journal()), at.hands, ascii_only=False, look=look))

    return scene


@contextmanager
def previewing(look: str) -> Iterator[ShorewalkApp]:
    """Give the author's preview of a new tree in which a name was misspelt."""
    from shorewalk.author.new import write_new
    from shorewalk.preview_app import PreviewApp

    with TemporaryDirectory() as folder:
        file = write_new("low-at-supper", Path(folder)).file
        text = file.read_text(encoding="utf-8")
        for old, new in SLIPS:
            text = text.replace(old, new)
        file.write_text(text, encoding="utf-8")
        yield PreviewApp(file, ascii_only=False, look=look)


def walk_to(name: str, node: str | None = None) -> Walk:
    """Return a recorded walk as it stands when `node` is asked, else at its end; `ValueError` if it never is."""
    for walk in _steps(name, datetime.fromisoformat(NOW), {}):
        if walk.now.node.name == node or (node is None and walk.ended):
            return walk
    raise ValueError(f"the recorded walk {name} never comes to {node}")


def _steps(name: str, began: datetime, read: Mapping[str, str]) -> Iterator[Walk]:
    recorded = read_recorded(demo_data() / "walks" / f"{name}.yaml")
    walk = begin(shipped(), recorded.walk, recorded.meter)
    yield walk
    for number, (_, at, answer, _) in enumerate(recorded.answers):
        time = (began + timedelta(seconds=20 * number)).strftime("%Y-%m-%dT%H:%M:%SZ")
        walk = walk.answer(Read(read[at]) if at and at in read else answer, time=time)
        yield walk


def _journal() -> Journal:
    return Journal(connect_in_memory(), clock=lambda: NOW)


@contextmanager
def _with(app: ShorewalkApp) -> Iterator[ShorewalkApp]:
    yield app
