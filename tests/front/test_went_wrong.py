"""An error that nobody thought of: what is said of it, what is claimed of the walk, and what it exits with."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pexpect
import pytest

from shorewalk.exits import Exit
from shorewalk.journal import Journal
from shorewalk.reach import WENT_WRONG
from shorewalk.went_wrong import FILE, SAID

BROKEN = """
import sys
from shorewalk import cli
from shorewalk.{module} import {name}
before = {name}.{method}

def fail(self, *given):
    if given and str(given[-1]).endswith("boom"):
        raise ZeroDivisionError("nobody thought of it")
    return before(self, *given)

{name}.{method} = fail
sys.exit(cli.main())
"""
PLAIN = BROKEN.format(module="plain.talk", name="Talk", method="_turn")
START = BROKEN.format(module="plain.start", name="Start", method="_chosen")
APP = BROKEN.format(module="screens.walk", name="WalkScreen", method="give")


def typed(home: Path, code: str, words: tuple[str, ...], given: str) -> subprocess.CompletedProcess[str]:
    """Run the program, in which one method fails when `boom` is typed."""
    return subprocess.run(
        [sys.executable, "-c", code, *words],
        input=given,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
        env={**os.environ, "COLUMNS": "200", "SHOREWALK_HOME": str(home)},
    )


def test_plain_text_says_so_calmly_and_how_the_walk_goes_on(tmp_path: Path) -> None:
    """No traceback is shown, it is in a file that nobody else reads; the answers are there."""
    ended = typed(tmp_path, PLAIN, ("walk", "tingle", "--plain"), "1\nboom\n")
    assert ended.returncode == Exit.UNFINISHED
    assert ended.stderr == f"{SAID} What happened is written in {tmp_path / FILE}\n"
    assert ended.stdout.rstrip().endswith("shorewalk walk --resume 1 --plain")
    assert "ZeroDivisionError: nobody thought of it" in (tmp_path / FILE).read_text()
    assert (tmp_path / FILE).stat().st_mode & 0o777 == 0o600
    kept = Journal.open(tmp_path)
    assert [entry.answers for entry in kept.unfinished()] == [1]
    kept.close()


def test_programs_are_told_the_same(tmp_path: Path) -> None:
    """On stderr: how the walk goes on, then the line; what is on stdout stays JSON."""
    code = (
        BROKEN.format(module="walk.walk", name="Walk", method="answer")
        .replace('str(given[-1]).endswith("boom")', "self.answers")
        .replace("*given", "*given, **more")
    )
    ended = typed(
        tmp_path, code, ("walk", "tingle", "--jsonl"), '{"done": true}\n{"choose": "rig"}\n{"unsure": true}\n'
    )
    assert ended.returncode == Exit.UNFINISHED
    assert "shorewalk walk --resume 1 --jsonl" in ended.stderr
    assert SAID in ended.stderr
    assert all(line.startswith("{") for line in ended.stdout.splitlines())


def test_where_nothing_is_kept_nothing_is_claimed(tmp_path: Path) -> None:
    """With no folder for walks the line says what is not kept, and that what happened could not be written down."""
    (tmp_path / "file").touch()
    ended = typed(tmp_path / "file" / "home", PLAIN, ("walk", "tingle", "--plain"), "1\nboom\n")
    assert ended.returncode == Exit.UNFINISHED
    assert ended.stdout.rstrip().endswith("What was answered since the disk failed is not kept.")
    assert ended.stderr == f"{SAID} It could not be written down: ZeroDivisionError.\n"


def test_where_no_walk_is_open_none_is_spoken_of(tmp_path: Path) -> None:
    """At the start the line alone is said."""
    ended = typed(tmp_path, START, ("--plain",), "boom\n")
    assert ended.returncode == Exit.UNFINISHED
    assert ended.stderr.startswith(SAID)
    assert "is kept" not in ended.stdout


def test_the_app_says_the_same(tmp_path: Path) -> None:
    """The library would show all that its functions hold, and exit with 0."""
    program = pexpect.spawn(
        sys.executable,
        ["-c", APP, "walk", "tingle"],
        env={**os.environ, "TERM": "xterm-256color", "SHOREWALK_HOME": str(tmp_path)},
        encoding="utf-8",
        timeout=60,
        dimensions=(24, 200),
    )
    program.expect(" left")
    program.send("1\r7boom\r")
    program.expect(pexpect.EOF)
    program.close()
    said = str(program.before)
    assert program.exitstatus == Exit.UNFINISHED
    assert SAID in said
    assert "This walk is kept. To go on with it: shorewalk walk --resume 1" in said
    assert "Traceback" not in said
    assert "ZeroDivisionError" in (tmp_path / FILE).read_text()


@pytest.mark.parametrize("claim", ["Every answer", "is kept"])
def test_a_shared_login_claims_no_more_than_is_so(claim: str) -> None:
    """In practice, or with a full disk, nothing is kept: its line does not say so."""
    assert claim not in WENT_WRONG
