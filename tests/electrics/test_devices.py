"""Breakers (UL 489), ground-fault outlets (UL 943) and people (OSHA 3075), as quoted."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shorewalk.electrics.breaker import hold_seconds
from shorewalk.electrics.cord import cord_drop, leg_drop
from shorewalk.electrics.ground_fault import trip_seconds
from shorewalk.electrics.loads import load_amps
from shorewalk.electrics.people import body_milliamps, effect_of
from shorewalk.folders import trees
from shorewalk.tree.site import read_site

EVER = math.inf
LIMITS = read_site(trees() / "site").limits


@pytest.mark.parametrize(
    ("amps", "rating", "band"),
    [
        # UL 489 (found): holds 100 %; trips within 1 h at 135 %, 50 A and under
        (30, 30, (EVER, EVER)), (30.01, 30, (0, EVER)), (40.4, 30, (0, EVER)),
        (40.5, 30, (0, 3600)), (27, 20, (0, 3600)), (67.5, 50, (0, 3600)),
        # within 2 min at 200 %, 30 A and under (found)
        (59.9, 30, (0, 3600)), (60, 30, (0, 120)), (40, 20, (0, 120)),
        # within 4 min at 200 %, 31 to 50 A (from memory)
        (100, 50, (0, 240)), (99, 50, (0, 3600)), (62, 31, (0, 240)),
        (0, 20, (EVER, EVER)),
    ],
)  # fmt: skip
def test_how_long_a_breaker_may_hold(amps: float, rating: float, band: tuple[float, float]) -> None:
    """A band: the standard names corners only, and between two the milder holds."""
    assert hold_seconds(amps, rating) == band


@given(share=st.floats(0, 10), more=st.floats(0, 5), rating=st.sampled_from([15, 20, 30, 50]))
def test_more_amps_never_hold_longer(share: float, more: float, rating: float) -> None:
    """Both ends of the band fall as the current rises."""
    less, greater = hold_seconds(share * rating, rating), hold_seconds((share + more) * rating, rating)
    assert greater[0] <= less[0]
    assert greater[1] <= less[1]


def test_the_trees_limits_are_the_same_corners() -> None:
    """What a tree calls the hour's trip and the rating is where the band changes."""
    for rating in (20, 30, 50):
        assert hold_seconds(LIMITS[f"hour-trip-{rating}"].value, rating)[1] == 3600
        assert hold_seconds(LIMITS[f"rating-{rating}"].value, rating)[0] == EVER


@pytest.mark.parametrize(
    ("milliamps", "longest"), [(6, 5.59), (20, 1.00), (100, 0.100), (264, 0.025), (5000, 0.025)]
)
def test_the_longest_a_ground_fault_lasts(milliamps: float, longest: float) -> None:
    """UL 943 Class A, T = (20/I)^1.43 s (found), to 264 mA; the four points computed from it."""
    shortest, found = trip_seconds(milliamps)
    assert shortest == 0
    assert found == pytest.approx(longest, rel=0.01)


def test_the_trip_curve_is_a_straight_line_of_logarithms() -> None:
    """Least squares (numpy) through the quoted points gives the exponent; ours has none but it."""
    amps = np.array([6.0, 20.0, 100.0, 264.0])
    quoted, _ = np.polyfit(np.log(amps), np.log([5.59, 1.00, 0.100, 0.025]), 1)
    ours, _ = np.polyfit(np.log(amps), np.log([trip_seconds(each)[1] for each in amps]), 1)
    assert ours == pytest.approx(-1.43, abs=1e-9)
    assert float(quoted) == pytest.approx(ours, rel=0.01)


@pytest.mark.parametrize(
    ("milliamps", "band"), [(0, (EVER, EVER)), (3.99, (EVER, EVER)), (4, (0, EVER)), (5.99, (0, EVER))]
)
def test_a_ground_fault_outlet_between_4_and_6(milliamps: float, band: tuple[float, float]) -> None:
    """UL 943 Class A (found): must not trip below 4 mA, must at 6 mA; between them either is right."""
    assert trip_seconds(milliamps) == band
    assert LIMITS["ground-fault-trip-low"].value == 4
    assert LIMITS["ground-fault-trip-high"].value == 6


@pytest.mark.parametrize(
    ("milliamps", "word"),
    [
        # OSHA 3075 (found)
        (0.5, "hardly felt, and no proof that all is well"), (1, "a faint tingle"), (4.9, "a faint tingle"),
        (5, "felt; a hand can still let go"), (6, "painful; muscles freeze, and a hand may not let go"),
        (30, "painful; muscles freeze, and a hand may not let go"),
        (50, "breathing may stop; death is possible"), (150, "breathing may stop; death is possible"),
    ],
)  # fmt: skip
def test_what_a_current_does_to_a_person(milliamps: float, word: str) -> None:
    """1 mA a faint tingle; 5 felt; 6 to 30 freezing; 50 to 150 breathing stops, death possible."""
    assert effect_of(milliamps) == word


def test_wet_skin_at_50_volts_is_50_milliamperes() -> None:
    """About 1 kohm with wet skin (OSHA training, found); 25 V AC is where children's limit lies (IEC 60479-1)."""
    assert body_milliamps(50) == 50
    assert "freeze" in effect_of(body_milliamps(25))


def test_no_voltage_is_ever_called_safe() -> None:
    """Even what is hardly felt is no proof."""
    assert all("safe" not in effect_of(each) for each in np.linspace(0, 200, 401))


@pytest.mark.parametrize("amps", [-1, math.nan, math.inf])
def test_no_current_is_refused_in_one_line(amps: float) -> None:
    """A negative, endless or missing current."""
    for call in (lambda: hold_seconds(amps, 30), lambda: trip_seconds(amps), lambda: body_milliamps(amps)):
        with pytest.raises(ValueError, match="cannot be"):
            call()
    with pytest.raises(ValueError, match="15 to 50 A can"):
        hold_seconds(10, 60)


EDGES: tuple[tuple[Callable[[float], object], float, float], ...] = (
    # What each function takes, first and last, and is told of in its docstring
    (lambda amps: hold_seconds(amps, 30), 0, 600),
    (lambda rating: hold_seconds(1, rating), 15, 50),
    (trip_seconds, 0, 10_000),
    (body_milliamps, 0, 600),
    (lambda amps: cord_drop(amps, 25, 1.24), 0, 400),
    (lambda amps: leg_drop(amps, 1, 25, 1.24), 0, 400),
    (lambda amps: leg_drop(1, amps, 25, 1.24), 0, 400),
    (lambda watts: load_amps(watts, 120), 0, 100_000),
)


@pytest.mark.parametrize(("call", "first", "last"), EDGES)
def test_ranges_end_where_they_are_said_to(
    call: Callable[[float], object], first: float, last: float
) -> None:
    """The first and the last value count; one just beyond either is refused with both named."""
    call(first)
    call(last)
    for beyond in (first - 1e-6, last + 1e-2):
        with pytest.raises(ValueError, match=rf"{first:g} to {last:g}") as refused:
            call(beyond)
        assert "\n" not in str(refused.value)
