"""A small tree to walk by lines, and a way to run the program on it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

TREE = """\
tree: small
symptom: Something small is wrong
starts: {cord: unplugged}
begin: begin
nodes:
  begin:
    cautions: [dry-hands]
    step: Read this.
    leaves: {cautions: read, pedestal-breaker: "on"}
    done: light
    cannot: out
  light:
    ask: Is there light?
    sign: light
    choices:
      enough: {says: Enough of it, goto: volts}
      too-dark: {says: Too dark, goto: out}
    unsure: out
  volts:
    needs: {pedestal-breaker: "on"}
    measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
    bands:
      - {below: utilization-b-low, grade: stop, goto: out}
      - {below: twice-voltage, grade: ok, goto: running}
      - {grade: stop, goto: out}
    unable: out
  running:
    tally: What was running?
    from: [kettle, microwave]
    at_voltage: volts
    out: total-amps
    bands: [{goto: out}]
    unsure: out
  out:
    end: stay-unplugged
    because: It was small.
    safe_action: Keep the cord out.
    call: park
    say: "Something small. [{volts}.]"
"""

Run = Callable[..., subprocess.CompletedProcess[str]]


@pytest.fixture
def tree(tmp_path: Path) -> Path:
    """A folder with one small tree in it."""
    path = tmp_path / "trees" / "small.yaml"
    path.parent.mkdir()
    path.write_text(TREE, encoding="utf-8")
    return path


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """Where walks are kept in this test."""
    return tmp_path / "home"


@pytest.fixture
def run(home: Path) -> Run:
    """Run the program on words and input; every output is text, and a run ends within a minute."""

    def run_program(*words: str, given: str = "", **env: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, "-m", "shorewalk", *words],
            input=given,
            capture_output=True,
            text=True,
            timeout=60,
            check=False,
            env={**os.environ, "SHOREWALK_HOME": str(home), "COLUMNS": "80", **env},
        )

    return run_program


@pytest.fixture
def talk(
    run: Run, tree: Path
) -> Callable[..., tuple[list[dict[str, Any]], subprocess.CompletedProcess[str]]]:
    """Walk the small tree by JSON lines; return what came out, and how it ended."""

    def walk(*answers: object, words: tuple[str, ...] = ()) -> tuple[list[dict[str, Any]], Any]:
        given = "".join(
            f"{answer if isinstance(answer, str) else json.dumps(answer)}\n" for answer in answers
        )
        ended = run("walk", str(tree), "--jsonl", *words, given=given)
        return [json.loads(line) for line in ended.stdout.splitlines()], ended

    return walk
