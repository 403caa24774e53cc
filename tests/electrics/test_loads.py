"""What appliances draw at the voltage that is there."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shorewalk.electrics.loads import FOLLOWS, heater_ohms, load_amps, load_watts, share_percent


@pytest.mark.parametrize(("volts", "watts"), [(104, 1127), (120, 1500), (132, 1815)])
def test_a_heater_elsewhere(volts: float, watts: float) -> None:
    """1500 W at 120 V gives 1127 W at 104 V, 1815 W at 132 V: by the square (computed)."""
    assert load_watts(1500, volts) == pytest.approx(watts, abs=0.5)


def test_constant_power_draws_more_as_the_voltage_falls() -> None:
    """1500 W of microwave: 12.5 A at 120 V, 14.4 A at 104 V (computed); a motor is taken likewise."""
    assert load_amps(1500, 120, "constant-power") == pytest.approx(12.5)
    assert load_amps(1500, 104, "constant-power") == pytest.approx(14.42, abs=0.005)
    assert load_amps(1500, 104, "motor") == load_amps(1500, 104, "constant-power")
    assert load_amps(1500, 104) == pytest.approx(10.83, abs=0.005)


@pytest.mark.parametrize("volts", [0, -5])
def test_nothing_is_drawn_from_nothing(volts: float) -> None:
    """No voltage is an error, not endless amps."""
    with pytest.raises(ValueError, match="feed no load"):
        load_amps(1500, volts)


def test_a_motor_is_taken_by_the_greater_current() -> None:
    """Above 120 V that is the one that rises with the voltage (common practice: the cautious side)."""
    assert load_amps(1500, 126, "motor") == load_amps(1500, 126)
    assert load_amps(1500, 126, "motor") > load_amps(1500, 126, "constant-power")


@given(watts=st.floats(0, 5000), volts=st.floats(90, 140), follows=st.sampled_from(FOLLOWS))
def test_all_loads_meet_at_120_volts(watts: float, volts: float, follows: str) -> None:
    """At 120 V a label is true of every kind; elsewhere a motor draws no less than either other."""
    assert load_amps(watts, 120, follows) == pytest.approx(watts / 120)
    assert load_amps(watts, volts, follows) <= load_amps(watts, volts, "motor")
    assert load_watts(watts, volts, "constant-power") == pytest.approx(watts)


def test_the_breaker_s_share() -> None:
    """16, 24 and 40 A are 80 % of 20, 30 and 50 A (NEC 2020, 210.20(A): 125 % of a continuous load; found)."""
    for amps, rating in ((16, 20), (24, 30), (40, 50)):
        assert share_percent(amps, rating) == pytest.approx(80)
    assert heater_ohms(1500) == pytest.approx(9.6)


@pytest.mark.parametrize(
    ("watts", "volts", "follows", "said"),
    [
        (-1, 120, "resistive", "0 to 100000 W can"),
        (1500, 120, "engine", "resistive, constant-power, motor are"),
    ],
)
def test_what_is_no_load_is_refused_in_one_line(watts: float, volts: float, follows: str, said: str) -> None:
    """Negative watts, or a way of drawing that nothing has."""
    with pytest.raises(ValueError, match=said):
        load_amps(watts, volts, follows)
