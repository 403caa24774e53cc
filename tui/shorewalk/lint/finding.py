"""What the linter says: a rule, a place, what was found there, what to do; in one total order."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import NamedTuple

from shorewalk.tree.source import Place


class Severity(StrEnum):
    """An error must be mended before anybody walks the tree; a warning should be looked at."""

    ERROR = "error"
    WARNING = "warning"


class Related(NamedTuple):
    """Another place that belongs to a finding, and what it is: `used at sockets_30`."""

    place: Place
    label: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One fault. `path` leads to it through the tree, in words, where it takes a path to see it.

    `steps` are the same path with the places of its nodes, as far as they are known; whoever looks fills them in.
    """

    rule: str
    severity: Severity
    place: Place
    message: str
    related: tuple[Related, ...] = ()
    hint: str | None = None
    path: tuple[str, ...] = ()
    steps: tuple[Related, ...] = ()

    @property
    def order(self) -> tuple[str, int, int, str, str]:
        """File, line, column, rule; then the message, so that no two findings are level."""
        return (*self.place, self.rule, self.message)

    def __lt__(self, other: Finding) -> bool:
        return self.order < other.order


def merge(findings: Iterable[Finding]) -> list[Finding]:
    """Return the findings in order; the same fault found in several uses of a part becomes one.

    Of several paths the shortest stays (of equally short ones the first in order); related places are joined.
    """
    merged: dict[tuple[str, int, int, str, str], Finding] = {}
    for finding in findings:
        known = merged.get(finding.order)
        if known is None:
            merged[finding.order] = finding
            continue
        related = tuple(sorted({*known.related, *finding.related}, key=lambda r: (r.place, r.label)))
        shorter = min(known, finding, key=lambda each: (len(each.path), each.path))
        merged[finding.order] = replace(known, related=related, path=shorter.path, steps=shorter.steps)
    return sorted(merged.values())
