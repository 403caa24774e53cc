"""Practice in plain sentences: the walk as ever, and a make-believe meter beside it."""

from __future__ import annotations

from typing import IO

from shorewalk.commands import Command, practice_menu_of
from shorewalk.journal import Keeper
from shorewalk.pedestal.hands import ACTS, Hands
from shorewalk.pedestal.meter import DIALS
from shorewalk.tree.model import Ask
from shorewalk.walk.answers import Answer
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

from .talk import Talk

HELP = (
    "Practice. Nothing here is live. Beside the answers you may type:",
    "  look: what is to be seen where the question looks.",
    f"  dial and one of {', '.join(DIALS)}: turn the meter's dial.",
    "  black N, red L, black peg, red 20:L: put a probe somewhere. out: both probes out.",
    "  meter: read the display again. All in one line works too: dial ac black N red L.",
)


class Practising(Talk):
    """A walk at a bench. What is typed for the meter never reaches the walk."""

    def __init__(self, walk: Walk, keeper: Keeper, given: IO[str], out: IO[str], room: int = 80) -> None:
        super().__init__(walk, keeper, given, out, room)
        self.scene = ""

    def at(self, hands: Hands, scene: str = "") -> Practising:
        """Stand at a bench; `scene` says where that is."""
        self.hands, self.bench, self.scene = hands, hands.bench, scene
        return self

    def _begin(self) -> None:
        self._voice.say(*filter(None, (self.scene, *HELP)))
        super()._begin()

    def _ask(self) -> None:
        self.bench.follow(self.walk)
        super()._ask()
        if self.walk.ended:
            self._voice.say(*self.bench.debrief(self.walk, ending(self.walk, None)), before="\n")

    def _menu_of(self, screen: str) -> list[Command]:
        return practice_menu_of(screen)

    def _turn(self, typed: str) -> None:
        first = typed.casefold().partition(" ")[0]
        if first == "look":
            node = self.walk.now.node
            seen = f"You look: {self.bench.look(node)}" if isinstance(node, Ask) else ""
            self._voice.say(seen or "Nothing is asked for your eyes here.")
        elif first in ACTS:
            self._voice.say(self.hands.do(typed, self.walk))
        elif first == "practice":
            self._voice.say(*HELP)
        else:
            super()._turn(typed)

    def _obey(self, command: Command) -> None:
        if command.id == "hand":
            self._voice.say("A practice walk is make-believe: it is not handed over.")
        else:
            super()._obey(command)

    def _take(self, answer: Answer) -> None:
        before = self.walk
        after = before.answer(answer, time=self.keeper.clock())
        self.bench.answered(before, answer)
        self._go_to(after)
