"""Ending with the terminal: where the link drops, nothing stays behind.

Every answer is on the disk by then, so the system's own way is the right one: SIGHUP, which ends the program where it
stands. It does not reach every program (one that inherited to ignore it, or has no controlling terminal); what such
a one then reads is the end of a file, again and again. So a thread waits for the hang-up, which costs nothing.
"""

from __future__ import annotations

import os
import select
import signal
import sys
import threading
from contextlib import suppress

NAME = "hangup"


def end_with_terminal() -> None:
    """End this program when the terminal that somebody types into hangs up; where there is none, do nothing."""
    waits = any(thread.name == NAME for thread in threading.enumerate())
    if waits or not sys.stdin.isatty() or threading.current_thread() is not threading.main_thread():
        return
    signal.signal(signal.SIGHUP, signal.SIG_DFL)
    threading.Thread(target=_wait, args=(sys.stdin.fileno(),), name=NAME, daemon=True).start()


def _wait(terminal: int) -> None:
    with suppress(OSError, AttributeError):  # where a system cannot wait for that, SIGHUP alone has to do
        waiting = select.poll()
        waiting.register(terminal, 0)  # no event is asked for: hanging up is told unasked
        found = waiting.poll()
        if any(event & (select.POLLHUP | select.POLLERR) for _, event in found):
            os.kill(os.getpid(), signal.SIGHUP)
