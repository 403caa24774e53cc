"""The forced command itself."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from shorewalk.exits import Exit
from shorewalk.guard.command import LONGEST, Login, NotClear, read_login


def test_the_forced_command_names_one_person() -> None:
    """Name, folder and plain text are read in any order."""
    assert read_login(["ann"]) == Login("ann")
    assert read_login(["--plain", "park-office-2", "--home", "/srv/walks"]) == Login(
        "park-office-2", Path("/srv/walks"), plain=True
    )
    assert read_login(["ann", "--home=/srv/walks"]).home == Path("/srv/walks")


@pytest.mark.parametrize(
    "words",
    [
        [],
        ["ann", "bob"],
        ["Ann"],
        ["../bob"],
        ["ann/bob"],
        ["."],
        ["-ann"],
        ["ann-"],
        ["an n"],
        [""],
        ["2ann"],
        ["änn"],
        ["a" * (LONGEST + 1)],
        ["ann", "--home", "walks"],
        ["ann", "--home"],
        ["ann", "--jsonl"],
    ],
)
def test_a_name_that_is_none_is_told_in_one_line(words: list[str]) -> None:
    """No name, two, one that could be a path or an option: nothing is opened, and one line says what is wanted."""
    with pytest.raises(NotClear) as refused:
        read_login(words)
    assert len(str(refused.value).splitlines()) == 1


def test_it_is_told_on_the_command_line_too() -> None:
    """The command itself exits 2 with that line, and `--help` says what it is for."""
    ended = subprocess.run(
        [sys.executable, "-m", "shorewalk", "guarded", "Ann"], capture_output=True, text=True, check=False
    )
    assert (ended.returncode, ended.stdout) == (Exit.USAGE, "")
    assert ended.stderr.startswith("shorewalk guarded: PERSON is a name in small letters")


def test_a_guarded_start_loads_no_arithmetic_of_circuits() -> None:
    """What practice needs is loaded where somebody practises: the start is as quick as any other."""
    code = "import sys, shorewalk.guard.command, shorewalk.guard.opening; sys.exit('numpy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
