"""A small site and small trees, built in code, for the tests of walks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

import pytest

from shorewalk.tree.facts import (
    Appliance,
    Caution,
    Cut,
    Fault,
    Limit,
    Look,
    Pair,
    PlaceFact,
    Quantity,
    Result,
    Sign,
    Site,
    State,
    Terminal,
)
from shorewalk.tree.model import (
    Ask,
    Band,
    Choice,
    Condition,
    End,
    Judge,
    Load,
    Measure,
    Node,
    Row,
    Step,
    Tree,
    Way,
)
from shorewalk.walk.meter import Meter

# Values and kinds of 4-domain's limits; sources there.
LIMITS = {
    "no-voltage": (5, "hazard"),
    "ghost-high": (90, "hazard"),
    "low": (104, "hazard"),
    "service-b-low": (110, "supply"),
    "service-a-low": (114, "supply"),
    "service-a-high": (126, "supply"),
    "surely-high": (126, "surely"),
    "twice-voltage": (200, "hazard"),
    "ng-ok": (2, "hazard"),
    "ng-stop": (5, "hazard"),
    "gap-stop": (3, "hazard"),
    "amps-80": (24, "supply"),
}

HOT_NEUTRAL = (
    Cut("stop", below="low"),
    Cut("watch", below="service-a-low"),
    Cut("ok", upto="service-a-high"),
    Cut("watch", upto="surely-high"),
    Cut("stop"),
)
NEUTRAL_GROUND = (
    Cut("ok", below="ng-ok"),
    Cut("watch", below="ng-stop"),
    Cut("stop", below="ghost-high"),
    Cut("danger"),
)


def outlet(name: str, says: str) -> PlaceFact:
    terminals = {
        "L": Terminal("L", "hot", "the hot slot"),
        "N": Terminal("N", "neutral", "the neutral slot"),
        "G": Terminal("G", "ground", "the ground hole"),
        "earth": Terminal("earth", "earth", "the earth peg"),
    }
    at_pedestal = (("cord", "another"), ("tripped", "yes"), ("storm", "yes"))
    through = (("cord", "moved"), ("protector", "changed"), ("tripped", "yes"))

    def look(which: str, pairs: str, load: str, shows: str, voided_by: tuple[tuple[str, str], ...]) -> Look:
        made = [pair.split() for pair in pairs.split(", ")]
        places = [pair if len(pair) == 3 else [name, *pair] for pair in made]
        return Look(which, tuple(Pair(*pair) for pair in places), load, (shows,), voided_by)

    dead = tuple(Pair(name, *pair) for pair in (("L", "N"), ("L", "G"), ("N", "G")))
    looks = {
        "dead-look": Look("dead-look", dead, voided_by=(("pedestal-breaker", "on"),), breaker="off"),
        "full-look": look("full-look", "L N, L G, N G", "none", "reversed", at_pedestal),
        "earth-look": look("earth-look", "G earth, L earth", "none", "false-ground", at_pedestal),
        "look-a": look("look-a", "L N, N G", "one-leg", "neutral-loose", at_pedestal),
        "look-b": look(
            "look-b", "rig-outlet-a L N, rig-outlet-a N G", "one-leg", "hot-contact-burnt", through
        ),
    }
    return PlaceFact(name, says, "outlet", "pedestal", terminals, "tt-30r", looks, ("ground-open-upstream",))


def make_site() -> Site:
    rig = {
        key: Terminal(key, role, f"the {role} slot")
        for key, role in (("L", "hot"), ("N", "neutral"), ("G", "ground"))
    }
    skin = {
        "skin": Terminal("skin", "skin", "bare metal of the rig"),
        "earth": Terminal("earth", "earth", "the earth peg"),
        "other-ground": Terminal("other-ground", "other-ground", "the ground hole of a free outlet"),
    }
    quantities = [
        Quantity("dead-hot-neutral", "hot to neutral, breaker off", "V", "ac-volts", ("hot", "neutral"),
                 "outlet", ("none",), "off", floor=(Cut("ok", below="no-voltage"), Cut("stop"))),
        Quantity("hot-neutral", "hot to neutral", "V", "ac-volts", ("hot", "neutral"), "outlet", ("none",),
                 normal="114 to 126 V", expects=(105, 135), plausible=(0, 300), floor=HOT_NEUTRAL),
        Quantity("neutral-ground", "neutral to ground", "V", "ac-volts", ("neutral", "ground"), "outlet",
                 ("none",), plausible=(0, 300), small=True, floor=NEUTRAL_GROUND),
        Quantity("hot-neutral-loaded", "hot to neutral, load on", "V", "ac-volts", ("hot", "neutral"),
                 "outlet", ("one-leg",), expects=(100, 135), plausible=(0, 300)),
    ]  # fmt: skip
    signs = [
        Sign(
            "outlet-used", "the outlet in use", "knowledge", "pedestal", {"50": None, "30": None, "20": None}
        ),
        Sign("burn-marks", "burn marks", "eye", "pedestal", {"none": "ok", "present": "stop"}, "park"),
        Sign("smell", "a smell", "nose", None, {"none": "ok", "burning": "danger"}),
        Sign("weather", "the weather", "eye", "pedestal", {"clear": "ok", "rain": None, "thunder": None}),
        Sign("breaker-position", "the handle", "eye", "pedestal", {"on": None, "off": None, "tripped": None}),
        Sign(
            "near-voltage",
            "the detector",
            "detector",
            None,
            {"silent": "ok", "warns": "danger", "no-detector": None},
        ),
        Sign("tenths", "whether the meter shows tenths", "eye", None, {"yes": None, "no": None}),
        Sign("neighbours", "the neighbours", "knowledge", None, {"fine": None, "same": None}),
    ]
    plugged = ("pedestal-50", "pedestal-30", "pedestal-20")
    states = [
        State("cautions", "the cautions", ("unread", "read")),
        State("rig-main", "the main", ("off", "on"), touches={"off": "rig", "on": "rig"}),
        State("pedestal-breaker", "the breaker", ("off", "on"), touches={"off": "pedestal", "on": "pedestal"},
              resets={"on": (("shown-dead", "no"),)}),
        State("shown-dead", "shown dead", ("no", "yes")),
        State("cord", "the cord", ("unplugged", *plugged), {"plugged": plugged},
              dict.fromkeys(("unplugged", *plugged), "pedestal")),
        State("protector", "the protector", ("absent", "fitted")),
    ]  # fmt: skip
    faults = (
        "reversed",
        "false-ground",
        "neutral-loose",
        "hot-contact-burnt",
        "ground-open-upstream",
        "skin-live",
    )
    return Site(
        limits={
            key: Limit(key, value, "V", kind, key, "common practice") for key, (value, kind) in LIMITS.items()
        },
        places={
            "pedestal-30": outlet("pedestal-30", "the 30 A outlet"),
            "pedestal-20": outlet("pedestal-20", "the 20 A outlet"),
            "rig-outlet-a": PlaceFact("rig-outlet-a", "the rig outlet", "rig-outlet", "rig", rig),
            "rig-skin": PlaceFact("rig-skin", "the rig's bare metal", "skin", "rig", skin),
        },
        quantities={quantity.id: quantity for quantity in quantities},
        results={
            "gap": Result(
                "gap", "they disagree by", "V", small=True, floor=(Cut("ok", upto="gap-stop"), Cut("stop"))
            )
        },
        signs={sign.id: sign for sign in signs},
        states={state.id: state for state in states},
        loads={
            "kettle": Appliance("kettle", "a kettle", (1000, 1500), "resistive", "common practice"),
            "microwave": Appliance(
                "microwave", "a microwave", (1440, 1560), "constant-power", "common practice"
            ),
        },
        cautions={
            "dry-hands": Caution("dry-hands", "Dry your hands.", "dry hands", "common practice"),
            "black-first": Caution("black-first", "Black probe first.", "black first", "common practice"),
        },
        faults={fault: Fault(fault, f"fault {fault}") for fault in faults},
    )


@dataclass
class Shelf:
    """Trees in code, where a walk expects a library."""

    site: Site
    trees: dict[str, Tree] = field(default_factory=dict)

    def tree(self, name: str, /) -> Tree:
        return self.trees[name]

    def add(self, name: str, *nodes: Node, starts: Mapping[str, str] | None = None) -> Shelf:
        self.trees[name] = Tree(
            name=name,
            file=f"{name}.yaml",
            symptom=f"About {name}",
            begin=nodes[0].name,
            starts=tuple((starts or {}).items()),
            nodes={node.name: node for node in nodes},
        )
        return self


SITE = make_site()
"""Frozen, so that all tests may share it."""


@pytest.fixture(scope="session")
def site() -> Site:
    return SITE


@pytest.fixture
def shelf() -> Shelf:
    return Shelf(SITE)


class Make:
    """Nodes with as few words as a test needs. A way is written `node`, or `node grade`."""

    @staticmethod
    def way(word: str | None, **leaves: str) -> Way | None:
        if word is None:
            return None
        goto, _, grade = word.partition(" ")
        return Way(
            goto, grade or None, tuple((name.replace("_", "-"), value) for name, value in leaves.items())
        )

    def ask(
        self, name: str, sign: str, choices: Mapping[str, str], unsure: str | None = "bad", **more: Any
    ) -> Ask:
        made = tuple(Choice(key, f"it is {key}", self.to(way)) for key, way in choices.items())
        return Ask(
            name=name, text=f"How is {name}?", sign=sign, choices=made, unsure=self.way(unsure), **more
        )

    def to(self, word: str) -> Way:
        way = self.way(word)
        assert way is not None
        return way

    def step(self, name: str, done: str, cannot: str | None = "bad", **leaves: str) -> Step:
        pairs = tuple((key.replace("_", "-"), value) for key, value in leaves.items())
        return Step(name=name, text=f"Do {name}.", leaves=pairs, done=self.to(done), cannot=self.way(cannot))

    def measure(
        self, name: str, probes: str, then: str | list[str], unable: str | None = "bad", **more: Any
    ) -> Measure:
        """Take `probes`: place, from, to, load; `then`: a way, or bands `goto grade below|upto limit`."""
        place, one, other, *load = probes.split()
        bands = () if isinstance(then, str) else tuple(self.band(word) for word in then)
        return Measure(
            name=name,
            what=more.pop("what", "ac-volts"),
            place=place,
            from_=one,
            to=other,
            load=Load(load[0]) if load else Load(),
            next=self.way(then) if isinstance(then, str) else None,
            bands=bands,
            unable=self.way(unable),
            **more,
        )

    def band(self, word: str) -> Band:
        goto, grade, *cut = word.split()
        way = Way(goto, None if grade == "-" else grade)
        return Band(way, **{cut[0]: cut[1]}) if cut else Band(way)

    def row(self, word: str, *when: str, while_: Mapping[str, str] | None = None, **more: str) -> Row:
        """`when`: `node choice`, or `node from|above|below|upto limit ...`."""
        conditions = []
        for text in when:
            node, *rest = text.split()
            if len(rest) == 1:
                conditions.append(Condition(node, choice=rest[0]))
            else:
                pairs = dict(zip(rest[::2], rest[1::2], strict=True))
                sides = {("from_" if key == "from" else key): limit for key, limit in pairs.items()}
                conditions.append(Condition(node, **sides))
        return Row(self.to(word), tuple(conditions), tuple((while_ or {}).items()), **more)

    def judge(
        self, name: str, rows: list[Row], of: str = "", missing: str | None = "bad", **more: Any
    ) -> Judge:
        return Judge(name=name, rows=tuple(rows), of=tuple(of.split()), missing=self.way(missing), **more)

    def end(self, name: str, verdict: str = "stay-unplugged", **more: Any) -> End:
        words: dict[str, Any] = {"because": f"{name} it is.", "safe_action": "Stay safe.", "call": "park"}
        return End(name=name, verdict=verdict, **(words | more))


@pytest.fixture(scope="session")
def make() -> Make:
    return Make()


@pytest.fixture(scope="module")
def empty_shelf() -> Shelf:
    """A shelf that all tests of a module share."""
    return Shelf(SITE)


BASIC = Meter("basic", 1.2, 5, tenths=True)


@pytest.fixture(scope="session")
def basic() -> Meter:
    """A basic meter that shows tenths: 1.2 % + 5 counts."""
    return BASIC


@pytest.fixture(scope="session")
def whole() -> Meter:
    """A basic meter that shows whole volts."""
    return Meter("basic", 1.2, 5, tenths=False)
