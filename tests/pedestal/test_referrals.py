"""Each fault in the trees that somebody with it would begin: whom they call first, and that nobody is let into use.

What shows at the park's outlet with nothing of ours in it is the park's, what is ours the electrician's. Where the two
cannot be told apart, or the outlet endangers the next guest, the park comes first (common practice).
"""

from __future__ import annotations

import pytest

from shorewalk.pedestal.faults import shipped_faults
from shorewalk.pedestal.trial import Trial
from shorewalk.tree.library import shipped
from shorewalk.walk.meter import parse_meter

FAULTS = shipped_faults()
METER = parse_meter("basic,tenths")
CASES = [(fault.id, tree) for fault in FAULTS.values() for tree in fault.trees]

EITHER = {
    ("plug-contact-worn", "hot-plug"): "heat where plug and outlet meet; marks on the plug alone tell",
    ("plug-contact-worn", "lights-dim"): "a sag only through our plug is the outlet's contact or our plug's",
    ("inlet-contact-burnt", "lights-dim"): "the same",
    ("inlet-contact-burnt", "hot-plug"): "a smell of burning: hands off, and the park switches the loop off",
    ("cord-hot-broken", "no-power"): "without a protector nobody knows how far the power came",
    ("cord-hot-broken", "half-power"): "the same for one leg",
    ("cord-neutral-broken", "no-power"): "the same",
    ("cord-neutral-broken", "some-bright"): "a neutral fails somewhere, most often the park's",
    ("transfer-stuck", "no-power"): "without a protector nobody knows how far the power came",
    ("overload", "breaker-trips"): "less is to run; the park's where plug or breaker got warm",
    ("heater-leaky", "ground-fault-trips"): "its circuit stays off, and the rest ends in use",
    ("cord-ground-broken", "tingle"): "nobody has proved the outlet's ground yet",
    ("leak-without-ground", "tingle"): "the same",
    ("metal-unbonded", "tingle"): "the same",
}
"""Faults of ours that may call the park first, and why."""


@pytest.mark.parametrize(("fault", "tree"), CASES)
def test_each_fault_calls_somebody_fit_for_it(fault: str, tree: str) -> None:
    """The park for what is the park's; the electrician for what is ours, but where the table says why not."""
    tried = list(Trial(shipped(), tree, METER, 2).of(FAULTS[fault], felt=True))
    assert tried, "at some outlet somebody has reason to begin this tree"
    fitting = {"park"} if FAULTS[fault].side == "park" else {"electrician"}
    if (fault, tree) in EITHER:
        fitting |= {"park", "electrician"}
    for one in tried:
        assert one.walk.ended
        assert one.end.call in fitting, f"{one.outlet}, {one.seed}: {one.end.at}"
        assert not (one.used and FAULTS[fault].danger != "none"), one.end.at


def test_every_exception_is_one_that_is_tried() -> None:
    """None in vain: it names a fault of ours and a tree that somebody with it begins."""
    assert set(EITHER) <= set(CASES)
    assert {FAULTS[fault].side for fault, _ in EITHER} == {"cord", "rig"}


def test_faults_of_cord_and_rig_have_a_tree_to_begin_with() -> None:
    """Whoever has one complains of something that a tree is for."""
    assert [fault.id for fault in FAULTS.values() if fault.side != "park" and not fault.trees] == []


def test_a_load_that_was_taken_off_does_not_trip_again() -> None:
    """Too much ran; told to leave some of it off, the walk comes to use, or calls the park for a warm plug."""
    ends = {
        one.end.at for one in Trial(shipped(), "breaker-trips", METER, 6).of(FAULTS["overload"], felt=True)
    }
    assert "hot_outlet" in ends
    assert any(at.startswith("ready") for at in ends)
