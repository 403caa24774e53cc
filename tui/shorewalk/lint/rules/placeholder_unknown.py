"""What stands in a text outside brackets is known on every path that leads there.

Else somebody reads out "L1 not known" to the park. Words in brackets drop out where a placeholder in them is not
known. The number of the site is known only to whoever told it; what stands for a step is never known, nor what
stands in the words of a choice. There are {readings} where hot to neutral was read, or a reading was graded stop or
danger. Paths are followed without asking which can happen together.

Bad:

    nodes:
      volts:
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
        bands:
          - {below: utilization-b-low, grade: stop, goto: low}
          - {grade: stop, goto: low}
        unable: low
      low:
        end: stay-unplugged
        because: The outlet is not known to be sound.
        safe_action: Keep the cord out.
        call: park
        say: "We read {volts}. Please check the outlet."

Good:

    nodes:
      volts:
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
        bands:
          - {below: utilization-b-low, grade: stop, goto: low}
          - {grade: stop, goto: low}
        unable: low
      low:
        end: stay-unplugged
        because: The outlet is not known to be sound.
        safe_action: Keep the cord out.
        call: park
        say: "[We read {volts}. ]Please check the outlet."
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import Step
from shorewalk.tree.words import quoted

from ..finding import Finding, Severity
from ..rule import Rule
from ..told import Need, Told
from ..view import View

ID = "placeholder-unknown"


def check(view: View) -> Iterator[Finding]:
    """Find placeholders that some path leaves without words."""
    assert view.site  # noqa: S101 - the rule asks for it
    for tree in view.trees:
        told = Told(tree, view.site)
        for need in told.needs:
            message, hint, path = _fault(told, need)
            if message:
                used = view.used_at(tree, need.node.name)
                place = view.of(need.node, *need.route)
                yield Finding(ID, Severity.ERROR, place, message, used, hint, path)


def _fault(told: Told, need: Need) -> tuple[str, str, tuple[str, ...]]:
    tree, node, name, at = told.tree, need.node, need.name, need.node.name
    local = quoted(_local(name, at))
    brackets = "Put the words that need it into brackets: [We read {volts}. ]"
    if "choices" in need.route:
        return (
            f"The words of a choice are shown as they stand, {{{_local(name, at)}}} too.",
            "Write it out.",
            (),
        )
    if isinstance(tree.nodes.get(name), Step):
        return f"{local} is a step; it has no answer to show.", "Name an ask or a reading.", ()
    if name == "meter" or not (name in tree.nodes or name in ("site", "readings")):
        return "", "", ()  # what is not there is told by `unresolved-name`
    if not told.unknown(node, name):
        return "", "", ()
    if name == "site":
        return (
            'The number of the site is known only to whoever told it: "{site}".',
            "Write [Site {site}: ]",
            (),
        )
    return f"{local} is not known on every path to here.", brackets, told.path(node, name)


def _local(name: str, at: str) -> str:
    prefix = at.rpartition(".")[0]
    return name.removeprefix(f"{prefix}.") if prefix else name


RULE = Rule(ID, "What a text shows is known on every path to it.", check)
