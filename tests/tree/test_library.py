"""A folder of trees, read as it is wanted."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from shorewalk import folders
from shorewalk.tree.expand import Nodes
from shorewalk.tree.library import Header, Library, shipped
from shorewalk.tree.source import Place, TreeError

Make = Callable[..., Library]
SAMPLES = Path(__file__).parent / "samples"
TREE = (SAMPLES / "small.yaml").read_text(encoding="utf-8")


def test_names_and_headers(library: Make) -> None:
    """The start screen gets each tree's name and what a person would say, without the nodes being read."""
    found = library({"broken.yaml": "tree: broken\nsymptom: It hums\ntells: [a, b]\nnodes: {a: &b [c\n"})
    assert found.names() == ["broken", "small"]
    assert found.header("small") == Header("small", "We want to plug in", ("new site",))
    assert found.header("broken") == Header("broken", "It hums", tells=("a", "b"))


def test_a_header_without_a_symptom_is_told(library: Make) -> None:
    """A tree nobody could find by its symptom says so."""
    with pytest.raises(TreeError, match=r'small.yaml:1:1: "symptom" is missing here'):
        library({"small.yaml": "tree: small\nnodes: {}\n"}).header("small")


def test_a_tree_is_read_once(library: Make) -> None:
    """Asking twice gives the very same tree."""
    found = library()
    assert found.tree("small") is found.tree("small")
    assert found.written("small") is found.written("small")


def test_checked_and_quick_reading_give_the_same_tree(library: Make) -> None:
    """A walk on a quickly read tree is a walk on the checked one."""
    assert library(checked=True).tree("small") == library(checked=False).tree("small")


def test_shipped_trees_are_alike_checked_and_quick() -> None:
    """The same, whole trees with their parts, for all that comes with the program."""
    checked = Library(folders.trees(), checked=True)
    for name in shipped().names():
        assert checked.tree(name) == shipped().tree(name), name
    assert checked.site == shipped().site


def test_a_name_that_is_not_there(library: Make) -> None:
    """A tree or part that is not there is a KeyError that names the nearest one."""
    with pytest.raises(KeyError, match=r'There is no tree "smal"'):
        library().tree("smal")
    with pytest.raises(KeyError) as caught:
        library().part("slot")
    assert "slots" in caught.value.args[1]


def test_a_file_holds_what_its_name_and_folder_say(library: Make) -> None:
    """One tree a file, named after it; trees above, parts under `parts/`."""
    other = library({"small.yaml": TREE.replace("tree: small", "tree: other")})
    with pytest.raises(
        TreeError, match=r"small.yaml:1:7: This is `tree: other`. In this file `tree: small` is"
    ):
        other.tree("small")
    tree = library({"small.yaml": TREE, "parts/slots.yaml": TREE.replace("tree: small", "tree: slots")})
    with pytest.raises(
        TreeError, match=r"slots.yaml:1:7: This is `tree: slots`. In this file `part: slots` is"
    ):
        tree.tree("small")


def test_a_folder_without_parts_or_facts_uses_the_shipped_ones(tmp_path: Path) -> None:
    """A tree of one's own needs no copy of what all trees share."""
    (tmp_path / "own.yaml").write_text(TREE.replace("tree: small", "tree: own"), encoding="utf-8")
    own = Library(tmp_path)
    assert set(shipped().part_names()) <= set(own.part_names())
    assert own.site.limits == shipped().site.limits


def test_a_part_of_ones_own_goes_first(library: Make) -> None:
    """A folder's own part hides the shipped one of that name."""
    name = shipped().part_names()[0]
    part = (SAMPLES / "parts/slots.yaml").read_text(encoding="utf-8").replace("part: slots", f"part: {name}")
    own = library({f"parts/{name}.yaml": part})
    assert Path(own.part(name).file).parent == own.folder / "parts"


def test_a_place_is_found_by_node_and_word(library: Make) -> None:
    """Whoever holds a node finds where it, or a word in it, is written."""
    found = library()
    node = found.tree("small").nodes["at_30.verdict"]
    assert found.find(node.file, node.route) == Place(node.file, 11, 3)
    assert found.find(node.file, node.route, "no-voltage") == Place(node.file, 13, 38)
    assert found.find(node.file, node.route, "nothing of it") == Place(node.file, 11, 3)


def test_quick_nodes_are_made_when_wanted(library: Make) -> None:
    """A quick tree makes a node when it is asked for one, and is a mapping like any other."""
    nodes = library(checked=False).tree("small").nodes
    assert isinstance(nodes, Nodes)
    assert nodes["at_30.verdict"].name == "at_30.verdict"
    assert len(nodes) == 5
    assert list(nodes) == list(dict(nodes))
    assert "at_30" not in nodes
    assert "main_off.x" not in nodes
    assert "nobody" not in nodes
    assert "at_30.hot_neutral" in repr(nodes)


def test_a_file_that_cannot_be_read_is_told(library: Make) -> None:
    """A folder where a file should be is a problem with a place, not a traceback."""
    found = library()
    (found.folder / "site" / "limits.yaml").mkdir()
    with pytest.raises(TreeError, match=r"limits.yaml:1:1: The file cannot be read"):
        Library(found.folder, checked=False).site.limits.get("x")


HEAVY = ("pydantic", "pydantic_core", "networkx", "numpy", "uncertainties", "jsonschema", "difflib")


def test_walking_loads_nothing_heavy() -> None:
    """Reading every shipped tree and fact whole loads no library that only checking or drawing needs."""
    code = (
        "import sys\n"
        "from shorewalk.tree.library import shipped\n"
        "from dataclasses import fields\n"
        "library = shipped()\n"
        "for name in library.names():\n"
        "    library.header(name), dict(library.tree(name).nodes)\n"
        "assert all(len(getattr(library.site, field.name)) for field in fields(library.site))\n"
        f"print(sorted(set(sys.modules) & set({HEAVY!r})))"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"
