"""What a shell completes, asked in the shells themselves."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pexpect
import pyte
import pytest

from shorewalk.exits import Exit
from shorewalk.journal import Journal
from shorewalk.journal.glancing import glance
from shorewalk.journal.store import FILE
from shorewalk.starting import start
from shorewalk.subcommands import complete_line, run_command
from shorewalk.subcommands.shells import ASKED, SHELLS, script_of

Ask = Callable[[str], list[str]]

TYPED = (
    ("shorewalk wa", "shorewalk walk "),
    ("shorewalk walk arr", "shorewalk walk arrival "),
    ("shorewalk practice cr", "shorewalk practice creek-"),
    ("shorewalk lint --explain mis", "shorewalk lint --explain missing-way "),
    ("shorewalk calc sa", "shorewalk calc sag "),
    ("shorewalk calc sag unl", "shorewalk calc sag unloaded="),
    ("shorewalk calc sag meter=goo", "shorewalk calc sag meter=good"),
    ("shorewalk lint --format=sa", "shorewalk lint --format=sarif "),
    ("shorewalk walk --resume la", "shorewalk walk --resume last "),
    ("shorewalk log walk:", "shorewalk log walk:1 "),
    ("shorewalk replay supp", "shorewalk replay supper.yaml "),
    ("shorewalk new juniper-tree fold", "shorewalk new juniper-tree folder/"),
)
"""What is typed, and what stands on the line after one press of the tab."""


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a file and a folder in it, and one walk that is kept."""
    monkeypatch.setenv("SHOREWALK_HOME", str(tmp_path / "home"))
    journal = Journal.open()
    journal.begin(start("arrival"))
    journal.close()
    (tmp_path / "supper.yaml").write_text("")
    (tmp_path / "folder").mkdir()
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def ask(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Ask:
    """Ask as a script does; return the words that are offered."""

    def asked(line: str) -> list[str]:
        monkeypatch.setenv(ASKED, line)
        assert complete_line() == Exit.CLEAN
        return [line.split("\t")[1] for line in capsys.readouterr().out.splitlines() if line.count("\t")]

    return asked


class Shell:
    """A shell with nobody's own settings, in which the script was read, and what its window shows."""

    def __init__(self, name: str, folder: Path) -> None:
        program = shutil.which(name)
        if not program:
            pytest.skip(f"there is no {name} here")
        (folder / "script").write_text(script_of(name))
        words, ready = BARE[name]
        env = {
            **os.environ,
            "PATH": os.pathsep.join(
                (str(folder / "bin"), str(Path(sys.executable).parent), os.environ["PATH"])
            ),
            "HOME": str(folder),
            "TERM": "xterm",
            "INPUTRC": os.devnull,
        }
        self.program = pexpect.spawn(
            program, words, env=env, cwd=str(folder), encoding="utf-8", timeout=30, dimensions=(24, 200)
        )
        self.screen = pyte.Screen(200, 24)
        self.stream = pyte.Stream(self.screen)
        self.program.sendline(f"{ready}; . ./script; clear; echo re''ady")
        self.see(lambda: self.screen.display[0].startswith("ready") and self.line == PROMPT)

    @property
    def line(self) -> str:
        """What stands where the cursor is, up to the cursor."""
        return self.screen.display[self.screen.cursor.y][: self.screen.cursor.x]

    def see(self, seen: Callable[[], bool]) -> None:
        """Read what the shell writes until that is seen; fails where it says no more."""
        while not seen():
            try:
                self.stream.feed(self.program.read_nonblocking(4096, timeout=30))
            except (pexpect.TIMEOUT, pexpect.EOF):
                pytest.fail("\n".join(line for line in self.screen.display if line.strip()))

    def complete(self, typed: str, wanted: str) -> None:
        """Type, press the tab, wait for what is wanted, and clear the line."""
        self.program.send(f"{typed}\t")
        self.see(lambda: self.line == f"{PROMPT}{wanted}")
        self.program.sendcontrol("u")
        self.see(lambda: self.line == PROMPT)


PROMPT = "> "
BARE = {
    "bash": (["--norc", "--noprofile"], f"PS1='{PROMPT}'"),
    "zsh": (["-f"], f"PS1='{PROMPT}'"),
    "fish": (["--no-config"], f"function fish_prompt; echo -n '{PROMPT}'; end"),
}
"""How a shell starts without anybody's settings, and what gives it a plain prompt."""


@pytest.mark.parametrize("name", SHELLS)
def test_a_shell_completes(folder: Path, name: str) -> None:
    """In every shell one press of the tab brings the line that somebody means."""
    shell = Shell(name, folder)
    try:
        for typed, wanted in TYPED:
            shell.complete(typed, wanted)
    finally:
        shell.program.close(force=True)


HOSTILE = (
    "$(touch pwned)",
    "`touch pwned`",
    "a;touch pwned",
    "it's>pwned",
    "a&touch pwned&",
    '"|touch pwned',
    "~*",
)
STUB = """\
#!/bin/sh
if [ -n "$SHOREWALK_COMPLETE" ]; then cat offered; else printf '%s' "$2" > given; fi
"""
"""Offers what stands in a file; asked to run, writes down what it was given."""


@pytest.mark.parametrize("name", SHELLS)
def test_no_name_that_is_offered_runs(folder: Path, name: str) -> None:
    """Whatever a site is called: put on the line by the tab and run, it is that one word, and starts nothing."""
    (folder / "bin").mkdir()
    (folder / "bin" / "shorewalk").write_text(STUB)
    (folder / "bin" / "shorewalk").chmod(0o755)
    shell = Shell(name, folder)
    try:
        for word in HOSTILE:
            (folder / "offered").write_text(f"plain\tsite:{word}\tnowhere\n")
            shell.program.send("shorewalk log site:\t")
            shell.see(lambda: len(shell.line) > len(f"{PROMPT}shorewalk log site:"))
            shell.program.sendline("; echo do''ne")
            shell.see(lambda: any(row.startswith("done") for row in shell.screen.display))
            assert (folder / "given").read_text() == f"site:{word}"
            assert not (folder / "pwned").exists()
            shell.program.sendline("clear; echo re''ady")
            shell.see(lambda: shell.screen.display[0].startswith("ready") and shell.line == PROMPT)
    finally:
        shell.program.close(force=True)


@pytest.mark.usefixtures("folder")
def test_a_name_that_means_something_to_a_shell_is_not_offered(ask: Ask) -> None:
    """Of the sites in the log those of letters, digits, hyphens and points are; no name makes a second answer."""
    journal = Journal.open()
    names = ("14-B", "７号", *HOSTILE, "x\nplain\tsite:y", "a b", "\x1b[31m")
    for site in names:
        journal.label(journal.begin(start("arrival")), site=site, park="Someday\tFlats\nplain\tsite:z\x1b[2J")
    journal.close()
    assert sorted(word for word in ask("shorewalk log ") if word.startswith("site:")) == [
        "site:14-B",
        "site:７号",
    ]


@pytest.mark.parametrize("name", SHELLS)
def test_a_script_says_how_to_install_it(capsys: pytest.CaptureFixture[str], name: str) -> None:
    """The first line of what is printed is the line to type, and is a comment in every shell."""
    assert run_command(["completion", name]) == Exit.CLEAN
    first, _, script = capsys.readouterr().out.partition("\n")
    assert first.startswith("# ")
    assert first.endswith(SHELLS[name].install)
    assert script == SHELLS[name].script


@pytest.mark.parametrize(
    ("name", "file"),
    [("bash", ".bashrc"), ("zsh", ".zshrc"), ("fish", ".config/fish/completions/shorewalk.fish")],
)
def test_the_line_to_install_it_works_where_nothing_is_yet(tmp_path: Path, name: str, file: str) -> None:
    """In an empty home the script is where its shell looks."""
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    env = {**os.environ, "HOME": str(tmp_path), "PATH": path}
    subprocess.run(["sh", "-c", SHELLS[name].install], env=env, check=True)
    assert (tmp_path / file).read_text(encoding="utf-8") == script_of(name)


def test_what_was_given_is_not_offered_again(ask: Ask) -> None:
    """A sum offers what it still takes, and nothing where a number has to be typed."""
    assert "unloaded=" in ask("shorewalk calc sag ")
    assert "unloaded=" not in ask("shorewalk calc sag unloaded=121 ")
    assert ask("shorewalk calc sag unloaded=1") == []


def test_what_makes_no_sense_completes_to_nothing(ask: Ask) -> None:
    """Neither a command that is none nor an open quotation mark brings a message onto the line."""
    assert ask("shorewalk nowhere arr") == []
    assert ask("shorewalk calc nowhere ") == []
    assert ask("shorewalk walk 'arr") == ["arrival", "arr"]


def test_completing_leaves_the_journal_alone(folder: Path, ask: Ask) -> None:
    """A look at which walks there are makes no file, changes none, and waits for no lock."""
    home = folder / "home"
    before = {file.name: file.read_bytes() for file in home.iterdir()}
    assert ask("shorewalk walk --resume ") == ["last", "1"]
    assert {file.name: file.read_bytes() for file in home.iterdir()} == before


def test_walks_are_offered_while_another_program_writes(folder: Path) -> None:
    """Somebody else's lock is no reason to wait, nor is a file that is damaged, of a later version or not there."""
    journal = Journal.open()
    journal._database.execute("begin exclusive")
    assert [entry.id for entry in glance()] == [1]
    journal._database.execute("rollback")
    journal.close()
    assert glance(folder / "nowhere") == []
    assert not (folder / "nowhere").exists()
    (folder / "home" / FILE).write_bytes(b"nothing of ours" * 100)
    assert glance() == []


def test_the_program_asks_nothing_else_while_a_shell_waits(folder: Path) -> None:
    """With a line to complete it neither opens nor walks, whatever else was typed, and says nothing beside."""
    ended = subprocess.run(
        [sys.executable, "-m", "shorewalk", "walk", "arrival", "--plain"],
        env={**os.environ, ASKED: "shorewalk wal"},
        input="1\n",
        capture_output=True,
        text=True,
        check=True,
        cwd=folder,
    )
    assert ended.stdout.split("\t")[:2] == ["plain", "walk"]
    assert ended.stderr == ""
