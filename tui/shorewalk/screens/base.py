"""What all screens have in common: a head, a page, perhaps a side, one line to type into, the keys.

A screen says what it shows (`page`, `side`, ...) and what happens (`give` for what was typed,
`do_...` for a command). It keeps the walk, which never changes, and shows the one it has now.
"""

from __future__ import annotations

from functools import cached_property
from typing import Any, ClassVar

from textual import events, getters, on
from textual.app import ComposeResult
from textual.await_complete import AwaitComplete
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.geometry import Size
from textual.screen import Screen
from textual.widgets import Input

from shorewalk.commands import COMMANDS, KEY_NAMES, Command, barred, footer, menu_of
from shorewalk.lines import BLANK, Line, Span, cells, cut, line, wrap
from shorewalk.looks import told_of
from shorewalk.pages.fixed import footer_line
from shorewalk.reach import NOT_HERE
from shorewalk.widgets.reply import Reply
from shorewalk.widgets.sheet import Sheet

from .program import Program

NARROW = 72
"""Cells of the window under which there is no side."""
SHORT = 64
"""Cells under which what one can type is told in few words."""
LEAST = (24, 9)
"""Cells and lines of the least window in which a question, its answers and the way out can be seen."""
TOO_SMALL = f"Too small a window, make it {LEAST[0]} by {LEAST[1]}. Nothing is lost. ! emergency."
IN_SMALL = ("leave", "emergency")
"""Commands that there are in a window too small."""


class PageScreen(Screen[Any]):
    """See the module. `kind` is the name by which commands say where they apply."""

    kind: str = "card"
    prompt: str = "Number"
    letters: bool = True
    """Whether letters are commands while nothing is typed; else they are text, and Enter makes them one."""
    reads_on: bool = True
    """Whether Enter with nothing typed reads on where the page is longer than the window."""
    fits_any: bool = False
    """Whether the page is shown in a window of any size."""

    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (NARROW, "-medium"), (104, "-wide")]  # noqa: RUF012
    AUTO_FOCUS = "#reply"
    BINDINGS: ClassVar[list[BindingType]] = [
        *(
            Binding(KEY_NAMES.get(key, key), f"command('{command.id}')", command.label, show=False)
            for command in COMMANDS
            for key in command.keys
        ),
        Binding("down", "scroll(1)", show=False),
        Binding("up", "scroll(-1)", show=False),
        Binding("pagedown", "page(1)", show=False),
        Binding("pageup", "page(-1)", show=False),
    ]

    app = getters.app(Program)

    def compose(self) -> ComposeResult:
        self._break(self.app.size)
        sheets = self.sheets
        with Horizontal(id="top"):
            yield sheets["head"]
            yield sheets["left"]
        with Horizontal(id="body"):
            yield sheets["page"]
            yield sheets["rule"]
            yield sheets["side"]
        with Horizontal(id="line"):
            yield sheets["prompt"]
            yield self.reply
        with Horizontal(id="under"):
            yield sheets["said"]
        yield sheets["keys"]

    # What a screen shows. Each is given the cells and lines there are.

    heading: str = "shorewalk"

    def left(self) -> str:
        """Return what stands at the right end of the top line: how much is left."""
        return ""

    def page(self, _room: int, _height: int) -> list[Line]:
        """Return what is read."""
        return []

    def side(self, _room: int, _height: int) -> list[Line]:
        """Return what stands beside the page where there is room."""
        return []

    def guide(self, _room: int) -> str:
        """Return what one can type here, in few words where there is little room."""
        return "Type a number, then Enter."

    # What happens.

    def give(self, _text: str) -> None:
        """Take what was typed."""

    def typed(self, _text: str) -> None:
        """Look at what is being typed."""

    def rest(self) -> None:
        """Enter with nothing typed, at the end of the page: by default the menu."""
        self.open_menu()

    def escape(self) -> None:
        """Esc with nothing typed. On the main screens nothing happens: Esc never destroys."""

    # How it is done.

    @cached_property
    def sheets(self) -> dict[str, Sheet]:
        """What lines are shown on, by name.

        Held here, and not looked for on the screen: one that is taken away while it is put there may be told things.
        """
        sources = {
            "head": self._head,
            "left": self._left,
            "page": self._page,
            "rule": self._rule,
            "side": self._side,
            "prompt": self._prompt,
            "said": self._said,
            "keys": self._keys,
        }
        return {name: Sheet(source, id=name, cue=name == "page") for name, source in sources.items()}

    @property
    def reading(self) -> Sheet:
        """The page."""
        return self.sheets["page"]

    @cached_property
    def reply(self) -> Reply:
        """The line to type into."""
        return Reply(id="reply")

    def on_mount(self) -> None:
        """Let the letters of this screen be commands."""
        self._allow_keys()
        self._clear_away()

    def on_resize(self, event: events.Resize) -> None:
        """Draw all of it anew in another window: terminals differ in what they make of their lines."""
        if self.is_current:
            self.app.sized(event.size)
        self._fit(event.size)

    def on_screen_resume(self) -> None:
        """Fit the window, which may have changed while another screen lay over this one."""
        self.app.new_page()
        if self.is_mounted:
            self._fit(self.app.size)

    def _fit(self, window: Size) -> None:
        if self._break(window):
            self.update_node_styles(animate=False)
        self._clear_away()

    def _break(self, window: Size) -> bool:
        """Set the class for the width of the window; return whether it is another than before.

        The library sets it after it has drawn, which is then thrown away.
        """
        before = self.classes
        fit = next(name for least, name in reversed(self.HORIZONTAL_BREAKPOINTS) if window.width >= least)
        for _, name in self.HORIZONTAL_BREAKPOINTS:
            self.set_class(name == fit, name, update=False)
        return self.classes != before

    def _clear_away(self) -> None:
        """In a window too small leave what says so, and the line, that it keeps what is typed and the keys."""
        if self._cleared_away != self.too_small:
            self._cleared_away = self.too_small
            for around in self.query("#top, #under, #keys"):
                around.display = not self.too_small

    _cleared_away = False

    def tell(self, text: str = "", role: str = "error", *, first: Line = BLANK) -> None:
        """Say something under the line: why an answer was refused, what was kept."""
        was_long = self._too_long()
        self._telling = (text, role, first)
        self.sheets["said"].renew()
        if was_long or self._too_long():
            self.reading.renew()

    _telling: tuple[str, str, Line] = ("", "quiet", BLANK)

    def show_all(self, *, top: int | None = 0) -> None:
        """Draw again what has changed; what is shown from its top is another page."""
        self._allow_keys()
        if top is not None:
            self.app.new_page()
        for name in ("head", "left", "side", "prompt", "said", "keys"):
            self.sheets[name].renew()
        self.reading.renew(top=top)

    def show_left(self) -> None:
        """Draw the right end of the top line again."""
        self.sheets["left"].renew()

    def menu(self) -> list[Command]:
        """Return the commands of the menu."""
        return menu_of(self.kind)

    def open_menu(self) -> None:
        """Show all that can be done here, by number."""
        from .choose import ChooseScreen

        items = tuple((command.number or 0, command.words) for command in self.menu())
        screen = ChooseScreen("What would you like to do?", (), (*items, (0, "Back to where I was")))
        numbers = {command.number: command.id for command in self.menu()}
        self.app.push_screen(screen, lambda number: self.action_command(numbers.get(number or 0, "")))

    def dismiss(self, result: Any = None) -> AwaitComplete:
        """Close this screen, where it is the one that is shown: the library would close whichever that is."""
        return super().dismiss(result) if self.is_active else AwaitComplete()

    async def action_scroll(self, step: int) -> None:
        """Scroll the page by lines."""
        self.reading.scroll_lines(step)

    async def action_page(self, step: int) -> None:
        """Scroll by pages."""
        self.app.new_page()
        self.reading.page(step)

    def action_command(self, name: str) -> None:
        """Run one command of the table."""
        run = getattr(self, f"do_{name}", None)
        if run is not None:
            run()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A command exists only where the table says so; in a window too small there are few."""
        if action == "command" and self.too_small and parameters[0] not in IN_SMALL:
            return False
        if action == "command" and parameters and parameters[0] in {command.id for command in COMMANDS}:
            return any(command.id == parameters[0] and command.applies(self.kind) for command in COMMANDS)
        return True

    def do_emergency(self) -> None:
        """Show the emergency card."""
        from .card import CardScreen

        self.app.push_screen(CardScreen())

    def do_help(self) -> None:
        """Show the help."""
        from .help import HelpScreen

        self.app.push_screen(HelpScreen(self.kind))

    def do_looks(self) -> None:
        """Look otherwise, at once and the next time."""
        self.tell(told_of(self.app.next_look()), "note")

    def do_leave(self) -> None:
        """Leave the program; what closes and what is kept is for the screen to say."""
        self.app.leave()

    @on(Reply.Given)
    def _given(self, message: Reply.Given) -> None:
        message.stop()
        if self.too_small and not self.fits_any:
            self.reply.value = message.text  # nobody answers what cannot be seen
            return
        if not message.text:
            if self.reads_on and self.reading.more:
                self.app.new_page()
                self.reading.page(1)
                self.tell()
            else:
                self.rest()
            return
        if barred(message.text, self.kind):
            self.tell(NOT_HERE, "note")
            return
        self.give(message.text)

    @on(Reply.Cleared)
    def _cleared(self, message: Reply.Cleared) -> None:
        message.stop()
        self.escape()

    @on(Reply.Reached)
    def _reached(self, message: Reply.Reached) -> None:
        message.stop()
        message.taken.set()

    @on(Input.Changed, "#reply")
    def _changed(self, message: Input.Changed) -> None:
        message.stop()
        self.typed(message.value.strip())

    def _allow_keys(self) -> None:
        keys = {key for command in COMMANDS if command.applies(self.kind) for key in command.keys}
        self.reply.command_keys = frozenset(key for key in keys if self.letters or not key.isalpha())

    def _head(self, room: int, _height: int) -> list[Line]:
        return [line(Span(cut(self.heading, room, "..." if self.app.ascii_only else "…"), "strong"))]

    def _left(self, room: int, _height: int) -> list[Line]:
        words = cut(self.left(), room)
        return [line(Span(" " * (room - cells(words))), Span(words, "quiet"))]

    @property
    def too_small(self) -> bool:
        """Whether the window is too small for a question."""
        return any(size < least for size, least in zip(self.app.size, LEAST, strict=True))

    def _page(self, room: int, height: int) -> list[Line]:
        if self.too_small and not self.fits_any:
            return wrap(TOO_SMALL, room, "error")
        text, role, _ = self._telling
        long = [*wrap(text, room, role), BLANK] if self._too_long() else []
        return long + self.page(room, height - len(long))

    def _too_long(self) -> bool:
        """Whether what is to be said does not fit under the line; then it stands at the top of the page."""
        said = self.sheets["said"].size
        return bool(self._telling[0]) and len(wrap(self._telling[0], said.width)) > said.height > 0

    def _side(self, room: int, height: int) -> list[Line]:
        return self.side(room, height)

    def _rule(self, room: int, height: int) -> list[Line]:
        edge = "|" if self.app.ascii_only else "│"
        return [line(Span(f"{edge:^{room}}", "quiet"))] * height

    def _prompt(self, _room: int, _height: int) -> list[Line]:
        return [line(Span(self.prompt, "strong"), Span(" >", "quiet"))]

    def _said(self, room: int, height: int) -> list[Line]:
        text, role, first = self._telling
        rows = wrap(text, room, role, first=first) if (text or first) and not self._too_long() else []
        guide = wrap(self.guide(room), room, "quiet")
        return [*rows, *guide] if len(rows) + len(guide) <= height else rows or guide

    def _keys(self, room: int, _height: int) -> list[Line]:
        after = "" if self.letters else "+Enter"
        return [footer_line(footer(self.kind, room, after), after)]
