"""What the learner's hands do with the meter, said in words: turn the dial, put a probe somewhere, read."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shorewalk.tree.facts import PlaceFact
from shorewalk.tree.model import Measure
from shorewalk.walk.walk import Walk

from .bench import Bench
from .meter import DIALS, PracticeMeter, Tip

WORDS = {"peg": "earth", "metal": "skin", "ground": "other-ground", "+": "plus", "-": "minus"}
"""What is said for a terminal that has no letter."""

ACTS = ("dial", "black", "red", "out", "meter")
"""How a line for the hands begins."""


@dataclass
class Hands:
    """The learner's hands at a bench."""

    bench: Bench

    def place(self, walk: Walk) -> PlaceFact | None:
        """Return where a probe is meant to go: the place that is asked for, else the outlet in use."""
        node = walk.now.node
        name = node.place if isinstance(node, Measure) else f"pedestal-{self.bench.person.outlet}"
        return walk.library.site.places.get(name)

    def do(self, words: str, walk: Walk) -> str:
        """Do what is said, word by word; return what the meter shows then, or what could not be done."""
        rest = iter(words.casefold().split())
        for word in rest:
            if problem := self._one(word, rest, walk):
                return problem
        return self.shown()

    def act(self, number: int, walk: Walk) -> str:
        """Do one thing by its number, as `pages/bench.py` lists them; return what kept it from being done."""
        match number:
            case 1:
                self.turn()
            case 2 | 3:
                return self.step("black" if number == 2 else "red", walk)
            case 4:
                pass
            case 5:
                self.out(walk)
            case _:
                return f'"{number}" is not one of the numbers here.'
        return ""

    def shown(self) -> str:
        """Return dial, probes and display in a line."""
        display = self.bench.read() or "dark"
        return f"Dial: {DIALS[self.bench.meter.dial]}. Probes: {where(self.bench.meter)}. Display: {display}"

    def turn(self) -> None:
        """Turn the dial on by one."""
        dials = list(DIALS)
        self.bench.meter.dial = dials[(dials.index(self.bench.meter.dial) + 1) % len(dials)]

    def step(self, probe: str, walk: Walk) -> str:
        """Put a probe into the next slot of the place, after the last into the air; return what kept it out."""
        place, now = self.place(walk), getattr(self.bench.meter, probe)
        tips: list[Tip | None] = [(place.id, name) for name in place.terminals] if place else []
        tips.append(None)
        at = tips.index(now) if now in tips else -1
        return self.bench.put(probe, tips[(at + 1) % len(tips)], walk)

    def out(self, walk: Walk) -> None:
        """Take both probes out, the red one first."""
        self.bench.put("red", None, walk)
        self.bench.put("black", None, walk)

    def _one(self, word: str, rest: Iterator[str], walk: Walk) -> str:
        argument = next(rest, "") if word in ("dial", "black", "red") else ""
        match word:
            case "dial" if argument in DIALS:
                self.bench.meter.dial = argument
                return ""
            case "dial":
                return f"The dial has: {', '.join(DIALS)}."
            case "out":
                self.out(walk)
                return ""
            case "black" | "red":
                tip = self._tip(argument, walk)
                return self.bench.put(word, tip, walk) if tip else "Say where, like black N or red 20:L."
            case "meter":
                return ""
        return f'"{word}" is nothing that the meter does. It does: {", ".join(ACTS)}.'

    def _tip(self, word: str, walk: Walk) -> Tip | None:
        outlet, colon, terminal = word.rpartition(":")
        place = walk.library.site.places.get(f"pedestal-{outlet}") if colon else self.place(walk)
        named = WORDS.get(terminal, terminal)
        found = {name.casefold(): name for name in place.terminals} if place else {}
        return (place.id, found[named]) if place and named in found else None


def where(meter: PracticeMeter) -> str:
    """Return where both probes are."""
    return ", ".join(
        f"{name} {'in the air' if tip is None else f'at {tip[1]}'}"
        for name, tip in (("black", meter.black), ("red", meter.red))
    )
