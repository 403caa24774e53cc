"""A result with the sum it came from, in one line that a person can follow."""

from __future__ import annotations

from .known import Worked
from .wording import shows_amount


def sum_of(worked: Worked) -> str:
    """Return the sum with its numbers, what comes out, and how far that could be off."""
    if worked.out.endswith("cosine") and worked.value is not None:
        return f"{worked.numbers} = {worked.value:.3f}, so a = {shows_span(worked)}"
    return f"{worked.numbers} = {shows_span(worked)}"


def shows_span(worked: Worked) -> str:
    """Return a result and from where to where it may lie, `0.51 ohm (0.46 to 0.57)`, where that shows a difference."""
    if worked.low is None or worked.high is None:
        return worked.shows
    ends = [shows_amount(end, worked.unit, worked.out) for end in (worked.low, worked.high)]
    if worked.out.endswith("cosine"):
        ends.reverse()  # the greater the angle, the smaller its cosine
    low, high = (end.partition(" ")[0] for end in ends)
    return worked.shows if low == high else f"{worked.shows} ({low} to {high})"
