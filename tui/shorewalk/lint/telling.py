"""A broken safety rule in words: what happens at a node, what may not hold then, and what came before."""

from __future__ import annotations

from collections.abc import Iterable

from shorewalk.tree.facts import Site
from shorewalk.tree.model import End, Measure, Step
from shorewalk.tree.safety import Event, Facts
from shorewalk.tree.words import listed, quoted

from .explore import Explorer
from .finding import Finding, Related, Severity
from .happen import acts_of
from .proof import Broken, since
from .view import View
from .watch import LOOKS, SLOTS


def told(rule: str, one: Broken, view: View, explorer: Explorer, site: Site) -> Finding:
    """Return the finding of a broken clause."""
    assert one.rule and one.watch and one.event  # noqa: S101 - a clause was broken
    clause = one.watch.clause
    name = quoted(one.node.name.rpartition(".")[2])
    happens = f"{name} {_does(one, one.event, site)}"
    related: list[Related] = []
    if clause.need:
        unmet = _unmet(one)
        message = f"{happens} while {unmet}."
        hint = _hint(one, name)
        states = [name for need in clause.need for name, _ in need if name in site.states]
        if missed := [name for name in states if _may_be(one, dict(clause.need[0]).get(name, ()), name)]:
            related.append(since(view, explorer, _of(one, missed[0])))
    elif clause.after:
        message = f"{happens} after {listed(_past(event) for event in clause.after)}."
        hint = f"Lead no walk to {name} once that has been, or end the walk before."
        related.append(since(view, explorer, one))
    else:
        message = f"{happens}."
        hint = "Take it out, or measure something else."
    message = f"{message} {one.rule.says}"
    return Finding(rule, Severity.ERROR, one.place, message, (*related, *one.used), hint, one.walked.words)


def _of(one: Broken, state: str) -> Broken:
    from dataclasses import replace

    return replace(one, state=state)


def _does(one: Broken, event: Event, site: Site) -> str:
    node = one.node
    match event.kind, node:
        case "touch", _:
            return f"takes a hand to the {listed(event.words)}"
        case "measure", Measure():
            return f"puts probes to {quoted(node.place)}"
        case "set", Step():
            names = event.words or [name for name, _ in event.sets]
            acts = [f"{name} to {quoted(value)}" for name, value in acts_of(node) if name in names]
            return f"sets {listed(acts, 'and')}" + _while(event.while_)
        case "energise", _:
            return "brings power to the rig" + _while(event.while_)
        case _, End():
            call = f" and calls the {node.call}" if event.call else ""
            return f"ends {quoted(node.verdict)}{call}" + _while(event.while_)
    return "happens"


def _while(facts: Facts) -> str:
    return "".join(f" with {name} perhaps {listed(values)}" for name, values in facts)


def _unmet(one: Broken) -> str:
    assert one.watch  # noqa: S101 - a clause was broken
    bits, at = (one.walked.bits or (0,))[-1], one.walked.at
    needs = one.watch.clause.need
    if len(needs) > 1:
        each = (listed([f"{name} {listed(values)}" for name, values in need], "and") for need in needs)
        return f"it is not sure that {listed(each)}"
    unmet = [fact for fact in needs[0] if not one.watch.holds(*fact, bits, one.node, at)]
    return listed([_fact(one, name, values) for name, values in unmet], "and")


def _fact(one: Broken, name: str, values: tuple[str, ...]) -> str:
    assert one.watch  # noqa: S101 - a clause was broken
    if name == SLOTS:
        return "its slots may hold a plug"
    if name in LOOKS:
        bits = (one.walked.bits or (0,))[-1]
        outlets = sorted(one.watch.outlets(bits, one.node, one.walked.at))
        where = f" of {listed(outlets, 'and')}" if outlets else ""
        lacks = "lacking" if name == "look" else "unread, or not judged ok or watch"
        return f"{listed(values)}{where} may be {lacks}"
    return f"{name} may be {listed(_may_be(one, values, name))}"


def _may_be(one: Broken, values: Iterable[str], name: str) -> list[str]:
    """Return the values a state may have other than these."""
    assert one.watch  # noqa: S101 - a clause was broken
    standings, site = one.watch.standings, one.watch.site
    state = site.states.get(name)
    wanted = {each for value in values for each in (state.groups.get(value, (value,)) if state else (value,))}
    return [value for value in standings.possible(one.walked.at.standing, name) if value not in wanted]


def _hint(one: Broken, name: str) -> str:
    assert one.watch  # noqa: S101 - a clause was broken
    need = one.watch.clause.need[0]
    bits = (one.walked.bits or (0,))[-1]
    unmet = [fact for fact in need if not one.watch.holds(*fact, bits, one.node, one.walked.at)]
    if any(fact == SLOTS for fact, _ in unmet):
        return "Read the slots before the plug is in, or another outlet's."
    if any(fact in LOOKS for fact, _ in unmet):
        look = next(values[0] for fact, values in unmet if fact in LOOKS)
        return f"Read every pair of {look} on every walk to {name}, or branch off before it with `lacks: {look}`."
    facts = listed([f"{fact} {listed(values)}" for fact, values in unmet or need], "and")
    return f"Lead every walk to {name} through a step that leaves {facts}."


def _past(event: Event) -> str:
    match event.kind:
        case "grade":
            whose = f" for what is the {event.side}'s" if event.side else ""
            return f"a grade of {event.words[0]}{whose}"
        case "sign":
            return listed([f"the answer {name}: {listed(values)}" for name, values in event.sets])
        case "measure":
            graded = f" graded {event.grade}" if event.grade else ""
            return f"a reading at {listed(event.words)}{graded}"
        case "state":
            return listed([f"{name} was {listed(values)}" for name, values in event.sets], "and")
        case "set":
            names = [f"{name} was set to {listed(values)}" for name, values in event.sets]
            return listed(names or [f"{name} was set" for name in event.words], "and") + _while(event.while_)
    return f"a {event.kind} of {listed(event.words)}"
