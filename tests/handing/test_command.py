"""`hand-over` and `take-over` as a person types them, on two machines with a folder between them."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from shorewalk.exits import Exit
from shorewalk.handing import read_handed
from shorewalk.journal import Journal
from shorewalk.journal.keeper import Keeper
from shorewalk.tree.library import Library
from shorewalk.walk.answers import Done
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import begin

from ..bench.handed.walks import walked
from .conftest import HOLDS, OWN

Type = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.fixture
def type_at(tmp_path: Path) -> Type:
    """Type words at a machine; both look into one folder, as a stick between them would be."""

    def typed(machine: str, *words: str, given: str = "") -> subprocess.CompletedProcess[str]:
        (tmp_path / "stick").mkdir(exist_ok=True)
        return subprocess.run(
            [sys.executable, "-m", "shorewalk", *words],
            cwd=tmp_path / "stick",
            input=given,
            capture_output=True,
            text=True,
            timeout=60,
            check=False,
            env={**os.environ, "SHOREWALK_HOME": str(tmp_path / machine), "COLUMNS": "80"},
        )

    return typed


@pytest.fixture
def begun(tmp_path: Path) -> None:
    """A walk with five answers, kept at the machine `here`."""
    journal = Journal.open(tmp_path / "here")
    Keeper(journal).keep(walked(upto=5))
    journal.close()


@pytest.mark.usefixtures("begun")
def test_a_walk_is_handed_over_and_taken_over(type_at: Type, tmp_path: Path) -> None:
    """The one command names the file and the other command; the other goes on in plain text where it was left."""
    over = type_at("here", "hand-over", "last")
    (file,) = (tmp_path / "stick").iterdir()
    assert over.returncode == Exit.CLEAN
    assert str(file) in over.stdout.replace("\n", "")
    assert f"shorewalk take-over {file.name}" in " ".join(over.stdout.split())
    taken = type_at("there", "take-over", file.name, "--plain", "--aloud", given="1\n")
    assert "Taken over: 5 answers" in taken.stdout
    assert "Question 6.\nHow is the weather right now?\n" in taken.stdout
    assert taken.returncode == Exit.UNFINISHED  # it was left before its end
    assert "6 answers" in type_at("there", "hand-over", "last").stdout


@pytest.mark.usefixtures("begun")
def test_one_machine_pipes_to_the_other(type_at: Type, tmp_path: Path) -> None:
    """`-` is the output and the input; nothing else is said on the output, and no file is made."""
    text = type_at("here", "hand-over", "1", "-").stdout
    taken = type_at("there", "take-over", "-", given=text)
    assert taken.returncode == Exit.CLEAN
    assert "Taken over: 5 answers" in taken.stdout
    assert "shorewalk walk --resume 1" in taken.stdout
    assert not [*(tmp_path / "stick").iterdir()]


@pytest.mark.usefixtures("begun")
def test_a_walk_that_is_open_is_handed_over_all_the_same(type_at: Type, tmp_path: Path) -> None:
    """Whoever has it open in another terminal need not leave it first."""
    words = [sys.executable, "-c", HOLDS, str(tmp_path / "here"), "1"]
    with subprocess.Popen(words, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as other:
        assert other.stdout
        assert other.stdout.readline() == "True\n"
        text = type_at("here", "hand-over", "last", "-").stdout
        other.communicate()
    assert len(read_handed(text.encode()).answers) == 5


@pytest.mark.usefixtures("begun")
def test_what_is_refused_is_said_in_a_line(type_at: Type, tmp_path: Path) -> None:
    """A damaged file, no file, a folder: one sentence, exit 3, and no walk is there."""
    text = type_at("here", "hand-over", "1", "-").stdout
    (tmp_path / "stick" / "bad.walk.json").write_text(text.replace("true", "True", 1))
    for words in (("bad.walk.json",), ("none.walk.json",), (".",)):
        refused = type_at("there", "take-over", *words)
        assert refused.returncode == Exit.UNFINISHED
        assert refused.stderr.startswith("Not taken over. ")
        assert refused.stderr.count("\n") == 1
        assert not refused.stdout
    journal = Journal.open(tmp_path / "there")
    assert not journal.walks()
    journal.close()


@pytest.mark.usefixtures("begun")
def test_what_cannot_be_handed_over_is_said(type_at: Type) -> None:
    """A file that is there, a walk that is not, a folder that is not there: a sentence each, nothing written over."""
    assert type_at("here", "hand-over", "1", "a.json").returncode == Exit.CLEAN
    again = type_at("here", "hand-over", "1", "a.json")
    assert (again.returncode, "nothing is written over" in again.stderr) == (Exit.USAGE, True)
    none = type_at("here", "hand-over", "7")
    assert (none.returncode, 'There is no walk "7"' in none.stderr) == (Exit.USAGE, True)
    nowhere = type_at("here", "hand-over", "1", "none/a.json")
    assert (nowhere.returncode, "No such file or directory" in nowhere.stderr) == (Exit.UNFINISHED, True)


def test_own_trees_are_named_on_the_other_machine(type_at: Type, tmp_path: Path) -> None:
    """The file says that it needs the folder; with it, the walk goes on; a folder that is not there is told of."""
    trees = tmp_path / "trees"
    trees.mkdir()
    (trees / "small.yaml").write_text(OWN)
    journal = Journal.open(tmp_path / "here")
    walk = begin(Library(trees), "small", parse_meter("basic")).answer(Done(), "2026-05-01T12:00:00Z")
    Keeper(journal).keep(walk)
    journal.close()
    over = type_at("here", "hand-over", "last", "own.json")
    assert "--trees FOLDER" in over.stdout
    assert "--trees FOLDER" in type_at("there", "take-over", "own.json").stderr
    assert (
        'There is no folder "nowhere"'
        in type_at("there", "take-over", "own.json", "--trees", "nowhere").stderr
    )
    taken = type_at("there", "take-over", "own.json", "--trees", str(trees), "--plain")
    assert "Look there." in taken.stdout


@pytest.mark.usefixtures("begun")
def test_in_plain_text_the_walk_is_handed_over_too(type_at: Type, tmp_path: Path) -> None:
    """`o` saves the file beside where the program was started, says what to do, and the question stands."""
    talked = type_at("here", "walk", "--resume", "1", "--plain", given="o\n1\n")
    (file,) = (tmp_path / "stick").iterdir()
    assert f"shorewalk take-over {file.name}" in " ".join(talked.stdout.split())
    assert "Question 7" in talked.stdout
    practice = type_at("here", "practice", "creek-1", "--plain", given="1\no\n")
    assert "not handed over" in practice.stdout
    assert len([*(tmp_path / "stick").iterdir()]) == 1


def test_walking_loads_no_pydantic_for_a_file(type_at: Type, tmp_path: Path) -> None:
    """Taking a walk over and going on with it needs none of what checks trees."""
    journal = Journal.open(tmp_path / "here")
    Keeper(journal).keep(walked(upto=5))
    journal.close()
    type_at("here", "hand-over", "1", "a.json")
    code = (
        "import sys; from shorewalk.cli import main; "
        "sys.argv = ['shorewalk', 'take-over', 'a.json', '--only']; main(); "
        "sys.exit(bool({'pydantic', 'networkx', 'numpy', 'textual'} & set(sys.modules)))"
    )
    ended = subprocess.run(
        [sys.executable, "-c", code],
        cwd=tmp_path / "stick",
        check=False,
        env={**os.environ, "SHOREWALK_HOME": str(tmp_path / "there")},
    )
    assert ended.returncode == 0
