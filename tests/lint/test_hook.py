"""The hook that other repositories run before a commit."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path
from typing import Any

import pytest
import yaml

from shorewalk.cli import run
from shorewalk.exits import Exit

from .conftest import CASES
from .test_silence import PART, USES

HOOKS = Path(__file__).parents[2] / ".pre-commit-hooks.yaml"


@pytest.fixture
def hook() -> dict[str, Any]:
    """The one hook there is."""
    if not HOOKS.is_file():
        pytest.skip("an installed package carries no hooks; repositories get them from the clone")
    (hook,) = yaml.safe_load(HOOKS.read_text(encoding="utf-8"))
    return dict(hook)


def ran(hook: dict[str, Any], *files: str) -> int:
    """Run the hook's command as pre-commit does, with the files that changed."""
    program, *words = shlex.split(hook["entry"])
    assert program == "shorewalk"
    return run([*words, *files])


def test_the_hook_looks_at_trees_parts_and_facts_alone(hook: dict[str, Any]) -> None:
    """Other YAML of a repository is none of its business, nor is what lies deeper."""
    pattern = re.compile(hook["files"])
    for file in ("trees/arrival.yaml", "trees/parts/skin.yaml", "trees/site/limits.yaml"):
        assert pattern.search(file)
    for file in ("compose.yaml", "docs/trees/arrival.yaml", "trees/schema.json", "trees/old/arrival.yaml"):
        assert not pattern.search(file)
    assert re.search(hook["exclude"], "elsewhere/walks/supper.yaml")  # also where `files` is set anew
    assert not re.search(hook["exclude"], "trees/sidewalks.yaml")
    assert hook["types"] == ["yaml"]
    assert hook["language"] == "python"


def test_a_changed_part_fails_for_the_trees_it_breaks(
    hook: dict[str, Any], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The part alone was changed, and the tree beside it leads nowhere now: that is told, and stops the commit."""
    monkeypatch.chdir(tmp_path)
    for name, text in (("uses", USES), ("parts/wordy-part", PART)):
        file = Path("trees") / f"{name}.yaml"
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text)
    assert ran(hook, "trees/parts/wordy-part.yaml") == Exit.CLEAN
    part = Path("trees/parts/wordy-part.yaml")
    part.write_text(
        PART.replace("exits: [done]", "exits: [done, other]").replace("cannot: done", "cannot: other")
    )
    capsys.readouterr()
    assert ran(hook, "trees/parts/wordy-part.yaml") == Exit.FINDINGS
    assert re.search(
        r"^trees/uses.yaml:\d+:\d+: error: .*\[exit-not-connected\]$", capsys.readouterr().out, re.MULTILINE
    )


@pytest.mark.parametrize("named", ["trees/breaks.yaml", "trees/keeps.yaml"])
def test_a_bad_tree_fails_whatever_was_changed_beside_it(
    hook: dict[str, Any], named: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The whole folder is looked at."""
    (tmp_path / "trees").mkdir()
    for stem in ("breaks", "keeps"):
        shutil.copy(CASES / "no-ending" / f"{stem}.yaml", tmp_path / "trees")
    monkeypatch.chdir(tmp_path)
    assert ran(hook, named) == Exit.FINDINGS
