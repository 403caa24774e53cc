"""Stretches of readings and rows of judgements as lines to take."""

from __future__ import annotations

from dataclasses import replace

from shorewalk.electrics.using import FUNCTIONS
from shorewalk.tree.model import GRADES, Ask, Band, Condition, Measure, Node, Row, Tally, Work
from shorewalk.tree.words import listed

from .adding import least_amps
from .cuts import Kind, band_stretches, condition_stretches
from .desk import Desk, spoken
from .slack import USUAL_AMPS, slack_of
from .step import Ahead
from .uses import Uses

UNITS = {"ac-volts": "V", "dc-volts": "V", "hertz": "Hz", "ohms": "ohm", "amps": "A"}
DONE = {"done": "was done", "cannot": "could not be done", "unable": "could not be measured"}
FINER = "only a better meter can tell this apart"


def kind_of(node: Node | None, amps: float = USUAL_AMPS) -> Kind:
    """Return how the numbers of a node are compared; `amps`: the least that a sum divides by."""
    match node:
        case Measure():
            return Kind(UNITS.get(node.what, ""), node.what)
        case Work():
            formula = FUNCTIONS.get(node.using)
            return Kind(formula.unit, off=slack_of(node.using, amps)) if formula else Kind("")
        case Tally():
            return Kind("A")
    return Kind("V", "ac-volts")


def amps_in(uses: Uses, where: str, node: Node | None) -> float:
    """Return the least amps that a sum is worked out with: of the smallest load that may be ticked for it."""
    names = [name for arg, name in node.inputs if arg == "amps"] if isinstance(node, Work) else []
    tallies = (uses.node(found.at) for name in names for found in uses.means(where, name))
    loads = {load for tally in tallies if isinstance(tally, Tally) for load in tally.loads}
    known = uses.library.site.loads
    return min((USUAL_AMPS, *(least_amps(known[load]) for load in loads if load in known)))


def band_lines(desk: Desk, where: str, bands: tuple[Band, ...], kind: Kind) -> list[Ahead]:
    """Return a line for each band."""
    if not bands:
        return []
    names = {name for band in bands if (name := band.below or band.upto)}
    if any(name.startswith("$") and len(desk.uses.values(where, name[1:])) > 1 for name in names):
        words = _named(bands)
    else:
        plain = tuple(
            replace(b, below=_limit(desk, where, b.below), upto=_limit(desk, where, b.upto)) for b in bands
        )
        found: dict[int, list[str]] = {}
        for stretch in band_stretches(plain, kind, desk.site.limits):
            found.setdefault(stretch.index, []).append(stretch.words(kind.unit))
        words = [" or ".join(found.get(index, [FINER])) for index in range(len(bands))]
    return [
        desk.way(where, f"band {index}", band.way, says)
        for index, (band, says) in enumerate(zip(bands, words, strict=True), 1)
    ]


def _limit(desk: Desk, where: str, name: str | None) -> str | None:
    if name and name.startswith("$"):
        return next((value.word for value in desk.uses.values(where, name[1:])), name)
    return name


def _named(bands: tuple[Band, ...]) -> list[str]:
    """Return bands by the names of their limits, which the part is given."""
    words, low = [], ""
    for band in bands:
        name = band.below or band.upto or ""
        high = f"[{spoken(name.removeprefix('$'))}]" if name else ""
        cut = f"{'under' if band.below else 'up to'} {high}"
        words.append(f"{low} or more" if not high else f"{low} to {cut}" if low else cut)
        low = high
    return words


def row_words(desk: Desk, where: str, row: Row) -> str:
    """Return what a row of a judgement asks for; nothing where it is always met."""
    parts = [_condition(desk, where, condition) for condition in row.when]
    parts += [f"{desk.state(where, name, value)} (or you do not know)" for name, value in row.while_]
    worst = desk.grade(where, row.worst)
    if worst in GRADES:
        worse = [grade.upper() for grade in GRADES[GRADES.index(worst) :]]
        parts.append(f"a line you took said {listed(worse)}")
    if row.lacks:
        parts.append(f"the {spoken(desk.word(where, row.lacks))} (before step 1) is not whole, or too old")
    return listed(parts, "and") if parts else ""


def _condition(desk: Desk, where: str, asked: Condition) -> str:
    refer = desk.refer(where, asked.node)
    found = next(desk.uses.means(where, asked.node), None)
    node = desk.uses.node(found.at) if found else None
    if asked.choice is not None:
        if isinstance(node, Ask) and found:
            says = {c.id: f'says "{desk.text(found.at[0], c.says)}"' for c in node.choices}
            return f"{refer} {says.get(asked.choice, 'says not sure')}"
        return f"{refer} {DONE.get(asked.choice, asked.choice)}"
    plain = Condition(
        asked.node,
        None,
        *(_limit(desk, where, n) for n in (asked.from_, asked.above, asked.below, asked.upto)),
    )
    kind = kind_of(node, amps_in(desk.uses, found.at[0], node) if found else USUAL_AMPS)
    stretches = condition_stretches(plain, kind, desk.site.limits)
    return f"{refer} is {' or '.join(s.words(kind.unit) for s in stretches) or FINER}"
