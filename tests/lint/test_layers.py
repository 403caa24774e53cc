"""Trees of one's own, with parts and facts of one's own beside them."""

from __future__ import annotations

import json
import shutil
from io import BytesIO, TextIOWrapper
from pathlib import Path

import pytest

from shorewalk import folders
from shorewalk.cli import run
from shorewalk.exits import Exit
from shorewalk.lint import Report, lint_paths

from .test_silence import PART, USES

TREE = """\
tree: lamp
symptom: The lamp on the post is dark
starts: {cord: unplugged}
begin: lamp
nodes:
  lamp:
    ask: Is the lamp on the post lit?
    sign: post-lamp
    choices:
      lit: {says: It is lit, goto: leave}
      dark: {says: It is dark, goto: leave}
    unsure: leave
  leave:
    end: emergency
    because: The lamp was looked at.
    safe_action: Keep away.
    first: emergency-services
    call: park
"""
SIGNS = 'post-lamp: {says: the lamp on the post, by: eye, at: pedestal, answers: {lit: ok, dark: ""}}\n'


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """A folder with a tree that asks about a sign of its own."""
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "signs.yaml").write_text(SIGNS, encoding="utf-8")
    (tmp_path / "lamp.yaml").write_text(TREE, encoding="utf-8")
    return tmp_path


def rules(report: Report) -> set[str]:
    return {finding.rule for finding in report.findings}


def test_a_folder_brings_its_own_facts(own: Path) -> None:
    """Its sign is known there, and not without the file; the shared facts are known beside it."""
    assert lint_paths([own]).findings == ()
    assert lint_paths([own / "lamp.yaml"]).findings == ()
    (own / "site" / "signs.yaml").unlink()
    assert rules(lint_paths([own])) == {"unresolved-name"}


def test_its_trees_are_walked_with_them(
    own: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """What lint has proved is what a walk asks."""
    monkeypatch.setenv("SHOREWALK_HOME", str(own / "home"))
    monkeypatch.setattr("sys.stdin", TextIOWrapper(BytesIO()))
    assert run(["walk", str(own / "lamp.yaml"), "--jsonl"]) == Exit.UNFINISHED
    asked = json.loads(capsys.readouterr().out.splitlines()[-1])
    assert asked["sign"] == "post-lamp"
    assert [choice["id"] for choice in asked["choices"]] == ["lit", "dark"]


def test_its_parts_go_before_the_shipped_ones(tmp_path: Path) -> None:
    """A part of a shipped one's name is the folder's there; it is judged with the trees that put it in."""
    name = folders.trees() / "parts" / "skin.yaml"
    assert name.is_file()
    (tmp_path / "parts").mkdir()
    (tmp_path / "parts" / "skin.yaml").write_text(PART.replace("part: wordy-part", "part: skin"))
    (tmp_path / "uses.yaml").write_text(USES.replace("part: wordy-part", "part: skin"))
    report = lint_paths([tmp_path / "uses.yaml"])
    assert {Path(finding.place.file) for finding in report.findings} == {tmp_path / "parts" / "skin.yaml"}
    assert rules(report) == {"long-sentence"}


def test_milder_facts_are_told_whatever_is_named(own: Path) -> None:
    """With the folder, the file of facts or a tree beside it: nobody may miss that it stands on less."""
    (own / "site" / "signs.yaml").write_text(
        SIGNS + "plug-fit: {says: the plug, by: hand, at: pedestal, answers: {home: ok, partly: watch}}\n"
    )
    for named in (own, own / "lamp.yaml", own / "site" / "signs.yaml", own / "site"):
        (finding,) = lint_paths([named]).findings
        assert finding.rule == "own-facts"
        assert finding.place[:2] == (str(own / "site" / "signs.yaml"), 2)


@pytest.mark.parametrize(
    ("name", "fact", "told"),
    [
        ("cautions", 'dry-hands: {text: "Hands.", short: hands, source: common practice}', "`text`"),
        (
            "loads",
            'kettle: {says: a kettle, watts: ["1", "2"], follows: resistive, source: common practice}',
            "`watts`",
        ),
        ("states", 'shown-dead: {says: dead, values: ["yes", "no"]}', "`values`"),
        (
            "limits",
            'no-voltage: {value: "5", unit: V, kind: supply, says: x, source: common practice}',
            "`kind`",
        ),
    ],
)
def test_what_people_stand_on_cannot_be_put_otherwise(own: Path, name: str, fact: str, told: str) -> None:
    """Cautions, loads, states and kinds of limits stay as they are shared."""
    (own / "site" / f"{name}.yaml").write_text(fact + "\n")
    report = lint_paths([own])
    assert rules(report) == {"own-facts"}
    assert any(told in finding.message for finding in report.findings)


def test_a_whole_copy_of_the_shared_facts_is_no_change(own: Path) -> None:
    """Copying them to look at, and leaving them, is not held against anybody."""
    shutil.copytree(folders.trees() / "site", own / "site", dirs_exist_ok=True)
    (own / "site" / "signs.yaml").write_text(SIGNS)
    assert lint_paths([own]).findings == ()


def test_a_part_is_found_from_inside_its_folder(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """`cd parts; shorewalk lint read.yaml` reads it as the part it is."""
    (own / "parts").mkdir()
    (own / "parts" / "wordy-part.yaml").write_text(PART)
    (own / "uses.yaml").write_text(USES)
    monkeypatch.chdir(own / "parts")
    assert rules(lint_paths(["wordy-part.yaml"])) == {"long-sentence"}


def test_a_tree_and_a_part_may_have_one_name(own: Path) -> None:
    """Both are looked at, each as what it is."""
    (own / "parts").mkdir()
    (own / "parts" / "lamp.yaml").write_text(PART.replace("part: wordy-part", "part: lamp"))
    (own / "uses.yaml").write_text(USES.replace("part: wordy-part", "part: lamp"))
    report = lint_paths([own / "lamp.yaml", own / "parts" / "lamp.yaml"])
    assert (report.trees, report.parts) == (1, 1)
    assert {Path(finding.place.file).parent.name for finding in report.findings} == {"parts"}


def test_one_file_named_in_two_ways_is_one(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Its findings are told once, however it was named."""
    (own / "lamp.yaml").write_text(TREE.replace("unsure: leave", "unsure: leav"))
    monkeypatch.chdir(own)
    report = lint_paths(["lamp.yaml", own / "lamp.yaml", "site/signs.yaml", own / "site"])
    assert len(report.findings) == len({finding.message for finding in report.findings}) > 0
    assert report.trees == 1
