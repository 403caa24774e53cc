"""`shorewalk paths`: what was named, looked at and told."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from shutil import get_terminal_size

from shorewalk import folders
from shorewalk.exits import Exit
from shorewalk.lint.writing.lines import shown
from shorewalk.tree.library import Library
from shorewalk.tree.source import Place, Problem, TreeError
from shorewalk.tree.words import choose_from, quoted
from shorewalk.walk.meter import parse_meter

from .coverage import coverage_of
from .keeping import to_uncovered, write_walks
from .never import never_met
from .paths_all import paths_of_all
from .paths_json import as_json
from .paths_text import coverage_text, paths_text
from .recording import walks_of

WIDEST = 100
Tell = Callable[[str], object]


@dataclass(frozen=True, slots=True)
class Wanted:
    """What was asked for. `under`: the least percent covered; `coverage`: leave out the shortest walks.

    `prove`: do not count what no walk can cover.
    """

    names: tuple[str, ...] = ()
    form: str = "text"
    walks: Path | None = None
    record: Path | None = None
    under: float | None = None
    meter: str = "basic"
    coverage: bool = False
    prove: bool = False


def tell_paths(wanted: Wanted, tell: Tell, narrate: Tell) -> int:
    """Tell the paths of what was named; return what to exit with. Raises `ValueError` where that cannot be."""
    meter = parse_meter(wanted.meter)
    code = Exit.CLEAN
    room = max(20, min(get_terminal_size((80, 24)).columns, WIDEST))
    for library, trees in _named(wanted.names):
        folder = wanted.walks or walks_of(library.folder)
        files = sorted(folder.glob("*.yaml"))
        coverage = coverage_of(library, trees, files)
        if wanted.prove:
            coverage = replace(coverage, never=never_met(library, trees, coverage.missing))
        for problem in coverage.problems:
            narrate(str(problem))
            code = Exit.UNFINISHED
        found = [] if wanted.coverage else paths_of_all(library, trees, meter)
        if wanted.form == "json":
            tell(as_json(library, found, coverage, wanted.meter).rstrip("\n"))
        else:
            for tree in found:
                tell("\n".join((*paths_text(library, tree, room, shown), "")))
            tell("\n".join(coverage_text(library, coverage, room, shown)))
        if wanted.record:
            kept = write_walks(
                to_uncovered(library, trees, coverage.missing, meter), wanted.record, library.folder
            )
            narrate(f"{len(kept)} walks written to {wanted.record}.")
        if wanted.under is not None and coverage.percent < wanted.under:
            narrate(f"{coverage.percent:.1f} % is covered; at least {wanted.under:g} % is wanted.")
            code = max(code, Exit.FINDINGS)
    return code


def _named(names: tuple[str, ...]) -> list[tuple[Library, list[str]]]:
    """Return the libraries and trees that were named; all that come with the program where none was."""
    found: dict[Path, tuple[Library, list[str]]] = {}
    for name in names or (str(folders.trees()),):
        path = Path(name)
        own = name in (known := Library(folders.trees()).names())
        if not own and not path.exists():
            raise TreeError(
                [
                    Problem(
                        Place(name, 1, 1),
                        f"There is no tree, file or folder {quoted(name)}.{choose_from(name, known)}",
                    )
                ]
            )
        folder = folders.trees() if own else path if path.is_dir() else path.parent
        library, trees = found.setdefault(folder.resolve(), (Library(folder), []))
        named = [path.stem] if own or path.is_file() else library.names()
        if not named or not set(named) <= set(library.names()) or folder.name == "parts":
            raise TreeError(
                [
                    Problem(
                        Place(name, 1, 1),
                        "There is no tree here. Parts are walked in the trees that use them.",
                    )
                ]
            )
        trees += [one for one in named if one not in trees]
    return list(found.values())
