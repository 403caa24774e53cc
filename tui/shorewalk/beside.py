"""Threads that work beside the program, whose end nobody waits for.

When a program ends the interpreter takes itself apart, and a thread that is just then in the code of a library in C may
bring it down. So where one is left, the program ends at once: what it had to write is written by then.
"""

from __future__ import annotations

import os
import sys
import threading
from collections.abc import Callable

NAME = "beside"


def work_beside(task: Callable[[], object]) -> threading.Thread:
    """Begin a task in a thread of its own, and return that; it ends with the program, whatever it is at."""
    thread = threading.Thread(target=task, name=NAME, daemon=True)
    thread.start()
    return thread


def end_at_once(code: int) -> None:
    """End the program with this code where such a thread is left; else do nothing."""
    if any(thread.name == NAME for thread in threading.enumerate()):
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(code)
