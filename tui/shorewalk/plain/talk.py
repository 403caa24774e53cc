"""The conversation: say, listen, until the walk ends or somebody leaves."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import IO

from shorewalk.commands import Command, commands_on, menu_of
from shorewalk.emergency import CARD
from shorewalk.exits import Exit
from shorewalk.faces import draw
from shorewalk.journal import Keeper, ago, folder_of, minutes_between
from shorewalk.lines import as_text, line, wrap
from shorewalk.pages.fixed import MEANING, SAFETY
from shorewalk.pages.question import picture_of
from shorewalk.saving import save_record
from shorewalk.walk.answers import Answer, Read, Unable
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Refused, Walk, resume

from . import spoken
from .heard import answer_in, command_in, screen_of

FRESH = 15
"""Minutes after which readings of an outlet should be taken again."""

NOT_HERE = ("code", "copy", "meter")
"""Commands of the screens that plain text has no use for."""

TYPED_HERE = (
    ("0 to 9", "The answer of that number. 0 is always: not sure, or it can't be done."),
    ("121.8", "What the meter shows. 118-121 if it wanders, OL if it says so."),
    ("Enter alone", "A menu of all that can be done here."),
    ("r", "The question again."),
)


class Gone(Exception):  # noqa: N818 (no error: the person left, or the input ended)
    """Nobody is listening any more."""


class Talk:
    """One walk in plain text. `given` and `out` are lines in and out, `room` the width of a line."""

    def __init__(self, walk: Walk, keeper: Keeper, given: IO[str], out: IO[str], room: int = 80) -> None:
        self.walk, self.keeper = walk, keeper
        self._given, self._out, self._room = given, out, room
        self._doubted: str | None = None  # a reading that counts if it is typed once more
        self._site: str | None = None

    def run(self, *, offer: bool = False) -> Exit:
        """Walk to the end; a person who leaves before leaves the walk unfinished, and kept.

        With `offer` a walk of this tree that was left unfinished is offered first.
        """
        try:
            if offer:
                self._offer_unfinished()
            self._begin()
            while True:
                self._turn(self._listen())
        except (Gone, KeyboardInterrupt):
            if self.walk.ended:
                return Exit.CLEAN
            self._say(self.keeper.how_to_go_on("--plain") or "Nothing of this walk is kept.", before="\n")
            return Exit.UNFINISHED

    def _offer_unfinished(self) -> None:
        journal, now = self.keeper.journal, self.keeper.clock()
        folder = folder_of(self.walk)
        ours = (
            entry for entry in journal.unfinished() if (entry.tree, entry.folder) == (self.walk.tree, folder)
        )
        left = next(ours, None)
        if left is None or not left.answers:
            return
        count = "1 answer" if left.answers == 1 else f"{left.answers} answers"
        lines = [
            "A walk of this was left unfinished:",
            f"  1. Go on with it ({count}, left {ago(left.changed, now)})",
        ]
        lines += ["  2. Begin afresh"]
        if minutes_between(left.changed, now) >= FRESH:
            lines += [
                f"Readings grow old in {FRESH} minutes, and others may have been at the pedestal: better afresh."
            ]
        if self._choose(lines, 2) == 1:
            self.walk, self.keeper = journal.load(left.id, self.walk.library), Keeper(journal, left.id)

    def _choose(self, lines: Iterable[str], most: int) -> int:
        """Say numbered lines and return the number typed, 1 for Enter alone."""
        self._say(*lines)
        while True:
            typed = self._listen() or "1"
            if typed.isdecimal() and 1 <= int(typed) <= most:
                return int(typed)
            self._say(*(CARD if typed == "!" else (f"Type a number from 1 to {most}.",)))

    def _begin(self) -> None:
        symptom = self.walk.library.tree(self.walk.tree).symptom
        self._say(
            f"{symptom.rstrip('.')}.", "One question at a time. Enter alone: all you can do. !: emergency."
        )
        self._news()
        self._ask()

    def _ask(self) -> None:
        """Say the open question, or the ending."""
        if self.walk.ended:
            number = None if self.keeper.journal.problem else self.keeper.number
            lines = spoken.end_in_words(ending(self.walk, self._site), number)
            self._say(*lines, "Enter: what you can do now. q: leave.", before="\n")
        else:
            self._say(*spoken.question(self.walk), before="\n")

    def _turn(self, typed: str) -> None:
        node = self.walk.now.node
        if not typed:
            self._menu()
        elif command := command_in(typed, screen_of(node)):
            self._obey(command)
        elif typed.casefold() in ("r", "repeat"):
            self._ask()
        elif self.walk.ended:
            self._say("This walk has ended. b: take back the last answer. s: save the record. q: leave.")
        else:
            self._answer(typed)

    def _answer(self, typed: str) -> None:
        try:
            answer = answer_in(typed, self.walk.now.node)
            if isinstance(answer, Read) and typed == self._doubted:
                answer = Read(typed, confirmed=True)
            self._take(answer)
        except Refused as refused:
            self._doubted = typed if refused.confirm else None
            self._say(refused.reason)

    def _take(self, answer: Answer) -> None:
        self._go_to(self.walk.answer(answer, time=self.keeper.clock()))

    def _go_to(self, walk: Walk, *lines: str) -> None:
        """Let the walk be this one: on disk first, then what the answer told, then the next question."""
        self.walk, self._doubted = walk, None
        self.keeper.keep(walk)
        self._say(*(lines or spoken.told(walk)))
        self._news()
        self._ask()

    def _menu(self) -> None:
        menu = [command for command in menu_of(screen_of(self.walk.now.node)) if command.id not in NOT_HERE]
        self._say(*(f"  {command.number}. {command.menu or command.label}" for command in menu))
        self._say("Type a number. Enter: back to the question.")
        typed = self._listen()
        chosen = [command for command in menu if typed in (str(command.number), *command.keys)]
        if chosen:
            self._obey(chosen[0])
        else:
            self._ask()

    def _obey(self, command: Command) -> None:
        match command.id:
            case "emergency":
                self._say(*CARD, "Enter: all you can do. r: the question again.", before="\n")
            case "help":
                self._help()
            case "unsure":
                self._answer("0")
            case "unable":
                self._take(Unable())
            case "back":
                self._back()
            case "known":
                self._known()
            case "picture":
                self._picture()
            case "save":
                self._save()
            case "site":
                self._say("What is the number of your site?")
                self._site = self._listen() or None
                self._ask()
            case "leave":
                raise Gone
            case _:
                self._say("That is not to be had in plain text.")

    def _help(self) -> None:
        screen = screen_of(self.walk.now.node)
        lines = [f"{keys}: {what}" for keys, what in TYPED_HERE]
        lines += [f"{c.keys[0]}: {c.help}" for c in commands_on(screen) if c.id not in NOT_HERE]
        lines += [f"{word}: {meaning}." for word, meaning in MEANING.items()]
        self._say("After each key or number press Enter.", *lines, SAFETY, before="\n")

    def _back(self) -> None:
        try:
            self._go_to(self.walk.back(), "Taken back.")
        except Refused as refused:
            self._say(refused.reason)

    def _picture(self) -> None:
        picture = picture_of(self.walk)
        if picture is None:
            self._say("There is no picture for this.")
            return
        self._write(as_text(draw(picture, ascii_only=True)) + "\n")

    def _known(self) -> None:
        """Say what is known, and let one answer be changed."""
        listed = self.walk.now.known
        if not listed:
            self._say("Nothing is known yet.")
            return
        self._say(
            *(f"  {number}. {spoken.of_known(known)}" for number, known in enumerate(listed, 1)), before="\n"
        )
        self._say(*map(spoken.of_worked, self.walk.now.worked_all))
        self._say("Type the number of an answer to change it. Enter: back to the question.")
        typed = self._listen()
        if typed.isdecimal() and 1 <= int(typed) <= len(listed):
            self._revise(listed[int(typed) - 1].index)
        else:
            self._ask()

    def _revise(self, index: int) -> None:
        """Ask an earlier question again; what was answered later and still fits is kept."""
        walk = self.walk
        earlier = resume(walk.library, walk.tree, walk.meter, walk.answers[:index])[0]
        self._say("Changing this answer. Enter: leave it as it is.", *spoken.question(earlier), before="\n")
        while typed := self._listen():
            try:
                answer = answer_in(typed, earlier.now.node)
                if isinstance(answer, Read) and typed == self._doubted:
                    answer = Read(typed, confirmed=True)
                revised = walk.revise(index, answer, self.keeper.clock())
            except Refused as refused:
                self._doubted = typed if refused.confirm else None
                self._say(refused.reason)
                continue
            lost = len(walk.answers) - len(revised.answers)
            self._go_to(revised, "Changed.", *([f"{lost} later answers no longer fit."] if lost > 0 else []))
            return
        self._ask()

    def _save(self) -> None:
        """Save the record beside where the program was started, else at home."""
        for folder in (Path.cwd(), Path.home()):
            try:
                path = save_record(self.walk, self._site, folder, self.keeper.clock())
            except OSError as error:
                why = error.strerror or str(error)
            else:
                self._say(f"Saved as {path}")
                return
        self._say(f"The record could not be saved: {why}.")

    def _listen(self) -> str:
        self._write("> ")
        line_ = self._given.readline()
        if not line_:
            raise Gone
        if not self._given.isatty():
            self._write(
                f"{line_.strip()}\n"
            )  # a terminal shows what is typed; elsewhere the transcript should
        return line_.strip()

    def _news(self) -> None:
        if news := self.keeper.news():
            self._say(news)

    def _say(self, *lines: str, before: str = "") -> None:
        """Write lines no wider than the room; a long one goes on indented as it began."""
        self._write(before)
        for text in lines:
            inset = len(text) - len(text.lstrip())
            hang = inset + (3 if inset else 0)
            self._write(as_text(wrap(text, self._room, first=line(" " * inset), indent=hang)) + "\n")

    def _write(self, text: str) -> None:
        self._out.write(text)
        self._out.flush()
