"""What a rule is: a name, a sentence, and a function from what can be seen to what is wrong with it."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from .finding import Finding, Severity
from .view import View


@dataclass(frozen=True, slots=True)
class Rule:
    """One thing that must hold. `site`: it needs the shared facts, and is left out where they are broken.

    `severity` is what its findings have; `silenceable`, whether `allows` in a file may silence them. Rules of
    shape and safety may never be silenced; rules of wording and style may, with a reason.
    """

    id: str
    summary: str
    check: Callable[[View], Iterable[Finding]]
    site: bool = True
    severity: Severity = Severity.ERROR
    silenceable: bool = False

    @property
    def words(self) -> str:
        """What the rule holds, with a bad and a good example: the docstring of its module."""
        return sys.modules[self.check.__module__].__doc__ or ""
