"""Every ending says what to do and whom to call: the park or an electrician, one of them and never neither.

An emergency names the emergency services first. Where nothing was found (good-to-use, unplugged) nobody has to
be called now, so it says when. Under use-with-care and leave-as-is it may: without `call_when` the call is now.

Bad:

    nodes:
      ready:
        end: good-to-use
        because: Every reading was sound.
        safe_action: Stay plugged in.
        call: park

Good:

    nodes:
      ready:
        end: good-to-use
        because: Every reading was sound.
        safe_action: Stay plugged in.
        call: park
        call_when: a voltage falls under 110 V
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import CALLS, End
from shorewalk.tree.words import listed, quoted

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View

ID = "end-incomplete"

AT_REST = ("good-to-use", "unplugged")
"""Verdicts under which nothing needs doing now."""


def check(view: View) -> Iterator[Finding]:
    """Find endings that leave somebody without a safe action or without whom to call."""
    for written in view.files:
        for node in written.nodes.values():
            if isinstance(node, End):
                yield from _of(view, node)


def _of(view: View, end: End) -> Iterator[Finding]:
    for key, message, hint in _lacks(end):
        yield Finding(ID, Severity.ERROR, view.of(end, *key, key=True), message, hint=hint)


def _lacks(end: End) -> Iterator[tuple[tuple[str, ...], str, str]]:
    name = quoted(end.name)
    if not end.safe_action:
        yield (
            (),
            f"The ending {name} has no `safe_action`.",
            "Say what to do right now, so that nobody is hurt.",
        )
    if end.call is None:
        what = f"The ending {name} does not say whom to call."
        yield (), what, f"Write `call: {listed(CALLS)}`; always one of the two."
    if end.verdict == "emergency" and end.first is None:
        what = f"The emergency {name} does not name the emergency services."
        yield ("end",), what, "Write `first: emergency-services`; then the park, who can switch off the loop."
    if end.verdict != "emergency" and end.first is not None:
        what = (
            f"The ending {name} calls the emergency services first, but its verdict is {quoted(end.verdict)}."
        )
        yield ("first",), what, "Write `end: emergency`, or take `first` out."
    if end.verdict in AT_REST and end.call_when is None:
        what = f"Under {quoted(end.verdict)} nothing needs doing now, and the ending {name} does not say when to call."
        yield ("call",), what, "Write `call_when`, as in: a voltage falls under 110 V."


RULE = Rule(ID, "Every ending has a safe action and exactly one to call.", check, site=False)
