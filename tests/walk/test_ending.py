"""Endings: the words, what may still be wrong, and verdicts the evidence does not carry."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from shorewalk.tree.model import Load, Node
from shorewalk.walk.answers import Answer, Choose, Done, Read, Unable
from shorewalk.walk.message import ending, park_message, record_markdown
from shorewalk.walk.meter import Meter
from shorewalk.walk.refused import Refused
from shorewalk.walk.walk import Walk, begin

if TYPE_CHECKING:
    from tests.walk.conftest import Make, Shelf

ON = {"cord": "pedestal-30", "pedestal-breaker": "on", "protector": "fitted", "rig-main": "on"}
SOUND = {
    "ge": "0.3",
    "le": "121.2",
    "ng": "0.4",
    "lg": "121.0",
    "ln": "121.3",
    "a_ln": "119.0",
    "a_ng": "0.9",
    "skin": "0.2",
    "b_ln": "118.0",
    "b_ng": "1.1",
}
PROBES = {
    "ge": "pedestal-30 G earth",
    "le": "pedestal-30 L earth",
    "ng": "pedestal-30 N G",
    "lg": "pedestal-30 L G",
    "ln": "pedestal-30 L N",
    "a_ln": "pedestal-30 L N one-leg",
    "a_ng": "pedestal-30 N G one-leg",
    "skin": "rig-skin skin earth",
    "b_ln": "rig-outlet-a L N one-leg",
    "b_ng": "rig-outlet-a N G one-leg",
}


def full(
    shelf: Shelf, make: Make, meter: Meter, verdict: str = "good-to-use", starts: dict[str, str] | None = None
) -> Walk:
    """A tree that reads everything and then says `verdict`, whatever was read: wrong on purpose."""
    names = list(PROBES)
    nodes: list[Node] = []
    for name, then in zip(names, [*names[1:], "marks"], strict=True):
        place, one, other, *load = PROBES[name].split()
        node = make.measure(name, f"{place} {one} {other}", then, then)
        nodes.append(replace(node, load=Load(*load)) if load else node)
    nodes += [
        make.ask("marks", "burn-marks", {"none": "e", "present": "e"}),
        make.end(
            "e",
            verdict,
            say="[Site {site}: ]We are at the outlet: {readings}.[ Odd: {a_ln} at {never}.]",
            call_when="the voltage falls",
            not_ruled_out=("neutral-loose", "something of our own"),
        ),
    ]
    shelf.add("t", *nodes, starts=ON if starts is None else starts)
    return begin(shelf, "t", meter)


def run(walk: Walk, marks: str = "none", **readings: str) -> Walk:
    """Answer sound readings but for `readings`; an empty one is `unable`."""
    for name in PROBES:
        text = readings.get(name, SOUND[name])
        answer: Answer = Read(text, confirmed=True) if text else Unable()
        walk = walk.answer(answer)
    return walk.answer(Choose(marks))


def test_all_looks_and_nothing_odd_is_good(shelf: Shelf, make: Make, basic: Meter) -> None:
    """With every look held and no grade over ok, the tree's own verdict and words stand."""
    found = ending(run(full(shelf, make, basic)), site="12")
    assert (found.verdict, found.lowered, found.call, found.call_when) == (
        "good-to-use",
        (),
        "park",
        "the voltage falls",
    )
    assert found.say == (
        "Site 12: We are at the outlet: hot to neutral, 30 A outlet 121.3 V; "
        "hot to neutral, 30 A outlet, load on 119.0 V."
    )
    assert len(found.readings) == 10
    assert found.because == "e it is."


def test_what_no_look_shows_is_said_with_every_good_ending(shelf: Shelf, make: Make, basic: Meter) -> None:
    """What the ending adds and what stays hidden are named, in words where there are some, each once."""
    found = ending(run(full(shelf, make, basic)))
    assert found.not_ruled_out == (
        "fault neutral-loose",
        "something of our own",
        "fault ground-open-upstream",
    )


@pytest.mark.parametrize(
    ("skipped", "verdict", "fault"),
    [
        ("ge", "use-with-care", "fault false-ground"),
        ("a_ng", "use-with-care", "fault neutral-loose"),
        ("lg", "unplug-now", "fault reversed"),
        ("b_ln", "unplug-now", "fault hot-contact-burnt"),
        ("skin", "unplug-now", "fault skin-live"),
    ],
)
def test_a_skipped_look_lowers_the_verdict_and_is_named(
    shelf: Shelf, make: Make, basic: Meter, *, skipped: str, verdict: str, fault: str
) -> None:
    """Without earth or Look A: with care; without a pair, Look B or skin: no use; its faults are named."""
    found = ending(run(full(shelf, make, basic), **{skipped: ""}))
    assert found.verdict == verdict
    assert found.lowered
    assert found.lowered[0] in found.because
    assert fault in found.not_ruled_out


def test_watch_is_never_good(shelf: Shelf, make: Make, basic: Meter) -> None:
    """A reading that nothing judged still counts with its least grade: 112 V is no good ending."""
    found = ending(run(full(shelf, make, basic), ln="112.0"))
    assert (found.verdict, found.lowered) == ("use-with-care", ("something needs watching",))


def test_no_protector_is_never_good(shelf: Shelf, make: Make, basic: Meter) -> None:
    """The best verdict needs a protector."""
    walk = full(shelf, make, basic, starts=ON | {"protector": "absent"})
    assert ending(run(walk)).verdict == "use-with-care"


@pytest.mark.parametrize("verdict", ["good-to-use", "use-with-care", "leave-as-is", "unplugged"])
def test_after_a_stop_nothing_allows_use(shelf: Shelf, make: Make, basic: Meter, verdict: str) -> None:
    """After a stop while energised the verdict is to unplug, with the order back as the safe action."""
    found = ending(run(full(shelf, make, basic, verdict), marks="present"))
    assert found.verdict == "unplug-now"
    assert "main breaker" in found.safe_action
    assert found.call_when is None


def test_after_danger_hands_stay_off(shelf: Shelf, make: Make, basic: Meter) -> None:
    """After danger nobody is sent to unplug anything."""
    found = ending(run(full(shelf, make, basic), ng="95.0"))
    assert found.verdict == "hands-off"
    assert "Touch nothing" in found.safe_action


@pytest.mark.parametrize("verdict", ["good-to-use", "use-with-care"])
def test_use_needs_the_rig_plugged_in_and_on(shelf: Shelf, make: Make, basic: Meter, verdict: str) -> None:
    """With the cord out, no ending says use; it says stay unplugged."""
    walk = full(shelf, make, basic, verdict, ON | {"cord": "unplugged"})
    assert ending(run(walk)).verdict == "stay-unplugged"


@pytest.mark.parametrize(
    ("starts", "verdict"),
    [({"cord": "unplugged"}, "stay-unplugged"), ({"cord": "plugged"}, "unplug-now"), ({}, "unplug-now")],
)
def test_unplugged_is_said_only_where_the_cord_is_out(
    shelf: Shelf, make: Make, basic: Meter, starts: dict[str, str], verdict: str
) -> None:
    """An ending that says unplugged while the cord may be in tells to unplug."""
    shelf.add("t", make.step("a", "e"), make.end("e"), starts=starts)
    assert ending(begin(shelf, "t", basic).answer(Done())).verdict == verdict


@pytest.mark.parametrize("verdict", ["emergency", "unplug-now", "hands-off"])
def test_the_safest_verdicts_stand(shelf: Shelf, make: Make, basic: Meter, verdict: str) -> None:
    """The verdicts that follow a stop are never touched."""
    found = ending(run(full(shelf, make, basic, verdict), marks="present"))
    assert (found.verdict, found.lowered, found.safe_action) == (verdict, (), "Stay safe.")


def test_readings_graded_worst_are_those_behind_the_ending(shelf: Shelf, make: Make, basic: Meter) -> None:
    """`{readings}` names what was graded worst, not all."""
    shelf.add(
        "t",
        make.measure("ng", "pedestal-30 N G", "ln"),
        make.measure("ln", "pedestal-30 L N", ["e watch below service-a-low", "e ok"]),
        make.end("e", say="{readings}"),
        starts={"cord": "unplugged", "pedestal-breaker": "on"},
    )
    found = ending(begin(shelf, "t", basic).answer(Read("0.4")).answer(Read("112.0")))
    assert found.say == "Hot to neutral, 30 A outlet 112.0 V. Our cord is out."


def test_no_ending_before_the_end(shelf: Shelf, make: Make, basic: Meter) -> None:
    """A walk that is under way has no ending."""
    with pytest.raises(Refused):
        ending(full(shelf, make, basic))


def test_message_holds_the_words_and_the_readings(shelf: Shelf, make: Make, basic: Meter) -> None:
    """The message is what to say; readings that are not in it follow, then what was done."""
    shelf.add(
        "t",
        make.measure("ln", "pedestal-30 L N", ["e ok"]),
        make.end("e", say="[Site {site}: ]Please look."),
        starts={"cord": "unplugged", "pedestal-breaker": "on"},
    )
    walk = begin(shelf, "t", basic).answer(Read("121.0"))
    told = "Site 7: Please look. Readings: hot to neutral, 30 A outlet 121.0 V. Our cord is out."
    assert park_message(walk, site="7") == told


def test_record_holds_everything(shelf: Shelf, make: Make, basic: Meter) -> None:
    """The record has every question and answer, the meter, the grades, the ending."""
    text = record_markdown(run(full(shelf, make, basic), lg=""), site="12")
    assert "- Site: 12" in text
    assert "basic, 1.2 % + 5 counts, shows tenths" in text
    assert "| 5 |  | Measure AC volts at the 30 A outlet." in text
    assert "| could not be measured |" in text
    assert "## Unplug now" in text
    assert "fault reversed" in text


def test_record_keeps_answers_taken_back_by_later_ones(shelf: Shelf, make: Make, basic: Meter) -> None:
    """A reading asked twice stands in the record both times."""
    shelf.add(
        "t",
        make.measure("ln", "pedestal-30 L N", ["again again below no-voltage", "e ok"]),
        make.step("again", "ln"),
        make.end("e"),
    )
    walk = begin(shelf, "t", basic).answer(Read("0.0"), "18:00").answer(Done()).answer(Read("121.0"), "18:02")
    text = record_markdown(walk)
    assert "| 1 | 18:00 |" in text
    assert "0.0 V (Counts for nothing.)" in text
    assert "121.0 V" in text


def test_an_ending_of_a_broken_tree_is_safe_too(shelf: Shelf, make: Make, basic: Meter) -> None:
    """The ending a walk makes for itself has everything an ending needs."""
    shelf.add("t", make.step("a", "nowhere"))
    found = ending(begin(shelf, "t", basic).answer(Done()))
    assert (found.verdict, found.call, bool(found.safe_action), bool(found.say)) == (
        "unplug-now",
        "park",
        True,
        True,
    )
