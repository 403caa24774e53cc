"""`shorewalk --plain`: how it is asked for, what it loads, and where it comes by itself."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from shorewalk.cli import walk_options
from shorewalk.exits import Exit

HEAVY = {
    "click",
    "networkx",
    "numpy",
    "uncertainties",
    "pydantic",
    "textual",
    "rich",
    "quantiphy",
    "segno",
    "plotext",
}
WATCHED = """
import sys
from shorewalk.cli import main
code = main()
sys.stderr.write("\\n" + " ".join(sorted({name.partition(".")[0] for name in sys.modules})))
sys.exit(code)
"""


def run(
    *words: str, given: str = "", code: str | None = None, **env: str
) -> subprocess.CompletedProcess[str]:
    """Run the program on words and lines."""
    program = ["-c", code] if code else ["-m", "shorewalk"]
    return subprocess.run(
        [sys.executable, *program, *words],
        input=given,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
        env={**os.environ, "COLUMNS": "80", **env},
    )


@pytest.mark.parametrize(
    ("words", "options"),
    [
        (["--plain"], {"plain": True}),
        (["--plain", "--aloud"], {"plain": True, "aloud": True}),
        (["--meter=good", "--plain"], {"plain": True, "meter": "good"}),
        (["--resume", "last", "--plain"], {"plain": True, "resume": "last"}),
        (["--plain", "walk", "zap"], None),
        (["--plain", "--jsonl"], None),
        (["--help"], None),
        (["--version"], None),
        (["--plain", "--meter"], None),
    ],
)
def test_options_at_the_start_are_understood_without_the_command_line(
    words: list[str], options: dict[str, object] | None
) -> None:
    """What is a mistake goes to the command line's library, which says what is allowed."""
    assert walk_options(words) == options


def test_an_option_in_the_wrong_place_is_told_where_it_goes() -> None:
    """`shorewalk --plain walk zap` is what one types first."""
    ended = run("--plain", "walk", "zap")
    assert ended.returncode == Exit.USAGE
    assert "--plain goes after the command" in ended.stderr
    assert "shorewalk walk --plain" in ended.stderr


def test_the_start_loads_nothing_heavy() -> None:
    """To the start, the meter, the log, a walk, and back: no app, no command line, no arithmetic of circuits."""
    ended = run("--plain", given="m\n2\nl\nq\ntingle\n1\nk\n\nstart\nq\n", code=WATCHED)
    assert ended.returncode == Exit.CLEAN
    assert ended.stdout.count("Act now:") == 2
    assert not HEAVY & set(ended.stderr.splitlines()[-1].split())


def test_questions_are_read_aloud_from_the_start_on() -> None:
    """`--aloud`: two lines and the answers, and the command to go on says it too."""
    ended = run("--plain", "--aloud", given="tingle\n1\n")
    assert "\nQuestion 1.\n" in ended.stdout
    assert "Hint: " not in ended.stdout
    assert "--resume 1 --plain --aloud" in ended.stdout


def test_a_walk_goes_on_by_its_number_or_as_the_last() -> None:
    """`--resume` at the start is the same as after `walk`."""
    run("--plain", given="tingle\n1\n")
    for words in (["--plain", "--resume", "last"], ["walk", "--plain", "--resume", "1"]):
        assert "\nQuestion 2," in run(*words).stdout


@pytest.mark.parametrize("words", [["--plain", "--meter", "cheap"], ["--plain", "--resume", "9"]])
def test_what_cannot_be_is_told_in_a_line(words: list[str]) -> None:
    """And exits as misuse."""
    ended = run(*words)
    assert ended.returncode == Exit.USAGE
    assert ended.stdout == ""
    assert ended.stderr.strip()


def test_practice_begins_with_the_sites_where_none_is_named(tmp_path: Path) -> None:
    """`practice --plain` asks which; in a pipe too, and a whole exchange can be read from it."""
    ended = run("practice", "--plain", given="1\nu\n1\n0\nq\n", SHOREWALK_HOME=str(tmp_path / "p"))
    assert "Easy sites:" in ended.stdout
    assert "Dial: AC volts." in ended.stdout
    assert ended.returncode == Exit.UNFINISHED
    assert ended.stderr == ""


def test_no_terminal_code_is_in_what_a_pipe_gets() -> None:
    """The start, a walk, its end with its message and its code: letters, numbers and squares."""
    ended = run("--plain", given="tingle\n0\n2\n0\ny\nc\n\n\ni\nk\n\nl\nq\nq\n", TERM="xterm-256color")
    assert "The message:" in ended.stdout
    assert "Code 1 of" in ended.stdout
    assert "\x1b" not in ended.stdout
