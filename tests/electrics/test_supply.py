"""The ranges of ANSI C84.1 at t - e, t and t + e, as functions and as the trees' limits judge them."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shorewalk.electrics.supply import (
    SERVICE,
    UNBALANCE_ALLOWED,
    UTILIZATION,
    supply_range,
    unbalance_percent,
)
from shorewalk.folders import trees
from shorewalk.tree.site import read_site
from shorewalk.walk.interval import of_reading
from shorewalk.walk.judge import judge_bands
from shorewalk.walk.meter import Meter
from shorewalk.walk.reading import Reading

SITE = read_site(trees() / "site")
EXACT = Meter("exact", 0, 0, tenths=True)
BASIC = Meter("basic", 1.2, 5, tenths=True)


def grade_of(volts: float, meter: Meter = EXACT, quantity: str = "hot-neutral") -> str | None:
    """Return the least grade of a reading with empty slots, by the shipped site."""
    reading = Reading("", volts, volts, volts, "V")
    amount = of_reading("k", reading, meter, "ac-volts")
    return judge_bands(SITE.quantities[quantity].floor, amount, SITE.limits).grade


# ANSI C84.1-2020, service voltage, 120 V base: A 114 to 126 (found), B 110 to 127 (B low found, B high
# secondary); utilization B low 104 (found), A low 108 (as told). Limits belong to their range.
@pytest.mark.parametrize(
    ("limit", "below", "at", "above"),
    [(110, None, "B", "B"), (114, "B", "A", "A"), (126, "A", "A", "B"), (127, "B", "B", None)],
)
def test_the_service_ranges(limit: float, below: str | None, at: str | None, above: str | None) -> None:
    """Just under, at and just over each limit."""
    around = (math.nextafter(limit, 0), limit, math.nextafter(limit, 999))
    assert tuple(supply_range(volts) for volts in around) == (below, at, above)
    assert tuple(supply_range(volts, SERVICE) for volts in around) == (below, at, above)


@pytest.mark.parametrize(
    ("limit", "below", "at", "above"),
    [(104, None, "B", "B"), (108, "B", "A", "A"), (126, "A", "A", "B"), (127, "B", "B", None)],
)
def test_the_utilization_ranges(limit: float, below: str | None, at: str | None, above: str | None) -> None:
    """Where an appliance is fed, the low ends are lower."""
    around = (math.nextafter(limit, 0), limit, math.nextafter(limit, 999))
    assert tuple(supply_range(volts, UTILIZATION) for volts in around) == (below, at, above)


@pytest.mark.parametrize(
    ("volts", "grade"),
    [
        # t - e, t, t + e of what an exact meter shows: 104, 114 and 126 of C84.1
        (103.9, "stop"), (104.0, "watch"), (104.1, "watch"),
        (109.9, "watch"), (110.0, "watch"), (110.1, "watch"),
        (113.9, "watch"), (114.0, "ok"), (114.1, "ok"),
        (125.9, "ok"), (126.0, "ok"), (126.1, "stop"),
        # Common practice: 120 to 125 V is what is usual
        (120.0, "ok"), (125.0, "ok"),
        # Nothing, a ghost, two hots
        (0.0, "stop"), (65.0, "stop"), (243.0, "stop"),
    ],
)  # fmt: skip
def test_an_empty_slot_is_graded_by_the_standard(volts: float, grade: str) -> None:
    """With no meter error, over 126 is over for certain."""
    assert grade_of(volts) == grade


@pytest.mark.parametrize(
    ("volts", "grade"),
    [
        # A basic meter, 1.2 % + 5 counts of a tenth (computed from the rule of the two kinds of cut)
        (105.7, "stop"), (105.8, "watch"), (113.9, "watch"), (114.0, "ok"),
        (126.0, "ok"), (126.1, "watch"), (128.0, "watch"), (128.1, "stop"),
        # 125.9 V that this meter may show as 127.4
        (127.4, "watch"),
    ],
)  # fmt: skip
def test_a_basic_meter_stops_the_hazard_and_not_the_sound_supply(volts: float, grade: str) -> None:
    """104 is a hazard, the worse grade wins; 114 and 126 are read as shown; high stops when it is certain."""
    assert grade_of(volts, BASIC) == grade


@pytest.mark.parametrize(
    ("volts", "grade"),
    [(0.02, "ok"), (0.3, "ok"), (1.4, "ok"), (1.5, "watch"), (4.5, "stop"), (89, "danger")],
)
def test_neutral_to_ground_by_common_practice(volts: float, grade: str) -> None:
    """Tens of millivolts are fine (common practice); 2 and 5 V are hazards: a basic meter stops early."""
    assert grade_of(volts, BASIC, "neutral-ground") == grade


def test_the_limits_name_the_standard_and_its_edition() -> None:
    """Every limit that C84.1 gives says so, with the edition."""
    for limit in ("utilization-b-low", "service-b-low", "service-b-high", "service-a-low", "service-a-high"):
        assert "C84.1-2020" in SITE.limits[limit].source
    ranges = {SITE.limits[f"service-{name}-{end}"].value for name in "ab" for end in ("low", "high")}
    assert ranges == {*SERVICE["A"], *SERVICE["B"]}


@pytest.mark.parametrize(("volts", "percent"), [((480, 476, 472), 0.84), ((460, 467, 450), 1.96)])
def test_unbalance_of_three_phases(volts: tuple[float, ...], percent: float) -> None:
    """100 x greatest deviation from the mean / mean (NEMA MG 1; computed); C84.1 allows 3 % (found)."""
    assert UNBALANCE_ALLOWED == 3 > percent
    assert unbalance_percent(volts) == pytest.approx(percent, abs=0.005)


@given(st.lists(st.floats(100, 600), min_size=3, max_size=3))
def test_unbalance_as_numpy_has_it(volts: list[float]) -> None:
    """The greatest deviation from the mean, whatever the order of the phases; the same at any scale."""
    phases = np.array(volts)
    expected = 100 * float(np.max(np.abs(phases - phases.mean())) / phases.mean())
    assert unbalance_percent(volts) == pytest.approx(expected, abs=1e-9)
    assert unbalance_percent(volts[::-1]) == pytest.approx(expected, abs=1e-9)
    assert unbalance_percent([2 * each for each in volts]) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize("volts", [(120, 121), (), (0, 0, 0)])
def test_two_legs_have_no_unbalance(volts: tuple[float, ...]) -> None:
    """No standard defines it for two legs: refused in one line, as is a supply without voltage."""
    with pytest.raises(ValueError, match=r"three phases|more than 0 V"):
        unbalance_percent(volts)
