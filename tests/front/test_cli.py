"""The command line: what is understood, what is refused, and what it exits with."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from shorewalk import folders
from shorewalk.exits import Exit

Run = Callable[..., Any]
PROGRAM = (sys.executable, "-m", "shorewalk")


def test_the_exit_codes_are_the_promised_ones() -> None:
    """Hooks and other programs rely on these numbers."""
    assert [(code.name, code.value) for code in Exit] == [
        ("CLEAN", 0),
        ("FINDINGS", 1),
        ("USAGE", 2),
        ("UNFINISHED", 3),
    ]


def test_without_a_terminal_it_says_how_to_use_it(run: Run) -> None:
    """A bare `shorewalk` in a pipe neither hangs nor opens; it names what works there."""
    ended = run()
    assert ended.returncode == Exit.USAGE
    assert ended.stdout == ""
    assert "--plain" in ended.stderr
    assert "--jsonl" in ended.stderr


def test_walking_in_the_app_needs_a_terminal_too(run: Run) -> None:
    """The same sentence where a symptom was named."""
    ended = run("walk", "arrival")
    assert ended.returncode == Exit.USAGE
    assert "--plain" in ended.stderr


@pytest.mark.parametrize(
    "words", ["arrival", "arrived", "we just ARRIVED and want to plug in", "new site", "plug in arrived"]
)
def test_a_symptom_may_be_a_name_or_words(run: Run, words: str) -> None:
    """The name of a tree, a piece of its symptom and words in any order all lead to it."""
    ended = run("walk", words, "--jsonl")
    assert '"tree": "arrival"' in ended.stdout
    assert ended.returncode == Exit.UNFINISHED


def test_words_need_no_quotes(run: Run) -> None:
    """A hurried person types the symptom as it comes."""
    assert '"tree": "arrival"' in run("walk", "--jsonl", "just", "arrived").stdout


@pytest.mark.parametrize(
    ("words", "near"), [("arival", "arrival"), ("the breakr is triping", "breaker-trips")]
)
def test_an_unknown_symptom_names_the_nearest(run: Run, words: str, near: str) -> None:
    """A slip of the finger gets the command to type instead, and exits as misuse."""
    for way in (("--jsonl",), ("--plain",)):
        ended = run("walk", words, *way)
        assert ended.returncode == Exit.USAGE
        assert f"shorewalk walk {near}" in ended.stderr
        assert ended.stdout == ""


def test_words_that_fit_several_trees_list_them(run: Run) -> None:
    """Nobody is sent down a tree by a guess."""
    ended = run("walk", "the", "--plain")
    assert ended.returncode == Exit.USAGE
    assert ended.stderr.count("shorewalk walk ") >= 2


@pytest.mark.parametrize(
    "words",
    [
        ("walk", "arrival", "--jsonl", "--meter", "cheap"),
        ("walk", "arrival", "--plain", "--meter", "5 V"),
        ("walk", "arrival", "--jsonl", "--meter"),
        ("walk", "arrival", "--plain", "--jsonl"),
        ("walk", "--jsonl"),
        ("walk", "nowhere/none.yaml", "--jsonl"),
        ("walk", "--resume", "99", "--jsonl"),
        ("walk", "--resume", "last", "--plain"),
        ("walk", "--resume", "9" * 40, "--plain"),
        ("walk", "arrival", "--colour"),
        ("arrival",),
        ("replay",),
    ],
)
def test_misuse_is_told_in_a_sentence(run: Run, words: tuple[str, ...]) -> None:
    """What cannot be done exits 2 with words on stderr, and nothing on stdout."""
    ended = run(*words)
    assert ended.returncode == Exit.USAGE
    assert ended.stdout == ""
    assert ended.stderr.strip()
    assert "Traceback" not in ended.stderr


@pytest.mark.parametrize(
    "text", ["tree: [", "", "tree: broken\n", "\0", "tree: broken\nbegin: a\nnodes: {a: 3}\n"]
)
@pytest.mark.parametrize("way", ["--jsonl", "--plain"])
def test_a_tree_that_cannot_be_read_is_told_with_its_place(
    run: Run, tmp_path: Path, text: str, way: str
) -> None:
    """A broken file gives file:line:column and exits 3."""
    path = tmp_path / "broken.yaml"
    path.write_text(text)
    ended = run("walk", str(path), way)
    assert ended.returncode == Exit.UNFINISHED
    assert re.search(r"broken\.yaml:\d+:\d+: ", ended.stderr)
    assert ended.stdout == ""
    assert "Traceback" not in ended.stderr


def test_a_slip_is_answered_with_no_option_that_answers_unasked(run: Run) -> None:
    """`--yes` deletes without a question: it is offered to nobody who meant another."""
    said = run("log", "--resume").stderr
    assert "No such option '--resume'." in said
    assert "--yes" not in said
    assert "--delete" in run("log", "--delte").stderr


def test_the_schema_is_the_shipped_one(run: Run) -> None:
    """What the command prints is what the trees' first line points to."""
    assert run("schema").stdout == (folders.trees() / "schema.json").read_text(encoding="utf-8")


def test_a_shipped_tree_lints_clean(run: Run) -> None:
    """No finding in what is shipped, and exit 0 (all of them at once: tests/lint/test_run.py)."""
    ended = run("lint", str(folders.trees() / "tingle.yaml"))
    assert ended.returncode == Exit.CLEAN, ended.stdout


def test_lint_tells_place_and_exits_1(run: Run, tree: Path) -> None:
    """A finding has file, line and column on stdout."""
    tree.write_text(tree.read_text().replace("unable: out", "unable: nowhere"))
    ended = run("lint", str(tree))
    assert ended.returncode == Exit.FINDINGS
    assert re.search(r"small\.yaml:\d+:\d+", ended.stdout)


def test_a_walk_that_cannot_be_kept_goes_on_and_says_so(run: Run, home: Path, tree: Path) -> None:
    """No disk, no matter: the walk ends as it would have."""
    home.write_text("in the way")
    ended = run("walk", str(tree), "--jsonl", given='{"cannot": true}\n')
    assert ended.returncode == Exit.CLEAN
    assert "not kept" in ended.stderr
    assert '"end"' in ended.stdout.splitlines()[-1]


@pytest.mark.parametrize("words", [("walk", "arrival", "--jsonl"), ("walk", "arrival", "--plain")])
def test_a_reader_that_goes_away_ends_the_walk_quietly(home: Path, words: tuple[str, ...]) -> None:
    """A closed pipe is no traceback."""
    with subprocess.Popen(
        [*PROGRAM, *words],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env={**os.environ, "SHOREWALK_HOME": str(home)},
    ) as program:
        assert program.stdout is not None
        assert program.stdin is not None
        assert program.stderr is not None
        program.stdout.readline()
        program.stdout.close()
        program.stdin.write(b'{"done": true}\n1\n')
        program.stdin.close()
        said = program.stderr.read()
    assert program.returncode == Exit.UNFINISHED
    assert b"Traceback" not in said
    assert b"BrokenPipe" not in said


@pytest.fixture
def interruptible() -> Iterator[None]:
    """Let programs started here be interrupted, also where the tests themselves run in the background.

    A shell lets what it starts in the background ignore interrupts, and children inherit that.
    """
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.mark.usefixtures("interruptible")
@pytest.mark.parametrize("words", [("walk", "arrival", "--jsonl"), ("walk", "arrival", "--plain")])
def test_an_interrupt_ends_the_walk_quietly(home: Path, words: tuple[str, ...]) -> None:
    """Ctrl-C exits 3 without a traceback, and what was answered is kept."""
    with subprocess.Popen(
        [*PROGRAM, *words],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env={**os.environ, "SHOREWALK_HOME": str(home)},
    ) as program:
        assert program.stdout is not None
        assert program.stdin is not None
        assert program.stderr is not None
        program.stdin.write(b'{"done": true}\n' if "--jsonl" in words else b"1\n")
        program.stdin.flush()
        assert any(re.search(rb'"step": 2|Question 2', line) for line in program.stdout)
        program.send_signal(signal.SIGINT)
        said = program.stderr.read()
    assert program.returncode == Exit.UNFINISHED
    assert b"Traceback" not in said
    from shorewalk.journal import Journal

    assert [entry.answers for entry in Journal.open(home).unfinished()] == [1]


def test_a_full_disk_under_stdout_is_told(home: Path) -> None:
    """Output that cannot be written ends with a sentence and exit 3."""
    full = Path("/dev/full")
    if not full.exists():
        pytest.skip("this system has no /dev/full")
    with full.open("w") as out:
        ended = subprocess.run(
            [*PROGRAM, "walk", "arrival", "--jsonl"],
            stdin=subprocess.DEVNULL,
            stdout=out,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
            env={**os.environ, "SHOREWALK_HOME": str(home)},
        )
    assert ended.returncode == Exit.UNFINISHED
    assert "space" in ended.stderr
    assert "Traceback" not in ended.stderr
    assert "Exception" not in ended.stderr


def test_streams_that_are_closed_do_no_harm(home: Path) -> None:
    """A caller that closes stdin, stdout and stderr gets an exit code, nothing else."""
    words = " ".join(PROGRAM)
    ended = subprocess.run(
        ["sh", "-c", f"{words} walk arrival --jsonl <&- >&- 2>&-"],
        check=False,
        env={**os.environ, "SHOREWALK_HOME": str(home)},
    )
    assert ended.returncode == Exit.UNFINISHED
