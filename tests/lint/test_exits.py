"""What the linter exits with, and what it says where it could not look at everything."""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any

import pytest

from shorewalk.cli import run
from shorewalk.exits import Exit
from shorewalk.lint import RULES, Finding, Rule, Severity, lint_paths
from shorewalk.lint.view import View

from .conftest import CASES

SOUND = (CASES / "no-ending" / "keeps.yaml").read_text(encoding="utf-8")
BROKEN = (CASES / "no-ending" / "breaks.yaml").read_text(encoding="utf-8")
WARNED = SOUND.replace("nodes:", "allows: {long-sentence: nothing here is long}\nnodes:")


@pytest.fixture
def trees(tmp_path: Path) -> Path:
    """A folder with one sound tree."""
    (tmp_path / "keeps.yaml").write_text(SOUND, encoding="utf-8")
    return tmp_path


def test_a_path_that_is_not_there_is_misuse(trees: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """All such paths are named on stderr, nothing is looked at, and nothing is on stdout."""
    (trees / "empty").mkdir()
    (trees / "notes.txt").write_text("x")
    words = [str(trees / name) for name in ("gone.yaml", "empty", "notes.txt", "keeps.yaml")]
    assert run(["lint", *words]) == Exit.USAGE
    said = capsys.readouterr()
    assert said.out == ""
    assert [line.split('"')[1] for line in said.err.splitlines()] == words[:3]


def test_warnings_alone_are_clean_unless_strict(trees: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nobody can be hurt by a warning; whoever wants none says `--strict`."""
    (trees / "keeps.yaml").write_text(WARNED, encoding="utf-8")
    assert run(["lint", str(trees)]) == Exit.CLEAN
    assert run(["lint", "--strict", str(trees)]) == Exit.FINDINGS
    assert capsys.readouterr().out.count("1 warning in 1 tree") == 2


@pytest.mark.parametrize("where", ["locked.yaml", "parts/locked.yaml", "site/limits.yaml"])
@pytest.mark.parametrize("how", ["a folder", "a dead link"])
def test_a_file_that_cannot_be_read_stops_nothing_else(
    trees: Path, where: str, how: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """It is named in a line with the reason, the other files' findings are told, and the exit says unfinished."""
    (trees / "breaks.yaml").write_text(BROKEN, encoding="utf-8")
    file = trees / where
    file.parent.mkdir(exist_ok=True)
    if how == "a folder":
        file.mkdir()
    else:
        file.symlink_to(trees / "nowhere")
    assert run(["lint", str(trees)]) == Exit.UNFINISHED
    said = capsys.readouterr()
    assert "Not all could be looked at." in said.out
    assert "[no-ending]" in said.out or where.startswith("site")
    line, last = said.err.splitlines()
    assert line.startswith(f"shorewalk: not finished: {file}: The file cannot be read (")
    assert last == "All else that was named was looked at."
    assert run(["lint", "--format", "json", str(trees)]) == Exit.UNFINISHED
    assert [each["file"] for each in json.loads(capsys.readouterr().out)["stopped"]] == [str(file)]


@pytest.mark.skipif(os.geteuid() == 0, reason="whoever may do everything can read everything")
def test_a_locked_file_is_told_with_the_reason(trees: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The same for a file that the reader has no right to."""
    (trees / "keeps.yaml").chmod(0)
    assert run(["lint", str(trees / "keeps.yaml")]) == Exit.UNFINISHED
    assert "(Permission denied)" in capsys.readouterr().err


def test_a_rule_that_stumbles_stops_no_other(trees: Path) -> None:
    """It is named with its error and where that came from; the other rules are heard."""

    def stumble(_: View) -> list[Finding]:
        raise KeyError("what\nwas not there")

    (trees / "breaks.yaml").write_text(BROKEN, encoding="utf-8")
    report = lint_paths([trees], rules=(Rule("stumbles", "It stumbles.", stumble), *RULES))
    (stopped,) = report.stopped
    assert stopped.message.startswith(
        r"The rule stumbles stopped at an error of its own (KeyError: 'what\nwas not there'; test_exits.py, line "
    )
    assert stopped.file is None
    assert {finding.rule for finding in report.findings} == {"no-ending", "unbounded-loop"}
    assert report.exit() == Exit.UNFINISHED


def test_a_folder_that_makes_the_linter_stumble_stops_no_other(trees: Path) -> None:
    """Whatever goes wrong outside the rules is told in a line too."""
    broken: Any = object()  # not a rule
    report = lint_paths([trees], rules=(broken,))
    (stopped,) = report.stopped
    assert stopped.message.startswith(f"Looking at {trees} stopped at an error of its own (AttributeError: ")
    assert report.exit() == Exit.UNFINISHED


def test_nothing_is_in_vain_where_a_rule_stumbled(trees: Path) -> None:
    """A rule that was not heard cannot have found nothing."""

    def stumble(_: View) -> list[Finding]:
        raise ValueError

    (trees / "keeps.yaml").write_text(WARNED, encoding="utf-8")
    rules = tuple(
        Rule(rule.id, rule.summary, stumble, silenceable=True) if rule.id == "long-sentence" else rule
        for rule in RULES
    )
    assert [finding.severity for finding in lint_paths([trees]).findings] == [Severity.WARNING]
    assert lint_paths([trees], rules=rules).findings == ()
