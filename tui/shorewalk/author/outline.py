"""What a file holds, as its author wrote it: node after node, its endings by verdict, and who walks where from it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from shorewalk.lint.finding import Finding, Severity
from shorewalk.tree.facts import Site
from shorewalk.tree.library import Library, shipped
from shorewalk.tree.model import (
    VERDICTS,
    Ask,
    End,
    Judge,
    Jump,
    Measure,
    Node,
    Route,
    Step,
    Tally,
    Tree,
    Use,
    Work,
    Written,
    ways_out,
)
from shorewalk.tree.source import TreeError

from .draw.boxes import box_of
from .draw.labels import arrows_of

KINDS: Mapping[type[Node], str] = {
    Ask: "ask",
    Step: "step",
    Measure: "measure",
    Work: "work",
    Tally: "tally",
    Judge: "judge",
    Use: "part",
    Jump: "tree",
    End: "end",
}
"""The key that makes a node one of its kind."""


@dataclass(frozen=True, slots=True)
class Row:
    """One node: its words, where it stands (`line` counts from 1), its ways as label, target and grade."""

    name: str
    kind: str
    words: str
    line: int
    group: str | None = None
    verdict: str | None = None
    ways: tuple[tuple[str, str, str | None], ...] = ()
    route: Route = ()


@dataclass(frozen=True, slots=True)
class Outline:
    """The nodes of a tree or part in the order written, the endings after them by verdict."""

    kind: str
    name: str
    file: str
    title: str
    rows: tuple[Row, ...]

    def row(self, name: str | None) -> Row | None:
        """Return the row of a node, if it is there."""
        return next((row for row in self.rows if row.name == name), None)

    def at(self, line: int) -> Row | None:
        """Return the node that a line of the file belongs to; `None` above the nodes."""
        above = [row for row in self.rows if row.line <= line]
        return max(above, key=lambda row: row.line) if above else None

    def findings_by_node(self, findings: Iterable[Finding]) -> dict[str, list[Finding]]:
        """Return the findings in this file by the node they stand in."""
        by_node: dict[str, list[Finding]] = {}
        for finding in findings:
            row = self.at(finding.place.line) if finding.place.file == self.file else None
            if row:
                by_node.setdefault(row.name, []).append(finding)
        return by_node


def outline_of(written: Written, library: Library) -> Outline:
    """Return the outline of a file that could be read."""
    try:
        site = library.site
    except TreeError:  # the linter tells it; meanwhile the shipped words will do
        site = shipped().site
    rows = [_row(node, site, library) for node in written.nodes.values()]
    ends = [row for row in rows if row.verdict]
    rows = [row for row in rows if not row.verdict]
    rows += sorted(ends, key=lambda row: VERDICTS.index(row.verdict or ""))
    title = written.symptom or written.about or written.name
    return Outline(written.kind, written.name, written.file, title, tuple(rows))


def worst(findings: Iterable[Finding]) -> Severity | None:
    """Return the worst severity among findings."""
    found = {finding.severity for finding in findings}
    return next((severity for severity in (Severity.ERROR, Severity.WARNING) if severity in found), None)


def walked_as(tree: Tree, outline: Outline, row: Row) -> str | None:
    """Return the node of a tree, parts put in, where a walk from this row begins; `None` where it has none."""
    for name, node in tree.nodes.items():
        if node.file == outline.file and node.route == row.route:
            return name
        # A part that is put in is not a node of the tree: the walk begins at its first one.
        if row.kind == "part" and outline.kind == "tree" and name.startswith(f"{row.name}."):
            return _first(tree, row.name)
    return None


def _first(tree: Tree, use: str) -> str | None:
    inner = {name for name in tree.nodes if name.startswith(f"{use}.")}
    for name, node in tree.nodes.items():
        if name not in inner:
            entered = [way.goto for _, way in ways_out(node) if way.goto in inner]
            if entered:
                return entered[0]
    return tree.begin if tree.begin in inner else None


def _row(node: Node, site: Site, library: Library) -> Row:
    return Row(
        name=node.name,
        kind=KINDS[type(node)],
        words=_words(node, site, library),
        line=library.find(node.file, node.route).line,
        group=node.group,
        verdict=node.verdict if isinstance(node, End) else None,
        ways=tuple(
            (arrow.says, arrow.target, arrow.grade) for arrow in arrows_of(node.name, node, site.limits)
        ),
        route=node.route,
    )


def _words(node: Node, site: Site, library: Library) -> str:
    def part(name: str) -> Written:
        try:
            return library.part(name)
        except TreeError as error:  # the linter tells it
            raise KeyError(name) from error

    box = box_of(node.name, node, site, part)
    return " ".join([f"The {box.says}.", *box.words] if isinstance(node, Use) else box.words)
