"""Walks on disk."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path

import pytest

from shorewalk.journal import Journal, Keeper, NoSuchWalk, ago
from shorewalk.journal.store import FILE
from shorewalk.journal.tables import VERSION
from shorewalk.tree.library import Library
from shorewalk.walk.answers import Choose, Done, Read, Unsure
from shorewalk.walk.walk import Walk

from .conftest import TREE, NoRoom


def rows(tmp_path: Path) -> list[tuple[str, str]]:
    """What another program sees on disk while the walk goes on."""
    with sqlite3.connect(tmp_path / "home" / FILE) as other:
        found = other.execute("select at, answer from answers order by walk, n").fetchall()
    other.close()
    return found


def test_every_answer_is_on_disk_when_it_was_kept(journal: Journal, walk: Walk, tmp_path: Path) -> None:
    """A second reader of the file sees each answer at once, and sees taken-back ones no more."""
    walk = walk.answer(Done(), time="2024-05-01T18:29:00Z")
    number = journal.begin(walk)
    assert rows(tmp_path) == [("begin", '{"done": true}')]
    walk = walk.answer(Choose("enough"))
    journal.keep(number, walk)
    assert rows(tmp_path) == [("begin", '{"done": true}'), ("light", '{"choose": "enough"}')]
    journal.keep(number, walk.back())
    assert rows(tmp_path) == [("begin", '{"done": true}')]
    journal.keep(number, walk.revise(1, Unsure()))
    assert rows(tmp_path) == [("begin", '{"done": true}'), ("light", '{"unsure": true}')]


def test_an_answer_is_synced_before_it_counts_as_written(journal: Journal) -> None:
    """A write-ahead log with full sync: what SQLite promises to keep when the power goes.

    Source: https://www.sqlite.org/pragma.html#pragma_synchronous (2 is FULL).
    """
    assert journal._database.execute("pragma journal_mode").fetchone() == ("wal",)
    assert journal._database.execute("pragma synchronous").fetchone() == (2,)


def test_a_walk_comes_back_as_it_was(journal: Journal, walk: Walk, trees: Path) -> None:
    """Answers, times, confirmations, meter and tree are those it was left with."""
    walk = walk.answer(Done(), time="2024-05-01T18:29:00Z").answer(Choose("enough"))
    number = journal.begin(walk)
    again = journal.load(number, Library(trees))
    assert (again.answers, again.meter, again.tree) == (walk.answers, walk.meter, walk.tree)
    assert again.now.node.name == "volts"


def test_a_walk_in_a_folder_of_its_own_finds_its_tree_again(journal: Journal, walk: Walk) -> None:
    """Without being told a library, a walk comes back in the folder it was walked in."""
    number = journal.begin(walk.answer(Done()))
    assert journal.load(number).now.node.name == "light"


def test_unfinished_walks_come_with_the_last_one_first(journal: Journal, walk: Walk) -> None:
    """What was answered last is offered first; a walk that ended is not offered."""
    first, second, third = (journal.begin(walk.answer(Done())) for _ in range(3))
    journal.keep(first, walk.answer(Done()).answer(Choose("enough")))
    journal.finish(third, walk.answer(Done()).answer(Choose("too-dark")))
    assert [entry.id for entry in journal.unfinished()] == [first, second]
    assert [entry.answers for entry in journal.unfinished()] == [2, 1]
    (ended,) = journal.finished()
    assert ended.ending is not None
    assert ended.ending["verdict"] == "stay-unplugged"


def test_taking_back_the_last_answer_makes_a_walk_unfinished(journal: Journal, walk: Walk) -> None:
    """A walk whose ending was taken back is offered again."""
    keeper = Keeper(journal)
    ended = walk.answer(Done()).answer(Choose("too-dark"))
    keeper.keep(ended)
    assert not journal.unfinished()
    keeper.keep(ended.back())
    assert [entry.answers for entry in journal.unfinished()] == [1]


def test_a_walk_nobody_answered_is_not_kept(journal: Journal) -> None:
    """Looking at a tree leaves nothing behind."""
    Keeper(journal)
    assert not journal.unfinished()


def test_answers_that_no_longer_fit_stay_on_disk(
    journal: Journal, walk: Walk, trees: Path, tmp_path: Path
) -> None:
    """Where the tree has changed the walk comes back as far as it fits, and nothing is lost by looking."""
    number = journal.begin(walk.answer(Done()).answer(Choose("enough")).answer(Read("121.8")))
    (trees / "small.yaml").write_text(TREE.replace("enough: {says", "plenty: {says"))
    again = journal.load(number, Library(trees))
    assert again.now.node.name == "light"
    assert len(rows(tmp_path)) == 3


def test_a_number_that_is_not_there_is_said_so(journal: Journal) -> None:
    """Asking for a walk that was never kept raises NoSuchWalk."""
    with pytest.raises(NoSuchWalk):
        journal.load(7)


@pytest.mark.parametrize("what", ["file", "newer", "foreign", "garbage"])
def test_where_nothing_can_be_kept_the_walk_goes_on(walk: Walk, tmp_path: Path, what: str) -> None:
    """A journal that cannot be opened is one in memory and says why; a foreign file stays as it is."""
    home = tmp_path / "home"
    if what == "file":
        home.write_text("in the way")
    else:
        home.mkdir()
        if what == "garbage":
            (home / FILE).write_bytes(b"not a database" * 100)
        else:
            with sqlite3.connect(home / FILE) as other:
                other.execute("create table something (a)")
                other.execute(f"pragma user_version = {VERSION + 1 if what == 'newer' else 0}")
            other.close()
    before = home.read_bytes() if what == "file" else (home / FILE).read_bytes()
    journal = Journal.open(home)
    assert journal.problem
    assert "not kept" in journal.problem
    number = journal.begin(walk.answer(Done()))
    assert journal.load(number, walk.library).answers
    journal.close()
    if what != "newer":
        assert (home.read_bytes() if what == "file" else (home / FILE).read_bytes()) == before


@pytest.mark.skipif(os.geteuid() == 0, reason="nothing is closed to the superuser")
def test_a_folder_that_is_closed_is_said_so(walk: Walk, tmp_path: Path) -> None:
    """No permission is no crash."""
    home = tmp_path / "home"
    home.mkdir(mode=0o500)
    journal = Journal.open(home)
    assert journal.problem
    assert journal.begin(walk) == 1


def test_a_disk_that_fails_later_loses_no_answer(walk: Walk, tmp_path: Path, no_room: NoRoom) -> None:
    """When the file can no longer be written the journal goes on in memory, and says so once."""
    journal = Journal.open(tmp_path / "home")
    keeper = Keeper(journal)
    walk = walk.answer(Done())
    keeper.keep(walk)
    assert keeper.news() is None
    walk = walk.answer(Choose("enough"))
    with no_room():
        keeper.keep(walk)
    assert "not kept" in str(keeper.news())
    assert keeper.news() is None
    assert keeper.number is not None
    assert journal.load(keeper.number, walk.library).answers == walk.answers
    assert keeper.how_to_go_on() is None
    journal.close()


def test_two_programs_keep_walks_side_by_side(walk: Walk, tmp_path: Path) -> None:
    """Two journals on one file get numbers of their own, and see each other's walks."""
    one, other = Journal.open(tmp_path / "home"), Journal.open(tmp_path / "home")
    numbers = {one.begin(walk.answer(Done())), other.begin(walk.answer(Done()))}
    assert len(numbers) == 2
    assert {entry.id for entry in one.unfinished()} == numbers
    one.close()
    other.close()


@pytest.mark.parametrize(
    ("then", "words"),
    [
        ("2024-05-01T18:29:30Z", "just now"),
        ("2024-05-01T18:29:00Z", "1 minute ago"),
        ("2024-05-01T13:30:00Z", "5 hours ago"),
        ("2024-04-28T18:30:00Z", "3 days ago"),
        ("2024-05-02T18:30:00Z", "just now"),
        ("once", "at once"),
    ],
)
def test_how_long_ago_is_told_in_words(then: str, words: str) -> None:
    """A clock that was set back tells nothing strange."""
    assert ago(then, "2024-05-01T18:30:00Z") == words
