"""Which band a value falls in, which row is met, and what to tell about doubt.

Every limit has two sides, and a value may lie on either when the meter could be off:

- `hazard`: the interval decides. If any of it is on a side, that side is possible.
- `supply`: the value as shown decides; the screen says when the limit is within the interval.
- `surely`: passed only if the whole interval is past it, or the value as shown is past what the limit names
  as `shown`: a coarse meter may condemn, and its doubt lets nothing pass without end.

Of several possible bands the worst counts, so a doubtful hazard is a hazard. The bands of a
basic meter and an empty slot come out as tests/walk/test_judge.py says.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from shorewalk.tree.facts import Cut, Limit
from shorewalk.tree.model import AGAIN, GRADES, Band, Condition, Measure, Tally, Way, Work
from shorewalk.tree.record import record

from .interval import Amount, Span

Limits = Mapping[str, Limit]

ORDER = ("ok", "watch", AGAIN, "stop", "danger")
"""How grades rise where one of several possible bands is taken; no grade is below `ok`."""


@record()
class Judged:
    """The way taken, the grade it gives and what a screen says about the doubt in it."""

    way: Way | None
    grade: str | None
    notes: tuple[str, ...] = ()
    index: int = 0  # of the band, from 0


def rank(grade: str | None) -> int:
    """Place a grade in `ORDER`; no grade ranks below all."""
    return ORDER.index(grade) if grade in ORDER else -1


def sides(amount: Amount, limit: Limit | None, *, over_at: bool) -> tuple[bool, bool]:
    """Tell whether the value may be under the limit, and whether it may be over.

    `over_at`: the limit itself counts as over (a cut written `below` or `from`), not as under.
    A limit that is not known leaves both possible.
    """
    if limit is None:
        return (True, True)
    at = limit.value

    def over(value: float) -> bool:
        return value >= at if over_at else value > at

    if limit.kind == "surely":
        passed = over(amount.span[0]) or (limit.shown is not None and amount.shown[1] > limit.shown)
        return (not passed, passed)
    low, high = amount.shown if limit.kind == "supply" else amount.span
    if math.isnan(amount.value):
        low, high = -math.inf, math.inf
    return (not over(low), over(high))


def _as_shown(amount: Amount, limit: Limit | None, *, over_at: bool) -> bool:
    """Tell whether the value as shown counts as over; a `surely` limit has no other reading."""
    if limit is None:
        return False
    if limit.kind == "surely":
        return sides(amount, limit, over_at=over_at)[1]
    return amount.value >= limit.value if over_at else amount.value > limit.value


def near_edge(amount: Amount, limit: Limit | None) -> bool:
    """Tell whether a supply limit lies within what the meter may be off by."""
    return limit is not None and limit.kind == "supply" and amount.span[0] <= limit.value <= amount.span[1]


def _cut(band: Band | Cut, limits: Limits) -> tuple[Limit | None, bool]:
    name = band.below if band.below is not None else band.upto
    return (limits.get(name or ""), band.below is not None)


def possible_bands(bands: Sequence[Band | Cut], amount: Amount, limits: Limits) -> tuple[range, int]:
    """Return the bands the value may be in, with all between, and the one that holds it as shown.

    A supply limit that is passed as shown does not clear a hazard below it: each limit is asked by itself.
    """
    own, over_before, found = 0, True, []
    for index, band in enumerate(bands[:-1]):
        limit, over_at = _cut(band, limits)
        under, over = sides(amount, limit, over_at=over_at)
        if over_before and under:
            found.append(index)
        over_before = over
        if _as_shown(amount, limit, over_at=over_at):
            own = index + 1
    if over_before:
        found.append(len(bands) - 1)
    return range(found[0], found[-1] + 1), own


def _grade_of(band: Band | Cut) -> str | None:
    return band.way.grade if isinstance(band, Band) else band.grade


def off(span: Span, amount: Amount) -> str:
    """Return how far the meter may be off, for a sentence: `1.8 V`."""
    by = max(span[1] - amount.value, amount.value - span[0])
    return f"{by:.2g} {amount.unit}".strip() if math.isfinite(by) else "more than can be said"


def judge_bands(bands: Sequence[Band | Cut], amount: Amount, limits: Limits) -> Judged:
    """Return the worst band the value may be in; its own band wins a tie, else the lowest."""
    possible, own = possible_bands(bands, amount, limits)
    worst = max(rank(_grade_of(bands[index])) for index in possible)
    tied = [index for index in possible if rank(_grade_of(bands[index])) == worst]
    index = own if own in tied else tied[0]
    band = bands[index]
    grade = _grade_of(band)
    notes: list[str] = []
    if rank(grade) > rank(_grade_of(bands[own])):
        notes.append(worse_taken(amount))
    if any(near_edge(amount, _cut(other, limits)[0]) for other in bands[:-1]):
        notes.append(close_to_edge(amount))
    way = band.way if isinstance(band, Band) else None
    return Judged(way, grade, tuple(notes), index)


def judge_node(node: Measure | Work | Tally, amount: Amount, limits: Limits) -> Judged:
    """Return how a node judges its own number: by its bands, else by what `next` says."""
    if node.bands:
        return judge_bands(node.bands, amount, limits)
    return Judged(node.next, node.next.grade if node.next else None)


def condemns(bands: Sequence[Band | Cut], amount: Amount, limits: Limits) -> bool:
    """Tell whether every band the value may be in is a stop: no error of the meter explains it away."""
    possible, _ = possible_bands(bands, amount, limits)
    return bool(bands) and all(rank(_grade_of(bands[index])) >= rank("stop") for index in possible)


def worse_taken(amount: Amount) -> str:
    """Say that doubt was settled the cautious way."""
    what = "your meter" if len(amount.bases) < 2 else "this"
    return f"The worse grade was taken: {what} could be off by {off(amount.span, amount)}."


def close_to_edge(amount: Amount) -> str:
    """Say that a limit of the supply is within the meter's error."""
    what = "your meter" if len(amount.bases) < 2 else "this"
    return f"Close to the edge; {what} could be off by {off(amount.span, amount)}."


def condition_met(condition: Condition, amount: Amount, limits: Limits) -> bool:
    """Tell whether the value may lie in the stretch the condition names."""
    parts = (
        (condition.below, True, 0),
        (condition.upto, False, 0),
        (condition.from_, True, 1),
        (condition.above, False, 1),
    )
    return all(
        sides(amount, limits.get(name), over_at=over_at)[side]
        for name, over_at, side in parts
        if name is not None
    )


def shown_met(condition: Condition, amount: Amount, limits: Limits) -> bool:
    """Tell whether the value as shown lies there."""
    parts = (
        (condition.below, True, False),
        (condition.upto, False, False),
        (condition.from_, True, True),
        (condition.above, False, True),
    )
    return all(
        _as_shown(amount, limits.get(name), over_at=over_at) is side
        for name, over_at, side in parts
        if name is not None
    )


def limits_of(condition: Condition) -> tuple[str, ...]:
    """Return the limits a condition names."""
    names = (condition.below, condition.upto, condition.from_, condition.above)
    return tuple(name for name in names if name is not None)


def worst_of(grades: Iterable[str | None]) -> str | None:
    """Return the worst of several grades (`again` is none)."""
    known = [grade for grade in grades if grade in GRADES]
    return max(known, key=GRADES.index) if known else None
