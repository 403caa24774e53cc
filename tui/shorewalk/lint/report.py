"""What a run of the linter comes to: what was found, what was silenced, what stopped it, how much was looked at."""

from __future__ import annotations

import traceback
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from shorewalk.exits import Exit
from shorewalk.tree.source import Place

from .finding import Finding, Severity


class Silenced(NamedTuple):
    """A finding that a file allows to stand, the reason it gives, and where it says so."""

    finding: Finding
    reason: str
    place: Place


class Stopped(NamedTuple):
    """Something that could not be looked at, in one sentence; `file` where it is a file."""

    message: str
    file: str | None = None


def stumbled(what: str, error: Exception) -> Stopped:
    """Return that something of ours came to an error, in a few words, and where in the program."""
    last = traceback.extract_tb(error.__traceback__)[-1]
    words = " ".join(str(error).split())
    kind = f"{type(error).__name__}: {words}" if words else type(error).__name__
    where = f"{Path(last.filename).name}, line {last.lineno}"
    return Stopped(f"{what} stopped at an error of its own ({kind}; {where}).")


@dataclass(frozen=True, slots=True)
class Report:
    """Findings in order, and how much was looked at."""

    findings: tuple[Finding, ...] = ()
    silenced: tuple[Silenced, ...] = ()
    stopped: tuple[Stopped, ...] = ()
    trees: int = 0
    parts: int = 0

    @property
    def errors(self) -> int:
        return sum(finding.severity is Severity.ERROR for finding in self.findings)

    @property
    def warnings(self) -> int:
        return len(self.findings) - self.errors

    def exit(self, *, strict: bool = False) -> Exit:
        """Return what to exit with. Warnings alone are clean, as nobody can be hurt by them, unless `strict`."""
        if self.stopped:
            return Exit.UNFINISHED
        return Exit.FINDINGS if self.errors or (strict and self.findings) else Exit.CLEAN
