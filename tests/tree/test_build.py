"""From plain data to frozen nodes, without pydantic."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shorewalk.tree.build import build_written
from shorewalk.tree.check import check_written
from shorewalk.tree.model import (
    Ask,
    Band,
    Choice,
    Condition,
    End,
    Judge,
    Jump,
    Load,
    Measure,
    Row,
    Step,
    Tally,
    Use,
    Way,
    Work,
    Written,
)
from shorewalk.tree.source import Source, TreeError, read_source

ALL_KINDS = """\
part: all-kinds
about: One of each.
takes: [place]
exits: [out]
begin: look
nodes:
  look:
    ask: Is it wet?
    sign: wet
    why: Water carries current.
    cautions: [dry-hands]
    group: Look
    choices:
      dry: {says: Dry, goto: off}
      "50": {says: Fifty, goto: out, grade: stop, leaves: {cord: unplugged}}
    unsure: {goto: out, grade: stop}
  off: {step: Switch it off., leaves: {rig-main: "off"}, done: volts, cannot: out}
  volts:
    measure:
      {what: ac-volts, place: $place, from: L, to: "N", load: {amount: one-leg, at: p}, meter: low-impedance}
    says: Read.
    normal: about 120 V
    needs: {cord: unplugged}
    bands:
      - {below: low, grade: stop, goto: out}
      - {upto: high, goto: sag}
      - {grade: watch, goto: sag}
    unable: sag
    at_most: 2
    spent: out
  sag: {work: {out: source-ohms, using: sag_resistance, from: {loaded: volts}}, next: runs, missing: runs}
  runs: {tally: What runs?, from: [kettle], at_voltage: volts, next: weigh, unsure: weigh}
  weigh:
    judge:
      - when: {volts: {from: low, below: high}, look: unsure}
        while: {cord: plugged}
        worst: stop
        lacks: look-a
        goto: fine
      - {goto: fine}
    of: [volts]
    missing: fine
  inner: {part: skin, with: {to: volts}, exits: {out: {goto: fine, grade: ok}}}
  elsewhere: {tree: tingle}
  fine:
    end: use-with-care
    because: It is.
    safe_action: Go.
    call: park
    call_when: it trips
    first: emergency-services
    say: "{volts}"
    not_ruled_out: [false-ground]
"""


def written(text: str) -> Written:
    return build_written(read_source(text, "f.yaml"))


def test_every_kind_of_node_is_read_whole() -> None:
    """Each kind of node, and each key it may have, comes out as the dataclass it stands for."""
    part = written(ALL_KINDS)
    common: dict[str, Any] = {"file": "f.yaml"}

    def named(name: str) -> dict[str, Any]:
        return {"name": name, "route": ("nodes", name), **common}

    assert (part.kind, part.name, part.begin, part.takes, part.exits) == (
        "part",
        "all-kinds",
        "look",
        ("place",),
        ("out",),
    )
    out = Way("out")
    assert dict(part.nodes) == {
        "look": Ask(
            **named("look"),
            why="Water carries current.",
            cautions=("dry-hands",),
            group="Look",
            text="Is it wet?",
            sign="wet",
            choices=(
                Choice("dry", "Dry", Way("off")),
                Choice("50", "Fifty", Way("out", "stop", (("cord", "unplugged"),))),
            ),
            unsure=Way("out", "stop"),
        ),
        "off": Step(
            **named("off"),
            text="Switch it off.",
            leaves=(("rig-main", "off"),),
            done=Way("volts"),
            cannot=out,
        ),
        "volts": Measure(
            **named("volts"),
            what="ac-volts",
            place="$place",
            from_="L",
            to="N",
            load=Load("one-leg", "p"),
            meter="low-impedance",
            text="Read.",
            normal="about 120 V",
            needs=(("cord", "unplugged"),),
            bands=(
                Band(Way("out", "stop"), below="low"),
                Band(Way("sag"), upto="high"),
                Band(Way("sag", "watch")),
            ),
            unable=Way("sag"),
            at_most=2,
            spent=out,
        ),
        "sag": Work(
            **named("sag"),
            out="source-ohms",
            using="sag_resistance",
            inputs=(("loaded", "volts"),),
            next=Way("runs"),
            missing=Way("runs"),
        ),
        "runs": Tally(
            **named("runs"),
            text="What runs?",
            loads=("kettle",),
            at_voltage="volts",
            next=Way("weigh"),
            unsure=Way("weigh"),
        ),
        "weigh": Judge(
            **named("weigh"),
            rows=(
                Row(
                    Way("fine"),
                    (Condition("volts", from_="low", below="high"), Condition("look", choice="unsure")),
                    (("cord", "plugged"),),
                    "stop",
                    "look-a",
                ),
                Row(Way("fine")),
            ),
            of=("volts",),
            missing=Way("fine"),
        ),
        "inner": Use(
            **named("inner"), part="skin", with_=(("to", "volts"),), exits=(("out", Way("fine", "ok")),)
        ),
        "elsewhere": Jump(**named("elsewhere"), tree="tingle"),
        "fine": End(
            **named("fine"),
            verdict="use-with-care",
            because="It is.",
            safe_action="Go.",
            call="park",
            call_when="it trips",
            first="emergency-services",
            say="{volts}",
            not_ruled_out=("false-ground",),
        ),
    }


def test_the_checker_reads_the_same() -> None:
    """What pydantic understood of a file with every kind of node builds the very same nodes."""
    source = read_source(ALL_KINDS, "f.yaml")
    assert check_written(source) == build_written(source)


def test_both_readings_of_a_shipped_file_are_equal(shipped_file: Path) -> None:
    """Quick reader and checker agree on every file that comes with the program."""
    source = read_source(shipped_file.read_bytes(), str(shipped_file))
    assert check_written(source) == build_written(source)


WRONG = [
    ("{step: Switch it off.,", "{stp: Switch it off.,", "f.yaml:17:3: A node is one of ask, step, measure"),
    ("step: Switch it off.", "step: ''", 'f.yaml:17:9: "step" is empty. Write words'),
    ("done: volts", "don: volts", 'f.yaml:17:58: The key "don" is not known here. Did you mean "done"?'),
    ("done: volts, ", "", 'f.yaml:17:3: "done" is missing here.'),
    ("at_most: 2", "at_most: two", 'f.yaml:29:14: "two" is not a count. Write a whole number from 1 to 99.'),
    ("exits: [out]", "exits: out", 'f.yaml:4:8: "exits" wants a list; found "out".'),
    ("sign: wet", "sign: [wet]", 'f.yaml:9:11: "sign" wants words; found a list.'),
    ("takes: [place]", "takes: [{place: x}]", 'f.yaml:3:9: "0" wants words; found keys and values.'),
    ("begin: look\n", "", 'f.yaml:1:1: "begin" is missing here.'),
    ("about: One", "abuot: One", 'f.yaml:2:1: The key "abuot" is not known here. Did you mean "about"?'),
]


@pytest.mark.parametrize(("old", "new", "said"), WRONG, ids=[case[1] or case[0] for case in WRONG])
def test_what_cannot_be_understood_has_a_place(old: str, new: str, said: str) -> None:
    """The quick reader, too, says where and what, though only the first fault."""
    assert old in ALL_KINDS
    with pytest.raises(TreeError) as caught:
        written(ALL_KINDS.replace(old, new, 1))
    assert str(caught.value).startswith(said)


def outcome(read: Callable[[Source], Written], source: Source) -> Written | None:
    try:
        return read(source)
    except TreeError:
        return None


KEYS = [
    "ask",
    "step",
    "measure",
    "work",
    "tally",
    "judge",
    "part",
    "tree",
    "end",
    "nodes",
    "begin",
    "choices",
]
KEYS += ["goto", "bands", "when", "exits", "says", "sign", "done", "a", "from", "with", "load", "at_most"]
WORDS = st.sampled_from(["", "a", "ok", "2", "b-c", "$x", "{a}"])
DATA = st.recursive(
    WORDS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(KEYS), inner, max_size=6),
)


@given(st.dictionaries(st.sampled_from(KEYS), DATA), st.dictionaries(WORDS, DATA, max_size=3))
@settings(max_examples=300, deadline=None)
def test_any_data_is_a_tree_or_an_error(top: Any, nodes: Any) -> None:
    """Either reader raises `TreeError` or nothing; what the checker takes, the quick reader takes alike."""
    empty = read_source("a: b\n", "f.yaml")
    for data in (top, {"tree": "a", "symptom": "b", "begin": "a", "nodes": nodes}):
        source = replace(empty, data=data)
        checked, built = (outcome(read, source) for read in (check_written, build_written))
        assert checked is None or checked == built
