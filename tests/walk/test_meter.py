"""Meters: what their makers state, and what is no meter."""

from __future__ import annotations

import pytest

from shorewalk.walk.interval import of_reading
from shorewalk.walk.meter import Meter, parse_meter
from shorewalk.walk.reading import Reading


@pytest.mark.parametrize(
    ("text", "meter"),
    [
        ("basic", Meter("basic", 1.2, 5)),
        ("good", Meter("good", 0.8, 3)),
        ("basic,tenths", Meter("basic", 1.2, 5, tenths=True)),
        (" Good , whole ", Meter("good", 0.8, 3, tenths=False)),
        ("1%+3", Meter("1 % + 3", 1, 3)),
        ("1,5 % + 4,tenths", Meter("1.5 % + 4", 1.5, 4, tenths=True)),
        ("0.5%", Meter("0.5 % + 0", 0.5, 0)),
    ],
)
def test_a_meter_is_named_by_profile_or_by_its_own_error(text: str, meter: Meter) -> None:
    """A profile or percent and counts give the meter, with or without what its last digit is."""
    assert parse_meter(text) == meter


@pytest.mark.parametrize(
    "text",
    [
        "",
        "best",
        "5",
        "1%+3,halves",
        "-1%+3",
        "nan%+1",
        "1e2%+3",
        "50%+3",
        "3.1%+3",
        "1%+11",
        "1%+999",
        "x" * 999,
    ],
)
def test_what_is_no_meter_is_refused_with_a_sentence(text: str) -> None:
    """The sentence says what may be said instead."""
    with pytest.raises(ValueError, match=r"Say basic, good or your meter's own error like 1%\+3"):
        parse_meter(text)


@pytest.mark.parametrize(
    ("meter", "shown", "low", "high"),
    [
        # 600.0 V range, 1 % + 3 counts: 120 V is +-1.5 V (read as in JCGM 100; found, computed)
        ("1%+3,tenths", 120.0, 118.5, 121.5),
        # 100.0 V at 1 % + 2 counts is 98.8 to 101.2 V (found)
        ("1%+2,tenths", 100.0, 98.8, 101.2),
        # The same meter without tenths: its counts are ten times as wide (computed)
        ("1%+2,whole", 100.0, 97.0, 103.0),
        ("basic,tenths", 120.0, 118.06, 121.94),
    ],
)
def test_a_reading_is_off_by_percent_and_counts(meter: str, shown: float, low: float, high: float) -> None:
    """Percent of the reading plus counts of the last digit, as the maker states it."""
    amount = of_reading("k", Reading("", shown, shown, shown, "V"), parse_meter(meter), "ac-volts")
    assert amount.span == pytest.approx((low, high))


def test_a_meter_nobody_asked_about_is_taken_as_one_without_tenths() -> None:
    """Not known whether it shows tenths: the wider count is taken."""
    assert parse_meter("basic").step("V") == 1.0
    assert parse_meter("basic,tenths").step("V") == pytest.approx(0.1)


def test_the_last_digit_of_a_battery_reading_is_a_hundredth() -> None:
    """DC volts of a 12 V battery stand on a lower range (common practice), whatever AC volts show."""
    assert parse_meter("basic,whole").step("V", "dc-volts") == pytest.approx(0.01)
