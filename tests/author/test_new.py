"""What `shorewalk new` writes is sound, is completed by editors, and never takes the place of anything."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from shorewalk.author.new import NotWritten, write_new
from shorewalk.exits import Exit
from shorewalk.lint import lint_paths
from shorewalk.tree.library import Library
from shorewalk.tree.model import ALLOW_USE, End, Use, Written, ways_out
from shorewalk.tree.schema import schema_text
from shorewalk.tree.source import read_source

FIRST = "# yaml-language-server: $schema="


def run(*words: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "shorewalk", *words], capture_output=True, text=True, check=False, cwd=cwd
    )


def put_in(tree: Path, part: str) -> None:
    """Put a part into a new tree, between its cautions and its own questions."""
    text = tree.read_text(encoding="utf-8")
    use = f"  look_first: {{part: {part}, exits: {{clear: smell, doubt: not_sure}}}}\n"
    text = text.replace("done: smell", "done: look_first").replace("  smell:\n", f"{use}  smell:\n", 1)
    tree.write_text(text, encoding="utf-8")


def test_a_new_tree_has_no_findings(tmp_path: Path) -> None:
    """Every rule is kept from the first line on, warnings included."""
    new = write_new("low-at-supper", tmp_path)
    report = lint_paths([new.file])
    assert (report.trees, report.findings) == (1, ())


def test_a_new_part_has_no_findings_where_a_tree_puts_it_in(tmp_path: Path) -> None:
    """A part alone is told to be unused; put in as it is told to be, it is sound."""
    tree = write_new("low-at-supper", tmp_path)
    part = write_new("first-look", tmp_path, part=True)
    assert part.file == tmp_path / "parts" / "first-look.yaml"
    assert [finding.rule for finding in lint_paths([part.file]).findings] == ["unreachable"]
    put_in(tree.file, "first-look")
    report = lint_paths([tmp_path])
    assert (report.trees, report.parts, report.findings) == (1, 1, ())


def test_a_new_tree_begins_with_cautions_and_ends_safely(tmp_path: Path) -> None:
    """Before anything else the cautions; no ending allows use, and not knowing never leads to the good one."""
    tree = Library(write_new("low-at-supper", tmp_path).file.parent).tree("low-at-supper")
    assert tree.nodes[tree.begin].cautions
    ends = {name: node for name, node in tree.nodes.items() if isinstance(node, End)}
    verdicts = {node.verdict for node in ends.values()}
    assert {"leave-as-is", "hands-off"} <= verdicts
    assert not verdicts & set(ALLOW_USE)
    doubts = {
        way.goto
        for node in tree.nodes.values()
        for label, way in ways_out(node)
        if label in ("unsure", "cannot")
    }
    assert doubts <= {name for name, node in ends.items() if node.verdict in ("hands-off", "emergency")}


@pytest.mark.parametrize("part", [False, True])
def test_the_first_line_leads_to_a_schema_that_fits(tmp_path: Path, *, part: bool) -> None:
    """Outside the shipped trees too: the line resolves from the file itself, to the schema of this version."""
    file = write_new("first-look", tmp_path, part=part).file
    text = file.read_text(encoding="utf-8")
    line = text.splitlines()[0]
    assert line.startswith(FIRST)
    schema = file.parent / line.removeprefix(FIRST)
    assert schema.read_text(encoding="utf-8") == schema_text()
    jsonschema.Draft202012Validator(json.loads(schema.read_text(encoding="utf-8"))).validate(
        read_source(text, str(file)).data
    )


def test_a_schema_that_is_there_stays(tmp_path: Path) -> None:
    """One that is not ours, or of another version, is left alone; how to renew it is said."""
    (tmp_path / "schema.json").write_text("{}", encoding="utf-8")
    new = write_new("low-at-supper", tmp_path)
    assert (tmp_path / "schema.json").read_text(encoding="utf-8") == "{}"
    assert "shorewalk schema >" in new.told


def test_nothing_is_written_over(tmp_path: Path) -> None:
    """A second time the file stays as its author left it."""
    file = write_new("low-at-supper", tmp_path).file
    file.write_text("mine\n", encoding="utf-8")
    with pytest.raises(NotWritten, match="left as it is"):
        write_new("low-at-supper", tmp_path)
    assert file.read_text(encoding="utf-8") == "mine\n"


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("low_at_supper", "Write it as low-at-supper."),
        ("Low At Supper", "Write it as low-at-supper."),
        ("../away", "The folder comes after the name: shorewalk new NAME .."),
        ("", "is not a name"),
        ("ümläut", "is not a name"),
    ],
)
def test_a_name_that_cannot_be_is_told(tmp_path: Path, name: str, said: str) -> None:
    """Trees are named in kebab-case; what could be meant is said, and nothing is written."""
    with pytest.raises(NotWritten) as told:
        write_new(name, tmp_path)
    assert said in str(told.value)
    assert list(tmp_path.iterdir()) == []


def test_the_ending_of_the_file_may_be_typed(tmp_path: Path) -> None:
    """Whoever types the file's name means the tree's."""
    assert write_new("low-at-supper.yaml", tmp_path).file == tmp_path / "low-at-supper.yaml"


def test_a_part_may_be_asked_for_in_its_own_folder(tmp_path: Path) -> None:
    """`parts` is not put into `parts`."""
    assert write_new("first-look", tmp_path / "parts", part=True).file.parent == tmp_path / "parts"


def test_what_is_said_next_works(tmp_path: Path) -> None:
    """The node that the command prints for a part is the one to type, and the commands it names exist."""
    told = run("new", "first-look", "--part", cwd=tmp_path)
    assert told.returncode == Exit.CLEAN
    lines = told.stdout.splitlines()
    begin = lines.index("  first_look:")
    node = "".join(f"{line}\n" for line in lines[begin : begin + 3])
    text = f"tree: a\nsymptom: b\nbegin: first_look\nnodes:\n{node}".replace("NODE", "x")
    (tmp_path / "a.yaml").write_text(text, encoding="utf-8")
    written: Written = Library(tmp_path).written("a")
    assert isinstance(written.nodes["first_look"], Use)
    assert run("new", "first-look", "--part", cwd=tmp_path).returncode == Exit.USAGE
    assert run("lint", ".", cwd=tmp_path).returncode == Exit.FINDINGS
    assert run("new", "low-at-supper", "more", cwd=tmp_path).returncode == Exit.CLEAN
    assert (tmp_path / "more" / "low-at-supper.yaml").is_file()
