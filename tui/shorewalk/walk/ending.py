"""The ending of a walk: the verdict, one safe action, one call, what to say, what may still be wrong."""

from __future__ import annotations

from shorewalk.tree.facts import LOOKS, Site
from shorewalk.tree.model import ALLOW_USE, End
from shorewalk.tree.record import record

from .behind import behind, in_force
from .ledger import Ledger
from .looks import SKIN_SHOWS
from .placing import lookup_in
from .refused import Refused
from .saying import one_by_one, says, short
from .verdict import verdict_of
from .walk import Walk
from .wording import fill

CALLS = {"park": "the park", "electrician": "a licensed electrician"}
FIRST = {"emergency-services": "the emergency services"}
VERDICTS = {
    "emergency": "Emergency",
    "unplug-now": "Unplug now",
    "stay-unplugged": "Stay unplugged",
    "unplugged": "Unplugged",
    "hands-off": "Hands off",
    "leave-as-is": "Leave the cord as it is",
    "use-with-care": "Use with care",
    "good-to-use": "Good to use",
}
SAY = "[Site {site}: ]{because}[ Readings: {readings}.]"


@record()
class Ending:
    """What a walk comes to. `lowered` says why the tree's verdict did not hold; mostly empty.

    `say` is the whole message for whoever is called, with the readings behind the ending as far as it
    has room for them; `readings` are all that count, in short form.
    """

    tree: str
    at: str
    verdict: str
    call: str
    call_when: str | None
    first: str | None
    safe_action: str
    because: str
    say: str
    readings: tuple[str, ...]
    not_ruled_out: tuple[str, ...]
    lowered: tuple[str, ...] = ()


def ending(walk: Walk, site: str | None = None) -> Ending:
    """Return the ending of `walk`; raise `Refused` if it has not ended. `site`: the site's number."""
    ledger = walk.ledger
    end = ledger.node
    if not isinstance(end, End):
        raise Refused("This walk has not ended yet.")
    found = verdict_of(ledger, end)
    lookup = lookup_in(ledger, site, one_by_one(behind(ledger)) or None)
    because = fill(end.because, lookup)
    action = fill(end.safe_action, lookup) if end.safe_action else "Leave everything off."
    call, call_when = end.call or "park", fill(end.call_when, lookup) if end.call_when else None
    if found.reasons:
        because = f"{because} But {_listed(found.reasons)}."
    if found.action is not None:
        action, call_when = found.action, None
    template = (end.say or SAY).replace("{because}", because)
    return Ending(
        tree=ledger.tree.name,
        at=end.name,
        verdict=found.verdict,
        call=call,
        call_when=call_when,
        first=end.first,
        safe_action=action,
        because=because,
        say=says(template, ledger, site, urgent=found.verdict == "emergency"),
        readings=tuple(map(short, in_force(ledger))),
        not_ruled_out=not_ruled_out(ledger, end),
        lowered=found.reasons,
    )


def _listed(reasons: tuple[str, ...]) -> str:
    return reasons[0] if len(reasons) == 1 else f"{', '.join(reasons[:-1])}, and {reasons[-1]}"


def not_ruled_out(ledger: Ledger, end: End) -> tuple[str, ...]:
    """Return, in words, what may still be wrong: the end's own, what skipped looks show, what none does."""
    site: Site = ledger.site
    outlet = ledger.outlet
    place = site.places.get(outlet or "")
    faults: list[str] = [*end.not_ruled_out]
    held = ledger.looks()
    if place is None and end.verdict != "emergency":
        faults.append("whatever the outlet may have: this walk did not look at it")
    elif place is not None and end.verdict not in ALLOW_USE and not any(held.values()):
        faults.append(f"whatever {place.says} may have: this walk did not look at it")
    elif place is not None:
        shows = {name: look.shows for name, look in place.looks.items()}
        shows.setdefault("skin", tuple(name for name in SKIN_SHOWS if name in site.faults))
        for name in LOOKS:
            if not held.get(name, False):
                faults += shows.get(name, ())
        faults += place.hidden
    return tuple(site.faults[name].says if name in site.faults else name for name in dict.fromkeys(faults))
