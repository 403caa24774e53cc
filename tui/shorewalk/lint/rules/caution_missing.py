"""A caution is read on every path before what it is for, or there: hands, probes, breakers, certain looks.

cautions.yaml says of each caution what it is for: `when` names what is done (probe, probe-battery, touch-pedestal,
switch-breaker, plug-in, power-the-rig), `asked` names signs. Once read it counts, in the same tree or in one that
led to it.

Bad:

    nodes:
      volts:
        cautions: [dry-hands, no-metal, fit-meter, ac-dial, prove-meter, behind-guards, black-first, when-unsure]
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
        bands:
          - {below: utilization-b-low, grade: stop, goto: stop_here}
          - {grade: stop, goto: stop_here}
        unable: stop_here

Good:

    nodes:
      volts:
        cautions: [dry-hands, no-metal, fit-meter, amps-jack, ac-dial, prove-meter, behind-guards, black-first,
          when-unsure]
        measure: {what: ac-volts, place: pedestal-30, from: L, to: N}
        bands:
          - {below: utilization-b-low, grade: stop, goto: stop_here}
          - {grade: stop, goto: stop_here}
        unable: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.tree.model import Ask
from shorewalk.tree.words import listed

from ..cautions import CautionsRead, events_of
from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View

ID = "caution-missing"

DOES = {
    "probe": "probes go to what may be live",
    "probe-battery": "probes go to a battery",
    "touch-pedestal": "a hand goes to the pedestal",
    "switch-breaker": "a breaker of the pedestal is switched",
    "plug-in": "the cord goes in",
    "power-the-rig": "the pedestal's breaker goes on with the cord in",
}


def check(view: View) -> Iterator[Finding]:
    """Find nodes that some path comes to without a caution they want."""
    assert view.site  # noqa: S101 - the rule asks for it
    read = CautionsRead(view, view.site)
    for tree in view.trees:
        for name, node in tree.nodes.items():
            missing = read.missing(tree, node)
            if missing:
                without = [caution for caution, bit in read.bits.items() if missing & bit]
                first = view.site.cautions[without[0]]
                does = [DOES[event] for event in events_of(node, view.site) if event in first.when]
                does += [f"the sign {node.sign} is asked for"] if isinstance(node, Ask) else []
                cautions = listed(without, "and")
                said = "was" if len(without) == 1 else "were"
                message = f"Here {does[0]}, and {cautions} {said} perhaps not read."
                hint = f"Write `cautions: [{', '.join(without)}]` here, or at a step before it."
                path = min((read.path(tree, node, caution) for caution in without), key=len)
                used = view.used_at(tree, name)
                yield Finding(ID, Severity.ERROR, view.of(node), message, used, hint, path)


RULE = Rule(ID, "A caution is read before what it is for.", check)
