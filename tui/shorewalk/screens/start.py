"""The start: what was left unfinished, and what may be wrong, in the person's words."""

from __future__ import annotations

from shorewalk.commands import barred, command_of
from shorewalk.lines import Line
from shorewalk.pages.start import HURT, HURT_SHORT, Begin, Left, start_page
from shorewalk.sections import Section, headers_in
from shorewalk.symptoms import matches, nearest

from .base import SHORT, PageScreen

MOST_LEFT = 3


class StartScreen(PageScreen):
    """Begins a walk or goes on with one. What is typed is a number or words to search for."""

    kind = "start"
    heading = "What is going on?"
    prompt = "Which one"
    letters = False

    def __init__(self) -> None:
        super().__init__()
        self._picked: int | None = None
        self._offer: Begin | None = None

    @property
    def offer(self) -> Begin:
        """What is offered now."""
        if self._offer is None:
            self._offer = self._offered("")
        return self._offer

    def left(self) -> str:
        return f"meter: {self.app.meter.name}"

    def page(self, room: int, height: int) -> list[Line]:
        return start_page(self.offer, self._picked, room, height, ascii_only=self.app.ascii_only)

    def guide(self, room: int) -> str:
        if room < SHORT:
            return f"Number, or a word for it, then Enter. {HURT_SHORT}"
        return f"Type a number, or a word for what is wrong, then Enter. {HURT}"

    def typed(self, text: str) -> None:
        self._picked = None
        if text.isdecimal():
            self._picked = int(text)
        else:
            self._offer = self._offered(
                "" if command_of(text, self.kind) or barred(text, self.kind) else text
            )
            entries = self._offer.entries
            self._picked = 1 if text and len(entries) == 1 else None
        self.tell()
        self.reading.renew(top=None if text.isdecimal() else 0)
        self.reading.reveal("picked")

    def give(self, text: str) -> None:
        if command := command_of(text, self.kind):
            self.action_command(command.id)
            return
        entries = self.offer.entries
        number = int(text) if text.isdecimal() else 1 if len(entries) == 1 else 0
        if not 1 <= number <= len(entries):
            self.tell(
                "Which one? Type its number."
                if number == 0 and entries
                else f'"{text}" is not one of the numbers here.'
            )
            return
        entry = entries[number - 1]
        if isinstance(entry, Left):
            self.app.go_on(entry.number)
        else:
            self.app.begin(entry.name)

    def escape(self) -> None:
        """Nothing: Esc never leaves."""

    def do_again(self) -> None:
        """Read the volts again, where the last walk was."""
        self.app.read_volts_again()

    def do_log(self) -> None:
        """Show past walks."""
        from .log import show_log

        show_log(self.app)

    def do_meter(self) -> None:
        """Say how exact the meter is."""
        from .meter import MeterScreen

        def chosen(meter: object) -> None:
            if meter is not None:
                self.app.meter, self.app.meter_set = meter, True  # type: ignore[assignment]
                self.show_all(top=None)

        self.app.push_screen(MeterScreen(), chosen)

    def do_hand(self) -> None:
        """Hand a walk over that was left here, or take one over from a file."""
        from .handing import hand_or_take

        hand_or_take(self.app)

    def offer_afresh(self) -> None:
        """List all once more: what can go on, and where walks are kept, is not what it was."""
        self._offer = None
        self.show_all()

    def _offered(self, asked: str) -> Begin:
        app, problem = self.app, self.app.journal.problem
        if not asked:
            left = tuple(app.left_unfinished(MOST_LEFT))
            return Begin(left, tuple(app.sections), problem=problem)
        every = headers_in(app.sections)
        fits = matches(every, asked)
        found = fits or nearest(every, asked) or every
        return Begin((), (Section("", tuple(found)),), asked, nearest=not fits, problem=problem)
