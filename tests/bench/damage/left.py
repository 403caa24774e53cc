"""Why a damage is left: in what a tree is otherwise with it, read off place by place by a program.

Only for what no rule found and no recorded walk noticed. What the program cannot tell apart is `OTHER`: for people.
"""

from __future__ import annotations

from collections.abc import Mapping

from shorewalk.tree.model import GRADES, VERDICTS, End, Judge, Measure, Node, Row, Way, ways_out

from .damaged import DamagedLibrary, Sound
from .edits import Damage
from .looking import OF_WORDS
from .proving import touched

REASON = "a reason or a message reads otherwise; no order, no answer"
ORDER = "a word of an order or an answer that no list of words has"
READ = "a caution that was read by then on every way, or that nothing asks for"
KNOWN = "brackets about words that are always known"
NOW = "no word of when to call, where to call is for now"
GRADE = "leads nowhere else; no judge, rule or ending ahead asks for the grade"
STATE = "leads nowhere else; no rule or judge ahead asks for the state"
PROBES = "leads nowhere else; another reading is taken"
COUNTS = "leads nowhere else; something else is counted, waited for or shown"
SEVERE = "ends more severely, or with the same verdict and call"
BESIDE = "rows beside one another lead the same way, or end with the same verdict and call"
SELDOM = "a row or band is met otherwise, and no recorded walk shows it"
OTHER = "leads elsewhere, and no recorded walk goes there"
CLASSES = (REASON, KNOWN, READ, NOW, GRADE, STATE, PROBES, COUNTS, SEVERE, BESIDE, SELDOM, OTHER, ORDER)

REASONED = ("why", "because", "say")


def why_left(sound: Sound, damage: Damage) -> str:
    """Return the class of a damage that was left."""
    if damage.kind in OF_WORDS:
        reads = REASON if damage.edits[0][0][-1] in REASONED else ORDER
        return {"caution-dropped": READ, "brackets-dropped": KNOWN, "words-dropped": NOW}.get(
            damage.kind, reads
        )
    name = sound.trees_with(damage.file)[0]
    whole, tree = sound.trees[name], DamagedLibrary(sound, damage).tree(name)
    found = {
        _of_node(whole.nodes[each], tree.nodes[each], whole.nodes)
        for each in touched(sound, whole, damage)
        if tree.nodes[each] != whole.nodes[each]
    }
    if (tree.begin, tree.starts) != (whole.begin, whole.starts):
        found.add(STATE)
    return max(found, key=CLASSES.index, default=COUNTS)


def _of_node(sound: Node, other: Node, nodes: Mapping[str, Node]) -> str:
    ways, now = dict(ways_out(sound)), dict(ways_out(other))
    if isinstance(sound, Judge) and isinstance(other, Judge) and _asked(sound.rows) != _asked(other.rows):
        return BESIDE if _beside(sound.rows, other.rows, nodes) else SELDOM
    if list(ways) != list(now) or _cuts(sound) != _cuts(other):
        return SELDOM
    moved = [(ways[label], now[label]) for label in ways if ways[label].goto != now[label].goto]
    if moved:
        return SEVERE if all(_severe(nodes.get(a.goto), nodes.get(b.goto)) for a, b in moved) else OTHER
    if any(ways[label].grade != now[label].grade for label in ways):
        return GRADE
    if any(ways[label].leaves != now[label].leaves for label in ways):
        return STATE
    if isinstance(sound, Measure) and isinstance(other, Measure):
        return PROBES
    return STATE if getattr(sound, "leaves", ()) != getattr(other, "leaves", ()) else COUNTS


def _asked(rows: tuple[Row, ...]) -> object:
    return [(row.when, row.while_, row.worst, row.lacks) for row in rows]


def _cuts(node: Node) -> object:
    return [(band.below, band.upto) for band in getattr(node, "bands", ())]


def _beside(rows: tuple[Row, ...], now: tuple[Row, ...], nodes: Mapping[str, Node]) -> bool:
    """Tell whether rows that changed places end alike, or a row that went has one beside it that ends alike."""
    if len(rows) == len(now):
        moved = [row for row, other in zip(rows, now, strict=True) if row != other]
        return all(row in now for row in moved) and all(_alike(moved[0], row, nodes) for row in moved)
    return all(any(_alike(row, other, nodes) for other in now) for row in rows if row not in now)


def _alike(row: Row, other: Row, nodes: Mapping[str, Node]) -> bool:
    same = other.way.goto == row.way.goto or _severe(nodes.get(row.way.goto), nodes.get(other.way.goto))
    return same and _grade(other.way) >= _grade(row.way)


def _severe(before: Node | None, after: Node | None) -> bool:
    """Tell whether an end is more severe than another, or has its verdict and its call."""
    if not isinstance(before, End) or not isinstance(after, End):
        return False
    at, then = VERDICTS.index(before.verdict), VERDICTS.index(after.verdict)
    return then < at or (then == at and (before.call, before.first) == (after.call, after.first))


def _grade(way: Way) -> int:
    return GRADES.index(way.grade) if way.grade in GRADES else -1
