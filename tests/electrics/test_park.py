"""What a loop's feeder is made for: NEC 2017 Table 551.73(A), and three examples worked from it."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from shorewalk.electrics.park import VA_50, connected_va, demand_amps, demand_percent, demand_va

TABLE = (
    # NEC 2017 Table 551.73(A) (found): from this many sites, percent
    (1, 100), (2, 90), (3, 80), (4, 75), (5, 65), (6, 60), (7, 55), (10, 50), (13, 48),
    (16, 47), (19, 45), (22, 43), (25, 42), (36, 41),
)  # fmt: skip


def test_the_whole_table() -> None:
    """Every number of sites from 1 to 60, looked up in the table by numpy."""
    first, percent = np.array(TABLE).T
    for sites in range(1, 61):
        row = int(np.searchsorted(first, sites, side="right")) - 1
        assert demand_percent(sites) == percent[row], sites
    assert demand_percent(500) == 41


def test_28_sites_of_50_amperes() -> None:
    """28 x 12,000 VA at 42 %: 141,120 VA, 588 A at 240 V (found, and computed)."""
    assert demand_va(28, 0, 0) == pytest.approx(141_120)
    assert demand_amps(demand_va(28, 0, 0)) == pytest.approx(588)


def test_a_park_of_three_kinds_of_sites_before_2017() -> None:
    """3 x 9,600 + 30 x 3,600 + 9 x 2,400 = 158,400 VA at 41 %: 64,944 VA (found, and computed)."""
    assert connected_va(3, 30, 9, VA_50["2014"]) == 158_400
    assert demand_va(3, 30, 9, VA_50["2014"]) == pytest.approx(64_944)


def test_20_sites_of_30_amperes() -> None:
    """20 x 3,600 VA at 45 %: 32,400 VA (found, and computed)."""
    assert demand_va(0, 20, 0) == pytest.approx(32_400)


def test_one_site_more_never_asks_for_less() -> None:
    """The factor falls from row to row of the table, the demand does not."""
    demands = [demand_va(0, sites, 0) for sites in range(1, 61)]
    assert all(one < other for one, other in pairwise(demands))


@pytest.mark.parametrize("sites", [0, -3, 2.5, 1e6])
def test_no_park_is_refused_in_one_line(sites: float) -> None:
    """Sites are counted whole, from 1."""
    with pytest.raises(ValueError, match="cannot be"):
        demand_percent(sites)
