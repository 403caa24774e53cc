"""Wire against the tables of three standards. NEC Chapter 9 Table 8 and IEC 60228 as quoted (found)."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest

from shorewalk.electrics.conductors import (
    CLASS_5,
    class_5_per_1000_ft,
    gauge_mm2,
    ohms_per_1000_ft,
    warmed,
)

AWG = (
    # AWG, diameter in inches (ASTM B258), ohm/1000 ft at 20 C solid; then NEC Chapter 9 Table 8 for
    # 75 C and uncoated copper, solid and stranded (found)
    (14, 0.06408, 2.525, 3.07, 3.14),
    (12, 0.08081, 1.588, 1.93, 1.98),
    (10, 0.1019, 0.9989, 1.21, 1.24),
    (8, 0.1285, 0.6282, 0.764, 0.778),
    (6, 0.1620, 0.3951, None, 0.491),
    (4, 0.2043, 0.2485, None, 0.308),
    (2, 0.2576, 0.1563, None, 0.194),
)
SOLID = [(gauge, solid) for gauge, _, _, solid, _ in AWG if solid]


@pytest.mark.parametrize(("gauge", "inches"), [row[:2] for row in AWG])
def test_the_diameter_is_that_of_the_gauge(gauge: int, inches: float) -> None:
    """ASTM B258: d = 0.127 mm x 92^((36 - n)/39), within the four digits of its table."""
    assert gauge_mm2(gauge) == pytest.approx(math.pi / 4 * (inches * 25.4) ** 2, rel=1e-3)


@pytest.mark.parametrize(("gauge", "cold"), [(row[0], row[2]) for row in AWG])
def test_the_ohms_at_20_c(gauge: int, cold: float) -> None:
    """Solid annealed copper, IACS (IEC 60028; NBS Handbook 100), within 0.1 %."""
    assert ohms_per_1000_ft(gauge_mm2(gauge), 20, lay=1) == pytest.approx(cold, rel=1e-3)


@pytest.mark.parametrize(("gauge", "warm"), SOLID)
def test_solid_wire_meets_table_8(gauge: int, warm: float) -> None:
    """NEC Chapter 9 Table 8, solid, 75 C, within 0.5 %: this confirms the coefficient 0.00393/K (a handbook, found)."""
    assert ohms_per_1000_ft(gauge_mm2(gauge), 75, lay=1) == pytest.approx(warm, rel=5e-3)


@pytest.mark.parametrize(("gauge", "warm"), [(row[0], row[4]) for row in AWG])
def test_stranded_wire_meets_table_8(gauge: int, warm: float) -> None:
    """NEC Chapter 9 Table 8, stranded, 75 C, within 0.5 %: this confirms the 2 % for the lay (memory)."""
    assert ohms_per_1000_ft(gauge_mm2(gauge)) == pytest.approx(warm, rel=5e-3)


def test_sizes_fall_on_one_line_of_logarithms() -> None:
    """Least squares through Table 8 (numpy): three gauges double the ohms, by 92^(2/39) each gauge."""
    gauges = np.array([row[0] for row in AWG], dtype=float)
    slope, _ = np.polyfit(gauges, np.log([row[4] for row in AWG]), 1)
    ours, _ = np.polyfit(gauges, np.log([ohms_per_1000_ft(gauge_mm2(each)) for each in gauges]), 1)
    assert ours == pytest.approx(2 * math.log(92) / 39, rel=1e-9)
    assert ours == pytest.approx(float(slope), rel=2e-3)


@pytest.mark.parametrize(("gauge", "warm"), [(12, 3.25), (8, 1.28), (6, 0.808), (4, 0.508), (0, 0.201)])
def test_aluminum_meets_table_8(gauge: int, warm: float) -> None:
    """NEC Chapter 9 Table 8, aluminum stranded, 75 C (from memory), within 1 %."""
    assert ohms_per_1000_ft(gauge_mm2(gauge), 75, "aluminum") == pytest.approx(warm, rel=1e-2)


@pytest.mark.parametrize(
    ("mm2", "most"), [(1.5, 13.3), (2.5, 7.98), (4, 4.95), (6, 3.30), (10, 1.91), (16, 1.21)]
)
def test_flexible_cord_has_the_most_that_class_5_allows(mm2: float, most: float) -> None:
    """IEC 60228 class 5 at 20 C, ohm/km (found): our table, and no less than ideal copper of that area."""
    assert class_5_per_1000_ft(mm2, 20) / 0.3048 == pytest.approx(most)
    ideal = 1000 / 58 / mm2
    assert 0.85 < ideal / most < 0.95, "a maximum leaves room for strands that are fewer or thinner"
    assert len(CLASS_5) == 6


def test_copper_grows_by_a_fifth_from_cold_to_warm() -> None:
    """20 to 75 C multiplies by 1.2162 (computed; NEC Table 8 over the ohms at 20 C); below zero it falls."""
    assert warmed(1, 75) == pytest.approx(1.2162, rel=1e-4)
    assert warmed(1, -10) == pytest.approx(1 - 30 * 0.00393)


REFUSED: tuple[tuple[Callable[[], float], str], ...] = (
    (lambda: gauge_mm2(30), "-3 to 18 AWG can"),
    (lambda: gauge_mm2(-4), "-3 to 18 AWG can"),
    (lambda: ohms_per_1000_ft(0), "more than 0 mm2"),
    (lambda: ohms_per_1000_ft(math.nan), "more than 0 mm2"),
    (lambda: ohms_per_1000_ft(5, 400), "-40 to 150 C can"),
    (lambda: ohms_per_1000_ft(5, 20, "gold"), "copper or aluminum"),
    (lambda: class_5_per_1000_ft(3), "1.5, 2.5, 4, 6, 10, 16"),
)


@pytest.mark.parametrize(("call", "said"), REFUSED)
def test_what_is_no_wire_is_refused_in_one_line(call: Callable[[], float], said: str) -> None:
    """A gauge, area, temperature or metal outside what is known says what can be."""
    with pytest.raises(ValueError, match=said) as refused:
        call()
    assert "\n" not in str(refused.value)
