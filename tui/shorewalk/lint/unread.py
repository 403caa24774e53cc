"""Every file can be read: it is YAML in plain words, its keys are known, and it holds what its name says.

Whatever keeps a file from being understood at all is told under this rule, with its line and column. The other
rules look at the files that can be read, so one broken file hides nothing of the others.

Bad:

    nodes:
      keep_out:
        end: unplug-now
        becuase: It is not known to be safe.
        safe_action: Keep the cord out.
        call: park

Good:

    nodes:
      keep_out:
        end: unplug-now
        because: It is not known to be safe.
        safe_action: Keep the cord out.
        call: park
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.source import Problem

from .finding import Finding, Severity
from .rule import Rule
from .view import View

ID = "file"


def check(view: View) -> Iterator[Finding]:
    """Find what keeps files from being read, and parts from being put in."""
    return (told(problem) for problem in (*view.problems, *view.expansion[1]))


def told(problem: Problem) -> Finding:
    """Return a reader's problem as a finding."""
    return Finding(ID, Severity.ERROR, problem.place, problem.message)


RULE = Rule(ID, "Every file can be read and holds what its name says.", check, site=False)
