"""How long ago something was, in words."""

from __future__ import annotations

from datetime import datetime

STEPS = ((86_400, "day"), (3_600, "hour"), (60, "minute"))


def ago(then: str, now: str) -> str:
    """Return `3 hours ago` for two ISO 8601 times; the time itself where it cannot be read."""
    try:
        seconds = _seconds(then, now)
    except (ValueError, TypeError):
        return f"at {then}"
    for length, name in STEPS:
        if (count := int(seconds // length)) >= 1:
            return f"{count} {name}{'s' if count > 1 else ''} ago"
    return "just now"


def minutes_between(then: str, now: str) -> float:
    """Return how many minutes lie between two ISO 8601 times; a day where that cannot be told."""
    try:
        return _seconds(then, now) / 60
    except (ValueError, TypeError):
        return 24 * 60


def _seconds(then: str, now: str) -> float:
    return (datetime.fromisoformat(now) - datetime.fromisoformat(then)).total_seconds()
