"""A small tree or part to begin with, written where its author wants it: sound from the first line on.

The first line tells editors where the JSON Schema is, so that they complete and check while one types. A copy of
it goes beside the trees where none is: a folder of trees can then be moved or handed on, and still be completed.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import get_args

from shorewalk.tree.kinds import Id
from shorewalk.tree.schema import schema_text

STARTERS = Path(__file__).parent / "starters"
SCHEMA = "schema.json"


class NotWritten(Exception):  # noqa: N818 (said to a person, not an error of the program)
    """Nothing was written; the sentence says why, and what to do."""


@dataclass(frozen=True, slots=True)
class New:
    """What was written: the file, and the schema beside it where there was none."""

    kind: str
    name: str
    file: Path
    schema: Path
    schema_is_new: bool
    schema_is_old: bool

    @property
    def told(self) -> str:
        """What was written, and what to do next."""
        return "\n".join([*self._written(), *(_TREE if self.kind == "tree" else _PART)]).format(
            name=self.name, file=self.file, folder=self.schema.parent, use=self.name.replace("-", "_")
        )

    def _written(self) -> list[str]:
        lines = ["Wrote {file}"]
        if self.schema_is_new:
            lines.append(f"Wrote {self.schema}, by which an editor completes and checks")
        if self.schema_is_old:
            lines.append(
                f"{self.schema} is of another version; to renew it: shorewalk schema > {self.schema}"
            )
        return lines


_TREE = (
    "Next, in a pane beside your editor:",
    "  shorewalk preview {file}",
    "Then check it, and walk it as a person would:",
    "  shorewalk lint {file}",
    "  shorewalk walk {file}",
)
_PART = (
    "Next, put it into a tree as a node, and say where its exits lead:",
    "  {use}:",
    "    part: {name}",
    "    exits: {{clear: NODE, doubt: NODE}}",
    "Then: shorewalk lint {folder}",
)


def write_new(name: str, folder: Path, *, part: bool = False) -> New:
    """Write a new tree into `folder`, or a new part into `parts` below it; raise `NotWritten` or `OSError`.

    No file is ever written over.
    """
    kind = "part" if part else "tree"
    name = _sound(name, kind)
    trees = folder.parent if part and folder.name == "parts" else folder
    file = (trees / "parts" if part else trees) / f"{name}.yaml"
    if file.exists():
        raise NotWritten(f"{file} is there already, and is left as it is. Take another name or folder.")
    schema = trees / SCHEMA
    text = (STARTERS / f"{kind}.yaml").read_text(encoding="utf-8")
    text = text.replace("SCHEMA", f"../{SCHEMA}" if part else SCHEMA, 1).replace("NAME", name, 1)
    file.parent.mkdir(parents=True, exist_ok=True)
    _write(file, text)
    there = schema.exists()
    if not there:
        _write(schema, schema_text())
    old = there and schema.read_text(encoding="utf-8", errors="replace") != schema_text()
    return New(kind, name, file, schema, schema_is_new=not there, schema_is_old=old)


def _sound(name: str, kind: str) -> str:
    """Return the name of a file, with or without its ending, if it can be the name of a tree."""
    name = name.removesuffix(".yaml")
    wrong = get_args(Id)[1].wrong(name)
    if wrong is None:
        return name
    better = "-".join("".join(c if c.isalnum() and c.isascii() else " " for c in name.lower()).split())
    instead = f" Write it as {better}." if better and "/" not in name else ""
    where = f" The folder comes after the name: shorewalk new NAME {Path(name).parent}" if "/" in name else ""
    raise NotWritten(f"For a {kind}, {wrong}{instead}{where}")


def _write(file: Path, text: str) -> None:
    with file.open("x", encoding="utf-8", newline="\n") as out:
        out.write(text)
