"""What appliances draw at the voltage that is there."""

from __future__ import annotations

import pytest

from shorewalk.electrics.loads import load_amps, load_watts


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
