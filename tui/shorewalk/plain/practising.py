"""Practice in plain sentences: the walk as ever, and a make-believe meter beside it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import IO

from shorewalk.journal import Journal, Keeper
from shorewalk.journal.store import connect_in_memory
from shorewalk.pedestal.bench import Bench
from shorewalk.pedestal.meter import DIALS, Tip
from shorewalk.tree.model import Ask, Measure
from shorewalk.walk.answers import Answer
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

from .talk import Talk

WORDS = {"peg": "earth", "metal": "skin", "ground": "other-ground", "+": "plus", "-": "minus"}
HELP = (
    "Practice. Nothing here is live. Beside the answers you may type:",
    "  look: what is to be seen where the question looks.",
    f"  dial and one of {', '.join(DIALS)}: turn the meter's dial.",
    "  black N, red L, black peg, red 20:L: put a probe somewhere. out: both probes out.",
    "  meter: read the display again. All in one line works too: dial ac black N red L.",
)


class Practising(Talk):
    """A walk at a bench. What is typed for the meter never reaches the walk."""

    bench: Bench
    scene = ""

    @classmethod
    def at(cls, bench: Bench, walk: Walk, given: IO[str], out: IO[str], room: int = 80) -> Practising:
        """Return practice at a bench; nothing of it is kept."""
        keeper = Keeper(Journal(connect_in_memory(), problem="A practice walk is not kept."))
        practising = cls(walk, keeper, given, out, room)
        practising.bench = bench
        return practising

    def _begin(self) -> None:
        self._voice.say(*filter(None, (self.scene, *HELP)))
        super()._begin()

    @property
    def right(self) -> bool:
        """Whether the walk has ended as it should."""
        return self.walk.ended and self.bench.right(ending(self.walk, None), self.walk)

    def _ask(self) -> None:
        self.bench.follow(self.walk)
        super()._ask()
        if self.walk.ended:
            self._voice.say(*self.bench.debrief(self.walk, ending(self.walk, None)), before="\n")

    def _turn(self, typed: str) -> None:
        words = typed.casefold().split()
        if words and words[0] == "look":
            self._look()
        elif words and words[0] in ("dial", "black", "red", "out", "meter"):
            self._use_meter(words)
        elif words == ["practice"]:
            self._voice.say(*HELP)
        else:
            super()._turn(typed)

    def _take(self, answer: Answer) -> None:
        before = self.walk
        after = before.answer(answer, time=self.keeper.clock())
        self.bench.answered(before, answer)
        self._go_to(after)

    def _look(self) -> None:
        node = self.walk.now.node
        if isinstance(node, Ask):
            self._voice.say(f"You look: {self.bench.look(node)}")
        else:
            self._voice.say("Nothing is asked for your eyes here.")

    def _use_meter(self, words: list[str]) -> None:
        """Do what is said, word by word, and say what the display shows."""
        rest = iter(words)
        for word in rest:
            problem = self._one(word, rest)
            if problem:
                self._voice.say(problem)
                return
        meter = self.bench.meter
        where = ", ".join(
            f"{name} {'in the air' if tip is None else f'at {tip[1]}'}"
            for name, tip in (("black", meter.black), ("red", meter.red))
        )
        display = self.bench.read() or "dark"
        self._voice.say(f"Dial: {DIALS[meter.dial]}. Probes: {where}. Display: {display}")

    def _one(self, word: str, rest: Iterator[str]) -> str:
        argument = next(rest, "") if word in ("dial", "black", "red") else ""
        match word:
            case "dial" if argument in DIALS:
                self.bench.meter.dial = argument
                return ""
            case "dial":
                return f"The dial has: {', '.join(DIALS)}."
            case "out":
                self.bench.put("red", None, self.walk)
                return self.bench.put("black", None, self.walk)
            case "black" | "red":
                tip = self._tip(argument)
                return self.bench.put(word, tip, self.walk) if tip else "Say where, like black N or red 20:L."
            case "meter":
                return ""
        return f'"{word}" is nothing that the meter does. Type practice for what it does.'

    def _tip(self, word: str) -> Tip | None:
        """Return where a probe is meant to go: in the place that is asked for, else in the outlet in use."""
        node = self.walk.now.node
        place = node.place if isinstance(node, Measure) else f"pedestal-{self.bench.person.outlet}"
        outlet, colon, terminal = word.rpartition(":")
        if colon:
            place = f"pedestal-{outlet}"
        known = self.walk.library.site.places.get(place)
        named = WORDS.get(terminal, terminal)
        found = {name.casefold(): name for name in known.terminals} if known else {}
        return (place, found[named]) if named in found else None
