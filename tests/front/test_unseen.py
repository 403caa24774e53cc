"""Whatever is typed, named, sent or set: nothing that a terminal obeys, or that turns text about, comes back."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import unicodedata
from pathlib import Path

import pytest

from shorewalk.seen import seen

from .conftest import Run

ESCAPE = "\x1b]0;owned\x07\x1b[31m\x9b2J"
TURNED = "\u202eabc\u2066\u200b\ufeff"
HOSTILE = f"zz{ESCAPE}{TURNED}\x7f\u2028"


def _unseen(text: str) -> list[str]:
    """Return what a terminal would obey or nobody could see, line ends apart."""
    return [
        f"U+{ord(letter):04X}"
        for letter in text
        if letter not in "\n\t" and unicodedata.category(letter) in ("Cc", "Cf", "Cs", "Co", "Zl", "Zp")
    ]


@pytest.mark.parametrize(
    "words",
    [
        [HOSTILE],
        ["walk", HOSTILE],
        ["walk", "--plain", HOSTILE],
        ["walk", f"{HOSTILE}.yaml"],
        ["walk", "arrival", "--jsonl", "--meter", HOSTILE],
        ["walk", "--plain", "--resume", HOSTILE],
        ["lint", HOSTILE],
        ["lint", "--format", HOSTILE],
        ["lint", "--explain", HOSTILE],
        ["draw", HOSTILE],
        ["draw", "arrival", "--node", HOSTILE],
        ["print", HOSTILE],
        ["print", "tingle", "--to", f"/nowhere/{HOSTILE}"],
        ["replay", HOSTILE],
        ["paths", HOSTILE],
        ["practice", HOSTILE],
        ["trial", HOSTILE],
        ["calc", HOSTILE],
        ["calc", "sag", f"unloaded={HOSTILE}"],
        ["new", HOSTILE],
        ["preview", HOSTILE],
        ["take-over", HOSTILE],
        ["log", HOSTILE],
        [f"--{HOSTILE}"],
    ],
)
def test_what_is_typed_comes_back_as_text(run: Run, words: list[str]) -> None:
    """A command that says back what it was given says it with question marks, and shows no traceback."""
    done = run(*words)
    assert done.returncode in (0, 1, 2, 3)
    assert done.stdout + done.stderr
    assert "Traceback" not in done.stderr
    assert not _unseen(done.stdout + done.stderr)


def test_names_of_files_come_back_as_text(run: Run, tmp_path: Path) -> None:
    """A finding in a file with such a name, and in a folder of them, is told in text, in every format for people."""
    folder = tmp_path / f"trees{ESCAPE}"
    folder.mkdir()
    (folder / f"bad{TURNED}{ESCAPE}.yaml").write_text("tree: other\nnodes: 1\n", encoding="utf-8")
    for form in ("text", "github", "json", "sarif"):
        done = run("lint", str(folder), "--format", form)
        assert done.returncode == 1
        assert "owned" in done.stdout
        assert not _unseen(done.stdout + done.stderr)


def test_bytes_that_are_no_text_in_a_name_come_back_as_text(run: Run, tmp_path: Path) -> None:
    """A file whose name is not UTF-8 is named all the same."""
    (tmp_path / "bad-\udcff.yaml").write_text("tree: 1\n", encoding="utf-8")
    done = run("lint", str(tmp_path))
    assert done.returncode == 1
    assert "bad-?.yaml" in done.stdout


def test_the_environment_comes_back_as_text(run: Run, tmp_path: Path) -> None:
    """Where a folder for walks cannot be, its name is told as text."""
    (tmp_path / "file").write_text("", encoding="utf-8")
    done = run("walk", "tingle", "--plain", given="1\n", SHOREWALK_HOME=str(tmp_path / "file" / HOSTILE))
    assert "owned" in done.stdout + done.stderr
    assert not _unseen(done.stdout + done.stderr)


@pytest.mark.parametrize("given", [HOSTILE, f"1\n{HOSTILE}", f"1\n1\n{HOSTILE}\n/{HOSTILE}\n"])
def test_what_is_answered_comes_back_as_text(run: Run, tree: Path, given: str) -> None:
    """In plain sentences an answer that cannot be is told back as text."""
    done = run("walk", "--plain", str(tree), given=given)
    assert "Traceback" not in done.stderr
    assert not _unseen(done.stdout + done.stderr)


def test_bytes_that_are_no_text_are_no_answer(home: Path) -> None:
    """In plain sentences, wherever input is held to be UTF-8: they are told, and the next line counts."""
    done = subprocess.run(
        [sys.executable, "-m", "shorewalk", "--plain"],
        input=b"\xff\xfe1\ntingle\n",
        capture_output=True,
        check=False,
        env={**os.environ, "SHOREWALK_HOME": str(home), "PYTHONIOENCODING": "utf-8:strict", "COLUMNS": "80"},
    )
    assert done.stderr == b""
    assert b"a character that nobody can see" in done.stdout
    assert b"Question 1," in done.stdout


def test_what_a_program_sends_comes_back_as_text(run: Run, tree: Path) -> None:
    """In JSON lines every value and key may be hostile; what comes back is ASCII."""
    lines = [
        json.dumps(answer, ensure_ascii=False)
        for answer in (
            {"choose": HOSTILE},
            {HOSTILE: True},
            {"reading": HOSTILE},
            {"done": True, "time": HOSTILE},
        )
    ]
    done = run("walk", str(tree), "--jsonl", given="\n".join(lines).replace("\u2028", " ") + "\n")
    assert done.stdout.isascii()
    assert all("error" in json.loads(line) for line in done.stdout.splitlines()[1:])
    assert not _unseen(done.stdout + done.stderr)


@pytest.mark.parametrize("wrong", [HOSTILE, f'"{HOSTILE}"'])
def test_a_file_that_is_taken_over_or_replayed_is_told_as_text(run: Run, tmp_path: Path, wrong: str) -> None:
    """A walk from elsewhere with such text is refused in words that can be seen."""
    file = tmp_path / "a.walk.json"
    file.write_text(f'{{"shorewalk-walk": 1, "sum": {json.dumps(wrong)}, "walk": {{}}}}', encoding="utf-8")
    recorded = tmp_path / "a.yaml"
    recorded.write_text(f"walk: {wrong}\nanswers: []\n", encoding="utf-8")
    for done in (run("take-over", str(file)), run("replay", str(recorded))):
        assert done.returncode in (2, 3)
        assert not _unseen(done.stdout + done.stderr)


def test_letters_that_can_be_seen_stay(run: Run) -> None:
    """Letters of every script, signs and blanks pass; only what cannot be seen becomes a question mark."""
    assert seen("Größe 日本 Ω ✓ →\u00a0x\ty\n") == "Größe 日本 Ω ✓ →\u00a0x\ty\n"
    assert seen("a\r\nb\rc") == "a\r\nb?c"
    assert 'about "Größe 日本"' in run("walk", "--plain", "Größe 日本").stderr


def test_a_line_without_end_is_cut(run: Run, tree: Path) -> None:
    """A line of a million digits is one answer that cannot be; the next line is the next answer."""
    done = run("walk", "--plain", str(tree), given="9" * 1_000_000 + "\n1\n" + "9" * 5_000 + "\n")
    assert "Traceback" not in done.stderr
    assert (
        done.stdout.count("\n> ") == 4
    )  # the two that cannot be, the step that was done, and the end of the input
    assert len(done.stdout) < 20_000
