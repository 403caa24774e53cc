"""How problems speak: what was found in quotes, what is allowed in a list, the nearest valid name."""

from __future__ import annotations

from collections.abc import Iterable


def quoted(text: object, longest: int = 50) -> str:
    """Return `text` in quotes on one line, cut where it is long."""
    line = " ".join(str(text).split())
    return f'"{line if len(line) <= longest else line[: longest - 3] + "..."}"'


def listed(names: Iterable[str], last: str = "or") -> str:
    """Return `a, b or c`."""
    *most, end = list(names) or ["nothing"]
    return f"{', '.join(most)} {last} {end}" if most else end


def nearest(name: str, names: Iterable[str]) -> str:
    """Return ` Did you mean ...?` with the name most like `name`, or nothing where none is near."""
    import difflib  # only needed when something is wrong

    near = difflib.get_close_matches(name, sorted(names), n=1, cutoff=0.6)
    return f" Did you mean {quoted(near[0])}?" if near else ""


def choose_from(name: str, names: Iterable[str], most: int = 12) -> str:
    """Return what to do about a wrong `name`: the nearest valid one, and all of them where they are few."""
    known = sorted(names)
    hint = nearest(name, known)
    if not known:
        return " There are none to choose from."
    if len(known) > most and hint:
        return hint
    shown = known if len(known) <= most else [*known[:most], f"{len(known) - most} more"]
    return f"{hint} Use {listed(shown, 'and' if len(known) > most else 'or')}."
