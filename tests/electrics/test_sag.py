"""Volts per amp, and where the ohms are."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shorewalk.electrics.sag import (
    difference,
    hot_resistance,
    joint_watts,
    neutral_resistance,
    neutral_share,
    own_share,
    rise,
    rise_over_fall,
    rise_scaled,
    sag_percent,
    sag_percent_scaled,
    sag_resistance,
    volts_at_start,
    volts_with,
)
from shorewalk.electrics.split import loose_neutral_legs


def test_the_source_from_a_load_test() -> None:
    """Z = (V0 - V1)/I: 240 to 238 V at 40 A is 0.05 ohm (found)."""
    assert sag_resistance(240, 238, 40) == pytest.approx(0.05)


@pytest.mark.parametrize(("amps", "watts"), [(20, 20), (30, 45), (50, 125)])
def test_the_heat_of_a_poor_contact(amps: float, watts: float) -> None:
    """P = I^2 R at 0.05 ohm: 20 W at 20 A, 45 W at 30 A, 125 W at 50 A (computed)."""
    assert joint_watts(amps, 0.05) == pytest.approx(watts)


def test_the_sag_at_a_long_branch() -> None:
    """12 AWG, 16 A, 100 ft drops 6.34 V of 120: 5.3 % (computed from NEC chapter 9 table 8)."""
    assert sag_percent(120, 120 - 6.34) == pytest.approx(5.3, abs=0.05)


@given(hot=st.floats(0.05, 1.0), neutral=st.floats(0.01, 2.0), ohms=st.floats(8, 15))
def test_the_two_readings_part_hot_from_neutral(hot: float, neutral: float, ohms: float) -> None:
    """One leg loaded through known ohms: the rise of the other gives the neutral, the fall gives the hot."""
    loaded, other, _ = loose_neutral_legs(120, -120, ohms + hot, 1e12, neutral)
    amps = loaded / (ohms + hot)
    at_load = amps * ohms
    found = neutral_resistance(120, other, amps)
    assert found == pytest.approx(neutral, abs=1e-6)
    assert hot_resistance(120, at_load, amps, found) == pytest.approx(hot, abs=1e-6)


@given(neutral=st.floats(0.01, 4.0), hot=st.floats(0.05, 1.0), ohms=st.floats(8, 15))
def test_on_two_legs_of_208y_too_however_far_the_neutral_moves(
    neutral: float, hot: float, ohms: float
) -> None:
    """The other leg stands at 120 degrees, where twice the rise would be 11 % off at a move of 20 V."""
    loaded, other, _ = loose_neutral_legs(120, 120 * (-0.5 + 0.75**0.5 * 1j), ohms + hot, 1e12, neutral)
    amps = loaded / (ohms + hot)
    found = neutral_resistance(120, other, amps, 120)
    assert found == pytest.approx(neutral, abs=1e-6)
    assert hot_resistance(120, amps * ohms, amps, found) == pytest.approx(hot, abs=1e-6)
    small = neutral_resistance(120, 120.05, 10, 120)
    assert small == pytest.approx(2 * 0.05 / 10, rel=0.01), "a small rise shows the half of the move"


def test_readings_that_no_neutral_explains_are_refused() -> None:
    """A leg at 120 degrees cannot fall to under 0.866 of itself by the neutral's move alone."""
    with pytest.raises(ValueError, match="no readings of one leg 120 degrees away"):
        neutral_resistance(120, 100, 12.5, 120)


def test_the_share_of_the_neutral() -> None:
    """All in the neutral: 1; nothing fell: 0, never a division by nothing."""
    assert neutral_share(0.1, 21.2, 122, 100.9) == pytest.approx(1.0)
    assert neutral_share(0.1, 0.6, 122, 120) == pytest.approx(0.25)
    assert rise_over_fall(121, 122, 120, 120) == 0
    assert rise_over_fall(121, 121, 120, 121) == 0


def test_our_own_share_is_what_the_outlet_does_not_explain() -> None:
    """A burnt contact of 0.8 ohm: falls 11 V in the rig, 1 V at free slots of that leg, at 12.5 A."""
    assert own_share(122, 111, 122, 121, 12.5) == pytest.approx(0.8)


def test_rises_and_sags_are_for_the_test_load() -> None:
    """Half the load, twice the figure; without amps as it is."""
    assert rise(121, 123) == rise_scaled(121, 123, 12.5) == pytest.approx(2)
    assert rise_scaled(121, 123, 6.25) == pytest.approx(4)
    assert sag_percent_scaled(120, 117, 6.25) == pytest.approx(2 * sag_percent(120, 117))
    assert difference(121, 122) == difference(122, 121) == 1


DIVIDED: tuple[Callable[[], float], ...] = (
    lambda: sag_resistance(121, 119, 0),
    lambda: sag_resistance(121, 119, -3),
    lambda: rise_scaled(121, 119, 0),
    lambda: sag_percent(0, 119),
    lambda: sag_percent_scaled(121, 119, 0),
    lambda: neutral_resistance(121, 122, 0),
    lambda: own_share(122, 119, 122, 121, 0),
    lambda: sag_resistance(121, 119, float("nan")),
)


@pytest.mark.parametrize("call", DIVIDED)
def test_nothing_is_divided_by_nothing(call: Callable[[], float]) -> None:
    """No current, or no voltage, is refused in one line."""
    with pytest.raises(ValueError, match=r"cannot be: it is more than 0") as refused:
        call()
    assert "\n" not in str(refused.value)


def test_only_what_is_not_wire_heats_the_joint() -> None:
    """0.112 ohm where sound wire has 0.062: 0.05 ohm turn 45 W into heat at 30 A (computed)."""
    assert joint_watts(30, 0.112, 0.062) == pytest.approx(45)


def test_what_a_load_leaves_is_the_load_test_read_the_other_way() -> None:
    """Z = (V0 - V1)/I (found), so V1 = V0 - Z I: 240 V and 0.05 ohm leave 238 V at 40 A."""
    assert volts_with(240, 0.05, 40) == pytest.approx(238)
    assert volts_with(121.4, sag_resistance(121.4, 116.2, 12.0), 12.0) == pytest.approx(116.2)


def test_a_start_takes_four_times_the_running_current() -> None:
    """15 A running, up to 60 A starting (extension tables): 121 V and 0.3 ohm leave 103 V, and 116.5 V running."""
    assert volts_at_start(121, 0.3, 15) == pytest.approx(103)
    assert volts_with(121, 0.3, 15) == pytest.approx(116.5)
