"""Times as they are shown: as clocks here show them."""

from __future__ import annotations

from datetime import date, datetime


def local(time: str) -> datetime | None:
    """Return an ISO 8601 time as clocks here show it; None where it is none."""
    try:
        return datetime.fromisoformat(time).astimezone()
    except (ValueError, OverflowError):  # the year 1 or 9999 in another zone
        return None


def moment(time: str) -> str:
    """Return `24 Nov 18:52`, 12 letters; what cannot be read as it stands."""
    when = local(time)
    return f"{when:%d %b %H:%M}" if when else time[:12]


def day(began: str | None) -> str:
    """Return `24 Nov 2026` for a day in ISO 8601; what cannot be read as it stands."""
    try:
        return f"{date.fromisoformat(began or ''):%d %b %Y}"
    except ValueError:
        return began or "not said"


def hour(time: str) -> float | None:
    """Return the hour of the day, 0 to 24, with its minutes as a fraction."""
    when = local(time)
    return when.hour + when.minute / 60 if when else None
