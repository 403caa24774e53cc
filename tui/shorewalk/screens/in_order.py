"""Keys are taken in the order they come, each with all it does before the next one is looked at.

Over a slow link they come in bursts. The library hands a whole burst on, puts the letters of it into the line at
once, and takes Backspace, arrows and commands later: `11`, Backspace, `2.5` would be read as `112.5`.
"""

from __future__ import annotations

from asyncio import Event, wait_for
from contextlib import suppress

from textual import events
from textual.app import App
from textual.screen import Screen

from shorewalk.widgets.reply import Reply

A_WHILE, LOOKS = 0.05, 60
"""Seconds after which to look again whether what is waited for can still come, and how often: no key is for ever."""


class InOrder(App[int]):
    """An app whose screens have one line to type into, `reply`."""

    _settled = False
    """Whether no key was pressed since that may show another screen. The first one comes without a key."""

    async def on_event(self, event: events.Event) -> None:
        """Take keys and what is pasted here; leave the rest to the library."""
        if not isinstance(event, events.Key | events.Paste) or event.is_forwarded or not self.screen_stack:
            await super().on_event(event)
            return
        if not self._settled:
            await self._settle()
        if self._exit:
            return  # what they would do is no longer seen
        if not self.app_focus:
            self.app_focus = True
        await self._take(event, self.reply_now)

    @property
    def reply_now(self) -> Reply | None:
        """The line of the screen that is shown, once it is there."""
        reply = getattr(self.screen, "reply", None) if self.screen.is_mounted else None
        return reply if isinstance(reply, Reply) else None

    async def _take(self, event: events.Key | events.Paste, reply: Reply | None) -> None:
        if reply is None:
            await super().on_event(event)
        elif isinstance(event, events.Paste):
            reply.paste(event)
        elif not await reply.edit(event):
            if not reply.end(event):
                await self._settle()
                await self._command(event.key)
            self._settled = False

    async def _command(self, key: str) -> None:
        if not await self._check_bindings(key, priority=True):
            await self._check_bindings(key)

    async def _settle(self) -> None:
        """Wait until all that was typed is taken, and the screen it led to is there."""
        self._settled = True
        screen: Screen[object] | None = None
        while screen is not self.screen and not self._exit:
            screen = self.screen
            await self._waited(screen._mounted_event, screen)  # noqa: SLF001 (there is no other way to wait for it)
            if reply := self.reply_now:
                taken = Event()
                reply.post_message(Reply.Reached(taken))
                await self._waited(taken, screen)
            # What a screen was closed with goes to whoever opened it: here to the app.
            await self._flush_next_callbacks()

    async def _waited(self, event: Event, screen: Screen[object]) -> None:
        for _ in range(LOOKS):
            if event.is_set() or screen._task is None or self._exception is not None:  # noqa: SLF001 (is it alive)
                return
            with suppress(TimeoutError):
                await wait_for(event.wait(), A_WHILE)
