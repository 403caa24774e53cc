"""What walking loads: a walk has to be quick to start on a small computer."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from shorewalk.folders import demo_data
from shorewalk.replay import read_recorded
from shorewalk.tree.library import shipped
from shorewalk.tree.model import Ask, Tally
from shorewalk.walk.answers import Answer, Choose, Done, Read, Running, to_json
from shorewalk.walk.walk import begin

HEAVY = {
    "networkx",
    "numpy",
    "uncertainties",
    "pydantic",
    "watchfiles",
    "textual",
    "rich",
    "quantiphy",
    "segno",
    "plotext",
    "textstat",
    "nltk",
    "fpdf",
    "PIL",
    "fontTools",
}
WATCHED = """
import sys
sys.argv[0] = "shorewalk"
from shorewalk.cli import main
code = main()
sys.stderr.write("\\n" + " ".join(sorted({name.partition(".")[0] for name in sys.modules})))
sys.exit(code)
"""


def loaded(home: Path, *words: str, given: str) -> tuple[set[str], str]:
    """Return the top-level names in sys.modules at the end of a run, and its stdout."""
    ended = subprocess.run(
        [sys.executable, "-c", WATCHED, *words],
        input=given,
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "SHOREWALK_HOME": str(home)},
    )
    return set(ended.stderr.splitlines()[-1].split()), ended.stdout


def answers() -> list[Answer]:
    """A whole walk through readings, looks and arithmetic."""
    return [
        answer for _, _, answer, _ in read_recorded(demo_data() / "walks" / "arrival-50-good.yaml").answers
    ]


def typed() -> str:
    """The same walk as somebody types it."""
    walk, lines = (
        begin(shipped(), "arrival", read_recorded(demo_data() / "walks" / "arrival-50-good.yaml").meter),
        "",
    )
    for answer in answers():
        match walk.now.node, answer:
            case Ask(choices=choices), Choose(name):
                lines += f"{[choice.id for choice in choices].index(name) + 1}\n"
            case _, Done():
                lines += "1\n"
            case _, Read(text):
                lines += f"{text}\n"
            case Tally(loads=listed), Running(loads):
                lines += " ".join(str(listed.index(load) + 1) for load, n in loads for _ in range(n)) + "\n"
            case _:
                lines += "0\n"
        walk = walk.answer(answer)
    return lines


def test_walking_by_json_lines_loads_nothing_heavy(tmp_path: Path) -> None:
    """A whole walk, arithmetic and journal included, needs none of the heavy libraries, nor the command parser."""
    given = "".join(json.dumps(to_json(answer)) + "\n" for answer in answers())
    names, out = loaded(tmp_path, "walk", "arrival", "--jsonl", given=given)
    assert '"end"' in out
    assert not names & (HEAVY | {"click"})


def test_walking_in_plain_text_loads_nothing_heavy(tmp_path: Path) -> None:
    """The same for a walk typed by a person."""
    names, out = loaded(tmp_path, "walk", "arrival", "--plain", given=typed())
    assert "The end: Good to use." in out
    assert not names & HEAVY


@pytest.mark.parametrize("late", ["sqlite3", "platformdirs"])
def test_the_journal_is_loaded_after_the_first_question(late: str) -> None:
    """What the first line does not need is imported when it is out."""
    code = f"import shorewalk.jsonl, shorewalk.walking, sys; sys.exit({late!r} in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
