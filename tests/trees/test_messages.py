"""The message of every ending of every tree, by every recorded walk: what fits a text message, and what it says."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from shorewalk.author.folding import folded
from shorewalk.folders import demo_data
from shorewalk.lint.rules.asks_nothing import ASKS
from shorewalk.lint.rules.one_action import BEGINS
from shorewalk.paper.letters import GSM
from shorewalk.recorded import read_recorded
from shorewalk.tree.library import Library, shipped
from shorewalk.tree.model import End
from shorewalk.tree.source import Problem
from shorewalk.walk import state as states
from shorewalk.walk.behind import in_force, usual
from shorewalk.walk.message import ending, park_message
from shorewalk.walk.saying import MOST
from shorewalk.walk.site_words import SITE_MOST
from shorewalk.walk.walk import Walk

TREES = shipped().names()
SITE = "Upper Meadow Loop, 117 B"
AMOUNT = re.compile(r"(?<![\w.-])-?\d+(?:\.\d+)?(?: to -?\d+(?:\.\d+)?)? (?:V|A|Hz|ohm|mA)\b(?! outlet)")
"""A number with its unit, as a reading is told."""

ELSEWHERE = {"gas_alarm", "hit_by_lightning"}
"""Emergencies that the park's power has no part in."""


@cache
def ended(tree: str) -> tuple[tuple[str, Walk], ...]:
    """Return every recorded walk that began in a tree, with the name of its file."""
    return tuple(_ended(tree, shipped()))


def _ended(tree: str, library: Library) -> Iterator[tuple[str, Walk]]:
    files = [path for path in demo_data().glob("walks/*.yaml") if _begins(path, tree)]
    for one, walk in folded(library, [read_recorded(path, library) for path in files]):
        assert not isinstance(walk, Problem), walk
        yield Path(one.file).name, walk


def _begins(path: Path, tree: str) -> bool:
    return path.read_text(encoding="utf-8").startswith(f"walk: {tree}\n")


def end_of(walk: Walk) -> End:
    node = walk.ledger.node
    assert isinstance(node, End)
    return node


def sure(walk: Walk, name: str, value: str) -> bool:
    return states.must(walk.ledger.standing, name, value, walk.ledger.site.states)


def test_every_ending_is_looked_at() -> None:
    """The walks looked at here come to every ending that is written, but for those that no walk can come to."""
    come_to = {written(end_of(walk)) for tree in TREES for _, walk in ended(tree)}
    every = {
        written(node)
        for tree in TREES
        for node in shipped().tree(tree).nodes.values()
        if isinstance(node, End)
    }
    never = (Path(__file__).parent / "in_no_walk.txt").read_text(encoding="utf-8").splitlines()
    assert len(every) > 500
    assert every - come_to == {line for line in never if " ending " in line} & every


def written(end: End) -> str:
    return f"{Path(end.file).name} ending {end.route[-1]}"


@pytest.mark.parametrize("tree", TREES)
def test_it_fits_a_text_message(tree: str) -> None:
    """One line of 320 letters at most, of those that a text message is counted by, with a long name of the site."""
    assert len(SITE) == SITE_MOST
    for name, walk in ended(tree):
        said = park_message(walk, SITE)
        assert len(said) <= MOST, (name, len(said), said)
        assert set(said) <= GSM - {"\n"}, (name, set(said) - GSM)
        assert SITE in said or "{site}" not in (end_of(walk).say or "{site}"), (name, said)


@pytest.mark.parametrize("tree", TREES)
def test_it_tells_readings_as_the_meter_showed_them(tree: str) -> None:
    """Every amount is one that was read or worked out, or stands in the tree; what was read is not kept back."""
    for name, walk in ended(tree):
        said, now, end = park_message(walk, SITE), walk.now, end_of(walk)
        shown = " ; ".join(
            [known.shows for known in now.known]
            + [worked.shows for worked in now.worked_all]
            + [end.say or end.because]
        )
        wrong = [amount for amount in AMOUNT.findall(said) if amount not in shown]
        assert not wrong, (name, wrong, said)
        if usual(walk.ledger) and end.verdict != "emergency":
            told = [known for known in in_force(walk.ledger) if known.shows in said]
            assert told, (name, said)


@pytest.mark.parametrize("tree", TREES)
def test_it_says_what_was_done(tree: str) -> None:
    """Where the cord is surely out, or the breaker surely off, the message says so."""
    for name, walk in ended(tree):
        said = park_message(walk).lower()
        if sure(walk, "cord", "unplugged"):
            assert re.search(r"cord (is )?out|unplugged|(not|nothing) plugged in", said), (name, said)
        if sure(walk, "pedestal-breaker", "off"):
            assert re.search(r"breakers? (is |was |are )?off", said), (name, said)
        if sure(walk, "cord", "plugged"):
            assert not re.search("cord (is )?out", said), (name, said)


@pytest.mark.parametrize("tree", TREES)
def test_it_asks_for_something(tree: str) -> None:
    """Whoever hears it knows what is wanted; in an emergency, what to switch off."""
    for name, walk in ended(tree):
        said = park_message(walk, SITE)
        sentences = re.split(r"(?<=[.!?:;])\s+", said)
        assert any(ASKS.search(each) or BEGINS.match(each) for each in sentences), (name, said)
        end = ending(walk)
        if end.verdict == "emergency" and end.at.rpartition(".")[2] not in ELSEWHERE:
            assert re.search(
                r"\bswitch (the (whole )?loop|our (loop|site)|everything) off\b", said, re.IGNORECASE
            ), said


@pytest.mark.parametrize("tree", TREES)
def test_nothing_in_it_is_left_open(tree: str) -> None:
    """No placeholder is left, no bracket, no word for what is not known, no number of a site nobody gave."""
    for name, walk in ended(tree):
        said = park_message(walk)
        assert not re.search(r"[{}\[\]]|\bnot known\b|\bNone\b|\bSite\b|\s\s|\s[.,;:]|\.\.", said), (
            name,
            said,
        )
        assert said[0].isupper(), said
        assert said.endswith((".", "?", "!")), (name, said)
