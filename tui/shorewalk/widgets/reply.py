"""The one line a person types into: a number, a reading, a word to search for."""

from __future__ import annotations

from asyncio import Event
from dataclasses import dataclass
from typing import ClassVar, Self

from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Region
from textual.message import Message
from textual.widgets import Input

from shorewalk.commands import ALWAYS
from shorewalk.lines import SURE, cells
from shorewalk.seen import IN_A_LINE, seen

ENDING = ("enter", "ctrl+c")
"""Keys bound here that do more than change what is typed."""


class Reply(Input):
    """An input of one line. While it is empty, the screen's letters are commands rather than text.

    The app gives it its keys one by one (`screens/in_order.py`).
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "clear", show=False),
        Binding("ctrl+c", "screen.command('leave')", show=False),
    ]
    LONGEST = 60
    _drawn = LONGEST + 1
    """Cells drawn over so far."""

    @dataclass
    class Given(Message):
        """Enter was pressed on this text, which may be empty."""

        text: str

    @dataclass
    class Cleared(Message):
        """Esc was pressed on an empty line."""

    @dataclass
    class Reached(Message):
        """What was typed before is taken: this goes the same way behind it."""

        taken: Event

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 (the library's name)
        super().__init__(id=id, compact=True, max_length=self.LONGEST, select_on_focus=False)
        self.cursor_blink = False
        self.command_keys: frozenset[str] = frozenset()

    def refresh(
        self, *regions: Region, repaint: bool = True, layout: bool = False, recompose: bool = False
    ) -> Self:
        """Draw only as far as there is text, and lay nothing out: every key typed comes through here."""
        if not regions and self.is_mounted and self.size:
            used = cells(self.value) + 1 if SURE.fullmatch(self.value) else self.size.width
            regions = (Region(0, 0, min(self.size.width, max(used, self._drawn)), 1),)
            self._drawn, layout = used, False
        return super().refresh(*regions, repaint=repaint, layout=layout, recompose=recompose)

    def validate_value(self, value: str) -> str:
        """Take no character that cannot be seen: a paste may hold what a terminal would obey. A tab is a blank."""
        return seen(value).translate(IN_A_LINE)

    def is_command(self, character: str | None) -> bool:
        """Tell whether this key is a command here, with what is typed so far."""
        if character in ALWAYS:
            return True
        return not self.value and character in self.command_keys

    def check_consume_key(self, key: str, character: str | None) -> bool:
        """Leave the commands' keys to the screen."""
        return not self.is_command(character) and super().check_consume_key(key, character)

    async def edit(self, event: events.Key) -> bool:
        """Change what is typed, at once; return False, and do nothing, where the key does more than that."""
        if (
            event.key in ENDING
            or self.is_command(event.character)
            or (event.key == "escape" and not self.value)
        ):
            return False
        if event.is_printable and event.character:
            self.replace(event.character, *self.selection)
            return True
        for binding in self._bindings.key_to_bindings.get(event.key, ()):
            if await self.app.run_action(binding.action, self):
                return True
        return False

    def paste(self, event: events.Paste) -> None:
        """Put the first line of what is pasted where the cursor is."""
        self._on_paste(event)

    def end(self, event: events.Key) -> bool:
        """Give what is typed, or tell of Esc on an empty line; return whether this key does that."""
        if event.key == "enter":
            self._give()
        elif event.key == "escape":
            self.action_clear()
        else:
            return False
        return True

    async def action_submit(self) -> None:
        """Give what is typed to the screen."""
        self._give()

    def _give(self) -> None:
        """Give what is typed, and begin anew at once.

        Those after Enter belong to what comes next.
        """
        text = self.value.strip()
        with self.prevent(Input.Changed):
            self.value = ""
        self.post_message(self.Given(text))

    def action_clear(self) -> None:
        """Clear what is typed; say so where nothing was."""
        if self.value:
            self.value = ""
        else:
            self.post_message(self.Cleared())
