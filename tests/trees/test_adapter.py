"""Adapters and extensions: what may run, what a cord takes away, and what is never joined."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.walk.answers import Answer, Cannot, Choose, Running, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]


def joins(kind: str, where: str = "in", **given: Answer) -> dict[str, Answer]:
    """Return the answers of somebody with such an adapter; `__` in a name stands for a point."""
    told: dict[str, Answer] = {"which": Choose(kind), "where": Choose(where)}
    return told | {at.replace("__", "."): answer for at, answer in given.items()}


def running(**loads: int) -> Running:
    return Running(tuple((name.replace("_", "-"), count) for name, count in loads.items()))


def extends(feed: str, gauge: str, length: str, loads: Answer, where: str = "in") -> dict[str, Answer]:
    told = {"feed": Choose(feed), "gauge": Choose(gauge), "length": Choose(length)}
    sums = {f"ext_{amps}.loads": loads for amps in ("30", "20", "15")}
    return joins("extension", where) | told | sums


CHARGER, HEATER, AIR = running(converter=1), running(space_heater=1), running(air_conditioner=1)
TOO_MUCH = running(air_conditioner=2, water_heater=1)


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # whom to call first is common practice; never two outlets joined, never a ground left out
        (joins("rig-50-at-30", plan_30__loads=AIR), "leave_30", "leave-as-is", "park"),
        (joins("rig-50-at-30", plan_30__loads=TOO_MUCH), "too_much", "leave-as-is", "park"),
        (joins("rig-50-at-30", plan_30__loads=Unsure()), "too_much", "leave-as-is", "park"),
        (joins("at-20", plan_20__loads=CHARGER), "leave_20", "leave-as-is", "park"),
        (joins("at-house", plan_15__loads=CHARGER), "leave_house", "leave-as-is", "electrician"),
        (joins("at-house", "out", plan_15__loads=CHARGER), "house_plan", "unplugged", "electrician"),
        (joins("rig-30-at-50", "out", use_the_30=Cannot()), "no_30", "stay-unplugged", "park"),
        (joins("rig-30-at-50", "in", use_the_30=Cannot()), "no_30", "stay-unplugged", "park"),
        (joins("two-outlets", "in"), "two_outlets", "stay-unplugged", "park"),
        (joins("two-outlets", "out"), "two_outlets", "stay-unplugged", "park"),
        (joins("two-outlets", "in", both_out=Cannot()), "still_in", "hands-off", "park"),
        (joins("no-ground", "in"), "no_ground", "stay-unplugged", "electrician"),
        (joins("no-ground", "out", shut_bad__main_off=Cannot()), "never_in", "hands-off", "park"),
        (joins("no-ground", "in", shut_bad__main_off=Cannot()), "not_shut_in", "unplug-now", "park"),
        (joins("no-ground", "in", post_bad__look__weather=Choose("rain")), "wait_in", "hands-off", "park"),
        (
            joins("at-20", "out", plan_20__loads=CHARGER, shut__main_off=Cannot()),
            "not_shut_out",
            "leave-as-is",
            "electrician",
        ),
        (joins("two-outlets", "out") | {"which": Unsure()}, "not_known", "stay-unplugged", "park"),
        (extends("30", "10", "50", AIR), "leave_extension", "leave-as-is", "park"),
        (extends("30", "12", "25", AIR), "too_thin", "stay-unplugged", "park"),
        (extends("50", "10", "25", AIR, "out"), "too_thin", "stay-unplugged", "park"),
        (extends("20", "14", "25", CHARGER), "too_thin", "stay-unplugged", "park"),
        (extends("house", "16", "25", CHARGER), "house_cord_in", "unplug-now", "electrician"),
        (extends("house", "14", "longer", CHARGER, "out"), "house_cord", "stay-unplugged", "electrician"),
        (extends("house", "12", "25", AIR), "leave_house", "leave-as-is", "electrician"),
        (joins("at-house", plan_15__loads=TOO_MUCH), "house_too_much", "leave-as-is", "electrician"),
        (extends("20", "12", "longer", CHARGER, "out"), "too_long", "stay-unplugged", "park"),
        (extends("20", "12", "100", Unsure(), "out"), "too_long", "stay-unplugged", "park"),
    ],
)
def test_what_may_stay_and_what_comes_out(
    go: Go, given: dict[str, Answer], at: str, verdict: str, call: str
) -> None:
    """A smaller outlet carries less; a cord no breaker protects, joined outlets and a lost ground come out."""
    end = ending(go("adapter", given))
    assert (end.at, end.verdict, end.call) == (at, verdict, call)
    assert not end.lowered


@pytest.mark.parametrize(
    ("cord", "loads", "volts", "goes"),
    [  # 2 x R x L x I, stranded copper of NEC Chapter 9 Table 8; 3 % and 5 % of 120 V (informational notes)
        (("14", "50"), CHARGER, 2 * 0.157 * 875 / 120, "fine"),
        (("14", "50"), HEATER, 2 * 0.157 * 1400 / 120, "some"),
        (("14", "100"), CHARGER, 2 * 0.314 * 875 / 120, "some"),
        (("14", "100"), HEATER, 2 * 0.314 * 1400 / 120, "too_much"),
        (("12", "100"), HEATER, 2 * 0.198 * 1400 / 120, "some"),
        (("10", "100"), HEATER, 2 * 0.124 * 1400 / 120, "fine"),
    ],
)
def test_volts_lost_by_gauge_and_length(
    go: Go, cord: tuple[str, str], loads: Answer, volts: float, goes: str
) -> None:
    """Up to 3 % is fine, up to 5 % without the air conditioner, and more does not go in."""
    walk = go("adapter", extends("house", *cord, loads))
    lost = next(known for known in walk.now.worked_all if known.out == "cord-drop")
    assert lost.value == pytest.approx(volts, rel=1e-3)
    order = [answered.at for answered in walk.answers]
    assert ("less" in order) == (goes == "some")
    assert ending(walk).at == ("house_cord_in" if goes == "too_much" else "leave_house")


@pytest.mark.parametrize(
    "given",
    [
        joins("rig-50-at-30", "out", plan_30__loads=AIR),
        joins("rig-30-at-50", "out"),
        joins("rig-30-at-50", "in"),
        joins("at-20", "out", plan_20__loads=CHARGER),
        extends("30", "10", "25", AIR, "out"),
    ],
)
def test_what_goes_in_is_measured_first(go: Go, given: dict[str, Answer]) -> None:
    """Whatever may go in goes on in arrival, rig off and cord out; nothing is plugged in before."""
    walk = go("adapter", given)
    assert walk.now.tree == "arrival"
    assert (walk.now.state["cord"], walk.now.state["rig-main"]) == ("unplugged", "off")


def test_two_joined_outlets_go_dead_together(go: Go) -> None:
    """Both breakers go off before either plug moves, for its pins are live through the other one."""
    order = [answered.at for answered in go("adapter", joins("two-outlets", "in")).answers]
    back = ["shut_bad.main_off", "both_off", "both_out"]
    assert [at for at in order if at in back] == back


@pytest.mark.parametrize("answer", [Choose("yes"), Unsure()])
def test_a_tingle_without_a_ground_goes_on_in_its_own_tree(go: Go, answer: Answer) -> None:
    """Plugged in without a ground the rig's metal may be live, so a tingle is asked for before anybody goes to it."""
    walk = go("adapter", joins("no-ground", "in", felt=answer), until="tingle")
    assert (walk.now.tree, walk.now.worst) == ("tingle", "danger")
