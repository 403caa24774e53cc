"""What the README says is true."""

from __future__ import annotations

from pathlib import Path

from shorewalk.commands import key_table
from shorewalk.tree.library import shipped

TOP = Path(__file__).parent.parent
README = (TOP / "README.md").read_text(encoding="utf-8")


def test_the_readme_names_every_tree_by_its_symptom() -> None:
    """Every shipped tree stands in the README's table in the words of its file, and no other does."""
    rows = [line for line in README.splitlines() if line.startswith("| ") and line.endswith("` |")]
    headers = [shipped().header(name) for name in shipped().names()]
    assert sorted(rows) == sorted(f"| {header.symptom} | `{header.name}` |" for header in headers)


def test_every_tree_says_what_it_tells_apart() -> None:
    """Every shipped tree has `tells`: at least two short phrases, without a full stop."""
    for name in shipped().names():
        tells = shipped().header(name).tells
        assert len(set(tells)) >= 2, f"{name}: write `tells: [one thing, another]`"
        assert not [phrase for phrase in tells if len(phrase) > 60 or phrase.endswith(".")], name


def test_the_readme_has_the_keys_of_the_app() -> None:
    """The table of keys is the one the app is made from."""
    assert "\n".join(key_table()) in README


def test_continuous_integration_runs_the_command_the_readme_gives() -> None:
    """The README's test command is the one that is run for every change."""
    ci = TOP / ".ci" / "run"
    command = next(line for line in README.splitlines() if line.endswith(".venv/bin/pytest -q"))
    if ci.exists():  # it stays behind where only the installed package is tested
        assert command in ci.read_text(encoding="utf-8").splitlines()
