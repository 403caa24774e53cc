"""After a stop or a danger no walk ends as if the outlet could be used, or all could stay as it is.

The grades of answers count, those of the signs too, and those of bands, rows and ways. After a stop a walk ends
stay-unplugged, unplug-now, hands-off or as an emergency.

Bad:

    nodes:
      burns:
        ask: Are there scorch marks on the outlet?
        sign: burn-marks
        choices:
          none: {says: "No", goto: left}
          present: {says: "Yes", grade: stop, goto: left}
        unsure: stop_here
      left:
        end: leave-as-is
        because: Nothing was found.
        safe_action: Leave all as it is.
        call: park

Good:

    nodes:
      burns:
        ask: Are there scorch marks on the outlet?
        sign: burn-marks
        choices:
          none: {says: "No", goto: left}
          present: {says: "Yes", grade: stop, goto: stop_here}
        unsure: stop_here
      left:
        end: leave-as-is
        because: Nothing was found.
        safe_action: Leave all as it is.
        call: park
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import End
from shorewalk.tree.words import quoted

from ..finding import Finding, Severity
from ..proof import proof
from ..rule import Rule
from ..view import View

ID = "no-good-after-stop"


def check(view: View) -> Iterator[Finding]:
    """Find endings that a walk may come to in spite of a stop."""
    assert view.site  # noqa: S101 - the rule asks for it
    for one in proof(view, view.site):
        if one.why == "stop" and isinstance(one.node, End):
            name = quoted(one.node.name.rpartition(".")[2])
            message = f"A walk may end {quoted(one.node.verdict)} at {name} after a stop."
            hint = "Lead walks that were stopped to an ending that keeps the power away."
            yield Finding(ID, Severity.ERROR, one.place, message, (one.changed, *one.used), hint, one.path)


RULE = Rule(ID, "After a stop no walk ends as if nothing were wrong.", check)
