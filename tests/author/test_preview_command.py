"""`shorewalk preview` as it is typed: what it opens, and what it says where it cannot."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from shorewalk.exits import Exit

from ..pty.conftest import Terminal
from .conftest import Editor

SIZES = [(80, 24), (40, 20), (120, 40)]


def refused(*words: str, cwd: Path) -> str:
    """Return what is said where the preview does not open; there is no terminal here."""
    command = [sys.executable, "-m", "shorewalk", "preview", *words]
    ended = subprocess.run(command, capture_output=True, text=True, check=False, cwd=cwd)
    assert ended.returncode == Exit.USAGE
    assert ended.stdout == ""
    return ended.stderr


@pytest.fixture(params=SIZES)
def terminal(request: pytest.FixtureRequest, editor: Editor, tmp_path: Path) -> Iterator[Terminal]:
    """The preview of the author's tree in a real terminal."""
    columns, rows = request.param
    words = ("preview", str(editor.file))
    opened = Terminal(*words, columns=columns, rows=rows, home=tmp_path / "home", term="xterm-256color")
    yield opened
    opened.hang_up()


def test_a_save_is_seen_from_a_real_terminal(terminal: Terminal, editor: Editor) -> None:
    """Opened on a file, broken and mended from outside, walked from a node, and left."""
    sound = editor.text
    terminal.wait_for("low-at-supper.yaml", "before_you_start", "Nothing found.")
    editor.save(sound.replace("because: It is", "becuase: It is"))
    terminal.wait_for('The key "becuase" is not known here.')
    editor.save(sound)
    terminal.wait_for("before_you_start", "Nothing found.")
    terminal.type("3\r")
    terminal.wait_for("Can you see scorch marks")
    terminal.type("q")
    terminal.wait_for("before_you_start")
    terminal.type("q")
    assert terminal.wait_for_exit() == Exit.CLEAN


def test_without_a_terminal_it_names_the_linter(editor: Editor, tmp_path: Path) -> None:
    """In a pipe there is nothing to look at; what works there is said."""
    assert f"shorewalk lint {editor.file}" in refused(str(editor.file), cwd=tmp_path)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("nowhere.yaml",), "nowhere.yaml is not there."),
        ((".",), ". is a folder."),
        (("schema.json",), "schema.json is no tree and no part."),
        (("site/signs.yaml",), "site/signs.yaml is no tree and no part."),
        (
            ("low-at-supper.yaml", "--node", "smll"),
            'There is no node "smll" to walk from. Did you mean "smell"?',
        ),
        (("arival",), "shorewalk preview arrival"),
    ],
)
def test_what_cannot_be_previewed_is_told(
    editor: Editor, tmp_path: Path, words: tuple[str, ...], said: str
) -> None:
    """One sentence says what was found and what to name instead."""
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "signs.yaml").write_text("{}\n", encoding="utf-8")
    assert said in refused(*words, cwd=editor.file.parent)
