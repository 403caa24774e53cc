"""Nobody is ever stuck: every ask has `unsure`, every measure `unable`, every step `cannot`, every tally `unsure`.

Arithmetic may lack a reading, so every work has `missing`. A row that names a reading not taken is passed over.
So a judge of readings whose last row gives a grade says under `of` which ones it waits for, and under `missing`
where the walk goes without them; else what was never read would be graded.

Bad:

    nodes:
      skin:
        measure: {what: ac-volts, place: rig-skin, from: skin, to: earth}
        next: stop_here

Good:

    nodes:
      skin:
        measure: {what: ac-volts, place: rig-skin, from: skin, to: earth}
        next: stop_here
        unable: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import Ask, Judge, Measure, Node, Step, Tally, Work
from shorewalk.tree.words import quoted

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View

ID = "missing-way"

WAYS = {
    Ask: ("ask", "unsure", "Say where somebody goes who cannot tell: to the safe side."),
    Step: (
        "step",
        "cannot",
        "Say where somebody goes who cannot do it; it may then be done in part, or not.",
    ),
    Measure: ("measure", "unable", "Say where somebody goes who cannot measure it: not knowing is not fine."),
    Work: ("work", "missing", "Say where the walk goes when a reading for it was not taken."),
    Tally: ("tally", "unsure", "Say where somebody goes who cannot tell what was running."),
}


def check(view: View) -> Iterator[Finding]:
    """Find nodes that somebody could be stuck at."""
    for written in view.files:
        for node in written.nodes.values():
            if isinstance(node, Judge):
                yield from _judge(view, node)
            elif type(node) in WAYS:
                kind, way, hint = WAYS[type(node)]
                if getattr(node, way) is None:
                    yield Finding(
                        ID,
                        Severity.ERROR,
                        view.of(node),
                        f"The {kind} {_name(node)} has no `{way}`.",
                        hint=hint,
                    )


def _judge(view: View, node: Judge) -> Iterator[Finding]:
    if node.of and node.missing is None:
        message = f"The judge {_name(node)} waits for readings and has no `missing`."
        hint = "Say where the walk goes when one of them was not taken."
        yield Finding(ID, Severity.ERROR, view.of(node, "of", key=True), message, hint=hint)
    if node.missing is not None and not node.of:
        message = f"The judge {_name(node)} has a `missing` that is never taken: it waits for nothing."
        yield Finding(ID, Severity.ERROR, view.of(node, "missing", key=True), message, hint=OF)
    if (
        not node.of
        and node.rows[-1].way.grade
        and (read := [c.node for row in node.rows for c in row.when if c.choice is None])
    ):
        message = f"The judge {_name(node)} grades readings, like {quoted(read[0])}, even if none was taken."
        yield Finding(ID, Severity.ERROR, view.of(node, "judge", key=True), message, hint=OF)


OF = "Name under `of` the readings that must be there, and under `missing` the way without them."


def _name(node: Node) -> str:
    return quoted(node.name)


RULE = Rule(
    ID, "Every question can be left unanswered, every reading untaken, every step undone.", check, site=False
)
