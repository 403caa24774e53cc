"""Random walks through the shipped trees: they end, and their verdicts stand on what is known."""

from __future__ import annotations

import random
from contextlib import suppress

import pytest

from shorewalk.folders import demo_data
from shorewalk.replay import read_recorded
from shorewalk.tree.library import shipped
from shorewalk.tree.model import Ask, Measure, Step, Tally
from shorewalk.walk.answers import Answer, Cannot, Choose, Done, Read, Running, Unable, Unsure
from shorewalk.walk.message import ending, record_markdown
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.refused import Refused
from shorewalk.walk.walk import Walk, begin, resume

TREES = shipped().names()
MOST = 300  # questions of one walk
ODD = [
    "0.0",
    "0.3",
    "1.9",
    "3.0",
    "7.0",
    "60.0",
    "95.0",
    "104.5",
    "112.0",
    "119.0",
    "125.9",
    "127.4",
    "128.5",
    "243.0",
    "OL",
]


def sound(node: Measure, *, off: bool) -> str:
    """What a sound site reads."""
    loaded = node.load.amount != "none"
    ends = {node.from_, node.to}
    if node.place == "battery":
        return "12.9"
    if node.what == "hertz":
        return "60.0"
    if off:
        return "0.1"
    if node.place == "rig-skin" or ends <= {"N", "G", "earth"}:
        return "0.8" if loaded else "0.2"
    if ends == {"L1", "L2"}:
        return "242.7"
    return "119.3" if loaded else "121.4"


def answer(walk: Walk, chance: random.Random, doubt: float) -> Answer:
    """A fitting answer, with some doubt and some odd readings."""
    now = walk.now
    node = now.node
    odd = chance.random() < doubt
    if isinstance(node, Ask):
        best = [c.id for c in node.choices if c.way.grade in (None, "ok")] or [c.id for c in node.choices]
        ids = [choice.id for choice in node.choices] if odd else best[:1]
        return Unsure() if odd and chance.random() < 0.4 else Choose(chance.choice(ids))
    if isinstance(node, Step):
        return Cannot() if odd else Done()
    if isinstance(node, Measure):
        off = now.state.get("pedestal-breaker") == "off"
        text = chance.choice(ODD) if odd else sound(node, off=off)
        return Unable() if odd and chance.random() < 0.5 else Read(text, confirmed=True)
    assert isinstance(node, Tally)
    return Unsure() if odd else Running(((chance.choice(node.loads), 1),))


def walk_at_random(tree: str, seed: int) -> Walk:
    """Walk to an ending; an answer that is refused is given otherwise."""
    chance = random.Random(seed)  # noqa: S311 (no secret)
    meter = parse_meter(("basic", "basic,whole", "good,tenths", "0.5%+2,tenths")[seed % 4])
    walk = begin(shipped(), tree, meter)
    for _ in range(MOST):
        if walk.ended:
            break
        with suppress(Refused):
            walk = walk.answer(answer(walk, chance, (0.02, 0.05, 0.2, 0.6)[seed // 4 % 4]))
    return walk


@pytest.mark.parametrize("seed", range(32))
@pytest.mark.parametrize("tree", TREES)
def test_a_random_walk_ends_as_its_tree_says(tree: str, seed: int) -> None:
    """Whatever is answered, the walk ends, can be told and resumed, and its verdict need not be lowered."""
    walk = walk_at_random(tree, seed)
    assert walk.ended
    found = ending(walk)
    assert found.lowered == ()
    assert "cannot go on" not in found.because
    assert "{" not in found.say + found.because + found.safe_action
    assert resume(shipped(), tree, walk.meter, walk.answers)[0].now == walk.now
    assert record_markdown(walk)
    if walk.now.worst in ("stop", "danger"):
        assert found.verdict not in ("good-to-use", "use-with-care", "leave-as-is", "unplugged")
    if found.verdict == "use-with-care":
        assert found.not_ruled_out


def test_an_outlet_nobody_looked_at_is_one_line() -> None:
    """Where no look was taken and use is not allowed, one sentence stands for all the outlet's faults."""
    recorded = read_recorded(demo_data() / "walks" / "arrival-50-pole-stays-closed.yaml")
    walk = begin(shipped(), recorded.walk, recorded.meter)
    for _, _, answer, _ in recorded.answers:
        walk = walk.answer(answer)
    said = ending(walk).not_ruled_out
    assert len(said) == 1
    assert "did not look" in said[0]
