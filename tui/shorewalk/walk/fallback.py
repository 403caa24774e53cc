"""The ending a walk makes for itself where a tree is at fault. The linter should have found it."""

from __future__ import annotations

from shorewalk.tree.facts import Site
from shorewalk.tree.model import End, Node

from . import state as states

COME_OUT = (
    "Switch the loads off, then the rig's main breaker, then the pedestal breaker. "
    "Then pull the cord out at the pedestal."
)
KEEP_OFF = "Touch nothing. Keep everybody away. Switch nothing on."
STAY_OUT = "Keep the cord out of the pedestal."


def safe_verdict(standing: states.Standing, worst: str | None, site: Site) -> tuple[str, str]:
    """Return the verdict and the action that are safe however things stand."""
    if worst == "danger":
        return "hands-off", KEEP_OFF
    if states.must(standing, "cord", "unplugged", site.states):
        return "stay-unplugged", STAY_OUT
    return "unplug-now", COME_OUT


def lost(node: Node, because: str, standing: states.Standing, worst: str | None, site: Site) -> End:
    """Return an ending at `node` that is safe however things stand."""
    verdict, action = safe_verdict(standing, worst, site)
    return End(
        name=node.name,
        file=node.file,
        route=node.route,
        verdict=verdict,
        because=f"{because} The guide cannot go on and takes the safe side.",
        safe_action=action,
        call="park",
        say="[Site {site}: ][{readings}. ]Please check this pedestal before we use it.",
    )


def nowhere(name: str) -> End:
    """Return the node a walk stands at before its first."""
    return End(name=name, verdict="stay-unplugged", because="", safe_action=STAY_OUT, call="park")
