"""Which node of an outline is chosen: it stays the same one while the file is written, wherever it moves."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator

from .outline import Row


class Pointer:
    """Stands on one row. Where its node is gone, it stands on what took its place."""

    def __init__(self) -> None:
        self.rows: tuple[Row, ...] = ()
        self.place = 0
        self.name: str | None = None

    def over(self, rows: tuple[Row, ...]) -> None:
        """Stand on the same node in other rows."""
        self.rows = rows
        names = [row.name for row in rows]
        self.to(names.index(self.name) if self.name in names else self.place)

    def to(self, place: int) -> None:
        """Go to a row, the first or the last where there is none."""
        self.place = max(0, min(place, len(self.rows) - 1))
        self.name = self.rows[self.place].name if self.rows else None

    def seek(self, word: str) -> int | None:
        """Return the place of the nearest row, from here on and round, with a word in its name or text."""
        wanted = word.casefold()
        return self._find(self._round(0), lambda row: wanted in f"{row.name} {row.words}".casefold())

    def next_of(self, names: Collection[str]) -> int | None:
        """Return the place of the next of some nodes, round to this one."""
        return self._find(self._round(1), lambda row: row.name in names)

    def _round(self, skip: int) -> Iterator[int]:
        yield from range(self.place + skip, len(self.rows))
        yield from range(min(self.place + skip, len(self.rows)))

    def _find(self, places: Iterator[int], wanted: Callable[[Row], bool]) -> int | None:
        return next((place for place in places if wanted(self.rows[place])), None)
