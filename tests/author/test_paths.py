"""The shortest walks to every ending, held to all walks there are of a small tree."""

from __future__ import annotations

from collections import deque

import pytest

from shorewalk.author.paths import TreePaths, paths_of
from shorewalk.author.paths_all import paths_of_all
from shorewalk.tree.library import Library, shipped
from shorewalk.tree.model import Ask, Measure, Step, Tally
from shorewalk.walk.answers import Answer, Cannot, Choose, Done, Read, Running, Unable, Unsure
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.refused import Refused
from shorewalk.walk.walk import Walk, begin

from .conftest import END

READINGS = (
    "0.0",
    "1.0",
    "3.1",
    "25.0",
    "95.0",
    "104.9",
    "110.5",
    "119.0",
    "121.0",
    "128.5",
    "150.0",
    "243.0",
)

TREE = """\
tree: small
symptom: Something is odd
begin: wet
nodes:
  wet:
    ask: Is it wet?
    sign: wet
    choices:
      dry: {says: "No", goto: volts}
      standing-water: {says: "Yes", grade: stop, goto: step_away}
    unsure: {goto: step_back, grade: stop}
  step_away:
    step: Step away.
    done: stay_away
    cannot: stay_away
  step_back:
    step: Step back.
    done: step_more
    cannot: step_more
  step_more:
    step: Step back further.
    done: stay_away
    cannot: stay_away
  volts:
    measure: {what: ac-volts, place: pedestal-30, from: L, to: "N"}
    next: ground
    unable: look_again
  look_again:
    at_most: 1
    spent: unread
    step: Look for the right slots.
    done: volts
    cannot: unread
  ground:
    measure: {what: ac-volts, place: pedestal-30, from: "N", to: G}
    next: verdict
    unable: unread
  verdict:
    judge:
      - {when: {volts: {below: no-voltage}, ground: {from: ghost-high}}, grade: danger, goto: swapped}
      - {when: {ground: {from: neutral-ground-stop}}, grade: stop, goto: loose}
      - {when: {volts: {below: utilization-b-low}}, grade: stop, goto: low}
      - {when: {volts: {above: service-a-surely-high}}, grade: stop, goto: high}
      - {when: {volts: {below: service-a-low}}, grade: watch, goto: volts_later}
      - {grade: ok, goto: volts_later}
    of: [volts, ground]
    missing: unread
  volts_later:
    measure: {what: ac-volts, place: pedestal-30, from: L, to: "N"}
    next: apart
    unable: unread
  apart:
    work: {out: look-moved, using: difference, from: {a: volts, b: volts_later}}
    bands:
      - {upto: look-moved, grade: ok, goto: later}
      - {grade: watch, goto: moved}
    missing: unread
  later:
    judge:
      - {when: {volts: {below: no-voltage}}, grade: stop, goto: impossible}
      - {when: {volts: {below: usual-low}, volts_later: {from: usual-low}}, grade: watch, goto: just_over}
      - {when: {volts_later: {below: service-a-low}}, grade: watch, goto: lowish}
      - {worst: watch, goto: watched}
      - {grade: ok, goto: steady}
    of: [volts, volts_later]
    missing: unread
"""
ENDS = (
    *("stay_away", "unread", "swapped", "loose", "low", "high", "moved"),
    *("impossible", "just_over", "lowish", "watched", "steady"),
)


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Library:
    """A library of one small tree, with the shipped facts."""
    folder = tmp_path_factory.mktemp("trees")
    (folder / "small.yaml").write_text(
        TREE + "".join(END.format(name=name) for name in ENDS), encoding="utf-8"
    )
    return Library(folder)


def answers_to(walk: Walk) -> list[Answer]:
    """Every answer to the open question, numbers from a list that has some in each stretch."""
    match walk.now.node:
        case Ask(choices=choices):
            return [*(Choose(choice.id) for choice in choices), Unsure()]
        case Step():
            return [Done(), Cannot()]
        case Measure():
            return [*(Read(text, confirmed=True) for text in READINGS), Unable()]
        case Tally(loads=loads):
            return [Running(((loads[0], 1),)), Unsure()]
    return []


def shortest(library: Library, meter: str) -> dict[str, int]:
    """The fewest answers to each ending, by giving every answer to every question."""
    found: dict[str, int] = {}
    waiting = deque([begin(library, "small", parse_meter(meter))])
    while waiting:
        walk = waiting.popleft()
        if walk.ended:
            found.setdefault(walk.now.node.name, len(walk.answers))
            continue
        for answer in answers_to(walk) if len(walk.answers) < 6 else ():
            try:
                waiting.append(walk.answer(answer))
            except Refused:
                continue
    return found


def lengths(found: TreePaths) -> dict[str, int]:
    return {path.name: len(path.proven.answers) for path in found.paths if path.proven}


@pytest.mark.parametrize("meter", ["good,tenths", "basic,tenths", "basic,whole"])
def test_no_walk_is_shorter_than_the_one_that_is_told(small: Library, meter: str) -> None:
    """As many answers as the shortest of all walks with a dozen readings takes; more endings only by other readings."""
    brute, found = shortest(small, meter), lengths(paths_of(small, "small", parse_meter(meter)))
    assert len(brute) >= 4
    assert brute.keys() <= found.keys()
    assert brute == {name: found[name] for name in brute}


def test_an_ending_that_cannot_be_is_told_so(small: Library) -> None:
    """Once the volts were over 104 V they are not under 5 V; every walk was gone through to say so."""
    found = paths_of(small, "small", parse_meter("good,tenths"))
    assert [path.name for path in found.paths if path.proven is None] == ["impossible"]


def test_endings_are_told_in_the_order_written_with_their_place(small: Library) -> None:
    """Each with the line its name stands on."""
    found = paths_of(small, "small", parse_meter("basic"))
    assert [path.name for path in found.paths] == list(ENDS)
    lines = (small.folder / "small.yaml").read_text(encoding="utf-8").splitlines()
    assert all(lines[path.place.line - 1] == f"  {path.name}:" for path in found.paths)


@pytest.mark.parametrize("name", ["breaker-trips", "tingle"])
def test_every_walk_told_of_a_shipped_tree_leads_where_it_says(name: str) -> None:
    """Answered anew, one by one, it ends there: not at a fallback of the engine, not in another tree."""
    library = shipped()
    found = paths_of(library, name, parse_meter("basic"))
    assert sum(path.proven is not None for path in found.paths) >= 5
    for path in found.paths:
        walk = begin(library, name, parse_meter("basic"))
        for answer in path.proven.answers if path.proven else ():
            walk = walk.answer(answer)
        if path.proven and walk.ended:
            assert walk.ledger.node is path.node
            assert walk.tree == name


def test_trees_searched_beside_one_another_are_told_as_one_by_one() -> None:
    """The same walks in the same order, whether one process looks or several."""
    library, meter = shipped(), parse_meter("basic")
    names = ["tingle", "breaker-trips"]
    together = paths_of_all(library, names, meter)
    assert [found.tree for found in together] == names
    for found in together:
        alone = paths_of(library, found.tree, meter)
        assert (found.whole, lengths(found)) == (alone.whole, lengths(alone))
        for one, other in zip(found.paths, alone.paths, strict=True):
            assert (one.proven and one.proven.answers) == (other.proven and other.proven.answers)
