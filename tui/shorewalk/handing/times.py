"""Times that came in a file: nobody here saw that clock, so what cannot be so makes a reading old.

A reading is fresh for some minutes, and a look at an outlet rests on that. A time that is missing, that cannot be
read, or that lies after the file was written is taken for long ago. Where the file was written at a time that is yet
to come here, the clocks differ: then all its times are moved back together, so that the walk comes back the way it
went, and every reading of it is old by now.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, datetime

from shorewalk.walk.age import seconds_of
from shorewalk.walk.answers import Answered, Read

from .handed import Handed

LONG_AGO = "1970-01-01T00:00:00Z"
"""What stands in the place of a time that is not believed."""
BEFORE = datetime(1999, 12, 31, tzinfo=UTC).timestamp()
"""Where the times of another clock are moved to: older than any reading, and walks of years fit before it."""
FORM = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,6})?(Z|[+-]\d\d:\d\d)", re.ASCII)
"""A time with its zone: without one it is another time on every machine."""


def clocks_differ(handed: Handed, now: str) -> bool:
    """Tell whether the file was written at a time that is yet to come here."""
    return _seconds(handed.written) > _seconds(now)


def believed(handed: Handed, now: str) -> tuple[Answered, ...]:
    """Return the answers with times that may be believed, so that no reading is younger than it can be."""
    latest = _seconds(handed.written)
    back = latest - BEFORE if clocks_differ(handed, now) else 0.0

    def one(time: str) -> str:
        seconds = _seconds(time)
        if not 0.0 < seconds <= latest:
            return LONG_AGO
        if not back:
            return time
        return f"{datetime.fromtimestamp(max(1.0, seconds - back), UTC):%Y-%m-%dT%H:%M:%SZ}"

    return tuple(
        replace(each, time=one(each.time or ""), resumed=None if each.resumed is None else one(each.resumed))
        for each in handed.answers
    )


def count_old(answers: Iterable[Answered]) -> int:
    """Return how many readings are of a time that is not believed."""
    return sum(isinstance(each.answer, Read) and each.time == LONG_AGO for each in answers)


def _seconds(time: str) -> float:
    """Return a time in seconds; nothing of it, 0, where it is none."""
    try:
        found = seconds_of(time) if FORM.fullmatch(time) else None
    except OverflowError:
        return 0.0
    return found or 0.0
