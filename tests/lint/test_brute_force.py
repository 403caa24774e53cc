"""The proof of the safety rules against plain enumeration: small random trees, every walk, by the walk's functions."""

from __future__ import annotations

import json
from collections import deque
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from hypothesis import HealthCheck, given, note, settings

from shorewalk.lint.view import View
from shorewalk.lint.walks.proof import proof
from shorewalk.tree.facts import Site
from shorewalk.tree.library import Library
from shorewalk.tree.model import Jump, Pairs
from shorewalk.tree.safety import Clause, make_safety
from shorewalk.walk import state as states

from .brute.alike import key_of
from .brute.facts import small_site
from .brute.meaning import Meaning
from .brute.plain import Seen, Walks, Went
from .brute.rules import cases
from .brute.small import Data

SITE = small_site()
MOST = 6_000  # a tree with more ways for a walk to stand than this is left out
Found = dict[tuple[str, str, str], int]
"""What is broken (a rule, or a state that is needed) at which node of which tree, and after how many steps."""


class Small(View):
    """A view whose facts are ours."""

    def _site(self) -> Site:
        return SITE


def by_proof(files: list[Data], folder: Path, site: Site) -> Found:
    """What the linter finds."""
    for file in files:
        (folder / f"{file['tree']}.yaml").write_text(json.dumps(file, indent=1), encoding="utf-8")
    shown = proof(Small(Library(folder, checked=False)), site)
    found = {(rule, one.tree.name, one.node.name): one for rule, all_ in shown.rules.items() for one in all_}
    found |= {(f"needs {one.state}", one.tree.name, one.node.name): one for one in shown.needs}
    found |= {(f"starts {one.state}", one.tree.name, one.node.name): one for one in shown.starts}
    return {what: len(one.walked.steps) for what, one in found.items()}


def by_walking(files: list[Data], folder: Path, site: Site) -> Found | None:
    """What every walk shows, the nearest first; `None` where they are too many."""
    library = Library(folder, checked=False)
    walks, meaning = Walks(site, {file["tree"]: library.tree(file["tree"]) for file in files}), Meaning(site)
    clauses = {rule.id: rule.clauses[0] for rule in site.safety.values()}
    found: Found = {}
    waiting = deque[tuple[Seen, dict[str, bool], int]]()
    seen = set()

    def come(ledger: Seen, latches: dict[str, bool], steps: int) -> None:
        key = (key_of(ledger), tuple(latches.values()))
        if key not in seen:
            seen.add(key)
            waiting.append((ledger, latches, steps))

    for ledger in walks.begins():
        come(ledger, {name: is_so(clause, ledger, meaning) for name, clause in clauses.items()}, 0)
    while waiting:
        if len(seen) > MOST:
            return None
        ledger, latches, steps = waiting.popleft()
        if not walks.spent(ledger):
            for what in broken(ledger, latches, clauses, meaning, walks):
                found.setdefault((what, ledger.tree.name, ledger.node.name), steps)
        for went in walks.steps(ledger):
            after = {
                name: turned(clauses[name], went, meaning, latch=latch) for name, latch in latches.items()
            }
            come(went.after, after, steps + 1)
    return found


def broken(
    ledger: Seen, latches: dict[str, bool], clauses: Mapping[str, Clause], meaning: Meaning, walks: Walks
) -> list[str]:
    """What is broken where a walk stands."""
    found = [f"needs {name}" for name in unmet(ledger.node.needs, ledger)]
    if isinstance(ledger.node, Jump):
        found += [f"starts {name}" for name in unmet(walks.tree(ledger.node.tree).starts, ledger)]
    for name, clause in clauses.items():
        bad = any(meaning.at(event, ledger) for event in (*clause.before, *clause.never))
        allowed = any(meaning.at(event, ledger) for event in clause.but)
        held = any(meaning.must(ledger, need) for need in clause.need)
        if bad and not allowed and not held and (latches[name] or not clause.after):
            found.append(name)
    return found


def unmet(wants: Pairs, ledger: Seen) -> list[str]:
    """The states that are not surely so."""
    return [name for name, value in wants if not states.must(ledger.standing, name, value, SITE.states)]


def is_so(clause: Clause, ledger: Seen, meaning: Meaning) -> bool:
    """Tell whether a state that sets the latch is known to be so."""
    return any(event.kind == "state" and meaning.must(ledger, event.sets) for event in clause.after)


def turned(clause: Clause, went: Went, meaning: Meaning, *, latch: bool) -> bool:
    """The latch after a step."""
    after = [event for event in clause.after if event.kind != "state"]
    if any(meaning.past(event, went, surely=False) for event in after) or is_so(clause, went.after, meaning):
        return True
    return latch and not any(meaning.past(event, went, surely=True) for event in clause.until)


def compared(files: list[Data], clauses: list[Data]) -> tuple[Found, Found] | None:
    """What the linter finds and what all walks show."""
    rules: dict[str, Any] = {
        f"rule-{at}": make_safety(f"rule-{at}", {"says": "So.", "holds": [clause]}, ())
        for at, clause in enumerate(clauses)
    }
    site = replace(SITE, safety=rules)
    with TemporaryDirectory() as folder:
        shown = by_proof(files, Path(folder), site)
        walked = by_walking(files, Path(folder), site)
    if walked is not None and "lacks" in json.dumps(files):  # what else lies behind such a row is free
        shown, walked = (
            {what: at for what, at in one.items() if what[0] in rules} for one in (shown, walked)
        )
    return None if walked is None else (shown, walked)


@settings(max_examples=100, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(cases())
def test_the_proof_finds_what_all_walks_show(case: tuple[list[Data], list[Data]]) -> None:
    """The same rules and needs are broken at the same nodes, and the walk that is told is as short as any."""
    files, clauses = case
    note("\n".join(map(json.dumps, (*clauses, *files))))
    if found := compared(files, clauses):
        shown, walked = found
        assert shown == walked
