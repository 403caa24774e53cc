"""The forced command itself."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from contextlib import suppress
from pathlib import Path

import pytest

from shorewalk.exits import Exit
from shorewalk.guard.asking import HELP
from shorewalk.guard.command import LONGEST, Login, NotClear, read_login


def test_the_forced_command_names_one_person() -> None:
    """Name, folder and plain text are read in any order."""
    assert read_login(["ann"]) == Login("ann")
    assert read_login(["--plain", "park-office-2", "--home", "/srv/walks"]) == Login(
        "park-office-2", Path("/srv/walks"), plain=True
    )
    assert read_login(["ann", "--home=/srv/walks"]).home == Path("/srv/walks")


@pytest.mark.parametrize("name", ["j.smith", "ann_b", "_svc", "a", "walk-3", "a" * LONGEST])
def test_names_of_accounts_fit(name: str) -> None:
    """What systems call an account is a name, as long as no other spelling of it could be the same folder."""
    assert read_login([name]).person == name


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
        ["ann."],
        [".ann"],
        [".."],
        ["ann@park"],
        ["park\\ann"],
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


GUARDED = ("-m", "shorewalk", "guarded", "ann")


def test_it_begins_only_where_python_heeds_no_variable(tmp_path: Path) -> None:
    """Without `-I` nothing is opened and no folder made: a line says how it is begun."""
    environ = {**os.environ, "SSH_ORIGINAL_COMMAND": "help", "SHOREWALK_HOME": str(tmp_path)}
    for options, code in (((), Exit.USAGE), (("-E",), Exit.USAGE), (("-I",), Exit.CLEAN)):
        before = list(tmp_path.iterdir())
        ended = subprocess.run(
            [sys.executable, *options, *GUARDED], env=environ, capture_output=True, text=True, check=False
        )
        assert ended.returncode == code, ended.stderr
        if code == Exit.USAGE:
            (line,) = ended.stderr.splitlines()
            assert "python -I -m shorewalk guarded PERSON" in line
            assert (ended.stdout, [*tmp_path.iterdir()]) == ("", before)


def test_ctrl_c_does_not_cut_into_the_start(tmp_path: Path) -> None:
    """Begun as the README says, it has Ctrl-C ignored until it can answer it: no traceback, whenever it comes."""
    environ = {**os.environ, "SSH_ORIGINAL_COMMAND": "help", "SHOREWALK_HOME": str(tmp_path)}
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        program = subprocess.Popen(
            [sys.executable, "-I", *GUARDED],
            env=environ,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
    finally:
        signal.signal(signal.SIGINT, before)
    while program.poll() is None:
        program.send_signal(signal.SIGINT)
        with suppress(subprocess.TimeoutExpired):
            program.wait(0.001)
    said, beside = program.communicate()
    assert (program.returncode, said, beside) == (Exit.CLEAN, f"{HELP}\n", "")


def test_a_guarded_start_loads_no_arithmetic_of_circuits() -> None:
    """What practice needs is loaded where somebody practises: the start is as quick as any other."""
    code = "import sys, shorewalk.guard.command, shorewalk.guard.opening; sys.exit('numpy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
