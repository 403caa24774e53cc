"""The command: formats by name, files and terminals, and the examples of the README."""

from __future__ import annotations

import os
import pty
import re
import subprocess
import sys
from pathlib import Path

import pytest

from shorewalk.subcommands import run_command

README = Path(__file__).parent.parent.parent / "README.md"


@pytest.mark.parametrize(
    ("file", "begins"), [("a.pdf", b"%PDF-"), ("a.md", b"# "), ("a.txt", b"\nSOMEBODY FELT A TINGLE")]
)
def test_the_name_of_the_file_says_the_format(file: str, begins: bytes, tmp_path: Path) -> None:
    """`--to x.pdf` makes a PDF, `x.md` Markdown, any other name text."""
    assert run_command(["print", "tingle", "--to", str(tmp_path / file)]) == 0
    assert (tmp_path / file).read_bytes().startswith(begins)


def test_text_for_a_printer_begins_each_part_on_a_page(tmp_path: Path) -> None:
    """In a file of text a form feed stands before the steps and before every part."""
    assert run_command(["print", "somebody-hurt", "--to", str(tmp_path / "a.txt")]) == 0
    assert (tmp_path / "a.txt").read_text(encoding="utf-8").count("\f=") == 4  # the steps, and three parts


def test_a_terminal_is_given_no_pdf() -> None:
    """A PDF is not written to a terminal; it is said what to type."""
    ours, theirs = pty.openpty()
    words = [sys.executable, "-m", "shorewalk", "print", "tingle", "--format", "pdf"]
    done = subprocess.run(words, stdout=theirs, stderr=subprocess.PIPE, check=False)
    os.close(theirs)
    os.close(ours)
    assert done.returncode == 2
    assert b"--to tingle.pdf" in done.stderr
    assert b"%PDF" not in done.stderr


def test_a_tree_is_not_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A name that ends as a tree's is refused, and so is a place that cannot be written; each in one line."""
    assert run_command(["print", "tingle", "--to", str(tmp_path / "own.yaml")]) == 2
    assert run_command(["print", "tingle", "--to", str(tmp_path / "none" / "a.txt")]) == 2
    assert len(capsys.readouterr().err.splitlines()) == 2
    assert list(tmp_path.iterdir()) == []


def test_a_sheet_is_written_whole_to_a_new_file_or_not_at_all(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A file that is there is left as it is, in one line; on a disk that is full no half of a sheet is left."""
    there = tmp_path / "mine.txt"
    there.write_text("mine", encoding="utf-8")
    assert run_command(["print", "tingle", "--to", str(there)]) == 2
    assert there.read_text(encoding="utf-8") == "mine"
    assert len(capsys.readouterr().err.splitlines()) == 1
    full = f"ulimit -f 1; exec {sys.executable} -m shorewalk print tingle --to {tmp_path / 'full.txt'}"
    done = subprocess.run(["bash", "-c", full], capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert "cannot be written" in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]


def test_words_that_fit_no_tree_say_how_to_print_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    """What is typed finds a tree as `walk` finds it; several are listed as `shorewalk print NAME`."""
    assert run_command(["print", "lights"]) == 2
    assert "shorewalk print lights-dim" in capsys.readouterr().err


def test_what_the_readme_says_of_printing_works(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every `shorewalk print` in the README does what it says."""
    monkeypatch.chdir(tmp_path)
    examples = re.findall(r"`shorewalk (print [^`]+)`", README.read_text(encoding="utf-8"))
    assert len(examples) >= 2
    for example in examples:
        assert run_command(example.split()) == 0, example
    assert (tmp_path / "arrival.pdf").read_bytes().startswith(b"%PDF-")
