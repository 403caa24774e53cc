"""What is to be drawn: a shipped tree or part by name or symptom, or a file of one's own."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from textwrap import fill

from shorewalk.starting import Usage, find
from shorewalk.tree.expand import expand
from shorewalk.tree.library import Library, shipped
from shorewalk.tree.model import Jump, Node, Tree, Use, Way, Written
from shorewalk.tree.words import listed

HERE = "\ue000"
"""The name under which a part that is drawn alone is put in, and the beginning of the names of what it takes.

No file can hold it in a name.
"""


@dataclass(frozen=True, slots=True)
class Asked:
    """A file as written, and its library; `file` is its path where it is not one of ours."""

    library: Library
    name: str
    kind: str = "tree"
    file: Path | None = None

    @property
    def written(self) -> Written:
        """The file as its author wrote it; raises `TreeError`."""
        return self.library.written(self.name) if self.kind == "tree" else self.library.part(self.name)

    def tree(self) -> Tree:
        """Return it with its parts put in; raise `TreeError` with every name that means nothing."""
        return self.library.tree(self.name) if self.kind == "tree" else _alone(self.written, self.library)


def asked_for(word: str) -> Asked:
    """Return what a name, a path or words of a symptom stand for; raise `Usage` where it is nothing, or several."""
    path = Path(word)
    if path.suffix == ".yaml" and path.parent.name == "parts" and path.is_file():
        return Asked(Library(path.parent.parent), path.stem, "part", path)
    if path.suffix == ".yaml":
        library, name = find(word, "draw")
        return Asked(library, name, file=path)
    library = shipped()
    if word in library.part_names() and word not in library.names():
        return Asked(library, word, "part")
    try:
        return Asked(*find(word, "draw"))
    except Usage as error:
        parts = fill(f"Parts: {listed(library.part_names())}.", 78, break_on_hyphens=False)
        raise Usage(f"{error}\n{parts}") from None


def _alone(part: Written, library: Library) -> Tree:
    """Return a part as if put in once; its exits, and what it takes, stand beside it as nodes without ways."""
    beside: dict[str, Node] = {
        name: Jump(name=name, tree="") for name in (*map(given_name, part.takes), *map(exit_name, part.exits))
    }
    use = Use(
        name=HERE,
        file=part.file,
        part=part.name,
        with_=tuple((name, given_name(name)) for name in part.takes),
        exits=tuple((name, Way(exit_name(name))) for name in part.exits),
    )
    top = Written(
        kind="tree", name=part.name, file=part.file, begin=HERE, about=part.about, nodes={HERE: use, **beside}
    )
    return expand(top, library.part, find=library.find)


def given_name(name: str) -> str:
    """Return what stands for the value of a parameter."""
    return HERE + name


def exit_name(name: str) -> str:
    """Return the name of the box for an exit."""
    return f"exit {name}"
