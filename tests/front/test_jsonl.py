"""JSON lines: what other programs may rely on."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from shorewalk.exits import Exit

Talk = Callable[..., tuple[list[dict[str, Any]], Any]]
DONE, ENOUGH = {"done": True}, {"choose": "enough"}
TO_VOLTS = (DONE, ENOUGH)


def test_questions_carry_what_a_program_needs_to_answer(talk: Talk) -> None:
    """Every kind of question has the keys of the format, in one object a line."""
    (step, ask, measure, tally, end), ended = talk(
        *TO_VOLTS, {"reading": "121.8 V"}, {"running": {"kettle": 1}}
    )
    assert (step["at"], step["kind"], step["leaves"]) == (
        "begin",
        "step",
        {"cautions": "read", "pedestal-breaker": "on"},
    )
    assert step["state"] == {"cord": "unplugged"}
    assert (step["tree"], step["step"]) == ("small", 1)
    assert step["cautions"]
    assert (ask["kind"], ask["sign"]) == ("ask", "light")
    assert ask["choices"] == [
        {"id": "enough", "text": "Enough of it"},
        {"id": "too-dark", "text": "Too dark"},
    ]
    assert measure["measure"] == {
        "what": "ac-volts",
        "place": "pedestal-30",
        "from": "L",
        "to": "N",
        "load": {"amount": "none"},
        "meter": "normal",
    }
    assert [load["id"] for load in tally["loads"]] == ["kettle", "microwave"]
    assert end["end"]["verdict"] == "stay-unplugged"
    assert set(end["end"]) >= {
        "at",
        "call",
        "first",
        "safe_action",
        "because",
        "say",
        "readings",
        "not_ruled_out",
    }
    assert end["end"]["readings"]
    assert ended.returncode == Exit.CLEAN


@pytest.mark.parametrize(
    "wrong",
    [
        "x",
        "{",
        "[]",
        "null",
        "3",
        '"done"',
        "{}",
        '{"done": false}',
        '{"done": true, "done": true}',
        '{"done": true, "cannot": true}',
        '{"done": true, "colour": "red"}',
        '{"done": true, "time": "yesterday"}',
        '{"choose": "enough"}',
        '{"reading": "121.8"}',
        '{"reading": NaN}',
        '{"running": {"kettle": "one"}}',
        '{"running": {"kettle": -1}}',
        '{"unsure": true}',
        '{"back": false}',
        '{"back": true, "done": true}',
        '{"back": true}',
        "[" * 20_000,
        "9" * 5_000,
        '{"reading": "' + "1" * 70_000 + '"}',
        "\\ud800",
        '{"reading": "\\ud800"}',
    ],
)
def test_what_is_no_answer_is_refused_and_the_question_stands(talk: Talk, wrong: str) -> None:
    """Anything that is no answer gives one sentence; the next answer counts as if it had not been."""
    (first, error, second), ended = talk(wrong, DONE)
    assert first["at"] == "begin"
    assert set(error) == {"error"}
    assert len(error["error"]) > 10
    assert second["at"] == "light"
    assert "Traceback" not in ended.stderr


def test_every_question_refuses_the_answers_of_the_others(talk: Talk) -> None:
    """A wrong kind of answer is refused at each kind of question."""
    lines, _ = talk(
        DONE, {"done": True}, ENOUGH, ENOUGH, {"choose": "none"}, {"reading": "121.8"}, {"done": True}
    )
    assert [line.get("at", "error") for line in lines] == [
        "begin",
        "light",
        "error",
        "volts",
        "error",
        "error",
        "running",
        "error",
    ]


def test_a_likely_slipped_point_counts_when_it_comes_again(talk: Talk) -> None:
    """The same reading twice counts; another one in between begins afresh."""
    lines, _ = talk(*TO_VOLTS, {"reading": "12.18"}, {"reading": "12.19"}, {"reading": "12.19"})
    doubts = [line for line in lines if "error" in line]
    assert [doubt["confirm"] for doubt in doubts] == [True, True]
    assert lines[-1]["end"]["at"] == "out"


def test_an_impossible_reading_is_never_to_be_confirmed(talk: Talk) -> None:
    """What no meter shows there is refused however often it comes."""
    lines, _ = talk(*TO_VOLTS, {"reading": "-3"}, {"reading": "-3"})
    assert ["confirm" in line for line in lines[-2:]] == [False, False]


def test_back_takes_back_the_last_answer(talk: Talk) -> None:
    """After back the question before is asked again, with the state it had."""
    lines, _ = talk(DONE, {"back": True}, DONE)
    assert [line["at"] for line in lines] == ["begin", "light", "begin", "light"]
    assert lines[0] == lines[2]


def test_input_that_ends_keeps_the_walk(talk: Talk) -> None:
    """Mid-walk the program exits 3 and says how to go on; so resumed, it stands where it was."""
    lines, ended = talk(*TO_VOLTS)
    assert ended.returncode == Exit.UNFINISHED
    assert "--resume 1" in ended.stderr
    again, ended = talk(words=("--resume", "1"))
    assert again == lines[-1:]
    assert ended.returncode == Exit.UNFINISHED


def test_a_walk_on_no_disk_can_be_kept_elsewhere(talk: Talk, home: Path) -> None:
    """Where walks cannot be kept that is said on stderr, with the line that names another folder."""
    home.touch()
    lines, ended = talk(*TO_VOLTS, {"keep": str(home.parent / "stick")})
    assert 'To keep it elsewhere: {"keep": "FOLDER"}' in ended.stderr
    assert f"SHOREWALK_HOME={home.parent / 'stick'} shorewalk walk --resume 1" in ended.stderr
    assert len(lines) == 3


def test_a_time_given_with_an_answer_is_the_one_kept(talk: Talk, home: Any) -> None:
    """A program that replays an afternoon may say when each answer was given."""
    import sqlite3

    talk({"done": True, "time": "2024-05-01T18:30:00Z"})
    with sqlite3.connect(home / "walks.sqlite3") as database:
        assert database.execute("select time from answers").fetchall() == [("2024-05-01T18:30:00Z",)]


def test_slots_read_too_long_ago_are_read_again(run: Callable[..., Any]) -> None:
    """A program that stamps its answers is sent back to the slots where too much time went by before the plug."""
    from shorewalk.folders import demo_data
    from shorewalk.replay import read_recorded
    from shorewalk.walk.answers import to_json

    recorded = read_recorded(demo_data() / "walks" / "arrival-30-good.yaml")
    for minute, asked in ((14, "hook_up_30.plug_in"), (16, "stale_30")):
        given = ""
        for _, at, answer, _ in recorded.answers:
            late = minute if str(at).startswith("hook_up_30.") else 0
            given += json.dumps({**to_json(answer), "time": f"2026-05-01T12:{late:02d}:00Z"}) + "\n"
            if at == "hook_up_30.which_protector":
                break
        ended = run("walk", "arrival", "--jsonl", given=given)
        assert json.loads(ended.stdout.splitlines()[-1])["at"] == asked


def test_results_are_told_before_the_question_that_follows(run: Callable[..., Any]) -> None:
    """What is worked out from readings is a line of its own with its formula."""
    from shorewalk.folders import demo_data
    from shorewalk.replay import read_recorded
    from shorewalk.walk.answers import to_json

    recorded = read_recorded(demo_data() / "walks" / "arrival-30-good.yaml")
    given = "".join(json.dumps(to_json(answer)) + "\n" for _, _, answer, _ in recorded.answers)
    ended = run("walk", "arrival", "--jsonl", given=given)
    lines = [json.loads(line) for line in ended.stdout.splitlines()]
    worked = [line["worked"] for line in lines if "worked" in line]
    assert worked
    assert all(set(one) >= {"at", "value", "unit", "formula"} for one in worked)
    assert lines[-1]["end"]["verdict"] == "good-to-use"
    assert ended.returncode == Exit.CLEAN


def test_with_possible_each_reading_says_what_it_rules_out(talk: Talk) -> None:
    """A line after every reading and at the end; the dangers left are in `not_ruled_out` of the ending."""
    said, ended = talk(*TO_VOLTS, {"reading": "0.1 V"}, {"unsure": True}, words=("--possible",))
    after = [line["possible"] for line in said if "possible" in line]
    assert len(after) >= 1
    assert {"neutral-open", "ground-open-upstream"} & {*after[0]["possible"], *after[0]["ruled_out"]}
    assert {"swapped", "live-but-looks-dead"} <= {*after[0]["possible"]}, (
        "both read 0 V between hot and neutral"
    )
    assert {"nothing", "supply-low"} <= {*after[0]["ruled_out"]}
    end = said[-1]["end"]
    assert "Neutral and ground of the outlet are both open" in " ".join(end["not_ruled_out"])
    assert ended.returncode == Exit.CLEAN


def test_possible_is_said_first_of_a_walk_that_is_taken_up(talk: Talk) -> None:
    """Before its question or its ending, though its last answer is none of a reading; of one without readings not."""
    talk(*TO_VOLTS)
    said, _ = talk(words=("--possible", "--resume", "1"))
    assert ["possible" in line for line in said] == [False]
    talk({"reading": "121.8"}, words=("--resume", "1"))
    said, _ = talk({"unsure": True}, words=("--possible", "--resume", "1"))
    assert [next(iter(line)) for line in said] == ["possible", "at", "possible", "end"]


def test_a_walk_that_ends_by_being_taken_up_says_why(talk: Talk, tree: Path) -> None:
    """What has to be said of it is on stderr, though no question follows."""
    talk(*TO_VOLTS)
    tree.write_text(tree.read_text("utf-8").replace("done: light", "done: out"), "utf-8")
    (end,), ended = talk(words=("--resume", "1"))
    assert end["end"]["at"] == "out"
    assert "The tree was changed since: 1 of 2 answers fit." in ended.stderr


def test_possible_is_for_programs(run: Callable[..., Any], tree: Path) -> None:
    """Where people answer it is a key, and the sentence says which."""
    ended = run("walk", str(tree), "--plain", "--possible")
    assert (ended.returncode, ended.stderr) == (
        Exit.USAGE,
        "--possible goes with --jsonl. In the app and in plain text type i.\n",
    )
