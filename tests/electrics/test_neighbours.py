"""What the sites of a loop can explain of a low voltage."""

from __future__ import annotations

import pytest

from shorewalk.electrics.neighbours import beyond_neighbours, feeder_amps
from shorewalk.electrics.park import demand_amps, demand_va


@pytest.mark.parametrize(("sites", "amps"), [(3, 120.0), (9, 247.5), (20, 450.0)])
def test_the_feeder_of_a_loop(sites: int, amps: float) -> None:
    """3, 9 and 20 times 12,000 VA at 80, 55 and 45 % (NEC 2017, Table 551.73(A)), at 240 V (computed)."""
    assert feeder_amps(sites) == pytest.approx(amps)


@pytest.mark.parametrize(("least", "most"), [(1, 3), (4, 9), (10, 20)])
def test_no_loop_of_fewer_or_smaller_sites_takes_more(least: int, most: int) -> None:
    """The most that is taken covers every count up to it, and sites of 30 A."""
    for sites in range(least, most + 1):
        assert feeder_amps(sites) <= feeder_amps(most)
        assert demand_amps(demand_va(0, sites, 0)) <= feeder_amps(most)


def test_what_few_neighbours_cannot_explain() -> None:
    """120 A over 0.05 ohm is 6 V, so 110 V is 4 V lower than three sites can make it, and 116 V is not."""
    beyond = beyond_neighbours(3)
    assert beyond(110, 0.05) == pytest.approx(4)
    assert beyond(116, 0.05) == pytest.approx(-2)
