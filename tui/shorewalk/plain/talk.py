"""The conversation: say, listen, until the walk ends or somebody leaves."""

from __future__ import annotations

from collections.abc import Iterator
from typing import IO

from shorewalk.commands import Command, menu_of
from shorewalk.emergency import CARD
from shorewalk.exits import Exit
from shorewalk.journal import Keeper
from shorewalk.journal.where import EXAMPLE
from shorewalk.log.placed import placed_words
from shorewalk.pages.sags import sags_in_words
from shorewalk.ruling import Ruling, has_readings
from shorewalk.walk.answers import Answer, Read, Unable
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Refused, Walk, resume

from . import spoken, unfinished
from .asides import NOT_HERE, hand_walk_over, leave, save, say_help, show_picture
from .heard import answer_in, command_in, screen_of
from .possible import say_also_possible, say_possible
from .voice import Gone, Voice


class Talk:
    """One walk in plain text. `given` and `out` are lines in and out, `room` the width of a line."""

    def __init__(self, walk: Walk, keeper: Keeper, given: IO[str], out: IO[str], room: int = 80) -> None:
        self.walk, self.keeper = walk, keeper
        self._voice = Voice(given, out, room)
        self._doubted: str | None = None  # a reading that counts if it is typed once more
        self._room = room
        self.aloud = False
        """Whether questions are said in few words, to be read to somebody else."""
        self.rules_out = False
        """Whether an ending says by itself what the readings leave possible."""
        self._ruling = Ruling()

    def run(self, *, offer: bool = False) -> Exit:
        """Walk to the end; a person who leaves before leaves the walk unfinished, and kept.

        With `offer` a walk of this tree that was left unfinished is offered first.
        """
        try:
            if offer:
                self.walk, self.keeper = unfinished.offer(self._voice, self.walk, self.keeper)
            self._begin()
            while True:
                self._turn(self._voice.listen())
        except (Gone, KeyboardInterrupt):
            if self.walk.ended:
                return Exit.CLEAN
            self._voice.say(
                self.keeper.how_to_go_on("--plain", *(["--aloud"] if self.aloud else []))
                or self.keeper.goodbye,
                before="\n",
            )
            return Exit.UNFINISHED

    @property
    def _site(self) -> str | None:
        """The site for the message, if somebody said it, now or not long ago."""
        verdict = ending(self.walk).verdict if self.walk.ended else None
        return self.keeper.placing.site_for(verdict)

    def _begin(self) -> None:
        symptom = self.walk.library.tree(self.walk.tree).symptom
        self._voice.say(
            f"{symptom.rstrip('.')}.", "One question at a time. Enter alone: all you can do. !: emergency."
        )
        self._news()
        self._ask()

    def _ask(self) -> None:
        """Say the open question, or the ending."""
        if self.walk.ended:
            number = None if self.keeper.journal.problem else self.keeper.number
            end = ending(self.walk, self._site)
            lines = spoken.end_in_words(end, number, placed_words(self.keeper.placing, end.verdict))
            reminder = [self.keeper.reminder] if self.keeper.reminder else []
            self._voice.say(*lines, *reminder, before="\n")
            if self.rules_out and has_readings(self.walk):
                say_also_possible(self._voice, self.walk, self._ruling)
            self._voice.say("Enter: what you can do now. q: leave.")
        else:
            self._voice.say(*self._question(self.walk), before="\n")

    def _question(self, walk: Walk) -> Iterator[str]:
        return spoken.aloud(walk, self._room) if self.aloud else spoken.question(walk)

    def _turn(self, typed: str) -> None:
        node = self.walk.now.node
        if not typed:
            self._menu()
        elif command := command_in(typed, screen_of(node)):
            self._obey(command)
        elif typed.casefold() in ("r", "repeat"):
            self._ask()
        elif self.walk.ended:
            self._voice.say(
                "This walk has ended. b: take back the last answer. s: save the record. q: leave."
            )
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
            self._voice.say(refused.reason)

    def _take(self, answer: Answer) -> None:
        self._go_to(self.walk.answer(answer, time=self.keeper.clock()))

    def _go_to(self, walk: Walk, *lines: str) -> None:
        """Let the walk be this one: on disk first, then what the answer told, then the next question."""
        self.walk, self._doubted = walk, None
        self.keeper.keep(walk)
        self._voice.say(*(lines or spoken.told(walk)))
        self._news()
        self._ask()

    def _menu(self) -> None:
        menu = [
            command for command in self._menu_of(screen_of(self.walk.now.node)) if command.id not in NOT_HERE
        ]
        self._voice.say(*(f"  {command.number}. {command.words}" for command in menu))
        self._voice.say("Type a number. Enter: back to the question.")
        typed = self._voice.listen()
        chosen = [command for command in menu if typed in (str(command.number), *command.keys)]
        if chosen:
            self._obey(chosen[0])
        else:
            self._ask()

    def _menu_of(self, screen: str) -> list[Command]:
        return menu_of(screen)

    def _obey(self, command: Command) -> None:
        match command.id:
            case "emergency":
                self._voice.say(*CARD, "Enter: all you can do. r: the question again.", before="\n")
            case "help":
                say_help(self._voice, self.walk)
            case "unsure":
                self._answer("0")
            case "unable":
                self._take(Unable())
            case "back":
                self._back()
            case "known":
                self._known()
            case "picture":
                show_picture(self._voice, self.walk)
            case "save":
                save(self._voice, self.walk, self.keeper, self._site, self._ruling)
            case "site":
                self._place()
            case "possible":
                say_possible(self._voice, self.walk, self._ruling)
            case "aloud":
                self.aloud = not self.aloud
                self._ask()
            case "hand":
                hand_walk_over(self._voice, self.walk, self.keeper)
            case "leave":
                leave(self._voice, self.keeper)
            case _:
                self._voice.say("That is not to be had in plain text.")

    def _place(self) -> None:
        """Ask which site this is; it goes into the message and the log."""
        self._voice.say(f"Your site, and the park after a comma, as in {EXAMPLE}. Enter: leave it.")
        if typed := self._voice.listen():
            try:
                self.keeper.placing.typed(typed)
            except ValueError as error:
                self._voice.say(str(error))
        self._ask()

    def _back(self) -> None:
        try:
            self._go_to(self.walk.back(self.keeper.clock()), "Taken back.")
        except Refused as refused:
            self._voice.say(refused.reason)

    def _known(self) -> None:
        """Say what is known, and let one answer be changed."""
        listed = self.walk.now.known
        if not listed:
            self._voice.say("Nothing is known yet.")
            return
        self._voice.say(
            *(f"  {number}. {spoken.of_known(known)}" for number, known in enumerate(listed, 1)), before="\n"
        )
        site = self.walk.library.site
        worked = self.walk.now.worked_all
        self._voice.say(*(spoken.of_worked(each, site) for each in worked), *sags_in_words(worked, site))
        self._voice.say("Type the number of an answer to change it. Enter: back to the question.")
        typed = self._voice.listen()
        if typed.isdecimal() and 1 <= int(typed) <= len(listed):
            self._revise(listed[int(typed) - 1].index)
        else:
            self._ask()

    def _revise(self, index: int) -> None:
        """Ask an earlier question again; what was answered later and still fits is kept."""
        walk = self.walk
        earlier = resume(walk.library, walk.tree, walk.meter, walk.answers[:index])[0]
        self._voice.say(
            "Changing this answer. Enter: leave it as it is.", *self._question(earlier), before="\n"
        )
        while typed := self._voice.listen():
            try:
                answer = answer_in(typed, earlier.now.node)
                if isinstance(answer, Read) and typed == self._doubted:
                    answer = Read(typed, confirmed=True)
                revised = walk.revise(index, answer, self.keeper.clock())
            except Refused as refused:
                self._doubted = typed if refused.confirm else None
                self._voice.say(refused.reason)
                continue
            lost = len(walk.answers) - len(revised.answers)
            self._go_to(revised, "Changed.", *([f"{lost} later answers no longer fit."] if lost > 0 else []))
            return
        self._ask()

    def _news(self) -> None:
        if news := self.keeper.news():
            self._voice.say(news)
