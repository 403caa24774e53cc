"""Which band or row a number falls in, when the meter could be off."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from shorewalk.tree.facts import Cut, Limit, Site
from shorewalk.walk.interval import Amount, of_reading
from shorewalk.walk.judge import condemns, condition_met, judge_bands
from shorewalk.walk.meter import Meter
from shorewalk.walk.reading import Reading

if TYPE_CHECKING:
    from tests.walk.conftest import Make


def shown(value: float, meter: Meter) -> Amount:
    return of_reading("t/n", Reading(str(value), value, value, value, "V"), meter, "ac-volts")


def hot_neutral(site: Site, value: float, meter: Meter) -> str | None:
    return judge_bands(site.quantities["hot-neutral"].floor, shown(value, meter), site.limits).grade


# Two kinds of cut, common practice: a basic meter (1.2 % + 5) with tenths; computed from ANSI C84.1-2020.
@pytest.mark.parametrize(
    ("value", "grade"),
    [
        (0.0, "stop"),
        (103.9, "stop"),
        (105.7, "stop"),
        (105.8, "watch"),
        (110.0, "watch"),
        (113.9, "watch"),
        (114.0, "ok"),
        (120.0, "ok"),
        (126.0, "ok"),
        (126.1, "watch"),
        (127.4, "watch"),
        (128.0, "watch"),
        (128.1, "stop"),
        (243.0, "stop"),
    ],
)
def test_basic_meter_stops_watches_passes(site: Site, basic: Meter, value: float, grade: str) -> None:
    """Hot to neutral stops to 105.7, watches to 113.9, passes to 126.0, watches to 128.0, else stops."""
    assert hot_neutral(site, value, basic) == grade


def test_every_tenth_falls_once(site: Site, basic: Meter) -> None:
    """Over the whole line the grades come in the order stop, watch, ok, watch, stop, without a gap."""
    grades = [hot_neutral(site, tenth / 10, basic) for tenth in range(3000)]
    runs = [grade for at, grade in enumerate(grades) if at == 0 or grades[at - 1] != grade]
    assert runs == ["stop", "watch", "ok", "watch", "stop"]


@pytest.mark.parametrize(
    ("value", "under", "over"), [(103.9, True, True), (106.0, False, True), (101.0, True, False)]
)
def test_hazard_counts_on_both_sides(
    *, site: Site, basic: Meter, value: float, under: bool, over: bool, make: Make
) -> None:
    """At a hazard limit every side that the interval touches is possible."""
    amount = shown(value, basic)
    row = make.row("x", "n below low", "n from low")
    assert condition_met(row.when[0], amount, site.limits) is under
    assert condition_met(row.when[1], amount, site.limits) is over


@pytest.mark.parametrize(("value", "passes"), [(113.9, False), (114.0, True), (114.1, True)])
def test_supply_counts_as_shown(*, site: Site, basic: Meter, value: float, passes: bool, make: Make) -> None:
    """At a supply limit the value as shown decides (t - e, t, t + e of ANSI C84.1-2020 service A low)."""
    row = make.row("x", "n from service-a-low")
    assert condition_met(row.when[0], shown(value, basic), site.limits) is passes


def test_supply_near_the_edge_is_told(site: Site, basic: Meter) -> None:
    """A supply limit within the interval is told, with how far the meter could be off."""
    judged = judge_bands(site.quantities["hot-neutral"].floor, shown(114.5, basic), site.limits)
    assert judged.notes == ("Close to the edge; your meter could be off by 1.9 V.",)
    far = judge_bands(site.quantities["hot-neutral"].floor, shown(120.0, basic), site.limits)
    assert far.notes == ()


def test_worse_grade_is_told(site: Site, basic: Meter) -> None:
    """Where doubt was settled the cautious way, the note says so and by how much."""
    judged = judge_bands(site.quantities["hot-neutral"].floor, shown(105.0, basic), site.limits)
    assert judged.grade == "stop"
    assert judged.notes == ("The worse grade was taken: your meter could be off by 1.8 V.",)


def test_again_ranks_between_watch_and_stop(site: Site, basic: Meter, make: Make) -> None:
    """A reading that may be a stop or read afresh is a stop; one that may be watched is read afresh."""
    stop = [make.band("a stop below no-voltage"), make.band("b again")]
    watch = [make.band("a watch below no-voltage"), make.band("b again")]
    assert judge_bands(stop, shown(5.2, basic), site.limits).grade == "stop"
    assert judge_bands(watch, shown(4.9, basic), site.limits).grade == "again"


def test_own_band_wins_a_tie(site: Site, basic: Meter, make: Make) -> None:
    """Of two bands with the same grade, the one that holds the value as shown is taken."""
    bands = [make.band("under stop below no-voltage"), make.band("over stop")]
    for value, goto in ((4.9, "under"), (5.1, "over")):
        way = judge_bands(bands, shown(value, basic), site.limits).way
        assert way is not None
        assert way.goto == goto


def test_unknown_value_and_limit_take_the_worst(site: Site, basic: Meter) -> None:
    """Not a number, or a limit nobody wrote, leaves every band possible."""
    nothing = Amount(float("nan"), "V", (float("-inf"), float("inf")), (float("-inf"), float("inf")))
    assert judge_bands(site.quantities["neutral-ground"].floor, nothing, site.limits).grade == "danger"
    cuts = (Cut("ok", below="never-written"), Cut("stop"))
    assert judge_bands(cuts, shown(1.0, basic), site.limits).grade == "stop"


def test_wandering_supply_counts_at_both_ends(site: Site, basic: Meter) -> None:
    """A display that wanders over a supply limit is on both sides of it."""
    amount = of_reading("t/n", Reading("112-116", 114.0, 112.0, 116.0, "V"), basic, "ac-volts")
    assert judge_bands(site.quantities["hot-neutral"].floor, amount, site.limits).grade == "watch"


def test_surely_out_of_order_takes_all_between(basic: Meter) -> None:
    """Limits of two kinds that contradict each other leave every band between them possible."""
    limits = {
        "sure": Limit("sure", 126, "V", "surely", "", ""),
        "supply": Limit("supply", 126.5, "V", "supply", "", ""),
    }
    cuts = (Cut("stop", below="sure"), Cut("watch", below="supply"), Cut("ok"))
    assert judge_bands(cuts, shown(127.0, basic), limits).grade == "stop"


def test_what_a_meter_shows_beyond_a_number_is_over_however_coarse_it_is(basic: Meter, whole: Meter) -> None:
    """`shown` of a `surely` limit: doubt about 126 V lets nothing pass beyond 128 V, nor what wanders there."""
    limits = {"high": Limit("high", 126, "V", "surely", "", "", 128)}
    cuts = (Cut("watch", upto="high"), Cut("stop"))
    for meter in (basic, whole):
        grades = [
            judge_bands(cuts, shown(value, meter), limits).grade for value in (127.0, 128.0, 129.0, 140.0)
        ]
        assert grades == ["watch", "watch", "stop", "stop"]
    wanders = of_reading("t/n", Reading("126-129", 127.5, 126.0, 129.0, "V"), whole, "ac-volts")
    assert judge_bands(cuts, wanders, limits).grade == "stop"
    finer = Meter("fine", 0.1, 1, tenths=True)
    assert judge_bands(cuts, shown(126.5, finer), limits).grade == "stop"


def test_a_supply_limit_that_is_passed_does_not_clear_a_hazard_below_it(basic: Meter, whole: Meter) -> None:
    """109 V with whole volts may be under 104 V, however much 108 V is passed as shown."""
    limits = {
        "least": Limit("least", 104, "V", "hazard", "", ""),
        "low": Limit("low", 108, "V", "supply", "", ""),
    }
    cuts = (Cut("stop", below="least"), Cut("watch", below="low"), Cut("ok"))
    assert [judge_bands(cuts, shown(value, whole), limits).grade for value in (109.0, 110.0, 111.0)] == [
        "stop",
        "stop",
        "ok",
    ]
    assert judge_bands(cuts, shown(108.0, basic), limits).grade == "ok"


@pytest.mark.parametrize(("value", "condemned"), [(9.0, False), (10.2, True), (60.0, True)])
def test_condemned_only_for_certain(*, site: Site, whole: Meter, value: float, condemned: bool) -> None:
    """A coarse meter condemns only when its whole interval is a stop."""
    assert condemns(site.quantities["neutral-ground"].floor, shown(value, whole), site.limits) is condemned
