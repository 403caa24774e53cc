"""A rested battery's voltage, and where it cannot tell."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shorewalk.electrics.battery import (
    CHEMISTRIES,
    LITHIUM_LEVEL,
    TABLES,
    charge_at_least,
    charge_band,
    used_at_least,
)

FLOODED = ((12.6, 100), (12.4, 75), (12.2, 50), (12.0, 25), (11.6, 0))
"""Makers' tables for flooded lead, rested (found; they differ by 0.1 V)."""
AGM = ((12.8, 100), (12.6, 75), (12.3, 50), (12.0, 25), (11.8, 0))
"""The same for absorbed glass mat: a vehicle maker's manual (found); the empty end from memory."""


@pytest.mark.parametrize(("volts", "percent"), FLOODED)
def test_the_table_lies_within_the_band(volts: float, percent: float) -> None:
    """Each row, with the 0.1 V that tables differ by, is inside; and no band is narrower than that."""
    band = charge_band(volts)
    assert band is not None
    assert band[0] <= percent <= band[1]
    assert 6 < band[1] - band[0] <= 51


@given(volts=st.floats(11, 12.8), off_by=st.floats(0, 0.15), agm=st.booleans())
def test_between_rows_the_charge_is_read_off_a_line(volts: float, off_by: float, *, agm: bool) -> None:
    """The ends of the band are those that numpy reads off the table at both ends of the voltage."""
    table = np.array(sorted(AGM if agm else FLOODED))
    ends = np.interp([volts - off_by - 0.1, volts + off_by + 0.1], table[:, 0], table[:, 1])
    assert charge_band(volts, "agm" if agm else "flooded", off_by) == pytest.approx(tuple(ends), abs=1e-6)


@pytest.mark.parametrize("chemistry", CHEMISTRIES)
def test_every_row_of_a_table_is_its_own(chemistry: str) -> None:
    """The meter's error left out is none; 8 and 16 V are the last that a 12 V battery can show."""
    assert charge_band(12.4, chemistry) == charge_band(12.4, chemistry, 0)
    for volts in (8.0, 16.0):
        charge_band(volts, chemistry)
    for volts in (7.99, 16.01):
        with pytest.raises(ValueError, match="8 to 16 V can"):
            charge_band(volts, chemistry)


@pytest.mark.parametrize("chemistry", sorted(TABLES))
def test_a_lead_battery_over_13_volts_is_being_charged(chemistry: str) -> None:
    """Then its voltage tells nothing of its charge (common practice); nor where the meter allows it."""
    assert charge_band(13.2, chemistry) is None
    assert charge_band(12.95, chemistry, 0.1) is None
    assert charge_band(12.8, chemistry) is not None


@pytest.mark.parametrize("volts", [12.9, 13.0, 13.1, 13.2, 13.3])
def test_voltage_cannot_tell_lithium_iron_phosphate(volts: float) -> None:
    """12.9 to 13.3 V over most of its capacity (found)."""
    assert charge_band(volts, "lifepo4") is None


def test_the_ends_of_lithium_iron_phosphate() -> None:
    """Nearly full from 13.4 V, nearly empty under 12.5 V (as told by sellers' charts); the meter's error counts."""
    assert LITHIUM_LEVEL == (12.9, 13.3)
    assert charge_band(13.45, "lifepo4") == (90, 100)
    assert charge_band(12.0, "lifepo4") == (0, 20)
    assert charge_band(13.45, "lifepo4", 0.1) is None
    assert charge_band(12.45, "lifepo4", 0.1) is None


def test_absorbed_glass_mat_rests_higher() -> None:
    """The same voltage is less charge than in a flooded battery (two tables, found)."""
    flooded, agm = charge_band(12.4, "flooded"), charge_band(12.4, "agm")
    assert flooded is not None
    assert agm is not None
    assert agm[0] < flooded[0]
    assert agm[1] < flooded[1]


@pytest.mark.parametrize(("volts", "chemistry"), [(24.0, "flooded"), (3.2, "lifepo4"), (12.6, "gel")])
def test_another_battery_is_refused_in_one_line(volts: float, chemistry: str) -> None:
    """24 V, a single cell, and a chemistry without a table say what can be."""
    with pytest.raises(ValueError, match=r"can\.|are\."):
        charge_band(volts, chemistry)


@given(volts=st.floats(8, 16), chemistry=st.sampled_from(CHEMISTRIES))
def test_what_is_there_and_what_is_gone_for_certain_are_the_ends_of_the_band(
    volts: float, chemistry: str
) -> None:
    """They never add up to more than a full battery; where the voltage cannot tell both are 0."""
    band = charge_band(volts, chemistry)
    there, gone = charge_at_least(chemistry)(volts), used_at_least(chemistry)(volts)
    assert (there, 100 - gone) == pytest.approx(band or (0, 100))
    assert there + gone <= 100


@pytest.mark.parametrize("volts", [12.9, 13.1, 13.3])
def test_nothing_is_certain_of_lithium_in_the_middle(volts: float) -> None:
    """12.9 to 13.3 V over most of its capacity (found): neither half full nor half empty is shown."""
    assert charge_at_least("lifepo4")(volts) == used_at_least("lifepo4")(volts) == 0
