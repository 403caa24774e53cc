"""What the README says is true. What it lists is drawn anew with `SHOREWALK_REDRAW=1`."""

from __future__ import annotations

import os
import re
import shlex
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

import pytest

from shorewalk import __version__
from shorewalk.commands import key_table
from shorewalk.exits import MEANINGS
from shorewalk.listing import tree_tables
from shorewalk.sections import sections_of
from shorewalk.subcommands.group import shorewalk
from shorewalk.surroundings import ENVIRONMENT, FILES, table_of
from shorewalk.tree.library import shipped

TOP = Path(__file__).parent.parent
README = (TOP / "README.md").read_text(encoding="utf-8")


def contents() -> Iterator[str]:
    """Yield the line of contents: every chapter after the first two, in its order."""
    headings = re.findall(r"^## (.+)$", README, re.MULTILINE)[1:]
    links = (f"[{name}](#{re.sub('[^a-z0-9 ]', '', name.lower()).replace(' ', '-')})" for name in headings)
    yield f"**Below:** {' · '.join(links)}"


def settings() -> Iterator[str]:
    """Yield the tables of variables, files and exit codes."""
    yield from table_of("variable", ENVIRONMENT)
    yield ""
    yield from table_of("file", FILES)
    yield ""
    yield from table_of("exit code", [(str(int(code)), says) for code, says in MEANINGS.items()])
    yield ""


DRAWN: dict[str, tuple[str, str, Callable[[], Iterable[str]]]] = {
    "contents": ("`shorewalk --help`.\n\n", "\n\n## What else", contents),
    "settings": ("## Files, variables, exit codes\n\n", "\n## Checking trees\n", settings),
    "trees": ("## The trees\n\n", "\n## Files,", lambda: tree_tables(sections_of(shipped()))),
}
"""What of the README is made: between which two pieces of text it stands, and what makes it."""


@pytest.mark.parametrize("part", DRAWN)
def test_what_the_readme_lists_is_so(part: str) -> None:
    """Contents, trees, variables, files and exit codes stand there in the words of the program."""
    begin, end, lines = DRAWN[part]
    readme = (TOP / "README.md").read_text(encoding="utf-8")
    before, _, rest = readme.partition(begin)
    there, _, after = rest.partition(end)
    wanted = "\n".join(lines())
    if os.environ.get("SHOREWALK_REDRAW"):
        (TOP / "README.md").write_text(f"{before}{begin}{wanted}{end}{after}", encoding="utf-8")
    elif there != wanted:
        pytest.fail(f"{part} changed: SHOREWALK_REDRAW=1 .venv/bin/pytest -n0 tests/test_readme.py")


def commands() -> list[str]:
    """Return every command of ours that the README tells to type, in running text or in a block."""
    inline = re.findall(r"`(shorewalk [^`]+)`", README)
    typed = re.findall(r"(?:^\$ |\| )(shorewalk [^|`\n]+)", README, re.MULTILINE)
    return sorted({command.strip() for command in (*inline, *typed)} - {"shorewalk --help"})


@pytest.mark.parametrize("command", commands())
def test_every_command_of_the_readme_is_one(command: str) -> None:
    """Its name, its options and how many words it takes are understood."""
    words = shlex.split(re.split(" [>|]", command)[0])[1:]
    context = shorewalk.make_context("shorewalk", list(words))
    if words and not words[0].startswith("-"):
        _, found, rest = shorewalk.resolve_command(context, words)
        assert found
        found.make_context(words[0], rest, parent=context)


def test_the_hook_names_this_version() -> None:
    """What a newcomer copies for other repositories is not behind the program."""
    assert f"rev: v{__version__}\n" in README


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
