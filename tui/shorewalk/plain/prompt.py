"""A place where something is typed: an answer of its own, a command, or Enter for the menu."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING, NoReturn

from shorewalk.commands import ZERO, Command
from shorewalk.glossary import words_lines
from shorewalk.marks import GRADES, NOTED
from shorewalk.pages.fixed import MEANING, SAFETY

from .leaving import leave
from .moving import GoTo
from .voice import number_in
from .words import SITES, by_number, command_in, commands_for, keys_of, told_of

if TYPE_CHECKING:
    from .session import Session

NO_LOOK = "Plain text has no colours and draws nothing: it looks, or sounds, as your terminal is set."
ANSWERING = (
    ("After each key, word or number press Enter.", True),
    (f"A number: the answer of that number. {ZERO}", False),
    ("A reading: what the meter shows, as in 121.8. 118-121 if it wanders, OL if it says so.", False),
)
"""How one answers; whether it is said where there is no question too."""


class Prompt:
    """What all places of plain text have in common. A command `x` of the table is a method `do_x`."""

    screen = ""
    back = "back"
    """What Enter leads to from the menu, in words."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self._voice = session.voice

    def commands(self) -> list[Command]:
        """Return all that can be asked for here."""
        return commands_for(self.screen)

    def menu_items(self) -> list[Command]:
        """Return what the menu has, by number."""
        return by_number(self.commands())

    def obey(self, command: Command) -> None:
        """Do what was asked for."""
        getattr(self, f"do_{command.id}", self._do_nothing)()

    def command_in(self, typed: str) -> Command | None:
        """Return the command that was typed, if it is one."""
        return command_in(typed, self.commands())

    def hear(self, say: Callable[[], None]) -> str:
        """Listen, do each command, and return what is none; `say` says again what one is asked, after a menu."""
        while True:
            typed = self._voice.listen()
            if not typed:
                if not self.menu():
                    say()
            elif command := self.command_in(typed):
                self.obey(command)
            else:
                return typed

    def menu(self) -> bool:
        """Say all that can be done here, and do what is chosen; return False where nothing was typed."""
        items = self.menu_items()
        self._voice.say(*(f"  {item.number}. {item.words}." for item in items))
        self._voice.say(f"Type a number. Enter: {self.back}.")
        while typed := self._voice.listen():
            number = number_in(typed)
            if chosen := next((item for item in items if item.number == number), self.command_in(typed)):
                self.obey(chosen)
            elif number is not None:
                self._voice.say(f"{number} is none of the numbers here. Enter: {self.back}.")
                continue
            else:  # an answer, or words: nothing that was typed is lost
                self._voice.hear_again(typed)
            return True
        return False

    def do_emergency(self) -> None:
        """Say the emergency card."""
        self._voice.say_card()

    def do_help(self) -> None:
        """Say what can be typed here, and what the words for grades mean."""
        asking = self.screen in ("ask", "step", "tally", "measure")
        lines = [says for says, always in ANSWERING if always or asking]
        lines += [*self.help_lines(), "Enter alone: the rest of a list, then all that can be done here."]
        lines += [f"{keys_of(command)}: {command.help}" for command in told_of(self.commands())]
        if self.screen not in ("start", SITES):
            lines += [f"The word {mark.word}: {MEANING[mark.word]}." for mark in (*GRADES.values(), NOTED)]
        self._voice.write("\n")
        self._voice.say_in_parts([*lines, SAFETY, *words_lines()], what="lines of help are left")

    def help_lines(self) -> Iterable[str]:
        """Return what the help says of this place alone."""
        return ()

    def _do_nothing(self) -> None:
        self._voice.say("That is not to be had in plain text.")

    def do_looks(self) -> None:
        """Plain text has no look to choose."""
        self._voice.say(NO_LOOK)

    def do_leave(self) -> None:
        """Leave; a walk that is on no disk is offered to be kept before."""
        leave(self.session)

    def to_start(self) -> NoReturn:
        """Go to the start."""
        from .start import Start

        self.session.journal.let_go()
        raise GoTo(Start(self.session).run)


def listed(items: Iterable[str], first: int = 1) -> Iterator[str]:
    """Yield numbered lines, each a sentence."""
    for number, text in enumerate(items, first):
        yield f"  {number}. {sentence(text)}"


def sentence(text: str) -> str:
    """Return the text with an end, so that a voice stops there."""
    return text if text.endswith((".", "?", ":")) else f"{text}."
