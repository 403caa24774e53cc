"""Linting a library, or whatever paths somebody named."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from shorewalk.tree.library import Library

from .finding import Finding, merge
from .report import Report, Silenced, Stopped, stumbled
from .request import Asked, asked_for
from .rule import Rule
from .rules import RULES


def lint_library(library: Library) -> list[Finding]:
    """Return all that is wrong with a library's trees, parts and facts, in order."""
    return Asked(library, whole=True).look()[0].findings


def lint_paths(
    paths: Sequence[str | Path] = (), *, around: bool = False, rules: Iterable[Rule] = RULES
) -> Report:
    """Return what is wrong in these files and folders; with none, in the trees that come with the program.

    Whatever is needed to judge a file (parts, facts, trees it leads to) is read, but only what is wrong in
    the files named, and in parts they put in, is told; with `around`, what is wrong anywhere in their folders.
    Raises `BadPathError` where a path holds no trees.
    """
    rules = tuple(rules)
    findings: list[Finding] = []
    silenced: list[Silenced] = []
    stopped: list[Stopped] = []
    trees = parts = 0
    for asked in asked_for(paths, around=around):
        try:
            looked, view = asked.look(rules)
        except Exception as error:  # noqa: BLE001 (other folders shall still be looked at, and nobody sees a traceback)
            stopped.append(stumbled(f"Looking at {asked.library.folder}", error))
            continue
        findings += looked.findings
        silenced += looked.silenced
        stopped += looked.stopped
        trees += sum(written.kind == "tree" for written in view.files)
        parts += sum(written.kind == "part" for written in view.files)
    return Report(tuple(merge(findings)), tuple(silenced), tuple(dict.fromkeys(stopped)), trees, parts)
