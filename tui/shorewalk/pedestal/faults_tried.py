"""A fault tried on a loop before it is used: whether the loop, the outlet and our side have all that it names."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace

from shorewalk.tree.model import Route
from shorewalk.tree.take import Mistake
from shorewalk.tree.words import choose_from, listed, quoted

from .circuit import Circuit
from .edits import Edit
from .faults import Fault, names_at, needs_two
from .park import OUTLETS, Park, build
from .rig import Rigged, rig_parts


def try_fault(fault: Fault, route: Route) -> None:
    """Raise `Mistake` for what a loop that can have the fault does not have."""
    park = replace(Park(), service=fault.service) if fault.service else Park()
    missing = [outlet for outlet in fault.outlets if outlet not in park.outlets]
    if missing:
        have = ", ".join(f'"{outlet}"' for outlet in park.outlets)
        none = f"A loop of {quoted(fault.service)} has no {missing[0]} A outlet."
        what = f"{none} Write outlets: [{have}], or leave the service out."
        raise Mistake((*route, "park", "service"), what)
    if len(park.hots) < 2 and needs_two(fault):
        raise Mistake((*route, "edits"), 'A loop of "one-hot" has no other leg. Leave {other} out.')
    for outlet in fault.outlets:
        words = names_at(park, outlet)
        loop = _tried(build(park), fault.edits, words, (*route, "edits"))
        rig = Rigged(outlet, main=True, branches="on")
        _tried(
            Circuit({**loop.elements, **rig_parts(rig, {}, park.tires)}), fault.rig, words, (*route, "rig")
        )
        _known([*fault.stuck], loop.elements, words, (*route, "stuck"), "breaker")
        _known([*fault.contacts], OUTLETS[outlet], words, (*route, "contacts"), "slot")


def _tried(circuit: Circuit, edits: Sequence[Edit], words: dict[str, str], route: Route) -> Circuit:
    before = _ends(circuit)
    for at, edit in enumerate(edits):
        here = (*route, at, edit.kind)
        elements = edit.names[:1] if edit.kind in ("open", "set", "move") else edit.names
        if edit.kind != "join":
            _known(elements, circuit.elements, words, here, "element")
        for name in edit.names:
            _meant(name, words, here)
        try:
            circuit = edit.drawn(words, lambda span: span[0]).of(circuit)
        except KeyError:
            name = quoted(edit.names[0].format(**words))
            raise Mistake(
                here, f"The circuit has {name} already. Give the new element another name."
            ) from None
    after = _ends(circuit)
    for at, edit in enumerate(edits):
        for name in edit.names[1:] if edit.kind in ("join", "move") else ():
            node = name.format(**words)
            if node not in before and after[node] < 2:
                what = f"Nothing else is at the node {quoted(node)}.{choose_from(node, before)}"
                raise Mistake((*route, at, edit.kind), what)
    return circuit


def _ends(circuit: Circuit) -> Counter[str]:
    return Counter(end for element in circuit.elements.values() for end in (element.a, element.b))


def _known(
    names: Sequence[str], known: Iterable[str], words: dict[str, str], route: Route, kind: str
) -> None:
    allowed = list(known)
    for name in names:
        meant = _meant(name, words, route)
        if meant not in allowed:
            raise Mistake(route, f"There is no {kind} {quoted(meant)}.{choose_from(meant, allowed)}")


def _meant(name: str, words: dict[str, str], route: Route) -> str:
    """Return a name with its braces filled."""
    try:
        return name.format(**words)
    except (KeyError, ValueError, IndexError, AttributeError):
        braces = listed(f"{{{word}}}" for word in words)
        raise Mistake(route, f"{quoted(name)} has braces that are not known here. Use {braces}.") from None
