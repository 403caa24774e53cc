"""How the program ends while something works beside it."""

from __future__ import annotations

import subprocess
import sys
from importlib.metadata import entry_points

import pytest

from shorewalk import cli
from shorewalk.exits import Exit

PROGRAM = """
import atexit, sys, threading
from shorewalk import beside, cli
cli.main = lambda: {code}
if {works}:
    beside.work_beside(threading.Event().wait)
print("said")
atexit.register(print, "taken apart")
sys.exit(cli.program())
"""


@pytest.mark.parametrize(("works", "said"), [(True, "said\n"), (False, "said\ntaken apart\n")])
def test_the_interpreter_is_not_taken_apart_under_a_thread(works: bool, said: str) -> None:  # noqa: FBT001
    """Whatever it is at, in the code of a library perhaps: what was written comes out, the code is the one meant."""
    program = PROGRAM.format(code=int(Exit.UNFINISHED), works=works)
    ended = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert (ended.stdout, ended.returncode) == (said, Exit.UNFINISHED)


def test_what_is_installed_ends_this_way_too() -> None:
    """The command's entry is the function that does so."""
    (entry,) = entry_points(group="console_scripts", name="shorewalk")
    assert entry.load() is cli.program
