"""What the README says is true. Its list of the trees is drawn anew with `SHOREWALK_REDRAW=1`."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from shorewalk.commands import key_table
from shorewalk.listing import tree_tables
from shorewalk.sections import sections_of
from shorewalk.tree.library import shipped

TOP = Path(__file__).parent.parent
README = (TOP / "README.md").read_text(encoding="utf-8")


def test_the_readme_lists_the_trees() -> None:
    """Every shipped tree stands in the list, in the words of its file; after a change, draw the list anew."""
    begin, end = "## The trees\n\n", "## Checking trees\n"
    before, _, rest = README.partition(begin)
    listed, _, after = rest.partition(end)
    wanted = "\n".join(tree_tables(sections_of(shipped()))) + "\n"
    if os.environ.get("SHOREWALK_REDRAW"):
        (TOP / "README.md").write_text(f"{before}{begin}{wanted}{end}{after}", encoding="utf-8")
    elif listed != wanted:
        pytest.fail("The trees changed: SHOREWALK_REDRAW=1 .venv/bin/pytest tests/test_readme.py")


def test_every_tree_says_what_it_tells_apart() -> None:
    """Every shipped tree has `tells`: at least two short phrases, without a full stop."""
    for name in shipped().names():
        tells = shipped().header(name).tells
        assert len(set(tells)) >= 2, f"{name}: write `tells: [one thing, another]`"
        assert not [phrase for phrase in tells if len(phrase) > 80 or phrase.endswith(".")], name


def test_the_readme_has_the_keys_of_the_app() -> None:
    """The table of keys is the one the app is made from."""
    assert "\n".join(key_table()) in README


def test_continuous_integration_runs_the_command_the_readme_gives() -> None:
    """The README's test command is the one that is run for every change."""
    ci = TOP / ".ci" / "run"
    command = next(line for line in README.splitlines() if line.endswith(".venv/bin/pytest -q"))
    if ci.exists():  # it stays behind where only the installed package is tested
        assert command in ci.read_text(encoding="utf-8").splitlines()
