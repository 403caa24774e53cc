"""A safety rule of a folder's own site/safety.yaml is kept on every walk.

The shared rules have names of their own and are told by them; `shorewalk lint --explain NAME` has each.

Bad:

    # site/safety.yaml
    read-before-unplugging:
      says: Nobody is told to pull the plug before the cautions were read.
      holds:
        - before: {end: unplug-now}
          need: {cautions: read}

Good:

    # site/safety.yaml
    read-before-use:
      says: Nobody is told to use the outlet before the cautions were read.
      holds:
        - before: {end: [use-with-care, good-to-use]}
          need: {cautions: read}
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from textwrap import indent

from shorewalk import folders
from shorewalk.tree.safety import SafetyRule
from shorewalk.tree.site import read_site
from shorewalk.tree.source import TreeError

from ..finding import Finding
from ..rule import Rule
from ..view import View
from ..walks.proof import proof
from ..walks.telling import Telling

ID = "own-safety"


@dataclass(frozen=True, slots=True)
class Shared(Rule):
    """A shared safety rule, with what safety.yaml says of it."""

    explained: str = ""

    @property
    def words(self) -> str:
        """What the rule holds, with a bad and a good example."""
        return self.explained


def check(view: View) -> Iterator[Finding]:
    """Find walks that break a rule which is not one of the shared."""
    for name in view.site.safety if view.site else ():
        if name not in SHARED:
            yield from broken(name, ID, view)


def broken(name: str, rule: str, view: View) -> Iterator[Finding]:
    """Yield the walks that break the safety rule of this name."""
    assert view.site  # noqa: S101 - the rule asks for it
    shown = proof(view, view.site)
    yield from Telling(rule, view, shown.explorer, view.site).told(shown.rules.get(name, ()))


def _shared() -> dict[str, Rule]:
    try:
        rules = list(read_site(folders.trees() / "site").safety.values())
    except TreeError:
        return {}  # what is wrong with the file is told when it is looked at
    return {rule.id: _rule(rule) for rule in rules if rule.clauses}


def _rule(rule: SafetyRule) -> Rule:
    parts = [rule.says, rule.why]
    for head, example in (("Bad:", rule.bad), ("Good:", rule.good)):
        parts += [head, indent(example.rstrip(), "    ")] if example else []
    return Shared(
        rule.id,
        rule.says,
        partial(broken, rule.id, rule.id),
        explained="\n\n".join(filter(None, parts)) + "\n",
    )


RULE = Rule(ID, "A folder's own safety rules are kept on every walk.", check)
SHARED = _shared()
"""The shared safety rules, by name."""
