"""What a verdict says is so on every walk to it.

Under use-with-care and good-to-use the cord is in, the pedestal breaker on and the rig main on. Under
stay-unplugged and unplugged the cord is out and the rig main off. A step that could not be done may be done in
part, or not: then neither is known, and the ending is unplug-now, hands-off or leave-as-is.

Bad:

    nodes:
      main_off:
        step: Switch the rig's main breaker off.
        leaves: {rig-main: "off"}
        done: stays_out
        cannot: stays_out
      stays_out:
        end: stay-unplugged
        because: The outlet is not sound.
        safe_action: Keep the cord out.
        call: park

Good:

    nodes:
      main_off:
        step: Switch the rig's main breaker off.
        leaves: {rig-main: "off"}
        done: stays_out
        cannot: left_alone
      stays_out:
        end: stay-unplugged
        because: The outlet is not sound.
        safe_action: Keep the cord out.
        call: park
      left_alone:
        end: leave-as-is
        because: The main could not be switched off.
        safe_action: Keep the cord out.
        call: electrician
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import End
from shorewalk.tree.words import listed, quoted

from ..finding import Finding, Severity
from ..proof import proof
from ..rule import Rule
from ..view import View

ID = "verdict-fits-state"


def check(view: View) -> Iterator[Finding]:
    """Find endings that say what may not be so."""
    assert view.site  # noqa: S101 - the rule asks for it
    for one in proof(view, view.site):
        if one.why == "verdict" and isinstance(one.node, End):
            name = quoted(one.node.name.rpartition(".")[2])
            message = (
                f"{quoted(one.node.verdict)} says {one.state} {one.value}, and a walk may end so at {name} "
                f"with {one.state} {listed(one.may_be)}."
            )
            hint = "Lead such walks through a step that leaves it so, or to another verdict."
            yield Finding(ID, Severity.ERROR, one.place, message, (one.changed, *one.used), hint, one.path)


RULE = Rule(ID, "What a verdict says of cord, breaker and main is so on every walk to it.", check)
