"""The table of a run: of each kind how many were seeded, looked for and found, and by which layer first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping

from shorewalk.lint.rules import safety

from .looking import WEAK, Result

LAYERS = ("shape", "floor", "words", "safety", "evidence")
FLOOR = {"grade-too-mild", "never-judged", "own-facts"}
WORDS = {
    "caution-missing", "colour-alone", "dangerous-words", "double-negative", "endings-alike", "hard-to-read",
    "choice-words", "long-sentence", "one-action", "orders-fit", "placeholder-unknown", "too-many-lines", "verb-first",
    "word-and-deed",
}  # fmt: skip
EVIDENCE = {"evidence", "measured-before-plugged"}


def layer(rule: str) -> str:
    """Return which layer of the linter a rule belongs to."""
    if rule in EVIDENCE:
        return "evidence"
    if rule in safety.SHARED or rule == "needs-hold":
        return "safety"
    if rule in FLOOR:
        return "floor"
    return "words" if rule in WORDS else "shape"


def caught_by(result: Result) -> str | None:
    """Return the first layer that found a damage; `None` where nothing did, or only `unreachable`."""
    layers = {layer(rule) for rule in result.rules if rule != WEAK}
    return next((name for name in LAYERS if name in layers), None)


def table(seeded: Mapping[str, int], results: Iterable[Result]) -> str:
    """Return the table as Markdown, a line for each kind and one for all."""
    of_kind: dict[str, list[Result]] = {name: [] for name in seeded}
    for result in results:
        of_kind[result.kind].append(result)
    lines = [
        f"| kind | fits | tried | found | {' | '.join(LAYERS)} | a walk | left | unproved |",
        "| --- |" + " ---: |" * (len(LAYERS) + 6),
    ]
    lines += [_line(name, seeded[name], found) for name, found in of_kind.items() if seeded[name]]
    lines.append(_line("all", sum(seeded.values()), [each for found in of_kind.values() for each in found]))
    return "\n".join(lines) + "\n"


def _line(name: str, fits: int, results: list[Result]) -> str:
    layers = Counter(caught_by(result) for result in results)
    left = [result for result in results if not result.found]
    noticed = sum(result.noticed for result in left)
    unproved = sum(not result.proved and not result.noticed for result in left)
    cells = [fits, len(results), len(results) - len(left), *(layers[each] for each in LAYERS)]
    shown = [str(cell or "") for cell in (*cells, noticed, len(left) - noticed - unproved, unproved)]
    return f"| {name} | {' | '.join(shown)} |"
