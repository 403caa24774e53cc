"""Bands against least grades: what the sweep finds, against readings taken everywhere."""

from __future__ import annotations

from hypothesis import assume, given, settings
from hypothesis import strategies as some

from shorewalk.lint.rows import exactly
from shorewalk.lint.sweep import WIDTHS, is_milder, milder_bands
from shorewalk.tree.facts import Cut, Limit
from shorewalk.walk.judge import judge_bands

VALUES = (5, 7, 12, 104, 107, 126)
AROUND = (*(step * 0.05 for step in range(-45, 46)), -9, -6.05, -6, -5.95, 5.95, 6, 6.05, 9)
SAMPLES = sorted({round(limit + by, 2) for limit in VALUES for by in AROUND} | {-99.0, 45.0, 999.0})
KINDS = ("hazard", "supply", "surely")
LIMITS = {
    f"{kind}-{value}": Limit(f"{kind}-{value}", float(value), "V", kind, "a limit", "a test")
    for kind in KINDS
    for value in VALUES
}
GRADE = some.sampled_from([None, "ok", "watch", "stop", "danger", "again"])


@some.composite
def lines(draw: some.DrawFn) -> tuple[Cut, ...]:
    """Bands with rising limits, the last without one."""
    values = draw(some.lists(some.sampled_from(VALUES), unique=True, max_size=4))
    cuts = []
    for value in sorted(values):
        limit = f"{draw(some.sampled_from(KINDS))}-{value}"
        below = draw(some.booleans())
        cuts.append(Cut(draw(GRADE), limit if below else None, None if below else limit))
    return (*cuts, Cut(draw(GRADE)))


@settings(deadline=None, max_examples=60)
@given(lines(), lines())
def test_a_band_is_told_just_where_some_reading_deserves_worse(
    bands: tuple[Cut, ...], floor: tuple[Cut, ...]
) -> None:
    """Sampled closely round every limit, and far from all, with every width a meter may be off by."""
    assume(all(cut.grade != "again" for cut in floor))
    found = {mild.at for mild in milder_bands(bands, floor, LIMITS, "V")}
    sampled = set()
    for width in WIDTHS:
        for value in SAMPLES:
            amount = exactly(value, width)
            given_, least = judge_bands(bands, amount, LIMITS), judge_bands(floor, amount, LIMITS).grade
            if is_milder(given_.grade, least):
                sampled.add(given_.index)
    assert sampled <= found
    if not sampled:
        assert not found


def test_a_limit_of_another_kind_at_the_same_number_is_milder_near_it() -> None:
    """A supply limit counts as shown; where the least grade has a hazard limit that is too mild near it."""
    floor = (Cut("stop", "hazard-104"), Cut("ok"))
    assert list(milder_bands(floor, floor, LIMITS, "V")) == []
    (mild,) = milder_bands((Cut("stop", "supply-104"), Cut("ok")), floor, LIMITS, "V")
    assert (mild.at, mild.grade, mild.least) == (1, "ok", "stop")
    assert "near" in mild.where
