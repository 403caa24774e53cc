"""The pieces a written page is made of; they know neither Markdown nor paper. Text in them is never markup."""

from __future__ import annotations

from typing import Literal

from shorewalk.tree.record import record


@record()
class Heading:
    """A heading; level 1 is the title of the whole."""

    text: str
    level: Literal[1, 2, 3] = 1


@record()
class Text:
    """A paragraph. `lead` stands before it, stronger: `Do:`."""

    text: str
    lead: str = ""


@record()
class Quote:
    """Words to be said or sent as they stand."""

    text: str


@record()
class Items:
    """A list: with dots, with numbers, or with empty boxes to tick. `first` is the first number."""

    items: tuple[str, ...]
    kind: Literal["dot", "number", "box"] = "dot"
    first: int = 1


@record()
class Rows:
    """A table: its head, its rows (each as long as the head), and how wide the columns are to each other."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[int, ...] = ()


@record()
class Fields:
    """Lines to be filled in by hand, each with what belongs there: `Site`, `Read by`."""

    names: tuple[str, ...]


@record()
class NewPage:
    """What follows begins on a new page."""


Block = Heading | Text | Quote | Items | Rows | Fields | NewPage
