"""The authors' guide in the README, done as it says: every edit made, every command run, its output compared.

After a wanted change of what a command prints: `SHOREWALK_REDRAW=1 pytest tests/author/test_guide.py`, then read it.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import yaml

from shorewalk.commands import author_key_table
from shorewalk.marks import GRADES, VERDICTS
from shorewalk.tree.build import PART_KEYS, TREE_KEYS
from shorewalk.tree.nodes import COMMON, KEYS
from shorewalk.tree.schema import schema

TOP = Path(__file__).parents[2]
README = TOP / "README.md"
BEGIN, END = "## Write a tree in ten minutes\n", "## What a tree is made of\n"
FENCE = re.compile(r"^```(\w+)\n(.*?)^```$", re.DOTALL | re.MULTILINE)
CHANGE = re.compile(r"[Cc]hange `([^`]+)` to\s+`([^`]+)`|and `([^`]+)` to\s+`([^`]+)`")
ABOVE = re.compile(r"above\s+the\s+line\s+`([^`]+)`[^`]*$")
FILE = re.compile(r"`([\w./-]+\.yaml)`:\s*$")


class Block(NamedTuple):
    """A fenced block: its language and text, and the prose since the last one."""

    prose: str
    language: str
    text: str


def guide() -> str:
    text = README.read_text(encoding="utf-8")
    return text[text.index(BEGIN) : text.index(END)]


def blocks() -> Iterator[Block]:
    text, at = guide(), 0
    for fence in FENCE.finditer(text):
        yield Block(text[at : fence.start()], fence[1], fence[2])
        at = fence.end()


class Author:
    """Somebody who follows the guide in an empty folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.tree = folder / "juniper" / "low-at-supper.yaml"

    def edit(self, prose: str) -> None:
        """Make the changes that the prose asks for."""
        for change in CHANGE.finditer(prose):
            old, new = (" ".join(part.split()) for part in change.groups() if part)
            text = self.tree.read_text(encoding="utf-8")
            assert text.count(old) == 1, old
            self.tree.write_text(text.replace(old, new), encoding="utf-8")

    def put(self, prose: str, text: str) -> None:
        """Put lines into the tree above the line that the prose names, or write the file that it names."""
        if above := ABOVE.search(prose):
            lines = self.tree.read_text(encoding="utf-8").splitlines(keepends=True)
            (at,) = [n for n, line in enumerate(lines) if line.strip().startswith(above[1])]
            self.tree.write_text("".join([*lines[:at], text, *lines[at:]]), encoding="utf-8")
        else:
            named = FILE.search(prose)
            assert named, prose
            file = self.folder / named[1]
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text, encoding="utf-8")

    def run(self, command: str) -> str:
        """Run one command of the guide; return all that it printed."""
        env = {
            **os.environ,
            "PATH": f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}",
            "SHOREWALK_HOME": str(self.folder / "home"),
            "COLUMNS": "100",
            "LANG": "C.UTF-8",
        }
        ended = subprocess.run(  # noqa: S602 (the README's own lines, as a person types them)
            command,
            shell=True,
            cwd=self.folder,
            env=env,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            check=False,
        )
        return ended.stdout

    def run_all(self, text: str) -> str:
        """Return the console block as it should stand."""
        commands = [line for line in text.splitlines() if line.startswith("$ ")]
        return "".join(f"{line}\n{self.run(line.removeprefix('$ '))}" for line in commands)


def test_the_guide_does_what_it_says(tmp_path: Path) -> None:
    """Followed line by line, every edit finds its place and every command prints what the guide shows."""
    author, wrong = Author(tmp_path), []
    for prose, language, text in blocks():
        author.edit(prose)
        if language == "console":
            printed = author.run_all(text).replace(str(TOP), "...")
            if printed != text:
                wrong.append((text, printed))
        else:
            author.put(prose, text)
    if os.environ.get("SHOREWALK_REDRAW"):
        readme = README.read_text(encoding="utf-8")
        for text, printed in wrong:
            readme = readme.replace(f"```console\n{text}```", f"```console\n{printed}```", 1)
        README.write_text(readme, encoding="utf-8")
    assert [printed for _, printed in wrong] == [text for text, _ in wrong]


def test_the_hook_of_the_guide_is_ours() -> None:
    """The hook that the guide names is one that this repository offers."""
    (text,) = [block.text for block in blocks() if ".pre-commit-config.yaml" in block.prose]
    (named,) = yaml.safe_load(text)["repos"][0]["hooks"]
    offered = TOP / ".pre-commit-hooks.yaml"
    if offered.exists():  # it stays behind where only the installed package is tested
        hooks = yaml.safe_load(offered.read_text(encoding="utf-8"))
        assert named["id"] in {hook["id"] for hook in hooks}


def table(heading: str) -> list[list[str]]:
    """Return the rows of the README's table under a heading row."""
    lines = README.read_text(encoding="utf-8").splitlines()
    rows: list[list[str]] = []
    for line in lines[lines.index(heading) + 2 :]:
        if not line.startswith("|"):
            break
        rows.append([cell.strip() for cell in line.strip("|").split("|")])
    return rows


def test_the_table_of_nodes_has_every_kind_and_key() -> None:
    """Each kind of node stands there with exactly the keys it may have."""
    rows = {
        row[0].strip("`"): set(re.findall(r"`([\w_]+)`", row[2]))
        for row in table("| node | what it is | its keys |")
    }
    assert rows == {**{kind: set(keys) for kind, keys in KEYS.items()}, "any": set(COMMON)}


def test_the_keys_of_files_are_told() -> None:
    """What a tree's and a part's file, a band and a row may have stands there in full."""
    told = README.read_text(encoding="utf-8").split("The file of a tree has ")[1].split("The last band")[0]
    tree, part, band, row = re.split("That of a part has|A band is|a judge's row", told)
    words = [set(re.findall(r"`(\w+)`", text)) for text in (tree, part, band, row)]
    shapes = schema()["$defs"]
    more = [
        set(shapes[name]["properties"]) - set(shapes["WayShape"]["properties"])
        for name in ("BandShape", "RowShape")
    ]
    assert words == [set(TREE_KEYS), set(PART_KEYS), *more]


def test_the_tables_of_grades_and_verdicts_are_whole() -> None:
    """Each grade and verdict stands there with the word and the mark that the screen shows."""
    for heading, marks in (
        ("| grade | shown as | means |", GRADES),
        ("| verdict | shown as | means |", VERDICTS),
    ):
        rows = {row[0].strip("`"): row[1] for row in table(heading)}
        shown = {name: f"{mark.mark} {mark.word}" for name, mark in marks.items()}
        assert {name: words for name, words in rows.items() if name != "again"} == shown


def test_the_readme_has_the_keys_of_the_preview() -> None:
    """The table of the preview's keys is the one it is made from."""
    assert "\n".join(author_key_table()) in README.read_text(encoding="utf-8")
