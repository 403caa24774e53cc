"""Keeping one walk while it is walked."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from pathlib import Path

from shorewalk.reach import GO_ON, reach
from shorewalk.walk.walk import Walk

from .journal import Journal
from .placing import Placing
from .store import home
from .trouble import TROUBLE, why

OFFER = "The walk goes on all the same. To keep it elsewhere, leave (q): it is asked there."
REMINDER = "This walk is on no disk. Leave (q) to keep it elsewhere."
COPY = "This walk is open in another terminal. Here you go on with a copy of it; both are kept."
ON_NO_DISK = "The walk goes on all the same."
BACK = "The walk is kept on disk again."


class Keeper:
    """Puts a walk on disk after every answer, from the first one on: what nobody answered is not kept."""

    def __init__(
        self,
        journal: Journal,
        number: int | None = None,
        *,
        said: Iterable[str] = (),
        labels: Mapping[str, str | None] | None = None,
    ) -> None:
        self.journal, self.number = journal, number
        self._said = [*said]
        self._told: str | None = None
        self.placing = Placing(self, labels)

    @property
    def clock(self) -> Callable[[], str]:
        return self.journal.clock

    def keep(self, walk: Walk) -> None:
        """Put the walk on disk as it is now, with its ending if it has one."""
        if self.number is not None and not self.journal.hold(self.number):
            self.number = None  # another program went on with it meanwhile: two never write to one walk
            self._said.append(COPY)
        if self.number is None:
            self.number = self.journal.begin(walk)
        elif not walk.ended:
            self.number = self.journal.keep(self.number, walk)
        if walk.ended:
            self.number = self.journal.finish(self.number, walk)
        self.placing.keep(walk)
        self.journal.hold(self.number)

    def keep_in(self, folder: str) -> str:
        """Keep the walk in another folder from now on; return what came of it, in words."""
        if self.number is None:
            return "Nothing is answered yet: there is nothing to keep."
        try:
            self.number = self.journal.keep_in(Path(folder).expanduser().absolute(), self.number)
        except TROUBLE as error:
            return f"{why(error, Path(folder))} Another folder?"
        self.journal.hold(self.number)
        self._told = None
        return self.how_to_go_on() or ""

    def news(self, offer: str = OFFER) -> str | None:
        """Return, once, what has to be said: of a walk that was taken up, or why walks are not kept on disk."""
        said, self._said = self._said, []
        problem, offer = self.journal.problem, ON_NO_DISK if reach().guarded else offer
        if problem != self._told:
            said += [BACK if problem is None else f"{problem} {offer}" if self.journal.failed else problem]
        self._told = problem
        return " ".join(said) or None

    @property
    def reminder(self) -> str | None:
        """What to say once more at the end, where the disk failed."""
        if not self.journal.failed:
            return None
        return self.journal.problem if reach().guarded else REMINDER

    @property
    def goodbye(self) -> str:
        """What to say of a walk that cannot be gone on with, or not with all of it."""
        if at_risk(self.journal, self):
            return "What was answered since the disk failed is not kept."
        return "Nothing of this walk is kept."

    def how_to_go_on(self, *options: str) -> str | None:
        """Return the command that takes up this walk again; None if it is not kept."""
        if self.number is None or self.journal.problem:
            return None
        if reach().guarded:
            return GO_ON
        command = " ".join(("shorewalk walk --resume", str(self.number), *options))
        return f"This walk is kept. To go on with it: {self._where()}{command}"

    def _where(self) -> str:
        """Return what has to be typed before a command, so that it looks where this walk is kept."""
        folder = self.journal.folder
        try:
            usual = folder is None or folder.absolute() == home().absolute()
        except RuntimeError:
            usual = False
        if usual:
            return ""
        import shlex  # only for this

        return f"SHOREWALK_HOME={shlex.quote(str(folder))} "


def at_risk(journal: Journal, keeper: Keeper | None = None) -> Keeper | None:
    """Return the keeper of a walk that is gone when somebody leaves now: this one's, else another's of this run."""
    if not journal.failed:
        return None
    if keeper is not None and keeper.journal is journal and keeper.number is not None:
        return keeper
    number = journal.on_no_disk
    return None if number is None else Keeper(journal, number)
