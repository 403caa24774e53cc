"""How far readings, and arithmetic on them, may be from the truth."""

from __future__ import annotations

import math
from collections.abc import Mapping

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shorewalk.walk.interval import Amount, of_function, of_reading
from shorewalk.walk.meter import Meter
from shorewalk.walk.reading import Reading

TENTHS = Meter("basic", 1.2, 5, tenths=True)


def shown(
    name: str, value: float, meter: Meter = TENTHS, low: float | None = None, high: float | None = None
) -> Amount:
    ends = (value if low is None else low, value if high is None else high)
    return of_reading(name, Reading(str(value), value, *ends, "V"), meter, "ac-volts")


def minus(known: Mapping[str, float]) -> float:
    return known["a"] - known["b"]


# Makers' statement, +-(percent of reading + counts); found: 120 V at 1 % + 3 counts of 0.1 V is +-1.5 V,
# 100.0 V at 1 % + 2 is 98.8 to 101.2.
@pytest.mark.parametrize(
    ("value", "percent", "counts", "low", "high"), [(120, 1, 3, 118.5, 121.5), (100, 1, 2, 98.8, 101.2)]
)
def test_one_reading_carries_the_makers_statement(
    value: float, percent: float, counts: float, low: float, high: float
) -> None:
    """A single reading is off by its percent and all its counts."""
    amount = shown("a", value, Meter("own", percent, counts, tenths=True))
    assert amount.span == pytest.approx((low, high))


def test_difference_shares_the_gain() -> None:
    """A difference d carries percent x d and one count of each reading (common practice)."""
    found = of_function(minus, {"a": shown("a", 122.0), "b": shown("b", 112.0)}, "V")
    assert found.value == pytest.approx(10.0)
    assert found.off_by == pytest.approx(10.2 * 1.012 - 10)


def test_equal_legs_differ_by_counts_only() -> None:
    """Two equal legs of one meter differ by two counts, not by twice its percentage."""
    found = of_function(minus, {"a": shown("a", 121.0), "b": shown("b", 121.0)}, "V")
    assert found.off_by == pytest.approx(0.2 * 1.012)


def test_result_of_results_still_shares_the_gain() -> None:
    """Arithmetic on a result goes back to the readings below it: a - (a - b) is b, with its own error."""
    a, b = shown("a", 122.0), shown("b", 112.0)
    between = of_function(minus, {"a": a, "b": b}, "V")
    found = of_function(minus, {"a": a, "b": between}, "V")
    assert found.value == pytest.approx(112.0)
    assert found.span[1] == pytest.approx((112.0 + 0.1) * 1.012)


def test_absolute_value_is_least_in_the_middle() -> None:
    """The box is looked at in its middle too, so that |a - b| of equal readings reaches down to nothing."""
    found = of_function(lambda known: abs(minus(known)), {"a": shown("a", 5.0), "b": shown("b", 5.0)}, "V")
    assert found.span[0] == 0


def test_wander_widens_both_ways() -> None:
    """A display that wanders counts at both its ends."""
    found = of_function(minus, {"a": shown("a", 120, low=118, high=122), "b": shown("b", 110)}, "V")
    assert found.shown == pytest.approx((8, 12))
    assert found.span[0] < 8
    assert found.span[1] > 12


def test_no_value_anywhere_leaves_all_possible() -> None:
    """Where the arithmetic has no value, anything is possible: a division by what may be nothing."""
    found = of_function(lambda known: 1 / minus(known), {"a": shown("a", 5.0), "b": shown("b", 5.0)}, "1")
    assert math.isnan(found.value)
    assert found.span == (-math.inf, math.inf)


def test_over_range_is_over_everything() -> None:
    """A display over its range is surely high; a difference of two such is anything."""
    over = of_reading("a", Reading("OL", math.inf, math.inf, math.inf, "V", over=True), TENTHS, "ac-volts")
    assert over.span == (math.inf, math.inf)
    assert of_function(minus, {"a": over, "b": over}, "V").span == (-math.inf, math.inf)


@given(
    gain=st.floats(-0.012, 0.012),
    counts=st.tuples(st.floats(-0.1, 0.1), st.floats(-0.1, 0.1)),
    truth=st.tuples(st.floats(0, 300), st.floats(0, 300)),
)
def test_truth_lies_within(gain: float, counts: tuple[float, float], truth: tuple[float, float]) -> None:
    """Whatever one gain and a count each do to two true values, their difference lies in the interval."""
    readings = [value / (1 + gain) - count for value, count in zip(truth, counts, strict=True)]
    found = of_function(minus, {"a": shown("a", readings[0]), "b": shown("b", readings[1])}, "V")
    assert found.span[0] - 1e-6 <= truth[0] - truth[1] <= found.span[1] + 1e-6
