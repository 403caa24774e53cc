"""Volts lost along wire, against vectors computed from NEC Chapter 9 Table 8 and against Kirchhoff's laws."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shorewalk.electrics.conductors import gauge_mm2, ohms_per_1000_ft
from shorewalk.electrics.cord import cord_drop, cord_ohms, drop_percent, leg_drop


@pytest.mark.parametrize(
    ("gauge", "amps", "feet", "volts"),
    [
        # 2 x R x L x I with NEC Chapter 9 Table 8, stranded, 75 C (computed)
        (10, 30, 25, 1.86),
        (10, 30, 50, 3.72),
        (6, 50, 50, 2.46),
        (12, 16, 100, 6.34),
        (14, 15, 50, 4.71),
    ],
)
def test_the_drop_along_a_cord(gauge: int, amps: float, feet: float, volts: float) -> None:
    """Within the 0.5 % that the ohms are within, and the rounding of the vector."""
    found = cord_drop(amps, feet, ohms_per_1000_ft(gauge_mm2(gauge)))
    assert found == pytest.approx(volts, rel=0, abs=5e-3 * volts + 5e-3)


def test_the_drop_in_percent() -> None:
    """12 AWG, 16 A, 100 ft: 5.3 % of 120 V (computed); 25 ft of 10 AWG have 0.06 ohm."""
    assert drop_percent(6.34, 120) == pytest.approx(5.3, abs=0.02)
    assert cord_ohms(25, 1.24) == pytest.approx(0.062)


@given(amps1=st.floats(0, 60), amps2=st.floats(0, 60), feet=st.floats(5, 500), ohms=st.floats(0.1, 5))
def test_a_feeder_s_legs_by_kirchhoff(amps1: float, amps2: float, feet: float, ohms: float) -> None:
    """Node voltages of a three-wire feeder solved as a linear system (numpy), sources of 120 and -120 V."""
    siemens = 1000 / (ohms * feet)
    # Unknown: both hot ends and the neutral's end; each load draws its current from its hot to the neutral.
    matrix = np.diag([siemens] * 3)
    drawn = np.array([120 * siemens - amps1, -120 * siemens + amps2, amps1 - amps2])
    hot1, hot2, neutral = np.linalg.solve(matrix, drawn)
    assert 120 - (hot1 - neutral) == pytest.approx(leg_drop(amps1, amps2, feet, ohms), abs=1e-6)
    assert 120 - (neutral - hot2) == pytest.approx(leg_drop(amps2, amps1, feet, ohms), abs=1e-6)


def test_balanced_legs_lose_half_of_what_one_alone_loses() -> None:
    """Equal loads leave the neutral empty; a lone load makes the other leg gain."""
    assert leg_drop(30, 30, 100, 1.24) == pytest.approx(leg_drop(30, 0, 100, 1.24) / 2)
    assert leg_drop(0, 30, 100, 1.24) == pytest.approx(-30 * 100 * 1.24 / 1000)


@pytest.mark.parametrize("numbers", [(-1, 25, 1.24), (30, 0, 1.24), (30, 25, 0), (500, 25, 1.24)])
def test_no_cord_is_refused_in_one_line(numbers: tuple[float, float, float]) -> None:
    """No length, no ohms, or a current no cord carries."""
    with pytest.raises(ValueError, match="cannot be"):
        cord_drop(*numbers)
