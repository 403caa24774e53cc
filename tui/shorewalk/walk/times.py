"""Times of answers as a record shows them: the day once, then hours, minutes and seconds."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, datetime, tzinfo

from .age import noted


class Times:
    """Times in one zone. One that cannot be read stands as it was given; one of a clock never set, not at all."""

    def __init__(self, times: Iterable[str | None], zone: tzinfo = UTC) -> None:
        self._zone = zone
        read = [self._read(time) for given in times if (time := noted(given))]
        known = [when for when in read if when]
        self._first, self._last = min(known, default=None), max(known, default=None)

    def span(self) -> str:
        """Return from when to when: `24 Nov 2026, 18:40 to 18:52 UTC`; nothing where no time is known."""
        if self._first is None or self._last is None:
            return ""
        first, last = self._first, self._last
        until = f"{last:%H:%M}" if last.date() == first.date() else f"{last:%d %b %Y, %H:%M}"
        return f"{first:%d %b %Y, %H:%M} to {until} {first.tzname() or ''}".rstrip()

    def at(self, time: str | None) -> str:
        """Return a time of the day, with the day where the answers are of several."""
        time = noted(time)
        when = self._read(time) if time else None
        if when is None:
            return time or ""
        one_day = self._first and self._last and self._first.date() == self._last.date()
        return f"{when:%H:%M:%S}" if one_day else f"{when:%d %b %H:%M:%S}"

    def _read(self, time: str) -> datetime | None:
        try:
            when = datetime.fromisoformat(time)
        except ValueError:
            return None
        return when.astimezone(self._zone) if when.tzinfo else None
