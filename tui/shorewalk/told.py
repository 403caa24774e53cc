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
from functools import partial
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
ENDING = (signal.SIGTERM, signal.SIGINT)
"""What asks the program to end. Ctrl-C is a key here; what is sent otherwise is not."""


class Told(Driver):
    """A driver that follows signals in the app's own time. `glass`: what the terminal shows."""

    glass: Glass
    _shown = _paused = _stops = False
    """Whether it has the terminal; whether it gave it back to stop; whether to stop is what was told last."""
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
            self._shown = True
            for number in ENDING:
                if signal.getsignal(number) is not signal.SIG_IGN:
                    signal.signal(number, self._told_to_end)
            if callable(signal.getsignal(signal.SIGWINCH)):
                signal.signal(signal.SIGWINCH, self._sigwinch)
        finally:
            signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGWINCH})

    def stop_application_mode(self) -> None:
        """Give the terminal back; from then on the system's own way to end is the right one."""
        super().stop_application_mode()  # type: ignore[safe-super]
        self._shown = self._paused = False
        for number in ENDING:
            if signal.getsignal(number) == self._told_to_end:
                signal.signal(number, signal.SIG_DFL)

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
        if self._auto_restart and self._shown:
            self._stops = True
            self._soon(self._pause)
        else:
            os.kill(os.getpid(), signal.SIGSTOP)

    def _sigcont_application(self, *_: Any) -> None:
        self._stops = False
        if self._auto_restart:
            self._soon(self._go_on)

    def _pause(self) -> None:
        """Stop, unless going on was told meanwhile: nobody would tell it again."""
        if self._stops and self._shown:
            self.suspend_application_mode()
            self._paused = True
        if self._stops:
            os.kill(os.getpid(), signal.SIGSTOP)

    def _go_on(self) -> None:
        """Begin anew, where nobody asked before the program was stopped too: what it left then is not what it finds."""
        if self._shown:
            self.suspend_application_mode()
        elif not self._paused:
            return  # the app has ended, and the terminal is somebody else's
        self._paused = False
        self.resume_application_mode()
        self.draw_anew()

    def _told_to_end(self, number: int, _: object) -> None:
        signal.signal(number, signal.SIG_DFL)
        signal.alarm(SECONDS)
        self._soon(partial(self._end, number))

    def _end(self, number: int) -> None:
        """Give the terminal back and end by the same signal; every answer is on the disk by then."""
        if self._shown:
            with suppress(Exception):
                self.suspend_application_mode()
        os.kill(os.getpid(), number)
