"""What somebody asked to have looked at: files and folders, each with the folder of trees it belongs to."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from shorewalk import folders
from shorewalk.tree.library import Library
from shorewalk.tree.source import not_collecting

from .finding import Finding
from .look import Looked, look
from .rule import Rule
from .rules import RULES
from .view import View

INNER = ("parts", "site")


class BadPathError(ValueError):
    """A path was named that holds no trees; the sentence says which."""


@dataclass
class Asked:
    """What of one library was asked for: all of it, or files named as they stand in it (`parts/skin.yaml`)."""

    library: Library
    whole: bool = False
    names: set[str] = field(default_factory=set)

    @not_collecting()
    def look(self, rules: Iterable[Rule] = RULES) -> tuple[Looked, View]:
        """Look at what was asked for, and at whatever is needed to judge it."""
        if self.whole:
            view = View(self.library, parts=self._stems("parts/*.yaml"))
            return look(view, rules), view
        trees = [Path(name).stem for name in sorted(self.names) if "/" not in name]
        parts = [Path(name).stem for name in sorted(self.names) if name.startswith("parts/")]
        view = View(self.library, trees, parts)
        if len(trees) == len(self.names):
            return look(view, rules), view
        # A part or a fact is judged in the trees that use it, so all are looked at, but not told of.
        shown = {written.file for written in view.files}
        everything = View(self.library, parts=parts)
        looked = look(everything, rules)
        found = [finding for finding in looked.findings if self._shows(finding, shown, everything)]
        silenced = [each for each in looked.silenced if self._shows(each.finding, shown, everything)]
        return Looked(found, silenced, looked.stopped), view

    def _shows(self, finding: Finding, shown: set[str], view: View) -> bool:
        """Tell whether a finding is in a file that was named, or in facts so broken that nothing can be judged."""
        file = Path(finding.place.file)
        inner = f"{file.parent.name}/{file.name}"
        named = inner in self.names and self.library.owns(finding.place.file)
        return named or finding.place.file in shown or (view.site is None and file.parent.name == "site")

    def _stems(self, pattern: str) -> list[str]:
        return sorted(path.stem for path in self.library.folder.glob(pattern))


def asked_for(paths: Sequence[str | Path], *, around: bool = False) -> list[Asked]:
    """Return what was asked for, folder by folder; the shipped trees where nothing is named.

    With `around`, the whole folder that each file belongs to. Raises `BadPathError` with every path that is not
    there or holds no trees.
    """
    asked: dict[Path, Asked] = {}
    wrong = []
    for path in [Path(path) for path in paths] or [folders.trees()]:
        if problem := _wrong(path):
            wrong.append(problem)
            continue
        home = path if path.is_dir() else path.parent
        home = home.resolve() if not home.name and home.resolve().name in INNER else home
        inner = home.name in INNER and not (home / "parts").is_dir()
        files = [path] if path.is_file() else sorted(home.glob("*.yaml")) if inner else []
        folder = home.parent if inner else home
        one = asked.setdefault(folder.resolve(), Asked(Library(folder)))
        one.whole = one.whole or around or not files
        one.names |= {f"{home.name}/{file.name}" if inner else file.name for file in files}
    if wrong:
        raise BadPathError("\n".join(wrong))
    return list(asked.values())


def _wrong(path: Path) -> str | None:
    if path.is_dir():
        if any(path.glob("*.yaml")) or any(path.glob("parts/*.yaml")):
            return None
        return f'There is no tree in "{path}". Trees are files that end in .yaml.'
    if not path.exists():
        return f'There is no file or folder "{path}".'
    if path.suffix != ".yaml":
        return f'"{path}" does not end in .yaml, as trees, parts and facts do.'
    return None
