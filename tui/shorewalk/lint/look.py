"""Looking at what a view shows with every rule; what stops a rule or keeps a file away stops no other."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from . import unread
from .finding import Finding, merge
from .report import Silenced, Stopped, stumbled
from .rule import Rule
from .rules import RULES
from .silence import silence
from .steps import steps_of
from .view import View


@dataclass(frozen=True, slots=True)
class Looked:
    """What was found and silenced, in order, and what could not be looked at."""

    findings: list[Finding]
    silenced: list[Silenced]
    stopped: list[Stopped]


def look(view: View, rules: Iterable[Rule] = RULES) -> Looked:
    """Return all that is wrong with the files of a view."""
    files = view.files  # reads every part, so that all problems of reading are known
    rules = tuple(rules)
    findings: list[Finding] = []
    stopped: list[Stopped] = []
    ran: set[str] = set()
    for rule in rules:
        if not files or (rule.site and not view.site):
            continue
        try:
            findings += rule.check(view)
            ran.add(rule.id)
        except Exception as error:  # noqa: BLE001 (whatever it is, the other rules shall still be heard)
            stopped.append(stumbled(f"The rule {rule.id}", error))
    told = {(finding.place.file, finding.place.line) for finding in findings}
    left = [problem for problem in view.expansion[1] if (problem.place.file, problem.place.line) not in told]
    for problem in (*view.problems, *left):
        if problem.unread:
            stopped.append(Stopped(f"{problem.place.file}: {problem.message}", problem.place.file))
        else:
            findings.append(unread.told(problem))
    placed = (replace(found, steps=steps_of(found, view)) if found.path else found for found in findings)
    kept, silenced = silence(view, merge(placed), {rule.id: rule for rule in rules}, ran)
    return Looked(kept, silenced, sorted(set(stopped), key=lambda each: each.message))
