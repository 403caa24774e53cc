"""How old a reading is, by the times that answers carry; a walk knows no clock of its own.

A time that is not known is no age: such a reading goes on counting. A clock that went back does not say how long it
was meanwhile: what was read before that counts as too old, so that no change of a clock makes anything fresh.
"""

from __future__ import annotations

from shorewalk.tree.record import record

MINUTE = 60.0
NEVER_SET = "2000"
"""Before this year no clock was set: a small computer without one begins at 1970."""


def noted(time: str | None) -> str | None:
    """Return a time to be shown; `None` where the clock it was taken from was never set, or is not believed."""
    never_set = time and time[4:5] == "-" and time < NEVER_SET
    return None if never_set else time


def seconds_of(time: str | None) -> float | None:
    """Return an ISO 8601 time in seconds, without a zone taken as UTC; `None` where it is not known."""
    from datetime import UTC, datetime  # not needed for the first question

    try:
        read = datetime.fromisoformat(time or "")
    except ValueError:
        return None
    return (read if read.tzinfo else read.replace(tzinfo=UTC)).timestamp()


@record()
class Clock:
    """What the times of the answers tell: the latest known one, and the place in the walk where they last went back."""

    seconds: float | None = None
    back: int = -1

    def after(self, time: str | None, moment: int) -> Clock:
        """Return the clock after an answer, the `moment`th of the walk, given at `time`."""
        seconds = seconds_of(time)
        if seconds is None:
            return self
        went_back = self.seconds is not None and seconds < self.seconds
        return Clock(seconds, moment if went_back else self.back)

    def too_old(self, seconds: float | None, moment: int, minutes: float) -> bool:
        """Tell whether a reading taken at `moment`, `seconds` on the clock, is over `minutes` old."""
        if seconds is None or self.seconds is None:
            return False
        return moment < self.back or self.seconds - seconds > minutes * MINUTE
