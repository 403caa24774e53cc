"""What an extension cord takes away, against the lead tables."""

from __future__ import annotations

import pytest

from shorewalk.electrics.conductors import gauge_mm2, ohms_per_1000_ft
from shorewalk.electrics.extension import TABLE_8, drop_along


@pytest.mark.parametrize(
    ("gauge", "feet", "amps", "volts"),
    [  # 2 x R x L x I, stranded, Table 8 (computed on found)
        (10, 50, 30, 3.72),
        (12, 100, 16, 6.34),
        (14, 50, 15, 4.71),
    ],
)
def test_volts_lost(gauge: int, feet: float, amps: float, volts: float) -> None:
    """Both ways along the cord, by the NEC's table."""
    assert drop_along(gauge, feet)(amps) == pytest.approx(volts, abs=0.01)


@pytest.mark.parametrize("gauge", sorted(TABLE_8))
def test_the_table_is_that_of_a_warm_stranded_copper_wire(gauge: int) -> None:
    """ASTM B258 and IACS copper at 75 C, 2 % longer by the lay, come within 0.5 % of it."""
    assert TABLE_8[gauge] == pytest.approx(ohms_per_1000_ft(gauge_mm2(gauge)), rel=0.005)
