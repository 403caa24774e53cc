"""`shorewalk draw` as a person types it."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from shorewalk.exits import Exit
from shorewalk.folders import trees

from .test_draw_text import SMALL

Draw = Callable[..., subprocess.CompletedProcess[str]]


@pytest.fixture
def draw(tmp_path: Path) -> Draw:
    """Run the command in an empty folder, in a window of 80 cells that shows every letter."""

    def run(*words: str, **env: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, "-m", "shorewalk", "draw", *words],
            capture_output=True,
            encoding="utf-8",
            check=False,
            timeout=60,
            cwd=tmp_path,
            stdin=subprocess.DEVNULL,
            env={**os.environ, "COLUMNS": "80", "PYTHONUTF8": "1", "TERM": "xterm", **env},
        )

    return run


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """A small tree of one's own."""
    file = tmp_path / "small.yaml"
    file.write_text(SMALL, encoding="utf-8")
    return file


@pytest.mark.parametrize(
    ("words", "title"),
    [
        (("tingle",), "tingle: Somebody felt a tingle or a shock"),
        (("breaker", "keeps", "tripping"), "breaker-trips: The breaker keeps tripping"),
        (("skin",), "skin (part)"),
        ((str(trees() / "tingle.yaml"),), "tingle: Somebody felt a tingle or a shock"),
        ((str(trees() / "parts" / "cord-out.yaml"),), "cord-out (part)"),
        (("small.yaml",), "small: It hums"),
    ],
)
def test_a_tree_is_named_as_for_a_walk_and_a_part_too(
    draw: Draw, small: Path, words: tuple[str, ...], title: str
) -> None:
    """By its name, by words for what is wrong, by its file."""
    assert small.is_file()
    ended = draw(*words)
    assert (ended.returncode, ended.stderr) == (Exit.CLEAN, "")
    assert ended.stdout.splitlines()[0] == title


def test_what_is_not_there_is_said_with_what_is(draw: Draw) -> None:
    """A word that fits nothing, several trees, no word at all, a file that is not there."""
    for words in (("nonsense",), (), ("the",)):
        ended = draw(*words)
        assert (ended.returncode, ended.stdout) == (Exit.USAGE, "")
        assert "arrival" in ended.stderr
        assert "shorewalk draw " in ended.stderr
        assert "hook-up" in ended.stderr
        assert "shorewalk walk" not in ended.stderr
    assert draw("gone.yaml").stderr == 'There is no file "gone.yaml".\n'


def test_a_piece_begins_at_a_node_and_goes_so_deep(draw: Draw) -> None:
    """What is left out is counted, at the rim and in all."""
    drawn = draw("tingle", "--node", "weather", "--depth", "1").stdout
    assert "A piece, from weather, 1 deep: 3 of 20 boxes." in drawn
    assert "Not drawn from here: 2 ways." in drawn
    assert "wet (question)" in drawn
    assert "case (question)" not in drawn
    assert "hands_off" not in drawn


def test_a_node_inside_a_part_opens_the_parts(draw: Draw) -> None:
    """Unless they were to stay closed: then it is said where that node is."""
    assert (
        "skin_50.skin_earth (reading)"
        in draw("arrival", "--node", "skin_50.skin_earth", "--depth", "0").stdout
    )
    ended = draw("arrival", "--node", "skin_50.skin_earth", "--parts", "closed")
    assert ended.returncode == Exit.USAGE
    assert ended.stderr.startswith('--node: there is no node "skin_50.skin_earth" in this drawing.')
    assert "--parts open" in ended.stderr


@pytest.mark.parametrize("form", ["text", "mermaid", "dot", "svg"])
def test_a_drawing_goes_to_a_file_as_it_goes_to_the_terminal(draw: Draw, tmp_path: Path, form: str) -> None:
    """The same letters; in the file always all of them, and standard output stays empty."""
    shown = draw("tingle", "--format", form)
    ended = draw("tingle", "--format", form, "--out", "drawn", TERM="dumb")
    assert (ended.returncode, ended.stdout, ended.stderr) == (Exit.CLEAN, "", "Drawn in drawn.\n")
    assert (tmp_path / "drawn").read_text(encoding="utf-8") == shown.stdout
    assert "✕" in shown.stdout


def test_a_drawing_is_never_written_over_a_tree(draw: Draw, small: Path) -> None:
    """A slip of the fingers must not cost an author the file."""
    ended = draw("small.yaml", "--out", "small.yaml")
    assert ended.returncode == Exit.USAGE
    assert "--out" in ended.stderr
    assert small.read_text(encoding="utf-8") == SMALL


def test_files_for_programs_are_utf8_where_the_terminal_is_not(draw: Draw) -> None:
    """Text art takes what the terminal shows; an SVG that lost its marks would be another drawing."""
    plain = {"PYTHONUTF8": "0", "PYTHONIOENCODING": "latin-1"}
    assert draw("tingle", **plain).stdout.isascii()
    drawn = draw("tingle", "--format", "svg", **plain).stdout
    assert "✕ Hands off" in "".join(ET.fromstring(drawn).itertext())  # noqa: S314 (our own)


def test_a_large_flowchart_says_what_to_do(draw: Draw) -> None:
    """It is written all the same: whoever raised the limits may have it."""
    ended = draw("arrival", "--format", "mermaid", "--parts", "open")
    assert ended.returncode == Exit.CLEAN
    assert ended.stdout.count("|n_") == 0
    assert ended.stdout.startswith("---\ntitle: 'arrival:")
    assert "maxEdges" in ended.stderr


@pytest.mark.parametrize(
    ("good", "bad", "told"),
    [
        ("unsure: out", "unsure: nowhere", "nowhere"),
        ("sign: light", "sigh: light", "sigh"),
        ("ask: Does it hum?", "ask: Does it hum?: yes", "colon"),
        ("begin: hum", "begin: gone", "gone"),
        (
            'step: Wait.\n    leaves: {rig-main: "off"}\n    done: hum',
            "part: no-such\n    exits: {a: hum}",
            "no-such",
        ),
    ],
)
def test_a_broken_tree_is_told_as_the_linter_tells_it(
    draw: Draw, small: Path, good: str, bad: str, told: str
) -> None:
    """With line and column, exit 1, nothing drawn and no traceback."""
    assert good in SMALL
    broken = SMALL.replace(good, bad, 1).replace(
        "    cannot: {goto: out, leaves: {cord: unplugged}}\n", "", "part:" in bad
    )
    small.write_text(broken, encoding="utf-8")
    ended = draw("small.yaml", "--format", "svg")
    assert (ended.returncode, ended.stderr) == (Exit.FINDINGS, "")
    linted = subprocess.run(
        [sys.executable, "-m", "shorewalk", "lint", "small.yaml"],
        capture_output=True,
        encoding="utf-8",
        check=False,
        cwd=small.parent,
        env={**os.environ, "PYTHONUTF8": "1"},
    )
    assert ended.stdout == linted.stdout
    assert told in ended.stdout
    assert "small.yaml:" in ended.stdout
    assert "<svg" not in ended.stdout


def test_a_tree_that_only_breaks_rules_is_drawn(draw: Draw, small: Path) -> None:
    """A question without "not sure" is a finding, and a picture helps to mend it."""
    small.write_text(SMALL.replace("    unsure: out\n", ""), encoding="utf-8")
    ended = draw("small.yaml")
    assert ended.returncode == Exit.CLEAN
    assert "not sure" not in ended.stdout


def test_parts_of_ones_own_are_found(draw: Draw, tmp_path: Path) -> None:
    """A part beside one's tree is drawn closed and open; one that puts itself in is a finding."""
    (tmp_path / "parts").mkdir()
    part = tmp_path / "parts" / "listen.yaml"
    text = "part: listen\nexits: [heard]\nbegin: ear\nnodes:\n  ear: {step: Listen., done: heard, cannot: heard}\n"
    part.write_text(text, encoding="utf-8")
    tree = SMALL.replace("begin: hum", "begin: first").replace(
        "nodes:\n", "nodes:\n  first: {part: listen, exits: {heard: hum}}\n"
    )
    (tmp_path / "own.yaml").write_text(tree.replace("tree: small", "tree: own"), encoding="utf-8")
    assert "first (part listen)" in draw("own.yaml").stdout
    assert "first.ear (step)" in draw("own.yaml", "--parts", "open").stdout
    assert "exit heard" in draw("parts/listen.yaml", "--parts", "open").stdout
    part.write_text(
        text.replace("{step: Listen., done: heard, cannot: heard}", "{part: listen, exits: {heard: heard}}")
    )
    for file in ("own.yaml", "parts/listen.yaml"):
        ended = draw(file)
        assert (ended.returncode, ended.stderr) == (Exit.FINDINGS, "")
        assert "circle" in ended.stdout
