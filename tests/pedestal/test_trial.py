"""Trees tried on make-believe pedestals: who is let into use, and what a wrong file of faults is told."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from random import Random

import pytest

from shorewalk.exits import Exit
from shorewalk.pedestal.faults import fits, read_faults, shipped_faults, stand_with
from shorewalk.pedestal.park import Park
from shorewalk.pedestal.stand import Switched
from shorewalk.pedestal.told import trial_json, trial_text
from shorewalk.pedestal.trial import Trial
from shorewalk.subcommands import run_command
from shorewalk.tree.library import shipped
from shorewalk.tree.source import TreeError
from shorewalk.walk.meter import parse_meter

METER = parse_meter("basic,tenths")


def test_no_fault_is_let_into_use_unnamed() -> None:
    """Every fault at every outlet that can have it: no use, or it is named, what is ours as well."""
    tried = list(Trial(shipped(), "arrival", METER, 1).walks(shipped_faults().values()))
    assert {one.fault.id for one in tried} == {"nothing", *shipped_faults()}
    assert {one.fault.id for one in tried if one.harm} == set()
    used = {one.fault.id for one in tried if one.used}
    assert "nothing" in used
    assert "neutral-ground-swapped" in used, "nothing can tell it, so it is used, and named"


@pytest.mark.parametrize("tree", shipped().names())
def test_no_tree_lets_somebody_into_use_unnamed(tree: str) -> None:
    """Each shipped tree, whatever it begins with: where three of the worst are wrong, no use, or it is named."""
    faults = [shipped_faults()[name] for name in ("swapped", "false-ground", "neutral-open-upstream")]
    tried = list(Trial(shipped(), tree, METER, 1).walks(faults))
    assert all(one.walk.ended for one in tried)
    assert [(one.fault.id, one.outlet, one.end.at) for one in tried if one.harm] == []


def test_use_under_a_danger_that_nobody_names_is_told_with_its_readings() -> None:
    """Neutral and ground swapped cannot be read; were it not named, each walk into use would be listed."""
    unnamed = replace(shipped_faults()["neutral-ground-swapped"], names=())
    tried = list(Trial(shipped(), "arrival", METER, 1).walks([unnamed]))
    harmed = [one for one in tried if one.harm]
    assert {one.outlet for one in harmed} == {"50", "30", "20"}
    text = trial_text("arrival", tried)
    assert "In use under a danger that nobody names: 3." in text
    assert sum("hot to neutral" in line for line in text) >= 3
    walks = json.loads(trial_json("arrival", tried))["walks"]
    assert [walk["harm"] for walk in walks] == [one.harm for one in tried]


@pytest.mark.parametrize(
    ("fault", "pair", "volts"),
    [  # a 122 V source and a 10 megohm meter; worked by the solver of this folder's test_table
        ("reversed", "L G", 0.1),
        ("swapped", "L N", 0.1),
        ("neutral-open", "L N", 25.0),
        ("ground-open", "L G", 25.0),
        ("false-ground", "G earth", 122.0),
        ("wired-for-240", "L N", 243.0),
        ("live-but-looks-dead", "L N", 0.2),
        ("ground-live", "N G", 122.0),
        ("no-service-bond", "L G", 243.0),
    ],
)
def test_a_fault_reads_as_it_should(fault: str, pair: str, volts: float) -> None:
    """At the empty 30 A outlet, breaker on."""
    stand = stand_with(shipped_faults()[fault], Park(), "30", Random(1))  # noqa: S311 - no secret
    stand.switched = Switched(breaker=True)
    assert stand.read("pedestal-30", *pair.split()) == pytest.approx(volts, rel=0.06, abs=0.6)


def test_the_same_seed_walks_the_same() -> None:
    """A run can be repeated, and another seed draws other variants."""
    library, faults = shipped(), [shipped_faults()["supply-low"]]

    def read(seed: int) -> list[tuple[str, ...]]:
        return [one.end.readings for one in Trial(library, "arrival", METER, 1, seed).walks(faults)]

    assert read(3) == read(3) != read(4)


def test_a_loop_of_one_hot_has_no_fault_of_two() -> None:
    """Wired for 240 V needs a second leg, and a 50 A outlet too."""
    faults, alone = shipped_faults(), Park(service="one-hot")
    assert not fits(faults["wired-for-240"], alone, "30")
    assert not fits(faults["leg-lost"], alone, "50")
    assert fits(faults["reversed"], alone, "30")


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("danger: huge", '1:55: "huge" is not known here. Use burns, kills, none or ruins.'),
        ("danger: none, park: {voltz1: 1}", 'The loop has no "voltz1". Did you mean "volts1"?'),
        ("danger: none, edits: [{cut: it}]", "An edit is one of open, swap, set, move or join."),
        ("danger: none, edits: [{set: {feeder.N: [3, 1]}}]", "Write numbers over 0, the low one first."),
        ("danger: none, contacts: {L: much}", '"much" is not a number.'),
        ("danger: none, colour: red", 'The key "colour" is not known here.'),
        (
            "danger: none, outlets: ['50'], park: {service: one-hot}",
            'A loop of "one-hot" has no 50 A outlet. Write outlets: ["30", "20"], or leave the service out.',
        ),
        ("danger: none, park: {service: one-hot}", 'A loop of "one-hot" has no 50 A outlet.'),
        ("danger: none, park: {service: delta}", '1:77: "delta" is not known here.'),
        ("danger: none, outlets: ['15']", '1:71: "15" is not known here. Use 20, 30 or 50.'),
        (
            "danger: none, names: [neutral-opne]",
            '"neutral-opne" is not known here. Did you mean "neutral-open"?',
        ),
        ("danger: none, edits: [{open: feeder.X}]", 'There is no element "feeder.X".'),
        ("danger: none, edits: [{open: 'feeder.{leg'}]", "has braces that are not known here. Use {outlet}"),
        ("danger: none, edits: [{join: {tie: ['{}', loop.N, 1, 1]}}]", "has braces that are not known here."),
        ("danger: none, edits: [{move: {drop.N: '{leg.x}'}}]", "has braces that are not known here."),
        ("danger: none, edits: [{set: {feeder.N: 1, drop.N: 1}}]", "Write one element, and another edit"),
        ("danger: none, edits: [{swap: [drop.N]}]", "Write two elements that change places."),
        ("danger: none, edits: [{join: {bond: [loop.N, loop.G, 1, 1]}}]", 'The circuit has "bond" already.'),
        ("danger: none, edits: [{join: {tie: [loop.N, lop.G, 1, 1]}}]", 'Did you mean "loop.G"?'),
        ("danger: none, rig: [{open: cord.X}]", 'There is no element "cord.X". Did you mean "cord.'),
        ("danger: none, stuck: [breaker.50]", 'There is no breaker "breaker.50".'),
        ("danger: none, contacts: {M: 1}", 'There is no slot "M". Use G, L1, L2 or N.'),
        (
            "danger: none, signs: {smel: burning}",
            'There is no sign "smel" in signs.yaml. Did you mean "smell"?',
        ),
        ("danger: none, signs: {smell: burnt}", '"burnt" is not known here. Did you mean "burning"?'),
        ("danger: none, used: {heat: [warm, hto]}", '"hto" is not known here. Did you mean "hot"?'),
        ("danger: none, trees: [tingel]", '"tingel" is not known here. Did you mean "tingle"?'),
        ("danger: none, charger: tired", '"tired" is not known here. Use alive or dead.'),
        ("danger: none, trips-at: [2, 1]", "Write numbers over 0, the low one first."),
    ],
)
def test_a_wrong_fault_is_one_line_with_its_place(tmp_path: Path, line: str, said: str) -> None:
    """What was found, where, what is allowed."""
    file = tmp_path / "faults.yaml"
    file.write_text(f"mine: {{says: Something is wrong., side: park, {line}}}\n", encoding="utf-8")
    with pytest.raises(TreeError) as caught:
        read_faults(file)
    assert said in str(caught.value)
    assert str(caught.value).startswith(f"{file}:1:")
    assert "\n" not in str(caught.value)


def test_the_command_says_what_it_cannot_try(capsys: pytest.CaptureFixture[str]) -> None:
    """A tree that is not there, in words as any command has them, and exit 2; a wrong meter too."""
    assert run_command(["trial", "tingel"]) == Exit.USAGE
    assert "shorewalk trial tingle" in capsys.readouterr().err
    assert run_command(["trial", "arrival", "--meter", "vague"]) == Exit.USAGE
    assert "'vague' is no meter." in capsys.readouterr().err
