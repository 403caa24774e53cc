"""Whatever is answered, the trees that begin in trouble come to a safe end."""

from __future__ import annotations

import random

import pytest

from shorewalk.tree.library import Library, shipped
from shorewalk.tree.model import ALLOW_USE, Ask, Measure, Step, Tally
from shorewalk.walk.answers import Answer, Cannot, Choose, Done, Read, Running, Unable, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import Walk, begin

TREES = [name for name in shipped().names() if name != "arrival"]
VOLTS = ("0.0", "0.3", "3.1", "7.0", "15.0", "61.0", "95.0", "103.0", "112.0", "113.8", "117.0", "119.6",
         "121.4", "127.0", "133.0", "208.0", "243.0")  # fmt: skip
DIRECT = ("11.5", "12.1", "12.6", "13.0", "13.7")


def any_answer(walk: Walk, dice: random.Random, library: Library) -> Answer:
    """Return some answer that the question takes; bad luck in a third of all."""
    unlucky = dice.random() < 0.1
    match walk.now.node:
        case Ask(sign=sign, choices=choices):
            answers = library.site.signs[sign].answers
            mild = [choice.id for choice in choices if answers[choice.id] in (None, "ok", "watch")]
            if unlucky or not mild:
                any_of: list[Answer] = [*(Choose(choice.id) for choice in choices), Unsure()]
                return dice.choice(any_of)
            return Choose(dice.choice(mild))
        case Step():
            return Cannot() if unlucky else Done()
        case Measure(what=what):
            texts = {"dc-volts": DIRECT, "hertz": ("55.0", "60.0", "66.0")}.get(what, VOLTS)
            return Unable() if unlucky else Read(dice.choice(texts), confirmed=True)
        case Tally(loads=loads):
            some = dice.sample(loads, dice.randint(1, 3))
            return Unsure() if unlucky else Running(tuple((name, 1) for name in some))
    raise AssertionError(walk.now.node)


@pytest.mark.parametrize("tree", TREES)
@pytest.mark.parametrize("meter", ["basic,tenths", "basic", "good,whole"])
def test_every_walk_comes_to_a_safe_end(tree: str, meter: str, library: Library) -> None:
    """No walk goes round for ever, allows use, is put right by the engine, or plugs in anew after a stop."""
    for seed in range(80):
        dice = random.Random(f"{tree} {meter} {seed}")  # noqa: S311 (not for secrets)
        walk = begin(library, tree, parse_meter(meter))
        hands_off = False
        while not walk.ended and walk.now.tree != "arrival":
            assert not (hands_off and isinstance(walk.now.node, Measure)), seed
            walk = walk.answer(any_answer(walk, dice, library))
            hands_off = walk.now.worst == "danger"
            assert len(walk.answers) < 100, seed
        if walk.ended:
            end = ending(walk)
            assert end.verdict not in ALLOW_USE, seed
            assert not end.lowered, (seed, end)
            assert "not known" not in end.say, (seed, end.say)
            assert "{" not in end.say + end.because + end.safe_action, seed
        elif walk.now.tree == "arrival":
            assert walk.now.worst in (None, "ok", "watch"), seed
            assert walk.now.state["cord"] == "unplugged"
