"""The fence: what the interpreter refuses in a shared login, whoever asks for it."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

RAISED = """
import os, sys
from pathlib import Path
walks = Path(sys.argv[1])
own, other = walks / "people" / "ann", walks / "people" / "bob"
door = os.open(other, os.O_RDONLY)
from shorewalk.guard.command import _raise_guard
_raise_guard(own, walks)
"""
REFUSED = "a shared login does not allow that"


def run(walks: Path, code: str) -> subprocess.CompletedProcess[str]:
    """Run code behind the fence of somebody whose walks are among `walks`."""
    return subprocess.run(
        [sys.executable, "-c", RAISED + code, str(walks)], capture_output=True, text=True, check=False
    )


@pytest.fixture
def walks(tmp_path: Path) -> Path:
    """Walks of Ann, of Bob, and of the account's owner."""
    for folder in (tmp_path / "people" / "ann", tmp_path / "people" / "bob", tmp_path):
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "walks.sqlite3").touch()
    return tmp_path


@pytest.mark.parametrize(
    "code",
    [
        "import subprocess; subprocess.run(['true'])",
        "import os; os.system('true')",
        "import os; os.execv('/bin/true', ['true'])",
        "import os; os.fork()",
        "import os; os.forkpty()",
        "import os; os.posix_spawn('/bin/true', ['true'], {})",
        "import os; os.spawnv(os.P_WAIT, '/bin/true', ['true'])",
        "import os; os.kill(os.getppid(), 0)",
        "import os; os.killpg(0, 0)",
        "import pty; pty.spawn(['true'])",
        "import webbrowser; webbrowser.open('http://127.0.0.1')",
        "import socket; socket.socket()",
        "import socket; socket.create_connection(('127.0.0.1', 9))",
        "import socket; socket.socket(socket.AF_UNIX).connect('/tmp/none')",
        "import socket; socket.socket(socket.AF_UNIX).bind(str(own / 'door'))",
        "import urllib.request; urllib.request.urlopen('http://127.0.0.1')",
        "(walks / 'mine').write_text('')",
        "Path('/tmp/shorewalk-never').write_text('')",
        "(own / '..' / 'bob' / 'mine').write_text('')",
        "open(walks / 'people' / 'mine', 'a')",
        "import os; os.open(walks / 'mine', os.O_RDWR | os.O_CREAT)",
        "(other / 'walks.sqlite3').read_bytes()",
        "(walks / 'walks.sqlite3').read_bytes()",
        "Path.home().joinpath('.ssh', 'authorized_keys').read_text()",
        "Path(f'/proc/self/root{other}/walks.sqlite3').read_bytes()",
        "open('/proc/self/cwd/../bob/walks.sqlite3')",
        "open(f'/proc/{os.getpid()}/cwd/../bob/walks.sqlite3')",
        "open(f'/proc/self/fd/{door}/walks.sqlite3')",
        "open(f'/dev/fd/{door}/walks.sqlite3', 'a')",
        "Path('/proc/self/environ').read_bytes()",
        "os.listdir('/proc/self/cwd/../bob')",
        "os.chdir('/proc/self/cwd/../bob')",
        "os.chdir('/usr')",
        "os.open('/usr', os.O_RDONLY)",
        "os.open(own / '..', os.O_RDONLY)",
        "os.open('/proc/self/cwd/../bob/walks.sqlite3', os.O_RDWR)",
        "os.remove('walks.sqlite3', dir_fd=door)",
        "os.rename('walks.sqlite3', 'mine', src_dir_fd=door)",
        "os.rename('walks.sqlite3', 'mine', dst_dir_fd=door)",
        "os.mkdir('mine', dir_fd=door)",
        "os.chmod('walks.sqlite3', 0o777, dir_fd=door)",
        "os.utime('walks.sqlite3', (0, 0), dir_fd=door)",
        "os.mkfifo(own / 'way')",
        "os.mkfifo('way', dir_fd=door)",
        "os.mknod(other / 'way')",
        "import posix; posix.mkfifo('way')",
        "os.chroot(other)",
        "list(other.iterdir())",
        "list((walks / 'people').iterdir())",
        "import os; os.chdir(other)",
        "import sqlite3; sqlite3.connect(walks / 'walks.sqlite3')",
        "import sqlite3; sqlite3.connect(f'file:{other}/walks.sqlite3?mode=ro', uri=True)",
        "(other / 'walks.sqlite3').unlink()",
        "(other / 'walks.sqlite3').rename(own / 'mine')",
        "(own / 'walks.sqlite3').rename(other / 'mine')",
        "(own / 'way').symlink_to(other)",
        "(own / 'way').hardlink_to(other / 'walks.sqlite3')",
        "(walks / 'more').mkdir()",
        "import shutil; shutil.rmtree(other)",
        "import shutil; shutil.copy(other / 'walks.sqlite3', own / 'mine')",
        "import os; os.truncate(other / 'walks.sqlite3', 0)",
        "(walks / 'walks.sqlite3').chmod(0o777)",
        "import ctypes; ctypes.CDLL(str(own / 'mine.so'))",
        "import resource; resource.setrlimit(resource.RLIMIT_FSIZE, (1, 1))",
    ],
)
def test_what_lies_beyond_is_refused(walks: Path, code: str) -> None:
    """No process, no network, no file outside, nobody else's walks, no code from a library that was brought along."""
    before = sorted(path for path in walks.rglob("*") if path.name != "saved")
    ended = run(walks, code)
    assert ended.returncode == 1
    assert REFUSED in ended.stderr.splitlines()[-1], ended.stderr
    assert sorted(path for path in walks.rglob("*") if path.name != "saved") == before
    assert not Path("/tmp/shorewalk-never").exists()  # noqa: S108 (it must not be there)


@pytest.mark.skipif(
    not hasattr(sqlite3.Connection, "enable_load_extension"), reason="this Python's SQLite loads none anyway"
)
def test_no_extension_is_loaded_into_the_database(walks: Path) -> None:
    """SQLite can be told to load code: not here."""
    ended = run(walks, "import sqlite3; sqlite3.connect(':memory:').enable_load_extension(True)")
    assert REFUSED in ended.stderr.splitlines()[-1]


def test_a_way_round_by_a_link_is_refused(walks: Path) -> None:
    """A link that was there before leads nowhere else for writing."""
    (walks / "people" / "ann" / "way").symlink_to(walks / "people" / "bob")
    ended = run(walks, "(own / 'way' / 'mine').write_text('')")
    assert REFUSED in ended.stderr.splitlines()[-1]
    assert not (walks / "people" / "bob" / "mine").exists()


def test_a_way_in_by_a_link_is_refused(walks: Path) -> None:
    """Nor for reading, though it stands in the own folder."""
    (walks / "people" / "ann" / "way").symlink_to(walks / "people" / "bob")
    for code in ("(own / 'way' / 'walks.sqlite3').read_bytes()", "os.listdir('way')"):
        ended = run(walks, code)
        assert REFUSED in ended.stderr.splitlines()[-1], code


def test_what_a_walk_needs_goes_on(walks: Path) -> None:
    """Own files, own walks on disk and in memory, arithmetic, the page to print and the loop's own pair still work."""
    code = """
(own / "saved" / "mine").write_text("mine")
(own / "saved" / "mine").rename(own / "saved" / "ours")
assert [path.name for path in (own / "saved").iterdir()] == ["ours"]
(own / "walks.sqlite3").unlink()
import asyncio, tempfile
import numpy as np
asyncio.run(asyncio.sleep(0))
assert np.linalg.solve(np.eye(3), np.ones(3)).sum() == 3
with tempfile.TemporaryDirectory() as folder:
    assert Path(folder).parent == own
from shorewalk.journal import Journal
from shorewalk.recorded import read_recorded
from shorewalk.folders import demo_data
from shorewalk.tree.library import shipped
from shorewalk.walk.walk import begin
from shorewalk.ruling import Ruling
from shorewalk.saving import save_page, save_record
from shorewalk.pages.code import pieces
recorded = read_recorded(demo_data() / "walks" / "voltage-high-leg-rises-far.yaml")
walk = begin(shipped(), recorded.walk, recorded.meter)
for _, _, answer, time in recorded.answers:
    walk = walk.answer(answer, time)
journal = Journal.open()
assert journal.folder == own and journal.problem is None, journal.problem
journal.begin(walk)
journal.close()
also, now = Ruling().also(walk), journal.clock()
record = save_record(walk, "14", own / "saved", now, also=also)
page = save_page(walk, "14", record, now, also=also)
assert page.read_bytes().startswith(b"%PDF-")
assert pieces("said", 10)
print("all of it")
"""
    ended = run(walks, code)
    assert (ended.returncode, ended.stdout) == (0, "all of it\n"), ended.stderr
