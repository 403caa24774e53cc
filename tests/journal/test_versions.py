"""Journals of other versions: an older one is brought up to date, a newer one is left alone."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from shorewalk.journal import Journal, store
from shorewalk.journal.store import FILE, bring_up, version_of
from shorewalk.journal.tables import STEPS, VERSION

ROWS = """
insert into walks values (3, 'arrival', null, 'basic', '2024-05-01T12:00:00Z', '2024-05-01T12:01:00Z', null);
insert into walks values (4, 'tingle', null, 'good', '2024-05-02T12:00:00Z', '2024-05-02T12:01:00Z', '{"a": 1}');
insert into answers values (3, 0, 'arrival', 'begin', 1, '{"done": true}', '2024-05-01T12:00:30Z');
"""


def older(home: Path) -> Path:
    """Make a journal of the first version, with two walks in it."""
    home.mkdir()
    with sqlite3.connect(home / FILE) as database:
        database.executescript(f"pragma journal_mode = wal; {STEPS[0]}; pragma user_version = 1; {ROWS}")
    database.close()
    return home / FILE


def dump(path: Path) -> list[str]:
    """Everything in a file, as SQL, with its version."""
    with sqlite3.connect(path) as database:
        said = [*database.iterdump(), str(version_of(database))]
    database.close()
    return said


def test_an_older_journal_is_brought_up_with_all_that_is_in_it(tmp_path: Path) -> None:
    """Walks and answers of the first version are there, each with a name of its own for other machines."""
    path = older(tmp_path / "home")
    journal = Journal.open(tmp_path / "home")
    assert journal.problem is None
    (left,), (ended,) = journal.unfinished(), journal.finished()
    assert (left.id, left.tree, left.answers, left.park) == (3, "arrival", 1, None)
    assert (ended.id, ended.ending) == (4, {"a": 1})
    assert len({left.uuid, ended.uuid}) == 2
    assert all(len(uuid) == 32 for uuid in (left.uuid, ended.uuid))
    journal.close()
    assert dump(path)[-1] == str(VERSION)


def test_a_step_that_fails_leaves_the_older_file_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the last of several steps cannot be taken none is, and the walk goes on in memory."""
    path = older(tmp_path / "home")
    before = dump(path)
    monkeypatch.setattr(store, "STEPS", (*STEPS, "create table more (a); drop table no_such_table"))
    monkeypatch.setattr(store, "VERSION", VERSION + 1)
    with sqlite3.connect(path, isolation_level=None) as database, pytest.raises(sqlite3.OperationalError):
        bring_up(database)
    database.close()
    assert dump(path) == before


def test_a_newer_journal_is_not_written_to(tmp_path: Path) -> None:
    """Every byte stays, also of what a later version had not yet moved into its file when it was killed."""
    home = tmp_path / "home"
    path = older(home)
    later = sqlite3.connect(path, isolation_level=None)
    later.execute(f"pragma user_version = {VERSION + 1}")  # in the log beside the file, as after a kill
    kept = {beside.name: beside.read_bytes() for beside in home.glob(f"{FILE}*")}
    copy = tmp_path / "copy"
    copy.mkdir()
    for name, data in kept.items():
        if not name.endswith("-shm"):
            (copy / name).write_bytes(data)
    later.close()
    before = {one.name: one.read_bytes() for one in copy.iterdir()}
    assert before[f"{FILE}-wal"]
    journal = Journal.open(copy)
    assert "later version" in str(journal.problem)
    journal.close()
    after = {one.name: one.read_bytes() for one in copy.iterdir() if not one.name.endswith("-shm")}
    assert after == before


def test_where_and_when_is_kept_with_a_walk(tmp_path: Path) -> None:
    """What is said of a walk stands in its entry, and what is said later leaves the rest."""
    older(tmp_path / "home")
    journal = Journal.open(tmp_path / "home")
    journal.label(3, park="Someday Flats", site="12")
    journal.label(3, site="14")
    entry = journal.entry(3)
    assert (entry.park, entry.site, entry.outlet) == ("Someday Flats", "14", None)
    journal.close()
