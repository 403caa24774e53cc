"""A page of the log in plain text: walks, which can be exported and deleted."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from typing import ClassVar

from shorewalk.log.as_csv import walks_csv
from shorewalk.log.as_json import walks_json
from shorewalk.log.deleting import SAVED, TRACE, open_elsewhere
from shorewalk.log.kept import Kept, in_time
from shorewalk.log.working_out import work_out
from shorewalk.saving import write_beside

from .again import read_again
from .files import save_in, saved_words, why
from .prompt import Prompt

KEPT_THERE = "Nothing was deleted: what is in the file cannot be reached now."


class Closed(Exception):  # noqa: N818 (no error: somebody goes back)
    """A page of the log was closed."""


class Page(Prompt):
    """What pages of the log have in common: they say walks, which can be exported and deleted."""

    back = "the page again"
    hint: ClassVar[str]

    @property
    def walks(self) -> list[Kept]:
        """The walks that are said, the latest first."""
        raise NotImplementedError

    @property
    def of(self) -> str:
        """What they are, in words."""
        raise NotImplementedError

    def lines(self) -> Iterator[str]:
        """Yield what is said of them."""
        raise NotImplementedError

    def run(self) -> None:
        """Say the page and listen, until it is closed."""
        try:
            self._say()
            while True:
                self.chosen(self.hear(self._say))
        except Closed:
            return

    def _say(self) -> None:
        self._voice.write("\n")
        if problem := self.session.journal.problem:
            self._voice.say(problem)
        self._voice.say_in_parts([*self.lines()], what="lines are left")
        self._voice.say(self.hint)

    def chosen(self, typed: str) -> None:
        """Open what was named; a page that lists nothing has nothing to open."""
        self._voice.say(f'"{typed}" is nothing that can be done here. {self.hint}')

    def do_close(self) -> None:
        """Go back to where one was."""
        raise Closed

    def do_start(self) -> None:
        """Go to the start."""
        self.to_start()

    def do_again(self) -> None:
        """Read again at the site that is said, or where the last walk was."""
        read_again(self.session, self.walks[0].where if self.walks and self.screen != "log" else None)

    def do_csv(self) -> None:
        """Save the readings to a new file, for a spreadsheet."""
        self._save(".csv", lambda walks, _: walks_csv(walks))

    def do_json(self) -> None:
        """Save all that is kept of the walks to a new file."""
        self._save(".json", walks_json)

    def _save(self, ending: str, written: Callable[[list[Kept], str], str]) -> None:
        now = self.session.journal.clock()
        in_order = in_time(self.walks)
        work_out(in_order, self._voice.say)
        text = written(in_order, now)
        try:
            path = save_in(lambda folder: write_beside(folder, f"shorewalk-log-{now[:10]}", ending, text))
        except OSError as error:
            self._voice.say(f"It could not be saved: {why(error)}.")
        else:
            self._voice.say(saved_words(path))

    def do_delete(self) -> None:
        """Ask once, then delete what is said."""
        journal = self.session.journal
        entries = [walk.entry for walk in self.walks]
        if not entries:
            self._voice.say("There is nothing to delete.")
            return
        if (
            barred := f"{KEPT_THERE} {journal.problem}"
            if journal.problem
            else open_elsewhere(journal, entries)
        ):
            self._voice.say(barred)
            return
        question = f"Delete {self.of}? Nobody can bring that back. {SAVED}"
        if not self._voice.confirm(question, f"Delete {self.of}."):
            self._voice.say("Nothing was deleted.")
            return
        try:
            _, whole = journal.delete(*(entry.id for entry in entries))
        except sqlite3.Error as error:
            self._voice.say(f"Nothing was deleted: {error}.")
            return
        self._voice.say("Deleted.", *([] if whole else [TRACE]))
        self.deleted()

    def deleted(self) -> None:
        """Go back, for what was said is gone."""
        raise Closed
