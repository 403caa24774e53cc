"""From the plain data of one file to its frozen `Written`, quickly and without pydantic.

It understands what a sound file holds and refuses the first thing it cannot understand; `check.py`
tells a tree's author everything at once.
"""

from __future__ import annotations

from .model import Written
from .nodes import build_node
from .source import Data, Problem, Source, TreeError, not_collecting
from .take import Mistake, maybe, take_map, take_only, take_pairs, take_word, take_words

TREE_KEYS = frozenset({"tree", "symptom", "also", "tells", "about", "starts", "begin", "nodes", "allows"})
PART_KEYS = frozenset({"part", "about", "takes", "exits", "begin", "nodes", "allows"})


def build_written(source: Source) -> Written:
    """Return the tree or part in `source`; raise `TreeError` at what cannot be understood."""
    try:
        with not_collecting():
            return _written(source.data, source.file)
    except Mistake as mistake:
        place = source.place(mistake.route, key=mistake.key)
        raise TreeError([Problem(place, mistake.message)]) from None


def _written(data: dict[str, Data], file: str) -> Written:
    kind = "part" if "part" in data else "tree"
    take_only(data, PART_KEYS if kind == "part" else TREE_KEYS, ())
    nodes = take_map(data.get("nodes"), ("nodes",))
    return Written(
        kind=kind,
        name=take_word(data.get(kind), (kind,)),
        file=file,
        begin=take_word(data.get("begin"), ("begin",)),
        about=maybe(take_word, data, "about", ()),
        nodes={name: build_node(name, node, file) for name, node in nodes.items()},
        symptom=take_word(data.get("symptom"), ("symptom",)) if kind == "tree" else "",
        also=take_words(data, "also", ()),
        tells=take_words(data, "tells", ()),
        starts=take_pairs(data, "starts", ()),
        takes=take_words(data, "takes", ()),
        exits=take_words(data, "exits", ()),
        allows=take_pairs(data, "allows", ()),
    )
