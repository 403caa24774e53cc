"""The readings of one site: drawn by the hour and compared."""

from __future__ import annotations

from collections.abc import Generator

from shorewalk.lines import Line, wrap
from shorewalk.log.kept import Kept
from shorewalk.log.stays import Site
from shorewalk.log.table import Table, site_lines, site_pieces
from shorewalk.log.working_out import left_words, working_out

from .in_slices import at_once, go_on, in_slices
from .log import KeptScreen

LATEST = "The latest stay alone so far."
COMPARED = "All walks are read; now they are compared."


class SiteScreen(KeptScreen):
    """The readings of a site. Where reading or drawing them takes long, what is there by then is shown."""

    kind = "log-site"

    def __init__(self, site: Site) -> None:
        super().__init__()
        self._site = site
        self._room = 0
        self._lines: list[Line] = []
        self._latest: list[Line] = []
        self._unread = len(site.walks)

    @property
    def heading(self) -> str:  # type: ignore[override]
        """Which site."""
        return self._site.says

    @property
    def walks(self) -> list[Kept]:
        """The walks there."""
        return [*reversed(self._site.walks)]

    @property
    def of(self) -> str:
        """What is deleted."""
        return f"all walks at {self._site.where.says}"

    def page(self, room: int, _height: int) -> list[Line]:
        if self._room != room:
            # One for another size would draw on into these lines.
            self.workers.cancel_group(self, "drawing")
            self._room, self._lines, self._latest = room, [], []
            steps = self._drawing(room)
            if go_on(steps, at_once(len(self._site.walks))):
                show = in_slices(steps, lambda: self.reading.renew(top=None))
                self.run_worker(show, group="drawing")
        return self._lines or self._so_far(room)

    def _drawing(self, room: int) -> Generator[None]:
        """Read the walks, the latest first, then draw them, a step at a time."""
        table = Table(room, ascii_only=self.app.ascii_only)
        for left in working_out(self.walks):
            self._unread = left
            yield
        for number, piece in enumerate(site_pieces(self._site, table)):
            if number:  # which site it is stands at the top
                self._lines += piece[1:] if piece and not (piece[0] or self._lines) else piece
                yield

    def _so_far(self, room: int) -> list[Line]:
        """Return what is shown until all walks are read: how many are not, and the latest stay."""
        *before, latest = self._site.stays
        if not self._unread:
            return wrap(COMPARED, room, "quiet")
        left = left_words(self._unread)
        if not before or len(self._site.walks) - self._unread < len(latest.walks):
            return wrap(left, room, "quiet")
        if not self._latest:
            here = Site(self._site.where, (latest,))
            self._latest = site_lines(here, Table(room, ascii_only=self.app.ascii_only))[1:]
        return [*wrap(f"{LATEST} {left}", room, "quiet"), *self._latest]

    def guide(self, _room: int) -> str:
        return "r reads again here. Enter alone: more. q goes back."
