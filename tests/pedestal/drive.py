"""Walks the arrival routine at a pedestal, with the engine in this process or with the command over JSON lines."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from shorewalk.pedestal.person import Person
from shorewalk.tree.library import Library, shipped
from shorewalk.walk.answers import Answer, from_json, to_json
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.refused import Refused
from shorewalk.walk.walk import Walk, begin
from shorewalk.wire import as_end, as_question

Json = dict[str, Any]
METER = "basic,tenths"
MOST = 400

Twist = Callable[[int, Json], Json | None]
"""Given the count and the question: another answer than the honest one, or None."""


@dataclass
class Walked:
    """The end and everything said on the way."""

    end: Json
    said: list[tuple[Json, Json]] = field(default_factory=list)

    @property
    def verdict(self) -> str:
        return str(self.end["verdict"])

    @property
    def allows_use(self) -> bool:
        return self.verdict in ("good-to-use", "use-with-care")

    def tell(self) -> str:
        """Return the walk in lines, for a failing test."""
        lines = [
            f"{question['at']}: {question['text']} -> {json.dumps(answer)}" for question, answer in self.said
        ]
        return "\n".join([*lines, json.dumps(self.end)])

    @property
    def plugged(self) -> bool:
        """Whether the cord went in on the way."""
        return any(str(asked["state"].get("cord")).startswith("pedestal") for asked, _ in self.said)


def walk_outside(person: Person, home: str) -> Walked:
    """Run the command, and the engine beside it for the honest answers; `home` is where it may keep its journal."""
    command = [sys.executable, "-m", "shorewalk", "walk", "arrival", "--jsonl", "--meter", METER]
    walk = begun()
    with subprocess.Popen(
        command,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env={"SHOREWALK_HOME": home, "PATH": "/usr/bin:/bin"},
    ) as program:
        assert program.stdin is not None
        assert program.stdout is not None
        said: list[tuple[Json, Json]] = []
        answer: Json = {}
        for line in program.stdout:
            data: Json = json.loads(line)
            if "end" in data:
                program.stdin.close()
                person.stand.follow(walk.now.state)
                assert program.wait(timeout=30) == 0, "a walk that reaches its end exits 0"
                return Walked(data["end"], said)
            if "worked" in data:
                continue
            if "error" in data:
                assert data.get("confirm"), data
            else:
                assert data == as_question(walk)
                given = person.answer(walk)
                answer, walk = to_json(given), _take(walk, given)
                said.append((data, answer))
            assert len(said) < MOST, "the walk does not end"
            program.stdin.write(json.dumps(answer) + "\n")
            program.stdin.flush()
        raise AssertionError(f"no end; exit {program.wait()}")


@cache
def library() -> Library:
    return shipped()


@cache
def says(fault: str) -> str:
    """Return a fault of faults.yaml in words."""
    return library().site.faults[fault].says


def begun() -> Walk:
    return begin(library(), "arrival", parse_meter(METER))


def walk_inside(person: Person, twist: Twist | None = None) -> Walked:
    """Walk with the engine itself; `twist` may answer otherwise."""
    walk = begun()
    said: list[tuple[Json, Json]] = []
    while not walk.ended:
        question = as_question(walk)
        twisted = twist(len(said), question) if twist else None
        if twisted is None:
            answer = person.answer(walk)
        else:
            person.stand.follow(walk.now.state)
            answer = from_json(twisted)
        said.append((question, to_json(answer)))
        assert len(said) < MOST, "the walk does not end"
        walk = _take(walk, answer)
    person.stand.follow(walk.now.state)
    return Walked(as_end(walk), said)


def _take(walk: Walk, answer: Answer) -> Walk:
    try:
        return walk.answer(answer)
    except Refused as refused:
        if not refused.confirm:
            raise
        return walk.answer(from_json(to_json(answer) | {"confirmed": True}))


NOT_KNOWN: dict[str, Json] = {
    "ask": {"unsure": True},
    "measure": {"unable": True},
    "step": {"cannot": True},
    "tally": {"unsure": True},
}
