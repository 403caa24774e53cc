"""The ending in plain text: what to do, and what one can do with the message and the record."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shorewalk.log.placed import placed_words
from shorewalk.ruling import has_readings
from shorewalk.walk.ending import ending
from shorewalk.walk.message import message_text

from . import spoken
from .asides import save
from .possible import say_also_possible
from .prompt import Prompt
from .where import site_said

if TYPE_CHECKING:
    from shorewalk.journal import Keeper
    from shorewalk.walk.walk import Walk

WHAT_NOW = "Enter: what you can do now. start: all that can be begun. q: leave."
BEFORE = "At other times here:"


class AtTheEnd(Prompt):
    """What a walk has that came to its end."""

    walk: Walk
    keeper: Keeper

    @property
    def _site(self) -> str | None:
        """The site for the message, if somebody said it, now or not long ago."""
        verdict = ending(self.walk).verdict if self.walk.ended else None
        return self.keeper.placing.site_for(verdict)

    @property
    def message(self) -> str:
        """The message of the ending."""
        return message_text(ending(self.walk, self._site))

    def say_end(self) -> None:
        """Say the ending, and what can be done now."""
        number = None if self.keeper.journal.problem else self.keeper.number
        end = ending(self.walk, self._site)
        lines = spoken.end_in_words(end, number, placed_words(self.keeper.placing, end.verdict))
        reminder = [self.keeper.reminder] if self.keeper.reminder else []
        self._voice.say(*lines, before="\n")  # what to do now waits for no walk of the past
        self._voice.say(*self._before(), *reminder)
        if self.session.rules_out and has_readings(self.walk):
            say_also_possible(self._voice, self.walk, self.session.ruling)
        self.say_more_of_end()
        self._voice.say(WHAT_NOW)

    def say_more_of_end(self) -> None:
        """Say what else belongs to the ending."""

    def _before(self) -> list[str]:
        """Return the same readings at other times, where the walk was for comparing them."""
        from shorewalk.log.again import TREE

        if self.walk.tree != TREE:
            return []
        from shorewalk.log.kept import kept_walks
        from shorewalk.log.stays import site_at
        from shorewalk.log.working_out import work_out

        from .compared import before_in_words

        site = site_at(kept_walks(self.keeper.journal), self.keeper.placing.where)
        if site:
            work_out(site.walks, self._voice.say)
        words = before_in_words(site) if site else []
        return [BEFORE, *words] if words else []

    def do_site(self) -> None:
        """Ask which site this is; it goes into the message and the log."""
        if where := site_said(self._voice, "Your"):
            self.keeper.placing.typed(", ".join(filter(None, (where.site, where.park))))
        self.say_end()

    def do_save(self) -> None:
        """Save the record."""
        save(self.session, self.walk, self._site, self.keeper.placing.where.park)

    def do_copy(self) -> None:
        """Say the message alone."""
        from .message import say_message

        say_message(self._voice, self.message)

    def do_code(self) -> None:
        """Show the message as codes for a camera."""
        from .code import show_codes

        show_codes(self._voice, self.message)
        self._voice.say(WHAT_NOW)

    def do_log(self) -> None:
        """Say the readings of this site compared; where no site is known, all walks."""
        from .log import tell_log

        tell_log(self.session, self.keeper.placing.where)
        self._voice.say(WHAT_NOW)
