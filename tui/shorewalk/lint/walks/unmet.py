"""Facts that a safety rule needs and that may not hold where a walk stands: each, in words, and what to do."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from shorewalk.tree.model import End, Node
from shorewalk.tree.safety import LOOK_FACTS, SKIN_LOOK, SLOTS
from shorewalk.tree.words import listed
from shorewalk.walk.state import ENERGISED

from .event_words import may_be
from .proof import Broken

ENERGISED_IS = {"yes": "cord plugged and pedestal-breaker on", "no": "cord unplugged or pedestal-breaker off"}


class Unmet(NamedTuple):
    """A fact that may not hold: what it should be, what it may be instead, at which outlets a look is lacking.

    `pairs`: the slot pairs that are lacking of a look, where not all are. `either`: it is one of several ways to do
    right.
    """

    name: str
    wanted: tuple[str, ...]
    instead: tuple[str, ...]
    outlets: tuple[str, ...]
    pairs: tuple[str, ...]
    either: bool


def unmet(one: Broken) -> Iterator[Unmet]:
    """Yield what may not hold, of every set of facts that would have done."""
    assert one.watch  # noqa: S101 - a clause was broken
    bits, at, needs = (one.walked.bits or (0,))[-1], one.walked.at, one.watch.clause.need
    for need in needs:
        for name, values in need:
            if not one.watch.holds(name, values, bits, one.node, at):
                outlets = tuple(sorted(one.watch.outlets(bits, one.node, at))) if name in LOOK_FACTS else ()
                instead = _instead(one, name, values)
                pairs = tuple(_lacking(one, name, values[0], outlets[0])) if len(outlets) == 1 else ()
                yield Unmet(name, values, instead, outlets, pairs, len(needs) > 1)


def unmet_words(lacking: Sequence[Unmet]) -> list[str]:
    """Return what may be instead; looks that are lacking at the same outlets together."""
    said = list[str]()
    for each in lacking:
        if each.name == SLOTS:
            said.append("its slots may hold a plug")
        elif each.name == "judged":
            what = (
                f"{listed(each.pairs, 'and')} of {listed(each.wanted)}" if each.pairs else listed(each.wanted)
            )
            said.append(f"{what}{_at(each)} may be unread, or not judged ok or watch")
        elif each.pairs:
            said.append(f"{listed(each.wanted)}{_at(each)} may lack {listed(each.pairs, 'and')}")
        elif each.name == "look":
            looks = [
                look
                for other in lacking
                if other.name == "look" and not other.pairs and other.outlets == each.outlets
                for look in other.wanted
            ]
            what = "looks" if len(looks) > 1 else "look"
            said.append(f"the {what} {listed(looks, 'and')}{_at(each)} may be lacking")
        else:
            said.append(may_be(each.name, each.instead))
    return list(dict.fromkeys(said))


def hint_of(name: str, node: Node, lacking: Sequence[Unmet]) -> str:
    """Return what to do about it."""
    if any(each.name == SLOTS for each in lacking):
        return "Read the slots before the plug is in, or another outlet's."
    looks = [look for each in lacking if each.name in LOOK_FACTS for look in each.wanted]
    if any(each.name == "judged" for each in lacking):
        return f"On every walk to {name} read every pair of {listed(looks, 'and')} and judge it."
    if looks:
        reads = [
            "measure at the rig's metal" if look == SKIN_LOOK else f"read every pair of {look}"
            for look in looks
        ]
        branch = listed([f"`lacks: {look}`" for look in looks])
        return f"On every walk to {name} {listed(reads, 'and')}, or branch off before it with {branch}."
    joint = "or" if any(each.either for each in lacking) else "and"
    other = ", or to another verdict" if isinstance(node, End) else ""
    return f"Lead every walk to {name} through a step that leaves {listed(_facts(lacking), joint)}{other}."


def _facts(lacking: Iterable[Unmet]) -> Iterator[str]:
    for each in lacking:
        if each.name == ENERGISED:
            yield listed(ENERGISED_IS[value] for value in each.wanted)
        else:
            yield f"{each.name} {listed(each.wanted)}"


def _at(one: Unmet) -> str:
    return f" at {listed(one.outlets, 'and')}" if one.outlets else ""


def _instead(one: Broken, name: str, values: Iterable[str]) -> tuple[str, ...]:
    """Return the values a state may have other than these; a group's name where it is just a group's."""
    assert one.watch  # noqa: S101 - a clause was broken
    standings, site = one.watch.standings, one.watch.site
    state = site.states.get(name)
    groups = state.groups if state else {}
    wanted = {each for value in values for each in groups.get(value, (value,))}
    found = tuple(v for v in standings.possible(one.walked.at.standing, name) if v not in wanted)
    return next(((group,) for group, members in groups.items() if set(members) == set(found)), found)


def _lacking(one: Broken, name: str, look: str, outlet: str) -> Iterator[str]:
    """Yield the pairs of a look that may be lacking, where others are there."""
    assert one.watch  # noqa: S101 - a clause was broken
    looked, bits = one.watch.looked, (one.walked.bits or (0,))[-1]
    place = looked.site.places.get(outlet)
    pairs = place.looks[look].pairs if place and look in place.looks else ()
    found = [each.bits for each in looked.pairs(look, judged=name == "judged") if each.outlet == outlet]
    there = [all(bits & mine for mine in found[at :: len(pairs)]) for at in range(len(pairs))]
    for pair, is_ in zip(pairs, there, strict=True) if any(there) else ():
        if not is_:
            ends = f"{pair.from_} to {pair.to}"
            yield ends if pair.place == outlet else f"{pair.place} {ends}"
