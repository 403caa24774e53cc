"""The lines that findings stand on, how much of a line a finding is about, and files named from here."""

from __future__ import annotations

import re
from pathlib import Path

from shorewalk.tree.source import Place, TreeError, read_bytes

TOKEN = re.compile(r"""'(?:[^']|'')*'|"(?:[^"\\]|\\.)*"|[{\[]|[^\s,:\[\]{}]+""")


def shown(file: str) -> str:
    """Return a path from here where the file lies below, else as it is."""
    path = Path(file)
    return str(path.resolve().relative_to(Path.cwd())) if path.resolve().is_relative_to(Path.cwd()) else file


class Lines:
    """Lines of files, each file read once; `None` where there is none to show."""

    def __init__(self) -> None:
        self._texts: dict[str, list[str]] = {}

    def __call__(self, file: str, line: int) -> str | None:
        if file not in self._texts:
            try:
                self._texts[file] = read_bytes(Path(file)).decode("utf-8-sig", errors="replace").split("\n")
            except TreeError:
                self._texts[file] = []
        text = self._texts[file]
        return text[line - 1].rstrip("\r") if line <= len(text) else None


def length(line: str, place: Place) -> int:
    """Return how many characters the word at a place has; 1 where none stands there."""
    token = TOKEN.match(line, min(place.column - 1, len(line)))
    return len(token[0]) if token else 1


def columns(line: str | None, place: Place) -> tuple[int, int]:
    """Return where the word at a place begins, and the column behind it, in UTF-16 units from 1.

    That is what most viewers count in; it differs from characters only behind those beyond U+FFFF.
    """
    if line is None:
        return place.column, place.column + 1
    begin = place.column - 1
    end = begin + length(line, place)
    return _units(line[:begin]) + 1, _units(line[:end]) + 1 + max(0, end - max(len(line), begin))


def _units(text: str) -> int:
    return len(text.encode("utf-16-le", errors="surrogatepass")) // 2
