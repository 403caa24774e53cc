"""Disks that are full, closed, locked or damaged: the walk goes on, the person is told, and nothing is lost quietly."""

from __future__ import annotations

import io
import os
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from shorewalk.carrying import hand_over_walk
from shorewalk.folders import demo_data
from shorewalk.journal import Journal, Keeper, take_up
from shorewalk.journal.store import FILE
from shorewalk.log.handing_out import write_pdf
from shorewalk.log.kept import Kept
from shorewalk.plain import Talk
from shorewalk.recorded import read_recorded
from shorewalk.saving import write_beside, write_new
from shorewalk.starting import Usage
from shorewalk.tree.library import shipped
from shorewalk.walk.answers import Choose, Done, Read
from shorewalk.walk.walk import Walk, begin

from .conftest import NoRoom


def kept(home: Path) -> list[str]:
    """Where the answers on the disk were given, after the file was checked."""
    database = sqlite3.connect(home / FILE)
    assert database.execute("pragma integrity_check").fetchall() == [("ok",)]
    places = [at for (at,) in database.execute("select at from answers order by walk, n")]
    database.close()
    return places


@pytest.fixture
def journal(tmp_path: Path) -> Iterator[Journal]:
    opened = Journal.open(tmp_path / "home")
    yield opened
    opened.close()


def said_on_leaving(keeper: Keeper, walk: Walk, *typed: str) -> str:
    """What plain text says to somebody who leaves, typing this."""
    out = io.StringIO()
    Talk(walk, keeper, io.StringIO("".join(f"{line}\n" for line in ("q", *typed))), out, 400).run()
    return out.getvalue()


def test_a_disk_that_has_room_again_gets_every_answer(
    journal: Journal, walk: Walk, tmp_path: Path, no_room: NoRoom
) -> None:
    """What was answered meanwhile comes to the disk with the next answer, and that is said too."""
    keeper = Keeper(journal)
    walk = walk.answer(Done())
    keeper.keep(walk)
    with no_room():
        walk = walk.answer(Choose("enough"))
        keeper.keep(walk)
        assert "not kept on disk" in str(keeper.news())
    assert kept(tmp_path / "home") == ["begin"]
    walk = walk.answer(Read("121.8"))
    keeper.keep(walk)
    assert keeper.news() == "The walk is kept on disk again."
    assert keeper.how_to_go_on()
    assert kept(tmp_path / "home") == ["begin", "light", "volts"]
    assert [(entry.id, entry.answers) for entry in journal.finished()] == [(1, 3)]


def test_walks_of_meanwhile_get_numbers_of_their_own(
    journal: Journal, walk: Walk, tmp_path: Path, no_room: NoRoom
) -> None:
    """Two walks begun in memory come to the disk beside those that another program put there."""
    one, two = Keeper(journal), Keeper(journal)
    with no_room():
        one.keep(walk.answer(Done()))
        two.keep(walk.answer(Done()))
    other = Journal.open(tmp_path / "home")
    other.begin(walk.answer(Done()).answer(Choose("enough")))
    two.keep(walk.answer(Done()).answer(Choose("enough")))
    assert [(entry.id, entry.answers) for entry in other.unfinished()] == [(3, 2), (2, 1), (1, 2)]
    assert two.number == 3
    other.close()


def test_a_walk_on_no_disk_can_be_kept_in_another_folder(
    journal: Journal, walk: Walk, tmp_path: Path, no_room: NoRoom
) -> None:
    """Leaving asks for a folder until one can be written, and says how the walk goes on from there."""
    keeper, elsewhere = Keeper(journal), tmp_path / "a stick"
    walk = walk.answer(Done())
    (tmp_path / "file").touch()
    with no_room():
        keeper.keep(walk)
    said = said_on_leaving(keeper, walk, str(tmp_path / "file"), str(elsewhere))
    assert said.count("What you answered is on no disk") == 2
    assert f"a file is in the way ({tmp_path / 'file'}). Another folder?" in said
    assert f"SHOREWALK_HOME='{elsewhere}' shorewalk walk --resume 1" in said
    assert kept(elsewhere) == ["begin"]
    keeper.keep(walk.answer(Choose("enough")))
    assert kept(elsewhere) == ["begin", "light"]
    there = Journal.open(elsewhere)
    assert take_up(there, 1, walk.library)[0].now.node.name == "volts"
    there.close()


def test_who_leaves_without_a_folder_is_told_what_is_not_kept(
    journal: Journal, walk: Walk, no_room: NoRoom
) -> None:
    """Enter alone leaves; where all is kept nothing is asked."""
    keeper = Keeper(journal)
    with no_room():
        keeper.keep(walk.answer(Done()))
    assert "What was answered since the disk failed is not kept." in said_on_leaving(
        keeper, walk.answer(Done()), ""
    )
    keeper.keep(walk.answer(Done()))
    assert "What you answered is on no disk" not in said_on_leaving(keeper, walk.answer(Done()))


def test_a_locked_file_is_waited_for_then_written_later(journal: Journal, walk: Walk, tmp_path: Path) -> None:
    """While another program has the file locked the walk goes on in memory; with the lock gone it is all there."""
    keeper = Keeper(journal)
    keeper.keep(walk.answer(Done()))
    journal._database.execute("pragma busy_timeout = 0")
    other = sqlite3.connect(tmp_path / "home" / FILE, isolation_level=None)
    other.execute("begin immediate")
    walk = walk.answer(Done()).answer(Choose("enough"))
    keeper.keep(walk)
    assert "another program has locked the file" in str(keeper.news())
    other.execute("commit")
    other.close()
    keeper.keep(walk.answer(Read("121.8")))
    assert keeper.news() == "The walk is kept on disk again."
    assert kept(tmp_path / "home") == ["begin", "light", "volts"]


def test_a_journal_that_was_moved_away_is_begun_anew(journal: Journal, walk: Walk, tmp_path: Path) -> None:
    """What is answered does not go into a file that nobody finds: a new one has the whole walk."""
    keeper = Keeper(journal)
    keeper.keep(walk.answer(Done()))
    (tmp_path / "home").rename(tmp_path / "away")
    keeper.keep(walk.answer(Done()).answer(Choose("enough")))
    assert kept(tmp_path / "home") == ["begin", "light"]
    assert keeper.how_to_go_on()
    assert keeper.news() is None


def test_half_of_a_file_is_not_left_behind(tmp_path: Path, no_room: NoRoom) -> None:
    """A record that a full disk cuts off looks like a whole one: it is taken away, and the disk's fault is told."""
    with no_room(), pytest.raises(OSError, match="File too large"):
        write_beside(tmp_path, "record", ".md", "what was read\n" * 1000)
    assert list(tmp_path.glob("record*")) == []


@pytest.mark.parametrize("at", [0.1, 0.5, 0.9])
def test_a_damaged_file_is_left_as_it_is(walk: Walk, tmp_path: Path, at: float) -> None:
    """It is said with what to do, no byte of it changes, and the walk can be kept in another folder."""
    home = tmp_path / "home"
    before = Journal.open(home)
    for _ in range(60):
        before.begin(walk.answer(Done()).answer(Choose("enough")))
    before.close()
    data = bytearray((home / FILE).read_bytes())
    place = int(len(data) * at) // 4096 * 4096
    data[place : place + 600] = b"\xa5" * 600
    (home / FILE).write_bytes(data)
    journal = Journal.open(home)
    assert "the file there is damaged; move it away, and a new one is made" in str(journal.problem)
    keeper = Keeper(journal)
    keeper.keep(walk.answer(Done()))
    keeper.keep(walk.answer(Done()).answer(Choose("enough")))
    assert (home / FILE).read_bytes() == data
    keeper.keep_in(str(tmp_path / "other"))
    assert kept(tmp_path / "other") == ["begin", "light"]
    journal.close()


class Mounted:
    """A small disk of its own."""

    def __init__(self, folder: Path, size: str) -> None:
        self.folder = folder
        folder.mkdir()
        if os.geteuid() != 0 or subprocess.call(
            ["mount", "-t", "tmpfs", "-o", f"size={size}", "none", folder]
        ):
            pytest.skip("only the superuser can make a disk here")

    def close_it(self) -> None:
        subprocess.check_call(["mount", "-o", "remount,ro", self.folder])


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Mounted]:
    """A disk of 96 kB: full after a few answers."""
    disk = Mounted(tmp_path / "disk", "96k")
    yield disk
    subprocess.check_call(["umount", "-l", disk.folder])


def walked_in(home: Path, *words: str, given: str) -> str:
    """What the real program says, walking with its walks kept there."""
    command = [sys.executable, "-m", "shorewalk", "walk", *words, "--plain"]
    env = {**os.environ, "SHOREWALK_HOME": str(home), "COLUMNS": "100"}
    ended = subprocess.run(
        command, input=given, capture_output=True, text=True, env=env, check=False, timeout=60
    )
    assert "Traceback" not in ended.stderr
    return " ".join((ended.stderr + ended.stdout).split())


def test_a_disk_that_fills_is_said_and_the_walk_goes_on(small_disk: Mounted, tmp_path: Path) -> None:
    """The real program on a real full disk: said once, answered on, and kept in another folder on leaving."""
    elsewhere = tmp_path / "elsewhere"
    said = walked_in(small_disk.folder, "arrival", given="1\n" * 9 + f"q\n{elsewhere}\n")
    assert said.count("Walks are not kept on disk: the disk is full") == 1
    assert "Question 9," in said
    assert f"SHOREWALK_HOME={elsewhere} shorewalk walk --resume 1 --plain" in said
    assert len(kept(elsewhere)) == said.count("> 1 ")


def test_walks_on_a_closed_disk_go_on_in_memory(small_disk: Mounted) -> None:
    """What is kept there can be taken up, answered on and kept elsewhere, though nothing can be written."""
    walked_in(small_disk.folder, "arrival", given="1\n1\nq\n")
    small_disk.close_it()
    said = walked_in(small_disk.folder, "--resume", "last", given="1\nq\n\n")
    assert "Question 3," in said
    assert "Question 4," in said
    assert "Walks are not kept on disk: the file there cannot be opened or made" in said
    assert "What was answered since the disk failed is not kept." in said
    assert len(kept_copy(small_disk.folder)) == 2


def kept_copy(folder: Path) -> list[str]:
    """The same as `kept`, of a disk that cannot be written."""
    database = sqlite3.connect(f"file:{folder / FILE}?immutable=1", uri=True)
    places = [at for (at,) in database.execute("select at from answers")]
    database.close()
    return places


def test_a_new_file_is_whole_or_not_there(tmp_path: Path, no_room: NoRoom) -> None:
    """On a full disk no half of it is left; what is there already is never touched."""
    path = tmp_path / "record.pdf"
    with no_room(), pytest.raises(OSError, match="too large"):
        write_new(path, b"x" * 100_000)
    assert not path.exists()
    write_new(path, b"one")
    with pytest.raises(FileExistsError):
        write_new(path, b"two")
    assert path.read_bytes() == b"one"


def test_a_walk_handed_over_on_a_full_disk_leaves_no_file(
    journal: Journal, tmp_path: Path, no_room: NoRoom, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Neither the file of a walk nor its PDF is left by halves, whatever name was given for it."""
    recorded = read_recorded(demo_data() / "walks" / "arrival-30-good.yaml")
    walk = begin(shipped(), recorded.walk, recorded.meter)
    for _, _, answer, _ in recorded.answers:
        walk = walk.answer(answer)
    Keeper(journal).keep(walk)
    monkeypatch.setenv("SHOREWALK_HOME", str(tmp_path / "home"))
    told: list[str] = []
    with no_room(), pytest.raises(OSError, match="too large"):
        hand_over_walk("1", str(tmp_path / "over.json"), told.append)
    with no_room(), pytest.raises(Usage, match="cannot be written"):
        write_pdf(Kept(journal, journal.entry(1)), tmp_path / "record.pdf", "2024-05-01T18:30:00Z")
    assert not told
    assert [path.name for path in tmp_path.iterdir() if path.is_file()] == []
