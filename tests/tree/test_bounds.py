"""However large, deep or endless a file is, it is told what is wrong with it, and little memory and time is taken."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from shorewalk.tree.size import MOST_NODES
from shorewalk.tree.source import LARGEST, MOST

LIMITED = """\
import resource, sys
resource.setrlimit(resource.RLIMIT_AS, (2_000_000_000, 2_000_000_000))
resource.setrlimit(resource.RLIMIT_CPU, (60, 60))
from shorewalk.cli import main
sys.exit(main())
"""
"""The program with at most 2 GB and a minute: a runaway is ended by the system, and the test fails."""

END = "  end: {end: unplugged, because: It is so., safe_action: Leave it., call: park, say: Please look.}\n"


def _lint(path: Path, *words: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", LIMITED, "lint", str(path), *words]
    return subprocess.run(command, capture_output=True, text=True, timeout=240, check=False)


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("k{n}: &x b\n", 'The anchor "&x" is not read'),
        ("k{n}: *x\n", 'The alias "*x" is not read'),
        ("a: b\n", 'The key "a" stands here a second time'),
        ("k{n}: [[[[[[[[[[\n", "nested more than"),
        ("k{n}: {{l: {{}}}}\n", "is not known here"),
    ],
)
def test_thousands_of_faults_are_told_up_to_a_number(tmp_path: Path, row: str, said: str) -> None:
    """A file full of faults is refused with the first hundred, and says that they end there."""
    file = tmp_path / "many.yaml"
    file.write_text("tree: many\n" + "".join(row.format(n=n) for n in range(40_000)), encoding="utf-8")
    done = _lint(file, "--format", "text")
    assert done.returncode == 1, done.stderr
    assert said in done.stdout
    assert done.stdout.count("many.yaml:") <= MOST + 1
    assert "Traceback" not in done.stderr


def test_parts_in_parts_are_counted_before_they_are_put_in(tmp_path: Path) -> None:
    """Ten parts that each put in the next ten times are ten thousand million nodes: told at once, not put in."""
    (tmp_path / "parts").mkdir()
    for at in range(9):
        rows = "".join(
            f"  u{n}: {{part: p{at + 1}, exits: {{out: {f'u{n + 1}' if n < 9 else 'out'}}}}}\n"
            for n in range(10)
        )
        text = f"part: p{at}\nexits: [out]\nbegin: u0\nnodes:\n{rows}"
        (tmp_path / "parts" / f"p{at}.yaml").write_text(text, encoding="utf-8")
    last = "part: p9\nexits: [out]\nbegin: a\nnodes:\n  a: {step: Look., done: out, cannot: out}\n"
    (tmp_path / "parts" / "p9.yaml").write_text(last, encoding="utf-8")
    file = tmp_path / "bomb.yaml"
    file.write_text(
        f"tree: bomb\nsymptom: x\nbegin: u\nnodes:\n  u: {{part: p0, exits: {{out: end}}}}\n{END}",
        encoding="utf-8",
    )
    done = _lint(file)
    assert done.returncode == 1, done.stderr
    assert f"at most {MOST_NODES:,} are read" in done.stdout


def test_a_file_that_is_too_large_is_not_read(tmp_path: Path) -> None:
    """A file of gigabytes is refused by its size."""
    file = tmp_path / "huge.yaml"
    with file.open("wb") as out:
        out.truncate(20_000_000_000)  # takes no room on the disk
    done = _lint(file)
    assert done.returncode == 3
    assert f"at most {LARGEST} are read" in done.stderr


def test_what_is_no_file_is_not_waited_for(tmp_path: Path) -> None:
    """A pipe that nobody writes into, and a device that never ends, are refused at once, beside a tree that is read."""
    os.mkfifo(tmp_path / "pipe.yaml")
    (tmp_path / "device.yaml").symlink_to("/dev/zero")
    (tmp_path / "good.yaml").write_text(
        f"tree: good\nsymptom: The lights are out\nbegin: end\nnodes:\n{END}", encoding="utf-8"
    )
    done = _lint(tmp_path)
    told = done.stdout + done.stderr
    assert told.count("This is no file but a folder, a pipe or a device.") == 2
    assert "1 tree" in done.stdout
