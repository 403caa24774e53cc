"""What a name may be where it is written, and what to say of one that is nothing there."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import NamedTuple

from shorewalk.tree.facts import Site
from shorewalk.tree.model import Ask, End, Judge, Jump, Measure, Node, Step, Tally, Use, Work, Written
from shorewalk.tree.scope import RUN_TIME
from shorewalk.tree.words import choose_from, quoted

from .mentions import Mention, mentions
from .view import View, uses_in


class Fault(NamedTuple):
    """A name that means nothing: what it is not, and what may stand there."""

    message: str
    hint: str


def faults_in(view: View, site: Site) -> list[tuple[Written, Mention, Fault]]:
    """Return every name that means nothing in the files looked at; it is done once for each view."""
    if "names" not in view.shown:
        names = Names(view, site)
        view.shown["names"] = [(written, *found) for written in view.files for found in names.faults(written)]
    found: list[tuple[Written, Mention, Fault]] = view.shown["names"]
    return found


@dataclass
class Names:
    """The names a file may use."""

    view: View
    site: Site
    used: dict[str, dict[str, list[Mention]]] = field(default_factory=dict)

    def faults(self, written: Written) -> Iterator[tuple[Mention, Fault]]:
        """Yield every mention in a file that names nothing, and what is wrong with it."""
        for mention in mentions(written):
            if fault := self.fault(mention, written):
                yield mention, fault
        for use in uses_in(written):
            yield from self._given(use, written)

    def fault(self, mention: Mention, written: Written) -> Fault | None:
        """Return what is wrong with a mention, if anything; what waits for a parameter is not judged here."""
        word = mention.word
        if word.startswith("$"):
            if word[1:] in written.takes:
                return None
            takes = [f"${name}" for name in written.takes]
            message = f"The {written.kind} {written.name} takes no {quoted(word)}."
            return Fault(message, choose_from(word, takes).strip() if takes else "Name it under `takes`.")
        if mention.of.startswith("$") and mention.kind != "answered":
            return None
        match mention.kind:
            case "goto":
                if word in written.nodes:
                    return None
                return self._missing("node or exit", word, (*written.nodes, *written.exits))
            case "placeholder" if word in written.takes or word in RUN_TIME:
                return None
            case "known" | "number" | "answered" | "placeholder":
                return self._node(mention, written)
            case "parameter":
                part = self.view.part(mention.of)
                return self._missing(f"parameter of the part {part.name}", word, part.takes) if part else None
            case "words":
                return None
        what, known = self._known(mention)
        return None if known is None else self._missing(what, word, known)

    def _known(self, mention: Mention) -> tuple[str, Collection[str] | None]:
        """Return what kind of thing is named, and every name there is for one; `None` where that is unknown."""
        site, of = self.site, mention.of
        match mention.kind:
            case "answer":
                sign = site.signs.get(of)
                return f"answer {of} may have", sign.answers if sign else None
            case "terminal":
                place = site.places.get(of)
                return f"terminal of {of}", place.terminals if place else None
            case "value" if of == "energised":
                return "value of energised", ("yes", "no")
            case "value":
                state = site.states.get(of)
                return f"value of {of}", (*state.values, *state.groups) if state else None
            case "state":
                derived = ("energised",) if {"needs", "while"} & set(mention.route) else ()
                return "state", (*site.states, *derived)
            case "part":
                return "part", self.view.library.part_names()
            case "tree":
                return "tree", self.view.library.names()
            case "function":
                return "function", functions()
            case "argument":
                arguments = functions().get(of)
                return f"argument of {of}", arguments
        facts: dict[str, Mapping[str, object]] = {
            "sign": site.signs,
            "place": site.places,
            "caution": site.cautions,
            "load": site.loads,
            "fault": site.faults,
            "limit": site.limits,
            "result": site.results,
        }
        return mention.kind, facts[mention.kind]

    def _missing(self, what: str, word: str, known: Collection[str]) -> Fault | None:
        if word in known:
            return None
        return Fault(f"There is no {what} {quoted(word)}.", choose_from(word, known).strip())

    def _node(self, mention: Mention, written: Written) -> Fault | None:
        found = self.node(written, mention.word)
        if found is None or isinstance(found, Use):
            what = f"{quoted(mention.word)} is a part put in, not a node of it." if found else ""
            what = what or f"There is no node {quoted(mention.word)} here."
            return Fault(what, choose_from(mention.word, self.readable(written)).strip())
        if isinstance(found, End | Jump | Judge):
            return Fault(
                f"{quoted(mention.word)} gives neither an answer nor a reading.", "Name a node that does."
            )
        number = isinstance(found, Measure | Work | Tally)
        if mention.kind == "number" and not number:
            return Fault(
                f"{quoted(mention.word)} gives an answer, not a number.", "Name an answer it may give."
            )
        if mention.kind != "answered":
            return None
        answers = answers_of(found)
        if mention.of in answers or mention.of.startswith("$"):
            return None
        what = f"{quoted(mention.word)} never gives the answer {quoted(mention.of)}."
        return Fault(what, choose_from(mention.of, answers).strip())

    def node(self, written: Written, name: str) -> Node | None:
        """Return the node a name reaches, into parts put in; `None` if there is none."""
        head, _, rest = name.partition(".")
        node = written.nodes.get(head)
        if not rest:
            return node
        part = self.view.part(node.part) if isinstance(node, Use) else None
        return self.node(part, rest) if part else None

    def readable(self, written: Written, deep: int = 10) -> Iterator[str]:
        """Yield every name of a node that gives an answer or a reading."""
        for name, node in written.nodes.items():
            if isinstance(node, Use):
                part = self.view.part(node.part) if deep else None
                yield from (f"{name}.{inner}" for inner in (self.readable(part, deep - 1) if part else ()))
            elif not isinstance(node, End | Jump | Judge):
                yield name

    def _given(self, use: Use, written: Written) -> Iterator[tuple[Mention, Fault]]:
        """Judge each value given to a part by everything the part uses it for."""
        uses, given = self.uses(use.part), dict(use.with_)
        for name, value in use.with_:
            route = (*use.route, "with", name)
            if fault := self.fault(Mention("words", value, route), written):
                yield Mention("words", value, route), fault
            if value.startswith("$"):
                continue
            told: set[str] = set()
            for mention in uses.get(name, ()):
                of = given.get(mention.of[1:], mention.of) if mention.of.startswith("$") else mention.of
                here = Mention(mention.kind, value, route, of)
                fault = self.fault(here, written)
                if fault and fault.message not in told:
                    told.add(fault.message)
                    message = f"{fault.message} The part {use.part} wants one for ${name}."
                    yield here, Fault(message, fault.hint)

    def uses(self, part: str) -> dict[str, list[Mention]]:
        """Return what a part uses each of its parameters for, in itself and in parts it puts in."""
        if part in self.used:
            return self.used[part]
        found: dict[str, list[Mention]] = {}
        self.used[part] = found
        if written := self.view.part(part):
            for mention in mentions(written):
                if mention.word.startswith("$"):
                    found.setdefault(mention.word[1:], []).append(mention)
                elif mention.kind == "placeholder" and mention.word in written.takes:
                    found.setdefault(mention.word, [])
            for use in uses_in(written):
                inner = self.uses(use.part)
                for name, value in use.with_:
                    if value.startswith("$"):
                        found.setdefault(value[1:], []).extend(inner.get(name, ()))
        return found


def answers_of(node: Node) -> tuple[str, ...]:
    """Return what a row may ask of a node by name."""
    match node:
        case Ask():
            return (*(choice.id for choice in node.choices), "unsure")
        case Step():
            return ("done", "cannot")
        case Measure():
            return ("unable",)
    return ()


@cache
def functions() -> Mapping[str, tuple[str, ...]]:
    """Return the functions of arithmetic, each with its arguments."""
    from shorewalk.electrics.using import FUNCTIONS

    return {name: tuple(formula.args) for name, formula in FUNCTIONS.items()}
