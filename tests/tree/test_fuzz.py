"""A few hundred hostile inputs for everything that reads; `bench.fuzz` tries as many as there is time for."""

from __future__ import annotations

from random import Random

import pytest

from ..bench.fuzz import running
from ..bench.fuzz.running import Tally, bounded, try_inputs, try_one
from ..bench.fuzz.targets import TARGETS, Target

INPUTS = {
    "loader": 250,
    "linter": 12,
    "facts": 10,
    "reading": 1_500,
    "json-lines": 60,
    "plain": 20,
    "recorded": 40,
    "handed": 60,
}


@pytest.mark.parametrize("name", TARGETS)
def test_hostile_input_is_read_or_refused(name: str) -> None:
    """Nothing raises but what refuses, nothing takes long, and more than one thing comes of it."""
    tally = try_inputs(TARGETS[name], Random(3), most=INPUTS[name])  # noqa: S311 (not for secrets)
    assert not tally.wrong
    assert tally.inputs == INPUTS[name]
    assert len(tally.outcomes) > 1


def test_what_takes_too_long_is_ended_and_what_raises_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    """An input that never ends and one that raises are both told, with what they were."""
    monkeypatch.setattr(running, "SECONDS", 0.2)

    def run(data: bytes) -> str:
        while data == b"endless":
            pass
        raise KeyError(data)

    tally = Tally()
    with bounded():
        for data in (b"endless", b"wrong"):
            try_one(Target("x", (), run), data, tally)
    assert [said.partition(":")[0] for said in tally.wrong] == ["TooSlow", "KeyError"]
    assert list(tally.wrong.values()) == [b"endless", b"wrong"]
