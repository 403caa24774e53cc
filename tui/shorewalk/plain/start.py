"""The start in plain text: what was left, what can be begun, the person's own words."""

from __future__ import annotations

from typing import NoReturn

from shorewalk.commands import barred
from shorewalk.journal import Keeper
from shorewalk.pages.left import walks_left
from shorewalk.pages.start import WELCOME, Begin, Left
from shorewalk.reach import NOT_HERE
from shorewalk.sections import Section, headers_in, sections_of
from shorewalk.symptoms import matches, nearest
from shorewalk.tree.source import TreeError
from shorewalk.walk.walk import begin

from .again import go_on, read_again
from .moving import GoTo
from .offering import HOW, say_begin, say_found
from .prompt import Prompt
from .session import Session
from .talk import Talk
from .voice import number_in
from .where import placed_first

MOST_LEFT = 3
PLAIN = "shorewalk in plain text. After whatever you type, press Enter."
HURT = "Somebody hurt, or something burning? Type emergency, or an exclamation mark, now."


class Start(Prompt):
    """Begins a walk or goes on with one, by a number or by words."""

    screen = "start"
    back = "the whole list"

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.offer = self._offered("")
        self._all_said = False

    def run(self) -> NoReturn:
        """Say what there is and listen, until one goes somewhere."""
        if not self.session.welcomed:
            self.session.welcomed = True
            self._voice.say(PLAIN, *WELCOME, HURT)
        if problem := self.offer.problem:
            self._voice.say(problem)
        self._say()
        while True:
            typed = self._voice.listen()
            if not typed:
                self._enter()
            elif command := self.command_in(typed):
                self.obey(command)
                self._voice.say(f"{HOW} Enter: the whole list.")
                self._all_said = False
            elif barred(typed, self.screen):
                self._voice.say(NOT_HERE)
            else:
                self._chosen(typed)

    def _say(self) -> None:
        """Say what can be chosen now."""
        if self.offer.asked:
            say_found(self._voice, self.offer)
            self._all_said = False
        else:
            self._all_said = say_begin(self._voice, self.offer)

    def _enter(self) -> None:
        """After the whole list the menu comes, after anything else the list."""
        if self._all_said and self.menu():
            self._voice.say(f"{HOW} Enter: the whole list.")
            self._all_said = False
            return
        self.offer = self._offered("")
        self._say()

    def _chosen(self, typed: str) -> None:
        number, entries = number_in(typed), self.offer.entries
        if number is None:
            self._look_for(typed)
        elif 1 <= number <= len(entries):
            self._take(entries[number - 1])
        else:
            there = (
                f"they go from 1 to {len(entries)}" if entries else "there is none now. Enter: the whole list"
            )
            self._voice.say(f"{number} is none of the numbers here: {there}.")

    def _look_for(self, words: str) -> None:
        self.offer = self._offered(words)
        entries = self.offer.entries
        if len(entries) == 1 and not self.offer.nearest:
            self._take(entries[0])
        else:
            self._say()

    def _take(self, entry: object) -> None:
        if isinstance(entry, Left):
            go_on(self.session, entry.number)
        else:
            self._begin(str(getattr(entry, "name", "")))

    def _begin(self, name: str) -> None:
        session = self.session
        try:
            walk = begin(session.library, name, session.meter)
        except TreeError as error:
            self._voice.say(str(error))
            return
        keeper = Keeper(session.journal)
        placed_first(session, walk, keeper)
        raise GoTo(Talk(walk, keeper, session=session).walk_through)

    def do_again(self) -> None:
        """Read the volts again, where the last walk was."""
        read_again(self.session)

    def do_log(self) -> None:
        """Say past walks."""
        from .log import tell_log

        tell_log(self.session)
        self.offer = self._offered("")

    def do_meter(self) -> None:
        """Ask how exact the meter is."""
        from .meter import ask_meter

        ask_meter(self.session)

    def do_hand(self) -> None:
        """Hand a walk over that was left here, or take one over from a file."""
        from .handing import hand_or_take

        hand_or_take(self.session)

    def do_practice(self) -> None:
        """Go to the sites to practise at."""
        from .practice import Practice

        raise GoTo(Practice(self.session).run)

    def _offered(self, asked: str) -> Begin:
        session = self.session
        sections, problem = sections_of(session.library), session.journal.problem
        if not asked:
            left = tuple(walks_left(session.journal, session.library, MOST_LEFT))
            return Begin(left, tuple(sections), problem=problem)
        every = headers_in(sections)
        fits = matches(every, asked)
        found = fits or nearest(every, asked)
        return Begin((), (Section("", tuple(found)),), asked, nearest=not fits, problem=problem)
