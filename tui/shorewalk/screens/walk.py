"""The walk: one question at a time. An answer makes a new walk, and the screen shows that one."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual.app import ComposeResult

from shorewalk.lines import BLANK, Line
from shorewalk.pages.knowns import flash
from shorewalk.pages.options import next_count
from shorewalk.pages.question import View, left_words, question_page, question_side, view_of
from shorewalk.ruling import Ruled, has_readings
from shorewalk.tree.model import Ask, Measure, Step
from shorewalk.walk.answers import Answer, Read, Running, Unable
from shorewalk.walk.refused import Refused
from shorewalk.walk.walk import Walk

from .base import NARROW, SHORT, PageScreen

if TYPE_CHECKING:
    from shorewalk.journal import Keeper
    from shorewalk.walk.known import Position

NUMBER = "Type a number, then Enter."
READING = "Type what the meter shows, then Enter."
READ_ON = "Read on first, with Enter."


class WalkScreen(PageScreen):
    """Asks the open question of a walk; or, with `revise`, an earlier one again.

    `revise` takes the new answer and returns the walk that comes of it.
    """

    def __init__(
        self,
        walk: Walk,
        keeper: Keeper,
        *,
        revise: Callable[[Answer], Walk] | None = None,
        number: int | None = None,
        instead_of: Walk | None = None,
    ) -> None:
        super().__init__()
        self.walk, self.keeper = walk, keeper
        self._revise, self._number, self._instead_of = revise, number, instead_of
        self._picked: int | None = None
        self._ticked: dict[str, int] = {}
        self._drawn = False
        self._ruled: tuple[int, int] | None = None

    # What is shown.

    @property
    def kind(self) -> str:  # type: ignore[override]
        """Which kind of question this is; commands apply by it."""
        node = self.walk.now.node
        return (
            "measure"
            if isinstance(node, Measure)
            else "ask"
            if isinstance(node, Ask)
            else "step"
            if isinstance(node, Step)
            else "tally"
        )

    @property
    def prompt(self) -> str:  # type: ignore[override]
        """What stands before the line."""
        return "Meter shows" if self.kind == "measure" else "Number"

    @property
    def revising(self) -> bool:
        """Whether an earlier answer is being changed."""
        return self._revise is not None

    @property
    def _whole(self) -> Walk:
        """The walk with every answer, also while an earlier one is being changed."""
        return self._instead_of or self.walk

    @property
    def view(self) -> View:
        """What to show of the walk."""
        return view_of(
            self.walk,
            picked=self._picked,
            running=self._ticked,
            revising=self._number,
            ascii_only=self.app.ascii_only,
            possible=self._ruled,
        )

    @property
    def heading(self) -> str:  # type: ignore[override]
        """What the walk is about."""
        return self.view.title

    def left(self) -> str:
        if not self._drawn:
            return ""  # counting reads every part of the tree: the question is shown first
        return left_words(self.view, narrow=self.size.width < NARROW)

    def page(self, room: int, height: int) -> list[Line]:
        if self.app.aloud:
            from shorewalk.pages.aloud import aloud_page

            return aloud_page(self.view, room, height)
        return question_page(self.view, room, height, narrow=self.size.width < NARROW)

    def side(self, room: int, height: int) -> list[Line]:
        return question_side(self.view, room, height)

    def guide(self, room: int) -> str:
        short, more = room < SHORT, self.reading.more
        if self.walk.now.cautions_full and more:
            return "Read on with Enter, to the end." if short else f"Read on with Enter, to the end. {NUMBER}"
        if self.kind == "measure":
            if more:
                return "Enter alone reads on. x: can't." if short else f"{READING} Enter alone reads on."
            return "Then Enter. Can't measure? Press x." if short else f"{READING} Can't measure? Press x."
        if self.kind == "tally":
            last = next((o.number for o in self.view.options if isinstance(o.answer, Running)), None)
            if short:
                then = f"; then {last}, Enter" if last else ""
                return f"Number, Enter to tick{then}. Or a display's amps: 12 A."
            then = f" Then {last} and Enter." if last else ""
            return (
                f"A number and Enter ticks a load, again counts a second one.{then} "
                "Or the amps that a display in the rig shows, as in 12 A."
            )
        alone = "reads on" if more else "menu" if short else "what else you can do"
        return f"Number, then Enter. Enter alone: {alone}." if short else f"{NUMBER} Enter alone: {alone}."

    def compose(self) -> ComposeResult:
        self.set_class(self._alone, "-whole", update=False)
        yield from super().compose()

    def on_mount(self) -> None:
        self.call_after_refresh(self._complete)

    def _complete(self) -> None:
        """Show what was left out of the first drawing, so that the question was there sooner."""
        self._drawn = True
        self.show_left()
        self._rule_out()
        if news := self.keeper.news():
            self.tell(news, "note")

    def _rule_out(self) -> None:
        """Let it be worked out what the readings leave possible: beside the question, which never waits for it."""
        walk = self.walk
        if self.app.ruling is None or self.revising or not has_readings(walk):
            self._ruled = None
            return

        def told(ruled: Ruled) -> None:
            if self.walk is walk and self.is_attached and not ruled.failed:
                self._ruled = ruled.counts
                self.sheets["side"].renew()

        self.app.rule_out(walk, told)

    # What happens.

    def typed(self, text: str) -> None:
        if self.kind == "measure":
            return
        self._picked = int(text) if text.isdecimal() else None
        self.reading.renew(top=None)

    def give(self, text: str) -> None:
        if self.walk.now.cautions_full and not self.reading.seen_whole:
            self._empty()
            self.reading.page(1)
            self.tell(READ_ON)
            return
        if self.kind == "measure":
            self.append(Read(text))
            return
        if self.kind == "tally" and not text.isdecimal() and any(map(str.isdecimal, text)):
            self.append(Read(text))  # the amps of a display
            return
        option = next((o for o in self.view.options if text.isdecimal() and o.number == int(text)), None)
        if option is None:
            self._empty()
            self.tell(f'"{text}" is not one of the numbers here.')
        elif option.load is not None:
            self._ticked[option.load] = next_count(option.count)
            self._empty()
            self.tell()
        elif option.answer is not None:
            self.append(option.answer)

    def append(self, answer: Answer) -> None:
        """Put one more answer to the walk and show what comes of it; a refused one changes nothing."""
        before = self.walk.now
        try:
            walk = self._revise(answer) if self._revise else self.walk.answer(answer, time=self.app.clock())
        except Refused as refused:
            if refused.confirm and isinstance(answer, Read):
                self._doubt(answer, refused.reason)
            else:
                self.tell(refused.reason)
                self.reply.select_all()  # what is typed next takes its place
            return
        self._come_to(walk, before)

    def _come_to(self, walk: Walk, before: Position | None) -> None:
        revised = self.revising
        lost = len(self._instead_of.answers) - len(walk.answers) if self._instead_of else 0
        self.keeper.keep(walk)
        self.walk = walk
        self._revise = self._instead_of = self._number = self._picked = None
        self._ticked = {}
        if walk.ended:
            self.app.show_walk(walk, self.keeper)
            return
        self._empty()
        narrow = self.size.width < NARROW or self.app.aloud  # else the side says it
        room, ascii_only = self.size.width - 2, self.app.ascii_only
        first = flash(before, walk.now, room, ascii_only=ascii_only) if narrow and not revised else BLANK
        self._telling = (self.keeper.news() or (changed_words(lost) if revised else ""), "note", first)
        self._make_room()
        self.show_all()
        self.call_after_refresh(self._rule_out)

    def _make_room(self) -> None:
        """Give a page of cautions, and one read aloud, the whole window; any other question has its side."""
        self.set_class(self._alone, "-whole")

    @property
    def _alone(self) -> bool:
        return self.walk.now.cautions_full or self.app.aloud

    def _empty(self) -> None:
        self._picked = None
        self.reading.renew(top=None)

    def _doubt(self, answer: Read, reason: str) -> None:
        from .choose import ChooseScreen

        def decided(said: int | str | None) -> None:
            """Take yes, or the same again, for a yes; another reading for what the meter shows."""
            if said in (1, answer.text):
                self.append(Read(answer.text, confirmed=True))
                return
            self._empty()
            if isinstance(said, str):
                self.give(said)

        items = ((1, f'Yes, it shows "{answer.text}"'), (2, "No, I'll type it again"))
        self.app.push_screen(
            ChooseScreen("Is that what the meter shows?", (reason,), items, other=True), decided
        )

    def do_unable(self) -> None:
        """This reading cannot be taken."""
        self.append(Unable())

    def do_back(self) -> None:
        """Take back the last answer; where one is being changed, leave it as it was."""
        if self._instead_of is not None:
            self.app.show_walk(self._instead_of, self.keeper)
            return
        try:
            walk = self.walk.back(self.app.clock())
        except Refused as refused:
            self.tell(refused.reason, "note")
            return
        self._come_to(walk, None)
        self.tell("One answer taken back.", "note")

    def do_known(self) -> None:
        """Show all that is known, to read or to change."""
        from .known import KnownScreen

        self.app.push_screen(KnownScreen(self._whole, self.keeper))

    def do_possible(self) -> None:
        """Show what the readings leave possible."""
        from .possible import PossibleScreen

        self.app.push_screen(PossibleScreen(self.walk))

    def do_picture(self) -> None:
        """Show the picture alone."""
        from .picture import PictureScreen

        self.app.push_screen(PictureScreen(self.view))

    def do_aloud(self) -> None:
        """Show questions in few words, to be read to somebody else; or the whole page again."""
        self.app.aloud = not self.app.aloud
        self._make_room()
        self.tell()
        self.show_all()

    def do_hand(self) -> None:
        """Hand this walk over to somebody at another machine."""
        from .handing import hand_walk_over

        hand_walk_over(self.app, self._whole, self.keeper)

    def do_leave(self) -> None:
        """Ask where to; every answer is kept already."""
        self.app.ask_to_leave(self.keeper)


def changed_words(lost: int) -> str:
    """Return what to say after an earlier answer was changed; `lost` later answers no longer fit."""
    if lost <= 0:
        return "Changed. All later answers were kept."
    later = "1 later answer does" if lost == 1 else f"{lost} later answers do"
    return f"Changed. {later} not fit any more; what is needed is asked again."
