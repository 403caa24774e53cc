"""Linting a library, or whatever paths somebody named, and the report of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from shorewalk import folders
from shorewalk.exits import Exit
from shorewalk.tree.library import Library
from shorewalk.tree.source import Place, Problem

from .finding import Finding, Severity, merge
from .rules import RULES
from .view import View

FILE = "file"
"""The rule of whatever keeps a file from being read at all."""


@dataclass(frozen=True, slots=True)
class Report:
    """Findings in order, and how much was looked at."""

    findings: tuple[Finding, ...] = ()
    trees: int = 0
    parts: int = 0

    @property
    def errors(self) -> int:
        return sum(finding.severity is Severity.ERROR for finding in self.findings)

    @property
    def warnings(self) -> int:
        return len(self.findings) - self.errors

    @property
    def exit(self) -> Exit:
        """Errors exit 1. Warnings alone do not: nobody can be hurt by them."""
        return Exit.FINDINGS if self.errors else Exit.CLEAN


def lint_library(library: Library) -> list[Finding]:
    """Return all that is wrong with a library's trees, parts and facts, in order."""
    return _look(View(library, parts=_own_parts(library)))


def lint_paths(paths: Sequence[str | Path] = ()) -> Report:
    """Return what is wrong in these files and folders; with none, in the trees that come with the program.

    Whatever is needed to judge a file (parts, facts, trees it leads to) is read, but only what is wrong in
    the files named, and in parts they put in, is told.
    """
    request = _Request()
    for path in paths or [folders.trees()]:
        request.add(Path(path))
    findings = [_unread(problem) for problem in request.problems]
    trees = parts = 0
    for asked in request.asked.values():
        found, view = asked.look()
        findings += found
        trees += sum(written.kind == "tree" for written in view.files)
        parts += sum(written.kind == "part" for written in view.files)
    return Report(tuple(merge(findings)), trees, parts)


@dataclass
class _Asked:
    """What of one library was asked for; `files` is empty where all of it was."""

    library: Library
    whole: bool = False
    files: set[str] = field(default_factory=set)

    def look(self) -> tuple[list[Finding], View]:
        if self.whole:
            view = View(self.library, parts=_own_parts(self.library))
            return _look(view), view
        stems = {Path(file).stem: Path(file).parent for file in self.files}
        trees = [name for name, folder in stems.items() if folder == self.library.folder]
        parts = [name for name, folder in stems.items() if folder == self.library.folder / "parts"]
        # A part is judged in the trees that use it, so those are looked at too, but not told of.
        everything = bool(parts) or any(folder.name == "site" for folder in stems.values())
        view = View(self.library, None if everything else trees, parts)
        findings = _look(view)
        if everything:
            findings = [finding for finding in findings if finding.place.file in self.files]
        return findings, view


class _Request:
    def __init__(self) -> None:
        self.asked: dict[Path, _Asked] = {}
        self.problems: list[Problem] = []

    def add(self, path: Path) -> None:
        if path.is_dir() and path.name in ("parts", "site") and not any(path.glob("parts")):
            for file in sorted(path.glob("*.yaml")):
                self.add(file)
        elif path.is_dir():
            self._of(path).whole = True
            if not any(path.glob("*.yaml")) and not any(path.glob("parts/*.yaml")):
                self._tell(path, "There is no tree here. Trees are files that end in .yaml.")
        elif not path.is_file():
            self._tell(path, "There is no such file or folder.")
        elif path.suffix != ".yaml":
            self._tell(path, f'The file ends in "{path.suffix}". Trees, parts and facts end in ".yaml".')
        else:
            inner = path.parent.name in ("parts", "site")
            self._of(path.parent.parent if inner else path.parent).files.add(str(path))

    def _of(self, folder: Path) -> _Asked:
        return self.asked.setdefault(folder.resolve(), _Asked(Library(folder)))

    def _tell(self, path: Path, message: str) -> None:
        self.problems.append(Problem(Place(str(path), 1, 1), message))


def _own_parts(library: Library) -> list[str]:
    return sorted(path.stem for path in (library.folder / "parts").glob("*.yaml"))


def _look(view: View) -> list[Finding]:
    files = view.files  # reads every part, so that all problems of reading are known
    findings: list[Finding] = []
    for rule in RULES:
        if files and (view.site or not rule.site):
            findings += rule.check(view)
    told = {(finding.place.file, finding.place.line) for finding in findings}
    left = [problem for problem in view.expansion[1] if (problem.place.file, problem.place.line) not in told]
    return merge([*findings, *map(_unread, [*view.problems, *left])])


def _unread(problem: Problem) -> Finding:
    return Finding(FILE, Severity.ERROR, problem.place, problem.message)
