"""Two legs and a neutral, against tables worked elsewhere; sources and status beside the numbers."""

from __future__ import annotations

import cmath
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shorewalk.electrics.split import (
    KINDS,
    ground_disagreement,
    hot_earth_gap,
    leg_angle,
    leg_cosine,
    leg_difference,
    loose_neutral_legs,
    loose_neutral_volts,
    neutral_current,
    open_neutral_volts,
    supply_kind,
    triangle_excess,
)
from shorewalk.folders import trees
from shorewalk.tree.site import read_site

OHMS = {1800: 8.0, 1500: 9.6, 1000: 14.4, 600: 24.0, 500: 28.8, 300: 48.0, 100: 144.0}
"""Of a heater by its watts at 120 V."""


@pytest.mark.parametrize(
    ("first", "second", "volts"),
    [
        # Neutral open, 240 V leg to leg, loads in watts: computed on found circuits
        (1000, 500, (80, 160)),
        (1800, 600, (60, 180)),
        (1500, 100, (15, 225)),
        (1000, 1000, (120, 120)),  # balanced loads hide it
    ],
)
def test_with_the_neutral_open_the_legs_divide_by_resistance(
    first: int, second: int, volts: tuple[float, float]
) -> None:
    """The lighter load gets the higher voltage."""
    ohms = OHMS[first], OHMS[second]
    found = open_neutral_volts(240, *ohms), open_neutral_volts(240, *reversed(ohms))
    assert found == pytest.approx(volts)
    through = loose_neutral_legs(120, -120, OHMS[first], OHMS[second])
    assert through[:2] == pytest.approx(volts), "an open neutral is one of endless ohms"


def test_the_current_through_both_loads_is_one() -> None:
    """1000 W and 500 W in series on 240 V: 5.56 A (computed)."""
    assert open_neutral_volts(240, 14.4, 28.8) / 14.4 == pytest.approx(5.56, abs=0.005)


@pytest.mark.parametrize(
    ("neutral", "volts"),
    [(1.0, (111.11, 128.89)), (0.05, (119.50, 120.50)), (0.0001, (120.0, 120.0))],
)  # 1500 W and 300 W: computed
def test_a_loose_neutral_shifts_the_legs_by_its_ohms(neutral: float, volts: tuple[float, float]) -> None:
    """What one leg loses the other gains."""
    first, second, moved = loose_neutral_legs(120, -120, OHMS[1500], OHMS[300], neutral)
    assert (first, second) == pytest.approx(volts, abs=0.005)
    assert moved == pytest.approx(volts[1] - 120, abs=0.005)
    assert loose_neutral_volts(240, OHMS[1500], OHMS[300], neutral) == first
    assert loose_neutral_volts(240, OHMS[300], OHMS[1500], neutral) == pytest.approx(second)


@pytest.mark.parametrize(
    ("amps", "degrees", "neutral"),
    [
        # Split phase carries the difference (found)
        ((50, 50), 180, 0),
        ((20, 10), 180, 10),
        # Two legs of 208Y: sqrt(I1^2 + I2^2 - I1 I2) (found, computed)
        ((50, 50), 120, 50),
        ((20, 10), 120, 17.32),
        ((40, 20), 120, 34.64),
        # One leg twice: the sum (by Kirchhoff)
        ((20, 10), 0, 30),
    ],
)
def test_what_the_neutral_carries(amps: tuple[float, float], degrees: float, neutral: float) -> None:
    """By the angle between the legs."""
    assert neutral_current(*amps, degrees) == pytest.approx(neutral, abs=0.005)


@pytest.mark.parametrize(
    ("legs", "degrees"),
    [
        ((120.0, 120.0, 240.0), 180),
        ((121.2, 121.3, 243.0), 180),  # the cosine is -1.008 there, outside what arccos takes
        ((122.0, 121.0, 210.4), 120),
        ((120.0, 120.0, 207.85), 120),
        ((121.0, 211.0, 243.2), 90),
        ((122.0, 122.0, 0.0), 0),
        ((122.0, 121.0, 0.1), 0),  # over 1 here
    ],
)
def test_the_angle_tells_the_supplies_apart(legs: tuple[float, float, float], degrees: float) -> None:
    """Split phase, two legs of 208Y, a high leg, one leg twice (computed)."""
    assert leg_angle(*legs) == pytest.approx(degrees, abs=1)


@pytest.mark.parametrize(
    ("cosine", "kind"),
    [
        # Where to cut is common practice: 150, 128, 112 and 15 degrees
        (-1.008, "split phase"), (-0.866, "split phase"), (-0.86, "an angle that no supply here should have"),
        (-0.61, "two legs of 208Y/120"), (-0.5, "two legs of 208Y/120"), (-0.375, "two legs of 208Y/120"),
        (-0.37, "an angle that no supply here should have"), (0.0, "an angle that no supply here should have"),
        (0.97, "one leg twice"), (1.0, "one leg twice"),
    ],
)  # fmt: skip
def test_the_cosine_names_the_supply(cosine: float, kind: str) -> None:
    """The cuts are those of trees/site/limits.yaml."""
    assert supply_kind(cosine) == kind
    limits = read_site(trees() / "site").limits
    assert [limits[f"cosine-{degrees}"].value for degrees in (150, 128, 112, 15)] == [
        most for most, _ in KINDS
    ]


def test_the_cosine_is_not_clipped() -> None:
    """A reading outside the circle stays visible: 121.2, 121.3, 243.0 V give -1.008 (computed)."""
    assert leg_cosine(121.2, 121.3, 243.0) == pytest.approx(-1.008, abs=0.0005)


@given(
    first=st.floats(90, 140), second=st.floats(90, 140), degrees=st.floats(0, 180), gain=st.floats(0.9, 1.1)
)
def test_the_cosine_is_that_of_the_phasors_whatever_the_meter_s_gain(
    first: float, second: float, degrees: float, gain: float
) -> None:
    """A gain error shared by the three readings cancels."""
    across = abs(first - cmath.rect(second, math.radians(degrees)))
    cosine = leg_cosine(first * gain, second * gain, across * gain)
    assert cosine == pytest.approx(math.cos(math.radians(degrees)), abs=1e-9)


@given(a=st.complex_numbers(max_magnitude=300), b=st.complex_numbers(max_magnitude=300))
def test_connected_conductors_never_break_the_triangle(a: complex, b: complex) -> None:
    """Three readings between three real potentials: none is more than the other two together."""
    assert triangle_excess(abs(a), abs(b), abs(a - b)) <= 1e-9
    assert ground_disagreement(abs(a), abs(b), abs(a - b)) <= 1e-9


def test_a_floating_conductor_breaks_the_triangle() -> None:
    """Neutral open at a 50: 68, 68, 243 (computed by nodal analysis)."""
    assert triangle_excess(68, 68, 243) == pytest.approx(107)
    assert triangle_excess(243, 68, 68) == pytest.approx(107), "in any order"


@pytest.mark.parametrize(
    ("hot_ground", "hot_neutral", "neutral_ground", "gap"),
    [(121.4, 122, 0.6, 0), (122, 100, 21, 1), (25, 122, 25, 72), (68, 122, 0.06, 53.94)],
)  # correct wiring under load: hot-ground = hot-neutral + neutral-ground (found); the rest by nodal analysis
def test_ground_and_neutral_agree_where_both_are_there(
    hot_ground: float, hot_neutral: float, neutral_ground: float, gap: float
) -> None:
    """What neutral to ground explains counts for nothing."""
    assert ground_disagreement(hot_ground, hot_neutral, neutral_ground) == pytest.approx(gap, abs=0.01)


def test_differences_have_no_sign() -> None:
    """Which of the two is the first does not matter."""
    assert leg_difference(122, 121.5) == leg_difference(121.5, 122) == pytest.approx(0.5)
    assert hot_earth_gap(0.1, 122) == hot_earth_gap(122, 0.1) == pytest.approx(121.9)
