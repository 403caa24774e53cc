"""What the system tells a program in a terminal: the window changed, stop, go on, end.

A signal comes in the middle of anything, so each is only noted then, and followed when the app is between two things.
The library follows them where they come (of two sizes the first may then be told last), starts over itself when a
stopped program goes on (two threads then read the keys), and takes a window that is back at its size for one that never
changed.
"""

from __future__ import annotations

import os
import signal
from collections.abc import Callable
from contextlib import suppress
from typing import Any

from textual import events
from textual.driver import Driver
from textual.geometry import Size
from textual.message import Message

from .glass import Glass

SECONDS = 3
"""How long the terminal may take to be as it was, before the program ends all the same."""
SETTLED = 0.05
"""Seconds after which the library has drawn for another window, if it does: it waits for the last of several."""
UNIX = hasattr(signal, "SIGWINCH")


class Told(Driver):
    """A driver that follows signals in the app's own time. `glass`: what the terminal shows."""

    glass: Glass
    _paused = False
    _in_band_window_resize: bool
    _get_terminal_size: Callable[[], tuple[int, int]]

    def start_application_mode(self) -> None:
        """Begin; from then on what the system tells is heeded."""
        if not UNIX:
            super().start_application_mode()  # type: ignore[safe-super]
            return
        signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGWINCH})
        try:
            super().start_application_mode()  # type: ignore[safe-super]
            signal.signal(signal.SIGTERM, self._sigterm)
            if callable(signal.getsignal(signal.SIGWINCH)):
                signal.signal(signal.SIGWINCH, self._sigwinch)
        finally:
            signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGWINCH})

    def stop_application_mode(self) -> None:
        """Give the terminal back; from then on the system's own way to end is the right one."""
        if UNIX:
            signal.signal(signal.SIGTERM, signal.SIG_DFL)
        super().stop_application_mode()  # type: ignore[safe-super]

    def process_message(self, message: Message) -> None:
        """Heed also a terminal that tells of its window between the keys."""
        if isinstance(message, events.Resize):
            self._soon(self._draw_settled)
        super().process_message(message)

    def draw_anew(self) -> None:
        """Send all of the screen again."""
        self.glass.forget()
        self._app.call_later(self._app.run_action, "draw_anew", self._app)

    def _soon(self, follow: Callable[[], None]) -> None:
        with suppress(RuntimeError):  # the app has ended meanwhile
            self._loop.call_soon_threadsafe(follow)

    def _sigwinch(self, *_: Any) -> None:
        self._soon(self._window_changed)

    def _window_changed(self) -> None:
        """Ask for the size now: one signal comes within another, and what was read in the first is then told last."""
        if not self._in_band_window_resize:
            size = Size(*self._get_terminal_size())
            self._app.post_message(events.Resize(size, size))
        self._draw_settled()

    def _draw_settled(self) -> None:
        self.glass.forget()
        self._loop.call_later(SETTLED, self._app.call_later, self._settled)

    def _settled(self) -> None:
        """Draw all of it once more: the library may have taken it for no change. Where it did not, nothing is sent."""
        if self._app.screen_stack:
            self._app.screen.refresh(layout=True)

    def _sigtstp_application(self, *_: Any) -> None:
        if self._auto_restart and not self._loop.is_closed():
            self._soon(self._pause)
        else:
            os.kill(os.getpid(), signal.SIGSTOP)

    def _sigcont_application(self, *_: Any) -> None:
        if self._auto_restart:
            self._soon(self._go_on)

    def _pause(self) -> None:
        self.suspend_application_mode()
        self._paused = True
        os.kill(os.getpid(), signal.SIGSTOP)

    def _go_on(self) -> None:
        """Begin anew, where nobody asked before the program was stopped too: what it left then is not what it finds."""
        if not self._paused:
            self.suspend_application_mode()
        self._paused = False
        self.resume_application_mode()
        self.draw_anew()

    def _sigterm(self, *_: Any) -> None:
        signal.signal(signal.SIGTERM, signal.SIG_DFL)
        signal.alarm(SECONDS)
        self._soon(self._end)

    def _end(self) -> None:
        """Give the terminal back and end by the same signal; every answer is on the disk by then."""
        if not self._paused:
            with suppress(Exception):
                self.suspend_application_mode()
        os.kill(os.getpid(), signal.SIGTERM)
