"""Ending with the terminal: where the link drops, nothing stays behind.

Every answer is on the disk by then, so the system's own way is the right one: SIGHUP, which ends the program where it
stands. It does not reach every program (one that inherited to ignore it, or has no controlling terminal); what such
a one then reads is the end of a file, again and again. So a thread waits for the hang-up, which costs nothing.
"""

from __future__ import annotations

import os
import select
import signal
import threading
from contextlib import suppress


def end_with_terminal(terminal: int) -> None:
    """End this program when `terminal`, an open file, hangs up. Call it from the main thread."""
    signal.signal(signal.SIGHUP, signal.SIG_DFL)
    threading.Thread(target=_wait, args=(terminal,), name="hangup", daemon=True).start()


def _wait(terminal: int) -> None:
    with suppress(OSError, AttributeError):  # where a system cannot wait for that, SIGHUP alone has to do
        waiting = select.poll()
        waiting.register(terminal, 0)  # no event is asked for: hanging up is told unasked
        found = waiting.poll()
        if any(event & (select.POLLHUP | select.POLLERR) for _, event in found):
            os.kill(os.getpid(), signal.SIGHUP)
