"""A walk in plain text: say the question, listen, until it ends or somebody leaves."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from typing import IO, NoReturn

from shorewalk.exits import Exit
from shorewalk.journal import Keeper, at_risk
from shorewalk.walk.answers import Answer, Read, Unable
from shorewalk.walk.walk import Refused, Walk

from . import spoken, unfinished
from .asides import hand_walk_over, show_picture
from .at_the_end import AtTheEnd
from .changing import change_known
from .heard import answer_in, screen_of
from .leaving import interrupted, leave
from .moving import GoTo, converse
from .possible import say_possible
from .prompt import Prompt
from .session import Session
from .voice import Gone, Voice

MAY_BE_LOST = "The last answer may not be kept."
AGAIN, END_AGAIN = "r: the question again.", "r: the ending again."
"""What is said after something long: nobody can look up where they are."""


class Talk(AtTheEnd, Prompt):
    """One walk in plain text, in a `session` or in one of its own.

    `given` and `out` are lines in and out (the usual streams if none), `room` the width of a line.
    """

    def __init__(
        self,
        walk: Walk,
        keeper: Keeper,
        given: IO[str] | None = None,
        out: IO[str] | None = None,
        room: int = 80,
        *,
        session: Session | None = None,
    ) -> None:
        voice = session.voice if session else Voice(given or sys.stdin, out or sys.stdout, room)
        super().__init__(session or Session(voice, keeper.journal))
        self.walk, self.keeper = walk, keeper
        self._unkept: Walk | None = None
        self._doubted: str | None = None  # a reading that counts if it is typed once more

    @property
    def screen(self) -> str:  # type: ignore[override]
        """Which kind of question is open."""
        return screen_of(self.walk.now.node)

    @property
    def back(self) -> str:  # type: ignore[override]
        """What Enter leads to from the menu."""
        return "the ending again" if self.walk.ended else "back to the question"

    @property
    def _again(self) -> str:
        """How to hear again where one is."""
        return END_AGAIN if self.walk.ended else AGAIN

    def run(self, *, offer: bool = False) -> Exit:
        """Talk until somebody leaves; who leaves before the end leaves the walk unfinished, and kept.

        With `offer` a walk of this tree that was left unfinished is offered first.
        """
        return converse(lambda: self.walk_through(offer=offer), self.session)

    def walk_through(self, *, offer: bool = False) -> NoReturn:
        """Walk to the end, and answer what is asked there; raises `Gone` or `GoTo`."""
        try:
            if offer:
                self.walk, self.keeper = unfinished.offer(self.session, self.walk, self.keeper)
            self._begin()
            while True:
                self._listen()
        except GoTo:
            raise
        except (Gone, KeyboardInterrupt) as left:
            if isinstance(left, Gone) and left.code is not None:
                raise
            raise Gone(self._goodbye()) from None
        except Exception:
            # Whatever went wrong, how this walk goes on is said.
            if self._unkept:
                self._unkept = None
                self._voice.say(MAY_BE_LOST, before="\n")
            self._goodbye()
            raise

    def _listen(self) -> None:
        """Listen once. After Ctrl-C what is on no disk may be kept elsewhere before one leaves."""
        try:
            self._turn(self._voice.listen(self._again))
        except KeyboardInterrupt:
            interrupted(self.session, self.keeper)
            self._ask()

    def _goodbye(self) -> Exit:
        if self._unkept:  # somebody broke in while it was written
            self.keeper.keep(self._unkept)
        if self.walk.ended and not at_risk(self.session.journal, self.keeper):
            return Exit.CLEAN
        options = ["--plain", *(["--aloud"] if self.session.aloud else [])]
        self._voice.say(self.keeper.how_to_go_on(*options) or self.keeper.goodbye, before="\n")
        return Exit.CLEAN if self.walk.ended else Exit.UNFINISHED

    def _begin(self) -> None:
        symptom = self.walk.library.tree(self.walk.tree).symptom
        self._voice.say(
            f"{symptom.rstrip('.')}.",
            "One question at a time. Enter alone: all you can do. Somebody hurt, or something burning? Type emergency.",
        )
        self._news()
        self._ask()

    def _ask(self) -> None:
        """Say the open question, or the ending."""
        if self.walk.ended:
            self.say_end()
        else:
            self._voice.say(*self.question(self.walk), before="\n")

    def question(self, walk: Walk) -> Iterator[str]:
        """Yield the lines of a question."""
        return spoken.aloud(walk, self._voice.room) if self.session.aloud else spoken.question(walk)

    def _turn(self, typed: str) -> None:
        if not typed:
            if not self.menu():
                self._ask()
        elif command := self.command_in(typed):
            self.obey(command)
        elif self.walk.ended:
            self._voice.say(
                "This walk has ended. b: take back the last answer. s: save the record. q: leave."
            )
        else:
            self._answer(typed)

    def _answer(self, typed: str) -> None:
        try:
            self._take(self.understood(typed, self.walk))
        except Refused as refused:
            self.say_refused(typed, refused)

    def understood(self, typed: str, walk: Walk) -> Answer:
        """Return the answer that was typed; a doubtful reading counts if it is typed once more."""
        answer = answer_in(typed, walk.now.node)
        doubted = isinstance(answer, Read) and typed == self._doubted
        return Read(typed, confirmed=True) if doubted else answer

    def say_refused(self, typed: str, refused: Refused) -> None:
        """Say why an answer does not count."""
        self._doubted = typed if refused.confirm else None
        self._voice.say(refused.reason)

    def _take(self, answer: Answer) -> None:
        self.go_to(self.walk.answer(answer, time=self.keeper.clock()))

    def go_to(self, walk: Walk, *lines: str) -> None:
        """Let the walk be this one: on disk first, then what the answer told, then the next question."""
        self.walk, self._doubted, self._unkept = walk, None, walk
        self.keeper.keep(walk)
        self._unkept = None
        self._voice.say(*(lines or spoken.told(walk)))
        self._news()
        self._ask()

    def do_repeat(self) -> None:
        """Say the question again."""
        self._ask()

    def do_start(self) -> None:
        """Go to the start; the walk is kept."""
        if not self.walk.ended and (how := self.keeper.how_to_go_on("--plain")):
            self._voice.say(how)
        self.to_start()

    def do_unable(self) -> None:
        """Say that this cannot be read."""
        self._take(Unable())

    def do_back(self) -> None:
        """Take back the last answer."""
        try:
            self.go_to(self.walk.back(self.keeper.clock()), "Taken back.")
        except Refused as refused:
            self._voice.say(refused.reason)

    def do_known(self) -> None:
        """Say what is known, and let one answer be changed."""
        change_known(self)

    def do_picture(self) -> None:
        """Say and draw where the probes go."""
        show_picture(self._voice, self.walk)
        self._voice.say(self._again)

    def do_help(self) -> None:
        """Say what can be typed here, and how to hear the question again."""
        super().do_help()
        self._voice.say(self._again)

    def do_possible(self) -> None:
        """Say what the readings leave possible."""
        say_possible(self._voice, self.walk, self.session.ruling)
        self._voice.say(self._again)

    def do_aloud(self) -> None:
        """Say questions in few words from now on, or in full again."""
        self.session.aloud = not self.session.aloud
        self._ask()

    def do_hand(self) -> None:
        """Hand the walk over in a file."""
        hand_walk_over(self.session, self.walk, self.keeper, self._again)

    def do_leave(self) -> None:
        """Leave; where the disk failed, keep the walk elsewhere first."""
        leave(self.session, self.keeper)
        self._ask()

    def _news(self) -> None:
        if news := self.keeper.news():
            self._voice.say(news)
