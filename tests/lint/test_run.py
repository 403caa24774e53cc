"""What is looked at, how it is counted, and what it exits with."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from shorewalk.cli import run
from shorewalk.exits import Exit
from shorewalk.lint import Severity, lint_paths
from shorewalk.lint.writing.as_json import write_json
from shorewalk.lint.writing.text import write_text

from .conftest import CASES, Lint

PART = """\
part: read-it
takes: [place]
exits: [read]
begin: volts
nodes:
  volts:
    measure: {what: ac-volts, place: $place, from: L, to: N}
    bands:
      - {below: service-a-low, grade: watch, goto: read}
      - {grade: stop, goto: read}
    unable: read
"""
TREE = """\
tree: thrice
symptom: Something for a test
starts: {cord: unplugged, test-load: "off", cautions: read}
begin: one
nodes:
  one: {part: read-it, with: {place: pedestal-30}, exits: {read: two}}
  two: {part: read-it, with: {place: pedestal-20}, exits: {read: three}}
  three: {part: read-it, with: {place: pedestal-20-other-half}, exits: {read: stop_here}}
  stop_here:
    end: unplug-now
    because: It is not known to be safe.
    safe_action: Keep the cord out.
    call: park
"""
SOUND = (CASES / "unreachable" / "keeps.yaml").read_text(encoding="utf-8")
UNREACHED = (CASES / "unreachable" / "breaks.yaml").read_text(encoding="utf-8")


def test_a_fault_in_a_part_used_three_times_is_one_finding(lint: Lint) -> None:
    """It stands where it was written, and says the three places that use it."""
    (finding,) = lint({"thrice.yaml": TREE, "parts/read-it.yaml": PART}).findings
    assert finding.rule == "grade-too-mild"
    assert Path(finding.place.file).name == "read-it.yaml"
    used = [related.label for related in finding.related if related.label.startswith("used at")]
    assert used == [f"used at {name} in the tree thrice" for name in ("one", "two", "three")]


def test_a_broken_file_hides_nothing_of_the_others(lint: Lint) -> None:
    """A file that is no YAML is a finding at its place; the other file's findings are told beside it."""
    report = lint({"broken.yaml": "tree: [broken\nnodes: {}\n", "breaks.yaml": UNREACHED})
    assert {(Path(f.place.file).name, f.rule) for f in report.findings} == {
        ("broken.yaml", "file"),
        ("breaks.yaml", "unreachable"),
    }


def test_a_file_cannot_steer_the_terminal(lint: Lint) -> None:
    """Characters that move the cursor or turn the text about are shown as question marks."""
    said = write_text(lint({"odd.yaml": "tree: \x1b[2Jodd \u202e\n"}))
    assert "tree: ?[2Jodd ?" in said
    assert "\x1b" not in said
    assert "\u202e" not in said


def test_findings_come_in_one_order_every_time(lint: Lint) -> None:
    """File, line, column, rule; the same from run to run."""
    files = {
        f"{case.parent.name}.yaml": case.read_text(encoding="utf-8") for case in CASES.glob("*/breaks.yaml")
    }
    files = {name: text.replace("tree: breaks", f"tree: {name[:-5]}") for name, text in files.items()}
    first = lint(files)
    assert len({finding.rule for finding in first.findings}) > 10
    assert list(first.findings) == sorted(first.findings)
    assert lint(dict(reversed(files.items()))).findings == first.findings


def test_json_tells_all_that_the_text_tells(lint: Lint) -> None:
    """Every finding with its place, rule and message; the counts are the report's."""
    report = lint({"breaks.yaml": UNREACHED})
    told = json.loads(write_json(report))
    assert told["version"] == 1
    assert told["summary"] == {"errors": 1, "warnings": 0, "silenced": 0, "trees": 1, "parts": 0}
    (finding,) = told["findings"]
    assert (finding["rule"], finding["severity"], finding["line"], finding["column"]) == (
        "unreachable",
        Severity.ERROR,
        10,
        3,
    )
    assert finding["message"] in write_text(report)


def test_the_shipped_trees_break_no_rule() -> None:
    """All trees, parts and facts that come with the program, at once."""
    report = lint_paths()
    assert report.findings == ()
    assert report.trees >= 24
    assert report.parts > 0


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (["lint", str(CASES / "unreachable" / "keeps.yaml")], Exit.CLEAN),
        (["lint", str(CASES / "unreachable" / "breaks.yaml")], Exit.FINDINGS),
        (["lint", str(CASES / "unreachable" / "not-there.yaml")], Exit.USAGE),
        (["lint", "--format", "poem"], Exit.USAGE),
    ],
)
def test_what_lint_exits_with(words: list[str], code: Exit, capsys: pytest.CaptureFixture[str]) -> None:
    """0 where nothing was found, 1 with findings, 2 where it was asked wrongly; and it says something."""
    assert run(words) == code
    said = capsys.readouterr()
    assert said.out or said.err
