"""The manual: all that can be typed, pressed, set and found stands in it, and none of it is written twice."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import click
import pytest

import shorewalk as package
from shorewalk.commands import AUTHORS, COMMANDS, EVERYWHERE
from shorewalk.exits import MEANINGS, Exit
from shorewalk.subcommands import run_command
from shorewalk.subcommands.group import shorewalk
from shorewalk.surroundings import ENVIRONMENT, FILES

SOURCES = Path(package.__file__).parent
OPTIONS = [
    (name, option.opts[0])
    for name, command in shorewalk.commands.items()
    for option in command.params
    if isinstance(option, click.Option)
]


@pytest.fixture
def text(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> str:
    """The manual as text."""
    monkeypatch.setenv("COLUMNS", "80")
    assert run_command(["manual"]) == Exit.CLEAN
    return capsys.readouterr().out


@pytest.fixture
def page(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> Path:
    """The manual as a page for man."""
    assert run_command(["manual", "--roff"]) == Exit.CLEAN
    file = tmp_path / "shorewalk.1"
    file.write_text(capsys.readouterr().out, encoding="ascii")
    return file


def written(*words: str) -> subprocess.CompletedProcess[str]:
    """Run a program that is not everywhere."""
    if not shutil.which(words[0]):
        pytest.skip(f"there is no {words[0]} here")
    return subprocess.run(words, capture_output=True, text=True, check=True)


def told(manual: str) -> None:
    """Hold that every command, option, key, exit code, variable and file stands in a manual."""
    flat = " ".join(manual.split())
    for name in shorewalk.commands:
        assert f"shorewalk {name} " in flat
    for name, option in OPTIONS:
        assert re.search(rf"shorewalk {name} [^§]*?{re.escape(option)}\b", flat), (name, option)
    for command in COMMANDS:
        if not {*EVERYWHERE, *AUTHORS}.isdisjoint(command.on):
            assert f"{', '.join(command.keys)} {command.help}" in flat
    for code, says in MEANINGS.items():
        assert f"{int(code)} {says}" in flat
    for name, says in (*ENVIRONMENT, *FILES):
        assert f"{name} {says}" in flat


def test_the_text_has_everything(text: str) -> None:
    """All of it stands in what is printed for people, no line wider than the window."""
    told(text)
    assert not [line for line in text.splitlines() if len(line) >= 80]


def test_the_page_has_everything(page: Path) -> None:
    """All of it stands in the page as it is shown: nothing is lost as an order or a mark."""
    shown = written("groff", "-man", "-Tutf8", "-P-cbou", "-rLL=2000n", "-rHY=0", str(page)).stdout
    told(shown.replace("\u2010", "-"))


@pytest.mark.parametrize(
    "words", [("groff", "-man", "-Tutf8", "-ww", "-z"), ("man", "--warnings", "-l", "-P", "cat")]
)
def test_the_page_is_read_without_a_warning(page: Path, words: tuple[str, ...]) -> None:
    """Neither program that reads such pages has anything to say about it."""
    assert written(*words, str(page)).stderr == ""


def test_each_sentence_is_written_once() -> None:
    """What a command, an option or a key does is written in one place of the sources."""
    sources = [file.read_text(encoding="utf-8") for file in SOURCES.rglob("*.py")]
    sentences = {command.help.split("\n")[0] for command in shorewalk.commands.values() if command.help}
    sentences |= {says for _, says in (*ENVIRONMENT, *FILES)} | set(MEANINGS.values())
    for sentence in sentences:
        assert sum(source.count(sentence) for source in sources) == 1, sentence


def test_every_variable_that_is_read_is_told() -> None:
    """What the sources take from the environment stands in the table; what a shared login drops needs no words."""
    read: set[str] = set()
    for file in SOURCES.rglob("*.py"):
        if not {"guard", "picture"} & set(file.parts):  # one drops what it reads, one is for the README alone
            found = re.findall(r"env(?:iron)?(?:\.get\(|\[)\"([A-Z_]+)\"", file.read_text(encoding="utf-8"))
            read.update(found)
    named = {name for names, _ in ENVIRONMENT for name in names.split(", ")}
    assert read - named == {"SSH_CONNECTION"}  # which sshd sets, and nobody else


def test_the_version_stands_in_one_place(capsys: pytest.CaptureFixture[str]) -> None:
    """`--version`, the manual and what is installed agree with the package."""
    from importlib.metadata import version

    assert run_command(["--version"]) == Exit.CLEAN
    assert capsys.readouterr().out.split()[-1] == package.__version__ == version("shorewalk")
    pyproject = Path(__file__).parents[2] / "pyproject.toml"
    assert not re.search(rf'"{re.escape(package.__version__)}"', pyproject.read_text(encoding="utf-8"))
