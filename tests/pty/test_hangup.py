"""A terminal that is gone, where the system sends no signal for it."""

from __future__ import annotations

import os
import pty
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from shorewalk.exits import Exit

PATIENCE = 20
IGNORING = """
import os, signal, sys
signal.signal(signal.SIGHUP, signal.SIG_IGN)
os.execv(sys.executable, [sys.executable, "-m", "shorewalk", *sys.argv[1:]])
"""


@pytest.mark.parametrize("words", [("walk", "zap"), ("walk", "zap", "--plain"), ("practice", "creek-1")])
def test_nothing_stays_behind_when_the_terminal_is_gone(tmp_path: Path, words: tuple[str, ...]) -> None:
    """A program that inherited to ignore the signal, on a terminal that does not control it, ends all the same."""
    near, far = pty.openpty()
    program = subprocess.Popen(
        [sys.executable, "-c", IGNORING, *words],
        stdin=far,
        stdout=far,
        stderr=far,
        env={**os.environ, "SHOREWALK_HOME": str(tmp_path), "TERM": "xterm-256color"},
        start_new_session=True,
    )
    os.close(far)
    said = b""
    while b"Take your hands off" not in said and b"Before you start" not in said:
        said += os.read(near, 65_536)
    os.close(near)
    try:
        assert program.wait(PATIENCE) in (-signal.SIGHUP, Exit.UNFINISHED)
    finally:
        program.kill()
        program.wait()
