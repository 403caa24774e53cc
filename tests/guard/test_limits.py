"""What one person can fill."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from shorewalk.commands import commands_on
from shorewalk.journal import Journal, Keeper
from shorewalk.reach import MOST_BYTES, MOST_FILES, reach
from shorewalk.saving import write_beside
from shorewalk.starting import Usage, start

KEEPER = "whoever keeps this computer"


def test_so_many_files_are_saved_and_no_more(ann: Path) -> None:
    """The last that is allowed is written; the next is refused with the number and whom to ask."""
    for number in range(MOST_FILES - 1):
        (ann / str(number)).touch()
    assert write_beside(ann, "last", ".md", "last").exists()
    with pytest.raises(OSError, match=f"at most {MOST_FILES} files .*{KEEPER}"):
        write_beside(ann, "more", ".md", "more")
    assert not (ann / "more.md").exists()


def test_so_many_bytes_are_saved_and_no_more(ann: Path) -> None:
    """A file that would go over is refused; a smaller one is not."""
    with (ann / "large").open("wb") as large:
        large.truncate(MOST_BYTES - 10)
    with pytest.raises(OSError, match="50 MB"):
        write_beside(ann, "more", ".md", "x" * 11)
    assert write_beside(ann, "less", ".md", "x" * 10).exists()


def test_elsewhere_nothing_is_counted(tmp_path: Path) -> None:
    """Whoever runs the program on their own computer saves what they like."""
    for number in range(MOST_FILES + 1):
        (tmp_path / str(number)).touch()
    assert write_beside(tmp_path, "more", ".md", "more").exists()


def test_a_file_that_grew_too_large_is_told_and_the_walk_goes_on(tmp_path: Path) -> None:
    """The system's limit stops the file of walks; what is said names no path and no other folder is offered."""
    code = """
import sys
from pathlib import Path
from shorewalk.guard import limits
from shorewalk.guard.command import _raise_guard
limits.LARGEST = 64 * 1024
walks = Path(sys.argv[1])
_raise_guard(walks / "people" / "ann", walks)
from shorewalk.journal import Journal, Keeper
from shorewalk.starting import start
from shorewalk.walk.answers import Done
keeper = Keeper(Journal.open())
for _ in range(2_000):
    walk = start("arrival").answer(Done())
    keeper = Keeper(keeper.journal)
    keeper.keep(walk)
    if keeper.journal.problem:
        break
print(keeper.news())
print(keeper.reminder)
"""
    ended = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path)], capture_output=True, text=True, check=False
    )
    assert ended.returncode == 0, ended.stderr
    news, reminder = ended.stdout.splitlines()
    assert news.startswith("Walks are not kept on disk: ")
    assert KEEPER in news
    assert "walk goes on" in news
    assert str(tmp_path) not in ended.stdout
    assert "folder" not in reminder


def test_the_limits_are_set_in_the_process_itself(tmp_path: Path) -> None:
    """No memory is left on the disk where it ends badly; a file comes to 32 MB and not to a byte more."""
    code = """
import resource, sys
from pathlib import Path
from shorewalk.guard.command import _raise_guard
walks = Path(sys.argv[1])
resource.setrlimit(resource.RLIMIT_CORE, (resource.getrlimit(resource.RLIMIT_CORE)[1],) * 2)
_raise_guard(walks / "people" / "ann", walks)
print(*resource.getrlimit(resource.RLIMIT_CORE), *resource.getrlimit(resource.RLIMIT_FSIZE))
with (walks / "people" / "ann" / "large").open("wb") as large:
    large.truncate(32 * 1024 * 1024)
    try:
        large.truncate(32 * 1024 * 1024 + 1)
    except OSError as error:
        print(error.strerror)
"""
    ended = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path)], capture_output=True, text=True, check=False
    )
    assert ended.stdout.splitlines() == ["0 0 33554432 33554432", "File too large"], ended.stderr


def test_what_asks_for_a_path_is_not_offered(ann: Path) -> None:
    """The start has no hand-over; within a walk, where nothing is typed, it stays."""
    del ann
    assert "hand" not in {command.id for command in commands_on("start")}
    assert "hand" in {command.id for command in commands_on("ask")}


def test_a_symptom_never_names_a_file(ann: Path) -> None:
    """A tree of one's own is walked by its path elsewhere; here it is words that fit nothing."""
    tree = ann / "mine.yaml"
    tree.write_text("")
    with pytest.raises(Usage, match="Nothing here is about"):
        start(str(tree))


def test_leaving_says_that_the_next_login_goes_on(ann: Path) -> None:
    """No command is named that could not be typed there."""
    del ann
    keeper = Keeper(Journal.open(reach().saved))
    keeper.number = 1
    assert keeper.how_to_go_on() == "This walk is kept. It stands first when you log in again."
    keeper.journal.close()
