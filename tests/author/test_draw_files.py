"""The drawings for other programs: read back by a parser, everything in them, no text that breaks out of its quotes."""

from __future__ import annotations

import html
import re
from collections import Counter
from collections.abc import Iterable
from pathlib import Path

import pydot
import pytest

from shorewalk.author.draw.as_dot import write_dot
from shorewalk.author.draw.as_mermaid import MOST_ARROWS, too_large, write_mermaid
from shorewalk.author.draw.asked import Asked, asked_for
from shorewalk.author.draw.drawing import Drawing
from shorewalk.author.draw.gather import gather
from shorewalk.author.draw.rooms import identifiers
from shorewalk.tree.library import shipped

from .test_draw_text import SMALL

TREES = shipped().names()
PARTS = shipped().part_names()
NASTY = 'Is it "so" \\ <b>&amp; | ]} #quot; `x` -- %% {{ ende\\'
QUOTED = r'"(?P<words>[^"]*)"'
NODE = re.compile(
    rf"""^\ *(?P<id>n_\w+)(?:\({QUOTED}\)|\[{QUOTED}\]|\[/{QUOTED}/\]|\[/{QUOTED}\\\]|\[\\{QUOTED}/\]
    |\[\[{QUOTED}\]\]|\[\({QUOTED}\)\]|\(\[{QUOTED}\]\)|\{{{QUOTED}\}}|\{{\{{{QUOTED}\}}\}}|>{QUOTED}\])$""".replace(
        "?P<words>", ""
    ),
    re.VERBOSE,
)
"""The shapes of a flowchart's node, from Mermaid's syntax reference; in quotes all but a quote may stand."""

WAY = re.compile(rf"^ *(?P<source>n_\w+) (?:-->|-\.->)\|{QUOTED}\| (?P<target>n_\w+)$")
OLD_NAMES = pytest.mark.filterwarnings("ignore::DeprecationWarning")
"""The parser of DOT calls its own library by names that the library has since changed."""

PLAIN = re.compile(r"(?:[a-zA-Z0-9_ ,.:?!'()/+-]|[^\x00-\x7f]|#\d+;|<br/>)*")


def drawing_of(name: str, *, opened: bool = False) -> Drawing:
    return gather(Asked(shipped(), name, "tree" if name in TREES else "part"), opened=opened)


def nasty(folder: Path) -> Drawing:
    """Return the small tree with every character in its words that means something in some format."""
    text = "'" + NASTY.replace("'", "''") + "'"
    changed = (
        SMALL.replace("Does it hum?", text).replace('"Yes, loud"', text).replace("It hums\n", f"{text}\n", 1)
    )
    file = folder / "small.yaml"
    file.write_text(changed, encoding="utf-8")
    return gather(asked_for(str(file)), opened=False)


def said(words: str) -> str:
    """Return a Mermaid text as it is shown."""
    return re.sub(r"#(\d+);", lambda found: chr(int(found[1])), words.replace("<br/>", " "))


def mermaid_parts(text: str) -> tuple[dict[str, str], list[tuple[str, str, str]]]:
    """Return the nodes and ways of a flowchart; every line has to be one of those few that are written."""
    assert text.startswith("---\ntitle: '")
    head, _, body = text.partition("---\nflowchart TD\n")
    assert head.count("\n") == 2
    nodes: dict[str, str] = {}
    ways: list[tuple[str, str, str]] = []
    frames = 0
    for line in body.splitlines():
        if found := NODE.match(line):
            words = next(words for words in found.groups()[1:] if words is not None)
            assert PLAIN.fullmatch(words), words
            assert found["id"] not in nodes
            nodes[found["id"]] = said(words)
        elif found := WAY.match(line):
            assert PLAIN.fullmatch(found["words"]), found["words"]
            ways.append((found["source"], found["target"], said(found["words"])))
        elif re.match(rf"^ *subgraph part_\d+\[{QUOTED}\]$", line):
            frames += 1
        else:
            assert line.strip() == "end"
            frames -= 1
    assert frames == 0
    return nodes, ways


def wanted(drawing: Drawing) -> tuple[set[str], Counter[tuple[str, str, str]]]:
    """Return what a file should hold: the identifiers, and the ways with their words."""
    ids = identifiers(drawing)
    ways = Counter(
        (ids[arrow.source], ids[arrow.target], arrow.words(loop=arrow in drawing.loops))
        for arrow in drawing.arrows
    )
    assert set(ids) == set(drawing.boxes)
    return set(ids.values()), ways


@pytest.mark.parametrize("opened", [False, True])
@pytest.mark.parametrize("name", [*TREES, *PARTS])
def test_mermaid_has_every_node_and_every_way(name: str, *, opened: bool) -> None:
    """By a strict reading of the few forms it uses, with the author's words in place."""
    drawing = drawing_of(name, opened=opened)
    nodes, ways = mermaid_parts(write_mermaid(drawing))
    names, arrows = wanted(drawing)
    assert set(nodes) == names
    assert Counter(ways) == arrows
    for name_, id_ in identifiers(drawing).items():
        assert nodes[id_].replace(" ", "").startswith(drawing.boxes[name_].heading().replace(" ", ""))


def whole(ways: Iterable[tuple[str, str, str]]) -> Counter[tuple[str, str, str]]:
    """Return ways without the spaces in their words: a long name may be broken at the end of a line."""
    return Counter((source, target, words.replace(" ", "")) for source, target, words in ways)


@OLD_NAMES
@pytest.mark.parametrize(("name", "opened"), [*((name, False) for name in TREES), ("breaker-trips", True)])
def test_dot_has_every_node_and_every_way(name: str, *, opened: bool) -> None:
    """As an independent parser of the language reads it."""
    drawing = drawing_of(name, opened=opened)
    nodes, ways = dot_parts(write_dot(drawing))
    names, arrows = wanted(drawing)
    assert set(nodes) == names
    assert whole(ways) == whole(arrows.elements())


def dot_parts(text: str) -> tuple[dict[str, str], list[tuple[str, str, str]]]:
    """Return the nodes and ways of a DOT file by its parser, texts as they are shown."""
    graphs = pydot.graph_from_dot_data(text)
    assert graphs is not None
    (graph,) = graphs
    nodes: dict[str, str] = {}
    waiting: list[pydot.Graph] = [graph]
    while waiting:
        inner = waiting.pop()
        waiting += inner.get_subgraphs()
        for node in inner.get_nodes():
            if node.get_name() not in ("node", "edge"):
                nodes[node.get_name()] = shown(node.get("label"))
    ways = [
        (str(edge.get_source()), str(edge.get_destination()), shown(edge.get("label")))
        for edge in graph.get_edges()
    ]
    return nodes, ways


def shown(label: str) -> str:
    """Return a DOT label as it is shown: what a backslash and `&...;` stand for."""
    assert label[0] == label[-1] == '"'
    inner = re.sub(r"\\(.)", lambda found: " " if found[1] == "n" else found[1], label[1:-1])
    return html.unescape(inner)


@OLD_NAMES
def test_words_cannot_break_out_of_a_file(tmp_path: Path) -> None:
    """Quotes, backslashes, brackets, bars, markup and entities are shown as the author wrote them."""
    drawing = nasty(tmp_path)
    for nodes, ways in (mermaid_parts(write_mermaid(drawing)), dot_parts(write_dot(drawing))):
        assert len(nodes) == 6
        assert NASTY.replace(" ", "") in nodes["n_hum"].replace(" ", "")
        assert f"{NASTY} (■ stop)" in [says for _, _, says in ways]


def test_endings_tell_their_verdict_by_word_mark_and_shape() -> None:
    """Colour would be lost in print; words alone would be lost from afar."""
    drawing = drawing_of("arrival", opened=True)
    dot, mermaid = write_dot(drawing), write_mermaid(drawing)
    for word, mark, dot_shape, before in (
        ("Hands off", "✕", "shape=octagon", "[/"),
        ("Stay unplugged", "■", "peripheries=2", "[\\"),
        ("Use with care", "▲", "shape=house", "[("),
        ("Good to use", "✓", "shape=ellipse", "(["),
    ):
        assert re.search(rf'\[{dot_shape}[^\]"]*label="{mark} {word}|{dot_shape}, label="{mark} {word}', dot)
        assert f'{before}"{mark} {word}' in mermaid


def test_ways_that_close_a_loop_are_dashed() -> None:
    """And say so in words."""
    drawing = drawing_of("outlet-one-hot")
    assert drawing.loops
    mermaid, dot = write_mermaid(drawing), write_dot(drawing)
    assert mermaid.count(" -.->|") == dot.count("style=dashed") == len(drawing.loops)
    assert all("loop" in line for line in mermaid.splitlines() if " -.->|" in line)


def test_no_text_begins_like_a_list_in_markdown() -> None:
    """Mermaid reads labels as Markdown, and draws a list as a complaint."""
    from shorewalk.author.draw.as_mermaid import _quoted

    assert _quoted(["1. First"]) == '"1#46; First"'
    assert _quoted(["- First"]) == '"#45; First"'
    assert _quoted(["120 V", "-5"]) == '"120 V<br/>-5"'


def test_what_mermaid_would_refuse_is_told() -> None:
    """Its defaults are 500 arrows and 50,000 characters (its configuration reference: maxEdges, maxTextSize)."""
    large, small = drawing_of("arrival", opened=True), drawing_of("tingle")
    assert str(MOST_ARROWS) in str(too_large(large, write_mermaid(large)))
    assert too_large(small, write_mermaid(small)) is None
