"""Drawing a position from a ledger: the question in words, what is normal, what to beware of."""

from __future__ import annotations

from shorewalk.tree.facts import Caution
from shorewalk.tree.model import End, Measure, Node

from . import state as states
from .evidence import quantity_of
from .known import Known, Position
from .ledger import Key, Ledger
from .outlook import Outlook
from .wording import Lookup, fill, text_of


def lookup_in(ledger: Ledger, site: str | None = None, readings: str | None = None) -> Lookup:
    """Return what stands for a placeholder: `readings`, `site`, `meter`, or a node's answer."""

    def lookup(name: str) -> str | None:
        if name == "readings":
            return readings
        if name == "site":
            return site
        if name == "meter":
            return ledger.meter.name
        key: Key = ledger.key(name)
        if key in ledger.worked and key in ledger.results:
            return ledger.worked[key].shows
        known = ledger.known.get(key)
        return known.shows if known and _tells(ledger, key, known) else None

    return lookup


def _tells(ledger: Ledger, key: Key, known: Known) -> bool:
    if known.void:
        return False
    return (
        key in ledger.taken
        or key in ledger.results
        or ledger.given.get(key) not in (None, "unable", "unsure", "cannot")
    )


def live(ledger: Ledger, node: Node) -> bool:
    """Tell whether a measurement may be of something live: mains, and not shown dead."""
    if not isinstance(node, Measure) or node.what not in ("ac-volts", "hertz", "amps"):
        return False
    facts = ledger.site.states
    off = states.must(ledger.standing, "pedestal-breaker", "off", facts)
    return not (off and states.must(ledger.standing, "shown-dead", "yes", facts))


def cautions_at(ledger: Ledger) -> tuple[tuple[Caution, ...], bool]:
    """Return the cautions of this node, whole while one of them is unread; else reminders if it is live."""
    node, facts = ledger.node, ledger.site.cautions
    listed = tuple(facts[name] for name in node.cautions if name in facts)
    if any(caution.id not in ledger.acknowledged for caution in listed):
        return listed, True
    if listed or not live(ledger, node):
        return listed, False
    return tuple(facts[name] for name in ledger.probing if name in facts), False


def position_of(ledger: Ledger) -> Position:
    """Return where the walk stands."""
    node = ledger.node
    lookup = lookup_in(ledger)
    quantity = quantity_of(node, ledger.site) if isinstance(node, Measure) else None
    cautions, full = cautions_at(ledger)
    normal = quantity.normal if quantity else None
    if isinstance(node, Measure) and node.normal is not None:
        normal = fill(node.normal, lookup)
    facts = ledger.site.states
    energised = None
    if states.must(ledger.standing, states.ENERGISED, "yes", facts):
        energised = "yes"
    elif states.must(ledger.standing, states.ENERGISED, "no", facts):
        energised = "no"
    return Position(
        tree=ledger.tree.name,
        node=node,
        nth=ledger.nth,
        step=ledger.moment + 1,
        state=states.shown(ledger.standing, facts),
        energised=energised,
        known=tuple(ledger.known.values()),
        worked=tuple(ledger.worked[key] for key in ledger.fresh if key in ledger.worked),
        worked_all=tuple(ledger.worked[key] for key in ledger.worked if key in ledger.results),
        notes=tuple(ledger.notes),
        worst=ledger.worst,
        outlet=ledger.outlet,
        looks=ledger.looks(),
        cautions=cautions,
        cautions_full=full,
        outlook=ledger.outlooks.setdefault(ledger.tree.name, Outlook(ledger.tree)),
        meter=ledger.meter,
        text=text_of(node, ledger.site, lookup),
        why=fill(node.why, lookup) if node.why else None,
        hint=fill(node.hint, lookup) if node.hint else None,
        normal=normal,
        quantity=quantity,
        ended=isinstance(node, End),
    )
