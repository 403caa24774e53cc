"""One file as it is now: its outline, the library to walk it in, and why not where it is broken."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from shorewalk.lint import BadPathError, Report, lint_paths
from shorewalk.lint.finding import Finding, Severity
from shorewalk.tree.library import Library
from shorewalk.tree.model import Tree
from shorewalk.tree.source import Place, Problem, TreeError

from .from_node import From
from .outline import Outline, Row, outline_of, walked_as


@dataclass(frozen=True, slots=True)
class Seen:
    """`outline` is there where the file could be read; `walked` where a tree with it in can be walked."""

    file: Path
    outline: Outline | None = None
    walked: Tree | None = None
    library: Library | None = None
    problems: tuple[Problem, ...] = ()

    @property
    def findings(self) -> list[Finding]:
        """The problems as findings, for as long as the linter has not spoken."""
        return [Finding("file", Severity.ERROR, told.place, told.message) for told in self.problems]

    def begin(self, row: Row) -> str | None:
        """Return the node where a walk from a row begins."""
        return walked_as(self.walked, self.outline, row) if self.walked and self.outline else None

    def walk_from(self, node: str) -> From | None:
        """Return a library in which the tree begins at a node; `None` where that node is not there."""
        if self.library is None or self.walked is None or node not in self.walked.nodes:
            return None
        return From(self.library, self.walked.name, node)


def library_of(file: Path) -> Path:
    """Return the folder of trees that a tree or part belongs to."""
    return file.parent.parent if file.parent.name == "parts" else file.parent


def see(file: Path) -> Seen:
    """Read one file, and what it takes to walk it; whatever is wrong becomes problems."""
    library = Library(library_of(file))
    try:
        written = library.part(file.stem) if file.parent.name == "parts" else library.written(file.stem)
        outline = outline_of(written, library)
    except TreeError as error:
        return Seen(file, problems=error.problems)
    except KeyError as error:
        return Seen(file, problems=(Problem(Place(str(file), 1, 1), str(error.args[-1])),))
    try:
        walked = _walked(library, outline)
    except TreeError as error:
        return Seen(file, outline, problems=error.problems)
    return Seen(file, outline, walked, library)


def check(file: Path) -> Report:
    """Return what the linter says of the file."""
    try:
        return lint_paths([file])
    except BadPathError:  # it was there a moment ago; the next look says that it is gone
        return Report()


def _walked(library: Library, outline: Outline) -> Tree | None:
    """Return the tree to walk in: the file's own, or the first one that puts the part in."""
    if outline.kind == "tree":
        library.site  # noqa: B018 (facts that cannot be read are told here, not in the middle of a walk)
        return library.tree(outline.name)
    for name in library.names():
        try:
            tree = library.tree(name)
        except TreeError:
            continue
        if any(node.file == outline.file for node in tree.nodes.values()):
            return tree
    return None
