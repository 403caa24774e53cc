"""The walk and its ending, at a make-believe pedestal: a meter one key away, and what went wrong on the way."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, ClassVar

from textual.binding import Binding, BindingType

from shorewalk.commands import Command, practice_menu_of
from shorewalk.lines import BLANK, Line, Span, line, wrap
from shorewalk.pages.question import READABLE
from shorewalk.pedestal.hands import Hands
from shorewalk.tree.model import Ask
from shorewalk.walk.answers import Answer
from shorewalk.walk.walk import Walk

from .bench import BenchScreen
from .ending import EndingScreen
from .walk import WalkScreen

if TYPE_CHECKING:
    from shorewalk.journal import Keeper

NOT_HANDED_OVER = "A practice walk is make-believe: it is not handed over."
METER, LOOK = "u", "l"
"""Keys that only practice has: use the meter, look."""


class PracticeWalk(WalkScreen):
    """Asks as ever. What is answered as done is done at the pedestal."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(METER, "command('bench')", show=False),
        Binding(LOOK, "command('look')", show=False),
    ]

    def __init__(self, walk: Walk, keeper: Keeper, hands: Hands, **more: Any) -> None:
        super().__init__(walk, keeper, **more)
        self.hands = hands
        hands.bench.follow(walk)

    def guide(self, room: int) -> str:
        keys = f"{METER}: your meter." + (f" {LOOK}: look." if isinstance(self.walk.now.node, Ask) else "")
        return f"{keys} {super().guide(room)}"

    def _allow_keys(self) -> None:
        super()._allow_keys()
        self.reply.command_keys |= {METER, LOOK}

    def append(self, answer: Answer) -> None:
        before = self.walk
        super().append(answer)
        if self.walk is not before:
            self.hands.bench.answered(before, answer)
            self.hands.bench.follow(self.walk)

    def menu(self) -> list[Command]:
        return practice_menu_of(self.kind)

    def do_hand(self) -> None:
        """What was made up here, nobody is to take for a walk at a pedestal."""
        self.tell(NOT_HANDED_OVER, "note")

    def do_bench(self) -> None:
        """Take the meter into the hands."""
        self.app.push_screen(BenchScreen(self.hands, self.walk))

    def do_look(self) -> None:
        """Look where the question looks."""
        node = self.walk.now.node
        seen = f"You look: {self.hands.bench.look(node)}" if isinstance(node, Ask) else ""
        self.tell(seen or "Nothing is asked for your eyes here.", "note")


class PracticeEnding(EndingScreen):
    """The ending, and above it what was wrong here and what the learner did."""

    def __init__(self, walk: Walk, keeper: Keeper, hands: Hands) -> None:
        super().__init__(walk, keeper)
        self.hands = hands

    def page(self, room: int, height: int) -> list[Line]:
        rows: list[Line] = [line(Span("Practice", "group"))]
        for said in self.hands.bench.debrief(self.walk, self.found):
            rows += wrap(said.strip(), min(room, READABLE), indent=2 if said.startswith(" ") else 0)
        return [*rows, BLANK, *super().page(room, height)]

    def menu(self) -> list[Command]:
        return practice_menu_of(self.kind)

    def do_log(self) -> None:
        """Nothing: practice is in no log."""
        self.tell("A practice walk is not kept, and is in no log.", "note")
