"""A reading, result or sum that has a least grade is judged before a walk ends as if nothing were wrong.

It is judged by its own bands, or by a row with a grade of a judge that looks at it. Leaving that judge by
`missing` or by a row without a grade does not count. And each of them is used for something.

Bad:

    nodes:
      hot_neutral:
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
        next: ready
        unable: stop_here
      ready:
        end: good-to-use
        because: The outlet has power.
        safe_action: Stay plugged in.
        call: park
        call_when: a voltage falls under 110 V

Good:

    nodes:
      hot_neutral:
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
        bands:
          - {below: utilization-b-low, grade: stop, goto: stop_here}
          - {below: service-a-low, grade: watch, goto: stop_here}
          - {upto: service-a-high, grade: ok, goto: ready}
          - {grade: stop, goto: stop_here}
        unable: stop_here
      ready:
        end: good-to-use
        because: The outlet has power.
        safe_action: Stay plugged in.
        call: park
        call_when: a voltage falls under 110 V
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import End, Judge, Measure, Tally, Tree, Work
from shorewalk.tree.words import quoted

from ..finding import Finding, Related, Severity
from ..judged import follow
from ..mentions import mentions_of
from ..readings import kind_of
from ..rule import Rule
from ..view import View

ID = "never-judged"


def check(view: View) -> Iterator[Finding]:
    """Find readings that a walk passes over."""
    assert view.site  # noqa: S101 - the rule asks for it
    for tree in view.trees:
        read = _read(tree)
        for name, node in tree.nodes.items():
            if not isinstance(node, Measure | Work | Tally) or node.bands:
                continue
            used = view.used_at(tree, name)
            local = name.rpartition(".")[2]
            if name not in read:
                what = "The reading" if isinstance(node, Measure) else "The result"
                message = f"{what} {quoted(local)} is taken, and nothing looks at it."
                hint = "Judge it, or leave it out."
                yield Finding(ID, Severity.ERROR, view.of(node), message, used, hint)
                continue
            kind = kind_of(node, view.site)
            if kind is None or not kind.floor:
                continue
            for end, path in follow(tree, node).endings:
                told = f"at {quoted(end.name)} with {quoted(local)} read but not judged"
                message = f"A walk may end {quoted(end.verdict)} {told}."
                related = (*used, Related(view.of(end), "the ending"))
                steps = (*(f"{at} ({label})" for at, label in path), end.name)
                hint = "Give it bands, or lead it through a judge that grades it."
                yield Finding(ID, Severity.ERROR, view.of(node), message, related, hint, steps)
                break


def _read(tree: Tree) -> set[str]:
    """Return every node that something looks at: judges, arithmetic, sums, words."""
    read: set[str] = set()
    for node in tree.nodes.values():
        match node:
            case Judge():
                read.update(node.of)
            case Work():
                read.update(name for _, name in node.inputs)
        if isinstance(node, Judge | Tally | End):
            read.update(m.word for m in mentions_of(node) if m.kind in ("number", "placeholder"))
    return read


RULE = Rule(ID, "No reading is passed over.", check)
