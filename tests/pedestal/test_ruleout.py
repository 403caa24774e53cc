"""What readings rule out: the true fault is kept, what cannot be is not, and nothing depends on the order of asking."""

from __future__ import annotations

import numpy as np
import pytest

from shorewalk.pedestal.circuit import LOW_IMPEDANCE_OHMS, METER_OHMS
from shorewalk.pedestal.faults import NOTHING, shipped_faults
from shorewalk.pedestal.ruleout import RuleOut
from shorewalk.pedestal.ruleout.left import hypotheses_of
from shorewalk.pedestal.ruleout.seen import PLACES, Seen, Watcher
from shorewalk.pedestal.ruleout.table import Table
from shorewalk.pedestal.ruleout.variants import mesh_of, spread
from shorewalk.pedestal.stand import Switched
from shorewalk.pedestal.trial import Trial
from shorewalk.ruling import also_possible
from shorewalk.tree.library import shipped
from shorewalk.walk.answers import Read
from shorewalk.walk.message import ending
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import Walk, resume

METER = parse_meter("basic,tenths")
FEW = 90
"""Variants of each hypothesis: what is held here holds of few as of many."""


def walked(fault: str, outlet: str) -> Walk:
    """Return the walk of somebody honest at a fresh variant of a fault."""
    known = NOTHING if fault == NOTHING.id else shipped_faults()[fault]
    return next(
        one.walk for one in Trial(shipped(), "arrival", METER, 1, 5).of(known) if one.outlet == outlet
    )


def until(walk: Walk, readings: int) -> Walk:
    """Return a walk as it was after so many readings."""
    at = [n for n, one in enumerate(walk.answers, 1) if isinstance(one.answer, Read)][readings - 1]
    return resume(walk.library, walk.tree, METER, walk.answers[:at])[0]


SITUATIONS = (
    Switched(breaker=True),
    Switched(breaker=False),
    Switched(breaker=True, load="pedestal-20", load_on=True),
    Switched(breaker=True, cord="30", main=True, branches="test-only", load="rig", load_on=True),
)
PAIRS = (("30.L", "30.N"), ("30.N", "30.G"), ("30.G", "peg"), ("inlet.N", "inlet.G"), ("skin", "peg"))


@pytest.mark.parametrize("now", SITUATIONS)
def test_the_mesh_reads_what_nodal_analysis_reads(now: Switched) -> None:
    """Taking nodes out one by one gives the volts of the solver that is held to ngspice, for each fault."""
    blocks = spread(hypotheses_of(shipped_faults(), ("30",)), ("30",), 9)
    mesh = mesh_of(blocks, now)
    mesh.reduce({node for pair in PAIRS for node in pair})
    compared, end = 0, 0
    for block in blocks:
        at = slice(end, end := end + block.size)
        if block.wiring.tripped or block.wiring.hypothesis.fault.idle:
            continue
        solved = block.stand.wired(now).solve()
        for a, b in PAIRS:
            if {a, b} <= solved.at.keys():
                for ohms in (METER_OHMS, LOW_IMPEDANCE_OHMS):
                    got = np.abs(mesh.across(a, b, ohms).sum(axis=0))[at]
                    assert got == pytest.approx(solved.read(a, b, ohms), rel=1e-3, abs=1e-3)
                    compared += 1
    assert compared > 500


@pytest.mark.parametrize(
    ("fault", "outlet"),
    [
        ("nothing", "30"),
        ("neutral-loose", "30"),
        ("false-ground", "30"),
        ("neutral-open-upstream", "50"),
        ("hot-contact-burnt", "50"),
        ("cord-short", "30"),
        ("breaker-trips-at-once", "20"),
    ],
)
def test_the_true_fault_stays_possible(fault: str, outlet: str) -> None:
    """After the whole routine at a variant that is not in the table, what is wrong is still possible."""
    left = RuleOut(shipped_faults()).follow(walked(fault, outlet))
    assert fault in [one.id for one in left.possible]
    assert len(left.possible) + len(left.out) == len(shipped_faults()) + 1


def test_a_sound_outlet_rules_out_what_its_slots_would_show() -> None:
    """Sound readings through the whole routine leave none of the faults that any of them would have shown."""
    left = RuleOut(shipped_faults()).follow(walked("nothing", "30"))
    out = {one.id for one in left.out}
    assert out >= {
        "neutral-open", "ground-open", "reversed", "swapped", "false-ground", "wired-for-240", "live-but-looks-dead",
        "neutral-loose-upstream", "neutral-contact-burnt", "ground-live", "metal-unbonded",
    }  # fmt: skip
    assert "neutral-ground-swapped" not in out, "which no reading can tell"


def test_before_any_reading_everything_is_possible() -> None:
    """Looks and steps alone rule out nothing but what this outlet cannot have."""
    walk = walked("nothing", "30")
    first = next(n for n, one in enumerate(walk.answers) if isinstance(one.answer, Read))
    left = RuleOut(shipped_faults(), FEW).follow(
        resume(walk.library, walk.tree, METER, walk.answers[:first])[0]
    )
    assert {one.id for one in left.out} == {f.id for f in shipped_faults().values() if "30" not in f.outlets}


def test_taking_an_answer_back_leaves_what_was_left_before_it() -> None:
    """An engine that saw more readings and one that never did say the same of the same walk."""
    walk = walked("neutral-loose", "30")
    engine = RuleOut(shipped_faults(), FEW)
    engine.follow(walk)
    earlier = until(walk, 6)
    assert engine.follow(earlier) == RuleOut(shipped_faults(), FEW).follow(earlier)


def test_readings_that_no_single_fault_gives_leave_nothing() -> None:
    """Hot to neutral 120 V, hot to ground 60 V and neutral to ground 0 V break the triangle: none gives them."""
    table = Table(spread(hypotheses_of(shipped_faults(), ("30",)), ("30",), FEW), METER.percent / 100)
    now = Switched(breaker=True)
    for one, other, volts in (("L", "N", 120.0), ("L", "G", 60.0), ("N", "G", 0.0)):
        assert table.hypotheses
        table.take(
            Seen("pedestal-30", one, other, now, low_impedance=False, low=volts - 0.5, high=volts + 0.5)
        )
    assert table.hypotheses == set()


def test_a_reading_through_a_protector_that_has_not_closed_tells_nothing() -> None:
    """Nothing at a rig outlet while the protector refuses: that is the protector's doing, and no evidence."""
    walk = walked("neutral-open-upstream", "50")
    seen = Watcher().see(walk)
    closed = any(
        a.at.endswith("state") and getattr(a.answer, "choice", "") == "connected" for a in walk.answers
    )
    assert closed or not any(one.place.startswith("rig-outlet") for one in seen)


def test_what_would_tell_is_a_reading_that_splits_what_is_left() -> None:
    """After the idle slots of a sound outlet the loaded readings are left to tell, and one of them is named."""
    engine = RuleOut(shipped_faults(), FEW)
    walk = until(walked("nothing", "30"), 10)
    left = engine.follow(walk)
    telling = engine.what_would_tell(walk)
    assert telling is not None
    assert "load on" in telling.says
    assert 1 <= telling.left < len(left.possible)


def test_an_ending_is_told_the_dangers_that_it_does_not_name() -> None:
    """What is possible by the readings and dangerous stands at the end, unless the ending names it itself."""
    walk = walked("nothing", "30")
    left = RuleOut(shipped_faults()).follow(walk)
    end, site = ending(walk), walk.library.site
    also = also_possible(end, left, site)
    every = {left.in_words(fault): fault for fault in left.possible}
    assert also
    for words in also:
        fault = every[words]
        assert fault.danger != "none"
        assert not fault.named_in(end, site)
    named = [f for f in left.possible if f.danger != "none" and f.named_in(end, site)]
    assert named
    assert not {left.in_words(fault) for fault in named} & {*also}


@pytest.mark.parametrize("loaded", [118.0, 117.0, 116.0, 115.0])
def test_a_bad_joint_is_not_ruled_out_while_it_may_be_mild(loaded: float) -> None:
    """A fall of 3 to 6 V with one heater on leaves burnt contacts possible: 0.15 ohm is 23 W in the plug."""
    wanted = ("hot-contact-burnt", "neutral-contact-burnt", "plug-contact-worn")
    faults = {name: shipped_faults()[name] for name in wanted}
    table = Table(spread(hypotheses_of(faults, ("30",)), ("30",), 400), METER.percent / 100)
    idle = Switched(breaker=True, cord="30", main=True, branches="test-only")
    heated = Switched(breaker=True, cord="30", main=True, branches="test-only", load="rig", load_on=True)
    for now, volts in ((idle, 121.4), (heated, loaded)):
        reading = Seen("rig-outlet-a", "L", "N", now, low_impedance=False, low=volts - 0.5, high=volts + 0.5)
        table.take(reading)
    assert {hypothesis.name for hypothesis in table.hypotheses} >= set(wanted)


def test_a_place_that_no_circuit_has_tells_nothing() -> None:
    """A reading at the end of a cord, or at a place of somebody's own, is no evidence here."""
    walk = walked("nothing", "30")
    kept = Watcher().see(walk)
    assert kept
    assert {one.place for one in kept} <= PLACES


def test_looking_ahead_changes_nothing() -> None:
    """What is worked out while somebody measures leaves the same faults as what is worked out afterwards."""
    walk = walked("neutral-loose", "30")
    ahead, plain = RuleOut(shipped_faults(), FEW), RuleOut(shipped_faults(), FEW)
    for readings in range(1, 13):
        now = until(walk, readings)
        assert ahead.follow(now) == plain.follow(now)
        ahead.look_ahead(now)
