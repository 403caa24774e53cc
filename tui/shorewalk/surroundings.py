"""What the program reads from around it, and what it writes there: one table for manual and README."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

ENVIRONMENT = (
    ("SHOREWALK_HOME", "The folder walks are kept in, if not where the system keeps a person's data."),
    ("SHOREWALK_ASCII", "If set, only letters and marks that every terminal has."),
    ("SHOREWALK_LOOK", "The look to begin with: dusk, daylight, contrast, or terminal for your own colours."),
    ("NO_COLOR", "If set, no colours. Every state has a word and a mark beside its colour."),
    ("TERM", "By dumb, and names of terminals that can draw nothing, questions come as plain sentences."),
    ("COLORTERM, COLORFGBG", "What the terminal says of its colours; by them a look is chosen."),
    ("LC_ALL, LC_CTYPE, LANG", "Whether letters and marks beyond ASCII come out; if not, none are shown."),
    ("COLUMNS", "How wide text is, if not as wide as the window."),
)
"""Variables of the environment, and what each does."""

FILES = (
    ("walks.sqlite3", "In that folder: every walk with its answers. -wal and -shm beside it belong to it."),
    ("walks.open", "Beside it: which walks are open in some terminal."),
    ("look", "Beside it: the look that was chosen last."),
    ("went-wrong.txt", "Beside it: what happened where the program failed, for whoever mends it."),
    (
        "people/PERSON",
        "Beside it: all this of each who logs in to a shared account, and, in saved, their files.",
    ),
    ("shorewalk-TREE-DATE.md, .pdf", "A record that you saved, where you started it. Never written over."),
    ("shorewalk-log-DATE.csv, .json", "Readings or walks that you saved from the log, in the same folder."),
    ("site/*.yaml", "Facts and safety rules of your own, beside your trees. They may add, and be stricter."),
    ("walks/*.yaml", "Recorded walks, beside your trees."),
)
"""Files it writes, or looks for beside your own trees."""


def table_of(heading: str, rows: Iterable[tuple[str, str]]) -> Iterator[str]:
    """Yield the lines of a table in Markdown, names in the first column."""
    yield f"| {heading} | what it is |"
    yield "| --- | --- |"
    for names, says in rows:
        yield f"| {', '.join(f'`{name}`' for name in names.split(', '))} | {says} |"
