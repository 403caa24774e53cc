"""What the trees of a walk were, in one short text."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk.journal.content import content_of
from shorewalk.tree.library import Library, shipped
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import begin

from .conftest import TREE

PART = """\
part: told
about: Says something.
takes: []
exits: [said]
begin: read
nodes:
  read: {step: Read this., done: said, cannot: said}
"""
WITH_PART = TREE.replace("done: light, cannot: out}", "done: told, cannot: out}") + (
    "  told: {part: told, exits: {said: light}}\n"
)


@pytest.fixture
def folder(trees: Path) -> Path:
    """A folder with a tree that has a part in it, and another tree."""
    (trees / "small.yaml").write_text(WITH_PART)
    (trees / "other.yaml").write_text(TREE.replace("tree: small", "tree: other"))
    (trees / "parts").mkdir()
    (trees / "parts" / "told.yaml").write_text(PART)
    return trees


def content(folder: Path) -> str | None:
    return content_of(begin(Library(folder, checked=False), "small", parse_meter("basic")))


def test_a_part_that_changed_is_another_content(folder: Path) -> None:
    """The tree, a part of it, and facts laid over the shipped ones count; another tree does not."""
    before = content(folder)
    assert before == content(folder)
    (folder / "other.yaml").write_text(
        TREE.replace("tree: small", "tree: other").replace("It was small.", "It was tiny.")
    )
    assert content(folder) == before
    (folder / "parts" / "told.yaml").write_text(PART.replace("Read this.", "Read that."))
    after = content(folder)
    assert after != before
    (folder / "site").mkdir()
    (folder / "site" / "limits.yaml").write_text("{}\n")
    assert content(folder) not in (before, after)


def test_every_part_of_the_shipped_trees_counts() -> None:
    """The parts found by their text are those that the trees are made of."""
    from shorewalk.journal.content import _with_parts

    library = shipped()
    for name in library.names():
        tree = library.tree(name)
        files = {tree.file, *(node.file for node in tree.nodes.values())}
        assert {str(path) for path in _with_parts(library, Path(tree.file))} == files
